"""Lines of a sheet, tables opened: each cell of a row becomes a line of its own, below the day of its row."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tracker.prescription.sheet.headings import day_heading, section_heading
from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.letters import MOST_IN_LINE, clean

_RULE = re.compile(r"^[\s|+:=-]*[-=]{3,}[\s|+:=-]*$")
_GAP = re.compile(r"\s{3,}")
_TAB = re.compile(r"\t+")


@dataclass(frozen=True, slots=True)
class Line:
    """One line to be read: its number, as typed, cleaned; `cell` is set for a part of a row, `day` for its first cell."""

    number: int
    raw: str
    text: str
    cell: bool = False
    day: bool = False
    head: bool = False  # a row of column titles, or a rule

    @property
    def blank(self) -> bool:
        return not self.text.strip()

    @property
    def indent(self) -> int:
        return len(self.text) - len(self.text.lstrip())


def lines_of(text: str) -> list[Line]:
    """Part a sheet into lines; a table's rows into cells, with a blank line between them."""
    rows = re.split(r"\r\n|\r|\n", text.removeprefix("\ufeff"))
    plain = [Line(number, row, clean(row[:MOST_IN_LINE])) for number, row in enumerate(rows, 1)]
    found: list[Line] = []
    for place, line in enumerate(plain):
        found += _opened(line, plain, place)
    return found


def _opened(line: Line, lines: list[Line], place: int) -> list[Line]:
    text = line.text
    if text.count("|") + text.count("+") >= 1 and _RULE.match(text) and ("|" in text or "+" in text):
        return [Line(line.number, line.raw, "", head=True)]
    if "|" in text and _in_pipes(lines, place):
        cells = [cell.strip() for cell in text.strip().strip("|").split("|")]
        return _row(line, cells, lines, place)
    columns = [cell.strip() for cell in (_TAB.split(line.raw.strip()) if "\t" in line.raw.strip() else _GAP.split(text.strip()))]
    if len(columns) >= 2 and _is_day(columns[0]):
        return _row(line, [clean(cell) for cell in columns], lines, place)
    if len(columns) >= 2 and place + 1 < len(lines) and _is_day((_GAP.split(lines[place + 1].text.strip()) or [""])[0]) and not any(map(str.isdigit, text)):
        return [Line(line.number, line.raw, "", head=True)]
    return [line]


def _in_pipes(lines: list[Line], place: int) -> bool:
    """Whether a row stands in a table: neighbours have pipes too, or it has two of its own."""
    near = [lines[at] for at in (place - 1, place + 1) if 0 <= at < len(lines)]
    return lines[place].text.count("|") >= 2 or any("|" in each.text for each in near)


def _is_day(cell: str) -> bool:
    heading = day_heading(cell, Asker(), 0, loose=True)
    return heading is not None and not heading.rest


def _row(line: Line, cells: list[str], lines: list[Line], place: int) -> list[Line]:
    first = cells[0].strip(" *_")
    ruled = place + 1 < len(lines) and _RULE.match(lines[place + 1].text) is not None and "|" in line.text
    if ruled or first.lower() in ("day", "tag", "día", "jour", "wann"):
        return [Line(line.number, line.raw, "", head=True)]
    found: list[Line] = []
    blank = Line(line.number, line.raw, "", cell=True)
    rest = cells
    if _is_day(first):
        found.append(Line(line.number, line.raw, first, cell=True, day=True))
        rest = cells[1:]
    elif section_heading(first + ":") and len(cells) == 2:
        return [blank, Line(line.number, line.raw, f"{first}: {cells[1]}", cell=True)]
    for cell in rest:
        if cell.strip(" -–.") and cell.strip().lower() not in ("rest", "off", "-", "pause", "x"):
            found += [blank, Line(line.number, line.raw, cell, cell=True)]
    return found or [Line(line.number, line.raw, "", head=True)]
