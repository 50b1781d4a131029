"""Reads strength on a clock: sets of a lift that begin every so often."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from typing import Any

from tracker.prescription.sheet.asks import Choice
from tracker.prescription.sheet.lifts.lift_line import (
    STEPS,
    as_lift,
    counts_before,
    first_up,
    main_names,
    stepped,
)
from tracker.prescription.sheet.lifts.sets_reading import spread
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.lines.marks import BULLET, STATION
from tracker.prescription.sheet.model import Reps, SetGroup
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import CLOCKS, Head
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.walk.blocks import Blocks
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.plain_words import plain


class Clocks(Blocks):
    """Lifts on a clock."""

    def _second_station(self) -> bool:
        """Whether the next line is the second station of a clock, with something to do there."""
        below = next((other.text for other in self.lines[self.at + 1 : self.at + 3] if not other.blank), "")
        found = STATION.match(below := BULLET.sub("", below, count=1))
        told = tokens_of(plain(below[found.end() :])) if found is not None else []
        if found is None or not any(token.kind == "name" for token in told):
            return False
        if {token.kind for token in told} & {"pct", "mass", "pair", "rpe", "rir"} or re.search(
            r"\d ?(?:kg|lb|%)", below
        ):
            return False  # two lifts in turn
        number = next((found[key] for key in ("a", "c", "d", "e", "g", "h") if found[key]), "")
        return number == "2" or (found["f"] or "").lower() == "even"

    def _lift_on_clock(self, line: Line, tokens: list[Token], head: Head, names: list[Token], kinds: set[str]) -> bool:
        """Sets of a lift on a clock: in per cent, by effort or to a heavy set it is a lift, in kilograms a piece."""
        loads = kinds & {"pct", "atx", "atlist", "find", "rpe", "rir", "tempo"}
        piece = self.open_piece
        clock = head.strength_clock
        fields = dict(head.fields)
        if (
            not clock
            and piece is not None
            and piece.strength_clock
            and not piece.moves
            and (names or "minutesmark" in kinds)
        ):
            clock, fields = True, {**piece.fields, **fields}
        if not clock:
            return False
        lifted = [
            token
            for token in names
            if token.value.known is None
            or token.value.known.implement in ("barbell", "?", "dumbbells")
            or token.value.name.startswith("weighted")
            or ("pct" in kinds and (entry := as_lift(token)[1]) is not None and entry.implement == "barbell")
        ]
        if (
            not names
            and isinstance(self.open, LiftDraft)
            and not self.gap
            and not kinds & {"onminute", "emom"}
            and self.open.groups
            and not loads
            and not self._moves_follow(line)
        ):
            self.open.every_s = fields.get("work_s")
            self._more_sets(
                line, self.open, [token for place, token in enumerate(tokens) if place not in head.used], ""
            )
            return True
        if (
            isinstance(self.open, LiftDraft)
            and self.open.empty
            and not names
            and not loads
            and not kinds & {"sets", "setsx", "mass"}
        ):
            return self._clock_of_lift(line, tokens, head, fields)
        if isinstance(self.open, LiftDraft) and not names and (kinds & {"sets", "setsx"} or loads):
            lift, bare = self.open, self.open.empty
            lift.every_s = fields.get("work_s")
            done = self._more_sets(
                line, lift, [token for place, token in enumerate(tokens) if place not in head.used], ""
            )
            last = lift.groups[-1] if lift.groups else None
            if (
                not bare
                and fields.get("intervals")
                and isinstance(last, SetGroup)
                and last.sets == 1
                and not last.reps.out
            ):
                lift.groups[-1] = replace(last, sets=fields["intervals"])  # "then every 45 s x 8: 1 @ 80 % of it"
            if bare and fields.get("intervals"):
                self._on_each_interval(line, lift, fields["intervals"])
                self._ask_clock(line, taken="lift")
            return done
        if names and kinds & {"setsx", "sets"} and lifted and not kinds & {"cal", "dist"}:
            rest = [token for place, token in enumerate(tokens) if place not in head.used]
            self._lift(line, rest, [token for token in rest if token.kind == "name"], "", "")
            assert isinstance(self.open, LiftDraft)
            self.open.every_s = fields.get("work_s")
            if loads:
                self._ask_clock(line, taken="lift")
            return True
        if lifted and not loads and (self._minutes_follow(line) or self._clock_sets_follow()):
            return self._by_minutes(line, tokens, head, lifted)
        climbing = (
            "climb" in kinds
            or re.search(r"build to|heavy but|add (?:weight|if)", " ".join(token.text for token in tokens)) is not None
        )
        climbing = climbing and not kinds & {"mass", "pair", "mass2"}
        below = len(lifted) > 1 and not head.clock and self._loads_of_complex_follow(line)
        if not lifted or not (loads or climbing or below) or len(lifted) < len(names):
            return False
        if piece is not None and piece.stations == 1 and not piece.moves and self._second_station():
            return False  # "min 1: 2 cleans @ 75 %, min 2: 12 cal row": a piece of stations
        rest = [token for place, token in enumerate(tokens) if place not in head.used]
        if piece is not None and not piece.moves and piece.strength_clock:
            self._remove(piece)
        self._lift(line, rest, [token for token in rest if token.kind == "name"], "", "")
        lift = self.open
        assert isinstance(lift, LiftDraft)
        if piece is not None and not piece.moves:
            lift.text[:0] = [each for each in piece.text if each not in lift.text]
            self._moved(piece, lift)
        lift.every_s = fields.get("work_s")
        intervals = fields.get("intervals") or fields.get("rounds")
        if not intervals and fields.get("work_s"):
            total = (
                next((token.value for token in tokens if token.kind == "time" and token.value > fields["work_s"]), 0)
                or head.from_start
                or (piece.from_start if piece is not None else 0)
            )
            intervals = total // fields["work_s"] or None
        if (
            intervals is None
            and (count := next((token for token in tokens if token.kind == "setcount"), None)) is not None
        ):
            intervals = count.value
        if intervals and fields.get("in_turn"):
            intervals = max(1, intervals // 2)
        if intervals and len(lift.groups) == 1 and isinstance(lift.groups[0], SetGroup) and lift.groups[0].sets == 1:
            group = lift.groups[0]
            if not group.reps.parts and not group.reps.out and not lift.parts:
                group = replace(group, reps=Reps((1,)))
            lift.groups[0] = replace(group, sets=intervals)
        elif intervals and not lift.groups:
            self._of_each(line, lift, intervals, lift.parts or (1,) * len(lift.names))
        if step := STEPS.search(plain(line.text)):
            lift.groups = stepped(lift.groups, step, self.unit)
            lift.notes.append(step[0])
        lift.clock_sets = intervals or 0
        self._ask_clock(line, taken="lift")
        return True

    def _clock_of_lift(self, line: Line, tokens: list[Token], head: Head, fields: dict[str, Any]) -> bool:
        """`EMOM 10` between a lift's name and a line of its sets: as many sets of these as there are intervals."""
        lift, intervals = self.open_lift, fields.get("intervals") or fields.get("rounds")
        if lift is None or not intervals or not self._loads_without_name(line):
            return False
        lift.every_s, lift.clock_sets = fields.get("work_s"), intervals
        reps = next((token.value for token in tokens if token.kind == "reps"), 0)
        if reps:
            lift.groups = [SetGroup(intervals, Reps((int(reps),)), None, line=line.number)]
        lift.text.append(line.raw.rstrip())
        self._role(line, "sets", lift)
        self._ask_clock(line, taken="lift")
        return True

    def _loads_of_complex_follow(self, line: Line) -> bool:
        """Whether nothing but percentages stands on the next line: those of the sets of a complex on a clock."""
        below = next((other for other in self.lines[self.at + 1 : self.at + 2] if not other.blank), None)
        kinds = [token.kind for token in tokens_of(plain(below.text))] if below is not None else []
        return kinds[:1] == ["pct"] and set(kinds) <= {"pct", "of", "name", "sep", "word"}

    def _on_each_interval(self, line: Line, lift: LiftDraft, intervals: int) -> None:
        """A clock under a lift's name makes one set of each interval: `EMOM 10 x 1 @ 75 %`."""
        if not lift.groups:
            parts = lift.parts or ((1,) * len(lift.names) if len(lift.names) > 1 else ())
            self._of_each(line, lift, intervals, parts)
        elif len(lift.groups) == 1 and isinstance(lift.groups[0], SetGroup) and lift.groups[0].sets == 1:
            lift.groups[0] = replace(lift.groups[0], sets=intervals)

    def _of_each(self, line: Line, lift: LiftDraft, intervals: int, parts: tuple[int, ...]) -> None:
        """One set of each interval; the loads that wait are one for all of them, or one for each."""
        loads, lift.pending = lift.pending, []
        lift.groups = [SetGroup(intervals, Reps(parts), None, line=line.number)]
        if loads:
            lift.groups = spread(lift.groups, loads, self._scene(line))

    def _by_minutes(self, line: Line, tokens: list[Token], head: Head, lifted: list[Token]) -> bool:
        main = main_names(tokens, lifted)
        full = [as_lift(token) for token in main]
        lift = self._open_lift(line, [first_up(full[0][0]), *(name for name, _ in full[1:])], full[0][1])
        if len(main) > 1:
            lift.parts = counts_before(tokens, main) or (1,) * len(main)  # "1 clean + 1 split jerk"
        lift.every_s = head.fields.get("work_s")
        piece = next((each for each in reversed(self.session.items[:-1])), None)
        if isinstance(piece, PieceDraft) and piece.strength_clock and not piece.moves:
            lift.every_s = lift.every_s or piece.fields.get("work_s")
            lift.text[:0] = [each for each in piece.text if each not in lift.text]
            self._remove(piece)
            self._moved(piece, lift)
            clock = next((each for each in self.lines if each.number == piece.line), line)
        else:
            clock = line
        counts = ("num", "reps", "xnum")
        before = [token for token in tokens if token.end <= lifted[0].start and token.kind in counts]
        behind = [token for token in tokens if token.start >= lifted[0].end and token.kind in counts]
        lift.minute_reps = int(before[-1].value) if before else int(behind[0].value) if behind else 1
        if self._one_row_of_sets():
            lift.clock_sets = head.fields.get("intervals") or head.fields.get("rounds") or 0
        self._role(line, "lift", lift)
        self._ask_clock(clock, taken="lift")
        return True

    def _beside_on_clock(self, line: Line, tokens: list[Token], names: list[Token], kinds: set[str]) -> bool:
        """A line under a lift on a clock that counts another movement is done in turn with it, as often."""
        lift = self.open
        if (
            not isinstance(lift, LiftDraft)
            or not lift.clock_sets
            or self.gap
            or len(names) != 1
            or kinds & (CLOCKS | {"setsx", "list"})
        ):
            return False
        if not kinds & {"num", "reps"} or kinds & {"cal", "dist", "time"}:
            return False
        if tokens[0].kind in ("odd", "even"):
            tokens = tokens[1:]
        sets = lift.clock_sets
        every = lift.every_s
        self._lift(line, tokens, names, "", "")
        now = self.open
        assert isinstance(now, LiftDraft)
        now.joined, now.every_s, now.clock_sets = True, every, sets
        if not now.groups:
            number = next((token.value for token in tokens if token.kind in ("num", "reps")), 1)
            load = now.pending[0] if now.pending else None
            now.groups, now.pending = [SetGroup(sets, Reps((int(number),)), load, line=line.number)], []
        now.groups = [
            replace(group, sets=sets) if isinstance(group, SetGroup) and group.sets == 1 else group
            for group in now.groups
        ]
        if any(isinstance(group, SetGroup) and group.load is not None for group in now.groups):
            self._ask_clock(line, taken="lift")
        return True

    def _ask_clock(self, line: Line, *, taken: str) -> None:
        lift, piece = Choice("lift", "sets of a lift"), Choice("piece", "a piece on the clock")
        order = (lift, piece) if taken == "lift" else (piece, lift)
        self.asker.choose(
            "strength on a clock", line.number, harmless(line.raw).strip(), "Sets of a lift, or a piece?", order
        )

    def clocks_above(self, items: list[Any]) -> None:
        """`Every 2:00 for 5 sets` above `Power clean 5x3 60 kg`: the clock of these sets and no piece as well."""
        for piece, lift in list(pairwise(items)):
            if (
                isinstance(piece, PieceDraft)
                and isinstance(lift, LiftDraft)
                and piece.fields.get("kind") == "every minute"
                and piece.fields.get("work_s")
                and not piece.moves
                and lift.every_s == piece.fields["work_s"]
            ):
                lift.text[:0] = [each for each in piece.text if each not in lift.text]
                items.remove(piece)
                self._moved(piece, lift)
