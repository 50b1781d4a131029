"""What a member chooses to tell the coach of what else only they see: that they are ill, where they are sore, what a lift was left out for.

Nothing of it is told unless somebody touches so, each time. It is a choice that the coach may read; what else hurts
stays private. How they are before a class goes along where they let it (`readiness.py`).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.desk.base.roles import may
from tracker.desk.day import readiness
from tracker.desk.maxes.words import first_up
from tracker.log import choices
from tracker.log import members as log_members
from tracker.log.choices import Choice
from tracker.log.unit_of_work import Log, Reader

SHOWN_DAYS = 14
WHAT = "told the coach"
LIMIT = "limit"
SAID_LIMIT = {"limited day": "A limited day", "aching muscles": "Muscles ache"}


@may("change")
def tell_ill(log: Log, member_id: str, since: date, day: date) -> None:
    """Tell the coach that the member is ill, since when, and no more."""
    with log.act("told the coach that they are ill", member_id, own=True) as act:
        choices.choose(act, member_id, WHAT, day, about="ill", since=since.isoformat())


@may("change")
def tell_limit(log: Log, member_id: str, place: str, since: date, day: date) -> None:
    """Tell the coach of one sore place, aching muscles or a limited day, since when, and no more."""
    with log.act("told the coach of a limit", member_id, own=True) as act:
        choices.choose(act, member_id, WHAT, day, about=LIMIT, place=place, since=since.isoformat())


def limits_told(chosen: Iterable[Choice]) -> dict[str, date]:
    """Return the limits that the coach was told of and that have not ended, each with since when; the newest choice first."""
    newest: dict[str, Choice] = {}
    for each in chosen:
        if each.what == WHAT and each.get("about") == LIMIT:
            newest.setdefault(each.get("place"), each)
    return {place: date.fromisoformat(each.get("since")) for place, each in newest.items() if each.get("since")}


@may("change")
def tell_left_out(log: Log, member_id: str, lift_id: str, day: date) -> None:
    """Tell the coach that a lift was left out or replaced because nothing stands there for it."""
    with log.act("told the coach why a lift was left out", member_id, own=True) as act:
        choices.choose(act, member_id, WHAT, day, about="kit", lift=lift_id)


def is_told_ill(chosen: Iterable[Choice]) -> bool:
    """Whether the newest word to the coach on being ill is that the member is."""
    newest = next((each for each in chosen if each.what == WHAT and each.get("about") in ("ill", "well")), None)
    return newest is not None and newest.get("about") == "ill"


@dataclass(frozen=True, slots=True)
class Told:
    """What a member told, in sentences, and whether something of it should be spoken about before they load."""

    said: tuple[str, ...] = ()
    speak_first: bool = False


NOTHING_TOLD = Told()


@may("see")
def told(log: Log, member_id: str, day: date) -> tuple[str, ...]:
    """Say what a member told the coach in the fourteen days up to a day: of being ill only the newest word, limits until they end."""
    with log.reading() as session:
        return read_told(session, member_id, day).said


def read_told(session: Reader, member_id: str, day: date) -> Told:
    """Read what a member told, in a reading of whoever asks; how they are is of that day alone."""
    rows = [each for each in choices.choices(session, member_id) if each.what == WHAT and each.day <= day]
    if not rows:
        return NOTHING_TOLD
    lifts = {each.id: each.title for each in log_members.lifts(session, member_id)}
    ill, limits, feel = is_told_ill(rows), limits_told(rows), readiness.told_of_day(rows, day)
    state = next((each for each in rows if each.get("about") in ("ill", "well")), None)
    found: list[str] = []
    if state is not None and (ill or state.day > day - timedelta(days=SHOWN_DAYS)):
        when = date.fromisoformat(state.get("since")) if ill else state.day
        found.append(f"{'Ill' if ill else 'Well again'} since {_short(when)}.")
    found += [f"{SAID_LIMIT.get(place, f'Sore: {place}')} since {_short(since)}." for place, since in limits.items()]
    found += [f"{feel.words}."] if feel else []
    found += [
        f"{first_up(lifts.get(each.get('lift'), 'A lift'))} left out on {_short(each.day)}: nothing for it there."
        for each in rows
        if each.get("about") == "kit" and each.day > day - timedelta(days=SHOWN_DAYS)
    ]
    return Told(tuple(found), bool(ill or limits or (feel and feel.low)))


def _short(day: date) -> str:
    return f"{day.day} {day:%b}"
