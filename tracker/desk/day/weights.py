"""Loads for any percentages of any reference max, with the member's kit, and how likely each set is."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from tracker.desk.base.roles import may
from tracker.desk.day import body_percent, loading, sore
from tracker.desk.day.scene import Scene, read_scene, with_sore
from tracker.desk.day.weighing import is_of_now, rounding_for
from tracker.desk.maxes import estimates
from tracker.desk.maxes.little import rests_on_little
from tracker.desk.maxes.references import Reference, references
from tracker.desk.people import places
from tracker.desk.people.places import MadeLoad
from tracker.errors import BadInputError
from tracker.limits import MOST_RM
from tracker.log import members as log_members
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import sets as log_sets
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.prescription import illness
from tracker.prescription.body_share import BodyShare
from tracker.prescription.plates import Rounding
from tracker.prescription.rounding import RoundingChoice
from tracker.prescription.substitution import Substitute
from tracker.prescription.wave import PrescribedSets, parse_wave
from tracker.safety import Caution, HeldBack, for_working_set, held_back
from tracker.units import Mass, Unit, check_load, parse_mass

MOST_SETS = 60  # in one session; more is a slip of the finger


@dataclass(frozen=True, slots=True)
class WeightLine:
    """One set: what was asked, what the kit makes of it, and how likely it is."""

    number: int
    reps: int
    percent: float
    target: Mass
    made: MadeLoad | None
    true_percent: float | None
    chance: float | None
    note: str | None = None
    held: HeldBack | None = None  # why no load is offered
    cautions: tuple[Caution, ...] = ()
    instead: Substitute | None = None  # other repetitions, where fixed masses can't meet the load
    of: BodyShare = ""  # of a lift of the body: what the percentage is of


@may("see")
def lift_choices(log: Log, member: MemberRecord) -> tuple[LiftRecord, ...]:
    """List all lifts: those that the member did last, then those with a known rep-max, then the others."""
    with log.reading() as session:
        done = tuple(lift for lift, _, _ in log_sets.lifts_done(session, member.id))
        stated = tuple(row.lift for row in log_rep_maxes.rep_maxes(session, member.id))
        known = log_members.lifts(session, member.id)
    return tuple({lift.id: lift for lift in (*done, *stated, *known)}.values())


@may("see")
def options(log: Log, member: MemberRecord, lift: LiftRecord, reps: int, day: date) -> tuple[Reference, ...]:
    """List what the nRM of a lift could be taken from, the first choice first."""
    return references(estimates.history(log, member.id, lift), reps, day, member.unit)


def typed_reference(text: str, reps: int, unit: Unit, day: date) -> Reference:
    """Take a rep-max that was typed by hand, such as `92,5` or `205 lb`; it is used and not kept.

    Raises:
        BadInputError: if it is no load, or no rep-max can have so many repetitions.
    """
    if not 1 <= reps <= MOST_RM:
        raise BadInputError(f"A {reps}RM can't be.", where="reference", mend=f"Choose 1 to {MOST_RM} repetitions.")
    load = check_load(parse_mass(text, unit=unit, where="reference max"), where="reference max")
    return Reference(reps, load, "given", day)


@may("see")
def rounding_choice(log: Log, member: MemberRecord, reference: Reference, day: date) -> RoundingChoice:
    """Say which way to round here and now, with every reason for it."""
    with log.reading() as session:
        scene = read_scene(session, log.name, member, places.read_place(session, member, day), day)
    return rounding_for(reference, scene)


@may("see")
def weights(
    log: Log,
    member: MemberRecord,
    lift: LiftRecord,
    reference: Reference,
    wave: str,
    day: date,
    *,
    rounding: Rounding | None = None,
) -> tuple[WeightLine, ...]:
    """Turn a wave such as `1x4@72, 3x4@82` into loads at the member's place.

    Raises:
        BadInputError: if the wave can't be read; it says where.
    """
    hurts = sore.state(log, member.id)
    if hurts.ill:
        raise BadInputError(
            illness.OFFERED, where="member", mend="Say on the day's page that you are well again, when you are."
        )
    if hurts.is_painful(lift.name):
        raise BadInputError(
            f"{lift.name} was marked as painful: no load is proposed.", where="lift",
            mend="Choose another lift, or say on the day's page that it hurts no more.",
        )  # fmt: skip
    wanted: tuple[PrescribedSets, ...] = parse_wave(wave)
    if sum(each.sets for each in wanted) > MOST_SETS:
        raise BadInputError(f"That is more than {MOST_SETS} sets.", where="wave", mend="Ask for one session at a time.")
    with log.reading() as session:
        scene = with_sore(read_scene(session, log.name, member, places.read_place(session, member, day), day), hurts)
        stored = estimates.read_lift(session, log.name, member.id, lift)
    history = estimates.worked_out(stored)
    if is_of_now(reference, scene):
        scene = replace(scene, back=None)
    how = rounding_for(reference, scene)
    if rounding is not None and rounding != how.rounding:
        how = RoundingChoice(rounding)
    lines: list[WeightLine] = []
    for each in wanted:
        lines += _sets(scene, lift, history, reference, each, how, len(lines))
    made = loading.fewest_changes(scene, [(lift, line.made) for line in lines])
    return tuple(replace(line, made=each) for line, each in zip(lines, made, strict=True))


def _sets(
    scene: Scene,
    lift: LiftRecord,
    history: estimates.LiftHistory,
    reference: Reference,
    asked: PrescribedSets,
    how: RoundingChoice,
    before: int,
) -> list[WeightLine]:
    less = 1 - (scene.back.percent if scene.back else Decimal(0)) / 100
    added = lift.body and reference.load.amount > 0 and body_percent.chosen(scene, lift.id) == "added"
    basis: BodyShare = "added" if added else "whole"
    target = body_percent.share_of(history, reference.load, asked.percent * less / 100, scene.day, basis)
    weighed = loading.weigh(scene, lift, asked.reps, target, how, history)
    made, instead = weighed.made, weighed.instead
    whole = history.moved_kg(reference.load, scene.day)
    true = history.moved_kg(made.load, scene.day) / whole * 100 if made and whole > 0 else None
    shown = float(made.load.kg / reference.load.kg * 100) if made and added else true
    of_max = _percent_of_max(history, made, scene.day, true, reference)
    held = held_back(scene.person, percent=of_max)
    lower = (scene.back.short,) if scene.back and made else ()
    both = lift.body and reference.load.amount > 0
    of = (f"Of {body_percent.OF[basis]}.",) if both else ()
    note = held.text if held else " ".join((*weighed.notes, *lower, *of)) or None
    cautions = for_working_set(lift.name, scene.person, scene.around, percent=of_max, implement=lift.implement)
    made, shown, instead = (None, None, None) if held else (made, shown, instead)
    reps = instead.reps if instead and instead.reps else asked.reps
    return [
        WeightLine(
            before + number, reps, float(asked.percent), target, made, shown,
            _chance(history, made, reps, scene.day, before + number - 1), note, held, cautions, instead,
            basis if both else "",
        )
        for number in range(1, asked.sets + 1)
    ]  # fmt: skip


def _percent_of_max(
    history: estimates.LiftHistory, made: MadeLoad | None, day: date, true: float | None, reference: Reference
) -> float | None:
    """Return the load in per cent of the 1RM; without an estimate that of the reference max, which is never less."""
    if made is None or true is None:
        return None
    if history.model is None or (history.sets[:1] and history.sets[0].day > day):
        return true
    return history.moved_kg(made.load, day) / history.model.estimate(day).one_rm.estimate * 100


def _chance(history: estimates.LiftHistory, made: MadeLoad | None, reps: int, day: date, before: int) -> float | None:
    if made is None or history.model is None or rests_on_little(history, day):
        return None
    moved = history.moved_kg(made.load, day)
    return history.model.chance(moved, reps, day=day, sets_before=before) if moved > 0 else None
