"""Reads what others do instead: those at home, beginners, whoever has no rower; told by the movement, in order, or by station."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.drafts import LiftDraft, TextDraft
from tracker.prescription.sheet.lift_tokens import for_both
from tracker.prescription.sheet.move_words import (
    HELD_WORDS,
    KIT,
    like_main,
    multiplied,
    place_for,
    shared_load,
    surely_for,
    times_of,
    usual_measure,
    wanted_place,
)
from tracker.prescription.sheet.movement_reading import read_moves
from tracker.prescription.sheet.names import full_name, known
from tracker.prescription.sheet.piece import Movement, Pair
from tracker.prescription.sheet.piece_draft import PieceDraft
from tracker.prescription.sheet.piece_heads import read_head
from tracker.prescription.sheet.sets_found import unit_of
from tracker.prescription.sheet.stand_ins import usually_for
from tracker.prescription.sheet.swaps import Swap, for_pairs, some_pairs, swaps_of
from tracker.prescription.sheet.tables import Line
from tracker.prescription.sheet.tokens import tokens_of
from tracker.prescription.sheet.walk_moves import Moves
from tracker.prescription.sheet.who import who_of
from tracker.units import MOST_KG, Mass

_HEAVY = re.compile(r"(?:too heavy|zu schwer|trop lourd|muy pesado)(?=\?)")
_TWO_LOADS = re.compile(r"^\W*(\d{1,3}(?:\.5)?) (?:and|or) (\d{1,3}(?:\.5)?)(?: and |, |$)")
# What is held and how heavy it is, and nothing else
_HELD_LOAD = re.compile(
    r"(?:with |use |take )?(?:an? |the )?(?P<n>2|two|1|one|pair of)? ?(?P<h>dumbbells?|dbs?|kettlebells?|kbs?)?[ ,:=-]*(?:@|at|of)? ?(?P<l>(?:2 ?x ?)?\d[\d./x ]*(?:kg|lb|#)?(?: ?/ ?(?:2 ?x ?)?\d[\d.]* ?(?:kg|lb|#)?)?(?: each)?)"
)
_IN_BRACKETS = re.compile(r"\s*\([^()]*\)")
_FOR_SINGLES = frozenset({"double under", "jump rope", "row", "run", "bike", "ski", "air bike"})


def same_way(option: Movement, main: Movement) -> bool:
    """Whether an option asks the same as its movement, as in a level that changes other movements."""
    return (option.name, option.count, option.sides, option.load, option.measure) == (
        main.name,
        main.count,
        main.sides,
        main.load,
        main.measure,
    )


class Instead(Moves):
    """Other ways of the movements of a piece."""

    has = ""  # what those have for whom a sentence is
    loose = True  # whether names that the table does not have may be what is done instead

    def _substitute(self, line: Line, text: str) -> bool:
        """`no rower: 15 jumping jacks`, `500 m row instead of run`, `can't run? 2000 m row`: another way of a movement above."""
        near = [item for item in reversed(self.session.items) if isinstance(item, PieceDraft) and item.moves]
        near += [
            item
            for session in reversed(self.sessions)
            for item in reversed(session.items)
            if isinstance(item, PieceDraft) and item.moves
        ]
        if not near or self.section in ("scaled", "home"):
            return False
        done = False
        swaps = swaps_of(text) if not text.startswith("or ") else []
        if swaps and "(" in text and not text.lstrip().startswith("("):
            outside = {swap.wanted for swap in swaps_of(_IN_BRACKETS.sub("", text))}
            if any(swap.wanted not in outside for swap in swaps) and self._counted_first(text):
                return False  # "12 push presses (no dumbbells: 12 pike push-ups)" is a movement with another way of it
        if not swaps and (pairs := for_pairs(text)):
            swaps = [pair for pair in pairs if wanted_place(pair.wanted, near[0].moves) is not None]
            swaps = swaps if len(swaps) == len(pairs) else []
        for swap in swaps:
            done = self._swap(line, text, swap, near) or done
        if done and len(swaps) > 1:  # what else is named between: "thrusters with dumbbells 2x15, pull-ups -> ..."
            for part in re.split(r"\s*[;,.]\s+", _IN_BRACKETS.sub("", text)):
                if not swaps_of(part) and not for_pairs(part):
                    told = re.sub(r"^(?:at )?home\s*:\s*", "", part)
                    any(self._by_itself(line, told, piece, "home" if "home" in text else "") for piece in near)
        return done

    @staticmethod
    def _counted_first(text: str) -> bool:
        """Whether a line begins with a movement and its amount."""
        kinds = [token.kind for token in tokens_of(text.split("(", maxsplit=1)[0])]
        return "name" in kinds and bool({"num", "reps", "cal", "dist", "calpair", "time", "list"} & set(kinds))

    @staticmethod
    def _place(wanted: str, near: list[PieceDraft]) -> tuple[PieceDraft, int | None]:
        """The nearest piece with a movement that is meant, and where it stands there."""
        return next(
            ((piece, place) for piece in near if (place := wanted_place(wanted, piece.moves)) is not None),
            (near[0], None),
        )

    def _swap(self, line: Line, text: str, swap: Swap, near: list[PieceDraft]) -> bool:
        """Give one movement above, and those of the same name, what may be done in its place."""
        piece, place = self._place(swap.wanted, near)
        if swap.either and (place is None or swap.given.startswith("1 ")):
            other = re.sub(r"^[\d\s]+", "", swap.given)
            turned, at = self._place(other, near)
            if at is not None:
                piece, place, swap = turned, at, Swap(other, swap.wanted_as_typed or swap.wanted, swap.when)
        if place is None:
            return False
        if re.search(r"\d+ ?s and \d+ ?s\b", swap.given):
            return False  # "run 400s and 80s": one for each of several pieces
        given, times = times_of(swap.given)
        if found := re.search(
            r"\b(?:who has|if you have|with|has|got) (?:an? |the )?(?P<z>rower|bike|erg|ski|ski erg)\b", text
        ):
            given = f"{given} {found['z']}"
        read = read_moves(
            tokens_of(given),
            unit=self.defaults.unit or "kg",
            line=line.number,
            free=not self.prose and len(given) < 40,
            slash_or=True,
        )
        found_moves = [*read.moves, *read.options]
        if (alone := self._load_alone(given, swap, piece.moves[place])) is not None:
            found_moves = [alone]
        if swap.when == "rain" and not read.known:
            return False  # "if it rains bring a towel"
        if not found_moves and not re.search(r"\d", given) and len(given.split()) <= 4:
            found_moves = [Movement(full_name(given)[0])]
        if not found_moves:
            return False
        if swap.wanted in KIT and (usual := usually_for(found_moves[0], piece.moves)) is not None:
            place = usual  # no bar: ring rows are for pull-ups, not for thrusters
        name = piece.moves[place].name
        when = swap.when or ("home" if text.startswith(("home", "at home")) else "")
        for move in [*found_moves[:1], *found_moves[0].options]:
            for at, main in enumerate(piece.moves):
                if main.name == name:
                    # in place of double unders or of a machine SU are no sit-ups
                    singles = main.name in _FOR_SINGLES and move.name == "sit-up" and re.search(r"\bsu\b", given)
                    given_as = "single under" if singles else move.name
                    own = replace(move, name=given_as, options=(), when=when)
                    option = like_main(usual_measure(own, piece), main)
                    option = multiplied(option, main, times, piece.scheme)
                    piece.moves[at] = replace(main, options=(*main.options, option))
        if line.raw.rstrip() not in piece.text:
            piece.text.append(line.raw.rstrip())
        self._role(line, "option", piece)
        return True

    def _load_alone(self, given: str, swap: Swap, main: Movement) -> Movement | None:
        """`no barbell: 2x12/2x8`, `two dumbbells 20/12.5 kg`: the same movement with what is held and its load."""
        found = _HELD_LOAD.fullmatch(given.strip(" ."))
        tokens = [token for token in tokens_of(found["l"].strip()) if token.text != "each"] if found else []
        if found is None or len(tokens) != 1 or tokens[0].kind not in ("mass", "mass2", "pair") or main.load is None:
            return None
        value = tokens[0].value
        amounts, unit = (list(value), "") if tokens[0].kind == "pair" else (value[0], value[1])
        number = 2 if (found["n"] or "").strip() in ("2", "two", "pair of") or (len(value) > 2 and value[2] == 2) else 1
        lacks_bar = swap.wanted in ("bar", "barbell", "the bar", "the barbell")
        held = HELD_WORDS.get(found["h"] or "", "") or ("dumbbell" if number == 2 or self.has == "dumbbell" else "")
        used = unit_of(unit) if unit else main.load.larger.unit if isinstance(main.load, Pair) else main.load.unit
        masses = sorted((Mass(Decimal(each), used) for each in amounts), key=lambda each: -each.amount)  # type: ignore[arg-type]
        if not held or (lacks_bar and held == "barbell") or not all(0 < mass.kg <= MOST_KG for mass in masses):
            return None
        load = masses[0] if len(masses) == 1 or masses[0] == masses[1] else Pair(masses[0], masses[1])
        name = re.sub(r"^(?:barbell|dumbbell|kettlebell) ", "", main.name)
        return Movement(full_name(f"{held} {name}")[0], load=load, implements=number)

    def _in_order(self, line: Line, text: str, target: PieceDraft, when: str) -> bool:
        """`scaled: jumping pull-ups, 15/10 kg, step-overs`: as many parts as movements, each for the one at its place."""
        parts = [part for part in re.split(r"\s*[,;]\s*", text.strip(" .()")) if part]
        if len(parts) != len(target.moves) or len(parts) < 2:
            return False
        unit = self.defaults.unit or "kg"
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
        unit = self.defaults.unit or "kg"
        loads = {part: load for part in parts if (load := shared_load(tokens_of(part), "", unit)) is not None}
        loaded = [place for place, move in enumerate(target.moves) if move.load is not None]
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
        last = next((item for item in reversed(self.session.items) if not isinstance(item, TextDraft)), None)
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
        if rest and isinstance(last, PieceDraft):
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

    def _told_by_name(self, line: Line, text: str, target: PieceDraft, when: str) -> bool:
        """`20 swings instead of the row, V-ups for T2B, singles x2`: what is done instead of what, and what else is named between."""
        known_pairs: list[Swap] = []
        for pair in swaps_of(text) or for_pairs(text) or some_pairs(text):
            other = re.sub(r"^[\d\s]+", "", pair.given)
            if wanted_place(pair.wanted, target.moves) is not None or (
                pair.either and wanted_place(other, target.moves) is not None
            ):
                known_pairs.append(pair)
        if not known_pairs:
            return False
        for pair in known_pairs:
            self._swap(line, text, replace(pair, when=pair.when or when), [target])
        for part in re.split(r"\s*[;,.]\s+|\s+and\s+", _IN_BRACKETS.sub("", text)):
            if not (swaps_of(part) or for_pairs(part)):
                self._by_itself(line, part, target, when)
        return True

    def _by_itself(self, line: Line, part: str, target: PieceDraft, when: str) -> bool:
        """One movement that is done instead of the one that it is usually done for."""
        given, times = times_of(part)
        tokens = tokens_of(given)
        if len(tokens) == 1 and tokens[0].kind in ("dist", "cal"):  # "400 m": less of what is done for a distance
            measure = {"dist": "m", "cal": "cal"}[tokens[0].kind]
            tokens += [t for m in target.moves if m.measure == measure for t in tokens_of(m.name)][:1]
        read = read_moves(tokens, unit=self.defaults.unit or "kg", line=line.number, free=False, slash_or=True)
        if len(read.moves) != 1 or not read.known:
            return False
        place = surely_for(read.moves[0], target.moves)
        if place is None:
            return False
        main = target.moves[place]
        option = like_main(usual_measure(replace(read.moves[0], options=(), when=when), target), main)
        option = self._held(multiplied(option, main, times, target.scheme))
        if not same_way(option, main):
            more = [like_main(replace(each, when=when), main) for each in read.moves[0].options]
            target.moves[place] = replace(main, options=(*main.options, option, *more))
        return True

    def _held(self, option: Movement) -> Movement:
        """Give a barbell's movement what those have who do it: "with dumbbells: 9 thrusters"."""
        entry = known(option.name)
        if not self.has or self.has == "barbell" or entry is None or entry.implement != "barbell":
            return option
        return replace(option, name=f"{self.has} {option.name}")

    def _options(self, line: Line, text: str) -> bool:
        """Lines of a scaled or home block: each is another way of a movement of the piece, or of the lift."""
        target = self.target
        when = str(self.section)
        if isinstance(target, PieceDraft) and target.moves:
            if self._by_station(line, text, target, when):
                return True
            if self._told_by_name(line, text, target, when):
                return True
            if self._in_order(line, text, target, when) or self._by_parts(line, text, target, when):
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
                unit=self.defaults.unit or "kg",
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
                self.defaults.unit or "kg",
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
