"""A conditioning piece: one frozen definition that a sheet, an entry form, the score and the comparison all read.

Of the kinds, as many as possible, every minute and for time are the three models that the literature describes
(de-Oliveira et al. 2021, Sports 9(11):144, abstract); the others and all written forms are common practice.
"As many as possible" here is a timed piece, never a strength set taken for as many repetitions as there are.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal, get_args

from tracker.conditioning.ladder import Ladder, Listed, Run, Steady
from tracker.conditioning.named import after_count
from tracker.conditioning.pairs import cm_words, load_words, pair_in
from tracker.conditioning.plain_values import fits
from tracker.errors import BadInputError
from tracker.limits import MOST_INTERVALS
from tracker.units import Mass

Kind = Literal[
    "as many as possible", "for time", "every minute", "work and rest", "distance", "calories", "heaviest", "unscored"
]
Measure = Literal["reps", "cal", "m", "s"]
ScoredBy = Literal["total", "lowest", "completed"]
Part = Literal["", "buy-in", "cash-out"]  # in the rounds, or once before or after them; terms of the trade
Side = Literal["larger", "smaller"]  # which of two written numbers is a member's
SIDES: tuple[Side, ...] = get_args(Side)
PARTS: tuple[Part, ...] = ("buy-in", "", "cash-out")  # in the order in which they are done
KINDS: tuple[Kind, ...] = get_args(Kind)
MEASURES: tuple[Measure, ...] = get_args(Measure)
ONCE = Steady(1)  # one repetition each round
LONGEST_S = 24 * 3600  # a piece ends within a day
MOST_DEPTH = 3  # of alternatives within alternatives
TIMED: tuple[Kind, ...] = ("as many as possible", "distance", "calories", "heaviest")  # these need a time to fill
IN_INTERVALS: tuple[Kind, ...] = ("every minute", "work and rest")
IN_ROUNDS: tuple[Kind, ...] = (
    "as many as possible",
    "for time",
)  # scored by how far one came, or by the time of it all


@dataclass(frozen=True, slots=True)
class Task:
    """One movement of a piece, with all that makes it easier or harder.

    `run` is what each round asks, in `measure`; with `per_side` both sides together. `load` is of each of `implements`.
    `height_cm` is of a box or hurdle, `target_cm` of the mark for a ball, `assistance` a band's name or a counterweight,
    `standard` the range of motion, in words. `options` are the coach's own alternatives, easiest first; `when` says of one
    whom it is for, in the coach's words.

    Coaches write pairs for two groups ("12/9 cal row, 43/30 kg"): `sides` in place of `run`, two loads, two heights, two
    targets, the larger first. `for_side` makes one member's of it. `most` asks for as many as there is time for, and
    `no_amount` is a movement of which nobody says how much. A `part` is done once, before or after the rounds.
    """

    movement: str
    run: Run = ONCE
    measure: Measure = "reps"
    load: Mass | tuple[Mass, Mass] | None = None
    implement: str = ""
    implements: int = 1
    per_side: bool = False
    height_cm: Decimal | tuple[Decimal, Decimal] | None = None
    target_cm: Decimal | tuple[Decimal, Decimal] | None = None
    assistance: str = ""
    standard: str = ""
    options: tuple[Task, ...] = ()
    sides: tuple[int, int] | None = None
    most: bool = False
    no_amount: bool = False
    part: Part = ""
    when: str = ""

    def __post_init__(self) -> None:
        if not self.movement.strip():
            raise BadInputError("A movement without a name can't be.", mend="Name it, such as kettlebell swing.")
        if self.measure not in MEASURES:
            raise BadInputError(f"{self.measure!r} is not a measure.", mend=f"Use one of {', '.join(MEASURES)}.")
        if not 1 <= self.implements <= 2:
            raise BadInputError(f"{self.implements} implements can't be held.", mend="Write 1 or 2.")
        if self.part not in PARTS:
            raise BadInputError(f"{self.part!r} is no part of a piece.", mend="Use buy-in or cash-out.")
        if self.sides is not None and min(self.sides) < 1:
            raise BadInputError(f"{self.movement}: less than 1 can't be asked.", mend="Write such as 12/9.")
        said = not (self.most or self.no_amount)  # else the numbers are none of a coach's
        if said and self.per_side and any(number % 2 for number in self.sides or numbers_of(self.run)):
            what = f"{self.movement}: an odd count can't be split between two sides."
            raise BadInputError(what, mend="Count both sides together: 5 on each side are 10.")
        if self._depth > MOST_DEPTH:
            raise BadInputError(
                "An alternative has alternatives of its own.", where=self.movement, mend="Leave them out."
            )
        fits(self, *numbers_of(self.run), where=self.movement)

    @property
    def _depth(self) -> int:
        """How deep alternatives lie within alternatives."""
        return max((1 + option._depth for option in self.options), default=0)

    @property
    def amount(self) -> Run:
        """What each round asks; of a pair the larger, as long as nobody has said whose it is."""
        return self.run if self.sides is None else Steady(self.sides[0])

    @property
    def as_asked(self) -> Run:
        """What each round asks as coaches say it: of a movement for both sides, how many a side."""
        run = self.amount
        if not self.per_side or self.most or self.no_amount:  # then the numbers are none of a coach's
            return run
        if isinstance(run, Listed):
            return Listed(tuple(number // 2 for number in run.reps))
        return Steady(run.first // 2, run.step // 2)

    @property
    def counted(self) -> Run:
        """What it adds to a score: its repetitions or calories; a distance or a time counts 1 when done."""
        run = self.amount
        if self.measure in ("reps", "cal"):
            return run
        return Listed((1,) * len(run.reps)) if isinstance(run, Listed) else ONCE

    @property
    def paired(self) -> bool:
        """Whether two numbers stand in it or in one of its options, of which each member has one."""
        pairs = (self.sides, self.load, self.height_cm, self.target_cm, pair_in(self.standard))
        return any(isinstance(each, tuple) for each in pairs) or any(option.paired for option in self.options)

    def words(self, index: int = 0) -> str:
        """Say what round `index` asks: "12/9 cal row", "12 wall ball shots, 6 kg ball to 300 cm", "10 each side: lunge"."""
        return ", ".join((self.asked(f"{self.as_asked.at(index):,}"), *self.marks()))

    def asked(self, count: str, colon: str = "") -> str:
        """Say how much of the movement is asked: a pair as it is written, else `count`; "max" for as many as there are.

        `count` is of `as_asked`: of a movement for both sides, how many a side.
        """
        unit = "" if self.measure == "reps" else f" {self.measure}"
        if self.no_amount:
            return self.movement
        one = count == "1" and self.sides is None and not self.most
        name = after_count(self.movement, 1 if one else None) if self.measure == "reps" else self.movement
        if self.most:
            return f"max{unit} {name}"
        if self.sides is not None:
            by = 2 if self.per_side else 1
            count, colon = f"{self.sides[0] // by:,}/{self.sides[1] // by:,}", ""
        side = " each side:" if self.per_side else colon
        return f"{count}{unit}{side} {name}"

    def marks(self) -> tuple[str, ...]:
        """Say all but the count and the movement: load, sides, heights, help, standard; pairs as 43/30 kg.

        An implement that the movement names already is not said again.
        """
        return tuple(part for part in (
            "" if self.load is None else f"{f'{self.implements} x ' if self.implements > 1 else ''}{load_words(self.load)}",
            "" if self.implement in self.movement.casefold() else self.implement,
            "each side in turn" if self.per_side and (self.most or self.no_amount) else "",
            "" if self.height_cm is None else f"{cm_words(self.height_cm)} high",
            "" if self.target_cm is None else f"to {cm_words(self.target_cm)}",
            self.assistance and f"with {self.assistance}",
            self.standard,
        ) if part)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Piece:
    """A conditioning piece.

    `cap_s` is the time to fill, or the cap of a piece for time. `rounds` ends the rounds of the tasks; None leaves the
    end to the time, or to the tasks' own lists. Pieces in intervals have `intervals` of `work_s` seconds with `rest_s`
    between; with `in_turn` each interval does the next task, else all of them. Intervals of work and rest that say no seconds
    ask for so much each, and are timed one by one: "6 x 500 m row, 2:00 rest". `tie_break` names a checkpoint. Tasks stand
    in the order in which they are done: buy-in, rounds, cash-out. `side` is set where `for_side` has made one member's
    piece of it, and `yours` says then which of the two numbers are theirs.
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
    side: Side | Literal[""] = ""
    yours: str = ""

    def __post_init__(self) -> None:
        fits(self, where=self.title or "piece")
        for complaint, mend in _complaints(self):
            raise BadInputError(f"{self.title or 'A piece'}: {complaint}", mend=mend)

    @property
    def ladder(self) -> Ladder:
        """The repetitions of the piece, round by round; of one interval for pieces in intervals.

        Where repetitions say no place (`uncounted`), it is only what each round asks as far as anybody says.
        """
        by_part = {part: [task for task in self.tasks if task.part == part] for part in PARTS}
        rounds, after = by_part[""], by_part["cash-out"]
        most = self.rounds
        open_end = self._ends_open
        if open_end and not after:
            rounds = rounds[:-1]
            most = most or (1 if all(isinstance(task.amount, Steady) for task in rounds) else None)
        once = [_once(task) for task in (after[:-1] if open_end and after else after)]
        return Ladder(
            tuple(task.counted for task in rounds), most, tuple(map(_once, by_part["buy-in"])), tuple(once), open_end
        )

    @property
    def _ends_open(self) -> bool:
        """Whether its last movement is done for as many repetitions as there is time for, once all others are done."""
        if self.kind != "as many as possible" or len(self.tasks) < 2:
            return False
        *others, last = self.tasks
        if not last.most or last.measure not in ("reps", "cal") or any(each.most or each.no_amount for each in others):
            return False
        if not last.part and self.rounds not in (None, 1):
            return False  # it comes in each round
        rounds = [each.amount for each in others if not each.part]
        return self.rounds is not None or all(isinstance(each, Listed) or not each.step for each in rounds)

    @property
    def plainly_counted(self) -> bool:
        """Whether its score is one number without a place in rounds: as many as possible of one movement."""
        return (
            self.kind == "as many as possible"
            and len(self.tasks) == 1
            and (self.tasks[0].most or self.tasks[0].no_amount)
        )

    @property
    def one_number_in(self) -> Measure:
        """In what its one number is counted, where it has no place in rounds.

        That is what goes on as long as there is time, where nothing stands beside it that many count together with it.
        """
        if self.kind != "as many as possible":
            return "reps"
        free = [task for task in self.tasks if task.most] or [task for task in self.tasks if task.no_amount]
        measures = {task.measure for task in free}
        if len(measures) != 1:
            return "reps"
        if free == [self.tasks[-1]] and free[0].most and free[0].measure == "m":
            return "m"  # all before it is a fixed number, and is never counted together with metres
        beside = any(task.measure == "reps" and not (task.part or task.no_amount) for task in self.tasks)
        return "reps" if beside else free[0].measure

    @property
    def uncounted(self) -> str:
        """Why repetitions say no place in it, in words; empty where they do, or where it is not scored by them."""
        if self.kind not in IN_ROUNDS or self.plainly_counted:
            return ""
        for task in self.tasks:
            if task.no_amount:
                return f"nothing says how much of {task.movement} there is"
            if task.most and not self._ends_open:
                return f"as many as possible of {task.movement} is no fixed number"
        if self.kind == "as many as possible" and self.ladder.rounds is None and self.ladder.after:
            return f"only the clock says when {next(task.movement for task in self.tasks if task.part == 'cash-out')} begins"
        return ""

    @property
    def placed(self) -> bool:
        """Whether a number of repetitions is a place in it, in rounds and movements."""
        return self.kind in IN_ROUNDS and bool(self.tasks) and not self.plainly_counted and not self.uncounted

    @property
    def paired(self) -> bool:
        """Whether pairs are written in it, of which each member has one number."""
        return any(task.paired for task in self.tasks)

    @property
    def timed_intervals(self) -> bool:
        """Whether each interval asks for an amount and takes as long as it takes: its times are the score."""
        return self.kind == "work and rest" and self.work_s is None

    @property
    def better(self) -> Literal["more", "less", "neither"]:
        """Whether more or less is the better score."""
        if self.kind == "unscored":
            return "neither"
        by_time = self.kind == "for time" or (self.timed_intervals and self.scored_by != "completed")
        return "less" if by_time else "more"

    @property
    def all_reps(self) -> int | None:
        """Repetitions of the whole piece; None where only time ends it."""
        return self.ladder.all_reps if self.tasks and not self.uncounted else None

    @property
    def rounds_to_tap(self) -> int | None:
        """How many ends of rounds its clock notes: None without an end, none where a round is no place or the only one."""
        if not self.placed or self.ladder.rounds == 1:
            return 0
        return self.ladder.rounds

    @property
    def ends_to_tap(self) -> int | None:
        """How many ends its clock notes: of rounds, or of intervals that are timed one by one."""
        return self.intervals if self.timed_intervals else self.rounds_to_tap

    @property
    def length_s(self) -> int | None:
        """The longest that it can take, in seconds; None without a cap."""
        if self.kind in IN_INTERVALS and self.work_s and self.intervals:
            return self.intervals * (self.work_s + self.rest_s) - self.rest_s
        return self.cap_s


def numbers_of(run: Run) -> tuple[int, ...]:
    """The numbers that decide a run: all of a written list, first and step of a steady one."""
    return run.reps if isinstance(run, Listed) else (run.first, run.step)


def _once(task: Task) -> int:
    """What a part asks that is done once."""
    return sum(task.counted.reps) if isinstance(task.counted, Listed) else task.counted.first


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
            (piece.kind in IN_INTERVALS and not piece.intervals) or _no_work(piece),
            "it needs the length of an interval and how many there are.",
            "Write such as every 1:00, 10 times.",
        ),
        (piece.kind in ("distance", "calories", "heaviest") and len(piece.tasks) != 1, "it has one movement.", "Leave one."),
        (piece.intervals is not None and not 1 <= piece.intervals <= MOST_INTERVALS,
         f"{piece.intervals} intervals can't be.", f"Write 1 to {MOST_INTERVALS}."),
        (piece.rest_s < 0, "a rest below zero can't be.", "Write 0 for no rest."),
        (list(piece.tasks) != in_order(piece.tasks), "a buy-in comes before the rounds, a cash-out after them.",
         "Write them in the order in which they are done."),
    ]  # fmt: skip
    for name, seconds in (("cap", piece.cap_s), ("interval", piece.work_s), ("rest", piece.rest_s or None)):
        wrong = seconds is not None and not 0 < seconds <= LONGEST_S
        found.append((wrong, f"a {name} of {seconds} seconds can't be.", "Write minutes and seconds, up to 24 hours."))
    return [(complaint, mend) for wrong, complaint, mend in found if wrong]


def with_amount_of(task: Task, of: Task) -> Task:
    """Return a movement with as much of it as of another one, in the same part: what is done in its place."""
    return replace(
        task, run=of.run, measure=of.measure, sides=of.sides, most=of.most, no_amount=of.no_amount, part=of.part
    )


def in_order(tasks: Iterable[Task]) -> list[Task]:
    """Return movements in the order in which their parts are done."""
    return sorted(tasks, key=lambda task: PARTS.index(task.part))


def _no_work(piece: Piece) -> bool:
    """Whether nothing says how long or how much an interval is."""
    if piece.kind not in IN_INTERVALS or piece.work_s:
        return False
    amounts = [not (task.no_amount or task.most) for task in piece.tasks]
    return piece.kind == "every minute" or not all(amounts) or all(task.measure == "s" for task in piece.tasks)


def _no_end(piece: Piece) -> bool:
    return piece.kind == "for time" and bool(piece.tasks) and piece.ladder.rounds is None
