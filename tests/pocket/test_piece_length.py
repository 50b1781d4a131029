"""How long a piece without a score goes stands in its words."""

from __future__ import annotations

import pytest

from tests.day import this_day
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.pocket.plan import plan_of


@pytest.mark.parametrize(
    ("text", "scheme"),
    [
        ("12 min easy bike", "12 min, no score"),
        ("10 min easy row", "10 min, no score"),
        ("AMRAP 12 min\n10 burpees", "As many reps as possible in 12:00"),  # said once
    ],
)
def test_a_piece_without_a_score_says_how_long_it_goes(log, text, scheme):
    someone = people.add_member(log, "Odalys")
    sheets.take_sheet(log, [someone.id], text, this_day())
    (session,) = plan_of(log, someone.id, this_day())["sessions"]
    assert [each["scheme"] for each in session["pieces"]] == [scheme]
