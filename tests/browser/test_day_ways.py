"""Ways beside the plan on the day page, all without a connection: later, the piece first, another day, and a stray touch."""

from __future__ import annotations

import re
from datetime import timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, next_is, now, online, opened, phone_of
from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import attempts, log_set, today
from tracker.desk.maxes import rep_maxes
from tracker.desk.maxes.words import load_words
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

    from tracker.log.unit_of_work import Log


def more(page: Page, name: str) -> None:
    page.locator("#more summary").tap()
    page.locator("#more").get_by_role("button", name=name).tap()


def back(page: Page, words: str) -> None:
    expect(page.locator(".back")).to_contain_text(words)
    page.locator("#back").tap()


def test_a_stray_touch_is_turned_round_where_it_happened(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        context.set_offline(True)
        act(page, "done")
        done_today(page, 1)
        act(page, "undo")
        done_today(page, 0)
        back(page, "Taken back: 4 ×")
        done_today(page, 1)
        back(page, "Put back: 4 ×")
        done_today(page, 0)
        back(page, "Taken back: 4 ×")
        more(page, "It hurts: no more of it")
        next_is(page, "piece")
        back(page, "it hurts: no more of it today")
        next_is(page, "set")
        more(page, "End the session here")
        next_is(page, "rating")
        back(page, "session ended")
        next_is(page, "set")
        kept(page, 9)
        online(context, page)
        kept(page, 0)
        done_today(page, 1)
        assert now(page)["state"] == "saved"
    assert len(gym.day("Wren")[0].sets) == 1


def test_a_missed_session_that_was_left_out_is_put_back(gym: Gym, chromium: Browser, log: Log):
    member = gym.member("Wren")
    step = next(each for each in today.steps(log, member) if each.due > this_day())
    with log.act("moved") as made:
        log_waves.set_due(made, step.id, this_day() - timedelta(days=2))
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        context.set_offline(True)
        page.locator(f"#skip_{step.id}").tap()
        expect(page.locator(f"#skip_{step.id}")).to_have_count(0)
        back(page, "left out")
        expect(page.locator(f"#skip_{step.id}")).to_have_count(1)
        online(context, page)
        kept(page, 0)
    assert next(each for each in today.steps(log, member) if each.id == step.id).state == "planned"


def test_the_piece_first_and_the_sets_after_it(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        context.set_offline(True)
        act(page, "done")
        more(page, "The piece first")
        next_is(page, "piece")
        more(page, "Back to the sets: 4 left")
        next_is(page, "set")
        more(page, "The piece first")
        page.reload()
        next_is(page, "piece")  # what was passed over stays so, for the day
        page.locator('[data-finished="3"]').tap()
        act(page, "score")
        next_is(page, "set")
        expect(page.locator(".over").first).to_have_text("Set 2 of 5")
        online(context, page)
        kept(page, 0)


def test_a_session_is_moved_to_another_day_and_brought_back(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        context.set_offline(True)
        title = page.locator("h1").inner_text()
        page.locator("#more summary").tap()
        page.locator(f"#move_{(this_day() + timedelta(days=2)).isoformat()}").tap()
        next_is(page, "nothing")
        expect(page.locator('section[aria-labelledby="ahead_head"]')).to_contain_text(title)
        back(page, "moved to")
        next_is(page, "set")
        back(page, "Taken back")
        online(context, page)
        kept(page, 0)
        next_is(page, "nothing")
    assert gym.day("Wren")[0].step is None


def test_effort_takes_one_touch_after_done(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        context.set_offline(True)
        act(page, "done")
        page.locator("#effort_2").tap()
        expect(page.locator(".effort")).to_have_count(0)
        act(page, "done")
        expect(page.locator("#effort_head")).to_contain_text("reps left?")
        kept(page, 3)
        online(context, page)
        kept(page, 0)
    assert [row.rir for row in sorted(gym.day("Wren")[0].sets, key=lambda row: row.position)] == [2, None]


def test_one_touch_logs_a_set_with_the_reps_that_were_left(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        context.set_offline(True)
        page.get_by_role("button", name="Done: 4 × 60 kg, 2 left").tap()
        done_today(page, 1)
        expect(page.locator('section[aria-labelledby="done_head"] li')).to_contain_text("4 × 60 kg, 2 left")
        expect(page.locator("#effort_head")).to_have_count(0)  # it is said already
        page.get_by_role("button", name="Done: 4 × 65 kg, 6 or more left").tap()
        done_today(page, 2)
        online(context, page)
        kept(page, 0)
    assert sorted((row.reps, row.rir) for row in gym.day("Wren")[0].sets) == [(4, 2), (4, 6)]


def test_when_to_stop_is_one_touch_away_without_a_connection_and_open_at_a_test(gym: Gym, chromium: Browser, log: Log):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        context.set_offline(True)
        page.reload()
        signs = page.locator("#stop")
        expect(signs).not_to_have_attribute("open", "")
        page.get_by_text("When to stop", exact=True).tap()
        expect(signs).to_contain_text("Call emergency help at once")
        act(page, "done")
        done_today(page, 1)
        expect(signs).to_have_attribute("open", "")  # as it was left by hand
    member = people.add_member(log, "Tova").id
    squat = people.add_lift(log, "low bar squat", "barbell", member_id=member)
    for ago in (60, 50, 40, 30, 20, 10, 3):
        log_set.log_set(log, member, this_day() - timedelta(days=ago), NewSet(squat.id, kg("90"), 3, Decimal(2)))
    with log.act("a wave") as made:
        step = NewStep(
            "Quay", 0, [NewPlannedSet(squat.id, 1, 5, load=kg("60")), NewPlannedSet(squat.id, 1, 1, test=True)]
        )
        log_waves.start_wave(made, member, log_waves.add_wave(made, "Quay", [step]), this_day())
    line = today.day_plan(log, member, this_day()).lines[1]
    attempts.say_safety(log, member, line.step_id, line.planned.id, "arms", this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        signs = page.locator("#stop")
        expect(signs).not_to_have_attribute("open", "")
        act(page, "done")
        expect(page.locator(".over").first).to_have_text("Attempt 1")
        expect(signs).to_have_attribute("open", "")
        care = page.locator("[data-next] .care")
        expect(care.locator("b")).to_have_count(1)  # one bold line, the rest behind it
        expect(care.locator("p").first).not_to_be_visible()
        care.get_by_text("Why").tap()
        expect(care).to_contain_text("A test is for a day on which you feel well")
        page.get_by_text("When to stop", exact=True).tap()
        page.locator("#menu").tap()
        expect(signs).not_to_have_attribute("open", "")


def test_sets_every_two_minutes_have_their_clock_without_a_connection(gym: Gym, chromium: Browser, log: Log):
    member = people.add_member(log, "Tova").id
    sheets.take_sheet(log, [member], "Deadlift every 2:00 x 5: 2 @ 85 % of 2RM", this_day())
    lift = today.day_plan(log, member, this_day()).lines[0].lift
    rep_maxes.add_rep_max(log, member, lift.id, this_day() - timedelta(days=9), 2, kg("100"), tested=True)
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        page.clock.install()
        context.set_offline(True)
        page.get_by_role("button", name="Start the clock: 5 × 2:00").tap()
        clock = page.locator("#rest")
        expect(clock).to_contain_text("Interval 1 of 5, next in")
        expect(page.locator("#set_clock")).to_have_count(0)
        act(page, "done")
        done_today(page, 1)
        expect(clock).to_contain_text("Interval 1 of 5, next in")
        page.clock.fast_forward(125_000)
        expect(clock).to_contain_text("Interval 2 of 5, next in 1:5")
        page.clock.fast_forward(360_000)
        expect(clock).to_contain_text("Last interval, 1:5")
        page.clock.fast_forward(120_000)
        act(page, "done")
        done_today(page, 2)
        expect(page.locator("#set_clock")).to_have_count(1)  # over: it can be started anew
        online(context, page)
        kept(page, 0)
    plan = gym.day("Tova")[0]
    assert plan.clock is not None
    assert plan.clock.started is not None  # Today shows the same one
    assert plan.clock.started < min(row.logged_at for row in plan.sets)


def test_a_tapped_round_and_a_stop_are_taken_back_and_what_comes_then_is_shown(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        context.set_offline(True)
        more(page, "The piece first")
        page.locator('[data-count="0"]').tap()
        act(page, "start")
        expect(page.locator("#clock_then")).to_contain_text("then: ")
        first, then = page.locator("#clock_now").inner_text(), page.locator("#clock_then").inner_text()
        page.locator("#tap").tap()
        expect(page.locator("#clock_now")).to_contain_text(then.removeprefix("then: "))
        page.locator("#untap").tap()
        expect(page.locator("#clock_now")).to_have_text(first)
        page.wait_for_timeout(1200)  # a round takes its time
        page.locator("#tap").tap()
        expect(page.locator("#away")).to_have_count(0)  # nothing that ends it all stands beside a clock that runs
        act(page, "stop")
        page.locator("#go_on").tap()
        expect(page.locator("#tap")).to_be_visible()
        act(page, "stop")
        page.locator("#away").tap()
        expect(page.locator("#start")).to_be_visible()
        back(page, "clock put away")
        expect(page.locator("#go_on")).to_be_visible()
        act(page, "score")
        next_is(page, "set")
        online(context, page)
        kept(page, 0)
    (score,) = gym.day("Wren")[0].scores
    assert len(score.score.splits_s) == 1


def test_after_it_hurts_no_countdown_calls_back_to_the_bar(gym: Gym, chromium: Browser, log: Log):
    member = people.add_member(log, "Tova").id
    squat = people.add_lift(log, "low bar squat", "barbell", member_id=member)
    press = people.add_lift(log, "seated press", "barbell", member_id=member)
    sets = [NewPlannedSet(squat.id, 2, 5, load=kg("80")), NewPlannedSet(press.id, 1, 5, load=kg("40"), block=1)]
    with log.act("a wave") as made:
        log_waves.start_wave(made, member, log_waves.add_wave(made, "Quay", [NewStep("Quay", 0, sets)]), this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        act(page, "done")
        kept(page, 0)
        expect(page.locator("#rest")).to_contain_text("Rest ")
        context.set_offline(True)
        more(page, "It hurts: no more of it")
        expect(page.locator("[data-next]")).to_have_attribute("data-title", "seated press, barbell")
        expect(page.locator("#rest")).to_be_hidden()
        expect(page.locator(".effort")).to_have_count(0)
        online(context, page)
        kept(page, 0)
        page.reload()
        expect(page.locator("[data-next]")).to_have_attribute("data-title", "seated press, barbell")
        page.wait_for_timeout(600)
        expect(page.locator("#rest")).to_be_hidden()  # by the plan of the log as well


def test_the_body_mass_is_asked_for_before_a_lift_that_moves_the_body(gym: Gym, chromium: Browser, log: Log):
    member = people.add_member(log, "Tova").id
    pull = people.add_lift(log, "weighted pull-up", "body", member_id=member)
    with log.act("a wave") as made:
        steps = [NewStep("Quay", 0, [NewPlannedSet(pull.id, 2, 5, load=kg("10"))])]
        log_waves.start_wave(made, member, log_waves.add_wave(made, "Quay", steps), this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        context.set_offline(True)
        act(page, "done")
        expect(page.locator("[data-next]")).to_contain_text("Type the body mass first")
        kept(page, 0)
        page.locator("#body_mass").fill("71,5")
        page.locator("#weigh").tap()
        expect(page.locator("#body_mass")).to_have_count(0)
        act(page, "done")
        kept(page, 2)
        online(context, page)
        kept(page, 0)
        done_today(page, 1)
    assert [(row.load, row.body_mass) for row in gym.day("Tova")[0].sets] == [(kg("10"), kg("71.5"))]


def test_attempts_of_a_test_are_proposed_without_a_connection(gym: Gym, chromium: Browser, log: Log):
    member = people.add_member(log, "Tova").id
    squat = people.add_lift(log, "low bar squat", "barbell", member_id=member)
    log_set.log_set(log, member, this_day() - timedelta(days=3), NewSet(squat.id, kg("90"), 3, Decimal(2)))
    with log.act("a wave") as made:
        steps = [NewStep("Quay", 0, [NewPlannedSet(squat.id, 1, 1, test=True)])]
        log_waves.start_wave(made, member, log_waves.add_wave(made, "Quay", steps), this_day())
    line = today.day_plan(log, member, this_day()).next_line
    assert line
    attempts.say_safety(log, member, line.step_id, line.planned.id, "arms", this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        context.set_offline(True)
        loads = []
        for which in ("Attempt 1", "Attempt 2", "Attempt 3"):
            expect(page.locator(".over").first).to_have_text(which)
            loads.append(page.locator("#done").inner_text().removeprefix("Made: 1 × ").removesuffix(" kg"))
            expect(page.locator("[data-next] .chance")).to_contain_text("likely to make 1 rep")
            if which != "Attempt 3":
                act(page, "done")
        act(page, "missed")
        page.locator('[data-reps="0"]').tap()
        expect(page.locator("[data-next]")).to_contain_text("After a miss nothing heavier is proposed.")
        loads.append(page.locator("#done").inner_text().removeprefix("Made: 1 × ").removesuffix(" kg"))
        online(context, page)
        kept(page, 0)
    assert Decimal(loads[0]) < Decimal(loads[1]) < Decimal(loads[2]) >= Decimal(loads[3])
    day = gym.day("Tova")[0]
    tried = sorted(day.sets, key=lambda row: row.position)
    assert [str(row.load.amount) for row in tried] == loads[:3]
    made_now = attempts.next_attempt(log, day.member, day, day.next_line).made  # with all three in the log
    assert made_now is not None
    assert re.fullmatch(rf"{loads[3]} kg", load_words(made_now.load, squat))


def test_a_clock_that_the_cap_ended_presets_nothing_that_nobody_did(gym: Gym, log: Log, chromium: Browser):
    someone = people.add_member(log, "Odalys")
    sheets.take_sheet(log, [someone.id], "For time, cap 1:00\n3 rounds\n10 burpees\n10 air squats", this_day())
    with phone_of(chromium) as context:
        page = context.new_page()
        page.clock.install()
        page.goto(f"{gym.url}/day?member=Odalys")
        next_is(page, "piece")
        page.locator('[data-count="0"]').tap()
        act(page, "start")
        expect(page.locator("#clock_face")).to_be_visible()
        page.clock.fast_forward(90_000)
        expect(page.get_by_text("Time is up. Did you finish?")).to_be_visible()
        expect(page.locator("#time")).to_have_count(0)  # no time that nobody made
        act(page, "score")
        expect(page.locator(".score .note")).to_contain_text("Say first")
        page.locator("#way_cap").tap()
        page.locator('[data-finished="1"]').tap()
        act(page, "score")
        page.clock.run_for(5_000)
        next_is(page, "rating")
        kept(page, 0)
    (score,) = today.day_plan(log, someone.id, this_day()).scores
    assert (score.score.ended, score.score.time_s) == ("capped", None)
