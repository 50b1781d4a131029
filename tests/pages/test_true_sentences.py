"""Each sentence about rounding, holding, best and change is held against what it is about, over random logs.

The sentences are those of the desk and of the pages; what is true is worked out here from the rows that were logged, by other
means than the desk's: loads by trying all that stands there, marks by walking through the sets, and what is believed of a
max from a model of its own. Invented logs, one for each seed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from functools import partial
from html import unescape
from itertools import product
from random import Random

import pytest

from tests import selection
from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, words
from tracker.components.history.load_view import why_words
from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set, weights
from tracker.desk.maxes import gain, glance, marks, rep_maxes, trend
from tracker.desk.people import people, places
from tracker.log.records import KitItemRecord, LiftRecord, MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.strength.estimator import LiftModel
from tracker.strength.holds import still_holds
from tracker.strength.lift_curves import parameters_of
from tracker.strength.records import SetRecord
from tracker.units import Mass

SEEDS = range(12)
KINDS = ("barbell", "dumbbells", "body")
BODY = 72


@dataclass(frozen=True)
class Row:
    """One set as it was logged here."""

    day: date
    load: Decimal
    reps: int
    rir: Decimal | None
    outcome: str
    kind: str


@dataclass(frozen=True)
class Life:
    """A member with one lift and what was done of it, and the masses that stand there."""

    member: MemberRecord
    lift: LiftRecord
    rows: tuple[Row, ...]
    loads: tuple[Decimal, ...]  # all that can be made: whole bars, or dumbbells
    dumbbells: tuple[Decimal, ...]


Live = Callable[[int], tuple[Log, Life]]


@pytest.fixture
def live(fresh: Callable[..., str]) -> Iterator[Live]:
    """Live one of the lives: each is logged once and copied for the next test that asks for it."""
    opened: list[Log] = []

    def lived(seed: int) -> tuple[Log, Life]:
        story = tell(seed)
        address = fresh() if selection.ON_SERVER else fresh(f"life_{seed}", partial(write, story=story))
        opened.append(log := open_log(address))
        if selection.ON_SERVER:  # a template for each would take as long
            write(log, story)
        (member,), (lift,) = people.members(log), people.lifts(log)
        return log, Life(member, lift, story.rows, story.loads, story.dumbbells)

    yield lived
    for log in opened:
        log.close()


@dataclass(frozen=True)
class Story:
    """What is written of a life."""

    kind: str
    items: tuple[KitItemRecord, ...]
    rows: tuple[Row, ...]
    loads: tuple[Decimal, ...]
    dumbbells: tuple[Decimal, ...]


def tell(seed: int) -> Story:
    chance = Random(seed)
    kind = KINDS[seed % len(KINDS)]
    masses = sorted({Decimal(chance.choice((5, 7, 10, 12, 15, 20, 24, 30))) for _ in range(5)})
    discs = {Decimal(10): 3, Decimal(5): chance.choice((1, 2)), Decimal("2.5"): chance.choice((0, 1))}
    items = [KitItemRecord("", "bar", "bar", kg(20), 1)]
    items += [KitItemRecord("", "disc", str(mass), kg(mass), pairs) for mass, pairs in discs.items()]
    items += [KitItemRecord("", "dumbbell", str(mass), kg(mass), 2) for mass in masses]
    items += [KitItemRecord("", "band", "band", None, 1)]
    level, rows = 60.0 if kind == "barbell" else 18.0, list[Row]()
    for ago in sorted(chance.sample(range(1, 330), chance.randrange(4, 24)), reverse=True):
        level *= 1 + chance.uniform(-0.02, 0.03)
        for _ in range(chance.randrange(1, 4)):
            tested = chance.random() < 0.2
            missed = chance.random() < 0.2
            load = Decimal(round(level * chance.uniform(0.75, 1.1) * 2)) / 2
            rir = None if tested or chance.random() < 0.3 else Decimal(chance.randrange(5))
            reps = chance.choice((1, 3, 5)) if tested else chance.randrange(1, 9)
            row = Row(
                this_day() - timedelta(days=ago), load, max(reps - missed, 1), None if missed else rir,
                "missed" if missed else "done", "test" if tested else "work",
            )  # fmt: skip
            rows.append(row)
    sides = [
        sum(n * d for n, d in zip(some, discs, strict=True))
        for some in product(*(range(n + 1) for n in discs.values()))
    ]
    made = [20 + 2 * side for side in sides] if kind == "barbell" else masses
    return Story(kind, tuple(items), tuple(rows), tuple(sorted({Decimal(each) for each in made})), tuple(masses))


def write(log: Log, story: Story) -> None:
    place = places.add_place(log, "Shed", "kg", story.items)
    member = people.go_to_place(log, people.add_member(log, "Bo").id, place.id)
    lift = people.add_lift(log, {"barbell": "squat", "dumbbells": "row", "body": "pull-up"}[story.kind], story.kind)
    people.weigh(log, member.id, this_day() - timedelta(days=400), kg(BODY))
    more = {"body_mass": Decimal(BODY)} if story.kind == "body" else {}
    for row in story.rows:
        new = NewSet(lift.id, Mass(row.load, "kg"), row.reps, row.rir, row.outcome, row.kind, **more)
        log_set.log_set(log, member.id, row.day, new, sure=True)


def of_its_own(life: Life) -> LiftModel:
    """A model that the desk had no hand in."""
    body = BODY if life.lift.body else 0
    records = [
        SetRecord(
            row.day,
            float(row.load) + body,
            row.reps,
            None if row.rir is None else float(row.rir),
            row.outcome,
            row.kind,
            at,
        )  # type: ignore[arg-type]
        for at, row in enumerate(life.rows)
    ]
    return LiftModel.of(records, parameters_of(life.lift.title), sorted({row.day for row in life.rows}))


def model_days(today: date) -> list[date]:
    """The days of a year and a half, the newest first."""
    return [today - timedelta(days=ago) for ago in range(550)]


def amounts(text: str) -> list[Decimal]:
    return [Decimal(each.replace("−", "-")) for each in re.findall(r"[+−]?\d+(?:\.\d+)?(?= kg| to )", text)]


def half(amount: float) -> float:
    """An estimate as it is said, to the half kilogram."""
    return round(amount * 2) / 2


@pytest.mark.parametrize("seed", SEEDS)
def test_each_sentence_about_rounding_is_true_of_what_stands_there(live: Live, seed: int):
    log, life = live(seed)
    unknown = people.add_lift(log, "curl", "dumbbells")  # no set of it is known, so repetitions stay as they are asked
    check_loads(log, life, Random(seed))
    check_loads(log, replace(life, lift=unknown, loads=life.dumbbells), Random(seed))


def check_loads(log: Log, life: Life, chance: Random) -> None:
    for _ in range(12):
        load = Decimal(chance.randrange(20, 90 if life.lift.implements > 1 else 240)) / 2
        wave = f"1x{chance.randrange(1, 7)}@{chance.randrange(40, 101)}"
        reference = weights.typed_reference(f"{load}", chance.randrange(1, 6), "kg", this_day())
        for how in ("nearest", "down"):
            for line in weights.weights(log, life.member, life.lift, reference, wave, this_day(), rounding=how):
                if line.made is not None and not life.lift.body:
                    assert line.made.load.amount in life.loads
                check_rounding(line, life, how)


def check_rounding(line: weights.WeightLine, life: Life, how: str) -> None:
    note, made = line.note or "", line.made
    asked = line.target.kg
    if made is None:
        return
    near = min(life.loads, key=lambda each: (abs(each - asked), each)) if not life.lift.body else None
    if found := re.search(r"The closest here to (\S+) kg is (\S+) kg", note):
        assert abs(Decimal(found[1]) - asked) <= Decimal("0.051")
        assert Decimal(found[2]) == made.load.kg == near
    if found := re.search(r"Too few discs for \S+ kg: the closest( below it)? is (\S+) kg", note):
        below = [each for each in life.loads if each <= asked]
        assert Decimal(found[2]) == made.load.kg == (max(below) if found[1] else near)
    if found := re.search(r"(\S+) kg here, where (\S+) kg is nearer to the (\S+) kg asked", note):
        assert Decimal(found[1]) == made.load.kg
        assert Decimal(found[2]) == near
        assert abs(near - asked) < abs(made.load.kg - asked)
    if found := re.search(r"(?:makes it|is) (\S+) % (more|less) than the (\S+) kg asked", note):
        change = (made.load.kg / asked - 1) * 100
        assert abs(abs(change) - Decimal(found[1])) <= Decimal("0.051")
        assert (change > 0) == (found[2] == "more")
    if "is below the empty bar" in note:
        assert asked < 20 == made.load.kg
    if "Rounded down" in note:
        assert how == "down"
        assert made.load.kg <= asked


@pytest.mark.parametrize("seed", SEEDS)
def test_each_sentence_about_a_best_is_true_of_the_sets(live: Live, show: Open, seed: int):
    log, life = live(seed)
    best = {mark.reps: mark for mark in marks.best_marks(log, life.member, life.lift)}
    for reps, mark in best.items():
        held: Row | None = None
        before: Row | None = None
        for day in sorted({row.day for row in life.rows}):
            todays = [row for row in life.rows if row.day == day and row.reps >= reps]
            top = max(todays, key=lambda row: row.load, default=None)
            if top is not None and (held is None or top.load > held.load):
                held, before = top, held
        assert (mark.done and mark.done.amount, mark.done_on) == (held and held.load, held and held.day)
        assert (mark.before and mark.before.amount, mark.before_on) == (before and before.load, before and before.day)
    last = marks.last_beaten(log, life.member.id, life.lift, this_day())
    set_on = [mark.done_on for mark in best.values() if mark.before is not None]
    assert (last and last.day) == max(set_on, default=None)
    text = words(show(log, "best_marks", life.member.id))
    for reps, load, when in re.findall(
        r'<th scope="row">(\d+)</th><td>(?!about)(?:<b>)?([^<]+)(?:</b>)?<span>([^<,]+)', text
    ):
        mark = best[int(reps)]
        assert mark.done is not None
        assert mark.done_on is not None
        row = text.partition(f'<th scope="row">{reps}</th>')[2].partition("</tr>")[0]
        if beat := re.search(r"beat ([^,]+), (\d+ \w+)", row):
            assert mark.before is not None
            assert mark.before_on is not None
            assert re.findall(r"[\d.]+", beat[1]) == re.findall(r"[\d.]+", str(mark.before)) or "body" in beat[1]
            assert beat[2] == f"{mark.before_on.day} {mark.before_on:%b}"
        assert re.findall(r"[\d.]+", unescape(load)) == re.findall(r"[\d.]+", str(mark.done)) or "body mass" in load
        assert when.startswith(f"{mark.done_on.day} {mark.done_on:%b}")
    if last is not None:
        told = re.search(r"before: ([^,]+), (\d+ \w+)", text.partition("Beaten last")[2])
        assert told is not None
        assert re.findall(r"[\d.]+", told[1]) == re.findall(r"[\d.]+", str(last.before)) or "body" in told[1]
        assert told[2] == f"{last.before_on.day} {last.before_on:%b}"
    if not life.lift.body:
        model, today = of_its_own(life), this_day()
        ever = [each.smoothed or each.filtered for each in model.trend()] + [model.estimate(today)]
        for reps, load in re.findall(
            r'<th scope="row">(\d+)</th>(?:<td>(?!about).*?</td>)?<td>about ([\d.]+) kg', text
        ):
            assert float(load) == half(max(each.rep_max[int(reps)].estimate for each in ever))


@pytest.mark.parametrize("seed", SEEDS)
def test_each_sentence_about_a_change_is_true_of_what_was_believed(live: Live, seed: int):
    log, life = live(seed)
    model, today = of_its_own(life), this_day()
    for since in (date.min, today - timedelta(days=365), today - timedelta(days=91)):
        view = trend.trend(log, life.member, life.lift, reps=3, day=today, since=since)
        if view.gain is None:
            assert view.now is None or (today - max(since, model.days[0].day)).days < gain.LEAST_DAYS
            continue
        began = view.gain.since
        assert max(since, model.days[0].day) <= began <= today - timedelta(days=gain.LEAST_DAYS)
        then, now = (model.estimate(day).rep_max[3] for day in (began, today))
        change = now.estimate - then.estimate
        said = view.gain.words(today)
        if said.startswith("About the same"):
            low, high = amounts(view.gain.sure.replace("0 to", "+0 to"))
            assert low <= 0 <= high or abs(change) < 0.25
        else:
            told = amounts(said)[0]
            assert float(told) == half(now.estimate) - half(then.estimate)  # what stands at the two ends, as said
            assert abs(float(told) - change) <= 0.5
            assert told != 0
        told_since = view.gain.since_words(today)
        assert told_since == f"{began.day} {began:%b}{'' if began.year == today.year else f' {began.year}'}"
        month = said.rpartition("since ")[2]
        assert f"{began:%b}" in month
        if re.search(r"\d{4}", month):
            assert str(began.year) in month
        else:
            assert began.year == today.year or (today - began).days < gain.NAMED_DAYS
    seen = glance.glance(log, life.member, life.lift, today)
    if seen.gain is not None and seen.gain.told:
        then, now = (model.estimate(day).rep_max[seen.reps].estimate for day in (seen.gain.since, today))
        assert float(amounts(seen.gain.short)[0]) == half(now) - half(then)


class Believed:
    """A model that believes what it is told: so likely that the max is below a load, and so likely that it is above."""

    def __init__(self, below: float, above: float) -> None:
        self.answers = {97.5: below, 102.5: 1 - above}

    def below(self, load_kg: float, reps: int, day: date) -> float:
        return self.answers[round(load_kg, 6)]


@pytest.mark.parametrize(
    ("below", "above"), [(b / 10 + 0.003, a / 10 + 0.003) for b in range(10) for a in range(10 - b)]
)
def test_how_surely_holding_is_said_follows_from_how_likely_it_is(below: float, above: float):
    told = still_holds(Believed(below, above), 3, 100.0, date(2026, 3, 2))  # type: ignore[arg-type]
    shares = {"no longer holds": below, "is too low by now": above, "still holds": 1 - below - above}
    most = max(shares.values())
    found = re.search(r"(no longer holds|is too low by now|still holds)[. (]", f"{told.words.rpartition(': ')[2]} ")
    assert found is not None
    assert shares[found[1]] == pytest.approx(most)
    assert ("can't be told yet" in told.words) == (most < 0.6 - 1e-9)
    assert ("probably" in told.words) == (0.6 - 1e-9 <= most < 0.8 - 1e-9)
    assert bool(told.settle) == (most < 0.8 - 1e-9)


@pytest.mark.parametrize("seed", [seed for seed in SEEDS if KINDS[seed % len(KINDS)] == "barbell"])
def test_each_rung_of_the_ladder_is_true_of_its_load(live: Live, show: Open, seed: int):
    log, life = live(seed)
    rep_maxes.add_rep_max(log, life.member.id, life.lift.id, this_day(), 3, kg("61.5"), tested=False)
    at = show(log, "weights", life.member.id)
    at.selectbox(key=f"weights_reps_{life.member.id}_{life.lift.id}").set_value(3).run()
    source = next(each for each in at.selectbox if each.key == f"weights_source_{life.member.id}_{life.lift.id}_3")
    source.set_value("declared").run()
    at.text_input(key="weights_wave").set_value("1x4@61, 1x4@88, 1x12@97").run()
    text, model = unescape(words(at)), of_its_own(life)
    rungs = re.findall(
        r"1 set of (\d+) at (\d+) %.*?<b>([\d.]+) kg</b>.*?<small>([^<]*)</small><p class=\"chance\">([^<]*)<",
        text,
        re.S,
    )
    assert len(rungs) == 3
    for place, (reps, percent, load, beside, chance) in enumerate(rungs):
        assert Decimal(load) in life.loads
        if found := re.search(r"(asked|lowered to) ([\d.]+) kg(?: · ([\d.]+) kg is ([\d.]+) % of the max)?", beside):
            asked = 61.5 * int(percent) / 100
            assert float(found[2]) == pytest.approx(asked, abs=0.051) or found[1] == "lowered to"
            assert float(found[2]) < asked - 0.1 or found[1] == "asked"
            assert found[3] is None or found[3] == load
            assert found[4] is None or float(found[4]) == pytest.approx(float(load) / 61.5 * 100, abs=0.051)
        likely = model.chance(float(load), int(reps), day=this_day(), sets_before=place)
        if told := re.search(r"(\d+) % likely to make (\d+) reps", chance):
            assert int(told[1]) == pytest.approx(likely * 100, abs=1.01)
            assert told[2] == reps


@pytest.mark.parametrize("seed", SEEDS)
def test_each_sentence_about_holding_is_true_of_what_is_believed(live: Live, show: Open, seed: int):
    log, life = live(seed)
    model, today = of_its_own(life), this_day()
    tests = [row for row in life.rows if row.kind == "test" and row.outcome == "done"]
    body = BODY if life.lift.body else 0
    for reps in {row.reps for row in tests} | {1}:
        text = unescape(words(show(log, "trend", life.member.id, lift=life.lift.id, reps=str(reps))))
        of = [row for row in tests if row.reps == reps]
        if not of:
            assert "Tested" not in text
            continue
        newest = max(of, key=lambda row: (row.day, row.load))
        moved = float(newest.load) + body
        shares = [model.below(moved * share, reps, today) for share in (0.975, 1.025)]
        chances = {
            "is too low by now": 1 - shares[1],
            "still holds": shares[1] - shares[0],
            "no longer holds": shares[0],
        }
        for probably, what, percent in re.findall(
            rf"The {reps}RM (probably )?(is too low by now|still holds|no longer holds) \((\d+) % likely\)", text
        ):
            assert chances[what] == max(chances.values())
            assert int(percent) == pytest.approx(chances[what] * 100, abs=1.01)
            assert bool(probably) == (chances[what] < 0.8)
            assert chances[what] >= 0.6
        if began := re.search(r"From about (?:body \+ )?([\d.]+) kg on (\d+) (\w+)(?: (\d{4}))?;", text):
            named = (f"{day.day} {day:%b}" + (f" {day.year}" if began[4] else "") for day in model_days(today))
            wanted = " ".join(each for each in began.groups()[1:] if each)
            on = next(day for day, name in zip(model_days(today), named, strict=True) if name == wanted)
            assert float(began[1]) == half(model.estimate(on).rep_max[reps].estimate - body)
        rows = [("it holds", "still holds"), ("too low", "is too low by now"), ("no longer", "no longer holds")]
        for words_of, name in rows:  # the three beside the picture, each of its own
            for percent in re.findall(rf"<b>(\d+|under 1) %</b><span>[^<]*{words_of}", text):
                told = 0.0 if percent == "under 1" else int(percent)
                assert told == pytest.approx(chances[name] * 100, abs=1.01)
        band = model.estimate(today).rep_max[reps]
        scale = text.partition('class="scale"')[2].partition("</div>")[0]
        if not body and scale:
            marks_on = [float(each) for each in re.findall(r'class="below[^>]*>([\d.]+) kg', scale)]
            assert marks_on == [half(band.low80), half(band.estimate), half(band.high80)]
            assert f"tested {newest.load.normalize():f} kg" in scale or life.lift.implements > 1
        outside = not band.low80 - 1e-6 <= moved <= band.high80 + 1e-6
        assert (f"The tested {reps}RM lies" in text) == outside  # no test is contradicted without a word
        if outside:
            side = "above" if moved > band.high80 else "below"
            assert f"The tested {reps}RM lies {side} what the estimate is 80 % sure of." in text
            assert f"all other sets speak for {'less' if side == 'above' else 'more'}" in text


@pytest.mark.parametrize("seed", SEEDS)
def test_no_headline_says_as_a_max_what_was_missed_and_not_made_since(live: Live, show: Open, seed: int):
    log, life = live(seed)
    if life.lift.body:
        return
    model, today = of_its_own(life), this_day()
    for reps in (1, 3, 5):
        about = half(model.estimate(today).rep_max[reps].estimate)
        standing: dict[Decimal, set[date]] = {}
        for at, row in enumerate(life.rows):
            near = row.outcome == "missed" and row.reps < reps and (today - row.day).days <= 91 and row.load <= about
            made = any(other.reps >= reps and other.load >= row.load for other in life.rows[at + 1 :])
            if near and not made:
                standing.setdefault(row.load, set()).add(row.day)
        text = unescape(words(show(log, "trend", life.member.id, lift=life.lift.id, reps=str(reps))))
        if "Estimated" not in text:
            continue
        head = text.partition('<p class="big">')[2].partition("</p>")[0]
        assert ("missed" in head) == bool(standing)
        if standing:
            lightest = min(standing)
            earlier = {
                row.day
                for row in life.rows
                if row.load == lightest and row.outcome == "missed" and row.reps < reps and (today - row.day).days <= 91
            }
            assert head.startswith(f"{lightest.normalize():f} kg")
            many = re.search(r"on (\d+) days", head)
            assert (int(many[1]) if many else 1) == len(earlier)
            assert f"Estimated {reps}RM today: 80 % sure it is between" in text
        else:
            assert re.search(rf"Estimated {reps}RM today: {about:g} kg", text)


@pytest.mark.parametrize("seed", range(40))
def test_what_is_said_of_a_week_follows_from_its_figures(seed: int):
    chance = Random(seed)
    names = chance.sample(("load", "time", "how hard", "sessions"), chance.randrange(1, 5))
    stands = {name: chance.choice(("more", "as usual", "as usual", "less")) for name in names}
    said = why_words(stands)  # type: ignore[arg-type]
    for side, word in (("more", "above"), ("less", "below")):
        of = [name for name, stand in stands.items() if stand == side]
        assert (word in said) == bool(of)
        if of:
            clause = next(each for each in re.split(r"; ", said) if word in each)
            assert all(name in clause.lower().partition(f" {word} ")[0] for name in of)
            assert not [name for name in names if name not in of and name in clause.lower().partition(f" {word} ")[0]]
    if set(stands.values()) == {"as usual"}:
        assert "in your usual range" in said
