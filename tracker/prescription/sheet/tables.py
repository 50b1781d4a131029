"""Lines of a sheet, tables opened: each cell of a row becomes a line of its own, below the day of its row."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise

from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.columns import Columns, columns_of, is_rule, row_of, week_rows
from tracker.prescription.sheet.headings import day_heading
from tracker.prescription.sheet.letters import MOST_IN_LINE, clean
from tracker.prescription.sheet.option_table import OptionColumns, option_columns
from tracker.prescription.sheet.plain_words import plain
from tracker.prescription.sheet.sections import section_heading
from tracker.prescription.sheet.slips import mended, starred
from tracker.prescription.sheet.timetable import timetable_of
from tracker.prescription.sheet.tokens import tokens_of

_RULE = re.compile(r"^[\s|+:=-]*[-=]{3,}[\s|+:=-]*$")
_GAP = re.compile(r"\s{3,}")
_KEY = re.compile(r"\s*(?:title|date|notes?|piece|warm-?up|cool-?down)\s*:", re.IGNORECASE)
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
    typed = [Line(number, row, mended(clean(row[:MOST_IN_LINE]))) for number, row in enumerate(rows, 1)]
    for line, below in pairwise(typed):
        listed = line.raw.lstrip().startswith("*")  # a list with stars for bullets
        if not listed and (right := starred(below.raw, line.text)) is not None:
            typed[line.number - 1] = replace(line, text=right)
            typed[below.number - 1] = replace(below, text="put right above")  # the star's line itself stays words
    plain = _weekdays_of_a_letter(typed)
    plain = _weekdays_of_two_letters(plain)
    hours = timetable_of([(line.number, line.text) for line in plain])
    plain = [replace(line, text=hours[line.number]) if hours.get(line.number) else line for line in plain]
    found: list[Line] = []
    place = 0
    while place < len(plain):
        columns = columns_of(plain[place].raw)
        if columns is not None and (made := _titled(columns, plain, place)):
            lines, place = made
            found += lines
            continue
        ways = option_columns(plain[place].raw)
        if ways is not None and (made := _with_ways(ways, plain, place)):
            lines, place = made
            found += lines
            continue
        found += _opened(plain[place], plain, place)
        place += 1
    return found


def _with_ways(ways: OptionColumns, lines: list[Line], place: int) -> tuple[list[Line], int] | None:
    """The lines of a table with a column for each way of doing a piece, and where it ends; None where no row follows."""
    found = [Line(lines[place].number, lines[place].raw, "", head=True)]
    at = place + 1
    while at < len(lines) and lines[at].raw.strip():
        line = lines[at]
        if is_rule(line.raw):
            found.append(Line(line.number, line.raw, "", head=True))
        elif told := ways.line(line.raw):
            found.append(Line(line.number, line.raw, clean(told), cell=True))
        else:
            break
        at += 1
    return (found, at) if any(line.cell for line in found) else None


_LETTER_DAY = re.compile(r"\s*(?P<l>[LMXJVSD])\s*:\s+(?=\S)")
_LETTER_DAYS = {
    "L": "Lunes",
    "M": "Martes",
    "X": "Miércoles",
    "J": "Jueves",
    "V": "Viernes",
    "S": "Sábado",
    "D": "Domingo",
}


def _weekdays_of_a_letter(lines: list[Line]) -> list[Line]:
    """`L:`, `X:`, `V:` in one text are days of a Spanish week, where they come in its order and one of them is no other label."""
    found = [(place, match["l"]) for place, line in enumerate(lines) if (match := _LETTER_DAY.match(line.text))]
    letters = [letter for _, letter in found]
    places = [list(_LETTER_DAYS).index(letter) for letter in letters]
    if len(letters) < 2 or places != sorted(set(places)) or not {"X", "J", "V"} & set(letters):
        return lines
    made = list(lines)
    for place, letter in found:
        text = _LETTER_DAY.sub(f"{_LETTER_DAYS[letter]}: ", made[place].text, count=1)
        made[place] = replace(made[place], text=text)
    return made


_WEEKS_OF_TWO = (
    ("MO", "DI", "MI", "DO", "FR", "SA", "SO"),
    ("LU", "MA", "MI", "JU", "VI", "SA", "DO"),
    ("LU", "MA", "ME", "JE", "VE", "SA", "DI"),
)
_TWO_LETTERS = re.compile(r"\s*(?P<l>[A-Z]{2})(?: +|\s*[:.-]+ +)(?=[^\W\d_]{3,})")
_IN_FULL = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def _weekdays_of_two_letters(lines: list[Line]) -> list[Line]:
    """`MO Kniebeuge ...`, `DI Bankdrücken ...`: three lines or more that begin with the days of a week in its order."""
    found = [(place, match) for place, line in enumerate(lines) if (match := _TWO_LETTERS.match(line.text))]
    for week in _WEEKS_OF_TWO:
        mine = [(place, match) for place, match in found if match["l"] in week]
        days = [week.index(match["l"]) for _, match in mine]
        if len(days) < 3 or days != sorted(set(days)) or len(mine) != len(found):
            continue
        made = list(lines)
        for (place, match), day in zip(mine, days, strict=True):
            made[place] = replace(made[place], text=f"{_IN_FULL[day]}: {made[place].text[match.end() :]}")
        return made
    return lines


def _titled(columns: Columns, lines: list[Line], place: int) -> tuple[list[Line], int] | None:
    """The lines of a table with titles, and where it ends; None where no row follows the titles."""
    head = [Line(lines[place].number, lines[place].raw, "", head=True)]
    rows: list[Line] = []
    at = place + 1
    while at < len(lines) and lines[at].raw.strip():
        if is_rule(lines[at].raw):
            head.append(Line(lines[at].number, lines[at].raw, "", head=True))
        elif row_of(columns, lines[at].raw, clean) is None and not (
            columns.weeks and len(columns.cells(lines[at].raw)) > 1
        ):
            break
        else:
            rows.append(lines[at])
        at += 1
    if not rows:
        return None
    found = list(head)
    if _is_day(columns.titles[0]):
        found.append(Line(lines[place].number, lines[place].raw, columns.titles[0], cell=True, day=True))
    if columns.weeks:
        for number, cells in week_rows(
            columns, [(row, lines[row].raw) for row in range(place + 1, at) if not is_rule(lines[row].raw)], clean
        ):
            week = f"Week {number}"
            found.append(Line(lines[place].number, lines[place].raw, week, cell=True, day=True))
            for row, text in cells:
                found += [
                    Line(lines[row].number, lines[row].raw, "", cell=True),
                    Line(lines[row].number, lines[row].raw, text, cell=True),
                ]
        return found, at
    day = name = ""
    for line in rows:
        row = row_of(columns, line.raw, clean)
        assert row is not None
        if row.day and row.day != day:
            found.append(Line(line.number, line.raw, row.day, cell=True, day=True))
            day, name = row.day, ""
        if name and row.name.lower() == name and row.sets:  # more sets of the lift above
            found.append(Line(line.number, line.raw, row.sets, cell=True))
            continue
        if not row.name:  # the sets of the lift above the table
            found.append(Line(line.number, line.raw, row.sets, cell=True))
            continue
        found += [Line(line.number, line.raw, "", cell=True), Line(line.number, line.raw, row.line, cell=True)]
        name = row.name.lower()
    found.append(Line(rows[-1].number, rows[-1].raw, "", cell=True))
    return found, at


def _opened(line: Line, lines: list[Line], place: int) -> list[Line]:
    text = line.text
    if _KEY.match(text):
        return [line]
    if text.count("|") + text.count("+") >= 1 and _RULE.match(text) and ("|" in text or "+" in text):
        return [Line(line.number, line.raw, "", head=True)]
    if "|" in text and _in_pipes(lines, place):
        cells = [cell.strip() for cell in text.strip().strip("|").split("|")]
        near = [lines[at].text for at in (place - 1, place + 1) if 0 <= at < len(lines)]
        if any(_LENGTH_CELL.fullmatch(cell) for cell in cells[1:]) and not any("|" in each for each in near):
            return [
                replace(line, text=", ".join(cell for cell in cells if cell))
            ]  # one piece, its parts between strokes
        return _row(line, cells, lines, place)
    columns = [
        cell.strip()
        for cell in (_TAB.split(line.raw.strip()) if "\t" in line.raw.strip() else _GAP.split(text.strip()))
    ]
    if len(columns) >= 2 and _is_day(columns[0]):
        cells = _joined([clean(cell) for cell in columns])
        named = any(
            token.kind == "name" or token.kind in ("amrap", "emom", "rft", "fortime")
            for cell in cells[1:]
            for token in tokens_of(plain(cell))
        )
        if not named:
            return [Line(line.number, line.raw, " ".join(cells))]
        return _row(line, cells, lines, place)
    if days := _DAYS_IN_LINE.findall(text):
        parts = [part.strip(" ,;") for part in _DAY_SPLIT.split(text) if part.strip(" ,;.")]
        if len(days) >= 2 and len(parts) >= len(days):
            return [each for part in parts for each in _one_day(line, part)]
    if (
        len(columns) >= 2
        and place + 1 < len(lines)
        and _is_day((_GAP.split(lines[place + 1].text.strip()) or [""])[0])
        and not any(map(str.isdigit, text))
    ):
        return [Line(line.number, line.raw, "", head=True)]
    return [line]


_NAMED = re.compile(r"[^\W\d_]{3,}|\b(?:DL|BS|FS|BP|OHS|C&J|DU|T2B)\b")
_WORD_DAY = r"(?:[Mm]on|[Tt]ues?|[Ww]ed|[Tt]hu|[Tt]hurs?|[Ff]ri|[Ss]at|[Ss]un|MON|TUE|WED|THU|FRI|SAT|SUN|Mo|Di|Mi|Do|Fr|Sa|So)(?:day|nesday|urday|sday|rsday)?"
_DAYS_IN_LINE = re.compile(rf"(?:^|[,;.:]\s+|\bOR\s+|\bor\s+)(?={_WORD_DAY}\b:?\s+\S+[^,;]*\d)")
_DAY_SPLIT = re.compile(rf"(?:^|[,;.:]\s+)(?={_WORD_DAY}\b:?\s+\S)")


def _joined(cells: list[str]) -> list[str]:
    """Put columns without a name of their own to the one before: `Squat      5 x 5    72 %`."""
    found = cells[:2]
    for cell in cells[2:]:
        if _NAMED.search(cell) and _NAMED.search(found[-1]):
            found.append(cell)
        else:
            found[-1] = f"{found[-1]} {cell}"
    return found


def _one_day(line: Line, part: str) -> list[Line]:
    found = re.match(rf"({_WORD_DAY})\b:?\s+(.+)", part)
    if found is None or not _is_day(found[1]):
        return [Line(line.number, line.raw, part)]
    blank = Line(line.number, line.raw, "", cell=True)
    return [
        Line(line.number, line.raw, found[1], cell=True, day=True),
        blank,
        Line(line.number, line.raw, found[2], cell=True),
    ]


def _in_pipes(lines: list[Line], place: int) -> bool:
    """Whether a row stands in a table: neighbours have pipes too, or it has two of its own."""
    near = [lines[at] for at in (place - 1, place + 1) if 0 <= at < len(lines)]
    return lines[place].text.count("|") >= 2 or any("|" in each.text for each in near)


def _is_day(cell: str) -> bool:
    heading = day_heading(cell, Asker(), 0, loose=True)
    return heading is not None and not heading.rest


_SETS_CELL = re.compile(r"\d ?[x×*] ?\d")
_REST_CELL = re.compile(r"\s*(?:rest|pause|tempo)\b", re.IGNORECASE)
_LENGTH_CELL = re.compile(r"\d{1,2}:[0-5]\d|\d{1,3} ?(?:s|sec|min|mins|'|\")\.?", re.IGNORECASE)


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
    counted = next((place for place, cell in enumerate(rest) if _SETS_CELL.search(cell)), -1)
    for at, typed in enumerate(rest):
        cell = f"rest {typed.strip()}" if 0 <= counted < at and _LENGTH_CELL.fullmatch(typed.strip()) else typed
        if cell.strip(" -–.") and cell.strip().lower() not in ("rest", "off", "-", "pause", "x"):
            if found and counted >= 0 and at > counted and _REST_CELL.match(cell):  # it belongs to the sets before it
                found[-1] = replace(found[-1], text=f"{found[-1].text}, {cell}")
                continue
            found += [blank, Line(line.number, line.raw, cell, cell=True)]
    return found or [Line(line.number, line.raw, "", head=True)]
