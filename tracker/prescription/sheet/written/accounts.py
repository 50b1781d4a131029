"""Compares the numbers of a text with those of its reading, and asks about each that was left over and may change a load or a score.

It is a net below all rules: whatever a rule of reading overlooked, a number that stands beside a lift or a piece is either
in what was read, or of a kind that changes neither load nor score (labels, hours, rates, heights), or it is asked about.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any, cast

from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.model import Session, Text
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.plain_words import plain
from tracker.prescription.sheet.written.record import item_record

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_TIME = re.compile(r"(\d+):(\d\d)")
# What a record keeps as words: a number that stands only there was not read
_WORDS = frozenset({"kind", "text", "line", "notes", "note", "standard", "title", "setting", "assistance", "when", "name", "lift", "complex"})  # fmt: skip
_LARGE = 15.0  # less than this, without a unit or a name behind it, is rather a label than a load; design choice
_SURE = frozenset({
    "pct", "pctoff", "atx", "atlist", "masslist", "mass", "mass2", "added", "loadx", "loadpairx", "setsxm", "setsxt", "dist", "miles",
    "distpair", "cal", "calpair", "rounds", "rft", "onoff", "amrap", "amrapx", "cap",
})  # fmt: skip
_IN_PIECES = frozenset({"time", "rest", "pair", "reps", "list"})
_RATES = re.compile(
    r"(?:rate|r|pace|zone|z|rpm|spm|level|damper|drag|week|wk|day|station|part|step|no|nr|under|below|above|last|hr|bpm|age|over)\W*$"
)
_HOUR = re.compile(r"(?:[5-9]|1\d|2[0-2]):(?:00|15|30|45)$")
_NO_LOAD_BEHIND = re.compile(r" ?(?:rpm|spm|bpm|watts?|w\b|counts?|years?|weeks?|days?|people|stations?|st\b|nd\b|rd\b|th\b|\+|°|am\b|pm\b|uhr)")  # fmt: skip
_TALLER = re.compile(r"\b(?:box|jump|step|target|hurdle|depth|high|cm|inch)\w*\W*$")
_OUT_OF_TEN = re.compile(r"/ ?10\b| out of")


def ask_of_numbers(lines: Sequence[Line], sessions: Iterable[Session], asker: Asker) -> None:
    """Ask of each line of a lift or a piece that has a number which is in nothing that was read of it."""
    read: defaultdict[str, list[dict[str, Any]]] = defaultdict(list)
    for session in sessions:
        for item in session.items:
            if not isinstance(item, Text):
                for raw in item.text:
                    read[raw].append(item_record(item))
    if not read:
        return
    asked = {number for ask in asker.asks.values() for number in ask.lines}
    bags: dict[str, set[float]] = {}
    for line in lines:
        raw = line.raw.rstrip()
        if line.blank or line.words or line.head or raw not in read or line.number in asked:
            continue
        if raw not in bags:
            bags[raw] = set()
            for record in read[raw]:
                _numbers(record, bags[raw])
        left = _left(plain(line.text), read[raw], bags[raw])
        if left:
            told, typed = ", ".join(dict.fromkeys(left)), harmless(line.raw).strip()
            choices = (
                Choice("words", "words of the coach"),
                Choice("work", "part of the work: to be typed on a line of its own"),
            )
            asker.choose(f"not read: {told}", line.number, typed, f"Is '{told}' only said beside it?", choices)


def _left(text: str, records: list[dict[str, Any]], bag: set[float]) -> list[str]:
    """What of a line's numbers is in nothing that was read, as typed."""
    pieces = any(record["kind"] == "piece" for record in records)
    tokens = tokens_of(text)
    found: list[str] = []
    for place, token in enumerate(tokens):
        ahead, behind = text[: token.start], text[token.end :]
        if _OUT_OF_TEN.match(behind) or _RATES.search(ahead) or _NO_LOAD_BEHIND.match(behind):
            continue
        if token.kind == "setsx":
            if not _in_sets(token, records) and not (pieces and set(_typed(token)) <= bag):
                found.append(token.text.strip())
        elif token.kind in _SURE or (token.kind in _IN_PIECES and pieces):
            if not set(_typed(token)) <= bag and not _no_amount(token, ahead, behind):
                found.append(token.text.strip())
        elif token.kind in ("num", "range") and _counts(tokens, place) and not set(_typed(token)) <= bag:
            found.append(token.text.strip())
    return found


def _typed(token: Token) -> list[float]:
    """The numbers of a token as they are kept: times in seconds, distances in metres."""
    value: Any = token.value
    if token.kind in ("time", "cap", "rest", "amrap") and isinstance(value, int):
        return [float(value)]
    if isinstance(value, tuple):
        parts = cast("tuple[Any, ...]", value)
        if token.kind in ("dist", "miles"):
            return _plain_numbers(parts[0])
        if token.kind in ("mass", "mass2", "added", "pct"):
            return [float(each) for each in cast("Iterable[Any]", parts[0])]
        if token.kind in ("setsxm", "setsxt", "onoff", "amrapx"):
            return [float(each) for each in parts if isinstance(each, int) and not isinstance(each, bool) and each]
    listed: Any = token.value
    if token.kind == "list" and listed[1] is not None:
        return [float(listed[0][0])]  # it goes on: its first number and its step are kept
    return [float(each) for each in _NUMBER.findall(token.text)]


def _no_amount(token: Token, ahead: str, behind: str) -> bool:
    """Whether a number with a unit changes neither load nor score: an hour, a moment, a height."""
    if token.kind == "time":
        return token.value < 20 or _HOUR.match(token.text) is not None
    return token.kind == "pair" and (_TALLER.search(ahead) is not None or token.text.strip().startswith(("30/", "24/")))


def _counts(tokens: Sequence[Token], place: int) -> bool:
    """Whether a number without a unit may be a load or an amount: large and no label, with a half, or before a name."""
    token = tokens[place]
    behind = tokens[place + 1] if place + 1 < len(tokens) else None
    if token.kind == "range":
        low, high = token.value
        return low < high and low >= _LARGE
    if place == 0 and (behind is None or behind.text in (".", ")", ":")):
        return False
    if token.value != int(token.value):
        return place > 0
    if behind is not None and behind.kind == "name" and place:
        return token.value > 2 and not any(each.kind == "num" for each in tokens[place + 2 : place + 3])
    return token.value >= _LARGE and token.value <= 400 and place > 0


def _in_sets(token: Token, records: list[dict[str, Any]]) -> bool:
    """Whether as many sets of as many repetitions were read of some lift."""
    sets, reps = token.value[0], token.value[1]
    for record in records:
        groups = record.get("sets", []) + [
            each for other in record.get("alternatives", []) for each in other.get("sets", [])
        ]
        total = sum(group.get("sets", 1) for group in groups)
        if token.value[2] != "plain" or not reps:
            if groups and total >= min(sets, 2):
                return True
            continue
        alike = sum(group.get("sets", 1) for group in groups if reps[0] in _reps_of(group))
        turned = sum(group.get("sets", 1) for group in groups if sets in _reps_of(group))
        if alike >= sets or (reps[0] > 1 and turned >= reps[0]) or (alike and total >= sets):
            return True
    return False


def _reps_of(group: dict[str, Any]) -> list[int]:
    reps = group.get("reps")
    return [*(reps if isinstance(reps, list) else [reps] if reps is not None else []), group.get("up_to", -1)]


def _numbers(value: Any, found: set[float]) -> None:
    """Gather all numbers of what was read, and what follows from them: a time in minutes and seconds, how many sets there are."""
    if isinstance(value, dict):
        _of_record(cast("dict[str, Any]", value), found)
    elif isinstance(value, list):
        for each in cast("list[Any]", value):
            _numbers(each, found)
    elif isinstance(value, str) and (time := _TIME.fullmatch(value)):
        seconds = int(time[1]) * 60 + int(time[2])
        found |= {float(seconds), seconds / 60, float(time[2])}
    elif not isinstance(value, bool):
        found |= set(_plain_numbers(value))


def _of_record(record: dict[str, Any], found: set[float]) -> None:
    """Gather the numbers of one record; its words are left out."""
    for key, each in record.items():
        if key in ("height_cm", "target_cm"):
            for high in _plain_numbers(each):
                found |= {high, round(high / 2.54), round(high / 30.48)}  # as typed in inches or feet
        elif key not in _WORDS:
            _numbers(each, found)
    groups: Any = record.get("sets")
    if isinstance(groups, list):
        sets = cast("list[dict[str, Any]]", groups)
        found.add(float(sum(each.get("sets", 1) for each in sets)))
        loads = [each for group in sets for key in ("percent", "load") for each in _plain_numbers(group.get(key))]
        found |= {abs(two - one) for one, two in pairwise(loads)} | {100 - each for each in loads}
    if record.get("in_turn"):
        found.add(float(len(record.get("movement", []))))
    if record.get("step"):
        found |= {float(record["first"] + record["step"] * at) for at in range(6)}


def _plain_numbers(value: Any) -> list[float]:
    if isinstance(value, list):
        return [each for one in cast("list[Any]", value) for each in _plain_numbers(one)]
    if isinstance(value, int | float):
        return [float(value)]
    return [float(each) for each in _NUMBER.findall(value)] if isinstance(value, str) else []
