"""How a member is before they train: five answers of one to five, theirs alone unless they share them.

The five and their direction (5 is best) are those of McLean et al. 2010 (International Journal of Sports Physiology and
Performance 5:367-383; read in a secondary source, the questionnaire that World Rugby's conditioning course prints). Nothing is
reckoned from them: what is said changes no load and clears nobody. Which answers a coach sees as a sign is our own choice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import mean
from typing import Literal, get_args

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.people.people import check_day
from tracker.errors import BadInputError
from tracker.log import by_hand
from tracker.log import choices as log_choices
from tracker.log.by_hand import Entry
from tracker.log.choices import Choice
from tracker.log.unit_of_work import FEEL, Log

Scale = Literal["sleep", "soreness", "fatigue", "stress", "mood"]
SCALES: tuple[Scale, ...] = get_args(Scale)
ENDS: Mapping[Scale, tuple[str, str]] = {  # of 1 and of 5
    "sleep": ("hardly slept", "slept very well"),
    "soreness": ("very sore", "not sore at all"),
    "fatigue": ("worn out", "very fresh"),
    "stress": ("very stressed", "very relaxed"),
    "mood": ("low or irritable", "very good mood"),
}
WORST, BEST = 1, 5
LOW = 2  # from here down a coach sees a sign; our own choice
USUAL_DAYS, USUAL_LEAST = 28, 6  # days that one's usual answers are taken from, and how many it takes; our own choice
LESS = 0.75  # so much below one's usual, of an answer in the mean, is said; our own choice
ABOUT = "feel"
WORDS = "said how they are"
ADVICE = (
    "Warm up longer and let the first sets tell. Lighter is fine, and so is resting: your coach's and your clinician's word "
    "goes before any load here."
)  # common practice


@dataclass(frozen=True, slots=True)
class Feel:
    """What a member said of one day: each answer from 1 to 5, where 5 is best."""

    day: date
    answers: Mapping[Scale, int]

    @property
    def mean(self) -> float:
        return mean(self.answers.values())

    @property
    def low(self) -> tuple[Scale, ...]:
        """The answers that a coach should see before the class."""
        return tuple(scale for scale in SCALES if self.answers.get(scale, BEST) <= LOW)

    @property
    def words(self) -> str:
        """Say it: `Sleep 2, soreness 4, mood 3 of 5`."""
        said = ", ".join(f"{scale} {self.answers[scale]}" for scale in SCALES if scale in self.answers)
        return f"{said[:1].upper()}{said[1:]} of {BEST}"


@dataclass(frozen=True, slots=True)
class Readiness:
    """What stands on the member's own page: today's answers, whether the coach gets them, and beside one's usual days."""

    today: Feel | None
    shared: bool
    said: str  # empty where there is nothing to say


def feels_of(entries: Iterable[Entry]) -> tuple[tuple[Feel, ...], bool]:
    """Put together what a member said, the oldest first; and whether they let the coach see it."""
    days: dict[date, dict[Scale, int]] = {}
    shared = False
    for entry in entries:
        if "share" in entry.said:
            shared = bool(entry.said["share"])
            continue
        answers = days.setdefault(date.fromisoformat(str(entry.said["day"])), {})
        answers.update({scale: int(entry.said[scale]) for scale in SCALES if scale in entry.said})
    return tuple(Feel(day, days[day]) for day in sorted(days)), shared


@may("see")
@cached_until_write
def readiness(log: Log, member_id: str, day: date) -> Readiness:
    """Return what a member said of a day; to everybody else the log says that they said nothing."""
    with log.reading() as session:
        feels, shared = feels_of(by_hand.said(session, member_id, [FEEL]))
    now = next((each for each in feels if each.day == day), None)
    return Readiness(now, shared, _said(now, feels))


def _said(now: Feel | None, feels: Sequence[Feel]) -> str:
    """Say how a day is beside the usual ones; of a day alone only that something is low."""
    if now is None:
        return ""
    since = now.day - timedelta(days=USUAL_DAYS)
    usual = [mean(of) for each in feels if since <= each.day < now.day and (of := _alike(each, now))]
    if len(usual) >= USUAL_LEAST and now.mean <= mean(usual) - LESS:
        return f"Less than your usual {mean(usual):.1f} of {BEST}. {ADVICE}"
    return ADVICE if now.low else ""


def _alike(other: Feel, now: Feel) -> list[int]:
    """Return the answers of another day to what was answered now as well."""
    return [other.answers[scale] for scale in now.answers if scale in other.answers]


@may("change")
def say(log: Log, member_id: str, day: date, scale: str, answer: int) -> None:
    """Keep one answer of a day; the newest counts. Where the member shares them, the coach gets it as well.

    Raises:
        BadInputError: if there is no such question or answer, or the day lies ahead.
    """
    check_day(day)
    if scale not in SCALES:
        raise BadInputError(f"{scale!r} is not asked.", where="how I am", mend=f"Choose one of {', '.join(SCALES)}.")
    if not WORST <= answer <= BEST:
        raise BadInputError(
            f"{answer} is no answer.", where=scale, mend=f"Choose {WORST} to {BEST}, where {BEST} is best."
        )
    with log.act(WORDS, member_id, own=True) as act:
        feels, shared = feels_of(by_hand.said(act.session, member_id, [FEEL]))
        by_hand.say(act, FEEL, member_id, {"day": day.isoformat(), scale: answer})
        if shared:
            texts = {each: text for feel in feels if feel.day == day for each, text in _texts(feel).items()}
            log_choices.choose(act, member_id, "told the coach", day, about=ABOUT, **{**texts, scale: str(answer)})


@may("change")
def share(log: Log, member_id: str, day: date, *, shared: bool) -> None:
    """Let the coach see these answers from now on, today's too; or no more, and then today's neither."""
    with log.act(WORDS, member_id, own=True) as act:
        feels, _ = feels_of(by_hand.said(act.session, member_id, [FEEL]))
        by_hand.say(act, FEEL, member_id, {"share": shared})
        now = next((each for each in feels if each.day == day), None)
        if now is not None:
            log_choices.choose(act, member_id, "told the coach", day, about=ABOUT, **(_texts(now) if shared else {}))


def _texts(feel: Feel) -> dict[str, str]:
    return {scale: str(answer) for scale, answer in feel.answers.items()}


def told_of_day(chosen: Iterable[Choice], day: date) -> Feel | None:
    """Return what a member let the coach see of a day, from their choices, the newest first."""
    newest = next((each for each in chosen if each.get("about") == ABOUT and each.day == day), None)
    answers: dict[Scale, int] = (
        {scale: int(newest.get(scale)) for scale in SCALES if newest.get(scale)} if newest else {}
    )
    return Feel(day, answers) if answers else None
