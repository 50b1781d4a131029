"""How long a connection may take: for the head of a request, for its body, and to take what is sent to it.

Who sends half a request and waits would else hold a connection for ever. The head has to be there in some seconds. A body
may be large and a network slow, so it only has to go on: the longer it is, the more time it has. An answer that nobody
takes off the line ends too. Time that the server itself takes counts against nobody.
"""

from __future__ import annotations

import asyncio
from dataclasses import dataclass
from typing import Any

import h11
from uvicorn.protocols.http.h11_impl import H11Protocol

from tracker.door.crowd import SEAT, Crowd


@dataclass(frozen=True, slots=True)
class Patience:
    """Seconds, and bytes a second.

    Args:
        head: From the connection, or the first byte of a later request, to the end of its head.
        body: For a body, and as much more as its bytes take at the least speed.
        slowest: The least speed, in bytes a second: slower than any network in which the pages open at all.
        after: To send the rest of a body after the answer to it, which nobody reads any more.
        taking: Without anything of an answer being taken off the line.
    """

    head: float = 10
    body: float = 20
    slowest: float = 4_096
    after: float = 5
    taking: float = 60


class Patient(H11Protocol):
    """Uvicorn's connection, with deadlines and a place among all others."""

    def __init__(self, crowd: Crowd, patience: Patience, *args: Any, **named: Any) -> None:
        super().__init__(*args, **named)
        self.crowd, self.patience = crowd, patience
        self._deadline: asyncio.TimerHandle | None = None
        self._taking: asyncio.TimerHandle | None = None
        self._for = ""  # what the deadline is for: a head, a body, the rest of one, or nothing
        self._since, self._read = 0.0, 0

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        super().connection_made(transport)
        host, port, *_ = transport.get_extra_info("peername") or ("", 0)
        seat = self.crowd.seats.get((host, port))
        if seat is not None:
            seat.transport = transport
            self.app_state = {**self.app_state, SEAT: seat}
        self._wait_for("head", self.patience.head)

    def connection_lost(self, exc: Exception | None) -> None:
        self._stop()
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        super().data_received(data)
        if self.transport.get_protocol() is not self:  # a socket now: it has its own pings
            self._stop()
        elif self.conn.their_state is h11.IDLE:
            if self._for != "head":
                self._wait_for("head", self.patience.head)
        else:
            self._whole_or_body(len(data))

    def on_response_complete(self) -> None:
        super().on_response_complete()
        if self.conn.our_state is h11.DONE and self.conn.their_state is h11.SEND_BODY:
            self._wait_for("rest", self.patience.after)
        elif self.conn.their_state is not h11.IDLE:  # the next request lay there already, whole or in part
            self._whole_or_body(0)

    def send_400_response(self, msg: str) -> None:
        """Answer what is no request, and no more: whoever works on what came before it would answer into nothing."""
        cycle: Any = self.cycle
        if cycle is not None and not cycle.response_complete:
            cycle.disconnected = True
            cycle.message_event.set()
        if self.conn.our_state in (h11.IDLE, h11.SEND_RESPONSE):
            super().send_400_response(msg)
        else:  # an answer is on its way, or was given
            self.transport.close()

    def _whole_or_body(self, read: int) -> None:
        """Wait for the body of a request whose head is there, or for nothing."""
        if self.conn.their_state is not h11.SEND_BODY:
            self._wait_for("", 0)
            return
        if self._for not in ("body", "rest"):
            self._wait_for("body", self.patience.body)
        self._read += read

    def pause_writing(self) -> None:
        super().pause_writing()
        self._taking = self.loop.call_later(self.patience.taking, self.transport.abort)

    def resume_writing(self) -> None:
        super().resume_writing()
        if self._taking is not None:
            self._taking.cancel()

    def _wait_for(self, what: str, seconds: float) -> None:
        if self._deadline is not None:
            self._deadline.cancel()
            self._deadline = None
        self._for, self._since, self._read = what, self.loop.time(), 0
        if what:
            self._deadline = self.loop.call_later(seconds, self._late)

    def _late(self) -> None:
        """End the connection, unless a body goes on fast enough or waits for us."""
        if self._for == "body":
            due = self._since + self.patience.body + self._read / self.patience.slowest
            left = self.patience.body if self.flow.read_paused else due - self.loop.time()
            if left > 0:
                self._deadline = self.loop.call_later(left, self._late)
                return
        self.transport.abort()

    def _stop(self) -> None:
        self._wait_for("", 0)
        if self._taking is not None:
            self._taking.cancel()
