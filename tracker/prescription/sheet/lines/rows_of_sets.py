"""Rows that only hold the sets of a lift: lettered below its name, or in cells without a heading above them."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.words.plain_words import plain

# "a. 5 @ 60 %" below "1) Back squat"
_LETTERED = re.compile(r"^\s*(?P<l>[a-h])[.):]\s*(?=\d{1,2}\+?\s*(?:[x×@]|reps?\b|at\b)[^a-z]*(?:reps?|at|kg|lb|rpe|[^a-z])*$)", re.IGNORECASE)  # fmt: skip
_COUNT = re.compile(r"\d{1,2}")
_REPS = re.compile(r"\d{1,2}(?:\+|\s?[-–]\s?\d{1,2})?")
_LOAD = re.compile(r"@?\s*(?:\d{2,3}(?:[.,]5)?\s*(?:[-–]\s*\d{2,3}\s*)?(?:%|kg|lb)|rpe\s*\d(?:[.,]5)?)(?:\s.{0,20})?", re.IGNORECASE)  # fmt: skip


def lettered_sets(lines: list[Line]) -> list[Line]:
    """Return lines where the letters of sets that stand below each other, from a on, are gone."""
    found = list(lines)
    place = 0
    while place < len(found):
        run: list[int] = []
        while place + len(run) < len(found) and len(run) < 8:
            match = _LETTERED.match(found[place + len(run)].text)
            if match is None or match["l"].lower() != "abcdefgh"[len(run)]:
                break
            run.append(place + len(run))
        if len(run) > 1:
            for at in run:
                found[at] = replace(found[at], text=_LETTERED.sub("", found[at].text))
        place += max(1, len(run))
    return found


def rows_without_heading(lines: list[Line]) -> list[Line]:
    """Return lines where `Back squat | 5 | 5 | 75 %` is told as sets; a row below a heading of columns stays as it is."""
    found: list[Line] = []
    headed = False
    for line in lines:
        cells = [cell.strip() for cell in line.raw.strip().strip("|").split("|")]
        if len(cells) < 3:
            headed = False
            found.append(line)
            continue
        if not any(sign.isdigit() for sign in line.raw):
            headed = True
        name, sets, reps, *rest = cells
        told = (
            not headed
            and any(sign.isalpha() for sign in name)
            and not any(sign.isdigit() for sign in name)
            and _COUNT.fullmatch(sets)
            and _REPS.fullmatch(reps)
            and rest
            and _LOAD.fullmatch(rest[0])
        )
        words = ", ".join([f"{name} {sets}x{reps} @ {rest[0].lstrip('@ ')}", *rest[1:]]) if told else line.text
        found.append(replace(line, text=words))
    return found


# Sets that are told before the names of several lifts
_SETS_OF_SEVERAL = re.compile(
    r"^\W*(?P<s>\d{1,2}\s?[x×]\s?\d{1,2}(?:\s?[-–]\s?\d{1,2})?(?!\d)[^:;]{0,30}?)(?: of)?:\s*(?P<all>[^\d@%:;().]+)\W*$",
    re.IGNORECASE,
)


def sets_of_several(lines: list[Line]) -> list[Line]:
    """Return lines where sets that are told before several lifts stand with each of them: `3x10: curls, raises, face pulls`."""
    found: list[Line] = []
    for line in lines:
        match = _SETS_OF_SEVERAL.match(line.text)
        names = [each.strip() for each in re.split(r",|/|\band\b|&", match["all"])] if match else []
        named = [each for each in names if any(token.kind == "name" for token in tokens_of(plain(each)))]
        if match is None or len(names) < 2 or len(named) != len(names) or any(len(each.split()) > 5 for each in names):
            found.append(line)
            continue
        found += [replace(line, text=f"{name} {match['s'].strip()}") for name in names]
    return found
