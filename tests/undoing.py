"""Taking back what a member did last, as the journal does it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tracker.log.records import ChangeRow
    from tracker.log.unit_of_work import Log


def newest_act(log: Log, member_id: str) -> ChangeRow:
    """Return the newest act of a member that stands and is no undoing; one that the reader may take back, if there is any."""
    from tracker.desk.history import journal
    from tracker.log.undo import NothingToUndoError

    stand = [each for each in journal.acts(log, member_id, limit=200) if not each.undone and not _undoing(each)]
    if not stand:
        raise NothingToUndoError
    return next((each for each in stand if each.theirs), stand[0])


def _undoing(act: ChangeRow) -> bool:
    return act.words.startswith("undid")


def undo_newest(log: Log, member_id: str) -> str:
    """Take back that act, and return its words."""
    from tracker.desk.history import journal

    return journal.undo_act(log, newest_act(log, member_id).act_id)
