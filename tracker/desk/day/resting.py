"""Rest after a set: the member's own for that lift, else the coach's, else the usual one; and how they want to be told.

A member's own rest holds for the lift and for what the coach gives: whoever rests 1:30 after the squats for which nobody
gave a rest gets the coach's three minutes again where the coach gives them.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Literal

from tracker.desk.base.roles import may
from tracker.desk.day.in_turn import goes_on_at_once
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.minutes import IN_ONE_GO
from tracker.desk.day.on_clock import clock_of, rest_left
from tracker.errors import BadInputError
from tracker.log import by_hand
from tracker.log.by_hand import Entry
from tracker.log.choices import Choice
from tracker.log.records import SetRow
from tracker.log.unit_of_work import REST, Log
from tracker.prescription.rest import LEAST, MOST, usual_rest
from tracker.wording import counted

IN_A_ROW = 4  # sets; fewer may be those of a superset, touched at its end; design choice
Source = Literal["own", "coach", "usual", "clock"]


@dataclass(frozen=True, slots=True)
class RestWays:
    """How a member is told that a rest is over, and how long they rest: by lift and the coach's seconds, 0 for none."""

    sound: bool = True
    vibration: bool = True
    own: tuple[tuple[str, int, int], ...] = ()  # lift, the coach's seconds, the member's own seconds

    def own_rest(self, lift_id: str, prescribed: int) -> int | None:
        return next((mine for lift, of, mine in self.own if (lift, of) == (lift_id, prescribed)), None)


@dataclass(frozen=True, slots=True)
class Rest:
    """The rest after the newest set of a day."""

    lift_id: str
    lift: str
    seconds: int
    source: Source
    prescribed: int  # the coach's seconds; 0 where none were given
    ends: datetime
    words: str  # where the length comes from


def ways_of(entries: Sequence[Entry]) -> RestWays:
    """Put together what a member said of their rests, the oldest first."""
    sound, vibration = True, True
    own: dict[tuple[str, int], int] = {}
    for entry in entries:
        if entry.kind != REST:
            continue
        sound = bool(entry.said.get("sound", sound))
        vibration = bool(entry.said.get("vibration", vibration))
        if lift_id := entry.said.get("lift"):
            key = (str(lift_id), int(entry.said.get("of", 0)))
            own.pop(key, None)
            if seconds := entry.said.get("seconds"):
                own[key] = int(seconds)
    return RestWays(sound, vibration, tuple((lift, of, seconds) for (lift, of), seconds in own.items()))


def rest_after(
    sets: Sequence[SetRow],
    lines: Sequence[PlannedLine],
    ways: RestWays,
    *,
    hurting: Collection[str] = (),
    choices: Sequence[Choice] = (),
) -> Rest | None:
    """Return the rest after the newest set of a day; None before the first, and where its lift is one of those that hurt.

    Between sets on a clock it is what the clock leaves of the interval; of lifts that are done in turn it comes after the last of a round.

    Nobody is called back to the bar by a countdown after they said that it hurts. Nor does anybody rest who writes down from
    memory: several sets in a row, each touched within half a minute of the one before.
    """
    last = max(sets, key=lambda row: row.logged_at, default=None)
    if last is None or last.lift.id in hurting or _from_memory(sets):
        return None
    line = next((each for each in lines if each.done and each.done.id == last.id), None)
    if line is not None and goes_on_at_once(line, lines):
        return None
    prescribed = (line.planned.rest_s if line else None) or 0
    clock = clock_of(line, lines, choices, last.day) if line else None
    if line and clock and any(each.open and clock_of(each, lines, (), last.day) for each in _same(line, lines)):
        seconds, words = rest_left(clock, line.reps, last.logged_at)
        ends = last.logged_at + timedelta(seconds=seconds)
        return Rest(last.lift.id, last.lift.title, seconds, "clock", prescribed, ends, words)
    usual = usual_rest(last.kind, line.reps if line else last.reps)
    mine = ways.own_rest(last.lift.id, prescribed)
    seconds, source, words = usual.seconds, "usual", f"usual after {usual.after}"
    if mine is not None:
        seconds, source, words = mine, "own", f"your own for {last.lift.name}"
    elif prescribed:
        seconds, source, words = prescribed, "coach", "as your coach asks"
    ends = last.logged_at + timedelta(seconds=seconds)
    return Rest(last.lift.id, last.lift.title, seconds, source, prescribed, ends, words)  # type: ignore[arg-type]


def _same(line: PlannedLine, lines: Sequence[PlannedLine]) -> list[PlannedLine]:
    return [each for each in lines if each.lift.id == line.lift.id]


def _from_memory(sets: Sequence[SetRow]) -> bool:
    newest = sorted((row.logged_at for row in sets), reverse=True)[:IN_A_ROW]
    return len(newest) == IN_A_ROW and all(after - before < IN_ONE_GO for after, before in pairwise(newest))


@may("see")
def ways(log: Log, member_id: str) -> RestWays:
    """Return how a member is told that a rest is over, and how long they rest."""
    with log.reading() as session:
        return ways_of(by_hand.said(session, member_id, [REST]))


@may("change")
def rest_for(log: Log, member_id: str, lift_id: str, seconds: int | None, *, prescribed: int = 0) -> None:
    """Rest so long after sets of a lift from now on; None goes back to the coach's rest or the usual one.

    Raises:
        BadInputError: if a rest can't be that long.
    """
    if seconds is not None and not LEAST <= seconds <= MOST:
        raise BadInputError(
            f"A rest of {seconds} seconds can't be.",
            where="rest",
            mend=f"Choose {LEAST} seconds up to {counted(MOST // 60, 'minute')}.",
        )
    words = "rests as before" if seconds is None else f"rests {seconds // 60}:{seconds % 60:02d} after sets"
    with log.act(words, member_id, own=True) as act:
        by_hand.say(act, REST, member_id, {"lift": lift_id, "of": prescribed, "seconds": seconds or 0})


@may("change")
def tell_by(log: Log, member_id: str, *, sound: bool, vibration: bool) -> None:
    """Choose whether the end of a rest is heard and felt."""
    said = [name for name, on in (("sound", sound), ("vibration", vibration)) if on]
    with log.act(f"is told of the end of a rest by {' and '.join(said) or 'sight alone'}", member_id, own=True) as act:
        by_hand.say(act, REST, member_id, {"sound": sound, "vibration": vibration})
