"""The invented gym in a log: whole, moved to today, and nobody's act to undo."""

import csv
from collections import Counter
from datetime import date, timedelta

import pytest

from tests.day import this_day
from tests.undoing import newest_act
from tracker import asset_folder
from tracker.desk.coach import class_sheet
from tracker.desk.day import today
from tracker.desk.files import demo
from tracker.desk.history import journal
from tracker.desk.history.training_load import load_report
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.errors import BadInputError
from tracker.log import sets as log_sets
from tracker.log.scores import scores_of


def rows(name):
    with (asset_folder("demo_data") / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def all_sets(log):
    with log.reading() as session:
        return {member.name: log_sets.sets_of(session, member.id) for member in people.members(log)}


def test_every_set_of_the_files_is_in_the_log_with_its_values(demo_log):
    wanted = Counter(
        (
            r["member"],
            r["lift"],
            r["load"],
            r["unit"],
            int(r["reps"]),
            r["rir"],
            r["outcome"],
            r["kind"],
            r["implement"],
        )
        for r in rows("sets")
    )
    found = Counter(
        (name, s.lift.name, f"{s.load.amount.normalize():f}", s.load.unit, s.reps,
         "" if s.rir is None else f"{s.rir.normalize():f}", s.outcome, s.kind, s.lift.implement)
        for name, sets in all_sets(demo_log).items()
        for s in sets
    )  # fmt: skip
    assert found == wanted


def test_every_date_moves_by_the_same_number_of_days_and_none_is_still_to_come(demo_log):
    firsts = {name: min(s.day for s in sets) for name, sets in all_sets(demo_log).items()}
    written = {name: min(date.fromisoformat(r["date"]) for r in rows("sets") if r["member"] == name) for name in firsts}
    assert len({firsts[name] - written[name] for name in firsts}) == 1
    assert max(s.day for sets in all_sets(demo_log).values() for s in sets) < this_day()


def test_every_score_of_the_files_is_in_the_log_with_its_piece(demo_log):
    with demo_log.reading() as session:
        found = Counter(
            (member.name, row.score.piece.title, row.score.note)
            for member in people.members(demo_log)
            for row in scores_of(session, member.id)
        )
    assert found == Counter((row["member"], row["piece"], row["note"]) for row in rows("scores"))


def test_each_members_step_brings_its_piece_and_their_weeks_are_known(demo_log):
    for member in people.members(demo_log):
        plan = conditioning.piece_day(demo_log, member.id, this_day())
        assert len(plan.planned) == 1 or plan.step is None
        weeks = load_report(demo_log, member.id, this_day()).weeks
        whole = [each.week for each in weeks[-9:-1] if not each.week.silent]
        assert all((week.load is None) == (week.unrated > 0) for week in whole), member.name  # silent days are rest
        assert any(week.load is not None for week in whole), member.name


def test_each_member_has_a_step_today_with_a_load_that_the_place_makes(demo_log):
    for member in people.members(demo_log):
        plan = today.day_plan(demo_log, member.id, this_day())
        assert plan.step is not None
        assert plan.step.due == this_day()
        assert plan.lines
        assert all(line.made for line in plan.lines), member.name


def test_undo_does_not_reach_the_history_that_the_demo_brought(demo_log):
    wren = next(m for m in people.members(demo_log) if m.name == "Wren")
    assert newest_act(demo_log, wren.id).words == "added the member Wren"


def test_sessions_carry_ratings_and_minutes(demo_log):
    wren = next(m for m in people.members(demo_log) if m.name == "Wren")
    found = journal.sessions(demo_log, wren.id, limit=1000)
    wanted = [r for r in rows("sessions") if r["member"] == "Wren" and r["rating"]]
    assert sum(entry.session.rating is not None for entry in found) == len(wanted) > 20


def test_a_log_with_members_is_refused_and_left_as_it_is(log):
    people.add_member(log, "Ana")
    with pytest.raises(BadInputError, match="members already"):
        demo.fill(log, this_day())
    assert [member.name for member in people.members(log)] == ["Ana"]


@pytest.mark.sqlite("make the whole demo once more")
def test_another_today_moves_the_story_there(log):
    demo.fill(log, this_day() - timedelta(days=10))
    assert max(s.day for sets in all_sets(log).values() for s in sets) < this_day() - timedelta(days=10)


def test_three_members_share_the_session_of_the_day_and_two_of_them_a_bar(demo_log):
    step, members = class_sheet.likely_class(demo_log, this_day())
    names = {each.id: each.name for each in people.members(demo_log)}
    assert {names[each] for each in members} == {"Wren", "Tobin", "Ondrej"}
    sheet = class_sheet.class_sheet(demo_log, step, members, this_day())
    assert [{pair.first, pair.second} for pair in sheet.partners] == [{"Wren", "Ondrej"}]
    assert any(each.options for piece in sheet.pieces for each in piece.tasks)
