"""A coach's sheet comes to the log: read and said back first, taken for members, changed later without touching what is done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy.orm import Session as OrmSession

from tracker.desk import people
from tracker.desk.roles import may
from tracker.desk.sheet_changes import SessionChange, changes_between, earlier_sheet
from tracker.desk.sheet_start import check_start, first_day_of, suggested_start, title_of
from tracker.desk.sheet_steps import Lifts, keep_pieces, lifts_named, new_step, scored_pieces
from tracker.desk.unchanged import while_unchanged
from tracker.errors import BadInputError
from tracker.log import pieces as log_pieces
from tracker.log import sheets as log_sheets
from tracker.log import waves as log_waves
from tracker.log.keeper import Log
from tracker.log.records import MemberRecord, MemberStepRow
from tracker.log.sheets import WaveText
from tracker.prescription.sheet import LineRead, parse_sheet, read, said_back
from tracker.prescription.sheet.asks import Ask
from tracker.prescription.sheet.model import Sheet


@dataclass(frozen=True, slots=True)
class SheetPreview:
    """A sheet before it is taken: what was understood, which lifts are new to the log, and what it changes."""

    sheet: Sheet
    asks: tuple[Ask, ...]  # what can be read in two ways
    lines: tuple[LineRead, ...]  # what became of each line
    said: tuple[str, ...]
    new_lifts: tuple[str, ...]
    earlier: WaveText | None  # a sheet of the same title that the log has already
    changes: tuple[SessionChange, ...]  # against it; none where it says the same

    @property
    def first_day(self) -> date | None:
        """The day that the sheet itself names for its first session."""
        return first_day_of(self.sheet)


@dataclass(frozen=True, slots=True)
class Taken:
    """What came of taking a sheet."""

    wave_id: str
    names: tuple[str, ...]  # of the members who now do it
    started: date

    @property
    def words(self) -> str:
        return f"taken for {', '.join(self.names)} from {self.started.isoformat()}"


@may("common")
def read_sheet(log: Log, text: str, *, name: str = "") -> SheetPreview:
    """Read a sheet and say what taking it would do; nothing is written.

    Raises:
        SheetErrors: if there is nothing in it to read.
    """
    reading = read(text, name=name)
    sheet = reading.sheet
    known = {(lift.name.casefold(), lift.implement) for lift in people.lifts(log)}
    new = [f"{each.name}, {each.implement}" for each in lifts_named(sheet) if (each.name, each.implement) not in known]
    with log.reading() as session:
        earlier = log_sheets.wave_titled(session, sheet.title) if sheet.title else _same(session, sheet)
        found = changes_between(session, earlier, sheet) if earlier else ()
    return SheetPreview(sheet, reading.asks, reading.lines, said_back(sheet), tuple(dict.fromkeys(new)), earlier, found)


@may("plan")
def take_sheet(
    log: Log, member_ids: Sequence[str], text: str, start: date | None = None, *, by: str | None = None
) -> Taken:
    """Take a sheet into the log and into the calendars of members, in one act.

    Args:
        log: The log.
        member_ids: Who does it.
        text: The sheet.
        start: The day of its first session; without it the one that the sheet names.
        by: Who takes it, and can take that back; without it the first of the members.

    Raises:
        SheetErrors: if the sheet can't be read.
        BadInputError: if it has no title, no first day or no members, or changes an earlier sheet of its title.
    """
    preview = read_sheet(log, text)
    sheet, title = preview.sheet, title_of(preview.sheet)
    if preview.changes:
        raise BadInputError(
            f"There is an earlier sheet {title}, and this one says otherwise.", where="sheet",
            mend="Look at what changes and take the changes, or give it another title.",
        )  # fmt: skip
    first = check_start(sheet, start)
    if not sheet.title:
        title = _free_title(log, title, first)
    members = _members(log, member_ids, preview.earlier)
    words = f"took the sheet {title} for {', '.join(each.name for each in members)}"
    with log.act(words[:200], by or members[0].id) as act:
        if not preview.earlier and title.casefold() in {each.casefold() for each in log_waves.titles(act.session)}:
            raise BadInputError(f"Somebody else has a sheet {title}.", where="sheet", mend="Give it another title.")
        wave_id = preview.earlier.id if preview.earlier else _write(act, sheet, title, text)
        for member in members:
            log_waves.start_wave(act, member.id, wave_id, first)
    return Taken(wave_id, tuple(each.name for each in members), first)


def _same(session: OrmSession, sheet: Sheet) -> WaveText | None:
    """A sheet without a title that the log has already, word for word in what it says; another one is a sheet of its own."""
    earlier = log_sheets.wave_titled(session, title_of(sheet))
    if earlier is None:
        return None
    try:
        return None if changes_between(session, earlier, sheet) else earlier
    except BadInputError:
        return None


def _free_title(log: Log, title: str, first: date) -> str:
    """A title that nobody gave is no sign that a sheet changes an earlier one: with its day it is one of its own."""
    with log.reading() as session:
        taken = {each.casefold() for each in log_waves.titles(session)}
    tries = (
        title,
        f"{title}, {first.isoformat()}",
        *(f"{title}, {first.isoformat()} ({number})" for number in range(2, 1000)),
    )
    return next(each for each in tries if each.casefold() not in taken)


def _write(act: log_waves.Act, sheet: Sheet, title: str, text: str) -> str:
    lifts = Lifts(act)
    steps = [new_step(sheet, each, day, lifts) for each, day in zip(sheet.sessions, sheet.offsets, strict=True)]
    wave_id = log_waves.add_wave(act, title, steps, text=text)
    found = log_sheets.wave_text(act.session, wave_id)
    assert found is not None
    for step_id, pieces in zip(found.step_ids, scored_pieces(sheet), strict=True):
        keep_pieces(act, step_id, pieces)
    return wave_id


@may("common")
def changes(log: Log, wave_id: str, text: str) -> tuple[SessionChange, ...]:
    """Say what a sheet changes against the one that a wave was made of; nothing is written."""
    sheet = parse_sheet(text)
    scored_pieces(sheet)
    with log.reading() as session:
        return changes_between(session, _wave(log_sheets.wave_text(session, wave_id)), sheet)


@may("plan")
def take_changes(log: Log, wave_id: str, text: str, *, by: str | None = None) -> tuple[SessionChange, ...]:
    """Write the changes of a sheet into its wave, in one act; what someone has begun, done or left out stays as it was.

    Raises:
        SheetErrors: if the sheet can't be read.
        BadInputError: if the wave is not of a sheet, or nothing changes.
    """
    sheet = parse_sheet(text)
    pieces = scored_pieces(sheet)
    title = title_of(sheet)
    with log.act(f"changed the sheet {title}"[:200], by) as act:
        wave = _wave(log_sheets.wave_text(act.session, wave_id))
        found = changes_between(act.session, wave, sheet)
        if not found:
            raise BadInputError("This sheet says the same as the earlier one.", where="sheet", mend="Change it first.")
        before = earlier_sheet(wave)
        lifts = Lifts(act)
        for change in found:
            if change.new is None:
                log_sheets.drop_step(act, change.step_id or "")
                continue
            session = sheet.sessions[change.new]
            step = new_step(sheet, session, session.place - before.sessions[0].place, lifts)
            made = (
                log_sheets.replace_step(act, change.step_id, step)
                if change.step_id
                else log_sheets.add_step(act, wave_id, step)
            )
            keep_pieces(act, made, pieces[change.new])
        log_sheets.set_text(act, wave_id, text)
    return found


def _wave(found: WaveText | None) -> WaveText:
    if found is None:
        raise BadInputError("This wave is not in the log.", where="wave", mend="Choose one from the list.")
    return found


@may("common")
def members_on(log: Log, wave_id: str) -> tuple[str, ...]:
    """List the members who are doing a wave."""
    with log.reading() as session:
        return log_sheets.members_on(session, wave_id)


@may("see")
@while_unchanged
def pieces_of(log: Log, step: MemberStepRow) -> tuple[str, ...]:
    """Name the pieces that belong to a step."""
    with log.reading() as session:
        return tuple(row.piece.title for row in log_pieces.pieces_of_step(session, step.step_id))


def _members(log: Log, member_ids: Sequence[str], earlier: WaveText | None) -> tuple[MemberRecord, ...]:
    known = {each.id: each for each in people.members(log)}
    wanted = [known.get(each) for each in dict.fromkeys(member_ids)]
    found = tuple(each for each in wanted if each is not None)
    if not found or len(found) < len(wanted):
        raise BadInputError("Nobody is chosen who could do it.", where="members", mend="Choose one member or more.")
    with log.reading() as session:
        on = log_sheets.members_on(session, earlier.id) if earlier else ()
    if doubled := [each.name for each in found if each.id in on]:
        raise BadInputError(
            f"{', '.join(doubled)} is on this sheet already.", where="members", mend="Leave out who does it already."
        )
    return found


__all__ = [
    "SheetPreview",
    "Taken",
    "changes",
    "members_on",
    "pieces_of",
    "read_sheet",
    "suggested_start",
    "take_changes",
    "take_sheet",
]
