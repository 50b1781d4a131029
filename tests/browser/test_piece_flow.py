"""A ladder piece on a phone: clock, taps, stop, the rest entered, one movement swapped, the score beside like ones."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, at_rest
from tests.day import this_day
from tracker.desk.day import today
from tracker.desk.pieces import clocks, conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.log.clocks import moment
from tracker.log.scores import ScoreRow, scores_of

if TYPE_CHECKING:
    from playwright.sync_api import Page

RESULTS = """name => {
  const trace = document.querySelector('.js-plotly-plot')._fullData.find(each => each.name === name);
  return trace ? trace.customdata.map((words, n) => ({words, y: trace.y[n]})) : [];
}"""


def tap(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).locator("visible=true").first.tap()
    at_rest(page)


def touch(page: Page, group: str, words: str) -> None:
    """Touch one of the pills or segments of the form."""
    page.locator(f"[class*='st-key-score_'][class*='{group}']").get_by_text(words, exact=True).tap()
    at_rest(page)


def part(page: Page, name: str) -> None:
    """Open one of the three parts of the page."""
    page.get_by_role("tab", name=name).tap()
    at_rest(page)


def seconds(page: Page) -> int:
    minutes, rest = page.locator(".clock").inner_text().split(":")
    return 60 * int(minutes) + int(rest)


def deadlifts_today(served: Served, name: str) -> None:
    """Let a member of the demo do the week's deadlift today, which ends in rowing intervals, and the squats later."""
    member = served.members[name]
    steps = {step.title: step for step in today.steps(served.log, member) if step.state == "planned"}
    today.postpone(served.log, member, steps["Front squat, week 2 of 3"], 7, today=this_day())
    today.begin_now(served.log, member, steps["Deadlift, week 2 of 3"], this_day())


def scores(served: Served, member: str) -> tuple[ScoreRow, ...]:
    with served.log.reading() as session:
        return scores_of(session, served.members[member], title="Lantern ladder")


def results(page: Page, name: str) -> list[dict[str, object]]:
    page.wait_for_selector(".js-plotly-plot .scatterlayer")
    return page.evaluate(RESULTS, name)


def test_clock_taps_stop_swap_and_the_score_beside_like_ones(served: Served, phone: Phone):
    """Sunniva did this ladder before, twice with push-ups from the knees: that is what the new one is like."""
    address = f"{served.url}/conditioning?member={served.members['Sunniva']}"
    page = phone(address)
    before = scores(served, "Sunniva")
    expect(page.get_by_text("As many reps as possible in 12:00: 3, then 3 more each round, indoors")).to_be_visible()
    page.locator(".st-key-clock_count_in").get_by_text("none", exact=True).tap()
    at_rest(page)
    tap(page, "Start the clock")
    page.wait_for_function("() => document.querySelector('.clock')?.textContent === '0:02'")  # it ticks by itself
    tap(page, "Round 1 done")
    page.reload()  # as a locked phone that comes back
    at_rest(page)
    expect(page.get_by_role("button", name="Round 2 done", exact=True)).to_be_visible()
    running = clocks.open_clock(served.log, served.members["Sunniva"])
    assert running is not None
    page.wait_for_timeout(1500)
    zero = running.clock.zero or 0
    sooner, on_the_clock, later = moment(), seconds(page), moment()
    assert sooner - zero - 2 < on_the_clock < later - zero + 1
    tap(page, "Round 2 done")
    tap(page, "Stop")
    expect(page.get_by_text("Stopped. Enter your score below.")).to_be_visible()

    page.locator("summary", has_text="Something else than prescribed?").tap()
    page.wait_for_timeout(500)  # the fold opens
    page.get_by_role("combobox", name="Hand-release push-up").tap()
    page.get_by_role("option", name="push-up from the knees · your coach’s", exact=True).tap()
    at_rest(page)
    touch(page, "_done_2", "9 kettlebell swings done")
    touch(page, "_reps_2_1", "4")
    tap(page, "Log 40 reps")
    expect(page.locator(".notice")).to_contain_text(
        "Logged Lantern ladder: 40 reps (in the round of 9: 4 box step-overs)"
    )

    newest = scores(served, "Sunniva")[-1]
    assert len(scores(served, "Sunniva")) == len(before) + 1
    assert (newest.score.total.known, len(newest.score.splits_s), newest.clock_id) == (40, 2, running.id)
    assert newest.score.tasks[2].movement == "push-up from the knees"
    expect(page.get_by_text(f"Same version ({len(before) + 1})")).to_be_visible()
    assert [each["words"].split("<br>")[1] for each in results(page, "same version")][
        -1
    ] == "40 reps (in the round of 9: 4 box step-overs)"


def test_a_lost_count_is_a_range_in_the_history_and_in_the_plot(served: Served, phone: Phone):
    page = phone(f"{served.url}/conditioning?member={served.members['Tobin']}")
    part(page, "Score")
    touch(page, "_way", "Lost count")
    for name, value in (("Between", "180"), ("and, in all", "200")):
        page.get_by_label(name, exact=True).fill(value)
        page.keyboard.press("Enter")
        at_rest(page)
    tap(page, "Log between 180 and 200 reps")
    expect(page.locator(".notice")).to_contain_text("Logged Lantern ladder: between 180 and 200 reps")
    assert scores(served, "Tobin")[-1].score.total.lost
    expect(page.locator("p.plain b", has_text="between 180 and 200 reps")).to_be_visible()
    drawn = results(page, "count lost")
    assert [each["y"] for each in drawn] == [180, 200, None]
    assert "between 180 and 200 reps" in drawn[0]["words"]


def test_an_unlike_result_stands_beside_and_is_not_compared(served: Served, phone: Phone):
    wren = served.members["Wren"]
    page = phone(f"{served.url}/conditioning?member={wren}")
    part(page, "History")
    page.get_by_text("Other versions: not compared").scroll_into_view_if_needed()
    expect(page.get_by_text("kettlebell swing: 12 kg instead of 16 kg").first).to_be_visible()
    assert len(results(page, "another version")) == 1


def test_a_second_phone_taps_the_same_clock(served: Served, phone: Phone):
    deadlifts_today(served, "Ondrej")
    member = served.members["Ondrej"]
    piece = conditioning.piece_day(served.log, member, this_day()).planned[0]
    conditioning.log_score(
        served.log, member, piece.id, this_day() - timedelta(days=3), Said("500, 500, 500, 500, 500")
    )
    address = f"{served.url}/conditioning?member={member}"
    one, two = phone(address), phone(address)
    one.locator(".st-key-clock_count_in").get_by_text("none", exact=True).tap()
    at_rest(one)
    tap(one, "Start the clock")
    two.reload()
    at_rest(two)
    expect(two.locator(".clock-phase")).to_contain_text("Interval 1 of 5")
    tap(two, "Stop")
    one.reload()
    at_rest(one)
    expect(one.get_by_text("Stopped. Enter your score below.")).to_be_visible()
