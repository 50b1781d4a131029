"""`tidemark open --nearby`: which address, which certificate, and what stands in the terminal for phone and laptop."""

from __future__ import annotations

import ssl
import sys
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tracker.cli.options import FILE
from tracker.errors import BadInputError

if TYPE_CHECKING:
    from tracker.door.gate import Nearby
    from tracker.door.pairing import Pairing

USUAL_TRUST = 8502  # where a phone begins that has yet to trust this machine, where it is free
ALL = "0.0.0.0"  # the laptop's own browser comes by loopback; the gate answers at no other address than the chosen one


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked for on the command line."""

    nearby: bool
    address: str | None
    name: str | None
    certificate: Path | None
    key: Path | None
    encrypt: bool = False


def nearby_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add how phones reach the pages."""
    options = (
        click.option("--nearby", is_flag=True, help="Let phones of the local network in, each paired once by a code."),
        click.option("--address", metavar="ADDRESS", help="Which of this machine's addresses phones use."),
        click.option(
            "--name", metavar="NAME", help="The name by which phones find this machine, in place of its address."
        ),
        click.option(
            "--encrypt", is_flag=True, help="Encrypt with a certificate of this machine's own; for a household."
        ),
        click.option("--certificate", type=FILE, help="Encrypt with this certificate (PEM)."),
        click.option("--key", type=FILE, help="The certificate's key (PEM), where it is not in the same file."),
    )
    for option in reversed(options):
        command = option(command)
    return command


def look_over(asked: Asked) -> None:
    """Refuse options that don't go together, and an address of other machines without pairing.

    Raises:
        BadInputError: if there is any.
    """
    from tracker.door.addresses import is_loopback

    if not asked.nearby:
        if asked.address is not None and not is_loopback(asked.address):
            what = f"Without pairing and without sign-in the pages are served to this machine only, not on {asked.address}."
            raise BadInputError(what, where="--address", mend="Add --nearby: each phone is paired once by a code.")
        for option, value in (("--certificate", asked.certificate), ("--key", asked.key), ("--name", asked.name)):
            if value is not None:
                raise BadInputError("It is for phones of the local network.", where=option, mend="Add --nearby.")
        if asked.encrypt:
            raise BadInputError("It is for phones of the local network.", where="--encrypt", mend="Add --nearby.")
    if asked.encrypt and (asked.certificate or asked.key):
        what = "A certificate of this machine's own and one that you give don't go together."
        raise BadInputError(what, where="--encrypt", mend="Leave out the one or the other.")
    if asked.certificate is None and asked.key is not None:
        raise BadInputError("There is a key and no certificate.", where="--key", mend="Add --certificate FILE.")
    if asked.name is not None and not all(part.isalnum() for part in asked.name.replace("-", "").split(".")):
        raise BadInputError(
            f"{asked.name} is no name of a machine.", where="--name", mend="Name it as laptop.home.arpa."
        )
    if asked.certificate is not None:
        _look_at(asked.certificate, asked.key)


def _look_at(certificate: Path, key: Path | None) -> None:
    """Read a certificate and its key as the server will."""
    for option, path in (("--certificate", certificate), ("--key", key)):
        if path is not None and not path.is_file():
            raise BadInputError("There is no such file.", where=f"{option} {path}", mend="Check its name.")

    def no_password() -> str:
        raise BadInputError(
            "The key wants a password.", where=f"--key {key or certificate}", mend="Save it without one."
        )

    try:
        ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER).load_cert_chain(certificate, key, no_password)
    except (ssl.SSLError, OSError) as err:
        what = "These two are not a certificate and its key" if key else "It holds no certificate with its key"
        reason = getattr(err, "reason", None) or err.strerror or "unreadable"
        mend = "Give both in PEM form; README, On your phone, says how they are made."
        raise BadInputError(
            f"{what} ({str(reason).lower().replace('_', ' ')}).", where="--certificate", mend=mend
        ) from err


def settings(asked: Asked) -> dict[str, Any]:
    """Return what the server is told: at every address, since the gate chooses, and with which certificate."""
    if asked.certificate is None:
        return {"server.address": ALL}
    key = asked.key or asked.certificate
    return {
        "server.address": ALL,
        "server.sslCertFile": str(asked.certificate.absolute()),
        "server.sslKeyFile": str(key.absolute()),
    }


def place(asked: Asked, port: int) -> Nearby:
    """Choose the address that phones use.

    Raises:
        BadInputError: if there is none, or not the one that was asked for.
    """
    from tracker.door.addresses import choose
    from tracker.door.gate import Nearby

    encrypted = asked.encrypt or asked.certificate is not None
    return Nearby(choose(asked.address, encrypted=encrypted), port, (asked.name or "").lower(), encrypted)


def encrypt(asked: Asked, nearby: Nearby, keys: Path) -> tuple[Asked, str]:
    """Make this machine's own certificate where there is none, and serve the page that lets phones trust it.

    Returns:
        What was asked for with that certificate, and what the terminal says of it.

    Raises:
        BadInputError: if the address is not a private one.
    """
    from tracker.cli.pages import free_port
    from tracker.door.authority import made
    from tracker.door.trust import serve_trust

    ours = made(keys, [nearby.name], nearby.address)
    port = free_port(None, nearby.address, USUAL_TRUST + (nearby.port == USUAL_TRUST))
    serve_trust(nearby.address, port, ours, nearby.origin)
    words = (
        f"Encrypted, for a household only. A phone that comes for the first time opens http://{nearby.address}:{port} and trusts "
        f"this laptop's authority once; how to take it off again stands there too. Its fingerprint is\n{ours.fingerprint}\n"
        f"This machine's own browser warns as long as it does not trust it either. Guard {ours.certificate.with_name(f'{keys.name}.authority.pem')}."
    )
    return replace(asked, certificate=ours.certificate), words


def announce(nearby: Nearby, pairing: Pairing, log: str) -> str:
    """Tell the terminal how laptop and phone come in; return the link that the laptop's browser opens."""
    from tracker.door.addresses import LOOPBACK, local_addresses
    from tracker.door.doorway import LAPTOP, pair_link
    from tracker.door.picture import of_terminal

    key, code = pairing.new_code("laptop"), pairing.new_code("phone")
    link = f"{'https' if nearby.encrypted else 'http'}://{LOOPBACK}:{nearby.port}{LAPTOP}?key={key.text}"
    phone = pair_link(nearby.origin, code)
    click.echo(f"Tidemark: {link}  ({log}). Ctrl-C ends it.")
    click.echo(f"That link is for this machine's own browser, once, until {key.until.astimezone():%H:%M}.\n")
    click.echo(f"A phone of this network opens {nearby.origin} and types {code.shown}, or scans")
    click.echo(f"{phone}  (once, until {code.until.astimezone():%H:%M}; more codes: Preferences, Devices).")
    if sys.stdout.isatty():
        click.echo(f"\n{of_terminal(phone)}\n")
    if not nearby.encrypted:
        click.echo(
            "Not encrypted: whoever listens on this network can read along, and copy a phone's key. "
            "--encrypt prevents that; README, On your phone."
        )
    others = [each for each in local_addresses() if each != nearby.address]
    if others:
        click.echo(f"Other addresses of this machine: {', '.join(others)}; --address chooses.")
    click.echo(
        "Whoever is paired sees and changes everything in this log. Preferences, Devices lists and removes them."
    )
    return link
