"""A score as plain values for a file or a log, and back; its piece is kept apart."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from decimal import Decimal
from math import isfinite
from typing import Any, cast, get_args

from tracker.conditioning.counts import Count
from tracker.conditioning.piece_record import task_from, task_record
from tracker.conditioning.pieces import SIDES, Piece, Side
from tracker.conditioning.plain_values import MOST_WHOLE, choice, decimal, flag, keyed, listed, text, whole
from tracker.conditioning.scores import Ended, Score, Swap
from tracker.conditioning.sides import for_side
from tracker.conditioning.times import Seconds
from tracker.errors import BadInputError
from tracker.units import Mass, parse_unit, plain


def _seconds(value: object, where: str) -> Seconds:
    if not isinstance(value, float):
        return whole(value, where)
    read = Decimal(repr(value)) if isfinite(value) else Decimal("NaN")
    if not read.is_finite() or abs(read) > MOST_WHOLE or read != round(read, 1):
        raise BadInputError(f"{value!r} is no time to a tenth.", where=where, mend="Write such as 102.6.")
    return round(read, 1)


_PLAIN: dict[str, Callable[[Any, str], Any]] = {
    **dict.fromkeys(("kept", "tie_break_s"), whole),
    "time_s": _seconds,
    "ended": lambda value, where: choice(value, get_args(Ended), where),
    "note": text,
    "about": flag,
    "partner": text,
}
PLAIN = ("time_s", "ended", "kept", "tie_break_s", "note", "about", "partner")


def _plain_seconds(seconds: Seconds) -> int | float:
    """Return seconds for JSON: whole, or with a tenth where that is known."""
    return float(seconds) if isinstance(seconds, Decimal) else seconds


def score_record(score: Score) -> dict[str, Any]:
    """Return the score as values that JSON can hold; what is not set is left out."""
    record: dict[str, Any] = {"day": score.day.isoformat(), **{name: getattr(score, name) for name in PLAIN}}
    record["count"] = [score.count.low, score.count.high] if score.count else None
    record["load"] = [plain(score.load.amount), score.load.unit] if score.load else None
    record["about"] = score.about or None
    record["short"] = [list(each) for each in score.short]
    record["time_s"] = None if score.time_s is None else _plain_seconds(score.time_s)
    record["each_s"] = [_plain_seconds(each) for each in score.each_s]
    record["each"] = [[each.low, each.high] for each in score.each]
    record["side"] = score.piece.side
    record["splits_s"] = list(score.splits_s)
    record["swaps"] = [{"index": swap.index, "task": task_record(swap.task)} for swap in score.swaps]
    return {name: value for name, value in record.items() if value not in (None, [], "")}


def score_from(piece: Piece, record: Mapping[str, Any]) -> Score:
    """Read a score of `piece` back; of a piece with pairs it is one of what this member did.

    Raises:
        BadInputError: if a value is missing or can't be.
    """
    where = piece.title
    try:
        if "side" in record:
            piece = for_side(piece, cast("Side", choice(record["side"], SIDES, f"{where}, side")))
        return Score(
            piece,
            date.fromisoformat(text(record["day"], where)),
            **{name: _PLAIN[name](record[name], f"{where}, {name}") for name in PLAIN if name in record},
            count=_count(record["count"], where) if "count" in record else None,
            load=_load(record["load"], where) if "load" in record else None,
            each=tuple(_count(each, where) for each in listed(record.get("each", ()), where)),
            each_s=tuple(_seconds(each, where) for each in listed(record.get("each_s", ()), where)),
            short=tuple(_short(each, where) for each in listed(record.get("short", ()), where)),
            splits_s=tuple(whole(each, where) for each in listed(record.get("splits_s", ()), where)),
            swaps=tuple(
                Swap(whole(keyed(swap, where)["index"], where), task_from(swap["task"], where=where))
                for swap in listed(record.get("swaps", ()), where)
            ),
        )
    except (KeyError, TypeError, ValueError, IndexError, AttributeError) as err:
        raise BadInputError("This is no record of a score.", where=piece.title, mend="Enter the score again.") from err


def _short(value: object, where: str) -> tuple[int, int]:
    number, done = (whole(each, where) for each in listed(value, where))
    return number, done


def _count(value: object, where: str) -> Count:
    low, high = (whole(each, where) for each in listed(value, where))
    return Count(low, high)


def _load(value: object, where: str) -> Mass:
    amount, unit = listed(value, where)
    return Mass(decimal(amount, where), parse_unit(text(unit, where), where=where))
