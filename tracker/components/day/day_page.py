"""The way to the day's own page, which goes on where there is no connection."""

from __future__ import annotations

from urllib.parse import urlencode

import streamlit as st

from tracker.components.frame.frame import Here


def link(now: Here) -> None:
    """Lead to the page of the same member's day that a phone keeps."""
    address = f"/day/?{urlencode({'member': now.member.id})}"
    st.link_button("Without a connection", address, help="This day on a page that a phone keeps")
