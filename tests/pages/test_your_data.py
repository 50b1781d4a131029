"""The page on a member's data: every kind of it, who sees it, and the ways to correct, export and delete."""

from __future__ import annotations

from tests.pages.conftest import Open, words
from tests.plain_words import never
from tracker.desk.people import people, your_data
from tracker.log.unit_of_work import Log


def test_it_says_what_is_kept_where_and_who_sees_it(show: Open, log: Log):
    ana = people.add_member(log, "Ana")
    at = show(log, "your_data", ana.id)
    assert not at.exception
    drawn = words(at)
    for part in your_data.PARTS:
        assert f"{part}:" in drawn
    assert "Training: nothing." in drawn
    assert [each.value for each in at.header] == [
        "What is kept", "Where it is", "Who sees it", "Correct it, export it, delete it",
    ]  # fmt: skip
    assert "each phone that was paired" in drawn
    assert not never(drawn)
