"""Puts the tokens of a row of sets into one order, whichever way it is typed, before they are read.

`70% x 5, 80% x 3`, `5 @ 70%, 3 @ 80%` and `70% (5) > 80% (3)` say the same. Only where the whole row goes up in pairs of a
load and repetitions, either of them first, is it touched. Sets that are told by their number
(`sets 1-4 @ 75%`, `75% (1-4), 80% (5-8)`) become the loads of so many sets.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from tracker.prescription.sheet.tokens.tokens import Token

_LOADS = frozenset({"pct", "mass", "atx", "pctoff"})
_REPS = frozenset({"setsx", "sets", "plus", "reps", "xnum", "max", "list", "complex", "range"})
_SPREAD = frozenset(
    {"masslist", "atlist", "loadx", "find", "setlabel", "minutesmark", "setcount", "numbers", "emom", "every"}
)
_BETWEEN = frozenset({"x", "@", "at", "of", "reps", "rep", "for", "with", "around", "a", "the", "about", "do", "-", ":", "(", ")", "[", "]", ",", "/", "=", ">", "|", "then"})  # fmt: skip
MOST_BARE = 30  # a number without a word beside a load is repetitions up to here; design choice


def in_order(tokens: list[Token]) -> list[Token]:
    """Return the tokens of a row of sets with its repetitions before their load, and numbered sets as loads in a row."""
    tokens = _times(_counted(_numbered(tokens)))
    places = _row(tokens)
    if len(places) < 2 or len(places) % 2:
        return tokens
    pairs = list(pairwise_apart(places))
    if any((tokens[one].kind in _LOADS) == (tokens[two].kind in _LOADS) for one, two in pairs):
        return tokens
    if not all(_near(tokens, one, two) for one, two in pairs):
        return tokens
    if len(pairs) == 1 and not {tokens[place].kind for place in pairs[0]} & {"num", "plus", "range", "reps", "max"}:
        return tokens
    found = list(tokens)
    for one, two in reversed(pairs):
        if tokens[one].kind in _LOADS:
            found.insert(one, _as_reps(found.pop(two)))
        else:
            found[one] = _as_reps(found[one])
    return found


def pairwise_apart(places: list[int]) -> Iterator[tuple[int, int]]:
    """Return the first with the second, the third with the fourth."""
    return zip(places[::2], places[1::2], strict=True)


def _row(tokens: list[Token]) -> list[int]:
    """The places of loads and repetitions; none where a token among them spreads over several sets by itself."""
    found: list[int] = []
    for place, token in enumerate(tokens):
        if token.kind in _SPREAD or (
            token.kind == "pct" and len(token.value[0]) > 1 and "-" not in token.text and " to " not in token.text
        ):
            return []
        if (
            token.kind in _LOADS
            or token.kind in _REPS
            or (token.kind == "num" and token.value == int(token.value) and 0 < token.value <= MOST_BARE)
        ):
            found.append(place)
    return found


def _near(tokens: list[Token], one: int, two: int) -> bool:
    """Whether nothing but signs and small words stands between a load and its repetitions."""
    return all(
        token.kind in ("of", "sep", "andword") or token.text in _BETWEEN for token in tokens[one + 1 : two]
    ) and not any(
        token.text in (",", ";", "/", ">", "|", "then") for token in tokens[one + 1 : two] if _parts(tokens, one, two)
    )


def _parts(tokens: list[Token], one: int, two: int) -> bool:
    """Whether a sign between a load and the number behind it rather parts two sets: the number is bare, and the sign is no comma."""
    return tokens[two].kind == "num" and not any(each.text == "reps" for each in tokens[two + 1 : two + 2])


def _as_reps(token: Token) -> Token:
    return replace(token, kind="reps", value=int(token.value)) if token.kind in ("num", "xnum") else token


def _times(tokens: list[Token]) -> list[Token]:
    """`70 % 2+1, 75 % 1+1 x3`: what is multiplied behind its load is so many sets."""
    found: list[Token] = []
    for token in tokens:
        last = found[-1] if found else None
        if (
            token.kind == "xnum"
            and last is not None
            and last.kind in ("complex", "reps")
            and len(found) > 1
            and found[-2].kind in _LOADS
            and sum(each.kind in _LOADS for each in tokens) > 1
        ):
            parts = list(last.value) if last.kind == "complex" else [int(last.value)]
            kind = "complex" if len(parts) > 1 else "plain"
            found[-1] = Token("setsx", (token.value, parts, kind), last.start, token.end, f"{last.text} {token.text}")
        else:
            found.append(token)
    return found


def _counted(tokens: list[Token]) -> list[Token]:
    """`2+1: 60 % 2 sets, 70 % 3 sets`: one set once, then loads with how many sets each has."""
    works = [
        (place, token)
        for place, token in enumerate(tokens)
        if token.kind in _REPS | _LOADS | {"setcount", "num"} or token.kind in _SPREAD
    ]
    if len(works) < 3 or works[0][1].kind not in ("complex", "reps", "num") or len(works) % 2 == 0:
        return tokens
    head = works[0][1]
    parts = list(head.value) if head.kind == "complex" else [int(head.value)]
    made: dict[int, list[Token]] = {works[0][0]: []}
    for (place, load), (at, count) in zip(works[1::2], works[2::2], strict=True):
        sets = count.kind == "setcount" or (
            count.kind == "xnum" and any(each.text.startswith("set") for each in tokens[at + 1 : at + 2])
        )
        if load.kind not in _LOADS or not sets:
            return tokens
        made[place] = [
            Token(
                "setsx", (int(count.value), parts, "complex" if len(parts) > 1 else "plain"), load.start, load.start, ""
            ),
            load,
        ]
        made[at] = []
    return [each for place, token in enumerate(tokens) for each in made.get(place, [token])]


def _numbered(tokens: list[Token]) -> list[Token]:
    """Let loads that are told by the numbers of their sets be loads in a row."""
    spans: list[tuple[int, int, Any]] = []
    first = last = -1
    for place, token in enumerate(tokens):
        if token.kind not in _LOADS - {"pctoff"}:
            continue
        before = tokens[place - 1] if place else None
        label = before if before is not None and before.kind == "setlabel" else None
        span, start, end = (label.value, place - 1, place) if label is not None else (None, place, place)
        if (
            span is None
            and spans
            and tokens[first].kind == "setlabel"
            and before is not None
            and before.kind in ("range", "num")
        ):
            low, high = before.value if before.kind == "range" else (int(before.value), int(before.value))
            span, start = (low, high), place - 1  # "sets 1-4 @ 75%, 5-8 @ 80%"
        if span is None:
            span, end = _behind(tokens, place)
        if span is None:
            return tokens
        spans.append((span[0], span[1], token))
        first, last = start if first < 0 else first, end
    if len(spans) < 2 or spans[0][0] != 1 or any(two[0] != one[1] + 1 for one, two in itertools.pairwise(spans)):
        return tokens
    total = spans[-1][1]
    ahead = [token for token in tokens[:first] if token.kind in _REPS or token.kind in ("num", "setcount")]
    if (
        any(token.kind in _REPS or token.kind == "num" for token in tokens[first:last] if token.kind not in ("range",))
        and tokens[first].kind == "setlabel"
    ):
        told = {id(tokens[at - 1]) for at, token in enumerate(tokens) if token.kind in _LOADS and at}
        inside = [
            token
            for token in tokens[first:last]
            if (token.kind in _REPS or token.kind == "num") and id(token) not in told
        ]
        if inside:
            return tokens  # each label has its own repetitions
    counted = len(ahead) == 1 and ahead[0].kind == "setcount" and ahead[0].value == total
    if len(ahead) > 1 or (not ahead and tokens[first].kind != "setlabel"):
        return tokens
    loads = Token(
        "setloads",
        [(token, stop - start + 1) for start, stop, token in spans],
        tokens[first].start,
        tokens[last].end,
        "",
    )
    if not ahead or counted:  # the repetitions of a complex stand with its names
        return [*tokens[:first], loads, *tokens[last + 1 :]]
    reps = ahead[0]
    if reps.kind != "setsx":
        if reps.kind not in ("reps", "num", "xnum"):
            return tokens
        reps = Token("setsx", (total, [int(reps.value)], "plain"), reps.start, reps.end, reps.text)
    elif reps.value[0] != total:
        return tokens
    at = next(place for place, token in enumerate(tokens) if token is ahead[0])
    return [*tokens[:at], reps, *tokens[at + 1 : first], loads, *tokens[last + 1 :]]


def _behind(tokens: list[Token], place: int) -> tuple[tuple[int, int] | None, int]:
    """The numbers of sets behind a load: `(1-4)`, `(sets 1-4)`, `for sets 1-4`; and where they end."""
    at = place + 1
    while at < len(tokens) and tokens[at].text in ("(", "for", "on", "in", "["):
        at += 1
    if at >= len(tokens):
        return None, place
    token, bracket = tokens[at], at > place + 1
    end = at + 1 if at + 1 < len(tokens) and tokens[at + 1].text in (")", "]") else at
    if token.kind == "setlabel" and bracket:
        return token.value, end
    if end == at or not bracket:
        return None, place
    if token.kind == "range" and token.value[0] < token.value[1]:
        return token.value, end
    if token.kind == "num" and token.value == int(token.value):
        return (int(token.value), int(token.value)), end
    return None, place
