"""Reads what others do instead: those at home, beginners, whoever has no rower; told by the movement, in order, or by station."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.lifts.lift_line import for_both
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.piece import Movement, Pair
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import read_head
from tracker.prescription.sheet.pieces.movement_reading import read_moves
from tracker.prescription.sheet.pieces.usual_movements import (
    HELD_WORDS,
    like_main,
    multiplied,
    place_for,
    shared_load,
    times_of,
    usual_measure,
)
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.walk.swaps import Swaps, same_way
from tracker.prescription.sheet.words.who import who_of
from tracker.units import Mass

_HEAVY = re.compile(r"(?:too heavy|zu schwer|trop lourd|muy pesado)(?=\?)")
_AMOUNT_ALONE = re.compile(r"\d{1,4} ?(?:cals?|calories|m|met(?:re|er)s)")
_ROUNDS_ALONE = re.compile(r"(?:only |just |do )?\d{1,2} (?:rounds?|rds?)\W*")
_TWO_LOADS = re.compile(r"^\W*(\d{1,3}(?:\.5)?) (?:and|or) (\d{1,3}(?:\.5)?)(?: and |, |$)")


class Instead(Swaps):
    """What others do instead."""

    loose = True  # whether names that the table does not have may be what is done instead

    def _in_order(self, line: Line, text: str, target: PieceDraft, when: str) -> bool:
        """`scaled: jumping pull-ups, 15/10 kg, step-overs`: as many parts as movements, each for the one at its place."""
        parts = [part for part in re.split(r"\s*[,;]\s*", text.strip(" .()")) if part]
        if len(parts) != len(target.moves) or len(parts) < 2:
            return False
        unit = self.unit
        loads = [shared_load(tokens_of(part), "", unit) for part in parts]
        if not any(load is not None for load in loads):
            return False
        read = [
            Movement(move.name, load=load)
            if load is not None
            else next(iter(read_moves(tokens_of(part), unit=unit, line=line.number, free=True).moves), Movement(part))
            for part, load, move in zip(parts, loads, target.moves, strict=True)
        ]
        if any(load is not None and move.load is None for load, move in zip(loads, target.moves, strict=True)):
            return False
        target.moves = [
            replace(move, options=(*move.options, like_main(replace(option, options=(), when=when), move)))
            for move, option in zip(target.moves, read, strict=True)
        ]
        target.text.append(line.raw.rstrip())
        self._role(line, "option", target)
        return True

    def _by_parts(self, line: Line, text: str, target: PieceDraft, when: str) -> bool:
        """`jumping C2B, 15/10 kg, step-overs`: a load alone is that of the only loaded movement, the rest are told by what they are."""
        parts = [part for part in re.split(r"\s*[,;]\s*", text.strip(" .()")) if part]
        unit = self.unit
        loads = {part: load for part in parts if (load := shared_load(tokens_of(part), "", unit)) is not None}
        loaded = [place for place, move in enumerate(target.moves) if move.load is not None]
        if len(loads) == 1 and len(loaded) > 1:  # an easier way is lighter: the only one that is heavier now
            load = next(iter(loads.values()))
            loaded = [place for place in loaded if _heavier(target.moves[place].load, load)]
        if len(parts) < 2 or len(loads) != 1 or len(loaded) != 1:
            return False
        before = list(target.moves)
        if not all(part in loads or self._by_itself(line, part, target, when) for part in parts):
            target.moves = before
            return False
        main = target.moves[loaded[0]]
        option = Movement(main.name, load=next(iter(loads.values())), when=when)
        target.moves[loaded[0]] = replace(main, options=(*main.options, option))
        target.text.append(line.raw.rstrip())
        self._role(line, "option", target)
        return True

    def _for_others(self, line: Line, text: str) -> bool:
        """`home people: ...`, `scaled 30/20 kg`: what others do in place of the piece or lift above, without a heading's sign."""
        last = self._last_item()
        if last is None or self.section in ("scaled", "home"):
            return False
        text = text.strip().removeprefix("(").removesuffix(")") if text.strip().startswith("(") else text
        who = who_of(text)
        heavy = _HEAVY.match(text)
        if who is None and heavy is None:
            return False
        if (
            isinstance(last, PieceDraft)
            and last.moves
            and who is not None
            and not who.lacks
            and self._told_by_name(line, who.rest, last, who.section)
        ):
            return True
        if self._substitute(line, text):
            return True
        section, target, level, open_was = self.section, self.target, self.level, self.open
        self.section = who.section if who is not None and not heavy else "scaled"
        self.target, self.level = last, -1
        rest = who.rest if who is not None else text[heavy.end() :].strip(" ,:-=?") if heavy else ""
        done = False
        if rest and isinstance(last, PieceDraft) and self._held_for_all(rest, last, str(self.section)):
            self._role(line, "option", last)
            done = True
        elif rest and isinstance(last, PieceDraft):
            if who is not None and who.lacks:
                self.section = section
                parts = re.split(r"\s*[,;]\s*(?:and )?", rest)
                if len(parts) > 1 and last.moves and all(re.search(r"[a-z]{3}", part) for part in parts):
                    parts = [part for part in parts if not self._by_itself(line, part, last, f"no {who.lacks}")]
                    done = len(parts) < len(re.split(r"\s*[,;]\s*(?:and )?", rest))
                    if done:
                        last.text.append(line.raw.rstrip())
                        self._role(line, "option", last)
                        last.notes += parts
                done = done or self._substitute(line, f"no {who.lacks}: {rest}")
                self.section = who.section
            self.has = HELD_WORDS.get(who.has, "") if who is not None else ""
            self.loose = who is None or who.signed
            done = done or self._options(line, rest)
            self.has, self.loose = "", True
        self.section, self.target, self.level, self.open = section, target, level, open_was
        named = {token.kind for token in tokens_of(rest)} & {"name", "rounds", "setsx", "pct", "list"}
        if not done and who is not None and not named and open_was is last and isinstance(last, PieceDraft):
            self._note(line, line.raw)  # "beginners meet at 18:00"
            return True
        if not done and who is not None and who.section == "home" and isinstance(last, PieceDraft):
            if read_head(tokens_of(rest), rest, Asker(), line.number, line.raw).clock:
                return False
            self._note(line, line.raw)
            done = True
        return done

    def _by_station(self, line: Line, text: str, target: PieceDraft, when: str) -> bool:
        """Read what is told by the number of its station; see `People`."""
        del line, text, target, when
        return False

    def _amounts_alone(self, line: Line, text: str, target: PieceDraft, when: str) -> bool:
        """`8 cal / 6 thrusters`: less of what is done for calories, and of what is named."""
        text = re.sub(r"(?<=[a-z]) ?/ ?(?=\d)", ", ", text)
        text, _, condition = text.partition(" if ")
        parts = [part for part in re.split(r"\s*[,;]\s*|\s+and\s+", text.strip(" .()")) if part]
        if len(parts) < 2 or not any(_AMOUNT_ALONE.fullmatch(part) for part in parts):
            return False
        before = list(target.moves)
        when = f"if {condition}" if condition else when
        if all(self._by_itself(line, part, target, when) for part in parts):
            return True
        target.moves = before
        return False

    def _options(self, line: Line, text: str) -> bool:
        """Lines of a scaled or home block: each is another way of a movement of the piece, or of the lift."""
        target = self.target
        when = str(self.section)
        if isinstance(target, PieceDraft) and target.moves:
            if _ROUNDS_ALONE.fullmatch(text.strip()):  # how many rounds these people do
                self._about(line, target)
                return True
            if self._by_station(line, text, target, when):
                return True
            if self._told_by_name(line, text, target, when):
                return True
            if self._in_order(line, text, target, when) or self._by_parts(line, text, target, when):
                return True
            if self._held_for_all(text, target, when) or self._amounts_alone(line, text, target, when):
                target.text.append(line.raw.rstrip())
                self._role(line, "option", target)
                return True
            given, times = times_of(_TWO_LOADS.sub(r"\1/\2, ", text))
            tokens = tokens_of(given)
            head = read_head(tokens, text, Asker(), line.number, line.raw)
            if head.clock:
                return False
            first = (
                1 if tokens and tokens[0].kind in ("mass", "pair") else 0
            )  # a load alone is that of the loaded movement
            read = read_moves(
                tokens[first:],
                unit=self.unit,
                line=line.number,
                free=not self.prose and self.loose,
                slash_or=True,
            )
            if read.moves and not self.loose and not read.known:
                return False  # "new here? come 10 minutes early"
            found = [*read.moves, *read.options]
            rows = list(range(len(found)))
            for row, move in enumerate(read.moves):
                found += [_as_many(like_main(each, move), move) for each in move.options]
                rows += [row] * len(move.options)
            load = shared_load(
                [token for token in for_both(tokens) if token.kind in ("pair", "mass")][:1],
                text,
                self.unit,
            )
            held = next((HELD_WORDS[token.text] for token in tokens[:1] if token.text in HELD_WORDS), "")
            loaded = next(
                (
                    place
                    for place, move in enumerate(target.moves)
                    if move.load is not None and (not held or held == "barbell" or held in move.name)
                ),
                None,
            )
            if load is not None and loaded is not None and not any(move.load is not None for move in found):
                target.moves[loaded] = replace(
                    target.moves[loaded],
                    options=(*target.moves[loaded].options, Movement(target.moves[loaded].name, load=load, when=when)),
                )
            elif not found:
                return False
            in_order = len(read.moves) + len(read.options) == len(target.moves) > 1 or self.level >= 0
            if in_order and self.level < 0:
                in_order = _keeps_order([*read.moves, *read.options], target.moves)
            for number, move in enumerate(found):
                place = place_for(replace(move, options=()), target.moves)
                if self.level >= 0:
                    place = min(self.level, len(target.moves) - 1)
                elif in_order:
                    place = rows[number]
                option = like_main(replace(move, options=(), when=move.when or when), target.moves[place])
                option = self._held(
                    usual_measure(multiplied(option, target.moves[place], times, target.scheme), target)
                )
                main = target.moves[place]
                bare = option.count is None and option.load is None and option.name == main.name
                if same_way(option, main) or (load is not None and place == loaded and bare):
                    continue
                target.moves[place] = replace(target.moves[place], options=(*target.moves[place].options, option))
            self.level += self.level >= 0
            target.text.append(line.raw.rstrip())
            self._role(line, "option", target)
            return True
        if isinstance(target, LiftDraft):
            was = self.open
            self.open = target
            done = self._other_way(line, f"{when}: {text}")
            self.open = was
            return done
        return False


def _heavier(load: Any, other: Any) -> bool:
    """Whether a load is more than another in the same unit."""
    one, two = (each.larger if isinstance(each, Pair) else each for each in (load, other))
    return isinstance(one, Mass) and isinstance(two, Mass) and one.unit == two.unit and one.amount > two.amount


def _as_many(other: Movement, option: Movement) -> Movement:
    """`50 db overhead squats or goblet squats`: as many of the one as of the other."""
    return (
        other if other.count is not None or other.sides else replace(other, count=option.count, measure=option.measure)
    )


def _keeps_order(found: list[Movement], moves: list[Movement]) -> bool:
    """Whether as many ways as there are movements stand in their order: no more of them name a movement elsewhere than their own."""
    here = elsewhere = 0
    for number, move in enumerate(found):
        words = set(move.name.replace("-", " ").split())
        shared = [place for place, each in enumerate(moves) if words & set(each.name.replace("-", " ").split())]
        here += number in shared
        elsewhere += bool(shared) and number not in shared
    return here >= elsewhere
