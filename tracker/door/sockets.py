"""An open socket of a paired device: it ends when the device is removed, whoever removed it."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, MutableMapping
from contextlib import suppress
from typing import Any

from tracker.door.pairing import Device, Pairing
from tracker.errors import TidemarkError

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]

LOOK_AGAIN_S = 0.5  # how long a quiet socket outlives its device; a message either way is looked at before it passes
LONGEST_GOODBYE_S = 2.0
REMOVED = 4401  # the code with which it is closed: in the range left to applications


class Watched:
    """One socket, looked at with every message and twice a second.

    Args:
        pairing: Who is paired.
        device: Whose socket it is.
        farewell: The last message to a device that was removed, as the pages' own script understands it.
    """

    def __init__(self, pairing: Pairing, device: Device, farewell: bytes = b"") -> None:
        self.pairing, self.device, self.farewell = pairing, device, farewell
        self.ended = asyncio.Event()
        self.accepted = False

    async def run(self, app: Callable[..., Awaitable[None]], scope: Message, receive: Receive, send: Send) -> None:
        """Let the app speak through the socket until either side or the removal ends it."""
        waiting: asyncio.Future[Message] | None = None

        async def receiving() -> Message:
            nonlocal waiting
            waiting = waiting or asyncio.ensure_future(receive())
            ended = asyncio.ensure_future(self.ended.wait())
            await asyncio.wait({waiting, ended}, return_when=asyncio.FIRST_COMPLETED)
            ended.cancel()
            if waiting.done() and waiting.result()["type"] == "websocket.disconnect":
                return waiting.result()
            if not self._may_stay():
                return {"type": "websocket.disconnect", "code": REMOVED}
            message, waiting = waiting.result(), None
            return message

        async def sending(message: Message) -> None:
            if self._may_stay():
                self.accepted = self.accepted or message["type"] == "websocket.accept"
                await send(message)

        watching = asyncio.ensure_future(self._watch(send))
        try:
            await app(scope, receiving, sending)
        finally:
            if self.ended.is_set():  # the browser is still to be told
                await asyncio.wait({watching}, timeout=LONGEST_GOODBYE_S)
            watching.cancel()
            if waiting is not None and not waiting.done():
                waiting.cancel()

    def _may_stay(self) -> bool:
        if not self.ended.is_set() and self._removed():
            self.ended.set()
        return not self.ended.is_set()

    def _removed(self) -> bool:
        """Whether the device was removed; who can't be told is taken for removed."""
        try:
            now = self.pairing.still(self.device.id)
        except TidemarkError:
            return True
        if now is not None:
            with suppress(TidemarkError):
                self.pairing.see(now)
        return now is None

    async def _watch(self, send: Send) -> None:
        while self._may_stay():
            with suppress(TimeoutError):
                await asyncio.wait_for(self.ended.wait(), LOOK_AGAIN_S)
        if self.accepted:
            with suppress(Exception):  # it may be gone by itself meanwhile
                if self.farewell:
                    await send({"type": "websocket.send", "bytes": self.farewell})
                await send({"type": "websocket.close", "code": REMOVED, "reason": "This device was removed."})
