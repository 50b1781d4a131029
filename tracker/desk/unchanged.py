"""Keeps what was read of a log for as long as nothing at all is written to it: a page is drawn far oftener than that."""

from __future__ import annotations

import functools
from collections import OrderedDict
from collections.abc import Callable, Hashable, Mapping
from threading import Lock
from typing import Any, Concatenate, ParamSpec, TypeVar

from tracker.log.keeper import Log
from tracker.log.touched import Stamp, stamp
from tracker.log.who import granted, who

P = ParamSpec("P")
R = TypeVar("R")

KEPT = 256  # answers, of all logs, members and days
_kept: OrderedDict[Hashable, tuple[Stamp, Any]] = OrderedDict()
_lock = Lock()


def while_unchanged(read: Callable[Concatenate[Log, P], R]) -> Callable[Concatenate[Log, P], R]:
    """Keep what a function of the desk reads until the next act, whoever does it and on whichever server.

    It stands below `@may`, so that the rule is asked each time. The function depends on nothing but the log and its
    arguments, and returns what nobody changes; the newest entry of the history is read before it, so that an act in between
    only makes it read once more.
    """

    @functools.wraps(read)
    def kept(log: Log, /, *args: P.args, **named: P.kwargs) -> R:
        key = (read.__module__, read.__qualname__, log.name, who(), granted(), tuple(map(_plain, args)), _plain(named))
        with log.reading() as session:
            now = stamp(session)
        with _lock:
            found = _kept.get(key)
        if found is not None and found[0] == now:
            return found[1]
        value = read(log, *args, **named)
        if now is not None:
            with _lock:
                _kept[key] = (now, value)
                _kept.move_to_end(key)
                while len(_kept) > KEPT:
                    _kept.popitem(last=False)
        return value

    return kept


def _plain(value: Any) -> Hashable:
    """Turn arguments into what can be compared later: a mapping may be changed after the call."""
    if isinstance(value, Mapping):
        return tuple(sorted((name, _plain(each)) for name, each in value.items()))
    return tuple(map(_plain, value)) if isinstance(value, list) else value
