"""Lifts that a coach has done in turn: a set of the one, a set of the other, and again."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain, zip_longest
from typing import TypeVar

IN_TURN = "in turn with the lift above"  # what a sheet's words keep with the second lift and those after it

Item = TypeVar("Item")


def in_turn(lifts: Sequence[Sequence[Item]]) -> list[Item]:
    """Return the sets of several lifts in the order in which they are done; who has more of them ends alone.

    >>> in_turn([["a1", "a2", "a3"], ["b1", "b2"]])
    ['a1', 'b1', 'a2', 'b2', 'a3']
    """
    gap = object()
    return [each for each in chain.from_iterable(zip_longest(*lifts, fillvalue=gap)) if each is not gap]  # type: ignore[misc]
