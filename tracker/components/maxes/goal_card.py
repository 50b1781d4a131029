"""The goals of a lift on its trend: how likely, on course or not, what it takes; reached, changed, given up."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.charts.goal import GoalMark
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, here, touch
from tracker.components.maxes import goal_form
from tracker.desk.ahead import goal_view, goals
from tracker.desk.ahead.goal_view import GoalView
from tracker.desk.maxes.trend import TrendView
from tracker.desk.maxes.words import full_day
from tracker.log.goals import LiftAim
from tracker.log.who import HERE as HOUSEHOLD
from tracker.log.who import who


def of(now: Here, view: TrendView) -> tuple[GoalView, ...]:
    """Read the open goals of the lift that is shown."""
    return goal_view.lift_goals(now.log, now.member, view.lift, unit=view.unit, day=now.today)


def marks(view: TrendView, known: tuple[GoalView, ...]) -> list[GoalMark]:
    """Turn the goals of the nRM that is shown into marks of the figure."""
    found: list[GoalMark] = []
    for each in known:
        aim = each.row.aim
        if isinstance(aim, LiftAim) and aim.reps == view.reps:
            day = each.reached.day if each.reached else each.row.by
            found.append(GoalMark(float(aim.load.to(view.unit)), day, reached=each.reached is not None))
    return found


def show(now: Here, view: TrendView, known: tuple[GoalView, ...]) -> None:
    """Draw each goal as a card, and the way to one where the nRM that is shown has none."""
    mine = who().role == HOUSEHOLD.role or who().member_id == now.member.id
    for each in known:
        _card(now, view, each, mine=mine)
    taken = {each.row.aim.reps for each in known if isinstance(each.row.aim, LiftAim) and not each.reached}
    if mine and view.reps not in taken:
        goal_form.ask(now, view, next_one=any(each.reached for each in known))


def _card(now: Here, view: TrendView, each: GoalView, *, mine: bool) -> None:
    with st.container(border=True, key=f"goal_{each.row.id}", gap="xsmall"):
        if each.reached:
            st.html(
                f'<p class="over">Goal reached</p><p class="big">{escape(each.title)}</p>'
                f'<p class="plain"><b>{escape(each.reached.words)}</b> on {escape(full_day(each.reached.day))}.</p>'
            )
            if mine:
                st.button("Put it away", key=f"goal_away_{each.row.id}", on_click=_put_away, args=(each.row.id,))
            return
        first, *rest = each.lines or ("",)
        st.html(
            f'<p class="over">Goal</p><p class="big">{escape(each.title)}</p><p class="plain"><b>{escape(first)}</b></p>'
            + "".join(f'<p class="plain">{escape(line)}</p>' for line in rest)
        )
        if each.why:
            box = st.expander("What this means", key=f"goal_why_{each.row.id}", on_change="rerun")
            if box.open:
                with box:
                    st.html("".join(f'<p class="plain">{escape(line)}</p>' for line in each.why))
        if mine:
            goal_form.change(now, view, each)


def _put_away(goal_id: str) -> None:
    now = here()
    touch(goals.put_away, now.log, now.member.id, goal_id, now.today, said=as_typed("Put away as reached."))
