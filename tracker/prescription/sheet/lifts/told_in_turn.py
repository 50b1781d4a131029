"""Gives sets the loads that are told for some of them: `75 % first two, 80 % last two`, `last 2 sets @ 85 %`."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.model import Of, Percent, SetGroup

# "75 % first two, 80 % last two": the sets behind their load
_BEHIND = re.compile(
    r"(?<![\d.-])(?P<l>\d{2,3}(?:\.5)?) ?% (?:for |on )?(?:the )?(?:first|next|last|other) (?P<n>[1-9])(?: sets?| ones?)?(?= ?(?:$|[,;.)]|and\b|then\b))"
)
# "first three at 70 %, last two at 80": before it
_BEFORE = re.compile(
    r"(?<!\b1 )(?<!\ba )(?<!\bmore )(?<!another )\b(?:first|next|last|other|final) (?P<n>[1-9])?(?P<s> ?sets?(?: \d{1,2}\+)?| ones?)? ?(?:(?:at|about|around|are|is|with|to be|roughly|[@:~])+ ?)+(?P<l>\d{2,3}(?:\.5)?)(?P<p> ?%)?(?![\d.]| ?(?:kg|lb|min|sec|s\b|-|/|reps?))"
)
# The same, told by the numbers of the sets
_LABELLED = re.compile(r"\bsets? (?P<a>[1-9])(?:-(?P<b>[1-9]))?:? ?(?:@|at)? ?(?P<l>\d{2,3}(?:\.5)?) ?%")
_AS_MANY = re.compile(r"\bas many (?:reps )?as|\bamrap\b|\bmax(?:imum)?\b|\bfailure\b")
_LAST = re.compile(r"\b(?:last|final) (?:[1-9]\b|set)")


def of_sets_told(groups: list[Any], text: str) -> bool:
    """Whether sets with a load and no repetitions are those told before: `last two sets @ 75 %`."""
    one = groups[0] if len(groups) == 1 else None
    return (
        isinstance(one, SetGroup)
        and not one.reps.parts
        and not one.reps.out
        and one.load is not None
        and any(_LAST.match(each[0]) for each in _BEFORE.finditer(text))
    )


def _of(group: SetGroup) -> Of | None:
    return group.load.of if isinstance(group.load, Percent) else None


def in_their_turn(groups: list[Any], text: str) -> list[Any]:
    """Give sets the percentages that are told for so many after so many, where these are all of them."""
    found = list(_BEHIND.finditer(text)) or list(_BEFORE.finditer(text))
    told = [(int(each["n"] or 1), Decimal(each["l"])) for each in found]
    if not told:
        told = [
            (int(each["b"] or each["a"]) - int(each["a"]) + 1, Decimal(each["l"])) for each in _LABELLED.finditer(text)
        ]
    group = groups[0] if len(groups) == 1 else None
    if len(told) < 2 or not isinstance(group, SetGroup) or group.sets != sum(count for count, _ in told):
        return groups
    return [replace(group, sets=count, load=Percent(amount, _of(group))) for count, amount in told]


def of_the_last(groups: list[Any], text: str) -> list[Any]:
    """Let a percentage that is told for the last sets alone be of these: `5x3, last 2 sets @ 85 %`, `5x3 @ 70 %, last set at 80 %`.

    `5-5-3-3-3, last 3 @ 85 %` may be three sets or one of three repetitions; where both are the same lift, all three sets are.
    """
    found = [each for each in _BEFORE.finditer(text) if _LAST.match(each[0])]
    if len(found) != 1 or not found[0]["p"] or _AS_MANY.search(text):
        return groups
    sets = [group for group in groups if isinstance(group, SetGroup)]
    amount, count = Decimal(found[0]["l"]), int(found[0]["n"] or 1)
    loads = {group.load.amount if isinstance(group.load, Percent) else group.load for group in sets}
    if len(sets) != len(groups) or not sets:
        return groups
    last = sets[-1]
    alone = len(loads) == 1 and isinstance(last.load, Percent)  # another load was told for all
    if not (alone or (loads <= {amount, None} and amount in loads)):
        return groups
    rest = None if amount in loads else last.load
    load = last.load if amount in loads else Percent(amount, _of(last))
    if len(sets) > 1 and not found[0]["s"] and last.sets == 1 and last.reps.parts == (count,) == sets[-2].reps.parts:
        sets = sets[:-1]  # the sets of three that were told, and no fourth one
    total = sum(group.sets for group in sets)
    if count >= total or (rest is not None and not found[0]["s"]):
        return groups
    made: list[Any] = []
    left = total - count
    for group in sets:
        before = min(left, group.sets)
        left -= before
        made += [replace(group, sets=before, load=rest)] if before else []
        made += [replace(group, sets=group.sets - before, load=load)] if group.sets > before else []
    return made
