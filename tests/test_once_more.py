"""What failed is run once more, alone, and named; what fails again, or many at once, is a failure."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path
from types import SimpleNamespace

import pytest

from tests import once_more

RUN = Path(__file__).parent.parent / ".ci" / "run"
LATE, BROKEN = "tests/test_a.py::test_late[a b]", "tests/test_a.py::test_broken"

# Stands for the tests: fails the first time what it is told to fail, and with "again" in its list also the second time.
STAND_IN = """#!/usr/bin/env bash
printf '%s\\n' "$*" >>calls
case "$*" in
*@*) last=${*: -1}; ! grep -q broken "${last#@}" ;;
*) cat to_fail >"$TIDEMARK_TEST_FAILED"; [ ! -s to_fail ] ;;
esac
"""


def test_each_that_failed_or_could_not_be_set_up_stands_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    reports = {
        "passed": [SimpleNamespace(nodeid="tests/test_a.py::test_fine")],
        "failed": [SimpleNamespace(nodeid=LATE)],
        "error": [SimpleNamespace(nodeid=LATE), SimpleNamespace(nodeid=BROKEN)],
    }
    assert once_more.failed(reports) == [LATE, BROKEN]

    monkeypatch.setenv(once_more.FAILED, str(tmp_path / "failed"))
    once_more.note(reports)
    assert (tmp_path / "failed").read_text().splitlines() == [LATE, BROKEN]
    once_more.note({})
    assert (tmp_path / "failed").read_text() == ""


def run(folder: Path, *to_fail: str) -> tuple[int, str, list[str]]:
    """The function of .ci/run over the stand-in: its status, what it printed, and how the tests were called."""
    function = re.search(r"^run_tests\(\) \{.*?^\}$", RUN.read_text(), re.MULTILINE | re.DOTALL)
    assert function
    python = folder / ".venv" / "bin" / "python"
    python.parent.mkdir(parents=True)
    python.write_text(STAND_IN)
    python.chmod(0o755)
    (folder / "to_fail").write_text("".join(f"{nodeid}\n" for nodeid in to_fail))
    script = (
        "set -euo pipefail\nfailed=$PWD/failed again=0\nexport TIDEMARK_TEST_FAILED=$failed\n"
        f'{function[0]}\nrun_tests .venv/bin/python -m pytest\necho "again $again"\n'
    )
    ended = subprocess.run(["bash", "-c", script], cwd=folder, capture_output=True, text=True, check=False)
    return ended.returncode, ended.stdout, (folder / "calls").read_text().splitlines()


def test_without_a_failure_nothing_runs_again(tmp_path: Path) -> None:
    assert run(tmp_path) == (0, "again 0\n", ["-m pytest"])


def test_what_passes_alone_is_named(tmp_path: Path) -> None:
    status, printed, calls = run(tmp_path, LATE)
    assert (status, len(calls)) == (0, 2)
    assert f"late: {LATE}\nagain 1\n" in printed


@pytest.mark.parametrize("to_fail", [(LATE, BROKEN), (LATE,) * 6], ids=["again", "many"])
def test_what_fails_again_or_many_end_the_run(tmp_path: Path, to_fail: tuple[str, ...]) -> None:
    status, printed, calls = run(tmp_path, *to_fail)
    assert status == 1
    assert "again" not in printed
    assert len(calls) == (1 if len(to_fail) > 5 else 2)
