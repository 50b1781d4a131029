"""How I am before I train: five answers of a touch each, kept for the member, and shared only if they say so."""

from __future__ import annotations

from datetime import date

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.frame import Here
from tracker.components.frame.signed_in import household
from tracker.desk.day import readiness
from tracker.desk.day.readiness import BEST, ENDS, SCALES, WORST, Readiness, Scale

ANSWERS = tuple(range(WORST, BEST + 1))


def ask(now: Here, day: date) -> None:
    """Let the member say how they are; closed as long as nobody opens it."""
    box = st.expander("How I am today: sleep, soreness, mood", key="how_i_am", on_change="rerun")
    if not box.open:
        return
    found = readiness.readiness(now.log, now.member.id, day)
    with box:
        st.caption(
            f"{WORST} is worst, {BEST} is best. Each touch is kept; leave out what you like. No load changes by it."
        )
        for scale in SCALES:
            _row(now, day, found, scale)
        if found.said:
            st.html(f'<p class="plain note">{found.said}</p>')
        _share(now, day, found)


def _row(now: Here, day: date, found: Readiness, scale: Scale) -> None:
    key, (worst, best) = f"feel_{scale}_{now.member.id}", ENDS[scale]
    st.session_state[key] = found.today.answers.get(scale) if found.today else None
    st.segmented_control(
        f"{scale.capitalize()}: {worst} to {best}", ANSWERS, key=key, on_change=_say, args=(now, day, scale, key)
    )


def _say(now: Here, day: date, scale: Scale, key: str) -> None:
    answer = st.session_state[key]
    if answer is not None:  # touched again: the answer stays
        do(readiness.say, now.log, now.member.id, day, scale, answer, said=f"{scale.capitalize()} {answer} of {BEST}")


def _share(now: Here, day: date, found: Readiness) -> None:
    key = f"feel_share_{now.member.id}"
    st.session_state[key] = found.shared
    reach = "" if household() or now.member.shared else " They see it once you share your log (Preferences)."
    st.toggle(
        "Let the coach see these answers", key=key, on_change=_shared, args=(now, day, key),
        help="They stand beside your name on the load sheet of the day, on the coach's screen. In print is only the sign to "
        f"speak with you first.{reach}",
    )  # fmt: skip
    st.caption("The coach sees them before the class." if found.shared else "Only you see this.")


def _shared(now: Here, day: date, key: str) -> None:
    wanted = bool(st.session_state[key])
    said = "The coach sees how you are" if wanted else "Only you see how you are"
    do(readiness.share, now.log, now.member.id, day, shared=wanted, said=said)
