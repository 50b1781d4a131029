"""Estimates many lifts before a page that needs them: it says how far it is, and can be stopped and gone on with."""

from __future__ import annotations

from collections.abc import Sequence

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.desk.maxes import estimate_many
from tracker.wording import counted

FEW = 3  # lifts that are estimated without a word
STOPPED = "estimating_stopped"


def ahead(now: Here, member_ids: Sequence[str]) -> bool:
    """Estimate what is not in memory yet; return whether the page can go on.

    What was estimated before a stop is kept, so that going on begins where it ended.
    """
    todo = estimate_many.not_estimated(now.log, member_ids)
    if len(todo) <= FEW:
        return True
    if st.session_state.get(STOPPED):
        st.info(f"Stopped: {counted(len(todo), 'lift')} not estimated yet. What was done before is kept.")
        st.button("Go on", key="estimating_on", on_click=_stop, args=(False,))
        return False
    box = st.empty()
    with box.container():
        bar = st.progress(0.0, text="Estimating")
        st.button("Stop", key="estimating_stop", on_click=_stop, args=(True,))
        for number, each in enumerate(todo):
            said = f"{as_typed(each.member.name)}, {as_typed(each.lift.title)}"
            bar.progress(number / len(todo), text=f"Estimating lift {number + 1} of {len(todo)}: {said}")
            estimate_many.estimate(now.log, [each.member.id], each.lift)
    box.empty()
    return True


def _stop(stopped: bool) -> None:
    st.session_state[STOPPED] = stopped
