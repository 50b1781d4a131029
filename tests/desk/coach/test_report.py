"""A member's report: one file without network or script, honest digits, nothing of others, notes only if asked for."""

import re
from datetime import timedelta
from html.parser import HTMLParser

import pytest

from tests.day import this_day
from tests.desk.ladders import LADDER
from tests.loads import kg
from tests.readings import newest
from tracker.desk.ahead import goals
from tracker.desk.coach.report import Period, make_report, report_of
from tracker.desk.day import log_set, readiness, session_said, sore
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.errors import BadInputError
from tracker.exchange.report_chart import BandOn, MaxOn, chart
from tracker.log.sets import NewSet


def half_year():
    return Period(this_day() - timedelta(days=180), this_day())


@pytest.fixture
def wren(demo_log):
    return next(each for each in people.members(demo_log) if each.name == "Wren")


class Words(HTMLParser):
    def __init__(self, html):
        super().__init__()
        self.tags, self.words = [], []
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data):
        self.words.append(data)

    @property
    def text(self):
        return " ".join(self.words)


def test_it_needs_no_network_no_script_and_names_nobody_else(demo_log, wren):
    _, html = make_report(demo_log, wren.id, half_year(), today=this_day())
    page = Words(html)
    assert {tag for tag, _ in page.tags}.isdisjoint({"script", "link", "img", "iframe", "object"})
    assert not any(key in ("src", "href", "onload") for _, attrs in page.tags for key in attrs)
    assert not re.search(r"url\(|@import|https?://(?!www\.w3\.org/2000/svg)", html)
    assert not any(each.name in page.text for each in people.members(demo_log) if each.name != "Wren")


def test_estimates_have_a_band_a_unit_and_no_digit_that_is_not_known(demo_log, wren):
    report = report_of(demo_log, wren.id, half_year(), today=this_day())
    rows = [row for lift in report.lifts for row in lift.estimates]
    assert rows
    for _, said, band in rows:
        estimate = said.replace("body mass", "body + 0 kg")  # nothing added to the body
        assert re.fullmatch(r"about (body [+−] |-)?\d+(\.5)? kg", estimate)
        assert re.fullmatch(r"(body [+−] |-)?\d+(\.5)? to (body [+−] |-)?\d+(\.5)? kg", band)
        low, high, middle = map(float, re.findall(r"-?\d+(?:\.\d+)?", f"{band} {estimate}".replace("− ", "-")))
        assert low <= middle <= high
    assert all(re.fullmatch(r"Estimated \d+RM: .*|Nothing is known.*", lift.said) for lift in report.lifts)


def test_notes_go_along_only_if_asked_for(log):
    member = people.add_member(log, "Aldis")
    squat = people.add_lift(log, "front squat", "barbell")
    row = log_set.log_set(log, member.id, this_day(), NewSet(squat.id, kg(60), 5))
    session_said.rate_session(log, row.session_id, member.id, rating=7, minutes=50, note="knee <b>hurt</b>")
    period = Period(this_day(), this_day())
    assert "knee" not in make_report(log, member.id, period, today=this_day())[1]
    name, html = make_report(log, member.id, period, today=this_day(), with_notes=True)
    assert "knee &lt;b&gt;hurt" in html
    assert "350 points" in html  # 7 x 50, by hand
    assert name == f"tidemark-report-aldis-{this_day().isoformat()}-{this_day().isoformat()}.html"


def test_sets_tests_breaks_and_cautions_stand_in_it(log):
    member = people.add_member(log, "Aldis")
    squat = people.add_lift(log, "front squat", "barbell")
    for ago, load, reps, kind, outcome in ((60, 60, 5, "work", "done"), (60, 40, 5, "ramp", "done"), (30, 70, 3, "test", "done"), (30, 75, 2, "work", "missed")):  # fmt: skip
        log_set.log_set(log, member.id, this_day() - timedelta(days=ago), NewSet(squat.id, kg(load), reps, kind=kind, outcome=outcome))  # fmt: skip
    report = report_of(log, member.id, half_year(), today=this_day())
    assert report.summary[0] == "Trained on 2 days: 3 sets (1 missed, 0 cut short), 0 scores."
    assert "No training logged for 30 days" in report.summary[1]
    (lift,) = report.lifts
    assert [words for _, words in lift.done] == ["5 × 60 kg", "3 × 70 kg, test; 75 kg, 2 made, the 3rd missed"]
    assert lift.tested[0][1] == "tested 3RM 70 kg"
    assert lift.reps == 3
    assert any("injuries cluster" in text for text, _ in report.cautions)  # a month without training since
    assert "clears nobody" in report.cautions[-1][0]


def test_what_a_caution_rests_on_is_said_so_that_a_coach_understands_it(log):
    member = people.add_member(log, "Aldis")
    squat = people.add_lift(log, "front squat", "barbell")
    people.prefer(log, member.id, name="Aldis", unit="kg", place_id=None, no_heavy=True, minor=False, alone=False)
    log_set.log_set(log, member.id, this_day(), NewSet(squat.id, kg(60), 5))
    html = make_report(log, member.id, half_year(), today=this_day())[1]
    assert "own choice" not in html
    assert "from no study" in html


def test_a_best_of_the_period_is_one_of_all_that_was_done_up_to_its_end(log):
    member = people.add_member(log, "Aldis")
    piece = conditioning.add_piece(log, LADDER)
    for ago, count in ((300, "120"), (250, "200"), (20, "150"), (10, "160")):
        conditioning.log_score(log, member.id, piece.id, this_day() - timedelta(days=ago), Said(count))
    (told,) = report_of(log, member.id, Period(this_day() - timedelta(days=30), this_day()), today=this_day()).pieces
    assert len(told.lines) == 2
    assert not [line for line in told.lines if "best" in line[1]]


def test_a_period_that_cannot_be_or_is_empty_is_told(log):
    member = people.add_member(log, "Aldis")
    with pytest.raises(BadInputError, match="before it begins"):
        Period(this_day(), this_day() - timedelta(days=1))
    with pytest.raises(BadInputError, match="Nothing was done"):
        make_report(log, member.id, half_year(), today=this_day())
    with pytest.raises(BadInputError, match="not in the log"):
        make_report(log, "nobody", half_year(), today=this_day())


def test_making_a_report_writes_nothing(demo_log, wren):
    before = newest(demo_log)
    make_report(demo_log, wren.id, half_year(), today=this_day(), with_notes=True)
    assert newest(demo_log) == before


@pytest.mark.parametrize("loads", [(60.0,), (60.0, 60.0), (0.2, 499.0), (-20.0, 15.0)])
def test_the_chart_keeps_every_point_inside_and_names_the_unit(loads):
    points = [BandOn(this_day() - timedelta(days=9 * n), load, load - 2, load + 2) for n, load in enumerate(loads)][
        ::-1
    ]
    svg = chart(
        points,
        [MaxOn(this_day(), loads[0], "tested")],
        first=this_day() - timedelta(days=20),
        last=this_day(),
        unit="lb",
        said="a < b",
    )
    across = [float(x) for x in re.findall(r'cx="([\d.-]+)"', svg)]
    down = [float(y) for y in re.findall(r'cy="([\d.-]+)"', svg)]
    assert len(across) == len(loads)
    assert all(0 <= x <= 720 for x in across)
    assert all(0 <= y <= 250 for y in down)
    assert svg.count(" lb</text>") >= 4
    assert 'aria-label="a &lt; b"' in svg
    assert chart([], [], first=this_day(), last=this_day(), unit="kg", said="") == ""


def test_maxes_at_one_place_of_the_chart_write_one_text():
    facts = [
        MaxOn(this_day(), 75.0, "declared"),
        MaxOn(this_day(), 75.0, "tested"),
        MaxOn(this_day() - timedelta(days=18), 70.0, "tested"),
    ]
    svg = chart([], facts, first=this_day() - timedelta(days=20), last=this_day(), unit="kg", said="")
    assert re.findall(r'class="fact">([^<]*)<', svg) == ["75 kg", "70 kg"]
    assert svg.count("<path") == 3


@pytest.mark.browser
def test_it_prints_on_a4_and_fits_a_phone(demo_log, wren, chromium):
    _, html = make_report(demo_log, wren.id, half_year(), today=this_day(), with_notes=True)
    page = chromium.new_page(viewport={"width": 360, "height": 700})
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    page.set_content(html)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    pdf = page.pdf(prefer_css_page_size=True)
    page.close()
    boxes = {tuple(map(float, found.split())) for found in re.findall(rb"/MediaBox\s*\[([^\]]*)\]", pdf)}
    assert next(iter(boxes)) == pytest.approx((0, 0, 595.3, 841.9), abs=1)  # ISO 216: 210 x 297 mm
    assert asked == []


def test_goals_stand_in_it_and_limits_only_where_they_were_chosen_for_it(log):
    ana, day = people.add_member(log, "Ana"), this_day()
    squat = people.add_lift(log, "Back squat", "barbell")
    log_set.log_set(log, ana.id, day - timedelta(days=9), NewSet(squat.id, kg("80"), 5))
    goals.set_lift_goal(log, ana.id, squat.id, reps=5, load=kg("200"), by=day + timedelta(days=60), day=day)
    sore.begin(log, ana.id, "knee", day - timedelta(days=8))
    sore.end(log, ana.id, "knee", day - timedelta(days=3))
    readiness.say(log, ana.id, day, "sleep", 2)
    period = Period(day - timedelta(days=27), day)
    _, plain = make_report(log, ana.id, period, today=day)
    assert "Back squat, barbell, 5RM 200 kg" in plain
    assert "% likely by then" in plain or "too little is known" in plain
    assert "Sore" not in plain
    assert "hardly slept" not in plain
    _, told = make_report(log, ana.id, period, today=day, with_limits=True)
    assert "Sore: knee, from" in told
    assert "2.0 in the mean of 1 day, lowest 2" in told
    _, before = make_report(
        log, ana.id, Period(day - timedelta(days=27), day - timedelta(days=9)), today=day, with_limits=True
    )
    assert "Nothing was marked as sore, ill or limited." in before
