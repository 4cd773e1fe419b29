"""Joints that need more than a row of parts: recessed bearings, an arm in a clamped stack, holes of inch bushes."""

import re
from fractions import Fraction

import pytest
from drawn_joints import evaluated, listed
from joint_reference import course

from guidegen.joint.box import Box
from guidegen.joint.inputs import made_hole, round_nominal
from guidegen.kit.lookup import HousingClass, band_of_class

PLY = {"stock": "birch-ply-6", "process": "laser", "fit": "bonded", "edge": "18 mm"}
NARROW = {  # 5 mm wide bearings in 6 mm plates
    "title": "Narrow bearings",
    "shaft": "ss-8x40",
    "bearings": ["bb-688", "bb-688"],
    "separation": "18 mm",
    "arm": "100 mm",
    "turns": "shaft",
    "load": {"radial": "20 N"},
    "housing_1": PLY | {"proud": "thread"},  # the plates stand out at the head and at the thread
    "housing_2": PLY | {"proud": "head"},
    "on_thread": {"stock": "aluminium-2", "process": "drill"},
}


def rows(result):
    """What is on the screw, without the bearings inside the body."""
    return [row for row in result.stack.placed if not row.within]


def verdict(result, about):
    return next(v for v in result.verdicts if v.about == about)


def test_a_ring_reaches_through_the_plate_to_a_recessed_bearing():
    """The ring spacer lies on the bearing, comes out of the plate's hole, and the washer clears the plate."""
    result = evaluated(NARROW)
    first, second = result.stack.plates
    before, ring, body, other, after = (
        rows(result)[n + next(i for i, row in enumerate(rows(result)) if row.kind == "body")]
        for n in (-2, -1, 0, 1, 2)
    )
    bearings = [row for row in result.stack.placed if row.kind == "bearing"]
    assert first.z_from == pytest.approx(bearings[0].z_from - 1.06)  # width 5 +0/-0.12, plate 6 mm
    assert second.z_to == pytest.approx(bearings[1].z_to + 1.06)
    assert ring.z_to == pytest.approx(bearings[0].z_from) and other.z_from == pytest.approx(bearings[1].z_to)
    assert ring.z_from < first.z_from - 0.4 and other.z_to > second.z_to + 0.4
    assert before.kind == after.kind == "washer" and result.stack.faults == ()


def test_a_ring_too_short_for_the_plate_is_a_fault():
    """Listed with rings of 1 mm, the washers rub on plates that stand out as far."""
    ids = [{"rg-8x2": "rg-8x1"}.get(id, id) for id in listed(evaluated(NARROW))]
    assert "rg-8x1" in ids
    faces = verdict(evaluated(NARROW | {"stack": ids}), "faces")
    assert faces.state == "does not hold" and "rubs on it" in faces.why


def test_an_arm_in_a_clamped_stack_turns_with_the_screw():
    """Clamped through the inner rings the arm has no play of its own; loose on the shoulder it has."""
    straddle = NARROW | {
        "bearings": ["bb-608", "bb-608"],
        "separation": "20 mm",
        "overhang": "-10 mm",
        "body": "block",
        "arm_plate": {"stock": "aluminium-3", "process": "drill"},
    }
    for rings in ("loose", "clamped"):
        result = evaluated(straddle | {"rings": rings, "shaft": "ss-8x40"})
        assert result.stack is not None, result.verdicts[0]
        arm = next(row for row in result.stack.placed if row.part == "aluminium-3")
        middle = (arm.z_from + arm.z_to) / 2
        assert arm.within == "frame" and middle - result.stack.z_bearings[1] == pytest.approx(-10, abs=0.5)
        assert result.inputs["overhang"].typical == pytest.approx(middle - result.stack.z_bearings[1])
        assert ("arm_tilt" in result.quantities) == (rings == "loose")
        inside = [row for row in result.stack.placed if row.within]
        for one, other in zip(inside, inside[1:]):
            least, most = {"loose": (0, 0.4), "clamped": (-0.09, 0.09)}[rings]  # window; play of a 608
            gap = other.z_from - one.z_to
            assert least <= round(gap, 6) <= most if one.kind == "bearing" else abs(gap) < 1e-6, other.part
    bonded = straddle | {"arm_plate": straddle["arm_plate"] | {"fit": "bonded"}}
    assert "arm_tilt" not in evaluated(bonded).quantities


def test_spacers_between_clamped_rings_match_within_the_play_of_the_bearings():
    """17 mm apart, as two 6 mm plates on 10 mm standoffs are said to be: the rings miss by less than their play."""
    clamped = NARROW | {"bearings": ["bb-608", "bb-608"], "separation": "17 mm", "rings": "clamped"}
    result = evaluated(clamped | {"housing_1": PLY | {"proud": "head"}, "housing_2": PLY | {"proud": "thread"}})
    assert result.stack is not None and result.stack.at_typical > 0


def test_a_listed_part_is_no_longer_in_the_box():
    """What a joint file lists is taken out of the kit, as far as the kit has it; none is owed."""
    box = Box(course().parts, {"sp-8x5": 3, "sp-8x10": 1}, course().parts["ss-8x40"])
    box.use("sp-8x5", "sp-8x10", "sp-8x10")
    assert [(filler.part, filler.count) for filler in box.fillers()] == [("sp-8x5", 2)]


def test_the_nominal_outside_diameter_is_the_size_in_the_name():
    """8x12: 12 mm; 38x50: 3/8 x 1/2 in, although its limits lie nearer to 12.8 mm than to 12.7."""
    for id, part in course().parts.items():
        if not id.startswith(("sb-", "ny-")):
            continue
        sizes = re.search(r"([\d./ -]+) x ([\d./ -]+) x ([\d./ -]+) (mm|in)", part.name)
        wanted = float(sum(map(Fraction, sizes[2].replace("-", " ").split())))
        assert round_nominal(part) == pytest.approx(wanted * (25.4 if sizes[4] == "in" else 1)), id
    assert round_nominal(course().parts["bb-r6"]) == pytest.approx(float(Fraction(7, 8)) * 25.4)
    assert round_nominal(course().parts["bb-608"]) == 22


def test_a_half_inch_bush_is_pressed_into_a_half_inch_hole():
    """Reamed for a press fit, every bush of the limits is larger than every hole."""
    ream = {"stock": "aluminium-6", "process": "ream", "fit": "press", "edge": "18 mm"}
    file = NARROW | {"shaft": "ss-38x200", "bearings": ["sb-38x50x38"] * 2, "housing_1": ream, "housing_2": ream}
    result = evaluated(file | {"separation": "24 mm"})
    for n in (1, 2):
        assert result.quantities[f"drawn_hole_{n}"].value == pytest.approx(12.7)
        assert result.quantities[f"interference_{n}"].band.least > 0


def test_what_is_drawn_less_what_the_process_adds_is_the_middle_of_the_class():
    """Drawn + bias = middle of the class aimed at, and the made hole spreads three deviations about it."""
    for bias, process in ((0.2, "laser-raw"), (-0.2, "print"), (0.1, "drill")):
        made = made_hole(12.0, HousingClass("H7", ""), _Where(course().processes[process]))
        aimed = band_of_class(12.0, "H7")
        assert made.drawn + bias == pytest.approx(aimed.typical) and made.band.typical == pytest.approx(12.009)
        assert made.band.most - made.band.typical == pytest.approx(3 * course().processes[process].spread)


class _Where:
    """A place for a hole, as far as its size goes."""

    def __init__(self, process):
        self.process = process


@pytest.mark.parametrize("overhang, room", [("-16 mm", "holds"), ("0 mm", "holds"), ("12 mm", "take care")])
def test_a_straight_arm_reaches_no_farther_than_the_cheeks(overhang, room):
    """The load plane against the inner face of the second cheek, both from the same drawing of the stack."""
    fork = {
        "title": "Fork",
        "shaft": "ss-8x50",
        "bearings": ["sb-8x12x8", "sb-8x12x8"],
        "separation": "22 mm",
        "overhang": overhang,
        "arm": "100 mm",
        "turns": "housing",
        "held": "fork",
        "load": {"radial": "20 N"},
        "housing_1": PLY | {"proud": "head"},
        "housing_2": PLY | {"proud": "thread"},
        "cheeks": {"stock": "aluminium-3", "process": "drill"},
    }
    result = evaluated(fork)
    inner = max(row.z_from for row in result.stack.placed if row.kind == "cheek")
    assert (result.stack.z_load <= inner) == (room == "holds")
    assert verdict(result, "arm room").state == room
