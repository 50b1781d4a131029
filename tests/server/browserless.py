"""A reader of the pages without a browser: it speaks Streamlit's own messages over a websocket, as a browser does.

It asks for a page, keeps what it is shown of buttons and notices, touches a button by its label, and waits for the
notice. A browser would draw as well; what is measured here is what the servers and the database take.
"""

from __future__ import annotations

import asyncio
import time
from html import unescape
from re import sub
from types import TracebackType

from streamlit.proto.BackMsg_pb2 import BackMsg
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg
from websockets.asyncio.client import ClientConnection, connect

PATIENCE_S = 120


class WentWrongError(Exception):
    """A page failed, refused what was touched, or did not answer."""


class Reader:
    """One open page of one member; an asynchronous context."""

    def __init__(self, server: str, query: str) -> None:
        self.address = f"{server.replace('http', 'ws')}/_stcore/stream"
        self.query = query
        self.buttons: dict[str, str] = {}  # label and id of what this run has drawn so far
        self.notice = ""
        self.problem = ""
        self._socket: ClientConnection | None = None
        self._known: dict[str, ForwardMsg] = {}

    async def __aenter__(self) -> Reader:
        await self._open()
        await self._run()
        return self

    async def move(self, server: str) -> None:
        """Go on at another server, as a browser whose balancer sends it there: it opens a socket and says nothing."""
        assert self._socket is not None
        await self._socket.close()
        self.address, self._known = f"{server.replace('http', 'ws')}/_stcore/stream", {}
        await self._open()

    async def _open(self) -> None:
        self._socket = await connect(self.address, subprotocols=["streamlit"], max_size=None, open_timeout=PATIENCE_S)  # type: ignore[list-item]

    async def __aexit__(
        self, kind: type[BaseException] | None, err: BaseException | None, trace: TracebackType | None
    ) -> None:
        assert self._socket is not None
        await self._socket.close()

    async def touch(self, label: str) -> float:
        """Touch the button whose label begins so; return the seconds until what came of it was shown.

        Raises:
            WentWrongError: if there is no such button, the act was refused, or the page failed.
        """
        found = next((key for words, key in self.buttons.items() if words.startswith(label)), None)
        if found is None:
            raise WentWrongError(f"There is no button {label}: {', '.join(self.buttons)}")
        return await self._run(found)

    async def again(self) -> None:
        """Reload what is shown."""
        await self._run()

    async def _run(self, touched: str = "") -> float:
        assert self._socket is not None
        message = BackMsg()
        message.rerun_script.query_string = self.query
        if touched:
            state = message.rerun_script.widget_states.widgets.add()
            state.id, state.trigger_value = touched, True
        self.buttons, self.notice, self.problem = {}, "", ""
        began, shown = time.perf_counter(), 0.0
        await self._socket.send(message.SerializeToString())
        while True:
            async with asyncio.timeout(PATIENCE_S):
                read = ForwardMsg.FromString(await self._socket.recv(decode=False))
            if read.WhichOneof("type") == "ref_hash":
                read = self._known[read.ref_hash]
            elif read.metadata.cacheable:
                self._known[read.hash] = read
            self._take(read)
            if self.notice and not shown:
                shown = time.perf_counter() - began
            if read.WhichOneof("type") == "script_finished":
                break
        if self.problem or (touched and not self.notice):
            raise WentWrongError(self.problem or "nothing was said to be saved")
        return shown

    def _take(self, message: ForwardMsg) -> None:
        kind = message.WhichOneof("type")
        if kind == "session_event" and message.session_event.WhichOneof("type") == "script_compilation_exception":
            self.problem = message.session_event.script_compilation_exception.message
        if kind != "delta" or message.delta.WhichOneof("type") != "new_element":
            return
        element = message.delta.new_element
        what = element.WhichOneof("type")
        if what == "button":
            self.buttons[element.button.label] = element.button.id
        elif what == "exception":
            self.problem = f"{element.exception.type}: {element.exception.message}"
        elif what == "alert" and element.alert.format == 1:  # an error over the page
            self.problem = element.alert.body
        elif what == "html" and 'class="notice notice-error' in element.html.body:
            self.problem = words_of(element.html.body)
        elif what == "html" and 'class="notice notice-saved' in element.html.body:
            self.notice = words_of(element.html.body)


def words_of(html: str) -> str:
    """Return the text of a short piece of HTML."""
    return unescape(sub(r"<[^>]+>", "", html)).strip()
