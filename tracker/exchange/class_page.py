"""The load sheet of a class as one HTML file for an A4 page, readable from a rack: plain data in, a text out.

It needs no network, no script and no font of its own. The type is as large as the number of rows, the lines of the session
and the longest words let it be; below the smallest that can be read it goes on to a second page, with its headings again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

MARGIN_MM = 9.0
LONG_MM, SHORT_MM = 297.0, 210.0  # A4, ISO 216
HEAD_MM, FOOT_LINE_MM = 30.0, 4.1  # title and two rows of headings; one line of the foot
TALLEST_ROW_MM, LOWEST_ROW_MM = 22.0, 5.8
FOOT_MM, PIECE_MM = 3.1, 4.0  # heights of the type of the foot, and of what a piece asks
SAID_MM = 3.4  # of the coach's words
LETTER = 0.56  # mean width of a bold letter in heights of the type; measured on common sans-serif fonts
PT_PER_MM = 72 / 25.4


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


@dataclass(frozen=True, slots=True)
class ClassPage:
    """All that stands on the page; `columns` are lift and prescription of each line."""

    title: str
    under: str  # day, place, wave
    columns: tuple[tuple[str, str], ...]
    rows: tuple[PageRow, ...]
    foot: tuple[str, ...] = ()
    pieces: tuple[tuple[str, str], ...] = ()  # title, and what it asks
    said: tuple[str, ...] = ()  # the coach's words on the session and its lifts, and other ways to do them
    closing: tuple[str, ...] = ()  # the coach's words for the end of the session


def class_page(page: ClassPage) -> str:
    """Return the page as a complete HTML document."""
    upright, across = (
        (SHORT_MM - 2 * MARGIN_MM, LONG_MM - 2 * MARGIN_MM),
        (LONG_MM - 2 * MARGIN_MM, SHORT_MM - 2 * MARGIN_MM),
    )
    lies = _sizes(page, *across).least > _sizes(page, *upright).least
    style = _style(page, *(across if lies else upright), across=lies)
    foot = "".join(f"<li>{escape(line)}</li>" for line in page.foot)
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">"
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{escape(page.title)}, {escape(page.under)}</title><style>{style}</style></head><body>"
        f"<header><h1>{escape(page.title)}</h1><p>{escape(page.under)}</p></header>"
        f"{''.join(map(_said, page.said))}<table><thead>{_headings(page.columns)}</thead><tbody>{''.join(map(_row, page.rows))}</tbody></table>"
        f"{''.join(map(_piece, page.pieces))}{''.join(map(_said, page.closing))}<ul>{foot}</ul></body></html>\n"
    )


def _headings(columns: Sequence[tuple[str, str]]) -> str:
    """Write each lift once over its lines, and below what is asked of each."""
    spans: list[list[str | int]] = []
    for lift, _ in columns:
        if spans and spans[-1][0] == lift:
            spans[-1][1] = int(spans[-1][1]) + 1
        else:
            spans.append([lift, 1])
    lifts = "".join(f'<th colspan="{number}" scope="colgroup">{escape(str(lift))}</th>' for lift, number in spans)
    asked = "".join(f'<th scope="col" class="asked">{escape(words)}</th>' for _, words in columns)
    return f'<tr><th rowspan="2" scope="col" class="who">member</th>{lifts}</tr><tr>{asked}</tr>'


def _said(line: str) -> str:
    return f'<p class="said">{escape(line)}</p>'


def _piece(piece: tuple[str, str]) -> str:
    return f'<p class="piece"><b>{escape(piece[0])}</b> {escape(piece[1])}</p>'


def _row(row: PageRow) -> str:
    below = f"<small>{escape(row.below)}</small>" if row.below else ""
    cells = "".join(map(_cell, row.cells))
    return f'<tr><th scope="row" class="who"><b>{escape(row.name)}</b>{below}</th>{cells}</tr>'


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

    @property
    def least(self) -> float:
        """How well it reads: the smaller of the loads and twice their discs."""
        return min(self.big, 2 * self.small, 2 * self.said)


def _sizes(page: ClassPage, wide: float, tall: float) -> _Sizes:
    room = tall - HEAD_MM - FOOT_LINE_MM * _lines(page.foot, wide, FOOT_MM)
    room -= sum(SAID_MM * 1.25 * _lines((line,), wide, SAID_MM) for line in (*page.said, *page.closing))
    room -= 1.5 * bool(page.said) + 2.0 * bool(page.closing)
    room -= sum(2.0 + PIECE_MM * 1.3 * _lines((f"{title} {words}",), wide, PIECE_MM) for title, words in page.pieces)
    row = min(TALLEST_ROW_MM, max(LOWEST_ROW_MM, room / max(1, len(page.rows))))
    who = min(0.26, 0.16 + 0.3 / (len(page.columns) + 1)) * wide
    column = (wide - who) / max(1, len(page.columns)) - 3.0  # less what keeps the lines apart
    cells = [(cell, column * cell.span) for each in page.rows for cell in each.cells]
    loads = [(f"{cell.load} {cell.reps} {cell.mark}".strip(), width) for cell, width in cells if cell.load]
    details = [(cell.detail, width) for cell, width in cells if cell.load]
    said = [(cell.detail, width) for cell, width in cells if not cell.load]
    heads = [(words, column) for _, words in page.columns]
    return _Sizes(
        row,
        min(0.49 * row, _fits(loads)),
        min(0.46 * row, _fits([(each.name, who - 3.0) for each in page.rows])),
        min(0.35 * row, _fits(details), 5.0),
        min(_fits_two_lines(said), 0.34 * row, 3.6),
        min(_fits_two_lines(heads), 3.7),
        who,
    )


def _lines(texts: Sequence[str], wide: float, high: float) -> int:
    """Lines that texts take in a type of that height."""
    letters = wide / (high * 0.5)
    return sum(1 + int(len(text) / letters) for text in texts)


def _fits(texts: Sequence[tuple[str, float]]) -> float:
    """The height of the type in which every text fits its width, on one line."""
    return min((wide / (max(1, len(text)) * LETTER) for text, wide in texts), default=99.0)


def _fits_two_lines(texts: Sequence[tuple[str, float]]) -> float:
    return min((2 * wide / ((len(text) + 8) * LETTER) for text, wide in texts), default=99.0)


def _style(page: ClassPage, wide: float, tall: float, *, across: bool) -> str:
    size = _sizes(page, wide, tall)

    def pt(mm: float) -> str:
        return f"{mm * PT_PER_MM:.1f}pt"

    return f"""
@page {{ size: A4 {"landscape" if across else "portrait"}; margin: {MARGIN_MM}mm; }}
* {{ box-sizing: border-box; }}
html {{ color: #000; background: #fff; font-family: "DejaVu Sans Condensed", "Segoe UI", Roboto, "Noto Sans", Arial, sans-serif; }}
body {{ margin: 0 auto; max-width: {wide}mm; }}
header {{ display: flex; justify-content: space-between; align-items: baseline; gap: 4mm; height: 11mm; overflow: hidden; }}
h1 {{ margin: 0; font-size: 17pt; }} header p {{ margin: 0; font-size: 11pt; text-align: right; }}
table {{ border-collapse: collapse; width: 100%; table-layout: fixed; }}
thead {{ display: table-header-group; }} tr {{ break-inside: avoid; }}
thead th {{ font-size: 10.5pt; line-height: 1.1; padding: 0.6mm 1mm; border: 0.3mm solid #000; background: #e8e8e8; }}
thead .asked {{ font-size: {pt(size.asked)}; }} .who {{ width: {size.who:.1f}mm; text-align: left; overflow: hidden; }}
tbody tr {{ height: {size.row:.2f}mm; }} tbody tr:nth-child(even) {{ background: #f4f4f4; }}
td, tbody th {{ border: 0.2mm solid #777; padding: 0 1.2mm; line-height: 1.08; overflow: hidden; vertical-align: middle; }}
td b, td small, th b, th small {{ display: block; white-space: nowrap; }}
td b {{ font-size: {pt(size.big)}; }} td small {{ font-size: {pt(size.small)}; }} td em {{ font-style: normal; text-decoration: underline; }}
td i {{ font-style: normal; }} .none small {{ font-size: {pt(size.said)}; white-space: normal; font-style: italic; }}
th b {{ font-size: {pt(size.name)}; }} th small {{ font-size: {pt(min(size.small, 3.1))}; font-weight: normal; }}
.said {{ margin: 0; font-size: {pt(SAID_MM)}; line-height: 1.2; }} .said + table {{ margin-top: 1.5mm; }}
table + .said, .piece + .said {{ margin-top: 2mm; }}
.piece {{ margin: 2mm 0 0; font-size: {pt(PIECE_MM)}; line-height: 1.25; }}
ul {{ margin: 2mm 0 0; padding-left: 4mm; font-size: {pt(FOOT_MM)}; line-height: 1.2; }}
@media print {{ * {{ print-color-adjust: exact; -webkit-print-color-adjust: exact; }} }}
@media screen {{ body {{ padding: 4mm; }} table {{ min-width: {wide}mm; }} html {{ overflow-x: auto; }} }}
"""
