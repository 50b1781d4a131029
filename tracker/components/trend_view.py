"""The trend of a lift: the figure, the same as a table and a file, and what it means in a sentence."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from datetime import date
from html import escape

import streamlit as st

from tracker.charts.curve import curve_figure
from tracker.charts.records import BandPoint, CurvePoint, FormulaMark, MaxMark, SetDot, Span, effort_of
from tracker.charts.template import CONFIG
from tracker.charts.trend import trend_figure, trend_words
from tracker.charts.words import estimated
from tracker.components.trend_choice import Drawn
from tracker.components.words import counted, first_up, set_words
from tracker.desk.marks import CHART_SOURCE, BestMark, CurveView
from tracker.desk.references import Reference
from tracker.desk.trend import TrendView
from tracker.log.records import MemberStepRow
from tracker.strength.records import Band
from tracker.units import Mass, Unit

LEAST_DAYS = 2  # a line of one day is a dot that tells nothing
COLUMNS = ("day", "estimate", "low", "high", "in hindsight")


def band_words(band: Band, unit: Unit) -> str:
    """Say an estimate with its 80 % band: `101 kg (80 % sure: 98 to 104.5 kg)`."""
    low, high = estimated(band.low80, unit).removesuffix(f" {unit}"), estimated(band.high80, unit)
    return f"{estimated(band.estimate, unit)} (80 % sure: {low} to {high})"


def headline(view: TrendView, options: Sequence[Reference], today: date) -> None:
    """Say the nRM now, how sure it is, and whether the tested one still holds."""
    if view.now is None:
        st.write("The sets of this lift say nothing of a max yet: a working set with its repetitions does.")
        return
    low, high = (
        estimated(view.now.low80, view.unit).removesuffix(f" {view.unit}"),
        estimated(view.now.high80, view.unit),
    )
    st.html(
        f'<p class="big">{escape(estimated(view.now.estimate, view.unit))}</p>'
        f'<p class="plain"><b>Estimated {view.reps}RM today;</b> 80 % sure it is between {low} and {high}. '
        f"From {counted(len(view.sets), 'set')}.</p>"
    )
    tested = next((each for each in options if each.holds), None)
    if tested is not None and tested.holds is not None:
        settle = (
            f" To settle it: {tested.holds.settle[:1].lower()}{tested.holds.settle[1:]}" if tested.holds.settle else ""
        )
        st.html(f'<p class="plain">{escape(first_up(tested.words(today)))}. {escape(tested.holds.words + settle)}</p>')
    for flag in view.flags:
        st.info(flag, icon=":material/flag:")


def figure(view: TrendView, choice: Drawn, steps: Sequence[MemberStepRow]) -> None:
    """Draw the estimate over time, with what else was asked for."""
    points = band_points(view, choice.since)
    if view.now is None:
        return
    if len({point.day for point in points}) < LEAST_DAYS:
        st.write("The line begins with the second day of this lift in the period.")
        return
    alt = trend_words(points, unit=view.unit, reps=view.reps, lift=view.lift.title)
    drawn = trend_figure(
        points,
        unit=view.unit,
        reps=view.reps,
        maxes=_maxes(view, choice.since),
        sets=_dots(view, choice.since) if "sets" in choice.also else (),
        formulas=_formulas(view, choice.since) if "formulas" in choice.also else (),
        waves=_waves(steps),
        training_days=[day for day in view.trained if day >= choice.since],
        hindsight="hindsight" in choice.also,
        dark=st.context.theme.type == "dark",
    )
    st.plotly_chart(drawn, key="trend_figure", theme=None, config=CONFIG, alt=alt)


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
    return [
        MaxMark(each.day, each.load, "tested" if each.source == "tested" else "declared")
        for each in view.facts
        if each.reps == view.reps and each.day >= since
    ]


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
    if view.reps != 1:
        return []
    return [
        FormulaMark(each.day, _in_unit(each.one_rm_kg, view.unit), each.formula.name, f"{each.reps:g} × {estimated(_in_unit(each.load_kg, view.unit), view.unit)}")
        for each in view.formulas
        if each.one_rm_kg is not None and each.load_kg is not None and each.day is not None and each.day >= since
    ]  # fmt: skip


def _in_unit(kg: float, unit: Unit) -> float:
    return kg if unit == "kg" else kg / 0.45359237


def _waves(steps: Sequence[MemberStepRow]) -> list[Span]:
    days: dict[str, list[date]] = {}
    for step in steps:
        days.setdefault(step.wave, []).append(step.due)
    return [Span(min(each), max(each), name) for name, each in days.items()]


def table(view: TrendView, since: date) -> None:
    """The figure as a table, newest first, and as a file with every digit."""
    points = band_points(view, since)
    if not points:
        return
    with st.expander("As a table", key="trend_table"):
        rows = [
            {
                "day": point.day.isoformat(),
                "estimate": estimated(point.estimate, view.unit),
                "80 % band": f"{estimated(point.low, view.unit)} to {estimated(point.high, view.unit)}",
                "in hindsight": "" if point.smoothed is None else estimated(point.smoothed, view.unit),
            }
            for point in reversed(points)
        ]
        st.dataframe(rows, hide_index=True, key="trend_rows", alt=f"Estimated {view.reps}RM by day")
        name = f"{view.lift.title} {view.reps}RM".replace(", ", "-").replace(" ", "-")
        st.download_button(
            "Save as CSV", as_csv(points, view.unit), f"{name}.csv", "text/csv", key="trend_csv", on_click="ignore"
        )


def as_csv(points: Sequence[BandPoint], unit: Unit) -> str:
    """Write the points as CSV, oldest first, loads in `unit`, not rounded."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([COLUMNS[0], *(f"{name} ({unit})" for name in COLUMNS[1:])])
    for point in points:
        writer.writerow(
            [
                point.day.isoformat(),
                point.estimate,
                point.low,
                point.high,
                "" if point.smoothed is None else point.smoothed,
            ]
        )
    return out.getvalue()


def all_now(view: TrendView, curve: Sequence[CurveView], marks: Sequence[BestMark]) -> None:
    """Every nRM now, beside the most that was done, and the curve that they make."""
    if not view.all_now:
        return
    done = {mark.reps: mark for mark in marks}
    with st.expander("1RM to 12RM now, and best marks", key="trend_all"):
        points = [
            CurvePoint(each.reps, each.own.estimate, each.own.low80, each.own.high80, each.common, _done(done[each.reps], view.unit))
            for each in curve
            if each.reps in done
        ]  # fmt: skip
        st.plotly_chart(
            curve_figure(points, unit=view.unit, dark=st.context.theme.type == "dark"), key="trend_curve", theme=None,
            config=CONFIG, alt="Most load for 1 to 12 repetitions; the table below holds the same.",
        )  # fmt: skip
        st.caption(f"Dashed: {CHART_SOURCE}, hung on the member's own.")
        st.table(
            [
                {
                    "": f"{reps}RM",
                    "estimated now": band_words(band, view.unit),
                    "most done": _mark_words(done.get(reps)),
                }
                for reps, band in view.all_now
            ],
            hide_index=True,
        )


def _done(mark: BestMark, unit: Unit) -> float | None:
    return float(mark.done.to(unit)) if mark.done is not None else None


def _mark_words(mark: BestMark | None) -> str:
    if mark is None or mark.done is None or mark.done_on is None:
        return "–"
    return f"{mark.done_reps} × {_load(mark.done)}, {mark.done_on.isoformat()}"


def _load(load: Mass) -> str:
    return str(load)


def formulas(view: TrendView) -> None:
    """Published formulas side by side, each on the best set in its range; where there is none, why."""
    if not view.formulas:
        return
    with st.expander("What published formulas say", key="trend_formulas"):
        st.caption(
            "1RM from the best set of the last 42 days that lies in the formula's range, of what is really moved."
        )
        st.table(
            [
                {
                    "formula": each.formula.name,
                    "1RM": each.reason if each.one_rm_kg is None else estimated(_in_unit(each.one_rm_kg, view.unit), view.unit),
                    "from": "" if each.load_kg is None or each.day is None else f"{each.reps:g} × {estimated(_in_unit(each.load_kg, view.unit), view.unit)}, {each.day.isoformat()}",
                }
                for each in view.formulas
            ],
            hide_index=True,
        )  # fmt: skip
