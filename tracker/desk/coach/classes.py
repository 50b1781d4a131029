"""Classes of the week: named, with members, times and a coach."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import datetime

from tracker.desk.base.roles import may
from tracker.desk.people.people import clean_name
from tracker.errors import BadInputError
from tracker.log import classes as log_classes
from tracker.log import groups as log_groups
from tracker.log import kit as log_kit
from tracker.log.classes import ClassRecord
from tracker.log.unit_of_work import Log, Reader
from tracker.log.who import Grant, RefusedError, who

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
OF_CLASS = Grant(of_shared=frozenset({"class_members"}))
WEEK_MIN, DAY_MIN = 7 * 24 * 60, 24 * 60
GOES_ON_MIN = 120  # a class that began so long ago is still the one of now; design choice
_TIME = re.compile(r"(\d{1,2})(?:[:.h](\d{2}))?\s*(am|pm)?", re.IGNORECASE)


@may("lead")
def classes(log: Log) -> tuple[ClassRecord, ...]:
    """List the classes by name; for a coach who was given groups those in which nobody else is."""
    with log.reading() as session:
        found = log_classes.classes(session)
        return tuple(each for each in found if _is_theirs(session, each))


@may("lead", grant=OF_CLASS)
def add_class(
    log: Log,
    name: str,
    times: str = "",
    *,
    group_id: str | None = None,
    member_ids: Sequence[str] = (),
    place_id: str | None = None,
    coach: str = "",
) -> str:
    """Add a class and return its id.

    Args:
        log: The log.
        name: What it is called.
        times: When it is, as in "Mon 18:00, Thu 18:00"; empty where nobody says.
        group_id: All of this group are in it.
        member_ids: Who is in it beside them.
        place_id: Where it is; without it each trains at their own place.
        coach: Who leads it, by name.

    Raises:
        BadInputError: if the name is empty or a class's, times can't be read, or a record is gone.
    """
    name, at = clean_name(name, "class"), read_times(times)
    with log.act(f"added the class {name}") as act:
        _free(act.session, name)
        _hold(act.session, group_id, place_id)
        made = log_classes.add(
            act, name, group_id=group_id, place_id=place_id, coach=coach and clean_name(coach, "coach")
        )
        log_classes.set_times(act, made, at)
        log_classes.set_members(act, made, member_ids)
    return made


@may("lead", grant=OF_CLASS)
def change_class(
    log: Log,
    class_id: str,
    name: str,
    times: str,
    *,
    group_id: str | None,
    member_ids: Sequence[str],
    place_id: str | None,
    coach: str,
) -> None:
    """Say all of a class anew; see `add_class`. Who is in it and does not share with the one who acts stays in it."""
    name, at = clean_name(name, "class"), read_times(times)
    with log.act(f"changed the class {name}") as act:
        class_of(act.session, class_id)
        _free(act.session, name, but=class_id)
        _hold(act.session, group_id, place_id)
        led_by = coach and clean_name(coach, "coach")
        log_classes.change(act, class_id, name=name, group_id=group_id, place_id=place_id, coach=led_by)
        log_classes.set_times(act, class_id, at)
        log_classes.set_members(act, class_id, member_ids)


@may("lead")
def remove_class(log: Log, class_id: str) -> str:
    """Take a class away and return its name; its members, and what was handed to it, stay in the log."""
    with log.act("removed a class") as act:
        found = class_of(act.session, class_id)
        act.words = f"removed the class {found.name}"
        log_classes.remove(act, class_id)
    return found.name


def class_of(session: Reader, class_id: str) -> ClassRecord:
    """Return a class that the one who asks may use.

    Raises:
        BadInputError: if it is gone.
        RefusedError: if it is of a group that the coach was not given.
    """
    found = next((each for each in log_classes.classes(session) if each.id == class_id), None)
    if found is None:
        raise BadInputError("This class is not in the log any more.", where="class", mend="Choose one from the list.")
    if not _is_theirs(session, found):
        raise RefusedError("This class is of a group that you were not given.", mend="Ask the owner.")
    return found


def _is_theirs(session: Reader, found: ClassRecord) -> bool:
    """Whether the one who asks may use a class: for a coach who was given groups nobody else may be in it."""
    person = who()
    if person.role != "coach" or not person.of_groups:
        return True
    led = log_groups.led_by(session, person.account_id)
    theirs = frozenset[str]().union(*(log_groups.everybody(session, each) for each in led))
    return found.group_id in (None, *led) and log_classes.everybody(session, found.id) <= theirs


def _hold(session: Reader, group_id: str | None, place_id: str | None) -> None:
    """Refuse a group or a place that is gone, and a group that the coach was not given."""
    if group_id is not None and group_id not in {each.id for each in log_groups.groups(session)}:
        raise BadInputError("This group is not in the log any more.", where="group", mend="Choose one from the list.")
    person = who()
    limited = person.role == "coach" and person.of_groups
    if group_id and limited and group_id not in log_groups.led_by(session, person.account_id):
        raise RefusedError("This group is not one that you were given.", mend="Ask the owner.")
    if place_id is not None and place_id not in {each.id for each in log_kit.of_gym(session)}:
        raise BadInputError("This place is not the gym's any more.", where="place", mend="Choose one from the list.")


def _free(session: Reader, name: str, but: str = "") -> None:
    if any(each.name.casefold() == name.casefold() and each.id != but for each in log_classes.classes(session)):
        raise BadInputError(f"There is a class {name} already.", where="class", mend="Use another name.")


def read_times(text: str) -> tuple[tuple[int, str], ...]:
    """Read when a class is; a day may have several times, and several days one.

    >>> read_times("Mon, Thu 18:00; sat 9.30")
    ((0, '18:00'), (3, '18:00'), (5, '09:30'))

    Raises:
        BadInputError: if a part is neither a day nor a time, or one has no other.
    """
    found: list[tuple[int, str]] = []
    days: list[int] = []
    timed = False
    for word in re.findall(r"[^\s,;&+]+(?:\s*[ap]m\b)?", text, re.IGNORECASE):
        if word.casefold() in ("and", "at", "-"):
            continue
        day = _day(word)
        if day is not None:
            days = [] if timed else days
            days.append(day)
            timed = False
            continue
        at = _time(word)
        if at is None or not days:
            what = f"{word} is no day and no time." if at is None else f"{word} has no day before it."
            raise BadInputError(what, where="times", mend="Write such as Mon 18:00, Thu 18:00.")
        found += [(each, at) for each in days]
        timed = True
    if days and not timed:
        raise BadInputError(
            f"{WEEKDAYS[days[-1]]} has no time.", where="times", mend="Write such as Mon 18:00, Thu 18:00."
        )
    return tuple(dict.fromkeys(sorted(found)))


def _day(word: str) -> int | None:
    said = word.casefold().rstrip(".s")
    matches = [at for at, name in enumerate(WEEKDAYS) if len(said) >= 2 and name.casefold().startswith(said)]
    return matches[0] if len(matches) == 1 else None


def _time(word: str) -> str | None:
    found = _TIME.fullmatch(word.strip())
    if not found:
        return None
    hour, minute, half = int(found[1]), int(found[2] or 0), (found[3] or "").casefold()
    if half and not 1 <= hour <= 12:
        return None
    hour = hour % 12 + (12 if half == "pm" else 0) if half else hour
    return f"{hour:02}:{minute:02}" if hour < 24 and minute < 60 else None


def times_words(times: Sequence[tuple[int, str]]) -> str:
    """Say when a class is, as it is typed.

    >>> times_words(((0, "18:00"), (3, "18:00")))
    'Mon 18:00, Thu 18:00'
    """
    return ", ".join(f"{WEEKDAYS[day][:3]} {starts}" for day, starts in times)


def class_now(known: Sequence[ClassRecord], moment: datetime) -> ClassRecord | None:
    """Return the class that is on, else the one that comes next; of those without times the first by name.

    Args:
        known: The classes.
        moment: The time on the gym's clock.
    """
    now = moment.weekday() * DAY_MIN + moment.hour * 60 + moment.minute

    def ahead(each: ClassRecord) -> int:
        left = [
            (day * DAY_MIN + int(at[:2]) * 60 + int(at[3:]) - now + GOES_ON_MIN) % WEEK_MIN for day, at in each.times
        ]
        return min(left, default=WEEK_MIN)

    return min(known, key=ahead, default=None)
