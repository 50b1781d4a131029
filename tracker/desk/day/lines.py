"""The lines of a day: each prescribed set with the load that the place makes, how likely it is, and its cautions."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from tracker.desk.day.other_ways import Round, sets_here
from tracker.desk.maxes import estimates
from tracker.desk.maxes.references import Reference, references
from tracker.desk.people import places
from tracker.desk.people.places import FIXED, MadeLoad
from tracker.desk.sheet import lift_side
from tracker.log import sides
from tracker.log.records import LiftRecord, MemberRecord, MemberStepRow, PlaceRecord, PlannedSetRow, SetRow
from tracker.log.unit_of_work import Reader
from tracker.prescription.changes import load_in_turn
from tracker.prescription.floor import is_from_floor
from tracker.prescription.ramp import RampSet, ramp_of_fixed, ramp_sets
from tracker.prescription.rounding import NEAREST, RoundingChoice, change_note, choose_rounding
from tracker.prescription.substitution import Substitute, substitute
from tracker.safety import Around, Caution, HeldBack, Person, for_test, for_working_set, held_back
from tracker.strength.records import REP_MAXES
from tracker.units import Mass

OF_AN_ESTIMATE = RoundingChoice("down", ("the load is of an estimate",))
LESS_LIKELY, UNLIKELY = 0.90, 0.60  # a word below the first, a stronger one below the second; design choice


@dataclass(frozen=True, slots=True)
class PlannedLine:
    """One set to be done: what the coach asks, what it weighs here, how likely it is, and whether it is done."""

    step_id: str  # the member's step
    planned: PlannedSetRow
    number: int  # which of the planned sets, 1-based
    reference: Reference | None
    options: tuple[Reference, ...]
    made: MadeLoad | None
    percent: float | None  # what the made load really is of the reference
    chance: float | None
    why: tuple[str, ...]  # what is not as asked, and why
    done: SetRow | None
    instead: Substitute | None = None  # other repetitions, where fixed masses can't meet the load
    cautions: tuple[Caution, ...] = ()
    held: HeldBack | None = None  # why it is not offered with a load
    attempts: tuple[SetRow, ...] = ()  # of a test, in the order they were tried
    said: tuple[str, ...] = ()  # the coach's words on the lift, then on this set

    @property
    def notes(self) -> tuple[str, ...]:
        """All that is to be known of it: the coach's words first."""
        return (*self.said, *self.why)

    @property
    def lift(self) -> LiftRecord:
        return self.planned.lift

    @property
    def reps(self) -> int:
        """Repetitions to be done: the coach's, or those that fit what is at hand."""
        return self.instead.reps if self.instead and self.instead.reps else self.planned.reps

    @property
    def key(self) -> str:
        """A name for this line that stays the same from one reading to the next."""
        return f"{self.step_id}-{self.planned.id}-{self.number}"


@dataclass(frozen=True, slots=True)
class Scene:
    """Who trains, where, on which day, and what that means for care."""

    log_name: str
    member: MemberRecord
    place: PlaceRecord | None
    day: date
    person: Person
    prefer: Mapping[str, str]

    @property
    def around(self) -> Around:
        return Around(alone=self.member.alone, pins=self.place.pins if self.place else True)


@dataclass(frozen=True, slots=True)
class Grounds:
    """All that the log says of the sets of a step, read at once; `lines_on` works their loads out."""

    step: MemberStepRow
    planned: tuple[PlannedSetRow, ...]  # as place and side make them
    done: Mapping[Round, SetRow]
    stored: tuple[estimates.Stored, ...]  # each lift that a set is of, or refers to


def read_grounds(session: Reader, scene: Scene, step: MemberStepRow, todays: tuple[SetRow, ...]) -> Grounds:
    """Read what the lines of a step are worked out from, in a reading of whoever asks."""
    done: dict[Round, SetRow] = {
        (row.planned_set_id, row.planned_round): row for row in todays if row.member_step_id == step.id
    }
    here = sets_here(step, scene.member, scene.place, done)
    asked = any(lift_side.pair_of(each) for each in here)
    side = sides.chosen(session, scene.member.id).newest if asked else None
    planned = tuple(lift_side.for_side(each, side) for each in here)
    return Grounds(step, planned, done, _stored(session, scene, planned))


def grounds_of_line(session: Reader, scene: Scene, step: MemberStepRow, line: PlannedLine) -> Grounds:
    """Read what the load of one line is worked out from, in a reading of whoever asks."""
    return Grounds(step, (line.planned,), {}, _stored(session, scene, (line.planned,)))


def _stored(session: Reader, scene: Scene, planned: Sequence[PlannedSetRow]) -> tuple[estimates.Stored, ...]:
    asked = (lift for each in planned for lift in (each.lift, each.of_lift) if lift is not None)
    lifts = {lift.id: lift for lift in asked}
    return tuple(estimates.read_lift(session, scene.log_name, scene.member.id, lift) for lift in lifts.values())


def lines_on(scene: Scene, grounds: Grounds) -> tuple[PlannedLine, ...]:
    """Work out every set of a step from what was read."""
    histories = _histories(grounds.stored)
    before: dict[str, int] = {}
    lines: list[PlannedLine] = []
    for planned in grounds.planned:
        first = before.get(planned.lift.id, 0)
        lines += _sets(scene, planned, grounds.step, histories, grounds.done, first)
        before[planned.lift.id] = first + planned.sets
    return _few_changes(scene, lines)


def _histories(stored: tuple[estimates.Stored, ...]) -> dict[str, estimates.LiftHistory]:
    return {each.lift.id: estimates.worked_out(each) for each in stored}


def made_of(scene: Scene, grounds: Grounds) -> MadeLoad | None:
    """Work out the load of the first set, such as in another scene where another reference max is preferred."""
    first = replace(grounds.planned[0], sets=1)
    return _sets(scene, first, grounds.step, _histories(grounds.stored), {}, 0)[0].made


def _few_changes(scene: Scene, lines: list[PlannedLine]) -> tuple[PlannedLine, ...]:
    """Of equal choices of discs for the sets of a lift, take those that change least from set to set."""
    found = list(lines)
    on_a_bar = [i for i, line in enumerate(lines) if line.made and line.lift.implement in ("barbell", "unasked")]
    for lift in dict.fromkeys(lines[i].lift for i in on_a_bar):
        rows = [(i, made) for i in on_a_bar if lines[i].lift == lift and (made := lines[i].made)]
        units = {disc.unit for _, made in rows for disc in made.per_side}
        kit = places.bar_kit(scene.member, scene.place, mixed=len(units) > 1)
        if kit is None:
            continue
        for (i, made), loading in zip(rows, load_in_turn([made.load for _, made in rows], kit), strict=True):
            if loading.load.kg == made.load.kg:
                words = places.discs_in_words(loading.per_side)
                found[i] = replace(lines[i], made=replace(made, per_side=loading.per_side, words=words))
    return tuple(found)


def ramp_of(scene: Scene, lines: tuple[PlannedLine, ...]) -> tuple[RampSet, ...]:
    """Plan the ramp up to the first set that is not done; none where a set of that lift was done on the day already."""
    first = next((line for line in lines if line.done is None and line.made), None)
    if (
        first is None
        or first.made is None
        or any(line.done and line.done.day == scene.day and line.lift == first.lift for line in lines)
    ):
        return ()
    if first.lift.implement in FIXED and scene.place is not None:
        return ramp_of_fixed(first.made.load, places.fixed_masses(scene.place, first.lift))
    kit = places.bar_kit(scene.member, scene.place) if first.lift.implement in ("barbell", "unasked") else None
    return ramp_sets(first.made.load, kit, from_floor=is_from_floor(first.lift.name)) if kit else ()


def _sets(
    scene: Scene,
    planned: PlannedSetRow,
    step: MemberStepRow,
    histories: Mapping[str, estimates.LiftHistory],
    done: Mapping[Round, SetRow],
    first: int,
) -> list[PlannedLine]:
    history = histories[planned.lift.id]
    of = histories[planned.of_lift.id] if planned.of_lift else history
    options = references(of, planned.of_reps, scene.day, scene.member.unit) if planned.of_reps else ()
    liked = scene.prefer.get(planned.lift.id)
    chosen = next((each for each in options if each.source == liked), options[0] if options else None)
    made, instead, notes = _weigh(scene, planned, chosen, step.ease, history)
    of_max = _percent_of_max(history, made, scene.day)
    held = held_back(scene.person, percent=of_max, test=planned.test)
    if instead and made is None:
        notes = (instead.words, *notes)
    if held:
        made, instead, notes = None, None, (*notes, held.text)
    whole = history.moved_kg(chosen.load, scene.day) if chosen else 0.0
    percent = history.moved_kg(made.load, scene.day) / whole * 100 if made and whole > 0 else None
    reps = instead.reps if instead and instead.reps else planned.reps
    tried = [row for (planned_id, _), row in done.items() if planned.test and planned_id == planned.id]
    attempts = tuple(sorted(tried, key=lambda row: row.position))
    return [
        PlannedLine(
            step.id, planned, number, chosen, options, made, percent,
            _chance(scene, planned, history, made, reps, first + number - 1),
            notes, done.get((planned.id, number)), instead, _cautions(scene, planned, of_max), held, attempts,
            _said(planned, step),
        )
        for number in range(1, planned.sets + 1)
    ]  # fmt: skip


def _weigh(
    scene: Scene,
    planned: PlannedSetRow,
    chosen: Reference | None,
    ease: Decimal | None,
    history: estimates.LiftHistory,
) -> tuple[MadeLoad | None, Substitute | None, tuple[str, ...]]:
    if planned.rule and (planned.percent is None or chosen is None):
        return None, _by_rule(scene, planned), ()
    if planned.percent is None:
        return _asked_otherwise(scene, planned, ease, history)
    if chosen is None:
        return None, None, (f"No {planned.of_reps}RM of {(planned.of_lift or planned.lift).title} is known yet.",)
    target = history.share(chosen.load, planned.percent / 100 * (1 - (ease or Decimal(0)) / 100), scene.day)
    if planned.lift.implement in FIXED and scene.place is not None:
        return _fixed(scene, planned, target, chosen, history)
    return _made(scene, planned, target, rounding_for(chosen, scene))


def _made(
    scene: Scene, planned: PlannedSetRow, target: Mass, how: RoundingChoice
) -> tuple[MadeLoad | None, Substitute | None, tuple[str, ...]]:
    made = places.make_load(target, planned.lift, scene.member, scene.place, how)
    if made is None:
        missing = f"Nothing here for {planned.lift.title}. Ask your coach for another way, or change the place."
        return None, None, (missing,)
    note = made.note or change_note(target, made.load, how)
    return made, None, (note,) if note else ()


def _asked_otherwise(
    scene: Scene, planned: PlannedSetRow, ease: Decimal | None, history: estimates.LiftHistory
) -> tuple[MadeLoad | None, Substitute | None, tuple[str, ...]]:
    """Find the load of a set without a percentage: the coach's own, or what the estimate says of the wanted reserve."""
    share = 1 - (ease or Decimal(0)) / 100
    if planned.load is not None:
        return _made(scene, planned, Mass(planned.load.amount * share, planned.load.unit), NEAREST)
    reps = planned.reps + math.ceil(planned.reserve) if planned.reserve is not None else None
    if reps is None or reps not in REP_MAXES or history.model is None or planned.rep_out:
        return None, None, ()
    band = history.bar(history.model.estimate(scene.day).rep_max[reps], scene.day, scene.member.unit)
    target = Mass(Decimal(repr(round(band.estimate, 3))) * share, scene.member.unit)
    if target.amount <= 0 and not planned.lift.body:
        return None, None, ()
    made, instead, notes = _made(scene, planned, target, OF_AN_ESTIMATE)
    return (
        made,
        instead,
        ("A load of your own estimate for that reserve; change it by feel.", *notes) if made else notes,
    )


def _by_rule(scene: Scene, planned: PlannedSetRow) -> Substitute:
    """Another implement without a max of its own: the sheet's repetitions, at a load chosen by feel."""
    known = planned.lift.implement in FIXED and scene.place is not None
    masses = places.fixed_masses(scene.place, planned.lift) if known and scene.place else ()
    if known and not masses:
        return substitute(planned.reps, ())
    at_hand = masses or (Mass(Decimal(1), scene.member.unit),)  # by feel: only that there is something
    return substitute(planned.reps, at_hand, double=planned.rule == "doubled")


def _said(planned: PlannedSetRow, step: MemberStepRow) -> tuple[str, ...]:
    """Gather the coach's words: those on the whole lift belong to each of its sets, with whichever implement."""
    of_lift = (note for each in step.sets if each.block == planned.block for note in each.lift_notes)
    return tuple(f"{each[:1].upper()}{each[1:]}.".replace("..", ".") for each in (*of_lift, planned.own_words) if each)


def _fixed(
    scene: Scene, planned: PlannedSetRow, target: Mass, chosen: Reference, history: estimates.LiftHistory
) -> tuple[MadeLoad | None, Substitute | None, tuple[str, ...]]:
    """Fixed masses: where none is close, the repetitions change and the reserve stays."""
    assert scene.place is not None
    masses = places.fixed_masses(scene.place, planned.lift)
    rep_max = None
    if history.model is not None:
        now = history.model.estimate(scene.day).rep_max
        rep_max = {n: band.estimate for n, band in now.items()}
    found = substitute(planned.reps, masses, target=target, rep_max=rep_max, double=False)
    if found.load is None or rep_max is None:
        made = places.make_load(target, planned.lift, scene.member, scene.place, rounding_for(chosen, scene))
        return made, None, tuple(note for note in (made.note if made else found.words,) if note)
    made = places.exactly(found.load, target, planned.lift)
    return (made, None, ()) if found.reps == planned.reps else (made, found, (found.words,))


def _percent_of_max(history: estimates.LiftHistory, made: MadeLoad | None, day: date) -> float | None:
    if made is None or history.model is None:
        return None
    return history.moved_kg(made.load, day) / history.model.estimate(day).one_rm.estimate * 100


def _chance(
    scene: Scene,
    planned: PlannedSetRow,
    history: estimates.LiftHistory,
    made: MadeLoad | None,
    reps: int,
    sets_before: int,
) -> float | None:
    if made is None or history.model is None or planned.test or planned.rep_out:
        return None
    moved = history.moved_kg(made.load, scene.day)
    return history.model.chance(moved, reps, day=scene.day, sets_before=sets_before)


def _cautions(scene: Scene, planned: PlannedSetRow, of_max: float | None) -> tuple[Caution, ...]:
    lift = planned.lift
    if planned.test:
        return for_test(lift.name, scene.person, scene.around, implement=lift.implement)
    return for_working_set(
        lift.name, scene.person, scene.around, percent=of_max, rep_out=planned.rep_out, implement=lift.implement
    )


def rounding_for(reference: Reference, scene: Scene) -> RoundingChoice:
    """Round down where care is due, with the reasons, else to the nearest."""
    return choose_rounding(
        source=reference.source,
        age_days=reference.age_days(scene.day),
        days_off=scene.person.days_off,
        alone=scene.member.alone,
    )


def chance_words(chance: float | None) -> str:
    """Say how likely a set is, with a plain word where it is less than 90 % likely and a stronger one under 60 %."""
    if chance is None:
        return ""
    percent = f"{min(max(round(chance * 100), 1), 99)} %"
    if chance < UNLIKELY:
        return f"{percent} likely: probably too heavy today"
    return f"{percent} likely: may not go up" if chance < LESS_LIKELY else f"{percent} likely"
