"""A wrong sign-in provider is told when the server starts; one that is down for now only ends no start."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable, Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer

import pytest

from tests.stores import address_of
from tracker.door.provider import WELL_KNOWN, look_at
from tracker.door.sign_in import VARIABLE, SignIn
from tracker.errors import BadInputError

GOOD = {"issuer": "{own}", "authorization_endpoint": "{own}/a", "token_endpoint": "{own}/t", "jwks_uri": "{own}/k"}


@pytest.fixture
def provider() -> Iterator[Callable[..., str]]:
    """A provider that answers as it is told; returns its own address."""
    servers = []

    def begin(answer: object, *statuses: int) -> str:
        left = list(statuses)

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                text = answer if isinstance(answer, str) else json.dumps(answer)
                self.send_response(left.pop(0) if len(left) > 1 else left[0] if left else 200)
                self.end_headers()
                self.wfile.write(text.replace("{own}", f"http://127.0.0.1:{server.server_port}").encode())

            def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - its name in http.server
                """Say nothing."""

        server = HTTPServer(("127.0.0.1", 0), Handler)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        servers.append(server)
        return f"http://127.0.0.1:{server.server_port}"

    yield begin
    for each in servers:
        each.shutdown()
        each.server_close()


def asked(address: str) -> str:
    return look_at(SignIn(address, "tidemark", "hush-7", "5c" * 32, "https://log.example"), "sign_in.toml", 0.6)


def test_a_good_one_needs_no_word(provider):
    assert asked(provider(GOOD) + WELL_KNOWN) == ""
    assert asked(provider({**GOOD, "issuer": "{own}/"}) + WELL_KNOWN) == ""
    assert asked(provider(GOOD, 503, 200) + WELL_KNOWN) == ""  # it was still starting


@pytest.mark.parametrize(
    ("answer", "statuses", "word"),
    [
        ("<html>Sign in</html>", (), "no JSON"), ([1], (), "no issuer"), ({}, (), "no issuer"), (GOOD, (404,), "status 404"),
        (GOOD, (302,), "status 302"), ({**GOOD, "jwks_uri": ""}, (), "no jwks_uri"), ({**GOOD, "token_endpoint": 3}, (), "no token_"),
        ({**GOOD, "issuer": "https://else.example"}, (), "another provider: https://else.example"),
        ({**GOOD, "authorization_endpoint": "http://else.example/a"}, (), "not encrypted"),
    ],
)  # fmt: skip
def test_a_wrong_one_ends_the_start(provider, answer, statuses, word):
    with pytest.raises(BadInputError) as told:
        asked(provider(answer, *statuses) + WELL_KNOWN)
    assert word in told.value.what
    assert (told.value.where, WELL_KNOWN in told.value.mend) == ("sign_in.toml", True)
    assert "hush-7" not in str(told.value)


def test_one_that_does_not_answer_is_said(provider):
    for address, why in (
        (f"http://127.0.0.1:9{WELL_KNOWN}", "refused"),
        (provider(GOOD, 503) + WELL_KNOWN, "status 503"),
    ):
        words = asked(address)
        assert why in words.lower()
        assert "Nobody can sign in until it does" in words
        assert "sign_in.toml" in words


def test_the_server_does_not_start_with_a_wrong_one(provider, refused, monkeypatch, tmp_path, log):
    settings = tmp_path / "sign_in.toml"
    settings.write_text(
        f'provider = "{provider(GOOD, 404)}{WELL_KNOWN}"\nclient_id = "tidemark"\nclient_secret = "hush-7"\n'
        f'cookie_secret = "{"5c" * 32}"\naddress = "https://log.example"\n'
    )
    settings.chmod(0o600)
    monkeypatch.setenv(VARIABLE, str(settings))
    said = refused("open", "--database", address_of(log))
    assert "status 404" in said
    assert "hush-7" not in said
