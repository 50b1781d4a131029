"""Serves the day page beside the pages, behind the same gate and walls: a shell without anybody's data, its modules, its API.

The shell and the modules are the same for everybody and need no sign-in, for the service worker keeps them. Whose day it is
only the API says: it answers who may not ask with 401 or 403 and a JSON text, never with another page.
"""

from __future__ import annotations

import gzip
import hashlib
import json
from collections.abc import Awaitable, Callable, MutableMapping
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs

from anyio import to_thread

from tracker.desk.base.cached import page_snapshot
from tracker.desk.people import people
from tracker.door.guard import IDENTITY
from tracker.errors import TidemarkError
from tracker.log.unit_of_work import Log
from tracker.log.who import HERE, Who, acting
from tracker.pocket import acts
from tracker.pocket.plan import member_of, plan_kept
from tracker.pocket.post import FORMATS, BadPostError, OtherMemberError

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Message, Receive, Send], Awaitable[None]]
Identity = tuple[str, str]

PAGE = Path(__file__).parent / "page"
ROOT = "/day/"
HEADER = b"tidemark-day"  # a form of another site can't send it
PAGES_FIRST = b"tidemark-first=pages"  # a cookie of the page's own script
MOMENT_MS = 300_000  # a plan is made anew after so long, though nothing was written
MOST_POST = 128_000  # bytes
KINDS = {".js": "text/javascript", ".css": "text/css", ".html": "text/html", ".svg": "image/svg+xml"}
FOREVER, NEVER = "public, max-age=31536000, immutable", "no-cache"


class Pocket:
    """Answers what is under `/day`, and passes on the rest.

    Args:
        app: What stands behind.
        log: Opens the log of this server.
        signs_in: Whether members sign in; then whoever did not gets no data.
        knows: Says who an identity is.
        icon: The program's icon, as SVG.
    """

    def __init__(
        self,
        app: App,
        log: Callable[[], Log],
        *,
        signs_in: bool = False,
        knows: Callable[[Identity], Who] | None = None,
        icon: str = "",
    ) -> None:
        self.app, self.log, self.signs_in, self.knows, self.icon = app, log, signs_in, knows, icon

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        path = scope.get("path", "")
        if scope["type"] == "http" and path == "/" and _lands_here(scope) and await self._may_land(scope):
            headers = [(b"location", ROOT.encode()), (b"cache-control", b"no-store"), (b"content-length", b"0")]
            await send({"type": "http.response.start", "status": 303, "headers": headers})
            await send({"type": "http.response.body", "body": b""})
            return
        if scope["type"] != "http" or not (path == ROOT[:-1] or path.startswith(ROOT)):
            await self.app(scope, receive, send)
            return
        status, kind, body, more = await self._answer(scope, receive, path)
        headers = [(b"content-type", kind.encode()), *((name.encode(), value.encode()) for name, value in more.items())]
        if len(body) > 500 and _takes_gzip(scope):
            body = _packed(body)
            headers += [(b"content-encoding", b"gzip"), (b"vary", b"accept-encoding")]
        headers.append((b"content-length", b"%d" % len(body)))
        await send({"type": "http.response.start", "status": status, "headers": headers})
        await send({"type": "http.response.body", "body": b"" if scope["method"] == "HEAD" else body})

    async def _may_land(self, scope: Message) -> bool:
        """Whether it is known whose day it is: else the pages ask for sign-in, or say what is wrong."""
        if not self.signs_in:
            return True
        try:
            return await to_thread.run_sync(self._who, scope.get("state", {}).get(IDENTITY)) is not None
        except TidemarkError:
            return False

    async def _answer(self, scope: Message, receive: Receive, path: str) -> tuple[int, str, bytes, dict[str, str]]:
        method, query = scope["method"], scope.get("query_string", b"").decode("latin-1")
        if path == ROOT[:-1]:
            return (
                307,
                "text/plain",
                b"",
                {"location": ROOT + (f"?{query}" if query else ""), "cache-control": "no-store"},
            )
        if path.startswith(ROOT + "api/"):
            return await self._api(scope, receive, path.removeprefix(ROOT + "api/"), query)
        if method not in ("GET", "HEAD"):
            return 405, "text/plain", b"This is read only.", {}
        found = served(self.icon).get(path.removeprefix(ROOT))
        if found is None:
            return (
                404,
                "text/plain; charset=utf-8",
                b"There is no such file of the day page.",
                {"cache-control": "no-store"},
            )
        kind, body, kept = found
        return 200, kind, body, {"cache-control": FOREVER if kept else NEVER}

    async def _api(
        self, scope: Message, receive: Receive, name: str, query: str
    ) -> tuple[int, str, bytes, dict[str, str]]:
        asked = {key: values[-1] for key, values in parse_qs(query[:2000]).items()}
        identity = scope.get("state", {}).get(IDENTITY) if self.signs_in else None
        method = scope["method"]
        if name == "acts":
            if method != "POST" or not _is_ours(scope):
                return _said(403, {"day": 1, "error": "foreign", "words": "That comes from another page."})
            text = await _body(receive)
            if text is None:
                return _said(413, {"day": 1, "error": "too much", "words": "Send fewer at once."})
            return _said(*await to_thread.run_sync(self._acts, identity, asked, text))
        if method != "GET" or name not in ("ping", "plan"):
            return _said(404, {"day": 1, "error": "unknown"})
        return _said(*await to_thread.run_sync(self._ping if name == "ping" else self._plan, identity, asked))

    def _who(self, identity: Identity | None) -> Who | None:
        if not self.signs_in:
            return HERE
        found = self.knows(identity) if identity and self.knows else None
        return found if found and found.member_id else None

    def _ping(self, identity: Identity | None, asked: dict[str, str]) -> tuple[int, dict[str, Any]]:
        with _told() as told:
            person = self._who(identity)
            told.say(200, {"user": person.member_id if person else None, "sign_in": self.signs_in})
        return told.status, {**told.said, "day": 1, "f": list(FORMATS), "v": version(), "now": _now_ms()}

    def _plan(self, identity: Identity | None, asked: dict[str, str]) -> tuple[int, dict[str, Any]]:
        with _told() as told:
            person = self._who(identity)
            if person is None:
                told.say(401, {"error": "sign in"})
            else:
                with acting(person), page_snapshot():
                    log = self.log()
                    known = people.members(log) if self.signs_in else people.of_household(people.members(log))
                    wanted = person.member_id or asked.get("member", "")
                    member = member_of(known, wanted)
                    if member is None:
                        told.say(200, {"nobody": True})
                    else:
                        moment = _now_ms() // MOMENT_MS
                        plan = plan_kept(log, member.id, _day(asked.get("day")), asked.get("session"), moment)
                        names = [] if self.signs_in else [each.name for each in known]
                        as_of = datetime.now(UTC).isoformat(timespec="seconds")  # nothing was written since it was made
                        told.say(200, {**plan, "as_of": as_of, "members": names, "sign_in": self.signs_in})
        return told.status, {**told.said, "v": version(), "now": _now_ms()}

    def _acts(self, identity: Identity | None, asked: dict[str, str], text: bytes) -> tuple[int, dict[str, Any]]:
        arrived = datetime.now(UTC)
        with _told() as told:
            person = self._who(identity)
            if person is None:
                told.say(401, {"error": "sign in"})
            else:
                told.say(*self._taken(person, text, arrived))
        return told.status, {**told.said, "day": 1, "now": _now_ms()}

    def _taken(self, person: Who, text: bytes, arrived: datetime) -> tuple[int, dict[str, Any]]:
        try:
            post = json.loads(text)
        except (ValueError, RecursionError):
            return 400, {"error": "bad", "words": "It is no JSON."}
        with acting(person):
            log = self.log()
            wanted = str(post.get("user", "")) if isinstance(post, dict) else ""
            if person.member_id and wanted != person.member_id:
                return 403, {"error": "other user", "words": "These acts are of somebody else."}
            if not wanted or people.member(log, wanted) is None:
                return 403, {"error": "other user", "words": "There is no such member in this log."}
            try:
                results = acts.take(log, wanted, post, arrived)
            except OtherMemberError as err:
                return 403, {"error": "other user", "words": str(err)}
            except BadPostError as err:
                return 426 if "version" in err.what else 400, {"error": "bad", "words": str(err)}
        return 200, {"results": [each.record() for each in results]}


class _told:  # noqa: N801  # reads as what it does
    """What is answered; what goes wrong in the log within is told as 503, and the phone keeps what it has."""

    def __init__(self) -> None:
        self.status, self.said = 503, dict[str, Any]()

    def say(self, status: int, said: dict[str, Any]) -> None:
        self.status, self.said = status, said

    def __enter__(self) -> _told:
        return self

    def __exit__(self, _kind: object, error: BaseException | None, _where: object) -> bool:
        if isinstance(error, TidemarkError):
            missing = error.where == "member"
            self.say(404 if missing else 503, {"error": "no member" if missing else "log", "words": str(error)})
            return True
        return False


def _lands_here(scope: Message) -> bool:
    """Whether a phone opens the bare address, and has not chosen the pages before.

    An address that says more than where the program is (a member, a day, a page) is meant as it is.
    """
    headers = {name.lower(): value for name, value in scope["headers"]}
    phone = headers.get(b"sec-ch-ua-mobile") == b"?1" or b"Mobi" in headers.get(b"user-agent", b"")
    page = scope["method"] == "GET" and b"text/html" in headers.get(b"accept", b"")
    cookies = (each.strip() for each in headers.get(b"cookie", b"").split(b";"))
    return phone and page and not scope.get("query_string") and PAGES_FIRST not in cookies


def _is_ours(scope: Message) -> bool:
    """A page of ours asks: it names its origin (which the gate has held to ours) and sends a header that no form can."""
    headers = {name.lower(): value for name, value in scope["headers"]}
    return (
        bool(headers.get(b"origin"))
        and headers.get(HEADER) == b"1"
        and headers.get(b"content-type", b"").split(b";")[0].strip() == b"application/json"
    )


async def _body(receive: Receive) -> bytes | None:
    body = bytearray()
    while True:
        message = await receive()
        if message["type"] != "http.request":
            return None
        body.extend(message.get("body", b""))
        if len(body) > MOST_POST:
            return None
        if not message.get("more_body"):
            return bytes(body)


def _said(status: int, said: dict[str, Any]) -> tuple[int, str, bytes, dict[str, str]]:
    text = json.dumps(said, separators=(",", ":"), ensure_ascii=False)
    return status, "application/json", text.encode(), {"cache-control": "no-store"}


def _day(text: str | None) -> date:
    """Return the phone's own day, where it is one that can be written on; else the server's."""
    try:
        return people.check_day(date.fromisoformat(text or ""))
    except (ValueError, TidemarkError):
        return date.today()


def _now_ms() -> int:
    return round(datetime.now(UTC).timestamp() * 1000)


def _takes_gzip(scope: Message) -> bool:
    return any(name.lower() == b"accept-encoding" and b"gzip" in value for name, value in scope["headers"])


@cache
def _packed_kept(body: bytes) -> bytes:
    return gzip.compress(body, 9, mtime=0)


def _packed(body: bytes) -> bytes:
    return _packed_kept(body) if body in _kept() else gzip.compress(body, 5, mtime=0)


@cache
def _kept() -> frozenset[bytes]:
    return frozenset(body for _, body, kept in served("").values() if kept)


@cache
def version() -> str:
    """Return the version of the page: a digest over all its files, so that no two versions are ever mixed."""
    found = hashlib.sha256()
    for path in sorted(PAGE.iterdir()):
        found.update(path.name.encode() + b"\0" + path.read_bytes() + b"\0")
    return found.hexdigest()[:16]


def module(name: str) -> str:
    """Return the address of one of the page's modules, in this version."""
    return f"{ROOT}v/{version()}/{name}"


@cache
def served(icon: str) -> dict[str, tuple[str, bytes, bool]]:
    """Return every file by its address below `/day/`: its kind, its bytes, and whether browsers may keep it for good."""
    tag = version()
    modules = {
        f"v/{tag}/{path.name}": path
        for path in sorted(PAGE.iterdir())
        if path.suffix == ".js" and path.name not in ("sw.js", "early.js")
    }
    found = {name: (f"{KINDS[path.suffix]}; charset=utf-8", path.read_bytes(), True) for name, path in modules.items()}
    found[f"v/{tag}/icon.svg"] = ("image/svg+xml", _icon(icon), True)
    links = "".join(f'<link rel="modulepreload" href="{ROOT}{name}">' for name in modules)
    shell = (PAGE / "index.html").read_text(encoding="utf-8").replace("{v}", tag).replace("{preload}", links)
    for name, within in (
        ("early.js", "{early}"),
        ("day.css", "{style}"),
    ):  # in the shell itself: each fetch takes its time
        shell = shell.replace(within, (PAGE / name).read_text(encoding="utf-8").strip())
    found[""] = ("text/html; charset=utf-8", shell.encode(), False)
    files = json.dumps([ROOT, *(ROOT + name for name in found if name)])
    worker = (PAGE / "sw.js").read_text(encoding="utf-8").replace("{v}", tag).replace('"{files}"', files)
    found["sw.js"] = ("text/javascript; charset=utf-8", worker.encode(), False)
    found["manifest.json"] = ("application/manifest+json", _manifest(tag), False)
    return found


def _icon(icon: str) -> bytes:
    """Put the program's icon on a ground of its own, as a home screen wants it."""
    inner = icon.partition(">")[2].removesuffix("</svg>")
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 48 48"><rect width="48" height="48" fill="#FBFAF6"/>'
        '<g transform="translate(10.8 13) scale(1.1)" fill="none" stroke="#0B6472" stroke-width="2.4" stroke-linecap="round">'
        f"{inner}</g></svg>"
    ).encode()


def _manifest(tag: str) -> bytes:
    icon = {"src": f"{ROOT}v/{tag}/icon.svg", "sizes": "any", "type": "image/svg+xml", "purpose": "any maskable"}
    return json.dumps(
        {
            "name": "Tidemark: the day",
            "short_name": "Tidemark",
            "description": "The next set, with a connection and without one.",
            "id": ROOT,
            "start_url": ROOT,
            "scope": ROOT,
            "display": "standalone",
            "background_color": "#FBFAF6",
            "theme_color": "#0B6472",
            "icons": [icon],
        }
    ).encode()
