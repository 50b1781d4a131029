"""A member's result of one day, as it travels from the member's own log to the coach's: plain, versioned, with a check.

What travels is what was done: working sets and tests, scores, and how hard it was. Ramp sets, notes and what the member
keeps for themselves stay at home; body mass and rep-maxes go along only where the member says so. The check tells a broken copy from
a whole one; it is no seal, and anyone can make one.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass, fields
from datetime import UTC, date, datetime
from decimal import Decimal
from hashlib import blake2b
from json import dumps
from typing import Literal, get_args

from tracker.conditioning.compare import task_key
from tracker.conditioning.piece_record import record_of
from tracker.conditioning.pieces import LONGEST_S, Piece
from tracker.conditioning.score_record import score_record
from tracker.conditioning.scores import Score
from tracker.errors import BadInputError
from tracker.exchange.cells import MOST_NAME, MOST_NOTE, parse_day
from tracker.limits import MOST_MINUTES, MOST_RATING
from tracker.strength.records import Kind, Outcome
from tracker.units import Mass, check_load

VERSION = 2  # from 2 on a score may be only about so, without a time, or of intervals timed one by one; else as of 1
# As a lift is done, in the words of the trade; "unasked" is a lift whose implement nobody has said yet.
Held = Literal["unasked", "barbell", "dumbbells", "dumbbell", "kettlebells", "kettlebell", "machine", "body", "other"]
MaxSource = Literal["tested", "declared"]
IMPLEMENTS: tuple[Held, ...] = get_args(Held)
MOST_SETS, MOST_SCORES, MOST_MAXES = 200, 20, 200  # of one member on one day
MOST_COUNT = 1_000_000  # repetitions, metres or calories of a score
_STAMP = "%Y-%m-%dT%H:%M:%SZ"


@dataclass(frozen=True, slots=True)
class ResultSet:
    """One set as it was done; the load is that of each implement, or added to the body."""

    lift: str
    implement: Held
    load: Mass
    reps: int
    rir: Decimal | None = None
    outcome: Outcome = "done"
    kind: Kind = "work"
    body_mass: Decimal | None = None  # in the unit of the load
    per_side: bool = False
    left_out: bool = False  # of the member's own estimate


@dataclass(frozen=True, slots=True)
class ResultMax:
    """A rep-max as a fact of its day, for whoever has to find loads; an estimate is never sent."""

    lift: str
    implement: Held
    reps: int
    load: Mass
    source: MaxSource
    day: date
    per_side: bool = False


@dataclass(frozen=True, slots=True)
class Result:
    """All that a member sends of one day; `as_of` is the moment of the newest act in it, to tell newer from older."""

    member: str
    day: date
    as_of: datetime
    sets: tuple[ResultSet, ...] = ()
    scores: tuple[Score, ...] = ()
    rating: int | None = None  # CR-10, of the whole session
    minutes: int | None = None
    maxes: tuple[ResultMax, ...] = ()  # only where the member says so


def asks_newer(score: Score) -> bool:
    """Whether a score says what version 1 did not know: a time that is only about so or unknown, intervals one by one."""
    return score.about or score.time_unknown or score.piece.timed_intervals or bool(score.short)


def check_of(text: str, digits: int = 6) -> str:
    """Return the check of a text: equal for texts that differ only in white space and typographic signs."""
    return blake2b(tidy(text).encode(errors="surrogatepass"), digest_size=16).hexdigest()[:digits]


def tidy(text: str) -> str:
    """Undo what messengers do to a text on its way: odd spaces, invisible signs, arrows and curly quotes."""
    seen = "".join(sign for sign in unicodedata.normalize("NFC", text) if unicodedata.category(sign) != "Cf")
    for curly, straight in (
        ("→", "->"),
        ("’", "'"),
        ("‘", "'"),
        ("“", '"'),
        ("”", '"'),
        ("–", "-"),
        ("—", "-"),
        ("×", "x"),
    ):
        seen = seen.replace(curly, straight)
    return " ".join(seen.split())


NOT_ASKED = ("tasks", "note", "title", "side", "yours")


def piece_print(piece: Piece) -> str:
    """Return four digits that are equal for pieces that ask the same; options, notes and the side of a pair are not part."""
    asked = [getattr(piece, each.name) for each in fields(piece) if each.name not in NOT_ASKED]
    return blake2b(
        repr((piece.title.casefold(), asked, [task_key(task) for task in piece.tasks])).encode()
    ).hexdigest()[:4]


def score_key(score: Score) -> str:
    """Return what makes two scores the same one: piece, day and result, with what was swapped; notes are not part of it."""
    kept = {key: value for key, value in score_record(score).items() if key not in ("note", "partner", "swaps", "side")}
    swaps = [(swap.index, repr(task_key(swap.task))) for swap in score.swaps]
    facts = [score.piece.title.casefold(), piece_print(score.piece), kept, sorted(swaps)]
    return blake2b(dumps(facts, sort_keys=True).encode(), digest_size=16).hexdigest()


def score_print(score: Score) -> str:
    return f"{piece_print(score.piece)}-{score_key(score)[:4]}"


def piece_without_options(piece: Piece) -> dict[str, object]:
    """Return the record of a piece as it travels: what was asked, without alternatives that nobody took."""
    record = record_of(piece)
    record["movement"] = [
        {key: value for key, value in task.items() if key != "options"} for task in record["movement"]
    ]
    return record


def stamp(moment: datetime) -> str:
    return moment.astimezone(UTC).strftime(_STAMP)


def parse_stamp(text: str) -> datetime:
    """Read the moment that a result was true at."""
    try:
        return datetime.strptime(text.strip(), _STAMP).replace(tzinfo=UTC)
    except ValueError as err:
        raise BadInputError(f"{text!r} is no moment.", where="as of", mend="Ask for the result again.") from err


def _check_score(score: Score, day: date) -> None:
    where = score.piece.title[:MOST_NAME]
    counts = (*((score.count,) if score.count else ()), *score.each)
    if score.day != day:
        raise BadInputError(f"A score is of {score.day.isoformat()}.", where=where, mend="Ask for one day at a time.")
    if score.load is not None:
        check_load(score.load, where=where)
    if any(count.high > MOST_COUNT for count in counts) or (score.time_s or 0) > LONGEST_S:
        raise BadInputError(
            "A score says more than anyone does in a day.", where=where, mend="Ask for the result again."
        )
    texts = [score.piece.title, score.piece.setting, score.piece.tie_break]
    for task in (*score.piece.tasks, *score.tasks):
        texts += [task.movement, task.implement, task.assistance, task.standard]
    if any(len(each) > MOST_NAME or not each.isprintable() for each in texts):
        raise BadInputError(
            "A name is too long, or can't be shown.", where=ascii(where), mend="Ask for the result again."
        )
    if len(score.piece.note) > MOST_NOTE:
        raise BadInputError(
            f"The note has {len(score.piece.note):,} letters.", where=where, mend=f"Use at most {MOST_NOTE:,}."
        )


def check_whole(result: Result) -> Result:
    """Return a result that can be: with something in it, and not more than one day holds."""
    parse_day(result.day.isoformat(), where="date")
    for score in result.scores:
        _check_score(score, result.day)
    if not (result.sets or result.scores or result.maxes):
        raise BadInputError("There is no set and no score in it.", mend="Ask for the result again.")
    if len(result.sets) > MOST_SETS or len(result.scores) > MOST_SCORES or len(result.maxes) > MOST_MAXES:
        raise BadInputError("It holds more than anyone does in a day.", mend="Ask for one day at a time.")
    if result.rating is not None and not 0 <= result.rating <= MOST_RATING:
        raise BadInputError(f"A rating of {result.rating} can't be.", mend="Ratings go from 0 to 10.")
    if result.minutes is not None and not 0 < result.minutes <= MOST_MINUTES:
        raise BadInputError(f"{result.minutes} minutes can't be.", mend=f"Write 1 to {MOST_MINUTES}.")
    return result
