"""Nightly dumps: made by PostgreSQL's own tools, put back into a scratch database, looked over, and told."""

from __future__ import annotations

import json
from collections.abc import Generator
from contextlib import closing, contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

import psycopg
import pytest

from tests.desk.files.test_files_json import small
from tests.server.cluster import Cluster
from tests.stores import Databases
from tracker.cli import run
from tracker.desk.base.opening import open_log
from tracker.desk.files.deletion import delete_member
from tracker.desk.files.dumps import LATE, RECORD, make_dump, rehearsals, rehearse, state
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.wording import counted

NIGHT = datetime(2026, 11, 20, 2, 15, tzinfo=UTC)


@pytest.fixture
def address(fresh, tmp_path: Path) -> str:
    where = fresh()
    with closing(open_log(where)) as log:
        small(log, tmp_path / "out")
    return where


def names(address: str) -> set[str]:
    with psycopg.connect(address.replace("+psycopg", "")) as connection:
        return {row[0] for row in connection.execute("SELECT datname FROM pg_database")}


@contextmanager
def nothing_left(address: str) -> Generator[None]:
    """No scratch database of a rehearsal stays, whatever became of it."""
    yield
    mine = address.rpartition("/")[2]
    assert not {each for each in names(address) if each.startswith(f"{mine}_rehearsal_")}


def test_a_dump_is_put_back_and_holds_what_the_log_holds(address: str, tmp_path: Path) -> None:
    with nothing_left(address):
        done = make_dump(address, tmp_path / "dumps", now=NIGHT)
    assert done.good, done.problems
    assert done.counts["sets"] > 0
    file = tmp_path / "dumps" / done.file
    assert done.file == "tidemark-20261120T021500Z.dump"
    assert file.stat().st_size == done.size
    assert oct(file.stat().st_mode)[-3:] == "600"
    assert state(tmp_path / "dumps", NIGHT) == (
        True,
        f"The newest dump is of 2026-11-20 02:15 UTC: put back and in order, {counted(done.counts['sets'], 'set')}.",
    )


def test_a_damaged_dump_is_found_and_told_wherever_one_looks(
    address: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("TIDEMARK_DATABASE", address)
    folder = tmp_path / "dumps"
    done = make_dump(address, folder, now=NIGHT)
    file = folder / done.file
    whole = file.read_bytes()

    file.write_bytes(whole[: len(whole) // 2])  # a disk that was full
    assert state(folder, NIGHT)[1] == f"The newest dump is not as it was made: {done.file} has another size now."
    with nothing_left(address):
        assert run(["rehearse", str(folder)]) == 2
    said = capsys.readouterr().err
    assert f"{done.file} is no good dump" in said
    assert "not as it was made on 2026-11-20" in said
    assert "can't be put back" in said
    assert run(["dump", str(folder), "--look"]) == 2
    told = capsys.readouterr().err
    assert "The newest dump is not good" in told
    assert "There is no good one." in told  # it was the only one, and was good before it was damaged

    at = len(whole) // 2
    file.write_bytes(whole[:at] + bytes([whole[at] ^ 0xFF]) + whole[at + 1 :])  # one byte, the same size
    assert not rehearse(address, file).good

    file.write_bytes(whole)
    assert rehearse(address, file, now=NIGHT + timedelta(hours=50)).good
    assert state(folder, NIGHT + timedelta(hours=1))[0]
    late = state(folder, NIGHT + timedelta(hours=50))  # put back again, it is no newer
    assert late == (False, "No dump for 50 hours. The newest good one is of 2026-11-20 02:15 UTC.")


def test_a_missing_dump_is_found_and_told(
    address: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("TIDEMARK_DATABASE", address)
    folder = tmp_path / "dumps"
    assert state(folder, NIGHT) == (False, "No dump has been made and put back yet.")
    done = make_dump(address, folder, now=NIGHT)
    hours = int((LATE + timedelta(hours=2)) / timedelta(hours=1))
    assert state(folder, NIGHT + LATE + timedelta(hours=2)) == (
        False,
        f"No dump for {hours} hours. The newest good one is of 2026-11-20 02:15 UTC.",
    )
    (folder / done.file).unlink()
    good, said = state(folder, NIGHT)
    assert (good, said) == (False, f"The newest dump is gone: {done.file} is not in {folder} any more.")
    assert run(["rehearse", str(folder)]) == 2
    assert "There is no such dump." in capsys.readouterr().err
    assert run(["dump", str(folder), "--look", "--json"]) == 2
    assert json.loads(capsys.readouterr().out)["ok"] is False


def test_a_log_that_shrank_is_asked_about(address: str, tmp_path: Path) -> None:
    folder = tmp_path / "dumps"
    make_dump(address, folder, now=NIGHT)
    with closing(open_log(address)) as log:
        for member in people.members(log):
            delete_member(log, member.id, member.name)
    done = make_dump(address, folder, now=NIGHT + timedelta(days=1))
    assert "it holds 0 sets, and the dump before it held" in done.problems[0]


def test_old_dumps_go_and_bad_ones_stay_as_long_as_they_tell_something(address: str, tmp_path: Path) -> None:
    folder = tmp_path / "dumps"
    nights = [make_dump(address, folder, keep=2, now=NIGHT + timedelta(days=day)).file for day in range(2)]
    (folder / "by-hand.dump").write_bytes(b"mine")
    (folder / nights[1]).write_bytes(b"PGDMP, but no more")
    assert not rehearse(address, folder / nights[1]).good
    later = [make_dump(address, folder, keep=2, now=NIGHT + timedelta(days=day)).file for day in (2, 3)]
    assert sorted(each.name for each in folder.glob("*.dump")) == ["by-hand.dump", *later]
    assert len(rehearsals(folder)) == 5


def test_who_may_make_no_database_is_told_how(own_server: Cluster, own_databases: Databases, tmp_path: Path) -> None:
    owner = own_databases.copy("empty", None, tmp_path)
    with psycopg.connect(owner.replace("+psycopg", ""), autocommit=True) as connection:
        connection.execute("CREATE ROLE night LOGIN PASSWORD 'calm' IN ROLE pg_read_all_data")
    where = own_server.address(owner.rpartition("/")[2], user="night", password="calm")
    done = make_dump(where, tmp_path / "dumps", now=NIGHT)
    assert 'ALTER ROLE "night" CREATEDB' in done.problems[0]
    assert "calm" not in (tmp_path / "dumps" / RECORD).read_text()


def test_a_log_that_is_a_file_and_a_server_that_is_not_there_are_told(tmp_path: Path, empty_log: Path) -> None:
    with pytest.raises(BadInputError, match="is a file and not on PostgreSQL"):
        make_dump(str(empty_log), tmp_path / "dumps", now=NIGHT)
    with pytest.raises(BadInputError, match="dump was not made"):
        make_dump("postgresql+psycopg://nobody@127.0.0.1:1/none", tmp_path / "dumps", now=NIGHT)
    assert state(tmp_path / "dumps", NIGHT)[0] is False
