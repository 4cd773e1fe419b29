"""Fifty built pages read back: each worked line comes out as printed, and is what the program gives as data."""
import json
import re
import subprocess
import sys
from html import unescape

import pytest
from conftest import ROOT
from read_mathml import lines, number, parted, truth, value, words

PAGES = 50
STEP = re.compile(r'<li id="s-(\w+)"(?: data-also="([^"]*)")?>(.*?)</li>', re.DOTALL)
MATH = re.compile(r"<math.*?</math>", re.DOTALL)
ROW = re.compile(r'<tr data-name="(\w+)">(.*?)</tr>', re.DOTALL)
CELL = re.compile(r"<td[^>]*>([^<]*)")
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
    """The typical value of a quantity, else the result of the step of that name."""
    quantity = result["quantities"].get(name)
    if quantity:
        return quantity.get("value", quantity.get("typical"))
    return next(step["result"] for step in result["steps"] if step["gives"] == name)


def test_every_worked_line_comes_out_as_printed_and_as_told(workings, told):
    """Recomputed from the printed numbers alone; then held against the data of the same joint."""
    checked = 0
    assert len(workings) >= PAGES
    for name, page in workings.items():
        for gives, also, inside in STEP.findall(page):
            put_in = lines("".join(MATH.findall(inside)))[-1]
            end = next((at for at, part in enumerate(put_in) if words(part) == "since"), None)
            assert end is None or truth(put_in[end + 1:], {}), (name, gives)
            _, *middle, right = parted(put_in[:end], "=")
            shown, half = number(right)
            assert middle, (name, gives)
            assert abs(value(middle[0], {}) - shown) <= half * ROUNDED, (name, gives)
            for quantity in (gives, *also.split()):
                true = typical(told[name], quantity)
                assert abs(abs(true) - abs(shown)) <= half * ROUNDED + 1e-9 * abs(true), (name, quantity)
            checked += 1
    assert checked > 20 * PAGES


def test_the_tables_of_numbers_say_the_same(pages, told):
    """Least, typical and most in the table of a page, in its first unit, are those of the data."""
    checked = 0
    for name, page in pages.items():
        for quantity, row in ROW.findall(page):
            cells = [unescape(cell).strip() for cell in CELL.findall(row)]
            data = told[name]["quantities"].get(quantity)
            if data is None:
                continue
            ends = [data[end] for end in ("least", "typical", "most")] if "typical" in data else [data["value"]]
            for cell, true in zip(cells, ends):
                found = re.match(r"(−?)([\d\u2009.]+) (mm|N|N·mm|MPa|mrad)", cell)
                if not found:
                    continue
                digits = found[2].replace("\u2009", "")
                shown = float(digits) * (-1 if found[1] else 1)
                true *= 1000 if found[3] == "mrad" else 1
                decimals = len(digits.partition(".")[2])
                half = max(0.5 * 10.0**-decimals, 0.006 * abs(true))  # two or three digits are kept
                assert abs(shown - true) <= half, (name, quantity, cell, true)
                checked += 1
    assert checked > 15 * PAGES
