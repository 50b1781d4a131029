"""When a test would pay, from the log: by the kit's step, quiet after a test, and not where the log offers none."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, lift_named, somebody, squats_and_presses
from tests.loads import kg
from tracker.desk.ahead.when_to_test import INSTEAD, when_to_test
from tracker.desk.day import sore
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.prescription import illness


def ask(log, member, lift, reps=5, unit="kg", day=None):
    return when_to_test(log, member, lift, reps=reps, unit=unit, day=day or this_day())


@pytest.fixture
def easy(log):
    """Somebody whose squats were never told to be hard: much could be told by a test."""
    member, lift = somebody(log, "Wren"), people.add_lift(log, "back squat", "barbell")
    for week in range(10, 0, -1):
        did(log, member, lift, 7 * week, 80, 5)
    return log, member, lift


def test_where_little_is_known_a_test_pays_and_it_says_why(easy):
    log, member, lift = easy
    found = ask(log, member, lift)
    assert found.pays == this_day()
    assert "A test of the 5RM would pay now" in found.words
    assert "smallest step (2.5 kg)" in found.words
    why = " ".join(found.why)
    assert "nothing waits for a test" in why
    assert INSTEAD in why
    assert "coach" in why
    assert found.days[0].width < found.days[0].without.high80 - found.days[0].without.low80


def test_where_a_test_would_move_less_than_the_smallest_step_it_does_not_pay(log):
    member, lift = somebody(log, "Bo"), people.add_lift(log, "press", "barbell")
    for week in range(8, 0, -1):
        did(log, member, lift, 7 * week, 10, 5, rir=Decimal(1))
    found = ask(log, member, lift)
    assert found.pays is None
    assert "No test of the 5RM would pay up to" in found.words
    assert all(each.moves < 2.5 for each in found.days)
    assert "lb" in " ".join(ask(log, member, lift, unit="lb").why)


def test_after_a_test_it_is_quiet_for_three_weeks_and_says_what_hangs_on_it_later(log):
    member = squats_and_presses(log, "Tova")
    squat = lift_named(log, "back squat")
    assert "no word of a test before" in ask(log, member, squat).words
    did(log, member, squat, 0, 70, 5)
    later = this_day() + timedelta(days=13)  # three weeks and a day after the test of nine days ago
    assert "2 sets of the next four weeks are asked as a part of it" in " ".join(ask(log, member, squat, day=later).why)


def test_whoever_is_offered_no_test_is_told_of_none(easy):
    log, member, lift = easy
    assert "no tests and nothing heavy" in ask(log, replace(member, no_heavy=True), lift).words
    assert "coach beside you" in ask(log, replace(member, minor=True), lift).words
    away = ask(log, member, lift, day=this_day() + timedelta(days=30))
    assert "No test right after two weeks" in away.words
    assert ask(log, member, people.add_lift(log, "press", "barbell")).pays is None
    sore.mark_painful(log, member.id, lift.id)
    assert "painful" in ask(log, member, lift).words
    sore.begin(log, member.id, sore.ILL, this_day())
    assert ask(log, member, lift).words == illness.OFFERED


def test_a_tested_max_that_is_no_set_is_a_test_too(easy):
    log, member, lift = easy
    rep_maxes.add_rep_max(log, member.id, lift.id, this_day() - timedelta(days=2), 5, kg(90), tested=True)
    assert "no word of a test before" in ask(log, member, lift).words
