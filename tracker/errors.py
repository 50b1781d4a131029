"""Errors that a person can act on: what is wrong, where, and how to mend it."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TypeVar

T = TypeVar("T")


MOST_LINE = 1_000  # letters of a line of what is wrong: it may quote what somebody pasted
# What steers a terminal, turns the order of letters, or is half of a letter that no output can write.
_UNSHOWN = re.compile(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")


def plainly(text: str) -> str:
    """Return a text with what can't be shown safely as its number, as Python writes it; breaks of lines stay."""
    return _UNSHOWN.sub(lambda found: ascii(found[0])[1:-1], text)


def _cut(text: str) -> str:
    return "\n".join(line if len(line) <= MOST_LINE else f"{line[: MOST_LINE - 1]}…" for line in text.split("\n"))


class TidemarkError(Exception):
    """Bad input or a refused act, told in words for the person who did it.

    Args:
        what: What is wrong, one sentence.
        where: File, line, column, field or option; empty where there is only one place it could be.
        mend: What to do about it, one sentence.
    """

    counted = False  # among the refused acts of this server: see counts.py

    def __init__(self, what: str, *, where: str = "", mend: str = "") -> None:
        self.what, self.where, self.mend = _cut(plainly(what)), _cut(plainly(where)), plainly(mend)
        first = f"{self.where}: {self.what}" if self.where else self.what
        super().__init__(" ".join(part for part in (first, self.mend) if part))


class BadInputError(TidemarkError):
    """A value, a row or an option that can't be taken."""


def together(*checks: Callable[[], T]) -> tuple[T, ...]:
    """Do each check and return what they return; where some refuse, tell all of it at once.

    Raises:
        TidemarkError: the one refusal as it is, or a `BadInputError` that names each of several with its place.
    """
    found: list[T] = []
    wrong: list[TidemarkError] = []
    for check in checks:
        try:
            found.append(check())
        except TidemarkError as error:
            wrong.append(error)
    if len(wrong) == 1:
        raise wrong[0]
    if wrong:
        what = " ".join(
            f"{each.where[:1].upper()}{each.where[1:]}: {each.what}" if each.where else each.what for each in wrong
        )
        raise BadInputError(what, mend=" ".join(dict.fromkeys(each.mend for each in wrong if each.mend)))
    return tuple(found)
