"""Loads for any percentages of any reference max, with the member's kit, and how likely each set is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tracker.desk import estimates, places
from tracker.desk.lines import rounding_for
from tracker.desk.places import MadeLoad
from tracker.desk.references import Reference, references
from tracker.desk.today import scene_of
from tracker.errors import BadInputError
from tracker.log.keeper import Log
from tracker.log.records import LiftRecord, MemberRecord
from tracker.prescription.plates import Rounding
from tracker.prescription.wave import PrescribedSets, parse_wave
from tracker.units import Mass


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


def options(log: Log, member: MemberRecord, lift: LiftRecord, reps: int, day: date) -> tuple[Reference, ...]:
    """List what the nRM of a lift could be taken from, the first choice first."""
    return references(estimates.history(log, member.id, lift), reps, day, member.unit)


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
    wanted: tuple[PrescribedSets, ...] = parse_wave(wave)
    if sum(each.sets for each in wanted) > 60:
        raise BadInputError("That is more than 60 sets.", where="wave", mend="Ask for one session at a time.")
    place = places.place_of(log, member)
    history = estimates.history(log, member.id, lift)
    how = rounding or rounding_for(reference, scene_of(log, member, place, day, {}))
    lines: list[WeightLine] = []
    for each in wanted:
        target = Mass(reference.load.amount * each.percent / 100, reference.load.unit)
        made = places.make_load(target, lift, member, place, how)
        for _ in range(each.sets):
            chance = None
            if made and history.model is not None:
                chance = history.model.chance(
                    history.moved_kg(made.load, day), each.reps, day=day, sets_before=len(lines)
                )
            true = float(made.load.kg / reference.load.kg * 100) if made else None
            lines.append(WeightLine(len(lines) + 1, each.reps, float(each.percent), target, made, true, chance))
    return tuple(lines)
