"""The estimate of a lift's current rep-maxes: LiftModel reads sets day by day and answers for any day.

A filtered estimate uses no later set; a smoothed one is hindsight. One day more costs one step. A model never changes:
`renewed` returns another one, and throwing all of them away loses nothing.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

import numpy as np

from tracker.errors import BadInputError
from tracker.strength.bands import estimates, misfit, shape_of
from tracker.strength.belief import Belief
from tracker.strength.chance import chance_of
from tracker.strength.filtering import Day, gap_after, step
from tracker.strength.flags import Flag, flags_of, would_narrow
from tracker.strength.grid import Grid, grid_of
from tracker.strength.normal import ndtr
from tracker.strength.parameters import DEFAULT, Parameters
from tracker.strength.records import REP_MAXES, Estimate, SetRecord
from tracker.strength.session import check
from tracker.strength.smoothing import smoothed


def _when(record: SetRecord) -> tuple[date, int]:
    return record.day, record.order


@dataclass(frozen=True, slots=True)
class TrendPoint:
    """One day with sets: what could be known then, and what is known of it now."""

    day: date
    filtered: Estimate
    smoothed: Estimate | None


@dataclass(frozen=True)
class LiftModel:
    """All that is believed of one lift of one member."""

    days: tuple[Day, ...]
    parameters: Parameters = DEFAULT
    elsewhere: tuple[date, ...] = ()  # days on which other lifts were trained, in order; none where that is not known

    @classmethod
    def of(
        cls, records: Sequence[SetRecord], parameters: Parameters = DEFAULT, elsewhere: Iterable[date] = ()
    ) -> LiftModel:
        """Make the model of a history; the order of its days does not matter, that within a day does.

        `elsewhere` are days on which other lifts were trained: where there are none, a gap counts as time without training.

        Raises:
            BadInputError: if there is no set, or a set can't be.
        """
        if not records:
            raise BadInputError("There is no set to estimate from.", mend="Log a set first.")
        return cls((), parameters, tuple(sorted(set(elsewhere))))._with(records)

    @property
    def grid(self) -> Grid:
        return grid_of(self.parameters)

    @property
    def last_day(self) -> date:
        return self.days[-1].day

    def renewed(self, records: Sequence[SetRecord], elsewhere: Iterable[date] | None = None) -> LiftModel:
        """Return the model of a longer or mended history; the days before the first change are not computed again.

        `elsewhere` are days on which other lifts were trained; the ones known so far where it is not given.

        Raises:
            BadInputError: if there is no set, or a set can't be.
        """
        others = self.elsewhere if elsewhere is None else tuple(sorted(set(elsewhere)))
        ordered = sorted(records, key=_when)
        same, at, before = 0, 0, None
        for day in self.days:
            until = at + len(day.records)
            if tuple(ordered[at:until]) != day.records or (until < len(ordered) and ordered[until].day == day.day):
                break
            if before and others != self.elsewhere and gap_after(before, day.day, others) != day.gap:
                break
            same, at, before = same + 1, until, day
        if not ordered or not same:
            return LiftModel.of(records, self.parameters, others)
        model = LiftModel(self.days[:same], self.parameters, others)._with(ordered[at:])
        if (
            same == len(self.days) == len(model.days) and "_trend" in self.__dict__
        ):  # only other lifts were trained since
            model.__dict__["_trend"] = self.__dict__["_trend"]
        return model

    def _with(self, records: Iterable[SetRecord]) -> LiftModel:
        records = sorted(records, key=_when)
        for record in records:
            check(record)
        days, grid = list(self.days), self.grid
        for day, sets in groupby(records, key=lambda record: record.day):
            days.append(step(grid, days, day, tuple(sets), self.elsewhere))
        return LiftModel(tuple(days), self.parameters, self.elsewhere)

    def known(self, day: date) -> Day:
        """Return the last day with sets up to `day`.

        Raises:
            BadInputError: if there is none.
        """
        at = bisect_right(self.days, day, key=lambda each: each.day)
        if at == 0:
            raise BadInputError(f"There is no set up to {day}.", mend=f"Ask for {self.days[0].day} or later.")
        return self.days[at - 1]

    def belief(self, day: date) -> Belief:
        """Return what is believed on `day` from the sets up to it; that of the day asked last is kept, as a page asks often."""
        kept = self.__dict__.get("_believed")
        if kept is None or kept[0] != day:  # no cached_property, as for the trend
            last = self.known(day)
            told = last.belief.ahead(gap_after(last, day, self.elsewhere), self.parameters)
            kept = self.__dict__["_believed"] = (day, told)
        return kept[1]

    def estimate(self, day: date) -> Estimate:
        """Return what is believed of the level on `day`, from the sets up to it.

        Raises:
            BadInputError: if there is no set up to that day.
        """
        kept = self.__dict__.get("_estimated")
        if kept is None or kept[0] != day:
            last, shape = self.known(day), shape_of(self.belief(day))
            told = estimates([shape], [day], [last.sets_used], [last.told], self.grid)[0]
            kept = self.__dict__["_estimated"] = (day, told)
        return kept[1]

    def below(self, load_kg: float, reps: int, day: date) -> float:
        """Return the probability that the rep-max on `day` is below `load_kg`."""
        shape = shape_of(self.belief(day))
        mean = shape.mean + self.grid.offsets[shape.curve, REP_MAXES.index(reps)]
        more = misfit(self.known(day).told, self.parameters)[REP_MAXES.index(reps)]
        return float(shape.weight @ ndtr((np.log(load_kg) - mean) / np.sqrt(shape.var + more)))

    def known_then(self) -> list[Estimate]:
        """Return the filtered estimate of each day with sets, without hindsight."""
        days, used = [each.day for each in self.days], [each.sets_used for each in self.days]
        return estimates(
            [shape_of(each.belief) for each in self.days], days, used, [each.told for each in self.days], self.grid
        )

    def trend(self) -> tuple[TrendPoint, ...]:
        """Return each day with sets, filtered and smoothed."""
        made = self.__dict__.get("_trend")
        if made is None:  # no cached_property: in Python 3.11 one model that is made would hold up all others
            made = self.__dict__["_trend"] = self._made_trend()
        return made

    def _made_trend(self) -> tuple[TrendPoint, ...]:
        days, used = [each.day for each in self.days], [each.sets_used for each in self.days]
        then = self.known_then()
        now = estimates(smoothed(self.days), days, [used[-1]] * len(days), [self.days[-1].told] * len(days), self.grid)
        return tuple(map(TrendPoint, days, then, now))

    def chance(self, load_kg: float, reps: int, *, day: date, sets_before: int = 0) -> float:
        """Return the probability of completing `reps` repetitions with `load_kg` on `day`.

        The form of the day, `sets_before` hard sets, the noise of repetitions, and a slip are in it. Before the first set, the
        belief of the first day answers.
        """
        asked = max(day, self.days[0].day)
        return chance_of(self.belief(asked), self.known(asked).told, load_kg, reps, sets_before=sets_before)

    @property
    def flags(self) -> tuple[Flag, ...]:
        """Return what in the records a person should look at."""
        return flags_of(self.days)

    @property
    def would_narrow(self) -> str:
        """Return what would narrow a wide band, in words; empty where it is not wide, or where a flag says so already."""
        return would_narrow(self.days)
