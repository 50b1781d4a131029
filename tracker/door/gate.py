"""The gate before every page, file and socket: by which name a request came, from which page, and with whose key.

Always: the Host must be one that is served, else a foreign name that was made to point here (DNS rebinding) would count
as our own; and an Origin, where the browser names one, must be ours, else a page of somebody else could speak through
the reader's browser.

With pairing, everybody shows a key, the laptop's own browser too. That a request comes from this machine proves little:
other accounts on it reach the same port, and so does whatever a tunnel or a proxy on it lets in. So the command opens a
link that is good once and gives the laptop's browser its key, and that key counts only where the connection itself, at
both of its ends, is of this machine. A local account that reads the link off the process list first would be seen: the
laptop's own browser is then told that the link was used.
"""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Awaitable, Callable, MutableMapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import parse_qs, urlsplit

from starlette.requests import cookie_parser

from tracker.door import doorway
from tracker.door.addresses import LOOPBACK_NAMES, is_foreign_loopback, is_loopback
from tracker.door.crowd import come_in
from tracker.door.pairing import Device, Pairing
from tracker.door.sockets import Watched
from tracker.door.store import DevicesUnreadableError
from tracker.door.visitor import HEADER, Visitor, header_of
from tracker.errors import BadInputError, TidemarkError

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Message, Receive, Send], Awaitable[None]]

COOKIE_AGE_S = 400 * 24 * 3600  # the most that browsers keep; the key itself may lapse before
MOST_BODY = 2_000  # bytes of the one form that is read without a key
LONGEST_BODY_S = 10.0


@dataclass(frozen=True, slots=True)
class Nearby:
    """Where phones reach this server: an address of this machine, the name in their link, the port, and TLS or not."""

    address: str
    port: int
    name: str = ""
    encrypted: bool = False

    @property
    def origin(self) -> str:
        return f"{'https' if self.encrypted else 'http'}://{self.name or self.address}:{self.port}"

    @property
    def names(self) -> frozenset[str]:
        return frozenset({self.address.lower(), (self.name or self.address).lower()})


@dataclass(frozen=True, slots=True)
class Request:
    """What the gate reads of a request, before anybody else does."""

    host: str  # as it came, with its port
    host_name: str  # without it, in lower case
    origin: str | None
    cookies: dict[str, str]
    here: bool  # both ends of the connection are of this machine, and so is the name that it was reached by
    local: str  # the address of ours that it reached


class Gate:
    """Lets through who may, and answers everybody else itself.

    Args:
        app: What stands behind.
        nearby: Where phones reach this server; without it only this machine does, and nobody needs a key.
        pairing: Who is paired.
        farewell: What an open page of a removed device is told last.
        hosts: Names by which everybody reaches it, where members sign in.
    """

    def __init__(
        self,
        app: App,
        nearby: Nearby | None = None,
        pairing: Pairing | None = None,
        farewell: bytes = b"",
        hosts: frozenset[str] = frozenset(),
    ) -> None:
        self.app, self.nearby, self.pairing, self.farewell, self.hosts = app, nearby, pairing, farewell, hosts

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        reply = await self._reply(scope, receive, send)
        if reply is not None:
            await (doorway.close(send) if scope["type"] == "websocket" else doorway.say(send, scope["method"], reply))

    async def _reply(self, scope: Message, receive: Receive, send: Send) -> doorway.Reply | None:
        """Let the request through and return None, or return the answer to whoever stays outside."""
        request = read(scope)
        if request is None or not self._is_served(request):
            return doorway.plain(421, "This server is not reached by that name.")
        if not self._is_own_page(scope, request):
            return doorway.plain(403, "That comes from a page of another server.")
        if self.nearby is None or self.pairing is None:
            if not self.hosts:  # else whoever signed in is known further on
                come_in(scope)
            await self.app(_with(scope, Visitor("loopback")), receive, send)
            return None
        try:
            return await self._keyed(scope, request, self.nearby, self.pairing, receive, send)
        except DevicesUnreadableError as err:
            return doorway.plain(503, str(err))

    def _is_served(self, request: Request) -> bool:
        if request.host_name in LOOPBACK_NAMES:
            return self.nearby is None or request.here
        return request.host_name in self.hosts or (
            self.nearby is not None and request.host_name in self.nearby.names and request.local == self.nearby.address
        )

    def _is_own_page(self, scope: Message, request: Request) -> bool:
        """A page of ours asks, or none; with pairing, what changes something must say which page asks."""
        if request.origin is None:
            return self.pairing is None or (scope["type"] == "http" and scope["method"] in ("GET", "HEAD", "OPTIONS"))
        scheme, _, host = request.origin.partition("://")
        ours = ("https",) if self.nearby and self.nearby.encrypted else ("http",)
        return host == request.host and scheme in (ours if self.nearby else ("http", "https"))

    async def _keyed(
        self, scope: Message, request: Request, nearby: Nearby, pairing: Pairing, receive: Receive, send: Send
    ) -> doorway.Reply | None:
        shown = request.cookies.get(pairing.cookie, "")
        device = pairing.device(shown)
        if device is not None and device.kind == "laptop" and not request.here:
            device = None
        path, http = scope["path"], scope["type"] == "http"
        if http and path == doorway.LAPTOP and request.here:
            return self._laptop(scope, pairing, device)
        if http and path == doorway.PAIR:
            return doorway.onward() if device else await self._pair(scope, request, pairing, receive)
        if device is None:
            page = http and _wants_page(scope)
            return doorway.refusal(request.here, html=page, encrypted=pairing.encrypted, known=bool(shown))
        come_in(scope)
        with contextlib.suppress(DevicesUnreadableError):  # when it was seen is not worth refusing it
            pairing.see(device)
        visitor = Visitor(device.kind, device.id, nearby.origin)
        if http:
            await self.app(_with(scope, visitor), receive, send)
        else:
            await Watched(pairing, device, self.farewell).run(self.app, _with(scope, visitor), receive, send)
        return None

    def _laptop(self, scope: Message, pairing: Pairing, device: Device | None) -> doorway.Reply:
        if device is not None and device.kind == "laptop":
            pairing.end_code("laptop")  # nobody else needs it
            return doorway.onward()
        try:
            key = pairing.pair("laptop", _query(scope, "key"), "The laptop's browser")
        except TidemarkError:
            return doorway.spent_link()
        return doorway.welcome(self._cookie(pairing, key))

    async def _pair(self, scope: Message, request: Request, pairing: Pairing, receive: Receive) -> doorway.Reply:
        if scope["method"] in ("GET", "HEAD"):  # looked at only: a program that previews links must not use it up
            return doorway.form(request.here, encrypted=pairing.encrypted, code=_query(scope, "code"))
        if scope["method"] != "POST":
            return doorway.plain(405, "Type the code on the page.")
        body = await _body(receive)
        if body is None:
            return doorway.plain(413, "That is no code and no name.")
        fields = parse_qs(body.decode("utf-8", "replace"))
        code, name = (fields.get(each, [""])[0] for each in ("code", "name"))
        try:
            key = pairing.pair("phone", code, name)
        except BadInputError as err:
            return doorway.form(request.here, encrypted=pairing.encrypted, code=code, name=name, error=err, status=400)
        except DevicesUnreadableError:
            raise
        except TidemarkError as err:
            return doorway.form(request.here, encrypted=pairing.encrypted, name=name, error=err, status=403)
        return doorway.onward(self._cookie(pairing, key))

    def _cookie(self, pairing: Pairing, key: str) -> str:
        secure = "; Secure" if pairing.encrypted else ""
        return f"{pairing.cookie}={key}; Path=/; Max-Age={COOKIE_AGE_S}; HttpOnly; SameSite=Strict{secure}"


def read(scope: Message) -> Request | None:
    """Read a request; None where it has no Host, several, or one that can't be one."""
    found: dict[bytes, list[str]] = {b"host": [], b"origin": [], b"cookie": []}
    for name, value in scope["headers"]:
        if name.lower() in found:
            found[name.lower()].append(value.decode("latin-1"))
    if len(found[b"host"]) != 1 or len(found[b"origin"]) > 1:
        return None
    (host,) = found[b"host"]
    try:
        parts = urlsplit(f"//{host}")
        name, _ = parts.hostname, parts.port
    except ValueError:
        return None
    if not name or parts.username is not None or parts.path or parts.query or parts.fragment:
        return None
    cookies: dict[str, str] = {}
    for line in found[b"cookie"]:
        cookies |= cookie_parser(line)
    local, client = ((scope.get(end) or ("",))[0] for end in ("server", "client"))
    here = name in LOOPBACK_NAMES and all(is_loopback(end) and not is_foreign_loopback(end) for end in (local, client))
    return Request(host, name, found[b"origin"][0] if found[b"origin"] else None, cookies, here, local)


def _with(scope: Message, visitor: Visitor) -> Message:
    """Tell the pages who it is, in place of what a client may have written itself."""
    kept = [each for each in scope["headers"] if each[0].lower() != HEADER.encode()]
    return {**scope, "headers": [*kept, header_of(visitor)]}


def _query(scope: Message, name: str) -> str:
    return parse_qs(scope.get("query_string", b"").decode("latin-1")).get(name, [""])[0]


def _wants_page(scope: Message) -> bool:
    accepts = b",".join(value for name, value in scope["headers"] if name.lower() == b"accept")
    return scope["method"] == "GET" and b"text/html" in accepts


async def _body(receive: Receive) -> bytes | None:
    """Read a small body; None where it is larger, slow or broken off."""
    found = b""
    try:
        async with asyncio.timeout(LONGEST_BODY_S):
            while True:
                message = await receive()
                if message["type"] != "http.request":
                    return None
                found += message.get("body", b"")
                if len(found) > MOST_BODY:
                    return None
                if not message.get("more_body"):
                    return found
    except TimeoutError:
        return None
