"""Read what people call across a gym: "through the 15s, plus 8", "7 + 12", "between 150 and 160".

Numbers are always said back in words afterwards. What could mean two things is asked, not guessed.
"""

from __future__ import annotations

import re

from tracker.conditioning.counts import Count, exactly
from tracker.conditioning.ladder import BUY_IN, Ladder, Listed, Position, Steady
from tracker.conditioning.standing import standing
from tracker.errors import BadInputError
from tracker.wording import counted

_N = r"(\d{1,3}(?:,\d{3})+|\d{1,30})"
_AND = r"(?:\s*,)?\s*(?:\+|plus|and)\s*"
_REPS = r"(?:\s*(?:reps?|repetitions?))?"
_DETAIL = r"(?:\s*\(.*\))?"  # what our own words add in brackets: said once more, not a new fact
_RUNG = re.compile(
    rf"(?:(?:done\s+)?through\s+)?(?:the\s+)?{_N}s(?:\s+for\s+the\s+(\w+)\s+time)?(?:{_AND}{_N})?{_REPS}{_DETAIL}"
)
_ROUNDS = re.compile(
    rf"(?:through\s+)?(?:round\s+{_N}\s*(?:\([\d, and]*\))?|{_N}\s+rounds?)(?:{_AND}{_N})?{_REPS}{_DETAIL}"
)
_IN_ROUND = re.compile(rf"in\s+the\s+first\s+round,?\s*{_N}{_REPS}{_DETAIL}")
_IN_BUY_IN = re.compile(rf"in\s+the\s+buy-in,?\s*{_N}{_REPS}{_DETAIL}")
_ALL_BUY_IN = re.compile(rf"all\s+of\s+the\s+buy-in(?:{_AND}{_N})?{_REPS}{_DETAIL}")
_BEGINNINGS = ((_IN_ROUND, 0), (_IN_BUY_IN, BUY_IN), (_ALL_BUY_IN, 0))
_SUM = re.compile(rf"{_N}\s*(?:\+|plus)\s*{_N}{_REPS}")
_TOTAL = re.compile(rf"{_N}{_REPS}{_DETAIL}")
_ALL = re.compile(rf"(?:all|all of it|finished)(?:,\s*{_N}{_REPS})?")
_BETWEEN = re.compile(r"between\s+(.+?)\s+and\s+(?=\d|through|in |all)(.+)")
_SPAN = re.compile(rf"{_N}\s*(?:-|–|to)\s*{_N}{_REPS}")
_WORD_TIMES = {"first": 1, "second": 2, "third": 3}
MEND = "Write such as through the 15s, plus 8; 7 + 12; 160; or between 150 and 160."


def parse_count(ladder: Ladder, text: str, *, where: str = "") -> Count:
    """Read how far a member came in `ladder`, as a count of repetitions; a range where the count was lost.

    Raises:
        BadInputError: if it can't be read, can't be, or could mean two things.
    """
    word = _plain(text)
    if found := _SPAN.fullmatch(word):
        return Count(_whole(found[1]), _whole(found[2]))
    if found := _BETWEEN.fullmatch(word):
        return Count(parse_total(ladder, found[1], where=where), parse_total(ladder, found[2], where=where))
    return exactly(parse_total(ladder, word, where=where))


def parse_total(ladder: Ladder, text: str, *, where: str = "") -> int:
    """Read how far a member came in `ladder`, as the repetitions in all."""
    word = _plain(text)
    if found := _RUNG.fullmatch(word):
        rounds = _rounds_through(ladder, _whole(found[1]), found[2] or "", where)
        return _into(ladder, rounds, _whole(found[3]))
    if found := _ROUNDS.fullmatch(word):
        return _into(ladder, _whole(found[1] or found[2]), _whole(found[3]))
    for spoken, rounds in _BEGINNINGS:
        if (found := spoken.fullmatch(word)) and (ladder.before or spoken is _IN_ROUND):
            return _into(ladder, rounds, _whole(found[1]))
    if found := _SUM.fullmatch(word):
        return _bare_sum(ladder, _whole(found[1]), _whole(found[2]), where)
    if found := _TOTAL.fullmatch(word):
        ladder.position(_whole(found[1]))  # refuses more than the whole piece
        return _whole(found[1])
    if _ALL.fullmatch(word) and ladder.all_reps is not None:
        return ladder.all_reps
    raise BadInputError(f"{text.strip()!r} says no place in the piece.", where=where, mend=MEND)


def _into(ladder: Ladder, rounds: int, more: int) -> int:
    """Repetitions of `rounds` finished ones and `more`; more than the open round asks is refused with what was meant."""
    ladder.check(Position(rounds))
    total = ladder.through(rounds) + more
    here = ladder.position(total)
    if here.rounds != rounds and ladder.in_parts and rounds in (BUY_IN, ladder.rounds):
        what = f"What is asked there is {counted(sum(ladder.at(rounds)), 'rep')}, so {more:,} would have finished it."
        raise BadInputError(what, mend=f"Probably meant: {standing(ladder, here).words}.")
    if here.rounds > rounds:
        what = f"Round {rounds + 1:,} has {sum(ladder.at(rounds)):,} reps, so {more:,} would have finished it."
        raise BadInputError(what, mend=f"Probably meant: {standing(ladder, here).words}.")
    return total


def _bare_sum(ladder: Ladder, first: int, more: int, where: str) -> int:
    """Read "15 + 8": 15 rounds, or through the 15s. Where both could be and differ, ask."""
    rounds = _rounds_at(ladder, first)
    if ladder.alike or not rounds or rounds == [first]:
        return _into(ladder, first, more)
    asked = f"through the {first}s, plus {more}, or {counted(first, 'round')}, plus {more}"
    raise BadInputError(f'"{first} + {more}" could mean two things in a ladder.', where=where, mend=f"Write {asked}.")


def _rounds_through(ladder: Ladder, reps: int, time: str, where: str) -> int:
    """How many rounds are finished "through the 15s"; a number met more than once has to say which time."""
    rounds = _rounds_at(ladder, reps)
    if not rounds:
        raise BadInputError(f"No round of this piece is of {reps:,}s.", where=where, mend=MEND)
    if not time and len(rounds) == 1:
        return rounds[0]
    number = _WORD_TIMES.get(time) or int("".join(filter(str.isdigit, time)) or 0)
    if not time or not 1 <= number <= len(rounds):
        said = f"The {reps:,}s come by {len(rounds)} times."
        raise BadInputError(said, where=where, mend=f"Write such as through the {reps:,}s for the second time.")
    return rounds[number - 1]


def _rounds_at(ladder: Ladder, reps: int) -> list[int]:
    """After which rounds one could say "through the `reps`s": those that ask it of every movement."""
    if all(isinstance(run, Steady) for run in ladder.runs):
        first, step = next(((run.first, run.step) for run in ladder.runs if isinstance(run, Steady)), (0, 0))
        index = (reps - first) // step if step else 0
        there = step and index >= 0 and (ladder.rounds is None or index < ladder.rounds)
        return [index + 1] if there and set(ladder.at(index)) == {reps} else []
    most = max(run.rounds for run in ladder.runs if isinstance(run, Listed))
    return [index + 1 for index in range(most) if set(ladder.at(index)) == {reps}]


def _plain(text: str) -> str:
    return " ".join(text.strip().casefold().rstrip(".").split())


def _whole(digits: str | None) -> int:
    return int((digits or "0").replace(",", ""))
