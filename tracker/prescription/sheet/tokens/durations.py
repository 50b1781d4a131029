"""Durations as they are typed, and how a rule of tokens is written."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal
from typing import Any

# A duration with its unit; `m` alone is metres, but where only a time can stand.
DUR = (
    r"(?:\d{1,2}:\d{2}(?::\d{2})?(?!\d|:\d)(?:\s*(?:min(?:utes?|s)?|m|h)\b)?|:\d{2}\b|\d{1,2}'\d{2}(?:''|\"|s\b)?(?![\d'])"
    r"|\d+(?:\.\d+)?\s*-?\s*(?:minutes?|mins?\b\.?|min\b|m(?=in)|')\s*(?:and\s+)?\d{1,2}\s*(?:seconds?|secs?|s|\"|''|$|(?=[)\];]|\.(?!\d)|\s+(?:rest|entre|between|pause))|(?<='\d\d)(?=,))(?![a-z])"
    r"|\d+(?:\.\d+)?\s*-?\s*(?:seconds?\b|secs?\b\.?|s\b|\"(?!\s*box)|''|minutes?\b|mins?\b\.?|hours?\b|hrs\b|h\b(?![ ]?(?:push|pull))|std\b|')(?![\d]))"
)
_TIME_PARTS = re.compile(
    r"(\d+(?:\.\d+)?)\s*-?\s*(hours?|hrs?|h|std|minutes?|mins?\.?|min|'(?!')|seconds?|secs?\.?|s|\"|''|m)?"
)


def seconds(text: str, *, bare: int = 60) -> int:
    """Read a duration; a number without a unit counts `bare` seconds."""
    text = text.strip().lower()
    if ":" in text:
        parts = [int(part[:6]) for part in re.findall(r"\d+", text)]
        if text.startswith(":"):
            return parts[0]
        if len(parts) > 3:
            parts = parts[:3]
        return sum(part * 60**place for place, part in enumerate(reversed(parts)))
    total, unit = Decimal(0), ""
    for number, word in _TIME_PARTS.findall(text):
        if not word and unit.startswith(("m", "'")):
            factor = 1
        else:
            factor = (
                bare
                if not word
                else 3600
                if word[0] == "h" or word == "std"
                else 60
                if word[0] in "m'" and word != "''"
                else 1
            )
        unit = word
        total += Decimal(number[:9]) * factor
    return int(total)


NOT = object()  # the value of a rule that does not fit after all: the next one is tried
Rule = tuple[str, "re.Pattern[str]", Callable[[re.Match[str]], Any]]


def rule(kind: str, pattern: str, value: Callable[[re.Match[str]], Any] = lambda found: found[0]) -> Rule:
    return kind, re.compile(pattern, re.VERBOSE), value


def in_verbose(pattern: str) -> str:
    """Let a pattern that was written without VERBOSE stand in one that is."""
    return pattern.replace(" ", r"[ ]").replace("#", r"\#") if "[ ]" not in pattern else pattern
