"""Reads one part of a sentence: a lift, its sets, a piece, a movement of it, or none of them."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.lifts.lift_line import (
    for_both,
    main_names,
    of_names,
    reps_out,
)
from tracker.prescription.sheet.lifts.sets_found import SETS_KINDS
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.model import SetGroup
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.heads import CLOCKS, read_head
from tracker.prescription.sheet.tokens.tokens import Token, tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.walk.maxes import Maxes
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.plain_words import plain
from tracker.prescription.sheet.words.talk import GREETING, TALK

_STARTS = re.compile(
    r"\bstart(?:ing)?(?: at| with)? ?@? ?\d{2,3}(?:\.5)? ?(?:%|kg|lb)(?! ?(?:-|to|,? (?:finish|end|up to)))"
)


class Parts(Maxes):
    """What one part of a sentence is."""

    def _part(self, line: Line, text: str, tokens: list[Token], label: str, *, bullet: bool) -> bool:
        tokens = reps_out(tokens, lift_open=isinstance(self.open, LiftDraft) and not self.gap)
        tokens = of_names(for_both(tokens), lift_open=isinstance(self.open, LiftDraft) and self.open.empty)
        kinds = {token.kind for token in tokens if not (token.kind == "list" and min(token.value[0]) >= 30)}
        names = [
            token
            for place, token in enumerate(tokens)
            if token.kind == "name"
            and (
                not (place and tokens[place - 1].kind == "of" and tokens[place - 1].value[0] in ("rm", "max", "tmp"))
                or (
                    [each.kind for each in tokens[place + 1 : place + 3]] == ["sep", "name"]
                    and tokens[place + 1].text == "+"
                )  # "1+3 @ 60 % of 3RM power clean + front squat"
            )
        ]
        if len(tokens) == 2 and names and tokens[1].text == "same" and self._as_before(line, tokens, names):
            return True
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
        if any(token.kind == "setsxm" for token in tokens) and "setsxm" not in kinds:
            kinds = {token.kind for token in tokens}
        if "list" in {token.kind for token in tokens} and not head.clock and self._pyramid(line, tokens, own):
            return True
        if not head.clock and self._endurance(line, tokens, own):
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
            self._first_alone(own)
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
        if not names and self.open is None and (title := self._lift_of_title(tokens, kinds)) is not None:
            done = self._lift(line, [title, *tokens], [title], own, label)
            self._on_clock_of_days()
            return done
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
                or (kinds == {"reps"} and len(tokens) == 1)
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

    def _first_alone(self, own: str) -> None:
        """`every 2 min x 5, start 60 %, add each`: the load is that of the first set alone."""
        lift = self.open
        if not isinstance(lift, LiftDraft) or len(lift.groups) != 1 or _STARTS.search(own) is None:
            return
        group = lift.groups[0]
        if isinstance(group, SetGroup) and group.sets > 1 and group.load is not None:
            lift.groups = [replace(group, sets=1), replace(group, sets=group.sets - 1, load=None)]

    def _lift_of_title(self, tokens: list[Token], kinds: set[str]) -> Token | None:
        """The one barbell lift that the words above name, for a day's row of sets without one: `Bench only`, `Mon: 5x6 @ 72 %`."""
        if (
            self.prose
            or self.session.items
            or not kinds & {"setsx"}
            or not kinds & {"pct", "rpe", "atx"}
            or kinds & CLOCKS
            or tokens[0].kind != "setsx"
        ):
            return None
        named: list[Token] = []
        for other in self.lines[: self.at]:
            above = tokens_of(plain(other.text))
            if {token.kind for token in above} & {"setsx", "sets"}:
                break
            named += [token for token in above if token.kind == "name"]
        lifts = {token.value.name for token in named}
        if len(lifts) != 1 or named[0].value.known is None or named[0].value.known.implement != "barbell":
            return None
        return replace(named[0], start=0, end=0)

    def _as_before(self, line: Line, tokens: list[Token], names: list[Token]) -> bool:
        """`bench same`: the sets of the lift before it."""
        above = self._last_item()
        if not isinstance(above, LiftDraft) or not above.groups:
            return False
        self._lift(line, tokens[:1], names, "", "")
        lift = self.open
        assert isinstance(lift, LiftDraft)
        lift.groups, lift.of, lift.rest_s, lift.tempo = list(above.groups), above.of, above.rest_s, above.tempo
        return True

    def _loads_below(self, tokens: list[Token]) -> bool:
        """Whether a line has nothing but as many loads as the lift above has sets without one."""
        lift = self.open
        if not isinstance(lift, LiftDraft) or self.gap or len(tokens) != 1 or tokens[0].kind != "list":
            return False
        numbers, more, _ = tokens[0].value
        bare = sum(each.sets for each in lift.groups if isinstance(each, SetGroup) and each.load is None)
        return more is None and min(numbers) >= 30 and len(numbers) == bare
