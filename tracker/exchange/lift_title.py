"""A lift as we write it ourselves, read back: `front squat, barbell` on pages and in reports, `(barbell)` in results."""

from __future__ import annotations

import re

from tracker.exchange.sets_csv import IMPLEMENTS

IN_TITLES = tuple(each for each in IMPLEMENTS if each not in ("body", "other"))  # those two are written without it
_TITLE = re.compile(rf"(?P<name>.*\S)\s*,\s*(?P<implement>{'|'.join(IN_TITLES)})", re.IGNORECASE)
_BRACKETS = re.compile(
    rf"(?P<name>.*\S)\s*\((?P<implement>{'|'.join(IMPLEMENTS)}|unasked)(?:,\s*a side)?\)", re.IGNORECASE
)


def named(text: str, implement: str = "") -> tuple[str, str]:
    """Return name and implement of a lift; `implement` is what stands beside the name, empty where nothing does.

    A name that says another implement than the one beside it stays as it is.

    >>> named("push press, barbell")
    ('push press', 'barbell')
    """
    found = _TITLE.fullmatch(text) or _BRACKETS.fullmatch(text)
    if found is None:
        return text, implement
    said = found["implement"].lower().replace("unasked", "")
    return (found["name"], said) if implement in ("", said) else (text, implement)
