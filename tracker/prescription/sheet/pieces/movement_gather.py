"""Gathers the parts of a movement, its name from words that no table has, and closes it."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from tracker.prescription.sheet.piece import Count
from tracker.prescription.sheet.pieces.movement_draft import Draft, MovesRead, ladder_count
from tracker.prescription.sheet.pieces.movement_words import (
    AMOUNTS,
    IMPLEMENTS,
    MOST_COUNT,
    NO_NAME,
    QUIET,
    easier_ways,
    is_when,
)
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.prescription.sheet.words.names import full_name


class Gather:
    """Gathers what is said of one movement, and puts it where it belongs."""

    def __init__(self, tokens: list[Token], unit: str, line: int, *, free: bool, slash_or: bool, heading: bool) -> None:
        self.tokens, self.unit, self.line, self.free, self.slash_or, self.heading = (
            tokens,
            unit,
            line,
            free,
            slash_or,
            heading,
        )
        self.found = MovesRead()
        self.now = Draft()
        self.option = False
        self.when = ""
        self.depth = 0
        self.words: list[Token] = []
        self.at: int = 0
        self.paren_option = False
        self.joined = False

    # what is around

    def _next(self, ahead: int = 1) -> Token | None:
        at = self.at + ahead
        return self.tokens[at] if 0 <= at < len(self.tokens) else None

    def _amount_ahead(self, *, far: int = 3) -> bool:
        """Whether a count and something to do follow, as where another movement begins."""
        kinds = [token.kind for token in self.tokens[self.at + 1 : self.at + 1 + far]]
        return bool(kinds) and (
            kinds[0] in AMOUNTS
            or kinds[:2] == ["calword", "name"]
            or kinds[0] == "name"
            or (kinds[0] == "word" and any(kind in ("name", *AMOUNTS) for kind in kinds))
        )

    def _word(self, token: Token) -> None:
        if not token.text.startswith("ladder"):
            self.words.append(token)

    def _take_words(self) -> str:
        text = " ".join(token.text for token in self.words).strip(" ,;-.:")
        self.words = []
        return text

    def _name_from_words(self) -> None:
        """Let words behind a count be the name of a movement that the table does not have."""
        if self.now.name or not self.words:
            return
        words = [
            token.text.strip(".,;:!")
            for token in self.words
            if token.kind in ("word", "men", "women", "climb", "same", "implement", "minutesmark", "setlabel")
        ]
        while words and (words[0] in QUIET or not words[0]):
            words.pop(0)
        while words and words[-1] in QUIET:
            words.pop()
        if {token.kind for token in self.words} <= {"men", "women"}:
            return  # for whom an amount is names no movement
        if not self.free or not words or len(words) > 6 or not (self.now.counted or self.option):
            return
        if "pace" in words or {"is", "are", "was", "will", "we", "you", "i", "who", "has", "have"} & set(words):
            return
        if (
            words[0] in NO_NAME
            or len(" ".join(words)) > 60
            or not any(len(word) > 1 and word.isalpha() for word in re.split(r"[\s'-]", " ".join(words)))
        ):
            return
        typed = " ".join(words)
        if not self.option and all(word in IMPLEMENTS for word in words):
            self.now.standard.append(typed)
            self.words = []
            return
        self.now.name, entry = full_name(typed)
        self.now.known = entry is not None
        if entry is not None:
            self.now.usual = entry.measure
        self.words = []

    def _close(self) -> None:
        """End the movement that is being read."""
        self._name_from_words()
        now = self.now
        if now.name:
            if self.words:
                rest = self._take_words()
                if rest:
                    now.standard.append(rest)
            self._ladder(now)
            self._push(now)
        else:
            if (
                now.counted
                and self.option
                and self.found.moves
                and now.count is not None
                and (not self.words or now.measure == "m")
                and self.found.moves[-1].measure == (now.measure or "reps")
            ):
                now.name = self.found.moves[-1].name
                self._push(now)
            elif (
                now.measure == "m"
                and now.count is not None
                and not self.option
                and not self.words
                and self.free
                and now.load is None
                and len(self.tokens) == 1
                and now.count.reps[0] in (200, 400, 800, 1600)
            ):
                now.name = "run"  # a lap or part of one, alone on its line: common practice
                self._push(now)
            elif now.counted or now.load is not None:
                self._loose(now)
            self.found.left += self.words
            self.words = []
        self.now = Draft()

    def _ladder(self, now: Draft) -> None:
        if now.ladder is None:
            return
        numbers, more = now.ladder
        now.count = ladder_count(numbers, more)
        now.ladder = None

    def _push(self, now: Draft) -> None:
        move = now.made(self.line)
        move = replace(move, options=(*move.options, *easier_ways(move)))
        if not self.option:
            self.found.works.append(now.work or (move.count.reps[0] if move.measure == "s" and move.count else 0))
        self.found.known += now.known
        self.found.counted += now.counted
        if self.option and self.found.moves:
            last = self.found.moves[-1]
            self.found.moves[-1] = replace(last, options=(*last.options, replace(move, when=now.when or self.when)))
        elif self.option:
            self.found.options.append(replace(move, when=now.when or self.when))
        else:
            self.found.moves.append(move)

    def _loose(self, now: Draft) -> None:
        """A count or load that found no movement: a list is the scheme of all, a load belongs to the last one."""
        if now.ladder is not None and not self.found.moves:
            self.found.scheme = ladder_count(*now.ladder)
            return
        if now.load is not None and not now.counted:
            if self.option and self.found.options and self.found.options[-1].load is None:
                self.found.options[-1] = replace(self.found.options[-1], load=now.load)
                return
            if self.found.moves:
                last = self.found.moves[-1]
                if self.option and last.options and last.options[-1].load is None:
                    self.found.moves[-1] = replace(
                        last,
                        options=(
                            *last.options[:-1],
                            replace(last.options[-1], load=now.load, implements=now.implements),
                        ),
                    )
                    return
                if last.load is None:
                    self.found.moves[-1] = replace(last, load=now.load, implements=now.implements)
                    return

    def _counts_before(self) -> bool:
        """Whether an amount behind a dash or colon is that of the name before it: `push-ups - 18`, `rower: 20 cal`."""
        ahead = self._next()
        if not self.now.name or self.now.counted or ahead is None or ahead.kind not in AMOUNTS:
            return False
        after = self._next(2)
        return (
            after is None
            or (after.kind == "word" and after.text in ("at", "with", "@", "w"))
            or after.kind
            in (
                "sep",
                "mass",
                "pair",
                "mass2",
                "each",
                "cm",
                "inch",
                "atx",
                "calword",
                "orword",
                "andword",
            )
        )

    def _words_ahead(self) -> bool:
        """Whether a few words alone follow up to the end or the next sign."""
        kinds: list[str] = []
        for token in self.tokens[self.at + 1 :]:
            if token.kind == "sep":
                break
            kinds.append(token.kind)
        return 1 <= len(kinds) <= 5 and set(kinds) == {"word"}

    def _or_ahead(self) -> bool:
        token = self._next()
        return token is not None and token.kind == "orword"

    def _inside(self) -> str:
        """The words within the brackets that open here, up to a colon."""
        words: list[str] = []
        for token in self.tokens[self.at + 1 :]:
            if token.kind == "sep" and token.text in ":)":
                return " ".join(words) if token.text == ":" else ""
            words.append(token.text)
        return ""

    def _other_group_ahead(self) -> bool:
        """Whether the other group's load follows, as in "24 kilos for the men, 16 for the women"."""
        ahead = self.tokens[self.at + 1 : self.at + 3]
        before = {each.kind for each in self.tokens[max(0, self.at - 3) : self.at]}
        return (
            self.now.load is not None
            and len(ahead) == 2
            and ahead[0].kind in ("num", "mass")
            and {ahead[1].kind} | (before & {"men", "women"}) == {"men", "women"}
        )

    def _inner(self) -> list[Token]:
        """The tokens within the brackets that open here; none where they do not close."""
        found: list[Token] = []
        for token in self.tokens[self.at + 1 :]:
            if token.kind == "sep" and token.text == ")":
                return found
            found.append(token)
        return []

    def _skip_when(self, words: str) -> None:
        if not words:
            return
        while self.at + 1 < len(self.tokens):
            self.at += 1
            if self.tokens[self.at].text == ":":
                return

    def _name_from_words_colon(self) -> None:
        words = " ".join(token.text for token in self.words)
        if is_when(words) and (self.found.moves or self.now.name or self.option or not self.found.moves):
            self.words = []
            if self.now.name:
                self._close()
            self.option, self.when = True, words
        elif self.now.name and self.words:
            self.now.standard.append(self._take_words())
        elif not self.now.name:
            self._name_from_words()

    def _close_if_named(self) -> None:
        if self.now.name:
            self._close()

    def _begin(self) -> None:
        """A count begins another movement where the one before it has its name."""
        self._name_from_words()
        if self.now.name and (self.now.counted or self._is_before_name()):
            self._close()
            if self.option and not self.paren_option and not self._came_by_or():
                self.option = False

    def _came_by_or(self) -> bool:
        before = self._next(-1)
        return before is not None and before.kind == "orword"

    def _is_before_name(self) -> bool:
        """Whether what stands here is counted by a name behind it rather than by the one before."""
        for token in self.tokens[self.at + 1 : self.at + 4]:
            if token.kind == "name":
                return True
            if token.kind not in ("word",) or token.text in QUIET - {"x"}:
                return False
        return False

    def _count(self, count: Count, measure: str) -> None:
        self._begin()
        if not measure and self.now.counted and self.now.measure == "s" and not self.now.name:
            self.now.measure = ""  # the time before it was of something else
        self.now.count, self.now.counted = count, True
        if measure:
            self.now.measure = measure

    def _ok(self, number: Any) -> bool:
        return number == int(number) and 1 <= number <= MOST_COUNT
