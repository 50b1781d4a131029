"""A piece of many rounds, in the log."""

from __future__ import annotations

import pytest

from tests.desk.ladders import LADDER
from tracker.desk.pieces import conditioning


@pytest.fixture
def ladder(log):
    return conditioning.add_piece(log, LADDER)
