"""Publishing: the new site is written beside the former one, and takes its place in one step."""

import ctypes
import os
import shutil
import sys
from contextlib import contextmanager
from pathlib import Path
from typing import Iterator

from guidegen.errors import BadInput, Mistake
from guidegen.guide.adapter import build_site
from guidegen.guide.page import Guide
from guidegen.revision import Revision

_HERE, _EXCHANGE = -100, 2  # AT_FDCWD and RENAME_EXCHANGE of Linux's renameat2


def publish(course_folder: Path, guide: Guide, revision: Revision, site: Path | None = None) -> Path:
    """Build the guide of a course and put it in place of `site`, by default DIR/site; gives that folder.

    Until the new site is complete the former one stays as it was, whatever happens. Raises BadInput
    for what the site builder refuses in hand-written pages, or a folder that cannot be written.
    """
    site = (site or course_folder / "site").resolve()
    with replaced_whole(site) as fresh:
        foot = f"Revision {revision.mark}, {revision.date}"
        build_site(course_folder.resolve(), guide, fresh, revision.timestamp, foot)
    return site


@contextmanager
def replaced_whole(folder: Path) -> Iterator[Path]:
    """An empty folder to fill, which becomes `folder` in one step if the block ends well."""
    fresh, former = (folder.with_name(f".{folder.name}-{what}") for what in ("building", "former"))
    try:
        with _alone_in(folder.parent):
            if folder.exists() and not folder.is_dir():
                raise NotADirectoryError(None, "a file stands where the site goes", str(folder))
            _repair(folder, fresh, former)
            fresh.mkdir()
            try:
                yield fresh
                _exchange(folder, fresh, former)
            finally:
                _repair(folder, fresh, former)
    except OSError as stop:
        place = Path(stop.filename or folder)
        raise BadInput(
            [
                Mistake(
                    str(place),
                    "writing the site",
                    stop.strerror or str(stop),
                    "a folder that can be written, with room on the disk",
                )
            ]
        ) from stop


def _repair(folder, fresh, former):
    """Leave one site, the former one where no new one took its place, and nothing else."""
    if former.exists() and not folder.exists():
        former.rename(folder)
    for left in (fresh, former):
        if left.exists():
            shutil.rmtree(left)


def _exchange(folder, fresh, former):
    if not folder.exists():
        fresh.rename(folder)
    elif not _exchanged_at_once(fresh, folder):
        folder.rename(former)
        fresh.rename(folder)


def _exchanged_at_once(one: Path, other: Path) -> bool:
    """Let two folders change names in one step, where the system and its disk can."""
    if sys.platform != "linux":
        return False
    call = getattr(ctypes.CDLL(None), "renameat2", None)
    return call is not None and call(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE) == 0


@contextmanager
def _alone_in(folder):
    """Keep a second build out of the same place while the block runs, where the system has locks."""
    folder.mkdir(parents=True, exist_ok=True)
    try:
        import fcntl
    except ImportError:  # a system without such locks
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError as held:
        os.close(handle)
        raise OSError(held.errno, "another build is writing here", str(folder)) from held
    try:
        yield
    finally:
        os.close(handle)
