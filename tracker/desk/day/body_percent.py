"""What a percentage of a lift of the body is taken of: as the sheet says, else as the member said of that lift, else asked.

For a pull-up with 20 kg at a body mass of 74 kg, 80 % of the added load are 16 kg and 80 % of both together are 1 kg: no load
stands there before it is known which of the two is meant.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from tracker.desk.base.roles import may
from tracker.desk.day.scene import Scene
from tracker.desk.maxes.estimates import LiftHistory
from tracker.desk.maxes.references import ago
from tracker.errors import BadInputError
from tracker.log import choices as log_choices
from tracker.log import members as log_members
from tracker.log.choices import What
from tracker.log.records import LiftRecord, MemberStepRow, PlannedSetRow
from tracker.log.unit_of_work import Log
from tracker.prescription.body_share import BodyShare, share_said
from tracker.units import Mass, plain, short

WHAT: What = "percent of"
OF: dict[BodyShare, str] = {"added": "the added load alone", "whole": "body and load together"}
BODY_FIRST = (
    "A percentage of a {lift} is of body and added load together: type your body mass first, and the load stands here."
)
NONE_ADDED = "The sheet means the added load, and your {reps}RM has none: ask your coach, or log what you do."


@dataclass(frozen=True, slots=True)
class Basis:
    """What the percentage of a set is of, and who says so."""

    of: BodyShare = "whole"  # empty: nobody said, and it is asked
    by: str = ""  # who says so, where somebody does

    @property
    def words(self) -> str:
        """Say it behind the percentage; nothing where it has not been said by anybody."""
        return OF.get(self.of, "")


OF_BOTH = Basis()


def none_yet(planned: PlannedSetRow, of: Mass, basis: Basis, history: LiftHistory) -> str:
    """Say why no load comes of a percentage of a max yet; empty where one does."""
    if not basis.of:
        return open_words(planned)
    if basis.of == "added":
        return NONE_ADDED.format(reps=planned.of_reps) if of.amount < 0 else ""
    return BODY_FIRST.format(lift=planned.lift.name) if planned.lift.body and not history.body_masses else ""


def basis_of(scene: Scene, planned: PlannedSetRow, step: MemberStepRow, added: Decimal | None) -> Basis:
    """Return what the percentage of a set is of.

    Args:
        scene: Who trains.
        planned: The set.
        step: Its session, with the coach's words.
        added: What is added to the body in the max that it refers to; None where no max is known.
    """
    if not planned.lift.body or planned.percent is None:
        return Basis()
    of_lift = [each.words for each in step.sets if each.block == planned.block]
    if said := share_said(planned.words, *of_lift) or share_said(*_on_percentages(step.text)):
        return Basis(said, "as the sheet says")
    if added is not None and added <= 0:
        return Basis()  # of a max without a load only one of the two can be meant
    return Basis(chosen(scene, planned.lift.id), "as you said")


def chosen(scene: Scene, lift_id: str) -> BodyShare:
    """Return what a member said that percentages of a lift are of; empty where they said nothing."""
    newest = next((each for each in scene.choices if each.what == WHAT and each.get("lift") == lift_id), None)
    of = newest.get("of") if newest else ""
    return "added" if of == "added" else "whole" if of == "whole" else ""


def share_of(history: LiftHistory, load: Mass, share: Decimal, day: date, of: BodyShare) -> Mass:
    """Return a share of a max: of what is added to the body alone, or of all that is moved."""
    return Mass(load.amount * share, load.unit) if of == "added" else history.share(load, share, day)


def open_words(planned: PlannedSetRow) -> str:
    """Say that nothing says what the percentage is of."""
    percent = plain(planned.percent) if planned.percent is not None else "?"
    return f"The sheet leaves open what {percent} % is of: choose, or type a load of your own."


def body_words(history: LiftHistory, day: date) -> str:
    """Say which body mass a load was worked out with, and how old it is; nothing where none is known."""
    known = [(when, mass) for when, mass in history.body_masses if when <= day] or list(history.body_masses[:1])
    if not known:
        return ""
    when, mass = known[-1]
    return f"With a body mass of {short(mass)}, {ago((day - when).days)}."


def label(of: BodyShare, made: str) -> str:
    """Say one of the two answers, with what it comes to here where that is known."""
    return f"Of {OF[of]}{f': {made}' if made else ''}"


def _on_percentages(text: str) -> list[str]:
    return [line for line in text.splitlines() if "%" in line or "percent" in line.lower()]


@may("change")
def say(log: Log, member_id: str, lift_id: str, of: BodyShare, day: date) -> LiftRecord:
    """Keep what percentages of a lift are of where a sheet does not say; undo takes it back.

    Raises:
        BadInputError: if it is neither of the two, or there is no such lift.
    """
    if of not in OF:
        raise BadInputError(
            "A percentage can't be of that.", where="percentage", mend=f"Choose {OF['added']} or {OF['whole']}."
        )
    with log.act("said what a percentage is of", member_id, own=True) as act:
        lift = log_members.lift(act.session, lift_id)
        if lift is None:
            raise BadInputError("This lift is not in the log any more.", where="lift", mend="Reload the page.")
        act.words = f"{lift.title}: percentages are of {OF[of]}"
        log_choices.choose(act, member_id, WHAT, day, lift=lift_id, of=of)
    return lift
