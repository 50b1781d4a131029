"""What is typed below each other and belongs on one line: percentages a line each, rounds above their clock, a complex by counts."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from tracker.prescription.sheet.lines.line import Line

_PERCENT = re.compile(r"^\W*(?P<p>\d{2,3}(?:[.,]\d)?) ?%(?:[ ,:-]*(?P<n>\d) ?sets?)?\W*$", re.IGNORECASE)
# How many repetitions each of the percentages below is of, behind the name of a lift or of a complex
_SCHEME = re.compile(
    r"^(?P<head>.*[a-z)].*?)[ ,:]+(?:(?P<c>\d(?: ?\+ ?\d){1,4})|[x×] ?(?P<x>\d{1,2})|(?P<r>\d{1,2}) ?reps?)\W*$",
    re.IGNORECASE,
)
_ROUNDS = re.compile(r"^\W*(?P<n>\d{1,2}) ?(?:rounds?|rds|intervals?|sets|times|x)\W*$", re.IGNORECASE)
_CLOCK = re.compile(
    r"^\W*\d{1,2}(?::\d\d)? ?(?:min(?:ute)?s?|s(?:ec(?:ond)?s?)?|'|\")? ?(?:on|hard|work|all[ -]out|fast)\b.{0,12}?\d{1,2}(?::\d\d)? ?(?:min(?:ute)?s?|s(?:ec(?:ond)?s?)?|'|\")? ?(?:off|easy|rest|slow|recovery)\W*$",
    re.IGNORECASE,
)
_COMPLEX = re.compile(
    r"^\W*(?P<all>[1-3] [a-z][a-z -]{2,28}(?: ?\+ ?[1-3] [a-z][a-z -]{2,28}){1,4})\W*$", re.IGNORECASE
)
_PART = re.compile(r"(?P<n>[1-3]) (?P<name>[a-z][a-z -]{2,28})", re.IGNORECASE)
_TITLE = re.compile(r"^\W*[^\d%@+]{0,40}\bcomplex\W*$", re.IGNORECASE)
_LIFTED = re.compile(r"%|@|\brpe\b|\b\d ?sets\b", re.IGNORECASE)


def stacked(lines: Sequence[Line]) -> list[Line]:
    """Return the lines with what is one thing on its first line; the others stay as lines that say nothing more."""
    found = list(lines)
    for place, line in enumerate(found):
        if line.words or line.blank:
            continue
        below = found[place + 1] if place + 1 < len(found) else None
        if (rounds := _ROUNDS.match(line.text)) and below is not None and _CLOCK.match(below.text):
            found[place] = replace(line, text="", head=True)
            found[place + 1] = replace(below, text=f"{rounds['n']} rounds of {below.text.strip()}")
        elif _COMPLEX.match(line.text) and below is not None and _LIFTED.search(below.text):
            _by_counts(found, place)
        if below is not None and _PERCENT.match(below.text):
            _each_as_told(found, place)
    return found


def _each_as_told(lines: list[Line], place: int) -> None:
    """Put the repetitions that stand above percentages, a line each, to every one of them."""
    told = _SCHEME.match(lines[place].text)
    end = place + 1
    while end < len(lines) and _PERCENT.match(lines[end].text):
        end += 1
    if told is None or end - place < 3:
        return
    reps = re.sub(r"\s", "", told["c"] or "") or told["x"] or told["r"]
    lines[place] = replace(lines[place], text=told["head"])
    for at in range(place + 1, end):
        if found := _PERCENT.match(lines[at].text):
            sets = f"{found['n']} x " if found["n"] else ""
            lines[at] = replace(lines[at], text=f"{sets}{reps} @ {found['p']}%")


def _by_counts(lines: list[Line], place: int) -> None:
    """Write `1 clean pull + 2 hang cleans` as the complex of these lifts, 1+2; its title above says nothing more."""
    parts = [(part["name"].strip(), part["n"]) for part in _PART.finditer(lines[place].text)]
    names, counts = " + ".join(name for name, _ in parts), "+".join(count for _, count in parts)
    lines[place] = replace(lines[place], text=f"{names} {counts}")
    if place and _TITLE.match(lines[place - 1].text):
        lines[place - 1] = replace(lines[place - 1], text="", head=True)
