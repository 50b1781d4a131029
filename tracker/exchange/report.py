"""A member's period as one HTML file: for the coach or a physiotherapist, to be read or printed, without network or script.

It is made from plain data; every number has its unit, an estimate stands with its band and no digit that is not known.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from tracker.exchange.report_chart import BandOn, MaxOn, chart
from tracker.units import Unit


@dataclass(frozen=True, slots=True)
class ReportLift:
    """One lift: the nRM over time, its facts, what is believed at the end, and what was done day by day."""

    title: str
    reps: int
    unit: Unit
    points: tuple[BandOn, ...]
    maxes: tuple[MaxOn, ...]
    said: str  # the chart in words
    estimates: tuple[tuple[str, str, str], ...]  # nRM, estimate, 80 % band
    tested: tuple[tuple[str, str, str], ...]  # day, nRM and load, what the sets since say of it
    done: tuple[tuple[str, str], ...]  # day, sets
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ReportPiece:
    title: str
    lines: tuple[tuple[str, str, str], ...]  # day, score, what was swapped or sets it apart


@dataclass(frozen=True, slots=True)
class Report:
    """All that stands in a report."""

    member: str
    first: date
    last: date
    made: str  # when, and as of which state
    summary: tuple[str, ...]
    lifts: tuple[ReportLift, ...]
    pieces: tuple[ReportPiece, ...]
    sessions: tuple[tuple[str, ...], ...]  # day, minutes, rating, rating x minutes, note
    with_notes: bool
    cautions: tuple[tuple[str, str], ...]  # text, what it rests on
    foot: tuple[str, ...]
    breaks: tuple[tuple[date, date], ...] = ()  # from the last day before to the first one after
    goals: tuple[tuple[str, str, str], ...] = ()  # what, by when, how it stands
    limits: tuple[str, ...] = ()  # what was sore, ill or limited; only where the member chose so
    with_limits: bool = False


def report_page(report: Report) -> str:
    """Return the report as a complete HTML document."""
    title = f"{report.member}, {_day(report.first)} to {_day(report.last)}"
    parts = [
        f"<header><h1>{escape(report.member)}</h1><p>{escape(_day(report.first))} to {escape(_day(report.last))}</p></header>",
        f"<p class='made'>{escape(report.made)}</p>",
        _list(report.summary),
        _cautions(report.cautions),
        _limits(report),
        f"<h2>Goals</h2>{_table(('goal', 'by', 'how it stands'), report.goals)}" if report.goals else "",
        "<h2>Lifts</h2>" if report.lifts else "",
        *(_lift(each, report) for each in report.lifts),
        "<h2>Pieces</h2>" if report.pieces else "",
        *(_piece(each) for each in report.pieces),
        _sessions(report),
        f"<footer>{_list(report.foot)}</footer>",
    ]
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">"
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{escape(title)}</title><style>{STYLE}</style></head><body>{''.join(parts)}</body></html>\n"
    )


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"


def _list(lines: Iterable[str]) -> str:
    items = "".join(f"<li>{escape(line)}</li>" for line in lines)
    return f"<ul>{items}</ul>" if items else ""


def _cautions(cautions: Sequence[tuple[str, str]]) -> str:
    items = "".join(f"<li>{escape(text)} <small>{escape(basis)}</small></li>" for text, basis in cautions)
    return f"<section class='cautions'><h2>Cautions</h2><ul>{items}</ul></section>" if items else ""


def _limits(report: Report) -> str:
    if not report.with_limits:
        return ""
    said = _list(report.limits) or "<p>Nothing was marked as sore, ill or limited.</p>"
    return f"<h2>Limits and how I was</h2>{said}<p class='made'>In the member's own words and touches. It is no diagnosis.</p>"


def _table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    body = "".join(
        "<tr>" + "".join(f"<{'td' if n else 'th scope=row'}>{escape(cell)}</{'td' if n else 'th'}>" for n, cell in enumerate(row)) + "</tr>"
        for row in rows
    )  # fmt: skip
    head = "".join(f'<th scope="col">{escape(each)}</th>' for each in heads)
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>" if body else ""


def _lift(lift: ReportLift, report: Report) -> str:
    drawn = chart(
        lift.points,
        lift.maxes,
        first=report.first,
        last=report.last,
        unit=lift.unit,
        said=lift.said,
        breaks=report.breaks,
    )
    figure = f"<figure>{drawn}<figcaption>{escape(lift.said)} Area: 80 % band. Full diamonds: tested; empty ones: declared.</figcaption></figure>"
    return (
        f"<section><h3>{escape(lift.title)}</h3>{figure if drawn else ''}{_list(lift.notes)}"
        f"<div class='pair'>{_table(('rep-max', f'on {_day(report.last)}', '80 % band'), lift.estimates)}"
        f"{_table(('day', 'tested or declared', 'does it hold'), lift.tested)}</div>"
        f"{_table(('day', 'sets: repetitions x load'), lift.done)}</section>"
    )


def _piece(piece: ReportPiece) -> str:
    return f"<section><h3>{escape(piece.title)}</h3>{_table(('day', 'score', 'done otherwise'), piece.lines)}</section>"


def _sessions(report: Report) -> str:
    heads = ("day", "minutes", "rated, of 10", "rating x minutes", *(("note",) if report.with_notes else ()))
    return f"<h2>Sessions</h2>{_table(heads, report.sessions)}" if report.sessions else ""


STYLE = """
@page { size: A4 portrait; margin: 14mm; }
* { box-sizing: border-box; }
html { color: #111; background: #fff; color-scheme: light; font: 10.5pt/1.35 "Segoe UI", Roboto, "Noto Sans", "DejaVu Sans", Arial, sans-serif; }
body { margin: 0 auto; max-width: 182mm; padding: 4mm; }
header { display: flex; flex-wrap: wrap; justify-content: space-between; align-items: baseline; border-bottom: 0.6mm solid #111; }
h1 { font-size: 20pt; margin: 0; } h2 { font-size: 14pt; margin: 6mm 0 1mm; } h3 { font-size: 11.5pt; margin: 4mm 0 1mm; }
header p, .made { margin: 1mm 0; } .made, small, figcaption, footer { font-size: 9pt; color: #333; }
h2, h3 { break-after: avoid; } figure, tr { break-inside: avoid; } figure { margin: 0; overflow-x: auto; }
svg { display: block; width: 100%; min-width: 140mm; height: auto; font: 12px/1 inherit; } svg text { fill: #111; font-size: 12px; }
.grid { stroke: #bbb; stroke-width: 0.8; } .band { fill: #0b6472; fill-opacity: 0.2; } .break { fill: #777; fill-opacity: 0.14; }
.estimate { fill: none; stroke: #0b6472; stroke-width: 2.4; } .dot { fill: #0b6472; }
.tested { fill: #a84e08; stroke: #a84e08; } .declared { fill: #fff; stroke: #7a5b00; stroke-width: 2; } svg .fact { font-weight: 600; paint-order: stroke; stroke: #fff; stroke-width: 3px; }
table { border-collapse: collapse; width: 100%; margin: 1.5mm 0; font-size: 9.5pt; } thead { display: table-header-group; }
th, td { text-align: left; vertical-align: top; padding: 0.6mm 1.6mm; border-bottom: 0.2mm solid #bbb; overflow-wrap: break-word; } td:last-child { overflow-wrap: anywhere; }
tbody th { font-weight: 600; white-space: nowrap; width: 1%; } thead th { border-bottom: 0.4mm solid #111; } thead th:first-child { white-space: nowrap; }
.pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(85mm, 100%), 1fr)); gap: 0 6mm; align-items: start; }
.cautions { border: 0.5mm solid #111; padding: 1mm 3mm; margin: 3mm 0; break-inside: avoid; } .cautions h2 { margin: 0; font-size: 11.5pt; }
ul { margin: 1.5mm 0; padding-left: 5mm; } footer { margin-top: 6mm; border-top: 0.3mm solid #111; }
@media print { body { padding: 0; max-width: none; } * { print-color-adjust: exact; -webkit-print-color-adjust: exact; } }
"""
