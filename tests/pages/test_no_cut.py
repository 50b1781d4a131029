"""No field of a page drops what somebody pastes."""

from __future__ import annotations

import ast
from pathlib import Path

import tracker


def test_no_field_cuts_a_name_without_a_word():
    """A browser drops what is pasted beyond `max_chars`: only loads, counts, a code and a search are that short anyhow."""
    short = {
        "_load",
        "load",
        "_body",
        "body_mass_amount",
        "_mass",
        "_number",
        "invitation_code",
        "journal_search",
        "name(key)",
    }
    found = []
    for source in [
        *Path(tracker.__file__).parent.rglob("*.py"),
        *(Path(tracker.__file__).parents[1] / "pages").glob("*.py"),
    ]:
        for call in ast.walk(ast.parse(source.read_text(encoding="utf-8"))):
            if not isinstance(call, ast.Call) or not any(each.arg == "max_chars" for each in call.keywords):
                continue
            key = ast.unparse(next(each.value for each in call.keywords if each.arg == "key")).strip("f'\"")
            if not any(key.endswith(each) for each in short):
                found.append(f"{source.name}: {key}")
    assert found == []
