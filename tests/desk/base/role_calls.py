"""One call of each function of the desk that has a rule, on somebody's records: `from tracker.prescription.sheet import parse_sheet
CALLS["log_set.log_set"](log, theirs, tmp)`."""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.day import this_day
from tests.desk.gym_world import SHEET, Theirs, kg
from tests.exchange.layouts import comma
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.scores import Score
from tracker.desk.ahead import forecast, goal_reached, goal_view, goals, needed, plan, plan_done, when_to_test
from tracker.desk.base import backups, cached
from tracker.desk.coach import (
    class_sheet,
    class_table,
    classes,
    due,
    from_message,
    fulfil_asked,
    give_back,
    hand_out,
    report,
    report_more,
    send_result,
    take_results,
    wave_end,
    who_did,
)
from tracker.desk.coach.take_results import Takings
from tracker.desk.day import (
    after,
    after_miss,
    ahead,
    attempts,
    back,
    body_percent,
    carried,
    carried_ahead,
    complex_max,
    effects,
    falls,
    first_max,
    from_memory,
    last_time,
    lifts_today,
    log_set,
    max_of_set,
    new_max,
    newest,
    on_clock,
    over_midnight,
    own_session,
    readiness,
    resting,
    session_said,
    sore,
    sore_choice,
    today,
    told,
    touches,
    unit_today,
    usual,
    weights,
)
from tracker.desk.day import dismissed_cautions as seen
from tracker.desk.day import next as next_thing
from tracker.desk.files import check, custody, deletion, export, files_json, foreign, import_sets, take_away
from tracker.desk.history import journal, silent, training_load, weeks
from tracker.desk.maxes import estimate_many, estimates, glance, marks, maxes, reasons, rep_maxes, trend
from tracker.desk.people import (
    accounts,
    beginning,
    devices,
    groups,
    invitations,
    kit,
    people,
    places,
    roster,
    your_data,
)
from tracker.desk.pieces import (
    best_pieces,
    clocks,
    conditioning,
    last_piece,
    piece_by_touches,
    piece_care,
    piece_history,
    piece_side,
    ticks,
)
from tracker.desk.pieces.conditioning import Said
from tracker.desk.sheet import lift_side, sheets
from tracker.errors import BadInputError
from tracker.exchange.roster import read_roster
from tracker.exchange.sets_csv import read_sets
from tracker.log.goals import GoalRow
from tracker.log.records import KitItemRecord
from tracker.log.sets import NewSet
from tracker.log.touches import Touch
from tracker.log.unit_of_work import Log
from tracker.log.who import HERE, RefusedError, acting
from tracker.prescription.sheet import parse_sheet

Call = Callable[[Log, Theirs, Path], Any]
BAR = KitItemRecord("", "bar", "wide bar", kg(15), 1)
PIECE = Piece("Quayside", "for time", (Task("burpee", Steady(20)),), rounds=1)


def _new(t: Theirs) -> NewSet:
    return NewSet(t.lift.id, kg(90), 2)


def _csv(t: Theirs, folder: Path) -> Path:
    path = folder / "sets.csv"
    path.write_text(
        f"member,date,lift,implement,load,unit,reps\n{t.member.name},{t.day},front squat,barbell,60,kg,5\n", "utf-8"
    )
    return path


def _touch(t: Theirs) -> Touch:
    return Touch("a" * 32, t.id, "set", "", "phone", 1, this_day(), datetime.now(UTC))


def _item(log: Log, t: Theirs) -> KitItemRecord:
    found = next(each for each in places.places(log) if each.id == t.place.id)
    return found.items[-1]


def _take_table(log: Log, t: Theirs) -> Any:
    brought = foreign.look_at(log, comma(), "comma.csv", this_day())
    return foreign.take(log, brought.table, brought.mapping, member=t.member.name, today=this_day())


def _take_log(log: Log, folder: Path) -> None:
    with pytest.raises(BadInputError):  # of the file, before anything of a log is looked at
        files_json.take_log(log, folder / "none.json")


def _goal(log: Log, t: Theirs) -> GoalRow:
    """A goal of theirs, whoever asks: what is asked about it is held to the rule."""
    with acting(HERE):
        return next(each for each in goals.goals(log, t.id) if each.id == t.goal_id)


def _invited(log: Log, t: Theirs) -> Any:
    with contextlib.suppress(RefusedError):  # who signs in already is invited no more
        accounts.remove_account(log, t.account_id)
    return invitations.invite_all(log, [t.id])


def _given_groups(log: Log, t: Theirs) -> None:
    with contextlib.suppress(BadInputError):  # theirs is no coach's account: tests/desk/people/test_groups.py
        groups.give_groups(log, t.account_id, [t.group_id])


def _class_again(log: Log, t: Theirs) -> None:
    classes.change_class(
        log, t.class_id, f"Late {t.member.name}", "", group_id=t.group_id, member_ids=[t.id], place_id=None, coach=""
    )


def _code(log: Log) -> None:
    devices.new_code(log)
    devices.end_code(log)


def _attempted(log: Log, t: Theirs) -> str:
    """Try something of the first planned set, where that may be done, so that there is a test to end."""
    planned = t.step.sets[0]
    new = NewSet(t.lift.id, kg(90), 1, planned_set_id=planned.id, planned_round=2, member_step_id=t.step.id)
    with contextlib.suppress(RefusedError):
        log_set.log_set(log, t.id, this_day(), new, sure=True)
    return planned.id


def _first_line(log: Log, t: Theirs) -> tuple[today.DayPlan, today.PlannedLine]:
    """The day and its first set, whoever asks: what is asked of them is held to the rule."""
    with acting(HERE):
        day = today.day_plan(log, t.id, this_day(), member_step_id=t.step.id)
    return day, day.lines[0]


def _was(log: Log, t: Theirs) -> None:
    with contextlib.suppress(BadInputError):  # nothing of theirs came by a result
        fulfil_asked.say_it_was(log, t.id, t.day, t.step.id)


def period() -> report.Period:
    return report.Period(this_day() - timedelta(days=30), this_day())


def _told_and_taken_back(log: Any, t: Theirs, tmp: Path) -> str:
    from_message.write_down(log, t.id, this_day(), t.step.id, rating=6)
    told = from_message.newest_told(log, t.id)
    assert told is not None
    return from_message.take_back(log, t.id, told.act_id)


CALLS: dict[str, Call] = {
    "accounts.accounts": lambda log, t, tmp: accounts.accounts(log),
    "accounts.invite": lambda log, t, tmp: accounts.invite(log, "member", t.id),
    "accounts.enter": lambda log, t, tmp: accounts.enter(log, "https://door.example", f"second {t.id}", "coach"),
    "accounts.change_account": lambda log, t, tmp: accounts.change_account(log, t.account_id, "coach", t.id),
    "accounts.remove_account": lambda log, t, tmp: accounts.remove_account(log, t.account_id),
    "accounts.keep_an_owner": lambda log, t, tmp: accounts.keep_an_owner(log, t.id),
    "accounts.share": lambda log, t, tmp: accounts.share(log, t.id, not t.member.shared),
    "after.wave_ends": lambda log, t, tmp: after.wave_ends(log, t.member, this_day()),
    "after.go_again": lambda log, t, tmp: after.go_again(log, t.member, t.wave_id, this_day()),
    "after.go_test": lambda log, t, tmp: after.go_test(log, t.member, t.wave_id, t.lift, 3, this_day()),
    "after.go_home": lambda log, t, tmp: after.go_home(log, t.member, t.wave_id, this_day()),
    "after.tested_reps": lambda log, t, tmp: after.tested_reps(log, t.wave_id, t.lift),
    "after_miss.most_today": lambda log, t, tmp: after_miss.most_today(log, t.id, t.lift.id, this_day()),
    "after_miss.take": lambda log, t, tmp: after_miss.take(log, t.id, t.set_id, "same"),
    "after_miss.what_now": lambda log, t, tmp: after_miss.what_now(
        log, t.member, today.day_plan(log, t.id, this_day())
    ),
    "back.trained_meanwhile": lambda log, t, tmp: back.trained_meanwhile(log, t.id, t.day, this_day()),
    "after_miss.enough": lambda log, t, tmp: after_miss.enough(log, t.id, t.step.id, t.lift.id, this_day()),
    "on_clock.start": lambda log, t, tmp: on_clock.start(log, t.id, t.step.id, t.lift.id, this_day()),
    "unit_today.say": lambda log, t, tmp: unit_today.say(log, t.id, "lb", this_day(), lift_id=t.lift.id),
    "places.go_today": lambda log, t, tmp: places.go_today(log, t.id, t.place.id, this_day()),
    "from_message.newest_told": lambda log, t, tmp: from_message.newest_told(log, t.id),
    "from_message.take_back": _told_and_taken_back,
    "body_percent.say": lambda log, t, tmp: body_percent.say(log, t.id, t.lift.id, "added", this_day()),
    "carried_ahead.carried_ahead": lambda log, t, tmp: carried_ahead.carried_ahead(
        log, t.id, today.day_plan(log, t.id, this_day()), t.step
    ),
    "carried.carry_on": lambda log, t, tmp: carried.carry_on(
        log, t.id, t.step.id, t.lift.id, kg(50), this_day(), "take"
    ),
    "new_max.answer": lambda log, t, tmp: new_max.answer(log, t.id, t.set_id, 1, yes=True),
    "back.start": lambda log, t, tmp: back.start(log, t.id, t.day, this_day(), "lower"),
    "back.still_holds": lambda log, t, tmp: back.still_holds(log, t.id, t.lift.id, 5, t.day, this_day()),
    "attempts.next_attempt": lambda log, t, tmp: attempts.next_attempt(log, t.member, *_first_line(log, t)),
    "attempts.attempts_ahead": lambda log, t, tmp: attempts.attempts_ahead(log, t.member, *_first_line(log, t)),
    "attempts.say_safety": lambda log, t, tmp: attempts.say_safety(
        log, t.id, t.step.id, t.step.sets[0].id, "arms", this_day()
    ),
    "attempts.start_clock": lambda log, t, tmp: attempts.start_clock(
        log, t.id, t.step.id, t.step.sets[0].id, this_day()
    ),
    "usual.usual_set": lambda log, t, tmp: usual.usual_set(log, t.member, t.lift, t.place),
    "attempts.end_test": lambda log, t, tmp: attempts.end_test(log, t.id, t.step.id, _attempted(log, t), this_day()),
    "backups.kept": lambda log, t, tmp: backups.kept(log),
    "backups.make": lambda log, t, tmp: backups.make(log),
    "backups.rotate": lambda log, t, tmp: backups.rotate(tmp / "none.db"),
    "backups.let_go": lambda log, t, tmp: backups.let_go(log, ()),
    "beginning.begin": lambda log, t, tmp: beginning.begin(log, f"New {t.member.name}", "kg", day=this_day()),
    "check.check_log": lambda log, t, tmp: check.check_log(log.url.render_as_string(hide_password=False)),
    "class_sheet.dated_sessions": lambda log, t, tmp: class_sheet.dated_sessions(log, t.day),
    "class_sheet.sessions": lambda log, t, tmp: class_sheet.sessions(log),
    "class_sheet.likely_class": lambda log, t, tmp: class_sheet.likely_class(log, this_day()),
    "class_sheet.class_sheet": lambda log, t, tmp: class_sheet.class_sheet(log, t.step.step_id, [t.id], this_day()),
    "class_table.class_table": lambda log, t, tmp: class_table.class_table(log, [t.id], t.day),
    "ticks.tick": lambda log, t, tmp: ticks.tick(log, t.id, t.piece_id, this_day(), [(0, 0)]),
    "ticks.ticks": lambda log, t, tmp: ticks.ticks(
        log, t.id, t.piece_id, Piece("Rounds", "unscored", (Task("lunge"), Task("row"))), this_day()
    ),
    "classes.classes": lambda log, t, tmp: classes.classes(log),
    "classes.add_class": lambda log, t, tmp: classes.add_class(log, f"Noon {t.member.name}", member_ids=[t.id]),
    "classes.change_class": lambda log, t, tmp: _class_again(log, t),
    "classes.members_seen": lambda log, t, tmp: classes.members_seen(log, t.class_id),
    "classes.remove_class": lambda log, t, tmp: classes.remove_class(log, t.class_id),
    "groups.groups": lambda log, t, tmp: groups.groups(log),
    "groups.groups_whole": lambda log, t, tmp: groups.groups_whole(log),
    "groups.add_group": lambda log, t, tmp: groups.add_group(log, f"Squad {t.member.name}"),
    "groups.rename_group": lambda log, t, tmp: groups.rename_group(log, t.group_id, f"Team {t.member.name}"),
    "groups.remove_group": lambda log, t, tmp: groups.remove_group(log, t.group_id),
    "groups.put_in_group": lambda log, t, tmp: groups.put_in_group(log, t.group_id, []),
    "groups.given": lambda log, t, tmp: groups.given(log),
    "groups.give_groups": lambda log, t, tmp: _given_groups(log, t),
    "hand_out.hand_out": lambda log, t, tmp: hand_out.hand_out(
        log, t.class_id, SHEET.format(title=f"Spring {t.member.name}", percent=80), this_day()
    ),
    "hand_out.handed": lambda log, t, tmp: hand_out.handed(log, t.class_id),
    "invitations.uninvited": lambda log, t, tmp: invitations.uninvited(log),
    "invitations.invite_all": lambda log, t, tmp: _invited(log, t),
    "roster.look_at": lambda log, t, tmp: roster.look_at(log, read_roster(f"Newcomer to {t.member.name}")),
    "roster.take": lambda log, t, tmp: roster.take(log, read_roster(f"Newcomer to {t.member.name}")),
    "who_did.class_days": lambda log, t, tmp: who_did.class_days(log, t.class_id),
    "who_did.who_did_it": lambda log, t, tmp: who_did.who_did_it(log, t.class_id, this_day(), today=this_day()),
    "clocks.open_clock": lambda log, t, tmp: clocks.open_clock(log, t.id),
    "clocks.start_clock": lambda log, t, tmp: clocks.start_clock(log, t.id, t.piece_id, this_day()),
    "clocks.tap_round": lambda log, t, tmp: clocks.tap_round(log, t.clock_id),
    "clocks.untap_round": lambda log, t, tmp: clocks.untap_round(log, t.clock_id),
    "clocks.started_late": lambda log, t, tmp: clocks.started_late(log, t.clock_id, "2:00"),
    "clocks.stop_clock": lambda log, t, tmp: clocks.stop_clock(log, t.clock_id),
    "clocks.go_on": lambda log, t, tmp: clocks.go_on(log, t.clock_id),
    "clocks.put_clock_away": lambda log, t, tmp: clocks.put_clock_away(log, t.clock_id),
    "conditioning.pieces": lambda log, t, tmp: conditioning.pieces(log, t.id),
    "conditioning.piece_day": lambda log, t, tmp: conditioning.piece_day(log, t.id, this_day()),
    "conditioning.add_piece": lambda log, t, tmp: conditioning.add_piece(log, PIECE, t.id),
    "conditioning.add_piece_in_words": lambda log, t, tmp: conditioning.add_piece_in_words(
        log, "Piece: Quay\n2 rounds for time\n10 burpee", t.id
    ),
    "conditioning.add_option": lambda log, t, tmp: conditioning.add_option(log, t.piece_id, 0, "air squat", t.id),
    "conditioning.remove_piece": lambda log, t, tmp: conditioning.remove_piece(log, t.piece_id, t.id),
    "conditioning.log_score": lambda log, t, tmp: conditioning.log_score(
        log, t.id, t.piece_id, this_day(), Said("3:10")
    ),
    "conditioning.mend_score": lambda log, t, tmp: conditioning.mend_score(log, t.score_id, Said("3:15")),
    "conditioning.remove_score": lambda log, t, tmp: conditioning.remove_score(log, t.score_id),
    "custody.backup": lambda log, t, tmp: custody.backup(str(log.url.database), tmp / "copy.db", force=True),
    "custody.restore": lambda log, t, tmp: custody.restore(str(tmp / "target.db"), _copy(log, tmp)),
    "deletion.what_goes": lambda log, t, tmp: deletion.what_goes(log, t.id),
    "report_more.goal_rows": lambda log, t, tmp: report_more.goal_rows(log, t.member, this_day(), this_day()),
    "report_more.limit_lines": lambda log, t, tmp: report_more.limit_lines(log, t.id, this_day(), this_day()),
    "your_data.of_member": lambda log, t, tmp: your_data.of_member(log, t.id),
    "deletion.copies_holding": lambda log, t, tmp: deletion.copies_holding(log, t.id),
    "deletion.delete_member": lambda log, t, tmp: deletion.delete_member(log, t.id, t.member.name),
    "devices.paired": lambda log, t, tmp: devices.paired(log),
    "devices.new_code": lambda log, t, tmp: _code(log),
    "devices.end_code": lambda log, t, tmp: devices.end_code(log),
    "devices.code_state": lambda log, t, tmp: devices.code_state(log),
    "devices.named": lambda log, t, tmp: devices.named(log, t.member.name),
    "due.due_tests": lambda log, t, tmp: due.due_tests(log, [t.id], this_day()),
    "due.away": lambda log, t, tmp: due.away(log, [t.id], this_day()),
    "estimate_many.not_estimated": lambda log, t, tmp: estimate_many.not_estimated(log, [t.id]),
    "estimate_many.estimate": lambda log, t, tmp: estimate_many.estimate(log, [t.id], t.lift),
    "effects.coming_loads": lambda log, t, tmp: effects.coming_loads(log, t.id, this_day()),
    "estimates.is_kept": lambda log, t, tmp: estimates.is_kept(log, t.id, t.lift),
    "estimates.history": lambda log, t, tmp: estimates.history(log, t.id, t.lift),
    "falls.fallen_mark": lambda log, t, tmp: falls.fallen_mark(log, t.seen),
    "falls.fallen_score": lambda log, t, tmp: falls.fallen_score(log, t.id, t.score_id),
    "last_time.free_words": lambda log, t, tmp: last_time.free_words(log, t.id, t.lift, this_day()),
    "own_session.sources": lambda log, t, tmp: own_session.sources(log, t.id, this_day()),
    "own_session.begin": lambda log, t, tmp: own_session.begin(log, t.id, t.session_id, this_day()),
    "own_session.save_as": lambda log, t, tmp: own_session.save_as(log, t.id, t.session_id, "Leg day"),
    "own_session.forget_saved": lambda log, t, tmp: own_session.forget_saved(log, t.id, "Leg day"),
    "piece_by_touches.add_by_touches": lambda log, t, tmp: piece_by_touches.add_by_touches(
        log, "for time", [piece_by_touches.Part("burpee", 20)], member_id=t.id
    ),
    "sore.state": lambda log, t, tmp: sore.state(log, t.id),
    "sore.begin": lambda log, t, tmp: sore.begin(log, t.id, "knee", this_day()),
    "sore.end": lambda log, t, tmp: sore.end(log, t.id, "knee"),
    "told.tell_ill": lambda log, t, tmp: told.tell_ill(log, t.id, t.day, this_day()),
    "told.tell_left_out": lambda log, t, tmp: told.tell_left_out(log, t.id, t.lift.id, this_day()),
    "told.tell_limit": lambda log, t, tmp: told.tell_limit(log, t.id, "knee", this_day(), this_day()),
    "readiness.readiness": lambda log, t, tmp: readiness.readiness(log, t.id, this_day()),
    "readiness.say": lambda log, t, tmp: readiness.say(log, t.id, this_day(), "sleep", 2),
    "readiness.share": lambda log, t, tmp: readiness.share(log, t.id, this_day(), shared=True),
    "told.told": lambda log, t, tmp: told.told(log, t.id, this_day()),
    "sore.ease": lambda log, t, tmp: sore.ease(log, t.id, this_day()),
    "sore.mark_painful": lambda log, t, tmp: sore.mark_painful(log, t.id, t.lift.id),
    "sore_choice.choose": lambda log, t, tmp: sore_choice.choose(log, t.id, t.lift.id, "leave"),
    "from_message.sessions_of": lambda log, t, tmp: from_message.sessions_of(log, t.id, t.day),
    "from_message.told_of": lambda log, t, tmp: from_message.told_of(log, t.id, t.day, t.step.id),
    "from_message.write_down": lambda log, t, tmp: from_message.write_down(log, t.id, t.day, t.step.id, rating=5),
    "fulfil_asked.asked": lambda log, t, tmp: fulfil_asked.asked(log, t.id, t.day),
    "fulfil_asked.say_it_was": lambda log, t, tmp: _was(log, t),
    "resting.ways": lambda log, t, tmp: resting.ways(log, t.id),
    "resting.rest_for": lambda log, t, tmp: resting.rest_for(log, t.id, t.lift.id, 120),
    "resting.tell_by": lambda log, t, tmp: resting.tell_by(log, t.id, sound=False, vibration=True),
    "last_piece.last_piece": lambda log, t, tmp: last_piece.last_piece(log, t.id, PIECE, this_day()),
    "export.export": lambda log, t, tmp: export.export(log, tmp / "export"),
    "export.export_seen": lambda log, t, tmp: export.export_seen(log, tmp / "export"),
    "files_json.take_log": lambda log, t, tmp: _take_log(log, tmp),
    "import_sets.import_rows": lambda log, t, tmp: import_sets.import_rows(log, read_sets(_csv(t, tmp))),
    "first_max.rising": lambda log, t, tmp: first_max.rising(log, t.member, t.lift, this_day()),
    "foreign.look_at": lambda log, t, tmp: foreign.look_at(log, comma(), "comma.csv", this_day()),
    "foreign.take": lambda log, t, tmp: _take_table(log, t),
    "give_back.take_back": lambda log, t, tmp: give_back.take_back(log, Takings()),
    "journal.sessions": lambda log, t, tmp: journal.sessions(log, t.id),
    "journal.acts": lambda log, t, tmp: journal.acts(log, t.id),
    "journal.undo_act": lambda log, t, tmp: journal.undo_act(log, t.act_id),
    "journal.leave_out": lambda log, t, tmp: journal.leave_out(log, t.set_id, "slipped"),
    "journal.take_in_again": lambda log, t, tmp: journal.take_in_again(log, t.set_id),
    "journal.move_session": lambda log, t, tmp: journal.move_session(
        log, t.session_id, t.id, t.day - timedelta(days=1), today=this_day()
    ),
    "kit.begin_place": lambda log, t, tmp: kit.begin_place(log, f"Shed {t.member.name}", "kg", t.id),
    "kit.put_item": lambda log, t, tmp: kit.put_item(log, t.place.id, BAR, t.id),
    "kit.put_fixed": lambda log, t, tmp: kit.put_fixed(log, t.place.id, "dumbbell", [kg(11)], 2, t.id),
    "kit.say_full": lambda log, t, tmp: kit.say_full(log, t.place.id, kg(10), t.id),
    "kit.remove_item": lambda log, t, tmp: kit.remove_item(log, t.place.id, _item(log, t), t.id),
    "kit.take_ready_kit": lambda log, t, tmp: kit.take_ready_kit(log, t.place.id, kit.READY[0], t.id),
    "kit.take_ready_place": lambda log, t, tmp: kit.take_ready_place(log, t.place, "gym", t.id),
    "kit.change_facts": lambda log, t, tmp: kit.change_facts(
        log, t.place, t.id, name=f"{t.place.name}s", unit="kg", pins=False
    ),
    "forecast.fan": lambda log, t, tmp: forecast.fan(log, t.member, t.lift, reps=3, unit="kg", day=this_day(), weeks=4),
    "forecast.record": lambda log, t, tmp: forecast.record(log, t.member, t.lift, reps=3, unit="kg"),
    "goals.goals": lambda log, t, tmp: goals.goals(log, t.id),
    "goals.set_lift_goal": lambda log, t, tmp: goals.set_lift_goal(
        log, t.id, t.lift.id, reps=1, load=kg(140), by=this_day() + timedelta(weeks=9), day=this_day()
    ),
    "goals.set_piece_goal": lambda log, t, tmp: goals.set_piece_goal(
        log, t.id, t.piece_id, score=Score(PIECE, this_day(), time_s=200), by=None, day=this_day()
    ),
    "goals.change_goal": lambda log, t, tmp: goals.change_goal(
        log, t.id, t.goal_id, by=this_day() + timedelta(weeks=9), day=this_day(), load=kg(125)
    ),
    "goals.give_up": lambda log, t, tmp: goals.give_up(log, t.id, t.goal_id, this_day()),
    "goals.put_away": lambda log, t, tmp: goals.put_away(log, t.id, t.reached_id, this_day()),
    "goal_reached.reached": lambda log, t, tmp: goal_reached.reached(log, t.id, _goal(log, t)),
    "goal_view.lift_goals": lambda log, t, tmp: goal_view.lift_goals(log, t.member, t.lift, unit="kg", day=this_day()),
    "goal_view.preview": lambda log, t, tmp: goal_view.preview(
        log, t.member, t.lift, reps=3, load=kg(120), by=None, day=this_day()
    ),
    "goal_view.piece_goals": lambda log, t, tmp: goal_view.piece_goals(log, t.id, "Swings", day=this_day()),
    "goal_view.reached_on": lambda log, t, tmp: goal_view.reached_on(log, t.id, this_day()),
    "goal_view.view_of": lambda log, t, tmp: goal_view.view_of(log, t.member, _goal(log, t), day=this_day()),
    "plan.foresee": lambda log, t, tmp: plan.foresee(log, t.member, _sheet(), this_day(), this_day()),
    "plan_done.plan_done": lambda log, t, tmp: plan_done.plan_done(log, t.member, t.lift, this_day()),
    "plan.coming": lambda log, t, tmp: plan.coming(log, t.member, this_day()),
    "plan.of_class": lambda log, t, tmp: plan.of_class(log, (t.id,), _sheet(), this_day(), this_day()),
    "wave_end.wave_end": lambda log, t, tmp: wave_end.wave_end(log, (t.id,), this_day()),
    "needed.load_needed": lambda log, t, tmp: needed.load_needed(log, t.member, t.lift, 3, 0.8, this_day()),
    "needed.reps_possible": lambda log, t, tmp: needed.reps_possible(log, t.member, t.lift, kg(60), 0.8, this_day()),
    "when_to_test.when_to_test": lambda log, t, tmp: when_to_test.when_to_test(
        log, t.member, t.lift, reps=3, unit="kg", day=this_day()
    ),
    "glance.glance": lambda log, t, tmp: glance.glance(log, t.member, t.lift, this_day()),
    "reasons.why_now": lambda log, t, tmp: reasons.why_now(log, t.member, t.lift, 3, "kg"),
    "reasons.which_suits": lambda log, t, tmp: reasons.which_suits(log, t.member, t.lift),
    "lifts_today.lifts_today": lambda log, t, tmp: lifts_today.lifts_today(log, t.id, this_day()),
    "lifts_today.waves_today": lambda log, t, tmp: lifts_today.waves_today(log, t.id, this_day()),
    "best_pieces.best_pieces": lambda log, t, tmp: best_pieces.best_pieces(log, t.id, this_day()),
    "marks.last_beaten": lambda log, t, tmp: marks.last_beaten(log, t.id, t.lift, this_day()),
    "marks.best_marks": lambda log, t, tmp: marks.best_marks(log, t.member, t.lift),
    "marks.curve": lambda log, t, tmp: marks.curve(log, t.member, t.lift, this_day()),
    "maxes.histories_of_log": lambda log, t, tmp: maxes.histories_of_log(log, [t.member]),
    "over_midnight.day_on": lambda log, t, tmp: over_midnight.day_on(log, t.id, datetime.now(UTC)),
    "send_result.message": lambda log, t, tmp: send_result.message(log, t.id, t.day),
    "send_result.not_done_of": lambda log, t, tmp: send_result.not_done_of(log, t.id, t.day),
    "complex_max.say": lambda log, t, tmp: complex_max.say(log, t.id, t.lift.id, t.lift.id, this_day()),
    "max_of_set.maxes_made": lambda log, t, tmp: max_of_set.maxes_made(log, t.id, (t.set_id,)),
    "newest.newest_set": lambda log, t, tmp: newest.newest_set(log, t.id, t.lift.id),
    "people.members": lambda log, t, tmp: people.members(log),
    "people.members_named": lambda log, t, tmp: people.members_named(log),
    "people.member": lambda log, t, tmp: people.member(log, t.id),
    "people.add_member": lambda log, t, tmp: people.add_member(log, f"New {t.member.name}"),
    "people.prefer": lambda log, t, tmp: people.prefer(
        log, t.id, name=t.member.name, unit="lb", place_id=None, no_heavy=True, minor=False, alone=False
    ),
    "people.go_to_place": lambda log, t, tmp: people.go_to_place(log, t.id, t.place.id),
    "people.take_bar": lambda log, t, tmp: people.take_bar(log, t.id, t.place.of_kind("bar")[0].id),
    "people.free_name": lambda log, t, tmp: people.free_name(log, "Newcomer"),
    "people.lifts": lambda log, t, tmp: people.lifts(log),
    "people.add_lift": lambda log, t, tmp: people.add_lift(log, "pin press", "barbell", member_id=t.id),
    "people.say_implement": lambda log, t, tmp: people.say_implement(log, t.unasked.id, "machine", t.id),
    "people.body_masses": lambda log, t, tmp: people.body_masses(log, t.id),
    "people.weigh": lambda log, t, tmp: people.weigh(log, t.id, this_day(), kg(71)),
    "people.unweigh": lambda log, t, tmp: people.unweigh(log, t.id, t.day),
    "piece_care.cautions": lambda log, t, tmp: piece_care.cautions(log, t.member, PIECE, this_day()),
    "piece_care.watch": lambda log, t, tmp: piece_care.watch(log, t.member, (), this_day()),
    "piece_side.choose_side": lambda log, t, tmp: piece_side.choose_side(log, t.id, "smaller", t.piece_id),
    "piece_side.side_of": lambda log, t, tmp: piece_side.side_of(log, t.id, t.piece_id),
    "piece_history.piece_history": lambda log, t, tmp: piece_history.piece_history(
        log, t.id, f"Swings {t.member.name}"
    ),
    "places.places": lambda log, t, tmp: places.places(log),
    "places.place_of": lambda log, t, tmp: places.place_of(log, t.member),
    "places.add_place": lambda log, t, tmp: places.add_place(log, f"Barn {t.member.name}", "kg"),
    "places.free_name": lambda log, t, tmp: places.free_name(log, "Barn"),
    "places.change_place": lambda log, t, tmp: places.change_place(log, replace(t.place, pins=not t.place.pins), t.id),
    "places.remove_place": lambda log, t, tmp: places.remove_place(log, t.place.id, t.id),
    "rep_maxes.rep_maxes": lambda log, t, tmp: rep_maxes.rep_maxes(log, t.id),
    "rep_maxes.set_aside": lambda log, t, tmp: rep_maxes.set_aside(log, t.id, t.rep_max_id, this_day()),
    "rep_maxes.remove_rep_max": lambda log, t, tmp: rep_maxes.remove_rep_max(log, t.id, t.rep_max_id),
    "report.make_report": lambda log, t, tmp: report.make_report(log, t.id, period(), today=this_day()),
    "report.report_of": lambda log, t, tmp: report.report_of(log, t.id, period(), today=this_day()),
    "dismissed_cautions.put_away_on": lambda log, t, tmp: seen.put_away_on(log, t.id, this_day()),
    "dismissed_cautions.put_away": lambda log, t, tmp: seen.put_away(log, t.id, ["a caution"], this_day()),
    "dismissed_cautions.show_again": lambda log, t, tmp: seen.show_again(log, t.id, this_day()),
    "send_result.days_to_send": lambda log, t, tmp: send_result.days_to_send(log, t.id),
    "send_result.result_of": lambda log, t, tmp: send_result.result_of(log, t.id, t.day),
    "send_result.maxes_of": lambda log, t, tmp: send_result.maxes_of(log, t.id),
    "send_result.result_line": lambda log, t, tmp: send_result.result_line(log, t.id, t.day),
    "send_result.result_file": lambda log, t, tmp: send_result.result_file(log, t.id, t.day),
    "sheets.read_sheet": lambda log, t, tmp: sheets.read_sheet(log, SHEET.format(title="New tide", percent=80)),
    "lift_side.choose_lift_side": lambda log, t, tmp: lift_side.choose_lift_side(log, t.id, "smaller"),
    "sheets.answers_of": lambda log, t, tmp: sheets.answers_of(log, t.id),
    "sheets.take_sheet": lambda log, t, tmp: sheets.take_sheet(
        log, [t.id], SHEET.format(title=f"Neap {t.member.name}", percent=80), this_day(), by=t.id
    ),
    "ahead.steps_beside": lambda log, t, tmp: ahead.steps_beside(log, t.id, today.day_plan(log, t.id, this_day())),
    "ahead.session_beside": lambda log, t, tmp: ahead.session_beside(
        log, t.id, today.day_plan(log, t.id, this_day()), t.step
    ),
    "touches.touch_known": lambda log, t, tmp: touches.touch_known(log, t.id, _touch(t).id),
    "touches.touches": lambda log, t, tmp: touches.touches(log, t.id),
    "touches.set_now": lambda log, t, tmp: touches.set_now(log, t.id, t.set_id),
    "touches.note_touch": lambda log, t, tmp: touches.note_touch(log, t.id, "touched"),
    "touches.questions": lambda log, t, tmp: touches.questions(log, t.id, this_day(), ()),
    "next.whats_next": lambda log, t, tmp: next_thing.whats_next(log, t.id, this_day()),
    "session_said.tick_warm_up": lambda log, t, tmp: session_said.tick_warm_up(log, t.id, t.step, this_day()),
    "session_said.leave_out_warm_up": lambda log, t, tmp: session_said.leave_out_warm_up(log, t.id, t.step, this_day()),
    "session_said.untick_warm_up": lambda log, t, tmp: session_said.untick_warm_up(log, t.id, t.step, this_day()),
    "session_said.rate": lambda log, t, tmp: session_said.rate(log, t.id, this_day(), t.step, 7),
    "session_said.leave_unrated": lambda log, t, tmp: session_said.leave_unrated(log, t.id, this_day(), t.step),
    "sheets.changes": lambda log, t, tmp: sheets.changes(log, t.wave_id, _other(t)),
    "sheets.take_changes": lambda log, t, tmp: sheets.take_changes(log, t.wave_id, _other(t), by=t.id),
    "sheets.members_on": lambda log, t, tmp: sheets.members_on(log, t.wave_id),
    "take_away.everything": lambda log, t, tmp: take_away.everything(log),
    "take_away.of_member": lambda log, t, tmp: take_away.of_member(log, t.member),
    "take_away.sealed_copy": lambda log, t, tmp: take_away.sealed_copy(log),
    "take_results.take_results": lambda log, t, tmp: take_results.take_results(log, t.line),
    "take_results.take_file": lambda log, t, tmp: take_results.take_file(log, "day.txt", t.line),
    "take_results.take_files": lambda log, t, tmp: take_results.take_files(log, [("day.txt", t.line)]),
    "today.day_plan": lambda log, t, tmp: today.day_plan(log, t.id, this_day()),
    "from_memory.log_as_planned": lambda log, t, tmp: from_memory.log_as_planned(log, t.id, this_day()),
    "today.made_by": lambda log, t, tmp: today.made_by(log, t.id, this_day(), "", "estimated", prefer={}),
    "today.scene_of": lambda log, t, tmp: today.scene_of(log, t.member, t.place, this_day(), {}),
    "today.postpone": lambda log, t, tmp: today.postpone(log, t.id, t.step, today=this_day()),
    "today.go_on": lambda log, t, tmp: today.go_on(log, t.id, t.step, this_day()),
    "today.begin_now": lambda log, t, tmp: today.begin_now(log, t.id, t.step, this_day()),
    "today.skip": lambda log, t, tmp: today.skip(log, t.id, t.step),
    "today.finish": lambda log, t, tmp: today.finish(log, t.id, t.step, this_day()),
    "today.repeat": lambda log, t, tmp: today.repeat(log, t.id, t.step, this_day()),
    "today.ease_off": lambda log, t, tmp: today.ease_off(log, t.id, t.step, None),
    "today.planned_of_step": lambda log, t, tmp: today.planned_of_step(log, t.id, t.step.id, t.step.sets[0].id),
    "today.step": lambda log, t, tmp: today.step(log, t.id, t.step.id),
    "today.steps": lambda log, t, tmp: today.steps(log, t.id),
    "log_set.asked_about": lambda log, t, tmp: log_set.asked_about(log, t.id, t.lift.id, this_day()),
    "log_set.log_set": lambda log, t, tmp: log_set.log_set(log, t.id, this_day(), _new(t)),
    "log_set.mend_set": lambda log, t, tmp: log_set.mend_set(log, t.set_id, _new(t)),
    "log_set.move_set": lambda log, t, tmp: log_set.move_set(log, t.set_id, t.id, this_day(), today=this_day()),
    "log_set.remove_set": lambda log, t, tmp: log_set.remove_set(log, t.set_id, today=this_day()),
    "session_said.rate_session": lambda log, t, tmp: session_said.rate_session(
        log, t.session_id, t.id, rating=7, minutes=55, note=""
    ),
    "rep_maxes.add_rep_max": lambda log, t, tmp: rep_maxes.add_rep_max(
        log, t.id, t.lift.id, this_day(), 5, kg(95), tested=True
    ),
    "training_load.load_report": lambda log, t, tmp: training_load.load_report(log, t.id, this_day()),
    "silent.say_rested_on_all": lambda log, t, tmp: silent.say_rested_on_all(log, t.id, [this_day()]),
    "silent.count_silent_days": lambda log, t, tmp: silent.count_silent_days(log, t.id, this_day(), as_rest=False),
    "silent.say_of_weeks": lambda log, t, tmp: silent.say_of_weeks(
        log, t.id, this_day() - timedelta(days=206), this_day() - timedelta(days=200), this_day(), rested=True
    ),
    "trend.lifts_done": lambda log, t, tmp: trend.lifts_done(log, t.id),
    "trend.usual_reps": lambda log, t, tmp: trend.usual_reps(log, t.id, t.lift),
    "trend.trend": lambda log, t, tmp: trend.trend(log, t.member, t.lift, reps=3, day=this_day()),
    "trend.waves": lambda log, t, tmp: trend.waves(log, t.id),
    "cached.newest_entry": lambda log, t, tmp: cached.newest_entry(log),
    "weeks.trained_weeks": lambda log, t, tmp: weeks.trained_weeks(log, t.id, until=this_day()),
    "weeks.month": lambda log, t, tmp: weeks.month(log, t.id, this_day()),
    "weights.lift_choices": lambda log, t, tmp: weights.lift_choices(log, t.member),
    "weights.options": lambda log, t, tmp: weights.options(log, t.member, t.lift, 3, this_day()),
    "weights.rounding_choice": lambda log, t, tmp: weights.rounding_choice(log, t.member, _given(), this_day()),
    "weights.weights": lambda log, t, tmp: weights.weights(log, t.member, t.lift, _given(), "1x3@70", this_day()),
}


def _given() -> Any:
    return weights.typed_reference("100", 3, "kg", this_day())


def _sheet() -> Any:
    return parse_sheet(SHEET.format(title="New tide", percent=80))


def _other(t: Theirs) -> str:
    return SHEET.format(title=f"Tide {t.member.name}", percent=85)


def _copy(log: Log, folder: Path) -> Path:
    from tracker.log.copies import make_backup

    target = folder / "whole.db"
    if not target.exists():
        make_backup(Path(str(log.url.database)), target)
    return target
