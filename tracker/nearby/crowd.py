"""Who is connected, counted from the first packet on, so that strangers never take the place of those who may come in.

A connection costs an open file, and a process has so many. Whoever opens connections and sends half a request holds them
without ever coming to the gate. So connections are counted where they are accepted: of one address only so many may be
strangers, and where all places are taken the stranger who has waited longest makes room, one of the address with most of
them first. Whoever came through the gate is no stranger any more and is never sent away for somebody else.
"""

from __future__ import annotations

import contextlib
import errno
import socket
from collections.abc import MutableMapping
from typing import Any, Protocol

from tracker.nearby.addresses import is_foreign_loopback, is_loopback

OF_ONE_ADDRESS = 64  # strangers; a browser opens some seven connections before its first answer
MOST = 4_096  # connections of one process, however many files it may open
KEPT_FILES = 128  # for the log, its connections and copies, and the pages' own files
SEAT = "tidemark_seat"  # of the connection, in the state of a request


class Ends(Protocol):
    """What can end a connection at once: an asyncio transport."""

    def abort(self) -> None: ...


class Crowd:
    """All connections of a server.

    Args:
        room: How many there may be at once.
        of_one_address: How many strangers of one other machine.
    """

    def __init__(self, room: int = MOST, of_one_address: int = OF_ONE_ADDRESS) -> None:
        self.room, self.of_one_address = room, of_one_address
        self.seats: dict[tuple[str, int], Seat] = {}
        self.strangers: dict[str, dict[Seat, None]] = {}  # by address, the longest there first
        self.refused = 0

    def enter(self, seat: Seat) -> bool:
        """Take in a new connection, at the cost of a stranger where need be; False where there is no room at all."""
        here = self.strangers.get(seat.host, {})
        if not seat.here and len(here) >= self.of_one_address:
            self._send_away(next(iter(here)))
        elif len(self.seats) >= self.room and not self._make_room():
            self.refused += 1
            return False
        self.seats[seat.peer] = seat
        self.strangers.setdefault(seat.host, {})[seat] = None
        return True

    def is_emptying(self) -> bool:
        """Tell whether some who were sent away have not left yet, and nobody can come in before."""
        return len(self.seats) > self.room

    def know(self, seat: Seat) -> None:
        """Count a connection among strangers no more."""
        if seat in (of_host := self.strangers.get(seat.host, {})):
            del of_host[seat]
            if not of_host:
                del self.strangers[seat.host]

    def leave(self, seat: Seat) -> None:
        """Forget a connection that is closed."""
        self.know(seat)
        if self.seats.get(seat.peer) is seat:
            del self.seats[seat.peer]

    def _make_room(self) -> bool:
        """Send a stranger away: of another machine before one of this, and of whoever has most."""
        if not self.strangers:
            return False
        host = max(self.strangers, key=lambda host: (not _is_here(host), len(self.strangers[host])))
        self._send_away(next(iter(self.strangers[host])))
        return True

    def _send_away(self, seat: Seat) -> None:
        self.know(seat)
        self.refused += 1
        seat.end()


class Seat(socket.socket):
    """The socket of one connection, which gives its place back when it is closed."""

    crowd: Crowd | None = None
    peer: tuple[str, int] = ("", 0)
    host: str = ""
    here: bool = False
    transport: Ends | None = None

    def know(self) -> None:
        """Note that whoever it is came through the gate."""
        if self.crowd is not None:
            self.crowd.know(self)

    def end(self) -> None:
        """Break the connection off."""
        if self.transport is not None:
            self.transport.abort()
        else:  # TLS is still being agreed on
            with contextlib.suppress(OSError):
                self.shutdown(socket.SHUT_RDWR)

    def close(self) -> None:
        """Close it, and give its place back."""
        if self.crowd is not None:
            self.crowd.leave(self)
        super().close()


class Door(socket.socket):
    """A listening socket that takes in as many as there is room for.

    Raises:
        BlockingIOError: from `accept`, while those who were sent away leave.
        ConnectionAbortedError: from `accept`, where one was refused.
    """

    crowd: Crowd

    def accept(self) -> tuple[Seat, Any]:
        if self.crowd.is_emptying():
            raise BlockingIOError(errno.EAGAIN, "others leave first")
        plain, address = super().accept()
        seat = Seat(plain.family, plain.type, plain.proto, fileno=plain.detach())
        seat.peer, seat.host, seat.here = address[:2], address[0], _is_here(address[0])
        if not self.crowd.enter(seat):
            seat.close()
            raise ConnectionAbortedError(errno.ECONNABORTED, "there is no room")
        seat.crowd = self.crowd
        return seat, address


def come_in(scope: MutableMapping[str, Any]) -> None:
    """Note that the connection of a request is no stranger's: the gate let it through."""
    seat = (scope.get("state") or {}).get(SEAT)
    if seat is not None:
        seat.know()


def room_for(files: int) -> int:
    """Return how many connections there may be where a process may open so many files."""
    return max(16, min(MOST, files - KEPT_FILES))


def _is_here(host: str) -> bool:
    return is_loopback(host) and not is_foreign_loopback(host)
