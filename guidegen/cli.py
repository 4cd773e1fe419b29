"""The commands. Messages go to standard error, results to standard output.

Only what is light is imported here: each command loads what it needs, so that --help answers at once.
"""

import argparse
import os
import sys
from functools import partial
from pathlib import Path

from guidegen.errors import BadInput, Mistake

ALL_WELL, DOES_NOT_HOLD, BAD_INPUT = 0, 1, 2
INTERRUPTED, PIPE_CLOSED = 130, 141  # what a shell gives for these signals


def main(arguments=None) -> int:
    """Run one command; gives the exit code. Nothing a person does wrong ends in a traceback."""
    for stream in (sys.stdout, sys.stderr):
        stream.reconfigure(errors="replace")  # a terminal that lacks a sign shows "?" in its place
    asked = _parser().parse_args(arguments)
    try:
        code = asked.command(asked)
        sys.stdout.flush()
        return code
    except BadInput as bad:
        _tell(bad)
        return BAD_INPUT
    except KeyboardInterrupt:
        _say("Stopped. What was published before stays as it was.")
        return INTERRUPTED
    except BrokenPipeError:  # the reader of our output has had enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return PIPE_CLOSED
    except OSError as stop:  # a file or folder that cannot be read or written
        _say(f"{stop.filename or 'input or output'}: {stop.strerror or stop}.")
        return BAD_INPUT


def _parser():
    parser = argparse.ArgumentParser(
        prog="guidegen",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="From a kit of bearing parts: evaluate joints and publish a guide.",
        epilog="examples:\n"
        "  guidegen build                 publish the guide of the course in this folder\n"
        "  guidegen check my-course       every mistake in its files, all at once\n"
        "  guidegen joint crank.yaml      how far this joint wobbles, and whether it holds\n",
    )
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")

    for run, says, more in (
        (
            build,
            "check, compute, draw and publish the guide of a course",
            "The former site stays untouched until the new one is complete.",
        ),
        (check, "tell everything that build would refuse, all at once", "Publishes nothing."),
    ):
        examples = f"  guidegen {run.__name__}\n  guidegen {run.__name__} my-course\n"
        _command(commands, run, says, examples, more).add_argument(
            "folder",
            nargs="?",
            type=Path,
            default=Path("."),
            metavar="DIR",
            help="course folder (default: this one)",
        )

    one = _command(
        commands,
        joint,
        "evaluate joint files, or worked joints by their id",
        "  guidegen joint crank.yaml\n  guidegen joint student-files/ --json > results.json\n"
        "  guidegen joint --course my-course vent-crank\n",
        "Exit code 0: all hold or take care; 1: at least one does not hold; "
        "2: bad input (the others are still reported).",
    )
    one.add_argument(
        "wanted",
        nargs="+",
        metavar="FILE|FOLDER|ID",
        help="a joint file, a folder of them, or the id of a worked joint",
    )
    one.add_argument(
        "--course",
        type=Path,
        default=Path("."),
        metavar="DIR",
        help="course whose parts are meant (default: this folder)",
    )
    one.add_argument("--json", action="store_true", help="print a list of results for other programs")
    return parser


def _command(commands, run, says, examples, more):
    parser = commands.add_parser(
        run.__name__,
        help=says,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description=f"{says[0].upper()}{says[1:]}.\n{more}",
        epilog=f"examples:\n{examples}",
    )
    parser.set_defaults(command=run)
    return parser


def build(asked) -> int:
    """Publish the guide of a course into DIR/site."""
    from guidegen.guide.publish import publish

    course_folder, guide, revision = _compose(asked.folder)
    site = publish(course_folder, guide, revision)
    _say(f"Published {len(guide.pages)} made pages, revision {revision.mark}.")
    print(site / "index.html")
    return ALL_WELL


def check(asked) -> int:
    """Do all that build does, into a folder that is thrown away."""
    import tempfile

    from guidegen.guide.publish import publish

    with tempfile.TemporaryDirectory() as scratch:
        publish(*_compose(asked.folder), Path(scratch, "site"))
    _say("Nothing to mend.")
    return ALL_WELL


def joint(asked) -> int:
    """Evaluate what was asked for and report each; the worst outcome gives the exit code."""
    import json

    from guidegen.joint import Worked, as_json, report
    from guidegen.kit.reader import read_course
    from guidegen.revision import revision

    worked = Worked(read_course(asked.course))
    mark = revision(asked.course).mark
    results, mistakes = [], []
    for make in _joint_makers(asked.wanted, worked):
        try:
            results.append(worked.result(make()))
        except BadInput as bad:
            mistakes.extend(bad.mistakes)
    if asked.json:
        listed = [as_json(result) | {"revision": mark} for result in results]
        print(json.dumps(listed, indent=1, ensure_ascii=False))
    elif results:
        print("\n\n".join(map(report, results)))
    if mistakes:
        raise BadInput(mistakes)
    return DOES_NOT_HOLD if any(result.state == "does not hold" for result in results) else ALL_WELL


def _joint_makers(wanted, worked):
    """For each joint asked for, a function that makes it or raises BadInput."""
    from guidegen.joint import make_joint
    from guidegen.kit.reader import read_joint_file

    def from_file(path):
        return make_joint(worked.course, read_joint_file(path), path.stem)

    def from_id(name):
        if name in worked.course.joints:
            return make_joint(worked.course, worked.course.joints[name], name)
        found = {joint.id: joint for joint in worked.joints}
        if name not in found:
            raise BadInput([_unknown(name, [*worked.course.joints, *found])])
        return found[name]

    for name in wanted:
        path = Path(name)
        if path.is_dir():
            files = sorted(file for file in path.iterdir() if file.suffix in (".yaml", ".yml"))
            yield from (partial(from_file, file) for file in files)
            if not files:
                yield partial(_refuse, Mistake(name, "folder", "no joint file", "files ending in .yaml"))
        elif path.is_file():
            yield partial(from_file, path)
        else:
            yield partial(from_id, name)


def _unknown(name, known):
    from difflib import get_close_matches

    near = get_close_matches(name, known, n=3, cutoff=0.5)
    remedy = f"Perhaps you mean {' or '.join(near)}." if near else ""
    return Mistake(
        name,
        "command line",
        "no such file, folder or id",
        "a joint file, a folder of them, or the id of a worked joint",
        remedy,
    )


def _refuse(mistake):
    raise BadInput([mistake])


def _compose(folder):
    """Read, expand, evaluate, compose: the whole guide of a course, in memory."""
    from rich.console import Console
    from rich.progress import track

    from guidegen.guide.compose import compose
    from guidegen.joint import Worked, make_joint
    from guidegen.kit.published import read_published
    from guidegen.kit.reader import read_course, read_words
    from guidegen.revision import CODE, revision

    words = next(place for place in (folder / "shared", CODE.parent / "shared") if place.is_dir())
    worked = Worked(read_course(folder))
    named = _gathered(
        partial(make_joint, worked.course, raw, name) for name, raw in worked.course.joints.items()
    )
    joints = [*named, *worked.joints]
    _say(f"Joints to work out: {len(joints)}; combinations refused: {worked.refused.total()}.")
    for reason, count in worked.refused.most_common():
        _say(f"  {count:6d}  {reason}")
    console = Console(stderr=True)
    results = [
        worked.result(joint)
        for joint in track(joints, "Evaluating", console=console, disable=not console.is_terminal)
    ]
    published = read_published(CODE.parent / "tests" / "published")
    return folder, compose(worked.course, results, read_words(words), published), revision(folder)


def _gathered(makers):
    """What each gives; raises BadInput with the mistakes of all."""
    made, mistakes = [], []
    for make in makers:
        try:
            made.append(make())
        except BadInput as bad:
            mistakes.extend(bad.mistakes)
    if mistakes:
        raise BadInput(mistakes)
    return made


def _tell(bad):
    for mistake in bad.mistakes:
        _say(str(mistake))
    count = len(bad.mistakes)
    _say("1 mistake." if count == 1 else f"{count} mistakes.")


def _say(text):
    print(text, file=sys.stderr)
