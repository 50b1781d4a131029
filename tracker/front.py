"""What a browser gets before the pages have started: their look, and at once the next set.

The pages are drawn by scripts that a phone needs seconds to load and start. Somebody between two sets wants one thing of
them, and that is a few lines of text. So the first answer brings the style sheet and a short script; this asks for the
next set as plain HTML, shows it, and takes it away as soon as the page itself has it. A touch on its button that comes
earlier is handed on to the page's own button, if that logs the same set; until then it says that nothing is saved.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping, MutableMapping
from pathlib import Path
from typing import Any
from urllib.parse import parse_qsl

from anyio import to_thread

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Message, Receive, Send], Awaitable[None]]

ADDRESS = "/first-sight"
FIRST_PAGE = "/"
LEFT_OUT = (b"accept-encoding", b"if-none-match", b"if-modified-since")  # the page is changed on its way
OF_THE_FILE = (b"content-length", b"etag", b"last-modified")
LONGEST = 2_000  # characters of an address that are read
SCRIPT = (Path(__file__).parent / "front.js").read_text(encoding="utf-8")


class Front:
    """Adds to the one HTML file of the pages on its way to the browser, and answers what its script asks.

    Args:
        app: What stands behind.
        look: The style sheet of the pages.
        next_set: Draws the next set from what the address says, and from the browser's time zone as `zone`; an empty text
            where there is none. Without it nothing is shown before the page, as where members sign in.
    """

    def __init__(self, app: App, look: str, next_set: Callable[[Mapping[str, str]], str] | None = None) -> None:
        self.app, self.look, self.next_set = app, look, next_set

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        if scope["type"] != "http" or scope["method"] != "GET" or scope["path"].startswith("/_stcore/"):
            await self.app(scope, receive, send)
        elif scope["path"] == ADDRESS and self.next_set is not None:
            await self._answer(scope, self.next_set, send)
        else:
            await self._add(scope, receive, send)

    async def _answer(self, scope: Message, next_set: Callable[[Mapping[str, str]], str], send: Send) -> None:
        query = scope.get("query_string", b"").decode("latin-1")[:LONGEST]
        found = (await to_thread.run_sync(next_set, dict(parse_qsl(query)))).encode()
        headers = [(b"content-type", b"text/html; charset=utf-8"), (b"cache-control", b"no-store")]
        status = 200 if found else 204
        if found:
            headers.append((b"content-length", b"%d" % len(found)))
        await send({"type": "http.response.start", "status": status, "headers": headers})
        await send({"type": "http.response.body", "body": found})

    async def _add(self, scope: Message, receive: Receive, send: Send) -> None:
        """Pass on an answer; where it is the HTML of the pages, with what is ours in it."""
        if b"text/html" not in next((value for name, value in scope["headers"] if name == b"accept"), b""):
            await self.app(scope, receive, send)
            return
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
                    whole = self._added(bytes(body), first=scope["path"] == FIRST_PAGE)
                    kept = [each for each in start["headers"] if each[0].lower() not in OF_THE_FILE]
                    await send({**start, "headers": [*kept, (b"content-length", b"%d" % len(whole))]})
                    await send({"type": "http.response.body", "body": whole})

        headers = [each for each in scope["headers"] if each[0].lower() not in LEFT_OUT]
        await self.app({**scope, "headers": headers, "extensions": {}}, receive, sending)

    def _added(self, page: bytes, *, first: bool) -> bytes:
        """Put the style at the end of the body, where it goes before the pages' own, and the script before all others."""
        if first and self.next_set is not None:
            page = page.replace(b"<head>", b"<head><script>" + SCRIPT.encode() + b"</script>", 1)
        return page.replace(b"</body>", b"<style>" + self.look.encode() + b"</style></body>", 1)


def _is_page(start: Message) -> bool:
    kind = next((value for name, value in start.get("headers", ()) if name.lower() == b"content-type"), b"")
    return start.get("status") == 200 and kind.startswith(b"text/html")
