"""What a browser is given to keep: everything as one packed folder of CSV files, or a sealed copy of the log."""

from __future__ import annotations

import csv
import tempfile
import zipfile
from datetime import date
from io import BytesIO, StringIO
from pathlib import Path

from tracker.desk.base.roles import may
from tracker.desk.files.export import export, export_seen
from tracker.exchange.cells import unharmed
from tracker.log.copies import make_backup
from tracker.log.engine import file_of
from tracker.log.faults import told_in_words
from tracker.log.keeper import Log
from tracker.log.records import MemberRecord
from tracker.log.server import NoFileError
from tracker.log.who import Who, acting

OF_ALL = ("lifts", "places", "kit_items", "waves", "wave_steps", "planned_sets", "pieces", "step_pieces")


@may("run")
def everything(log: Log) -> bytes:
    """Return a zip of the whole log as CSV and JSON, each with its description, as one moment saw it."""
    into = BytesIO()
    with tempfile.TemporaryDirectory() as folder:
        export(log, Path(folder))
        with zipfile.ZipFile(into, "w", zipfile.ZIP_DEFLATED) as box:
            for path in sorted(Path(folder).iterdir()):
                box.write(path, path.name)
    return into.getvalue()


@may("hand over")
def of_member(log: Log, member: MemberRecord) -> bytes:
    """Return a zip of one member's records, with the lifts, places and waves that they refer to."""
    into = BytesIO()
    with tempfile.TemporaryDirectory() as folder:
        with acting(Who("member", member.id)):  # whoever asks: what is private to somebody else does not go along
            export_seen(log, Path(folder))
        with zipfile.ZipFile(into, "w", zipfile.ZIP_DEFLATED) as box:
            for path in sorted(Path(folder).glob("*.csv")):
                with path.open(encoding="utf-8", newline="") as file:
                    heading, *rows = csv.reader(file)
                kept = _of_member(path.stem, heading, rows, member)
                if kept is not None:
                    text = StringIO(newline="")
                    csv.writer(text, lineterminator="\n").writerows([heading, *kept])
                    box.writestr(path.name, text.getvalue())
    return into.getvalue()


def _of_member(table: str, heading: list[str], rows: list[list[str]], member: MemberRecord) -> list[list[str]] | None:
    """Choose a member's rows; all rows of what belongs to nobody; None for what can't be told apart."""
    if table == "members":
        return [row for row in rows if row[heading.index("id")] == member.id]
    if "member_id" in heading:
        return [row for row in rows if row[heading.index("member_id")] == member.id]
    if "member" in heading:
        return [row for row in rows if unharmed(row[heading.index("member")]) == member.name]
    return rows if table in OF_ALL else None


@may("run")
def sealed_copy(log: Log) -> bytes:
    """Return a copy of the log, looked over and sealed, as `tidemark backup` makes it.

    Raises:
        NoFileError: if the log is on a server.
        TidemarkError: if it is damaged or can't be read.
    """
    path = file_of(log.url)
    if path is None:
        raise NoFileError(log.name)
    with tempfile.TemporaryDirectory() as folder, told_in_words(log.name):
        target = Path(folder) / "copy.db"
        make_backup(path, target)
        return target.read_bytes()


def file_name(kind: str, today: date, ending: str) -> str:
    return f"tidemark-{kind}-{today.isoformat()}.{ending}"
