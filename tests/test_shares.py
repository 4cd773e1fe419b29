"""Share of each cause in the wobble: one cause at a time set to nothing, in a second calculation."""

from dataclasses import replace

import pytest
from joint_reference import course, play, sizes, some

from guidegen.joint import evaluate
from guidegen.kit.records import BallBearing


def without(cause, joint, v):
    """The sizes of a joint with one cause of play taken away."""
    left = dict(v)
    numbers = range(1, len(joint.bearings) + 1)
    if cause == "shoulder":
        bores = [size for name, size in v.items() if name[:-1] in ("bore_", "free_bore_")]
        left["shaft_diameter"] = max(v["shaft_diameter"], min(joint.shaft.nominal, min(bores)))
    for n, bearing in zip(numbers, joint.bearings):
        ball = isinstance(bearing, BallBearing)
        if cause == "bearing":
            bore = f"bore_{n}" if ball else f"free_bore_{n}"
            left[bore] = min(joint.shaft.nominal, v[bore])
            if ball:
                left[f"internal_clearance_{n}"] = 0.0
        elif cause == "housing" and v[f"hole_{n}"] > v[f"outside_diameter_{n}"]:
            left[f"hole_{n}"] = v[f"outside_diameter_{n}"]
        elif cause == "closure" and v[f"hole_{n}"] < v[f"outside_diameter_{n}"]:
            left[f"outside_diameter_{n}"] = left[f"hole_{n}"]  # it still holds but squeezes nothing
    return left


def slipped(result):
    """The same joint with its bearings slipped into holes that leave them room."""
    housings = tuple(replace(housing, fit="slip") for housing in result.joint.housings)
    return evaluate(replace(result.joint, housings=housings), course())


def test_each_share_is_what_its_removal_takes_away():
    """Shoulder, bearing, housing, closure on sixty joints; what is left over makes the sum whole."""
    seen = {"shoulder": 0, "bearing": 0, "housing": 0, "closure": 0}
    for result in (*some(), *map(slipped, some()[::5])):
        v = sizes(result)
        whole = float(play(result.joint, v)["tilt"])
        if whole == 0:
            assert not result.shares
            continue
        for cause in seen:
            share = 1 - float(play(result.joint, without(cause, result.joint, v))["tilt"]) / whole
            assert result.shares[cause] == pytest.approx(share, abs=1e-6), (result.id, cause)
            seen[cause] += abs(share) > 0.01
        assert set(result.shares) == {*seen, "together"}
        assert sum(result.shares.values()) == pytest.approx(1)
    assert all(seen.values()), seen
