"""What stands beside the trend's figure: the same as a table and a file, and what formulas say today."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from html import escape

import streamlit as st

from tracker.charts.records import BandPoint
from tracker.charts.words import day_words, estimated
from tracker.components.frame import as_file
from tracker.components.frame.frame import Here
from tracker.components.maxes.trend_view import band_points, formula_set
from tracker.components.maxes.trend_words import band_words, said
from tracker.desk.maxes import trend
from tracker.desk.maxes.trend import TrendView
from tracker.strength.formulas import FormulaValue
from tracker.units import Unit, from_kg


def table(now: Here, view: TrendView, since: date) -> None:
    """The figure as a table, newest first, and as a file with every digit."""
    if not view.points:
        return
    whole = trend.trend(now.log, now.member, view.lift, reps=view.reps, unit=view.unit, day=now.today, since=since)
    points = band_points(whole, since)
    rows = [
        {
            "day": point.day,
            f"{view.reps}RM": said(point.estimate, view),
            "80 % sure": band_words(point.low, point.high, view),
            "in hindsight": "" if point.smoothed is None else said(point.smoothed, view),
        }
        for point in reversed(points)
    ]
    day = {"day": st.column_config.DateColumn(format="D MMM YYYY")}
    st.dataframe(rows, hide_index=True, key="trend_rows", column_config=day, alt=f"Estimated {view.reps}RM by day")
    as_file.save(full_digits(points, view.unit), f"{view.lift.title} {view.reps}RM", key="trend_csv")


def full_digits(points: Sequence[BandPoint], unit: Unit) -> list[dict[str, object]]:
    """Return the points as rows, oldest first, loads in `unit`, not rounded."""
    return [
        {
            "day": point.day, f"estimate ({unit})": point.estimate, f"low ({unit})": point.low, f"high ({unit})": point.high,
            f"in hindsight ({unit})": point.smoothed,
        }
        for point in points
    ]  # fmt: skip


def formula_rows(view: TrendView) -> None:
    """Formulas side by side today, each on the best set in its range; where each comes from stands behind a touch."""
    if not view.formulas:
        return
    telling = [each for each in view.formulas if each.one_rm_kg is not None]
    if telling:
        st.html('<p class="over">What each says of the 1RM today</p>')
        st.table([_formula_row(each, view) for each in telling], hide_index=True)
    with st.expander("Where they come from", key="trend_sources"):
        st.caption(
            "1RM from the best set of the last 42 days that lies in the formula's range, of what is really moved. A formula "
            "counts the repetitions done and those said to be left. Of the real lifters that could be compared no formula was "
            "clearly the best, and neither was the estimate's own curve."
        )
        st.html("".join(f'<p class="plain small">{escape(_source(each))}{_silent(each)}</p>' for each in view.formulas))


def _source(each: FormulaValue) -> str:
    formula = each.formula
    status = formula.status if each.reps is None else formula.status_at(each.reps)
    return f"{formula.name}: {formula.citation} ({status}); {formula.range_words}; {formula.population}."


def _silent(each: FormulaValue) -> str:
    return "" if each.one_rm_kg is not None else f" <b>No value today:</b> {escape(each.reason)}"


def _formula_row(each: FormulaValue, view: TrendView) -> dict[str, str]:
    moved = " moved" if view.lift.body else ""
    one = f"{estimated(from_kg(each.one_rm_kg or 0.0, view.unit), view.unit)}{moved}"
    when = day_words(each.day) if each.day else ""
    return {"formula": each.formula.name, "1RM": one, "from": f"{formula_set(each, view)}, {when}"}
