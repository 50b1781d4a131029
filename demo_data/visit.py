"""How a session of the demo goes: sets are done with what the member really has, and written down as people do."""

from __future__ import annotations

import random
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal

from truth import WEEKS, Athlete

Kit = Mapping[tuple[str, str, str, str], list[Decimal]]  # loads by place, implement, unit and bar, lightest first
SECOND_LIFTS = {  # repetitions, sets, rough share of the 1RM, implement
    "back squat": (5, 4, 0.84, "barbell"),
    "push press": (4, 3, 0.86, "barbell"),
    "pull-up": (5, 3, 0.86, "body"),
    "split squat": (10, 3, 0.60, "dumbbells"),
}
CUTS = ("class ended", "knee felt odd, stopped", "fire bell")


def read_sets(text: str) -> list[tuple[int, int, float]]:
    """Read "1x5@70, 3x5@80" into sets, repetitions and share of the reference."""
    found = re.findall(r"(\d+)x(\d+)@(\d+)", text)
    return [(int(sets), int(reps), int(percent) / 100) for sets, reps, percent in found]


def bar_for(member: str, lift: str) -> str:
    if member == "Tobin":
        return "pound bar"
    light = member == "Sunniva" or (member == "Wren" and lift in ("press", "push press"))
    return "short bar" if light else "long bar"


@dataclass
class Diary:
    """One member's history as it is written down."""

    athlete: Athlete
    unit: str
    weighs: float
    anchor: date
    dice: random.Random
    kit: Kit
    sets: list[dict[str, object]] = field(default_factory=list)
    sessions: list[dict[str, object]] = field(default_factory=list)
    references: list[dict[str, object]] = field(default_factory=list)
    believed: dict[tuple[str, int], float] = field(default_factory=dict)  # 0 repetitions: the aim of a second lift
    cut_yet: bool = False

    def day(self, week: int, weekday: int) -> date:
        return self.anchor - timedelta(weeks=WEEKS - week) + timedelta(days=weekday)

    def body_mass(self, week: float) -> float:
        """A slow, small change over the months, in the member's unit."""
        return round(self.weighs * (1 + 0.012 * (week / WEEKS - 1)), 1)

    def loads(self, place: str, lift: str, implement: str) -> list[Decimal]:
        bar = bar_for(self.athlete.name, lift) if implement == "barbell" else ""
        return self.kit[place, implement, self.unit, bar]

    def refer(self, lift: str, reps: int, load: Decimal, day: date, source: str) -> None:
        """Take `load` as the rep-max that percentages refer to from now on."""
        self.believed[lift, reps] = float(load)
        row = (self.athlete.name, lift, reps, f"{load.normalize():f}", self.unit, day.isoformat(), source)
        self.references.append(
            dict(zip(("member", "lift", "reps", "load", "unit", "date", "source"), row, strict=True))
        )


@dataclass
class Visit:
    """One session under way: the form of the day, and how much has been done already."""

    diary: Diary
    day: date
    week: float
    place: str
    title: str
    form: float
    order: int = 0
    hard: int = 0

    def nearest(self, lift: str, implement: str, target: float) -> Decimal:
        """The load nearest to `target` that the place can make; half-way, the lighter."""
        return min(self.diary.loads(self.place, lift, implement), key=lambda load: (abs(float(load) - target), load))

    def one_set(
        self, lift: str, load: Decimal, reps: int, implement: str, *, kind: str = "work", note: str = ""
    ) -> int:
        """Do one set and write it down; returns the repetitions made."""
        diary, athlete, dice = self.diary, self.diary.athlete, self.diary.dice
        body = diary.body_mass(self.week) if implement == "body" else 0.0
        capability = athlete.level(lift, self.week) * (1 + self.form) * (1 - 0.003 * self.hard)
        to_failure = max(0, int(athlete.reps_left(lift, capability, float(load) + body, dice)))
        made = min(reps, to_failure)
        outcome = "done" if made == reps else "missed"
        if kind == "work" and outcome == "done" and not diary.cut_yet and self.week > 9 and dice.random() < 0.01:
            diary.cut_yet, made, outcome, note = True, max(1, reps - 2), "cut", dice.choice(CUTS)
        rir = athlete.reported(to_failure - made, dice) if outcome == "done" and kind == "work" else None
        self.order += 1
        self.hard += kind != "ramp"
        values = (
            athlete.name, self.day.isoformat(), lift, f"{load.normalize():f}", diary.unit, f"{body:g}" if body else "",
            made, "" if rir is None else f"{rir:g}", outcome, kind, self.order, self.title, self.place, implement,
            2 if implement == "dumbbells" else 1, "yes" if lift == "split squat" else "", note,
        )  # fmt: skip
        diary.sets.append(dict(zip(SET_COLUMNS, values, strict=True)))
        return made

    def wave(self, lift: str, of: int, text: str, implement: str, *, scale: float = 1.0) -> None:
        """Do a wave's sets at their percentages of the member's reference rep-max; `scale` under 1 eases off."""
        reference, blocks = self.diary.believed[lift, of] * scale, read_sets(text)
        if self.diary.athlete.ramps and implement == "barbell":
            top = max(share for _, _, share in blocks) * reference
            for share, reps in ((0.5, 5), (0.75, 3)):
                self.one_set(lift, self.nearest(lift, implement, share * top), reps, implement, kind="ramp")
        for sets, reps, share in blocks:
            load = self.nearest(lift, implement, share * reference)
            for _ in range(sets):
                self.one_set(lift, load, reps, implement)

    def second(self, lift: str) -> None:
        """Do a second lift by feel: more when the last time left enough, less after a miss."""
        reps, sets, share, implement = SECOND_LIFTS[lift]
        diary, level = self.diary, self.diary.athlete.level(lift, self.week)
        body = diary.body_mass(self.week) if implement == "body" else 0.0
        aim = diary.believed.setdefault((lift, 0), 0.95 * share * level)
        load = self.nearest(lift, implement, aim - body)
        fewest = min([self.one_set(lift, load, reps, implement) for _ in range(sets)])
        easy = share * level > float(load) + body
        diary.believed[lift, 0] = aim * (0.97 if fewest < reps else 1.012 if easy else 1.0)

    def find_max(self, lift: str, of: int) -> None:
        """Work up to a rep-max: rise until a miss, or until it felt like all there was."""
        diary, guess = self.diary, self.diary.believed[lift, of]
        options = diary.loads(self.place, lift, "barbell")
        self.one_set(lift, self.nearest(lift, "barbell", 0.92 * guess), of, "barbell", kind="ramp")
        made: Decimal | None = None
        for aim in (1.0, 1.03, 1.06, 1.09):
            load = min(x for x in options if float(x) >= aim * guess - 0.01 and (made is None or x > made))
            if self.one_set(lift, load, of, "barbell", kind="test", note=f"find a {of}RM") < of:
                break
            if made is not None:
                diary.sets[-2]["kind"] = "ramp"  # it was a step on the way, not the test
            made = load
            if float(load) > 0.97 * diary.athlete.rep_max(lift, self.week, of) * (1 + self.form):
                break
        if made is not None:
            diary.refer(lift, of, made, self.day, "tested")

    def rep_out(self, lift: str, of: int) -> None:
        """With fixed dumbbells: as many as there are with one pair, read as a rep-max of `of` repetitions."""
        diary = self.diary
        load = self.nearest(lift, "dumbbells", diary.believed[lift, of])
        made = self.one_set(lift, load, 40, "dumbbells", kind="test", note="as many as there are")
        diary.sets[-1]["outcome"] = "done"
        if 3 <= made <= 15:
            read = float(load) * (1 + 0.027 * (made - 1)) / (1 + 0.027 * (of - 1))
            diary.refer(lift, of, Decimal(f"{read:.1f}"), self.day, "estimated")

    def close(self, *, piece: bool) -> None:
        """Write down the minutes and the rating; now and then nobody asked for the rating."""
        dice = self.diary.dice
        minutes = 5 * round((24 + 2.4 * self.order + (14 if piece else 0) + dice.gauss(0, 4)) / 5)
        feel = 3.4 + 0.2 * self.hard + (1.8 if piece else 0) - 20 * self.form + dice.gauss(0, 0.9)
        rating = "" if dice.random() < 0.14 else min(10, max(2, round(feel)))
        note = "piece after" if piece else ""
        values = (self.diary.athlete.name, self.day.isoformat(), self.place, minutes, rating, note)
        self.diary.sessions.append(dict(zip(SESSION_COLUMNS, values, strict=True)))


SET_COLUMNS = [
    "member",
    "date",
    "lift",
    "load",
    "unit",
    "body_mass",
    "reps",
    "rir",
    "outcome",
    "kind",
    "order",
    "session",
    "place",
    "implement",
    "implements",
    "per_side",
    "note",
]
SESSION_COLUMNS = ["member", "date", "place", "minutes", "rating", "note"]
