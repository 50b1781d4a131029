"""Finds the work in a line of words: behind a warm-up on the same line, behind a level, in a part of a sentence."""

from __future__ import annotations

import re

from tracker.prescription.sheet.pieces.heads import CLOCKS
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.words.plain_words import plain

TIME_OF_ITS_OWN = re.compile(
    r"\W*\d{1,2} ?(?:min(?:ute)?s?|') (?:of )?(?:max|amrap|as many|easy|emom)\b", re.IGNORECASE
)
_WORK_BEGINS = re.compile(r"\s+[/|]+\s+|;\s+|\.\s+(?:[Tt]hen,? )?(?=[^\W\d])")


def work_behind(text: str) -> int:
    """Where the work begins behind a warm-up that stands on one line with it, parted by strokes: `wu row 5 min / BS 4x4 @ 80 %`."""
    for found in _WORK_BEGINS.finditer(text):
        tokens = tokens_of(plain(_WORK_BEGINS.split(text[found.end() :], maxsplit=1)[0]))
        kinds = {token.kind for token in tokens}
        if kinds & (CLOCKS - {"every"}) or (
            "name" in kinds and kinds & {"setsx", "sets", "list"} and kinds & {"pct", "mass", "rpe", "atx"}
        ):
            return found.end()
    return 0


# "AMRAP 9: 9 burpees, 9 swings, 9 T2B (home: DB swing, v-up)": a level for all that stands before it
_LEVEL_IN_BRACKETS = re.compile(
    r"^(?P<main>.*\w[^(]*?)\s*\((?P<told>(?:at )?(?:home|scaled?|scaling|sc|beginners?|beg)\b\s*[:=]\s*[^()]*[,/;][^()]*)\)\s*(?P<more>\W*)$",
    re.IGNORECASE,
)


# "... 9 muscle-ups  L2: ring rows  L1: ...": a level behind what is asked, on the same line
_LEVEL_INSIDE = re.compile(
    r"[\s,;/|-]+(?=(?:L[1-3]|Level [1-3]|Scaled|Beginners?|At home|Home)(?:/(?:home|scaled))?\s*:\s)", re.IGNORECASE
)


def level_apart(part: str) -> list[str]:
    """Part what a level does from the movements that it stands behind; behind a single movement it is that one's."""
    if (level := _LEVEL_INSIDE.search(part)) and any(
        token.kind == "name" for token in tokens_of(plain(part[: level.start()]))
    ):
        return [each for each in _LEVEL_INSIDE.split(part) if each.strip(" ,;-/|")]
    found = _LEVEL_IN_BRACKETS.match(part)
    if found is None or sum(token.kind == "name" for token in tokens_of(plain(found["main"]))) == 1:
        return [part]
    return [found["main"], found["told"]]


def work_of(chunk: str) -> bool:
    """Whether a part of a sentence is of the work itself: sets with a load, what percentages are of, a clock."""
    kinds = {token.kind for token in tokens_of(plain(chunk))}
    return bool(kinds & {"pct", "atx", "find"} or kinds & (CLOCKS - {"every"}) or ("of" in kinds and "name" in kinds))


def loaded_sets(text: str) -> bool:
    """Whether a line has three sets or more with a load each: `warm-up sets: 5 @ 40, 5 @ 50, 3 @ 60`."""
    tokens = tokens_of(plain(text))
    loads = sum(token.kind in ("pct", "atx", "mass") for token in tokens)
    return loads >= 3 and not any(token.kind == "name" for token in tokens)
