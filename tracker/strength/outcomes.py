"""How a set ended, in words: what was made and which repetition failed, never a load with a bare `missed` behind it."""

from __future__ import annotations

from tracker.strength.records import Outcome

ENDINGS = {1: "st", 2: "nd", 3: "rd"}


def ordinal(number: int) -> str:
    """Write a number as a place in a row: 1st, 2nd, 3rd, 4th, 11th, 21st."""
    teen = number % 100 in (11, 12, 13)
    return f"{number}{'th' if teen else ENDINGS.get(number % 10, 'th')}"


def failed_words(reps: int) -> str:
    """Say which repetition failed after `reps` that were made: `the 5th missed`."""
    return f"the {ordinal(reps + 1)} missed"


def ended_words(reps: int, outcome: Outcome) -> str:
    """Say how a set ended that was not done: `4 made, the 5th missed`; nothing where it was."""
    if outcome == "missed":
        return f"{reps} made, {failed_words(reps)}" if reps else failed_words(reps)
    return f"cut short after {reps}" if outcome == "cut" else ""


def set_in_words(reps: int, load: str, outcome: Outcome, *, times: str = "x", side: str = "") -> str:
    """Say a set with its load as it is said elsewhere: `5 x 60 kg`, `60 kg, 4 made, the 5th missed`.

    Args:
        reps: Repetitions that were made.
        load: The load in words.
        outcome: How it ended.
        times: The sign between repetitions and load.
        side: What follows the repetitions where each side was done by itself.
    """
    if outcome == "missed":
        return f"{load}{side}, {ended_words(reps, outcome)}"
    return f"{'cut short after ' if outcome == 'cut' else ''}{reps}{side} {times} {load}"
