"""Which max the percentages of a complex are of, where the one that the sheet means is not known: asked once for each complex.

"Clean + front squat + jerk at 70 %" has seldom a max of its own, and "of clean and jerk" may find none in the log. The maxes
of its parts stand beside, each with its load: which of them counts is the coach's to say, so it is asked and not guessed.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.day.scene import Scene
from tracker.desk.maxes.references import Reference
from tracker.desk.maxes.words import load_words
from tracker.errors import BadInputError
from tracker.log import choices as log_choices
from tracker.log import members as log_members
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import sets as log_sets
from tracker.log.choices import What
from tracker.log.records import LiftRecord, PlannedSetRow
from tracker.log.unit_of_work import Log, Reader

WHAT: What = "max of"
JOINED = " + "  # between the lifts of a complex
ASK = "Of which of your maxes is it for {lift}? Your coach knows; it is asked once."


def is_open(planned: PlannedSetRow) -> bool:
    """Whether a set is a complex at a percentage, so that its max may be another lift's."""
    return planned.percent is not None and planned.of_reps is not None and JOINED in planned.lift.name


def candidates(session: Reader, member_id: str, planned: PlannedSetRow) -> tuple[LiftRecord, ...]:
    """List the lifts of which the member has a max or a test for as many repetitions, and which a complex is made of."""
    if not is_open(planned):
        return ()
    parts = [part.strip().casefold() for part in planned.lift.name.split(JOINED)]
    maxes = log_rep_maxes.rep_maxes(session, member_id)
    lifts = {row.lift.id: row.lift for row in maxes if row.reps == planned.of_reps}
    done = (lift for lift, _, _ in log_sets.lifts_done(session, member_id) if _is_of(lift, planned, parts))
    tested = (
        lift
        for lift in done
        for row in log_sets.sets_of(session, member_id, lift_id=lift.id)
        if row.kind == "test" and row.outcome == "done" and row.reps == planned.of_reps
    )
    lifts |= {lift.id: lift for lift in tested}
    found = [lift for lift in lifts.values() if _is_of(lift, planned, parts)]
    return tuple(sorted(found, key=lambda lift: (_part(lift, parts), lift.name)))


def _part(lift: LiftRecord, parts: Sequence[str]) -> int:
    """Return with which of the complex's lifts a name begins or goes together first."""
    name = lift.name.casefold()
    return next((at for at, part in enumerate(parts) if part in name or name in part), len(parts))


def _is_of(lift: LiftRecord, planned: PlannedSetRow, parts: Sequence[str]) -> bool:
    name = lift.name.casefold()
    same = lift.implement == planned.lift.implement and lift.id != planned.lift.id
    return same and JOINED not in name and _part(lift, parts) < len(parts)


def chosen(scene: Scene, planned: PlannedSetRow, known: Sequence[LiftRecord]) -> LiftRecord | None:
    """Return the lift whose max the member said counts for a complex; None where they said nothing, or it has none now."""
    newest = next((each for each in scene.choices if each.what == WHAT and each.get("lift") == planned.lift.id), None)
    return next((lift for lift in known if newest is not None and lift.id == newest.get("of")), None)


def ask_words(lift: LiftRecord) -> str:
    return ASK.format(lift=lift.name)


def label(of: LiftRecord, reference: Reference) -> str:
    """Say one of the maxes that may count: `Clean: 1RM 100 kg`."""
    return f"{of.name[:1].upper()}{of.name[1:]}: {reference.reps}RM {load_words(reference.shown, of)}"


@may("change")
def say(log: Log, member_id: str, lift_id: str, of_id: str, day: date) -> LiftRecord:
    """Keep whose max the percentages of a complex are of; undo takes it back.

    Raises:
        BadInputError: if one of the lifts is not in the log.
    """
    with log.act("said which max counts", member_id, own=True) as act:
        lift, of = log_members.lift(act.session, lift_id), log_members.lift(act.session, of_id)
        if lift is None or of is None:
            raise BadInputError("This lift is not in the log any more.", where="lift", mend="Reload the page.")
        act.words = f"{lift.title}: percentages are of the max of {of.title}"
        log_choices.choose(act, member_id, WHAT, day, lift=lift_id, of=of_id)
    return of
