"""What a form or a later line says of work that stands above: `WORK: ...`, `WEIGHTS: wall ball 9/6 kg`, `pull-ups are 12 not 9`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from tracker.prescription.sheet.lines.line import Line

_KIND = r"(?:amrap|e\d?mom|for time|tabata|rft|chipper)"
_PIECE = re.compile(rf"^\s*(?:piece|workout|wod|metcon|format|type)\s*:\s*(?P<k>{_KIND}\b.*)$", re.IGNORECASE)
_WORK = re.compile(r"^\s*(?:work|movements?|exercises?|tasks?)\s*:\s*(?P<w>.*\d.*)$", re.IGNORECASE)
_ROUNDS = re.compile(r"^\s*(?:rounds?|sets? through)\s*:\s*(?P<n>\d{1,2})\s*$", re.IGNORECASE)
_LOADS = re.compile(r"^\W*(?:loads?|weights?|gewichte?|cargas?|charges?)\s*:\s*(?P<l>.*\d.*)$", re.IGNORECASE)
_OF_ONE = re.compile(
    r"^\W*(?P<name>[a-z][a-z' -]{2,30}?)\s*[:@=]?\s*(?P<load>\d{1,3}(?:[.,]\d)?(?: ?/ ?\d{1,3}(?:[.,]\d)?)? ?(?:kg|lbs?))\W*$",
    re.IGNORECASE,
)
_NOT_BUT = re.compile(
    r"^\W*(?:sorry|oops|correction|edit)?\W*(?:it'?s |the )?(?P<name>[a-z][a-z' -]{2,30}?),? (?:are|is|should be|=) (?P<n>\d{1,3}),? ?(?:and )?(?:not|instead of|rather than) (?P<o>\d{1,3})\b(?P<e>[^\d]*)$",
    re.IGNORECASE,
)
_HAS_LOAD = re.compile(r"\d ?(?:kg|lbs?)\b", re.IGNORECASE)
FAR = 12  # lines above in which the movement is looked for


def filled_in(lines: Sequence[Line]) -> list[Line]:
    """Return the lines with a form's work as it is typed without one, and later loads and counts where they belong."""
    found = list(lines)
    _forms(found)
    for place, line in enumerate(found):
        if (loads := _LOADS.match(line.text)) and (told := _told(loads["l"])):
            _put_loads(found, place, told)
        elif wrong := _NOT_BUT.match(line.text):
            _put_count(found, place, wrong)
    return found


def _forms(lines: list[Line]) -> None:
    """Take the keys from a piece that is filled in as a form: only where both its kind and its work have one."""
    for place, line in enumerate(lines):
        kind = _PIECE.match(line.text)
        if kind is None:
            continue
        below = range(place + 1, min(place + 6, len(lines)))
        if not any(_WORK.match(lines[at].text) for at in below):
            continue
        lines[place] = replace(line, text=kind["k"])
        for at in below:
            text = lines[at].text
            if rounds := _ROUNDS.match(text):
                lines[at] = replace(lines[at], text=f"{rounds['n']} rounds")
            elif work := _WORK.match(text):
                lines[at] = replace(lines[at], text=work["w"].replace(";", ","))
                break


def _told(text: str) -> list[tuple[str, str]]:
    """The loads by the names of their movements; none where a part names no movement."""
    parts = [_OF_ONE.match(part) for part in re.split(r"[,;](?!\d)", text) if part.strip()]
    return [(part["name"].strip(), part["load"]) for part in parts if part] if all(parts) else []


def _name(words: str) -> re.Pattern[str]:
    stem = re.escape(words.strip().lower().removesuffix("s")).replace(r"\ ", "[ -]").replace(r"\-", "[ -]")
    return re.compile(rf"\b{stem}(?:e?s)?\b", re.IGNORECASE)


def _put_loads(lines: list[Line], place: int, told: Sequence[tuple[str, str]]) -> None:
    """Put loads to the movements above that have none; the line stays as it is where one of them is not found."""
    changed: dict[int, str] = {}
    for name, load in told:
        pattern = _name(name)
        for at in range(place - 1, max(place - FAR, -1), -1):
            text = changed.get(at, lines[at].text)
            there = pattern.search(text)
            if there and re.search(r"\d", text) and not _HAS_LOAD.match(text[there.end() :].lstrip(" (@")):
                changed[at] = f"{text[: there.end()]} {load.replace(' / ', '/')}{text[there.end() :]}"
                break
        else:
            return
    for at, text in changed.items():
        lines[at] = replace(lines[at], text=text)
    lines[place] = replace(lines[place], words=True)


def _put_count(lines: list[Line], place: int, wrong: re.Match[str]) -> None:
    """Put right how many a movement above is of, where just that many stand there once."""
    pattern = re.compile(rf"(?<![\d.,/-]){wrong['o']}(?= ?(?:x )?{_name(wrong['name']).pattern})", re.IGNORECASE)
    above = [at for at in range(max(place - FAR, 0), place) if pattern.search(lines[at].text)]
    if len(above) == 1:
        at = above[0]
        lines[at] = replace(lines[at], text=pattern.sub(wrong["n"], lines[at].text, count=1))
        lines[place] = replace(lines[place], words=True)
