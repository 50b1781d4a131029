"""What an import must know of the log before it takes names in: who and what is there, as plain records."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.keeper import Act
from tracker.log.models import BodyMass, Lift, Member, Place


@dataclass(frozen=True, slots=True)
class KnownMember:
    """A member by name, also one who was removed: their name is not given twice."""

    id: str
    name: str
    removed: bool


@dataclass(frozen=True, slots=True)
class KnownLift:
    """A lift by name and implement, and whose alone it is (None: everybody's)."""

    id: str
    name: str
    implement: str
    body: bool
    private_to: str | None


@dataclass(frozen=True, slots=True)
class KnownNames:
    """Members, lifts and places of a log; places by id."""

    members: tuple[KnownMember, ...]
    lifts: tuple[KnownLift, ...]
    places: tuple[tuple[str, str], ...]
    weighed: frozenset[str]  # members of whom a body mass is known


def known_names(session: OrmSession) -> KnownNames:
    """Read all names that rows of a file can mean."""
    members = session.execute(select(Member.id, Member.name, Member.removed_at))
    lifts = session.execute(select(Lift.id, Lift.name, Lift.implement, Lift.body, Lift.private_to))
    return KnownNames(
        tuple(KnownMember(found, name, removed is not None) for found, name, removed in members),
        tuple(KnownLift(*row) for row in lifts),
        tuple((found, name) for found, name in session.execute(select(Place.id, Place.name))),
        frozenset(session.scalars(select(BodyMass.member_id))),
    )


def body_lifts(session: OrmSession) -> frozenset[str]:
    """Return the lifts in which the body is lifted."""
    return frozenset(session.scalars(select(Lift.id).where(Lift.body)))


def lift_the_body(act: Act, lift_id: str) -> None:
    """Note that the body is lifted in a lift, which nobody had said yet; it stands in the history as any change."""
    act.session.get_one(Lift, lift_id).body = True
