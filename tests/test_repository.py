"""The repository as a newcomer finds it."""
import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
TOP = {"README.md", "DEVELOPERS.md", "LICENSE", "Makefile", "pyproject.toml", "requirements.txt",
       "mkdocs.yml", ".gitignore", ".ci", "benchmarks", "data", "docs", "guidegen", "shared", "tests"}
ASSETS = {".png", ".woff2", ".jpg"}


def files():
    """What is or would be under version control; the whole folder where there is no git."""
    listed = subprocess.run(["git", "-C", str(ROOT), "ls-files", "-co", "--exclude-standard", "-z"],
                            capture_output=True, text=True)
    if listed.returncode == 0:
        found = {ROOT / name for name in listed.stdout.split("\0") if name}
    else:
        found = {path for path in ROOT.rglob("*") if ".venv" not in path.parts and "site" not in path.parts}
    return sorted(path for path in found if path.is_file())


TEXTS = [path for path in files() if path.suffix not in ASSETS]


def test_top_level_is_what_the_map_says():
    """Nothing else lies about, nothing is missing."""
    assert {path.relative_to(ROOT).parts[0] for path in files()} == TOP


def test_no_path_of_a_machine():
    """Nothing points into somebody's home, work or scratch folder."""
    folders = "|".join(("home", "root", "Users", "work", "opt", "tmp"))
    somebody = re.compile(rf"(?<![\w.])/(?:{folders})/\w")
    found = [f"{path.relative_to(ROOT)}: {match[0]}" for path in TEXTS
             for match in somebody.finditer(path.read_text())]
    assert found == []


def test_the_lock_pins_everything_and_names_no_host():
    """Every requirement has one version and hashes; no address, no index, no folder."""
    text = (ROOT / "requirements.txt").read_text()
    assert "://" not in text and "--index" not in text and " @ " not in text
    entries = re.split(r"\n(?=\S)", re.sub(r"^#.*\n", "", text, flags=re.M).strip())
    assert len(entries) > 50
    for entry in entries:
        assert re.match(r"[a-z0-9-]+==\S+ ", entry) and "--hash=sha256:" in entry, entry[:60]
    assert len({entry.split("==")[0] for entry in entries}) == len(entries)


def test_the_lock_holds_what_the_project_asks_for():
    """Nothing in pyproject.toml is missing from the lock."""
    import tomllib
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())
    asked = project["project"]["dependencies"] + sum(project["dependency-groups"].values(), [])
    lines = (ROOT / "requirements.txt").read_text().splitlines()
    locked = {line.split("==")[0] for line in lines if "==" in line}
    assert {re.match(r"[\w-]+", wish)[0].lower() for wish in asked} <= locked


def test_everything_the_program_reads_is_packed_with_it():
    """Tables, templates and styles inside the package match a pattern of its package data."""
    import tomllib
    tools = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["setuptools"]
    endings = {pattern.removeprefix("**/*") for pattern in tools["package-data"]["guidegen"]}
    inside = [path for path in files() if path.is_relative_to(ROOT / "guidegen") and path.suffix != ".py"]
    assert inside and [str(path) for path in inside if path.suffix not in endings] == []


def test_readme_names_the_two_commands_and_shows_a_page():
    """The job first, then a picture of a real page, then the two commands."""
    text = (ROOT / "README.md").read_text()
    places = [text.index(part) for part in ("kit", "docs/assets/home.png", "make guide", "make test")]
    assert places == sorted(places)
    assert (ROOT / "docs" / "assets" / "home.png").is_file()


def test_documents_link_only_to_what_is_there():
    """Links of README and DEVELOPERS lead somewhere."""
    for name in ("README.md", "DEVELOPERS.md"):
        for target in re.findall(r"\]\(([^)#:]+)\)", (ROOT / name).read_text()):
            assert (ROOT / target).exists(), f"{name}: {target}"


def test_no_line_is_too_long_to_read():
    """Lines of the program fit 110 characters; rows of test data may be longer."""
    program = [path for path in TEXTS if path.suffix == ".py" and ROOT / "tests" not in path.parents]
    long = [f"{path.relative_to(ROOT)}: {number}" for path in program
            for number, line in enumerate(path.read_text().splitlines(), 1) if len(line) > 110]
    assert long == []


@pytest.mark.parametrize("name", ["Makefile", ".ci/run"])
def test_nothing_is_skipped_on_the_way(name):
    """CI calls what the reader calls, and no test is deselected there."""
    text = (ROOT / name).read_text()
    assert not re.search(r"--ignore|--deselect|-k |-m not", text)
    assert "pytest" in text if name == "Makefile" else "make test" in text
