"""A gym whose members sign in with a provider in a process of its own, and the cookies that its server would set."""

from __future__ import annotations

import json
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from streamlit.proto.BackMsg_pb2 import BackMsg
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg
from streamlit.web.server.starlette.starlette_app_utils import create_signed_value
from websockets import Subprotocol
from websockets.sync.client import connect

from tests.browser.conftest import RESTING, at_rest, free_port
from tracker.desk.base.opening import open_log
from tracker.desk.history import journal
from tracker.desk.people import accounts
from tracker.log.unit_of_work import Log

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

COOKIE = "_streamlit_user"
CLIENT_SECRET, COOKIE_SECRET = "only-the-provider-knows-this", "3f" * 32
SUBJECTS = {"Ana": "member", "Dag": "coach", "Fay": "owner"}


@dataclass
class Gym:
    """The server, its provider, the log that it serves, and what both have said."""

    url: str
    issuer: str
    log: Log
    ids: dict[str, str]
    folder: Path
    said: Path
    contexts: list[BrowserContext] = field(default_factory=list)


def wait_for(url: str, process: subprocess.Popen[bytes]) -> None:
    for _ in range(240):
        try:
            urllib.request.urlopen(url, timeout=2).read()
        except OSError:
            assert process.poll() is None, "it ended before it began"
            time.sleep(0.25)
        else:
            return
    pytest.fail(f"{url} does not answer")


@contextmanager
def served_gym(address: str, world: Any, folder: Path) -> Iterator[Gym]:
    """Serve an empty log with the members of the gym in it, to whoever signs in."""
    log = open_log(address)
    world.into(log)
    door, port = free_port(), free_port()
    issuer, url = f"http://127.0.0.1:{door}", f"http://127.0.0.1:{port}"
    for each in accounts.accounts(log):
        accounts.remove_account(log, each.id)
    for name, role in SUBJECTS.items():
        accounts.enter(log, issuer, f"{name.lower()}-7f3", role, world.of[name].id)  # type: ignore[arg-type]
    settings = folder / "sign_in.toml"
    settings.write_text(
        f'provider = "{issuer}/.well-known/openid-configuration"\nclient_id = "tidemark"\n'
        f'client_secret = "{CLIENT_SECRET}"\ncookie_secret = "{COOKIE_SECRET}"\naddress = "{url}"\nname = "the Quay"\n'
    )
    settings.chmod(0o600)
    said = folder / "said.txt"
    with said.open("wb") as out:
        provider = subprocess.Popen(
            [sys.executable, "-m", "oidc_provider_mock", "--port", str(door), "--user-claims", json.dumps({"sub": "zoe-7f3"})],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        server = subprocess.Popen(
            [sys.executable, "-m", "tracker", "open", "--port", str(port), "--sign-in", str(settings), "--database", address],
            stdout=out, stderr=subprocess.STDOUT,
        )  # fmt: skip
        try:
            wait_for(f"{issuer}/.well-known/openid-configuration", provider)
            wait_for(f"{url}/_stcore/health", server)
            yield Gym(url, issuer, log, {name: each.id for name, each in world.of.items()}, folder, said)
        finally:
            for process in (server, provider):
                process.terminate()
            for process in (server, provider):
                process.wait(timeout=20)
            log.close()


def sign_in(page: Page, subject: str) -> None:
    page.get_by_role("button", name="Sign in with the Quay").click()
    page.locator("input[name=sub]").fill(subject)
    page.get_by_role("button", name="Authorize").click()
    page.wait_for_selector(RESTING, timeout=60_000)
    at_rest(page)


def sets_of(gym: Gym, name: str) -> int:
    return sum(len(each.sets) for each in journal.sessions(gym.log, gym.ids[name], limit=100))


def on_the_day(page: Page, words: str) -> None:
    page.wait_for_function("document.querySelector('[data-kept]') && document.querySelector('.who')")
    page.locator(".who", has_text=words).wait_for()


def kept_line(page: Page, count: int) -> None:
    page.wait_for_selector(f'[data-kept="{count}"]')


def cookie(gym: Gym, subject: str, *, secret: str = COOKIE_SECRET, **changes: Any) -> str:
    """What the server would set for somebody who signed in."""
    return signed(subject, gym.issuer, gym.url, secret=secret, **changes)


def signed(subject: str, issuer: str, url: str, *, secret: str = COOKIE_SECRET, **changes: Any) -> str:
    claims = {
        "iss": issuer, "sub": subject, "aud": "tidemark", "iat": int(time.time()), "origin": url, "is_logged_in": True,
        "provider": "default", **changes,
    }  # fmt: skip
    return create_signed_value(secret, COOKIE, json.dumps(claims)).decode()


def all_that_is_told(gym: Gym, value: str) -> tuple[str, str]:
    """Return what a browser with this cookie gets of a page, drawn or not: the file, and all messages of the socket."""
    with urllib.request.urlopen(f"{gym.url}/_stcore/health", timeout=20) as answer:
        mark = answer.headers["set-cookie"].partition(";")[0]  # without it the server looks at no cookie of a socket
    head = {"Cookie": f"{mark}; {COOKIE}={value}", "Origin": gym.url}
    asked = urllib.request.Request(f"{gym.url}/accounts", headers={**head, "Accept": "text/html"})
    file = urllib.request.urlopen(asked, timeout=20).read().decode()
    ask, told = BackMsg(), [ForwardMsg()]
    ask.rerun_script.page_name = "accounts"
    stream = f"{gym.url.replace('http', 'ws', 1)}/_stcore/stream"
    spoken = [Subprotocol("streamlit"), Subprotocol(mark.partition("=")[2])]
    with connect(stream, subprotocols=spoken, max_size=None, additional_headers=head) as socket:
        socket.send(ask.SerializeToString())
        while told[-1].WhichOneof("type") != "script_finished":
            told.append(ForwardMsg.FromString(socket.recv(timeout=60, decode=False)))
    return file, "\n".join(map(str, told))
