"""The whole build against the plain way: Markdown pages and a matplotlib drawing for every worked joint.

Both ways read the same course, evaluate the same joints and show the same words, tables, formulas and
drawn lines. Turning our pages into Markdown is not counted, nor what only our own way has (charts and
group pages are left in both sites as they are), so the plain way is treated kindly.

Run:  .venv/bin/python benchmarks/build_ratio.py [number of joints, default 60]
"""
import os
import re
import shutil
import sys
import tempfile
import time
from dataclasses import replace
from importlib.metadata import version
from pathlib import Path

import html5lib

from guidegen.guide.compose import compose
from guidegen.guide.publish import publish
from guidegen.joint import Worked
from guidegen.kit.reader import read_course, read_words
from guidegen.revision import revision

COURSE = Path(__file__).parent.parent
RESULTS = Path(__file__).with_name("results.md")
OF_JOINTS = ("joints/", "working/", "making/", "fits/")  # pages that each joint has in both sites
BLOCKS = {"p", "div", "section", "ul", "ol", "dl", "dt", "dd", "figure", "figcaption", "details", "summary"}


class Clock:
    """Seconds of processor time, by what they were spent on."""

    def __init__(self):
        self.spent = {}

    def timed(self, what, work, *arguments):
        started = time.process_time()
        try:
            return work(*arguments)
        finally:
            self.spent[what] = self.spent.get(what, 0) + time.process_time() - started


def main(count):
    import matplotlib.pyplot  # noqa: F401  both ways have it loaded: ours for the charts
    clock = Clock()
    course = clock.timed("read, expand", read_course, COURSE)
    worked = Worked(course)
    joints = clock.timed("read, expand", lambda: worked.joints)
    chosen = joints[:: max(1, len(joints) // count)][:count]
    results = clock.timed("evaluate", lambda: [worked.result(one) for one in chosen])
    mark, words = revision(COURSE), read_words(COURSE / "shared")
    with tempfile.TemporaryDirectory() as scratch:
        guide = clock.timed("ours: compose", compose, course, results, words)
        pages = tuple(page for page in guide.pages if page.path.startswith(OF_JOINTS))
        publish(COURSE, guide, mark, Path(scratch, "ours"))  # not timed: loads what both ways need
        clock.timed("ours: site", publish, COURSE, guide, mark, Path(scratch, "ours"))
        plain = Path(scratch, "plain")
        figures = write_markdown(pages, plain)
        clock.timed("plain: draw", lambda: [draw(*figure) for figure in figures])
        rest = replace(guide, pages=tuple(page for page in guide.pages if page not in pages))
        clock.timed("plain: site", publish, plain, rest, mark, Path(scratch, "plain-site"))
        size = os.path.getsize
        weights = [sum(size(Path(scratch, site, page.path)) for page in pages) / len(pages)
                   for site in ("ours", "plain-site")]
    report(clock.spent, len(chosen), weights)


def write_markdown(pages, course):
    """A course folder whose worked pages are written in Markdown; gives the drawings to be made."""
    shutil.copytree(COURSE / "docs", course / "docs")
    settings = (COURSE / "mkdocs.yml").read_text()
    unchecked = "validation: {links: {not_found: ignore, anchors: ignore, unrecognized_links: ignore}}"
    settings = re.sub(r"(?s)\nvalidation:.*?\n\n", f"\n{unchecked}\n\n", settings)  # some joints are left out
    unlisted = "".join(f"  /{folder}\n" for folder in OF_JOINTS)
    (course / "mkdocs.yml").write_text(f"{settings}\nnot_in_nav: |\n{unlisted}")
    figures = []
    for page in pages:
        path = course / "docs" / page.path.replace(".html", ".md")
        path.parent.mkdir(parents=True, exist_ok=True)
        body = html5lib.parseFragment(page.body, namespaceHTMLElements=False)
        path.write_text(f"---\ntitle: {page.path}\n---\n" + in_markdown(body, path, figures))
    return figures


def in_markdown(element, path, figures) -> str:
    """An HTML element and what follows it, as a person would write it in Markdown."""
    tag = bare(element)
    tail = re.sub(r"\s+", " ", element.tail or "")
    if not tag:
        return tail
    if tag == "svg":
        target = path.with_name(f"{path.stem}-{len(figures)}.svg")
        figures.append((element, target))
        return f"\n\n![drawing]({target.name})\n\n{tail}"
    if tag == "math":
        return raw(element) + tail
    if tag == "table":
        return "\n\n" + table(element, path, figures) + "\n\n" + tail
    inner = re.sub(r"\s+", " ", element.text or "")
    inner += "".join(in_markdown(child, path, figures) for child in element)
    if re.fullmatch("h[1-6]", tag):
        name = f" {{#{element.get('id')}}}" if element.get("id") else ""
        return f"\n\n{'#' * int(tag[1])} {one_line(inner)}{name}\n\n{tail}"
    if tag == "a" and element.get("href") and "<" not in inner:
        return f"[{one_line(inner)}]({element.get('href').replace('.html', '.md')}){tail}"
    if tag in ("strong", "em", "code"):
        sign = {"strong": "**", "em": "*", "code": "`"}[tag]
        return f"{sign}{inner.strip()}{sign}{tail}"
    if tag == "li":
        return f"\n- {one_line(inner)}{tail}"
    return f"\n\n{inner.strip()}\n\n{tail}" if tag in BLOCKS else inner + tail


def bare(element):
    """The name of an element without its namespace; empty for a comment."""
    return element.tag.rsplit("}")[-1] if isinstance(element.tag, str) else ""


def one_line(text):
    return " ".join(text.split())


def raw(element):
    attributes = "".join(f' {name}="{value}"' for name, value in element.attrib.items())
    inner = (element.text or "") + "".join(raw(child) + (child.tail or "") for child in element)
    return f"<{bare(element)}{attributes}>{one_line(inner)}</{bare(element)}>"


def table(element, path, figures):
    lines = []
    for row in element.iter("tr"):
        cells = [one_line(in_markdown(cell, path, figures)).replace("|", "\\|") for cell in row]
        lines.append("| " + " | ".join(cells) + " |")
        if len(lines) == 1:
            lines.append("|" + "---|" * len(cells))
    return "\n".join(lines)


def draw(svg, target):
    """The lines, shapes and words of a drawing, made anew with matplotlib."""
    from matplotlib.figure import Figure
    from matplotlib.patches import Circle, Rectangle
    figure = Figure(figsize=(8, 4), layout="constrained")
    axes = figure.add_subplot(aspect="equal")

    def number(shape, name):
        found = re.match(r"[-+.\deE]+", shape.get(name) or "0")
        return float(found[0]) if found else 0.0

    for shape in svg.iter():
        tag = bare(shape)
        if tag == "rect":
            axes.add_patch(Rectangle((number(shape, "x"), number(shape, "y")),
                                     number(shape, "width"), number(shape, "height"), fill=False))
        elif tag == "circle":
            axes.add_patch(Circle((number(shape, "cx"), number(shape, "cy")), number(shape, "r"), fill=False))
        elif tag == "line":
            axes.plot([number(shape, "x1"), number(shape, "x2")], [number(shape, "y1"), number(shape, "y2")])
        elif tag in ("path", "polyline", "polygon"):
            written = re.findall(r"-?\d*\.?\d+", shape.get("d") or shape.get("points") or "")
            across, along = written[0::2], written[1::2]
            axes.plot([float(x) for x in across[:len(along)]], [float(y) for y in along])
        elif tag == "text":
            axes.text(number(shape, "x"), number(shape, "y"), "".join(shape.itertext()))
    axes.autoscale()
    axes.invert_yaxis()
    figure.savefig(target)


def report(spent, pages, weights):
    ours = spent["ours: compose"] + spent["ours: site"]
    plain = spent["plain: draw"] + spent["plain: site"]
    both = spent["read, expand"] + spent["evaluate"]
    text = "\n".join([
        "# Whole build against the plain way", "",
        "Made by `benchmarks/build_ratio.py`, which says what is compared. Processor seconds, one run.", "",
        f"{pages} worked joints; {os.cpu_count()} cores; Python {sys.version.split()[0]}, "
        f"mkdocs {version('mkdocs')}, matplotlib {version('matplotlib')}.", "",
        "| spent on | s |", "|---|---|",
        *(f"| {what} | {seconds:.2f} |" for what, seconds in spent.items()), "",
        "| | ours | plain way | ours / plain |", "|---|---|---|---|",
        f"| whole build | {both + ours:.2f} | {both + plain:.2f} | {(both + ours) / (both + plain):.3f} |",
        f"| pages, drawings, site | {ours:.2f} | {plain:.2f} | {ours / plain:.3f} |",
        f"| weight of a page of a joint, kB | {weights[0] / 1000:.1f} | {weights[1] / 1000:.1f} | |", ""])
    RESULTS.write_text(text)
    print(text)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 60)
