"""What is typed on the day page: taken with its unit, asked about where it can't be meant, and never changed in silence."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, next_is, online, opened, phone_of
from tests.day import this_day
from tests.loads import kg
from tracker.conditioning.counts import Count
from tracker.desk.day import log_set, today
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Route

    from tracker.log.unit_of_work import Log


def test_more_repetitions_than_the_round_has_are_refused_with_what_was_meant(gym: Gym, log: Log, chromium: Browser):
    someone = people.add_member(log, "Odalys")
    sheets.take_sheet(log, [someone.id], "AMRAP 12 min\n10 burpees", this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Odalys")
        context.set_offline(True)
        page.locator('[data-finished="6"]').tap()
        note = page.locator(".score .note")
        for typed, words in (
            ("14", "14 are more than the 10 burpees of this round. Probably meant: 7 rounds, plus 4."),
            ("10", "10 are all of the 10 burpees of this round. Probably meant: 7 rounds."),
            ("140", "Write at most 9, or touch what was finished."),
            ("4.5", "as a whole number"),
        ):
            page.locator("#more_reps").fill(typed)
            act(page, "score")
            expect(note).to_contain_text(words)
            expect(note).to_contain_text("Nothing is logged yet.")
            expect(page.locator("#more_reps")).to_have_value(typed)
            kept(page, 0)
        page.locator('[data-finished="7"]').tap()
        page.locator("#more_reps").fill("4")
        act(page, "score")
        next_is(page, "rating")
        online(context, page)
        kept(page, 0)
    (score,) = today.day_plan(log, someone.id, this_day()).scores
    assert score.score.count == Count(74, 74)


def test_repetitions_beyond_a_movement_are_meant_for_the_next_one(gym: Gym, log: Log, chromium: Browser):
    someone = people.add_member(log, "Odalys")
    sheets.take_sheet(log, [someone.id], "AMRAP 12 min\n10 burpees\n20 air squats", this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Odalys")
        context.set_offline(True)
        page.locator('[data-finished="6"]').tap()
        for moves, typed, words in (
            (0, "14", "Probably meant: 6 rounds, 10 burpees done, plus 4 air squats."),
            (1, "25", "25 are more than the 20 air squats of this round. Probably meant: 7 rounds, plus 5 burpees."),
        ):
            page.locator(f'[data-moves="{moves}"]').tap()
            page.locator("#more_reps").fill(typed)
            act(page, "score")
            expect(page.locator(".score .note")).to_contain_text(words)
        kept(page, 0)


def test_a_load_is_taken_with_the_unit_that_is_typed(gym: Gym, log: Log, chromium: Browser):
    member = people.add_member(log, "Tova").id
    squat = people.add_lift(log, "low bar squat", "barbell", member_id=member)
    log_set.log_set(log, member, this_day() - timedelta(days=3), NewSet(squat.id, kg("60"), 5))
    sets = [NewPlannedSet(squat.id, 1, 5, load=kg("60")), NewPlannedSet(squat.id, 2, 3, block=1)]
    with log.act("a wave") as made:
        log_waves.start_wave(made, member, log_waves.add_wave(made, "Quay", [NewStep("Quay", 0, sets)]), this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        context.set_offline(True)
        act(page, "change")
        page.locator("#load").fill("135 lb")
        act(page, "done")
        done_today(page, 1)
        page.locator("#load").fill("62,5KG")
        act(page, "done")
        done_today(page, 2)
        page.locator("#load").fill("about 60")
        act(page, "done")
        expect(page.locator("#said")).to_contain_text("such as 62.5 or 95 lb")
        expect(page.locator("#load")).to_have_value("about 60")
        page.locator("#free summary").tap()
        page.locator("#free_load").fill("145lbs")
        page.locator("#free_log").tap()
        done_today(page, 3)
        page.locator('section[aria-labelledby="done_head"] li [data-do=mend]').first.tap()
        page.locator("#mend_load").fill("150 lb")
        page.locator("#mend_keep").tap()
        expect(page.locator('section[aria-labelledby="done_head"] li').first).to_contain_text("150 lb")
        online(context, page)
        kept(page, 0)
    loads = [str(row.load) for row in sorted(gym.day("Tova")[0].sets, key=lambda row: row.position)]
    assert loads == ["135 lb", "62.5 kg", "150 lb"]


def squatter(log: Log) -> str:
    member = people.add_member(log, "Tova").id
    squat = people.add_lift(log, "low bar squat", "barbell", member_id=member)
    for ago in (9, 6, 3):
        log_set.log_set(log, member, this_day() - timedelta(days=ago), NewSet(squat.id, kg("97.5"), 5))
    sets = [NewPlannedSet(squat.id, 4, 5, load=kg("97.5"))]
    with log.act("a wave") as made:
        log_waves.start_wave(made, member, log_waves.add_wave(made, "Quay", [NewStep("Quay", 0, sets)]), this_day())
    return member


def test_a_load_far_from_the_usual_is_asked_about_at_once_with_its_field_open(gym: Gym, log: Log, chromium: Browser):
    squatter(log)
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        context.set_offline(True)
        act(page, "change")
        page.locator("#load").fill("975")
        act(page, "done")
        expect(page.locator(".far")).to_contain_text("975 kg is far from the usual 97.5 kg.")
        expect(page.locator("#load")).to_have_value("975")
        expect(page.locator("#load")).to_be_focused()
        kept(page, 0)
        page.locator("#load").fill("97,5")
        act(page, "done")
        done_today(page, 1)
        page.locator("#free summary").tap()
        page.locator("#free_load").fill("215")  # 2.2 times: pounds typed as kilograms
        page.locator("#free_log").tap()
        expect(page.locator(".far")).to_contain_text("215 kg is far from the usual 97.5 kg.")
        page.locator("#free_load").fill("215 lb")  # as meant
        page.locator("#free_log").tap()
        done_today(page, 2)
        act(page, "change")
        page.locator("#load").fill("500")
        act(page, "missed")
        page.locator('[data-reps="0"]').tap()
        expect(page.locator("#load")).to_have_value("500")
        page.locator("#as_it_is").tap()
        done_today(page, 3)
        online(context, page)
        kept(page, 0)
        expect(page.get_by_text("Not taken in")).to_have_count(0)
    sets = sorted(gym.day("Tova")[0].sets, key=lambda row: row.position)
    assert [(str(row.load), row.outcome) for row in sets] == [
        ("97.5 kg", "done"),
        ("215 lb", "done"),
        ("500 kg", "missed"),
    ]


def test_what_the_log_asks_about_is_corrected_where_it_asks(gym: Gym, log: Log, chromium: Browser):
    squatter(log)
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        # An older plan without the loads that are asked about: the log asks then.
        context.route("**/day/api/plan*", _without_what_is_asked)
        page.reload()
        expect(page.get_by_text("Tova, before")).to_be_visible()  # else the one that is kept still stands there
        act(page, "change")
        page.locator("#load").fill("975")
        act(page, "done")
        expect(page.locator(".ask")).to_contain_text("Not taken in")
        field = page.get_by_label("Load, kg")
        expect(field).to_have_value("975")
        field.fill("97.5")
        page.get_by_role("button", name="Log it with this load").tap()
        expect(page.locator('section[aria-labelledby="done_head"]')).to_contain_text("97.5 kg")
        done_today(page, 1)
        expect(page.locator(".ask")).to_have_count(0)
        kept(page, 0)  # looked at last: before the touch nothing is kept either
    assert [str(row.load) for row in gym.day("Tova")[0].sets] == ["97.5 kg"]


def _without_what_is_asked(route: Route) -> None:
    answer = route.fetch()
    plan = answer.json()
    route.fulfill(
        response=answer, json={**plan, "asked_about": {}, "member": {**plan["member"], "name": "Tova, before"}}
    )


def test_the_same_set_again_is_one_touch_and_a_set_without_a_load_starts_from_the_last(
    gym: Gym, log: Log, chromium: Browser
):
    member = people.add_member(log, "Tova").id
    squat, swing = (people.add_lift(log, each, "barbell", member_id=member) for each in ("low bar squat", "bent row"))
    sets = [NewPlannedSet(squat.id, 3, 8), NewPlannedSet(swing.id, 1, 8, block=1)]
    with log.act("a wave") as made:
        log_waves.start_wave(made, member, log_waves.add_wave(made, "Quay", [NewStep("Quay", 0, sets)]), this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Tova")
        context.set_offline(True)
        expect(page.locator("#load")).to_have_value("")
        page.locator("#load").fill("75")
        act(page, "done")
        done_today(page, 1)
        expect(page.locator("[data-next]")).to_contain_text("As in the last set today: 8 × 75 kg")
        expect(page.locator("#load")).to_have_value("75")
        page.wait_for_timeout(700)
        act(page, "done")
        done_today(page, 2)
        page.locator("#free summary").tap()
        page.locator("#free_load").fill("24")
        page.locator("#free_reps").fill("12")
        page.locator("#free_log").tap()
        done_today(page, 3)
        expect(page.locator("#free_load")).to_have_value("24")
        expect(page.locator("#free_reps")).to_have_value("12")
        page.wait_for_timeout(700)
        page.locator("#free_log").tap()  # said today already: one touch
        done_today(page, 4)
        online(context, page)
        kept(page, 0)
        page.reload()
        page.locator("#free summary").tap()
        expect(page.locator("#free_load")).to_have_value("24")
    sets_done = sorted(gym.day("Tova")[0].sets, key=lambda row: row.position)
    assert [(str(row.load), row.reps) for row in sets_done] == [
        ("75 kg", 8),
        ("75 kg", 8),
        ("24 kg", 12),
        ("24 kg", 12),
    ]


def test_as_many_repetitions_as_there_are_is_blank_until_a_number_is_said(gym: Gym, log: Log, chromium: Browser):
    someone = people.add_member(log, "Agathe")
    sheets.take_sheet(log, [someone.id], "Back squat 1 x AMRAP @ 60 kg", this_day())
    with phone_of(chromium) as context:
        page = opened(context, gym.url, "Agathe")
        assert page.locator("#reps_done").input_value() == ""
        act(page, "done")
        kept(page, 0)
        done_today(page, 0)
        page.locator("#reps_done").fill("13")
        act(page, "done")
        done_today(page, 1)
        kept(page, 0)
    (row,) = gym.day("Agathe")[0].sets
    assert (row.reps, row.load) == (13, kg("60"))


def test_who_types_goes_on_where_they_were_when_the_page_is_drawn_anew(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        page.locator("#free summary").tap()
        page.locator("#free_note").fill("slw")
        page.keyboard.press("ArrowLeft")
        page.evaluate("self.before = document.querySelector('#free_note')")
        online(context, page)
        page.wait_for_function("self.before !== document.querySelector('#free_note')")
        page.keyboard.type("o")
        expect(page.locator("#free_note")).to_have_value("slow")
