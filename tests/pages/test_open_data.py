"""Open data on the trend page: a 12-week series of 1RM tests is imported and drawn, and the line ends at the last test.

tests/references/machine_1rm_12wk.csv names its source. The data give the week of a test and no date; days here are a
choice of this test.
"""

from __future__ import annotations

import csv
import json
from datetime import timedelta
from pathlib import Path

from tests.day import this_day
from tests.pages.conftest import Open
from tracker.desk.files.import_sets import import_rows
from tracker.desk.people import people
from tracker.exchange.sets_csv import read_sets
from tracker.log.unit_of_work import Log

DATA = Path(__file__).parent.parent / "references" / "machine_1rm_12wk.csv"
WEEKS = {"pre": 0, "session1": 1, "week2": 2, "week5": 5, "week9": 9, "post": 12}


def test_a_participant_is_imported_and_drawn_up_to_the_last_test(log: Log, show: Open, tmp_path: Path):
    with DATA.open(encoding="utf-8") as file:
        rows = [
            row
            for row in csv.DictReader(line for line in file if not line.startswith("#"))
            if (row["participant"], row["exercise"], row["leg"]) == ("FP13", "legpress", "R")
        ]
    path = tmp_path / "tests.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        out = csv.writer(file)
        out.writerow(["member", "date", "lift", "load", "unit", "reps", "kind"])
        for row in rows:
            day = this_day() - timedelta(days=2, weeks=12 - WEEKS[row["time"]])
            out.writerow([row["participant"], day, "leg press", row["load_kg"], "kg", 1, "test"])
    import_rows(log, read_sets(path))
    member = people.members(log)[0]
    at = show(log, "trend", member.id, reps="1")
    figure = json.loads(at.get("plotly_chart")[0].proto.spec)
    traces = {each.get("name", ""): each for each in figure["data"]}
    line = next(each for name, each in traces.items() if name.startswith("estimated 1RM"))
    facts = next(each for name, each in traces.items() if name == "test made")
    last_test = float(max(rows, key=lambda row: WEEKS[row["time"]])["load_kg"])
    assert max(_numbers(facts["y"])) == last_test
    assert abs(_numbers(line["y"])[-1] / last_test - 1) < 0.03


def _numbers(values: object) -> list[float]:
    """Read what plotly writes: a list, or its packed form."""
    if isinstance(values, dict):
        import base64

        import numpy as np

        return np.frombuffer(base64.b64decode(values["bdata"]), values["dtype"]).tolist()
    assert isinstance(values, list)
    return [float(each) for each in values if each is not None]
