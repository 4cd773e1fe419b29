"""What we build and what happens: joints, stacks, evaluation, verdicts, the grid of worked joints."""

from guidegen.joint.evaluate import evaluate
from guidegen.joint.grid import expand
from guidegen.joint.listing import as_json, report
from guidegen.joint.near import Worked, neighbours
from guidegen.joint.specify import make_joint

__all__ = ["Worked", "as_json", "evaluate", "expand", "make_joint", "neighbours", "report"]
