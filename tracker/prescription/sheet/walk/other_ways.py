"""Reads other ways of a lift: with another implement, at home, another lift behind "or"."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from typing import cast

from tracker.prescription.sheet.lifts.lift_line import (
    as_lift,
    first_up,
    implement_of,
    implement_word,
    left_words,
    own_case,
)
from tracker.prescription.sheet.lifts.marks import HOME_LIFT, IMPLEMENT_WORDS, LED_BY_LEVEL, LEVEL_LIFT
from tracker.prescription.sheet.lifts.sets_reading import read_sets
from tracker.prescription.sheet.lines.brackets import with_note
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.model import Alternative, Implement, Percent, SetGroup
from tracker.prescription.sheet.pieces.heads import CLOCKS
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.walk.sets import Sets
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.names import full_name
from tracker.prescription.sheet.words.plain_words import plain
from tracker.units import Mass

_EDIT = re.compile(
    r"\W*(?:edit|correction|sorry|oops|update)\b[:,]?\s*(?:the )?(?P<a>[a-z][a-z -]{2,25}?) (?:are|is|should be|=) (?P<b>[a-z][a-z -]{2,25}?)\s*(?:[,.!;]|$)"
)
_EDIT_LOAD = re.compile(
    r"\W*(?:edit|correction|sorry|oops|update|fix|typo)\b[:,]?\s*(?:the )?(?P<a>[a-z][a-z -]{2,25}?) (?:are |is |should be |go )?(?:at|@|on)? ?(?P<b>\d{2,3}(?:\.\d)?) ?(?P<u>%|kg|lb)?,? (?:not|instead of|rather than) ?(?:at |@ )?(?P<c>\d{2,3}(?:\.\d)?)?"
)
_ALL_LIFTS = re.compile(
    r"\W*(?:everything|all(?: of (?:it|this|them))?(?: sets| lifts)?|every set)(?: (?:is|are|today))? (?:at|@|with|to)? ?(?P<e>(?:(?:rpe|rir) ?\d|\d(?:\.5)? ?(?:-\d)? ?(?:rpe|rir|(?:reps? )?in (?:the )?(?:tank|reserve)))[^,;.]*)(?:[,;.]|$)"
)
# What is done by those whom something hurts, or who cannot: "if your wrists are unhappy, ..."
_FOR_SOME = re.compile(
    r"\W*(?P<when>(?:if|when|anyone|anybody|those|whoever|people|for (?:those|anyone))\b[^,:;]{2,60}?"
    r"\b(?:unhappy|sore|hurt\w*|pain\w*|ach\w+|cranky|tight|stiff|bad|bother\w*|complain\w*|can'?t|cannot|don'?t like|not able|no good)\b[^,:;]{0,40})[,:]\s*(?P<rest>.+)"
)
_REST_OF = re.compile(
    r"\W*(?:and )?rest .{1,16}? (?:on|for|between) (?:the )?(?P<a>[a-z][a-z -]{2,20}?)(?:\s{2,}|\s*(?:[,.!;]|$))"
)
# "tempo on the row 2111"
_TEMPO_OF = re.compile(
    r"\btempo (?:on|for|of) (?:the |your )?(?P<a>[a-z][a-z -]{2,20}?)s?(?: is|:|,)? ?(?:tempo )?(?P<t>[1-9x]-?[0-9]-?[0-9x]-?[0-9])(?!\d)"
)


class OtherWays(Sets):
    """Other ways of a lift."""

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

    def _other_way(self, line: Line, chunk: str) -> bool:
        """`dumbbells: RDL 4x10` under a lift is another way of it."""
        lift = self.open
        assert isinstance(lift, LiftDraft)
        found = HOME_LIFT.match(chunk.strip())
        level = LED_BY_LEVEL.match(chunk.strip()) if found is None else None
        found = found or level
        if found is None or self.gap or lift.empty:
            return False
        tokens = tokens_of(plain(found["rest"]))
        if level is not None and not any(token.kind == "name" for token in tokens):
            if {token.kind for token in tokens} & {"setsx", "sets", "pct", "rpe", "list", "atx"}:
                return False
            self._note(line, chunk.strip())  # "Level 2+3: barbell"
            return True
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

    def _level_of_lift(self, line: Line, text: str) -> bool:
        """`(Beginners: goblet squat 3x10)`, `int: 60-65 %` below the sets of a lift: another way of it, for these people."""
        lift = self.open
        found = LEVEL_LIFT.match(text)
        if found is None or not isinstance(lift, LiftDraft) or lift.empty or self.gap:
            return False
        when, rest = found["when"].strip(), plain(found["rest"])
        tokens = tokens_of(rest)
        names = [token for token in tokens if token.kind == "name"]
        if {token.kind for token in tokens} & CLOCKS or len(names) > 1:
            return False
        read = read_sets([token for token in tokens if token.kind != "name"], self._scene(line))
        groups = [replace(group, line=line.number) for group in read.groups]
        sets = [group for group in lift.groups if isinstance(group, SetGroup)]
        if not names and not groups and len(read.loads) == 1 and len(sets) == len(lift.groups) == 1:
            groups = [replace(sets[0], load=read.loads[0], line=line.number)]
        if names and (groups or not any(sign.isdigit() for sign in rest)):
            name, entry = as_lift(names[0])
            implement = implement_of(tokens, names[0]) or (entry.implement if entry is not None else "other")
        elif groups and not names:
            name = ""
            implement = lift.implement or (lift.known.implement if lift.known is not None else "other")
        elif not names and not any(sign.isdigit() for sign in rest):
            lift.notes.append(harmless(line.raw).strip())
            self._about(line, lift)
            return True
        else:
            return False
        made = cast("Implement", implement if implement and implement != "?" else "other")
        rule = "own" if groups else "same"
        lift.alternatives.append(Alternative(made, rule, first_up(name), tuple(groups), when, line.number))
        if words := left_words(read.left):
            lift.notes.append(words)
        if line.raw.rstrip() not in lift.text:
            lift.text.append(line.raw.rstrip())
        self._role(line, "alternative", lift)
        return True

    def _for_some(self, line: Line, text: str) -> bool:
        """`if your wrists are unhappy, goblet squats 4x8 are fine` behind a lift is another way of it, for these people."""
        found, lift = _FOR_SOME.match(text), self._last_item()
        if found is None or not isinstance(lift, LiftDraft) or lift.empty:
            return False
        tokens = tokens_of(found["rest"])
        names = [token for token in tokens if token.kind == "name"]
        read = read_sets([token for token in tokens if token.kind != "name"], self._scene(line))
        if len(names) != 1 or not read.groups:
            return False
        name, entry = as_lift(names[0])
        implement = implement_of(tokens, names[0]) or (entry.implement if entry is not None else "other")
        groups = tuple(replace(group, line=line.number) for group in read.groups)
        made = cast("Implement", implement if implement != "?" else "other")
        lift.alternatives.append(Alternative(made, "own", first_up(name), groups, found["when"].strip(), line.number))
        if line.raw.rstrip() not in lift.text:
            lift.text.append(line.raw.rstrip())
        lift.notes.append(text.strip())
        self._role(line, "alternative", lift)
        return True

    def _put_right(self, line: Line, text: str) -> bool:
        """`EDIT: squats are back squats`, `rest 2 min on the squats`: what a later line says of a lift above."""
        if found := _EDIT.match(text):
            lift = self._lift_named(found["a"])
            name, entry = full_name(found["b"].strip(), lift=True)
            if lift is None or entry is None:
                return False
            lift.names, lift.known = [first_up(name)], entry
        elif found := _EDIT_LOAD.match(text):
            lift = self._lift_named(found["a"])
            if lift is None or not _put_load_right(lift, Decimal(found["b"]), Decimal(found["c"] or 0), found["u"]):
                return False
        elif found := _TEMPO_OF.search(text):
            lift = self._lift_named(found["a"])
            if lift is None:
                return False
            lift.tempo = lift.tempo or "-".join(found["t"].replace("-", "").upper())
            self._rest_of_pair(lift, text)
        elif found := _REST_OF.match(text):
            lift = self._lift_named(found["a"])
            if lift is None or lift is self.open:
                return False
            lift.rest_s = lift.rest_s or next((each.value for each in tokens_of(text) if each.kind == "rest"), None)
        else:
            return False
        self._about(line, lift)
        return True

    def _rest_of_pair(self, lift: LiftDraft, text: str) -> None:
        """A rest that is told below two lifts in turn is that of both."""
        rest = next((each.value for each in tokens_of(text) if each.kind == "rest"), None)
        place = self.session.items.index(lift) if lift in self.session.items else 0
        above = self.session.items[place - 1] if place and lift.joined else lift
        for each in (lift, above):
            if rest is not None and isinstance(each, LiftDraft):
                each.rest_s = each.rest_s or rest

    def _said_of_all(self, line: Line, text: str) -> bool:
        """`everything at 3 RIR`: how hard all lifts of the session are that say neither that nor a load."""
        found = _ALL_LIFTS.match(text)
        lifts = [each for each in self.session.items if isinstance(each, LiftDraft)]
        if found is None or len(lifts) < 2:
            return False
        loads = read_sets(tokens_of(found["e"].strip()), self._scene(line)).loads
        if len(loads) != 1:
            return False
        for lift in lifts:
            lift.groups = [
                replace(group, load=loads[0]) if isinstance(group, SetGroup) and group.load is None else group
                for group in lift.groups
            ]
        self._about(line, lifts[-1])
        return True

    def _lift_named(self, typed: str) -> LiftDraft | None:
        """Return the last lift of the session of that name, or of a name that ends with it."""
        name = full_name(typed.strip(), lift=True)[0].lower()
        typed = typed.strip().lower()
        lifts = [each for each in self.session.items if isinstance(each, LiftDraft) and len(each.names) == 1]
        mine = [each for each in lifts if (f" {each.names[0].lower()}").endswith((f" {name}", f" {typed}"))]
        return mine[-1] if mine else None

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


def _put_load_right(lift: LiftDraft, new: Decimal, old: Decimal, unit: str | None) -> bool:
    """Put a load of a lift right that a later line names together with the wrong one; False where it has no such load."""
    done = False
    for place, group in enumerate(lift.groups):
        if not isinstance(group, SetGroup):
            continue
        load = group.load
        if isinstance(load, Percent) and load.amount == old and load.high is None and unit in (None, "%"):
            lift.groups[place], done = replace(group, load=replace(load, amount=new)), True
        elif isinstance(load, Mass) and load.amount == old and unit in (None, load.unit):
            lift.groups[place], done = replace(group, load=Mass(new, load.unit)), True
    return done
