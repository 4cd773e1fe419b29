"""Which data and code made a result, and from when they are."""

import hashlib
import os
import subprocess
from datetime import UTC, datetime
from pathlib import Path
from typing import Iterator, NamedTuple

CODE = Path(__file__).parent
_COURSE = ("mkdocs.yml", "data", "docs", "shared")


class Revision(NamedTuple):
    """A short mark that changes whenever data or code change, and a date that needs no clock."""

    mark: str
    timestamp: int  # seconds since 1970, UTC

    @property
    def date(self) -> str:
        return datetime.fromtimestamp(self.timestamp, UTC).strftime("%Y-%m-%d")


def revision(course_folder: Path) -> Revision:
    """The revision of a course as it stands in its folder, and of this program.

    The date is SOURCE_DATE_EPOCH where set, else that of the last commit, else that of the newest
    source file: two builds of the same files carry the same date.
    """
    digest, newest = hashlib.sha256(), 0
    for name, path in _sources(course_folder):
        content = path.read_bytes()
        digest.update(f"{name}\0{len(content)}\0".encode())
        digest.update(content)
        newest = max(newest, int(path.stat().st_mtime))
    given = os.environ.get("SOURCE_DATE_EPOCH", "")
    timestamp = int(given) if given.isdigit() else _last_commit(course_folder) or newest
    return Revision(digest.hexdigest()[:8], timestamp)


def _sources(course_folder) -> Iterator[tuple[str, Path]]:
    roots = [("course", course_folder / name) for name in _COURSE] + [("code", CODE)]
    for label, root in roots:
        for path in sorted(root.rglob("*")) if root.is_dir() else [root]:
            if path.is_file() and path.suffix != ".pyc" and not path.name.startswith("."):
                yield f"{label}/{root.name}/{path.relative_to(root).as_posix()}", path


def _last_commit(folder) -> int | None:
    command = ["git", "-C", str(folder), "log", "-1", "--format=%ct", "--", "."]
    try:
        shown = subprocess.run(command, capture_output=True, text=True, timeout=10)
    except (OSError, subprocess.TimeoutExpired):
        return None  # no git here
    return int(shown.stdout) if shown.stdout.strip().isdigit() else None
