"""Loads to be put on: large figures first, then discs, true per cent and chance."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

import streamlit as st

from tracker.components import cautions, discs
from tracker.components.words import load_words, reps_words
from tracker.desk.lines import chance_words
from tracker.desk.weights import WeightLine
from tracker.log.records import LiftRecord
from tracker.safety import Caution


def show(lines: Sequence[WeightLine], lift: LiftRecord) -> None:
    """Show each load once, with how many sets are done with it."""
    needed: dict[Caution, None] = {}
    for _, group in groupby(lines, key=lambda line: (line.reps, line.percent)):
        sets = tuple(group)
        _card(sets, lift)
        needed |= dict.fromkeys(sets[0].cautions)
    cautions.show(needed)


def _card(sets: tuple[WeightLine, ...], lift: LiftRecord) -> None:
    first = sets[0]
    with st.container(border=True, gap="xsmall"):
        if first.made is None:
            st.markdown(f"### {_times(sets, lift)}")
            st.warning(first.note or "", icon=":material/block:")
            return
        st.markdown(f"### {load_words(first.made.load, lift)}  \n{_times(sets, lift)}")
        if first.made.per_side or lift.implement in ("barbell", "unasked"):
            st.markdown(first.made.words)
            discs.show(first.made)
        if first.note:
            st.markdown(f":material/info: {first.note}")
        st.caption(" · ".join(part for part in (_percent(first), _chance(sets)) if part))


def _times(sets: Sequence[WeightLine], lift: LiftRecord) -> str:
    count, reps = len(sets), sets[0].reps
    many = f"{count} sets" if count > 1 else "1 set"
    return f"{many} of {reps_words(reps, lift)}"


def _percent(line: WeightLine) -> str:
    asked = f"{line.percent:g} %"
    if line.true_percent is None or abs(line.true_percent - line.percent) < 0.05:
        return asked
    return f"{asked} asked, {line.true_percent:.1f} % really"


def _chance(sets: Sequence[WeightLine]) -> str:
    """Say the first set's chance, and the last one's where that is clearly less."""
    first, last = sets[0].chance, sets[-1].chance
    if first is None or last is None or first - last < 0.02:
        return chance_words(first)
    return f"first set {chance_words(first)}; last one {chance_words(last)}"
