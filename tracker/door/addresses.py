"""The addresses of this machine in its local network."""

from __future__ import annotations

from ipaddress import IPv4Address, ip_address

import ifaddr

from tracker.errors import BadInputError

LOOPBACK = "127.0.0.1"
LOOPBACK_NAMES = frozenset({"127.0.0.1", "localhost"})
# Networks inside the machine, or through a tunnel to elsewhere: no phone is in them, so they are offered last.
_INNER = (
    "docker",
    "br-",
    "veth",
    "virbr",
    "vmnet",
    "vboxnet",
    "vethernet",
    "tun",
    "tap",
    "utun",
    "wg",
    "lxc",
    "lxd",
    "zt",
)


def is_loopback(address: str) -> bool:
    """Whether only this machine reaches what listens there."""
    if address.lower() == "localhost":
        return True
    try:
        return ip_address(address).is_loopback
    except ValueError:
        return False


def local_addresses() -> tuple[str, ...]:
    """List this machine's IPv4 addresses that a phone could reach, the likeliest first."""
    found: list[tuple[bool, bool, str]] = []
    for adapter in ifaddr.get_adapters():
        inner = adapter.nice_name.lower().startswith(_INNER)
        for each in adapter.ips:
            if isinstance(each.ip, str):
                address = IPv4Address(each.ip)
                if not (address.is_loopback or address.is_link_local or address.is_unspecified):
                    found.append((inner, address.is_global, each.ip))
    return tuple(dict.fromkeys(address for *_, address in sorted(found, key=lambda each: each[:2])))


def choose(wanted: str | None, *, encrypted: bool) -> str:
    """Return the address to listen for: the one asked for, else the likeliest.

    Raises:
        BadInputError: if this machine has no such address, or none at all, or the whole internet would reach it in
            the open.
    """
    known = local_addresses()
    has = f"This machine has {', '.join(known)}." if known else "Join a network first: this machine is in none."
    if wanted is None and not known:
        raise BadInputError("There is no local network.", where="--nearby", mend=has)
    address = wanted or known[0]
    if address not in known and not is_foreign_loopback(address):
        raise BadInputError(f"{address} is no address of this machine in a local network.", where="--address", mend=has)
    if ip_address(address).is_global and not encrypted:
        raise BadInputError(
            f"{address} is reached from the whole internet.",
            where="--address",
            mend="Give a --certificate and its --key.",
        )
    return address


def is_foreign_loopback(address: str) -> bool:
    """Whether it is another loopback address than the usual one: where two browsers of one machine try the pairing."""
    return is_loopback(address) and address not in LOOPBACK_NAMES
