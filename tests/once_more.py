"""What failed in a run, one test a line, for a run of just these: where TIDEMARK_TEST_FAILED names a file."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

FAILED = "TIDEMARK_TEST_FAILED"


def failed(stats: dict[str, list[Any]]) -> list[str]:
    """The ids of the tests that failed or could not be set up or cleaned up, each once, in the order of the run."""
    return list(dict.fromkeys(report.nodeid for kind in ("failed", "error") for report in stats.get(kind, [])))


def note(stats: dict[str, list[Any]]) -> None:
    """Write them where the environment asks for it, also when there is none."""
    if path := os.environ.get(FAILED):
        Path(path).write_text("".join(f"{nodeid}\n" for nodeid in failed(stats)), encoding="utf-8")
