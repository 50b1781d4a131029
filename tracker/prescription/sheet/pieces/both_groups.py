"""Amounts for two groups that stand apart are one pair: "15 cal bike (12 women)", "15 cal bike / 12"."""

from __future__ import annotations

from dataclasses import replace

from tracker.prescription.sheet.tokens.tokens import Token

_MEASURES = {"cal": "cal", "dist": "m", "num": "", "reps": ""}


def amounts_of_both(tokens: list[Token]) -> list[Token]:
    """Put an amount and the smaller one of another group, that is named or behind a stroke, into one pair."""
    found = list(tokens)
    for place, first in enumerate(found):
        if first.kind not in _MEASURES or (first.kind == "dist" and first.value[1] != "m"):
            continue
        names = [at for at in range(place + 1, min(place + 4, len(found))) if found[at].kind == "name"]
        if not names or any(token.kind not in ("word", "name", "calword") for token in found[place + 1 : names[0]]):
            continue
        end = _other(found, names[0] + 1, first)
        if end is None:
            continue
        last, second = end
        pair = replace(
            first,
            kind="calpair",
            value=(int(_number(first)), int(_number(second)), _MEASURES[first.kind]),
            end=first.end,
        )
        return amounts_of_both([*found[:place], pair, *found[place + 1 : names[0] + 1], *found[last + 1 :]])
    return found


def _number(token: Token) -> float:
    return float(token.value[0] if token.kind == "dist" else token.value)


def _other(tokens: list[Token], at: int, first: Token) -> tuple[int, Token] | None:
    """The amount of the other group from here on: where it ends, and its token; None where there is none."""
    bracket = at < len(tokens) and tokens[at].text == "("
    run: list[Token] = []
    last = at
    for place in range(at + bracket, min(at + 6, len(tokens))):
        token = tokens[place]
        if bracket and token.text == ")":
            last = place
            break
        if not bracket and place > at and token.kind == "sep" and token.text not in "/":
            break
        run.append(token)
        last = place
    numbers = [token for token in run if token.kind in _MEASURES]
    named = any(token.kind == "women" for token in run)
    rest = [token for token in run if token not in numbers and token.kind not in ("women", "calword")]
    stroke = not bracket and bool(run) and run[0].text == "/" and first.kind in ("cal", "dist") and len(run) == 2
    if len(numbers) != 1 or not (named or stroke):
        return None
    second = numbers[0]
    if second.kind not in (first.kind, "num") or any(
        token.text not in ("/", ",", "for", "the", "reps") for token in rest
    ):
        return None
    share = _number(second) / max(_number(first), 1)
    return (last, second) if 0.4 <= share < 1 else None
