"""What is asked of a plan, held to what can be: lifts with percentages, weeks, days, shape, and the day on which it ends."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Literal, get_args

from tracker.errors import BadInputError, together
from tracker.limits import MOST_RM
from tracker.prescription.plan.taper import MOST_TAPER
from tracker.prescription.sheet.model import Implement
from tracker.units import plain
from tracker.wording import counted

Shape = Literal["steady", "step", "wave"]
SHAPES: tuple[Shape, ...] = get_args(Shape)
MOST_WEEKS, MOST_LIFTS = 52, 8  # more is a slip of the finger; design
MOST_SETS, MOST_REPS = 15, 20  # of one lift in one session; design
LEAST_PERCENT, MOST_PERCENT = 20, 150  # below, no bar is planned by percentages; above, it is a slip; design
LEAST_EASIER = 2  # weeks: each week easier would be none


@dataclass(frozen=True, slots=True)
class PlanLift:
    """One lift of a plan: so many sets, from `start` to `end` per cent of its nRM, and from `reps` to `end_reps` repetitions.

    Raises:
        BadInputError: if one of these can't be; it names the lift.
    """

    name: str
    of_reps: int
    start: Decimal
    end: Decimal
    sets: int
    reps: int
    end_reps: int | None = None  # none: the same to the end
    implement: Implement = "barbell"
    each_side: bool = False

    def __post_init__(self) -> None:
        where = self.name.strip() or "lift"
        together(
            lambda: _named(self.name),
            lambda: _held(self.of_reps, 1, MOST_RM, "{}RM", f"{where}, percentages of"),
            lambda: _held(self.start, LEAST_PERCENT, MOST_PERCENT, "{} %", f"{where}, first percentage"),
            lambda: _held(self.end, LEAST_PERCENT, MOST_PERCENT, "{} %", f"{where}, last percentage"),
            lambda: _rising(self.start, self.end, where),
            lambda: _held(self.sets, 1, MOST_SETS, "set", f"{where}, sets"),
            lambda: _held(self.reps, 1, MOST_REPS, "repetition", f"{where}, repetitions"),
            lambda: _held(self.end_reps or self.reps, 1, MOST_REPS, "repetition", f"{where}, repetitions at the end"),
        )

    @property
    def last_reps(self) -> int:
        return self.end_reps or self.reps


@dataclass(frozen=True, slots=True)
class PlanAsk:
    """A plan that is asked for; `weeks` are blocks of seven days that end with `ends`, the taper and the test in them.

    Raises:
        BadInputError: if it can't be; it says which part, and how to mend it.
    """

    lifts: tuple[PlanLift, ...]
    ends: date  # of the test, or without one the last day
    weeks: int
    weekdays: tuple[int, ...]  # 0 is Monday
    shape: Shape = "steady"
    easier_every: int = 0  # each so many weeks one is easier; 0: none
    taper_weeks: int = 0
    test: bool = True
    test_reps: int | None = None  # none: the rep-max that the percentages of each lift are of
    in_turn: bool = False  # the lifts take turns over the days of a week, instead of all on each day
    title: str = ""

    def __post_init__(self) -> None:
        together(
            lambda: _some_lifts(self.lifts),
            lambda: _held(self.weeks, 1, MOST_WEEKS, "week", "weeks"),
            lambda: _days(self.weekdays),
            lambda: _shape(self.shape),
            lambda: _easier(self.easier_every),
            lambda: _taper(self.taper_weeks, self.weeks, test=self.test),
            lambda: _held(self.test_reps or 1, 1, MOST_RM, "{}RM", "test"),
        )
        if self.ends.toordinal() <= 7 * self.weeks:
            raise BadInputError(
                f"No calendar goes {counted(self.weeks, 'week')} before {self.ends}.",
                where="test day",
                mend="Choose a later day.",
            )

    @property
    def begins(self) -> date:
        """The first day of the first week, on which there need be no session."""
        return self.ends - timedelta(days=7 * self.weeks - 1)


def weeks_until(ends: date, today: date) -> int:
    """Return how many whole weeks there are from today to the last day, both with them, at most as many as a plan has.

    Raises:
        BadInputError: if there is not one.
    """
    weeks = ((ends - today).days + 1) // 7
    if weeks < 1:
        raise BadInputError(
            f"{ends} is less than a week away.", where="test day",
            mend=f"Choose {today + timedelta(days=6)} or a later day.",
        )  # fmt: skip
    return min(weeks, MOST_WEEKS)


def _named(name: str) -> None:
    if not name.strip() or not name.isprintable():
        raise BadInputError("A lift has no name that can be read.", where="lift", mend="Choose a lift.")


def _held(value: int | Decimal, least: int, most: int, words: str, where: str) -> None:
    if not least <= value <= most:
        said = words.format(plain(Decimal(value))) if "{}" in words else counted(int(value), words)
        raise BadInputError(f"{said} can't be planned.", where=where, mend=f"Choose {least} to {most}.")


def _rising(start: Decimal, end: Decimal, where: str) -> None:
    if end < start:
        raise BadInputError(
            f"It would fall from {plain(start)} to {plain(end)} %.", where=f"{where}, last percentage",
            mend="A plan goes up or stays: choose a last percentage that is not lower. The taper has fewer sets by itself.",
        )  # fmt: skip


def _some_lifts(lifts: tuple[PlanLift, ...]) -> None:
    if not 1 <= len(lifts) <= MOST_LIFTS:
        raise BadInputError(f"{len(lifts)} lifts can't be planned.", where="lifts", mend=f"Choose 1 to {MOST_LIFTS}.")
    names = [(each.name.casefold(), each.implement) for each in lifts]
    twice = next((each.name for each, known in zip(lifts, names, strict=True) if names.count(known) > 1), None)
    if twice is not None:
        raise BadInputError(f"{twice} is in it twice.", where="lifts", mend="Name each lift once.")


def _days(weekdays: tuple[int, ...]) -> None:
    if not weekdays:
        raise BadInputError("No day of the week is chosen.", where="days", mend="Choose one or more.")
    if len(set(weekdays)) < len(weekdays) or not all(0 <= each <= 6 for each in weekdays):
        raise BadInputError(
            "Those are no days of a week.", where="days", mend="Choose each of Monday to Sunday once at most."
        )


def _shape(shape: str) -> None:
    if shape not in SHAPES:
        raise BadInputError(f"{shape!r} is no shape of a plan.", where="shape", mend=f"Choose {', '.join(SHAPES)}.")


def _easier(every: int) -> None:
    if every and not LEAST_EASIER <= every <= MOST_WEEKS:
        raise BadInputError(
            f"Each {every} weeks an easier one can't be planned.", where="easier weeks",
            mend=f"Choose {LEAST_EASIER} or more, or none.",
        )  # fmt: skip


def _taper(taper: int, weeks: int, *, test: bool) -> None:
    if not 0 <= taper <= MOST_TAPER:
        raise BadInputError(
            f"A taper of {taper} weeks can't be planned.", where="taper", mend=f"Choose 0 to {MOST_TAPER} weeks."
        )
    if taper and not test:
        raise BadInputError(
            "A taper goes before a test, and there is none.", where="taper", mend="Plan a test, or no taper."
        )
    if taper and 1 <= weeks <= taper:
        raise BadInputError(
            f"A taper of {taper} of {weeks} weeks leaves none to train in.", where="taper",
            mend="Plan more weeks, or a shorter taper.",
        )  # fmt: skip
