"""Whether a tested max still holds: the test beside today's band on one scale, and the sentence for it."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame.words import first_up, load_words
from tracker.components.maxes.trend_words import said
from tracker.desk.maxes.references import Reference, ago
from tracker.desk.maxes.trend import TrendView
from tracker.strength.holds import MARGIN, percent

BESIDE = {
    "tested": "The test is a fact of its day; the estimate is of today, from all sets, that one too.",
    "declared": "That was said and not tested; the estimate is of the sets alone.",
}
FREE = 0.18  # of what is drawn, on either side
LEAST = 0.005  # a smaller likelihood is not told in figures
EDGE = 24.0  # per cent from either end within which a text begins or ends at its mark


def show(view: TrendView, tested: Reference, days: int) -> None:
    """Draw test and band, and say how they relate; `days` is the age of the test."""
    if view.now is None:
        return
    load = float(tested.load.to(view.unit))
    low, high = min(load, view.now.low80), max(load, view.now.high80)
    room = max((high - low) * FREE, 1e-9)

    def x(amount: float) -> float:
        return (amount - low + room) / (high - low + 2 * room) * 100

    shown = load_words(tested.load, view.lift)
    head = f"{first_up(tested.source)} {tested.reps}RM {shown}, {ago(days)}"
    now = f"Band: today's {tested.reps}RM, 80 % sure"
    sentence = tested.holds.words if tested.holds else BESIDE[tested.source]
    ticks = (view.now.low80, view.now.estimate, view.now.high80)
    labels = "".join(_label(x(amount), said(amount, view)) for amount in ticks)
    st.html(
        '<div class="holds">'
        f'<p class="over">{escape(head)}</p>'
        '<div class="scale" aria-hidden="true"><i class="axis"></i>'
        f'<i class="band" style="left:{x(view.now.low80):.1f}%;width:{x(view.now.high80) - x(view.now.low80):.1f}%"></i>'
        f'<i class="tick" style="left:{x(view.now.estimate):.1f}%"></i><u class="made" style="left:{x(load):.1f}%"></u>'
        f"{labels}{_label(x(load), f'{tested.source} {shown}', above=True)}</div>"
        f'<p class="under">{escape(now)}</p><p class="plain">{escape(sentence)}</p>{_shares(tested)}</div>'
    )
    if view.contradicts:
        st.html(f'<p class="plain note">{escape(view.contradicts)}</p>')


def _label(x: float, words: str, *, above: bool = False) -> str:
    """Put a text at its mark, and inside at either end."""
    side = " first" if x < EDGE else " last" if x > 100 - EDGE else ""
    return f'<small class="{"above" if above else "below"}{side}" style="left:{x:.1f}%">{escape(words)}</small>'


def _shares(tested: Reference) -> str:
    """Say what each likelihood is of, and that the three together are all there is."""
    if tested.holds is None:
        return ""
    known = tested.holds
    rows = (
        (known.within, f"it holds: today's {tested.reps}RM is within {MARGIN * 100:g} % of it"),
        (known.above, "it is too low by now: more than that above it"),
        (known.below, "it no longer holds: more than that below it"),
    )
    said_rows = "".join(f"<li><b>{escape(_share(share))}</b><span>{escape(words)}</span></li>" for share, words in rows)
    head = "How likely each is, and what would settle it" if known.settle else "How likely each is"
    settle = f'<p class="plain small">{escape(known.settle)}</p>' if known.settle else ""
    return f'<details class="behind"><summary>{head}</summary><ul class="shares">{said_rows}</ul>{settle}</details>'


def _share(share: float) -> str:
    """Write one of the three, so that together they make a hundred."""
    return "under 1 %" if share < LEAST else percent(share)
