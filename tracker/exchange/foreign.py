"""A table of somebody else's, turned into rows of sets by its mapping and put through the same checks as our own files.

The cells are written as our own columns have them and checked by `sets_csv.read_rows`, so that nothing is taken here that
would be refused there; what is wrong is told with the line and the column of the file that was brought.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import NamedTuple

from tracker.collector import collector_off
from tracker.errors import BadInputError
from tracker.exchange.cells import harmless, unharmed
from tracker.exchange.foreign_values import day_in, number_in
from tracker.exchange.mapping import MOST_SETS_A_ROW, NEEDED, TIMES, Mapping, Open, open_questions
from tracker.exchange.problems import BadFileError, Problem, Problems
from tracker.exchange.sets_csv import COLUMNS, FileSet, SetsFile, read_rows
from tracker.exchange.tables import Table
from tracker.progress import through
from tracker.units import Unit, plain

NUMBERS = ("reps", "rir", "order", "implements")
TEXTS = ("member", "lift", "session", "place", "left out", "note")
FIRST_ROWS = 8
QUESTIONS = {"date": "the day", "lift": "the lift", "load": "the load", "reps": "the repetitions"}


class NotAnsweredError(BadInputError):
    """The table can't be read until a question is answered."""

    def __init__(self, name: str, questions: Open) -> None:
        asked = [f"which column holds {QUESTIONS[role]}" for role in questions.columns]
        asked += ["whether the loads are in kg or lb"] if questions.unit else []
        asked += ["in which order day and month stand"] if questions.date_orders else []
        super().__init__(f"It is not clear {', '.join(asked)}.", where=name, mend="Say it, and look at the first rows.")
        self.questions = questions


@dataclass(frozen=True, slots=True)
class Understood:
    """One row as it is understood, or what is wrong with it."""

    line: int
    cells: dict[str, str]
    problem: str = ""


def first_rows(table: Table, mapping: Mapping, today: date, *, most: int = FIRST_ROWS) -> tuple[Understood, ...]:
    """Show how the first rows are understood, each with what is wrong with it, if anything."""
    return tuple(_understood(replace(table, rows=(row,)), mapping, today) for row in table.rows[:most])


def _understood(table: Table, mapping: Mapping, today: date) -> Understood:
    """Say how a table's only row is understood."""
    try:
        (row,) = _own_rows(table, mapping)
        _checked(table, (row,), mapping, today)
    except BadFileError as err:
        return Understood(table.rows[0][0], {}, "; ".join(_words(each) for each in err.problems))
    return Understood(row.line, {role: unharmed(text) for role, text in row.cells.items()})


def _words(problem: Problem) -> str:
    return f"{problem.column}: {problem.what}" if problem.column else problem.what


def sets_of(table: Table, mapping: Mapping, today: date) -> SetsFile:
    """Read a table as a file of sets.

    Raises:
        NotAnsweredError: if a question is open.
        BadFileError: if any row can't be taken; up to twenty are told at once.
    """
    if questions := open_questions(table, mapping, today):
        raise NotAnsweredError(table.name, questions)
    with collector_off():
        rows = _own_rows(table, mapping)
        read = zip(_checked(table, rows, mapping, today), rows, strict=True)
        made = tuple(each for each, row in read for _ in range(row.times))
    unread = tuple(each for at, each in enumerate(table.heading) if at not in mapping.columns.values() and each)
    return SetsFile(table.name, made, unread)


class Row(NamedTuple):
    """A row in our own columns, and how many equal sets it stands for."""

    line: int
    cells: dict[str, str]
    times: int


def _own_rows(table: Table, mapping: Mapping) -> list[Row]:
    """Write every row in our own columns.

    Raises:
        BadFileError: with every cell that can't be.
    """
    problems, made = Problems(table.name), list[Row]()
    for line, cells in through("reading the table", table.rows, len(table.rows)):
        own: dict[str, str] = {}
        times = 1
        for role, at in mapping.columns.items():
            try:
                if role == TIMES:
                    times = _times(cells[at])
                else:
                    own.update(_cell(role, cells[at], mapping))
            except BadInputError as err:
                problems.add(line, table.place(at), err)
        own.setdefault("unit", mapping.unit or "")
        made.append(Row(line, own, times))
    problems.raise_any()
    return made


def _cell(role: str, text: str, mapping: Mapping) -> dict[str, str]:
    """Write one cell as our own column has it; a load brings its unit along where it says it."""
    if not text:
        return {role: ""}
    if role == "date":
        return {role: day_in(text, mapping.date_order).isoformat()}
    if role in ("load", "body mass"):
        return _mass(role, text, mapping)
    if role in NUMBERS:
        number, unit = number_in(text)
        if unit:
            raise BadInputError(f"{text} is a load.", mend="Choose another column for it.")
        return {role: plain(number)}
    return {role: harmless(unharmed(text)) if role in TEXTS else text}


def _mass(role: str, text: str, mapping: Mapping) -> dict[str, str]:
    number, said = number_in(text)
    if said is None or role == "body mass":
        if said and mapping.unit and said != mapping.unit:
            raise BadInputError(
                f"{text} is not in {mapping.unit}.", mend="Leave this column out, or say its unit in a column."
            )
        return {role: plain(number)}
    if "unit" in mapping.columns or (mapping.unit and mapping.unit != said):
        other: Unit | str = mapping.unit or "what the column of units says"
        if "unit" not in mapping.columns:
            raise BadInputError(f"{text} is not in {other}.", mend="Take the unit from the cells, or correct the cell.")
        return {role: plain(number)}
    return {role: plain(number), "unit": said}


def _times(text: str) -> int:
    number, unit = number_in(text or "1")
    if unit or number != int(number) or not 1 <= number <= MOST_SETS_A_ROW:
        raise BadInputError(f"{text} equal sets can't be.", mend=f"Write a whole number from 1 to {MOST_SETS_A_ROW}.")
    return int(number)


def _checked(table: Table, rows: Sequence[Row], mapping: Mapping, today: date) -> tuple[FileSet, ...]:
    """Hold the rows to the rules of our own files; what is wrong is told where it stands in the file that was brought."""
    columns = [role for role in COLUMNS if role in mapping.columns or role in (*NEEDED, "unit")]
    cells = ((row.line, [row.cells.get(role, "") for role in columns]) for row in rows)
    places = {role: table.place(at) for role, at in mapping.columns.items()}
    return read_rows(columns, through("reading the file", cells, len(rows)), table.name, today, places)
