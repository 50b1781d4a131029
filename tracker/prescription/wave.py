"""A wave: prescribed sets at percentages of a reference max, and the loads that a kit makes of them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from tracker.errors import BadInputError
from tracker.limits import MOST_RM
from tracker.prescription.changes import load_in_turn
from tracker.prescription.kit import POUND_KIT, STANDARD_KIT, BarKit
from tracker.prescription.plates import Rounding
from tracker.prescription.rounding import RoundingChoice, change_note
from tracker.units import Mass, Unit, check_load, parse_decimal, parse_mass, plain

MOST_SETS, MOST_REPS, MOST_PERCENT = 100, 100, 200  # more is a slip of the finger; design choice

_SETS = re.compile(r"(\d{1,4})\s*[x×]\s*(\d{1,4})\s*@\s*([\d.]+)\s*%?", re.IGNORECASE | re.ASCII)
_REFERENCE = re.compile(r"\s*(\d{1,4})\s*RM\s*=\s*(.+)", re.IGNORECASE | re.ASCII)


@dataclass(frozen=True, slots=True)
class PrescribedSets:
    """So many sets of so many repetitions at a percentage of a reference max."""

    sets: int
    reps: int
    percent: Decimal

    def __post_init__(self) -> None:
        for value, most, what in ((self.sets, MOST_SETS, "sets"), (self.reps, MOST_REPS, "repetitions")):
            if not 1 <= value <= most:
                raise BadInputError(f"{value} {what} can't be.", where="wave", mend=f"Write 1 to {most} {what}.")
        if not 0 < self.percent <= MOST_PERCENT:
            raise BadInputError(
                f"{plain(self.percent)} % can't be.", where="wave", mend=f"Write more than 0, up to {MOST_PERCENT} %."
            )

    def __str__(self) -> str:
        return f"{self.sets}x{self.reps}@{plain(self.percent)}"


@dataclass(frozen=True, slots=True)
class ReferenceMax:
    """The rep-max that percentages refer to, and where it comes from: given, tested, declared or estimated."""

    reps: int
    load: Mass
    source: str = "given"

    def __post_init__(self) -> None:
        if not 1 <= self.reps <= MOST_RM:
            raise BadInputError(f"A {self.reps}RM can't be.", where="reference", mend=f"Write 1RM to {MOST_RM}RM.")
        check_load(self.load, where="reference")


@dataclass(frozen=True, slots=True)
class WorkingSet:
    """One set to be done; `target`, `load` and `unit` are the bar's. `percent` is asked, `actual_percent` is true of the load."""

    set: int
    reps: int
    percent: Decimal
    target: Decimal
    load: Decimal
    actual_percent: Decimal
    per_side: tuple[Mass, ...]
    unit: Unit
    note: str | None = None

    def as_record(self) -> dict[str, Any]:
        """Return plain numbers for a document: `per_side` in the set's unit, and the discs as they are marked."""
        record: dict[str, Any] = {
            "set": self.set, "reps": self.reps, "percent": float(self.percent), "target": float(self.target),
            "load": float(self.load), "actual_percent": float(self.actual_percent),
            "per_side": [float(disc.to(self.unit)) for disc in self.per_side], "unit": self.unit,
        }  # fmt: skip
        if any(disc.unit != self.unit for disc in self.per_side):
            record["discs"] = [str(disc) for disc in self.per_side]
        return record | ({"note": self.note} if self.note else {})


def parse_wave(text: str, *, where: str = "wave") -> tuple[PrescribedSets, ...]:
    """Read `sets x reps @ percent`, several parted by commas: `1x4@72, 1x4@77, 3x4@82 %`.

    Raises:
        BadInputError: if a part can't be read; it says which column.
    """
    parts = [part for part in re.finditer(r"[^,;\n]+", text) if part[0].strip()]
    if not parts:
        raise BadInputError("There are no sets.", where=where, mend="Write such as 1x4@72, 3x4@82.")
    return tuple(_sets(part[0].strip(), f"{where}, column {_start(part)}") for part in parts)


def _start(part: re.Match[str]) -> int:
    return part.start() + 1 + len(part[0]) - len(part[0].lstrip())


def _sets(part: str, where: str) -> PrescribedSets:
    match = _SETS.fullmatch(part)
    if not match:
        raise BadInputError(
            f"{part!r} is no sets x reps @ percent.",
            where=where,
            mend="Write such as 3x4@82, sets first, a decimal with a point, and a comma between.",
        )
    percent = parse_decimal(match[3], where=where)
    try:
        return PrescribedSets(int(match[1]), int(match[2]), percent)
    except BadInputError as err:
        raise BadInputError(err.what, where=where, mend=err.mend) from None


def parse_reference(text: str, *, where: str = "reference") -> ReferenceMax:
    """Read a reference max such as `3RM=92.5kg`.

    Raises:
        BadInputError: if it is no such thing.
    """
    match = _REFERENCE.fullmatch(text)
    if not match:
        raise BadInputError(f"{text.strip()!r} is no reference max.", where=where, mend="Write such as 3RM=92.5kg.")
    return ReferenceMax(int(match[1]), parse_mass(match[2], where=where))


def common_kit(unit: Unit) -> BarKit:
    """Return the kit to reckon with where none is known: common discs of the unit, as many as needed."""
    return POUND_KIT if unit == "lb" else STANDARD_KIT


def working_sets(
    reference: ReferenceMax, wave: Sequence[PrescribedSets], kit: BarKit | None = None, rounding: Rounding = "nearest"
) -> tuple[WorkingSet, ...]:
    """Turn a wave into loads that the kit makes, one entry for each set to be done.

    Percentages are of the reference max itself, never by way of a 1RM. Only the final load is rounded, once.

    Raises:
        BadInputError: if a load would be over 1,000 kg.
    """
    kit = kit or common_kit(reference.load.unit)
    asked = [each for each in wave for _ in range(each.sets)]
    targets = [Mass(reference.load.amount * each.percent / 100, reference.load.unit) for each in asked]
    loadings = load_in_turn(targets, kit, rounding)
    return tuple(
        WorkingSet(
            number, each.reps, each.percent, target.to(kit.unit), made.load.amount, made.load.kg / reference.load.kg * 100,
            made.per_side, kit.unit, made.note or change_note(target, made.load, RoundingChoice(rounding)),
        )
        for number, (each, target, made) in enumerate(zip(asked, targets, loadings, strict=True), 1)
    )  # fmt: skip
