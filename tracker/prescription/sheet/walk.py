"""Goes through the lines of a sheet and puts together what they say: each line by itself, what stands open above it, and what follows."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.both_groups import amounts_of_both
from tracker.prescription.sheet.drafts import LiftDraft, SessionDraft, TextDraft
from tracker.prescription.sheet.headings import Heading, Section, day_heading, section_heading
from tracker.prescription.sheet.letters import harmless
from tracker.prescription.sheet.lift_tokens import (
    cut_condition,
    cut_remarks,
    for_both,
    implement_word,
    main_names,
    of_names,
    own_case,
    reps_out,
    split_parts,
)
from tracker.prescription.sheet.line_marks import (
    AFTER_ROUND,
    ALL_OF,
    ALTERNATIVE,
    BULLET,
    COUNTS,
    GREETING,
    IN_TURN,
    KEYS,
    MORE_COUNTS,
    NO_KIT,
    NO_MAX,
    OR_BRACKETS,
    PART_ALONE,
    PENALTY,
    QUESTION,
    REMARK,
    ROUND_AFTER,
    SENTENCE_END,
    SET_NUMBER,
    STRICT,
    SUB_NUMBER,
    SUPERSET,
    TALK,
    TEXT_AGAIN,
    WARM_UP,
    inline_stations,
    is_prose,
    joined_sentences,
    text_kind,
    then_parts,
)
from tracker.prescription.sheet.model import Of, SetGroup
from tracker.prescription.sheet.movement_words import makes_name
from tracker.prescription.sheet.names import full_name, known
from tracker.prescription.sheet.piece_draft import PieceDraft
from tracker.prescription.sheet.piece_heads import CLOCKS, read_head
from tracker.prescription.sheet.plain_words import plain
from tracker.prescription.sheet.sets_found import SETS_KINDS
from tracker.prescription.sheet.sets_reading import read_sets
from tracker.prescription.sheet.tables import Line
from tracker.prescription.sheet.tokens import Token, tokens_of
from tracker.prescription.sheet.walk_people import People

_LENGTH = re.compile(
    r"\(?(?:about |ca\.? |approx\.? |~ ?)?\d{1,2}(?:[ -]+\d{1,2})? ?(?:min(?:ute)?s?\.?|')\)?", re.IGNORECASE
)


# Headings that say no more than the kind of what stands below; any other is kept as the coach's words
_PLAIN_HEAD = re.compile(
    r"(?:(?:general|full|specific|dynamic) )?warm(?:[ -]?up)?|w/?u|wup|cool[ -]?down|c/?d|mobility|stretch(?:es|ing)?",
    re.IGNORECASE,
)


class Walker(People):
    """Reads a sheet line by line."""

    def run(self) -> None:
        """Read all lines."""
        for place, line in enumerate(self.lines):
            self.at = place
            if line.blank:
                self._blank(line)
                continue
            self._line(line)
            self._kept(line)
            self.gap = False
        self._end_session()

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
        if self._key(line, text):
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
        text = self._set_number(SUB_NUMBER.sub("", text) if isinstance(self.open, LiftDraft) else text)
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
        counts = MORE_COUNTS.match(text) or (
            isinstance(self.open, PieceDraft) and not self.open.moves and not self.gap and COUNTS.match(text)
        )
        heading = (
            day_heading(text, self.asker, line.number, loose=line.day)
            if (not label or label.isalpha()) and not counts
            else None
        )
        if heading is not None and heading.week_only and self._begins_weeks(heading, line):
            self._week_sets(line, heading)
            return
        if heading is not None and not self._week_of_lift(heading, line):
            if self._day(line, heading):
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
        if re.match(r"no (?:metcon|wod|conditioning|workout|class|training)\b", text, re.IGNORECASE):
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
        if label:
            self._labelled(label)
        while found := section_heading(text):
            section, head, rest = found
            if section == "rest" and (rest or heading is None):
                break
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

    def _labelled(self, label: str) -> None:
        """A label begins an item of its own, but the second of A1 and A2 is done in turn with the first."""
        piece = self.open if isinstance(self.open, PieceDraft) else None
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

    def _day(self, line: Line, heading: Heading) -> bool:
        new = heading.weekday is not None and not self.session.items
        if heading.rest and not heading.alone and not new and not self._reads(heading.rest):
            return False
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
        if heading.on is not None:
            session.week = None
        self.section, self.label, self.open, self.target = "", "", None, None
        self._role(line, "day")
        return True

    join_parts = False  # the lifts of this line are done in turn

    def _is_title(self, text: str) -> bool:
        """Whether words behind a day are a title: neither sets, a clock nor a section."""
        if section_heading(text):
            return False
        tokens = tokens_of(plain(text))
        kinds = {token.kind for token in tokens}
        if kinds & (SETS_KINDS - {"max", "plus"} | CLOCKS | {"setsxm", "setsxt"}):
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
            if bracket := re.search(r"\([^()]*\)", head):
                draft.lines.insert(0, bracket[0])
            elif not _PLAIN_HEAD.fullmatch(head):  # "Activation" says more than that it is a warm-up
                draft.lines.insert(0, f"{head}: {draft.lines.pop(0)}" if rest and draft.lines else head)
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

    def _sentences(self, line: Line, text: str, label: str, *, bullet: bool) -> None:
        if self.section in ("warm-up", "cool-down") and isinstance(self.open, TextDraft):
            self.open.lines.append(line.raw.strip())
            self._role(line, self.open.kind, self.open)
            return
        text = REMARK.sub("", text).rstrip()
        if not text:
            self._role(line, "remark")
            return
        if (
            isinstance(self.open, LiftDraft)
            and not self.gap
            and re.match(r"warm[ -]?up\b(?! to )", text, re.IGNORECASE)
            and not _loaded_sets(text)
        ):
            self._note(line, line.raw)
            return
        if not (isinstance(self.open, LiftDraft) and not self.gap and _loaded_sets(text)) and self._warm_up(line, text):
            return
        if (
            (found := re.fullmatch(r"['\"“„*]{1,2}([^'\"“”]{2,40})['\"”“*]{1,2}\.?", text))
            and not isinstance(self.open, LiftDraft)
            and not any(sign.isdigit() for sign in text)
        ):
            self.open = None
            piece = self._open_piece(line, "")
            piece.title, piece.named = found[1].strip(), True
            self._role(line, "piece", piece)
            return
        timed = ("every minute", "as many as possible", "work and rest")
        piece = self.open if isinstance(self.open, PieceDraft) else None
        if (
            piece is not None
            and piece.moves
            and piece.fields.get("kind") in timed
            and re.match(r"(?:and )?then\b", text, re.IGNORECASE)
        ):
            self.open = None  # what is done then is no part of what fills a time
        text = NO_KIT.sub(r"\1:", text)
        if (piece is not None and piece.strength_clock) or any(
            token.kind in ("emom", "every", "onminute") for token in tokens_of(plain(text))
        ):
            text = inline_stations(text)
        parts = (
            [part for part in SENTENCE_END.split(text) if part.strip()]
            if len(text) > 40 or text.count(".") > 1 or re.search(r"[.!?]\s+[A-Z]", text)
            else [text]
        )
        parts = joined_sentences(parts)
        read_any = False
        unread: list[str] = []
        for place, part in enumerate(parts):
            self.prose = is_prose(part)
            self.later = " ".join(parts[place + 1 :])
            if read_any and WARM_UP.match(part):
                unread.append(part.strip())
                continue
            for chunk in then_parts(part):
                if self._chunk(line, chunk, label, bullet=bullet):
                    read_any = True
                elif chunk.strip():
                    unread.append(chunk.strip())
                label = ""
        if not read_any:
            self._note(line, line.raw)
        elif unread:
            self._keep_words(line, " ".join(unread))

    def _warm_up(self, line: Line, text: str) -> bool:
        """Whether a line is a warm-up without a colon, in a sentence of its own."""
        found = WARM_UP.match(text)
        if found is None or (isinstance(self.open, LiftDraft) and not self.gap):
            return False
        rest = text[found.end() :].strip(" -:,.")
        if not rest:
            return False
        heads = text.rstrip().endswith(":") and not any(token.kind == "name" for token in tokens_of(plain(rest)))
        if heads or _LENGTH.fullmatch(rest):  # a heading, which only says how long: what it heads stands below
            self._section(line, "warm-up", found[0], rest)
            return True
        self.open = None
        draft = self._new_text("warm-up", line, harmless(line.raw).strip())
        draft.lines = [harmless(line.raw).strip()]
        self.open = None
        return True

    def _chunk(self, line: Line, chunk: str, label: str, *, bullet: bool) -> bool:
        """Read one sentence or part of a line; False where nothing of it was understood."""
        text = plain(chunk)
        if (found := IN_TURN.search(chunk)) and found.start() > 0:
            return self._in_turn(line, chunk[: found.start()], chunk[found.end() :], label, bullet=bullet)
        if self._all_of(line, text) or self._between_sets(line, text) or self._sets_of_block(line, text):
            return True
        if QUESTION.search(text) and not text.strip().startswith("no "):
            tokens = tokens_of(text)
            if not {token.kind for token in tokens} & (SETS_KINDS | CLOCKS):
                return False
        if self._group_sets(line, text) or (isinstance(self.open, LiftDraft) and self._same_as(line, text)):
            return True
        if self._of_others(text) or _USUAL_SET.match(text):
            return False
        if self._exception(line, text) or self._send_off(line, text):
            return True
        if PENALTY.search(text) or re.match(
            r"\W*(?:example|e\.g\.|for instance|for example|beispiel|z\.b\.|ejemplo|exemple)\b", text
        ):
            return False
        if (found := NO_MAX.search(text)) and (found.start() == 0 or self._all_of(line, text[: found.start()])):
            self._note(line, line.raw)
            return True
        if self.section in ("scaled", "home") and self.target is not None and self._options(line, text):
            return True
        if isinstance(self.open, LiftDraft) and self._other_way(line, chunk):
            return True
        if (isinstance(self.open, PieceDraft) and self.open.strength_clock) or any(
            token.kind in ("emom", "every", "onminute") for token in tokens_of(text)
        ):
            text = inline_stations(text)
        if isinstance(self.open, PieceDraft):
            text = self._station(line, text)
            if not text:
                return True
        if (found := AFTER_ROUND.match(text)) and isinstance(self.open, PieceDraft) and self.open.moves:
            text, self.gap = text[found.end() :], False
        elif (
            (found := ROUND_AFTER.match(text))
            and isinstance(self.open, PieceDraft)
            and self.open.moves
            and any(token.kind == "name" for token in tokens_of(found["what"]))
            and not any(token.kind in CLOCKS for token in tokens_of(found["what"]))
        ):
            text, self.gap = found["what"], False
        if self._for_others(line, text):
            return True
        if self._about_item(line, text) or self._substitute(line, text) or self._hints(line, text):
            return True
        if isinstance(self.open, LiftDraft) and not any(token.kind in CLOCKS for token in tokens_of(text)):
            text = OR_BRACKETS.sub(lambda found: self._bracket_option(line, found), text)
        condition = ""
        if isinstance(self.open, LiftDraft) and not self.gap:
            sets, condition = cut_condition(text)
            if condition and {token.kind for token in tokens_of(sets)} & {"pct", "atx", "setsx"}:
                text = sets
            else:
                condition = ""
        tokens = tokens_of(text)
        self.remarks = []
        if isinstance(self.open, LiftDraft) or (
            {token.kind for token in tokens} & {"setsx", "sets", "find"}
            and not any(token.kind in CLOCKS for token in tokens)
        ):
            text, self.remarks = cut_remarks(text, chunk)
            tokens = tokens_of(text)
        if not tokens:
            return False
        done = False
        tokens = self._sets_as_rounds(line, self._most_of_it(amounts_of_both(tokens)))
        for place, part in enumerate(split_parts(tokens)):
            if place and self.join_parts:
                self.join_next = True
            done = self._part(line, text, part, label, bullet=bullet) or done
            label = ""
        if done and isinstance(self.open, LiftDraft) and not self.open.weeks:
            self._same_as(line, text)
        if condition and done and isinstance(self.open, LiftDraft):
            self.open.notes.append(condition)
        if self.remarks and done:
            self._remark(line)
        return done and not self.remarks

    def _in_turn(self, line: Line, first: str, second: str, label: str, *, bullet: bool) -> bool:
        """`bench 5x5, superset with rows 10`: two lifts in turn; the second has as many sets where it says no number."""
        done = self._chunk(line, first, label, bullet=bullet)
        above = self.open
        self.join_next = isinstance(above, LiftDraft)
        tokens = tokens_of(plain(second))
        kinds = {token.kind for token in tokens}
        number = next((token for token in tokens if token.kind in ("num", "reps")), None)
        names = [token for token in tokens if token.kind == "name"]
        if (
            isinstance(above, LiftDraft)
            and above.groups
            and names
            and number is not None
            and not kinds & (SETS_KINDS | CLOCKS | {"dist", "cal", "time"})
        ):
            sets = sum(getattr(each, "sets", 1) for each in above.groups)
            made = replace(number, kind="setsx", value=(sets, [int(number.value)], "plain"))
            return self._lift(line, [made if each is number else each for each in tokens], names, "", "")
        done = self._chunk(line, second, "", bullet=bullet) or done
        below = self.open
        if (
            isinstance(above, LiftDraft)
            and isinstance(below, LiftDraft)
            and below is not above
            and len(below.groups) == 1
        ):
            group = below.groups[0]
            if isinstance(group, SetGroup) and group.sets == 1 and not re.search(r"\b1 ?(?:x|sets?)", plain(second)):
                below.groups = [replace(group, sets=sum(getattr(each, "sets", 1) for each in above.groups) or 1)]
        return done

    def _part(self, line: Line, text: str, tokens: list[Token], label: str, *, bullet: bool) -> bool:
        tokens = reps_out(tokens, lift_open=isinstance(self.open, LiftDraft) and not self.gap)
        tokens = of_names(for_both(tokens), lift_open=isinstance(self.open, LiftDraft) and self.open.empty)
        kinds = {token.kind for token in tokens if not (token.kind == "list" and min(token.value[0]) >= 30)}
        names = [
            token
            for place, token in enumerate(tokens)
            if token.kind == "name"
            and not (place and tokens[place - 1].kind == "of" and tokens[place - 1].value[0] in ("rm", "max", "tmp"))
        ]
        start, end = tokens[0].start, tokens[-1].end
        own = text[start:end]
        typed = harmless(line.raw).strip()
        head = read_head(tokens, own, self.asker, line.number, typed)
        talk = (self.prose or not any(token.kind == "name" for token in tokens)) and (
            TALK.search(own) is not None or own.lstrip().startswith(("if ", "whoever ", "anyone ", "who "))
        )
        talk = talk or GREETING.match(own) is not None
        if kinds & {"setsx", "sets", "find"} or (
            kinds & {"pct"} and kinds & {"num", "reps", "max", "setcount", "xnum"}
        ):
            talk = False  # "three sets of five at 70 %, see you there"
        if talk and not (kinds & {"setsx", "amrap", "rft", "emom"}):
            self._fill(head)
            return False
        tokens = self._times(tokens, names) if not head.clock else tokens
        kinds |= {token.kind for token in tokens if token.kind == "setsxm"}
        if "list" in {token.kind for token in tokens} and not head.clock and self._pyramid(line, tokens, own):
            return True
        if kinds & {"setsxm", "setsxt"} and not head.clock and self._measured(line, tokens, own):
            return True
        if (
            kinds & {"max", "maxcal", "maxdist"}
            and "time" in kinds
            and self._most(line, tokens, names, kinds, head, own)
        ):
            return True
        if (
            isinstance(self.open, LiftDraft)
            and self.open.minute_reps
            and tokens[0].kind == "minutesmark"
            and not self.gap
        ):
            return self._more_sets(line, self.open, tokens, own)
        if not names and self._loads_below(tokens):
            assert isinstance(self.open, LiftDraft)
            return self._more_sets(line, self.open, tokens, own)
        if self._lift_on_clock(line, tokens, head, names, kinds):
            return True
        if self._beside_on_clock(line, tokens, names, kinds):
            return True
        if self._begins_piece(line, tokens, head, names, kinds, own):
            return self._piece_head(line, tokens, head, own, label)
        if self._in_superset(line, tokens, names, own, label):
            return True
        if (
            names
            and isinstance(self.open, LiftDraft)
            and re.search(r"\b\d{2,3} (?:reps? )?total\b|\btotal of \d{2,3}\b|\baccumulate\b", own)
            and not kinds & {"setsx", "pct", "list"}
            and self._loose(line, tokens, names, kinds, own, head, bullet=bullet)
        ):
            return True
        if (
            self.block_sets
            and names
            and not kinds & (CLOCKS | {"setsx", "sets", "list", "dist", "cal", "time", "rounds"})
        ):
            return self._in_block(line, tokens, names, own, label)
        if self._is_lift(tokens, names, kinds, head):
            return self._lift(line, tokens, names, own, label)
        if (
            self.prose is False
            and isinstance(self.open, LiftDraft)
            and self.open.prose
            and not self.gap
            and self._few(line, tokens, names, kinds)
        ):
            return True
        if not names and "setsx" in kinds and self._unknown_lift(line, tokens, kinds, label):
            return True
        if isinstance(self.open, PieceDraft) and (self._in_piece(line, tokens, head, own) or not self.gap):
            return self.took
        if not names and self._unknown_lift(line, tokens, kinds, label):
            return True
        if (
            isinstance(self.open, LiftDraft)
            and not names
            and (
                kinds
                & (
                    SETS_KINDS - {"max"}
                    | {"rest", "each", "mass", "added", "range", "of", "lastweek", "minutesmark", "setlabel"}
                )
                or ("max" in kinds and re.search(r"\b(?:last|sets?|reps?)\b", own))
            )
            and not talk
        ):
            if self.gap and not kinds & (SETS_KINDS - {"max"}):
                return False
            return self._more_sets(line, self.open, tokens, own)
        if len(names) > 1 and len(main_names(tokens, names)) > 1 and self._name_only(line, tokens, names, own, label):
            return True
        if self._loose(line, tokens, names, kinds, own, head, bullet=bullet):
            return True
        return bool(names and self._name_only(line, tokens, names, own, label))

    def _loads_below(self, tokens: list[Token]) -> bool:
        """Whether a line has nothing but as many loads as the lift above has sets without one."""
        lift = self.open
        if not isinstance(lift, LiftDraft) or self.gap or len(tokens) != 1 or tokens[0].kind != "list":
            return False
        numbers, more, _ = tokens[0].value
        bare = sum(each.sets for each in lift.groups if isinstance(each, SetGroup) and each.load is None)
        return more is None and min(numbers) >= 30 and len(numbers) == bare

    def _all_of(self, line: Line, text: str) -> bool:
        """`% = training max`, `(% of your snatch)`: what all percentages of the lift, or of the sheet, are of."""
        self._training_max(text, line)
        tokens = tokens_of(text)
        kinds = {token.kind for token in tokens}
        if "tm" in kinds and not kinds & (SETS_KINDS - {"pct"}) and not any(token.kind == "name" for token in tokens):
            self._note(line, line.raw)
            return True
        if not ALL_OF.match(text.strip()) or kinds & (SETS_KINDS - {"pct", "max", "plus"}):
            return False
        told = [
            token
            for place, token in enumerate(tokens)
            if token.kind in ("of", "name", "rest")
            and not (place and tokens[place - 1].text in ("not", "nicht", "pas"))
        ]
        read = read_sets(told, self._scene(line))
        if read.of is None and (found := re.search(r"%\s*of\s*(?:your |the )?(?:best |1rm )?(.+?)\)?$", text)):
            name, entry = full_name(found[1].strip(" )."), lift=True)
            if entry is not None:
                read.of = Of(1, name)
        if read.of is None:
            return False
        lift = self.open if isinstance(self.open, LiftDraft) else None
        if lift is not None and not self.gap:
            lift.of, lift.rest_s = lift.of or read.of, lift.rest_s or read.rest_s
            if read.of.percent is not None or text.lstrip(" (").startswith(("all", "%s", "%'s", "percentages")):
                self.defaults.of = self.defaults.of or read.of  # a training max is that of all lifts
        else:
            self.defaults.of = self.defaults.of or read.of
        self._note(line, line.raw)
        return True

    def _training_max(self, text: str, line: Line) -> None:
        for token in tokens_of(text):
            if token.kind == "tm" and 50 <= token.value[0] <= 100:
                self.defaults.share = token.value[0]

    def _end_session(self) -> None:
        self.open = None
        self.target = None
        session = self.session
        if session.items or session.headed:
            self.sessions.append(session)
        self.session = SessionDraft()


_USUAL_SET = re.compile(
    r"^\W*(?:the |our |those |these )?(?:usual|same|classic|old|known) (?:\d|two|three|four)\b(?! ?x)"
)


def _two_lifts(text: str) -> bool:
    """Whether a text has two lifts or more, each with its sets: `dips 3x8 / curls 3x12`."""
    return len(split_parts(tokens_of(plain(text)))) > 1


def _loaded_sets(text: str) -> bool:
    """Whether a line has three sets or more with a load each: `warm-up sets: 5 @ 40, 5 @ 50, 3 @ 60`."""
    tokens = tokens_of(plain(text))
    loads = sum(token.kind in ("pct", "atx", "mass") for token in tokens)
    return loads >= 3 and not any(token.kind == "name" for token in tokens)
