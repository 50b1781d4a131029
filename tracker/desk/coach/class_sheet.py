"""The load sheet of a class: one row a member, with loads, discs, and in short what to look out for.

Where a gym is chosen for the class, all train there and nobody alone; else each where they usually train.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from tracker.conditioning.pieces import Piece
from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.coach.partners import AtBar, Partners, suggest_partners
from tracker.desk.day.lines import PlannedLine, lines_on, read_grounds
from tracker.desk.day.other_ways import can_make
from tracker.desk.day.scene import Scene, read_scene
from tracker.desk.day.singly import others_at
from tracker.desk.day.told import NOTHING_TOLD, Told, read_told
from tracker.desk.maxes.references import Reference
from tracker.desk.people import places
from tracker.desk.people.places import MadeLoad
from tracker.errors import BadInputError
from tracker.log import kit as log_kit
from tracker.log import members as log_members
from tracker.log import pieces as log_pieces
from tracker.log import waves as log_waves
from tracker.log.records import MemberRecord, MemberStepRow, PlaceRecord, PlannedSetRow, StepRow
from tracker.log.unit_of_work import Log
from tracker.prescription.body_parts import Other
from tracker.prescription.substitution import FEEL_RIR, Substitute
from tracker.safety import Caution, HeldBack

FEW = 2  # other movements that are named
MOST_MEMBERS = 60


@dataclass(frozen=True, slots=True)
class ClassLine:
    """What one member does of one prescribed line."""

    planned: PlannedSetRow
    made: MadeLoad | None
    reps: int
    reference: Reference | None
    chance: float | None  # of the hardest of its sets
    why: tuple[str, ...]  # why it is not as asked
    to_do: str  # where there is no load: what to do about it
    held: HeldBack | None
    instead: Substitute | None = None  # other repetitions, by the coach's rule for another implement
    others: tuple[
        str, ...
    ] = ()  # what could be done instead where nothing stands there for it, as on the member's own day

    @property
    def missing(self) -> bool:
        """No max is known that the percentage could refer to, and the sheet says no other way to find a load."""
        return self.planned.percent is not None and self.reference is None and not self.planned.rule


@dataclass(frozen=True, slots=True)
class ClassRow:
    """One member's row; `cautions` are those of any of the lines, each once."""

    member: MemberRecord
    place: PlaceRecord | None
    lines: tuple[ClassLine, ...]
    cautions: tuple[Caution, ...]
    # What the member chose to tell of how they are: in words on the coach's own screen, in print only the sign.
    told: Told = NOTHING_TOLD


@dataclass(frozen=True, slots=True)
class ClassSheet:
    """A session for the members of a class."""

    step: StepRow
    day: date
    place: PlaceRecord | None  # the gym chosen for the class; None where each trains at their own place
    rows: tuple[ClassRow, ...]
    partners: tuple[Partners, ...]
    pieces: tuple[Piece, ...] = ()  # that belong to the session


@may("lead")
def sessions(log: Log) -> tuple[StepRow, ...]:
    """List the sessions of all waves that a class can be held for."""
    with log.reading() as session:
        return log_waves.wave_steps(session)


@dataclass(frozen=True, slots=True)
class DatedSession:
    """A session and when a class would hold it: `day` is None, and nobody has it, where it is in no calendar."""

    step: StepRow
    day: date | None
    member_ids: tuple[str, ...]


@may("lead")
def dated_sessions(log: Log, day: date) -> tuple[DatedSession, ...]:
    """List the sessions with their days and whose they are: of the day first, then those that come, then the past, newest first.

    A session that members have on several days stands with the nearest one, coming days before those that are past.
    """
    with log.reading() as session:
        known = log_waves.wave_steps(session)
        mine = [
            (each.id, step)
            for each in log_members.members(session)
            for step in log_waves.member_steps(session, each.id)
        ]
    found: list[DatedSession] = []
    for step in known:
        days = [(due.due, member) for member, due in mine if due.step_id == step.id]
        nearest = min((due for due, _ in days), key=lambda due: (due < day, abs((due - day).days)), default=None)
        found.append(DatedSession(step, nearest, tuple(member for due, member in days if due == nearest)))
    return tuple(sorted(found, key=lambda each: _nearest_first(each.day, day)))


def _nearest_first(held: date | None, day: date) -> tuple[int, int]:
    if held is None:
        return 2, 0
    return (0, (held - day).days) if held >= day else (1, (day - held).days)


@may("lead")
def likely_class(log: Log, day: date) -> tuple[str | None, tuple[str, ...]]:
    """Guess the class of a day: the session that is next for the most members, and those members.

    A member's session that is planned for the day comes before an older one that was missed. Where nobody has a wave it is the first session there is, for all; None where there is no session.
    """
    with log.reading() as session:
        known = log_waves.wave_steps(session)
        members = log_members.members(session)
        steps = {each.id: log_waves.member_steps(session, each.id) for each in members}
    coming = {
        member: min(
            (step for step in mine if step.state == "planned" and not step.own),
            key=lambda step: (step.due != day, step.due),
            default=None,
        )
        for member, mine in steps.items()
    }
    count = Counter(step.step_id for step in coming.values() if step)
    if not count:
        return (known[0].id if known else None), tuple(each.id for each in members)
    likely = count.most_common(1)[0][0]
    return likely, tuple(member for member, step in coming.items() if step and step.step_id == likely)


@may("lead")
@cached_until_write
def class_sheet(
    log: Log, step_id: str, member_ids: Sequence[str], day: date, *, place_id: str | None = None
) -> ClassSheet:
    """Work out the load sheet of a session for chosen members, in the order of their names.

    Raises:
        BadInputError: if the session, a member or the place is not in the log (any more), or nobody is chosen.
    """
    with log.reading() as session:
        step = next((each for each in log_waves.wave_steps(session) if each.id == step_id), None)
        place = log_kit.place(session, place_id) if place_id else None
        chosen = [log_members.member(session, each) for each in dict.fromkeys(member_ids)]
        pieces = tuple(row.piece for row in log_pieces.pieces_of_step(session, step_id))
    found = sorted((each for each in chosen if each), key=lambda each: each.name.casefold())
    if step is None or (place_id and place is None) or len(found) < len(chosen):
        raise BadInputError(
            "The session, the place or a member is not in the log any more.", where="class", mend="Choose again."
        )
    if not 1 <= len(found) <= MOST_MEMBERS:
        raise BadInputError(
            f"A class of {len(found)} can't be.", where="class", mend=f"Choose 1 to {MOST_MEMBERS} members."
        )
    if place:
        found = [replace(each, alone=False) for each in found]
    rows = tuple(_row(log, step, member, day, place) for member in found)
    return ClassSheet(step, day, place, rows, suggest_partners(_at_bars(rows)), pieces)


def _row(log: Log, step: StepRow, member: MemberRecord, day: date, gym: PlaceRecord | None) -> ClassRow:
    with log.reading() as session:
        scene = read_scene(session, log.name, member, gym or places.read_place(session, member, day), day)
        mine = log_waves.member_steps(session, member.id)
        planned = next((each for each in mine if each.step_id == step.id and each.state == "planned"), None)
        grounds = read_grounds(session, scene, planned or _of_nobody(step, day), ())
        said = read_told(session, member.id, day)
    lines = lines_on(scene, grounds)
    grouped = [list(group) for _, group in groupby(lines, key=lambda line: line.planned.id)]
    cautions = tuple(dict.fromkeys(caution for line in lines for caution in line.cautions))
    return ClassRow(member, scene.place, tuple(_line(scene, group) for group in grouped), cautions, said)


def _of_nobody(step: StepRow, day: date) -> MemberStepRow:
    """The step as it was written, for a member who has not begun the wave."""
    return MemberStepRow(
        "", step.wave_id, step.wave, step.id, step.position, step.title, step.text, day, day, "planned", 0, None, step.sets, step.ways
    )  # fmt: skip


def _line(scene: Scene, group: Sequence[PlannedLine]) -> ClassLine:
    line = group[0]
    chances = [each.chance for each in group if each.chance is not None]
    instead = None if line.made or line.held else line.instead
    missing = scene.place is not None and not can_make(line.lift, scene.member, scene.place)
    others = others_at(line.lift, scene.member, scene.place)[:FEW] if missing and instead is None else ()
    return ClassLine(
        line.planned, line.made, line.reps, line.reference, min(chances, default=None),
        line.why, _to_do(line, instead, others), line.held, instead,
        tuple(each.name for each in others),
    )  # fmt: skip


def _to_do(line: PlannedLine, instead: Substitute | None, others: Sequence[Other]) -> str:
    if line.held:
        return "Speak with the coach before loading."
    if line.made is not None:
        return ""
    if instead or others:
        names = " or ".join(each.name for each in others)
        return instead.words if instead else f"Nothing here for it: {names} instead, by feel."
    if line.planned.percent is None:
        return "Up to today's max, after rising sets." if line.planned.test else "By feel, as the coach says."
    if line.reference is None:
        asked = f"No {line.planned.of_reps}RM is known: enter a tested or declared one, or"
        return f"{asked} choose by feel, leave {FEEL_RIR} repetitions, and log it."
    return "Nothing here for it: another place or another way."


def _at_bars(rows: Sequence[ClassRow]) -> Iterator[AtBar]:
    """Each member's sets of each barbell lift, in turn, where all of them have a load."""
    for row in rows:
        kit = places.bar_kit(row.member, row.place)
        by_lift: dict[str, list[ClassLine]] = {}
        for line in row.lines:
            if line.planned.lift.implement == "barbell":
                by_lift.setdefault(line.planned.lift.title, []).append(line)
        for lift, lines in by_lift.items():
            loads = tuple(line.made.load for line in lines if line.made for _ in range(line.planned.sets))
            if kit is not None and loads and all(line.made for line in lines):
                yield AtBar(row.member.name, lift, kit, loads)
