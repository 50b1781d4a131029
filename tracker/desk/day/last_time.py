"""Last time: what a member did of a lift or a piece before the day, and what it would take to beat it.

What beats last time is said where it is within reach (at least one in two by the member's own estimate; design choice) and
never on an easy day. It takes nothing off what the coach asks, and it is no advice to do more than that.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from tracker.conditioning.load import days_off_before
from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day.more_words import on_day_words, sets_words
from tracker.desk.maxes import estimates
from tracker.desk.maxes.estimates import LiftHistory
from tracker.desk.maxes.little import rests_on_little
from tracker.desk.maxes.words import first_up, in_unit_words, load_words, reps_words
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log.records import LiftRecord, SetRow
from tracker.log.unit_of_work import Log, Reader
from tracker.prescription.rounding import lay_off
from tracker.units import Mass, Unit

WITHIN_REACH = 0.5  # design choice: as likely as not
MORE = 3  # repetitions above what is asked; more of them is another kind of set. Design choice
MOST_BEATEN = 12  # a set of more repetitions says little of strength, and its chance is little known
EASY = re.compile(r"\b(deload|de-load|easy|recovery|light|taper|back[- ]?off week)\b", re.IGNORECASE)

AS_ASKED = "Done as asked, it is more than last time."
WITH_THIS = "Done with this load, it is more than last time."


@dataclass(frozen=True, slots=True)
class LastTime:
    """The sets of a lift on the last day before, ramp sets left aside, in their order."""

    day: date
    sets: tuple[SetRow, ...]
    session_note: str = ""

    @property
    def notes(self) -> tuple[str, ...]:
        """What was noted at the sets, then of the whole session; each once."""
        return tuple(dict.fromkeys(each for each in (*(row.note for row in self.sets), self.session_note) if each))

    def words(self, today: date, unit: Unit | None = None) -> str:
        """Say it in a line: `Last time, Tue 24 Nov: 3 sets of 5 × 60 kg, 2 left`; about what that is in another `unit`."""
        when = on_day_words(self.day, today).removeprefix("on ")
        heaviest = max(self.sets, key=lambda row: row.load.kg)
        about = in_unit_words(heaviest, unit) if unit else ""
        return f"Last time, {when}: {sets_words(self.sets)}{f' ({about})' if about else ''}."

    @property
    def note_words(self) -> str:
        return f"You noted: {' / '.join(self.notes)}" if self.notes else ""


@dataclass(frozen=True, slots=True)
class Beat:
    """The least that is more than last time, and how likely it is; `as_asked`: the set that is asked for is that."""

    reps: int
    load: Mass
    chance: float
    as_asked: bool
    words: str


def read_last(session: Reader, member_id: str, lift_ids: Collection[str], day: date) -> dict[str, LastTime]:
    """Read for each lift what was done of it on the last day before `day`, in a reading of whoever asks."""
    newest = log_sets.newest_days(session, member_id, lift_ids, before=day)
    found: dict[str, LastTime] = {}
    for lift_id, when in newest.items():
        rows = log_sets.sets_of(session, member_id, lift_id=lift_id, since=when, until=when)
        done = tuple(row for row in rows if row.kind != "ramp")
        if done:
            notes = {row.id: row.note for row in log_sessions.sessions_on(session, member_id, when)}
            found[lift_id] = LastTime(when, done, notes.get(done[-1].session_id, ""))
    return found


@may("see")
@cached_until_write
def free_words(
    log: Log, member_id: str, lift: LiftRecord, day: date, *, next_load: Mass | None = None, unit: Unit | None = None
) -> tuple[str, ...]:
    """Say of a lift that nobody planned what was done of it last time, and what beats that where the estimate is at hand."""
    with log.reading() as session:
        last = read_last(session, member_id, [lift.id], day).get(lift.id)
        off = days_off_before(log_sessions.training_days(session, member_id, day), day)
    if last is None:
        return ()
    at_hand = not lay_off(off).words
    one = free_beat(last, estimates.history(log, member_id, lift), day, next_load=next_load) if at_hand else None
    return said(last, one, day, unit)


def is_easy(title: str, text: str = "") -> bool:
    """Tell whether a session is called an easy one by whoever wrote it."""
    return bool(EASY.search(title) or EASY.search(text.partition("\n")[0]))


def beat(
    last: LastTime, history: LiftHistory, day: date, *, reps: int, load: Mass, sets_before: int = 0
) -> Beat | None:
    """Tell what it takes with `load` to have done more than last time, where that is within reach.

    More is: one repetition more than any set of last time with that load or a heavier one.

    Args:
        last: What was done last time.
        history: The lift's history with its model.
        day: Today.
        reps: Repetitions that are asked for; more than these by a few is within reach at most.
        load: What is loaded.
        sets_before: Sets of the lift that are done today.
    """
    most = max((row.reps for row in last.sets if row.load.kg >= load.kg), default=0)
    wanted = most + 1
    if history.model is None or rests_on_little(history, day) or wanted > min(reps + MORE, MOST_BEATEN):
        return None
    as_asked = wanted <= reps
    chance = history.model.chance(
        history.moved_kg(load, day), reps if as_asked else wanted, day=day, sets_before=sets_before
    )
    if chance < WITHIN_REACH:
        return None
    return Beat(
        wanted, load, chance, as_asked, _words(history.lift, reps if as_asked else wanted, load, chance, as_asked)
    )


def _words(lift: LiftRecord, reps: int, load: Mass, chance: float, as_asked: bool) -> str:
    if as_asked:
        return AS_ASKED
    likely = f"{min(round(chance * 100), 99)} % likely"
    return f"To beat last time: {reps_words(reps, each_side=lift.per_side)} × {load_words(load, lift)}, {likely}."


def said(last: LastTime | None, beaten: Beat | None, today: date, unit: Unit | None = None) -> tuple[str, ...]:
    """Return the lines of a card: what was done, what was noted, and what beats it."""
    if last is None:
        return ()
    lines = (last.words(today, unit), last.note_words, beaten.words if beaten else "")
    return tuple(first_up(each) for each in lines if each)


def free_beat(
    last: LastTime | None, history: LiftHistory, day: date, *, next_load: Mass | None, sets_before: int = 0
) -> Beat | None:
    """Tell what beats last time where nothing is asked for: one repetition more, or the next load; whichever is likelier."""
    if last is None:
        return None
    best = max(last.sets, key=lambda row: (row.moved_kg, row.reps))
    ways = [(best.reps, best.load)] + ([(max(best.reps - 1, 0), next_load)] if next_load and best.reps else [])
    found = [beat(last, history, day, reps=reps, load=load, sets_before=sets_before) for reps, load in ways]
    known = [each for each in found if each is not None]
    return max(known, key=lambda each: each.chance, default=None)


def of_lines(
    last: Mapping[str, LastTime],
    histories: Mapping[str, LiftHistory],
    day: date,
    wanted: Sequence[tuple[str, str, int, Mass, int]],
    *,
    changed: Collection[str] = (),
) -> dict[str, Beat]:
    """Work out what beats last time for lines: key, lift, repetitions, load and sets before of each.

    Those of `changed` keys are done with another load than asked, and are not called as asked.
    """
    found: dict[str, Beat] = {}
    for key, lift_id, reps, load, before in wanted:
        if lift_id in last and lift_id in histories:
            one = beat(last[lift_id], histories[lift_id], day, reps=reps, load=load, sets_before=before)
            if one:
                found[key] = replace(one, words=WITH_THIS) if one.as_asked and key in changed else one
    return found
