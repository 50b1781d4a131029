"""The history of a piece: like results together, unlike ones beside and marked, and what the newest change means."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from tracker.conditioning.asked import scheme_words
from tracker.conditioning.change import LEARNING, Change, change_between, learning_words, measured
from tracker.conditioning.compare import Beside, beside, like_key
from tracker.conditioning.pace import Pace, all_of, pace_of, spread_of, unit_of
from tracker.conditioning.scores import Score
from tracker.conditioning.swaps import swap_words
from tracker.conditioning.times import seconds_words, time_words
from tracker.conditioning.told import between_words, told_words
from tracker.conditioning.words import count_words
from tracker.desk.base.roles import may
from tracker.log import members as log_members
from tracker.log import scores as log_scores
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Log
from tracker.units import Unit

LATEST = 3  # earlier like results whose mean the newest one is shown against


@dataclass(frozen=True, slots=True)
class HistoryLine:
    """One score of a piece in words, marked against the one looked at."""

    row: ScoreRow
    said: str
    where: str  # the place that was reached; both ends where the count was lost
    swaps: tuple[str, ...]
    like: bool
    differs: tuple[str, ...]
    best: str  # "best", "perhaps best", or nothing
    learning: str
    pace: str
    all_done: str  # in repetitions, calories or metres; empty where that is not known
    amount: tuple[float, float] | None  # to be drawn, in `PieceHistory.unit`; a range where the count was lost
    beyond: bool = False  # the cap came first: the amount is where it cut off


@dataclass(frozen=True, slots=True)
class PieceHistory:
    """All that a member got in a piece, newest first, against one of its scores."""

    title: str
    unit: str  # reps, s, m, cal, kg, lb or intervals
    quantity: str
    less_is_better: bool
    lines: tuple[HistoryLine, ...]
    against: ScoreRow | None
    change: Change | None
    mean_before: str  # of the last like results before it; empty where there are too few
    variants: tuple[tuple[str, str], ...] = ()  # of each way in which it was done the newest score, and its words

    @property
    def like(self) -> tuple[HistoryLine, ...]:
        return tuple(line for line in self.lines if line.like)

    @property
    def unlike(self) -> tuple[HistoryLine, ...]:
        return tuple(line for line in self.lines if not line.like)

    @property
    def best(self) -> tuple[HistoryLine, ...]:
        return tuple(line for line in self.lines if line.best)


@may("see")
def piece_history(log: Log, member_id: str, title: str, *, score_id: str | None = None) -> PieceHistory:
    """Read a piece's history against its newest score, or against `score_id`."""
    with log.reading() as session:
        rows = log_scores.scores_of(session, member_id, title=title)
        member = log_members.member(session, member_id)
    unit: Unit = member.unit if member else "kg"
    if not rows:
        return PieceHistory(title, "", "", False, (), None, None, "")
    at = next((n for n, row in enumerate(rows) if row.id == score_id), len(rows) - 1)
    against = rows[at]
    marks = beside(against.score, [row.score for row in rows])
    like = [row.score for row, mark in zip(rows, marks, strict=True) if mark.like]
    lines = tuple(_line(row, mark, like, unit) for row, mark in zip(rows, marks, strict=True))
    name, quantity, less = _measure(against.score, unit)
    before = [each for each in like[: _place(like, against.score)] if measured(each)]
    return PieceHistory(
        against.score.piece.title, name, quantity, less, tuple(reversed(lines)), against,
        _change(before, against.score, like), _mean(before, against.score, unit), _variants(rows),
    )  # fmt: skip


def _variants(rows: Sequence[ScoreRow]) -> tuple[tuple[str, str], ...]:
    """The ways in which a piece was done, the newest first: as prescribed, or with what was swapped."""
    found: dict[object, tuple[str, str]] = {}
    for row in reversed(rows):
        words = ", ".join(swap_words(row.score)) or "as prescribed"
        if any(words == known for _, known in found.values()) and like_key(row.score) not in found:
            words = f"{words}, {scheme_words(row.score.piece)}"  # the piece itself was another one
        found.setdefault(like_key(row.score), (row.id, words))
    return tuple(found.values())


def _place(like: Sequence[Score], score: Score) -> int:
    return next((n for n, each in enumerate(like) if each is score), len(like))


def _change(before: Sequence[Score], now: Score, like: Sequence[Score]) -> Change | None:
    """The change from the like result before; none where either has no number to compare."""
    if not before or measured(now) is None:
        return None
    return change_between(before[-1], now, like)


def _line(row: ScoreRow, mark: Beside, like: Sequence[Score], unit: Unit) -> HistoryLine:
    score = row.score
    lost = score.total is not None and score.total.lost and score.positions is not None
    low_high, beyond = _amount(score, unit)
    exposure = _place(like, score) + 1 if mark.like else LEARNING + 1
    return HistoryLine(
        row, told_words(score), between_words(score) if lost else "", swap_words(score), mark.like, mark.differs, mark.best,
        learning_words(exposure), pace_words(score), amount_words(score), low_high, beyond,
    )  # fmt: skip


def _measure(score: Score, unit: Unit) -> tuple[str, str, bool]:
    """Name what the results of a piece are counted in, what that is, and whether less of it is better."""
    kind = score.piece.kind
    if kind == "for time":
        return "s", "time", True
    if kind == "heaviest":
        return unit, "load", False
    if kind in ("every minute", "work and rest"):
        if score.piece.scored_by == "completed" or score.kept is not None:
            return "intervals", "intervals kept", False
        if score.piece.timed_intervals:
            return "s", "slowest interval" if score.piece.scored_by == "lowest" else "all intervals together", True
        return score.piece.tasks[0].measure, "in all intervals", False
    return score.unit, {"m": "distance", "cal": "calories"}.get(score.unit, "repetitions"), False


def _amount(score: Score, unit: Unit) -> tuple[tuple[float, float] | None, bool]:
    """What is drawn of a score, and whether it ran into the cap; a stopped one is not drawn."""
    if score.ended == "capped" and score.piece.cap_s:
        return (float(score.piece.cap_s), float(score.piece.cap_s)), True
    if score.ended == "stopped":
        return None, False
    if score.load is not None:
        amount = float(score.load.to(unit))
        return (amount, amount), False
    if score.kept is not None:
        return (float(score.kept), float(score.kept)), False
    return measured(score), False


def _mean(before: Sequence[Score], now: Score, unit: Unit) -> str:
    """Say the mean of the last like results; it needs that many, none of them lost."""
    known = [value for score in before[-LATEST:] if (value := _amount(score, unit)[0]) and value[0] == value[1]]
    if len(known) < LATEST or len(before) < LEARNING + LATEST:
        return ""
    mean = fmean(low for low, _ in known)
    name, _, _ = _measure(now, unit)
    said = time_words(round(mean)) if name == "s" else f"{mean:,.0f} {name}" if mean >= 100 else f"{mean:,.1f} {name}"
    return f"Mean of the {LATEST} before it: {said}."


def pace_words(score: Score) -> str:
    """Say the pace of a score: by the minute, and how it drifted from the first round to the last."""
    if times := score.timed_s:
        mean = time_words(round(fmean(times)))
        return (
            f"slowest {seconds_words(max(times))}, fastest {seconds_words(min(times))}, average {mean}"
            if len(times) > 1
            else ""
        )
    if spread := spread_of(score):
        return f"slowest {spread[0]:,}, fastest {spread[1]:,} {score.piece.tasks[0].measure}"
    pace = pace_of(score)
    return _pace(pace) if pace else ""


def amount_words(score: Score) -> str:
    """Say all that was done where the score itself says a place or a time: `190 reps`, `2,000 m`, `50 cal`."""
    amount, unit = all_of(score), unit_of(score)
    return count_words(amount, unit) if amount is not None and unit and amount.high and not amount.lost else ""


def _pace(pace: Pace) -> str:
    parts: list[str] = []
    if pace.unit == "m":
        parts += [_time_of_length(pace)] if pace.length_s else []
    elif pace.overall and any(pace.overall):
        low, high = pace.overall
        rate = f"{low:.1f}" if low == high else f"{low:.1f} to {high:.1f}"
        parts.append(f"{rate} {pace.unit} a minute")
    if pace.drift is not None:
        parts.append(
            f"last round {abs(pace.drift):.0%} {'slower' if pace.drift < 0 else 'faster'} than the first".replace(
                "%", " %"
            )
        )
    return ", ".join(parts)


def _time_of_length(pace: Pace) -> str:
    """Say a pace in metres as it is said on a rower or on foot: `2:05 per 500 m`, `5:00 per km`."""
    fast, slow = (time_words(round(each)) for each in pace.length_s or (0, 0))
    length = "km" if pace.length_m == 1000 else f"{pace.length_m} m"
    return f"{fast if fast == slow else f'{fast} to {slow}'} per {length}"
