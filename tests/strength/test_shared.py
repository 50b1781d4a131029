"""What readers of several threads share: the tables of a grid, and models that never change."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import fields, replace
from datetime import date, timedelta
from threading import Barrier

import numpy as np
import pytest

from tracker.strength import grid as grids
from tracker.strength.effort import RepsEvidence
from tracker.strength.estimator import LiftModel
from tracker.strength.parameters import DEFAULT
from tracker.strength.records import SetRecord

START = date(2026, 3, 2)


@pytest.fixture
def hasty() -> Iterator[None]:
    """Threads take turns as often as they can."""
    before = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    yield
    sys.setswitchinterval(before)


def test_threads_that_make_tables_side_by_side_keep_no_more_than_there_is_room_for(monkeypatch) -> None:
    """Each looked for room before it made its table, so that all of them were kept."""
    together = Barrier(8, timeout=30)
    monkeypatch.setattr(grids, "MOST_TABLES", 3)
    monkeypatch.setattr(
        grids.Grid, "_make", lambda self, evidence: np.full(1, float(together.wait() * 0 + evidence.reps))
    )
    grid = replace(grids.grid_of(DEFAULT), _tables={})
    pieces = [RepsEvidence("bound", reps) for reps in range(1, 9)]
    with ThreadPoolExecutor(8) as several:
        made = list(several.map(grid.table, pieces))
    assert [table[0] for table in made] == [piece.reps for piece in pieces]
    assert len(grid._tables) == 3


def test_tables_are_let_go_while_other_threads_make_theirs(hasty, monkeypatch) -> None:
    """Two threads took the same table out, or one looked for the oldest while another wrote."""
    monkeypatch.setattr(grids, "MOST_TABLES", 3)
    monkeypatch.setattr(grids.Grid, "_make", lambda self, evidence: np.full(1, float(evidence.reps)))
    grid = replace(grids.grid_of(DEFAULT), _tables={})
    pieces = [RepsEvidence("bound", reps) for reps in range(1, 13)]

    def much(first: int) -> bool:
        asked = (pieces[(first + turn * 5) % len(pieces)] for turn in range(4000))
        return all(grid.table(piece)[0] == piece.reps for piece in asked)

    with ThreadPoolExecutor(8) as several:
        assert all(several.map(much, range(8)))
    assert 0 < len(grid._tables) <= 3


def test_a_model_holds_nothing_that_changes() -> None:
    records = [SetRecord(START + timedelta(days=7 * week), 80 + week, 5, 2.0) for week in range(5)]
    model = LiftModel.of(records)
    assert len(model.trend()) == 5
    assert model.trend() is model.trend()
    assert len(replace(model, days=model.days[:3]).trend()) == 3  # it had the whole model's
    assert {field.name for field in fields(model)} == {"days", "parameters", "elsewhere"}
