"""One process at a time: for what must not be done twice side by side, such as a migration, and to know who still works."""

from __future__ import annotations

import os
import time
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from tracker.log.faults import LogBusyError
from tracker.private import make_folder, opener

LONGEST_WAIT_S = 60.0
LOOK_AGAIN_S = 0.05


@contextmanager
def one_at_a_time(path: Path | None, longest_s: float = LONGEST_WAIT_S) -> Generator[None]:
    """Let one process work on a log; the others wait and then find it done.

    Raises:
        LogBusyError: if another one takes longer than that.
    """
    if path is None or os.name == "nt":
        yield
        return
    lock = Path(f"{path}.lock")
    make_folder(lock.parent)
    with open(lock, "w", opener=opener) as handle:
        latest = time.monotonic() + longest_s
        while not held(handle):
            if time.monotonic() >= latest:
                raise LogBusyError(str(path), longest_s)
            time.sleep(LOOK_AGAIN_S)
        yield


def held(handle: IO[str] | int) -> bool:
    """Take the lock of an open file or folder, if nobody has it; it ends with the process, however that ends."""
    import fcntl

    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True
