"""Keys and wrenches: sizes of the standards, nothing too much, and a second wrench where nuts are jammed."""

from fractions import Fraction

import pytest

from guidegen.kit.lookup import OutsideTable
from guidegen.kit.reader import read_course
from guidegen.kit.records import Nut, ShoulderScrew
from guidegen.kit.tools import tools_for
from guidegen.theory.mismatch import slipping_opening
from guidegen.units import MM_PER_INCH
from test_data import ROOT

# Hexagon keys of ISO 7379 and ASME B18.3 shoulder screws, wrenches of ISO 4032 and ASME B18.2.2 nuts, by thread.
KEYS = {"M5": "3 mm", "M6": "4 mm", "M8": "5 mm", "M10": "6 mm", "8-32": "3/32 in", "10-24": "1/8 in",
        "1/4-20": "5/32 in", "5/16-18": "3/16 in", "3/8-16": "1/4 in"}
WRENCHES = {"M5": "8 mm", "M6": "10 mm", "M8": "13 mm", "M10": "16 mm", "1/4-20": "7/16 in", "5/16-18": "1/2 in",
            "3/8-16": "9/16 in"}
MACHINE_SCREW_NUTS = {"8-32": "11/32 in", "10-24": "3/8 in", "1/4-20": "7/16 in", "5/16-18": "9/16 in",
                      "3/8-16": "5/8 in"}


@pytest.fixture(scope="module")
def parts():
    return read_course(ROOT).parts


def in_mm(name):
    size, unit = name.split()
    return float(Fraction(size)) * (MM_PER_INCH if unit == "in" else 1)


def test_each_fastener_gets_the_tool_of_its_standard(parts):
    """Sizes as the standards print them, for every screw and nut of the catalogue by itself."""
    seen = set()
    for id, part in parts.items():
        if not isinstance(part, ShoulderScrew | Nut):
            assert tools_for(parts, {id: 1}) == ()
            continue
        (tool,) = tools_for(parts, {id: 1})
        assert tool.parts == (id,) and tool.count == 1 and tool.size == pytest.approx(in_mm(tool.name))
        if isinstance(part, ShoulderScrew):
            assert (tool.kind, tool.name) == ("key", KEYS[part.thread]), id
        else:
            table = MACHINE_SCREW_NUTS if part.thread not in WRENCHES or id.endswith("-ms") else WRENCHES
            assert (tool.kind, tool.name) == ("wrench", table[part.thread]), id
            assert part.across_flats.most <= tool.size + 0.06 < slipping_opening(part.across_flats.least)
        seen.add(tool.name)
    assert len(seen) >= 15


def test_a_kit_needs_no_more_tools_than_it_has_sizes(parts):
    """Fewest: as many as there are different hexagons in it, and every fastener is turned by one of them."""
    course = read_course(ROOT)
    for kit in course.kits.values():
        found = tools_for(parts, kit.parts)
        hexagons = {round(parts[p].socket, 3) for p in kit.parts if isinstance(parts[p], ShoulderScrew)}
        nuts = {parts[p].thread for p in kit.parts if isinstance(parts[p], Nut)}
        assert len([tool for tool in found if tool.kind == "key"]) == len(hexagons)
        assert len([tool for tool in found if tool.kind == "wrench"]) == len(nuts)
        turned = [part for tool in found for part in tool.parts]
        assert sorted(turned) == sorted(p for p in kit.parts if isinstance(parts[p], ShoulderScrew | Nut))
        assert [tool.kind for tool in found] == sorted(tool.kind for tool in found)


def test_a_pair_of_nuts_needs_two_wrenches(parts):
    """One to hold the thin nut, one to tighten the other; a locking nut beside it is no pair, nor one thin nut alone."""
    counts = {
        (("nut-m6", 1), ("nut-m6-thin", 1)): 2, (("nut-m6-thin", 2),): 2, (("nut-m6-thin", 1),): 1,
        (("nut-m6", 2),): 1, (("nut-m6-lock", 1), ("nut-m6-thin", 1)): 1, (("nut-m6-lock", 4),): 1,
    }
    for given, count in counts.items():
        (tool,) = tools_for(parts, dict(given))
        assert tool.count == count, given


def test_a_size_that_nobody_sells_is_told(parts):
    """A socket off by a millimetre: the part and the nearest tool."""
    odd = parts["ss-8x50"].model_copy(update={"socket": 3.5})
    with pytest.raises(OutsideTable, match="no key of 3.5 mm for ss-8x50; the nearest sold is 9/64 in"):
        tools_for(parts | {"ss-8x50": odd}, {"ss-8x50": 1})
