"""The drawing of one end of the bar."""

from __future__ import annotations

from decimal import Decimal
from xml.etree import ElementTree

from tracker.components.discs import drawing
from tracker.units import Mass

SVG = "{http://www.w3.org/2000/svg}"


def masses(*texts: str) -> tuple[Mass, ...]:
    return tuple(Mass(Decimal(text), "kg") for text in texts)


def parts(per_side):
    return ElementTree.fromstring(drawing(per_side))


def test_every_disc_is_drawn_with_its_mass_in_figures_heaviest_inside():
    svg = parts(masses("20", "2.5", "1.25"))
    assert [text.text for text in svg.iter(f"{SVG}text")] == ["20", "2.5", "1.25"]
    lefts = [float(text.get("x")) for text in svg.iter(f"{SVG}text")]
    assert lefts == sorted(lefts)


def test_a_heavier_disc_is_taller():
    heights = [float(rect.get("height")) for rect in parts(masses("25", "10", "1.25")).iter(f"{SVG}rect")][3:]
    assert heights == sorted(heights, reverse=True)
    assert len(set(heights)) == 3


def test_the_drawing_says_itself_in_words():
    assert parts(masses("20", "2.5")).get("aria-label") == "One end of the bar: 20 + 2.5 kg a side"
    assert parts(()).get("aria-label") == "One end of the bar: empty bar"


def test_discs_of_two_units_carry_their_unit():
    mixed = (Mass(Decimal(45), "lb"), Mass(Decimal("2.5"), "kg"))
    assert [text.text for text in parts(mixed).iter(f"{SVG}text")] == ["45 lb", "2.5 kg"]


def test_many_discs_stay_inside_the_drawing():
    svg = parts(masses(*["1.25"] * 12))
    width = float(svg.get("viewBox").split()[2])
    assert max(float(rect.get("x")) + float(rect.get("width")) for rect in svg.iter(f"{SVG}rect")) <= width
