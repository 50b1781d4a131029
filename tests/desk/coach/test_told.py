"""What a coach does for several is told to each in words about them alone, and nobody is offered what the walls refuse."""

from __future__ import annotations

import pytest

from tests.day import this_day
from tests.desk.gym_world import NAMES, SHEET
from tests.undoing import undo_newest
from tracker.components.frame import acts
from tracker.desk.day import today
from tracker.desk.history import journal
from tracker.desk.sheet import sheets
from tracker.errors import TidemarkError
from tracker.log.undo import NothingToUndoError
from tracker.log.who import Who, acting

TEXT = SHEET.format(title="For all", percent=80)


@pytest.fixture
def gym(log, gym_world):
    gym_world.into(log)
    return log, gym_world


def member(world, name):
    return Who("member", world.of[name].id, name)


def on(log, world, name):
    return [each for each in today.steps(log, world.of[name].id) if each.wave == "For all"]


@pytest.mark.parametrize("own_log", [True, False])
def test_each_reads_their_own_name_at_most(gym, own_log):
    log, world = gym
    coach = world.who("coach") if own_log else Who("coach", None, "Dag")
    ids = [world.of[name].id for name in ("Bea", "Eve", *(["Dag"] if own_log else []))]
    with acting(coach):
        sheets.take_sheet(log, ids, TEXT, this_day())
    for name in ("Bea", "Eve"):
        with acting(member(world, name)):
            found = journal.acts(log, world.of[name].id)
            assert found[0].words == "was given the sheet For all"
            said = " ".join(each.words for each in found)
            assert not [other for other in NAMES if other != name and other in said]
            assert not found[0].theirs
            newest = acts.newest_act(log, world.of[name].id)
            assert newest is None or "For all" not in newest.words
            with pytest.raises(NothingToUndoError):
                journal.undo_act(log, found[0].act_id)


def test_the_coach_takes_it_back_and_each_reads_that(gym):
    log, world = gym
    dag = world.of["Dag"]
    with acting(world.who("coach")):
        sheets.take_sheet(log, [world.of["Bea"].id, world.of["Eve"].id], TEXT, this_day())
        act = journal.acts(log, dag.id)[0]
        assert act.words == "took the sheet For all for Bea, Eve"
        assert act.theirs
    assert on(log, world, "Bea")
    with acting(world.who("coach")):
        assert acts.newest_act(log, dag.id) == act
        journal.undo_act(log, act.act_id)
    assert not on(log, world, "Bea")
    assert not on(log, world, "Eve")
    with acting(member(world, "Bea")):
        assert journal.acts(log, world.of["Bea"].id)[0].undone


def test_a_coach_is_offered_no_act_of_a_member_who_shares(gym):
    log, world = gym
    bea = world.of["Bea"]
    with acting(world.who("coach")):
        found = journal.acts(log, bea.id)
        assert found
        assert not any(each.theirs for each in found)
        with pytest.raises(TidemarkError):
            undo_newest(log, bea.id)
    with acting(member(world, "Bea")):
        assert journal.acts(log, bea.id)[0].theirs


def test_where_nobody_signs_in_a_sheet_for_several_names_nobody_but_whose_history_it_is(gym):
    log, world = gym
    sheets.take_sheet(log, [world.of[name].id for name in ("Ana", "Bea", "Cyr")], TEXT, this_day())
    for name in ("Ana", "Bea", "Cyr"):
        with acting(member(world, name)):
            said = " ".join(each.words for each in journal.acts(log, world.of[name].id))
            assert "For all" in said
            assert not [other for other in NAMES if other != name and other in said]
