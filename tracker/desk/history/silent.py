"""Days and weeks without an entry: whether they were rest, as the member says.

Our choice, without a source: in a week with a session a day without an entry counts as rest, unless the member says that it
does not. A week without any entry is not known, is asked about once, and is left out of what is usual.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.conditioning.load import Week
from tracker.desk.base.roles import may
from tracker.desk.people.people import check_day
from tracker.errors import BadInputError
from tracker.log import choices as log_choices
from tracker.log import rest as log_rest
from tracker.log import sessions as log_sessions
from tracker.log.choices import Choice, What
from tracker.log.unit_of_work import Act, Log
from tracker.wording import counted

DAYS: What = "silent days"
WEEKS: What = "silent weeks"
ASKED_WEEKS = 12  # how far back silent weeks are asked about


@dataclass(frozen=True, slots=True)
class SilentWeeks:
    """Weeks one after the other without any entry: the first Monday and the last Sunday."""

    first: date
    last: date

    @property
    def weeks(self) -> int:
        return ((self.last - self.first).days + 1) // 7


def rests(chosen: Sequence[Choice]) -> bool:
    """Whether silent days count as rest in a week with a session; so they do until a member says otherwise."""
    newest = next((each for each in chosen if each.what == DAYS), None)
    return newest is None or newest.get("are") != "not known"


def to_ask(weeks: Sequence[Week], began: date, chosen: Sequence[Choice]) -> SilentWeeks | None:
    """Return the newest silent weeks of which nobody has said anything, of whole `weeks`, oldest first.

    None before a member's first day of training, `began`, nor where they said on Today that they trained meanwhile.
    """
    answered = [_span(each) for each in chosen if each.what in (WEEKS, "trained meanwhile")]
    open_ = [
        week.first
        for week in weeks[-ASKED_WEEKS:]
        if week.silent and week.first > began and not any(first <= week.first <= last for first, last in answered)
    ]
    if not open_:
        return None
    first = last = open_[-1]
    while first - timedelta(days=7) in open_:
        first -= timedelta(days=7)
    return SilentWeeks(first, last + timedelta(days=6))


def _span(choice: Choice) -> tuple[date, date]:
    if choice.what == WEEKS:
        return date.fromisoformat(choice.get("first")), date.fromisoformat(choice.get("last"))
    return date.fromisoformat(choice.get("since")), choice.day


@may("change")
def count_silent_days(log: Log, member_id: str, today: date, *, as_rest: bool) -> None:
    """Say whether days without an entry count as rest in a week with a session; undo takes it back."""
    words = "rest" if as_rest else "not known"
    with log.act(f"days without an entry count as {words}", member_id, own=True) as act:
        log_choices.choose(act, member_id, DAYS, today, are=words)


@may("change")
def say_of_weeks(log: Log, member_id: str, first: date, last: date, today: date, *, rested: bool) -> None:
    """Say of weeks without an entry that they were rest, or that something was done and is not known; they are asked no more.

    Raises:
        BadInputError: if a day of them is still to come, or has a session by now.
    """
    days = [first + timedelta(days=n) for n in range((last - first).days + 1)]
    if not days:
        raise BadInputError("These weeks end before they begin.", where="weeks", mend="Reload the page.")
    said = "rested in" if rested else "trained without an entry in"
    with log.act(f"{said} {counted(-(-len(days) // 7), 'week')}", member_id, own=True) as act:
        _refuse_trained(act, member_id, days)
        if rested:
            for day in days:
                log_rest.put_rest_day(act, member_id, check_day(day))
        log_choices.choose(act, member_id, WEEKS, today, first=first.isoformat(), last=last.isoformat())


@may("change")
def say_rested_on_all(log: Log, member_id: str, days: Sequence[date]) -> None:
    """Say that all these days were rest days, or none of them where one can't have been."""
    with log.act(f"rested on {counted(len(days), 'day')}", member_id, own=True) as act:
        _refuse_trained(act, member_id, days)
        for day in days:
            log_rest.put_rest_day(act, member_id, check_day(day))


def _refuse_trained(act: Act, member_id: str, days: Sequence[date]) -> None:
    """A day with a session is no rest day: somebody may have logged one since the page asked."""
    trained = set(log_sessions.training_days(act.session, member_id, max(days, default=date.min))) & set(days)
    if trained:
        which = ", ".join(day.isoformat() for day in sorted(trained))
        verb = "has a session" if len(trained) == 1 else "have sessions"
        raise BadInputError(f"{which} {verb}.", where="rest", mend="Choose days without one.")
