"""Training load: more or less than usual, how hard it was, what is planned; one picture of weeks, and the detail behind touches."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import timedelta
from html import escape

import streamlit as st

from tracker.charts.records import WeekBar
from tracker.charts.weeks import weeks_figure
from tracker.components.frame import as_file, kept, plot
from tracker.components.frame.frame import here
from tracker.components.frame.words import first_up, full_day
from tracker.conditioning.load import ANCHORS, Stand, Usual
from tracker.desk.history.training_load import Ahead, Compared, Figure, LoadReport, LoadWeek
from tracker.units import from_kg
from tracker.wording import counted

SHOWN = 12  # weeks in the picture
LOAD, TIME, SETS, MOVED = "load", "time", "sets", "moved"
WHAT = "Load in points: minutes × how hard (0 to 10); an hour at 5 of 10 is 300."
NAMES = {LOAD: "Load", TIME: "Time", SETS: "Sets", MOVED: "Moved"}
HEADS = {
    ("more", True): "More than usual so far", ("more", False): "More than usual",
    ("less", True): "Less than usual so far", ("less", False): "Less than usual",
    ("as usual", True): "About as usual so far", ("as usual", False): "About as usual",
}  # fmt: skip


def week(report: LoadReport) -> None:
    """Say how one of the last two weeks stands to what is usual, and its figures as tiles."""
    options = {"this": "This week", "last": "Last week"}
    first = "this" if report.this_week.each.week.sessions else "last"
    chosen = report.this_week if kept.one_of("of", "Week", options, default=first) == "this" else report.last_week
    st.html(_headline(chosen) + _tiles(chosen))
    if report.back and chosen is report.this_week:
        st.html(f'<p class="plain">{escape(first_up(report.back))}.</p>')


def _headline(chosen: Compared) -> str:
    on = chosen.days < 7
    if not chosen.each.week.sessions:
        return f'<p class="headline">{"Nothing logged yet" if on else "Nothing logged"}</p>'
    basis = _basis(chosen)
    rate = f"rate {counted(chosen.each.week.unrated, 'session')} to compare" if chosen.each.week.unrated else ""
    if stand := chosen.stand:
        also = f" {first_up(rate)} the load." if rate and "load" not in chosen.stands else ""
        why = f'<p class="plain">{escape(why_words(chosen.stands) + also)}</p>'
        return f'<p class="headline {stand.split()[-1]}">{HEADS[stand, on]}</p>{why}{basis}'
    if rate:
        return f'<p class="headline">{first_up(rate)}</p>{basis}'
    return f'<p class="headline">{counted(chosen.each.week.sessions, "session")}</p>{basis}'


def why_words(stands: Mapping[Figure, Stand]) -> str:
    """Say which figures are above or below what is usual, such as `Load and time are above your usual range, the rest in it`."""
    sides = {"above": [], "below": [], "in": []}
    for name, stand in stands.items():
        sides[{"more": "above", "less": "below", "as usual": "in"}[stand]].append(name)
    parts = [(where, names) for where, names in sides.items() if names and where != "in"]
    if not parts:
        every = "All" if len(stands) > 2 else first_up(" and ".join(stands))
        return f"{every} {'is' if len(stands) == 1 and 'sessions' not in stands else 'are'} in your usual range."
    said = []
    for number, (where, names) in enumerate(parts):
        verb = "is" if len(names) == 1 and names != ["sessions"] else "are"
        said.append(
            f"{' and '.join([', '.join(names[:-1]), names[-1]] if names[:-1] else names)} {verb} {where} {'it' if number else 'your usual range'}"
        )
    rest = ", the rest in it" if len(sides["in"]) > 1 else f", {sides['in'][0]} in it" if sides["in"] else ""
    return f"{first_up('; '.join(said))}{rest}."


def _basis(chosen: Compared) -> str:
    """Say up to which day a week that is on is compared, once for all that stands below."""
    if not 0 < chosen.days < 7:
        return ""
    last = chosen.each.week.first + timedelta(days=chosen.days - 1)
    days = f"Monday to {last:%A}" if chosen.days > 1 else "Monday"
    return f'<p class="plain soft">{days}, beside the same days of your last weeks.</p>'


def _tiles(chosen: Compared) -> str:
    each = chosen.each
    least = "at least " if chosen.load is None else ""
    rating, stands = each.rating, chosen.stands
    hard = f"{rating:.0f}" if rating is not None and rating == int(rating) else f"{rating or 0:.1f}"
    anchor = ANCHORS.get(round(rating), "") if rating is not None else ""
    usually = _usually(chosen.usual_rating, chosen, stands.get("how hard"))
    tiles = (
        ("Load", f"{least}{each.week.known_load:,.0f}", "points", _usually(chosen.usual, chosen, stands.get("load"))),
        ("Time", f"{each.week.minutes:,.0f}", "min", _usually(chosen.usual_minutes, chosen, stands.get("time"))),
        (
            "How hard", "–" if rating is None else hard, "of 10" if rating is not None else "not rated",
            ", ".join(part for part in (anchor.lower(), usually) if part),
        ),
        ("Sessions", str(each.week.sessions), "done", _usually(chosen.usual_sessions, chosen, stands.get("sessions"))),
    )  # fmt: skip
    cells = "".join(
        f"<div><dt>{escape(name)}</dt><dd>{escape(amount)} <span>{escape(unit)}</span></dd><dd>{escape(said)}</dd></div>"
        for name, amount, unit, said in tiles
    )
    return f'<dl class="tiles">{cells}</dl><p class="plain soft">{WHAT}</p>'


def _usually(usual: Usual | None, chosen: Compared, stand: Stand | None) -> str:
    """Say a usual range, and on which side of it the week stands: `above: usually 320 to 640`.

    Nothing while it is not known, or none of the week's days counts yet.
    """
    side = {"more": "above: ", "less": "below: "}.get(stand or "", "")
    return f"{side}usually {_range(usual)}" if usual and chosen.days else ""


def _range(usual: Usual, one: str = "") -> str:
    """Say a range, with `one` of what it counts: `9 to 20 sets`, `1 set`."""
    low, high = (f"{round(amount, 1):,.1f}".removesuffix(".0") for amount in (usual.low, usual.high))
    plural = one if high == "1" else f"{one}s"
    name = f" {plural}" if one else ""
    return (low if low == high else f"{low} to {high}") + name


def _minutes(each: LoadWeek) -> float:
    return each.week.minutes


def ahead(report: LoadReport) -> None:
    """Say whether a jump is coming: what is planned, beside what is usual."""
    head, rest = ahead_words(report)
    left = f"<br>Left this week: {escape(_planned(report.left))}." if report.left.sessions else ""
    st.html(f'<p class="plain"><b>{escape(head)}</b> {escape(rest)}{left}</p>')


def ahead_words(report: LoadReport) -> tuple[str, str]:
    """Say what is planned next week, and whether that is more than usual: the gist, and the figures."""
    planned = report.ahead
    if not planned.sessions:
        return "Next week:", "nothing is planned yet."
    said = f"Next week: {_planned(planned)}"
    sessions, sets = report.usual_of(lambda one: one.week.sessions), report.usual_of(lambda one: one.sets)
    for amount, usual, name in ((planned.sets, sets, "set"), (planned.sessions, sessions, "session")):
        if usual is not None and amount > usual.high:
            return "A jump is coming.", f"{said}; usually {_range(usual, name)} a week."
    if sets is None:
        return "Next week:", f"{_planned(planned)}."
    return "No jump coming.", f"{said}; usually {_range(sets, 'set')} a week."


def _planned(planned: Ahead) -> str:
    parts = [counted(planned.sessions, "session")]
    parts += [counted(planned.sets, "set")] if planned.sets else []
    parts += [counted(planned.pieces, "piece")] if planned.pieces else []
    return ", ".join(parts)


def picture(report: LoadReport) -> None:
    """Draw the weeks by one quantity, over what is usual, with what is planned next."""
    unit = here().member.unit
    amounts: dict[str, tuple[Callable[[LoadWeek], float], str, str]] = {
        LOAD: (lambda one: one.week.known_load, "load", "points"),
        TIME: (_minutes, "time", "min"),
        SETS: (lambda one: float(one.sets), "sets", "in a week"),
        MOVED: (lambda one: from_kg(one.tonnage_kg, unit), "moved", unit),
    }
    by = kept.one_of("by", "Weeks by", NAMES, default=LOAD)
    amount, quantity, of = amounts[by]
    rated = by in (LOAD, TIME)
    bars = [
        WeekBar(
            each.week.first, amount(each), _said(each), at_least=rated and each.week.unrated > 0, silent=each.week.silent and each is not report.weeks[-1],
        )
        for each in report.weeks[max(_began(report), len(report.weeks) - SHOWN) :]
    ]  # fmt: skip
    left, planned = (
        {LOAD: each.load or 0.0, SETS: float(each.sets)}.get(by, 0.0) for each in (report.left, report.ahead)
    )
    bars[-1] = replace(bars[-1], planned=left)
    if planned:
        bars.append(WeekBar(report.ahead.first, 0.0, planned=planned))
    usual = report.usual_of(amount, rated=rated)
    drawn = weeks_figure(
        bars, quantity=quantity, unit=of, usual=(usual.low, usual.high) if usual else None, dark=plot.is_dark()
    )
    alt = f"{NAMES[by]} by week; this week: {_said(report.weeks[-1])}. The table below holds the same."
    plot.show(drawn, key=f"load_figure_{by}", alt=alt)
    if any(bar.at_least for bar in bars):
        st.caption("Hatched: a session of that week is not rated or has no minutes, so there was more.")
    if any(bar.silent for bar in bars):
        st.caption("?: nothing logged that week, so it is not compared.")


def _said(each: LoadWeek) -> str:
    if each.week.silent:
        return "nothing logged"
    parts = (
        f"load {each.words}", counted(each.week.sessions, "session"), f"{each.week.minutes:,.0f} min",
        counted(each.sets, "set"), f"{_tonnes(each)} moved",
    )  # fmt: skip
    return ", ".join(parts)


def _tonnes(each: LoadWeek) -> str:
    """What was moved, in the member's unit."""
    if here().member.unit == "lb":
        return f"{from_kg(each.tonnage_kg, 'lb'):,.0f} lb"
    return f"{each.tonnage_kg / 1000:.1f} t"


def table(report: LoadReport) -> None:
    """All weeks as a table, newest first, and each lift of the last two."""
    with st.expander("Every week", key="load_table"):
        every = [_row(each) for each in reversed(report.weeks[_began(report) :])]
        st.dataframe(every, hide_index=True, key="load_rows", alt="The weeks, newest first")
        as_file.save(every, "load by week", key="load_csv")
    with st.expander("By lift, this week and last", key="load_lifts"):
        rows = [
            {"week of": full_day(each.week.first), "lift": lift.lift, "sets": lift.sets, "hard sets": str(lift.hard_sets), "reps": lift.reps}
            for each in reversed(report.weeks[-2:])
            for lift in each.volume
        ]  # fmt: skip
        if rows:
            st.dataframe(rows, hide_index=True, key="load_lift_rows", alt="Sets by lift of the last two weeks")
            st.caption(
                "Hard set: a work set with 3 repetitions or fewer left, a miss or a test. Our choice. Sets whose repetitions left were not said may or may not be hard."
            )
        else:
            st.caption("No sets in these two weeks.")


def _began(report: LoadReport) -> int:
    """Where the weeks begin in which anything was logged."""
    return next((n for n, each in enumerate(report.weeks) if not each.week.silent), 0)


def _row(each: LoadWeek) -> dict[str, str]:
    return {
        "week of": full_day(each.week.first), "load, points": each.words, "sessions": str(each.week.sessions),
        "min": f"{each.week.minutes:.0f}", "sets": str(each.sets), "hard sets": str(each.hard_sets), "moved": _tonnes(each),
        "monotony": f"{each.week.monotony() or 0:.2f}" if each.week.tells_monotony else "",
    }  # fmt: skip
