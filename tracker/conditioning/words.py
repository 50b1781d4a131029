"""Scores in words, both ways: what a member types or calls out, and what the log says back."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from tracker.conditioning.calls import parse_count
from tracker.conditioning.counts import Count, exactly
from tracker.conditioning.ladder import Position
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.scores import Score, Swap, capped, reached
from tracker.conditioning.standing import standing
from tracker.conditioning.swaps import parse_swaps, swap_words
from tracker.conditioning.times import Seconds, parse_seconds, parse_time, seconds_words
from tracker.errors import BadInputError
from tracker.units import Unit, parse_mass

__all__ = ["parse_score", "parse_swaps", "position_words", "score_words", "swap_words"]

_N = r"\d{1,3}(?:,\d{3})+|\d{1,9}"
_ONE = rf"(?:between\s+)?(?:{_N})(?:\s*(?:-|–|to|and)\s*(?:{_N}))?"
_CAP = re.compile(rf"cap\s*(?:\+|plus)\s*({_ONE})(?:\s*(?:reps?|missing))*")
_CAP_AT = re.compile(r"(?:cap\s*,\s*(.+?)(?:\s+done)?|(.+)\s+at\s+the\s+cap)")
_STOPPED = re.compile(r"stopped(?:\s+(?:at|after)\s+([\d:]+(?:\s*(?:s|min))?))?(?:\s*,\s*(.+))?")
_AMOUNT = re.compile(rf"({_ONE})\s*(m|metres?|cal|calories)?")
_CAP_ALONE = re.compile(rf"cap(?:\s*,\s*({_ONE})(?:\s*reps?)?)?")
_ABOUT = re.compile(r"(?:about|around|roughly|ca\.?|~)\s*(?=\d)")
_DONE = re.compile(r"(?:done|finished)(?:\s*,?\s*(?:time\s+not\s+known|without\s+a\s+time))?")
_KEPT = re.compile(
    r"(\d{1,4})\s*(?:/|of)\s*(\d{1,4})(?:\s+(?:intervals?|rounds?))?((?:,\s*(?:minute|interval)\s+\d{1,4}:\s*\d{1,6})*)"
)
_SHORT = re.compile(r"(?:minute|interval)\s+(\d+):\s*(\d+)")
_APART = re.compile(r"\s*;\s*|\s*,(?!\d(?![\d:]))\s*|\s+")  # a comma before a single digit is that of tenths
_NOT_TIMED = re.compile(r"not\s+timed|not\s+known|unknown", re.IGNORECASE)
_GAP = ("", "-", "\N{EN DASH}", "\N{EM DASH}", "?", "x")


def parse_score(
    piece: Piece,
    day: date,
    text: str,
    *,
    swaps: str | Sequence[Swap] = "",
    splits: str = "",
    tie_break: str = "",
    note: str = "",
    partner: str = "",
    unit: Unit | None = None,
) -> Score:
    """Read a score of `piece` in words.

    Args:
        piece: What was done.
        day: The day it was done.
        text: Such as "through the 15s, plus 8", "7 + 12", "between 150 and 160", "8:41", "CAP + 13", "10/12",
            "1:52, 1:50", "577, 570, 564 m", "148 cal", "92.5 kg"; of a time "about 11:00", or "done" where nobody knows it; with "stopped at 6:30, ..." before it where it was not finished.
        swaps: Such as "toes-to-bar -> sit-up; kettlebell swing -> kettlebell swing, 12 kg", or the swaps themselves.
        splits: Times from the start at which rounds ended, such as "0:34 1:43 3:28".
        tie_break: The time at the piece's checkpoint, such as "4:10".
        note: Anything else.
        partner: Who did it with them, as they typed it.
        unit: The unit of a load or of a swapped load written without one.

    Raises:
        BadInputError: if it can't be read, can't be, or could mean two things; nothing is guessed.
    """
    swapped = parse_swaps(piece, swaps, unit=unit) if isinstance(swaps, str) else tuple(swaps)
    plain = " ".join(text.strip().casefold().split())
    if not plain and piece.kind != "unscored":
        raise BadInputError(
            "The score says nothing yet.", where=piece.title, mend="Say how far it went, or how long it took."
        )
    stopped = _STOPPED.fullmatch(plain)
    body = (stopped[2] or "") if stopped else plain
    score = _read(piece, day, body, swapped, unit)
    times = tuple(parse_time(each, where="splits") for each in splits.replace(",", " ").split())
    if stopped:
        score = replace(score, ended="stopped", time_s=parse_time(stopped[1]) if stopped[1] else None)
    tie = parse_time(tie_break, where="tie-break") if tie_break.strip() else None
    return replace(score, splits_s=times, tie_break_s=tie, note=note, partner=partner)


def score_words(score: Score) -> str:
    """Say a score: "through the 15s, plus 8", "8:41", "CAP + 13", "between 150 and 160 reps", "92.5 kg"."""
    body = _said(score)
    if score.ended != "stopped":
        return body
    at = f" at {seconds_words(score.time_s)}" if score.time_s else ""
    return f"stopped{at}" + (f", {body}" if body else "")


def _read(piece: Piece, day: date, text: str, swaps: tuple[Swap, ...], unit: Unit | None) -> Score:
    if piece.kind == "as many as possible":
        return _read_timed(piece, day, text, swaps)
    if piece.kind == "for time":
        return _read_for_time(piece, day, text, swaps)
    if piece.kind in ("every minute", "work and rest"):
        return _read_intervals(piece, day, text, swaps)
    if piece.kind == "heaviest":
        return Score(piece, day, load=parse_mass(text, unit=unit, where=piece.title), swaps=swaps)
    if piece.kind == "unscored":
        if text not in ("", "done"):
            raise BadInputError(f"{piece.title} has no score.", mend="Write done, and the rest in the note.")
        return Score(piece, day, swaps=swaps)
    return Score(piece, day, count=_amount(piece, text), swaps=swaps)


def _read_timed(piece: Piece, day: date, text: str, swaps: tuple[Swap, ...]) -> Score:
    """Read how far it went; where that is no place in rounds, one number, or only that it was done."""
    as_done = replace(piece, tasks=_done(piece, swaps))
    if as_done.placed:
        return reached(piece, day, _count(piece, text, swaps), swaps=swaps)
    count = None if as_done.uncounted and text in ("", "done") else _amount(as_done, text)
    return Score(piece, day, count=count, swaps=swaps)


def _read_for_time(piece: Piece, day: date, text: str, swaps: tuple[Swap, ...]) -> Score:
    whole = replace(piece, tasks=_done(piece, swaps))
    if _DONE.fullmatch(text) or _ABOUT.match(text):
        return _read_unsure(piece, day, text, swaps)
    if not whole.placed:
        return _read_time_alone(piece, day, text, swaps)
    if found := _CAP.fullmatch(text):
        left = capped(whole, day, _span(found[1]))
        return Score(piece, day, count=left.count, ended="capped", swaps=swaps)
    if found := _CAP_AT.fullmatch(text):
        return reached(piece, day, _count(piece, found[1] or found[2], swaps), swaps=swaps)
    if re.fullmatch(r"[\d:]+(?:[.,]\d)?(?:\s*(?:s|sec|min))?", text) and (":" in text or not text.isdigit()):
        return Score(piece, day, time_s=parse_seconds(text, where=piece.title), swaps=swaps)
    return Score(piece, day, count=_count(piece, text, swaps), ended="stopped", swaps=swaps)


def _read_unsure(piece: Piece, day: date, text: str, swaps: tuple[Swap, ...]) -> Score:
    """Read a time that is only about so, or that nobody knows."""
    about = _ABOUT.match(text)
    if about is None:
        return Score(piece, day, swaps=swaps)
    return Score(piece, day, time_s=parse_seconds(text[about.end() :], where=piece.title), swaps=swaps, about=True)


def _read_time_alone(piece: Piece, day: date, text: str, swaps: tuple[Swap, ...]) -> Score:
    """Read a score of a piece for time in which repetitions say no place: its time, or a number that is only a number."""
    if found := _CAP_ALONE.fullmatch(text):
        return Score(piece, day, count=_span(found[1]) if found[1] else None, ended="capped", swaps=swaps)
    if not text:
        return Score(piece, day, ended="stopped", swaps=swaps)
    if found := _AMOUNT.fullmatch(text.removesuffix("reps").removesuffix("rep").strip()):
        return Score(piece, day, count=_span(found[1]), ended="stopped", swaps=swaps)
    return Score(piece, day, time_s=parse_seconds(text, where=piece.title), swaps=swaps)


def _read_intervals(piece: Piece, day: date, text: str, swaps: tuple[Swap, ...]) -> Score:
    if found := _KEPT.fullmatch(text):
        if int(found[2]) != piece.intervals:
            raise BadInputError(
                f"{piece.title} has {piece.intervals} intervals, not {found[2]}.", mend="Write such as 10/12."
            )
        short = tuple((int(number), int(done)) for number, done in _SHORT.findall(found[3]))
        return Score(piece, day, kept=int(found[1]), swaps=swaps, short=short)
    if piece.timed_intervals:
        return Score(piece, day, each_s=_times(piece, text), swaps=swaps)
    parts = re.split(r"\s*(?:,\s*(?=,)|,\s+|;)\s*", text.rstrip(",; "))
    if "" in parts:
        what = f"{piece.title}: {name_of(piece)} {parts.index('') + 1} says nothing."
        raise BadInputError(what, mend="Write 0 for one that was left out.")
    return Score(piece, day, each=tuple(_amount(piece, part) for part in parts), swaps=swaps)


def _times(piece: Piece, text: str) -> tuple[Seconds, ...]:
    """Read the time of each interval; one that nobody timed keeps its place, so that those after it stay theirs."""
    parts = _APART.split(_NOT_TIMED.sub("-", text).rstrip(",; "))
    times = [0 if part in _GAP else parse_seconds(part, where=piece.title) for part in parts]
    while times and not times[-1]:
        times.pop()
    return tuple(times)


def _amount(piece: Piece, text: str) -> Count:
    found = _AMOUNT.fullmatch(re.sub(r"\s*reps?$", "", text))
    if not found:
        raise BadInputError(
            f"{text!r} is no count.", where=piece.title, mend="Write such as 148, or between 140 and 150."
        )
    in_rounds = piece.kind == "as many as possible"
    measure = piece.one_number_in if in_rounds else piece.tasks[0].measure if piece.tasks else "reps"
    wanted = {"distance": "m", "calories": "c"}.get(piece.kind) or measure[0]
    if found[2] and found[2][0] != wanted:
        raise BadInputError(f"{piece.title} is not counted in {found[2]}.", mend="Write the number alone.")
    return _span(found[1])


def _count(piece: Piece, text: str, swaps: tuple[Swap, ...]) -> Count:
    return parse_count(replace(piece, tasks=_done(piece, swaps)).ladder, text, where=piece.title)


def _done(piece: Piece, swaps: tuple[Swap, ...]) -> tuple[Task, ...]:
    done = {swap.index: swap.task for swap in swaps}
    return tuple(done.get(index, task) for index, task in enumerate(piece.tasks))


def _span(text: str) -> Count:
    numbers = [int(each.replace(",", "")) for each in re.findall(_N, text)]
    return Count(numbers[0], numbers[-1]) if len(numbers) > 1 else exactly(numbers[0])


def _said(score: Score) -> str:
    """Say the result by itself, whatever ended it."""
    piece, total = score.piece, score.total
    if score.load is not None:
        return str(score.load)
    if score.kept is not None or score.each or score.each_s:
        return _said_intervals(score)
    if score.time_unknown:
        return "done, time not known"
    if piece.kind == "for time" and score.ended == "finished" and score.time_s:
        return f"about {seconds_words(score.time_s)}" if score.about else seconds_words(score.time_s)
    return _said_count(score, total)


def _said_intervals(score: Score) -> str:
    piece = score.piece
    if score.kept is not None:
        short = (f"{name_of(piece)} {number}: {done}" for number, done in score.short)
        return ", ".join((f"{score.kept}/{piece.intervals}", *short))
    if score.each_s:
        return ", ".join(seconds_words(each) if each else "not timed" for each in score.each_s)
    return ", ".join(str(each) for each in score.each) + f" {piece.tasks[0].measure}"


def name_of(piece: Piece) -> str:
    """Name one of the intervals of a piece, in small letters."""
    return "minute" if piece.work_s == 60 and not piece.rest_s else "interval"


def _said_count(score: Score, total: Count | None) -> str:
    if total is None:
        return {"finished": "done", "capped": "CAP", "stopped": ""}[score.ended]
    if score.ended == "capped" and not score.done.placed:
        return f"CAP, {count_words(total, score.unit)}"
    if score.ended == "capped" and score.missing is not None:
        return f"CAP + {score.missing}"
    if score.positions is None:
        return count_words(total, score.unit)
    return count_words(total, "reps") if total.lost else standing(score.ladder, total.low).words


def count_words(count: Count, unit: str) -> str:
    """Say a count with its unit: 1 rep, 190 reps, between 150 and 160 reps, 2,000 m."""
    return f"{count} {'rep' if unit == 'reps' and str(count) == '1' else unit}"


def position_words(score: Score) -> tuple[str, ...]:
    """Say the place reached in words; two places, first and last, where the count was lost."""
    places: tuple[Position, ...] = score.positions or ()
    return tuple(dict.fromkeys(standing(score.ladder, place).words for place in places))
