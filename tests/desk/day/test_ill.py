"""Ill, and muscles that ache: apart from pain, each by the member's word, and seen by the coach only where it was told."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, lift_named, squats_and_presses
from tests.undoing import undo_newest
from tracker.desk.coach import due
from tracker.desk.day import sore, today, told, weights
from tracker.desk.day.withheld import withheld
from tracker.errors import BadInputError
from tracker.log.unit_of_work import Log
from tracker.prescription import illness
from tracker.prescription.illness import after_illness


@pytest.fixture
def tova(log: Log):
    return squats_and_presses(log, "Tova")


def plan(log, member):
    return today.day_plan(log, member.id, this_day())


def test_whoever_is_ill_is_offered_no_load_anywhere_until_they_are_well_again(log, tova):
    sore.begin(log, tova.id, sore.ILL, this_day())
    found = plan(log, tova)
    assert all(line.made is None for line in found.lines)
    assert withheld(found, found.next_line) == (illness.OFFERED,)
    assert (found.ramp, found.beats, found.easy) == ((), {}, True)
    reference = weights.typed_reference("100", 5, "kg", this_day())
    with pytest.raises(BadInputError, match="ill"):
        weights.weights(log, tova, lift_named(log, "back squat"), reference, "1x5@70", this_day())
    assert "fever" in " ".join(illness.STOP)
    sore.end(log, tova.id, sore.ILL, this_day())
    assert plan(log, tova).lines[0].made is not None
    assert plan(log, tova).back is None  # of one day: nothing is lowered


def test_after_days_of_illness_loads_start_lower_by_a_stated_rule(log, tova):
    did(log, tova, lift_named(log, "back squat"), 9, 60, 5)
    sore.begin(log, tova.id, sore.ILL, this_day() - timedelta(days=8))
    sore.end(log, tova.id, sore.ILL, this_day())
    found = plan(log, tova)
    # By hand: eight days are a week or more, so 20 %: 100 x 0.70 x 0.80 = 56 kg, 55 with these discs.
    assert (found.back.percent, str(found.lines[0].made.load)) == (20, "55 kg")
    assert "20 % lower than asked, after 8 days ill." in found.lines[0].notes
    assert "20, 10 % lower, each for 2 sessions" in found.back.words
    assert not found.asks_back


def test_the_steps_after_an_illness():
    # Common practice, written down in the module: nothing for fewer than three days, one step below a week, then two.
    assert [after_illness(days, made) and after_illness(days, made).percent for days, made in (
        (2, 0), (3, 0), (3, 2), (6, 1), (7, 0), (7, 1), (7, 2), (7, 4)
    )] == [None, Decimal(10), None, Decimal(10), Decimal(20), Decimal(20), Decimal(10), None]  # fmt: skip


def test_the_coach_sees_it_only_where_it_was_told_and_then_that_it_is_over(log, tova):
    since = this_day() - timedelta(days=2)
    sore.begin(log, tova.id, sore.ILL, since)
    assert due.away(log, [tova.id], this_day())[0].told == ()
    told.tell_ill(log, tova.id, since, this_day())
    assert due.away(log, [tova.id], this_day())[0].told == (f"Ill since {since.day} {since:%b}.",)
    undo_newest(log, tova.id)
    assert due.away(log, [tova.id], this_day())[0].told == ()
    told.tell_ill(log, tova.id, since, this_day())
    sore.end(log, tova.id, sore.ILL, this_day())
    assert due.away(log, [tova.id], this_day())[0].told == (f"Well again since {this_day().day} {this_day():%b}.",)


def test_aching_muscles_withhold_nothing_and_offer_an_easier_day(log, tova):
    sore.begin(log, tova.id, sore.ACHES, this_day())
    found = plan(log, tova)
    assert str(found.lines[0].made.load) == "70 kg"
    assert withheld(found, found.next_line) == ()
    sore.ease(log, tova.id, this_day())
    found = plan(log, tova)
    assert str(found.lines[0].made.load) == "62.5 kg"  # 63 by the percentage
    assert "your muscles ache" in " ".join(found.lines[0].notes)
    sore.ease(log, tova.id, this_day(), easier=False)
    assert str(plan(log, tova).lines[0].made.load) == "70 kg"
    sore.ease(log, tova.id, this_day())
    sore.end(log, tova.id, sore.ACHES, this_day())
    assert str(plan(log, tova).lines[0].made.load) == "70 kg"


def test_pain_stays_withheld_beside_aching_muscles(log, tova):
    sore.begin(log, tova.id, sore.ACHES, this_day())
    sore.mark_painful(log, tova.id, lift_named(log, "back squat").id)
    assert plan(log, tova).next_line.made is None
