"""What takes the place of a part: no check gets worse, the part is really gone, nothing is passed over."""

from collections import Counter

import pytest
from joint_reference import course, some

from guidegen.errors import CannotBuild
from guidegen.joint import evaluate
from guidegen.joint.body import body_of
from guidegen.joint.spending import bought
from guidegen.joint.substitutes import _joints, offers, worse

RANK = {"holds": 0, "take care": 1, "does not hold": 2}


def worst(result):
    """The worst state by what a check is about, counted plainly."""
    found = {}
    for verdict in result.verdicts:
        found[verdict.about] = max(found.get(verdict.about, 0), RANK[verdict.state])
    return found


def pieces(result):
    parts = course().parts
    return Counter([result.joint.shaft.id, *(row.part for row in result.stack.placed if row.part in parts)])


@pytest.fixture(scope="module")
def found():
    """(result, part, offers) for the parts of a few joints of every kind."""
    results = [result for result in some(50) if result.stack][::4]
    return [
        (result, part.id, list(offers(part.id, result, course())))
        for result in results
        for part in bought(result.joint, result.stack, course())
    ]


def test_no_check_gets_worse(found):
    """Each check at least as good as before, one that is new holds; and there are offers to look at."""
    count = 0
    for result, _, offered in found:
        before = worst(result)
        for offer in offered:
            count += 1
            for about, state in worst(offer.result).items():
                assert state <= before.get(about, 0), (result.id, about)
    assert count > 60


def test_the_part_is_gone_and_the_list_adds_up(found):
    """The piece that ran out is in no substitute; pieces before, less spared, plus new, are those after."""
    for result, lacking, offered in found:
        for offer in offered:
            after = pieces(offer.result)
            assert lacking not in after
            assert pieces(result) - Counter(offer.spared) + Counter(offer.instead) == after
            joint = offer.result.joint
            counts = Counter(row.part for row in offer.result.stack.placed)
            bearings = {bearing.id for bearing in joint.bearings}
            assert all(
                n <= joint.kit.parts.get(id, 0)
                for id, n in counts.items()
                if id in course().parts and id not in bearings
            )


def test_a_screw_gives_way_to_its_own_kind_only(found):
    """Same shoulder, same thread; the load stays where it was, within half a millimetre."""
    seen = 0
    for result, lacking, offered in found:
        if lacking == result.joint.shaft.id:
            for offer in offered:
                mine, other = result.joint.shaft, offer.result.joint.shaft
                assert (mine.nominal, mine.thread) == (other.nominal, other.thread) and mine.id != other.id
                at = [one.stack.z_load - one.stack.z_bearings[-1] for one in (result, offer.result)]
                assert at[0] == pytest.approx(at[1], abs=0.5 + 1e-9)
                seen += 1
    assert seen > 10


def test_a_bearing_fits_the_same_hole_in_the_same_plates(found):
    """Outside diameter and kind as before; plates as far apart as before, though bearings are longer."""
    seen = 0
    for result, lacking, offered in found:
        if lacking in {bearing.id for bearing in result.joint.bearings}:
            for offer in offered:
                for mine, other in zip(result.joint.bearings, offer.result.joint.bearings):
                    assert type(mine) is type(other)
                    assert mine.outside_diameter.typical == pytest.approx(
                        other.outside_diameter.typical, abs=1e-3
                    )
                before, after = (body_of(one.joint).plates for one in (result, offer.result))
                if len(before) == 2:
                    gaps = [plates[1][0] - plates[0][1] for plates in (before, after)]
                    assert gaps[0] == pytest.approx(gaps[1])
                seen += 1
    assert seen > 4


def test_nothing_is_passed_over(found):
    """What was tried and not offered cannot be built, or some check is worse there."""
    refused = 0
    for result, lacking, offered in found[::3]:
        kept = [offer.result.joint for offer in offered]
        for joint in _joints(lacking, result, course()):
            if joint in kept:
                continue
            try:
                other = evaluate(joint, course())
            except CannotBuild:
                continue
            if other.stack is not None:
                before, after = worst(result), worst(other)
                assert any(state > before.get(about, 0) for about, state in after.items())
                assert worse(result, other)
            refused += 1
    assert refused > 3
