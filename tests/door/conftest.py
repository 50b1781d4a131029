"""A pairing with a clock that the test moves."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from tracker.door.pairing import Pairing
from tracker.door.store import Store


class Clock:
    """A clock that stands until it is moved."""

    def __init__(self) -> None:
        self.now = datetime(2026, 3, 2, 18, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now

    def move(self, **by: float) -> None:
        self.now += timedelta(**by)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def opened(tmp_path: Path, clock: Clock) -> Iterator[Callable[..., Pairing]]:
    """Open the same file once more, as another process does: `opened(encrypted=True)`."""
    stores = []

    def once_more(**how: bool) -> Pairing:
        stores.append(Store(tmp_path / "log.db.devices"))
        return Pairing(stores[-1], clock=clock, **how)

    yield once_more
    for store in stores:
        store.close()


@pytest.fixture
def pairing(opened: Callable[..., Pairing]) -> Pairing:
    return opened()
