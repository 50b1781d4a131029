"""What no single line can tell: sets without a lift, percentages of nothing, pieces without movements or an end."""

from __future__ import annotations

from collections.abc import Iterable

from tracker.prescription.sheet.model import FindMax, LiftBlock, Percent, Reps, SetGroup
from tracker.prescription.sheet.piece import COUNTLESS, ONE_MOVEMENT, Piece
from tracker.prescription.sheet.problems import Problem
from tracker.units import plain

EXAMPLE_LIFT = "Front squat, barbell, % of 3RM"
EXAMPLE_SETS = "3 x 5 @ 80 %"
EXAMPLE_KINDS = "as many reps as possible in 12:00"
UNREAD = SetGroup(1, Reps((1,)), note="\0unread")  # stands for sets that could not be read


def of_lift(lift: LiftBlock) -> list[Problem]:
    """Check a lift that is whole."""
    problems = []
    if not lift.sets:
        what = f"{lift.name} has no sets."
        problems.append(Problem(lift.line, 1, what, "sets below it, sets first", EXAMPLE_SETS))
    groups: list[SetGroup | FindMax] = [*lift.sets, *(each for other in lift.alternatives for each in other.sets)]
    for group in groups:
        if isinstance(group, SetGroup):
            problems += _of_group(lift, group)
    return problems


def _of_group(lift: LiftBlock, group: SetGroup) -> Iterable[Problem]:
    if group == UNREAD:
        return
    if isinstance(group.load, Percent) and group.load.of is None and lift.of is None:
        percent = plain(group.load.amount)
        what = f"{percent} % of which rep-max of {lift.name}?"
        yield Problem(
            group.line, 1, what, "the rep-max with the lift or with the percentage", f"{_short(group)} of 3RM"
        )
    parts, names = len(group.reps.parts), len(lift.names)
    if parts > 1 and parts != names:
        known = f"{names} lifts" if names > 1 else "one lift"
        what = f"{parts} numbers are added up here, but {lift.name} is {known}."
        mend = " + ".join("1" for _ in lift.names) if names > 1 else str(group.reps.total)
        yield Problem(
            group.line, 1, what, "one number for each lift of a complex, or one in all", f"{group.sets} x {mend}"
        )
    elif names > 1 and parts == 1 and not group.reps.out:
        what = f"How many of each in {lift.name}?"
        mend = " + ".join(str(group.reps.total) for _ in lift.names)
        yield Problem(group.line, 1, what, "one number for each lift of the complex", f"{group.sets} x {mend}")


def _short(group: SetGroup) -> str:
    percent = plain(group.load.amount) if isinstance(group.load, Percent) else "80"
    return f"{group.sets} x {group.reps.parts[0]} @ {percent} %"


def of_piece(piece: Piece) -> list[Problem]:
    """Check a piece that is whole."""
    title, kind, line, movements = piece.title, piece.kind, piece.line, piece.movements
    if not movements and kind != "unscored":
        return [
            Problem(
                line,
                1,
                f"{title} has no movements.",
                "each movement on a line of its own",
                "10 kettlebell swing, 16 kg kettlebell",
            )
        ]
    problems = []
    if kind in ONE_MOVEMENT and len(movements) > 1:
        what = f"{title} is scored by one movement, and there are {len(movements)}."
        problems.append(
            Problem(movements[1].line, 1, what, "one movement, others as a piece of their own", "Piece: Row")
        )
    for movement in movements:
        if movement.count is None and piece.scheme is None and kind not in COUNTLESS:
            what = f"How many of {movement.name}?"
            problems.append(Problem(movement.line, 1, what, "a count before it", f"10 {movement.name}"))
    return problems + _of_end(piece)


def _of_end(piece: Piece) -> list[Problem]:
    """Check that a piece for time has an end, and that all its counts agree on one."""
    title, line, rounds = piece.title, piece.line, piece.rounds
    counts = [each.count or piece.scheme for each in piece.movements]
    lengths = {len(count.reps) for count in counts if count and count.listed}
    if len(lengths) > 1 or (lengths and rounds and lengths != {rounds}):
        what = f"The lists of {title} do not have the same number of rounds."
        return [Problem(line, 1, what, "as many numbers in each list as there are rounds", "21-15-9 for time")]
    rises = any(count and count.step > 0 for count in counts)
    if piece.kind == "for time" and rises and not rounds and not lengths:
        what = f"Nothing says where the ladder of {title} ends."
        example = "3 up by 3 to 15 and back, for time" if piece.scheme else "5 rounds for time"
        return [Problem(line, 1, what, "the number of rounds, or a top", example)]
    falls = [count for count in counts if count and count.step < 0]
    for count in falls:
        last = rounds and count.reps[0] + (rounds - 1) * count.step
        if last is not None and last < 1:
            what = f"{count} does not last {rounds} rounds."
            return [
                Problem(
                    line,
                    1,
                    what,
                    "fewer rounds, or a smaller step",
                    f"{(count.reps[0] - 1) // -count.step + 1} rounds for time",
                )
            ]
    return []
