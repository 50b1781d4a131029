"""`tidemark open` and `tidemark demo`: the pages, served to this machine only, or to paired phones too."""

from __future__ import annotations

import socket
import tempfile
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import click

from tracker.cli import nearby as phones
from tracker.cli import sign_in as members
from tracker.cli.options import database, database_option
from tracker.errors import BadInputError

HOST = "127.0.0.1"  # nothing leaves the machine
USUAL_PORT = 8501


def server_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add where to listen and whether to show a browser."""
    port = click.option(
        "--port", type=click.IntRange(1, 65535), help=f"Where to listen; else {USUAL_PORT} or any free one."
    )
    browser = click.option(
        "--browser/--no-browser", default=True, help="Open the pages in a browser.", show_default=True
    )
    return port(browser(command))


@click.command("open")
@server_options
@phones.nearby_options
@members.sign_in_option
@database_option
def open_pages(port: int | None, browser: bool, sign_in: Path | None, **asked: Any) -> None:
    """Open the pages on your own log, on 127.0.0.1, or with --nearby for paired phones too. Ctrl-C ends them."""
    from tracker.desk.base.opening import open_log, read_by_others

    wanted = phones.Asked(**asked)
    if members.wanted(sign_in):
        _serve_members(wanted, port)
        return
    phones.look_over(wanted)
    where = free_port(port, phones.ALL if wanted.nearby else HOST)
    log = open_log(database())  # a log that can't be opened is told here, and not on a page
    name, url = log.name, log.url
    log.close()
    if said := read_by_others(url):
        click.echo(said, err=True)
    if not wanted.nearby:
        _serve(database(), where, browser, name)
        return
    from tracker.app import run
    from tracker.desk.people.devices import devices_file, pairing

    nearby = phones.place(wanted, where)
    keys = pairing(url, encrypted=nearby.encrypted)
    beside = devices_file(url)
    if wanted.encrypt and beside is not None:
        wanted, said = phones.encrypt(wanted, nearby, beside)
        click.echo(f"{said}\n")
    link = phones.announce(nearby, keys, name)
    config = phones.settings(wanted)
    run(database(), port=where, browser=browser, config=config, nearby=nearby, pairing=keys, first=link)


def _serve_members(asked: phones.Asked, port: int | None) -> None:
    from tracker.app import run
    from tracker.desk.base.opening import open_log, read_by_others

    address, config = members.place(asked, HOST)
    where = free_port(port, address)
    log = open_log(database())
    name = log.name
    if said := read_by_others(log.url):
        click.echo(said, err=True)
    log.close()
    members.announce(f"{address}:{where}", name)
    run(database(), port=where, browser=False, config=config)


@click.command()
@server_options
def demo(port: int | None, browser: bool) -> None:
    """Open the pages on a fresh throw-away log of an invented gym. Your own log is not touched."""
    from tracker.desk.base.opening import open_log
    from tracker.desk.files.demo import fill

    where = free_port(port)
    with tempfile.TemporaryDirectory(prefix="tidemark-demo-") as folder:
        path = Path(folder) / "demo.db"
        log = open_log(str(path))
        fill(log, date.today())
        log.close()
        _serve(str(path), where, browser, "a throw-away log of an invented gym")


def _serve(named: str | None, port: int, browser: bool, log: str) -> None:
    from tracker.app import refuse_other_address, run

    refuse_other_address()
    click.echo(f"Tidemark: http://{HOST}:{port}  ({log}). Ctrl-C ends it.")
    run(named, port=port, browser=browser)


def free_port(wanted: int | None, host: str = HOST, usual: int = USUAL_PORT) -> int:
    """Return a port that nobody listens on: the one that was asked for, else the usual one, else any.

    Raises:
        BadInputError: if the one that was asked for is taken.
    """
    if wanted is not None:
        if not _is_free(wanted, host):
            mend = "Name another one, or none at all."
            raise BadInputError(f"Port {wanted} is taken or not allowed.", where="--port", mend=mend)
        return wanted
    if _is_free(usual, host):
        return usual
    with socket.socket() as any_port:
        any_port.bind((host, 0))
        return any_port.getsockname()[1]


def _is_free(port: int, host: str) -> bool:
    with socket.socket() as trial:
        trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind((host, port))
        except OSError:
            return False
    return True
