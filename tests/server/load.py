"""Many members logging at once through two servers over one PostgreSQL: what one touch takes, and that nothing is lost.

By hand: `TIDEMARK_LOAD_SECONDS=300 .venv/bin/python -m tests.server.load`, with the number of members after it.
"""

from __future__ import annotations

import asyncio
import contextlib
import os
import random
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import numpy as np

from tests.apart import apart
from tests.server.browserless import Reader, WentWrongError
from tests.server.cluster import Cluster, free_port
from tests.stores import Databases
from tracker.desk.base.opening import open_log
from tracker.desk.files.check import check_log
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.log import waves
from tracker.log.sets import NewSet, add_sets, sets_of
from tracker.log.unit_of_work import Log
from tracker.units import Mass

SECONDS = float(os.environ.get("TIDEMARK_LOAD_SECONDS", "300"))
REST_S = float(os.environ.get("TIDEMARK_LOAD_REST", "20"))  # between two sets of a member; people rest longer
WEEKS = 12  # of history that each member has
SETS = 50  # planned for today, more than anybody can do


@dataclass
class Told:
    """What came of a run: seconds from each touch to its notice, and what went wrong."""

    touches: list[float] = field(default_factory=list)
    saved: dict[str, int] = field(default_factory=dict)
    problems: list[str] = field(default_factory=list)

    def percentile(self, share: float) -> float:
        return float(np.percentile(self.touches, share))

    def __str__(self) -> str:
        return (
            f"{len(self.touches)} touches of {len(self.saved)} members: median {self.percentile(50) * 1000:.0f} ms, "
            f"99th percentile {self.percentile(99) * 1000:.0f} ms, longest {max(self.touches) * 1000:.0f} ms; "
            f"{len(self.problems)} problems"
        )


def fill(log: Log, number: int) -> list[str]:
    """Write members with weeks of training and a long session today; return their ids."""
    today, made = date.today(), []
    squat = people.add_lift(log, "back squat", "barbell")
    for at in range(number):
        member = people.add_member(log, f"Member {at + 1:02}")
        made.append(member.id)
        with log.act("trained for weeks", member.id, own=True) as act:
            loads = {week: Decimal(60 + at % 20) + (WEEKS - week) // 2 * Decimal("2.5") for week in range(WEEKS, 0, -1)}
            done = [(week, NewSet(squat.id, Mass(load, "kg"), 5, rir=Decimal(2))) for week, load in loads.items()]
            add_sets(
                act, member.id, [(today - timedelta(weeks=week), new, None) for week, new in done for _ in range(3)]
            )
        rep_maxes.add_rep_max(
            log, member.id, squat.id, today - timedelta(days=20), 3, Mass(Decimal(90), "kg"), tested=True
        )
    with log.act("a long session for all") as act:
        planned = [waves.NewPlannedSet(squat.id, SETS, 5, percent=Decimal(75), of_reps=3)]
        wave = waves.add_wave(act, "Long day", [waves.NewStep("Squat", 0, planned)])
        for member_id in made:
            waves.start_wave(act, member_id, wave, today)
    return made


@contextmanager
def served(address: str, number: int = 2, ports: Sequence[int] = ()) -> Iterator[list[str]]:
    """Start so many servers on one log, each a process of its own, and stop them at the end."""
    wanted = list(ports) or [free_port() for _ in range(number)]
    command = [sys.executable, "-m", "tracker", "open", "--no-browser", "--database", address, "--port"]
    running = [
        subprocess.Popen([*command, str(port)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) for port in wanted
    ]
    try:
        urls = [f"http://127.0.0.1:{port}" for port in wanted]
        for url, process in zip(urls, running, strict=True):
            _well(url, process)
        yield urls
    finally:
        for process in running:
            process.terminate()
        for process in running:
            process.wait(timeout=60)


def _well(url: str, process: subprocess.Popen[bytes]) -> None:
    latest = time.monotonic() + 120
    while time.monotonic() < latest:
        with contextlib.suppress(OSError), urllib.request.urlopen(f"{url}/_stcore/health", timeout=5) as answer:
            if answer.read() == b"ok":
                return
        assert process.poll() is None, "the server ended before it began"
        time.sleep(0.2)
    raise AssertionError(f"{url} does not answer")


async def _train(member_id: str, server: str, until: float, rest_s: float, most: int, told: Told) -> None:
    """Do set after set as one member: touch, see it saved, rest."""
    dice = random.Random(member_id)
    told.saved[member_id] = 0
    try:
        async with Reader(server, f"member={member_id}") as page:
            await asyncio.sleep(dice.uniform(0, rest_s))
            while time.monotonic() < until and told.saved[member_id] < most:
                told.touches.append(await page.touch("Done:"))
                told.saved[member_id] += 1
                assert page.notice.startswith("Saved: 5 × "), page.notice
                await asyncio.sleep(dice.uniform(0.5, 1.5) * rest_s)
    except (WentWrongError, OSError, TimeoutError, AssertionError) as err:
        told.problems.append(f"{type(err).__name__}: {err}")


def train(members: Sequence[str], servers: Sequence[str], seconds: float, rest_s: float, *, most: int = SETS) -> Told:
    """Let all members train at once, spread over the servers, each staying with theirs; `most` sets each."""
    told = Told()

    async def all_of_them() -> None:
        until = time.monotonic() + seconds
        where = [(each, servers[at % len(servers)]) for at, each in enumerate(members)]
        await asyncio.gather(*(_train(each, server, until, rest_s, most, told) for each, server in where))

    apart(all_of_them())
    return told


def lost(log: Log, told: Told) -> list[str]:
    """Name whose sets of today are not those that were said to be saved."""
    with log.reading() as session:
        held = {each: len(sets_of(session, each, since=date.today())) for each in told.saved}
    return [f"{each}: said {said}, held {held[each]}" for each, said in told.saved.items() if said != held[each]]


def main(number: int = 50) -> None:
    """Fill a log, let one member train alone, then all, and say what was seen."""
    cluster = Cluster(on_disk=True).start()
    try:
        with tempfile.TemporaryDirectory() as folder:
            address = Databases(cluster, Path(folder)).copy("empty", None, Path(folder))
        log = open_log(address)
        alone, *others = fill(log, number + 1)
        with served(address) as servers:
            print(f"alone: {train([alone], servers, min(60, SECONDS), 1)}", flush=True)
            told = train(others, servers, SECONDS, REST_S)
        print(f"together, {SECONDS:g} s, a rest of about {REST_S:g} s: {told}")
        print(f"lost: {lost(log, told) or 'none'}; in order: {check_log(address).ok}")
        for each in told.problems[:20]:
            print(each)
        log.close()
    finally:
        cluster.remove()


if __name__ == "__main__":
    main(*(int(each) for each in sys.argv[1:2]))
