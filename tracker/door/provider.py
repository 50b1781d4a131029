"""Looks at the sign-in provider when the server starts, so that a slip in the settings is told there and not to members.

What the provider says of itself is fetched as it is for every sign-in (OpenID Connect Discovery 1.0, sections 3 and 4.3). A
wrong answer ends the start. A provider that does not answer may only be down for a while, and whoever is signed in needs it
for nothing: then the server starts, and says that nobody can sign in until it answers.
"""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from tracker.door.sign_in import LOOPBACK, SignIn
from tracker.errors import BadInputError

WELL_KNOWN = "/.well-known/openid-configuration"
ENDPOINTS = ("authorization_endpoint", "token_endpoint", "jwks_uri")  # all that a sign-in by a code asks
PATIENCE_S = 5.0  # for one answer, and for a provider that starts beside this server
AGAIN_S = 0.5


def look_at(settings: SignIn, where: Path | str, patience_s: float = PATIENCE_S) -> str:
    """Ask the provider what it says of itself; return what whoever starts the server should know, or an empty text.

    Raises:
        BadInputError: if what answers is no provider, or says that it is another one.
    """
    import httpx

    latest = time.monotonic() + patience_s
    while True:
        try:
            answer = httpx.get(settings.provider, timeout=patience_s)
            why = f"it answers with status {answer.status_code}"
        except (httpx.HTTPError, httpx.InvalidURL, OSError) as err:
            answer, why = None, str(err) or type(err).__name__
        if answer is not None and answer.status_code < 500 and answer.status_code != 429:
            _hold(answer, settings.provider, where)
            return ""
        if time.monotonic() >= latest:
            return (
                f"The sign-in provider does not answer at {settings.provider}: {why}. Nobody can sign in until it does; who is "
                f"signed in goes on. Look whether it runs, and at provider in {where}."
            )
        time.sleep(AGAIN_S)


def _hold(answer: Any, provider: str, where: Path | str) -> None:
    """Refuse what is no description of this provider."""
    mend = f"Set provider to the address of the provider's own description; most often it ends in {WELL_KNOWN}."

    def wrong(what: str) -> BadInputError:
        return BadInputError(f"{provider} {what}", where=str(where), mend=mend)

    if answer.status_code != 200:
        raise wrong(f"is not the sign-in provider's description: it answers with status {answer.status_code}.")
    try:
        found = answer.json()
    except ValueError:
        raise wrong("is not the sign-in provider's description: what it answers is no JSON.") from None
    if not isinstance(found, dict):
        raise wrong("is not the sign-in provider's description: it names no issuer.")
    for name in ("issuer", *ENDPOINTS):
        if not isinstance(found.get(name), str) or not found[name]:
            raise wrong(f"describes no provider that members could sign in with: it names no {name}.")
        parts = urlsplit(found[name])
        if parts.scheme != "https" and parts.hostname not in LOOPBACK:
            raise wrong(f"names an address that is not encrypted as its {name}.")
    asked, _, _ = provider.partition(WELL_KNOWN)
    if asked != provider and asked.rstrip("/") != found["issuer"].rstrip("/"):
        raise wrong(f"says that it is another provider: {found['issuer']}.")
