"""The next set, large: what to load, which discs, how likely it is, and one touch that logs it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import streamlit as st

from tracker.components.day import (
    attempt_card,
    back_again,
    body_percent,
    day_sets,
    editor,
    lift_side,
    set_acts,
    set_card,
    set_clock,
    sore_place,
)
from tracker.components.day import unit_today as unit_by_day
from tracker.components.day.usual import usual_set
from tracker.components.frame.acts import touch
from tracker.components.frame.frame import here, token
from tracker.components.frame.words import first_up, load_words, reps_words
from tracker.desk.day import after_miss, attempts, build_up, carried, unit_today
from tracker.desk.day.attempts import NextAttempt
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.next import Next
from tracker.desk.day.today import DayPlan
from tracker.desk.day.usual import first_load
from tracker.log.sets import NewSet
from tracker.prescription.rounding import rounded
from tracker.prescription.technique import technique
from tracker.strength.rpe import RATINGS
from tracker.units import Mass

MOST_FEWER = 20  # repetitions asked; of more the number is typed
OPEN = "today_open"  # key of the line whose fields are open


def show(found: Next, line: PlannedLine) -> None:
    """Draw the card of the next set."""
    plan = found.plan
    with st.container(border=True, key="next_set"):
        at = (
            attempts.next_attempt(here().log, plan.member, plan, line)
            if line.planned.test and not line.painful
            else None
        )
        set_card.show(found, line, at if at and not at.ask_safety else None)
        if line is plan.next_line:
            day_sets.up_to_it(plan)
        lift_side.show(line)
        body_percent.ask(line, plan.day)
        if line.painful:
            sore_place.card(here(), line, plan)
        elif at is not None:
            _attempt(plan, line, at)
        else:
            _buttons(plan, line)
            set_clock.start(plan)
            body_percent.other(line, plan.day)


def _attempt(plan: DayPlan, line: PlannedLine, at: NextAttempt) -> None:
    """An attempt of a test: asked about, proposed, made or missed in a touch; another load by hand."""
    number = len(line.attempts)  # each attempt has fields of its own
    key, drawn = f"line_{line.key}_{number}", token(f"{line.key}_{number}", shared=True)
    attempt_card.clock(plan, line, at)
    if at.ask_safety:
        attempt_card.ask_safety(plan, line)
        return
    if at.end_is_due:
        _end(plan, line, due=True)
    if at.made is not None and st.session_state.get(OPEN) != key:
        attempt_card.made_or_missed(plan, line, at, drawn)
        st.button("Another load", key="change_it", on_click=_open, args=(key, "done", line.planned.reps))
    else:
        scene = editor.SetForm(line.lift, plan.member, plan.place, at.new.load.unit, _most_of(line))
        editor.draw(
            key, at.new, scene, label="Log this attempt", on_log=lambda new: _log(key, new, plan.day, drawn, _most_of(line)),
            asked=line.planned.reps, guessed=at.guessed,
        )  # fmt: skip
        if at.made is not None:
            st.button("Close", key="close_it", type="tertiary", on_click=_close, args=(key,))
    if line.attempts and not at.end_is_due:
        _end(plan, line, due=False)


def _most_of(line: PlannedLine) -> Mass | None:
    """Nothing heavier is offered than what was missed in this test, or before it today."""
    missed = [row.load for row in line.attempts if row.outcome == "missed"]
    return min([*missed, *([line.most] if line.most else [])], key=lambda load: load.kg, default=None)


def _buttons(plan: DayPlan, line: PlannedLine) -> None:
    key, drawn = f"line_{line.key}", token(line.key, shared=True)
    start, known = as_asked(line, plan)
    label, asking = done_label(plan, line), plan.asks_back and line.made is not None
    if (label or asking) and st.session_state.get(OPEN) != key:
        if asking:
            back_again.ask(here(), plan, line)
        else:
            st.button(
                label, type="primary", width="stretch", key="log_as_asked", on_click=_log,
                args=(key, start, plan.day, drawn),
            )  # fmt: skip
            _with_left(key, start, plan.day, drawn, line)
        with st.container(horizontal=True, gap="small", key="beside_done"):
            st.button(
                "Change it", key="change_it", on_click=_open, args=(key, "done", None if line.uncounted else line.reps)
            )
            fewer = None if line.uncounted else max(line.reps - 1, 0)
            st.button("Missed", key="missed_it", on_click=_open, args=(key, "missed", fewer))
            _enough(plan, line)
        _carry(plan, line)
        return
    if label:
        _fewer(key, start, plan.day, drawn, line.most)
    member, place = unit_today.seen(plan.member, plan.place, plan.choices, line.lift.id, plan.day)
    scene = editor.SetForm(line.lift, member, place, start.load.unit, line.most)
    up = build_up.is_build_up(line.planned)
    editor.draw(
        key, start, scene, label="Log it: the heaviest of today" if up else "Log this set",
        on_log=lambda new: _log(key, new, plan.day, drawn, line.most),
        guessed=not known, uncounted=line.uncounted, rated=line.planned.rated,
        first=("Log it and go on", lambda new: _on_the_way(key, new, plan, line)) if up else None,
    )  # fmt: skip
    unit_by_day.show(plan, line, start.load.unit, lambda: editor.forget(key))
    if label or asking:
        st.button("Close", key="close_it", type="tertiary", on_click=_close, args=(key,))


def _with_left(key: str, start: NewSet, day: date, drawn: str, line: PlannedLine) -> None:
    """Log the set with how many repetitions were left, in the one touch; of a technique lift that says little."""
    rated = line.planned.rated
    if line.uncounted or (technique(line.lift.name) and not rated):
        return
    field = f"{key}_with_left"
    with st.container(key="with_left"):
        st.pills(
            "Done, at an RPE of" if rated else "Done, with reps left", tuple(RATINGS) if rated else editor.RIR,
            format_func=RATINGS.__getitem__ if rated else str, help=editor.RPE_HELP if rated else None, key=field, on_change=_log_left, args=(key, field, start, day, drawn),
            width="stretch",
        )  # fmt: skip


def _log_left(key: str, field: str, start: NewSet, day: date, drawn: str) -> None:
    left = st.session_state.get(field)
    st.session_state[field] = None  # a set that is taken back is not marked as done
    if left is not None:
        _log(key, replace(start, rir=Decimal(left.removesuffix("+"))), day, drawn)


def _enough(plan: DayPlan, line: PlannedLine) -> None:
    """Let the member end the lift at any of its sets."""
    now = here()
    st.button(
        "End this lift", key="enough_of_it", on_click=touch,
        args=(after_miss.enough, now.log, now.member.id, line.step_id, line.lift.id, plan.day),
        kwargs={"said": f"{first_up(line.lift.name)} is ended for today"},
    )  # fmt: skip


def _carry(plan: DayPlan, line: PlannedLine) -> None:
    """Where the last set was done with another load: the way back to what is asked, or on with the heavier one."""
    change, now = line.change, here()
    if change is None or line.made is None or (not change.taken and line.made.load.kg != change.asked.kg):
        return
    how: carried.How = "as asked" if change.taken else "take"
    label = (
        f"As asked: {load_words(line.unchanged or change.asked, line.lift)}"
        if change.taken
        else f"Go on with {load_words(change.done, line.lift)}"
    )
    st.button(
        label, key="carry_on", on_click=touch,
        args=(carried.carry_on, now.log, now.member.id, line.step_id, line.lift.id, change.done, plan.day, how),
        kwargs={"said": label},
    )  # fmt: skip


def _fewer(key: str, start: NewSet, day: date, drawn: str, most: Mass | None) -> None:
    """Let a miss be logged with a touch on the repetitions that were made, at the load that is asked.

    Only where a miss is told: beside other numbers, of what was left, a touch would log what nobody meant.
    """
    if st.session_state.get(f"{key}_outcome") != "missed" or not 0 < start.reps <= MOST_FEWER:
        return
    field = f"{key}_fewer"
    st.pills(
        f"Failed after so many, of {reps_words(start.reps, each_side=bool(start.per_side))} × {start.load}: a touch logs it", range(start.reps), key=field,
        on_change=_log_fewer, args=(key, field, start, day, drawn, most),
    )  # fmt: skip


def _log_fewer(key: str, field: str, start: NewSet, day: date, drawn: str, most: Mass | None) -> None:
    reps = st.session_state.get(field)
    if reps is not None:
        _log(key, replace(start, reps=int(reps), outcome="missed"), day, drawn, most)


def _end(plan: DayPlan, line: PlannedLine, *, due: bool) -> None:
    """Let the member end a test; after two misses that is what is offered first."""
    now = here()
    st.button(
        "End the test", key="end_test", width="stretch", type="primary" if due else "secondary", on_click=touch,
        args=(attempts.end_test, now.log, now.member.id, line.step_id, line.planned.id, plan.day),
        kwargs={"said": f"The test is ended. {attempts.result_words(line)}"},
    )  # fmt: skip


def done_label(plan: DayPlan, line: PlannedLine) -> str:
    """Say what one touch logs; nothing where only the member can say what was done, or first how they start after a break."""
    if plan.asks_back or line.planned.rep_out or line.planned.test or line.made is None:
        return ""
    reps = reps_words(line.reps, each_side=line.planned.each_side)
    return f"Done: {reps} × {load_words(line.made.load, line.lift)}"


def as_asked(line: PlannedLine, plan: DayPlan) -> tuple[NewSet, bool]:
    """Make the set that the coach asks for, with the load that is made here, else the one lifted last.

    Returns:
        The set, and whether its load is known; else it is only what a lift of its kind begins with.
    """
    load, known = (line.made.load, True) if line.made else _last_load(line, plan)
    unit = unit_today.chosen(plan.choices, line.lift.id, plan.day)
    if unit is not None and load.unit != unit:
        load, known = rounded(Mass(load.to(unit), unit)), False
    if line.most is not None and load.kg > line.most.kg:
        load = line.most
    new = NewSet(
        line.lift.id,
        load,
        line.reps,
        planned_set_id=line.planned.id,
        planned_round=line.number,
        member_step_id=line.step_id,
        per_side=line.planned.each_side or None,
    )
    return new, known


def _last_load(line: PlannedLine, plan: DayPlan) -> tuple[Mass, bool]:
    start, known = usual_set(line.lift, plan.member, plan.place, plan.day)
    if known and start.reps < line.reps:  # the load of a heavy single is none for five
        return first_load(line.lift, plan.member, plan.place), False
    return start.load, known


def _log(key: str, new: NewSet, day: date, drawn: str, most: Mass | None = None) -> None:
    if set_acts.log_set(new, day, drawn, most):
        _close(key)


def _on_the_way(key: str, new: NewSet, plan: DayPlan, line: PlannedLine) -> None:
    """Log a set on the way up to the heavy one: it is none that the session waits for, so the heavy one stays next."""
    _log(key, build_up.on_the_way(new), plan.day, token(f"{line.key}-up-{len(plan.sets)}", shared=True), line.most)


def _open(key: str, outcome: str, reps: int | None) -> None:
    st.session_state[OPEN] = key
    editor.forget(key)
    st.session_state[f"{key}_outcome"], st.session_state[editor.reps_name(key)] = outcome, reps


def _close(key: str) -> None:
    st.session_state.pop(OPEN, None)
    editor.forget(key)
