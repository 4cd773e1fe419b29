"""The page by which a joint is made: light, whole, its list and sums those of the joint."""

import re

import pytest
from joint_reference import course, some
from test_data import ROOT

from guidegen.guide.edition import Edition
from guidegen.guide.making import WORKED, making_page, parts_list, tools_of
from guidegen.guide.steps import sections_apart, sections_of
from guidegen.guide.worked import joint_pages
from guidegen.joint import evaluate, make_joint
from guidegen.joint.build_order import steps
from guidegen.kit.reader import read_words

HEAVIEST = 41_000  # bytes of the body; the theme adds some 14 000, and 55 000 is the most


@pytest.fixture(scope="module")
def edition():
    named = [evaluate(make_joint(course(), raw, id), course()) for id, raw in course().joints.items()]
    return Edition(course(), (*named, *some(60)), read_words(ROOT / "shared"))


@pytest.fixture(scope="module")
def pages(edition):
    return {result.id: making_page(result, edition) for result in edition.results}


def test_pages_are_light_and_out_of_the_search(pages):
    """The heaviest stays below its limit; none is in the search index or carries styles."""
    for page in pages.values():
        assert len(page.body.encode()) < HEAVIEST and not page.in_search
        assert re.match("<h1>", page.body) and not re.search(r"<script|<style|\sstyle=|http", page.body)
        assert {heading.id for heading in page.toc} <= page.anchors
        ids = re.findall(r'\sid="([^"]*)"', page.body)
        assert len(ids) == len(set(ids)), page.path


def test_links_go_both_ways(edition):
    """From the joint to its making and back, from the working too; a part's link names a part."""
    for result in edition.results[:12]:
        answer, working, making, fits = joint_pages(result, edition)
        assert f"making/{result.id}.html" in answer.body and f"making/{result.id}.html" in working.body
        assert f"joints/{result.id}.html" in making.body and f"fits/{result.id}.html" in making.body
        assert all(f"{folder}/{result.id}.html" in fits.body for folder in ("joints", "making", "working"))
        for part in re.findall(r'parts/([^"]+)\.html', making.body):
            assert part in course().parts


def test_the_list_is_the_joint(edition):
    """Pieces, prices and places of the list are those of the stack; what is to be measured is marked."""
    for result in edition.results:
        lines = parts_list(result, edition)
        assert sum(line.count for line in lines) == 1 + sum(
            row.part in course().parts for row in result.stack.placed
        )
        assert round(sum(line.part.price * line.count for line in lines), 2) == round(
            result.quantities["cost"].value, 2
        )
        places = [int(n) for line in lines for n in line.numbers.split(", ") if n]
        bought = [n for n, row in enumerate(result.stack.placed, 1) if row.part in course().parts]
        assert sorted(places) == bought, result.id
        asked = any(v.about == "end play" and v.state != "holds" for v in result.verdicts)
        assert any(line.measured for line in lines) == asked, result.id


def test_the_page_tells_every_step(edition, pages):
    """As many numbered places as there are steps; what stays is marked on top."""
    for result in edition.results:
        order = steps(result.joint, result.stack, course().parts)
        body = pages[result.id].body
        assert [int(n) for n in re.findall(r'id="step-(\d+)"', body)] == [step.number for step in order]
        final = [step.number for step in order if step.undo != "yes"]
        assert body.count('class="final"') == len(final)
        if final:
            assert f"{', '.join(map(str, final))}: what is done there stays so" in body


def test_tools_fit_the_fasteners_and_holes(edition):
    """A key and a wrench of the sizes of ISO 7379 and ISO 4032 for M6; a drill where something is drilled."""
    for result in edition.results:
        tools = tools_of(result, edition)
        if result.joint.thread.id == "M6":
            assert "hexagon key 4 mm" in tools and "wrench 10 mm" in tools
        joint = result.joint
        made = [*joint.housings, *(p for p in (joint.cheeks, joint.plate_on_thread and joint.on_thread) if p)]
        assert any(tool.startswith("reamer") for tool in tools) == any(
            p.process.tool == "reamer" for p in made
        )
        assert ("laser cutter" in tools) == any("laser" in p.process.name for p in made)


def test_steps_of_the_working_stand_on_one_page_only(edition):
    """None lost, none twice: what is apart and what is not make up the whole."""
    apart = 0
    for result in edition.results[::5]:

        def names(sections):
            return [name for part in sections for line in part.lines for name in line.gives]

        here, there = names(sections_of(result, WORKED)), names(sections_apart(result, WORKED))
        assert sorted(here + there) == sorted(names(sections_of(result)))
        assert not {name.rstrip("12").rstrip("_") for name in here} & WORKED
        apart += len(there)
    assert apart > 20
