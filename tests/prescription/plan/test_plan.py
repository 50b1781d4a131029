"""A plan counted backward from a test: what each week asks, on which days, and that its sheet reads back to the same."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from tracker.errors import BadInputError
from tracker.prescription.plan import PlanAsk, PlanLift, days_of, plan_sheet, plan_text, weeks_of
from tracker.prescription.plan.ask import SHAPES, weeks_until
from tracker.prescription.plan.layout import rise
from tracker.prescription.plan.lift_line import lift_of
from tracker.prescription.sheet import parse_sheet
from tracker.prescription.sheet.model import FindMax

SQUAT = PlanLift("back squat", 5, Decimal(65), Decimal(85), 5, 5)
PRESS = PlanLift("press", 1, Decimal(70), Decimal(90), 4, 5, 2)
SATURDAY = date(2031, 3, 29)
ASK = PlanAsk((SQUAT, PRESS), SATURDAY, 8, (0, 2, 4), "steady", easier_every=4, taper_weeks=1)


def test_a_plan_by_hand():
    """Eight weeks to a Saturday: week 4 is easier, week 8 tapers, six weeks rise from 65 to 85 % by four points."""
    weeks = weeks_of(ASK)
    assert [each.kind for each in weeks] == ["training"] * 3 + ["easier"] + ["training"] * 3 + ["taper"]
    assert [each.lifts[0].percent for each in weeks] == [65, 69, 73, 63, 77, 81, 85, 85]
    assert [each.lifts[0].sets for each in weeks] == [5, 5, 5, 3, 5, 5, 5, 3]
    assert [each.lifts[1].reps for each in weeks] == [5, 4, 4, 4, 3, 3, 2, 2]
    days = days_of(ASK)
    assert days[0].day == date(2031, 2, 3)  # the Monday of the week that ends eight Saturdays before the last
    assert (days[-1].day, days[-1].test, days[-1].lifts) == (SATURDAY, True, (0, 1))
    assert days[-2].day == SATURDAY - timedelta(days=3)  # Friday and Thursday before it are free
    assert len(days) == 3 * 7 + 2 + 1


def test_shapes_rise_from_the_first_to_the_last():
    assert rise(4, "step") == (0, 0, 1, 1)
    assert [round(4 * each) for each in rise(9, "wave")] == [0, 1, 2, 1, 2, 3, 2, 3, 4]
    assert [round(4 * each) for each in rise(8, "wave")] == [0, 1, 1, 2, 3, 2, 3, 4]  # the last waves are whole
    assert rise(1, "wave") == (1.0,)
    assert rise(2, "step") == (0, 1)


def test_lifts_in_turn_have_days_of_their_own():
    days = [each for each in days_of(replace(ASK, in_turn=True)) if not each.test]
    assert [each.lifts for each in days[:4]] == [(0,), (1,), (0,), (0,)]
    three = replace(ASK, lifts=(SQUAT, PRESS, replace(SQUAT, name="deadlift")), in_turn=True, weekdays=(0, 3))
    assert [each.lifts for each in days_of(three)[:2]] == [(0, 2), (1,)]


LIFTS = st.builds(
    lambda name, implement, of, start, more, sets, reps, end, each: PlanLift(
        name, of, Decimal(start) / 2, Decimal(start + more) / 2, sets, reps, end, implement, each
    ),
    st.sampled_from(["back squat", "press", "hang power clean", "Überzug", "weighted pull-up", "bench press", "split squat"]),
    st.sampled_from(["barbell", "dumbbells", "kettlebell", "body", "machine"]),
    st.integers(1, 12), st.integers(40, 180), st.integers(0, 100), st.integers(1, 15), st.integers(1, 20),
    st.none() | st.integers(1, 20), st.booleans(),
)  # fmt: skip


@st.composite
def asks(draw: st.DrawFn) -> PlanAsk:
    test = draw(st.booleans())
    weeks = draw(st.integers(1, 7))
    return PlanAsk(
        tuple(draw(st.lists(LIFTS, min_size=1, max_size=2, unique_by=lambda each: (each.name, each.implement)))),
        date(2030, 1, 1) + timedelta(days=draw(st.integers(0, 800))), weeks,
        tuple(draw(st.sets(st.integers(0, 6), min_size=1))), draw(st.sampled_from(SHAPES)),
        draw(st.sampled_from([0, 2, 3, 4])), draw(st.integers(0, min(2, weeks - 1))) if test else 0, test,
        draw(st.none() | st.integers(1, 5)), draw(st.booleans()),
    )  # fmt: skip


@given(asks())
@settings(max_examples=15, deadline=None, phases=[Phase.explicit, Phase.reuse, Phase.generate])
def test_every_plan_reads_back_and_holds_what_was_asked(ask: PlanAsk):
    weeks, days = weeks_of(ask), days_of(ask)
    hard = [each for each in weeks if each.kind == "training"]
    assert len(weeks) == ask.weeks
    assert hard
    for place, lift in enumerate(ask.lifts):
        asked = [each.lifts[place].percent for each in hard]
        assert asked[-1] == lift.end
        assert len(asked) == 1 or asked[0] == lift.start
        assert all(lift.start <= each <= lift.end for each in asked)
        assert all(1 <= each.lifts[place].sets <= lift.sets for each in weeks)
    assert [each.day for each in days] == sorted({each.day for each in days})
    assert all(each.day.weekday() in ask.weekdays or each.test for each in days)
    assert all(ask.begins <= each.day <= ask.ends for each in days)
    if ask.test:
        assert days[-1].day == ask.ends
        assert all((ask.ends - each.day).days > 2 for each in days[:-1])
    if not any(not each.test for each in days):
        with pytest.raises(BadInputError, match="left to train on"):
            plan_sheet(ask)
        return
    sheet = plan_sheet(ask)
    assert parse_sheet(plan_text(ask)).sessions == sheet.sessions
    tests = [item for session in sheet.sessions for item in session.items if isinstance(item.sets[0], FindMax)]
    assert len(tests) == (len(ask.lifts) if ask.test else 0)


@pytest.mark.parametrize(
    ("changed", "where"),
    [
        ({"lifts": ()}, "lifts"), ({"lifts": (SQUAT, SQUAT)}, "lifts"), ({"weeks": 0}, "weeks"), ({"weeks": 53}, "weeks"),
        ({"weekdays": ()}, "days"), ({"weekdays": (7,)}, "days"), ({"weekdays": (1, 1)}, "days"),
        ({"shape": "zigzag"}, "shape"), ({"easier_every": 1}, "easier weeks"), ({"taper_weeks": 3}, "taper"),
        ({"taper_weeks": 1, "test": False}, "taper"), ({"weeks": 2, "taper_weeks": 2}, "taper"), ({"test_reps": 31}, "test"),
        ({"ends": date(1, 1, 9)}, "test day"),
    ],
)  # fmt: skip
def test_a_plan_that_cannot_be_is_refused_by_name(changed, where):
    with pytest.raises(BadInputError) as wrong:
        replace(ASK, **changed)
    assert wrong.value.where == where
    assert wrong.value.mend


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"end": Decimal(60)}, "would fall from 65 to 60 %"), ({"start": Decimal(5)}, "5 % can't"), ({"end": Decimal(400)}, "400 % can't"),
        ({"sets": 0}, "0 sets"), ({"reps": 21}, "21 repetitions"), ({"end_reps": 30}, "30 repetitions"), ({"of_reps": 0}, "0RM"),
        ({"name": " "}, "no name"),
    ],
)  # fmt: skip
def test_a_lift_that_cannot_be_is_refused_by_name(changed, said):
    with pytest.raises(BadInputError, match=said):
        replace(SQUAT, **changed)


def test_all_that_is_wrong_is_told_at_once():
    with pytest.raises(BadInputError, match=r"Weeks: 0 weeks.*Days: No day"):
        replace(ASK, weeks=0, weekdays=())


def test_a_name_that_a_sheet_reads_as_something_else_is_refused():
    with pytest.raises(BadInputError, match="would be read as something else"):
        plan_text(replace(ASK, lifts=(replace(SQUAT, name="rest 3:00"),)))


def test_weeks_until_a_day():
    assert weeks_until(date(2031, 3, 29), date(2031, 3, 23)) == 1  # that day, and the six after it
    assert weeks_until(date(2031, 3, 29), date(2031, 2, 1)) == 8
    with pytest.raises(BadInputError, match="less than a week away"):
        weeks_until(date(2031, 3, 29), date(2031, 3, 24))


def test_a_lift_as_it_is_typed():
    assert lift_of("back squat, barbell: 5x5 @ 65-85 of 5RM") == SQUAT
    assert lift_of("press: 4x5-2 @ 70-90 %") == PRESS
    assert lift_of("split squat, dumbbells").implement == "dumbbells"
    for wrong, said in (
        ("press: lots", "no plan of a lift"),
        ("press, broom: 5x5 @ 70", "no implement"),
        ("press: 5x5 @ 90-70", "fall"),
    ):
        with pytest.raises(BadInputError, match=said):
            lift_of(wrong)
