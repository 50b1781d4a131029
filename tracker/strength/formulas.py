"""One-repetition-max formulas that are in print, each with its source, its range and what it was made from.

Every formula assumes one set, fresh, to failure, with full range of motion. A single that was made is the max itself,
whatever a formula says of it. Past the repetitions that a formula was made for there is no value, and a reason instead:
Brzycki and Lander have a pole near 37 repetitions and blow up long before it.

`status` says what an equation rests on. "published": coefficients seen in the paper's own abstract. "read in a text that
cites it": agreeing listings, the original not seen. "from memory": not seen at all. Ranges of practice formulas without
a stated one end at 10 repetitions, where all of them are more accurate (Mayhew et al. 2008, abstract).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Literal

from tracker.errors import BadInputError
from tracker.strength.records import SetRecord

Status = Literal["published", "read in a text that cites it", "common practice", "from memory"]
CITED: Status = "read in a text that cites it"
WINDOW_DAYS = 42  # a set counts for a formula while it is at most so old; design choice, six weeks
MOST_RIR = 4.0  # more in reserve can't be told reliably (Zourdos et al. 2021; Hackett et al. 2017, abstracts)


@dataclass(frozen=True, slots=True)
class Value:
    """A load in kilograms, or None with the reason why there is none."""

    kg: float | None
    reason: str = ""


@dataclass(frozen=True, slots=True)
class FiveRepLine:
    """A line from a tested 5RM to the 1RM, in kilograms: `slope` x 5RM + `intercept_kg`. Bound to its unit."""

    slope: float
    intercept_kg: float
    status: Status = "published"


@dataclass(frozen=True, slots=True)
class Formula:
    """One formula: 1RM = load x `multiple(repetitions to failure)`, from `least_reps` to `most_reps` repetitions.

    `line` replaces the general form at exactly five repetitions, where the paper has one.
    """

    key: str
    name: str
    citation: str
    status: Status
    population: str
    least_reps: float
    most_reps: float
    multiple: Callable[[float], float]
    line: FiveRepLine | None = None

    @property
    def range_words(self) -> str:
        """Say the repetitions it holds for: "2 to 10 repetitions"."""
        return f"{self.least_reps:g} to {self.most_reps:g} repetitions"

    def status_at(self, reps: float) -> Status:
        """Return what the form used at `reps` repetitions rests on."""
        return self.line.status if self.line and reps == 5 else self.status

    def in_range(self, reps: float) -> bool:
        """Tell whether it says anything of a set of `reps` repetitions to failure (one repetition is the max itself)."""
        return reps == 1 or self.least_reps <= reps <= self.most_reps

    def one_rm(self, load_kg: float, reps: float) -> Value:
        """Estimate the 1RM in kilograms from a load and repetitions to failure (halves allowed).

        Raises:
            BadInputError: if the load is not above zero or either number is not finite.
        """
        _check(load_kg, reps)
        if reps == 1:
            return Value(load_kg)
        if not self.in_range(reps):
            return Value(None, self._outside(reps))
        if self.line and reps == 5:
            return Value(self.line.slope * load_kg + self.line.intercept_kg)
        return Value(load_kg * self.multiple(reps))

    def rep_max(self, one_rm_kg: float, reps: float) -> Value:
        """Turn a 1RM in kilograms back into the load for `reps` repetitions; the inverse of `one_rm`.

        Raises:
            BadInputError: if the 1RM is not above zero or either number is not finite.
        """
        _check(one_rm_kg, reps)
        if reps == 1:
            return Value(one_rm_kg)
        if not self.in_range(reps):
            return Value(None, self._outside(reps))
        if self.line and reps == 5:
            load = (one_rm_kg - self.line.intercept_kg) / self.line.slope
            return Value(load) if load > 0 else Value(None, f"The 5RM line of {self.name} starts above this 1RM.")
        return Value(one_rm_kg / self.multiple(reps))

    def _outside(self, reps: float) -> str:
        if reps < 1:
            return "No repetition was completed."
        return f"{self.name} holds for {self.range_words}, not for {reps:g}."


def _check(load_kg: float, reps: float) -> None:
    if not math.isfinite(load_kg) or load_kg <= 0:
        raise BadInputError(f"A load of {load_kg} kg can't be.", mend="Use a finite load above zero.")
    if not math.isfinite(reps) or reps < 0:
        raise BadInputError(f"{reps} repetitions can't be.", mend="Use 0 repetitions or more.")


def _percent(percent_of_1rm: Callable[[float], float]) -> Callable[[float], float]:
    """Turn a curve of per cent of the 1RM into a multiple of the load."""
    return lambda reps: 100.0 / percent_of_1rm(reps)


_REYNOLDS = "Reynolds, Gordon & Robergs 2006, J Strength Cond Res 20(3):584-592, doi 10.1519/R-15304.1"
_REYNOLDS_SAMPLE = "34 men and 36 women of 18 to 69 years; at 5 repetitions the paper's own line in kg"

_ALL = (
    Formula(
        "epley", "Epley", "Epley 1985, Poundage chart, Boyd Epley Workout, Body Enterprises, Lincoln NE",
        CITED, "a chart for practice, made from no sample; 1/30 exactly (0.033 and 0.0333 are in print too)",
        2, 10, lambda r: 1 + r / 30,
    ),
    Formula(
        "brzycki", "Brzycki", "Brzycki 1993, JOPERD 64(1):88-90, doi 10.1080/07303084.1993.10606684",
        CITED, "a rule for practice", 1, 10, lambda r: 36 / (37 - r),
    ),
    Formula(
        "lander", "Lander", "Lander 1985, Maximums based on reps, NSCA Journal 6(6):60-61",
        CITED, "a chart for practice", 2, 10, _percent(lambda r: 101.3 - 2.67123 * r),
    ),
    Formula(
        "lombardi", "Lombardi", "Lombardi 1989, Beginning Weight Training, Brown, Dubuque IA",
        CITED, "a textbook's rule", 1, 10, lambda r: r**0.10,
    ),
    Formula(
        "mayhew", "Mayhew et al.", "Mayhew, Ball, Arnold & Bowen 1992, J Appl Sport Sci Res 6(4):200-206",
        CITED, "bench press only: 435 college men and women, as many repetitions as they had in 1 min; too high up to 5",
        2, 15, _percent(lambda r: 52.2 + 41.9 * math.exp(-0.055 * r)),
    ),
    Formula(
        "oconner", "O'Conner et al.", "O'Conner, Simmons & O'Shea 1989, Weight Training Today, West, St Paul MN",
        CITED, "a rule for practice", 2, 10, lambda r: 1 + 0.025 * r,
    ),
    Formula(
        "wathen", "Wathen", "Wathen 1994, Load assignment, in Baechle (ed.), Essentials of Strength Training and "
        "Conditioning, Human Kinetics, 435-446",
        CITED, "a textbook's curve", 2, 10, _percent(lambda r: 48.8 + 53.8 * math.exp(-0.075 * r)),
    ),
    Formula(
        "kemmler", "Kemmler et al.", "Kemmler, Lauber, Wassermann & Mayhew 2006, J Strength Cond Res 20(4):838-842",
        "published", "70 trained women of 57.4 +/- 3.1 years, on machines: leg press, bench press, row, leg adduction",
        3, 20, lambda r: 0.988 + 0.0104 * r + 0.00190 * r**2 - 0.0000584 * r**3,
    ),
    Formula(
        "reynolds_bench", "Reynolds et al., bench press", _REYNOLDS, "from memory",
        f"bench press only: {_REYNOLDS_SAMPLE}",
        2, 20, _percent(lambda r: 55.51 * math.exp(-0.0723 * r) + 48.47), FiveRepLine(1.1307, 0.6999),
    ),
    Formula(
        "reynolds_leg_press", "Reynolds et al., leg press", _REYNOLDS, "from memory",
        f"plate-loaded leg press only, with loads of a leg press: {_REYNOLDS_SAMPLE}",
        2, 20, _percent(lambda r: 78.17 * math.exp(-0.0569 * r) + 26.41), FiveRepLine(1.0970, 14.2546),
    ),
)  # fmt: skip
FORMULAS: Mapping[str, Formula] = MappingProxyType({formula.key: formula for formula in _ALL})


@dataclass(frozen=True, slots=True)
class FormulaValue:
    """What one formula makes of the best set in its range, in kilograms; all None, and the reason, where there is none.

    `reps` are those to failure: of a set with some left in reserve more than were done. `of` is that set as it was done.
    """

    formula: Formula
    one_rm_kg: float | None
    reps: float | None = None
    load_kg: float | None = None
    day: date | None = None
    reason: str = ""
    of: SetRecord | None = None

    @property
    def in_range(self) -> bool:
        return self.one_rm_kg is not None


def reps_to_failure(record: SetRecord) -> float | None:
    """Return the repetitions that a set had in it, or None where its effort is not known well enough for a formula.

    A miss and a test had their repetitions; any other set those and up to four reported in reserve. A set cut short, a
    ramp set and a set without a report say only "at least".
    """
    if record.outcome == "cut":
        return None
    if record.outcome == "missed" or record.kind == "test":
        return float(record.reps)
    if record.kind == "ramp" or record.rir is None or record.rir > MOST_RIR:
        return None
    return record.reps + record.rir


def best_values(sets: Iterable[SetRecord], as_of: date) -> dict[str, FormulaValue]:
    """Apply every formula to the best set, at most 42 days old on `as_of`, that lies in its range.

    The best set gives the highest 1RM; of equal ones the newest counts. The answer has one entry for each of `FORMULAS`.
    """
    recent = [each for each in sets if 0 <= (as_of - each.day).days <= WINDOW_DAYS]
    known = [(each, reps) for each in recent if each.load_kg > 0 and (reps := reps_to_failure(each))]
    return {key: _best(formula, known, bool(recent)) for key, formula in FORMULAS.items()}


def _best(formula: Formula, known: list[tuple[SetRecord, float]], any_recent: bool) -> FormulaValue:
    found = [(value.kg, each.day, -reps, each) for each, reps in known
             if (value := formula.one_rm(each.load_kg, reps)).kg is not None]  # fmt: skip
    if found:
        kg, day, less_reps, best = max(found, key=lambda one: one[:3])
        return FormulaValue(formula, kg, -less_reps, best.load_kg, day, of=best)
    if not any_recent:
        return FormulaValue(formula, None, reason=f"There is no set in the last {WINDOW_DAYS} days.")
    if not known:
        why = "No recent set is known to be near failure: it takes a test, a miss, or up to 4 reported in reserve."
        return FormulaValue(formula, None, reason=why)
    had = sorted({reps for _, reps in known})
    said = f"{had[0]:g}" if len(had) == 1 else f"{had[0]:g} to {had[-1]:g}"
    return FormulaValue(
        formula, None, reason=f"{formula.name} holds for {formula.range_words}; recent sets had {said} in them."
    )
