"""What of a planned session was not done, as every page that looks back says it: `3 of 5 sets; Lantern ladder not done`."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from datetime import date, timedelta

from tracker.desk.day.on_today import open_pieces
from tracker.desk.day.other_ways import blocks, is_complete
from tracker.desk.maxes.words import weekday_words
from tracker.log import pieces as log_pieces
from tracker.log import scores as log_scores
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.records import MemberStepRow
from tracker.log.sets import GOES_ON
from tracker.log.unit_of_work import Reader
from tracker.wording import counted

Round = tuple[str, int]


def not_done(session: Reader, member_id: str, step_ids: Iterable[str | None], day: date) -> str:
    """Say what was not done of the planned sessions that were begun on a day; empty where all of them are whole.

    Sets that were done on another day count, and that is said. A session that is still planned may be gone on with: `so far`.
    """
    wanted = {each for each in step_ids if each}
    steps = [step for step in log_waves.member_steps(session, member_id) if step.id in wanted] if wanted else []
    found = [(step, _of_step(session, member_id, step, day)) for step in steps]
    said = [(step, words) for step, words in found if words]
    return "; ".join(f"{step.title}: {words}" if len(said) > 1 else words for step, words in said)


def ended_early(session: Reader, member_id: str, step_ids: Iterable[str | None], day: date) -> str:
    """Return the id of a session that was ended on a day with something left of it, so that the rest can be done; else nothing."""
    wanted = {each for each in step_ids if each}
    steps = [step for step in log_waves.member_steps(session, member_id) if step.id in wanted] if wanted else []
    done = (step for step in steps if step.state == "done")
    return next((step.id for step in done if _of_step(session, member_id, step, day)), "")


def _of_step(session: Reader, member_id: str, step: MemberStepRow, day: date) -> str:
    rounds = log_sets.planned_rounds_done(session, step.id)
    asked = _asked(step, rounds)
    done = len(asked & rounds)
    pieces = log_pieces.pieces_of_step(session, step.step_id, member_id)
    until = day + GOES_ON - timedelta(days=1)
    scores = [row for row in log_scores.scores_of(session, member_id, since=day - GOES_ON, until=until) if row.member_step_id == step.id]  # fmt: skip
    left = open_pieces(pieces, scores)
    whole = is_complete(step, rounds) or done >= len(asked)
    if whole and not left:
        return ""
    going = step.state == "planned"
    sets = "" if whole else f"{done} of {counted(len(asked), 'set')}{' so far' if going else ''}"
    rows = (row for end in (day, until) for row in log_sets.sets_of_step(session, member_id, step.id, end))
    others = {row.day for row in rows} - {day}
    apart = f"some of them on {', '.join(map(weekday_words, sorted(others)))}" if sets and others else ""
    titles = ", ".join(row.piece.title for row in left)
    pieces_said = f"{titles} not done{' yet' if going else ''}" if titles else ""
    return "; ".join(each for each in (", ".join(each for each in (sets, apart) if each), pieces_said) if each)


def _asked(step: MemberStepRow, rounds: Collection[Round]) -> frozenset[Round]:
    """Return the sets that a session asks for, of each block by the way that was begun."""
    asked: set[Round] = set()
    begun = {planned for planned, _ in rounds}
    for ways in blocks(step):
        way = next((way for way in ways if any(row.id in begun for row in way)), ways[0])
        asked |= {(row.id, number) for row in way for number in range(1, row.sets + 1)}
    return frozenset(asked)
