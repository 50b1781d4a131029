"""Movements and their options: the coach's first, nothing converted, and what each order rests on."""

from tracker.conditioning.ladder import Steady
from tracker.conditioning.movements import (
    MOVEMENTS,
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


def test_every_movement_has_options_and_no_order_of_a_custom_is_called_published():
    for movement in MOVEMENTS:
        assert movement.options
        assert movement.status == "common practice"
        assert movement_named(movement.name.upper()) is movement


def test_eccentric_movements():
    found = [is_eccentric(name) for name in ("pull-up", "goblet squat", "row", "kettlebell swing")]
    assert found == [True, True, False, False]
    assert is_eccentric("Hand-release push-up")
    assert not is_eccentric("row")
