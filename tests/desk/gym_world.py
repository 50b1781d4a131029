"""A gym of invented members on one log, each with one of everything that can be theirs: for tests of who may do what."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from sqlalchemy import insert, select

from tests.day import this_day
from tests.loads import kg
from tests.undoing import newest_act, undo_newest
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.ahead import goals
from tracker.desk.coach import classes, send_result
from tracker.desk.day import log_set, session_said, today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import accounts, groups, people, places
from tracker.desk.pieces import clocks, conditioning
from tracker.desk.pieces.piece_entry import Said
from tracker.desk.sheet import sheets
from tracker.log.columns import Base
from tracker.log.models import Change
from tracker.log.records import LiftRecord, MemberRecord, MemberStepRow, PlaceRecord
from tracker.log.rep_maxes import rep_maxes as rep_maxes_of
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import end_wave
from tracker.log.who import Who

SHEET = """\
Title: {title}
Week 1, day 1: Squat
Front squat, barbell, % of 3RM
2 x 3 @ 70 %
Week 1, day 3: Squat again
Front squat, barbell, % of 3RM
2 x 3 @ {percent} %
"""
NAMES = ("Ana", "Bea", "Cyr", "Dag", "Eve", "Fay")
SHARING = ("Bea", "Eve")  # Cyr keeps his log to himself; Dag is the coach, Fay the owner, each with a log of their own


@dataclass(frozen=True)
class Theirs:
    """One member, one of each record of theirs, and one of each of the gym's that nobody else has used."""

    member: MemberRecord
    day: date
    set_id: str
    seen: Any
    session_id: str
    score_id: str
    clock_id: str
    rep_max_id: str
    goal_id: str
    reached_id: str  # a goal that the first set reaches
    step: MemberStepRow
    wave_id: str
    fresh_wave: str  # of the gym, that they don't do
    piece_id: str
    place: PlaceRecord
    lift: LiftRecord
    unasked: LiftRecord
    act_id: str
    account_id: str
    group_id: str  # of theirs alone
    class_id: str  # of that group
    line: str  # a result of theirs that the log does not have yet

    @property
    def id(self) -> str:
        return self.member.id


@dataclass(frozen=True)
class World:
    """Who is there, and all rows of the log, table by table."""

    of: dict[str, Theirs]
    rows: dict[str, list[dict[str, Any]]]

    def into(self, log: Log) -> None:
        """Write all of it into an empty log, of whatever database."""
        with log.engine.begin() as connection:
            for table in Base.metadata.sorted_tables:
                if self.rows[table.name]:
                    connection.execute(insert(table), self.rows[table.name])

    def who(self, role: str) -> Who:
        """Return who acts in a role: Ana is the member."""
        names = {"member": "Ana", "coach": "Dag", "owner": "Fay"}
        return Who(role, self.of[names[role]].id, names[role]) if role in names else Who("nobody", identity=("i", "s"))


def make(log: Log) -> World:
    """Fill a log with the gym."""
    of = {name: _member(log, name) for name in NAMES}
    for name in SHARING:
        accounts.share(log, of[name].id, shared=True)
    with log.engine.connect() as connection:
        rows = {
            table.name: [dict(row) for row in connection.execute(select(table)).mappings()]
            for table in Base.metadata.sorted_tables
        }
    for row in rows[Change.__tablename__]:
        row.pop("number")  # each database counts for itself
    return World(of, rows)


def _member(log: Log, name: str) -> Theirs:
    day = this_day() - timedelta(days=2)
    place = places.add_place(log, f"Hall {name}", "kg")
    member = people.add_member(log, name)
    people.go_to_place(log, member.id, place.id)
    people.weigh(log, member.id, day, kg(70))
    squat = people.add_lift(log, "front squat", "barbell")
    unasked = people.add_lift(log, f"odd lift {name}", "unasked")
    rep_maxes.add_rep_max(log, member.id, squat.id, day - timedelta(days=9), 3, kg(100), tested=True)
    row = log_set.log_set(log, member.id, day, NewSet(squat.id, kg(80), 5, Decimal(2)))
    log_set.log_set(log, member.id, this_day(), NewSet(squat.id, kg(82), 5, Decimal(2)))
    line = send_result.result_line(log, member.id, this_day())
    undo_newest(log, member.id)
    session_said.rate_session(log, row.session_id, member.id, rating=6, minutes=50, note="")
    piece = conditioning.add_piece(
        log, Piece(f"Swings {name}", "for time", (Task("kettlebell swing", Steady(30)),), rounds=1)
    )
    score = conditioning.log_score(log, member.id, piece.id, day, Said("3:20"))
    clock = clocks.start_clock(log, member.id, piece.id, this_day())
    taken = sheets.take_sheet(log, [member.id], SHEET.format(title=f"Tide {name}", percent=75), this_day())
    fresh = sheets.take_sheet(log, [member.id], SHEET.format(title=f"Ebb {name}", percent=75), this_day())
    with log.act("took them off") as act:
        end_wave(act, member.id, fresh.wave_id, this_day() - timedelta(days=1))
    goal = goals.set_lift_goal(log, member.id, squat.id, reps=3, load=kg(130), by=None, day=this_day())
    there = goals.set_lift_goal(log, member.id, squat.id, reps=5, load=kg(60), by=None, day=day - timedelta(days=3))
    log_set.log_set(log, member.id, day, NewSet(squat.id, kg(85), 3, Decimal(2)))
    newest = newest_act(log, member.id)
    assert newest is not None
    with log.reading() as session:
        known = rep_maxes_of(session, member.id)[0].id
    accounts.enter(log, "https://door.example", f"subject-{name}", "member", member.id)
    account = next(each for each in accounts.accounts(log) if each.member_id == member.id)
    step = next(each for each in today.steps(log, member.id) if each.wave_id == taken.wave_id)
    group = groups.add_group(log, f"Crew {name}")
    groups.put_in_group(log, group, [member.id])
    alone = [member.id] if name in SHARING else []
    evening = classes.add_class(log, f"Evening {name}", "Mon 18:00", group_id=group, member_ids=alone)
    again = people.member(log, member.id)
    assert again is not None
    return Theirs(
        again, day, row.id, row, row.session_id, score.id, clock.id, known, goal, there, step, taken.wave_id, fresh.wave_id, piece.id,
        place, squat, unasked, newest.act_id, account.id, group, evening, line,
    )  # fmt: skip
