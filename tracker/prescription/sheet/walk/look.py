"""Looks at the lines that follow, before a line is judged."""

from __future__ import annotations

import re
from decimal import Decimal

from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.days.headings import day_heading
from tracker.prescription.sheet.days.sections import section_heading
from tracker.prescription.sheet.lifts.marks import SET_NUMBER, STRICT
from tracker.prescription.sheet.lifts.sets_found import SETS_KINDS
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.lines.marks import BARE_LETTER, BULLET, KEYS, LABEL, NUMBER_AND_LETTER, PART
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import CLOCKS
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.walk.drafts import TextDraft
from tracker.prescription.sheet.walk.state import State
from tracker.prescription.sheet.words.plain_words import plain


class Look(State):
    """What the next lines look like."""

    def _text_goes_on(self, text: str) -> bool:
        """Whether a line is still a part of the warm-up that stands above: not a heading, nor sets with a load."""
        if KEYS.match(text) or STRICT.match(text) or section_heading(text):
            return False
        if self._clock_of_warm_up(text):
            return True
        if LABEL.match(text):
            return False
        if self._first_of_warm_up(text):
            return True
        if re.match(
            r"main (?:bit|part|set|work|piece)\b|(?:[2-9]|1\d) rounds:\s*$|to finish\b|finisher\b", text, re.IGNORECASE
        ):
            return False
        if re.match(r"(?:clean |snatch |barbell )?complex\b", text, re.IGNORECASE):
            return False
        heading = day_heading(text, Asker(), 0)
        if heading is not None and heading.alone:
            return False
        tokens = tokens_of(plain(text))
        kinds = {token.kind for token in tokens}
        heavy = any(
            token.kind == "name" and token.value.known is not None and token.value.known.implement == "barbell"
            for token in tokens
        )
        if (
            self.above is not None
            and kinds & {"setsx", "sets"}
            and kinds & {"pct", "mass", "rpe", "atx"}
            and re.match(r"\W*(?:work|main|top|then)", text, re.IGNORECASE)
        ):
            return False  # the sets of the lift above the warm-up
        if (heavy and self._lift_begins(tokens, kinds)) or _works(tokens, kinds):
            return False
        if kinds & {"setsx", "sets"} and kinds & {"mass", "rpe", "pct"} and kinds & {"rest", "tempo"}:
            return False  # sets with a load and a rest are work
        return not (
            (
                heavy
                and kinds & {"setsx", "list"}
                and kinds & {"pct", "mass", "rpe", "setsx"}
                and kinds & {"pct", "mass", "rpe"}
            )
            or kinds & (CLOCKS - {"every"})
        )

    def _clock_of_warm_up(self, text: str) -> bool:
        """Whether a clock directly below a bare heading is the warm-up's, or a numbered line below such a clock is.

        A heading alone may also stand for a warm-up that each knows, so that there must be work below.
        """
        lines = self.open.lines if isinstance(self.open, TextDraft) and self.open.kind == "warm-up" else None
        if lines is None or self.gap:
            return False
        if lines:
            on_a_clock = tokens_of(plain(lines[0]))
            return re.match(r"\W*\d\W", text) is not None and bool({each.kind for each in on_a_clock} & CLOCKS)
        kinds = {token.kind for token in tokens_of(plain(text))}
        return bool(kinds & CLOCKS) and not kinds & {"pct", "mass", "atx", "fortime", "cap"} and self._work_below()

    def _work_below(self) -> bool:
        """Whether a later block has sets with a load, a clock or a score."""
        apart = False
        for other in self.lines[self.at + 1 :]:
            if other.blank:
                apart = True
            elif apart:
                kinds = {token.kind for token in tokens_of(plain(other.text))}
                if kinds & CLOCKS or kinds & {"setsx", "sets", "pct", "find", "rpe"}:
                    return True
        return False

    def _first_of_warm_up(self, text: str) -> bool:
        """Whether rounds or a clock stand directly below the heading of a warm-up, in a block of their own with the work behind it."""
        opened = self.open
        head = next((other for other in reversed(self.lines[: self.at]) if not other.blank), None)
        if self.gap or not isinstance(opened, TextDraft) or head is None or head.number != opened.line:
            return False
        section = section_heading(head.text.strip())
        if opened.kind != "warm-up" or section is None or section[2]:
            return False
        if re.match(r"(?:main|finish(?:er)?|wod|met-?con)\b", text, re.IGNORECASE):
            return False
        below = self.lines[self.at :]
        end = next((place for place, other in enumerate(below) if other.blank), len(below))
        if any(not other.blank for other in below[end:]) and not any(
            section_heading(other.text.strip()) or LABEL.match(other.text) for other in below[:end]
        ):
            kinds = [{token.kind for token in tokens_of(plain(other.text))} for other in below[:end]]
            loads = {"pct", "mass", "rpe", "cap", "fortime", "pair", "atx", "rm"}
            return not any(kind & loads for kind in kinds) and any(kind & (CLOCKS | {"rounds"}) for kind in kinds[:1])
        return False

    def _lift_begins(self, tokens: list[Token], kinds: set[str]) -> bool:
        """Whether a heavy lift's line ends a warm-up: it says what its percentages are of, its sets have a load, or those below."""
        names = [token for token in tokens if token.kind == "name"]
        if kinds & {"of", "rm"} and not kinds & {"num", "reps", "rounds"}:
            return True  # "Bench press, % of 3RM"
        if "rounds" in kinds or kinds & {"emptybar"}:
            return False
        loads = [token for token in tokens if token.kind in ("pct", "atx")]
        if (
            (kinds & {"setsx", "sets"} and "atx" in kinds)
            or len(loads) > 1
            or any(token.kind == "pct" and len(token.value[0]) > 2 for token in loads)
        ):
            return _most(loads) >= LEAST_WORK
        if kinds & {"setsx", "sets", "list", "num", "reps", "dist", "time", "mass"} or len(names) > 1:
            return False
        first = True
        for other in self.lines[self.at + 1 : self.at + 8]:
            if other.blank and first:
                continue
            below = tokens_of(plain(BULLET.sub("", other.text.strip(), count=1)))
            loaded = [token for token in below if token.kind in ("pct", "atx")]
            if other.blank or not below or any(token.kind == "name" for token in below):
                return False
            if first and below[0].kind not in (
                "setsx",
                "sets",
                "num",
                "reps",
                "setlabel",
                "pct",
                "of",
                "find",
                "plus",
                "range",
            ):
                return False
            if _most(loaded) >= LEAST_WORK or any(token.kind == "of" for token in below):
                return True
            first = False
        return False

    def _peel(self, line: Line, text: str) -> tuple[str, str]:
        """Take a label such as A1, B. or 2) from the start of a line."""
        if (part := PART.match(text)) and part.end() < len(text):
            return text[part.end() :].strip(), part["n"]
        if pair := NUMBER_AND_LETTER.match(text):
            return text[pair.end() :].strip(), f"{'ABCDEFGH'[int(pair['d']) - 1]}{'abcd'.index(pair['l'].lower()) + 1}"
        found = LABEL.match(text)
        if found and found["d"] is not None:
            if line.number not in self.numbered or (
                isinstance(self.open, PieceDraft) and self.open.strength_clock and not self.open.label.isdigit()
            ):
                return text, ""
            return text[found.end() :].strip(), found["d"]
        if found:
            letter = (found["a"] or found["b"] or found["f"] or "").upper()
            if not letter:
                if isinstance(self.open, PieceDraft) and self.open.strength_clock:
                    return text, ""
                return text[found.end() :].strip(), found["e"] or ""
            if found["a"] and found["a"].islower() and "." not in found[0] and ")" not in found[0]:
                return text, ""
            return text[found.end() :].strip(), letter + (found["n"] or found["m"] or found["g"] or "")
        if (found := BARE_LETTER.match(text)) and line.number in self.lettered:
            return text[found.end() :].strip(), found["a"]
        return text, ""

    def _reads(self, text: str) -> bool:
        tokens = tokens_of(plain(text))
        kinds = {token.kind for token in tokens}
        return ("name" in kinds and bool(kinds & (SETS_KINDS | CLOCKS | {"dist", "cal", "rounds"}))) or bool(
            section_heading(text)
        )

    def _minutes_follow(self, line: Line) -> bool:
        """Whether the next line says what is done in some of the minutes, at a percentage: `min 1-4  2 jerks @ 70 %`."""
        for other in self.lines[self.at + 1 : self.at + 2]:
            tokens = tokens_of(plain(BULLET.sub("", other.text.strip(), count=1)))
            if tokens and tokens[0].kind == "minutesmark" and len(tokens) > 1:
                return tokens[-1].kind in ("pct", "atx", "num")
        return False

    def _clock_sets_follow(self) -> bool:
        """Whether the next line is of sets alone, with a percentage: `1-3: 2 reps @ 65 %`, `Set 1: 5 @ 65 %`, `5 @ 70 %`."""
        for other in self.lines[self.at + 1 : self.at + 5]:
            if other.blank:
                continue
            text = BULLET.sub("", other.text.strip(), count=1)
            if numbered := SET_NUMBER.match(text):
                text = numbered["sets"]
            tokens = tokens_of(plain(text))
            kinds = {token.kind for token in tokens}
            return (
                bool(tokens)
                and tokens[0].kind in ("setlabel", "num", "reps", "setsx", "pct")
                and "name" not in kinds
                and bool(kinds & {"pct", "atx"})
            )
        return False

    def _one_row_of_sets(self) -> bool:
        """Whether just one line with a load stands below, which says neither its sets nor which of them it is."""
        rows: list[list[Token]] = []
        for other in self.lines[self.at + 1 : self.at + 6]:
            if other.blank:
                break
            tokens = tokens_of(plain(BULLET.sub("", other.text.strip(), count=1)))
            kinds = {token.kind for token in tokens}
            if "name" in kinds:
                break
            if kinds & {"pct", "atx", "setlabel"} or SET_NUMBER.match(other.text.strip()):
                rows.append(tokens)
        kinds = {token.kind for tokens in rows for token in tokens}
        return len(rows) == 1 and not kinds & {"setlabel", "setsx", "sets", "minutesmark", "plus"}

    def _sets_follow(self, line: Line) -> bool:
        """Whether one of the next lines has sets and no name of its own, or none but the name above."""
        mine = {token.value.name for token in tokens_of(plain(line.text)) if token.kind == "name"}
        if self.later:
            kinds = {token.kind for token in tokens_of(plain(self.later.split(". ")[0]))}
            if kinds & (SETS_KINDS - {"max", "plus"}):
                return True
            if not kinds & {"of", "tm"} or "name" in kinds:
                return False  # but what percentages are of may stand between a name and the lines of its sets
        seen = 0
        for other in self.lines[self.at + 1 : self.at + 8]:
            if other.blank:
                continue
            text = other.text.strip()
            section = section_heading(text)
            if section is not None and section[0] == "warm-up" and section[2]:
                continue  # "Warm-up: 10 @ bar" between a lift's name and its sets
            if KEYS.match(text) or section:
                return False
            text = BULLET.sub("", text, count=1)
            if numbered := SET_NUMBER.match(text):
                text = numbered["sets"]
            found = LABEL.match(text)
            heading = day_heading(text, Asker(), 0)
            if heading is not None and heading.week is None:
                return False
            if heading is not None:
                text = heading.rest
            tokens = tokens_of(plain(text))
            kinds = {token.kind for token in tokens}
            if found and found["d"] is None:
                return False
            named = any(token.kind == "name" for token in tokens)
            if kinds & {"emom", "every"} and kinds & {"pct", "atx", "atlist", "rpe"} and not named:
                return True
            if kinds & {"emom", "every"} and not named and self._loads_without_name(other):
                return True
            if kinds & (CLOCKS - {"fortime", "every"}) and not kinds & {"setlabel"}:
                return False
            numeric = kinds & (SETS_KINDS | {"complex", "num"}) or (kinds & {"reps", "range"})
            others = [
                token
                for place, token in enumerate(tokens)
                if token.kind == "name"
                and token.value.name not in mine
                and not (place and tokens[place - 1].kind in ("of", "rm"))  # that of which percentages are
            ]
            if numeric and not others:
                return True
            seen += 1
            if seen >= (3 if not self.prose else 1):
                return False
        return False

    def _loads_without_name(self, line: Line) -> bool:
        """Whether sets in per cent or by effort stand directly below a line, without a name of their own."""
        at = next((place for place, other in enumerate(self.lines) if other is line), len(self.lines))
        below = next((other.text for other in self.lines[at + 1 : at + 3] if not other.blank), "")
        kinds = {token.kind for token in tokens_of(plain(BULLET.sub("", below.strip(), count=1)))}
        return "name" not in kinds and bool(kinds & {"pct", "rpe", "rir"}) and not kinds & (CLOCKS | {"cal", "dist"})

    def _moves_follow(self, line: Line, *, counted: bool = False) -> bool:
        """Whether the next line that is not blank looks like a movement; `counted`: with an amount and no load of a lift's sets."""
        for other in self.lines[self.at + 1 : self.at + 4]:
            if other.blank:
                continue
            if other.number == line.number:
                return False
            text = BULLET.sub("", other.text.strip(), count=1)
            if found := LABEL.match(text):
                text = text[found.end() :]
            if re.match(r"\d{1,2} (?:laps?|lengths?|trips?|widths?)\b", text, re.IGNORECASE):
                return True
            tokens = tokens_of(plain(text))
            kinds = {token.kind for token in tokens}
            if kinds & {"setsx", "sets"} or (counted and kinds & {"pct", "rpe", "rir", "find", "atx"}):
                return False
            if any(token.kind == "name" for token in tokens):
                return not counted or bool(
                    kinds & {"num", "dist", "cal", "calpair", "time", "max", "maxcal", "amrap", "reps", "miles", "pair"}
                )
            return bool(tokens) and tokens[0].kind in (
                "num",
                "dist",
                "cal",
                "calpair",
                "time",
                "max",
                "buyin",
                "miles",
                "minutesmark",
                "cap",
                "odd",
            )
        return False

    def _intervals_follow(self, line: Line) -> bool:
        for other in self.lines[self.at + 1 : self.at + 3]:
            if not other.blank:
                return any(token.kind in ("onoff", "tabata", "every", "emom") for token in tokens_of(plain(other.text)))
        return False


LEAST_WORK = 55  # per cent: sets lighter than this may be those of a warm-up; design choice


def _most(loads: list[Token]) -> Decimal:
    """The highest of some percentages or loads without a sign; 0 where there are none."""
    return max(
        (Decimal(each) for token in loads for each in (token.value[0] if token.kind == "pct" else [token.value])),
        default=Decimal(0),
    )


LEAST_SETS = 3  # of a load: fewer may be those of a warm-up; design choice


def _works(tokens: list[Token], kinds: set[str]) -> bool:
    """Whether a line below a warm-up is work with any implement: a known lift, three sets or more, heavy or with an effort.

    `Weighted pull-up 3x5 @ 70 %`, `Bulgarian split squat 3x8, 2 x 16 kg`; but `2x10 goblet squats 12 kg` warms up.
    """
    names = [token.value for token in tokens if token.kind == "name"]
    sets = max((token.value[0] for token in tokens if token.kind == "setsx"), default=0)
    if len(names) != 1 or names[0].known is None or sets < LEAST_SETS:
        return False
    loads = [token for token in tokens if token.kind == "pct"]
    return bool(kinds & {"mass", "rpe", "rir"}) or bool(loads and _most(loads) >= LEAST_WORK)
