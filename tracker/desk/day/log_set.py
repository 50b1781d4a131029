"""A set is logged, mended, moved and removed here: by Today, by `/day/` and by the journal.

Several sets in one act come by `from_memory` (as planned), `coach.from_message` (told to the coach), `coach.write_result`
(a result) and `files.import_sets` (a file); all of them end in `log.sets`, a file for its number of rows in `log.bulk`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from tracker.desk.base.roles import may
from tracker.desk.day import max_of_set
from tracker.desk.day.step_state import finish_if_done, reopened
from tracker.desk.people.people import check_body_mass, check_day
from tracker.errors import BadInputError, TidemarkError, together
from tracker.limits import MOST_NOTE, MOST_REPS
from tracker.log import members as log_members
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import sets as log_sets
from tracker.log.faults import ThereAlreadyError
from tracker.log.records import LiftRecord, SetRow
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log, Reader
from tracker.strength.outcomes import set_in_words
from tracker.units import Mass, check_load, short

SLIP_LOW, SLIP_HIGH = 1.9, 2.6  # around 2.2046, the ratio of a kilogram number to the same number in pounds
DIGIT = 5.0  # so many times the usual is a point or a digit gone wrong
HEAVIER, LIGHTER = Decimal("1.5"), Decimal("0.7")  # so far beyond all that was ever done
SLIP_SETS = 12  # how many of the newest sets tell what is usual


def _said(one: NewSet | SetRow) -> str:
    return set_in_words(one.reps, short(one.load), one.outcome)


class UnitSlipError(TidemarkError):
    """The load looks like pounds typed as kilograms, the other way round, or like a digit too many: asked, not refused."""

    def __init__(self, load: Mass, usual: Mass) -> None:
        other = "lb" if load.unit == "kg" else "kg"
        ratio = load.kg / usual.kg
        asked = f"Was it {load.amount} {other}?" if ratio <= SLIP_HIGH else "Is there a digit too many?"
        super().__init__(
            f"{load} is about {float(ratio):.1f} times the usual {usual}. {asked}",
            where="load",
            mend="Correct the load, or log it as it is.",
        )
        self.load, self.usual = load, usual


class ChangedMeanwhileError(TidemarkError):
    """A set was changed elsewhere after it was shown, so saving would overwrite a change that nobody here saw."""

    def __init__(self, now: SetRow, new: NewSet) -> None:
        super().__init__(
            f"This set was changed meanwhile: it is now {_said(now)}. Yours, {_said(new)}, was not saved.",
            where="set",
            mend="Look at it as it is now, and change it again if need be.",
        )
        self.now = now


def _reserve_can_be(rir: Decimal) -> bool:
    return rir.is_finite() and 0 <= rir <= 20 and rir * 2 == int(rir * 2)


def check_set(new: NewSet, lift: LiftRecord) -> NewSet:
    """Return `new` if it can have happened.

    Raises:
        BadInputError: with the field and the way to mend it.
    """
    together(
        lambda: check_load(new.load, where="load", assistance=lift.body),
        lambda: _check_reps(new),
        lambda: _check_reserve(new.rir),
        lambda: check_note(new.note),
    )
    return new


def _check_reps(new: NewSet) -> None:
    if not 0 <= new.reps <= MOST_REPS:
        raise BadInputError(
            f"{new.reps} repetitions can't be.", where="repetitions", mend=f"Write a whole number up to {MOST_REPS}."
        )
    if new.outcome == "done" and new.reps == 0:
        raise BadInputError(
            "A set that was done has at least one repetition.",
            where="repetitions",
            mend="If the first one failed, say missed.",
        )


def _check_reserve(rir: Decimal | None) -> None:
    if rir is not None and not _reserve_can_be(rir):
        raise BadInputError(
            f"{rir} repetitions in reserve can't be.",
            where="in reserve",
            mend="Write 0 to 20, halves allowed, or leave it blank.",
        )


def check_note(note: str) -> None:
    if len(note) > MOST_NOTE:
        what = f"The note has {len(note):,} letters."
        raise BadInputError(what, where="note", mend=f"Use at most {MOST_NOTE:,}.")


@may("change")
def log_set(
    log: Log,
    member_id: str,
    day: date,
    new: NewSet,
    *,
    token: str | None = None,
    sure: bool = False,
    weighed: bool = False,
) -> SetRow:
    """Log one set; when this returns, the set is on the disk.

    Args:
        log: The log.
        member_id: Whose set it is.
        day: The day it was done.
        new: The set.
        token: Made when the form was drawn; the same token a second time is the same set and is logged once.
        sure: The person was asked about a load that looks like the other unit, and means it.
        weighed: Its body mass was typed now, so it is kept as that of the day as well, in the same act.

    Raises:
        BadInputError: if it can't have happened.
        UnitSlipError: if the load is about 2.2 times the usual, less than half or more than five times of it, and nobody
            said `sure`.
    """
    check_day(day)
    with log.reading() as session:
        if token and (known := log_sets.set_with_token(session, token)):
            return known
        weight = check_body_mass(Mass(new.body_mass, new.load.unit)) if weighed and new.body_mass is not None else None
        member = log_members.member(session, member_id)
        lift = log_members.lift(session, new.lift_id)
        if member is None or lift is None:
            raise BadInputError(
                "The member or the lift is not in this log.", where="member", mend="Choose one from the list."
            )
        new = with_body_mass(new, lift, log_members.body_masses(session, member_id) if lift.body else (), day)
        check_set(new, lift)
        if not sure and new.kind != "ramp":
            known = _hold_to_usual(session, member_id, new, day)
            maxes = () if known else log_rep_maxes.rep_maxes(session, member_id, lift.id)
            most = max((row.load for row in maxes), key=lambda load: load.kg, default=None)
            if most and new.load.kg > most.kg:  # below a max anything can be meant
                _ask_about_slip(new.load, (most,))
    try:
        with log.act(f"logged {lift.title}: {_said(new)}", member_id, own=True) as act:
            if weight is not None:
                log_members.put_body_mass(act, member_id, day, weight)
            set_id = log_sets.add_set(act, member_id, day, new, token=token, place_id=member.place_id)
            log_sets.settle_attempts_with(act, set_id)
            if new.member_step_id:
                finish_if_done(act, member_id, new.member_step_id, by=new.planned_set_id)
            row = log_sets.set_written(act, set_id, lift)
    except ThereAlreadyError:  # the same tap came twice at once: the other one won
        with log.reading() as session:
            known = log_sets.set_with_token(session, token) if token else None
        if known is None:
            raise
        return known
    return row


def with_body_mass(new: NewSet, lift: LiftRecord, known: tuple[tuple[date, Mass], ...], day: date) -> NewSet:
    """Return a set of a lift that lifts the body with the body mass of the day; another one as it is.

    Raises:
        BadInputError: if no body mass is known.
    """
    if not lift.body or new.body_mass is not None:
        return new
    earlier = [mass for when, mass in known if when <= day] or [mass for _, mass in known[:1]]
    if not earlier:
        raise BadInputError(
            f"{lift.name} lifts the body, and no body mass is known.",
            where="body mass",
            mend="Enter it once; it is kept with its date.",
        )
    return replace(new, body_mass=earlier[-1].to(new.load.unit).quantize(Decimal("0.1")))


def _hold_to_usual(session: Reader, member_id: str, new: NewSet, day: date, *, but: str = "") -> bool:
    """Ask about a load that the member's other sets of this lift make unlikely; tell whether there are any.

    The newest tell what is usual; only where the load is far from that all are read.
    """
    newest = log_sets.working_loads(session, member_id, new.lift_id, day, limit=SLIP_SETS, but=but)
    if not any(mass.kg > 0 for mass in newest) or _is_far(new.load, _usual(newest)):
        _ask_about_slip(new.load, log_sets.working_loads(session, member_id, new.lift_id, day, but=but))
    return bool(newest)


def _usual(newest: tuple[Mass, ...]) -> Mass:
    """Return the load in the middle of the newest ones that are more than nothing."""
    loads = sorted((mass for mass in newest if mass.kg > 0), key=lambda mass: mass.kg)
    return loads[len(loads) // 2]


def _is_far(load: Mass, usual: Mass) -> bool:
    ratio = float(load.kg / usual.kg)
    return SLIP_LOW <= ratio <= SLIP_HIGH or ratio >= DIGIT or 1 / SLIP_HIGH <= ratio <= 1 / SLIP_LOW


def _ask_about_slip(load: Mass, earlier: tuple[Mass, ...]) -> None:
    """Ask where a load lies outside all earlier ones by a margin and about the ratio of the two units from the usual.

    Five times the usual and more is asked about as well.
    """
    known = sorted((mass for mass in earlier if mass.kg > 0), key=lambda mass: mass.kg)
    if not known or load.kg <= 0:
        return
    newest = earlier[-SLIP_SETS:]
    usual = _usual(newest if any(mass.kg > 0 for mass in newest) else earlier)
    ratio = float(load.kg / usual.kg)
    too_heavy = (SLIP_LOW <= ratio <= SLIP_HIGH or ratio >= DIGIT) and load.kg > known[-1].kg * HEAVIER
    too_light = 1 / SLIP_HIGH <= ratio <= 1 / SLIP_LOW and load.kg < known[0].kg * LIGHTER
    if too_heavy or too_light:
        raise UnitSlipError(load, usual)


@dataclass(frozen=True, slots=True)
class Asked:
    """Loads of a lift that are asked about before they are logged: `spans` in kilograms, both ends included."""

    usual: Mass
    spans: tuple[tuple[float, float | None], ...]


@may("see")
def asked_about(log: Log, member_id: str, lift_id: str, day: date) -> Asked | None:
    """Return the loads that `log_set` would ask about; None where nothing says what is usual."""
    with log.reading() as session:
        earlier = log_sets.working_loads(session, member_id, lift_id, day)
        if not earlier:
            maxes = log_rep_maxes.rep_maxes(session, member_id, lift_id)
            earlier = (max((row.load for row in maxes), key=lambda load: load.kg),) if maxes else ()
            # below a max anything can be meant
            known, lightest = sorted(float(mass.kg) for mass in earlier), 0.0
        else:
            known = sorted(float(mass.kg) for mass in earlier if mass.kg > 0)
            lightest = known[0] * float(LIGHTER) if known else 0.0
    if not known or known[-1] <= 0:
        return None
    newest = earlier[-SLIP_SETS:]
    usual = _usual(newest if any(mass.kg > 0 for mass in newest) else earlier)
    of, heavy = float(usual.kg), known[-1] * float(HEAVIER)
    spans = (
        (of / SLIP_HIGH, min(of / SLIP_LOW, lightest)),
        (max(of * SLIP_LOW, heavy), of * SLIP_HIGH),
        (max(of * DIGIT, heavy), None),
    )
    return Asked(usual, tuple((low, high) for low, high in spans if high is None or low < high))


@may("change")
def mend_set(
    log: Log, set_id: str, new: NewSet, *, sure: bool = False, seen: SetRow | None = None, keep_max: bool = False
) -> SetRow:
    """Give a set other values; the former ones stay in the history.

    Args:
        log: The log.
        set_id: Which set.
        new: Its values from now on.
        sure: The person was asked about a load that looks like the other unit, and means it.
        seen: The set as the person saw it; where it is another by now, nothing is saved.
        keep_max: The max that it became by a yes stays, though the set does not bear it any more.

    Raises:
        BadInputError: if it can't have happened, or the set is not in the log any more.
        ChangedMeanwhileError: if it is not as it was seen.
    """
    with log.reading() as session:
        row = log_sets.one_set(session, set_id)
        lift = log_members.lift(session, new.lift_id)
        if row is None or row.removed_at or lift is None:
            raise BadInputError("This set is not in the log any more.", where="set", mend="Reload the page.")
        new = with_body_mass(new, lift, log_members.body_masses(session, row.member_id) if lift.body else (), row.day)
        check_set(new, lift)
        if not sure and new.kind != "ramp" and new.load != row.load:
            _hold_to_usual(session, row.member_id, new, row.day, but=set_id)
    with log.act(f"edited {row.lift.title}: {_said(row)}", row.member_id, own=True) as act:
        now = log_sets.one_set(act.session, set_id)
        if seen is not None and now is not None and as_new(now) != as_new(seen):
            raise ChangedMeanwhileError(now, new)
        log_sets.change_set(act, set_id, new)
        if not keep_max:
            act.words += max_of_set.mended(act, row, new)
        if new.kind == row.kind:  # else somebody says what it was
            log_sets.settle_attempts_with(act, set_id)
        return log_sets.set_written(act, set_id, lift)


def as_new(row: SetRow) -> NewSet:
    """Return the values of a set, to be changed and handed to `mend_set`."""
    return NewSet(
        lift_id=row.lift.id,
        load=row.load,
        reps=row.reps,
        rir=row.rir,
        outcome=row.outcome,
        kind=row.kind,
        body_mass=row.body_mass.amount if row.body_mass else None,
        left_out=row.left_out,
        note=row.note,
        planned_set_id=row.planned_set_id,
        planned_round=row.planned_round,
        member_step_id=row.member_step_id,
        per_side=row.per_side,
    )


@may("change")
def move_set(log: Log, set_id: str, member_id: str, day: date | None = None, *, today: date) -> None:
    """Give a set to the member who really did it, or to the day it was really done; `today` is the reader's."""
    with log.reading() as session:
        row = log_sets.one_set(session, set_id)
        target = log_members.member(session, member_id)
    if row is None or row.removed_at or target is None:
        raise BadInputError("This set or member is not in the log any more.", where="set", mend="Reload the page.")
    check_day(day or row.day)
    words = f"moved {row.lift.title}: {_said(row)} to {target.name}"
    with log.act(words, row.member_id) as act, reopened(act, [row], today):
        act.words += max_of_set.moved(act, row, member_id, day or row.day)
        log_sets.move_set(act, set_id, member_id, day or row.day)
        log_sets.settle_attempts(act, row)


@may("change")
def remove_set(log: Log, set_id: str, *, today: date, keep_max: bool = False) -> None:
    """Remove a set; it can be taken back. A step that it had finished is open again where it is of the reader's `today`.

    The max that it became by a yes goes with it, unless it is to stay (`keep_max`).
    """
    with log.reading() as session:
        row = log_sets.one_set(session, set_id)
    if row is None or row.removed_at:
        raise BadInputError("This set is not in the log any more.", where="set", mend="Reload the page.")
    words = f"removed {row.lift.title}: {_said(row)}"
    with log.act(words, row.member_id, own=True) as act, reopened(act, [row], today):
        log_sets.remove_set(act, set_id)
        if not keep_max:
            act.words += max_of_set.removed(act, row)
        log_sets.settle_attempts(act, row)
