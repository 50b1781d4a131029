"""Conditioning pieces: which are on today, logging a score in the words of the gym, mending and removing it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

from tracker.conditioning.movements import options_for
from tracker.conditioning.pieces import Piece, Side
from tracker.conditioning.scores import Score, Swap
from tracker.conditioning.sides import for_side
from tracker.conditioning.words import parse_score, score_words
from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day.on_today import on_today, open_pieces
from tracker.desk.people.people import check_day, clean_name
from tracker.desk.pieces.piece_care import watch
from tracker.desk.pieces.piece_entry import Said, as_said, option_in_words, piece_in_words, splits_text, splits_that_fit
from tracker.desk.pieces.piece_side import SideUnknownError
from tracker.errors import BadInputError
from tracker.limits import MOST_NOTE
from tracker.log import clocks as log_clocks
from tracker.log import members as log_members
from tracker.log import pieces as log_pieces
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import waves as log_waves
from tracker.log.faults import ThereAlreadyError
from tracker.log.pieces import PieceRow
from tracker.log.records import MemberRecord, MemberStepRow
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Act, Log
from tracker.safety import WATCH_DAYS, Caution
from tracker.units import check_load


@dataclass(frozen=True, slots=True)
class PieceDay:
    """A member's day of conditioning: the pieces of the wave's step, all others, and what is logged already."""

    member: MemberRecord
    day: date
    step: MemberStepRow | None
    planned: tuple[PieceRow, ...]
    others: tuple[PieceRow, ...]  # the most lately done first
    scores: tuple[ScoreRow, ...]
    watch: tuple[Caution, ...]  # what to look out for after a piece of the last days
    rated: bool = False  # whether the day's session is rated

    @property
    def pieces(self) -> tuple[PieceRow, ...]:
        return self.planned + self.others

    @property
    def open_pieces(self) -> tuple[PieceRow, ...]:
        """Those of the session that have no score of the day."""
        return open_pieces(self.planned, self.scores)


@may("see")
def pieces(log: Log, member_id: str | None = None) -> tuple[PieceRow, ...]:
    """List the pieces that are given out, by title."""
    with log.reading() as session:
        return log_pieces.pieces(session, member_id)


@may("see")
@cached_until_write
def piece_day(log: Log, member_id: str, day: date, *, member_step_id: str | None = None) -> PieceDay:
    """Read a member's day of conditioning; of the session that is on, or of the one that was chosen: see `on_today`.

    Raises:
        BadInputError: if there is no such member.
    """
    with log.reading() as session:
        member = log_members.member(session, member_id)
        if member is None:
            raise BadInputError("This member is not in the log.", where="member", mend="Choose one from the list.")
        known = log_pieces.pieces(session, member_id)
        scores = log_scores.scores_of(session, member_id, since=day - timedelta(days=WATCH_DAYS), until=day)
        newest = log_scores.newest_days(session, member_id, day)
        on = on_today(session, member_id, day, member_step_id)
        sessions = log_sessions.sessions_on(session, member_id, day)
    planned = on.pieces
    titles = {row.piece.title.casefold(): row for row in reversed(known)}  # of one title the newest is offered
    others = [row for title, row in titles.items() if title not in {each.piece.title.casefold() for each in planned}]
    others.sort(key=lambda row: row.piece.title)
    others.sort(key=lambda row: newest.get(row.piece.title.casefold(), date.min), reverse=True)
    rated = any(row.rating is not None for row in sessions)
    return PieceDay(member, day, on.step, planned, tuple(others), on.scores, watch(log, member, scores, day), rated)


@may("common")
def add_piece(log: Log, piece: Piece, member_id: str | None = None) -> PieceRow:
    """Add a piece. One of the same title may be there: their results are shown together, marked where they differ."""
    clean_name(piece.title, "piece")
    with log.act(f"added the piece {piece.title}", member_id) as act:
        piece_id = log_pieces.add_piece(act, piece)
    return PieceRow(piece_id, piece)


@may("common")
def add_piece_in_words(log: Log, text: str, member_id: str | None = None) -> PieceRow:
    """Add a piece as a coach writes it: see `piece_in_words`."""
    return add_piece(log, piece_in_words(text), member_id)


@may("common")
def add_option(log: Log, piece_id: str, task: int, text: str, member_id: str | None = None) -> None:
    """Give a movement of a piece one more option, for everybody; what was scored before stays as it is.

    Args:
        log: The log.
        piece_id: The piece, which may have been given out already.
        task: Which of its movements, counted from 0.
        text: The option as it would stand below the movement on a sheet, with or without "or".
        member_id: In whose history it stands.

    Raises:
        BadInputError: if there is no such movement, or the text is no movement.
    """
    row = _piece(log, piece_id)
    if not 0 <= task < len(row.piece.tasks):
        raise BadInputError("The piece has no such movement.", where="option", mend="Choose one of its movements.")
    option = option_in_words(row.piece.tasks[task], text)
    with log.act(f"gave {row.piece.title} an option: {option.movement}", member_id) as act:
        log_pieces.add_option(act, piece_id, task, option)


@may("common")
def remove_piece(log: Log, piece_id: str, member_id: str | None = None) -> None:
    """Stop offering a piece; its scores stay."""
    row = _piece(log, piece_id)
    with log.act(f"put the piece {row.piece.title} away", member_id) as act:
        log_pieces.remove_piece(act, piece_id)


@may("change")
def log_score(
    log: Log,
    member_id: str,
    piece_id: str,
    day: date,
    said: Said,
    *,
    token: str | None = None,
    clock_id: str | None = None,
    member_step_id: str | None = None,
    side: Side | None = None,
) -> ScoreRow:
    """Log a score; when this returns, it is on the disk. The clock that it comes from is stopped.

    A piece with pairs is scored on the side of the member, or on `side` if that is given.

    Raises:
        SideUnknownError: if nobody has said yet which of two numbers is the member's.
        BadInputError: if the words can't be read, can't be, or could mean two things; nothing is written then.
    """
    check_day(day)
    row, member = _piece(log, piece_id, member_id), _member(log, member_id)
    piece = for_side(row.written, side) if side else row.piece
    if piece.paired:
        raise SideUnknownError(piece)
    with log.reading() as session:
        if token and (known := log_scores.score_with_token(session, token)):
            return known
    score = _read(piece, day, _as_tapped(log, piece, day, said, member, clock_id), member)
    try:
        with log.act(f"logged {row.piece.title}: {score_words(score)}", member_id, own=True) as act:
            score_id = log_scores.add_score(
                act, member_id, piece_id, score,
                token=token, clock_id=clock_id, member_step_id=member_step_id, place_id=member.place_id,
            )  # fmt: skip
            _remember(act, row, score, member_id)
            _close(act, member_id, clock_id, member_step_id)
    except ThereAlreadyError:  # the same tap came twice at once: the other one won
        with log.reading() as session:
            known = log_scores.score_with_token(session, token) if token else None
        if known is None:
            raise
        return known
    return _score(log, score_id)


def _as_tapped(log: Log, piece: Piece, day: date, said: Said, member: MemberRecord, clock_id: str | None) -> Said:
    """Leave out taps that don't fit the score, where nobody changed by hand what the clock says of the rounds."""
    if not said.splits or clock_id is None:
        return said
    with log.reading() as session:
        row = log_clocks.clock(session, clock_id)
    if row is None or said.splits != splits_text(piece, row.clock):
        return said
    return replace(said, splits=splits_that_fit(row.clock, _read(piece, day, replace(said, splits=""), member)))


def _remember(act: Act, row: PieceRow, score: Score, member_id: str) -> None:
    """Keep a movement that nobody had offered as the member's own alternative, so that it is one touch the next time."""
    for swap in score.swaps:
        asked = row.piece.tasks[swap.index]
        known = {asked.movement.casefold(), *(option.name.casefold() for option in options_for(asked))}
        if swap.task.movement.casefold() not in known:
            log_pieces.add_option(act, row.id, swap.index, swap.task, member_id)


def _close(act: Act, member_id: str, clock_id: str | None, member_step_id: str | None) -> None:
    """Stop the clock, and call a step done that asks for nothing but its piece."""
    clock = log_clocks.clock(act.session, clock_id) if clock_id else None
    if clock and clock.clock.stopped is None:
        log_clocks.put_clock(act, clock.id, clock.clock.stop(log_clocks.moment()))
    steps = log_waves.member_steps(act.session, member_id) if member_step_id else ()
    step = next((each for each in steps if each.id == member_step_id), None)
    if step and not step.sets:
        log_waves.set_state(act, step.id, "done")


@may("change")
def mend_score(log: Log, score_id: str, said: Said, day: date | None = None) -> ScoreRow:
    """Give a score another result or day; the former one stays in the history."""
    row = _score(log, score_id)
    when = check_day(day or row.score.day)
    same = said.swaps == as_said(row.score).swaps  # what was swapped stays, whatever became of the options since
    of = _piece(log, row.piece_id, row.member_id)
    side = row.score.piece.side  # what was done stays done on that side
    piece = for_side(of.written, side) if side else of.piece
    score = _read(piece, when, said, _member(log, row.member_id), row.score.swaps if same else None)
    with log.act(f"edited {score.piece.title}: {score_words(row.score)}", row.member_id, own=True) as act:
        log_scores.change_score(act, score_id, score)
    return _score(log, score_id)


@may("change")
def remove_score(log: Log, score_id: str) -> None:
    """Remove a score; it can be taken back."""
    row = _score(log, score_id)
    with log.act(f"removed {row.score.piece.title}: {score_words(row.score)}", row.member_id, own=True) as act:
        log_scores.remove_score(act, score_id)


def _piece(log: Log, piece_id: str, member_id: str | None = None) -> PieceRow:
    with log.reading() as session:
        found = log_pieces.piece(session, piece_id, member_id)
    if found is None:
        raise BadInputError("This piece is not in the log any more.", where="piece", mend="Choose one from the list.")
    return found


def _member(log: Log, member_id: str) -> MemberRecord:
    with log.reading() as session:
        found = log_members.member(session, member_id)
    if found is None:
        raise BadInputError("This member is not in the log.", where="member", mend="Choose one from the list.")
    return found


def _score(log: Log, score_id: str) -> ScoreRow:
    with log.reading() as session:
        found = log_scores.one_score(session, score_id)
    if found is None or found.removed_at:
        raise BadInputError("This score is not in the log any more.", where="score", mend="Reload the page.")
    return found


def _read(piece: Piece, day: date, said: Said, member: MemberRecord, swaps: tuple[Swap, ...] | None = None) -> Score:
    if len(said.note) > MOST_NOTE:
        raise BadInputError("The note is too long.", where="note", mend=f"Use at most {MOST_NOTE:,} letters.")
    score = parse_score(
        piece, day, said.text, swaps=said.swaps if swaps is None else swaps, splits=said.splits,
        tie_break=said.tie_break, note=said.note.strip(), partner=clean_name(said.partner, "partner") if said.partner.strip() else "",
        unit=member.unit,
    )  # fmt: skip
    if score.load is not None:
        check_load(score.load, where=piece.title)
    return score
