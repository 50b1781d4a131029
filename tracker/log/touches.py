"""Touches on a phone: each has an id of its own, made there, and is in the log once, however often it is sent.

A touch is no record of its own. The act that it causes takes its number in the history from the touch's id, so that the
second time is seen in the transaction itself, under its lock; and an entry of that act by hand says what the phone said:
when it was touched, on which day there, by which device, and how far that device's clock was from the server's.
"""

from __future__ import annotations

import hashlib
from collections.abc import Generator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from typing import Any

from tracker.errors import TidemarkError

FAR_S = 300.0  # clocks that are further apart are not believed unasked; a choice of ours


def act_id_of(member_id: str, touch_id: str) -> str:
    """Return the number in the history of the act that a touch causes; of two members who say one id, each has their own."""
    return hashlib.sha256(f"{member_id}/{touch_id}".encode()).hexdigest()[:32]


@dataclass(frozen=True, slots=True)
class Touch:
    """One touch: `digest` is of all that it says, `skew_s` how far the device's clock is ahead of the server's."""

    id: str
    member_id: str
    kind: str
    digest: str
    device: str
    seq: int
    day: date
    at: datetime
    skew_s: float = 0.0
    more: dict[str, Any] = field(default_factory=dict[str, Any])

    @property
    def act_id(self) -> str:
        """The number of its act in the history."""
        return act_id_of(self.member_id, self.id)

    @property
    def far(self) -> bool:
        return abs(self.skew_s) > FAR_S

    @property
    def moment(self) -> datetime:
        """When it was touched: by the phone, or by the server's clock where the two are far apart; never later than now."""
        told = self.at - timedelta(seconds=self.skew_s) if self.far else self.at
        return min(told, datetime.now(UTC))

    def record(self) -> dict[str, Any]:
        """Return what the history keeps of it."""
        return {
            "kind": self.kind,
            "digest": self.digest,
            "device": self.device,
            "seq": self.seq,
            "day": self.day.isoformat(),
            "at": self.at.isoformat(),
            "skew_s": round(self.skew_s, 1),
            **self.more,
        }


class TouchKnownError(TidemarkError):
    """The log has this touch already: nothing was written a second time."""

    def __init__(self) -> None:
        super().__init__("This touch is in the log already.")


@dataclass(slots=True)
class _Open:
    touch: Touch
    used: bool = False


_open: ContextVar[_Open | None] = ContextVar("tidemark_touch", default=None)


@contextmanager
def touching(touch: Touch) -> Generator[_Open]:
    """Let the first act within the block be the act of this touch."""
    opened = _Open(touch)
    before = _open.set(opened)
    try:
        yield opened
    finally:
        _open.reset(before)


def taken() -> Touch | None:
    """Return the touch that the act in hand is of, for this act alone."""
    opened = _open.get()
    if opened is None or opened.used:
        return None
    opened.used = True
    return opened.touch


def touched_at() -> datetime:
    """Return when what is being logged was touched: now, where it comes from no phone that kept it."""
    opened = _open.get()
    return opened.touch.moment if opened else datetime.now(UTC)
