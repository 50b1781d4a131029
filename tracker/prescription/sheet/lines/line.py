"""One line of a sheet, as it goes to be read."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """One line to be read: its number, as typed, cleaned; `cell` is set for a part of a row, `day` for its first cell."""

    number: int
    raw: str
    text: str
    cell: bool = False
    day: bool = False
    head: bool = False  # a row of column titles, or a rule
    words: bool = False  # what is only said beside the item above

    @property
    def blank(self) -> bool:
        return not self.text.strip()

    @property
    def indent(self) -> int:
        return len(self.text) - len(self.text.lstrip())
