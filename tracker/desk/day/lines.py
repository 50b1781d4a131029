"""The lines of a day: each prescribed set with the load that the place makes, how likely it is, and its cautions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal

from tracker.desk.day import body_percent, loading, sore
from tracker.desk.day.body_percent import Basis
from tracker.desk.day.carried import Change, changes
from tracker.desk.day.ceilings import ceilings, ended
from tracker.desk.day.other_ways import Round, can_make, others_here, sets_here
from tracker.desk.day.scene import Scene
from tracker.desk.day.unit_today import in_unit
from tracker.desk.day.weighing import Part, held_down, weigh
from tracker.desk.maxes import estimates, little
from tracker.desk.maxes.references import Reference, references
from tracker.desk.people import places
from tracker.desk.people.places import FIXED, MadeLoad
from tracker.desk.sheet import lift_side
from tracker.log import sides
from tracker.log.records import LiftRecord, MemberStepRow, PlannedSetRow, SetRow
from tracker.log.unit_of_work import Reader
from tracker.prescription import illness
from tracker.prescription.body_share import BodyShare
from tracker.prescription.floor import is_asked, is_from_floor
from tracker.prescription.ramp import RampSet, ramp_of_body, ramp_of_fixed, ramp_sets
from tracker.prescription.rounding import RoundingChoice
from tracker.prescription.substitution import Substitute
from tracker.safety import Caution, HeldBack, for_test, for_working_set, held_back
from tracker.units import Mass
from tracker.wording import counted

BODY_STEP = {"kg": Decimal("2.5"), "lb": Decimal(5)}  # what is hung on a belt; common practice
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
    most: Mass | None = None  # nothing heavier is offered for the rest of the day: something was missed
    stopped: bool = False  # the member has ended this lift for the day
    painful: bool = False  # it hurts, or the member is ill, by their own word: no load is proposed
    of: Part | None = None  # what the percentage makes of the reference, before the kit makes a load of it
    change: Change | None = None  # the newest set of the lift was done with another load than it asked
    body_ways: tuple[
        tuple[BodyShare, MadeLoad | None], ...
    ] = ()  # what a percentage may be of, where nobody said which
    unchanged: Mass | None = None  # what it asks for itself, where it is done with the load that the set before was
    full: MadeLoad | None = None  # as asked, where a break makes it start lower and nobody has said yet that it does
    turn: int | None = None  # the sets of several lifts are done in turn: the block of the first of them

    @property
    def open(self) -> bool:
        """Whether it is still to be done."""
        return self.done is None and not self.stopped

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
    def uncounted(self) -> bool:
        """Whether it asks for as many repetitions as there are: only the member can say how many those were."""
        return self.planned.rep_out and self.reps == 1

    @property
    def key(self) -> str:
        """A name for this line that stays the same from one reading to the next."""
        return f"{self.step_id}-{self.planned.id}-{self.number}"


@dataclass(frozen=True, slots=True)
class Grounds:
    """All that the log says of the sets of a step, read at once; `lines_on` works their loads out."""

    step: MemberStepRow
    planned: tuple[PlannedSetRow, ...]  # as place and side make them
    done: Mapping[Round, SetRow]
    stored: tuple[estimates.Stored, ...]  # each lift that a set is of, or refers to
    most: Mapping[str, Mass] = field(default_factory=dict[str, Mass])  # by lift: nothing heavier is offered
    ended: frozenset[str] = frozenset()  # lifts that the member has ended for the day
    asked: tuple[
        PlannedSetRow, ...
    ] = ()  # as the coach asks, before anything was left out or replaced for what is sore
    listed: Mapping[tuple[str, str], tuple[int, ...]] = field(
        default_factory=dict[tuple[str, str], tuple[int, ...]]
    )  # by planned set and lift: the numbers of its sets, where not all of them are done with that lift

    def numbers(self, planned: PlannedSetRow) -> tuple[int, ...]:
        """Return the numbers of the sets of a planned row that are done with its lift."""
        return self.listed.get((planned.id, planned.lift.id), tuple(range(1, planned.sets + 1)))


def read_grounds(
    session: Reader, scene: Scene, step: MemberStepRow, of_step: tuple[SetRow, ...], todays: tuple[SetRow, ...] = ()
) -> Grounds:
    """Read what the lines of a step are worked out from, in a reading of whoever asks.

    `of_step` are the sets that were done of it, of whichever day; `todays` all of the day, planned or not.
    """
    done: dict[Round, SetRow] = {
        (row.planned_set_id, row.planned_round): row for row in of_step if row.member_step_id == step.id
    }
    here = sets_here(step, scene.member, scene.place, done)
    asked = any(lift_side.pair_of(each) for each in here)
    side = sides.chosen(session, scene.member.id).newest if asked else None
    planned = tuple(lift_side.for_side(each, side) for each in here)
    asks, listed = planned, dict[tuple[str, str], tuple[int, ...]]()
    if scene.sore.ways or scene.sore.in_step:
        chosen = sore.replaced(planned, scene.sore, sore.read_lifts(session, scene.sore), done, step.id)
        planned = tuple(row for row, _ in chosen)
        listed = {(row.id, row.lift.id): numbers for row, numbers in chosen}
    most = ceilings(todays, scene.choices)
    stored = _stored(session, scene, planned)
    return Grounds(step, planned, done, stored, most, ended(scene.choices, step.id), asks, listed)


def grounds_of_line(session: Reader, scene: Scene, step: MemberStepRow, line: PlannedLine) -> Grounds:
    """Read what the load of one line is worked out from, in a reading of whoever asks."""
    most = {} if line.most is None else {line.lift.id: line.most}
    return Grounds(step, (line.planned,), {}, _stored(session, scene, (line.planned,)), most)


def _stored(session: Reader, scene: Scene, planned: Sequence[PlannedSetRow]) -> tuple[estimates.Stored, ...]:
    asked = (lift for each in planned for lift in (each.lift, each.of_lift) if lift is not None)
    lifts = {lift.id: lift for lift in asked}
    return tuple(estimates.read_lift(session, scene.log_name, scene.member.id, lift) for lift in lifts.values())


def lines_on(scene: Scene, grounds: Grounds) -> tuple[PlannedLine, ...]:
    """Work out every set of a step from what was read."""
    histories = _histories(grounds.stored)
    lines = _as_planned(scene, grounds, histories)
    return _few_changes(scene, _carried(scene, grounds, histories, lines))


def lines_as_planned(scene: Scene, grounds: Grounds) -> tuple[PlannedLine, ...]:
    """Work out every set of a step as it stands where no load was changed at the sets before it."""
    return _few_changes(scene, _as_planned(scene, grounds, _histories(grounds.stored)))


def _as_planned(scene: Scene, grounds: Grounds, histories: Mapping[str, estimates.LiftHistory]) -> list[PlannedLine]:
    before: dict[str, int] = {}
    lines: list[PlannedLine] = []
    for planned in grounds.planned:
        first = before.get(planned.lift.id, 0)
        of_it = _sets(scene, planned, grounds, histories, first)
        before[planned.lift.id] = first + len(of_it)
        lines += of_it
    return lines


def _carried(
    scene: Scene, grounds: Grounds, histories: Mapping[str, estimates.LiftHistory], lines: list[PlannedLine]
) -> list[PlannedLine]:
    """Let a load that was changed go on to the open sets of its lift."""
    done = [(line.done, line.made.load if line.made else None) for line in lines if line.done]
    said = changes(sorted(done, key=lambda each: each[0].logged_at), scene.choices, grounds.step.id, scene.day)
    return [
        gone_on(scene, line, said[line.lift.id], histories[line.lift.id])
        if line.lift.id in said and line.open and line.made and not line.planned.test
        else line
        for line in lines
    ]


def gone_on(scene: Scene, line: PlannedLine, change: Change, history: estimates.LiftHistory) -> PlannedLine:
    """Return a set as it is done where the newest one of its lift was done with another load than it asked."""
    wanted = change.load_for(line.made.load) if line.made else None
    if line.made is None or wanted is None or (line.most is not None and wanted.kg > line.most.kg):
        return replace(line, change=change)
    planned = line.made.load
    scene = in_unit(scene, line.lift.id)
    made = places.make_load(wanted, line.lift, scene.member, scene.place, RoundingChoice("down"))
    if made is None:
        return replace(line, change=change)
    if wanted == change.done:  # as it was lifted, whatever the kit of the place says
        made = made if made.load.kg == wanted.kg else replace(made, load=wanted, per_side=(), words="", note=None)
    percent = _true_percent(history, made, line.reference, line.of, scene.day)
    before = line.number - 1
    chance = _chance(scene, line.planned, history, made, line.planned.reps, before)
    return replace(
        line, made=replace(made, note=None), percent=percent, chance=chance, instead=None, change=change,
        unchanged=planned, why=(*line.why, change.words(planned)),
    )  # fmt: skip


def _histories(stored: tuple[estimates.Stored, ...]) -> dict[str, estimates.LiftHistory]:
    return {each.lift.id: estimates.worked_out(each) for each in stored}


def made_of(scene: Scene, grounds: Grounds) -> MadeLoad | None:
    """Work out the load of the first set, such as in another scene where another reference max is preferred."""
    first = replace(grounds.planned[0], sets=1)
    return _sets(scene, first, replace(grounds, done={}), _histories(grounds.stored), 0)[0].made


def _few_changes(scene: Scene, lines: list[PlannedLine]) -> tuple[PlannedLine, ...]:
    found = loading.fewest_changes(scene, [(line.lift, line.made) for line in lines])
    return tuple(
        line if made is line.made else replace(line, made=made) for line, made in zip(lines, found, strict=True)
    )


def ramp_of(scene: Scene, lines: tuple[PlannedLine, ...]) -> tuple[RampSet, ...]:
    """Plan the ramp up to the first set that is not done; none where a set of that lift was done on the day already."""
    first = next((line for line in lines if line.open and line.made), None)
    if any(line.open and line.painful for line in lines[: lines.index(first) if first else None]):
        return ()  # what is next hurts: nothing is to be ramped up to
    if (
        first is None
        or first.made is None
        or any(line.done and line.done.day == scene.day and line.lift == first.lift for line in lines)
    ):
        return ()
    scene = in_unit(scene, first.lift.id)
    if first.lift.implement in FIXED and scene.place is not None:
        return ramp_of_fixed(first.made.load, places.fixed_masses(scene.place, first.lift))
    if first.lift.body:
        return ramp_of_body(first.made.load, None, BODY_STEP[first.made.load.unit])
    kit = places.bar_kit(scene.member, scene.place) if first.lift.implement in ("barbell", "unasked") else None
    return ramp_sets(first.made.load, kit, from_floor=is_from_floor(first.lift.name)) if kit else ()


def asks_diameter(scene: Scene, line: PlannedLine) -> tuple[Mass, ...]:
    """List the discs of which one may be the lightest of full diameter, where a pull from the floor wants it and nobody said.

    Empty where nothing is to be asked.
    """
    kit = (
        places.bar_kit(scene.member, scene.place)
        if scene.place and line.lift.implement in ("barbell", "unasked")
        else None
    )
    if kit is None or not is_from_floor(line.lift.name) or not is_asked(kit):
        return ()
    return tuple(sorted({disc.mass for disc in kit.discs if disc.mass.kg >= 2}, key=lambda mass: mass.kg))


def _sets(
    scene: Scene,
    planned: PlannedSetRow,
    grounds: Grounds,
    histories: Mapping[str, estimates.LiftHistory],
    first: int,
) -> list[PlannedLine]:
    step, done, history = grounds.step, grounds.done, histories[planned.lift.id]
    scene = in_unit(scene, planned.lift.id)
    of = histories[planned.of_lift.id] if planned.of_lift else history
    options = references(of, planned.of_reps, scene.day, scene.member.unit) if planned.of_reps else ()
    liked = scene.prefer.get(planned.lift.id)
    chosen = next((each for each in options if each.source == liked), options[0] if options else None)
    basis = body_percent.basis_of(scene, planned, step, chosen.load.amount if chosen else None)
    weighed, part = weigh(scene, planned, chosen, step.ease, history, of, basis)
    most = grounds.most.get(planned.lift.id)
    weighed = held_down(scene, planned, weighed, most)
    made, instead, notes = weighed.made, weighed.instead, weighed.notes
    of_max = _percent_of_max(history, made, scene.day)
    held = held_back(scene.person, percent=of_max, test=planned.test)
    if instead and made is None:
        notes = (instead.words, *notes)
    missing = weighed.missing or not can_make(planned.lift, scene.member, scene.place)
    if made is None and missing and (others := others_here(step, planned, scene.member, scene.place)):
        names = " or ".join(each.title for each in others)
        notes = (*notes, f"Of your coach's other ways, {names} can be done here.")
    if held:
        made, instead, notes = None, None, (*notes, held.text)
    asks = scene.asks_back and scene.back and not scene.back.long and made is not None and most is None
    full = weigh(replace(scene, back=None), planned, chosen, step.ease, history, of, basis)[0].made if asks else None
    ways: tuple[tuple[BodyShare, MadeLoad | None], ...] = ()
    if not basis.of and chosen is not None and not held:
        both: tuple[BodyShare, ...] = ("added", "whole")
        ways = tuple(
            (each, weigh(scene, planned, chosen, step.ease, history, of, Basis(each))[0].made) for each in both
        )
    painful = scene.sore.is_painful(planned.lift.name)
    if scene.sore.ill or painful:
        made, instead, notes, ways = None, None, (illness.OFFERED if scene.sore.ill else sore.PAINFUL,), ()
    percent = _true_percent(history, made, chosen, part, scene.day)
    reps = instead.reps if instead and instead.reps else planned.reps
    tried = [row for (planned_id, _), row in done.items() if planned.test and planned_id == planned.id]
    attempts = tuple(sorted(tried, key=lambda row: row.position))
    return [
        PlannedLine(
            step.id, planned, number, chosen, options, made, percent,
            _chance(scene, planned, history, made, reps, first + sets_before),
            notes, done.get((planned.id, number)), instead, _cautions(scene, planned, of_max), held, attempts,
            _said(planned, step), most, planned.lift.id in grounds.ended, painful or scene.sore.ill, part, None, ways, None, full,
        )
        for sets_before, number in enumerate(grounds.numbers(planned))
    ]  # fmt: skip


def _true_percent(
    history: estimates.LiftHistory, made: MadeLoad | None, chosen: Reference | None, part: Part | None, day: date
) -> float | None:
    """Return what a load really is of a reference max: of what is added alone where the percentage is of that."""
    if made is None or chosen is None:
        return None
    if part is not None and part.basis.of == "added":
        return float(made.load.kg / chosen.load.kg * 100) if chosen.load.kg > 0 else None
    whole = history.moved_kg(chosen.load, day)
    return history.moved_kg(made.load, day) / whole * 100 if whole > 0 else None


def _said(planned: PlannedSetRow, step: MemberStepRow) -> tuple[str, ...]:
    """Gather the coach's words: those on the whole lift belong to each of its sets, with whichever implement."""
    of_lift = (note for each in step.sets if each.block == planned.block for note in each.lift_notes)
    return tuple(f"{each[:1].upper()}{each[1:]}.".replace("..", ".") for each in (*of_lift, planned.own_words) if each)


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
    if little.rests_on_little(history, scene.day):
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


def chance_words(chance: float | None, reps: int | None = None) -> str:
    """Say how likely a set is, and of how many repetitions that is said: `93 % likely to make 5 reps`.

    With a plain word where it is less than 90 % likely, and a stronger one under 60 %.
    """
    if chance is None:
        return ""
    percent = f"{min(max(round(chance * 100), 1), 99)} % likely"
    word = "probably too heavy today" if chance < UNLIKELY else "may not go up" if chance < LESS_LIKELY else ""
    of = "" if reps is None else f" to make {counted(reps, 'rep')}"
    return f"{percent}{of}: {word}" if word else f"{percent}{of}"
