"""Reads what stands above other lines: days, sections, labels."""

from __future__ import annotations

import re

from tracker.prescription.sheet.days.headings import OF_WHAT, Heading
from tracker.prescription.sheet.days.parts_of_day import is_later
from tracker.prescription.sheet.days.sections import Section, section_heading
from tracker.prescription.sheet.lifts.sets_found import SETS_KINDS
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import CLOCKS
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft, SessionDraft, TextDraft
from tracker.prescription.sheet.walk.lift_parts import split_parts
from tracker.prescription.sheet.walk.parts import Parts
from tracker.prescription.sheet.words.letters import clean, harmless
from tracker.prescription.sheet.words.plain_words import plain

# Headings that say no more than the kind of what stands below; any other is kept as the coach's words
_PLAIN_HEAD = re.compile(
    r"(?:(?:general|full|specific|dynamic) )?warm(?:[ -]?up)?|w/?u|wup|cool[ -]?down|c/?d|mobility|stretch(?:es|ing)?",
    re.IGNORECASE,
)


# What is done first, and easily, before the work
_EASY = re.compile(r"\b(?:easy|easily|gentle|gently|light(?:ly)?|relaxed|nice and slow|locker)\b", re.IGNORECASE)
# "16k easy", "45 min zone 2": work, though it names no movement
_FAR_OR_LONG = re.compile(
    r"\W*\d{1,3}(?:[.,]\d)? ?(?:km?|miles?|min(?:ute)?s?|')(?:\b|(?<='))[^\d]{0,20}\b(?:easy|steady|long|zone|z[1-5]|tempo|threshold|aerobic)\b",
    re.IGNORECASE,
)


class Headings(Parts):
    """Lines that head others."""

    join_parts = False  # the lifts of this line are done in turn

    def _part_of_day(self, line: Line, part: str) -> bool:
        """Begin another session of the same day, or name the part of the day of this one; False where it is neither."""
        before = self.session
        if before.part and not is_later(part, before.part):
            return False
        if any(not isinstance(item, TextDraft) for item in before.items):
            self._end_session()
            self.session.headed, self.session.line = before.headed, line.number
            self.session.week, self.session.day, self.session.weekday = before.week, before.day, before.weekday
            self.session.on, self.session.month_day = before.on, before.month_day
        self.session.part = part
        self.section, self.label, self.open, self.target = "", "", None, None
        self._role(line, "day")
        return True

    def _day(self, line: Line, heading: Heading) -> bool:
        named = self.session.weekday is not None or self.session.on is not None
        if heading.session and heading.weekday is None and heading.on is None and heading.week is None and named:
            return self._part_of_day(line, f"Session {heading.day}")
        new = heading.weekday is not None and not self.session.items
        before = self.session.weekday
        headed = re.match(r"[a-z]{3,12}: ", heading.rest, re.IGNORECASE) is not None  # "Sat erg: 30 min ..."
        later = (self.gap or headed) and before is not None and heading.weekday is not None and heading.weekday > before
        later = later or (OF_WHAT.match(heading.rest) is not None and heading.weekday not in (None, before))
        if heading.rest and not heading.alone and not new and not later and not self._reads(heading.rest):
            return False
        again = (
            heading.weekday is not None
            and heading.weekday == before
            and heading.rest
            and heading.on is None
            and heading.week is None
            and self.session.items
            and not self.gap
            and not is_later(heading.part, self.session.part)
        )
        same = heading.on is not None and heading.on == self.session.on and heading.rest
        if again or (same and not is_later(heading.part, self.session.part)):
            self._role(line, "day")  # the date again, before each row of it
            self.open = None
            return True
        if (
            self.session.headed
            and not self.session.items
            and heading.week is None
            and self.session.week is not None
            and self.session.day is None
            and self.session.weekday is None
        ):
            pass  # the day under the line of its week
        else:
            self._end_session()
        if heading.week is not None:
            self.week = heading.week
        session = self.session
        session.headed, session.line = True, line.number
        session.week = heading.week if heading.week is not None else self.week
        session.day, session.weekday, session.on, session.month_day = (
            heading.day,
            heading.weekday,
            heading.on,
            heading.month_day,
        )
        session.part = heading.part
        if heading.on is not None:
            session.week = None
        self.section, self.label, self.open, self.target = "", "", None, None
        self._role(line, "day")
        return True

    def _is_title(self, text: str) -> bool:
        """Whether words behind a day are a title: neither sets, a clock nor a section."""
        if section_heading(text):
            return False
        tokens = tokens_of(plain(text))
        kinds = {token.kind for token in tokens}
        if kinds & (SETS_KINDS - {"max", "plus"} | CLOCKS | {"setsxm", "setsxt"}):
            return False
        if _FAR_OR_LONG.match(text):
            return False
        numbers = kinds & {"num", "dist", "cal", "rounds", "time"}
        return not (numbers and "name" in kinds) and len(text) <= 80

    def _section(self, line: Line, section: Section, head: str, rest: str) -> bool:
        """Begin a section; False where nothing of the line is left to read."""
        if section in ("scaled", "home", "notes") and self.open is not None:
            self.target = self.open if isinstance(self.open, LiftDraft | PieceDraft) else self.target
        if section == "superset":
            if isinstance(self.open, LiftDraft) or (
                self.session.items and isinstance(self.session.items[-1], LiftDraft)
            ):
                self.join_next = head.lower().endswith("with") or (rest != "" and not _two_lifts(rest))
            self.join_parts = _two_lifts(rest)
            self.section = section
            self._role(line, "heading")
            return bool(rest)
        if section in ("warm-up", "cool-down"):
            self.above = self.open if isinstance(self.open, LiftDraft) and self.open.empty and not self.gap else None
            self.open, self.section = None, section
            draft = self._new_text(section, line, rest, explicit=True)
            if _letters(head) not in _letters(
                clean(line.raw)
            ):  # "Warup: easy row": a slip was mended, the words stay as typed
                draft.lines[: 1 if rest else 0] = [harmless(line.raw).strip()]
            elif bracket := re.search(r"\([^()]*\)", head):
                draft.lines.insert(0, bracket[0])
            elif draft.lines and head.casefold() in draft.lines[0].casefold():
                pass  # the whole line stands there already
            elif not _PLAIN_HEAD.fullmatch(head):  # "Activation" says more than that it is a warm-up
                draft.lines.insert(0, f"{head}: {draft.lines.pop(0)}" if rest and draft.lines else head)
            if rest and any(sign.isdigit() for sign in head) and not rest.endswith(":"):
                self.open, self.section = self.above, ""  # "Prep 5 min: arm bars, halos" says all of it
            return False
        if section == "notes":
            if rest or isinstance(self.open, LiftDraft | PieceDraft):
                self._note(line, line.raw)
                if rest:
                    self._chunk_fields(line, rest)
                return False
            self.section = "notes"
            self.open = None
            self._new_text("note", line, head + ":", explicit=True)
            return False
        if section == "rest":
            self._note(line, line.raw)
            return False
        if section in ("scaled", "home"):
            if self.open is None and self.session.items and not isinstance(self.session.items[-1], TextDraft):
                self.target = self.session.items[-1]
            self.section = section
            if self.target is None:
                self.section = ""
            self.level = self._level_of() if not rest else -1
            self._role(line, "heading", self.target)
            if self.target is not None and not rest:
                self.target.text.append(line.raw.rstrip())
            return bool(rest)
        was_open = self.open
        if not (isinstance(was_open, PieceDraft) and was_open.empty):
            self.open = None
        self.section, self.target = section, None
        self._role(line, "heading")
        return bool(rest)

    def _labelled(self, label: str) -> None:
        """A label begins an item of its own, but the second of A1 and A2 is done in turn with the first."""
        piece = self.open_piece
        if piece is not None and (not self.gap or not piece.moves or piece.listed):
            same = bool(piece.label) and piece.label[:1].isalpha() == label[:1].isalpha()
            if (
                piece.listed
                or (not piece.moves and piece.fields and (label == "1" or (not same and label in ("A", "A1"))))
                or (not same and not self.gap and label.isdigit())
            ):
                piece.listed = True
                return
        if self.section == "superset":
            self.join_next = label not in ("1", "A", "A1")
            self.open = None
            self.label = label
            return
        self.open = None
        self.join_next = len(label) == 2 and label[0] == self.label[:1] and label[1] > "1"
        self.label = label
        if self.section in ("scaled", "home"):
            self.section = ""

    def _easy_start(self) -> None:
        """`2 rds easy: 200 row, 10 air squats` before anything else is a warm-up, where the work follows."""
        items = self.session.items
        for place, item in enumerate(items):
            if isinstance(item, TextDraft):
                continue
            easy = (
                isinstance(item, PieceDraft)
                and not item.section
                and item.fields.get("kind", "unscored") == "unscored"
                and all(move.load is None for move in item.moves)
                and _EASY.search(item.text[0] if item.text else "") is not None
                and (len(item.moves) > 1 or item.fields.get("cap_s", 0) in range(1, 601))
            )
            work = any(isinstance(other, LiftDraft) or _scored(other) for other in items[place + 1 :])
            if not easy or not work:
                return
            words = [harmless(typed).strip() for typed in item.text if typed.strip()]
            items[place] = TextDraft("warm-up", item.line, words)
            self._moved(item, items[place])

    def _end_session(self) -> None:
        self.open = None
        self.target = None
        self._easy_start()
        session = self.session
        early = [item for item in session.items if isinstance(item, LiftDraft) and item.first]
        if early and isinstance(
            first := next((e for e in session.items if not isinstance(e, TextDraft)), None), PieceDraft
        ):
            others = [item for item in session.items if item not in early]
            place = next(at for at, item in enumerate(others) if item is first)
            session.items = [*others[:place], *early, *others[place:]]
        if session.headed and session.title and not session.items:  # "Tue: mobility only"
            raw = next((line.raw for line in self.lines if line.number == session.line), session.title)
            session.items.append(TextDraft("note", session.line, [harmless(raw).strip()]))
            session.title = ""
        if session.items or session.headed:
            self.sessions.append(session)
        self.session = SessionDraft()


def _scored(item: object) -> bool:
    return isinstance(item, PieceDraft) and item.fields.get("kind", "unscored") != "unscored"


def _letters(text: str) -> str:
    return "".join(sign for sign in text.casefold() if sign.isalpha())


def _two_lifts(text: str) -> bool:
    """Whether a text has two lifts or more, each with its sets: `dips 3x8 / curls 3x12`."""
    return len(split_parts(tokens_of(plain(text)))) > 1
