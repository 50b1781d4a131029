"""The max that a set became by a yes: it is taken back in the same act where that set is mended, moved or removed.

A max that stays behind a slip of the fingers makes every percentage after it too heavy. So it goes unless its member says
that it stays, and whoever mended a set that still beats what is in use then is asked anew.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.maxes.words import load_words
from tracker.log import choices as log_choices
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import sets as log_sets
from tracker.log.choices import What
from tracker.log.records import RepMaxRow, SetRow
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Act, Log, Reader

WHAT: What = "new max"
ASK_AGAIN = "ask again"  # said of a set whose answer went with its max


@may("see")
def maxes_made(log: Log, member_id: str, set_ids: Collection[str]) -> Mapping[str, RepMaxRow]:
    """Return by a set's id the max in use that it became by a yes; nothing of the others."""
    if not set_ids:
        return {}
    with log.reading() as session:
        return _made(session, member_id, set_ids)


def words(row: RepMaxRow) -> str:
    """Name a max: `1RM of 120 kg`."""
    return f"{row.reps}RM of {load_words(row.load, row.lift)}"


def mended(act: Act, row: SetRow, new: NewSet) -> str:
    """Take the max back that a set made, where what it is from now on does not bear it; return what to say of it."""
    found = _made(act.session, row.member_id, [row.id]).get(row.id)
    return "" if found is None or _bears(new, found) else _take_back(act, row.id, found)


def removed(act: Act, row: SetRow) -> str:
    """Take the max back that a set made which goes; return what to say of it."""
    found = _made(act.session, row.member_id, [row.id]).get(row.id)
    return "" if found is None else _take_back(act, row.id, found)


def moved(act: Act, row: SetRow, member_id: str, day: date) -> str:
    """Let the max that a set made go along to another day; one of another member is taken back."""
    found = _made(act.session, row.member_id, [row.id]).get(row.id)
    if found is None:
        return ""
    if member_id != row.member_id:
        return _take_back(act, row.id, found)
    log_rep_maxes.move_rep_max(act, found.id, day)
    return ""


def undone(act: Act, set_ids: Collection[str]) -> str:
    """Take back what sets made that an undoing took away or gave other values; return what to say of it."""
    if act.member_id is None:
        return ""
    said = ""
    for set_id, found in _made(act.session, act.member_id, set_ids).items():
        row = log_sets.one_set(act.session, set_id)
        if row is None or row.removed_at or not _bears(row, found):
            said = said or _take_back(act, set_id, found)
    return said


def _made(session: Reader, member_id: str, set_ids: Collection[str]) -> dict[str, RepMaxRow]:
    wanted = set(set_ids)
    newest: dict[str, log_choices.Choice] = {}
    for each in log_choices.choices(session, member_id):
        if each.what == WHAT and each.get("set") in wanted:
            newest.setdefault(each.get("set"), each)
    acts = {which: each.act_id for which, each in newest.items() if each.get("how") == "yes"}
    if not acts:
        return {}
    known = {each.id: each for each in log_rep_maxes.rep_maxes(session, member_id)}
    made = {which: log_rep_maxes.made_in(session, act_id) & known.keys() for which, act_id in acts.items()}
    return {which: known[max_id] for which, ids in made.items() for max_id in ids}


def _bears(one: NewSet | SetRow, made: RepMaxRow) -> bool:
    lift_id = one.lift_id if isinstance(one, NewSet) else one.lift.id
    return (
        lift_id == made.lift.id
        and one.outcome == "done"
        and one.load.kg == made.load.kg
        and one.reps >= made.reps
        and not one.left_out
    )


def _take_back(act: Act, set_id: str, made: RepMaxRow) -> str:
    log_rep_maxes.remove_rep_max(act, made.id)
    log_choices.choose(act, made.member_id, WHAT, made.day, set=set_id, how=ASK_AGAIN)
    return f", and the {words(made)} that it made is taken back"
