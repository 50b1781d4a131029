"""The estimator against the exact answer: a long importance sample of its own assumptions, written here a second time."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from math import log

import numpy as np
import pytest
from scipy.special import ndtr

from tracker.strength.estimator import LiftModel
from tracker.strength.parameters import DEFAULT, PIVOT, Parameters
from tracker.strength.records import SetRecord
from tracker.strength.session import first_guess, shown

START = date(2026, 1, 5)
PATHS = 150_000


def s(week: int, load: float, reps: int, rir: float | None = None, **more: str) -> SetRecord:
    return SetRecord(START + timedelta(weeks=week), load, reps, rir, **more)  # type: ignore[arg-type]


HISTORIES = {
    "reported": [s(0, 80, 5, 3.0), s(0, 85, 5, 2.0), s(1, 87.5, 5, 2.0), s(2, 87.5, 6, 1.0), s(3, 90, 5, 1.0)],
    "a test and a miss": [s(0, 80, 3, 4.0), s(1, 100, 1, kind="test"), s(1, 105, 0, kind="test", outcome="missed")],
    "bounds and one report": [s(0, 70, 5), s(0, 75, 5), s(1, 80, 5), s(1, 80, 5, 3.0), s(2, 82.5, 5)],
    "high repetitions": [s(0, 50, 12, 3.0), s(1, 50, 15, outcome="missed"), s(2, 55, 10, 4.0)],
    "a report and a miss": [s(0, 80, 5, 3.0), s(1, 85, 5, 2.0), s(1, 90, 4, outcome="missed"), s(2, 87.5, 5, 2.0)],
    "a slip after a test": [s(0, 100, 3, kind="test"), s(1, 85, 3), s(1, 85, 3), s(1, 85, 2, outcome="missed")],
    "to failure after hard sets": [*(s(0, 85, 5) for _ in range(3)), s(0, 85, 7, outcome="missed"), s(1, 87.5, 5, 2.0)],
    "after a lay-off": [s(0, 90, 3, 2.0), s(1, 92.5, 3, 1.0), s(9, 80, 5, 2.0), s(10, 85, 5, 2.0)],
}


class Sampler:
    """Draws static parameters and paths of the state from the prior, day by day, and weighs them."""

    def __init__(self, first: list[SetRecord], p: Parameters, seed: int = 11) -> None:
        self.p, self.dice = p, np.random.default_rng(seed)
        draw = self.dice.choice
        steep = np.array(p.steepness)
        odds = np.exp(-0.5 * steep**2)
        self.steep = np.exp(p.steepness_sd * draw(steep, PATHS, p=odds / odds.sum()))
        self.shape = draw(p.shapes, PATHS, p=np.array(p.shape_weights) / sum(p.shape_weights))
        self.habit = draw(len(p.habits), PATHS, p=np.array(p.habit_weights) / sum(p.habit_weights))
        late = len(first) > 2 and first[-1].outcome == "missed" and first[-1].reps > max(r.reps for r in first[:-1])
        odds = np.array(p.fatigue_to_failure if late else p.fatigue_weights)
        self.tired = draw(p.fatigue, PATHS, p=odds / odds.sum())
        pace = np.array(p.paces)[draw(len(p.paces), PATHS, p=np.array(p.pace_weights) / sum(p.pace_weights))]
        self.k = np.expm1(self.shape * p.curve_at_eight * self.steep) / (7 * self.shape)
        told = any(r.rir is not None or r.outcome == "missed" or r.kind == "test" for r in first)
        wider = 1.0 if told else p.first_bounds
        at = np.array(p.first_steps) * p.first_step
        odds = np.exp(-0.5 * at**2 / (p.first_sd**2 - p.first_width**2)) if told else np.ones(len(at))
        self.base = first_guess(first, p) + wider * draw(at, PATHS, p=odds / odds.sum())
        self.base += wider * p.first_width * self.dice.standard_normal(PATHS)
        self.gain_sd, self.wander_sd, self.gain_weeks = pace[:, 2], pace[:, 3], pace[:, 4]
        self.gain = pace[:, 0] + pace[:, 1] * self.dice.standard_normal(PATHS)
        self.ease = p.ease + p.ease_sd * self.dice.standard_normal(PATHS)
        self.seen: list[SetRecord] = []
        self.debt, self.log_weight = np.zeros(PATHS), np.zeros(PATHS)

    def drop(self, reps: float) -> np.ndarray:
        return np.log1p(self.shape * self.k * (reps - 1)) / self.shape

    def move(self, weeks: float) -> None:
        """Small steps of a day, rather than the closed forms."""
        p, day, normal = self.p, 1 / 7, self.dice.standard_normal
        kept = np.exp(-weeks / p.ease_weeks)
        self.ease = p.ease + kept * (self.ease - p.ease) + p.ease_sd * (1 - kept**2) ** 0.5 * normal(PATHS)
        for i in range(round(weeks * 7)):
            if i * day < p.free_weeks:
                self.base += self.gain * day + self.wander_sd * day**0.5 * normal(PATHS)
                self.gain += (p.gain - self.gain) * day / self.gain_weeks
                self.gain += self.gain_sd * (2 * day / self.gain_weeks) ** 0.5 * normal(PATHS)
                self.debt *= np.exp(-day / p.regain_weeks)
        off = weeks - p.free_weeks
        if off > 0:
            kept = np.exp(-off / 2)
            self.base += self.wander_sd * off**0.5 * normal(PATHS)
            self.gain = p.gain + kept * (self.gain - p.gain) + self.gain_sd * (1 - kept**2) ** 0.5 * normal(PATHS)
            # lost, or trained and not logged: a mixture, of which the model keeps mean and spread
            loss = min(p.loss_most, p.loss_early * min(off, 2) + p.loss_late * max(0, off - 2))
            odds = np.exp(-off / p.unlogged_weeks)
            own = min(p.loss_sd * off, p.loss_sd_most)
            self.debt += odds * loss + (own**2 + odds * (1 - odds) * loss**2) ** 0.5 * normal(PATHS)

    def see(self, sets: list[SetRecord], usual: float | None) -> None:
        """Weigh with one day's sets; in these histories every set of a day counts as hard."""
        p = self.p
        self.seen += sets
        form = p.form_sd * self.dice.standard_normal(PATHS)
        reach = self.base - self.debt + form + self.drop(PIVOT)
        if not any(r.rir is not None or r.outcome == "missed" or r.kind == "test" for r in sets):
            top = max(sets, key=lambda r: r.load_kg)
            off = shown(top, p) - (self.base - self.debt - self.ease)
            self.log_weight -= 0.5 * (off / p.ease_day_sd) ** 2
        for before, record in enumerate(sets):
            says = 1 + np.expm1(self.shape * (reach - self.tired * before - log(record.load_kg))) / (
                self.shape * self.k
            )
            sd = p.rep_sd + p.rep_sd_growth * np.clip(says, 0, None)
            likely = np.zeros(PATHS)
            at_least = 1.0 if record.reps == 0 else ndtr((says - record.reps) / sd)
            for n in range(record.reps, record.reps + 26):
                more = (
                    ndtr((says - n - 1) / sd) if n < record.reps + 25 else 0.0
                )  # the last column holds all that is more
                here, at_least = at_least - more, more
                likely += here * self.weight(record, n - record.reps, sets, usual)
            odd = {"missed": 0.08}.get(record.outcome, 0.08 if record.rir is not None else 0.4)
            odd = 0.2 if record.kind == "test" and record.outcome == "done" and not self.tried(record, sets) else odd
            share = 1.0
            if record.rir is not None and record.outcome == "done" and record.kind == "work":
                share = sum(r.rir is not None for r in sets) ** -p.alike
            self.log_weight += share * np.log((1 - p.odd) * likely + p.odd * odd)

    @staticmethod
    def tried(record: SetRecord, sets: list[SetRecord]) -> bool:
        return any(r.load_kg > record.load_kg and r.kind == "test" for r in sets)

    def weight(self, record: SetRecord, left: int, sets: list[SetRecord], usual: float | None) -> np.ndarray | float:
        p = self.p
        if record.outcome == "missed":
            earlier = [r for r in sets[: sets.index(record)] if r.load_kg >= record.load_kg and r.reps > record.reps]
            slip = p.slip_test if record.kind == "test" else p.slip_late if earlier else p.slip_first
            return 1 - slip if left == 0 else slip
        if left < 0:
            return 0.0
        if record.kind == "test":
            return 1.0 if self.tried(record, sets) else (p.test_left[left] if left < len(p.test_left) else 0.0)
        if record.rir is None:
            return 1.0
        share, sd0, growth, same = (np.array([getattr(h, name) for h in p.habits])[self.habit] for name in
                                    ("share", "sd", "growth", "usual"))  # fmt: skip
        low = -np.inf if record.rir < 0.25 else record.rir - 0.5
        high = np.inf if record.rir >= 6 else record.rir + 0.5
        sd = sd0 + growth * left
        told = ndtr((high - share * left) / sd) - ndtr((low - share * left) / sd)
        return np.where(same > 0, same * (record.rir == usual) + (1 - same) * told, told)

    def quantiles(self, reps: int) -> np.ndarray:
        value = self.base - self.debt + self.drop(PIVOT) - self.drop(reps)
        told = [r.reps for r in self.seen if r.rir is not None or r.outcome == "missed" or r.kind == "test"] or [PIVOT]
        beyond = min(max(reps, 1, min(told)), max(told))
        line = np.log1p(self.p.curve_per_rep * (np.array([reps, beyond]) - 1))  # the population's curve
        value += self.p.curve_misfit * float(abs(line[0] - line[1])) * self.dice.standard_normal(PATHS)
        order = np.argsort(value)
        weight = np.exp(self.log_weight - self.log_weight.max())[order].cumsum()
        return np.exp(np.interp([0.1, 0.5, 0.9], weight / weight[-1], value[order]))


@pytest.mark.parametrize("name", HISTORIES)
def test_medians_and_bands_agree_with_a_long_sample_of_the_same_assumptions(name: str):
    records = HISTORIES[name]
    p = replace(
        DEFAULT, shapes=tuple(shape or 1e-6 for shape in DEFAULT.shapes), fade_weeks=0.0
    )  # fading is no likelihood
    days = sorted({r.day for r in records})
    sampler = Sampler([r for r in records if r.day == days[0]], p)
    usual = next((r.rir for r in records if r.rir is not None), None)
    for i, day in enumerate(days):
        if i:
            sampler.move((day - days[i - 1]).days / 7)
        sampler.see([r for r in records if r.day == day], usual)
    mass = np.exp(sampler.log_weight - sampler.log_weight.max())
    assert mass.sum() ** 2 / (mass**2).sum() > 3000, "too few paths count for a comparison"
    estimate = LiftModel.of(records, p).estimate(days[-1])
    for reps in (1, 3, 5, 8):
        low, middle, high = sampler.quantiles(reps)
        band = estimate.rep_max[reps]
        # between two seeds of the sample the median of a wide band wanders by some hundredth of its width
        assert band.estimate == pytest.approx(middle, rel=max(0.003, 0.01 * log(high / low)))
        assert band.high80 - band.low80 == pytest.approx(high - low, rel=0.10)
        assert band.low80 == pytest.approx(low, abs=0.1 * (high - low))
        assert band.high80 == pytest.approx(high, abs=0.1 * (high - low))
