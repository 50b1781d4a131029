"""What a browser gets before the pages have started: their look. Whoever is between two sets has the day page.

What the file says of its maker (comments, title, icon, and words to programs that drive pages) is no reader's business and
tells a stranger what to attack: it goes, and the page says its own name.
"""

from __future__ import annotations

import re
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any
from urllib.parse import quote

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Message, Receive, Send], Awaitable[None]]

LEFT_OUT = (b"accept-encoding", b"if-none-match", b"if-modified-since")  # the page is changed on its way
OF_THE_FILE = (b"content-length", b"etag", b"last-modified")
NO_PAGES = ("/_stcore/", "/media/", "/component/")  # what is under these is never the pages' HTML
KEPT_BY_BROWSERS = "/static/"  # and compressed: asked for as the browser does

ICON = (  # three waves, drawn here: an icon by its name would be fetched from another server by every browser
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24" fill="none" stroke="#0B6472" stroke-width="2.4" '
    'stroke-linecap="round"><path d="M2 7q2.5-3 5 0t5 0 5 0 5 0M2 13q2.5-3 5 0t5 0 5 0 5 0M2 19q2.5-3 5 0t5 0 5 0 5 0"/></svg>'
)
WORDS = "These pages need JavaScript. Switch it on for this address in your browser's settings, and reload."
OURS = (  # what stands in the file, and what is served in its place
    (re.compile(rb"<!--.*?-->\s*", re.DOTALL), b""),
    (re.compile(rb"<title>.*?</title>", re.DOTALL), b"<title>Tidemark</title>"),
    (re.compile(rb'<link rel="service-desc"[^>]*>\s*'), b""),
    (
        re.compile(rb'<link rel="shortcut icon"[^>]*>'),
        f'<link rel="icon" href="data:image/svg+xml,{quote(ICON)}" />'.encode(),
    ),
    (re.compile(rb"<noscript>.*?</noscript>", re.DOTALL), f"<noscript><p>{WORDS}</p></noscript>".encode()),
)


class Front:
    """Adds to the one HTML file of the pages on its way to the browser.

    Args:
        app: What stands behind.
        look: The style sheet of the pages.
        module: The address of the module that draws the card of a set, for the day page as well; the browser fetches it
            while the pages still come, and what stands on them finds it by this.
    """

    def __init__(self, app: App, look: str, module: str = "") -> None:
        self.app, self.look = app, look
        self.ahead = f'<link rel="modulepreload" href="{module}">'.encode() if module else b""

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        if scope["type"] != "http" or scope["method"] != "GET" or scope["path"].startswith(NO_PAGES):
            await self.app(scope, receive, send)
        else:
            await self._add(scope, receive, send)

    async def _add(self, scope: Message, receive: Receive, send: Send) -> None:
        """Pass on an answer; where it is the HTML of the pages, with what is ours in it."""
        start: Message = {}
        body = bytearray()

        async def sending(message: Message) -> None:
            nonlocal start
            if message["type"] == "http.response.start":
                start = message
                if not _is_page(message):
                    await send(message)
            elif not _is_page(start):
                await send(message)
            else:
                body.extend(message.get("body", b""))
                if not message.get("more_body"):
                    whole = self._added(bytes(body))
                    kept = [each for each in start["headers"] if each[0].lower() not in OF_THE_FILE]
                    await send({**start, "headers": [*kept, (b"content-length", b"%d" % len(whole))]})
                    await send({"type": "http.response.body", "body": whole})

        left_out = () if scope["path"].startswith(KEPT_BY_BROWSERS) else LEFT_OUT
        headers = [each for each in scope["headers"] if each[0].lower() not in left_out]
        await self.app({**scope, "headers": headers, "extensions": {}}, receive, sending)

    def _added(self, page: bytes) -> bytes:
        """Put the style at the end of the body, where it goes before the pages' own."""
        for theirs, ours in OURS:
            page = theirs.sub(lambda _found, ours=ours: ours, page)
        return page.replace(b"</body>", self.ahead + b"<style>" + self.look.encode() + b"</style></body>", 1)


def _is_page(start: Message) -> bool:
    found = {name.lower(): value for name, value in start.get("headers", ())}
    kind, packed = found.get(b"content-type", b""), b"content-encoding" in found
    return start.get("status") == 200 and kind.startswith(b"text/html") and not packed
