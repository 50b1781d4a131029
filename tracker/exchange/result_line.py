"""A result as one line of text that a person can read and a log can take in.

    Tidemark result 1 | Wren | 2026-11-25 | front squat (barbell): 4 x 60 kg; 3 sets of 4 x 70 kg, 2 left |
    piece Lantern ladder [3f2a-91bc]: through the 15s, plus 8 | session rated 7 | 55 minutes | as of ... | check 8f3a21

Fields stand between bars. A lift has its implement in brackets, then its sets; a set is repetitions x load, then what was
left, how it ended (`4 x 60 kg, the 5th missed`), and whether it was a test. A piece carries four digits for what it asks and four for the score itself,
so that a piece of the same name that asks something else is noticed. A sign that parts fields is written `%7C` in a name.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from itertools import groupby
from typing import Any, TypeVar, cast

from tracker.conditioning.pieces import Piece
from tracker.conditioning.scores import Score
from tracker.conditioning.swaps import swaps_text
from tracker.conditioning.times import time_words
from tracker.conditioning.words import parse_score, score_words
from tracker.errors import BadInputError
from tracker.exchange.cells import parse_amount, parse_day, shown
from tracker.exchange.result import (
    IMPLEMENTS,
    Held,
    MaxSource,
    Result,
    ResultMax,
    ResultSet,
    asks_newer,
    check_of,
    check_whole,
    parse_stamp,
    score_print,
    stamp,
    tidy,
)
from tracker.strength.outcomes import failed_words, set_in_words
from tracker.units import Mass, Unit, plain

Entry = TypeVar("Entry", "ResultSet", "ResultMax")
HEAD = "Tidemark result"
# From 2 on a miss says which repetition failed, from 3 on a score may be what `asks_newer` says; without such as before.
LINE_VERSION = 3
LONGEST = 20_000  # letters; a long day has a tenth of them
SEND_FILE = "Send the file instead of the line."
AGAIN = "Ask for the line again, all of it, or for the file."
_CHECK = re.compile(r"^(?P<text>.*\|) check (?P<check>[0-9a-f]{6})$", re.IGNORECASE | re.DOTALL)
_END = re.compile(r"\|\s*check\s+[0-9a-f]{6}\b", re.IGNORECASE)
_LIFT = re.compile(
    rf"(?P<lift>.+) \((?P<held>{'|'.join(IMPLEMENTS)})(?P<side>, a side)?\)(?: at (?P<body>[\d.]+) (?P<unit>kg|lb))?"
)
_PIECE = re.compile(r"piece (?P<title>.+) \[(?P<print>[0-9a-f]{4}-[0-9a-f]{4})\]")
_SET = re.compile(
    r"(?:(?P<times>\d{1,3}) sets of )?(?P<reps>\d{1,4}) x (?P<load>[+-]?[\d.]+) (?P<unit>kg|lb)(?P<more>(?:, [\w.+ ]+)*)"
)
_OUTCOMES, _KINDS = {"missed": "missed", "cut short": "cut"}, {"test": "test"}
_MAX = re.compile(
    r"(?P<reps>\d{1,2})RM (?P<load>[+-]?[\d.]+) (?P<unit>kg|lb) (?P<source>tested|declared) (?P<day>\S{10})"
)
MAX_OF = "max of "
_LEFT_OUT = "not for the estimate"
PARTING = "%|:;"
MOST_LEFT = 6  # the most that a log asks for: six and more. A line says `6 left`, which every version reads; `6+ left` is read too.


@dataclass(frozen=True, slots=True)
class Found:
    """A piece of a pasted text that begins like a result, and the line on which it begins."""

    line: int
    text: str


def find_lines(text: str) -> tuple[tuple[Found, ...], tuple[int, ...]]:
    """Find the results in a pasted text, also where a mail program broke or quoted a line, and the lines passed over."""
    found: list[Found] = []
    passed: list[int] = []
    open_one: Found | None = None
    for number, raw in enumerate(text.splitlines(), 1):
        line = raw.lstrip("> \t")
        for part in re.split(rf"(?={HEAD} )", line):
            if part.startswith(HEAD):
                found += [open_one] if open_one else []
                open_one = Found(number, part)
            elif open_one and part.strip():
                open_one = Found(open_one.line, f"{open_one.text} {part}"[:LONGEST])
            elif part.strip() and part == line:
                passed.append(number)
            if open_one and (end := _END.search(open_one.text)):
                found.append(Found(open_one.line, open_one.text[: end.end()]))
                open_one = None
        if open_one and not line.strip():
            found.append(open_one)
            open_one = None
    return (*found, *([open_one] if open_one else ())), tuple(passed)


def write_line(result: Result) -> str:
    """Write a result as one line.

    Raises:
        BadInputError: if a score says more than a line can carry.
    """
    missed = any(each.outcome == "missed" for each in result.sets)
    version = LINE_VERSION if any(map(asks_newer, result.scores)) else 2 if missed else 1
    fields = [f"{HEAD} {version}", _safe(result.member), result.day.isoformat()]
    fields += [_lift_field(list(group)) for group in _by_lift(result.sets)]
    for score in result.scores:
        fields += _score_fields(score)
    fields += [_max_field(list(group)) for group in _by_lift(result.maxes)]
    fields += [f"session rated {result.rating}"] if result.rating is not None else []
    fields += [f"{result.minutes} minutes"] if result.minutes is not None else []
    text = tidy(" | ".join([*fields, f"as of {stamp(result.as_of)}"]) + " |")
    return f"{text} check {check_of(text)}"


def read_line(text: str, pieces: Sequence[Piece]) -> Result:
    """Read a line; `pieces` are those that scores in it may be of.

    Raises:
        BadInputError: if it is not whole, of a later version, or says what can't be; nothing is guessed.
    """
    fields = [field.strip() for field in _whole(tidy(text)).split("|")]
    if len(fields) < 4:
        raise BadInputError("There is nothing in it.", mend=AGAIN)
    result = Result(
        _bare(fields[1]), parse_day(fields[2], where="date"), parse_stamp(fields[-1].removeprefix("as of "))
    )
    read = _Read([], [], [], None, None)
    for field in fields[3:-1]:
        _read_field(field, read)
    scores = tuple(_score(each, result.day, pieces) for each in read.scores)
    return check_whole(
        replace(
            result,
            sets=tuple(read.sets),
            scores=scores,
            rating=read.rating,
            minutes=read.minutes,
            maxes=tuple(read.maxes),
        )
    )


def _whole(text: str) -> str:
    """Return the text before the check, if the check fits it."""
    head = re.match(rf"{HEAD} (\d{{1,3}})\b", text)
    if head and int(head[1]) > LINE_VERSION:
        raise BadInputError(f"It was made by a later version ({head[1]}).", mend="Install the newest Tidemark here.")
    found = _CHECK.match(text)
    if not head or not found:
        raise BadInputError("Its end is missing: the line was cut short.", mend=AGAIN)
    if check_of(found["text"]) != found["check"].lower():
        raise BadInputError("It was changed on its way: its check does not fit.", mend=AGAIN)
    return found["text"].removesuffix("|").strip()


@dataclass(slots=True)
class _Read:
    """What was read so far; a score is kept as its fields until all of them are there."""

    sets: list[ResultSet]
    scores: list[dict[str, str]]
    maxes: list[ResultMax]
    rating: int | None
    minutes: int | None


def _read_field(field: str, read: _Read) -> None:
    head, colon, body = field.partition(": ")
    parts = [part.strip() for part in body.split(";")]
    maxes = [_MAX.fullmatch(part) for part in parts] if head.startswith(MAX_OF) else [None]
    if all(maxes) and (lift := _LIFT.fullmatch(head.removeprefix(MAX_OF))):
        read.maxes += [_max(each, lift) for each in maxes if each]
    elif colon and (lift := _LIFT.fullmatch(head)):
        read.sets += [each for part in parts for each in _sets(part, lift)]
    elif colon and (piece := _PIECE.fullmatch(head)):
        read.scores.append({"title": _bare(piece["title"]), "print": piece["print"], "text": _bare(body)})
    elif read.scores and (more := re.match(r"(with|swaps|splits|tie-break) (.+)", field)):
        read.scores[-1][more[1]] = _bare(more[2])
    elif rated := re.fullmatch(r"session rated (\d{1,2})", field):
        read.rating = int(rated[1])
    elif lasted := re.fullmatch(r"(\d{1,4}) minutes", field):
        read.minutes = int(lasted[1])
    else:
        raise BadInputError(f"{shown(field)} can't be read.", mend=SEND_FILE)


def _sets(text: str, lift: re.Match[str]) -> list[ResultSet]:
    found = _SET.fullmatch(text)
    if not found:
        raise BadInputError(f"{shown(text)} is no set.", where=_bare(lift["lift"]), mend=SEND_FILE)
    failed = failed_words(int(found["reps"]))
    more = ["missed" if word == failed else word for word in found["more"].split(", ") if word]
    left = [word.removesuffix(" left").removesuffix("+") for word in more if word.endswith(" left")]
    unknown = [word for word in more if word not in (*_OUTCOMES, *_KINDS, _LEFT_OUT) and not word.endswith(" left")]
    if unknown or (lift["unit"] and lift["unit"] != found["unit"]):
        raise BadInputError(f"{shown(text)} is no set.", where=_bare(lift["lift"]), mend=SEND_FILE)
    one = ResultSet(
        _bare(lift["lift"]), cast("Held", lift["held"]), Mass(parse_amount(found["load"]), cast("Unit", found["unit"])),
        int(found["reps"]), parse_amount(left[0]) if left else None,
        cast("Any", next((_OUTCOMES[word] for word in more if word in _OUTCOMES), "done")),
        "test" if "test" in more else "work", Decimal(parse_amount(lift["body"])) if lift["body"] else None,
        bool(lift["side"]), _LEFT_OUT in more,
    )  # fmt: skip
    return [one] * int(found["times"] or 1)


def _max(found: re.Match[str], lift: re.Match[str]) -> ResultMax:
    load = Mass(parse_amount(found["load"]), cast("Unit", found["unit"]))
    return ResultMax(
        _bare(lift["lift"]), cast("Held", lift["held"]), int(found["reps"]), load, cast("MaxSource", found["source"]),
        parse_day(found["day"], where="max"), bool(lift["side"]),
    )  # fmt: skip


def _score(said: dict[str, str], day: date, pieces: Sequence[Piece]) -> Score:
    asked = said["print"].partition("-")[0]
    named = [piece for piece in pieces if tidy(piece.title).casefold() == said["title"].casefold()]
    if not named:
        raise BadInputError(
            "This log has no such piece.", where=said["title"], mend=f"{SEND_FILE} It holds the piece too."
        )
    for piece in named:
        try:
            score = parse_score(
                piece, day, said["text"], swaps=said.get("swaps", ""), splits=said.get("splits", ""),
                tie_break=said.get("tie-break", ""),
            )  # fmt: skip
        except BadInputError:
            continue
        if score_print(score) == said["print"]:
            return score
    what = f"The piece of that name asks something else here ({asked}), or the score means something else."
    raise BadInputError(what, where=said["title"], mend=SEND_FILE)


def _by_lift(entries: Iterable[Entry]) -> Iterator[list[Entry]]:
    """Sets or maxes of one lift together, lifts in the order in which they were begun."""
    groups: dict[tuple[object, ...], list[Entry]] = {}
    for each in entries:
        mass = each.body_mass if isinstance(each, ResultSet) else None
        body = (mass, each.load.unit) if mass is not None else None
        groups.setdefault((each.lift, each.implement, each.per_side, body), []).append(each)
    yield from groups.values()


def _max_field(maxes: Sequence[ResultMax]) -> str:
    one = maxes[0]
    side = ", a side" if one.per_side else ""
    said = (f"{each.reps}RM {each.load} {each.source} {each.day.isoformat()}" for each in maxes)
    return f"{MAX_OF}{_safe(one.lift)} ({one.implement}{side}): {'; '.join(said)}"


def _lift_field(sets: Sequence[ResultSet]) -> str:
    one = sets[0]
    body = f" at {plain(one.body_mass)} {one.load.unit}" if one.body_mass is not None else ""
    side = ", a side" if one.per_side else ""
    return f"{_safe(one.lift)} ({one.implement}{side}){body}: {_in_a_row(map(_set_words, sets))}"


def sets_words(sets: Sequence[ResultSet]) -> str:
    """Say sets of one lift in a row, equal ones together: `3 sets of 4 × 70 kg, 2 left; 75 kg, 3 made, the 4th missed`."""
    return _in_a_row(_set_said(one) for one in sets)


def _in_a_row(words: Iterable[str]) -> str:
    said = [(each, len(list(group))) for each, group in groupby(words)]
    return "; ".join(f"{times} sets of {each}" if times > 1 else each for each, times in said)


def _load(one: ResultSet) -> str:
    return f"{'+' if one.implement == 'body' and one.load.amount >= 0 else ''}{one.load}"


def _set_said(one: ResultSet) -> str:
    """Say a set to a person; six left are six or more, as they were asked for."""
    left = [f"{plain(one.rir)}{'+' if one.rir >= MOST_LEFT else ''} left"] if one.rir is not None else []
    side = " each side" if one.per_side else ""
    made = set_in_words(one.reps, _load(one), one.outcome, times="×", side=side)
    return ", ".join([made, *left, *_marks(one)])


def _set_words(one: ResultSet) -> str:
    """Write a set so that a log reads it again: repetitions and load first, then how it ended."""
    ended = [failed_words(one.reps)] if one.outcome == "missed" else []
    ended += [word for word, outcome in _OUTCOMES.items() if outcome == one.outcome != "missed"]
    return ", ".join([f"{one.reps} x {_load(one)}", *_left(one), *ended, *_marks(one)])


def _left(one: ResultSet) -> list[str]:
    return [f"{plain(one.rir)} left"] if one.rir is not None else []


def _marks(one: ResultSet) -> list[str]:
    return [*([one.kind] if one.kind in _KINDS else []), *([_LEFT_OUT] if one.left_out else [])]


def _score_fields(score: Score) -> list[str]:
    said = {
        "with": tidy(score.piece.yours),  # for the reader: the log knows it by the digits of the piece
        "swaps": swaps_text(score.piece, score.swaps),
        "splits": " ".join(time_words(each) for each in score.splits_s),
        "tie-break": time_words(score.tie_break_s) if score.tie_break_s else "",
    }
    entry = {"title": tidy(score.piece.title), "print": score_print(score), "text": tidy(score_words(score)), **said}
    _score(entry, score.day, [score.piece])  # says so where a line can't carry it
    first = f"piece {_safe(entry['title'])} [{entry['print']}]: {_safe(entry['text'], '%|')}"
    return [first, *(f"{key} {_safe(value, '%|')}" for key, value in said.items() if value)]


def _safe(name: str, signs: str = PARTING) -> str:
    """Write a name without the signs that part fields."""
    return "".join(f"%{ord(sign):02X}" if sign in signs else sign for sign in name)


def _bare(text: str) -> str:
    """Give a name back as it was."""
    return re.sub(r"%([0-9A-F]{2})", lambda found: chr(int(found[1], 16)), text)
