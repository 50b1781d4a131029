"""The trend figure: what is drawn, what is said of a point, and that nothing speaks by colour alone."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

import pytest

from tracker.charts.labels import MOST
from tracker.charts.records import BandPoint, FormulaMark, MaxMark, SetDot, Span, effort_of
from tracker.charts.template import CONFIG, DARK, LIGHT, colours, template
from tracker.charts.trend import EFFORTS, lay_offs, trend_figure, trend_words

START = date(2026, 1, 5)
POINTS = tuple(
    BandPoint(START + timedelta(days=7 * week), 100.0 + week, 95.0 + week, 105.26 + week, 100.4 + week)
    for week in range(6)
)


def names(figure) -> list[str]:
    return [trace.name for trace in figure.data]


def test_the_band_encloses_the_estimate_and_is_drawn_beneath_it():
    figure = trend_figure(POINTS, unit="kg")
    band, line = figure.data
    assert band.name == "80 % band"
    assert line.name == "estimated 1RM"
    assert list(band.y) == [p.high for p in POINTS] + [p.low for p in reversed(POINTS)]
    assert list(line.y) == [p.estimate for p in POINTS]


def test_axes_name_what_they_show_and_its_unit():
    figure = trend_figure(POINTS, unit="lb", reps=5)
    assert figure.layout.yaxis.title.text == "5RM, lb"
    assert figure.layout.xaxis.tickformat == "%-d %b\n%Y"  # days say themselves what they are


def test_a_touch_on_a_point_explains_it_in_honest_digits():
    said = trend_figure(POINTS, unit="kg", reps=3).data[1].customdata[0]
    assert "5 Jan 2026" in said
    assert "3RM about 100 kg" in said
    assert "80 % sure: 95 to 105.5 kg" in said  # 105.26 to the half kilogram


def test_pounds_are_whole():
    said = trend_figure(POINTS, unit="lb").data[1].customdata[0]
    assert "95 to 105 lb" in said


def test_hindsight_sets_and_formulas_come_only_when_asked_for():
    plain = trend_figure(POINTS, unit="kg")
    assert names(plain) == ["80 % band", "estimated 1RM"]
    dots = (SetDot(START, 80, "hard", "5 x 80 kg"), SetDot(START, 70, "not said", "5 x 70 kg"))
    full = trend_figure(
        POINTS, unit="kg", hindsight=True, sets=dots, formulas=(FormulaMark(START, 99.3, "Epley", "5 x 85 kg"),)
    )
    assert names(full)[2:] == ["in hindsight", "1 to 3 left", "not said", "formulas"]
    assert list(full.data[2].y) == [p.smoothed for p in POINTS]


def test_tested_maxes_carry_their_load_as_text_and_declared_ones_another_mark():
    marks = (MaxMark(START, 102.5, "tested"), MaxMark(START, 100, "declared"))
    tested, declared = trend_figure(POINTS, unit="kg", reps=3, maxes=marks).data[-2:]
    assert tested.text == ("102.5 kg",)
    assert tested.marker.symbol != declared.marker.symbol
    assert "tested 3RM: 102.5 kg" in tested.customdata[0]


def test_of_many_tests_only_the_newest_with_room_between_them_carry_text():
    marks = [MaxMark(START + timedelta(days=n), 100 + n, "tested") for n in range(0, 100, 5)]
    trace = trend_figure(POINTS, unit="kg", maxes=marks).data[-1]
    told = [text for text in trace.text if text]
    assert told[-1] == "195 kg"
    assert 2 <= len(told) <= MOST


@pytest.mark.parametrize("seed", range(40))
def test_no_text_lies_over_another_or_over_a_mark(seed: int):
    """Boxes reckoned anew from what the figure says: each text's place, its length and the ranges of both axes."""
    chance = Random(seed)
    points = [BandPoint(START + timedelta(days=n), load, load - 4, load + 4) for n, load in _walk(chance)]
    marks = [
        MaxMark(START + timedelta(days=chance.randrange(200)), 90 + chance.randrange(80) / 4, source)
        for source in chance.choices(["tested", "declared", "missed", "set aside"], k=chance.randrange(1, 12))
    ]
    waves = (Span(START + timedelta(days=50), START + timedelta(days=90), "hill road"),) if seed % 2 else ()
    made = trend_figure(points, unit="kg", maxes=marks, waves=waves)
    (first, last), (least, most) = made.layout.xaxis.range, made.layout.yaxis.range
    texts, symbols = [], []
    for trace in made.data:
        if trace.mode != "markers+text":
            continue
        for day, load, text, place in zip(trace.x, trace.y, trace.text, trace.textposition, strict=True):
            x, y = (
                (day - first).days / (last - first).days * 222,
                (load - least) / (most - least) * 290,
            )  # px, as on 320 px
            symbols.append((x - 5, y - 5, x + 5, y + 5))
            if text:
                wide, (updown, side) = 7.6 * len(text), place.split()
                left = {"center": x - wide / 2, "left": x - wide, "right": x}[side]
                bottom = y + 9 if updown == "top" else y - 25
                texts.append((left, bottom, left + wide, bottom + 16))
                symbols.pop()
    for n, (left, bottom, right, top) in enumerate(texts):
        assert left >= -16
        assert right <= 238
        for other in (*texts[n + 1 :], *symbols):
            assert left >= other[2] or other[0] >= right or bottom >= other[3] or other[1] >= top


def _walk(chance: Random) -> list[tuple[int, float]]:
    load, found = 95.0, []
    for day in range(0, 200, 4):
        load += chance.uniform(-1, 1.3)
        found.append((day, load))
    return found


def test_two_maxes_of_one_day_write_one_text_over_their_marks():
    """75 kg tested and 75 kg declared, or tested twice, were printed over each other."""
    days = [START, START + timedelta(days=1)]
    both = [MaxMark(days[0], 75, "declared"), MaxMark(days[0], 75, "tested"), MaxMark(days[1], 74, "declared")]
    for marks in (both, [MaxMark(days[0], 75, "tested"), MaxMark(days[0], 75, "tested")]):
        traces = trend_figure(POINTS, unit="kg", maxes=marks).data[2:]
        assert [text for trace in traces for text in trace.text].count("75 kg") == 1
    assert traces[0].name == "test made"


def test_the_text_of_a_max_stands_away_from_the_line_and_inside_the_figure():
    marks = (MaxMark(START, 90, "tested"), MaxMark(POINTS[-1].day, 120, "tested"))
    assert trend_figure(POINTS, unit="kg", maxes=marks).data[-1].textposition == ("bottom right", "top left")


def test_the_legend_takes_room_below_and_none_from_the_plot():
    short, long = trend_figure(POINTS, unit="kg"), trend_figure(POINTS, unit="kg", hindsight=True)
    assert short.layout.height - short.layout.margin.b == long.layout.height - long.layout.margin.b
    assert long.layout.margin.b > short.layout.margin.b


@pytest.mark.parametrize(
    ("outcome", "kind", "rir", "effort"),
    [
        ("missed", "work", None, "to the end"),
        ("done", "test", 2, "to the end"),
        ("done", "work", 0, "to the end"),
        ("done", "work", 2.5, "hard"),
        ("done", "work", 5, "easy"),
        ("done", "work", None, "not said"),
        ("cut", "work", 1, "not said"),
        ("done", "ramp", 1, "not said"),
    ],
)
def test_effort_is_what_was_said_of_the_end_of_a_set(outcome, kind, rir, effort):
    assert effort_of(outcome=outcome, kind=kind, rir=rir) == effort


def test_efforts_differ_by_mark_not_by_colour_alone():
    assert len({symbol for _, symbol, _ in EFFORTS.values()}) == len(EFFORTS)


def test_two_weeks_without_a_day_of_training_are_a_lay_off_and_a_day_less_is_not():
    days = [START, START + timedelta(days=14), START + timedelta(days=29)]
    assert lay_offs(days) == ((days[1], days[2]),)


def test_lay_offs_and_waves_lie_behind_everything():
    figure = trend_figure(
        POINTS,
        unit="kg",
        training_days=[START, START + timedelta(days=30)],
        waves=(Span(START, START + timedelta(days=20), "three weeks"),),
    )
    assert {shape.layer for shape in figure.layout.shapes} == {"below"}
    assert figure.layout.xaxis.type == "date"  # though the mark for the legend has no day
    texts = {note.text for note in figure.layout.annotations}
    assert texts == {"29 days off", "three weeks"}
    assert "days off" in names(figure)  # the legend says what the shade is


def test_a_narrow_lay_off_is_shaded_without_text():
    days = [START, START + timedelta(days=15), *(START + timedelta(days=20 + 7 * week) for week in range(50))]
    figure = trend_figure(POINTS, unit="kg", training_days=days)
    assert [shape.x0 for shape in figure.layout.shapes] == [START]
    assert {note.text for note in figure.layout.annotations} <= {"", None}


def test_one_point_is_a_mark_that_can_be_seen_and_none_is_an_empty_figure():
    assert trend_figure(POINTS[:1], unit="kg").data[1].marker.size == 10
    assert len(trend_figure((), unit="kg").data) == 0


def test_the_figure_in_words_names_lift_unit_and_band():
    words = trend_words(POINTS, unit="kg", reps=1, lift="front squat")
    assert words == (
        "front squat: estimated 1RM from 100 kg on 5 Jan 2026 to 105 kg on 9 Feb 2026, "
        "now 80 % sure between 100 kg and 110.5 kg."
    )
    assert "nothing known" in trend_words((), unit="kg", reps=1, lift="front squat")


def contrast(one: str, two: str) -> float:
    """Relative luminance and contrast ratio as WCAG 2.2 defines them (W3C Recommendation, definitions)."""

    def luminance(colour: str) -> float:
        parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
        linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    high, low = sorted((luminance(one), luminance(two)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_reckoning_knows_its_ends():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)  # WCAG 2.2: black on white is 21:1
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)  # just under 4.5, the usual worked example


@pytest.mark.parametrize("look", [LIGHT, DARK])
@pytest.mark.parametrize("name", ["text", "tested", "declared", "estimate", "hindsight", "formula", "set"])
def test_texts_and_lines_stand_out_from_the_page(look, name):
    assert contrast(getattr(look, name), look.back) >= 4.5  # WCAG 2.2, 1.4.3; lines would need 3 (1.4.11)


def test_the_look_keeps_still_under_a_thumb():
    layout = template(dark=True).layout
    assert layout.dragmode is False
    assert layout.xaxis.fixedrange
    assert CONFIG["displayModeBar"] is False
    assert colours(dark=True) is DARK
