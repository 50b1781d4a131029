"""The load sheet of a class as one HTML file for an A4 page, readable from a rack: plain data in, a text out.

It needs no network, no script and no font of its own. The type is as large as the number of rows, the lines of the session
and the longest words let it be, and never below eight points: sooner words go on to another line, and rows to a second
page, with the headings again. Members who share a bar stand together below one number and are never parted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from html import escape
from itertools import groupby
from math import ceil

MARGIN_MM = 9.0
LONG_MM, SHORT_MM = 297.0, 210.0  # A4, ISO 216
HEAD_MM, FOOT_LINE_MM = 28.0, 4.1  # title and two rows of headings; one line of the foot
TITLE_MM = 11.0  # of the head: the rest are headings, which each page has
TALLEST_ROW_MM = 22.0
LEADING = 1.08  # of the lines in a cell
BAR_MM = 9.0  # width of the column with the number of the bar
FOOT_MM, PIECE_MM = 3.1, 4.0  # heights of the type of the foot, and of what a piece asks
SAID_MM = 3.4  # of the coach's words
LETTER = 0.56  # mean width of a bold letter in heights of the type; measured on common sans-serif fonts
WIDTHS = {" ": 0.32, ".": 0.32, "+": 0.8}  # of signs that are far from the mean; measured on the same fonts
PT_PER_MM = 72 / 25.4
SMALLEST_MM = 8.05 / PT_PER_MM  # no type is smaller: eight points, and a hair for what is rounded
MOST_PAGES = 6


@dataclass(frozen=True, slots=True)
class PageCell:
    """What one member loads for one line: `load` in large type, `detail` (the discs of each side) below it.

    Without a load, `detail` says what to do instead.
    """

    load: str
    detail: str = ""
    reps: str = ""  # where they are not those of the heading
    mark: str = ""
    span: int = 1  # headings that it stands below


@dataclass(frozen=True, slots=True)
class PageRow:
    name: str
    below: str  # place or bar, and marks in short
    cells: tuple[PageCell, ...]
    bar: int = 0  # the number of the bar, the same for those who share it; 0 for none


@dataclass(frozen=True, slots=True)
class ClassPage:
    """All that stands on the page; `columns` are lift and prescription of each line, rows of one bar follow each other."""

    title: str
    under: str  # day, place, wave
    columns: tuple[tuple[str, str], ...]
    rows: tuple[PageRow, ...]
    foot: tuple[str, ...] = ()
    pieces: tuple[tuple[str, str], ...] = ()  # title, and what it asks
    said: tuple[str, ...] = ()  # the coach's words on the session
    closing: tuple[str, ...] = ()  # the coach's words for the end of the session
    notes: tuple[tuple[str, ...], ...] = ()  # of each lift in its turn: the coach's words, and other ways to do it

    @property
    def lifts(self) -> tuple[tuple[str, int, tuple[str, ...]], ...]:
        """Each lift in its turn: its name, how many columns it has, and what is said of it."""
        names = [(name, len(list(group))) for name, group in groupby(self.columns, key=lambda column: column[0])]
        return tuple(
            (name, number, self.notes[place] if place < len(self.notes) else ())
            for place, (name, number) in enumerate(names)
        )


def class_page(page: ClassPage) -> str:
    """Return the page as a complete HTML document."""
    size, across = _layout(page)
    closer = _closer(page)
    if size.pages > 1 and _layout(closer)[0].pages < size.pages:  # discs written closer may spare a page
        page = closer
        size, across = _layout(page)
    style = _style(size, across=across)
    foot = "".join(f"<li>{escape(line)}</li>" for line in page.foot)
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">"
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{escape(page.title)}, {escape(page.under)}</title><style>{style}</style></head><body>"
        f"<header><h1>{escape(page.title)}</h1><p>{escape(page.under)}</p></header>"
        f"{''.join(map(_said, page.said))}<table><thead>{_headings(page)}</thead>{_bars(page)}</table>"
        f"{''.join(map(_piece, page.pieces))}{''.join(map(_said, page.closing))}<ul>{foot}</ul></body></html>\n"
    )


def _closer(page: ClassPage) -> ClassPage:
    """Write the discs of each side without the spaces between them."""
    rows = (
        replace(row, cells=tuple(replace(cell, detail=cell.detail.replace(" + ", "+")) if cell.load else cell for cell in row.cells))
        for row in page.rows
    )  # fmt: skip
    return replace(page, rows=tuple(rows))


def _headings(page: ClassPage) -> str:
    """Write each lift once over its lines, with what is said of it, and below what is asked of each."""
    lifts = "".join(
        f'<th colspan="{number}" scope="colgroup">{escape(lift)}{"".join(f"<p>{escape(line)}</p>" for line in notes)}</th>'
        for lift, number, notes in page.lifts
    )
    asked = "".join(f'<th scope="col" class="asked">{escape(words)}</th>' for _, words in page.columns)
    bar = '<th rowspan="2" scope="col" class="bar">bar</th>' if _with_bars(page) else ""
    return f'<tr>{bar}<th rowspan="2" scope="col" class="who">member</th>{lifts}</tr><tr>{asked}</tr>'


def _with_bars(page: ClassPage) -> bool:
    return any(row.bar for row in page.rows)


def _bars(page: ClassPage) -> str:
    """Write the rows, those of one bar as one part that no page's end parts."""
    parts: list[str] = []
    for bar, group in groupby(enumerate(page.rows), key=lambda each: each[1].bar or -each[0] - 1):
        rows = [row for _, row in group]
        said = str(bar) if bar > 0 else ""
        cell = f'<td class="bar" rowspan="{len(rows)}">{said}</td>' if _with_bars(page) else ""
        parts.append(f"<tbody>{''.join(_row(row, '' if place else cell) for place, row in enumerate(rows))}</tbody>")
    return "".join(parts)


def _said(line: str) -> str:
    return f'<p class="said">{escape(line)}</p>'


def _piece(piece: tuple[str, str]) -> str:
    return f'<p class="piece"><b>{escape(piece[0])}</b> {escape(piece[1])}</p>'


def _row(row: PageRow, bar: str) -> str:
    below = f"<small>{escape(row.below)}</small>" if row.below else ""
    cells = "".join(map(_cell, row.cells))
    return f'<tr>{bar}<th scope="row" class="who"><b>{escape(row.name)}</b>{below}</th>{cells}</tr>'


def _cell(cell: PageCell) -> str:
    reps = f" <em>{escape(cell.reps)}</em>" if cell.reps else ""
    mark = f" <i>{escape(cell.mark)}</i>" if cell.mark else ""
    load = f"<b>{escape(cell.load)}{reps}{mark}</b>" if cell.load else ""
    detail = f"<small>{escape(cell.detail)}</small>" if cell.detail else ""
    span = f' colspan="{cell.span}"' if cell.span > 1 else ""
    return f'<td class="{"load" if cell.load else "none"}"{span}>{load}{detail}</td>'


@dataclass(frozen=True, slots=True)
class _Sizes:
    """Heights in millimetres: of a row, of the large type in it, of the small type, of what stands instead of a load."""

    row: float
    big: float
    name: float
    small: float
    said: float
    asked: float  # of the headings
    who: float  # width of the members' column
    wide: float  # of the page, within its margins
    pages: int
    whole: bool  # every row finds its place in type that can be read
    reads: float  # how well it reads: the smaller of the loads and twice their discs, had the type no lower end


def _layout(page: ClassPage) -> tuple[_Sizes, bool]:
    """Choose how many pages, and whether they lie: the fewest on which all can be read, then what reads best."""
    short, long = SHORT_MM - 2 * MARGIN_MM, LONG_MM - 2 * MARGIN_MM
    found: list[tuple[_Sizes, bool]] = []
    for pages in range(1, MOST_PAGES + 1):
        found = [(_sizes(page, short, long, pages), False), (_sizes(page, long, short, pages), True)]
        if whole := [each for each in found if each[0].whole]:
            return max(whole, key=lambda each: each[0].reads)
    return found[0]


def _sizes(page: ClassPage, wide: float, tall: float, pages: int) -> _Sizes:
    who = min(0.26, 0.16 + 0.3 / (len(page.columns) + 1)) * wide
    left = wide - who - (BAR_MM if _with_bars(page) else 0)
    column = left / max(1, len(page.columns)) - 3.0  # less what keeps the lines apart
    cells = [[(cell, column * cell.span) for cell in each.cells] for each in page.rows]
    each = [cell for row in cells for cell in row]
    loads = _fits([(_load_of(cell), width) for cell, width in each if cell.load])
    details = _fits([(cell.detail, width) for cell, width in each if cell.load])
    said = _fits_two_lines([(cell.detail, width) for cell, width in each if not cell.load])
    heads = _fits_two_lines([(words, column) for _, words in page.columns])
    names = _fits([(row.name, who - 3.0) for row in page.rows])
    lowest = max((_needed(row, each, who - 3.0) for row, each in zip(page.rows, cells, strict=True)), default=0.0)
    row = _room(page, wide, tall, column, pages, lowest) / max(1, len(page.rows))
    whole, row = row >= lowest, min(TALLEST_ROW_MM, max(lowest, row))
    small = max(SMALLEST_MM, min(0.35 * row, details, 5.0))
    big = max(SMALLEST_MM, min(0.49 * row, row / LEADING - small - 0.2, loads))
    return _Sizes(
        row, big, max(SMALLEST_MM, min(0.46 * row, big * 1.1, names)), small, max(SMALLEST_MM, min(said, 0.34 * row, 3.6)),
        max(SMALLEST_MM, min(heads, 3.7)), who, wide, pages, whole,
        min(0.49 * row, loads, 2 * min(0.35 * row, details), 2 * min(said, 3.6)),
    )  # fmt: skip


def _load_of(cell: PageCell) -> str:
    return f"{cell.load} {cell.reps} {cell.mark}".strip()


def _needed(row: PageRow, cells: Sequence[tuple[PageCell, float]], who: float) -> float:
    """The least height of a row: ten points for what is loaded, eight for the rest, on as many lines as they take."""
    small, load = SMALLEST_MM * LEADING, 10.3 / PT_PER_MM * LEADING
    needs = [small * (_wrapped(row.name, who) + _wrapped(row.below, who))]
    for cell, width in cells:
        above = load * (1 if _fits([(_load_of(cell), width)]) >= SMALLEST_MM else 2) if cell.load else 0.0
        needs.append(above + small * _wrapped(cell.detail, width))
    return max(needs) + 0.2


def _wrapped(text: str, wide: float) -> int:
    """Lines of the smallest type that a text takes; none for none."""
    return ceil(_width(text) * SMALLEST_MM / wide) if text else 0


def _room(page: ClassPage, wide: float, tall: float, column: float, pages: int, lowest: float) -> float:
    """The height that is left for the rows of all pages."""
    notes = max(
        (sum(SAID_MM * _lines((line,), number * (column + 3.0) - 2.0, SMALLEST_MM * 1.1) for line in lines) for _, number, lines in page.lifts),
        default=0.0,
    )  # fmt: skip
    room = pages * (tall - (HEAD_MM - TITLE_MM) - notes) - TITLE_MM - 2.0 * lowest * (pages - 1)
    room -= FOOT_LINE_MM * _lines(page.foot, wide, FOOT_MM)
    room -= sum(SAID_MM * 1.25 * _lines((line,), wide, SAID_MM) for line in (*page.said, *page.closing))
    room -= 1.5 * bool(page.said) + 2.0 * bool(page.closing)
    return room - sum(
        2.0 + PIECE_MM * 1.3 * _lines((f"{title} {words}",), wide, PIECE_MM) for title, words in page.pieces
    )


def _lines(texts: Sequence[str], wide: float, high: float) -> int:
    """Lines that texts take in a type of that height."""
    letters = wide / (high * 0.5)
    return sum(1 + int(len(text) / letters) for text in texts)


def _fits(texts: Sequence[tuple[str, float]]) -> float:
    """The height of the type in which every text fits its width, on one line."""
    return min((wide / max(LETTER, _width(text)) for text, wide in texts), default=99.0)


def _width(text: str) -> float:
    """How wide a text is in heights of its type: discs written close are wider than their number of letters says."""
    return max(LETTER * len(text), sum(WIDTHS.get(sign, 0.6 if sign.isdigit() else LETTER) for sign in text))


def _fits_two_lines(texts: Sequence[tuple[str, float]]) -> float:
    return min((2 * wide / ((len(text) + 8) * LETTER) for text, wide in texts), default=99.0)


def _style(size: _Sizes, *, across: bool) -> str:
    wide = size.wide

    def pt(mm: float) -> str:
        return f"{mm * PT_PER_MM:.1f}pt"

    return f"""
@page {{ size: A4 {"landscape" if across else "portrait"}; margin: {MARGIN_MM}mm; }}
* {{ box-sizing: border-box; }}
html {{ color: #000; background: #fff; font-family: "DejaVu Sans Condensed", "Segoe UI", Roboto, "Noto Sans", Arial, sans-serif; }}
body {{ margin: 0 auto; max-width: {wide}mm; }}
header {{ display: flex; justify-content: space-between; align-items: baseline; gap: 4mm; height: 10mm; overflow: hidden; }}
h1 {{ margin: 0; font-size: 17pt; }} header p {{ margin: 0; font-size: 11pt; text-align: right; }}
table {{ border-collapse: collapse; width: 100%; table-layout: fixed; }}
thead {{ display: table-header-group; }} tr {{ break-inside: avoid; }}
thead th {{ font-size: 10.5pt; line-height: 1.1; padding: 0.6mm 1mm; border: 0.3mm solid #000; background: #e8e8e8; overflow-wrap: anywhere; }}
thead p {{ margin: 0.3mm 0 0; font-size: {pt(SMALLEST_MM * 1.1)}; font-weight: normal; }}
thead .asked {{ font-size: {pt(size.asked)}; }} .who {{ width: {size.who:.1f}mm; text-align: left; overflow: hidden; }}
tbody {{ break-inside: avoid; }} tbody:has(.bar) {{ border-top: 0.5mm solid #000; border-bottom: 0.5mm solid #000; }}
tbody tr {{ height: {size.row:.2f}mm; }}
.bar {{ width: {BAR_MM}mm; text-align: center; font-weight: bold; font-size: {pt(min(size.name, 4.0))}; }} thead .bar {{ font-size: {pt(SMALLEST_MM)}; }}
td, tbody th {{ border: 0.2mm solid #777; padding: 0 1.2mm; line-height: {LEADING}; overflow: hidden; vertical-align: middle; }}
td b, td small, th b, th small {{ display: block; overflow-wrap: anywhere; }}
td b {{ font-size: {pt(size.big)}; }} td small {{ font-size: {pt(size.small)}; }} td em {{ font-style: normal; text-decoration: underline; }}
td i {{ font-style: normal; }} .none small {{ font-size: {pt(size.said)}; white-space: normal; font-style: italic; }}
th b {{ font-size: {pt(size.name)}; }} th small {{ font-size: {pt(SMALLEST_MM)}; font-weight: normal; }}
.said {{ margin: 0; font-size: {pt(SAID_MM)}; line-height: 1.2; }} .said + table {{ margin-top: 1.5mm; }}
table + .said, .piece + .said {{ margin-top: 2mm; }} .said, .piece, li {{ break-inside: avoid; }}
.piece {{ margin: 2mm 0 0; font-size: {pt(PIECE_MM)}; line-height: 1.25; }}
ul {{ margin: 2mm 0 0; padding-left: 4mm; font-size: {pt(FOOT_MM)}; line-height: 1.2; }}
@media print {{ * {{ print-color-adjust: exact; -webkit-print-color-adjust: exact; }} }}
@media screen {{ body {{ padding: 4mm; }} table {{ min-width: {wide}mm; }} html {{ overflow-x: auto; }} }}
"""
