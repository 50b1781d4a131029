"""Taking the log away and looking it over: CSV files, a sealed copy, a check."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.frame import Here
from tracker.components.frame.signed_in import as_now
from tracker.desk.files import take_away
from tracker.desk.files.check import Report, check_log
from tracker.errors import TidemarkError
from tracker.log.engine import file_of
from tracker.wording import counted

MOST_SHOWN = 20


def take_everything(now: Here) -> None:
    """Hand out the whole log, readable and as a copy."""
    st.write(
        "Everything in this log, of all members, as CSV and JSON in one packed folder, with a description of both. Any spreadsheet reads the CSV files, sets.csv can be brought back here, and log.json comes back without loss, under Copies."
    )
    st.download_button(
        "Take everything away", as_now(lambda: take_away.everything(now.log)), mime="application/zip", key="take_everything",
        file_name=take_away.file_name("everything", now.today, "zip"), width="stretch", on_click="ignore",
        icon=":material/download:",
    )  # fmt: skip
    if file_of(now.log.url) is None:
        st.caption(
            "This log is on PostgreSQL. Whoever keeps the server copies it with pg_dump --format=custom and puts it back with pg_restore; there is no copy of it to save here."
        )
        return
    st.write(
        "A copy of the log itself, looked over and sealed: a single changed byte in it is noticed when it is put back."
    )
    st.download_button(
        "Save a backup", as_now(lambda: take_away.sealed_copy(now.log)), mime="application/vnd.sqlite3", key="take_backup",
        file_name=take_away.file_name("backup", now.today, "db"), width="stretch", on_click="ignore",
        icon=":material/download:",
    )  # fmt: skip
    st.caption(
        "A backup is put back under Copies, or with: tidemark restore FILE. The former log is kept. Both hold health data: keep them where only you can read them."
    )


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
        f"{len(report.problems)} things are not in order. Save a backup, and don't log into this file until they are mended."
    )
    for each in report.problems[:MOST_SHOWN]:
        st.text(each)
