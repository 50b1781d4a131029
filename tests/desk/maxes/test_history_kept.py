"""What is kept of a lift in memory is brought up to date by what was written, and is then what reading it anew would give."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.readings import forget_estimates
from tests.taking_in import import_sets
from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set
from tracker.desk.history import journal
from tracker.desk.maxes import estimates, maxes, rep_maxes, trend
from tracker.desk.people import people
from tracker.log import sets as log_sets
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.strength.lift_curves import parameters_of
from tracker.strength.parameters import DEFAULT
from tracker.units import Mass

DAY = date(2026, 3, 2)


def _fill(log: Log) -> None:
    lift = people.add_lift(log, "front squat", "barbell")
    for member in (people.add_member(log, "Ada"), people.add_member(log, "Bo")):
        for week in range(4):
            for load in (60, 70):
                log_set.log_set(log, member.id, DAY + timedelta(weeks=week), new(lift.id, load))


def new(lift_id: str, load: int) -> NewSet:
    return NewSet(lift_id, Mass(Decimal(load), "kg"), 5, rir=Decimal(2))


@pytest.fixture
def gym(fresh: Callable[..., str]):
    """Two members who did one lift on four days each."""
    log = open_log(fresh("two_members_four_days", _fill))
    ada, bo = sorted(people.members(log), key=lambda each: each.name)
    (lift,) = (each for each in people.lifts(log) if each.name == "front squat")
    yield log, ada, bo, lift
    log.close()


def undo_newest(log: Log, member_id: str) -> None:
    journal.undo_act(log, journal.acts(log, member_id, limit=1)[0].act_id)


ACTS: dict[str, Callable] = {
    "a set at the end": lambda log, ada, bo, lift, rows: log_set.log_set(
        log, ada.id, DAY + timedelta(days=40), new(lift.id, 80)
    ),
    "a set between": lambda log, ada, bo, lift, rows: log_set.log_set(
        log, ada.id, DAY + timedelta(days=3), new(lift.id, 65)
    ),
    "one mended": lambda log, ada, bo, lift, rows: log_set.mend_set(log, rows[2].id, new(lift.id, 66), seen=rows[2]),
    "one removed": lambda log, ada, bo, lift, rows: log_set.remove_set(log, rows[0].id, today=this_day()),
    "one given to another": lambda log, ada, bo, lift, rows: log_set.move_set(log, rows[1].id, bo.id, DAY, today=this_day()),
    "one taken from another": lambda log, ada, bo, lift, rows: log_set.move_set(
        log, log_sets_of(log, bo.id, lift.id)[0].id, ada.id, DAY + timedelta(days=1), today=this_day()
    ),
    "a session moved": lambda log, ada, bo, lift, rows: journal.move_session(
        log, rows[0].session_id, ada.id, DAY - timedelta(days=5), today=this_day()
    ),
    "nothing of this lift": lambda log, ada, bo, lift, rows: log_set.log_set(
        log, ada.id, DAY, new(people.add_lift(log, "press", "barbell").id, 30)
    ),
    "an act taken back": lambda log, ada, bo, lift, rows: (log_set.remove_set(log, rows[3].id, today=this_day()), undo_newest(log, ada.id)),
    "a tested max": lambda log, ada, bo, lift, rows: rep_maxes.add_rep_max(
        log, ada.id, lift.id, DAY + timedelta(days=2), 3, Mass(Decimal(75), "kg"), tested=True
    ),
}  # fmt: skip


def log_sets_of(log: Log, member_id: str, lift_id: str):
    with log.reading() as session:
        return log_sets.sets_of(session, member_id, lift_id=lift_id)


@pytest.mark.parametrize("act", ACTS)
def test_what_is_kept_is_what_reading_anew_would_give(gym, act: str, monkeypatch):
    log, ada, bo, lift = gym
    before = {member.id: estimates.history(log, member.id, lift) for member in (ada, bo)}
    ACTS[act](log, ada, bo, lift, before[ada.id].sets)
    kept = {member.id: estimates.history(log, member.id, lift) for member in (ada, bo)}
    forget_estimates(monkeypatch)
    for member in (ada, bo):
        anew = estimates.history(log, member.id, lift)
        assert kept[member.id].sets == anew.sets
        assert kept[member.id].rep_maxes == anew.rep_maxes
        assert kept[member.id].model.estimate(DAY + timedelta(days=60)) == anew.model.estimate(DAY + timedelta(days=60))


def test_an_import_is_read_though_it_is_one_line_of_history(gym, tmp_path):
    log, ada, _, lift = gym
    estimates.history(log, ada.id, lift)
    path = tmp_path / "sets.csv"
    path.write_text("member,date,lift,implement,load,unit,reps\nAda,2026-02-01,front squat,barbell,50,kg,5\n")
    import_sets(log, path, today=DAY)
    assert estimates.history(log, ada.id, lift).sets[0].load == Mass(Decimal(50), "kg")


def calls_of(monkeypatch, module, name: str) -> list[tuple[tuple, dict]]:
    """Return a list that fills with what a function is called with, which it does as before."""
    calls, original = [], getattr(module, name)
    monkeypatch.setattr(module, name, lambda *args, **named: calls.append((args, named)) or original(*args, **named))
    return calls


def test_only_the_days_that_were_written_on_are_read_again(gym, monkeypatch):
    log, ada, _, lift = gym
    estimates.history(log, ada.id, lift)
    log_set.log_set(log, ada.id, DAY + timedelta(days=40), new(lift.id, 80))
    read = calls_of(monkeypatch, log_sets, "sets_of")
    assert len(estimates.history(log, ada.id, lift).sets) == 9
    assert [(named["since"], named["until"]) for _, named in read] == [(DAY + timedelta(days=40),) * 2]


def test_only_the_sets_of_those_days_are_made_ready_for_the_estimator_again(gym, monkeypatch):
    log, ada, _, lift = gym
    estimates.history(log, ada.id, lift)
    log_set.log_set(log, ada.id, DAY + timedelta(days=7), new(lift.id, 80))
    made = calls_of(monkeypatch, estimates, "_record")
    found = estimates.history(log, ada.id, lift)
    days = {row.day for (row, _), _ in made}
    assert DAY + timedelta(days=7) in days
    assert DAY not in days  # what stands before the day keeps its place
    assert found.model.days[-1].sets_used == 9


def test_points_of_a_period_are_those_of_the_whole_trend(gym):
    log, ada, _, lift = gym
    whole = trend.trend(log, ada, lift, reps=5, day=DAY + timedelta(days=30))
    since = DAY + timedelta(days=10)
    part = trend.trend(log, ada, lift, reps=5, day=DAY + timedelta(days=30), since=since, hindsight=False)
    assert [point.day for point in part.points] == [point.day for point in whole.points if point.day >= since]
    assert all(point.smoothed is None for point in part.points)
    assert [point.band for point in part.points] == [point.band for point in whole.points if point.day >= since]
    log_set.log_set(log, ada.id, DAY + timedelta(days=40), new(lift.id, 80))
    longer = trend.trend(log, ada, lift, reps=5, day=DAY + timedelta(days=41), hindsight=False)
    again = trend.trend(log, ada, lift, reps=5, day=DAY + timedelta(days=41))
    assert [point.band for point in longer.points] == [point.band for point in again.points]


def test_a_lift_that_rests_while_the_member_trains_another_keeps_its_level(gym):
    log, ada, bo, lift = gym
    press, back = people.add_lift(log, "press", "barbell"), DAY + timedelta(weeks=15)
    for week in range(4, 15):
        log_set.log_set(log, ada.id, DAY + timedelta(weeks=week), new(press.id, 30))
    rests, away = (estimates.history(log, member.id, lift).model.estimate(back).rep_max[5] for member in (ada, bo))
    assert rests.estimate > 1.02 * away.estimate
    assert rests.low80 > away.low80


def test_a_leg_press_is_read_with_what_is_known_of_its_repetitions(gym: tuple):
    """And from the command line too, which reads the same history by the lift's title."""
    log, ada, _, lift = gym
    press = people.add_lift(log, "leg press", "machine")
    log_set.log_set(log, ada.id, DAY, new(press.id, 150))
    found = estimates.history(log, ada.id, press).model
    assert found.parameters == parameters_of("leg press") != DEFAULT
    assert estimates.history(log, ada.id, lift).model.parameters == DEFAULT
    (answered,) = (maxes.answer(each) for each in maxes.histories_of_log(log, [ada], press))
    assert answered["one_rm"]["estimate"] == pytest.approx(found.estimate(DAY).one_rm.estimate, rel=0.001)
