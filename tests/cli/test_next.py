"""`tidemark next` says what the desk says, in every situation of a training day."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import timedelta

import pytest

from tests.situations import SITUATIONS, SQUAT, WARM_UP, Gym, Situation
from tests.stores import address_of
from tracker.log.unit_of_work import Log


@pytest.fixture
def gym(log: Log, monkeypatch: pytest.MonkeyPatch) -> Gym:
    monkeypatch.setenv("TIDEMARK_DATABASE", address_of(log))
    return Gym(log)


@pytest.mark.parametrize("situation", SITUATIONS, ids=lambda each: each.name)
def test_the_command_says_what_is_next(
    in_situation: Callable[[Situation], Gym], tidemark: Callable, situation: Situation, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv("TIDEMARK_DATABASE", address_of(in_situation(situation).log))
    answer = tidemark("next", "--member", "Ana", "--json")
    assert answer.status == 0, answer.err
    said = json.loads(answer.out)
    assert (said["next"], said["title"]) == (situation.kind, situation.title)
    assert said["member"] == "Ana"
    assert (said["planned"] or {}).get("title", "") == situation.planned
    assert tuple(each["title"] for each in said["missed"]) == situation.missed


def test_it_says_it_in_words(gym: Gym, tidemark: Callable):
    gym.plan("Old", -2)
    gym.plan("Now", 0, 2, pieces=("Quay",), text=WARM_UP)
    gym.plan("Soon", 3)
    assert tidemark("next").out.splitlines() == [
        "Now, today",
        "Warm-up (to do): 5 min easy row 10 air squats",
        f"Next: {SQUAT}, set 1 of 2: 3 × 80 kg",
        f"Then: {SQUAT}: 3 × 80 kg",
        "Then: Quay: 3 rounds for time; 5 burpees",
        "Then: Now: how hard it was",
        f"Planned next: Soon, {gym.day + timedelta(days=3):%a} {(gym.day + timedelta(days=3)).day} {gym.day + timedelta(days=3):%b}",
        f"Missed: Old, {gym.day - timedelta(days=2):%a} {(gym.day - timedelta(days=2)).day} {gym.day - timedelta(days=2):%b}",
    ]


def test_of_another_day_it_says_what_is_next_then(gym: Gym, tidemark: Callable):
    gym.plan("Soon", 3)
    day = (gym.day + timedelta(days=3)).isoformat()
    said = json.loads(tidemark("next", "--day", day, "--json").out)
    assert (said["day"], said["next"], said["session"]["title"]) == (day, "set", "Soon")


def test_it_asks_whose_day_where_the_log_has_several_members(demo_log: Log, tidemark: Callable, monkeypatch):
    monkeypatch.setenv("TIDEMARK_DATABASE", address_of(demo_log))
    answer = tidemark("next")
    assert answer.status == 2
    assert "--member" in answer.err
    assert "Wren" in answer.err
