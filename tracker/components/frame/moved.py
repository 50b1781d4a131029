"""A page that another server drew: what was touched on it is unknown here, and its reader is told that it did nothing.

A balancer may move a reader to another server, or a server may start anew under an open page. The browser then opens a new
session and says nothing until the next touch, which comes with the names of what was touched. Streamlit calls what hangs on
a button only if this session has drawn it before, so that the touch would be lost without a word. It is not made good here:
the set that was on the screen may not be the next one any more.
"""

from __future__ import annotations

from typing import Any, Literal

import streamlit as st
from streamlit.runtime.scriptrunner import get_script_run_ctx

from tracker.components.frame.acts import NOTICE, Notice

DRAWN = "moved_drawn"  # this session has drawn a whole page, and knows what can be touched
TRIGGERS = ("trigger_value", "string_trigger_value", "json_trigger_value", "chat_input_value")
WORDS: dict[Literal["touch", "change"], tuple[str, str]] = {
    "touch": (
        "This page had come to another server, where your touch did nothing.",
        "See what stands here now, and touch again.",
    ),
    "change": (
        "This page had come to another server, where your last change may not have counted.",
        "See what stands here now, and make it again.",
    ),
}


def notice() -> None:
    """Leave a notice where this run began with a touch on what only another server has drawn."""
    if st.session_state.get(DRAWN):
        return
    lost = lost_touch()
    if lost:
        st.session_state[NOTICE] = Notice("error", *WORDS[lost])


def drawn() -> None:
    """Note that a page was drawn whole: from now on its touches are known."""
    st.session_state[DRAWN] = True


def lost_touch() -> Literal["touch", "change", ""]:
    """Tell what this run began with: a touch on something unknown, values of fields that are unknown, or neither."""
    context = get_script_run_ctx()
    if context is None:
        return ""
    # Streamlit has no other word of what a run began with; tests/door/test_internals.py holds that it is still there.
    asked = context.session_state._state._new_widget_state
    unknown: list[Any] = [
        each.value
        for name, each in asked.states.items()
        if name not in asked.widget_metadata and hasattr(each.value, "WhichOneof")
    ]
    if any(each.WhichOneof("value") in TRIGGERS for each in unknown):
        return "touch"
    return "change" if unknown else ""
