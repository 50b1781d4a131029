"""A count that may have been lost: between this and that, carried as a range through every sum and comparison."""

from __future__ import annotations

from dataclasses import dataclass

from tracker.errors import BadInputError


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number, known (`low` equals `high`) or lost somewhere from `low` to `high`, both included."""

    low: int
    high: int

    def __post_init__(self) -> None:
        if self.low < 0:
            raise BadInputError(f"A count of {self.low} can't be.", mend="Count from 0.")
        if self.low > self.high:
            what = f"Between {self.low:,} and {self.high:,} can't be."
            raise BadInputError(what, mend=f"Write the smaller first: between {self.high:,} and {self.low:,}.")

    @property
    def lost(self) -> bool:
        return self.low != self.high

    @property
    def known(self) -> int | None:
        """The number itself, or None where it was lost."""
        return None if self.lost else self.low

    def __add__(self, other: Count) -> Count:
        return Count(self.low + other.low, self.high + other.high)

    def taken_from(self, whole: int) -> Count:
        """What is left of `whole`."""
        return Count(whole - self.high, whole - self.low)

    def per(self, amount: float) -> tuple[float, float]:
        """The range of the count for each of `amount`, such as repetitions per minute."""
        return self.low / amount, self.high / amount

    def __str__(self) -> str:
        return f"between {self.low:,} and {self.high:,}" if self.lost else f"{self.low:,}"


def exactly(number: int) -> Count:
    """A count that is known."""
    return Count(number, number)


NOTHING = Count(0, 0)
