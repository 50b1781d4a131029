"""What the browser gets before the pages have started: the one HTML file with the look in it, and the next set."""

from __future__ import annotations

import asyncio
import re
from collections.abc import Mapping
from pathlib import Path

import pytest
import streamlit
from starlette.applications import Starlette
from starlette.responses import FileResponse, PlainTextResponse
from starlette.routing import Route

from tests.apart import apart
from tracker.door.front import ADDRESS, SCRIPT, Front

INDEX = Path(streamlit.__file__).parent / "static" / "index.html"  # the file that is really served
LOOK, SET = ".card { color: teal }", '<p class="big">3 × 62.5 kg</p>'


def answer(
    path: str, query: str = "", *, method: str = "GET", accept: str = "text/html,*/*", more=(), drawn=lambda _: SET
):
    """Return status, headers and body of what comes back, each header once."""
    messages = []

    async def page(_request):
        return FileResponse(INDEX)

    async def note(_request):
        return PlainTextResponse("</head></body>", headers={"etag": "kept"})

    async def send(message):
        messages.append(message)

    async def receive():
        await asyncio.Event().wait()  # the browser sends nothing more, and stays
        return {}

    routes = [Route(each, page) for each in ("/", "/trend", "/index.html", "/static/js/gone.js")] + [
        Route("/_stcore/health", note),
        Route("/note", note),
    ]
    headers = [(b"accept", accept.encode()), (b"accept-encoding", b"gzip"), *more]
    scope = {
        "type": "http", "method": method, "path": path, "query_string": query.encode(), "headers": headers, "root_path": "",
    }  # fmt: skip
    apart(Front(Starlette(routes=routes), LOOK, drawn)(scope, receive, send))
    (start,) = [each for each in messages if each["type"] == "http.response.start"]
    body = b"".join(each.get("body", b"") for each in messages)
    names = [name for name, _ in start["headers"]]
    assert len(set(names)) == len(names)
    return start["status"], dict(start["headers"]), body.decode()


def test_the_style_stands_last_in_the_body_and_the_script_before_all_others():
    status, headers, body = answer("/")
    assert status == 200
    assert int(headers[b"content-length"]) == len(body.encode())
    assert body.endswith(f"<style>{LOOK}</style></body>\n</html>\n")
    assert body.index(ADDRESS[1:]) < body.index('<script type="module"')


def test_all_that_the_page_needs_is_kept():
    before, body = INDEX.read_text(encoding="utf-8"), answer("/trend")[2]
    needed = re.findall(r"<(?:script|link|meta)\b[^>]*>", before)
    dropped = [each for each in needed if each not in body]
    assert len(needed) > 50
    assert [re.search(r'(?:rel)="([^"]+)"', each)[1] for each in dropped] == ["shortcut icon", "service-desc"]  # type: ignore[index]
    assert '<div id="root"></div>' in body
    assert body.startswith("<!DOCTYPE html>")


@pytest.mark.parametrize("path", ["/", "/trend", "/index.html", "/static/js/gone.js"])
@pytest.mark.parametrize("accept", ["text/html", "*/*"])
def test_the_page_says_whose_it_is_and_nothing_of_what_it_is_built_on(path, accept):
    assert "streamlit" in INDEX.read_text(encoding="utf-8").lower()
    body = re.sub(
        r'(?:src|href)="\./static/[^"]*"', "", answer(path, accept=accept)[2].replace(SCRIPT, "")
    )  # names of files
    assert "<title>Tidemark</title>" in body
    assert "need JavaScript" in body
    for word in ("streamlit", "snowflake", "agent", "mcp", "<!--", "run this app", "favicon", "generator"):
        assert word not in body.lower(), word


def test_a_copy_that_a_browser_kept_is_not_taken_for_good():
    tag = answer("/", drawn=None)[1]
    assert not {b"etag", b"last-modified"} & set(tag)
    known = ((b"if-none-match", b"*"), (b"if-modified-since", b"Fri, 01 Jan 2100 00:00:00 GMT"))
    assert answer("/", more=known)[0] == 200


def test_another_page_gets_the_look_and_no_script():
    _, _, body = answer("/trend")
    assert f"<style>{LOOK}</style>" in body
    assert ADDRESS[1:] not in body
    assert ADDRESS[1:] not in answer("/", drawn=None)[2]


@pytest.mark.parametrize(
    ("path", "method", "accept"),
    [
        ("/note", "GET", "text/html"),
        ("/_stcore/health", "GET", "text/html"),
        ("/", "HEAD", "text/html"),
    ],
)
def test_what_is_no_page_passes_as_it_is(path, method, accept):
    _, headers, body = answer(path, method=method, accept=accept)
    assert LOOK not in body
    assert b"etag" in headers


def test_a_page_that_is_not_there_stays_so():
    assert answer("/nowhere")[0] == 404


def test_the_next_set_is_asked_with_what_the_address_says_and_kept_by_nobody():
    asked: list[Mapping[str, str]] = []
    status, headers, body = answer(
        ADDRESS, "member=m1&zone=Europe%2FOslo", drawn=lambda given: asked.append(given) or SET
    )
    assert (status, body) == (200, SET)
    assert headers[b"cache-control"] == b"no-store"
    assert headers[b"content-type"] == b"text/html; charset=utf-8"
    assert asked == [{"member": "m1", "zone": "Europe/Oslo"}]


def test_where_no_set_is_due_there_is_no_content():
    assert answer(ADDRESS, drawn=lambda _: "")[0] == 204


@pytest.mark.parametrize("query", ["%ff%fe&&==&a", "x" * 100_000, "member=%00", "day=2026-02-31"])
def test_an_address_that_means_nothing_is_read_as_far_as_it_goes(query):
    asked: list[Mapping[str, str]] = []
    assert answer(ADDRESS, query, drawn=lambda given: asked.append(given) or SET)[0] == 200
    assert sum(map(len, asked[0].values())) <= 2_000


def test_where_members_sign_in_nothing_is_shown_before_it_is_known_who_asks():
    status, _, body = answer(ADDRESS, drawn=None)
    assert status == 404
    assert SET not in body
