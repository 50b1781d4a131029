"""The log in seconds: one durable set against a bare insert, and a large import against pandas. Never asserted.

Run with: python -m pytest tests/benchmarks/test_log.py --benchmark-only -n 0 -o addopts="" -s
"""

from __future__ import annotations

import csv
import random
import shutil
import sqlite3
from contextlib import closing
from datetime import date, timedelta
from decimal import Decimal
from itertools import count
from uuid import uuid4

import pandas as pd
import pytest
from sqlalchemy import text

from tests.taking_in import import_sets
from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.log.engine import BUSY_TIMEOUT_MS, database_url, open_engine, wal_is_safe
from tracker.log.sets import NewSet
from tracker.units import Mass

pytestmark = pytest.mark.sqlite("measure SQLite's file")

ROWS = 100_000
DAY = date(2026, 3, 2)
median: dict[str, float] = {}


def keep(name, benchmark):
    if benchmark.stats is not None:
        median[name] = benchmark.stats.stats.median


def tell(what, one, other, capsys):
    if one in median and other in median:
        with capsys.disabled():
            print(
                f"\n{what}: {median[one] * 1000:.2f} ms against {median[other] * 1000:.2f} ms, ratio {median[one] / median[other]:.2f}"
            )


@pytest.fixture
def member_and_lift(log):
    return people.add_member(log, "Ana"), people.add_lift(log, "front squat", "barbell")


@pytest.mark.benchmark(group="one durable set")
def test_a_set_logged_as_the_pages_do(benchmark, log, member_and_lift):
    member, lift = member_and_lift
    new = NewSet(lift.id, Mass(Decimal("92.5"), "kg"), 3, rir=Decimal(1))
    tokens = (uuid4().hex for _ in count())
    benchmark.pedantic(
        lambda: log_set.log_set(log, member.id, DAY, new, token=next(tokens)), rounds=200, warmup_rounds=5
    )
    keep("log_set", benchmark)


@pytest.mark.benchmark(group="one durable set")
def test_a_bare_insert_with_the_same_settings(benchmark, log, member_and_lift, capsys):
    member, lift = member_and_lift
    log_set.log_set(log, member.id, DAY, NewSet(lift.id, Mass(Decimal("92.5"), "kg"), 3))
    with closing(sqlite3.connect(log.name, isolation_level=None)) as connection:
        connection.execute(f"PRAGMA busy_timeout={BUSY_TIMEOUT_MS}")
        connection.execute(f"PRAGMA journal_mode={'WAL' if wal_is_safe() else 'DELETE'}")
        with log.reading() as session:
            synchronous = session.execute(text("PRAGMA synchronous")).scalar()
        connection.execute(f"PRAGMA synchronous={synchronous}")
        connection.execute("PRAGMA foreign_keys=ON")
        columns = [row[1] for row in connection.execute("PRAGMA table_info(sets)")]
        row = dict(zip(columns, connection.execute("SELECT * FROM sets").fetchone(), strict=True))
        words = f"INSERT INTO sets ({', '.join(columns)}) VALUES ({', '.join('?' * len(columns))})"

        def insert():
            values = [*({**row, "id": uuid4().hex, "token": uuid4().hex}).values()]
            connection.execute("BEGIN IMMEDIATE")
            connection.execute(words, values)
            connection.execute("COMMIT")

        benchmark.pedantic(insert, rounds=200, warmup_rounds=5)
    keep("insert", benchmark)
    tell("a set logged against a bare insert", "log_set", "insert", capsys)


@pytest.fixture(scope="module")
def many(tmp_path_factory):
    """A file of 100,000 sets: five members, five years of four lifts."""
    path, chance = tmp_path_factory.mktemp("many") / "sets.csv", random.Random(20261120)
    with path.open("w", newline="") as file:
        out = csv.writer(file)
        out.writerow(["member", "date", "lift", "load", "unit", "reps", "rir", "outcome", "kind", "order"])
        for number in range(ROWS):
            session, order = divmod(number, 16)
            day = date(2012, 1, 2) + timedelta(days=session // 5 * 2)
            lift = ("front squat", "back squat", "bench press", "deadlift")[order // 4]
            load, rir = chance.randrange(80, 400) / 2, chance.choice(["", 0, 1, 2, 2.5])
            outcome = "done" if chance.random() < 0.9 else "missed"
            out.writerow(
                [f"member {session % 5}", day, lift, load, "kg", chance.randint(1, 8), rir, outcome, "work", order]
            )
    return path


@pytest.mark.benchmark(group="100,000 sets")
def test_100_000_sets_imported(benchmark, many, empty_log, tmp_path):
    opened = []

    def fresh():
        while opened:
            opened.pop().close()
        opened.append(open_log(str(shutil.copyfile(empty_log, tmp_path / "log.db"))))
        return (opened[0], many), {}

    done = benchmark.pedantic(import_sets, setup=fresh, rounds=5)
    opened.pop().close()
    assert done is None or done.added == ROWS
    keep("import", benchmark)


@pytest.mark.benchmark(group="100,000 sets")
def test_100_000_rows_read_and_written_by_pandas(benchmark, many, tmp_path, capsys):
    engines = []

    def fresh():
        while engines:
            engines.pop().dispose()
        (tmp_path / "frame.db").unlink(missing_ok=True)
        engines.append(open_engine(database_url(str(tmp_path / "frame.db"))))
        return (), {}

    benchmark.pedantic(lambda: pd.read_csv(many).to_sql("sets", engines[0], index=False), setup=fresh, rounds=5)
    engines.pop().dispose()
    keep("to_sql", benchmark)
    tell("100,000 sets imported against read_csv and to_sql", "import", "to_sql", capsys)
