"""`tidemark sheet`: what was understood, or where it stopped."""

from __future__ import annotations

import pytest

SHEET = """Week 1, day 1: Front squat

Front squat, barbell, % of 3RM
1 x 4 @ 72 %
3 x 4 @ 82 %
"""


@pytest.fixture
def file(tmp_path):
    def write(content: bytes | str):
        path = tmp_path / "week.txt"
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    return write


def test_what_was_understood(tidemark, file):
    answer = tidemark("sheet", file(SHEET), "--json").json
    lift = answer["sessions"][0]["items"][0]
    assert lift["lift"].lower() == "front squat"
    assert [(each["sets"], each["reps"], each["percent"]) for each in lift["sets"]] == [(1, 4, 72.0), (3, 4, 82.0)]
    said = tidemark("sheet", file(SHEET)).out
    assert "front squat" in said.lower()


def test_where_it_stopped(refused, file):
    said = refused("sheet", file(SHEET.replace("3 x 4", "3 by four")), "--json")
    assert "week.txt" in said
    assert "line 5, column" in said
    assert "Expected" in said
    assert "Write such as" in said


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", "Zo\xeb".encode("latin-1"), b"a\x00b"])
def test_what_is_no_text(refused, file, content):
    assert "week.txt, line 1" in refused("sheet", file(content))


def test_a_file_that_is_not_there(refused, tmp_path):
    assert "can't be read" in refused("sheet", tmp_path / "none.txt")
