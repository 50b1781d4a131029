"""Slips of a typing coach: each is told in words that a person can act on, with a line that passes in its place.

The slips are of common practice: what people type in messages, collected by hand.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from tracker.prescription.sheet import SheetErrors, parse_sheet

LIFT = "Front squat, barbell, % of 3RM\n"
FILLED = LIFT + "3 x 3 @ 70 %\n"
BARE = "Front squat, barbell\n"
PIECE = "Piece: Mill wheel\n"
TIMED = PIECE + "as many reps as possible in 12:00\n"


@dataclass(frozen=True)
class Slip:
    """What stands above, the line as typed, where and how it is told, the line that passes, and what must follow it."""

    above: str
    typed: str
    column: int
    told: str
    passes: str
    below: str = ""


SLIPS = (
    Slip(LIFT, "3x5@80", 5, "80 of what?", "3x5 @ 80 %"),
    Slip(LIFT, "3 x 5 80 %", 7, "A sign is missing before 80 %.", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 x 5 60kg", 7, "A sign is missing before 60kg.", "3 x 5 @ 60kg"),
    Slip(LIFT, "3/5/80%", 1, "Slashes don't part a set.", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 x 5 x 80%", 9, "A second x stands before the percentage.", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 x 5 @ 70-75 %", 9, "A set has one percentage, not 70 to 75.", "3 x 5 @ 70 %"),
    Slip(LIFT, "3 x 5 @ %80", 10, "The sign stands before its number.", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 x 5 @ 8 RPE", 9, "RPE stands before its number.", "3 x 5 @ RPE 8"),
    Slip(LIFT, "3 x 5 @ RPE 7-8", 13, "A set has one RPE, not 7 to 8.", "3 x 5 @ RPE 7"),
    Slip(LIFT, "3 x 5 @ RPE", 7, "RPE of how much?", "3 x 5 @ RPE 8"),
    Slip(LIFT, "3 x 5 @ RPE 11", 13, "11 as an RPE can't be.", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 x 5 @ 80 % of max", 14, "Of which rep-max?", "3 x 5 @ 80 % of 1RM"),
    Slip(LIFT, "3 x 5 @ 80 % of 3", 17, "3 of what?", "3 x 5 @ 80 % of 3RM"),
    Slip(LIFT, "3 x 5+ @ 85 %", 1, "Which of the 3 sets goes on past 5?", "2 x 5 @ 85 %, 1 x 5+ @ 85 %"),
    Slip(LIFT, "3 x AMRAP @ 70 %", 1, "How many repetitions at least?", "1 x 5+ @ 70 %"),
    Slip(LIFT, "5 @ 80 %", 1, "5 sets or 5 repetitions?", "1 x 5 @ 80 %"),
    Slip(LIFT, "x 5 @ 80 %", 1, "How many sets of 5?", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 x @ 80 %", 5, "How many repetitions?", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 5 @ 80 %", 3, "An x is missing between sets and repetitions.", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 sets @ 80 %", 1, "How many repetitions in each of the 3 sets?", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 x five @ 80 %", 5, "five is no number of repetitions.", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 x 5 @ 800 %", 9, "800 % can't be.", "3 x 5 @ 80 %"),
    Slip(LIFT, "300 x 5 @ 80 %", 1, "300 sets can't be.", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 x 12-8 @ RPE 7", 8, "8 is not more than 12.", "3 x 8 to 12"),
    Slip(LIFT, "3 x 5 @ 80 %, rest 3", 20, "A rest of 3 what?", "3 x 5 @ 80 %, rest 3:00"),
    Slip(LIFT, "3 x 5 @ 80 %, rest 2-3 min", 20, "A rest is one time, not 2 to 3.", "3 x 5 @ 80 %, rest 3:00"),
    Slip(LIFT, "3 x 5 @ 80 %, 90 s rest", 15, "Rest stands before its time.", "3 x 5 @ 80 %, rest 90 s"),
    Slip(LIFT, "3 x 5 @ 80 % rest 3:00", 14, "A comma is missing before rest 3:00.", "3 x 5 @ 80 %, rest 3:00"),
    Slip(LIFT, "3 x 5 @ 80 %, tempo 311", 21, "A tempo has four numbers: down, pause, up, pause.", "3 x 5 @ 80 %, tempo 3-1-1-0"),
    Slip(LIFT, "find a 5", 8, "A test of what?", "find a 5RM"),
    Slip(LIFT, "build to a heavy single", 10, "A test of how many repetitions?", "find a 1RM"),
    Slip(LIFT, "3 x 1+1+1 @ 80 %", 1, "3 numbers are added up here, but Front squat is one lift.", "3 x 3"),
    Slip("Clean + jerk, barbell\n", "3 x 2", 1, "How many of each in Clean + jerk?", "3 x 2 + 2"),
    Slip(BARE, "3 x 5 @ 80 %", 1, "80 % of which rep-max of Front squat?", "3 x 5 @ 80 % of 3RM"),
    Slip("", "3 x 5 @ 80 %", 1, "These sets stand under no lift.", "Front squat, barbell, % of 3RM", "3 x 5 @ 80 %"),
    Slip("", "Front squat, barbel, % of 3RM", 14, "'barbel' is no implement.", "Front squat, barbell, % of 3RM", "3 x 5 @ 80 %"),
    Slip("", "Front squat barbell", 12, "A comma is missing.", "Front squat, barbell", "3 x 5"),
    Slip("", "Press: 3 x 5 @ RPE 8", 1, "Which implement?", "Press, barbell: 3 x 5 @ RPE 8"),
    Slip("", "Front squat, barbell 3 x 5 @ 80 %", 22, "A colon is missing before the sets.", "Front squat, barbell, % of 3RM: 3 x 5 @ 80 %"),
    Slip("", "Back squat 5x5 @ 80%", 1, "Which implement?", "Back squat, barbell, % of 3RM: 5x5 @ 80%"),
    Slip("", "Session A: squats", 1, "On which day is this session?", "Day 1: squats", FILLED),
    Slip(LIFT, "3 x 5 (80 %)", 7, "'80 %' stands in brackets, where it is only a remark.", "3 x 5 @ 80 %"),
    Slip(LIFT, "3 x 5 @ 80 % 1RM", 14, "A word is missing before 1RM.", "3 x 5 @ 80 % of 1RM"),
    Slip(TIMED, "10 push-up (hand release)", 13, "A comma stands before a remark.", "10 push-up, hand release"),
    Slip(TIMED, "10 deadlift, 100/70 kg", 14, "'100/70 kg' is no load that can be read.", "10 kettlebell swing, 16 kg kettlebell"),
    Slip("", "Front squat, barbell, % of 3", 28, "A rep-max is written with RM.", "Front squat, barbell, % of 3RM", "3 x 5 @ 80 %"),
    Slip("", "Front squat, barbell, 3RM", 23, "A word is missing before 3RM.", "Front squat, barbell, % of 3RM", "3 x 5 @ 80 %"),
    Slip("", "Front squat, barbell, % of max", 23, "Of which rep-max?", "Front squat, barbell, % of 1RM", "3 x 5 @ 80 %"),
    Slip(FILLED, "or dumbbells", 13, "How many repetitions with dumbbells?", "or dumbbells, twice the repetitions"),
    Slip(FILLED, "or goblet squat: 3 x 12", 4, "With which implement?", "or goblet squat, body: 3 x 8"),
    Slip(FILLED, "Bring a jump rope", 1, "This is neither a heading, a lift nor sets.", "Note: Bring a jump rope"),
    Slip("", "Titel: Millrace", 1, "'Titel' is no heading.", "Title: Millrace", FILLED),
    Slip("", "Date: 12/01/2026", 7, "12/01/2026 can be read in two ways.", "Date: 2026-11-30", FILLED),
    Slip("", "Date: next Monday", 7, "next Monday is no date.", "Date: 2026-11-30", FILLED),
    Slip("", "Date: 2026-02-30", 7, "2026-02-30 is no day.", "Date: 2026-11-30", FILLED),
    Slip("", "## Week 1", 1, "A heading needs no hash.", "Week 1", FILLED),
    Slip("Week 1, day 1\n" + FILLED, "Week 1, day 1: again", 1, "Week 1, day 1 does not come after week 1, day 1.", "Week 1, day 2", FILLED),
    Slip("", "Week 1, day 9", 13, "9 as a day of the week can't be.", "Week 1, day 1: Front squat", FILLED),
    Slip("Week 1, day 1\n" + FILLED, "On 2026-12-01", 1, "The session above has a number for its day, and this one has a date.", "Week 2, day 1", FILLED),
    Slip("", "or dumbbells, twice the repetitions", 1, "Nothing stands above that this could replace.", "Front squat, barbell, % of 3RM", "3 x 5 @ 80 %"),
    Slip(FILLED, "10 swing, 16 kg kettlebell", 1, "This movement stands under no piece.", "Piece: Mill wheel", "for time\n10 burpee"),
    Slip(FILLED, "Warm-up:", 1, "Nothing stands after Warm-up.", "Warm-up: 5 minutes easy row"),
    Slip(PIECE, "AMRAP", 6, "In which time?", "AMRAP in 12:00", "10 burpee"),
    Slip(PIECE, "AMRAP 12", 7, "12 what?", "AMRAP in 12:00", "10 burpee"),
    Slip(PIECE, "12 min AMRAP", 1, "The time stands after the words.", "as many reps as possible in 12:00", "10 burpee"),
    Slip(PIECE, "21-15-9 for time, cap 9", 23, "A cap of 9 what?", "21-15-9 for time, cap 9:00", "burpee"),
    Slip(PIECE, "every 90 s for 10:00", 16, "10:00 is not a whole number of intervals of 90 s.", "every 90 s, 7 times", "10 burpee"),
    Slip(PIECE, "3 rounds", 1, "Are 3 rounds scored by time?", "3 rounds for time", "10 burpee"),
    Slip(TIMED, "10 burpee + 10 swing", 13, "Each movement has a line of its own.", "10 burpee"),
    Slip(TIMED, "10 x burpee", 4, "No x stands between a count and its movement.", "10 burpee"),
    Slip(TIMED, "10 swing 16 kg", 10, "A comma stands before a load.", "10 swing, 16 kg"),
    Slip(TIMED, "row 500 m", 5, "The amount stands after the movement.", "500 m row"),
    Slip(TIMED, "10 swing, 16 kg, 12 kg", 18, "'12 kg' is a second mark of the same kind.", "10 kettlebell swing, 16 kg kettlebell"),
    Slip(TIMED, "burpee", 1, "How many of burpee?", "10 burpee"),
)  # fmt: skip


def test_there_are_more_than_thirty_slips() -> None:
    assert len(SLIPS) > 30
    assert len({slip.typed for slip in SLIPS}) >= len(SLIPS) - 1


@pytest.mark.parametrize("slip", SLIPS, ids=[slip.typed for slip in SLIPS])
def test_a_slip_is_told_where_it_stands_with_a_line_that_passes(slip: Slip) -> None:
    line = slip.above.count("\n") + 1
    with pytest.raises(SheetErrors) as caught:
        parse_sheet(f"{slip.above}{slip.typed}\n{slip.below}")
    (problem,) = [problem for problem in caught.value.problems if problem.line == line]
    assert (problem.what, problem.column, problem.example) == (slip.told, slip.column, slip.passes)
    assert problem.expected
    assert len(caught.value.problems) == 1
    parse_sheet(f"{slip.above}{slip.passes}\n{slip.below}")


def test_all_slips_of_a_sheet_are_told_at_once() -> None:
    typed = [slip.typed for slip in SLIPS if slip.above == LIFT][:20]
    with pytest.raises(SheetErrors) as caught:
        parse_sheet(LIFT + "\n".join(typed))
    assert [problem.line for problem in caught.value.problems] == list(range(2, 22))
    assert "The sheet has 20 problems." in str(caught.value)
