"""`tidemark estimate`: the contract's fields, what is narrowed, what is refused, and the same answer from file and log."""

from __future__ import annotations

import pytest

FORMULAS = [
    "epley", "brzycki", "lander", "lombardi", "mayhew", "oconner", "wathen", "kemmler", "reynolds_bench", "reynolds_leg_press",
]  # fmt: skip
ROWS = """date,lift,load,unit,reps,rir,outcome,kind
2026-03-02,front squat,80,kg,5,2,done,work
2026-03-09,front squat,85,kg,5,1,done,work
2026-03-16,front squat,90,kg,4,0,missed,work
2026-03-16,deadlift,300,lb,5,2,done,work
"""


@pytest.fixture
def sets(tmp_path):
    def write(text: str = ROWS):
        path = tmp_path / "sets.csv"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_fields_of_the_contract(tidemark, sets):
    squat, deadlift = tidemark("estimate", "--sets", sets(), "--json").json
    assert (squat["member"], squat["lift"], squat["as_of"], squat["unit"], squat["sets_used"]) == (
        "me", "front squat", "2026-03-16", "kg", 3,
    )  # fmt: skip
    assert (deadlift["lift"], deadlift["unit"]) == ("deadlift", "lb")
    assert {"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "12"} <= set(squat["rep_max"])
    assert squat["rep_max"]["1"] == squat["one_rm"]
    for band in squat["rep_max"].values():
        assert band["low80"] < band["estimate"] < band["high80"]
    maxes = [squat["rep_max"][str(reps)]["estimate"] for reps in range(1, 11)]
    assert maxes == sorted(maxes, reverse=True)
    assert 92 < squat["one_rm"]["estimate"] < 112  # a missed fifth repetition at 90 kg: a 4RM
    assert "trend" not in squat


def test_formulas_always_has_ten_entries_with_a_reason_where_there_is_no_value(tidemark, sets):
    squat, deadlift = tidemark("estimate", "--sets", sets(), "--json").json
    assert list(squat["formulas"]) == FORMULAS == list(deadlift["formulas"])
    epley = squat["formulas"]["epley"]
    # By hand: 85 kg with 5 + 1 repetitions in it: 85 x (1 + 6/30) = 102; 90 kg with exactly 4: 90 x (1 + 4/30) = 102 too;
    # the newest of equal ones counts.
    assert epley == {"one_rm": pytest.approx(102.0), "reps": 4, "load": 90, "date": "2026-03-16", "in_range": True}
    assert deadlift["formulas"]["epley"]["one_rm"] == pytest.approx(300 * (1 + 7 / 30))
    old = tidemark("estimate", "--sets", sets(), "--as-of", "2026-06-01", "--lift", "deadlift", "--json").json[0]
    for value in old["formulas"].values():
        assert (value["one_rm"], value["in_range"]) == (None, False)
        assert value["reason"]


def test_as_of_uses_no_later_set(tidemark, sets):
    early = "\n".join(ROWS.splitlines()[:3])
    then = tidemark(
        "estimate", "--sets", sets(), "--as-of", "2026-03-10", "--lift", "front squat", "--trend", "--json"
    ).json
    alone = tidemark("estimate", "--sets", sets(early), "--as-of", "2026-03-10", "--trend", "--json").json
    assert then == alone


def test_a_day_before_every_set_has_no_estimate_and_says_why(tidemark, sets):
    entry = tidemark("estimate", "--sets", sets(), "--as-of", "2026-01-01", "--json").json[0]
    assert (entry["one_rm"], entry["rep_max"], entry["sets_used"]) == (None, None, 0)
    assert entry["reason"]
    assert "not known" in tidemark("estimate", "--sets", sets(), "--as-of", "2026-01-01").out


def test_trend_is_what_could_be_known_on_each_day(tidemark, sets):
    trend = tidemark("estimate", "--sets", sets(), "--trend", "--lift", "front squat", "--json").json[0]["trend"]
    assert [point["date"] for point in trend] == ["2026-03-02", "2026-03-09", "2026-03-16"]
    for point in trend:
        alone = tidemark(
            "estimate", "--sets", sets(), "--as-of", point["date"], "--lift", "front squat", "--json"
        ).json[0]
        assert point["one_rm"] == pytest.approx(alone["one_rm"], rel=1e-9)
        for reps, band in point["rep_max"].items():
            assert band == pytest.approx(alone["rep_max"][reps], rel=1e-9)
        assert set(point["smoothed"]["one_rm"]) == {"estimate", "low80", "high80"}


def test_members_and_lifts_are_told_apart_but_not_their_case(tidemark, sets):
    text = ROWS.replace("lift", "member,lift", 1).replace(",front", ",Ana,front").replace(",deadlift", ",,deadlift")
    text += "2026-03-17,ana,Front Squat,90,kg,5,1,done,work\n"
    found = tidemark("estimate", "--sets", sets(text), "--json").json
    assert [(each["member"], each["lift"], each["sets_used"]) for each in found] == [
        ("Ana", "front squat", 4),
        ("me", "deadlift", 1),
    ]
    narrowed = tidemark("estimate", "--sets", sets(text), "--member", "ANA", "--json").json
    assert [each["member"] for each in narrowed] == ["Ana"]


def test_order_in_the_file_counts_only_where_no_order_is_given(tidemark, sets):
    head = "date,lift,load,unit,reps,rir,order\n"
    rows = [f"2026-03-02,row,{load},kg,5,{rir},{order}\n" for load, rir, order in ((60, 4, 1), (70, 2, 2), (75, 1, 3))]
    assert tidemark("estimate", "--sets", sets(head + "".join(rows)), "--json").json == (
        tidemark("estimate", "--sets", sets(head + "".join(reversed(rows))), "--json").json
    )


def test_where_the_body_is_lifted_the_answer_is_the_added_load(tidemark, sets):
    head = "date,lift,load,unit,reps,rir,body_mass\n"
    body = tidemark("estimate", "--sets", sets(f"{head}2026-03-02,pull-up,20,kg,5,1,80\n"), "--json").json[0]
    bare = tidemark("estimate", "--sets", sets(f"{head}2026-03-02,pull-up,100,kg,5,1,\n"), "--json").json[0]
    assert body["one_rm"]["estimate"] == pytest.approx(bare["one_rm"]["estimate"] - 80)
    assert body["rep_max"]["5"]["low80"] == pytest.approx(bare["rep_max"]["5"]["low80"] - 80)
    assert body["formulas"]["epley"]["one_rm"] == pytest.approx(100 * (1 + 6 / 30) - 80)
    assert body["formulas"]["epley"]["load"] == pytest.approx(20)


def test_a_file_without_rows_has_no_answer(tidemark, sets):
    assert tidemark("estimate", "--sets", sets("date,lift,load,unit,reps\n"), "--json").json == []


def test_the_table_rounds_to_what_is_known(tidemark, sets):
    said = tidemark("estimate", "--sets", sets(), "--trend").out
    assert "80 % band" in said
    numbers = [
        word for line in said.splitlines() for word in line.replace("(", " ").replace(")", " ").split() if "." in word
    ]
    assert all(word.endswith(".5") for word in numbers)
    assert " lb" in said


def test_a_column_that_is_not_read_is_told_beside_the_answer(tidemark, sets):
    answer = tidemark("estimate", "--sets", sets(ROWS.replace("kind", "sort")), "--json")
    assert "'sort'" in answer.err
    assert len(answer.json) == 2


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("--as-of", "2026-02-30"), "--as-of"), (("--as-of", "soon"), "--as-of"), (("--lift", "snatch"), "front squat; deadlift"),
        (("--member", "Nobody"), "--member"), (("--trend", "extra"), "extra"),
    ],
)  # fmt: skip
def test_options_that_can_not_be(refused, sets, more, words):
    assert words in refused("estimate", "--sets", sets(), *more)


def test_a_bad_row_names_file_line_and_column(refused, sets):
    assert "sets.csv, line 2, column 3 (load)" in refused(
        "estimate", "--sets", sets(ROWS.replace(",80,", ",-80,")), "--json"
    )


def test_a_file_that_is_not_there(refused, tmp_path):
    assert "can't be read" in refused("estimate", "--sets", tmp_path / "none.csv")


def test_the_log_is_not_touched_by_a_file(tidemark, sets, tmp_path):
    tidemark("estimate", "--sets", sets(), "--database", tmp_path / "never.db")
    assert not (tmp_path / "never.db").exists()


def test_an_empty_log_has_no_answer(tidemark, fresh):
    database = fresh()
    assert tidemark("estimate", "--database", database, "--json").json == []
    assert tidemark("--database", database, "estimate", "--json").json == []


def test_a_member_or_lift_that_the_log_does_not_have(refused, fresh):
    database = fresh()
    assert "--member" in refused("estimate", "--database", database, "--member", "Ana")
    assert "--lift" in refused("estimate", "--database", database, "--lift", "squat")


@pytest.mark.parametrize("address", ["mysql://x/y", " "])
def test_an_address_that_can_not_be(refused, address):
    assert refused("estimate", "--database", address)


def test_what_a_person_should_look_at_is_told(tidemark, sets):
    slip = ROWS + "2026-03-17,front squat,900,kg,5,1,done,work\n"
    entry = tidemark("estimate", "--sets", sets(slip), "--lift", "front squat", "--json").json[0]
    assert [flag["date"] for flag in entry["flags"]] == ["2026-03-17"]
    assert entry["flags"][0]["words"] in tidemark("estimate", "--sets", sets(slip)).out
    assert tidemark("estimate", "--sets", sets(), "--lift", "front squat", "--json").json[0]["flags"] == []


def test_weeks_ahead_are_one_entry_a_week_after_the_as_of_day_and_no_later_set_is_used(tidemark, sets):
    found = tidemark("estimate", "--sets", sets(), "--as-of", "2026-03-10", "--ahead", "3", "--json").json
    squat = next(each for each in found if each["lift"] == "front squat")
    assert [then["date"] for then in squat["ahead"]] == ["2026-03-17", "2026-03-24", "2026-03-31"]
    assert set(squat["ahead"][0]["rep_max"]) == {str(reps) for reps in range(1, 13)}
    widths = [then["rep_max"]["5"]["high80"] - then["rep_max"]["5"]["low80"] for then in squat["ahead"]]
    assert widths == sorted(widths)
    early = "\n".join(ROWS.splitlines()[:3])
    alone = tidemark("estimate", "--sets", sets(early), "--as-of", "2026-03-10", "--ahead", "3", "--json").json
    assert alone == [squat]
    deadlift = next(each for each in found if each["lift"] == "deadlift")
    assert (deadlift["rep_max"], deadlift["ahead"]) == (None, [])
    told = tidemark("estimate", "--sets", sets(), "--ahead", "2").out
    assert told.count("no promise") == 2
    assert "2026-03-30" in told


@pytest.mark.parametrize("weeks", ["0", "105", "-3", "2.5", "many"])
def test_weeks_that_cannot_be_foretold_are_refused(refused, sets, weeks):
    assert "--ahead" in refused("estimate", "--sets", sets(), "--ahead", weeks, "--json")


def test_weeks_ahead_from_a_day_at_the_end_of_the_calendar_are_refused(refused, sets):
    assert "calendar" in refused("estimate", "--sets", sets(), "--as-of", "9999-12-30", "--ahead", "2")
