"""How goals are said: what is wanted, and by when."""

from __future__ import annotations

from datetime import date

from tracker.conditioning.told import told_words
from tracker.desk.maxes.words import full_day, load_words
from tracker.log.goals import LiftAim, PieceAim


def what_words(aim: LiftAim | PieceAim) -> str:
    """Say what is wanted without its lift or piece: `1RM 110 kg`, `5RM 30 kg each`, `7:30`."""
    if isinstance(aim, LiftAim):
        return f"{aim.reps}RM {load_words(aim.load, aim.lift)}"
    return told_words(aim.score)


def by_words(by: date | None) -> str:
    """Say by when: `by 24 Dec 2026`, `some day`."""
    return f"by {full_day(by)}" if by else "some day"


def aim_words(aim: LiftAim | PieceAim, by: date | None) -> str:
    """Say a goal whole: `back squat, barbell, 1RM 110 kg, by 24 Dec 2026`."""
    of = aim.lift.title if isinstance(aim, LiftAim) else aim.score.piece.title
    return f"{of}, {what_words(aim)}, {by_words(by)}"
