"""Goes through the lines of a sheet and puts together what they say: each line by itself, what stands open above it, and what follows."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.drafts import Defaults, LiftDraft, PieceDraft, SessionDraft, TextDraft
from tracker.prescription.sheet.headings import Heading, Section, any_weekday, day_heading, section_heading
from tracker.prescription.sheet.letters import clean, harmless
from tracker.prescription.sheet.model import Alternative, FindMax, Of, Percent, Reps, SetGroup
from tracker.prescription.sheet.movement_reading import HOW, MovesRead, makes_name, read_moves
from tracker.prescription.sheet.names import Found, Name, full_name, known
from tracker.prescription.sheet.piece import Movement, Pair
from tracker.prescription.sheet.piece_heads import CLOCKS, Head, read_head, scheme_of
from tracker.prescription.sheet.plain_words import plain
from tracker.prescription.sheet.printed import printed_kind, printed_movement
from tracker.prescription.sheet.sets_reading import SETS_KINDS, Scene, SetsRead, read_sets, unit_of
from tracker.prescription.sheet.tables import Line
from tracker.prescription.sheet.tokens import Token, tokens_of
from tracker.units import MOST_KG, Mass
from tracker.units import plain as plain_number

_BULLET = re.compile(r"\s*(?:[-•*>]+\s+|\[[ x]?\]\s*|o\s+(?=\d))")
_LABEL = re.compile(r"\s*(?:\(?(?P<a>[A-Ha-h])(?P<n>\d)?[.):]+\s*(?=\S)|\(?(?P<b>[A-H])(?P<m>\d)\s+(?=\S)|(?P<d>\d{1,2})[.)]\s+(?=\S)|#(?P<e>\d{1,2})\s+)")
_BARE_LETTER = re.compile(r"\s*(?P<a>[A-H])\s+(?=[A-Z0-9])")
_SENTENCE_END = re.compile(r"(?<=[a-zäöüß\d%)\"!?])(?<!\bMin)(?<!\bmin)(?<!\bca)(?<!\bapprox)(?<!\bno)(?<!\bsec)(?<!\bWdh)(?<!\bvs)(?<!\bmax)(?<!\bFr)[.!?]+(?:\s+(?=[\"'(]?[A-ZÄÖÜ0-9])|\s*$)")
_SPLIT_THEN = re.compile(r"(?:(?<=\s)|^)(?:and |& )?then:?(?=\s)(?! add)")
_TALK = re.compile(
    r"\b(?:i|i'm|i'll|i've|thanks?|thank you|sorry|welcome|please (?:send|tell|write|post|bring|note)|send me|tell me|opens?|closed|price|euros?|birthday|cake|coffee|"
    r"see you|regards|wishes|hello|dear|who is|who's|door|code|parking|showers?|newsletter|holiday|needed|survived|limped|ordered|because|yesterday|"
    r"last year|last night|last saturday|neighbour|weather|meeting|dentist|poll|vote|sign(?:ed)? up)\b"
)
_KEYS = re.compile(r"(?P<key>title|date|starts?|notes?|piece)\s*[:：]\s*", re.IGNORECASE)
_REMARK = re.compile(r"(?:^|(?<=[\s,;:]))(?:--)(?=\s|$).*$")
_STATION = re.compile(r"^\s*(?:(?:m|min|mins|minute|station|st)\.?\s*(?P<a>\d{1,2})(?:\s*-\s*(?P<b>\d{1,2}))?\s*[:.)-]?\s+|(?P<c>\d{1,2})\s*(?:[:.)]|-(?=\s))\s*|(?P<e>\d)\s+(?=\d+\s|rest\b|off\b|max\b)|(?P<f>odd|even)\b(?:\s*(?:minutes?|mins?))?\s*[:-]?\s*)", re.IGNORECASE)
_IMPLEMENT_WORDS = {
    "barbell": "barbell", "bb": "barbell", "barbells": "barbell", "dumbbells": "dumbbells", "dumbbell": "dumbbell", "dbs": "dumbbells", "db": "dumbbells",
    "kettlebells": "kettlebells", "kettlebell": "kettlebell", "kbs": "kettlebells", "kb": "kettlebell", "machine": "machine", "cable": "machine",
    "bodyweight": "body", "body": "body", "body weight": "body", "sandbag": "sandbag", "sled": "sled", "ring": "rings", "rings": "rings", "band": "band",
    "banded": "band", "ball": "ball", "other": "other", "unasked": "unasked",
}  # fmt: skip
_IMPL = "|".join(sorted(_IMPLEMENT_WORDS, key=len, reverse=True))
_STRICT = re.compile(rf"^(?P<joined>superset with\s+)?(?P<name>[^\W\d_][^,:@%0-9]*(?:\d[^,:@%]*)?),\s*(?:(?P<two>two|2|one|1)\s+)?(?P<impl>{_IMPL})\s*(?P<end>[,:]|$)", re.IGNORECASE)
_ALTERNATIVE = re.compile(rf"^or\s+(?:(?P<when>[^,:]{{1,30}}) - )?(?:(?P<name>[^,:@%]+?),?\s+)?(?:(?P<two>two|2|one|1)\s+)?(?P<impl>{_IMPL})\s*(?:(?P<colon>:)\s*(?P<sets>.+)|,\s*(?P<rule>(?:twice|double)\s+the\s+(?:repetitions|reps)|(?:the\s+)?same(?:\s+(?:repetitions|reps))?|doubled|(?:repetitions|reps)\s+doubled))\s*$", re.IGNORECASE)
_HOME_LIFT = re.compile(r"^(?P<when>(?:only |just )?(?:dumbbells?|dbs?|kettlebells?|kbs?)(?: only)?|no(?:ne| kit| barbell| bar| equipment| rack| rower| rig)|nothing(?: at all)?|none|home|at home|scaled?|no [a-z]+|without [a-z ]+|bodyweight|band|light(?:er)?)\s*[:–-]\s*(?P<rest>.+)$", re.IGNORECASE)
_ALL_OF = re.compile(r"^(?:\(?\s*)?(?:all )?(?:%|percent|percentages?|%'?s|tm|training max|weights?|loads?)\b.*|^\(?%")


@dataclass(frozen=True, slots=True)
class Role:
    """What became of a line: its role, and the item of which session it belongs to (counted from 0; -1: none)."""

    number: int
    role: str
    session: int = -1
    item: int = -1


class Walker:
    """What has been read of a sheet so far."""

    def __init__(self, lines: list[Line], asker: Asker, defaults: Defaults) -> None:
        self.lines, self.asker, self.defaults = lines, asker, defaults
        self.title, self.starts = "", None
        self.notes: list[str] = []
        self.sessions: list[SessionDraft] = []
        self.session = SessionDraft()
        self.open: LiftDraft | PieceDraft | TextDraft | None = None
        self.section: Section = ""
        self.blank = True
        self.gap = False  # a blank line stands directly above
        self.label = ""
        self.roles: dict[int, list[tuple[str, Any]]] = {}
        self.join_next = False
        self.at = 0
        self.week: int | None = None
        self.numbered = _numbered(lines)
        self.lettered = _lettered(lines)
        self.target: Any = None  # what scaled lines and options belong to
        self.title_above = ""
        self.prose = False
        self.remarks: list[str] = []
        self.hinted: dict[str, Any] = {}  # how the next piece is done, from words above it

    # the line

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

    def _role(self, line: Line, role: str, item: Any = None) -> None:
        if role in ("lift", "sets", "piece", "movement"):
            self.gap = False
        self.roles.setdefault(line.number, []).append((role, item))

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
                self._note_words(line, keep=False)
        elif not line.raw.strip():
            self._role(line, "blank")
        elif not line.cell:
            self._role(line, "rule")
        self.gap = True
        if isinstance(self.open, TextDraft) and self.open.lines and (self.open.kind != "note" or True):
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
        if isinstance(self.open, TextDraft) and self.open.explicit and not line.cell and not self.gap and (again := _TEXT_AGAIN.match(text)) and _text_kind(again[1]) == self.open.kind:
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
            self.open, self.section = None, ""
        if self._strict(line, text):
            return
        bullet = _BULLET.match(line.text)
        if bullet:
            text = line.text[bullet.end() :].strip()
        text, label = self._peel(line, text)
        inner, second = self._peel(line, text) if label else (text, "")
        if second and second[0].isalpha() and inner:
            if label.isdigit():
                self._labelled(label)
            text, label = inner, second
        if not text:
            self._note(line, line.raw)
            return
        heading = day_heading(text, self.asker, line.number, loose=line.day) if not label or label.isalpha() else None
        if heading is not None and not self._week_of_lift(heading, line):
            if self._day(line, heading):
                text = heading.rest
                if not text:
                    return
                if heading.alone and self._is_title(text):
                    self._hints(line, plain(text))
                    self.session.title = text.strip(" -:|/.")
                    self.session.weekday = self.session.weekday if self.session.weekday is not None else None
                    return
        elif heading is not None and isinstance(self.open, LiftDraft):
            self._week_sets(line, heading)
            return
        if re.match(r"no (?:metcon|wod|conditioning|workout|class|training)\b", text, re.IGNORECASE):
            self._note(line, line.raw)
            return
        if found := _SUPERSET.match(text):
            if isinstance(self.open, LiftDraft) or (self.session.items and isinstance(self.session.items[-1], LiftDraft)):
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

    def _printed(self, line: Line, text: str) -> bool:
        """Read a line of a piece that a printed sheet has: how it is done, a movement, an option of the one above."""
        piece = self.open
        assert isinstance(piece, PieceDraft)
        bare = _REMARK.sub("", _BULLET.sub("", text, count=1) if _BULLET.match(text) else text).strip()
        if not piece.fields and not piece.moves:
            fields = printed_kind(bare)
            if fields is None:
                return False
            piece.scheme = fields.pop("scheme", None)
            piece.fields |= fields
            piece.printed = True
        elif bare.lower().startswith("or ") and piece.moves and (option := printed_movement(bare[3:].strip(), line.number, free=piece.printed)) is not None:
            last = piece.moves[-1]
            piece.moves[-1] = replace(last, options=(*last.options, option))
        elif not self.gap and not _KEYS.match(bare) and (move := printed_movement(bare, line.number, free=piece.printed)) is not None and (piece.printed or move.count is not None) and not _HOME_LIFT.match(bare):
            piece.moves.append(move)
        else:
            return False
        piece.text.append(line.raw.rstrip())
        self._role(line, "movement" if piece.moves else "piece", piece)
        return True

    def _text_goes_on(self, text: str) -> bool:
        """Whether a line is still a part of the warm-up that stands above: not a heading, nor sets with a load."""
        if _KEYS.match(text) or _STRICT.match(text) or section_heading(text) or _LABEL.match(text):
            return False
        heading = day_heading(text, Asker(), 0)
        if heading is not None and heading.alone:
            return False
        tokens = tokens_of(plain(text))
        kinds = {token.kind for token in tokens}
        heavy = any(token.kind == "name" and token.value.known is not None and token.value.known.implement == "barbell" for token in tokens)
        return not ((heavy and kinds & {"setsx", "list"} and kinds & {"pct", "mass", "rpe", "setsx"} and kinds & {"pct", "mass", "rpe"}) or kinds & (CLOCKS - {"every"}))

    def _peel(self, line: Line, text: str) -> tuple[str, str]:
        """Take a label such as A1, B. or 2) from the start of a line."""
        found = _LABEL.match(text)
        if found and found["d"] is not None:
            if line.number not in self.numbered or (isinstance(self.open, PieceDraft) and self.open.strength_clock and not self.open.label.isdigit()):
                return text, ""
            return text[found.end() :].strip(), found["d"]
        if found:
            letter = (found["a"] or found["b"] or "").upper()
            if not letter:
                return text[found.end() :].strip(), found["e"] or ""
            if found["a"] and found["a"].islower() and "." not in found[0] and ")" not in found[0]:
                return text, ""
            return text[found.end() :].strip(), letter + (found["n"] or found["m"] or "")
        if (found := _BARE_LETTER.match(text)) and line.number in self.lettered:
            return text[found.end() :].strip(), found["a"]
        return text, ""

    def _labelled(self, label: str) -> None:
        """A label begins an item of its own, but the second of A1 and A2 is done in turn with the first."""
        piece = self.open if isinstance(self.open, PieceDraft) else None
        if piece is not None and (not self.gap or not piece.moves or piece.listed):
            same = bool(piece.label) and piece.label[:1].isalpha() == label[:1].isalpha()
            if piece.listed or (not same and not piece.moves and label in ("1", "A", "A1")) or (not same and not self.gap and label.isdigit()):
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

    # explicit lines: Title, Date, Note, Piece

    def _key(self, line: Line, text: str) -> bool:
        if text.startswith("--") and not text.strip("- "):
            return False
        if text.startswith("-- "):
            self._role(line, "remark")
            return True
        found = _KEYS.match(text)
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

    def _end_text(self) -> None:
        if isinstance(self.open, TextDraft):
            self.open = None

    def _strict(self, line: Line, text: str) -> bool:
        """Read a lift with its implement behind a comma, and what may be done instead, as a printed sheet has it."""
        text = re.sub(_BULLET, "", text, count=1).strip() if _BULLET.match(text) else text
        if isinstance(self.open, LiftDraft) and (found := _ALTERNATIVE.match(text)):
            other = self._alternative(found, line)
            if other is not None:
                self.open.alternatives.append(other)
                self.open.text.append(line.raw.rstrip())
                self._role(line, "alternative", self.open)
                return True
        peeled, label = self._peel(line, text)
        found = _STRICT.match(_REMARK.sub("", peeled).rstrip())
        if found is None or found["name"].strip().lower().startswith(("or ", "no ")):
            return False
        if isinstance(self.open, PieceDraft) and not self.gap and not found["joined"] and found["end"] != ":" and self.open.moves:
            return False
        names = [" ".join(each.split()) for each in found["name"].split(" + ")]
        above = self.open
        self.open = None
        if label:
            self._labelled(label)
        implement = _implement(found["impl"], found["two"] or "")
        lift = self._open_lift(line, [_own_case(each) for each in names], known(names[0], lift=True))
        lift.implement, lift.implement_said, lift.strict = implement, True, True
        lift.joined = bool(found["joined"]) or lift.joined
        del above
        rest = _REMARK.sub("", peeled).rstrip()[found.end() :].strip()
        if rest:
            self._lift_words(line, lift, plain(rest), typed=line.raw)
        self._role(line, "lift", lift)
        return True

    def _alternative(self, found: re.Match[str], line: Line) -> Alternative | None:
        assert isinstance(self.open, LiftDraft)
        implement = _implement(found["impl"], found["two"] or "")
        name = " ".join((found["name"] or "").split()).rstrip(",")
        when = " ".join((found["when"] or "").split())
        if found["sets"]:
            read = read_sets(tokens_of(plain(found["sets"])), self._scene(line))
            if not read.groups:
                return None
            groups = tuple(_with_note(group, found["sets"]) for group in read.groups) if len(read.groups) == 1 else tuple(self._groups_of(found["sets"], line))
            return Alternative(implement, "own", _own_case(name) if name else "", groups, when, line.number)  # type: ignore[arg-type]
        rule = "same" if "same" in found["rule"].lower() else "doubled"
        return Alternative(implement, rule, _own_case(name) if name else "", (), when, line.number)  # type: ignore[arg-type]

    def _groups_of(self, text: str, line: Line) -> list[Any]:
        groups: list[Any] = []
        for part in _split_outside(text, ";"):
            groups += self._sets_of_part(part, line)
        return groups

    def _sets_of_part(self, part: str, line: Line) -> list[Any]:
        """Read sets with remarks in brackets behind them."""
        groups: list[Any] = []
        rest_s: list[Any] = []
        del rest_s
        body, notes = _remarks(part)
        read = read_sets(tokens_of(plain(body)), self._scene(line))
        groups += [replace(group, line=line.number) for group in read.groups]
        if notes and groups:
            groups[-1] = replace(groups[-1], note="; ".join(notes))
        return groups

    # days and sections

    def _week_of_lift(self, heading: Heading, line: Line) -> bool:
        """Whether `week 2: 3x8 @ 70 %` stands under a lift, as its sets of that week."""
        if heading.week is None or heading.day is not None or heading.weekday is not None:
            return False
        if not isinstance(self.open, LiftDraft):
            return False
        return bool({token.kind for token in tokens_of(plain(heading.rest))} & SETS_KINDS) and not any(token.kind == "name" for token in tokens_of(plain(heading.rest)))

    def _week_sets(self, line: Line, heading: Heading) -> None:
        lift = self.open
        assert isinstance(lift, LiftDraft)
        read = read_sets(tokens_of(plain(heading.rest)), self._scene(line))
        groups = [replace(group, line=line.number) for group in read.groups]
        lift.weeks.setdefault(heading.week or 1, []).extend(groups)
        lift.of = lift.of or read.of
        lift.text.append(line.raw.rstrip())
        if words := _left_words(read.left):
            lift.notes.append(words)
        self._role(line, "sets", lift)

    def _day(self, line: Line, heading: Heading) -> bool:
        if heading.rest and not heading.alone and not self._reads(heading.rest):
            if not (heading.weekday is not None and not self.session.items):
                return False
        if self.session.headed and not self.session.items and heading.week is None and self.session.week is not None and self.session.day is None and self.session.weekday is None:
            pass  # the day under the line of its week
        else:
            self._end_session()
        if heading.week is not None:
            self.week = heading.week
        session = self.session
        session.headed, session.line = True, line.number
        session.week = heading.week if heading.week is not None else self.week
        session.day, session.weekday, session.on, session.month_day = heading.day, heading.weekday, heading.on, heading.month_day
        if heading.on is not None:
            session.week = None
        self.section, self.label, self.open, self.target = "", "", None, None
        self._role(line, "day")
        return True

    def _reads(self, text: str) -> bool:
        tokens = tokens_of(plain(text))
        kinds = {token.kind for token in tokens}
        return "name" in kinds and bool(kinds & (SETS_KINDS | CLOCKS | {"dist", "cal", "rounds"})) or bool(section_heading(text))

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
            if isinstance(self.open, LiftDraft) or (self.session.items and isinstance(self.session.items[-1], LiftDraft)):
                self.join_next = head.lower().endswith("with") or not rest == ""
            self.section = section
            self._role(line, "heading")
            return bool(rest)
        if section in ("warm-up", "cool-down"):
            self.open, self.section = None, section
            draft = self._new_text(section, line, rest, explicit=True)
            if bracket := re.search(r"\([^()]*\)", head):
                draft.lines.insert(0, bracket[0])
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
            self._role(line, "heading", self.target)
            if self.target is not None and not rest:
                self.target.text.append(line.raw.rstrip())
            return bool(rest)
        was_open = self.open
        if not (isinstance(was_open, PieceDraft) and was_open.empty):
            self.open = None
        self.section, self.target = section, None
        self.label = "" if not self.label else self.label
        self._role(line, "heading")
        if not rest:
            self._keep_heading(line, head)
        return bool(rest)

    def _keep_heading(self, line: Line, head: str) -> None:
        self.title_above = ""

    # sentences and what they say

    def _sentences(self, line: Line, text: str, label: str, *, bullet: bool) -> None:
        if self.section in ("warm-up", "cool-down") and isinstance(self.open, TextDraft):
            self.open.lines.append(line.raw.strip())
            self._role(line, self.open.kind, self.open)
            return
        text = _REMARK.sub("", text).rstrip()
        if not text:
            self._role(line, "remark")
            return
        if self._warm_up(line, text):
            return
        if (found := re.fullmatch(r"['\"“„*]{1,2}([^'\"“”]{2,40})['\"”“*]{1,2}\.?", text)) and not isinstance(self.open, LiftDraft) and not any(sign.isdigit() for sign in text):
            self.open = None
            piece = self._open_piece(line, "")
            piece.title, piece.named = found[1].strip(), True
            self._role(line, "piece", piece)
            return
        text = _NO_KIT.sub(r"\1:", text)
        parts = [part for part in _SENTENCE_END.split(text) if part.strip()] if len(text) > 40 or text.count(".") > 1 or re.search(r"[.!?]\s+[A-Z]", text) else [text]
        read_any = False
        unread: list[str] = []
        for place, part in enumerate(parts):
            self.prose = _is_prose(part)
            self.later = " ".join(parts[place + 1 :])
            if read_any and _WARM_UP.match(part):
                unread.append(part.strip())
                continue
            for chunk in _then_parts(part):
                if self._chunk(line, chunk, label, bullet=bullet):
                    read_any = True
                elif chunk.strip():
                    unread.append(chunk.strip())
                label = ""
        if not read_any:
            self._note(line, line.raw)
        elif unread:
            self._keep_words(line, " ".join(unread))

    later = ""  # the sentences behind the one that is read, on the same line

    def _warm_up(self, line: Line, text: str) -> bool:
        """Whether a line is a warm-up without a colon, in a sentence of its own."""
        found = _WARM_UP.match(text)
        if found is None or isinstance(self.open, LiftDraft) and not self.gap:
            return False
        rest = text[found.end() :].strip(" -:,.")
        if not rest:
            return False
        self.open = None
        draft = self._new_text("warm-up", line, harmless(line.raw).strip())
        draft.lines = [harmless(line.raw).strip()]
        self.open = None
        return True

    def _keep_words(self, line: Line, words: str) -> None:
        item = self.open if isinstance(self.open, LiftDraft | PieceDraft) else None
        if item is not None:
            item.notes.append(words)
        self._role(line, "note", item)

    def _scene(self, line: Line) -> Scene:
        return Scene(self.asker, line.number, harmless(line.raw).strip(), self.defaults.unit, self.percent_near, self.mass_near)

    percent_near = False
    mass_near = False

    def _chunk(self, line: Line, chunk: str, label: str, *, bullet: bool) -> bool:
        """Read one sentence or part of a line; False where nothing of it was understood."""
        text = plain(chunk)
        if self._all_of(line, text):
            return True
        if _QUESTION.search(text) and not text.strip().startswith("no "):
            tokens = tokens_of(text)
            if not {token.kind for token in tokens} & (SETS_KINDS | CLOCKS):
                return False
        if self.section in ("scaled", "home") and self.target is not None and self._options(line, text):
            return True
        if isinstance(self.open, LiftDraft) and self._other_way(line, chunk):
            return True
        if isinstance(self.open, PieceDraft):
            text = self._station(line, text)
            if not text:
                return True
        if self._about_item(line, text) or self._substitute(line, text) or self._hints(line, text):
            return True
        if isinstance(self.open, LiftDraft) and not any(token.kind in CLOCKS for token in tokens_of(text)):
            text = _OR_BRACKETS.sub(lambda found: self._bracket_option(line, found), text)
        tokens = tokens_of(text)
        self.remarks = []
        if isinstance(self.open, LiftDraft) or ({token.kind for token in tokens} & {"setsx", "sets", "find"} and not any(token.kind in CLOCKS for token in tokens)):
            text, self.remarks = _cut_remarks(text, chunk)
            tokens = tokens_of(text)
        if not tokens:
            return False
        done = False
        for part in split_parts(tokens):
            done = self._part(line, text, part, label, bullet=bullet) or done
            label = ""
        if self.remarks and done:
            self._remark(line)
        return done and not self.remarks

    def _remark(self, line: Line) -> None:
        """Keep a remark in brackets with the last sets of its line, else with the lift or piece."""
        item = self.open
        remarks, self.remarks = self.remarks, []
        if isinstance(item, LiftDraft) and item.groups and item.groups[-1].line == line.number and not item.groups[-1].note:
            item.groups[-1] = replace(item.groups[-1], note="; ".join(remarks))
        elif isinstance(item, LiftDraft | PieceDraft):
            item.notes += remarks
        else:
            self._keep_words(line, "; ".join(remarks))

    def _about_item(self, line: Line, text: str) -> bool:
        """`Cap on 2: 16 min` is about the item with that label; a score's word without an item open is about the last piece."""
        if found := re.match(r"^(?:time )?cap (?:on|for|of) (?:part )?\(?(?P<l>[a-h]?\d?)\)?\s*[:=]?\s*(?P<rest>.+)$", text):
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
        if re.match(r"^(?:score|log|write|count|record|note|report|post)\b(?!.{0,12}for time)", text) and not self.prose or re.match(r"^(?:score|count only|record|post)\b", text):
            last = next((item for item in reversed(self.session.items) if not isinstance(item, TextDraft)), None)
            if isinstance(last, PieceDraft):
                head = read_head([], text, Asker(), line.number, line.raw)
                for key, value in head.fields.items():
                    if key in ("scored_by", "partners"):
                        last.fields.setdefault(key, value)
                self._about(line, last)
                return True
        return False

    def _about(self, line: Line, item: LiftDraft | PieceDraft) -> None:
        item.notes.append(harmless(line.raw).strip())
        item.text.append(line.raw.rstrip())
        self._role(line, "note", item)

    def _hints(self, line: Line, text: str) -> bool:
        """`Saturday pairs` above a piece says how it is done by whom."""
        if isinstance(self.open, PieceDraft) or any(token.kind in ("name", *SETS_KINDS, *CLOCKS) for token in tokens_of(text) if token.kind not in ("max", "plus")):
            return False
        head = read_head([], text, Asker(), line.number, line.raw)
        if "partners" in head.fields and len(text) < 90:
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
        near += [item for session in reversed(self.sessions) for item in reversed(session.items) if isinstance(item, PieceDraft) and item.moves]
        if not near or self.section in ("scaled", "home"):
            return False
        wanted, given = "", ""
        if found := re.match(r"^(?:(?P<when>[a-z' ]{0,30}?)\b ?)?instead of (?:the |a )?(?P<x>[a-z -]+?)\s*[:=,-]\s*(?P<y>.+)$", text):
            wanted, given = found["x"], found["y"]
        elif found := re.search(r"(?:^|[:,] ?|\bwe (?:will |do )?|\bdo |\bto )(?P<y>[^:,]*?)\s+instead of (?:the |a )?(?P<x>[a-z -]+)", text):
            wanted, given = found["x"], found["y"]
        elif found := re.search(r"(?:^|\b)(?:no|without(?: an?)?|can'?t|cannot|if you can'?t|don'?t have(?: an?)?|not got(?: an?)?)\s+(?P<x>[a-z][a-z -]*?)(?:\s+(?:at home|here|there))?(?:\s*[:?=,>]+\s*|\s+-+\s+|\s+(?:do|use|take|then|try)\s+)(?:do |use |try |take )?(?P<y>.+)$", text):
            wanted, given = found["x"], found["y"]
        if not wanted or not given:
            return False
        piece, place = next(((piece, place) for piece in near if (place := _wanted_place(wanted, piece.moves)) is not None), (near[0], None))
        if place is None:
            return False
        if found := re.search(r"\b(?:who has|if you have|with|has|got) (?:an? |the )?(?P<z>rower|bike|erg|ski|ski erg)\b", text):
            given = f"{given} {found['z']}"
        read = read_moves(tokens_of(given), unit=self.defaults.unit or "kg", line=line.number, free=not self.prose and len(given) < 40, slash_or=True)
        found_moves = [*read.moves, *read.options]
        if not found_moves:
            return False
        when = f"no {wanted.strip()}" if text.startswith(("no ", "can", "without")) and len(wanted) < 30 else "home" if text.startswith("home") else ""
        for move in [found_moves[0]]:
            option = _like(_usual(replace(move, options=(), when=when), piece), piece.moves[place])
            piece.moves[place] = replace(piece.moves[place], options=(*piece.moves[place].options, option))
        if line.raw.rstrip() not in piece.text:
            piece.text.append(line.raw.rstrip())
        self._role(line, "option", piece)
        return True

    def _part(self, line: Line, text: str, tokens: list[Token], label: str, *, bullet: bool) -> bool:
        tokens = _of_names(_for_both(tokens), lift_open=isinstance(self.open, LiftDraft))
        kinds = {token.kind for token in tokens if not (token.kind == "list" and min(token.value[0]) >= 30)}
        names = [token for place, token in enumerate(tokens) if token.kind == "name" and not (place and tokens[place - 1].kind == "of" and tokens[place - 1].value[0] in ("rm", "max", "tmp"))]
        start, end = tokens[0].start, tokens[-1].end
        own = text[start:end]
        typed = harmless(line.raw).strip()
        head = read_head(tokens, own, self.asker, line.number, typed)
        talk = (self.prose or not any(token.kind == "name" for token in tokens)) and (_TALK.search(own) is not None or own.lstrip().startswith(("if ", "whoever ", "anyone ", "who ")))
        if talk and not (kinds & {"setsx", "amrap", "rft", "emom"}):
            self._fill(head)
            return False
        if kinds & {"setsxm", "setsxt"} and not head.clock and self._measured(line, tokens, own):
            return True
        if kinds & {"max", "maxcal", "maxdist"} and "time" in kinds and self._most(line, tokens, names, kinds, head, own):
            return True
        if isinstance(self.open, LiftDraft) and self.open.minute_reps and tokens[0].kind == "minutesmark" and not self.gap:
            return self._more_sets(line, self.open, tokens, own)
        if self._lift_on_clock(line, tokens, head, names, kinds):
            return True
        if self._beside_on_clock(line, tokens, names, kinds):
            return True
        if self._begins_piece(line, tokens, head, names, kinds, own):
            return self._piece_head(line, tokens, head, own, label)
        if self._is_lift(tokens, names, kinds, head):
            return self._lift(line, tokens, names, own, label)
        if self.prose is False and isinstance(self.open, LiftDraft) and self.open.prose and not self.gap and self._few(line, tokens, names, kinds):
            return True
        if isinstance(self.open, PieceDraft) and (self._in_piece(line, tokens, head, own) or not self.gap):
            return self.took
        if not names and not isinstance(self.open, PieceDraft) and self._unknown_lift(line, tokens, kinds, label):
            return True
        if isinstance(self.open, LiftDraft) and not names and (kinds & (SETS_KINDS - {"max"} | {"rest", "each", "mass", "added", "range", "of", "lastweek", "minutesmark"}) or ("max" in kinds and re.search(r"\b(?:last|sets?|reps?)\b", own))) and not talk:
            if self.gap and not kinds & (SETS_KINDS - {"max"}):
                return False
            return self._more_sets(line, self.open, tokens, own)
        if len(names) > 1 and len(_main_names(tokens, names)) > 1 and self._name_only(line, tokens, names, own, label):
            return True
        if self._loose(line, tokens, names, kinds, own, head, bullet=bullet):
            return True
        if names and self._name_only(line, tokens, names, own, label):
            return True
        return False

    # lifts

    def _open_lift(self, line: Line, names: list[str], entry: Name | None) -> LiftDraft:
        lift = LiftDraft(names, line.number, entry)
        lift.joined = self.join_next and bool(self.session.items) and isinstance(self.session.items[-1], LiftDraft)
        self.join_next = False
        lift.label = self.label
        self._item(lift)
        lift.text.append(line.raw.rstrip())
        return lift

    def _item(self, item: LiftDraft | PieceDraft | TextDraft) -> None:
        if not self.session.line:
            self.session.line = item.line
        self._drop_empty()
        self.session.items.append(item)
        self.open = item

    def _drop_empty(self) -> None:
        """A name that never got its sets was no lift: its words stay as a note."""

    def _is_lift(self, tokens: list[Token], names: list[Token], kinds: set[str], head: Head) -> bool:
        if not names:
            return False
        strong = kinds & {"setsx", "sets", "find", "loadx"}
        if isinstance(self.open, PieceDraft) and not self.open.empty:
            first = next(token for token in tokens if token.kind == "name")
            known_lift = first.value.known is not None
            if strong and known_lift and not (self.open.loose and False):
                return not any(token.kind in ("num", "cal", "dist") and token.end <= first.start and token.start == tokens[0].start for token in tokens) or bool(kinds & {"setsx"})
            return bool(kinds & {"list"} and kinds & {"pct"} and self.gap)
        if strong:
            return True
        first = names[0]
        if "list" in kinds and any(token.kind == "list" and token.start > first.start for token in tokens) and len(names) == 1:
            return True
        loads = kinds & {"pct", "rpe", "rir", "atx", "tempo"}
        if loads and (kinds & {"num", "list", "complex", "reps", "plus", "max", "xnum"} or "pct" in kinds):
            return True
        if "rm" in kinds and not kinds & {"num"}:
            return True
        if "lastweek" in kinds or "complex" in kinds:
            return True
        if "max" in kinds and first.value.known is not None and first.value.known.measure == "reps" and not kinds & {"time", "dist", "cal"} and not head.clock:
            return re.search(r"(?:one|1) (?:set|go)|sets?\b", " ".join(token.text for token in tokens)) is not None
        return False

    def _lift(self, line: Line, tokens: list[Token], names: list[Token], own: str, label: str) -> bool:
        tokens, names = self._longer_names(tokens, names)
        main = _main_names(tokens, names)
        full = [_as_lift(token) for token in main]
        entry = full[0][1]
        lift = self._open_lift(line, [_first_up(name) if place == 0 else name for place, (name, _) in enumerate(full)], entry)
        lift.prose = self.prose
        counts = _counts_before(tokens, main)
        if len(main) > 1 and counts:
            lift.parts = counts
        lift.implement = _implement_of(tokens, main[0])
        others = [token for token in names if token not in main]
        self._others(lift, tokens, others, main)
        skip = {id(token) for token in main}
        if (found := re.search(r"\b([234])[ -]?(?:position|pos)\b", " ".join(token.text for token in tokens))) and len(main) == 1:
            lift.parts = (1,) * int(found[1])
            skip |= {id(token) for token in tokens if token.kind == "num" and token.text == found[1]}
        if len(main) > 1 and counts:
            skip |= {id(token) for token in tokens if token.kind == "num" and any(token.end <= name.start <= token.end + 3 for name in main)}
        rest = [token for token in tokens if id(token) not in skip and id(token) not in {id(other) for other in others}]
        if step := _STEPS.search(own):
            rest = [token for token in rest if not step.start() <= token.start - tokens[0].start < step.end()]
        self._take_sets(line, lift, rest, main[0])
        if step:
            lift.groups = _stepped(lift.groups, step, self.defaults.unit or "kg")
            lift.notes.append(step[0])
        self._role(line, "lift", lift)
        return True

    def _longer_names(self, tokens: list[Token], names: list[Token]) -> tuple[list[Token], list[Token]]:
        """Put a word before the first name that makes another one of it to the name: a pallof press is no press."""
        if self.prose or not names:
            return tokens, names
        at = tokens.index(names[0])
        first = at
        while first and tokens[first - 1].kind == "word" and makes_name(tokens[first - 1].text) and at - first < 2:
            first -= 1
        if first == at:
            return tokens, names
        typed = " ".join(token.text for token in tokens[first : at + 1])
        name, entry = full_name(typed, lift=True)
        found = Found(tokens[first].start, names[0].end, name, entry, typed)
        made = Token("name", found, tokens[first].start, names[0].end, typed)
        return [*tokens[:first], made, *tokens[at + 1 :]], [made, *names[1:]]

    def _unknown_lift(self, line: Line, tokens: list[Token], kinds: set[str], label: str) -> bool:
        """Sets behind words that are no known name are of a lift of that name, not more sets of the one above."""
        if self.prose or not kinds & {"setsx", "sets", "find"} or tokens[0].kind != "word":
            return False
        words: list[Token] = []
        for token in tokens:
            if token.kind == "word" and re.fullmatch(r"[^\W\d_][\w'-]*", token.text):
                words.append(token)
            elif token.kind == "sep" and token.text in ":-," and words:
                break
            else:
                break
        if not 1 <= len(words) <= 4 or not all(makes_name(token.text) or token.text in ("the", "on", "to", "with") for token in words) or not makes_name(words[0].text):
            return False
        typed = " ".join(token.text for token in words)
        name, entry = full_name(typed, lift=True)
        made = Token("name", Found(words[0].start, words[-1].end, name, entry, typed), words[0].start, words[-1].end, typed)
        rest = [made, *tokens[len(words) :]]
        return self._lift(line, rest, [made], "", label)

    def _others(self, lift: LiftDraft, tokens: list[Token], others: list[Token], main: list[Token]) -> None:
        """A lift behind "or" is another way of the first; other names stay as words."""
        for other in others:
            before = [token for token in tokens if token.end <= other.start]
            if before and before[-1].kind == "orword":
                name, entry = _as_lift(other)
                implement = entry.implement if entry is not None and entry.implement != "?" else "other"
                lift.alternatives.append(Alternative(implement, "same", _first_up(name)))  # type: ignore[arg-type]
            elif not (before and before[-1].kind == "of"):
                lift.notes.append(other.text)

    def _take_sets(self, line: Line, lift: LiftDraft, tokens: list[Token], name: Token | None) -> SetsRead:
        if name is not None:
            tokens = _count_to_reps(tokens, name)
        read = read_sets(tokens, self._scene(line))
        if lift.every_s and lift.groups == [] and read.groups:
            pass
        self._merge(line, lift, read)
        return read

    def _merge(self, line: Line, lift: LiftDraft, read: SetsRead) -> None:
        groups = [replace(group, line=line.number) for group in read.groups]
        bare = [place for place, group in enumerate(lift.groups) if isinstance(group, SetGroup) and group.load is None]
        if read.loads and not groups and bare:
            from tracker.prescription.sheet.sets_reading import spread

            lift.groups = spread(lift.groups, read.loads, self._scene(line))
        elif read.loads and not groups:
            lift.pending += read.loads
        if groups and lift.pending and all(isinstance(group, SetGroup) and group.load is None for group in groups):
            from tracker.prescription.sheet.sets_reading import spread

            groups, lift.pending = spread(groups, lift.pending, self._scene(line)), []
        lift.groups += groups
        if groups and read.rest_s is None and lift.rest_s is None:
            pass
        lift.rest_s = lift.rest_s or read.rest_s
        lift.tempo = lift.tempo or read.tempo
        lift.every_s = lift.every_s or read.every_s
        lift.of = lift.of or read.of
        lift.each_side = lift.each_side or read.each_side
        words = _left_words(read.left)
        lift.notes += read.notes
        if words:
            lift.notes.append(words)

    def _lift_words(self, line: Line, lift: LiftDraft, text: str, *, typed: str) -> None:
        """Read what stands behind a lift's name and implement: what percentages are of, rest, tempo, sides, sets."""
        for part in _split_outside(text, ";"):
            body, notes = _remarks(part)
            read = read_sets(tokens_of(body), self._scene(line))
            raw_notes = _remarks(typed)[1] if notes else []
            groups = [replace(group, line=line.number) for group in read.groups]
            if notes and groups:
                mine = [each for each in raw_notes if plain(each) in (note.strip() for note in notes)] or raw_notes[: len(notes)]
                groups[-1] = replace(groups[-1], note="; ".join(mine))
                raw_notes = []
            read.groups = groups
            self._merge(line, lift, read)

    def _more_sets(self, line: Line, lift: LiftDraft, tokens: list[Token], own: str) -> bool:
        count = 0
        if tokens and tokens[0].kind == "minutesmark":
            first, last = tokens[0].value
            count = last - first + 1
            tokens = [token for token in tokens[1:] if token.kind not in ("name", "every")]
            if len(tokens) > 1 and tokens[0].kind == "num" and tokens[1].kind in ("pct", "atx"):
                tokens[0] = replace(tokens[0], kind="reps", value=int(tokens[0].value))
            elif lift.minute_reps and tokens and tokens[0].kind in ("num", "pct", "atx"):
                if tokens[0].kind == "num":
                    tokens[0] = replace(tokens[0], kind="atx")
                tokens.insert(0, Token("reps", lift.minute_reps, tokens[0].start, tokens[0].start, ""))
        before = len(lift.groups)
        read = self._take_sets(line, lift, tokens, None)
        if count:
            for place in range(before, len(lift.groups)):
                group = lift.groups[place]
                if isinstance(group, SetGroup):
                    lift.groups[place] = replace(group, sets=count)
        del read
        if not lift.text or lift.text[-1] != line.raw.rstrip():
            lift.text.append(line.raw.rstrip())
        self._role(line, "sets", lift)
        return True

    def _lift_on_clock(self, line: Line, tokens: list[Token], head: Head, names: list[Token], kinds: set[str]) -> bool:
        """Sets of a lift on a clock: in per cent, by effort or to a heavy set it is a lift, in kilograms a piece."""
        loads = kinds & {"pct", "atx", "find", "rpe", "rir", "tempo"}
        piece = self.open if isinstance(self.open, PieceDraft) else None
        clock = head.strength_clock
        fields = dict(head.fields)
        if not clock and piece is not None and piece.strength_clock and not piece.moves and (names or "minutesmark" in kinds):
            clock, fields = True, {**piece.fields, **fields}
        if not clock:
            return False
        lifted = [token for token in names if token.value.known is None or token.value.known.implement in ("barbell", "?", "dumbbells") or token.value.name.startswith("weighted")]
        if not names and isinstance(self.open, LiftDraft) and not self.gap and not kinds & {"onminute", "emom"} and self.open.groups and not loads and not self._moves_follow(line):
            self.open.every_s = fields.get("work_s")
            self._more_sets(line, self.open, [token for place, token in enumerate(tokens) if place not in head.used], "")
            return True
        if isinstance(self.open, LiftDraft) and not names and (kinds & {"sets", "setsx"} or loads):
            self.open.every_s = fields.get("work_s")
            return self._more_sets(line, self.open, [token for place, token in enumerate(tokens) if place not in head.used], "")
        if names and kinds & {"setsx", "sets"} and lifted and not kinds & {"cal", "dist"}:
            rest = [token for place, token in enumerate(tokens) if place not in head.used]
            self._lift(line, rest, [token for token in rest if token.kind == "name"], "", "")
            assert isinstance(self.open, LiftDraft)
            self.open.every_s = fields.get("work_s")
            if loads:
                self._ask_clock(line, taken="lift")
            return True
        if lifted and not loads and self._minutes_follow(line):
            return self._by_minutes(line, tokens, head, lifted)
        climbing = "climb" in kinds or re.search(r"build to|heavy but|add (?:weight|if)", " ".join(token.text for token in tokens)) is not None
        if not lifted or not (loads or climbing) or len(lifted) < len(names):
            return False
        rest = [token for place, token in enumerate(tokens) if place not in head.used]
        if piece is not None and not piece.moves and piece.strength_clock:
            self._remove(piece)
        self._lift(line, rest, [token for token in rest if token.kind == "name"], "", "")
        lift = self.open
        assert isinstance(lift, LiftDraft)
        if piece is not None and not piece.moves:
            lift.text[:0] = [each for each in piece.text if each not in lift.text]
            self._moved(piece, lift)
        lift.every_s = fields.get("work_s")
        intervals = fields.get("intervals") or fields.get("rounds")
        if not intervals and fields.get("work_s"):
            total = next((token.value for token in tokens if token.kind == "time" and token.value > fields["work_s"]), 0) or head.from_start or (piece.from_start if piece is not None else 0)
            intervals = total // fields["work_s"] or None
        if intervals is None and (count := next((token for token in tokens if token.kind == "setcount"), None)) is not None:
            intervals = count.value
        if intervals and fields.get("in_turn"):
            intervals = max(1, intervals // 2)
        if intervals and len(lift.groups) == 1 and isinstance(lift.groups[0], SetGroup) and lift.groups[0].sets == 1:
            group = lift.groups[0]
            if not group.reps.parts and not group.reps.out and not lift.parts:
                group = replace(group, reps=Reps((1,)))
            lift.groups[0] = replace(group, sets=intervals)
        elif intervals and not lift.groups:
            lift.groups.append(SetGroup(intervals, Reps(lift.parts or (1,)), lift.pending[0] if lift.pending else None, line=line.number))
            lift.pending = []
        lift.clock_sets = intervals or 0
        self._ask_clock(line, taken="lift")
        return True

    def _minutes_follow(self, line: Line) -> bool:
        """Whether the next line says what is done in some of the minutes, at a percentage: `min 1-4  2 jerks @ 70 %`."""
        for other in self.lines[self.at + 1 : self.at + 2]:
            tokens = tokens_of(plain(_BULLET.sub("", other.text.strip(), count=1)))
            if tokens and tokens[0].kind == "minutesmark" and len(tokens) > 1:
                return tokens[-1].kind in ("pct", "atx", "num")
        return False

    def _by_minutes(self, line: Line, tokens: list[Token], head: Head, lifted: list[Token]) -> bool:
        lift = self._open_lift(line, [_first_up(_as_lift(lifted[0])[0])], _as_lift(lifted[0])[1])
        lift.every_s = head.fields.get("work_s")
        before = [token for token in tokens if token.end <= lifted[0].start and token.kind == "num"]
        lift.minute_reps = int(before[-1].value) if before else 1
        self._role(line, "lift", lift)
        self._ask_clock(line, taken="lift")
        return True

    def _beside_on_clock(self, line: Line, tokens: list[Token], names: list[Token], kinds: set[str]) -> bool:
        """A line under a lift on a clock that counts another movement is done in turn with it, as often."""
        lift = self.open
        if not isinstance(lift, LiftDraft) or not lift.clock_sets or self.gap or len(names) != 1 or kinds & (CLOCKS | {"setsx", "list"}):
            return False
        if not kinds & {"num", "reps"} or kinds & {"cal", "dist", "time"}:
            return False
        if tokens[0].kind in ("odd", "even"):
            tokens = tokens[1:]
        sets = lift.clock_sets
        every = lift.every_s
        self._lift(line, tokens, names, "", "")
        now = self.open
        assert isinstance(now, LiftDraft)
        now.joined, now.every_s, now.clock_sets = True, every, sets
        if not now.groups:
            number = next((token.value for token in tokens if token.kind in ("num", "reps")), 1)
            load = now.pending[0] if now.pending else None
            now.groups, now.pending = [SetGroup(sets, Reps((int(number),)), load, line=line.number)], []
        now.groups = [replace(group, sets=sets) if isinstance(group, SetGroup) and group.sets == 1 else group for group in now.groups]
        if any(isinstance(group, SetGroup) and group.load is not None for group in now.groups):
            self._ask_clock(line, taken="lift")
        return True

    def _moved(self, old: Any, new: Any) -> None:
        for roles in self.roles.values():
            for place, (role, item) in enumerate(roles):
                if item is old:
                    roles[place] = (role, new)

    def _remove(self, item: Any) -> None:
        if item in self.session.items:
            self.session.items.remove(item)

    def _ask_clock(self, line: Line, *, taken: str) -> None:
        lift, piece = Choice("lift", "sets of a lift"), Choice("piece", "a piece on the clock")
        order = (lift, piece) if taken == "lift" else (piece, lift)
        self.asker.choose("strength on a clock", line.number, harmless(line.raw).strip(), "Sets of a lift, or a piece?", order)

    def _name_only(self, line: Line, tokens: list[Token], names: list[Token], own: str, label: str) -> bool:
        """A lift's name without sets: they may follow below."""
        kinds = {token.kind for token in tokens}
        complex_of = len(_main_names(tokens, names)) > 1
        weeks = re.search(r"\bweeks?\b|\bwave\b|\bcycle\b", own) is not None
        if kinds & {"num", "dist", "cal", "time", "rounds", "miles"} and not kinds & {"of", "rest", "tempo"} and not self.prose and not complex_of and not weeks:
            return False
        words = [token for token in tokens if token.kind == "word"]
        if self.prose and not re.search(r"\b(?:strength|lift|is|are|we|piece|do|today|tonight|now|on to|next)\b", own):
            return False
        if not self.prose and len(words) > 5:
            return False
        if not self._sets_follow(line) and not label:
            return False
        main = _main_names(tokens, names)
        full = [_as_lift(token) for token in main]
        lift = self._open_lift(line, [_first_up(name) if place == 0 else name for place, (name, _) in enumerate(full)], full[0][1])
        lift.prose = self.prose
        counts = _counts_before(tokens, main)
        if len(main) > 1 and counts:
            lift.parts = counts
        lift.implement = _implement_of(tokens, main[0])
        others = [token for token in names if token not in main]
        self._others(lift, tokens, others, main)
        skip = {id(token) for token in (*main, *others)}
        rest = [token for token in tokens if id(token) not in skip and not (token.kind == "num" and len(main) > 1)]
        self._take_sets(line, lift, rest, None)
        self._role(line, "lift", lift)
        return True

    def _sets_follow(self, line: Line) -> bool:
        """Whether one of the next lines has sets and no name of its own."""
        if self.later:
            return {token.kind for token in tokens_of(plain(self.later.split(". ")[0]))} & (SETS_KINDS - {"max", "plus"}) != set()
        seen = 0
        for other in self.lines[self.at + 1 : self.at + 8]:
            if other.blank:
                continue
            text = other.text.strip()
            if _KEYS.match(text) or section_heading(text):
                return False
            found = _LABEL.match(text)
            heading = day_heading(text, Asker(), 0)
            if heading is not None and heading.week is None:
                return False
            if heading is not None:
                text = heading.rest
            tokens = tokens_of(plain(_BULLET.sub("", text, count=1)))
            kinds = {token.kind for token in tokens}
            if found and found["d"] is None:
                return False
            if kinds & (CLOCKS - {"fortime", "every"}):
                return False
            numeric = kinds & (SETS_KINDS | {"complex", "num"}) or (kinds & {"reps", "range"})
            if numeric and not any(token.kind == "name" for token in tokens):
                return True
            seen += 1
            if seen >= (3 if not self.prose else 1):
                return False
        return False

    def _other_way(self, line: Line, chunk: str) -> bool:
        """`dumbbells: RDL 4x10` under a lift is another way of it."""
        lift = self.open
        assert isinstance(lift, LiftDraft)
        found = _HOME_LIFT.match(chunk.strip())
        if found is None or self.gap or (lift.empty and not lift.names):
            return False
        tokens = tokens_of(plain(found["rest"]))
        names = [token for token in tokens if token.kind == "name"]
        read = read_sets([token for token in tokens if token.kind != "name"], self._scene(line))
        if not read.groups and not names:
            return False
        when = found["when"].strip()
        name, entry = _as_lift(names[0]) if names else ("", None)
        implement = _implement_of(tokens, names[0]) if names else ""
        if not implement:
            implement = next((_IMPLEMENT_WORDS[word] for word in re.findall("[a-z]+", when.lower()) if word in _IMPLEMENT_WORDS), "")
        if not implement or implement == "?":
            implement = entry.implement if entry is not None and entry.implement != "?" else "body" if "no" in when.lower() else "other"
        groups = tuple(replace(group, line=line.number) for group in read.groups)
        lift.alternatives.append(Alternative(implement, "own" if groups else "same", _first_up(name) if name else "", groups, when, line.number))  # type: ignore[arg-type]
        if words := _left_words(read.left):
            lift.notes.append(words)
        lift.text.append(line.raw.rstrip())
        self._role(line, "alternative", lift)
        return True

    # what percentages are of

    def _all_of(self, line: Line, text: str) -> bool:
        """`% = training max`, `(% of your snatch)`: what all percentages of the lift, or of the sheet, are of."""
        self._training_max(text, line)
        tokens = tokens_of(text)
        kinds = {token.kind for token in tokens}
        if "tm" in kinds and not kinds & (SETS_KINDS - {"pct"}) and not any(token.kind == "name" for token in tokens):
            self._note(line, line.raw)
            return True
        if not _ALL_OF.match(text.strip()) or kinds & (SETS_KINDS - {"pct", "max", "plus"}):
            return False
        read = read_sets([token for token in tokens if token.kind in ("of", "name")], self._scene(line))
        if read.of is None:
            if found := re.search(r"%\s*of\s*(?:your |the )?(?:best |1rm )?(.+?)\)?$", text):
                name, entry = full_name(found[1].strip(" )."), lift=True)
                if entry is not None:
                    read.of = Of(1, name)
        if read.of is None:
            return False
        lift = self.open if isinstance(self.open, LiftDraft) else None
        if lift is not None and not self.gap:
            lift.of = lift.of or read.of
        else:
            self.defaults.of = self.defaults.of or read.of
        self._note(line, line.raw)
        return True

    def _training_max(self, text: str, line: Line) -> None:
        for token in tokens_of(text):
            if token.kind == "tm" and 50 <= token.value[0] <= 100:
                self.defaults.share = token.value[0]

    # pieces

    def _open_piece(self, line: Line, label: str) -> PieceDraft:
        piece = PieceDraft(line.number, label=label or self.label, section=self.section)
        if self.title_above:
            piece.title, self.title_above = self.title_above, ""
        self._item(piece)
        piece.text.append(line.raw.rstrip())
        piece.indent = line.indent
        piece.fields |= self.hinted
        self.hinted = {}
        return piece

    def _begins_piece(self, line: Line, tokens: list[Token], head: Head, names: list[Token], kinds: set[str], own: str) -> bool:
        open_piece = self.open if isinstance(self.open, PieceDraft) else None
        if head.clock:
            if open_piece is not None and not open_piece.moves and "kind" not in open_piece.fields:
                return True
            only_time = kinds & CLOCKS <= {"fortime"} and head.fields.get("kind") in ("for time", "unscored")
            if only_time and open_piece is not None and not names and "kind" not in open_piece.fields:
                return False
            if only_time and self.prose and not names and not self._moves_follow(line) and not any(token.kind in ("rounds", "list", "cap") for token in tokens):
                return False
            if only_time and open_piece is not None and open_piece.moves and not self.gap and not names:
                return False
            return True
        significant = [token for token in tokens if token.kind not in ("word", "sep", "andword")]
        lift = self.open if isinstance(self.open, LiftDraft) else None
        if significant and significant[0].kind == "list" and not (lift is not None and lift.empty and not names):
            numbers, more, _ = significant[0].value
            if len(names) >= 2 or (names and (more is not None or numbers[0] >= 9 or any(token.kind in ("cal", "dist") for token in tokens))) or (not names and self._moves_follow(line) and not (open_piece and open_piece.moves and not self.gap)):
                return "pct" not in kinds and "rpe" not in kinds
        if significant and significant[0].kind == "buyin" and open_piece is None:
            return True
        if "rounds" in head.fields and not kinds & {"setsx", "pct"}:
            if open_piece is not None and open_piece.moves and not self.gap and (open_piece.fields.get("kind") or open_piece.loose is False) and not names and not self._moves_follow(line):
                return False
            if open_piece is not None and (not open_piece.moves or all(move.part for move in open_piece.moves)):
                return True
            if significant and significant[0].kind == "rounds" or names:
                return bool(names) or self._moves_follow(line) or "time" in kinds
        return False

    def _moves_follow(self, line: Line) -> bool:
        """Whether the next line that is not blank looks like a movement."""
        for other in self.lines[self.at + 1 : self.at + 4]:
            if other.blank:
                continue
            if other.number == line.number:
                return False
            text = _BULLET.sub("", other.text.strip(), count=1)
            if found := _LABEL.match(text):
                text = text[found.end() :]
            tokens = tokens_of(plain(text))
            kinds = {token.kind for token in tokens}
            if kinds & {"setsx", "sets"}:
                return False
            if any(token.kind == "name" for token in tokens):
                return True
            return bool(tokens) and tokens[0].kind in ("num", "dist", "cal", "calpair", "time", "max", "buyin", "miles", "minutesmark", "cap", "odd")
        return False

    def _piece_head(self, line: Line, tokens: list[Token], head: Head, own: str, label: str) -> bool:
        piece = self.open if isinstance(self.open, PieceDraft) else None
        fresh = piece is None or bool(piece.moves) or "kind" in piece.fields and head.clock and bool(head.fields.get("kind")) and piece.fields.get("kind") != head.fields["kind"]
        if piece is not None and piece.moves and all(move.part == "buy-in" for move in piece.moves) and "rounds" not in piece.fields and not head.fields.get("kind") and not self.gap:
            fresh = False
        if piece is not None and piece.part and not piece.fields.get("kind") and not (self.gap and piece.fields.get("rounds")):
            fresh = False
        if fresh and piece is not None and piece.loose and not piece.fields and not self.gap and (head.fields.get("kind") != "work and rest" or all(move.count is None for move in piece.moves)) and ("rounds" in head.fields or "kind" in head.fields) and not any(t.kind == "name" for t in tokens):
            fresh = False  # a run before "5 rounds": the same piece
        if fresh or piece is None:
            piece = self._open_piece(line, label)
        elif line.raw.rstrip() not in piece.text:
            piece.text.append(line.raw.rstrip())
        was_clock = piece.strength_clock
        for key, value in head.fields.items():
            piece.fields.setdefault(key, value)
        piece.strength_clock = head.strength_clock or was_clock
        piece.death_by = piece.death_by or head.death_by
        piece.from_start = piece.from_start or head.from_start
        piece.loose = False
        rest = [token for place, token in enumerate(tokens) if place not in head.used]
        self._rest_of(piece, rest)
        rest = [token for token in rest if token.kind != "rest"] if "rest_s" in piece.fields else rest
        self._role(line, "piece", piece)
        part = next((token.kind for token in tokens if token.kind in ("buyin", "cashout")), "")
        piece.part = {"buyin": "buy-in", "cashout": "cash-out"}.get(part, "")
        rest = [token for token in rest if token.kind not in ("buyin", "cashout")]
        rest = self._titled(piece, rest, line)
        rest = self._interval_time(piece, rest)
        read = read_moves(rest, unit=self.defaults.unit or "kg", line=line.number, free=bool(re.search(r"[:,+]|\bof\b", own)) and not self.prose, slash_or=False, heading=True)
        if read.scheme is not None:
            piece.scheme = read.scheme
        if piece.scheme is not None and piece.scheme.step > 0 and piece.fields.get("kind") is None and (times := [token for token in tokens if token.kind == "time" and token.value >= 60]):
            piece.fields |= {"kind": "as many as possible", "cap_s": times[0].value}
            read = read_moves([token for token in rest if token not in times and token.text != "ladder"], unit=self.defaults.unit or "kg", line=line.number, free=False, slash_or=False, heading=True)
        self._take_moves(line, piece, read, own)
        piece.inline = bool(piece.moves)
        piece.part = ""
        if len(re.findall(r"(?<!\d)\d\)", own)) >= 2 and piece.moves:
            piece.stations = len(piece.moves)
        return True

    def _titled(self, piece: PieceDraft, rest: list[Token], line: Line) -> list[Token]:
        """`Cindy: 20 min AMRAP of ...`: the words before a colon are the piece's title."""
        words: list[Token] = []
        for token in rest[:5]:
            if token.kind == "sep" and token.text in ":-" and words:
                if not piece.title and not self.prose:
                    typed = re.search(re.escape(words[0].text) + r"[^:–—-]*", line.text, re.IGNORECASE)
                    piece.title = (typed[0] if typed else " ".join(each.text for each in words)).strip(" '\"“”")
                return rest[len(words) + 1 :]
            if token.kind != "word" or token.text in HOW or not token.text.strip("'\"").isalpha():
                break
            words.append(token)
        return rest

    def _interval_time(self, piece: PieceDraft, rest: list[Token]) -> list[Token]:
        """`4 rounds: 2 min row, 1 min rest` is work and rest; `every round` and the like say nothing of a movement."""
        if "rounds" in piece.fields and piece.fields.get("rest_s") and "kind" not in piece.fields:
            times = [token for token in rest if token.kind == "time"]
            if len(times) == 1 and times[0].value >= 15:
                piece.fields["kind"] = "work and rest"
                piece.fields["work_s"] = times[0].value
                return [token for token in rest if token is not times[0]]
        if piece.fields.get("kind") == "every minute" and "intervals" not in piece.fields:
            total = next((token for token in rest if token.kind == "time" and token.value >= piece.fields.get("work_s", 60)), None)
            if total is not None:
                piece.fields["intervals"] = total.value // piece.fields["work_s"]
                return [token for token in rest if token is not total]
            if (count := next((token for token in rest if token.kind in ("sets", "setsx", "xnum")), None)) is not None and count.kind == "xnum":
                piece.fields["intervals"] = count.value
                return [token for token in rest if token is not count]
        if piece.fields.get("kind") == "work and rest" and "intervals" not in piece.fields:
            count = next((token for token in rest if token.kind in ("xnum", "reps") or (token.kind == "num" and rest.index(token) + 1 < len(rest) and rest[rest.index(token) + 1].text in ("x", "times", "intervals", "each"))), None)
            if count is not None:
                piece.fields["intervals"] = int(count.value)
                return [token for token in rest if token is not count]
        return rest

    def _rest_of(self, piece: PieceDraft, tokens: list[Token]) -> None:
        for token in tokens:
            if token.kind == "rest" and 0 < token.value <= 3600:
                piece.fields.setdefault("rest_s", token.value)

    def _take_moves(self, line: Line, piece: PieceDraft, read: MovesRead, own: str) -> None:
        moves = [self._unit_of(_usual(_named(move, piece), piece), line) for move in read.moves]
        moves = [replace(move, options=tuple(_like(each, move) for each in move.options)) if move.options else move for move in moves]
        if piece.part:
            moves = [replace(move, part=piece.part) for move in moves]  # type: ignore[arg-type]
        piece.moves += moves
        piece.stations += read.stations
        if read.options and piece.moves:
            last = piece.moves[-1]
            piece.moves[-1] = replace(last, options=(*last.options, *(_like(_usual(each, piece), last) for each in read.options)))
        words = _left_words(read.left)
        if words:
            piece.notes.append(words)

    took = False

    def _unit_of(self, move: Movement, line: Line) -> Movement:
        """Loads without a unit that are usual in pounds only, such as 53/35 for a kettlebell, are pounds where the sheet names no unit."""
        if self.defaults.unit == "lb" and isinstance(move.load, Pair) and move.load.larger.unit == "lb" and "lb" not in line.text.lower() and "#" not in line.text and _kilos(move, move.load):
            return replace(move, load=Pair(Mass(move.load.larger.amount, "kg"), Mass(move.load.smaller.amount, "kg")))
        if self.defaults.unit or self.defaults.units or move.load is None or not re.search(r"\d", line.text):
            return move
        pair = move.load if isinstance(move.load, Pair) else None
        larger = pair.larger if pair is not None else move.load
        assert isinstance(larger, Mass)
        if larger.unit == "lb" or not _pounds(move, larger.amount, pair.smaller.amount if pair is not None else None):
            return move
        choices = (Choice("lb", "pounds"), Choice("kg", "kilograms"))
        if self.asker.choose("unit of loads", line.number, harmless(line.raw).strip(), f"{pair or plain_number(larger.amount)} of what?".replace(" kg", ""), choices) == "kg":
            return move
        other: Any = Pair(Mass(pair.larger.amount, "lb"), Mass(pair.smaller.amount, "lb")) if pair is not None else Mass(larger.amount, "lb")
        return replace(move, load=other)

    def _in_piece(self, line: Line, tokens: list[Token], head: Head, own: str) -> bool:
        self.took = self._under_piece(line, tokens, head, own)
        return self.took

    def _under_piece(self, line: Line, tokens: list[Token], head: Head, own: str) -> bool:
        piece = self.open
        assert isinstance(piece, PieceDraft)
        if piece.death_by and piece.moves and any(token.kind in ("dist", "cal", "num", "miles", "every") for token in tokens) and not own.startswith(("min", "(", "score")):
            self.open = None
            self.gap = True
            return False
        self._fill(head)
        kinds = {token.kind for token in tokens}
        rest = [token for place, token in enumerate(tokens) if place not in head.used or token.kind in ("rounds",) and False]
        self._rest_of(piece, rest)
        took_rest = any(token.kind == "rest" for token in rest)
        rest = [token for token in rest if token.kind != "rest"]
        part = "buy-in" if "buyin" in kinds else "cash-out" if "cashout" in kinds else ""
        if part:
            piece.part = part
            piece.fields.setdefault("kind", "for time")
            rest = [token for token in rest if token.kind not in ("buyin", "cashout")]
        rest = [token for token in rest if not (token.kind == "sep" and token.text == ":" and rest.index(token) == 0)]
        if self.gap and piece.moves and not part and not self._fits(piece, rest, own):
            return False
        if piece.moves and not any(token.kind == "name" for token in rest) and (shared := _shared_load(rest, own, self.defaults.unit or "kg")) is not None and not any(move.load for move in piece.moves):
            piece.shared_load = shared
            piece.text.append(line.raw.rstrip())
            self._role(line, "movement", piece)
            words = _left_words([token for token in rest if token.kind not in ("pair", "mass")])
            piece.notes += [words] if words else []
            return True
        read = read_moves(rest, unit=self.defaults.unit or "kg", line=line.number, free=not self.prose and not (self.gap and bool(piece.moves)), slash_or=not piece.inline)
        if self.prose and not read.counted and not read.known:
            return bool(head.used) or took_rest
        if self.prose and read.moves and not read.counted and piece.moves:
            return bool(head.used) or took_rest
        if read.scheme is not None and piece.scheme is None and all(move.part for move in piece.moves):
            piece.scheme = read.scheme
        if not read.moves and not read.options and read.scheme is None:
            if line.raw.rstrip() not in piece.text:
                piece.text.append(line.raw.rstrip())
            if read.left and (head.used or took_rest):
                words = _left_words(read.left)
                if words:
                    piece.notes.append(words)
            self._role(line, "clock" if head.used or took_rest else "note", piece)
            if not (head.used or took_rest):
                piece.notes.append(harmless(line.raw).strip())
            return True
        self._take_moves(line, piece, read, own)
        if piece.part == "cash-out" or (piece.part == "buy-in"):
            piece.part = ""
        if line.raw.rstrip() not in piece.text:
            piece.text.append(line.raw.rstrip())
        self._role(line, "movement", piece)
        return True

    def _fits(self, piece: PieceDraft, tokens: list[Token], own: str) -> bool:
        """Whether a line behind a blank line is still a movement of the piece: it begins with a count or an amount."""
        if self.prose:
            return False
        return bool(tokens) and tokens[0].kind in ("num", "dist", "cal", "calpair", "miles", "time", "max", "orword") and any(token.kind == "name" for token in tokens)

    def _fill(self, head: Head) -> None:
        """Let a later line fill what the piece has not said yet: its cap, how it is scored, partners."""
        piece = self.open
        if not isinstance(piece, PieceDraft):
            return
        for key, value in head.fields.items():
            if key == "kind" and value == "for time" and piece.fields.get("kind"):
                continue
            if key == "rounds" and piece.fields.get("kind") in ("as many as possible",):
                continue
            piece.fields.setdefault(key, value)
        if head.turn and piece.fields.get("partners"):
            piece.fields.setdefault("in_turn", True)

    def _chunk_fields(self, line: Line, text: str) -> None:
        """Read what a note says of the piece's score or cap."""
        piece = self.open if isinstance(self.open, PieceDraft) else None
        if piece is None:
            return
        words = plain(text)
        self._fill(read_head([token for token in tokens_of(words) if token.kind in ("cap", "word", "fortime")], words, self.asker, line.number, line.raw))

    def _station(self, line: Line, text: str) -> str:
        """Take the minute or station from the start of a line of a piece on a clock; empty where the whole line is done."""
        piece = self.open
        assert isinstance(piece, PieceDraft)
        if piece.fields.get("kind") not in ("every minute", "work and rest") and not piece.strength_clock:
            return text
        found = _STATION.match(text)
        if found is None:
            return text
        rest = text[found.end() :].strip()
        if found["a"] and found["b"]:
            return text
        if found["f"]:
            piece.fields["in_turn"] = True
            piece.stations += 1
        else:
            number = int(found["a"] or found["c"] or found["e"])
            if number != piece.stations + 1:
                return text
            piece.stations += 1
        if re.match(r"^(?:rest|off)\b\W*$", rest):
            piece.moves.append(Movement("rest", line=line.number))
            if line.raw.rstrip() not in piece.text:
                piece.text.append(line.raw.rstrip())
            self._role(line, "movement", piece)
            return ""
        return rest

    def _measured(self, line: Line, tokens: list[Token], own: str) -> bool:
        """`5 x 500 m row, rest 2:00` and `3 x 45 s plank`: intervals with a rest, else rounds."""
        first = next(token for token in tokens if token.kind in ("setsxm", "setsxt"))
        names = [token for token in tokens if token.kind == "name"]
        if not names:
            if isinstance(self.open, PieceDraft) and not self.open.moves:
                return False
            return False
        piece = self._open_piece(line, "")
        rests = [token for token in tokens if token.kind == "rest"]
        number = first.value[0]
        made = Token("dist", (first.value[1], first.value[2]), first.start, first.end, first.text) if first.kind == "setsxm" else Token("time", first.value[1], first.start, first.end, first.text)
        if first.kind == "setsxm" and first.value[2] == "cal":
            made = Token("cal", first.value[1], first.start, first.end, first.text)
        if rests:
            piece.fields |= {"kind": "work and rest", "intervals": number, "rest_s": rests[0].value}
        else:
            piece.fields |= {"kind": "unscored", "rounds": number}
        rest = [made if token is first else token for token in tokens if token not in rests]
        read = read_moves(rest, unit=self.defaults.unit or "kg", line=line.number, free=False, slash_or=True)
        self._take_moves(line, piece, read, own)
        piece.loose = False
        self._role(line, "piece", piece)
        return True

    def _most(self, line: Line, tokens: list[Token], names: list[Token], kinds: set[str], head: Head, own: str) -> bool:
        """`3 min max double unders`, `max cal row in 5 min`: as many as there is time for."""
        if head.clock or len([token for token in tokens if token.kind == "time"]) != 1 or not names or kinds & {"setsx", "pct"}:
            return False
        piece = self.open if isinstance(self.open, PieceDraft) else None
        if piece is not None and (piece.fields.get("kind") in ("every minute", "work and rest") or "rounds" in piece.fields or "rounds" in head.fields) and not self.gap:
            return False
        if "rounds" in kinds:
            return False
        time = next(token for token in tokens if token.kind == "time")
        if time.value < 20:
            return False
        made = self._open_piece(line, "")
        made.fields |= {"kind": "as many as possible", "cap_s": time.value}
        rest = [token for place, token in enumerate(tokens) if token is not time and place not in head.used]
        self._rest_of(made, rest)
        read = read_moves([token for token in rest if token.kind != "rest"], unit=self.defaults.unit or "kg", line=line.number, free=False, slash_or=True)
        self._take_moves(line, made, read, own)
        self._role(line, "piece", made)
        return True

    def _loose(self, line: Line, tokens: list[Token], names: list[Token], kinds: set[str], own: str, head: Head, *, bullet: bool) -> bool:
        """A movement without a word on how it is done: a piece that is not scored."""
        if not names or kinds & {"pct", "setsx"}:
            return False
        buyin = bool(kinds & {"buyin", "cashout"})
        if self.prose and not (head.clock or kinds & {"cap"} or buyin or self._many(tokens)):
            return False
        rest = [token for place, token in enumerate(tokens) if place not in head.used]
        read = read_moves(rest, unit=self.defaults.unit or "kg", line=line.number, free=False, slash_or=True)
        counted = [move for move in read.moves if move.count is not None or move.sides or move.most]
        engine = bool(names) and all(token.kind in ("name", "orword", "sep") for token in tokens) and all(_engine(move) for move in (*read.moves, *read.options))
        if engine and not (self.session.headed and (not self.session.items or line.cell)) and not self._intervals_follow(line):
            engine = False
        if not (counted or engine) or not read.known:
            return False
        piece = self._open_piece(line, "")
        piece.loose = True
        piece.part = "buy-in" if "buyin" in kinds else ""
        self._rest_of(piece, rest)
        for key, value in head.fields.items():
            piece.fields.setdefault(key, value)
        self._take_moves(line, piece, read, own)
        self._role(line, "piece", piece)
        return True

    def _few(self, line: Line, tokens: list[Token], names: list[Token], kinds: set[str]) -> bool:
        """`Then three slow negatives` in the sentences of a lift is one set of another."""
        if len(names) != 1 or kinds & (CLOCKS | {"cal", "dist", "miles", "rounds"}):
            return False
        count = next((token for token in tokens if token.kind == "num" and token.end <= names[0].start), None)
        entry = names[0].value.known
        if count is None or count.value > 10 or entry is None or entry.measure != "reps":
            return False
        full, found = _as_lift(names[0])
        lift = self._open_lift(line, [_first_up(full)], found)
        lift.prose = True
        lift.groups = [SetGroup(1, Reps((int(count.value),)), line=line.number)]
        lift.notes.append(" ".join(token.text for token in tokens))
        self._role(line, "lift", lift)
        return True

    def _many(self, tokens: list[Token]) -> bool:
        """Whether a sentence counts three movements or more, as a piece told in words does."""
        count = 0
        for place, token in enumerate(tokens):
            if token.kind == "name" and place and tokens[place - 1].kind in ("num", "dist", "cal", "word") and any(each.kind in ("num", "dist", "cal") for each in tokens[max(0, place - 2) : place]):
                count += 1
        return count >= 3

    def _intervals_follow(self, line: Line) -> bool:
        for other in self.lines[self.at + 1 : self.at + 3]:
            if not other.blank:
                return any(token.kind in ("onoff", "tabata", "every", "emom") for token in tokens_of(plain(other.text)))
        return False

    # options

    def _options(self, line: Line, text: str) -> bool:
        """Lines of a scaled or home block: each is another way of a movement of the piece, or of the lift."""
        target = self.target
        when = str(self.section)
        if isinstance(target, PieceDraft) and target.moves:
            pairs = [found for part in re.split(r"\s*[,;]\s*", text) if (found := _FOR.match(part))]
            if pairs and any(_wanted_place(found["x"], target.moves) is not None for found in pairs):
                for found in pairs:
                    place = _wanted_place(re.sub(r"^[\d\s]+", "", found["x"]), target.moves)
                    wanted = place if place is not None else _place_for(Movement(found["x"]), target.moves)
                    read = read_moves(tokens_of(found["y"]), unit=self.defaults.unit or "kg", line=line.number, free=True)
                    for move in read.moves[:1]:
                        target.moves[wanted] = replace(target.moves[wanted], options=(*target.moves[wanted].options, replace(move, when=when)))
                target.text.append(line.raw.rstrip())
                self._role(line, "option", target)
                return True
            tokens = tokens_of(text)
            head = read_head(tokens, text, Asker(), line.number, line.raw)
            if head.clock:
                return False
            read = read_moves(tokens, unit=self.defaults.unit or "kg", line=line.number, free=not self.prose, slash_or=True)
            found = [*read.moves, *read.options]
            for move in read.moves:
                found += move.options
            load = _shared_load([token for token in tokens if token.kind in ("pair", "mass")][:1], text, self.defaults.unit or "kg")
            loaded = next((place for place, move in enumerate(target.moves) if move.load is not None), None)
            if load is not None and loaded is not None and not any(move.load is not None for move in found):
                target.moves[loaded] = replace(target.moves[loaded], options=(*target.moves[loaded].options, Movement(target.moves[loaded].name, load=load, when=when)))
            elif not found:
                return False
            for move in found:
                place = _place_for(replace(move, options=()), target.moves)
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

    # texts

    def _new_text(self, kind: Any, line: Line, words: str, *, explicit: bool = False) -> TextDraft:
        raw = harmless(line.raw).strip()
        colon = re.match(r"^[^:：]{0,40}[:：]\s*(.*)$", raw)
        after = colon[1].strip() if colon and (not words.strip() or clean(colon[1]).strip() == clean(words).strip()) else ""
        draft = TextDraft(kind, line.number, [after] if after else [raw] if words.strip() else [], explicit)
        self._item(draft)
        self._role(line, kind, draft)
        return draft

    def _note(self, line: Line, words: str) -> None:
        words = harmless(words).strip()
        item = self.open
        if isinstance(item, LiftDraft | PieceDraft) and not self.gap:
            item.notes.append(words)
            item.text.append(line.raw.rstrip())
            self._role(line, "note", item)
            return
        if isinstance(item, TextDraft) and item.kind == "note":
            item.lines.append(words)
            self._role(line, "note", item)
            return
        draft = TextDraft("note", line.number, [words])
        keep = self.open
        self._item(draft)
        self._role(line, "note", draft)
        if isinstance(keep, PieceDraft | LiftDraft):
            self.open = keep
        else:
            self.open = draft

    def _note_words(self, line: Line, *, keep: bool) -> None:
        del keep
        self.session.items.append(TextDraft("note", line.number, [harmless(line.raw).strip()]))
        if not self.session.line:
            self.session.line = line.number

    # the end of a session

    def _end_session(self) -> None:
        self.open = None
        self.target = None
        session = self.session
        if session.items or session.headed:
            self.sessions.append(session)
        self.session = SessionDraft()


_WARM_UP = re.compile(r"^(?:we |you |let's |please |first,? )?(?:always )?warm(?:ing)?[ -]?up\b(?!.{0,20}(?:sets|to a|to your)\b)", re.IGNORECASE)
_NO_KIT = re.compile(r"\b((?:no|can'?t|cannot) [\w' -]{1,20})\?", re.IGNORECASE)
_OR_BRACKETS = re.compile(r"\(\s*or\b[^()]*\)")
_SUPERSET = re.compile(r"(?:super-?\s?set(?:ted)?|ss|paired)\s+(?:with|w/)\s*:?\s*(?=\S)", re.IGNORECASE)
_TEXT_AGAIN = re.compile(r"(warm-?up|cool-?down)\s*:", re.IGNORECASE)
_QUESTION = re.compile(r"\?\s*\W*$")


def _text_kind(word: str) -> str:
    return "warm-up" if word.lower().startswith("w") else "cool-down"


def _numbered(lines: list[Line]) -> set[int]:
    """The lines whose `1.` or `2)` is a label: they count up from 1."""
    found: set[int] = set()
    last, before = 0, 0
    for line in lines:
        match = re.match(r"\s*(?:[-•*]\s+)?(\d{1,2})[.)]\s+(?=\S)", line.text)
        if match is None:
            continue
        number = int(match[1])
        if number == 1 or number == last + 1 or match[0].strip().endswith(")"):
            found.add(line.number)
            last, before = number, line.number
    del before
    return found


def _lettered(lines: list[Line]) -> set[int]:
    """The lines that begin with a bare A, B, C of a row of such letters."""
    rows = [(line.number, match["a"]) for line in lines if (match := (_BARE_LETTER.match(line.text) or re.match(r"\s*(?P<a>[A-H])\d?[.):]?\s", line.text)))]
    bare = {line.number: match["a"] for line in lines if (match := _BARE_LETTER.match(line.text))}
    letters = [letter for _, letter in rows]
    return {number for number, letter in bare.items() if (letter == "A" and "B" in letters) or chr(ord(letter) - 1) in letters}


def _is_prose(text: str) -> bool:
    """Whether a line is written in sentences: many plain words beside few numbers and names."""
    words = re.findall(r"[A-Za-zÀ-ÿ']+", text)
    if len(words) < 8:
        return False
    plain_words = sum(word.lower() in _COMMON for word in words)
    return plain_words >= 3 and plain_words * 4 >= len(words)


_COMMON = frozenset(
    "the a an you your we i it is are was were be to of in on for with and or if that this there then than at as by do does not no but so what who when "
    "have has had will would can could should please me my our us them they he she all some any more take make after before because until it's don't "
    "today tonight tomorrow week next last just only one those these from into out up".split()
) - {"for", "of", "or", "in", "max", "one", "up", "at", "then", "with", "each", "and", "rest", "no", "on", "to", "a", "all", "if"}


def _then_parts(text: str) -> list[str]:
    """Part a sentence at "then"."""
    return [part for part in _SPLIT_THEN.split(text) if part.strip(" ,.;:")] if _SPLIT_THEN.search(text) else [text]


def split_parts(tokens: list[Token]) -> list[list[Token]]:
    """Part the tokens of a line where another lift with sets of its own begins."""
    strong = {"setsx", "sets", "find", "loadx", "setsxm", "setsxt"}
    if sum(token.kind in strong for token in tokens) < 2 or sum(token.kind == "name" for token in tokens) < 2 or any(token.kind in CLOCKS for token in tokens):
        return [tokens] if tokens else []
    parts: list[list[Token]] = []
    now: list[Token] = []
    depth = 0
    for place, token in enumerate(tokens):
        depth += (token.text == "(") - (token.text == ")") if token.kind == "sep" else 0
        begins = False
        if depth == 0 and token.kind in ("name", *strong):
            named = any(each.kind == "name" for each in now)
            done = any(each.kind in strong for each in now)
            before = tokens[place - 1] if place else None
            if token.kind == "name" and named and done:
                begins = not (before is not None and before.kind in ("of", "orword", "num")) and any(each.kind in strong or each.kind in ("num", "list") for each in tokens[place + 1 : place + 8])
            elif token.kind in strong and named and done:
                ahead = next((each.kind for each in tokens[place + 1 : place + 3] if each.kind in ("name", "sep", *strong)), "")
                begins = ahead == "name" and before is not None and before.kind in ("sep", "andword")
        if begins:
            parts.append(now)
            now = []
        now.append(token)
    parts.append(now)
    for part in parts[:-1]:
        while part and (part[-1].kind == "andword" or (part[-1].kind == "sep" and part[-1].text != ")")):
            part.pop()
    return [part for part in parts if part]


def _main_names(tokens: list[Token], names: list[Token]) -> list[Token]:
    """The lift of a line: its first name; or the longest run of names joined by a plus, a complex."""
    order = {id(token): place for place, token in enumerate(tokens)}
    runs: list[list[Token]] = []
    for name in names:
        if runs:
            outside = _outside_brackets(tokens[order[id(runs[-1][-1])] + 1 : order[id(name)]])
            if any(token.kind == "sep" and token.text == "+" for token in outside) and all(token.kind in ("num", "word", "sep") and token.text not in ",;:/|" for token in outside):
                runs[-1].append(name)
                continue
        runs.append([name])
    longest = max(runs, key=len)
    if len(longest) > 1:
        return longest
    return [next((token for token in names if not _after_of(tokens, order[id(token)])), names[0])]


def _outside_brackets(tokens: list[Token]) -> list[Token]:
    depth, found = 0, []
    for token in tokens:
        if token.text == "(":
            depth += 1
        elif token.text == ")":
            depth -= 1
        elif depth <= 0:
            found.append(token)
    return found


def _after_of(tokens: list[Token], place: int) -> bool:
    return place > 0 and tokens[place - 1].kind == "of"


def _as_lift(token: Token) -> tuple[str, Name | None]:
    name, entry = full_name(token.value.typed, lift=True)
    return name, entry or token.value.known


def _counts_before(tokens: list[Token], main: list[Token]) -> tuple[int, ...]:
    """The counts of a complex: `1 power clean + 2 front squat`."""
    found = []
    for name in main:
        before = [token for token in tokens if token.end <= name.start]
        if before and before[-1].kind == "num" and before[-1].value == int(before[-1].value):
            found.append(int(before[-1].value))
    return tuple(found) if len(found) == len(main) else ()


def _implement_of(tokens: list[Token], name: Token) -> str:
    typed = name.value.typed
    words = typed.split()
    for word in words:
        clean = word.strip("-")
        if clean in ("db", "dbs", "dumbbell", "dumbbells"):
            return "dumbbell" if "row" in words or "single" in words or "snatch" in words or "arm" in words else "dumbbells"
        if clean in ("kb", "kbs", "kettlebell", "kettlebells"):
            return "kettlebell"
        if clean in ("bb", "barbell"):
            return "barbell"
    for token in tokens:
        if token.kind == "implement":
            word, number = token.value
            found = _IMPLEMENT_WORDS.get(word.replace("  ", " "), "")
            if number in ("two", "2", "pair of") and found in ("dumbbell", "kettlebell"):
                return found + "s"
            return found
        if token.kind in ("mass", "mass2") and token.value[2] == 2:
            return "dumbbells"
    return ""


def _implement(word: str, two: str) -> str:
    found = _IMPLEMENT_WORDS[" ".join(word.lower().split())]
    return found + "s" if two.lower() in ("two", "2") and found in ("dumbbell", "kettlebell") else found


def _count_to_reps(tokens: list[Token], name: Token) -> list[Token]:
    """A number right before a lift's name is its repetitions where nothing else says them: `3 back squats @ 78 %`."""
    said = any(token.kind in ("setsx", "sets", "list", "complex", "find", "loadx") for token in tokens)
    made: list[Token] = []
    for token in tokens:
        near = token.end <= name.start and name.start - token.end <= 2
        if not said and near and token.kind == "num" and token.value == int(token.value):
            made.append(Token("reps", int(token.value), token.start, token.end, token.text))
        elif not said and token.kind == "num" and token.start >= name.end and token.start - name.end <= 2 and token.value == int(token.value) and token.value <= 30:
            made.append(Token("reps", int(token.value), token.start, token.end, token.text))
        else:
            made.append(token)
    return made


def _first_up(name: str) -> str:
    return name[:1].upper() + name[1:]


def _own_case(name: str) -> str:
    """Return a name of a printed heading: in full, in its own letters where it is in full already."""
    full, entry = full_name(name, lift=True)
    if entry is None or full.replace("-", " ").lower() == " ".join(name.replace("-", " ").lower().split()):
        return " ".join(name.split())
    return full[:1].upper() + full[1:] if name[:1].isupper() else full


_FILLER = frozenset({
    "x", "@", "of", "at", "the", "a", "an", "sets", "set", "reps", "rep", "for", "with", "do", "and", "then", "each", "to", "in", "on", "as", "is", "are", "your", "please",
    "-", "(", ")", "per", "about", "around", "strength", "tonight's", "today's", ".", "%", "=", "'", '"', "!", "?", "all", "it", "start", "up",
})  # fmt: skip


def _left_words(tokens: list[Token]) -> str:
    """The words that nothing was read from, as they stand; signs and the small words of sets alone are not kept."""
    kept = [token for token in tokens if token.kind not in ("sep", "orword", "andword")]
    if not [token for token in kept if token.text.strip() not in _FILLER]:
        return ""
    return " ".join(token.text for token in tokens).strip(" ,;:-+/|")


def _shared_load(tokens: list[Token], own: str, unit: str) -> Any:
    """A load on a line of its own is that of all movements: `50/35 bar`."""
    first = next((token for token in tokens if token.kind in ("pair", "mass")), None)
    if first is None or not (re.search(r"\b(?:bar|barbell|all|weight)\b", own) or len(tokens) == 1):
        return None
    amounts = list(first.value) if first.kind == "pair" else first.value[0]
    used = unit if first.kind == "pair" else unit_of(first.value[1])
    masses = sorted((Mass(amount, used) for amount in amounts), key=lambda each: -each.amount)  # type: ignore[arg-type]
    if not all(0 < mass.kg <= MOST_KG for mass in masses):
        return None
    return masses[0] if len(masses) == 1 or masses[0] == masses[1] else Pair(masses[0], masses[1])


def _engine(move: Movement) -> bool:
    entry = known(move.name)
    return entry is not None and move.name in ("run", "row", "ski", "bike", "swim", "walk", "ruck", "jump rope", "single under")


_STEPS = re.compile(r"(?:start(?:ing)?|begin)(?: at| with| @)? (?P<a>\d+(?:\.\d+)?) ?(?P<u>kg|lb)?,?(?: and| then|,)? (?:add(?:ing)?|\+|up|go up)(?: by)? ?(?P<b>\d+(?:\.\d+)?) ?(?:kg|lb)? (?:a|each|every|per) set")


def _stepped(groups: list[Any], step: re.Match[str], unit: str) -> list[Any]:
    """Reckon the loads of sets that begin at one and rise by the same each set, as the coach says."""
    load, rise = Decimal(step["a"]), Decimal(step["b"])
    found: list[Any] = []
    for group in groups:
        if not isinstance(group, SetGroup):
            found.append(group)
            continue
        for _ in range(group.sets):
            found.append(replace(group, sets=1, load=Mass(load, step["u"] or unit)))  # type: ignore[arg-type]
            load += rise
    return found


def _kilos(move: Movement, pair: Pair) -> bool:
    """Whether a pair is usual in kilograms and not in pounds: common practice."""
    both = (pair.larger.amount, pair.smaller.amount)
    usual = {(60, 43), (43, 30), (61, 43), (24, 16), (9, 6), (32, 24), (102, 70), (84, 61), (70, 47), (20, 15)}
    return both in {(Decimal(a), Decimal(b)) for a, b in usual} or any(each != int(each) for each in both)


def _pounds(move: Movement, larger: Decimal, smaller: Decimal | None) -> bool:
    """Whether a load is usual in pounds and not in kilograms: common practice."""
    pair = (int(larger), int(smaller)) if smaller is not None else (int(larger), 0)
    if "dumbbell" in move.name:
        return pair in {(50, 35), (35, 20), (35, 25), (70, 50), (60, 40), (40, 25), (45, 30)}
    if "kettlebell" in move.name or "goblet" in move.name or "turkish" in move.name:
        return pair in {(53, 35), (70, 53), (35, 26), (35, 18), (44, 26)}
    if move.name == "wall ball":
        return pair in {(20, 14), (14, 10), (30, 20)}
    return pair in {(95, 65), (115, 75), (115, 80), (135, 95), (155, 105), (185, 125), (185, 135), (205, 145), (225, 155), (275, 185), (315, 205), (75, 55), (65, 45), (95, 0), (135, 0)}


def _named(move: Movement, piece: PieceDraft) -> Movement:
    """A distance whose name the table does not have is of what was done for a distance before: "another 1000 metres"."""
    if move.measure != "m" or known(move.name) is not None or not re.search(r"\b(?:another|more|again|together|back|last)\b", move.name):
        return move
    before = next((each.name for each in reversed(piece.moves) if each.measure == "m"), "")
    return replace(move, name=before, standard=", ".join(part for part in (move.name, move.standard) if part)) if before else move


def _usual(move: Movement, piece: PieceDraft) -> Movement:
    """Fill the measure that cannot be another: `400 run` is metres."""
    name = move.name.split()[-1] if move.name else ""
    if move.measure == "reps" and move.count is not None and not move.count.listed and name in ("run", "row", "ski", "bike", "swim", "walk", "sprint") and move.count.reps[0] >= 100:
        return replace(move, measure="m")
    if move.options:
        return replace(move, options=tuple(_usual(each, piece) for each in move.options))
    return move


def _place_for(option: Movement, moves: list[Movement]) -> int:
    """Which movement an option stands for: the one with the most words in common, else the last one of its kind."""
    words = set(option.name.replace("-", " ").split())
    scores = [len(words & set(move.name.replace("-", " ").split())) for move in moves]
    if max(scores) > 0:
        return scores.index(max(scores))
    pulls = {"pull", "row", "chin", "bar", "muscle"}
    if words & pulls:
        for place in range(len(moves) - 1, -1, -1):
            if set(moves[place].name.replace("-", " ").split()) & pulls:
                return place
    return len(moves) - 1


def _split_outside(text: str, sign: str) -> list[str]:
    """Part a text at a sign outside brackets."""
    parts, depth, now = [], 0, ""
    for letter in text:
        depth += (letter == "(") - (letter == ")")
        if letter == sign and depth <= 0:
            parts.append(now)
            now = ""
        else:
            now += letter
    return [part for part in [*parts, now] if part.strip()]


_REMARK_KINDS = frozenset({"word", "sep", "andword", "orword", "name", "climb", "same", "implement", "emptybar", "men", "women"})


def _cut_remarks(text: str, chunk: str) -> tuple[str, list[str]]:
    """Take remarks in brackets from the text of sets: those that hold words alone; a load in brackets is to be read."""
    found = [each for each in re.finditer(r"\(([^()]*)\)", text) if each[1].strip()]
    typed = [each[1].strip() for each in re.finditer(r"\(([^()]*)\)", chunk) if each[1].strip()]
    if not found or len(found) != len(typed):
        return text, []
    remarks = []
    for each, words in reversed(list(zip(found, typed, strict=True))):
        tokens = tokens_of(each[1])
        if tokens and all(token.kind in _REMARK_KINDS for token in tokens) and tokens[0].kind != "orword" and not each[1].startswith(("of ", "all ")):
            text = text[: each.start()] + " " * (each.end() - each.start()) + text[each.end() :]
            remarks.insert(0, words)
    return text.rstrip(), remarks


def _for_both(tokens: list[Token]) -> list[Token]:
    """`100 kg for men or 70 kg for women` is one pair of loads."""
    found = list(tokens)
    place = 0
    while place < len(found):
        first = found[place]
        if first.kind == "mass" and len(first.value[0]) == 1:
            for other in range(place + 1, min(place + 7, len(found))):
                second = found[other]
                if second.kind == "mass":
                    between = found[place + 1 : other]
                    around = [*found[max(0, place - 1) : place], *between, *found[other + 1 : other + 3]]
                    sides = {token.kind for token in around} & {"men", "women"}
                    only = all(token.kind in ("men", "women", "sep", "orword", "andword") or token.text in ("the", "for") for token in between)
                    if len(second.value[0]) == 1 and only and "women" in sides and unit_of(first.value[1]) == unit_of(second.value[1]):
                        amounts = sorted((first.value[0][0], second.value[0][0]), reverse=True)
                        made = replace(first, value=(amounts, first.value[1], first.value[2], "/"), end=second.end)
                        rest = found[other + 1 :]
                        while rest and (rest[0].kind in ("men", "women") or (rest[0].text == ")" and not any(token.text == "(" for token in rest))):
                            rest.pop(0)
                        head = found[:place]
                        while head and (head[-1].kind in ("men", "women") or head[-1].text == "("):
                            head.pop()
                        found = [*head, made, *rest]
                        place = len(head)
                    break
                if second.kind not in ("men", "women", "sep", "orword", "andword", "word"):
                    break
        place += 1
    return found


def _of_names(tokens: list[Token], *, lift_open: bool) -> list[Token]:
    """A lift's name right behind a percentage is what that is of: `@ 65 % clean`, `95 % of snatch`."""
    found: list[Token] = []
    named = lift_open
    place = 0
    while place < len(tokens):
        token = tokens[place]
        ahead = place + 1
        while ahead < len(tokens) and tokens[ahead].text in ("(", "of", "your", "the", "best"):
            ahead += 1
        following = tokens[ahead] if ahead < len(tokens) else None
        joined = ahead > place + 1
        found.append(token)
        if token.kind == "pct" and following is not None and following.kind == "name" and (named or joined) and following.value.known is not None and following.value.known.implement in ("barbell", "?") and (joined or ahead + 1 == len(tokens) or tokens[ahead + 1].kind == "sep"):
            found.append(Token("of", ("max",), following.start, following.start, ""))
            place = ahead
            continue
        named = named or token.kind == "name"
        place += 1
    return found


def _remarks(text: str) -> tuple[str, list[str]]:
    """Take remarks in brackets out of a text: those of words; a load in brackets stays to be read."""
    notes: list[str] = []

    def take(found: re.Match[str]) -> str:
        notes.append(found[1].strip())
        return " "

    return re.sub(r"\(([^()]*)\)", take, text), notes


def _with_note(group: Any, text: str) -> Any:
    notes = _remarks(text)[1]
    return replace(group, note="; ".join(notes)) if notes else group


_UNUSED = (Decimal, FindMax, Percent, SetsRead, any_weekday)


_KIT = {
    "rower": ("row",), "rowing machine": ("row",), "erg": ("row", "ski", "bike"), "bike": ("bike",), "barbell": ("barbell",), "bar": ("barbell", "pull", "bar"),
    "rig": ("pull-up", "toes to bar", "muscle-up", "chest to bar pull-up"), "pull-up bar": ("pull-up", "toes to bar", "chest to bar pull-up"), "pull up bar": ("pull-up", "toes to bar"),
    "rope": ("double under", "rope climb"), "jump rope": ("double under",), "du": ("double under",), "dus": ("double under",), "dubs": ("double under",), "double unders": ("double under",),
    "box": ("box",), "ball": ("wall ball", "ball"), "wall ball": ("wall ball",), "running": ("run",), "run": ("run",), "kettlebell": ("kettlebell",), "kb": ("kettlebell",),
    "dumbbells": ("dumbbell",), "dumbbell": ("dumbbell",), "db": ("dumbbell",), "machine": ("row", "bike", "ski", "machine"), "rings": ("ring",),
}  # fmt: skip


_FOR = re.compile(r"^(?P<y>.+?) (?:for|=|->|>|instead of) (?P<x>.+)$")


def _wanted_place(words: str, moves: list[Movement]) -> int | None:
    """Which movement is meant by what is not there: the movement itself, or what it needs."""
    words = words.strip()
    name, entry = full_name(words)
    for place, move in enumerate(moves):
        if move.name == name:
            return place
    for wanted in _KIT.get(words, _KIT.get(words.rstrip("s"), ())):
        for place, move in enumerate(moves):
            known_move = known(move.name)
            if wanted in move.name or (known_move is not None and known_move.implement == wanted) :
                return place
    if entry is not None:
        last = entry.name.split()[-1]
        return next((place for place, move in enumerate(moves) if move.name.split()[-1:] == [last]), None)
    return None


_HELD_WORDS = {"dumbbell": "dumbbell", "dumbbells": "dumbbell", "db": "dumbbell", "dbs": "dumbbell", "kettlebell": "kettlebell", "kettlebells": "kettlebell", "kb": "kettlebell",
               "kbs": "kettlebell", "bar": "barbell", "barbell": "barbell", "backpack": "backpack", "sandbag": "sandbag", "bag": "bag"}  # fmt: skip


def _like(option: Movement, main: Movement) -> Movement:
    """Give an option that only says another implement or manner the name of its movement: "two dumbbells", "on knees"."""
    words = [word for word in option.name.lower().replace("-", " ").split() if word not in ("the", "a", "or", "same", "just", "with", "two", "one", "2", "1")]
    head = main.name.split(" ", 1)[1] if main.name.split(" ")[0] in ("dumbbell", "kettlebell", "barbell") and " " in main.name else main.name
    if words and all(word in _HELD_WORDS for word in words):
        held = _HELD_WORDS[words[0]]
        return replace(option, name=head if held == "barbell" else f"{held} {head}")
    if head == "push-up" and words and known(option.name) is None:
        if set(words) & {"knee", "knees"}:
            return replace(option, name="knee push-up")
        if set(words) & {"bench", "box", "sofa", "chair", "table", "wall", "elevated", "counter", "bar"}:
            return replace(option, name="incline push-up")
    if head == "push-up" and option.name == "bench press" and option.load is None and option.count is None:
        return replace(option, name="incline push-up")
    if words and known(option.name) is None and words[0] in ("single", "one", "jumping", "strict", "banded", "kipping", "slow", "assisted", "seated", "jump"):
        first = {"jumping": "jumping", "one": "single leg"}.get(words[0], words[0])
        if first == "single" and words[1:2] and words[1] in ("leg", "arm"):
            first = f"single {words[1]}"
        name, entry = full_name(f"{first} {head}")
        if first == "jumping" and entry is None:
            name = f"jumping {head}"
        return replace(option, name=name)
    return option
