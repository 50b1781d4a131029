"""What Streamlit's own server leaves open is closed before anything of it runs.

Where members sign in, it asks a cookie of nobody but the pages' socket: files, uploads, measurements and descriptions are
handed to whoever asks. Here all of that is for those who have an account, asked of the log each time; the page that shows
the way in, its scripts and whether the server is well are for everybody. Who signs out is out in every tab. The cookie is
set without Secure, since that would not work on a bare http address; with https it is added.

Everywhere, what uploads may hold in memory has its limits (`uploads.py`).
"""

from __future__ import annotations

import json
import time
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any

from anyio import to_thread
from starlette.requests import ClientDisconnect, cookie_parser
from streamlit.auth_util import get_cookie_with_chunks
from streamlit.web.server.starlette.starlette_app_utils import decode_signed_value

from tracker.door import signed_out
from tracker.door.crowd import come_in
from tracker.door.sign_in import SignIn
from tracker.door.uploads import TooMuchError, Uploads
from tracker.door.visitor import visitor_in

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
Identity = tuple[str, str]  # issuer and subject
COOKIE = "_streamlit_user"
OURS = (COOKIE.encode(), b"_streamlit_session")
SCRIPTS = "static"  # the pages' own, the same for everybody
CLOSED = (SCRIPTS, "_stcore", "media", "component", "app")  # what Streamlit serves beside its one page
FOR_ALL = ("_stcore/health", "_stcore/host-config")
UPLOADS = "upload_file"
IDENTITY = "tidemark_identity"  # in the state of a request: issuer and subject of whoever signed in
SIGN_OUT = "/auth/logout"


class Guard:
    """Stands before Streamlit.

    Args:
        app: What stands behind.
        members: How members sign in, where they do.
        knows: Asks the log whether an identity has an account; it may wait for the log.
        uploads: What uploads hold.
    """

    def __init__(
        self,
        app: Callable[..., Awaitable[None]],
        members: SignIn | None = None,
        knows: Callable[[Identity], bool] | None = None,
        uploads: Uploads | None = None,
    ) -> None:
        self.app, self.members, self.knows, self.uploads = app, members, knows, uploads

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        claims = self._claims(scope) if self.members and scope["type"] in ("http", "websocket") else None
        identity = self.members.identity(claims, time.time()) if self.members and claims else None
        if identity is not None:
            come_in(scope)
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        # For what is ours behind this; nobody else can write it.
        scope["state"] = {**scope.get("state", {}), IDENTITY: identity}
        if self.members is not None:
            if claims and identity is not None and scope["path"].endswith(SIGN_OUT):
                signed_out.end(claims)
            if is_closed(scope["path"]) and not await self._has_account(identity):
                await _say(send, 403, "Sign in first.")
                return
            send = _with_secure(send) if self.members.address.startswith("https:") else send
        if scope.get("method") == "PUT" and UPLOADS in scope["path"] and self.uploads is not None:
            await self._upload(scope, receive, send, self.uploads, identity)
        else:
            await self.app(scope, receive, send)

    async def _upload(
        self, scope: Message, receive: Receive, send: Send, uploads: Uploads, identity: Identity | None
    ) -> None:
        """Let an upload through where there is room for it."""
        length = next((value for name, value in scope["headers"] if name == b"content-length"), b"")
        if not length.isdigit():  # browsers say it; without it nobody knows what room it wants
            await _say(send, 411, "Say how long it is.")
            return
        session = scope["path"].partition(f"/{UPLOADS}/")[2].partition("/")[0]
        visitor = visitor_in({name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]})
        person = "\n".join(identity or ()) or (visitor.device_id if visitor else "")
        try:
            with uploads.take(session, person, int(length)):
                await self.app(scope, receive, send)
        except TooMuchError as err:
            await _say(send, 413, str(err))
        except ClientDisconnect:  # whoever brought it has gone: there is nobody to answer, and nothing to tell
            return

    async def _has_account(self, identity: Identity | None) -> bool:
        return identity is not None and self.knows is not None and await to_thread.run_sync(self.knows, identity)

    def _claims(self, scope: Message) -> dict[str, Any] | None:
        """Return what a cookie says that was signed here, for this address; one without claims is taken away."""
        assert self.members is not None
        members, lines = (
            self.members,
            [value.decode("latin-1") for name, value in scope["headers"] if name == b"cookie"],
        )
        cookies = cookie_parser("; ".join(lines))

        def signed(name: str) -> bytes | None:
            return decode_signed_value(members.cookie_secret, name, cookies.get(name, ""), max_age_days=members.days)

        found = get_cookie_with_chunks(signed, COOKIE)
        if not found:
            return None
        try:
            claims = json.loads(found)
        except (ValueError, RecursionError):  # the latter where it is nested deep
            claims = None
        if not isinstance(claims, dict):  # whoever reads it again behind this would stumble over it
            scope["headers"] = [each for each in scope["headers"] if each[0] != b"cookie"]
            return None
        return claims if claims.get("origin") == members.address else None


def is_closed(path: str) -> bool:
    """Tell whether a path leads to what is not for everybody, wherever in it the server's own names stand."""
    parts = [part for part in path.split("/") if part]
    first = next((at for at, part in enumerate(parts) if part in CLOSED), None)
    return first is not None and parts[first] != SCRIPTS and "/".join(parts[first:]) not in FOR_ALL


async def _say(send: Send, status: int, text: str) -> None:
    headers = [(b"content-type", b"text/plain; charset=utf-8"), (b"cache-control", b"no-store")]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": text.encode()})


def _with_secure(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = [
                (name, value + b"; Secure" if name.lower() == b"set-cookie" and value.startswith(OURS) else value)
                for name, value in message.get("headers", [])
            ]
            message = {**message, "headers": headers}
        await send(message)

    return sending
