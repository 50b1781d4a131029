"""A piece while its lines are still being read."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Any

from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.piece import Count, Movement, PieceBlock
from tracker.prescription.sheet.pieces.heads import AGAIN, NO_SCORE
from tracker.prescription.sheet.words.names import known

# Intervals that are all done of one movement before the next
_EACH_ONE = re.compile(
    r"\b(?:x ?\d{1,2}|\d{1,2} ?(?:x|rounds?|rds|intervals?|sets)),? (?:of |on |for )?each\b(?! (?:side|leg|arm|way|partner|person|athlete|member|one of you))|\b(?:full |whole |complete )?tabata (?:of |on |for |per )?each\b(?! (?:side|leg|arm|way|partner|person|athlete|member|one of you))"
    r"|\b(?:1|2|3|one|two) ?(?:min(?:ute)?s?|') ?(?:rest |off |break )?between (?:the |each |all )?(?:moves|movements?|exercises?|tabatas)\b"
    r"|\btabata (?!\d|\()[a-z][a-z -]{2,30}[,;+&].*\btabata (?!\d|\()[a-z]|\b[2-4] tabatas\b"
)


_SO_LONG = re.compile(
    r"\b(\d{1,2}) ?(?:min(?:ute)?s?|')(?: (?:easy|steady|slow|light|of|flow|nice|very|at|talking|pace|moving|work)){0,4} ?:"
)
# The same movements a second time, the other way round
_BACK_AGAIN = re.compile(
    r"\b(?:then |and )?(?:back (?:up|down|through|again|the other way)|(?:in |the )?reverse(?: order)?)\b"
)


def _with_loads_of_before(moves: list[Movement]) -> list[Movement]:
    """Give a movement that comes again without a load the one that it had."""
    found: list[Movement] = []
    for move in moves:
        before = next((each.load for each in found if each.name == move.name and each.load is not None), None)
        found.append(replace(move, load=before) if move.load is None and before is not None else move)
    return found


# What is written down is the time it took
_TIMED = re.compile(
    r"\b(?:total|finish(?:ing)?|final|overall) times?\b(?! ?cap)|\bscore (?:is|=|:)? ?(?:the |your )?(?:total )?time\b|\bwrite (?:down )?(?:the |your )time\b"
)
_SAME_LOAD = re.compile(
    r"\bsame (?:bell|bar|barbell|kb|kettlebell|db|dumbbell|ball|sandbag|weight|load)s?\b|\bmit (?:der|dem) gleichen\b"
)
# Barbell movements joined by a plus, with one load behind all of them
_JOINED = re.compile(r"[a-z]\s*\+\s*\d*\s*[a-z]", re.IGNORECASE)


def _with_load_of_above(moves: list[Movement]) -> list[Movement]:
    """`8 goblet squats with the same bell`: the load of the movement above."""
    found: list[Movement] = []
    for move in moves:
        said = f"{move.standard} {move.assistance}"
        same = move.load is None and found and found[-1].load is not None and _SAME_LOAD.search(said)
        found.append(replace(move, load=found[-1].load) if same else move)
    return found


def as_complex(moves: list[Movement], text: list[str]) -> list[Movement]:
    """`1 power clean + 1 push jerk, 60/40 kg`: one bar, so one load for all on a line that are joined."""
    found = list(moves)
    joins = {len(_JOINED.findall(typed)) for typed in text}
    for at in {move.line for move in moves}:
        here = [place for place, move in enumerate(moves) if move.line == at]
        last = moves[here[-1]]
        if (
            len(here) > 1
            and len(here) - 1 in joins
            and last.load is not None
            and all(moves[place].load is None for place in here[:-1])
            and all((entry := known(moves[place].name)) and entry.implement == "barbell" for place in here)
        ):
            for place in here:
                found[place] = replace(moves[place], load=last.load)
    return found


def takes_load(name: str) -> bool:
    """Whether a movement is done with a load: what only a body does takes none that is told for all."""
    entry = known(name)
    return entry is None or entry.implement not in ("body", "machine")


@dataclass
class PieceDraft:
    """A piece: how it is done, its movements, and what was said of it so far."""

    line: int
    title: str = ""
    fields: dict[str, Any] = field(default_factory=dict[str, Any])
    moves: list[Movement] = field(default_factory=list[Movement])
    scheme: Count | None = None
    notes: list[str] = field(default_factory=list[str])
    text: list[str] = field(default_factory=list[str])
    label: str = ""
    section: str = ""
    loose: bool = False  # movements without a word on how they are done
    inline: bool = False  # its movements stood on the line of its clock
    part: str = ""
    strength_clock: bool = False
    stations: int = 0
    works: list[int] = field(default_factory=list[int])  # seconds of each movement, where it is done for a time
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

    def record(self, asker: Asker) -> PieceBlock:
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
        if kind == "unscored" and moves and _TIMED.search(" ".join(self.notes).lower()):
            kind = "for time"
        if (
            kind in (None, "unscored")
            and not self.said_time
            and not fields.get("rounds")
            and AGAIN.search(said := " ".join([*self.text, *self.notes]).lower())
            and not NO_SCORE.search(said)
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
            first = moves[0]
            told = f"{first.count.reps[0]} m" if first.measure == "m" and first.count is not None else ""
            moves = [
                replace(
                    first,
                    count=Count((1,), 1),
                    options=(),
                    measure="reps" if told else first.measure,
                    standard=", ".join(each for each in (told, first.standard) if each),
                )
            ]
            fields.pop("in_turn", None)
            self.stations = 0
            if "intervals" not in fields and (most := fields.get("cap_s") or self._death_to()):
                fields["intervals"] = most // 60
        if kind == "unscored" and len(moves) > 1 and not fields.keys() & {"cap_s", "rounds"}:
            said = _SO_LONG.findall(" ".join(self.text).lower())
            if len(said) == 1 and self._length() == int(said[0]) * 60:
                fields["cap_s"] = int(said[0]) * 60
        if _BACK_AGAIN.search(" ".join(self.text).lower()):
            moves = _with_loads_of_before(moves)
        if kind == "unscored" and len(moves) == 1 and "cap_s" not in fields:
            kind, moves, fields = self._for_so_long(moves[0], fields)
        if kind in ("work and rest", "distance"):
            moves = self._measured(moves)
        moves = _with_load_of_above(moves)
        if kind == "heaviest" and len(moves) > 1 and all(move.count is None for move in moves):
            moves = [replace(move, count=Count((1,))) for move in moves]  # "power clean + push jerk": one of each
        if kind in ("every minute", "heaviest") or self.strength_clock:
            moves = as_complex(moves, self.text)
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

    def _piece(self, kind: Any, moves: list[Movement], scheme: Count | None, fields: dict[str, Any]) -> PieceBlock:
        return PieceBlock(
            self.title, kind, tuple(moves), scheme, fields.get("rounds"), fields.get("cap_s"), fields.get("work_s"), fields.get("rest_s") or 0,
            fields.get("intervals"), bool(fields.get("in_turn")), fields.get("scored_by", "total"), fields.get("tie_break", ""), fields.get("partners", 1),
            fields.get("setting", ""), tuple(dict.fromkeys(note for note in self.notes if note)), self.line, tuple(self.text),
        )  # fmt: skip

    def one_by_one(self) -> list[PieceDraft]:
        """Return a piece for each movement where intervals are done of one after the other: `tabata, 8 rounds each`."""
        fields = self.fields
        if self.listed and fields.get("kind") == "as many as possible" and (parts := self._listed_apart()):
            return parts
        if (
            len(self.moves) < 2
            or fields.get("kind") != "work and rest"
            or self.printed
            or fields.get("rounds")
            or fields.get("in_turn")
            or not (fields.get("work_s") and fields.get("intervals"))
            or not _EACH_ONE.search(" ".join(self.text[:2]).lower())
        ):
            return [self]
        first, *others = self.moves
        rest = [replace(self, line=move.line or self.line, title="", moves=[move], fields=dict(fields), notes=[], label="") for move in others]  # fmt: skip
        self.moves = [first]
        return [self, *rest]

    def _listed_apart(self) -> list[PieceDraft]:
        """`3 AMRAPs of 5 min, rest 3 min: 1) ... 2) ... 3) ...`: a piece for each that is numbered; empty where they are one."""
        lines = list(dict.fromkeys(move.line for move in self.moves))
        if not self.fields.get("cap_s") or len(lines) < 2 or self.fields.get("intervals") != len(lines):
            return []
        rest = self.fields.get("rest_s")
        own = {key: value for key, value in self.fields.items() if key not in ("intervals", "rest_s", "work_s")}
        parts = [
            replace(self, line=at, moves=[each for each in self.moves if each.line == at], fields=dict(own), notes=[])
            for at in lines
        ]
        self.moves, self.fields = parts[0].moves, own
        self.notes += [f"rest {rest // 60}:{rest % 60:02d} between"] if rest else []
        return [self, *parts[1:]]

    def _death_to(self) -> int:
        """Seconds of `death by thrusters to 15`: how many minutes at most."""
        found = re.search(
            r"\bdeath by\b[^.;]*\b(?:up )?(?:to|till|until|stop(?:ping)? (?:at|after)) (?:min(?:ute)? )?(\d{1,2})\b(?! ?(?:kg|lb|cal|m\b|reps))",
            " ".join(self.text[:2]).lower(),
        )
        return int(found[1]) * 60 if found else 0

    def _length(self) -> int | None:
        """The one time of minutes that the piece's lines say."""
        from tracker.prescription.sheet.tokens.tokens import tokens_of
        from tracker.prescription.sheet.words.plain_words import plain as in_plain

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
        found: list[Movement] = []
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
