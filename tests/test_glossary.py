"""The glossary: every trade word of the guide has an entry, and entries say what the theory says."""

import csv
import re
from pathlib import Path

import pytest

from guidegen.guide.edition import Edition
from guidegen.guide.names import QUANTITIES
from guidegen.guide.word_pages import glossary_page
from guidegen.kit.reader import read_course, read_words
from guidegen.theory import freeplay

ROOT = Path(__file__).parent.parent
# Words that a first-year student meets on the pages and does not know from school.
TRADE = """
preload, knock, shock, static factor, mrad, chance, unmeasured, bearing 1 and bearing 2, yield, endurance, likely,
take care, holds, does not hold, standoff, gap, seat, land, running torque, starting torque, lean, tilt, wobble, free play,
end play, clearance, interference, closure, offset, binds, thrust, couple, moment, torque, reaction, deflection, slope,
stress, shear, hoop stress, fatigue, wear, wear rate, rating life, static rating, dynamic rating, equivalent load,
pressure times speed, edge load, creep, ring creep, kerf, bias, spread, reamer, chamfer, burr, gauge pin, test strip,
micrometer, caliper, feeler gauge, tolerance class, limits, nominal size, worst case, proud, stack, filler, shim ring,
ring spacer, spacer, large washer, small washer, locking nut, thin nut, thread neck, shoulder end, shoulder, layout a,
layout b, layout c, hub, cheek, frame, housing, straddle, overhung, separation, load plane, clamp force, clamped face,
clamped stack, pitch, across flats, raceway, shield, seal, internal clearance, press fit, slip fit, bonded fit,
young's modulus, first-angle projection, galvanic corrosion, craze, standing hole, drawn hole, made hole
"""
# What each check is about, where its own name is not the word: the entry that explains it.
EXPLAINS = {
    "faces": "face", "goes together": "clearance", "buildable": "stack", "shaft yield": "yield", "nut grip": "locking nut",
    "arm room": "arm", "listed stack": "stack", "static": "static factor", "life": "rating life", "speed": "sliding speed",
    "pressure": "pressure times speed", "edge": "edge load", "shaft fatigue": "endurance", "clamp": "clamp force",
    "clamp torque": "clamped face", "start force": "starting torque", "arm on the shoulder": "shoulder", "hole": "made hole",
    "bores in line": "binds", "press holds": "interference", "crack now": "hoop stress", "crack later": "creep",
    "bush spins": "press fit", "held": "seat", "heat": "thermal expansion", "water": "swelling",
    "galvanic": "galvanic corrosion",
}  # fmt: skip


@pytest.fixture(scope="module")
def entries():
    """Every word of the glossary, also the other names, with what it means."""
    terms = read_words(ROOT / "shared").glossary.values()
    return {name.lower(): term.meaning for term in terms for name in (term.name, *term.also_called)}


def test_every_trade_word_has_an_entry(entries):
    """The list above, names and other names alike."""
    wanted = [" ".join(word.split()) for word in TRADE.split(",")]
    assert len(wanted) > 90 and [word for word in wanted if word not in entries] == []


def test_every_check_is_explained(entries):
    """Each check of the table by its own name, or by the entry named beside it."""
    with (ROOT / "guidegen/tables/checks.csv").open() as lines:
        abouts = {row["about"] for row in csv.DictReader(line for line in lines if not line.startswith("#"))}
    known = {word for word in abouts if word in entries or EXPLAINS.get(word) in entries}
    assert sorted(abouts - known) == []


def test_lean_is_the_middle_of_the_swing(entries):
    """As computed: half the sum of the two ends of the swing; nought with the ends alike."""
    assert freeplay.swing_centre(0.003, -0.003) == 0 and freeplay.swing_centre(0.004, -0.002) == pytest.approx(1e-3)
    assert entries["lean"].startswith("The middle of the free swing.")
    assert QUANTITIES["lean"] == "lean: centre of the swing"
    assert "another angle" in entries["lean"]  # the check of that name looks at the loaded shaft


def test_numbers_in_entries_are_right(entries):
    """1 mrad in degrees, and at the tip of a 100 mm arm; a kilogram's weight; shock as the theory has it."""
    assert "0.057°" in entries["mrad"] and round(0.001 * 180 / 3.14159265, 3) == 0.057
    assert "0.1 mm" in entries["mrad"] and freeplay.arm_travel(100.0, 0.001) == pytest.approx(2 * 0.1)
    assert "10 N" in entries["load"]
    assert re.findall(r"\d\.?\d*", entries["shock"]) == ["1", "1.5", "3"]


def test_the_page_is_in_alphabetical_order_and_each_word_can_be_linked():
    """Letters as headings, each word a heading with its own address."""
    edition = Edition(read_course(ROOT), (), read_words(ROOT / "shared"))
    body = glossary_page(edition).body
    words = re.findall(r'<h3 id="([^"]+)">([^<]+)</h3>', body)
    assert [text.lower() for _, text in words] == sorted(text.lower() for _, text in words)
    assert len(words) == len({place for place, _ in words}) == len(edition.words.glossary)
    letters = re.findall(r'<h2 id="letter-[a-z]">([A-Z])</h2>', body)
    assert letters == sorted({text[0].upper() for _, text in words})
    assert re.findall(r'href="#letter-([a-z])"', body) == [letter.lower() for letter in letters]
