"""A whole log out as JSON and back in: every record as it was, described by its schema, refused where anything is wrong."""

from __future__ import annotations

import csv
import json
import random
import shutil
import tempfile
from collections import Counter
from contextlib import closing
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator, FormatChecker
from sqlalchemy import text

from tests.conftest import fill_demo
from tests.day import this_day
from tests.taking_in import import_sets
from tests.undoing import undo_newest
from tracker.cli import run
from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set
from tracker.desk.files import custody
from tracker.desk.files.check import check_log
from tracker.desk.files.export import export
from tracker.desk.files.files_json import take_log
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.log import open_format
from tracker.log.engine import database_url
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass

pytestmark = pytest.mark.sqlite("build an SQLite file on the way; tests/server takes a log into a server")


def all_of(log: Log) -> dict[str, list[dict[str, object]]]:
    with log.reading() as session:
        return {table.name: list(open_format.records(session, table)) for table in open_format.tables()}


@pytest.fixture
def target(fresh):
    opened = open_log(fresh())
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def demo_text(store, tmp_path_factory):
    """The demo as an export has it, as text."""
    folder = tmp_path_factory.mktemp("demo")
    log = open_log(address := store.copy("demo", fill_demo, folder))
    text = (export(log, folder / "out").folder / "log.json").read_text(encoding="utf-8")
    log.close()
    store.drop(address)
    return text


def test_the_whole_demo_comes_back_record_for_record(demo_log, target, tmp_path):
    out = export(demo_log, tmp_path / "out").folder
    document = json.loads((out / "log.json").read_text(encoding="utf-8"))
    checked = Draft202012Validator(json.loads((out / "log.schema.json").read_text()), format_checker=FormatChecker())
    assert list(checked.iter_errors(document)) == []
    done = take_log(target, out / "log.json")
    before, after = all_of(demo_log), all_of(target)
    assert after == before
    assert done.records == {kind: len(rows) for kind, rows in before.items()}
    assert done.sets > 2000
    assert check_log(target.name).ok


def test_the_schema_in_the_package_is_that_of_the_models():
    Draft202012Validator.check_schema(open_format.schema())
    assert open_format.SCHEMA.read_text(encoding="utf-8") == open_format.written_schema(), (
        "python -m tracker.log.open_format"
    )


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("records", "sets", 0, "unit"), "stone"), (("records", "sets", 0, "load"), "1e3"), (("records", "sets", 0, "reps"), "5"),
        (("records", "sessions", 0, "day"), "2026-02-30"), (("records", "members", 0, "mood"), "good"), (("version",), 2),
    ],
)  # fmt: skip
def test_the_schema_refuses_what_is_no_log(demo_text, path, value):
    document = json.loads(demo_text)
    place = document
    for step in path[:-1]:
        place = place[step]
    place[path[-1]] = value
    checked = Draft202012Validator(open_format.schema(), format_checker=FormatChecker())
    assert next(checked.iter_errors(document), None) is not None


names = st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=12)
loads = st.decimals(1, 300, places=2)
logs = st.lists(
    st.tuples(
        names, names, st.dates(date(2000, 1, 1), date(2026, 11, 1)), loads, st.sampled_from(["kg", "lb"]), st.integers(1, 30),
        st.sampled_from([None, Decimal(0), Decimal("0.5"), Decimal(3)]), st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=30),
        st.sampled_from(["keep", "mend", "remove"]),
    ),
    min_size=1, max_size=6,
)  # fmt: skip


def written(log: Log, rows) -> None:
    for member, lift, day, load, unit, reps, rir, note, fate in rows:
        by_name = {each.name.casefold(): each for each in people.members(log)}
        whose = by_name.get(member.casefold()) or people.add_member(log, member)
        lifts = {each.name.casefold(): each for each in people.lifts(log)}
        of = lifts.get(lift.casefold()) or people.add_lift(log, lift, "barbell")
        new = NewSet(of.id, Mass(load, unit), reps, rir=rir, note=note)
        row = log_set.log_set(log, whose.id, day, new, sure=True)
        if fate == "mend":
            log_set.mend_set(log, row.id, NewSet(of.id, Mass(load + 1, unit), reps), sure=True)
        elif fate == "remove":
            log_set.remove_set(log, row.id, today=this_day())


def as_sets(log: Log) -> Counter[tuple[str, ...]]:
    """The sets that stand, as sets.csv says them."""
    with tempfile.TemporaryDirectory() as folder:
        export(log, Path(folder))
        with (Path(folder) / "sets.csv").open(encoding="utf-8", newline="") as file:
            return Counter(tuple(row) for row in csv.reader(file))


@settings(max_examples=6)
@given(logs)
def test_by_json_and_by_csv_the_same_sets_come_back_and_by_json_all_the_rest(empty_log, rows):
    with tempfile.TemporaryDirectory() as folder:
        paths = [Path(folder) / f"{name}.db" for name in ("first", "json", "csv")]
        first, by_json, by_csv = (open_log(str(shutil.copyfile(empty_log, path))) for path in paths)
        written(first, rows)
        out = export(first, Path(folder) / "out").folder
        take_log(by_json, out / "log.json")
        import_sets(by_csv, out / "sets.csv", today=date(2026, 11, 20))
        assert all_of(by_json) == all_of(first)
        assert as_sets(by_json) == as_sets(first) == as_sets(by_csv)
        for log in (first, by_json, by_csv):
            log.close()


def small(log: Log, folder: Path) -> dict[str, object]:
    ana, squat = people.add_member(log, "Ana"), people.add_lift(log, "front squat", "barbell")
    log_set.log_set(log, ana.id, date(2026, 3, 2), NewSet(squat.id, Mass(Decimal("92.50"), "kg"), 3))
    return json.loads((export(log, folder).folder / "log.json").read_text(encoding="utf-8"))


def put(at: tuple[object, ...], value: object):
    def change(document):
        for step in at[:-1]:
            document = document[step]
        if value is KeyError:
            del document[at[-1]]
        else:
            document[at[-1]] = value

    return change


SET = ("records", "sets", 0)
BAD = [
    (put(("format",), "recipes"), "no exported log", "log.json"), (put(("version",), 2), "version 2", "log.json"),
    (put(("revision",), "9999"), "newer version", "log.json"), (put(("records",), []), "missing", "log.json"),
    (put(("records", "sets"), 5), "no list", "records.sets"), (put(SET, "x"), "no list", "records.sets"),
    (put(("records", "recipes"), []), "no such kind", "records.recipes"),
    (put((*SET, "mood"), 1), "not known", "records.sets[0].mood"), (put((*SET, "reps"), KeyError), "missing", "records.sets[0].reps"),
    (put((*SET, "reps"), "5"), "another type", "records.sets[0].reps"), (put((*SET, "reps"), True), "another type", "records.sets[0].reps"),
    (put((*SET, "load"), None), "null", "records.sets[0].load"), (put((*SET, "load"), "nan"), "not in order", "log.json"),
    (put((*SET, "unit"), "stone"), "breaks a rule", "records.sets"), (put((*SET, "session_id"), "gone"), "not in order", "log.json"),
    (put((*SET, "logged_at"), "soon"), "no moment", "records.sets[0].logged_at"),
    (put((*SET, "logged_at"), "2026-03-02T10:00:00"), "no offset", "records.sets[0].logged_at"),
    (put(("records", "sessions", 0, "day"), "2026-02-30"), "not in order", "log.json"),
    (put(("records", "alembic_version"), []), "no such kind", "records.alembic_version"),
    (put((*SET, "note"), "half \ud83d"), "Half of a letter", "log.json, records.sets[0].note"),
    (put(("records", "changes", 0, "after", "name"), "\udc00"), "Half of a letter", "records.changes[0].after.name"),
    (put((*SET, "no\ud83dte"), ""), "Half of a letter", "a name in records.sets[0]"),
]  # fmt: skip


@pytest.mark.parametrize(("damage", "words", "where"), BAD)
def test_a_bad_document_is_refused_with_its_place_and_nothing_is_taken(log, target, tmp_path, damage, words, where):
    document = small(log, tmp_path / "out")
    damage(document)
    (tmp_path / "log.json").write_text(json.dumps(document))
    before = Path(target.name).read_bytes()
    with pytest.raises(BadInputError, match=words) as refused:
        take_log(target, tmp_path / "log.json")
    assert where in refused.value.where
    assert refused.value.mend
    assert Path(target.name).read_bytes() == before


def test_a_document_that_was_cut_off_or_changed_anywhere_is_told_or_taken_whole(log, target, tmp_path):
    whole = json.dumps(small(log, tmp_path / "out")).encode()
    chance, told = random.Random(20261126), 0
    for number in range(60):
        content = bytearray(whole)
        if number % 2:
            content = content[: chance.randrange(len(content))]
        else:
            content[chance.randrange(len(content))] = chance.randrange(256)
        (tmp_path / "log.json").write_bytes(content)
        try:
            take_log(target, tmp_path / "log.json")
        except BadInputError:
            told += 1
            assert all(not rows for kind, rows in all_of(target).items() if kind != "log_facts")
        else:
            with target.engine.begin() as connection:
                for table in reversed(open_format.tables()):
                    connection.execute(table.delete())
    assert told >= 30


def test_a_log_that_holds_anything_takes_no_whole_log(log, target, tmp_path):
    small(log, tmp_path / "out")
    people.add_member(target, "Bo")
    with pytest.raises(BadInputError, match="holds nothing") as refused:
        take_log(target, tmp_path / "out" / "log.json")
    assert "sets.csv" in refused.value.mend
    assert [each.name for each in people.members(target)] == ["Bo"]


def test_who_signs_in_is_not_taken_along(log, tmp_path):
    with log.engine.begin() as connection:
        connection.execute(
            text(
                "INSERT INTO accounts (id, role, code, created_at) VALUES ('a', 'owner', 'a-secret-code', '2026-03-02 10:00:00')"
            )
        )
    out = export(log, tmp_path / "out").folder
    for path in out.iterdir():
        assert "a-secret-code" not in path.read_text(encoding="utf-8"), path.name


def test_the_csv_files_are_described_column_by_column(demo_log, tmp_path):
    out = export(demo_log, tmp_path / "out").folder
    described = json.loads((out / "csv-metadata.json").read_text())
    assert described["@context"][0] == "http://www.w3.org/ns/csvw"
    files = {each["url"]: each["tableSchema"] for each in described["tables"]}
    assert set(files) == {path.name for path in out.glob("*.csv")}
    for name, schema in files.items():
        with (out / name).open(encoding="utf-8", newline="") as file:
            heading, *rows = csv.reader(file)
        assert [column["name"] for column in schema["columns"]] == heading, name
        for column, cells in zip(schema["columns"], zip(*rows, strict=True), strict=False):
            assert not (column["required"] and "" in cells), (name, column)
            for cell in filter(None, cells):
                assert fits(column["datatype"], cell), (name, column, cell)


def fits(kind, cell: str) -> bool:
    if isinstance(kind, dict):
        return cell in ("yes", "no")
    if kind == "date":
        return date.fromisoformat(cell).isoformat() == cell
    if kind == "dateTimeStamp":
        return cell.endswith("Z")
    if kind == "json":
        return json.loads(cell) is not None
    if kind == "decimal":
        return Decimal(cell).is_finite()
    if kind in ("integer", "nonNegativeInteger", "positiveInteger"):
        return int(cell) >= (kind == "positiveInteger")
    return kind == "string"


def test_on_the_command_line(log, tmp_path, capsys):
    small(log, tmp_path / "out")
    new = tmp_path / "new.db"
    arguments = ["import", str(tmp_path / "out" / "log.json"), "--database", str(new), "--json"]
    assert run(arguments) == 0
    assert json.loads(capsys.readouterr().out)["sets"] == 1
    assert run(arguments) == 2
    assert "holds nothing" in capsys.readouterr().err
    assert run([*arguments, "--member", "Ana"]) == 2
    with closing(open_log(str(new))) as opened:
        assert all_of(opened) == all_of(log)


def test_put_in_place_of_a_log_which_is_kept(log, target, tmp_path):
    small(log, tmp_path / "out")
    people.add_member(target, "Bo")
    done = custody.restore(target.name, tmp_path / "out" / "log.json")
    assert done.sets == 1
    now = all_of(target)
    assert now["changes"].pop()["act"] == "put a copy in the place of the log"
    (head,) = [each for each in now["log_facts"] if each["key"] == "history"]
    head["value"] = f"{len(now['changes'])}x0"  # with that act it ended one later
    assert now == all_of(log)
    assert undo_newest(target, people.members(target)[0].id) == "logged front squat, barbell: 3 x 92.5 kg"
    assert done.former is not None
    with closing(Log(database_url(str(shutil.copyfile(done.former, tmp_path / "former.db"))))) as former:
        assert [each.name for each in people.members(former)] == ["Bo"]
