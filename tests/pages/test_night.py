"""The owner sees on Accounts, and beside the copies, how last night's dump is and what to do; nobody else sees it."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from tests.pages.conftest import words
from tests.pages.test_roles import gym as of_gym
from tests.pages.test_roles import opened
from tracker.components.people import night
from tracker.desk.files.dumps import RECORD, VARIABLE

gym = of_gym  # the fixture of those who sign in
FILE, BYTES = "by-hand.dump", b"as it was dumped"


def noted(folder: Path, *, hours: float = 3, problems: tuple[str, ...] = (), file: bytes | None = BYTES) -> None:
    """Leave a folder as the nightly timer leaves it: a dump, and what came of putting it back."""
    at = datetime.now(UTC) - timedelta(hours=hours)
    counted = {"sets": 31_000}
    done = {
        "file": FILE,
        "at": at.isoformat(),
        "size": len(BYTES),
        "sha256": "",
        "counts": counted,
        "problems": problems,
    }
    (folder / RECORD).write_text(json.dumps([done]))
    (folder / FILE).unlink(missing_ok=True)
    if file is not None:
        (folder / FILE).write_bytes(file)


def shown(at: AppTest) -> tuple[str, list[str]]:
    assert not at.exception
    return words(at), [each.value for each in at.warning if "dump" in each.value]


def test_the_owner_sees_how_last_night_was_and_what_to_do(
    gym: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(night, "file_of", lambda url: None)  # as a log on PostgreSQL
    monkeypatch.delenv(VARIABLE, raising=False)
    at = opened("Fay", "accounts")
    assert "name its folder as TIDEMARK_DUMPS" in shown(at)[0]
    monkeypatch.setenv(VARIABLE, str(tmp_path))
    said, warned = shown(at.run())
    assert "No dump has been made and put back yet." in said
    assert "look whether the nightly timer is on" in warned[0]

    noted(tmp_path)
    said, warned = shown(at.run())
    assert "put back and in order, 31,000 sets." in said
    assert warned == []
    for how, what, todo in (
        ({"problems": ("the archive ends too early",)}, "not good: the archive ends too early", "tidemark rehearse FILE"),
        ({"file": None}, f"The newest dump is gone: {FILE}", "find out who deleted it"),
        ({"file": BYTES[:4]}, "has another size now", "Look whether the disk is full"),
        ({"hours": 50}, "No dump for 50 hours.", "Look whether the nightly timer is on"),
        ({"problems": ("it holds 2 sets, and the dump before it held 31,000",)}, "2 sets, and the dump before", "dump"),
    ):  # fmt: skip
        noted(tmp_path, **how)
        _, (told,) = shown(at.run())
        assert what in told
        assert todo in told

    assert "dump" not in words(opened("Ana", "files"))


def test_a_log_in_a_file_knows_of_no_nights(gym: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    if night.file_of(gym[0].url) is None:
        pytest.skip("this log is on a server")
    assert "dump" not in shown(opened("Fay", "accounts"))[0]
