"""Metals that touch, their own rust, and what harms the parts: against printed tables and counted areas."""

import itertools
import math
import re
from typing import get_args

import numpy as np
import pytest
from proofs import proves
from scipy.integrate import quad

from guidegen.joint.records import STATES
from guidegen.kit.lookup import OutsideTable
from guidegen.kit.metals import effect, galvanic_limit, own_rust, surface
from guidegen.kit.reader import read_course
from guidegen.kit.records import BallBearing, Surroundings
from guidegen.kit.tables import read_table
from guidegen.theory import corrosion
from test_data import ROOT

AIRS = ("controlled", "normal", "harsh", "soaked")
AGENTS = ("water", "salt mist", "fertiliser mist", "alcohol", "degreaser", "dust", "paper or wood")
THINGS = ("oil bronze", "open", "shields", "seals", "nylon", "acrylic", "plywood")
METALS = {  # of the demo's materials, by the start of an id
    "alloy-steel": "steel", "bearing-steel": "steel", "carbon-steel": "steel", "steel": "steel",
    "stainless-18-8": "austenitic steel", "oil-bronze": "bronze", "aluminium": "aluminium",
}


def metal_of(name):
    return next((metal for start, metal in METALS.items() if name.startswith(start)), None)


# As a public page prints the index, gold to aluminium of the 2000 series; the rows of a second page, which groups
# metals more coarsely: the two ends of each of its groups.
PRINTED = {
    "gold": "0.00", "rhodium": "0.05", "silver": "0.15", "nickel": "0.30", "copper": "0.35", "bronze": "0.40",
    "brass": "0.45", "18 chromium steel": "0.50", "12 chromium steel": "0.60", "chromium": "0.60", "tin": "0.60",
    "solder": "0.65", "lead": "0.70", "aluminium 2000": "0.75",
}
SECOND = {
    "gold": (0.00, 0.00), "silver": (0.15, 0.15), "nickel": (0.30, 0.30), "bronze": (0.40, 0.40),
    "solder": (0.65, 0.65), "steel": (0.85, 0.85), "aluminium": (0.90, 0.95), "cast aluminium": (0.90, 0.95),
    "zinc": (1.25, 1.25), "magnesium": (1.75, 1.75),
}


def index(name):
    return surface(name, "plain").index


def test_the_anodic_index_is_the_printed_one():
    """Cell by cell against two public pages; what stands in neither is marked as from memory."""
    rows = {row["surface"]: row for row in read_table("anodic_index").rows}
    for name, printed in PRINTED.items():
        assert rows[name]["index"] == printed, name
    for name, (least, most) in SECOND.items():
        assert least <= index(name) <= most, name
    unread = rows.keys() - PRINTED.keys() - SECOND.keys() - {"hard anodised"}
    assert {rows[name]["source"] for name in unread | {"cast aluminium"}} == {"memory-m"}
    assert [float(row["index"]) for row in rows.values() if row["index"]] == sorted(
        float(row["index"]) for row in rows.values() if row["index"])


# Potentials in flowing seawater against the saturated calomel electrode, volts, as a corrosion association prints
# their ranges; passive stainless steel, lead and tin lie elsewhere in tables of the index, and are left out.
SEAWATER = {
    "silver": (-0.10, -0.15), "nickel": (-0.10, -0.20), "bronze": (-0.24, -0.32), "copper": (-0.30, -0.37),
    "brass": (-0.31, -0.40), "steel": (-0.57, -0.72), "cadmium": (-0.70, -0.74), "aluminium": (-0.76, -1.00),
    "zinc": (-0.98, -1.03), "magnesium": (-1.60, -1.63),
}
# Places in the list of MIL-STD-889, most active first, of metals that no film changes.
MOST_ACTIVE_FIRST = {"magnesium": 1, "zinc": 4, "aluminium": 19, "steel": 30, "brass": 46, "bronze": 54, "copper": 55}


def test_the_index_agrees_with_potentials_measured_in_seawater():
    """Pair by pair within the 0.15 V or so by which such tables differ, and in the same order where they are far apart."""
    for one, other in itertools.combinations(SEAWATER, 2):
        measured = np.mean(SEAWATER[one]) - np.mean(SEAWATER[other])
        ours = index(other) - index(one)
        assert ours == pytest.approx(measured, abs=0.24), (one, other)
        if measured > 0.24:
            assert ours > 0, (one, other)
    listed = sorted(MOST_ACTIVE_FIRST, key=MOST_ACTIVE_FIRST.get)
    assert [index(name) for name in listed] == sorted(map(index, listed), reverse=True)


@proves("galvanic_difference")
def test_pairs_of_a_kit_as_the_notes_of_the_trade_judge_them():
    """The pairs that handbooks warn of, and those they allow, by the limits two public pages print."""
    allowed = {  # harsh, normal, controlled
        ("austenitic steel", "bronze"): (True, True, True), ("brass", "bronze"): (True, True, True),
        ("steel", "aluminium"): (True, True, True), ("steel", "bronze"): (False, False, True),
        ("zinc", "bronze"): (False, False, False), ("zinc", "aluminium"): (False, False, True),
        ("austenitic steel", "zinc"): (False, False, False), ("steel", "austenitic steel"): (False, False, True),
    }
    for (one, other), found in allowed.items():
        for a, b in ((one, other), (other, one)):
            apart = corrosion.galvanic_difference(index(a), index(b))
            limits = map(galvanic_limit, ("harsh", "normal", "controlled"))
            assert tuple(bool(round(apart, 9) <= limit) for limit in limits) == found, (a, b)
    assert corrosion.galvanic_difference(0.0, 0.15) == pytest.approx(0.15)  # gold and silver, the printed example


def test_limits_are_those_of_the_pages():
    """0.15, 0.25 and 0.50 V; another class is told."""
    assert [galvanic_limit(name) for name in ("harsh", "normal", "controlled")] == [0.15, 0.25, 0.50]
    assert {row["harshness"] for row in read_table("galvanic_limits").rows} == set(
        get_args(Surroundings.model_fields["harshness"].annotation))
    with pytest.raises(OutsideTable, match="harshness mild"):
        galvanic_limit("mild")


def test_a_plating_is_met_before_the_metal_under_it():
    """MIL-DTL-14072F, 3.13.1: platings count, passive films and black oxide do not, hard anodic films insulate."""
    assert surface("steel", "zinc").name == "zinc" and surface("steel", "zinc").index == 1.25
    assert surface("steel", "black oxide") == surface("steel", "plain") == surface("steel", "oiled")
    assert surface("aluminium", "hard anodised").index is None
    with pytest.raises(OutsideTable, match="no metal stel"):
        surface("stel", "plain")


@proves("attack_factor")
def test_the_nobler_area_catches_for_the_other():
    """Catchment counted: each wetted square catches one unit of oxygen, and all of it eats the less noble squares."""
    for noble, low in ((0, 5), (5, 5), (40, 10), (3, 60), (1000, 1)):
        caught = sum(1 for _ in range(noble + low))
        assert corrosion.attack_factor(2.5 * noble, 2.5 * low) == pytest.approx(caught / low)


@proves("face_beside")
def test_the_ring_that_the_water_reaches():
    """Counted on a fine grid: points of the face outside the part, no farther from it than the water reaches."""
    for across, reach in ((12.0, 6.4), (9.0, 2.0), (0.0, 5.0)):
        edge = across / 2 + reach
        x = np.linspace(-edge, edge, 2001)
        r = np.hypot(*np.meshgrid(x, x))
        counted = ((r > across / 2) & (r <= edge)).sum() * (x[1] - x[0]) ** 2
        assert corrosion.face_beside(across, reach) == pytest.approx(counted, rel=2e-3)
    assert corrosion.REACH == pytest.approx(25.4 / 4, abs=0.06)  # the first quarter of an inch, as a public note puts it


@proves("part_outside")
def test_the_outside_of_a_round_part():
    """Its outline turned about the axis: circles summed along rim and face."""
    for outer, inner, height in ((13.0, 4.6, 5.4), (12.0, 10.0, 1.6), (8.0, 0.0, 3.0), (9.0, 9.0, 2.0)):
        rim = quad(lambda z: 2 * math.pi * outer / 2, 0, height)[0]
        face = quad(lambda r: 2 * math.pi * r, inner / 2, outer / 2)[0]
        assert corrosion.part_outside(outer, inner, height) == pytest.approx(rim + face)


def test_own_rust_stands_for_every_air_and_grows_with_it():
    """Each metal and finish once in each air; a harsher one is never judged better; sentences, and no lifetimes."""
    rows = read_table("own_rust").rows
    pairs = {(row["metal"], row["finish"]) for row in rows}
    assert len(rows) == len(pairs) * len(AIRS)
    for metal, finish in pairs:
        found = [STATES.index(own_rust(metal, finish, air).state) for air in AIRS]
        assert found == sorted(found), (metal, finish)
        surface(metal, finish)
    for row in rows:
        assert one_sentence(row["says"]) and not re.search(r"\b(year|month|week|day|hour)", row["says"]), row


def one_sentence(text):
    return text[0].isupper() and text.endswith(".") and text.count(".") == 1


def test_the_metals_of_the_demo_are_in_the_tables():
    """Every part and sheet of metal has its own rust, in its own finish, and a place among the others."""
    course, seen = read_course(ROOT), set()
    things = [(part.material, part.finish) for part in course.parts.values()]
    things += [(stock.id, "plain") for stock in course.stocks.values() if stock.kind == "metal"]
    for name, finish in things:
        if metal := metal_of(name):
            seen.add(metal)
            assert {own_rust(metal, finish, air).state for air in AIRS} <= set(STATES)
            assert surface(metal, finish).index > 0
        else:
            assert name.startswith(("nylon", "acetal")), name
    assert seen == {"steel", "austenitic steel", "bronze", "aluminium"}
    with pytest.raises(OutsideTable, match="finish zink"):
        own_rust("steel", "zink", "harsh")


def test_each_agent_says_one_sentence_of_each_thing():
    """Seven agents, seven things, none left out and none twice; closures are those that bearings have."""
    rows = read_table("agents").rows
    assert {(row["agent"], row["thing"]) for row in rows} == set(itertools.product(AGENTS, THINGS))
    assert len(rows) == len(AGENTS) * len(THINGS)
    for row in rows:
        assert one_sentence(row["says"]), row
        assert effect(row["agent"], row["thing"]) == (row["says"], row["source"])
    assert set(get_args(BallBearing.model_fields["closure"].annotation)) <= set(THINGS)


def test_a_place_names_agents_that_the_table_knows():
    """Whatever the combination of wet, salts and dust."""
    fields = Surroundings.model_fields
    choices = [get_args(fields[name].annotation) for name in ("wet", "salts", "dust")]
    place = next(iter(read_course(ROOT).places.values()))
    for wet, salts, dust in itertools.product(*choices):
        made = place.model_copy(update={"wet": wet, "salts": salts, "dust": dust, "harshness": "harsh"})
        assert set(made.agents) <= set(AGENTS) and made.air in AIRS
        assert ("water" in made.agents) == (wet != "dry") and ("dust" in made.agents) == (dust == "yes")
        assert (made.air == "soaked") == (wet == "soaked")
