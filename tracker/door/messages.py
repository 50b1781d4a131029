"""What an open socket may send, and what it costs.

A message is held in memory until its last byte is there, and pings keep a socket open that never says more: forty
strangers with 20 MB of an unfinished message each left a server 817 MB larger, for as long as they liked. So a stranger's
messages are short, and whoever begins one ends it in time. A page also costs more files than its connection.
"""

from __future__ import annotations

from typing import Any

from uvicorn.protocols.websockets.websockets_sansio_impl import WebSocketsSansIOProtocol

from tracker.door.crowd import FILES_OF_A_PAGE, SEAT, Seat
from tracker.door.patience import Patience

OF_A_STRANGER = 65_536  # bytes of a message: the page that shows the way in says a few hundred


class Heard(WebSocketsSansIOProtocol):
    """Uvicorn's socket, with a deadline for each message and a limit for strangers."""

    def __init__(self, patience: Patience, *args: Any, **named: Any) -> None:
        super().__init__(*args, **named)
        self.patience = patience
        self._seat: Seat | None = self.app_state.get(SEAT)
        self._largest = self.config.ws_max_size
        self._deadline: Any = None
        self._since, self._read = 0.0, 0

    def connection_made(self, transport: Any) -> None:
        super().connection_made(transport)
        if self._seat is not None and self._seat.crowd is not None:
            self._seat.crowd.widen(self._seat, FILES_OF_A_PAGE)

    def connection_lost(self, exc: Exception | None) -> None:
        self._stop()
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        is_short = self._seat is not None and self._seat.is_stranger()
        self.conn.max_message_size = min(OF_A_STRANGER, self._largest) if is_short else self._largest
        super().data_received(data)
        self._read += len(data)
        if not self._is_within():
            self._stop()
        elif self._deadline is None:
            self._since, self._read = self.loop.time(), len(data)
            self._deadline = self.loop.call_later(self.patience.body, self._late)

    def send_receive_event_to_app(self) -> None:
        super().send_receive_event_to_app()
        self._stop()  # a message is whole; what follows it has its own time

    def _is_within(self) -> bool:
        """Tell whether a message has begun that is not whole yet: its pieces, or a part of a frame."""
        return bool(self.frames) or len(self.conn.reader.buffer) > 0

    def _late(self) -> None:
        """End the connection, unless the message goes on fast enough or waits for us."""
        due = self._since + self.patience.body + self._read / self.patience.slowest
        left = self.patience.body if self.read_paused else due - self.loop.time()
        if left > 0:
            self._deadline = self.loop.call_later(left, self._late)
        else:
            self.transport.abort()

    def _stop(self) -> None:
        if self._deadline is not None:
            self._deadline.cancel()
            self._deadline = None
