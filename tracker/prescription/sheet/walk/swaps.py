"""Reads what is done instead of what: both are named, or the one that it is usually done for."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.lifts.sets_found import unit_of
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.piece import Movement, Pair
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.movement_reading import read_moves
from tracker.prescription.sheet.pieces.stand_ins import usually_for
from tracker.prescription.sheet.pieces.usual_movements import (
    HELD_WORDS,
    KIT,
    like_main,
    mass_or_pair,
    multiplied,
    shared_load,
    surely_for,
    times_of,
    usual_measure,
    wanted_place,
)
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.moves import Moves
from tracker.prescription.sheet.words.names import full_name, known
from tracker.prescription.sheet.words.swaps import Swap, for_pairs, some_pairs, swaps_of

# What is held and how heavy it is, and nothing else
_HELD_LOAD = re.compile(
    r"(?:with |use |take )?(?:an? |the )?(?P<n>2|two|1|one|pair of)? ?(?P<h>dumbbells?|dbs?|kettlebells?|kbs?)?[ ,:=-]*(?:@|at|of)? ?(?P<l>(?:2 ?x ?)?\d[\d./x ]*(?:kg|lb|#)?(?: ?/ ?(?:2 ?x ?)?\d[\d.]* ?(?:kg|lb|#)?)?(?: each)?)"
)
# What is held, and nothing else
_HELD_ONLY = re.compile(
    r"(?:with |use |take |just |only )*(?:(?P<n>2|two|1|one|an?|pair of|a pair of|the|some|any|single) )?(?:(?:heavy|light|heavier|lighter|single) )?(?P<h>dumbbells?|dbs?|kettlebells?|kbs?|backpack|rucksack|sandbag)(?: you have)?"
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


def held_instead(held: str, main: Movement) -> Movement:
    """The same movement with something else in the hands."""
    bare = re.sub(r"^(?:barbell|dumbbell|kettlebell) ", "", main.name)
    return Movement(full_name(f"{HELD_WORDS.get(held, 'backpack')} {bare}")[0])


class Swaps(Moves):
    """Other ways of movements, told by name."""

    has = ""  # what those have for whom a sentence is

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
            unit=self.unit,
            line=line.number,
            free=not self.prose and len(given) < 40,
            slash_or=True,
        )
        found_moves = [*read.moves, *read.options]
        if (alone := self._load_alone(given, swap, piece.moves[place])) is not None:
            found_moves = [alone]
        elif (only := _HELD_ONLY.fullmatch(given.strip(" ."))) and swap.wanted not in KIT:
            found_moves = [held_instead(only["h"], piece.moves[place])]
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
        load = mass_or_pair(amounts, used)
        if not held or (lacks_bar and held == "barbell") or load is None:
            return None
        name = re.sub(r"^(?:barbell|dumbbell|kettlebell) ", "", main.name)
        return Movement(full_name(f"{held} {name}")[0], load=load, implements=number)

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
            if not (swaps_of(part) or for_pairs(part)) and not self._by_itself(line, part, target, when):
                for token in tokens_of(part):
                    if token.kind == "cap":  # "... instead of wall balls, cap is 17 minutes"
                        target.fields.setdefault("cap_s", token.value)
        return True

    def _held_for_all(self, text: str, target: PieceDraft, when: str) -> bool:
        """`with one dumbbell`, `one dumbbell does all of it`: what is held in place of whatever the piece holds."""
        found = re.match(
            r"^\W*(?P<held>.+?)(?:,? (?:does|do|for|is fine for|will do for|works for) (?:all|everything|it all)(?: of (?:it|them))?)?\W*$",
            text,
        )
        only = _HELD_ONLY.fullmatch(found["held"]) if found is not None else None
        if only is None:
            return False
        done = False
        for place, main in enumerate(target.moves):
            option = held_instead(only["h"], main)
            if main.load is not None and option.name != main.name:
                target.moves[place] = replace(main, options=(*main.options, replace(option, when=when)))
                done = True
        return done

    def _by_itself(self, line: Line, part: str, target: PieceDraft, when: str) -> bool:
        """One movement that is done instead of the one that it is usually done for."""
        given, times = times_of(part)
        tokens = tokens_of(given)
        if len(tokens) == 1 and tokens[0].kind in ("dist", "cal"):  # "400 m": less of what is done for a distance
            measure = {"dist": "m", "cal": "cal"}[tokens[0].kind]
            tokens += [t for m in target.moves if m.measure == measure for t in tokens_of(m.name)][:1]
        read = read_moves(tokens, unit=self.unit, line=line.number, free=False, slash_or=True)
        if not read.moves and tokens and tokens[0].kind in ("pair", "mass"):  # "and 60/40 kg on the bar"
            load = shared_load([tokens[0]], part, self.unit)
            heavy = [at for at, main in enumerate(target.moves) if main.load is not None]
            if load is not None and len(heavy) == 1:
                main = target.moves[heavy[0]]
                option = Movement(main.name, load=load, when=when)
                target.moves[heavy[0]] = replace(main, options=(*main.options, option))
                return True
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
