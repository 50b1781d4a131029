"""Pages under test: the real entry, a log of its own, and no browser."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from datetime import timedelta
from decimal import Decimal
from html import unescape
from pathlib import Path
from typing import Any

import pytest
import streamlit as st
from sqlalchemy import insert
from streamlit import config
from streamlit.testing.v1 import AppTest

import tracker
from tests import kept
from tests.day import this_day
from tests.loads import kg
from tests.stores import address_of
from tracker.app import SETTINGS
from tracker.components.frame import frame, long_work
from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.log import waves as log_waves
from tracker.log.columns import new_id
from tracker.log.models import LiftedSet, Session
from tracker.log.records import MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass

ENTRY = Path(tracker.__file__).parent / "app.py"
Open = Callable[..., AppTest]


@pytest.fixture(autouse=True)
def _nothing_kept() -> Iterator[None]:
    """What Streamlit keeps in memory outlives a test otherwise."""
    yield
    st.cache_resource.clear()


@pytest.fixture(autouse=True)
def _patient(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a busy machine nothing is quick; a bar is drawn only where a test wants one."""
    monkeypatch.setattr(long_work, "QUICK_S", 60.0)


@pytest.fixture(autouse=True, scope="session")
def _as_served() -> None:
    """What the server sets, where it costs: else each element is counted for statistics, and each script is rewritten."""
    for setting in ("browser.gatherUsageStats", "runner.magicEnabled"):
        config.set_option(setting, SETTINGS[setting])


@pytest.fixture(autouse=True)
def _made_once_for_pages(monkeypatch: pytest.MonkeyPatch) -> None:
    kept.wait_asleep(monkeypatch)
    if kept.NOTHING:
        return
    kept.keep_components(monkeypatch)
    kept.keep_runtime(monkeypatch)
    kept.keep_compiled(monkeypatch)


def _fill_ten_years(log: Log) -> None:
    """Ten years of three lifts, three days a week, written in one go; and a wave whose first session is due today."""
    today = this_day()
    member = people.add_member(log, "Old hand")
    lifts = [people.add_lift(log, name, "barbell", member_id=member.id) for name in ("squat", "bench", "deadlift")]
    sessions, sets = [], []
    for number, days_ago in enumerate(range(3652, 0, -7)):
        for place, lift in enumerate(lifts):
            day = today - timedelta(days=days_ago - 2 * place)
            session = new_id()
            sessions.append({"id": session, "member_id": member.id, "day": day, "label": "", "note": ""})
            load = Decimal(60 + 40 * place) + Decimal(number // 10) * Decimal("0.5")
            for position in range(8):
                sets.append(
                    {
                        "id": new_id(), "session_id": session, "lift_id": lift.id, "position": position, "kind": "work",
                        "load": load, "unit": "kg", "reps": 5, "rir": Decimal(2) if position % 2 else None,
                        "outcome": "done", "note": "", "origin": new_id(),
                    }
                )  # fmt: skip
    with log.engine.begin() as connection:
        connection.execute(insert(Session), sessions)
        connection.execute(insert(LiftedSet), sets)
    rep_maxes.add_rep_max(
        log, member.id, lifts[0].id, today - timedelta(days=20), 5, Mass(Decimal(90), "kg"), tested=True
    )
    with log.act("a wave", member.id) as act:
        planned = [NewPlannedSet(lifts[0].id, 3, 5, percent=Decimal(80), of_reps=5, rest_s=120)]
        wave = log_waves.add_wave(act, "Long road", [NewStep("Squat", 0, planned), NewStep("Squat again", 7, planned)])
        log_waves.start_wave(act, member.id, wave, today)


@pytest.fixture
def ten_years(fresh: Callable[..., str]) -> Iterator[Log]:
    """A copy of the log of ten years."""
    log = open_log(fresh("years", _fill_ten_years))
    yield log
    log.close()


def run(at: AppTest, page: str = "") -> AppTest:
    """Open a page by its name, and hold that it is this one and not the first that stood there instead."""
    path = str(tracker.asset_folder("pages") / f"{page}.py")
    if page:
        at.switch_page(path)
    asked = at._page_hash
    at.run()
    if page and not at.exception:
        at.switch_page(path)  # refuses a page that the navigation has not
        assert at._page_hash == asked == at._finished_page_script_hash, page
    return at


@pytest.fixture
def anna(log: Log) -> MemberRecord:
    """A member, and nothing else."""
    return people.add_member(log, "Anna")


@pytest.fixture
def noa(log: Log) -> MemberRecord:
    """A member with a place and two sets of squats, a week ago."""
    place = places.add_place(log, "Loft", "kg")
    member = people.go_to_place(log, people.add_member(log, "Noa").id, place.id)
    squat = people.add_lift(log, "back squat", "barbell")
    for _ in range(2):
        log_set.log_set(log, member.id, this_day() - timedelta(days=7), NewSet(squat.id, kg(60), 5), sure=True)
    return member


@pytest.fixture
def show(monkeypatch: pytest.MonkeyPatch) -> Open:
    """Open a page of the app over a log by its address, as `show(log, "trend", member_id, reps="3")`.

    With `after="today"` it is come to from that page, as by the navigation.
    """

    def opened(log: Log | str, page: str = "", member: str = "", *, after: str = "", **address: str) -> AppTest:
        monkeypatch.setenv("TIDEMARK_DATABASE", log if isinstance(log, str) else address_of(log))
        at = AppTest.from_file(str(ENTRY), default_timeout=120)
        if member:
            at.query_params[frame.MEMBER] = member
        if after or not page:
            run(at, after)
        for key, value in address.items():
            at.query_params[key] = value
        if page:
            run(at, page)
        assert not at.exception, at.exception
        return at

    return opened


def words(at: AppTest) -> str:
    """All that stands on the page as text, but for the style sheet."""
    kinds = ("title", "header", "subheader", "markdown", "caption", "error", "warning", "info", "success", "html")
    texts = [str(getattr(each, "value", "") or each.proto.body) for kind in kinds for each in at.get(kind)]
    texts += [card_words(each) for each in cards(at)]
    return "\n".join(unescape(text) for text in texts if not text.startswith("<style"))


def cards(at: AppTest) -> list[dict[str, Any]]:
    """List the values from which the card of the next set is drawn."""
    drawn = [json.loads(each.proto.json) for each in at.get("bidi_component")]
    return [each for each in drawn if "set" in each]


def card_words(drawn: dict[str, Any]) -> str:
    """All that the card of a set says."""
    said = drawn["set"]
    return "\n".join(
        (
            f"{said['which']}: {said['title']}",
            *(said[each] for each in ("asked", "made", "chance", "proposal", "part")),
            *(each[name] for each in said["cautions"] for name in ("line", "text", "advice")),
            *said["notes"],
            *said["last"],
        )
    )


def tap(at: AppTest, key: str) -> AppTest:
    """Touch a button by its key."""
    at.button(key=key).click().run()
    assert not at.exception
    return at


def opened(at: AppTest, box: str) -> AppTest:
    """Open a box whose content is drawn only then."""
    at.session_state[box] = True
    return at.run()


def field(at: AppTest, kind: str, ending: str, within: str):
    """Find a field by how its key begins and ends."""
    return next(each for each in at.get(kind) if each.key and each.key.startswith(within) and each.key.endswith(ending))
