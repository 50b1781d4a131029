"""Serves the pages' app by uvicorn: who may connect and how long that may take is ours, the rest Streamlit's.

Streamlit's own runner has no room for either, so this stands in its place and does what it does: the settings first, then
one listening socket, then uvicorn. What it takes of Streamlit is named in tests/door/test_internals.py.
"""

from __future__ import annotations

import asyncio
import contextlib
import socket
import sys
from collections.abc import Mapping
from functools import partial
from typing import Any

import uvicorn
from streamlit import config
from streamlit.web import bootstrap
from uvicorn.config import LOGGING_CONFIG

from tracker.door.crowd import MOST, Crowd, Door, room_for
from tracker.door.messages import Heard
from tracker.door.patience import Patience, Patient

PATIENCE = Patience()
PING_S = 30  # how often an open socket is asked whether it is still there, and how long it has to say so
MEGABYTE = 1_000_000
END_S = 15  # which a server that is to end gives what is under way


class Loop(asyncio.SelectorEventLoop):
    """An event loop that does not wait a minute for a stranger to agree on TLS."""

    async def create_server(self, *args: Any, **named: Any) -> asyncio.Server:
        if named.get("ssl"):
            named.setdefault("ssl_handshake_timeout", PATIENCE.head)
        return await super().create_server(*args, **named)


def serve(app: Any, settings: Mapping[str, Any], *, own_lines: bool = False) -> None:
    """Serve until stopped.

    Args:
        app: An ASGI application that is Streamlit's.
        settings: Streamlit's settings, by their names with a dot.
        own_lines: What is logged is written by `lines.py`, and by nobody else.

    Raises:
        OSError: if the address or port can't be listened on.
    """
    bootstrap.load_config_options(dict(settings))
    crowd = Crowd(room_for(raise_limit_of_files()))
    address, port = config.get_option("server.address"), int(config.get_option("server.port"))
    served = uvicorn.Config(
        app,
        host=address,
        port=port,
        http=partial(Patient, crowd, PATIENCE),  # type: ignore[arg-type]  # what makes one for each connection
        loop="tracker.door.serving:Loop",
        ssl_certfile=config.get_option("server.sslCertFile"),
        ssl_keyfile=config.get_option("server.sslKeyFile"),
        ws=partial(Heard, PATIENCE),  # type: ignore[arg-type]  # as above
        ws_max_size=int(config.get_option("server.maxWidgetStateSize")) * MEGABYTE,  # what Streamlit reads of a message
        ws_ping_interval=PING_S,
        ws_ping_timeout=PING_S,
        ws_per_message_deflate=config.get_option("server.enableWebsocketCompression"),
        use_colors=False,
        log_config=None if own_lines else LOGGING_CONFIG,
        timeout_graceful_shutdown=END_S,
        access_log=False,
        server_header=False,
    )
    with contextlib.closing(listening(address, port, served.backlog, crowd)) as door:
        server = uvicorn.Server(served)
        server.run(sockets=[door])
    if not server.started:
        sys.exit(3)


def listening(address: str, port: int, backlog: int, crowd: Crowd) -> Door:
    """Listen at an address of IPv4 or IPv6."""
    door = Door(socket.AF_INET6 if ":" in address else socket.AF_INET)
    door.crowd = crowd
    try:
        if sys.platform != "win32":  # there it would let two servers share a port
            door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        door.bind((address, port))
        door.listen(backlog)
        door.setblocking(False)
    except BaseException:
        door.close()
        raise
    return door


def raise_limit_of_files() -> int:
    """Let this process open as many files as it may, which is often far more than it is given; return how many."""
    try:
        import resource
    except ImportError:  # Windows has no such limit
        return 2 * MOST
    now, most = resource.getrlimit(resource.RLIMIT_NOFILE)
    with contextlib.suppress(ValueError, OSError):  # macOS names an endless limit and refuses it
        resource.setrlimit(resource.RLIMIT_NOFILE, (most, most))
        now = most
    return 2 * MOST if now == resource.RLIM_INFINITY else now
