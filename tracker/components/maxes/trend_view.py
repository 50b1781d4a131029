"""The trend of a lift: what it means in a sentence, and the figure."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from html import escape
from typing import Literal

import streamlit as st

from tracker.charts.fan import fan_words, with_fan
from tracker.charts.goal import GoalMark, goal_sentence, with_goals
from tracker.charts.records import BandPoint, FormulaMark, MaxMark, SetDot, Span, effort_of
from tracker.charts.sketch import sketch
from tracker.charts.thinned import thinned
from tracker.charts.trend import trend_figure, trend_words
from tracker.charts.words import typed
from tracker.components.frame import plot
from tracker.components.frame.words import done_words, set_words
from tracker.components.maxes import holds_picture
from tracker.components.maxes.trend_choice import Drawn
from tracker.components.maxes.trend_words import band_words, said
from tracker.desk.maxes.references import Reference
from tracker.desk.maxes.trend import TrendView
from tracker.strength.formulas import FormulaValue
from tracker.units import from_kg
from tracker.wording import counted

SOURCES: dict[str, Literal["tested", "declared", "set aside"]] = {
    "tested": "tested", "declared": "declared", "set aside": "set aside",
}  # fmt: skip
LEAST_DAYS = 2  # a line of one day is a dot that tells nothing


def formula_set(each: FormulaValue, view: TrendView) -> str:
    """Say the set that a formula's value is of, as it was done; where the body is lifted its load is all that was moved."""
    if each.of is None:
        return ""
    moved = " moved" if view.lift.body else ""
    left = None if each.of.rir is None else Decimal(repr(each.of.rir))
    load = f"{typed(from_kg(each.of.load_kg, view.unit), view.unit)}{moved}"
    return done_words(each.of.reps, load, each.of.outcome, each.of.kind, left)


def headline(view: TrendView, today: date) -> None:
    """Say what became of the nRM, what it is now, and how sure that is."""
    if view.now is None:
        st.write(
            view.little or "The sets of this lift say nothing of a max yet: a working set with its repetitions does."
        )
        return
    band = band_words(view.now.low80, view.now.high80, view, "and")
    each = " each" if view.lift.implements > 1 else ""
    now = f"{said(view.now.estimate, view)}{each}"
    if view.gain is None:
        head, sure = now, ""
    else:
        head = view.gain.words(today, each=view.lift.implements > 1)
        began = said(view.gain.then.estimate, view)
        sure = f"From about {began} on {view.gain.since_words(today)}; {view.gain.sure}. "
    if view.miss is not None:
        _missed_first(view, today, band, sure)
        return
    st.html(
        f'<p class="big">{escape(head)}</p>'
        f'<p class="plain">{escape(sure)}<b>Estimated {view.reps}RM today: {escape(now)}</b>, 80 % sure it is between {escape(band)}. '
        f"From {counted(len(view.sets), 'set')}.</p>"
    )
    _beside(view)


def _beside(view: TrendView) -> None:
    if view.would_narrow:
        st.html(f'<p class="plain">{escape(view.would_narrow)}</p>')
    for flag in view.flags:
        st.info(flag, icon=":material/flag:")


def _missed_first(view: TrendView, today: date, band: str, sure: str) -> None:
    """Where as much as the estimate was missed and not made since, that stands first, and of the estimate the band alone."""
    miss = view.miss
    assert miss is not None
    each = " each" if view.lift.implements > 1 else ""
    gain = f"{view.gain.words(today, each=bool(each))}. " if view.gain is not None and view.gain.told else ""
    st.html(
        f'<p class="big">{escape(miss.short)}</p>'
        f'<p class="plain">Not made {view.reps} {"time" if view.reps == 1 else "times"} {escape(miss.when(today))}, nor since. '
        f"<b>Estimated {view.reps}RM today: 80 % sure it is between {escape(band)}{each}.</b> {escape(gain + sure)}"
        f"From {counted(len(view.sets), 'set')}.</p>"
    )
    _beside(view)


def holds(view: TrendView, options: Sequence[Reference], today: date) -> None:
    """Draw whether the tested max, or a declared one, still holds."""
    tested = next((each for each in options if each.source in ("tested", "declared")), None)
    if tested is not None:
        holds_picture.show(view, tested, tested.age_days(today))


def figure(
    view: TrendView,
    choice: Drawn,
    waves: Sequence[tuple[str, date, date]],
    today: date,
    ahead: Sequence[BandPoint] = (),
    goals: Sequence[GoalMark] = (),
) -> None:
    """Draw the estimate up to today, the two ends of what the headline counts, what was asked for, the weeks `ahead`, and goals."""
    points = band_points(view, choice.since)
    if view.now is None:
        return
    if len({point.day for point in points}) < LEAST_DAYS:
        st.write("The line begins with the second day of this lift in the period.")
        return
    ends = _ends(view, today)
    drawing = st.container(key="trend_drawing", gap=None)
    few = [
        *(end for end in ends[:1] if end.day < points[0].day),
        *thinned(points),
        *(end for end in ends[1:] if end.day > points[-1].day),
    ]
    with drawing:  # the figure's script takes a phone seconds; frame.css hides the sketch once the figure is there
        st.html(sketch([*few, *ahead], view.unit, body=view.lift.body))
    alt = trend_words(points, unit=view.unit, reps=view.reps, lift=view.lift.title, body=view.lift.body)
    alt += fan_words(ahead, unit=view.unit, body=view.lift.body)
    alt += goal_sentence(goals, unit=view.unit, body=view.lift.body)
    drawn = trend_figure(
        few,
        unit=view.unit,
        body=view.lift.body,
        reps=view.reps,
        maxes=_maxes(view, choice.since),
        sets=_dots(view, choice.since) if "sets" in choice.also else (),
        formulas=_formulas(view, choice.since) if "formulas" in choice.also else (),
        waves=[Span(first, last, f"wave {name}") for name, first, last in waves if last >= points[0].day],
        ends=ends,
        training_days=[day for day in view.trained if day >= choice.since],
        hindsight="hindsight" in choice.also,
        dark=plot.is_dark(),
    )
    with_fan(drawn, ahead, unit=view.unit, body=view.lift.body, reps=view.reps, dark=plot.is_dark())
    with_goals(drawn, goals, unit=view.unit, body=view.lift.body, dark=plot.is_dark())
    with drawing:
        plot.show(drawn, key="trend_figure", alt=alt)


def _ends(view: TrendView, today: date) -> tuple[BandPoint, ...]:
    """Return the two points between which the gain is counted."""
    if view.gain is None:
        return ()
    days = ((view.gain.since, view.gain.then), (max(today, view.points[-1].day), view.gain.now))
    return tuple(BandPoint(day, band.estimate, band.low80, band.high80) for day, band in days)


def band_points(view: TrendView, since: date) -> list[BandPoint]:
    """Turn the view's points into those of a figure."""
    return [
        BandPoint(
            each.day, each.band.estimate, each.band.low80, each.band.high80,
            each.smoothed.estimate if each.smoothed else None,
        )
        for each in view.points
        if each.day >= since
    ]  # fmt: skip


def _maxes(view: TrendView, since: date) -> list[MaxMark]:
    made = [
        MaxMark(each.day, each.load, SOURCES[each.source])
        for each in view.facts
        if each.reps == view.reps and each.day >= since
    ]
    return made + [MaxMark(each.day, each.load, "missed") for each in view.missed if each.day >= since]


def _dots(view: TrendView, since: date) -> list[SetDot]:
    return [
        SetDot(
            row.day, float(row.load.to(view.unit)),
            effort_of(outcome=row.outcome, kind=row.kind, rir=None if row.rir is None else float(row.rir)), set_words(row),
        )
        for row in view.sets
        if row.day >= since and not row.left_out
    ]  # fmt: skip


def _formulas(view: TrendView, since: date) -> list[FormulaMark]:
    if view.reps != 1 or view.lift.body:  # a formula is of all that is moved, and the figure of what is added
        return []
    return [
        FormulaMark(each.day, from_kg(each.one_rm_kg, view.unit), each.formula.name, formula_set(each, view))
        for each in view.formulas
        if each.one_rm_kg is not None and each.day is not None and each.day >= since
    ]  # fmt: skip
