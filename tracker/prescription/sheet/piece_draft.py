"""A conditioning piece while its lines are still being read."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any

from tracker.prescription.sheet import checks
from tracker.prescription.sheet.lines import Line
from tracker.prescription.sheet.piece import Movement, Piece
from tracker.prescription.sheet.piece_reading import Kind
from tracker.prescription.sheet.problems import Problem


@dataclass
class PieceDraft:
    """Title, then how it is done, then its movements with their options."""

    title: str
    line: int
    kind: Kind | None = None
    movements: list[Movement] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    unread: bool = False  # one of its lines could not be read; that was said already

    def take(self, line: Line, read: Callable[[Line, str], Any]) -> None:
        """Take the next line.

        Raises:
            SheetErrors: if it can't be read.
        """
        unread, self.unread = self.unread, True
        if self.kind is None:
            self.kind = Kind({})  # one problem with the kind is enough
            self.kind = read(line, "kind_line")
        elif line.text.lower().startswith("or ") and self.movements:
            option: Movement = replace(read(line, "option_line"), line=line.number)
            last = self.movements[-1]
            self.movements[-1] = replace(last, options=(*last.options, option))
        else:
            movement: Movement = read(line, "movement_line")
            self.movements.append(replace(movement, line=line.number))
        self.unread = unread

    def finish(self) -> tuple[Piece | None, list[Problem]]:
        """Return the piece, or None where it has no kind; and what can't be in it."""
        if self.kind is None:
            what = f"Nothing says how {self.title} is done."
            expected = "how it is done and scored below it"
            return None, [Problem(self.line, 1, what, expected, checks.EXAMPLE_KINDS)]
        if self.unread:
            return None, []
        fields = self.kind.fields
        piece = Piece(
            title=self.title, movements=tuple(self.movements), notes=tuple(self.notes), line=self.line, **fields
        )
        return piece, checks.of_piece(piece)
