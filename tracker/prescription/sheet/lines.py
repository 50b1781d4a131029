"""Lines of a sheet: what a phone's keyboard changes is put right, letter for letter so that columns stay true."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from typing import Literal

from tracker.prescription.sheet.problems import Problem, SheetErrors

MOST_LETTERS, MOST_LINES, MOST_IN_LINE = 100_000, 3_000, 500  # a sheet is a message, not a book; design choice
Kind = Literal["title", "date", "note", "text", "piece", "session", "lift", "blank", "comment", ""]

_SAME = str.maketrans({
    "\t": " ", "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\u2007": " ", "\u200b": " ", "\ufeff": " ",
    "–": "-", "−": "-", "‐": "-", "‑": "-", "×": "x", "✕": "x", "’": "'", "‘": "'", "％": "%", "：": ":", "，": ",",
})  # fmt: skip
_DAY_NAME = r"(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?"
_IMPLEMENT = (
    r"(?:(?:two|2|one|1)\s+)?(?:barbell|dumbbells?|kettlebells?|machine|cable|body(?:\s?weight)?|other)\s*(?:[,:]|$)"
)
_PATTERNS: tuple[tuple[Kind, str], ...] = (
    ("blank", r"$"),
    ("comment", r"--|—"),
    ("title", r"title\s*:"),
    ("date", r"(?:date|starts?)\s*:"),
    ("note", r"notes?\s*:"),
    ("text", r"(?:warm|cool)\s?-?\s?(?:up|down)\s*:"),
    ("piece", r"piece\s*:"),
    ("session", rf"week\s*[0-9]+\s*(?:[,:-]|day\b|$)|day\s*[0-9]+\s*(?:[:-]|$)|{_DAY_NAME}\s*(?:[:-]|$)"),
    ("session", r"on\s+[0-9]{1,4}[-/. ]\s*(?:[0-9]{1,2}|[a-z]{3,9})[-/. ,]"),
    ("lift", rf"(?!or\s)(?:superset\s+with\s+)?[^\W\d_][^,:@%]*,\s*{_IMPLEMENT}"),
    ("lift", r"superset\s+with\b"),
)
_KINDS: tuple[tuple[Kind, re.Pattern[str]], ...] = tuple(
    (kind, re.compile(pattern, re.IGNORECASE)) for kind, pattern in _PATTERNS
)
_BULLET = re.compile(r"[-•*·]\s+(?!-)")
_LABEL = re.compile(r"[A-H]([1-9])?[.)]\s+|[A-H]([1-9])\s+(?=[^\W\d_])|[0-9]{1,2}[.)]\s+(?=[^\W\d_])")
_COMMENT = re.compile(r"(?<=[\s,;:])(?:--|—)(?=\s|$).*$")


@dataclass(frozen=True, slots=True)
class Line:
    """One line: as it stands, and cleaned for reading with `offset` columns before it.

    `label` is the place in a superset that a mark such as A2 gives, 0 without one.
    """

    number: int
    raw: str
    text: str
    offset: int
    kind: Kind
    label: int = 0

    @property
    def words(self) -> str:
        """The line as free text."""
        return self.raw.strip()


def kind_of(text: str) -> Kind:
    """Tell what a cleaned line is by how it begins; empty where only what stands above it can tell."""
    found: Kind = ""
    for kind, pattern in _KINDS:
        if pattern.match(text):
            found = kind
            break
    return found


def line_of(number: int, raw: str) -> Line:
    """Clean one line: spaces, bullet, letter of a superset, remark at its end."""
    text = raw.translate(_SAME)
    offset = len(text) - len(text.lstrip())
    text = text.strip()
    label = 0
    if found := _BULLET.match(text):
        text, offset = text[found.end() :], offset + found.end()
    if found := _LABEL.match(text):
        label = int(found[1] or found[2] or 0)
        text, offset = text[found.end() :], offset + found.end()
    kind = kind_of(text)
    if kind in ("", "lift"):
        text = _COMMENT.sub("", text).rstrip()
    return Line(number, raw, text, offset, kind, label)


def lines_of(sheet: str, name: str = "") -> tuple[Line, ...]:
    """Part a sheet into lines.

    Raises:
        SheetErrors: if it is too large, or holds signs that can't be shown.
    """
    text = sheet.removeprefix("\ufeff")
    rows = re.split(r"\r\n|\r|\n", text)
    if len(text) > MOST_LETTERS or len(rows) > MOST_LINES:
        what = f"The sheet has {len(text):,} letters in {len(rows):,} lines."
        limit = f"at most {MOST_LETTERS:,} letters in {MOST_LINES:,} lines; part it into several sheets"
        raise SheetErrors((Problem(1, 1, what, limit, ""),), name)
    if troubles := [problem for number, row in enumerate(rows, 1) for problem in _unreadable(number, row)]:
        raise SheetErrors(troubles, name)
    return tuple(line_of(number, row) for number, row in enumerate(rows, 1))


def _unreadable(number: int, row: str) -> list[Problem]:
    if len(row) > MOST_IN_LINE:
        what = f"The line has {len(row):,} letters."
        return [Problem(number, MOST_IN_LINE + 1, what, f"at most {MOST_IN_LINE} letters in a line", "", row[:80])]
    for column, sign in enumerate(row, 1):
        if sign != "\t" and (unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp") or _turns(sign)):
            what = f"Here stands a sign that can't be shown (U+{ord(sign):04X})."
            clean = "".join(each for each in row if each.isprintable())
            return [Problem(number, column, what, "letters, digits and spaces", clean.strip())]
    return []


def _turns(sign: str) -> bool:
    """Whether a sign changes the direction of writing, so that a line would show other than it reads."""
    return "\u202a" <= sign <= "\u202e" or "\u2066" <= sign <= "\u2069"
