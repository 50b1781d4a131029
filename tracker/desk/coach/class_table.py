"""What a class did on a day: every lift in one table, every piece with like results together and unlike ones apart."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from tracker.conditioning.compare import Best, best_mark, differences, like_key, sorting_span
from tracker.conditioning.scores import Score
from tracker.conditioning.swaps import swap_words
from tracker.conditioning.told import between_words, told_words
from tracker.desk.base.roles import may
from tracker.desk.history.not_done import not_done
from tracker.log import kit as log_kit
from tracker.log import members as log_members
from tracker.log import pieces as log_pieces
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord, SetRow
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Log, Reader
from tracker.strength.records import Outcome
from tracker.wording import counted


@dataclass(frozen=True, slots=True)
class LiftLine:
    """What one member did of a lift; `sets` are equal sets in a row with how many there were, ramp sets left aside."""

    member: MemberRecord
    sets: tuple[tuple[int, SetRow], ...]

    def count(self, outcome: Outcome) -> int:
        return sum(times for times, row in self.sets if row.outcome == outcome)

    @property
    def heaviest(self) -> SetRow | None:
        """The heaviest set with a repetition in it, of equal loads the one with the most."""
        made = [row for _, row in self.sets if row.reps]
        return max(made, key=lambda row: (row.load.kg, row.reps), default=None)


@dataclass(frozen=True, slots=True)
class LiftTable:
    lift: LiftRecord
    lines: tuple[LiftLine, ...]


@dataclass(frozen=True, slots=True)
class ScoreLine:
    """One score in words; `best` among like ones alone, and only where there are two."""

    member: MemberRecord
    said: str
    where: str  # the place that was reached, both ends where the count was lost
    swaps: tuple[str, ...]
    best: Best
    own: str = ""  # that it was got in a session of the member's own, and where; empty in a planned one


@dataclass(frozen=True, slots=True)
class LikeGroup:
    """Scores that may be compared, the better first; `differs` is what sets them apart from the first group."""

    differs: tuple[str, ...]
    lines: tuple[ScoreLine, ...]


@dataclass(frozen=True, slots=True)
class PieceTable:
    title: str
    groups: tuple[LikeGroup, ...]


@dataclass(frozen=True, slots=True)
class Missing:
    """A member whose session of the day is not all in: `came` says how much of it is."""

    member: MemberRecord
    came: str


@dataclass(frozen=True, slots=True)
class ClassTable:
    """The results of a day; `absent` are chosen members of whom nothing is known on it.

    `missing` are those whose planned session of the day is not whole, also those who are absent.
    """

    day: date
    lifts: tuple[LiftTable, ...]
    pieces: tuple[PieceTable, ...]
    absent: tuple[MemberRecord, ...]
    missing: tuple[Missing, ...] = ()


@may("lead")
def class_table(log: Log, member_ids: Sequence[str], day: date) -> ClassTable:
    """Put the results of chosen members on one day together, by name."""
    sets: list[tuple[MemberRecord, SetRow]] = []
    scores: list[tuple[MemberRecord, Score]] = []
    own: dict[int, str] = {}  # by the score itself
    missing: list[Missing] = []
    with log.reading() as session:
        found = [log_members.member(session, each) for each in dict.fromkeys(member_ids)]
        members = sorted((each for each in found if each), key=lambda each: each.name.casefold())
        for member in members:
            rows = log_sets.sets_of(session, member.id, since=day, until=day)
            sets += [(member, row) for row in rows if row.kind != "ramp"]
            done = log_scores.scores_of(session, member.id, since=day, until=day)
            scores += [(member, row.score) for row in done]
            own |= {id(row.score): words for row in done if (words := _own_words(session, member.id, row))}
            missing += [Missing(member, came) for came in _not_whole(session, member.id, rows, done, day)]
    present = {member.id for member, _ in (*sets, *scores)}
    return ClassTable(
        day, tuple(_lifts(sets)), tuple(_pieces(scores, own)), tuple(each for each in members if each.id not in present),
        tuple(missing),
    )  # fmt: skip


def _not_whole(
    session: Reader, member_id: str, rows: Sequence[SetRow], scores: Sequence[ScoreRow], day: date
) -> Iterable[str]:
    """Say of each session planned for the day, that is not done or was ended early, how much of it came in."""
    ended = {row.member_step_id for row in (*rows, *scores)}
    for step in log_waves.member_steps(session, member_id):
        if step.state == "done" and step.id in ended and (words := not_done(session, member_id, (step.id,), day)):
            yield f"ended with {words}"
        if step.due != day or step.state != "planned":
            continue
        asked = sum(planned.sets for planned in step.sets)
        sets = sum(row.member_step_id == step.id and row.kind != "ramp" for row in rows)
        scored = {row.piece_id for row in scores}
        pieces = log_pieces.pieces_of_step(session, step.step_id)
        unscored = [piece.piece.title for piece in pieces if piece.id not in scored]
        if not sets and len(unscored) == len(pieces):
            yield f"nothing yet of {step.title}"
            continue
        said = [f"{sets} of {counted(asked, 'set')}"] if sets < asked else []
        said += [f"no score of {title}" for title in unscored]
        if said:
            yield ", ".join(said)


def _lifts(sets: Sequence[tuple[MemberRecord, SetRow]]) -> Iterable[LiftTable]:
    lifts = dict.fromkeys(row.lift for _, row in sets)
    for lift in sorted(lifts, key=lambda each: each.title):
        mine = [(member, row) for member, row in sets if row.lift == lift]
        lines = [LiftLine(member, _in_a_row(row for _, row in group)) for member, group in groupby(mine, key=lambda each: each[0])]  # fmt: skip
        yield LiftTable(lift, tuple(lines))


def _in_a_row(rows: Iterable[SetRow]) -> tuple[tuple[int, SetRow], ...]:
    groups = [list(group) for _, group in groupby(rows, key=lambda r: (r.load, r.reps, r.rir, r.outcome, r.kind))]
    return tuple((len(group), group[0]) for group in groups)


def _own_words(session: Reader, member_id: str, row: ScoreRow) -> str:
    """Say that a score is of a session that the member put together, and where it was got: nobody else of the class did it."""
    steps = {step.id: step for step in log_waves.member_steps(session, member_id)} if row.member_step_id else {}
    step = steps.get(row.member_step_id or "")
    if row.member_step_id and (step is None or not step.own):
        return ""
    held = log_sessions.one_session(session, row.session_id) if row.session_id else None
    place = log_kit.place(session, held.place_id) if held and held.place_id else None
    return f"own session, {place.name}" if place else "own session"


def _pieces(scores: Sequence[tuple[MemberRecord, Score]], own: Mapping[int, str]) -> Iterable[PieceTable]:
    titles: dict[str, list[tuple[MemberRecord, Score]]] = {}
    for member, score in scores:
        titles.setdefault(score.piece.title.casefold(), []).append((member, score))
    for _, mine in sorted(titles.items()):
        groups: dict[object, list[tuple[MemberRecord, Score]]] = {}
        for member, score in mine:
            groups.setdefault((like_key(score), score.ended == "stopped"), []).append((member, score))
        ordered = sorted(groups.values(), key=_as_asked_first)
        first = ordered[0][0][1]
        told = tuple(LikeGroup(differences(first, group[0][1]), tuple(_lines(group, own))) for group in ordered)
        yield PieceTable(first.piece.title, told)


def _as_asked_first(group: Sequence[tuple[MemberRecord, Score]]) -> tuple[bool, bool, int]:
    score = group[0][1]
    return score.ended == "stopped", not score.as_prescribed, -len(group)


def _lines(group: Sequence[tuple[MemberRecord, Score]], own: Mapping[int, str]) -> Iterable[ScoreLine]:
    like = [score for _, score in group]
    for member, score in sorted(group, key=_better_first):
        lost = score.total is not None and score.total.lost
        where = between_words(score) if lost else ""
        mark = best_mark(score, like)
        yield ScoreLine(member, told_words(score), where, swap_words(score), mark, own.get(id(score), ""))


def _better_first(entry: tuple[MemberRecord, Score]) -> tuple[float, str]:
    span = sorting_span(entry[1])
    middle = float(span.low + span.high) / 2 if span else float("-inf")
    return -middle, entry[0].name.casefold()
