"""What a wave may be followed by: repeat, raise, test, ease off; each an offer with its reason, never done by itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from tracker.prescription.rounding import lay_off
from tracker.wording import counted

Step = Literal["repeat", "raise", "test", "ease off"]
Status = Literal["published", "common practice", "own choice"]
ACSM = (
    "Ratamess et al. 2009, American College of Sports Medicine position stand, Med Sci Sports Exerc 41(3):687-708: "
    "2 to 10 % more when the load can be done for 1 or 2 repetitions over the target (abstract)"
)
LEAST_RAISE, MOST_RAISE = Decimal(2), Decimal(10)  # per cent, ACSM 2009, abstract
SPARE_REPS = 1.0  # in reserve on the last hard sets: as good as one repetition over the target
OLD_TEST_DAYS = 84  # after twelve weeks a test tells something new; own choice
EASE_PERCENT = Decimal(10)  # off all loads; coaches differ, so it can be changed; own choice


@dataclass(frozen=True, slots=True)
class SetDone:
    """One working set of the wave as it went; `rir` None where nothing was reported."""

    asked_reps: int
    reps: int
    rir: float | None = None
    missed: bool = False
    cut: bool = False

    @property
    def made(self) -> bool:
        return not self.missed and not self.cut and self.reps >= self.asked_reps

    @property
    def spare(self) -> float | None:
        """Repetitions that it could have gone past the target; None where that is not known."""
        if not self.made:
            return None
        if self.rir is None:
            over = self.reps - self.asked_reps
            return float(over) if over else None
        return self.reps - self.asked_reps + self.rir


@dataclass(frozen=True, slots=True)
class Offer:
    """One next step: what, why, and what the rule rests on; `percent` is the range of a raise, or what is taken off."""

    step: Step
    words: str
    reason: str
    status: Status
    source: str = ""
    percent: tuple[Decimal, Decimal] | None = None

    @property
    def basis(self) -> str:
        """What to print below the reason: the source where it is published, else what it is."""
        if self.status == "published":
            return self.source
        return "a rule of this program, from no study" if self.status == "own choice" else self.status


def next_steps(
    last_week: Sequence[SetDone],
    *,
    lower_body: bool,
    days_off: int | None = None,
    test_age_days: int | None = None,
    nothing_heavy: bool = False,
    left_out: int = 0,
) -> tuple[Offer, ...]:
    """Offer what may follow a wave, the best founded first; the member and the coach choose.

    Args:
        last_week: The working sets of the wave's last week for one lift.
        lower_body: Whether it is a lift of the lower body, where raises lie at the higher end (from memory).
        days_off: Days without training just before today.
        test_age_days: Age of the tested reference max; None where it was never tested.
        nothing_heavy: The member's own switch "no tests, nothing heavy".
        left_out: Sets of that week that were asked and not done: of these nothing is known, so no raise is offered.
    """
    away = lay_off(days_off)
    missed = [each for each in last_week if each.missed or (not each.cut and not each.made)]
    offers = [_repeat(last_week, missed, left_out), _ease(last_week, missed, away.words)]
    if away.lower_start or len(missed) * 2 >= len(last_week) > 0:
        offers.reverse()
    elif last_week and not left_out and all(each.made for each in last_week):
        offers.insert(0, _raise(last_week, lower_body))
    testable = not (away.no_test or nothing_heavy or missed or not last_week)
    if testable and (test_age_days is None or test_age_days >= OLD_TEST_DAYS):
        offers.append(_test(test_age_days))
    return tuple(offers)


def _raise(sets: Sequence[SetDone], lower_body: bool) -> Offer:
    spares = [each.spare for each in sets]
    known = [spare for spare in spares if spare is not None]
    if len(known) < len(spares):
        return Offer(
            "raise", "Raise by 2 %.", "Every set was done, but how much was left is not known for all: the least raise.",
            "own choice", "", (LEAST_RAISE, LEAST_RAISE),
        )  # fmt: skip
    least = min(known)
    if least < SPARE_REPS:
        return Offer(
            "raise", "Raise by 2 %, or stay.", "Every set was done with nothing to spare: no more than the least raise.",
            "own choice", "", (LEAST_RAISE, LEAST_RAISE),
        )  # fmt: skip
    most = MOST_RAISE if lower_body else MOST_RAISE / 2
    return Offer(
        "raise", f"Raise by {LEAST_RAISE} to {most} %.",
        f"Every set was done with {least:g} or more to spare. Which end suits is the coach's to say.",
        "published", ACSM, (LEAST_RAISE, most),
    )  # fmt: skip


def _repeat(sets: Sequence[SetDone], missed: Sequence[SetDone], left_out: int) -> Offer:
    if missed:
        reason = f"{len(missed)} of {len(sets)} sets did not reach their repetitions: the same loads once more."
    elif left_out:
        asked = counted(len(sets) + left_out, "set")
        reason = f"{left_out} of {asked} {'was' if left_out == 1 else 'were'} not done, so nothing is known of all: once more as they are."
    elif any(each.cut for each in sets):
        reason = "A set was cut short, so nothing is known against the loads: once more as they are."
    else:
        reason = "The same loads once more make them surer."
    return Offer("repeat", "Repeat the last week.", reason, "common practice")


def _ease(sets: Sequence[SetDone], missed: Sequence[SetDone], away: str) -> Offer:
    if away:
        reason = away
    elif missed and len(missed) * 2 >= len(sets):
        reason = f"{len(missed)} of {len(sets)} sets did not reach their repetitions."
    else:
        reason = "An easier week now and then is common practice; how much it helps is not well known."
    return Offer(
        "ease off",
        f"Take {EASE_PERCENT} % off for a week.",
        reason,
        "common practice",
        "",
        (EASE_PERCENT, EASE_PERCENT),
    )


def _test(age_days: int | None) -> Offer:
    reason = (
        "The reference max was never tested." if age_days is None else f"The last test is {age_days // 7} weeks old."
    )
    return Offer("test", "Test, with your coach.", f"{reason} A test is for a day that feels good.", "own choice")
