"""Files out of the log and in again: every record, unharmed, and all or nothing."""

from __future__ import annotations

import csv
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests import selection
from tests.stores import address_of
from tests.taking_in import HEADING, TWO, bring, counts, import_sets
from tracker.desk.base.opening import open_log
from tracker.desk.files.export import export
from tracker.desk.people import people
from tracker.log.sets import sets_of


def exported(log, folder):
    export(log, folder)
    return (folder / "sets.csv").read_text(encoding="utf-8")


def test_a_file_for_every_kind_of_record(log, file, tmp_path):
    bring(log, file())
    done = export(log, tmp_path / "out")
    assert {
        "sets.csv",
        "members.csv",
        "lifts.csv",
        "places.csv",
        "kit_items.csv",
        "sessions.csv",
        "body_masses.csv",
        "rep_maxes.csv",
        "waves.csv",
        "member_steps.csv",
        "scores.csv",
        "changes.csv",
    } <= set(done.files)
    described = {"log.json", "log.schema.json", "csv-metadata.json"}
    assert {path.name for path in (tmp_path / "out").iterdir()} == set(done.files) | described
    members = list(csv.DictReader((tmp_path / "out" / "members.csv").open(encoding="utf-8")))
    assert [(row["name"], row["unit"], row["minor"]) for row in members] == [("Ana", "kg", "no")]


def test_export_is_what_import_takes_back_for_the_whole_demo(demo_log, fresh, tmp_path):
    first = exported(demo_log, tmp_path / "one")
    other = open_log(fresh())
    done = import_sets(other, tmp_path / "one" / "sets.csv")
    assert done.added == done.rows == counts(demo_log)["sets"]
    assert exported(other, tmp_path / "two") == first
    assert import_sets(demo_log, tmp_path / "one" / "sets.csv").added == 0
    other.close()


WORDS = st.text(
    st.characters(min_codepoint=32, max_codepoint=0x2FFF, exclude_categories=["C", "Z"]), min_size=1, max_size=12
)
CELLS = {
    "member": st.sampled_from(["Ana", "=Ben()", "Zoë", "'Cem"]) | WORDS,
    "date": st.dates(date(2020, 1, 1), date(2020, 1, 4)).map(str),
    "lift": st.sampled_from(["front squat", "-press", "@row", "+1", "''x"]) | WORDS,
    "load": st.decimals("0.12", "900", places=2).map(str),
    "unit": st.sampled_from(["kg", "lb"]),
    "reps": st.integers(1, 200).map(str),
    "rir": st.sampled_from(["", "0", "1.5", "6"]),
    "outcome": st.sampled_from(["done", "missed", "cut"]),
    "kind": st.sampled_from(["work", "test", "ramp"]),
    "order": st.integers(1, 3).map(str) | st.just(""),
    "session": st.sampled_from(["", "evening", "=SUM(A1)"]),
    "place": st.sampled_from(["", "garage", "@home"]),
    "implement": st.sampled_from(["", "barbell", "dumbbells"]),
    "per_side": st.sampled_from(["", "yes", "no"]),
    "left_out": st.sampled_from(["", "-wrong"]),
    "note": st.sampled_from(["", "=1+1", "a\n=b", '"quoted", and more', " spaces ", "'=x"]) | st.text(st.characters(exclude_categories=["C"]), max_size=20),
}  # fmt: skip
COLUMNS = list(CELLS)
ROWS = st.fixed_dictionaries(CELLS)


@settings(max_examples=4 if selection.ON_SERVER else 20)  # two databases are made for each
@given(made=st.lists(ROWS, max_size=12))
def test_whatever_the_sets_are_they_go_out_and_in_unharmed(tmp_path_factory, store, made):
    from tracker.exchange.cells import harmless

    folder = tmp_path_factory.mktemp("round")
    with (folder / "made.csv").open("w", encoding="utf-8", newline="") as out:
        writer = csv.DictWriter(out, COLUMNS)
        writer.writeheader()
        writer.writerows([{key: harmless(value) for key, value in row.items()} for row in made])
    one, two = (open_log(store.copy("empty", None, folder)) for _ in range(2))
    try:
        assert bring(one, folder / "made.csv").added == len(made)
        first = exported(one, folder / "first")
        assert bring(one, folder / "made.csv").added == 0
        assert bring(one, folder / "first" / "sets.csv").added == 0
        bring(two, folder / "first" / "sets.csv")
        assert exported(two, folder / "second") == first
        assert sorted(row.note for row in rows_of_all(one)) == sorted(row["note"] for row in made)
    finally:
        for each in (one, two):
            each.close()
            store.drop(address_of(each))


def rows_of_all(log):
    with log.reading() as session:
        return [row for member in people.members(log) for row in sets_of(session, member.id)]


def test_cells_that_would_start_a_formula_are_harmless(log, file, tmp_path):
    bring(log, file(f"{HEADING},note\n=Ana,2026-03-02,+row,50,kg,5,,,,@note\n"))
    sets = exported(log, tmp_path / "out")
    assert "'=Ana" in sets
    assert "'+row" in sets
    assert "'@note" in sets
    everything = "".join(path.read_text(encoding="utf-8") for path in (tmp_path / "out").iterdir())
    assert not any(line.startswith(("=", "+", "@")) for line in everything.splitlines())


def test_negative_numbers_stay_numbers(log, file, tmp_path):
    bring(log, file("member,date,lift,load,unit,reps,body_mass\nAna,2026-03-02,pull-up,-20,kg,5,80\n"))
    assert ",-20,kg,80," in exported(log, tmp_path / "out")


def test_an_export_that_fails_leaves_the_former_files(log, file, tmp_path, monkeypatch):
    bring(log, file())
    folder = tmp_path / "out"
    before = exported(log, folder)
    names = sorted(path.name for path in folder.iterdir())
    bring(log, file(TWO + "Ana,2026-03-09,front squat,85,kg,5,1,done,work\n"))

    def fail(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("tracker.exchange.csv_out.os.fsync", fail)
    with pytest.raises(Exception, match="No space left"):
        export(log, folder)
    assert (folder / "sets.csv").read_text(encoding="utf-8") == before
    assert sorted(path.name for path in folder.iterdir()) == names
