"""What a sheet says, read and said back."""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal

import pytest

from tests.prescription.sheet.corpus import WAVE
from tracker.prescription.sheet import as_json, parse_sheet, print_sheet, read, said_back
from tracker.prescription.sheet.model import Alternative, FindMax, InReserve, LiftBlock, Of, Percent, Reps, Rpe, Text
from tracker.prescription.sheet.piece import Count, Movement, PieceBlock
from tracker.prescription.sheet.written.record import piece_record
from tracker.units import Mass


def lift(text: str) -> LiftBlock:
    """The only lift of a sheet of one session."""
    (item,) = parse_sheet(text).sessions[0].items
    assert isinstance(item, LiftBlock)
    return item


def piece(text: str) -> PieceBlock:
    (item,) = parse_sheet(f"Piece: Lantern\n{text}").sessions[0].items
    assert isinstance(item, PieceBlock)
    return item


def test_a_wave_of_three_weeks_is_read_whole() -> None:
    sheet = parse_sheet(WAVE)
    assert (sheet.title, sheet.starts, sheet.notes) == ("Millrace", date(2026, 11, 30), ("three weeks, one test",))
    assert [session.day_words for session in sheet.sessions] == ["week 1, day 1", "week 2, day 1", "week 3, day 2"]
    assert sheet.offsets == (0, 7, 15)
    warm_up, squat, press, pull_up, complex_, ladder, cool_down = sheet.sessions[0].items
    assert isinstance(warm_up, Text)
    assert warm_up.lines == ("500 m easy row, then", "2 rounds of 10 air squats and 10 scapular pulls")
    assert isinstance(squat, LiftBlock)
    assert (squat.name, squat.implement, squat.of, squat.rest_s) == ("Front squat", "barbell", Of(3), 180)
    assert [(group.sets, group.reps, group.load) for group in squat.sets if not isinstance(group, FindMax)] == [
        (1, Reps((4,)), Percent(Decimal(72))), (1, Reps((4,)), Percent(Decimal(77))), (3, Reps((4,)), Percent(Decimal(82)))
    ]  # fmt: skip
    assert squat.sets[2].note == "stay tall"
    assert squat.alternatives[0] == Alternative("dumbbells", "doubled")
    assert (squat.alternatives[1].lift, squat.alternatives[1].implement) == ("goblet squat", "kettlebell")
    assert squat.notes == ("elbows high",)
    assert isinstance(press, LiftBlock)
    assert isinstance(pull_up, LiftBlock)
    assert (press.joined, pull_up.joined) == (False, True)
    assert press.sets[0].rest_s == 90
    assert isinstance(complex_, LiftBlock)
    assert complex_.names == ("Power clean", "front squat", "push jerk")
    assert complex_.of == Of(1, "push jerk")
    assert isinstance(ladder, PieceBlock)
    assert (ladder.cap_s, ladder.scheme) == (720, Count((3,), 3))
    assert ladder.movements[2].options == (Movement("knee push-up"),)  # as the trade calls a push-up from the knees
    assert isinstance(cool_down, Text)


def test_a_wave_is_said_back_in_words() -> None:
    said = said_back(parse_sheet(WAVE))
    assert said[0] == "Millrace, 3 sessions, from 2026-11-30."
    assert "Front squat, barbell: 1 set of 4 repetitions at 72 % of your 3RM, 3:00 rest; " in said[4]
    assert "Otherwise with dumbbells, twice the repetitions." in said
    assert "In turn with the lift above, Pull-up, body: " in "\n".join(said)
    assert "1 set of 5 or more repetitions, as many as there are at 85 % of your 3RM" in "\n".join(said)


def test_five_by_three_is_sets_first_and_said_so() -> None:
    assert "5 sets of 3 repetitions" in said_back(parse_sheet("Press, barbell\n5 x 3 @ RPE 7"))[0]


@pytest.mark.parametrize(
    "line",
    ["3 x 5 @ 80 %", "3x5@80%", "3 × 5 @ 80 %", "3 X 5 at 80%", "3 sets of 5 at 80 %", "3 sets of 5 reps @ 80 %", "- 3 x 5 @ 80 %",
     "• 3 x 5 @ 80 %", "  3 x 5 @ 80.0 %", "3\u00a0x\u00a05 @ 80\u202f%", "3 x 5 @ 80 % -- as last week", "3*5 @ 80 %"],
)  # fmt: skip
def test_one_prescription_in_the_ways_people_type_it(line: str) -> None:
    (group,) = lift(f"Press, barbell, % of 5RM\n{line}").sets
    assert not isinstance(group, FindMax)
    assert (group.sets, group.reps, group.load) == (3, Reps((5,)), Percent(Decimal(80)))


@pytest.mark.parametrize(
    ("line", "load"),
    [
        ("3 x 5 @ 82,5 %", Percent(Decimal("82.5"))),
        ("3 x 5 @ 80 % of 1RM", Percent(Decimal(80), Of(1))),
        ("3 x 5 @ 60 % of the 1RM back squat", Percent(Decimal(60), Of(1, "back squat"))),
        ("3 x 5 @ RPE 7.5", Rpe(Decimal("7.5"))),
        ("3 x 5 @ 60 kg", Mass(Decimal(60), "kg")),
        ("3 x 5 @ 135 lbs", Mass(Decimal(135), "lb")),
        ("3 x 5 @ 2 reps in reserve", InReserve(Decimal(2))),
        ("3 x 5 @ RIR 2", InReserve(Decimal(2))),
        ("3 x 5", None),
    ],
)
def test_a_load_is_a_percentage_an_effort_or_a_mass(line: str, load: object) -> None:
    (group,) = lift(f"Press, barbell, % of 5RM\n{line}").sets
    assert not isinstance(group, FindMax)
    assert group.load == load


def test_several_groups_on_a_line_share_the_rest_behind_them() -> None:
    groups = lift("Press, barbell, % of 5RM: 1 x 4 @ 72 %, 1 x 4 @ 77 %, rest 2:00, 3 x 4 @ 82 %, rest 3:00").sets
    assert [group.rest_s for group in groups] == [120, 120, 180]


def test_a_dated_session_and_weekdays_count_their_days() -> None:
    dated = parse_sheet("On 30 Nov 2026: A\nPress, barbell: 3 x 5\nOn 2026-12-03: B\nPress, barbell: 3 x 5")
    assert dated.offsets == (0, 3)
    named = parse_sheet(
        "Week 1, Monday: A\nPress, barbell: 3 x 5\nThursday\nPress, barbell: 3 x 5\nWeek 2, Tue\nPress, barbell: 3 x 5"
    )
    assert named.offsets == (0, 3, 8)


def test_days_follow_under_the_line_of_their_week() -> None:
    sheet = parse_sheet(
        "Week 2\nDay 1: A\nPress, barbell: 3 x 5\nDay 3\nPress, barbell: 3 x 5\nWeek 3: C\nPress, barbell: 1 x 5+"
    )
    assert [(session.week, session.day, session.title) for session in sheet.sessions] == [
        (2, 1, "A"),
        (2, 3, ""),
        (3, 1, "C"),
    ]


def test_text_of_the_coach_survives_letter_for_letter() -> None:
    words = "“Easy” – 2 × 10 band pull-aparts, then  don’t rush 🙂"
    (text,) = parse_sheet(f"Warm-up: {words}\n# not a heading here\n3 x 10 easy swings\n").sessions[0].items
    assert isinstance(text, Text)
    assert text.lines == (words, "# not a heading here", "3 x 10 easy swings")


def test_a_lift_with_a_load_never_hides_in_a_text() -> None:
    text, squat = parse_sheet("Warm-up: row\nBack squat 3 x 5 @ 80 %").sessions[0].items
    assert isinstance(text, Text)
    assert text.lines == ("row",)
    assert isinstance(squat, LiftBlock)
    assert squat.name == "Back squat"


@pytest.mark.parametrize(
    ("text", "record"),
    [
        ("AMRAP 12 min\n10 burpee", {"kind": "as many as possible", "cap": "12:00", "movement": [{"name": "burpee", "first": 10, "step": 0}]}),
        ("21-15-9 for time, cap 9:00\nthruster, 40 kg barbell",
         {"kind": "for time", "cap": "9:00", "movement": [{"name": "thruster", "reps": [21, 15, 9], "load": "40", "unit": "kg", "implement": "barbell"}]}),
        ("for time\n30 s plank\n5 lunge, each side, 2 x 10 kg dumbbells",
         {"kind": "for time", "rounds": 1, "movement": [
             {"name": "plank", "first": 30, "step": 0, "measure": "s"},
             {"name": "lunge", "first": 5, "step": 0, "each_side": True, "load": "10", "unit": "kg", "implement": "dumbbells", "implements": 2}]}),
        ("every minute for 10 minutes, in turn\n12 cal row\nburpee",
         {"kind": "every minute", "interval": "1:00", "intervals": 10, "in_turn": True, "movement": [
             {"name": "row", "first": 12, "step": 0, "measure": "cal"}, {"name": "burpee"}]}),
        ("8 x 0:20 work, 0:10 rest, lowest counts\nair squat",
         {"kind": "work and rest", "interval": "0:20", "rest": "0:10", "intervals": 8, "scored_by": "lowest",
          "movement": [{"name": "air squat"}]}),
        ("as far as possible in 12:00\nrow", {"kind": "distance", "cap": "12:00", "movement": [{"name": "row"}]}),
        ("as many calories as possible in 10:00\nrow", {"kind": "calories", "cap": "10:00", "movement": [{"name": "row"}]}),
        ("the heaviest load in 15:00\nclean", {"kind": "heaviest", "cap": "15:00", "movement": [{"name": "clean"}]}),
        ("3 rounds, not scored", {"kind": "unscored", "rounds": 3, "movement": []}),
        ("2 up by 2 to 6 and back, for time, tie-break after burpee, 2 partners, outdoors\nburpee\nor 5 step-up, 30 cm high",
         {"kind": "for time", "tie_break": "burpee", "partners": 2, "setting": "outdoors", "movement": [
             {"name": "burpee", "reps": [2, 4, 6, 4, 2], "options": [{"name": "step-up", "first": 5, "step": 0, "height_cm": "30"}]}]}),
    ],
)  # fmt: skip
def test_every_kind_of_piece_becomes_plain_keys_and_values(text: str, record: dict[str, object]) -> None:
    assert piece_record(piece(text)) == {"title": "Lantern"} | record


def test_the_document_of_a_sheet_is_plain_json() -> None:
    document = json.loads(json.dumps(as_json(parse_sheet(WAVE))))
    squat = document["sessions"][0]["items"][1]
    assert squat["kind"] == "lift"
    assert squat["sets"][2] == {"sets": 3, "reps": 4, "percent": 82.0, "note": "stay tall"}
    assert document["sessions"][2]["days_after_first"] == 15


def test_a_printed_wave_reads_back_to_the_same() -> None:
    sheet = parse_sheet(WAVE)
    assert parse_sheet(print_sheet(sheet)) == sheet


def test_a_space_that_nobody_sees_does_not_stay_in_a_mark() -> None:
    (movement,) = piece("AMRAP 12 min\n10 lunge, slow\u200b, 5 kg ball").movements
    assert movement.standard == "slow"


@pytest.mark.parametrize("gap", [" ", "  "])
def test_a_coachs_own_remark_ends_a_line(gap: str) -> None:
    (movement,) = piece(f"AMRAP 12 min\n10 lunge, slow{gap}-- as last week").movements
    assert movement.standard == "slow"


@pytest.mark.parametrize("mark", ["1. ", "2) ", "A. ", "B1 ", "- ", "• "])
def test_what_coaches_put_before_a_lift_to_number_it_is_passed_over(mark: str) -> None:
    block = lift(f"{mark}Front squat, barbell\n3 x 5")
    assert (block.name, block.joined) == ("Front squat", False)


def test_a_heading_ends_a_text() -> None:
    sheet = parse_sheet("Warm-up: row\nTitle: Millrace\nback squat 5x5")
    assert sheet.title == "Millrace"
    assert [type(item).__name__ for item in sheet.sessions[0].items] == ["Text", "LiftBlock"]


def test_every_item_carries_its_lines_as_typed() -> None:
    typed = "  * Back squats 5×5 @ 75 %  (stay tall)\n\nAMRAP 12’\n- 10 wall balls 9/6\n"
    items = read(typed).sheet.sessions[0].items
    assert [line for item in items if not isinstance(item, Text) for line in item.text] == [
        "  * Back squats 5×5 @ 75 %  (stay tall)", "AMRAP 12’", "- 10 wall balls 9/6"
    ]  # fmt: skip


def test_each_line_says_what_became_of_it() -> None:
    reading = read("Mon\nBack squat\n5x5 @ 75%\nstay tall, breathe\n\nWOD:\nAMRAP 12\n10 burpees\n")
    assert [(line.role, line.item) for line in reading.lines[:8]] == [
        ("day", -1), ("lift", 0), ("sets", 0), ("note", 0), ("blank", -1), ("heading", -1), ("piece", 1), ("movement", 1)
    ]  # fmt: skip


def test_the_session_of_a_line_is_counted_without_days_that_hold_nothing() -> None:
    reading = read("Monday\nTuesday\nBack squat 5x5\n")
    assert len(reading.sheet.sessions) == 1
    assert [(line.session, line.item) for line in reading.lines if line.role == "lift"] == [(0, 0)]
