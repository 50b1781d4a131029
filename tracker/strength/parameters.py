"""What the estimator assumes of people, each number with its source and what that source is worth.

"published": seen in the abstract or text of the paper named. "cited": seen in another text that quotes it. "computed":
from the open data kept in tests/references. "tuned": chosen on invented athletes (tracker/strength/backtest), other ones
than those that the tables of results are made of. "design": a choice of our own.
Constants of the computation stand where they are used, with the same words.

All strengths are natural logarithms of a load, so that 0.01 is about one per cent. Times are weeks.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from math import log1p
from typing import NamedTuple

PIVOT = 5  # repetitions at which the level is kept: near what people train, so level and curve pull least; design


@dataclass(frozen=True, slots=True)
class Habit:
    """How a member reports repetitions in reserve: `share` of those really left, with a noise in repetitions.

    `usual` is the probability that the member writes the same number whatever was left.
    """

    share: float
    sd: float
    # Of sd for each repetition left; that it grows: Zourdos et al. 2021, published; its size: tuned
    growth: float = 0.1
    usual: float = 0.0


class Pace(NamedTuple):
    """How fast somebody gets stronger, in logarithms: gain per week at first, its spread, its change, and wander.

    With `weeks` as time constant a gain becomes that of the long run.
    """

    gain: float
    spread: float
    change_sd: float
    wander_sd: float  # per square root of a week
    weeks: float = 18.0


@dataclass(frozen=True, slots=True)
class Parameters:
    """The whole model in numbers."""

    # The curve: what a further repetition costs. Steepness is relative to the population's at eight repetitions.
    # The population's: between 0.0282, computed from 13 lifters (the source counts 14, two of whom are one person; we keep the
    # data of seven, tests/references), and 0.030 from 8.8 repetitions at 80 % (cited). The two rest on two conventions: the
    # second takes a set of n to failure as n and a half on the curve, as effort.py does. Of our seven the single sets give
    # 0.032 if n is taken as n, and 0.028 as n and a half; what is used here was tuned in between.
    curve_per_rep: float = 0.0287
    steepness_sd: float = 0.245  # of its logarithm between people and lifts; 0.12 computed in one laboratory, 0.3 from
    # the SD of repetitions at 80 % (2.5, cited): between them, tuned: wider, the tests of novices
    # (tests/strength/test_leaps.py) were followed less well; narrower, a 10RM of who trains fives had too narrow a band
    steepness: tuple[float, ...] = (-2.4, -1.6, -0.8, 0.0, 0.8, 1.6, 2.4)  # nodes, in SDs; design
    shapes: tuple[float, ...] = (-0.2, 1.0, 2.4)  # 1: reciprocal line; 0: exponential; -1: line of per cent; design
    shape_weights: tuple[float, ...] = (0.3, 0.45, 0.25)  # design
    # No family of curves is a person's: further on than the repetitions that were tested or told, its drop is off by such a
    # share. That a line and an exponential of two parameters both serve is published (Mitter et al. 2022); the size: tuned,
    # by the 10RM of invented members who train fives
    curve_misfit: float = 0.1
    # What was left in a set.
    rep_sd: float = 0.35  # noise of repetitions to failure within a day; tuned
    # More of it in longer sets: SEM 0.7 at 90 % and 1.1 at 70 % (Mitter et al. 2022, published), which is an error between
    # two tests a week apart and not, as this is, one within a day; its size: tuned
    rep_sd_growth: float = 0.05
    habits: tuple[Habit, ...] = (
        Habit(1.25, 0.6),
        Habit(1.0, 0.5),
        Habit(0.8, 0.6),
        Habit(0.6, 0.6),
        Habit(0.4, 0.6),
        Habit(0.75, 1.8, growth=0.15),
        Habit(0.8, 1.5, growth=0.15, usual=0.97),
    )  # people stop earlier than they think: 0.95 repetitions in the mean (Halperin et al. 2022, published); the noise is
    # tuned, within the errors of reports that are published (tests/strength/test_curve_and_effort.py)
    alike: float = 0.2  # k reports of one day count as k to the power of one less this; design
    habit_weights: tuple[float, ...] = (0.07, 0.2, 0.27, 0.18, 0.07, 0.14, 0.07)  # design
    test_left: tuple[float, ...] = (0.75, 0.19, 0.04, 0.02)  # repetitions that a test leaves; common practice, tuned
    # Unknown effort is a habit of a person: how far the best such set of a day stays below the level, in logarithms. People
    # left to themselves take 53 % of their 1RM (Steele et al. 2022, Sports Med 52:2909, published), which is 0.39
    # to 0.41 below a 10RM by our curve (ten taken as ten and a half, or as ten); trained ones made 16 with what
    # they take for 10 (Barbosa-Netto et al. 2021, cited), 0.13 below. About half way between the two: design, not tuned; so
    # is the spread, which has both within one SD.
    ease: float = 0.25
    ease_sd: float = 0.17
    ease_weeks: float = 520.0  # time constant with which the habit changes; long, else time alone would tell it; design
    ease_day_sd: float = 0.6  # from day to day: weeks of one wave are alike, so each of its days says little; tuned
    # A miss that is no sign of strength: technique, a slip, a bad day. No rate is known to be published; design, and tuned.
    slip_first: float = 0.001
    slip_late: float = 0.04  # after a set that made more with as much that day
    slip_test: float = 0.002
    slip_twice: float = 0.002  # the second within some weeks
    fall_sd: float = 0.05  # of a level that was missed on two days, late in the second; design
    far_fall_sd: float = (
        0.15  # where nothing as heavy was made before that day: as far as a leap upwards may go; design
    )
    odd: float = 0.004  # share of sets that are written down wrong; tuned, small on purpose
    # Of a level that a made test shows to have leapt; chosen so that nearly all of the machine tests of Hammarstrom et al.
    # 2020 (tests/references) are followed. Between two tests in a row of a leg and machine the whole source has 0.26 at the
    # 95th percentile and 0.79 at most (computed)
    leap_sd: float = 0.15
    leap_weeks: float = 13.0  # a gap of more leaves room for more, by the root of its length; design
    # The day and the session.
    form_sd: float = 0.0175  # form of the day; within the test-retest CV of 4.2 % (Grgic et al. 2020, published), tuned
    fatigue: tuple[float, ...] = (0.0005, 0.006, 0.024)  # loss for each hard set before; design: no constant was found
    # published. Sets to failure cost 0.017 (80 % of the 1RM, after one at 90 %) and 0.016 (70 %, after two) a set in our seven
    # lifters (computed, the same day against another day; standard errors 0.008 and 0.007)
    fatigue_weights: tuple[float, ...] = (0.56, 0.28, 0.16)  # tuned
    # The same for who ends a day's hard sets with one to failure: its mean goes from 0.006 to 0.012, towards those 0.017. That
    # the habit goes with it, and how far: design; half as far left the band of invented members who do so at 76 to 82 %, further off
    # made rep-outs of the former table worse
    fatigue_to_failure: tuple[float, ...] = (0.3, 0.3, 0.4)
    # How the level moves.
    first_sd: float = 0.15  # of the level before anything is known but the first session's loads; design, tuned
    # That belief is a row of narrower ones, each a start of its own, so that bounds may skew it; design.
    first_steps: tuple[int, ...] = (-3, -2, -1, 0, 1, 2, 3)
    first_step: float = 0.075
    first_width: float = 0.05
    first_bounds: float = 2.0  # so much wider where the first day has nothing but bounds; design
    # Settled people and beginners: gain per week at the start, its spread, how much it changes, the level's wander per
    # square root of a week, and the weeks in which the gain comes down. Gains of 0.1 to 0.7 % and of 1 to 2 % (computed from
    # Latella et al. 2020 and Steele et al. 2022); the rest tuned. The beginners' is narrow on purpose: a pace that could
    # be anything is never ruled out; a wider and likelier one made everybody else's errors 2 % larger (backtest, seed 1001).
    paces: tuple[Pace, ...] = (Pace(0.0016, 0.0013, 0.0008, 0.004, 26), Pace(0.018, 0.004, 0.001, 0.0035, 12))
    pace_weights: tuple[float, ...] = (0.92, 0.08)
    gain: float = 0.001  # per week in the long run; the low end of advanced people's 0.1 to 0.3 % (cited), tuned
    # A lay-off.
    # No loss so long: strength is generally kept up to four weeks (Mujika & Padilla 2001, published); that a loss shows from
    # the third on (Bosquet et al. 2013) is from memory.
    free_weeks: float = 2.0
    loss_early: float = 0.005  # per week in the third and fourth week; a choice within what is published
    loss_late: float = 0.01  # per week after that; design
    loss_most: float = 0.15  # design
    loss_sd: float = 0.006  # the loss's own uncertainty, per week; design
    loss_sd_most: float = 0.06  # design
    unlogged_weeks: float = 18.0  # time constant with which silence comes to mean training that nobody logged; design
    tests_only_trained: float = 0.9  # that it means so from the start where nothing but tests was ever logged; design
    rest_sd: float = 0.0065  # per week that the lift rests while others are trained; tuned
    rest_most: float = 0.07  # the most that such a rest adds; tuned
    regain_weeks: float = 2.5  # what was lost comes back with this time constant (regained within 5 weeks, cited)

    # People change: see review.py, and habits drift in between. Tuned, where nothing else is said, on invented athletes whose
    # habit and curve change (backtest/changed.py).
    review_weeks: float = 13.0
    review_odds: float = 0.07  # that something has changed since the last review; 0: never
    fade_weeks: float = 11.0  # time constant with which what was learnt of the points fades; 0: never; tuned
    fade_after: float = 5.0  # weeks without a test or a miss from which on it does; tests lie so far apart; design
    review_sd: float = 0.015  # of the level, added for a point that is heard again

    # Made once: what is kept by it is asked each day
    _hash: int = field(init=False, repr=False, compare=False, default=0)

    def __post_init__(self) -> None:
        given = tuple(getattr(self, each.name) for each in fields(self) if each.compare)
        object.__setattr__(self, "_hash", hash(given))

    def __hash__(self) -> int:
        return self._hash

    @property
    def curve_at_eight(self) -> float:
        """Logarithm of 1RM over 8RM in the population."""
        return log1p(self.curve_per_rep * 7)


DEFAULT = Parameters()
