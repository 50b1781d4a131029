"""A real server that phones reach, in a process of its own, as the command line starts it."""

from __future__ import annotations

import datetime as dt
import http.client
import os
import re
import signal
import ssl
import subprocess
import sys
import time
from contextlib import contextmanager
from dataclasses import dataclass
from ipaddress import ip_address
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from tests.browser.conftest import free_port
from tracker.desk.people.devices import pairing as pairing_of
from tracker.door.addresses import local_addresses
from tracker.log.engine import database_url

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tracker.door.pairing import Pairing


def address() -> str:
    """Return this machine's address in its network; where it has none, a loopback address that counts as foreign."""
    return next((each for each in local_addresses() if not ip_address(each).is_global), "127.0.0.2")


@dataclass(frozen=True)
class Reached:
    """A server, and what its terminal says."""

    address: str
    port: int
    link: str  # for the laptop's own browser
    code: str  # for a phone
    words: str
    pairing: Pairing  # its list of devices, as another process opens it
    tls: ssl.SSLContext | None
    opened: Path  # holds what the laptop's browser was told to open

    @property
    def origin(self) -> str:
        return f"{'https' if self.tls else 'http'}://{self.address}:{self.port}"

    def ask(self, method: str, path: str, *, cookie: str = "", **headers: str) -> tuple[int, dict[str, str], bytes]:
        """Send one request over a connection of its own."""
        return self._send(method, path, None, {**headers, **({"Cookie": cookie} if cookie else {})})

    def pair(self, code: str, name: str = "Wren's phone") -> tuple[int, str]:
        """Send the form as a phone does, and return the status and the cookie."""
        body = urlencode({"code": code, "name": name})
        headers = {"Origin": self.origin, "Content-Type": "application/x-www-form-urlencoded"}
        status, got, _ = self._send("POST", "/pair", body, headers)
        return status, got.get("set-cookie", "").split(";")[0]

    def _send(
        self, method: str, path: str, body: str | None, headers: dict[str, str]
    ) -> tuple[int, dict[str, str], bytes]:
        connection = (
            http.client.HTTPSConnection(self.address, self.port, timeout=30, context=self.tls)
            if self.tls
            else http.client.HTTPConnection(self.address, self.port, timeout=30)
        )
        try:
            connection.request(method, path, body, headers)
            answer = connection.getresponse()
            return answer.status, {name.lower(): value for name, value in answer.getheaders()}, answer.read()
        finally:
            connection.close()


@contextmanager
def nearby(database: Path, *more: str, tls: ssl.SSLContext | None = None, files: int = 0) -> Iterator[Reached]:
    """Start `tidemark open --nearby`, allowed so many open files, and wait until it answers."""
    port, where = free_port(), address()
    command = [
        sys.executable, "-m", "tracker", "open", "--nearby", "--port", str(port), "--address", where, "--database",
        str(database), *more,
    ]  # fmt: skip
    opened, browser = database.parent / f"opened-{port}", database.parent / f"browser-{port}"
    browser.write_text(f"#!/bin/sh\necho \"$1\" > '{opened}'\n")
    browser.chmod(0o700)
    given = os.environ | {"BROWSER": f"{browser} %s"}
    if files:
        command = ["sh", "-c", f'ulimit -n {files} && exec "$@"', "sh", *command]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=given)
    assert process.stdout
    try:
        words = ""
        while "lists and removes" not in words:
            line = process.stdout.readline()
            assert line, words
            words += line
        link, code = re.search(r"https?://\S+/laptop\?key=\S+", words), re.search(r"/pair\?code=(\d{8})", words)
        assert link
        assert code
        keys = pairing_of(database_url(str(database)), encrypted=tls is not None)
        reached = Reached(where, port, link[0], code[1], words, keys, tls, opened)
        latest = time.monotonic() + 90
        while True:
            try:
                reached.ask("GET", "/pair")
                break
            except OSError:
                assert process.poll() is None, words
                assert time.monotonic() < latest, words
                time.sleep(0.2)
        yield reached
    finally:
        process.send_signal(signal.SIGINT)
        process.communicate(timeout=30)


def make_certificate(folder: Path, password: bytes = b"") -> tuple[Path, Path]:
    """Make a certificate for this machine's address that is signed by nobody else, and its key."""
    from cryptography import x509
    from cryptography.hazmat.primitives import hashes, serialization
    from cryptography.hazmat.primitives.asymmetric import ec
    from cryptography.x509.oid import NameOID

    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "laptop")])
    moment = dt.datetime.now(dt.UTC)
    names = [x509.IPAddress(ip_address(each)) for each in (address(), "127.0.0.1")]
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(moment - dt.timedelta(days=1))
        .not_valid_after(moment + dt.timedelta(days=1))
        .add_extension(x509.SubjectAlternativeName(names), critical=False)
        .sign(key, hashes.SHA256())
    )
    certificate, secret = folder / "laptop.pem", folder / "laptop.key"
    certificate.write_bytes(made.public_bytes(serialization.Encoding.PEM))
    locked = serialization.BestAvailableEncryption(password) if password else serialization.NoEncryption()
    secret.write_bytes(key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, locked))
    return certificate, secret
