"""Which session of a member's calendar is on: the same one for its sets, its piece, its rating and what comes after it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from tracker.desk.day.ceilings import ended
from tracker.desk.day.other_ways import is_complete
from tracker.desk.day.sore import left_out, read_state
from tracker.log import choices as log_choices
from tracker.log import day_marks
from tracker.log import pieces as log_pieces
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.day_marks import Mark
from tracker.log.pieces import PieceRow
from tracker.log.records import MemberStepRow, SessionRow, SetRow
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Reader

STILL_OPEN = timedelta(days=7)  # the piece of a session whose sets are done is still offered for so long; design choice


@dataclass(frozen=True, slots=True)
class OnToday:
    """The session that is on, what stands beside it, and what the day holds already."""

    step: MemberStepRow | None
    ahead: MemberStepRow | None  # the first planned one of today or later that is not on
    # Planned for days before, or then done but for a piece, and not on; the oldest first.
    missed: tuple[MemberStepRow, ...]
    pieces: tuple[PieceRow, ...]  # of the session that is on, in the coach's order
    open_pieces: tuple[PieceRow, ...]  # those that have no score of the day or of this session
    sets: tuple[SetRow, ...]  # all of the day
    scores: tuple[ScoreRow, ...]  # all of the day
    done: tuple[SetRow, ...]  # of the session that is on, those of days before too: it may have been left half done
    session: SessionRow | None  # in which it is logged; where none is on, the day's newest
    closed: bool  # somebody ended it with sets or a piece left: neither is asked for any more
    answered: bool  # somebody said how hard the session was, or that nobody will
    marks: tuple[Mark, ...]  # what was said of the session that is on


def on_today(session: Reader, member_id: str, day: date, wanted: str | None = None) -> OnToday:
    """Read which session is on.

    In this order: the one that is `wanted`, if it was begun today or is dated today and something of it is left; one begun
    today that has sets left; one begun today whose piece is open; one done today that nobody has rated; one dated today;
    one finished today; and only where there is none of these the oldest that was missed. What was begun and then moved to
    a later day is not on any more.
    """
    read = _Day(session, member_id, day)
    now = read.choose(wanted)
    beside = [step for step in read.steps if step.state == "planned" and step is not now]
    missed = {step.id: step for step in (*beside, *read.with_open_piece()) if step.due < day and step is not now}
    return OnToday(
        now,
        next((step for step in beside if step.due >= day), None),
        tuple(step for step in read.steps if step.id in missed),
        read.pieces(now) if now else (),
        read.open_pieces(now) if now else (),
        read.sets,
        read.scores,
        read.done(now) if now else (),
        read.session_of(now),
        read.closed(now) if now else False,
        read.answered(now) if now else False,
        tuple(mark for mark in read.marks if now and mark.step_id == now.id),
    )


class _Day:
    """All that is read of a day, each once."""

    def __init__(self, session: Reader, member_id: str, day: date) -> None:
        self.reader, self.member_id, self.day = session, member_id, day
        known = log_waves.member_steps(session, member_id)
        self.steps = tuple(step for step in known if not step.own or step.due >= day)  # one's own is of its day alone
        self.sore = read_state(session, member_id)
        self.sets = log_sets.sets_of(session, member_id, since=day, until=day)
        self.scores = log_scores.scores_of(session, member_id, since=day, until=day)
        self.sessions = log_sessions.sessions_on(session, member_id, day)[::-1]  # the newest first
        self.marks = day_marks.marks_on(session, member_id, day)
        self.choices = log_choices.choices(session, member_id)
        self._pieces: dict[str, tuple[PieceRow, ...]] = {}
        self._done: dict[str, tuple[SetRow, ...]] = {}

    def choose(self, wanted: str | None) -> MemberStepRow | None:
        begun = self._begun()
        due = [step for step in self.steps if step.state == "planned" and step.due <= self.day]
        dated = [step for step in due if step.due == self.day]
        going = [step for step in begun if step.state == "planned"]
        done = [step for step in begun if step.state == "done"]
        chosen = (step for step in (*begun, *dated) if step.id == wanted and not self._over(step))
        waiting = (step for step in done if self._piece_left(step))
        unrated = (step for step in done if not self.answered(step))
        return _first(chosen, going, waiting, unrated, dated, done, due)

    def pieces(self, step: MemberStepRow) -> tuple[PieceRow, ...]:
        if step.id not in self._pieces:
            self._pieces[step.id] = log_pieces.pieces_of_step(self.reader, step.step_id, self.member_id)
        return self._pieces[step.id]

    def open_pieces(self, step: MemberStepRow) -> tuple[PieceRow, ...]:
        pieces = self.pieces(step)
        left = open_pieces(pieces, self.scores)
        if not left:
            return ()
        return open_pieces(left, log_scores.scores_of_step(self.reader, self.member_id, step.id, self.day))

    def with_open_piece(self) -> list[MemberStepRow]:
        """List the sessions of the last days whose sets are done and of which a piece is neither scored nor given up.

        Whoever rated the session, or scored another piece in it, was through with it; and of one that was called done
        without its sets nothing is known.
        """
        done = [step for step in self.steps if step.state == "done" and self.day - STILL_OPEN <= step.due < self.day]
        wanted = [step for step in done if self.pieces(step)]
        if not wanted:
            return []
        since = min(step.due for step in wanted) - STILL_OPEN  # one that was moved may have been done before its day
        scores = log_scores.scores_of(self.reader, self.member_id, since=since, until=self.day)
        over = day_marks.given_up(self.reader, self.member_id)
        wanted = [step for step in wanted if step.id not in over and open_pieces(self.pieces(step), _of(scores, step))]
        return [
            step
            for step in wanted
            if not self._through(step, {score.session_id for score in scores if score.session_id})
        ]

    def _through(self, step: MemberStepRow, scored: set[str]) -> bool:
        sets = log_sets.sets_of_step(self.reader, self.member_id, step.id, self.day)
        held = {row.session_id for row in sets}
        sessions = [
            row
            for day in {row.day for row in sets}
            for row in log_sessions.sessions_on(self.reader, self.member_id, day)
        ]
        return not held or bool(held & scored) or any(row.rating is not None for row in sessions if row.id in held)

    def done(self, step: MemberStepRow) -> tuple[SetRow, ...]:
        if step.id not in self._done:
            self._done[step.id] = log_sets.sets_of_step(self.reader, self.member_id, step.id, self.day)
        return self._done[step.id]

    def session_of(self, step: MemberStepRow | None) -> SessionRow | None:
        """Return the day's session that holds what was done of a step; without a step, or before it began, the newest."""
        rows = (*self.sets, *self.scores)
        held = {row.session_id for row in rows if step and row.member_step_id == step.id}
        others = {row.session_id for row in rows if row.member_step_id and row.session_id not in held}
        mine = [row for row in self.sessions if row.id in held]
        free = [row for row in self.sessions if step is None or row.id not in others]
        return next(iter(mine or free), None)

    def closed(self, step: MemberStepRow) -> bool:
        """Whether a step was ended by hand with something left of it, and not gone on with."""
        if step.state != "done":
            return False
        rounds = {(row.planned_set_id, row.planned_round) for row in self.done(step)}
        spared = left_out(self.sore, (*step.sets, *step.ways), step.id)
        if not is_complete(step, rounds, spared | ended(self.choices, step.id)):
            return True
        said = (mark.said for mark in self.marks if mark.step_id == step.id and mark.said in ("begun", "ended"))
        return next(said, "") == "ended" and bool(self.open_pieces(step))

    def answered(self, step: MemberStepRow) -> bool:
        if any(mark.step_id == step.id and mark.said == "answered" for mark in self.marks):
            return True
        rows = (*self.sets, *self.scores)
        held = {row.session_id for row in rows if row.member_step_id == step.id}
        return any(row.rating is not None for row in self.sessions if row.id in held)

    def _begun(self) -> list[MemberStepRow]:
        """List the steps that something of the day belongs to, the one of the newest act first."""
        newest: dict[str | None, datetime] = {}
        acts = [(row.member_step_id, row.logged_at) for row in (*self.sets, *self.scores)]
        acts += [(mark.step_id, mark.at) for mark in self.marks if self._begins(mark)]
        for step_id, at in acts:
            newest[step_id] = max(at, newest.get(step_id, at))
        begun = (step for step in self.steps if step.id in newest and (step.due <= self.day or step.state == "done"))
        return sorted(begun, key=lambda step: newest[step.id], reverse=True)

    def _begins(self, mark: Mark) -> bool:
        """Whether what was said of a session makes it one of the day; to end one of which nothing was done is to leave it."""
        if mark.said != "ended":
            return mark.said not in ("answered", "let go", "no warm-up")
        step = next((step for step in self.steps if step.id == mark.step_id), None)
        return step is not None and (not step.sets or bool(self.done(step)))

    def _piece_left(self, step: MemberStepRow) -> bool:
        return bool(self.open_pieces(step)) and not self.closed(step)

    def _over(self, step: MemberStepRow) -> bool:
        """Whether nothing is left of a step: neither a set, nor its piece, nor how hard it was."""
        return step.state != "planned" and not self._piece_left(step) and self.answered(step)


def _first(*groups: Iterable[MemberStepRow]) -> MemberStepRow | None:
    """Return the first of all; a later group is looked at only where the earlier ones hold nothing."""
    return next((step for group in groups for step in group), None)


def _of(scores: Iterable[ScoreRow], step: MemberStepRow) -> list[ScoreRow]:
    """Return the scores that a session may have been done with: its own, and those of no session since its day."""
    return [
        row for row in scores
        if row.member_step_id == step.id or (row.member_step_id is None and row.score.day >= step.due)
    ]  # fmt: skip


def open_pieces(pieces: Iterable[PieceRow], scores: Iterable[ScoreRow]) -> tuple[PieceRow, ...]:
    """List the pieces without a score; one that was changed since is known by its title."""
    got = {row.score.piece.title.casefold() for row in scores}
    return tuple(row for row in pieces if row.piece.title.casefold() not in got)
