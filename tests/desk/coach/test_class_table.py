"""Results of a class side by side, like with like; who is due for a test, and who has been away."""

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.loads import kg
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.coach import class_table as tables
from tracker.desk.coach import due
from tracker.desk.day import log_set, today
from tracker.desk.maxes import rep_maxes
from tracker.desk.maxes.references import Reference
from tracker.desk.people import people, places
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.piece_entry import Said
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep

LADDER = Piece("Lantern ladder", "as many as possible", (Task("kettlebell swing", Steady(3, 3)), Task("push-up", Steady(3, 3))), cap_s=720)  # fmt: skip


@pytest.fixture
def four(log):
    return [people.add_member(log, name) for name in ("Aldis", "Brannoch", "Corvin", "Delphine")]


@pytest.fixture
def squat(log):
    return people.add_lift(log, "front squat", "barbell")


def table_of(log, members):
    return tables.class_table(log, [each.id for each in members], this_day())


def test_sets_stand_in_a_row_by_outcome_and_ramp_sets_are_left_aside(log, four, squat):
    for reps, outcome, kind in ((5, "done", "ramp"), (4, "done", "work"), (4, "done", "work"), (3, "missed", "work"), (0, "missed", "test")):  # fmt: skip
        log_set.log_set(log, four[0].id, this_day(), NewSet(squat.id, kg(60), reps, outcome=outcome, kind=kind))
    (lift,) = table_of(log, four).lifts
    (line,) = lift.lines
    assert [(times, row.reps) for times, row in line.sets] == [(2, 4), (1, 3), (1, 0)]
    assert [line.count(outcome) for outcome in ("done", "missed", "cut")] == [2, 2, 0]
    assert (str(line.heaviest.load), line.heaviest.reps) == ("60 kg", 4)
    assert [each.name for each in table_of(log, four).absent] == ["Brannoch", "Corvin", "Delphine"]


def test_only_like_scores_are_compared_and_the_others_say_what_differs(log, four):
    piece = conditioning.add_piece(log, LADDER)
    # By hand: through the 15s is 2 x (3+6+9+12+15) = 90 repetitions, through the 12s 60.
    for member, said, swaps in zip(four, ("through the 12s", "through the 15s, plus 4", "through the 18s", "between 90 and 99"), ("", "", "push-up -> push-up from the knees", ""), strict=True):  # fmt: skip
        conditioning.log_score(log, member.id, piece.id, this_day(), Said(said, swaps=swaps))
    (found,) = table_of(log, four).pieces
    asked, swapped = found.groups
    assert [(line.member.name, line.best) for line in asked.lines] == [("Delphine", "perhaps best"), ("Brannoch", "perhaps best"), ("Aldis", "")]  # fmt: skip
    assert asked.differs == ()
    assert [line.member.name for line in swapped.lines] == ["Corvin"]
    assert swapped.lines[0].best == ""  # the most repetitions of all, and unlike the rest
    assert swapped.differs == ("push-up from the knees instead of push-up",)


def test_who_stopped_early_stands_apart(log, four):
    piece = conditioning.add_piece(log, LADDER)
    for member, said in ((four[0], "through the 12s"), (four[1], "stopped at 6:30, through the 15s")):
        conditioning.log_score(log, member.id, piece.id, this_day(), Said(said))
    groups = table_of(log, four).pieces[0].groups
    assert [group.differs for group in groups] == [(), ("stopped early",)]


def plan(log, member, lift, reps=3):
    with log.act("wave") as act:
        line = NewPlannedSet(lift.id, 3, reps, Decimal(80), reps)
        wave = log_waves.add_wave(act, f"Wave of {member.name}", [NewStep("one", 0, (line,))])
        log_waves.start_wave(act, member.id, wave, this_day())


def due_of(log, members):
    return {each.member.name: each for each in due.due_tests(log, [each.id for each in members], this_day())}


def test_missing_and_old_maxes_of_coming_loads_are_due_and_fresh_ones_are_not(log, four, squat):
    for member, weeks in zip(four, (None, 20, 3, 20), strict=True):
        if weeks:
            rep_maxes.add_rep_max(log, member.id, squat.id, this_day() - timedelta(weeks=weeks), 3, kg(80), tested=True)
    for member in four[:3]:
        plan(log, member, squat)
    found = due_of(log, four)
    assert set(found) == {"Aldis", "Brannoch"}  # Corvin's is fresh, and nothing of Delphine's rests on hers
    assert found["Aldis"].why == "No 3RM was tested or declared."
    assert found["Brannoch"].why == "The 3RM is 20 weeks old."


def test_a_max_that_the_sets_since_then_contradict_is_due_however_fresh(log, four, squat):
    rep_maxes.add_rep_max(log, four[0].id, squat.id, this_day() - timedelta(days=22), 3, kg(80), tested=True)
    for ago in (12, 8, 4, 1):
        log_set.log_set(log, four[0].id, this_day() - timedelta(days=ago), NewSet(squat.id, kg(90), 5, Decimal(1)))
    plan(log, four[0], squat)
    found = due_of(log, four)["Aldis"]
    assert "too low" in found.why
    # Five of 90 kg with one left are about a 3RM of 97 kg: 80 % of what is more than 80 kg is 13 kg and more.
    assert found.stake.kg > 10
    assert found.much == f"+{found.stake}"


def test_for_three_weeks_after_a_test_nothing_is_said_of_it(log, four, squat):
    for member, days in zip(four[:2], (21, 22), strict=True):
        rep_maxes.add_rep_max(log, member.id, squat.id, this_day() - timedelta(days=days), 3, kg(80), tested=True)
        for ago in (12, 8, 4, 1):
            log_set.log_set(log, member.id, this_day() - timedelta(days=ago), NewSet(squat.id, kg(90), 5, Decimal(1)))
        plan(log, member, squat)
    assert set(due_of(log, four)) == {"Brannoch"}


def test_the_most_load_at_stake_comes_first_and_what_no_load_can_follow_last():
    """A pair of 1.25 kg discs is the smallest step of a common bar: 2.5 kg."""
    member, lift = (
        MemberRecord("m", "Aldis", "kg", None, None, False, False, False),
        LiftRecord("l", "front squat", "barbell", 1, False, False, False),
    )
    known = Reference(3, kg(80), "tested", this_day() - timedelta(days=100))

    def one(stake, reference=known):
        return due.DueTest(member, lift, 3, reference, "why", "", None, stake, kg("2.5"))

    small, large, less, none, unknown = one(kg(1)), one(kg(5)), one(kg("-7.5")), one(None, None), one(None)
    assert sorted((small, large, less, none, unknown), key=lambda each: each.rank) == [
        none,
        less,
        large,
        unknown,
        small,
    ]
    assert small.much == "+1 kg, below your smallest step (2.5 kg): leave it"
    assert less.much == "−7.5 kg"
    assert none.much == "loads by feel"


def test_what_is_missing_of_the_days_sessions_is_told(log, four, squat):
    for member in four[:3]:
        plan(log, member, squat)
    for member, sets in ((four[0], 2), (four[1], 3)):
        step = today.steps(log, member.id)[0]
        for _ in range(sets):
            new = NewSet(squat.id, kg(60), 3, member_step_id=step.id, planned_set_id=step.sets[0].id)
            log_set.log_set(log, member.id, this_day(), new)
    found = {each.member.name: each.came for each in table_of(log, four).missing}
    assert found["Aldis"] == "2 of 3 sets"
    assert found["Corvin"] == "nothing yet of one"
    assert set(found) <= {"Aldis", "Corvin"}  # Delphine has none that day


def test_nobody_is_urged_to_test_who_asked_for_none(log, four, squat):
    people.prefer(log, four[0].id, name="Aldis", unit="kg", place_id=None, no_heavy=True, minor=False, alone=False)
    plan(log, four[0], squat)
    plan(log, four[1], squat)
    assert due_of(log, four)["Aldis"].held.key == "own switch"
    assert due_of(log, four)["Brannoch"].held is None


def test_who_has_been_away_the_longest_first_pieces_count_too(log, four, squat):
    piece = conditioning.add_piece(log, LADDER)
    log_set.log_set(log, four[0].id, this_day() - timedelta(days=3), NewSet(squat.id, kg(60), 5))
    log_set.log_set(log, four[1].id, this_day() - timedelta(days=40), NewSet(squat.id, kg(60), 5))
    conditioning.log_score(log, four[2].id, piece.id, this_day() - timedelta(days=14), Said("through the 12s"))
    found = due.away(log, [each.id for each in four], this_day())
    assert [(each.member.name, each.days, each.long) for each in found] == [
        ("Brannoch", 40, True), ("Corvin", 14, True), ("Aldis", 3, False), ("Delphine", None, False),
    ]  # fmt: skip


def test_a_score_of_a_session_of_one_s_own_is_marked(log, four):
    piece = conditioning.add_piece(log, LADDER)
    loft = places.add_place(log, "Loft", "kg")
    people.go_to_place(log, four[1].id, loft.id)
    with log.act("a wave", four[0].id) as act:
        wave = log_waves.add_wave(act, "Class", [NewStep("Class", 0, [])])
        log_waves.start_wave(act, four[0].id, wave, this_day())
    step = today.steps(log, four[0].id)[0].id
    conditioning.log_score(log, four[0].id, piece.id, this_day(), Said("through the 12s"), member_step_id=step)
    for member in four[1:3]:
        conditioning.log_score(log, member.id, piece.id, this_day(), Said("through the 9s"))
    (found,) = table_of(log, four).pieces
    assert {line.member.name: line.own for group in found.groups for line in group.lines} == {
        "Aldis": "", "Brannoch": "own session, Loft", "Corvin": "own session",
    }  # fmt: skip
