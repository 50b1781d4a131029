"""What a change between like scores means, in a plain sentence, with its reason and its limits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from tracker.conditioning.compare import like_key
from tracker.conditioning.reliability import ENGEL_2019_CV, Limits, detectable_limits, own_cv
from tracker.conditioning.scores import Score
from tracker.conditioning.times import seconds_words, time_words
from tracker.errors import BadInputError

Verdict = Literal["learning", "within", "perhaps", "beyond", "unknown"]
MEANS = {
    "within": "inside what it varies by from test to test",
    "perhaps": "it may or may not be more than what it varies by from test to test",
    "beyond": "more than what it varies by from test to test",
}
SHORT: dict[Verdict, str] = {
    "learning": "still learning the piece, so no trend yet",
    "within": "within the usual variation",
    "perhaps": "perhaps no more than the usual variation",
    "beyond": "more than the usual variation",
    "unknown": "it may be chance",
}
LEARNING = 3  # exposures to a new test that still carry learning: two to three (Hopkins 2000: remove learning effects)
OWN_DAYS = 365  # own tests further apart say more about training than about variation; our choice


@dataclass(frozen=True, slots=True)
class Variation:
    """The usual variation from test to test: smallest and largest CV, as fractions, and where they come from."""

    low_cv: float
    high_cv: float
    source: str
    caveat: str = ""


@dataclass(frozen=True, slots=True)
class Change:
    """Two like scores compared. `relative` is the change as a fraction, a range where a count was lost.

    For a piece for time the change is that of the time: below zero is faster. `limits` are at 95 %, for the smallest
    and the largest CV. `exposure` is the how-manieth go `now` was. `sentence` says it all in plain words.
    """

    before: Score
    now: Score
    verdict: Verdict
    exposure: int
    relative: tuple[float, float] | None = None
    variation: Variation | None = None
    limits: tuple[Limits, Limits] | None = None

    @property
    def head(self) -> str:
        """Say the change and what it means as shortly as it can be said; the reason is in `sentence`."""
        if self.relative is None:
            return ""
        change = _difference(self.before, self.now)
        since = (
            "as last time"
            if change.startswith("the same")
            else "than last time"
            if change[:1].isdigit()
            else "since last time"
        )
        return f"{change} {since}: {SHORT[self.verdict]}"

    @property
    def sentence(self) -> str:
        if self.relative is None:
            return "One of the two has no result to compare."
        change = f"{_difference(self.before, self.now)} ({_percent(self.relative)})"
        if self.verdict == "learning":
            return (
                f"{change}. The first two or three goes at a piece also measure learning it, so this is no trend yet."
            )
        if self.variation is None or self.limits is None:
            return f"{change}. How much such a piece varies from one day to the next is not known, so it may be chance."
        source = self.variation.source + (f"; {self.variation.caveat}" if self.variation.caveat else "")
        return f"{change}: {MEANS[self.verdict]} (up to {self._bound()} in 95 of 100 retests; from {source})."

    def _bound(self) -> str:
        low, high = self.relative or (0.0, 0.0)
        small, large = (100 * abs(each.up if low + high >= 0 else each.down) for each in self.limits or ())
        return f"{small:.0f} %" if f"{small:.0f}" == f"{large:.0f}" else f"{small:.0f} to {large:.0f} %"


def measured(score: Score) -> tuple[float, float] | None:
    """The result as numbers to compare, a range where the count was lost; None where there is none to compare.

    A capped piece has none: its place in a ranking is not a time. Nor has one that was stopped early.
    """
    if score.ended != "finished" or score.about:
        return None
    if score.piece.timed_intervals:
        times = score.all_intervals_s
        counts = float(max(times) if score.piece.scored_by == "lowest" else sum(times)) if times else None
        return None if counts is None else (counts, counts)
    if score.load is not None:
        return float(score.load.kg), float(score.load.kg)
    if score.piece.kind == "for time":
        return (float(score.time_s), float(score.time_s)) if score.time_s else None
    count = score.total
    return (float(count.low), float(count.high)) if count is not None and count.low > 0 else None


def usual_variation(history: Sequence[Score]) -> Variation | None:
    """The usual variation of like scores: the member's own once there are five known ones past learning, else published.

    None where neither is known: nothing published was found but for 12-minute pieces.
    """
    piece = history[-1].piece
    past = [(score, measured(score)) for score in sorted(history, key=lambda score: score.day)[LEARNING:]]
    known = [(score.day.toordinal(), value[0]) for score, value in past if value and value[0] == value[1]]
    recent = [(day, value) for day, value in known if day > history[-1].day.toordinal() - OWN_DAYS]
    own = own_cv([day for day, _ in recent], [value for _, value in recent])
    if own is not None:
        return Variation(own, own, f"your own {len(recent)} like results, roughly")
    if piece.kind == "as many as possible" and piece.cap_s == 720:
        source = "a study of 19 trained people in a 12-minute piece (Engel et al. 2019)"
        return Variation(*ENGEL_2019_CV, source, _caveat(history[-1]))
    return None


def _caveat(score: Score) -> str:
    """What the published figure does not cover in this piece."""
    unlike = [
        "" if score.piece.ladder.alike else "ladders",
        "" if score.as_prescribed else "swapped movements",
        "training at home" if score.piece.setting.casefold() == "at home" else "",
    ]
    named = " or ".join(part for part in unlike if part)
    return f"nothing is published for {named}, which may vary more" if named else ""


def change_between(before: Score, now: Score, history: Sequence[Score]) -> Change:
    """Say what the change from `before` to `now` means, given all like scores in `history`, both among them.

    Raises:
        BadInputError: if the scores are not alike: nothing is compared that can't be.
    """
    if len({like_key(score) for score in (before, now, *history)}) > 1:
        raise BadInputError(
            "These results are not alike, so their change says nothing.", mend="Compare results of the same version."
        )
    order = sorted(history, key=lambda score: score.day)
    exposure = order.index(now) + 1
    old, new = measured(before), measured(now)
    if old is None or new is None:
        return Change(before, now, "unknown", exposure)
    relative = (new[0] / old[1] - 1, new[1] / old[0] - 1)
    variation = usual_variation(
        order[: exposure - 1] or order[:1]
    )  # the result in question is no part of its own yardstick
    limits = None
    if variation:
        limits = (detectable_limits(variation.low_cv), detectable_limits(variation.high_cv))
    return Change(before, now, _verdict(relative, limits, exposure), exposure, relative, variation, limits)


def _verdict(relative: tuple[float, float], limits: tuple[Limits, Limits] | None, exposure: int) -> Verdict:
    if exposure <= LEARNING:
        return "learning"
    if limits is None:
        return "unknown"
    small, large = limits
    if relative[0] > large.up or relative[1] < large.down:
        return "beyond"
    if small.down <= relative[0] and relative[1] <= small.up:
        return "within"
    return "perhaps"


def _difference(before: Score, now: Score) -> str:
    old, new = measured(before) or (0.0, 0.0), measured(now) or (0.0, 0.0)
    low, high = new[0] - old[1], new[1] - old[0]
    if now.piece.better == "less":
        return "the same time" if not low else f"{_seconds(abs(low))} {'faster' if low < 0 else 'slower'}"
    unit = "kg" if now.load is not None else now.unit
    if low != high:
        return f"{_signed(low)} to {_signed(high)} {unit}"
    if not low:
        return f"the same {unit}"
    amount = "1 rep" if abs(low) == 1 and unit == "reps" else f"{abs(low):,.4g} {unit}"
    return f"{amount} {'more' if low > 0 else 'fewer' if unit == 'reps' else 'less'}"


def _signed(number: float) -> str:
    return f"{number:+,.0f}".replace("-", "−") if number else "0"


def _percent(relative: tuple[float, float]) -> str:
    low, high = (f"{100 * each:+.1f} %".replace("-", "−") if each else "0 %" for each in relative)
    return low if low == high else f"{low} to {high}"


def learning_words(exposure: int) -> str:
    """Say that an early go at a piece carries learning; empty from the fourth on."""
    return f"go {exposure} of the first {LEARNING}: still learning the piece" if exposure <= LEARNING else ""


def _seconds(seconds: float) -> str:
    """Say a difference of times, with a tenth where there is one."""
    tenths = round(seconds, 1)
    return seconds_words(Decimal(repr(tenths))) if tenths % 1 else time_words(tenths)
