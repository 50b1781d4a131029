"""What a sheet can be read in: asked, answered, remembered for one person, taken back; and which sheet is the same one."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from sqlalchemy import func, select

from tests.loads import kg
from tests.stores import address_of
from tests.undoing import undo_newest
from tracker.desk.day import today
from tracker.desk.files import check
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.desk.sheet import lift_side, sheets
from tracker.desk.sheet.sheet_changes import earlier_sheet
from tracker.desk.sheet.sheet_steps import Lifts, new_step
from tracker.desk.sheet.sheet_text import noted, split
from tracker.desk.sheet.sheets import SheetPreview
from tracker.errors import BadInputError
from tracker.log import sheets as log_sheets
from tracker.log.models import Change
from tracker.log.pieces import pieces_of_step
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log
from tracker.prescription.sheet import parse_sheet
from tracker.prescription.sheet.model import LiftBlock, Reps, SetGroup
from tracker.units import Mass

MONDAY = date(2026, 3, 2)
WEEK = timedelta(days=7)
BARE = "Front squat\n3x5 @ 80"  # of what is not said, nor whether it is a percentage
TEXTS = sorted((Path(__file__).parents[2] / "prescription/sheet/texts").rglob("*.txt"))


@pytest.fixture
def wren(log: Log) -> MemberRecord:
    """A tested 3RM of 100 kg in the front squat."""
    member = people.add_member(log, "Wren")
    squat = people.add_lift(log, "front squat", "barbell")
    rep_maxes.add_rep_max(log, member.id, squat.id, MONDAY - WEEK, 3, kg(100), tested=True)
    return member


def questions(preview: SheetPreview) -> list[tuple[str, str, str]]:
    return [(each.ask.question, each.ask.taken.words, each.answer) for each in preview.questions]


def loads(log: Log, member: MemberRecord, day: date = MONDAY) -> list[Mass | None]:
    return [line.made.load if line.made else None for line in today.day_plan(log, member.id, day).lines]


def kept_text(log: Log, wave_id: str) -> str:
    with log.reading() as session:
        found = log_sheets.wave_text(session, wave_id)
    assert found is not None
    return found.text


def test_an_answer_changes_the_reading_at_once_and_stays_in_sight(log: Log, wren: MemberRecord) -> None:
    before = sheets.read_sheet(log, BARE, today=MONDAY, by=wren.id)
    assert questions(before)[0] == ("80 of what?", "80 %", "open")
    after = sheets.read_sheet(log, BARE, today=MONDAY, by=wren.id, answers={before.questions[0].key: "mass"})
    assert questions(after) == [("80 of what?", "80 kg", "now")]
    assert "at 80 kg" in "\n".join(after.said)
    assert [each.words for each in after.questions[0].ask.others] == ["80 %"]


def test_answers_are_kept_with_the_one_who_takes_the_sheet_and_count_for_their_next_one(
    log: Log, wren: MemberRecord
) -> None:
    tobin = people.add_member(log, "Tobin")
    sheets.take_sheet(log, [wren.id], BARE, MONDAY, by=wren.id, answers={"loads without a sign": "mass"})
    assert loads(log, wren) == [kg(80)] * 3
    other = "Press\n5x3 @ 60"
    assert questions(sheets.read_sheet(log, other, by=wren.id)) == [("60 of what?", "60 kg", "before")]
    assert questions(sheets.read_sheet(log, other, by=tobin.id))[0] == ("60 of what?", "60 %", "open")
    changed = sheets.read_sheet(log, other, by=wren.id, answers={"loads without a sign": "percent"})
    assert questions(changed)[0] == ("60 of what?", "60 %", "now")


def test_taking_a_sheet_back_takes_its_answers_back_and_the_log_is_whole(log: Log, wren: MemberRecord) -> None:
    sheets.take_sheet(log, [wren.id], BARE, MONDAY, by=wren.id, answers={"loads without a sign": "mass"})
    assert check.check_log(address_of(log)).problems == ()
    assert undo_newest(log, wren.id) == "took the sheet Front squat for Wren"
    assert sheets.answers_of(log, wren.id) == {}
    sheets.take_sheet(log, [wren.id], BARE, MONDAY, by=wren.id, answers={"loads without a sign": "mass"})
    assert sheets.answers_of(log, wren.id) == {"loads without a sign": "mass"}


def test_a_sheet_that_is_kept_reads_the_same_whatever_is_answered_later(log: Log, wren: MemberRecord) -> None:
    taken = sheets.take_sheet(log, [wren.id], BARE, MONDAY, by=wren.id, answers={"loads without a sign": "mass"})
    assert split(kept_text(log, taken.wave_id)).answers == {"loads without a sign": "mass"}
    with log.reading() as session:
        wave = log_sheets.wave_text(session, taken.wave_id)
    assert wave is not None
    (block,) = earlier_sheet(wave).sessions[0].items
    assert block.sets[0].load == kg(80)  # type: ignore[union-attr]
    again = sheets.read_sheet(log, BARE, today=MONDAY, by=wren.id)
    assert again.earlier is not None
    assert again.changes == ()


def test_a_text_and_its_answers_come_apart_as_they_were() -> None:
    text = "Press 3x5 @ 60\n-- a remark of mine\n"
    whole = noted(text, {"implement of press": "barbell", "a = b": "c"}, MONDAY)
    assert whole.startswith(text)
    found = split(whole)
    assert (found.text.rstrip(), found.answers, found.day) == (
        text.rstrip(), {"implement of press": "barbell", "a = b": "c"}, MONDAY
    )  # fmt: skip
    assert split("Press 3x5\n-- read on: 2026-99-99").day is None
    assert noted(text, {}) == text


def test_this_mondays_monday_is_not_last_mondays(log: Log, wren: MemberRecord) -> None:
    text = "Monday\nFront squat 3x5 @ 60 kg"
    first = sheets.take_sheet(log, [wren.id], text, MONDAY, by=wren.id, today=MONDAY)
    known = sheets.read_sheet(log, text, today=MONDAY, by=wren.id)
    assert known.earlier is not None
    assert known.earlier.id == first.wave_id
    later = sheets.read_sheet(log, text, today=MONDAY + WEEK, by=wren.id)
    assert later.earlier is None
    second = sheets.take_sheet(log, [wren.id], text, MONDAY + WEEK, by=wren.id, today=MONDAY + WEEK)
    assert second.wave_id != first.wave_id
    assert second.title == "Monday, 2026-03-09"


def test_an_untitled_message_never_changes_another_one_by_itself(log: Log, wren: MemberRecord) -> None:
    sheets.take_sheet(log, [wren.id], "Monday\nFront squat 3x5 @ 60 kg", MONDAY, today=MONDAY)
    other = sheets.read_sheet(log, "Monday\nFront squat 5x3 @ 70 kg", today=MONDAY)
    assert (other.earlier, other.changes) == (None, ())
    assert other.alike is not None  # what a person may say it changes
    found = sheets.changes(log, other.alike.id, "Monday\nFront squat 5x3 @ 70 kg")
    assert [change.kind for change in found] == ["changed"]


@pytest.mark.parametrize(
    ("text", "later", "same"),
    [
        ("Title: Millrace\nMonday\nFront squat 3x5", 0, True),
        ("Title: Millrace\nMonday\nFront squat 3x5", 7, False),  # another Monday
        ("Title: Millrace\nFront squat 3x5", 0, True),
        ("Title: Millrace\nFront squat 3x5", 1, False),  # yesterday's session is over
        ("Title: Millrace\nOn 2026-03-02\nFront squat 3x5", 3, True),  # it names its day
        ("Title: Millrace\nWeek 1, day 1\nFront squat 3x5\nWeek 2, day 1\nFront squat 3x5", 5, True),  # it goes on
        ("Title: Millrace\nWeek 1, day 1\nFront squat 3x5\nWeek 2, day 1\nFront squat 3x5", 30, False),
    ],
)
def test_a_title_of_the_coachs_and_the_same_days_make_a_change(
    log: Log, wren: MemberRecord, text: str, later: int, same: bool
) -> None:
    sheets.take_sheet(log, [wren.id], text, MONDAY, today=MONDAY)
    changed = text.replace("3x5", "4x6")
    assert bool(sheets.read_sheet(log, changed, today=MONDAY + timedelta(days=later)).changes) is same


def test_a_date_without_a_year_is_near_the_day_on_which_it_was_read(log: Log, wren: MemberRecord) -> None:
    text = "30 March\nFront squat 3x5 @ 60 kg"
    taken = sheets.take_sheet(log, [wren.id], text, today=MONDAY)
    assert taken.started == date(2026, 3, 30)
    assert split(kept_text(log, taken.wave_id)).day == MONDAY


@pytest.mark.parametrize(
    ("text", "load", "said"),
    [
        ("Front squat 1x5 @ 70-75 % of 3RM", kg(70), "Up to 75 %."),
        ("Front squat 1x5 @ 60-65 kg", kg(60), "Up to 65 kg."),
        ("Front squat 1x5 @ 70 % of 90 % training max of 3RM", kg("62.5"), "70 % of a training max of 90 % of your 3RM."),
        ("Front squat\nbuild to a heavy 3", None, "Heavy for today, no test."),
        ("Front squat\nbuild to a heavy 3\n1x3 @ 80 % of today's heavy 3", None, "80 % of today's heavy 3."),
        ("Front squat 1x max @ 60 kg", kg(60), "As many repetitions as there are."),
        ("Power clean + front squat, barbell\n1 x 1+2 @ 60 kg", kg(60), "1 + 2 repetitions."),
        ("Front squat 3x5 @ 43/30 kg", None, "43/30 kg, one of the two is yours."),
        ("Front squat 3x5 @ RPE 7-8", None, "RPE 7 to 8."),
    ],
)  # fmt: skip
def test_all_that_is_read_lands_as_a_set_with_its_words(
    log: Log, wren: MemberRecord, text: str, load: Mass | None, said: str
) -> None:
    """By hand: 70 % of 100 kg; a training max of 90 % makes 63 kg of it, and 62.5 kg is what discs of 1.25 kg make."""
    sheets.take_sheet(log, [wren.id], text, MONDAY)
    line = today.day_plan(log, wren.id, MONDAY).lines[-1]
    assert said in line.notes
    assert not line.planned.test
    if "RPE" not in text:
        assert (line.made.load if line.made else None) == load


def test_a_training_max_is_told_as_its_share_of_the_max(log: Log, wren: MemberRecord) -> None:
    """70 % of a training max that is 90 % of the max are 63 % of it."""
    sheets.take_sheet(log, [wren.id], "Front squat 1x5 @ 70 % of 90 % training max of 3RM", MONDAY)
    assert today.day_plan(log, wren.id, MONDAY).lines[0].planned.percent == 63


def test_of_a_pair_of_loads_each_member_takes_a_side_once(log: Log, wren: MemberRecord) -> None:
    sheets.take_sheet(log, [wren.id], "Front squat 3x5 @ 40/30 kg", MONDAY)
    assert loads(log, wren) == [None] * 3
    lift_side.choose_lift_side(log, wren.id, "smaller")
    assert loads(log, wren) == [kg(30)] * 3
    lift_side.choose_lift_side(log, wren.id, "larger")
    assert loads(log, wren) == [kg(40)] * 3
    undo_newest(log, wren.id)
    assert loads(log, wren) == [kg(30)] * 3
    with pytest.raises(BadInputError, match="none of the two"):
        lift_side.choose_lift_side(log, wren.id, "middle")  # type: ignore[arg-type]


def test_what_is_more_than_a_row_of_the_log_holds_lands_too(log: Log, wren: MemberRecord) -> None:
    taken = sheets.take_sheet(log, [wren.id], f"Title: {'x' * 90}\nFront squat 3x5", MONDAY)
    assert taken.title == "x" * 59 + "…"
    sheet = parse_sheet("Front squat, barbell\n3 x 5 @ 40 kg\nNote: slow")
    (block,) = sheet.sessions[0].items
    assert isinstance(block, LiftBlock)
    many = SetGroup(120, Reps((150,)), load=Mass(Decimal(40), "kg"), tempo="3" * 30)
    session = replace(sheet.sessions[0], items=(replace(block, sets=(many,)),))
    with log.act("a plan", wren.id) as act:
        rows = new_step(sheet, session, 0, Lifts(act)).sets
    assert [(row.sets, row.reps, row.words) for row in rows] == [
        (50, 100, "slow\n150 repetitions"), (50, 100, "150 repetitions"), (20, 100, "150 repetitions")
    ]  # fmt: skip


def test_every_text_that_is_read_is_taken_known_again_and_has_its_pieces(log: Log, wren: MemberRecord) -> None:
    """All texts of the corpus, in an order: none is refused, each reads the same from what is kept of it."""
    day = date(2026, 11, 27)
    assert len(TEXTS) > 60
    for path in TEXTS:
        text = path.read_text(encoding="utf-8")
        start = sheets.suggested_start(sheets.read_sheet(log, text, today=day, by=wren.id).sheet, day)
        taken = sheets.take_sheet(log, [wren.id], text, start, today=day, by=wren.id)
        again = sheets.read_sheet(log, text, today=day, by=wren.id)
        assert again.earlier is not None, path.name
        assert (again.earlier.id, again.changes) == (taken.wave_id, ()), path.name
        step = next(each for each in today.steps(log, wren.id) if each.wave_id == taken.wave_id)
        plan = today.day_plan(log, wren.id, step.due, member_step_id=step.id)
        assert plan.step is not None, path.name
        wanted = [item for item in again.sheet.sessions[0].items if type(item).__name__ == "Piece"]
        with log.reading() as session:
            assert len(pieces_of_step(session, step.step_id)) >= min(len(wanted), 1), path.name
    assert check.check_log(address_of(log)).problems == ()


def test_nothing_is_written_by_reading(log: Log, wren: MemberRecord) -> None:
    def count() -> int:
        with log.reading() as session:
            return session.scalar(select(func.count()).select_from(Change)) or 0

    before = count()
    sheets.read_sheet(log, BARE, today=MONDAY, by=wren.id, answers={"loads without a sign": "mass"})
    assert count() == before
    assert json.dumps(sheets.answers_of(log, wren.id)) == "{}"
