"""The card of the next set as the day page draws it: its own module, and the same values that a phone takes along."""

from __future__ import annotations

from pathlib import Path

from streamlit.components.v2 import component

from tracker.components.frame import cautions
from tracker.components.frame.frame import here
from tracker.components.frame.words import set_words
from tracker.desk.day import attempts, card
from tracker.desk.day.attempts import NextAttempt
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.next import Next

_drawn = component(
    "set_card",
    html='<div class="set-card"></div>',
    js=Path(__file__).with_suffix(".js").read_text(encoding="utf-8"),
    isolate_styles=False,
)


def show(found: Next, line: PlannedLine, at: NextAttempt | None = None) -> None:
    """Draw which set it is, what to load, the discs, how likely it is, and why; marked as what is next."""
    _drawn(key="set_card", data={"next": found.kind, "title": found.title, "set": values(found, line, at)})


def values(found: Next, line: PlannedLine, at: NextAttempt | None = None) -> card.Record:
    """Return what is drawn: the card of the set, with what was tried of a test and whether the body mass is to be typed.

    `at` is the attempt that is proposed, where it is one and nothing is to be asked first.
    """
    plan = found.plan
    said = card.card(line, plan.lines, plan.member, plan.place, plan.day)
    if at is not None:
        said |= card.attempt(at, line.lift, plan.member, plan.place)
    tried = "; ".join(set_words(row).removesuffix(", test") for row in line.attempts)
    safety = attempts.SAFETY_SAID[at.safety] if at is not None and at.safety else ""
    more = (f"So far: {tried}" if tried else "", *said["notes"], safety, plan.ask_body if line.lift.body else "")
    care = card.care(cautions.not_put_away(here(), line.cautions))
    last = [] if line.painful else [_unbroken(each) for each in plan.last_words(line, plan.day)]
    return {**said, "notes": [each for each in more if each], "cautions": care, "last": last}


def _unbroken(words: str) -> str:
    """Keep a number on one line with its unit."""
    for unit in (" %", " kg", " lb", " × "):
        words = words.replace(unit, unit.replace(" ", "\N{NO-BREAK SPACE}"))
    return words
