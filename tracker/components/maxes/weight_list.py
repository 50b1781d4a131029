"""Loads to be put on, as one ladder: each load with its bar, what was asked as a mark on it, and how likely it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from html import escape
from itertools import groupby

import streamlit as st

from tracker.components.frame import cautions, discs
from tracker.components.frame.words import holds_words, load_words, reps_words
from tracker.desk.day.lines import chance_words
from tracker.desk.day.weights import WeightLine
from tracker.desk.maxes.references import Reference
from tracker.log.records import LiftRecord
from tracker.units import Mass
from tracker.wording import counted

LOWERED = "lower than asked"  # in the words on coming back
SAME = 0.02  # a smaller loss of chance from the first set to the last is not worth a word


def show(lines: Sequence[WeightLine], lift: LiftRecord, reference: Reference) -> None:
    """Draw the loads as one ladder, each load once, with how many sets are done with it."""
    digits = 0 if reference.source == "estimated" else 1  # a percentage is as sure as what it is of
    groups = [tuple(group) for _, group in groupby(lines, key=lambda line: (line.reps, line.percent))]
    masses = [mass for sets in groups for mass in (sets[0].target, sets[0].made.load if sets[0].made else None) if mass]
    scale = Scale.of([*masses, reference.shown])
    if any(sets[0].made for sets in groups):
        st.html(f'<p class="ladder-key">{escape(_key(scale, lift, reference))}</p>')
    with st.container(key="ladder", gap=None):
        for sets in groups:
            _rung(sets, lift, digits, scale)
    if reference.holds:
        st.html(f'<p class="plain">{escape(holds_words(reference.holds))}</p>')
    cautions.show(dict.fromkeys(caution for sets in groups for caution in sets[0].cautions))


@dataclass(frozen=True, slots=True)
class Scale:
    """The loads that a ladder spans; from nothing on the bar, or, where the body is helped, from the most help, to the max."""

    least: Mass
    most: Mass

    @classmethod
    def of(cls, masses: Sequence[Mass]) -> Scale:
        """Span loads and the max that they are of."""
        most, least = max(masses, key=lambda mass: mass.kg), min(masses, key=lambda mass: mass.kg)
        return cls(least if least.kg < 0 else Mass(Decimal(0), most.unit), most)

    def share(self, mass: Mass) -> float:
        """Return where a load stands, in per cent of the bar."""
        return float((mass.kg - self.least.kg) / max(self.most.kg - self.least.kg, Decimal("1e-9"))) * 100


def _key(scale: Scale, lift: LiftRecord, reference: Reference) -> str:
    """Say what the bars show, once for all of them."""
    end = load_words(scale.most, lift)
    whose = f"your {reference.reps}RM, {end}" if scale.most == reference.shown else end
    return f"Bars from {load_words(scale.least, lift).removesuffix(' each')} to {whose}. Upright mark: what is asked."


def _rung(sets: tuple[WeightLine, ...], lift: LiftRecord, digits: int, scale: Scale) -> None:
    first = sets[0]
    times = escape(f"{_times(sets, lift)} at {first.percent:g} %")
    note = f'<p class="plain note">{escape(first.note)}</p>' if first.note else ""
    if first.made is None:
        st.html(f'<div class="rung"><p class="over">{times}</p></div><div class="rung-end">{note}</div>')
        return
    words = f"<span>{escape(first.made.words)}</span>" if lift.implement in ("barbell", "unasked") else ""
    load = escape(load_words(first.made.load, lift))
    st.html(f'<div class="rung"><p class="over">{times}</p><p class="load"><b>{load}</b>{words}</p></div>')
    discs.show(first.made)
    made, asked = scale.share(first.made.load), scale.share(first.target)
    st.html(
        f'<div class="rung-end"><i class="track" aria-hidden="true"><b style="width:{made:.1f}%"></b><u style="left:{asked:.1f}%"></u></i>'
        f'<small>{escape(_beside(first, lift, digits))}</small><p class="chance">{escape(_chance(sets))}</p>{note}</div>'
    )


def _beside(first: WeightLine, lift: LiftRecord, digits: int) -> str:
    """Say what was asked, and how many per cent the load is, where that is another number."""
    if first.made is None or first.made.load.kg == first.target.kg:
        return ""
    true = "" if first.true_percent is None else f"{round(first.true_percent, digits):g}"
    other = true and true != f"{round(first.percent, digits):g}"
    is_percent = f"{load_words(first.made.load, lift)} is {true} % of the max" if other else ""
    how = "lowered to" if LOWERED in (first.note or "") else "asked"  # what the coach asked was more
    return " · ".join(part for part in (f"{how} {load_words(_asked(first.target), lift)}", is_percent) if part)


def _asked(target: Mass) -> Mass:
    """The target to a tenth, but quarters as they are, as in every word on rounding."""
    return target if target.amount * 4 % 1 == 0 else Mass(round(target.amount, 1), target.unit)


def _times(sets: Sequence[WeightLine], lift: LiftRecord) -> str:
    count, reps = len(sets), reps_words(sets[0].reps, each_side=lift.per_side)
    return f"{count} sets of {reps}" if count > 1 else f"1 set of {reps}"


def _chance(sets: Sequence[WeightLine]) -> str:
    """Say the first set's chance, and the last one's where that is clearly less."""
    first, last, reps = sets[0].chance, sets[-1].chance, counted(sets[0].reps, "rep")
    if first is None or last is None or first - last < SAME:
        return _likely(first, f"to make {reps}")
    return f"{_likely(first, f'to make {reps} in the first set')}; {_likely(last, 'in the last')}"


def _likely(chance: float | None, what: str) -> str:
    """Say how likely it is, and of what, in the words of every page: `80 % likely to make 5 reps`."""
    said, _, warning = chance_words(chance).partition(": ")
    return f"{said} {what}{f', {warning}' if warning else ''}" if said else ""
