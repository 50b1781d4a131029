"""Somebody of whom enough is known to look ahead."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.desk.doing import did, somebody
from tracker.desk.people import people


@pytest.fixture
def squatted(log):
    """Somebody with ten weeks of squats, and the lift."""
    member, lift = somebody(log, "Wren"), people.add_lift(log, "back squat", "barbell")
    for week in range(10, 0, -1):
        did(log, member, lift, 7 * week, 80, 5, rir=Decimal(2))
    return log, member, lift
