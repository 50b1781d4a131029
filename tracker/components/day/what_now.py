"""After a miss, beneath the next set: less, the same again, or enough of this lift; one touch each, with the reason."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.components.frame.acts import touch
from tracker.components.frame.frame import Here
from tracker.desk.day import after_miss
from tracker.desk.day.after_miss import Stopped, Way, WhatNow
from tracker.desk.day.today import DayPlan

SAID = {"less": "Lighter from here", "same": "Once more", "stop": "Ended for today"}


def show(now: Here, plan: DayPlan) -> None:
    """Draw the ways to go on after a miss that nobody has answered, and what the member ended today."""
    asked = after_miss.what_now(now.log, now.member, plan)
    if asked is not None:
        with st.container(border=True, key="what_now"):
            _ask(now, asked)
    for each in after_miss.stopped(plan):
        _stopped(now, each, plan)


def _ask(now: Here, asked: WhatNow) -> None:
    st.html(
        f'<p class="over">Missed: {escape(asked.lift.title)}</p><p class="plain"><b>What now?</b> {escape(" ".join(asked.words))}</p>'
    )
    for way in asked.ways:
        _way(now, asked, way)
    st.button(
        "It hurt", key="what_now_hurt", width="stretch", on_click=touch,
        args=(after_miss.take, now.log, now.member.id, asked.missed.id, "hurt"), kwargs={"said": SAID["stop"]},
        help="Ends this lift for today. Only you see it.",
    )  # fmt: skip


def _way(now: Here, asked: WhatNow, way: Way) -> None:
    load = way.made.load if way.how == "less" and way.made else None
    st.button(
        way.label, key=f"what_now_{way.how}", width="stretch", on_click=touch,
        args=(after_miss.take, now.log, now.member.id, asked.missed.id, way.how, load), kwargs={"said": SAID[way.how]},
    )  # fmt: skip
    st.html(f'<p class="plain note">{escape(way.reason)}</p>')


def _stopped(now: Here, each: Stopped, plan: DayPlan) -> None:
    with st.container(border=True, key=f"stopped_{each.lift.id}"):
        st.html(f'<p class="plain{" note" if each.hurt else ""}">{escape(each.words)}</p>')
        st.button(
            f"Go on with {each.lift.name}", key=f"go_on_{each.lift.id}", on_click=touch,
            args=(_go_on, now, each, plan.day), kwargs={"said": "It goes on"},
        )  # fmt: skip


def _go_on(now: Here, each: Stopped, day: date) -> None:
    if each.set_id:
        after_miss.take(now.log, now.member.id, each.set_id, "go on")
    else:
        after_miss.enough(now.log, now.member.id, each.step_id, each.lift.id, day, ended=False)
