"""Reads what later lines add to a piece: its movements, their units, its rest, cap and score."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from tracker.prescription.sheet.asks import Choice
from tracker.prescription.sheet.lifts.lift_line import (
    left_words,
)
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.piece import Movement, Pair
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import Head, read_head
from tracker.prescription.sheet.pieces.movement_draft import MovesRead
from tracker.prescription.sheet.pieces.usual_movements import (
    like_main,
    named_distance,
    usual_in_kilos,
    usual_in_pounds,
    usual_measure,
)
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.walk.clocks import Clocks
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.plain_words import plain
from tracker.units import Mass
from tracker.units import plain as plain_number


class PieceWords(Clocks):
    """What lines add to a piece."""

    def _rest_of(self, piece: PieceDraft, tokens: list[Token]) -> None:
        for token in tokens:
            if token.kind == "rest" and 0 < token.value <= 3600:
                piece.fields.setdefault("rest_s", token.value)

    def _take_moves(self, line: Line, piece: PieceDraft, read: MovesRead, own: str) -> None:
        moves = [self._unit_of(usual_measure(named_distance(move, piece), piece), line) for move in read.moves]
        moves = [
            replace(move, options=tuple(like_main(each, move) for each in move.options)) if move.options else move
            for move in moves
        ]
        if piece.part:
            moves = [replace(move, part=piece.part) for move in moves]  # type: ignore[arg-type]
        piece.moves += moves
        piece.works += read.works
        piece.stations += read.stations
        if read.options and piece.moves:
            last = piece.moves[-1]
            piece.moves[-1] = replace(
                last, options=(*last.options, *(like_main(usual_measure(each, piece), last) for each in read.options))
            )
        words = left_words(read.left)
        if words:
            piece.notes.append(words)

    def _unit_of(self, move: Movement, line: Line) -> Movement:
        """Loads without a unit that are usual in pounds only, such as 53/35 for a kettlebell, are pounds where the sheet names no unit."""
        if (
            self.defaults.unit == "lb"
            and isinstance(move.load, Pair)
            and move.load.larger.unit == "lb"
            and "lb" not in line.text.lower()
            and "#" not in line.text
            and usual_in_kilos(move, move.load)
        ):
            return replace(move, load=Pair(Mass(move.load.larger.amount, "kg"), Mass(move.load.smaller.amount, "kg")))
        if self.defaults.unit or self.defaults.units or move.load is None or not re.search(r"\d", line.text):
            return move
        pair = move.load if isinstance(move.load, Pair) else None
        larger = pair.larger if pair is not None else move.load
        assert isinstance(larger, Mass)
        if larger.unit == "lb" or not usual_in_pounds(
            move, larger.amount, pair.smaller.amount if pair is not None else None
        ):
            return move
        choices = (Choice("lb", "pounds"), Choice("kg", "kilograms"))
        if (
            self.asker.choose(
                "unit of loads",
                line.number,
                harmless(line.raw).strip(),
                f"{pair or plain_number(larger.amount)} of what?".replace(" kg", ""),
                choices,
            )
            == "kg"
        ):
            return move
        other: Any = (
            Pair(Mass(pair.larger.amount, "lb"), Mass(pair.smaller.amount, "lb"))
            if pair is not None
            else Mass(larger.amount, "lb")
        )
        return replace(move, load=other)

    def _fill(self, head: Head) -> None:
        """Let a later line fill what the piece has not said yet: its cap, how it is scored, partners."""
        piece = self.open
        if not isinstance(piece, PieceDraft):
            return
        for key, value in head.fields.items():
            if key == "kind" and value == "for time" and piece.fields.get("kind"):
                continue
            if key == "rounds" and piece.fields.get("kind") in ("as many as possible",):
                continue
            piece.fields.setdefault(key, value)
        piece.step = piece.step or head.step
        if head.turn and piece.fields.get("partners"):
            piece.fields.setdefault("in_turn", True)

    def _chunk_fields(self, line: Line, text: str) -> None:
        """Read what a note says of the piece's score or cap."""
        piece = self.open_piece
        if piece is None:
            return
        words = plain(text)
        self._fill(
            read_head(
                [token for token in tokens_of(words) if token.kind in ("cap", "word", "fortime")],
                words,
                self.asker,
                line.number,
                line.raw,
            )
        )
