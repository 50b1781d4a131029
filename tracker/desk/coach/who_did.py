"""Who did the session of a class: counted over all, by name of those alone who share with the one who asks."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby
from typing import Literal

from tracker.conditioning.told import told_words
from tracker.desk.base.roles import may
from tracker.desk.coach.classes import class_of
from tracker.desk.maxes.words import load_words
from tracker.log import classes as log_classes
from tracker.log import members as log_members
from tracker.log import pieces as log_pieces
from tracker.log import scores as log_scores
from tracker.log import sets as log_sets
from tracker.log import sheets as log_sheets
from tracker.log import waves as log_waves
from tracker.log.records import MemberRecord, MemberStepRow, SetRow
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Log, Reader

How = Literal["did", "option", "began", "left out", "silent"]
SAID: dict[How, str] = {
    "did": "did it", "option": "another option", "began": "began it", "left out": "left it out", "silent": "silent",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class ClassDay:
    """A session that a class was given: its day and its title."""

    day: date
    title: str


@dataclass(frozen=True, slots=True)
class Did:
    """What is known of one member who shares."""

    member: MemberRecord
    how: How
    results: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WhoDid:
    """Who did a session; `rows` are members who share, `unseen` how many of the class don't, of whom nothing is known."""

    class_name: str
    session: ClassDay
    rows: tuple[Did, ...]
    unseen: int

    @property
    def total(self) -> int:
        return len(self.rows) + self.unseen

    @property
    def words(self) -> str:
        """Say it in one line: 27 of 40 did it, 6 with another option, 7 silent or private."""
        count = Counter(each.how for each in self.rows)
        said = [f"{count['did']} of {self.total} did it"]
        said += [f"{count['option']} with another option"] if count["option"] else []
        said += [f"{count['began']} began it"] if count["began"] else []
        said += [f"{count['left out']} left it out"] if count["left out"] else []
        if quiet := count["silent"] + self.unseen:
            said.append(f"{quiet} silent or private" if self.unseen else f"{quiet} silent")
        return ", ".join(said)

    def text(self, *, names: bool) -> str:
        """Write it to be sent on: the numbers, and with `names` a line for each member who shares with the coach."""
        lines = [f"{self.class_name}, {self.session.title}, {self.session.day.isoformat()}: {self.words}."]
        for each in self.rows if names else ():
            results = f": {'; '.join(each.results)}" if each.results else ""
            lines.append(f"{each.member.name}, {SAID[each.how]}{results}")
        return "\n".join(lines)


@may("lead")
def class_days(log: Log, class_id: str) -> tuple[ClassDay, ...]:
    """List the sessions that a class was given, the newest first."""
    with log.reading() as session:
        class_of(session, class_id)
        return _days(session, class_id)


@may("lead")
def who_did_it(log: Log, class_id: str, day: date, *, today: date) -> WhoDid:
    """Say who of a class did the session that was planned for a day, whenever they did it up to `today`.

    Raises:
        BadInputError: if the class is gone.
    """
    with log.reading() as session:
        found = class_of(session, class_id)
        titles = [each for each in _days(session, class_id) if each.day == day]
        waves = _waves_on(session, class_id, day)
        given = frozenset[str]().union(*(log_classes.have(session, each) for each in waves))
        members = [each for each in log_members.members(session) if each.id in given]
        rows = tuple(_did(session, each, waves, day, max(today, day)) for each in members)
    title = titles[0] if titles else ClassDay(day, "no session")
    return WhoDid(found.name, title, rows, len(given) - len(rows))


def _days(session: Reader, class_id: str) -> tuple[ClassDay, ...]:
    titles: dict[date, str] = {}
    for each in log_classes.handed(session, class_id):
        for offset, title in log_sheets.offsets(session, each.wave_id):
            day = each.started + timedelta(days=offset)
            if day not in titles or not each.group:
                titles[day] = title or each.wave
    return tuple(ClassDay(day, titles[day]) for day in sorted(titles, reverse=True))


def _waves_on(session: Reader, class_id: str, day: date) -> frozenset[str]:
    return frozenset(
        each.wave_id
        for each in log_classes.handed(session, class_id)
        if any(each.started + timedelta(days=offset) == day for offset, _ in log_sheets.offsets(session, each.wave_id))
    )


def _did(session: Reader, member: MemberRecord, waves: frozenset[str], day: date, until: date) -> Did:
    mine = [
        step for step in log_waves.member_steps(session, member.id) if step.wave_id in waves and step.planned_due == day
    ]
    sets = [row for step in mine for row in log_sets.sets_of_step(session, member.id, step.id, until)]
    sets = [row for row in sets if row.kind != "ramp"]
    scores = [row for step in mine for row in log_scores.scores_of_step(session, member.id, step.id, until)]
    return Did(member, _how(session, mine, sets, scores), _results(sets, scores))


def _how(session: Reader, steps: Sequence[MemberStepRow], sets: Sequence[SetRow], scores: Sequence[ScoreRow]) -> How:
    """Tell how a member did it; with another option means another lift than the first one asked, or a piece with swaps."""
    if not sets and not scores:
        states = {step.state for step in steps}
        return "did" if "done" in states else "left out" if "skipped" in states else "silent"
    asked = sum(planned.sets for step in steps for planned in step.sets)
    pieces = {row.id for step in steps for row in log_pieces.pieces_of_step(session, step.step_id)}
    whole = len(sets) >= asked and pieces <= {row.piece_id for row in scores}
    if not whole and all(step.state == "planned" for step in steps):
        return "began"
    written = {planned.lift.id for step in steps for planned in step.sets}
    otherwise = any(row.lift.id not in written for row in sets) or any(not row.score.as_prescribed for row in scores)
    return "option" if otherwise else "did"


def _results(sets: Sequence[SetRow], scores: Sequence[ScoreRow]) -> tuple[str, ...]:
    """Say the heaviest made set of each lift, and each score."""
    said: list[str] = []
    for lift, rows in groupby(sorted(sets, key=lambda row: row.lift.title), key=lambda row: row.lift):
        made = [row for row in rows if row.reps]
        if made:
            best = max(made, key=lambda row: (row.load.kg, row.reps))
            said.append(f"{lift.name} {best.reps} × {load_words(best.load, lift)}")
    return (*said, *(f"{row.score.piece.title} {told_words(row.score)}" for row in scores))
