"""Reads the lines that begin a lift: its names, its implement, its first sets."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.asks import Choice
from tracker.prescription.sheet.days.weekdays import any_weekday
from tracker.prescription.sheet.lifts.lift_line import (
    STEPS,
    as_lift,
    counts_before,
    first_up,
    implement_of,
    main_names,
    stepped,
)
from tracker.prescription.sheet.lifts.marks import IMPLEMENT_WORDS, between_sets
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.model import FindMax, SetGroup
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import CLOCKS, Head
from tracker.prescription.sheet.pieces.movement_words import HOW, makes_name
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.walk.lift_names import LiftNames, said_again
from tracker.prescription.sheet.walk.lift_parts import TRAINED
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.names import Found, Name, full_name
from tracker.prescription.sheet.words.plain_words import plain

SAME_AS = re.compile(
    r"\bsame (?:ramp|build[- ]?up|warm[- ]?up sets?|jumps|percentages?|climb) as (?:on )?(?:(?P<day>[a-zäöüé]+day|montag|dienstag|mittwoch|donnerstag|freitag|samstag|lundi|mardi|mercredi|jeudi|vendredi|samedi|lunes|martes|jueves|viernes)|above|before|the [a-z ]+)\b"
)


_ONE_SIDED = re.compile(r"\b(?:lunge|split squat|step-?up|pistol|single|one|side plank|rfess|suitcase|cossack)")


# "Before that: 1RM strict press", "3 heavy sets of 3, do it first": said below the piece that it is done before
DONE_BEFORE = re.compile(
    r"^\W*(?:(?:but |and )?before (?:that|this|it|the (?:wod|workout|metcon|piece|amrap|emom))?\W*[:,-]|(?:but |and )before that (?=[a-z])|before[ ]?:|(?:davor|vorher|zuvor|avant(?: ça)?|antes|prima|vooraf|daarvoor) ?:)"
    r"|\b(?:do|does|done|doing) (?:it|this|that|these|them|the (?:strength|lifts?|squats?)) first\b|\b(?:this|that|strength) (?:comes|goes|is) first\b",
    re.IGNORECASE,
)
_SAME_SETS = re.compile(
    r"\W*(?:the )?same(?: (?:sets?(?: and reps?)?|scheme|again|thing))?(?: as (?:the |for )?(?P<x>[a-z][a-z ]{2,24}?))?[.!]*"
)
_EACH_ALONE = re.compile(
    r"\d ?[x×*] ?\d{1,2}(?: ?- ?\d{1,2})? ?(?:reps? )?(?:each(?: side| leg| arm)?|ea)\b\.?(?=\s*(?:$|[,;(@]))"
)


def _loads_times(tokens: list[Token], name: Token) -> bool:
    """Whether behind a barbell lift's name stand loads and how many repetitions each has: `squat 70/80/90 x 3`."""
    entry = as_lift(name)[1]
    if tokens[0] is not name or entry is None or entry.implement != "barbell" or len(tokens) < 3:
        return False
    loads, times = tokens[1], tokens[2]
    listed = loads.kind == "list" and min(loads.value[0]) >= 30 and loads.value[1] is None
    return times.kind == "xnum" and times.value <= 20 and (listed or loads.kind in ("masslist", "atlist"))


_PEOPLE = frozenset({"beginners", "newcomers", "newbies", "everyone", "everybody", "others", "advanced", "intermediates", "regulars", "anfänger", "fortgeschrittene", "débutants", "principiantes", "masters", "juniors", "kids", "teens"})  # fmt: skip


# Where a movement without a known name is done, behind its name
_WHERE = frozenset({"against", "onto", "over", "into", "w"})
_POSTURES = frozenset({"seated", "standing", "kneeling", "banded", "assisted", "single", "alternating"})


def _makes_name(word: str) -> bool:
    """Whether a word, hyphens and all, is part of a name: "med-ball", "half-kneel"."""
    return makes_name(word) or ("-" in word and all(makes_name(each) for each in word.split("-") if len(each) > 2))


class Lifts(LiftNames):
    """The lines that begin a lift."""

    def _open_lift(self, line: Line, names: list[str], entry: Name | None) -> LiftDraft:
        lift = LiftDraft(names, line.number, entry)
        lift.joined = self.join_next and bool(self.session.items) and isinstance(self.session.items[-1], LiftDraft)
        lift.joined = lift.joined or (isinstance(self.open, LiftDraft) and between_sets(line.text))
        self.join_next = False
        lift.label = self.label
        lift.first = DONE_BEFORE.search(line.text) is not None
        self._item(lift)
        lift.text.append(line.raw.rstrip())
        return lift

    def _named_lift(self, line: Line, tokens: list[Token], names: list[Token]) -> tuple[LiftDraft, list[Token]]:
        """Open the lift that a line names, with the repetitions of its parts; returns it and the tokens that are its name."""
        main = main_names(tokens, names)
        full = [as_lift(token) for token in main]
        lift = self._open_lift(
            line, [first_up(name) if place == 0 else name for place, (name, _) in enumerate(full)], full[0][1]
        )
        lift.prose = self.prose
        counts = counts_before(tokens, main)
        if len(main) > 1 and counts:
            lift.parts = counts
        return lift, main

    def _is_lift(self, tokens: list[Token], names: list[Token], kinds: set[str], head: Head) -> bool:
        if not names:
            return False
        if not head.clock and _loads_times(tokens, names[0]):
            return True
        strong = kinds & {"setsx", "sets", "find", "loadx", "loadpairx"}
        if isinstance(self.open, PieceDraft) and not self.open.empty:
            first = next(token for token in tokens if token.kind == "name")
            known_lift = first.value.known is not None
            if strong and known_lift:
                return not any(
                    token.kind in ("num", "cal", "dist") and token.end <= first.start and token.start == tokens[0].start
                    for token in tokens
                ) or bool(kinds & {"setsx"})
            counted = any(token.kind in ("num", "reps", "list") and token.start > first.start for token in tokens)
            led = any(token.kind in ("num", "reps", "cal", "dist") and token.end <= first.start for token in tokens)
            return bool(counted and not led and kinds & {"pct"} and self.gap)
        if strong:
            return True
        first = names[0]
        if (
            tokens[0].kind == "setcount"
            and len(tokens) > 2
            and tokens[1] is first
            and tokens[2].kind in ("num", "reps")
        ):
            return not head.clock  # "3 sets lunges 10 each leg"
        if (
            "list" in kinds
            and any(token.kind == "list" and token.start > first.start for token in tokens)
            and len(names) == 1
        ):
            return True
        loads = kinds & {"pct", "rpe", "rir", "atx", "atlist", "tempo"}
        if loads and (kinds & {"num", "list", "complex", "reps", "plus", "max", "xnum", "setcount"} or "pct" in kinds):
            return True
        if "rm" in kinds and not kinds & {"num"}:
            return True
        at_loads = sum(token.kind == "mass" and token.text.lstrip().startswith(("@", "at ")) for token in tokens)
        if at_loads > 1 and first is tokens[0] and len(names) == 1 and not head.clock:
            return True  # "bench, 8 @ 60 kg, 6 @ 70 kg"
        if kinds & {"mass"} and kinds & {"xnum", "setcount"} and kinds & {"num", "reps"}:
            return True  # "5 @ 70 kg x 2 sets"
        if "lastweek" in kinds or "complex" in kinds:
            return True
        if "emptybar" in kinds and kinds & {"mass"} and "reps" in kinds and first is tokens[0] and not head.clock:
            return True  # "bench: 10 reps @ empty bar, 5 @ 60 kg"
        if (
            "max" in kinds
            and first.value.known is not None
            and first.value.known.measure == "reps"
            and not kinds & {"time", "dist", "cal"}
            and not head.clock
        ):
            return re.search(r"(?:one|1) (?:set|go)|sets?\b", " ".join(token.text for token in tokens)) is not None
        return False

    def _lift(self, line: Line, tokens: list[Token], names: list[Token], own: str, label: str) -> bool:
        tokens, names = self._nearest(line, *said_again(*self._longer_names(tokens, names)))
        lift, main = self._named_lift(line, tokens, names)
        counts = counts_before(tokens, main)
        lift.implement = implement_of(tokens, main[0]) or self._for_whom(line, lift.known)
        if not lift.implement and self.kit and lift.known is not None and lift.known.implement == "?":
            lift.implement = self.kit
        if not lift.implement and len(main) > 1:
            said = " ".join(token.text for token in tokens)
            if held := re.search(r"\b(double |two |2 )?(kettlebell|dumbbell|kb|db)s?\b", said):
                word = IMPLEMENT_WORDS[held[2]]
                lift.implement = word + "s" if held[1] else word
        others = [token for token in names if token not in main]
        self._others(lift, tokens, others, main)
        skip = {id(token) for token in main}
        if (found := re.search(r"\b([234])[ -]?(?:position|pos)\b", " ".join(token.text for token in tokens))) and len(
            main
        ) == 1:
            lift.parts = (1,) * int(found[1])
            skip |= {id(token) for token in tokens if token.kind == "num" and token.text == found[1]}
        if len(main) > 1 and counts:
            skip |= {
                id(token)
                for token in tokens
                if (token.kind == "num" and any(token.end <= name.start <= token.end + 3 for name in main))
                or (token.kind == "xnum" and any(name.end <= token.start <= name.end + 1 for name in main))
            }
        rest = [token for token in tokens if id(token) not in skip and id(token) not in {id(other) for other in others}]
        if step := STEPS.search(own):
            rest = [token for token in rest if not step.start() <= token.start - tokens[0].start < step.end()]
        self._take_sets(line, lift, rest, main[0])
        ahead = next((token for token in tokens if token.kind == "rounds" and token.end <= main[0].start), None)
        if (
            ahead is not None
            and len(lift.groups) == 1
            and isinstance(lift.groups[0], SetGroup)
            and lift.groups[0].sets == 1
        ):
            lift.groups = [replace(lift.groups[0], sets=ahead.value)]  # "5 rounds of 5 back squats"
        if _ONE_SIDED.search(lift.name.lower()) and any(
            token.text in ("each", "ea", "ea.") and tokens[place - 1].kind in ("setsx", "reps", "num", "each", "name")
            for place, token in enumerate(tokens)
            if place
        ):
            lift.each_side = True
        if len(names) == 1 and _EACH_ALONE.search(own):
            lift.each_side = True
        if step:
            lift.groups = stepped(lift.groups, step, self.unit, rises=self._from_set_to_set(line, step, tokens))
            lift.notes.append(step[0])
        self._role(line, "lift", lift)
        return True

    def _from_set_to_set(self, line: Line, step: re.Match[str], tokens: list[Token]) -> bool:
        """Whether a load rises within the sets; "+2.5 each time" without a clock is from one day to the next, and asked."""
        if not step[0].endswith("time") or any(token.kind in CLOCKS for token in tokens):
            return True
        choices = (Choice("session", "from one session to the next"), Choice("set", "from one set to the next"))
        typed = harmless(line.raw).strip()
        return self.asker.choose("rise each time", line.number, typed, "When does the load rise?", choices) == "set"

    def _name_only(self, line: Line, tokens: list[Token], names: list[Token], own: str, label: str) -> bool:
        """A lift's name without sets: they may follow below; "Erg" above distances is no lift."""
        if (
            len(names) == 1
            and len(tokens) == 1
            and names[0].value.name in ("row", "run", "ski", "bike")
            and own != "row"
        ):
            return False
        kinds = {token.kind for token in tokens}
        complex_of = len(main_names(tokens, names)) > 1
        weeks = re.search(r"\bweeks?\b|\bwave\b|\bcycle\b", own) is not None
        if (
            kinds & {"num", "dist", "cal", "time", "rounds", "miles"}
            and not kinds & {"of", "rest", "tempo"}
            and not self.prose
            and not complex_of
            and not weeks
        ):
            return False
        words = [token for token in tokens if token.kind == "word"]
        if (
            self.prose
            and not (self.later and len(tokens) <= 4)
            and not re.search(r"\b(?:strength|lift|is|are|we|piece|do|today|tonight|now|on to|next)\b", own)
        ):
            return False
        if not self.prose and len(words) > 5 and not re.search(r"\bwe (?:test|do|have|start|begin|lift)\b", own):
            return False
        if not self._sets_follow(line) and (above := self._same_below()) is not None:
            lift, _ = self._named_lift(line, tokens, names)
            lift.implement = implement_of(tokens, names[0])
            lift.groups, lift.of, lift.rest_s, lift.tempo = list(above.groups), above.of, above.rest_s, above.tempo
            self._role(line, "lift", lift)
            return True
        if not self._sets_follow(line) and not label:
            return False
        lift, main = self._named_lift(line, tokens, names)
        lift.implement = implement_of(tokens, main[0])
        others = [token for token in names if token not in main]
        self._others(lift, tokens, others, main)
        skip = {id(token) for token in (*main, *others)}
        rest = [token for token in tokens if id(token) not in skip and not (token.kind == "num" and len(main) > 1)]
        self._take_sets(line, lift, rest, None)
        self._role(line, "lift", lift)
        return True

    def _same_below(self) -> LiftDraft | None:
        """The lift whose sets the next line says are those of this one too: `same as squat`, `same sets`."""
        below = next((plain(other.text) for other in self.lines[self.at + 1 : self.at + 2] if not other.blank), "")
        found = _SAME_SETS.fullmatch(below.strip())
        if found is None:
            return None
        above = self._last_item()
        return (
            self._lift_named(found["x"])
            if found["x"] and found["x"] != "above"
            else above
            if isinstance(above, LiftDraft)
            else None
        )

    def _unknown_lift(self, line: Line, tokens: list[Token], kinds: set[str], label: str) -> bool:
        """Sets behind words that are no known name are of a lift of that name, not more sets of the one above."""
        if tokens[0].kind == "word" and any(
            token.kind == "setsx" and token.value[1] and max(token.value[1]) >= 100 for token in tokens
        ):
            told = harmless(line.raw).strip()
            choices = (Choice("words", "no, words of the coach"), Choice("work", "yes: to be typed with what is done"))
            self.asker.choose(f"metres without a name: {told}", line.number, told, "Is this work to be done?", choices)
            self._note(line, line.raw)  # "pool: 8x100": lengths of something, no repetitions
            return True
        if not self.prose and tokens[0].kind in ("setsx", "sets") and not isinstance(self.open, PieceDraft):
            words = [token for token in tokens[1:] if token.kind == "word"]
            typed = " ".join(token.text for token in words)
            name, entry = full_name(typed, lift=True)
            if (
                len(words) == len(tokens) - 1
                and (1 < len(words) <= 4 or (len(words) == 1 and typed in TRAINED))
                and (
                    entry is not None
                    or typed in TRAINED
                    or (tokens[0].start > 0 and all(makes_name(word.text) for word in words))
                )
            ):
                made = Token(
                    "name",
                    Found(words[0].start, words[-1].end, name, entry, typed),
                    words[0].start,
                    words[-1].end,
                    typed,
                )
                return self._lift(line, [tokens[0], made], [made], "", label)
        for place, token in enumerate(tokens[1:], 1):
            before = tokens[place - 1]
            if token.kind == "setsx" and before.kind == "word" and len(before.text) >= 4 and before.text.isalpha():
                name, entry = full_name(before.text, lift=True)
                if entry is None:
                    continue
                found = Found(before.start, before.end, name, entry, before.text)
                made = Token("name", found, before.start, before.end, before.text)  # a slip: "sqauts 5x5"
                return self._lift(line, [*tokens[: place - 1], made, *tokens[place:]], [made], "", label)
        if self.prose or not kinds & {"setsx", "sets", "find"} or tokens[0].kind != "word":
            return False
        if tokens[0].text in _PEOPLE or any(
            token.kind == "word" and any_weekday(token.text.capitalize()) is not None for token in tokens[:3]
        ):
            return False
        words: list[Token] = []
        for token in tokens:
            if words and token.text in _WHERE:
                break  # "med-ball throw against the wall"
            if token.kind == "word" and re.fullmatch(r"[^\W\d_][\w'-]*", token.text):
                words.append(token)
            elif token.kind == "sep" and token.text in ":-," and words:
                break
            else:
                break
        if (
            not 1 <= len(words) <= 4
            or not all(
                _makes_name(token.text) or token.text in ("the", "on", "to", "with") or token is words[0]
                for token in words
            )
            or not (
                _makes_name(words[0].text)
                or (len(words[0].text) == 2 and words[0].text not in HOW and len(words) > 1)
                or (words[0].text in _POSTURES and len(words) > 1 and _makes_name(words[-1].text))
            )
        ):
            return False
        typed = " ".join(token.text for token in words)
        name, entry = full_name(typed, lift=True)
        made = Token(
            "name", Found(words[0].start, words[-1].end, name, entry, typed), words[0].start, words[-1].end, typed
        )
        rest = [made, *tokens[len(words) :]]
        return self._lift(line, rest, [made], "", label)

    def _same_as(self, line: Line, text: str) -> bool:
        """`same ramp as Monday`: the sets of that day's lift, up to its test or its last set, are those of this one too."""
        lift = self.open
        assert isinstance(lift, LiftDraft)
        found = SAME_AS.search(text)
        if found is None:
            return False
        drafts = [
            each for session in [*self.sessions, self.session] for each in session.items if isinstance(each, LiftDraft)
        ]
        if found["day"]:
            day = any_weekday(found["day"].capitalize())
            drafts = [
                each
                for session in self.sessions
                if day is not None and session.weekday == day
                for each in session.items
                if isinstance(each, LiftDraft)
            ]
        model = next((each for each in reversed(drafts) if each is not lift and len(each.groups) >= 3), None)
        mine = all(isinstance(each, FindMax) for each in lift.groups)
        if model is None or not mine:
            return False
        ramp = [replace(each, line=line.number) for each in model.groups if isinstance(each, SetGroup)]
        lift.groups = [*ramp, *lift.groups]
        lift.of = lift.of or model.of
        lift.notes.append(found[0])
        self._role(line, "sets", lift)
        return True
