"""Who could share a bar: partners whose loads are close enough that few discs are changed between their sets."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from tracker.prescription.changes import share_bar
from tracker.prescription.kit import BarKit
from tracker.units import Mass

NEIGHBOURS = 3  # by load, how many on each side are tried; further ones were never the better choice in trials
MOST_CHANGES = 4.0  # discs put on or taken off from one set to the next, both sides, on average; own choice


@dataclass(frozen=True, slots=True)
class AtBar:
    """One member at a bar: the load of each set in turn, of one lift, with one kit."""

    name: str
    lift: str
    kit: BarKit
    loads: tuple[Mass, ...]


@dataclass(frozen=True, slots=True)
class Partners:
    """Two who could share a bar for a lift; who begins stands first. `changes`: discs moved in all, for `sets` sets."""

    first: str
    second: str
    lift: str
    changes: int
    sets: int


def suggest_partners(members: Iterable[AtBar]) -> tuple[Partners, ...]:
    """Pair members who do the same lift with the same kit, the pairs with the fewest discs to change first.

    Nobody stands in two pairs of one lift; who has no close partner is left out.
    """
    groups: dict[tuple[str, BarKit], list[AtBar]] = {}
    for each in members:
        if each.loads:
            groups.setdefault((each.lift, each.kit), []).append(each)
    return tuple(pair for group in groups.values() for pair in _pair_up(group))


def _pair_up(group: Sequence[AtBar]) -> list[Partners]:
    ordered = sorted(group, key=lambda each: (max(load.kg for load in each.loads), each.name))
    close = [
        _partners(one, other)
        for place, one in enumerate(ordered)
        for other in ordered[place + 1 : place + 1 + NEIGHBOURS]
    ]
    found: list[Partners] = []
    taken: set[str] = set()
    for pair in sorted(close, key=lambda each: (each.changes / each.sets, each.first, each.second)):
        if pair.changes <= MOST_CHANGES * pair.sets and not taken & {pair.first, pair.second}:
            found.append(pair)
            taken |= {pair.first, pair.second}
    return found


def _partners(one: AtBar, other: AtBar) -> Partners:
    turns = share_bar(one.loads, other.loads, one.kit)
    begins, follows = (one, other) if turns[0].partner == 0 else (other, one)
    # the bar is loaded once anyway: what counts is what is changed after the first set
    changes = sum(turn.changes for turn in turns[1:])
    return Partners(begins.name, follows.name, one.lift, changes, len(turns))
