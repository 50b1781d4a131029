"""Reads what may be done instead: scaled and home blocks, substitutions in words, remarks about an item."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.drafts import LiftDraft, PieceDraft, TextDraft
from tracker.prescription.sheet.move_words import (
    FOR_ANOTHER,
    like_main,
    place_for,
    shared_load,
    usual_measure,
    wanted_place,
)
from tracker.prescription.sheet.movement_reading import read_moves
from tracker.prescription.sheet.piece import Movement
from tracker.prescription.sheet.piece_heads import CLOCKS, read_head
from tracker.prescription.sheet.sets_reading import SETS_KINDS
from tracker.prescription.sheet.tables import Line
from tracker.prescription.sheet.tokens import tokens_of
from tracker.prescription.sheet.walk_moves import Moves


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
            [token for token in tokens_of(text) if token.kind == "cap"] if not isinstance(self.open, LiftDraft) else []
        )
        head = read_head(caps, text, Asker(), line.number, line.raw)
        if {"partners", "cap_s"} & head.fields.keys() and len(text) < 90:
            self.hinted |= head.fields
        return False

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
        wanted, given = "", ""
        if (
            (
                found := re.match(
                    r"^(?:(?P<when>[a-z' ]{0,30}?)\b ?)?instead of (?:the |a )?(?P<x>[a-z -]+?)\s*[:=,-]\s*(?P<y>.+)$",
                    text,
                )
            )
            or (
                found := re.search(
                    r"(?:^|[:,] ?|\bwe (?:will |do )?|\bdo |\bto )(?P<y>[^:,]*?)\s+instead of (?:the |a )?(?P<x>[a-z -]+)",
                    text,
                )
            )
            or (
                found := re.search(
                    r"(?:^|\b)(?:no|without(?: an?)?|can'?t|cannot|if you can'?t|don'?t have(?: an?)?|not got(?: an?)?)\s+(?P<x>[a-z][a-z -]*?)(?:\s+(?:at home|here|there))?(?:\s*[:?=,>]+\s*|\s+-+\s+|\s+(?:do|use|take|then|try)\s+)(?:do |use |try |take )?(?P<y>.+)$",
                    text,
                )
            )
        ):
            wanted, given = found["x"], found["y"]
        if not wanted or not given:
            return False
        piece, place = next(
            ((piece, place) for piece in near if (place := wanted_place(wanted, piece.moves)) is not None),
            (near[0], None),
        )
        if place is None:
            return False
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
        if not found_moves:
            return False
        when = (
            f"no {wanted.strip()}"
            if text.startswith(("no ", "can", "without")) and len(wanted) < 30
            else "home"
            if text.startswith("home")
            else ""
        )
        for move in [found_moves[0]]:
            option = like_main(usual_measure(replace(move, options=(), when=when), piece), piece.moves[place])
            piece.moves[place] = replace(piece.moves[place], options=(*piece.moves[place].options, option))
        if line.raw.rstrip() not in piece.text:
            piece.text.append(line.raw.rstrip())
        self._role(line, "option", piece)
        return True

    def _options(self, line: Line, text: str) -> bool:
        """Lines of a scaled or home block: each is another way of a movement of the piece, or of the lift."""
        target = self.target
        when = str(self.section)
        if isinstance(target, PieceDraft) and target.moves:
            pairs = [found for part in re.split(r"\s*[,;]\s*", text) if (found := FOR_ANOTHER.match(part))]
            if pairs and any(wanted_place(found["x"], target.moves) is not None for found in pairs):
                for found in pairs:
                    place = wanted_place(re.sub(r"^[\d\s]+", "", found["x"]), target.moves)
                    wanted = place if place is not None else place_for(Movement(found["x"]), target.moves)
                    read = read_moves(
                        tokens_of(found["y"]), unit=self.defaults.unit or "kg", line=line.number, free=True
                    )
                    for move in read.moves[:1]:
                        target.moves[wanted] = replace(
                            target.moves[wanted], options=(*target.moves[wanted].options, replace(move, when=when))
                        )
                target.text.append(line.raw.rstrip())
                self._role(line, "option", target)
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
            for move in read.moves:
                found += move.options
            load = shared_load(
                [token for token in tokens if token.kind in ("pair", "mass")][:1], text, self.defaults.unit or "kg"
            )
            loaded = next((place for place, move in enumerate(target.moves) if move.load is not None), None)
            if load is not None and loaded is not None and not any(move.load is not None for move in found):
                target.moves[loaded] = replace(
                    target.moves[loaded],
                    options=(*target.moves[loaded].options, Movement(target.moves[loaded].name, load=load, when=when)),
                )
            elif not found:
                return False
            for move in found:
                place = place_for(replace(move, options=()), target.moves)
                option = replace(move, options=(), when=move.when or when)
                target.moves[place] = replace(target.moves[place], options=(*target.moves[place].options, option))
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
