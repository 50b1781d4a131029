"""Reads movements of a piece from tokens: how many of what, at which load and height, and what may be done instead."""

from __future__ import annotations

from dataclasses import replace

from tracker.prescription.sheet.piece import Movement
from tracker.prescription.sheet.pieces.movement_counts import Counts
from tracker.prescription.sheet.pieces.movement_draft import MovesRead
from tracker.prescription.sheet.pieces.movement_words import QUIET, WHEN_FIRST, easier_of, is_when, makes_name, when_of
from tracker.prescription.sheet.tokens.tokens import Token


def read_moves(
    tokens: list[Token],
    *,
    unit: str = "kg",
    line: int = 0,
    free: bool = True,
    slash_or: bool = True,
    heading: bool = False,
) -> MovesRead:
    """Read movements from tokens.

    Args:
        tokens: The tokens of one line or sentence.
        unit: The unit of loads that stand without one.
        line: The line that they are on.
        free: Whether names that the table does not have are taken, as in a list of movements; else only known ones.
        slash_or: Whether a slash between two movements means one or the other.
        heading: Whether this line says how a piece is done; a list of counts is then that of all movements.
    """
    reader = Reader(tokens, unit, line, free=free, slash_or=slash_or, heading=heading)
    reader.run()
    return reader.found


class Reader(Counts):
    """Goes through the tokens of one line or sentence."""

    def run(self) -> None:
        while self.at < len(self.tokens):
            token = self.tokens[self.at]
            handler = getattr(self, f"_on_{token.kind}", None)
            if handler is None or handler(token) is False:
                self._word(token)
            self.at += 1
        self._close()

    def _on_sep(self, token: Token) -> bool | None:
        sign = token.text
        if sign == "(":
            self.depth += 1
            inner = self._next()
            words = self._inside()
            if self.now.name == "push-up" and easier_of(
                replace(Movement("push-up"), standard=" ".join(t.text for t in self._inner()))
            ):
                self.now.standard.append(" ".join(token.text for token in self._inner()))
                self.at += len(self._inner())
                return None
            first = self._when_first() if not words else ""
            if inner is not None and (inner.kind == "orword" or is_when(words) or first or self._other_amount()):
                self._name_from_words()
                self._close_if_named()
                self.option, self.paren_option, self.when = True, True, when_of(words) or first
                self._skip_when(words)
                self.at += bool(first)
            elif self.now.counted and not self.now.name:
                self._name_from_words()
            return None
        if sign == ")":
            self.depth = max(0, self.depth - 1)
            if self.paren_option:
                self._close()
                self.option = self.paren_option = False
                self.when = ""
            elif self.now.name and self.words:
                self.now.standard.append(self._take_words())
            return None
        if sign == ":":
            self._name_from_words_colon()
            return None
        if sign == "/" and self.now.counted and self.now.name and not self._amount_ahead():
            self._word(token)
            return None
        if sign in ",;+/|>.-":
            self._name_from_words()
            if sign == "-" and self._counts_before():
                return None
            if (
                sign == "/"
                and self.slash_or
                and self.now.name
                and (self._amount_ahead(far=4) or (self.now.known and self._words_ahead()))
            ):
                self._close()
                self.option = True
                return None
            if sign in ",;/" and self._other_group_ahead():
                return None
            if sign == "+" and self.option and self.now.name:
                self._close()
                return None
            if self.now.name and (self._amount_ahead() or sign in ";|"):
                was, paren = self.option, self.paren_option
                self._close()
                if was and not paren and sign in ",;" and not self._or_ahead():
                    self.option = False
                return None
            if self.now.name and self.words:
                self.now.standard.append(self._take_words())
            return None
        return None

    def _when_first(self) -> str:
        """`(sc ring rows)`, `(home 20 step-ups)`: for whom the movement in these brackets is, where it is no load alone."""
        inner = self._inner()
        named = any(token.kind == "name" for token in inner)
        if not named or inner[0].text not in WHEN_FIRST or not (self.now.name or self.words or self.found.moves):
            return ""
        return inner[0].text.strip(".")

    def _other_amount(self) -> bool:
        """`50 double unders (100 singles)`: an amount of something else alone in brackets is done instead."""
        inner = self._inner()
        names = [token.value.name for token in inner if token.kind == "name"]
        kinds = [token.kind for token in inner if token.kind != "calword"]
        return (
            len(kinds) == 2
            and set(kinds) <= {"name", "num", "reps", "cal", "dist", "list", "time"}
            and len(names) == 1
            and self.now.known
            and names[0] != self.now.name
            and (self.now.counted or self.heading or self.free)
        ) or (
            len(inner) == 1
            and inner[0].kind == "sets"
            and inner[0].text.rstrip().endswith("singles")
            and self.now.known
        )

    def _on_orword(self, token: Token) -> bool | None:
        self._name_from_words()
        if not self.now.name and not self.found.moves and self.now.empty and not self.words:
            self.option = True
            return None
        if self.now.name or self.option or self.found.moves:
            self._close()
            self.option = True
            return None
        return False

    def _on_andword(self, token: Token) -> bool | None:
        self._name_from_words()
        if self._other_group_ahead():
            return None
        if self.now.name and (ahead := self._next()) is not None and ahead.kind in ("mass", "pair", "men", "women"):
            return None
        if self.now.name and (self._amount_ahead() or self.found.moves or token.text.endswith("then")):
            was = self.option and not self.paren_option
            self._close()
            if was and token.text.endswith("then"):
                self.option = False
            return None
        if self.now.name:
            following = self._next()
            if following is not None and following.kind == "name":
                self._close()
                return None
        return False

    # counts

    def _on_minutesmark(self, token: Token) -> bool | None:
        """`minute 1 is 12 cal bike, minute 2 is ...`: each minute has a movement of its own."""
        self._name_from_words()
        self._close_if_named()
        self.words = [word for word in self.words if word.text not in QUIET]
        self.found.stations += 1
        following = [each.text for each in self.tokens[self.at + 1 : self.at + 3]]
        if following and (following[0] == "rest" or following[-1] == "rest"):
            self.found.moves.append(Movement("rest", line=self.line))
        return None

    # names

    def _on_name(self, token: Token) -> bool | None:
        found = token.value
        if self.now.name and not self.words and self._compound(token):
            return None
        if self.now.name:
            if self.words and self.words[-1].text in ("straight", "into"):
                self._take_words()
            self._close()
        if self.words and not self.now.name:
            text = " ".join(each.text for each in self.words)
            before = self._take_words()
            if before and self.free and len(before.split()) <= 2 and all(makes_name(word) for word in before.split()):
                self.now.name, self.now.known = f"{before} {found.name}", False
                return None
            if before and before not in QUIET and (self.now.counted or self.now.load is not None):
                self.now.standard.append(before)
            elif text:
                pass
        self.now.name, self.now.known = found.name, found.known is not None
        if self.option and found.typed == "su" and self.found.moves and self.found.moves[-1].name == "double under":
            self.now.name = "single under"  # beside double unders these are no sit-ups
        if found.known is not None:
            self.now.usual = found.known.measure
        return None

    def _compound(self, token: Token) -> bool:
        """`burpee deadlifts`: two names side by side are one, but a plural before ends its own."""
        before = self._next(-1)
        if (
            before is None
            or before.kind != "name"
            or before.end + 1 != token.start
            or before.text.rstrip().endswith("s")
            or self.now.load is not None
        ):
            return False
        if not self.now.name.endswith(token.value.name):
            self.now.name, self.now.known = f"{self.now.name} {token.value.name}", False
        return True

    # loads and heights

    def _on_buyin(self, token: Token) -> bool | None:
        return False
