"""The rule of who may do what: said at each function of the desk, by `@may`, and nowhere in pages.

The household on its own machine, and the shell of a server, may do everything. With sign-in a member sees and changes what is
their own; a coach also sees what members share, writes sheets for them, takes their results and keeps what belongs to the
gym; an owner does what a coach does, and has accounts, copies and deletion. Neither changes what another member logged.
`log/row_access.py` holds the same for every row.
"""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Iterable
from typing import Any, Literal, ParamSpec, TypeVar

from tracker.log import row_access
from tracker.log.unit_of_work import Log
from tracker.log.who import ALL, HERE, NO_MORE, PLAN, Grant, RefusedError, Who, acting, granted, who
from tracker.narrow import is_several

Kind = Literal["see", "change", "plan", "lead", "common", "bring", "hand over", "run"]
P = ParamSpec("P")
R = TypeVar("R")

RECORDS = {  # a parameter that names a record, and the record's table; "" in a list or a record stands for its own id
    "member_id": "members", "member_ids": "members", "member": "members", "members": "members", "set_id": "sets",
    "score_id": "scores", "session_id": "sessions", "clock_id": "piece_clocks", "rep_max_id": "rep_maxes",
    "step": "member_steps", "member_step_id": "member_steps", "place_id": "places", "place": "places", "wave_id": "waves",
    "piece_id": "pieces", "step_id": "wave_steps", "new": "sets", "seen": "sets", "goal_id": "goals",
}  # fmt: skip
ACTORS: dict[Kind, tuple[str, ...]] = {"common": ("member_id", "by"), "plan": ("by",)}  # who does it: not to be chosen
KINDS: dict[Kind, str] = {
    "see": "Read what is a member's own: they, and whom they share it with.",
    "change": "Change what is a member's own: they alone.",
    "plan": "Put a session into calendars: one's own, and for coach and owner those of members who share.",
    "lead": "The coach's work for members who share: coach and owner.",
    "common": "Read or add what belongs to all; what the gym has is changed by coach and owner, what is private by its member.",
    "bring": "Import records: one's own, and for the owner anybody's.",
    "hand over": "Export or delete all of a member: they, and the owner.",
    "run": "Accounts, copies, the log as a whole: the owner.",
}


def may(kind: Kind, *, grant: Grant = NO_MORE) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Say of a function of the desk who may call it, and hold them to it.

    Args:
        kind: See `KINDS`.
        grant: What of others the act may write where a coach or owner does it: their work, or taking back what they did.
    """

    def rule(function: Callable[P, R]) -> Callable[P, R]:
        signature = inspect.signature(function)

        @functools.wraps(function)
        def held(*args: P.args, **named: P.kwargs) -> R:
            person = who()
            if person.role == HERE.role:
                return function(*args, **named)
            call = signature.bind(*args, **named)
            for name in ACTORS.get(kind, ()):
                if name in signature.parameters:
                    call.arguments[name] = person.member_id
            if not granted().all:
                owners = _owners(call.arguments) if kind not in ("bring", "run") else frozenset[str]()
                _allow(kind, person, owners, call.arguments.get("log"))
            with acting(person, granted() | _given(kind, person, grant)):
                return function(*call.args, **call.kwargs)

        held.rule = kind  # type: ignore[attr-defined]  # for the test that walks the desk
        return held

    return rule


def _given(kind: Kind, person: Who, grant: Grant) -> Grant:
    if kind in ("run", "hand over") or (kind == "bring" and person.role == "owner"):
        return ALL
    if kind == "plan":
        return PLAN if person.leads else NO_MORE
    return grant if person.leads else NO_MORE


def _allow(kind: Kind, person: Who, owners: frozenset[str], log: Any) -> None:
    """Let the call pass, or say why not. `owners` are the members whose records it names."""
    if person.role == "nobody":
        raise RefusedError("Nobody is signed in whom this log knows.", mend="Sign in, or ask the owner of the log.")
    if kind == "run" and person.role != "owner":
        raise RefusedError("Only the owner of this log does that.", mend="Ask the owner.")
    if kind == "lead" and not person.leads:
        raise RefusedError("Only a coach does that.", mend="Ask the coach.")
    own = {person.member_id} - {None}
    if kind == "hand over" and person.role == "owner":
        return
    if kind in ("change", "common", "hand over"):
        if not owners <= own:
            raise RefusedError("This is another member's log.", mend="Only they change it.")
    elif not owners <= own:
        _see(person, owners, log)


def _see(person: Who, owners: frozenset[str], log: Log) -> None:
    with acting(HERE), log.reading() as session:
        seen = row_access.seen_by(session.connection(), person)
    if not owners <= seen:
        mend = "They can share it under Preferences." if person.leads else "Choose your own."
        raise RefusedError("This is another member's log.", mend=mend)


def _owners(arguments: dict[str, Any]) -> frozenset[str]:
    """Return the members whose records the arguments name; what is not in the log belongs to nobody."""
    log = arguments.get("log")
    named = {table: ids for name, table in RECORDS.items() if name in arguments and (ids := _ids(name, arguments))}
    acts = [arguments["act_id"]] if arguments.get("act_id") else []
    if not isinstance(log, Log) or not (named or acts):
        return frozenset()
    found: set[str | None] = set()
    with acting(HERE), log.reading() as session:
        connection = session.connection()
        for name, table in RECORDS.items():
            for each in _ids(name, arguments) if name in arguments else ():
                found.add(each if table == "members" else row_access.owner_of(connection, table, each))
        for each in acts:
            found |= row_access.members_of_act(connection, each)
    return frozenset(found - {None})  # type: ignore[arg-type]  # None is taken out


def _ids(name: str, arguments: dict[str, Any]) -> tuple[str, ...]:
    """Return the ids that an argument names: as text, as records, or within what is to be written."""
    value = arguments[name]
    if value is None:
        return ()
    if name == "new":
        return ()
    many: Iterable[Any] = value if is_several(value) else (value,)
    return tuple(found for each in many if (found := each if isinstance(each, str) else getattr(each, "id", "")))
