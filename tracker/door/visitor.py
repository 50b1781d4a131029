"""Who came through the gate, as the pages may know it: a header that the gate writes and nobody else can.

The header holds a word of chance that lives in this process only, so that a server without the gate, to which anybody
could send such a header, believes none.
"""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, get_args

HEADER = "tidemark-visitor"
Door = Literal["loopback", "laptop", "phone"]  # not nearby at all; the laptop's own browser; a paired one
_WORD = secrets.token_hex(16)


@dataclass(frozen=True, slots=True)
class Visitor:
    """By which door a browser came, the device that it is, and where phones reach this server."""

    door: Door
    device_id: str = ""
    address: str = ""


def header_of(visitor: Visitor) -> tuple[bytes, bytes]:
    """Write the header of an ASGI request."""
    return HEADER.encode(), f"{_WORD} {visitor.door} {visitor.device_id or '-'} {visitor.address or '-'}".encode()


def visitor_in(headers: Mapping[str, str]) -> Visitor | None:
    """Read who it is; None where the request did not come through the gate."""
    words = headers.get(HEADER, "").split(" ")
    if (
        len(words) != 4
        or not secrets.compare_digest(words[0].encode(), _WORD.encode())
        or words[1] not in get_args(Door)
    ):
        return None
    device_id, address = ("" if each == "-" else each for each in words[2:])
    return Visitor(words[1], device_id, address)  # type: ignore[arg-type]  # looked at above
