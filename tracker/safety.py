"""Which caution belongs to which act, in short words that defer to coach and clinician.

Nothing here clears anyone to train, and nothing names an illness that someone has. A member is never asked for a health
reason. Each caution says what it rests on; only what is "published" was seen in the paper's own abstract or text and may
be shown as such. A caution is shown at the act that needs it, can be put away for the day, and comes back.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

Status = Literal["published", "read in a text that cites it", "common practice", "from memory", "our own choice"]
Spotting = Literal["spot", "let go", "none"]

HEAVY_PERCENT = 80.0  # of 1RM; above it a brief held breath is unavoidable (MacDougall 1992, abstract)
VERY_HEAVY_PERCENT = 90.0  # of 1RM; alone and without pins nothing above it (from memory)
LAY_OFF_DAYS = 14  # a break of two weeks or more counts (read in a text that cites the 2019 consensus)
# What a coach reads in place of a status that speaks of the program's makers.
STATUS_WORDS: dict[Status, str] = {"our own choice": "a rule of caution of this program, from no study"}
STALE_DAYS = 28  # stored maxes say little after it; our own choice
BACK_DAYS = 28  # the first two to four weeks after a break (2019 consensus, abstract): the longer one
FIRST_DAYS = 28  # someone's first weeks; our own choice
FIRST_WEEK = (
    7  # days from the first session on, or after a break, in which the signs to stop at lie open; our own choice
)
MANY_ECCENTRIC = 50  # repetitions; our own choice, no published number was found
WATCH_DAYS = 4  # days after such a piece on which to look out; our own choice


@dataclass(frozen=True, slots=True)
class Caution:
    """A word of caution: `text` rests on `source`, with its `status`; `advice` and `line` are this log's own, and defer to others."""

    key: str
    text: str
    source: str
    status: Status
    advice: str = ""
    line: str = ""  # the one line that stands in sight between two sets, where all else is a touch away

    @property
    def basis(self) -> str:
        """What to print below the text: the source where it is published, else what it is."""
        return self.source if self.status == "published" else STATUS_WORDS.get(self.status, self.status)


@dataclass(frozen=True, slots=True)
class Person:
    """What the log knows of a member that bears on cautions; None where it knows nothing.

    `days_off`: days without a session just before today. `days_since_first`: since the very first session. `days_back`:
    since training began again after a break. `minor` and `nothing_heavy` are the member's own switches.
    """

    days_off: int | None = None
    days_since_first: int | None = None
    days_back: int | None = None
    minor: bool = False
    nothing_heavy: bool = False

    @property
    def returning(self) -> bool:
        """Now coming back, or in the first weeks after a break of two weeks or more."""
        return (self.days_off or 0) >= LAY_OFF_DAYS or (self.days_back is not None and self.days_back < BACK_DAYS)

    @property
    def new(self) -> bool:
        return self.days_since_first is not None and self.days_since_first < FIRST_DAYS


@dataclass(frozen=True, slots=True)
class Around:
    """Where the act is done: alone, with pins or safety arms, in heat."""

    alone: bool = False
    pins: bool = True
    hot: bool = False


_HAFF = "Haff & Triplett (eds) 2016, Essentials of Strength Training and Conditioning, 4th ed."
SPOT = Caution(
    "spot",
    "A bar over the body or on the shoulders is lifted with a spotter, or with pins just below its lowest point.",
    _HAFF,
    "from memory",
    "Ask your coach to check the pins.",
    line="Spotter, or pins set just below the lowest point.",
)
ALONE = Caution(
    "alone",
    "Alone and without pins: on this lift no set taken to its end, and nothing over 90 % of the max.",
    _HAFF,
    "from memory",
    "Take a load that you are sure of, or wait until someone is with you.",
    line="Alone without pins: no set to its end, nothing over 90 %.",
)
LET_GO = Caution(
    "let go",
    "This lift is not spotted: keep the space around you clear, and let the bar go when it will not come.",
    _HAFF,
    "from memory",
    "Ask your coach to show you how.",
    line="Keep the space around you clear, and let the bar go when it will not come.",
)
BREATH = Caution(
    "breath",
    "Above about 80 % of the max, or to failure, a short held breath is unavoidable, and it raises blood pressure.",
    "MacDougall et al. 1992, J Appl Physiol 73(4):1590-1597; Hackett & Chow 2013, JSCR 27(8):2338-2345",
    "published",
    "Breathe out past the hardest point.",
    line="Breathe out past the hardest point.",
)
BREATH_ASK = Caution(
    "breath, ask first",
    "High blood pressure, a heart, artery, brain-vessel or eye condition, a hernia, recent surgery or pregnancy are reasons "
    "to ask a clinician before heavy sets.",
    "",
    "from memory",
    "What they say goes before anything here.",
    line="Some conditions are reasons to ask a clinician before heavy sets.",
)
RETURN = Caution(
    "return",
    "The first two to four weeks after a break are when injuries cluster.",
    "Caterisano et al. 2019, CSCCa and NSCA consensus, Strength Cond J 41(3):1-23",
    "published",
    "Start well below where you stopped, build up slowly, and ask your coach what to leave out.",
    line="Start well below where you stopped.",
)
STALE = Caution(
    "stale",
    "After four weeks without training, stored maxes are history.",
    "",
    "our own choice",
    "Find new loads today, with repetitions left.",
    line="After four weeks away, find new loads with repetitions left.",
)
NEW = Caution(
    "new",
    "In the first weeks the load goes up only after someone has seen the lift.",
    "",
    "common practice",
    "Let a coach watch, and stop with repetitions left.",
    line="Let a coach watch, and stop with repetitions left.",
)
TEST = Caution(
    "test",
    "A test is for a day on which you feel well, after rising sets. It ends when the form goes, not when the bar does.",
    "",
    "common practice",
    "Your coach may have other rules; they go first.",
    line="End the test when the form goes.",
)
MINOR = Caution(
    "minor",
    "Strength training suits the young where it is made for their age and supervised.",
    "Faigenbaum et al. 2009, NSCA, JSCR 23(5 Suppl):S60-S79",
    "published",
    "Under 18, no attempt at a max without a coach beside you, who decides.",
    line="Under 18: no attempt at a max without a coach beside you.",
)
ECCENTRIC = Caution(
    "eccentric",
    "Exercise that one is not used to can, rarely, harm muscle badly.",
    "Scalco et al. 2016, BMJ Open Sport Exerc Med (PMID 27900193); Nye et al. 2021, Curr Sports Med Rep 20(3):169-178",
    "published",
    "This piece has many repetitions that lower your body or a load. Do fewer, stop well short of exhaustion, and ask your "
    "coach for an easier option.",
    line="Many lowering repetitions: do fewer, and stop well short of exhaustion.",
)
WATCH = Caution(
    "watch",
    "Very dark urine (like cola or tea) and pain out of proportion in the next days are signs to act on.",
    "",
    "read in a text that cites it",
    "With these, with swelling or with weakness: no more training, and medical care the same day.",
    line="Very dark urine or pain out of proportion: no training, medical care the same day.",
)
HEAT = Caution(
    "heat",
    "In heat slow down, drink, rest in the shade and stop early.",
    "",
    "from memory",
    "Confusion, collapse, or hot skin that does not sweat is an emergency: call for help at once.",
    line="Heat: slow down, drink, rest in the shade, stop early.",
)
PREGNANCY = Caution(
    "pregnancy",
    "In a pregnancy without complications training is encouraged, after a clinician has looked at it, and with changes.",
    "ACOG Committee Opinion 804, 2020, Obstet Gynecol 135:e178-e188",
    "published",
    "How much is for your clinician and your coach to say; this log has no tests or percentages for it.",
    line="How much is for your clinician and your coach to say.",
)
NO_CLEARANCE = Caution(
    "no clearance",
    "This log clears nobody to train and names no illness.",
    "",
    "our own choice",
    "Fill in your gym's own health form. Your coach, your clinician and the rules of your place go before all of this.",
    line="This log clears nobody to train.",
)


# Which one stands in sight where there are several: what a bar can do to somebody first, then who lifts, then how.
FOREMOST = (ALONE, MINOR, SPOT, LET_GO, ECCENTRIC, WATCH, HEAT, RETURN, NEW, STALE, TEST, BREATH, BREATH_ASK)


@dataclass(frozen=True, slots=True)
class StopSign:
    """A sign to stop at; `emergency`: call for emergency help at once, else medical advice the same day if it stays."""

    text: str
    emergency: bool


STOP_SIGNS: tuple[StopSign, ...] = (
    StopSign("pain or pressure in the chest, jaw or arm", emergency=True),
    StopSign("fainting, nearly fainting, or collapse", emergency=True),
    StopSign("confusion", emergency=True),
    StopSign("a sudden severe headache", emergency=True),
    StopSign("loss or change of vision, or of coordination", emergency=True),
    StopSign("hot skin that does not sweat, or cold clammy skin", emergency=True),
    StopSign("unusual breathlessness", emergency=False),
    StopSign("an irregular or racing heartbeat", emergency=False),
    StopSign("sharp pain in a joint or the back", emergency=False),
    StopSign("numbness", emergency=False),
    StopSign("a pop that you hear or feel", emergency=False),
)
PREGNANCY_STOP_SIGNS: tuple[str, ...] = (
    "bleeding or leaking fluid", "regular painful contractions", "pain in the belly", "breathlessness before any effort",
    "dizziness", "headache", "chest pain", "weakness that affects balance", "pain or swelling in a calf",
)  # fmt: skip
STOP_SIGNS_STATUS: Status = "from memory"
STOP_NOW = "Stop. Call emergency help at once, or have someone call."
STOP_IN_PREGNANCY = "In a pregnancy stop at these as well, and ask your clinician or midwife before you go on."
STOP_AND_ASK = "Stop. If it does not go away quickly, seek medical advice the same day."
STOP_BASIS = f"This list is {STOP_SIGNS_STATUS}. Your coach, your clinician and the rules of your place go first."


@dataclass(frozen=True, slots=True)
class StopList:
    """What to do, and at which signs."""

    head: str
    signs: tuple[str, ...]


STOP_LISTS = (
    StopList(STOP_NOW, tuple(sign.text for sign in STOP_SIGNS if sign.emergency)),
    StopList(STOP_AND_ASK, tuple(sign.text for sign in STOP_SIGNS if not sign.emergency)),
    StopList(STOP_IN_PREGNANCY, PREGNANCY_STOP_SIGNS),
)


def spotting_of(lift: str, implement: str = "barbell") -> Spotting:
    """How a lift is kept safe: spotted or in pins (bar over the body), let go (from floor to overhead), or neither."""
    name = lift.casefold()
    if implement.casefold() != "barbell":
        return "none"
    if any(word in name for word in ("snatch", "clean", "jerk")):
        return "let go"
    return "spot" if any(word in name for word in ("squat", "bench", "press", "lunge", "thruster")) else "none"


def for_working_set(
    lift: str,
    person: Person,
    around: Around,
    *,
    percent: float | None = None,
    rep_out: bool = False,
    implement: str = "barbell",
) -> tuple[Caution, ...]:
    """Cautions for one working set.

    Args:
        lift: Its name; the words squat, bench, press, snatch, clean and jerk are known.
        person: Who does it.
        around: Where.
        percent: Load in per cent of the current 1RM, None where that is not known.
        rep_out: Whether it is taken for as many repetitions as there are.
        implement: What is lifted.
    """
    hard = rep_out or (percent is not None and percent > HEAVY_PERCENT)
    very = rep_out or (percent is not None and percent > VERY_HEAVY_PERCENT)
    spotting = spotting_of(lift, implement)
    pinned = "squat" in lift.casefold() or "bench" in lift.casefold()
    return _kept(
        (ALONE, very and around.alone and not around.pins and spotting == "spot" and pinned),
        (SPOT, very and spotting == "spot" and not (around.alone and not around.pins and pinned)),
        (LET_GO, hard and spotting == "let go"),
        (BREATH, hard),
        (BREATH_ASK, hard),
        (MINOR, person.minor and hard),
        *_of_person(person, around),
    )


def for_test(lift: str, person: Person, around: Around, *, implement: str = "barbell") -> tuple[Caution, ...]:
    """Cautions for a rep-max test: those of a set taken to its end, and the test's own. See `held_back` first."""
    return (TEST, *for_working_set(lift, person, around, percent=100.0, rep_out=True, implement=implement))


def for_piece(person: Person, around: Around, *, eccentric_reps: int = 0) -> tuple[Caution, ...]:
    """Cautions for a conditioning piece with so many repetitions that lower the body or a load."""
    unaccustomed = (person.returning or person.new) and eccentric_reps >= MANY_ECCENTRIC
    return _kept((ECCENTRIC, unaccustomed), (WATCH, unaccustomed), (MINOR, person.minor), *_of_person(person, around))


def for_days_after(days_since: int, cautions_then: Iterable[Caution]) -> tuple[Caution, ...]:
    """What to look out for on the days after a piece that carried the caution of unaccustomed repetitions."""
    return (WATCH,) if 0 <= days_since <= WATCH_DAYS and ECCENTRIC in tuple(cautions_then) else ()


@dataclass(frozen=True, slots=True)
class HeldBack:
    """Something that the log does not offer to a member now, and why; a coach may decide otherwise."""

    key: Literal["own switch", "lay-off", "minor"]
    text: str


def held_back(person: Person, *, percent: float | None = None, test: bool = False) -> HeldBack | None:
    """Why a test or a heavy load is not offered now, or None.

    The member's own switch asks for no reason and holds back tests and everything over 80 % of the 1RM; a load of
    unknown percentage is not held back, so say what is known.
    """
    heavy = test or (percent is not None and percent > HEAVY_PERCENT)
    if person.nothing_heavy and heavy:
        return HeldBack(
            "own switch", "You asked for no tests and nothing heavy. You can change that in your preferences."
        )
    if test and (person.days_off or 0) >= LAY_OFF_DAYS:
        return HeldBack(
            "lay-off", "No test right after two weeks or more away. Build up first, and ask your coach when."
        )
    if test and person.minor:
        return HeldBack("minor", "Under 18: a test only with a coach beside you, who decides.")
    return None


def still_shown(cautions: Iterable[Caution], put_away: Mapping[str, date], today: date) -> tuple[Caution, ...]:
    """Leave out what was put away today; what was put away earlier has come back. Each once, in order."""
    return tuple(dict.fromkeys(caution for caution in cautions if put_away.get(caution.key) != today))


def foremost(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """Return cautions, each once, the one that stands in sight first."""
    ranks = {caution: place for place, caution in enumerate(FOREMOST)}
    return tuple(sorted(dict.fromkeys(cautions), key=lambda caution: ranks.get(caution, len(ranks))))


def shows_stop_signs(person: Person, *, test: bool = False) -> bool:
    """Whether the signs to stop at lie open: at a test, in someone's first week, and coming back after a break of two weeks."""
    first = person.days_since_first is None or person.days_since_first < FIRST_WEEK
    back = (person.days_off or 0) >= LAY_OFF_DAYS or (person.days_back is not None and person.days_back < FIRST_WEEK)
    return test or first or back


def _of_person(person: Person, around: Around) -> tuple[tuple[Caution, bool], ...]:
    stale = (person.days_off or 0) >= STALE_DAYS
    return (RETURN, person.returning), (STALE, stale), (NEW, person.new), (HEAT, around.hot)


def _kept(*candidates: tuple[Caution, bool]) -> tuple[Caution, ...]:
    return tuple(caution for caution, applies in candidates if applies)
