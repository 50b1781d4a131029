"""Loads to be put on: large figures first, then discs, true per cent and chance."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from itertools import groupby

import streamlit as st

from tracker.components.frame import cautions, discs
from tracker.components.frame.words import holds_words, load_words, reps_words
from tracker.desk.day.lines import chance_words
from tracker.desk.day.weights import WeightLine
from tracker.desk.maxes.references import Reference
from tracker.log.records import LiftRecord
from tracker.safety import Caution

SAME = 0.02  # a smaller loss of chance from the first set to the last is not worth a word


def show(lines: Sequence[WeightLine], lift: LiftRecord, reference: Reference) -> None:
    """Show each load once, with how many sets are done with it."""
    if reference.holds:
        st.html(f'<p class="plain">{escape(holds_words(reference.holds))}</p>')
    needed: dict[Caution, None] = {}
    digits = 0 if reference.source == "estimated" else 1  # a percentage is as sure as what it is of
    for _, group in groupby(lines, key=lambda line: (line.reps, line.percent)):
        sets = tuple(group)
        _card(sets, lift, digits)
        needed |= dict.fromkeys(sets[0].cautions)
    cautions.show(needed)


def _card(sets: tuple[WeightLine, ...], lift: LiftRecord, digits: int) -> None:
    first = sets[0]
    with st.container(border=True, gap="xsmall"):
        times = f"{_times(sets, lift)} at {first.percent:g} %"
        if first.made is None:
            st.html(f'<p class="over">{escape(times)}</p><p class="plain note">{escape(first.note or "")}</p>')
            return
        load = load_words(first.made.load, lift)
        st.html(f'<p class="over">{escape(times)}</p><p class="big small">{escape(load)}</p>')
        if lift.implement in ("barbell", "unasked"):
            st.html(f'<p class="plain">{escape(first.made.words)}</p>')
            discs.show(first.made)
        notes = f'<p class="plain note">{escape(first.note)}</p>' if first.note else ""
        st.html(notes + f'<p class="chance">{escape(_facts(sets, digits))}</p>')


def _times(sets: Sequence[WeightLine], lift: LiftRecord) -> str:
    count, reps = len(sets), reps_words(sets[0].reps, lift)
    return f"{count} sets of {reps}" if count > 1 else f"1 set of {reps}"


def _facts(sets: Sequence[WeightLine], digits: int) -> str:
    first = sets[0]
    really = "" if first.true_percent is None else f"{round(first.true_percent, digits):g}"
    percent = f"this load is {really} % of the max" if really and really != f"{round(first.percent, digits):g}" else ""
    return " · ".join(part for part in (_chance(sets), percent) if part)


def _chance(sets: Sequence[WeightLine]) -> str:
    """Say the first set's chance, and the last one's where that is clearly less."""
    first, last = sets[0].chance, sets[-1].chance
    if first is None or last is None or first - last < SAME:
        return chance_words(first)
    return f"first {chance_words(first)}; last {chance_words(last)}"
