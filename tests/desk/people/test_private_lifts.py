"""A lift that a member makes is theirs: others do not see its name, and no refusal tells that it is there."""

from __future__ import annotations

import io
import json
import shutil
import sqlite3
import zipfile
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import select

from tests.day import this_day
from tests.desk.gym_world import SHEET, kg
from tests.taking_in import import_sets
from tests.undoing import undo_newest
from tracker.desk.coach import take_results
from tracker.desk.day import log_set, weights
from tracker.desk.files import deletion, take_away
from tracker.desk.files.check import check_log
from tracker.desk.history import journal
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.desk.pieces import conditioning
from tracker.desk.sheet import sheets
from tracker.errors import BadInputError
from tracker.exchange.result import Result, ResultSet
from tracker.exchange.result_line import write_line
from tracker.log.columns import Base, now
from tracker.log.engine import database_url
from tracker.log.models import Lift
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.who import RefusedError, Who, acting

SECRET = "box squat after the knee"
SCHEMAS = Path(__file__).parents[2] / "log"


@pytest.fixture
def gym(log, gym_world):
    gym_world.into(log)
    return log, gym_world


def member(world, name):
    return Who("member", world.of[name].id, name)


def every_row(log):
    with log.engine.connect() as connection:
        return {
            each.name: [tuple(row) for row in connection.execute(select(each))] for each in Base.metadata.sorted_tables
        }


def lift_of(log, lift_id):
    with log.engine.connect() as connection:
        return connection.execute(select(Lift.__table__).where(Lift.__table__.c.id == lift_id)).one_or_none()


def test_nobody_else_sees_it_and_each_may_have_the_name(gym):
    log, world = gym
    with acting(world.who("member")):
        mine = people.add_lift(log, SECRET, "barbell", member_id=world.of["Ana"].id)
        assert mine in people.lifts(log)
        assert mine in weights.lift_choices(log, world.of["Ana"].member)
    for person in (member(world, "Bea"), world.who("coach"), world.who("owner")):
        with acting(person):
            assert SECRET not in {each.name for each in people.lifts(log)}
            with log.reading() as session:
                assert session.get(Lift, mine.id) is None
                assert session.scalars(select(Lift).where(Lift.name == SECRET)).all() == []
    with acting(member(world, "Bea")):
        theirs = people.add_lift(log, SECRET, "barbell")
    assert theirs.id != mine.id
    assert lift_of(log, theirs.id).private_to == world.of["Bea"].id


def test_what_a_coach_makes_is_the_gym_s_and_a_member_gets_that_one(gym):
    log, world = gym
    with acting(world.who("coach")):
        made = people.add_lift(log, "seal row", "barbell")
    with acting(world.who("member")):
        assert people.add_lift(log, "seal row", "barbell") == made
        with pytest.raises(RefusedError):
            people.say_implement(log, made.id, "other")


def test_a_coach_sees_it_as_a_part_of_what_is_shared_and_can_not_hang_the_gym_on_it(gym):
    log, world = gym
    bea = world.of["Bea"]
    with acting(member(world, "Bea")):
        own = people.add_lift(log, SECRET, "barbell")
        log_set.log_set(log, bea.id, this_day(), NewSet(own.id, kg(40), 5))
    with acting(world.who("coach")):
        seen = {each.lift.name for entry in journal.sessions(log, bea.id) for each in entry.sets}
        assert SECRET in seen
        assert own not in people.lifts(log)
        with pytest.raises(RefusedError):
            log_set.log_set(log, world.of["Dag"].id, this_day(), NewSet(own.id, kg(40), 5))
    with acting(world.who("member")), pytest.raises(BadInputError, match="not in this log"):
        log_set.log_set(log, world.of["Ana"].id, this_day(), NewSet(own.id, kg(40), 5))
    with pytest.raises(RefusedError):  # nor by the household: it would not be there for Ana
        log_set.log_set(log, world.of["Ana"].id, this_day(), NewSet(own.id, kg(40), 5))


def test_a_lift_of_the_gym_takes_in_what_members_had_under_its_name(gym):
    log, world = gym
    ana = world.of["Ana"]
    with acting(world.who("member")):
        own = people.add_lift(log, "pause squat", "barbell", member_id=ana.id)
        log_set.log_set(log, ana.id, this_day(), NewSet(own.id, kg(60), 5))
        rep_maxes.add_rep_max(log, ana.id, own.id, this_day(), 3, kg(70), tested=True)
    before = every_row(log)["changes"]
    with acting(world.who("coach")):
        text = SHEET.format(title="Pauses", percent=70).replace("Front squat", "Pause squat")
        sheets.take_sheet(log, [world.of["Dag"].id], text, this_day())
        (gyms,) = [each for each in people.lifts(log) if each.name == "pause squat"]
        told = [row for row in every_row(log)["changes"] if row not in before and row[3] != ana.id]
        assert own.id not in str(told)
        assert ana.id not in str(told)
    assert lift_of(log, own.id) is None
    with acting(world.who("member")):
        assert {
            each.lift.id for entry in journal.sessions(log, ana.id) for each in entry.sets if each.load == kg(60)
        } == {gyms.id}
        assert undo_newest(log, ana.id).startswith("recorded")
        assert "5 x 60 kg" in undo_newest(log, ana.id)


def test_a_sheet_whose_lift_is_used_by_now_can_still_be_taken_back(gym):
    log, world = gym
    with acting(world.who("member")):
        own = people.add_lift(log, "pause squat", "barbell")
        log_set.log_set(log, world.of["Ana"].id, this_day(), NewSet(own.id, kg(60), 5))
    with acting(world.who("coach")):
        text = SHEET.format(title="Pauses", percent=70).replace("Front squat", "Pause squat")
        sheets.take_sheet(log, [world.of["Dag"].id], text, this_day())
        assert undo_newest(log, world.of["Dag"].id).startswith("took the sheet")
        assert "pause squat" in {each.name for each in people.lifts(log)}


def test_names_of_places_sheets_and_pieces_are_refused_for_what_one_sees_only(gym):
    log, world = gym
    ana = world.of["Ana"]
    sheet = SHEET.format(title="Knee again", percent=80)
    piece = "Piece: Knee again\n2 rounds for time\n10 burpee"
    with acting(world.who("member")):
        places.add_place(log, "Knee ward", "kg")
        sheets.take_sheet(log, [ana.id], sheet, this_day())
        conditioning.add_piece(log, conditioning.piece_in_words(piece))
    for name in ("Bea", "Dag"):
        with acting(world.who("coach") if name == "Dag" else member(world, name)):
            places.add_place(log, "Knee ward", "kg")
            assert sheets.read_sheet(log, sheet).earlier is None
            sheets.take_sheet(log, [world.of[name].id], sheet, this_day())
            conditioning.add_piece(log, conditioning.piece_in_words(piece))


def test_a_coach_s_sheet_hangs_on_no_piece_of_a_member_who_shares(gym):
    log, world = gym
    text = SHEET.format(title="With a piece", percent=80) + "Piece: Mine\n2 rounds for time\n10 burpee\n"
    with acting(member(world, "Bea")):
        sheets.take_sheet(log, [world.of["Bea"].id], text.replace("With a piece", "Own"), this_day())
    with acting(world.who("coach")):
        sheets.take_sheet(log, [world.of["Dag"].id], text, this_day())


def test_a_file_s_new_lifts_are_the_member_s_also_where_the_owner_brings_it(gym, tmp_path):
    log, world = gym
    for name, person, lift in (("Ana", world.who("member"), "knee lift a"), ("Cyr", world.who("owner"), "knee lift c")):
        path = tmp_path / f"{name}.csv"
        path.write_text(
            f"member,date,lift,load,unit,reps\n{name},{this_day()},{lift},40,kg,5\n{name},{this_day()},front squat,40,kg,5\n"
        )
        with acting(person):
            import_sets(log, path)
            assert import_sets(log, path).added == 0
    with log.engine.connect() as connection:
        rows = connection.execute(select(Lift.__table__.c.name, Lift.__table__.c.private_to)).all()
    assert {name: owner for name, owner in rows if name.startswith("knee")} == {
        "knee lift a": world.of["Ana"].id, "knee lift c": world.of["Cyr"].id,
    }  # fmt: skip


def test_a_result_s_new_lifts_are_the_member_s(gym):
    log, world = gym
    done = ResultSet(SECRET, "barbell", kg(40), 5)
    line = write_line(Result("Bea", this_day(), now(), sets=(done,)))
    with acting(world.who("coach")):
        takings = take_results.take_results(log, line)
        assert takings.broken == ()
    with acting(member(world, "Bea")):
        (own,) = [each for each in people.lifts(log) if each.name == SECRET]
    assert lift_of(log, own.id).private_to == world.of["Bea"].id


def test_it_goes_with_the_member_and_into_their_own_export_alone(gym):
    log, world = gym
    ana, bea = world.of["Ana"], world.of["Bea"]
    with acting(world.who("member")):
        own = people.add_lift(log, SECRET, "barbell", member_id=ana.id)
        log_set.log_set(log, ana.id, this_day(), NewSet(own.id, kg(40), 5))
        text = SHEET.format(title="Own", percent=70).replace("Front squat, barbell", f"{SECRET.capitalize()}, barbell")
        sheets.take_sheet(log, [ana.id], text, this_day())
    assert SECRET.encode() in _unpacked(take_away.of_member(log, ana.member))
    assert SECRET.encode() not in _unpacked(take_away.of_member(log, bea.member))
    with acting(world.who("member")):
        deletion.delete_member(log, ana.id, "Ana")
    assert SECRET not in str(every_row(log))
    assert ana.id not in str(every_row(log))


def _unpacked(content: bytes) -> bytes:
    with zipfile.ZipFile(io.BytesIO(content)) as box:
        return b"".join(box.read(each) for each in box.namelist())


@pytest.mark.sqlite("an old file of SQLite")
@pytest.mark.parametrize("revision", ["0001", "0002", "0003", "0004"])
def test_an_old_log_where_nobody_signs_in_keeps_all_lifts_for_all(tmp_path, revision):
    path = Path(shutil.copy(SCHEMAS / f"schema_{revision}.db", tmp_path / "old.db"))
    with closing(sqlite3.connect(path)) as connection:
        if revision == "0004":
            connection.execute("DELETE FROM accounts")
            connection.commit()
        before = connection.execute("SELECT id, name FROM lifts ORDER BY id").fetchall()
    Log(database_url(str(path))).close()
    with closing(sqlite3.connect(path)) as connection:
        assert (
            connection.execute("SELECT id, name FROM lifts WHERE private_to IS NULL ORDER BY id").fetchall() == before
        )


def lifts_of_an_old_log(path):
    """Write lifts of every kind of history into a log of the layout 0004, whose two members sign in; return Ana's id."""
    with closing(sqlite3.connect(path)) as connection:
        ana, other = (each for (each,) in connection.execute("SELECT id FROM members ORDER BY name"))
        connection.execute("DELETE FROM accounts")
        for member_id in (ana, other):
            words = (f"account{member_id[:8]}", "https://door.example", member_id, "member", member_id)
            connection.execute(
                "INSERT INTO accounts (id, issuer, subject, role, member_id, created_at) VALUES (?, ?, ?, ?, ?, '2026-03-02 10:00:00.000000')", words
            )  # fmt: skip
        session = connection.execute("SELECT id FROM sessions WHERE member_id = ?", (ana,)).fetchone()[0]
        sets = connection.execute("SELECT * FROM sets LIMIT 1")
        columns, row = [each[0] for each in sets.description], sets.fetchone()
        marks = ", ".join("?" * len(columns))

        def lift(name, maker, *, used_by=None, brought=None, in_import=""):
            connection.execute(
                "INSERT INTO lifts VALUES (?, ?, 'other', 1, 0, 0, 0, '2026-03-02 10:00:00.000000')", (name, name)
            )
            if maker:
                connection.execute(
                    "INSERT INTO changes (act_id, act, member_id, at, record, record_id, before, after) VALUES"
                    " (?, 'added', ?, '2026-03-02 10:00:00.000000', 'lifts', ?, NULL, '{}')", (name, maker, name),
                )  # fmt: skip
            if brought:
                for whose, after in (
                    (None, {"created": {"lifts": [name]}}),
                    *((each, {"sets": 1}) for each in brought),
                ):
                    connection.execute(
                        "INSERT INTO changes (act_id, act, member_id, at, record, record_id, before, after) VALUES"
                        " (?, 'imported', ?, '2026-03-02 10:00:00.000000', 'imports', ?, NULL, ?)",
                        (name, whose, f"import {name}", json.dumps(after)),
                    )  # fmt: skip
            if used_by:
                whose = dict(zip(columns, row, strict=True)) | {
                    "id": f"set {name}",
                    "lift_id": name,
                    "session_id": used_by,
                    "token": None,
                }
                connection.execute(f"INSERT INTO sets VALUES ({marks})", tuple(whose.values()))

        lift("made and used by Ana", ana, used_by=session)
        lift("made by Ana and not used", ana)
        lift("brought by Ana", None, brought=[ana], used_by=session)
        lift("brought for both", None, brought=[ana, other], used_by=session)
        lift("of nobody known", None, used_by=session)
        lift("made by another, used by Ana", other, used_by=session)
        lift("planned by the gym", ana, used_by=session)
        connection.execute(
            "UPDATE planned_sets SET lift_id = 'planned by the gym' WHERE id = (SELECT min(id) FROM planned_sets)"
        )
        connection.commit()
    return ana


@pytest.mark.sqlite("an old file of SQLite")
def test_an_old_log_gives_a_lift_to_who_made_it_and_alone_has_used_it(tmp_path):
    path = Path(shutil.copy(SCHEMAS / "schema_0004.db", tmp_path / "old.db"))
    ana = lifts_of_an_old_log(path)
    Log(database_url(str(path))).close()
    with closing(sqlite3.connect(path)) as connection:
        own = dict(connection.execute("SELECT name, private_to FROM lifts WHERE private_to IS NOT NULL"))
    assert {name for name, owner in own.items() if owner == ana and " " in name and name != "back squat"} >= {
        "made and used by Ana", "made by Ana and not used", "brought by Ana",
    }  # fmt: skip
    assert not own.keys() & {
        "brought for both",
        "of nobody known",
        "made by another, used by Ana",
        "planned by the gym",
    }
    assert check_log(str(path)).problems == ()
