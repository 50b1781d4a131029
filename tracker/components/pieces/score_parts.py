"""How far a piece went that is more than rounds, a touch each: the buy-in, the rounds, the cash-out, the time left."""

from __future__ import annotations

from collections.abc import Sequence

import streamlit as st

from tracker.conditioning.entry import Choice, movement_choices, rep_choices, rep_label, round_choices
from tracker.conditioning.ladder import Ladder
from tracker.desk.pieces.piece_entry import touched

MOST_SHOWN = 8  # stages offered at once; of more rounds those around the likely one
MOST_PILLS = 30  # more repetitions than that are typed


def ask(ladder: Ladder, names: Sequence[str], key: str, likely: int, *, whole: bool) -> None:
    """Ask which part is finished, then which of its movements, then the repetitions of the next.

    `whole`: all of it may be an answer; of a piece for time that is a time, and asked elsewhere.
    """
    around = None if ladder.last is not None and ladder.last <= MOST_SHOWN else max(0, likely)
    offered = round_choices(ladder, around=around, reach=MOST_SHOWN // 2)
    rounds = _pills(f"{key}_part", "Finished", [each for each in offered if whole or each.number != ladder.last])
    if rounds is None:
        return
    choices = movement_choices(names, ladder, rounds)
    if not choices:
        return
    done = (_pills(f"{key}_part_done_{rounds}", "Then", choices) or 0) if len(choices) > 1 else 0
    reps, label = rep_choices(ladder, rounds, done), rep_label(names, ladder, rounds, done)
    if len(reps) > MOST_PILLS:
        st.number_input(label, 0, len(reps) - 1, value=None, step=1, key=f"{key}_part_reps_{rounds}_{done}")
    elif len(reps) > 1:
        _pills(f"{key}_part_reps_{rounds}_{done}", label, [Choice(n, str(n)) for n in reps])


def place(ladder: Ladder, key: str) -> str:
    """The place that the touches point at, in words; empty as long as nobody has said how far it went."""
    state = st.session_state
    rounds = state.get(f"{key}_part")
    if rounds is None:
        return ""
    asked = ladder.at(rounds)
    if not asked:
        return touched(ladder, rounds, 0, 0)
    done = min(state.get(f"{key}_part_done_{rounds}") or 0, len(asked) - 1)
    reps = state.get(f"{key}_part_reps_{rounds}_{done}") or 0
    return touched(ladder, rounds, done, min(int(reps), asked[done] - 1))


def _pills(key: str, label: str, choices: Sequence[Choice]) -> int | None:
    words = {choice.number: choice.words for choice in choices}
    return st.pills(label, list(words), format_func=words.__getitem__, key=key)
