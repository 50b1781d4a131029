"""Reads what a later line puts right in passing, and asks where that can't be told: a wrong load is worse than a question."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.asks import Choice
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.model import SetGroup
from tracker.prescription.sheet.piece import Count
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.movement_reading import read_moves
from tracker.prescription.sheet.pieces.usual_movements import wanted_place
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft, TextDraft
from tracker.prescription.sheet.walk.options import Options
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.plain_words import plain

_LED = re.compile(
    r"\W*(?:edit(?: ?\d)?|correction|sorry|soz|oops|whoops|update|typo|scratch that|my bad|i meant|i mean)\b[\s:,.!-]*(?:(?:it'?s|its|that'?s|should be|make (?:it|that)|i meant?|meant|the) )*"
)
_SETS = re.compile(
    r"^(?P<s>\d{1,2}) ?x ?(?P<r>\d{1,2}),? (?:and )?(?:not|instead of|rather than) (?P<t>\d{1,2}) ?x ?(?P<q>\d{1,2})\b"
)
_COUNT = re.compile(
    r"^(?:\d{1,4} ?(?:m|cals?|reps)? ?[a-z][a-z -]{1,30}|[a-z][a-z -]{1,30} \d{1,4} ?(?:m|cals?|reps)?)$"
)
_TAKEN_BACK = re.compile(r"^\W*(?:actually,? no|no,? wait|wait,? no|scratch that)\b")
_CAP = re.compile(r"(?:^|[.,;] ?)(?:new |time )?cap (?:is |now |= ?)?(?P<n>\d{1,2})(?: ?min\w*| ?')?\W*$")
_EDITED = re.compile(
    r"\W*(?:edit(?:ed)?|correction|update|erratum|korrektur|corrección) ?#?\d?\s*[:,–-]+\s*(?=\S)", re.IGNORECASE
)
_ROUNDS = re.compile(
    r"\W*(?:it'?s |make (?:it|that) |only )?(?P<n>\d{1,2}) rounds\b(?:,? (?:not|instead of) \d{1,2}(?: rounds)?)?(?:[,;.] [a-z ]{0,40}|\W*$)"
)
_LENGTH = re.compile(
    r"\W*(?:(?:it'?s|make it|only) )?(?P<n>\d{1,2}) ?(?:min(?:utes)?|')(?P<cap> ?(?:time )?cap)?(?:,? (?:not|instead of) \d{1,2}(?: ?min\w*)?)?\W*$"
)
# "actually no, ... make it 4x3 at 72": sets in place of those above
_IN_PLACE = re.compile(
    r"^\W*(?:actually,? no|no,? actually|no wait|wait,? no|scratch that|change of plan)\b(?P<why>.*?)\bmake (?:it|that) (?=\d{1,2} ?x ?\d)"
)


class Corrections(Options):
    """What is put right below what it is about."""

    def _corrects(self, line: Line, text: str) -> bool:
        """`edit: 15 swings`, `sorry, 3x5 not 5x5`; what begins so, holds numbers and can't be told is asked about."""
        if self.session.items and _TAKEN_BACK.match(text):
            self._ask_changed(line)
            self._note(line, line.raw)
            return True
        led = _LED.match(text)
        if led is None or not re.search(r"\d", text[led.end() :]) or not self.session.items:
            return False
        first = re.split(r"[,;(]| - |\. ", text[led.end() :], maxsplit=1)[0].strip(" .!")
        whole = text[led.end() :].strip()
        done = self._sets_put_right(line, whole) or self._count_of_last(line, first)
        piece = next((item for item in reversed(self.session.items) if isinstance(item, PieceDraft)), None)
        if piece is not None and (cap := _CAP.search(whole)) and "cap_s" in piece.fields:
            piece.fields["cap_s"], done = int(cap["n"]) * 60, True
            self._about(line, piece)
        if done or (piece is not None and self._as_long(line, whole, piece)):
            return True
        if re.match(r"\W*sorry\b(?! ?[:,]? ?(?:it'?s |its )?\d)", text):
            return False  # "sorry I am late, 5x5 squats today"
        self._ask_changed(line)
        self._note(line, line.raw)
        return True

    def _edited(self, line: Line, text: str) -> bool:
        """`edit 2: 30 min cap`, a line of its own: what it says is done or asked about, never read as a movement."""
        if _EDITED.match(text) is None or not any(not isinstance(item, TextDraft) for item in self.session.items):
            return False
        said = plain(text)
        return self._put_right(line, said) or self._about_item(line, said) or self._corrects(line, said)

    def _as_long(self, line: Line, text: str, piece: PieceDraft) -> bool:
        """`3 rounds`, `30 min cap`: how long the piece above is."""
        if (found := _ROUNDS.match(text)) and "rounds" in piece.fields:
            piece.fields["rounds"] = int(found["n"])
        elif (found := _LENGTH.match(text)) and (found["cap"] or "cap_s" in piece.fields):
            piece.fields["cap_s"] = 60 * int(found["n"])
        else:
            return False
        self._about(line, piece)
        return True

    def _ask_changed(self, line: Line) -> None:
        choices = (
            Choice("unchanged", "no, what stands above is meant"),
            Choice("changed", "yes: to be typed in its place"),
        )
        typed = harmless(line.raw).strip()
        self.asker.choose(
            f"put right in line {line.number}", line.number, typed, "Does this change what stands above?", choices
        )

    def _sets_put_right(self, line: Line, text: str) -> bool:
        found = _SETS.match(text)
        lifts = [item for item in self.session.items if isinstance(item, LiftDraft)]
        if found is None:
            return False
        now, reps, was, of = (int(found[key]) for key in "srtq")
        for lift in reversed(lifts):
            for place, group in enumerate(lift.groups):
                if isinstance(group, SetGroup) and group.sets == was and group.reps.parts == (of,):
                    lift.groups[place] = replace(group, sets=now, reps=replace(group.reps, parts=(reps,)))
                    self._about(line, lift)
                    return True
        return False

    def _count_of_last(self, line: Line, text: str) -> bool:
        """`15 swings`, `row 400`: another number of one movement of the last piece."""
        pieces = [item for item in self.session.items if isinstance(item, PieceDraft) and item.moves]
        tokens = tokens_of(text)
        if not pieces or _COUNT.fullmatch(text) is None or sum(token.kind == "name" for token in tokens) != 1:
            return False
        piece = pieces[-1]
        number, name = re.search(r"\d+", text), next(token for token in tokens if token.kind == "name")
        place = wanted_place(name.text, piece.moves)
        read = read_moves(tokens, unit=self.unit, line=line.number, free=True)
        if place is None or number is None or len(read.moves) != 1:
            return False
        main = piece.moves[place]
        if main.count is None or main.count.listed or main.count.step:
            return False
        piece.moves[place] = replace(main, count=Count((int(number[0]),)))
        self._about(line, piece)
        return True

    def _in_place(self, text: str) -> str:
        """Take the sets of the open lift back where others stand in their place; returns the text of those."""
        found = _IN_PLACE.match(text)
        lift = self.open
        if found is None or not isinstance(lift, LiftDraft) or not lift.groups:
            return text
        lift.groups = []
        if words := found["why"].strip(" ,;:-"):
            lift.notes.append(words)
        return text[found.end() :]
