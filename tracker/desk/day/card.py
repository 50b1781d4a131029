"""The card of a set as plain values: what every page draws of it, the one that a phone keeps as well as the day's own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from tracker.desk.day import attempts
from tracker.desk.day.attempts import NextAttempt
from tracker.desk.day.line_words import BARS, asked, made_of, part_of, which
from tracker.desk.day.lines import PlannedLine, chance_words
from tracker.desk.maxes.words import first_up, load_words
from tracker.desk.people import places
from tracker.log.records import LiftRecord, MemberRecord, PlaceRecord
from tracker.safety import Caution, foremost
from tracker.units import Mass, plain

Record = dict[str, Any]


def card(line: PlannedLine, lines: Sequence[PlannedLine], member: MemberRecord, place: PlaceRecord | None, day: date) -> Record:  # fmt: skip
    """Return which set it is, what it asks and what it is done with here, and what to know of it.

    `lines` are all of its session. Masses are decimals as text; a disc is its mass, its unit and its kilograms.
    """
    return {
        "title": line.lift.title,
        "which": first_up(which(line, lines)),
        **loaded(line, member, place, day),
        "notes": list(line.notes),
        "proposal": "",
        "cautions": care(line.cautions),
    }


def loaded(line: PlannedLine, member: MemberRecord, place: PlaceRecord | None, day: date) -> Record:
    """Return the load of a set, and all that is said of that."""
    made, bar = line.made, places.bar_in_use(member, place)
    named = bar and (bar.label if bar.mass is None or str(bar.mass) in bar.label else f"{bar.label} of {bar.mass}")
    on = named if named and "of" not in (made.words if made else "") else ""
    return {
        "reps": line.reps,
        "each_side": line.planned.each_side,
        "asked": first_up(asked(line)),
        "load": plain(made.load.amount) if made else None,
        "unit": made.load.unit if made else member.unit,
        "load_words": load_words(made.load, line.lift) if made else "",
        "made": times_sign(made_of(line, on)),
        "discs": discs(made.per_side) if made else [],
        "chance": chance_words(line.chance, line.reps),
        "part": part_of(line, day),
    }


def attempt(at: NextAttempt, lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None) -> Record:
    """Return what an attempt of a test has in place of a set's: the load that is proposed, and why.

    Without a proposal the words alone. What the answer on safety means stands among the notes already.
    """
    chance = chance_words(at.chance, at.new.reps)
    words = " ".join(
        each for each in at.words if not each.startswith("By all") and each not in attempts.SAFETY_SAID.values()
    )
    if at.made is None:
        return {"proposal": words}
    record = load_record(at.made.load, lift, member, place)
    load_words = record.pop("words")
    asked = f"{at.new.reps} × {load_words}"
    return {**record, "load_words": load_words, "asked": asked, "proposal": words, "chance": chance}


def care(cautions: Iterable[Caution]) -> list[dict[str, str]]:
    """List cautions, the one whose line stands in sight first."""
    return [
        {"line": each.line, "text": each.text, "basis": each.basis, "advice": each.advice}
        for each in foremost(cautions)
    ]


def load_record(load: Mass, lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None) -> Record:
    """Return a load of a lift by itself, with what it is made of here."""
    made = places.make_load(load, lift, member, place)
    return {
        "load": plain(load.amount),
        "unit": load.unit,
        "words": load_words(load, lift),
        "made": times_sign(made.words if made and lift.implement in BARS else ""),
        "discs": discs(made.per_side) if made else [],
    }


def times_sign(words: str) -> str:
    return words.replace(" x ", " × ")


def discs(per_side: Iterable[Mass]) -> list[list[Any]]:
    """List the discs of one side, heaviest first: mass, unit, kilograms."""
    return [[plain(each.amount), each.unit, round(float(each.kg), 2)] for each in per_side]
