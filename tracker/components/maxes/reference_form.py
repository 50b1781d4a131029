"""Which rep-max the percentages refer to: tested, declared, estimated, typed for this once, or still to be found."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up, reference_words
from tracker.desk.day import weights
from tracker.desk.maxes import trend
from tracker.desk.maxes.references import Reference
from tracker.errors import TidemarkError
from tracker.log.records import LiftRecord
from tracker.prescription.technique import most_reps_shown

TYPED, FIND = "given", "find"
NOTHING: Mapping[str, int] = {}
MOST_REPS = 12


@dataclass(frozen=True, slots=True)
class Chosen:
    """What was chosen: which nRM, and where it is taken from; `typed` is what was typed by hand."""

    reps: int
    source: str
    known: Reference | None = None
    typed: str = ""

    @property
    def to_be_found(self) -> bool:
        return self.source == FIND


def ask_lift(
    now: Here, lifts: Sequence[LiftRecord], *, key: str = "weights", first: str = "", asked: Mapping[str, int] = NOTHING
) -> tuple[LiftRecord, int]:
    """Ask for the lift, beginning with the one of the id `first`, and which of its rep-maxes the percentages are of.

    `asked` says by the id of a lift of which rep-max today's session wants it.
    """
    known = {lift.id: lift for lift in sorted(lifts, key=lambda lift: lift.id != first)}
    with st.container(horizontal=True, gap="small", key=f"{key}_what"):
        chosen = st.selectbox(
            "Lift", list(known), format_func=lambda each: first_up(known[each].title), key=f"{key}_lift"
        )
        usual = asked.get(chosen) or trend.usual_reps(now.log, now.member.id, known[chosen])
        most = most_reps_shown(known[chosen].name, usual, most=MOST_REPS)
        reps = st.selectbox(
            "% of", range(1, most + 1), index=usual - 1, format_func=lambda n: f"{n}RM",
            key=f"{key}_reps_{now.member.id}_{chosen}", persist_state="session",
        )  # fmt: skip
    return known[chosen], reps


def ask_source(now: Here, lift: LiftRecord, reps: int, *, key: str = "weights") -> Chosen:
    """Ask where the reference max of a lift is taken from."""
    known = {each.source: each for each in weights.options(now.log, now.member, lift, reps, now.today)}
    names = {source: said(each, lift, now.today) for source, each in known.items()}
    names |= {TYPED: "Enter another" if known else "Enter it", FIND: "Find a new max" if known else "I don't know it"}
    field = f"{key}_source_{now.member.id}_{lift.id}_{reps}"
    if st.session_state.get(field) not in names:
        st.session_state[field] = _first(names, known=bool(known))
    source = st.selectbox(f"Your {reps}RM", list(names), format_func=names.__getitem__, key=field)
    return Chosen(reps, source, known.get(source), _typed(now, lift, reps, key) if source == TYPED else "")


def said(reference: Reference, lift: LiftRecord, today: date) -> str:
    """Begin a sentence with a reference max."""
    return first_up(reference_words(reference, lift, today))


def _first(names: dict[str, str], *, known: bool) -> str:
    """Begin with what is known; after a first run without a rep-max with the way to one."""
    return next(iter(names)) if known or not st.session_state.get("weights_find") else FIND


def _typed(now: Here, lift: LiftRecord, reps: int, key: str) -> str:
    unit = now.member.unit
    text = st.text_input(
        f"Your {reps}RM, in {unit}", key=f"{key}_typed_{now.member.id}_{lift.id}_{reps}", placeholder="such as 92.5", persist_state="session",
        help="Used here and not kept. To keep a rep-max, record it under Preferences.",
    )  # fmt: skip
    return (text or "").strip()


def read(now: Here, of: Chosen) -> Reference | None:
    """Return the reference max; None, with a word, where nothing is typed yet or what was typed is no load."""
    if of.known is not None:
        return of.known
    if not of.typed:
        st.write("Type your rep-max above, and the loads stand here.")
        return None
    try:
        return weights.typed_reference(of.typed, of.reps, now.member.unit, now.today)
    except TidemarkError as error:
        st.error(as_typed(f"{error}"), icon=":material/error:")
        return None
