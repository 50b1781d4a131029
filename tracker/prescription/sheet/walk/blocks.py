"""Reads lifts whose number of sets stands elsewhere: below a line that says it, or between the sets of another lift."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.lifts.lift_line import as_sets
from tracker.prescription.sheet.lifts.marks import BETWEEN_SETS, BLOCK_SETS, IN_BETWEEN
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.model import Reps, SetGroup
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.walk.weeks import Weeks
from tracker.prescription.sheet.words.plain_words import plain

_AFTER_SETS = re.compile(
    r",?\s+(?:straight |right |directly )?(?:(?:after|nach) (?:each|every|all|the|jedem|den)|(?:between|zwischen)(?: (?:each|every|all|the|jedem|den))?)(?: heavy| work(?:ing)?)? sets?\W*$"
)


class Blocks(Weeks):
    """Lifts that have as many sets as others."""

    def _sets_of_block(self, line: Line, text: str) -> bool:
        """`3 sets:`, `superset x 4` above lifts that say their repetitions alone, one of them with a load of a lift."""
        found = BLOCK_SETS.match(text)
        if found is None and self._sets_of_complex(line, text):
            return True
        if found is None or isinstance(self.open, PieceDraft):
            return False
        below: list[set[str]] = []
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

    def _sets_of_complex(self, line: Line, text: str) -> bool:
        """`complex, 6 sets, rest 2:00` above a line of lifts that are joined: as many sets of these."""
        below = next((plain(other.text) for other in self.lines[self.at + 1 : self.at + 2] if not other.blank), "")
        tokens = tokens_of(text)
        sets = [token for token in tokens if token.kind == "setcount"]
        kinds = {token.kind for token in tokens}
        if (
            len(sets) != 1
            or kinds & {"name", "pct", "num", "reps", "setsx", "setlabel", "rounds"}
            or len(below.split(" + ")) < 2
            or sum(token.kind == "name" for token in tokens_of(below)) < 2
            or {token.kind for token in tokens_of(below)}
            & {"setsx", "sets", "setcount", "rounds", "dist", "cal", "time"}
        ):
            return False
        self.open, self.block_sets = None, sets[0].value
        self.block_rest = next((token.value for token in tokens if token.kind == "rest"), None)
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
            lift.rest_s, self.block_rest = lift.rest_s or self.block_rest, None
            if not lift.groups and len(lift.names) > 1:
                lift.groups = [SetGroup(sets, Reps(lift.parts or (1,) * len(lift.names)), None, line=line.number)]
                self.block_sets = 0
                return done
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
        sets = above.number_of_sets
        for part in parts:
            first = as_sets(part[0], sets)
            self.join_next = True
            self._lift(line, [first, *part[1:]], [token for token in part if token.kind == "name"], "", "")
        return True
