"""The days of a sheet one after the other: dates without a year, days that nothing names, weekdays that come round again."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from tracker.prescription.sheet.days.parts_of_day import is_later
from tracker.prescription.sheet.model import Session


def near(month_day: tuple[int, int], today: date) -> date | None:
    """The day (month, day of it) in the next year that has it, or one of the last four weeks."""
    month, day = month_day
    for year in (today.year - 1, today.year, today.year + 1, today.year + 2, today.year + 3, today.year + 4):
        try:
            found = date(year, month, day)
        except ValueError:
            continue
        if found >= today - timedelta(weeks=4):
            return found
    return None


def in_order(sessions: list[Session]) -> list[Session]:
    """Give days that can be told apart: numbered where nothing names them, in weeks where weekdays come round again."""
    kept = [session for session in sessions if session.items]
    if len(kept) == 1 and kept[0].week is not None and kept[0].weekday is None:
        return [replace(kept[0], day=kept[0].day or 1)]
    if len(kept) <= 1:
        return [replace(each, week=1) if each.day is not None and each.week is None else each for each in kept]
    kept = _all_dated(kept)
    found: list[Session] = []
    week = None
    for place, session in enumerate(kept):
        before = found[-1] if found else None
        now = session
        if before is not None and _of_one_day(before, now):
            found.append(replace(now, on=before.on, week=before.week, weekday=before.weekday, day=before.day))
            continue
        if now.on is None and now.weekday is None and now.day is None and now.week is None:
            if before is not None and before.on is not None:
                now = replace(now, on=before.on + timedelta(days=1))
            elif before is not None and before.weekday is not None:
                day = before.weekday + 1
                now = replace(now, week=(before.week or 1) + day // 7, weekday=day % 7)
            elif before is not None:
                now = replace(now, week=before.week or 1, day=min(7, (before.day or 1) + 1))
            else:
                now = replace(now, week=1, day=1)
        elif now.on is None and now.week is None and now.day is not None:
            now = replace(
                now,
                week=(now.day - 1) // 7 + 1 if now.day > 7 else (before.week if before and before.week else 1),
                day=(now.day - 1) % 7 + 1,
            )
        elif now.on is None and now.week is not None and now.weekday is None and now.day is None:
            now = replace(now, day=1)
        if before is not None and now.on is None and before.on is None and now.place <= before.place:
            now = (
                replace(now, week=(before.week or 1) + 1) if now.week is None or now.week <= (before.week or 1) else now
            )
            if now.place <= before.place:
                now = replace(now, week=(before.week or 1) + 1)
        del place
        found.append(now)
    del week
    return found


def _all_dated(kept: list[Session]) -> list[Session]:
    """Give a weekday alone its date where a session before or after it has one: the nearest such day on that side.

    `2026-11-30`, then `Wednesday`, is Wednesday the second of December; a sheet without a date keeps its weekdays.
    """
    if all(each.on is None for each in kept):
        return kept
    found = list(kept)
    for places, way in ((range(1, len(found)), 1), (range(len(found) - 2, -1, -1), -1)):
        for at in places:
            now, known = found[at], found[at - way].on
            if now.on is not None or now.weekday is None or now.week is not None or known is None:
                continue
            apart = (now.weekday - known.weekday()) * way % 7
            same = apart == 0 and (_later(now, found[at - way]) if way > 0 else _later(found[at - way], now))
            found[at] = replace(now, on=known + way * timedelta(days=apart or (0 if same else 7)), weekday=None)
    return found


def _later(now: Session, before: Session) -> bool:
    return is_later(now.title, before.title)


def _of_one_day(before: Session, now: Session) -> bool:
    """Whether a session is of a later part of the day of the one before it: no weekday that comes round again."""
    if not is_later(now.title, before.title) or now.week not in (None, before.week):
        return False
    if now.on is not None or before.on is not None:
        return now.on in (None, before.on) and now.weekday is None and now.day is None
    return now.weekday in (None, before.weekday) and now.day in (None, before.day)
