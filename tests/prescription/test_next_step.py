"""What is offered after a wave, and why."""

from __future__ import annotations

import pytest

from tracker.prescription.next_step import ACSM, SetDone, next_steps

MADE = SetDone(3, 3, 1)


def kinds(*sets: SetDone, **facts: object) -> list[str]:
    return [offer.step for offer in next_steps(sets, **{"lower_body": True, "test_age_days": 30, **facts})]  # type: ignore[arg-type]


def test_the_published_range_is_the_position_stands() -> None:
    """Published: 2 to 10 % once 1 to 2 repetitions over the target are possible (Ratamess et al. 2009, abstract)."""
    offer = next_steps([MADE, SetDone(3, 4, 0)], lower_body=True, test_age_days=30)[0]
    assert (offer.step, offer.status, offer.source) == ("raise", "published", ACSM)
    assert tuple(map(int, offer.percent or ())) == (2, 10)
    assert "1 or more to spare" in offer.reason


def test_the_upper_body_gets_the_lower_end() -> None:
    assert tuple(map(int, next_steps([MADE], lower_body=False)[0].percent or ())) == (2, 5)


@pytest.mark.parametrize("last", [SetDone(3, 3, 0), SetDone(3, 3)])
def test_nothing_to_spare_or_not_known_is_the_least_raise_and_not_called_published(last: SetDone) -> None:
    offer = next_steps([MADE, last], lower_body=True)[0]
    assert (offer.step, offer.status) == ("raise", "own choice")
    assert tuple(map(int, offer.percent or ())) == (2, 2)


def test_extra_repetitions_count_as_spare_without_a_report() -> None:
    assert next_steps([SetDone(3, 5)], lower_body=True)[0].status == "published"


@pytest.mark.parametrize(
    ("sets", "facts", "expected"),
    [
        ((MADE,) * 3, {}, ["raise", "repeat", "ease off"]),
        ((MADE,) * 3, {"test_age_days": 84}, ["raise", "repeat", "ease off", "test"]),
        ((MADE,) * 3, {"test_age_days": None}, ["raise", "repeat", "ease off", "test"]),
        ((MADE,) * 3, {"test_age_days": 84, "nothing_heavy": True}, ["raise", "repeat", "ease off"]),
        ((MADE, MADE, SetDone(3, 2, missed=True)), {"test_age_days": 200}, ["repeat", "ease off"]),
        ((MADE, SetDone(3, 2, missed=True)), {}, ["ease off", "repeat"]),
        ((MADE, MADE, SetDone(3, 1, cut=True)), {}, ["repeat", "ease off"]),
        ((MADE,) * 3, {"days_off": 14, "test_age_days": 200}, ["ease off", "repeat"]),
        ((MADE,) * 3, {"days_off": 13}, ["raise", "repeat", "ease off"]),
        ((), {}, ["repeat", "ease off"]),
    ],
)  # fmt: skip
def test_which_is_offered_first(sets: tuple[SetDone, ...], facts: dict[str, object], expected: list[str]) -> None:
    assert kinds(*sets, **facts) == expected


def test_every_offer_has_its_reason_and_a_raise_never_follows_a_miss_or_a_break() -> None:
    for facts in ({}, {"days_off": 20}, {"test_age_days": None}):
        for last in (MADE, SetDone(3, 0, missed=True), SetDone(3, 1, cut=True)):
            offers = next_steps([last], lower_body=True, **facts)  # type: ignore[arg-type]
            assert all(offer.reason and offer.words for offer in offers)
            if last is not MADE or "days_off" in facts:
                assert "raise" not in [offer.step for offer in offers]
