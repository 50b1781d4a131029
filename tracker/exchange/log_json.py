"""A whole log as one JSON document: written record by record, read back whole or refused with the place that is wrong.

The document has `format`, `version` (of this outer shape), `revision` (of the layout of the records), `made_at`, and
`records`: for each kind of record a list, one record a line. log.schema.json travels with it and says what each may hold.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import IO, Any, NoReturn

from tracker.errors import BadInputError

FORMAT, VERSION = "tidemark log", 1  # as in log/log.schema.json
MOST_BYTES = 1 << 30
AGAIN = "Make the export again, or use another copy of it."
HALF = re.compile(r"\\u[dD][89a-fA-F]")
Rows = Iterable[Mapping[str, Any]]


@dataclass(frozen=True, slots=True)
class LogFile:
    """What a document holds: records by kind, as they stand in it."""

    name: str
    revision: str
    records: dict[str, list[dict[str, Any]]]


def write_log(file: IO[str], revision: str, records: Iterable[tuple[str, Rows]], at: datetime | None = None) -> int:
    """Write a document and return how many records it has."""
    head = {"format": FORMAT, "version": VERSION, "revision": revision, "made_at": _moment(at or datetime.now(UTC))}
    file.write(f"{json.dumps(head)[:-1]},\n")
    file.write('"records": {')
    number, comma = 0, ""
    for kind, rows in records:
        file.write(f"{comma}\n{json.dumps(kind)}: [")
        comma, between = ",", ""
        for row in rows:
            file.write(f"{between}\n{json.dumps(row, ensure_ascii=False, allow_nan=False)}")
            between, number = ",", number + 1
        file.write("]")
    file.write("\n}}\n")
    return number


def _moment(at: datetime) -> str:
    return at.astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")


def read_log(path: Path) -> LogFile:
    """Read a document.

    Raises:
        BadInputError: if it can't be read, is no JSON, no log, or of a later version.
    """
    name = path.name
    try:
        if path.stat().st_size > MOST_BYTES:
            mend = "Restore a backup instead."
            raise BadInputError(f"The file is over {MOST_BYTES >> 30} GB.", where=name, mend=mend)
        text = path.read_text(encoding="utf-8-sig")
    except OSError as err:
        mend = "Check its name and its rights."
        raise BadInputError(f"It can't be read: {err.strerror or err}.", where=str(path), mend=mend) from err
    except UnicodeDecodeError as err:
        what = f"Byte {err.start + 1:,} is no UTF-8."
        raise BadInputError(what, where=name, mend=AGAIN) from err
    found = _parsed(text, name)
    if HALF.search(text):  # only an escape can bring half a letter in
        _refuse_halves(found, name, "")
    return _document(name, found)


def _refuse_halves(value: Any, name: str, place: str) -> None:
    """Refuse half of a pair of UTF-16 in a text, which is no letter and can be kept nowhere (RFC 8259, 8.2)."""
    if isinstance(value, str):
        if any("\ud800" <= letter <= "\udfff" for letter in value):
            where = f"{name}, {place}" if place else name
            raise BadInputError("Half of a letter stands in this text.", where=where, mend="Write the letter whole.")
    elif isinstance(value, dict):
        for key, each in value.items():
            _refuse_halves(key, name, f"a name in {place}" if place else "a name")
            _refuse_halves(each, name, f"{place}.{key}" if place else key)
    elif isinstance(value, list):
        for number, each in enumerate(value):
            _refuse_halves(each, name, f"{place}[{number}]")


def _parsed(text: str, name: str) -> Any:
    def refuse(word: str) -> NoReturn:
        raise BadInputError(f"{word} is no number.", where=name, mend=AGAIN)

    try:
        return json.loads(text, parse_constant=refuse)
    except json.JSONDecodeError as err:
        what = f"This is no JSON: {err.msg.lower()}."
        raise BadInputError(what, where=f"{name}, line {err.lineno}, column {err.colno}", mend=AGAIN) from err
    except (RecursionError, ValueError) as err:  # ValueError: a whole number of thousands of digits
        raise BadInputError("This is no log: a value in it can't be read.", where=name, mend=AGAIN) from err


def _document(name: str, found: Any) -> LogFile:
    if not isinstance(found, dict) or found.get("format") != FORMAT:
        mend = "Name the log.json of an export; sets of other programs come as CSV or xlsx."
        raise BadInputError("This is no exported log.", where=name, mend=mend)
    if found.get("version") != VERSION:
        what = (
            f"This log is written in version {found.get('version')!r} of the format, and this program reads {VERSION}."
        )
        raise BadInputError(what, where=name, mend="Update Tidemark.")
    revision, records = found.get("revision"), found.get("records")
    if not isinstance(revision, str) or not isinstance(records, dict):
        raise BadInputError("The revision or the records are missing.", where=name, mend=AGAIN)
    for kind, rows in records.items():
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            raise BadInputError("This is no list of records.", where=f"{name}, records.{kind}", mend=AGAIN)
    return LogFile(name, revision, records)
