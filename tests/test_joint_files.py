"""Joint files as people spoil them: every one is told in one form with its line, and none ends in a traceback."""

import json
import random
from copy import deepcopy

import pytest
from drawn_joints import drawn, evaluated, length
from joint_reference import course
from test_cli import run

from guidegen.errors import BadInput
from guidegen.joint import as_json, evaluate, make_joint, report
from guidegen.kit.reader import read_joint_file

SOUND = """\
title: Shade lever
shaft: ss-8x50
bearings: [sb-8x12x8, sb-8x12x8]
separation: 28 mm
load: {radial: 30 N, axial: 4 N, shock: 1.5, direction: fixed}
arm: 120 mm
motion: {kind: swing, angle: 70 deg, rate: 6 /min, hours: 200}
turns: shaft
body: plates
housing_1: {stock: birch-ply-6, process: laser, fit: press, edge: 14 mm, proud: head}
housing_2: {stock: birch-ply-6, process: laser, fit: press, edge: 14 mm, proud: thread}
on_thread: {stock: aluminium-3, process: drill}
surroundings: greenhouse
measured: {shaft: 7.96 mm, with: caliper}
"""
# What is written in place of what, the line told, and words of what was found or is allowed.
SPOILED = {
    "unknown part": ("shaft: ss-8x50", "shaft: ss-8x55", 2, "ss-8x55"),
    "a bush for a shaft": ("shaft: ss-8x50", "shaft: sb-8x12x8", 2, "shoulder screw"),
    "a list for a name": ("shaft: ss-8x50", "shaft: [ss-8x50]", 2, "shoulder screw"),
    "a number for a title": ("title: Shade lever", "title: 12", 1, "text of 1 to 200"),
    "an empty title": ("title: Shade lever", 'title: "  "', 1, "text of 1 to 200"),
    "a letter that turns the line round": ("Shade lever", '"Shade \\u202e lever"', 1, "control characters"),
    "nothing": ("arm: 120 mm", "arm:", 6, "nothing"),
    "null": ("arm: 120 mm", "arm: null", 6, "nothing"),
    "no unit": ("separation: 28 mm", "separation: 28", 4, "no unit"),
    "a quoted number": ("separation: 28 mm", 'separation: "28"', 4, "no unit"),
    "a unit of another kind": ("separation: 28 mm", "separation: 28 kg", 4, "another kind"),
    "an unknown unit": ("separation: 28 mm", "separation: 28 furlong_", 4, "unknown unit"),
    "a decimal comma": ("separation: 28 mm", 'separation: "28,5 mm"', 4, "decimal comma"),
    "a negative distance": ("separation: 28 mm", "separation: -28 mm", 4, "above 0"),
    "a distance that rounds to nothing": ("separation: 28 mm", "separation: 1e-300 mm", 4, "above 0"),
    "a distance of a kilometre": ("separation: 28 mm", "separation: 1 km", 4, "at most 1000"),
    "infinity": ("arm: 120 mm", "arm: inf mm", 6, "not a finite number"),
    "too large for a number": ("arm: 120 mm", "arm: 1e999 mm", 6, "not a finite number"),
    "not a number": ("arm: 120 mm", "arm: .nan mm", 6, "not a number"),
    "a fraction over zero": ("arm: 120 mm", "arm: 5/0 in", 6, "over zero"),
    "three bearings": ("[sb-8x12x8, sb-8x12x8]", "[sb-8x12x8, sb-8x12x8, sb-8x12x8]", 3, "one or two"),
    "no bearing": ("[sb-8x12x8, sb-8x12x8]", "[]", 3, "one or two"),
    "a bearing that is none": ("[sb-8x12x8, sb-8x12x8]", "[sb-8x12x8, sp-8x5]", 3, "sp-8x5"),
    "a nested bearing": ("[sb-8x12x8, sb-8x12x8]", "[sb-8x12x8, [sb-8x12x8]]", 3, "bearing of this course"),
    "a load that pulls back": ("radial: 30 N", "radial: -30 N", 5, "at least 0"),
    "a load as a list": ("{radial: 30 N, axial: 4 N, shock: 1.5, direction: fixed}", "[30 N]", 5, "keys radial"),
    "an unknown load": ("radial: 30 N", "radail: 30 N", 5, "Did you mean radial"),
    "a shock below one": ("shock: 1.5", "shock: 0.5", 5, "at least 1"),
    "a shock with a unit": ("shock: 1.5", "shock: 1.5 N", 5, "plain number"),
    "an unknown direction": ("direction: fixed", "direction: up", 5, "turning with the arm"),
    "what turns is a list": ("turns: shaft", "turns: [shaft]", 8, "shaft or housing"),
    "held while the shaft turns": ("body: plates", "body: plates\nheld: fork", 10, "only when the housing"),
    "an unknown body": ("body: plates", "body: cage", 9, "plates or block"),
    "a process that does not suit": ("process: drill}", "process: print}", 12, "processes for metal"),
    "unknown stock": ("stock: aluminium-3", "stock: unobtainium-3", 12, "stock of this course"),
    "a plate pressed on": ("process: drill}", "process: drill, fit: press}", 12, "slip or bonded"),
    "a hole off the edge": ("edge: 14 mm, proud: head", "edge: 5 mm, proud: head", 10, "the radius of"),
    "a housing without fit": ("fit: press, edge: 14 mm, proud: head", "edge: 14 mm", 10, "no key fit"),
    "a motion without rate": ("angle: 70 deg, rate: 6 /min, ", "angle: 70 deg, ", 7, "needs angle and rate"),
    "an unknown instrument": ("with: caliper", "with: ruler", 14, "caliper or micrometer"),
    "another part measured": ("shaft: 7.96 mm", "shaft: 9.53 mm", 14, "within 0.5 mm"),
    "an unknown key": ("surroundings:", "suroundings:", 13, "Did you mean surroundings"),
    "surroundings as a list": ("surroundings: greenhouse", "surroundings: [greenhouse]", 13, "a place of this course"),
    "an unknown place": ("surroundings: greenhouse", "surroundings: grenhouse", 13, "Did you mean greenhouse?"),
    "a stack of numbers": ("surroundings: greenhouse", "stack: [1, 2]", 13, "part ids"),
    "no load": ("load: {radial: 30 N, axial: 4 N, shock: 1.5, direction: fixed}\n", "", 1, "no key load"),
    "two bearings, no separation": ("separation: 28 mm\n", "", 1, "no key separation"),
    "one bearing, a separation": ("[sb-8x12x8, sb-8x12x8]", "[sb-8x12x8]", 4, "with one bearing"),
    "a load beyond bearing 1": ("arm: 120", "overhang: -30 mm\narm: 120", 6, "Turn the screw round"),
    "a key twice": ("arm: 120 mm", "arm: 120 mm\narm: 12 mm", 7, "again"),
    "a tab": ("arm: 120 mm", "\tarm: 120 mm", 6, "tab"),
    "an anchor": ("arm: 120 mm", "arm: &a 120 mm", 6, "anchor"),
}
WHOLE = {"a list": "- title: x\n", "nothing at all": "", "only words": "a joint\n", "two of them": "a: 1\n---\nb: 2\n"}
JUNK = (
    *(None, True, 0, -1, 1e308, 10**30, "", "x", "8", "8 mm", "0 mm", "-1 mm", "1e-9 mm", "999 mm", "5/16 in"),
    *([], {}, [[]], {"a": {"b": []}}, ["sb-8x12x8"], [None, None], "\u202e", "ø8 ㎜", "a" * 5000),
    *("same", "fork", "ss-8x50", "birch-ply-6", {"kind": "hand"}, {"stock": ["x"]}),
)


def told(path):
    """The mistakes of a joint file, each as one line."""
    with pytest.raises(BadInput) as bad:
        make_joint(course(), read_joint_file(path), path.stem)
    return [(mistake, str(mistake)) for mistake in bad.value.mistakes]


def test_the_sound_file_is_sound(tmp_path):
    """What is spoiled below is taken without a word as it stands."""
    path = tmp_path / "lever.yaml"
    path.write_text(SOUND)
    result = evaluate(make_joint(course(), read_joint_file(path), "lever"), course())
    assert result.id == "lever" and result.stack is not None


@pytest.mark.parametrize("case", SPOILED)
def test_a_mistake_is_told_with_its_line_and_what_is_allowed(case, tmp_path):
    """File, line, what was found, what is allowed; nothing else is blamed on another line."""
    written, instead, line, words = SPOILED[case]
    assert SOUND.count(written) == 1
    path = tmp_path / "lever.yaml"
    path.write_text(SOUND.replace(written, instead))
    mistakes = told(path)
    assert any(words in text and mistake.place.split(",")[0] == f"line {line}" for mistake, text in mistakes), (
        mistakes
    )
    for mistake, text in mistakes:
        assert mistake.file == str(path) and mistake.found and mistake.allowed and "\n" not in text
        assert text == f"{path}, {mistake.place}: found {mistake.found}; allowed: {mistake.allowed}." + (
            f" {mistake.remedy}" if mistake.remedy else ""
        )


@pytest.mark.parametrize("case", WHOLE)
def test_a_file_that_is_no_joint_at_all(case, tmp_path):
    """A list, an empty file, loose words, two documents."""
    path = tmp_path / "lever.yaml"
    path.write_text(WHOLE[case])
    assert all(text.startswith(f"{path}, ") and mistake.allowed for mistake, text in told(path))


def test_all_mistakes_are_told_at_once(tmp_path):
    """Ten spoiled lines give ten mistakes, in one go."""
    text = SOUND
    for case in ("unknown part", "no unit", "an unknown load", "nothing", "what turns is a list"):
        written, instead, *_ = SPOILED[case]
        text = text.replace(written, instead)
    path = tmp_path / "lever.yaml"
    path.write_text(text)
    assert {mistake.place.split(",")[0] for mistake, _ in told(path)} >= {f"line {n}" for n in (2, 4, 5, 6, 8)}


def places(tree, way=()):
    """Every place in nested mappings and lists."""
    for key, value in tree.items() if isinstance(tree, dict) else enumerate(tree):
        yield *way, key
        if isinstance(value, (dict, list)):
            yield from places(value, (*way, key))


def spoiled(seed):
    """A drawn joint file with junk in one or two places."""
    rng, file = random.Random(seed), deepcopy(drawn(seed))
    for _ in range(rng.choice([1, 2])):
        *way, last = rng.choice(list(places(file)))
        inside = file
        for key in way:
            inside = inside[key]
        inside[last] = rng.choice(JUNK)
    return file


def pushed(seed):
    """A drawn joint file with its distances and loads at the ends of what may be written."""
    rng, file = random.Random(seed), deepcopy(drawn(seed))
    for key in rng.sample(["separation", "overhang", "arm", "offset"], 2):
        if key in file:
            file[key] = rng.choice(["1e-6 mm", "1000 mm", "-1000 mm", "0 mm", length(rng, 0.01, 999)])
    file["load"] = {
        "radial": rng.choice(["1e-300 N", "0 N", "1e5 N"]),
        "axial": rng.choice(["1e-6 N", "0 N", "1e5 N"]),
        "shock": rng.choice([1, 10]),
    }
    return file


def test_whatever_is_written_gives_a_result_or_a_list_of_mistakes():
    """Junk anywhere, and sizes and loads at their ends: plain finite JSON and a report, or BadInput."""
    outcomes = {"result": 0, "told": 0}
    for seed in range(120):
        for file in (spoiled(seed), pushed(seed)):
            result = evaluated(file | {"title": f"Spoiled {seed}"})
            if isinstance(result, BadInput):
                assert all(m.found and m.allowed and m.place.startswith("line") for m in result.mistakes)
                outcomes["told"] += 1
            else:
                json.dumps(as_json(result), allow_nan=False)
                assert result.verdicts and result.id in report(result)
                outcomes["result"] += 1
    assert min(outcomes.values()) > 40, outcomes


LISTED = {
    "a screw among the parts": (["ss-8x50", "sb-8x12x8", "sb-8x12x8"], "names ss-8x50"),
    "a third bearing": (["sb-8x12x8", "wl-8", "sb-8x12x8", "sb-8x12x12"], "names sb-8x12x12"),
    "an unknown part": (["wl-8", "sb-8x12x8", "sb-8x12x8", "banana"], "names banana"),
    "one bearing left out": (["wl-8", "sb-8x12x8", "wl-8"], "once each"),
    "no plate on the thread": (["wl-8", "sb-8x12x8", "sb-8x12x8", "wl-8", "ws-6", "nut-m6"], "first on the thread"),
    "the plate outside the nut": (
        ["wl-8", "sb-8x12x8", "sb-8x12x8", "wl-8", "nut-m6", "aluminium-3"],
        "first on the thread",
    ),
    "too much between": (
        ["wl-8", "sb-8x12x8", "sp-8x20", "sp-8x5", "sb-8x12x8", "aluminium-3", "nut-m6"],
        "between the bearings",
    ),
    "too long": (["sp-8x25", "sb-8x12x8", "sb-8x12x8", "wl-8", "aluminium-3", "nut-m6"], "longer than the shoulder"),
}
WRONG_FACES = {
    "a nut of another thread": (["nut-516"], "has the thread"),
    "no nut": ([], "no nut holds"),
}


def listing(tmp_path, stack):
    path = tmp_path / "lever.yaml"
    path.write_text(SOUND + f"stack: [{', '.join(stack)}]\n")
    return evaluate(make_joint(course(), read_joint_file(path), "lever"), course())


@pytest.mark.parametrize("case", LISTED)
def test_a_listed_stack_that_cannot_be_is_a_verdict_with_its_reason(case, tmp_path):
    """Whatever the list says, the joint is judged, not refused with a traceback."""
    stack, words = LISTED[case]
    result = listing(tmp_path, stack)
    buildable = next(v for v in result.verdicts if v.about == "buildable")
    assert result.stack is None and buildable.state == "does not hold" and words in buildable.why


@pytest.mark.parametrize("case", WRONG_FACES)
def test_what_does_not_fit_the_thread_is_told(case, tmp_path):
    """Nuts of another thread, or none."""
    nuts, words = WRONG_FACES[case]
    sound = ["wl-8", "sb-8x12x8", "sb-8x12x8", "wl-8", "aluminium-3", "ws-6", *nuts]
    faces = next(v for v in listing(tmp_path, sound).verdicts if v.about == "faces")
    assert faces.state == "does not hold" and words in faces.why


def test_exit_codes_with_several_files_and_a_folder(tmp_path):
    """Good, bad and failing files together: the good are reported, the bad told, and 2 outranks 1."""
    good, bad, poor = (tmp_path / f"{name}.yaml" for name in ("good", "bad", "poor"))
    easy = SOUND.replace("ss-8x50", "ss-8x50-h8").replace("measured: {shaft: 7.96 mm, with: caliper}\n", "")
    good.write_text(easy.replace("birch-ply-6, process: laser", "aluminium-6, process: ream"))
    bad.write_text(SOUND.replace("28 mm", "28 kg"))
    poor.write_text(SOUND.replace("ss-8x50", "ss-8x25").replace("measured: {shaft: 7.96 mm, with: caliper}\n", ""))
    alone = run("joint", good, "--json")
    assert (alone.returncode, alone.stderr) == (0, ""), alone.stdout[:2000]
    failing = run("joint", good, poor, "--json")
    assert failing.returncode == 1 and [r["id"] for r in json.loads(failing.stdout)] == ["good", "poor"]
    mixed = run("joint", tmp_path, "--json")
    assert mixed.returncode == 2 and [r["id"] for r in json.loads(mixed.stdout)] == ["good", "poor"]
    assert f"{bad}, line 4" in mixed.stderr and "1 mistake." in mixed.stderr
