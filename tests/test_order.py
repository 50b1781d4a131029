"""The order in which the processes of a run take the files of tests."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from tests.order import BROWSER, LONG, LongFirst

ROOT = Path(__file__).parent.parent
TESTS = [
    *(
        f"{BROWSER}test_{name}.py::test_{n}"
        for name, many in (("a", 1), ("b", 9), ("c", 4), ("d", 5))
        for n in range(many)
    ),
    *(
        f"tests/log/test_{name}.py::test_{n}"
        for name, many in (("a", 5), ("b", 40), ("c", 3), ("d", 20))
        for n in range(many)
    ),
    *(f"tests/exchange/test_heavy_files.py::test_{n}" for n in range(2)),
]


@dataclass(eq=False)
class Process:
    """A process of a run, as its scheduler sees it."""

    name: str
    todo: list[int] = field(default_factory=list)
    done: list[str] = field(default_factory=list)
    shutting_down: bool = False

    @property
    def gateway(self) -> Any:
        return SimpleNamespace(id=self.name)

    def send_runtest_some(self, indices: list[int]) -> None:
        self.todo += indices

    def shutdown(self) -> None:
        self.shutting_down = True


def run(many: int) -> list[Process]:
    """Let the processes do one test each in turn, as long as there are any."""
    config: Any = SimpleNamespace(
        getvalue=lambda name: ["popen"] * many,
        option=SimpleNamespace(loadscopereorder=True),
        getoption=lambda name: None,
    )
    config.trace = None
    scheduler = LongFirst(
        config, SimpleNamespace(loadscopesched=lambda *words: None, loadfilesched=lambda *words: None)
    )  # type: ignore[arg-type]
    processes: list[Any] = [Process(f"gw{n}") for n in range(many)]
    for each in processes:
        scheduler.add_node(each)
        scheduler.add_node_collection(each, TESTS)
    scheduler.schedule()
    while any(each.todo for each in processes):
        for each in processes:
            if each.todo:
                index = each.todo.pop(0)
                each.done.append(TESTS[index])
                scheduler.mark_test_complete(each, index)
    assert scheduler.tests_finished
    return processes


def files(process: Process) -> list[str]:
    return list(dict.fromkeys(each.partition("::")[0] for each in process.done))


@pytest.mark.parametrize("many", [1, 2, 3, 4, 6, 12])
def test_each_test_is_done_once_and_a_file_by_one_process(many: int):
    processes = run(many)
    assert Counter(test for each in processes for test in each.done) == Counter(TESTS)
    assert max(Counter(file for each in processes for file in files(each)).values()) == 1
    assert all(each.shutting_down for each in processes)


def test_long_files_come_first_and_browsers_begin_in_few_processes():
    first, second, third, fourth = (files(each) for each in run(4))
    assert (first[0], second[0]) == (f"{BROWSER}test_b.py", f"{BROWSER}test_d.py")
    assert (third[0], fourth[0]) == ("tests/exchange/test_heavy_files.py", "tests/log/test_b.py")


def test_who_has_nothing_left_of_one_kind_takes_the_other():
    alone = files(run(1)[0])
    assert [file.startswith(BROWSER) for file in alone] in ([True] * 4 + [False] * 5, [False] * 5 + [True] * 4)


@pytest.mark.parametrize("file", LONG)
def test_a_file_that_takes_long_is_there(file: str):
    assert (ROOT / file).is_file()
