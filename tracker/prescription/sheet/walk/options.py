"""Reads what may be done instead: scaled and home blocks, substitutions in words, remarks about an item."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.days.sections import section_heading
from tracker.prescription.sheet.lifts.sets_found import SETS_KINDS
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.piece import Pair
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import CLOCKS, read_head
from tracker.prescription.sheet.pieces.usual_movements import amounts_of, load_of_all, mass_or_pair, wanted_place
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft, TextDraft
from tracker.prescription.sheet.walk.instead import Instead
from tracker.prescription.sheet.walk.loads_below import loads_below
from tracker.prescription.sheet.words.plain_words import plain

# What a coach puts right later: "EDIT: its 12 snatches not 15", "typo: row 15 cal, not 12", "sorry, not 15 burpees but 12"
_MENDS = r"\W*(?:(?:edit|correction|sorry|oops|update|fix|typo|mistake|my bad)\b[:,!.-]*\s*)+(?:(?:it'?s|its|that'?s|it is|should be|make (?:it|that)|change to|the|meant|i meant)\s+)*"
_NUMBER = r"\d{1,4}(?:\.\d)?(?:/\d{1,3}(?:\.\d)?)?"
_UNITS = r"(?:m|cals?|kg|lb|reps(?: of)?)?"
_NOT = r"(?:not|instead of|rather than)"
_PUT_RIGHT = (
    re.compile(rf"{_MENDS}(?P<n>{_NUMBER}) ?{_UNITS} ?(?P<what>[a-z][a-z -]{{1,30}}?),? (?:and )?{_NOT} (?P<was>{_NUMBER})\b"),
    re.compile(rf"{_MENDS}(?P<what>[a-z][a-z -]{{1,30}}?) (?:is |are |should be |at |@ ?|to )*(?P<n>{_NUMBER}) ?{_UNITS},? (?:and )?{_NOT} (?P<was>{_NUMBER})\b"),
    re.compile(rf"{_MENDS}not (?P<was>{_NUMBER}) ?{_UNITS} ?(?P<what>[a-z][a-z -]{{1,30}}?),? (?:but |its |it's )?(?P<n>{_NUMBER})\b"),
)  # fmt: skip
_INSTEAD_OF_ITEM = re.compile(r"\binstead of (?:no\.? ?|nr\.? ?|number |part |#|exercise )(?P<l>[a-h]?\d?)(?![\w])")


def _labelled_as(item: LiftDraft | PieceDraft, text: str) -> bool:
    found = _INSTEAD_OF_ITEM.search(text)
    return found is not None and item.label.lower() == found["l"]


class Options(Instead):
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
            r"^(?:time )?cap (?:on|for|of|in) (?:part |piece |number |no\.? ?)?[(#]?\s?(?P<l>[a-h]?\d?)\)?\s*(?:[:=]|is)?\s*(?P<rest>.+)$",
            text,
        ):
            for item in self.session.items:
                if isinstance(item, PieceDraft) and item.label.lower() == found["l"]:
                    head = read_head(tokens_of("cap " + found["rest"]), "", Asker(), line.number, line.raw)
                    if "cap_s" in head.fields:
                        item.fields["cap_s"] = head.fields["cap_s"]
                        self._about(line, item)
                        return True
        if _INSTEAD_OF_ITEM.search(text):  # "chair squats instead of no. 1": the coach's words about that item
            meant = [
                each for each in self.session.items if not isinstance(each, TextDraft) and _labelled_as(each, text)
            ]
            if meant:
                self._about(line, meant[0])
            else:
                self._note(line, line.raw)
            return True
        if self._count_put_right(line, text):
            return True
        last = self._last_item()
        if isinstance(last, PieceDraft) and last.moves and loads_below(text, last, self.unit):
            self._about(line, last)
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
        if re.match(r"^(?:rotate|switch|swap|change)\b(?!.* (?:for|with|to) )", text) and isinstance(
            self.open, PieceDraft
        ):
            self._fill(read_head([], text, Asker(), line.number, line.raw))
            self._about(line, self.open)
            return True
        if (
            re.match(
                r"^(?:score|log|write|count|record|note|report|post|apunta\w*|anota\w*|notez|notiert?|schreibt?)\b(?!.{0,12}for time)",
                text,
            )
            and not self.prose
        ) or re.match(r"^(?:score|count only|record|post)\b", text):
            last = self._last_item()
            if isinstance(last, PieceDraft):
                head = read_head([], text, Asker(), line.number, line.raw)
                every = (
                    re.search(r"\b(?:of each|each one|for each|cada uno|chacun|jeweils|von jedem)\b", text) is not None
                )
                for item in self.session.items if every else [last]:
                    for key, value in head.fields.items():
                        if key in ("scored_by", "partners") and isinstance(item, PieceDraft):
                            item.fields.setdefault(key, value)
                self._about(line, last)
                return True
        return False

    def _count_put_right(self, line: Line, text: str) -> bool:
        """`EDIT: its 12 snatches not 15`, `sorry, wall balls 9/6 not 12/9`: a number of a movement above is another one."""
        found = next((each for way in _PUT_RIGHT if (each := way.match(text))), None)
        if found is None:
            return False
        now, was = (sorted((Decimal(each) for each in found[key].split("/")), reverse=True) for key in ("n", "was"))
        for piece in [item for item in reversed(self.session.items) if isinstance(item, PieceDraft) and item.moves]:
            place = wanted_place(found["what"].strip(), piece.moves)
            if place is None:
                continue
            main = piece.moves[place]
            if main.count is not None and len(now) == len(was) == 1 and set(main.count.reps) == {int(was[0])}:
                reps = (int(now[0]),) * len(main.count.reps)
                piece.moves[place] = replace(main, count=replace(main.count, reps=reps))
            elif main.sides is not None and list(main.sides) == [int(each) for each in was] and len(now) == 2:
                piece.moves[place] = replace(main, sides=(int(now[0]), int(now[1])))
            elif main.load is not None and amounts_of(main.load) == was and len(now) == len(was):
                unit = main.load.larger.unit if isinstance(main.load, Pair) else main.load.unit
                piece.moves[place] = replace(main, load=mass_or_pair(list(now), unit) or main.load)
            else:
                continue
            self._about(line, piece)
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
        if (load := load_of_all(text)) is not None and len(text) < 60 and not isinstance(self.open, LiftDraft):
            self.hinted["load of all"] = load
        caps = (
            [token for token in tokens_of(text) if token.kind == "cap"]
            if not isinstance(self.open, LiftDraft) or self.gap
            else []
        )
        head = read_head(caps, text, Asker(), line.number, line.raw)
        if {"partners", "cap_s"} & head.fields.keys() and len(text) < 90:
            self.hinted |= head.fields
            if text.rstrip().endswith(":") and (found := re.search(r"\b(\d{1,2}) rounds\b", text)):
                self.hinted.setdefault("rounds", int(found[1]))  # "with a partner, 5 rounds each, you go I go:"
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
