"""What the browser gets before the pages have started: the one HTML file with the look in it."""

from __future__ import annotations

import asyncio
import re
from pathlib import Path

import pytest
import streamlit
from starlette.applications import Starlette
from starlette.responses import FileResponse, PlainTextResponse
from starlette.routing import Route

from tests.apart import apart
from tracker.door.front import Front

INDEX = Path(streamlit.__file__).parent / "static" / "index.html"  # the file that is really served
LOOK = ".card { color: teal }"


def answer(path: str, *, method: str = "GET", accept: str = "text/html,*/*", more=()):
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
        "type": "http", "method": method, "path": path, "query_string": b"", "headers": headers, "root_path": "",
    }  # fmt: skip
    apart(Front(Starlette(routes=routes), LOOK)(scope, receive, send))
    (start,) = [each for each in messages if each["type"] == "http.response.start"]
    body = b"".join(each.get("body", b"") for each in messages)
    names = [name for name, _ in start["headers"]]
    assert len(set(names)) == len(names)
    return start["status"], dict(start["headers"]), body.decode()


def test_the_style_stands_last_in_the_body():
    status, headers, body = answer("/")
    assert status == 200
    assert int(headers[b"content-length"]) == len(body.encode())
    assert body.endswith(f"<style>{LOOK}</style></body>\n</html>\n")


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
    body = re.sub(r'(?:src|href)="\./static/[^"]*"', "", answer(path, accept=accept)[2])  # names of files
    assert "<title>Tidemark</title>" in body
    assert "need JavaScript" in body
    for word in ("streamlit", "snowflake", "agent", "mcp", "<!--", "run this app", "favicon", "generator"):
        assert word not in body.lower(), word


def test_a_copy_that_a_browser_kept_is_not_taken_for_good():
    tag = answer("/")[1]
    assert not {b"etag", b"last-modified"} & set(tag)
    known = ((b"if-none-match", b"*"), (b"if-modified-since", b"Fri, 01 Jan 2100 00:00:00 GMT"))
    assert answer("/", more=known)[0] == 200


def test_another_page_gets_the_look_as_well():
    assert f"<style>{LOOK}</style>" in answer("/trend")[2]


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
