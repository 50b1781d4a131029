"""What a phone kept comes to the log: once, in order, with the time of the touch; what can't be is told and holds nothing up."""

from __future__ import annotations

import threading
from datetime import UTC, datetime, timedelta

import pytest

from tests.day import this_day
from tests.desk.ladders import LADDER
from tests.loads import kg
from tests.pocket.posts import act, post, set_of
from tests.with_pieces import put_into_step
from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set, today, touches
from tracker.desk.files import check, deletion, export, files_json
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.pocket import plan
from tracker.pocket.acts import take
from tracker.pocket.plan import plan_of
from tracker.pocket.post import BadPostError, OtherMemberError


@pytest.fixture
def planned(log, ana, squat):
    """Three sets of 3 at 80 kg, today."""
    with log.act("a wave") as made:
        steps = [NewStep("Harbour squats", 0, [NewPlannedSet(squat.id, 3, 3, load=kg("80"), rest_s=120)])]
        log_waves.start_wave(made, ana.id, log_waves.add_wave(made, "Harbour", steps), this_day())
    return today.steps(log, ana.id)[0]


def taken(log, member, *acts, **named):
    return [each.how for each in take(log, member.id, post(*acts, **named), datetime.now(UTC))]


def the_plan(log, member):
    return plan_of(log, member.id, this_day())


def lines_of(log, member):
    return the_plan(log, member)["sessions"][0]["lines"]


def sets(log, member):
    return today.day_plan(log, member.id, this_day()).sets


def test_a_touch_is_in_the_log_with_its_own_time_and_fulfils_the_plan(log, ana, planned):
    touched = datetime.now(UTC).replace(microsecond=0) - timedelta(minutes=40)
    assert taken(log, ana, act("set", set_of(lines_of(log, ana)[0], planned.id), at=touched)) == ["done"]
    (row,) = sets(log, ana)
    assert (row.load, row.reps, row.outcome, row.logged_at) == (kg("80"), 3, "done", touched)
    assert (row.member_step_id, row.planned_round) == (planned.id, 1)
    assert [bool(each["done"]) for each in lines_of(log, ana)] == [True, False, False]


def test_sent_again_it_is_in_the_log_once_whatever_came_between(log, ana, planned):
    one, two = (act("set", set_of(line, planned.id), seq) for seq, line in enumerate(lines_of(log, ana)[:2], 1))
    assert taken(log, ana, one) == ["done"]
    assert taken(log, ana, one, two) == ["again", "done"]
    assert taken(log, ana, one, two, device="the same after a reload") == ["again", "again"]
    assert len(sets(log, ana)) == 2


def test_a_plan_that_is_made_while_a_touch_comes_in_knows_the_touch_with_its_set_or_neither(
    log, ana, planned, monkeypatch
):
    """Else the phone, told that the log has the touch, would show the set as not done, and offer it once more."""
    waiting = [act("set", set_of(line, planned.id), seq) for seq, line in enumerate(lines_of(log, ana)[:2], 1)]
    read = plan.whats_next

    def read_and_then_touched(*args, **named):
        found = read(*args, **named)
        if waiting:
            taken(log, ana, waiting.pop())
        return found

    monkeypatch.setattr(plan, "whats_next", read_and_then_touched)
    for known in (2, 2):
        made = the_plan(log, ana)
        there = {each["id"] for each in made["sets"]}
        assert len(there) == len(made["touches"]) == known
        assert {each for touch in made["touches"].values() for each in touch["made"]} == there
        assert [bool(each["done"]) for each in made["sessions"][0]["lines"]] == [True, True, False]


def test_the_same_id_with_other_content_changes_nothing_and_is_told(log, ana, planned):
    one = act("set", set_of(lines_of(log, ana)[0], planned.id))
    taken(log, ana, one)
    assert taken(log, ana, {**one, "body": {**one["body"], "reps": 2}}) == ["clash"]
    assert [row.reps for row in sets(log, ana)] == [3]


def test_sent_again_after_it_became_impossible_it_is_still_told_as_the_one_that_the_log_has(log, ana, squat):
    body = {"lift": squat.id, "load": "21", "unit": "kg", "reps": 5, "outcome": "done"}
    one = act("set", body)
    assert taken(log, ana, one) == ["done"]
    (known,) = sets(log, ana)
    log_set.remove_set(log, known.id, today=this_day())
    for back in (3, 2, 1):
        log_set.log_set(log, ana.id, this_day() - timedelta(days=back), NewSet(squat.id, kg("46"), 5), sure=True)
    assert taken(log, ana, act("set", body)) == ["parked"]  # 21 beside 46 is asked about by now
    assert taken(log, ana, one) == ["again"]
    assert taken(log, ana, {**one, "body": {**body, "load": "22"}}) == ["clash"]
    assert sets(log, ana) == ()


def test_two_that_come_at_the_same_moment_are_one(log, ana, planned):
    one, found = act("set", set_of(lines_of(log, ana)[0], planned.id)), []
    both = threading.Barrier(2)

    def send():
        both.wait()
        found.extend(taken(log, ana, one))

    threads = [threading.Thread(target=send) for _ in range(2)]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert sorted(found) == ["again", "done"]
    assert len(sets(log, ana)) == 1


def test_a_post_is_taken_in_the_order_of_its_device(log, ana, planned):
    acts = [act("set", set_of(line, planned.id), seq) for seq, line in enumerate(lines_of(log, ana), 1)]
    assert taken(log, ana, *reversed(acts)) == ["done"] * 3
    assert [row.planned_round for row in sorted(sets(log, ana), key=lambda row: row.position)] == [1, 2, 3]


def test_one_that_cannot_be_is_parked_with_its_reason_and_holds_up_none(log, ana, planned):
    line = lines_of(log, ana)[0]
    bad, good = act("set", {**set_of(line, planned.id), "load": "9000"}, 1), act("set", set_of(line, planned.id), 2)
    found = take(log, ana.id, post(bad, good), datetime.now(UTC))
    assert [each.how for each in found] == ["parked", "done"]
    assert "9000" in found[0].words
    assert taken(log, ana, bad) == ["parked"]  # nothing of it was noted: it may still be mended and sent


def test_a_load_that_looks_like_the_other_unit_is_asked_about_and_logged_when_it_is_meant(log, ana, squat):
    usual = {"lift": squat.id, "load": "100", "unit": "kg", "reps": 3}
    taken(log, ana, act("set", usual))
    odd = {**usual, "load": "225"}
    (found,) = take(log, ana.id, post(act("set", odd)), datetime.now(UTC))
    assert (found.how, found.slip) == ("parked", True)
    assert taken(log, ana, act("set", {**odd, "sure": True})) == ["done"]


def test_undo_takes_back_what_was_sent_with_it_and_what_was_saved_before(log, ana, planned):
    one, two = (act("set", set_of(line, planned.id), seq) for seq, line in enumerate(lines_of(log, ana)[:2], 1))
    taken(log, ana, one)
    assert taken(log, ana, two, act("undo", {"of": two["id"]}, 3), act("undo", {"of": one["id"]}, 4)) == ["done"] * 3
    assert sets(log, ana) == ()
    assert taken(log, ana, one) == ["again"]  # what was taken back does not come back by a late second sending
    assert sets(log, ana) == ()
    assert the_plan(log, ana)["touches"][one["id"]]["undone"]


def test_what_was_taken_back_is_put_back_and_taken_back_again(log, ana, planned):
    one = act("set", set_of(lines_of(log, ana)[0], planned.id))
    first = act("undo", {"of": one["id"]}, 2)
    again = act("undo", {"of": first["id"]}, 3)
    for seq, (each, left) in enumerate(((first, 0), (again, 1), (act("undo", {"of": again["id"]}, 4), 0)), 2):
        assert taken(log, ana, *([one] if seq == 2 else []), each)[-1] == "done"
        assert len(sets(log, ana)) == left
    assert [bool(each["done"]) for each in lines_of(log, ana)] == [False] * 3


@pytest.mark.parametrize("kind", ["skip", "end", "move", "after"])
def test_what_a_stray_touch_ended_is_taken_back(log, ana, planned, kind):
    one = act("set", set_of(lines_of(log, ana)[0], planned.id))
    taken(log, ana, one)
    before = the_plan(log, ana)
    later = (this_day() + timedelta(days=2)).isoformat()
    stray = act(kind, {"step": planned.id, "of": one["id"], "how": "hurt", "to": later}, 2)
    assert taken(log, ana, stray) == ["done"]
    assert the_plan(log, ana)["next"] != before["next"]
    assert taken(log, ana, act("undo", {"of": stray["id"]}, 3)) == ["done"]
    after = the_plan(log, ana)
    assert {name: after[name] for name in ("next", "sessions", "hurts")} == {
        name: before[name] for name in ("next", "sessions", "hurts")
    }


def test_a_session_is_moved_to_a_later_day_and_to_no_earlier_one(log, ana, planned):
    for days, found in ((-1, "parked"), (0, "parked"), (3, "done")):
        to = (this_day() + timedelta(days=days)).isoformat()
        assert taken(log, ana, act("move", {"step": planned.id, "to": to})) == [found]
    assert taken(log, ana, act("move", {"step": planned.id, "to": "soon"})) == ["parked"]
    assert [each["due"] for each in the_plan(log, ana)["sessions"]] == [(this_day() + timedelta(days=3)).isoformat()]


def test_effort_alone_is_said_of_a_set_and_nothing_else_changes(log, ana, planned):
    one = act("set", {**set_of(lines_of(log, ana)[0], planned.id), "note": "knees in"})
    assert taken(log, ana, one, act("change", {"of": one["id"], "rir": "2"}, 2)) == ["done", "done"]
    (row,) = sets(log, ana)
    assert (row.load, row.reps, row.rir, row.note) == (kg("80"), 3, 2, "knees in")


def test_a_body_mass_that_was_kept_comes_before_the_set_that_needs_it(log, ana):
    pull = people.add_lift(log, "pull-up", "body", member_id=ana.id)
    said = {"lift": pull.id, "load": "10", "unit": "kg", "reps": 5}
    assert not the_plan(log, ana)["body_known"]
    assert taken(log, ana, act("set", said)) == ["parked"]
    heavy = {"load": "9000", "unit": "kg"}
    assert taken(
        log, ana, act("weigh", heavy), act("weigh", {"load": "72.5", "unit": "kg"}, 2), act("set", said, 3)
    ) == ["parked", "done", "done"]
    assert [row.body_mass for row in sets(log, ana)] == [kg("72.5")]
    assert the_plan(log, ana)["body_known"]


def test_a_lift_that_hurts_calls_nobody_back_and_the_plan_says_so(log, ana, planned):
    one = act("set", set_of(lines_of(log, ana)[0], planned.id))
    taken(log, ana, one)
    assert the_plan(log, ana)["hurts"] == []
    taken(log, ana, act("after", {"of": one["id"], "how": "hurt", "step": planned.id}, 2))
    assert the_plan(log, ana)["hurts"] == [one["body"]["lift"]]


def test_the_load_of_a_score_is_the_member_s_own(log, ana, ladder):
    said = {"piece": ladder.id, "place": [2, 0, 0], "text": "", "loads": {"0": "12 kg", "1": "", "9": "3 kg"}}
    assert taken(log, ana, act("score", said)) == ["done"]
    (row,) = today.day_plan(log, ana.id, this_day()).scores
    assert [(swap.index, swap.task.load) for swap in row.score.swaps] == [(0, kg("12"))]


def test_a_miss_is_what_it_was_and_a_change_reaches_what_was_kept_before_it(log, ana, planned):
    line = lines_of(log, ana)[0]
    missed = act("set", set_of(line, planned.id, reps=2, outcome="missed"), 1)
    change = act("change", {"of": missed["id"], "load": "77.5", "unit": "kg", "rir": "0", "note": "knees in"}, 2)
    assert taken(log, ana, missed, change) == ["done", "done"]
    (row,) = sets(log, ana)
    assert (row.outcome, row.reps, row.load, row.rir, row.note) == ("missed", 2, kg("77.5"), 0, "knees in")


def test_a_session_that_was_changed_meanwhile_logs_what_was_done_and_says_so(log, ana, planned):
    said = {**set_of(lines_of(log, ana)[0], planned.id), "planned": "f" * 32}
    (found,) = take(log, ana.id, post(act("set", said)), datetime.now(UTC))
    assert found.how == "done"
    assert "changed meanwhile" in found.words
    assert found.record()["changed"] is True
    assert [row.planned_set_id for row in sets(log, ana)] == [None]


def test_the_same_planned_set_of_two_phones_is_kept_twice_and_asked_about_once(log, ana, planned):
    said = set_of(lines_of(log, ana)[0], planned.id)
    early = datetime.now(UTC) - timedelta(minutes=3)
    taken(log, ana, act("set", said, at=early), device="one")
    taken(log, ana, act("set", said), device="two")
    assert len(sets(log, ana)) == 2
    (ask,) = the_plan(log, ana)["asks"]
    assert "3 minutes apart" in ask["words"]
    one_set = next(each for each in ask["answers"] if each["words"] == "One set")
    assert taken(log, ana, act("answer", {"question": ask["key"], "says": one_set["says"]})) == ["done"]
    assert len(sets(log, ana)) == 1
    assert the_plan(log, ana)["asks"] == []
    assert [bool(each["done"]) for each in lines_of(log, ana)] == [True, False, False]


def test_two_sets_stay_two_where_the_member_says_so_and_nobody_asks_again(log, ana, planned):
    said = set_of(lines_of(log, ana)[0], planned.id)
    taken(log, ana, act("set", said), device="one")
    taken(log, ana, act("set", said), device="two")
    (ask,) = the_plan(log, ana)["asks"]
    taken(log, ana, act("answer", {"question": ask["key"], "says": ask["answers"][1]["says"]}))
    assert (len(sets(log, ana)), the_plan(log, ana)["asks"]) == (2, [])


def test_a_clock_that_is_far_off_keeps_both_times_and_asks_the_day(log, ana, planned):
    wrong = timedelta(hours=3)
    said = set_of(lines_of(log, ana)[0], planned.id)
    one = act("set", said, at=datetime.now(UTC) + wrong)
    taken(log, ana, one, ahead=wrong)
    (row,) = sets(log, ana)
    assert abs((row.logged_at - datetime.now(UTC)).total_seconds()) < 60  # the server's time counts
    (known,) = touches.touches(log, ana.id)
    assert known.said["skew_s"] == pytest.approx(3 * 3600, abs=60)
    assert datetime.fromisoformat(known.said["at"]) > datetime.now(UTC) + timedelta(hours=2)  # and the phone's is kept
    (ask,) = the_plan(log, ana)["asks"]
    assert "3 hours ahead" in ask["words"]
    before = next(each for each in ask["answers"] if each["words"] == "yesterday")
    taken(log, ana, act("answer", {"question": ask["key"], "says": before["says"]}))
    assert sets(log, ana) == ()
    assert the_plan(log, ana)["asks"] == []


def test_a_few_minutes_between_two_clocks_are_believed_and_not_asked_about(log, ana, planned):
    at = datetime.now(UTC).replace(microsecond=0) - timedelta(minutes=10)
    taken(log, ana, act("set", set_of(lines_of(log, ana)[0], planned.id), at=at), ahead=timedelta(minutes=4))
    assert [row.logged_at for row in sets(log, ana)] == [at]
    assert the_plan(log, ana)["asks"] == []


def test_a_session_to_its_end_with_piece_clock_and_rating(log, ana, squat, ladder):
    with log.act("a wave") as made:
        steps = [NewStep("Quay", 0, [NewPlannedSet(squat.id, 1, 3, load=kg("80"))])]
        log_waves.start_wave(made, ana.id, log_waves.add_wave(made, "Quay", steps), this_day())
    step = today.steps(log, ana.id)[0]
    put_into_step(log, step.step_id, ladder.id)
    begun = datetime.now(UTC) - timedelta(minutes=30)
    start = act("start", {"piece": ladder.id, "step": step.id, "count_in": 0}, 2, at=begun)
    tap = act("tap", {"of": start["id"]}, 3, at=begun + timedelta(seconds=35))
    stop = act("stop", {"of": start["id"]}, 4, at=begun + timedelta(minutes=6))
    acts = [
        act("set", set_of(lines_of(log, ana)[0], step.id), 1), start, tap, stop,
        act("score", {"piece": ladder.id, "step": step.id, "place": [2, 1, 3], "text": "", "clock": start["id"], "splits": "0:35"}, 5),
        act("rate", {"step": step.id, "rating": 7, "minutes": 55, "note": "warm hall"}, 6),
    ]  # fmt: skip
    assert taken(log, ana, *acts) == ["done"] * 6
    assert taken(log, ana, *acts) == ["again"] * 6
    day = today.day_plan(log, ana.id, this_day())
    (score,) = day.scores
    assert score.score.positions[0] == LADDER.ladder.position(LADDER.ladder.through(2) + LADDER.ladder.at(2)[0] + 3)
    assert score.score.splits_s == (35,)
    assert (day.session.rating, day.session.minutes, day.session.note) == (7, 55, "warm hall")
    assert the_plan(log, ana)["next"]["kind"] == "nothing"


@pytest.mark.parametrize("said", ["0:00", "0:01", "0:01 0:02"])
def test_taps_that_the_phone_rounds_otherwise_or_that_do_not_fit_hold_up_no_score(log, ana, ladder, said):
    begun = datetime.now(UTC) - timedelta(minutes=30)
    start = act("start", {"piece": ladder.id, "count_in": 0}, 1, at=begun)
    taps = [act("tap", {"of": start["id"]}, seq, at=begun + timedelta(seconds=0.45 * seq)) for seq in (2, 3)]
    stop = act("stop", {"of": start["id"]}, 4, at=begun + timedelta(minutes=6))
    score = act("score", {"piece": ladder.id, "place": [1, 0, 0], "text": "", "clock": start["id"], "splits": said}, 5)
    assert taken(log, ana, start, *taps, stop, score) == ["done"] * 5
    assert len(today.day_plan(log, ana.id, this_day()).scores) == 1


def test_begin_skip_and_end_and_warm_up_by_touches(log, ana, squat):
    with log.act("a wave") as made:
        steps = [NewStep("Tomorrow", 0, [NewPlannedSet(squat.id, 1, 3, load=kg("80"))], text="Warm-up: row 500 m")]
        log_waves.start_wave(made, ana.id, log_waves.add_wave(made, "Later", steps), this_day() + timedelta(days=1))
    step = today.steps(log, ana.id)[0]
    assert the_plan(log, ana)["next"]["kind"] == "nothing"
    assert the_plan(log, ana)["sessions"][0]["id"] == step.id  # it comes along, whole
    assert taken(log, ana, act("begin", {"step": step.id}, 1)) == ["done"]
    assert the_plan(log, ana)["next"]["kind"] == "set"
    assert taken(log, ana, act("warm", {"step": step.id}, 2), act("warm", {"step": step.id}, 3)) == ["done", "done"]
    assert taken(log, ana, act("end", {"step": step.id}, 4)) == ["done"]
    assert taken(log, ana, act("begin", {"step": "0" * 32}, 5)) == ["parked"]


def test_acts_of_another_member_are_refused_whole(log, ana, squat):
    bo = people.add_member(log, "Bo")
    said = {"lift": squat.id, "load": "60", "unit": "kg", "reps": 3}
    with pytest.raises(OtherMemberError):
        take(log, bo.id, post(act("set", said, 1), act("set", said, 2, user=ana.id)), datetime.now(UTC))
    assert sets(log, ana) == sets(log, bo) == ()


@pytest.mark.parametrize(
    "broken",
    [
        None, [], {"f": 2}, {"f": 1}, {"f": 1, "device": "", "sent_at": 1, "acts": []}, {"f": 1, "device": "x", "sent_at": 1e99, "acts": []},
        {"f": 1, "device": "x", "sent_at": 1, "acts": [None]}, {"f": 1, "device": "x", "sent_at": 1, "acts": [{"body": {}}]},
        {"f": 1, "device": "x", "sent_at": 1, "acts": [{"id": "a" * 32, "seq": 1, "kind": "drop tables", "body": {}, "at": 1, "date": "2026-01-01"}]},
        {"f": 1, "device": "x", "sent_at": 1, "acts": [{"id": "a" * 32, "seq": 1, "kind": "undo", "body": {}, "at": "x", "date": "2026-01-01"}]},
        {"f": 1, "device": "x", "sent_at": 1, "acts": [{"id": "a" * 32, "seq": 1, "kind": "undo", "body": {}, "at": 1, "date": "soon"}]},
    ],
)  # fmt: skip
def test_a_post_that_no_page_sends_is_refused_and_nothing_is_taken(log, ana, broken):
    with pytest.raises(BadPostError):
        take(log, ana.id, broken, datetime.now(UTC))


@pytest.mark.parametrize(
    "body",
    [
        {}, {"lift": "no", "load": "1", "unit": "kg", "reps": 1}, {"lift": None, "load": "x", "unit": "kg", "reps": 1},
        {"load": "80", "unit": "stone", "reps": 1}, {"load": "NaN", "unit": "kg", "reps": 1}, {"load": "80", "unit": "kg", "reps": "3"},
        {"load": "80", "unit": "kg", "reps": 0}, {"load": "80", "unit": "kg", "reps": 3, "outcome": "maybe"},
        {"load": "80", "unit": "kg", "reps": 3, "rir": "lots"}, {"load": "80", "unit": "kg", "reps": 3, "note": "x" * 3000},
    ],
)  # fmt: skip
def test_a_set_that_cannot_be_is_parked_whatever_it_says(log, ana, squat, body):
    assert taken(log, ana, act("set", {"lift": squat.id, **body})) == ["parked"]
    assert sets(log, ana) == ()


@pytest.mark.sqlite("a document becomes an SQLite file on its way in")
def test_check_export_import_and_deletion_know_touches(log, ana, squat, planned, tmp_path, fresh):
    one = act("set", set_of(lines_of(log, ana)[0], planned.id), 1)
    taken(log, ana, one, act("undo", {"of": one["id"]}, 2), act("set", set_of(lines_of(log, ana)[1], planned.id), 3))
    export.export(log, tmp_path / "out")
    copy = open_log(fresh())
    files_json.take_log(copy, tmp_path / "out" / "log.json")
    assert taken(copy, ana, one) == ["again"]  # what the log had, its copy knows as well
    for each in (log, copy):
        assert check.check_log(each.url.render_as_string(hide_password=False)).problems == ()
    deletion.delete_member(copy, ana.id, "Ana")
    assert touches.touches(copy, ana.id) == ()
    copy.close()
