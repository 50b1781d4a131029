"""A set or a test that beats the max in use: whether it becomes the max is asked once, at once, and answered in one touch.

Nothing is worked out of it: a three is a max for three, and of what it would be for one nobody is told here.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from tracker.desk.base.roles import may
from tracker.desk.day.more_words import on_day_words
from tracker.desk.day.today import DayPlan
from tracker.desk.day.training import as_new
from tracker.desk.maxes import estimates
from tracker.desk.maxes.references import Reference, references
from tracker.desk.maxes.words import load_words
from tracker.errors import BadInputError
from tracker.log import choices as log_choices
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import sets as log_sets
from tracker.log.records import MemberRecord, SetRow
from tracker.log.unit_of_work import Log

WHAT = "new max"
SAID = ("tested", "declared")
NOT_TAKEN = "not taken as the max"  # why a test is left out, in the member's own list


@dataclass(frozen=True, slots=True)
class NewMax:
    """A set of the day that beats the max in use for so many repetitions; `tested` where it was done as a test."""

    row: SetRow
    reps: int
    before: Reference
    tested: bool

    def words(self, plan: DayPlan) -> str:
        """Say it: `Best for three repetitions ...` with what is in use, and ask."""
        lift = self.row.lift
        now, old = load_words(self.row.load, lift), load_words(self.before.load, lift)
        return (
            f"{lift.title}: {now} for {self.row.reps}. Your {self.reps}RM in use is {old}, {self.before.source} "
            f"{on_day_words(self.before.day, plan.day)}. Is {now} your {self.reps}RM from now on?"
        )

    @property
    def yes(self) -> str:
        return f"Yes: {self.reps}RM {load_words(self.row.load, self.row.lift)}"

    @property
    def no(self) -> str:
        return f"No: it stays {load_words(self.before.load, self.row.lift)}"


@may("see")
def asked(log: Log, member: MemberRecord, plan: DayPlan) -> NewMax | None:
    """Return the newest set of a day that beats a max in use and of which nobody has said whether it becomes the max."""
    answered = {each.get("set") for each in plan.choices if each.what == WHAT}
    testing = {line.planned.id for line in plan.lines if line.planned.test and line.open}
    seen: set[str] = set()
    for row in sorted(plan.sets, key=lambda each: each.position, reverse=True):
        if row.kind == "ramp" or row.left_out or row.outcome != "done" or not row.reps or row.planned_set_id in testing:
            continue
        if row.lift.id in seen:
            continue
        found = _beats(log, member, plan, row)
        if found is not None:
            seen.add(row.lift.id)
            if row.id not in answered:
                return found
    return None


def _beats(log: Log, member: MemberRecord, plan: DayPlan, row: SetRow) -> NewMax | None:
    history = estimates.history(log, member.id, row.lift)
    tested = row.kind == "test"
    if tested:  # it counts already: what was in use without it
        history = replace(history, sets=tuple(each for each in history.sets if each.id != row.id))
    counts = {each.reps for each in history.rep_maxes} | {each.reps for each in history.sets if each.kind == "test"}
    for reps in sorted((each for each in counts if each and each <= row.reps), reverse=True):
        if tested and reps != row.reps:
            continue
        before = next((each for each in references(history, reps, plan.day, member.unit) if each.source in SAID), None)
        if before is not None and row.load.kg > before.load.kg:
            return NewMax(row, reps, before, tested)
    return None


@may("change")
def answer(log: Log, member_id: str, set_id: str, reps: int, *, yes: bool) -> None:
    """Keep whether a set becomes the max for so many repetitions; undo takes it back.

    A test that does not is left out, as one that its member set aside is; a set that does is a tested max of its day.

    Raises:
        BadInputError: if the set is not in the log any more.
    """
    with log.act("said whether a set becomes the max", member_id, own=True) as act:
        row = log_sets.one_set(act.session, set_id)
        if row is None or row.removed_at or row.member_id != member_id:
            raise BadInputError("This set is not in the log any more.", where="set", mend="Reload the page.")
        load = load_words(row.load, row.lift)
        act.words = f"{row.lift.title}: {load} is {'' if yes else 'not '}the {reps}RM"
        log_choices.choose(act, member_id, "new max", row.day, set=set_id, how="yes" if yes else "no")
        if yes and row.kind != "test":
            log_rep_maxes.add_rep_max(act, member_id, row.lift.id, row.day, reps, row.load, "tested")
        elif not yes and row.kind == "test":
            log_sets.change_set(act, set_id, replace(as_new(row), left_out=NOT_TAKEN))
