"""Reads a file of sets: a CSV with a heading, every row checked, every bad row told with file, line and column.

The whole file is read and checked before anything is done with it, so that one bad row refuses all of it. Rows are named
tuples and no dataclasses, because a file may have 100,000 of them and a tuple is made several times as fast.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any, NamedTuple, get_args

from tracker.collector import collector_off
from tracker.errors import BadInputError
from tracker.exchange import cells as cell
from tracker.exchange.csv_text import heading_of, read_text, rows_of
from tracker.exchange.problems import Problems
from tracker.limits import MOST_REPS
from tracker.progress import through
from tracker.strength.records import Kind, Outcome
from tracker.units import KG_PER_LB, Unit

REQUIRED = ("date", "lift", "load", "unit", "reps")
OPTIONAL = ("member", "body mass", "rir", "outcome", "kind", "order")
FURTHER = ("session", "place", "implement", "implements", "per side", "left out", "note")
COLUMNS = (*REQUIRED, *OPTIONAL, *FURTHER)
Row = tuple[int, list[str]]  # the line on which it starts, and its cells
IMPLEMENTS = ("barbell", "dumbbells", "dumbbell", "kettlebells", "kettlebell", "machine", "body", "other")


class FileSet(NamedTuple):
    """One row of a file: a set as somebody wrote it down. Empty member, implement and so on: the file does not say."""

    line: int
    lifted: cell.Lifted
    member: str
    day: date
    lift: str
    reps: int
    rir: Decimal | None
    outcome: Outcome
    kind: Kind
    order: int | None
    session: str
    place: str
    implement: str
    implements: int | None
    per_side: bool | None
    left_out: str
    note: str

    @property
    def unit(self) -> Unit:
        return self.lifted.unit

    @property
    def body_mass(self) -> Decimal | None:
        """The body mass in `unit`, where the body is lifted and the row says it."""
        return self.lifted.body_mass

    @property
    def moved_kg(self) -> float:
        """What is really moved, in kilograms: with body mass where the body is lifted."""
        amount = self.lifted.amount + (self.lifted.body_mass or 0)
        return float(amount if self.lifted.unit == "kg" else amount * KG_PER_LB)


@dataclass(frozen=True, slots=True)
class SetsFile:
    """All rows of a file, and the names of columns that were not read."""

    name: str
    rows: tuple[FileSet, ...]
    ignored: tuple[str, ...]


def read_sets(path: Path, *, today: date | None = None) -> SetsFile:
    """Read a file of sets.

    Args:
        path: A CSV with commas, in UTF-8, with a heading.
        today: The day it is; no set may lie more than one day after it.

    Raises:
        BadInputError: if the file can't be read, or a row can't be; up to twenty rows are told at once.
    """
    return read_sets_text(read_text(path), cell.printable(path.name), today=today)


def read_sets_text(text: str, name: str, *, today: date | None = None) -> SetsFile:
    """Read a file of sets that is in memory already; `name` stands in the messages."""
    rows = rows_of(text, name)
    columns, ignored = heading_of(rows, name, COLUMNS, REQUIRED)
    places = {column: f"column {at} ({column})" for at, column in enumerate(columns, start=1)}
    counted = through("reading the file", rows, text.count("\n"))
    return SetsFile(name, read_rows(columns, counted, name, today or date.today(), places), ignored)


def read_rows(
    columns: Sequence[str], rows: Iterable[Row], name: str, today: date, places: Mapping[str, str]
) -> tuple[FileSet, ...]:
    """Check every cell of every row, whatever kind of file they come from.

    Args:
        columns: What stands in each cell of a row, in the words of COLUMNS; the required ones are among them.
        rows: The rows.
        name: The file, for messages.
        today: The day it is.
        places: What a column is called in messages, where it is not called as here.

    Raises:
        BadFileError: if any row can't be taken; up to twenty are told at once.
    """
    with collector_off():
        return tuple(_Reader(columns, today + timedelta(days=1), Problems(name), places).read(rows))


class _Reader:
    """Reads rows by the columns that the heading has; a text met before is not read again."""

    def __init__(self, heading: Sequence[str], latest: date, problems: Problems, places: Mapping[str, str]) -> None:
        self.width, self.latest, self.problems, self.places = len(heading), latest, problems, places
        self.at = {name: heading.index(name) for name in COLUMNS if name in heading}
        self.caches = {
            name: cell.Cache(read if name == "note" else _on_one_line(read)) for name, read in self._readers().items()
        }
        self.loads: dict[tuple[str, str, str], cell.Lifted] = {}

    def _readers(self) -> dict[str, Callable[[str], Any]]:
        """One reader for each column but load, unit and body mass, which are read together; in the order of FileSet."""
        name, whole = cell.parse_name, cell.parse_whole
        return {
            "member": lambda text: name(text, "member"),
            "date": self._day,
            "lift": lambda text: name(text, "lift", needed=True),
            "reps": lambda text: whole(text, "repetitions", most=MOST_REPS),
            "rir": cell.parse_reserve,
            "outcome": lambda text: cell.parse_word(text, get_args(Outcome), "done", "an outcome"),
            "kind": lambda text: cell.parse_word(text, get_args(Kind), "work", "a kind of set"),
            "order": lambda text: whole(text, "place in the session", most=10**6) if text.strip() else None,
            "session": lambda text: name(text, "session"),
            "place": lambda text: name(text, "place"),
            "implement": lambda text: cell.parse_word(text, IMPLEMENTS, "", "an implement"),
            "implements": lambda text: whole(text, "implements", most=4) if text.strip() else None,
            "per side": cell.parse_flag,
            "left out": lambda text: name(text, "reason"),
            "note": cell.parse_note,
        }

    def _day(self, text: str) -> date:
        day = cell.parse_day(text)
        if day > self.latest:
            raise BadInputError(f"{day} is still to come.", mend="Write the day on which the set was done.")
        return day

    def read(self, rows: Iterable[Row]) -> Iterator[FileSet]:
        """Read every row; refuse the file at the end, with all that was wrong, where anything was."""
        blank: list[Any] = [0, None, *(None if name in self.at else cache[""] for name, cache in self.caches.items())]
        picks = [
            (slot, cache, self.at[name]) for slot, (name, cache) in enumerate(self.caches.items(), 2) if name in self.at
        ]
        load, unit, body, known = self.at["load"], self.at["unit"], self.at.get("body mass"), self.loads
        for line, cells in rows:
            values = blank.copy()
            try:
                key = (cells[load], cells[unit], "" if body is None else cells[body])
                values[0], values[1] = line, known.get(key) or self._load(key)
                for slot, cache, at in picks:
                    values[slot] = cache[cells[at]]
            except (BadInputError, IndexError):
                self._tell(line, cells)
                continue
            made = FileSet._make(values)
            if len(cells) == self.width and (made.reps or made.outcome != "done"):
                yield made
            else:
                self._tell(line, cells)
        self.problems.raise_any()

    def _load(self, key: tuple[str, str, str]) -> cell.Lifted:
        found = self.loads[key] = cell.parse_load(*key)
        return found

    def _tell(self, line: int, cells: list[str]) -> None:
        """Note all that is wrong with a row, column by column."""
        if len(cells) != self.width:
            what = f"The row has {len(cells)} cells, the heading has {self.width}."
            mend = "Write as many commas as in the heading, and quotes around a cell that holds one."
            self.problems.add(line, "", BadInputError(what, mend=mend))
            return
        for name, cache in self.caches.items():
            try:
                value = cache[cells[self.at[name]] if name in self.at else ""]
            except BadInputError as err:
                self._add(line, name, err)
                continue
            if name == "reps" and value == 0:
                self._tell_no_reps(line, cells)
        body = self.at.get("body mass")
        try:
            self._load((cells[self.at["load"]], cells[self.at["unit"]], "" if body is None else cells[body]))
        except BadInputError as err:
            self._add(line, err.where, err)

    def _tell_no_reps(self, line: int, cells: list[str]) -> None:
        outcome = cells[self.at["outcome"]].strip().lower() if "outcome" in self.at else ""
        if outcome in ("", "done"):
            mend = "If the first one failed, the outcome is missed."
            self._add(line, "reps", BadInputError("A set that was done has at least one repetition.", mend=mend))

    def _add(self, line: int, name: str, err: BadInputError) -> None:
        self.problems.add(line, self.places.get(name, name), err)


def _on_one_line(read: Callable[[str], Any]) -> Callable[[str], Any]:
    def reader(text: str) -> Any:
        cell.one_line(text)
        return read(text)

    return reader
