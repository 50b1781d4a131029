"""Typical slips of a typing coach, each told with the line that was probably meant; what is none of them is told plainly."""

from __future__ import annotations

import re

from lark.exceptions import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from tracker.prescription.sheet.checks import EXAMPLE_KINDS, EXAMPLE_LIFT, EXAMPLE_SETS
from tracker.prescription.sheet.lines import Line
from tracker.prescription.sheet.problems import Problem
from tracker.prescription.sheet.slip_table import SLIPS

EXAMPLES = {
    "title_line": "Title: Millrace", "date_line": "Date: 2026-11-30", "note_line": "Note: stay tall",
    "piece_line": "Piece: Lantern ladder", "session_line": "Week 1, day 1: Front squat", "lift_line": EXAMPLE_LIFT,
    "sets_line": EXAMPLE_SETS, "alternative_line": "or dumbbells, twice the repetitions", "kind_line": EXAMPLE_KINDS,
    "movement_line": "10 kettlebell swing, 16 kg kettlebell", "option_line": "or 5 ring row",
}  # fmt: skip
# What a terminal of the grammar is called in front of a person.
WORDS = {
    "INT": "a whole number", "NUMBER": "a number", "PERCENT": "the sign %", "UNIT": "kg or lb", "_X": "x", "TEXT": "text",
    "_AT": "@", "_RPE": "RPE", "RM": "a rep-max such as 3RM", "TIME": "a time such as 3:00", "COMMA": "a comma",
    "COLON": "a colon", "PLUS": "+", "NAME": "a name", "IMPLEMENT": "an implement such as barbell or dumbbells",
    "_REST": "rest", "_TEMPO": "tempo", "TEMPO": "four numbers such as 3-1-1-0", "$END": "the end of the line",
    "DATE": "a date such as 2026-11-30", "_OF": "of", "_FIND": "find", "DOUBLED": "twice the repetitions",
    "SAME": "the same repetitions", "_ROUNDS": "rounds", "_FOR_TIME": "for time", "_AS_MANY": "as many reps as possible in",
    "_CAP": "cap", "_OR": "or", "_DAY": "day", "WEEKDAY": "a weekday", "_WORK": "work", "_TIMES": "times", "_HEAD": "a colon",
    "REMARK": "a remark in brackets", "_IN": "in", "FREE": "words", "SIDE": "each side", "_IN_RESERVE": "in reserve",
    "_EVERY": "every", "_FOR": "for", "_UNSCORED": "not scored", "_BACK": "and back", "_TOP": "to", "DIRECTION": "up by",
}  # fmt: skip
_SETS = re.compile(
    r"[0-9]+\s+[0-9]+\s*(?:@|$)|[0-9]+\s*(?:[x*/@]|sets?\b|reps?\b|[0-9]*\s*%)|[x@]\s*[0-9]|(?:find|test|build\s+(?:up\s+)?to|work\s+up\s+to)\b|[0-9]+\s*$",
    re.IGNORECASE,
)


def looks_like_sets(text: str) -> bool:
    """Whether a line means sets, well written or not."""
    return _SETS.match(text) is not None


def explain(line: Line, start: str, error: UnexpectedInput) -> Problem:
    """Tell why a line can't be read: by the table of slips, else by what the grammar expected there."""
    for slip in SLIPS.get(start, ()):
        if found := slip.pattern.search(line.text):
            column = found.start("at") if "at" in found.re.groupindex and found["at"] is not None else found.start()
            return problem_at(line, column + 1, slip.say(found), slip.expected, slip.mended(found, line.text))
    column = error.column if isinstance(error.column, int) and error.column > 0 else len(line.text) + 1
    if isinstance(error, UnexpectedToken) and error.token.type == "$END":
        column = len(line.text) + 1
        what = "The line ends too early."
    else:
        rest = line.text[column - 1 :].split(" ", 1)[0][:20]
        what = f"{rest!r} can't be read here." if rest else "The line can't be read here."
    return problem_at(line, column, what, _expected(error), EXAMPLES[start])


def stray(line: Line) -> Problem:
    """Tell that sets stand under no lift."""
    return problem_at(
        line, 1, "These sets stand under no lift.", "the lift with its implement on a line above", EXAMPLE_LIFT
    )


def _expected(error: UnexpectedInput) -> str:
    if isinstance(error, UnexpectedToken):
        names = set(error.accepts or error.expected)
    elif isinstance(error, UnexpectedCharacters):
        names = set(error.allowed or ())
    else:
        names = set()
    words = sorted({WORDS[name] for name in names if name in WORDS})
    if not words:
        return "what the example shows"
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


def problem_at(line: Line, column: int, what: str, expected: str, example: str) -> Problem:
    """Put a problem at a column of the cleaned line, where it stands in the sheet."""
    return Problem(line.number, column + line.offset, what, expected, example, line.words)
