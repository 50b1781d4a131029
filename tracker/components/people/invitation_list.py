"""Invitations for all who have none: as a page to print, and as links to send."""

from __future__ import annotations

import os
from collections.abc import Sequence
from html import escape

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.frame import Here, here
from tracker.components.frame.signed_in import household
from tracker.components.frame.zone import by_reader
from tracker.desk.people import invitations
from tracker.desk.people.invitations import Invited
from tracker.door import sign_in
from tracker.wording import counted

MADE = "invitations_made"  # shown as long as this tab is open; kept nowhere else


def show(now: Here) -> None:
    """Draw how many wait for an invitation, and what was made just now."""
    if household():
        st.caption(
            "Nobody signs in here, so nobody is invited: whoever is paired chooses their name at the top of a page. "
            "Invitations belong to a gym's server with sign-in."
        )
        return
    waiting = invitations.uninvited(now.log)
    if waiting:
        st.write(
            f"{counted(len(waiting), 'member')} can't sign in yet and {'has' if len(waiting) == 1 else 'have'} no invitation."
        )
        st.button(
            f"Invite {'them all' if len(waiting) > 1 else 'them'}", key="invite_all", width="stretch", icon=":material/mail:",
            type="secondary" if st.session_state.get(MADE) else "primary", on_click=_invite,
        )  # fmt: skip
    elif not st.session_state.get(MADE):
        st.caption(
            "All members sign in or have an invitation. A lost one is removed under Accounts, and a new one made here."
        )
    _made()


def _invite() -> None:
    now = here()
    do(invitations.invite_all, now.log, invitations.uninvited(now.log), said=_said)


def _said(made: Sequence[Invited]) -> str:
    st.session_state[MADE] = tuple(made)
    return f"{counted(len(made), 'invitation')} made: print or send them now"


def _made() -> None:
    made: tuple[Invited, ...] | None = st.session_state.get(MADE)
    if not made:
        return
    address = _address()
    st.info(
        f"Each is good once, until {by_reader(made[0].until):%Y-%m-%d}. The codes are shown only while this page is open.",
        icon=":material/key:",
    )
    st.download_button(
        "Page to print: a strip for each", invitations.page_of(made, address), file_name="invitations.html", mime="text/html",
        key="invitations_page", type="primary", width="stretch", icon=":material/print:", on_click="ignore",
    )  # fmt: skip
    with st.expander("Links to send, one a member", key="invitations_links", icon=":material/link:"):
        st.code("\n".join(f"{each.name}: {each.link(address)}" for each in made), language=None, wrap_lines=True)
    rows = "".join(f'<tr><th scope="row">{escape(each.name)}</th><td>{each.code}</td></tr>' for each in made)
    with st.expander("Codes to read out", key="invitations_codes", icon=":material/key:"):
        st.html(f'<table class="people-table">{rows}</table>')


def _address() -> str:
    settings = sign_in.settings() if os.environ.get(sign_in.VARIABLE) else None
    return settings.address if settings else "http://127.0.0.1:8501"
