"""What an open socket may send, on a real server of this process, with little patience."""

from __future__ import annotations

import asyncio
import contextlib
import socket
import struct
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from streamlit.runtime import app_session

from tracker.door import serving
from tracker.door.crowd import FILES_OF_A_PAGE, Crowd, come_in
from tracker.door.messages import OF_A_STRANGER, Heard
from tracker.door.patience import Patience, Patient

SHORT = Patience(head=0.6, body=0.6, slowest=1_000_000)
MOST = 500_000  # of a message by somebody who came in


async def app(scope: Any, receive: Any, send: Any) -> None:
    """Tell the length of each message; who asks for /known came through the gate."""
    if scope["path"] == "/known":
        come_in(scope)
    await receive()
    await send({"type": "websocket.accept"})
    while (message := await receive())["type"] == "websocket.receive":
        await send({"type": "websocket.send", "text": str(len(message["bytes"]))})


@pytest.fixture(scope="module")
def served() -> Iterator[tuple[int, Crowd]]:
    crowd = Crowd()
    door = serving.listening("127.0.0.1", 0, 100, crowd)
    made = uvicorn.Config(
        app, http=partial(Patient, crowd, SHORT), ws=partial(Heard, SHORT), loop="tracker.door.serving:Loop", lifespan="off",
        log_config=None, access_log=False, ws_max_size=MOST, ws_per_message_deflate=False,
    )  # type: ignore[arg-type]  # fmt: skip
    running = uvicorn.Server(made)
    thread = threading.Thread(target=running.run, kwargs={"sockets": [door]})
    thread.start()
    yield door.getsockname()[1], crowd
    running.should_exit = running.force_exit = True
    thread.join(timeout=30)
    door.close()


@contextmanager
def page(served: tuple[int, Crowd], path: str) -> Iterator[socket.socket]:
    """Open a socket by hand, to send what no library would."""
    with socket.create_connection(("127.0.0.1", served[0]), timeout=20) as made:
        made.sendall(
            f"GET {path} HTTP/1.1\r\nHost: x\r\nUpgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\n"
            "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n".encode()  # the key of RFC 6455, 1.3
        )
        head = b""
        while b"\r\n\r\n" not in head:
            head += made.recv(1)
        assert b" 101 " in head
        yield made


def frame(size: int, *, first: bool = True, last: bool = True) -> bytes:
    """Return a frame of bytes, masked with nothing (RFC 6455, 5.2)."""
    return bytes([0x80 * last + 2 * first, 0x80 | 127]) + struct.pack(">Q", size) + bytes(4) + b"x" * size


def told(made: socket.socket) -> str | int | None:
    """Return what was answered, the code with which it was closed, or None where it was broken off."""
    try:
        head = made.recv(2)
        text = made.recv(head[1]) if len(head) == 2 else b""
    except ConnectionResetError:
        return None
    return None if not head else struct.unpack(">H", text[:2])[0] if head[0] == 0x88 else text.decode()


def test_a_stranger_says_little_and_who_came_in_what_pages_say(served: tuple[int, Crowd]):
    with page(served, "/stranger") as made:
        made.sendall(frame(OF_A_STRANGER))
        assert told(made) == str(OF_A_STRANGER)
        made.sendall(frame(OF_A_STRANGER, last=False) + frame(1, first=False))
        assert told(made) == 1009  # too big: RFC 6455, 7.4.1
    with page(served, "/known") as made:
        for size in (MOST, OF_A_STRANGER + 1):
            made.sendall(frame(size))
            assert told(made) == str(size)


@pytest.mark.parametrize("sent", [frame(90_000, last=False), frame(90_000)[:-1], frame(9, last=False), frame(9)[:1]])
def test_half_a_message_ends_its_connection(served: tuple[int, Crowd], sent: bytes):
    with page(served, "/known") as made:
        made.sendall(frame(7))
        assert told(made) == "7"
        time.sleep(1)  # between messages there is no deadline
        made.sendall(frame(8) + sent)
        assert told(made) == "8"
        assert told(made) is None


def test_pings_among_the_pieces_and_bytes_that_drip_buy_no_time(served: tuple[int, Crowd]):
    with page(served, "/known") as made:
        made.sendall(frame(9, last=False))
        for _ in range(60):
            try:
                made.sendall(bytes([0x89, 0x80]) + bytes(4) + frame(1, first=False, last=False))
            except OSError:
                return
            time.sleep(0.1)
    pytest.fail("it is still open")


def test_a_page_counts_for_the_files_that_its_session_holds(served: tuple[int, Crowd]):
    source = Path(app_session.__file__).read_text(encoding="utf-8")
    assert "self._script_event_loop: asyncio.AbstractEventLoop = asyncio.new_event_loop()" in source
    files = Path("/proc/self/fd")
    if files.is_dir():
        before = len(list(files.iterdir()))
        with contextlib.closing(asyncio.SelectorEventLoop()):
            assert len(list(files.iterdir())) - before == FILES_OF_A_PAGE - 1
    latest = time.monotonic() + 20
    while served[1].files and time.monotonic() < latest:
        time.sleep(0.05)
    with page(served, "/known"):
        assert served[1].files == FILES_OF_A_PAGE
