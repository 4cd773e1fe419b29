"""How the build grows with the number of worked joints: time by stage, bytes written, memory.

Each number of joints is built in a process of its own, so that its peak memory is its own. Beyond the
joints of the grid, the same come again under another load, as further joints of their own.

Run:  .venv/bin/python benchmarks/growth.py [numbers of joints, default 300 1000 2000]
"""
import json
import resource
import subprocess
import sys
import tempfile
from dataclasses import replace
from itertools import count, islice
from pathlib import Path

from build_ratio import COURSE, Clock

from guidegen.guide.compose import compose
from guidegen.guide.publish import publish
from guidegen.joint import Worked, evaluate
from guidegen.kit.reader import read_course, read_words
from guidegen.revision import revision

RESULTS = Path(__file__).with_name("growth.md")
STAGES = ("read, expand", "evaluate", "compose", "site")


def main(counts):
    rows = []
    for number in counts:
        run = subprocess.run([sys.executable, __file__, "one", str(number)], capture_output=True, text=True)
        if run.returncode:
            sys.exit(run.stderr)
        rows.append(json.loads(run.stdout.splitlines()[-1]))
    heads = ("joints", "pages", *STAGES, "all", "ms a joint", "site, MB", "peak memory, MB")
    lines = ["# Growth of the build", "",
             "Made by `benchmarks/growth.py`, which says what is measured. Processor seconds, one run.", "",
             f"| {' | '.join(heads)} |", "|" + "---|" * len(heads)]
    for row in rows:
        spent = [row["spent"][stage] for stage in STAGES]
        lines.append(f"| {row['joints']} | {row['pages']} | " + " | ".join(f"{s:.1f}" for s in spent)
                     + f" | {sum(spent):.1f} | {1000 * sum(spent) / row['joints']:.1f}"
                     + f" | {row['bytes'] / 1e6:.1f} | {row['memory'] / 1024:.0f} |")
    RESULTS.write_text("\n".join(lines) + "\n")
    print(RESULTS.read_text())


def one(number):
    """Build a guide of so many joints and tell what it took, as JSON."""
    clock = Clock()
    course = clock.timed("read, expand", read_course, COURSE)
    joints = clock.timed("read, expand", lambda: Worked(course).joints)
    chosen = list(islice(_more(joints), number))
    results = clock.timed("evaluate", lambda: [evaluate(joint, course) for joint in chosen])
    guide = clock.timed("compose", compose, course, results, read_words(COURSE / "shared"))
    with tempfile.TemporaryDirectory() as scratch:
        site = Path(scratch, "site")
        clock.timed("site", publish, COURSE, guide, revision(COURSE), site)
        size = sum(path.stat().st_size for path in site.rglob("*") if path.is_file())
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    print(json.dumps({"joints": len(results), "pages": len(guide.pages), "spent": clock.spent, "bytes": size,
                      "memory": memory}))


def _more(joints):
    for again in count():
        for joint in joints:
            extra = {"id": f"{joint.id}-x{again}", "radial": joint.radial + again} if again else {}
            yield replace(joint, **extra)


if __name__ == "__main__":
    if sys.argv[1:2] == ["one"]:
        one(int(sys.argv[2]))
    else:
        main([int(text) for text in sys.argv[1:]] or [300, 1000, 2000])
