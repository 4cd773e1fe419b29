"""Rust, metals that touch and what reaches the parts, joint by joint: contacts by brute force, places one by one.

Outside the project: contacts are found again from the intervals that parts take on the screw; indices and limits
are those of the printed tables (see test_corrosion.py); what a place may not do is common practice.
"""

from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest
from joint_reference import course, some

from guidegen.errors import BadInput
from guidegen.guide.keeping import keeping
from guidegen.guide.measures import Measures
from guidegen.joint import evaluate, make_joint
from guidegen.joint.contacts import contacts
from guidegen.joint.galvanic import metals_met
from guidegen.joint.keeping import reaching, rusting
from guidegen.joint.made_of import things_of
from guidegen.joint.records import STATES
from guidegen.kit.metals import galvanic_limit, surface
from guidegen.kit.records import NO_METAL, BallBearing, RawFile

UPKEEP = ("rust", "galvanic", "exposure")


@cache
def joints():
    """The named joints and forty of the grid, where they stand."""
    named = [evaluate(make_joint(course(), raw, id), course()) for id, raw in course().joints.items()]
    return (*named, *some(40))


@cache
def there(place):
    return [evaluate(replace(result.joint, place=course().places[place]), course()) for result in joints()]


def states(result):
    return {verdict.about: verdict.state for verdict in reversed(result.verdicts)}


def why(result, about):
    return next(verdict.why for verdict in result.verdicts if verdict.about == about)


def touching(result):
    """Contacts found another way: whose interval along the screw ends where another's begins, less the gaps."""
    joint, stack = result.joint, result.stack
    rows = [row for row in stack.placed if row.kind != "body" and not row.within]
    body = next(row for row in stack.placed if row.kind == "body")
    pairs = {frozenset((row.part, joint.shaft.id)) for row in stack.placed if row.kind != "body"}
    for row, after in zip(rows, rows[1:]):
        if not row.z_from <= body.z_from <= after.z_from:  # the body does not stand between them
            pairs.add(frozenset((row.part, after.part)))
    pairs |= {frozenset((bearing.id, housing.stock.id))
              for bearing, housing in zip(joint.bearings, joint.housings) if housing.fit != "bonded"}
    return pairs


def test_contacts_are_those_of_the_stack():
    """All neighbours on the screw, everything on the screw itself, each bearing in its hole; nothing floats."""
    for result in joints():
        if result.stack is None:
            continue
        found = {frozenset(contact[:2]) for contact in contacts(result.joint, result.stack)}
        assert touching(result) <= found, result.id
        named = {thing.id for thing in things_of(result.joint, result.stack, course())}
        assert set().union(*found) <= named | {row.part for row in result.stack.placed}
        loose = [row for row in result.stack.placed if row.kind != "body" and not any(row.part in of for of in found)]
        assert not loose, result.id


def test_a_bonded_bearing_does_not_touch_its_plate():
    result = next(one for one in joints() if any(housing.fit == "bonded" for housing in one.joint.housings))
    found = {(contact.one, contact.other): contact.how for contact in contacts(result.joint, result.stack)}
    for bearing, housing in zip(result.joint.bearings, result.joint.housings):
        assert (found.get((bearing.id, housing.stock.id)) == "seat") == (housing.fit != "bonded")


def test_metals_met_are_all_pairs_of_different_metals_that_touch():
    """Against every pair of things, asked for by the printed indices; the eaten one has the higher index."""
    for result in joints():
        joint, stack = result.joint, result.stack
        things = {thing.id: thing for thing in things_of(joint, stack, course()) if thing.metal != NO_METAL}
        touch = {frozenset(contact[:2]) for contact in contacts(joint, stack)}
        wanted = {}
        for one, other in combinations(things.values(), 2):
            mine, theirs = (surface(of.metal, of.finish).index for of in (one, other))
            if frozenset((one.id, other.id)) in touch and mine is not None and theirs is not None and mine != theirs:
                wanted[frozenset((one.id, other.id))] = abs(mine - theirs), (one if mine > theirs else other).id
        found = {frozenset((met.eaten.id, met.kept.id)): (met.apart, met.eaten.id)
                 for met in metals_met(joint, stack, course())}
        assert found.keys() == wanted.keys(), result.id
        for pair, (apart, eaten) in found.items():
            assert apart == pytest.approx(wanted[pair][0]) and eaten == wanted[pair][1]


@pytest.mark.parametrize("place", list(course().places))
def test_each_place_asks_what_its_tables_say(place):
    """The verdict is the worst of the joint; galvanic pairs within the limit of the place never ask anything."""
    where = course().places[place]
    limit = galvanic_limit(where.harshness)
    for result in there(place):
        found = states(result)
        rusts = rusting(result.joint, result.stack, course())
        assert found["rust"] == max((one.state for one in rusts), key=STATES.index)
        met = metals_met(result.joint, result.stack, course())
        if all(one.apart <= limit + 1e-9 for one in met) or where.wet == "dry":
            assert found["galvanic"] == "holds", result.id
        if any(one.apart > limit + 1e-9 and "zinc" not in (one.eaten.finish, one.kept.finish) for one in met):
            assert found["galvanic"] == "holds" if where.wet == "dry" else found["galvanic"] != "holds", result.id
        if where.wet != "soaked":  # in air nothing but a small part by the sea is given up
            assert found["rust"] != "does not hold" and found["exposure"] != "does not hold"
            if where.salts != "salt":
                assert found["galvanic"] != "does not hold"


def test_upkeep_does_not_count_but_a_pond_does():
    """In a dry classroom nothing asks for upkeep; in a pond no joint with bearing steel or plain steel holds."""
    assert not any(states(result)[about] != "holds" for result in there("classroom") for about in UPKEEP)
    for result in there("pond"):
        assert states(result)["rust"] == "does not hold" and result.state == "does not hold"
        balls = any(isinstance(bearing, BallBearing) for bearing in result.joint.bearings)
        wood = any(housing.stock.kind == "wood" for housing in result.joint.housings)
        assert states(result)["exposure"] == "does not hold" or not (balls or wood)
    counted = [one for one in joints() if one.state == "holds"]
    assert counted and all(states(one)["rust"] == "take care" for one in counted)  # mist: keep them oiled
    for result in joints():
        for verdict in result.verdicts:
            assert verdict.upkeep == (verdict.about in UPKEEP)
            assert verdict.counts_as == ("holds" if verdict.upkeep and verdict.state == "take care" else verdict.state)


def test_places_grow_worse_together():
    """A joint never fares better under the nozzles than in the greenhouse, nor by the sea than in the garden."""
    for mild, hard in (("classroom", "workshop"), ("greenhouse", "mist-bench"), ("garden", "seaside"), ("garden", "pond")):
        for one, other in zip(there(mild), there(hard)):
            before, after = states(one), states(other)
            for about in UPKEEP:
                if (mild, about) == ("garden", "exposure") and hard == "pond":
                    continue  # no dust in a pond
                assert STATES.index(after[about]) >= STATES.index(before[about]), (one.id, mild, hard, about)


def test_the_reason_names_a_part_of_the_joint():
    for place in ("greenhouse", "seaside", "pond"):
        for result in there(place):
            names = [thing.name for thing in things_of(result.joint, result.stack, course())]
            for about in UPKEEP:
                if states(result)[about] != "holds":
                    assert any(name in why(result, about) for name in names), (result.id, about, why(result, about))


def test_seals_keep_off_what_shields_let_in():
    """Of two joints alike but for the closure: splashes and mist reach past shields, not past seals."""
    joint = next(one.joint for one in joints() if one.joint.bearings[0].id == "bb-608")
    for closure, wanted in (("open", "take care"), ("shields", "take care"), ("seals", "holds")):
        bearings = tuple(replace_closure(bearing, closure) for bearing in joint.bearings)
        found = [one for one in reaching(replace(joint, bearings=bearings, place=course().places["mist-bench"]), course())
                 if one.agent in ("water", "fertiliser mist") and "608" in one.thing]
        assert {one.state for one in found} == {wanted}, closure


def replace_closure(bearing, closure):
    return bearing.model_copy(update={"closure": closure})


def test_the_small_washer_by_the_sea():
    """A zinc-plated washer on a large aluminium or stainless face is the worse way round: not for salt water."""
    result = next(one for one in there("seaside") if states(one)["galvanic"] == "does not hold")
    worst = next(met for met in metals_met(result.joint, result.stack, course()) if met.state == "does not hold")
    assert worst.kept_area > worst.eaten_area > 0 and worst.apart > worst.limit
    assert "worse way round" in why(result, "galvanic")
    step = next(step for step in result.steps if step.gives == "attack_factor")
    assert step.result == pytest.approx(1 + step.values["A_n"] / step.values["A_l"]) and step.result > 2


def test_the_chapter_tells_each_thing_once():
    """Every metal thing stands in the rust table, every pair in the other, and the tables name where they touch."""
    for result in joints():
        (chapter,) = keeping(result, course(), Measures("mm"))
        tables = {table.label: " ".join(row.words + " " + " ".join(cell.first for cell in row.cells)
                                        for row in table.rows) for table in chapter.tables}
        for one in rusting(result.joint, result.stack, course()):
            assert one.thing.name in tables["Rust"] and one.says in tables["Rust"]
        for met in metals_met(result.joint, result.stack, course()):
            assert met.eaten.name.lower() in tables["Metals"].lower() and f"{met.apart:.2f} V" in tables["Metals"]
        for one in reaching(result.joint, course()):
            assert f"{one.agent}: {one.thing}".lower() in tables["Agents"].lower()
        assert any("Cleaning with alcohol" in sentence for sentence in chapter.sentences) == ("Agents" in tables)


def test_a_place_that_is_not_known_is_refused_by_name():
    raw = course().joints["vent-louvre-crank"]
    bad = RawFile(raw.path, {**raw.data, "surroundings": "greenhous"}, raw.lines)
    with pytest.raises(BadInput) as told:
        make_joint(course(), bad, "crank")
    assert "greenhous" in str(told.value) and "greenhouse" in str(told.value)
