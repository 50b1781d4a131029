"""What a member chooses to tell the coach of what else only they see: that they are ill, that a lift was left out for want of kit.

Nothing of it is told unless somebody touches so, each time. It is a choice that the coach may read; what hurts stays private.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from tracker.desk.base.roles import may
from tracker.desk.maxes.words import first_up
from tracker.log import choices
from tracker.log import members as log_members
from tracker.log.choices import Choice
from tracker.log.unit_of_work import Log

SHOWN_DAYS = 14
WHAT = "told the coach"


@may("change")
def tell_ill(log: Log, member_id: str, since: date, day: date) -> None:
    """Tell the coach that the member is ill, since when, and no more."""
    with log.act("told the coach that they are ill", member_id, own=True) as act:
        choices.choose(act, member_id, WHAT, day, about="ill", since=since.isoformat())


@may("change")
def tell_left_out(log: Log, member_id: str, lift_id: str, day: date) -> None:
    """Tell the coach that a lift was left out or replaced because nothing stands there for it."""
    with log.act("told the coach why a lift was left out", member_id, own=True) as act:
        choices.choose(act, member_id, WHAT, day, about="kit", lift=lift_id)


def is_told_ill(chosen: Iterable[Choice]) -> bool:
    """Whether the newest word to the coach on being ill is that the member is."""
    newest = next((each for each in chosen if each.what == WHAT and each.get("about") in ("ill", "well")), None)
    return newest is not None and newest.get("about") == "ill"


@may("see")
def told(log: Log, member_id: str, day: date) -> tuple[str, ...]:
    """Say what a member told the coach in the fourteen days up to a day, the newest first; of being ill only the newest word."""
    with log.reading() as session:
        rows = [each for each in choices.choices(session, member_id) if each.what == WHAT and each.day <= day]
        lifts = {each.id: each.title for each in log_members.lifts(session, member_id)}
    found: list[str] = []
    state = next((each for each in rows if each.get("about") in ("ill", "well")), None)
    if state is not None and (state.get("about") == "ill" or state.day > day - timedelta(days=SHOWN_DAYS)):
        when = date.fromisoformat(state.get("since")) if state.get("about") == "ill" else state.day
        found.append(f"{'Ill' if state.get('about') == 'ill' else 'Well again'} since {when.day} {when:%b}.")
    found += [
        f"{first_up(lifts.get(each.get('lift'), 'A lift'))} left out on {each.day.day} {each.day:%b}: nothing for it there."
        for each in rows
        if each.get("about") == "kit" and each.day > day - timedelta(days=SHOWN_DAYS)
    ]
    return tuple(found)
