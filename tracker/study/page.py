"""The study as one HTML file: no network, light and dark, readable on a phone, on paper and without its pictures."""

from __future__ import annotations

import json
from html import escape
from typing import Any

from plotly.offline import get_plotlyjs

from tracker.charts.template import CONFIG, DARK, LIGHT
from tracker.study.tables import Part, Picture, Study, Table

STYLE = """
:root { color-scheme: light dark; --text: LIGHT_TEXT; --ground: LIGHT_GROUND; --line: LIGHT_LINE; --accent: LIGHT_ACCENT; }
@media (prefers-color-scheme: dark) {
  :root { --text: DARK_TEXT; --ground: DARK_GROUND; --line: DARK_LINE; --accent: DARK_ACCENT; } }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 60rem; background: var(--ground); color: var(--text);
  font: 17px/1.5 system-ui, -apple-system, 'Segoe UI', Roboto, 'Noto Sans', sans-serif; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0.5rem 0; }
h2 { font-size: 1.3rem; margin: 2.2rem 0 0.5rem; border-top: 1px solid var(--line); padding-top: 1rem; }
p { max-width: 44rem; margin: 0.6rem 0; }
figure { margin: 1rem 0; }
figcaption, caption { font-size: 0.9rem; text-align: left; padding: 0.3rem 0; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-size: 0.9rem; font-variant-numeric: tabular-nums; margin: 0.8rem 0; }
th, td { border-bottom: 1px solid var(--line); padding: 0.35rem 0.6rem; text-align: right; vertical-align: top; }
th[scope=row], thead th:first-child { text-align: left; font-weight: normal; min-width: 7rem; }
thead th { font-weight: 600; vertical-align: bottom; }
td { white-space: nowrap; }
@media print { body { max-width: none; font-size: 10pt; } h2, figure, table { break-inside: avoid; } }
"""
# Figures have their own colours, so each is drawn again when the look changes; on paper always the light one.
SCRIPT = """
const dark = matchMedia('(prefers-color-scheme: dark)');
const draw = (paper) => document.querySelectorAll('[data-picture]').forEach((place) => {
  const both = JSON.parse(document.getElementById(place.dataset.picture).textContent);
  const one = dark.matches && !paper ? both.dark : both.light;
  Plotly.react(place, one.data, one.layout, CONFIG);
});
dark.addEventListener('change', () => draw(false));
addEventListener('beforeprint', () => draw(true));
addEventListener('afterprint', () => draw(false));
draw(false);
"""


def page(study: Study) -> str:
    """Return the study as a complete HTML document."""
    style = STYLE
    for name, tone in (("LIGHT", LIGHT), ("DARK", DARK)):
        for part, value in (
            ("TEXT", tone.text),
            ("GROUND", tone.back),
            ("LINE", tone.faint),
            ("ACCENT", tone.estimate),
        ):
            style = style.replace(f"{name}_{part}", value)
    parts = "".join(_part(part, number) for number, part in enumerate(study.parts))
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{escape(study.title)}</title><style>{style}</style></head><body><main>"
        f"<h1>{escape(study.title)}</h1><p>{escape(study.under)}</p>{parts}</main>"
        f"<script>{get_plotlyjs()}</script><script>{SCRIPT.replace('CONFIG', json.dumps(CONFIG))}</script></body></html>"
    )


def _part(part: Part, number: int) -> str:
    words, after = ("".join(f"<p>{escape(line)}</p>" for line in lines) for lines in (part.words, part.after))
    pictures = "".join(_picture(each, f"picture-{number}-{at}") for at, each in enumerate(part.pictures))
    tables = "".join(map(_table, part.tables))
    return f"<section><h2>{escape(part.title)}</h2>{words}{pictures}{tables}{after}</section>"


def _picture(picture: Picture, name: str) -> str:
    both = f'{{"light": {picture.light.to_json()}, "dark": {picture.dark.to_json()}}}'.replace("</", "<\\/")
    layout: Any = picture.light.layout  # its fields are made when plotly runs
    return (
        f'<figure><div data-picture="{name}" role="img" aria-label="{escape(picture.caption)}" '
        f'style="min-height: {layout.height}px"></div><figcaption>{escape(picture.caption)}</figcaption>'
        f'<script type="application/json" id="{name}">{both}</script></figure>'
    )


def _table(table: Table) -> str:
    head = "".join(f'<th scope="col">{escape(cell)}</th>' for cell in table.head)
    rows = "".join(
        f'<tr><th scope="row">{escape(row[0])}</th>{"".join(f"<td>{escape(cell)}</td>" for cell in row[1:])}</tr>'
        for row in table.rows
    )
    return (
        f'<div class="wide" tabindex="0" role="region" aria-label="{escape(table.caption)}"><table>'
        f"<caption>{escape(table.caption)}</caption><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div>"
    )
