"""What the trend shows: which lift, which nRM, in which unit, how far back, and what else is drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import cast

import streamlit as st

from tracker.components.frame import kept
from tracker.components.frame.words import first_up
from tracker.log.records import LiftRecord, MemberRecord
from tracker.prescription.technique import most_reps_shown
from tracker.strength.records import REP_MAXES
from tracker.units import Unit

PERIODS = {"91": "3 months", "365": "1 year", "all": "All"}
AHEAD = {"0": "None", "12": "12 weeks", "26": "26 weeks", "52": "1 year", "104": "2 years"}
ALSO = {"hindsight": "In hindsight", "sets": "Sets", "formulas": "Formulas"}


@dataclass(frozen=True, slots=True)
class Drawn:
    """How it is drawn: the unit, since when, what else, and how many weeks ahead; 0 for none."""

    unit: Unit
    since: date
    also: frozenset[str]
    weeks: int


def ask_lift(lifts: Sequence[LiftRecord]) -> LiftRecord:
    """Draw the choice of lift."""
    by_id = {lift.id: lift for lift in lifts}
    words = {key: first_up(each.title) for key, each in by_id.items()}
    return by_id[kept.select("lift", "Lift", words, default=lifts[0].id)]


def ask_reps(lift: LiftRecord, usual: int) -> int:
    """Draw the choice of the nRM; `usual` stands there at first. Of a technique lift there are three, unless more is known."""
    most = most_reps_shown(lift.name, usual, most=max(REP_MAXES))
    shown = {str(n): f"{n}RM" for n in REP_MAXES if n <= most}
    return int(kept.select("reps", "Rep-max", shown, default=str(usual)))


def ask_drawn(member: MemberRecord, today: date, reps: int, *, body: bool = False) -> Drawn:
    """Draw the choices that go below the figure; formulas speak of the 1RM of a lift whose whole load is on the bar."""
    period = kept.segments("period", "Period", PERIODS, default="365")
    with st.expander(
        f"Draw more, weeks ahead, or in {'kilograms' if member.unit == 'lb' else 'pounds'}",
        key="trend_more", icon=":material/tune:",
    ):  # fmt: skip
        unit = kept.segments("unit", "Unit", {"kg": "kg", "lb": "lb"}, default=member.unit)
        fit = {key: words for key, words in ALSO.items() if key != "formulas" or (reps == 1 and not body)}
        also = kept.several("also", "Draw as well", fit)
        weeks = int(kept.segments("ahead", "Ahead", AHEAD, default="12"))
    since = date.min if period == "all" else today - timedelta(days=int(period))
    return Drawn(cast("Unit", unit), since, frozenset(also), weeks)
