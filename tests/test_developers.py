"""DEVELOPERS.md can't drift from the program: whatever file or function it names is there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
ROOMS = "base|charts|cli|components|conditioning|desk|door|exchange|log|pages|prescription|strength|tests|tracker"
FILES = [
    "/" + file.relative_to(ROOT).as_posix()
    for room in ("tracker", "pages", "tests", "migrations")
    for file in (ROOT / room).rglob("*")
    if "__pycache__" not in file.parts
]


def named() -> set[str]:
    """Every file in quotes, and every path that begins with a room: to a folder, a file, or a name within one."""
    files = re.findall(r"`((?:\w+/)*\w+\.(?:py|toml|txt))`", TEXT)
    paths = re.findall(rf"(?<![\w./*-])((?:{ROOMS})/\w+(?:/\w+)*(?:\.\w+)?)(?![\w*/])", TEXT)
    return {*files, *paths}


def is_there(path: str) -> bool:
    if any(file.endswith((f"/{path}", f"/{path}.py")) for file in FILES):
        return True
    module, _, name = path.rpartition(".")
    homes = [ROOT / file[1:] for file in FILES if module and file.endswith(f"/{module}.py")]
    return any(re.search(rf"^(?:def|class) {name}\b", file.read_text("utf-8"), re.MULTILINE) for file in homes)


@pytest.mark.parametrize("path", sorted(named() - {"pyproject.toml"}))
def test_what_the_document_names_is_there(path):
    assert is_there(path)
