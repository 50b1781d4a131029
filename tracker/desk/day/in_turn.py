"""Puts the sets of lifts that are done in turn into the order in which they are done, on every page of the day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from tracker.desk.day.lines import PlannedLine
from tracker.log.records import MemberStepRow
from tracker.prescription import in_turn as order
from tracker.prescription.in_turn import IN_TURN


def by_turns(lines: Sequence[PlannedLine], step: MemberStepRow) -> tuple[PlannedLine, ...]:
    """Return the lines of a step as they are done: lift after lift, but set by set where the coach has lifts done in turn.

    A test among them stays where it is: its attempts are as many as the member makes.
    """
    joined = {each.block for each in step.sets if IN_TURN in each.lift_notes}
    if not joined:
        return tuple(lines)
    found: list[PlannedLine] = []
    turns: list[list[list[PlannedLine]]] = []
    for block, rows in groupby(lines, key=lambda line: line.planned.block):
        of_block = list(rows)
        if block in joined and turns:
            turns[-1].append(of_block)
        else:
            turns.append([of_block])
    for lifts in turns:
        if len(lifts) < 2 or any(line.planned.test for of_lift in lifts for line in of_lift):
            found += [line for of_lift in lifts for line in of_lift]
        else:
            turn = lifts[0][0].planned.block
            found += order.in_turn([[replace(line, turn=turn) for line in of_lift] for of_lift in lifts])
    return tuple(found)


def goes_on_at_once(line: PlannedLine, lines: Sequence[PlannedLine]) -> bool:
    """Whether the next set in turn follows without a rest: the rest comes at the end of the round."""
    if line.turn is None:
        return False
    keys = [each.key for each in lines]
    after = lines[keys.index(line.key) + 1 :][:1] if line.key in keys else ()
    return any(each.turn == line.turn and each.planned.block > line.planned.block for each in after)
