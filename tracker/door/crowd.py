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

from tracker.door.addresses import is_foreign_loopback, is_loopback

OF_ONE_ADDRESS = 64  # strangers; a browser opens some seven connections before its first answer
MOST = 4_096  # connections of one process, however many files it may open
KEPT_FILES = 128  # for the log, its connections and copies, and the pages' own files
FILES_OF_A_PAGE = 4  # its connection, and the three of the event loop that Streamlit's session has for its script
LEFT_FILES = 128 * (FILES_OF_A_PAGE - 1)  # of sessions whose page has gone: Streamlit keeps so many for two minutes
SEAT = "tidemark_seat"  # of the connection, in the state of a request


class Ends(Protocol):
    """What can end a connection at once: an asyncio transport."""

    def abort(self) -> None: ...


class Crowd:
    """All connections of a server.

    Args:
        room: How many files they may hold at once.
        of_one_address: How many strangers of one other machine.
        most: How many connections there may be at once.
    """

    def __init__(self, room: int = MOST, of_one_address: int = OF_ONE_ADDRESS, most: int = MOST) -> None:
        self.room, self.of_one_address, self.most = room, of_one_address, most
        self.files = 0  # that all of them hold
        self.going: set[Seat] = set()  # who were sent away and have not left yet
        self.seats: dict[tuple[str, int], Seat] = {}
        self.strangers: dict[str, dict[Seat, None]] = {}  # by address, the longest there first
        self.refused = 0

    def enter(self, seat: Seat) -> bool:
        """Take in a new connection, at the cost of a stranger where need be; False where there is no room at all."""
        here = self.strangers.get(seat.host, {})
        if not seat.here and len(here) >= self.of_one_address:
            self._send_away(next(iter(here)))
        elif not self._has_room_for(1):
            self.refused += 1
            return False
        if (former := self.seats.get(seat.peer)) is not None:  # broken off by the other end, and not closed here yet
            self.leave(former)
        self.seats[seat.peer] = seat
        self.files += seat.files
        self.strangers.setdefault(seat.host, {})[seat] = None
        return True

    def is_emptying(self) -> bool:
        """Tell whether some who were sent away have not left yet, and nobody can come in before."""
        return bool(self.going) and (self.files > self.room or len(self.seats) > self.most)

    def widen(self, seat: Seat, files: int) -> None:
        """Note that a connection holds so many files from now on; strangers make room for them."""
        if self.seats.get(seat.peer) is seat:
            self.files += files - seat.files
            seat.files = files
            self._has_room_for(0)  # who came in stays in any case

    def know(self, seat: Seat) -> None:
        """Count a connection among strangers no more."""
        if seat in (of_host := self.strangers.get(seat.host, {})):
            del of_host[seat]
            if not of_host:
                del self.strangers[seat.host]

    def leave(self, seat: Seat) -> None:
        """Forget a connection that is closed."""
        self.know(seat)
        self.going.discard(seat)
        if self.seats.get(seat.peer) is seat:
            del self.seats[seat.peer]
            self.files -= seat.files

    def _has_room_for(self, more: int) -> bool:
        """Send strangers away until so many connections more have room; False where there are not enough of them."""
        while (
            self.files - sum(each.files for each in self.going) + more > self.room
            or len(self.seats) - len(self.going) + more > self.most
        ):
            if not self._make_room():
                return False
        return True

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
        self.going.add(seat)
        seat.end()


class Seat(socket.socket):
    """The socket of one connection, which gives its place back when it is closed."""

    crowd: Crowd | None = None
    peer: tuple[str, int] = ("", 0)
    host: str = ""
    here: bool = False
    files: int = 1  # that it holds
    transport: Ends | None = None

    def know(self) -> None:
        """Note that whoever it is came through the gate."""
        if self.crowd is not None:
            self.crowd.know(self)

    def is_stranger(self) -> bool:
        return self.crowd is not None and self in self.crowd.strangers.get(self.host, {})

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
    """Return how many files connections may hold where a process may open so many."""
    return max(16, min(FILES_OF_A_PAGE * MOST, files - KEPT_FILES - min(LEFT_FILES, files // 3)))


def _is_here(host: str) -> bool:
    return is_loopback(host) and not is_foreign_loopback(host)
