"""A quick question gets a quick answer: the heavy libraries stay out of the commands that don't need them."""

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


def test_a_reader_that_leaves_early_is_no_fault():
    code = "import sys\nfrom tracker.cli import main\nsys.argv = ['tidemark', *sys.argv[1:]]\nmain()"
    long = [sys.executable, "-c", code, *WEIGHTS[:3], "--wave", "100x4@72, 100x4@72", "--json"]
    with subprocess.Popen(long, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        said = process.stderr.read()
    assert "Traceback" not in said
