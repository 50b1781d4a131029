"""After three weeks or more without any entry: how much lower the loads start, and by which steps they come back.

The rule is common practice and from no study: three weeks away 10 % off every load, six weeks 20 %, twelve weeks 30 %, half a
year 40 %. Each step takes ten points less than the one before, and is over when two sessions were made in it and its days have
passed: from six weeks on all steps together take half of the time away, twelve weeks at most. Half is after Halonen and others
(2024: what ten weeks away took was back within five; read in a notice of their university, not in the paper). That injuries
cluster in the first two to four weeks after a break was read in the 2019 consensus of CSCCa and NSCA (see safety.py); neither
gives such numbers for loads.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from tracker.wording import counted

FROM_DAYS = 21  # whole days without any entry
STARTS = ((182, 40), (84, 30), (42, 20), (FROM_DAYS, 10))  # days away, per cent off; common practice
STEP = 10  # points that each step gives back; common practice
SESSIONS = 2  # made in a step, before the next one
SHORT_DAYS = 42  # a shorter break is over with its two sessions
MOST_DAYS = 168  # a longer time away counts as so much: twelve weeks of a way back


@dataclass(frozen=True, slots=True)
class Comeback:
    """Loads start lower: by `percent`, after `days_off` whole days without an entry, with `sessions` made since.

    `steps` are the per cent of all steps, `at` is the one that is on (0-based), `days_each` is how long each takes at least.
    """

    percent: Decimal
    days_off: int
    sessions: int
    steps: tuple[int, ...] = ()
    at: int = 0
    days_each: int = 0
    lighter: bool = False

    @property
    def words(self) -> str:
        """Say the rule, with what it rests on and who may say otherwise."""
        start = f"{self.days_off} days without an entry" + (", some of them trained lighter" if self.lighter else "")
        return (
            f"{start}: {self._rule()} (common practice, from no study). Go lower still if it feels heavy; your coach's word "
            "goes first."
        )

    def _rule(self) -> str:
        made = self.sessions - self.at * SESSIONS
        if len(self.steps) < 2:
            so_far = f", {made} of {SESSIONS} made" if made > 0 else ""
            return f"loads start {self.percent} % lower until {SESSIONS} sessions are made{so_far}"
        each = f"two sessions and {counted(self.days_each, 'day')} at least"
        steps = ", ".join(str(step) for step in self.steps)
        return (
            f"loads come back by steps: {steps} % lower, each for {each}, then as asked. Now {self.percent} % lower, step "
            f"{self.at + 1} of {len(self.steps)}"
        )

    @property
    def short(self) -> str:
        """Say it beside one load."""
        step = f" (step {self.at + 1} of {len(self.steps)})" if len(self.steps) > 1 else ""
        return f"{self.percent} % lower than asked, after {self.days_off} days without an entry{step}."

    @property
    def long(self) -> bool:
        """Whether it was so long that loads as asked are never one touch away."""
        return self.days_off >= STARTS[1][0] and not self.lighter


def comeback(days_off: int, sessions: int, days_back: int = 0, *, lighter: bool = False) -> Comeback | None:
    """Tell how much lower loads start after a break; None where they don't.

    Args:
        days_off: Whole days away.
        sessions: Days of training since.
        days_back: Days since the first of them.
        lighter: Whether somebody trained meanwhile, but lighter or with other kit: then it counts as three weeks away.
    """
    start = next((off for least, off in STARTS if days_off >= least), None)
    if start is None:
        return None
    start = STEP if lighter else start
    steps = tuple(range(start, 0, -STEP))
    days_each = 0 if lighter or days_off < SHORT_DAYS else min(days_off, MOST_DAYS) // 2 // len(steps)
    at = sessions // SESSIONS
    if days_each:
        at = min(at, days_back // days_each)
    if at >= len(steps):
        return None
    return Comeback(Decimal(steps[at]), days_off, sessions, steps, at, days_each, lighter)
