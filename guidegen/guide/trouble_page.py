"""What is wrong with a joint: for each symptom what to measure, what the number means, what to change."""

from guidegen.guide.backwards import Backwards
from guidegen.guide.edition import Edition
from guidegen.guide.examples import example, link
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import fill
from guidegen.joint.creep import inner_ring_goes_round
from guidegen.joint.records import Result
from guidegen.kit.lookup import clamp_loss
from guidegen.kit.records import BallBearing, SleeveBushing, Spacer
from guidegen.numbers import percent, show_number
from guidegen.theory.friction import arm_force
from guidegen.units import Band

SYMPTOMS = (
    ("binds", "It binds"),
    ("wobbles", "It wobbles"),
    ("stiff", "It turns stiffly"),
    ("rattles", "It rattles along its screw, or pinches"),
    ("squeaks", "It squeaks"),
    ("slips", "The arm, or the plate on the thread, came loose"),
    ("nut", "The nut came off"),
    ("out", "The bush came out"),
    ("ring", "A ring walks on its seat"),
    ("rust", "It rusted"),
    ("cracked", "The acrylic cracked"),
    ("swelled", "The nylon swelled"),
)


def trouble_page(edition: Edition) -> Page:
    """From symptom to number to change, worked backwards on real joints."""
    body = fill(
        "trouble",
        symptoms=SYMPTOMS,
        titles=dict(SYMPTOMS),
        shown={key: example(edition, fits) for key, fits in EXAMPLES.items()},
        work=Backwards(edition),
        measures=edition.measures,
        percent=percent,
        number=show_number,
        link=link,
        pull=_pull,
        losses=[_share(clamp_loss(kind)) for kind in ("wood", "plastic")],
        cautions=edition.cautions,
    )
    return Page(
        "trouble.html",
        "What is wrong with my joint?",
        body,
        tuple(Heading(2, *entry) for entry in SYMPTOMS),
        in_search=True,
        description="It binds, wobbles, squeaks, is stiff, came loose, cracked: what to measure and change.",
    )


def _pull(result: Result) -> Band:
    """Pull at the arm, N, at which the clamped face slips."""
    torque = result.quantities["clamp_torque"].band
    ends = (torque.least, torque.typical, torque.most)
    return Band(*(float(arm_force(end, result.joint.arm)) for end in ends))


def _share(band: Band) -> str:
    return f"{show_number(100 * band.least, 2)} to {show_number(100 * band.most, 2)} %"


def _bushes(result: Result) -> bool:
    """Whether it turns in two bushes of one kind, and nothing beside them wobbles."""
    pair = result.joint.bearings
    alone = "cheek_tilt" not in result.quantities and "arm_tilt" not in result.quantities
    return len(pair) == 2 and pair[0] == pair[1] and not isinstance(pair[0], BallBearing) and alone


def _in_soft_stock(result: Result) -> bool:
    housing = result.joint.housings[0]
    bush = isinstance(result.joint.bearings[0], SleeveBushing)
    return bush and housing.fit == "press" and housing.stock.kind != "metal"


def _walks(result: Result) -> bool:
    joint = result.joint
    if not isinstance(joint.bearings[0], BallBearing) or joint.motion.kind != "turn":
        return False
    inner = inner_ring_goes_round(joint)
    return inner is not None and not (inner and joint.clamped)  # a clamped ring cannot walk


EXAMPLES = {
    "bushes": _bushes,
    "floats": lambda result: result.stack.clamped is None,
    "bronze": lambda result: isinstance(result.joint.bearings[0], SleeveBushing),
    "clamps": lambda result: result.joint.plate_on_thread and "clamp_torque" in result.quantities,
    "soft": _in_soft_stock,
    "walks": _walks,
    "plastic": lambda result: result.joint.housings[0].stock.kind == "plastic",
    "nylon": lambda result: isinstance(result.joint.bearings[0], Spacer),
}
