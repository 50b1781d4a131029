"""Whether sets of a plan go as foretold: `python -m tracker.study.planned [athletes] [seed]`.

Eight weeks before the end of an invented athlete's life a wave is planned from what is known of them on that day, each set is foretold for
its day, and then it is done: by the level that is true on that day, its form, and the sets before, as the athletes train
otherwise. Percentages rise so far that the last weeks are doubtful. Whoever rests in these weeks is left out, since
nobody trained on. What was foretold is held against what was made, by how likely it was and by how far off it lay; +- is one
standard error between athletes. What was found stands in DEVELOPERS.md.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise

import numpy as np

from tracker.prescription.plan import PlanAsk, PlanLift, days_of
from tracker.strength.backtest.athletes import Lift, invent
from tracker.strength.backtest.thin_table import Figure, mean
from tracker.strength.backtest.training import START
from tracker.strength.chance import AskedSet, chances_of
from tracker.strength.estimator import LiftModel
from tracker.strength.forecast import beliefs_on

WEEKS = 8
FIRST, LAST = Decimal(80), Decimal(104)  # per cent of the nRM, so that every chance comes to be asked
SETS = 3
STEP = 2.5  # kg
LIKELY = (0.0, 0.3, 0.6, 0.8, 0.9, 0.97, 1.0)  # bounds of the rows


@dataclass(frozen=True, slots=True)
class PlannedSet:
    """One set of a plan: whose, how many days ahead, how likely it was said to be, and whether it was made."""

    athlete: str
    ahead: int
    foretold: float
    made: bool


def of_lift(number: int, lift: Lift, seed: int) -> Iterator[PlannedSet]:
    """Plan for one lift of an invented athlete, foretell it and do it; nothing where they rest, or too little is known."""
    end = len(lift.truth.level) - 1
    begins = end - 7 * WEEKS
    away, today = lift.truth.away, START + timedelta(days=begins)
    known = [each for each in lift.records if each.day <= today]
    if len({each.day for each in known}) < 4 or (away and away.start <= end and begins < away.stop):
        return
    model = LiftModel.of(known)
    asked = _asked(model, lift, today, START + timedelta(days=end))
    told = model.known(today).told
    dice = np.random.default_rng([seed, number, WEEKS])
    for (day, belief), sets in zip(beliefs_on(model, today, list(asked)), asked.values(), strict=True):
        chances, form = chances_of(belief, told, sets), float(dice.normal(0, lift.truth.form_sd))
        for chance, each in zip(chances, sets, strict=True):
            made = _made(lift, (day - START).days, form, each, dice)
            yield PlannedSet(f"{number}", (day - today).days, chance, made)


def _asked(model: LiftModel, lift: Lift, today: date, ends: date) -> dict[date, tuple[AskedSet, ...]]:
    """Lay out the plan: percentages of the last test, or of the estimate where there was none, in whole discs."""
    tests = [each for each in model.days for each in each.records if each.kind == "test" and each.outcome == "done"]
    last = max((each.day for each in tests), default=None)
    of = max(
        (each.load_kg for each in tests if each.day == last), default=model.estimate(today).rep_max[lift.reps].estimate
    )
    plan = PlanLift("lift", lift.reps, FIRST, LAST, SETS, lift.reps)
    ask = PlanAsk((plan,), ends, WEEKS, (today.weekday(), (today.weekday() + 3) % 7), test=False)
    found: dict[date, tuple[AskedSet, ...]] = {}
    for day in days_of(ask):
        week = day.week.lifts[0]
        load = max(STEP, round(of * float(week.percent) / 100 / STEP) * STEP)
        found[day.day] = tuple(AskedSet(load, week.reps, before) for before in range(week.sets))
    return found


def _made(lift: Lift, at: int, form: float, asked: AskedSet, dice: np.random.Generator) -> bool:
    truth = lift.truth
    fresh = truth.level[at] + form - truth.fatigue * asked.sets_before
    says = float(truth.curve.reps(fresh - np.log(asked.load_kg)))
    return bool(np.floor(says + dice.normal(0, truth.rep_sd * (1 + 0.05 * max(says, 0)))) >= asked.reps)


def planned(athletes: int, seed: int) -> list[PlannedSet]:
    """Plan, foretell and do for so many invented athletes."""
    return [each for number, lift in enumerate(invent(athletes, seed)) for each in of_lift(number, lift, seed)]


def apart(found: Sequence[PlannedSet]) -> tuple[Figure, Figure, Figure]:
    """Return what was foretold, what was made, and made less foretold, in per cent: means of athletes."""
    by: dict[str, list[PlannedSet]] = {}
    for each in found:
        by.setdefault(each.athlete, []).append(each)
    said = [float(np.mean([each.foretold for each in some])) for some in by.values()]
    made = [float(np.mean([each.made for each in some])) for some in by.values()]
    return mean(said), mean(made), mean([one - two for one, two in zip(made, said, strict=True)])


def rows(found: Sequence[PlannedSet]) -> Iterator[str]:
    """Write the table: by how likely, then by how far off."""
    yield f"{'sets':<22}{'sets':>7}{'athletes':>9}{'foretold %':>12}{'made %':>9}{'made less foretold':>24}"
    parts: list[tuple[str, Iterable[PlannedSet]]] = [("all", found)]
    parts += [
        (f"{100 * low:.0f} to {100 * high:.0f} % likely", [each for each in found if low <= each.foretold < high])
        for low, high in pairwise(LIKELY)
    ]
    parts += [
        (f"weeks {first} to {last}", [each for each in found if first <= -(-each.ahead // 7) <= last])
        for first, last in ((1, 2), (3, 4), (5, 6), (7, 8))
    ]
    for name, some in parts:
        each = list(some)
        who = len({one.athlete for one in each})
        if who > 1:
            said, made, off = apart(each)
            yield f"{name:<22}{len(each):>7}{who:>9}{said.value:>12.1f}{made.value:>9.1f}{off.value:>+16.1f} +-{off.error:.1f}"


def main(athletes: int = 330, seed: int = 6011) -> None:
    """Print the table."""
    print(f"seed {seed}; +- is one standard error between athletes")
    for line in rows(planned(athletes, seed)):
        print(line, flush=True)


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
