"""The words of the first steps of a build: holes made, bearings put into them, tried, lined up and glued."""

from guidegen.guide.bench import Bench, Words
from guidegen.joint.build_order import Build, way_of_making
from guidegen.joint.inputs import Seat, seats, shaft_hole, thread_hole
from guidegen.joint.reach import reach_of
from guidegen.joint.records import Result
from guidegen.kit.lookup import drills_beside, reamers_beside
from guidegen.kit.records import Process
from guidegen.units import Band

LEFT_TO_REAM = 0.2  # mm that a reamer takes off a drilled hole, up to 13 mm (common practice)
SERIES = {"mm": {"drill": ("metric",), "reamer": ("metric",)}}
SERIES["in"] = {"drill": ("fractional", "number", "letter"), "reamer": ("fractional", "over-under")}
SIDES = {"head": "the side of the head", "thread": "the side of the thread"}
MADE = {"laser": "Cut", "print": "Print", "drill": "Drill", "reamer": "Drill, then ream"}
CLEAN = {
    "laser": "Let the part cool; take off soot and beads.",
    "print": "Take off strings and the first layer's lip.",
    "drill": "Deburr both sides.",
}
GLUE = {"metal": "Epoxy or a retaining compound.", "": "Epoxy: retaining compound sets between metals only."}


def laid_out(bench: Bench, build: Build) -> Words:
    """All parts on the bench, counted; measured first where the stack asks for it."""
    pieces = 1 + sum(row.part in bench.course.parts for row in bench.stack.placed)
    says = f"Lay out the {pieces} pieces of the list above, and the plates."
    if judged(bench.result, "end play") != "holds":
        window = bench.measures.range(*bench.stack.window, "mm").line
        says += (
            " Measure the parts marked “measure”, add up, and choose washers and shims that leave "
            f"{window} of end play: the stack of the list is right for parts of typical size only."
        )
    return Words("Lay out and count", says, f"{pieces} pieces, numbered as in the drawing.")


def judged(result: Result, about: str) -> str:
    """The state of a check; "holds" where it is not asked."""
    return next((v.state for v in result.verdicts if v.about == about), "holds")


def seat_hole(bench: Bench, build: Build) -> Words:
    """The hole that a bearing sits in."""
    n = build.at[0]
    seat, housing = seats(bench.joint, bench.course)[n - 1], bench.housing(n)
    title = f"the hole for {bench.which(build.at)}" if len(build.at) == 1 else "the holes for both bearings"
    says = (
        f"In {housing.stock.name}: {_to_draw(bench, seat.drawn, housing.process)}. {_clean(housing.process)}"
    )
    if way_of_making(housing.process) == "laser":
        says += " A laser's cut is wider on one side: let the bearing go in there."
    if housing.fit == "press":
        says += " Break the edge on the side where the bearing goes in."
    return Words(
        f"{_made(housing.process)} {title}", says, _comes_out(bench, seat.hole, _takes(seat, housing))
    )


def plate_hole(bench: Bench, build: Build) -> Words:
    """The hole over the thread, in the plate that the nut clamps."""
    plate = bench.joint.on_thread
    made = thread_hole(bench.joint.thread.id, "fine", plate.process)
    what = "arm" if bench.joint.turns == "shaft" else "frame"
    return _beside(bench, f"hole over the thread in the {what}", plate, made, bench.joint.thread.diameter)


def cheek_holes(bench: Bench, build: Build) -> Words:
    """The holes in both cheeks of a fork."""
    cheeks, most = bench.joint.cheeks, bench.joint.shaft.shoulder_diameter.most
    return _beside(bench, "hole in each cheek", cheeks, _over_shoulder(bench, cheeks), most)


def arm_hole(bench: Bench, build: Build) -> Words:
    """The hole of an arm on the shoulder."""
    arm, most = bench.joint.arm_plate, bench.joint.shaft.shoulder_diameter.most
    return _beside(bench, "hole over the shoulder in the arm", arm, _over_shoulder(bench, arm), most)


def _over_shoulder(bench, plate):
    return shaft_hole(bench.joint.shaft.nominal, plate)


def _beside(bench, what, plate, made, through: float) -> Words:
    """A hole that something passes through with room; `through`: the largest it may be, mm."""
    says = f"In {plate.stock.name}: {_to_draw(bench, made.drawn, plate.process)}. {_clean(plate.process)}"
    return Words(
        f"{_made(plate.process)} the {what}",
        says,
        _comes_out(bench, made.band, _within(made.band, through, made.band.most)),
    )


def _made(process: Process) -> str:
    return MADE["reamer" if process.tool == "reamer" else way_of_making(process)]


def _to_draw(bench, drawn, process) -> str:
    tools = hole_tools(bench, drawn, process)
    if not tools:
        return f"draw ⌀ {bench.size(drawn)}"
    return " then ".join(tools) + f", for ⌀ {bench.size(drawn)}"


def hole_tools(bench: Bench, drawn: float, process: Process) -> list[str]:
    """The drill, or drill and reamer, sold nearest to a hole, mm; none for other ways of making it."""
    return tools_for(drawn, process, bench.joint.kit.units if bench.joint.kit else bench.course.units_first)


def tools_for(drawn: float, process: Process, units: str) -> list[str]:
    """The same in the series of one unit, mm or in."""
    if not process.tool:
        return []
    series = SERIES[units]
    if process.tool == "drill":
        return [_named("drill", _nearest(drills_beside(drawn, *series["drill"]), drawn))]
    reamer = _nearest(reamers_beside(drawn, *series["reamer"]), drawn)
    before = drills_beside(reamer.diameter - LEFT_TO_REAM, *series["drill"]).below
    return [_named("drill", before)] * (before is not None) + [_named("reamer", reamer)]


def _nearest(beside, size):
    return min(filter(None, beside), key=lambda tool: abs(tool.diameter - size))


def _named(kind, tool):
    return f"{kind} {tool.name}{' in' * (tool.series in ('fractional', 'over-under'))}"


def _clean(process):
    return CLEAN[way_of_making(process)]


def _takes(seat: Seat, housing) -> Band:
    """Holes as made that hold a middling bearing and neither close it nor strain; or that it slips into."""
    if housing.fit != "press":
        return _within(seat.hole, seat.outside.most, seat.hole.most)
    most = reach_of(seat.ring, seat.wall).most(seat.wall.kind)
    return _within(seat.hole, seat.outside.typical - most, seat.outside.typical)


def _within(hole: Band, least: float, most: float) -> Band:
    """What of a machine's holes lies between two sizes; all of them, where nothing does."""
    low, high = max(hole.least, least), min(hole.most, most)
    return Band.between(low, high) if low < high else hole


def _comes_out(bench, made: Band, good: Band) -> str:
    """Sizes with which to go on, and what to do with others that the machine makes."""
    smaller = " Smaller: open it." if good.least > made.least else ""
    larger = " Larger: bond the bearing, or make another." if good.most < made.most else " Else make another."
    return f"It measures {bench.measures.limits(good).line}.{smaller}{larger}"


def set_in(bench: Bench, build: Build) -> Words:
    """A bearing pushed in by hand: for good, or dry before it is glued."""
    which, side = bench.which(build.at), SIDES[build.side]
    if not build.rows:
        later = "It is glued later, when everything has been on the screw dry."
        says = f"Push {which} in dry, from {side}. {later}"
        return Words(f"Set {which} in dry", says, "It goes in by hand and does not tip.")
    says = f"Push {bench.named(build.rows)} into its hole by hand, from {side}."
    check = (
        "It stays when the plate is turned over. If it drops out, something must hold it: a lip or a cover."
    )
    return Words(f"Push {which} in", says, check)


def pressed_in(bench: Bench, build: Build) -> Words:
    """A bearing pressed into its hole, against a flat or with a flat drift."""
    n = build.at[0]
    on = "on its outer ring only" if bench.is_ball(n) else "on its whole end"
    ends = {"head": "thread", "thread": "head"}[build.side]
    if build.does == "press till it stops":
        how = f"The plate lies on a flat plate with a hole under the bore; push {on} until the flat stops it"
        check = f"Flush on {SIDES[ends]}, square all round."
    else:
        how = f"Push {on} with a flat drift wider than the hole, until the drift meets the face"
        check = f"Flush on {SIDES[build.side]}, square all round."
    says = f"Press in {bench.named(build.rows)} from {SIDES[build.side]}. {how}."
    if force := bench.quantity(f"push_force_{n}"):
        says += f" It takes about {force}."
    return Words(f"Press {bench.which(build.at)} in", says, check)


def block_filled(bench: Bench, build: Build) -> Words:
    """What stands between the bearings of a block."""
    says = f"Lay into the block, in this order: {bench.named(build.rows)}. Once bearing 2 is in they cannot."
    return Words("Fill the block", says, f"{len(build.rows)} pieces lie between the bearings, flat.")


def tried(bench: Bench, build: Build) -> Words:
    """The screw by itself in one bearing."""
    n, which = build.at[0], bench.which(build.at)
    one = ", one after the other" * (len(build.at) > 1)
    room = bench.result.quantities.get(f"clearance_{n}")
    check = ""
    if room and room.band and room.band.most > 0:
        least = max(0.0, room.band.least)
        check = f" Room of {bench.measures.range(least, room.band.most, 'mm').line} is expected."
    if bench.is_ball(n):
        says = f"Push the screw through {which}{one} and turn it slowly."
        check = "No notch, no scraping. A notchy bearing was dented or squeezed: throw it out." + check
    else:
        says = f"Hold the plate level and let the screw drop through {which}{one}."
        cure = (
            "Too tight: size the bore with a smooth mandrel, a little at a time; that cannot be undone."
            if bench.is_bronze(n)
            else "Too tight: the hole squeezes it; make the hole larger, or scrape the bore."
        )
        check = f"It drops through under its own weight. {cure}{check}"
    return Words(f"Try the screw in {which}", says, check)


def joined(bench: Bench, build: Build) -> Words:
    """Both plates on their standoffs, lined up by the screw itself."""
    first, last = bench.stack.plates[0], bench.stack.plates[-1]
    says = (
        f"Put standoffs {bench.length(last.z_from - first.z_to)} long between the plates, their screws "
        "loose. Push the shoulder through both bearings, tighten the standoffs evenly, draw the screw out."
    )
    free = " and ".join(dict.fromkeys("turns" if bench.is_ball(n) else "drops through" for n in (1, 2)))
    check = f"The screw still {free}."
    if limit := bench.quantity("offset_limit"):
        check += (
            f" If it binds, the bores are out of line: at {limit} it sticks. Loosen, shift, tighten again."
        )
    return Words("Join the plates", says, check)


def glued(bench: Bench, build: Build) -> Words:
    """Bearings glued in, lined up by the screw."""
    which, it = bench.which(build.at), "it" if len(build.at) == 1 else "them"
    kinds = {bench.housing(n).stock.kind for n in build.at}
    says = (
        f"Push {which} out again: {bench.named(build.rows)}. Wipe the seats, put a thin film of glue on the "
        f"seat, not on the ring's edge, push {it} back. Oil the screw and leave it through "
        f"{'the bore' if bench.joint.single else 'both bores'} while the glue sets. "
        f"{GLUE['metal' if kinds == {'metal'} else '']}"
    )
    check = "Turn the screw now and then while it sets: it stays free, and no glue comes near it."
    return Words(f"Glue {which} in", says, check)
