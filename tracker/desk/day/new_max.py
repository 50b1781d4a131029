"""A set or a test that beats the max in use, or a test below it: asked once, at once, whether it becomes the max, in one touch.

Nothing is worked out of it: a three is a max for three, and of what it would be for one nobody is told here.
"""

from __future__ import annotations

from dataclasses import replace

from tracker.desk.base.roles import may
from tracker.desk.day.log_set import as_new
from tracker.desk.day.max_of_set import WHAT
from tracker.desk.maxes.words import load_words
from tracker.errors import BadInputError
from tracker.log import choices as log_choices
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import sets as log_sets
from tracker.log.unit_of_work import Log

NOT_TAKEN = "not taken as the max"  # why a test is left out, in the member's own list


@may("change")
def answer(log: Log, member_id: str, set_id: str, reps: int, *, yes: bool) -> None:
    """Keep whether a set becomes the max for so many repetitions; undo takes it back.

    A test that does not is left out, as one that its member set aside is; a set that does is a tested max of its day.

    Raises:
        BadInputError: if the set is not in the log any more.
    """
    with log.act("said whether a set becomes the max", member_id, own=True) as act:
        row = log_sets.one_set(act.session, set_id)
        if row is None or row.removed_at or row.member_id != member_id:
            raise BadInputError("This set is not in the log any more.", where="set", mend="Reload the page.")
        load = load_words(row.load, row.lift)
        act.words = f"{row.lift.title}: {load} is {'' if yes else 'not '}the {reps}RM"
        log_choices.choose(act, member_id, WHAT, row.day, set=set_id, how="yes" if yes else "no")
        if yes and row.kind != "test":
            log_rep_maxes.add_rep_max(act, member_id, row.lift.id, row.day, reps, row.load, "tested")
        elif not yes and row.kind == "test":
            log_sets.change_set(act, set_id, replace(as_new(row), left_out=NOT_TAKEN))
