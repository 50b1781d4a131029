"""Pieces of an invented gym for the tests of this room."""

from datetime import date

import pytest

from tracker.conditioning.ladder import Listed, Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.units import parse_mass

DAY = date(2026, 3, 2)


@pytest.fixture
def day() -> date:
    return DAY


@pytest.fixture
def ladder_piece() -> Piece:
    """Twelve minutes of 3, 6, 9, ... of three movements."""
    run = Steady(3, 3)
    option = Task("push-up from the knees", run)
    return Piece(
        "Lantern ladder",
        "as many as possible",
        (
            Task("kettlebell swing", run, load=parse_mass("16kg"), implement="kettlebell"),
            Task("box step-over", run),
            Task("hand-release push-up", run, options=(option,)),
        ),
        cap_s=720,
    )


@pytest.fixture
def rounds_piece() -> Piece:
    """Ten minutes of equal rounds, 10 + 8 + 12."""
    tasks = (Task("goblet squat", Steady(10)), Task("push-up", Steady(8)), Task("sit-up", Steady(12)))
    return Piece("Kitchen rounds", "as many as possible", tasks, cap_s=600)


@pytest.fixture
def timed_piece() -> Piece:
    """21, 15, 9 of two movements for time, cap 8:00: 90 repetitions."""
    run = Listed((21, 15, 9))
    return Piece(
        "Downstream", "for time", (Task("deadlift", run, load=parse_mass("60kg")), Task("burpee", run)), cap_s=480
    )


@pytest.fixture
def interval_piece() -> Piece:
    """Five times two minutes of rowing, a minute between."""
    task = Task("row", Steady(1), "m")
    return Piece("Weir", "work and rest", (task,), work_s=120, rest_s=60, intervals=5)


@pytest.fixture
def minute_piece() -> Piece:
    """Every minute for twelve, movements in turn."""
    tasks = (Task("row", Steady(12), "cal"), Task("sit-up", Steady(15)))
    return Piece("Sluice", "every minute", tasks, work_s=60, intervals=12, in_turn=True, scored_by="completed")
