"""Two processes log sets and are killed at random moments: what was said to be saved is there, and nothing is half done.

25 rounds in the suite; TIDEMARK_KILLS=1000 TIDEMARK_SEED=7 makes it a thousand.
"""

import os
import random
import re
import sqlite3
import time
from contextlib import closing
from datetime import date
from pathlib import Path

from tests.faults.children import import_file, log_until_killed
from tests.faults.whole import faults_of, faults_of_file, lost
from tracker.desk.files.check import check_log
from tracker.desk.people import people
from tracker.log.engine import database_url
from tracker.log.keeper import Log

ROUNDS = int(os.environ.get("TIDEMARK_KILLS", "25"))
SEED = int(os.environ.get("TIDEMARK_SEED", "20261125"))
ROUNDS_ON_ONE_LOG = 50  # then a fresh one, so that the first moments of a log are among those tried
CHECKED = 5 if ROUNDS <= 25 else 1  # the program's own check takes a while
LATEST = date(2026, 12, 31)
LONGEST_S = 0.15


def new_log(path):
    log = Log(database_url(str(path)))
    people.add_member(log, "Ana")
    people.add_lift(log, "back squat", "barbell")
    log.close()
    return path


def wait_for_a_set(files, number):
    """Wait until both have logged a set; a machine that is busy with other things starts them late."""
    latest = time.monotonic() + 30
    while time.monotonic() < latest:
        if all(file.exists() and re.search(rf"^saved .-{number}-", file.read_text(), re.MULTILINE) for file in files):
            return
        time.sleep(0.002)
    raise AssertionError("the children did not begin")


def test_every_set_that_was_said_to_be_saved_survives_kill_9(quick_folder, child):
    chance = random.Random(SEED)
    sets = late = 0
    path, said = quick_folder, dict[str, Path]()
    for number in range(ROUNDS):
        if number % ROUNDS_ON_ONE_LOG == 0:
            path = new_log(quick_folder / f"log-{number}.db")
            said = {name: quick_folder / f"{number}-{name}.txt" for name in "ab"}
        running = [
            child(log_until_killed, str(path), str(file), f"{name}-{number}", chance.randrange(2**32))
            for name, file in said.items()
        ]
        if chance.random() < 0.8:  # in the other rounds they may be killed while they open the log
            wait_for_a_set(said.values(), number)
        time.sleep(chance.random() * LONGEST_S)
        for process in chance.sample(running, 2):  # either first; the other goes on for a moment or not
            process.kill()
            time.sleep(chance.choice((0, chance.random() * 0.02)))
        for process in running:
            process.join()
            assert process.exitcode == -9
        lines = [line for file in said.values() if file.exists() for line in file.read_text().splitlines()]
        late += (path.parent / f"{path.name}-journal").exists()  # died with a transaction open
        assert faults_of(path) == [], f"round {number} of seed {SEED}"
        assert lost(path, lines) == [], f"round {number} of seed {SEED}"
        if number % CHECKED == 0 or number == ROUNDS - 1:
            assert check_log(str(path), today=LATEST).problems == (), f"round {number} of seed {SEED}"
        if number % ROUNDS_ON_ONE_LOG == ROUNDS_ON_ONE_LOG - 1 or number == ROUNDS - 1:
            print(f"{number + 1} rounds so far, {late} deaths in the middle of a write", flush=True)
            sets += len({line.split()[1] for line in lines if line.startswith("saved")})
    print(f"{ROUNDS} rounds, seed {SEED}: {sets} sets said to be saved, {late} deaths in the middle of a write")
    assert sets > ROUNDS  # else the children were killed before they began
    assert late


def test_an_import_that_is_killed_is_all_there_or_not_at_all(quick_folder, child):
    chance = random.Random(SEED)
    path, file = new_log(quick_folder / "log.db"), quick_folder / "sets.csv"
    rows = [f"2026-{1 + at // 280:02d}-{1 + at % 28:02d},back squat,{50 + at % 40},kg,5" for at in range(2000)]
    file.write_text("\n".join(("date,lift,load,unit,reps", *rows)))
    whole = 0
    for number in range(10):
        process = child(import_file, str(path), str(file))
        time.sleep(chance.random() * 0.6)
        process.kill()
        process.join()
        assert faults_of_file(path) == []
        with closing(sqlite3.connect(path)) as connection:
            (sets,) = connection.execute("SELECT count(*) FROM sets").fetchone()
        assert sets in (0, len(rows)), number
        whole += sets > 0
        if sets:
            path = new_log(quick_folder / f"log-{number}.db")
    import_file(str(path), str(file))
    import_file(str(path), str(file))
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("SELECT count(*) FROM sets").fetchone() == (len(rows),)
    print(f"{whole} of 10 imports were through before they were killed")
