"""The page of tools: keys and wrenches of each kit, how hard to tighten, nuts that stay, hands."""

from typing import NamedTuple

from guidegen.guide.edition import Edition
from guidegen.guide.measures import Both
from guidegen.guide.near_tools import Hexagon, keys_in_sockets
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import fill
from guidegen.joint.build_order import LONE
from guidegen.joint.clamping import REUSED
from guidegen.joint.tightening import tightened
from guidegen.kit.fasteners import hand_force, jam_share, locking_torque, pitch_diameters
from guidegen.kit.lookup import nut_factor, thread
from guidegen.kit.records import Kit, Nut, ShoulderScrew, Stock
from guidegen.kit.tools import HandTool, tools_for
from guidegen.numbers import show_number
from guidegen.theory.clamp import clamp_of_torque
from guidegen.theory.mismatch import flank_room
from guidegen.theory.nuts import finger_torque, jam_torque, lever_torque, wrench_torque

LEVER = 100.0  # mm, of a short wrench, to compare with
UNKNOWN = Both("not known", "")
CONTENTS = (
    ("sets", "Smallest sets of tools"),
    ("torques", "How hard to tighten"),
    ("stay", "Nuts that stay"),
    ("hand", "What hands do"),
    ("sockets", "The wrong key"),
)


class Screwed(NamedTuple):
    """A thread of a kit: the torque that its screw bears, and what its nuts take and give."""

    kit: Kit
    screw: ShoulderScrew
    nut: Nut
    locking: bool  # whether the kit has a locking nut for it
    weakest: str
    torque: Both
    force: Both
    insert: Both  # greatest torque that a locking nut takes to run on
    wrench: Both
    jam: Both  # torque of the thin nut of a pair
    shift: Both  # how far jamming shifts it
    fingers: Both  # torque of finger and thumb
    pinched: Both  # and the clamp force of it
    lever: Both  # torque and clamp force of a pull on a short wrench
    levered: Both
    plates: list[Both]  # torque that each plate bears


def tools_page(edition: Edition) -> Page:
    """Which tools, how hard, and what keeps a nut."""
    course = edition.course
    sets = [(kit, tools_for(course.parts, kit.parts)) for kit in edition.kits]
    used = {
        joint.on_thread.stock.id: joint.on_thread.stock
        for joint in (result.joint for result in edition.results)
        if joint.plate_on_thread
    }
    plates = [used[id] for id in course.stocks if id in used]
    rows = [row for kit in edition.kits for row in _threads(kit, plates, edition)]
    pull, pinch = hand_force("pull"), hand_force("pinch")
    body = fill(
        "tools",
        course=course,
        measures=edition.measures,
        sets=sets,
        kept=round(100 * REUSED),
        rows=rows,
        plates=_alike(plates, rows),
        sockets=_sockets(edition, sets),
        pull=edition.measures.value(pull.typical, "N", 2).line,
        pinch=edition.measures.range(pinch.least, pinch.most, "N").line,
        ratio=show_number(pinch.most / pinch.least, 2),
        lever=edition.measures.value(LEVER, "mm").line,
        share=jam_share(),
        keys=edition.cautions("keys and wrenches"),
        liquids=edition.cautions("solvents"),
        cite=edition.citing(""),
        titles=dict(CONTENTS),
    )
    return Page(
        "tools.html",
        "Which tools?",
        body,
        tuple(Heading(2, *entry) for entry in CONTENTS),
        in_search=True,
        description="Keys and wrenches for each kit, torques, locking and paired nuts, hand-tight.",
    )


def _threads(kit: Kit, plates: list[Stock], edition: Edition) -> list[Screwed]:
    """One row for each thread of a kit that has a nut of full height."""
    parts = [edition.course.parts[id] for id in kit.parts]
    found = {}
    for screw in parts:
        nuts = [
            part for part in parts if isinstance(part, Nut) and part.thread == getattr(screw, "thread", "")
        ]
        full = [nut for nut in nuts if nut.kind != "thin"]
        if isinstance(screw, ShoulderScrew) and full:
            found.setdefault(screw.thread, (screw, full[0], any(nut.kind not in LONE for nut in nuts)))
    return [_screwed(kit, *of, plates, edition) for of in found.values()]


def _screwed(kit, screw, nut, locking, plates, edition) -> Screwed:
    course, measures = edition.course, edition.measures
    bears, insert = tightened(screw, nut, course), locking_torque(screw.thread)
    pitch, across = pitch_diameters(screw.thread), nut.across_flats.typical
    least, most = (
        float(flank_room(*ends))
        for ends in ((pitch.nut.least, pitch.screw.most), (pitch.nut.most, pitch.screw.least))
    )
    pinch, pull = hand_force("pinch"), hand_force("pull")
    factor, diameter = nut_factor(nut.finish), thread(screw.thread).diameter

    def force(torque, K):
        return float(clamp_of_torque(torque, K, diameter))

    fingers = [finger_torque(x, across) for x in (pinch.least, pinch.most)]
    lever = lever_torque(pull.typical, LEVER)
    return Screwed(
        kit,
        screw,
        nut,
        locking,
        bears.weakest,
        measures.torque(bears.torque),
        measures.value(bears.force, "N", 2),
        UNKNOWN if insert is None else measures.torque(insert),
        UNKNOWN if insert is None else measures.torque(wrench_torque(bears.torque, insert)),
        measures.torque(jam_torque(jam_share().typical, bears.torque)),
        measures.range(least, most, "mm"),
        measures.range(fingers[0], fingers[1], "N·mm"),
        measures.range(force(fingers[0], factor.most), force(fingers[1], factor.least), "N"),
        measures.torque(lever),
        measures.range(force(lever, factor.most), force(lever, factor.least), "N"),
        [measures.torque(tightened(screw, nut, course, plate).torque) for plate in plates],
    )


def _alike(plates: list[Stock], rows: list[Screwed]) -> list[tuple[str, list[Both]]]:
    """Plates that bear the same torques, by their names in one line."""
    found: dict[tuple, list[str]] = {}
    for n, plate in enumerate(plates):
        found.setdefault(tuple(row.plates[n] for row in rows), []).append(plate.name)
    return [(", ".join(names), list(torques)) for torques, names in found.items()]


class Socket(NamedTuple):
    """A key of the other system in a socket of the kits."""

    key: str
    socket: str
    state: str
    turns: str


def _sockets(edition: Edition, sets: list[tuple[Kit, tuple[HandTool, ...]]]) -> list[Socket]:
    """Keys that come close to a socket of the kits without being its own."""
    sizes = {round(tool.size, 6) for _, tools in sets for tool in tools if tool.kind == "key"}
    pairs = [pair for pair in keys_in_sockets(edition.course) if round(pair.outside.size, 6) in sizes]
    return [
        Socket(pair.inside.words, pair.outside.words, pair.state, _turns(pair, edition.measures))
        for pair in pairs
    ]


def _turns(pair: Hexagon, measures) -> str:
    if pair.turns is None:
        return "goes right round" if pair.state == "slips" else "–"
    return f"{measures.value(pair.turns[1], 'rad', 2).second} each way"
