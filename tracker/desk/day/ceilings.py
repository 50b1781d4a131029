"""What a miss leaves of a lift for the rest of a day: nothing heavier than it, or than the less chosen then; or the lift ended."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from tracker.log.choices import Choice
from tracker.log.records import SetRow
from tracker.units import Mass, Unit

END, AGAIN = "stop", "go on"


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
    return frozenset(_ends(each for each in choices if each.get("step") == step_id))


def ended_on(choices: Iterable[Choice], day: date) -> dict[str, Choice]:
    """Return the lifts that the member has ended on a day, each with the choice that ended it."""
    return _ends(each for each in choices if each.day == day)


def _ends(choices: Iterable[Choice]) -> dict[str, Choice]:
    newest: dict[str, Choice] = {}
    for each in choices:
        if each.what == "after a miss" and each.get("how") in (END, AGAIN):
            newest.setdefault(each.get("lift"), each)
    return {lift: each for lift, each in newest.items() if each.get("how") == END}
