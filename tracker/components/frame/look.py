"""The colours of both looks as style sheets; the browser takes those of the one that is on."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

ROOM = Path(__file__).parents[1]
COLOURS = {
    "accent": "linkColor", "ground": "backgroundColor", "edge": "borderColor", "ink": "textColor",
}  # fmt: skip


@cache
def theme() -> dict[str, Any]:
    """Return the theme as it is written in theme.toml."""
    return tomllib.loads((ROOM.parent / "theme.toml").read_text(encoding="utf-8"))["theme"]


@cache
def style(scope: str, *sheets: str) -> str:
    """Return the colours as variables of whatever `scope` selects, and the style sheets of these rooms."""
    light, dark = theme()["light"], theme()["dark"]
    pairs = {name: (light[key], dark[key]) for name, key in COLOURS.items()}
    pairs |= {"on-accent": ("#FFFFFF", dark["backgroundColor"]), "soft": ("#545D61", "#B5BCBF")}
    pairs |= {"danger": ("#A1260D", "#FFA796")}  # of what can't be undone, always beside a word
    pairs |= {"test": ("#A84E08", "#F0A45B")}  # of tests, as in the figures
    values = " ".join(f"--{name}: light-dark({one}, {other});" for name, (one, other) in pairs.items())
    rules = (
        f"{scope} {{ {values} --font: {theme()['font']}; }}",
        *((ROOM / sheet).read_text(encoding="utf-8") for sheet in sheets),
    )
    return " ".join(rules)


def pages() -> str:
    """Return the style sheet of all pages."""
    sheets = (
        "frame/frame.css", "frame/print.css", "frame/card.css", "frame/places.css", "maxes/maxes.css", "history/history.css", "pieces/pieces.css",
    )  # fmt: skip
    return style('[data-testid="stApp"]', *sheets)
