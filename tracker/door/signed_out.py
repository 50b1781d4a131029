"""Sign-ins that were ended by signing out: the browser forgets the cookie, but a page that it left open has read it already.

Streamlit reads the cookie when a socket opens and asks it of no touch, so another tab would go on as whoever signed out.
It is remembered in this process and as long as it runs; another server of the same log hears of it only from the browser,
which shows it no cookie any more.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping
from typing import Any

MOST = 20_000  # sign-ins that are remembered; the oldest goes first, and nobody ends one without having signed in
# What makes one sign-in of a person another one (OpenID Connect Core 1.0, section 2); a provider need not say all of them.
CLAIMS = ("iss", "sub", "iat", "nonce")
_ended: OrderedDict[tuple[str, ...], None] = OrderedDict()


def end(claims: Mapping[str, Any]) -> None:
    """End one sign-in, by the claims of its cookie."""
    _ended[_key(claims)] = None
    if len(_ended) > MOST:
        _ended.popitem(last=False)


def ended(claims: Mapping[str, Any]) -> bool:
    """Tell whether whoever signed in with these claims has signed out."""
    return _key(claims) in _ended


def _key(claims: Mapping[str, Any]) -> tuple[str, ...]:
    return tuple(repr(claims.get(each)) for each in CLAIMS)
