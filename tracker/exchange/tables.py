"""Any table as text cells: a CSV with commas, semicolons or tabs in UTF-8 or UTF-16, or a sheet of an xlsx workbook.

What separates cells is found by trying which sign gives rows of equal length. A table begins at its first row with
three filled cells; a title above it is passed over. Without a heading the columns are numbered.

What a table may cost is limited before it is held: bytes of the file, rows, cells of the rectangle, letters.
"""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import chain

from tracker.errors import BadInputError
from tracker.exchange.csv_text import decoded, split_rows
from tracker.exchange.problems import MOST_TOLD, BadFileError, Problem
from tracker.exchange.workbook import MOST_CELL, MOST_COLUMNS, MOST_TEXT, read_sheet
from tracker.wording import counted

MOST_BYTES = 16 * 1024**2  # a million cells of a set have about ten
MOST_ROWS = 200_000
MOST_CELLS = 1_000_000  # filled or not: ten years of a member are some 50,000 rows of up to twenty
KEPT_ONCE = 50_000  # different texts that are kept once however often they come
SEPARATORS = {",": "commas", ";": "semicolons", "\t": "tabs"}
LEAST_FILLED = 3  # cells of a row that can begin a table: a date, a lift, a load
TRIED = 200  # rows from which the separator is found
OLD_WORKBOOK = b"\xd0\xcf\x11\xe0"  # compound file: xls, or a workbook with a password
MOST_VALUE = 40  # letters of a number or a date; a longer text is neither
_LINE = re.compile(r"[^\r\n]*(?:\r\n?|\n)|[^\r\n]+")
_VALUE = re.compile(r"[\s\d.,:/+-]*\d[\s\d.,:/+-]*(kgs?|lbs?)?\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Table:
    """A heading and rows of equally many text cells, each with the line of the file it stands on."""

    name: str
    heading: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    how: str  # for the person: "semicolons, UTF-16", "sheet Log"
    sheets: tuple[str, ...] = ()  # of a workbook, the one that was read first

    def column(self, at: int) -> list[str]:
        return [cells[at] for _, cells in self.rows]

    def place(self, at: int) -> str:
        """Name a column for a person."""
        return f"column {at + 1} ({self.heading[at]})" if self.heading[at] else f"column {at + 1}"


def read_table(content: bytes, name: str, *, sheet: str = "") -> Table:
    """Read a file that somebody brings.

    Args:
        content: The file.
        name: Its name, for the messages.
        sheet: Which sheet of a workbook; without it the largest.

    Raises:
        BadInputError: if it is no table, too large, damaged, or in another encoding.
    """
    if len(content) > MOST_BYTES:
        what = f"The file has {len(content) / 1024**2:,.0f} MB."
        raise BadInputError(what, where=name, mend=f"A file of sets has at most {MOST_BYTES // 1024**2} MB.")
    if content.startswith(OLD_WORKBOOK):
        what = "This is an old workbook (xls), or one with a password."
        raise BadInputError(what, where=name, mend="Save it as xlsx without a password, or as CSV.")
    if content.startswith(b"PK"):
        return _of_workbook(content, name, sheet)
    text, encoding = _text(content, name)
    separator = _separator(text)
    rows = _csv_rows(text, separator, name)
    return _table(name, rows, f"{SEPARATORS[separator]}, {encoding}")


def _text(content: bytes, name: str) -> tuple[str, str]:
    if content.startswith((b"\xff\xfe\x00\x00", b"\x00\x00\xfe\xff")):
        return decoded(content, name), "UTF-8"  # UTF-32 is refused there
    big = content.startswith(b"\xfe\xff") or (content[:1] == b"\x00" and content[1:2] != b"\x00")
    little = content.startswith(b"\xff\xfe") or (content[1:2] == b"\x00" and content[:1] != b"\x00")
    if not (big or little):
        return decoded(content, name), "UTF-8"
    try:
        text = content.decode("utf-16-be" if big else "utf-16-le").removeprefix("\ufeff")
    except UnicodeDecodeError as err:
        line = content.count(b"\n", 0, err.start) + 1
        what = "The file begins as UTF-16 and can't be read to its end as such."
        raise BadInputError(what, where=f"{name}, line {line}", mend="Save it again as CSV in UTF-8.") from err
    return decoded(text.encode("utf-8", "surrogatepass"), name), "UTF-16"


def _separator(text: str) -> str:
    """Return the sign that parts the first rows into the most rows of one length, of two cells and more."""
    sample = text[:100_000]

    def fit(sign: str) -> tuple[float, int]:
        try:
            lengths = Counter(
                len(row)
                for row, _ in zip(
                    csv.reader(io.StringIO(sample, newline=""), delimiter=sign), range(TRIED), strict=False
                )
                if row
            )
        except csv.Error:
            return 0, 0
        length, times = max(lengths.items(), key=lambda each: (each[0] > 1, each[1]), default=(1, 0))
        return (times / max(1, lengths.total()) if length > 1 else 0), length

    return max(SEPARATORS, key=fit)


def _csv_rows(text: str, separator: str, name: str) -> Iterator[tuple[int, list[str]]]:
    lines = (found[0] for found in _LINE.finditer(text))  # a StringIO would hold it all again, at four bytes a letter
    return split_rows(lines, name, separator)


def _of_workbook(content: bytes, name: str, wanted: str) -> Table:
    sheet = read_sheet(content, name, wanted)
    table = _table(name, sheet.rows, f"sheet {sheet.name}", (sheet.name, *sheet.others))
    if sheet.ended is None:
        return table
    return replace(table, how=f"{table.how}, up to line {sheet.ended:,}: what stands far below is not read")


def _table(name: str, rows: Iterable[tuple[int, list[str]]], how: str, sheets: tuple[str, ...] = ()) -> Table:
    filled = _filled(rows, name)
    first_line, first = next(((at, cells) for at, cells in filled if sum(map(bool, cells)) >= LEAST_FILLED), (0, []))
    if not first:
        mend = "Choose a CSV or xlsx with a row for each set: day, lift, load, repetitions."
        raise BadInputError("There is no table of sets in the file.", where=f"{name}, line 1", mend=mend)
    width = len(first)
    if any(_is_value(cell) for cell in first):  # no heading
        heading, rest = tuple("" for _ in range(width)), chain([(first_line, first)], filled)
    else:
        heading, rest = tuple(" ".join(cell.split()) for cell in first), filled
    return Table(name, heading, tuple(_of_width(rest, width, name)), how, sheets)


def _filled(rows: Iterable[tuple[int, list[str]]], name: str) -> Iterator[tuple[int, list[str]]]:
    """Yield the rows that hold something, without surplus space and without the empty cells at their end."""
    letters = 0
    kept: dict[str, str] = {}
    for line, cells in rows:
        while cells and not cells[-1].strip():
            cells.pop()
        if len(cells) > MOST_COLUMNS:
            what = f"A cell stands beyond column {MOST_COLUMNS}."
            raise BadInputError(what, where=f"{name}, line {line}", mend="Leave those that no set needs.")
        if not cells:
            continue
        found = [kept.get(cell) or kept.setdefault(cell, cell.strip()) for cell in cells]
        if len(kept) > KEPT_ONCE:
            kept.clear()
        letters += sum(map(len, found))
        if letters > MOST_TEXT:
            raise BadInputError(f"The table holds over {MOST_TEXT:,} letters.", where=name, mend="Import it in parts.")
        for at, cell in enumerate(found):
            if len(cell) > MOST_CELL:
                what, mend = f"The cell has {len(cell):,} letters.", f"Use at most {MOST_CELL:,}."
                raise BadFileError(name, (Problem(line, f"column {at + 1}", what, mend),))
        yield line, found


def _of_width(rows: Iterable[tuple[int, list[str]]], width: int, name: str) -> Iterator[tuple[int, tuple[str, ...]]]:
    problems: list[Problem] = []
    for number, (line, cells) in enumerate(rows, 1):
        if number > MOST_ROWS:
            raise BadInputError(f"The table has over {MOST_ROWS:,} rows.", where=name, mend="Import it in parts.")
        if number * width > MOST_CELLS:
            what = f"The table has over {MOST_CELLS:,} cells, in {counted(width, 'column')}."
            raise BadInputError(what, where=name, mend="Leave the columns that no set needs, or import it in parts.")
        if len(cells) > width:
            if len(problems) >= MOST_TOLD:
                raise BadFileError(name, tuple(problems), more=True)
            what = f"The row has {len(cells)} cells, the heading has {width}."
            mend = "Write quotes around a cell that holds a separator."
            problems.append(Problem(line, f"column {width + 1}", what, mend))
        elif not problems:
            yield line, (*cells, *[""] * (width - len(cells)))
    if problems:
        raise BadFileError(name, tuple(problems))


def _is_value(cell: str) -> bool:
    return 0 < len(cell) <= MOST_VALUE and _VALUE.fullmatch(cell) is not None
