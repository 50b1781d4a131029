"""Behind a touch on Weights: which load for so many repetitions at a chance, and how many repetitions with a load."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame import cautions
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import load_words
from tracker.desk.ahead import needed
from tracker.desk.day.lines import chance_words
from tracker.errors import TidemarkError
from tracker.log.records import LiftRecord
from tracker.prescription.technique import most_reps_shown
from tracker.strength.needed import MOST_REPS
from tracker.wording import counted


def show(now: Here, lift: LiftRecord, reps: int) -> None:
    """Draw the fold; nothing is worked out while it is closed. `reps` is what is asked at first."""
    box = st.expander("What would you need now?", key="needed_now", icon=":material/question_mark:", on_change="rerun")
    if not box.open:
        return
    with box:
        field = f"{now.member.id}_{lift.id}"
        with st.container(horizontal=True, gap="small", key="needed_what"):
            most = most_reps_shown(lift.name, reps, most=MOST_REPS)
            wanted = st.selectbox("Repetitions", range(1, most + 1), index=min(reps, most) - 1, key=f"needed_{field}")
            chance = st.segmented_control(
                "With a chance of", needed.CHANCES, format_func=lambda each: f"{100 * each:.0f} %", default=0.8,
                required=True, key="needed_chance",
            )  # fmt: skip
        _load(now, lift, wanted, chance or 0.8)
        typed = st.text_input(
            f"How many with, in {now.member.unit}", key=f"needed_load_{field}", placeholder="such as 60",
            persist_state="session",
        )  # fmt: skip
        if typed:
            _reps(now, lift, typed, chance or 0.8)


def _load(now: Here, lift: LiftRecord, reps: int, chance: float) -> None:
    found = needed.load_needed(now.log, now.member, lift, reps, chance, now.today)
    if found.made is None:
        st.html(f'<p class="plain">{escape(found.why)}</p>')
        return
    discs = f" ({found.made.words})" if lift.implement in ("barbell", "unasked") else ""
    said = f"<b>{escape(load_words(found.made.load, lift))}</b>{escape(discs)}: {escape(_likely(found.chance))}"
    more = ""
    if found.heavier is not None:
        more = f" With {load_words(found.heavier[0], lift)}: {_likely(found.heavier[1])}."
    note = f" {found.note}" if found.note else ""
    st.html(
        f'<p class="plain">For {escape(_reps_words(reps, lift))}: {said}.{escape(more)}{escape(note)} '
        "As a first set of the day, of your own estimate.</p>"
    )
    cautions.show(found.cautions)


def _reps(now: Here, lift: LiftRecord, typed: str, chance: float) -> None:
    try:
        load = needed.asked_load(typed, lift, now.member.unit)
        found = needed.reps_possible(now.log, now.member, lift, load, chance, now.today)
    except TidemarkError as error:
        st.error(as_typed(f"{error}"), icon=":material/error:")
        return
    if found.why:
        st.html(f'<p class="plain">{escape(found.why)}</p>')
        return
    with_it = f"With {load_words(found.load, lift)}"
    one_more = f" One more: {_likely(found.one_more)}." if found.one_more is not None else ""
    if not found.reps:
        st.html(f'<p class="plain">{escape(f"{with_it} not one repetition is as likely.{one_more}")}</p>')
        return
    many = f"{_reps_words(found.reps, lift)}{' or more' if found.reps == MOST_REPS else ''}"
    st.html(
        f'<p class="plain">{escape(with_it)}: <b>{escape(many)}</b>, {escape(_likely(found.chance))}.{escape(one_more)}</p>'
    )


def _reps_words(reps: int, lift: LiftRecord) -> str:
    return f"{reps} each side" if lift.per_side else counted(reps, "rep")


def _likely(chance: float | None) -> str:
    return chance_words(chance).partition(": ")[0]
