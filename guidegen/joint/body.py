"""The frame or hub: where its plates lie round the bearings, and its faces and length with tolerance."""

from dataclasses import dataclass

from guidegen.errors import CannotBuild
from guidegen.joint.box import thickness
from guidegen.joint.records import Joint
from guidegen.kit.records import BallBearing
from guidegen.units import Band


@dataclass(frozen=True)
class Body:
    """Bearings and what houses them, measured from the middle of bearing 1 towards the thread."""

    low: float  # outermost face towards the head that its neighbour touches
    high: float  # the same towards the thread
    inner_low: float  # innermost faces, between the bearings
    inner_high: float
    length: Band  # low to high, with its tolerance
    inner: Band  # inner_low to inner_high, with its tolerance
    outer_rings: Band  # distance between the outer rings, for a clamped stack
    plates: tuple[tuple[float, float], ...]  # of each plate; one for a block
    faces: tuple[float, float]  # outside diameters of the faces at low and high
    recessed: tuple[tuple[float, float], ...]  # of each bearing: how far the plate stands beyond its sides


def body_of(joint: Joint) -> Body:
    """Where plates and bearings lie; raises CannotBuild when they overlap."""
    widths = [thickness(b) for b in joint.bearings]
    middles = [0.0] if joint.single else [0.0, joint.separation]
    if not joint.single and joint.separation < (widths[0].typical + widths[1].typical) / 2:
        raise CannotBuild(
            f"the bearings overlap: they are {joint.separation:g} mm apart between middles",
            "bearings overlap",
        )
    ends = [(m - w.typical / 2, m + w.typical / 2) for m, w in zip(middles, widths)]
    if joint.body == "block" and not joint.single:
        length = ends[1][1] - ends[0][0]
        block = Band(length - joint.gap_tolerance, length, length + joint.gap_tolerance)
        between = joint.separation - (widths[0].typical + widths[1].typical) / 2
        rings = Band(between - joint.gap_tolerance, between, between + joint.gap_tolerance)
        return Body(
            ends[0][0],
            ends[1][1],
            ends[0][1],
            ends[1][0],
            block,
            rings,
            rings,
            ((ends[0][0], ends[1][1]),),
            _faces(joint, (False, False)),
            2 * ((0.0, 0.0),),
        )
    plates = tuple(_plate(end, housing) for end, housing in zip(ends, joint.housings))
    touched = tuple(_touched(*of) for of in zip(joint.bearings, ends, plates))
    low, high = touched[0][0], touched[-1][1]
    stands = (low < ends[0][0] - 1e-9, high > ends[-1][1] + 1e-9)
    recessed = tuple((end[0] - plate[0], plate[1] - end[1]) for end, plate in zip(ends, plates))
    if joint.single:
        plate = joint.housings[0].stock.thickness
        longest = max((widths[0], plate), key=lambda band: band.typical) if any(stands) else widths[0]
        none = Band.exactly(0)
        return Body(low, high, 0, 0, longest, none, none, plates, _faces(joint, stands), recessed)
    gap = plates[1][0] - plates[0][1]
    if gap < 0:
        raise CannotBuild(f"the plates overlap by {-gap:.1f} mm", "plates overlap")
    near = _reach(plates[0][1] - low, widths[0], joint.housings[0].stock.thickness)
    far = _reach(high - plates[1][0], widths[1], joint.housings[1].stock.thickness)
    length = near + Band(gap - joint.gap_tolerance, gap, gap + joint.gap_tolerance) + far
    rings = ends[1][0] - ends[0][1]
    return Body(
        low,
        high,
        touched[0][1],
        touched[1][0],
        length,
        _between(joint, widths, touched[0][1] - plates[0][1], touched[1][0] - plates[1][0], gap),
        Band(rings - joint.gap_tolerance, rings, rings + joint.gap_tolerance),
        plates,
        _faces(joint, stands),
        recessed,
    )


def _between(joint, widths, first, last, gap) -> Band:
    """Band of the distance between the inner faces; `first`, `last`: from the plate to the face there.

    A bearing that ends short of its plate's inner side or beyond it brings its own tolerance and the plate's.
    """
    between = Band(gap - joint.gap_tolerance, gap, gap + joint.gap_tolerance).shifted(last - first)
    for off, width, housing in zip((first, last), widths, joint.housings):
        if abs(off) > 1e-9:
            for band in (width, housing.stock.thickness):
                between += band.shifted(-band.typical)
    return between


def _touched(bearing, end, plate):
    """The two faces that a bearing's neighbours touch: a ball bearing's own, its ring goes into the hole."""
    if isinstance(bearing, BallBearing):
        return end
    return min(end[0], plate[0]), max(end[1], plate[1])


def _plate(end, housing):
    """Where a plate lies round its bearing: flush on one side, the bearing proud on the other."""
    plate = housing.stock.thickness.typical
    long = end[1] - end[0] >= plate
    flush_at_thread = (housing.proud == "head") == long
    return (end[1] - plate, end[1]) if flush_at_thread else (end[0], end[0] + plate)


def _reach(distance, width, plate):
    """The band of a distance from a plate's inner face to the body's outermost face."""
    source = width if abs(distance - width.typical) < abs(distance - plate.typical) else plate
    return source.shifted(distance - source.typical)


def _faces(joint, plate_stands):
    """Outside diameters of the two outermost faces: the bearing's, or the plate's when it stands out."""
    ends = (joint.bearings[0], joint.bearings[-1])
    edges = (joint.housings[0].edge, joint.housings[-1].edge)
    return tuple(
        2 * edge if stands else face_of(bearing) for bearing, edge, stands in zip(ends, edges, plate_stands)
    )


def face_of(bearing) -> float:
    """Outside diameter of what may touch a bearing beside it, mm."""
    return bearing.inner_land if isinstance(bearing, BallBearing) else bearing.outside_diameter.typical
