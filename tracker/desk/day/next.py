"""What is next for a member on a day: the one answer of every page and of the command line.

Which session is on says `on_today`. Within it the prescribed sets come first, one lift after the other as the coach wrote
them, then its pieces in the coach's order, then how hard it was; a log keeps no order between lifts and pieces, so a piece
that was written above a lift stands beside the sets, to be done whenever the member likes. Warm-up, ramp and rest stand
beside and hold nothing up. After the rating the next session of the day is on; where there is none, nothing is next.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby
from typing import Literal

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day.line_words import asked, which
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.pieces_here import PieceHere, piece_here
from tracker.desk.day.today import DayPlan, day_plan
from tracker.desk.day.warm_up import WarmUp, warm_up_of
from tracker.desk.maxes.words import day_words, first_up
from tracker.log.pieces import PieceRow
from tracker.log.records import MemberStepRow
from tracker.log.unit_of_work import Log
from tracker.prescription.ramp import RampSet
from tracker.wording import counted

Kind = Literal["set", "piece", "rating", "nothing"]
NOTHING_PLANNED = "No session is planned. Log what you do here; a coach's session can be read in on the page Sheet."


@dataclass(frozen=True, slots=True)
class Planned:
    """One session of the calendar: the one that is on, one that is planned, or one that was missed."""

    step_id: str
    title: str
    due: date
    words: str  # its title and its day, as one says it

    @classmethod
    def of(cls, step: MemberStepRow, day: date, begun: str = "") -> Planned:
        said = (first_up(step.title), day_words(step.due, day), from_words(step, day), begun)
        return cls(step.id, step.title, step.due, ", ".join(each for each in said if each))


@dataclass(frozen=True, slots=True)
class Coming:
    """What is still to come of the session behind what is next."""

    kind: Kind
    title: str
    words: str


@dataclass(frozen=True, slots=True)
class Next:
    """What is next, and what stands beside it; `title` is the lift's, the piece's, or the session's that is to be rated."""

    kind: Kind
    title: str
    words: str  # what it asks, in one line; of nothing why
    plan: DayPlan
    session: Planned | None  # the one that is on, or was the last to be
    line: PlannedLine | None  # the set; None where it is no set
    which: str  # "set 2 of 5"; empty where it is no set
    piece: PieceHere | None  # the piece; None where it is none
    warm_up: WarmUp | None  # of the session, ticked off or not
    ramp: tuple[RampSet, ...]  # up to the set
    rest_s: int | None  # after the newest set: the member's own, the coach's or the usual one
    rest_ends: datetime | None
    pieces: tuple[PieceHere, ...]  # all of the session, done or not
    then: tuple[Coming, ...]
    planned: Planned | None  # the next session of this day or later
    missed: tuple[Planned, ...]  # the oldest first
    to_end: bool = False  # a session of nothing but words, which the member calls done

    @property
    def member_id(self) -> str:
        return self.plan.member.id

    @property
    def day(self) -> date:
        return self.plan.day


@may("see")
@cached_until_write
def whats_next(
    log: Log,
    member_id: str,
    day: date,
    *,
    prefer: Mapping[str, str] | None = None,
    member_step_id: str | None = None,
    first: str = "",
) -> Next:
    """Say what is next for a member on a day.

    Args:
        log: The log.
        member_id: Whose day.
        day: Which day.
        prefer: As for `day_plan`.
        member_step_id: The session that somebody chose, where it can be on.
        first: The key of the set that somebody takes first, where it is not done.

    Raises:
        BadInputError: if there is no such member.
    """
    plan = day_plan(log, member_id, day, prefer=prefer, member_step_id=member_step_id)
    pieces = tuple(piece_here(row, plan) for row in plan.pieces)
    line = _line(plan, first)
    piece = None if line or plan.closed else next((each for each in pieces if not each.done), None)
    kind = _kind(plan, line, piece)
    rest = plan.rest
    return Next(
        kind,
        line.lift.title
        if line
        else piece.title
        if piece
        else plan.step.title
        if plan.step and kind == "rating"
        else "",
        _words(kind, plan, line, piece),
        plan,
        Planned.of(plan.step, day) if plan.step else None,
        line,
        which(line, plan.lines) if line else "",
        piece,
        warm_up_of(plan),
        plan.ramp if line is not None else (),
        rest.seconds if rest else None,
        rest.ends if rest else None,
        pieces,
        tuple(_then(plan, kind, line, piece, pieces)),
        Planned.of(plan.ahead, day) if plan.ahead else None,
        tuple(Planned.of(step, day, plan.unfinished.get(step.id, "")) for step in plan.missed),
        _only_words(plan) and plan.step is not None and plan.step.state == "planned",
    )


def from_words(step: MemberStepRow, day: date) -> str:
    """Say from which day a session was moved, or that only its piece is left of it; empty where neither is so."""
    if step.state == "done" and step.due < day:
        return "its piece is still open"
    return f"moved from {day_words(step.planned_due, day)}" if step.planned_due != step.due else ""


def over_words(plan: DayPlan) -> str:
    """Say of the session that is on how it came to its end: ended by hand, or all of it done."""
    title = first_up(plan.step.title) if plan.step else ""
    if not plan.closed:
        left = _left_out(line for line in plan.lines if line.stopped and line.done is None)
        return f"All of {title} is done{f', but for {left}' if left else ''}."
    left = _left_out((line for line in plan.lines if line.done is None), plan.open_pieces)
    return f"{title} is ended with what was done{f'; left out: {left}' if left else ''}."


def _left_out(lines: Iterable[PlannedLine], pieces: Iterable[PieceRow] = ()) -> str:
    """Name what is not done: "2 sets of back squat, Lantern ladder"."""
    sets = Counter(line.lift.name for line in lines)
    return ", ".join(
        (*(f"{counted(n, 'set')} of {name}" for name, n in sets.items()), *(row.piece.title for row in pieces))
    )


def _line(plan: DayPlan, first: str) -> PlannedLine | None:
    left = [] if plan.closed else [line for line in plan.lines if line.open]
    return next((line for line in left if line.key == first), left[0] if left else None)


def _kind(plan: DayPlan, line: PlannedLine | None, piece: PieceHere | None) -> Kind:
    if line is not None:
        return "set"
    if piece is not None:
        return "piece"
    over = plan.step is not None and not (_only_words(plan) and plan.step.state == "planned")
    return "rating" if over and not plan.answered else "nothing"


def _only_words(plan: DayPlan) -> bool:
    return plan.step is not None and not plan.lines and not plan.pieces


def _words(kind: Kind, plan: DayPlan, line: PlannedLine | None, piece: PieceHere | None) -> str:
    if line is not None:
        return first_up(asked(line))
    if piece is not None:
        return piece.words
    title = first_up(plan.step.title) if plan.step else ""
    if kind == "rating":
        return f"How hard was {title}, 0 to 10?"
    if plan.step is None:
        return NOTHING_PLANNED if plan.ahead is None and not plan.missed else "Nothing is planned for this day."
    if _only_words(plan) and plan.step.state == "planned":
        return f"{title} is your coach's words alone: say when it is done."
    return over_words(plan)


def _then(
    plan: DayPlan, kind: Kind, line: PlannedLine | None, piece: PieceHere | None, pieces: tuple[PieceHere, ...]
) -> Iterator[Coming]:
    """List what is left of the session behind what is next: equal sets once, the pieces, and how hard it was."""
    if kind == "nothing" or plan.closed:
        return
    left = [each for each in plan.lines if each.open and each is not line]
    for _, group in groupby(left, key=lambda each: each.planned.id):
        same = list(group)
        times = f"{counted(len(same), 'set')} of " if len(same) > 1 else ""
        yield Coming("set", same[0].lift.title, f"{times}{asked(same[0])}")
    for each in pieces:
        if not each.done and each is not piece:
            yield Coming("piece", each.title, each.words)
    if kind != "rating" and not plan.answered:
        yield Coming("rating", plan.step.title if plan.step else "", "how hard it was")
