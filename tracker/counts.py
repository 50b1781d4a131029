"""What a server has done since it began, as sums: told by the log and the door, read by whoever watches the server.

Only kinds and times are counted: no name, no id and no address of anybody. It leans on the errors alone, so that every
room may tell.
"""

from __future__ import annotations

import threading
from collections import Counter
from dataclasses import dataclass, field

from tracker.errors import TidemarkError

# Seconds up to which acts are sorted. A touch feels immediate below 0.1 s, and attention drifts after 10 s (Card, Robertson
# and Mackinlay 1991, from memory); the log waits 10 s for another act.
STEPS = (0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0, 30.0)
KEPT, REFUSED, FAILED = "kept", "refused", "failed"


@dataclass(slots=True)
class Counts:
    """Sums of one server. All methods may be called from any thread."""

    requests: Counter[tuple[str, str]] = field(default_factory=Counter[tuple[str, str]])  # kind, and status as `2xx`
    acts: Counter[str] = field(default_factory=Counter[str])  # by what became of them
    steps: list[int] = field(default_factory=lambda: [0] * (len(STEPS) + 1))  # acts, by the step that they fit in
    seconds: float = 0.0  # of all acts together
    faults: Counter[str] = field(default_factory=Counter[str])  # of the database, by kind
    open_pages: int = 0
    _lock: threading.Lock = field(default_factory=threading.Lock, repr=False)

    def request(self, kind: str, status: int) -> None:
        with self._lock:
            self.requests[kind, f"{status // 100}xx"] += 1

    def act(self, seconds: float, outcome: str = "") -> None:
        """Note an act that came to the log, and how long it took, with its waiting for others.

        Args:
            seconds: From its beginning to its end.
            outcome: What became of it; empty where `refuse` notes it.
        """
        step = next((at for at, most in enumerate(STEPS) if seconds <= most), len(STEPS))
        with self._lock:
            if outcome:
                self.acts[outcome] += 1
            self.steps[step] += 1
            self.seconds += seconds

    def refuse(self, error: TidemarkError) -> None:
        """Note that an act was refused, once, whether the log did so or whoever stands before it."""
        if not error.counted:
            error.counted = True
            with self._lock:
                self.acts[REFUSED] += 1

    def fault(self, kind: str) -> None:
        """Note an error of the database, by the name of its kind."""
        with self._lock:
            self.faults[kind] += 1

    def page(self, more: int) -> None:
        with self._lock:
            self.open_pages += more


here = Counts()
