"""What a line was probably meant to be that is neither heading, lift nor sets, and hangs on nothing above it."""

from __future__ import annotations

import re
from collections.abc import Callable
from difflib import get_close_matches

from tracker.prescription.sheet.lines import Line, kind_of
from tracker.prescription.sheet.problems import Problem
from tracker.prescription.sheet.slips import problem_at

IMPLEMENT_WORDS = ("barbell", "dumbbell", "dumbbells", "kettlebell", "kettlebells", "machine", "body", "other")
HEADINGS = ("Title", "Date", "Note", "Warm-up", "Cool-down", "Piece")
_PACKED = re.compile(r"(?P<name>[^\W\d_][^,:@%0-9]*?)[\s,:-]+(?P<sets>[0-9]+\s*(?:[x*]|sets?\b).*)", re.IGNORECASE)
_RUN_ON = re.compile(
    r"(?P<head>[^,:@]+,\s*(?:two |one |2 |1 )?(?:barbell|dumbbells?|kettlebells?|machine|cable|body(?:\s?weight)?|other))"
    r"\s+(?P<sets>[0-9]+\s*(?:[x*]|sets?\b).*)",
    re.IGNORECASE,
)
_SESSION = re.compile(r"(?:session|workout|training)\b\s*(?:[a-z]\b|[0-9]+)?\s*[:-]?\s*(?P<title>.*)", re.IGNORECASE)
_MOVEMENT = re.compile(r"[0-9]+(?:-[0-9]+)*\s*[a-z]|[^,]+,\s*(?:[12]\s*x\s*)?[0-9.,]+\s*(?:kg|lb)", re.IGNORECASE)
_HASH = re.compile(r"#+\s*(?P<rest>.*)")


def unknown(line: Line) -> Problem:
    """Tell what the line might be, with a line that would pass."""
    found = (guess(line) for guess in _GUESSES)
    expected = "a lift with its implement, a piece, or text after Note:"
    what = "This is neither a heading, a lift nor sets."
    return next((each for each in found if each), None) or problem_at(line, 1, what, expected, f"Note: {line.text}")


def _hash(line: Line) -> Problem | None:
    found = _HASH.match(line.text)
    if not found:
        return None
    rest = found["rest"].strip()
    example = rest if kind_of(rest) else f"Note: {rest}" if rest else "Week 1, day 1: Front squat"
    return problem_at(line, 1, "A heading needs no hash.", "the heading alone, or -- before a remark", example)


def _heading(line: Line) -> Problem | None:
    head, colon, rest = line.text.partition(":")
    close = get_close_matches(head.strip().capitalize(), HEADINGS, 1, 0.7) if colon else []
    if not close:
        return None
    return problem_at(line, 1, f"{head!r} is no heading.", f"{close[0]}:", f"{close[0]}:{rest or ' text'}")


def looks_like_a_movement(line: Line) -> bool:
    """Whether a line means a movement of a piece."""
    return _MOVEMENT.match(line.text) is not None


def _movement(line: Line) -> Problem | None:
    if not looks_like_a_movement(line):
        return None
    what = "This movement stands under no piece."
    return problem_at(
        line, 1, what, "the piece with its title above, and below that how it is done", "Piece: Mill wheel"
    )


def _implement(line: Line) -> Problem | None:
    parts = [part.strip() for part in line.text.split(",")]
    word = parts[1].split(":")[0].strip().lower() if len(parts) > 1 else ""
    near = get_close_matches(word, IMPLEMENT_WORDS, 1, 0.7)
    if not near or word == near[0]:
        return None
    example = ", ".join([parts[0], near[0], *parts[2:]])
    return problem_at(line, line.text.find(parts[1]) + 1, f"{parts[1]!r} is no implement.", "an implement", example)


def _run_on(line: Line) -> Problem | None:
    if found := _RUN_ON.match(line.text):
        example = f"{found['head']}{_of(found['sets'])}: {found['sets']}"
        return problem_at(line, found.start("sets") + 1, "A colon is missing before the sets.", "a colon", example)
    return None


def _packed(line: Line) -> Problem | None:
    if found := _PACKED.match(line.text):
        example = f"{found['name'].strip()}, barbell{_of(found['sets'])}: {found['sets']}"
        return problem_at(line, 1, "Which implement?", "the lift, a comma and its implement", example)
    return None


def _session(line: Line) -> Problem | None:
    found = _SESSION.fullmatch(line.text)
    if not found:
        return None
    title = found["title"].strip()
    expected = "its week and day, a weekday, or a date"
    return problem_at(line, 1, "On which day is this session?", expected, f"Day 1: {title}" if title else "Day 1")


def _comma(line: Line) -> Problem | None:
    word = line.text.split(" ")[-1].strip(":").lower()
    if word not in IMPLEMENT_WORDS or " " not in line.text:
        return None
    name = line.text.strip(":")[: -len(word)].strip()
    return problem_at(line, len(name) + 1, "A comma is missing.", "a comma before the implement", f"{name}, {word}")


def _of(sets: str) -> str:
    """A percentage needs its rep-max; which one is the coach's to say, 3RM stands for it in an example."""
    return ", % of 3RM" if "%" in sets and not re.search(r"[0-9]\s*-?\s*RM", sets, re.IGNORECASE) else ""


_GUESSES: tuple[Callable[[Line], Problem | None], ...] = (
    _hash,
    _heading,
    _movement,
    _implement,
    _run_on,
    _packed,
    _session,
    _comma,
)
