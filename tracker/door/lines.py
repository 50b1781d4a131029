"""What a gym's server writes of itself: one line each, with moment and level, and no secret in it.

Whoever keeps the server reads these lines in the journal, which lets go of the oldest. A fault is one line as well, its
trace in it; whatever could be a secret of the settings is blotted out before it is written.
"""

from __future__ import annotations

import logging
import os
import sys
import threading
from collections.abc import Iterable
from datetime import UTC, datetime

SHORTEST = 6  # letters: what is shorter is no secret, and stands in many a word
BLOT = "***"
OTHERS = ("uvicorn", "uvicorn.error", "uvicorn.access", "uvicorn.asgi", "streamlit", "websockets")


class OneLine(logging.Formatter):
    """Writes a record as one line: `2026-11-28T14:30:00.123Z WARNING tracker.app: words | and what follows`."""

    def __init__(self, secrets: Iterable[str] = ()) -> None:
        super().__init__()
        found = {each for each in secrets if len(each) >= SHORTEST}
        self.secrets = sorted(found, key=len, reverse=True)  # one may stand within another

    def format(self, record: logging.LogRecord) -> str:
        at = datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
        words = record.getMessage()
        if record.exc_info and record.exc_info[0] is not None:
            words += "\n" + self.formatException(record.exc_info)
        for each in self.secrets:
            words = words.replace(each, BLOT)
        parts = [part.strip() for part in words.splitlines() if part.strip()]
        line = " | ".join(parts)
        return f"{at} {record.levelname} {record.name}: {''.join(each if each.isprintable() else '?' for each in line)}"


def is_told(record: logging.LogRecord) -> bool:
    """Leave out who opens and closes a page: the proxy has a line for each, and there are many."""
    of_socket = ("connection ", '%s - "WebSocket')
    return not (
        record.name.startswith("uvicorn") and record.levelno < logging.WARNING and record.msg.startswith(of_socket)
    )


def write_lines(secrets: Iterable[str] = ()) -> None:
    """Let everything that this process logs, warns of or stumbles over go to standard error in this form."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(OneLine([*secrets, os.environ.get("PGPASSWORD", "")]))
    handler.addFilter(is_told)
    root = logging.getLogger()
    root.handlers[:] = [handler]
    root.setLevel(logging.INFO)
    known = {
        *OTHERS,
        *(name for name in logging.root.manager.loggerDict if name.split(".")[0] in ("streamlit", "uvicorn")),
    }
    for name in known:
        each = logging.getLogger(name)
        each.handlers[:] = []
        each.propagate = True
    _of_streamlit()
    logging.captureWarnings(True)
    sys.excepthook = lambda kind, err, trace: _fault(err)
    threading.excepthook = lambda told: _fault(told.exc_value)


def _of_streamlit() -> None:
    """Streamlit gives each of its loggers a way of its own to the terminal, as they are made; see tests/door/test_internals.py."""
    from streamlit import logger

    def through_ours(made: logging.Logger) -> None:
        made.propagate = True

    logger.setup_formatter = through_ours


def _fault(err: BaseException | None) -> None:
    logging.getLogger("tracker").critical("a fault of the program", exc_info=err)
