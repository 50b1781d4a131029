"""Any table as text cells: a CSV with commas, semicolons or tabs in UTF-8 or UTF-16, or a sheet of an xlsx workbook.

What separates cells is found by trying which sign gives rows of equal length. A table begins at its first row with
three filled cells; a title above it is passed over. Without a heading the columns are numbered.
"""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from tracker.errors import BadInputError
from tracker.exchange.cells import shown
from tracker.exchange.csv_text import decoded
from tracker.exchange.problems import BadFileError, Problem
from tracker.exchange.workbook import MOST_COLUMNS, MOST_ROWS, sheets_of

MOST_BYTES = 64 * 1024**2  # of a file that comes through a page
SEPARATORS = {",": "commas", ";": "semicolons", "\t": "tabs"}
LEAST_FILLED = 3  # cells of a row that can begin a table: a date, a lift, a load
TRIED = 200  # rows from which the separator is found
OLD_WORKBOOK = b"\xd0\xcf\x11\xe0"  # compound file: xls, or a workbook with a password
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
        sheet: Which sheet of a workbook; without it the one with the most rows.

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


def _csv_rows(text: str, separator: str, name: str) -> list[tuple[int, list[str]]]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    rows: list[tuple[int, list[str]]] = []
    line = 1
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return rows
        except csv.Error as err:
            mend = "Put quotes around a whole cell, and write a quote within it twice."
            raise BadFileError(name, (Problem(line, "", f"The row can't be split: {err}.", mend),)) from err
        rows.append((line, cells))
        line = reader.line_num + 1


def _of_workbook(content: bytes, name: str, sheet: str) -> Table:
    sheets = sheets_of(content, name)
    if sheet and sheet not in sheets:
        raise BadInputError(
            f"There is no sheet {shown(sheet)}.", where=name, mend=f"Choose one of {', '.join(sheets)}."
        )
    chosen = sheet or max(sheets, key=lambda each: sum(any(cells) for _, cells in sheets[each]))
    return _table(name, sheets[chosen], f"sheet {chosen}", (chosen, *(each for each in sheets if each != chosen)))


def _table(name: str, rows: Iterable[tuple[int, list[str]]], how: str, sheets: tuple[str, ...] = ()) -> Table:
    filled = [(line, [cell.strip() for cell in cells]) for line, cells in rows if any(cell.strip() for cell in cells)]
    start = next((at for at, (_, cells) in enumerate(filled) if sum(map(bool, cells)) >= LEAST_FILLED), None)
    if start is None:
        mend = "Bring a CSV or xlsx with a row for each set: day, lift, load, repetitions."
        raise BadInputError("There is no table of sets in the file.", where=f"{name}, line 1", mend=mend)
    filled = filled[start:]
    if len(filled) > MOST_ROWS:
        raise BadInputError(f"The table has over {MOST_ROWS:,} rows.", where=name, mend="Bring it in parts.")
    first_line, first = filled[0]
    width = max(at + 1 for at, cell in enumerate(first) if cell)
    if any(_is_value(cell) for cell in first):  # no heading
        heading = tuple("" for _ in range(width))
    else:
        heading, filled = tuple(" ".join(cell.split()) for cell in first[:width]), filled[1:]
    if width > MOST_COLUMNS:
        raise BadInputError(
            f"The table has {width} columns.", where=f"{name}, line {first_line}", mend="Leave those that no set needs."
        )
    return Table(name, heading, tuple(_of_width(filled, width, name)), how, sheets)


def _of_width(rows: list[tuple[int, list[str]]], width: int, name: str) -> list[tuple[int, tuple[str, ...]]]:
    problems = [
        Problem(line, f"column {width + 1}", f"The row has {len(cells)} cells, the heading has {width}.", "Write quotes around a cell that holds a separator.")
        for line, cells in rows
        if any(cells[width:])
    ]  # fmt: skip
    if problems:
        raise BadFileError(name, tuple(problems[:20]), more=len(problems) > 20)
    return [(line, tuple(cells[:width]) + ("",) * (width - len(cells))) for line, cells in rows]


def _is_value(cell: str) -> bool:
    return bool(cell) and _VALUE.fullmatch(cell) is not None
