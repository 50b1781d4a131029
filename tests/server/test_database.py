"""A log on a server: made, brought up to date, looked over, dumped and put back."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from datetime import date
from decimal import Decimal

import pytest
from alembic import command
from sqlalchemy import text

from tests.day import this_day
from tests.server.cluster import binaries
from tests.stores import address_of, digest
from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set
from tracker.desk.files import custody, take_away
from tracker.desk.files.check import check_log
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.errors import BadInputError
from tracker.log import server
from tracker.log.engine import database_url, open_engine
from tracker.log.migrate import MigrationFailedError, NewerLogError, NotALogError, alembic_config
from tracker.log.sets import NewSet, sets_of
from tracker.units import Mass

DAY = date(2026, 3, 2)


@pytest.fixture
def bare(store):
    """The address of a database without tables."""
    name = f"bare_{os.getpid()}"
    store.create(name, "template0")
    yield store.cluster.address(name)
    store.drop(store.cluster.address(name))


def upgrade(address, revision):
    engine = open_engine(database_url(address))
    with engine.begin() as connection:
        config = alembic_config()
        config.attributes["connection"] = connection
        command.upgrade(config, revision)
    engine.dispose()


def run(address, *statements):
    engine = open_engine(database_url(address))
    with engine.begin() as connection:
        found = [connection.execute(text(each)) for each in statements]
        rows = found[-1].all() if found[-1].returns_rows else []
    engine.dispose()
    return rows


FIRST = (
    "INSERT INTO members (id, name, unit, no_heavy, minor, alone, created_at) VALUES ('m', 'Ana', 'kg', false, false, false, now())",
    "INSERT INTO lifts (id, name, implement, implements, per_side, body, spotted, created_at) VALUES ('l', 'back squat', 'barbell', 1, false, false, true, now())",
    "INSERT INTO sessions (id, member_id, day, label, note, created_at) VALUES ('s', 'm', '2026-03-02', '', '', now())",
    (
        "INSERT INTO sets (id, session_id, lift_id, position, kind, load, unit, reps, outcome, note, origin, logged_at) "
        "VALUES ('x', 's', 'l', 0, 'work', '62.50', 'kg', 5, 'done', 'fine', 'o', now())"
    ),
    "INSERT INTO waves (id, name, text, created_at) VALUES ('w', 'Spring', '', now())",
    "INSERT INTO wave_steps (id, wave_id, position, title, day_offset, text) VALUES ('ws', 'w', 0, 'Squat', 0, '')",
    (
        "INSERT INTO planned_sets (id, step_id, lift_id, position, sets, reps, percent, of_reps, rep_out, test, tempo) "
        "VALUES ('p', 'ws', 'l', 0, 3, 5, '72.5', 3, false, false, '')"
    ),
)


def test_models_and_migrations_agree(log):
    with log.engine.begin() as connection:
        config = alembic_config()
        config.attributes["connection"] = connection
        command.check(config)  # raises where autogenerate would still find something
        connection.rollback()


def test_a_log_of_the_first_schema_is_brought_up_to_date_with_all_that_it_holds(bare):
    upgrade(bare, "0001")
    run(bare, *FIRST)
    log = open_log(bare)
    (ana,) = people.members(log)
    with log.reading() as session:
        (row,) = sets_of(session, ana.id)
    assert (str(row.load.amount), row.reps, row.note, row.day) == ("62.50", 5, "fine", DAY)
    assert log_set.log_set(log, ana.id, DAY, NewSet(row.lift.id, Mass(Decimal(65), "kg"), 5)).reps == 5
    log.close()


def test_a_migration_that_fails_leaves_the_log_as_it_was(bare, monkeypatch):
    upgrade(bare, "0001")
    run(bare, *FIRST)
    before = run(bare, "SELECT table_name, column_name FROM information_schema.columns WHERE table_schema = 'public'")

    def fail(*_, **__):
        raise ValueError("a row that nobody expected")

    monkeypatch.setattr("alembic.operations.Operations.create_table", fail)
    with pytest.raises(MigrationFailedError, match="nobody expected"):
        open_log(bare)
    monkeypatch.undo()
    again = run(bare, "SELECT table_name, column_name FROM information_schema.columns WHERE table_schema = 'public'")
    assert sorted(map(tuple, again)) == sorted(map(tuple, before))
    open_log(bare).close()


KILLED = """
import os, signal, sys
from alembic.ddl.impl import DefaultImpl
from tracker.desk.base.opening import open_log
whole, made = DefaultImpl.create_table, []
def create(self, table, **more):
    made.append(table)
    if len(made) == 5: os.kill(os.getpid(), signal.SIGKILL)
    return whole(self, table, **more)
DefaultImpl.create_table = create
open_log(sys.argv[1])
"""


def test_killed_in_the_middle_of_the_migration_nothing_is_half_made(bare):
    done = subprocess.run([sys.executable, "-c", KILLED, bare], check=False)
    assert done.returncode == -signal.SIGKILL
    assert run(bare, "SELECT 1 FROM information_schema.tables WHERE table_schema = 'public'") == []
    open_log(bare).close()


def test_two_processes_make_the_same_new_log_at_once(bare):
    code = "import sys\nfrom tracker.desk.base.opening import open_log\nopen_log(sys.argv[1]).close()"
    command_line = [sys.executable, "-c", code, bare]
    running = [subprocess.Popen(command_line, stderr=subprocess.PIPE, text=True) for _ in range(2)]
    assert [process.communicate()[1] for process in running] == ["", ""]
    assert len(run(bare, "SELECT version_num FROM alembic_version")) == 1


def test_a_newer_log_is_refused_and_so_is_an_act_of_a_server_that_was_left_open(log, ana):
    address = address_of(log)
    run(address, "UPDATE alembic_version SET version_num = '9999'")
    before = digest(address)
    with pytest.raises(NewerLogError, match="9999"):
        open_log(address)
    with pytest.raises(NewerLogError):
        people.add_lift(log, "bench press", "barbell")
    assert digest(address) == before


def test_a_database_of_somebody_else_is_left_alone(bare):
    run(bare, "CREATE TABLE recipes (name text)")
    with pytest.raises(NotALogError, match="recipes"):
        open_log(bare)
    tables = run(bare, "SELECT table_name FROM information_schema.tables WHERE table_schema = 'public'")
    assert [name for (name,) in tables] == ["recipes"]


def test_a_database_without_all_letters_is_refused(store):
    name = f"latin_{os.getpid()}"
    store.admin.execute(f"CREATE DATABASE {name} TEMPLATE template0 ENCODING 'LATIN1' LOCALE 'C'")
    address = store.cluster.address(name)
    with pytest.raises(server.WrongEncodingError, match="LATIN1"):
        open_log(address)
    assert run(address, "SELECT 1 FROM information_schema.tables WHERE table_schema = 'public'") == []
    store.drop(address)


def test_names_are_found_in_any_case_and_sorted_as_the_database_does(store):
    name = f"german_{os.getpid()}"
    store.admin.execute(
        f"CREATE DATABASE {name} TEMPLATE template0 ENCODING 'UTF8' LOCALE_PROVIDER icu ICU_LOCALE 'de-DE' LOCALE 'C.UTF-8'"
    )
    log = open_log(store.cluster.address(name))
    for each in ("Zoë", "Özlem", "ana", "Ben"):
        people.add_member(log, each)
    assert [each.name for each in people.members(log)] == ["ana", "Ben", "Özlem", "Zoë"]
    with pytest.raises(BadInputError, match="already"):
        people.add_member(log, "ÖZLEM")
    ana, lift = people.members(log)[0], people.add_lift(log, "Überkopfdrücken", "barbell")
    log_set.log_set(log, ana.id, DAY, NewSet(lift.id, Mass(Decimal("42.50"), "kg"), 5, note="100 % wach, a_b"))
    for words in ("überkopf", "ÜBERKOPF", "100 %", "A_B"):
        assert len(journal.sessions(log, ana.id, text=words)) == 1, words
    assert journal.sessions(log, ana.id, text="axb") == ()
    log.close()
    store.drop(store.cluster.address(name))


def test_what_is_said_to_be_saved_is_on_the_disk_whatever_the_server_was_set_to(log, store):
    store.admin.execute(f"ALTER DATABASE {log.url.database} SET synchronous_commit = off")
    opened = open_log(address_of(log))
    with opened.act("looks") as act:
        shown = {
            name: act.session.execute(text(f"SHOW {name}")).scalar()
            for name in ("synchronous_commit", "lock_timeout", "TimeZone")
        }
    assert shown == {"synchronous_commit": "on", "lock_timeout": "10s", "TimeZone": "UTC"}
    with opened.reading() as session:
        assert session.execute(text("SHOW transaction_isolation")).scalar() == "repeatable read"
    opened.close()


def test_check_says_what_it_is_and_finds_what_should_not_be(log, ana, squat):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, Mass(Decimal(80), "kg"), 5))
    report = check_log(address_of(log))
    assert report.problems == ()
    assert report.facts["database"].startswith("PostgreSQL 1")
    run(
        address_of(log),
        "UPDATE sets SET load = 'nan'",
        "CREATE VIEW peeping AS SELECT * FROM sets",
        "CREATE FUNCTION meddle() RETURNS trigger LANGUAGE plpgsql AS 'BEGIN RETURN NEW; END'",
        "CREATE TRIGGER meddling BEFORE UPDATE ON sets FOR EACH ROW EXECUTE FUNCTION meddle()",
        "ALTER TABLE sets DISABLE TRIGGER ALL",
        "UPDATE sets SET lift_id = 'nowhere'",
    )
    told = "\n".join(check_log(address_of(log)).problems)
    assert "a trigger meddling that Tidemark does not make" in told
    assert "a view peeping that Tidemark does not make" in told
    assert "sets, 1 row: points to one of the lifts that is not there" in told
    run(address_of(log), "ALTER TABLE sets ENABLE TRIGGER ALL", "ALTER TABLE sets DROP COLUMN note CASCADE")
    assert "tables: add_column" in "\n".join(check_log(address_of(log)).problems)


def test_a_number_that_is_none_is_found(log, ana, squat):
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, Mass(Decimal(80), "kg"), 5))
    run(address_of(log), "UPDATE sets SET load = 'nan'")
    told, *_ = check_log(address_of(log)).problems
    assert told.startswith("sets, ")
    assert "not a number" in told


def test_copies_are_made_with_the_servers_own_tools_and_it_is_said_how(log, tmp_path):
    address = address_of(log)
    for refused in (
        lambda: custody.backup(address, tmp_path / "copy.db"), lambda: custody.restore(address, tmp_path / "copy.db"),
        lambda: take_away.sealed_copy(log),
    ):  # fmt: skip
        with pytest.raises(BadInputError, match="PostgreSQL") as told:
            refused()
        assert "pg_dump" in told.value.mend
    assert list(tmp_path.iterdir()) == []


def test_a_dump_is_put_back_with_every_row_and_opens(demo_log, bare, tmp_path):
    """As the README says it."""
    before = digest(address_of(demo_log))
    target, source = bare.replace("+psycopg", ""), address_of(demo_log).replace("+psycopg", "")
    dump, restore = shutil.which("pg_dump") or str(binaries() / "pg_dump"), str(binaries() / "pg_restore")
    subprocess.run([dump, "--format=custom", f"--file={tmp_path / 'log.dump'}", source], check=True)
    subprocess.run(
        [restore, "--no-owner", "--exit-on-error", f"--dbname={target}", str(tmp_path / "log.dump")], check=True
    )
    assert digest(bare) == before
    again = open_log(bare)
    assert check_log(bare).ok
    lift = people.lifts(again)[0]
    piece = conditioning.pieces(again)[0] if hasattr(conditioning, "pieces") else None
    row = log_set.log_set(
        again,
        people.members(again)[0].id,
        this_day(),
        NewSet(lift.id, Mass(Decimal(40), "kg"), 5, body_mass=Decimal(70)),
        sure=True,
    )
    assert row.reps == 5
    assert piece is None or piece.piece.title
    again.close()
