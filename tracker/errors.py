"""Errors that a person can act on: what is wrong, where, and how to mend it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

T = TypeVar("T")


class TidemarkError(Exception):
    """Bad input or a refused act, told in words for the person who did it.

    Args:
        what: What is wrong, one sentence.
        where: File, line, column, field or option; empty where there is only one place it could be.
        mend: What to do about it, one sentence.
    """

    def __init__(self, what: str, *, where: str = "", mend: str = "") -> None:
        self.what, self.where, self.mend = what, where, mend
        super().__init__(" ".join(part for part in (f"{where}: {what}" if where else what, mend) if part))


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
