"""What stands before Streamlit: who gets files and uploads, what uploads may hold, and cookies for https only."""

from __future__ import annotations

import json
import random
import time

import pytest
from starlette.requests import ClientDisconnect
from streamlit.auth_util import set_cookie_with_chunks
from streamlit.web.server.starlette.starlette_app_utils import create_signed_value

from tests.apart import apart
from tracker.door.crowd import SEAT
from tracker.door.guard import COOKIE, Guard, is_closed
from tracker.door.sign_in import AHEAD_S, DAY_S, SignIn
from tracker.door.uploads import Limits, TooMuchError, Uploads
from tracker.door.visitor import Visitor, header_of

SECRET = "5c" * 32
UPLOAD = "/_stcore/upload_file/some-session/some-file"
ANA = ("https://id.example", "ana")


DEEP = "[" * 100_000  # deeper than Python reads


def members(address="https://log.example"):
    return SignIn("https://id.example", "tidemark", "hush", SECRET, address)


def cookie(*, secret=SECRET, **changes):
    claims = {"iss": ANA[0], "sub": ANA[1], "iat": time.time(), "origin": "https://log.example", "is_logged_in": True}
    return create_signed_value(secret, COOKIE, json.dumps(claims | changes)).decode()


def signed(text):
    return create_signed_value(SECRET, COOKIE, text).decode()


class Place:
    """The place of a connection, that notes whether it is known."""

    known = False

    def know(self):
        self.known = True


def asked(path, shown="", *, who=None, known=(ANA,), method="GET", uploads=None, more=(), kind="http", place=None):
    """Return status and headers of an answer, and the headers with which the pages were reached, if they were."""
    sent, reached = [], []

    async def pages(inner, _receive, send):
        reached.append(inner["headers"])
        headers = [(b"set-cookie", f"{COOKIE}=x; HttpOnly".encode()), (b"set-cookie", b"other=y")]
        await send({"type": "http.response.start", "status": 200, "headers": headers})
        await send({"type": "http.response.body", "body": b""})

    async def send(message):
        sent.append(message)

    async def receive():
        raise AssertionError("nothing of an upload is read before it is known whose it is")

    headers = [(b"cookie", shown.encode()), *more] if shown else list(more)
    scope = {"type": kind, "path": path, "headers": headers, "state": {SEAT: place} if place else {}}
    scope |= {"method": method} if kind == "http" else {}
    apart(Guard(pages, members=who, knows=lambda each: each in known, uploads=uploads)(scope, receive, send))
    return sent[0]["status"], [value for name, value in sent[0]["headers"] if name == b"set-cookie"], reached


def test_signing_out_ends_that_sign_in_wherever_its_cookie_is_still_held():
    """OpenID Connect Core 1.0, section 3.1.3.7: the nonce is of one sign-in; another one of the same person goes on."""
    moment = time.time()
    gone, other = (cookie(iat=moment, nonce=each) for each in ("one", "two"))
    claims = {
        "iss": ANA[0],
        "sub": ANA[1],
        "iat": moment,
        "nonce": "one",
        "is_logged_in": True,
    }  # as an open page has them
    assert asked(UPLOAD, f"{COOKIE}={gone}", who=members())[2]
    assert members().identity(claims, moment) == ANA
    asked(
        "/auth/logout", f"{COOKIE}={cookie(iat=moment, nonce='one', secret='6d' * 32)}", who=members()
    )  # signed by another
    assert members().identity(claims, moment) == ANA
    assert asked("/auth/logout", f"{COOKIE}={gone}", who=members())[2]  # and Streamlit takes the cookie away
    assert asked(UPLOAD, f"{COOKIE}={gone}", who=members())[0] == 403
    assert members().identity(claims, moment) is None
    assert asked(UPLOAD, f"{COOKIE}={other}", who=members())[2]


def test_an_upload_wants_a_cookie_that_was_signed_here_and_an_account():
    good = cookie()
    assert asked(UPLOAD, f"{COOKIE}={good}", who=members())[2]
    bad = {
        "": "none", f"{COOKIE}=": "empty", f"{COOKIE}={cookie(secret='6d' * 32)}": "another secret",
        f"{COOKIE}={good[:-3]}": "broken", f"other={good}": "another name", f"{COOKIE}={cookie(sub='zoe')}": "no account",
        f"{COOKIE}={cookie(iss='https://else.example')}": "another provider", f"{COOKIE}={cookie(origin='x')}": "another place",
    }  # fmt: skip
    for shown, why in bad.items():
        status, _, reached = asked(UPLOAD, shown, who=members())
        assert (status, reached) == (403, []), why
    assert asked("/", who=members())[2]  # the page itself shows the way in
    assert asked(UPLOAD)[2]  # the household


@pytest.mark.parametrize("text", [DEEP, '{"a":' * 50_000, "[]", "7", "null", '"text"', "{"])
def test_a_signed_cookie_that_holds_no_claims_is_no_cookie(text):
    shown = f"{COOKIE}={signed(text)}"
    assert asked(UPLOAD, shown, who=members())[0] == 403
    for kind in ("http", "websocket"):  # behind this, Streamlit would read it again and stumble
        assert asked("/", f"{shown}; other=x", who=members(), kind=kind)[2] == [[]]


def test_a_cookie_with_claims_is_left_to_those_behind():
    shown = f"other=x; {COOKIE}={cookie()}"
    assert asked("/", shown, who=members())[2] == [[(b"cookie", shown.encode())]]
    assert asked("/", "other=x", who=members())[2] == [[(b"cookie", b"other=x")]]


def test_a_cookie_that_was_too_long_for_one_is_read_from_its_parts():
    parts: dict[str, str] = {}

    def sign(name, value):
        return create_signed_value(SECRET, name, value)

    def keep(name, value):
        parts[name] = sign(name, value).decode()

    claims = {"iss": ANA[0], "sub": ANA[1], "iat": time.time(), "origin": "https://log.example", "is_logged_in": True}
    set_cookie_with_chunks(
        keep, sign, COOKIE, claims | {"more": random.Random(7).randbytes(4_000).hex()}, cookie_attr_size=60
    )
    assert len(parts) > 2
    assert asked(UPLOAD, "; ".join(f"{name}={value}" for name, value in parts.items()), who=members())[2]


@pytest.mark.parametrize(
    ("since", "counts"),
    [
        (0, True), (AHEAD_S - 5, True), (AHEAD_S + 5, False), (10**12, False), (float("inf"), False), (float("nan"), False),
        (-14 * DAY_S + 5, True), (-14 * DAY_S - 5, False), (None, False), ("now", False),
    ],
)  # fmt: skip
def test_a_sign_in_counts_from_its_moment_to_its_end(since, counts):
    now = 1_800_000_000.0
    moment = now + since if isinstance(since, int | float) else since
    claims = {"iss": ANA[0], "sub": ANA[1], "is_logged_in": True, "iat": moment}
    assert members().identity(claims, now) == (ANA if counts else None)


@pytest.mark.parametrize("odd", ["\ud800", "a\0b", "", ["ana"], 7, None])
def test_who_is_named_by_what_no_log_can_hold_is_nobody(odd):
    claims = {"iss": ANA[0], "sub": ANA[1], "is_logged_in": True, "iat": 1_800_000_000.0}
    for name in ("iss", "sub"):
        assert members().identity(claims | {name: odd}, 1_800_000_000.0) is None


@pytest.mark.parametrize(
    ("path", "closed"),
    [
        ("/", False), ("/today", False), ("/static/media/font.woff2", False), ("/favicon.png", False), ("/auth/login", False),
        ("/oauth2callback", False), ("/_stcore/health", False), ("/_stcore/health/x", True), ("/_stcore", True),
        ("/media/x.csv", True), ("//media//x.csv", True), ("/base/media/x.csv", True), ("/base/static/media/x", False),
        ("/component/a/b", True), ("/_stcore/metrics", True), ("/_stcore/static/x", True), ("/app/static/x", True),
    ],
)  # fmt: skip
def test_what_is_not_for_everybody(path, closed):
    assert is_closed(path) is closed


def test_who_signed_in_is_no_stranger_among_the_connections():
    for kind in ("http", "websocket"):
        known, stranger = Place(), Place()
        asked("/today", f"{COOKIE}={cookie()}", who=members(), place=known, kind=kind)
        asked("/today", who=members(), place=stranger, kind=kind)
        assert (known.known, stranger.known) == (True, False)


def test_cookies_of_sign_in_travel_encrypted_only_where_the_address_is():
    plain, other = f"{COOKIE}=x; HttpOnly".encode(), b"other=y"
    assert asked("/", who=members())[1] == [plain + b"; Secure", other]
    assert asked("/", who=members("http://127.0.0.1:9444"))[1] == [plain, other]
    assert asked("/")[1] == [plain, other]


def test_an_upload_says_how_long_it_is_and_there_is_room_for_it():
    uploads = Uploads(lambda: {"some-session": 70}, Limits(of_session=100, of_person=1_000, of_all=10_000))
    for length, status in ((b"30", 200), (b"31", 413), (b"", 411), (b"-5", 411), (b"1e3", 411)):
        more = [(b"content-length", length)] if length else []
        assert asked(UPLOAD, method="PUT", uploads=uploads, more=more)[0] == status, length
    assert uploads.coming.total() == 0


def test_what_one_device_holds_leaves_room_for_another():
    uploads = Uploads(lambda: {"one": 50, "two": 40}, Limits(of_session=100, of_person=100, of_all=1_000))
    phone, other = (header_of(Visitor("phone", each)) for each in ("p1", "p2"))
    for session, size in (("one", b"10"), ("two", b"10")):
        path = f"/_stcore/upload_file/{session}/f"
        assert asked(path, method="PUT", uploads=uploads, more=[phone, (b"content-length", size)])[0] == 200
    again = [(b"content-length", b"11")]
    assert asked("/_stcore/upload_file/three/f", method="PUT", uploads=uploads, more=[phone, *again])[0] == 413
    assert asked("/_stcore/upload_file/three/f", method="PUT", uploads=uploads, more=[other, *again])[0] == 200


def test_what_is_on_its_way_counts_and_what_was_given_back_does_not():
    held = {"one": 50}
    uploads = Uploads(lambda: held, Limits(of_session=100, of_person=1_000, of_all=120))
    with uploads.take("one", "ana", 40):
        with pytest.raises(TooMuchError, match="this page"), uploads.take("one", "ana", 20):
            pass
        with pytest.raises(TooMuchError, match="all pages"), uploads.take("two", "ben", 40):
            pass
    held.clear()
    with uploads.take("one", "ana", 100):
        pass


def test_an_upload_that_its_browser_breaks_off_ends_quietly_and_holds_no_room():
    sent = []

    async def pages(_scope, _receive, _send):
        raise ClientDisconnect

    async def send(message):
        sent.append(message)

    uploads = Uploads(dict)
    scope = {"type": "http", "path": UPLOAD, "method": "PUT", "headers": [(b"content-length", b"90")], "state": {}}
    apart(Guard(pages, uploads=uploads)(scope, send, send))
    assert (sent, uploads.coming.total()) == ([], 0)
