"""A sheet's sessions as the steps of a wave: lifts found or added, sets planned, other ways beside them, pieces kept."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Protocol

from tracker.conditioning.piece_record import record_of
from tracker.conditioning.pieces import Piece
from tracker.conditioning.times import time_words
from tracker.desk.people.people import facts_of
from tracker.desk.sheet.sheet_start import usable
from tracker.desk.sheet.sheet_words import HEADS, pair_words, range_words
from tracker.limits import MOST_PLANNED_REPS, MOST_PLANNED_SETS, MOST_TEMPO
from tracker.log import members as log_members
from tracker.log import pieces as log_pieces
from tracker.log import row_access
from tracker.log.records import Implement, LiftRecord
from tracker.log.unit_of_work import Act
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.prescription.for_place import FOR_WHERE
from tracker.prescription.in_turn import IN_TURN
from tracker.prescription.sheet.model import (
    Alternative,
    FindMax,
    InReserve,
    LiftBlock,
    MassRange,
    Of,
    Percent,
    Rpe,
    Session,
    SetGroup,
    Sheet,
    Text,
)
from tracker.prescription.sheet.model import Implement as SheetImplement
from tracker.prescription.sheet.piece import Pair, PieceBlock
from tracker.prescription.sheet.written.piece_scored import scored_piece
from tracker.prescription.sheet.written.said_back import load_words, reps_words
from tracker.strength.rpe import left_at
from tracker.units import Mass, plain  # fmt: skip

MOST_WORDS = 500
# What the log tells apart less finely than a sheet does.
KEPT_AS: dict[SheetImplement, Implement] = {
    "barbell": "barbell", "dumbbells": "dumbbells", "dumbbell": "dumbbell", "kettlebells": "kettlebells", "kettlebell": "kettlebell",
    "machine": "machine", "body": "body", "rings": "body", "band": "other", "ball": "other", "sandbag": "other", "sled": "other", "other": "other",
    "unasked": "unasked",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class LiftName:
    """A lift as a sheet names it."""

    name: str
    implement: Implement
    each_side: bool = False

    @property
    def words(self) -> str:
        """Say it as the log will name it: press, barbell; or press alone, where nobody said with what."""
        return self.name if self.implement == "unasked" else f"{self.name}, {self.implement}"


def lifts_named(sheet: Sheet) -> tuple[LiftName, ...]:
    """List the lifts that a sheet prescribes or refers to, in their order, each once."""
    found: dict[LiftName, None] = {}
    for session in sheet.sessions:
        for block in session.items:
            if isinstance(block, LiftBlock):
                found |= dict.fromkeys(_lifts_of(block))
    return tuple(found)


def _lifts_of(block: LiftBlock) -> Iterator[LiftName]:
    yield LiftName(_clean(block.name), KEPT_AS[block.implement], block.each_side)
    for of in (
        block.of,
        *(each.load.of for each in block.sets if isinstance(each, SetGroup) and isinstance(each.load, Percent)),
    ):
        if of is not None and of.lift:
            yield LiftName(_clean(of.lift), KEPT_AS[block.implement])
    for other in block.alternatives:
        yield LiftName(_clean(other.lift or block.name), KEPT_AS[other.implement], block.each_side)


def _clean(name: str) -> str:
    return usable(name).lower() or "lift"


def scored_pieces(sheet: Sheet) -> tuple[tuple[Piece, ...], ...]:
    """Turn the pieces of each session into those that the log keeps; one that can't be scored as it is written is kept in words."""
    return tuple(
        tuple(scored_piece(item) for item in session.items if isinstance(item, PieceBlock))
        for session in sheet.sessions
    )


class FindsLifts(Protocol):
    """Whatever says which lift of the log a name means."""

    def get(self, wanted: LiftName) -> LiftRecord:
        """Return the lift, whether or not it was known before."""
        ...


class Lifts:
    """The lifts of a log by name and implement, those that are missing added within an act."""

    def __init__(self, act: Act) -> None:
        self._act = act
        self._known = {(lift.name.casefold(), lift.implement): lift for lift in log_members.lifts_of_new(act.session)}

    def get(self, wanted: LiftName) -> LiftRecord:
        """Return the lift; a new one is made as the sheet names it."""
        key = (wanted.name.casefold(), wanted.implement)
        if key not in self._known:
            facts = facts_of(wanted.name, wanted.implement)
            self._known[key] = log_members.add_lift(
                self._act, wanted.name, wanted.implement, per_side=wanted.each_side, **facts
            )
        return self._known[key]


def new_step(sheet: Sheet, session: Session, day_offset: int, lifts: FindsLifts) -> NewStep:
    """Turn a session into a step of a wave."""
    blocks = [item for item in session.items if isinstance(item, LiftBlock)]
    sets = [each for number, block in enumerate(blocks) for each in _sets(block, number, lifts)]
    return NewStep(title_of(sheet, session), day_offset, sets, text_of(session.items))


def title_of(sheet: Sheet, session: Session) -> str:
    """Name a session: by its own title, else by the sheet's and its day."""
    return session.title or ", ".join(part for part in (sheet.title, session.day_words) if part)


def text_of(items: Sequence[object]) -> str:
    """Gather the coach's free text of a session."""
    texts = [item for item in items if isinstance(item, Text)]
    return "\n".join(HEADS[text.kind] + "\n".join(text.lines) for text in texts)


def _sets(block: LiftBlock, number: int, lifts: FindsLifts) -> Iterator[NewPlannedSet]:
    own = lifts.get(LiftName(_clean(block.name), KEPT_AS[block.implement], block.each_side))
    of_lift = [*block.notes, IN_TURN] if block.joined else block.notes
    for place, group in enumerate(block.sets):
        planned = _planned(group, block, own.id, lifts, _extra(group, block), block=number)
        if place == 0:  # they belong to the lift: lines of their own before the words of its first set
            planned = replace(planned, words="\n".join((*of_lift, planned.words)))
        yield from _in_rows(planned)
    for way, other in enumerate(block.alternatives, 1):
        yield from _way(block, other, way, number, lifts)


def _way(block: LiftBlock, other: Alternative, way: int, number: int, lifts: FindsLifts) -> Iterator[NewPlannedSet]:
    """Plan what is done instead: sets of its own, or the block's with the same or twice the repetitions."""
    lift = lifts.get(LiftName(_clean(other.lift or block.name), KEPT_AS[other.implement], block.each_side))
    groups = other.sets if other.rule == "own" else block.sets
    for place, group in enumerate(groups):
        planned = replace(_planned(group, block, lift.id, lifts, _extra(group, block), block=number), way=way)
        if place == 0 and other.when:
            planned = replace(planned, words=f"{FOR_WHERE}{other.when}\n{planned.words}")
        if other.rule == "own" or isinstance(group, FindMax):  # a test is of so many repetitions with any implement
            yield from _in_rows(planned)
        else:
            yield from _in_rows(replace(planned, rule=other.rule, of_lift_id=None, load=None))


def _in_rows(planned: NewPlannedSet) -> Iterator[NewPlannedSet]:
    """Divide more sets than one row of the log holds."""
    left, words = planned.sets, planned.words
    if 0 < left <= MOST_PLANNED_SETS:  # nearly always
        yield planned
        return
    while left > 0:
        yield replace(planned, sets=min(left, MOST_PLANNED_SETS), words=words)
        left, words = left - MOST_PLANNED_SETS, words.rpartition("\n")[2]  # the lift's notes stand with its first set


def _planned(
    group: SetGroup | FindMax, lift: LiftBlock, lift_id: str, lifts: FindsLifts, words: Sequence[str], *, block: int
) -> NewPlannedSet:
    rest = group.rest_s or lift.rest_s
    said = "; ".join(word for word in words if word)[:MOST_WORDS]
    if isinstance(group, FindMax):
        return NewPlannedSet(
            lift_id,
            1,
            max(1, min(group.reps, MOST_PLANNED_REPS)),
            test=not group.heavy,
            rest_s=rest,
            block=block,
            words=said,
        )
    load = group.load
    of: Of | None = (load.of or lift.of) if isinstance(load, Percent) else None
    if of is not None and of.heavy:
        of = None  # of a set that is still to come: it stands in words
    of_lift = lifts.get(LiftName(_clean(of.lift), KEPT_AS[lift.implement])).id if of and of.lift else None
    reps = max(1, min(group.reps.total, MOST_PLANNED_REPS))
    high = min(group.reps.high, MOST_PLANNED_REPS) if group.reps.high else None
    fixed = load.low if isinstance(load, MassRange) else load if isinstance(load, Mass) else None
    return NewPlannedSet(
        lift_id, group.sets, reps,
        percent=_percent(load, of), of_reps=of.reps if of else None, of_lift_id=of_lift,
        load=fixed, reserve=_reserve(load, group.effort), rep_out=group.reps.out,
        high_reps=high if high and high > reps else None, rest_s=rest, tempo=(group.tempo or lift.tempo)[:MOST_TEMPO], block=block, words=said,
    )  # fmt: skip


def _percent(load: object, of: Of | None) -> Decimal | None:
    """The percentage of the rep-max itself: the lower end of a range, and of a training max its share of that."""
    if not isinstance(load, Percent) or of is None:
        return None
    return load.amount if of.percent is None else load.amount * of.percent / 100


def _reserve(*loads: object) -> Decimal | None:
    """Repetitions to be left: of a range of efforts the easier end."""
    for load in loads:
        if isinstance(load, Rpe):
            return left_at(load.value)
        if isinstance(load, InReserve):
            return load.high or load.reps
    return None


def _extra(group: SetGroup | FindMax, block: LiftBlock) -> list[str]:
    """Say what no column holds: parts of a complex, ranges, pairs, a rated effort, a time for a test, sides, a remark."""
    if isinstance(group, FindMax):
        heavy = "heavy for today, no test" if group.heavy else ""
        return [heavy, f"within {time_words(group.within_s)}" if group.within_s else "", group.note]
    load = group.load
    of = (load.of or block.of) if isinstance(load, Percent) else None
    parts = reps_words(group.reps) if len(group.reps.parts) != 1 or group.reps.total > MOST_PLANNED_REPS else ""
    at = pair_words(load) if isinstance(load, Pair) else range_words(load)
    if isinstance(load, Percent) and (of is None or of.percent is not None or of.heavy):
        at = load_words(load, of).removeprefix("at ")
    effort = next(
        (
            f"RPE {plain(each.value)}" + (f" to {plain(each.high)}" if each.high else "")
            for each in (load, group.effort)
            if isinstance(each, Rpe)
        ),
        "",
    )
    every = f"every {time_words(block.every_s)}" if block.every_s else ""
    return [parts, at, effort, every, "each side" if block.each_side else "", group.note]


def keep_pieces(act: Act, step_id: str, pieces: Sequence[Piece]) -> None:
    """Let pieces belong to a step; one that the log has word for word is not added again."""
    known = {repr(record_of(row.piece)): row.id for row in log_pieces.pieces_for(act.session, row_access.private_to())}
    for piece in pieces:
        key = repr(record_of(piece))
        if key not in known:
            known[key] = log_pieces.add_piece(act, piece)
        log_pieces.put_piece_into_step(act, step_id, known[key])
