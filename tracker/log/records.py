"""What the log hands out: plain frozen records, loads as typed."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal
from typing import Literal

from tracker.strength.records import Kind, Outcome
from tracker.units import Mass, Unit

Implement = Literal[
    "unasked", "barbell", "dumbbells", "dumbbell", "kettlebells", "kettlebell", "machine", "body", "other"
]
KitKind = Literal["bar", "collars", "disc", "dumbbell", "kettlebell", "ball", "band", "machine"]
StepState = Literal["planned", "done", "skipped"]
MaxSource = Literal["tested", "declared"]
GoalEnd = Literal["reached", "given up"]
WayRule = Literal["", "same", "doubled"]  # what becomes of the repetitions where sets are done another way


EACH_SIDE = "each side"  # among the words of a planned set: what no column of it holds


@dataclass(frozen=True, slots=True)
class MemberRecord:
    id: str
    name: str
    unit: Unit
    place_id: str | None
    bar_id: str | None
    no_heavy: bool
    minor: bool
    alone: bool
    shared: bool = False  # with the coach
    began: datetime | None = field(default=None, compare=False)  # when the log of theirs was begun


@dataclass(frozen=True, slots=True)
class LiftRecord:
    """A movement with its implement; the load is that of each implement, or added to the body."""

    id: str
    name: str
    implement: Implement
    implements: int
    per_side: bool
    body: bool
    spotted: bool

    @property
    def title(self) -> str:
        """Name lift and implement together: front squat, barbell."""
        return self.name if self.implement in ("unasked", "body", "other") else f"{self.name}, {self.implement}"


@dataclass(frozen=True, slots=True)
class KitItemRecord:
    """A thing at a place; `number` is pairs of a disc or pieces of a fixed weight, None as many as needed.

    Of a machine `mass` is the smallest step of its stack (None: nobody said), and `label` which machine it is.
    """

    id: str
    kind: KitKind
    label: str
    mass: Mass | None
    number: int | None


@dataclass(frozen=True, slots=True)
class PlaceRecord:
    id: str
    name: str
    unit: Unit
    pins: bool
    items: tuple[KitItemRecord, ...]

    def of_kind(self, kind: KitKind) -> tuple[KitItemRecord, ...]:
        return tuple(item for item in self.items if item.kind == kind)


@dataclass(frozen=True, slots=True)
class SetRow:
    """One set as it stands in the log."""

    id: str
    member_id: str
    session_id: str
    day: date
    lift: LiftRecord
    position: int
    kind: Kind
    load: Mass
    reps: int
    rir: Decimal | None
    outcome: Outcome
    body_mass: Mass | None
    left_out: str | None
    note: str
    planned_set_id: str | None
    planned_round: int | None
    member_step_id: str | None
    logged_at: datetime
    removed_at: datetime | None
    per_side: bool | None = None  # where the set says so by itself; else as its lift is done

    @property
    def each_side(self) -> bool:
        """Whether its repetitions are those of each side."""
        return self.lift.per_side if self.per_side is None else self.per_side

    @property
    def moved_kg(self) -> float:
        """What is really moved, in kilograms: with body mass where the body is lifted."""
        return float(self.load.kg + (self.body_mass.kg if self.body_mass else 0))


@dataclass(frozen=True, slots=True)
class SessionRow:
    id: str
    member_id: str
    day: date
    label: str
    place_id: str | None
    minutes: int | None
    rating: int | None
    note: str


@dataclass(frozen=True, slots=True)
class RepMaxRow:
    """A rep-max known without its set."""

    id: str
    member_id: str
    lift: LiftRecord
    day: date
    reps: int
    load: Mass
    source: MaxSource
    note: str
    aside: bool = False  # by its member: kept and shown, and used for nothing


@dataclass(frozen=True, slots=True)
class PlannedSetRow:
    """So many sets of one lift at a percentage of an nRM."""

    id: str
    lift: LiftRecord
    position: int
    sets: int
    reps: int
    percent: Decimal | None
    of_reps: int | None
    rep_out: bool
    test: bool
    rest_s: int | None
    tempo: str
    block: int = 0  # sets of one block are one lift of the session
    way: int = 0  # above 0: what to do instead of the block's sets
    of_lift: LiftRecord | None = None  # whose nRM; none: the lift's own
    load: Mass | None = None
    reserve: Decimal | None = None
    high_reps: int | None = None
    words: str = ""  # what the other fields can't say; lines before the last are notes of the whole lift
    rule: WayRule = ""  # of a way

    @property
    def each_side(self) -> bool:
        """Whether its repetitions are those of each side: by its lift, or because the coach wrote so of these sets."""
        return self.lift.per_side or EACH_SIDE in self.own_words.split("; ")

    @property
    def rated(self) -> bool:
        """Whether the coach asks for an effort as RPE, so that it is said as RPE."""
        return any(part.startswith("RPE ") for part in self.own_words.split("; "))

    @property
    def lift_notes(self) -> tuple[str, ...]:
        """The coach's notes on the whole lift, which are kept with the first set of its block."""
        return tuple(self.words.split("\n")[:-1])

    @property
    def own_words(self) -> str:
        """The coach's words on these sets alone."""
        return self.words.rpartition("\n")[2]


@dataclass(frozen=True, slots=True)
class StepRow:
    """One session of a wave as it was written, in nobody's calendar."""

    id: str
    wave_id: str
    wave: str
    position: int
    title: str
    text: str
    sets: tuple[PlannedSetRow, ...]
    ways: tuple[PlannedSetRow, ...] = ()  # the coach's alternatives to some of the sets


@dataclass(frozen=True, slots=True)
class MemberStepRow:
    """One session of a wave in one member's calendar."""

    id: str
    wave_id: str
    wave: str
    step_id: str
    position: int
    title: str
    text: str
    due: date
    planned_due: date
    state: StepState
    repeat: int
    ease: Decimal | None
    sets: tuple[PlannedSetRow, ...]
    ways: tuple[PlannedSetRow, ...] = ()  # the coach's alternatives to some of the sets
    own: bool = False  # put together by the member for one day


@dataclass(frozen=True, slots=True)
class ChangeRow:
    """One act in the history."""

    act_id: str
    words: str
    at: datetime
    undone: bool
    records: int
    theirs: bool = True  # whoever asks can take it back: it is theirs alone
