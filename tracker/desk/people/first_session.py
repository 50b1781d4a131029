"""A first session to be started at once: easy sets of a max that is known, else a few rising sets that find one.

How many sets, repetitions and which share of the max: this log's own choice, on the easy side of common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from tracker.desk.people import people, places
from tracker.desk.people.ready_places import FirstPlace
from tracker.desk.people.standing import is_standing
from tracker.log.records import Implement, LiftRecord, MemberRecord, PlaceRecord
from tracker.log.waves import NewPlannedSet
from tracker.prescription.first_max import EASY_RIR, REPS, STOP_RIR, RisingSet, next_rising_set
from tracker.prescription.floor import is_from_floor
from tracker.prescription.rounding import NEAREST, choose_rounding
from tracker.prescription.technique import technique
from tracker.units import Mass, Unit

TITLE = "First session"
MOST_LIFTS = 4
WORK_SETS, RISING_SETS = 3, 5
LOWER_WORDS = ("squat", "deadlift", "lunge", "leg", "hip", "clean", "snatch")  # lower body; common practice
EASY = ((1, Decimal(75)), (3, Decimal(80)), (6, Decimal(85)))  # up to which nRM five easy repetitions are this share
MANY = Decimal(80)  # of a max of more repetitions, for as many


@dataclass(frozen=True, slots=True)
class FirstLift:
    """A lift that somebody begins with."""

    name: str
    implement: Implement


@dataclass(frozen=True, slots=True)
class Asked:
    """Equal sets of a first session: of a share of the known max, or of a load; neither: the member finds one."""

    lift: FirstLift
    sets: int
    reps: int
    percent: Decimal | None = None
    load: Mass | None = None
    reserve: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Beginning:
    """What a first session opens with: its first set, and what that is loaded with here."""

    asked: Asked
    made: places.MadeLoad | None
    lifts: tuple[FirstLift, ...]
    sets: int


def first_session(
    lifts: Sequence[FirstLift], unit: Unit, place: FirstPlace | None, known: tuple[str, int, Mass] | None
) -> tuple[Asked, ...]:
    """List the sets of a first session, lift by lift.

    Args:
        lifts: What the member begins with, in order.
        unit: The member's.
        place: Where it is done; None: a common bar and discs.
        known: Name, repetitions and load of the one rep-max that the member knows.
    """
    found: list[Asked] = []
    for lift in lifts:
        if known and lift.name == known[0]:
            found.append(_of_max(lift, known[1]))
        else:
            found += _rising(lift, unit, place)
    return tuple(found)


def _of_max(lift: FirstLift, reps: int) -> Asked:
    if technique(lift.name):
        return Asked(lift, WORK_SETS + 2, 2, EASY[0][1])
    share = next((each for most, each in EASY if reps <= most), None)
    return Asked(lift, WORK_SETS, REPS, share) if share else Asked(lift, WORK_SETS, reps, MANY)


def _rising(lift: FirstLift, unit: Unit, place: FirstPlace | None) -> list[Asked]:
    """Rise from the lightest that is there; a lift of the body alone is done with the body, and a machine as it feels."""
    loads = _rising_loads(lift, unit, place)
    reserve = Decimal(int(STOP_RIR))
    if not loads:
        return [Asked(lift, WORK_SETS, REPS if lift.implement == "body" else 2 * REPS, reserve=reserve)]
    return [Asked(lift, 1, REPS, load=load, reserve=reserve) for load in loads]


def _rising_loads(lift: FirstLift, unit: Unit, place: FirstPlace | None) -> list[Mass]:
    here, member = as_place(place), _somebody(unit)
    if lift.implement in places.FIXED and here is not None:
        return list(places.fixed_masses(here, as_lift(lift))[:RISING_SETS])
    kit = places.bar_kit(member, here) if lift.implement == "barbell" else None
    if kit is None:
        return []
    lower = any(word in lift.name for word in LOWER_WORDS)
    done: list[RisingSet] = []
    while len(done) < RISING_SETS:
        advice = next_rising_set(done, kit, lower_body=lower, from_floor=is_from_floor(lift.name))
        if advice.loading is None:
            break
        done.append(RisingSet(advice.loading.load, REPS, EASY_RIR))
    return [each.load for each in done]


def opening(
    lifts: Sequence[FirstLift], unit: Unit, place: FirstPlace | None, known: tuple[str, int, Mass] | None,
    age_days: int | None = None,
) -> Beginning | None:  # fmt: skip
    """Say what a first session opens with, as the day will have it, before anything is written; None without a lift.

    `age_days` is how long ago the known max was tested; None where it is a guess.
    """
    asked = first_session(lifts, unit, place, known)
    if not asked:
        return None
    first, target, how = asked[0], asked[0].load, NEAREST
    if first.percent is not None and known is not None:
        target = Mass(known[2].amount * first.percent / 100, known[2].unit)
        source = "declared" if age_days is None else "tested"
        how = choose_rounding(source=source, age_days=age_days or 0, alone=bool(place and place.alone))
    made = places.make_load(target, as_lift(first.lift), _somebody(unit), as_place(place), how) if target else None
    return Beginning(first, made, tuple(lifts), sum(each.sets for each in asked))


def planned(asked: Sequence[Asked], ids: dict[FirstLift, str], reps: int | None) -> list[NewPlannedSet]:
    """Turn the sets into planned ones; `reps` is of which rep-max the shares are, each lift a block of its own."""
    order = list(dict.fromkeys(each.lift for each in asked))
    return [
        NewPlannedSet(
            ids[each.lift], each.sets, each.reps, each.percent, reps if each.percent is not None else None,
            block=order.index(each.lift), load=each.load, reserve=each.reserve,
        )
        for each in asked
    ]  # fmt: skip


def as_lift(lift: FirstLift) -> LiftRecord:
    """Return a lift as the log will have it, before it is there."""
    facts = people.facts_of(lift.name, lift.implement)
    return LiftRecord("", lift.name, lift.implement, facts["implements"], False, facts["body"], facts["spotted"])


def as_place(place: FirstPlace | None) -> PlaceRecord | None:
    """Return a place as the log will have it; each thing with an id of its own, as there."""
    if place is None:
        return None
    items = tuple(replace(item, id=str(number)) for number, item in enumerate(place.items))
    return PlaceRecord("", place.name, place.unit, place.pins, items)


def at_hand(place: FirstPlace | PlaceRecord | None) -> frozenset[str]:
    """Return which implements stand at a place; nobody said: a gym's bar, dumbbells and kettlebells."""
    if place is None:
        return frozenset(
            {"barbell", "dumbbells", "dumbbell", "kettlebells", "kettlebell", "machine", "band", "ball", "other"}
        )
    kinds = {item.kind for item in place.items if item.number != 0 and not is_standing(item)}
    found = {each for each in ("dumbbell", "kettlebell", "ball", "band", "machine") if each in kinds}
    found |= {f"{each}s" for each in ("dumbbell", "kettlebell") if _in_pairs(place, each)}
    return frozenset(found | ({"barbell"} if "bar" in kinds else set()))


def _in_pairs(place: FirstPlace | PlaceRecord, kind: str) -> bool:
    return any(item.kind == kind and (item.number is None or item.number >= 2) for item in place.items)


def _somebody(unit: Unit) -> MemberRecord:
    return MemberRecord("", "", unit, None, None, no_heavy=False, minor=False, alone=False)
