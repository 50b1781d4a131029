"""The coach's words on a session, parted: the warm-up, which comes before the first lift, what else there is to read, the end."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from tracker.desk.day.today import DayPlan
from tracker.desk.sheet.sheet_words import HEADS, parts_of


@dataclass(frozen=True, slots=True)
class WarmUp:
    """A warm-up in the coach's words, a line each; `ticked` is when the member said that it is done."""

    lines: tuple[str, ...]
    ticked: datetime | None
    begun: bool  # a set or a score of the session is there: nobody waits for the warm-up any more
    left_out: bool = False  # the member said so

    @property
    def done(self) -> bool:
        return self.ticked is not None

    @property
    def due(self) -> bool:
        """Whether it comes first: nobody ticked it off or left it out, and nobody began without it."""
        return not self.done and not self.begun and not self.left_out

    @property
    def state(self) -> str:
        """Say it in a word."""
        return "done" if self.done else "left out" if self.left_out else "to do"


def warm_up_of(plan: DayPlan) -> WarmUp | None:
    """Return the warm-up of the session that is on; None where the coach wrote none."""
    if plan.step is None:
        return None
    lines = warm_up_lines(plan.step.text)
    if not lines:
        return None
    said = next((mark for mark in plan.marks if mark.said in ("warm-up", "no warm-up")), None)
    ticked = said.at if said and said.said == "warm-up" else None
    step_id = plan.step.id
    begun = bool(plan.done) or any(row.member_step_id == step_id for row in plan.scores)
    return WarmUp(lines, ticked, begun, said is not None and said.said == "no warm-up")


def warm_up_lines(text: str) -> tuple[str, ...]:
    """Return the lines of a session's text that are its warm-up, without its head."""
    before = parts_of(text)[0]
    head = HEADS["warm-up"]
    at = next((number for number, line in enumerate(before) if line.startswith(head)), None)
    if at is None:
        return ()
    lines = (line.removeprefix(head).strip() for line in before[at:])
    return tuple(line for line in lines if line)


def other_words(text: str) -> tuple[str, ...]:
    """Return the coach's other lines on a session: those before the warm-up, and those that close it."""
    before, closing = parts_of(text)
    head = HEADS["warm-up"]
    at = next((number for number, line in enumerate(before) if line.startswith(head)), len(before))
    return (*before[:at], *closing)
