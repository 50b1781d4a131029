"""Reads the sets of a lift week by week."""

from __future__ import annotations

import re
from dataclasses import replace

from tracker.prescription.sheet.days.headings import Heading
from tracker.prescription.sheet.days.weekdays import any_weekday
from tracker.prescription.sheet.lifts.lift_line import (
    as_lift,
    first_up,
    left_words,
    reps_out,
)
from tracker.prescription.sheet.lifts.marks import ALL_OF
from tracker.prescription.sheet.lifts.sets_found import SETS_KINDS
from tracker.prescription.sheet.lifts.sets_reading import read_sets
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.model import Reps, SetGroup
from tracker.prescription.sheet.piece import Movement
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.walk.drafts import LiftDraft, TextDraft
from tracker.prescription.sheet.walk.lifts import Lifts
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.names import known
from tracker.prescription.sheet.words.plain_words import plain

# "Squat cycle, % of training max": every number below is a percentage
_PERCENTS_OF = re.compile(r"%'?s? ?(?:are |is )?(?:of|off|from) ", re.IGNORECASE)


# One of two minutes alone: "EMOM 10, odd: jerk"
_ODD = re.compile(r"\bodds?\b", re.IGNORECASE)
_EVEN = re.compile(r"\bevens?\b", re.IGNORECASE)


def _only_a_clock(piece: PieceDraft) -> bool:
    """Whether a piece is no more than one movement, every so often."""
    return piece.fields.get("kind") == "every minute" and len(piece.moves) <= 1 and not piece.fields.get("cap_s")


def _every(clock: PieceDraft) -> int | None:
    """Seconds from the start of one set to that of the next; a lift of the odd minutes alone begins every second minute."""
    work, said = clock.fields.get("work_s"), " ".join(clock.text)
    one_of_two = clock.fields.get("in_turn") and bool(_ODD.search(said)) != bool(_EVEN.search(said))
    return work * 2 if work and one_of_two else work


def _says_more(clock: PieceDraft) -> bool:
    """Whether a clock's lines say more than its lift and how often its sets begin."""
    bare = all(move == Movement(move.name) for move in clock.moves)
    return not bare or bool(clock.title) or bool(clock.fields.keys() - {"kind", "work_s"})


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
        if clock is not None and any(known(move.name, lift=True) != lifts[0][1] for move in clock.moves):
            return False  # "EMOM 10: 8 burpees" below words about a lift
        if clock is not None:
            self.session.items = [each for each in self.session.items if each is not clock]
        lift = self._open_lift(line, [first_up(lifts[0][0])], lifts[0][1])
        lift.text.clear()  # the line comes with its sets
        if clock is not None:
            lift.line, lift.label = clock.line, clock.label
            self._on_clock_above(clock, lift)
        below = self._told_below()
        told = [token for text in (*above, *below) for token in tokens_of(plain(text)) if token.kind == "of"]
        lift.percents = any(_PERCENTS_OF.search(text) for text in (*above, *below))
        lift.of = read_sets(told[:1], self._scene(line)).of
        if self.session.weekday is None:
            self.session.weekday = any_weekday(" ".join(above))
        return True

    def _on_clock_above(self, clock: PieceDraft, lift: LiftDraft) -> None:
        """`Snatch, every 90 sec` above the weeks' sets: its clock and its lines are the lift's; what it says beside, a note."""
        self._moved(clock, lift)
        lift.text[:0] = clock.text
        lift.every_s, lift.clock_sets = _every(clock), clock.fields.get("intervals") or 0
        count = clock.moves[0].count if clock.moves else None
        lift.minute_reps = count.reps[0] if count is not None and not count.listed and not count.step else 0
        typed = [harmless(each).strip() for each in clock.text] if _says_more(clock) else []
        lift.notes += [*typed, *(note for note in clock.notes if note not in " ".join(typed))]

    def _on_clock_of_days(self) -> None:
        """`Jerk, every 2:00` above days with their sets alone is the clock of these; no session of its own is left of it."""
        lift, first = self.open_lift, next(iter(self.sessions), None)
        if lift is None or first is None:
            return
        if self.clock_above is None and not first.headed:
            found = [item for item in first.items if not isinstance(item, TextDraft)]
            if len(found) == 1 and isinstance(clock := found[0], PieceDraft) and _only_a_clock(clock):
                names = {known(move.name, lift=True) for move in clock.moves}
                self.clock_above = clock if names == {lift.known} else None
                first.items = [item for item in first.items if item is not self.clock_above]
                if not first.items:
                    self.sessions.remove(first)
        if self.clock_above is not None:
            self._on_clock_above(self.clock_above, lift)

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
        one = SetGroup(1, Reps(), read.loads[0], line=line.number) if not groups and len(read.loads) == 1 else None
        if lift.clock_sets and one is not None:  # "week 1: 70 %" below "EMOM 10"
            groups = [replace(one, sets=lift.clock_sets, reps=Reps((lift.minute_reps or 1,)))]
        elif not groups:
            lift.notes.append(harmless(line.raw).strip())
        lift.weeks.setdefault(heading.week or 1, []).extend(groups)
        lift.of = lift.of or read.of
        lift.text.append(line.raw.rstrip())
        if words := left_words(read.left):
            lift.notes.append(words)
        self._role(line, "sets", lift)
