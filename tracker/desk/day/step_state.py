"""When a step of a wave is done because its last set is, and when it is open again because a set has gone."""

from __future__ import annotations

from collections.abc import Generator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import date

from tracker.desk.day.ceilings import ended
from tracker.desk.day.other_ways import is_complete
from tracker.desk.day.sore import SoreState, Way, left_out, read_state, state_of
from tracker.log import by_hand
from tracker.log import choices as log_choices
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.records import MemberStepRow, SetRow
from tracker.log.unit_of_work import CHOSEN, SORE, Act, Reader


def finish_if_done(
    act: Act, member_id: str, step_id: str, *, also: frozenset[str] = frozenset(), by: str | None = None
) -> None:
    """Call a step done whose sets are all logged; those of lifts that the member has ended are not asked for.

    `also` are lifts that are ended by this act, `by` is the planned set of which a set was logged: where more of it is to
    come, and nothing was said by which that is not asked for, nothing is finished and nothing more is read.
    """
    if by and log_sets.has_open_rounds(act.session, step_id, by) and not _spares_any(act.session, member_id, step_id):
        return
    step = _step(act, member_id, step_id)
    if step is not None and _complete(act, step, also):
        log_waves.set_state(act, step_id, "done")


def reopen(act: Act, member_id: str, step_id: str, lift_id: str) -> None:
    """Let a step be planned again because a lift goes on that the member had ended."""
    step = _step(act, member_id, step_id)
    if step is None or step.state != "done":
        return
    others = ended(log_choices.choices(act.session, member_id), step_id) - {lift_id}
    if not is_complete(step, log_sets.planned_rounds_done(act.session, step_id), others):
        log_waves.set_state(act, step_id, "planned")


@contextmanager
def reopened(act: Act, rows: Sequence[SetRow], today: date) -> Generator[None]:
    """Within it sets of one member go; a step that was done by them is planned again.

    Only where they are sets of `today`: what is missing from an older session is not to be done today. And only where
    the step was done because its sets were: one that somebody closed stays closed.
    """
    of_today = [row for row in rows if row.member_step_id and row.day == today]
    known = _steps(act, of_today[0].member_id) if of_today else {}
    wanted = [known[each] for each in dict.fromkeys(row.member_step_id or "" for row in of_today) if each in known]
    done = [step for step in wanted if step.state == "done" and _complete(act, step)]
    yield
    for step in done:
        if not _complete(act, step):
            log_waves.set_state(act, step.id, "planned")


def ask_again(act: Act, member_id: str, step_id: str, name: str) -> None:
    """Let a step be planned again because a lift is asked for again, by its name in small letters, that was left out of it."""
    step = _step(act, member_id, step_id)
    if step is None or step.state != "done" or not _complete(act, step):
        return
    said = read_state(act.session, member_id)  # without what this act says
    said = replace(said, in_step={**said.in_step, (step_id, name): Way("keep")})
    if not _is_complete(act.session, member_id, step, said=said):
        log_waves.set_state(act, step_id, "planned")


def _spares_any(session: Reader, member_id: str, step_id: str) -> bool:
    told = by_hand.newest_by_kind(session, member_id, (SORE, CHOSEN))
    return bool(told[SORE] or ended(log_choices.choices_of(told[CHOSEN]), step_id))


def _step(act: Act, member_id: str, step_id: str) -> MemberStepRow | None:
    return next(iter(log_waves.member_steps(act.session, member_id, only=step_id)), None)


def _steps(act: Act, member_id: str) -> dict[str, MemberStepRow]:
    return {step.id: step for step in log_waves.member_steps(act.session, member_id)}


def _complete(act: Act, step: MemberStepRow, also: frozenset[str] = frozenset()) -> bool:
    return _is_complete(act.session, act.member_id or "", step, also)


def _is_complete(
    session: Reader,
    member_id: str,
    step: MemberStepRow,
    also: frozenset[str] = frozenset(),
    said: SoreState | None = None,
) -> bool:
    rounds = log_sets.planned_rounds_done(session, step.id)
    if is_complete(step, rounds):
        return True
    told = by_hand.newest_by_kind(session, member_id, (SORE, CHOSEN))
    spared = left_out(said or state_of(told[SORE][::-1]), (*step.sets, *step.ways), step.id)
    return is_complete(step, rounds, also | spared | ended(log_choices.choices_of(told[CHOSEN]), step.id))


def is_done_but_for_its_state(session: Reader, member_id: str, step: MemberStepRow) -> bool:
    """Whether a step is planned still although it was begun and no other set of it is asked for."""
    begun = step.state == "planned" and bool(log_sets.planned_rounds_done(session, step.id))
    return begun and _is_complete(session, member_id, step)
