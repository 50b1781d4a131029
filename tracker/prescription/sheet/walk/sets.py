"""Reads the sets of a lift that is open, and what else is said of it: rest, tempo, sides, words."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.asks import Choice
from tracker.prescription.sheet.lifts.lift_line import (
    count_to_reps,
    left_words,
    rep_out_last,
)
from tracker.prescription.sheet.lifts.sets_found import SetsRead, effort_beside, load_words_of, ramped
from tracker.prescription.sheet.lifts.sets_reading import read_sets, spread
from tracker.prescription.sheet.lifts.told_in_turn import in_their_turn, of_sets_told, of_the_last
from tracker.prescription.sheet.lines.brackets import remarks_of, split_outside
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.model import FindMax, Of, Percent, Reps, SetGroup
from tracker.prescription.sheet.pieces.movement_words import makes_name
from tracker.prescription.sheet.tokens.durations import DUR, seconds
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.walk.look import Look
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.plain_words import plain


class Sets(Look):
    """The sets of a lift."""

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
        elif read.loads and not groups and lift.groups and effort_beside(lift.groups, read.loads):
            pass
        elif read.loads and not groups:
            lift.pending += read.loads
        if groups and lift.pending and all(isinstance(group, SetGroup) and group.load is None for group in groups):
            groups, lift.pending = spread(groups, lift.pending, self._scene(line)), []
        beside = lift.groups[0].line == lift.line if lift.groups else False  # with the name, and no line of sets
        if (
            len(lift.groups) == len(groups) == 1
            and isinstance(groups[0], FindMax)
            and beside
            and _bare_once(lift.groups[0])
        ):
            lift.groups = []  # "clean & jerk, 1+1", below it "up to a heavy single": one thing
        if (
            lift.groups
            and len(groups) == 1
            and _count_alone(groups[0])
            and not re.search(r"\b(?:more|another|extra)\b", plain(line.text))
        ):
            first = lift.groups[0]
            if len(lift.groups) == 1 and isinstance(first, SetGroup) and first.sets == 1:
                lift.groups = [replace(first, sets=getattr(groups[0], "sets", 1))]  # "20 reps @ 60 %. One set."
                groups = []
        if len(groups) == 1 and _count_alone(groups[0]) and lift.number_of_sets == getattr(groups[0], "sets", 0) > 1:
            groups = []  # "same weight on all six sets": these are the sets that were told
        if lift.groups and of_sets_told(groups, plain(line.text)):
            groups = []
        one = groups[0] if len(groups) == 1 and not lift.groups else None
        if lift.clock_sets and isinstance(one, SetGroup) and one.sets == 1 and one.load is not None:
            groups = [replace(one, sets=lift.clock_sets)]  # below "EMOM 10"
        alone = lift.groups[0] if len(lift.groups) == 1 else None
        if (
            groups
            and isinstance(alone, SetGroup)
            and not alone.reps.parts
            and not alone.reps.out
            and alone.load is None
        ):
            lift.count, lift.groups = alone.sets, []  # "4 sets:" above "5 reps @ 75 %"
        lift.groups = rep_out_last(lift.groups, groups, plain(line.text))
        if not any(_OF_IN_BRACKETS.search(plain(text)) for text in lift.text[:1]):
            lift.groups = ramped(lift.groups, plain(line.text))
        lift.groups = in_their_turn(by_their_reps(lift.groups, plain(line.text)), plain(line.text))
        lift.groups = _there(lift.groups, plain(line.text)) if groups else lift.groups
        told = of_the_last(lift.groups, plain(line.text))
        lift.groups, lift.pending = told, [] if told != lift.groups else lift.pending
        taken = {_amount(group.load) for group in lift.groups if isinstance(group, SetGroup)}
        if groups and (unused := [load for load in read.loads if _amount(load) not in taken]):
            self._ask_beside(line, ", ".join(load_words_of(load) for load in unused))  # a second load, told of no set
        lift.rest_s = lift.rest_s or read.rest_s
        lift.tempo = lift.tempo or read.tempo
        lift.every_s = lift.every_s or read.every_s
        lift.of = lift.of or read.of
        lift.each_side = lift.each_side or read.each_side
        if re.match(r"\W*(?:all|everything|both)\b", plain(line.text) if not groups else "") or re.search(
            r"[.,;]\s*(?:all|both)(?: of them)? (?:at|@|with) \d[^,;.]*$", plain(line.text)
        ):
            self._of_all(lift)
        words = left_words(read.left)
        if groups and (words or read.left):
            self._ask_of_left(line, lift, read.left)
        lift.notes += read.notes
        if words:
            lift.notes.append(words)

    def _ask_of_left(self, line: Line, lift: LiftDraft, left: list[Token]) -> None:
        """Ask where something that may be a load is left among the words beside sets that were read."""
        if told := left_loads(left):
            self._ask_beside(line, told)

    def _ask_beside(self, line: Line, told: str) -> None:
        """Ask about what may be a load of the sets that were read."""
        if told:
            choices = (
                Choice("words", "words of the coach, no load"),
                Choice("load", "a load or sets: to be typed on a line of its own"),
            )
            self.asker.choose(
                f"left beside sets: {told}",
                line.number,
                harmless(line.raw).strip(),
                f"Is {told!r} only said beside the sets?",
                choices,
            )

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
        if (rests := _RESTS.match(plain(line.text))) is not None and not count:
            return self._rest_of_each(line, lift, rests["all"])
        self._ask_whose(line, lift, tokens)
        before = len(lift.groups)
        tokens = self._labelled_loads(line, lift, tokens)
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

    def _ask_whose(self, line: Line, lift: LiftDraft, tokens: list[Token]) -> None:
        """Ask whether sets behind words that may be the name of another lift are more sets of this one."""
        words = list(itertools.takewhile(lambda token: token.kind == "word", tokens))
        named = any(makes_name(token.text) and token.text not in _OF_SETS for token in words)
        if not (named and lift.groups and len(words) < 4 and not self.prose):
            return
        if not any(token.kind in ("setsx", "sets", "loadx") for token in tokens[len(words) :]):
            return
        told = " ".join(token.text for token in words)
        choices = (
            Choice("same", f"yes: more sets of {lift.name.lower()}"),
            Choice("other", "no, of another lift: to be typed with its name"),
        )
        self.asker.choose(
            f"whose sets: {told}", line.number, harmless(line.raw).strip(), "Are these sets of the lift above?", choices
        )

    def _rest_of_each(self, line: Line, lift: LiftDraft, told: str) -> bool:
        """`rest 3 min / 2 min / done` below as many rows of sets: each has its own; else the words are kept as they are."""
        parts = [part.strip() for part in told.split("/")]
        if len(parts) == len(lift.groups):
            for place, part in enumerate(parts):
                found = re.fullmatch(DUR, part)
                if found is not None:
                    lift.groups[place] = replace(lift.groups[place], rest_s=seconds(part))
        self._about(line, lift)
        return True

    def _labelled_loads(self, line: Line, lift: LiftDraft, tokens: list[Token]) -> list[Token]:
        """`sets 1-2 @ 70%` below a lift whose repetitions are known gives these sets their load; what else is said is left.

        The labels have to go on where the sets with a load end, else nothing is taken.
        """
        spans: list[tuple[int, int, Token]] = []
        left: list[Token] = []
        label: Token | None = None
        for token in tokens:
            if token.kind == "setlabel":
                label = token
            elif label is not None and token.kind in ("pct", "atx", "mass"):
                spans.append((*label.value, token))
                label = None
            elif label is None or (token.text not in (":", "@", "at", "=", "-", "(", ",") and token.kind != "sep"):
                left.append(token)
        if not spans or label is not None or any(token.kind in _COUNTED for token in left):
            return tokens
        loaded = [each for each in lift.groups if not (isinstance(each, SetGroup) and each.load is None)]
        bare = [each for each in lift.groups if isinstance(each, SetGroup) and each.load is None]
        told = bare[0].reps if bare else loaded[-1].reps if loaded and isinstance(loaded[-1], SetGroup) else Reps(())
        reps = next((Reps(parts) for parts in (told.parts, lift.parts, (lift.minute_reps,)) if any(parts)), None)
        at, total = sum(getattr(each, "sets", 1) for each in loaded), bare[0].sets if bare else 0
        if reps is None or len(bare) > 1 or told.out:
            return tokens
        made: list[Any] = []
        for first, last, token in spans:
            read = read_sets([token], self._scene(line))
            if first != at + 1 or len(read.loads) != 1:
                if bare:  # the load of some sets is not that of all: the coach's words stand
                    lift.notes.append(harmless(line.raw).strip())
                return left if bare else tokens
            made.append(SetGroup(last - first + 1, reps, read.loads[0], line=line.number))
            at = last
        rest = total - sum(each.sets for each in made)
        if bare and rest < 0:
            lift.notes.append(harmless(line.raw).strip())
            return left
        lift.groups = [*loaded, *made, *([replace(bare[0], sets=rest)] if bare and rest else [])]
        return left


# A rest for each row of sets, in their order
_OF_IN_BRACKETS = re.compile(
    r"\(\s*\d{1,2}\s?rm\s*\)", re.IGNORECASE
)  # "Deadlift (5RM)": what the percentages below are of
_RESTS = re.compile(rf"^\W*rests?\W+(?P<all>(?:{DUR})(?:\s*/\s*(?:{DUR}|done|none|finish(?:ed)?|end|nothing|-+))+)\W*$")
# What says how many repetitions or sets there are
_COUNTED = frozenset(
    {"setsx", "sets", "reps", "num", "list", "complex", "plus", "max", "xnum", "find", "range", "setcount", "loadx"}
)


# A percentage and the repetitions it is for: "70 % on the first 5s, 80 on the 3s", "5s at 70 %, 3s at 80 %"
_ON_THE_FIVES = re.compile(
    r"(?<![\d.-])(?P<l>\d{2,3}(?:\.5)?) ?(?P<p>%)?(?: of (?:the |your )?[a-z0-9 &]{2,24}?)? (?:on|for) (?:the|your|all) (?:first |last |two |2 )?(?:sets? of )?(?P<r>\d{1,2})'?s?\b(?! ?(?:sets?|rounds?|min|sec|x))"
)
_FIVES_AT = re.compile(r"\b(?P<r>\d{1,2})'?s ?(?:at|@|=|:) ?(?P<l>\d{2,3}(?:\.5)?) ?(?P<p>%)?(?![\d.:-]| ?(?:kg|lb))")


def by_their_reps(groups: list[Any], text: str) -> list[Any]:
    """Give sets the percentage that is told by their repetitions, where two or more are: `70 % on the 5s, 80 on the 3s`."""
    found = list(_ON_THE_FIVES.finditer(text)) or list(_FIVES_AT.finditer(text))
    told = {int(each["r"]): Decimal(each["l"]) for each in found}
    counts = {group.reps.parts for group in groups if isinstance(group, SetGroup)}
    if len(told) < 2 or not any(each["p"] for each in found) or not {(reps,) for reps in told} <= counts:
        return groups
    return [
        replace(group, load=Percent(told[group.reps.parts[0]], of_load(group)))
        if isinstance(group, SetGroup) and len(group.reps.parts) == 1 and group.reps.parts[0] in told
        else group
        for group in groups
    ]


_THERE = re.compile(
    r"\b(?:at |with |@ ?|on )?(?:the |that )?same (?:%|percent\w*|weight|load|bar|barbell)(?! (?:for|on|across|in|through|all|each|every|as)\b)|^\W*(?:then |and )?[^@%;.]*\d\+? same\W*$|"
    r"\b(?:\d|singles?|doubles?|triples?|reps?|sets?) (?:there|(?:at|with) (?:that|it|this|the same)(?: (?:weight|load|bar))?)\b"
)


def _there(groups: list[Any], text: str) -> list[Any]:
    """Give sets that are told behind others, with no load but "there", the load of these: `80 % for 2, then 3 doubles there`."""
    if not _THERE.search(text):
        return groups
    found: list[Any] = []
    for group in groups:
        last = found[-1] if found else None
        if isinstance(group, SetGroup) and isinstance(last, SetGroup) and group.load is None and group is groups[-1]:
            found.append(replace(group, load=last.load))
        else:
            found.append(group)
    return found


def _amount(load: Any) -> Any:
    """How much a load is, whatever it is of."""
    return (load.amount, load.high) if isinstance(load, Percent) else load


def of_load(group: SetGroup) -> Of | None:
    """What the percentage of a set is of, where the set says it itself."""
    return group.load.of if isinstance(group.load, Percent) else None


def _count_alone(group: Any) -> bool:
    """Whether no more is said than how many sets there are."""
    return isinstance(group, SetGroup) and group.load is None and group.reps == Reps(())


def _bare_once(group: Any) -> bool:
    return isinstance(group, SetGroup) and group.sets == 1 and group.load is None and len(group.reps.parts) > 1


# What would have been sets or a load of the lift, had it been understood
_LEFT_LOADS = frozenset(
    {"pct", "mass", "setsx", "sets", "loadx", "masslist", "atlist", "rpe", "rir", "find", "pctoff", "list", "loadpairx"}
)


def left_loads(tokens: list[Token]) -> str:
    """What was left of a lift's line that may be sets or a load: `start at 70, end at 90`, `then another 10 %`; else nothing."""
    found: list[str] = []
    for place, token in enumerate(tokens):
        before = tokens[place - 1].text if place else ""
        bare = token.kind in ("num", "atx") and 40 <= token.value <= 300
        led = before in _TOWARDS or token.text.startswith(("@", "at")) or len(tokens) == 1
        if token.kind == "mass" and place + 1 < len(tokens) and tokens[place + 1].text in _COMPARED:
            continue  # "10 kg lighter" than what nobody said: words of the coach
        if token.kind in _LEFT_LOADS or (bare and led):
            found.append(f"{before} {token.text}".strip() if before in _TOWARDS else token.text.strip())
    return ", ".join(found)


_COMPARED = frozenset({"lighter", "heavier", "less", "more", "below", "under"})
_TOWARDS = frozenset(
    {
        "start",
        "finish",
        "end",
        "at",
        "to",
        "around",
        "about",
        "up to",
        "until",
        "till",
        "from",
        "towards",
        "weight",
        "load",
    }
)


# Words that say which sets of a lift they are, and no other lift
_OF_SETS = frozenset(
    {
        "down", "backoffs", "backdown", "single", "singles", "double", "doubles", "triple", "triples", "opener", "openers", "cluster", "clusters", "burnout", "amrap", "ramps", "wave", "waves", "feeder",
        "primer", "primers", "attempt", "attempts", "load", "loads", "weight", "week", "weeks", "day", "days", "lift", "lifts", "follow", "followed", "once", "afterwards", "plus", "maybe", "but", "also",
    }
)  # fmt: skip
