"""Warmth, cold and damp: sizes multiplied out one by one, walls that keep their volume, stacks laid anew.

Sources outside the project: thick rings by finite elements, scipy's root finder, plain multiplication. The
model's published rows: University Physics, ch. 1, and Physics for Scientists and Engineers (Knight), ch. 18.
Sizes hold at 20 °C (ISO 1).
"""

import shutil
from dataclasses import replace

import pytest
from joint_reference import course, some
from ring_reference import pressed as rings_pressed
from scipy.optimize import brentq
from test_data import PLAIN_COURSE
from test_pressing import HOUSING, LEVER, made, state, typical, verdicts

from guidegen.errors import BadInput
from guidegen.guide.edition import Edition
from guidegen.guide.holding import WORKED, holding
from guidegen.guide.holes import housed
from guidegen.guide.measures import Measures
from guidegen.guide.press_page import fit_of, grips_between, press_pages
from guidegen.joint import as_json, evaluate, make_joint
from guidegen.joint.climate import climates, humidity_at, water_growth
from guidegen.joint.growing import warmed
from guidegen.kit.lookup import edge_distance
from guidegen.kit.reader import read_course, read_words
from guidegen.units import Band

ROOM, MM = 50.0, Measures("mm")
WEATHER = ("cold", "hot", "damp")


def in_place(place, joint, **changes):
    """The joint, worked out where another place of the course is, or where that place is as stated."""
    return evaluate(replace(joint, place=course().places[place].model_copy(update=changes)), course())


def warmth(joint):
    return {end: getattr(joint.place, end) for end in ("temperature_least", "temperature_most")}


def typically(result):
    return {name: typical(q) for name, q in as_json(result)["inputs"].items()}


def grown(result, n, when):
    """(bearing, housing, screw): by how many times each has grown, from the JSON's inputs."""
    of = typically(result)
    rise = of["coldest"] if when == "cold" else of["warmest"]
    wet = when == "damp"
    return [
        1 + of[f"{whose}expansion{'' if whose == 'screw_' else f'_{n}'}"] * rise + wet * of.get(f"{whose}water_growth_{n}", 0.0)
        for whose in ("", "housing_", "screw_")
    ]


def bore_of(d, D, outer, hole, bush, wall, times, times_h):
    """Bore of a bush and of its hole both grown, pressed together by elements."""
    tight = D * times - hole * times_h
    closed = rings_pressed(d * times, D * times, outer * times_h, tight, bush, wall)[1] if tight > 0 else 0.0
    return d * times - closed


def test_bushes_in_warmth_and_cold():
    """Bush, hole and shaft multiplied out, then pressed together anew, by elements."""
    seen = 0
    for result in (made(), made(housing_1=HOUSING, housing_2="same"), *some(30)):
        of, q = typically(result), result.quantities
        for n, (bearing, housing) in enumerate(zip(result.joint.bearings, result.joint.housings), 1):
            if f"free_bore_{n}" not in of or f"water_growth_{n}" in of:
                continue
            bush, wall = (of[f"modulus_{n}"], of[f"poisson_{n}"]), (of[f"housing_modulus_{n}"], of[f"housing_poisson_{n}"])
            d, D, hole = of[f"free_bore_{n}"], of[f"outside_diameter_{n}"], of[f"hole_{n}"]
            near = 2e-5 + 3e-3 * abs(D - hole)  # growth of the difference, which the formula leaves out
            for when in WEATHER:
                if f"clearance_{when}_{n}" not in q:
                    assert when == "damp"
                    continue
                times, times_h, times_s = grown(result, n, when)
                pressed = housing.fit != "bonded"
                bore = bore_of(d, D, of[f"hub_diameter_{n}"], hole, bush, wall, times, times_h) if pressed else d * times
                gap = max(0.0, hole * times_h - D * times) if pressed else 0.0
                ours = q[f"clearance_{when}_{n}"].typical
                assert ours == pytest.approx(max(0.0, bore - of["shaft_diameter"] * times_s) + gap, abs=near), result.id
                if housing.fit == "press":
                    assert q[f"interference_{when}_{n}"].typical == pytest.approx(D * times - hole * times_h, abs=near)
                seen += 1
    assert seen > 30


def test_bands_contain_what_is_drawn_inside_them():
    """No point inside the limits beats the ends told."""
    from guidegen.joint.growing import over_sizes, sitting, sizes_of
    from guidegen.joint.findings import Findings
    from guidegen.joint.sample import sobol, within

    for joint in (made().joint, made(LEVER).joint, make_joint(course(), course().joints["pot-turntable"], "t")):
        found = Findings(joint, course())
        for climate in climates(joint):
            one = sitting(found.seats[0], found, joint.housings[0], climate)
            bands = sizes_of(one)
            columns = dict(zip(bands, within(list(bands.values()), sobol(len(bands))[::-1])))
            inside = warmed(one, climate, columns, lambda formula, gives, about="", **values: formula(**values))
            told = over_sizes(one, climate)
            for name in ("interference", "fit", "clearance"):
                band, drawn = getattr(told, name).band, getattr(inside, name)
                assert band.least - 1e-9 <= drawn.min() and drawn.max() <= band.most + 1e-9, (climate, name)


def test_nylon_under_water():
    """In a pond the wall of a pressed nylon bush has nowhere to go: volume kept, the bore passes the shaft."""
    joint = made(LEVER).joint
    result = in_place("pond", joint)
    (verdict,) = verdicts(result, "water")
    assert verdict.state == "does not hold" and "seizes on the shaft" in verdict.why
    of = typically(result)
    assert of["water_growth_1"] == pytest.approx(0.0265 - 0.006, abs=5e-4)  # table: wet, less a room's
    rise = of["warmest"]
    d, D = (next(s.values[name] for s in result.steps if s.gives == "swelling_damp_1") for name in ("d_f", "D"))
    beyond = next(s.values["e_beyond"] for s in result.steps if s.gives == "swelling_damp_1")
    volume = D**2 - d**2
    bore = brentq(lambda x: (D**2 - x**2) - volume * (1 + beyond) ** 3, 0.3 * d, d)  # ends held: same length
    closed = next(s.result for s in result.steps if s.gives == "swelling_damp_1")
    assert bore - d == pytest.approx(closed, rel=0.12) and closed < -0.2
    assert bore < of["shaft_diameter"] * (1 + of["screw_expansion"] * rise)
    dry = in_place("classroom", joint)
    assert state(dry, "water") != "does not hold"


def test_the_humidity_from_which_it_seizes():
    """At that humidity, and not below, the bore has come down to the shaft."""
    result = made(LEVER)
    (verdict,) = verdicts(result, "water")
    told = float(verdict.why.split("from about ")[1].split(" %")[0])
    joint = result.joint

    def fit(humidity):
        share = humidity / 100
        found = in_place(joint.place.id, joint, humidity=Band(share - 1e-6, share, share + 1e-6), **warmth(joint))
        return next(s.result for s in found.steps if s.gives == "bore_damp_1") - next(
            s.result for s in found.steps if s.gives == "shaft_damp_1"
        )

    assert fit(told - 1.5) > 0 > fit(told + 1.5)


def test_a_loose_nylon_bush_grows_freely_first():
    """With room round it, it grows as any part does, its bore too; only then inwards."""
    base = {"housing_1": HOUSING | {"fit": "slip"}, "housing_2": "same", "bearings": ["ny-8x12x8"] * 2}
    joint = made(**base, measured={"hole_1": "12.45 mm", "with": "plug gauge"}).joint
    result = in_place("pond", joint)
    of = typically(result)
    times, times_h, times_s = grown(result, 1, "damp")
    gap = of["hole_1"] * times_h - of["outside_diameter_1"] * times
    assert gap > 0
    free = of["free_bore_1"] * times - of["shaft_diameter"] * times_s
    assert result.quantities["clearance_damp_1"].typical == pytest.approx(free + gap, abs=2e-4)


def test_growth_by_water_is_read_from_where_it_is_kept():
    """In the air of the room it is kept in nothing grows; a table's points give their difference; and back."""
    assert water_growth("nylon", Band.exactly(ROOM)) == Band.exactly(0.0)
    assert water_growth("nylon", Band.exactly(100.0)).typical == pytest.approx(0.0265 - 0.006)
    assert water_growth("acrylic", Band(30.0, 80.0, 100.0)).typical == pytest.approx(0.002 * (1 - 50 / 80))
    assert water_growth("nylon", Band(20.0, 30.0, 40.0)).most < 0
    assert humidity_at(0.0095 - 0.006, "nylon") == pytest.approx(68.0)
    assert humidity_at(1.0, "nylon") == float("inf")


# the stack


def test_end_play_of_a_stack_laid_anew():
    """Each part multiplied out and laid on the others, from the head; steel between plates."""
    seen = 0
    for result in (made(), *some(40)):
        joint = result.joint
        if result.stack is None or joint.clamped or "end_play_hot" not in result.quantities:
            continue
        of = typically(result)
        for when in ("cold", "hot"):
            rise = of["coldest"] if when == "cold" else of["warmest"]
            left = result.stack.shoulder * of["screw_expansion"] * rise
            for row in result.stack.placed:
                if row.on != "shoulder" or row.within:
                    continue
                thick = row.thickness.typical
                if row.kind != "body":
                    one = course().stocks.get(row.part) or course().materials[course().parts[row.part].material]
                    left -= thick * one.expansion * rise
                elif joint.body == "block" and not joint.single:
                    left -= thick * of["housing_expansion_1"] * rise
                else:
                    first, last = result.stack.plates[0], result.stack.plates[-1]
                    apart = 0.0 if joint.single else last.z_from - first.z_to
                    share = (thick - apart) / len(joint.bearings)
                    left -= apart * 11.7e-6 * rise + sum(share * of[f"expansion_{n}"] * rise for n, _ in enumerate(joint.bearings, 1))
            change = result.quantities[f"end_play_{when}"].typical - result.quantities["end_play"].typical
            assert change == pytest.approx(left, abs=1e-9), (result.id, when)
            seen += 1
    assert seen > 30


def test_nylon_fillers_are_named():
    """Where damp takes the end play, the reason says how much and which part does most of it."""
    told = [v.why for result in some(200) for v in verdicts(result, "water") if "of end play" in v.why]
    assert told and all("most of it by the nylon spacer" in why for why in told)


# verdicts of warmth


def test_a_steel_ring_comes_loose_in_warm_acrylic():
    """From a place that is hot enough; where the two sizes meet is found by heating both."""
    housing = HOUSING | {"stock": "cast-acrylic-6", "edge": "36 mm"}
    joint = made(housing_1=housing, housing_2="same").joint
    found = in_place("greenhouse", joint, temperature_most=75.0)
    (verdict,) = verdicts(found, "heat")
    assert verdict.state == "does not hold" and "at 75 °C bearing 1 and 2 comes loose in its hole" in verdict.why
    of = typically(found)
    both = brentq(
        lambda rise: of["outside_diameter_1"] * (1 + of["expansion_1"] * rise)
        - of["hole_1"] * (1 + of["housing_expansion_1"] * rise),
        0,
        200,
    )
    assert both < of["warmest"]
    cooler = in_place("greenhouse", joint, temperature_most=20 + both - 1)
    assert verdicts(cooler, "heat")[0].state != "does not hold"
    stock, material = joint.housings[0].stock, course().materials[joint.bearings[0].material]
    ends = grips_between(joint.bearings[0].outside_diameter, Band.exactly(of["hole_1"]), material, stock)
    assert ends[1] == pytest.approx(20 + both, abs=1e-6)


def test_nothing_is_blamed_on_the_weather_that_was_wrong_before():
    """A hole far too large is no matter of warmth."""
    loose = made(measured={"hole_1": "12.10 mm", "hole_2": "12.10 mm", "with": "plug gauge"})
    assert state(loose, "press holds") == "does not hold" and state(loose, "heat") == "holds"


def test_the_range_of_the_course_and_of_another_place():
    """The course's own place counts with the course's range."""
    joint = made().joint
    cold, hot, damp = climates(joint)
    assert (cold.rise, hot.rise, damp.rise) == (course().temperature_least - 20, course().temperature_most - 20, hot.rise)
    assert (cold.words, damp.words) == ("at 5 °C", "at 40 °C and 60 to 95 % humidity")


# what cannot be


@pytest.mark.parametrize(
    "file, old, new, found, allowed",
    [
        ("data/course.yaml", "temperature_least: 5 degC", "temperature_least: -300 degC", "-300 degC", "at least -40"),
        ("data/stock.csv", "6 ± 0.4", "6 ± 6.5", "6 ± 6.5", "above 0"),
        ("data/materials.csv", "7850,,,", "7850,sponge,,", '"sponge"', "nylon"),
        ("data/stock.csv", "4.5,plywood", "4.5,cork", '"cork"', "plywood"),
    ],
    ids=["colder than anything", "a plate thinner than its tolerance", "swells as what?", "a stock that nobody measured"],
)
def test_clear_errors(tmp_path, file, old, new, found, allowed):
    """Refused with file, place, what was found and what is allowed."""
    folder = shutil.copytree(PLAIN_COURSE, tmp_path / "course")
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(BadInput) as refused:
        read_course(folder)
    (mistake,) = refused.value.mistakes
    assert mistake.file.endswith(file.rpartition("/")[2])
    assert found in str(mistake) and allowed in str(mistake)


# pages


def test_chapters_tell_the_numbers_of_the_results():
    """Tables and sentences say what the quantities say; every told quantity has its step."""
    result = made(housing_1=HOUSING, housing_2="same")
    tight, weather = holding(result, course(), MM)
    assert {"push_force_1", "holding_torque_later_2", "hub_stress_1"} <= set(tight.told())
    assert {"clearance_cold_1", "interference_hot_2", "end_play_hot"} <= set(weather.told())
    said = " ".join(tight.sentences)
    assert "vice with soft jaws" in said and "knock-out holes" in said and "hardly creeps" in said
    assert "Warmed by" in said and "An estimate" not in said
    assert "An estimate" in " ".join(holding(made(), course(), MM)[0].sentences)
    steps = {step.gives.rpartition("_")[0] if step.gives[-1] in "12" else step.gives for step in result.steps}
    assert {"push_force", "holding_torque", "hub_stress"} <= steps & WORKED
    assert "greenhouse with fertiliser mist, 5 to 40 °C" in weather.sentences[0]
    (glued, _) = holding(made(housing_1=HOUSING | {"stock": "birch-ply-6", "process": "laser", "fit": "bonded"}, housing_2="same"), course(), MM)
    assert "no table here tells" in " ".join(glued.sentences) and not glued.tables


def test_press_pages_have_every_bearing_in_every_stock():
    """Each once, at the edge distance wanted, with the numbers of the grip; all places linked from the first page."""
    first, *others = press_pages(Edition(course(), (), read_words(course_words())))
    parts = [part for part in course().parts.values() if housed(part)]
    for part in parts:
        pages = [page for page in others if f"parts/{part.id}.html" in page.body]
        assert len(pages) == 1 and pages[0].path in first.body, part.id
        for stock in course().stocks.values():
            assert stock.name[1:] in pages[0].body
    bush, stock = course().parts["sb-8x12x8"], course().stocks["aluminium-6"]
    fit = fit_of(bush, course(), stock)
    D = bush.outside_diameter.typical
    assert fit.edge == pytest.approx(edge_distance("metal")[1] * D) and fit.touch == 6.0
    hole = 12.009  # H7, middle
    p, _, _, hoop = rings_pressed(bush.free_bore.typical, D, 2 * fit.edge, D - hole, (70e3, 0.22), (68.9e3, 0.33))
    assert fit.held.quantities["push_force"].typical == pytest.approx(0.12 * 3.14159265 * D * 6 * p, rel=1e-3)
    assert fit.held.quantities["hub_stress"].typical == pytest.approx(hoop, rel=1e-3)


def course_words():
    from joint_reference import ROOT

    return ROOT / "shared"


def test_evaluation_of_a_joint_moved_by_hand_without_a_load():
    """No friction to speak of, no factor; nothing fails for it."""
    joint = replace(made().joint, radial=0.0, axial=0.0)
    found = evaluate(joint, course())
    assert "hold_factor_1" not in found.quantities and "push_force_1" in found.quantities
