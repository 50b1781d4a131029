"""Which rep-max the percentages refer to: tested, declared, estimated, typed for this once, or still to be found."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import streamlit as st

from tracker.components.frame import Here
from tracker.components.words import first_up
from tracker.desk import trend, weights
from tracker.desk.references import Reference
from tracker.log.records import LiftRecord

TYPED, FIND = "given", "find"
MOST_REPS = 12


@dataclass(frozen=True, slots=True)
class Chosen:
    """What was chosen: which nRM, and where it is taken from."""

    reps: int
    source: str
    reference: Reference | None

    @property
    def to_be_found(self) -> bool:
        return self.source == FIND


def ask_lift(now: Here, lifts: Sequence[LiftRecord], *, key: str = "weights") -> tuple[LiftRecord, int]:
    """Ask for the lift and which of its rep-maxes the percentages are of."""
    known = {lift.id: lift for lift in lifts}
    with st.container(horizontal=True, gap="small", key=f"{key}_what"):
        chosen = st.selectbox(
            "Lift", list(known), format_func=lambda each: first_up(known[each].title), key=f"{key}_lift"
        )
        usual = trend.usual_reps(now.log, now.member.id, known[chosen])
        reps = st.selectbox(
            "% of", range(1, MOST_REPS + 1), index=usual - 1, format_func=lambda n: f"{n}RM",
            key=f"{key}_reps_{now.member.id}_{chosen}", persist_state="session",
        )  # fmt: skip
    return known[chosen], reps


def ask_source(now: Here, lift: LiftRecord, reps: int, *, key: str = "weights") -> Chosen:
    """Ask where the reference max of a lift is taken from.

    Raises:
        BadInputError: if what was typed is no load.
    """
    known = {each.source: each for each in weights.options(now.log, now.member, lift, reps, now.today)}
    names = {source: first_up(each.words(now.today)) for source, each in known.items()}
    names |= {TYPED: "Type it"} | ({} if known else {FIND: "I don't know it"})
    source = st.pills(
        f"Your {reps}RM", list(names), format_func=names.__getitem__, default=_first(names), required=True,
        key=f"{key}_source_{lift.id}_{reps}_{'_'.join(known)}",
    )  # fmt: skip
    if source in (TYPED, FIND):
        return Chosen(reps, source, _typed(now, reps, key) if source == TYPED else None)
    return Chosen(reps, source, known[source])


def _first(names: dict[str, str]) -> str:
    """Begin with what is known; after a first run without a rep-max with the way to one."""
    return FIND if FIND in names and st.session_state.get("weights_find") else next(iter(names))


def _typed(now: Here, reps: int, key: str) -> Reference | None:
    unit = now.member.unit
    text = st.text_input(
        f"Your {reps}RM, in {unit}", key=f"{key}_typed", placeholder="such as 92.5", persist_state="session",
        help="Used here and not kept. To keep a rep-max, record it under Preferences.",
    )  # fmt: skip
    return weights.typed_reference(text, reps, unit, now.today) if text and text.strip() else None
