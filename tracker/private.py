"""Who may read what lies beside a log: what is made here is for the account that makes it, and for no other.

What a person made wider is left so, since a group may be meant to share it; it is told, with the command that mends it.
Windows keeps such rights elsewhere: a folder of one's own there is one's own.
"""

from __future__ import annotations

import os
import shlex
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

NAMED = 3  # files; the command has all of them
OWN_FILE, OWN_FOLDER, OTHERS = 0o600, 0o700, 0o077


def make_folder(folder: Path) -> None:
    """Make a folder, and those above it that are missing, for this account alone; one that is there stays as it is."""
    missing = [each for each in (folder, *folder.parents) if not each.exists()]
    for each in reversed(missing):
        each.mkdir(mode=OWN_FOLDER, exist_ok=True)
    if not missing:
        folder.mkdir(exist_ok=True)  # says so where it is a file


def make_file(path: Path) -> None:
    """Make an empty file for this account alone, where there is none."""
    with suppress(FileExistsError):  # whoever may only read it must be able to
        os.close(os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL, OWN_FILE))


def opener(path: str, flags: int) -> int:
    """Open a file for `open(..., opener=opener)`: where it is made, it is for this account alone."""
    return os.open(path, flags, OWN_FILE)


def wider(paths: Iterable[Path]) -> str:
    """Say which files and folders other accounts of the machine may read, and what mends it; empty where none is."""
    found = [path for path in paths if _is_wider(path)]
    if not found:
        return ""
    what = ", ".join(path.name for path in found[:NAMED]) + (f" and {len(found) - NAMED} more" if found[NAMED:] else "")
    mend = " ".join(shlex.quote(str(path)) for path in found)
    return f"Other accounts of this machine can read {what}. If that is not meant: chmod go= {mend}"


def _is_wider(path: Path) -> bool:
    if os.name == "nt":
        return False
    try:
        return bool(path.stat().st_mode & OTHERS)
    except OSError:
        return False
