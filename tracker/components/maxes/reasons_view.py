"""Behind a touch: what moved the estimate, and which formula came nearest before each test."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

import streamlit as st

from tracker.charts.words import day_words
from tracker.components.frame.frame import Here
from tracker.components.maxes.trend_tables import formula_rows
from tracker.components.maxes.trend_words import said
from tracker.desk.maxes import reasons
from tracker.desk.maxes.reasons import Moved
from tracker.desk.maxes.trend import TrendView
from tracker.strength.hindcast import ENOUGH, Hindcast, Score
from tracker.units import Unit
from tracker.wording import counted

FULL = 45.0  # per cent of the row: the longest bar, on either side of the middle
SHOWN = 6  # methods in the picture, the nearest first


def why(now: Here, view: TrendView) -> None:
    """What moved the nRM on the last day with sets, as bars."""
    found = reasons.why_now(now.log, now.member, view.lift, view.reps, view.unit)
    if found is None:
        return
    st.html(
        f'<p class="plain"><b>{escape(day_words(found.day))}:</b> {escape(said(found.expected.estimate, view))} was expected '
        f"before its sets, {escape(said(found.after.estimate, view))} was believed after them.</p>"
    )
    earlier = [Moved(day_words(day), amount) for day, amount in found.earlier]
    most = max((abs(each.amount) for each in (*found.sets, *earlier)), default=0.0)
    _bars("Its sets", found.sets, view.unit, most)
    if earlier:
        _bars("The days before", earlier, view.unit, most)
    st.caption("Each bar: how much higher (right) or lower (left) the estimate stands for it than it would without.")


def _bars(title: str, moved: Sequence[Moved], unit: Unit, most: float) -> None:
    rows = "".join(_bar(each, unit, most) for each in moved)
    st.html(f'<p class="over">{escape(title)}</p><div class="moved" role="list">{rows}</div>')


def _bar(each: Moved, unit: Unit, most: float) -> str:
    share = FULL * abs(each.amount) / most if most else 0.0
    left = 50 - share if each.amount < 0 else 50.0
    note = f"<small>{escape(each.note)}</small>" if each.note else ""
    return (
        f'<div role="listitem"><span>{escape(each.words)}{note}</span>'
        f'<i aria-hidden="true"><b style="left:{left:.1f}%;width:{share:.1f}%"></b></i><em>{_amount(each.amount, unit)}</em></div>'
    )


def _amount(amount: float, unit: Unit) -> str:
    """Write a share to the half kilogram or the pound; what is less is hardly anything."""
    steps = 2 if unit == "kg" else 1
    shown = round(amount * steps) / steps
    return f"{'+' if shown > 0 else '−'}{abs(shown):g} {unit}" if shown else "hardly"


def which(now: Here, view: TrendView) -> None:
    """How near each formula and the estimate came before each test, and the member's own curve."""
    found = reasons.which_suits(now.log, now.member, view.lift)
    if found is None:
        return
    _verdict(found.hindcast)
    st.html(
        f'<p class="plain"><b>Your curve:</b> 80 % of your 1RM is good for about {counted(round(found.own_at_80), "repetition")}; '
        f"of somebody unknown about {round(found.most_at_80)} would be expected.</p>"
    )
    formula_rows(view)


def _verdict(found: Hindcast) -> None:
    known = [score for score in found.scores if score.error_percent is not None]
    if not known:
        st.html(f'<p class="plain">{escape(found.words)}</p>')
        return
    best = known[0]
    head = (
        f"Nearest so far: {best.name}, off by {best.error_percent:.0f} %"
        if best.tests >= ENOUGH
        else "Too few tests to tell formulas apart"
    )
    shown = known[:SHOWN]
    ours = next((score for score in known if score.key == "estimate"), None)
    if ours is not None and ours not in shown:
        shown = [*shown[: SHOWN - 1], ours]
    far = max((abs(error) for score in shown for _, error in score.each), default=1.0) or 1.0
    rows = "".join(_errors(score, far) for score in shown)
    st.html(
        f'<p class="over">{escape(head)}</p><p class="plain">{escape(found.words)}</p><div class="errors" role="list">{rows}</div>'
        f'<p class="plain small scale-words"><span>{far:.0f} % too low</span><span>right</span><span>{far:.0f} % too high</span></p>'
    )
    with st.expander("Each test", key="trend_tests_told"):
        told = [
            {"test": day_words(test.day), **{score.name: _error(score, test) for score in shown}}
            for test in found.tests
        ]
        st.table(told, hide_index=True)


def _error(score: Score, test: object) -> str:
    error = next((error for each, error in score.each if each == test), None)
    return "–" if error is None else f"{error:+.0f} %".replace("-", "−")


def _errors(score: Score, far: float) -> str:
    dots = "".join(f'<u style="left:{50 + 46 * error / far:.1f}%"></u>' for _, error in score.each)
    told = f"{score.error_percent:.0f} %" if score.error_percent is not None else "–"
    return (
        f'<div role="listitem"><span>{escape(score.name)}</span>'
        f'<i aria-hidden="true">{dots}</i><em>±{told}<small>{counted(score.tests, "test")}</small></em></div>'
    )
