"""What a log was asked and whether it was written to: transactions that are begun, and the newest entry of the history."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from sqlalchemy import Connection, Engine, event

from tracker.desk.base.last_used import LastUsed
from tracker.desk.maxes import estimates
from tracker.log.changes_since import Stamp, stamp
from tracker.log.unit_of_work import Log
from tracker.log.who import HERE, acting


@contextmanager
def begun() -> Iterator[list[Connection]]:
    """Gather the transactions that are begun within, of every log that is open."""
    found: list[Connection] = []

    def note(connection: Connection) -> None:
        found.append(connection)

    event.listen(Engine, "begin", note)
    try:
        yield found
    finally:
        event.remove(Engine, "begin", note)


def newest(log: Log) -> Stamp | None:
    """Return the newest entry of the history, whoever acts; a later one is greater."""
    with acting(HERE), log.reading() as session:
        return stamp(session)


def forget_estimates(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave the estimates nothing in memory, as at the start of the program."""
    for kept in ("_kept", "_seen", "_then"):
        monkeypatch.setattr(estimates, kept, LastUsed(estimates.KEPT))
