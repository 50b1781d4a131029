"""Who trains and what is done, in most tests of the desk."""

from __future__ import annotations

import pytest

from tests.desk.ladders import LADDER
from tracker.desk.people import people
from tracker.desk.pieces import conditioning


@pytest.fixture
def ana(log):
    return people.add_member(log, "Ana")


@pytest.fixture
def squat(log):
    return people.add_lift(log, "back squat", "barbell")


@pytest.fixture
def ladder(log):
    return conditioning.add_piece(log, LADDER)
