"""How last night's dump of a log on PostgreSQL is, in one line for the owner, with what to do where it is not good."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.signed_in import runs_it
from tracker.desk.files import dumps
from tracker.log.engine import file_of
from tracker.log.unit_of_work import Log

UNNAMED = (
    "Nobody is told here whether the nightly dump is good: name its folder as TIDEMARK_DUMPS in the settings that the "
    "servers read, and start them again."
)


def last_night(log: Log) -> None:
    """Say how last night's dump is, where the log is on a server and the reader runs it."""
    if file_of(log.url) is not None or not runs_it():
        return
    found = dumps.last_night()
    if found is None:
        st.caption(UNNAMED)
    elif found.good:
        st.caption(f":material/check: {found.said}")
    else:
        st.warning(f"{found.said} {found.mend}", icon=":material/warning:")
