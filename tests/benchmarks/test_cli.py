"""The command line's start: `tidemark weights` against an interpreter that does nothing. Never asserted.

Run with: python -m pytest tests/benchmarks/test_cli.py --benchmark-only -n 0 -o addopts="" -s
"""

from __future__ import annotations

import subprocess
import sys

import pytest

WEIGHTS = ("-m", "tracker", "weights", "--reference", "3RM=92.5kg", "--wave", "1x4@72, 1x4@77, 3x4@82", "--json")
LADDER = ("-m", "tracker", "score", "ladder", "--from", "3", "--step", "3", "--movements", "3", "--total", "160")
COMMANDS = {"python -c pass": ("-c", "pass"), "weights": WEIGHTS, "score ladder": LADDER}
median: dict[str, float] = {}


@pytest.mark.benchmark(group="start")
@pytest.mark.parametrize("name", COMMANDS)
def test_start(benchmark, name, capsys):
    command = [sys.executable, *COMMANDS[name]]
    benchmark.pedantic(lambda: subprocess.run(command, check=True, capture_output=True), rounds=15, warmup_rounds=2)
    if benchmark.stats is None:
        return
    median[name] = benchmark.stats.stats.median
    if name != "python -c pass" and "python -c pass" in median:
        bare = median["python -c pass"]
        with capsys.disabled():
            print(
                f"\n{name}: {median[name] * 1000:.0f} ms against {bare * 1000:.0f} ms, ratio {median[name] / bare:.1f}"
            )
