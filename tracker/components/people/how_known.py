"""Whether a rep-max was tested or guessed: asked wherever one is typed, and answered by nobody but the member."""

from __future__ import annotations

from datetime import date

from tracker.errors import BadInputError

TEST_DAY = "Day of the test"


def check_how(how: str | None, day: date | None, *, tested: str) -> None:
    """Refuse a rep-max of which nobody said whether it was tested, and a tested one without its day."""
    if how is None:
        raise BadInputError("Say whether it was tested or guessed.", where="rep-max", mend="Choose one of them.")
    if how == tested and day is None:
        raise BadInputError("A test was on a day.", where=TEST_DAY.lower(), mend="Choose it, so that its age is known.")


def check_reps(reps: int | None) -> None:
    """Refuse a rep-max of nobody knows how many repetitions."""
    if reps is None:
        raise BadInputError("Nothing says for how many repetitions.", where="repetitions", mend="Write 1 to 30.")
