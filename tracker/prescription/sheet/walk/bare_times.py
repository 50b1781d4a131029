"""Reads a time that stands alone above movements, or before them: the clock of a piece, without a word on how it is scored."""

from __future__ import annotations

import re

from tracker.prescription.sheet.asks import Choice
from tracker.prescription.sheet.days.weekdays import any_weekday
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.pieces.heads import CLOCKS, NO_SCORE, Head
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.walk.stations import Stations
from tracker.prescription.sheet.words.plain_words import plain

# A time that is none of a piece, an easy pace, and words that there is no score
_NO_PIECE_TIME = re.compile(
    r"^\W*at (?=\d)|\b(?:rest|break|pause|warm|set ?up|transition|between|late|until|doors?|brief\w*|talk (?:about|through)|skill|technique|practi[cs]e|mobility|stretch\w*|prep\w*|build|find|heavy|max)\b"
)
_EASY_PACE = re.compile(
    r"\b(?:easy|pace|steady|relaxed|gentle|slow|conversation\w*|talk|breath\w*|zone|flow|recovery|locker|suave|tranquille|no score|not scored|ruhig)\b"
)


class BareTimes(Stations):
    """Times without a word on how they are scored."""

    def _time_of_minutes(self, line: Line, tokens: list[Token]) -> Token | None:
        """The time of `10 minutes:` above lines that say what is done in odd and even minutes, or in the first."""
        times = [token for token in tokens if token.kind == "time"]
        if len(times) != 1 or times[0].value % 60 or not 240 <= times[0].value <= 3600:
            return None
        if any(token.kind not in ("time", "sep", "word") for token in tokens) or len(tokens) > 6:
            return None
        after = self._words_below()
        return times[0] if re.match(r"\W*(?:odd|min(?:ute)? ?1)\b", after, re.IGNORECASE) else None

    def _time_above(self, line: Line, tokens: list[Token], own: str, head: Head) -> Token | None:
        """The time of a line that has no other number, right above movements: `12 min:`, `Finisher, 8 minutes, easy`."""
        times = [token for token in tokens if token.kind == "time"]
        if len(times) != 1 or times[0].value % 60 or not 180 <= times[0].value <= 3600:
            return None
        if ":" in times[0].text and any_weekday(own) is not None:
            return None  # "mock meet Saturday 10:00"
        if head.fields.keys() - {"partners", "in_turn", "kind"} or len(tokens) > 16 or _NO_PIECE_TIME.search(own):
            return None
        if any(
            token.kind not in ("time", "sep", "word", "unscored", "orword", "andword", "alternate")
            and place not in head.used
            and not (
                token.text == "1"
                and re.match(r"1 (?:bar|barbell|bell|ball|sled)\b", own[token.start - tokens[0].start :])
            )
            for place, token in enumerate(tokens)
        ):
            return None
        piece = self.open_piece
        if (piece is not None and piece.fields and not self.gap) or (
            isinstance(self.open, LiftDraft) and self.open.empty
        ):
            return None
        below = [other for other in self.lines[self.at + 1 : self.at + 3] if not other.blank]
        return (
            times[0] if below and self._moves_follow(line, counted=True) and not self._moves_inline(below[0]) else None
        )

    def _time_before(self, tokens: list[Token], own: str, head: Head) -> Token | None:
        """The time of `12 min: 10 burpees, 10 sit-ups`: nothing but words before it, a colon behind it, movements behind that."""
        place = next((at for at, token in enumerate(tokens[:6]) if token.kind == "time"), -1)
        sign = next((at for at, token in enumerate(tokens) if at > place >= 0 and token.text in (":", "of")), -1)
        if place < 0 or sign < 0 or place + 3 > len(tokens) or sign + 2 > len(tokens):
            return None
        if any(token.kind != "word" and token.text not in ",-" for token in tokens[place + 1 : sign]):
            return None
        first, behind = tokens[place], tokens[sign + 1 :]
        counted = sum(token.kind in ("num", "reps", "dist", "cal", "calpair") for token in behind)
        if first.value % 60 or not 180 <= first.value <= 3600 or counted < 2 or head.fields.keys() - {"partners"}:
            return None
        before = own[: first.start - tokens[0].start]
        if any(token.kind != "word" and token.text not in ":," for token in tokens[:place]) or _NO_PIECE_TIME.search(
            before
        ):
            return None
        return None if {token.kind for token in behind} & {"setsx", "sets", "pct", "time", "max", "rest"} else first

    def _filled_by(self, line: Line, time: Token, tokens: list[Token], own: str, head: Head) -> None:
        """What a bare time above movements asks for: no score where it says easy or how it should feel, else asked."""
        near = " ".join([own, *(other.text.lower() for other in self.lines[self.at + 1 : self.at + 9])])
        if head.fields.get("kind") == "unscored" or _EASY_PACE.search(own) or NO_SCORE.search(near):
            kind = "unscored"
        else:
            choices = (
                Choice("as many as possible", "as many rounds as possible in it"),
                Choice("for time", "for time, with that cap"),
                Choice("unscored", "not scored"),
            )
            kind = self.asker.choose(
                "time above movements",
                line.number,
                line.raw.strip(),
                f"{time.text.strip()}: how is it scored?",
                choices,
            )
        head.fields |= {"kind": kind, "cap_s": time.value}
        head.clock = True
        head.used |= {place for place, token in enumerate(tokens) if token is time or token.kind in ("word", "sep")}

    @staticmethod
    def _moves_inline(line: Line) -> bool:
        """Whether a line begins something of its own: a clock, rounds, or sets."""
        if re.match(r"\W*\d{1,2} (?:laps?|lengths?) (?:of|around|round)\b", line.text, re.IGNORECASE):
            return False
        kinds = {token.kind for token in tokens_of(plain(line.text))}
        if "time" in kinds and kinds & {"max", "maxcal", "maxdist"}:
            return True
        return bool(kinds & (CLOCKS | {"rounds", "setsx", "sets", "pct", "setsxm", "setsxt"}))
