"""Which of a coach's options of a piece comes first at a place: the one that is written for it, or what its kit can do."""

from __future__ import annotations

from dataclasses import replace

from tracker.conditioning.other_way import with_options_first
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.scores import Swap
from tracker.conditioning.swaps import swaps_text
from tracker.log.records import KitItemRecord, PlaceRecord
from tracker.prescription.for_place import can_do, held, written_for

FEW = 3  # kinds of bells that are named; a gym's rack is not read out


def options_here(piece: Piece, place: PlaceRecord | None) -> dict[int, Task]:
    """Return for a movement's number the option that comes first; nothing where the first way does, or no place is known.

    Options that are written together for somewhere ("home") are taken together.
    """
    if place is None or not any(task.options for task in piece.tasks):
        return {}
    at_hand = kinds_at(place)
    chosen = {at: option for at, task in enumerate(piece.tasks) if (option := _first(task, place, at_hand)) is not None}
    taken = {option.when.casefold() for option in chosen.values() if option.when}
    for at, task in enumerate(piece.tasks):
        together = next((each for each in task.options if each.when and each.when.casefold() in taken), None)
        if at not in chosen and together is not None and can_do(together.movement, at_hand):
            chosen[at] = together
    return {at: _with_only_bell(option, place) for at, option in chosen.items()}


def piece_here(piece: Piece, place: PlaceRecord | None) -> Piece:
    """Return a piece with those options in front, to be read; its score is one of the piece with swaps."""
    chosen = options_here(piece, place)
    return with_options_first(piece, chosen) if chosen else piece


def swaps_here(piece: Piece, place: PlaceRecord | None) -> str:
    """Say in words what is done in place of what at a place, as a score takes it."""
    chosen = options_here(piece, place)
    return swaps_text(piece, [Swap(at, option) for at, option in sorted(chosen.items())])


def kinds_at(place: PlaceRecord) -> frozenset[str]:
    """Return what stands at a place, by the names that movements have for it."""
    kinds = {item.kind for item in place.items if item.number != 0}
    return frozenset({"barbell" if kind == "bar" else kind for kind in kinds})


def _first(task: Task, place: PlaceRecord, at_hand: frozenset[str]) -> Task | None:
    makeable = [option for option in task.options if can_do(option.movement, at_hand)]
    meant = next((option for option in makeable if written_for(option.when, place.name)), None)
    if meant is not None:
        return meant
    if can_do(task.movement, at_hand):
        return None
    return next(iter(makeable), None)


def _with_only_bell(option: Task, place: PlaceRecord) -> Task:
    """Return an option for two bells with the load of the only pair that stands there, where the coach says none.

    Of a movement that may be done with one or two ("dumbbell row") nothing is taken for known.
    """
    kind = held(option.movement)
    if kind not in ("dumbbell", "kettlebell") or option.load is not None or not option.for_two:
        return option
    bells = [item for item in place.of_kind(kind) if item.mass and item.number != 0]
    pair = len(bells) == 1 and (bells[0].number is None or bells[0].number > 1)
    return replace(option, load=bells[0].mass) if pair else option


def only_one(task: Task, place: PlaceRecord | None) -> bool:
    """Whether a movement is for two bells, and no two of a kind stand at the place."""
    kind = held(task.movement)
    if place is None or not task.for_two or kind not in ("dumbbell", "kettlebell"):
        return False
    bells = [item for item in place.of_kind(kind) if item.mass and item.number != 0]
    return bool(bells) and all(item.number == 1 for item in bells)


def kit_words(piece: Piece, place: PlaceRecord | None) -> tuple[str, ...]:
    """Say of a piece as it is done here where one bell stands for two that are asked, and what stands where no load is said.

    With one, each side comes in turn (common practice); whether less is done is the coach's.
    """
    if place is None:
        return ()
    said: list[str] = []
    for task in piece.tasks:
        kind = held(task.movement)
        if kind not in ("dumbbell", "kettlebell"):
            continue
        bells = [item for item in place.of_kind(kind) if item.mass and item.number != 0]
        if only_one(task, place):
            masses = ", ".join(str(item.mass) for item in bells)
            no_pair = f"one {kind} only ({masses})" if len(bells) == 1 else f"no two {kind}s alike ({masses})"
            said.append(
                f"{task.movement}: {no_pair} here, and two are asked: do it with one, each side in turn, or ask your coach."
            )
        elif task.load is None and 0 < len(bells) <= FEW:
            said.append(f"{task.movement}: {', '.join(map(_bell, bells))} here.")
    return tuple(dict.fromkeys(said))


def _bell(item: KitItemRecord) -> str:
    return f"{item.number} x {item.mass}" if item.number and item.number > 1 else str(item.mass)
