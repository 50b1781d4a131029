"""Deleting a member: first a last export, then what goes, then the name typed by hand."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.frame import MEMBER, Here
from tracker.components.frame.signed_in import as_now, runs_it
from tracker.desk.files import deletion, take_away
from tracker.desk.files.deletion import Deleted
from tracker.desk.people import people
from tracker.log.records import MemberRecord
from tracker.log.who import who
from tracker.wording import counted

SAID = "farewell_said"


def show(now: Here) -> None:
    """Offer to delete the member on screen, or whom an owner chooses, for good."""
    _what_is_left()
    member = _whom(now)
    if member is None:
        return
    name, counts = member.name, deletion.what_goes(now.log, member.id)
    st.header("Delete this member for good")
    st.text(
        f"All of {name} is deleted: {counted(counts.get('sets', 0), 'set')} in {counted(counts.get('sessions', 0), 'session')}, scores, "
        "body masses, rep-maxes, waves, and every line about them in the history. There is no undo for it."
    )
    st.write("Export it first:")
    _export(now, member, "Save a last export")
    key, copies = f"farewell_{member.id}", deletion.copies_holding(now.log, member.id) if runs_it() else ()
    st.caption("Backups and exports that you saved elsewhere are not reached from here; they keep what they hold.")
    with st.form(key, enter_to_submit=False):
        if copies:
            number = "The copy" if len(copies) == 1 else f"All {len(copies)} copies"
            st.toggle(
                f"{number} beside the log too", True, key=f"{key}_copies",
                help="They hold this member. A fresh copy without them is made first. Without this they keep what they hold.",
            )  # fmt: skip
        st.text_input("Enter the member's name to confirm", key=f"{key}_name", autocomplete="off")
        st.form_submit_button(
            "Delete for good", key="farewell_go", icon=":material/delete_forever:", width="stretch", on_click=_delete,
            args=(now, member, key),
        )  # fmt: skip


def take_along(now: Here) -> None:
    """Hand a member out all that is theirs."""
    st.write("All that is yours in this log, in one zip of CSV files, with the lifts and places that it names.")
    _export(now, now.member, "Export my data")


def _whom(now: Here) -> MemberRecord | None:
    """Return the member on screen; an owner, who may delete anybody, chooses from all."""
    if who().role != "owner":
        return now.member
    known = {each.id: each for each in people.members_named(now.log)}
    own = now.member_id if now.member_id in known else None
    chosen = st.selectbox(
        "Member", list(known), index=list(known).index(own) if own else None, key="farewell_whom",
        placeholder="Choose a member", format_func=lambda each: known[each].name,
    )  # fmt: skip
    return known.get(chosen or "")


def _export(now: Here, member: MemberRecord, words: str) -> None:
    st.download_button(
        words, as_now(lambda: take_away.of_member(now.log, member)), mime="application/zip",
        key="farewell_export", file_name=take_away.file_name("member", now.today, "zip"), width="stretch",
        on_click="ignore", icon=":material/download:",
    )  # fmt: skip


def _delete(now: Here, member: MemberRecord, key: str) -> None:
    def said(done: Deleted) -> str:
        st.session_state[SAID] = done
        st.query_params.pop(MEMBER, None)
        return f"Deleted for good, with {counted(done.sets, 'set')}"

    typed, with_copies = st.session_state[f"{key}_name"], bool(st.session_state.get(f"{key}_copies"))
    do(deletion.delete_member, now.log, member.id, typed, with_copies=with_copies, said=said)


def _what_is_left() -> None:
    """Say once, after a deletion, where the name may still stand."""
    done: Deleted | None = st.session_state.pop(SAID, None)
    if done is None:
        return
    if not done.compact:
        st.info(
            "Another program reads the log, so the file was not made smaller. What was deleted is overwritten with zeros."
        )
    if done.named:
        st.warning("These belong to all members and still hold the name. Rename them if you like.")
        st.text("\n".join(done.named))
    if done.copies and not runs_it():
        st.warning("Copies of the log that were made before still hold you. Ask the owner to let them go.")
    elif done.copies:
        st.warning("These copies of the log were made before and still hold the member. Delete them yourself.")
        st.text("\n".join(str(each) for each in done.copies))
    if done.refused:
        st.text(done.refused)
