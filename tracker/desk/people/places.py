"""Places, their kit, and loads that it can make."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import ROUND_FLOOR, Decimal
from functools import lru_cache

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.people.people import clean_name
from tracker.errors import BadInputError
from tracker.limits import MOST_OF_KIND
from tracker.log import choices as log_choices
from tracker.log import kit as log_kit
from tracker.log.records import Implement, KitItemRecord, KitKind, LiftRecord, MemberRecord, PlaceRecord
from tracker.log.unit_of_work import Log, Reader
from tracker.prescription.floor import full_in
from tracker.prescription.for_place import WITH_EITHER
from tracker.prescription.kit import POUND_KIT, STANDARD_KIT, BarKit, DiscPairs
from tracker.prescription.plates import Loading, load_bar, loadings_near
from tracker.prescription.rounding import NEAREST, RoundingChoice, fixed_note
from tracker.units import Mass, Unit, check_load, plain

AS_HEAVY = Decimal("0.9")  # of the first bar of a place: one in another unit that stands in for it
FREE_STEP = {
    "kg": Decimal("0.5"),
    "lb": Decimal(1),
}  # machines and added loads: whatever the stack makes; design choice
ANY_MACHINE = "machine"  # the label of one that is not said to be of one lift
FIXED: dict[str, KitKind] = {
    "dumbbells": "dumbbell",
    "dumbbell": "dumbbell",
    "kettlebells": "kettlebell",
    "kettlebell": "kettlebell",
}
SINGLE: dict[str, Implement] = {"dumbbells": "dumbbell", "kettlebells": "kettlebell"}  # one of what a pair is


@may("common")
@cached_until_write
def places(log: Log) -> tuple[PlaceRecord, ...]:
    """List all places with their kit."""
    with log.reading() as session:
        return log_kit.places(session)


@may("see")
def place_of(log: Log, member: MemberRecord, day: date | None = None) -> PlaceRecord | None:
    """Return where the member trains now, or on a day: somewhere else where that was said of the day alone."""
    with log.reading() as session:
        return read_place(session, member, day)


def read_place(session: Reader, member: MemberRecord, day: date | None = None) -> PlaceRecord | None:
    """Return where the member trains now or on a day, in a reading of whoever asks."""
    for_day = log_choices.place_of_day(session, member.id, day) if day is not None else ""
    if for_day and (elsewhere := log_kit.place(session, for_day)) is not None:
        return elsewhere
    return None if member.place_id is None else log_kit.place(session, member.place_id)


@may("change")
def go_today(log: Log, member_id: str, place_id: str, day: date) -> None:
    """Say where the member trains on one day; on the next they are where they were. Undo takes it back.

    Raises:
        BadInputError: if there is no such place.
    """
    with log.act("trains elsewhere for a day", member_id, own=True) as act:
        found = log_kit.place(act.session, place_id)
        if found is None:
            raise BadInputError(
                "This place is not in the log any more.", where="place", mend="Choose one from the list."
            )
        act.words = f"trains at {found.name} on {day.isoformat()}"
        log_choices.choose_place(act, member_id, day, place_id)


@may("common")
def add_place(
    log: Log, name: str, unit: Unit, items: Sequence[KitItemRecord] = (), *, pins: bool = True
) -> PlaceRecord:
    """Add a place, with the common kit of its unit where no items are given.

    Raises:
        BadInputError: if the name is empty or taken, or an item can't be.
    """
    name = free_name(log, name)
    wanted = tuple(items) or items_of(POUND_KIT if unit == "lb" else STANDARD_KIT)
    check_items(wanted)
    with log.act(f"added the place {name}") as act:
        return log_kit.add_place(act, name, unit, pins=pins, items=wanted)


@may("common")
def free_name(log: Log, name: str, *, but: str = "") -> str:
    """Return a place's name without surplus space.

    Raises:
        BadInputError: if it is empty, too long or taken by another place than `but`.
    """
    name = clean_name(name, "place")
    with log.reading() as session:
        known = log_kit.names(session)
    if any(each.casefold() == name.casefold() and found != but for found, each in known):
        raise BadInputError(f"There is a place {name} already.", where="place", mend="Use another name.")
    return name


@may("common")
def change_place(log: Log, place: PlaceRecord, member_id: str | None = None) -> PlaceRecord:
    """Write a place as it is now: name, unit, pins and all its kit."""
    name = free_name(log, place.name, but=place.id)
    check_items(place.items)
    with log.act(f"changed the kit of {name}", member_id) as act:
        return log_kit.change_place(act, place.id, name=name, unit=place.unit, pins=place.pins, items=place.items)


@may("common")
def remove_place(log: Log, place_id: str, member_id: str | None = None) -> None:
    """Remove a place; what was done there stays."""
    with log.act("removed a place", member_id) as act:
        log_kit.remove_place(act, place_id)


def check_items(items: Sequence[KitItemRecord]) -> None:
    """Refuse kit that can't be: a mass of nothing, or over 1,000 kg, or fewer than no pairs."""
    for item in items:
        where = f"{item.kind} {item.label}".strip()
        if item.kind == "machine" and item.mass is not None:
            check_load(item.mass, where=where)
        elif item.kind not in ("band", "collars", "machine"):
            if item.mass is None:
                raise BadInputError("It has no mass.", where=where, mend="Type what it weighs.")
            check_load(item.mass, where=where)
        if item.mass is not None and item.mass.amount < 0:
            raise BadInputError("A mass below zero can't be.", where=where, mend="Type what it weighs.")
        if item.number is not None and not 0 <= item.number <= MOST_OF_KIND:
            raise BadInputError(
                f"{item.number} can't be.",
                where=where,
                mend="Write how many there are, or leave it blank for as many as needed.",
            )


def items_of(kit: BarKit) -> tuple[KitItemRecord, ...]:
    """Turn a ready kit into items of a place; their ids are made when they are written."""
    bar = KitItemRecord("", "bar", f"{kit.bar} bar", kit.bar, 1)
    collars = (KitItemRecord("", "collars", "collars, the pair", kit.collars, 1),) if kit.collars else ()
    return (
        bar,
        *collars,
        *(KitItemRecord("", "disc", plain(disc.mass.amount), disc.mass, disc.pairs) for disc in kit.discs),
    )


def bar_in_use(member: MemberRecord, place: PlaceRecord | None) -> KitItemRecord | None:
    """Return the bar the member took, else the first one of the place, or one as heavy in the member's unit."""
    bars = place.of_kind("bar") if place else ()
    least = AS_HEAVY * bars[0].mass.kg if bars and bars[0].mass else 0  # a short bar stands in for no long one
    own = [bar for bar in bars if bar.mass and bar.mass.unit == member.unit and bar.mass.kg >= least]
    return next((bar for bar in bars if bar.id == member.bar_id), next(iter((*own, *bars)), None))


def bar_kit(member: MemberRecord, place: PlaceRecord | None, *, mixed: bool = False) -> BarKit | None:
    """Return bar and discs that the member loads now; None where the place has no bar, the common kit where there is no place.

    Where discs in both units stand about, those in the bar's unit are loaded, as people do; all of them if `mixed`.
    """
    if place is None:
        return POUND_KIT if member.unit == "lb" else STANDARD_KIT
    return kit_with(place, bar_in_use(member, place), mixed=mixed)


def kit_with(place: PlaceRecord, bar: KitItemRecord | None, *, mixed: bool = False) -> BarKit | None:
    """Return a bar of a place with its discs (those in its unit, or all if `mixed`) and collars; None without a bar."""
    return _kit_with(place, bar, mixed=mixed)


@lru_cache(256)  # of frozen records alone: a day asks for the same kit some hundred times
def _kit_with(place: PlaceRecord, bar: KitItemRecord | None, *, mixed: bool) -> BarKit | None:
    if bar is None or bar.mass is None:
        return None
    discs = tuple(
        DiscPairs(item.mass, item.number, item.label, full_in(item.label))
        for item in place.of_kind("disc")
        if item.mass
    )
    alike = tuple(disc for disc in discs if disc.mass.unit == bar.mass.unit)
    discs = alike if alike and not mixed else discs
    collars = place.of_kind("collars")
    return BarKit(bar.mass, discs, collars[0].mass if collars else None)


@dataclass(frozen=True, slots=True)
class MadeLoad:
    """A load that the kit makes: what it is made of in words, and a word where it is not what was asked."""

    target: Mass
    load: Mass
    per_side: tuple[Mass, ...]  # discs on each side, heaviest first; empty where it is no bar
    words: str
    note: str | None


def make_load(
    target: Mass, lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None, how: RoundingChoice = NEAREST
) -> MadeLoad | None:
    """Make `target` with what stands at the place, for the implement of the lift; None where nothing there fits."""
    if lift.implement in FIXED and place is not None:
        masses = fixed_masses(place, lift)
        return _made_of_fixed(target, masses, lift, how) if masses else None
    if lift.implement in ("barbell", "unasked"):
        kit = bar_kit(member, place)
        if kit is None:
            return None
        loading = load_bar(target, kit, how.rounding)
        if loading.note and loading.load.kg < target.kg and (every := bar_kit(member, place, mixed=True)):
            loading = load_bar(target, every, how.rounding)  # too few of one unit: take the others too
        return _made_of_bar(target, loading)
    stack = stack_step(lift, place)
    if stack is not None and stack.unit != target.unit:
        target = Mass(target.to(stack.unit), stack.unit)
    step = stack.amount if stack else FREE_STEP[target.unit]
    steps = (target.amount / step).to_integral_value(ROUND_FLOOR)  # below zero too: less help is more load
    up = how.rounding == "nearest" and (target.amount - steps * step) * 2 > step
    load = Mass((max(steps, 1) if stack and not up else steps + (1 if up else 0)) * step, target.unit)
    words = "added to the body" if lift.body else f"the stack goes by {stack}" if stack else ""
    return MadeLoad(target, load, (), words, None)


def takes_of_body(place: PlaceRecord) -> bool:
    """Whether a band stands at a place, or a machine that is said to assist."""
    return bool(place.of_kind("band")) or any("assist" in each.label.casefold() for each in place.of_kind("machine"))


def stack_step(lift: LiftRecord, place: PlaceRecord | None) -> Mass | None:
    """Return by what the stack of a lift's machine goes up here: of the machine of its name, else of any without one of a lift.

    None where the lift is done with none, or nobody said.
    """
    if lift.implement != "machine" or place is None:
        return None
    machines = place.of_kind("machine")
    own = [each for each in machines if each.label.casefold() == lift.name.casefold()]
    any_other = [each for each in machines if each.label.casefold() == ANY_MACHINE]
    return next((each.mass for each in (*own, *any_other) if each.mass), None)


def fixed_masses(place: PlaceRecord, lift: LiftRecord) -> tuple[Mass, ...]:
    """List the dumbbells or kettlebells at a place that the lift can use, lightest first; a pair needs two pieces."""
    fit = [
        item.mass
        for item in _held_by(place, lift)
        if item.mass and (item.number is None or item.number >= lift.implements)
    ]
    return tuple(sorted(fit, key=lambda mass: mass.kg))


def _held_by(place: PlaceRecord, lift: LiftRecord) -> tuple[KitItemRecord, ...]:
    """List what a lift is held with: of a goblet, where there is none of its own kind, one of the other kind."""
    own = place.of_kind(FIXED[lift.implement])
    if own or lift.implements > 1 or not WITH_EITHER & set(lift.name.lower().split()):
        return own
    return place.of_kind("dumbbell" if FIXED[lift.implement] == "kettlebell" else "kettlebell")


def lone_masses(place: PlaceRecord, lift: LiftRecord) -> tuple[Mass, ...]:
    """List the masses of which a place has one piece where a lift asks for two, lightest first; empty where it has two of any."""
    if lift.implement not in SINGLE or fixed_masses(place, lift):
        return ()
    alone = [item.mass for item in place.of_kind(FIXED[lift.implement]) if item.mass and item.number]
    return tuple(sorted(alone, key=lambda mass: mass.kg))


def _made_of_fixed(target: Mass, masses: tuple[Mass, ...], lift: LiftRecord, how: RoundingChoice) -> MadeLoad:
    nearest = min(masses, key=lambda mass: (abs(mass.kg - target.kg), mass.kg))
    below = [mass for mass in masses if mass.kg <= target.kg]
    load = nearest if how.rounding == "nearest" else below[-1] if below else masses[0]
    return replace(exactly(load, target, lift), note=fixed_note(target, load, nearest, how))


def exactly(load: Mass, target: Mass, lift: LiftRecord) -> MadeLoad:
    """Take a fixed dumbbell or kettlebell as it is."""
    return MadeLoad(target, load, (), f"{lift.implements} x {load}" if lift.implements > 1 else str(load), None)


def _made_of_bar(target: Mass, loading: Loading) -> MadeLoad:
    return MadeLoad(target, loading.load, loading.per_side, discs_in_words(loading.per_side), loading.note)


def discs_in_words(per_side: Sequence[Mass]) -> str:
    """Say which discs go on each side, heaviest first: `20 + 2.5 + 1.25 kg a side`."""
    if not per_side:
        return "empty bar"
    units = {mass.unit for mass in per_side}
    if len(units) == 1:
        return f"{' + '.join(plain(mass.amount) for mass in per_side)} {per_side[0].unit} a side"
    return f"{' + '.join(str(mass) for mass in per_side)} a side"


def least_load(lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None) -> Mass | None:
    """Return the smallest load for a lift here: the empty bar, the lightest of fixed masses, nothing added to the body."""
    if lift.body:
        return Mass(Decimal(0), member.unit)
    if lift.implement in FIXED and place is not None:
        return next(iter(fixed_masses(place, lift)), None)
    if lift.implement in ("barbell", "unasked"):
        kit = bar_kit(member, place)
        return kit.bar if kit else None
    return stack_step(lift, place) or Mass(FREE_STEP[member.unit] * 5, member.unit)


def next_loads(
    load: Mass, lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None
) -> tuple[Mass | None, Mass | None]:
    """Return the next lighter and the next heavier load that the kit makes, for the minus and plus buttons."""
    if lift.implement in FIXED and place is not None:
        masses = fixed_masses(place, lift)
        lower = [mass for mass in masses if mass.kg < load.kg]
        higher = [mass for mass in masses if mass.kg > load.kg]
        return (lower[-1] if lower else None, higher[0] if higher else None)
    kit = bar_kit(member, place) if lift.implement in ("barbell", "unasked") else None
    if kit is not None:
        return loadings_near(load, kit)
    stack = stack_step(lift, place)
    if stack is not None and stack.unit == load.unit:
        below = (load.amount / stack.amount).to_integral_value(ROUND_FLOOR) * stack.amount
        lower_load = Mass(below - (stack.amount if below == load.amount else 0), load.unit)
        return (lower_load if lower_load.amount > 0 else None, Mass(below + stack.amount, load.unit))
    step = FREE_STEP[load.unit] * 5
    lower_load = Mass(load.amount - step, load.unit)
    helped = lift.body and (place is None or takes_of_body(place))  # less than the body wants a band that takes it
    down = lower_load.amount > 0 or helped or (lift.body and lower_load.amount == 0)
    return (lower_load if down else None, Mass(load.amount + step, load.unit))
