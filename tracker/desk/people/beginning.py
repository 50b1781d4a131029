"""How somebody begins: a name, a unit, a place and perhaps one rep-max, written in one act or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.people import first_session, people, places
from tracker.desk.people.first_session import FirstLift
from tracker.desk.people.ready_places import FirstPlace, ready_place
from tracker.errors import BadInputError, together
from tracker.limits import MOST_RM
from tracker.log import kit as log_kit
from tracker.log import members as log_members
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import waves as log_waves
from tracker.log.records import Implement, KitItemRecord, MemberRecord, PlaceRecord
from tracker.log.unit_of_work import Act, Log
from tracker.log.waves import OWN, NewStep
from tracker.prescription.kit import POUND_KIT, STANDARD_KIT
from tracker.units import Mass, Unit, check_load, parse_mass, plain

COMMON_LIFTS = (
    "front squat", "back squat", "deadlift", "press", "bench press", "push press", "power clean", "overhead squat",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class FirstMax:
    """One rep-max that somebody brings along: tested, or a guess (declared)."""

    lift: str
    reps: int
    load: Mass
    tested: bool
    implement: Implement = "barbell"
    day: date | None = None  # of the test; none: the day of beginning


def gym(unit: Unit) -> FirstPlace:
    """Return a common gym: two bars and common discs of the unit, as many as needed, and the usual fixed weights."""
    return ready_place("gym", unit)


def home(unit: Unit, *, bar: bool, dumbbells: Sequence[Mass] = ()) -> FirstPlace:
    """Return a home with a common bar and discs, or with the dumbbells that were named; what is not so is mended under Kit."""
    kit = POUND_KIT if unit == "lb" else STANDARD_KIT
    bells = tuple(KitItemRecord("", "dumbbell", plain(mass.amount), mass, 2) for mass in dumbbells)
    return FirstPlace("Home", unit, (*(places.items_of(kit) if bar else ()), *bells), alone=True, pins=False)


def masses_of(text: str, unit: Unit, *, where: str) -> tuple[Mass, ...]:
    """Read masses parted by space, such as `10 12.5 35lb`; lightest first, each once.

    Raises:
        BadInputError: if one of them is no mass; it says which.
    """
    found = {
        check_load(parse_mass(word.strip(",;"), unit=unit, where=f"{where}, {word!r}"), where=f"{where}, {word!r}")
        for word in text.split()
        if word.strip(",;")
    }
    return tuple(sorted(found, key=lambda mass: mass.kg))


@may("run")
def begin(
    log: Log, name: str, unit: Unit, place: FirstPlace | None = None, first: FirstMax | None = None, *, day: date,
    lifts: Sequence[FirstLift] = (),
) -> MemberRecord:  # fmt: skip
    """Write a first member with place and rep-max, all of it or nothing; with `lifts` also a first session of them for `day`.

    Raises:
        BadInputError: if anything can't be; nothing is written then.
    """
    name = people.free_name(log, name)
    if place:
        places.check_items(place.items)
    if first:
        check_first(first)
    with log.act(f"began with {name}") as act:
        here = _settle(act, log, place)  # before the member, so that undo takes the member back first
        member = act.member_id = log_members.add_member(act, name, unit).id
        if place and here:
            bars = here.of_kind("bar")
            log_members.change_member(
                act, member, place_id=here.id, bar_id=bars[0].id if bars else None, alone=place.alone
            )
        if first:
            lift = _lift(act, first.lift, first.implement)
            source = "tested" if first.tested else "declared"
            log_rep_maxes.add_rep_max(act, member, lift, first.day or day, first.reps, first.load, source)
        if lifts:
            _lay_out(act, member, lifts, unit, place, first, day)
        else:
            implement: Implement = "dumbbells" if here and not here.of_kind("bar") else "barbell"
            for common in COMMON_LIFTS[:4]:
                _lift(act, common, implement)
        return log_members.change_member(act, member)


def _lay_out(
    act: Act, member_id: str, lifts: Sequence[FirstLift], unit: Unit, place: FirstPlace | None, first: FirstMax | None, day: date
) -> None:  # fmt: skip
    """Put a first session into the member's calendar, as a plan of their own of one day."""
    ids = {each: _lift(act, each.name, each.implement) for each in lifts}
    known = (first.lift, first.reps, first.load) if first else None
    asked = first_session.first_session(lifts, unit, place, known)
    sets = first_session.planned(asked, ids, first.reps if first else None)
    taken = log_waves.titles(act.session)
    name = next(each for n in range(1, 1000) if (each := _numbered(f"{OWN}{day.isoformat()}", n)) not in taken)
    wave = log_waves.add_wave(act, name, [NewStep(first_session.TITLE, 0, sets)], private_to=member_id)
    log_waves.start_wave(act, member_id, wave, day)


def check_first(first: FirstMax) -> FirstMax:
    """Return a rep-max that can be.

    Raises:
        BadInputError: with the field and the way to mend it.
    """
    together(
        lambda: people.clean_name(first.lift, "lift"),
        lambda: _check_reps(first.reps),
        lambda: check_load(first.load, where="rep-max"),
        lambda: people.check_day(first.day) if first.day else None,
    )
    return first


def _check_reps(reps: int) -> None:
    if not 1 <= reps <= MOST_RM:
        raise BadInputError(f"A {reps}RM can't be.", where="repetitions", mend="Write 1 to 30.")


def _settle(act: Act, log: Log, place: FirstPlace | None) -> PlaceRecord | None:
    if place is None:
        return None
    known = {each.name.casefold() for each in places.places(log)}
    number = next(n for n in range(1, 1000) if _numbered(place.name, n).casefold() not in known)
    return log_kit.add_place(act, _numbered(place.name, number), place.unit, pins=place.pins, items=place.items)


def _numbered(name: str, number: int) -> str:
    return name if number == 1 else f"{name} {number}"


def _lift(act: Act, name: str, implement: Implement) -> str:
    name = people.clean_name(name, "lift").lower()
    known = log_members.lifts(act.session)
    found = next((each for each in known if each.name == name and each.implement == implement), None)
    return (found or log_members.add_lift(act, name, implement, **people.facts_of(name, implement))).id
