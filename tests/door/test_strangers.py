"""A server where members sign in, attacked over real connections: strangers whom the provider knows, and none at all."""

from __future__ import annotations

import contextlib
import http.client
import json
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlsplit

import pytest
from streamlit.proto.BackMsg_pb2 import BackMsg
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg
from streamlit.web.server.starlette.starlette_app_utils import create_signed_value
from websockets.exceptions import ConnectionClosed
from websockets.sync.client import connect
from websockets.typing import Subprotocol

from tests.browser.conftest import free_port, well
from tests.door.test_server import listen
from tracker.desk.base.opening import open_log
from tracker.desk.people import accounts
from tracker.log.keeper import Log

ISSUER, SECRET, COOKIE = "http://127.0.0.1:9", "3f" * 32, "_streamlit_user"
MEGABYTE = 1024 * 1024
OPEN = {  # what whoever has no cookie gets: the page that shows the way in, and whether the server is well
    "/": 200, "/today": 200, "/nowhere": 200, "/static/js/x.js": 200, "/_stcore/health": 200, "/_stcore/host-config": 200,
    "/manifest.json": 200,
}  # fmt: skip
CLOSED = [
    "/media/x.csv", "/media/", "/component/x/y", "/_stcore/metrics", "/_stcore/bidi-components/x/y", "/_stcore/agent/openapi.json",
    "/_stcore/agent/interact", "/_stcore/agent/mcp", "/_stcore/script-health-check", "/_stcore/upload_file/a/b", "/_stcore/nowhere",
]  # fmt: skip


@dataclass(frozen=True)
class Served:
    url: str
    log: Log
    process: int

    def cookie(self, subject: str, **changes: Any) -> str:
        claims = {
            "iss": ISSUER,
            "sub": subject,
            "iat": int(time.time()),
            "origin": self.url,
            "is_logged_in": True,
            **changes,
        }
        return f"{COOKIE}={create_signed_value(SECRET, COOKIE, json.dumps(claims)).decode()}"

    def ask(
        self, method: str, path: str, cookie: str = "", body: bytes | None = None, **headers: str
    ) -> tuple[int, bytes]:
        token = self.token()
        cookies = "; ".join(each for each in (cookie, f"_streamlit_xsrf={token}") if each)
        line = http.client.HTTPConnection(
            urlsplit(self.url).netloc, timeout=60
        )  # which stays open, as a browser's does
        try:
            line.request(method, path, body, {**headers, "X-Xsrftoken": token, "Cookie": cookies})
            answer = line.getresponse()
            return answer.status, answer.read()
        finally:
            line.close()

    def token(self) -> str:
        with urllib.request.urlopen(f"{self.url}/_stcore/health", timeout=20) as answer:
            return answer.headers["set-cookie"].split(";")[0].partition("=")[2]

    @contextlib.contextmanager
    def session(self) -> Iterator[str]:
        """Open a page's socket as nobody, and return the name of its session."""
        url = f"{self.url.replace('http', 'ws')}/_stcore/stream"
        with connect(url, subprotocols=[Subprotocol("streamlit")], max_size=None) as stream:
            ask = BackMsg()
            ask.rerun_script.query_string = ""
            stream.send(ask.SerializeToString())
            while True:
                message = ForwardMsg.FromString(stream.recv(timeout=60))  # type: ignore[arg-type]  # bytes
                if message.WhichOneof("type") == "new_session":
                    yield message.new_session.initialize.session_id
                    return

    def upload(self, session: str, name: str, size: int, cookie: str) -> int:
        head = b'--cut\r\nContent-Disposition: form-data; name="f"; filename="f.csv"\r\nContent-Type: text/csv\r\n\r\n'
        body = head + b"x" * size + b"\r\n--cut--\r\n"
        kind = {"Content-Type": "multipart/form-data; boundary=cut"}
        return self.ask("PUT", f"/_stcore/upload_file/{session}/{name}", cookie, body, **kind)[0]

    def megabytes(self) -> float:
        """What the server holds in memory."""
        with open(f"/proc/{self.process}/status", encoding="ascii") as status:  # noqa: PTH123 - no file of ours
            return next(int(line.split()[1]) for line in status if line.startswith("VmRSS")) / 1024


@pytest.fixture(scope="module")
def served(store: Any, gym_world: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    folder = tmp_path_factory.mktemp("strangers")
    address = store.copy("empty", None, folder)
    log = open_log(address)
    gym_world.into(log)
    for each in accounts.accounts(log):
        accounts.remove_account(log, each.id)
    accounts.enter(log, ISSUER, "ana", "member", gym_world.of["Ana"].id)
    accounts.enter(log, ISSUER, "cyr", "member", gym_world.of["Cyr"].id)
    port = free_port()
    url = f"http://127.0.0.1:{port}"
    settings = folder / "sign_in.toml"
    settings.write_text(
        f'provider = "{ISSUER}/.well-known/openid-configuration"\nclient_id = "tidemark"\nclient_secret = "hush"\n'
        f'cookie_secret = "{SECRET}"\naddress = "{url}"\n'
    )
    settings.chmod(0o600)
    process = subprocess.Popen(
        [sys.executable, "-m", "tracker", "open", "--port", str(port), "--sign-in", str(settings), "--database", address],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        well(process, url)
        yield Served(url, log, process.pid)
    finally:
        process.terminate()
        process.wait(timeout=30)
        log.close()


def test_what_whoever_has_no_cookie_gets(served: Served):
    found = {path: served.ask("GET", path, Accept="text/html")[0] for path in OPEN}
    assert found == OPEN
    for path in CLOSED:
        for method in ("GET", "HEAD", "POST", "PUT", "DELETE", "OPTIONS"):
            assert served.ask(method, path)[0] == 403, (method, path)


def test_a_file_is_for_who_has_an_account(served: Served):
    path = "/media/0123456789abcdef.csv"
    assert served.ask("GET", path, served.cookie("ana"))[0] == 404  # no such file, and it was looked for
    for why, cookie in {
        "no account": served.cookie("zoe"),
        "a moment to come": served.cookie("ana", iat=int(time.time()) + 3_600),
        "a moment without end": served.cookie("ana", iat=float("inf")),
        "too long ago": served.cookie("ana", iat=int(time.time()) - 40 * 86_400),
        "signed out": served.cookie("ana", is_logged_in=False),
        "another address": served.cookie("ana", origin="http://elsewhere.example"),
        "no object": f"{COOKIE}={create_signed_value(SECRET, COOKIE, '[1]').decode()}",
        "no JSON": f"{COOKIE}={create_signed_value(SECRET, COOKIE, 'hello').decode()}",
    }.items():
        assert served.ask("GET", path, cookie)[0] == 403, why


def test_who_has_no_account_or_has_it_no_more_fills_no_memory(served: Served):
    before = served.megabytes()
    accounts.enter(served.log, ISSUER, "guest", "coach")
    found = next(each for each in accounts.accounts(served.log) if each.subject == "guest")
    with served.session() as session:
        assert served.upload(session, "first", 1_000, served.cookie("guest")) == 204
        accounts.remove_account(served.log, found.id)
        for subject in ("zoe", "guest"):
            answers = [
                served.upload(session, f"{subject}{at}", 60 * MEGABYTE, served.cookie(subject)) for at in range(4)
            ]
            assert set(answers) == {403}, answers
            assert served.upload(session, "small", 1_000, served.cookie(subject)) == 403
    assert served.megabytes() - before < 100


def test_who_has_not_signed_in_says_little_through_a_page(served: Served):
    url = f"{served.url.replace('http', 'ws')}/_stcore/stream"
    for cookie, size in ((None, 1_000), (served.cookie("ana"), 1_000_000)):
        ask = BackMsg()
        ask.rerun_script.query_string = f"x={'y' * size}"
        more = {"Cookie": cookie} if cookie else {}
        with connect(url, subprotocols=[Subprotocol("streamlit")], max_size=None, additional_headers=more) as stream:
            stream.send(ask.SerializeToString())
            assert stream.recv(timeout=60)
    with connect(url, subprotocols=[Subprotocol("streamlit")], max_size=None) as stream:
        stream.send(b"x" * 70_000)
        with pytest.raises(ConnectionClosed) as closed:
            listen(stream)
    assert closed.value.rcvd is not None
    assert closed.value.rcvd.code == 1009  # too big: RFC 6455, 7.4.1


def test_a_member_fills_a_session_and_all_of_their_sessions_only_so_far(served: Served):
    size, cookie = 60 * MEGABYTE, served.cookie("ana")
    with served.session() as one, served.session() as two, served.session() as other:
        assert [served.upload(one, name, size, cookie) for name in "abc"][:2] == [204, 204]
        assert served.upload(one, "small", 10 * MEGABYTE, cookie) == 413
        assert served.upload(two, "a", size, cookie) == 204
        assert served.upload(two, "small", 20 * MEGABYTE, cookie) == 413  # of all that the person holds
        assert served.upload(other, "a", 1_000, served.cookie("cyr")) == 204  # somebody else has their own room
        assert served.ask("DELETE", f"/_stcore/upload_file/{two}/a", cookie)[0] == 204
        assert served.upload(two, "small", 20 * MEGABYTE, cookie) == 204  # what was given back counts no more
