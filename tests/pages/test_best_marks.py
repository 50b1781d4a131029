"""The board of best marks: by lift and by piece, dated, with what each beat."""

from __future__ import annotations

from datetime import timedelta

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, words
from tracker.desk.day import log_set
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log


def said(ago: int) -> str:
    day = this_day() - timedelta(days=ago)
    return f"{day.day} {day:%b}{'' if day.year == this_day().year else f' {day.year}'}"


def test_a_board_says_what_was_done_when_and_what_it_beat(log: Log, show: Open):
    member = people.add_member(log, "Bo")
    lift = people.add_lift(log, "squat", "barbell")
    for ago, load, reps in ((40, 80, 5), (20, 85, 3), (10, 84, 5)):
        log_set.log_set(log, member.id, this_day() - timedelta(days=ago), NewSet(lift.id, kg(load), reps), sure=True)
    rep_maxes.add_rep_max(
        log, member.id, lift.id, this_day() - timedelta(days=5), 1, kg(120), tested=False
    )  # only said
    text = words(show(log, "best_marks", member.id))
    beaten = text.partition("Beaten last")[2].partition("<table")[0]
    assert f"<b>5 × 84 kg</b><span>before: 80 kg, {said(40)}</span>" in beaten
    assert f'<th scope="row">5</th><td><b>84 kg</b><span>{said(10)}</span><span>beat 80 kg, {said(40)}</span>' in text
    assert f'<th scope="row">3</th><td><b>85 kg</b><span>{said(20)}</span><span>beat 80 kg, {said(40)}</span>' in text
    assert f'<th scope="row">1</th><td>85 kg<span>{said(20)}, a set of 3</span>' in text
    assert "120 kg" not in text.partition("Beaten last")[2]


def test_every_member_of_the_demo_has_a_board_of_lifts_and_of_pieces(demo_log: Log, show: Open):
    for member in people.members(demo_log):
        at = show(demo_log, "best_marks", member.id)
        assert "Estimated best" in words(at)
        at.button_group(key="kept_board").set_value("pieces").run()
        assert not at.exception
        assert "Piece</th>" in words(at) or "No piece is scored yet" in words(at)


def test_the_day_leads_to_the_board(log: Log, show: Open):
    member = people.add_member(log, "Bo")
    assert "Best marks" in [each.proto.label for each in show(log, "today", member.id).get("page_link")]


def test_without_a_log_the_board_says_what_to_do(log: Log, show: Open):
    people.add_member(log, "Bo")
    assert "Nothing is logged yet" in words(show(log, "best_marks"))
