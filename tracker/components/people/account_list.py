"""Accounts and invitations, for the owner: listed, changed, removed, and one more made."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame.acts import do, touch
from tracker.components.frame.empty import way_to
from tracker.components.frame.zone import by_reader
from tracker.components.people.night import last_night
from tracker.desk.people import accounts, people
from tracker.desk.people.accounts import ROLES, Invitation, Role
from tracker.log.accounts import AccountRow
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log

SHOWN_ONCE = "account_code"
NO_LOG = "no log of their own"
ICONS: dict[Role, str] = {"member": ":material/person:", "coach": ":material/groups:", "owner": ":material/key:"}
RIGHTS = (
    "**Member**: sees and changes only their own log.",
    "**Coach**: also sees what members share, writes sheets, takes results, keeps pieces and the gym's kit.",
    "**Owner**: all that a coach does, and accounts, copies and deletion.",
    "Nobody changes what another member logged.",
)


def show(log: Log) -> None:
    """List who signs in, and invite somebody."""
    st.title("Accounts")
    _code()
    last_night(log)
    known = accounts.accounts(log)
    members = people.members_named(log)
    st.header("Who signs in")
    st.caption(f"{_how_many(known)}.")
    for row in known:
        _row(log, row, members)
    _invite(log, members)
    way_to("roster", "Many at once: members, invitations, groups", icon=":material/group_add:")
    with st.expander("What each may do", key="account_rights", icon=":material/help:"):
        for each in RIGHTS:
            st.markdown(each)


def _how_many(known: tuple[AccountRow, ...]) -> str:
    """Say how many sign in, and how many are invited: `4 sign in, 1 is invited`."""
    invited = sum(row.until is not None for row in known)
    signing = len(known) - invited
    said = [f"{signing} sign{'s' if signing == 1 else ''} in"] if signing else []
    said += [f"{invited} {'is' if invited == 1 else 'are'} invited"] if invited else []
    return ", ".join(said) or "Nobody signs in yet"


def _code() -> None:
    """Show the code of a new invitation; it is kept nowhere."""
    made: Invitation | None = st.session_state.pop(SHOWN_ONCE, None)
    if made is None:
        return
    st.success("Give this code to whom you invited. It is good once and shown only now.", icon=":material/key:")
    st.code(made.code, language=None)
    st.caption(f"Until {by_reader(made.until):%Y-%m-%d %H:%M}.")


def _invite(log: Log, members: tuple[MemberRecord, ...]) -> None:
    with st.form("invite", clear_on_submit=True):
        st.markdown("**Invite somebody**")
        st.selectbox(
            "A member of this log", [each.id for each in members], index=None, key="invite_member", placeholder="Whose log is theirs",
            format_func={each.id: each.name for each in members}.__getitem__,
        )  # fmt: skip
        st.text_input("Or a new member", key="invite_name")
        st.radio("As", list(ROLES), key="invite_role", horizontal=True)
        st.form_submit_button(
            "Make an invitation",
            type="primary",
            icon=":material/mail:",
            width="stretch",
            on_click=_invited,
            args=(log,),
        )


def _invited(log: Log) -> None:
    state = st.session_state
    member_id, name = state["invite_member"], state["invite_name"].strip()
    do(_invite_whom, log, state["invite_role"], member_id, name, said="An invitation is made")


def _invite_whom(log: Log, role: accounts.Role, member_id: str | None, name: str) -> None:
    st.session_state[SHOWN_ONCE] = accounts.invite(log, role, member_id, new_member=name)


def _row(log: Log, row: AccountRow, members: tuple[MemberRecord, ...]) -> None:
    name = row.name or f"{ROLES[row.role].capitalize()} with {NO_LOG}"
    what = f"invited until {by_reader(row.until):%Y-%m-%d}" if row.until else "signs in"
    said = (f"{name}: {ROLES[row.role]}, {what}" if row.name else f"{name}: {what}").replace("[", "\\[")
    with st.expander(said, key=f"account_{row.id}", icon=":material/schedule_send:" if row.until else ICONS[row.role]):
        if row.issuer:
            st.html(f'<p class="plain"><small>{escape(row.issuer)}<br>{escape(row.subject or "")}</small></p>')
        names: dict[str | None, str] = {None: NO_LOG, **{each.id: each.name for each in members}}
        options = list(names)
        with st.form(f"account_form_{row.id}"):
            st.radio(
                "As", list(ROLES), index=list(ROLES).index(row.role), key=f"account_role_{row.id}", horizontal=True
            )
            st.selectbox(
                "Whose log is theirs", options, index=options.index(row.member_id) if row.member_id in names else 0,
                format_func=names.__getitem__, key=f"account_member_{row.id}",
            )  # fmt: skip
            st.text_input("Or a new log, by its name", key=f"account_name_{row.id}")
            st.form_submit_button("Save", width="stretch", on_click=_change, args=(log, row))
        st.button("Remove", key=f"account_remove_{row.id}", help=f"{name} can't sign in any more; the log stays",
                  on_click=touch, args=(accounts.remove_account, log, row.id), kwargs={"said": f"Removed: {name}"})  # fmt: skip


def _change(log: Log, row: AccountRow) -> None:
    role, member_id, name = (st.session_state[f"account_{each}_{row.id}"] for each in ("role", "member", "name"))
    new = name.strip()
    whose = None if new else member_id
    if do(accounts.change_account, log, row.id, role, whose, new_member=new, said="Saved: it counts from now on"):
        st.session_state[f"account_name_{row.id}"] = ""
