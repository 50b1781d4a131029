"""Rising sets to a first max: the next load in large figures, and one touch for how many repetitions were left."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame import cautions, discs
from tracker.components.frame.acts import do
from tracker.components.frame.frame import Here, token
from tracker.components.frame.words import set_words
from tracker.desk.day import first_max, log_set
from tracker.desk.day.first_max import Rising
from tracker.log.records import LiftRecord
from tracker.wording import counted

LEFT = {0: "none", 1: "1", 2: "2", 3: "3", 4: "4", 5: "5", 6: "6 or more"}


def show(now: Here, lift: LiftRecord) -> None:
    """Lead through the rising sets of today."""
    at = first_max.rising(now.log, now.member, lift, now.today)
    st.write(
        "A few sets of five that get heavier and stop when three repetitions are left. No guess is needed: "
        "the estimate is made of what you did."
    )
    cautions.show(at.cautions)
    if at.done:
        st.caption("Done today: " + "; ".join(set_words(row) for row in at.done))
    if at.made is None:
        _stop(at)
        return
    note = f'<p class="plain note">{at.made.note}</p>' if at.made.note else ""
    with st.container(border=True):
        st.html(
            f'<p class="over">Next: {counted(at.reps, "repetition")}</p><p class="big small">{at.made.load}</p>'
            f'<p class="plain">{at.made.words}</p>{note}'
        )
        discs.show(at.made)
        st.markdown("**Done? How many more could you have made?**")
        with st.container(horizontal=True, gap="small"):
            for left, words in LEFT.items():
                st.button(
                    words, key=f"first_max_left_{left}", on_click=_log, args=(now, at, left, token(f"rising {left}"))
                )
        with st.expander("I did not make all five", key="first_max_missed"), st.container(horizontal=True, gap="small"):
            for reps in range(at.reps):
                st.button(
                    f"made {reps}", key=f"first_max_made_{reps}", on_click=_log,
                    args=(now, at, 0, token(f"rising missed {reps}"), reps),
                )  # fmt: skip


def _stop(at: Rising) -> None:
    if at.finished:
        st.success(at.words, icon=":material/flag:")
        st.write("Choose the estimated max above, and your loads stand here.")
    else:
        st.write(at.words)


def _log(now: Here, at: Rising, left: int, tap: str, missed_after: int | None = None) -> None:
    new = first_max.as_set(at, left, missed=missed_after is not None, reps=missed_after)
    do(
        log_set.log_set, now.log, now.member.id, now.today, new, token=tap, sure=True,
        said=lambda row: f"Saved: {set_words(row)}",
    )  # fmt: skip
