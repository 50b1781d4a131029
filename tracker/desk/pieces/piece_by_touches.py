"""A piece put together by touches: its kind, its time or rounds, and movements from the table of names.

Its title is made of what it asks, so that the same piece done again stands beside itself without anybody naming it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Kind, Measure, Piece, Task
from tracker.desk.base.roles import may
from tracker.desk.day.more_words import listed
from tracker.desk.people.people import clean_name
from tracker.desk.pieces.conditioning import add_piece
from tracker.errors import BadInputError
from tracker.log.pieces import PieceRow
from tracker.log.unit_of_work import Log
from tracker.units import Unit, check_load, parse_mass

Way = Literal["as many rounds as possible", "for time", "every minute", "as far as possible"]
WAYS: tuple[Way, ...] = ("as many rounds as possible", "for time", "every minute", "as far as possible")
MEASURES: dict[Measure, str] = {"reps": "reps", "m": "metres", "cal": "calories", "s": "seconds"}
LIMITS: dict[Measure, int] = {"reps": 1000, "m": 100_000, "cal": 2000, "s": 3600}
MOST_MINUTES, MOST_ROUNDS, MOST_MOVEMENTS = 240, 100, 20
MOST_TITLE = 80  # letters of a title that is made here


@dataclass(frozen=True, slots=True)
class Part:
    """One movement: as it was chosen or typed, how much of it each round, in what, and with which load as typed."""

    movement: str
    amount: int
    measure: Measure = "reps"
    load: str = ""


def movements() -> tuple[str, ...]:
    """List the names of movements to choose from, by the alphabet."""
    from tracker.prescription.sheet.words.names import movement_names  # late: with the reader's patterns

    return movement_names()


def usual_measure(movement: str) -> Measure:
    """Return what a movement is usually measured in; repetitions where the table has it not."""
    from tracker.prescription.sheet.words.names import known

    found = known(movement)
    return found.measure if found and found.measure in MEASURES else "reps"  # type: ignore[return-value]


def piece_of(
    way: Way,
    parts: Sequence[Part],
    *,
    minutes: int | None = None,
    rounds: int | None = None,
    title: str = "",
    unit: Unit = "kg",
) -> Piece:
    """Make a piece of what was touched.

    Args:
        way: How it is done and scored.
        parts: Its movements, in their order.
        minutes: The time to fill; of a piece for time the cap, if there is one; of every minute how many of them.
        rounds: Of a piece for time.
        title: What to call it; made of what it asks where it is empty.
        unit: Of loads that are typed without one.

    Raises:
        BadInputError: what is missing or can't be, with what to touch.
    """
    if not parts:
        raise BadInputError("The piece has no movement yet.", where="movements", mend="Choose a movement and add it.")
    if len(parts) > MOST_MOVEMENTS:
        raise BadInputError("These are too many movements.", where="movements", mend=f"Take at most {MOST_MOVEMENTS}.")
    if minutes is not None and not 1 <= minutes <= MOST_MINUTES:
        raise BadInputError(f"{minutes} minutes can't be.", where="minutes", mend=f"Write 1 to {MOST_MINUTES}.")
    if way != "for time" and minutes is None:
        raise BadInputError("Nothing says how long it takes.", where="minutes", mend="Write how many minutes.")
    if way == "as far as possible" and (len(parts) != 1 or parts[0].measure not in ("m", "cal")):
        raise BadInputError(
            "As far as possible is of one movement, in metres or calories.", where="movements",
            mend="Leave one, or choose as many rounds as possible.",
        )  # fmt: skip
    if way == "for time" and not 1 <= (rounds or 1) <= MOST_ROUNDS:
        raise BadInputError(f"{rounds} rounds can't be.", where="rounds", mend=f"Write 1 to {MOST_ROUNDS}.")
    tasks = tuple(_task(each, unit, amount=way != "as far as possible") for each in parts)
    called = clean_name(title, "piece") if title.strip() else _title(way, tasks, minutes, rounds)
    return _piece(way, called, tasks, minutes, rounds)


def _task(part: Part, unit: Unit, *, amount: bool) -> Task:
    from tracker.prescription.sheet.words.names import full_name

    name, _ = full_name(clean_name(part.movement, "movement"))
    if amount and not 1 <= part.amount <= LIMITS[part.measure]:
        what = f"{name}: {part.amount:,} {MEASURES[part.measure]} can't be."
        raise BadInputError(what, where="movements", mend=f"Write 1 to {LIMITS[part.measure]:,}.")
    load = parse_mass(part.load, unit=unit, where="load") if part.load.strip() else None
    if load is not None:
        check_load(load, where=name)
    return Task(name, Steady(part.amount if amount else 1), part.measure, load)


def _piece(way: Way, title: str, tasks: tuple[Task, ...], minutes: int | None, rounds: int | None) -> Piece:
    seconds = minutes * 60 if minutes else None
    if way == "for time":
        return Piece(title, "for time", tasks, rounds=rounds or 1, cap_s=seconds)
    if way == "every minute":
        return Piece(
            title, "every minute", tasks, work_s=60, intervals=minutes, in_turn=len(tasks) > 1, scored_by="completed"
        )
    if way == "as many rounds as possible":
        return Piece(title, "as many as possible", tasks, cap_s=seconds)
    kind: Kind = "distance" if tasks[0].measure == "m" else "calories"
    return Piece(title, kind, tasks, cap_s=seconds)


def _title(way: Way, tasks: Sequence[Task], minutes: int | None, rounds: int | None) -> str:
    """Say in short what it asks: `12 min: 10 burpee and 200 m run`."""
    what = listed(
        [task.movement if way == "as far as possible" else task.asked(f"{task.as_asked.at(0):,}") for task in tasks]
    )
    times = f"{rounds} rounds for time" if (rounds or 1) > 1 else "For time"
    cap = f", cap {minutes} min" if minutes else ""
    head = (
        f"{times}{cap}"
        if way == "for time"
        else f"Every minute, {minutes} min"
        if way == "every minute"
        else f"{minutes} min"
    )
    said = f"{head}: {what}"
    return said if len(said) <= MOST_TITLE else f"{said[: MOST_TITLE - 1].rstrip()}…"


@may("common")
def add_by_touches(
    log: Log,
    way: Way,
    parts: Sequence[Part],
    *,
    minutes: int | None = None,
    rounds: int | None = None,
    title: str = "",
    unit: Unit = "kg",
    member_id: str | None = None,
) -> PieceRow:
    """Add a piece that was put together by touches: see `piece_of`."""
    return add_piece(log, piece_of(way, parts, minutes=minutes, rounds=rounds, title=title, unit=unit), member_id)
