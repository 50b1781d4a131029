"""The clock of a piece: its start, taps and stop go into the log at once, so that a locked phone or a reload loses nothing."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

from tracker.conditioning.clock import COUNT_IN_S, Clock, clock_for
from tracker.conditioning.times import parse_time, time_words
from tracker.desk.base.roles import may
from tracker.errors import BadInputError
from tracker.log import clocks as log_clocks
from tracker.log import pieces as log_pieces
from tracker.log.clocks import ClockRow, moment
from tracker.log.unit_of_work import Log

OPEN_HOURS = 12  # a clock whose result nobody entered is offered for so long


@may("see")
def open_clock(log: Log, member_id: str) -> ClockRow | None:
    """Return the member's clock that runs, or whose result is still to be entered."""
    with log.reading() as session:
        return log_clocks.newest_clock(session, member_id, datetime.now(UTC) - timedelta(hours=OPEN_HOURS))


@may("change")
def start_clock(
    log: Log, member_id: str, piece_id: str, day: date, *, count_in_s: int = COUNT_IN_S, at: float | None = None
) -> ClockRow:
    """Start the clock of a piece with its count-in; one of this piece that runs already is left as it is.

    Raises:
        BadInputError: if there is no such piece, or another one's clock runs.
    """
    now = moment() if at is None else at
    with log.act("started the clock", member_id, own=True) as act:
        row = log_pieces.piece(act.session, piece_id)
        if row is None:
            raise BadInputError(
                "This piece is not in the log any more.", where="piece", mend="Choose one from the list."
            )
        running = log_clocks.newest_clock(
            act.session, member_id, datetime.fromtimestamp(now, UTC) - timedelta(hours=OPEN_HOURS)
        )
        if running and running.clock.reading(now).phase != "over":
            if running.piece_id == piece_id:
                return running
            raise BadInputError(
                "The clock of another piece runs.", where="clock", mend="Stop it, or put it away, first."
            )
        act.words = f"started the clock of {row.piece.title}"
        clock_id = log_clocks.add_clock(act, member_id, piece_id, day, clock_for(row.piece, count_in_s).start(now))
    return _clock(log, clock_id)


@may("change")
def tap_round(log: Log, clock_id: str, *, at: float | None = None) -> ClockRow:
    """Note that a round, or an interval that is timed by itself, is finished now; a tap after the last one is none."""
    now = moment() if at is None else at
    with log.reading() as session:
        row = log_pieces.piece(session, _clock(log, clock_id).piece_id)
    most = row.piece.ends_to_tap if row else None
    what = "interval" if row and row.piece.timed_intervals else "round"
    return _changed(
        log,
        clock_id,
        lambda clock: clock if most is not None and len(clock.taps) >= most else clock.tap(now),
        lambda clock: f"tapped {what} {len(clock.taps)} at {time_words(clock.splits_s[-1])}",
    )


@may("change")
def untap_round(log: Log, clock_id: str) -> ClockRow:
    """Take the last tap back."""
    return _changed(log, clock_id, Clock.untap, lambda _: "took a tap back")


@may("change")
def started_late(log: Log, clock_id: str, by: str) -> ClockRow:
    """Let a clock have begun earlier, where it was started after the piece had: by a time in words, such as `2:44`.

    Raises:
        BadInputError: if that is no time, or no clock can have been so late.
    """
    seconds = parse_time(f"{by.strip()} min" if by.strip().isdigit() else by, where="started late by")
    return _changed(
        log, clock_id, lambda clock: clock.began_earlier(seconds), lambda _: f"started {time_words(seconds)} late"
    )


@may("change")
def stop_clock(log: Log, clock_id: str, *, at: float | None = None) -> ClockRow:
    """Stop the clock now; one that ended by itself keeps its end."""
    now = moment() if at is None else at
    return _changed(
        log,
        clock_id,
        lambda clock: clock.stop(now),
        lambda clock: f"stopped the clock at {time_words(round(clock.reading(now).elapsed_s))}",
    )


@may("change")
def go_on(log: Log, clock_id: str) -> ClockRow:
    """Take a stop back that nobody meant: the clock counts as if it had never stopped."""
    return _changed(log, clock_id, lambda clock: clock.go_on(), lambda _: "let the clock go on")


@may("change")
def put_clock_away(log: Log, clock_id: str) -> None:
    """Put a clock away without a result."""
    row = _clock(log, clock_id)
    with log.act("put the clock away", row.member_id, own=True) as act:
        log_clocks.remove_clock(act, clock_id)


def _changed(log: Log, clock_id: str, change: Callable[[Clock], Clock], words: Callable[[Clock], str]) -> ClockRow:
    """Change a clock as it stands in the log now, not as a page saw it: two phones may tap the same one."""
    before = _clock(log, clock_id)
    with log.act("clock", before.member_id, own=True) as act:
        row = log_clocks.clock(act.session, clock_id) or before
        after = change(row.clock)
        if after != row.clock:
            act.words = words(after)
            log_clocks.put_clock(act, clock_id, after)
    return _clock(log, clock_id)


def _clock(log: Log, clock_id: str) -> ClockRow:
    with log.reading() as session:
        found = log_clocks.clock(session, clock_id)
    if found is None:
        raise BadInputError("This clock was put away.", where="clock", mend="Start it again.")
    return found
