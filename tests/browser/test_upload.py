"""An upload of 1 GB, by the browser and past it, and requests that are forged: refused in words, and the server goes on."""

from __future__ import annotations

import http.client
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import pytest

from tests.browser.conftest import Phone, Served, at_rest

if TYPE_CHECKING:
    from playwright.sync_api import Page, Request

GB = 1024**3
PIECE = bytes(1 << 20)  # the body is sent from one mebibyte again and again: nobody holds it whole
MOST_GROWTH = 256 * 1024**2  # bytes that the server may grow by; the limit of a file is 64 MiB
SMALL = b"date,lift,load,unit,reps\n2026-03-02,press,40,kg,5\n"


def memory(process: int, kind: str) -> int:
    """Bytes that a process has in memory now (VmRSS), or had at most since it was last reset (VmHWM)."""
    text = Path(f"/proc/{process}/status").read_text()
    return int(next(line.split()[1] for line in text.splitlines() if line.startswith(kind))) * 1024


@pytest.fixture
def upload(served: Served, phone: Phone) -> tuple[Page, Request]:
    """The page Files, and the request with which the browser brought a small file: its address, cookie and token."""
    page = phone(f"{served.url}/files")
    with page.expect_request(lambda request: "/upload_file/" in request.url and request.method == "PUT") as sent:
        page.set_input_files("input[type=file]", {"name": "small.csv", "mimeType": "text/csv", "buffer": SMALL})
    at_rest(page)
    return page, sent.value


def send(
    request: Request, path: str, *, method: str = "PUT", body: Iterator[bytes] | None = None, **headers: str
) -> int:
    """Send a request as the browser sent it, to another path or with other headers; return the status, 0 where it is cut off."""
    parts = urlsplit(request.url)
    assert parts.hostname
    connection = http.client.HTTPConnection(parts.hostname, parts.port, timeout=60)
    known = {name: value for name, value in request.all_headers().items() if not name.startswith(":")}
    for name in ("content-length", "accept-encoding", "connection"):
        known.pop(name, None)
    known.update({name.replace("_", "-"): value for name, value in headers.items()})
    try:
        connection.request(
            method, path, body=body, headers={name: value for name, value in known.items() if value},
            encode_chunked="transfer-encoding" in known,
        )  # fmt: skip
        return connection.getresponse().status
    except (BrokenPipeError, ConnectionResetError):
        try:  # the server answers before it has read everything, and closes
            return connection.getresponse().status
        except (http.client.HTTPException, OSError):
            return 0
    finally:
        connection.close()


def gigabyte(sent: list[int]) -> Iterator[bytes]:
    boundary = b'--forged\r\nContent-Disposition: form-data; name="f"; filename="big.csv"\r\n\r\n'
    yield boundary
    for _ in range(GB // len(PIECE)):
        sent.append(len(PIECE))
        yield PIECE
    yield b"\r\n--forged--\r\n"


@pytest.mark.parametrize("how", ["said", "unsaid"])
def test_a_gigabyte_past_the_browser_is_refused_with_bounded_memory(served: Served, upload, how):
    page, request = upload
    process, path = served.process, urlsplit(request.url).path
    Path(f"/proc/{process}/clear_refs").write_text("5")  # the highest mark begins anew
    before, sent = memory(process, "VmRSS"), []
    form = "multipart/form-data; boundary=forged"
    length = {"content_length": str(GB)} if how == "said" else {"transfer_encoding": "chunked"}
    status = send(request, path, body=gigabyte(sent), content_type=form, **length)
    grown = memory(process, "VmHWM") - before
    print(f"{how}: status {status} after {sum(sent) / 1024**2:.0f} MiB, the server grew by {grown / 1024**2:.0f} MiB")
    assert status in (413, 411, 0)  # 411: how long it is was not said, and nothing of it is read
    assert status == 413 or how == "unsaid"
    assert grown < MOST_GROWTH
    page.goto(f"{served.url}/files")
    at_rest(page)
    assert page.locator("h1").inner_text() == "Files"
    page.set_input_files("input[type=file]", {"name": "again.csv", "mimeType": "text/csv", "buffer": SMALL})
    page.get_by_text("1 row; commas, UTF-8.").wait_for()


def test_a_gigabyte_in_the_browser_is_refused_in_words(served: Served, phone: Phone, tmp_path: Path):
    big = tmp_path / "big.csv"
    with big.open("wb") as file:
        file.truncate(GB)  # takes no room on the disk
    process = served.process
    Path(f"/proc/{process}/clear_refs").write_text("5")
    before = memory(process, "VmRSS")
    page = phone(f"{served.url}/files")
    page.set_input_files("input[type=file]", big)
    page.wait_for_function("() => /must be 16|exceed|larger/i.test(document.body.innerText)")
    assert "Which column is which" not in page.inner_text("body")
    assert memory(process, "VmHWM") - before < MOST_GROWTH
    page.goto(f"{served.url}/journal")
    at_rest(page)
    assert page.locator("h1").inner_text() == "Journal"


def test_a_forged_upload_is_refused(served: Served, upload):
    _, request = upload
    path = urlsplit(request.url).path
    folder, session, file = path.rsplit("/", 2)
    body = b'--forged\r\nContent-Disposition: form-data; name="f"; filename="x.csv"\r\n\r\na,b\r\n--forged--\r\n'
    form = {"content_type": "multipart/form-data; boundary=forged"}

    def put(where: str, **headers: str) -> int:
        return send(request, where, body=iter([body]), **{**form, "content_length": str(len(body)), **headers})

    assert put(path) == 204  # as the browser would
    assert put(path, x_xsrftoken="") == 403
    assert put(path, x_xsrftoken="2|forged|forged|1") == 403
    assert put(f"{folder}/00000000-0000-0000-0000-000000000000/{file}") == 400
    assert put(f"{folder}/' OR 1=1 --/{file}".replace(" ", "%20")) == 400
    assert put(f"{folder}/..%2f..%2fetc/{file}") in (400, 404, 405)
    assert send(request, path, method="POST", body=iter([body]), **form, content_length=str(len(body))) in (
        403,
        404,
        405,
    )
    assert send(request, f"{folder}/{session}/nothing", method="DELETE") in (204, 403, 404)
    assert send(request, path, method="DELETE", x_xsrftoken="") == 403
