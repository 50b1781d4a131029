"""What a result brought is laid against the session that was planned for its day, so that no set is asked for again.

Lift by lift, in the order in which both stand: the first set of a lift is the first that was planned of it. What the loads
or repetitions were is no condition: the member did what they did, and the log shows both.

What does not fit cleanly is not laid anywhere by itself: a session of another day, or a lift with another implement. The
coach is asked (`could`), and lays it in a touch (`desk/coach/fulfil_asked.py`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from tracker.desk.day.other_ways import blocks, is_complete
from tracker.desk.day.step_state import finish_if_done
from tracker.log import pieces as log_pieces
from tracker.log import results as log_results
from tracker.log import scores as log_scores
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberStepRow, PlannedSetRow, SetRow
from tracker.log.unit_of_work import Act, Reader
from tracker.wording import counted

NEAR_DAYS = 7  # around the day of a result in which a session is looked for; design choice
Place = tuple[str, int]  # a planned set and which of its rounds


@dataclass(frozen=True, slots=True)
class Could:
    """A session that a result may have been, which only the coach can tell: why it is asked, and how much of it it would be."""

    member_step_id: str
    title: str
    due: date
    words: str


def could(session: Reader, member_id: str, day: date) -> tuple[Could, ...]:
    """List the planned sessions of the days around which what a result brought may have been, the nearest first.

    Only where something that was brought belongs to no session yet, and the session has a place for it: a set of a lift of
    that name, with whatever implement, or a piece of that title.
    """
    brought = {each.id for each in log_results.sets_brought(session, member_id, day)}
    rows = log_sets.sets_of(session, member_id, since=day, until=day)
    free = [row for row in rows if row.id in brought and row.planned_set_id is None and row.kind != "ramp"]
    scores = {
        row.score.piece.title.casefold(): row.score.piece.title
        for row in log_scores.scores_of(session, member_id, since=day, until=day)
        if row.member_step_id is None and row.id in _scores_brought(session, member_id, day)
    }
    if not free and not scores:
        return ()
    found: list[Could] = []
    for step in log_waves.member_steps(session, member_id):
        if step.state != "planned" or step.own or abs((step.due - day).days) > NEAR_DAYS:
            continue
        done = log_sets.planned_rounds_done(session, step.id)
        left = list(free)
        laid = [
            place
            for way in (_way(block, left, done) for block in blocks(step))
            for place in _laid(way, left, done, by=_name)
        ]
        titles = [row.piece.title for row in log_pieces.pieces_of_step(session, step.step_id)]
        pieces = [title for title in titles if title.casefold() in scores]
        if laid or pieces:
            found.append(Could(step.id, step.title, step.due, _could_words(step, day, len(laid), pieces)))
    return tuple(sorted(found, key=lambda each: (abs((each.due - day).days), each.due)))


def _could_words(step: MemberStepRow, day: date, sets: int, pieces: Sequence[str]) -> str:
    asked = sum(row.sets for row in step.sets)
    parts = [f"{sets} of its {counted(asked, 'set')}"] if sets else []
    parts += [f"its piece {title}" for title in pieces]
    when = "planned for that day, with another implement" if step.due == day else f"planned for {step.due.isoformat()}"
    return f"{step.title}, {when}: {' and '.join(parts)}"


def lay(act: Act, member_id: str, day: date, step: MemberStepRow) -> str:
    """Lay what results brought of a day against the session that the coach named, whatever its day and implements."""
    return _fulfil_step(act, member_id, day, step, by=_name)[0]


def _lift_id(lift: LiftRecord) -> str:
    return lift.id


def _name(lift: LiftRecord) -> str:
    return lift.name.casefold()


def fulfil(act: Act, member_id: str, day: date) -> tuple[str, bool]:
    """Lay what results brought of a day against the sessions dated that day.

    Returns:
        What is fulfilled, in words, empty where nothing fits; and whether anything of it is new.
    """
    said: list[str] = []
    fresh = False
    for step in log_waves.member_steps(act.session, member_id):
        if step.state != "skipped" and step.due == day:
            words, new = _fulfil_step(act, member_id, day, step)
            said += [words] if words else []
            fresh = fresh or new
    return "; ".join(said), fresh


def _fulfil_step(
    act: Act, member_id: str, day: date, step: MemberStepRow, *, by: Callable[[LiftRecord], str] = _lift_id
) -> tuple[str, bool]:
    brought = {each.id for each in log_results.sets_brought(act.session, member_id, day)}
    rows = [row for row in log_sets.sets_of(act.session, member_id, since=day, until=day) if row.id in brought]
    free = [row for row in rows if row.planned_set_id is None and row.kind != "ramp"]
    done = log_sets.planned_rounds_done(act.session, step.id)
    ways = [_way(block, free, done) for block in blocks(step)]
    laid = [(set_id, place) for way in ways for set_id, place in _laid(way, free, done, by=by)]
    for set_id, (planned_id, number) in laid:
        log_sets.put_plan(act, set_id, planned_id, number, step.id)
    scored, new_scores = _scores(act, member_id, day, step)
    if not (laid or scored or any(row.member_step_id == step.id for row in rows)):
        return "", False
    asks_sets = bool(step.sets)
    if asks_sets:
        finish_if_done(act, member_id, step.id)
    elif scored:
        log_waves.set_state(act, step.id, "done")
    return _words(act, member_id, day, step, ways), bool(laid) or new_scores


def _way(
    block: Sequence[Sequence[PlannedSetRow]], free: Sequence[SetRow], done: frozenset[Place]
) -> Sequence[PlannedSetRow]:
    """Choose the way of a block that was done: one that was begun, else one whose lift was brought, else the first."""
    begun = {planned_id for planned_id, _ in done}
    lifts = {row.lift.id for row in free}
    return next(
        (way for way in block if any(row.id in begun for row in way)),
        next((way for way in block if any(row.lift.id in lifts for row in way)), block[0]),
    )


def _laid(
    way: Sequence[PlannedSetRow], free: list[SetRow], done: frozenset[Place], *, by: Callable[[LiftRecord], str]
) -> Iterator[tuple[str, Place]]:
    """Pair sets with the places of a way that are open, in order; each set is taken once. `by` says which lifts are one."""
    for planned in way:
        mine = [row for row in free if by(row.lift) == by(planned.lift)]
        if planned.test:
            pairs = _attempts(planned, mine, done)
        else:
            numbers = (n for n in range(1, planned.sets + 1) if (planned.id, n) not in done)
            pairs = list(zip(mine, numbers, strict=False))
        for row, number in pairs:
            free.remove(row)
            yield row.id, (planned.id, number)


def _attempts(planned: PlannedSetRow, mine: Sequence[SetRow], done: frozenset[Place]) -> list[tuple[SetRow, int]]:
    """Take all that is left of a lift as attempts of its test; the last one ends it."""
    if (planned.id, 1) in done or not any(row.kind == "test" for row in mine):
        return []
    numbers = [planned.sets + n for n in range(1, len(mine))]
    return list(zip(mine, [*numbers, 1], strict=True))


def _scores(act: Act, member_id: str, day: date, step: MemberStepRow) -> tuple[bool, bool]:
    """Lay the scores of a day against the pieces of a step: whether one fits, and whether that is new."""
    titles = {row.piece.title.casefold() for row in log_pieces.pieces_of_step(act.session, step.step_id)}
    brought = _scores_brought(act.session, member_id, day)
    rows = log_scores.scores_of(act.session, member_id, since=day, until=day)
    fit = [row for row in rows if row.id in brought and row.score.piece.title.casefold() in titles]
    new = [row for row in fit if row.member_step_id is None]
    for row in new:
        log_scores.put_step(act, row.id, step.id)
    return any(row.member_step_id in (None, step.id) for row in fit), bool(new)


def _scores_brought(session: Reader, member_id: str, day: date) -> frozenset[str]:
    rows = log_results.scores_on(session, member_id, day)
    return frozenset(key for key, _, by_result, stands in rows if by_result and stands)


def _words(act: Act, member_id: str, day: date, step: MemberStepRow, ways: Sequence[Sequence[PlannedSetRow]]) -> str:
    done = log_sets.planned_rounds_done(act.session, step.id)
    wanted = {(row.id, n) for way in ways for row in way for n in range(1, row.sets + 1)}
    got = {
        row.score.piece.title.casefold() for row in log_scores.scores_of(act.session, member_id, since=day, until=day)
    }
    titles = {row.piece.title.casefold() for row in log_pieces.pieces_of_step(act.session, step.step_id)}
    if not is_complete(step, done):
        count = len(wanted & done)
        return f"{count} of {counted(len(wanted), 'set')} of {step.title}" if count else f"the piece of {step.title}"
    if titles - got:
        return f"all sets of {step.title}, without its piece{'s' if len(titles) > 1 else ''}"
    return f"fulfils {step.title}"
