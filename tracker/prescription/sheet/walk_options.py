"""Reads what may be done instead: scaled and home blocks, substitutions in words, remarks about an item."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.drafts import LiftDraft, TextDraft
from tracker.prescription.sheet.lift_tokens import for_both
from tracker.prescription.sheet.move_words import (
    HELD_WORDS,
    like_main,
    multiplied,
    place_for,
    shared_load,
    times_of,
    usual_measure,
    wanted_place,
)
from tracker.prescription.sheet.movement_reading import read_moves
from tracker.prescription.sheet.piece import Movement
from tracker.prescription.sheet.piece_draft import PieceDraft
from tracker.prescription.sheet.piece_heads import CLOCKS, read_head
from tracker.prescription.sheet.plain_words import plain
from tracker.prescription.sheet.sections import section_heading
from tracker.prescription.sheet.sets_found import SETS_KINDS
from tracker.prescription.sheet.swaps import Swap, for_pairs, some_pairs, swaps_of
from tracker.prescription.sheet.tables import Line
from tracker.prescription.sheet.tokens import tokens_of
from tracker.prescription.sheet.walk_moves import Moves

FOR_OTHERS = re.compile(
    r"(?:(?P<s>(?:too heavy|zu schwer|trop lourd|muy pesado)(?=\?)|(?:scaled?|scaling|sc|easier|lighter|beginners?|intermediate|fitness|foundation|masters|m\d\d\+?)(?=:?[ ](?:to |@ ?|at |with )?\d|[ ][a-z -]{3,25}[ ](?:@ ?|at )?\d+ ?[/k]))"
    r"|(?P<h>(?:home|online|remote|garage) (?:ppl|people|folks|crew|gang|athletes|members)|(?:those|people|everyone|anybody|ppl|all) (?:of you )?(?:who are )?(?:at|from) home|los de casa|(?:para )?los que entrenan en casa|die zu ?hause|ceux qui sont à la maison|home(?= ?=)))\b"
)


def same_way(option: Movement, main: Movement) -> bool:
    """Whether an option asks the same as its movement, as in a level that changes other movements."""
    return (option.name, option.count, option.sides, option.load, option.measure) == (
        main.name,
        main.count,
        main.sides,
        main.load,
        main.measure,
    )


class Options(Moves):
    """Other ways of movements and lifts."""

    def _remark(self, line: Line) -> None:
        """Keep a remark in brackets with the last sets of its line, else with the lift or piece."""
        item = self.open
        remarks, self.remarks = self.remarks, []
        if (
            isinstance(item, LiftDraft)
            and item.groups
            and item.groups[-1].line == line.number
            and not item.groups[-1].note
        ):
            item.groups[-1] = replace(item.groups[-1], note="; ".join(remarks))
        elif isinstance(item, LiftDraft | PieceDraft):
            item.notes += remarks
        else:
            self._keep_words(line, "; ".join(remarks))

    def _about_item(self, line: Line, text: str) -> bool:
        """`Cap on 2: 16 min` is about the item with that label; a score's word without an item open is about the last piece."""
        if found := re.match(
            r"^(?:time )?cap (?:on|for|of) (?:part )?\(?(?P<l>[a-h]?\d?)\)?\s*[:=]?\s*(?P<rest>.+)$", text
        ):
            for item in self.session.items:
                if isinstance(item, PieceDraft) and item.label.lower() == found["l"]:
                    head = read_head(tokens_of("cap " + found["rest"]), "", Asker(), line.number, line.raw)
                    if "cap_s" in head.fields:
                        item.fields["cap_s"] = head.fields["cap_s"]
                        self._about(line, item)
                        return True
        if found := re.search(r"\bmake (?:that|it) (?P<n>\d{1,2}) (?:rounds?|rds?)(?:,? not (?P<was>\d{1,2}))?", text):
            last = next(
                (
                    item
                    for item in reversed(self.session.items)
                    if isinstance(item, PieceDraft) and "rounds" in item.fields
                ),
                None,
            )
            if last is not None and (found["was"] is None or int(found["was"]) == last.fields["rounds"]):
                last.fields["rounds"] = int(found["n"])
                self._about(line, last)
                return True
        if re.match(r"^(?:rotate|switch|swap|change)\b", text) and isinstance(self.open, PieceDraft):
            self._fill(read_head([], text, Asker(), line.number, line.raw))
            self._about(line, self.open)
            return True
        if (
            re.match(r"^(?:score|log|write|count|record|note|report|post)\b(?!.{0,12}for time)", text)
            and not self.prose
        ) or re.match(r"^(?:score|count only|record|post)\b", text):
            last = next((item for item in reversed(self.session.items) if not isinstance(item, TextDraft)), None)
            if isinstance(last, PieceDraft):
                head = read_head([], text, Asker(), line.number, line.raw)
                for key, value in head.fields.items():
                    if key in ("scored_by", "partners"):
                        last.fields.setdefault(key, value)
                self._about(line, last)
                return True
        return False

    def _hints(self, line: Line, text: str) -> bool:
        """`Saturday pairs` above a piece says how it is done by whom."""
        if isinstance(self.open, PieceDraft) or any(
            token.kind in ("name", *SETS_KINDS, *CLOCKS)
            for token in tokens_of(text)
            if token.kind not in ("max", "plus")
        ):
            return False
        caps = (
            [token for token in tokens_of(text) if token.kind == "cap"]
            if not isinstance(self.open, LiftDraft) or self.gap
            else []
        )
        head = read_head(caps, text, Asker(), line.number, line.raw)
        if {"partners", "cap_s"} & head.fields.keys() and len(text) < 90:
            self.hinted |= head.fields
        return False

    def _level_of(self) -> int:
        """0 where the lines below are one for each movement of the piece, in its order; -1 where they are not."""
        target = self.target
        if not isinstance(target, PieceDraft) or len(target.moves) < 2:
            return -1
        rows: list[Line] = []
        for other in self.lines[self.at + 1 : self.at + 2 + len(target.moves)]:
            if other.blank or section_heading(other.text.strip()):
                break
            rows.append(other)
        counted = [
            row
            for row in rows
            if {token.kind for token in tokens_of(plain(row.text))} & {"num", "dist", "cal", "calpair", "time", "reps"}
            and any(token.kind == "name" for token in tokens_of(plain(row.text)))
        ]
        return 0 if len(rows) == len(counted) == len(target.moves) else -1

    def _bracket_option(self, line: Line, found: re.Match[str]) -> str:
        """Take `(or swiss ball, or nordic negatives 4x4)` from the text of a lift: ways of doing it."""
        lift = self.open
        assert isinstance(lift, LiftDraft)
        lift.notes.append(found[0].strip("() "))
        return " "

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
        swaps = swaps_of(text)
        if not swaps and (pairs := for_pairs(text)):
            swaps = [pair for pair in pairs if wanted_place(pair.wanted, near[0].moves) is not None]
            swaps = swaps if len(swaps) == len(pairs) else []
        for swap in swaps:
            done = self._swap(line, text, swap, near) or done
        return done

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
        name = piece.moves[place].name
        if not found_moves and not re.search(r"\d", given) and len(given.split()) <= 4:
            found_moves = [Movement(given)]
        if not found_moves:
            return False
        when = swap.when or ("home" if text.startswith(("home", "at home")) else "")
        for move in [*found_moves[:1], *found_moves[0].options]:
            for at, main in enumerate(piece.moves):
                if main.name == name:
                    option = like_main(usual_measure(replace(move, options=(), when=when), piece), main)
                    option = multiplied(option, main, times, piece.scheme)
                    piece.moves[at] = replace(main, options=(*main.options, option))
        if line.raw.rstrip() not in piece.text:
            piece.text.append(line.raw.rstrip())
        self._role(line, "option", piece)
        return True

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

    def _for_others(self, line: Line, text: str) -> bool:
        """`home people: ...`, `scaled 30/20 kg`: what others do in place of the piece or lift above, without a heading's sign."""
        found = FOR_OTHERS.match(text)
        last = next((item for item in reversed(self.session.items) if not isinstance(item, TextDraft)), None)
        if found is None or last is None or self.section in ("scaled", "home"):
            return False
        if self._substitute(line, text):
            return True
        section, target, level, open_was = self.section, self.target, self.level, self.open
        self.section = "scaled" if found["s"] else "home"
        self.target, self.level = last, -1
        rest = text[found.end() :].strip(" ,:-=?")
        done = bool(rest) and isinstance(last, PieceDraft) and self._options(line, rest)
        self.section, self.target, self.level, self.open = section, target, level, open_was
        if not done and found["h"]:
            self._note(line, line.raw)
            done = True
        return done

    def _by_station(self, line: Line, text: str, target: PieceDraft, when: str) -> bool:
        """Read what is told by the number of its station; see `People`."""
        del line, text, target, when
        return False

    def _options(self, line: Line, text: str) -> bool:
        """Lines of a scaled or home block: each is another way of a movement of the piece, or of the lift."""
        target = self.target
        when = str(self.section)
        if isinstance(target, PieceDraft) and target.moves:
            if self._by_station(line, text, target, when):
                return True
            pairs = swaps_of(text) or for_pairs(text) or some_pairs(text)
            known = [
                pair
                for pair in pairs
                if wanted_place(pair.wanted, target.moves) is not None
                or (pair.either and wanted_place(re.sub(r"^[\d\s]+", "", pair.given), target.moves) is not None)
            ]
            if known:
                for pair in known:
                    self._swap(line, text, replace(pair, when=pair.when or when), [target])
                return True
            if self._in_order(line, text, target, when):
                return True
            tokens = tokens_of(text)
            head = read_head(tokens, text, Asker(), line.number, line.raw)
            if head.clock:
                return False
            first = (
                1 if tokens and tokens[0].kind in ("mass", "pair") else 0
            )  # a load alone is that of the loaded movement
            read = read_moves(
                tokens[first:], unit=self.defaults.unit or "kg", line=line.number, free=not self.prose, slash_or=True
            )
            found = [*read.moves, *read.options]
            rows = list(range(len(found)))
            for row, move in enumerate(read.moves):
                found += [like_main(each, move) for each in move.options]
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
                if same_way(option, target.moves[place]):
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


def _keeps_order(found: list[Movement], moves: list[Movement]) -> bool:
    """Whether as many ways as there are movements stand in their order: no more of them name a movement elsewhere than their own."""
    here = elsewhere = 0
    for number, move in enumerate(found):
        words = set(move.name.replace("-", " ").split())
        shared = [place for place, each in enumerate(moves) if words & set(each.name.replace("-", " ").split())]
        here += number in shared
        elsewhere += bool(shared) and number not in shared
    return here >= elsewhere
