"""Plan a wave by touches: lifts, the day of the test, weeks and days, percentages and shape; it becomes a sheet in the field."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from html import escape
from typing import NamedTuple, cast

import streamlit as st

from tracker.components.frame import plot
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.sheet import wave_ahead
from tracker.components.sheet.sheet_paste import TEXT
from tracker.desk.ahead import plan
from tracker.desk.day import weights
from tracker.desk.maxes import trend
from tracker.errors import BadInputError
from tracker.log.records import LiftRecord
from tracker.prescription.plan import PlanAsk, PlanLift, Shape, plan_sheet, plan_text
from tracker.prescription.plan.ask import weeks_until
from tracker.prescription.plan.taper import WORDS as TAPER
from tracker.prescription.sheet.model import WEEKDAYS
from tracker.prescription.sheet.model import Implement as SheetImplement

FIRST = timedelta(weeks=8)  # until the test, where nobody said yet
USUAL_WEEKS, USUAL_DAYS = 8, (0, 2, 4)
SHAPES: dict[str, str] = {"steady": "Steady", "step": "In steps", "wave": "In waves"}
EASIER = {0: "None", 3: "Each 3rd", 4: "Each 4th"}
TAPERS = {0: "None", 1: "1 week", 2: "2 weeks"}
PERCENTS = tuple(range(40, 121, 5))
SETS, REPS = tuple(range(1, 11)), tuple(range(1, 13))


def show(now: Here) -> None:
    """Draw the fold; nothing is worked out while it is closed."""
    if now.someone is None:
        return
    box = st.expander("Plan a wave", key="plan_wave", icon=":material/timeline:", on_change="rerun")
    if not box.open:
        return
    with box:
        try:
            ask = _ask(now)
        except BadInputError as error:
            st.error(as_typed(f"{error}"), icon=":material/error:")
            return
        if ask is not None:
            _show(now, ask)


def _show(now: Here, ask: PlanAsk) -> None:
    try:
        text, sheet = plan_text(ask), plan_sheet(ask)
    except BadInputError as error:
        st.error(as_typed(f"{error}"), icon=":material/error:")
        return
    found = plan.foresee(now.log, now.member, sheet, now.today)
    wave_ahead.picture(found, key="plan_figure")
    if ask.taper_weeks:
        st.caption(TAPER)
    st.button(
        "Make it a sheet",
        key="plan_make",
        type="primary",
        width="stretch",
        icon=":material/edit_note:",
        on_click=_make,
        args=(text,),
    )
    wave_ahead.set_by_set(found, key="plan_sets")
    plot.follow_the_look()


def _make(text: str) -> None:
    st.session_state[TEXT] = text


def _ask(now: Here) -> PlanAsk | None:
    lifts = weights.lift_choices(now.log, now.member)
    by_id = {each.id: each for each in lifts}
    st.session_state.setdefault("plan_lifts", [lifts[0].id] if lifts else [])
    chosen = st.multiselect("Lifts", list(by_id), format_func=lambda each: by_id[each].title, key="plan_lifts", placeholder="Choose one or more")  # fmt: skip
    test = st.toggle("It ends with a test", value=True, key="plan_test")
    ends: date = st.date_input(
        "Day of the test" if test else "Last day", value=now.today + FIRST, min_value=now.today + timedelta(days=6),
        key="plan_ends", format="YYYY-MM-DD",
    )  # fmt: skip
    room = weeks_until(ends, now.today)
    weeks = st.selectbox("Weeks", range(1, room + 1), index=min(room, USUAL_WEEKS) - 1, key=f"plan_weeks_{room}")
    days = st.pills(
        "Days",
        range(7),
        format_func=lambda each: WEEKDAYS[each][:3],
        default=USUAL_DAYS,
        selection_mode="multi",
        key="plan_days",
    )
    if not chosen:
        st.html('<p class="plain">Choose a lift.</p>')
        return None
    if not days:
        st.html('<p class="plain">Choose the days of the week.</p>')
        return None
    alike = len(chosen) < 2 or st.toggle("The same numbers for each lift", value=True, key="plan_alike")
    if alike:
        scheme = _scheme()
        wanted = [_lift(now, by_id[each], scheme) for each in chosen]
    else:
        wanted = [_lift(now, by_id[each], _scheme(by_id[each])) for each in chosen]
    shape = st.segmented_control("It rises", list(SHAPES), format_func=SHAPES.__getitem__, default="steady", required=True, key="plan_shape")  # fmt: skip
    easier = st.segmented_control("Easier weeks", list(EASIER), format_func=EASIER.__getitem__, default=0, required=True, key="plan_easier")  # fmt: skip
    taper = 0
    if test and weeks > 1:
        room_for = {each: words for each, words in TAPERS.items() if each < weeks}
        taper = st.segmented_control("Taper before the test", list(room_for), format_func=room_for.__getitem__, default=1, required=True, key=f"plan_taper_{len(room_for)}") or 0  # fmt: skip
    in_turn = len(chosen) > 1 and len(days) > 1 and st.toggle("Lifts in turn over the days", key="plan_in_turn")
    return PlanAsk(
        tuple(wanted), ends, weeks, tuple(sorted(days)), cast("Shape", shape), easier or 0, taper, test, None, in_turn
    )


class Scheme(NamedTuple):
    """Percentages, sets and repetitions, as they are touched."""

    start: int
    end: int
    sets: int
    reps: int
    last_reps: int


def _scheme(lift: LiftRecord | None = None) -> Scheme:
    """Ask for the numbers of one lift, or of all of them."""
    own = f"_{lift.id}" if lift else ""
    if lift:
        st.html(f'<p class="plain"><b>{escape(lift.title)}</b></p>')
    with st.container(horizontal=True, gap="small", key=f"plan_percents{own}"):
        start = st.selectbox("From, %", PERCENTS, index=PERCENTS.index(70), key=f"plan_from{own}")
        higher = [each for each in PERCENTS if each >= start]
        end = st.selectbox("To, %", higher, index=min(4, len(higher) - 1), key=f"plan_to{own}_{start}")
    with st.container(horizontal=True, gap="small", key=f"plan_scheme{own}"):
        sets = st.selectbox("Sets", SETS, index=3, key=f"plan_sets_of{own}")
        reps = st.selectbox("Reps at first", REPS, index=4, key=f"plan_reps{own}")
        last = st.selectbox("Reps at last", REPS, index=2, key=f"plan_last_reps{own}")
    return Scheme(start, end, sets, reps, last)


def _lift(now: Here, lift: LiftRecord, asked: Scheme) -> PlanLift:
    """Make one lift of the plan: its percentages are of the rep-max that is known of it."""
    of = trend.usual_reps(now.log, now.member.id, lift)
    implement = cast("SheetImplement", lift.implement)
    return PlanLift(
        lift.name,
        of,
        Decimal(asked.start),
        Decimal(asked.end),
        asked.sets,
        asked.reps,
        asked.last_reps,
        implement,
        lift.per_side,
    )
