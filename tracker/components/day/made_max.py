"""Beside a set that became a max: that the max goes with it where it is mended or removed, and the way to keep it."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import here
from tracker.desk.day import max_of_set
from tracker.log.records import SetRow


def ask(row: SetRow) -> None:
    """Say which max the set made, and ask whether that stays; nothing where it made none."""
    now = here()
    made = max_of_set.maxes_made(now.log, row.member_id, (row.id,)).get(row.id)
    if made is None:
        return
    words = max_of_set.words(made)
    note = f"This set made your {words}. Another load, fewer repetitions or no set at all take it back too."
    st.html(f'<p class="plain note">{escape(note)}</p>')
    st.checkbox(as_typed(f"Keep the {words} all the same"), key=_key(row))


def kept(row: SetRow) -> bool:
    """Whether the member says that the max stays."""
    return bool(st.session_state.get(_key(row)))


def _key(row: SetRow) -> str:
    return f"keep_max_{row.id}"
