"""A bit that turns in a set, or in anything else that the log keeps: `tidemark check` says so, and no copy seals it.

A longer run: `TIDEMARK_FLIPS=1000 TIDEMARK_SEED=7 python -m pytest -s tests/faults/test_flips.py`.
"""

import os
import random
import sqlite3
from contextlib import closing
from datetime import date, timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.taking_in import import_sets
from tests.undoing import undo_newest
from tracker.desk.day import log_set
from tracker.desk.files.check import check_log
from tracker.desk.people import people
from tracker.errors import TidemarkError
from tracker.log.engine import database_url
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass

FLIPS = int(os.environ.get("TIDEMARK_FLIPS", "60"))
SEED = int(os.environ.get("TIDEMARK_SEED", "20261127"))
UNTOLD = ("log_facts",)  # what the README says that no check sees: what a person's form was filled with last


@pytest.fixture(scope="module")
def filled(tmp_path_factory):
    """A log of sets that were logged, mended, removed, taken back and imported, as bytes."""
    folder = tmp_path_factory.mktemp("flips")
    path = folder / "log.db"
    log = Log(database_url(str(path)))
    ana, squat = people.add_member(log, "Ana"), people.add_lift(log, "back squat", "barbell")
    for number in range(30):
        load = Mass(Decimal("100") + Decimal("2.5") * (number % 12), "kg")
        day = date(2026, 3, 1) + timedelta(days=number % 20)
        row = log_set.log_set(log, ana.id, day, NewSet(squat.id, load, 4 + number % 4, note=f"note {number}"))
        if number % 7 == 0:
            log_set.mend_set(log, row.id, NewSet(squat.id, load, 3))
        elif number % 7 == 1:
            log_set.remove_set(log, row.id, today=this_day())
        elif number % 7 == 2:
            undo_newest(log, ana.id)
    rows = "".join(f"Bo,2026-02-{1 + n // 4:02d},front squat,{60 + n}.5,kg,{3 + n % 4}\n" for n in range(40))
    (folder / "sets.csv").write_text(f"member,date,lift,load,unit,reps\n{rows}")
    import_sets(log, folder / "sets.csv", today=date(2026, 3, 30))
    log.close()
    assert check_log(str(path)).ok
    return path.read_bytes()


def dump(path):
    """All rows of all tables as SQLite gives them; None where it can't read them."""
    try:
        with closing(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)) as connection:
            connection.text_factory = bytes
            names = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
            return {name: connection.execute(f"SELECT * FROM {name.decode()}").fetchall() for name in names}
    except (sqlite3.Error, UnicodeDecodeError):
        return None


def told(path):
    """Whether a check finds anything, or can't go through."""
    try:
        return not check_log(str(path), today=date(2026, 3, 30)).ok
    except TidemarkError:
        return True


def test_no_flipped_bit_of_what_is_kept_goes_unseen(filled, tmp_path):
    chance, path = random.Random(SEED), tmp_path / "log.db"
    path.write_bytes(filled)
    whole, changed, unseen = dump(path), 0, []
    assert whole is not None
    while changed < FLIPS:
        place, bit = chance.randrange(len(filled)), chance.randrange(8)
        content = bytearray(filled)
        content[place] ^= 1 << bit
        path.write_bytes(content)
        found = dump(path)
        if found is not None and all(
            found.get(name) == rows for name, rows in whole.items() if name.decode() not in UNTOLD
        ):
            continue  # free room, an index, or a number of SQLite's own
        changed += 1
        if not told(path):
            unseen.append((place, bit))
    print(f"{changed} flips of one bit that changed what is kept, seed {SEED}: {len(unseen)} unseen")
    assert unseen == []
