"""The whole guide of a course, as finished pages and files, knowing nothing of the site builder."""

import json
from pathlib import Path
from typing import Iterable, Iterator

from guidegen.drawing import DRAWING_CSS
from guidegen.guide.charts import CHART_CSS
from guidegen.guide.calculator_page import calculator_files, calculator_page
from guidegen.guide.chains_page import chains_page
from guidegen.guide.charts_page import chart_pages
from guidegen.guide.choosing import choosing_page, trial_files
from guidegen.guide.edition import Edition
from guidegen.guide.hole_pages import hole_pages
from guidegen.guide.finder_data import columns, joints_file
from guidegen.guide.finder_page import JOINTS, SCRIPTS, finder_pages
from guidegen.guide.home import home_page
from guidegen.guide.joint_pages import group_pages, table_page
from guidegen.guide.layouts import layouts_page
from guidegen.guide.measuring_page import measuring_page
from guidegen.guide.method_pages import method_pages
from guidegen.guide.money_pages import money_pages
from guidegen.guide.near_sizes_page import near_sizes_page
from guidegen.guide.page import Guide, Page
from guidegen.guide.pairs import groups
from guidegen.guide.part_pages import part_pages
from guidegen.guide.rules_page import rules_page
from guidegen.guide.stacks_page import stacks_pages
from guidegen.guide.press_page import press_pages
from guidegen.guide.surroundings_page import surroundings_page
from guidegen.guide.tools_page import tools_page
from guidegen.guide.trials import kit_trials
from guidegen.guide.trouble_page import trouble_page
from guidegen.guide.weights import weights_page
from guidegen.guide.word_pages import checks_page, glossary_page, safety_page, sources_page
from guidegen.guide.worked import joint_pages
from guidegen.joint.records import Result
from guidegen.kit.published import Published
from guidegen.kit.records import Course, Words

ASSETS = Path(__file__).parent / "assets"
STYLE, SCRIPT = "assets/guide.css", "assets/guide.js"
EVERYWHERE = ("guide.js", "units.js", "links.js")  # scripts of every page, in one file


def compose(
    course: Course, results: Iterable[Result], words: Words, published: tuple[Published, ...] = ()
) -> Guide:
    """Every page of the guide: one for each result, and those that bring them together.

    `words`: cautions and glossary; `published`: printed results for the page of checks.
    """
    edition = Edition(course, tuple(results), words)
    made = groups(edition.results, course.joints, edition.kits)
    trials = kit_trials(edition.kits, made, course)
    searched = columns(edition)
    files = _files(edition, searched) | trial_files(trials)
    return Guide(tuple(_pages(edition, made, trials, published, searched)), files, (STYLE,), (SCRIPT,))


def _pages(edition: Edition, made, trials, published, searched) -> Iterator[Page]:
    yield home_page(edition, made, trials)
    yield from finder_pages(edition, searched)
    yield calculator_page(edition)
    yield choosing_page(edition, made, trials)
    yield layouts_page(edition)
    yield weights_page(edition)
    yield from hole_pages(edition)
    yield from press_pages(edition)
    yield surroundings_page(edition)
    yield from chart_pages(edition, made, trials)
    yield table_page(edition, made)
    yield from group_pages(edition, made)
    for result in edition.results:
        yield from joint_pages(result, edition)
    yield from part_pages(edition, made)
    yield from money_pages(edition, made)
    yield tools_page(edition)
    yield from stacks_pages(edition)
    yield chains_page(edition)
    yield measuring_page(edition)
    yield trouble_page(edition)
    yield near_sizes_page(edition)
    yield rules_page(edition)
    yield from method_pages(edition)
    yield checks_page(edition, published, edition.results)
    yield glossary_page(edition)
    yield sources_page(edition)
    yield safety_page(edition)


def _files(edition: Edition, searched: dict) -> dict[str, bytes]:
    """Styles, scripts, the joints as the searching pages read them, and their ids for other programs."""
    ours = [(ASSETS / name).read_text(encoding="utf-8") for name in ("guide.css", "finder.css")]
    style = "\n".join([*ours, DRAWING_CSS, CHART_CSS])
    script = b"".join((ASSETS / name).read_bytes() for name in EVERYWHERE)
    listed = [
        {
            "id": result.id,
            "page": f"joints/{result.id}.html",
            "title": result.joint.title,
            "state": result.state,
        }
        for result in edition.results
    ]
    index = json.dumps(listed, ensure_ascii=False, indent=0)
    return {
        STYLE: style.encode(),
        SCRIPT: script,
        JOINTS: joints_file(searched),
        **calculator_files(edition),
        **{path: (ASSETS / Path(path).name).read_bytes() for path in SCRIPTS},
        "joints/index.json": index.encode(),
    }
