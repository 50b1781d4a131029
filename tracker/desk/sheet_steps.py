"""A sheet's sessions as the steps of a wave: lifts found or added, sets planned, other ways beside them, pieces kept."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from tracker.conditioning.piece_record import record_of, usable_piece
from tracker.conditioning.pieces import Piece as ScoredPiece
from tracker.desk.people import clean_name, facts_of
from tracker.errors import BadInputError
from tracker.log import members as log_members
from tracker.log import pieces as log_pieces
from tracker.log import walls
from tracker.log.keeper import Act
from tracker.log.records import LiftRecord
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.prescription.sheet import Problem, SheetErrors
from tracker.prescription.sheet.model import (
    Alternative,
    FindMax,
    Implement,
    InReserve,
    LiftBlock,
    Of,
    Percent,
    Rpe,
    Session,
    SetGroup,
    Sheet,
    Text,
)
from tracker.prescription.sheet.piece import Piece, clock, piece_record
from tracker.prescription.sheet.words import reps_words
from tracker.units import Mass, plain  # fmt: skip

MOST_RPE = Decimal(10)  # RPE 10 leaves none, RPE 8 leaves two; common practice
MOST_WORDS = 500


@dataclass(frozen=True, slots=True)
class LiftName:
    """A lift as a sheet names it."""

    name: str
    implement: Implement
    each_side: bool = False


def lifts_named(sheet: Sheet) -> tuple[LiftName, ...]:
    """List the lifts that a sheet prescribes or refers to, in their order, each once."""
    found: dict[LiftName, None] = {}
    for session in sheet.sessions:
        for block in session.items:
            if isinstance(block, LiftBlock):
                found |= dict.fromkeys(_lifts_of(block))
    return tuple(found)


def _lifts_of(block: LiftBlock) -> Iterator[LiftName]:
    yield LiftName(_clean(block.name), block.implement, block.each_side)
    for of in (
        block.of,
        *(each.load.of for each in block.sets if isinstance(each, SetGroup) and isinstance(each.load, Percent)),
    ):
        if of is not None and of.lift:
            yield LiftName(_clean(of.lift), block.implement)
    for other in block.alternatives:
        yield LiftName(_clean(other.lift or block.name), other.implement, block.each_side)


def _clean(name: str) -> str:
    return clean_name(name, "lift").lower()


def scored_pieces(sheet: Sheet) -> tuple[tuple[ScoredPiece, ...], ...]:
    """Turn the pieces of each session into those that can be scored.

    Raises:
        SheetErrors: if a piece can't be scored as it is written.
    """
    problems: list[Problem] = []
    found: list[tuple[ScoredPiece, ...]] = []
    for session in sheet.sessions:
        made: list[ScoredPiece] = []
        for item in session.items:
            if isinstance(item, Piece):
                try:
                    made.append(usable_piece(piece_record(item)))
                    clean_name(made[-1].title, "piece")
                except BadInputError as err:
                    problems.append(Problem(item.line, 1, err.what, err.mend.rstrip(".") or "another piece", ""))
        found.append(tuple(made))
    if problems:
        raise SheetErrors(problems)
    return tuple(found)


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


def new_step(sheet: Sheet, session: Session, day_offset: int, lifts: Lifts) -> NewStep:
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
    heads = {"warm-up": "Warm-up: ", "cool-down": "Cool-down: ", "note": ""}
    return "\n".join(heads[text.kind] + "\n".join(text.lines) for text in texts)


def _sets(block: LiftBlock, number: int, lifts: Lifts) -> Iterator[NewPlannedSet]:
    own = lifts.get(LiftName(_clean(block.name), block.implement, block.each_side))
    of_lift = [*block.notes, "in turn with the lift above"] if block.joined else block.notes
    for place, group in enumerate(block.sets):
        planned = _planned(group, block, own.id, lifts, _extra(group, block), block=number)
        if place == 0:  # they belong to the lift: lines of their own before the words of its first set
            planned = replace(planned, words="\n".join((*of_lift, planned.words)))
        yield planned
    for way, other in enumerate(block.alternatives, 1):
        yield from _way(block, other, way, number, lifts)


def _way(block: LiftBlock, other: Alternative, way: int, number: int, lifts: Lifts) -> Iterator[NewPlannedSet]:
    """Plan what is done instead: sets of its own, or the block's with the same or twice the repetitions."""
    lift = lifts.get(LiftName(_clean(other.lift or block.name), other.implement, block.each_side))
    groups = other.sets if other.rule == "own" else block.sets
    for group in groups:
        planned = replace(_planned(group, block, lift.id, lifts, _extra(group, block), block=number), way=way)
        if other.rule == "own" or isinstance(group, FindMax):  # a test is of so many repetitions with any implement
            yield planned
        else:
            yield replace(planned, rule=other.rule, of_lift_id=None, load=None)


def _planned(
    group: SetGroup | FindMax, lift: LiftBlock, lift_id: str, lifts: Lifts, words: Sequence[str], *, block: int
) -> NewPlannedSet:
    rest = group.rest_s or lift.rest_s
    said = "; ".join(word for word in words if word)[:MOST_WORDS]
    if isinstance(group, FindMax):
        return NewPlannedSet(lift_id, 1, group.reps, test=True, rest_s=rest, block=block, words=said)
    load = group.load
    of: Of | None = (load.of or lift.of) if isinstance(load, Percent) else None
    of_lift = lifts.get(LiftName(_clean(of.lift), lift.implement)).id if of and of.lift else None
    return NewPlannedSet(
        lift_id, group.sets, group.reps.total,
        percent=load.amount if isinstance(load, Percent) else None, of_reps=of.reps if of else None, of_lift_id=of_lift,
        load=load if isinstance(load, Mass) else None, reserve=_reserve(load), rep_out=group.reps.out,
        high_reps=group.reps.high, rest_s=rest, tempo=group.tempo or lift.tempo, block=block, words=said,
    )  # fmt: skip


def _reserve(load: object) -> Decimal | None:
    if isinstance(load, Rpe):
        return MOST_RPE - load.value
    return load.reps if isinstance(load, InReserve) else None


def _extra(group: SetGroup | FindMax, block: LiftBlock) -> list[str]:
    """Say what no column holds: parts of a complex, a rated effort, a time for a test, sides, a remark."""
    if isinstance(group, FindMax):
        return [f"within {clock(group.within_s)}" if group.within_s else "", group.note]
    parts = reps_words(group.reps) if len(group.reps.parts) > 1 else ""
    effort = f"RPE {plain(group.load.value)}" if isinstance(group.load, Rpe) else ""
    return [parts, effort, "each side" if block.each_side else "", group.note]


def keep_pieces(act: Act, step_id: str, pieces: Sequence[ScoredPiece]) -> None:
    """Let pieces belong to a step; one that the log has word for word is not added again."""
    known = {repr(record_of(row.piece)): row.id for row in log_pieces.pieces_for(act.session, walls.private_to())}
    for piece in pieces:
        key = repr(record_of(piece))
        if key not in known:
            known[key] = log_pieces.add_piece(act, piece)
        log_pieces.put_piece_into_step(act, step_id, known[key])
