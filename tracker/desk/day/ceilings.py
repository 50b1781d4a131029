"""What no set of a lift is offered heavier than for the rest of a day: what was missed, or the less that was chosen then."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from tracker.log.choices import Choice
from tracker.log.records import SetRow
from tracker.units import Mass, Unit

ENDS, AGAIN = ("stop", "hurt"), "go on"


def ceilings(todays: Iterable[SetRow], choices: Iterable[Choice]) -> dict[str, Mass]:
    """Return, by lift, the lightest load of a day that was missed, or that was chosen instead of it."""
    missed = {row.id: row for row in todays if row.outcome == "missed"}
    found: dict[str, Mass] = {}
    for row in missed.values():
        _lower(found, row.lift.id, row.load)
    for each in choices:
        row = missed.get(each.get("set")) if each.what == "after a miss" and each.get("how") == "less" else None
        if row is not None:
            _lower(found, row.lift.id, Mass(Decimal(each.get("load")), _unit(each.get("unit"))))
    return found


def _lower(found: dict[str, Mass], lift: str, load: Mass) -> None:
    known = found.get(lift)
    if known is None or load.kg < known.kg:
        found[lift] = load


def _unit(text: str) -> Unit:
    return "lb" if text == "lb" else "kg"


def ended(choices: Iterable[Choice], step_id: str) -> frozenset[str]:
    """Return the lifts of a member's step that the member has ended, by the newest word on each."""
    newest: dict[str, str] = {}
    for each in choices:
        if each.what == "after a miss" and each.get("step") == step_id and each.get("how") in (*ENDS, AGAIN):
            newest.setdefault(each.get("lift"), each.get("how"))
    return frozenset(lift for lift, how in newest.items() if how in ENDS)
