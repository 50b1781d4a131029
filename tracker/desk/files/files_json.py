"""A whole log out as JSON, and back in: into a log that holds nothing yet, or in place of one that is kept beside it."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import IO

from tracker.desk.base.opening import open_log
from tracker.desk.base.roles import may
from tracker.desk.files.check import check_log
from tracker.errors import BadInputError
from tracker.exchange.log_json import AGAIN, LogFile, read_log, write_log
from tracker.log.copy_whole import copy_whole, refuse_filled
from tracker.log.from_document import fill_new
from tracker.log.keeper import Log, Reader
from tracker.log.open_format import all_records


@dataclass(frozen=True, slots=True)
class Taken:
    """What came in: records by kind."""

    file: str
    records: dict[str, int]

    @property
    def sets(self) -> int:
        return self.records.get("sets", 0)


def write_json(session: Reader, file: IO[str], revision: str) -> int:
    """Write every record of a log, as one moment saw it."""
    return write_log(file, revision, all_records(session))


@may("run")
def take_log(log: Log, path: Path) -> Taken:
    """Take the whole log of a JSON file into a log that holds nothing yet; every record comes back as it was.

    Raises:
        BadInputError: if the log holds anything, or the file can't be taken; nothing is written then.
    """
    file = read_log(path)
    refuse_filled(log)
    with tempfile.TemporaryDirectory(prefix="tidemark-") as folder:
        built = Path(folder) / "log.db"
        build(file, built)
        source = open_log(str(built))
        try:
            found = copy_whole(source, log)
        finally:
            source.close()
    return Taken(file.name, found)


def build(file: LogFile, target: Path) -> None:
    """Make a log file of a document: in the layout it was written in, then brought up to date and looked over.

    Raises:
        BadInputError: if a record does not fit, or what comes of it is not in order.
    """
    fill_new(file.name, file.revision, file.records, target)
    report = check_log(str(target))
    if not report.ok:
        raise BadInputError(f"The log in it is not in order: {report.problems[0]}", where=file.name, mend=AGAIN)
