"""The change of an nRM between two days, by hand."""

from __future__ import annotations

import pytest

from tracker.strength.change import change_between
from tracker.strength.records import Band


def test_the_band_of_a_change_joins_both_ends_at_right_angles():
    found = change_between(Band(80, 76, 83), Band(90, 86, 94))
    assert found.estimate == 10
    assert (found.low80, found.high80) == (pytest.approx(10 - 5), pytest.approx(10 + 32**0.5))  # 4 and 3; 4 and 4


def test_a_change_turned_round_is_the_same_with_the_other_sign():
    one, two = Band(80, 76, 83), Band(90, 86, 94)
    there, back = change_between(one, two), change_between(two, one)
    assert (back.estimate, back.low80, back.high80) == (-there.estimate, -there.high80, -there.low80)
