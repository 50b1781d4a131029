"""What is wrong with a sheet: every problem with its line, its column, what was expected and a line that would pass."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tracker.errors import BadInputError

SHOWN = 50  # problems written out in the message; `problems` has them all


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that can't be read; line and column count from 1, `example` is a line that would pass there."""

    line: int
    column: int
    what: str
    expected: str
    example: str
    text: str = ""  # the line as it stands in the sheet

    def __str__(self) -> str:
        written = f' Write such as "{self.example}".' if self.example else ""
        return f"line {self.line}, column {self.column}: {self.what} Expected {self.expected}.{written}"


class SheetErrors(BadInputError):  # noqa: N818 - it is all the errors of a sheet, not one
    """All that is wrong with a sheet, at once, by line."""

    def __init__(self, problems: Sequence[Problem], name: str = "") -> None:
        self.problems = tuple(sorted(problems, key=lambda each: (each.line, each.column)))
        count = len(self.problems)
        head = "The sheet has one problem." if count == 1 else f"The sheet has {count:,} problems."
        listed = "\n".join(str(each) for each in self.problems[:SHOWN])
        more = f"\nand {count - SHOWN:,} more" if count > SHOWN else ""
        super().__init__(f"{head}\n{listed}{more}", where=name)
