"""What readers of several threads share: the tables of a grid, and models that never change."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import fields, replace
from datetime import date, timedelta

import numpy as np
import pytest

from tracker.strength import tables
from tracker.strength.effort import RepsEvidence
from tracker.strength.estimator import LiftModel
from tracker.strength.records import SetRecord
from tracker.strength.tables import Tables

START = date(2026, 3, 2)


@pytest.fixture
def hasty() -> Iterator[None]:
    """Threads take turns as often as they can."""
    before = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    yield
    sys.setswitchinterval(before)


def made(evidence: RepsEvidence) -> np.ndarray:
    """A table of three columns and four rows that tells whose it is."""
    return np.arange(12.0).reshape(3, 4) + 100 * evidence.reps


def read(tables: Tables, piece: RepsEvidence) -> np.ndarray:
    numbers, (place,) = tables.of([piece])
    return numbers[place.at : place.at + 12].reshape(3, 4)


def test_threads_that_make_tables_side_by_side_read_each_its_own(hasty, monkeypatch) -> None:
    """Room for three tables, eight threads and twelve pieces of evidence: a table of somebody else must not come back."""
    monkeypatch.setattr(tables, "ROOM", 36)
    shared, pieces = Tables(made), [RepsEvidence("bound", reps) for reps in range(1, 13)]

    def much(first: int) -> bool:
        asked = (pieces[(first + turn * 5) % len(pieces)] for turn in range(4000))
        return all(np.array_equal(read(shared, piece), made(piece)) for piece in asked)

    with ThreadPoolExecutor(8) as several:
        assert all(several.map(much, range(8)))
    assert len(shared.of([pieces[0]])[0]) == 36


def test_tables_that_were_taken_stay_as_they_are_when_others_need_the_room(monkeypatch) -> None:
    monkeypatch.setattr(tables, "ROOM", 36)
    shared = Tables(made)
    numbers, (place,) = shared.of([RepsEvidence("bound", 1)])
    for reps in range(2, 9):
        read(shared, RepsEvidence("bound", reps))
    np.testing.assert_array_equal(numbers[place.at : place.at + 12].reshape(3, 4), made(RepsEvidence("bound", 1)))


def test_a_day_with_more_evidence_than_there_is_room_for_gets_all_its_tables(monkeypatch) -> None:
    monkeypatch.setattr(tables, "ROOM", 36)
    shared, pieces = Tables(made), [RepsEvidence("bound", reps) for reps in range(1, 6)]
    numbers, places = shared.of(pieces)
    found = [numbers[place.at : place.at + 12].reshape(3, 4) for place in places]
    np.testing.assert_array_equal(found, [made(piece) for piece in pieces])


def test_a_model_holds_nothing_that_changes() -> None:
    records = [SetRecord(START + timedelta(days=7 * week), 80 + week, 5, 2.0) for week in range(5)]
    model = LiftModel.of(records)
    assert len(model.trend()) == 5
    assert model.trend() is model.trend()
    assert len(replace(model, days=model.days[:3]).trend()) == 3  # it had the whole model's
    assert {field.name for field in fields(model)} == {"days", "parameters", "elsewhere"}
