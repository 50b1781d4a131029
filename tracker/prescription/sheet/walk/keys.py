"""Reads the lines of a printed sheet: keys such as `Title:` and `Note:`, and lifts with their implement behind a comma."""

from __future__ import annotations

import re

from tracker.prescription.sheet.days.headings import day_heading
from tracker.prescription.sheet.lifts.lift_line import (
    implement_word,
    own_case,
)
from tracker.prescription.sheet.lifts.marks import ALTERNATIVE, STRICT
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.lines.marks import BULLET, KEYS, REMARK
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import CLOCKS
from tracker.prescription.sheet.pieces.printed_lines import printed_kind
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft, TextDraft
from tracker.prescription.sheet.walk.headings import Headings
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.names import known
from tracker.prescription.sheet.words.plain_words import plain

# "Home people, 1 kettlebell:" heads what is done with that
_KIT_OF_ALL = re.compile(
    r"^\W*(?:for )?(?:the |those |everyone |everybody )?(?:(?:people|folks|crew|those|everyone|everybody) )?(?:at )?(?:home|travel\w*|hotel|garage)(?: (?:people|folks|crew|gym|workout|version|session|day))?,? ?[-(,:]? ?(?:with |all you need is |only |just )*(?P<n>1|one|a|2|two|a pair of)? ?(?P<i>kettlebells?|dumbbells?)(?: only)?\)? ?:?\W*$"
)


class Keys(Headings):
    """Lines as a printed sheet has them."""

    def _key(self, line: Line, text: str) -> bool:
        if text.startswith("--") and not text.strip("- "):
            return False
        if text.startswith("-- "):
            self._role(line, "remark")
            return True
        found = KEYS.match(text)
        if found is None:
            return False
        key = found["key"].lower()
        raw = re.sub(r"^[^:：]*[:：]", "", line.raw, count=1)
        words = " ".join(harmless(raw).split()) if key in ("title", "piece") else harmless(raw).strip()
        if key == "title":
            if self.title:
                return False
            self.title = words[:200]
            self._role(line, "title")
            self._end_text()
            return True
        if key in ("date", "start", "starts"):
            heading = day_heading(text[found.end() :], self.asker, line.number)
            if heading is None or heading.rest or self.sessions or self.session.items:
                return False
            self.starts = heading.on
            if heading.on is None:
                self.session.month_day, self.session.weekday = heading.month_day, heading.weekday
            self._role(line, "date")
            return True
        if key in ("note", "notes"):
            if not words:
                return False
            if isinstance(self.open, TextDraft) and self.open.kind == "note" and self.open.explicit and not self.gap:
                self.open.lines.append(words)
                self._role(line, "note", self.open)
                return True
            self._end_text()
            if isinstance(self.open, LiftDraft | PieceDraft) and not self.gap:
                self.open.notes.append(words)
                self.open.text.append(line.raw.rstrip())
                self._role(line, "note", self.open)
            elif self.session.headed or self.session.items:
                self._new_text("note", line, words, explicit=True)
            else:
                self.notes.append(words)
                self._role(line, "note")
            self._training_max(plain(words), line)
            return True
        self.label, self.hinted = "", {}
        self._open_piece(line, "")
        assert isinstance(self.open, PieceDraft)
        self.open.title, self.open.explicit = words, True
        self._role(line, "piece", self.open)
        return True

    def _without_piece(self, text: str) -> str:
        """`Piece: every minute for 15 min`: what stands behind the key says how it is done and is no title."""
        found = KEYS.match(text)
        if found is None or found["key"].lower() != "piece":
            return text
        tokens = tokens_of(plain(text[found.end() :]))
        how = bool(tokens) and tokens[0].kind in CLOCKS | {"rounds", "num", "list"}
        if not how or not {token.kind for token in tokens} & CLOCKS or not any(each.isdigit() for each in text):
            return text
        below = BULLET.sub("", self._words_below(), count=1).strip()
        return text if printed_kind(below) is not None else text[found.end() :].strip()

    def _strict(self, line: Line, text: str) -> bool:
        """Read a lift with its implement behind a comma, and what may be done instead, as a printed sheet has it."""
        text = re.sub(BULLET, "", text, count=1).strip() if BULLET.match(text) else text
        if isinstance(self.open, LiftDraft) and (found := ALTERNATIVE.match(text)):
            other = self._alternative(found, line)
            if other is not None:
                self.open.alternatives.append(other)
                self.open.text.append(line.raw.rstrip())
                self._role(line, "alternative", self.open)
                return True
        if (kit := _KIT_OF_ALL.match(plain(text))) is not None:
            self.kit = implement_word(kit["i"], kit["n"] or "")
            self._note(line, line.raw)
            return True
        peeled, label = self._peel(line, text)
        found = STRICT.match(REMARK.sub("", peeled).rstrip())
        if (
            found is None
            or found["name"].strip().lower().startswith(("or ", "no "))
            or re.search(r"\d\s*[x×*]\s*\d|\d\s*sets?\b", found["name"])
        ):
            return False
        if (
            isinstance(self.open, PieceDraft)
            and not self.gap
            and not found["joined"]
            and found["end"] != ":"
            and self.open.moves
        ):
            return False
        names = [" ".join(each.split()) for each in found["name"].split(" + ")]
        self.open = None
        if label:
            self._labelled(label)
        implement = implement_word(found["impl"], found["two"] or "")
        lift = self._open_lift(line, [own_case(each) for each in names], known(names[0], lift=True))
        lift.implement, lift.implement_said, lift.strict = implement, True, True
        lift.joined = bool(found["joined"]) or lift.joined
        rest = REMARK.sub("", peeled).rstrip()[found.end() :].strip()
        if rest:
            self._lift_words(line, lift, plain(rest), typed=line.raw)
        self._role(line, "lift", lift)
        return True
