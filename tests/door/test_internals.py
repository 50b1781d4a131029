"""What is used of Streamlit and uvicorn that they promise nobody: a new minor version of either is tried by this first."""

from __future__ import annotations

import inspect
import re
from pathlib import Path

import h11
import uvicorn.config
from itsdangerous import URLSafeTimedSerializer
from streamlit import auth_util, config, logger
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg
from streamlit.runtime.memory_uploaded_file_manager import MemoryUploadedFileManager
from streamlit.runtime.state.session_state import Serialized, SessionState, WStates
from streamlit.web import bootstrap
from streamlit.web.server.starlette import starlette_app_utils, starlette_server_config
from uvicorn.protocols.http.h11_impl import H11Protocol, RequestResponseCycle
from uvicorn.protocols.websockets.websockets_sansio_impl import WebSocketsSansIOProtocol
from websockets.server import ServerProtocol

import tracker
from tracker import app
from tracker.door import guard, lines

SECRET, NAME = "7b" * 32, guard.COOKIE
ROUTES = {  # all that Streamlit serves; each is for everybody or closed by tracker/door/guard.py, and a new one is decided there
    "/_stcore/health": False, "/_stcore/host-config": False, "/_stcore/stream": None, "/_stcore/metrics": True, "/media/x": True,
    "/_stcore/upload_file/s/f": True, "/component/x": True, "/_stcore/bidi-components/x": True, "/_stcore/agent/interact": True,
    "/_stcore/agent/openapi.json": True, "/_stcore/agent/mcp": True, "/auth/login": False, "/auth/logout": False,
    "/oauth2callback": False, "": False,
}  # fmt: skip


def test_the_cookie_is_signed_with_a_moment_and_by_its_own_name():
    signed = starlette_app_utils.create_signed_value(SECRET, NAME, '{"sub": "ana"}')
    assert URLSafeTimedSerializer(SECRET, salt=NAME).loads(signed, max_age=60) == '{"sub": "ana"}'
    read = starlette_app_utils.decode_signed_value
    assert read(SECRET, NAME, signed, max_age_days=1) == b'{"sub": "ana"}'
    assert read(SECRET, "another", signed, max_age_days=1) is None
    assert read("6d" * 32, NAME, signed, max_age_days=1) is None
    assert read(SECRET, NAME, signed, max_age_days=-1) is None
    assert (starlette_server_config.USER_COOKIE_NAME, starlette_server_config.SESSION_COOKIE_NAME) == (
        NAME,
        "_streamlit_session",
    )
    assert starlette_server_config.AUTH_COOKIE_MAX_AGE_SECONDS == 30 * 86_400
    assert auth_util.get_cookie_with_chunks({NAME: b"whole"}.get, NAME) == b"whole"


def test_every_route_is_decided_on():
    from streamlit.web.server.starlette import starlette_app

    def stand_in(path: Path) -> set[str]:
        made = starlette_app.App(path)._create_runtime()
        found = {
            re.sub(r"\{session_id\}", "s", getattr(each, "path", ""))
            for each in starlette_app.create_streamlit_routes(made)
        }
        return {re.sub(r"\{file_id\}$", "f", re.sub(r"\{(path|file_id):path\}", "x", each)) for each in found}

    from streamlit import runtime

    before = runtime.Runtime._instance
    runtime.Runtime._instance = None
    try:
        found = stand_in(Path(tracker.__file__).parent / "app.py")
    finally:
        runtime.Runtime._instance = before
    assert found == set(ROUTES)
    assert {each: guard.is_closed(each) for each, closed in ROUTES.items() if closed is not None} == {
        each: closed for each, closed in ROUTES.items() if closed is not None
    }


def test_settings_have_the_names_that_they_are_given():
    known = config._config_options_template
    theme = {name for name in app.theme() if name not in known}
    assert {*app.SETTINGS} - {*known} == set()
    assert theme == set()
    for name in (
        "server.sslCertFile",
        "server.sslKeyFile",
        "server.maxWidgetStateSize",
        "server.enableWebsocketCompression",
    ):
        assert name in known
    assert list(inspect.signature(bootstrap.load_config_options).parameters) == ["flag_options"]
    assert ForwardMsg().auth_redirect.url == ""  # what sends a removed device's page away


def test_a_logger_of_its_own_can_be_led_to_ours(monkeypatch):
    monkeypatch.setattr(logger, "setup_formatter", logger.setup_formatter)
    lines._of_streamlit()
    made = logger.get_logger("streamlit.made_for_this_test")
    assert (made.propagate, made.handlers) == (True, [])


def test_uploads_lie_where_they_are_counted():
    manager = MemoryUploadedFileManager("/x")
    assert manager.file_storage == {}
    with manager._lock:
        pass


def test_what_a_run_began_with_can_be_seen():
    state = SessionState()
    assert isinstance(state._new_widget_state, WStates)
    assert (state._new_widget_state.states, state._new_widget_state.widget_metadata) == ({}, {})
    assert list(inspect.signature(Serialized).parameters) == ["value"]


def test_a_connection_can_be_given_deadlines():
    used = (
        "connection_made",
        "connection_lost",
        "data_received",
        "on_response_complete",
        "pause_writing",
        "resume_writing",
        "send_400_response",
    )
    assert [name for name in used if name not in vars(H11Protocol)] == []
    assert "if self.disconnected:\n            return" in inspect.getsource(RequestResponseCycle.send)
    source = inspect.getsource(H11Protocol)
    assert "on_response=self.on_response_complete" in source  # or the rest of a body would be waited for
    assert '"state": self.app_state.copy()' in source  # or a request would not know its place
    assert "app_state=self.app_state" in source  # nor a socket
    assert {h11.IDLE, h11.SEND_BODY, h11.DONE}
    assert "websockets-sansio" in uvicorn.config.WS_PROTOCOLS
    heard = inspect.getsource(WebSocketsSansIOProtocol)  # what a page may say, tracker/door/messages.py
    for used in (
        "def send_receive_event_to_app",
        "self.frames = []",
        "self.read_paused = True",
        "self.conn = ServerProtocol(",
    ):
        assert used in heard
    assert "max_size = self.max_message_size" in inspect.getsource(ServerProtocol.__mro__[1])
    from uvicorn.protocols.http.flow_control import FlowControl

    assert "self.read_paused" in inspect.getsource(FlowControl)


def test_a_touch_is_whole_before_a_newer_request_is_looked_for():
    from streamlit.runtime.state.safe_session_state import SafeSessionState

    from tracker.components.frame import whole_touches

    looked: list[str] = []
    during: list[list[str]] = []

    class Kept(SessionState):
        def on_script_will_rerun(self, *_args: object, **_options: object) -> None:
            _ = "anything" in state  # as a callback looks into the page's state
            during.append([*looked])

    state = SafeSessionState(Kept(), lambda: looked.append("looked"))
    whole_touches.keep_whole()
    whole_touches.keep_whole()
    state.on_script_will_rerun(None)
    assert during == [[]]
    _ = "anything" in state
    assert looked == ["looked"]
    assert "_yield_callback" not in state
