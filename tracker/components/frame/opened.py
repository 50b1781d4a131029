"""The open log: one for all pages and readers of a server."""

from __future__ import annotations

import os

import streamlit as st

from tracker.desk.base.opening import open_log
from tracker.log.engine import VARIABLE
from tracker.log.keeper import Log


@st.cache_resource(show_spinner=False)
def opened(database: str) -> Log:
    """Open the log once for all pages and readers."""
    return open_log(database or None)


def of_this_server() -> Log:
    """Return the log that this server was started with."""
    return opened(os.environ.get(VARIABLE, ""))
