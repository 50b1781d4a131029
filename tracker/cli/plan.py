"""`tidemark plan`: a wave planned backward from a test day, or a coach's sheet, with how likely each set is on its day."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tracker.cli.options import DAY, FILE, database_option, json_option, member_named, with_log
from tracker.cli.output import say_json, say_table
from tracker.errors import BadInputError
from tracker.prescription.sheet.model import WEEKDAYS
from tracker.units import plain
from tracker.wording import counted

if TYPE_CHECKING:
    from tracker.desk.ahead.plan import WaveAhead
    from tracker.desk.ahead.sets_ahead import SessionAhead, SetsAhead
    from tracker.prescription.plan import PlanAsk, Shape
    from tracker.prescription.sheet.model import Sheet

USUAL_DAYS = {
    1: "1",
    2: "1,4",
    3: "1,3,5",
    4: "1,2,4,5",
    5: "1,2,3,4,5",
    6: "1,2,3,4,5,6",
    7: "1,2,3,4,5,6,7",
}  # common practice
DAYS_HELP = "Days of the week, such as mon,wed,fri; or how many."


@click.command()
@click.option(
    "--lift", "lifts", metavar="LIFT", multiple=True,
    help='A lift, repeatable: "back squat, barbell: 5x5-3 @ 65-85 of 5RM"; what stands behind the colon may be left out.',
)  # fmt: skip
@click.option("--test", "test_day", type=DAY, help="The day of the test, from which it is planned backward.")
@click.option("--until", type=DAY, help="The last day, where no test follows.")
@click.option("--weeks", type=int, help="How many, the test's week with them; without it as many as there are.")
@click.option("--days", default="3", show_default=True, metavar="DAYS", help=DAYS_HELP)
@click.option("--shape", type=click.Choice(["steady", "step", "wave"]), default="steady", show_default=True)
@click.option("--easier", type=int, default=0, metavar="N", help="Each N weeks an easier one; 0 is none.")
@click.option("--taper", type=int, help="Weeks of taper before the test, 0 to 2; 1 where there is room.")
@click.option(
    "--of", "test_reps", type=int, metavar="N", help="Test the nRM; without it the one that percentages are of."
)
@click.option("--in-turn", is_flag=True, help="The lifts take turns over the days, instead of all on each.")
@click.option("--sheet", "file", type=FILE, help="Look at a coach's sheet in place of a plan.")
@click.option(
    "--member", "names", metavar="NAME", multiple=True, help="Say how likely each set is for this member; repeatable."
)
@click.option("--start", type=DAY, help="The first day of a sheet that names none.")
@database_option
@json_option
def plan(
    lifts: tuple[str, ...], test_day: date | None, until: date | None, weeks: int | None, days: str, shape: Shape, easier: int,
    taper: int | None, test_reps: int | None, in_turn: bool, file: Path | None, names: tuple[str, ...], start: date | None,
    as_json: bool,
) -> None:  # fmt: skip
    """Plan a wave backward from the day of a test, as a sheet that can be printed, handed out and taken.

    Nothing is written: `tidemark sheet FILE --member NAME` takes it. With --member each set's load on the member's kit, and
    how likely it is now and as foretold for its day. No promise: it is what is believed if training goes on as it has.
    Percentages stay as they are asked.
    """
    if file is not None:
        if lifts or test_day or until:
            raise BadInputError("A sheet and a plan are both given.", where="--sheet", mend="Leave out one of the two.")
        text, sheet = _of_file(file)
    else:
        text, sheet = _planned(
            _ask(lifts, test_day, until, weeks, days, shape, easier, taper, test_reps, in_turn=in_turn)
        )
    found = _ahead(names, sheet, start) if names else ()
    if as_json:
        say_json({"sheet": text, "sessions": len(sheet.sessions), "members": [_record(each) for each in found]})
        return
    click.echo(text, nl=False)
    for each in found:
        _say(each)


def _of_file(file: Path) -> tuple[str, Sheet]:
    from tracker.exchange.csv_text import read_text
    from tracker.prescription.sheet import parse_sheet

    text = read_text(file, save_as="text in UTF-8")
    return text, parse_sheet(text, name=file.name, today=date.today())


def _planned(ask: PlanAsk) -> tuple[str, Sheet]:
    from tracker.prescription.plan import plan_sheet, plan_text

    return plan_text(ask), plan_sheet(ask)


def _ask(
    lifts: tuple[str, ...], test_day: date | None, until: date | None, weeks: int | None, days: str, shape: Shape, easier: int,
    taper: int | None, test_reps: int | None, *, in_turn: bool,
) -> PlanAsk:  # fmt: skip
    from tracker.prescription.plan import PlanAsk
    from tracker.prescription.plan.ask import weeks_until
    from tracker.prescription.plan.lift_line import lift_of

    if not lifts:
        raise BadInputError("No lift is named.", where="--lift", mend='Write such as --lift "back squat, barbell".')
    ends = test_day or until
    if ends is None or (test_day and until):
        raise BadInputError(
            "A plan has one last day.", where="--test", mend="Give --test DATE, or --until DATE without a test."
        )
    room = weeks_until(ends, date.today())
    many = room if weeks is None else weeks
    if many > room:
        raise BadInputError(
            f"Only {counted(room, 'week')} are left until {ends}.",
            where="--weeks",
            mend="Ask for fewer, or choose a later day.",
        )
    usual = 1 if test_day and many > 1 else 0
    return PlanAsk(
        tuple(lift_of(each, where="--lift") for each in lifts), ends, many, _weekdays(days), shape, easier,
        usual if taper is None else taper, test_day is not None, test_reps, in_turn,
    )  # fmt: skip


def _weekdays(text: str) -> tuple[int, ...]:
    """Read "mon,wed,fri", or how many days a week."""
    alone = text.strip()
    if alone.isdecimal() and int(alone) in USUAL_DAYS:
        return tuple(int(each) - 1 for each in USUAL_DAYS[int(alone)].split(","))
    found = [
        next(
            (
                at
                for at, day in enumerate(WEEKDAYS)
                if len(each.strip()) >= 2 and day.lower().startswith(each.strip().lower())
            ),
            -1,
        )
        for each in text.split(",")
    ]
    if -1 in found:
        raise BadInputError(
            f"{text!r} are no days of a week.", where="--days", mend="Write such as mon,wed,fri, or 1 to 7."
        )
    return tuple(sorted(found))


def _ahead(names: tuple[str, ...], sheet: Sheet, start: date | None) -> tuple[WaveAhead, ...]:
    from tracker.desk.ahead.plan import foresee

    log = with_log()
    members = [member_named(log, each) for each in dict.fromkeys(names)]
    return tuple(foresee(log, each, sheet, date.today(), start) for each in members)


def _record(found: WaveAhead) -> dict[str, Any]:
    return {
        "member": found.member.name,
        "words": list(found.words),
        "weeks": [
            {"week": each.number, "begins": each.begins.isoformat(), "sessions": each.sessions, "hard_sets": each.hard,
             "percent": [float(one) for one in each.percents] if each.percents else None, "least_chance": each.least, "test": each.test}
            for each in found.weeks
        ],
        "sessions": [_session(each) for each in found.sessions],
    }  # fmt: skip


def _session(found: SessionAhead) -> dict[str, Any]:
    return {"date": found.day.isoformat(), "title": found.title, "sets": [_sets(each) for each in found.sets]}


def _sets(found: SetsAhead) -> dict[str, Any]:
    made = found.made
    return {
        "lift": found.lift.title, "sets": found.sets, "reps": found.reps,
        "percent": None if found.percent is None else float(found.percent),
        "load": float(made.load.amount) if made else None, "unit": made.load.unit if made else None,
        "chance_now": found.now, "chance_then": found.then, "verdict": found.verdict, "hard_sets": found.hard,
        "test": found.test, "why": list(found.why),
    }  # fmt: skip


def _say(found: WaveAhead) -> None:
    from tracker.desk.ahead.plan import SUPPOSED

    click.echo(f"\n{found.member.name}")
    rows = [
        [
            session.day.isoformat(), each.lift.title, "test" if each.test else f"{each.sets} x {each.reps}",
            "" if each.percent is None else f"{plain(each.percent)} %", str(each.made.load) if each.made else "",
            _chance(each.now), _chance(each.then), each.verdict,
        ]
        for session in found.sessions
        for each in session.sets
    ]  # fmt: skip
    say_table(["date", "lift", "sets", "asked", "load", "now", "then", ""], rows, words=(0, 1, 7))
    for line in (*found.words, SUPPOSED):
        click.echo(line)


def _chance(chance: float | None) -> str:
    return "" if chance is None else f"{min(max(round(chance * 100), 1), 99)} %"
