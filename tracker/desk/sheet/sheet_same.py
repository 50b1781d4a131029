"""Whether a sheet is one that the log has already: of the same title, given by the coach, and of the same days.

Messages without a title look alike: this Monday's "Monday" is not last Monday's. So one without a title is the same only
where it says the same for the same days, and never changes another one by itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from tracker.desk.sheet.sheet_changes import changes_between, earlier_sheet
from tracker.desk.sheet.sheet_start import first_day_of, suggested_start, title_of
from tracker.errors import BadInputError
from tracker.log import sheets as log_sheets
from tracker.log.keeper import Reader
from tracker.log.sheets import WaveText
from tracker.prescription.sheet.model import Sheet


def same_before(session: Reader, sheet: Sheet, today: date | None, start: date | None = None) -> WaveText | None:
    """Find the sheet that this one is, or changes.

    Args:
        session: The log.
        sheet: What was read.
        today: The day it is; without it days are not compared.
        start: The day of its first session, where somebody chose one.
    """
    for wave, before in _of_title(session, sheet):
        days = log_sheets.days_of(session, wave)
        if not _same_days(sheet, before, days, today, start):
            continue
        if sheet.title or not changes_between(session, wave, sheet):
            return wave
    return None


def likely_before(session: Reader, sheet: Sheet) -> WaveText | None:
    """Find the newest sheet that goes by the same title, also one that nobody gave: to be changed if a person says so."""
    return next((wave for wave, _ in _of_title(session, sheet)), None)


def _of_title(session: Reader, sheet: Sheet) -> Iterator[tuple[WaveText, Sheet]]:
    title = title_of(sheet)
    for wave in log_sheets.waves_of_title(session, title):
        try:
            before = earlier_sheet(wave)
        except BadInputError:  # a wave of another kind, or of a sheet that is read otherwise today
            continue
        if title_of(before).casefold() == title.casefold() and bool(before.title) == bool(sheet.title):
            yield wave, before


def _same_days(sheet: Sheet, before: Sheet, days: frozenset[date], today: date | None, start: date | None) -> bool:
    named = first_day_of(sheet)
    if named is not None and (earlier := first_day_of(before)) is not None:
        days = days | _from(before, earlier)
    if not days or (today is None and start is None and named is None):
        return bool(sheet.title) or today is None
    if named is not None or sheet.sessions[0].weekday is not None:
        first = start or named or (suggested_start(sheet, today) if today else None)
        return first is None or bool(days & _from(sheet, first))
    now = start or today
    return now is None or max(days) >= now  # days that are only counted are the same ones while the sheet goes on


def _from(sheet: Sheet, first: date) -> frozenset[date]:
    return frozenset(first + timedelta(days=offset) for offset in sheet.offsets)
