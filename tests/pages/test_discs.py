"""The drawing of one end of the bar."""

from __future__ import annotations

from decimal import Decimal
from xml.etree import ElementTree

from tracker.components.frame.discs import drawing
from tracker.units import Mass


def masses(*texts: str) -> tuple[Mass, ...]:
    return tuple(Mass(Decimal(text), "kg") for text in texts)


def parts(per_side):
    return ElementTree.fromstring(drawing(per_side))


def styles(box: ElementTree.Element) -> dict[str, float]:
    """Hundredths of the drawing."""
    pairs = (each.split(":") for each in box.get("style", "").split(";"))
    return {name: float(value.rstrip("%")) for name, value in pairs if value.endswith("%")}


def test_every_disc_is_drawn_with_its_mass_in_figures_heaviest_inside():
    drawn = parts(masses("20", "2.5", "1.25"))
    assert [text.text for text in drawn.iter("b")] == ["20", "2.5", "1.25"]
    lefts = [styles(text)["left"] for text in drawn.iter("b")]
    assert lefts == sorted(set(lefts))


def test_a_heavier_disc_is_taller():
    drawn = parts(masses("25", "10", "1.25"))
    heights = [styles(box)["height"] for box in drawn.iter("i") if box.get("class") == "disc"]
    assert heights == sorted(heights, reverse=True)
    assert len(set(heights)) == 3


def test_the_drawing_says_itself_in_words():
    assert parts(masses("20", "2.5")).get("aria-label") == "One end of the bar: 20 + 2.5 kg a side"
    assert parts(()).get("aria-label") == "One end of the bar: empty bar"


def test_discs_of_two_units_carry_their_unit():
    mixed = (Mass(Decimal(45), "lb"), Mass(Decimal("2.5"), "kg"))
    assert [text.text for text in parts(mixed).iter("b")] == ["45 lb", "2.5 kg"]


def test_many_discs_stay_inside_the_drawing():
    boxes = [styles(each) for each in parts(masses(*["1.25"] * 12)).iter("i")]
    assert len(boxes) == 3 + 12
    assert max(each["left"] + each["width"] for each in boxes) <= 100
    assert all(each["top"] >= 0 and each["top"] + each["height"] <= 100 for each in boxes)


def test_a_disc_stands_over_its_figure():
    drawn = parts(masses("25", "10", "1.25"))
    discs = [styles(box) for box in drawn.iter("i") if box.get("class") == "disc"]
    for disc, text in zip(discs, map(styles, drawn.iter("b")), strict=True):
        assert abs(disc["left"] + disc["width"] / 2 - text["left"] - text["width"] / 2) < 0.1
