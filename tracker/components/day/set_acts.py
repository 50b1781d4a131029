"""Writes sets for the pages, in callbacks, and says what the log then holds."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from tracker.components.day import made_max
from tracker.components.frame.acts import do
from tracker.components.frame.effects import do_and_tell
from tracker.components.frame.frame import here
from tracker.components.frame.words import set_words
from tracker.desk.day import after_miss, falls
from tracker.desk.day import log_set as sets
from tracker.log.records import SetRow
from tracker.log.sets import NewSet
from tracker.units import Mass


def log_set(new: NewSet, day: date, token: str, most: Mass | None = None) -> bool:
    """Log a set for the member on screen; a body mass that was typed is kept with its day as well, in the same act.

    `most` is what nothing heavier than is offered today; a heavier one that was typed is logged, and that is said.
    """
    now, heavier = here(), after_miss.heavier_words(new.load, most)
    return do(
        sets.log_set, now.log, now.member.id, day, new, token=token, weighed=new.body_mass is not None,
        said=lambda row: f"{_saved_with_mark(row)}. {heavier}" if heavier else _saved_with_mark(row),
    )  # fmt: skip


def mend_set(row: SetRow, new: NewSet) -> bool:
    """Give a set other values, and say which coming loads are other ones because of it."""
    now = here()
    return do_and_tell(
        now, sets.mend_set, now.log, row.id, new, seen=row, keep_max=made_max.kept(row), said=lambda row: f"{_saved(row)}."
    )  # fmt: skip


def say_left(row: SetRow, rir: str | None) -> bool:
    """Add to a set how many repetitions were left."""
    left = None if rir is None else Decimal(rir.removesuffix("+"))
    return do(sets.mend_set, here().log, row.id, replace(sets.as_new(row), rir=left), seen=row, said=_saved)


def remove_set(row: SetRow) -> bool:
    """Remove a set; undo brings it back."""
    now = here()
    said = f"Removed: {set_words(row)}."
    return do_and_tell(now, sets.remove_set, now.log, row.id, today=now.today, keep_max=made_max.kept(row), said=said)


def _saved_with_mark(row: SetRow) -> str:
    """Say that a set is saved, and at once if a best mark fell with it."""
    if row.kind == "ramp":
        return _saved(row)
    now = here()
    fallen = falls.fallen_mark(now.log, row)
    return f"{_saved(row)}. {fallen.words(now.today)}" if fallen else _saved(row)


def _saved(row: SetRow) -> str:
    return f"Saved: {set_words(row)}"
