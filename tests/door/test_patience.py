"""Deadlines of a connection, on a real server of this process with little patience."""

from __future__ import annotations

import contextlib
import socket
import ssl
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from websockets.sync.client import connect

from tests.door.serving import make_certificate
from tracker.door import serving
from tracker.door.crowd import SEAT, Crowd
from tracker.door.patience import Patience, Patient

SHORT = Patience(head=0.6, body=0.6, slowest=1_000, after=0.4, taking=0.6)
LONGER_S = 2.5  # than any of them


async def app(scope: Any, receive: Any, send: Any) -> None:
    """Read a body and tell its length; send much; or echo through a socket."""
    if scope["type"] == "websocket":
        await receive()
        await send({"type": "websocket.accept"})
        while (message := await receive())["type"] == "websocket.receive":
            await send({"type": "websocket.send", "bytes": message["bytes"]})
        return
    if scope["type"] != "http":
        return
    assert SEAT in scope["state"]
    length, more = 0, scope["path"] != "/unread"
    while more:
        message = await receive()
        if message["type"] != "http.request":
            return
        length, more = length + len(message["body"]), message["more_body"]
    body = b"x" * (64_000_000 if scope["path"] == "/much" else 0) or b"%d" % length
    await send({"type": "http.response.start", "status": 200, "headers": [(b"content-length", b"%d" % len(body))]})
    await send({"type": "http.response.body", "body": body})


@contextmanager
def server(**more: Any) -> Iterator[tuple[int, Crowd]]:
    crowd = Crowd()
    door = serving.listening("127.0.0.1", 0, 100, crowd)
    made = uvicorn.Config(
        app, http=partial(Patient, crowd, SHORT), loop="tracker.door.serving:Loop", ws="websockets-sansio", lifespan="off",
        log_config=None, access_log=False, **more,
    )  # type: ignore[arg-type]  # fmt: skip
    running = uvicorn.Server(made)
    thread = threading.Thread(target=running.run, kwargs={"sockets": [door]})
    thread.start()
    try:
        yield door.getsockname()[1], crowd
    finally:
        running.should_exit = running.force_exit = True
        thread.join(timeout=30)
        door.close()


@pytest.fixture(scope="module")
def served() -> Iterator[tuple[int, Crowd]]:
    with server() as made:
        yield made


@contextmanager
def line(served: tuple[int, Crowd], sent: bytes = b"") -> Iterator[socket.socket]:
    with socket.create_connection(("127.0.0.1", served[0]), timeout=20) as made:
        made.sendall(sent)
        yield made


def answer(connection: socket.socket) -> bytes:
    """Return all that comes until the other end closes."""
    found = b""
    with contextlib.suppress(ConnectionResetError):
        while part := connection.recv(65_536):
            found += part
    return found


def one_answer(connection: socket.socket) -> bytes:
    """Return one answer with a body of one byte, of a connection that stays open."""
    found = b""
    while not found.partition(b"\r\n\r\n")[2]:
        part = connection.recv(1_000)
        assert part, found
        found += part
    return found


def drip(connection: socket.socket, piece: bytes, pause_s: float, most: int = 400) -> int:
    """Send pieces until the other end has gone; return how many went."""
    for at in range(most):
        try:
            connection.sendall(piece)
        except OSError:
            return at
        time.sleep(pause_s)
    return most


@pytest.mark.parametrize("sent", [b"", b"G", b"GET / HTTP/1.1\r\nHost: here\r\nX-Slow: "])
def test_a_head_that_does_not_come_is_waited_for_no_longer(served, sent):
    with line(served, sent) as half:
        assert answer(half) == b""


def test_a_head_that_comes_byte_by_byte_gets_no_more_time(served):
    with line(served, b"GET / HTTP/1.1\r\nHost: here\r\nX-Slow: ") as half:
        assert drip(half, b"x", 0.05) < 200


def test_a_second_request_on_the_same_connection_has_its_own_deadline(served):
    with line(served, b"GET / HTTP/1.1\r\nHost: here\r\n\r\n") as same:
        assert one_answer(same).endswith(b"0")
        same.sendall(b"GET / HT")
        assert answer(same) == b""


def test_a_body_that_stops_ends_its_connection_and_one_that_goes_on_is_read_to_its_end(served):
    head = b"PUT / HTTP/1.1\r\nHost: here\r\nContent-Length: %d\r\n\r\n"
    with line(served, head % 900 + b"ab") as stopped:
        assert answer(stopped) == b""
    with line(served, head % 6_000) as slow:  # two seconds and more, three times the patience for a body that stops
        for _ in range(30):
            slow.sendall(b"x" * 200)
            time.sleep(0.08)
        assert one_answer(slow).partition(b"\r\n\r\n")[2].startswith(b"6")


@pytest.mark.parametrize("second", [b"PUT / HTTP/1.1\r\nHost: here\r\nContent-Length: 90\r\n\r\nab", b"GET / HT"])
def test_half_a_request_right_behind_a_whole_one_is_waited_for_no_longer(served, second):
    with line(served, b"GET / HTTP/1.1\r\nHost: here\r\n\r\n" + second) as behind:
        assert answer(behind).startswith(b"HTTP/1.1 200")


def test_the_rest_of_a_body_that_was_answered_unread_is_not_waited_for(served):
    with line(served, b"PUT /unread HTTP/1.1\r\nHost: here\r\nContent-Length: 900000\r\n\r\n") as unread:
        assert one_answer(unread).endswith(b"0")
        assert drip(unread, b"x" * 100, 0.05) < 100


def test_an_answer_that_nobody_takes_ends(served):
    with line(served, b"GET /much HTTP/1.1\r\nHost: here\r\n\r\n") as deaf:
        deaf.recv(10)
        time.sleep(LONGER_S)
        assert len(answer(deaf)) < 60_000_000


def test_an_open_socket_is_no_request_and_stays(served):
    with connect(f"ws://127.0.0.1:{served[0]}/") as talk:
        time.sleep(LONGER_S)
        talk.send(b"still here")
        assert talk.recv() == b"still here"
        assert len(served[1].seats) >= 1


@pytest.mark.parametrize("path", [b"/", b"/unread", b"/much"])
@pytest.mark.parametrize("body", [b"zz\r\nabc", b"-1\r\n\r\n", b"5\r\nabc\r\nzz\r\n", b"5\r\nhelloXX5\r\n"])
@pytest.mark.parametrize("pause_s", [0, 0.2])
def test_a_broken_body_costs_the_log_of_the_server_a_line_at_most(served, caplog, path, body, pause_s):
    head = b"PUT " + path + b" HTTP/1.1\r\nHost: here\r\nTransfer-Encoding: chunked\r\n\r\n"
    with line(served, head if pause_s else head + body) as broken:
        if pause_s:
            time.sleep(pause_s)
            broken.sendall(body)
        told = answer(broken)
    assert told.startswith((b"HTTP/1.1 400", b"HTTP/1.1 200"))
    with line(served, b"GET / HTTP/1.1\r\nHost: here\r\n\r\n") as whole:
        assert one_answer(whole).endswith(b"0")
    said = [
        record.getMessage()
        for record in caplog.records
        if record.levelname != "DEBUG" and record.name != "uvicorn.access"
    ]
    assert said in ([], ["Invalid HTTP request received."])
    assert not any(record.exc_info for record in caplog.records)


def test_every_place_is_given_back(served):
    latest = time.monotonic() + 30
    while served[1].seats or served[1].strangers:
        assert time.monotonic() < latest, served[1].seats
        time.sleep(0.05)


def test_tls_that_is_never_agreed_on_ends_too(monkeypatch, tmp_path: Path):
    monkeypatch.setattr(serving, "PATIENCE", SHORT)
    certificate, key = make_certificate(tmp_path)
    with server(ssl_certfile=str(certificate), ssl_keyfile=str(key)) as made:
        with line(made, b"\x16\x03\x01") as half:
            assert answer(half) == b""
        trusting = ssl.create_default_context(cafile=str(certificate))
        with line(made) as plain, trusting.wrap_socket(plain, server_hostname="127.0.0.1") as whole:
            whole.sendall(b"GET / HTTP/1.1\r\nHost: here\r\n\r\n")
            assert one_answer(whole).startswith(b"HTTP/1.1 200")
