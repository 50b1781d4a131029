"""What a person does on a page: the act is done by the desk, and only then said to be done; what went wrong is told once."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any, Literal

import streamlit as st
from streamlit.runtime.scriptrunner import get_script_run_ctx

from tracker import counts
from tracker.desk.day import dismissed_cautions as seen
from tracker.desk.day.log_set import UnitSlipError
from tracker.desk.history import journal
from tracker.errors import TidemarkError
from tracker.log.records import ChangeRow
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass

NOTICE, ASKED = "frame_notice", "frame_asked"
LOOKED_AT = (8, 64, 512)  # acts, the newest; more only where these hold none that can be taken back
ADDED = "added the member"  # not taken back by the way: the whole member would go


@dataclass(frozen=True, slots=True)
class Notice:
    """What came of the last act."""

    kind: Literal["saved", "error"]
    text: str
    mend: str = ""


@dataclass(frozen=True, slots=True)
class Asked:
    """An act that waits for an answer: the load looks like the other unit."""

    slip: UnitSlipError
    act: Callable[..., Any]
    args: tuple[Any, ...]
    named: dict[str, Any]
    said: str | Callable[[Any], str]


def do(act: Callable[..., Any], *args: Any, said: str | Callable[[Any], str] = "", **named: Any) -> bool:
    """Run an act of the desk in a callback, and leave a notice of what came of it.

    Args:
        act: A function of the desk that writes, such as `log_set.log_set`.
        args: What it is given.
        said: What to say once it is on the disk: a text, or a function of what the act returned.
        named: What it is given by name.

    Returns:
        Whether it was done; False where it was refused, or where a load that looks like the other unit is asked about.
    """
    try:
        result = act(*args, **named)
    except UnitSlipError as slip:
        st.session_state[ASKED] = Asked(slip, act, args, named, said)
        return False
    except TidemarkError as error:
        counts.here.refuse(error)
        tell(error)
        return False
    st.session_state.pop(ASKED, None)
    text = said(result) if callable(said) else said
    st.session_state[NOTICE] = Notice("saved", text) if text else None
    return True


def touch(act: Callable[..., Any], *args: Any, said: str | Callable[[Any], str] = "", **named: Any) -> None:
    """Do the same as `do`, as a button's callback."""
    do(act, *args, said=said, **named)


def tell(error: TidemarkError) -> None:
    """Leave a notice of what is wrong, where, and how to mend it."""
    where = f"{error.where[:1].upper()}{error.where[1:]}: " if error.where else ""
    st.session_state[NOTICE] = Notice("error", f"{where}{error.what}", error.mend)


def answer(how: Literal["other unit", "as it is", "leave"]) -> None:
    """Do the act that was asked about, with the other unit or as it is; or leave it."""
    asked: Asked | None = st.session_state.pop(ASKED, None)
    if asked is None or how == "leave":
        return
    args, named = asked.args, {**asked.named, "sure": True}
    if how == "other unit":
        args = tuple(_other_unit(each) for each in args)
    do(asked.act, *args, said=asked.said, **named)


def _other_unit(value: Any) -> Any:
    if not isinstance(value, NewSet):
        return value
    body = Mass(value.body_mass, value.load.unit) if value.body_mass is not None else None
    unit = "lb" if value.load.unit == "kg" else "kg"
    return replace(value, load=Mass(value.load.amount, unit), body_mass=round(body.to(unit), 1) if body else None)


def undo(log: Log, act: ChangeRow) -> None:
    """Take back the act that was on screen; a second tap finds nothing more to take back."""
    do(journal.undo_act, log, act.act_id, said=lambda words: f"Taken back: {words}")


def newest_act(log: Log, member_id: str) -> ChangeRow | None:
    """Return the member's newest act that could still be taken back.

    Of one act after the other that was taken back, each leaves two entries that can't be: so more are looked at where the
    newest few hold none.
    """
    beside = ("undid", seen.WORDS)  # neither is what somebody wants to take back between two sets
    for limit in LOOKED_AT:
        acts = journal.acts(log, member_id, limit=limit)
        newest = next(
            (each for each in acts if each.theirs and not each.undone and not each.words.startswith(beside)), None
        )
        if newest is not None:
            return None if newest.words.startswith(ADDED) else newest
        if len(acts) < limit:
            break
    return None


def token(log: Log, member_id: str, key: str, *, shared: bool = False) -> str:
    """Name what is drawn now, so that a second tap on it is the same act.

    It changes with every act of the member. `shared`: the same on every device, for a planned set, of which there is but
    one; without it the token belongs to this browser tab, so that two people's free sets never meet.
    """
    newest = journal.acts(log, member_id, limit=1)
    context = get_script_run_ctx()
    tab = "" if shared or context is None else context.session_id
    text = "/".join((member_id, newest[0].act_id if newest else "", key, tab))
    return hashlib.sha256(text.encode()).hexdigest()[:32]
