"""Who trains and what is done, in most tests of the desk."""

from __future__ import annotations

import pytest

from tests.desk.ladders import LADDER
from tracker.desk.pieces import conditioning


@pytest.fixture
def ladder(log):
    return conditioning.add_piece(log, LADDER)
