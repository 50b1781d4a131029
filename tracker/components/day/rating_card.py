"""How hard the session was, asked once all of it is done: a touch on a number logs it, and nobody has to answer."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.day.session_end import rating_words
from tracker.components.frame.acts import do, touch
from tracker.components.frame.frame import Here
from tracker.components.frame.next_line import marked
from tracker.components.frame.words import first_up
from tracker.desk.day import session_said
from tracker.desk.day.next import Next, over_words
from tracker.limits import MOST_MINUTES
from tracker.log.records import MemberStepRow


def show(now: Here, found: Next) -> None:
    """Draw the question with its eleven answers."""
    step = found.plan.step
    if step is None:
        return
    with st.container(border=True, key="next_rating"):
        st.html(
            marked(
                found, f'<p class="over">{escape(over_words(found.plan))}</p><p class="big small">How hard was it?</p>'
            )
        )
        key = f"rate_{step.id}"
        if found.plan.minutes is None:
            st.number_input(
                "Minutes, if you know them", 1, MOST_MINUTES, value=None, step=5, key=f"{key}_minutes",
                help="The times of your touches say nothing of them. Blank: not known.",
            )  # fmt: skip
        st.pills(
            "0 to 10, the session as a whole, best half an hour after it", range(11), format_func=rating_words, key=key,
            on_change=_rate, args=(now, key, step, found),
        )  # fmt: skip
        st.button(
            "Leave it open", key="rate_not", type="tertiary", on_click=touch,
            args=(session_said.leave_unrated, now.log, now.member.id, found.day, step),
            kwargs={"said": "Left without a rating"},
        )  # fmt: skip


def _rate(now: Here, key: str, step: MemberStepRow, found: Next) -> None:
    rating, minutes = st.session_state.get(key), st.session_state.get(f"{key}_minutes")
    if rating is not None:
        do(
            session_said.rate, now.log, now.member.id, found.day, step, rating, minutes=int(minutes) if minutes else None,
            said=f"Saved: {first_up(step.title)} was {rating} of 10",
        )  # fmt: skip
