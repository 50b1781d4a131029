"""Who trains where on which day, what that means for care and loads, and what the member chose around the day's sets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from itertools import pairwise

from tracker.conditioning.load import days_off_before
from tracker.desk.day.sore import NOTHING_SORE, SoreState
from tracker.log import choices as log_choices
from tracker.log import sessions as log_sessions
from tracker.log.choices import Choice
from tracker.log.records import MemberRecord, PlaceRecord
from tracker.log.unit_of_work import Reader
from tracker.prescription.comeback import FROM_DAYS, Comeback, comeback
from tracker.prescription.illness import AfterIllness, after_illness
from tracker.prescription.rounding import LAY_OFF_DAYS
from tracker.safety import Around, Person
from tracker.units import Unit


@dataclass(frozen=True, slots=True)
class Scene:
    """Who trains, where, on which day, and what that means for care."""

    log_name: str
    member: MemberRecord
    place: PlaceRecord | None
    day: date
    person: Person
    prefer: Mapping[str, str]
    choices: tuple[Choice, ...] = ()  # of the member, the newest first
    back: Comeback | AfterIllness | None = None  # loads start lower, after weeks without an entry or an illness
    break_began: date | None = None  # the last day of training before the newest such break
    sore: SoreState = (
        NOTHING_SORE  # what hurts: set for the member's own day alone, never for anything that others read
    )
    asks_back: bool = False  # nobody has said yet whether they start lower
    break_ended: date | None = None  # the first day of training after it, or this day
    trained: tuple[date, ...] = ()  # days of training before this one
    in_unit: Unit | None = None  # what loads are made in, where the member said so for the lift or the day

    @property
    def around(self) -> Around:
        return Around(alone=self.member.alone, pins=self.place.pins if self.place else True)


def read_scene(
    session: Reader,
    log_name: str,
    member: MemberRecord,
    place: PlaceRecord | None,
    day: date,
    prefer: Mapping[str, str] | None = None,
) -> Scene:
    """Put together a scene in a reading of whoever asks."""
    days = log_sessions.training_days(session, member.id, day)
    chosen = log_choices.choices(session, member.id)
    began, ended, back = _comeback(days, day, chosen)
    return Scene(
        log_name, member, place, day, _person(member, days, day), prefer or {}, chosen, back, began,
        asks_back=back is not None and _said_of(chosen, "after a break", began) is None,
        break_ended=ended, trained=tuple(each for each in days if each < day),
    )  # fmt: skip


def _comeback(days: tuple[date, ...], day: date, chosen: tuple[Choice, ...]) -> tuple[date | None, date | None, Comeback | None]:  # fmt: skip
    """Return when the newest break of three weeks began and ended, and how much lower loads start after it, by what was said of it."""
    before = [each for each in days if each < day]
    breaks = [(one, two) for one, two in pairwise([*before, day]) if (two - one).days - 1 >= FROM_DAYS]
    if not breaks:
        return None, None, None
    began, ended = breaks[-1]
    meanwhile, said = _said_of(chosen, "trained meanwhile", began), _said_of(chosen, "after a break", began)
    lighter = meanwhile is not None and meanwhile.get("how") == "lighter"
    back = comeback(
        (ended - began).days - 1, sum(each >= ended for each in before), (day - ended).days, lighter=lighter
    )
    if (meanwhile is not None and not lighter) or (said is not None and said.get("how") == "as asked"):
        back = None
    return began, ended, back


def with_sore(scene: Scene, said: SoreState) -> Scene:
    """Return the scene of a member's own day, by what they say of what hurts and of being ill."""
    after = None
    if said.was_ill is not None and said.was_ill[1] < scene.day and not said.ill:
        first, last = said.was_ill
        after = after_illness((last - first).days + 1, sum(each > last for each in scene.trained))
    if after is None or (scene.back is not None and scene.back.percent >= after.percent):
        return replace(scene, sore=said)
    return replace(scene, sore=said, back=after, asks_back=False)


def _said_of(chosen: tuple[Choice, ...], what: str, began: date | None) -> Choice | None:
    """Return the newest word on a break that began after a day."""
    if began is None:
        return None
    return next((each for each in chosen if each.what == what and each.get("since") == began.isoformat()), None)


def _person(member: MemberRecord, days: tuple[date, ...], day: date) -> Person:
    breaks = [after for before, after in pairwise(days) if (after - before).days > LAY_OFF_DAYS]
    return Person(
        days_off=days_off_before(days, day),
        days_since_first=(day - days[0]).days if days else None,
        days_back=(day - breaks[-1]).days if breaks else None,
        minor=member.minor,
        nothing_heavy=member.no_heavy,
    )
