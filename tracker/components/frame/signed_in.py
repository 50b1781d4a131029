"""Who is signed in: asked of Streamlit's signed cookie and of the log at every read and act, and what strangers see."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from html import escape
from typing import TypeVar

import streamlit as st
from streamlit.runtime.scriptrunner import get_script_run_ctx

from tracker.components.frame import invitation_kept
from tracker.components.frame.acts import do
from tracker.components.frame.opened import of_this_server
from tracker.desk.people import accounts
from tracker.door import sign_in
from tracker.errors import TidemarkError
from tracker.log.unit_of_work import Log
from tracker.log.who import HERE, NOBODY, Who, acting, ask_with, who

T = TypeVar("T")
ROLES = {"member": "", "coach": "coach", "owner": "owner"}
SHARE = {"no": "No, it is mine alone", "yes": "Yes, my coach may see it"}
SEEN = (
    "Your coach, and the owner, then see your sets, maxes, scores and how hard sessions were, and change none of it. What is "
    "sore stays yours. You get the plan of your class either way, and can change this at any time under Preferences."
)


@st.cache_resource(show_spinner=False)
def _settings(named: str) -> sign_in.SignIn | None:
    return sign_in.settings() if named else None


def ask() -> None:
    """Let the desk ask who is signed in, where members sign in at all."""
    ask_with(_who if sign_in.configured() else None)


def _who() -> Who:
    """Return who the reader of this page is; nobody outside of a page."""
    if get_script_run_ctx() is None:
        return NOBODY
    claims = _claims()
    if claims is None:
        return NOBODY
    try:
        return accounts.who_is(of_this_server(), claims[0], claims[1])
    except TidemarkError:  # the log can't be opened, which the page says
        return Who(NOBODY.role, identity=claims)


def _claims() -> tuple[str, str] | None:
    """Return issuer and subject of a sign-in that still counts."""
    settings = _settings(os.environ.get(sign_in.VARIABLE, ""))
    return settings.identity(dict(st.user), time.time()) if settings else None


def has_account(identity: tuple[str, str]) -> bool:
    """Tell whether the log knows an identity now; where the log can't be opened it knows nobody."""
    try:
        return accounts.who_is(of_this_server(), *identity).role != NOBODY.role
    except TidemarkError:
        return False


def log_here() -> Log:
    """Return the log of this server, for what is served beside the pages."""
    return of_this_server()


def who_has(identity: tuple[str, str]) -> Who:
    """Return who an identity is in the log now; nobody where it does not know them."""
    return accounts.who_is(of_this_server(), *identity)


def household() -> bool:
    """Tell whether whoever is there is the household, and nobody signs in."""
    return who().role == HERE.role


def runs_it() -> bool:
    """Tell whether the log as a whole is the reader's: the household's, or the owner's."""
    return household() or who().role == "owner"


def as_now(work: Callable[[], T]) -> Callable[[], T]:
    """Let work that Streamlit does later, outside of the page, be done by the reader of now, as they are known then."""
    person = who()

    def done() -> T:
        again = person
        if person.identity is not None:
            again = accounts.who_is(of_this_server(), *person.identity)
        with acting(again):
            return work()

    return done


def may_enter() -> bool:
    """Tell whether the reader may see any page at all."""
    return who().role != NOBODY.role


def door(log: Log) -> Who | None:
    """Return who reads this page; show a stranger the way in, and return None."""
    person = who()
    if person.role != NOBODY.role:
        return person
    if person.identity is None:
        _way_in()
    else:
        _stranger(log, person.identity)
    return None


def sign_out_line(person: Who) -> None:
    """Say who is signed in, with the way out beside it."""
    role = ROLES.get(person.role, "")
    name = person.name or "No log of your own"
    with st.container(key="signed_in_line", horizontal=True, vertical_alignment="center", wrap=False, gap="small"):
        st.html(f'<p class="notice">Signed in: <b>{escape(name)}</b>{f", {role}" if role else ""}</p>')
        st.button("Sign out", key="sign_out", on_click=st.logout)


def _way_in() -> None:
    settings = _settings(os.environ.get(sign_in.VARIABLE, ""))
    provider = settings.name if settings and settings.name else "your gym's provider"
    st.title("Sign in")
    st.write("This is a gym's training log. Its members sign in; nobody else sees anything of it.")
    if invitation_kept.keep():
        st.info("You are invited. Sign in first: your code waits for you in this tab.", icon=":material/mail:")
    st.button(f"Sign in with {provider}", key="sign_in", type="primary", width="stretch", on_click=st.login)


def _stranger(log: Log, identity: tuple[str, str]) -> None:
    st.title("Not known here yet")
    st.write("You are signed in, but this log does not know you. Ask the owner of the log for an invitation.")
    if (code := invitation_kept.kept(had=bool(st.session_state.get("invitation_code")))) and not st.session_state.get(
        "invitation_code"
    ):
        st.session_state["invitation_code"] = code
    with st.form("invitation"):
        st.text_input("Code of the invitation", key="invitation_code", max_chars=40, placeholder="ABCD-EFGH-JKMN-PQRS")
        st.radio("May your coach see what you log?", list(SHARE), format_func=SHARE.__getitem__, key="invitation_share")
        st.caption(SEEN)
        st.form_submit_button("Come in", type="primary", width="stretch", on_click=_accept, args=(log,))
    st.write("Or pass these two lines on to the owner, who can enter you by them:")
    st.code("\n".join(identity), language=None, wrap_lines=True)
    st.button("Sign out", key="sign_out", on_click=st.logout)


def _accept(log: Log) -> None:
    shared = st.session_state["invitation_share"] == "yes"
    do(accounts.accept, log, st.session_state["invitation_code"], shared=shared, said=lambda role: _in(role, shared))


def _in(role: str, shared: bool) -> str:
    return f"You are in, as {role}; your log is {'shared with the coach' if shared else 'yours alone'}"
