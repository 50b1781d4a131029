"""A quick question gets a quick answer: the heavy libraries stay out of the commands that don't need them."""

import os
import subprocess
import sys

import pytest

HEAVY = ("streamlit", "plotly", "pandas", "sqlalchemy", "scipy", "numpy", "alembic")
WEIGHTS = ["weights", "--reference", "3RM=92.5kg", "--wave", "1x4@72", "--json"]
LADDER = ["score", "ladder", "--from", "3", "--step", "3", "--movements", "3", "--total", "160", "--json"]


def loaded_after(script: str) -> set[str]:
    code = f"{script}\nimport sys\nprint(*(name for name in sys.modules if '.' not in name), file=sys.stderr)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(done.stderr.split())


@pytest.mark.parametrize("arguments", [WEIGHTS, LADDER, ["--version"], ["--help"]])
def test_a_light_command_loads_nothing_heavy(arguments):
    loaded = loaded_after(f"from tracker.cli import run\nassert run({arguments!r}) == 0")
    assert "click" in loaded
    assert not loaded & set(HEAVY)


def test_importing_the_command_line_loads_nothing_heavy():
    assert not loaded_after("import tracker.cli") & {*HEAVY, "lark"}


@pytest.mark.parametrize(("given", "used"), [(None, "1"), ("3", "3")])
def test_small_matrices_are_multiplied_by_one_thread_unless_somebody_says_otherwise(given, used):
    code = "import tracker, os; print(os.environ['OPENBLAS_NUM_THREADS'])"
    others = {name: value for name, value in os.environ.items() if name != "OPENBLAS_NUM_THREADS"}
    said = others | ({"OPENBLAS_NUM_THREADS": given} if given else {})
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, env=said)
    assert done.stdout.strip() == used


def test_python_m_tracker_is_the_same_program():
    command = [sys.executable, "-m", "tracker", *WEIGHTS]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert '"load": 67.5' in done.stdout
    assert done.stderr == ""


def test_status_2_for_bad_usage_of_the_whole_program():
    done = subprocess.run([sys.executable, "-m", "tracker", "nonsense"], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (2, "")
    assert "nonsense" in done.stderr


def test_a_fault_of_the_program_is_status_1_and_says_so(monkeypatch, tidemark):
    def fail(*_):
        raise ZeroDivisionError

    monkeypatch.setattr("tracker.cli.weights.parse_wave", fail)
    answer = tidemark(*WEIGHTS)
    assert answer.status == 1
    assert answer.out == ""
    assert "fault of the program" in answer.err


@pytest.mark.parametrize("more", [(), ("--json",)])
def test_a_reader_that_leaves_early_is_no_fault(more):
    wave = "1x4@72" if not more else "100x4@72, 100x4@72"  # less and more than what a pipe takes at once
    command = [sys.executable, "-m", "tracker", *WEIGHTS[:3], "--wave", wave, *more]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        said = process.stderr.read()
    assert said == ""
    assert process.returncode == 0


def test_a_name_that_the_terminal_can_not_write_is_no_fault(tmp_path):
    (tmp_path / "sets.csv").write_text(
        "member,date,lift,load,unit,reps\n\u0141ucja,2026-03-02,row,50,kg,5\n", encoding="utf-8"
    )
    command = [sys.executable, "-m", "tracker", "estimate", "--sets", str(tmp_path / "sets.csv")]
    environment = {**os.environ, "PYTHONIOENCODING": "latin-1"}
    done = subprocess.run(command, capture_output=True, encoding="latin-1", check=False, env=environment)
    assert (done.returncode, done.stderr) == (0, "")
    assert "\\u0141ucja" in done.stdout
