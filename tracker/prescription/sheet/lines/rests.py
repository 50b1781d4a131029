"""A rest said apart from its sets: on a line of its own below a gap, or with a remark behind it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from tracker.prescription.sheet.lines.line import Line

_LONG = r"\d{1,3}(?::\d\d)?(?: ?[-–] ?\d{1,3}(?::\d\d)?)? ?(?:min(?:ute)?s?|secs?|seconds?|s|'|\")?"
_REST = re.compile(
    rf"^[\W_]*(?:rests?|pause|repos|descanso|descansa)\b:? ?(?:is |about |ca\.? )?{_LONG}(?: (?:between|after)(?: (?:each|every|all|the))?(?: (?:heavy|work(?:ing)?))? sets?)?[\W_]*$",
    re.IGNORECASE,
)
_SETS = re.compile(r"\d ?[x×] ?\d|\d ?@ ?\d|@ ?(?:rpe ?)?\d|\d ?%|\brpe ?\d", re.IGNORECASE)
_PIECE = re.compile(r"\b(?:amrap|e\d?mom|for time|rounds?|rft|tabata|every \d)\b", re.IGNORECASE)
_MIN_STOP = re.compile(r"(\b(?:rests?|pause):? ?[\d:.,–-]+ ?)min\.(?= [A-ZÄÖÜ])", re.IGNORECASE)
_NOT_ALL_OUT = re.compile(
    r"\b(?:nobody|no ?one|none of (?:you|us)|never|not|do(?:n'?t| not)|no sets?)(?: (?:goes|go|going|any|set|sets|taken|takes|it|them)){0,3} to failure\b",
    re.IGNORECASE,
)
_PLEASE = re.compile(r"^(\W*)please (?=rest\b)", re.IGNORECASE)
# "back offs: 4x5", "Back off: same squat 3x5": sets of the lift above
_BACK_OFF = re.compile(
    r"^\W*back[ -]?offs?(?: sets?)?\b\s*[:=-]?\s*(?:same (?:lift|squat|bar|movement|exercise)[:,]? )?(?=\d)",
    re.IGNORECASE,
)
_SINGLES = re.compile(r"\bsingles (?:up )?to (?:a |the |your )?(?:new )?(?:1 ?rm|max)\b", re.IGNORECASE)
# "Front squat, working from your 1RM in the autumn test week:" above its sets
_WORKING_FROM = re.compile(
    r"^(?P<l>\W*[a-z][a-z -]{2,30}),? (?:(?:all )?(?:working|based|going|work)|all|percentages|numbers) (?:from|off|on|of) (?:your |the |a |our )?(?:tested |last |best )?(?P<n>\d{1,2}) ?RM\b[^:;\d%@]*:?\s*$",
    re.IGNORECASE,
)
_COUNTS = {"twice": 2, "two times": 2, "three times": 3, "four times": 4, "five times": 5, "thrice": 3}
_OFTEN = re.compile(
    r"(?<![\d.x×/-])(?P<r>\d{1,2}) ?(?:reps? )?(?P<at>@|at) ?(?P<l>\d{2,3}(?:[.,]\d)?)(?P<p> ?%)?,? (?:for )?(?P<n>twice|thrice|(?:two|three|four|five|[2-9]) times)\b(?! (?:a|per|round|through))",
    re.IGNORECASE,
)


def said_plainly(text: str) -> str:
    """Return a line in which a rest ends before its remark, sets not to failure are just sets, and a count stands before."""
    text = _NOT_ALL_OUT.sub("no all-out efforts", _MIN_STOP.sub(r"\1minutes.", _PLEASE.sub(r"\1", text)))
    text = _SINGLES.sub("build to a 1RM", _BACK_OFF.sub("back-off: ", text))
    text = _WORKING_FROM.sub(r"\g<l> (% of \g<n>RM)", text)
    return _OFTEN.sub(_counted, text)


def _counted(found: re.Match[str]) -> str:
    told = found["n"].lower()
    times = _COUNTS.get(told) or int(told[0])
    return f"{times}x{found['r']} {found['at']} {found['l']}{found['p'] or ''}"


def rests_below(lines: Sequence[Line]) -> list[Line]:
    """Put a rest that stands alone below a gap directly below the sets above it: they are what one rests between."""
    found = list(lines)
    for place in range(2, len(found)):
        above, gap, rest = found[place - 2 : place + 1]
        ends = place + 1 == len(found) or found[place + 1].blank
        if (
            ends
            and gap.blank
            and not rest.words
            and _REST.match(rest.text)
            and _SETS.search(above.text)
            and not _PIECE.search(above.text)
        ):
            found[place - 1], found[place] = rest, replace(gap, number=gap.number)
    return found
