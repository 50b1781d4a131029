"""A sore place or a limited day: what the member says of it, and what the day leaves out or replaces because of it.

The day only offers. A lift that loads a sore place is left out or replaced where the member touches so, and a lift that
they marked as painful has no load until they say that it hurts no more. All of it ends by their word alone. It is nobody's
but theirs: entries of history that the second wall lets nobody else read, in no result, report, class page or load sheet
(those ask the log without it), and the words of its acts name no part of the body. It diagnoses nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from typing import Literal

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day.told import LIMIT, is_told_ill, limits_told
from tracker.desk.people import places
from tracker.desk.people.people import check_day
from tracker.desk.people.standing import is_standing
from tracker.errors import BadInputError
from tracker.log import by_hand
from tracker.log import choices as log_choices
from tracker.log import members as log_members
from tracker.log.by_hand import Entry
from tracker.log.records import LiftRecord, MemberRecord, PlaceRecord, PlannedSetRow, SetRow
from tracker.log.unit_of_work import SORE, Log, Reader
from tracker.prescription import illness
from tracker.prescription.body_parts import PARTS, Other, Part, concerned, instead_of

Place = Literal["limited day", "aching muscles", "ill"] | Part
LIMITED: Place = "limited day"
ACHES: Place = "aching muscles"
ILL: Place = "ill"
PLACES: tuple[Place, ...] = (*PARTS, LIMITED, ACHES, ILL)
ONE_BY_ONE = "one at a time, the repetitions on each side"
EASIER = 10  # per cent off where muscles ache and the member takes it easier; common practice
ACHES_SAID = (
    "Muscles that ache a day or three after training: nothing is withheld. Go easier if you like, warm up longer, and stop if it "
    "gets worse from set to set. Pain in a joint, or on one spot, is something else: mark that as painful. Very dark urine, "
    "swelling, or weakness out of proportion: no more training, medical care the same day."
)  # the signs after conditioning 7.6: dark urine and pain read in a secondary source, the rest from memory
ACHES_EASED = "{percent} % lower than asked: you said that your muscles ache."
How = Literal["leave", "keep", "instead"]
WORDS = "changed what the day offers"  # of every act here: the history of a shared screen names no part of the body
PAINFUL = (
    "You marked this as painful: no load is proposed. Leave it out, take something else, or say that it is good again."
)


FREE_PAINFUL = "You marked this as painful: no load is proposed. What you lifted all the same can be written down."


@dataclass(frozen=True, slots=True)
class Way:
    """What a member chose for a lift: to leave it out, to do it as planned, or to do another one instead."""

    how: How
    lift_id: str = ""


@dataclass(frozen=True, slots=True)
class SoreState:
    """What hurts, since when, which movements were marked as painful, and what was chosen for which lift."""

    since: Mapping[Place, date] = field(default_factory=dict[Place, date])
    painful: frozenset[str] = frozenset()  # names of movements, in small letters
    ways: Mapping[str, Way] = field(default_factory=dict[str, Way])  # by the name of a lift, in small letters
    hurt: frozenset[str] = frozenset()  # acts by which a lift was ended for its day because it hurt
    in_step: Mapping[tuple[str, str], Way] = field(
        default_factory=dict[tuple[str, str], Way]
    )  # by a member's step and the name of a lift: chosen for that session alone, sore or not
    was_ill: tuple[date, date] | None = None  # the first and the last day of the newest illness that is over
    eased: Mapping[date, int] = field(default_factory=dict[date, int])  # per cent off on a day, because muscles ache

    @property
    def parts(self) -> tuple[Part, ...]:
        return tuple(part for part in PARTS if part in self.since)

    @property
    def limited(self) -> bool:
        """Whether nothing is to be beaten: something is sore, or the day is a limited one."""
        return bool(self.since or self.painful)

    def is_painful(self, name: str) -> bool:
        return name.casefold() in self.painful

    @property
    def ill(self) -> bool:
        """Whether no load is offered at all."""
        return ILL in self.since

    @property
    def aches(self) -> bool:
        return ACHES in self.since

    def easier(self, day: date) -> int:
        """Return how many per cent are taken off on a day because muscles ache."""
        return self.eased.get(day, 0) if self.aches else 0

    def way(self, name: str, step_id: str = "") -> Way | None:
        """Return what was chosen for a lift: for that session, else for as long as something is sore."""
        return self.in_step.get((step_id, name.casefold())) or self.ways.get(name.casefold())


NOTHING_SORE = SoreState()


@dataclass(frozen=True, slots=True)
class Offer:
    """A lift of the day that loads a sore place or was marked as painful, and what could be done instead of it."""

    lift: LiftRecord
    parts: tuple[Part, ...]
    painful: bool
    way: Way | None
    others: tuple[Other, ...]

    @property
    def words(self) -> str:
        """Say why it is asked: `Back squat loads the knee`."""
        return _words(self.lift.name, self.parts, self.painful)


def words_of(name: str, sore: SoreState) -> str:
    """Say of a movement that it loads what is sore or was marked as painful, in the words of an offer; empty where neither."""
    parts, painful = concerned(name, sore.parts), sore.is_painful(name)
    return _words(name, parts, painful) if parts or painful else ""


def _words(name: str, parts: Sequence[Part], painful: bool) -> str:
    name = f"{name[:1].upper()}{name[1:]}"
    return f"{name}: you marked it as painful." if painful else f"{name} loads the {' and the '.join(parts)}."


def state_of(entries: Sequence[Entry]) -> SoreState:
    """Put together what a member said, the oldest first."""
    since: dict[Place, date] = {}
    painful: set[str] = set()
    ways: dict[str, Way] = {}
    hurt: set[str] = set()
    in_step: dict[tuple[str, str], Way] = {}
    was_ill: tuple[date, date] | None = None
    eased: dict[date, int] = {}
    for entry in entries:
        said = entry.said
        if entry.kind != SORE:
            continue
        place, name = said.get("place"), str(said.get("lift", ""))
        if "hurt" in said:
            hurt.add(entry.act_id)
        elif place in PLACES:
            if said.get("ended"):
                began = since.pop(place, None)
                if place == ILL and began is not None:
                    over = date.fromisoformat(str(said["day"])) if "day" in said else entry.at.date()
                    was_ill = began, max(began, over - timedelta(days=1))
            else:
                since.setdefault(place, date.fromisoformat(str(said["day"])))
        elif "painful" in said:
            (painful.add if said["painful"] else painful.discard)(name)
        elif "easier" in said:
            eased[date.fromisoformat(str(said["day"]))] = int(said["easier"])
        elif said.get("how") in ("leave", "keep", "instead") and said.get("step"):
            in_step[str(said["step"]), name] = Way(said["how"], str(said.get("with", "")))
        elif said.get("how") in ("leave", "keep", "instead"):
            ways[name] = Way(said["how"], str(said.get("with", "")))
        if not since and not painful:
            ways.clear()  # whatever was chosen was chosen because of it
    return SoreState(since, frozenset(painful), ways, frozenset(hurt), in_step, was_ill, eased)


def read_state(session: Reader, member_id: str) -> SoreState:
    """Read what a member says of what hurts, in a reading of whoever asks; nothing where it is not theirs to see."""
    return state_of(by_hand.said(session, member_id, [SORE]))


@may("see")
@cached_until_write
def state(log: Log, member_id: str) -> SoreState:
    """Return what hurts a member: to everybody else the log says that nothing does."""
    with log.reading() as session:
        return read_state(session, member_id)


@may("change")
def begin(log: Log, member_id: str, place: Place, day: date) -> None:
    """Say that a place is sore, or that the day is a limited one, from `day` on until somebody says otherwise."""
    check_day(day)
    _check_place(place)
    _say(log, member_id, {"place": place, "day": day.isoformat()})


@may("change")
def end(log: Log, member_id: str, place: Place, day: date | None = None) -> None:
    """Say that a place is good again, from `day` on: the member's word, and nobody else's."""
    _check_place(place)
    said = {"place": place, "ended": True} | ({"day": day.isoformat()} if day else {})
    with log.act(WORDS, member_id, own=True) as act:
        by_hand.say(act, SORE, member_id, said)
        chosen = log_choices.choices(act.session, member_id)
        if place == ILL and day and is_told_ill(chosen):
            log_choices.choose(act, member_id, "told the coach", day, about="well")
        if day and place in limits_told(chosen):
            log_choices.choose(act, member_id, "told the coach", day, about=LIMIT, place=place)


@may("change")
def ease(log: Log, member_id: str, day: date, *, easier: bool = True) -> None:
    """Take loads of a day easier because muscles ache, or as planned."""
    _say(log, member_id, {"easier": EASIER if easier else 0, "day": day.isoformat()})


@may("change")
def mark_painful(log: Log, member_id: str, lift_id: str, *, painful: bool = True) -> None:
    """Mark a movement as painful, with whatever implement, so that no load is proposed for it; or say that it is no more."""
    with log.reading() as session:
        name = lift_named(session, lift_id).name.casefold()
    _say(log, member_id, {"lift": name, "painful": painful})


def _say(log: Log, member_id: str, said: Mapping[str, object]) -> None:
    with log.act(WORDS, member_id, own=True) as act:
        by_hand.say(act, SORE, member_id, said)


def _check_place(place: str) -> None:
    if place not in PLACES:
        raise BadInputError(
            f"{place!r} is no part of the list.", where="place", mend=f"Choose one of {', '.join(PLACES)}."
        )


def lift_named(session: Reader, lift_id: str) -> LiftRecord:
    found = log_members.lift(session, lift_id)
    if found is None:
        raise BadInputError("This lift is not in the log.", where="lift", mend="Reload the page.")
    return found


def replaced(
    planned: Sequence[PlannedSetRow],
    sore: SoreState,
    lifts: Mapping[str, LiftRecord],
    done: Mapping[tuple[str | None, int | None], SetRow],
    step_id: str = "",
) -> tuple[tuple[PlannedSetRow, tuple[int, ...]], ...]:
    """Return the planned sets of a step as the member chose to do them, each with the numbers of its sets that are listed.

    A set that was done stays, as the lift it was done with; what is left of a lift goes, or is done as another one. That has
    the repetitions of what was planned and no load: how much goes is found by feel.
    """
    found: list[tuple[PlannedSetRow, tuple[int, ...]]] = []
    for row in planned:
        way = sore.way(row.lift.name, step_id)
        numbers = range(1, row.sets + 1)
        if way is None or way.how == "keep":
            found.append((row, tuple(numbers)))
            continue
        other = lifts.get(way.lift_id) if way.how == "instead" else None
        listed: dict[LiftRecord, list[int]] = {}
        for number in numbers:
            one = done.get((row.id, number))
            lift = one.lift if one else other
            if lift is not None:
                listed.setdefault(lift, []).append(number)
        found += [(_done_as(row, lift), tuple(of_it)) for lift, of_it in listed.items()]
    return tuple(found)


def _done_as(row: PlannedSetRow, lift: LiftRecord) -> PlannedSetRow:
    """Return planned sets as they are done with another lift."""
    if lift.id == row.lift.id:
        return row
    if lift.name == row.lift.name and lift.implements < row.lift.implements:  # each of the two weighs what the one does
        return replace(
            row, lift=lift, of_lift=None, percent=None, of_reps=None, test=False, rep_out=False,
            rule="" if row.load else "same", words=ONE_BY_ONE,
        )  # fmt: skip
    return replace(
        row, lift=lift, of_lift=None, percent=None, of_reps=None, load=None, reserve=None, test=False, rep_out=False,
        rule="same", words="",
    )  # fmt: skip


def left_out(sore: SoreState, sets: Sequence[PlannedSetRow], step_id: str) -> frozenset[str]:
    """Return the lifts of a step that a member leaves out, for as long as something is sore or of it: none is asked for."""
    return frozenset(row.lift.id for row in sets if (way := sore.way(row.lift.name, step_id)) and way.how == "leave")


def read_lifts(session: Reader, sore: SoreState) -> dict[str, LiftRecord]:
    """Read the lifts that are done instead of others."""
    ids = {way.lift_id for way in (*sore.ways.values(), *sore.in_step.values()) if way.lift_id}
    return {each: lift for each in ids if (lift := log_members.lift(session, each))}


def offers(
    planned: Sequence[PlannedSetRow], sore: SoreState, member: MemberRecord, place: PlaceRecord | None
) -> tuple[Offer, ...]:
    """List the lifts of a step, as the coach planned them, that load what is sore, and what could be done instead."""
    found: list[Offer] = []
    at_hand = at_hand_in(member, place)
    for lift in dict.fromkeys(row.lift for row in planned):
        parts, painful = concerned(lift.name, sore.parts), sore.is_painful(lift.name)
        if parts or painful:
            others = instead_of(lift.name, sore.parts, at_hand, never=sore.painful)
            found.append(Offer(lift, parts, painful, sore.way(lift.name), others))
    return tuple(found)


def at_hand_in(member: MemberRecord, place: PlaceRecord | None) -> frozenset[str]:
    """Return the implements that stand at a place; a machine only where the kit says that there is one."""
    found = {"body"}
    if places.bar_kit(member, place) is not None:
        found.add("barbell")
    if place is not None:
        kinds = ("dumbbell", "kettlebell", "machine")
        found |= {
            each.kind for each in place.items if each.kind in kinds and each.number != 0 and not is_standing(each)
        }
        if any(each.kind == "dumbbell" and (each.number is None or each.number >= 2) for each in place.items):
            found.add("dumbbells")
    return frozenset(found)


def in_piece(movements: Sequence[str], sore: SoreState) -> tuple[str, ...]:
    """Say of the movements of a piece which load a sore place, and what could be done instead without anything."""
    said: list[str] = [illness.OFFERED] if sore.ill else []
    for name in dict.fromkeys(movements):
        parts = concerned(name, sore.parts)
        if not parts and not sore.is_painful(name):
            continue
        why = f"loads the {' and the '.join(parts)}" if parts else "was marked as painful"
        others = instead_of(name, sore.parts, ("body",), never=sore.painful)
        instead = f", or {' or '.join(each.name for each in others[:2])} instead" if others else ""
        said.append(f"{name[:1].upper()}{name[1:]} {why}: leave it out{instead}.")
    return tuple(said)
