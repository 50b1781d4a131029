"""How many transactions something takes, readings as well as acts."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Connection, Engine, event


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
