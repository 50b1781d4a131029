"""All lifts at a glance: each a row to touch, with a small picture, what became of it in three months, and its test apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from html import escape
from typing import TYPE_CHECKING

import streamlit as st

from tracker.charts.records import BandPoint, MaxMark
from tracker.charts.spark import spark
from tracker.charts.words import between, estimated
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up, load_words
from tracker.desk.maxes import estimates, glance
from tracker.desk.maxes.glance import LiftGlance
from tracker.log.records import LiftRecord
from tracker.wording import counted

if TYPE_CHECKING:
    from streamlit.delta_generator import DeltaGenerator

FIRST = 3  # lifts in sight at once; the others stand behind a touch, and are not worked out before it


@dataclass(frozen=True, slots=True)
class Waiting:
    """A row whose lift is still to be estimated: where it stands, and what it will show."""

    box: DeltaGenerator
    lift: LiftRecord
    today: bool


def show(now: Here, lifts: Sequence[LiftRecord], chosen: LiftRecord, today: Sequence[LiftRecord]) -> list[Waiting]:
    """Draw the lifts, those of today first; a touch on one makes it the lift below.

    An estimate that is not in memory takes a moment. So that nobody waits for other lifts than the chosen one, rows of such
    lifts stand there with their name alone, and `fill` draws the rest once all else of the page is there.
    """
    ours = {lift.id for lift in today}
    waiting: list[Waiting] = []
    st.html('<p class="over">Your lifts, last 3 months</p>')
    with st.container(key="glance", gap=None):
        for lift in lifts[:FIRST]:
            row = Waiting(_row(lift, here=lift == chosen), lift, lift.id in ours)
            if lift == chosen or estimates.is_kept(now.log, now.member.id, lift):
                _fill(now, row)
            else:
                row.box.html('<div class="glance" aria-busy="true"><p>…</p></div>')
                waiting.append(row)
    if len(lifts) > FIRST:
        rest = lifts[FIRST:]
        box = st.expander(f"{counted(len(rest), 'other lift')}", key="glance_rest", on_change="rerun")
        if box.open:
            with box, st.container(key="glance_more", gap=None):
                for lift in rest:
                    _fill(now, Waiting(_row(lift, here=lift == chosen), lift, today=False))
    return waiting


def fill(now: Here, waiting: Sequence[Waiting]) -> None:
    """Estimate the lifts that are left, one after the other, each drawn as soon as it is there."""
    for row in waiting:
        _fill(now, row)


def _row(lift: LiftRecord, *, here: bool) -> DeltaGenerator:
    """Draw what of a row is known at once, and return where the rest goes."""
    with st.container(key=f"glance_{'on' if here else 'row'}_{lift.id}", gap=None):
        st.button(
            first_up(as_typed(lift.title)), key=f"glance_go_{lift.id}", type="tertiary", on_click=_go, args=(lift.id,)
        )
        return st.empty()


def _fill(now: Here, row: Waiting) -> None:
    seen = glance.glance(now.log, now.member, row.lift, now.today)
    row.box.html(f'<div class="glance">{_words(seen, now, today=row.today)}{_picture(seen, now)}{_gain(seen)}</div>')


def _go(lift_id: str) -> None:
    st.query_params["lift"] = lift_id
    st.query_params.pop("reps", None)  # which rep-max one looks for is another one for another lift


def _words(seen: LiftGlance, now: Here, *, today: bool) -> str:
    each = " each" if seen.lift.implements > 1 else ""
    if seen.now is None:
        about = "too little known yet"
    elif seen.miss is not None:  # a number that was missed is no headline: how sure it is, and what was missed
        low, high = seen.now.low80, seen.now.high80
        about = f"{seen.reps}RM {between(low, high, partial(estimated, unit=seen.unit, body=seen.lift.body))}{each}"
    else:
        about = f"{seen.reps}RM about {estimated(seen.now.estimate, seen.unit, body=seen.lift.body)}{each}"
    tested = ""
    if seen.tested is not None:
        load, when = load_words(seen.tested.load, seen.lift), short_day(seen.tested.day, now.today)
        tested = f"<span>tested {escape(load.removesuffix(' each'))}, {when}</span>"
    missed = f"<span><b>{escape(seen.miss.short)}</b></span>" if seen.miss else ""
    mark = "<em>in today's session</em>" if today else ""
    return f"<p>{escape(about)}{missed}{tested}{mark}</p>"


def short_day(day: date, today: date) -> str:
    """Write a day with its year only where that is another one than this."""
    return f"{day.day} {day:%b}{'' if day.year == today.year else f' {day.year}'}"


def _picture(seen: LiftGlance, now: Here) -> str:
    points = [BandPoint(day, band.estimate, band.low80, band.high80) for day, band in seen.points]
    tests = [MaxMark(each.day, each.load, "tested" if each.made else "missed") for each in seen.tests]
    return spark(points, tests, seen.first, max(now.today, points[-1].day if points else now.today))


def _gain(seen: LiftGlance) -> str:
    if seen.gain is None or (
        seen.miss is not None and not seen.gain.told
    ):  # "steady" beside a miss tells nobody anything
        return "<p></p>"
    return f"<p><b>{escape(seen.gain.short)}</b></p>"
