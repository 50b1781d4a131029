"""The real server, over real connections: a bare socket gets nothing, a removal holds in every process, TLS is TLS."""

from __future__ import annotations

import http.client
import socket
import ssl
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from websockets.exceptions import ConnectionClosed, InvalidStatus
from websockets.sync.client import ClientConnection, connect
from websockets.typing import Subprotocol

from tests.door.serving import Reached, make_certificate, nearby
from tracker.desk.base.opening import open_log
from tracker.door.sockets import REMOVED

pytestmark = pytest.mark.sqlite("pair phones with a file beside the log")

ROUTES = [
    "/", "/today", "/preferences?part=devices", "/_stcore/health", "/_stcore/host-config", "/_stcore/metrics", "/_stcore/stream",
    "/_stcore/script-health-check", "/static/js/index.js", "/media/x.csv", "/component/x/y", "/app/static/x",
    "/_stcore/bidi-components/x/y", "/auth/login", "/oauth2callback", "/favicon.png", "/index.html", "//_stcore/health",
]  # fmt: skip


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Reached]:
    database = tmp_path_factory.mktemp("nearby") / "log.db"
    open_log(str(database)).close()
    with nearby(database) as reached:
        yield reached


def stream(served: Reached, cookie: str = "", origin: str | None = "own") -> ClientConnection:
    """Open the pages' socket as a browser does."""
    url = f"{'wss' if served.tls else 'ws'}://{served.address}:{served.port}/_stcore/stream"
    return connect(
        url, origin=served.origin if origin == "own" else origin, subprotocols=[Subprotocol("streamlit")],  # type: ignore[arg-type]
        additional_headers={"Cookie": cookie} if cookie else {}, ssl=served.tls, open_timeout=30, proxy=None,
    )  # fmt: skip


def listen(open_socket: ClientConnection) -> None:
    """Take what comes until the other end closes."""
    while True:
        open_socket.recv(timeout=30)


@pytest.mark.parametrize("path", ROUTES)
def test_without_a_key_no_route_answers(served: Reached, path: str):
    for method in ("GET", "POST", "PUT", "DELETE"):
        status, headers, body = served.ask(method, path, Origin=served.origin)
        assert status == 401, method
        assert b"not paired" in body
        assert "access-control-allow-origin" not in headers


def test_a_bare_socket_is_refused_before_it_is_accepted(served: Reached):
    forged = f"{served.pairing.cookie}=0123456789abcdef.guess.guess"
    for cookie in ("", forged):
        for origin in ("own", None, "http://elsewhere.example"):
            with pytest.raises(InvalidStatus) as refused:
                stream(served, cookie, origin)
            assert refused.value.response.status_code == 403


@pytest.mark.parametrize(
    "sent",
    [
        b"GET / HTTP/1.0\r\n\r\n", b"\x16\x03\x01\x00\x05hello", b"GET /today HTTP/1.1\r\nHost: localhost\r\n\r\n",
        b"GET http://localhost/today HTTP/1.1\r\nHost: localhost\r\n\r\n", b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
        b"GET /today HTTP/1.1\r\nHost: localhost\r\nX-Forwarded-For: 127.0.0.1\r\nForwarded: for=127.0.0.1\r\n\r\n",
    ],
)  # fmt: skip
def test_raw_bytes_get_no_page(served: Reached, sent: bytes):
    with socket.create_connection((served.address, served.port), timeout=20) as raw:
        raw.sendall(sent)
        raw.shutdown(socket.SHUT_WR)
        answer = b""
        while part := raw.recv(65_536):
            answer += part
    status = answer.split(b" ", 2)[1:2]
    assert status in ([], [b"400"], [b"421"], [b"404"]), answer[:200]
    assert b"streamlit" not in answer.lower()


def test_a_paired_phone_speaks_until_it_is_removed_and_its_open_socket_ends(served: Reached):
    status, cookie = served.pair(served.pairing.new_code("phone").text)
    assert status == 303
    assert served.ask("GET", "/_stcore/health", cookie=cookie)[0] == 200
    assert b"<noscript>" in served.ask("GET", "/", cookie=cookie, Accept="text/html")[2]
    with stream(served, cookie) as open_socket:
        served.pairing.remove(served.pairing.devices()[0].id)
        with pytest.raises(ConnectionClosed) as closed:
            listen(open_socket)
    assert closed.value.rcvd is not None
    assert closed.value.rcvd.code == REMOVED
    assert served.ask("GET", "/_stcore/health", cookie=cookie)[0] == 401
    with pytest.raises(InvalidStatus):
        stream(served, cookie)


def test_the_browser_is_opened_with_the_laptops_link(served: Reached):
    latest = time.monotonic() + 30
    while not (served.opened.exists() and served.opened.read_text()):
        assert time.monotonic() < latest
        time.sleep(0.1)
    assert served.opened.read_text().strip() == served.link


def test_the_terminals_code_is_good_once(served: Reached):
    served.pairing.new_code("phone")  # the pages made another one meanwhile: the terminal's is good no more
    assert served.pair(served.code)[0] == 403
    assert "Not encrypted" in served.words


def test_a_second_server_on_the_same_log_knows_the_same_devices(served: Reached):
    with nearby(served.pairing.store.path.with_suffix("")) as second:
        _, cookie = served.pair(served.pairing.new_code("phone").text)
        assert second.ask("GET", "/_stcore/health", cookie=cookie)[0] == 200
        with stream(second, cookie) as open_socket:
            served.pairing.remove(served.pairing.devices()[0].id)
            with pytest.raises(ConnectionClosed) as closed:
                listen(open_socket)
        assert closed.value.rcvd is not None
        assert closed.value.rcvd.code == REMOVED
        assert {each.ask("GET", "/_stcore/health", cookie=cookie)[0] for each in (served, second)} == {401}


def test_with_a_certificate_everything_is_encrypted_and_a_key_from_before_is_refused(served: Reached, tmp_path: Path):
    database = served.pairing.store.path.with_suffix("")
    certificate, key = make_certificate(tmp_path)
    trusting = ssl.create_default_context(cafile=str(certificate))
    _, overheard = served.pair(served.pairing.new_code("phone").text)
    with nearby(database, "--certificate", str(certificate), "--key", str(key), tls=trusting) as secure:
        assert secure.link.startswith("https://127.0.0.1:")
        assert "Not encrypted" not in secure.words
        status, cookie = secure.pair(secure.code)
        assert status == 303
        assert cookie.startswith("__Host-")
        assert secure.ask("GET", "/_stcore/health", cookie=cookie)[0] == 200
        with stream(secure, cookie):
            pass
        as_if_new = overheard.replace(served.pairing.cookie, secure.pairing.cookie)
        assert secure.ask("GET", "/_stcore/health", cookie=as_if_new)[0] == 401
        with pytest.raises((http.client.HTTPException, OSError)):
            replace(secure, tls=None).ask("GET", "/pair")
