"""One sheet of an xlsx workbook as rows of text cells, as a CSV would have them.

The names of the sheets are read first and then one sheet, as a stream: what lies between two filled cells takes no room, so
that a cell in the last row of a sheet costs what a cell costs. A long gap ends the table, and that is said.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, time
from decimal import Decimal
from typing import Any

from tracker.errors import BadInputError
from tracker.exchange.cells import shown
from tracker.exchange.problems import BadFileError, Problem
from tracker.exchange.unpacked import Package, nothing, related
from tracker.progress import StoppedError, through

MOST_COLUMNS = 200
MOST_CELLS = 300_000  # of a sheet, up to the last that is filled in each row; a CSV costs less and may have more
MOST_TEXT = 16 * 1024**2  # letters of all cells
MOST_CELL = 4_000  # letters of one cell; a note has at most half
MOST_GAP = 1_000  # blank lines; what stands below is another table
MOST_SHEETS = 200
MOST_FORMATS = 65_000  # of cells, as many as the trade's programs write
CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]")
_ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")  # ECMA-376 part 1, 22.9.2.19: a letter that XML has no room for
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_COLUMNS = {
    name: at for at, name in enumerate([*_LETTERS, *(a + b for a in _LETTERS for b in _LETTERS)][:MOST_COLUMNS])
}

Row = tuple[int, list[str]]


@dataclass(slots=True)
class Sheet:
    """A sheet that is being read; `ended` is the last line before a long gap, known once the rows have been taken."""

    name: str
    others: tuple[str, ...]
    rows: Iterator[Row]
    ended: int | None = None


@dataclass(slots=True)
class _Workbook:
    package: Package
    sheets: dict[str, str] = field(default_factory=dict)  # name to part
    texts: list[str] = field(default_factory=list)
    dates: list[int] = field(default_factory=list)  # by format of cells: 0 no date, 1 a date, 2 a length of time
    from_1904: bool = False


def read_sheet(content: bytes, name: str, wanted: str = "") -> Sheet:
    """Begin to read one sheet of a workbook.

    Args:
        content: The file.
        name: Its name, for the messages.
        wanted: The name of the sheet; without it the largest.

    Raises:
        BadInputError: if it is no workbook, is damaged, has no such sheet, or is larger than a log of sets; while the rows
            are taken as well.
    """
    with _Told(name):
        book = _opened(Package(content, name))
        if wanted and wanted not in book.sheets:
            mend = f"Choose one of {', '.join(book.sheets)}."
            raise BadInputError(f"There is no sheet {shown(wanted)}.", where=name, mend=mend)
        chosen = wanted or max(book.sheets, key=lambda each: book.package.size(book.sheets[each]))
    sheet = Sheet(chosen, tuple(each for each in book.sheets if each != chosen), iter(()))
    sheet.rows = _rows(book, sheet, name)
    return sheet


class _Told:
    """Tells whatever a damaged workbook ends in, which is many kinds of error."""

    def __init__(self, name: str) -> None:
        self.name = name

    def __enter__(self) -> None: ...

    def __exit__(self, _kind: Any, err: BaseException | None, _trace: Any) -> None:
        if isinstance(err, Exception) and not isinstance(err, BadInputError | StoppedError):
            what = f"The workbook can't be read: {shown(str(err) or type(err).__name__, 80)}."
            mend = "Open it in the program that wrote it and save it as xlsx again, or as CSV."
            raise BadInputError(what, where=self.name, mend=mend) from err


def _opened(package: Package) -> _Workbook:
    """Read everything but the sheets: their names, the texts that cells share, and which formats are dates."""
    book = _Workbook(package)
    main = next((part for kind, part in related(package, "").values() if kind == "officeDocument"), "")
    if main not in package:
        raise BadInputError("It is no xlsx workbook.", where=package.name, mend="Choose an xlsx or a CSV.")
    parts = related(package, main)

    def start(name: str, attributes: dict[str, str]) -> None:
        if name == "workbookPr":
            book.from_1904 = attributes.get("date1904", "") in ("1", "true", "on")
        elif name == "sheet":
            at = next((value for key, value in attributes.items() if key.endswith(":id")), "")
            kind, part = parts.get(at, ("", ""))
            if kind == "worksheet" and part in package:
                book.sheets[attributes.get("name", "")[:100]] = part
                if len(book.sheets) > MOST_SHEETS:
                    raise package.refused(f"The workbook has over {MOST_SHEETS} sheets.")

    _all(package.read(main, start, nothing, nothing))
    if not book.sheets:
        raise package.refused("The workbook has no sheet with cells.")
    by_kind = dict(parts.values())
    if (styles := by_kind.get("styles", "")) in package:
        book.dates = _formats(package, styles)
    if (texts := by_kind.get("sharedStrings", "")) in package:
        book.texts = _shared_texts(package, texts)
    return book


def _all(pieces: Iterator[None]) -> None:
    for _ in pieces:
        pass


def _formats(package: Package, part: str) -> list[int]:
    """Return for each format of cells whether its numbers are dates."""
    from openpyxl.styles.numbers import BUILTIN_FORMATS, is_date_format, is_timedelta_format  # slow to import

    codes: dict[str, str] = {str(at): code for at, code in BUILTIN_FORMATS.items()}
    used: list[str] = []
    within = False

    def start(name: str, attributes: dict[str, str]) -> None:
        nonlocal within
        if name == "cellXfs":
            within = True
        elif name == "numFmt":
            codes[attributes.get("numFmtId", "")] = attributes.get("formatCode", "")[:255]
        elif name == "xf" and within:
            used.append(attributes.get("numFmtId", "0"))
        if len(used) > MOST_FORMATS or len(codes) > MOST_FORMATS:
            raise package.refused("The workbook holds more formats than programs write.")

    def end(name: str) -> None:
        nonlocal within
        within = within and name != "cellXfs"

    _all(package.read(part, start, end, nothing))
    kinds = {
        each: 0 if not is_date_format(codes.get(each)) else 2 if is_timedelta_format(codes.get(each)) else 1
        for each in set(used)
    }
    return [kinds[each] for each in used]


class _Text:
    """Gathers the text of one cell, without the signs that say how it is read aloud."""

    def __init__(self, package: Package) -> None:
        self.package = package
        self.parts: list[str] = []
        self.length = 0
        self.on = self.aloud = False

    def add(self, text: str) -> None:
        if self.on and not self.aloud:
            self.length += len(text)
            if self.length > MOST_CELL:
                raise self.package.refused(f"A cell has over {MOST_CELL:,} letters.")
            self.parts.append(text)

    def taken(self) -> str:
        text = "".join(self.parts)
        self.parts.clear()
        self.length = 0
        return text


def _shared_texts(package: Package, part: str) -> list[str]:
    texts: list[str] = []
    letters = 0
    text = _Text(package)

    def start(name: str, _attributes: dict[str, str]) -> None:
        if name == "t":
            text.on = True
        elif name == "rPh":
            text.aloud = True

    def end(name: str) -> None:
        nonlocal letters
        if name == "t":
            text.on = False
        elif name == "rPh":
            text.aloud = False
        elif name == "si":
            texts.append(_unescaped(text.taken()))
            letters += len(texts[-1])
            if letters > MOST_TEXT or len(texts) > MOST_CELLS:
                raise package.refused("The workbook holds more text than a log of sets has.")

    _all(package.read(part, start, end, text.add))
    return texts


def _unescaped(text: str) -> str:
    """Put the letters back that XML has no room for; strip here, so that a text that many cells share is kept once."""
    if "_x" in text:
        text = _ESCAPED.sub(lambda found: _letter(found, int(found[1], 16)), text)
    return text.strip()


def _letter(found: re.Match[str], code: int) -> str:
    return found[0] if 0xD800 <= code <= 0xDFFF else chr(code)


def _rows(book: _Workbook, sheet: Sheet, name: str) -> Iterator[Row]:
    """Yield the rows that hold something, each with its line, up to a long gap."""
    with _Told(name):
        done: list[Row] = []
        pieces = book.package.read(book.sheets[sheet.name], *_handlers(book, done, name))
        last = cells = 0
        for _ in through(f"reading the sheet {sheet.name}", pieces, 0):
            for line, row in done:
                if last and line - last > MOST_GAP:
                    sheet.ended = last
                    return
                last = line
                cells += len(row)
                if cells > MOST_CELLS:
                    raise book.package.refused(f"The sheet has over {MOST_CELLS:,} cells.")
                yield line, row
            done.clear()


def _handlers(
    book: _Workbook, done: list[Row], name: str
) -> tuple[Callable[[str, dict[str, str]], None], Callable[[str], None], Callable[[str], None]]:
    text, value_of = _Text(book.package), _values(book)
    row: list[str] = []
    line, at, kind, style, filled = 0, -1, "n", "", False

    def start(tag: str, attributes: dict[str, str]) -> None:
        nonlocal line, at, kind, style, filled
        if tag == "c":
            kind, style = attributes.get("t", "n"), attributes.get("s", "")
            place = attributes.get("r")
            at = at + 1 if place is None else _COLUMNS.get(place.rstrip("0123456789"), MOST_COLUMNS)
        elif tag in ("v", "t"):
            text.on = tag == "v" or kind == "inlineStr"
        elif tag == "rPh":
            text.aloud = True
        elif tag == "row":
            number = attributes.get("r", "")
            line = int(number) if number.isdecimal() and len(number) < 9 else line + 1
            at, filled = -1, False
            row.clear()

    def end(tag: str) -> None:
        nonlocal filled
        if tag in ("v", "t"):
            text.on = False
        elif tag == "rPh":
            text.aloud = False
        elif tag == "c":
            if text.parts and (value := value_of(text.taken(), kind, style)):
                if not value.isprintable() and CONTROL.search(value):
                    problem = Problem(line, f"column {at + 1}", "There is a control character.", "Take it out.")
                    raise BadFileError(name, (problem,))
                row.extend([""] * (at + 1 - len(row)))  # one cell too many is refused where every table is
                row[at] = value
                filled = True
        elif tag == "row" and filled:
            done.append((line, row.copy()))

    return start, end, text.add


def _values(book: _Workbook) -> Callable[[str, str, str], str]:
    """Return how the value of a cell is written, by its kind and its format."""
    from openpyxl.utils.datetime import MAC_EPOCH, WINDOWS_EPOCH, from_excel, from_ISO8601

    epoch = MAC_EPOCH if book.from_1904 else WINDOWS_EPOCH

    def number(text: str, style: str) -> str:
        if len(text) > 40:
            return text
        value: Any = float(text) if "." in text or "e" in text.lower() else int(text)
        at = int(style) if style.isdecimal() and len(style) < 7 else 0
        dated = book.dates[at] if at < len(book.dates) else 0
        if not dated:
            return _cell(value)
        try:
            return _cell(from_excel(value, epoch, timedelta=dated == 2))
        except (OverflowError, ValueError):
            return "#VALUE!"

    def written(text: str, kind: str, style: str) -> str:
        if kind == "n":
            return number(text.strip(), style)
        if kind == "s":
            return book.texts[int(text)]
        if kind == "b":
            return _cell(text.strip() in ("1", "true"))
        if kind == "d":
            return _cell(from_ISO8601(text.strip()[:40]))
        return _unescaped(text)

    return written


def _cell(value: Any) -> str:
    """Write a cell of a workbook as the text that a CSV would have."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, float):
        return format(Decimal(repr(round(value, 6))).normalize(), "f") if abs(value) < 1e15 else repr(value)  # 5.0 is 5
    return str(value)
