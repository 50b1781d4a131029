"""Last time at the card of a piece: what was got in it, under which conditions, the note, and what beats it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tracker.conditioning.change import LEARNING
from tracker.conditioning.compare import Asked, differences, sorting_span
from tracker.conditioning.pieces import Piece
from tracker.conditioning.swaps import swap_words
from tracker.conditioning.times import seconds_words
from tracker.conditioning.told import told_words
from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day.more_words import on_day_words
from tracker.log import scores as log_scores
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Log


@dataclass(frozen=True, slots=True)
class LastPiece:
    """The newest score of a piece before a day; `differs`: what was unlike the piece as it is asked now."""

    day: date
    said: str
    swaps: tuple[str, ...]
    differs: tuple[str, ...]
    note: str
    to_beat: str = ""

    def lines(self, today: date) -> tuple[str, ...]:
        """Say it in lines: `Last time, Mon 2 Nov: 8:41, with ring row`."""
        swapped = f", with {', '.join(self.swaps)}" if self.swaps else ""
        unlike = "" if self.swaps or not self.differs else f" (not alike: {', '.join(self.differs)})"
        when = on_day_words(self.day, today).removeprefix("on ")
        said = f"Last time, {when}: {self.said}{swapped}{unlike}."
        return tuple(each for each in (said, f"You noted: {self.note}" if self.note else "", self.to_beat) if each)


@may("see")
@cached_until_write
def last_piece(log: Log, member_id: str, piece: Piece, day: date, *, easy: bool = False) -> LastPiece | None:
    """Read what a member got in a piece of that title before `day`; None where there is nothing.

    What beats it is said among like results only, and where it is within reach: in one of the first goes, in which a piece
    is still being learnt, or where a like result of before was better. How likely that is nothing published tells, so no
    number is given. On an `easy` day nothing of it is said.
    """
    with log.reading() as session:
        rows = [row for row in log_scores.scores_of(session, member_id, title=piece.title) if row.score.day < day]
    if not rows:
        return None
    newest = rows[-1]
    marks = _marks(piece, rows)
    like = [row for row, differs in zip(rows, marks, strict=True) if not differs]
    differs = marks[-1]
    beaten = _to_beat(like, newest) if like and not easy else ""
    return LastPiece(
        newest.score.day, told_words(newest.score), tuple(swap_words(newest.score)), differs, newest.score.note, beaten
    )


def _marks(piece: Piece, rows: list[ScoreRow]) -> list[tuple[str, ...]]:
    """Say of each score what differs from the piece as it is asked now."""
    found = (differences(Asked(piece), row.score) for row in rows)
    return [tuple(each for each in differs if each != "stopped early") for differs in found]


def _to_beat(like: list[ScoreRow], last: ScoreRow) -> str:
    known = [(span, row) for row in like if (span := sorting_span(row.score))]
    if not known or known[-1][1] is not like[-1]:
        return ""
    span, newest = known[-1]
    better = [each for each, _ in known[:-1] if each.low > span.high]
    if not better and len(known) >= LEARNING:
        return ""
    score = newest.score
    what = "To beat last time" if newest.id == last.id else "To beat the last go as asked"
    if score.piece.kind == "for time" and score.ended == "finished" and score.time_s:
        return f"{what}: faster than {seconds_words(score.time_s)}."
    if score.all_intervals_s:
        slowest = score.piece.scored_by == "lowest"
        counts = seconds_words(max(score.each_s) if slowest else sum(score.each_s))
        return (
            f"{what}: {'no interval slower than' if slowest else 'faster than'} {counts}{'' if slowest else ' in all'}."
        )
    return f"{what}: more than {told_words(score).split(' (')[0]}."
