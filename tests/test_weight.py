"""Masses: against volumes integrated or counted, and masses that tables and catalogues print."""

import math

import numpy as np
import pytest
from proofs import proves
from scipy.integrate import quad

from guidegen.kit import lookup
from guidegen.kit.reader import read_course
from guidegen.theory import weight
from guidegen.theory.mismatch import pitch_diameter
from test_data import ROOT

STEEL = 7.85e-9  # t/mm³
GRAM = 1e-6  # t


def turned(radius, length):
    """Volume of a body of revolution whose radius is a function of the place along it."""
    steps = np.linspace(0, length, 20_001)
    middles = (steps[1:] + steps[:-1]) / 2
    return sum(math.pi * radius(z) ** 2 for z in middles) * (steps[1] - steps[0])


def polygon_area(points):
    """Area of a polygon from its corners (Gauss)."""
    x, y = np.array(points).T
    return abs(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2


def hexagon(across_flats):
    corner = across_flats / math.sqrt(3)
    return polygon_area([(corner * math.cos(a), corner * math.sin(a)) for a in np.radians(range(0, 360, 60))])


@proves("ring_mass", "plate_mass")
def test_rings_and_plates():
    """Circles summed from the hole outwards; a ring is a plate of its own area."""
    for outer, inner, length in ((12.0, 8.1, 5.0), (8.0, 0.0, 40.0), (22.0, 21.0, 0.5)):
        area = quad(lambda r: 2 * math.pi * r, inner / 2, outer / 2)[0]
        assert weight.ring_mass(STEEL, outer, inner, length) == pytest.approx(STEEL * area * length)
        assert weight.plate_mass(STEEL, area, length) == pytest.approx(STEEL * area * length)


@proves("hexagon_mass")
def test_hexagons():
    """Area of the six corners by Gauss's formula, less the hole."""
    for across, hole, height in ((10.0, 5.35, 5.0), (13.0, 7.19, 6.8), (8.0, 0.0, 3.0)):
        volume = (hexagon(across) - math.pi / 4 * hole**2) * height
        assert weight.hexagon_mass(STEEL, across, hole, height) == pytest.approx(STEEL * volume)


@proves("screw_mass")
def test_a_screw_turned_on_a_lathe():
    """Its outline turned about the axis step by step, less a hexagon socket half way into the head."""
    head, height, key, shoulder, length = 12.87, 5.41, 4.0, 7.97, 50.0
    neck, width, pitch, thread = 4.49, 2.6, 5.35, 11.0

    def radius(z):
        if z < height:
            return head / 2
        if z < height + length:
            return shoulder / 2
        return neck / 2 if z < height + length + width else pitch / 2

    volume = turned(radius, height + length + thread) - hexagon(key) * height / 2
    found = weight.screw_mass(STEEL, head, height, key, shoulder, length, neck, width, pitch, thread)
    assert found == pytest.approx(STEEL * volume, rel=2e-4)


@proves("ball_bearing_mass")
def test_rings_and_balls_of_a_bearing():
    """Circles summed over both rings, and balls as circles stacked up."""
    D, outer, inner, bore, width, balls, ball = 22.0, 17.8, 12.2, 8.0, 7.0, 7, 3.969
    rings = sum(quad(lambda r: 2 * math.pi * r, a / 2, b / 2)[0] for a, b in ((bore, inner), (outer, D))) * width
    one = turned(lambda z: math.sqrt(max(0.0, (ball / 2) ** 2 - (z - ball / 2) ** 2)), ball)
    found = weight.ball_bearing_mass(STEEL, D, outer, inner, bore, width, balls, ball)
    assert found == pytest.approx(STEEL * (rings + balls * one), rel=1e-6)


# Grams, as bearing catalogues print them: 608 read; the others from memory, medium confidence.
CATALOGUE = {"bb-608": 11.8, "bb-626": 8.1, "bb-6000": 19, "bb-6001": 22}


def test_bearings_of_the_demo_weigh_what_catalogues_print():
    """Within a tenth, as the formula says of itself."""
    course = read_course(ROOT)
    for name, grams in CATALOGUE.items():
        part = course.parts[name]
        found = weight.ball_bearing_mass(
            course.materials[part.material].density, part.outside_diameter.typical, part.outer_land,
            part.inner_land, part.bore.typical, part.width.typical, part.balls, part.ball_diameter)
        assert found == pytest.approx(grams * GRAM, rel=0.1), name


@pytest.mark.parametrize("thread, across, height, grams", [
    ("M5", 8, 4, 1.23), ("M6", 10, 5, 2.50), ("M8", 13, 6.5, 5.20), ("M10", 17, 8, 11.6), ("M12", 19, 10, 17.3)])
def test_nuts_weigh_what_tables_print(thread, across, height, grams):
    """DIN 934, grams (memory, high confidence); counted sharp-edged, so up to a twentieth more."""
    hole = pitch_diameter(lookup.thread(thread).diameter, lookup.thread(thread).pitch)
    assert weight.hexagon_mass(STEEL, across, hole, height) == pytest.approx(grams * GRAM, rel=0.05)


def test_a_locking_nut_weighs_less_than_a_solid_one():
    """DIN 985 in a public table, grams: its insert and collar make it 0.72 to 0.90 of a solid hexagon of its height."""
    shares = []
    for thread, across, height, grams in (("M5", 8, 5, 1.4), ("M6", 10, 6, 2.4), ("M8", 13, 8, 5.1), ("M10", 17, 10, 10.6)):
        hole = pitch_diameter(lookup.thread(thread).diameter, lookup.thread(thread).pitch)
        shares.append(grams * GRAM / weight.hexagon_mass(STEEL, across, hole, height))
    assert (round(min(shares), 2), round(max(shares), 2)) == (0.72, 0.90)
    assert min(shares) < weight.LOCKING < max(shares)
    assert weight.LOCKING == pytest.approx(np.mean(shares), abs=0.02)
