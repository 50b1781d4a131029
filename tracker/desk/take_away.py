"""What a browser is given to keep: everything as one packed folder of CSV files, or a sealed copy of the log."""

from __future__ import annotations

import tempfile
import zipfile
from datetime import date
from io import BytesIO
from pathlib import Path

from tracker.desk.export import export
from tracker.errors import BadInputError
from tracker.exchange.copies import make_backup
from tracker.log.engine import file_of
from tracker.log.faults import told_in_words
from tracker.log.keeper import Log


def everything(log: Log) -> bytes:
    """Return a zip of the whole log as CSV files, as one moment saw it."""
    into = BytesIO()
    with tempfile.TemporaryDirectory() as folder:
        export(log, Path(folder))
        with zipfile.ZipFile(into, "w", zipfile.ZIP_DEFLATED) as box:
            for path in sorted(Path(folder).iterdir()):
                box.write(path, path.name)
    return into.getvalue()


def sealed_copy(log: Log) -> bytes:
    """Return a copy of the log, looked over and sealed, as `tidemark backup` makes it.

    Raises:
        BadInputError: if the log is no file.
        TidemarkError: if it is damaged or can't be read.
    """
    path = file_of(log.url)
    if path is None:
        raise BadInputError(
            "This log is no file.", where=log.name, mend="Use the tools of the database for its copies."
        )
    with tempfile.TemporaryDirectory() as folder, told_in_words(log.name):
        target = Path(folder) / "copy.db"
        make_backup(path, target)
        return target.read_bytes()


def file_name(kind: str, today: date, ending: str) -> str:
    return f"tidemark-{kind}-{today.isoformat()}.{ending}"
