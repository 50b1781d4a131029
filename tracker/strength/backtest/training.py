"""How an invented athlete trains and writes it down: waves of a rep-max's per cent, tests, misses, habits, slips."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta

import numpy as np

from tracker.strength.backtest.truth import Kind, Truth
from tracker.strength.records import Kind as SetKind
from tracker.strength.records import Outcome, SetRecord
from tracker.units import KG_PER_LB

START = date(2023, 1, 2)
LB = float(KG_PER_LB)
# (sets, repetitions less or more than the tested ones, share of the tested rep-max), several steps each
WAVES = (
    (
        ((1, 1, 0.72), (1, 1, 0.77), (3, 1, 0.82)),
        ((1, 1, 0.75), (1, 1, 0.8), (3, 1, 0.85)),
        ((2, 0, 0.82), (3, 0, 0.9)),
    ),
    (((5, 0, 0.85),), ((5, 0, 0.88),), ((4, 0, 0.92),), ((3, 0, 0.95),)),
    (((4, 3, 0.8),), ((4, 2, 0.85),), ((4, 1, 0.9),), ((3, 0, 0.94), (1, 0, 0.97))),
    (((1, 2, 0.7), (1, 1, 0.8), (1, 0, 0.9)), ((1, 2, 0.74), (1, 1, 0.84), (1, 0, 0.94))),
)


@dataclass
class Diary:
    """One lift's history as it comes to be."""

    kind: Kind
    truth: Truth
    dice: np.random.Generator
    reps: int  # the tested rep-max
    believed: float = 0.0  # kg, what percentages refer to
    records: list[SetRecord] = field(default_factory=list[SetRecord])
    reports: float = 0.0
    share: float = 0.0
    judge_sd: float = 0.0
    ramps: bool = False
    # of the day
    day: int = 0
    form: float = 0.0
    hard: int = 0
    order: int = 0

    def __post_init__(self) -> None:
        draw = self.dice.uniform
        self.reports, self.share, self.judge_sd = (
            float(draw(*each)) for each in (self.kind.reports, self.kind.share, self.kind.judge_sd)
        )
        self.ramps = bool(draw() < self.kind.writes_ramp)

    def made_of(self, kg: float, *, up: bool = False) -> float:
        """Round a load to what discs make, in kilograms."""
        step = 2.5 if self.kind.unit == "kg" else 5 * LB
        return max(1, (np.ceil if up else np.round)(kg / step - (1e-9 if up else 0))) * step

    def begin(self, day: int) -> None:
        self.day, self.hard, self.order = day, 0, 0
        self.form = float(self.dice.normal(0, self.truth.form_sd))

    def one(self, load: float, reps: int, kind: SetKind = "work", *, to_failure: bool = False) -> int:
        """Do one set and write it down; returns the repetitions made."""
        truth, dice = self.truth, self.dice
        fresh = truth.level[self.day] + self.form - truth.fatigue * self.hard
        says = float(truth.curve.reps(fresh - np.log(load)))
        had = max(0, int(np.floor(min(says, 60) + dice.normal(0, truth.rep_sd * (1 + 0.05 * max(says, 0))))))
        made = min(reps, had)
        outcome: Outcome = "done" if made == reps else "missed"
        if kind == "work" and outcome == "done" and made > 2 and dice.uniform() < 0.01:
            made, outcome = made - 1, "cut"
        rir = self.report(had - made) if kind == "work" and outcome == "done" and not to_failure else None
        if to_failure and outcome == "missed" and dice.uniform() < 0.5:
            outcome, rir = "done", 0.0 if dice.uniform() < 0.7 or self.kind.reports[1] > 0 else None
        self.order += 1
        self.hard += kind != "ramp"
        if outcome == "done" and made == 0:
            outcome = "missed"
        written = load
        if kind == "work" and dice.uniform() < self.kind.typo:
            written = load * float(dice.choice([10, 0.1, 2.2, 1 / 2.2]))
        self.records.append(SetRecord(START + timedelta(days=self.day), written, made, rir, outcome, kind, self.order))
        return made

    def report(self, left: int) -> float | None:
        """What is written down of `left` repetitions."""
        if self.dice.uniform() > self.reports:
            return None
        if self.kind.always is not None:
            return self.kind.always
        told = self.share * left + self.dice.normal(0, self.judge_sd * (1 + 0.1 * left))
        return float(np.clip(np.round(told), 0, 6))

    def ramp(self, top: float) -> None:
        if self.ramps:
            for share, reps in ((0.5, 5), (0.75, 3)):
                self.one(self.made_of(share * top), reps, "ramp")

    def work(self, step: tuple[tuple[int, int, float], ...], ease: float) -> None:
        """Do one step of a wave."""
        self.ramp(max(share for _, _, share in step) * self.believed * ease)
        blocks = [(max(1, self.reps + more), share) for sets, more, share in step for _ in range(sets)]
        out = self.dice.uniform() < self.kind.rep_out
        for i, (reps, share) in enumerate(blocks):
            load = self.made_of(share * self.believed * ease)
            last = out and i == len(blocks) - 1
            self.one(load, 40 if last else reps, to_failure=last)

    def test(self) -> None:
        """Rise to a rep-max, until a miss or until it felt like all there was."""
        guess, made = self.believed, 0.0
        self.ramp(0.9 * guess)
        stop_early = self.dice.uniform(0.95, 1.0)
        load = self.made_of(guess * self.dice.choice([0.95, 1.0]))
        for _ in range(6):
            if self.one(load, self.reps, "test") < self.reps:
                if made:
                    break
                load = self.made_of(load * 0.94)
                continue
            if made:
                last = self.records[-2]
                if self.dice.uniform() < 0.5:
                    self.records[-2] = SetRecord(
                        last.day, last.load_kg, last.reps, None, last.outcome, "ramp", last.order
                    )
            made = load
            have = self.truth.rep_max(self.day, self.reps) * np.exp(self.form)
            if load > stop_early * have:
                break
            load = self.made_of(max(load * self.dice.choice([1.025, 1.05]), load + 0.1), up=True)
        if made:
            self.believed = made


def train(kind: Kind, truth: Truth, dice: np.random.Generator) -> Diary:
    """Train one lift for as long as its truth goes."""
    reps = int(dice.choice(kind.reps))
    diary = Diary(kind, truth, dice, reps)
    diary.believed = diary.made_of(truth.rep_max(0, reps) * dice.uniform(0.85, 1.0))
    every = float(7 / dice.choice(kind.per_week))
    attendance = dice.uniform(0.75, 0.98)
    next_test = int(7 * dice.integers(1, kind.test_weeks[0]))
    wave, at, day = WAVES[dice.integers(len(WAVES))], 0, 0.0
    back = truth.away.stop if len(truth.away) else -1
    while (today := round(day)) < len(truth.level):
        day += every * (1 if every > 2.5 else dice.choice([0.8, 1.2]))
        if today in truth.away or dice.uniform() > attendance:
            continue
        diary.begin(today)
        ease = 0.92 if 0 <= today - back < 14 else 1.0
        if today >= next_test and ease == 1.0:
            diary.test()
            next_test = today + int(7 * dice.integers(*kind.test_weeks, endpoint=True))
            wave, at = WAVES[dice.integers(len(WAVES))], 0
            continue
        diary.work(wave[at % len(wave)], ease * (1 + 0.02 * (at // len(wave))))
        at += 1
    return diary
