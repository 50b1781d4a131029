"""Nothing leaves the machine, and no member's words reach a terminal, a log file or the report of a fault."""

import ast
import logging
import re
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from sqlalchemy import text
from sqlalchemy.exc import IntegrityError

import tracker
from tests.undoing import undo_newest
from tracker import asset_folder
from tracker.app import SETTINGS, theme
from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.door.shield import policy
from tracker.log.engine import open_engine
from tracker.log.sets import NewSet
from tracker.units import Mass

NETWORK = {
    "aiohttp", "ftplib", "http", "httpx", "imaplib", "poplib", "requests", "smtplib", "socket", "socketserver", "ssl",
    "telnetlib", "urllib3", "websockets", "xmlrpc",
}  # fmt: skip
SOURCES = [
    *Path(tracker.__file__).parent.rglob("*.py"), *asset_folder("pages").glob("*.py"), *asset_folder("migrations").rglob("*.py"),
]  # fmt: skip
NAME, NOTE = "Quillon Vantreight", "knee hurt under the rack"


def imported(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (each.name for each in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield node.module


def test_no_statistics_are_sent_and_only_this_machine_is_served():
    assert SETTINGS["browser.gatherUsageStats"] is False
    assert SETTINGS["server.address"] == "127.0.0.1"
    assert SETTINGS["client.showErrorDetails"] == "none"
    assert SETTINGS["server.maxUploadSize"] <= 64
    assert not [value for value in theme().values() if "://" in str(value)]  # no font from elsewhere


def test_the_program_has_no_means_to_call_another_machine():
    assert len(SOURCES) > 100
    for path in SOURCES:
        names = set(imported(ast.parse(path.read_text(encoding="utf-8"))))
        found = {each for each in names if each.split(".")[0] in NETWORK or each == "urllib.request"}
        # The command that opens the pages asks whether its own port is free, and looks over the certificate it is given.
        allowed = {"socket", "ssl"} if path.parent.name == "cli" else set()
        # Where members sign in, the provider that the settings name is asked at the start whether it is one; the server's
        # own connections are counted, given deadlines and closed.
        own = {
            "provider.py": {"httpx"},
            "trust.py": {"http.server"},  # the page that a phone begins with: it answers, and calls nobody
            "serving.py": {"socket", "ssl"},
            "crowd.py": {"socket"},
            "messages.py": {"socket"},
        }
        assert found <= own.get(path.name, allowed), path


def test_no_address_of_another_machine_stands_in_code_or_style():
    for path in [*SOURCES, *Path(tracker.__file__).parent.rglob("*.css")]:
        for address in re.findall(r"https?://([^/\s\"'{}:)>]+)", path.read_text(encoding="utf-8")):
            # w3.org names SVG and json-schema.org the dialect of a schema; neither is fetched
            assert address in ("127.0.0.1", "localhost", "www.w3.org", "json-schema.org"), path


def test_no_words_of_a_member_reach_a_log_or_the_terminal(log, caplog, capfd):
    caplog.set_level(logging.INFO)
    for name in ("sqlalchemy.engine", "sqlalchemy.pool", "alembic"):
        logging.getLogger(name).setLevel(logging.INFO)
    member, lift = people.add_member(log, NAME), people.add_lift(log, "back squat", "barbell")
    row = log_set.log_set(
        log, member.id, date(2026, 3, 2), NewSet(lift.id, Mass(Decimal("77.125"), "kg"), 5, note=NOTE)
    )
    log_set.mend_set(log, row.id, NewSet(lift.id, Mass(Decimal("78.125"), "kg"), 5, note=NOTE), sure=True)
    undo_newest(log, member.id)
    told = capfd.readouterr()
    assert caplog.records  # else nothing was listened to
    for said in (caplog.text, told.out, told.err):
        assert not [word for word in (NAME, NOTE, "77.125") if word in said]
    for name in ("sqlalchemy.engine", "sqlalchemy.pool", "alembic"):
        logging.getLogger(name).setLevel(logging.NOTSET)


def test_the_report_of_a_fault_holds_no_words_of_a_member(log):
    people.add_member(log, NAME)
    engine = open_engine(log.url)
    with pytest.raises(IntegrityError) as fault, engine.begin() as connection:
        connection.execute(text("INSERT INTO members (id, name) VALUES (:id, :name)"), {"id": "1", "name": NAME})
    engine.dispose()
    assert NAME not in str(fault.value)


def test_the_policy_names_this_server_and_no_other():
    assert b"connect-src 'self' data: blob: ws://127.0.0.1:8501 wss://127.0.0.1:8501;" in policy(b"127.0.0.1:8501")
    assert b"evil" not in policy(b"x; script-src http://evil.example")


SIGNS = [
    "'; DROP TABLE sets; --",
    '" OR 1=1 --',
    "<script>alert(1)</script>",
    "%_%",
    "{{7*7}}",
    "\\",
    "Ана 🏋️ é",
]


@pytest.mark.parametrize("text", SIGNS)
def test_sql_and_script_are_texts_like_any_other(log, text):
    from tracker.desk.history import journal

    member, lift = people.add_member(log, text), people.add_lift(log, text, "barbell")
    row = log_set.log_set(log, member.id, date(2026, 3, 2), NewSet(lift.id, Mass(Decimal(80), "kg"), 5, note=text))
    assert people.member(log, member.id).name == text
    assert row.note == text
    (entry,) = journal.sessions(log, member.id, text=text)
    assert [each.id for each in entry.sets] == [row.id]
    assert journal.sessions(log, member.id, text="' OR 1=1 --" if text != "' OR 1=1 --" else "x") == ()
