"""`tidemark open --nearby`: what is refused before anything listens, and what the terminal says."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from tests.door.serving import make_certificate
from tracker.cli import nearby as phones
from tracker.desk.people.devices import devices_file, paired, pairing
from tracker.door.gate import Nearby
from tracker.errors import BadInputError
from tracker.log.engine import database_url

pytestmark = pytest.mark.sqlite("pair phones with a file beside the log")


@pytest.mark.parametrize("address", ["0.0.0.0", "::", "192.168.1.5", "elsewhere.example"])
def test_another_address_without_pairing_is_refused(refused, address, tmp_path):
    said = refused("open", "--address", address, "--database", tmp_path / "log.db", "--no-browser")
    assert f"not on {address}" in said
    assert "--nearby" in said
    assert not (tmp_path / "log.db").exists()


@pytest.mark.parametrize("how", ["variable", "file"])
def test_another_address_by_a_setting_of_streamlit_is_refused(tmp_path, how):
    settings = tmp_path / ".streamlit" / "config.toml"
    settings.parent.mkdir()
    settings.write_text('[server]\naddress = "0.0.0.0"\n' if how == "file" else "")
    given = {"STREAMLIT_SERVER_ADDRESS": "0.0.0.0"} if how == "variable" else {}
    command = [sys.executable, "-m", "tracker", "open", "--database", str(tmp_path / "log.db"), "--no-browser"]
    answer = subprocess.run(
        command, env=os.environ | given, cwd=tmp_path, capture_output=True, text=True, timeout=120, check=False
    )
    assert (answer.returncode, answer.stdout) == (2, "")
    assert "not on 0.0.0.0" in answer.stderr
    assert "--nearby" in answer.stderr


def test_another_address_by_a_setting_of_ours_is_refused():
    from tracker.app import run

    with pytest.raises(BadInputError, match="this machine only"):
        run(port=1, browser=False, config={"server.address": "0.0.0.0"})


@pytest.mark.parametrize("option", ["--certificate", "--key", "--name"])
def test_what_is_for_phones_wants_nearby(refused, option, tmp_path):
    assert option in refused("open", option, "x", "--database", tmp_path / "log.db")


def test_an_address_that_this_machine_has_not_is_refused_with_those_that_it_has(refused, tmp_path):
    for address in ("0.0.0.0", "203.0.113.77", "127.0.0.1"):
        said = refused("open", "--nearby", "--address", address, "--database", tmp_path / "log.db", "--no-browser")
        assert "--address" in said
    assert not devices_file(database_url(str(tmp_path / "log.db"))).exists()


def test_a_log_on_a_server_is_no_laptops():
    with pytest.raises(BadInputError, match="sign in"):
        pairing(database_url("postgresql+psycopg://user@host/name"))


def asked(**given):
    return phones.Asked(**{"nearby": True, "address": None, "name": None, "certificate": None, "key": None, **given})


def test_a_certificate_is_looked_over_before_anything_is_served(tmp_path):
    certificate, key = make_certificate(tmp_path)
    phones.look_over(asked(certificate=certificate, key=key, name="laptop.home.arpa"))
    both = tmp_path / "both.pem"
    both.write_bytes(certificate.read_bytes() + key.read_bytes())
    phones.look_over(asked(certificate=both))
    assert phones.settings(asked(certificate=both))["server.sslKeyFile"] == str(both)
    (tmp_path / "other").mkdir()
    other, _ = make_certificate(tmp_path / "other")
    text = tmp_path / "notes.txt"
    text.write_text("recipes and notes")
    wrong = [
        ({"certificate": certificate}, "no certificate with its key"),
        ({"certificate": other, "key": key}, "not a certificate and its key"),
        ({"certificate": text, "key": text}, "not a certificate and its key"),
        ({"certificate": tmp_path / "none.pem"}, "no such file"),
        ({"certificate": certificate, "key": tmp_path}, "no such file"),
        ({"key": key}, "no certificate"),
        ({"certificate": certificate, "key": key, "name": "a b"}, "no name of a machine"),
        ({"certificate": certificate, "key": key, "name": "evil/../x"}, "no name of a machine"),
    ]
    for given, what in wrong:
        with pytest.raises(BadInputError, match=what):
            phones.look_over(asked(**given))


def test_a_key_with_a_password_is_told_and_nothing_waits_for_one(tmp_path):
    certificate, key = make_certificate(tmp_path, password=b"secret")
    with pytest.raises(BadInputError, match="wants a password"):
        phones.look_over(asked(certificate=certificate, key=key))


def test_the_terminal_says_how_laptop_and_phone_come_in(tmp_path, capsys):
    keys = pairing(database_url(str(tmp_path / "log.db")))
    link = phones.announce(Nearby("192.168.1.5", 8501), keys, "my log")
    said = capsys.readouterr().out
    assert link.startswith("http://127.0.0.1:8501/laptop?key=")
    assert link in said
    assert "http://192.168.1.5:8501/pair?code=" in said
    assert "Not encrypted" in said
    phones.announce(Nearby("192.168.1.5", 8501, "laptop.home.arpa", encrypted=True), keys, "my log")
    said = capsys.readouterr().out
    assert "https://laptop.home.arpa:8501/pair?code=" in said
    assert "Not encrypted" not in said


def test_the_picture_in_the_terminal_is_white_on_black_whatever_its_colours(tmp_path, capsys, monkeypatch):
    keys = pairing(database_url(str(tmp_path / "log.db")))
    monkeypatch.setattr("sys.stdout.isatty", lambda: True)
    phones.announce(Nearby("192.168.1.5", 8501), keys, "my log")
    lines = [line for line in capsys.readouterr().out.splitlines() if "█" in line]
    assert len(lines) > 10
    assert all(line.startswith("\x1b[97;40m") and line.endswith("\x1b[0m") for line in lines)


def test_listing_devices_makes_no_file(log):
    assert paired(log) == ()
    assert not devices_file(log.url).exists()
