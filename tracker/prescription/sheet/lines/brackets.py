"""Remarks in brackets, and signs outside of them."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any


def split_outside(text: str, sign: str) -> list[str]:
    """Part a text at a sign outside brackets."""
    parts: list[str] = []
    depth, now = 0, ""
    for letter in text:
        depth += (letter == "(") - (letter == ")")
        if letter == sign and depth <= 0:
            parts.append(now)
            now = ""
        else:
            now += letter
    return [part for part in [*parts, now] if part.strip()]


def remarks_of(text: str) -> tuple[str, list[str]]:
    """Take remarks in brackets out of a text: those of words; a load in brackets stays to be read."""
    notes: list[str] = []

    def take(found: re.Match[str]) -> str:
        notes.append(found[1].strip())
        return " "

    return re.sub(r"\(([^()]*)\)", take, text), notes


def with_note(group: Any, text: str) -> Any:
    notes = remarks_of(text)[1]
    return replace(group, note="; ".join(notes)) if notes else group
