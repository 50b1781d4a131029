"""What a report says beside what was done: what the member trains for, and, where they choose it for this report, what limits them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from tracker.desk.ahead import goal_view
from tracker.desk.ahead.goal_words import by_words, what_words
from tracker.desk.base.roles import may
from tracker.desk.day import readiness, sore
from tracker.desk.maxes.words import first_up, full_day
from tracker.log import by_hand
from tracker.log import goals as log_goals
from tracker.log.by_hand import Entry
from tracker.log.goals import GoalRow, LiftAim
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import FEEL, SORE, Log
from tracker.wording import counted

SAID = {sore.LIMITED: "Limited days", sore.ACHES: "Muscles ached", sore.ILL: "Ill"}


@may("change")
def goal_rows(log: Log, member: MemberRecord, first: date, last: date) -> tuple[tuple[str, str, str], ...]:
    """Say each goal that stood in a period: what, by when, and how it stands at the period's end."""
    with log.reading() as session:
        rows = [each for each in log_goals.goals(session, member.id) if each.made_on <= last]
    found: list[tuple[str, str, str]] = []
    for row in rows:
        if row.ended_on is None or row.ended_on >= first:
            of = row.aim.lift.title if isinstance(row.aim, LiftAim) else row.aim.score.piece.title
            found.append((f"{first_up(of)}, {what_words(row.aim)}", by_words(row.by), _stands(log, member, row, last)))
    return tuple(found)


def _stands(log: Log, member: MemberRecord, row: GoalRow, last: date) -> str:
    if row.ended is not None and row.ended_on is not None and row.ended_on <= last:
        return f"{row.ended} on {full_day(row.ended_on)}"
    view = goal_view.view_of(log, member, row, day=last)
    if view.reached is not None:
        return f"reached on {full_day(view.reached.day)}"
    if view.chance is None:
        return "open; too little is known to say how likely"
    return f"open; {round(view.chance * 100)} % likely" + (" by then" if row.by else "")


@may("change")
def limit_lines(log: Log, member_id: str, first: date, last: date) -> tuple[str, ...]:
    """Say what was sore, ill or limited in a period and what is marked as painful, and how the member said they were.

    Only the member can read it; whoever else asks gets nothing.
    """
    with log.reading() as session:
        entries = by_hand.said(session, member_id, [SORE, FEEL])
    return (*_limits(entries, first, last), *_feels(entries, first, last))


def _limits(entries: Sequence[Entry], first: date, last: date) -> Iterator[str]:
    spans: list[tuple[str, date, date | None]] = []
    began: dict[str, date] = {}
    for entry in entries:
        place = entry.said.get("place")
        if entry.kind != SORE or place not in sore.PLACES:
            continue
        if not entry.said.get("ended"):
            began.setdefault(place, date.fromisoformat(str(entry.said["day"])))
        elif place in began:
            over = date.fromisoformat(str(entry.said["day"])) if "day" in entry.said else entry.at.date()
            spans.append((place, began.pop(place), over))
    spans += [(place, since, None) for place, since in began.items()]
    for place, since, over in sorted(spans, key=lambda each: each[1]):
        if since <= last and (over is None or over >= first):
            what = SAID.get(place, f"Sore: {place}")
            yield f"{what}, from {full_day(since)}" + (f" to {full_day(over)}." if over else ", not over yet.")
    state = sore.state_of(entries)
    if state.painful:
        yield f"Marked as painful: {', '.join(sorted(state.painful))}."


def _feels(entries: Sequence[Entry], first: date, last: date) -> Iterator[str]:
    feels = [
        each
        for each in readiness.feels_of(each for each in entries if each.kind == FEEL)[0]
        if first <= each.day <= last
    ]
    for scale in readiness.SCALES:
        answers = [each.answers[scale] for each in feels if scale in each.answers]
        if answers:
            mean = sum(answers) / len(answers)
            worst, best = readiness.ENDS[scale]
            yield (
                f"{scale.capitalize()}, 1 ({worst}) to 5 ({best}): {mean:.1f} in the mean of {counted(len(answers), 'day')}, "
                f"lowest {min(answers)}."
            )
