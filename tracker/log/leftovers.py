"""The folders in which a restore or a copy works, beside the log; and what one that was killed left of them.

Such a folder holds a whole log, with members who may be deleted by now. Whoever works in one holds its lock, and a lock ends
with its process; so what nobody holds is left over, and goes when the log is opened next, or a member is deleted.
"""

from __future__ import annotations

import glob
import os
import shutil
import tempfile
from collections.abc import Generator
from contextlib import contextmanager, suppress
from pathlib import Path

from tracker.log.backups import folder_of
from tracker.log.lock import held, one_at_a_time

BEGINS = ".restore-"
ELSEWHERE = "elsewhere"  # in a folder, names a half-made file that lies elsewhere
COPYING = ".copy-"  # the same among the copies: a name is given in one step only within one disk


@contextmanager
def working_folder(log: Path, *, among_copies: bool = False) -> Generator[Path]:
    """Make a folder beside a log, or among its copies, to work in, for this account alone; take it away at the end."""
    prefix, parent = (COPYING, folder_of(log)) if among_copies else (BEGINS, log.parent)
    with one_at_a_time(log):  # so that nobody takes it for left over before its lock is held
        folder = Path(tempfile.mkdtemp(prefix=prefix, dir=parent))
        handle = _locked(folder)
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)
        if handle is not None:
            os.close(handle)


def note(folder: Path, file: Path) -> None:
    """Say in a folder of one's own where a half-made file will lie, so that it goes with the folder."""
    (folder / ELSEWHERE).write_text(str(file.absolute()), encoding="utf-8", errors="surrogateescape")


def _elsewhere(folder: Path) -> None:
    """Delete the half-made file that a folder names; one under another name than ours is nobody's to delete."""
    with suppress(OSError, ValueError):
        file = Path((folder / ELSEWHERE).read_text(encoding="utf-8", errors="surrogateescape"))
        if file.is_absolute() and file.name.endswith(f"-{folder.name.rpartition('-')[2]}.part"):
            file.unlink(missing_ok=True)


def of(log: Path) -> tuple[Path, ...]:
    """Name the folders of restores and copies beside a log, of whatever process."""
    try:
        found = (*sorted(log.parent.glob(f"{BEGINS}*")), *sorted(folder_of(log).glob(f"{COPYING}*")))
        return tuple(each for each in found if each.is_dir() and not each.is_symlink())
    except OSError:
        return ()


def _parts(log: Path) -> tuple[Path, ...]:
    """Name half-made copies: a migration's, which is made under the log's lock, and what earlier versions left."""
    names = (f".{glob.escape(log.stem)}-[0-9]*Z-*{glob.escape(log.suffix)}.part", f".{glob.escape(log.name)}.part")
    try:
        return tuple(each for name in names for each in sorted(folder_of(log).glob(name)) if each.is_file())
    except OSError:
        return ()


def sweep(log: Path) -> None:
    """Delete the folders in which nobody works any more, and half-made copies; one that can't be deleted stays."""
    if os.name == "nt" or not (of(log) or _parts(log)):
        return
    with one_at_a_time(log):
        for part in _parts(log):
            with suppress(OSError):
                part.unlink()
        for folder in of(log):
            with suppress(OSError):
                handle = _locked(folder)
                if handle is not None:
                    _elsewhere(folder)
                    shutil.rmtree(folder, ignore_errors=True)
                    os.close(handle)


def _locked(folder: Path) -> int | None:
    """Hold a folder's lock, as long as what is returned is open; None where somebody else does, or Windows."""
    if os.name == "nt":
        return None
    handle = os.open(folder, os.O_RDONLY)
    if held(handle):
        return handle
    os.close(handle)
    return None
