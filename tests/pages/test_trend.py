"""The trend's page: estimate with its band, facts, a table and a file that say the same, and no dead end."""

from __future__ import annotations

import csv
import io
import json
import re
from datetime import date, timedelta
from decimal import Decimal

import pytest
from streamlit.testing.v1 import AppTest

from tests.day import this_day
from tests.pages.conftest import Open, words
from tracker.components.frame.as_file import as_csv
from tracker.components.maxes import lift_glance
from tracker.components.maxes.trend_tables import full_digits
from tracker.components.maxes.trend_view import band_points
from tracker.desk.day import log_set
from tracker.desk.maxes import estimates, reasons, rep_maxes, trend
from tracker.desk.people import people
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.strength.estimator import LiftModel
from tracker.strength.formulas import FORMULAS
from tracker.strength.hindcast import proven_maxes
from tracker.units import Mass


def figure(at: AppTest, place: int = 0) -> dict:
    return json.loads(at.get("plotly_chart")[place].proto.spec)


def names(at: AppTest) -> list[str]:
    return [trace["name"] for trace in figure(at)["data"]]


def wren(log: Log) -> str:
    return next(each.id for each in people.members(log) if each.name == "Wren")


def squat(log: Log) -> str:
    return next(each.id for each in people.lifts(log) if each.title in ("front squat, barbell", "squat, barbell"))


def test_an_empty_trend_says_what_to_do_next(log: Log, show: Open):
    people.add_member(log, "Bo")
    at = show(log, "trend")
    assert "Nothing to draw for Bo yet: log a set" in words(at)
    assert [each.proto.label for each in at.get("page_link")] == ["Log a set"]
    assert not at.get("plotly_chart")


def test_a_lift_with_ramp_sets_only_or_one_set_is_no_fault(log: Log, show: Open):
    member = people.add_member(log, "Bo")
    lift = people.add_lift(log, "press", "barbell")
    log_set.log_set(log, member.id, this_day(), NewSet(lift.id, Mass(Decimal(40), "kg"), 5))
    at = show(log, "trend")
    assert "too little of a max" in words(at)  # one set, and nobody knows what was left of it
    assert "Estimated 1RM today" not in words(at)
    log_set.log_set(log, member.id, this_day(), NewSet(lift.id, Mass(Decimal(45), "kg"), 5, Decimal(2)))
    at = show(log, "trend")
    assert "Estimated 1RM today" in words(at)
    assert "From 2 sets." in words(at)
    assert "begins with the second day" in words(at)
    assert not at.get("plotly_chart")[1:]


def test_the_demo_shows_band_facts_and_whether_the_test_still_holds(demo_log: Log, show: Open):
    at = show(demo_log, "trend", wren(demo_log), lift=squat(demo_log))
    assert {"80 % band", "estimated 3RM", "test made"} <= set(names(at))
    assert "80 % sure it is between" in words(at)
    assert "Tested 3RM 82.5 kg" in words(at)
    assert "3RM" in words(at)


def test_hindsight_sets_and_formulas_are_drawn_on_demand_only(demo_log: Log, show: Open):
    at = show(demo_log, "trend", wren(demo_log))
    assert not {"in hindsight", "formulas", "to the end"} & set(names(at))
    at.selectbox(key="kept_reps").set_value("1").run()
    at.button_group(key="kept_also").set_value(["hindsight", "sets", "formulas"]).run()
    assert {"in hindsight", "formulas", "to the end"} <= set(names(at))


def test_another_nrm_and_unit_are_a_choice_away_and_the_address_keeps_them(demo_log: Log, show: Open):
    at = show(demo_log, "trend", wren(demo_log))
    at.selectbox(key="kept_reps").set_value("5").run()
    at.button_group(key="kept_unit").set_value("lb").run()
    assert figure(at)["layout"]["yaxis"]["title"]["text"] == "5RM, lb"
    assert "Estimated 5RM today" in words(at)
    assert (at.query_params["reps"], at.query_params["unit"]) in ((["5"], ["lb"]), ("5", "lb"))


def test_table_file_and_figure_hold_the_same_days(demo_log: Log, show: Open):
    at = show(demo_log, "trend", wren(demo_log), lift=squat(demo_log), period="all")
    member = people.member(demo_log, wren(demo_log))
    lift = next(each for each in people.lifts(demo_log) if each.id == squat(demo_log))
    view = trend.trend(demo_log, member, lift, reps=3, day=this_day())
    rows = list(csv.DictReader(io.StringIO(as_csv(full_digits(band_points(view, date.min), "kg")))))
    assert [row["day"] for row in rows] == [point.day.isoformat() for point in view.points]
    assert float(rows[-1]["estimate (kg)"]) == pytest.approx(view.points[-1].band.estimate)
    assert all(float(row["low (kg)"]) < float(row["estimate (kg)"]) < float(row["high (kg)"]) for row in rows)
    assert not at.dataframe  # not drawn as long as its box is closed
    at.session_state["trend_behind"] = "table"
    assert len(at.run().dataframe[0].value) == len(rows)


def test_what_is_in_a_closed_box_is_worked_out_when_it_is_opened(demo_log: Log, show: Open, monkeypatch):
    asked: list[str] = []
    for name in ("why_now", "which_suits"):
        told = getattr(reasons, name)
        monkeypatch.setattr(reasons, name, lambda *a, _n=name, _t=told, **k: (asked.append(_n), _t(*a, **k))[1])
    at = show(demo_log, "trend", wren(demo_log), lift=squat(demo_log), reps="1")
    assert not at.table
    assert not asked  # hindcast and replays cost, and the page waits for neither
    at.pills(key="trend_behind").set_value("why").run()
    assert asked == ["why_now"]
    said = words(at)
    at.pills(key="trend_behind").set_value("formulas").run()
    assert asked == ["why_now", "which_suits"]
    told = at.table[-1].value
    assert set(told["formula"]) <= {each.name for each in FORMULAS.values()}
    assert "was expected before its sets" in said
    said = words(at)
    assert "80 % of your 1RM is good for about" in said
    for each in FORMULAS.values():  # what a value rests on stands behind a touch beside it
        assert each.citation in said
        assert f"({each.status})" in said


def test_a_formula_is_judged_by_its_error_before_each_test(demo_log: Log, show: Open):
    at = show(demo_log, "trend", wren(demo_log), lift=squat(demo_log))
    at.pills(key="trend_behind").set_value("formulas").run()
    lift = next(each for each in people.lifts(demo_log) if each.id == squat(demo_log))
    model = estimates.history(demo_log, wren(demo_log), lift).model
    records = [each for day in model.days for each in day.records]
    tests = [test for test in proven_maxes(records) if test.day > model.days[0].day]
    shown = at.table[0].value
    assert list(shown["test"]) == [f"{test.day.day} {test.day:%b %Y}" for test in tests]
    for test, told in zip(tests, shown["this estimate"], strict=True):
        before = test.day - timedelta(days=1)
        then = LiftModel.of([each for each in records if each.day <= before], model.parameters, model.elsewhere)
        error = 100 * (then.estimate(before).rep_max[test.reps].estimate / test.kg - 1)
        assert float(told.removesuffix(" %").replace("−", "-")) == pytest.approx(error, abs=0.51)


def test_all_lifts_stand_first_and_a_touch_on_one_shows_it(demo_log: Log, show: Open):
    at = show(demo_log, "trend", wren(demo_log))
    rows = [button for button in at.button if (button.key or "").startswith("glance_go_")]
    assert 1 < len(rows) <= lift_glance.FIRST
    assert words(at).index("Your lifts, last 3 months") < words(at).index("Estimated")
    second = rows[1]
    second.click().run()
    assert at.selectbox(key="kept_lift").value == second.key.removeprefix("glance_go_")


def test_todays_lift_stands_first_though_another_was_done_later(ten_years: Log, show: Open):
    at = show(ten_years, "trend")  # its session of today is of squats; deadlifts were done last
    assert at.selectbox(key="kept_lift").options[0] == "Squat, barbell"
    assert "<em>in today's session</em>" in words(at)


def test_a_test_that_was_missed_is_drawn_as_missed_and_not_as_made(log: Log, show: Open):
    """Two of three at 100 kg, the third missed, were drawn as a tested 2RM."""
    member = people.add_member(log, "Bo")
    lift = people.add_lift(log, "squat", "barbell")
    for ago, load, reps, more in (
        (30, 90, 3, {"kind": "test"}), (9, 100, 2, {"kind": "test", "outcome": "missed"}), (2, 85, 5, {"rir": Decimal(2)}),
    ):  # fmt: skip
        done = NewSet(lift.id, Mass(Decimal(load), "kg"), reps, **more)
        log_set.log_set(log, member.id, this_day() - timedelta(days=ago), done, sure=True)
    at = show(log, "trend", member.id, lift=lift.id, reps="3")
    by_name = {trace["name"]: trace for trace in figure(at)["data"]}
    assert list(by_name["test made"]["y"]) == [90]
    assert list(by_name["test missed"]["y"]) == [100]
    at = show(log, "trend", member.id, lift=lift.id, reps="2")
    assert "test made" not in names(at)


def test_a_formula_says_the_set_as_it_was_done(log: Log, show: Open):
    """7 x 75 kg stood there where the log has 3 x 75 kg with 4 left."""
    member = people.add_member(log, "Bo")
    lift = people.add_lift(log, "squat", "barbell")
    for ago, load, reps, more in ((9, "60", 5, {"rir": Decimal(2)}), (2, "75", 3, {"rir": Decimal(4)})):
        done = NewSet(lift.id, Mass(Decimal(load), "kg"), reps, **more)
        log_set.log_set(log, member.id, this_day() - timedelta(days=ago), done, sure=True)
    at = show(log, "trend", member.id, lift=lift.id, reps="1")
    at.pills(key="trend_behind").set_value("formulas").run()
    row = at.table[0].value.set_index("formula").loc["Epley"]
    assert row["from"].startswith("3 × 75 kg, 4 left, ")
    assert "repetitions done and those said to be left" in words(at)


def test_a_lift_of_the_body_says_so_in_every_load(log: Log, show: Open):
    member = people.add_member(log, "Bo")
    pull = people.add_lift(log, "pull-up", "body")
    people.weigh(log, member.id, this_day() - timedelta(days=30), Mass(Decimal(70), "kg"))
    for ago in (20, 10, 2):
        done = NewSet(pull.id, Mass(Decimal(20), "kg"), 5, rir=Decimal(1), body_mass=Decimal(70))
        log_set.log_set(log, member.id, this_day() - timedelta(days=ago), done, sure=True)
    at = show(log, "trend", member.id, lift=pull.id, reps="1")
    said = words(at)
    assert "Formulas" not in at.button_group(key="kept_also").options
    assert re.search(r"Estimated 1RM today: body \+ \d", said)
    assert re.search(r"1RM about body \+ \d", said)
    assert re.search(r"between body \+ \d+(\.5)? and body \+ \d+(\.5)? kg", said)
    assert figure(at)["layout"]["yaxis"]["title"]["text"] == "1RM, kg added to the body"
    assert "1RM about body + " in figure(at)["data"][1]["customdata"][0]
    formulas = at.pills(key="trend_behind").set_value("formulas").run().table[-1].value
    assert formulas["from"][0].startswith("5 × 90 kg moved, 1 left, ")
    assert all(each.endswith(" kg moved") for each in formulas["1RM"] if each != "–")
    at.pills(key="trend_behind").set_value("table").run()
    assert all(each.startswith("body + ") for each in at.dataframe[0].value["1RM"])


@pytest.mark.parametrize("later", [False, True])
def test_a_tested_max_beside_another_estimate_says_how_they_relate(log: Log, show: Open, later: bool):
    """70 kg was tested and 72 kg stood above it without a word."""
    member = people.add_member(log, "Bo")
    lift = people.add_lift(log, "squat", "barbell")
    for ago in (30, 20):
        done = NewSet(lift.id, Mass(Decimal(70), "kg"), 5, rir=Decimal(1))
        log_set.log_set(log, member.id, this_day() - timedelta(days=ago), done, sure=True)
    rep_maxes.add_rep_max(
        log, member.id, lift.id, this_day() - timedelta(days=3), 1, Mass(Decimal(70), "kg"), tested=True
    )
    if later:
        done = NewSet(lift.id, Mass(Decimal(60), "kg"), 3, rir=Decimal(3))
        log_set.log_set(log, member.id, this_day() - timedelta(days=1), done, sure=True)
    said = words(show(log, "trend", member.id, lift=lift.id, reps="1"))
    assert "Tested 1RM 70 kg, 3 days ago" in said
    assert ("The test is a fact of its day; the estimate is of today, from all sets, that one too." in said) != later
    assert bool(re.search(r"still holds|no longer holds|too low by now", said)) == later


def test_a_period_leaves_out_what_is_older(demo_log: Log, show: Open):
    at = show(demo_log, "trend", wren(demo_log), lift=squat(demo_log))
    at.button_group(key="kept_period").set_value("91").run()
    estimate = next(trace for trace in figure(at)["data"] if trace["name"] == "estimated 3RM")
    assert min(estimate["x"]) >= (this_day() - timedelta(days=91)).isoformat()


def test_every_lift_of_every_member_of_the_demo_is_drawn(demo_log: Log, show: Open):
    for member in people.members(demo_log):
        at = show(demo_log, "trend", member.id)
        for lift in at.selectbox(key="kept_lift").options:
            at.selectbox(key="kept_lift").select(lift).run()
            assert not at.exception, (member.name, lift)
            assert not at.error, (member.name, lift)
            assert "sure it is between" in words(at), (member.name, lift)


def test_ten_years_are_drawn(ten_years: Log, show: Open):
    at = show(ten_years, "trend", lift=squat(ten_years), period="all")
    estimate = next(trace for trace in figure(at)["data"] if trace["name"] == "estimated 5RM")
    lift = next(each for each in people.lifts(ten_years) if each.id == squat(ten_years))
    whole = trend.trend(ten_years, people.members(ten_years)[0], lift, reps=5, day=this_day())
    assert 200 < len(estimate["x"]) < len(whole.points)
    assert estimate["x"][0] == whole.points[0].day.isoformat()
    assert max(estimate["y"]) == pytest.approx(max(point.band.estimate for point in whole.points))


def test_weeks_ahead_are_a_dashed_fan_that_promises_nothing_and_can_be_longer_or_left_out(demo_log: Log, show: Open):
    at = show(demo_log, "trend", wren(demo_log), lift=squat(demo_log))
    fan = figure(at)["data"][-1]
    assert fan["name"] == "weeks ahead"
    assert len(fan["x"]) == 13
    assert words(at).count("No promise, and it names no cause") == 1
    at.button_group(key="kept_ahead").set_value("52").run()
    assert figure(at)["data"][-1]["x"][-1] > fan["x"][-1]
    at.button_group(key="kept_ahead").set_value("0").run()
    assert "weeks ahead" not in names(at)
    assert "No promise" not in words(at)


def test_when_to_test_and_whether_forecasts_held_stand_behind_a_touch(demo_log: Log, show: Open):
    at = show(demo_log, "trend", wren(demo_log), lift=squat(demo_log))
    assert "foretold four weeks ahead" not in words(at)
    said = words(at.pills(key="trend_behind").set_value("when").run())
    assert "no word of a test before" in said or "would pay" in said
    said = words(at.pills(key="trend_behind").set_value("foretold").run())
    assert re.search(r"Of \d+ weeks? foretold four weeks ahead with 80 %, \d+ held", said)
    assert set(at.table[0].value) == {"day", "foretold", "found", "held"}
