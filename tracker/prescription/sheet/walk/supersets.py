"""Reads lifts that share a number of rounds: a heading of a superset with its rounds, and lifts on one line or below it."""

from __future__ import annotations

import re

from tracker.prescription.sheet.lifts.lift_line import as_sets
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.walk.corrections import Corrections
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.words.plain_words import plain

_SUPERSET = re.compile(
    r"\b(?:super-?\s?sets?|superserie|supersatz|tri-?sets?|giant sets?)\b|^\W*ss\b|^\W*(?P<l>[a-d])1 ?[/&+] ?(?P=l)2\b"
)
_ROUNDS = re.compile(
    r"\b(?P<n>[2-9]|1\d) ?(?:rounds?|rds?|rnds?|x|sets?|super-?\s?sets?|tri-?sets?)\b(?: of\b)?|\bx ?(?P<m>[2-9])\b"
)
_WORDS_BEFORE = re.compile(r"^[a-z0-9 ,.()+-]{0,60}$")


class Supersets(Corrections):
    """Lifts in turn, whose rounds are told once for all of them."""

    rounds_of_all = 0  # sets of each lift that follows in the superset
    rest_of_all: int | None = None

    def _superset_head(self, line: Line, text: str) -> bool:
        """`Superset, 3 rounds, 75 s rest` above lifts, and `superset 3 rounds: 8 split squats + 12 face pulls` with them."""
        found = _SUPERSET.search(text)
        rounds = _ROUNDS.search(text)
        if found is None or rounds is None or not _WORDS_BEFORE.match(text[: found.start()]):
            return False
        head, sign, below = text.partition(":")
        if not sign or rounds.end() > len(head) + 1:
            head, below = text, ""
        tokens = tokens_of(head)
        if any(token.kind in ("name", "setsx", "pct", "mass") for token in tokens):
            return False
        number = int(rounds["n"] or rounds["m"])
        rest = next((token.value for token in [*tokens, *tokens_of(below)] if token.kind == "rest"), None)
        if rest is None:
            rest = next((token.value for token in tokens if token.kind == "time" and token.value >= 30), None)
        parts = [
            tokens_of(part.strip())
            for part in re.split(r"\s*(?:\+|&|/(?!\s?(?:side|leg|arm)\b)|,|\band\b(?=\s*\d))\s*", below)
            if part.strip()
        ]
        if below.strip():
            if not parts or not all(_counted(part) for part in parts):
                return False
            self.open, self.join_next = None, False
            for place, part in enumerate(parts):
                self.join_next = bool(place)
                count = next(token for token in part if token.kind in _COUNTS)
                sets = as_sets(count, number)
                rest_of = [sets if token is count else token for token in part]
                self._lift(line, rest_of, [token for token in part if token.kind == "name"], "", "")
            if rest and (last := self.open_lift):
                last.rest_s = last.rest_s or rest
            return True
        if not self._lifts_below():
            return False
        self.open, self.section = None, "superset"
        self.rounds_of_all, self.rest_of_all, self.superset_at = number, rest, self.at
        self._role(line, "heading")
        return True

    superset_at = -1

    def _lifts_below(self) -> bool:
        """Whether the next line counts repetitions of a lift, without sets of its own."""
        for other in self.lines[self.at + 1 : self.at + 2]:
            tokens = tokens_of(plain(other.text))
            kinds = {token.kind for token in tokens}
            return (
                "name" in kinds
                and bool(kinds & {"num", "reps", "range", "each"})
                and not kinds & {"setsx", "sets", "cal", "dist"}
            )
        return False

    def _in_superset(self, line: Line, tokens: list[Token], names: list[Token], own: str, label: str) -> bool:
        """A line below the heading of a superset: a lift of as many sets as it has rounds."""
        if not self.rounds_of_all or self.section != "superset" or self.gap:
            self.rounds_of_all = 0
            return False
        if len(names) != 1:
            return False
        count = next((token for token in tokens if token.kind in ("num", "reps", "range")), None)
        if count is None:
            return False
        made = [as_sets(token, self.rounds_of_all) if token is count else token for token in tokens]
        above = self.session.items[-1] if self.session.items else None
        self.join_next = isinstance(above, LiftDraft) and above.line > self.lines[self.superset_at].number
        if not self._lift(line, made, names, own, label):
            return False
        lift = self.open
        if isinstance(lift, LiftDraft):
            lift.rest_s = lift.rest_s or (self.rest_of_all if lift.joined else None)
        return True


_COUNTS = ("num", "reps", "xnum")


def _counted(tokens: list[Token]) -> bool:
    """Whether a part counts one movement: `8 bulgarian split squats each side`, `ring row x 8`."""
    return (
        len(tokens) > 1
        and (tokens[0].kind in ("num", "reps") or (tokens[0].kind == "name" and tokens[1].kind in _COUNTS))
        and sum(token.kind in _COUNTS for token in tokens) == 1
        and sum(token.kind == "name" for token in tokens) == 1
        and not any(token.kind in ("setsx", "pct", "cal", "dist") for token in tokens)
    )
