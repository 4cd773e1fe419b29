"""Whether screw and clamp bear the load: shear by finite elements, fatigue by the motion, the open face."""

from collections import Counter
from functools import cache

import numpy as np
import pytest
from joint_reference import course, some
from moving_joints import again, sound

# Close (fine) series of holes over a thread, mm: ISO 273; ASME B18.2.8 close fit, its inch sizes in mm.
OVER_THREAD = {6.0: 6.4, 4.826: 0.206 * 25.4, 7.9375: 21 / 64 * 25.4}
EDGE_BREAK = 0.2  # mm off the edge of the shoulder's end, all round: common practice


@cache
def judged():
    """(result, second calculation, its numbers of screw and clamp) of moving joints and of worked ones."""
    pairs = [(one, again(one)) for one in (*sound(240), *some(50))]
    return [(result, one, one.strength(one.loads())) for result, one in pairs if "overhang" in one.given]


def test_shear_is_never_less_than_the_beam_has():
    """Greatest shear force in the screw by finite elements, both senses: what is judged covers it."""
    compared = Counter()
    for result, one, _ in judged():
        if "shaft_moment" not in result.quantities or one.greatest_shear < 1e-9:
            continue
        area = np.pi / 4 * one.typical["shaft_diameter"] ** 2
        told = result.quantities["shear_stress"].value if "shear_stress" in result.quantities else 0.0
        assert told * area * 3 / 4 >= one.greatest_shear * (1 - 1e-6), result.joint.title
        compared[one.layout, len(one.numbers)] += 1
    assert len(compared) == 6 and min(compared.values()) >= 3, compared


def test_the_least_factor_on_yield_counts():
    """Bending, shear by distortion energy, the neck where the face opens: the worst of them is judged."""
    governs = Counter()
    for result, one, _ in judged():
        q, S_y = result.quantities, one.typical["yield_stress"]
        worst = {
            name: S_y / (q[name].value * (3**0.5 if name == "shear_stress" else 1))
            for name in ("bending_stress", "shear_stress", "neck_stress")
            if name in q and q[name].value > 0
        }
        if worst:
            governs[min(worst, key=worst.get)] += 1
            assert q["yield_factor"].value == pytest.approx(min(worst.values())), result.joint.title
        else:
            assert "yield_factor" not in q
    assert len(governs) == 3 and min(governs.values()) >= 3, governs


def test_fatigue_where_the_load_moves_round_the_screw():
    """Fatigue is judged where the screw sees its load come from more than one side in a cycle, only there."""
    seen = Counter()
    for result, one, _ in judged():
        if not result.quantities.get("bending_stress") or result.quantities["bending_stress"].value == 0:
            continue
        moves = one.motion != "hand" and np.ptp(one.load_seen_from("screw")) > 0
        assert ("endurance_factor" in result.quantities) == moves, result.joint.title
        seen[one.layout, moves] += 1
    assert len(seen) == 6 and min(seen.values()) >= 3, seen


def test_rings_that_go_round_under_the_load():
    """A ring creeps only where the load passes it on all sides, and sits loose there."""
    seen = Counter()
    for result, one, _ in judged():
        verdict = next((v for v in result.verdicts if v.about == "ring creep"), None)
        assert (verdict is not None) == bool(one.balls)
        if not one.balls or one.motion == "hand":
            continue
        inner, outer = (np.ptp(one.load_seen_from(what)) >= np.pi * 0.999 for what in ("screw", "body"))
        loose_in = not one.clamped and any(one.new[f"fit_{n}"] >= 0 for n in one.balls)
        loose_out = any(
            one.typical[f"housing_fit_{n}"] != "bonded" and one.new[f"interference_{n}"] <= 0
            for n in one.balls
        )
        creeps = inner and loose_in or outer and loose_out
        assert (verdict.state == "does not hold") == creeps, result.joint.title
        assert verdict.state != "take care" or inner or outer
        if creeps:
            assert ("inner ring" if inner else "outer ring") in verdict.why
            seen["inner" if inner else "outer"] += 1
        seen[creeps] += 1
    assert min(seen["inner"], seen["outer"], seen[False]) >= 3, seen


def clamped():
    return [row for row in judged() if "clamped_face" in row[1].given]


def test_the_face_opens_below_the_clamp_force_needed():
    """Pressure on the ring under clamp force and moment, element by element: just none left at its edge."""
    side = np.linspace(-0.5, 0.5, 801)
    x, y = np.meshgrid(side, side)
    for result, one, _ in [of for of in clamped() if of[1].layout != "C"][::12]:
        D, hole, needed = (
            *(one.typical[name] for name in ("clamped_face", "clamped_hole")),
            result.quantities["clamp_needed"].value,
        )
        inside = (np.hypot(x, y) <= 0.5) & (np.hypot(x, y) >= hole / D / 2)
        cell = (D / 800) ** 2
        area, second = cell * inside.sum(), cell * np.sum((x[inside] * D) ** 2)
        edge = needed / area - one.face_moment() * D / 2 / second
        assert edge == pytest.approx(0, abs=0.01 * needed / area + 1e-9), result.joint.title


def test_the_clamped_ring_is_what_is_really_there():
    """The shoulder less its edge break, or the last ring spacer; inside, a hole the thread goes through."""
    shoulder = 0
    for result, one, _ in clamped():
        thread, d = one.typical["thread_diameter"], one.typical["shaft_diameter"]
        close = next(hole for size, hole in OVER_THREAD.items() if abs(size - thread) < 0.02)
        assert one.typical["clamped_hole"] >= close - 0.02, (result.joint.title, thread)
        if one.clamped:
            solid = sorted((row for row in one.stack if row["kind"] not in ("body", "nut")), key=lambda row: row["from"])
            solid = [row for row in solid if row["on"] == "shoulder" or row["kind"] == "plate"]
            at = [n for n, row in enumerate(solid) if row["kind"] in ("plate", "cheek")]
            beside = {solid[k]["part"] for n in at for k in (n - 1, n + 1) if 0 <= k < len(solid)}
            parts = [course().parts[part] for part in beside if part in course().parts]
            assert one.typical["clamped_face"] == pytest.approx(min(p.outside_diameter.typical for p in parts))
            assert one.typical["clamped_hole"] >= min(p.hole.typical for p in parts) - 1e-9
        else:
            assert one.typical["clamped_face"] == pytest.approx(d - 2 * EDGE_BREAK)
            shoulder += 1
    assert shoulder > 40


def test_the_torque_to_set_spoils_nothing():
    """With the slipperiest thread, neck, thread and seat keep a twentieth; with the driest, force is left."""
    weakest = Counter()
    for result, one, _ in clamped():
        v, q = one.typical, result.quantities
        most = q["set_torque"].value / one.given["nut_factor"]["least"] / v["thread_diameter"]
        neck = one.given["neck_diameter"]["least"]
        shares = {
            "neck": most / (np.pi / 4 * neck**2) / v["proof_stress"] / 0.75,
            "thread": most / v["stress_area"] / v["proof_stress"] / 0.75,
            "seat": q["seat_pressure"].band.most / v["seat_limit"],
        }
        assert max(shares.values()) == pytest.approx(0.95), result.joint.title
        assert v["proof_stress"] < v["yield_stress"] and q["clamp_given"].band.least > 0
        weakest[max(shares, key=shares.get)] += 1
    assert weakest["seat"] > 5 and weakest["neck"] > 5, weakest


def test_neck_stress_only_where_the_face_opens():
    """The neck alone carries moment and clamp force where the force kept is typically too little."""
    opened = 0
    for result, one, _ in clamped():
        q = result.quantities
        if one.layout == "C":  # its cheeks hold the screw, clamped or not
            assert "clamp_needed" not in q and "neck_stress" not in q
            continue
        opens = q["clamp_given"].typical < q["clamp_needed"].value
        assert ("neck_stress" in q) == (opens and one.kind("plate")[0]["on"] == "thread"), result.joint.title
        state = next(v.state for v in result.verdicts if v.about == "clamp")
        assert (state == "does not hold") == opens
        opened += opens
    assert 5 < opened < len(clamped()) - 5
