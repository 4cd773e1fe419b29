"""The commands as a person meets them: help, exit codes, what goes where, and no tracebacks."""
import json
import os
import resource
import subprocess
import sys
from pathlib import Path

import pytest
from conftest import ROOT

from guidegen.joint import Worked
from guidegen.kit.reader import read_course


def run(*arguments, **options):
    return subprocess.run([sys.executable, "-m", "guidegen", *map(str, arguments)],
                          cwd=ROOT, capture_output=True, text=True, timeout=600, **options)


def cpu_seconds(*arguments):
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    assert run(*arguments).returncode == 0
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def test_help_answers_at_once():
    """Heavy libraries load only where used: under 0.2 s of processor time (best of three)."""
    assert min(cpu_seconds("--help") for _ in range(3)) < 0.2


@pytest.mark.parametrize("command", ["build", "check", "joint"])
def test_every_command_helps_with_examples(command):
    """--help of each command shows how to call it."""
    text = run(command, "--help").stdout
    assert f"  guidegen {command}" in text and "examples:" in text
    assert command in run("--help").stdout


def test_the_installed_command_is_the_module():
    """`guidegen` and `python -m guidegen` are the same program."""
    script = Path(sys.executable).with_name("guidegen")
    assert script.exists(), "the project is not installed in this environment: run make"
    narrow = os.environ | {"COLUMNS": "90"}
    installed = subprocess.run([script, "--help"], capture_output=True, text=True, env=narrow)
    assert installed.stdout == run("--help", env=narrow).stdout


def test_wrong_use_is_code_2_with_usage_on_standard_error():
    """No command, or an unknown one: two lines, nothing on standard output."""
    for arguments in ((), ("bake",), ("joint",)):
        told = run(*arguments)
        assert told.returncode == 2 and told.stdout == "" and "usage: guidegen" in told.stderr


@pytest.mark.parametrize("command", [("build",), ("check",), ("joint", "--course")])
def test_a_folder_without_a_course_is_told_plainly(command, tmp_path):
    """Every command says what is missing, and writes nothing."""
    told = run(*command, tmp_path, *(["any-id"] if command[0] == "joint" else []))
    assert told.returncode == 2 and told.stdout == ""
    assert "allowed:" in told.stderr and "Traceback" not in told.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.fixture(scope="module")
def worked():
    """The worked joints of the demo."""
    return Worked(read_course(ROOT))


def test_the_exit_code_follows_the_worst_verdict(worked):
    """JSON is always a list; 0 when all hold or need care, 1 as soon as one does not hold."""
    states = {}
    for joint in worked.joints:
        states.setdefault(worked.result(joint).state, joint.id)
        if len(states) == 3:
            break
    assert set(states) == {"holds", "take care", "does not hold"}
    sound = run("joint", states["holds"], states["take care"], "--json")
    assert sound.returncode == 0 and sound.stderr == ""
    failing = run("joint", states["holds"], states["does not hold"], "--json")
    assert failing.returncode == 1 and failing.stderr == ""
    for told, state in ((sound, "take care"), (failing, "does not hold")):
        first, second = json.loads(told.stdout)
        assert (first["id"], second["id"]) == (states["holds"], states[state])
        assert state in {verdict["state"] for verdict in second["verdicts"]}
        assert first["revision"] == second["revision"] and len(first["revision"]) == 8


def test_a_folder_of_joint_files_is_reported_file_by_file(tmp_path):
    """Every joint file of a folder is reported; a broken one among them costs only itself, and code 2."""
    for path in (ROOT / "data" / "joints").glob("*.yaml"):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    whole = run("joint", tmp_path, "--json")
    assert whole.returncode in (0, 1) and len(json.loads(whole.stdout)) == len(list(tmp_path.iterdir()))
    first = min(tmp_path.iterdir())
    first.write_text(first.read_text().replace("title:", "tilte:", 1))
    part = run("joint", tmp_path, "--json")
    assert part.returncode == 2 and first.name in part.stderr and "Traceback" not in part.stderr
    assert len(json.loads(part.stdout)) == len(json.loads(whole.stdout)) - 1


def test_an_unknown_id_is_told_with_near_ones_and_the_others_are_still_reported(worked, tmp_path):
    """Wrong ids: code 2, a hint, and the result of the right one."""
    right = worked.joints[0].id
    told = run("joint", right + "x", right, "no/such/file.yaml", tmp_path)
    assert told.returncode == 2
    assert right in told.stdout
    assert "Perhaps you mean" in told.stderr and right in told.stderr
    assert "no/such/file.yaml" in told.stderr and "no joint file" in told.stderr
    assert "3 mistakes" in told.stderr


def test_a_reader_that_stops_early_is_no_error(worked):
    """Piped into something that reads one line, the command ends without complaint."""
    ids = " ".join(joint.id for joint in worked.joints[:12])
    piped = subprocess.run(["bash", "-c", f"'{sys.executable}' -m guidegen joint {ids} --json | head -n 1"],
                           cwd=ROOT, capture_output=True, text=True)
    assert piped.stdout == "[\n" and piped.stderr == ""


def test_check_finds_nothing_in_the_demo_and_publishes_nothing(demo):
    """The demo is in order; check leaves no site behind."""
    told = run("check", demo)
    assert (told.returncode, told.stdout) == (0, ""), told.stderr
    assert not list(demo.glob(".site*"))
