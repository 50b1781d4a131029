"""A gym's server as it is deployed, in processes: PostgreSQL, two servers, the proxy with its own file, a provider."""

from __future__ import annotations

import http.client
import json
import os
import shutil
import signal
import socket
import ssl
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from prometheus_client.parser import text_string_to_metric_families

from tests.browser.signing_in import COOKIE, COOKIE_SECRET, signed
from tests.deploy.built import DEPLOY, PROXY, environment, unit
from tests.server.cluster import Cluster, free_port

NAME, KEY = "log.example.org", "5c" * 32
PATIENCE_S = 90


class NoProxyError(Exception):
    """There is no HAProxy on this machine."""


@dataclass
class Answer:
    status: int
    headers: list[tuple[str, str]]
    body: bytes

    def header(self, name: str) -> str:
        return "; ".join(value for key, value in self.headers if key.lower() == name)

    @property
    def cookies(self) -> dict[str, str]:
        found = (value.split(";")[0].partition("=") for key, value in self.headers if key.lower() == "set-cookie")
        return {name: value for name, _, value in found}


@dataclass
class Deployed:
    """What runs, where it is reached, and what it has written."""

    folder: Path
    database: str
    issuer: str
    https: int
    http: int
    ports: list[int]
    tls: ssl.SSLContext
    running: dict[int, subprocess.Popen[bytes]] = field(default_factory=dict)
    others: list[subprocess.Popen[bytes]] = field(default_factory=list)

    @property
    def address(self) -> str:
        return f"https://{NAME}:{self.https}"

    def said(self, port: int) -> list[str]:
        """Return the lines that a server has written."""
        return (self.folder / f"{port}.txt").read_text(encoding="utf-8").splitlines()

    def start(self, port: int) -> None:
        """Start a server by the line of its unit, with the settings that all read."""
        (line,) = unit(DEPLOY / "units" / "tidemark@.service")["Service"]["ExecStart"]
        command = [sys.executable, "-m", "tracker", *line.replace("%i", str(port)).split()[1:]]
        with (self.folder / f"{port}.txt").open("ab") as out:
            self.running[port] = subprocess.Popen(command, env=self.settings(), stdout=out, stderr=subprocess.STDOUT)

    def settings(self) -> dict[str, str]:
        given = {
            "TIDEMARK_DATABASE": self.database, "TIDEMARK_SIGN_IN": str(self.folder / "sign_in.toml"),
            "TIDEMARK_DUMPS": str(self.folder / "dumps"),
        }  # fmt: skip
        assert set(given) == set(environment())
        return {**os.environ, **given}

    def stop(self, port: int) -> float:
        """End a server as its unit does; return the seconds that it took."""
        began, process = time.monotonic(), self.running.pop(port)
        process.send_signal(signal.SIGTERM)
        process.wait(timeout=30)
        return time.monotonic() - began

    def well(self, port: int) -> None:
        """Wait until a server answers."""
        latest = time.monotonic() + PATIENCE_S
        while time.monotonic() < latest:
            with suppress(OSError, http.client.HTTPException):
                if self.ask("/_stcore/health", at=port).status == 200:
                    return
            assert self.running[port].poll() is None, self.said(port)[-5:]
            time.sleep(0.1)
        raise AssertionError(f"{port} does not answer: {self.said(port)[-5:]}")

    def ask(
        self, path: str, *, method: str = "GET", cookies: dict[str, str] | None = None, body: str | None = None,
        at: int | None = None, **headers: str,
    ) -> Answer:  # fmt: skip
        """Ask through the proxy as a browser does, or one server itself at its own port."""
        if at is None:
            with socket.create_connection(("127.0.0.1", self.https), timeout=20) as plain:
                return self._ask(
                    self.tls.wrap_socket(plain, server_hostname=NAME), path, method, cookies, body, headers
                )
        with socket.create_connection(("127.0.0.1", at), timeout=20) as plain:
            return self._ask(plain, path, method, cookies, body, {"Host": "127.0.0.1", **headers})

    def _ask(
        self, connected: socket.socket, path: str, method: str, cookies: dict[str, str] | None, body: str | None,
        headers: dict[str, str],
    ) -> Answer:  # fmt: skip
        asked = http.client.HTTPConnection(NAME, self.https)
        asked.sock = connected
        known = "; ".join(f"{name}={value}" for name, value in (cookies or {}).items())
        asked.request(
            method, path, body, {"Host": f"{NAME}:{self.https}", **({"Cookie": known} if known else {}), **headers}
        )
        answer = asked.getresponse()
        return Answer(answer.status, answer.getheaders(), answer.read())

    def signed_in(self, subject: str) -> dict[str, str]:
        """Return the cookie that a server would set."""
        return {COOKIE: signed(subject, self.issuer, self.address)}

    def figures(self, port: int) -> dict[tuple[str, str], float]:
        """Return a server's figures by their name and labels, as the library's own parser reads them."""
        text = self.ask("/metrics", at=port, Authorization=f"Bearer {KEY}").body.decode()
        return {
            (each.name, " ".join(each.labels.values())): each.value
            for family in text_string_to_metric_families(text)
            for each in family.samples
        }


def rendered(folder: Path, https: int, http: int, ports: list[int]) -> Path:
    """Write the proxy's own file with other ports and another certificate, asking more often, and nothing else changed."""
    text = PROXY
    for old, new in (
        (":::443 v4v6", f"127.0.0.1:{https}"), (":::80 v4v6", f"127.0.0.1:{http}"),
        ("/etc/haproxy/tidemark.pem", str(folder / "tidemark.pem")), ("127.0.0.1:8511", f"127.0.0.1:{ports[0]}"),
        ("127.0.0.1:8512", f"127.0.0.1:{ports[1]}"), ("inter 2s", "inter 300ms"), ("timeout check 5s", "timeout check 3s"),
        ("    user haproxy\n    group haproxy\n", ""),  # the tests' own account, which may be another one
    ):  # fmt: skip
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    file = folder / "haproxy.cfg"
    file.write_text(text, encoding="utf-8")
    return file


@contextmanager
def deployed(cluster: Cluster, folder: Path) -> Iterator[Deployed]:
    """Bring all of it up, as .deploy/README.md does, and down again.

    Raises:
        NoProxyError: if there is no HAProxy, or no openssl for a certificate.
    """
    proxy, openssl = shutil.which("haproxy") or shutil.which("haproxy", path="/usr/sbin"), shutil.which("openssl")
    if proxy is None or openssl is None:
        raise NoProxyError("There is no HAProxy or no openssl on this machine: apt-get install haproxy openssl.")
    reached = {**os.environ, "PGHOST": "127.0.0.1", "PGPORT": str(cluster.port), "POSTGRES_USER": "gym"}
    subprocess.run(["sh", DEPLOY / "database.sh"], env=reached, check=True)
    key, certificate = folder / "key.pem", folder / "certificate.pem"
    subprocess.run(
        [openssl, "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes", "-days", "2",
         "-subj", f"/CN={NAME}", "-addext", f"subjectAltName=DNS:{NAME}", "-keyout", key, "-out", certificate],
        check=True, capture_output=True,
    )  # fmt: skip
    (folder / "tidemark.pem").write_text(certificate.read_text() + key.read_text())
    door, https, plain, one, two = (free_port() for _ in range(5))
    made = Deployed(
        folder, cluster.address("tidemark", user="tidemark"), f"http://127.0.0.1:{door}", https, plain, [one, two],
        ssl.create_default_context(cafile=certificate),
    )  # fmt: skip
    settings = folder / "sign_in.toml"
    settings.write_text(
        f'provider = "{made.issuer}/.well-known/openid-configuration"\nclient_id = "tidemark"\nclient_secret = "hush-hush"\n'
        f'cookie_secret = "{COOKIE_SECRET}"\naddress = "{made.address}"\nname = "the Quay"\nmetrics_key = "{KEY}"\n'
    )
    settings.chmod(0o600)
    file = rendered(folder, https, plain, made.ports)
    checked = subprocess.run([proxy, "-c", "-f", file], capture_output=True, text=True, check=False)
    assert (checked.returncode, "WARNING" in checked.stderr) == (0, False), checked.stderr
    with (folder / "proxy.txt").open("wb") as out:
        claims = json.dumps({"sub": "fay-7f3"})
        made.others.append(
            subprocess.Popen(
                [sys.executable, "-m", "oidc_provider_mock", "--port", str(door), "--user-claims", claims],
                stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            )
        )  # fmt: skip
        made.others.append(subprocess.Popen([proxy, "-db", "-f", file], stdout=out, stderr=subprocess.STDOUT))
    try:
        _answers(door)
        for port in made.ports:  # one makes the tables, and the other one finds them
            made.start(port)
            made.well(port)
        _through(made)
        yield made
    finally:
        for process in (*made.running.values(), *made.others):
            process.send_signal(signal.SIGCONT)
            process.terminate()
        for process in (*made.running.values(), *made.others):
            process.wait(timeout=30)


def _answers(port: int) -> None:
    latest = time.monotonic() + PATIENCE_S
    while time.monotonic() < latest:
        with suppress(OSError), socket.create_connection(("127.0.0.1", port), timeout=1):
            return
        time.sleep(0.1)
    raise AssertionError(f"nobody listens on {port}")


def _through(made: Deployed) -> None:
    """Wait until the proxy has found a server well."""
    latest = time.monotonic() + PATIENCE_S
    while time.monotonic() < latest:
        with suppress(OSError):
            if made.ask("/_stcore/health").status == 200:
                return
        time.sleep(0.1)
    raise AssertionError((made.folder / "proxy.txt").read_text()[-2000:])
