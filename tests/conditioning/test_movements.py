"""Movements and their options: the coach's first, nothing converted, and what each order rests on."""

from tracker.conditioning.ladder import Steady
from tracker.conditioning.movements import (
    EBBEN_2011,
    EBBEN_2011_STATUS,
    MOVEMENTS,
    eccentric_reps,
    is_eccentric,
    movement_named,
    options_for,
)
from tracker.conditioning.pieces import Task


def test_the_coachs_options_come_first_and_none_comes_twice():
    coach = (Task("squat and press", Steady(8)), Task("thruster"))
    names = [option.name for option in options_for(Task("wall ball shot", options=coach))]
    assert names[:2] == ["squat and press", "thruster"]
    assert len(set(names)) == len(names)
    assert "air squat" in names
    assert options_for(Task("unicycle")) == ()


def test_push_up_forms_from_easier_to_harder():
    """Ebben et al. 2011: heights and their order are in the abstract (23 adults, peak force); hands on a 61 cm box are
    easier than knees. The shares were read in texts that cite it."""
    shares = {form.form: form.share for form in EBBEN_2011}
    assert list(shares.values()) == sorted(shares.values())
    assert shares["hands on a 61 cm box"] < shares["knees"] < shares["hands on a 30.5 cm box"] < shares["regular"]
    assert EBBEN_2011_STATUS != "published"


def test_every_movement_has_options_and_no_order_of_a_custom_is_called_published():
    for movement in MOVEMENTS:
        assert movement.options
        assert movement.status == "common practice"
        assert movement_named(movement.name.upper()) is movement


def test_eccentric_repetitions():
    tasks = (Task("pull-up"), Task("goblet squat"), Task("row", measure="cal"), Task("kettlebell swing"))
    assert eccentric_reps(tasks, (30, 40, 50, 60)) == 70
    assert is_eccentric("Hand-release push-up")
    assert not is_eccentric("row")
