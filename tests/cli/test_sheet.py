"""`tidemark sheet`: what was understood, or where it stopped."""

from __future__ import annotations

import pytest

from tests.day import this_day
from tests.stores import address_of

SHEET = """Week 1, day 1: Front squat

Front squat, barbell, % of 3RM
1 x 4 @ 72 %
3 x 4 @ 82 %
"""


@pytest.fixture
def file(tmp_path):
    def write(content: bytes | str):
        path = tmp_path / "week.txt"
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    return write


def test_what_was_understood(tidemark, file):
    answer = tidemark("sheet", file(SHEET), "--json").json
    lift = answer["sessions"][0]["items"][0]
    assert lift["lift"].lower() == "front squat"
    assert [(each["sets"], each["reps"], each["percent"]) for each in lift["sets"]] == [(1, 4, 72.0), (3, 4, 82.0)]
    said = tidemark("sheet", file(SHEET)).out
    assert "front squat" in said.lower()


def test_what_can_be_read_in_two_ways_is_asked(tidemark, file):
    answer = tidemark("sheet", file("Front squat\n3 x 5 @ 80\n"), "--json").json
    (lift,) = answer["sessions"][0]["items"]
    assert lift["text"] == ["Front squat", "3 x 5 @ 80"]
    assert lift["sets"] == [{"sets": 3, "reps": 5, "percent": 80.0}]
    assert [(ask["line"], ask["question"], ask["taken"], ask["others"][0]) for ask in answer["asks"]] == [
        (2, "80 of what?", "80 %", "80 kg"), (2, "Per cent of what?", "of the 1RM", "of a training max of 90 % of the 1RM")
    ]  # fmt: skip
    assert (
        "Line 2: 80 of what? Taken: 80 %. It could be 80 kg."
        in tidemark("sheet", file("Front squat\n3 x 5 @ 80\n")).out
    )


def test_words_alone_are_a_note(tidemark, file):
    answer = tidemark("sheet", file("The gym is closed on Friday.\n"), "--json").json
    assert [item["kind"] for item in answer["sessions"][0]["items"]] == ["note"]


@pytest.mark.parametrize("content", ["", "\n \n", "...\n"])
def test_what_is_empty(refused, file, content):
    said = refused("sheet", file(content), "--json")
    assert "week.txt" in said
    assert "line 1, column 1: There is nothing in it." in said
    assert "Write such as" in said


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", "Zo\xeb".encode("latin-1"), b"a\x00b"])
def test_what_is_no_text(refused, file, content):
    assert "week.txt, line 1" in refused("sheet", file(content))


def test_a_file_that_is_not_there(refused, tmp_path):
    assert "can't be read" in refused("sheet", tmp_path / "none.txt")


@pytest.fixture
def gym(fresh):
    """A log with two members."""
    from tracker.desk.base.opening import open_log
    from tracker.desk.people import people

    log = open_log(fresh())
    for name in ("Ana", "Ben"):
        people.add_member(log, name)
    yield log
    log.close()


def steps(log, name):
    from tracker.desk.day import today
    from tracker.desk.people import people

    member = next(each for each in people.members(log) if each.name == name)
    return [(step.title, step.due.isoformat()) for step in today.steps(log, member.id)]


def test_it_is_taken_for_those_who_are_named_and_never_twice(tidemark, file, gym):
    path = file(f"Title: Spring\n\n{SHEET}")
    first = ("sheet", path, "--database", address_of(gym), "--member", "Ana", "--start", "2026-03-02")
    assert tidemark(*first, "--json").json["taken"] == {"members": ["Ana"], "start": "2026-03-02"}
    assert tidemark(*first, "--json").json["taken"]["members"] == []
    assert "Taken into the log for Ben" in tidemark(*first, "--member", "Ben").out
    assert steps(gym, "Ana") == steps(gym, "Ben")
    assert [due for _, due in steps(gym, "Ana")] == ["2026-03-02"]


def test_what_it_changes_is_told_and_written_only_when_that_is_said(tidemark, refused, file, gym):
    base = ("--database", address_of(gym), "--member", "Ana", "--start", "2026-03-02")
    tidemark("sheet", file(f"Title: Spring\n\n{SHEET}"), *base)
    other = file(f"Title: Spring\n\n{SHEET.replace('82 %', '85 %')}")
    said = refused("sheet", other, *base)
    assert "changes an earlier sheet" in said
    assert "--change" in said
    (change,) = tidemark("sheet", other, *base, "--change", "--json").json["changes"]
    assert change["kind"] == "changed"
    assert any("85 %" in line for line in change["after"])


def test_a_sheet_without_a_title_is_taken_by_the_title_of_its_first_session(tidemark, file, gym):
    tidemark("sheet", file(SHEET), "--database", address_of(gym), "--member", "Ana", "--start", "2026-03-02")
    assert steps(gym, "Ana") == [("Front squat", "2026-03-02")]


def test_a_member_whom_the_log_does_not_have_or_a_change_of_nothing_writes_nothing(refused, file, gym):
    path = file(f"Title: Spring\n\n{SHEET}")
    assert "Cy" in refused("sheet", path, "--database", address_of(gym), "--member", "Cy", "--start", "2026-03-02")
    assert "earlier sheet" in refused("sheet", path, "--database", address_of(gym), "--change")
    assert steps(gym, "Ana") == []


def test_another_reading_is_given_by_its_key_and_code(tidemark, file):
    path = file("Front squat\n3 x 5 @ 80\n")
    said = tidemark("sheet", path).out
    assert 'Another reading: --answer "loads without a sign=mass".' in said
    answer = tidemark("sheet", path, "--answer", "loads without a sign=mass", "--json").json
    assert answer["sessions"][0]["items"][0]["sets"] == [{"sets": 3, "reps": 5, "load": "80", "unit": "kg"}]
    assert answer["asks"] == []


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ("mass", "'mass' is no answer."),
        ("loads without a sign=", "is no answer."),
        ("loads without a sign=stone", "Take one of: percent, mass."),
        ("colour of the bar=red", "It asks: loads without a sign"),
    ],
)
def test_an_answer_that_counts_for_nothing_is_refused(refused, file, given, told):
    assert told in refused("sheet", file("Front squat\n3 x 5 @ 80\n"), "--answer", given)


def test_without_a_title_it_is_taken_today_changed_and_its_answers_are_kept(tidemark, refused, file, gym):
    base = ("--database", address_of(gym), "--member", "Ana", "--json")
    path = file("Front squat\n3 x 5 @ 80\n")
    taken = tidemark("sheet", path, *base, "--answer", "loads without a sign=mass").json
    assert taken["taken"] == {"members": ["Ana"], "start": this_day().isoformat()}
    again = tidemark("sheet", path, *base).json  # the answer is remembered
    assert (again["taken"], again["asks"]) == ({"members": [], "start": None}, [])
    changed = tidemark("sheet", file("Front squat\n4 x 5 @ 80\n"), *base, "--change").json
    assert [each["kind"] for each in changed["changes"]] == ["changed"]
    assert "4 sets of 5 repetitions at 80 kg" in changed["changes"][0]["after"][0]
    assert "no earlier sheet of this title" in refused("sheet", file("Row 500 m\n"), *base, "--change")
