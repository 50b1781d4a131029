"""Every page as every role, over a gym whose members sign in: none has a fault, and none shows what is not the reader's."""

from __future__ import annotations

import time
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest
import streamlit as st
from streamlit.testing.v1 import AppTest

from tests.desk.gym_world import NAMES, SHARING
from tests.pages.conftest import ENTRY, run, words
from tests.readings import newest
from tests.stores import address_of
from tracker import app
from tracker.components.frame import frame
from tracker.components.people import account_list
from tracker.desk.history import journal
from tracker.desk.people import accounts, people, places
from tracker.desk.people.accounts import Invitation
from tracker.door import sign_in
from tracker.log.who import HERE, acting, ask_with

DOOR = "https://door.example"
SETTINGS = (
    'provider = "https://door.example/.well-known/openid-configuration"\nclient_id = "tidemark"\nclient_secret = "s"\n'
    'cookie_secret = "0123456789abcdef0123456789abcdef"\naddress = "https://log.example"\n'
)
PAGES = [name for name, _ in app.PAGES]
OF_COACH, OF_OWNER = {"coach"}, {"accounts", "roster"}
READERS = {"Ana": "member", "Dag": "coach", "Fay": "owner"}


@pytest.fixture
def gym(log, gym_world, tmp_path, monkeypatch):
    """The gym, with its member, coach and owner, and the settings of its sign-in."""
    gym_world.into(log)
    for each in accounts.accounts(log):
        if each.name in READERS:
            accounts.change_account(log, each.id, READERS[each.name], each.member_id)
    settings = tmp_path / "sign_in.toml"
    settings.write_text(SETTINGS)
    settings.chmod(0o600)
    monkeypatch.setenv(sign_in.VARIABLE, str(settings))
    monkeypatch.setenv("TIDEMARK_DATABASE", address_of(log))
    yield log, gym_world
    ask_with(None)


def opened(who: str, page: str = "", **address: str) -> AppTest:
    at = AppTest.from_file(str(ENTRY), default_timeout=60)
    if who:
        at.user = {"is_logged_in": True, "iss": DOOR, "sub": f"subject-{who}", "iat": time.time()}
    for key, value in address.items():
        at.query_params[key] = value
    return run(at, page)


def test_every_page_as_every_role(gym):
    _log, _world = gym
    seen = {"Ana": {"Ana"}, "Dag": {"Dag", "Bea", "Eve"}, "Fay": {"Fay", "Bea", "Eve"}}
    for who, role in READERS.items():
        for page in PAGES:
            if (page in OF_COACH and role == "member") or (page in OF_OWNER and role != "owner"):
                continue
            at = opened(who, page)
            assert not at.exception, (who, page, at.exception)
            said = words(at)
            assert "has a fault" not in said, (who, page)
            assert not [error.value for error in at.error], (who, page)
            if page not in OF_OWNER:  # where the owner says who signs in, all have their names
                text = said + " ".join(str(each.options) for each in (*at.selectbox, *at.multiselect, *at.radio))
                hidden = [name for name in NAMES if name not in seen[who]]
                assert not [name for name in hidden if name in text.replace(f"Hall {name}", "").split()], (who, page)


@pytest.mark.parametrize("who", ["", "Nobody"])
def test_without_an_account_there_is_one_page_whatever_is_asked_for(gym, who):
    _log, world = gym
    at = opened(who, member=world.of["Bea"].id)
    said = words(at)
    assert at.title[0].value == ("Not known here yet" if who else "Sign in")
    assert not [name for name in NAMES if name in said]


def test_a_member_s_id_in_the_address_opens_nothing_of_theirs(gym):
    _log, world = gym
    at = opened("Ana", member=world.of["Bea"].id)
    assert "not yours to see" in at.error[0].value
    assert at.session_state[frame.HERE].member.name == "Ana"


def test_a_coach_s_touch_on_a_shared_log_is_refused_and_said(gym):
    log, world = gym
    at = opened("Dag", member=world.of["Bea"].id)
    assert at.session_state[frame.HERE].member.name == "Bea"
    assert "Only they change it" in "".join(each.value for each in at.caption)
    before = newest(log)
    next(each for each in at.button if each.label.startswith("Done")).click().run()
    assert "This is another member's log" in words(at)
    assert newest(log) == before


def test_the_switch_to_share_is_the_member_s(gym):
    _log, world = gym
    at = opened("Ana", "preferences")
    at.toggle(key=f"share_{world.of['Ana'].id}").set_value(True).run()
    assert opened("Dag", member=world.of["Ana"].id).session_state[frame.HERE].member.name == "Ana"


def test_an_owner_without_a_log_invites_and_the_code_is_shown_once(gym):
    log, world = gym
    accounts.enter(log, DOOR, "subject-desk", "owner")
    for name in SHARING:
        accounts.share(log, world.of[name].id, shared=False)
    at = opened("desk", "accounts")
    at.text_input(key="invite_name").set_value("Gil")
    next(each for each in at.button if each.label == "Make an invitation").click().run()
    code = at.code[0].value
    assert len(code) == 19
    assert "Gil: member, invited" in "".join(each.label for each in at.expander)
    at.run()
    assert not at.code


@pytest.mark.parametrize("zone", ["Pacific/Kiritimati", "Pacific/Pago_Pago"])  # farthest ahead of UTC, and behind
def test_an_invitation_ends_by_the_clock_of_who_reads_it(gym, monkeypatch, zone):
    log, _world = gym
    monkeypatch.setattr(type(st.context), "timezone", zone)
    accounts.invite(log, "member", None, new_member="Gil")
    (until,) = [row.until for row in accounts.accounts(log) if row.until]
    at = opened("Fay", "accounts")
    assert f"invited until {until.astimezone(ZoneInfo(zone)):%Y-%m-%d}" in "".join(each.label for each in at.expander)
    late = datetime(2026, 3, 2, 10, 30, tzinfo=UTC)  # the third of March in the one, the first in the other
    at.session_state[account_list.SHOWN_ONCE] = Invitation("code", late)
    at.run()
    assert f"Until {late.astimezone(ZoneInfo(zone)):%Y-%m-%d %H:%M}." in [each.value for each in at.caption]


@pytest.fixture(params=["owner", "coach"])
def without_log(gym, request):
    """An owner or a coach who keeps no log, and to whom nobody shows theirs."""
    log, world = gym
    accounts.enter(log, DOOR, "subject-desk", request.param)
    for name in SHARING:
        accounts.share(log, world.of[name].id, shared=False)
    return log, request.param


def test_every_page_of_whoever_keeps_no_log_works_or_says_what_to_do(without_log):
    """Every page but Accounts showed one sentence."""
    _, role = without_log
    for page in PAGES:
        if page in OF_OWNER and role != "owner":
            continue
        at = opened("desk", page)
        said = words(at)
        assert not at.exception, (page, at.exception)
        assert not [error.value for error in at.error], page
        if page in ("coach", "sheet", "kit", "files", "accounts", "roster", "conditioning", "preferences"):
            assert at.title, page
            assert "one member's log" not in said, page
        else:
            assert "This page is about one member's log, and you keep none" in said, page
            assert ("Accounts" in said) == (role == "owner"), page
            assert ("ask the owner" in said) == (role == "coach"), page


def test_whoever_keeps_no_log_keeps_kit_pieces_and_lifts_of_the_gym(without_log):
    log, _ = without_log
    place = places.add_place(log, "Weir hall", "kg")
    at = opened("desk", "kit")
    at.pills(key="kit_place").set_value(place.id).run()
    at.pills(key=f"kit_{place.id}_disc").set_value("new").run()
    at.text_input(key="kit_add_disc_masses").set_value("7.5")
    tap(at, "Add")
    at = opened("desk", "conditioning")
    at.session_state["piece_new"] = True  # its box is opened
    at.run()
    at.text_area(key="piece_typed").set_value("Mill wheel\n3 rounds for time\n5 burpee")
    tap(at, "Add the piece")
    assert "Mill wheel" in words(at)
    at = opened("desk", "preferences")
    at.text_input(key="add_lift_name").set_value("Log carry")
    tap(at, "Add the lift")
    with acting(HERE):
        found = next(each for each in places.places(log) if each.id == place.id)
        assert "7.5 kg" in {str(each.mass) for each in found.items}
        assert "log carry" in {each.name for each in people.lifts(log)}


def test_an_owner_without_a_log_has_every_part_of_files_and_deletes_whom_they_choose(gym):
    log, world = gym
    accounts.enter(log, DOOR, "subject-desk", "owner")
    for name in SHARING:
        accounts.share(log, world.of[name].id, shared=False)
    for part in ("import", "export", "backup", "check"):
        at = opened("desk", "files", part=part)
        assert not at.exception, part
        assert not at.error, part
    at = opened("desk", "files", part="import")
    text = "member,date,lift,load,unit,reps\nBea,2026-03-02,mill carry,40,kg,5\n"
    at.file_uploader(key="bring_file").upload("sets.csv", text.encode()).run()
    tap(at, "Import 1 row")
    at = opened("desk", "files", part="delete")
    with acting(HERE):
        bea = world.of["Bea"].id
        assert "mill carry" in {each.lift.name for row in journal.sessions(log, bea) for each in row.sets}
    at.selectbox(key="farewell_whom").set_value(world.of["Bea"].id).run()
    at.text_input(key=f"farewell_{world.of['Bea'].id}_name").set_value("Bea")
    tap(at, "Delete for good")
    with acting(HERE):
        assert "Bea" not in {each.name for each in people.members(log)}


def test_an_owner_gives_themselves_a_log(gym):
    log, world = gym
    accounts.enter(log, DOOR, "subject-desk", "owner")
    for name in SHARING:
        accounts.share(log, world.of[name].id, shared=False)
    row = next(each for each in accounts.accounts(log) if each.subject == "subject-desk")
    at = opened("desk", "accounts")
    at.text_input(key=f"account_name_{row.id}").set_value("Gil")
    tap(at, "Save", form=f"account_form_{row.id}")
    with acting(HERE):
        assert next(each for each in accounts.accounts(log) if each.id == row.id).name == "Gil"
    assert opened("desk").session_state[frame.HERE].member.name == "Gil"


def tap(at: AppTest, label: str, form: str = "") -> None:
    next(each for each in at.button if each.label == label and form in each.proto.form_id).click().run()
    assert not at.exception, label
