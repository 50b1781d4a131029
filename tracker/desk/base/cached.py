"""Keeps what was read of a log for as long as nothing at all is written to it: a page is drawn far oftener than that."""

from __future__ import annotations

import functools
from collections.abc import Callable, Generator, Hashable
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any, Concatenate, ParamSpec, TypeVar

from tracker.desk.base.last_used import LastUsed
from tracker.desk.base.roles import may
from tracker.log.changes_since import Stamp, stamp
from tracker.log.unit_of_work import Log
from tracker.log.who import granted, who
from tracker.narrow import is_list, is_mapping

P = ParamSpec("P")
R = TypeVar("R")

_kept: LastUsed[Hashable, tuple[Stamp, Any]] = LastUsed(256)  # answers, of all logs, members and days
_moment: ContextVar[dict[tuple[str, int], Stamp | None] | None] = ContextVar("_moment", default=None)


@contextmanager
def page_snapshot() -> Generator[None]:
    """Ask only once within whether the log was written to: a page is drawn of one moment of it.

    What this process itself writes meanwhile is seen; what another one writes is seen by the next page.
    """
    token = _moment.set({})
    try:
        yield
    finally:
        _moment.reset(token)


def _newest(log: Log) -> Stamp | None:
    known, moment = _moment.get(), (log.name, log.written)
    if known is not None and moment in known:
        return known[moment]
    with log.reading() as session:
        now = stamp(session)
    if known is not None:
        known[moment] = now
    return now


@may("common")
def newest_entry(log: Log) -> Stamp | None:
    """Return the newest entry of the log's history: what was made of the log is out of date once it is another one."""
    return _newest(log)


def cached_until_write(read: Callable[Concatenate[Log, P], R]) -> Callable[Concatenate[Log, P], R]:
    """Keep what a function of the desk reads until the next act, whoever does it and on whichever server.

    It stands below `@may`, so that the rule is asked each time. The function depends on nothing but the log and its
    arguments, and returns what nobody changes and what holds no log, since a log may be closed and opened again; the
    newest entry of the history is read before it, so that an act in between only makes it read once more.
    """

    @functools.wraps(read)
    def kept(log: Log, /, *args: P.args, **named: P.kwargs) -> R:
        key = (read.__module__, read.__qualname__, log.name, who(), granted(), tuple(map(_plain, args)), _plain(named))
        now = _newest(log)
        found = _kept.get(key)
        if found is not None and found[0] == now:
            return found[1]
        value = read(log, *args, **named)
        if now is not None:
            _kept.keep(key, (now, value))
        return value

    return kept


def _plain(value: Any) -> Hashable:
    """Turn arguments into what can be compared later: a mapping may be changed after the call."""
    if is_mapping(value):
        return tuple(sorted((name, _plain(each)) for name, each in value.items()))
    return tuple(map(_plain, value)) if is_list(value) else value
