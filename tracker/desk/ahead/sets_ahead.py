"""Each set of coming sessions: its load on the member's kit, and how likely it is now and as foretold for its day.

The loads are those of the day page and of Weights, worked out as they would be today; nothing that is asked is changed. On
the way back after weeks away the first sessions start lower, which is left out here: most sessions of a plan come later.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from datetime import date, timedelta
from decimal import Decimal
from itertools import groupby
from operator import attrgetter
from typing import Literal

from tracker.desk.day.lines import LESS_LIKELY, UNLIKELY, Grounds, PlannedLine, lines_on
from tracker.desk.day.other_ways import sets_here
from tracker.desk.day.scene import Scene
from tracker.desk.maxes import estimates
from tracker.desk.maxes.estimates import LiftHistory, Stored
from tracker.desk.people.places import MadeLoad
from tracker.desk.sheet import lift_side
from tracker.log import sides
from tracker.log.records import LiftRecord, MemberStepRow, PlannedSetRow
from tracker.log.unit_of_work import Reader
from tracker.strength.chance import AskedSet, chances_of
from tracker.strength.forecast import MOST_WEEKS, beliefs_on

EASY_LEFT = 6  # repetitions: what "six or more" in reserve means throughout
HARD_LEFT = 4  # at most, of a hard set; common practice, where "hard" means within some four of failure
AS_LIKELY = 0.5  # as likely as not so many would be left
ASKED = attrgetter(*(each.name for each in fields(PlannedSetRow) if each.name not in ("id", "position")))
Verdict = Literal["", "likely", "less likely", "unlikely", "easy"]


@dataclass(frozen=True, slots=True)
class SetsAhead:
    """Equal sets of one lift in one session: what is asked, made here, and how likely the least likely of them is.

    `now` and `then` are None where no chance is said: of a test, of as many as there are, and where too little is known.
    """

    lift: LiftRecord
    sets: int
    reps: int
    percent: Decimal | None
    made: MadeLoad | None
    now: float | None
    then: float | None
    hard: int  # sets of which at most four repetitions would be left on their day
    easy: bool  # six or more would be left
    test: bool
    why: tuple[str, ...]

    @property
    def verdict(self) -> Verdict:
        """Say in a word how the sets stand on their day; empty where no chance is said."""
        if self.then is None:
            return ""
        if self.then < UNLIKELY:
            return "unlikely"
        if self.then < LESS_LIKELY:
            return "less likely"
        return "easy" if self.easy else "likely"


@dataclass(frozen=True, slots=True)
class SessionAhead:
    """One session to come."""

    day: date
    title: str
    sets: tuple[SetsAhead, ...]


@dataclass(frozen=True, slots=True)
class Read:
    """All that the log says of coming sessions, read at once; `worked_out` makes of it what is foretold."""

    scene: Scene
    steps: tuple[MemberStepRow, ...]
    planned: tuple[tuple[PlannedSetRow, ...], ...]  # of each step, as place and side make them
    stored: tuple[Stored, ...]


def read(session: Reader, scene: Scene, steps: Sequence[MemberStepRow]) -> Read:
    """Read what coming sessions are worked out from, in a reading of whoever asks."""
    here = [sets_here(step, scene.member, scene.place, ()) for step in steps]
    asked = any(lift_side.pair_of(row) for rows in here for row in rows)
    side = sides.chosen(session, scene.member.id).newest if asked else None
    planned = tuple(tuple(lift_side.for_side(row, side) for row in rows) for rows in here)
    named = (lift for rows in planned for row in rows for lift in (row.lift, row.of_lift) if lift is not None)
    lifts = {lift.id: lift for lift in named}
    stored = tuple(estimates.read_lift(session, scene.log_name, scene.member.id, each) for each in lifts.values())
    return Read(scene, tuple(steps), planned, stored)


def worked_out(found: Read) -> tuple[SessionAhead, ...]:
    """Work out the loads and chances of coming sessions from what was read."""
    scene = replace(found.scene, back=None, asks_back=False)
    histories = {each.lift.id: estimates.worked_out(each) for each in found.stored}
    known: dict[object, tuple[PlannedLine, ...]] = {}
    lines = [
        _lines(scene, step, rows, found.stored, known) for step, rows in zip(found.steps, found.planned, strict=True)
    ]
    then = _then(scene.day, histories, found.steps, lines)
    return tuple(
        SessionAhead(step.due, step.title, tuple(_sets(scene, step, of_it, then, histories)))
        for step, of_it in zip(found.steps, lines, strict=True)
    )


def _lines(
    scene: Scene, step: MemberStepRow, rows: tuple[PlannedSetRow, ...], stored: tuple[Stored, ...],
    known: dict[object, tuple[PlannedLine, ...]],
) -> tuple[PlannedLine, ...]:  # fmt: skip
    """Work out the sets of a session, once for all sessions that ask the same in the same words."""
    if step.text or step.ease or step.ways:  # what the session says may change what a set is of
        return lines_on(scene, Grounds(step, rows, {}, stored))
    asked = tuple(map(ASKED, rows))
    if asked not in known:
        alike = tuple(replace(row, id=f"{place}", position=place) for place, row in enumerate(rows))
        known[asked] = lines_on(scene, Grounds(replace(step, sets=alike), alike, {}, stored))
    return known[asked]


Then = Mapping[
    tuple[str, date], Mapping[tuple[float, int, int], float]
]  # by lift and day, of load, repetitions, sets before


def _then(
    today: date,
    histories: Mapping[str, LiftHistory],
    steps: Sequence[MemberStepRow],
    lines: Sequence[Sequence[PlannedLine]],
) -> Then:
    """Foretell each lift for each of its days, all its sets at once."""
    asked: dict[str, dict[date, set[tuple[float, int, int]]]] = {}
    for step, of_it in zip(steps, lines, strict=True):
        for place, line in _numbered(of_it):
            if line.chance is not None and line.made is not None:
                moved = histories[line.lift.id].moved_kg(line.made.load, today)
                more = {(moved, line.reps + left, place) for left in (0, HARD_LEFT + 1, EASY_LEFT)}
                asked.setdefault(line.lift.id, {}).setdefault(step.due, set()).update(more)
    return {(lift, day): told for lift, days in asked.items() for day, told in _foretold(histories[lift], today, days)}


def _foretold(
    history: LiftHistory, today: date, days: Mapping[date, set[tuple[float, int, int]]]
) -> Iterator[tuple[date, Mapping[tuple[float, int, int], float]]]:
    model = history.model
    assert model is not None
    told, last = model.known(today).told, today + timedelta(weeks=MOST_WEEKS)
    coming = sorted(day for day in days if today < day <= last)
    beliefs = [*((day, model.belief(today)) for day in days if day <= today), *beliefs_on(model, today, coming)]
    for day, belief in beliefs:
        asked = sorted(days[day])
        yield day, dict(zip(asked, chances_of(belief, told, [AskedSet(*each) for each in asked]), strict=True))


def _numbered(lines: Sequence[PlannedLine]) -> Iterator[tuple[int, PlannedLine]]:
    """Put before each line how many sets of its lift come before it in the session."""
    before: dict[str, int] = {}
    for line in lines:
        yield before.get(line.lift.id, 0), line
        before[line.lift.id] = before.get(line.lift.id, 0) + 1


def _sets(scene: Scene, step: MemberStepRow, lines: Sequence[PlannedLine], then: Then, histories: Mapping[str, LiftHistory]) -> Iterator[SetsAhead]:  # fmt: skip
    for _, group in groupby(_numbered(lines), key=lambda each: each[1].planned.id):
        found = list(group)
        first = found[0][1]
        told = then.get((first.lift.id, step.due), {})
        moved = histories[first.lift.id].moved_kg(first.made.load, scene.day) if first.made else 0.0
        nothing = first.chance is None or not told
        chances = [] if nothing else [_three(told, moved, line.reps, place) for place, line in found]
        uncounted = first.planned.rep_out or first.planned.test
        yield SetsAhead(
            first.lift, len(found), first.reps, first.planned.percent, first.made,
            min((line.chance for _, line in found if line.chance is not None), default=None),
            min((each[0] for each in chances), default=None),
            len(found) if uncounted else sum(five_more < AS_LIKELY for _, five_more, _ in chances),
            bool(chances) and all(six_more >= AS_LIKELY for *_, six_more in chances), first.planned.test, first.why,
        )  # fmt: skip


def _three(
    told: Mapping[tuple[float, int, int], float], moved: float, reps: int, place: int
) -> tuple[float, float, float]:
    """Return how likely a set is, that five repetitions more than it are there, and that six are."""
    one, five, six = (told[moved, reps + more, place] for more in (0, HARD_LEFT + 1, EASY_LEFT))
    return one, five, six
