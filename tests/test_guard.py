"""What stands before Streamlit where members sign in: no upload of a stranger, and cookies for https only."""

from __future__ import annotations

from streamlit.web.server.starlette.starlette_app_utils import create_signed_value

from tests.apart import apart
from tracker.guard import COOKIE, Guard
from tracker.sign_in import SignIn

SECRET = "5c" * 32
UPLOAD = "/_stcore/upload_file/some-session/some-file"


def members(address="https://log.example"):
    return SignIn("https://id.example", "tidemark", "hush", SECRET, address)


def asked(path, cookie="", *, who=None):
    """Return status and headers of an answer, and whether the pages were reached."""
    sent, reached = [], []

    async def pages(_scope, _receive, send):
        reached.append(path)
        headers = [(b"set-cookie", f"{COOKIE}=x; HttpOnly".encode()), (b"set-cookie", b"other=y")]
        await send({"type": "http.response.start", "status": 200, "headers": headers})
        await send({"type": "http.response.body", "body": b""})

    async def send(message):
        sent.append(message)

    async def receive():
        raise AssertionError("nothing of an upload is read before it is known whose it is")

    scope = {"type": "http", "path": path, "headers": [(b"cookie", cookie.encode())] if cookie else []}
    apart(Guard(pages, members=who)(scope, receive, send))
    return sent[0]["status"], [value for name, value in sent[0]["headers"] if name == b"set-cookie"], bool(reached)


def test_an_upload_wants_a_cookie_that_was_signed_here():
    good = create_signed_value(SECRET, COOKIE, '{"sub": "ana"}').decode()
    assert asked(UPLOAD, f"{COOKIE}={good}", who=members())[2]
    forged = create_signed_value("6d" * 32, COOKIE, '{"sub": "ana"}').decode()
    for cookie in ("", f"{COOKIE}=", f"{COOKIE}={forged}", f"{COOKIE}={good[:-3]}", f"other={good}"):
        status, _, reached = asked(UPLOAD, cookie, who=members())
        assert (status, reached) == (403, False), cookie
    assert asked("/", who=members())[2]  # the page itself shows the way in
    assert asked(UPLOAD)[2]  # the household


def test_cookies_of_sign_in_travel_encrypted_only_where_the_address_is():
    plain, other = f"{COOKIE}=x; HttpOnly".encode(), b"other=y"
    assert asked("/", who=members())[1] == [plain + b"; Secure", other]
    assert asked("/", who=members("http://127.0.0.1:9444"))[1] == [plain, other]
    assert asked("/")[1] == [plain, other]
