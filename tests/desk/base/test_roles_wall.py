"""The second wall by itself: with every rule of the desk taken away, nobody reads or writes what is not theirs."""

from __future__ import annotations

import contextlib
import hashlib
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import func, select, update

from tests.day import this_day
from tests.desk.base.role_calls import CALLS
from tests.desk.gym_world import SHEET, kg
from tests.undoing import undo_newest
from tracker.desk.base import backups, roles
from tracker.desk.coach import take_results
from tracker.desk.day import log_set, today
from tracker.desk.files import deletion
from tracker.desk.people import accounts, kit, people, places
from tracker.desk.pieces import conditioning
from tracker.desk.sheet import sheets
from tracker.errors import BadInputError, TidemarkError
from tracker.log import row_access
from tracker.log.columns import Base
from tracker.log.models import MODELS, LiftedSet, Member, Session
from tracker.log.sets import NewSet
from tracker.log.who import HERE, NO_MORE, RefusedError, Who, acting, ask_with, who

LET = {  # of the gym as a whole; the rule of the desk gives the owner's grant, which is taken away here as well
    "backups.make", "backups.rotate", "backups.let_go", "backups.kept", "check.check_log", "custody.backup", "custody.restore",
    "devices.new_code", "devices.end_code", "devices.code_state", "devices.named", "devices.paired", "deletion.delete_member",
    "deletion.what_goes", "your_data.of_member", "deletion.copies_holding", "take_away.sealed_copy",
    "kit.take_ready_kit", "kit.take_ready_place", "kit.remove_item",  # the coach takes a bar of the gym away that a member had chosen
}  # fmt: skip


@pytest.fixture
def gym(log, gym_world):
    gym_world.into(log)
    return log, gym_world


def whose(log, name):
    """All rows that belong to a member, as the database has them."""
    with log.engine.connect() as connection:
        (member_id,) = connection.scalars(select(Member.__table__.c.id).where(Member.__table__.c.name == name))
        found = {}
        for table in Base.metadata.sorted_tables:
            owner = row_access._owner(table.name)
            if owner is not None:
                rows = connection.execute(select(table).where(owner == member_id).order_by(*table.primary_key.columns))
                found[table.name] = [tuple(row) for row in rows]
    return found


def test_every_table_has_its_place_in_the_wall():
    groups = (
        set(row_access.OF_MEMBER),
        row_access.OF_GYM,
        set(row_access.WITHIN),
        row_access.OF_ALL,
        row_access.OF_NOBODY,
        row_access.CLOSED,
    )
    assert sum(map(len, groups)) == len(set().union(*groups))
    assert set().union(*groups) == set(Base.metadata.tables) == set(MODELS)


@pytest.mark.parametrize(("role", "name"), [("member", "Cyr"), ("coach", "Cyr"), ("nobody", "Cyr")])
def test_without_the_rules_of_the_desk_nothing_of_others_is_read_or_written(gym, monkeypatch, tmp_path, role, name):
    log, world = gym
    monkeypatch.setattr(roles, "_allow", lambda *_: None)
    monkeypatch.setattr(roles, "_given", lambda *_: NO_MORE)
    theirs, before = world.of[name], whose(log, name)
    ids = {theirs.set_id, theirs.session_id, theirs.score_id, theirs.clock_id, theirs.rep_max_id, theirs.act_id}
    got_through = 0
    for each in sorted(set(CALLS) - LET):
        call, said = CALLS[each], ""
        with acting(world.who(role)), contextlib.suppress(Exception):
            said = repr(call(log, theirs, tmp_path))
            got_through += 1
        assert not [one for one in ids if one in said], each
    assert whose(log, name) == before
    assert got_through > 10  # it did reach the wall


def test_each_kind_of_record_is_there_for_its_member_alone(gym):
    log, world = gym
    with log.reading() as session:
        in_all = {name: session.scalar(select(func.count()).select_from(model)) for name, model in MODELS.items()}
    with acting(world.who("member")), log.reading() as session:
        seen = {
            name: session.scalar(select(func.count()).select_from(model))
            for name, model in MODELS.items()
        }  # fmt: skip
        assert {each.name for each in session.scalars(select(Member))} == {"Ana"}
    with acting(world.who("nobody")), log.reading() as session:
        of_nobody = {name: session.scalar(select(func.count()).select_from(model)) for name, model in MODELS.items()}
    for name in set(row_access.OF_MEMBER) | row_access.CLOSED | {"sets", "member_steps"}:
        assert of_nobody[name] == 0, name
        if in_all[name]:
            assert seen[name] < in_all[name], name
    assert seen["accounts"] == 0
    assert seen["sets"] == 2


def test_by_every_way_of_asking_a_row_of_another_is_not_there(gym):
    log, world = gym
    bea = world.of["Bea"]
    with acting(world.who("member")), log.reading() as session:
        assert session.get(LiftedSet, bea.set_id) is None
        assert session.get(Session, bea.session_id) is None
        assert session.scalars(select(LiftedSet.id).where(LiftedSet.id == bea.set_id)).all() == []
        assert session.scalar(select(func.count()).where(LiftedSet.id == bea.set_id)) == 0
        within = select(MODELS["lifts"]).where(
            MODELS["lifts"].id.in_(select(LiftedSet.lift_id).where(LiftedSet.id == bea.set_id))
        )
        assert session.scalars(within).all() == []
        table = Base.metadata.tables["sets"]
        for statement in (select(table), select(table.c.id), update(LiftedSet).values(note="x"), table.delete()):
            with pytest.raises(RefusedError):
                session.execute(statement)


def test_a_record_can_t_be_hung_on_what_is_another_s(gym):
    log, world = gym
    cyr = world.of["Cyr"]
    new = NewSet(cyr.lift.id, kg(60), 5, member_step_id=cyr.step.id)
    with acting(world.who("member")), pytest.raises(RefusedError, match="hang on another"):
        log_set.log_set(log, world.of["Ana"].id, this_day(), new)
    assert len(whose(log, "Ana")["sets"]) == 2


def test_a_set_is_not_given_to_somebody_else(gym):
    log, world = gym
    with acting(world.who("member")), pytest.raises(RefusedError):
        log_set.move_set(log, world.of["Ana"].set_id, world.of["Bea"].id, today=this_day())


def test_what_a_member_makes_for_themselves_is_theirs_alone(gym):
    log, world = gym
    ana, coach = world.of["Ana"], world.who("coach")
    sheet = SHEET.format(title="My own", percent=80)
    with acting(world.who("member")):
        shed = kit.begin_place(log, "Shed", "kg", ana.id)
        kit.put_fixed(log, shed.id, "dumbbell", [kg(11)], 2, ana.id)
        piece = conditioning.add_piece(log, conditioning.piece_in_words("Piece: Mine\n2 rounds for time\n10 burpee"))
        sheets.take_sheet(log, [ana.id], sheet, this_day())
        assert "Shed" in {each.name for each in places.places(log)}
    for person in (Who("member", world.of["Bea"].id), coach):
        with acting(person):
            assert "Shed" not in {each.name for each in places.places(log)}
            assert piece.id not in {each.id for each in conditioning.pieces(log)}
            with pytest.raises(RefusedError):
                kit.put_fixed(log, shed.id, "dumbbell", [kg(12)], 2, ana.id)
            places.add_place(log, "shed", "kg")  # a refusal would say that somebody has one
            sheets.take_sheet(log, [person.member_id], sheet, this_day())
            with pytest.raises(BadInputError, match="already"):
                places.add_place(log, "Shed", "kg")
    with acting(world.who("member")), pytest.raises(BadInputError, match="already"):
        places.add_place(log, "shed", "kg")  # the gym's by now, and their own
    assert "Shed" in {each.name for each in places.places(log)}  # the household sees all


def test_a_coach_s_change_reaches_who_does_the_sheet_and_shares_nothing(gym):
    log, world = gym
    cyr = world.of["Cyr"]
    first, second = (each for each in today.steps(log, cyr.id) if each.wave_id == cyr.wave_id)
    planned = first.sets[0]
    done = NewSet(cyr.lift.id, kg(70), 3, planned_set_id=planned.id, planned_round=1, member_step_id=first.id)
    log_set.log_set(log, cyr.id, this_day(), done)
    text = SHEET.format(title="Tide Cyr", percent=85).replace("@ 70 %", "@ 65 %")
    with acting(world.who("member")), pytest.raises(TidemarkError):
        sheets.take_changes(log, cyr.wave_id, text)
    with acting(world.who("coach")):
        sheets.take_changes(log, cyr.wave_id, text)
    steps = {each.id: each for each in today.steps(log, cyr.id)}
    assert steps[first.id].sets[0].percent == 70  # begun: it stays as it was
    assert steps[second.id].sets[0].percent == 85


def test_a_lift_of_the_gym_is_changed_by_the_coach_and_one_s_own_by_oneself(gym):
    log, world = gym
    lift = world.of["Bea"].unasked
    with acting(world.who("member")):
        with pytest.raises(RefusedError):
            people.say_implement(log, lift.id, "machine")
        mine = people.add_lift(log, "sled row", "unasked")
        people.say_implement(log, mine.id, "machine")
    with acting(world.who("coach")):
        people.say_implement(log, lift.id, "machine")


def test_who_hands_a_result_to_the_coach_is_seen_and_a_name_that_is_taken_is_not_given_again(gym):
    log, world = gym
    line = world.of["Cyr"].line
    with acting(world.who("coach")):
        takings = take_results.take_results(log, line, whom={"Cyr": take_results.NEW})
        assert "does not share" in takings.broken[0].what
        other = line_of("Zoe", log)
        assert take_results.take_results(log, other, whom={"Zoe": take_results.NEW}).taken
        assert {each.name for each in people.members(log)} == {"Bea", "Eve", "Dag", "Zoe"}


def line_of(name, log):
    """A result of somebody with a log elsewhere."""
    from datetime import UTC, datetime
    from decimal import Decimal

    from tracker.exchange.result import Result, ResultSet
    from tracker.exchange.result_line import write_line

    one = ResultSet("front squat", "barbell", kg(70), 5, Decimal(2), "done", "work", None, False, False)
    return write_line(Result(name, this_day(), datetime.now(UTC), (one,)))


def test_undo_takes_no_act_of_somebody_else_back(gym):
    log, world = gym
    for role in ("member", "coach", "owner"):
        with acting(world.who(role)), pytest.raises(TidemarkError):
            undo_newest(log, world.of["Cyr"].id)
    with acting(world.who("member")):
        assert undo_newest(log, world.of["Ana"].id).startswith("logged front squat")


def test_with_sign_in_nobody_acts_where_nobody_is_said_to(gym):
    log, world = gym
    assert who() == HERE
    ask_with(lambda: Who("nobody"))
    try:
        with pytest.raises(RefusedError):
            people.members(log)
        with log.reading() as session:
            assert session.scalars(select(Member)).all() == []
        with pytest.raises(RefusedError), log.act("tries") as act:
            act.session.add(Session(member_id=world.of["Ana"].id, day=this_day()))
    finally:
        ask_with(None)
    assert len(people.members(log)) == 6


def test_the_copies_of_one_member_hold_nothing_of_another(gym):
    from io import BytesIO
    from zipfile import ZipFile

    from tracker.desk.files.take_away import of_member

    log, world = gym
    with acting(Who("member", world.of["Cyr"].id)):
        kit.begin_place(log, "Cyr's cellar", "kg", world.of["Cyr"].id)
    for person in (world.who("member"), HERE):
        with acting(person):
            box = ZipFile(BytesIO(of_member(log, world.of["Ana"].member)))
        text = "\n".join(box.read(name).decode() for name in box.namelist())
        assert "front squat" in text
        assert "cellar" not in text
        assert not [other for other in ("Bea", "Cyr", "Dag") if world.of[other].id in text]


def test_the_only_owner_is_not_deleted_and_a_member_lets_go_of_no_copies(gym, monkeypatch):
    log, world = gym
    fay, ana = world.of["Fay"], world.of["Ana"]
    accounts.change_account(log, fay.account_id, "owner", fay.id)
    asked = []
    monkeypatch.setattr(backups, "let_go", lambda *files: asked.append(files) or ())
    with acting(world.who("owner")):
        with pytest.raises(BadInputError, match="only owner"):
            deletion.delete_member(log, fay.id, "Fay")
        with pytest.raises(BadInputError, match="nobody would be the owner"):
            accounts.change_account(log, fay.account_id, "coach", fay.id)
        with pytest.raises(BadInputError, match="nobody would be the owner"):
            accounts.remove_account(log, fay.account_id)
    with acting(world.who("member")):
        deletion.delete_member(log, ana.id, "Ana", with_copies=True)
    assert asked == []
    assert accounts.who_is(log, "https://door.example", "subject-Ana").role == "nobody"
    assert accounts.who_is(log, "https://door.example", "subject-Fay").role == "owner"


def test_an_invitation_is_good_once_in_its_time_and_for_who_has_no_account(gym):
    log, world = gym
    stranger = Who("nobody", identity=("https://door.example", "new-1"))
    made, late = (accounts.invite(log, "coach") for _ in range(2))
    with log.engine.begin() as connection:
        table = Base.metadata.tables["accounts"]
        spent = hashlib.sha256(late.code.replace("-", "").encode()).hexdigest()
        past = datetime.now(UTC) - timedelta(hours=1)
        connection.execute(table.update().where(table.c.code == spent).values(until=past))
    for person, code in (
        (Who("nobody"), made.code),
        (world.who("member"), made.code),
        (stranger, "AAAA-BBBB-CCCC-DDDD"),
        (stranger, late.code),
    ):
        with acting(person), pytest.raises(TidemarkError):
            accounts.accept(log, code)
    with acting(stranger):
        assert accounts.accept(log, made.code.lower().replace("-", " ")) == "coach"
    assert accounts.who_is(log, *stranger.identity).role == "coach"
    with acting(Who("nobody", identity=("https://door.example", "new-2"))), pytest.raises(TidemarkError):
        accounts.accept(log, made.code)
    with log.engine.connect() as connection:
        everything = str([connection.execute(select(each)).all() for each in Base.metadata.sorted_tables])
    assert made.code not in everything
    assert made.code.replace("-", "") not in everything


def test_an_identity_is_issuer_and_subject_to_the_letter(gym):
    log, _world = gym
    assert accounts.who_is(log, "https://other.example", "subject-Ana").role == "nobody"
    assert accounts.who_is(log, "https://door.example", "subject-ana").role == "nobody"
    assert accounts.who_is(log, "https://door.example", "subject-Ana").name == "Ana"


def test_who_acts_is_asked_each_time(gym):
    """What one person saw is not kept for the next."""
    log, world = gym
    names = []
    for role in ("member", "coach", "member"):
        with acting(world.who(role)):
            names.append({each.name for each in people.members(log)})
    assert names == [{"Ana"}, {"Bea", "Eve", "Dag"}, {"Ana"}]
