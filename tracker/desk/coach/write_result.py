"""One result written into the coach's log, within an act: new sets and scores added, known ones passed, old ones withdrawn."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import cast

from tracker.conditioning.scores import Score
from tracker.conditioning.sides import both_sides
from tracker.desk.coach.fulfil import fulfil
from tracker.desk.day import log_set
from tracker.desk.people.people import check_day, check_free, clean_name, facts_of
from tracker.errors import BadInputError
from tracker.exchange.lift_title import named
from tracker.exchange.result import Result, ResultMax, ResultSet, piece_print, score_key, tidy
from tracker.limits import LEAST_BODY_KG, MOST_BODY_KG, MOST_RM
from tracker.log import members as log_members
from tracker.log import pieces as log_pieces
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import results as log_results
from tracker.log.records import Implement, LiftRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Act
from tracker.log.who import HERE, who
from tracker.units import Mass, check_load, plain

NEW = "new"  # in place of a member's id: a name that the coach confirmed as a new member's
WITHOUT_BODY = "it came without body mass"
BY_MEMBER = "left out by the member"


@dataclass(frozen=True, slots=True)
class TakenResult:
    """What became of one result."""

    member: str
    day: date
    new: int  # sets, scores and maxes
    known: int
    withdrawn: int  # brought by an older result, and not in this one any more
    rated: bool = False  # rating or minutes are other ones than before
    fulfils: str = ""  # which planned session, and how much of it
    newly: bool = False  # whether that is new
    member_id: str = ""

    @property
    def changed(self) -> bool:
        return bool(self.new or self.withdrawn or self.rated or self.newly)


def name_key(name: str) -> str:
    return tidy(name).casefold()


def id_named(act: Act, name: str) -> str | None:
    return next((each.id for each in log_members.members(act.session) if each.name == name), None)


def write_result(act: Act, result: Result, found: str) -> TakenResult:
    """Write one result; whatever is wrong with it is raised before the act ends, and takes all of it back."""
    check_day(result.day)
    if found == NEW:
        unit = result.sets[0].load.unit if result.sets else "kg"
        already = id_named(act, clean_name(result.member, "member"))  # the second result of a new member in one file
        if already is None and name_key(result.member) in {
            name_key(name) for _, name in log_members.names(act.session)
        }:
            what = f"There is a member {clean_name(result.member, 'member')} who does not share their log."
            raise BadInputError(what, where="member", mend="Ask them to share it under Preferences.")
        if already is None:
            check_free(clean_name(result.member, "member"), [name for _, name in log_members.names(act.session)])
        found = already or log_members.add_member(act, clean_name(result.member, "member"), unit).id
    member = log_members.member(act.session, found)
    if member is None:
        raise BadInputError("This member is not in the log any more.", where=result.member, mend="Choose again.")
    newest = log_results.newest_result(act.session, member.id, result.day)
    newer = newest is not None and result.as_of >= newest  # of the same moment: with body mass, or without
    news = [_new_set(act, member.id, result.day, each) for each in result.sets]
    fresh, gone, known = _sort_sets(act, member.id, result, news, newer=newer)
    fresh_scores, gone_scores, known_scores = _sort_scores(act, member.id, result, newer=newer)
    if newest and result.as_of < newest and (fresh or fresh_scores):
        what = f"It is of {result.as_of:%d %b %H:%M} UTC, and a newer one of {newest:%d %b %H:%M} UTC was taken before."
        raise BadInputError(what, where=f"{result.member}, {result.day.isoformat()}", mend="Ask for the newest one.")
    log_results.add_sets(act, member.id, result.day, fresh, result.as_of)
    for test in (each for each in fresh if each.kind == "test"):
        log_results.replace_max(act, member.id, result.day, test)
    log_results.add_scores(act, member.id, [_of_piece(act, member.id, each) for each in fresh_scores], result.as_of)
    log_results.withdraw(act, gone, gone_scores, result.as_of)
    new_maxes = [each for each in result.maxes if _add_max(act, member.id, each)]
    rated = (newest is None or result.as_of >= newest) and _rate(act, member.id, result)
    known += known_scores + len(result.maxes) - len(new_maxes)
    new, old = len(fresh) + len(fresh_scores) + len(new_maxes), len(gone) + len(gone_scores)
    fulfils, newly = fulfil(act, member.id, result.day)
    return TakenResult(member.name, result.day, new, known, old, rated, fulfils, newly, member.id)


def _add_max(act: Act, member_id: str, one: ResultMax) -> bool:
    """Add a rep-max unless it is known; whether it was added."""
    check_day(one.day)
    lift = _lift(act, member_id, one)
    if not 1 <= one.reps <= MOST_RM:
        raise BadInputError(f"A {one.reps}RM can't be.", where=one.lift, mend="Ask for the result again.")
    check_load(one.load, where=one.lift, assistance=lift.body)
    if log_results.max_known(act.session, member_id, lift.id, one.day, one.reps, one.load):
        return False
    log_rep_maxes.add_rep_max(act, member_id, lift.id, one.day, one.reps, one.load, one.source)
    return True


def _rate(act: Act, member_id: str, result: Result) -> bool:
    if result.rating is None and result.minutes is None:
        return False
    return log_results.rate(act, member_id, result.day, result.rating, result.minutes, result.as_of)


def _new_set(act: Act, member_id: str, day: date, one: ResultSet) -> NewSet:
    lift = _lift(act, member_id, one)
    body = one.body_mass if lift.body else None
    if body is not None and not LEAST_BODY_KG <= Mass(body, one.load.unit).kg <= MOST_BODY_KG:
        what = f"A body mass of {plain(body)} {one.load.unit} can't be."
        raise BadInputError(what, where=one.lift, mend="Ask for the result again.")
    left_out = BY_MEMBER if one.left_out else None
    side = True if one.per_side and not lift.per_side else None
    new = NewSet(lift.id, one.load, one.reps, one.rir, one.outcome, one.kind, body, left_out, per_side=side)
    if lift.body and body is None:
        known = log_results.body_mass_known(act.session, member_id, day, new)
        new = replace(new, body_mass=known, left_out=left_out or (None if known else WITHOUT_BODY))
    return log_set.check_set(new, lift)


def _lift(act: Act, member_id: str, one: ResultSet | ResultMax) -> LiftRecord:
    """Find the lift with its implement, or add it: the member's own, for only they have named it."""
    read, with_what = named(one.lift, one.implement.replace("unasked", ""))
    implement = cast("Implement", with_what or "unasked")
    known: dict[tuple[str, str], LiftRecord] = {}
    for each in log_members.lifts(act.session, member_id):
        known.setdefault((name_key(each.name), each.implement), each)
    found = known.get((name_key(read), implement)) or known.get((name_key(one.lift), one.implement))
    if found:
        return found
    name = clean_name(read, "lift").lower()
    return log_members.add_lift(
        act, name, implement, per_side=one.per_side, private_to=_own(member_id), **facts_of(name, implement)
    )


def _sort_sets(
    act: Act, member_id: str, result: Result, news: Sequence[NewSet], *, newer: bool
) -> tuple[list[NewSet], list[str], int]:
    """Part the sets of a result into new ones and known ones; and find those that an older result brought in vain."""
    keyed = [(log_results.origin_of(member_id, result.day, each), each) for each in news]
    known = log_results.sets_known(act.session, member_id, result.day, {key for key, _ in keyed})
    fresh = [each for key, each in keyed if _beyond(known, key)]
    held = Counter(key for key, _ in keyed)
    brought = log_results.sets_brought(act.session, member_id, result.day) if newer else ()
    gone = [each.id for each in brought if _beyond(held, each.key) and each.same]
    return fresh, gone, len(news) - len(fresh)


def _sort_scores(act: Act, member_id: str, result: Result, *, newer: bool) -> tuple[list[Score], list[str], int]:
    on_day = log_results.scores_on(act.session, member_id, result.day)
    known = Counter(score_key(score) for _, score, _, _ in on_day)
    fresh = [each for each in result.scores if _beyond(known, score_key(each))]
    held = Counter(map(score_key, result.scores))
    brought = [(key, score) for key, score, by_result, stands in on_day if by_result and stands] if newer else []
    gone = [key for key, score in brought if _beyond(held, score_key(score))]
    return fresh, gone, len(result.scores) - len(fresh)


def _beyond(counted: Counter[str], key: str) -> bool:
    """Take one of a kind off the count; whether there was none left to take."""
    counted[key] -= 1
    return counted[key] < 0


def _own(member_id: str) -> str | None:
    """Return to whom is private what a result brings that the gym does not have; where nobody signs in, nothing is."""
    return None if who().role == HERE.role else member_id


def _of_piece(act: Act, member_id: str, score: Score) -> tuple[str, Score]:
    """Find the piece that asks the same, of a pair on the side that was done, or add it as the member's own.

    Return its id, and the score with its side.
    """
    wanted = piece_print(score.piece)
    for row in log_pieces.pieces_for(act.session, member_id):
        if row.piece.title.casefold() != score.piece.title.casefold():
            continue
        done = next((each for each in both_sides(row.piece) if piece_print(each) == wanted), None)
        if done is not None:
            return row.id, replace(score, piece=replace(score.piece, side=done.side, yours=done.yours))
    clean_name(score.piece.title, "piece")
    tasks = tuple(replace(task, options=()) for task in score.piece.tasks)
    plainly = replace(score.piece, tasks=tasks, side="", yours="")
    return log_pieces.add_piece(act, plainly, private_to=_own(member_id)), score
