"""Requests and sockets as a server hands them to the gate, without a server."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlencode

from tests.apart import apart
from tracker.door.gate import Gate, Nearby
from tracker.door.pairing import Pairing
from tracker.door.visitor import Visitor, visitor_in

PHONE, LAPTOP, LAN, HOST = "192.168.1.77", "127.0.0.1", "192.168.1.5", "192.168.1.5:8501"
NEARBY = Nearby(LAN, 8501)


@dataclass
class Answer:
    """What came back: the gate's own answer, or that of what stands behind it."""

    status: int = 0
    headers: dict[str, str] = field(default_factory=dict)
    body: bytes = b""
    closed: int = 0  # the code with which a socket was refused or closed


class Behind:
    """What stands behind the gate: it answers whoever gets there and remembers them."""

    def __init__(self) -> None:
        self.reached: list[dict[str, Any]] = []

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        self.reached.append(scope)
        if scope["type"] == "websocket":
            await receive()
            await send({"type": "websocket.accept"})
            await send({"type": "websocket.close", "code": 1000})
        elif scope["type"] == "http":
            await send({"type": "http.response.start", "status": 200, "headers": []})
            await send({"type": "http.response.body", "body": b"page"})

    @property
    def visitor(self) -> Visitor | None:
        """Who the last one was, as a page reads it."""
        return visitor_in({name.decode(): value.decode() for name, value in self.reached[-1]["headers"]})


def gate(pairing: Pairing | None, nearby: Nearby | None = NEARBY) -> tuple[Gate, Behind]:
    behind = Behind()
    return (Gate(behind, nearby if pairing else None, pairing), behind)


def scope(
    kind: str = "http", path: str = "/", *, method: str = "GET", host: str | None = HOST, origin: str | None = None,
    cookie: str = "", client: str = PHONE, server: str = LAN, query: str = "", more: tuple[tuple[str, str], ...] = (),
) -> dict[str, Any]:  # fmt: skip
    given = (("host", host), ("origin", origin), ("cookie", cookie), ("accept", "text/html"), *more)
    headers = [(name.encode(), value.encode("latin-1")) for name, value in given if value]
    made = {
        "type": kind, "path": path, "headers": headers, "client": (client, 50_000), "server": (server, 8501),
        "query_string": query.encode(), "scheme": "http" if kind == "http" else "ws",
    }  # fmt: skip
    return made | ({"method": method} if kind == "http" else {})


def ask(through: Gate, *args: Any, form: dict[str, str] | None = None, body: bytes = b"", **named: Any) -> Answer:
    """Send one request, or open one socket, and return what came of it."""
    answer, sent = Answer(), urlencode(form).encode() if form else body
    request = scope(*args, **named)
    first = {"type": "websocket.connect"} if request["type"] == "websocket" else {"type": "http.request", "body": sent}
    waiting = [first]

    async def receive() -> Any:
        return waiting.pop(0) if waiting else {"type": "http.disconnect"}

    async def send(message: Any) -> None:
        if message["type"] == "http.response.start":
            answer.status = message["status"]
            answer.headers = {name.decode(): value.decode() for name, value in message["headers"]}
        elif message["type"] == "http.response.body":
            answer.body += message.get("body", b"")
        elif message["type"] == "websocket.accept":
            answer.status = 101
        elif message["type"] == "websocket.close":
            answer.closed = message["code"]

    apart(through(request, receive, send))
    return answer


def cookie(pairing: Pairing, key: str) -> str:
    return f"other=1; {pairing.cookie}={key}"


def phone_key(pairing: Pairing, name: str = "Wren's phone") -> str:
    return pairing.pair("phone", pairing.new_code("phone").text, name)


def laptop_key(pairing: Pairing) -> str:
    return pairing.pair("laptop", pairing.new_code("laptop").text, "The laptop's browser")
