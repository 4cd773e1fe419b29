"""Different metals that touch in a joint: how far apart, which is eaten, and whether its place lets it be."""

from typing import NamedTuple

from guidegen.joint.contacts import Contact, contacts
from guidegen.joint.made_of import Thing, things_of
from guidegen.joint.records import Joint, Stack, State
from guidegen.kit.metals import galvanic_limit, surface
from guidegen.kit.records import NO_METAL, Course, Nut, ShoulderScrew, Stock
from guidegen.theory.corrosion import REACH, attack_factor, face_beside, galvanic_difference, part_outside

EATEN_FIRST = ("zinc",)  # platings that are there to be eaten before the metal under them
SAME = 1e-9  # V
WORSE_WAY = 2.0  # attack factor beyond which the one that is eaten is the smaller


class Met(NamedTuple):
    """Two metals that touch: the one that would be eaten, and how far apart they are, V."""

    eaten: Thing
    kept: Thing
    how: str
    apart: float
    limit: float
    state: State
    says: str  # what to add to it; may be empty
    eaten_area: float  # mm², of each, that one film of water reaches
    kept_area: float

    @property
    def why(self) -> str:
        """The pair by name, how far apart and how far they may be, and what to do."""
        apart = f"{self.apart:.2f} V apart, {self.limit:.2f} V let pass"
        eaten = "; the first is eaten where both are wet" if self.state != "holds" else ""
        pair = f"{self.eaten.name} against {self.kept.name}: {apart}{eaten}"
        return f"{pair}; {self.says}" if self.says else pair


def metals_met(joint: Joint, stack: Stack | None, course: Course) -> tuple[Met, ...]:
    """Each two different metals that touch without a film between them, the farthest apart first."""
    things = {thing.id: thing for thing in things_of(joint, stack, course)}
    found: dict[frozenset, Met] = {}
    for contact in contacts(joint, stack):
        one, other = things.get(contact.one), things.get(contact.other)
        if one is None or other is None or NO_METAL in (one.metal, other.metal):
            continue
        met = _met(one, other, contact, joint)
        if met is not None and met.apart > SAME:
            found.setdefault(frozenset((one.id, other.id)), met)
    return tuple(sorted(found.values(), key=lambda met: -met.apart))


def _met(one: Thing, other: Thing, contact: Contact, joint: Joint) -> Met | None:
    mine, theirs = surface(one.metal, one.finish), surface(other.metal, other.finish)
    if mine.index is None or theirs.index is None:
        return None
    apart = galvanic_difference(mine.index, theirs.index)
    eaten, kept = (one, other) if mine.index > theirs.index else (other, one)
    areas = _wetted(eaten, kept, joint), _wetted(kept, eaten, joint)
    limit = galvanic_limit(joint.place.harshness)
    state, says = _judged(eaten, kept, apart, limit, areas, joint.place)
    return Met(eaten, kept, contact.how, apart, limit, state, says, *areas)


def _judged(eaten: Thing, kept: Thing, apart, limit, areas, place) -> tuple[State, str]:
    """How two metals do together at a place, and what to add to it."""
    if apart <= limit + SAME:
        return "holds", ""
    if eaten.finish in EATEN_FIRST and eaten.metal == kept.metal:
        return "holds", f"the {eaten.finish} is there to be eaten, and keeps the {kept.metal}"
    if place.wet == "dry":
        return "holds", "nothing flows where it is dry"
    small = attack_factor(areas[1], areas[0]) > WORSE_WAY
    says = "the first is the smaller, the worse way round: " * small
    if place.wet == "soaked" or place.salts == "salt" and small:
        return "does not hold", f"{says}not for such a place"
    return "take care", f"{says}keep oil or grease between them"


def _wetted(thing: Thing, beside: Thing, joint: Joint) -> float:
    """Area of a thing that one film of water round the contact reaches, mm²."""
    match thing.of:
        case Stock():
            return face_beside(_across(beside.of), REACH)
        case ShoulderScrew():  # a strip of the shoulder
            across = _across(thing.of)
            return part_outside(across, across, REACH)
    return part_outside(_across(thing.of), _hole(thing.of), min(_long(thing.of), REACH))


def _across(of) -> float:
    match of:
        case ShoulderScrew():
            return of.shoulder_diameter.typical
        case Nut():
            return of.across_flats.typical
        case Stock():
            return 0.0
    return of.outside_diameter.typical


def _hole(of) -> float:
    names = ("bore", "free_bore", "hole")
    return next((getattr(of, name).typical for name in names if hasattr(of, name)), 0.0)


def _long(of) -> float:
    names = ("thickness", "length", "width", "height")
    return next(getattr(of, name).typical for name in names if hasattr(of, name))
