"""A member's report of a period, made on the member's own act and handed out as text: nothing of it is kept or sent."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby, pairwise

from tracker.conditioning.compare import beside
from tracker.conditioning.swaps import swap_words
from tracker.conditioning.told import told_words
from tracker.desk.base.roles import may
from tracker.desk.coach.report_more import goal_rows, limit_lines
from tracker.desk.coach.send_result import file_word, result_set
from tracker.desk.day.today import scene_of
from tracker.desk.maxes import trend as trends
from tracker.desk.maxes.estimates import history
from tracker.desk.maxes.references import ago, references
from tracker.desk.maxes.trend import TrendView, as_mass
from tracker.errors import BadInputError
from tracker.exchange.report import Report, ReportLift, ReportPiece, report_page
from tracker.exchange.report_chart import BandOn, MaxOn
from tracker.exchange.result_line import sets_words
from tracker.log import members as log_members
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log.records import LiftRecord, MemberRecord, SessionRow, SetRow
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Log
from tracker.safety import LAY_OFF_DAYS, NO_CLEARANCE, Caution, for_working_set
from tracker.units import Mass, added

SHOWN_REPS = (1, 3, 5, 8)  # rep-maxes in the table of estimates, with the one that is drawn
FOOT = (
    "An estimate is what the sets so far make believable of the level on a day, never a fact: in four of five cases the true level is meant to lie in the band. A tested max is a fact of its day.",
    "Loads are the whole bar, each implement, or what is added to the body. Ramp sets are left out; 6 left is six or more.",
    "Ratings are the member's own, of the whole session, 0 to 10. Rating x minutes is in points: an hour at 5 of 10 is 300.",
)


@dataclass(frozen=True, slots=True)
class Period:
    """All days from `first` to `last`, both included."""

    first: date
    last: date

    def __post_init__(self) -> None:
        if self.first > self.last:
            raise BadInputError("The period ends before it begins.", where="period", mend="Swap the two days.")


@may("change")
def make_report(
    log: Log, member_id: str, period: Period, *, today: date, with_notes: bool = False, with_limits: bool = False
) -> tuple[str, str]:
    """Return a name for the file of a member's report, and its HTML.

    Notes, and what was sore, ill or limited, go along only where the member says so for this report. Estimates are those that the log holds today, of the days in the period.

    Raises:
        BadInputError: if there is no such member, or nothing was done in the period.
    """
    report = report_of(log, member_id, period, today=today, with_notes=with_notes, with_limits=with_limits)
    name = f"tidemark-report-{file_word(report.member)}-{period.first.isoformat()}-{period.last.isoformat()}.html"
    return name, report_page(report)


@may("change")
def report_of(
    log: Log, member_id: str, period: Period, *, today: date, with_notes: bool = False, with_limits: bool = False
) -> Report:
    """Gather a report as plain data; see `make_report`."""
    with log.reading() as session:
        member = log_members.member(session, member_id)
        sets = log_sets.sets_of(session, member_id, since=period.first, until=period.last)
        scores = log_scores.scores_of(session, member_id, until=period.last)
        sessions = log_sessions.sessions_of(session, member_id, until=period.last)
    if member is None:
        raise BadInputError("This member is not in the log.", where="member", mend="Choose one from the list.")
    work = tuple(row for row in sets if row.kind != "ramp")
    mine = tuple(row for row in scores if row.score.day >= period.first)
    held = tuple(row for row in reversed(sessions) if row.day >= period.first)
    if not work and not mine:
        raise BadInputError("Nothing was done in this period.", where="period", mend="Choose a longer one.")
    lifts = dict.fromkeys(row.lift for row in sorted(work, key=lambda row: row.lift.title))
    return Report(
        member.name, period.first, period.last, f"Made by {member.name} on {_day(today)} with Tidemark.",
        tuple(_summary(work, mine, held)),
        tuple(_lift(log, member, lift, period, [row for row in work if row.lift == lift]) for lift in lifts),
        tuple(_pieces(scores, period.first)), tuple(_session(row, with_notes=with_notes) for row in held if _says(row, work, mine)),
        with_notes, tuple(_cautions(log, member, period)), FOOT, _breaks(work, mine),
        goals=tuple(goal_rows(log, member, period.first, period.last)),
        limits=tuple(limit_lines(log, member_id, period.first, period.last)) if with_limits else (),
        with_limits=with_limits,
    )  # fmt: skip


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"


def _says(row: SessionRow, sets: Sequence[SetRow], scores: Sequence[ScoreRow]) -> bool:
    """Whether anything is known of a session: an empty one is no session."""
    days = {each.day for each in sets} | {each.score.day for each in scores}
    return row.day in days or row.rating is not None or bool(row.note)


def _summary(sets: Sequence[SetRow], scores: Sequence[ScoreRow], held: Sequence[SessionRow]) -> Iterable[str]:
    days = sorted({row.day for row in sets} | {row.score.day for row in scores})
    missed, cut = (sum(row.outcome == outcome for row in sets) for outcome in ("missed", "cut"))
    yield f"Trained on {_many(len(days), 'day')}: {_many(len(sets), 'set')} ({missed} missed, {cut} cut short), {_many(len(scores), 'score')}."
    rated = [row.rating for row in held if row.rating is not None]
    if rated:
        yield f"{_many(len(rated), 'session')} rated, between {min(rated)} and {max(rated)} of 10."
    for one, other in _breaks(sets, scores):
        yield f"No training logged for {(other - one).days} days, from {_day(one)} to {_day(other)}."
    out = sum(row.left_out is not None for row in sets)
    if out:
        yield f"{_many(out, 'set')} left out of the estimates by the member."


def _breaks(sets: Sequence[SetRow], scores: Sequence[ScoreRow]) -> tuple[tuple[date, date], ...]:
    days = sorted({row.day for row in sets} | {row.score.day for row in scores})
    return tuple((one, other) for one, other in pairwise(days) if (other - one).days >= LAY_OFF_DAYS)


def _many(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def _lift(log: Log, member: MemberRecord, lift: LiftRecord, period: Period, rows: Sequence[SetRow]) -> ReportLift:
    reps = trends.usual_reps(log, member.id, lift)
    view = trends.trend(log, member, lift, reps=reps, day=period.last)
    points = [
        BandOn(point.day, point.band.estimate, point.band.low80, point.band.high80)
        for point in view.points
        if period.first <= point.day <= period.last
    ]
    facts = [each for each in view.facts if period.first <= each.day <= period.last]
    return ReportLift(
        lift.title, reps, view.unit, tuple(points), tuple(MaxOn(f.day, f.load, f.source) for f in facts if f.reps == reps),
        _said(points, reps, view), tuple(_estimates(view, points)), tuple(_tested(log, member, lift, period)),
        tuple(
            (_day(day), sets_words([result_set(row) for row in group]))
            for day, group in groupby(rows, key=lambda row: row.day)
        ),
    )  # fmt: skip


def _said(points: Sequence[BandOn], reps: int, view: TrendView) -> str:
    if not points:
        return f"Nothing is known of the {reps}RM in this period."
    ends = [
        f"{_load(as_mass(point.estimate, view.unit), view.lift)} on {_day(point.day)}"
        for point in (points[0], points[-1])
    ]
    return f"Estimated {reps}RM: {ends[0]}." if len(points) == 1 else f"Estimated {reps}RM: {ends[0]}, {ends[1]}."


def _estimates(view: TrendView, points: Sequence[BandOn]) -> Iterable[tuple[str, str, str]]:
    """Estimates at the end of the period; only where it is the newest state, since older ones are drawn."""
    if not points or view.points[-1].day != points[-1].day:
        return
    for reps, band in view.all_now:
        if reps in SHOWN_REPS or reps == view.reps:
            low, middle, high = (
                _load(as_mass(each, view.unit), view.lift) for each in (band.low80, band.estimate, band.high80)
            )
            yield f"{reps}RM", f"about {middle}", f"{low.removesuffix(f' {view.unit}')} to {high}"


def _tested(log: Log, member: MemberRecord, lift: LiftRecord, period: Period) -> Iterable[tuple[str, str, str]]:
    known = history(log, member.id, lift)
    facts = trends.trend(log, member, lift, day=period.last).facts
    for reps in sorted({fact.reps for fact in facts}):
        for each in references(known, reps, period.last, member.unit):
            if each.source != "estimated":
                verdict = each.holds.words if each.holds else ago(each.age_days(period.last))
                yield _day(each.day), f"{each.source} {reps}RM {_load(each.load, lift)}", verdict


def _load(load: Mass, lift: LiftRecord) -> str:
    return added(load) if lift.body else str(load)


def _pieces(rows: Sequence[ScoreRow], since: date) -> Iterable[ReportPiece]:
    """Say the scores of the period; what is best is so among all up to its end."""
    by_title: dict[str, list[ScoreRow]] = {}
    for row in rows:
        by_title.setdefault(row.score.piece.title, []).append(row)
    for title, mine in sorted(by_title.items()):
        if mine[-1].score.day < since:
            continue
        marks = [each for each in beside(mine[-1].score, [row.score for row in mine]) if each.score.day >= since]
        lines = [
            (_day(each.score.day), f"{told_words(each.score)}{f' ({each.best} of the like ones)' if each.best else ''}", "; ".join(dict.fromkeys((*swap_words(each.score), *each.differs))))
            for each in marks
        ]  # fmt: skip
        yield ReportPiece(title, tuple(lines))


def _session(row: SessionRow, *, with_notes: bool) -> tuple[str, ...]:
    rating = "" if row.rating is None else str(row.rating)
    minutes = "" if row.minutes is None else f"{row.minutes} min"
    product = f"{row.rating * row.minutes} points" if row.rating is not None and row.minutes else ""
    return (_day(row.day), minutes, rating, product, *((row.note,) if with_notes else ()))


def _cautions(log: Log, member: MemberRecord, period: Period) -> Iterable[tuple[str, str]]:
    """What bears on the person on the day after the period; and that nothing here clears anybody."""
    scene = scene_of(log, member, None, period.last + timedelta(days=1), {})
    found: tuple[Caution, ...] = (*for_working_set("", scene.person, scene.around), NO_CLEARANCE)
    for each in found:
        yield f"{each.text} {each.advice}".strip(), each.basis
