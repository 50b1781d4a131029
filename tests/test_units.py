"""Kilograms and pounds, exactly."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.errors import BadInputError
from tracker.units import Mass, check_load, parse_decimal, parse_mass, plain, short


def test_the_pound_is_the_agreed_one():
    # NIST SP 811 (international agreement of 1959): 1 lb = 0.453 592 37 kg exactly.
    assert Mass(Decimal(1), "lb").kg == Decimal("0.45359237")


@pytest.mark.parametrize(
    ("pounds", "kilograms"),
    [("45", "20.41"), ("35", "15.88"), ("25", "11.34"), ("10", "4.54"), ("95", "43.09"), ("135", "61.23")],
)
def test_usual_pound_masses(pounds, kilograms):
    assert Mass(Decimal(pounds), "lb").kg.quantize(Decimal("0.01")) == Decimal(kilograms)


@given(st.decimals(min_value=0, max_value=1000, places=3))
def test_there_and_back_stays_within_the_last_digit(amount):
    mass = Mass(amount, "kg")
    assert abs(Mass(mass.to("lb"), "lb").kg - amount) < Decimal("1e-20")


@pytest.mark.parametrize(
    ("text", "mass"),
    [
        ("92.5kg", Mass(Decimal("92.5"), "kg")),
        (" 45 LB ", Mass(Decimal(45), "lb")),
        ("92,5 kg", Mass(Decimal("92.5"), "kg")),
        ("100lbs", Mass(Decimal(100), "lb")),
    ],
)
def test_masses_as_people_type_them(text, mass):
    assert parse_mass(text) == mass


@pytest.mark.parametrize("text", ["", "kg", "nan kg", "inf kg", "1e3 kg", "92.5", "92.5 stone", "9 2 kg", "٩kg"])
def test_what_is_no_mass_is_refused_with_a_way_out(text):
    with pytest.raises(BadInputError) as refused:
        parse_mass(text, where="load")
    assert str(refused.value).startswith("load: ")


@pytest.mark.parametrize("text", ["NaN", "Infinity", "-inf", "1e5", "0x10", "--1", "1.2.3", "1_000"])
def test_only_plain_finite_numbers(text):
    with pytest.raises(BadInputError):
        parse_decimal(text)


@pytest.mark.parametrize(
    ("mass", "fine"),
    [
        ("1000 kg", True),
        ("1000.01 kg", False),
        ("2204 lb", True),
        ("2205 lb", False),
        ("0 kg", False),
        ("-5 kg", False),
    ],
)
def test_loads_that_can_be(mass, fine):
    if fine:
        assert check_load(parse_mass(mass)) == parse_mass(mass)
    else:
        with pytest.raises(BadInputError):
            check_load(parse_mass(mass))


def test_assistance_may_be_below_zero():
    assert check_load(parse_mass("-20 kg"), assistance=True).amount == -20


@pytest.mark.parametrize(
    ("amount", "text"), [("92.50", "92.5"), ("1E+2", "100"), ("-0", "0"), ("0.453592370", "0.45359237")]
)
def test_plain_numbers(amount, text):
    assert plain(Decimal(amount)) == text


def test_a_load_of_both_units_is_shown_to_a_tenth_and_a_typed_one_as_typed():
    assert short(Mass(Decimal("64.8951607"), "kg")) == "64.9 kg"  # 15 kg bar and 110 lb of discs
    assert short(Mass(Decimal("92.55"), "kg")) == "92.55 kg"
    assert short(Mass(Decimal("2.268"), "kg")) == "2.268 kg"


@pytest.mark.parametrize("mass", ["0.000000001 kg", "0.04 kg", "0.1 lb"])
@pytest.mark.parametrize("assistance", [True, False])
def test_a_load_below_what_anybody_lifts_is_refused(mass, assistance):
    with pytest.raises(BadInputError, match="The least that is lifted"):
        check_load(parse_mass(mass), assistance=assistance)


def test_the_smallest_disc_is_a_load_and_nothing_added_to_the_body_is_none():
    assert check_load(parse_mass("0.1 kg"))
    assert check_load(parse_mass("0 kg"), assistance=True).amount == 0
