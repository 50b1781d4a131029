"""The study's page: its figures are the backtest's own, its errors are between people, and it stands alone."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser
from pathlib import Path

import numpy as np
import pytest

from tracker.errors import BadInputError
from tracker.strength.backtest import thin
from tracker.strength.backtest.thin_table import score
from tracker.study import __main__ as study
from tracker.study import calibration, invented, lifters, parts
from tracker.study.figures import NOBODY, ratio, root, share, worst
from tracker.study.invented import Foretold, MemberResult
from tracker.study.page import page
from tracker.study.tables import Part, Picture, Study, Table

REFERENCES = Path(__file__).parents[1] / "references"
SEED = 7


@pytest.fixture(scope="module")
def members() -> list[MemberResult]:
    return [invented.result(member) for kind in thin.KINDS for member in thin.invent(kind, 2, SEED)]


@pytest.fixture(scope="module")
def lifts() -> list[invented.LiftResult]:
    return invented.former(range(3), SEED)


def cells(part: Part, caption: str) -> dict[str, tuple[str, ...]]:
    """Rows of a table by their first cell."""
    (table,) = [each for each in part.tables if each.caption.startswith(caption)]
    assert all(len(row) == len(table.head) for row in table.rows)
    return {row[0]: row[1:] for row in table.rows}


def test_a_mean_has_the_textbook_error_between_people():
    """Standard error of the mean: SD (n - 1) over the root of n."""
    figure = share([0.1, 0.2, 0.6])
    assert figure.value == pytest.approx(30)
    assert figure.error == pytest.approx(100 * np.std([0.1, 0.2, 0.6], ddof=1) / np.sqrt(3))
    assert figure.people == 3
    assert share([0.1, float("nan")]).people == 1
    assert share([0.1]).words == "10.0"
    assert share([]).words == NOBODY.words == "–"


def test_a_ratio_of_errors_has_the_spread_that_drawing_people_again_shows():
    """The bootstrap (Efron 1979): the same people drawn with replacement, many times; squares of one person go together."""
    dice = np.random.default_rng(4)
    least = dice.gamma(2.0, size=300)
    squares = least * dice.uniform(1, 3, size=300)
    found, error = ratio(squares.tolist(), least.tolist())
    assert found == pytest.approx(np.sqrt(squares.mean() / least.mean()))
    drawn = dice.integers(0, 300, size=(2000, 300))
    again = np.sqrt(squares[drawn].mean(axis=1) / least[drawn].mean(axis=1))
    assert error == pytest.approx(again.std(), rel=0.1)
    assert ratio([0.0004], [0.0001]) == (2, 0)


def test_a_root_mean_square_has_its_error_by_first_order():
    dice = np.random.default_rng(3)
    draws = [dice.normal(0, 0.05, 200) ** 2 for _ in range(400)]
    values = [root(draw.tolist()).value for draw in draws]
    assert np.mean([root(draw.tolist()).error for draw in draws]) == pytest.approx(np.std(values), rel=0.15)
    assert worst([0.0001, 0.0004]) == pytest.approx(2)


def test_bands_of_every_width_hold_as_often_as_truths_that_are_drawn_evenly():
    """Probabilities that are even from 0 to 1 are what a calibrated forecast gives (probability integral transform)."""
    dice = np.random.default_rng(5)
    for level in calibration.levels([dice.uniform(size=20).tolist() for _ in range(400)]):
        assert level.held.value == pytest.approx(level.said, abs=4 * level.held.error + 0.01)
    certain = calibration.levels([[0.5], [0.5]])
    assert {each.held.value for each in certain} == {100}
    off = calibration.levels([[0.999], [0.001]])
    assert {each.held.value for each in off} == {0}


def test_chances_are_grouped_and_each_set_is_counted_once(members):
    found = calibration.chances(members)
    assert sum(each.sets for each in found) == sum(len(each.sets) for each in members)
    for each in found:
        assert each.low <= each.said <= each.high
    one = MemberResult(
        "slips", members[0].score, (Foretold(0.75, True), Foretold(0.75, False), Foretold(1.0, True)), {}
    )
    low, top = calibration.chances([one])
    assert (low.low, low.high, low.made.value, low.sets) == (70, 80, 50, 2)
    assert (top.low, top.high, top.made.value, top.sets) == (98, 100, 100, 1)


def test_chances_are_given_the_day_before_and_only_of_planned_sets(members):
    by_kind = invented.by_kind(members)
    for kind in invented.KIND_WORDS:
        assert bool(by_kind[kind][0].sets) == (kind in invented.PLANNED_KINDS)
    member = next(thin.invent(thin.slips, 1, SEED))
    work = [each for each in member.records if each.day in member.truth and each.kind == "work"]
    assert [each.made for each in by_kind["slips"][0].sets] == [each.outcome == "done" for each in work]


def test_figures_are_those_of_the_backtest_on_the_same_seed(members):
    part = parts.thin_part(members, SEED)
    rows = cells(part, "Members of whom little is known")
    for kind in (thin.meets, thin.rested):
        scores = [score(member) for member in thin.invent(kind, 2, SEED)]
        (row,) = [cell for name, cell in rows.items() if name.startswith(f"{kind.__name__}:")]
        assert row[0] == "2"
        assert row[1].startswith(f"{100 * np.sqrt(np.mean([each.square for each in scores])):.1f} ")
        assert row[4].startswith(f"{100 * np.mean([each.held for each in scores]):.1f} ")


def test_an_80_per_cent_band_held_is_the_same_by_its_level(members):
    held = [each.score.held for each in members]
    inside = [np.mean([0.1 <= below <= 0.9 for below in each.score.below]) for each in members]
    assert inside == pytest.approx(held, abs=1e-9)


def test_athletes_who_test_stand_beside_the_oracle(lifts):
    rows = cells(parts.tested_part({SEED: lifts}), "Athletes who test")
    assert set(rows) == {"all", *(each.kind for each in lifts)}
    assert rows["all"][0] == str(len(lifts))
    assert rows["all"][1].startswith(f"{100 * np.sqrt(np.mean([each.squares['estimate'] for each in lifts])):.1f} ")


def test_a_tie_is_called_a_tie(members):
    """Seven real lifters can't rank methods: the page says so with both figures."""
    found = lifters.errors(REFERENCES / "bench_reps_to_failure.csv")
    part = parts.formulas_part(members, found)
    assert any("ties with the best formula" in line and "from three sets" in line.lower() for line in part.words)
    assert any("7 people" in line for line in part.words)
    rows = cells(part, "Error of the 1RM")
    assert rows["own curve, learnt on other days"][1] == lifters.figure(found, lifters.OWN, 3).words
    assert len(rows) == 2 + len(lifters.FORMULAS)


def test_a_difference_beyond_its_error_is_said_to_be_one():
    def person(ours: float, formula: float) -> lifters.Errors:
        values = dict.fromkeys(lifters.FORMULAS, 0.3) | {"epley": formula, lifters.OWN: ours}
        return lifters.Errors("", {(key, 3): [value] for key, value in values.items()})

    clear = [person(0.01 + 0.001 * i, 0.1 + 0.001 * i) for i in range(7)]
    assert lifters.told_apart(clear, 3) == ("epley", True)
    close = [person(0.01 * (i % 3), 0.01 * ((i + 1) % 3)) for i in range(7)]
    assert lifters.told_apart(close, 3) == ("epley", False)


class Tags(HTMLParser):
    """Which tags stay open, and every address that would be fetched."""

    VOID = ("meta", "br", "link", "img")

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.fetched: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in self.VOID:
            self.open.append(tag)
        self.fetched += [value or "" for name, value in attrs if name in ("src", "href")]

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def test_the_page_stands_alone_and_is_whole_html(members, lifts):
    made = Study(
        "T & t",
        "under",
        (parts.thin_part(members, SEED), parts.calibration_part(members), parts.tested_part({SEED: lifts})),
    )
    text = page(made)
    reader = Tags()
    reader.feed(text)
    assert reader.open == []
    assert reader.fetched == []
    assert "T &amp; t" in text
    figures = re.findall(r'<script type="application/json" id="(picture-[^"]+)">(.*?)</script>', text, re.DOTALL)
    assert [name for name, _ in figures] == re.findall(r'data-picture="([^"]+)"', text)
    assert len(figures) == 4
    for _, both in figures:
        assert set(json.loads(both)) == {"light", "dark"}


def test_text_can_end_no_script():
    import plotly.graph_objects as go

    made = go.Figure(layout={"title": "</script><b>"})
    text = page(Study("", "", (Part("", (), (Picture("", made, made),), (Table("", ("<i>",), [("<u>",)]),)),)))
    assert "</script><b>" not in text
    assert "<i>" not in text
    assert "&lt;u&gt;" in text


def test_a_folder_that_is_not_there_is_refused_before_anything_runs(tmp_path):
    with pytest.raises(BadInputError, match="no folder"):
        study.main(["--out", str(tmp_path / "none" / "study.html")])


def test_the_command_writes_the_page_and_says_what_is_left_out(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(study, "QUICK", (1, 1, 1))
    out = tmp_path / "study.html"
    study.main(["--quick", "--out", str(out), "--data", str(tmp_path)])
    text = out.read_text(encoding="utf-8")
    assert "Left out, because the file was not there: bench_reps_to_failure.csv, competition_lifters.csv." in text
    assert "Real competitors" not in text
    assert str(out) in capsys.readouterr().err
