"""Real faults: processes that are killed, disks without room, files that are damaged.

Children are forked from a server that has imported the program once, so that each starts in milliseconds and none
inherits the threads of the test runner.
"""

from __future__ import annotations

import multiprocessing
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from multiprocessing.context import ForkServerContext, ForkServerProcess
from pathlib import Path
from typing import Any

import pytest

Child = Callable[..., ForkServerProcess]


@pytest.fixture(scope="session")
def processes() -> ForkServerContext:
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(
        ["tracker.desk.day.log_set", "tracker.desk.people.people", "alembic.command", "sqlalchemy.orm"]
    )
    return context


@pytest.fixture
def child(processes: ForkServerContext) -> Iterator[Child]:
    """Start a function of children.py in a process of its own, as `child(function, *arguments)`."""
    started: list[ForkServerProcess] = []

    def start(function: Callable[..., Any], *arguments: Any) -> ForkServerProcess:
        process = processes.Process(target=function, args=arguments)
        started.append(process)
        process.start()
        return process

    yield start
    for process in started:
        if process.is_alive():
            process.kill()
        process.join()


@pytest.fixture
def quick_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A folder in memory where there is one: what a killed process wrote is the same there, and more is written in a second."""
    memory = Path("/dev/shm")
    if not memory.is_dir():
        yield tmp_path_factory.mktemp("faults")
        return
    with tempfile.TemporaryDirectory(dir=memory, prefix="tidemark-") as folder:
        yield Path(folder)


@pytest.fixture
def tmp_path(quick_folder: Path) -> Path:
    """All tests of faults lie in that folder: they write much, and a busy disk would make them slow."""
    return quick_folder


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk in memory with room for three small logs; skips where the user may not mount one (the tests with limits run everywhere)."""
    folder = tmp_path / "small"
    folder.mkdir()
    mount = shutil.which("mount")
    if (
        mount is None
        or subprocess.run(
            [mount, "-t", "tmpfs", "-o", "size=1536k", "tmpfs", str(folder)], check=False, capture_output=True
        ).returncode
    ):
        pytest.skip("only root may mount a small disk; the tests with RLIMIT_FSIZE and max_page_count run anyway")
    yield folder
    subprocess.run([shutil.which("umount") or "umount", "-l", str(folder)], check=True)
