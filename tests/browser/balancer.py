"""One address before two servers, as a gym's balancer is: it can let one of them end while a touch is under way."""

from __future__ import annotations

import contextlib
import socket
import threading
from collections.abc import Callable
from typing import Literal

When = Literal["", "before it is taken", "before it is answered"]
TOUCH = b"POST /day/api/acts"


class Balancer:
    """Passes each connection on to the first of its servers that is still there.

    Args:
        port: Its own port.
        servers: The ports behind it, the first one first.
        end: Ends the server of a port at once.
    """

    def __init__(self, port: int, servers: list[int], end: Callable[[int], None]) -> None:
        self.servers, self.end = servers, end
        self.when: When = ""  # at the next touch
        self.ended: list[int] = []
        self.listening = socket.create_server(("127.0.0.1", port))
        threading.Thread(target=self._listen, daemon=True).start()

    def close(self) -> None:
        self.listening.close()

    def _listen(self) -> None:
        with contextlib.suppress(OSError):
            while True:
                client, _ = self.listening.accept()
                threading.Thread(target=self._connect, args=(client,), daemon=True).start()

    def _connect(self, client: socket.socket) -> None:
        for port in list(self.servers):
            try:
                server = socket.create_connection(("127.0.0.1", port))
            except OSError:
                continue
            threading.Thread(target=self._back, args=(server, client), daemon=True).start()
            self._there(client, server, port)
            return
        client.close()

    def _there(self, client: socket.socket, server: socket.socket, port: int) -> None:
        """Pass on what the browser says; what it is told comes back beside it."""
        with contextlib.suppress(OSError):
            while said := client.recv(65536):
                if self.when and TOUCH in said:
                    self._end_now(client, server, port, said)
                    return
                server.sendall(said)
        self._shut(client, server)

    def _end_now(self, client: socket.socket, server: socket.socket, port: int, said: bytes) -> None:
        """Let the server end at this touch: before it has it, or after the log has it and before anybody is told."""
        when, self.when = self.when, ""
        if when == "before it is answered":
            head, _, body = said.partition(b"\r\n\r\n")
            length = next(
                int(each.split(b":")[1]) for each in head.splitlines() if each.lower().startswith(b"content-length")
            )
            while len(body) < length:
                body += client.recv(65536)
            with socket.create_connection(("127.0.0.1", port)) as apart:
                apart.sendall(head + b"\r\n\r\n" + body)
                heard = apart.recv(65536)
                assert heard.startswith(b"HTTP/1.1 200"), heard[:200]
        self.end(port)
        self.servers.remove(port)
        self.ended.append(port)
        self._shut(client, server)

    @staticmethod
    def _back(server: socket.socket, client: socket.socket) -> None:
        with contextlib.suppress(OSError):
            while heard := server.recv(65536):
                client.sendall(heard)
        Balancer._shut(client, server)

    @staticmethod
    def _shut(*ends: socket.socket) -> None:
        for each in ends:
            with contextlib.suppress(OSError):
                each.shutdown(socket.SHUT_RDWR)
            each.close()
