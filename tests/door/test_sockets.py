"""An open socket ends when its device is removed: nothing passes any more, either way, and the browser is told."""

from __future__ import annotations

import asyncio
from typing import Any

import pytest

from tests.apart import apart
from tests.door.asgi import HOST, NEARBY, cookie, phone_key, scope
from tracker.door import sockets
from tracker.door.gate import Gate
from tracker.door.pairing import Pairing

FAREWELL = b"go"


class Page:
    """A page behind the gate: it answers every message with its echo, and says when it was left."""

    def __init__(self) -> None:
        self.heard: list[Any] = []
        self.left = asyncio.Event()

    async def __call__(self, _scope: Any, receive: Any, send: Any) -> None:
        await receive()
        await send({"type": "websocket.accept"})
        while (message := await receive())["type"] != "websocket.disconnect":
            self.heard.append(message["bytes"])
            await send({"type": "websocket.send", "bytes": b"echo " + message["bytes"]})
        await send({"type": "websocket.send", "bytes": b"too late"})
        self.left.set()


class Browser:
    """The other end of a socket."""

    def __init__(self, pairing: Pairing, key: str) -> None:
        self.page = Page()
        self.to_page: asyncio.Queue[Any] = asyncio.Queue()
        self.from_page: list[Any] = []
        self.came = asyncio.Event()
        gate = Gate(self.page, NEARBY, pairing, FAREWELL)
        ours = scope("websocket", "/_stcore/stream", origin=f"http://{HOST}", cookie=cookie(pairing, key))
        self.say({"type": "websocket.connect"})
        self.served = asyncio.ensure_future(gate(ours, self.to_page.get, self._send))

    async def _send(self, message: Any) -> None:
        self.from_page.append(message)
        self.came.set()

    def say(self, message: Any) -> None:
        self.to_page.put_nowait(message)

    async def hear(self) -> Any:
        while not self.from_page:
            self.came.clear()
            await asyncio.wait_for(self.came.wait(), 20)
        return self.from_page.pop(0)

    async def ask(self, text: bytes) -> Any:
        self.say({"type": "websocket.receive", "bytes": text})
        return (await self.hear()).get("bytes")


def run(play: Any) -> None:
    apart(asyncio.wait_for(play, 60))


def test_a_quiet_socket_is_closed_by_itself_when_its_device_is_removed_in_another_process(pairing, opened):
    async def play() -> None:
        browser = Browser(pairing, phone_key(pairing))
        assert (await browser.hear())["type"] == "websocket.accept"
        assert await browser.ask(b"one") == b"echo one"
        other = opened()
        other.remove(other.devices()[0].id)
        assert (await browser.hear()) == {"type": "websocket.send", "bytes": FAREWELL}
        closed = await browser.hear()
        assert (closed["type"], closed["code"]) == ("websocket.close", sockets.REMOVED)
        await browser.page.left.wait()
        await browser.served
        assert browser.from_page == []  # the page's last words did not pass

    run(play())


def test_a_message_after_the_removal_reaches_no_page(pairing, monkeypatch):
    monkeypatch.setattr(sockets, "LOOK_AGAIN_S", 3600)  # so that only the message itself can find it out

    async def play() -> None:
        browser = Browser(pairing, phone_key(pairing))
        await browser.hear()
        assert await browser.ask(b"one") == b"echo one"
        pairing.remove(pairing.devices()[0].id)
        browser.say({"type": "websocket.receive", "bytes": b"log a set"})
        assert (await browser.hear())["bytes"] == FAREWELL
        await browser.served
        assert browser.page.heard == [b"one"]

    run(play())


def test_a_socket_of_another_device_stays_open(pairing):
    async def play() -> None:
        stays = Browser(pairing, phone_key(pairing, "Stays"))
        goes = Browser(pairing, phone_key(pairing, "Goes"))
        await stays.hear()
        await goes.hear()
        (gone,) = [each for each in pairing.devices() if each.name == "Goes"]
        pairing.remove(gone.id)
        assert (await goes.hear())["bytes"] == FAREWELL
        assert await stays.ask(b"two") == b"echo two"
        stays.say({"type": "websocket.disconnect", "code": 1001})
        await asyncio.gather(stays.served, goes.served)
        assert [each["type"] for each in stays.from_page] == ["websocket.send"]  # no farewell to who went by themselves

    run(play())


def test_no_message_is_lost_while_the_gate_looks(pairing):
    async def play() -> None:
        browser = Browser(pairing, phone_key(pairing))
        await browser.hear()
        texts = [b"%d" % number for number in range(300)]
        for text in texts:
            browser.say({"type": "websocket.receive", "bytes": text})
        for text in texts:
            assert (await browser.hear())["bytes"] == b"echo " + text
        browser.say({"type": "websocket.disconnect", "code": 1001})
        await browser.served
        assert browser.page.heard == texts

    run(play())


def test_a_socket_ends_when_the_list_can_not_be_read(pairing, tmp_path):
    async def play() -> None:
        browser = Browser(pairing, phone_key(pairing))
        await browser.hear()
        (tmp_path / "log.db.devices").unlink()
        (tmp_path / "log.db.devices").write_text("notes " * 5000)
        assert (await browser.hear())["bytes"] == FAREWELL
        await browser.served

    run(play())


def test_a_key_that_lapses_ends_its_socket_and_one_in_use_does_not_lapse(pairing, clock):
    async def play() -> None:
        browser = Browser(pairing, phone_key(pairing))
        await browser.hear()
        for _ in range(3):
            clock.move(days=100)
            assert (await browser.ask(b"here")) == b"echo here"
        clock.move(days=200)
        assert (await browser.hear())["bytes"] == FAREWELL
        await browser.served

    run(play())


@pytest.fixture(autouse=True)
def _look_often(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sockets, "LOOK_AGAIN_S", 0.05)
