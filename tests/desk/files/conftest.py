"""A file of sets to take in."""

from __future__ import annotations

import pytest

from tests.taking_in import TWO


@pytest.fixture
def file(tmp_path):
    def write(content: str = TWO, name: str = "sets.csv"):
        path = tmp_path / name
        path.write_text(content, encoding="utf-8", newline="")
        return path

    return write
