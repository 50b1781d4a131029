"""One session of the journal, open: each set mended, moved, left out or removed; the whole of it rated or moved."""

from __future__ import annotations

from dataclasses import replace

import streamlit as st

from tracker.components.day import editor, made_max, session_end
from tracker.components.frame.acts import tell
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.effects import do_and_tell
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, set_words
from tracker.components.pieces import piece_results
from tracker.conditioning.told import told_words
from tracker.desk.day import log_set
from tracker.desk.history import journal
from tracker.desk.history.journal import JournalSession
from tracker.desk.people import people, places
from tracker.errors import BadInputError
from tracker.log.records import MemberRecord, SessionRow, SetRow
from tracker.log.sets import NewSet


def show(now: Here, entry: JournalSession) -> None:
    """Draw the set that was touched, then what belongs to the session as a whole."""
    _scores(entry)
    rows = {row.id: row for row in entry.sets}
    if not rows:
        _whole(now, entry)
        return
    field = f"journal_set_{entry.session.id}"
    if st.session_state.get(field) not in rows:
        st.session_state[field] = None
    names = {key: f"{place}. {set_words(row)}" for place, (key, row) in enumerate(rows.items(), 1)}
    chosen = st.pills("Which set?", list(rows), format_func=names.__getitem__, key=field)
    if chosen:
        _set(now, rows[chosen])
    _whole(now, entry)


def _scores(entry: JournalSession) -> None:
    """Draw the score that was touched, to be mended."""
    rows = {row.id: row for row in entry.scores}
    if not rows:
        return
    field = f"journal_score_{entry.session.id}"
    if st.session_state.get(field) not in rows:
        st.session_state[field] = None
    names = {key: as_typed(f"{row.score.piece.title}: {told_words(row.score)}") for key, row in rows.items()}
    chosen = st.pills("Which score?", list(rows), format_func=names.__getitem__, key=field)
    if chosen:
        piece_results.mending(rows[chosen])


def _whole(now: Here, entry: JournalSession) -> None:
    session_end.show(entry.session, open_now=False)
    _move_session(now, entry.session)


def _set(now: Here, row: SetRow) -> None:
    key = f"journal_mend_{row.id}"
    scene = editor.SetForm(row.lift, now.member, places.place_of(now.log, now.member, row.day), row.load.unit)
    editor.draw(
        key,
        log_set.as_new(row),
        scene,
        label="Save the change",
        kinds=True,
        noted=True,
        on_log=lambda new: _mend(now, row, new, key),
    )
    made_max.ask(row)
    _leave_out(now, row)
    _move(now, row)
    st.button("Remove this set", key=f"journal_remove_{row.id}", on_click=_remove, args=(now, row))


def _mend(now: Here, row: SetRow, new: NewSet, key: str) -> None:
    if do_and_tell(
        now, log_set.mend_set, now.log, row.id, new, seen=row, keep_max=made_max.kept(row),
        said=lambda mended: f"Saved: {set_words(mended)}.",
    ):  # fmt: skip
        editor.forget(key)


def _leave_out(now: Here, row: SetRow) -> None:
    if row.left_out:
        st.caption(f"Left out of the estimate: {as_typed(row.left_out)}")
        st.button("Take it into the estimate again", key=f"journal_in_{row.id}", on_click=_in_again, args=(now, row))
        return
    with (
        st.expander("Leave it out of the estimate", key=f"journal_out_{row.id}"),
        st.form(f"journal_out_form_{row.id}", border=False),
    ):
        st.text_input(
            "Why", key=f"journal_why_{row.id}", placeholder="such as: wrong bar, helped by a spotter"
        )  # fmt: skip
        st.form_submit_button("Leave it out", width="stretch", on_click=_out, args=(now, row))


def _out(now: Here, row: SetRow) -> None:
    reason = st.session_state[f"journal_why_{row.id}"]
    do_and_tell(now, journal.leave_out, now.log, row.id, reason, said=lambda _: "Left out of the estimate.")


def _in_again(now: Here, row: SetRow) -> None:
    do_and_tell(now, journal.take_in_again, now.log, row.id, said=lambda _: "Taken into the estimate again.")


def _move(now: Here, row: SetRow) -> None:
    key = f"journal_move_{row.id}"
    with st.expander("Another member, day or lift", key=f"{key}_box"), st.form(f"{key}_form", border=False):
        who = _whose(now, key)
        st.date_input("Done on", row.day, key=f"{key}_day", max_value=now.today, format="YYYY-MM-DD")
        lifts = {lift.id: lift.title for lift in people.lifts(now.log, now.member.id)}
        st.selectbox(
            "Lift", list(lifts), index=list(lifts).index(row.lift.id), format_func=lifts.__getitem__, key=f"{key}_lift"
        )
        st.form_submit_button("Move it", width="stretch", on_click=_moved, args=(now, row, key, who))


def _whose(now: Here, key: str) -> dict[str, MemberRecord]:
    known = {each.id: each for each in people.members(now.log)}
    st.selectbox(
        "Done by", list(known), index=list(known).index(now.member.id), format_func=lambda each: known[each].name,
        key=f"{key}_who",
    )  # fmt: skip
    return known


def _moved(now: Here, row: SetRow, key: str, known: dict[str, MemberRecord]) -> None:
    state = st.session_state
    who, day, lift = known[state[f"{key}_who"]], state[f"{key}_day"] or row.day, state[f"{key}_lift"]
    if (who.id, day, lift) == (row.member_id, row.day, row.lift.id):
        tell(BadInputError("It is there already.", where="set", mend="Choose another member, day or lift."))
        return
    if lift != row.lift.id:
        new = replace(log_set.as_new(row), lift_id=lift)
        if not do_and_tell(
            now, log_set.mend_set, now.log, row.id, new, seen=row, said=lambda mended: f"Now: {mended.lift.title}."
        ):
            return
    if (who.id, day) != (row.member_id, row.day):
        where = f"Moved to {who.name}, {day_words(day, now.today)}."
        do_and_tell(now, log_set.move_set, now.log, row.id, who.id, day, today=now.today, said=lambda _: where)


def _remove(now: Here, row: SetRow) -> None:
    removed = f"Removed: {set_words(row)}."
    do_and_tell(
        now, log_set.remove_set, now.log, row.id, today=now.today, keep_max=made_max.kept(row), said=lambda _: removed
    )


def _move_session(now: Here, session: SessionRow) -> None:
    key = f"journal_session_{session.id}"
    with st.expander("Move the whole session", key=f"{key}_box"), st.form(f"{key}_form", border=False):
        known = _whose(now, key)
        st.date_input("Done on", session.day, key=f"{key}_day", max_value=now.today, format="YYYY-MM-DD")
        st.form_submit_button(
            "Move all its sets", width="stretch", on_click=_moved_all, args=(now, session, key, known)
        )


def _moved_all(now: Here, session: SessionRow, key: str, known: dict[str, MemberRecord]) -> None:
    who, day = known[st.session_state[f"{key}_who"]], st.session_state[f"{key}_day"] or session.day
    where = f"{who.name}, {day_words(day, now.today)}"
    do_and_tell(
        now, journal.move_session, now.log, session.id, who.id, day, today=now.today,
        said=lambda count: f"Moved {count} set{'' if count == 1 else 's'} to {where}.",
    )  # fmt: skip
