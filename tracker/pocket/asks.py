"""What the desk asks of a day, as questions with answers of one touch each; and what an answer does.

An answer is one act of the log, so that a second sending of it is seen.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from tracker.desk.base.roles import may
from tracker.desk.day import attempts, back, body_percent, carried, complex_max, new_max
from tracker.desk.day.today import DayPlan
from tracker.desk.history import journal
from tracker.desk.maxes import rep_maxes
from tracker.desk.maxes.words import first_up, load_words
from tracker.errors import BadInputError
from tracker.log.records import LiftRecord
from tracker.log.unit_of_work import Log
from tracker.units import Mass

Record = dict[str, Any]


def asks(plan: DayPlan) -> list[Record]:
    """List the questions of a day, each with its answers."""
    return [*_break(plan), *_old(plan), *_new(plan), *_heavier(plan), *_percent_of(plan), *_max_of(plan)]


def _ask(key: str, words: str, *answers: tuple[str, Record]) -> Record:
    return {"key": key, "words": words, "answers": [{"words": said, "says": says} for said, says in answers]}


def _break(plan: DayPlan) -> Iterator[Record]:
    if not plan.asks_back or plan.back is None or plan.break_began is None:
        return
    since = {"since": plan.break_began.isoformat()}
    answers = [(f"{plan.back.percent} % lower", {"start": "lower", **since})]
    if not plan.back.long:
        answers.append(("As asked", {"start": "as asked", **since}))
    answers += [
        ("I trained meanwhile: same kit and loads", {"meanwhile": "same", **since}),
        ("I trained meanwhile, but lighter", {"meanwhile": "lighter", **since}),
    ]
    words = f"{plan.back.days_off} days without an entry. How do you start?"
    yield _ask(f"start {plan.break_began.isoformat()}", words, *answers)


def _old(plan: DayPlan) -> Iterator[Record]:
    for each in plan.old_maxes:
        reps, record = each.reference.reps, each.reference.record
        if plan.break_began is None or record is None:
            continue
        since = plan.break_began.isoformat()
        yield _ask(
            f"old {each.lift.id} {reps} {since}",
            f"{first_up(each.words)}, is from before the break. Does it still hold?",
            ("It still holds", {"holds": each.lift.id, "reps": reps, "since": since}),
            ("No: set it aside", {"aside": record[1], "is": record[0]}),
        )


def _new(plan: DayPlan) -> Iterator[Record]:
    found = plan.new_max
    if found is not None:
        says = {"max": found.row.id, "reps": found.reps}
        yield _ask(
            f"max {found.row.id}",
            found.words,
            (found.yes, {**says, "yes": True}),
            (found.no, {**says, "yes": False}),
        )


def _heavier(plan: DayPlan) -> Iterator[Record]:
    line = plan.next_line
    change = line.change if line else None
    if line is None or change is None or change.taken or change.down or line.made is None:
        return
    if line.made.load.kg != change.asked.kg:
        return
    yield heavier(line.step_id, line.lift, change.asked, change.done)


def heavier(step_id: str, lift: LiftRecord, asked: Mass, done: Mass) -> Record:
    """Ask whether the next sets go on with the load of a set that was done with more than it asked."""
    words = load_words(done, lift)
    return _ask(
        f"heavier {step_id} {lift.id} {done}",
        f"The last set was {words}, and {load_words(asked, lift)} was asked. And the next ones?",
        (f"Go on with {words}", _carry(step_id, lift.id, done, "take")),
        ("As asked", _carry(step_id, lift.id, done, "as asked")),
    )


def _percent_of(plan: DayPlan) -> Iterator[Record]:
    line = plan.next_line
    if line is None or not line.body_ways:
        return
    answers = [
        (
            body_percent.label(of, load_words(made.load, line.lift) if made else ""),
            {"percent_of": of, "lift": line.lift.id},
        )
        for of, made in line.body_ways
    ]
    yield _ask(f"percent {line.lift.id}", f"{line.lift.title}: {body_percent.open_words(line.planned)}", *answers)


def _max_of(plan: DayPlan) -> Iterator[Record]:
    line = plan.next_line
    if line is None or not line.max_ways:
        return
    answers = [
        (complex_max.label(of, reference), {"max_of": of.id, "lift": line.lift.id}) for of, reference in line.max_ways
    ]
    yield _ask(f"max of {line.lift.id}", complex_max.ask_words(line.lift), *answers)


def _carry(step_id: str, lift_id: str, load: Mass, how: str) -> Record:
    return {"carry": how, "step": step_id, "lift": lift_id, "load": format(load.amount, "f"), "unit": load.unit}


@may("change")
def take(log: Log, member_id: str, day: date, says: Mapping[str, Any]) -> bool:
    """Do what an answer says; False where it is of none of these questions.

    Raises:
        BadInputError: if it can't be read, or what it is about is gone.
    """
    try:
        return _take(log, member_id, day, says)
    except (KeyError, ValueError, ArithmeticError):
        raise BadInputError("The answer can't be read.", where="answer", mend="Reload the page.") from None


def _take(log: Log, member_id: str, day: date, says: Mapping[str, Any]) -> bool:
    if says.get("start") in ("lower", "as asked"):
        back.start(log, member_id, date.fromisoformat(says["since"]), day, says["start"])
    elif says.get("meanwhile") in ("same", "lighter"):
        back.trained_meanwhile(log, member_id, date.fromisoformat(says["since"]), day, says["meanwhile"])
    elif says.get("holds"):
        since = date.fromisoformat(says["since"])
        back.still_holds(log, member_id, str(says["holds"]), int(says["reps"]), since, day)
    elif says.get("aside") and says.get("is") == "set":
        journal.leave_out(log, str(says["aside"]), "set aside after a break")
    elif says.get("aside"):
        rep_maxes.set_aside(log, member_id, str(says["aside"]), day)
    elif says.get("max"):
        new_max.answer(log, member_id, str(says["max"]), int(says["reps"]), yes=says["yes"] is True)
    elif says.get("percent_of") in ("added", "whole"):
        body_percent.say(log, member_id, str(says["lift"]), says["percent_of"], day)
    elif says.get("max_of"):
        complex_max.say(log, member_id, str(says["lift"]), str(says["max_of"]), day)
    elif says.get("safety") in attempts.SAFETY:
        attempts.say_safety(log, member_id, str(says["step"]), str(says["planned"]), says["safety"], day)
    elif says.get("carry") in ("take", "as asked"):
        load = Mass(Decimal(says["load"]), "lb" if says["unit"] == "lb" else "kg")
        carried.carry_on(log, member_id, str(says["step"]), str(says["lift"]), load, day, says["carry"])
    else:
        return False
    return True
