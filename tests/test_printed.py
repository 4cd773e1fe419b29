"""Fifty built pages read back: each worked line comes out as printed, and is what the program gives as data."""
import json
import re
import subprocess
import sys
from html import unescape
from xml.etree import ElementTree

import pytest
from conftest import ROOT
from read_mathml import lines, number, parted, truth, value, words

PAGES = 50
STEP = re.compile(r'<li id="s-(\w+)"(?: data-also="([^"]*)")?>(.*?)</li>', re.DOTALL)
MATH = re.compile(r"<math.*?</math>", re.DOTALL)
ROW = re.compile(r'<tr data-name="([\w ]+)">(.*?)</tr>', re.DOTALL)
CELL = re.compile(r"<td[^>]*>([^<]*)")
PRINTED = re.compile(
    r"(?P<beyond>over |under )?(?P<minus>−?)(?P<digits>[\d\u2009.]+)"
    r" ?(?P<unit>mm|N·mm|N|MPa·m/s|MPa|mrad|m/s|million turns|)"
)
PER_UNIT = {"m/s": 1000, "MPa·m/s": 1000}  # of a quantity, in the unit of the step that gives it
ROUNDED = 1 + 1e-6


@pytest.fixture(scope="module")
def pages(site):
    """Worked pages spread over the whole grid, by id."""
    every = sorted((site / "joints").glob("*.html"))
    return {page.stem: page.read_text(encoding="utf-8") for page in every[:: len(every) // PAGES]}


@pytest.fixture(scope="module")
def workings(site, pages):
    """Their pages of working."""
    return {name: (site / "working" / f"{name}.html").read_text(encoding="utf-8") for name in pages}


@pytest.fixture(scope="module")
def told(pages):
    """What `guidegen joint --json` tells of the same joints, by id."""
    run = subprocess.run([sys.executable, "-m", "guidegen", "joint", "--json", *pages], cwd=ROOT,
                         capture_output=True, text=True, timeout=300)
    assert run.returncode in (0, 1), run.stderr
    return {result["id"]: result for result in json.loads(run.stdout)}


def typical(result, name):
    """The result of the step of that name; the quantity of that name is the same, if there is one."""
    step = next(step["result"] for step in result["steps"] if step["gives"] == name)
    quantity = result["quantities"].get(name)
    if quantity:
        same = quantity.get("value", quantity.get("typical")) * PER_UNIT.get(quantity["unit"], 1)
        assert abs(same - step) <= 1e-9 * abs(step) + 1e-12, name
    return step


def fenced(maths):
    """The formulas as they were made: pages leave it to the browser which fences grow, and join a minus."""
    apart = re.sub("<mn>−([^<]*)</mn>", r"<mrow><mo>−</mo><mn>\1</mn></mrow>", maths)
    tree = ElementTree.fromstring(f"<all>{apart}</all>")
    for row in tree.iter("mrow"):
        if len(row) and row[0].tag == "mo" and row[0].text in ("(", "|"):
            if not any(row.iter("mfrac")) and not any(row.iter("mtable")):
                row[0].set("stretchy", "false")
                row[-1].set("stretchy", "false")
    return "".join(ElementTree.tostring(child, encoding="unicode") for child in tree)


def test_every_worked_line_comes_out_as_printed_and_as_told(workings, told):
    """Recomputed from the printed numbers alone; then held against the data of the same joint."""
    checked = 0
    assert len(workings) >= PAGES
    for name, page in workings.items():
        for gives, also, inside in STEP.findall(page):
            *before, put_in = lines(fenced("".join(MATH.findall(inside))))
            end = next((at for at, part in enumerate(put_in) if words(part) == "since"), None)
            assert end is None or truth(put_in[end + 1:], {}), (name, gives)
            _, *middle, right = parted(put_in[:end], "=")
            shown, half = number(right)
            if middle:
                assert abs(value(middle[0], {}) - shown) <= half * ROUNDED, (name, gives)
            else:  # a case was chosen that is one of the numbers put in, or worked out in a line before
                step = next(step for step in told[name]["steps"] if step["gives"] == gives)
                worked = [number(parted(upto_since(line), "=")[-1])[0] for line in before if numeric(line)]
                known = [*step["with"].values(), *worked]
                assert end and any(abs(put - shown) <= half * ROUNDED for put in known), (name, gives)
            for quantity in (gives, *also.split()):
                true = typical(told[name], quantity)
                assert abs(abs(true) - abs(shown)) <= half * ROUNDED + 1e-9 * abs(true), (name, quantity)
            checked += 1
    assert checked > 20 * PAGES


def upto_since(line):
    """What a line of numbers says, without the reason for its case."""
    return line[: next((at for at, part in enumerate(line) if words(part) == "since"), None)]


def numeric(line):
    """Whether a line ends in a number, perhaps with its unit: not one of letters."""
    return any(element.tag == "mn" for element in parted(upto_since(line), "=")[-1][:1])


def ends_of(data):
    return [data[end] for end in ("least", "typical", "most")] if "typical" in data else [data["value"]]


def test_the_tables_of_numbers_say_the_same(pages, told):
    """Least, typical and most in the tables of a page, in the first unit, are those of the data; limits too."""
    checked, seen = 0, set()
    for name, page in pages.items():
        known = told[name]["inputs"] | told[name]["quantities"]
        for quantities, row in ROW.findall(page):
            cells = [unescape(cell).strip() for cell in CELL.findall(row)]
            for quantity in quantities.split():
                ends = ends_of(known[quantity])
                stem, _, number = quantity.rpartition("_")
                limits = [known.get(f"{stem}_{end}_{number}") or known.get(f"{quantity}_{end}_1")
                          or known.get(f"{quantity}_{end}_2") for end in ("design", "ceiling")]
                if known[quantity]["unit"] in ("MPa", "m/s", "MPa·m/s") and all(limits):
                    ends += [limit["value"] for limit in limits]
                assert len(cells) >= len(ends), (name, quantity)
                for cell, true in zip(cells, ends):
                    found = PRINTED.match(cell)
                    assert found, (name, quantity, cell)
                    digits = found["digits"].replace("\u2009", "")
                    shown = float(digits) * (-1 if found["minus"] else 1)
                    true *= 1000 if found["unit"] == "mrad" else 1
                    if found["beyond"]:
                        assert (true > shown) if found["beyond"] == "over " else (0 < true < shown), (name, quantity)
                        continue
                    decimals = len(digits.partition(".")[2]) or len(digits.rstrip("0")) - len(digits)
                    assert abs(shown - true) <= 0.5 * 10.0**-decimals * ROUNDED, (name, quantity, cell, true)
                    checked += 1
                seen.add(re.sub("_[12]$", "", quantity))
    assert checked > 40 * PAGES and len(seen) > 30, (checked, len(seen))
