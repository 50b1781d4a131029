"""The table: error, coverage and worst member, by kind, beside the yardsticks."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import log

import numpy as np

from tracker.strength.backtest.athletes import Lift
from tracker.strength.backtest.training import START
from tracker.strength.backtest.yardsticks import best_formula, carried, oracle
from tracker.strength.estimator import LiftModel
from tracker.strength.parameters import DEFAULT, Parameters

SHOWN = ("estimate", "carried", "formula", "oracle")


@dataclass(slots=True)
class Score:
    """Errors of one lift, in logarithms, one for each day after the first test; and whether the band held."""

    lift: Lift
    errors: dict[str, list[float]] = field(default_factory=lambda: {name: [] for name in SHOWN})
    held: list[bool] = field(default_factory=list[bool])
    hindsight: list[float] = field(default_factory=list[float])
    hindsight_held: list[bool] = field(default_factory=list[bool])
    width: list[float] = field(default_factory=list[float])


def score(lift: Lift, parameters: Parameters = DEFAULT, *, with_oracle: bool = True) -> Score:
    """Run all yardsticks over one lift; days before the first test have no carried test and don't count."""
    trend = LiftModel.of(lift.records, parameters).trend()
    days = [point.day for point in trend]
    tests = carried(lift.records, lift.reps, days)
    formula = best_formula(lift.records, lift.reps, days)
    best = oracle(lift, days) if with_oracle else None
    found = Score(lift)
    for i, point in enumerate(trend):
        last, rule = tests[i], formula[i]
        if last is None:
            continue
        truth = lift.truth.rep_max((point.day - START).days, lift.reps)
        band, hind = point.filtered.rep_max[lift.reps], point.smoothed
        found.errors["estimate"].append(log(band.estimate / truth))
        found.errors["carried"].append(log(last / truth))
        found.errors["formula"].append(log((rule or last) / truth))
        if best:
            found.errors["oracle"].append(log(best[i].estimate / truth))
        found.held.append(band.low80 <= truth <= band.high80)
        found.width.append(log(band.high80 / band.low80))
        if hind:
            other = hind.rep_max[lift.reps]
            found.hindsight.append(log(other.estimate / truth))
            found.hindsight_held.append(other.low80 <= truth <= other.high80)
    return found


def rms(values: Iterable[float]) -> float:
    """Root mean square, in per cent."""
    array = np.fromiter(values, float)
    return 100 * float(np.sqrt(np.mean(array**2))) if len(array) else float("nan")


def table(scores: Sequence[Score]) -> str:
    """Write the table, one row a kind and one for all."""
    head = f"{'kind':<11}{'lifts':>6}{'days':>6}" + "".join(f"{name:>10}" for name in SHOWN)
    head += f"{'/carried':>9}{'/oracle':>8}{'bias':>7}{'band':>7}{'width':>7}{'worst':>7}{'hind':>7}{'band':>6}"
    kinds = list(dict.fromkeys(each.lift.kind.name for each in scores))
    rows = [_row(kind, [each for each in scores if each.lift.kind.name == kind]) for kind in kinds]
    return "\n".join([head, *rows, _row("all", scores)])


def _row(name: str, scores: Sequence[Score]) -> str:
    some = [each for each in scores if each.held]
    found = {key: rms(error for each in some for error in each.errors[key]) for key in SHOWN}
    held = 100 * np.mean([value for each in some for value in each.held])
    bias = 100 * np.mean([value for each in some for value in each.errors["estimate"]])
    width = 100 * np.mean([value for each in some for value in each.width])
    worst = max(rms(each.errors["estimate"]) for each in some)
    hind = rms(value for each in some for value in each.hindsight)
    hind_held = 100 * np.mean([value for each in some for value in each.hindsight_held])
    text = f"{name:<11}{len(some):>6}{sum(len(each.held) for each in some):>6}"
    text += "".join(f"{found[key]:>9.2f}%" for key in SHOWN)
    text += f"{found['estimate'] / found['carried']:>9.2f}{found['estimate'] / found['oracle']:>8.2f}{bias:>+7.2f}"
    return text + f"{held:>6.1f}%{width:>6.1f}%{worst:>6.1f}%{hind:>6.2f}%{hind_held:>5.0f}%"
