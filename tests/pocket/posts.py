"""Acts as a phone makes and posts them."""

from __future__ import annotations

import secrets
from datetime import UTC, date, datetime, timedelta
from typing import Any

from tests.day import this_day

Act = dict[str, Any]


def act(
    kind: str, body: dict[str, Any], seq: int = 1, *, at: datetime | None = None, day: date | None = None, **more: Any
) -> Act:
    moment = at or datetime.now(UTC)
    return {
        "f": 1, "id": secrets.token_hex(16), "seq": seq, "kind": kind, "body": body, "at": round(moment.timestamp() * 1000),
        "date": (day or this_day()).isoformat(), **more,
    }  # fmt: skip


def post(*acts: Act, device: str = "phone", ahead: timedelta = timedelta(0)) -> dict[str, Any]:
    """Post acts from a phone whose clock is so far ahead of the server's."""
    sent = datetime.now(UTC) + ahead
    return {"f": 1, "device": device, "sent_at": round(sent.timestamp() * 1000), "acts": list(acts)}


def set_of(line: dict[str, Any], step: str, *, reps: int | None = None, outcome: str = "done") -> dict[str, Any]:
    """Say a planned set as the page does, from a line of its plan."""
    return {
        "lift": line["lift"], "load": line["load"], "unit": line["unit"], "reps": line["reps"] if reps is None else reps,
        "outcome": outcome, "step": step, "planned": line["planned"], "number": line["number"], "key": line["key"],
    }  # fmt: skip
