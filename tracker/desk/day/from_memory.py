"""A session that is logged afterwards: all of it as planned in one touch, on the day on which it was really done.

What only the member can say is left open: sets that are taken as far as they go, tests, and what has no load here.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.log_set import check_set, with_body_mass
from tracker.desk.day.step_state import finish_if_done
from tracker.desk.day.today import DayPlan, day_plan
from tracker.desk.people.people import check_day
from tracker.errors import BadInputError
from tracker.log import day_marks
from tracker.log import members as log_members
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass
from tracker.wording import counted


@dataclass(frozen=True, slots=True)
class Logged:
    """What was logged of a session, and how many sets the member still has to say themselves."""

    title: str
    sets: int
    left: int
    day: date

    @property
    def words(self) -> str:
        said = f"Logged {self.title} as planned: {counted(self.sets, 'set')}"
        return f"{said}. {counted(self.left, 'set')} only you can say." if self.left else said


def as_planned(plan: DayPlan) -> tuple[PlannedLine, ...]:
    """List the open sets of a session of which load and repetitions are known without asking anybody."""
    return () if plan.closed else tuple(line for line in plan.lines if is_sayable(line))


def is_sayable(line: PlannedLine) -> bool:
    """Whether a set is open, and what was done of it is known if it was done as planned."""
    asked = line.planned.rep_out or line.planned.test or line.painful or line.held is not None
    return line.open and line.made is not None and not asked


def as_said(line: PlannedLine, masses: tuple[tuple[date, Mass], ...], day: date) -> NewSet:
    """Return a set as it is planned, with the body mass of the day where it lifts the body.

    Raises:
        BadInputError: if it can't have happened, or no body mass is known.
    """
    assert line.made is not None
    new = NewSet(
        line.lift.id, line.made.load, line.reps, planned_set_id=line.planned.id, planned_round=line.number,
        member_step_id=line.step_id,
    )  # fmt: skip
    return check_set(with_body_mass(new, line.lift, masses, day), line.lift)


@may("change")
def log_as_planned(
    log: Log,
    member_id: str,
    day: date,
    *,
    member_step_id: str | None = None,
    done_on: date | None = None,
    first: int | None = None,
) -> Logged:
    """Log all open sets of the session that is on as they are planned, in one act; only so many of the `first` if that is given.

    Args:
        log: The log.
        member_id: Whose.
        day: The day on which the session is on.
        member_step_id: The session that somebody chose, as for `day_plan`.
        done_on: The day on which it was done, where that is another one: the session goes there, and says from where.
        first: Only so many of the first ones, where not all were done.

    Raises:
        BadInputError: if no session is on, nothing of it can be logged so, or the day can't be.
    """
    when = check_day(done_on or day)
    plan = day_plan(log, member_id, day, member_step_id=member_step_id)
    step = plan.step
    if step is None:
        raise BadInputError("No session is on.", where="session", mend="Log the sets one by one.")
    lines = as_planned(plan)[:first]
    if not lines and when == day:
        raise BadInputError(
            "Nothing of it can be logged as planned.", where=step.title, mend="Say of each set what was done."
        )
    with log.reading() as session:
        masses = log_members.body_masses(session, member_id)
    new = [as_said(line, masses, when) for line in lines]
    on = "" if when == day else f", done on {when.isoformat()}"
    with log.act(f"logged {step.title} as planned: {counted(len(new), 'set')}{on}", member_id, own=True) as act:
        there = log_sets.planned_rounds_done(act.session, step.id)  # another phone may have been first
        wanted = [each for each in new if (each.planned_set_id, each.planned_round) not in there]
        if when != day:
            log_waves.set_due(act, step.id, when)
            day_marks.put(act, member_id, when, step.id, "begun")
        for each in wanted:
            log_sets.add_set(act, member_id, when, each, place_id=plan.member.place_id)
        finish_if_done(act, member_id, step.id)
    left = sum(line.open for line in plan.lines) - len(lines)
    return Logged(step.title, len(wanted), left, when)
