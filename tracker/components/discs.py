"""A plain drawing of one end of the bar: which discs go on, heaviest first, with their masses in figures.

Height and thickness follow the mass; there is no colour to be known by heart.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from math import sqrt

import streamlit as st

from tracker.desk.places import MadeLoad, discs_in_words
from tracker.units import Mass, plain

SLOT, SHAFT, END, HEIGHT = 36, 46, 26, 96  # of the drawing, in its own units
MIDDLE, TALLEST, LOWEST, BIG_KG = 38, 72, 20, 25.0  # a disc of 25 kg is the tallest drawn


def drawing(per_side: Sequence[Mass]) -> str:
    """Return the drawing as SVG, with the same in words for those who hear it."""
    units = {mass.unit for mass in per_side}
    one_unit = len(units) < 2
    width = SHAFT + SLOT * max(1, len(per_side)) + END
    parts = [
        f'<rect x="0" y="{MIDDLE - 3}" width="{SHAFT}" height="6" rx="2"/>',
        f'<rect x="{SHAFT - 8}" y="{MIDDLE - 11}" width="7" height="22" rx="2"/>',
        f'<rect x="{SHAFT}" y="{MIDDLE - 5}" width="{width - SHAFT - 2}" height="10" rx="3" fill-opacity="0.45"/>',
        *(_disc(mass, SHAFT + SLOT * place, one_unit=one_unit) for place, mass in enumerate(per_side)),
    ]
    said = escape(f"One end of the bar: {discs_in_words(per_side)}", quote=True)
    return (
        f'<svg role="img" aria-label="{said}" viewBox="0 0 {width} {HEIGHT}" xmlns="http://www.w3.org/2000/svg" '
        f'style="display:block;width:100%;max-width:{round(width * 1.15)}px;height:auto" fill="currentColor">'
        f"{''.join(parts)}</svg>"
    )


def _disc(mass: Mass, left: int, *, one_unit: bool) -> str:
    share = min(1.0, sqrt(float(mass.kg) / BIG_KG))
    height = LOWEST + (TALLEST - LOWEST) * share
    thick = 9 + 13 * share
    middle = left + SLOT / 2
    label = plain(mass.amount) if one_unit else f"{plain(mass.amount)} {mass.unit}"
    size = 14 if len(label) <= 4 else 11
    return (
        f'<rect x="{middle - thick / 2:.1f}" y="{MIDDLE - height / 2:.1f}" width="{thick:.1f}" height="{height:.1f}" rx="3"/>'
        f'<text x="{middle:.1f}" y="{HEIGHT - 6}" text-anchor="middle" font-size="{size}" font-weight="600">{escape(label)}</text>'
    )


def show(made: MadeLoad) -> None:
    """Draw the discs of a loaded bar; nothing where the load is no bar with discs."""
    if made.per_side:
        st.markdown(drawing(made.per_side), unsafe_allow_html=True)
