"""The day is that of whoever looks, never the server's: a phone may be a day ahead of it or behind."""

from __future__ import annotations

import ast
from pathlib import Path

import tracker.desk

FOLDER = Path(tracker.desk.__file__).parent
ALLOWED = {"people/people.py"}  # the newest day that it is anywhere, and the server's own is one of them


def asks_the_server(file: Path) -> bool:
    tree = ast.parse(file.read_text(encoding="utf-8"))
    return any(isinstance(node, ast.Attribute) and ast.unparse(node) == "date.today" for node in ast.walk(tree))


def test_the_desk_is_told_the_day_and_does_not_ask_the_server_for_it():
    files = {str(file.relative_to(FOLDER)) for file in FOLDER.rglob("*.py") if asks_the_server(file)}
    assert files == ALLOWED
