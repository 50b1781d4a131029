"""The clock of a piece as a plain state: when it was started, tapped and stopped. What it shows follows from the time.

Nothing runs here: the state is kept in the log and read against the present moment, so that a locked phone or a reload
loses nothing. Moments are seconds since any fixed origin, such as Unix time.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any, Literal

from tracker.conditioning.pieces import IN_INTERVALS, Piece
from tracker.errors import BadInputError

Phase = Literal["ready", "count-in", "work", "rest", "over"]
COUNT_IN_S = 10
BOUNCE_S = 1.0  # two taps within it are one touch; our choice


@dataclass(frozen=True, slots=True)
class Plan:
    """What the clock has to keep: a count-in, a time or a cap, or intervals of work and rest; seconds."""

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
    def splits_s(self) -> tuple[int, ...]:
        """Whole seconds from the beginning of the piece at which rounds were tapped, rising."""
        ends = (round(tap - (self.zero or 0.0)) for tap in self.taps)
        return tuple(dict.fromkeys(ends))

    def start(self, now: float) -> Clock:
        """Start the count-in. A clock that runs already is left as it is, so that a second touch starts nothing anew."""
        return self if self.started is not None else replace(self, started=now)

    def tap(self, now: float) -> Clock:
        """Note that a round is finished. A bounce of the finger, or a tap in the count-in or after the end, is none.

        Raises:
            BadInputError: if the clock was never started, or `now` lies before the last tap.
        """
        if self.zero is None:
            raise BadInputError("The clock has not been started.", mend="Start it first.")
        last = self.taps[-1] if self.taps else self.zero
        if self.taps and now < last:
            raise BadInputError("The clock of this device was set back.", mend="Enter the times of the rounds by hand.")
        late = self.reading(now).phase == "over"
        return self if late or now - last < BOUNCE_S else replace(self, taps=(*self.taps, now))

    def untap(self) -> Clock:
        """Take the last tap back."""
        return replace(self, taps=self.taps[:-1])

    def stop(self, now: float) -> Clock:
        """Stop it; one that has stopped, or that ended by itself, keeps its end."""
        if self.started is None or self.stopped is not None:
            return self
        ends = self._ends()
        return replace(self, stopped=max(self.started, now if ends is None else min(now, ends)))

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

    def _running(self, elapsed: float) -> Reading:
        plan = self.plan
        if not plan.work_s or not plan.intervals:
            left = None if plan.cap_s is None else plan.cap_s - elapsed
            return Reading("work", elapsed, left, 0, len(self.taps))
        inside = elapsed % (plan.work_s + plan.rest_s)
        working = inside < plan.work_s
        left = (plan.work_s if working else plan.work_s + plan.rest_s) - inside
        return Reading("work" if working else "rest", elapsed, left, self._interval(elapsed), len(self.taps))

    def _interval(self, elapsed: float) -> int:
        plan = self.plan
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
