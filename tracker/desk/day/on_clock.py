"""Strength on a clock: a set begins with each interval, and the rest is what the clock leaves of it.

The interval stands in the words that a sheet keeps of a set ("every 2:00"). The clock is started by a touch and asks for
nothing: who does not start it rests about as long as an interval leaves.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from tracker.conditioning.times import time_words
from tracker.desk.base.roles import may
from tracker.desk.day.lines import PlannedLine
from tracker.log import choices as log_choices
from tracker.log import members as log_members
from tracker.log.choices import Choice, What
from tracker.log.records import PlannedSetRow
from tracker.log.unit_of_work import Log
from tracker.prescription.rest import LEAST, left_of_interval
from tracker.wording import counted

WHAT: What = "clock of sets"
_EVERY = re.compile(r"(?:^|; )every (?:(\d+):)?(\d{1,2}):(\d\d)(?=;|$)")


@dataclass(frozen=True, slots=True)
class SetClock:
    """The clock that a set is done on; `started` is None as long as nobody started it."""

    step_id: str
    lift_id: str
    every_s: int
    sets: int
    started: datetime | None

    @property
    def words(self) -> str:
        return f"every {time_words(self.every_s)}, {counted(self.sets, 'set')}"

    @property
    def ends(self) -> datetime | None:
        """When the last interval is over."""
        return self.started + timedelta(seconds=self.every_s * self.sets) if self.started else None

    def next_start(self, after: datetime) -> datetime | None:
        """Return when the first interval after a moment begins; None where the clock does not run."""
        if self.started is None:
            return None
        whole = int((after - self.started).total_seconds() // self.every_s)
        return self.started + timedelta(seconds=(whole + 1) * self.every_s)


def every_s(planned: PlannedSetRow) -> int | None:
    """Return the seconds of a set's interval; None where it is on no clock."""
    found = _EVERY.search(planned.own_words)
    if found is None:
        return None
    seconds = int(found[1] or 0) * 3600 + int(found[2]) * 60 + int(found[3])
    return seconds or None


def clock_of(line: PlannedLine, lines: Sequence[PlannedLine], choices: Iterable[Choice], day: date) -> SetClock | None:
    """Return the clock that a set is on, with when it was started on the day; None where it is on none."""
    every = every_s(line.planned)
    if every is None or line.planned.test:
        return None
    said = (
        each for each in choices
        if each.what == WHAT and each.day == day and (each.get("step"), each.get("lift")) == (line.step_id, line.lift.id)
    )  # fmt: skip
    started = next((datetime.fromisoformat(each.get("at")) if each.get("at") else each.at for each in said), None)
    same = [each for each in lines if each.lift.id == line.lift.id and every_s(each.planned) == every]
    return SetClock(line.step_id, line.lift.id, every, len(same), started)


def rest_left(clock: SetClock, reps: int, ended: datetime) -> tuple[int, str]:
    """Return the seconds of rest after a set that ended at a moment, and where they come from."""
    start = clock.next_start(ended)
    every = time_words(clock.every_s)
    if start is None or (clock.ends is not None and ended >= clock.ends):
        return max(left_of_interval(clock.every_s, reps), LEAST), f"about what is left of every {every}"
    return round((start - ended).total_seconds()), f"what the clock leaves of every {every}"


@may("change")
def start(
    log: Log, member_id: str, member_step_id: str, lift_id: str, day: date, *, at: datetime | None = None
) -> None:
    """Start the clock of a lift's sets, with the set that is next; the newest start counts.

    `at` is when it was touched, where the log hears of that later.

    It runs beside the sets and ends nothing by itself.
    """
    with log.act("started the clock of sets", member_id, own=True) as act:
        lift = log_members.lift(act.session, lift_id)
        act.words = f"started the clock of {lift.title}" if lift else act.words
        when = {"at": at.isoformat()} if at is not None else {}
        log_choices.choose(act, member_id, WHAT, day, step=member_step_id, lift=lift_id, **when)
