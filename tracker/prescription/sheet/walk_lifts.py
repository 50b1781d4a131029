"""Reads the lines of lifts: names, sets, alternatives, weeks."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any, cast

from tracker.prescription.sheet.drafts import LiftDraft, TextDraft
from tracker.prescription.sheet.headings import Heading, any_weekday
from tracker.prescription.sheet.lift_tokens import (
    STEPS,
    as_lift,
    count_to_reps,
    counts_before,
    first_up,
    implement_of,
    implement_word,
    left_words,
    main_names,
    own_case,
    rep_out_last,
    stepped,
)
from tracker.prescription.sheet.line_marks import (
    BETWEEN_SETS,
    BLOCK_SETS,
    HOME_LIFT,
    IMPLEMENT_WORDS,
    IN_BETWEEN,
    remarks_of,
    split_outside,
    with_note,
)
from tracker.prescription.sheet.model import Alternative, FindMax, Implement, SetGroup
from tracker.prescription.sheet.movement_words import HOW, makes_name
from tracker.prescription.sheet.names import Found, Name, full_name
from tracker.prescription.sheet.piece_draft import PieceDraft
from tracker.prescription.sheet.piece_heads import Head
from tracker.prescription.sheet.plain_words import plain
from tracker.prescription.sheet.sets_found import SETS_KINDS, SetsRead, ramped
from tracker.prescription.sheet.sets_reading import read_sets, spread
from tracker.prescription.sheet.tables import Line
from tracker.prescription.sheet.tokens import Token, tokens_of
from tracker.prescription.sheet.walk_look import Look

SAME_AS = re.compile(
    r"\bsame (?:ramp|build[- ]?up|warm[- ]?up sets?|jumps|percentages?|climb) as (?:on )?(?:(?P<day>[a-zäöüé]+day|montag|dienstag|mittwoch|donnerstag|freitag|samstag|lundi|mardi|mercredi|jeudi|vendredi|samedi|lunes|martes|jueves|viernes)|above|before|the [a-z ]+)\b"
)


_AFTER_SETS = re.compile(
    r",?\s+(?:straight |right |directly )?(?:(?:after|nach) (?:each|every|all|the|jedem|den)|(?:between|zwischen)(?: (?:each|every|all|the|jedem|den))?)(?: heavy| work(?:ing)?)? sets?\W*$"
)


def _bare_once(group: Any) -> bool:
    return isinstance(group, SetGroup) and group.sets == 1 and group.load is None and len(group.reps.parts) > 1


class Lifts(Look):
    """The lines of lifts."""

    def _alternative(self, found: re.Match[str], line: Line) -> Alternative | None:
        assert isinstance(self.open, LiftDraft)
        implement = implement_word(found["impl"], found["two"] or "")
        name = " ".join((found["name"] or "").split()).rstrip(",")
        when = " ".join((found["when"] or "").split())
        if found["sets"]:
            read = read_sets(tokens_of(plain(found["sets"])), self._scene(line))
            if not read.groups:
                return None
            groups = (
                tuple(with_note(group, found["sets"]) for group in read.groups)
                if len(read.groups) == 1
                else tuple(self._groups_of(found["sets"], line))
            )
            return Alternative(implement, "own", own_case(name) if name else "", groups, when, line.number)  # type: ignore[arg-type]
        rule = "same" if "same" in found["rule"].lower() else "doubled"
        return Alternative(implement, rule, own_case(name) if name else "", (), when, line.number)  # type: ignore[arg-type]

    def _groups_of(self, text: str, line: Line) -> list[Any]:
        groups: list[Any] = []
        for part in split_outside(text, ";"):
            groups += self._sets_of_part(part, line)
        return groups

    def _sets_of_part(self, part: str, line: Line) -> list[Any]:
        """Read sets with remarks in brackets behind them."""
        groups: list[Any] = []
        body, notes = remarks_of(part)
        read = read_sets(tokens_of(plain(body)), self._scene(line))
        groups += [replace(group, line=line.number) for group in read.groups]
        if notes and groups:
            groups[-1] = replace(groups[-1], note="; ".join(notes))
        return groups

    def _week_of_lift(self, heading: Heading, line: Line) -> bool:
        """Whether `week 2: 3x8 @ 70 %` stands under a lift, as its sets of that week."""
        if heading.week is None or heading.day is not None or heading.weekday is not None:
            return False
        if not isinstance(self.open, LiftDraft):
            return False
        return bool({token.kind for token in tokens_of(plain(heading.rest))} & SETS_KINDS) and not any(
            token.kind == "name" for token in tokens_of(plain(heading.rest))
        )

    def _begins_weeks(self, heading: Heading, line: Line) -> bool:
        """Whether `Week 1: 5x5 @ 80 %` are sets of the one lift that the words above are about; it is opened here."""
        if (
            isinstance(self.open, LiftDraft)
            or self.session.headed
            or any(not isinstance(each, TextDraft) for each in self.session.items)
        ):
            return False
        kinds = {token.kind for token in tokens_of(plain(heading.rest))}
        if "name" in kinds or not kinds & {"setsx", "sets", "find", "list", "pct", "atx", "loadx"}:
            return False
        above = [other.text for other in self.lines[: self.at] if other.text.strip()]
        names = {as_lift(token) for text in above[:4] for token in tokens_of(plain(text)) if token.kind == "name"}
        lifts = [(name, entry) for name, entry in names if entry is not None and entry.implement == "barbell"]
        if len(lifts) != 1 or len(above) > 4:
            return False
        self._open_lift(line, [first_up(lifts[0][0])], lifts[0][1])
        if self.session.weekday is None:
            self.session.weekday = any_weekday(" ".join(above))
        return True

    def _week_sets(self, line: Line, heading: Heading) -> None:
        lift = self.open
        assert isinstance(lift, LiftDraft)
        read = read_sets(tokens_of(plain(heading.rest)), self._scene(line))
        groups = [replace(group, line=line.number) for group in read.groups]
        lift.weeks.setdefault(heading.week or 1, []).extend(groups)
        lift.of = lift.of or read.of
        lift.text.append(line.raw.rstrip())
        if words := left_words(read.left):
            lift.notes.append(words)
        self._role(line, "sets", lift)

    def _open_lift(self, line: Line, names: list[str], entry: Name | None) -> LiftDraft:
        lift = LiftDraft(names, line.number, entry)
        lift.joined = self.join_next and bool(self.session.items) and isinstance(self.session.items[-1], LiftDraft)
        self.join_next = False
        lift.label = self.label
        self._item(lift)
        lift.text.append(line.raw.rstrip())
        return lift

    def _is_lift(self, tokens: list[Token], names: list[Token], kinds: set[str], head: Head) -> bool:
        if not names:
            return False
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
            "list" in kinds
            and any(token.kind == "list" and token.start > first.start for token in tokens)
            and len(names) == 1
        ):
            return True
        loads = kinds & {"pct", "rpe", "rir", "atx", "atlist", "tempo"}
        if loads and (kinds & {"num", "list", "complex", "reps", "plus", "max", "xnum"} or "pct" in kinds):
            return True
        if "rm" in kinds and not kinds & {"num"}:
            return True
        if kinds & {"mass"} and kinds & {"xnum", "setcount"} and kinds & {"num", "reps"}:
            return True  # "5 @ 70 kg x 2 sets"
        if "lastweek" in kinds or "complex" in kinds:
            return True
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
        tokens, names = self._longer_names(tokens, names)
        main = main_names(tokens, names)
        full = [as_lift(token) for token in main]
        entry = full[0][1]
        lift = self._open_lift(
            line, [first_up(name) if place == 0 else name for place, (name, _) in enumerate(full)], entry
        )
        lift.prose = self.prose
        counts = counts_before(tokens, main)
        if len(main) > 1 and counts:
            lift.parts = counts
        lift.implement = implement_of(tokens, main[0]) or self._for_whom(line, entry)
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
                if token.kind == "num" and any(token.end <= name.start <= token.end + 3 for name in main)
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
        if step:
            lift.groups = stepped(lift.groups, step, self.defaults.unit or "kg")
            lift.notes.append(step[0])
        self._role(line, "lift", lift)
        return True

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

    def _for_whom(self, line: Line, entry: Name | None) -> str:
        """`For the dumbbell people: floor press 4x10`: what they have is the implement, where the lift doesn't say its own."""
        if entry is not None and entry.implement not in ("?", "barbell"):
            return ""
        found = re.match(
            r"\W*(?:for|and) (?:the |those with |people with |all with )?(?P<i>dumbbell|kettlebell|barbell|db|kb)s?(?: (?:people|folks|crew|only|gang))?\s*:",
            plain(line.text),
        )
        if found is None:
            return ""
        word = IMPLEMENT_WORDS[found["i"]]
        return word + "s" if word == "dumbbell" else word

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

    def _sets_of_block(self, line: Line, text: str) -> bool:
        """`3 sets:`, `superset x 4` above lifts that say their repetitions alone, one of them with a load of a lift."""
        found = BLOCK_SETS.match(text)
        if found is None or isinstance(self.open, PieceDraft):
            return False
        below = []
        for other in self.lines[self.at + 1 : self.at + 5]:
            if other.blank:
                break
            below.append({token.kind for token in tokens_of(plain(other.text))})
        lifts = [kinds for kinds in below if "name" in kinds]
        if (
            not lifts
            or not any(kinds & {"pct", "rpe", "rir", "atx"} for kinds in lifts)
            or any(kinds & {"setsx", "sets", "list", "dist", "cal", "time"} for kinds in lifts)
        ):
            return False
        self.block_sets = int(found["n"] or found["m"])
        self.open = None
        self._note(line, line.raw)
        return True

    def _in_block(self, line: Line, tokens: list[Token], names: list[Token], own: str, label: str) -> bool:
        """A lift below a number of sets: as many of it, in turn with the lift before it."""
        sets, above = self.block_sets, self.session.items[-1] if self.session.items else None
        self.join_next = isinstance(above, LiftDraft) and above.in_block
        done = self._lift(line, tokens, names, own, label)
        lift = self.open
        if isinstance(lift, LiftDraft):
            lift.in_block = True
            lift.groups = [
                replace(group, sets=sets) if isinstance(group, SetGroup) and group.sets == 1 else group
                for group in lift.groups
            ]
        self.block_sets = sets
        return done

    def _between_sets(self, line: Line, text: str) -> bool:
        """`after each set 8 chin-ups`, `pull-ups 5x10 in between`: a lift in turn with the one above, as often."""
        above = (
            self.open
            if isinstance(self.open, LiftDraft)
            else self.session.items[-1]
            if self.session.items and not self.gap
            else None
        )
        if not isinstance(above, LiftDraft) or not above.groups:
            return False
        counted = (
            _AFTER_SETS.search(text) is not None and re.match(r"\s*\d{1,3} (?!sets?\b|x\b)[^\W\d]", text) is not None
        )
        if not counted and (found := IN_BETWEEN.search(text)) and found.start() > 0:
            tokens = tokens_of(text[: found.start()])
            kinds = {token.kind for token in tokens}
            if "name" not in kinds or not kinds & {"setsx", "sets"} or tokens[-1].kind in ("time", "rest"):
                return False
            self.join_next = True
            return self._lift(line, tokens, [token for token in tokens if token.kind == "name"], "", "")
        if found := _AFTER_SETS.search(text):
            told = text[: found.start()]
        elif found := BETWEEN_SETS.match(text):
            told = text[found.end() :]
        else:
            return False
        parts = [tokens_of(part) for part in re.split(r"\s*(?:\+|&|\band\b)\s*(?=\d)", told)]
        if not all(
            part and part[0].kind in ("num", "reps") and any(token.kind == "name" for token in part) for part in parts
        ):
            return False
        sets = sum(group.sets if isinstance(group, SetGroup) else 1 for group in above.groups)
        for part in parts:
            first = replace(part[0], kind="setsx", value=(sets, [int(part[0].value)], "plain"))
            self.join_next = True
            self._lift(line, [first, *part[1:]], [token for token in part if token.kind == "name"], "", "")
        return True

    def _unknown_lift(self, line: Line, tokens: list[Token], kinds: set[str], label: str) -> bool:
        """Sets behind words that are no known name are of a lift of that name, not more sets of the one above."""
        if not self.prose and tokens[0].kind in ("setsx", "sets") and not isinstance(self.open, PieceDraft):
            words = [token for token in tokens[1:] if token.kind == "word"]
            typed = " ".join(token.text for token in words)
            name, entry = full_name(typed, lift=True)
            if (
                len(words) == len(tokens) - 1
                and 1 < len(words) <= 4
                and (entry is not None or (tokens[0].start > 0 and all(makes_name(word.text) for word in words)))
            ):
                made = Token(
                    "name",
                    Found(words[0].start, words[-1].end, name, entry, typed),
                    words[0].start,
                    words[-1].end,
                    typed,
                )
                return self._lift(line, [tokens[0], made], [made], "", label)
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
        if (
            not 1 <= len(words) <= 4
            or not all(
                makes_name(token.text) or token.text in ("the", "on", "to", "with") or token is words[0]
                for token in words
            )
            or not (
                makes_name(words[0].text) or (len(words[0].text) == 2 and words[0].text not in HOW and len(words) > 1)
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

    def _others(self, lift: LiftDraft, tokens: list[Token], others: list[Token], main: list[Token]) -> None:
        """A lift behind "or" is another way of the first; other names stay as words."""
        for other in others:
            before = [token for token in tokens if token.end <= other.start]
            if before and before[-1].kind == "orword":
                name, entry = as_lift(other)
                implement = entry.implement if entry is not None and entry.implement != "?" else "other"
                lift.alternatives.append(Alternative(implement, "same", first_up(name)))  # type: ignore[arg-type]
            elif not (before and before[-1].kind == "of"):
                lift.notes.append(other.text)

    def _take_sets(self, line: Line, lift: LiftDraft, tokens: list[Token], name: Token | None) -> SetsRead:
        if name is not None:
            tokens = count_to_reps(tokens, name)
        read = read_sets(tokens, self._scene(line))
        self._merge(line, lift, read)
        return read

    def _merge(self, line: Line, lift: LiftDraft, read: SetsRead) -> None:
        groups = [replace(group, line=line.number) for group in read.groups]
        bare = [place for place, group in enumerate(lift.groups) if isinstance(group, SetGroup) and group.load is None]
        if read.loads and not groups and bare:
            ending = re.search(r"\b(?:finish|end|last|top)", plain(line.text)) is not None
            lift.groups = spread(lift.groups, read.loads, self._scene(line), last_only=ending and len(read.loads) == 1)
        elif read.loads and not groups:
            lift.pending += read.loads
        if groups and lift.pending and all(isinstance(group, SetGroup) and group.load is None for group in groups):
            groups, lift.pending = spread(groups, lift.pending, self._scene(line)), []
        if len(lift.groups) == len(groups) == 1 and isinstance(groups[0], FindMax) and _bare_once(lift.groups[0]):
            lift.groups = []  # "clean & jerk, 1+1", below it "up to a heavy single": one thing
        alone = lift.groups[0] if len(lift.groups) == 1 else None
        if (
            groups
            and isinstance(alone, SetGroup)
            and not alone.reps.parts
            and not alone.reps.out
            and alone.load is None
        ):
            lift.count, lift.groups = alone.sets, []  # "4 sets:" above "5 reps @ 75 %"
        lift.groups = ramped(rep_out_last(lift.groups, groups, plain(line.text)), plain(line.text))
        lift.rest_s = lift.rest_s or read.rest_s
        lift.tempo = lift.tempo or read.tempo
        lift.every_s = lift.every_s or read.every_s
        lift.of = lift.of or read.of
        lift.each_side = lift.each_side or read.each_side
        if re.match(r"\W*(?:all|everything|both)\b", plain(line.text) if not groups else "") or re.search(
            r"[.,;]\s*all (?:at|@|with) \d[^,;.]*$", plain(line.text)
        ):
            self._of_all(lift)
        words = left_words(read.left)
        lift.notes += read.notes
        if words:
            lift.notes.append(words)

    def _of_all(self, last: LiftDraft) -> None:
        """`all at 80 %`: the load of the last lift is that of those directly above it too, where they have none."""
        loads = {group.load for group in last.groups if isinstance(group, SetGroup)}
        if len(loads) != 1 or None in loads:
            return
        load = next(iter(loads))
        for item in reversed(self.session.items):
            if item is last:
                continue
            if not isinstance(item, LiftDraft) or any(
                not isinstance(group, SetGroup) or group.load is not None for group in item.groups
            ):
                break
            item.groups = [replace(group, load=load) if isinstance(group, SetGroup) else group for group in item.groups]
            item.of = item.of or last.of

    def _lift_words(self, line: Line, lift: LiftDraft, text: str, *, typed: str) -> None:
        """Read what stands behind a lift's name and implement: what percentages are of, rest, tempo, sides, sets."""
        for part in split_outside(text, ";"):
            body, notes = remarks_of(part)
            read = read_sets(tokens_of(body), self._scene(line))
            raw_notes = remarks_of(typed)[1] if notes else []
            groups = [replace(group, line=line.number) for group in read.groups]
            if notes and groups:
                mine = [each for each in raw_notes if plain(each) in (note.strip() for note in notes)] or raw_notes[
                    : len(notes)
                ]
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
        self._take_sets(line, lift, tokens, None)
        if count:
            for place in range(before, len(lift.groups)):
                group = lift.groups[place]
                if isinstance(group, SetGroup):
                    lift.groups[place] = replace(group, sets=count)
        if not lift.text or lift.text[-1] != line.raw.rstrip():
            lift.text.append(line.raw.rstrip())
        self._role(line, "sets", lift)
        return True

    def _name_only(self, line: Line, tokens: list[Token], names: list[Token], own: str, label: str) -> bool:
        """A lift's name without sets: they may follow below."""
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
        if self.prose and not re.search(r"\b(?:strength|lift|is|are|we|piece|do|today|tonight|now|on to|next)\b", own):
            return False
        if not self.prose and len(words) > 5:
            return False
        if not self._sets_follow(line) and not label:
            return False
        main = main_names(tokens, names)
        full = [as_lift(token) for token in main]
        lift = self._open_lift(
            line, [first_up(name) if place == 0 else name for place, (name, _) in enumerate(full)], full[0][1]
        )
        lift.prose = self.prose
        counts = counts_before(tokens, main)
        if len(main) > 1 and counts:
            lift.parts = counts
        lift.implement = implement_of(tokens, main[0])
        others = [token for token in names if token not in main]
        self._others(lift, tokens, others, main)
        skip = {id(token) for token in (*main, *others)}
        rest = [token for token in tokens if id(token) not in skip and not (token.kind == "num" and len(main) > 1)]
        self._take_sets(line, lift, rest, None)
        self._role(line, "lift", lift)
        return True

    def _other_way(self, line: Line, chunk: str) -> bool:
        """`dumbbells: RDL 4x10` under a lift is another way of it."""
        lift = self.open
        assert isinstance(lift, LiftDraft)
        found = HOME_LIFT.match(chunk.strip())
        if found is None or self.gap or (lift.empty and not lift.names):
            return False
        tokens = tokens_of(plain(found["rest"]))
        names = [token for token in tokens if token.kind == "name"]
        read = read_sets([token for token in tokens if token.kind != "name"], self._scene(line))
        if not read.groups and not names:
            return False
        when = found["when"].strip()
        name, entry = as_lift(names[0]) if names else ("", None)
        implement = implement_of(tokens, names[0]) if names else ""
        if not implement:
            implement = next(
                (IMPLEMENT_WORDS[word] for word in re.findall("[a-z]+", when.lower()) if word in IMPLEMENT_WORDS), ""
            )
        if not implement or implement == "?":
            implement = (
                entry.implement
                if entry is not None and entry.implement != "?"
                else "body"
                if "no" in when.lower()
                else "other"
            )
        groups = tuple(replace(group, line=line.number) for group in read.groups)
        lift.alternatives.append(
            Alternative(
                cast("Implement", implement),
                "own" if groups else "same",
                first_up(name) if name else "",
                groups,
                when,
                line.number,
            )
        )
        if words := left_words(read.left):
            lift.notes.append(words)
        lift.text.append(line.raw.rstrip())
        self._role(line, "alternative", lift)
        return True
