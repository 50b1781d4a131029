"""Half-sent requests by the hundred: they end by themselves, and whoever may come in finds room meanwhile.

All of it within this machine: other loopback addresses stand for other machines.
"""

from __future__ import annotations

import contextlib
import http.client
import socket
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager

import pytest

from tests.door.serving import Reached, nearby
from tracker.desk.base.opening import open_log

pytestmark = pytest.mark.sqlite("pair phones with a file beside the log")

FILES = 256  # that the attacked server may open
HALF = b"GET /today HTTP/1.1\r\nHost: %b\r\nX-Slow: "


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Reached]:
    database = tmp_path_factory.mktemp("crowded") / "log.db"
    open_log(str(database)).close()
    with nearby(database, files=FILES) as reached:
        yield reached


def half_sent(served: Reached, source: str, sent: bytes = b"") -> socket.socket:
    """Open a connection from an address and send half a request."""
    made = socket.create_connection((served.address, served.port), timeout=20, source_address=(source, 0))
    made.sendall(sent or HALF % f"{served.address}:{served.port}".encode())
    return made


@contextmanager
def attacked(served: Reached, number: int, sources: list[str]) -> Iterator[list[socket.socket]]:
    """Hold so many half-sent requests, spread over addresses."""
    with ExitStack() as all_of_them:
        made = []
        for at in range(number):
            with contextlib.suppress(OSError):  # sent away before all was sent
                made.append(all_of_them.enter_context(half_sent(served, sources[at % len(sources)])))
        yield made


def is_open(connection: socket.socket) -> bool:
    connection.setblocking(False)
    try:
        return connection.recv(1) != b""
    except BlockingIOError:
        return True
    except OSError:
        return False


def until_closed(connections: list[socket.socket], seconds: float = 90) -> None:
    latest = time.monotonic() + seconds
    while any(is_open(each) for each in connections):
        assert time.monotonic() < latest, f"{sum(map(is_open, connections))} of {len(connections)} are still open"
        time.sleep(0.2)


@pytest.mark.parametrize("sources", [["127.0.0.9"], [f"127.0.0.{at}" for at in range(20, 60)]], ids=["one", "forty"])
def test_a_paired_phone_and_the_laptop_find_room_beside_hundreds_of_half_sent_requests(served, sources):
    _, cookie = served.pair(served.pairing.new_code("phone").text)
    with attacked(served, FILES + 150, sources) as held:
        assert served.ask("GET", "/_stcore/health", cookie=cookie)[0] == 200
        laptop = http.client.HTTPConnection("127.0.0.1", served.port, timeout=20)
        laptop.request("GET", "/_stcore/health")
        assert laptop.getresponse().status == 401  # it is answered: that it has no key is another matter
        laptop.close()
        assert served.pair(served.pairing.new_code("phone").text)[0] == 303  # and another phone comes in
        until_closed(held)


@pytest.mark.parametrize("request_line", [b"POST /pair", b"PUT /_stcore/upload_file/a/b"])
def test_a_body_that_comes_byte_by_byte_ends_its_connection_once_it_is_answered(served, request_line):
    own = f"{served.address}:{served.port}".encode()
    head = b"%b HTTP/1.1\r\nHost: %b\r\nOrigin: http://%b\r\nContent-Length: 900\r\n\r\ncode="
    with half_sent(served, "127.0.0.9", head % (request_line, own, own)) as slow:
        for _ in range(120):  # of 900 bytes
            try:
                slow.sendall(b"x")
            except OSError:
                break
            time.sleep(0.5)
        else:
            pytest.fail("it is still open")
