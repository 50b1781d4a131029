"""How far forecasts were right: `python -m tracker.strength.backtest.foretold [athletes] [members] [seed] [FILE half]`.

What was foretold 4, 8, 12 and 26 weeks ahead is held against what is true then, on invented athletes and members, who train
on; beside it the last test, carried on as if nothing would change. Windows into which a lay-off falls are left out, since
nobody trained on in them; the athletes who had one stand in a row of their own. Of competitors (FILE as in
`backtest.competitors`, and its half) the next meet is foretold on the day of the last one.

A member is asked once in four weeks. Each figure is of members, and its standard error (+-) between them. What was found
stands in DEVELOPERS.md.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from itertools import pairwise
from math import log
from pathlib import Path

import numpy as np

from tracker.strength.backtest import thin
from tracker.strength.backtest.athletes import Lift, invent
from tracker.strength.backtest.competitors import LIFTS, competitors
from tracker.strength.backtest.thin import ThinMember
from tracker.strength.backtest.thin_table import Figure, mean, rooted
from tracker.strength.backtest.training import START
from tracker.strength.backtest.yardsticks import carried
from tracker.strength.estimator import LiftModel
from tracker.strength.forecast import MOST_WEEKS, forecast

AHEAD = (4, 8, 12, 26)  # weeks
EVERY = 28  # days between two days on which a member is asked
ASKED = 30  # weeks of a member's life in which they are asked: what the kinds were described for
LONG = ASKED + 26
THIN = (thin.easy, thin.tiring, thin.drifting, thin.rested, thin.tens, thin.slips)


Truth = Callable[
    [date, int], float | None
]  # what is true so many weeks after a day, in kg; None where it can't be asked


@dataclass(frozen=True, slots=True)
class Foretold:
    """What was foretold of one member at one distance, in logarithms, each a mean over the days asked."""

    member: str
    square: float  # of the error
    carried: float  # the same of the last test; nan where there was none
    bias: float
    held: float  # share of the days asked
    width: float


def asked_of(days: Iterable[date]) -> Iterator[date]:
    """Choose the days on which somebody is asked: the first, and each one four weeks or more after the last chosen."""
    last: date | None = None
    for day in days:
        if last is None or (day - last).days >= EVERY:
            last = day
            yield day


def of_lift(lift: Lift) -> Mapping[int, Foretold]:
    """Foretell one lift of an invented athlete, from its first test on."""
    model = LiftModel.of(lift.records)
    days = [each.day for each in model.days]
    tests = dict(zip(days, carried(lift.records, lift.reps, days), strict=True))
    away, end = lift.truth.away, len(lift.truth.level)

    def truth(day: date, weeks: int) -> float | None:
        at = (day - START).days
        then = at + 7 * weeks
        off = bool(away) and away.start <= then and at < away.stop
        return None if then >= end or off else lift.truth.rep_max(then, lift.reps)

    known = [day for day in days if tests[day] is not None]
    return _held(f"{lift.member} {lift.truth.level[0]}", model, lift.reps, known, truth, tests)


def of_member(number: int, member: ThinMember) -> Mapping[int, Foretold]:
    """Foretell a member of whom little is known, on days that have a truth."""
    model = LiftModel.of(member.records, elsewhere=member.elsewhere)
    days = [day for day in member.truth if day < thin.FIRST + timedelta(weeks=ASKED)]
    tests = dict(zip(days, carried(member.records, member.reps, days), strict=True))

    def truth(day: date, weeks: int) -> float | None:
        return member.truth.get(day + timedelta(weeks=weeks))

    return _held(f"{member.kind} {number}", model, member.reps, days, truth, tests)


def _held(
    name: str, model: LiftModel, reps: int, days: Sequence[date], truth: Truth, tests: Mapping[date, float | None]
) -> Mapping[int, Foretold]:
    found: dict[int, list[tuple[float, ...]]] = {}
    for day in asked_of(days):
        known = {weeks: value for weeks in AHEAD if (value := truth(day, weeks)) is not None}
        if not known:
            continue
        told = forecast(model, day, max(known), tuple(known))
        for (weeks, value), then in zip(known.items(), told, strict=True):
            band, last = then.rep_max[reps], tests[day]
            error = log(band.estimate / value)
            held, width = float(band.low80 <= value <= band.high80), log(band.high80 / band.low80)
            found.setdefault(weeks, []).append(
                (error**2, log(last / value) ** 2 if last else np.nan, error, held, width)
            )
    return {weeks: Foretold(name, *np.mean(rows, axis=0).tolist()) for weeks, rows in found.items()}


def meets_of(path: Path, half: str) -> Iterator[Foretold]:
    """Foretell each competitor's next meets from those before, on the day of the last one: one figure for each person."""
    for person in competitors(path, half):
        rows: list[tuple[float, ...]] = []
        for at in range(len(LIFTS)):
            records = person.member(at).records
            model = LiftModel.of(records)
            for last, after in pairwise(records):
                weeks = min(MOST_WEEKS, max(1, round((after.day - last.day).days / 7)))
                band = forecast(model, last.day, weeks, (weeks,))[0].rep_max[1]
                error = log(band.estimate / after.load_kg)
                held = float(band.low80 <= after.load_kg <= band.high80)
                rows.append(
                    (error**2, log(last.load_kg / after.load_kg) ** 2, error, held, log(band.high80 / band.low80))
                )
        yield Foretold(str(person.number), *np.mean(rows, axis=0).tolist())


def against(found: Sequence[Foretold]) -> Figure:
    """Return the error as a part of the carried test's, and its standard error between members by first order."""
    both = np.array([(each.square, each.carried) for each in found if not np.isnan(each.carried)])
    if len(both) < 2:
        return Figure(float("nan"), float("nan"))
    ours, theirs = both.mean(axis=0)
    ratio = float(np.sqrt(ours / theirs))
    off = both[:, 0] / ours - both[:, 1] / theirs
    return Figure(ratio, ratio / 2 * float(np.std(off, ddof=1)) / len(both) ** 0.5)


HEAD = (
    f"{'kind':<11}{'weeks':>6}{'members':>8}{'error %':>14}{'/carried':>16}{'bias %':>15}{'held %':>15}{'width %':>9}"
)


def row(kind: str, weeks: str, found: Sequence[Foretold]) -> str:
    """Write one row."""
    error, ratio = rooted([each.square for each in found]), against(found)
    bias, held = mean([each.bias for each in found]), mean([each.held for each in found])
    text = f"{kind:<11}{weeks:>6}{len(found):>8}{error.value:>8.2f} +-{error.error:.2f}"
    text += f"{ratio.value:>9.2f} +-{ratio.error:.2f}" if not np.isnan(ratio.value) else f"{'-':>15}"
    text += f"{bias.value:>+9.2f} +-{bias.error:.2f}{held.value:>9.1f} +-{held.error:<4.1f}"
    return text + f"{mean([each.width for each in found]).value:>8.1f}"


Told = list[Mapping[int, Foretold]]


def rows(kind: str, told: Told) -> Iterator[str]:
    """Write a kind's rows, one for each distance."""
    for weeks in AHEAD:
        some = [each[weeks] for each in told if weeks in each]
        if len(some) > 1:
            yield row(kind, str(weeks), some)


def main(athletes: int = 440, members: int = 60, seed: int = 5011, *, path: str = "", half: str = "odd") -> None:
    """Print the tables."""
    say = partial(print, flush=True)
    say(f"seed {seed}; +- is one standard error between members\n{HEAD}")
    kinds: dict[str, Told] = {}
    for lift in invent(athletes, seed):
        kinds.setdefault(lift.kind.name, []).append(of_lift(lift))
    tested = [each for kind, told in kinds.items() if kind != "lay-off" for each in told]
    for kind, told in {"with tests": tested, **kinds}.items():
        for each in rows(kind, told):
            say(each)
    for make in THIN:
        some = [of_member(at, make(np.random.default_rng([seed, THIN.index(make), at]), LONG)) for at in range(members)]
        for each in rows(make.__name__, some):
            say(each)
    if path:
        say(row(f"{half} half", "next", list(meets_of(Path(path), half))))


if __name__ == "__main__":
    main(*map(int, sys.argv[1:4]), path="".join(sys.argv[4:5]), half="".join(sys.argv[5:6]) or "odd")
