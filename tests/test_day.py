"""A test has one day, and none of them reads it, or any moment, where its module is read."""

from __future__ import annotations

import ast
import time
from datetime import date, datetime
from pathlib import Path

import pytest
import time_machine

from tests import day

HERE = Path(__file__).parent
FILES = sorted(each for each in HERE.rglob("*.py") if "benchmarks" not in each.parts)
CLOCKS = {
    "date.today",
    "dt.date.today",
    "datetime.now",
    "dt.datetime.now",
    "now",
    "time.time",
    "this_day",
    "datetime.utcnow",
}
OWN = {"day.py", "test_day.py", "server/load.py"}  # the last is a command


class AtImport(ast.NodeVisitor):
    """Notes each clock that is read outside a function: bodies of functions are left out, their defaults are not."""

    def __init__(self) -> None:
        self.found: list[str] = []

    def visit_FunctionDef(self, node: ast.FunctionDef | ast.AsyncFunctionDef) -> None:
        for each in (*node.decorator_list, *node.args.defaults, *filter(None, node.args.kw_defaults)):
            self.visit(each)

    visit_AsyncFunctionDef = visit_FunctionDef  # noqa: N815

    def visit_Lambda(self, node: ast.Lambda) -> None:
        for each in (*node.args.defaults, *filter(None, node.args.kw_defaults)):
            self.visit(each)

    def visit_Call(self, node: ast.Call) -> None:
        if ast.unparse(node.func) in CLOCKS:
            self.found.append(f"line {node.lineno}: {ast.unparse(node)}")
        self.generic_visit(node)


def at_import(text: str) -> list[str]:
    look = AtImport()
    look.visit(ast.parse(text))
    return look.found


@pytest.mark.parametrize(
    "text",
    [
        "TODAY = date.today()",
        "def plan(day=date.today()): ...",
        "@pytest.mark.parametrize('day', [this_day()])\ndef test_it(day): ...",
        "class Row:\n    at = datetime.now(UTC)",
        "later = lambda day=this_day(): day",
    ],
)
def test_a_clock_that_is_read_at_import_is_found(text):
    assert len(at_import(text)) == 1


def test_no_test_reads_a_clock_at_import():
    assert len(FILES) > 200
    assert {path.name: found for path in FILES if (found := at_import(path.read_text(encoding="utf-8")))} == {}
    assert at_import("def test_it():\n    return this_day(), [lambda: this_day()]") == []


def test_the_day_of_a_test_has_one_source():
    others = [path for path in FILES if path.relative_to(HERE).as_posix() not in OWN]
    assert [path.name for path in others if "date.today()" in path.read_text(encoding="utf-8")] == []


def test_there_is_no_day_before_a_test_has_begun(no_test):
    with pytest.raises(RuntimeError, match="No test has begun"):
        day.this_day()


@pytest.fixture
def no_test(monkeypatch):
    """As where a module is read; what was noted of this test comes back."""
    monkeypatch.setattr(day, "_of_this_test", [])
    monkeypatch.setattr(day, "_last", [])


@pytest.fixture
def waited(monkeypatch):
    """Put the clock of this machine at a local moment, as `waited("2026-03-02T23:59")`: what is waited moves it, and is told."""
    told: list[float] = []
    with time_machine.travel(1_772_452_800, tick=False) as clock:  # seconds: an aware moment would set the zone as well

        def sleep(seconds: float) -> None:
            told.append(seconds)
            clock.shift(seconds)

        monkeypatch.setattr(time, "sleep", sleep)
        yield lambda moment: clock.move_to(datetime.fromisoformat(moment).timestamp(), tick=False) or told


@pytest.mark.parametrize("zone", ["UTC", "Pacific/Kiritimati", "Pacific/Pago_Pago", "Europe/Berlin", "XXX-05:45"])
def test_a_test_waits_for_a_midnight_that_is_near(no_test, waited, monkeypatch, zone):
    monkeypatch.setenv("TZ", zone)
    time.tzset()
    try:
        told = waited("2026-03-28T23:58:59")  # in Berlin the night in which the clocks change
        assert (day.begin(), day.this_day(), told) == (False, date(2026, 3, 28), [])
        told = waited("2026-03-28T23:59:30")
        assert (day.begin(), day.this_day(), told) == (True, date(2026, 3, 29), [30])
        assert day.begin() is False  # the same day as the last test's
    finally:
        monkeypatch.undo()
        time.tzset()
