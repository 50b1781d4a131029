"""Members by a table: shown as it is understood first, then taken whole or not at all.

Who is in the log already stays as they are and only joins the groups that the table names, so a table can be taken again
with whoever is new in it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from tracker.desk.base.roles import may
from tracker.desk.people import people
from tracker.desk.people.ready_places import ready_place
from tracker.errors import BadInputError
from tracker.exchange.problems import Problems
from tracker.exchange.roster import Roster, RosterRow
from tracker.log import groups as log_groups
from tracker.log import kit as log_kit
from tracker.log import members as log_members
from tracker.log.lookalikes import skeleton
from tracker.log.records import PlaceRecord
from tracker.log.unit_of_work import Act, Log, Reader
from tracker.units import Unit
from tracker.wording import counted


@dataclass(frozen=True, slots=True)
class Person:
    """One row as it will be taken."""

    name: str
    unit: Unit
    place: str  # empty: nowhere in particular
    groups: tuple[str, ...]
    new: bool
    joins: tuple[str, ...]  # of the groups, those in which they are not yet


@dataclass(frozen=True, slots=True)
class RosterPreview:
    """What taking a table would do; nothing is written yet."""

    people: tuple[Person, ...]
    new_groups: tuple[str, ...]
    new_places: tuple[str, ...]
    ignored: tuple[str, ...]

    @property
    def new(self) -> tuple[Person, ...]:
        return tuple(each for each in self.people if each.new)

    @property
    def nothing(self) -> bool:
        """Whether the log has all of it already."""
        return not (self.new_groups or self.new_places or any(each.new or each.joins for each in self.people))

    @property
    def words(self) -> str:
        """Say it in one line: 40 members, 38 of them new; 3 groups, 3 of them new."""
        many, new = len(self.people), len(self.new)
        groups = {name.casefold() for each in self.people for name in each.groups}
        said = [
            f"{counted(many, 'member')}, {new} of them new"
            if many > 1
            else f"1 member, {'new' if new else 'known already'}"
        ]
        if groups:
            said.append(f"{counted(len(groups), 'group')}, {len(self.new_groups)} of them new")
        if self.new_places:
            said.append(f"{counted(len(self.new_places), 'new place')}")
        return "; ".join(said)


@dataclass(frozen=True, slots=True)
class TakenRoster:
    """What came of taking a table; ids of those who are new, in the table's order."""

    preview: RosterPreview
    member_ids: tuple[str, ...]

    @property
    def words(self) -> str:
        return f"taken: {self.preview.words}"


@may("run")
def look_at(log: Log, roster: Roster, *, unit: Unit = "kg", place: str = "") -> RosterPreview:
    """Say what taking a table would do.

    Args:
        log: The log.
        roster: What `exchange.roster` read.
        unit: Of members of whom the table says none.
        place: The name of the place of members of whom the table says none; empty for nowhere in particular.

    Raises:
        BadFileError: if a name looks like that of another member, or is known of somebody who was removed; by line.
        BadInputError: if there is no place of that name.
    """
    with log.reading() as session:
        return _understood(session, roster, unit, place)


@may("run")
def take(log: Log, roster: Roster, *, unit: Unit = "kg", place: str = "") -> TakenRoster:
    """Take a table into the log, in one act; see `look_at`.

    A place that the log does not have is made with the usual kit of a gym, to be looked at under Kit.

    Raises:
        BadFileError, BadInputError: as `look_at`; nothing is written then.
    """
    with log.act("took a roster") as act:
        preview = _understood(act.session, roster, unit, place)
        if preview.nothing:
            raise BadInputError("The log has all of this already.", where=roster.name, mend="Add whoever is new to it.")
        act.words = f"took a roster: {preview.words}"
        places = _places(act, preview)
        groups = {each.name.casefold(): each.id for each in log_groups.groups(act.session)}
        groups |= {name.casefold(): log_groups.add(act, name) for name in preview.new_groups}
        known = {name.casefold(): found for found, name in log_members.names(act.session)}
        made: list[str] = []
        for person in preview.new:
            known[person.name.casefold()] = _add(act, person, places)
            made.append(known[person.name.casefold()])
        for key, group_id in groups.items():
            joining = [known[each.name.casefold()] for each in preview.people if key in map(str.casefold, each.joins)]
            log_groups.join(act, group_id, joining)
    return TakenRoster(preview, tuple(made))


def _understood(session: Reader, roster: Roster, unit: Unit, place: str) -> RosterPreview:
    names = {name.casefold(): found for found, name in log_members.names(session)}
    looks = {skeleton(name): name for _, name in log_members.names(session)}
    places = {each.name.casefold(): each.name for each in log_kit.of_gym(session)}
    if place and place.casefold() not in places:
        known = ", ".join(sorted(places.values())) or "none yet"
        raise BadInputError(f"There is no place {place}.", where="place", mend=f"Name one of the log's: {known}.")
    within = {each.name.casefold(): each for each in log_groups.groups(session)}
    problems, found = Problems(roster.name), list[Person]()
    new_groups: dict[str, str] = {}
    new_places: dict[str, str] = {}
    for row in roster.rows:
        member_id = names.get(row.name.casefold())
        if member_id is None and (other := looks.setdefault(skeleton(row.name), row.name)) != row.name:
            problems.add(row.line, "name", _twin(row, other))
            continue
        groups = tuple(
            within[key].name if (key := each.casefold()) in within else new_groups.setdefault(key, each)
            for each in row.groups
        )
        joins = tuple(
            each
            for each in groups
            if each.casefold() not in within or member_id not in within[each.casefold()].member_ids
        )
        at = row.place or (place if member_id is None else "")
        if at and member_id is None:
            at = places.get(at.casefold()) or new_places.setdefault(at.casefold(), at)
        found.append(Person(row.name, row.unit or unit, at, groups, member_id is None, joins))
    problems.raise_any()
    return RosterPreview(tuple(found), tuple(new_groups.values()), tuple(new_places.values()), roster.ignored)


def _twin(row: RosterRow, other: str) -> BadInputError:
    return BadInputError(
        f"{row.name} looks like {other}, who is somebody else.", mend="Write it as it is in the log, or add an initial."
    )


def _places(act: Act, preview: RosterPreview) -> Mapping[str, PlaceRecord]:
    """Return the places by name, and make those that are new with the usual kit of a gym."""
    found = {each.name.casefold(): each for each in log_kit.of_gym(act.session)}
    for name in preview.new_places:
        units: Counter[Unit] = Counter(each.unit for each in preview.new if each.place.casefold() == name.casefold())
        ready = ready_place("gym", units.most_common(1)[0][0])
        found[name.casefold()] = log_kit.add_place(act, name, ready.unit, pins=ready.pins, items=ready.items)
    return found


def _add(act: Act, person: Person, places: Mapping[str, PlaceRecord]) -> str:
    made = log_members.add_member(act, people.clean_name(person.name, "member"), person.unit).id
    if person.place:
        place = places[person.place.casefold()]
        bars = place.of_kind("bar")
        log_members.change_member(act, made, place_id=place.id, bar_id=bars[0].id if bars else None)
    return made
