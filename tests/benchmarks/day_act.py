"""What an act of a phone takes of the log's side: `python -m tests.benchmarks.day_act [ACTS]`.

Processor time of this process, in the median, beside a bare insert into an SQLite file; the phone asks for the day's plan
once after its acts, which is told apart. The yardstick is a loop of plain Python, measured in turn: on a busy machine all
figures grow with it, so it says which part of a figure is the machine's.
"""

from __future__ import annotations

import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from tests import day
from tests.pocket.posts import act, post
from tracker.desk.base.opening import open_log
from tracker.desk.files import demo
from tracker.desk.people import people
from tracker.log.who import HERE, acting
from tracker.pocket.acts import Result, take
from tracker.pocket.plan import plan_of


def main(count: int) -> None:
    day.begin()
    with tempfile.TemporaryDirectory() as folder:
        log = open_log(str(Path(folder) / "log.db"))
        demo.fill(log, day.this_day())
        member = next(each for each in people.members(log) if each.name == "Wren")
        plan = plan_of(log, member.id, day.this_day())
        session = next(each for each in plan["sessions"] if each["id"] == plan["on"])
        line, spent = session["lines"][0], dict[str, list[float]]()
        done = {name: line[name] for name in ("lift", "load", "unit", "reps", "planned", "number")}
        done |= {"outcome": "done", "step": session["id"]}

        def measured(name: str, run: Callable[[], object]) -> None:
            began = time.process_time()
            run()
            spent.setdefault(name, []).append((time.process_time() - began) * 1000)

        def sent(name: str, one: dict[str, object]) -> None:
            got: list[Result] = []
            with acting(HERE):
                measured(name, lambda: got.extend(take(log, member.id, post(one), datetime.now(UTC))))
            assert [each.how for each in got] == ["again" if name == "the same again" else "done"], got

        bare = sqlite3.connect(Path(folder) / "bare.db")
        bare.executescript("PRAGMA journal_mode = WAL; CREATE TABLE sets (id INTEGER PRIMARY KEY, load TEXT)")
        for number in range(count):
            one = act("set", done, 4 * number)
            mend = act("change", {"of": one["id"], "rir": "2"}, 4 * number + 1)
            sent("a set", one)
            sent("the same again", one)
            sent("its effort", mend)
            sent("and that undone", act("undo", {"of": mend["id"]}, 4 * number + 2))
            sent("the set undone", act("undo", {"of": one["id"]}, 4 * number + 3))
            measured("the plan after it", lambda: plan_of(log, member.id, day.this_day()))
            measured("the yardstick", lambda: sum(number * number % 7 for number in range(20_000)))
            measured("a bare insert", lambda: bare.execute("INSERT INTO sets (load) VALUES ('60')") and bare.commit())
        bare.close()
        log.close()
    for name, each in spent.items():
        print(f"{name}: {statistics.median(each):.2f} ms, at most {max(each):.2f} ms")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 60)
