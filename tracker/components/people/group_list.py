"""Groups of members, each with who is in it; and which groups a coach sees."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.acts import do, touch
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, here
from tracker.components.frame.signed_in import household
from tracker.desk.people import accounts, groups, people
from tracker.log.accounts import AccountRow
from tracker.log.groups import GroupRecord
from tracker.wording import counted

ALL = "all who share"


def show(now: Here) -> None:
    """List the groups, and add one."""
    known = groups.groups_whole(now.log)
    names = {each.id: each.name for each in people.members_named(now.log)}
    for each in known:
        _group(now, each, names)
    with st.form("group_add", clear_on_submit=True):
        st.text_input("A new group", key="group_name", placeholder="Early")
        st.form_submit_button("Add the group", width="stretch", on_click=_add)
    if not household():
        _coaches(now, known)


def _group(now: Here, group: GroupRecord, names: dict[str, str]) -> None:
    label = f"{as_typed(group.name)}: {counted(group.total, 'member')}"
    box = st.expander(label, key=f"group_{group.id}", on_change="rerun", icon=":material/groups:")
    if not box.open:
        return
    with box:
        key = f"group_in_{group.id}"
        st.session_state[key] = [each for each in group.member_ids if each in names]
        st.multiselect(
            "Who is in it", list(names), format_func=names.__getitem__, key=key, on_change=_put, args=(group.id, key)
        )
        st.text_input("Name", group.name, key=f"group_name_{group.id}", on_change=_rename, args=(group.id,))
        st.button(
            "Remove the group", key=f"group_gone_{group.id}", on_click=touch, args=(groups.remove_group, now.log, group.id),
            kwargs={"said": lambda name: f"Removed: {name}; its members stay"},
        )  # fmt: skip


def _add() -> None:
    do(groups.add_group, here().log, st.session_state["group_name"], said="Added: choose who is in it")


def _put(group_id: str, key: str) -> None:
    do(groups.put_in_group, here().log, group_id, st.session_state[key], said=lambda words: f"Saved: {words}")


def _rename(group_id: str) -> None:
    do(groups.rename_group, here().log, group_id, st.session_state[f"group_name_{group_id}"], said="Saved: its name")


def _coaches(now: Here, known: tuple[GroupRecord, ...]) -> None:
    """Say for each coach whom they see."""
    coaches = [each for each in accounts.accounts(now.log) if each.role == "coach"]
    if not coaches or not known:
        return
    st.header("What each coach sees")
    st.caption(
        "Of members who share their log: all, or those of some groups alone. It counts from their next touch on."
    )
    given = groups.given(now.log)
    for each in coaches:
        _coach(each, known, given.get(each.id, ()))


def _coach(account: AccountRow, known: tuple[GroupRecord, ...], given: tuple[str, ...]) -> None:
    names = {each.id: each.name for each in known}
    key = f"coach_sees_{account.id}"
    st.session_state[key] = [ALL] if not account.of_groups else [each for each in given if each in names]
    labels = {ALL: "All who share", **{each: as_typed(name) for each, name in names.items()}}
    st.pills(
        as_typed(account.name) or "A coach without a log", list(labels), format_func=labels.__getitem__, key=key,
        selection_mode="multi", on_change=_give, args=(account, key),
    )  # fmt: skip


def _give(account: AccountRow, key: str) -> None:
    """All and groups exclude each other: what was touched last counts."""
    chosen = [str(each) for each in st.session_state[key]]
    whole = ALL in chosen and (account.of_groups or len(chosen) == 1)
    wanted = None if whole else [each for each in chosen if each != ALL]
    do(groups.give_groups, here().log, account.id, wanted, said="Saved: it counts from now on")
