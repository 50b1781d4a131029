"""Taking the log away and looking it over: CSV files, a sealed copy, a check."""

from __future__ import annotations

from collections.abc import Callable

import streamlit as st

from tracker.components.frame.frame import Here
from tracker.components.frame.signed_in import as_now
from tracker.components.people.night import last_night
from tracker.desk.files import take_away
from tracker.desk.files.check import Report, check_log
from tracker.errors import TidemarkError
from tracker.log.engine import file_of
from tracker.wording import counted

MOST_SHOWN = 20


def export_everything(now: Here) -> None:
    """Give the whole log in files that other programs read."""
    st.write(
        "Everything in this log, of all members, in one zip: a CSV for each kind of record, and one JSON with all."
    )
    everything = take_away.file_name("everything", now.today, "zip")
    _file("Export everything", lambda: take_away.everything(now.log), "application/zip", "take_everything", everything)
    st.caption(
        "Any spreadsheet opens the CSV files. sets.csv can be imported again; log.json restores all of it, under Back up."
    )
    st.caption("It holds health data: keep it where only you can read it.")


def save_backup(now: Here) -> None:
    """Save a sealed copy of the log as it is now."""
    if file_of(now.log.url) is None:
        st.caption(
            "This log is on PostgreSQL. Whoever keeps the server copies it with pg_dump --format=custom and puts it back with pg_restore; there is no copy of it to save here."
        )
        last_night(now.log)
        return
    backup = take_away.file_name("backup", now.today, "db")
    _file("Save a backup", lambda: take_away.sealed_copy(now.log), "application/vnd.sqlite3", "take_backup", backup)
    st.caption(
        "The whole log in one file, checked and sealed. Save one on another disk now and then, where only you can read it."
    )


def _file(label: str, make: Callable[[], bytes], mime: str, key: str, name: str) -> None:
    """A file that is made when somebody asks for it."""
    st.download_button(
        label, as_now(make), mime=mime, key=key, file_name=name, width="stretch", on_click="ignore",
        icon=":material/download:",
    )  # fmt: skip


def check(now: Here) -> None:
    """Look the log over and say what was found."""
    st.write("Reads the whole file, its tables and every record, and changes nothing.")
    if not st.button("Check the log", type="primary", width="stretch", key="check_log"):
        return
    with st.spinner("Reading the log"):
        try:
            report = check_log(now.log.url.render_as_string(hide_password=False), today=now.today)
        except TidemarkError as error:
            st.error(f"{error}", icon=":material/error:")
            return
    _say(report)


def _say(report: Report) -> None:
    if report.ok:
        st.success(
            f"In order: {counted(report.counts['sets'], 'set')} of {counted(report.counts['members'], 'member')}.",
            icon=":material/check:",
        )
        return
    st.error(
        f"{len(report.problems)} things are not in order. Save a backup, and don't log into this file until they are put right."
    )
    for each in report.problems[:MOST_SHOWN]:
        st.text(each)
