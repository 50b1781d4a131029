"""What else can be done with a session: another day, easier, left out, once more, ended early."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from html import escape

import streamlit as st

from tracker.components.day import missed
from tracker.components.frame import top, where
from tracker.components.frame.acts import do, touch
from tracker.components.frame.frame import here
from tracker.components.frame.words import day_words, weekday_words
from tracker.desk.day import from_memory
from tracker.desk.day import today as desk
from tracker.desk.day.next import from_words
from tracker.desk.day.today import DayPlan
from tracker.log.records import MemberStepRow

EASIER = Decimal(10)  # per cent off all loads; the rule of the prescription room, common practice


def show(plan: DayPlan) -> None:
    """Draw the choices that fit the step."""
    step = plan.step
    if step is None:
        return
    box = st.expander("Another day, easier, or once more", key="session_menu", on_change="rerun")
    if box.open:
        with box:
            if step.state == "planned":
                _planned(plan, step)
            elif plan.open_pieces and not plan.closed:
                _button(
                    "No piece today", "finish", desk.finish, step, plan.day, said="Session ended with what was done"
                )
            elif plan.closed:
                _button("Go on with it", "go_on", desk.go_on, step, plan.day, said=f"{step.title} goes on")
            again = plan.day + timedelta(days=7)
            said = f"Once more on {weekday_words(again)}"
            _button("Do it once more in a week", "repeat", desk.repeat, step, again, said=said)


def _planned(plan: DayPlan, step: MemberStepRow) -> None:
    today = here().today
    if plan.day == today and not any(row.member_step_id == step.id for row in (*plan.sets, *plan.scores)):
        st.button(
            "Done yesterday, as planned", key="menu_yesterday", width="stretch", on_click=_yesterday, args=(plan, step)
        )
    later = any(each.state == "planned" and each.due > step.due for each in desk.steps(here().log, plan.member.id))
    with_later = later and st.toggle("The planned sessions after it move along", key="menu_with_later")
    st.caption("It moves with those after it." if with_later else "Only this one moves; all others keep their day.")
    for days, words in ((1, "Tomorrow instead"), (2, "In two days"), (7, "In a week")):
        _button(words, f"postpone_{days}", desk.postpone, step, days, today=today, with_later=with_later, said=_moved)
    _other_day(step, max(step.due, today), with_later=with_later)
    if step.ease:
        _button("Full loads again", "full", desk.ease_off, step, None, said="Full loads again")
    else:
        _button(f"{EASIER} % easier today", "ease", desk.ease_off, step, EASIER, said=f"All loads {EASIER} % lower")
    begun = any(line.done or line.attempts for line in plan.lines) or any(
        row.member_step_id == step.id for row in plan.scores
    )
    if begun or not plan.lines:  # a piece can be done and its score kept to oneself
        _button("That was it for today", "finish", desk.finish, step, plan.day, said="Session ended with what was done")
    if not begun:
        _button("Leave it out", "skip", desk.skip, step, said="Left out")


def _other_day(step: MemberStepRow, start: date, *, with_later: bool) -> None:
    """Offer the days between, each by its name: the third to the sixth from now."""
    key = f"menu_day_{step.id}"
    st.pills(
        "Or on", range(3, 7), format_func=lambda days: weekday_words(start + timedelta(days=days)), key=key,
        on_change=_to_day, args=(key, step), kwargs={"with_later": with_later},
    )  # fmt: skip


def _to_day(key: str, step: MemberStepRow, *, with_later: bool) -> None:
    now, days = here(), st.session_state.get(key)
    if days is not None:
        do(
            desk.postpone, now.log, now.member.id, step, int(days), today=now.today, with_later=with_later, said=_moved
        )  # fmt: skip


def _yesterday(plan: DayPlan, step: MemberStepRow) -> None:
    """Log it on the day before, and go on there with what only the member can say: the rest of it, a score, how hard."""
    now, before = here(), plan.day - timedelta(days=1)
    if do(
        from_memory.log_as_planned, now.log, now.member.id, plan.day, member_step_id=step.id, done_on=before,
        said=lambda logged: f"{logged.words}, on {weekday_words(before)}",
    ):  # fmt: skip
        st.query_params[where.DAY], st.query_params[where.SESSION] = before.isoformat(), step.id
        top.wanted()


def _moved(step: MemberStepRow) -> str:
    return f"Moved to {weekday_words(step.due)}"


def _button(
    label: str, key: str, act, step: MemberStepRow, *args: object, said: str | Callable[..., str], **named: object
) -> None:
    now = here()
    st.button(
        label, key=f"menu_{key}", width="stretch", on_click=touch, args=(act, now.log, now.member.id, step, *args),
        kwargs={"said": said, **named},
    )  # fmt: skip


def coming(plan: DayPlan) -> None:
    """Say what comes after this session, or, where none is due, what can be begun now."""
    step = plan.ahead
    if step is None:
        return
    when = day_words(step.due, here().today)
    moved = from_words(step, plan.day)
    words = f"{step.title}, {when}{f', {moved}' if moved else ''}"
    st.html(f'<p class="plain small"><b>Next session:</b> {escape(words)}</p>')
    if plan.next_line is None:
        now = here()
        st.button("Begin it now", key="menu_begin", width="stretch", on_click=missed.begin, args=(now, plan, step))
