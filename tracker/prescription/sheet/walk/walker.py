"""Goes through the lines of a sheet and puts together what they say: each line by itself, what stands open above it, and what follows."""

from __future__ import annotations

import re

from tracker.prescription.sheet.days.headings import day_heading
from tracker.prescription.sheet.days.parts_of_day import ALONE, LEADS
from tracker.prescription.sheet.days.sections import section_heading
from tracker.prescription.sheet.days.weekdays import DAY_TOLD, day_of_sentence, weekday_of, without_hour
from tracker.prescription.sheet.lifts.marks import SET_NUMBER, SUPERSET
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.lines.marks import (
    BULLET,
    COUNTS,
    MORE_COUNTS,
    PART_ALONE,
    SUB_NUMBER,
    TEXT_AGAIN,
    WARM_UP,
    inline_labels,
    text_kind,
)
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.movement_words import makes_name
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft, TextDraft
from tracker.prescription.sheet.walk.maxes import goes_by
from tracker.prescription.sheet.walk.sentences import Sentences
from tracker.prescription.sheet.walk.work_in_words import work_behind
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.plain_words import plain
from tracker.prescription.sheet.words.talk import SORE

_ORDER = re.compile(
    r"(?:\d{1,2} ?(?:'|min\w*) +)?(?:(?:then|and|please|quick) )?(?:set[ -]?up|clean(?:ing)?[ -]?up(?: (?:time|the floor|after yourselves))?|tidy(?:ing)? up|pack(?:ing)? up|wipe down|change ?over|briefing|brief|whiteboard|intro|chat|water break|put (?:it |the kit |everything )?away)[.!]?",
    re.IGNORECASE,
)
# What is not to be done: no lift and no option, as nothing stands behind it
_NOT_DONE = re.compile(r"no \D[^\d:=>→@]{2,60}(?<![:=])", re.IGNORECASE)


class Walker(Sentences):
    """Reads a sheet line by line."""

    def run(self) -> None:
        """Read all lines."""
        for place, line in enumerate(self.lines):
            self.at = place
            if line.words:
                self._beside(line)
                continue
            if line.blank:
                self._blank(line)
                continue
            self._line(line)
            self._kept(line)
            self.gap = False
        self._end_session()

    def _beside(self, line: Line) -> None:
        """Keep what is only said beside the item above with it, as its words."""
        item = self._last_item()
        if isinstance(item, LiftDraft | PieceDraft):
            item.notes.append(line.text)
            if line.raw.rstrip() not in item.text:
                item.text.append(line.raw.rstrip())
            self._role(line, "note", item)
        else:
            self._note_words(line)
            self._role(line, "note")

    def _kept(self, line: Line) -> None:
        """Let no line be lost: it stands with the items that took of it, or as a note."""
        roles = self.roles.get(line.number, [])
        if not roles:
            self._note(line, line.raw)
        for _, item in roles:
            if isinstance(item, LiftDraft | PieceDraft) and line.raw.rstrip() not in item.text:
                item.text.append(line.raw.rstrip())

    def _blank(self, line: Line) -> None:
        if line.head:
            self._role(line, "table heading")
            if line.raw.strip() and any(sign.isalnum() for sign in line.raw):
                self._note_words(line)
        elif not line.raw.strip():
            self._role(line, "blank")
        elif not line.cell:
            self._role(line, "rule")
        self.gap, self.block_sets = True, 0
        if isinstance(self.open, TextDraft) and self.open.lines:
            self.open = None
            if self.section in ("warm-up", "cool-down", "notes"):
                self.section = ""
        if self.section in ("scaled", "home") and self.target is not None:
            self.section = ""
            self.target = None

    def _line(self, line: Line) -> None:
        text = line.text.strip()
        if not any(sign.isalnum() for sign in text):
            self._role(line, "rule")
            self.gap = True
            return
        if (told := self._without_piece(text)) != text:
            self._end_text()
            self.open, text = None, told
        elif self._key(line, text):
            return
        if (
            isinstance(self.open, TextDraft)
            and self.open.explicit
            and not line.cell
            and not self.gap
            and (again := TEXT_AGAIN.match(text))
            and text_kind(again[1]) == self.open.kind
        ):
            self.open.lines.append(harmless(line.raw).strip().partition(":")[2].strip() or harmless(line.raw).strip())
            self._role(line, self.open.kind, self.open)
            return
        if isinstance(self.open, PieceDraft) and self.open.explicit and self._printed(line, text):
            return
        if isinstance(self.open, TextDraft) and self.open.explicit and not line.cell and self._text_goes_on(text):
            self.open.lines.append(line.raw.strip())
            self._role(line, self.open.kind, self.open)
            return
        if isinstance(self.open, TextDraft) and self.open.explicit and self.open.kind != "note":
            self.open, self.section, self.above = self.above, "", None
        if self._strict(line, text):
            return
        bullet = BULLET.match(line.text)
        if bullet:
            text = line.text[bullet.end() :].strip()
        if self._edited(line, text) or self._level_of_lift(line, text):
            return
        text = self._set_number(SUB_NUMBER.sub("", text) if isinstance(self.open, LiftDraft) else text)
        if parts := inline_labels(text):
            for mark, part in parts:
                self._labelled(mark)
                self._sentences(line, part, mark, bullet=True)
            return
        text, label = self._peel(line, text)
        inner, second = self._peel(line, text) if label else (text, "")
        if second and second[0].isalpha() and inner:
            if label.isdigit():
                self._labelled(label)
            text, label = inner, second
        if not text:
            self._note(line, line.raw)
            return
        if isinstance(self.open, PieceDraft) and not self.gap and self._next_row(line, text):
            return
        text = self._day_told(text)
        counts = MORE_COUNTS.match(text) or (
            isinstance(self.open, PieceDraft) and not self.open.moves and not self.gap and COUNTS.match(text)
        )
        heading = (
            day_heading(text, self.asker, line.number, loose=line.day)
            if (not label or label.isalpha()) and not counts
            else None
        )
        part = (ALONE.fullmatch(text) or LEADS.match(text)) if heading is None else None
        if part and self._part_of_day(line, part["part"]):
            text = text[part.end() :].strip()
            if not text:
                return
        if heading is None and not self.session.items:
            text = without_hour(text)
        if heading is not None and heading.week_only and self._begins_weeks(heading, line):
            self._week_sets(line, heading)
            return
        if heading is not None and not self._week_of_lift(heading, line):
            if self._day(line, heading):
                self.session.of = goes_by(plain(line.text)) or self.session.of
                text = heading.rest
                if not text:
                    return
                if heading.alone and self._is_title(text):
                    self._hints(line, plain(text))
                    self.session.title = text.strip(" -:|/.")
                    return
        elif heading is not None and isinstance(self.open, LiftDraft):
            self._week_sets(line, heading)
            return
        if _ORDER.fullmatch(text) or SORE.match(text):  # "set up", "clean up": what is done to the room is no movement
            self._note(line, line.raw)
            return
        if isinstance(self.open, LiftDraft) and self.open.groups and not self.gap and _NOT_DONE.fullmatch(text):
            self._note(line, line.raw)  # "no press out of the feet!!"
            return
        if re.match(
            r"\W*(?:just|only|if)(?: there(?: are|'s|'re))?(?: just| only)? (?:two|2|three|3|one|1|four|4) of (?:you|us)\b|every time (?:you|u|someone|anyone|somebody|the)\b(?!.*\d ?x ?\d)|no (?:metcon|wod|conditioning|workout|class|training)\b|no (?:strength|lifting)\b(?!.*\d)|\(?(?:the )?(?:gym|normal|original|usual) version (?:is|was)\b",
            text,
            re.IGNORECASE,
        ):
            self._note(line, line.raw)
            return
        if self._superset_head(line, plain(text)):
            return
        if (found := PART_ALONE.fullmatch(text)) and not label:
            self.open, self.label, self.section = None, found["n"].upper(), ""
            self._role(line, "heading")
            return
        if found := SUPERSET.match(text):
            if isinstance(self.open, LiftDraft) or (
                self.session.items and isinstance(self.session.items[-1], LiftDraft)
            ):
                self.join_next = True
            text = text[found.end() :]
            lift = self.open_lift
            if (
                lift is not None
                and lift.groups
                and not self.gap
                and self._in_turn(line, "", text, label, bullet=bool(bullet))
            ):
                return
        if label:
            self._labelled(label)
        if WARM_UP.match(text) and work_behind(text):  # "Warm up: 5 min row. Then bench 4x8 60 kg"
            self._sentences(line, text, label, bullet=bool(bullet))
            return
        while found := section_heading(text):
            section, head, rest = found
            if section == "rest" and (rest or heading is None):
                break
            timed = re.search(r"\(([^()]*\d ?(?:min|')[^()]*)\)$", text.strip()) if not rest else None
            if timed and section in ("conditioning", "accessory"):  # "Finisher (12 min, no score)"
                rest = timed[1]
            if not self._section(line, section, head, rest):
                return
            text = rest
            again, more = self._peel(line, text)
            if more and not label:
                text, label = again, more
                self._labelled(label)
        if text:
            self._sentences(line, text, label, bullet=bool(bullet))
        self.join_parts = False

    def _day_told(self, text: str) -> str:
        """Put a later day of the same message that is told in a sentence before what is done on it: `Sunday is short. Front squats 4x4`."""
        told, before = DAY_TOLD.match(text), self.session.weekday
        if told is None or not self.session.items or not self._reads(told["rest"]):
            return text
        if before is None and not self.sessions and not self.session.headed:
            first = next((line.text.strip() for line in self.lines if line.text.strip()), "")
            before = day_of_sentence(first[:1].upper() + first[1:])
        if before is None or weekday_of(told["day"]) <= before:
            return text
        self.session.weekday = before
        return f"{told['day']}: {told['rest'].strip()}"

    def _set_number(self, text: str) -> str:
        """`1) 5 @ 70%`, `2-4) 3 @ 80%` below a lift number its sets; they are no items of their own."""
        found = SET_NUMBER.match(text)
        if found is None or not isinstance(self.open, LiftDraft) or self.gap:
            return text
        tokens = tokens_of(plain(re.split(r"[,(;]|\bif\b", found["sets"], maxsplit=1)[0]))
        kinds = {token.kind for token in tokens}
        if (
            "name" in kinds
            or not kinds & {"pct", "mass", "atx"}
            or any(makes_name(each.text) for each in tokens if each.kind == "word")
        ):
            return text
        return f"set {found['n']}: {found['sets']}"
