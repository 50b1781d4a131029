"""A session is handed to a class in one act: also to members who keep their log to themselves.

They get the plan in their calendar, and nothing of what they do comes back unless they share. One group of the class may be
given something else in its place.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.desk.base.roles import may
from tracker.desk.coach.classes import class_of
from tracker.desk.sheet.sheet_start import check_start, title_of
from tracker.desk.sheet.sheets import SheetPreview, free_title, kept_text, read_sheet, write_wave
from tracker.errors import BadInputError
from tracker.log import answers as log_answers
from tracker.log import classes as log_classes
from tracker.log import groups as log_groups
from tracker.log import members as log_members
from tracker.log import sheets as log_sheets
from tracker.log import waves as log_waves
from tracker.log.classes import ClassRecord
from tracker.log.sheets import WaveText
from tracker.log.unit_of_work import Act, Log
from tracker.log.who import HERE, PLAN, who
from tracker.wording import counted


@dataclass(frozen=True, slots=True)
class HandedOut:
    """What came of handing a session out."""

    title: str
    class_name: str
    started: date
    given: int  # members who have it now and had it not
    had: int  # members who had it already
    local: tuple[tuple[str, int], ...] = ()  # groups that do otherwise, and how many of each

    @property
    def words(self) -> str:
        said = f"{self.title} is in the calendar of {counted(self.given, 'member')} of {self.class_name}"
        said += f" from {self.started.isoformat()}"
        said += "".join(f", {many} of {name} with their own" for name, many in self.local)
        return said + (f"; {self.had} had it already" if self.had else "")


@may("lead", grant=PLAN)
def hand_out(
    log: Log,
    class_id: str,
    text: str,
    start: date | None = None,
    *,
    local: Mapping[str, str] | None = None,
    by: str | None = None,
    today: date | None = None,
    answers: Mapping[str, str] | None = None,
) -> HandedOut:
    """Put a sheet into the calendars of all members of a class.

    Handed out again it reaches whoever is new in the class.

    Args:
        log: The log.
        class_id: The class.
        text: The sheet.
        start: The day of its first session; without it the one that the sheet names.
        local: For groups of the class that do otherwise: the sheet of each, by the group's id.
        by: In whose history it stands, where nobody signs in; else it is the coach's own.
        today: The day it is.
        answers: Answers to what can be read in two ways, by key.

    Raises:
        SheetErrors: if a sheet can't be read.
        BadInputError: if nobody is in the class, all have it, or it changes an earlier sheet; nothing is written then.
    """
    today, whose = today or start, by if who().role == HERE.role else who().member_id
    preview = read_sheet(log, text, today=today, start=start, answers=answers, by=whose)
    title = title_of(preview.sheet)
    if preview.changes:
        raise BadInputError(
            f"There is an earlier sheet {title}, and this one says otherwise.", where="sheet",
            mend="Take the changes on the page Sheet, or give it another title.",
        )  # fmt: skip
    first = check_start(preview.sheet, start)
    others = {
        group_id: read_sheet(log, said, today=today, start=first, answers=answers, by=whose)
        for group_id, said in (local or {}).items()
    }
    with log.act(f"gave {title}", whose) as act:
        found = class_of(act.session, class_id)
        everybody = log_classes.everybody(act.session, class_id)
        if not everybody:
            raise BadInputError(
                f"Nobody is in the class {found.name}.", where="class", mend="Put members into it first."
            )
        done = _Handing(act, found, everybody, first, whose, preview.earlier)
        apart = _apart(act, found, title, first)
        counts: list[tuple[str, int]] = []
        for group_id, each in others.items():
            name, many = done.to_group(group_id, each, title, kept_text((local or {})[group_id], each, today), apart)
            counts.append((name, many))
        wave_id = preview.earlier.id if preview.earlier else ""
        if not wave_id and everybody - apart:
            title = free_title(act.session, title, first)
            wave_id = write_wave(act, preview.sheet, title, kept_text(text, preview, today))
        had, given = done.give(wave_id, everybody - apart) if wave_id else (0, 0)
        all_given = given + sum(many for _, many in counts)
        if not all_given:
            raise BadInputError(
                f"All of {found.name} have {title} already.", where="class", mend="Nothing is to be done."
            )
        act.words = f"gave {title} to {found.name}: {counted(all_given, 'member')}"
        if whose is not None:
            log_answers.keep(act, whose, preview.answers)
    return HandedOut(title, found.name, first, all_given, had, tuple(counts))


def _apart(act: Act, found: ClassRecord, title: str, first: date) -> set[str]:
    """Return who of the class was given something else in place of this before."""
    apart: set[str] = set()
    for each in log_classes.handed(act.session, found.id):
        if each.started == first and each.group and each.wave.startswith(_local_title(each.group, title)):
            apart |= log_classes.have(act.session, each.wave_id)
    return apart


def _local_title(group: str, title: str) -> str:
    """Name what one group does: the group comes first, so that it is never taken for the sheet itself."""
    return f"{group}: {title}"


@dataclass(frozen=True, slots=True)
class _Handing:
    """One act of handing out."""

    act: Act
    found: ClassRecord
    everybody: frozenset[str]
    first: date
    whose: str | None
    earlier: WaveText | None  # the sheet itself, where it was handed out before

    def to_group(self, group_id: str, preview: SheetPreview, title: str, text: str, apart: set[str]) -> tuple[str, int]:
        """Give one group its own; note in `apart` who that is, and return the group's name and how many were given it."""
        session = self.act.session
        group = next((each for each in log_groups.groups(session) if each.id == group_id), None)
        theirs = log_groups.everybody(session, group_id) & self.everybody
        if group is None or not theirs:
            name = group.name if group else "this group"
            raise BadInputError(
                f"Nobody of {name} is in the class.", where="group", mend="Choose a group of the class."
            )
        theirs = theirs - apart - self._begun()
        if not theirs:
            return group.name, 0
        name = free_title(session, _local_title(group.name, title), self.first)
        wave_id = write_wave(self.act, preview.sheet, name, text)
        if self.earlier:
            log_classes.end_for(self.act, self.earlier.id, theirs, self.first - timedelta(days=1))
        _, given = self.give(wave_id, theirs, group_id)
        apart |= theirs
        return group.name, given

    def _begun(self) -> frozenset[str]:
        """Return who has begun the sheet itself already, and so keeps it."""
        steps = self.earlier.step_ids if self.earlier else ()
        return frozenset(each for step in steps for each in log_sheets.begun_members(self.act.session, step))

    def give(self, wave_id: str, members: frozenset[str] | set[str], group_id: str | None = None) -> tuple[int, int]:
        """Put a wave into calendars; return how many had it already, and how many have it now."""
        have = log_classes.have(self.act.session, wave_id)
        for member_id in sorted(members - have):
            log_waves.start_wave(self.act, member_id, wave_id, self.first)
            if member_id != self.whose:
                self.act.tell(member_id, f"was given a session by the coach, with the class {self.found.name}")
        names = dict(log_members.names(self.act.session))
        by = who().name or names.get(self.whose or "", "")
        log_classes.hand(self.act, self.found.id, wave_id, self.first, by, group_id)
        return len(members & have), len(members - have)


@may("lead")
def handed(log: Log, class_id: str) -> Sequence[log_classes.Handed]:
    """List what was handed to a class, the newest first: from when on, and by whom."""
    with log.reading() as session:
        class_of(session, class_id)
        return log_classes.handed(session, class_id)
