"""Which rep-max the percentages refer to: tested, declared, estimated, or typed by hand for this once."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame import Here
from tracker.desk import weights
from tracker.desk.references import Reference
from tracker.log.records import LiftRecord

TYPED = "typed by hand"
MOST_REPS = 12


def choose(now: Here, lift: LiftRecord, *, key: str = "weights") -> Reference | None:
    """Ask for the reference max of a lift; None where nothing is known or typed yet.

    Raises:
        BadInputError: if what was typed is no load.
    """
    reps = st.selectbox(
        "Percentages are of", range(1, MOST_REPS + 1), index=2, format_func=lambda n: f"{n}RM", key=f"{key}_reps",
        persist_state="session", help="The most load for so many repetitions: a percentage of a 3RM is of the 3RM itself.",
    )  # fmt: skip
    known = weights.options(now.log, now.member, lift, reps, now.today)
    names = {each.source: each.words(now.today) for each in known} | {"given": TYPED}
    source = st.pills(
        f"Which {reps}RM", list(names), format_func=lambda each: names[each], default=next(iter(names)), required=True,
        key=f"{key}_source_{lift.id}_{reps}_{len(known)}",
    )  # fmt: skip
    if source == "given":
        return _typed(now, reps, key)
    chosen = next(each for each in known if each.source == source)
    if chosen.holds:
        st.caption(f"{chosen.holds.words} {chosen.holds.settle}".strip())
    return chosen


def _typed(now: Here, reps: int, key: str) -> Reference | None:
    unit = now.member.unit
    text = st.text_input(
        f"Your {reps}RM, in {unit}", key=f"{key}_typed", placeholder="such as 92.5", persist_state="session",
        help="Used here and not kept. To keep a rep-max, record it under Preferences.",
    )  # fmt: skip
    return weights.typed_reference(text, reps, unit, now.today) if text and text.strip() else None
