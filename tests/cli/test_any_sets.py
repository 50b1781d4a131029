"""Whatever sets a file may hold, the estimate is an answer in JSON with bands in order, never a fault or a NaN."""

from __future__ import annotations

import io
import json
from contextlib import redirect_stderr, redirect_stdout
from datetime import date

from hypothesis import example, given, settings
from hypothesis import strategies as st

from tracker.cli import run

ROW = st.tuples(
    st.dates(date(2024, 1, 1), date(2026, 6, 1)).map(str),
    st.sampled_from(["front squat", "row"]),
    st.sampled_from(["0.12", "20", "60", "61.25", "100", "999.99"]) | st.decimals("0.12", "300", places=2).map(str),
    st.sampled_from(["kg", "lb"]),
    st.sampled_from(["1", "2", "3", "5", "12", "200", "0"]),
    st.sampled_from(["", "0", "0.5", "3", "6", "100"]),
    st.sampled_from(["done", "missed", "cut"]),
    st.sampled_from(["work", "test", "ramp"]),
    st.sampled_from(["", "", "80"]),
).filter(lambda row: not (row[4] == "0" and row[6] == "done"))
HEADING = "date,lift,load,unit,reps,rir,outcome,kind,body_mass"


def refuse(word):
    raise AssertionError(f"{word} is no JSON")


@settings(max_examples=25)
@given(st.lists(ROW, min_size=1, max_size=8))
@example([("2026-01-01", "row", "50", "kg", "0", "", "missed", "work", "")])
@example([("2026-01-01", "row", "50", "kg", "0", "", "cut", "work", "")])
@example(
    [
        ("2026-01-01", "row", "0.12", "kg", "200", "100", "done", "ramp", ""),
        ("2026-01-02", "row", "999.99", "kg", "1", "0", "done", "test", ""),
    ]
)
def test_any_sets(tmp_path_factory, rows):
    path = tmp_path_factory.mktemp("any") / "sets.csv"
    path.write_text("\n".join([HEADING, *(",".join(row) for row in rows)]))
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        status = run(["estimate", "--sets", str(path), "--trend", "--json"])
    assert status == 0, err.getvalue()
    answers = json.loads(out.getvalue(), parse_constant=refuse)
    assert {entry["lift"] for entry in answers} == {row[1] for row in rows}
    for entry in answers:
        bands = [entry["rep_max"], *(point["rep_max"] for point in entry["trend"])]
        for band in (each for rep_max in bands for each in rep_max.values()):
            assert band["low80"] <= band["estimate"] <= band["high80"]
        assert len(entry["formulas"]) == 10
