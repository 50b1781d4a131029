"""Best marks: what was beaten last, then a board by lift (1 to 12 repetitions, done and estimated apart) and by piece."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date
from html import escape

import streamlit as st

from tracker.charts.curve import curve_figure
from tracker.charts.records import CurvePoint
from tracker.charts.words import estimated
from tracker.components.frame import as_file, plot
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up, load_words
from tracker.components.maxes.lift_glance import short_day
from tracker.desk.maxes import marks
from tracker.desk.maxes.marks import CHART_SOURCE, Beaten, BestMark
from tracker.desk.pieces.best_pieces import BestPiece
from tracker.log.records import LiftRecord
from tracker.prescription.technique import most_reps_shown
from tracker.strength.records import REP_MAXES
from tracker.wording import counted

GAP = 0.05  # of the estimate: a smaller gap is what two good days differ by; own choice
NEWEST = 3  # marks in the list of what was beaten last


def beaten(lifts: Sequence[Beaten], pieces: Sequence[BestPiece], today: date) -> None:
    """Say what was beaten last, the newest first."""
    found = [(each.day, *_lift_words(each, today)) for each in lifts]
    found += [
        (each.day, each.title, timed(each.said), f"before: {timed(each.before)}, {short_day(each.before_on, today)}")
        for each in pieces
        if each.before_on is not None and not each.perhaps
    ]
    found.sort(key=lambda each: each[0], reverse=True)
    if not found:
        return
    rows = "".join(
        f'<div role="listitem"><time>{short_day(day, today)}</time>'
        f"<p>{escape(what)}<b>{escape(now)}</b><span>{escape(before)}</span></p></div>"
        for day, what, now, before in found[:NEWEST]
    )
    st.html(f'<p class="over">Beaten last</p><div class="beaten" role="list">{rows}</div>')


def _lift_words(each: Beaten, today: date) -> tuple[str, str, str]:
    now = f"{each.reps} × {load_words(each.load, each.lift)}"
    return (
        first_up(each.lift.title),
        now,
        f"before: {load_words(each.before, each.lift)}, {short_day(each.before_on, today)}",
    )


def lift(now: Here, chosen: LiftRecord) -> None:
    """Draw the board of one lift: done with its day and what it beat, estimated apart."""
    known = marks.best_marks(now.log, now.member, chosen, until=now.today)
    most = max((mark.done_reps or 0 for mark in known), default=0)
    most = most_reps_shown(chosen.name, max(most, 1), most=max(REP_MAXES))
    shown = [mark for mark in known if mark.reps <= most and (mark.done or mark.estimated)]
    if not shown:
        st.write("Nothing is known of this lift yet: log a set, and its marks stand here.")
        return
    last = max((mark.reps for mark in shown if mark.done), default=shown[0].reps)
    in_sight, further = (
        [mark for mark in shown if mark.reps <= last],
        [mark for mark in shown if mark.reps > last],
    )
    st.html(_board(in_sight, now, chosen))
    if any(_far_below(mark, now) for mark in in_sight):
        st.caption(
            "Done lies well below estimated where no hard set of so many reps is logged; the estimate is of all your sets."
        )
    if further:
        names = dict.fromkeys(f"{each.reps}RM" for each in (further[0], further[-1]))
        with st.expander(f"{' to '.join(names)}: estimated only", key="marks_further", icon=":material/more_horiz:"):
            st.html(_board(further, now, chosen))
    box = st.expander(
        "Drawn, beside a common chart", key="marks_curve_box", icon=":material/show_chart:", on_change="rerun"
    )
    if box.open:  # what nobody looks at is not drawn
        with box:
            _curve(now, chosen, known, most)
    with st.expander("What counts", key="marks_how", icon=":material/help:"):
        st.caption(
            "Done: the most load of a set that was made, or of a tested max; a set of five also counts for four and fewer. Of "
            "a missed set the repetitions count that were made; a set left out counts for nothing. Estimated best: the highest "
            "that the estimate stood on any day, seen from now, later sets too. It is no test."
        )
        as_file.save([_plain(mark, now, chosen) for mark in shown], f"{chosen.title} best marks", key="marks_csv")


def _far_below(mark: BestMark, now: Here) -> bool:
    """Whether what was done is so far below the estimate that it wants a word."""
    if mark.done is None or mark.estimated is None or mark.estimated.estimate <= 0:
        return False
    return float(mark.done.to(now.member.unit)) < mark.estimated.estimate * (1 - GAP)


def _board(marks: Sequence[BestMark], now: Here, chosen: LiftRecord) -> str:
    """Draw rows of marks; a column of what was done stands only where something was."""
    done = any(mark.done for mark in marks)
    heads = ("Reps", *(("Done",) if done else ()), "Estimated best")
    head = "".join(f'<th scope="col">{each}</th>' for each in heads)
    rows = "".join(_row(mark, now, chosen, done=done) for mark in marks)
    return f'<table class="marks"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>'


def _row(mark: BestMark, now: Here, chosen: LiftRecord, *, done: bool) -> str:
    about = ""
    if mark.estimated is not None and mark.estimated_on is not None:
        load = estimated(mark.estimated.estimate, now.member.unit, body=chosen.body)
        when = "today" if mark.estimated_on == now.today else short_day(mark.estimated_on, now.today)
        about = f"about {escape(load)}<span>{when}</span>"
    first = f"<td>{_done(mark, now, chosen) or '–'}</td>" if done else ""
    return f'<tr><th scope="row">{mark.reps}</th>{first}<td>{about or "–"}</td></tr>'


def _done(mark: BestMark, now: Here, chosen: LiftRecord) -> str:
    if mark.done is None or mark.done_on is None:
        return ""
    load, when = escape(load_words(mark.done, chosen)), short_day(mark.done_on, now.today)
    if mark.done_reps != mark.reps:  # the row of the set itself says the rest
        return f"{load}<span>{when}, a set of {mark.done_reps}</span>"
    before = ""
    if mark.before is not None and mark.before_on is not None:
        before = f"<span>beat {escape(load_words(mark.before, chosen))}, {short_day(mark.before_on, now.today)}</span>"
    return f"<b>{load}</b><span>{when}</span>{before}"


def _plain(mark: BestMark, now: Here, chosen: LiftRecord) -> dict[str, str]:
    known = mark.estimated
    return {
        "repetitions": str(mark.reps),
        "done": load_words(mark.done, chosen) if mark.done else "",
        "done on": mark.done_on.isoformat() if mark.done_on else "",
        "beat": load_words(mark.before, chosen) if mark.before else "",
        "of": mark.before_on.isoformat() if mark.before_on else "",
        "estimated best": estimated(known.estimate, now.member.unit, body=chosen.body) if known else "",
        "estimated on": mark.estimated_on.isoformat() if mark.estimated_on else "",
    }


def _curve(now: Here, chosen: LiftRecord, known: Sequence[BestMark], most: int) -> None:
    unit = now.member.unit
    done = {mark.reps: float(mark.done.to(unit)) for mark in known if mark.done is not None}
    points = [
        CurvePoint(each.reps, each.own.estimate, each.own.low80, each.own.high80, each.common, done.get(each.reps))
        for each in marks.curve(now.log, now.member, chosen, now.today)
        if each.reps <= most
    ]
    if not points:
        st.write("The sets of this lift say nothing of a max yet.")
        return
    drawn = curve_figure(points, unit=unit, body=chosen.body, dark=plot.is_dark())
    plot.show(
        drawn,
        key="marks_curve",
        alt="Most load for each number of repetitions today; the board above holds what was done.",
    )
    if not chosen.body:  # the chart is of the whole load
        st.caption(f"Dashed: {CHART_SOURCE}, hung on the member's own.")


def pieces(found: Sequence[BestPiece], today: date) -> None:
    """Draw the board of pieces: the best of each version, its day, and what it beat."""
    if not found:
        st.write("No piece is scored yet: its best stands here after the first.")
        return
    rows = "".join(_piece(each, today) for each in found)
    st.html(
        '<table class="marks pieces"><thead><tr><th scope="col">Piece</th><th scope="col">Best</th></tr></thead>'
        f"<tbody>{rows}</tbody></table>"
    )
    st.caption("Only results of the same version are compared; each version has a best of its own.")


def timed(said: str) -> str:
    """Put the unit behind a time that stands by itself: `9:11 min`."""
    return f"{said} min" if re.fullmatch(r"\d+:\d\d(\.\d+)?", said) else said


def _piece(each: BestPiece, today: date) -> str:
    version = f"<span>with {escape(each.version)}</span>" if each.version else ""
    tries = f"{counted(each.goes, 'result')}"
    best = f"<b>{escape(timed(each.said))}</b><span>{short_day(each.day, today)}, {'of ' + tries if each.goes > 1 else 'the first'}</span>"
    before = (
        f"<span>beat {escape(timed(each.before))}, {short_day(each.before_on, today)}</span>" if each.before_on else ""
    )
    perhaps = "<span>a count was lost: another may be as good</span>" if each.perhaps else ""
    return f'<tr><th scope="row">{escape(each.title)}{version}</th><td>{best}{before}{perhaps}</td></tr>'
