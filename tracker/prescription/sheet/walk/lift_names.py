"""Reads which lift a line is about, where its name is longer than the table's, unknown, slipped, or one of several."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from tracker.prescription.sheet.asks import Choice
from tracker.prescription.sheet.days.weekdays import any_weekday
from tracker.prescription.sheet.lifts.lift_line import as_lift, main_names, outside_brackets
from tracker.prescription.sheet.lifts.marks import IMPLEMENT_WORDS
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.pieces.movement_words import makes_name
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.prescription.sheet.walk.other_ways import OtherWays
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.names import Found, Name, full_name
from tracker.prescription.sheet.words.plain_words import plain

# Before a name that is only spoken of
_NOT_ITS_SETS = frozenset(
    {
        "no",
        "not",
        "without",
        "instead",
        "like",
        "after",
        "before",
        "for",
        "than",
        "in",
        "with",
        "from",
        "between",
        "superset",
    }
)


class LiftNames(OtherWays):
    """Which lift a line is about."""

    def _longer_names(self, tokens: list[Token], names: list[Token]) -> tuple[list[Token], list[Token]]:
        """Put a word before the first name that makes another one of it to the name: a pallof press is no press."""
        if self.prose or not names:
            return tokens, names
        at = tokens.index(names[0])
        first = at
        while first and tokens[first - 1].kind == "word" and makes_name(tokens[first - 1].text) and at - first < 2:
            if any_weekday(tokens[first - 1].text.capitalize()) is not None:
                break
            first -= 1
        if first == at:
            return tokens, names
        typed = " ".join(token.text for token in tokens[first : at + 1])
        name, entry = full_name(typed, lift=True)
        found = Found(tokens[first].start, names[0].end, name, entry, typed)
        made = Token("name", found, tokens[first].start, names[0].end, typed)
        return [*tokens[:first], made, *tokens[at + 1 :]], [made, *names[1:]]

    def _for_whom(self, line: Line, entry: Name | None) -> str:
        """`For the dumbbell people: floor press 4x10`: what they have is the implement, where the lift doesn't say its own."""
        if entry is not None and entry.implement not in ("?", "barbell"):
            return ""
        found = re.match(
            r"\W*(?:for|and) (?:the |those with |people with |all with )?(?P<i>dumbbell|kettlebell|barbell|db|kb)s?(?: (?:people|folks|crew|only|gang))?\s*:",
            plain(line.text),
        )
        if found is None:
            return ""
        word = IMPLEMENT_WORDS[found["i"]]
        return word + "s" if word == "dumbbell" else word

    def _unknown_before(self, line: Line, tokens: list[Token], at: int) -> tuple[list[Token], list[Token]] | None:
        """`pogo hops 3x20, DL`: sets right behind words that may be a name are theirs rather than the next lift's, and asked."""
        first = next((place for place, token in enumerate(tokens) if token.kind == "name"), -1)
        if not 0 < at < first - 1 or self.prose or tokens[at + 1].text not in (",", ";", "."):
            return None
        begin = at
        while begin and tokens[begin - 1].kind == "word" and makes_name(tokens[begin - 1].text) and at - begin < 3:
            begin -= 1
        if begin == at:
            return None
        typed = " ".join(token.text for token in tokens[begin:at])
        name, entry = full_name(typed, lift=True)
        main = as_lift(tokens[first])[0].lower()
        taken = self.asker.choose(
            f"sets of one lift of several: {name}, {main}",
            line.number,
            harmless(line.raw).strip(),
            f"Several lifts stand in this line: which one is {tokens[at].text.strip()} of?",
            (Choice("unknown", name), Choice("known", main)),
        )
        if taken == "known":
            return None
        found = Found(tokens[begin].start, tokens[at - 1].end, name, entry, typed)
        made = Token("name", found, tokens[begin].start, tokens[at - 1].end, typed)
        rest = [replace(token, kind="word") if token.kind == "name" else token for token in tokens[at:]]
        return [*tokens[:begin], made, *rest], [made]

    def _nearest(self, line: Line, tokens: list[Token], names: list[Token]) -> tuple[list[Token], list[Token]]:
        """Of several lifts that stand before the first sets of a line in one breath the nearest has them, and that is asked."""
        at = next((place for place, token in enumerate(tokens) if token.kind in ("setsx", "sets")), -1)
        if (unknown := self._unknown_before(line, tokens, at)) is not None:
            return unknown
        if at < 0 or len(names) < 2 or len(main_names(tokens, names)) > 1:
            return tokens, names
        outside = {id(token) for token in outside_brackets(tokens[:at])}
        before: list[Token] = []
        for name in names:
            if id(name) not in outside:
                continue
            place = tokens.index(name)
            ahead = [token.text for token in tokens[max(0, place - 2) : place]]
            if (tokens[place - 1].kind in ("of", "orword") and place) or _NOT_ITS_SETS & set(ahead):
                continue
            before.append(name)
        behind = tokens[at + 1] if at + 1 < len(tokens) else None
        if (
            before
            and behind is not None
            and behind.kind == "name"
            and all(token.kind == "sep" for token in tokens[at + 2 : at + 3])
        ):
            before.append(behind)  # "..., planned 5x5 squat"
        called = [as_lift(name)[0].lower() for name in before]
        if len(before) < 2 or any(one in two or two in one for one, two in pairwise(called)):
            return tokens, names
        if (longer := _side_by_side(tokens, before)) is not None:
            return longer, [token for token in longer if token.kind == "name"]
        told = tokens[at].text.strip()
        order = list(dict.fromkeys(reversed(called)))[:4]
        taken = self.asker.choose(
            f"sets of one lift of several: {', '.join(order)}",
            line.number,
            harmless(line.raw).strip(),
            f"Several lifts stand in this line: which one is {told} of?",
            tuple(Choice(each, each) for each in order),
        )
        mine = before[len(called) - 1 - called[::-1].index(taken)]
        made = [
            replace(token, kind="word")
            if token.kind == "name" and token is not mine and token.start <= before[-1].start
            else token
            for token in tokens
        ]
        return made, [token for token in made if token.kind == "name"]


def _side_by_side(tokens: list[Token], names: list[Token]) -> list[Token] | None:
    """The tokens with two names that stand side by side as one, where they are all that is named: a clean-grip RDL is no clean."""
    at = tokens.index(names[0])
    if len(names) != 2 or tokens[at + 1] is not names[1] or names[1].start - names[0].end > 1:
        return None
    typed = f"{names[0].value.typed} {names[1].value.typed}"
    name, entry = full_name(typed, lift=True)
    entry = entry or as_lift(names[1])[1]
    found = Found(names[0].start, names[1].end, name, entry, typed)
    return [*tokens[:at], Token("name", found, names[0].start, names[1].end, typed), *tokens[at + 2 :]]


def said_again(tokens: list[Token], names: list[Token]) -> tuple[list[Token], list[Token]]:
    """`we squat, back squat, 5 sets of 3`: the longer name of two that stand side by side is the lift's."""
    if len(names) < 2:
        return tokens, names
    first, second = tokens.index(names[0]), tokens.index(names[1])
    between = tokens[first + 1 : second]
    longer = names[1].value.name.lower().endswith(f" {as_lift(names[0])[0].lower()}")
    if not longer or len(between) > 2 or any(token.text not in (",", "-", "so", "is", ":") for token in between):
        return tokens, names
    return [*tokens[:first], *tokens[second:]], names[1:]
