"""The order of assembly: every part once, nothing passes through anything, what stays comes after its check."""

from functools import cache
from pathlib import Path

import pytest

from guidegen.guide.bench import Bench
from guidegen.guide.building import WORDS, told_steps
from guidegen.guide.edition import Edition
from guidegen.joint import Worked, evaluate, make_joint
from guidegen.joint.build_order import steps
from guidegen.joint.stack import resolve
from guidegen.kit.reader import read_course, read_words
from guidegen.kit.records import BallBearing, SleeveBushing

ROOT = Path(__file__).parent.parent
PRESSES = ("press till it stops", "press flush")
SEATS = (*PRESSES, "slip in", "set in dry")
GLUED = ("glue in", "glue the arm")


@cache
def course():
    return read_course(ROOT)


@cache
def builds():
    """(joint, stack, steps) of every joint of the grid and of the course."""
    named = [make_joint(course(), raw, id) for id, raw in course().joints.items()]
    joints = [*named, *Worked(course()).joints]
    stacks = [(joint, resolve(joint, course().parts)) for joint in joints]
    return [(joint, stack, steps(joint, stack, course().parts)) for joint, stack in stacks]


def first(order, *names):
    return next((step.number for step in order if step.does in names), None)


def last(order, *names):
    return max((step.number for step in order if step.does in names), default=None)


def where(order, line):
    """The step in which a line of the stack comes to its place."""
    return next(step for step in order if line in step.rows)


def test_every_part_comes_once():
    """Of a thousand joints, each line of the stack in one step, steps numbered from 1 on."""
    assert len(builds()) > 1000
    for joint, stack, order in builds():
        lines = [line for step in order for line in step.rows]
        assert sorted(lines) == list(range(1, len(stack.placed) + 1)), joint.id
        assert [step.number for step in order] == list(range(1, len(order) + 1))


def test_nothing_passes_through_anything():
    """Played through: a part is only threaded on while nothing lies beyond it on the screw.

    What is in the body comes with it. Its bearings and what stands between them go on in one push.
    """
    for joint, stack, order in builds():
        on_screw, in_body = [], []
        for step in order:
            rows = [stack.placed[line - 1] for line in step.rows]
            for row in rows:
                if row.kind == "bearing" or row.within and joint.body == "block":
                    in_body.append(row)
                    continue
                pushed = {"push through": (row.within or row.kind == "body")}.get(step.does, False)
                beyond = [other for other in on_screw if other.z_from > row.z_from - 1e-6]
                if pushed:
                    beyond = [other for other in beyond if not other.within and other.kind != "body"]
                assert not beyond, (joint.id, step.does, row.part)
                on_screw.append(row)
        threaded = [row for row in on_screw if not row.within]
        assert threaded == sorted(threaded, key=lambda row: row.z_from), joint.id
        assert len(on_screw) + len(in_body) == len(stack.placed)


def test_what_stands_between_bearings_is_not_shut_out():
    """In before bearing 2 where the body is a block: wider than both bores. Else held when the screw comes."""
    blocks = gaps = 0
    for joint, stack, order in builds():
        inside = [n for n, row in enumerate(stack.placed, 1) if row.within and row.kind != "bearing"]
        bearings = [n for n, row in enumerate(stack.placed, 1) if row.kind == "bearing"]
        body = next(n for n, row in enumerate(stack.placed, 1) if row.kind == "body")
        for line in inside:
            assert stack.placed[line - 1].outside > max(stack.placed[n - 1].hole for n in bearings)
            if joint.body == "block":
                blocks += 1
                assert (
                    where(order, bearings[0]).number
                    < where(order, line).number
                    < where(order, bearings[1]).number
                )
            else:
                gaps += 1
                assert where(order, line) == where(order, body)
                assert all(where(order, bearing).number < where(order, line).number for bearing in bearings)
    assert blocks > 20 and gaps > 300


def test_stages_follow_one_another():
    """Holes, bearings, tries, plates, glue; the shoulder, its float, the plate, the nut; the arm's glue last."""
    for joint, stack, order in builds():
        chain = [
            last(order, "lay out"),
            last(order, "seat hole", "plate hole", "cheek holes", "arm hole"),
            *(n for n in (first(order, *SEATS), last(order, *SEATS)) if n),
            last(order, "try the screw"),
            first(order, "join the plates"),
            first(order, "glue in"),
            first(order, "stand the screw up"),
            first(order, "put the body on", "push through"),
            first(order, "thread the rest"),
            first(order, "measure the end play", "see it stand out"),
            first(order, "put the plate on"),
            first(order, "run the nut on"),
            first(order, "tighten", "tighten by hand", "hold the rings", "jam the nuts"),
            first(order, "lock the nut", "watch the nut"),
            first(order, "glue the arm"),
            first(order, "first try"),
            first(order, "oil and count"),
        ]
        there = [number for number in chain if number]
        assert there == sorted(there), joint.id
        assert (first(order, "join the plates") is None) == (joint.single or joint.body == "block")
        assert (first(order, "see it stand out") is not None) == joint.clamped
        assert (first(order, "put the plate on") is not None) == any(
            r.kind == "plate" and r.on == "thread" for r in stack.placed
        )
        assert (first(order, "glue the arm") is not None) == joint.arm_bonded


def test_what_stays_is_marked_and_has_been_tried():
    """Bushes pressed in and glue stay; glue in a seat only after the screw has run in both bores, dry."""
    seen = set()
    for joint, stack, order in builds():
        for step in order:
            if step.does in PRESSES:
                ball = isinstance(joint.bearings[step.at[0] - 1], BallBearing)
                assert step.undo == ("with loss" if ball else "no"), joint.id
            elif step.does in GLUED:
                assert step.undo == "no"
            elif step.does != "lock the nut":
                assert step.undo == "yes", step
            seen.add((step.does, step.undo))
        if glue := first(order, "glue in"):
            assert last(order, "try the screw") < glue and (
                joint.single or first(order, "join the plates") == glue - 1
            )
    assert {
        ("press flush", "no"),
        ("press flush", "with loss"),
        ("glue in", "no"),
        ("glue the arm", "no"),
    } <= seen


def test_a_bearing_goes_in_from_where_it_can():
    """By the drawing: a long one stops flush on the far side, a short one is flush where the drift meets the plate."""
    sides = set()
    for joint, stack, order in builds():
        bearings = [row for row in stack.placed if row.kind == "bearing"]
        for step in (step for step in order if step.does in SEATS):
            row = bearings[step.at[0] - 1]
            plate = next(p for p in stack.plates if p.bearing in (0, step.at[0]))
            flush = {
                "head": abs(row.z_from - plate.z_from) < 1e-6,
                "thread": abs(row.z_to - plate.z_to) < 1e-6,
            }
            far = {"head": "thread", "thread": "head"}[step.side]
            if step.does == "press till it stops":
                assert (
                    flush[far] and not flush[step.side] and row.z_to - row.z_from > plate.z_to - plate.z_from
                )
            elif step.does == "press flush":
                assert flush[step.side], joint.id
            sides.add((step.does, step.side))
    assert len(sides) >= 6


def test_cautions_stand_where_the_hand_is():
    """Each is one of the shared warnings; eye protection at the press, the pinch at the first try."""
    known = read_words(ROOT / "shared").cautions
    for joint, stack, order in builds():
        for step in order:
            assert set(step.cautions) <= set(known)
            if step.does in PRESSES:
                bearing = joint.bearings[step.at[0] - 1]
                assert "press-fit" in step.cautions
                assert ("press-ring" in step.cautions) == isinstance(bearing, BallBearing)
                assert ("oil-bronze" in step.cautions) == isinstance(bearing, SleeveBushing)
                plastic = joint.housings[step.at[0] - 1].stock.kind in ("plastic", "print")
                assert ("acrylic-solvents" in step.cautions) == plastic
            if step.does == "first try":
                assert {"first-test", "pinch"} <= set(step.cautions)
                low, high = -1e9, stack.z_bearings[-1]
                if joint.layout == "C":
                    low = [row.z_to for row in stack.placed if row.kind == "cheek"][0]
                    high = [row.z_from for row in stack.placed if row.kind == "cheek"][-1]
                assert ("overhung" in step.cautions) == (not low - 1e-6 <= stack.z_load <= high + 1e-6)
            if "hole" in step.does and step.tools[0] in ("drill", "reamer"):
                assert "drilling" in step.cautions
            if step.does == "lock the nut":  # no thread locker beside plastic that crazes
                plates = [*joint.housings, *(p for p in (joint.on_thread,) if joint.plate_on_thread)]
                assert not any(plate.stock.kind in ("plastic", "print") for plate in plates)


@pytest.fixture(scope="module")
def told():
    """The steps of one joint of each kind in words, with its result."""
    words, kinds, found = read_words(ROOT / "shared"), set(), []
    edition = Edition(course(), (), words)
    for joint, _, order in builds():
        kind = tuple(step.does for step in order)
        if kind not in kinds:
            kinds.add(kind)
            result = evaluate(joint, course())
            found.append((result, told_steps(result, edition)))
    return found


def test_every_step_has_words_and_a_check(told):
    """Every kind of step that the thousand joints need; no warning told twice."""
    used = {step.does for _, _, order in builds() for step in order}
    assert used == set(WORDS) - {"jam the nuts"}
    for result, lines in told:
        for line in lines:
            assert all(
                part.strip() and part.rstrip()[-1] in ".!" or part == line.words.title for part in line.words
            )
        ids = [caution.id for line in lines for caution in line.cautions]
        assert len(ids) == len(set(ids)), result.id


def test_words_name_the_numbers_of_the_result(told):
    """Torque, float and travel as the joint's own page has them."""
    for result, lines in told:
        text = " ".join(f"{line.words.says} {line.words.check}" for line in lines)
        bench = Bench(result, course(), Edition(course(), (), read_words(ROOT / "shared")).measures)
        if result.joint.plate_on_thread and "set_torque" in result.quantities:
            assert bench.quantity("set_torque") in text
        if not result.joint.clamped:
            assert bench.length(result.quantities["end_play"].typical, 2) in text
        for number, row in enumerate(result.stack.placed, 1):
            assert f"({number}" in text or f" {number}" in text, (result.id, row.part)


def test_two_nuts_are_jammed():
    """Without locking nuts in the kit the search takes a pair: the inner one first, two wrenches."""
    from dataclasses import replace

    joint = make_joint(course(), course().joints["seed-tray-tilter"], "seed-tray-tilter")
    kit = joint.kit or course().kits["mm8"]
    counts = {id: n for id, n in kit.parts.items() if not id.endswith(("-lock", "-low"))}
    joint = replace(joint, kit=kit.model_copy(update={"parts": counts}))
    result = evaluate(joint, course())
    nuts = [row.part for row in result.stack.placed if row.kind == "nut"]
    assert len(nuts) == 2
    edition = Edition(course(), (), read_words(ROOT / "shared"))
    (line,) = (line for line in told_steps(result, edition) if line.words.title == "Jam the two nuts")
    first_nut, second_nut = (course().parts[id].name for id in nuts)
    assert (
        line.words.says.startswith(f"First the {first_nut}")
        and f"tighten the {second_nut} against it" in line.words.says
    )
    assert (
        "second wrench"
        in next(s for s in steps(joint, result.stack, course().parts) if s.does == "jam the nuts").tools
    )
