"""Sign-in by OpenID Connect: the file of settings that a gym's server is started with.

The provider says who somebody is; what they may do stands in the log (`desk/people/accounts.py`). Nothing of this file but the
address reaches a message, and no value of it a log file.
"""

from __future__ import annotations

import os
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeGuard
from urllib.parse import SplitResult, urlsplit

from tracker.door import signed_out
from tracker.errors import BadInputError

VARIABLE = "TIDEMARK_SIGN_IN"
CALLBACK = "/oauth2callback"  # where Streamlit waits for the provider's answer
LEAST_SECRET = 32  # letters of the secret that signs cookies
DAYS, MOST_DAYS = 14, 30  # for which one stays signed in; Streamlit's cookie ends after 30
DAY_S = 24 * 60 * 60
AHEAD_S = 120  # by which the provider's clock may be ahead of this one (common practice: some minutes at most)
NEEDED = ("provider", "client_id", "client_secret", "cookie_secret", "address")
LOOPBACK = ("127.0.0.1", "localhost", "::1")


@dataclass(frozen=True, slots=True)
class SignIn:
    """How members sign in.

    Args:
        provider: Address of the provider's metadata (OpenID Connect Discovery 1.0, section 4).
        client_id: Who we are to the provider.
        client_secret: What proves it.
        cookie_secret: Signs the cookies; the same on all servers of one log.
        address: What members type: https, a name, and no more.
        name: What the button calls the provider.
        days: How long one stays signed in.
        metrics_key: What a program that watches the servers shows; without it nobody gets figures.
    """

    provider: str
    client_id: str
    client_secret: str = field(repr=False)
    cookie_secret: str = field(repr=False)
    address: str
    name: str = ""
    days: int = DAYS
    metrics_key: str = field(default="", repr=False)

    @property
    def host(self) -> str:
        """The name by which browsers reach this server, in lower case and without the port."""
        return (urlsplit(self.address).hostname or "").lower()

    def identity(self, claims: Mapping[str, Any], now: float) -> tuple[str, str] | None:
        """Return issuer and subject of a sign-in that counts.

        Args:
            claims: What the signed cookie says; the provider chose what it holds.
            now: Seconds since 1970.

        Returns:
            None where it is none, is over, was ended by signing out, or is of a moment that has not come yet: such a one
            would hold for longer.
        """
        issuer, subject, since = claims.get("iss"), claims.get("sub"), claims.get("iat")
        if claims.get("is_logged_in") is not True or not _is_name(issuer) or not _is_name(subject):
            return None
        if not isinstance(since, int | float) or not now - self.days * DAY_S < since <= now + AHEAD_S:
            return None
        return None if signed_out.ended(claims) else (issuer, subject)

    def secrets(self) -> dict[str, Any]:
        """Return what Streamlit's own login reads."""
        return {
            "auth": {
                "redirect_uri": self.address + CALLBACK,
                "cookie_secret": self.cookie_secret,
                "client_id": self.client_id,
                "client_secret": self.client_secret,
                "server_metadata_url": self.provider,
                "client_kwargs": {"scope": "openid", "timeout": 10},  # no name and no e-mail address is asked for
            }
        }


def _is_name(said: Any) -> TypeGuard[str]:
    """Tell whether a claim is a text that a log can hold."""
    return isinstance(said, str) and said != "" and "\0" not in said and said.isprintable()


def configured() -> bool:
    """Tell whether members sign in here; then the pages may be served to other machines."""
    return bool(os.environ.get(VARIABLE))


def settings() -> SignIn | None:
    """Read the settings that TIDEMARK_SIGN_IN names; None where nobody signs in.

    Raises:
        BadInputError: if the file can't be read, others can read it, or a value is missing or can't be.
    """
    named = os.environ.get(VARIABLE)
    return read(Path(named).expanduser()) if named else None


def read(path: Path) -> SignIn:
    """Read a file of settings; see `settings`."""
    try:
        open_to_others = os.name == "posix" and path.stat().st_mode & 0o077
        found = tomllib.loads(path.read_text(encoding="utf-8"))
    except OSError as err:
        raise BadInputError(
            f"It can't be read: {err.strerror}.", where=str(path), mend="Check its name and rights."
        ) from err
    except (tomllib.TOMLDecodeError, UnicodeDecodeError):  # their words hold what stands in the line
        raise BadInputError("It is no TOML.", where=str(path), mend='Write lines such as name = "value".') from None
    if open_to_others:
        raise BadInputError(
            "Others than its owner can read its secrets.", where=str(path), mend=f"Run: chmod 600 {path}"
        )
    _hold_keys(found, path)
    return SignIn(
        provider=_url(found["provider"], "provider", path).geturl(),
        client_id=found["client_id"],
        client_secret=found["client_secret"],
        cookie_secret=found["cookie_secret"],
        address=_address(found["address"], path),
        name=found.get("name", ""),
        days=found.get("days", DAYS),
        metrics_key=found.get("metrics_key", ""),
    )


def _hold_keys(found: dict[str, Any], path: Path) -> None:
    known = {**dict.fromkeys((*NEEDED, "name", "metrics_key"), str), "days": int}
    for key, value in found.items():
        if key not in known:
            raise BadInputError(f"{key} is not known.", where=str(path), mend=f"It may hold {', '.join(known)}.")
        if type(value) is not known[key]:
            what = "a whole number" if known[key] is int else "text in quotes"
            raise BadInputError(f"{key} is not {what}.", where=str(path), mend=f"Write it as {what}.")
    for key in NEEDED:
        if not found.get(key):
            raise BadInputError(f"{key} is missing.", where=str(path), mend=f"Add a line: {key} = ...")
    if len(found["cookie_secret"]) < LEAST_SECRET:
        mend = "Make one with: python3 -c 'import secrets; print(secrets.token_hex(32))'"
        raise BadInputError(f"cookie_secret is shorter than {LEAST_SECRET} letters.", where=str(path), mend=mend)
    watching: str = found.get("metrics_key", "")
    if watching and (len(watching) < LEAST_SECRET or not (watching.isascii() and watching.isprintable())):
        mend = "Make one with: python3 -c 'import secrets; print(secrets.token_hex(32))'"
        raise BadInputError(f"metrics_key is shorter than {LEAST_SECRET} plain letters.", where=str(path), mend=mend)
    if not 1 <= found.get("days", DAYS) <= MOST_DAYS:
        raise BadInputError("days can't be that.", where=str(path), mend=f"Write 1 to {MOST_DAYS}.")


def _url(text: str, key: str, path: Path) -> SplitResult:
    """Read an address; without encryption only within this machine."""
    try:
        parts = urlsplit(text.strip())
        there = bool(parts.hostname) and (parts.port or 1) > 0
    except ValueError:
        there, parts = False, urlsplit("")
    if not there or parts.scheme not in ("https", "http") or parts.username is not None or parts.fragment:
        raise BadInputError(f"{key} is no address.", where=str(path), mend="Begin it with https: and two slashes.")
    if parts.scheme == "http" and parts.hostname not in LOOPBACK:
        raise BadInputError(
            f"{key} is not encrypted, so whoever listens could sign in as somebody else.", where=str(path),
            mend="Use https, with a certificate or behind a balancer that has one.",
        )  # fmt: skip
    return parts


def _address(text: str, path: Path) -> str:
    parts = _url(text, "address", path)
    if parts.path not in ("", "/") or parts.query:
        raise BadInputError("address has more than a name and a port.", where=str(path), mend="Leave the rest away.")
    return f"{parts.scheme}://{parts.netloc}"
