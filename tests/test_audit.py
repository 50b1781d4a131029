"""The check of dependencies for known holes: fails where a service names one, and where none answers it is no pass."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest

HOUSE = Path(__file__).parents[1] / ".ci"
Answer = Callable[[list[dict[str, object]]], object]


@pytest.fixture
def house(tmp_path: Path) -> Path:
    shutil.copy(HOUSE / "audit", tmp_path)
    (tmp_path / "tested-versions.txt").write_text("# versions\nclick==8.1.0\nlark==1.3.1\n")
    return tmp_path


@pytest.fixture
def service() -> Iterator[Callable[[Answer], str]]:
    """A service of our own that answers as it is told, and says at which address."""
    servers = []

    def begin(answer: Answer) -> str:
        class Handler(BaseHTTPRequestHandler):
            def do_POST(self) -> None:
                asked = json.loads(self.rfile.read(int(self.headers["content-length"])))
                body = answer(asked["queries"])
                self.send_response(200)
                self.end_headers()
                self.wfile.write(body if isinstance(body, bytes) else json.dumps(body).encode())

            def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - its name in http.server
                """Say nothing."""

        server = HTTPServer(("127.0.0.1", 0), Handler)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        servers.append(server)
        return f"http://127.0.0.1:{server.server_port}/"

    yield begin
    for each in servers:
        each.shutdown()


def audit(house: Path, address: str) -> tuple[int, str]:
    command = [sys.executable, str(house / "audit")]
    done = subprocess.run(command, env={"TIDEMARK_AUDIT": address}, capture_output=True, text=True, check=False)
    return done.returncode, done.stdout + done.stderr


def test_no_known_holes(house, service):
    seen: list[dict[str, object]] = []

    def none(queries):
        seen.extend(queries)
        return {"results": [{} for _ in queries]}

    assert audit(house, service(none)) == (0, "audit: 2 packages checked, 0 known holes\n")
    assert seen == [
        {"package": {"name": "click", "ecosystem": "PyPI"}, "version": "8.1.0"},
        {"package": {"name": "lark", "ecosystem": "PyPI"}, "version": "1.3.1"},
    ]


def test_a_known_hole_fails_unless_it_is_accepted_with_a_reason(house, service):
    address = service(lambda _: {"results": [{}, {"vulns": [{"id": "HOLE-1"}]}]})
    status, said = audit(house, address)
    assert status == 1
    assert "lark 1.3.1: HOLE-1" in said
    (house / "known-holes.txt").write_text("# accepted\nHOLE-1 only in what we never call\n")
    status, said = audit(house, address)
    assert (status, "only in what we never call" in said) == (0, True)


@pytest.mark.parametrize("body", [b"<html>sign in</html>", {"results": []}, {"code": 3}, []])
def test_an_answer_that_is_none_is_said_and_is_no_pass(house, service, body):
    status, said = audit(house, service(lambda _: body))
    assert status == 3
    assert "NOT checked" in said


def test_no_service_at_all_is_said_and_is_no_pass(house):
    status, said = audit(house, "http://127.0.0.1:9/")
    assert status == 3
    assert "NOT checked" in said


def test_the_versions_in_the_house_are_read():
    text = (HOUSE / "tested-versions.txt").read_text()
    assert text.count("==") > 50
