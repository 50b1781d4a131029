"""A throw-away PostgreSQL of the tests' own: Debian's server in a folder in memory, on a free port of loopback.

It is started once for all processes of a run and ends with the process that started it, however that ends. Each test
has a database of its own, copied from a template in which the migrations were done once.
"""

from __future__ import annotations

import os
import pwd
import shutil
import signal
import socket
import subprocess
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

SWITCH = "TIDEMARK_TEST_SERVER"  # set: every test that opens a log opens it here
USER = "gym"
NAME = "tidemark-server-"
SETTINGS = {
    "listen_addresses": "127.0.0.1",
    "unix_socket_directories": "",
    "wal_level": "minimal",
    "max_wal_senders": "0",
    "autovacuum": "off",
    "max_connections": "200",
    "shared_buffers": "64MB",
    "max_wal_size": "4GB",
    "log_min_messages": "fatal",
    "track_commit_timestamp": "on",  # a test asks in which order acts were committed
}


class NoServerError(Exception):
    """There is no PostgreSQL to be started here."""


def binaries() -> Path:
    """Return the folder of the newest PostgreSQL that is installed.

    Raises:
        NoServerError: if there is none.
    """
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda each: int(each.parts[-3]))
    if found:
        return found[-1].parent
    if where := shutil.which("initdb"):
        return Path(where).resolve().parent
    raise NoServerError("There is no PostgreSQL on this machine: apt-get install postgresql.")


@dataclass
class Cluster:
    """A running server; `settings` go over those of all tests. With a password, only who knows it is let in."""

    settings: dict[str, str] = field(default_factory=dict)
    password: str = ""
    on_disk: bool = False  # as a real one, to measure; in memory otherwise, where it can be
    port: int = 0
    folder: Path = Path()
    process: subprocess.Popen[bytes] | None = None

    def start(self) -> Cluster:
        """Make the folder and start the server in it.

        Raises:
            NoServerError: if there is none, or it does not start.
        """
        _clear()
        self.folder = Path(tempfile.mkdtemp(prefix=f"{NAME}{os.getpid()}-", dir=None if self.on_disk else roomy()))
        self.give_away(self.folder)
        secret = self.folder / "secret"
        secret.write_text(self.password)
        letting_in = ["--auth=scram-sha-256", f"--pwfile={secret}"] if self.password else ["--auth=trust"]
        command = [binaries() / "initdb", *letting_in, "--no-sync", f"--username={USER}", "--encoding=UTF8"]
        self._run([*command, "--locale=C.UTF-8", "-D", self.folder / "data"])
        self.port = self.port or free_port()
        self.run()
        return self

    def run(self) -> None:
        """Start the server in its folder; after `stop` it is the same one again."""
        chosen = {**SETTINGS, **self.settings, "port": str(self.port)}
        words = [part for name, value in chosen.items() for part in ("-c", f"{name}={value}")]
        said = self.folder / "said.txt"
        log = said.open("ab")
        self.process = subprocess.Popen(
            _as_servant([binaries() / "postgres", "-D", self.folder / "data", *words]),
            stdin=subprocess.DEVNULL, stdout=log, stderr=log, cwd=self.folder,
        )  # fmt: skip
        log.close()
        latest = time.monotonic() + 60
        while not self._answers():
            if self.process.poll() is not None or time.monotonic() > latest:
                raise NoServerError(f"PostgreSQL did not start: {said.read_text()[-1000:]}")
            time.sleep(0.05)

    def stop(self) -> None:
        """End the server at once, as when its machine fails; what was committed stays in its folder."""
        if self.process is not None:
            self.process.send_signal(signal.SIGQUIT)
            self.process.wait(timeout=60)
            self.process = None

    def remove(self) -> None:
        self.stop()
        shutil.rmtree(self.folder, ignore_errors=True)

    def address(self, database: str, *, user: str = USER, password: str | None = None) -> str:
        """Return the address of one database, as it stands in TIDEMARK_DATABASE."""
        secret = self.password if password is None else password
        who = f"{user}:{secret}" if secret else user
        return f"postgresql+psycopg://{who}@127.0.0.1:{self.port}/{database}"

    def _answers(self) -> bool:
        ask = [binaries() / "pg_isready", "-q", "-h", "127.0.0.1", "-p", str(self.port)]
        return subprocess.run(ask, check=False).returncode == 0

    def _run(self, command: list[str | Path]) -> None:
        done = subprocess.run(_as_servant(command), check=False, capture_output=True, cwd=self.folder)
        if done.returncode:
            raise NoServerError(f"{command[0]}: {done.stderr.decode()[-1000:]}")

    @staticmethod
    def give_away(folder: Path) -> None:
        if os.geteuid() == 0:
            nobody = _servant()
            os.chown(folder, nobody.pw_uid, nobody.pw_gid)


def _as_servant(command: list[str | Path]) -> list[str | Path]:
    """PostgreSQL refuses to run as root; and it must not outlive the tests, even if they are killed."""
    setpriv = shutil.which("setpriv")
    if setpriv is None:
        raise NoServerError("There is no setpriv (util-linux) on this machine.")
    who = _servant().pw_name if os.geteuid() == 0 else ""
    other = [f"--reuid={who}", f"--regid={_servant().pw_gid}", "--clear-groups"] if who else []
    return [setpriv, *other, "--pdeathsig=QUIT", "--", *command]


def _clear() -> None:
    """Remove the folders of runs that were killed; their servers ended with them."""
    places = {Path(tempfile.gettempdir()), Path(roomy() or tempfile.gettempdir())}
    for folder in [each for place in places for each in place.glob(f"{NAME}*")]:
        if not Path("/proc", folder.name.removeprefix(NAME).partition("-")[0]).exists():
            shutil.rmtree(folder, ignore_errors=True)


def _servant() -> pwd.struct_passwd:
    for name in ("postgres", "nobody"):
        try:
            return pwd.getpwnam(name)
        except KeyError:
            continue
    raise NoServerError("There is no user that PostgreSQL could run as.")


def roomy() -> str | None:
    """Return the folder in memory where it has room for some hundred logs one after the other."""
    memory = Path("/dev/shm")
    return str(memory) if memory.is_dir() and shutil.disk_usage(memory).free > 2**30 else None


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]
