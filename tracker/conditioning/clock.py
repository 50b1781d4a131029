"""The clock of a piece as a plain state: when it was started, tapped and stopped. What it shows follows from the time.

Nothing runs here: the state is kept in the log and read against the present moment, so that a locked phone or a reload
loses nothing. Moments are seconds since any fixed origin, such as Unix time.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any, Literal

from tracker.conditioning.pieces import IN_INTERVALS, LONGEST_S, Piece
from tracker.errors import BadInputError

Phase = Literal["ready", "count-in", "work", "rest", "over"]
COUNT_IN_S = 10
BOUNCE_S = 1.0  # two taps within it are one touch; our choice


@dataclass(frozen=True, slots=True)
class Plan:
    """What the clock has to keep: a count-in, a time or a cap, or intervals of work and rest; seconds.

    Intervals without `work_s` take as long as they take: each ends with a tap, and the rest after it begins.
    """

    count_in_s: int = COUNT_IN_S
    cap_s: int | None = None
    work_s: int | None = None
    rest_s: int = 0
    intervals: int | None = None


@dataclass(frozen=True, slots=True)
class Reading:
    """What the clock shows. `elapsed_s` counts from the end of the count-in; `left_s` is to the end of the phase.

    `interval` counts from 1, 0 without intervals; `rounds` are the taps so far.
    """

    phase: Phase
    elapsed_s: float
    left_s: float | None
    interval: int
    rounds: int


@dataclass(frozen=True, slots=True)
class Clock:
    """A clock: its plan, the moment of its start (of the count-in), the moments of its taps, and of its stop."""

    plan: Plan
    started: float | None = None
    taps: tuple[float, ...] = ()
    stopped: float | None = None

    @property
    def zero(self) -> float | None:
        """The moment at which the count-in ends and the piece begins."""
        return None if self.started is None else self.started + self.plan.count_in_s

    @property
    def length_s(self) -> float | None:
        """Seconds after which it ends by itself; None without cap or intervals."""
        plan = self.plan
        if plan.work_s and plan.intervals:
            return plan.intervals * (plan.work_s + plan.rest_s) - plan.rest_s
        return plan.cap_s

    @property
    def by_taps(self) -> bool:
        """Whether its intervals end by taps, not by time."""
        return bool(self.plan.intervals) and not self.plan.work_s

    @property
    def each_s(self) -> tuple[int, ...]:
        """Whole seconds that each interval took which was ended by a tap; the rest after it is none of it."""
        starts = [self.zero or 0.0, *(tap + self.plan.rest_s for tap in self.taps)]
        return (
            tuple(max(1, round(tap - start)) for start, tap in zip(starts, self.taps, strict=False))
            if self.by_taps
            else ()
        )

    @property
    def splits_s(self) -> tuple[int, ...]:
        """Whole seconds from the beginning of the piece at which rounds were tapped, rising."""
        ends = (round(tap - (self.zero or 0.0)) for tap in self.taps)
        return tuple(dict.fromkeys(ends))

    def start(self, now: float) -> Clock:
        """Start the count-in. A clock that runs already is left as it is, so that a second touch starts nothing anew."""
        return self if self.started is not None else replace(self, started=now)

    def tap(self, now: float) -> Clock:
        """Note that a round is finished; after the last interval that is timed by itself the clock stops. A bounce of the finger, or a tap in the count-in or after the end, is none.

        Raises:
            BadInputError: if the clock was never started, or `now` lies before the last tap.
        """
        if self.zero is None:
            raise BadInputError("The clock has not been started.", mend="Start it first.")
        last = self.taps[-1] if self.taps else self.zero
        if self.taps and now < last:
            raise BadInputError("The clock of this device was set back.", mend="Enter the times of the rounds by hand.")
        phase = self.reading(now).phase
        if phase == "rest" and self.by_taps:
            mend = f"Touch it once interval {len(self.taps) + 1} is done, or write its time below."
            raise BadInputError(f"The rest after interval {len(self.taps)} is still on.", mend=mend)
        late = phase == "over"
        if late or now - last < BOUNCE_S:
            return self
        tapped = replace(self, taps=(*self.taps, now))
        return tapped.stop(now) if self.by_taps and len(tapped.taps) == self.plan.intervals else tapped

    def untap(self) -> Clock:
        """Take the last tap back; where it was the one that stopped the clock, it goes on."""
        ended = self.by_taps and self.taps and self.stopped == self.taps[-1]
        return replace(self, taps=self.taps[:-1], stopped=None if ended else self.stopped)

    def began_earlier(self, seconds: float) -> Clock:
        """Let it have begun so many seconds earlier: it was started late. What was tapped and stopped stays at its moment.

        Raises:
            BadInputError: if it was never started, or so much can't be.
        """
        if self.started is None:
            raise BadInputError("The clock has not been started.", mend="Start it first.")
        if not 0 < seconds <= LONGEST_S:
            raise BadInputError(
                "Nothing says by how much it started late.", mend="Write minutes and seconds, such as 2:00."
            )
        return replace(self, started=self.started - seconds)

    def stop(self, now: float) -> Clock:
        """Stop it; one that has stopped, or that ended by itself, keeps its end."""
        if self.started is None or self.stopped is not None:
            return self
        ends = self._ends()
        return replace(self, stopped=max(self.started, now if ends is None else min(now, ends)))

    def go_on(self) -> Clock:
        """Take a stop back: it counts as if it had never stopped. One that a last tap stopped goes on by `untap`."""
        return self if self.by_taps and self.taps and self.stopped == self.taps[-1] else replace(self, stopped=None)

    def reading(self, now: float) -> Reading:
        """What it shows at the moment `now`."""
        if self.zero is None:
            return Reading("ready", 0.0, self.length_s, 0, 0)
        moment = now if self.stopped is None else min(now, self.stopped)
        elapsed = moment - self.zero
        if elapsed < 0 and self.stopped is None:
            return Reading("count-in", 0.0, -elapsed, 0, 0)
        if self.stopped is not None or (self.length_s is not None and elapsed >= self.length_s):
            shown = max(0.0, elapsed if self.length_s is None else min(elapsed, self.length_s))
            return Reading("over", shown, 0.0, self._interval(shown), len(self.taps))
        return self._running(elapsed)

    def _by_taps(self, elapsed: float) -> Reading:
        number = len(self.taps) + 1
        began = self.taps[-1] - (self.zero or 0.0) + self.plan.rest_s if self.taps else 0.0
        if elapsed < began:
            return Reading("rest", elapsed, began - elapsed, number - 1, len(self.taps))
        return Reading("work", elapsed, None, number, len(self.taps))

    def _running(self, elapsed: float) -> Reading:
        plan = self.plan
        if self.by_taps:
            return self._by_taps(elapsed)
        if not plan.work_s or not plan.intervals:
            left = None if plan.cap_s is None else plan.cap_s - elapsed
            return Reading("work", elapsed, left, 0, len(self.taps))
        inside = elapsed % (plan.work_s + plan.rest_s)
        working = inside < plan.work_s
        left = (plan.work_s if working else plan.work_s + plan.rest_s) - inside
        return Reading("work" if working else "rest", elapsed, left, self._interval(elapsed), len(self.taps))

    def _interval(self, elapsed: float) -> int:
        plan = self.plan
        if self.by_taps:
            return min(plan.intervals or 0, len(self.taps) + 1)
        if not plan.work_s or not plan.intervals:
            return 0
        return min(plan.intervals, int(elapsed // (plan.work_s + plan.rest_s)) + 1)

    def _ends(self) -> float | None:
        return None if self.zero is None or self.length_s is None else self.zero + self.length_s


def clock_for(piece: Piece, count_in_s: int = COUNT_IN_S) -> Clock:
    """A clock for a piece, not yet started."""
    if piece.kind in IN_INTERVALS:
        return Clock(Plan(count_in_s, None, piece.work_s, piece.rest_s, piece.intervals))
    return Clock(Plan(count_in_s, piece.cap_s))


def clock_record(clock: Clock) -> dict[str, Any]:
    """The clock as plain values for the log."""
    plan = {name: getattr(clock.plan, name) for name in ("count_in_s", "cap_s", "work_s", "rest_s", "intervals")}
    return {**plan, "started": clock.started, "taps": list(clock.taps), "stopped": clock.stopped}


def clock_from(record: Mapping[str, Any]) -> Clock:
    """Read a clock back.

    Raises:
        BadInputError: if its moments are not in order, or a value is missing.
    """
    try:
        plan = Plan(*(record[name] for name in ("count_in_s", "cap_s", "work_s", "rest_s", "intervals")))
        clock = Clock(plan, record["started"], tuple(record["taps"]), record["stopped"])
        moments = [each for each in (clock.started, *clock.taps, clock.stopped) if each is not None]
        in_order = all(earlier <= later for earlier, later in pairwise(moments))
    except (KeyError, TypeError) as err:
        raise BadInputError("This is no record of a clock.", mend="Start the clock again.") from err
    if not in_order or (clock.started is None and moments):
        raise BadInputError("The moments of this clock are not in order.", mend="Start the clock again.")
    return clock
