"""Reads who is meant: groups with sets of their own, those without a tested max, what was done in other weeks, stations at home."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.asks import Choice
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.model import Of
from tracker.prescription.sheet.piece import Movement
from tracker.prescription.sheet.pieces.movement_reading import read_moves
from tracker.prescription.sheet.pieces.usual_movements import like_main
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft, PieceDraft
from tracker.prescription.sheet.walk.supersets import Supersets
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.names import full_name

_GROUP = re.compile(
    r"^\W*(?:group|gruppe|groupe|grupo|squad|heat|wave) ?(?P<g>[a-d]|\d)\b[^:0-9]{0,40}(?:\([^()]*\))?\s*[:=-]\s*(?=\d)"
)
_SAID_GROUP = re.compile(r"\b(?:group|gruppe|groupe|grupo|squad) ?(?:[a-d]|\d)\b", re.IGNORECASE)
# Sets for whoever has no tested max, beside those of the day: words of the coach for these people
_WITHOUT = re.compile(
    r"^\W*(?:and |for )?(?:those|people|everyone|everybody|anyone|anybody|the ones|all) (?:of you )?(?:without|with no|who (?:don'?t|do not|haven'?t|have no|never))\b"
)
# What other people or another day do, below a lift: none of its sets. "Juniors: stop at 70 %", "NEXT: 90 3x4", "Abs: pick one, 3 sets"
_LED_BY_PEOPLE = re.compile(
    r"^\W*(?:next(?: time| week| session)?|juniors?|newer (?:lifters|people|ones)|anfänger|jugend|débutants?|principiantes|nivel \d|niveau \d|teens?|u1\d|under 1\d|abs|core)\b[^:\d]{0,24}:(?!\d)"
    r"|^\W*(?:please )?(?:post|send|text|tell me|let me know|dm)\b(?! (?:workout|metcon))"
)
_EXCEPTION = re.compile(
    r"^\W*(?:all .{0,40}\.\s+)?(?:ausnahme|exception|except(?:ion is)?|but for|excepción|excepté|sauf|salvo)\b[^.]*?\b(?P<n>\d{1,2}) ?rm\b"
)
# What was done in other weeks
_HISTORY = re.compile(
    r"\b(?:last week|(?:\d|two|three|a few) weeks? ago|letzte week|last month|la week pasada|la week dernière)\b.*\b(?:we|you|i) (?:did|had|were|was|went)\b"
    r"|\b(?:we|you) (?:did|had|went)\b.*\b(?:last week|weeks? ago|last month)\b"
)
# What some do who have something before them, beside the sets of the day
_SOME_DO = re.compile(
    r"^\W*(?:those|anyone|anybody|people|whoever|everyone|if you'?re|if you are) (?:with|who (?:has|have|is|are)|that (?:has|have|is|are)|having|doing|at|on|competing)?\b[^:]{0,40}\b(?:comp|competition|meet|race|game|match|travelling|traveling|deload\w*)\b"
    r"|^\W*if (?:you'?re |you are )?(?:under|less than|new)\b"
    r"|^\W*(?:alles|everything|all|tout|todo|tutto) ?-\d{1,2} ?%|.{0,40}\b(?:ziek|krank|malade|enfermo|ill|sick)\b.{0,20}: "
)
# What is asked of somebody, what came of it, what another version of the day would be, and what is done if it goes badly
_ASIDE = re.compile(
    r"\W*(?:(?:text|message|msg|send|whatsapp|tell|show|film|call) (?:me|us|it|your)\b(?!.*\b(?:slowest|lowest|fastest|score|total|worst)\b)|if (?:not|so|none)\b,?|(?:i |you |we )?(?:got to|got|managed|made it to|finished|scored) \d.*\b(?:last time|last week|in \d+:\d\d)"
    r"|(?:the )?(?:gym|normal|original|usual|class) version (?:is|was)\b|rpe (?:targets?|scale)\b|(?:no|don'?t have a|without a) (?:number|max) yet\b|(?:hold|add|use|take) (?:a |an |the )?\d{1,2}(?:\.\d)? ?(?:kg|lb)\b.{0,30}\bif\b|(?:sore |bad |cranky )(?:knees?|shoulders?|backs?|wrists?|hips?|elbows?):|(?:knees?|shoulders?|backs?|wrists?|hips?|elbows?) (?:complain\w*|hurts?|unhappy)\b|missed (?:sleep|last)\b|(?:you should (?:have|be|finish|feel)|should be about an? \d)\b|[a-z] is \d{1,2} weeks pregnant\b)"
)
_STATION = re.compile(
    r"(?:^|[,;]\s*|\band\s+)(?P<m>min(?:ute)?|station|stn|st|m|#)?\s*(?P<n>\d{1,2})\s*(?P<s>[:=)-]|is\b|->)?\s+(?=[a-z0-9])"
)


# What a diary tells: "planned 5 rds of 15 cal, did 3 rds (9:40)", "snatch up to 57 (!!)"
_PLANNED = re.compile(
    r"^\W*(?:i |we |had |was )*(?:planned|plan was|meant to|supposed to|wanted to|wanted)\b.*\d.*\b(?:did|got|managed|made it|stopped|ended)\b"
)
_UP_TO = re.compile(
    r"^\W*(?P<l>[a-z&+ -]{3,30}?) (?:up to|hit|made|got to|topped out at) (?P<n>\d{2,3}(?:\.5)?) ?(?:kg|lb)?(?: today| tonight)?[^\w%]*$"
)


class People(Supersets):
    """Who is meant by a line."""

    def _done_already(self, line: Line, text: str) -> bool:
        """Keep what a diary tells as words, and ask whether it is work to be done."""
        found = _UP_TO.match(text)
        if found is not None:
            names = [token for token in tokens_of(found["l"]) if token.kind == "name"]
            if len(names) != 1 or names[0].value.known is None or names[0].value.known.implement != "barbell":
                return False
        elif _PLANNED.match(text) is None:
            return False
        self.asker.choose(
            f"told of what was done: {text.strip()}",
            line.number,
            harmless(line.raw).strip(),
            "Is this work to be done?",
            (Choice("words", "no, words of the coach"), Choice("work", "yes: to be typed with its sets or its score")),
        )
        self._note(line, line.raw)
        return True

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
        if (_HISTORY.search(text) and "this week" not in text) or _ASIDE.match(text):
            return True
        if not isinstance(self.open, LiftDraft) or not self.open.groups:
            return False
        return any(way.match(text) is not None for way in (_WITHOUT, _SOME_DO, _LED_BY_PEOPLE))

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
