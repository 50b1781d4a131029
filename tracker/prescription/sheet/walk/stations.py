"""Reads the minutes and stations of a piece on a clock from the start of its lines."""

from __future__ import annotations

import re

from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.lines.marks import STATION
from tracker.prescription.sheet.piece import Movement
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.walk.piece_words import PieceWords


class Stations(PieceWords):
    """The stations of a piece."""

    def _station(self, line: Line, text: str) -> str:
        """Take the minute or station from the start of a line of a piece on a clock; empty where the whole line is done."""
        piece = self.open
        assert isinstance(piece, PieceDraft)
        if piece.fields.get("kind") not in ("every minute", "work and rest") and not piece.strength_clock:
            return text
        found = STATION.match(text)
        if found is None:
            return text
        rest = text[found.end() :].strip()
        if found["a"] and found["b"]:
            return text
        if found["f"]:
            piece.fields["in_turn"] = True
            piece.stations += 1
        else:
            number = int(next(found[key] for key in ("a", "c", "d", "e", "g", "h") if found[key]))
            if number != piece.stations + 1 or (found["h"] and not self._numbered_on(number)):
                return text
            piece.stations += 1
        if re.match(r"^(?:rest|off)\b\W*$", rest):
            piece.moves.append(Movement("rest", line=line.number))
            if line.raw.rstrip() not in piece.text:
                piece.text.append(line.raw.rstrip())
            self._role(line, "movement", piece)
            return ""
        return rest

    def _numbered_on(self, number: int) -> bool:
        """Whether the lines are numbered by bare digits: the one above has the number before, or the next one the number after."""
        piece = self.open
        assert isinstance(piece, PieceDraft)
        if piece.stations:
            return True
        after = self._words_below()
        return re.match(rf"{number + 1}\s+[A-Za-z]", after) is not None
