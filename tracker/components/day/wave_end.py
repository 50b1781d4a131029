"""After a wave's last session: what may follow, with the reason and what it rests on; nothing happens by itself."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import streamlit as st

from tracker.components.frame.acts import touch
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words
from tracker.desk.day import after
from tracker.desk.day.after import WaveEnd
from tracker.log.records import LiftRecord
from tracker.prescription.next_step import Offer

IN_A_WEEK = timedelta(days=7)


def show(now: Here, day: date) -> None:
    """Draw the offers of each wave that is over."""
    for end in after.wave_ends(now.log, now.member, day):
        with st.container(border=True, key=f"wave_end_{end.wave_id}"):
            st.markdown(
                f"**{as_typed(end.wave)} is over. What next?** Your coach may want something else; that goes first."
            )
            for lift, offers in end.offers:
                with st.expander(as_typed(lift.title), key=f"wave_end_{end.wave_id}_{lift.id}"):
                    for offer in offers:
                        _offer(now, end, lift, offer, day + IN_A_WEEK)
            _whole(now, end, day)


def _offer(now: Here, end: WaveEnd, lift: LiftRecord, offer: Offer, start: date) -> None:
    st.markdown(f"**{as_typed(offer.words)}** {as_typed(offer.reason)}")
    st.caption(offer.basis)
    if offer.step == "test":
        reps = after.tested_reps(now.log, end.wave_id, lift)
        _button(
            f"Plan a {reps}RM test, {day_words(start, now.today)}", f"test_{end.wave_id}_{lift.id}", after.go_test,
            now.log, now.member, end.wave_id, lift, reps, start, said=f"A {reps}RM test is planned",
        )  # fmt: skip


def _whole(now: Here, end: WaveEnd, day: date) -> None:
    """The wave as a whole: again from a week on, with other loads if wanted, or no more of it."""
    changes = {
        Decimal(0): "same loads",
        Decimal("2"): "2 % more",
        Decimal("5"): "5 % more",
        Decimal("-10"): "10 % less",
    }
    chosen = st.segmented_control(
        "The wave once more, with", list(changes), format_func=changes.__getitem__, default=Decimal(0), required=True,
        key=f"wave_end_change_{end.wave_id}",
    )  # fmt: skip
    start = day + IN_A_WEEK
    _button(
        f"Start it {day_words(start, now.today)}", f"again_{end.wave_id}", after.go_again, now.log, now.member,
        end.wave_id, start, chosen, said=f"{end.wave} once more, {changes[chosen]}",
    )  # fmt: skip
    _button(
        "Nothing now", f"home_{end.wave_id}", after.go_home, now.log, now.member, end.wave_id, day, said="Wave ended"
    )


def _button(label: str, key: str, act, *args: object, said: str) -> None:
    st.button(label, key=f"wave_end_{key}", width="stretch", on_click=touch, args=(act, *args), kwargs={"said": said})
