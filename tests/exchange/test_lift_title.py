"""A lift as we write it ourselves is read back as its name and its implement."""

from __future__ import annotations

import pytest

from tracker.exchange.lift_title import named


@pytest.mark.parametrize(
    ("text", "implement", "read"),
    [
        ("push press, barbell", "", ("push press", "barbell")),
        ("Push press,  Barbell", "", ("Push press", "barbell")),
        ("push press (barbell)", "", ("push press", "barbell")),
        ("split squat (dumbbells, a side)", "", ("split squat", "dumbbells")),
        ("pull-up (body)", "", ("pull-up", "body")),
        ("carry (unasked)", "", ("carry", "")),
        ("clean, hang, barbell", "", ("clean, hang", "barbell")),
        ("push press, barbell", "barbell", ("push press", "barbell")),
        ("push press, barbell", "dumbbells", ("push press, barbell", "dumbbells")),  # it says two things: as it is
        ("row, other", "", ("row, other", "")),  # no lift is written so
        ("front squat", "", ("front squat", "")),
        ("front squat (pause)", "", ("front squat (pause)", "")),
        ("barbell", "", ("barbell", "")),
        (", barbell", "", (", barbell", "")),
        ("(barbell)", "", ("(barbell)", "")),
    ],
)
def test_a_title_is_read_as_name_and_implement(text: str, implement: str, read: tuple[str, str]) -> None:
    assert named(text, implement) == read
