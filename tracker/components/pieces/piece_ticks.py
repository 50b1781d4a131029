"""Rounds that are not scored: a touch ticks a movement, another one the whole round, in the order in which they are done."""

from __future__ import annotations

from datetime import date

import streamlit as st

from tracker.components.frame.acts import do, touch
from tracker.components.frame.frame import Here, token
from tracker.conditioning.told import told_words
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.piece_entry import Said
from tracker.desk.pieces.ticks import has_ticks, tick, ticks
from tracker.log.pieces import PieceRow

MOST_ROUNDS = 10  # of more, those around the one that is on are drawn


def show(now: Here, row: PieceRow, day: date, member_step_id: str | None) -> None:
    """Draw the rounds of a piece with their movements; nothing for one that is scored, or is a single stretch."""
    if not has_ticks(row.piece) or row.piece.paired:
        return
    found = ticks(now.log, now.member.id, row.id, row.piece, day, member_step_id)
    key, on = f"ticks_{row.id}_{day.isoformat()}", found.on
    act = (now, row, day, member_step_id)
    first = max(0, (on or 0) - 1) if found.rounds > MOST_ROUNDS else 0
    with st.container(key="ticks"):
        for number in range(first, min(found.rounds, first + MOST_ROUNDS)):
            field = f"{key}_{number}"
            st.session_state[field] = list(found.of_round(number))  # as the log has it, also after an undo
            st.pills(
                f"Round {number + 1} of {found.rounds}" if found.rounds > 1 else "Tick what is done",
                range(len(found.movements)), format_func=found.movements.__getitem__, selection_mode="multi", key=field,
                on_change=_tick, args=(act, field, number),
            )  # fmt: skip
            if number == on:
                st.button(
                    f"All of round {number + 1}" if found.rounds > 1 else "All of it", key="tick_round", width="stretch",
                    on_click=_tick, args=(act, "", number),
                )  # fmt: skip
        if on is None:
            st.button(
                "All done: log it", key="ticks_log", type="primary", width="stretch", on_click=touch,
                args=(conditioning.log_score, now.log, now.member.id, row.id, day, Said("done")),
                kwargs={
                    "token": token(f"ticks-{key}"), "member_step_id": member_step_id,
                    "said": lambda logged: f"Logged {row.piece.title}: {told_words(logged.score)}",
                },
            )  # fmt: skip


def _tick(act: tuple[Here, PieceRow, date, str | None], field: str, number: int) -> None:
    """Keep what is ticked of a round now; without a field all of it. What is ticked of the others is read anew."""
    now, row, day, member_step_id = act
    found = ticks(now.log, now.member.id, row.id, row.piece, day, member_step_id)
    done = found.with_only(number, st.session_state[field]) if field else found.with_round(number)
    do(
        tick,
        now.log,
        now.member.id,
        row.id,
        day,
        done,
        member_step_id=member_step_id,
        said=f"Round {number + 1}: ticked",
    )
