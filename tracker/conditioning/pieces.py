"""A conditioning piece: one frozen definition that a sheet, an entry form, the score and the comparison all read.

Of the kinds, as many as possible, every minute and for time are the three models that the literature describes
(de-Oliveira et al. 2021, Sports 9(11):144, abstract); the others and all written forms are common practice.
"As many as possible" here is a timed piece, never a strength set taken for as many repetitions as there are.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, get_args

from tracker.conditioning.ladder import Ladder, Listed, Run, Steady
from tracker.errors import BadInputError
from tracker.units import Mass, plain

Kind = Literal[
    "as many as possible", "for time", "every minute", "work and rest", "distance", "calories", "heaviest", "unscored"
]
Measure = Literal["reps", "cal", "m", "s"]
ScoredBy = Literal["total", "lowest", "completed"]
Side = Literal["larger", "smaller"]  # which of two written numbers is a member's
SIDES: tuple[Side, ...] = get_args(Side)
KINDS: tuple[Kind, ...] = get_args(Kind)
MEASURES: tuple[Measure, ...] = get_args(Measure)
ONCE = Steady(1)  # one repetition each round
LONGEST_S = 24 * 3600  # a piece ends within a day
MOST_INTERVALS = 500
TIMED: tuple[Kind, ...] = ("as many as possible", "distance", "calories", "heaviest")  # these need a time to fill
IN_INTERVALS: tuple[Kind, ...] = ("every minute", "work and rest")


@dataclass(frozen=True, slots=True)
class Task:
    """One movement of a piece, with all that makes it easier or harder.

    `run` is what each round asks, in `measure`; with `per_side` both sides together. `load` is of each of `implements`.
    `height_cm` is of a box or hurdle, `target_cm` of the mark for a ball, `assistance` a band's name or a counterweight,
    `standard` the range of motion, in words. `options` are the coach's own alternatives, easiest first.
    """

    movement: str
    run: Run = ONCE
    measure: Measure = "reps"
    load: Mass | None = None
    implement: str = ""
    implements: int = 1
    per_side: bool = False
    height_cm: Decimal | None = None
    target_cm: Decimal | None = None
    assistance: str = ""
    standard: str = ""
    options: tuple[Task, ...] = ()

    def __post_init__(self) -> None:
        if not self.movement.strip():
            raise BadInputError("A movement without a name can't be.", mend="Name it, such as kettlebell swing.")
        if self.measure not in MEASURES:
            raise BadInputError(f"{self.measure!r} is not a measure.", mend=f"Use one of {', '.join(MEASURES)}.")
        if not 1 <= self.implements <= 2:
            raise BadInputError(f"{self.implements} implements can't be held.", mend="Write 1 or 2.")
        if self.per_side and any(number % 2 for number in numbers_of(self.run)):
            what = f"{self.movement}: an odd count can't be split between two sides."
            raise BadInputError(what, mend="Count both sides together: 5 on each side are 10.")

    @property
    def counted(self) -> Run:
        """What it adds to a score: its repetitions or calories; a distance or a time counts 1 when done."""
        if self.measure in ("reps", "cal"):
            return self.run
        return Listed((1,) * len(self.run.reps)) if isinstance(self.run, Listed) else Steady(1)

    def words(self, index: int = 0) -> str:
        """Say what round `index` asks, such as "12 wall ball shots, 6 kg ball to 300 cm"."""
        asked = f"{self.run.at(index):,}" + ("" if self.measure == "reps" else f" {self.measure}")
        return ", ".join(part for part in (f"{asked} {self.movement}", *self.marks()) if part)

    def marks(self) -> tuple[str, ...]:
        """Say all but the count and the movement: load, sides, heights, help, standard."""
        return tuple(part for part in (
            "" if self.load is None else f"{f'{self.implements} x ' if self.implements > 1 else ''}{self.load}",
            self.implement,
            "each side in turn" if self.per_side else "",
            "" if self.height_cm is None else f"{plain(self.height_cm)} cm high",
            "" if self.target_cm is None else f"to {plain(self.target_cm)} cm",
            self.assistance and f"with {self.assistance}",
            self.standard,
        ) if part)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Piece:
    """A conditioning piece.

    `cap_s` is the time to fill, or the cap of a piece for time. `rounds` ends the rounds of the tasks; None leaves the
    end to the time, or to the tasks' own lists. Pieces in intervals have `intervals` of `work_s` seconds with `rest_s`
    between; with `in_turn` each interval does the next task, else all of them. `tie_break` names a checkpoint.
    """

    title: str
    kind: Kind
    tasks: tuple[Task, ...] = ()
    rounds: int | None = None
    cap_s: int | None = None
    work_s: int | None = None
    rest_s: int = 0
    intervals: int | None = None
    in_turn: bool = False
    scored_by: ScoredBy = "total"
    tie_break: str = ""
    partners: int = 1
    setting: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        for complaint, mend in _complaints(self):
            raise BadInputError(f"{self.title or 'A piece'}: {complaint}", mend=mend)

    @property
    def ladder(self) -> Ladder:
        """The repetitions of the piece, round by round; of one interval for pieces in intervals."""
        return Ladder(tuple(task.counted for task in self.tasks), self.rounds)

    @property
    def better(self) -> Literal["more", "less", "neither"]:
        """Whether more or less is the better score."""
        if self.kind == "unscored":
            return "neither"
        return "less" if self.kind == "for time" else "more"

    @property
    def all_reps(self) -> int | None:
        """Repetitions of the whole piece; None where only time ends it."""
        return self.ladder.all_reps if self.tasks else None

    @property
    def rounds_to_tap(self) -> int | None:
        """How many ends of rounds its clock notes: None without an end, none where it is one stretch or in intervals."""
        if self.kind not in ("as many as possible", "for time") or not self.tasks or self.ladder.rounds == 1:
            return 0
        return self.ladder.rounds

    @property
    def length_s(self) -> int | None:
        """The longest that it can take, in seconds; None without a cap."""
        if self.kind in IN_INTERVALS and self.work_s and self.intervals:
            return self.intervals * (self.work_s + self.rest_s) - self.rest_s
        return self.cap_s


def numbers_of(run: Run) -> tuple[int, ...]:
    """The numbers that decide a run: all of a written list, first and step of a steady one."""
    return run.reps if isinstance(run, Listed) else (run.first, run.step)


def _complaints(piece: Piece) -> list[tuple[str, str]]:
    """All that can't be in a piece, each with how to mend it, the first thing to mend first."""
    found: list[tuple[bool, str, str]] = [
        (not piece.title.strip(), "it needs a title.", "Name it, so that its scores can be found again."),
        (piece.kind not in KINDS, f"{piece.kind!r} is not a kind of piece.", f"Use one of: {', '.join(KINDS)}."),
        (not piece.tasks and piece.kind != "unscored", "it has no movements.", "Name at least one."),
        (not 1 <= piece.partners <= 10, f"{piece.partners} partners can't be.", "Write 1 for a piece done alone."),
        (piece.kind in TIMED and piece.cap_s is None, "it needs the time to fill.", "Write such as 12:00."),
        (_no_end(piece), "nothing says how many rounds there are.", "Write the rounds, or the list, such as 21-15-9."),
        (
            piece.kind in IN_INTERVALS and not (piece.work_s and piece.intervals),
            "it needs the length of an interval and how many there are.",
            "Write such as every 1:00, 10 times.",
        ),
        (piece.kind in ("distance", "calories", "heaviest") and len(piece.tasks) != 1, "it has one movement.", "Leave one."),
        (piece.intervals is not None and not 1 <= piece.intervals <= MOST_INTERVALS,
         f"{piece.intervals} intervals can't be.", f"Write 1 to {MOST_INTERVALS}."),
        (piece.rest_s < 0, "a rest below zero can't be.", "Write 0 for no rest."),
    ]  # fmt: skip
    for name, seconds in (("cap", piece.cap_s), ("interval", piece.work_s), ("rest", piece.rest_s or None)):
        wrong = seconds is not None and not 0 < seconds <= LONGEST_S
        found.append((wrong, f"a {name} of {seconds} seconds can't be.", "Write minutes and seconds, up to 24 hours."))
    return [(complaint, mend) for wrong, complaint, mend in found if wrong]


def _no_end(piece: Piece) -> bool:
    return piece.kind == "for time" and bool(piece.tasks) and piece.ladder.rounds is None
