"""Marks at the start of a typed line that say what it may be: labels, bullets, keys, stations, parts, counts."""

from __future__ import annotations

import re

from tracker.prescription.sheet.lines.line import Line

BULLET = re.compile(r"^\s*(?:[-•*>]+\s+|\[[ x]?\]\s*|o\s+(?=\d))")
LABEL = re.compile(
    r"\s*(?:\(?(?P<a>[A-Ha-h]|S(?=\d))(?P<n>\d)?[.):]+\s*(?=\S)|\(?(?P<b>[A-H])(?P<m>\d)?\s+-\s+(?=\S)|(?P<f>[A-H])(?P<g>\d)\s+(?=\S)|(?P<d>\d{1,2})[.)]\s+(?=\S)|#(?P<e>\d{1,2})\s+)"
)
# "1a", "1b": two in turn under one number
NUMBER_AND_LETTER = re.compile(r"\s*(?P<d>[1-8])(?P<l>[a-d])[.):]?\s+(?=[A-Za-z])", re.IGNORECASE)
BARE_LETTER = re.compile(r"\s*(?P<a>[A-H])\s+(?=[A-Z0-9])")
# The number of a part of an item: "1.2  3 x 5 @ 90 %"
SUB_NUMBER = re.compile(r"^\s*\d\.\d[.)]?\s+(?=\d{1,2}\s?[x×@]|\d{1,2} (?:sets?|reps?|@|x))")
KEYS = re.compile(r"(?P<key>title|date|starts?|notes?|piece)\s*[:：]\s*", re.IGNORECASE)
REMARK = re.compile(r"(?:^|(?<=[\s,;:]))(?:--)(?=\s|$).*$")
# The minute or station that a line of a clock is of: "min 1:", "M1", "#1", "(1)", "1st min:", "1':", "1 -", a bare 1, "odd:"
STATION = re.compile(
    r"^\s*(?:(?:m|mins?|minutes?|stations?|stn|st|rounds?|rds?|exercise)\.?\s*#?(?P<a>\d{1,2})(?:-(?P<b>\d{1,2}))?\s*'?\s*[:.)=-]?\s+"
    r"|[#(]\s*(?P<c>\d{1,2})\)?\s*[:.)=-]?\s+"
    r"|(?P<d>\d{1,2})\s*(?:(?:st|nd|rd|th|\.)?\s*(?:mins?|minutes?)|')\s*[:.)=-]\s*"
    r"|(?P<e>\d{1,2})\s*(?:[.)=](?!\d)|:(?!\d)|-(?=\s))\s*"
    r"|(?P<g>\d)\s+(?=\d+[\s/'\"a-z]|rest\b|off\b|max\b)|(?P<h>\d)\s+(?=[a-z])"
    r"|(?P<f>odd|even)\b(?:\s*(?:minutes?|mins?))?\s*[:=-]?\s*)",
    re.IGNORECASE,
)
_INLINE_STATION = re.compile(
    r"(?:(?<=^)|(?<=[\s,;/|:]))(?:\((?P<p>\d)\)|(?:mins?|minutes?|m|stations?|#)?[ ]?(?P<n>\d)(?:[ ]?[).=](?!\d)|:(?!\d)|'[ ]?:|[ ]-|[ ]is(?=[ ](?:\d|rest\b|off\b))))(?=[ ]|(?<=\))[a-z])",
    re.IGNORECASE,
)
_INLINE_LETTER = re.compile(r"(?:(?<=^)|(?<=[\s,;/|:]))(?P<l>[A-Fa-f])[)](?=[ ]?\w)")
WARM_UP = re.compile(
    r"^(?:to start,? |first,? |then,? )?(?:bar(?:bell)? (?=warm[ -]?up as usual))?(?:we |you |let's |please |everyone |we'll |you'll )?(?:all )?(?:will |'ll |are going to )?(?:always )?warm(?:ing)?[ -]?up\b(?!.{0,20}(?:sets|to a|to your)\b)"
    r"|^(?:w/u|wu)(?=\s+\S)|^prep(?:aration)?(?=,? \d{1,2} ?(?:min|'))"
    r"|^(?:[ée]chauffement|calentamiento|aufwärmen|aufwaermen|einlaufen|riscaldamento|opwarmen|inwarmen|aquecimento|rozgrzewka|bemelegítés|opvarmning|oppvarming|uppvärmning|lämmittely)\b",
    re.IGNORECASE,
)
TEXT_AGAIN = re.compile(r"(warm-?up|cool-?down)\s*:", re.IGNORECASE)
# The number of an event or a part at the start of a line, with the sign that parts it from what it heads
PART = re.compile(
    r"(?:event|part|piece|engine|met-?con|wod|block|workout|test|lift|accessory|teil|partie|parte|evento|épreuve|epreuve)\s*#?(?P<n>\d{1,2}|[a-h])\s*(?:[:.)](?!\d\d)|\s[-–—])\s*(?=\S)",
    re.IGNORECASE,
)
# A row of counts under a piece's clock, which alone might be a date: "4-8-12..."
COUNTS = re.compile(r"\d{1,2}(?:\s?[-/]\s?\d{1,2}){2,}(?!\d)\s*(?:[-/.…:]|etc|reps|$)")
# What is done after each round is a movement of the piece above
AFTER_ROUND = re.compile(
    r"^\W*(?:(?:and )?(?:after|between|nach|zwischen|après|apres|después de|despues de|tras) (?:each|every|all|jeder|den|chaque|cada)?\s*(?:rounds?|rds?|rnds?|runden?|tour|ronda)\b\s*[:,=-]?\s*)(?=\S)"
)
# Counts that are no date, wherever they stand: four or more, or three that a word says are repetitions
MORE_COUNTS = re.compile(
    r"\d{1,3}(?:\s?[-/–]\s?\d{1,3}){3,}(?!\d)|\d{1,2}(?:\s?[-/–]\s?\d{1,2}){2}\s*\(?(?:reps\b|for time\b|of\b|r?ft\b|ladder\b)",
    re.IGNORECASE,
)
ROUND_AFTER = re.compile(
    r"^\W*(?P<what>.+?),? (?:after|between|nach|zwischen) (?:each|every|all|jeder|den)? ?(?:rounds?|rds?|runden?)\W*$"
)
PART_ALONE = re.compile(r"(?:part|block|piece|lift|teil|partie|parte) (?P<n>[a-h]|\d)\s*[:.-]?", re.IGNORECASE)


_ROTATING = re.compile(r"(?<=\d )rotating\b(?= +(?:1|a)[.)])", re.IGNORECASE)


def inline_stations(text: str) -> str:
    """Write the marks of stations that stand on one line, counting up from 1, as minutes: `1) 10 burpees 2) 12 sit-ups`."""
    text = _ROTATING.sub("alternating", text)
    found = list(_INLINE_STATION.finditer(text))
    row: list[re.Match[str]] = []
    for mark in found:
        if int(mark["p"] or mark["n"]) == len(row) + 1:
            row.append(mark)
    if len(row) < 2:
        row = list(_INLINE_LETTER.finditer(text))
        if len(row) < 2 or [mark["l"].upper() for mark in row] != list("ABCDEF"[: len(row)]):
            return text
        for at, mark in reversed(list(enumerate(row, 1))):
            text = f"{text[: mark.start()]}{'; ' if at > 1 else ' '}minute {at}: {text[mark.end() :]}"
        return text
    for mark in reversed(row):
        text = f"{text[: mark.start()]}{'; ' if mark is not row[0] else ' '}minute {mark['p'] or mark['n']}: {text[mark.end() :]}"
    return re.sub(r"(minute \d: )\s*(?:pause|pausa|repos|descanso|rust)\b", r"\1rest", text)


def text_kind(word: str) -> str:
    return "warm-up" if word.lower().startswith("w") else "cool-down"


def numbered(lines: list[Line]) -> set[int]:
    """The lines whose `1.` or `2)` is a label: they count up from 1."""
    found: set[int] = set()
    last = 0
    for line in lines:
        match = re.match(r"\s*(?:[-•*]\s+)?(\d{1,2})[.)]\s+(?=\S)", line.text)
        if match is None:
            continue
        number = int(match[1])
        if number in (0, 1) or number == last + 1 or match[0].strip().endswith(")"):
            found.add(line.number)
            last = number
    return found


def lettered(lines: list[Line]) -> set[int]:
    """The lines that begin with a bare A, B, C of a row of such letters."""
    rows = [
        (line.number, match["a"])
        for line in lines
        if (match := (BARE_LETTER.match(line.text) or re.match(r"\s*(?P<a>[A-H])\d?[.):]?\s", line.text)))
    ]
    bare = {line.number: match["a"] for line in lines if (match := BARE_LETTER.match(line.text))}
    letters = [letter for _, letter in rows]
    return {
        number
        for number, letter in bare.items()
        if (letter == "A" and "B" in letters) or chr(ord(letter) - 1) in letters
    }


_INLINE_LABEL = re.compile(r"(?:^|(?<=[\s,;/|.]))\(?(?P<l>[A-Ha-h])(?P<n>[1-4])?(?P<s>[.):]{0,2})\s+(?=[^\W\d_]{2}|\d)")


def inline_labels(text: str) -> list[tuple[str, str]]:
    """Part a line at its labels, where it begins with one and they count up: `A) bench 5x5 B) rows 4x8`, `a1 dips 3x8 a2 rows 3x10`."""
    row: list[re.Match[str]] = []
    for found in _INLINE_LABEL.finditer(text):
        if not (found["n"] or found["s"]):
            continue
        label = (found["l"].upper(), int(found["n"] or 0))
        if not row:
            if found.start() != 0 or label not in (("A", 0), ("A", 1), ("B", 0), ("B", 1)):
                return []
            row.append(found)
            continue
        letter, number = row[-1]["l"].upper(), int(row[-1]["n"] or 0)
        after = chr(ord(letter) + 1)
        if label in ((after, 0), (after, 1)) or (number and label == (letter, number + 1)):
            row.append(found)
    if len(row) < 2:
        return []
    ends = [each.start() for each in row[1:]] + [len(text)]
    return [
        (each["l"].upper() + (each["n"] or ""), text[each.end() : end].strip(" ,;/|"))
        for each, end in zip(row, ends, strict=True)
    ]
