"""Names that look alike are told apart from those that do not; the pairs are from memory of Unicode's UTS #39."""

import pytest

from tracker.log.lookalikes import skeleton


@pytest.mark.parametrize(
    "twin",
    [
        "\u0410na",  # Cyrillic A
        "An\u0430",  # Cyrillic a
        "\u0391na",  # Greek Alpha
        "\uff21\uff4e\uff41",  # full-width
        "\U0001d400na",  # mathematical bold
        "A\u200bna",  # a sign of no width
        "A\u00adna",  # a soft hyphen
        "ana\ufe0f",
        " Ana ",
        "ANA",
        "A\u0301na".replace("\u0301", ""),
    ],
)
def test_twins_of_ana(twin):
    assert skeleton(twin) == skeleton("Ana")


@pytest.mark.parametrize(
    ("one", "other"), [("Ian", "lan"), ("Al", "A1"), ("Bob", "B0b"), ("Петр", "Пeтp"), ("O’Neil", "O'Neil")]
)
def test_other_twins(one, other):
    assert skeleton(one) == skeleton(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Ana", "Anna"),
        ("Ana", "Án\u0430"),
        ("Jose", "José"),
        ("Mila", "Milla"),
        ("Анна", "Anna"),
        ("Νίκος", "Nikos"),
        ("Tim", "Tom"),
        ("Alia", "Alla"),
    ],
)
def test_names_that_differ_to_the_eye_are_two(one, other):
    assert skeleton(one) != skeleton(other)


def test_letters_of_another_script_alone_stay_a_name():
    assert len({skeleton(name) for name in ("Анна", "Олег", "Ольга", "Νίκος", "Μαρία", "Ελένη")}) == 6
