"""The way to a first max for someone who knows none: rising sets of one lift on one day, read from the log."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from tracker.desk.base.roles import may
from tracker.desk.day.scene import read_scene
from tracker.desk.people import places
from tracker.desk.people.places import MadeLoad, discs_in_words
from tracker.log import sets as log_sets
from tracker.log.records import LiftRecord, MemberRecord, SetRow
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.prescription.first_max import EASY_RIR, RisingSet, next_rising_set
from tracker.prescription.floor import is_from_floor
from tracker.safety import Caution, for_working_set

LOWER_WORDS = (
    "squat",
    "deadlift",
    "lunge",
    "leg",
    "hip",
    "clean",
    "snatch",
)  # lifts of the lower body; common practice


@dataclass(frozen=True, slots=True)
class Rising:
    """The rising sets of one lift: what was done today, and what is next."""

    lift: LiftRecord
    done: tuple[SetRow, ...]
    made: MadeLoad | None  # the next set; None where it is time to stop, or where this way needs a bar
    reps: int
    words: str
    cautions: tuple[Caution, ...]

    @property
    def finished(self) -> bool:
        return self.made is None and bool(self.done)


@may("see")
def rising(log: Log, member: MemberRecord, lift: LiftRecord, day: date) -> Rising:
    """Say what the next rising set is, from those of the day.

    Sets of the day without repetitions in reserve tell nothing here and are left aside.
    """
    with log.reading() as session:
        rows = log_sets.sets_of(session, member.id, lift_id=lift.id, since=day, until=day)
        scene = read_scene(session, log.name, member, places.read_place(session, member, day), day)
    told = tuple(row for row in rows if row.rir is not None or row.outcome == "missed")
    cautions = for_working_set(lift.name, scene.person, scene.around, implement=lift.implement)
    kit = places.bar_kit(member, scene.place) if lift.implement in ("barbell", "unasked") else None
    if kit is None:
        return Rising(lift, told, None, 0, _without_bar(lift), cautions)
    done = [RisingSet(row.load, row.reps, float(row.rir or 0), row.outcome == "missed") for row in told]
    lower = any(word in lift.name for word in LOWER_WORDS)
    advice = next_rising_set(done, kit, lower_body=lower, from_floor=is_from_floor(lift.name))
    if advice.loading is None:
        return Rising(lift, told, None, 0, advice.words, cautions)
    loading = advice.loading
    made = MadeLoad(loading.load, loading.load, loading.per_side, discs_in_words(loading.per_side), loading.note)
    return Rising(lift, told, made, advice.reps, advice.words, cautions)


def _without_bar(lift: LiftRecord) -> str:
    return (
        f"For {lift.title} take the lightest that is there for five repetitions and say how many more there were; "
        "go up until three are left. Log these sets on the day's page: the estimate starts from them."
    )


def as_set(now: Rising, left: int, *, missed: bool = False, reps: int | None = None) -> NewSet:
    """Make the set to be logged of the next rising set, with what was left in reserve (six means six or more)."""
    assert now.made is not None
    return NewSet(
        now.lift.id,
        now.made.load,
        now.reps if reps is None else reps,
        rir=None if missed else Decimal(min(left, int(EASY_RIR))),
        outcome="missed" if missed else "done",
    )
