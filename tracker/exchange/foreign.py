"""A table of somebody else's, turned into rows of sets by its mapping and put through the same checks as our own files.

The rows are written as a CSV of our own columns and read by `sets_csv`, so that nothing is taken here that would be
refused there; what is wrong is told with the line and the column of the file that was brought.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass, replace
from datetime import date

from tracker.errors import BadInputError
from tracker.exchange.cells import harmless, unharmed
from tracker.exchange.foreign_values import day_in, number_in
from tracker.exchange.mapping import MOST_SETS_A_ROW, NEEDED, TIMES, Mapping, Open, open_questions
from tracker.exchange.problems import BadFileError, Problem, Problems
from tracker.exchange.sets_csv import COLUMNS, SetsFile, read_sets_text
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
    found = []
    for row in table.rows[:most]:
        part = replace(table, rows=(row,))
        try:
            problems = Problems(table.name)
            ((line, cells, _),) = _own_rows(part, mapping, problems) or ((row[0], {}, 1),)
            problems.raise_any()
            _checked(part, [(line, cells, 1)], mapping, today)
        except BadFileError as err:
            found.append(Understood(row[0], {}, "; ".join(_words(each) for each in err.problems)))
        else:
            found.append(Understood(line, {role: unharmed(text) for role, text in cells.items()}))
    return tuple(found)


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
    problems = Problems(table.name)
    rows = _own_rows(table, mapping, problems)
    problems.raise_any()
    read = _checked(table, rows, mapping, today)
    lines = [line for line, _, times in rows for _ in range(times)]
    unread = tuple(each for at, each in enumerate(table.heading) if at not in mapping.columns.values() and each)
    made = tuple(row._replace(line=line) for row, line in zip(read.rows, lines, strict=True))
    return SetsFile(table.name, made, unread)


Row = tuple[int, dict[str, str], int]  # line, our columns, how many equal sets


def _own_rows(table: Table, mapping: Mapping, problems: Problems) -> list[Row]:
    """Write every row in our own columns; what can't be is noted."""
    made: list[Row] = []
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
        made.append((line, own, times))
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
            raise BadInputError(f"{text} is not in {other}.", mend="Take the unit from the cells, or mend the cell.")
        return {role: plain(number)}
    return {role: plain(number), "unit": said}


def _times(text: str) -> int:
    number, unit = number_in(text or "1")
    if unit or number != int(number) or not 1 <= number <= MOST_SETS_A_ROW:
        raise BadInputError(f"{text} equal sets can't be.", mend=f"Write a whole number from 1 to {MOST_SETS_A_ROW}.")
    return int(number)


def _checked(table: Table, rows: list[Row], mapping: Mapping, today: date) -> SetsFile:
    """Read the rows by the rules of our own files; what is wrong is told where it stands in the file that was brought."""
    columns = [role for role in COLUMNS if role in mapping.columns or role in (*NEEDED, "unit")]
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(columns)
    lines: dict[int, int] = {}
    at = 2
    for line, own, times in rows:
        cells = [own.get(role, "") for role in columns]
        for _ in range(times):
            writer.writerow(cells)
            lines[at] = line
            at += 1 + sum(_breaks(cell) for cell in cells)
    try:
        return read_sets_text(text.getvalue(), table.name, today=today)
    except BadFileError as err:
        told = tuple(dict.fromkeys(_in_the_file(each, table, columns, mapping, lines) for each in err.problems))
        raise BadFileError(table.name, told, more="there are more" in str(err)) from err


def _breaks(cell: str) -> int:
    return cell.count("\n") + cell.replace("\r\n", "").count("\r")


def _in_the_file(
    problem: Problem, table: Table, columns: list[str], mapping: Mapping, lines: dict[int, int]
) -> Problem:
    role = next((role for at, role in enumerate(columns) if problem.column in (role, f"column {at + 1} ({role})")), "")
    place = table.place(mapping.columns[role]) if role in mapping.columns else role or problem.column
    return replace(problem, line=lines.get(problem.line, problem.line), column=place)
