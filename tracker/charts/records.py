"""What the figures are drawn from: plain frozen values, loads in the unit of the view."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

Effort = Literal["to the end", "hard", "easy", "not said"]


@dataclass(frozen=True, slots=True)
class BandPoint:
    """What is believed of an nRM on one day: the estimate, its 80 % band, and what is known of that day now."""

    day: date
    estimate: float
    low: float
    high: float
    smoothed: float | None = None


@dataclass(frozen=True, slots=True)
class MaxMark:
    """A rep-max that somebody tested or declared, one that its member set aside, or an attempt at it that was missed."""

    day: date
    load: float
    source: Literal["tested", "declared", "missed", "set aside"]


@dataclass(frozen=True, slots=True)
class SetDot:
    """One set as it was done; `words` say the set, `effort` how near the end it was."""

    day: date
    load: float
    effort: Effort
    words: str


@dataclass(frozen=True, slots=True)
class FormulaMark:
    """What a published formula makes of its best set; `words` say which set that was."""

    day: date
    load: float
    name: str
    words: str


@dataclass(frozen=True, slots=True)
class Span:
    """Days with a name, drawn behind everything: a wave."""

    first: date
    last: date
    name: str


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """The most load for `reps` repetitions: the member's, with its 80 % band, and what the population's curve has it at."""

    reps: int
    estimate: float
    low: float
    high: float
    population: float | None = None
    done: float | None = None


@dataclass(frozen=True, slots=True)
class WeekBar:
    """One week of training: its Monday, its sum, and the words for it.

    `at_least` where part of it is not known, `silent` where nothing was logged; `planned` is what may still come.
    """

    monday: date
    amount: float
    words: str = ""
    at_least: bool = False
    silent: bool = False
    planned: float = 0.0


def effort_of(*, outcome: str, kind: str, rir: float | None) -> Effort:
    """Say how near its end a set was; a set cut short, a ramp set and one without a report say only "at least"."""
    if outcome == "missed" or kind == "test":
        return "to the end"
    if outcome == "cut" or kind == "ramp" or rir is None:
        return "not said"
    return "to the end" if rir < 1 else "hard" if rir <= 3 else "easy"
