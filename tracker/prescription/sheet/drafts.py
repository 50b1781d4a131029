"""Lifts, pieces, texts and sessions while their lines are still being read."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.model import (
    Alternative,
    FindMax,
    Implement,
    LiftBlock,
    Of,
    Percent,
    Reps,
    SetGroup,
    Text,
    TextKind,
)
from tracker.prescription.sheet.names import Name, known
from tracker.prescription.sheet.piece import Count, Movement, Pair, Piece
from tracker.prescription.sheet.piece_heads import AGAIN
from tracker.prescription.sheet.sets_found import Group
from tracker.prescription.sheet.words import load_words
from tracker.units import Mass, plain


def takes_load(name: str) -> bool:
    """Whether a movement is done with a load: what only a body does takes none that is told for all."""
    entry = known(name)
    return entry is None or entry.implement not in ("body", "machine")


TRAINING_MAX = Decimal(90)  # per cent of the 1RM, where a sheet does not say; common practice
PAIRED = {"dumbbells", "kettlebells"}


@dataclass
class LiftDraft:
    """A lift: its names (several for a complex), and what was said of its sets so far."""

    names: list[str]
    line: int
    known: Name | None = None
    implement: str = ""
    implement_said: bool = False
    of: Of | None = None
    groups: list[Group] = field(default_factory=list)
    alternatives: list[Alternative] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    each_side: bool = False
    rest_s: int | None = None
    tempo: str = ""
    joined: bool = False
    every_s: int | None = None
    text: list[str] = field(default_factory=list)
    label: str = ""
    weeks: dict[int, list[Group]] = field(default_factory=dict)
    parts: tuple[int, ...] = ()  # repetitions of each lift of a complex, from its heading
    strict: bool = False  # name and implement were written as a heading of their own
    pending: list[Any] = field(default_factory=list)
    prose: bool = False
    in_block: bool = False  # a line above said how many sets each lift of a block has
    count: int = 0  # how many sets, where that stood on a line of its own
    clock_sets: int = 0  # sets that a clock above asks of each line
    minute_reps: int = 0  # repetitions of each minute, whose loads follow line by line

    @property
    def name(self) -> str:
        return " + ".join(self.names)

    @property
    def empty(self) -> bool:
        return not self.groups and not self.weeks

    def as_piece(self) -> PieceDraft | None:
        """Return the piece on a clock that these sets would be; None where they stand on none, or can't be."""
        groups = [group for group in self.groups if isinstance(group, SetGroup)]
        if not self.every_s or len(groups) != 1 or len(self.names) != 1 or len(groups[0].reps.parts) != 1:
            return None
        load = groups[0].load
        words = [] if load is None or isinstance(load, Mass | Pair) else [load_words(load, self.of)]
        move = Movement(
            self.names[0][:1].lower() + self.names[0][1:],
            Count((groups[0].reps.parts[0],)),
            "reps",
            load if isinstance(load, Mass | Pair) else None,
            standard=", ".join(words),
            line=self.line,
        )
        fields = {"kind": "every minute", "work_s": self.every_s, "intervals": groups[0].sets}
        return PieceDraft(
            self.line, fields=fields, moves=[move], notes=list(self.notes), text=list(self.text), label=self.label
        )

    def record(self, asker: Asker, defaults: Defaults, groups: list[Group] | None = None) -> LiftBlock:
        """Return the lift as it was understood; what is open is asked."""
        if (
            self.count > 1
            and len(self.groups) == 1
            and isinstance(self.groups[0], SetGroup)
            and self.groups[0].sets == 1
        ):
            self.groups = [replace(self.groups[0], sets=self.count)]
        of = self._of(self.of, defaults, asker) if self.of else None
        sets = [self._settled(group, of, defaults, asker) for group in (self.groups if groups is None else groups)]
        bare = any(
            isinstance(each, SetGroup) and isinstance(each.load, Percent) and each.load.of is None for each in sets
        )
        said = {
            each.load.of
            for each in sets
            if isinstance(each, SetGroup) and isinstance(each.load, Percent) and each.load.of is not None
        }
        if bare and of is None and len(said) == 1 and not (only := next(iter(said))).heavy:
            of = only  # what one of its sets says holds for the others
        if bare and of is None:
            of = self._default_of(defaults, asker)
        shared = {each.load.of for each in sets if isinstance(each, SetGroup) and isinstance(each.load, Percent)}
        if (
            of is None
            and len(shared) == 1
            and None not in shared
            and all(
                not isinstance(each, SetGroup) or not isinstance(each.load, Percent) or each.load.of for each in sets
            )
        ):
            common = next(iter(shared))
            if common is not None and not common.heavy:
                of = common
        if of is not None:
            sets = [_without_of(each, of) for each in sets]
        return LiftBlock(
            tuple(self.names), self._implement(asker), of, self.each_side, self.rest_s, self.tempo, tuple(sets), tuple(self.alternatives),
            tuple(dict.fromkeys(note for note in self.notes if note)), self.joined, self.every_s, self.line, tuple(self.text),
        )  # fmt: skip

    def _settled(self, group: Group, of: Of | None, defaults: Defaults, asker: Asker) -> Group:
        if isinstance(group, SetGroup):
            if self.parts and len(group.reps.parts) <= 1 and not group.reps.out:
                times = group.reps.parts[0] if group.reps.parts and len(self.names) > 1 else 1
                if group.reps.parts and len(self.names) == 1 and group.sets == 1:
                    group = replace(group, sets=group.reps.parts[0])  # "3 position snatch x 5"
                if times > 1:
                    typed = defaults.typed.get(group.line, "").strip()
                    choices = (
                        Choice("in one set", f"the complex {times} times in one set"),
                        Choice("sets", f"{times} sets of the complex"),
                    )
                    if (
                        asker.choose(
                            "number behind a complex",
                            group.line or self.line,
                            typed,
                            f"{times} sets, or {times} times in one set?",
                            choices,
                        )
                        == "sets"
                    ):
                        group, times = replace(group, sets=group.sets * times), 1
                group = replace(group, reps=replace(group.reps, parts=tuple(part * times for part in self.parts)))
            if isinstance(group.load, Percent) and group.load.of is not None:
                group = replace(group, load=replace(group.load, of=self._of(group.load.of, defaults, asker)))
        return group if group.line else replace(group, line=self.line)

    def _of(self, of: Of, defaults: Defaults, asker: Asker) -> Of:
        if of.heavy:
            reps = next((each.reps for each in self.groups if isinstance(each, FindMax)), 1)
            return replace(of, reps=reps)
        if of.percent is not None and of.percent < 0:
            return replace(of, percent=defaults.training_max(asker, self.line, self.text[-1] if self.text else ""))
        return of

    def _default_of(self, defaults: Defaults, asker: Asker) -> Of:
        found = next((place for place, each in enumerate(self.groups) if isinstance(each, FindMax)), None)
        after = found is not None and any(
            isinstance(each, SetGroup) and isinstance(each.load, Percent) for each in self.groups[found + 1 :]
        )
        if after:
            heavy = next(each for each in self.groups if isinstance(each, FindMax))
            return Of(heavy.reps, heavy=True)
        if defaults.of is None and defaults.share is not None:
            return Of(1, percent=defaults.share)
        if defaults.of is not None:
            return self._of(defaults.of, defaults, asker)
        choices = (
            Choice("1RM", "of the 1RM"),
            Choice("training max", f"of a training max of {plain(TRAINING_MAX)} % of the 1RM"),
            Choice("3RM", "of the 3RM"),
            Choice("5RM", "of the 5RM"),
        )
        line = next(
            (
                each.line
                for each in self.groups
                if isinstance(each, SetGroup) and isinstance(each.load, Percent) and each.line
            ),
            self.line,
        )
        typed = defaults.typed.get(line, self.text[0] if self.text else "")
        taken = asker.choose("per cent of what", line, typed.strip(), "Per cent of what?", choices)
        return {"1RM": Of(1), "training max": Of(1, percent=TRAINING_MAX), "3RM": Of(3), "5RM": Of(5)}[taken]

    def _implement(self, asker: Asker) -> Implement:
        if self.implement and self.implement != "?":
            return self.implement  # type: ignore[return-value]
        if self.known is not None and self.known.implement != "?":
            return self.known.implement  # type: ignore[return-value]
        percent = any(isinstance(each, SetGroup) and isinstance(each.load, Percent) for each in self.groups)
        if self.known is None and (percent or len(self.names) > 1):
            return "barbell"
        name = self.names[0]
        codes = ("unasked", "barbell", "dumbbells", "dumbbell", "kettlebell", "machine", "body")
        words = {"unasked": "not known yet", "body": "no load"}
        choices = tuple(Choice(code, words.get(code, code)) for code in codes)
        typed = self.text[0] if self.text else name
        return asker.choose(f"implement of {name.lower()}", self.line, typed.strip(), f"{name} with what?", choices)  # type: ignore[return-value]


def _without_of(group: Group, of: Of) -> Group:
    """What the lift says for all its sets need not stand with each."""
    if isinstance(group, SetGroup) and isinstance(group.load, Percent) and group.load.of == of:
        return replace(group, load=replace(group.load, of=None))
    return group


@dataclass
class Defaults:
    """What a sheet says once for all of it: the share of a training max, what percentages are of, its unit."""

    share: Decimal | None = None
    of: Of | None = None
    unit: str = ""
    units: bool = False  # whether it names any unit of mass
    typed: dict[int, str] = field(default_factory=dict)

    def training_max(self, asker: Asker, line: int, text: str) -> Decimal:
        """Return the share of the 1RM that a training max is; asked where the sheet does not say."""
        if self.share is not None:
            return self.share
        codes = ("90", "85", "95", "100")
        choices = tuple(Choice(code, f"{code} % of the 1RM") for code in codes)
        where = next(
            (
                number
                for number, typed in self.typed.items()
                if "training max" in typed.lower() or "tm" in typed.lower().split()
            ),
            line,
        )
        return Decimal(
            asker.choose(
                "share of a training max",
                where,
                self.typed.get(where, text).strip(),
                "A training max of how much?",
                choices,
            )
        )


@dataclass
class PieceDraft:
    """A piece: how it is done, its movements, and what was said of it so far."""

    line: int
    title: str = ""
    fields: dict[str, Any] = field(default_factory=dict)
    moves: list[Movement] = field(default_factory=list)
    scheme: Count | None = None
    notes: list[str] = field(default_factory=list)
    text: list[str] = field(default_factory=list)
    label: str = ""
    section: str = ""
    loose: bool = False  # movements without a word on how they are done
    inline: bool = False  # its movements stood on the line of its clock
    part: str = ""
    strength_clock: bool = False
    stations: int = 0
    works: list[int] = field(default_factory=list)  # seconds of each movement, where it is done for a time
    step: int = 0  # by how much its counts rise from round to round
    repeats: bool = False  # one amount that is done several times: intervals, where there is a rest
    death_by: bool = False
    from_start: int = 0
    explicit: bool = False  # it began with "Piece:"
    printed: bool = False  # it is written as a printed sheet has it
    indent: int = -1
    shared_load: Any = None
    named: bool = False  # its title stood on a line of its own
    listed: bool = False  # its movements have labels of their own: 1. 2. 3.

    @property
    def empty(self) -> bool:
        return not self.moves and not self.fields

    def record(self, asker: Asker) -> Piece:
        """Return the piece as it was understood."""
        fields = dict(self.fields)
        moves = list(self.moves)
        kind = fields.get("kind")
        if self.printed:
            return self._piece(kind, moves, self.scheme, fields)
        if (kind is None or (kind == "for time" and not self.said_time)) and (block := self._block(moves, fields)):
            kind, moves, fields = block
        if kind is None:
            kind = self._kind(fields)
        if (
            kind in (None, "unscored")
            and not self.said_time
            and not fields.get("rounds")
            and AGAIN.search(" ".join([*self.text, *self.notes]).lower())
            and (length := fields.get("cap_s") or self._length())
        ):
            kind, fields["cap_s"] = "as many as possible", length
        if (
            kind == "unscored"
            and fields.get("rest_s")
            and fields.get("rounds")
            and len(moves) == 1
            and (self.repeats or (moves[0].measure == "m" and moves[0].name in ("run", "row", "ski", "bike", "swim")))
        ):
            kind, fields["intervals"] = "work and rest", fields.pop("rounds")
        if (
            kind == "as many as possible"
            and "cap_s" not in fields
            and not self.from_start
            and (length := self._length())
        ):
            fields["cap_s"] = length
        if kind == "as many as possible" and "cap_s" not in fields and self.from_start:
            fields["cap_s"] = self.from_start
        if kind == "every minute" and "intervals" not in fields and self.from_start and fields.get("work_s"):
            fields["intervals"] = self.from_start // fields["work_s"]
        if kind == "every minute" and "intervals" not in fields and fields.get("rounds") and not self.death_by:
            fields["intervals"] = fields["rounds"] * (
                max(1, len(moves)) if fields.get("in_turn") or self.stations else 1
            )
        if kind == "work and rest" and "intervals" not in fields and fields.get("rounds"):
            stations = all(move.count is None and move.sides is None for move in moves)
            if len(moves) > 1 and stations and not self.inline and not self._alternating():
                fields["in_turn"] = True
            else:
                fields["intervals"] = fields.pop("rounds")
        if (
            kind == "as many as possible"
            and len(moves) == 1
            and moves[0].count is None
            and moves[0].measure in ("cal", "m")
            and moves[0].sides is None
            and self.scheme is None
        ):
            kind = "calories" if moves[0].measure == "cal" else "distance"
        if self.death_by and moves:
            moves = [replace(moves[0], count=Count((1,), 1), options=())]
        if kind == "unscored" and len(moves) == 1 and "cap_s" not in fields:
            kind, moves, fields = self._for_so_long(moves[0], fields)
        if kind in ("work and rest", "distance"):
            moves = self._measured(moves)
        if self.step and not any(move.count is not None and (move.count.step or move.count.listed) for move in moves):
            moves = [
                replace(each, count=replace(each.count, step=self.step))
                if each.count is not None and each.measure in ("reps", "cal") and not each.part
                else each
                for each in moves
            ]
        if self.stations > 1 and kind in ("every minute",):
            fields["in_turn"] = True
        if self.shared_load is not None:
            moves = [
                replace(each, load=self.shared_load)
                if each.load is None and each.measure == "reps" and takes_load(each.name)
                else each
                for each in moves
            ]
        scheme = self.scheme
        if scheme is not None and moves and not self.printed:
            moves = [
                replace(each, count=scheme)
                if each.count is None and each.sides is None and not each.most and not each.part
                else each
                for each in moves
            ]
            scheme = None if all(each.count is not None or each.most or each.sides for each in moves) else scheme
        return self._piece(kind, moves, scheme, fields)

    def _piece(self, kind: Any, moves: list[Movement], scheme: Count | None, fields: dict[str, Any]) -> Piece:
        return Piece(
            self.title, kind, tuple(moves), scheme, fields.get("rounds"), fields.get("cap_s"), fields.get("work_s"), fields.get("rest_s") or 0,
            fields.get("intervals"), bool(fields.get("in_turn")), fields.get("scored_by", "total"), fields.get("tie_break", ""), fields.get("partners", 1),
            fields.get("setting", ""), tuple(dict.fromkeys(note for note in self.notes if note)), self.line, tuple(self.text),
        )  # fmt: skip

    def _length(self) -> int | None:
        """The one time of minutes that the piece's lines say."""
        from tracker.prescription.sheet.plain_words import plain as in_plain
        from tracker.prescription.sheet.tokens import tokens_of

        times = {
            token.value
            for line in self.text[:3]
            for token in tokens_of(in_plain(line))
            if token.kind == "time" and 180 <= token.value <= 3600
        }
        return times.pop() if len(times) == 1 else None

    @property
    def said_time(self) -> bool:
        return re.search(r"\btime\b|\brft\b|\bft\b", " ".join(self.text).lower()) is not None

    def _block(
        self, moves: list[Movement], fields: dict[str, Any]
    ) -> tuple[Any, list[Movement], dict[str, Any]] | None:
        """`4 sets: 1:00 max cal row, 1:00 max snatches, 1:00 rest`: stations of one length, with a rest, are work and rest."""
        works = set(self.works)
        if not fields.get("rounds") or len(self.works) != len(moves) or len(works) != 1 or not fields.get("rest_s"):
            return None
        work = works.pop()
        holds = all(
            (entry := known(move.name)) is not None and entry.measure == "s" and not move.most for move in moves
        )
        if work < 15 or holds:
            return None
        freed = [replace(move, count=None, measure="reps" if move.measure == "s" else move.measure) for move in moves]
        return "work and rest", freed, {**fields, "work_s": work}

    def _measured(self, moves: list[Movement]) -> list[Movement]:
        """Give a machine without an amount the measure that its score is told in."""
        said = " ".join([*self.text, *self.notes]).lower()
        found = []
        for each in moves:
            move = each
            if (
                move.count is None
                and move.measure == "reps"
                and move.sides is None
                and move.name in ("row", "run", "ski", "bike")
            ):
                if re.search(r"\bcals?\b|\bcalories\b", said) and move.name != "run":
                    move = replace(move, measure="cal")
                elif len(moves) == 1 and re.search(r"\b(?:met(?:re|er)s?|distance)\b", said):
                    move = replace(move, measure="m")
            found.append(move)
        return found

    def _alternating(self) -> bool:
        return bool(re.search(r"\balternat", " ".join([*self.text, *self.notes]).lower()))

    def _for_so_long(self, move: Movement, fields: dict[str, Any]) -> tuple[Any, list[Movement], dict[str, Any]]:
        """`20 min row` is a piece of 20 minutes; one whose metres or calories are wanted is scored by them."""
        entry = known(move.name)
        if (
            move.measure == "s"
            and move.count is not None
            and not move.count.listed
            and move.count.reps[0] >= 240
            and entry is not None
            and entry.measure == "reps"
            and not fields.get("rounds")
        ):
            return "unscored", [replace(move, count=None, measure="reps")], {**fields, "cap_s": move.count.reps[0]}
        if (
            move.measure != "s"
            or move.count is None
            or move.count.listed
            or move.count.reps[0] < 120
            or move.name not in ("row", "run", "ski", "bike", "walk", "swim", "ruck", "jump rope")
        ):
            return "unscored", [move], fields
        said = " ".join([*self.text, *self.notes]).lower()
        length = {**fields, "cap_s": move.count.reps[0]}
        if re.search(r"\bmet(?:re|er)s\b|\bdistance\b", said):
            return "distance", [replace(move, count=None, measure="m")], length
        if re.search(r"\bcals\b|\bcalories\b", said):
            return "calories", [replace(move, count=None, measure="cal")], length
        return "unscored", [replace(move, count=None, measure="reps")], length

    def lift_on_clock(self) -> LiftDraft | None:
        """Return the sets that this piece would be if its one lift is meant as strength; None where it can't be."""
        work, number = self.fields.get("work_s"), self.fields.get("intervals")
        if self.fields.get("kind") != "every minute" or not self.strength_clock or len(self.moves) != 1 or not number:
            return None
        move = self.moves[0]
        entry = known(move.name, lift=True)
        if (
            move.load is None
            or move.measure != "reps"
            or move.count is None
            or move.count.listed
            or move.count.step
            or entry is None
            or entry.implement != "barbell"
        ):
            return None
        lift = LiftDraft(
            [move.name[:1].upper() + move.name[1:]],
            self.line,
            entry,
            every_s=work,
            text=list(self.text),
            notes=list(self.notes),
        )
        lift.groups = [SetGroup(number, Reps((move.count.reps[0],)), move.load, line=self.line)]
        return lift

    def _kind(self, fields: dict[str, Any]) -> Any:
        """Tell the kind of a piece that names none."""
        if (
            fields.get("cap_s")
            or self.scheme is not None
            or any(each.count is not None and each.count.listed for each in self.moves)
        ):
            return "for time"
        if fields.get("rounds") and self.section == "conditioning":
            return "for time"
        said = " ".join([*self.text, *self.notes]).lower()
        if fields.get("rounds") and re.search(r"\b(?:wod|met-?con)\b", said):
            return "for time"
        if fields.get("rounds") and any(
            word in said for word in ("your time", "ur time", "total time", "the time", "the clock", "fast")
        ):
            return "for time"
        return "unscored"


@dataclass
class TextDraft:
    """Free words of the coach."""

    kind: TextKind
    line: int
    lines: list[str] = field(default_factory=list)
    explicit: bool = False

    def record(self) -> Text:
        return Text(self.kind, tuple(self.lines), self.line)


@dataclass
class SessionDraft:
    """A session: its day and its items."""

    line: int = 0
    title: str = ""
    week: int | None = None
    day: int | None = None
    weekday: int | None = None
    on: date | None = None
    month_day: tuple[int, int] | None = None
    items: list[LiftDraft | PieceDraft | TextDraft] = field(default_factory=list)
    headed: bool = False
