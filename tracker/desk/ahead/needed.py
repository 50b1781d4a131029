"""What would be needed now: the load that the kit makes for so many repetitions at a wanted chance, and how many with a load."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from tracker.desk.base.roles import may
from tracker.desk.day import loading, sore
from tracker.desk.day.scene import read_scene, with_sore
from tracker.desk.day.weighing import OF_AN_ESTIMATE
from tracker.desk.maxes import estimates
from tracker.desk.maxes.little import WORDS, rests_on_little
from tracker.desk.people import places
from tracker.desk.people.places import MadeLoad
from tracker.errors import BadInputError
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.prescription import illness
from tracker.safety import Caution, for_working_set, held_back
from tracker.strength.needed import MOST_REPS, load_for, reps_with
from tracker.strength.records import Band
from tracker.units import Mass, Unit, check_load, parse_mass

CHANCES = (0.95, 0.9, 0.8, 0.7)  # to choose from; own choice: less than that is a test, which has its own way


@dataclass(frozen=True, slots=True)
class LoadNeeded:
    """The load for so many repetitions, with its true chance; and the next heavier one with its own.

    `why` says in words why there is none; `note` what is to be known of the load.
    """

    reps: int
    made: MadeLoad | None = None
    chance: float | None = None
    heavier: tuple[Mass, float] | None = None
    note: str = ""
    why: str = ""
    cautions: tuple[Caution, ...] = ()


@dataclass(frozen=True, slots=True)
class RepsPossible:
    """How many repetitions a load has at a wanted chance, with their true chance, and that of one more; 12 mean 12 or more."""

    load: Mass
    reps: int = 0
    chance: float | None = None
    one_more: float | None = None
    why: str = ""


@may("see")
def load_needed(log: Log, member: MemberRecord, lift: LiftRecord, reps: int, chance: float, day: date) -> LoadNeeded:
    """Say with which load of the member's kit `reps` repetitions have at least a chance, as a first set of the day.

    Raises:
        BadInputError: if the repetitions or the chance can't be answered.
    """
    hurts = sore.state(log, member.id)
    if why := _withheld(lift, hurts):
        return LoadNeeded(reps, why=why)
    with log.reading() as session:
        scene = with_sore(read_scene(session, log.name, member, places.read_place(session, member, day), day), hurts)
    history = estimates.history(log, member.id, lift)
    if why := _too_little(history, day):
        return LoadNeeded(reps, why=why)
    assert history.model is not None
    moved = load_for(history.model, reps, chance, day)
    bar = Decimal(repr(round(history.bar(Band(moved, moved, moved), day, member.unit).estimate, 3)))
    target = Mass(bar, member.unit)
    if scene.back:
        target = history.share(target, 1 - scene.back.percent / 100, day)
    if target.amount <= 0 and not lift.body:
        return LoadNeeded(reps, why="No load is that light.")
    weighed = loading.weigh(scene, lift, reps, target, OF_AN_ESTIMATE, None)
    if weighed.made is None:
        return LoadNeeded(reps, why=" ".join(weighed.notes))
    made_kg = history.moved_kg(weighed.made.load, day)
    percent = made_kg / history.model.estimate(day).one_rm.estimate * 100
    if held := held_back(scene.person, percent=percent):
        return LoadNeeded(reps, why=held.text)
    true = history.model.chance(made_kg, reps, day=day) if made_kg > 0 else None
    note = scene.back.short if scene.back else ""
    if true is not None and true < chance:
        note = f"{note} The lightest load here is heavier than that.".strip()
    cautions = for_working_set(lift.name, scene.person, scene.around, percent=percent, implement=lift.implement)
    heavier = None if scene.back else _heavier(history, lift, member, scene.place, weighed.made, reps, day)
    return LoadNeeded(reps, weighed.made, true, heavier, note, "", cautions)


def _heavier(
    history: estimates.LiftHistory, lift: LiftRecord, member: MemberRecord, place: places.PlaceRecord | None,
    made: MadeLoad, reps: int, day: date,
) -> tuple[Mass, float] | None:  # fmt: skip
    _, more = places.next_loads(made.load, lift, member, place)
    if more is None or history.model is None:
        return None
    return more, history.model.chance(history.moved_kg(more, day), reps, day=day)


@may("see")
def reps_possible(
    log: Log, member: MemberRecord, lift: LiftRecord, load: Mass, chance: float, day: date
) -> RepsPossible:
    """Say how many repetitions with a load have at least a chance, as a first set of the day.

    Raises:
        BadInputError: if nothing is moved with that load, or the chance can't be answered.
    """
    if why := _withheld(lift, sore.state(log, member.id)):
        return RepsPossible(load, why=why)
    history = estimates.history(log, member.id, lift)
    if why := _too_little(history, day):
        return RepsPossible(load, why=why)
    assert history.model is not None
    moved = history.moved_kg(load, day)
    reps = reps_with(history.model, moved, chance, day)
    sure = history.model.chance(moved, reps, day=day) if reps else None
    more = history.model.chance(moved, reps + 1, day=day) if reps < MOST_REPS else None
    return RepsPossible(load, reps, sure, more)


def _withheld(lift: LiftRecord, hurts: sore.SoreState) -> str:
    if hurts.ill:
        return illness.OFFERED
    return f"{lift.name} was marked as painful: no load is proposed." if hurts.is_painful(lift.name) else ""


def _too_little(history: estimates.LiftHistory, day: date) -> str:
    first = history.model.days[0].day if history.model else date.max
    return WORDS if history.model is None or first > day or rests_on_little(history, day) else ""


def asked_load(text: str, lift: LiftRecord, unit: Unit) -> Mass:
    """Read a load that was typed, such as `60` or `135 lb`; where the body is lifted what is added to it.

    Raises:
        BadInputError: if it is none.
    """
    if not text.strip():
        raise BadInputError("No load was typed.", where="load", mend="Type one, such as 60.")
    return check_load(parse_mass(text, unit=unit, where="load"), where="load", assistance=lift.body)
