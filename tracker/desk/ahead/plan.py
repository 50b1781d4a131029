"""A wave looked at before it is done: a plan, a coach's sheet, or what stands in the calendar; for one member, and for a class."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from itertools import groupby

from tracker.desk.ahead import sets_ahead
from tracker.desk.ahead.sets_ahead import SessionAhead, SetsAhead
from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day import sore
from tracker.desk.day.lines import LESS_LIKELY, UNLIKELY
from tracker.desk.day.scene import read_scene, with_sore
from tracker.desk.maxes.words import full_day
from tracker.desk.people import places
from tracker.desk.sheet.sheet_rows import steps_of
from tracker.desk.sheet.sheets import suggested_start
from tracker.errors import BadInputError
from tracker.log import members as log_members
from tracker.log import waves as log_waves
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log
from tracker.prescription.sheet.model import Sheet
from tracker.units import plain
from tracker.wording import counted

COMING_WEEKS = 12  # of the calendar that are looked at; own choice
MOST_MEMBERS = 40  # a class
RULE = (
    f"Likely is {LESS_LIKELY * 100:.0f} % and more; below that it may not go up, below {UNLIKELY * 100:.0f} % it is probably too heavy. "
    f"Easy: as likely as not {sets_ahead.EASY_LEFT} or more repetitions would be left. Hard sets: at most {sets_ahead.HARD_LEFT} would be left, "
    "common practice."
)
SUPPOSED = (
    "What is believed now of each day to come, if you train on as you have; no promise. The coach's percentages stand as "
    "they are."
)


@dataclass(frozen=True, slots=True)
class WeekAhead:
    """One week of a plan, the first being 1, a block of seven days that ends with the last session's weekday.

    `percents` are the lowest and the highest that are asked; `least` is the least chance on its day.
    """

    number: int
    begins: date
    sessions: int
    percents: tuple[Decimal, Decimal] | None
    hard: int
    least: float | None
    test: bool


@dataclass(frozen=True, slots=True)
class WaveAhead:
    """Coming sessions of one member, with what is said of them in words."""

    member: MemberRecord
    sessions: tuple[SessionAhead, ...]
    weeks: tuple[WeekAhead, ...]
    words: tuple[str, ...]

    @property
    def hard_sets(self) -> int:
        return sum(week.hard for week in self.weeks)


@may("see")
@cached_until_write
def foresee(log: Log, member: MemberRecord, sheet: Sheet, today: date, start: date | None = None) -> WaveAhead:
    """Look at a sheet before it is taken, as its member sees it: what hurts is left out by their own word."""
    hurts = sore.state(log, member.id)
    first = start or suggested_start(sheet, today)
    with log.reading() as session:
        scene = with_sore(read_scene(session, log.name, member, places.read_place(session, member), today), hurts)
        found = sets_ahead.read(session, scene, steps_of(session, sheet, member.id, first))
    return _wave(member, sets_ahead.worked_out(found))


@may("see")
@cached_until_write
def coming(log: Log, member: MemberRecord, today: date) -> WaveAhead:
    """Look at what stands in the member's calendar for the coming weeks, whoever wrote it."""
    hurts, last = sore.state(log, member.id), today + timedelta(weeks=COMING_WEEKS)
    with log.reading() as session:
        scene = with_sore(read_scene(session, log.name, member, places.read_place(session, member), today), hurts)
        steps = log_waves.member_steps(session, member.id)
        ahead = [each for each in steps if each.state == "planned" and not each.own and today <= each.due <= last]
        found = sets_ahead.read(session, scene, ahead)
    return _wave(member, sets_ahead.worked_out(found))


@may("lead")
@cached_until_write
def of_class(
    log: Log, member_ids: Sequence[str], sheet: Sheet, today: date, start: date | None = None
) -> tuple[WaveAhead, ...]:
    """Look at a sheet for each of a class, in the order of their names; what hurts them is nobody else's to see.

    Raises:
        BadInputError: if nobody is chosen, more than a class, or somebody who is not in the log.
    """
    ids = tuple(dict.fromkeys(member_ids))
    if not 1 <= len(ids) <= MOST_MEMBERS:
        raise BadInputError(
            f"A class of {len(ids)} can't be.", where="class", mend=f"Choose 1 to {MOST_MEMBERS} members."
        )
    first, read = start or suggested_start(sheet, today), list[tuple[MemberRecord, sets_ahead.Read]]()
    for each in ids:
        with log.reading() as session:
            member = log_members.member(session, each)
            if member is None:
                raise BadInputError("A member is not in the log any more.", where="class", mend="Choose again.")
            scene = read_scene(session, log.name, member, places.read_place(session, member), today)
            read.append((member, sets_ahead.read(session, scene, steps_of(session, sheet, member.id, first))))
    read.sort(key=lambda each: each[0].name.casefold())
    return tuple(_wave(member, sets_ahead.worked_out(found)) for member, found in read)


def _wave(member: MemberRecord, sessions: tuple[SessionAhead, ...]) -> WaveAhead:
    return WaveAhead(member, sessions, weeks_of(sessions), words_of(sessions))


def weeks_of(sessions: Sequence[SessionAhead]) -> tuple[WeekAhead, ...]:
    """Sum sessions up by weeks, counted backward from the last one, so that each ends with its weekday."""
    if not sessions:
        return ()
    first, last = min(each.day for each in sessions), max(each.day for each in sessions)
    many = (last - first).days // 7 + 1
    numbered = sorted(sessions, key=lambda each: each.day)
    weeks = groupby(numbered, key=lambda each: many - (last - each.day).days // 7)
    return tuple(
        _week(number, last - timedelta(days=7 * (many - number + 1) - 1), tuple(found)) for number, found in weeks
    )


def _week(number: int, begins: date, found: Sequence[SessionAhead]) -> WeekAhead:
    sets = [each for session in found for each in session.sets]
    asked = [each.percent for each in sets if each.percent is not None]
    return WeekAhead(
        number, begins, len(found), (min(asked), max(asked)) if asked else None, sum(each.hard for each in sets),
        min((each.then for each in sets if each.then is not None), default=None), any(each.test for each in sets),
    )  # fmt: skip


def words_of(sessions: Sequence[SessionAhead]) -> tuple[str, ...]:
    """Say where sets are likely, where they may be too heavy or are easy, and of which nothing is said."""
    sets = [(session, each) for session in sessions for each in session.sets if not each.test]
    many = {verdict: sum(each.sets for _, each in sets if each.verdict == verdict) for verdict in ("likely", "easy", "less likely", "unlikely", "")}  # fmt: skip
    told = sum(many.values()) - many[""]
    found: list[str] = []
    if told:
        well = many["likely"] + many["easy"]
        found.append(f"Of {counted(told, 'set')} {well} {'is' if well == 1 else 'are'} likely on their day.")
    for verdict, said in (("less likely", "may not go up"), ("unlikely", "probably too heavy")):
        if many[verdict]:
            found.append(f"{counted(many[verdict], 'set')} {said}: first {_first(sets, verdict)}.")
    if many["easy"]:
        found.append(f"{counted(many['easy'], 'set')} would be easy; your coach may mean it so.")
    if many[""]:
        why = dict.fromkeys(reason for _, each in sets if not each.verdict for reason in each.why if not each.made)
        found.append(f"Of {counted(many[''], 'set')} no chance is said. {' '.join(why)}".strip())
    return tuple(found)


def _first(sets: Sequence[tuple[SessionAhead, SetsAhead]], verdict: str) -> str:
    session, each = next((session, each) for session, each in sets if each.verdict == verdict)
    at = f" at {plain(each.percent)} %" if each.percent is not None else ""
    chance = f", {min(max(round(100 * (each.then or 0)), 1), 99)} % likely"
    return f"{each.lift.name} {each.sets} × {each.reps}{at} on {full_day(session.day)}{chance}"
