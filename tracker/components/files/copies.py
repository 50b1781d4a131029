"""The copies that Tidemark keeps: listed with their check, made, saved elsewhere, and put back."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import streamlit as st

from tracker.components.frame import long_work
from tracker.components.frame.acts import do
from tracker.components.frame.frame import Here
from tracker.components.frame.zone import by_reader
from tracker.desk.base import backups
from tracker.desk.base.backups import Kept
from tracker.desk.files import custody
from tracker.desk.files.custody import Restored
from tracker.log.engine import file_of
from tracker.wording import counted

RULE = "A backup is made by itself on every day of use."
KEPT = (
    "Kept are all of 7 days, then one a week for 5 weeks and one a month for a year; those made before an update or a "
    "restore for 90 days. One that you rename or save elsewhere is yours, and is never deleted."
)
CHECKS = {"whole": "whole", "damaged": "NOT as it was made", "unsealed": "not sealed", "other": "can't be read"}


def show(now: Here) -> None:
    """List the copies, offer a new one, and put one back."""
    if file_of(now.log.url) is None:
        st.write("This log lies on a database server. Its own tools back it up.")
        return
    found = backups.kept(now.log)
    st.header("Backups on this machine")
    st.caption(RULE, help=KEPT)
    if day := backups.behind(now.log):
        st.warning(f"What was logged up to {day.isoformat()} is in no whole backup. Make one now, and check the disk.")
    st.button("Back up now", width="stretch", key="copies_make", on_click=_make, args=(now,), icon=":material/add:")
    if found:
        st.table([_row(each) for each in found])
        _back(now, found)
    _from_elsewhere(now)
    st.caption("Backups hold health data of every member, also of one who was deleted since.")


def _row(copy: Kept) -> dict[str, str]:
    return {"Made": _moment(copy.at), "Why": copy.why, "Size": _size(copy.size), "Check": CHECKS[copy.state]}


def _size(size: int) -> str:
    return f"{size / 1e6:,.1f} MB"


def _moment(at: datetime) -> str:
    """Write a moment by the reader's clock."""
    return f"{by_reader(at):%Y-%m-%d %H:%M}"


def _make(now: Here) -> None:
    do(backups.make, now.log, said="Backed up and checked")


def _back(now: Here, found: tuple[Kept, ...]) -> None:
    whole = {str(each.file): each for each in found if each.whole}
    if not whole:
        return
    st.header("Restore")
    name = st.selectbox(
        "Backup",
        list(whole),
        key="copies_which",
        format_func=lambda each: f"{_moment(whole[each].at)}, {whole[each].why}",
    )
    st.write(
        "It replaces the log, for all members. What is in the log now is kept as a backup, and can be restored the same way."
    )
    st.button(
        "Restore this backup", width="stretch", key="copies_back", on_click=_restore, args=(now, lambda: Path(name)),
        icon=":material/settings_backup_restore:",
    )  # fmt: skip
    st.download_button(
        "Save it elsewhere", Path(name).read_bytes, file_name=Path(name).name, mime="application/vnd.sqlite3",
        key="copies_save", width="stretch", on_click="ignore", icon=":material/download:",
    )  # fmt: skip


def _from_elsewhere(now: Here) -> None:
    with st.expander("Restore a backup that you saved"):
        file = st.file_uploader("Backup, or the log.json of an export", type=["db", "json"], key="copies_file")
        if file is None:
            return
        content, ending = file.getvalue(), Path(file.name).suffix.lower()

        def unpacked() -> Path:
            with tempfile.NamedTemporaryFile(prefix="tidemark-", suffix=ending, delete=False) as kept:
                kept.write(content)
            return Path(kept.name)

        st.button(
            "Restore this file", width="stretch", key="copies_file_back", on_click=_restore, args=(now, unpacked, True),
            icon=":material/settings_backup_restore:",
        )  # fmt: skip


def _restore(now: Here, source: Callable[[], Path], passing: bool = False) -> None:
    address = now.log.url.render_as_string(hide_password=False)

    def put_back() -> Restored:
        path = source()
        try:
            return custody.restore(address, path)
        finally:
            if passing:
                path.unlink(missing_ok=True)

    long_work.begin("Restoring", put_back, _restored)


def _restored(done: Restored) -> str:
    kept = " What was in it is kept as the newest backup." if done.former else ""
    return f"Restored: {counted(done.sets, 'set')}.{kept} {done.warning}".strip()
