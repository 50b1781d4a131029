"""A coach writes down what a member told them: the session as planned or a part of it, the score, how hard it was.

It stands in the member's history as the coach's word, in the session's note as well, and the member can mend or take back
all of it. Only for members who share their log; what they keep for themselves is not read for it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.conditioning.scores import Score
from tracker.conditioning.told import told_words
from tracker.conditioning.words import parse_score
from tracker.desk.base.roles import may
from tracker.desk.day.from_memory import as_said, is_sayable
from tracker.desk.day.lines import PlannedLine, lines_on, read_grounds
from tracker.desk.day.scene import read_scene
from tracker.desk.day.session_said import check_ending
from tracker.desk.day.step_state import finish_if_done
from tracker.desk.people import places
from tracker.desk.people.people import check_day
from tracker.errors import BadInputError
from tracker.limits import MOST_NOTE
from tracker.log import day_marks, history
from tracker.log import members as log_members
from tracker.log import pieces as log_pieces
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.pieces import PieceRow
from tracker.log.records import ChangeRow, MemberStepRow
from tracker.log.undo import undo
from tracker.log.unit_of_work import Log
from tracker.log.who import RESULTS, who
from tracker.units import check_load
from tracker.wording import counted

LOOKED_AT = 30  # acts of a member, the newest
AROUND = timedelta(days=7)  # a message is about a session of these days; design choice


@dataclass(frozen=True, slots=True)
class Told:
    """A session that a message may be about: its open sets that can be logged as planned, and its pieces."""

    step: MemberStepRow
    lines: tuple[PlannedLine, ...]
    pieces: tuple[PieceRow, ...]


@may("lead")
def sessions_of(log: Log, member_id: str, day: date) -> tuple[MemberStepRow, ...]:
    """List the planned sessions of a member that a message of a day may be about, the nearest to the day first."""
    with log.reading() as session:
        steps = log_waves.member_steps(session, member_id)
    near = [each for each in steps if not each.own and each.state != "skipped" and abs(each.due - day) <= AROUND]
    return tuple(sorted(near, key=lambda each: (abs(each.due - day), each.state != "planned", each.due)))


@may("lead")
def told_of(log: Log, member_id: str, day: date, member_step_id: str) -> Told:
    """Read what of a session is still to be said.

    Raises:
        BadInputError: if the member or the session is not there any more.
    """
    with log.reading() as session:
        member = log_members.member(session, member_id)
        step = next((each for each in log_waves.member_steps(session, member_id) if each.id == member_step_id), None)
        if member is None or step is None:
            raise BadInputError("This session is not planned any more.", where="session", mend="Choose another one.")
        scene = read_scene(session, log.name, member, places.read_place(session, member, day), day)
        grounds = read_grounds(session, scene, step, log_sets.sets_of_step(session, member_id, step.id, day))
        pieces = log_pieces.pieces_of_step(session, step.step_id, member_id)
    return Told(step, tuple(line for line in lines_on(scene, grounds) if is_sayable(line)), pieces)


@may("lead", grant=RESULTS)
def write_down(
    log: Log,
    member_id: str,
    day: date,
    member_step_id: str,
    *,
    sets: int | None = None,
    scores: Mapping[str, str] | None = None,
    rating: int | None = None,
    minutes: int | None = None,
    message: str = "",
) -> str:
    """Write down what a member told, in one act, and return what the log says of it.

    Args:
        log: The log.
        member_id: Whose session it is.
        day: The day on which it was done.
        member_step_id: Which planned session it was.
        sets: How many of its open sets were done as planned, from the first; None for all of them.
        scores: For the id of a piece its score in words.
        rating: How hard it was, 0 to 10.
        minutes: How long it took.
        message: The member's own words, for the note.

    Raises:
        BadInputError: if nothing is said, or something of it can't be; then nothing is written.
    """
    check_day(day)
    check_ending(rating, minutes, message)
    told = told_of(log, member_id, day, member_step_id)
    lines = told.lines if sets is None else told.lines[: max(sets, 0)]
    with log.reading() as session:
        member = log_members.member(session, member_id)
        masses = log_members.body_masses(session, member_id)
    assert member is not None
    new = [as_said(line, masses, day) for line in lines]
    read: list[tuple[PieceRow, Score]] = []
    for row in told.pieces:
        if text := (scores or {}).get(row.id, "").strip():
            if row.piece.paired:
                mend = "Ask the member to choose it once, on the page Pieces."
                raise BadInputError(
                    "Nobody knows which of its two numbers is theirs.", where=row.piece.title, mend=mend
                )
            score = parse_score(row.piece, day, text, unit=member.unit)
            if score.load is not None:
                check_load(score.load, where=row.piece.title)
            read.append((row, score))
    if not new and not read and rating is None and minutes is None:
        raise BadInputError(
            "Nothing of it is said yet.", where="message", mend="Say the sets, a score, or how hard it was."
        )
    said = [counted(len(new), "set")] if new else []
    said += [f"{row.piece.title}: {told_words(score)}" for row, score in read]
    said += [f"rated {rating} of 10"] if rating is not None else []
    said += [f"{minutes} min"] if minutes is not None else []
    words = f"{told.step.title}, {'; '.join(said)}"
    with log.act(f"{_began()} {words}", member_id) as act:
        for each in new:
            log_sets.add_set(act, member_id, day, each, place_id=member.place_id)
        for row, score in read:
            log_scores.add_score(act, member_id, row.id, score, member_step_id=told.step.id, place_id=member.place_id)
        of_day = log_sessions.session_of_step(act, member_id, day, told.step.id, place_id=member.place_id)
        coach = _coach()
        note = f"Written down by {coach[:1].lower()}{coach[1:]}{f': “{message.strip()}”' if message.strip() else '.'}"
        log_sessions.change_session(
            act, of_day.id, rating=rating if rating is not None else of_day.rating, minutes=minutes or of_day.minutes,
            note="\n".join(part for part in (of_day.note, note) if part)[:MOST_NOTE],
        )  # fmt: skip
        if rating is not None:
            day_marks.put(act, member_id, day, told.step.id, "answered")
        finish_if_done(act, member_id, told.step.id)
        if read and not told.step.sets:
            log_waves.set_state(act, told.step.id, "done")
    return f"{member.name}: {words}"


@may("lead")
def newest_told(log: Log, member_id: str) -> ChangeRow | None:
    """Return the newest act by which whoever reads this wrote down what a member told, where it still stands; else None."""
    with log.reading() as session:
        mine = (each for each in history.acts(session, member_id, LOOKED_AT) if each.words.startswith(_began()))
        newest = next(mine, None)
    return None if newest is None or newest.undone else newest


@may("lead", grant=RESULTS)
def take_back(log: Log, member_id: str, act_id: str) -> str:
    """Take back what whoever asks wrote down of what a member told, and return its words; nothing else of anybody's.

    Raises:
        BadInputError: if it was taken back before, or is not theirs.
        TidemarkError: if something of it was changed since: then the member mends it.
    """
    newest = newest_told(log, member_id)
    if newest is None or newest.act_id != act_id:
        raise BadInputError(
            "This was not written down by you, or was taken back.", where="message", mend="Ask the member to edit it."
        )
    undo(log, act_id)
    return newest.words


def _began() -> str:
    return f"{_coach()} wrote down what you told:"


def _coach() -> str:
    """Name whoever writes it down, as the member reads it."""
    person = who()
    return f"Coach {person.name}" if person.leads and person.name else "The coach"
