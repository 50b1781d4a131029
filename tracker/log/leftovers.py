"""The folder in which a restore works, beside the log; and what one that was killed left of it.

The folder holds a whole log, with members who may be deleted by now. Whoever works in one holds its lock, and a lock ends
with its process; so what nobody holds is left over, and goes when the log is opened next, or a member is deleted.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from tracker.log.lock import held, one_at_a_time

BEGINS = ".restore-"


@contextmanager
def working_folder(log: Path) -> Iterator[Path]:
    """Make a folder beside a log to work in, for this account alone, and take it away at the end."""
    with one_at_a_time(log):  # so that nobody takes it for left over before its lock is held
        folder = Path(tempfile.mkdtemp(prefix=BEGINS, dir=log.parent))
        handle = _locked(folder)
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)
        if handle is not None:
            os.close(handle)


def of(log: Path) -> tuple[Path, ...]:
    """Name the folders of restores beside a log, of whatever process."""
    try:
        return tuple(each for each in sorted(log.parent.glob(f"{BEGINS}*")) if each.is_dir() and not each.is_symlink())
    except OSError:
        return ()


def sweep(log: Path) -> None:
    """Delete the folders in which nobody works any more; one that can't be deleted stays."""
    if os.name == "nt" or not of(log):
        return
    with one_at_a_time(log):
        for folder in of(log):
            with suppress(OSError):
                handle = _locked(folder)
                if handle is not None:
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
