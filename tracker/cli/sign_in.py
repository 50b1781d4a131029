"""`tidemark open --sign-in FILE`: the pages for the members of a gym, who sign in."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from tracker.cli import nearby as phones
from tracker.cli.options import FILE
from tracker.errors import BadInputError


def sign_in_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add the file of settings."""
    help_text = "Members of a gym sign in, with the settings in this file; TIDEMARK_SIGN_IN says the same."
    return click.option("--sign-in", type=FILE, metavar="FILE", help=help_text)(command)


def wanted(file: Path | None) -> bool:
    """Take note of the file, and tell whether members sign in."""
    from tracker.door import sign_in

    if file is not None:
        os.environ[sign_in.VARIABLE] = str(file.absolute())
    return sign_in.configured()


def place(asked: phones.Asked, host: str) -> tuple[str, dict[str, Any]]:
    """Return the address to listen on and what the server is told.

    Raises:
        BadInputError: if phones are to be paired as well, the settings can't be read, Authlib or prometheus-client is not installed, or what
            answers as the provider is none.
    """
    from importlib.util import find_spec

    from tracker.door import provider, sign_in

    if asked.nearby:
        raise BadInputError(
            "Members sign in, so no phone is paired.", where="--nearby", mend="Leave one of the two out."
        )
    found = sign_in.settings()
    if find_spec("authlib") is None:
        mend = "Install Tidemark with it: .venv/bin/pip install '.[server]' --constraint .ci/tested-versions.txt"
        raise BadInputError("Sign-in wants Authlib, which is not installed.", where="--sign-in", mend=mend)
    if found is not None and found.metrics_key and find_spec("prometheus_client") is None:
        mend = "Install Tidemark with it: .venv/bin/pip install '.[server]' --constraint .ci/tested-versions.txt"
        what = "The figures at /metrics want prometheus-client, which is not installed."
        raise BadInputError(what, where="metrics_key", mend=mend)
    phones.look_over(replace(asked, nearby=True))
    if found is not None and (words := provider.look_at(found, os.environ[sign_in.VARIABLE])):
        click.echo(f"Warning: {words}", err=True)
    address = asked.address or host
    return address, {**phones.settings(asked), "server.address": address}


def announce(listening: str, log: str) -> None:
    """Tell the terminal where the pages are."""
    from tracker.door import sign_in

    found = sign_in.settings()
    assert found is not None
    click.echo(f"Tidemark: {found.address}  ({log}), listening on {listening}. Ctrl-C ends it.")
    click.echo("Members sign in. The first owner: tidemark account --invite owner")
