"""How a prescribed set is said: repetitions, load, what it is a part of, what it is made of."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from tracker.desk.day.lines import LESS_LIKELY, PlannedLine, chance_words
from tracker.desk.maxes.words import first_up, load_words, reference_words, reps_words
from tracker.desk.people import places
from tracker.prescription.for_place import WITH_EITHER
from tracker.prescription.rounding import rounded
from tracker.units import Mass, plain, short

BARS = ("barbell", "unasked")


def which(line: PlannedLine, lines: Sequence[PlannedLine]) -> str:
    """Say which of the sets of its lift it is, among the lines of its session: `set 2 of 5`, `attempt 3`."""
    if line.planned.test:
        return f"attempt {len(line.attempts) + 1}"
    same = [each.key for each in lines if each.lift.id == line.lift.id]
    turn = "" if line.turn is None else ", in turn"
    return f"set {same.index(line.key) + 1} of {len(same)}{turn}"


def reps_asked(line: PlannedLine) -> str:
    """Say the repetitions: 5, 8 to 10, 5 or more, 8 each side."""
    planned = line.planned
    if planned.high_reps and planned.high_reps > line.reps:
        return f"{line.reps} to {reps_words(planned.high_reps, each_side=planned.each_side)}"
    reps = reps_words(line.reps, each_side=planned.each_side)
    if line.uncounted:
        return f"as many as there are{' each side' if planned.each_side else ''}"
    return f"{reps} or more" if planned.rep_out else reps


def asked(line: PlannedLine) -> str:
    """Say the set as it is asked for here: `4 × 60 kg`, `4 at 74 % of the 3RM`, `test of the 3RM`."""
    if line.planned.test:
        return f"test of the {line.planned.reps}RM"
    if line.made is not None:
        return f"{reps_asked(line)} × {load_words(line.made.load, line.lift)}{other_unit(line)}"
    if line.planned.percent is None or line.instead is not None:
        side = " each side" if line.planned.each_side else ""
        said = reps_asked(line).removesuffix(side)
        return f"1 repetition{side}" if said == "1" else f"{said} repetitions{side}"
    return f"{reps_asked(line)} at {plain(line.planned.percent)} % of the {line.planned.of_reps}RM"


def other_unit(line: PlannedLine) -> str:
    """Say a load in the unit of the sheet or of the max as well, where what stands here is in the other one: ` (77 kg)`."""
    spoken = line.planned.load or (line.reference.load if line.reference else None)
    if line.made is None or spoken is None or spoken.unit == line.made.load.unit or line.lift.body:
        return ""
    return f" ({short(rounded(Mass(line.made.load.to(spoken.unit), spoken.unit)))})"


def made_of(line: PlannedLine, bar: str) -> str:
    """Say what the load is made of, on which bar, with what tempo and how much in reserve."""
    words = line.made.words.replace(" x ", " × ") if line.made else ""
    if line.made and line.lift.implement in places.FIXED:  # one or two of them, and not so many repetitions
        either = WITH_EITHER & set(line.lift.name.lower().split())
        held = "dumbbell or kettlebell" if either and line.lift.implements == 1 else line.lift.implement
        words = f"{line.lift.implements} {held} of {short(line.made.load)}"
    if words and bar and line.lift.implement in BARS:
        words = f"{words}, on the {bar}"
    tempo = f"tempo {line.planned.tempo}" if line.planned.tempo else ""
    reserve = f"leave {plain(line.planned.reserve)} in reserve" if line.planned.reserve is not None else ""
    return first_up(", ".join(each for each in (words, tempo, reserve) if each))


def part_of(line: PlannedLine, day: date) -> str:
    """Say the coach's percentage, what the kit makes of it, and of which max it is, how old that is, and whether it holds.

    `74 % of your 3RM = 61 kg, loaded 60 kg. Tested 3RM 82.5 kg, 5 weeks ago.` What it comes to is said to the half kilogram
    or the pound, since no max is known finer.
    """
    if line.reference is None or line.percent is None:
        return ""
    other = line.planned.of_lift or line.lift
    of = f" of {other.title}" if other.id != line.lift.id else ""
    holds = f" {line.reference.holds.words}" if line.reference.holds else ""
    max_words = first_up(reference_words(line.reference, other, day))
    body = f" {line.of.body}" if line.of and line.of.body else ""
    return f"{_share(line, of)}. {max_words}.{body}{holds}"


def _share(line: PlannedLine, of: str) -> str:
    reps = line.reference.reps if line.reference else 1
    if line.of is None or line.made is None:
        return f"{line.percent:.0f} % of your {reps}RM{of}"
    unit = line.reference.load.unit if line.reference and not line.lift.body else line.made.load.unit
    target = rounded(Mass(line.of.target.to(unit), unit))
    loaded = load_words(line.made.load, line.lift)
    comes_to = load_words(target, line.lift)
    also = "" if comes_to == loaded else f", loaded {loaded}"
    asked_for = line.planned.percent if line.planned.percent is not None else line.of.percent
    less = f", {round(100 - line.of.percent / asked_for * 100)} % lower today" if line.of.percent < asked_for else ""
    basis = line.of.basis
    said = ", ".join(each for each in (basis.words, basis.by) if each)
    together = f", {said}," if line.lift.body and said else ""
    return f"{plain(asked_for)} % of your {reps}RM{of}{together}{less} = {comes_to}{also}"


def in_short(line: PlannedLine) -> str:
    """Say discs, and a chance that is worth a word, behind a set in a list."""
    made = f", {line.made.words}" if line.made and line.lift.implement in BARS else ""
    chance = (
        f". {chance_words(line.chance, line.reps)}" if line.chance is not None and line.chance < LESS_LIKELY else ""
    )
    return f"{made}{chance}"
