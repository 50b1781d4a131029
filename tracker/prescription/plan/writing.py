"""A plan written as a coach's sheet, in the printed form: so it is read, printed, handed out and taken as any other."""

from __future__ import annotations

from decimal import Decimal

from tracker.errors import BadInputError
from tracker.limits import MOST_TITLE
from tracker.prescription.plan.ask import PlanAsk, PlanLift
from tracker.prescription.plan.layout import PlannedDay, days_of
from tracker.prescription.sheet import parse_sheet, print_sheet
from tracker.prescription.sheet.model import FindMax, LiftBlock, Of, Percent, Reps, Session, SetGroup, Sheet
from tracker.wording import counted

TEST = "Test day"


def plan_sheet(ask: PlanAsk) -> Sheet:
    """Write a plan as a sheet, each session with its date.

    Raises:
        BadInputError: if no day is left to train on.
    """
    days = days_of(ask)
    if not any(not each.test for each in days):
        raise BadInputError(
            "No day of these weeks is left to train on.", where="days",
            mend="Choose other days, or more weeks: the two days before a test stay free.",
        )  # fmt: skip
    return Sheet(tuple(_session(ask, each) for each in days), _title(ask))


def plan_text(ask: PlanAsk) -> str:
    """Write a plan as the text of a sheet, which is read back once to be sure that it says the same.

    Raises:
        BadInputError: if a lift's name would be read as something else.
    """
    sheet = plan_sheet(ask)
    text = print_sheet(sheet)
    if parse_sheet(text).sessions != sheet.sessions:
        names = [each.name for each in ask.lifts if not _reads_back(each)]
        raise BadInputError(
            f"On a sheet {' and '.join(names) or 'this plan'} would be read as something else.", where="lifts",
            mend="Give the lift a plainer name, such as back squat.",
        )  # fmt: skip
    return text


def _reads_back(lift: PlanLift) -> bool:
    sheet = Sheet((Session((_block(lift, _sets(3, 5, lift.end)),), "Session"),))
    return parse_sheet(print_sheet(sheet)).sessions == sheet.sessions


def _title(ask: PlanAsk) -> str:
    if ask.title:
        return ask.title
    names = " and ".join(_shown(each.name) for each in ask.lifts[:2]) + (" and more" if len(ask.lifts) > 2 else "")
    title = f"{names}, {'test' if ask.test else 'until'} {ask.ends.isoformat()}"
    return (
        title
        if len(title) <= MOST_TITLE
        else f"{counted(ask.weeks, 'week')}, {'test' if ask.test else 'until'} {ask.ends.isoformat()}"
    )


def _session(ask: PlanAsk, day: PlannedDay) -> Session:
    lifts = [(ask.lifts[each], day.week.lifts[each]) for each in day.lifts]
    if day.test:
        return Session(
            tuple(_block(lift, FindMax(ask.test_reps or lift.of_reps)) for lift, _ in lifts), TEST, on=day.day
        )
    kind = "" if day.week.kind == "training" else f", {day.week.kind}"
    title = f"Week {day.week.number} of {ask.weeks}, day {day.number}{kind}"
    return Session(
        tuple(_block(lift, _sets(each.sets, each.reps, each.percent)) for lift, each in lifts), title, on=day.day
    )


def _block(lift: PlanLift, sets: SetGroup | FindMax) -> LiftBlock:
    of = Of(lift.of_reps) if isinstance(sets, SetGroup) else None
    return LiftBlock(tuple(_shown(lift.name).split(" + ")), lift.implement, of, lift.each_side, sets=(sets,))


def _sets(sets: int, reps: int, percent: Decimal) -> SetGroup:
    return SetGroup(sets, Reps((reps,)), Percent(percent))


def _shown(name: str) -> str:
    """Write a lift as a sheet begins a line."""
    said = " ".join(name.split())
    return said[:1].upper() + said[1:]
