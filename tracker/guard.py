"""Where members sign in: what Streamlit's own login leaves open is closed before anything of Streamlit runs.

Its cookie is set without Secure, since that would not work on a bare http address; with https it is added here. And a socket
of nobody gets an address to upload to, so that a stranger could fill the memory of the server; without a good cookie no
upload is read.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any

from starlette.requests import cookie_parser
from streamlit.web.server.starlette.starlette_app_utils import decode_signed_value

from tracker.sign_in import SignIn

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
COOKIE = "_streamlit_user"
OURS = (COOKIE.encode(), b"_streamlit_session")
UPLOADS = "/_stcore/upload_file"


class Guard:
    """Stands before Streamlit where members sign in."""

    def __init__(self, app: Callable[..., Awaitable[None]], members: SignIn | None = None) -> None:
        self.app, self.members = app, members

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        if self.members is None or scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        if UPLOADS in scope["path"] and not self._signed_in(scope, self.members):
            await send({"type": "http.response.start", "status": 403, "headers": [(b"content-type", b"text/plain")]})
            await send({"type": "http.response.body", "body": b"Sign in first."})
            return
        await self.app(scope, receive, _with_secure(send) if self.members.address.startswith("https:") else send)

    def _signed_in(self, scope: Message, members: SignIn) -> bool:
        """Tell whether the browser has a cookie that was signed here; who it is, the desk asks."""
        lines = [value.decode("latin-1") for name, value in scope["headers"] if name == b"cookie"]
        found = cookie_parser("; ".join(lines)).get(COOKIE, "")
        return decode_signed_value(members.cookie_secret, COOKIE, found, max_age_days=members.days) is not None


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
