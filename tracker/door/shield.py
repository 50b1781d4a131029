"""Headers with which the browser itself holds that nothing leaves the machine: it loads from this server and no other.

A text that somebody typed or a file brought may hold an address, and a page may make an image or a link of it. With this
policy (W3C Content Security Policy, level 3) no such image, script, font or request is fetched, and a link that a reader
follows does not tell where they came from.
"""

from __future__ import annotations

import re
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
_HOST = re.compile(rb"[A-Za-z0-9.\-\[\]:]{1,200}")


def policy(host: bytes) -> bytes:
    """Return the policy for a server that the browser knows by this name; older Safari wants its socket named."""
    own = b"ws://%b wss://%b" % (host, host) if _HOST.fullmatch(host) else b""
    parts = (
        b"default-src 'self' data: blob:",
        b"script-src 'self' 'unsafe-inline' 'unsafe-eval' blob:",  # Streamlit's own page has scripts in it
        b"style-src 'self' 'unsafe-inline'",
        b"img-src 'self' data: blob:",
        b"font-src 'self' data:",
        b"connect-src 'self' data: blob: " + own,
        b"object-src 'none'",
        b"base-uri 'self'",
        b"form-action 'self'",
        b"frame-ancestors 'self'",
    )
    return b"; ".join(parts)


class Shield:
    """Adds the headers to every answer of the server."""

    def __init__(self, app: Callable[..., Awaitable[None]]) -> None:
        self.app = app

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        host = next((value for name, value in scope["headers"] if name == b"host"), b"")
        more = [
            (b"content-security-policy", policy(host)),
            (b"referrer-policy", b"no-referrer"),
            (b"x-content-type-options", b"nosniff"),
        ]

        async def sending(message: Message) -> None:
            if message["type"] == "http.response.start":
                known = {name for name, _ in more}
                kept = [each for each in message.get("headers", []) if each[0].lower() not in known]
                message = {**message, "headers": [*kept, *more]}
            await send(message)

        await self.app(scope, receive, sending)
