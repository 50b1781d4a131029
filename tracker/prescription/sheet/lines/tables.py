"""Lines of a sheet, tables opened: each cell of a row becomes a line of its own, below the day of its row."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.days.headings import day_heading
from tracker.prescription.sheet.days.sections import section_heading
from tracker.prescription.sheet.lines.as_meant import as_meant, days_by_number
from tracker.prescription.sheet.lines.chat import without_stamps
from tracker.prescription.sheet.lines.columns import (
    WARM_UP,
    Columns,
    columns_of,
    day_alone,
    head_of_piece,
    is_rule,
    movement_of,
    row_of,
    week_rows,
)
from tracker.prescription.sheet.lines.forms import filled_in
from tracker.prescription.sheet.lines.levels import levels_apart
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.lines.option_table import OptionColumns, option_columns
from tracker.prescription.sheet.lines.rests import rests_below, said_plainly
from tracker.prescription.sheet.lines.rows_of_sets import lettered_sets, rows_without_heading, sets_of_several
from tracker.prescription.sheet.lines.same_days import same_days
from tracker.prescription.sheet.lines.short_days import (
    dated_sets,
    weekdays_by_letters,
    weekdays_of_a_letter,
    weekdays_of_two_letters,
    weeks_in_rows,
    weeks_of_labels,
)
from tracker.prescription.sheet.lines.stacked import stacked
from tracker.prescription.sheet.lines.timetable import timetable_of
from tracker.prescription.sheet.lines.told_beside import told_beside
from tracker.prescription.sheet.lines.told_short import (
    days_of_the_month,
    lift_below_weeks,
    parts_of_a_run,
    rows_of_counts,
    told_short,
)
from tracker.prescription.sheet.lines.windows import apart
from tracker.prescription.sheet.lines.written_out import lines_written_out, uncrossed, written_out
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.words.letters import MOST_IN_LINE, clean
from tracker.prescription.sheet.words.plain_words import plain
from tracker.prescription.sheet.words.slips import mended, starred

_RULE = re.compile(r"^[\s|+:=-]*[-=]{3,}[\s|+:=-]*$")
_GAP = re.compile(r"\s{3,}")
_KEY = re.compile(r"\s*(?:title|date|notes?|piece|warm-?up|cool-?down)\s*:", re.IGNORECASE)
_TAB = re.compile(r"\t+")


_DASHED = re.compile(r"^\s*-\s*(\S.*\S)\s*-\s*$")
_QUOTED = re.compile(r"^(?P<a>[^\"]*,)\"(?P<b>[^\"]*)\"(?P<c>(?:,[^\"]*)?)$")
_ARROW = re.compile(r"^(?P<a>\W*\d+ ?(?:m|cal|k)? ?[a-z][a-z -]+?) ?(?:→|->|=>|>) ?(?=\d)", re.IGNORECASE)


_LISTED = re.compile(r"^\s*(?P<n>\d{1,2})\s{2,}(?=[A-Za-z])")
_AT_LAST = re.compile(r"\b(cap) \d{1,2}\? let'?s say (?=\d)", re.IGNORECASE)


def _listed(lines: list[Line]) -> list[Line]:
    """`1  Ankle hops 3 x 20`, `2  Step-up ...`: the numbers of a list, which count up from 1, are no repetitions."""
    found = [(place, match) for place, line in enumerate(lines) if (match := _LISTED.match(line.text))]
    if len(found) < 3 or [int(match["n"]) for _, match in found] != list(range(1, len(found) + 1)):
        return lines
    made = list(lines)
    for place, match in found:
        made[place] = replace(made[place], text=f"{match['n']}. {made[place].text[match.end() :]}")
    return made


def _unquoted(text: str) -> str:
    """A row of values parted by commas without the quotes of one of them."""
    return f"{found['a']} {found['b']}{found['c']}" if (found := _QUOTED.match(text)) else text


def _one_after_the_other(lines: list[Line]) -> list[Line]:
    """`500 m run → 25 m sled push` and the same before other stations: the arrow says what follows, no other way of it."""
    found = [(place, match) for place, line in enumerate(lines) if (match := _ARROW.match(line.text))]
    if len(found) < 2 or len({match["a"].strip().lower() for _, match in found}) != 1:
        return lines
    made = list(lines)
    for place, match in found:
        made[place] = replace(made[place], text=f"{match['a']}, {made[place].text[match.end() :]}")
    return made


_BLOCK_OF = re.compile(
    r"^\W*(?:block|part|station|teil|bloque|bloc) ?#?(?:\d|[a-h])\s*\(\d{1,2} ?(?:min(?:ute)?s?|')\)\W+(?=[^\W\d_][^\d]+$)",
    re.IGNORECASE,
)


def _blocks_of_lifts(lines: list[Line]) -> list[Line]:
    """`Block 1 (12 min) - trap bar DL` above sets: how long that part of the hour is, no cap of a piece."""
    return [
        replace(line, text=_BLOCK_OF.sub("", line.text)) if re.search(r"\d ?[x×] ?\d", below.text) else line
        for line, below in pairwise([*lines, Line(0, "", "")])
    ]


# So many sets one after the other, told by their numbers: "1-2 @ 65 %, 3-5 @ 72 %, 6-8 @ 78 %"
_SETS_IN_A_ROW = re.compile(
    r"^1(?: ?[-–] ?\d)? ?(?:@|at|à|a|bei|:) ?\d{2}(?:[.,]\d)? ?%?[,;/] ?\d{1,2}(?: ?[-–] ?\d{1,2})? ?(?:@|at|à|a|bei|:) ?\d{2}(?:[.,]\d)? ?%"
)


def lines_of(text: str, asker: Asker) -> list[Line]:
    """Part a sheet into lines; a table's rows into cells, with a blank line between them."""
    rows = re.split(r"\r\n|\r|\n", text.removeprefix("\ufeff"))
    messages, of_others = without_stamps(rows)
    texts = days_by_number(
        [
            told_short(written_out(as_meant(said_plainly(mended(clean(uncrossed(row[:MOST_IN_LINE])))))))
            for row in messages
        ]
    )
    typed = [
        Line(number, row, clean(row) if number - 1 in of_others else text, words=number - 1 in of_others)
        for number, (row, text) in enumerate(zip(rows, texts, strict=True), 1)
    ]
    typed = stacked(filled_in(typed))
    for line, below in pairwise(typed):
        listed = line.raw.lstrip().startswith("*")  # a list with stars for bullets
        if not listed and (right := starred(below.raw, line.text)) is not None:
            typed[line.number - 1] = replace(line, text=right)
            typed[below.number - 1] = replace(below, text="put right above")  # the star's line itself stays words
    typed = [replace(line, text=part) for line in lines_written_out(typed, asker) for part in apart(line.text)]
    framed = [line for line in typed if _DASHED.match(line.text)]
    if len(framed) > 2:  # "-sumo DL 6x3-", "-engine-"
        typed = [replace(line, text=_DASHED.sub(r"\1", line.text)) for line in typed]
    typed = _listed(
        _one_after_the_other([replace(line, text=_AT_LAST.sub(r"\1 ", _unquoted(line.text))) for line in typed])
    )
    plain = weekdays_of_a_letter(days_of_the_month(lift_below_weeks(parts_of_a_run(rows_of_counts(typed)))))
    plain = weekdays_by_letters(weekdays_of_two_letters(plain))
    plain = [
        replace(line, text=f"sets {line.text.strip()}") if _SETS_IN_A_ROW.match(line.text.strip()) else line
        for line in plain
    ]
    plain = rests_below(plain)
    plain = dated_sets(weeks_of_labels(weeks_in_rows(plain)))
    plain = same_days(plain)
    plain = sets_of_several(rows_without_heading(lettered_sets(plain)))
    plain = told_beside(levels_apart(_blocks_of_lifts(plain), asker), asker)
    hours = timetable_of([(line.number, line.text) for line in plain])
    plain = [replace(line, text=hours[line.number]) if hours.get(line.number) else line for line in plain]
    found: list[Line] = []
    place = 0
    while place < len(plain):
        if plain[place].words:
            found.append(plain[place])
            place += 1
            continue
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


def _titled(columns: Columns, lines: list[Line], place: int) -> tuple[list[Line], int] | None:
    """The lines of a table with titles, and where it ends; None where no row follows the titles."""
    head = [Line(lines[place].number, lines[place].raw, "", head=True)]
    rows: list[Line] = []
    at = place + 1
    while at < len(lines) and (lines[at].raw.strip() or _empty_row(columns, lines, at)):
        if is_rule(lines[at].raw) or not lines[at].raw.strip():
            head.append(Line(lines[at].number, lines[at].raw, "", head=True))
        elif day_alone(columns, lines[at].raw, clean) is not None:
            rows.append(lines[at])
        elif row_of(columns, lines[at].raw, clean) is None and not (
            columns.weeks and len(columns.cells(lines[at].raw)) > 1
        ):
            break
        else:
            rows.append(lines[at])
        at += 1
    if not any(row_of(columns, row.raw, clean) for row in rows):
        return None
    columns = columns.of_rows([row.raw for row in rows])
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
    part: str | None = None  # the label of the piece whose movements follow
    for line in rows:
        if (told_day := day_alone(columns, line.raw, clean)) is not None:
            found.append(Line(line.number, line.raw, told_day, cell=True, day=True))
            day, name, part = told_day, "", None
            continue
        row = row_of(columns, line.raw, clean)
        assert row is not None
        if row.day and row.day != day:
            found.append(Line(line.number, line.raw, row.day, cell=True, day=True))
            day, name, part = row.day, "", None
        if (head := head_of_piece(row)) is not None:
            found += [Line(line.number, line.raw, "", cell=True), Line(line.number, line.raw, head, cell=True)]
            part, name = row.label, ""
            continue
        if part is not None and row.label in (part, ""):
            found.append(Line(line.number, line.raw, movement_of(columns, line.raw, clean), cell=True))
            continue
        part = None
        if WARM_UP.fullmatch(row.label):
            text = " ".join(each for each in ("Warm-up:", row.name, row.sets) if each)
            found += [Line(line.number, line.raw, "", cell=True), Line(line.number, line.raw, text, cell=True)]
            name = ""
            continue
        if name and not row.sets and not row.label and _BESIDE.match(row.name):
            told = _TESTED_IN.sub("", _BESIDE_KEY.sub("", row.name))  # what the percentages above are of
            found.append(Line(line.number, line.raw, told, cell=True))
            continue
        if name and row.name.lower() == name and row.sets:  # more sets of the lift above
            found.append(Line(line.number, line.raw, row.sets, cell=True))
            continue
        if not row.name:  # the sets of the lift above the table
            found.append(Line(line.number, line.raw, row.sets, cell=True))
            continue
        found += [Line(line.number, line.raw, "", cell=True), Line(line.number, line.raw, row.line, cell=True)]
        found += [Line(line.number, line.raw, f"{title}: {told}", cell=True, words=True) for title, told in row.ways]
        if row.more:
            found += [Line(line.number, line.raw, "", cell=True), Line(line.number, line.raw, row.more, cell=True)]
        name = row.name.lower()
    found.append(Line(rows[-1].number, rows[-1].raw, "", cell=True))
    return found, at


_BESIDE_KEY = re.compile(r"^\W*(?:note|nb|remark)\W*", re.IGNORECASE)
_TESTED_IN = re.compile(r"\s*\([^()]*\)\s*$")  # "% of 3RM (wk 0)"
_BESIDE = re.compile(r"\W*(?:note|nb|remark)?\W*(?:%|per ?cent|percentages?|rest)", re.IGNORECASE)


def _empty_row(columns: Columns, lines: list[Line], at: int) -> bool:
    """Whether a line is a row of a table with nothing in its cells, and the table goes on below it."""
    below = lines[at + 1].raw if at + 1 < len(lines) else ""
    return bool(lines[at].raw) and "\t" in below and row_of(columns, below, clean) is not None


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
# A load alone: what the sets before it are done with
_LOAD_CELL = re.compile(r"\s*@? ?\d{1,3}(?:[.,]\d{1,2})? ?(?:kg|lbs?|%)\s*", re.IGNORECASE)
_NAME_CELL = re.compile(r"[^\W\d_][^\W\d_ -]*(?:[ -][^\W\d_]+){0,3}")
_LONG_CELL = re.compile(r"\s*\d{1,2} ?[x×*] ?\d{1,4} ?(?:s|secs?|m|min|cals?|'|\")(?!\w)", re.IGNORECASE)
_LENGTH_CELL = re.compile(r"\d{1,2}:[0-5]\d|\d{1,3} ?(?:s|sec|min|mins|'|\")\.?", re.IGNORECASE)


def _way_of(cells: list[str], rest: list[str], at: int, lines: list[Line], place: int) -> str:
    """The title of a cell's column in a table with strokes, where it says for whom it is: "Home", "Scaled"; else nothing."""
    top = place
    while top and "|" in lines[top - 1].text:
        top -= 1
    if top == place or "|" not in lines[place].text:
        return ""
    titles = [title.strip(" *_") for title in lines[top].text.strip().strip("|").split("|")]
    column = at + len(cells) - len(rest)
    return titles[column] if column < len(titles) and _WAYS.fullmatch(titles[column]) else ""


_WAYS = re.compile(r"(?:at )?home|scaled|scaling|beginners?|easier|zu ?hause|casa|maison", re.IGNORECASE)


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
        if (way := _way_of(cells, rest, at, lines, place)) and typed.strip(" -–.") and not section_heading(typed):
            found += [blank, Line(line.number, line.raw, f"{way}: {typed}", cell=True)]
            continue
        cell = f"rest {typed.strip()}" if 0 <= counted < at and _LENGTH_CELL.fullmatch(typed.strip()) else typed
        if cell.strip(" -–.") and cell.strip().lower() not in ("rest", "off", "-", "pause", "x"):
            if found and not found[-1].day and _NAME_CELL.fullmatch(found[-1].text.strip()) and _LONG_CELL.match(cell):
                found[-1] = replace(found[-1], text=f"{found[-1].text} {cell}")  # "Plank | 3 x 45 s"
                continue
            if (
                found
                and counted >= 0
                and at > counted
                and (_REST_CELL.match(cell) or (_LOAD_CELL.fullmatch(cell) and _SETS_CELL.search(found[-1].text)))
            ):  # it belongs to the sets before it
                found[-1] = replace(found[-1], text=f"{found[-1].text}, {cell}")
                continue
            found += [blank, Line(line.number, line.raw, cell, cell=True)]
    return found or [Line(line.number, line.raw, "", head=True)]
