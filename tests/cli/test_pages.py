"""`tidemark open` and `demo`: served on this machine only, on a free port, and the demo away from the user's log."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from contextlib import contextmanager
from pathlib import Path

import pytest

from tracker.cli.pages import free_port


@contextmanager
def taken_port():
    with socket.socket() as server:
        server.bind(("127.0.0.1", 0))
        server.listen()
        yield server.getsockname()[1]


@contextmanager
def serving(arguments, environment):
    """Start the program and wait until it answers; end it as Ctrl-C does."""
    command = [sys.executable, "-m", "tracker", *arguments, "--no-browser"]
    process = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=os.environ | environment
    )
    try:
        line = process.stdout.readline() if process.stdout else ""
        address = re.search(r"http://127\.0\.0\.1:\d+", line)
        assert address, line
        latest = time.monotonic() + 60
        while time.monotonic() < latest:
            try:
                with urllib.request.urlopen(f"{address[0]}/_stcore/health", timeout=5) as answer:
                    if answer.read() == b"ok":
                        break
            except OSError:
                time.sleep(0.2)
        else:
            pytest.fail(f"no answer from {address[0]}")
        yield line, address[0]
    finally:
        process.send_signal(signal.SIGINT)
        rest, _ = process.communicate(timeout=30)
    assert rest.strip() == "", rest  # no word of what the program is built on


def test_open_serves_the_log_on_the_port_that_was_asked_for(tmp_path):
    with taken_port() as port:
        pass
    log = tmp_path / "mine.db"
    with serving(["open", "--port", str(port), "--database", str(log)], {}) as (line, address):
        assert address.endswith(f":{port}")
        assert str(log) in line
        assert log.exists()


def test_demo_keeps_its_hands_off_the_users_log(tmp_path):
    mine = tmp_path / "mine.db"
    with taken_port() as port:
        pass
    with serving(["demo", "--port", str(port)], {"TIDEMARK_DATABASE": str(mine), "TMPDIR": str(tmp_path)}):
        assert [path.name for path in tmp_path.glob("tidemark-demo-*/demo.db")] == ["demo.db"]
    assert not mine.exists()
    assert list(tmp_path.glob("tidemark-demo-*")) == []


def test_a_free_port_is_found():
    port = free_port(None)
    assert 1 <= port <= 65535
    with taken_port() as taken:
        assert free_port(None) != taken


@pytest.mark.parametrize("command", ["open", "demo"])
def test_a_port_that_can_not_be(refused, command):
    for port in ("0", "65536", "-1", "web"):
        assert "--port" in refused(command, "--port", port)
    with taken_port() as port:
        assert f"Port {port} is taken" in refused(command, "--port", port)


@pytest.mark.sqlite("names a file that is no log")
def test_a_log_that_can_not_be_opened_is_told_before_anything_is_served(refused, tmp_path):
    other = Path(tmp_path / "notes.txt")
    other.write_text("recipes and notes\n" * 50)
    assert "not a Tidemark log" in refused("open", "--database", other, "--no-browser")


def test_the_demo_has_no_log_to_choose(refused):
    assert "--database" in refused("demo", "--database", "mine.db")
