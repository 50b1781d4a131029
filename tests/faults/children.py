"""What the tests let other processes do; the server that forks them imports this module once."""

from __future__ import annotations

import os
import random
import resource
import shutil
import signal
from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from multiprocessing.connection import Connection
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.errors import TidemarkError
from tracker.log.engine import database_url
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass

FIRST = date(2026, 1, 5)


def log_until_killed(path: str, said: str, name: str, seed: int) -> None:
    """Log and mend sets without end, one line a set before and after; on the disk before the next one begins."""
    chance = random.Random(seed)
    log = Log(database_url(path))
    member, lift = people.members(log)[0], people.lifts(log)[0]
    with Path(said).open("a", buffering=1) as words:
        for number in range(100_000):
            day = FIRST + timedelta(days=chance.randrange(300))
            token, load = f"{name}-{number}", Decimal(chance.randrange(40, 60))
            words.write(f"about {token} {load}\n")
            new = NewSet(lift.id, Mass(load, "kg"), 5)
            row = log_set.log_set(log, member.id, day, new, token=token)
            words.write(f"saved {token} {load}\n")
            if chance.random() < 0.2:
                words.write(f"about {token} {load + 1}\n")
                log_set.mend_set(log, row.id, NewSet(lift.id, Mass(load + 1, "kg"), 5))
                words.write(f"saved {token} {load + 1}\n")


def _open_and_at_each_step(path: str, do: Callable[[int], None]) -> None:
    """Open a log and do something just before each statement of its migration, and after the last but before the commit."""
    from alembic.runtime.migration import MigrationContext
    from sqlalchemy import event
    from sqlalchemy.engine import Engine

    seen = 0
    migrating = False
    whole = MigrationContext.run_migrations

    def run(self: Any, **more: Any) -> None:
        nonlocal migrating
        migrating = True
        whole(self, **more)

    def count(*_: Any) -> None:
        nonlocal seen
        if migrating:
            do(seen)
            seen += 1

    MigrationContext.run_migrations = run  # this process ends here or below
    event.listen(Engine, "before_cursor_execute", count)
    event.listen(Engine, "commit", count)
    Log(database_url(path)).close()


def open_and_die_at(path: str, step: int) -> None:
    """Open a log and be killed at a step of its migration."""

    def die(seen: int) -> None:
        if seen == step:
            os.kill(os.getpid(), signal.SIGKILL)

    _open_and_at_each_step(path, die)


def open_and_keep_each_step(path: str, into: str) -> None:
    """Open a log and keep what stands in its folder at each step of its migration, once for steps that leave the same.

    A process that is killed leaves its files as they stand: what it wrote is the system's, and its locks end with it.
    Each kept folder has the number of the first step that leaves it; `steps.txt` says which one each step leaves.
    """
    folder, first = Path(path).parent, dict[tuple[tuple[str, bytes], ...], int]()

    def keep(seen: int) -> None:
        left = tuple(
            (each.relative_to(folder).as_posix(), each.read_bytes())
            for each in sorted(folder.rglob("*"))
            if each.is_file()
        )
        if left not in first:
            first[left] = seen
            shutil.copytree(folder, Path(into) / str(seen))
        with (Path(into) / "steps.txt").open("a") as steps:
            steps.write(f"{first[left]}\n")

    _open_and_at_each_step(path, keep)


def with_small_files(most_bytes: int, said: str, act: Callable[[str], None], path: str) -> None:
    """Do something while no file may grow beyond a limit, and note what was said of it."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)  # the write fails then, as on a full disk
    resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, resource.getrlimit(resource.RLIMIT_FSIZE)[1]))
    try:
        act(path)
    except TidemarkError as err:
        words = f"{type(err).__name__}: {err}"
    except Exception as err:
        words = f"RAW {type(err).__name__}: {err}"
    else:
        words = "done"
    resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.getrlimit(resource.RLIMIT_FSIZE)[1]))
    Path(said).write_text(words)


def just_open(path: str) -> None:
    Log(database_url(path)).close()


def log_many(path: str) -> None:
    """Log sets with long notes until something stops it, at most 50."""
    log = Log(database_url(path))
    member, lift = people.members(log)[0], people.lifts(log)[0]
    for number in range(50):
        new = NewSet(lift.id, Mass(Decimal(50), "kg"), 5, note=f"{number} " * 300)
        log_set.log_set(log, member.id, FIRST + timedelta(days=number % 50), new)


def add_one_to_each(path: str, set_id: str, times: int) -> None:
    """Read a set and write it one kilogram heavier, again and again, in one act each; another process does the same."""
    from tracker.log import sets as log_sets

    log = Log(database_url(path))
    for _ in range(times):
        with log.act("one more") as act:
            row = log_sets.one_set(act.session, set_id)
            assert row is not None
            new = log_set.as_new(row)
            heavier = Mass(row.load.amount + 1, "kg")
            log_sets.change_set(act, set_id, NewSet(new.lift_id, heavier, new.reps))


def tap(path: str, token: str, times: int, member_id: str, lift_id: str) -> None:
    """Log one set with the same token, as a button that is hit twice."""
    log = Log(database_url(path))
    for _ in range(times):
        log_set.log_set(log, member_id, FIRST, NewSet(lift_id, Mass(Decimal(50), "kg"), 5), token=token)


def hold(path: str, held: str, released: str) -> None:
    """Hold the write lock until another file appears."""
    import sqlite3
    import time

    connection = sqlite3.connect(path, isolation_level=None)
    connection.execute("BEGIN EXCLUSIVE")
    Path(held).touch()
    while not Path(released).exists():
        time.sleep(0.01)
    connection.execute("ROLLBACK")


def write_a_lot_and_die(path: str, seed: int) -> None:
    """Begin one big act, let parts of it reach the file before its end, and be killed there."""
    from tracker.log import sets as log_sets

    chance = random.Random(seed)
    log = Log(database_url(path))
    member, lift = people.members(log)[0], people.lifts(log)[0]
    with log.act("a big act", member.id) as act:
        act.session.connection().exec_driver_sql("PRAGMA cache_size=5")  # pages must leave memory early
        for number in range(60 + chance.randrange(60)):
            new = NewSet(lift.id, Mass(Decimal(60), "kg"), 5, note="x" * 600)
            log_sets.add_set(act, member.id, FIRST + timedelta(days=number % 30), new)
        os.kill(os.getpid(), signal.SIGKILL)


def add_as_nobody(warm: str, path: str, pipe: Connection) -> None:
    """Become a user without rights, after all that is imported late was, and try to add a member."""
    log = Log(database_url(warm))
    people.add_member(log, "Warm")
    log.close()
    os.setgid(65534)
    os.setuid(65534)
    log = Log(database_url(path))
    pipe.send([each.name for each in people.members(log)])
    try:
        people.add_member(log, "Bo")
        pipe.send("added")
    except TidemarkError as err:
        pipe.send(f"{type(err).__name__}: {err}")


def open_as_nobody(path: str, pipe: Connection) -> None:
    """Become a user without rights, and try to open a log."""
    with TemporaryDirectory() as folder:
        Log(database_url(f"{folder}/warm.db")).close()  # what is imported late is there then
    os.setgid(65534)
    os.setuid(65534)
    try:
        Log(database_url(path)).close()
        pipe.send("opened")
    except TidemarkError as err:
        pipe.send(f"{type(err).__name__}: {err}")


def back_up_and_restore(path: str, good: str, other: str) -> None:
    """Make a backup and put the good one back, without end."""
    from tracker.desk.files import custody

    while True:
        custody.backup(path, Path(other), force=True)
        custody.restore(path, Path(good))


def import_file(path: str, file: str) -> None:
    from tests.taking_in import import_sets

    log = Log(database_url(path))
    import_sets(log, Path(file), member="Ana", today=date(2026, 12, 31))
    log.close()


def die(*_: object, **__: object) -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def delete_and_die(path: str, name: str, at: str) -> None:
    """Delete a member with the copies, and be killed once the rows are gone: before or behind the fresh copy, or a copy deleted."""
    from tracker.desk.base import backups
    from tracker.desk.files import deletion

    log = Log(database_url(path))
    (member,) = [each for each in people.members(log) if each.name == name]
    make = backups.make
    if at == "rows":
        backups.let_go = die
    elif at == "copied":
        backups.make = lambda *given: (make(*given), die())
    else:
        backups.Path.unlink = _die_after(Path.unlink)  # type: ignore[method-assign]
    deletion.delete_member(log, member.id, name, with_copies=True)


def _die_after(unlink: Callable[..., None]) -> Callable[..., None]:
    def gone(file: Path, **more: bool) -> None:
        unlink(file, **more)
        if "-asked" in file.name:
            die()

    return gone


def back_up_and_die(path: str, target: str) -> None:
    """Make a backup and be killed before it has its name."""
    from tracker.desk.files import custody
    from tracker.log import copies

    copies.seal = die
    custody.backup(path, Path(target))


def write_and_die(path: str, member_id: str) -> None:
    """Be killed within a transaction whose pages are on the disk already."""
    from tracker.log import sets as log_sets

    log = Log(database_url(path))
    lift = people.lifts(log)[0]
    with log.act("a big act", member_id) as act:
        act.session.connection().exec_driver_sql("PRAGMA cache_size=5")
        act.session.connection().exec_driver_sql("UPDATE members SET name = id")  # the former page is in the journal
        for number in range(60):
            log_sets.add_set(
                act, member_id, FIRST, NewSet(lift.id, Mass(Decimal(60), "kg"), 5, note="x" * 600 + str(number))
            )
        die()
