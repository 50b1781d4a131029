"""All that is wrong with a file, told at once: one bad row must not hide the others."""

from __future__ import annotations

from dataclasses import dataclass

from tracker.errors import BadInputError

MOST_TOLD = 20  # more bad rows than these are one mistake made many times


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong: in which line and column, what, and how to mend it."""

    line: int
    column: str
    what: str
    mend: str = ""

    @property
    def place(self) -> str:
        return f"line {self.line}" + (f", {self.column}" if self.column else "")

    def __str__(self) -> str:
        return " ".join(part for part in (f"{self.place}: {self.what}", self.mend) if part)


class BadFileError(BadInputError):
    """A file with rows that can't be taken; `problems` are the first of them, and nothing was taken at all."""

    def __init__(self, name: str, problems: tuple[Problem, ...], *, more: bool = False) -> None:
        self.problems = problems
        first = problems[0]
        super().__init__(first.what, where=f"{name}, {first.place}", mend=first.mend)
        others = "".join(f"\n{name}, {each}" for each in problems[1:])
        tail = f"\n{name}: there are more; correct these first." if more else ""
        self.args = (f"{self.args[0]}{others}{tail}",)


class Problems:
    """Collects what is wrong with the rows of one file."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.found: list[Problem] = []

    def add(self, line: int, column: str, err: BadInputError) -> None:
        """Note what is wrong; with more than twenty the rest is not looked at any more.

        Raises:
            BadFileError: when there are too many.
        """
        if len(self.found) >= MOST_TOLD:
            raise BadFileError(self.name, tuple(self.found), more=True)
        self.found.append(Problem(line, column, err.what, err.mend))

    def raise_any(self) -> None:
        """Refuse the file where anything was wrong."""
        if self.found:
            raise BadFileError(self.name, tuple(self.found))
