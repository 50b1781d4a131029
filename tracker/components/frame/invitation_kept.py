"""The code that came with a link, kept in the browser's tab while the reader signs in elsewhere."""

from __future__ import annotations

from pathlib import Path

import streamlit as st
from streamlit.components.v2 import component

from tracker.desk.people.invitations import ASKED

MOST = 40  # letters of a code as it is typed, with what parts it

_drawn = component(
    "invitation_kept",
    html="<span hidden></span>",
    js=Path(__file__).with_suffix(".js").read_text(encoding="utf-8"),
    isolate_styles=False,
)


def keep() -> bool:
    """Keep the code of this address, where there is one; tell whether there is."""
    code = st.query_params.get(ASKED, "")[:MOST]
    if code:
        _drawn(key="invitation_keep", data={"keep": code})
    return bool(code)


def kept(*, had: bool) -> str:
    """Return the code that was kept in this tab or stands in the address; empty where there is none, or not yet.

    `had` says that the reader's page has one already.
    """
    found = _drawn(key="invitation_kept", data={"had": had}, on_code_change=_came, default={"code": ""})
    return st.query_params.get(ASKED, "")[:MOST] or str(found.get("code") or "")[:MOST]


def _came() -> None:
    """The page is drawn anew by this, and shows the code."""
