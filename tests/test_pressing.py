"""How bearings sit in their holes: forces, torques and stresses against rings in finite elements and sampling.

Sources outside the project: thick rings by finite elements (ring_reference.py) and by Lamé's constants
(joint_reference.py), numpy. The models' published rows: Shigley 8th ed., problems 3-68, 7-24 and 12-22;
Design of Machine Elements, ex. 22.6; Strength of Materials (Pytel and Singer), problem 208. Limits of acrylic
that stays strained, 10.3 MPa cast and 5.2 MPa extruded: pages of sheet suppliers. Edge distances and friction:
common practice.
"""

import re
from dataclasses import replace
from functools import cache
from itertools import product

import numpy as np
import pytest
from joint_reference import course, some, squeezed
from ring_reference import pressed as rings_pressed

from guidegen.errors import BadInput
from guidegen.joint import as_json, evaluate, make_joint
from guidegen.joint.gripping import gripped, press_of
from guidegen.joint.reach import quiet
from guidegen.kit.records import RawFile
from guidegen.theory.pressfit import bore_closure, bush_ratio, hub_ratio, press_pressure

CRANK, LEVER = "vent-louvre-crank", "mist-flap-lever"
HOUSING = {"stock": "aluminium-6", "process": "ream", "fit": "press", "edge": "24 mm", "proud": "head"}


def made(id=CRANK, **changes):
    """A named joint with some keys changed, evaluated."""
    raw = course().joints[id]
    data = {key: value for key, value in (raw.data | changes).items() if value is not None}
    return evaluate(make_joint(course(), RawFile(raw.path, data, raw.lines), id), course())


def housed(**changes):
    """The crank with both bushes in such a housing."""
    return made(housing_1=HOUSING | changes, housing_2="same")


def verdicts(result, about):
    return [v for v in result.verdicts if v.about == about]


def state(result, about):
    return verdicts(result, about)[0].state


def typical(q):
    return q.get("typical", q.get("value"))


@cache
def joints():
    named = [evaluate(make_joint(course(), raw, id), course()) for id, raw in course().joints.items()]
    return [as_json(result) | {"of": result} for result in (*named, *some(40))]


def pressed_in(result):
    return [n for n in (1, 2) if f"push_force_{n}" in result["quantities"]]


def sizes(result, n):
    """Inside, joint and outside diameter, interference, (E, nu) of bush and housing, from the JSON alone."""
    of = {name: typical(q) for name, q in result["inputs"].items()}
    inside = of.get(f"free_bore_{n}")
    if inside is None:
        inside = of[f"pitch_diameter_{n}"] + of[f"ball_diameter_{n}"]
    D = of[f"outside_diameter_{n}"]
    bush, wall = (of[f"modulus_{n}"], of[f"poisson_{n}"]), (of[f"housing_modulus_{n}"], of[f"housing_poisson_{n}"])
    return inside, D, of[f"hub_diameter_{n}"], D - of[f"hole_{n}"], bush, wall


def length(result, n):
    """Where the hole and the bearing both are."""
    own = typical(result["inputs"][f"width_{n}"])
    joint = result["of"].joint
    if joint.body == "block" and not joint.single:
        return own
    return min(own, typical(result["inputs"][f"plate_thickness_{n}"]))


def test_forces_and_stresses_by_elements():
    """At typical sizes, now and after a year; friction on the skin of the seat."""
    seen = 0
    for result in joints():
        q = result["quantities"]
        for n in pressed_in(result):
            inside, D, outer, tight, bush, wall = sizes(result, n)
            if tight <= 0:
                names = ("push_force", "holding_torque", "hub_stress", "press_pressure_later", "holding_torque_later")
                assert {q[f"{name}_{n}"]["typical"] for name in names} == {0.0}
                continue
            inputs = {name: typical(x) for name, x in result["inputs"].items()}
            mu, area = inputs[f"press_friction_{n}"], np.pi * D * length(result, n)
            p, _, _, hoop = rings_pressed(inside, D, outer, tight, bush, wall)
            lost, lost_b = inputs[f"stiffness_lost_{n}"], inputs.get(f"bush_stiffness_lost_{n}", 0.0)
            soft, soft_b = (wall[0] * (1 - lost), wall[1]), (bush[0] * (1 - lost_b), bush[1])
            p_later, _, _, hoop_later = rings_pressed(inside, D, outer, tight, soft_b, soft)
            expected = {
                "hub_stress": hoop,
                "push_force": mu * area * p,
                "holding_torque": mu * area * p * D / 2,
                "press_pressure_later": p_later,
                "hub_stress_later": hoop_later,
                "holding_torque_later": mu * area * p_later * D / 2,
                "edge_ratio": outer / 2 / D,
            }
            for name, value in expected.items():
                assert typical(q[f"{name}_{n}"]) == pytest.approx(value, rel=5e-4), (result["id"], name)
            seen += 1
    assert seen > 15


def test_bands_by_trying_all_ends():
    """Least and most of force and torque over every corner of sizes, modulus and friction, and none beyond."""
    seen = set()
    for result in joints():
        for n in pressed_in(result):
            joint, inputs = result["of"].joint, result["inputs"]
            housing, bearing = joint.housings[n - 1], joint.bearings[n - 1]
            inside, D, outer, _, bush, wall = sizes(result, n)
            ball = f"pitch_diameter_{n}" in inputs
            names = [f"outside_diameter_{n}", f"hole_{n}", f"housing_modulus_{n}", f"press_friction_{n}"]
            names += [] if ball else [f"free_bore_{n}"]
            ends = [(inputs[name]["least"], inputs[name]["most"]) if "least" in inputs[name] else (typical(inputs[name]),) for name in names]
            block = joint.body == "block" and not joint.single
            thick = housing.stock.thickness
            own = [bearing.width.typical] if ball else [bearing.length.least, bearing.length.most]
            reach = [(min(x, t) if not block else x) for x in own for t in (thick.least, thick.most)]
            forces = []
            for corner in product(*ends):
                D, hole, E, mu, *bore = corner
                p, _ = squeezed(D - hole, bore[0] if bore else inside, D, outer, bush, (E, wall[1]))
                forces += [mu * np.pi * D * x * p for x in reach]
            q = result["quantities"][f"push_force_{n}"]
            assert (q["least"], q["most"]) == pytest.approx((min(forces), max(forces)), rel=1e-9, abs=1e-9)
            assert q["least"] <= q["likely"][0] <= q["likely"][1] <= q["most"]
            seen.add(housing.stock.kind)
    assert seen >= {"metal", "wood", "print"}


def test_how_many_times_its_own_friction():
    """Torque held over shock times the friction of bore and face, from the worked steps; ends by the friction's own."""
    seen = 0
    for result in joints():
        steps = {step["gives"]: step["result"] for step in result["steps"]}
        shock = result["inputs"]["shock"]["value"]
        for n in pressed_in(result):
            if f"hold_factor_{n}" not in result["quantities"]:
                continue
            ball = f"pitch_diameter_{n}" in result["inputs"]
            face = 0 if ball else max(steps.get(f"start_face_torque_{k}", 0.0) for k in (1, 2))
            turns = shock * (steps[f"start_torque_{n}"] + face)
            for when in ("", "_later"):
                factor = result["quantities"][f"hold_factor{when}_{n}"]
                torque = result["quantities"][f"holding_torque{when}_{n}"]
                assert factor["typical"] == pytest.approx(torque["typical"] / turns)
                if not ball:
                    mu = result["inputs"][f"start_friction_{n}"]
                    worst = torque["least"] / (turns * mu["most"] / mu["typical"])
                    assert factor["least"] == pytest.approx(worst)
            seen += 1
    assert seen > 15


# what must hold of any press


def test_a_bore_never_closes_by_more_than_the_interference_allows():
    """Closure stays below i / √(1 − ν²), whatever the rings, and is reached by no ring but a thin hard-held one."""
    rng = np.random.default_rng(3)
    D, nu = rng.uniform(4, 40, 20_000), rng.uniform(0.1, 0.45, 20_000)
    d, outer = D * rng.uniform(0.05, 0.99, 20_000), D * rng.uniform(1.02, 9, 20_000)
    i = D * rng.uniform(1e-4, 1e-2, 20_000)
    E_b, E_h = 10 ** rng.uniform(3, 5.3, (2, 20_000))
    p = press_pressure(i, D, hub_ratio(outer, D), 0.3, E_h, bush_ratio(D, d), nu, E_b)
    share = bore_closure(p, D, d, E_b) / i * np.sqrt(1 - nu**2)
    assert (share > 0).all() and share.max() < 1
    held = press_pressure(i, D, hub_ratio(outer, D), 0.3, 1e12, bush_ratio(D, d), nu, E_b)
    assert (bore_closure(held, D, d, E_b) / i * np.sqrt(1 - nu**2)).max() > 0.99


def press(**changes):
    """The crank's bush in a ply of some thickness, its hole tight by so much."""
    joint = made().joint
    stock, bush = joint.housings[0].stock, joint.bearings[0]
    of = course().materials[bush.material]
    outside = bush.outside_diameter
    hole = outside.shifted(-changes.get("tight", 0.02))
    stock = stock.model_copy(update={"thickness": stock.thickness.shifted(changes.get("thicker", 0.0))})
    return press_of(bush, outside, bush.free_bore, hole, stock, 24.0, of)


def grip_of(one):
    bands = {name: value for name, value in one._asdict().items() if hasattr(value, "typical")}
    return gripped(one, {name: band.typical for name, band in bands.items()}, quiet)


def test_torque_grows_with_the_length_that_touches():
    """In proportion, up to the bush's own 8 mm, and no farther."""
    torques = [grip_of(press(thicker=x))["holding_torque"] for x in (-3, -1, 0, 2, 4, 30)]
    assert torques[:4] == pytest.approx([torques[2] * x / 6 for x in (3, 5, 6, 8)])
    assert torques[3] == torques[4] == torques[5]


def test_without_interference_there_is_nothing():
    """All of it nought, and never below."""
    for tight in (0.0, -0.05):
        assert set(grip_of(press(tight=tight)).values()) == {0.0}
    assert all(x > 0 for x in grip_of(press(tight=1e-6)).values())


def test_a_year_takes_what_the_table_says_from_a_hard_ring_in_soft_stock():
    """Next to rigid, the ring leaves all the fading to the stock."""
    one = press()._replace(bush=(1e12, 0.3))
    found = grip_of(one)
    assert found["holding_torque_later"] / found["holding_torque"] == pytest.approx(1 - one.housing_lost.typical)
    assert found["hub_stress_later"] / found["hub_stress"] == pytest.approx(1 - one.housing_lost.typical)


# verdicts


def test_a_press_by_name_only_is_told():
    """A nylon spacer in a hole reamed to its own nominal size is smaller than the hole more often than not."""
    result = made(bearings=["ny-8x12x8", "ny-8x12x8"], housing_1=HOUSING, housing_2="same")
    (verdict, *_) = verdicts(result, "press holds")
    assert verdict.state == "does not hold" and "drops in by hand" in verdict.why
    assert state(result, "bush spins") == "does not hold"
    assert state(housed(), "press holds") == "holds"  # bronze, larger by its class (ISO 2795: r6 in H7)
    assert state(housed(stock="birch-ply-6", process="laser"), "press holds") == "take care"


def test_a_measured_hole_decides():
    """Too large: loose; too small: the wood cracks, by Lamé's constants."""
    loose = made(measured={"hole_1": "12.10 mm", "with": "plug gauge"})
    assert verdicts(loose, "press holds")[0].state == "does not hold"
    tight = made(measured={"hole_1": "11.90 mm", "with": "plug gauge"})
    (worst,) = (v for v in verdicts(tight, "crack now") if v.name == "hub_stress_1")
    assert worst.state == "does not hold" and "the housing cracks" in worst.why
    inside, D, outer, i, bush, wall = sizes(as_json(tight) | {"of": tight}, 1)
    assert rings_pressed(inside, D, outer, i, bush, wall)[3] > 30.0  # MPa, of the ply for a moment


@pytest.mark.parametrize("stock, limit", [("cast-acrylic-6", 10.3), ("extruded-acrylic-5", 5.2)])
def test_acrylic_that_stays_strained(stock, limit):
    """Judged by the sustained stress that sheet suppliers print, at the hole by elements."""
    result = housed(stock=stock, process="ream", edge="36 mm")
    (verdict, *_) = verdicts(result, "crack later")
    inside, D, outer, i, bush, wall = sizes(as_json(result) | {"of": result}, 1)
    hoop = rings_pressed(inside, D, outer, i, bush, wall)[3]
    assert verdict.limit == limit and result.quantities["hub_stress_1"].typical == pytest.approx(hoop, rel=5e-4)
    most = result.quantities["hub_stress_1"].band.most
    assert verdict.state == ("does not hold" if hoop > limit else "take care" if most > limit else "holds")
    assert not verdicts(housed(), "crack later")  # metal stands for good what it stands at once


def test_a_bush_that_would_turn_in_its_hole():
    """A heavy load on a bush that hardly grips: its friction, shaken, wins."""
    load = {"radial": "900 N", "axial": "0 N", "shock": 3, "direction": "fixed"}
    barely = made(load=load, measured={"hole_1": "12.027 mm", "with": "plug gauge"})
    (verdict, *_) = (v for v in verdicts(barely, "bush spins") if v.name.endswith("_1"))
    assert verdict.state == "does not hold" and "turns in its hole" in verdict.why
    assert {v.state for v in verdicts(housed(), "bush spins")} == {"holds"}


def test_what_holds_a_bearing_that_is_not_pressed():
    """Glue holds, untold how well; what slips in must be held by something else."""
    bonded, slipped = (housed(stock="birch-ply-6", process="laser", fit=fit) for fit in ("bonded", "slip"))
    assert state(bonded, "held") == "holds" and "no table here tells" in verdicts(bonded, "held")[0].why
    assert state(slipped, "held") == "take care" and "nothing in the fit holds it" in verdicts(slipped, "held")[0].why
    for result in (bonded, slipped):
        assert not verdicts(result, "press holds") and "push_force_1" not in result.quantities
    mixed = made(housing_1=HOUSING, housing_2=HOUSING | {"stock": "birch-ply-6", "process": "laser", "fit": "slip"})
    assert verdicts(mixed, "held")[0].why.startswith("bearing 2:") and "push_force_1" in mixed.quantities


def test_the_wall_beside_a_hole():
    """Two diameters in metal hold, less is thin, less than one and a half never; nearer than the hole is refused."""
    assert state(housed(edge="24.1 mm"), "edge distance") == "holds"
    assert "better keeps 2:" in verdicts(housed(edge="19 mm"), "edge distance")[0].why
    assert "keeps at least 1.5:" in verdicts(housed(edge="15 mm"), "edge distance")[0].why
    with pytest.raises(BadInput) as refused:
        housed(edge="5.9 mm")
    assert "edge" in str(refused.value) and "5.9 mm from the hole's centre" in str(refused.value)


def test_steps_stand_behind_each_number():
    """Every force, torque and stress that is told has its worked step, once a bearing is pressed at all."""
    result = housed()
    steps = {step.gives: step.result for step in result.steps}
    names = ("push_force", "holding_torque", "holding_torque_later", "hub_stress", "hold_factor", "hold_factor_later",
             "press_pressure_later", "edge_ratio")
    for name, n in product(names, (1, 2)):
        assert steps[f"{name}_{n}"] == pytest.approx(result.quantities[f"{name}_{n}"].typical), name


def test_turning_in_a_block():
    """A block is as deep as its bearings are long: a ball bearing of 7 mm touches over 7 mm."""
    joint = make_joint(course(), course().joints["hose-guide-roller"], "roller")
    result = evaluate(joint, course())
    force = next(step for step in result.steps if step.gives == "push_force_1")
    assert joint.body == "block" and force.values["l_fit"] == pytest.approx(joint.bearings[0].width.typical)
    plates = evaluate(replace(joint, body="plates", separation=40.0), course())
    force = next(step for step in plates.steps if step.gives == "push_force_1")
    assert force.values["l_fit"] == pytest.approx(min(joint.bearings[0].width.typical, 12.0))


def test_reasons_name_numbers_and_bearings():
    """Each reason can stand alone."""
    for v in made().verdicts:
        if v.about in ("crack now", "crack later", "bush spins", "press holds"):
            assert re.search(r"at bearing [12]: [−\d]", v.why), v.why
