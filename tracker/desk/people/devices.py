"""Which phones may open this log from the local network: pairing one more, listing them, removing one at once."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from tracker.desk.base.roles import may
from tracker.door.pairing import Code, CodeState, Device, Pairing
from tracker.door.store import DevicesUnreadableError, Store
from tracker.errors import BadInputError
from tracker.log.engine import Address, file_of
from tracker.log.keeper import Log


def devices_file(url: Address) -> Path | None:
    """Return the file of keys and codes beside a log; None for a log on a server, where members sign in instead."""
    path = file_of(url)
    return None if path is None else path.with_name(f"{path.name}.devices")


def pairing(url: Address, *, encrypted: bool = False) -> Pairing:
    """Return the pairing of a log.

    Args:
        url: Where the log is.
        encrypted: Whether the server that asks for keys speaks TLS.

    Raises:
        BadInputError: if the log is no file.
    """
    path = devices_file(url)
    if path is None:
        mend = "Pair phones with a log that is a file on this machine; members of a log on a server sign in."
        raise BadInputError("This log is on a server.", where="--nearby", mend=mend)
    return Pairing(_store(path), encrypted=encrypted)


@cache
def _store(path: Path) -> Store:
    return Store(path)  # one for the gate and the pages of a process


@may("run")
def paired(log: Log) -> tuple[Device, ...]:
    """List the paired devices, the newest first; nothing is made where none ever was."""
    path = devices_file(log.url)
    return pairing(log.url).devices() if path is not None and path.exists() else ()


@may("run")
def new_code(log: Log) -> Code:
    """Make a code for a phone; the former one is good no more."""
    return pairing(log.url).new_code("phone")


@may("run")
def end_code(log: Log) -> None:
    """Take the code back that is shown."""
    pairing(log.url).end_code("phone")


@may("run")
def code_state(log: Log) -> CodeState | None:
    """Tell what became of the newest code."""
    return pairing(log.url).code_state("phone")


@may("run")
def remove(log: Log, device_id: str) -> str:
    """Take a device's key away at once, and return its name.

    Raises:
        BadInputError: if it was removed before.
    """
    return pairing(log.url).remove(device_id)


@may("run")
def named(log: Log, name: str) -> tuple[str, ...]:
    """List the devices whose name holds a member's: they stay when the member is deleted, and can be removed."""
    word = re.compile(rf"(?<!\w){re.escape(name)}(?!\w)", re.IGNORECASE)
    try:
        return tuple(f"paired device: {each.name}" for each in paired(log) if word.search(each.name))
    except DevicesUnreadableError as err:
        return (f"paired devices: {err}",)
