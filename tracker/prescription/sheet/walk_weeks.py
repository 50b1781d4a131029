"""Reads the sets of a lift week by week."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.day_words import any_weekday
from tracker.prescription.sheet.drafts import LiftDraft, TextDraft
from tracker.prescription.sheet.headings import Heading
from tracker.prescription.sheet.lift_marks import ALL_OF
from tracker.prescription.sheet.lift_tokens import (
    as_lift,
    first_up,
    left_words,
    reps_out,
)
from tracker.prescription.sheet.piece_draft import PieceDraft
from tracker.prescription.sheet.plain_words import plain
from tracker.prescription.sheet.sets_found import SETS_KINDS
from tracker.prescription.sheet.sets_reading import read_sets
from tracker.prescription.sheet.tables import Line
from tracker.prescription.sheet.tokens import tokens_of
from tracker.prescription.sheet.walk_lifts import Lifts

# "Squat cycle, % of training max": every number below is a percentage
_PERCENTS_OF = re.compile(r"%'?s? ?(?:are |is )?(?:of|off|from) ", re.IGNORECASE)


def _only_a_clock(piece: PieceDraft) -> bool:
    """Whether a piece is no more than one movement without an amount, every so often."""
    return piece.fields.get("kind") == "every minute" and len(piece.moves) <= 1 and not piece.fields.get("cap_s")


class Weeks(Lifts):
    """The sets of a lift, week by week."""

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
        clock = self.open if isinstance(self.open, PieceDraft) and _only_a_clock(self.open) else None
        if (
            isinstance(self.open, LiftDraft)
            or self.session.headed
            or any(not isinstance(each, TextDraft) and each is not clock for each in self.session.items)
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
        if clock is not None:
            self.session.items = [each for each in self.session.items if each is not clock]
        lift = self._open_lift(line, [first_up(lifts[0][0])], lifts[0][1])
        if clock is not None:  # "Snatch, every 90 sec" above the weeks' sets
            self._moved(clock, lift)
            lift.every_s = clock.fields.get("work_s")
        below = self._told_below()
        told = [token for text in (*above, *below) for token in tokens_of(plain(text)) if token.kind == "of"]
        lift.percents = any(_PERCENTS_OF.search(text) for text in (*above, *below))
        lift.of = read_sets(told[:1], self._scene(line)).of
        if self.session.weekday is None:
            self.session.weekday = any_weekday(" ".join(above))
        return True

    def _told_below(self) -> list[str]:
        """The lines below that say what all percentages are of."""
        return [other.text for other in self.lines[self.at :] if ALL_OF.match(plain(other.text).strip())]

    def _week_sets(self, line: Line, heading: Heading) -> None:
        lift = self.open
        assert isinstance(lift, LiftDraft)
        lift.percents = lift.percents or any(
            _PERCENTS_OF.search(text) for text in (*lift.text[:1], *self._told_below())
        )
        read = read_sets(reps_out(tokens_of(plain(heading.rest)), lift_open=True), self._scene(line))
        groups = [replace(group, line=line.number) for group in read.groups]
        lift.weeks.setdefault(heading.week or 1, []).extend(groups)
        lift.of = lift.of or read.of
        lift.text.append(line.raw.rstrip())
        if words := left_words(read.left):
            lift.notes.append(words)
        self._role(line, "sets", lift)
