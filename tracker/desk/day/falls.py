"""A best mark that falls: said at once after the touch, with what it was before and when.

Of a lift it is the heaviest load for 1 to 12 repetitions done; of a piece the best of all like results. A first mark of its
kind has beaten nothing, and is none.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from tracker.conditioning.compare import beside, sorting_span
from tracker.conditioning.told import told_words
from tracker.desk.base.roles import may
from tracker.desk.day.more_words import listed, on_day_words
from tracker.desk.maxes.words import load_words
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import scores as log_scores
from tracker.log import sets as log_sets
from tracker.log.records import LiftRecord, SetRow
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Log
from tracker.strength.records import REP_MAXES
from tracker.units import Mass


@dataclass(frozen=True, slots=True)
class Fallen:
    """A best mark of a lift that was beaten: for how many repetitions, and what stood before."""

    lift: LiftRecord
    reps: int
    now: Mass
    before: Mass
    before_on: date
    also: tuple[int, ...] = ()  # fewer repetitions, for which it is the best as well

    def words(self, today: date) -> str:
        """Say it: `Best for 5: 62.5 kg. Before: 60 kg on Tue 3 Nov. Best for 4 and 3 as well`."""
        all_fewer = self.also == tuple(range(self.reps - 1, 0, -1)) and bool(self.also)
        more = f" Best for {listed([str(each) for each in self.also])} as well." if self.also and not all_fewer else ""
        fewer = " and fewer" if all_fewer else ""
        before = f"{load_words(self.before, self.lift)} {on_day_words(self.before_on, today)}"
        return f"Best for {self.reps}{fewer}: {load_words(self.now, self.lift)}. Before: {before}.{more}"


@dataclass(frozen=True, slots=True)
class FallenScore:
    """The best of a piece's like results that was beaten."""

    now: str
    before: str
    before_on: date

    def words(self, today: date) -> str:
        return f"Best so far. Before: {self.before} {on_day_words(self.before_on, today)}."


@may("see")
def fallen_mark(log: Log, seen: SetRow) -> Fallen | None:
    """Tell whether a set that was just logged beat a best mark, and what it was before."""
    if seen.left_out or not seen.reps:
        return None
    with log.reading() as session:
        made = log_sets.loads_made(session, seen.member_id, seen.lift.id, seen.day)
        maxes = log_rep_maxes.rep_maxes(session, seen.member_id, seen.lift.id)
    # Only what came before: one that is mended or logged late beats nothing that came after it.
    marks = [
        (reps, load, day)
        for reps, load, day, at, set_id in made
        if set_id != seen.id and (day, at) <= (seen.day, seen.logged_at)
    ]
    marks += [(one.reps, one.load, one.day) for one in maxes if one.source == "tested" and one.day <= seen.day]
    return fallen(seen, marks)


def fallen(row: SetRow, marks: Sequence[tuple[int, Mass, date]]) -> Fallen | None:
    """Compare a set with the marks before it: repetitions, load, day. The most repetitions for which it is a best count."""
    best: dict[int, tuple[Mass, date]] = {}
    for reps in REP_MAXES:
        fit = [(load, day) for made, load, day in marks if made >= reps]
        if fit:
            best[reps] = max(fit, key=lambda each: (each[0].kg, -each[1].toordinal()))
    beaten = [reps for reps in best if reps <= row.reps and row.load.kg > best[reps][0].kg]
    if not beaten:
        return None
    top = max(beaten)
    load, day = best[top]
    return Fallen(row.lift, top, row.load, load, day, tuple(sorted((n for n in beaten if n != top), reverse=True)))


@may("see")
def fallen_score(log: Log, member_id: str, score_id: str) -> FallenScore | None:
    """Tell whether a score that was just logged is better than all like ones before it, and what was the best."""
    with log.reading() as session:
        one = log_scores.one_score(session, score_id)
        rows = log_scores.scores_of(session, member_id, title=one.score.piece.title) if one else ()
    return _fallen_score(one, rows) if one else None


def _fallen_score(one: ScoreRow, rows: tuple[ScoreRow, ...]) -> FallenScore | None:
    mine = sorting_span(one.score)
    earlier = [
        row for row in rows if row.id != one.id and (row.score.day, row.logged_at) <= (one.score.day, one.logged_at)
    ]
    marks = beside(one.score, [one.score, *(row.score for row in earlier)])[1:]
    known = [
        (span, row) for row, mark in zip(earlier, marks, strict=True) if mark.like and (span := sorting_span(row.score))
    ]
    if mine is None or not known:
        return None
    span, best = max(known, key=lambda each: (each[0].high, -each[1].score.day.toordinal()))
    if mine.low <= span.high:  # where a count was lost, it may not be one
        return None
    return FallenScore(told_words(one.score), told_words(best.score), best.score.day)
