"""Errors that a person can act on: what is wrong, where, and how to mend it."""


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


class TidemarkWarning(UserWarning):
    """Something that is worth a word but stops nothing."""
