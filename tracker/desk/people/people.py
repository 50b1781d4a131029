"""Members, what they prefer, their body mass, and the lifts of the log."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime, timedelta
from typing import TypedDict

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.errors import BadInputError
from tracker.exchange.lift_title import named
from tracker.limits import LEAST_BODY_KG, MOST_BODY_KG, MOST_NAME
from tracker.log import choices as log_choices
from tracker.log import kit as log_kit
from tracker.log import members as log_members
from tracker.log.lookalikes import skeleton
from tracker.log.records import Implement, LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.units import Mass, Unit

MOST_OF_HOUSEHOLD = 6  # members, in the order in which they began; design choice
BODY_MASS_DAYS = 31  # an older body mass is asked about; design choice
MOST_LETTERS = MOST_NAME  # on pages, in files and in results alike
FIRST_TO_WAKE = timedelta(hours=14)  # a day begins on Kiritimati, so far ahead of UTC (tz database)
SPOTTED_WORDS = ("squat", "bench", "press")  # lifts under a bar that want pins or a spotter; common practice
IMPLEMENTS: dict[Implement, str] = {
    "barbell": "barbell",
    "dumbbells": "two dumbbells",
    "dumbbell": "one dumbbell",
    "kettlebells": "two kettlebells",
    "kettlebell": "one kettlebell",
    "machine": "machine or cable",
    "body": "body mass, plus or minus load",
    "other": "something else",
}


def clean_name(text: str, what: str) -> str:
    """Return a name without surplus space.

    Raises:
        BadInputError: if it is empty, longer than 200 letters or holds control characters.
    """
    name = " ".join(text.split())
    if not name:
        raise BadInputError(f"The {what} has no name.", where=what, mend="Type a name.")
    if len(name) > MOST_LETTERS:
        raise BadInputError(f"The name has {len(name)} letters.", where=what, mend=f"Use at most {MOST_LETTERS}.")
    if not name.isprintable():
        raise BadInputError(
            "The name holds signs that can't be shown.", where=what, mend="Use letters, digits and spaces."
        )
    return name


@may("common")
@cached_until_write
def members(log: Log) -> tuple[MemberRecord, ...]:
    """List all members by name."""
    with log.reading() as session:
        return log_members.members(session)


def of_household(known: tuple[MemberRecord, ...]) -> tuple[MemberRecord, ...]:
    """Order the members of a household: whoever began the log first, whom an address without a name opens; many stay by name."""
    if len(known) > MOST_OF_HOUSEHOLD:
        return known
    return tuple(sorted(known, key=lambda each: (each.began or datetime.max.replace(tzinfo=UTC), each.name)))


@may("run")
def members_named(log: Log) -> tuple[MemberRecord, ...]:
    """List all members, for the owner who says who signs in."""
    return members(log)


@may("see")
def member(log: Log, member_id: str) -> MemberRecord | None:
    """Return one member, or None where there is none (any more)."""
    with log.reading() as session:
        return log_members.member(session, member_id)


@may("run")
def add_member(log: Log, name: str, unit: Unit = "kg") -> MemberRecord:
    """Add a member.

    Raises:
        BadInputError: if the name is empty, too long or taken.
    """
    name = free_name(log, name)
    with log.act(f"added the member {name}") as act:
        made = log_members.add_member(act, name, unit)
        act.member_id = made.id
        return made


@may("change")
def prefer(
    log: Log,
    member_id: str,
    *,
    name: str,
    unit: Unit,
    place_id: str | None,
    no_heavy: bool,
    minor: bool,
    alone: bool,
) -> MemberRecord:
    """Change a member's name and preferences."""
    name = clean_name(name, "member")
    _free(log, name, but=member_id)
    with log.act("changed preferences", member_id, own=True) as act:
        return log_members.change_member(
            act, member_id, name=name, unit=unit, place_id=place_id, no_heavy=no_heavy, minor=minor, alone=alone
        )


@may("change")
def go_to_place(log: Log, member_id: str, place_id: str | None) -> MemberRecord:
    """Say where the member trains now; the first bar of the place is taken."""
    with log.act("changed place", member_id, own=True) as act:
        found = log_kit.place(act.session, place_id) if place_id else None
        bars = found.of_kind("bar") if found else ()
        log_choices.keep_place(act, member_id)
        return log_members.change_member(act, member_id, place_id=place_id, bar_id=bars[0].id if bars else None)


@may("change")
def take_bar(log: Log, member_id: str, bar_id: str) -> MemberRecord:
    """Take another bar of the place, because it is free or better."""
    with log.act("took another bar", member_id, own=True) as act:
        return log_members.change_member(act, member_id, bar_id=bar_id)


@may("common")
def free_name(log: Log, name: str) -> str:
    """Return a member's name without surplus space.

    Raises:
        BadInputError: if it is empty, too long or taken.
    """
    name = clean_name(name, "member")
    _free(log, name)
    return name


def _free(log: Log, name: str, *, but: str = "") -> None:
    with log.reading() as session:
        known = dict(log_members.names(session))
    if known.pop(but, None) != name:  # who has it already keeps it
        check_free(name, known.values())


def check_free(name: str, known: Iterable[str]) -> None:
    """Refuse the name of a member that is taken, or that looks like one: nobody must pass for somebody else.

    Raises:
        BadInputError: if it is.
    """
    looks = skeleton(name)
    for each in known:
        if each.casefold() == name.casefold():
            mend = "Use another name, such as one with an initial."
            raise BadInputError(f"There is a member {name} already.", where="member", mend=mend)
        if skeleton(each) == looks:
            mend = "Write it in other letters, or add an initial."
            raise BadInputError("The name looks like that of another member.", where="member", mend=mend)


@may("common")
def lifts(log: Log, member_id: str | None = None) -> tuple[LiftRecord, ...]:
    """List the lifts that a member can choose from: the gym's and their own."""
    with log.reading() as session:
        return log_members.lifts(session, member_id)


@may("common")
def add_lift(
    log: Log, name: str, implement: Implement, *, per_side: bool = False, member_id: str | None = None
) -> LiftRecord:
    """Add a lift with its implement, or return it where it is known already; a name may hold the implement too."""
    name = clean_name(named(name, implement)[0], "lift").lower()
    for known in lifts(log, member_id):
        if known.name.casefold() == name and known.implement == implement:
            return known
    with log.act(f"added the lift {name}", member_id) as act:
        return log_members.add_lift(act, name, implement, per_side=per_side, **facts_of(name, implement))


class LiftFacts(TypedDict):
    """What follows from a lift's name and implement."""

    implements: int
    body: bool
    spotted: bool


def facts_of(name: str, implement: str) -> LiftFacts:
    """Tell how many implements are held, whether the body is lifted, and whether it wants a spotter or pins."""
    return {
        "implements": 2 if implement in ("dumbbells", "kettlebells") else 1,
        "body": implement == "body",
        "spotted": implement == "barbell" and any(word in name.lower() for word in SPOTTED_WORDS),
    }


@may("common")
def say_implement(log: Log, lift_id: str, implement: Implement, member_id: str | None = None) -> LiftRecord:
    """Say once which implement an imported lift is done with.

    Raises:
        BadInputError: if the same lift with that implement exists; its sets are a history of their own.
    """
    found = next((each for each in lifts(log, member_id) if each.id == lift_id), None)
    if found is None:
        raise BadInputError("This lift is not in the log any more.", where="lift", mend="Reload the page.")
    if any(each.name == found.name and each.implement == implement for each in lifts(log, member_id)):
        raise BadInputError(
            f"{found.name}, {implement} is in the log already.", where="lift", mend="Rename one of the two first."
        )
    with log.act(f"said that {found.name} is done with: {IMPLEMENTS[implement]}", member_id) as act:
        facts = facts_of(found.name, implement)
        return log_members.change_lift(
            act,
            lift_id,
            implement=implement,
            implements=facts["implements"],
            body=facts["body"],
            spotted=facts["spotted"],
        )


@may("see")
def body_masses(log: Log, member_id: str) -> tuple[tuple[date, Mass], ...]:
    """List a member's dated body masses, oldest first."""
    with log.reading() as session:
        return log_members.body_masses(session, member_id)


def body_mass_asked(known: Sequence[tuple[date, Mass]], day: date) -> str:
    """Say that the body mass is to be typed anew, where it is older than a month or unknown; else an empty text."""
    earlier = [(when, mass) for when, mass in known if when <= day]
    if not earlier:
        return "No body mass is known: enter it once." if not known else ""
    when, mass = earlier[-1]
    if (day - when).days <= BODY_MASS_DAYS:
        return ""
    return f"Your body mass is of {when.day} {when:%b %Y}, {round(mass.amount)} {mass.unit}: type today's if it has changed."


def body_mass_on(entries: tuple[tuple[date, Mass], ...], day: date) -> Mass | None:
    """Return the newest body mass known on `day`, else the first one known after it."""
    earlier = [mass for when, mass in entries if when <= day]
    return earlier[-1] if earlier else entries[0][1] if entries else None


@may("change")
def weigh(log: Log, member_id: str, day: date, mass: Mass) -> None:
    """Record a member's body mass.

    Raises:
        BadInputError: if it is not between 25 and 350 kg, or the day is ahead.
    """
    check_day(day)
    check_body_mass(mass)
    with log.act("recorded body mass", member_id, own=True) as act:
        log_members.put_body_mass(act, member_id, day, mass)


def check_body_mass(mass: Mass) -> Mass:
    """Return a body mass that can be.

    Raises:
        BadInputError: if it is not between 25 and 350 kg.
    """
    if not mass.amount.is_finite() or not LEAST_BODY_KG <= mass.kg <= MOST_BODY_KG:
        raise BadInputError(
            f"A body mass of {mass} can't be.", where="body mass", mend="Check the number and its unit."
        )
    return mass


@may("change")
def unweigh(log: Log, member_id: str, day: date) -> None:
    """Remove the body mass of a day; undo brings it back.

    Raises:
        BadInputError: if there is none on that day.
    """
    with log.act(f"removed the body mass of {day.isoformat()}", member_id, own=True) as act:
        if not log_members.remove_body_mass(act, member_id, day):
            raise BadInputError(f"There is no body mass of {day.isoformat()}.", where="date", mend="Reload the page.")


def latest_day(today: date | None = None) -> date:
    """Return the newest day that can have been trained on.

    It is the one after the reader's, for a traveller's calendar may be one ahead; where nobody said which day that is,
    the newest that it is anywhere.
    """
    return today + timedelta(days=1) if today else max((datetime.now(UTC) + FIRST_TO_WAKE).date(), date.today())


def check_day(day: date, *, today: date | None = None) -> date:
    """Return `day` unless it is still to come, see `latest_day`, or before 1950."""
    if day > latest_day(today):
        raise BadInputError(
            f"{day.isoformat()} is still to come.", where="date", mend="Log a set on the day it was done."
        )
    if day.year < 1950:
        raise BadInputError(f"{day.isoformat()} is too long ago.", where="date", mend="Check the year.")
    return day
