"""Reads the sentences of a line, and what each of them is about."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.both_groups import amounts_of_both
from tracker.prescription.sheet.drafts import LiftDraft, TextDraft
from tracker.prescription.sheet.letters import harmless
from tracker.prescription.sheet.lift_marks import IN_TURN, OR_BRACKETS
from tracker.prescription.sheet.lift_parts import split_at_clock, split_parts
from tracker.prescription.sheet.lift_slips import slips_as_names
from tracker.prescription.sheet.lift_tokens import as_sets, cut_condition, cut_remarks
from tracker.prescription.sheet.line_marks import AFTER_ROUND, REMARK, ROUND_AFTER, WARM_UP, inline_stations
from tracker.prescription.sheet.model import SetGroup
from tracker.prescription.sheet.piece_draft import PieceDraft
from tracker.prescription.sheet.piece_heads import CLOCKS
from tracker.prescription.sheet.plain_words import plain
from tracker.prescription.sheet.sentences import SENTENCE_END, joined_sentences, then_parts
from tracker.prescription.sheet.sets_found import SETS_KINDS
from tracker.prescription.sheet.tables import Line
from tracker.prescription.sheet.talk import LACKS, NO_KIT, NO_MAX, PENALTY, QUESTION, is_prose
from tracker.prescription.sheet.tokens import tokens_of
from tracker.prescription.sheet.walk_keys import Keys
from tracker.prescription.sheet.walk_lifts import DONE_BEFORE

_LENGTH = re.compile(
    r"\(?(?:about |ca\.? |approx\.? |~ ?)?\d{1,2}(?:[ -]+\d{1,2})? ?(?:min(?:ute)?s?\.?|')\)?", re.IGNORECASE
)


_USUAL_SET = re.compile(
    r"^\W*(?:the |our |those |these )?(?:usual|same|classic|old|known) (?:\d|two|three|four)\b(?! ?x)"
)


_IN_TURN_WORD = re.compile(r"\b(?:en superserie|im supersatz|en superset|as (?:a )?superset|superset(?:ted)?[ .!]*$)")


# "Anyone with a sore back: chair squats instead of no. 1": words for these people, no movement for all
_FOR_THE_HURT = re.compile(
    r"\W*(?:any(?:one|body)|those|people|whoever|everyone|if you have|if your|for (?:the|those|anyone))\b[^:,]{0,40}\b(?:sore|bad|hurt\w*|injur\w+|pain\w*|ach\w+|pregnant|stiff|tweaked|cranky)\b"
)
# Warm-up sets in passing: "3 warm-up sets then 4x4 at 82 %"
_WARM_SETS = re.compile(
    r"\b(?:a few|a couple of|some|[1-6]|two|three|four) (?:easy |light )?warm[ -]?up sets?,? (?:and )?then (?=\d)",
    re.IGNORECASE,
)
# "No test for you? 5x5 @ 70 % instead": what some do in place of the test, as the coach says it
_NOT_TESTING = re.compile(
    r"\W*(?:(?:no|not) (?:a )?test(?:ing)?\b|if (?:you|u)(?:'re| are)? (?:don'?t|not|do not) (?:want to )?test\w*|don'?t (?:want to )?test\b|anyone (?:not|who (?:doesn'?t|does not)) test\w*)"
)
# "10 min easy bike to cool down"
_TO_WARM = re.compile(
    r"\b(?:to|as a|for a) (?:(?P<w>warm[ -]?up)|cool[ -]?down|loosen up after|flush(?: out)?)\W*$", re.IGNORECASE
)
# What a speaker says before the warm-up: "okay so for thursday we warm up on the bike"
_SPOKEN = re.compile(
    r"^\W*(?:(?:ok(?:ay)?|so|right|hi|hey|hello|guys|all|team|everyone|everybody|well|alright|for|on|tomorrow|today|tonight|(?:mon|tues|wednes|thurs|fri|satur|sun)day)\b[ ,:!.-]*)*",
    re.IGNORECASE,
)


class Sentences(Keys):
    """The sentences of a line."""

    def _sentences(self, line: Line, text: str, label: str, *, bullet: bool) -> None:
        if self.section in ("warm-up", "cool-down") and isinstance(self.open, TextDraft):
            self.open.lines.append(line.raw.strip())
            self._role(line, self.open.kind, self.open)
            return
        text = _WARM_SETS.sub("", REMARK.sub("", text).rstrip())
        if isinstance(self.open, PieceDraft) and (early := DONE_BEFORE.match(text)) is not None:
            kinds = {token.kind for token in tokens_of(plain(text[early.end() :]))}
            if "name" in kinds and kinds & {"setsx", "sets", "find", "rm"}:
                self.open, text = None, text[early.end() :].strip()
        if (window := self.windows.get(line.number)) is not None:
            if self.open is None or isinstance(self.open, TextDraft):
                self.team = self.hinted or self.team
            self.open, self.gap = None, True
            if window.rests:
                self._note(line, line.raw)
                return
            self.hinted = {**self.team, **self.hinted}
            text = window.told
        if not text:
            self._role(line, "remark")
            return
        if WARM_UP.match(text) and (work := _work_behind(text)) > 0:
            self.open = None
            warm = self._new_text("warm-up", line, "")
            warm.lines, self.open = [text[:work].strip(" /|;,.")], None
            text = text[work:].strip(" /|;,")
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
        piece = self.open_piece
        if (
            piece is not None
            and piece.moves
            and piece.fields.get("kind") in timed
            and re.match(r"(?:and )?then\b", text, re.IGNORECASE)
        ):
            self.open = None  # what is done then is no part of what fills a time
        text = LACKS.sub(lambda found: f"{'. ' if found.start() else ''}No {found['kit']}: ", NO_KIT.sub(r"\1:", text))
        if (piece is not None and piece.strength_clock) or any(
            token.kind in ("emom", "every", "onminute") for token in tokens_of(plain(text))
        ):
            text = inline_stations(text)
        parts = (
            [part for part in SENTENCE_END.split(text) if part.strip()]
            if len(text) > 40 or text.count(".") > 1 or re.search(r"[.!?]\s+[A-Z]|[a-z]{5,}\.\s+\d", text)
            else [text]
        )
        parts = [each for part in joined_sentences(parts) for each in _level_apart(part)]
        read_any = spoken = False
        unread: list[str] = []
        for place, part in enumerate(parts):
            self.prose = is_prose(part)
            self.later = " ".join(parts[place + 1 :])
            if read_any and WARM_UP.match(part):
                unread.append(part.strip())
                continue
            warm: TextDraft | None = None
            done = 0
            for chunk in then_parts(part):
                begin = part.find(chunk.strip(), done)
                between = part[done:begin].strip(" ,.;") if begin > 0 else ""  # "then" stays with what comes then
                done = begin + len(chunk.strip()) if begin >= 0 else done
                warm = self._spoken_warm_up(line, chunk, warm, between)
                spoken = spoken or warm is not None
                if warm is not None or self._chunk(line, chunk, label, bullet=bullet):
                    read_any = True
                elif chunk.strip():
                    unread.append(chunk.strip())
                label = ""
        if not read_any:
            self._note(line, line.raw)
        elif unread and spoken and not isinstance(self.open, LiftDraft | PieceDraft):
            self._new_text("note", line, "").lines = [" ".join(unread)]
            self.open = None
        elif unread:
            self._keep_words(line, " ".join(unread))

    def _spoken_warm_up(self, line: Line, chunk: str, warm: TextDraft | None, between: str = "") -> TextDraft | None:
        """`we warm up on the bike, then some lunges and then front squats ...`: the part up to the first sets is the warm-up."""
        if warm is None:
            if WARM_UP.match(_SPOKEN.sub("", chunk)) is None or (isinstance(self.open, LiftDraft) and not self.gap):
                return None
            self.open = None
            warm = self._new_text("warm-up", line, chunk.strip(" ,.;"))
            warm.lines, self.open = [chunk.strip(" ,.;")], None
            return warm
        if _work_of(chunk):
            return None
        warm.lines.append(f"{between} {chunk}".strip(" ,.;"))
        return warm

    def _warm_up(self, line: Line, text: str) -> bool:
        """Whether a line is a warm-up without a colon, in a sentence of its own."""
        found = WARM_UP.match(text)
        if (
            (last := _TO_WARM.search(text))
            and not (isinstance(self.open, LiftDraft) and not self.gap)
            and len(text) < 60
        ):
            kind = "warm-up" if last["w"] else "cool-down"
            self.open = None
            self._new_text(kind, line, harmless(line.raw).strip())
            self.open = None
            return True
        if found is None or (isinstance(self.open, LiftDraft) and not self.gap):
            return False
        rest = text[found.end() :].strip(" -:,.")
        if not rest or any(_work_of(part) for part in then_parts(text)[1:]):
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
        if (
            (found := IN_TURN.match(chunk.strip()))
            and isinstance(self.open, LiftDraft)
            and self.open.groups
            and not self.gap
        ):
            return self._in_turn(line, "", chunk.strip()[found.end() :], label, bullet=bullet)
        if (found := IN_TURN.search(chunk)) and found.start() > 0:
            return self._in_turn(line, chunk[: found.start()], chunk[found.end() :], label, bullet=bullet)
        if self._all_of(line, text) or self._between_sets(line, text) or self._sets_of_block(line, text):
            return True
        if QUESTION.search(text) and not text.strip().startswith("no "):
            tokens = tokens_of(text)
            if not {token.kind for token in tokens} & (SETS_KINDS | CLOCKS):
                return False
        if self._put_right(line, text) or self._said_of_all(line, text):
            return True
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
        if _NOT_TESTING.match(text):
            return False
        if _FOR_THE_HURT.match(text) and not {token.kind for token in tokens_of(text)} & {"setsx", "pct"}:
            return False
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
        tokens = slips_as_names(self._sets_as_rounds(line, self._most_of_it(amounts_of_both(tokens))))
        parts = [each for part in split_parts(tokens) for each in split_at_clock(part)]
        in_turn = _IN_TURN_WORD.search(text) is not None
        for place, part in enumerate(parts):
            between = text[parts[place - 1][-1].end : part[0].start].strip() if place else ""
            if place and (self.join_parts or in_turn or between == "/"):
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
        done = bool(first) and self._chunk(line, first, label, bullet=bullet)
        above = self.open
        self.join_next = isinstance(above, LiftDraft)
        tokens = tokens_of(plain(second))
        kinds = {token.kind for token in tokens}
        number = next((token for token in tokens if token.kind in ("num", "reps", "range")), None)
        names = [token for token in tokens if token.kind == "name"]
        if (
            isinstance(above, LiftDraft)
            and above.groups
            and names
            and number is not None
            and not kinds & (SETS_KINDS | CLOCKS | {"dist", "cal", "time"})
        ):
            told = re.search(r"\b(\d{1,2}) ?x ?\d", plain(line.text[: line.text.lower().find(second[:12].lower())]))
            of_last = above.groups[-1].sets if told and isinstance(above.groups[-1], SetGroup) else 0
            made = as_sets(number, of_last if told and int(told[1]) == of_last else above.number_of_sets)
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
                below.groups = [replace(group, sets=above.number_of_sets or 1)]
        return done


def _work_behind(text: str) -> int:
    """Where the work begins behind a warm-up that stands on one line with it, parted by strokes: `wu row 5 min / BS 4x4 @ 80 %`."""
    for found in re.finditer(r"\s+[/|]+\s+|;\s+", text):
        tokens = tokens_of(plain(re.split(r"\s+[/|]+\s+|;\s+", text[found.end() :], maxsplit=1)[0]))
        kinds = {token.kind for token in tokens}
        if kinds & (CLOCKS - {"every"}) or (
            "name" in kinds and kinds & {"setsx", "sets"} and kinds & {"pct", "mass", "rpe", "atx"}
        ):
            return found.end()
    return 0


# "AMRAP 9: 9 burpees, 9 swings, 9 T2B (home: DB swing, v-up)": a level for all that stands before it
_LEVEL_IN_BRACKETS = re.compile(
    r"^(?P<main>.*\w[^(]*?)\s*\((?P<told>(?:at )?(?:home|scaled?|scaling|sc|beginners?|beg)\b\s*[:=]\s*[^()]*[,/;][^()]*)\)\s*(?P<more>\W*)$",
    re.IGNORECASE,
)


# "... 9 muscle-ups  L2: ring rows  L1: ...": a level behind what is asked, on the same line
_LEVEL_INSIDE = re.compile(
    r"[\s,;/|-]+(?=(?:L[1-3]|Level [1-3]|Scaled|Beginners?|At home|Home)(?:/(?:home|scaled))?\s*:\s)", re.IGNORECASE
)


def _level_apart(part: str) -> list[str]:
    """Part what a level does from the movements that it stands behind; behind a single movement it is that one's."""
    if (level := _LEVEL_INSIDE.search(part)) and any(
        token.kind == "name" for token in tokens_of(plain(part[: level.start()]))
    ):
        return [each for each in _LEVEL_INSIDE.split(part) if each.strip(" ,;-/|")]
    found = _LEVEL_IN_BRACKETS.match(part)
    if found is None or sum(token.kind == "name" for token in tokens_of(plain(found["main"]))) == 1:
        return [part]
    return [found["main"], found["told"]]


def _work_of(chunk: str) -> bool:
    """Whether a part of a sentence is of the work itself: sets with a load, what percentages are of, a clock."""
    kinds = {token.kind for token in tokens_of(plain(chunk))}
    return bool(kinds & {"pct", "atx", "find"} or kinds & (CLOCKS - {"every"}) or ("of" in kinds and "name" in kinds))


def _loaded_sets(text: str) -> bool:
    """Whether a line has three sets or more with a load each: `warm-up sets: 5 @ 40, 5 @ 50, 3 @ 60`."""
    tokens = tokens_of(plain(text))
    loads = sum(token.kind in ("pct", "atx", "mass") for token in tokens)
    return loads >= 3 and not any(token.kind == "name" for token in tokens)
