"""How a member answered what a sheet can be read in two ways: entries of history by hand, as for cautions put away.

They are kept with the member who takes the sheets, go with them, can be undone, and stand in every export and copy. The
newest answer to a question counts.
"""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy.orm import Session as OrmSession

from tracker.log.by_hand import newest_said, say
from tracker.log.unit_of_work import ANSWERED, Act

MOST = 100  # letters of a question's key and of an answer's code


def keep(act: Act, member_id: str, answers: Mapping[str, str]) -> None:
    """Note what was answered, each question by its key; what was answered the same before is not noted again."""
    before = kept(act.session, member_id)
    new = {
        key: code for key, code in answers.items() if before.get(key) != code and len(key) <= MOST and len(code) <= MOST
    }
    if new:
        say(act, ANSWERED, member_id, dict(sorted(new.items())))


def kept(session: OrmSession, member_id: str | None) -> dict[str, str]:
    """Return the newest answer of a member to each question, by its key."""
    if member_id is None:
        return {}
    found: dict[str, str] = {}
    for entry in newest_said(session, member_id, [ANSWERED]):
        for key, code in entry.said.items():
            found.setdefault(str(key), str(code))
    return found
