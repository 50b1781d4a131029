"""Reads who is meant: groups with sets of their own, those without a tested max, what was done in other weeks, stations at home."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.drafts import LiftDraft, PieceDraft
from tracker.prescription.sheet.model import Of
from tracker.prescription.sheet.move_words import like_main
from tracker.prescription.sheet.movement_reading import read_moves
from tracker.prescription.sheet.names import full_name
from tracker.prescription.sheet.piece import Movement
from tracker.prescription.sheet.tables import Line
from tracker.prescription.sheet.tokens import tokens_of
from tracker.prescription.sheet.walk_supersets import Supersets

_GROUP = re.compile(
    r"^\W*(?:group|gruppe|groupe|grupo|squad|heat|wave) ?(?P<g>[a-d]|\d)\b[^:0-9]{0,40}(?:\([^()]*\))?\s*[:=-]\s*(?=\d)"
)
_SAID_GROUP = re.compile(r"\b(?:group|gruppe|groupe|grupo|squad) ?(?:[a-d]|\d)\b", re.IGNORECASE)
# Sets for whoever has no tested max, beside those of the day: words of the coach for these people
_WITHOUT = re.compile(
    r"^\W*(?:and |for )?(?:those|people|everyone|everybody|anyone|anybody|the ones|all) (?:of you )?(?:without|with no|who (?:don'?t|do not|haven'?t|have no|never))\b"
)
_EXCEPTION = re.compile(
    r"^\W*(?:all .{0,40}\.\s+)?(?:ausnahme|exception|except(?:ion is)?|but for|excepción|excepté|sauf|salvo)\b[^.]*?\b(?P<n>\d{1,2}) ?rm\b"
)
# What was done in other weeks
_HISTORY = re.compile(
    r"\b(?:last week|(?:\d|two|three|a few) weeks? ago|letzte week|last month|la week pasada|la week dernière)\b.*\b(?:we|you|i) (?:did|had|were|was|went)\b"
    r"|\b(?:we|you) (?:did|had|went)\b.*\b(?:last week|weeks? ago|last month)\b"
)
_STATION = re.compile(
    r"(?:^|[,;]\s*|\band\s+)(?P<m>min(?:ute)?|station|stn|st|m|#)?\s*(?P<n>\d{1,2})\s*(?P<s>[:=)-]|is\b|->)?\s+(?=[a-z0-9])"
)


class People(Supersets):
    """Who is meant by a line."""

    def _group_sets(self, line: Line, text: str) -> bool:
        """`group B: 5x3 @ 80 %` below the sets of group A: the same lift again, with its own sets."""
        lift = self.open_lift
        found = _GROUP.match(text)
        if lift is None or found is None or not lift.groups or self.gap:
            return False
        if not any(_SAID_GROUP.search(each) for each in lift.text):
            return False
        own = self._open_lift(line, list(lift.names), lift.known)
        own.joined, own.implement, own.of = False, lift.implement, lift.of
        self._take_sets(line, own, tokens_of(text[found.end() :]), None)
        own.notes.append(found[0].strip(" :=-"))
        self._role(line, "lift", own)
        return True

    def _exception(self, line: Line, text: str) -> bool:
        """`Exception deadlift: there we take the 2RM`: what the percentages of one lift above are of."""
        found = _EXCEPTION.match(text)
        tokens = tokens_of(text)
        name = next((token for token in tokens if token.kind == "name"), None)
        if found is None or name is None or not 1 <= int(found["n"]) <= 20:
            return False
        typed = re.sub(r"^(?:ausnahme|exception|except|for|the) +", "", name.value.typed)
        wanted = full_name(typed, lift=True)[0].lower()
        for session in [*self.sessions, self.session]:
            for item in session.items:
                if isinstance(item, LiftDraft) and item.name.lower() == wanted:
                    item.of = Of(int(found["n"]))
        self._note(line, line.raw)
        return True

    def _of_others(self, text: str) -> bool:
        """Whether a sentence is about those without a max, or about another week: none of today's sets."""
        if _HISTORY.search(text) and "this week" not in text:
            return True
        return isinstance(self.open, LiftDraft) and bool(self.open.groups) and _WITHOUT.match(text) is not None

    def _by_station(self, line: Line, text: str, target: PieceDraft, when: str) -> bool:
        """`min 1 high knees, min 2 backpack snatch`, `1 = fast feet, 5 = band pull`: what is done instead, told by station."""
        if target.fields.get("in_turn") and len(target.moves) > 1:  # "odd = 10 burpees, even = the same"
            text = re.sub(r"\bodd(?: min(?:ute)?s?)?(?=\s*[:=-])", "min 1", text)
            text = re.sub(r"\beven(?: min(?:ute)?s?)?(?=\s*[:=-])", "min 2", text)
        marks = [each for each in _STATION.finditer(text) if each["m"] or each["s"]]
        if not marks or marks[0].start() > 2:
            return False
        numbers = [int(each["n"]) for each in marks]
        if (
            numbers != sorted(set(numbers))
            or numbers[-1] > len(target.moves)
            or (len(numbers) < 2 and not marks[0]["m"])
        ):
            return False
        ends = [each.start() for each in marks[1:]] + [len(text)]
        made: list[tuple[int, Movement]] = []
        for mark, end in zip(marks, ends, strict=True):
            words = re.split(r"[,.;]", text[mark.end() : end].strip(" ,.;"))[0].strip()
            read = read_moves(tokens_of(words), unit=self.unit, line=line.number, free=True)
            if not words or re.search(r"\brest\b", words):
                continue
            move = read.moves[0] if read.moves else Movement(words, line=line.number)
            made.append((int(mark["n"]) - 1, replace(move, options=(), when=when)))
        for place, move in made:
            main = target.moves[place]
            target.moves[place] = replace(main, options=(*main.options, like_main(move, main)))
        if not made:
            return False
        if line.raw.rstrip() not in target.text:
            target.text.append(line.raw.rstrip())
        self._role(line, "option", target)
        return True
