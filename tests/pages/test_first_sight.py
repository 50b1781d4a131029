"""The next set before the page has come: the same that the page says then, and nothing where the page would say no set."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from html import escape

import pytest

from tests.day import this_day
from tests.pages.conftest import Open
from tests.stores import address_of
from tracker.components.day.first_sight import draw
from tracker.desk.day import dismissed_cautions as seen
from tracker.desk.day import today, training
from tracker.desk.people import people
from tracker.desk.sheet.sheets import take_sheet
from tracker.log.unit_of_work import Log
from tracker.log.who import NOBODY, ask_with
from tracker.units import Mass


def sections(html: str) -> str:
    """Return what stands in the card."""
    return html.partition("<section>")[2].partition("<button")[0]


@pytest.mark.parametrize("place", range(5))
def test_it_says_what_the_page_then_says(demo_log: Log, show: Open, place: int):
    member = people.members(demo_log)[place]
    early = draw(address_of(demo_log), {"member": member.id})
    page = show(demo_log, member=member.id)
    cards = [each.proto.body for each in page.get("html") if "data-next=" in each.proto.body]
    assert [sections(early)] == cards
    assert f">{member.name}<" in early
    assert escape(page.title[0].value) in early
    assert f">{escape(page.button(key='log_as_asked').label)}</button>" in early


def test_whom_the_address_does_not_name_gets_what_the_page_shows_then(demo_log: Log):
    first = people.members(demo_log)[0]
    for address in (
        {},
        {"member": ""},
        {"member": "nobody"},
        {"zone": "No/Where", "day": "soon"},
        {"zone": "Pacific"},
        {"zone": "A" * 300},
    ):
        assert f">{first.name}<" in draw(address_of(demo_log), address)


def test_nothing_is_said_of_another_day_than_the_address_names(demo_log: Log):
    member = people.members(demo_log)[0]
    before = (this_day() - timedelta(days=200)).isoformat()
    plan = today.day_plan(demo_log, member.id, date.fromisoformat(before))
    assert plan.next_line is None
    assert draw(address_of(demo_log), {"member": member.id, "day": before}) == ""


def due(log: Log, reps: int, kg: int, sheet: str, name: str = "Ana") -> str:
    """Make a member with a tested max of the back squat, and a sheet for today; return the member's id."""
    member = people.add_member(log, name)
    lift = people.add_lift(log, "back squat", "barbell")
    training.add_rep_max(log, member.id, lift.id, this_day(), reps, Mass(Decimal(kg), "kg"), tested=True)
    take_sheet(log, [member.id], sheet, this_day())
    return member.id


def test_names_and_titles_are_texts(log: Log):
    mark = "<img src=x onerror=alert(1)>"
    ana = due(log, 3, 100, f"Title: {mark}\nBack squat, barbell, % of 3RM\n3 x 3 @ 70 %\n", mark)
    drawn = draw(address_of(log), {"member": ana})
    assert drawn.count(escape(mark)) >= 2  # the member, the session, and what was done last
    assert "<img" not in drawn


def test_cautions_stand_there_unless_they_were_put_away(log: Log):
    ana = due(log, 1, 150, "Title: Heavy\nBack squat, barbell, % of 1RM\n3 x 1 @ 95 %\n")
    line = today.day_plan(log, ana, this_day()).next_line
    assert line is not None
    assert line.cautions
    assert all(escape(each.text) in draw(address_of(log), {}) for each in line.cautions)
    seen.put_away(log, ana, [each.key for each in line.cautions], this_day())
    assert not any(escape(each.text) in draw(address_of(log), {}) for each in line.cautions)


def test_what_only_the_member_can_say_has_no_button(log: Log):
    ana = due(log, 5, 100, "Title: Out\nBack squat, barbell, % of 5RM\n1 x 5+ @ 70 %\n")
    line = today.day_plan(log, ana, this_day()).next_line
    assert line is not None
    assert line.planned.rep_out
    drawn = draw(address_of(log), {})
    assert "5 or more × 70 kg" in drawn
    assert "<button" not in drawn


def test_an_empty_log_says_nothing(log: Log):
    assert draw(address_of(log), {}) == ""


@pytest.mark.sqlite("names a file that is no log")
def test_a_log_that_cannot_be_opened_says_nothing(tmp_path):
    bad = tmp_path / "bad.db"
    bad.write_text("this is no log")
    assert draw(str(bad), {}) == ""


def test_nobody_sees_anything(demo_log: Log):
    ask_with(lambda: NOBODY)
    try:
        assert draw(address_of(demo_log), {}) == ""
    finally:
        ask_with(None)
