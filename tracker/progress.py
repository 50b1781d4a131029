"""How far a long act has come: told by the act at its steps, read by whoever watches it, who may also stop it.

An act that is stopped ends at its next step with an error, so that its transaction leaves nothing; after its last step it
is finished. So what is said of it afterwards is always true.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import TypeVar

from tracker.errors import TidemarkError

T = TypeVar("T")
EVERY = 1000  # items between two tellings


class StoppedError(TidemarkError):
    """Somebody stopped the act."""

    def __init__(self) -> None:
        super().__init__("Stopped. Nothing was changed.")


class Watch:
    """What is known of a running act."""

    def __init__(self, seen: Callable[[Watch], None] | None = None) -> None:
        self.words, self.done, self.total = "", 0, 0
        self._seen, self._stopped = seen, False

    def stop(self) -> None:
        """Ask the act to end at its next step."""
        self._stopped = True

    @property
    def share(self) -> float:
        """How much of the step in hand is done, 0 to 1; 0 where nobody can say."""
        return min(1.0, self.done / self.total) if self.total else 0.0

    def told(self, words: str, done: int, total: int) -> None:
        if self._stopped:
            raise StoppedError
        self.words, self.done, self.total = words, done, total
        if self._seen:
            self._seen(self)


_watch: ContextVar[Watch | None] = ContextVar("tidemark_watch", default=None)


@contextmanager
def watched(watch: Watch) -> Iterator[None]:
    """Let `watch` know of what is done in the block."""
    before = _watch.set(watch)
    try:
        yield
    finally:
        _watch.reset(before)


def tell(words: str, done: int = 0, total: int = 0) -> None:
    """Say what is being done, and how far it is.

    Raises:
        StoppedError: if whoever watches wants it to end.
    """
    watch = _watch.get()
    if watch is not None:
        watch.told(words, done, total)


def through(words: str, items: Iterable[T], total: int) -> Iterable[T]:
    """Yield the items and say every thousand how far it is."""
    return items if _watch.get() is None else _through(words, items, total)


def _through(words: str, items: Iterable[T], total: int) -> Iterator[T]:
    for number, item in enumerate(items):
        if number % EVERY == 0:
            tell(words, number, total)
        yield item
