"""After three weeks or more without any entry: how much lower the loads start, and for how long.

The rule is common practice and from no study: three weeks away 10 % off every load, six weeks 20 %, twelve weeks 30 %, until
two sessions were made. That injuries cluster in the first two to four weeks after a break was read in the 2019 consensus of
CSCCa and NSCA (see safety.py); it gives no such numbers for loads.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

FROM_DAYS = 21  # whole days without any entry
STEPS = ((84, Decimal(30)), (42, Decimal(20)), (FROM_DAYS, Decimal(10)))  # days away, per cent off; common practice
SESSIONS = 2  # made since the break: from then on loads are as asked


@dataclass(frozen=True, slots=True)
class Comeback:
    """Loads start lower: by `percent`, after `days_off` whole days without an entry, with `sessions` made since."""

    percent: Decimal
    days_off: int
    sessions: int

    @property
    def words(self) -> str:
        """Say the rule, with what it rests on and who may say otherwise."""
        made = "" if not self.sessions else f", {self.sessions} of {SESSIONS} made"
        return (
            f"{self.days_off} days without an entry: loads start {self.percent} % lower until {SESSIONS} sessions are made"
            f"{made} (common practice, from no study). Go lower still if it feels heavy; your coach's word goes first."
        )

    @property
    def short(self) -> str:
        """Say it beside one load."""
        return f"{self.percent} % lower than asked, after {self.days_off} days without an entry."


def comeback(days_off: int, sessions: int) -> Comeback | None:
    """Tell how much lower loads start after `days_off` whole days away, with so many sessions made since; None where not."""
    if sessions >= SESSIONS:
        return None
    percent = next((off for least, off in STEPS if days_off >= least), None)
    return Comeback(percent, days_off, sessions) if percent else None
