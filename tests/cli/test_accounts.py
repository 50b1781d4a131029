"""Who signs in, from the server's own command line; and the settings of sign-in, which say what is wrong and no secret."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.stores import address_of
from tracker.desk.people import accounts, people
from tracker.door import sign_in
from tracker.errors import BadInputError

SECRET, COOKIE = "hush-hush-hush", "c0ffee" * 8
GOOD = {
    "provider": "https://id.example/.well-known/openid-configuration", "client_id": "tidemark", "client_secret": SECRET,
    "cookie_secret": COOKIE, "address": "https://log.example/",
}  # fmt: skip


@pytest.fixture
def settings(tmp_path, monkeypatch):
    def write(**changes):
        values = {key: value for key, value in {**GOOD, **changes}.items() if value is not None}
        path = tmp_path / "sign_in.toml"
        path.write_text("".join(f"{key} = {json.dumps(value)}\n" for key, value in values.items()))
        path.chmod(0o600)
        monkeypatch.setenv(sign_in.VARIABLE, str(path))
        return path

    return write


def test_the_first_owner_comes_in_by_an_invitation_of_the_shell(log, tidemark):
    people.add_member(log, "Ana")
    database = ("--database", address_of(log))
    made = json.loads(tidemark("account", "--invite", "owner", "--member", "Ana", "--json", *database).out)
    assert len(made["code"]) == 19
    (waiting,) = json.loads(tidemark("account", "--json", *database).out)
    assert (waiting["role"], waiting["member"], waiting["issuer"]) == ("owner", "Ana", None)
    assert made["code"] not in json.dumps(waiting)
    assert "Ana" in tidemark("account", *database).out
    assert "invited" in tidemark("account", *database).out
    entered = tidemark("account", "--enter", "coach", "--identity", "https://id.example", "77", "--json", *database)
    found = {each["role"]: each for each in json.loads(entered.out)}
    assert found["coach"]["subject"] == "77"
    tidemark("account", "--remove", found["owner"]["id"], *database)
    assert [each.role for each in accounts.accounts(log)] == ["coach"]


def test_the_command_makes_the_member_whose_log_it_is_to_be(log, tidemark):
    """`--member NAME` wanted a member whom no command made."""
    database = ("--database", address_of(log))
    identity = ("--identity", "https://id.example", "77")
    entered = tidemark("account", "--enter", "member", *identity, "--member", "Ana  Weir", "--json", *database)
    assert [(each["role"], each["member"]) for each in json.loads(entered.out)] == [("member", "Ana Weir")]
    assert "Ana Weir is new in this log" in entered.err
    invited = tidemark("account", "--invite", "coach", "--member", "ana weir", *database)
    assert "new in this log" not in invited.err
    assert [each.name for each in people.members(log)] == ["Ana Weir"]
    again = tidemark("account", "--enter", "member", *identity, "--member", "Bo", *database)
    assert (again.status, "has an account" in again.err) == (2, True)
    assert [each.name for each in people.members(log)] == ["Ana Weir"]  # nothing is half done
    assert tidemark("account", "--enter", "member", "--identity", "a", "b", "--member", " ", *database).status == 2


def test_what_does_not_go_together_is_refused(log, tidemark):
    database = ("--database", address_of(log))
    assert tidemark("account", "--invite", "member", *database).status == 2
    assert tidemark("account", "--enter", "coach", *database).status == 2
    assert tidemark("account", "--invite", "owner", "--remove", "x", *database).status == 2
    assert accounts.accounts(log) == ()


def test_settings_are_read(settings):
    settings(days=7, name="the Quay")
    found = sign_in.settings()
    assert (found.address, found.host, found.days, found.name) == ("https://log.example", "log.example", 7, "the Quay")
    assert found.secrets()["auth"]["redirect_uri"] == "https://log.example/oauth2callback"
    assert SECRET not in repr(found)
    assert COOKIE not in repr(found)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"client_secret": None}, "client_secret is missing"),
        ({"cookie_secret": "short-" + "x" * 10}, "cookie_secret is shorter"),
        ({"provider": "http://id.example/x"}, "provider is not encrypted"),
        ({"provider": "id.example"}, "provider is no address"),
        ({"address": "http://log.example"}, "address is not encrypted"),
        ({"address": "https://log.example/app"}, "address has more"),
        ({"address": f"https://{SECRET}@log.example"}, "address is no address"),
        ({"client_id": 7}, "client_id is not text"),
        ({"days": 31}, "days can't be that"),
        ({"days": "7"}, "days is not a whole number"),
        ({"pasword": SECRET}, "pasword is not known"),
    ],
)
def test_settings_that_can_t_be_are_told_without_a_secret(settings, changes, said):
    settings(**changes)
    with pytest.raises(BadInputError, match=said) as told:
        sign_in.settings()
    assert SECRET not in str(told.value)
    assert "short-" not in str(told.value)


def test_a_file_that_all_may_read_or_that_is_no_toml_is_refused(settings):
    path = settings()
    for mode in (0o644, 0o640, 0o604, 0o660):
        path.chmod(mode)
        with pytest.raises(BadInputError, match=f"Run: chmod 600 {path}"):
            sign_in.settings()
    assert "`chmod 600`" in (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    path.chmod(0o600)
    path.write_text(f"client_secret = {SECRET}\n")
    with pytest.raises(BadInputError, match="no TOML") as told:
        sign_in.settings()
    assert SECRET not in str(told.value)
    assert told.value.__cause__ is None
    path.unlink()
    with pytest.raises(BadInputError, match="can't be read"):
        sign_in.settings()


@pytest.fixture
def started(monkeypatch):
    """What the server would be started with."""
    from tracker import app

    told = {}
    monkeypatch.setattr(app, "run", lambda database, **named: told.update(named, database=database))
    return told


def test_with_sign_in_other_machines_are_served_and_phones_are_not_paired(
    log, tidemark, settings, started, monkeypatch
):
    path = settings()
    monkeypatch.delenv(sign_in.VARIABLE)
    database = ("--database", address_of(log))
    refused = tidemark("open", "--address", "0.0.0.0", "--no-browser", *database)
    assert (refused.status, started) == (2, {})
    both = tidemark("open", "--sign-in", str(path), "--nearby", *database)
    assert (both.status, started) == (2, {})
    answer = tidemark("open", "--sign-in", str(path), "--address", "0.0.0.0", "--port", "9441", *database)
    assert (answer.status, started["config"]["server.address"]) == (0, "0.0.0.0")
    assert "https://log.example" in answer.out
    assert SECRET not in answer.out + answer.err
