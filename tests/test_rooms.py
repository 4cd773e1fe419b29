"""Who may import whom (DEVELOPERS.md, the map): read from the source, so nothing slips in at run time."""
import ast
import re
import sys
from pathlib import Path

import pytest

CODE = Path(__file__).parent.parent / "guidegen"
FREE = {"units", "errors", "numbers"}  # anyone may use
MAY_USE = {
    "units": set(),
    "errors": set(),
    "numbers": set(),
    "revision": set(),
    "theory": set(),
    "notation": {"theory"},
    "kit": set(),
    "joint": {"theory", "kit"},
    "drawing": {"theory", "kit", "joint"},
    "guide": {"theory", "notation", "kit", "joint", "drawing", "revision"},
    "sheets": {"theory", "notation", "kit", "joint", "drawing", "revision"},
    "cli": {"theory", "notation", "kit", "joint", "drawing", "guide", "sheets", "revision"},
    "__main__": {"cli"},
    "__init__": set(),
}
HEAVY = {"mkdocs", "matplotlib", "numpy", "scipy", "pint", "pydantic", "jinja2", "yaml", "rich"}
SOURCES = sorted(CODE.rglob("*.py"))


def room_of(path):
    return path.relative_to(CODE).with_suffix("").parts[0]


def imported(path, top_only=False):
    """Dotted names of every module that a file imports, those inside functions too."""
    tree = ast.parse(path.read_text())
    for node in (tree.body if top_only else ast.walk(tree)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: write imports in full"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def libraries(path, top_only=False):
    return {name.split(".")[0] for name in imported(path, top_only)}


def test_every_room_is_known():
    """A new room gets its place in the picture first."""
    assert len(SOURCES) > 20
    assert {room_of(path) for path in SOURCES} <= set(MAY_USE)


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(CODE).as_posix())
def test_imports_go_downward_only(path):
    """Never upwards or sideways: theory and kit know nothing of each other."""
    room = room_of(path)
    used = {name.split(".")[1] for name in imported(path) if name.startswith("guidegen.")}
    assert used - FREE - {room} <= MAY_USE[room]


def test_the_picture_has_no_way_back():
    """The allowed imports themselves form no ring."""
    from graphlib import TopologicalSorter
    assert list(TopologicalSorter(MAY_USE).static_order())


def test_one_file_knows_mkdocs():
    """Another site builder could take its place: only the adapter imports it."""
    assert [path.name for path in SOURCES if "mkdocs" in libraries(path)] == ["adapter.py"]


def test_theory_and_notation_open_no_file():
    """What is known is pure functions of numbers: no reading, no paths, no system calls."""
    for room in ("theory", "notation"):
        for path in (CODE / room).rglob("*.py"):
            assert not libraries(path) & {"os", "pathlib", "io", "csv", "yaml", "json", "subprocess"}
            calls = {node.func.id for node in ast.walk(ast.parse(path.read_text()))
                     if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}
            assert "open" not in calls, path


def test_one_reader():
    """Only the kit room reads a course's data and the published tables."""
    for path in SOURCES:
        if room_of(path) != "kit":  # others may write a table or a joint file, never read one
            assert not re.search(r"yaml\.(?!safe_dump\b)", path.read_text()), path
            assert "csv.reader" not in path.read_text() and "DictReader" not in path.read_text(), path


def test_commands_load_heavy_libraries_only_when_used():
    """--help answers at once."""
    for name in ("cli.py", "__main__.py", "errors.py", "revision.py", "__init__.py"):
        assert not libraries(CODE / name, top_only=True) & HEAVY, name


def test_file_names_are_nouns_of_the_field():
    """No drawers for odds and ends."""
    assert not {path.stem for path in SOURCES} & {"utils", "helpers", "common", "manager", "core"}


def test_only_listed_libraries_are_imported():
    """What the program imports stands in pyproject.toml."""
    import tomllib
    project = tomllib.loads((CODE.parent / "pyproject.toml").read_text())["project"]
    listed = " ".join(project["dependencies"]).lower()
    for path in SOURCES:
        for name in libraries(path) - set(sys.stdlib_module_names) - {"guidegen"}:
            assert {"yaml": "pyyaml"}.get(name, name) in listed, f"{path.name}: {name}"
