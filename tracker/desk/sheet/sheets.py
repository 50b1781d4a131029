"""A coach's sheet comes to the log: read and said back first, taken for members, changed later without touching what is done."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Literal

from tracker.desk.base.roles import may
from tracker.desk.people import people
from tracker.desk.sheet.sheet_changes import SessionChange, changes_between, earlier_sheet
from tracker.desk.sheet.sheet_same import likely_before, same_before
from tracker.desk.sheet.sheet_start import check_start, suggested_start, title_of
from tracker.desk.sheet.sheet_steps import Lifts, keep_pieces, lifts_named, new_step, scored_pieces
from tracker.desk.sheet.sheet_text import noted as with_notes
from tracker.desk.sheet.sheet_text import split
from tracker.errors import BadInputError
from tracker.log import answers as log_answers
from tracker.log import history
from tracker.log import sheets as log_sheets
from tracker.log import waves as log_waves
from tracker.log.records import MemberRecord, MemberStepRow
from tracker.log.sheets import WaveText
from tracker.log.unit_of_work import Act, Log, Reader
from tracker.log.who import who
from tracker.prescription.sheet import LineRead, Reading, parse_sheet, read, said_back
from tracker.prescription.sheet.asks import Ask
from tracker.prescription.sheet.model import Sheet
from tracker.wording import counted

CHANGED = "your coach changed"  # the words by which those are told who had begun
LOOKED_AT = 100  # acts of a member, the newest

MOST_NAMED = 6  # members by name; the others are counted


@dataclass(frozen=True, slots=True)
class Question:
    """What can be read in two ways: which reading stands, and whether it was answered, here or for an earlier sheet."""

    ask: Ask  # its `taken` is the reading that stands
    answer: Literal["open", "now", "before"]

    @property
    def key(self) -> str:
        return self.ask.key


@dataclass(frozen=True, slots=True)
class SheetPreview:
    """A sheet before it is taken: what was understood, which lifts are new to the log, and what it changes."""

    sheet: Sheet
    asks: tuple[Ask, ...]  # what can be read in two ways and nobody answered
    questions: tuple[Question, ...]  # these and the answered ones, by line
    lines: tuple[LineRead, ...]  # what became of each line
    said: tuple[str, ...]
    new_lifts: tuple[str, ...]
    earlier: WaveText | None  # a sheet of the same title and days that the log has already
    changes: tuple[SessionChange, ...]  # against it; none where it says the same
    alike: WaveText | None = None  # else one that goes by the same title, of other days
    answers: Mapping[str, str] = field(default_factory=dict[str, str])  # all that counted in this reading


@dataclass(frozen=True, slots=True)
class TakenSheet:
    """What came of taking a sheet."""

    wave_id: str
    names: tuple[str, ...]  # of the members who now do it
    started: date
    title: str = ""

    @property
    def words(self) -> str:
        return f"taken for {', '.join(self.names)} from {self.started.isoformat()}"


@may("common")
def read_sheet(
    log: Log,
    text: str,
    *,
    name: str = "",
    today: date | None = None,
    start: date | None = None,
    answers: Mapping[str, str] | None = None,
    by: str | None = None,
) -> SheetPreview:
    """Read a sheet and say what taking it would do; nothing is written.

    Args:
        log: The log.
        text: The sheet; remarks of an earlier reading in it count as answers.
        name: What to call it in a message.
        today: The day it is: a date without a year is near it, and a sheet of other days is another sheet.
        start: The day of its first session, where somebody chose one.
        answers: Answers to what can be read in two ways, by key.
        by: The member whose earlier answers count as well.

    Raises:
        SheetErrors: if there is nothing in it to read.
    """
    noted = split(text)
    with log.reading() as session:
        before = log_answers.kept(session, by)
    given = {**noted.answers, **(answers or {})}
    all_answers = {**before, **given}
    day = noted.day or today
    reading = read(noted.text, name=name, answers=all_answers, today=day)
    sheet = reading.sheet
    known = {(lift.name.casefold(), lift.implement) for lift in people.lifts(log)}
    new = [each.words for each in lifts_named(sheet) if (each.name.casefold(), each.implement) not in known]
    with log.reading() as session:
        earlier = same_before(session, sheet, today, start)
        alike = None if earlier else likely_before(session, sheet)
        found = changes_between(session, earlier, sheet) if earlier else ()
    return SheetPreview(
        sheet, reading.asks, _questions(reading, noted.text, given, day, all_answers), reading.lines, said_back(sheet),
        tuple(dict.fromkeys(new)), earlier, found, alike, dict(reading.answered),
    )  # fmt: skip


@may("see")
def answers_of(log: Log, member_id: str | None) -> dict[str, str]:
    """Return how a member answered what earlier sheets could be read in two ways, by key; of nobody there is nothing."""
    with log.reading() as session:
        return log_answers.kept(session, member_id)


def _questions(
    reading: Reading, text: str, given: Mapping[str, str], today: date | None, answers: Mapping[str, str]
) -> tuple[Question, ...]:
    """Put what was answered beside what is open, so that an answer can be seen and changed."""
    found = [Question(ask, "open") for ask in reading.asks]
    for key, code in reading.answered.items():
        without = read(text, answers={each: answers[each] for each in answers if each != key}, today=today)
        ask = next((each for each in without.asks if each.key == key), None)
        choices = {each.code: each for each in (ask.taken, *ask.others)} if ask else {}
        if ask is None or code not in choices:
            continue
        others = tuple(each for each in (ask.taken, *ask.others) if each.code != code)
        answered = replace(ask, taken=choices[code], others=others)
        found.append(Question(answered, "now" if key in given else "before"))
    return tuple(sorted(found, key=lambda each: (each.ask.line, each.key)))  # a touch moves no other question


@may("plan")
def take_sheet(
    log: Log,
    member_ids: Sequence[str],
    text: str,
    start: date | None = None,
    *,
    by: str | None = None,
    today: date | None = None,
    answers: Mapping[str, str] | None = None,
) -> TakenSheet:
    """Take a sheet into the log and into the calendars of members, in one act.

    Args:
        log: The log.
        member_ids: Who does it.
        text: The sheet.
        start: The day of its first session; without it the one that the sheet names.
        by: Who takes it, and can take that back; without it the first of the members. Their answers are kept.
        today: The day it is.
        answers: Answers to what can be read in two ways, by key.

    Raises:
        SheetErrors: if the sheet can't be read.
        BadInputError: if it has no first day or no members, or changes an earlier sheet of its title and days.
    """
    today = today or start
    preview = read_sheet(log, text, today=today, start=start, answers=answers, by=by)
    sheet, title = preview.sheet, title_of(preview.sheet)
    if preview.changes:
        raise BadInputError(
            f"There is an earlier sheet {title}, and this one says otherwise.", where="sheet",
            mend="Look at what changes and take the changes, or give it another title.",
        )  # fmt: skip
    first = check_start(sheet, start)
    if preview.earlier is None:
        with log.reading() as session:
            title = free_title(session, title, first)
    members = _members(log, member_ids, preview.earlier)
    whose = by or (None if who().leads else members[0].id)
    with log.act(f"took the sheet {title} for {_whom(members, whose)}", whose) as act:
        wave_id = (
            preview.earlier.id if preview.earlier else write_wave(act, sheet, title, kept_text(text, preview, today))
        )
        for member in members:
            log_waves.start_wave(act, member.id, wave_id, first)
            if member.id != whose:
                act.tell(member.id, f"was given the sheet {title}")
        if whose is not None:
            log_answers.keep(act, whose, preview.answers)
    return TakenSheet(wave_id, tuple(each.name for each in members), first, title)


def kept_text(text: str, preview: SheetPreview, today: date | None) -> str:
    """The text as it is kept: with the answers that counted, and the day where a date without a year hangs on it."""
    noted = split(text)
    day = noted.day or today
    dated = day is not None and parse_sheet(noted.text, answers=preview.answers) != preview.sheet
    return with_notes(noted.text, preview.answers, day if dated else None)


def _whom(members: Sequence[MemberRecord], whose: str | None) -> str:
    """Say for whom it is in the history of `whose`: a coach reads names in theirs, a member only their own."""
    if who().leads or [each.id for each in members] == [whose]:
        return ", ".join(each.name for each in members)
    return f"{len(members)} members" if len(members) > 1 else "another member"


def free_title(session: Reader, title: str, first: date) -> str:
    """A sheet of other days than the one that has its title is one of its own: it goes by its title and its day."""
    taken = {each.casefold() for each in log_waves.titles(session)}
    tries = (
        title,
        f"{title}, {first.isoformat()}",
        *(f"{title}, {first.isoformat()} ({number})" for number in range(2, 1000)),
    )
    return next(each for each in tries if each.casefold() not in taken)


def write_wave(act: Act, sheet: Sheet, title: str, text: str) -> str:
    """Write a sheet as a wave, with its pieces, within an act; return its id."""
    lifts = Lifts(act)
    steps = [new_step(sheet, each, day, lifts) for each, day in zip(sheet.sessions, sheet.offsets, strict=True)]
    wave_id = log_waves.add_wave(act, title, steps, text=text)
    found = log_sheets.wave_text(act.session, wave_id)
    assert found is not None
    for step_id, pieces in zip(found.step_ids, scored_pieces(sheet), strict=True):
        keep_pieces(act, step_id, pieces)
    return wave_id


@may("common")
def changes(
    log: Log, wave_id: str, text: str, *, today: date | None = None, answers: Mapping[str, str] | None = None
) -> tuple[SessionChange, ...]:
    """Say what a sheet changes against the one that a wave was made of; nothing is written."""
    sheet = _read_for_change(text, today, answers)[0]
    with log.reading() as session:
        return changes_between(session, _wave(log_sheets.wave_text(session, wave_id)), sheet)


@may("plan")
def take_changes(
    log: Log,
    wave_id: str,
    text: str,
    *,
    by: str | None = None,
    today: date | None = None,
    answers: Mapping[str, str] | None = None,
) -> tuple[SessionChange, ...]:
    """Write the changes of a sheet into its wave, in one act; what someone has begun, done or left out stays as it was.

    Raises:
        SheetErrors: if the sheet can't be read.
        BadInputError: if the wave is not of a sheet, or nothing changes.
    """
    sheet, text = _read_for_change(text, today, answers)
    pieces = scored_pieces(sheet)
    title = title_of(sheet)
    with log.act(f"changed the sheet {title}", by) as act:
        wave = _wave(log_sheets.wave_text(act.session, wave_id))
        found = changes_between(act.session, wave, sheet)
        if not found:
            raise BadInputError("This sheet says the same as the earlier one.", where="sheet", mend="Change it first.")
        before = earlier_sheet(wave)
        lifts = Lifts(act)
        for change in found:
            _tell_begun(act, title, change, by)
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
        if by is not None:
            log_answers.keep(act, by, split(text).answers)
    return found


def _tell_begun(act: Act, title: str, change: SessionChange, by: str | None) -> None:
    """Let those read who have begun a session, and keep it as it was, what the sheet says of it now."""
    if change.step_id is None:
        return
    after, before = _parts(change.after), _parts(change.before)
    now, was = [each for each in after if each not in before], [each for each in before if each not in after]
    said = [f"now {', '.join(now)}"] if now else []
    if change.new is None:
        said = ["it is not on the sheet any more"]
    elif was:
        said += [f"before {', '.join(was)}"]
    for member_id in log_sheets.begun_members(act.session, change.step_id):
        if member_id != by:
            act.tell(member_id, f"{CHANGED} {title}, {change.words}, which you had begun: {'; '.join(said)}")


def _parts(lines: Sequence[str]) -> list[str]:
    """Part what is said of a session into its sets, each with its lift only where that is all that is said."""
    return [part for line in lines for part in (line.partition(": ")[2] or line).split("; ")]


def changed_since_begun(session: Reader, member_id: str, step: MemberStepRow) -> str:
    """Say what a coach changed of a session after a member had begun it, in a reading of whoever asks; empty where nothing was."""
    if not log_sheets.is_replaced(session, step.step_id):
        return ""
    acts = history.acts(session, member_id, LOOKED_AT)
    told = [each.words for each in acts if each.words.startswith(f"{CHANGED} {step.wave}") and not each.undone]
    return next((words for words in told if step.title in words), next(iter(told), ""))


def _read_for_change(text: str, today: date | None, answers: Mapping[str, str] | None) -> tuple[Sheet, str]:
    """Read a sheet, and write its text as it will be kept."""
    noted = split(text)
    given = {**noted.answers, **(answers or {})}
    day = noted.day or today
    reading = read(noted.text, answers=given, today=day)
    dated = day is not None and parse_sheet(noted.text, answers=given) != reading.sheet
    return reading.sheet, with_notes(noted.text, reading.answered, day if dated else None)


def _wave(found: WaveText | None) -> WaveText:
    if found is None:
        raise BadInputError("This wave is not in the log.", where="wave", mend="Choose one from the list.")
    return found


@may("common")
def members_on(log: Log, wave_id: str) -> tuple[str, ...]:
    """List the members who are doing a wave."""
    with log.reading() as session:
        return log_sheets.members_on(session, wave_id)


def for_whom_words(names: Sequence[str], *, you: str = "") -> str:
    """Say for whom a change of a sheet is, by the names of those who do it; one without a name is only counted.

    >>> for_whom_words(["Bo", "Ana"], you="Ana"), for_whom_words([])
    ('This changes the sheet for all 2 who do it: you and Bo.', 'Nobody does this sheet now: it changes for whoever takes it later.')
    """
    if not names:
        return "Nobody does this sheet now: it changes for whoever takes it later."
    if you and list(names) == [you]:
        return "This changes the sheet for you alone: nobody else does it."
    said = ["you"] if you and you in names else []
    said += sorted(each for each in names if each and each != you)[: MOST_NAMED - len(said)]
    if left := len(names) - len(said):
        said.append(counted(left, "other") if said else counted(left, "member"))
    row = f"{', '.join(said[:-1])} and {said[-1]}" if len(said) > 1 else said[0]
    whom = f"all {len(names)} who do it" if len(names) > 1 else "the one who does it"
    return f"This changes the sheet for {whom}: {row}."


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
    "Question",
    "SheetPreview",
    "TakenSheet",
    "answers_of",
    "changes",
    "for_whom_words",
    "members_on",
    "read_sheet",
    "suggested_start",
    "take_changes",
    "take_sheet",
]
