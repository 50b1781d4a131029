"""Lines that stand under a running clock: `0:00-8:00 ...`, `8:00-10:00 rest`, `min 10-25: AMRAP ...`.

What such a line asks has the time between its two marks; where it does not say that itself, it is put into words that are
read. Windows count from a first one that begins at nought, so that opening hours are none.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from tracker.prescription.sheet.tokens.durations import seconds
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.words.plain_words import plain

_MARK = re.compile(
    r"^\W*(?:from |von |min(?:ute)?s? )?(?P<a>\d{1,2}(?::\d\d)?)\s*(?:-|to|until|bis|à)\s*(?P<b>\d{1,2}(?::\d\d)?)(?P<u>\s*(?:min(?:ute)?s?\.?|')(?![a-z]))?\s*[:=,.-]?\s*(?P<rest>.*)$",
    re.IGNORECASE,
)
_REST = re.compile(
    r"^\W*(?:(?:full |active |easy )?(?:rest|recovery|recover|break|transition|reset|off|pause|descanso|repos|change ?over|set ?up|load (?:the |your )?bars?)\b)[^\d]*$",
    re.IGNORECASE,
)
_MOST = re.compile(
    r"\bmax(?:imum|imal)?\b(?! (?:rounds?|reps?\b(?! [a-z])|out|effort))|\bas many (?!rounds|reps)", re.IGNORECASE
)
_MANY = re.compile(
    r"\b(?:amrap|as many (?:rounds|reps) as (?:possible|you can)|max(?:imum)? (?:rounds|reps))\b", re.IGNORECASE
)
_EVERY = re.compile(r"\be(?P<k>\d?)mom\b(?! ?(?:x ?)?\d+(?: ?min|'|:| ?x|$| rounds))", re.IGNORECASE)
_TIMED = re.compile(r"\b(?:for time|rft|rounds for time|auf zeit|por tiempo|pour le temps)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Window:
    """A time from when to when, in seconds of the running clock, and what is said of it; `rests`: nothing is done in it."""

    first: int
    last: int
    text: str

    @property
    def rests(self) -> bool:
        return _REST.match(self.text) is not None

    @property
    def told(self) -> str:
        """What is said of it, with how long it is where it has to be known and is not said."""
        if self.last == self.first:
            return self.text
        minutes = (self.last - self.first) // 60
        length = f"{minutes} min" if self.last - self.first == minutes * 60 else f"{self.last - self.first} sec"
        if re.search(r"\d ?(?:min|')|\d:\d\d|\bcap\b", self.text.lower()):
            return self.text
        if found := _MANY.search(self.text):
            return f"{self.text[: found.start()]}AMRAP {length}: {self.text[found.end() :].strip(' :,-')}"
        if found := _EVERY.search(self.text):
            times = (self.last - self.first) // (60 * int(found["k"] or 1))
            return f"{self.text[: found.start()]}{found[0]} x {times}: {self.text[found.end() :].strip(' :,-')}"
        if _TIMED.search(self.text):
            return f"{length} cap, {self.text}"
        if found := _MOST.search(self.text):
            first, sign, rest = self.text.partition(",")
            return f"{first} in {length}{sign and '. '}{rest.strip()}"
        return self.text


def window_of(text: str) -> Window | None:
    """Read a line that stands under a running clock; None where it has no two marks."""
    found = _MARK.match(text)
    if found is None or not found["rest"].strip():
        return None
    colons = (":" in found["a"]) + (":" in found["b"])
    named = bool(found["u"]) or re.match(r"\W*min", text, re.IGNORECASE) is not None
    if colons != 2 and not (colons == 0 and named) and not (found["a"] == "0" and colons == 1):
        return None
    first, last = (seconds(each) if ":" in each else int(each) * 60 for each in (found["a"], found["b"]))
    return Window(first, last, found["rest"].strip()) if first < last <= 7200 else None


# "at 0:00 run 800 m", "at 6:00 50 wall balls": when each begins
_BEGINS = re.compile(
    r"^\W*(?:at|@|um|à|a las|from) (?P<a>\d{1,2}:\d\d)(?: (?:min|on the clock))?\s*[:=,.-]?\s*(?P<rest>\D.*|\d.*)$",
    re.IGNORECASE,
)


def _that_begin(texts: list[tuple[int, str]]) -> dict[tuple[int, str], Window]:
    found = [
        (number, text, seconds(mark["a"]), mark["rest"].strip())
        for number, text in texts
        if (mark := _BEGINS.match(text))
    ]
    starts = [first for _, _, first, _ in found]
    if len(found) < 2 or starts[0] != 0 or starts != sorted(set(starts)):
        return {}
    ends = [*starts[1:], starts[-1]]
    return {
        (number, text): Window(first, last, rest) for (number, text, first, rest), last in zip(found, ends, strict=True)
    }


def windows_of(texts: list[tuple[int, str]]) -> dict[tuple[int, str], Window]:
    """Return the windows of a sheet by the numbers of their lines and their text: two or more that follow each other from nought on."""
    found: dict[tuple[int, str], Window] = {}
    at = -1
    for number, text in texts:
        window = window_of(text)
        if window is None or (at < 0 and window.first != 0) or window.first < at:
            continue
        found[number, text] = window
        at = window.last
    return found if len(found) > 1 else _that_begin(texts)


# "0-5 min: ... 5-10: ... 10-15 ...": windows one after the other on one line
_INLINE = re.compile(
    r"(?:^|(?<=[\s.;,/|]))(?:from |min(?:ute)?s? )?(?P<a>\d{1,2}(?::\d\d)?) ?(?:-|to|until) ?(?P<b>\d{1,2}(?::\d\d)?)(?: ?(?:min(?:ute)?s?\.?|')(?![a-z]))?\s*(?:[:=,]|-(?= ))?\s+(?=[^\W\d]|\d)",
    re.IGNORECASE,
)


def apart(text: str) -> list[str]:
    """Part a line at the marks of windows that follow each other from nought on; the line itself where there are not two."""
    row: list[re.Match[str]] = []
    for mark in _INLINE.finditer(text):
        first, last = (seconds(each) if ":" in each else int(each) * 60 for each in (mark["a"], mark["b"]))
        ahead = (seconds(row[-1]["b"]) if ":" in row[-1]["b"] else int(row[-1]["b"]) * 60) if row else 0
        if first == ahead < last:
            row.append(mark)
    if len(row) < 2:
        return [text]
    ends = [each.start() for each in row[1:]] + [len(text)]
    parts = [text[mark.end() : end].strip(" .;,/|") for mark, end in zip(row, ends, strict=True)]
    if not any(token.kind in ("name", "rest") for token in tokens_of(plain(parts[0]))):
        return [text]  # "0:00-15:00 that, then 15:00-20:00 rest"
    head = text[: row[0].start()].strip(" .;,:")
    told = [f"min {mark['a']}-{mark['b']}: {part}" for mark, part in zip(row, parts, strict=True)]
    return [*([head] if head else []), *told]
