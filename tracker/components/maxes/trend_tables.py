"""What stands beside the trend's figure: the same as a table and a file, every nRM now, and formulas."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from html import escape

import streamlit as st

from tracker.charts.curve import curve_figure
from tracker.charts.records import BandPoint, CurvePoint
from tracker.charts.words import day_words, estimated
from tracker.components.frame import as_file, plot
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import load_words
from tracker.components.maxes.trend_view import band_points, band_words, formula_set, said
from tracker.desk.maxes import marks, trend
from tracker.desk.maxes.marks import CHART_SOURCE, BestMark, CurveView
from tracker.desk.maxes.trend import TrendView
from tracker.prescription.technique import most_reps_shown
from tracker.strength.formulas import FormulaValue
from tracker.strength.records import REP_MAXES
from tracker.units import Unit, from_kg


def table(now: Here, view: TrendView, since: date) -> None:
    """The figure as a table, newest first, and as a file with every digit."""
    if not view.points:
        return
    box = st.expander("As a table", key="trend_table", on_change="rerun")
    if not box.open:  # what nobody looks at is not drawn
        return
    with box:
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


def all_now(now: Here, view: TrendView) -> None:
    """Every nRM now, beside the most that was done, and the curve that they make."""
    if not view.all_now:
        return
    most = most_reps_shown(view.lift.name, max((fact.reps for fact in view.facts), default=1), most=max(REP_MAXES))
    box = st.expander(f"1RM to {most}RM now, and best marks", key="trend_all", on_change="rerun")
    if not box.open:  # what nobody looks at is not drawn
        return
    with box:
        curve = marks.curve(now.log, now.member, view.lift, now.today, unit=view.unit)
        done = {mark.reps: mark for mark in marks.best_marks(now.log, now.member, view.lift, unit=view.unit)}
        points = [
            _curve_point(each, done[each.reps], view.unit) for each in curve if each.reps in done and each.reps <= most
        ]
        drawn = curve_figure(points, unit=view.unit, body=view.lift.body, dark=plot.is_dark())
        plot.show(drawn, key="trend_curve", alt="Most load for 1 to 12 repetitions; the table below holds the same.")
        if not view.lift.body:  # the chart is of the whole load
            st.caption(f"Dashed: {CHART_SOURCE}, hung on the member's own.")
        rows = [
            {
                "rep-max": f"{reps}RM",
                "now": said(band.estimate, view),
                "80 % sure": band_words(band.low80, band.high80, view),
            }
            for reps, band in view.all_now
            if reps <= most
        ]
        st.table(rows, hide_index=True)
        st.markdown(f"**Best marks**, {as_typed(view.lift.title)}")
        best = [
            {
                "rep-max": f"{reps}RM",
                "most done": _mark_words(mark, view),
                "highest estimate": _estimate_words(mark, view),
            }
            for reps, mark in done.items()
            if reps <= most
        ]
        st.table(best, hide_index=True)
        st.caption(
            "A set of five also counts for four and fewer. The highest estimate is seen from now, later sets too."
        )
        as_file.save(
            [{**now, **mark} for now, mark in zip(rows, best, strict=True)],
            f"{view.lift.title} best marks",
            key="marks_csv",
        )


def _curve_point(each: CurveView, mark: BestMark, unit: Unit) -> CurvePoint:
    done = float(mark.done.to(unit)) if mark.done is not None else None
    return CurvePoint(each.reps, each.own.estimate, each.own.low80, each.own.high80, each.common, done)


def _mark_words(mark: BestMark, view: TrendView) -> str:
    if mark.done is None or mark.done_on is None:
        return "–"
    return f"{mark.done_reps} × {load_words(mark.done, view.lift)}, {day_words(mark.done_on)}"


def _estimate_words(mark: BestMark, view: TrendView) -> str:
    if mark.estimated is None or mark.estimated_on is None:
        return "–"
    return f"{said(mark.estimated.estimate, view)}, {day_words(mark.estimated_on)}"


def formulas(view: TrendView) -> None:
    """Formulas side by side, each on the best set in its range, with its source and what that rests on."""
    if not view.formulas:
        return
    box = st.expander("What rep-max formulas say", key="trend_formulas", on_change="rerun")
    if not box.open:  # what nobody looks at is not drawn
        return
    with box:
        st.caption(
            "1RM from the best set of the last 42 days that lies in the formula's range, of what is really moved. A formula "
            "counts the repetitions done and those said to be left. Of the real lifters that could be compared no formula was "
            "clearly the best, and neither was the estimate's own curve."
        )
        st.table([_formula_row(each, view) for each in view.formulas], hide_index=True)
        st.html("".join(f'<p class="plain small">{escape(_source(each))}</p>' for each in view.formulas))


def _source(each: FormulaValue) -> str:
    formula = each.formula
    status = formula.status if each.reps is None else formula.status_at(each.reps)
    return f"{formula.name}: {formula.citation} ({status}); {formula.range_words}; {formula.population}."


def _formula_row(each: FormulaValue, view: TrendView) -> dict[str, str]:
    if each.one_rm_kg is None or each.day is None:
        return {"formula": each.formula.name, "1RM": "–", "from": each.reason}
    moved = " moved" if view.lift.body else ""
    one = f"{estimated(from_kg(each.one_rm_kg, view.unit), view.unit)}{moved}"
    return {"formula": each.formula.name, "1RM": one, "from": f"{formula_set(each, view)}, {day_words(each.day)}"}
