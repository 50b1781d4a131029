"""`tidemark plan`: a sheet from a test day backward, with chances from the log, and every option that can't be."""

from __future__ import annotations

import re
from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tracker.desk.people import people
from tracker.prescription.sheet import parse_sheet

SQUAT = "back squat, barbell: 4x5-3 @ 70-120 of 5RM"


def test_a_plan_is_a_sheet_with_loads_and_chances_of_a_member(log, tidemark):
    member, lift = somebody(log, "Wren"), people.add_lift(log, "back squat", "barbell")
    for week in range(8, 0, -1):
        did(log, member, lift, 7 * week, 80, 5, rir=Decimal(2))
    test = this_day() + timedelta(weeks=6)
    given = ("--lift", SQUAT, "--test", test, "--days", "tue,fri", "--shape", "wave", "--database", log.url)
    answer = tidemark("plan", *given, "--member", "wren", "--json").json
    sheet = parse_sheet(answer["sheet"])
    assert sheet.sessions[-1].on == test
    assert answer["sessions"] == len(sheet.sessions)
    found = answer["members"][0]
    assert [each["date"] for each in found["sessions"]] == [each.on.isoformat() for each in sheet.sessions]
    first = found["sessions"][0]["sets"][0]
    assert (first["lift"], first["unit"], first["percent"], first["sets"]) == ("back squat, barbell", "kg", 70, 4)
    assert first["chance_now"] > 0.9 < first["chance_then"]
    assert {each["sets"][0]["verdict"] for each in found["sessions"][:-1]} >= {"unlikely"}
    assert [each["week"] for each in found["weeks"]] == list(range(1, 7))
    said = tidemark("plan", *given, "--member", "Wren").out
    assert "probably too heavy: first back squat" in said
    assert "The coach's percentages stand as they are." in said


@pytest.mark.sqlite("are about what is typed, before any log is read")
def test_what_cannot_be_planned_is_refused(refused, tidemark, tmp_path):
    later = this_day() + timedelta(weeks=5)
    ok = ("--lift", SQUAT, "--test", later)
    assert "6 weeks" not in tidemark("plan", *ok).out
    for wrong, said in (
        (("--test", later), "No lift is named"),
        (("--lift", SQUAT), "A plan has one last day"),
        ((*ok, "--until", later), "A plan has one last day"),
        ((*ok, "--weeks", 9), "Only 5 weeks are left"),
        ((*ok, "--weeks", 0), "0 weeks can't be planned"),
        ((*ok, "--days", "someday"), "no days of a week"),
        ((*ok, "--easier", 1), "Each 1 weeks"),
        ((*ok, "--taper", 5), "taper of 5 weeks"),
        (("--lift", "press: heavy", "--test", later), "no plan of a lift"),
        (("--lift", SQUAT, "--test", this_day()), "less than a week away"),
    ):
        assert said in refused("plan", *wrong), wrong
    file = tmp_path / "coach.txt"
    file.write_text("Press, % of 1RM\n3 x 5 @ 80 %\n", encoding="utf-8")
    assert tidemark("plan", "--sheet", file, "--json").json["members"] == []
    assert "both given" in refused("plan", *ok, "--sheet", file)
    assert re.search(r"Usage: tidemark plan", tidemark("plan", "--help").out)
