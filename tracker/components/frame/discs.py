"""A plain drawing of one end of the bar: which discs go on, heaviest first, with their masses in figures.

Height and thickness follow the mass; there is no colour to be known by heart.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from math import sqrt

import streamlit as st

from tracker.desk.people.places import MadeLoad, discs_in_words
from tracker.units import Mass, plain

SLOT, SHAFT, END, HEIGHT = 36, 46, 26, 96  # of the drawing, in its own units
MIDDLE, TALLEST, LOWEST, BIG_KG = 38, 72, 20, 25.0  # a disc of 25 kg is the tallest drawn


def drawing(per_side: Sequence[Mass]) -> str:
    """Return the drawing as HTML, with the same in words for those who hear it; it grows and shrinks as a whole.

    Boxes rather than SVG: the card of the next set waits for nothing that is loaded only to draw.
    """
    one_unit = len({mass.unit for mass in per_side}) < 2
    width = SHAFT + SLOT * max(1, len(per_side)) + END
    parts = [
        _box(0, SHAFT, 6, width),
        _box(SHAFT - 8, 7, 22, width),
        _box(SHAFT, width - SHAFT - 2, 10, width, kind="sleeve"),
        *(_disc(mass, SHAFT + SLOT * place, width, one_unit=one_unit) for place, mass in enumerate(per_side)),
    ]
    said = escape(f"One end of the bar: {discs_in_words(per_side)}", quote=True)
    size = f"max-width:{round(width * 1.15)}px;aspect-ratio:{width}/{HEIGHT}"
    return f'<div class="discs" role="img" aria-label="{said}" style="{size}">{"".join(parts)}</div>'


def _box(left: float, thick: float, height: float, width: float, kind: str = "part") -> str:
    """A box around the middle of the bar, in hundredths of the whole drawing."""
    place = (left / width, (MIDDLE - height / 2) / HEIGHT, thick / width, height / HEIGHT)
    styles = ";".join(
        f"{name}:{share:.2%}" for name, share in zip(("left", "top", "width", "height"), place, strict=True)
    )
    return f'<i class="{kind}" style="{styles}"></i>'


def _disc(mass: Mass, left: int, width: int, *, one_unit: bool) -> str:
    share = min(1.0, sqrt(float(mass.kg) / BIG_KG))
    height = LOWEST + (TALLEST - LOWEST) * share
    thick = 9 + 13 * share
    label = plain(mass.amount) if one_unit else f"{plain(mass.amount)} {mass.unit}"
    size = 14 if len(label) <= 4 else 11
    styles = f"left:{left / width:.2%};width:{SLOT / width:.2%};font-size:{100 * size / width:.2f}cqw"
    return f'{_box(left + (SLOT - thick) / 2, thick, height, width, "disc")}<b style="{styles}">{escape(label)}</b>'


def show(made: MadeLoad) -> None:
    """Draw the discs of a loaded bar; nothing where the load is no bar with discs."""
    if made.per_side:
        st.html(drawing(made.per_side))
