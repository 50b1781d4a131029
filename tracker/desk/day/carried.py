"""A load that a member changed goes on to the sets that follow: at once where it is less, asked where it is more.

A set done with less than it asked says what the next ones should be today; nothing heavier follows from a heavier one unless
somebody says so. Common practice, and no estimate.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Literal

from tracker.desk.base.roles import may
from tracker.log import choices as log_choices
from tracker.log import members as log_members
from tracker.log.choices import Choice
from tracker.log.records import LiftRecord, SetRow
from tracker.log.unit_of_work import Log
from tracker.units import Mass, plain, short

How = Literal["take", "as asked"]
WHAT = "carry on"


@dataclass(frozen=True, slots=True)
class Change:
    """The newest set of a lift was done with another load than it asked; `taken` says whether those after it go on so."""

    lift: LiftRecord
    asked: Mass
    done: Mass
    taken: bool

    @property
    def down(self) -> bool:
        return self.done.kg < self.asked.kg

    def load_for(self, planned: Mass) -> Mass | None:
        """Return what a set that would be done with `planned` is done with; None where it stays.

        What asked for as much is done with the same. A heavier one is lowered by the same share, and never raised.
        """
        if not self.taken or (planned.kg <= min(self.done.kg, self.asked.kg) and planned.kg != self.asked.kg):
            return None
        if planned.kg <= self.asked.kg:
            return self.done if self.down or planned.kg == self.asked.kg else None
        if not self.down or self.asked.kg <= 0 or self.done.kg < 0:
            return None
        return Mass(planned.amount * (self.done.kg / self.asked.kg), planned.unit)

    def words(self, planned: Mass) -> str:
        return f"{short(planned)} was asked; you went on with {short(self.done)}."


def changes(
    done: Iterable[tuple[SetRow, Mass | None]], choices: Iterable[Choice], step_id: str, day: date
) -> Mapping[str, Change]:
    """Return by lift what its newest set of a day says of the load: each set comes with what it asked, in order of doing."""
    said = [each for each in choices if each.what == WHAT and each.day == day and each.get("step") == step_id]
    newest: dict[str, Change] = {}
    for row, asked in done:
        newest.pop(row.lift.id, None)
        if asked is None or row.day != day or row.outcome != "done" or row.kind != "work" or row.load.kg == asked.kg:
            continue
        word = next((each for each in said if each.get("lift") == row.lift.id), None)
        of_it = word is not None and word.get("load") == _kg(row.load)
        down = row.load.kg < asked.kg
        taken = word.get("how") == "take" if word is not None and of_it else down
        newest[row.lift.id] = Change(row.lift, asked, row.load, taken)
    return newest


@may("change")
def carry_on(log: Log, member_id: str, step_id: str, lift_id: str, load: Mass, day: date, how: How) -> None:
    """Go on with the load of the last set, or with what is asked, for the sets of a lift that follow on a day."""
    with log.act("chose the load of the sets that follow", member_id, own=True) as act:
        lift = log_members.lift(act.session, lift_id)
        if lift is not None:
            act.words = f"{lift.title}: goes on with {'the load of the last set' if how == 'take' else 'what is asked'}"
        log_choices.choose(act, member_id, "carry on", day, step=step_id, lift=lift_id, load=_kg(load), how=how)


def _kg(load: Mass) -> str:
    return plain(Decimal(load.kg))
