"""Reads the sentences of a line, and what each of them is about."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.lifts.lift_line import as_sets, cut_condition, cut_remarks
from tracker.prescription.sheet.lifts.marks import IN_TURN, LEVEL_WORDS, OR_BRACKETS
from tracker.prescription.sheet.lifts.sets_found import SETS_KINDS
from tracker.prescription.sheet.lifts.slips import slips_as_names
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.lines.marks import AFTER_ROUND, REMARK, ROUND_AFTER, WARM_UP, inline_stations
from tracker.prescription.sheet.lines.sentences import SENTENCE_END, joined_sentences, then_parts
from tracker.prescription.sheet.model import SetGroup
from tracker.prescription.sheet.pieces.both_groups import amounts_of_both
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import CLOCKS
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft, TextDraft
from tracker.prescription.sheet.walk.keys import Keys
from tracker.prescription.sheet.walk.lift_parts import split_at_clock, split_parts
from tracker.prescription.sheet.walk.lifts import DONE_BEFORE
from tracker.prescription.sheet.walk.work_in_words import (
    TIME_OF_ITS_OWN,
    level_apart,
    loaded_sets,
    work_behind,
    work_of,
)
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.plain_words import plain
from tracker.prescription.sheet.words.talk import FILLS, LACKS, NO_KIT, NO_MAX, NOTED, PENALTY, QUESTION, is_prose

_WORD = re.compile(r"[^\W_]+")
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
    r"\b(?:to|as a|for a) (?:(?P<w>warm[ -]?up)|cool[ -]?down|loosen up after|flush(?: out)?)\W*$|^\W*\d+ ?(?:km?|m|min)\b (?:easy )?(?:warm|cool)[ -]?down\W*$"
    r"|^\W*(?:then )?(?:cool(?:ing)?[ -]?down|auslaufen|abwärmen|(?:spin|flush|jog|walk|bike|row) (?:it )?out)\b(?![^:]*\d ?x ?\d)[^:%@]{0,40}$"
    r"|^\W*(?:then |and )?(?=[^@%]*\beasy\b)[^@%;:]*\b(?:to finish|after(?:wards)?|at the end)\W*$",
    re.IGNORECASE,
)
_SETS_TOLD = re.compile(r"\d ?x ?\d|%|\d ?(?:kg|lb|reps)\b")
# What a speaker says before the warm-up: "okay so for thursday we warm up on the bike"
_SPOKEN = re.compile(
    r"^\W*(?:(?:ok(?:ay)?|so|right|hi|hey|hello|guys|all|team|everyone|everybody|well|alright|(?:we |you )?(?:start|begin) with|the|usual|normal|for|on|tomorrow|today|tonight|(?:mon|tues|wednes|thurs|fri|satur|sun)day)\b[ ,:!.-]*)*",
    re.IGNORECASE,
)


# "(sonst Band / negativ 3x4)", "(otherwise goblet 3x10)": what is done in place of the sets before it
_ELSE_SETS = re.compile(
    rf"\(\s*(?:(?:{LEVEL_WORDS}|(?:at )?home) ?[:=?]|(?:or(?: else)?|otherwise|else|if not|sonst|ansonsten|sinon|si no|altrimenti|anders)\b)[^()]*\d ?x ?\d[^()]*\)"
)


# "3 attempts max above 85": how often it may be tried, no sets of as many as possible
_ATTEMPTS = re.compile(
    r"\b(?:max(?:imum)? |at most |only )?\d attempts?(?: (?:max(?:imum)?|at most|only))? (?:above|over|from|beyond) \d{2,3} ?(?:%|kg|lb)?"
)
_WITHOUT_MAX = re.compile(
    r"[a-z%\d)] (?:if|when) (?:you|u)(?:'ve| have)? (?:don'?t|do not|never|not) (?:know|have|got|tested|lifted|done)\b"
)
# "5x3 around 80, if the late group takes longer do 4x3"
_IF_SETS = re.compile(r"[,;]? (?:and |but )?(?:if|when) [^,;:@%]{8,70}?\d ?x ?\d+\b(?! ?[@%])")


def _lacks(line: Line, kept: list[str]) -> bool:
    """Whether a word of the line, as typed, is in nothing that was kept of it."""
    found = set(_WORD.findall(" ".join(kept)))
    return any(word not in found for word in _WORD.findall(harmless(line.raw)))


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
            if "name" in kinds and kinds & {"setsx", "sets", "find", "rm", "list"}:
                self.open, text = None, text[early.end() :].strip()
        if (window := self.windows.get((line.number, line.text))) is not None:
            if self.open is None or isinstance(self.open, TextDraft):
                self.team = self.hinted or self.team
            self.open, self.gap = None, True
            if window.rests:
                self._note(line, line.raw)
                return
            self.hinted = {key: value for key, value in {**self.team, **self.hinted}.items() if key != "cap_s"}
            text = window.told
        if not text:
            self._role(line, "remark")
            return
        if WARM_UP.match(text) and (work := work_behind(text)) > 0:
            self.open = None
            warm = self._new_text("warm-up", line, "")
            warm.lines, self.open = [text[:work].strip(" /|;,.")], None
            text = text[work:].strip(" /|;,")
        if (
            isinstance(self.open, LiftDraft)
            and not self.gap
            and re.match(r"warm[ -]?up\b(?! to )", text, re.IGNORECASE)
            and not loaded_sets(text)
        ):
            self._note(line, line.raw)
            return
        if not (isinstance(self.open, LiftDraft) and not self.gap and loaded_sets(text)) and self._warm_up(line, text):
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
            and not (piece.fields.get("kind") == "as many as possible" and FILLS.match(text))
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
        parts = [each for part in joined_sentences(parts) for each in level_apart(part)]
        read_any = work = False
        warmed: list[TextDraft] = []
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
                if "then" in between.lower() and TIME_OF_ITS_OWN.match(chunk) and self._in_time(timed):
                    self.open = None
                warm = self._spoken_warm_up(line, chunk, warm, between)
                if warm is not None:
                    read_any = True
                    warmed += [] if warm in warmed else [warm]
                elif self._chunk(line, chunk, label, bullet=bullet):
                    read_any = work = True
                elif chunk.strip():
                    unread.append(chunk.strip())
                label = ""
        if not read_any:
            self._note(line, line.raw)
        elif warmed and not work and _lacks(line, [*(each for draft in warmed for each in draft.lines), *unread]):
            warmed[0].lines = [harmless(line.raw).strip()]  # what was read of it is not as it was typed
        elif unread and warmed and not isinstance(self.open, LiftDraft | PieceDraft):
            self._new_text("note", line, "").lines = [" ".join(unread)]
            self.open = None
        elif unread:
            self._keep_words(line, " ".join(unread))

    def _in_time(self, timed: tuple[str, ...]) -> bool:
        """Whether a piece stands open that fills a time with movements: what has a time of its own is no part of it."""
        piece = self.open_piece
        return piece is not None and bool(piece.moves) and piece.fields.get("kind") in timed

    def _spoken_warm_up(self, line: Line, chunk: str, warm: TextDraft | None, between: str = "") -> TextDraft | None:
        """`we warm up on the bike, then some lunges and then front squats ...`: the part up to the first sets is the warm-up."""
        if warm is None:
            if WARM_UP.match(_SPOKEN.sub("", chunk)) is None or (isinstance(self.open, LiftDraft) and not self.gap):
                return None
            self.open = None
            warm = self._new_text("warm-up", line, chunk.strip(" ,.;"))
            warm.lines, self.open = [chunk.strip(" ,.;")], None
            return warm
        if work_of(chunk):
            return None
        warm.lines.append(f"{between} {chunk}".strip(" ,.;"))
        return warm

    def _warm_up(self, line: Line, text: str) -> bool:
        """Whether a line is a warm-up without a colon, in a sentence of its own."""
        found = WARM_UP.match(text)
        if (
            (last := _TO_WARM.search(text))
            and not (isinstance(self.open, LiftDraft) and not self.gap and (last["w"] or _SETS_TOLD.search(text)))
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
        if not rest or any(work_of(part) for part in then_parts(text)[1:]):
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
        if (
            self._done_already(line, text)
            or self._all_of(line, text)
            or self._between_sets(line, text)
            or self._sets_of_block(line, text)
        ):
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
        if isinstance(self.open, PieceDraft) and NOTED.match(text):
            return False
        if PENALTY.search(text) or re.match(
            r"\W*(?:example|e\.g\.|for instance|for example|beispiel|z\.b\.|ejemplo|exemple)\b", text
        ):
            return False
        if (
            isinstance(self.open, LiftDraft)
            and self.open.groups
            and _WITHOUT_MAX.search(text)
            and not {token.kind for token in tokens_of(text)} & {"setsx", "sets", "list"}
        ):
            self._note(line, line.raw)  # "use 60 % of your bench if you don't know your press": for some
            return True
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
        text = self._in_place(text)
        if self._about_item(line, text) or self._substitute(line, text) or self._hints(line, text):
            return True
        if self._for_some(line, text):
            return True
        if self._corrects(line, text):
            return True
        if _NOT_TESTING.match(text):
            return False
        if _FOR_THE_HURT.match(text) and not {token.kind for token in tokens_of(text)} & {"setsx", "pct"}:
            return False
        if isinstance(self.open, LiftDraft) and not any(
            token.kind in CLOCKS or token.kind == "list" for token in tokens_of(text)
        ):
            text = OR_BRACKETS.sub(lambda found: self._bracket_option(line, found), text)
        elses: list[str] = []
        if found := _ELSE_SETS.search(text) or _IF_SETS.search(text) or _ATTEMPTS.search(text):
            before = {token.kind for token in tokens_of(text[: found.start()])}
            if isinstance(self.open, LiftDraft) or ("name" in before and before & {"setsx", "sets"}):
                elses, text = [found[0].strip("() ")], text[: found.start()] + text[found.end() :]
        condition = ""
        if isinstance(self.open, LiftDraft) and not self.gap:
            sets, condition = cut_condition(text)
            if condition and {token.kind for token in tokens_of(sets)} & {"pct", "atx", "setsx"}:
                text = sets
            else:
                condition = ""
        if elses and not text.strip(" .,;:"):
            assert isinstance(self.open, LiftDraft)
            self.open.notes += elses
            self._role(line, "sets", self.open)
            return True
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
        if elses and done and isinstance(self.open, LiftDraft):
            self.open.notes += elses
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
