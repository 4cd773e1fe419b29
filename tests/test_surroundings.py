"""Places where joints stand: how they are read, and what a person can type wrong about them."""

import shutil

import pytest
from test_data import ROOT
from test_reader import PLAIN_COURSE, SETTINGS, mistakes_of, spoil, the_mistake

from guidegen.kit.reader import read_course

PLACES = "data/surroundings.csv"


@pytest.fixture
def folder(tmp_path):
    """A copy of the plain course, to be spoiled."""
    return shutil.copytree(PLAIN_COURSE, tmp_path / "course")


def test_a_place_reads(folder):
    """Each cell becomes the value a person means."""
    course = read_course(folder)
    place = course.places[course.surroundings]
    assert (place.wet, place.salts, place.dust, place.harshness) == ("damp", "fertiliser", "no", "harsh")
    assert (place.humidity.least, place.humidity.most) == (0.6, 0.95)
    assert (place.temperature_least, place.temperature_most) == (5, 40)
    assert (place.air, place.agents) == ("harsh", ("water", "fertiliser mist"))


def test_the_demo_has_places_of_every_kind():
    """Each class of harshness, each way to get wet; every number with its source; joints name places that are there."""
    course = read_course(ROOT)
    places = course.places.values()
    assert {place.air for place in places} == {"controlled", "normal", "harsh", "soaked"}
    assert {place.wet for place in places} == {"dry", "damp", "splashed", "soaked"}
    assert {place.salts for place in places} == {"none", "fertiliser", "salt"}
    for place in places:
        for column in set(type(place).model_fields) - {"id", "name", "source"}:
            assert place.source_of(column) in course.sources, (place.id, column)
    assert {joint.data["surroundings"] for joint in course.joints.values()} <= set(course.places)
    own = course.places[course.surroundings]
    assert own.temperature_least <= course.temperature_least and course.temperature_most <= own.temperature_most


# by name: file, old, new, place, part of what was found, part of what is allowed
WRONG = {
    "a course elsewhere": (
        SETTINGS, "surroundings: greenhouse", "surroundings: grenhouse", "line 7", '"grenhouse"', "surroundings.csv"),
    "another way to be wet": (PLACES, "damp", "moist", "row 3, column wet", '"moist"', "dry, damp, splashed, soaked"),
    "another salt": (PLACES, "fertiliser", "sugar", "row 3, column salts", '"sugar"', "none, fertiliser, salt"),
    "another class": (PLACES, ",harsh,", ",mild,", "row 3, column harshness", '"mild"', "controlled, normal, harsh"),
    "more than saturated": (PLACES, "0.6 to 0.95", "0.6 to 1.2", "row 3, column humidity", '"0.6 to 1.2"', "at most 1"),
    "humidity in per cent": (PLACES, "0.6 to 0.95", "60 to 95", "row 3, column humidity", '"60 to 95"', "at most 1"),
    "no limits of humidity": (PLACES, "0.6 to 0.95", "0.8", "row 3, column humidity", "without limits", "0.05 to 0.15"),
    "temperatures swapped": (
        PLACES, ",5,40,", ",40,5,", "row 3, column temperature_least", "above temperature_most", "lower"),
    "mild fertiliser": (PLACES, ",harsh,", ",normal,", "row 3, column harshness", "normal with fertiliser about", "harsh"),
    "a splashed joint": (
        PLACES, "damp,fertiliser,no,0.6 to 0.95,5,40,harsh", "splashed,none,no,0.6 to 0.95,5,40,controlled",
        "row 3, column harshness", "controlled with a splashed joint", "harsh"),
    "kept dry and damp": (
        PLACES, "damp,fertiliser,no,0.6 to 0.95,5,40,harsh", "damp,none,no,0.6 to 0.95,5,40,controlled",
        "row 3, column harshness", "controlled in a damp place", "normal or harsh"),
}


@pytest.mark.parametrize("case", WRONG.values(), ids=WRONG)
def test_a_wrong_place_is_told(folder, case):
    """One mistake: the file, the place in it, what was found, what is allowed."""
    name, old, new, place, found, allowed = case
    told = the_mistake(folder, name, old, new)
    assert told.place == place and found in told.found and allowed in told.allowed


def test_a_near_name_is_offered(folder):
    """The place that was probably meant."""
    told = the_mistake(folder, SETTINGS, "surroundings: greenhouse", "surroundings: grenhouse")
    assert told.remedy == "Perhaps you mean greenhouse."


def test_a_row_with_a_mistake_still_counts_as_there(folder):
    """The course is not blamed for naming a place whose row cannot be read, nor while the file cannot."""
    spoil(folder, PLACES, "damp", "moist")
    assert [told.file for told in mistakes_of(folder)] == [PLACES]
    (folder / PLACES).unlink()
    assert [(told.file, told.found) for told in mistakes_of(folder)] == [(PLACES, "no such file")]
