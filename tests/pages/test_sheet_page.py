"""The sheet page: pasted or uploaded, said back, slips in a table, taken for members, changed, taken back."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from sqlalchemy import func, select
from streamlit.testing.v1 import AppTest

from tests.day import this_day
from tests.pages.conftest import Open, opened
from tests.pages.conftest import words as all_words
from tracker.components.sheet.sheet_paste import EXAMPLE
from tracker.desk.day import today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.log.models import Change
from tracker.log.records import KitItemRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.prescription.sheet import parse_sheet
from tracker.units import Mass

SHEET = "Title: Millrace\nFront squat, barbell, % of 3RM\n1 x 5 @ 70 %\n2 x 3 @ 80 %\n"


def words(at: AppTest) -> str:
    """All that stands on the page, with plain spaces before units."""
    return all_words(at).replace("\u00a0", " ")


def changes(log: Log) -> int:
    with log.reading() as session:
        return session.scalar(select(func.count()).select_from(Change)) or 0


@pytest.fixture
def wren(log: Log) -> MemberRecord:
    member = people.add_member(log, "Wren")
    people.add_member(log, "Tobin")
    squat = people.add_lift(log, "front squat", "barbell")
    rep_maxes.add_rep_max(log, member.id, squat.id, this_day(), 3, Mass(Decimal(100), "kg"), tested=True)
    return member


def pasted(at: AppTest, text: str) -> AppTest:
    at.text_area(key="sheet_text").set_value(text)
    at.run()
    assert not at.exception
    return at


def test_the_example_on_the_page_is_a_sheet_and_comes_into_the_field(log: Log, show: Open, wren: MemberRecord) -> None:
    at = show(log, "sheet", wren.id)
    assert len(parse_sheet(EXAMPLE).sessions) == 1
    at.button(key="sheet_take_example").click().run()
    assert at.text_area(key="sheet_text").value == EXAMPLE
    text = words(at)
    assert "3 × 8–10</th><td>RPE 8" in text
    for said in (
        "500 m easy row",
        "82 % of your 3RM",
        "Stay tall",
        "or with dumbbells, twice the repetitions",
        "or knee push-up",
    ):
        assert text.count(said) == 1, said
    at.button(key="sheet_clear").click().run()
    assert at.text_area(key="sheet_text").value == ""
    assert [each for each in at.button if each.key == "sheet_take_example"]


def test_a_pasted_sheet_is_said_back_before_anything_is_written(log: Log, show: Open, wren: MemberRecord) -> None:
    before = changes(log)
    at = pasted(show(log, "sheet", wren.id), SHEET)
    assert "1 × 5</th><td>70 % of your 3RM" in words(at)
    assert "2 × 3</th><td>80 % of your 3RM" in words(at)
    assert "1 lift with 3 sets." in words(at)
    opened(at, "sheet_lines_box")
    assert "1 set of 5 repetitions at 70 % of your 3RM" in words(at)
    assert not at.error
    assert changes(log) == before


def test_what_can_be_read_in_two_ways_is_told_with_what_was_taken(log: Log, show: Open, wren: MemberRecord) -> None:
    at = pasted(show(log, "sheet", wren.id), "Title: Millrace\nFront squat\n3x5@80\nbring <b>chalk</b>\n")
    text = words(at)
    assert not at.error
    assert "<b>80 of what?</b>" in text
    assert "<code>3x5@80</code>" in text
    assert [button.label for button in at.button if "loads without" in str(button.key) or str(button.key).startswith("sheet_answer_0")] == [
        "80 % ✓", "80 kg"
    ]  # fmt: skip
    assert "bring <b>chalk</b>" in text
    assert [button for button in at.button if button.key == "sheet_take"]


def test_a_sheet_with_nothing_in_it_is_told_and_not_taken(log: Log, show: Open, wren: MemberRecord) -> None:
    at = pasted(show(log, "sheet", wren.id), "...")
    assert "There is nothing to read in it" in at.info[0].value
    assert not at.error
    assert not [button for button in at.button if button.key == "sheet_take"]


def test_a_sheet_is_taken_for_the_chosen_members_from_the_chosen_day(log: Log, show: Open, wren: MemberRecord) -> None:
    tobin = next(each for each in people.members(log) if each.name == "Tobin")
    at = pasted(show(log, "sheet", wren.id), SHEET)
    at.pills(key="sheet_members").set_value([wren.id, tobin.id])
    tomorrow = this_day() + timedelta(days=1)
    at.date_input[0].set_value(tomorrow)
    at.run()
    at.button(key="sheet_take").click().run()
    assert f"Saved: taken for Tobin, Wren from {tomorrow}" in words(
        at
    ) or f"Saved: taken for Wren, Tobin from {tomorrow}" in words(at)
    assert [step.due for step in today.steps(log, wren.id)] == [tomorrow]
    assert "In the calendar, for Tobin, Wren." in at.success[0].value
    at.button(key="frame_undo").click().run()
    assert today.steps(log, wren.id) == ()
    assert today.steps(log, tobin.id) == ()


def test_todays_loads_stand_on_today_after_a_sheet_was_taken(log: Log, show: Open, wren: MemberRecord) -> None:
    at = pasted(show(log, "sheet", wren.id), SHEET)
    at.button(key="sheet_take").click().run()
    text = words(show(log, "today", wren.id))
    assert "5 × 70 kg" in text
    assert "3 × 80 kg" in text


def test_at_home_without_a_bar_the_coachs_other_way_stands_on_today(log: Log, show: Open, wren: MemberRecord) -> None:
    pair = KitItemRecord("", "dumbbell", "12", Mass(Decimal(12), "kg"), 2)
    people.go_to_place(log, wren.id, places.add_place(log, "Home", "kg", [pair]).id)
    at = pasted(show(log, "sheet", wren.id), SHEET + "or dumbbells, twice the repetitions\n")
    at.button(key="sheet_take").click().run()
    text = words(show(log, "today", wren.id))
    assert "front squat, dumbbells" in text
    assert "10 repetitions" in text
    assert "70 %" not in text  # of a barbell max, which says little about dumbbells
    assert "take a load that leaves about 3" in text


def test_a_session_of_words_and_a_piece_is_shown_and_ended(log: Log, show: Open, wren: MemberRecord) -> None:
    sheet = "Title: Easy\nWarm-up: walk\nthen stretch\n\nPiece: Mill wheel\nfor time\n30 burpee\n"
    at = pasted(show(log, "sheet", wren.id), sheet)
    at.button(key="sheet_take").click().run()
    at = show(log, "today", wren.id)
    assert "then stretch" in words(at)
    assert "Next: the piece" in words(at)
    assert "Mill wheel" in words(at)
    assert "Clock and score" in [link.proto.label for link in at.get("page_link")]
    at.session_state["session_menu"] = True
    at.run()
    at.button(key="menu_finish").click().run()
    assert [step.state for step in today.steps(log, wren.id)] == ["done"]


def test_a_changed_sheet_shows_what_changes_and_is_taken_as_a_change(log: Log, show: Open, wren: MemberRecord) -> None:
    at = pasted(show(log, "sheet", wren.id), SHEET)
    at.button(key="sheet_take").click().run()
    at = pasted(at, SHEET.replace("70 %", "72.5 %"))
    text = words(at)
    assert "It changes an earlier sheet of this title" in text
    assert "at 70 %" in text
    assert "at 72.5 %" in text
    assert "This changes the sheet for" in words(at)  # for whom, before it is saved
    at.button(key="sheet_change").click().run()
    assert "Saved: 1 change" in words(at)
    assert today.steps(log, wren.id)[0].sets[0].percent == Decimal("72.5")


def test_without_a_title_it_is_taken_by_its_first_lift(log: Log, show: Open, wren: MemberRecord) -> None:
    at = pasted(show(log, "sheet", wren.id), SHEET.partition("\n")[2])
    assert "70 %" in words(at)
    at.button(key="sheet_take").click().run()
    assert [len(step.sets) for step in today.steps(log, wren.id)] == [2]


def test_a_file_comes_into_the_field_and_one_that_is_no_text_is_refused(
    log: Log, show: Open, wren: MemberRecord
) -> None:
    at = show(log, "sheet", wren.id)
    at.file_uploader[0].upload("sheet.txt", ("\ufeff" + SHEET).encode(), "text/plain").run()
    assert at.text_area(key="sheet_text").value == SHEET
    at.button(key="sheet_clear").click().run()
    at.file_uploader[0].upload("sheet.txt", b"\xff\xfa\x00\x01", "text/plain").run()
    assert "not plain text" in words(at)
    assert at.text_area(key="sheet_text").value == ""


def test_what_a_coach_typed_is_shown_as_it_is(log: Log, show: Open, wren: MemberRecord) -> None:
    at = pasted(
        show(log, "sheet", wren.id), "Title: <script>alert(1)</script>\nNote: **loud**\n" + SHEET.partition("\n")[2]
    )
    html = "\n".join(each.proto.body for each in at.get("html"))
    assert "<script>alert" not in html
    assert "&lt;script&gt;alert" in html
    assert "**loud**" in html


# Every message that somebody can still get of a sheet on the page, and what it says to do.
MESSAGES = [
    ("", None, "There is nothing to read yet.", "Paste what your coach wrote, or upload its file."),
    ("...", None, "There is nothing to read in it", "Paste what your coach wrote."),
    (None, b"\xff\xfa\x00\x01", "The file is not plain text.", "Save it as text in UTF-8, or paste the sheet."),
    (None, b"x" * 400_001, "The file has 400,001 bytes.", "A sheet is a message, not a book."),
]


@pytest.mark.parametrize(("text", "file", "what", "to_do"), MESSAGES)
def test_each_message_says_what_to_do(
    log: Log, show: Open, wren: MemberRecord, text: str | None, file: bytes | None, what: str, to_do: str
) -> None:
    at = show(log, "sheet", wren.id)
    if file is not None:
        at.file_uploader[0].upload("sheet.txt", file, "text/plain").run()
    else:
        at.text_area(key="sheet_text").set_value(text or "")
        at.button(key="sheet_read").click().run()
    assert not at.exception
    assert what in words(at)
    assert to_do in words(at)


def test_a_day_that_is_not_the_sheets_weekday_is_told_with_one_that_is(
    log: Log, show: Open, wren: MemberRecord
) -> None:
    at = pasted(show(log, "sheet", wren.id), "Monday\nPress, barbell\n3 x 5 @ 40 kg")
    monday = at.date_input[0].value
    assert isinstance(monday, date)
    assert monday.weekday() == 0
    at.date_input[0].set_value(monday + timedelta(days=1))
    at.run()
    at.button(key="sheet_take").click().run()
    assert "The sheet begins on a Monday" in words(at)
    assert "Choose a Monday" in words(at)
    assert today.steps(log, wren.id) == ()


@pytest.mark.parametrize(
    "text",
    [
        "The gym is closed on Friday.",
        "5x5",
        "😀 41 ??",
        "Front squat @@ 3xx5 %% kg",
        "@@@ 5 x",
        "1. \n2. \n3. x",
        "Ruhetag",
        "x" * 5000,
    ],
)
def test_words_that_are_not_understood_are_no_message(log: Log, show: Open, wren: MemberRecord, text: str) -> None:
    at = pasted(show(log, "sheet", wren.id), text)
    assert not at.error
    at.button(key="sheet_take").click().run()
    assert not at.exception
    assert "In the calendar, for Wren" in at.success[0].value


def test_one_touch_gives_the_other_reading_and_it_is_kept_for_the_next_sheet(
    log: Log, show: Open, wren: MemberRecord
) -> None:
    at = pasted(show(log, "sheet", wren.id), "Front squat\n3x5@80")
    assert "3 × 5</th><td>80 %" in words(at)
    at.button(key="sheet_answer_0_mass").click().run()
    assert "3 × 5</th><td>80 kg" in words(at)
    assert "as you answered" in words(at)
    at.button(key="sheet_take").click().run()
    assert "First today: front squat, barbell" in words(at)  # the first load at once
    assert "5 × 80 kg" in words(at)
    at = pasted(show(log, "sheet", wren.id), "Press\n5x3@50")
    assert "as you answered before" in words(at)
    assert "5 × 3</th><td>50 kg" in words(at)
    at.button(key="sheet_answer_0_percent").click().run()
    assert "5 × 3</th><td>50 %" in words(at)


def test_what_the_sheet_does_not_say_is_in_another_style_and_each_line_has_its_kind(
    log: Log, show: Open, wren: MemberRecord
) -> None:
    at = pasted(show(log, "sheet", wren.id), "Back squat 5x5 @ 70 %\nAMRAP 8\n10 burpees\nsee you!")
    opened(at, "sheet_lines_box")
    html = "\n".join(each.proto.body for each in at.get("html"))
    assert '<span class="sheet-taken">barbell</span>' in html
    assert '<span class="sheet-taken">of your 1RM</span>' in html
    assert [word for word in ("sheet-lift", "sheet-piece", "sheet-movement", "sheet-words") if f"sheet-line {word}" in html] == [
        "sheet-lift", "sheet-piece", "sheet-movement", "sheet-words"
    ]  # fmt: skip
    assert "1 lift with 5 sets, 1 piece." in words(at)
    assert "1 line kept as words." in words(at)
    at = pasted(at, "Back squat, barbell, % of 3RM\n5 x 5 @ 70 %")
    drawn = ('<div class="sheet-line', '<section class="plan"')
    taken = "\n".join(each.proto.body for each in at.get("html") if each.proto.body.startswith(drawn))
    assert "70 % of your 3RM" in taken.replace("\u00a0", " ")
    assert "sheet-taken" not in taken


def test_a_line_is_made_words_and_read_again(log: Log, show: Open, wren: MemberRecord) -> None:
    at = pasted(show(log, "sheet", wren.id), "Press, barbell\n3 x 5 @ 40 kg\n3 x 3 @ 45 kg")
    opened(at, "sheet_lines_box")
    at.button(key="sheet_words_3").click().run()
    assert at.text_area(key="sheet_text").value == "Press, barbell\n3 x 5 @ 40 kg\nNote: 3 x 3 @ 45 kg"
    assert "1 lift with 3 sets." in words(at)
    at.button(key="sheet_again_3").click().run()
    assert "1 lift with 6 sets." in words(at)


def test_a_message_of_other_days_can_be_said_to_change_the_earlier_one(
    log: Log, show: Open, wren: MemberRecord
) -> None:
    at = pasted(show(log, "sheet", wren.id), "Press, barbell\n3 x 5 @ 40 kg")
    at.button(key="sheet_take").click().run()
    at = pasted(at, "Press, barbell\n4 x 5 @ 40 kg")
    assert "It changes" not in words(at)
    at.button(key="sheet_alike").click().run()
    assert "It changes the sheet Press" in words(at)
    at.button(key="sheet_change").click().run()
    assert [step.sets[0].sets for step in today.steps(log, wren.id)] == [4]


def test_of_two_loads_a_member_says_once_which_is_theirs(log: Log, show: Open, wren: MemberRecord) -> None:
    at = pasted(show(log, "sheet", wren.id), "Front squat 3x5 @ 40/30 kg")
    at.button(key="sheet_take").click().run()
    at = show(log, "today", wren.id)
    assert "Which of the two loads is yours?" in words(at)
    at.button(key="lift_side_smaller").click().run()
    assert "5 × 30 kg" in words(at)
    assert [button.label for button in at.button if str(button.key).startswith("lift_side")] == ["The other one: 40 kg"]


def test_questions_are_asked_one_at_a_time_below_what_they_are_about(log: Log, show: Open, wren: MemberRecord) -> None:
    at = pasted(
        show(log, "sheet", wren.id),
        "Press, barbell\n3 x 5 @ 40 kg\n\nFront squat\n3x5@80\n\nAMRAP 8\n8 burpees\n12-10 wall balls",
    )
    asked = {str(each.key).split("_")[2] for each in at.button if str(each.key).startswith("sheet_answer_")}
    assert len(asked) == 1
    drawn = [each.proto.body for each in at.get("html")]
    squat = next(place for place, body in enumerate(drawn) if "Front squat" in body and "plan" in body)
    assert "80 of what?" in drawn[squat + 1]


def test_a_week_opens_its_first_day_and_the_others_at_a_touch(log: Log, show: Open, wren: MemberRecord) -> None:
    at = pasted(
        show(log, "sheet", wren.id),
        "Monday\nPress, barbell\n3 x 5 @ 40 kg\n\nTuesday\nFront squat, barbell\n3 x 3 @ 60 kg",
    )
    assert "3 × 5</th><td>40 kg" in words(at)
    assert "3 × 3</th><td>60 kg" not in words(at)
    assert "Tuesday: Front squat" in [each.label for each in at.expander]
    opened(at, "sheet_session_1")
    assert "3 × 3</th><td>60 kg" in words(at)


def test_no_sign_to_stop_stands_where_nothing_is_logged(log: Log, show: Open, wren: MemberRecord) -> None:
    assert "When to stop" not in [each.label for each in show(log, "sheet", wren.id).expander]
