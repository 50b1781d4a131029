"""A plan of sixteen weeks for a class of forty, with every load and chance: wall time, and what one processor takes of it.

Run on demand: python -m pytest tests/benchmarks/test_plan.py --benchmark-only -n 0 -o addopts="" -s. The first round makes
the eighty models too, each of a year, as any page of a member does; forty members' of two lifts are more than are kept.
"""

from __future__ import annotations

import csv
import random
import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.taking_in import import_sets
from tracker.desk.ahead import plan
from tracker.desk.base.opening import open_log
from tracker.desk.people import people, places
from tracker.log.unit_of_work import Log
from tracker.prescription.plan import PlanAsk, PlanLift, plan_sheet

MEMBERS, WEEKS, HISTORY = 40, 16, 52
LIFTS = ("back squat", "bench press")


@pytest.fixture(scope="module")
def class_of_forty(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Log, tuple[str, ...]]]:
    """A year of two lifts once a week, three sets each, for forty members."""
    folder, chance = tmp_path_factory.mktemp("plan"), random.Random(20261128)
    with (folder / "sets.csv").open("w", newline="") as file:
        out = csv.writer(file)
        out.writerow(["member", "date", "lift", "load", "unit", "reps", "rir", "outcome", "kind", "order"])
        for number in range(MEMBERS):
            for week in range(HISTORY, 0, -1):
                for order in range(6):
                    load = 2.5 * round(
                        (60 + number + (HISTORY - week) / 4 - 15 * (order // 3) + chance.uniform(-4, 4)) / 2.5
                    )
                    day = this_day() - timedelta(days=7 * week)
                    out.writerow(
                        [
                            f"Member {number}",
                            day,
                            LIFTS[order // 3],
                            load,
                            "kg",
                            5,
                            chance.choice([1, 2, 3, ""]),
                            "done",
                            "work",
                            order,
                        ]
                    )
    log = open_log(str(folder / "log.db"))
    import_sets(log, folder / "sets.csv")
    for lift in people.lifts(log):
        people.say_implement(log, lift.id, "barbell")
    place = places.add_place(log, "Loft", "kg")
    ids = tuple(people.go_to_place(log, each.id, place.id).id for each in people.members(log))
    yield log, ids
    log.close()


@pytest.mark.parametrize("lifts", [1, 2])
def test_sixteen_weeks_for_forty_members(benchmark, class_of_forty, lifts: int):
    log, ids = class_of_forty
    wanted = tuple(PlanLift(name, 5, Decimal(65), Decimal(95), 5, 5) for name in LIFTS[:lifts])
    sheet = plan_sheet(PlanAsk(wanted, this_day() + timedelta(weeks=WEEKS), WEEKS, (0, 2, 4), "wave", 4, 1))
    took: list[tuple[float, float]] = []

    def once() -> int:
        another = replace(sheet, title=f"Round {len(took)}")  # or the answer would be the kept one
        wall, cpu = time.perf_counter(), time.process_time()
        found = plan.of_class(log, ids, another, this_day())
        took.append((time.perf_counter() - wall, time.process_time() - cpu))
        return sum(len(session.sets) for each in found for session in each.sessions)

    sets = benchmark.pedantic(once, rounds=3)
    assert sets == MEMBERS * sum(len(each.items) for each in sheet.sessions)
    print("\n" + "\n".join(f"{wall:.2f} s, {cpu:.2f} s of a processor" for wall, cpu in took))
