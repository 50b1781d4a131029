"""What an empty page says: what to do next, with the way there."""

from __future__ import annotations

from collections.abc import Mapping

import streamlit as st

from tracker import asset_folder
from tracker.log.who import who


def way_to(
    page: str, label: str, icon: str = ":material/arrow_forward:", *, carried: Mapping[str, str] | None = None
) -> None:
    """Show the way to another page, where that page is there; `carried` goes along in the address."""
    path = asset_folder("pages") / f"{page}.py"
    if path.is_file():
        st.page_link(path, label=label, icon=icon, query_params=dict(carried) if carried else None)


def nobody_to_show() -> None:
    """Say of a page about one member's log that there is none to show, and what to do."""
    owner = who().role == "owner"
    own = "give yourself one on the page Accounts" if owner else "ask the owner of the log for one"
    st.info(
        "This page is about one member's log, and you keep none and nobody shares theirs with you. Ask members to share "
        f"theirs (Preferences, Share my log with the coach). To keep one of your own, {own}.",
        icon=":material/info:",
    )
    if owner:
        way_to("accounts", "Accounts")


def no_lift_yet() -> None:
    """Say what to do where no lift is in the log."""
    st.write("There is no lift in the log yet. Log a first set, or add your lifts and a rep-max.")
    way_to("today", "Log a first set")
    way_to("preferences", "Add lifts and rep-maxes")


def nothing_logged() -> None:
    """Say what to do where nothing was done yet."""
    st.write("Nothing is logged yet. What you do stands here, newest first.")
    way_to("today", "Log a first set")
    way_to("weights", "Work out loads for a first session")
