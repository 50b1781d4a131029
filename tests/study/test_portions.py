"""The study's work is kept portion by portion: a run that was stopped goes on, and its page is that of one in one go."""

from __future__ import annotations

import ast
import json
import re
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tracker.errors import BadInputError
from tracker.strength.backtest import thin
from tracker.study import __main__ as study
from tracker.study import invented, portions

REFERENCES = Path(__file__).parents[1] / "references"
SEED = 7


@pytest.fixture(autouse=True)
def small(monkeypatch):
    """Portions of one person each, so that a few people are many of them."""
    monkeypatch.setattr(portions, "MEMBERS", 1)
    monkeypatch.setattr(portions, "ATHLETES", 1)


@pytest.fixture(scope="module")
def data(tmp_path_factory) -> Path:
    """Open data cut down to four competitors, and the lifters."""
    folder = tmp_path_factory.mktemp("data")
    shutil.copy(REFERENCES / "bench_reps_to_failure.csv", folder)
    lines = (REFERENCES / "competition_lifters.csv").read_text(encoding="utf-8").splitlines()
    head = next(at for at, line in enumerate(lines) if line.startswith("lifter"))
    few = [line for line in lines[head + 1 :] if line.split(",")[0] in ("1", "2", "3", "4")]
    (folder / "competition_lifters.csv").write_text("\n".join(["# cut", lines[head], *few]), encoding="utf-8")
    return folder


def page_of(out: Path) -> str:
    """Return a page without how long it took."""
    return re.sub(r"\d+ s of one processor", "", out.read_text(encoding="utf-8"))


def arguments(out: Path, data: Path, *more: str) -> list[str]:
    sizes = ["--members", "2", "--athletes", "2", "--seeds", "2", "--seed", str(SEED), "--processes", "1"]
    return ["--out", str(out), "--data", str(data), *sizes, *more]


def test_a_run_that_was_stopped_gives_the_page_of_one_in_one_go(tmp_path, data, monkeypatch, capsys):
    study.main(arguments(tmp_path / "whole.html", data))
    kept, right, worked = tmp_path / "kept", portions.work, []

    def stops(portion: portions.Portion) -> portions.Done:
        if len(worked) == 9:
            raise KeyboardInterrupt
        worked.append(portion)
        return right(portion)

    monkeypatch.setattr(portions, "work", stops)
    with pytest.raises(KeyboardInterrupt):
        study.main(arguments(tmp_path / "parts.html", data, "--kept", str(kept)))
    assert not (tmp_path / "parts.html").exists()
    assert {each.name for each in kept.iterdir()} == {each.name for each in worked}
    before = set(worked)
    worked.clear()
    monkeypatch.setattr(portions, "work", lambda portion: (worked.append(portion), right(portion))[1])
    capsys.readouterr()
    study.main(arguments(tmp_path / "parts.html", data, "--kept", str(kept)))
    assert not before & set(worked)
    assert page_of(tmp_path / "parts.html") == page_of(tmp_path / "whole.html")
    said = capsys.readouterr().err
    assert "9 portions of 24 kept from before" in said
    assert "24 of 24 portions, about 0 seconds left" in said


def test_more_members_work_only_what_is_new(tmp_path, monkeypatch):
    few, many = portions.of_members(2, SEED), portions.of_members(3, SEED)
    monkeypatch.setattr(portions, "work", lambda portion: portions.Done(portion, (), 1.0))
    portions.worked(few, tmp_path, 1, lambda _: None)
    worked: list[portions.Portion] = []
    monkeypatch.setattr(portions, "work", lambda portion: (worked.append(portion), portions.Done(portion, (), 1.0))[1])
    portions.worked(many, tmp_path, 1, lambda _: None)
    assert {(each.first, each.count) for each in worked} == {(2, 1)}
    assert {each.kind for each in worked} == set(invented.KIND_WORDS)


def test_two_processes_find_what_one_does():
    some = [portions.Portion("members", "meets", str(SEED), first, 1) for first in range(4)]
    one, two = (portions.worked(some, None, number, lambda _: None) for number in (1, 2))
    assert list(two) == some
    assert repr([each.rows for each in two.values()]) == repr([each.rows for each in one.values()])  # nan in them


def test_what_is_read_again_is_what_was_found(tmp_path):
    done = portions.work(portions.Portion("members", "meets", str(SEED), 0, 2))
    portions.keep(done, tmp_path)
    again = portions.kept(done.portion, tmp_path)
    assert again
    assert repr(portions.members([again])) == repr(portions.members([done]))  # nan is no equal of itself
    straight = [invented.result(each) for each in thin.invent(thin.meets, 2, SEED)]
    assert repr(portions.members([again])) == repr(straight)


@pytest.mark.parametrize("text", ["", "{", "[]", '{"rows": []}', '{"rows": 1, "seconds": 2}'])
def test_a_file_that_is_not_whole_is_worked_anew(tmp_path, text):
    portion = portions.Portion("members", "meets", str(SEED), 0, 1)
    (tmp_path / portion.name).write_text(text, encoding="utf-8")
    assert portions.kept(portion, tmp_path) is None


def test_what_another_model_or_seed_made_is_not_taken(tmp_path, monkeypatch):
    portion = portions.Portion("members", "meets", str(SEED), 0, 1)
    portions.keep(portions.Done(portion, (), 1.0), tmp_path)
    assert portions.kept(portion, tmp_path)
    assert portions.kept(portions.Portion("members", "meets", "8", 0, 1), tmp_path) is None
    assert portions.kept(portions.Portion("members", "easy", str(SEED), 0, 1), tmp_path) is None
    monkeypatch.setattr(portions, "version", lambda: "another")
    assert portions.kept(portion, tmp_path) is None


def test_only_what_the_source_does_makes_another_version():
    was = 'A = 1  # one\n\n\ndef f():\n    """Say."""\n    return A\n'
    plain, told, other = (
        ast.dump(portions._code(each))
        for each in (was, 'A = 1\ndef f():\n    """Say more."""\n    return (A)\n', was.replace("1", "2"))
    )
    assert plain == told != other


def test_the_version_is_that_of_all_that_makes_the_figures_and_of_nothing_else():
    behind = portions._behind(portions.MAKERS)
    loaded = {
        name.removeprefix("tracker.strength.")
        for name in behind
        if name.startswith("tracker.strength.") and "backtest" not in name
    }
    assert {"estimator", "filtering", "motion", "parameters", "grid", "effort", "session", "formulas"} <= loaded
    assert {
        f"tracker.strength.backtest.{name}" for name in ("thin", "thin_table", "training", "truth", "yardsticks")
    } <= behind
    assert not {"tracker.strength.backtest.pooled", "tracker.study.portions", "tracker.study.parts"} & behind


def test_the_time_left_is_that_of_people_of_the_same_kind():
    easy, meets = (portions.Portion("members", kind, "1", 0, 10) for kind in ("easy", "meets"))
    more = portions.Portion("members", "easy", "1", 10, 5)
    other = portions.Portion("athletes", "tested", "1", 0, 4)
    found = {easy: portions.Done(easy, (), 20.0), meets: portions.Done(meets, (), 1.0)}
    assert portions.seconds_of([easy, meets, more], found) == pytest.approx(5 * 2.0)
    assert portions.seconds_of([easy, meets, other], found) == pytest.approx(4 * 21 / 20)  # of nobody alike: of all
    assert portions.seconds_of([easy, meets], found) == 0


def test_fewer_than_one_process_is_refused(tmp_path):
    with pytest.raises(BadInputError, match="processes"):
        study.main(["--out", str(tmp_path / "study.html"), "--processes", "0"])


def test_a_stopped_command_ends_its_processes_and_leaves_whole_files(tmp_path):
    kept = tmp_path / "kept"
    command = [sys.executable, "-m", "tracker.study", "--out", str(tmp_path / "study.html"), "--kept", str(kept)]
    with subprocess.Popen([*command, "--members", "600"], stderr=subprocess.PIPE, text=True) as running:
        assert running.stderr
        first = running.stderr.readline()  # a portion is done
        running.send_signal(signal.SIGTERM)
        rest = running.stderr.read()  # ends when the last process that could write has ended
    assert "left" in first
    assert rest.splitlines()[-1] == "Stopped."
    assert "Traceback" not in rest
    assert running.returncode == 1
    files = list(kept.glob("*.json"))
    assert files
    assert all(json.loads(each.read_text(encoding="utf-8"))["rows"] for each in files)
