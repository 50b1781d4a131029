"""Setting a goal by touches, and changing or giving one up."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, do, here, tell, touch
from tracker.desk.ahead import goal_choices, goal_view, goals
from tracker.desk.ahead.goal_view import GoalView
from tracker.desk.maxes.trend import TrendView
from tracker.desk.maxes.words import load_words
from tracker.errors import TidemarkError
from tracker.log.goals import LiftAim
from tracker.strength.forecast import MOST_WEEKS
from tracker.units import Mass, plain
from tracker.wording import counted

SOME_DAY, ANOTHER = "Some day", "Another day"
DAYS = {**{f"{weeks} weeks": weeks for weeks in goal_choices.WEEKS}, ANOTHER: 0, SOME_DAY: None}
NOW = "goal"


def ask(now: Here, view: TrendView, *, next_one: bool) -> None:
    """Draw the way to a goal in the nRM that is shown; nothing is worked out while it is closed."""
    words = "Set the next goal" if next_one else "Set a goal"
    box = st.expander(words, key=f"goal_set_{view.lift.id}_{view.reps}", icon=":material/flag:", on_change="rerun")
    if not box.open:
        return
    with box:
        key = f"{NOW}_{now.member.id}_{view.lift.id}_{view.reps}"
        _fields(now, view, key)
        _preview(now, view, key)
        st.button(
            "Set this goal", key=f"{key}_do", type="primary", width="stretch", on_click=_set, args=(view.lift.id, view.reps, key, view)
        )  # fmt: skip


def change(now: Here, view: TrendView, each: GoalView) -> None:
    """Draw the way to another load or day, and to giving it up."""
    box = st.expander("Change or give up", key=f"goal_change_{each.row.id}", on_change="rerun")
    if not box.open:
        return
    assert isinstance(each.row.aim, LiftAim)
    with box:
        key = f"{NOW}_{each.row.id}"
        _fields(now, view, key, load=each.row.aim.load, by=each.row.by)
        _preview(now, view, key, reps=each.row.aim.reps)
        with st.container(horizontal=True, gap="small"):
            st.button("Change it", key=f"{key}_do", type="primary", on_click=_change, args=(each.row.id, key, view))
            st.button("Give it up", key=f"{key}_give_up", on_click=_give_up, args=(each.row.id,))


def _fields(now: Here, view: TrendView, key: str, *, load: Mass | None = None, by: date | None = None) -> None:
    changing = load is not None
    done = [Decimal(repr(fact.load)) for fact in view.facts if fact.reps == view.reps]
    loads = goal_choices.offered_loads(view.now.estimate if view.now else None, done, view.unit)
    if load is not None:
        loads = tuple(sorted({load, *loads}, key=lambda each: each.kg))
    if loads:
        first = load if load is not None else loads[1]
        named = {str(each): load_words(each, view.lift) for each in loads}
        if st.session_state.get(f"{key}_load", "") not in (None, *named):  # none: what is typed counts
            st.session_state[f"{key}_load"] = str(first)
        label = "Load" if changing else f"{view.reps}RM"
        st.pills(label, list(named), format_func=named.__getitem__, key=f"{key}_load")
    st.text_input(
        f"Another load, in {view.unit}" if loads else f"Your {view.reps}RM is to be, in {view.unit}", key=f"{key}_typed",
        placeholder="such as body + 20" if view.lift.body else "such as 110",
    )  # fmt: skip
    usual = counted(goal_choices.USUAL_WEEKS, "week")
    when = (ANOTHER if by else SOME_DAY) if changing else usual
    st.session_state.setdefault(f"{key}_by", when)
    st.pills("By", list(DAYS), required=True, key=f"{key}_by")
    if st.session_state[f"{key}_by"] == ANOTHER:
        st.date_input(
            "Day", value=by if by and by > now.today else now.today + timedelta(weeks=goal_choices.USUAL_WEEKS),
            min_value=now.today + timedelta(days=1), max_value=now.today + timedelta(weeks=MOST_WEEKS), key=f"{key}_day",
        )  # fmt: skip


def _wanted(view: TrendView, key: str, today: date) -> tuple[Mass, date | None]:
    """Read what was touched or typed; what was typed goes before what was touched."""
    state = st.session_state
    typed = (state.get(f"{key}_typed") or "").strip()
    said = typed or state.get(f"{key}_load") or ""
    load = goal_choices.load_of(said, view.lift, view.unit)
    return load, goal_choices.day_of(DAYS[state.get(f"{key}_by") or SOME_DAY], state.get(f"{key}_day"), today)


def _preview(now: Here, view: TrendView, key: str, reps: int | None = None) -> None:
    try:
        load, by = _wanted(view, key, now.today)
    except TidemarkError as error:
        if (st.session_state.get(f"{key}_typed") or "").strip():
            st.error(as_typed(f"{error}"), icon=":material/error:")
        return
    words = goal_view.preview(now.log, now.member, view.lift, reps=reps or view.reps, load=load, by=by, day=now.today)
    if words:
        st.caption(as_typed(f"{plain(load.amount)} {load.unit}: {words[:1].lower()}{words[1:]}"))


def _set(lift_id: str, reps: int, key: str, view: TrendView) -> None:
    now = here()
    try:
        load, by = _wanted(view, key, now.today)
    except TidemarkError as error:
        tell(error)
        return
    done = do(
        goals.set_lift_goal, now.log, now.member.id, lift_id, reps=reps, load=load, by=by, day=now.today,
        said=f"Goal set: {reps}RM {load_words(load, view.lift)}.",
    )  # fmt: skip
    if done:  # the next one begins with nothing typed
        st.session_state[f"{key}_typed"] = ""


def _change(goal_id: str, key: str, view: TrendView) -> None:
    now = here()
    try:
        load, by = _wanted(view, key, now.today)
    except TidemarkError as error:
        tell(error)
        return
    if do(goals.change_goal, now.log, now.member.id, goal_id, by=by, day=now.today, load=load, said="Goal changed."):
        st.session_state[f"goal_change_{goal_id}"] = False


def _give_up(goal_id: str) -> None:
    now = here()
    touch(goals.give_up, now.log, now.member.id, goal_id, now.today, said="Goal given up.")
