"""A roster as somebody types or copies it: one member a row, with a unit, a place and groups where they are said.

Tabs of a spreadsheet, semicolons or commas part the cells; a single column is names. Every row is read before anything is
done with it, and all that is wrong is told at once, each with its line and how to mend it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from io import StringIO

from tracker.errors import BadInputError
from tracker.exchange.cells import parse_name, shown
from tracker.exchange.csv_text import decoded, split_rows
from tracker.exchange.guess import UNIT_WORDS
from tracker.exchange.problems import Problems
from tracker.exchange.roster_lists import as_table
from tracker.exchange.workbook import read_sheet
from tracker.units import Unit
from tracker.wording import counted

MOST_ROWS, MOST_BYTES = 2000, 2_000_000  # members of one table; a larger one is something else
EXAMPLE = "name,unit,place,group"
# What each column may be called, in four languages of gyms; from memory.
CALLED = {
    "name": ("name", "names", "member", "members", "athlete", "full name", "who", "mitglied", "nom", "nombre"),
    "unit": ("unit", "units", "weight unit", "kg/lb", "kg or lb", "einheit", "unité", "unidad"),
    "place": ("place", "gym", "location", "hall", "where", "ort", "lieu", "lugar"),
    "group": ("group", "groups", "team", "squad", "level", "gruppe", "gruppen", "groupe", "grupo"),
}
MORE_UNITS: dict[str, Unit] = {"kilogramm": "kg", "pfund": "lb", "livres": "lb", "libras": "lb"}
_PARTS = re.compile(r"\s*[;,]\s*|\s+[/+&]\s+")  # between the groups of one cell


@dataclass(frozen=True, slots=True)
class RosterRow:
    """One member as the table says; what it does not say is empty."""

    line: int
    name: str
    unit: Unit | None = None
    place: str = ""
    groups: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Roster:
    """A table of members; `columns` are the headings as they were taken, `ignored` those that were not read."""

    name: str
    rows: tuple[RosterRow, ...]
    columns: tuple[str, ...]
    ignored: tuple[str, ...] = ()


def read_roster(content: bytes | str, name: str = "the table") -> Roster:
    """Read a roster, pasted or as a file.

    Args:
        content: The text, or the bytes of a file: text in UTF-8, or an xlsx workbook.
        name: What to call it in a message.

    Raises:
        BadInputError: if it is empty, too long, or no text.
        BadFileError: if rows can't be taken; it tells up to twenty of them, each with line, column and mend.
    """
    found = _rows(content if isinstance(content, bytes) else content.encode("utf-8", "replace"), name)
    rows = [(line, [cell.strip() for cell in cells]) for line, cells in found if any(map(str.strip, cells))]
    if not rows:
        raise BadInputError(
            "There is nobody in it.", where=name, mend="Paste one member a line, or a table with a heading."
        )
    at, ignored, body = _columns(as_table(rows, headed=_headed(rows[0][1])), name)
    if not body:
        raise BadInputError(
            "There is a heading and nobody below it.", where=name, mend="Write one member a line below it."
        )
    if len(body) > MOST_ROWS:
        raise BadInputError(
            f"There are {counted(len(body), 'member')}.", where=name, mend=f"Take at most {MOST_ROWS:,} at once."
        )
    return Roster(name, _read(body, at, name), tuple(at), ignored)


def _rows(content: bytes, name: str) -> list[tuple[int, list[str]]]:
    """Take the content apart: a workbook by its largest sheet, a text by what parts its cells."""
    if len(content) > MOST_BYTES:
        raise BadInputError(
            f"The file has {len(content):,} bytes.", where=name, mend=f"At most {MOST_BYTES:,} are read."
        )
    if content.startswith(b"PK"):
        return list(read_sheet(content, name).rows)
    text = decoded(content, name)
    sign = next((each for each in ("\t", ";") if each in text), ",")
    return list(split_rows(StringIO(text, newline=""), name, sign))


def _headed(cells: Sequence[str]) -> bool:
    """Whether a row names a column of ours."""
    words = {" ".join(cell.replace("_", " ").split()).casefold() for cell in cells}
    return any(words & set(called) for called in CALLED.values())


def _columns(
    rows: Sequence[tuple[int, list[str]]], name: str
) -> tuple[dict[str, int], tuple[str, ...], Sequence[tuple[int, list[str]]]]:
    """Say which column is which, by the heading, else by what the cells hold; and give the rows below the heading."""
    first = [" ".join(cell.replace("_", " ").split()).casefold() for cell in rows[0][1]]
    known = {column: [at for at, cell in enumerate(first) if cell in called] for column, called in CALLED.items()}
    if not known["name"]:
        return _without_heading(rows, name, any(known.values()))
    for column, places in known.items():
        if len(places) > 1:
            where = f"{name}, line {rows[0][0]}"
            raise BadInputError(f"Two columns are the {column}.", where=where, mend="Leave one of the two.")
    at = {column: places[0] for column, places in known.items() if places}
    ignored = tuple(shown(cell) for place, cell in enumerate(rows[0][1]) if cell and place not in at.values())
    return at, ignored, rows[1:]


def _without_heading(
    rows: Sequence[tuple[int, list[str]]], name: str, begun: bool
) -> tuple[dict[str, int], tuple[str, ...], Sequence[tuple[int, list[str]]]]:
    width = max(len([cell for cell in cells if cell]) for _, cells in rows)
    if width == 1 and not begun:
        return {"name": 0}, (), rows
    units = [at for at in range(1, width) if all(len(cells) <= at or _unit_word(cells[at]) for _, cells in rows)]
    if width == 2 and units and not begun:
        return {"name": 0, "unit": 1}, (), rows
    what = "The heading has no column name." if begun else "There are several columns and no heading."
    raise BadInputError(what, where=f"{name}, line {rows[0][0]}", mend=f"Begin with a line such as {EXAMPLE}.")


def _unit_word(cell: str) -> bool:
    return not cell or _unit_of(cell) is not None


def _unit_of(cell: str) -> Unit | None:
    word = cell.casefold().rstrip(".")
    return UNIT_WORDS.get(word) or MORE_UNITS.get(word)


def _read(body: Sequence[tuple[int, list[str]]], at: dict[str, int], name: str) -> tuple[RosterRow, ...]:
    problems, found, lines = Problems(name), list[RosterRow](), dict[str, int]()
    for line, cells in body:
        said = {column: cells[place] if place < len(cells) else "" for column, place in at.items()}
        row = _row(line, said, problems)
        if row is None:
            continue
        before = lines.setdefault(row.name.casefold(), line)
        if before != line:
            mend = "Add an initial to one of them, or, for one person, write both groups in one cell."
            problems.add(line, "name", BadInputError(f"{row.name} stands in line {before} already.", mend=mend))
        found.append(row)
    problems.raise_any()
    return tuple(found)


def _row(line: int, said: dict[str, str], problems: Problems) -> RosterRow | None:
    """Read one row; note each cell of it that can't be."""
    names: dict[str, str] = {}
    good = True
    for column in ("name", "place"):
        try:
            names[column] = parse_name(
                said.get(column, ""), "member" if column == "name" else "place", needed=column == "name"
            )
        except BadInputError as err:
            problems.add(
                line,
                column,
                BadInputError(err.what, mend=err.mend.replace("which member it was", "the name of the member")),
            )
            good = False
    unit = _unit_of(said["unit"]) if said.get("unit") else None
    if said.get("unit") and unit is None:
        problems.add(
            line, "unit", BadInputError(f"{shown(said['unit'])} is no unit.", mend="Write kg or lb, or nothing.")
        )
        good = False
    groups: list[str] = []
    try:
        groups = [parse_name(part, "group") for part in _PARTS.split(said.get("group", "")) if part.strip()]
    except BadInputError as err:
        problems.add(line, "group", err)
        good = False
    return RosterRow(line, names["name"], unit, names["place"], tuple(dict.fromkeys(groups))) if good else None
