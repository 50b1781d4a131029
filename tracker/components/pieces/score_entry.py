"""Enters a score: three touches for how far it went, a time, a count lost between two numbers, or the words for it."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, here, token
from tracker.components.pieces import (
    piece_parts,
    score_intervals,
    score_minutes,
    score_plain,
    score_swaps,
    score_touches,
)
from tracker.components.pieces.score_touches import ScoreForm, pills
from tracker.conditioning.entry import Choice
from tracker.conditioning.pieces import IN_INTERVALS, Piece
from tracker.conditioning.times import time_words
from tracker.conditioning.told import told_words
from tracker.conditioning.words import parse_score
from tracker.desk.day import falls
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.piece_entry import Said, intervals_text, splits_text
from tracker.errors import TidemarkError
from tracker.log.clocks import moment
from tracker.log.scores import ScoreRow
from tracker.wording import counted

TOUCH, LOST, WORDS = "How far", "Lost count", "In words"
FINISHED, CAPPED, STOPPED = "Finished", "Ran into the cap", "Stopped early"
EACH_TIME = "1:52, 1:50, 1:55"
PLACEHOLDER = {
    "as many as possible": "through the 15s, plus 8 · 7 + 12 · between 150 and 160", "for time": "8:41 · CAP + 13 · stopped at 6:30, 50",
    "every minute": "10/12", "work and rest": "577, 570, 564, 554, 548", "distance": "2,310", "calories": "148", "heaviest": "92.5 kg",
}  # fmt: skip


def show(scene: ScoreForm) -> None:
    """Draw the form for a piece, and the button that logs it."""
    key, piece = scene.key, scene.piece
    if piece.paired:
        st.caption("Say first, above, which of the two numbers is yours.")
        return
    if piece.tasks:
        score_swaps.show(scene.row, key, scene.last)
    try:
        _how(scene)
        text = _text(scene)
    except TidemarkError as error:  # a swap that can't be read: said here, for the form can't go on
        st.warning(as_typed(f"{error.what} {error.mend}"))
        return
    with st.expander("Splits, note", key=f"{key}_more"):
        if piece.rounds_to_tap != 0:
            taps = splits_text(piece, scene.clock.clock if scene.clock else None)
            st.session_state.setdefault(f"{scene.timed}_splits", taps)
            st.text_input("Rounds ended at", key=f"{scene.timed}_splits", placeholder="0:35 1:48 3:39")
        if piece.partners > 1:
            st.text_input(
                "Partner's name, if you like",
                key=f"{key}_partner",
                help="Stays in your own log. Nobody is invited or asked.",
            )
        if piece.tie_break:
            st.text_input(f"Time at {as_typed(piece.tie_break)}", key=f"{key}_tie_break", placeholder="4:10")
        st.text_area("Note", key=f"{key}_note")  # one that is too long is refused, and still stands here
    st.button(
        _label(scene, text), key="score_log", type="primary", width="stretch",
        on_click=_log, args=(scene, token(f"score-{key}")),
    )  # fmt: skip


def _label(scene: ScoreForm, text: str) -> str:
    """Say what would be logged: a place in the rounds by the repetitions up to it."""
    if not text or text == "done":
        return "Log it"
    try:
        score = parse_score(
            scene.piece, scene.day, text, swaps=score_swaps.read(scene.piece, scene.key), unit=here().member.unit
        )
    except TidemarkError:  # told where it is logged
        return f"Log {as_typed(text)}"
    return f"Log {as_typed(told_words(score).split(' (')[0] if score.positions else text)}"


def _how(scene: ScoreForm) -> None:
    """Ask for the result, in the way that the piece is scored."""
    key, kind = scene.key, scene.piece.kind
    if kind == "unscored":
        return
    if score_plain.applies(scene):
        score_plain.ask(scene, _time_of(scene))
        return
    ways = _ways(scene.piece)
    if len(ways) > 1:
        asked = kind == "for time" and not scene.says_its_end
        st.segmented_control(
            "Did you finish?" if asked else "Say it", ways, default=None if asked else ways[0], key=scene.way_key,
            required=not asked, label_visibility="visible" if asked else "collapsed",
        )  # fmt: skip
    way = scene.way(ways)
    if way == WORDS:
        st.text_input(
            "Your score in words",
            key=f"{key}_words",
            placeholder=EACH_TIME if scene.piece.timed_intervals else PLACEHOLDER[kind],
        )
    elif way == LOST:
        score_touches.ask_lost(scene)
    elif way == FINISHED:
        score_plain.ask_time(scene, _time_of(scene))
    elif way == STOPPED:
        st.session_state.setdefault(f"{scene.timed}_time", _time_of(scene))
        st.text_input("Stopped at", key=f"{scene.timed}_time", placeholder="6:30")
        score_touches.ask(scene)
    elif way and kind in ("as many as possible", "for time"):
        score_touches.ask(scene)
    elif way:
        _number(scene)


def _ways(piece: Piece) -> list[str]:
    if piece.kind == "as many as possible":
        return [TOUCH, LOST, WORDS]
    if piece.kind == "for time":
        return [FINISHED, *([CAPPED] if piece.cap_s else []), STOPPED, WORDS]
    return [TOUCH, WORDS]


def _number(scene: ScoreForm) -> None:
    key, piece = scene.key, scene.piece
    if piece.kind in IN_INTERVALS:
        if piece.scored_by == "completed":
            pills(
                f"{key}_kept",
                "Intervals done in full",
                [Choice(n, str(n)) for n in range((piece.intervals or 0) + 1)],
            )
            score_minutes.ask(scene)
        elif piece.timed_intervals and score_intervals.applies(scene):
            score_intervals.ask(scene)
        elif piece.timed_intervals:
            st.session_state.setdefault(
                f"{scene.timed}_each", intervals_text(scene.clock.clock if scene.clock else None)
            )
            st.text_input(
                f"Time of each, of {counted(piece.intervals or 0, 'interval')}",
                key=f"{scene.timed}_each",
                placeholder=EACH_TIME,
            )
        else:
            st.text_input(
                f"Each interval, {piece.tasks[0].measure}", key=f"{key}_words", placeholder=PLACEHOLDER["work and rest"]
            )
    elif piece.kind == "heaviest":
        st.text_input(f"Load, {here().member.unit}", key=f"{key}_words", placeholder=PLACEHOLDER["heaviest"])
    else:
        st.number_input(
            "Metres" if piece.kind == "distance" else "Calories", 0, value=None, step=1, key=f"{key}_amount"
        )


def _time_of(scene: ScoreForm) -> str:
    """The time that somebody touched: that of the last round where that was the end, else that of the clock's stop.

    That its time was up says nothing of when a piece was done.
    """
    if scene.clock is None:
        return ""
    if scene.whole:
        return time_words(scene.clock.clock.splits_s[-1])
    return time_words(round(scene.clock.clock.reading(moment()).elapsed_s)) if scene.ended_by == "hand" else ""


def _text(scene: ScoreForm) -> str:
    """Return the result in the words that the log reads."""
    key, piece, state = scene.key, scene.piece, st.session_state
    way = scene.way(_ways(piece))
    if piece.kind == "unscored":
        return "done"
    if score_plain.applies(scene):
        return score_plain.text(scene)
    if way == LOST:
        low, high = state.get(f"{scene.timed}_low"), state.get(f"{scene.timed}_high")
        return "" if low is None or high is None else f"between {low} and {high}"
    if way in ("", FINISHED, WORDS):
        said = {FINISHED: score_plain.time_text(scene), WORDS: str(state.get(f"{key}_words", ""))}
        return said.get(way, "").strip()
    return _reached(scene, way) if piece.kind in ("as many as possible", "for time") else _amount(scene)


def _reached(scene: ScoreForm, way: str) -> str:
    place = score_touches.place(scene)
    if not place:
        return ""
    at = str(st.session_state.get(f"{scene.timed}_time", "")).strip()
    stopped = f"stopped at {at}, {place}" if at else f"stopped, {place}"
    return {CAPPED: f"{place} at the cap", STOPPED: stopped}.get(way, place)


def _amount(scene: ScoreForm) -> str:
    key, piece, state = scene.key, scene.piece, st.session_state
    if piece.scored_by == "completed" and piece.kind in IN_INTERVALS:
        kept = state.get(f"{key}_kept")
        return "" if kept is None else ", ".join((f"{kept}/{piece.intervals}", *score_minutes.said(scene)))
    if piece.timed_intervals and score_intervals.applies(scene):
        return score_intervals.text(scene)
    if piece.timed_intervals:
        return str(state.get(f"{scene.timed}_each", "")).strip()
    amount = state.get(f"{key}_amount")
    return str(int(amount)) if amount is not None else str(state.get(f"{key}_words", "")).strip()


def _logged(now: Here, row: ScoreRow) -> str:
    """Say that a score is logged, and at once if it is the best so far, with what that was before."""
    fallen = falls.fallen_score(now.log, now.member.id, row.id)
    said = f"Logged {row.score.piece.title}: {told_words(row.score)}"
    return f"{said}. {fallen.words(now.today)}" if fallen else said


def _log(scene: ScoreForm, drawn: str) -> None:
    """Log what the form says now; the fields stay as they are where it is refused."""
    now, key, state = here(), scene.key, st.session_state
    try:
        text = _text(scene)
    except TidemarkError:  # the swap is told on the page
        return
    said = Said(
        text, score_swaps.read(scene.piece, key), str(state.get(f"{scene.timed}_splits", "")),
        str(state.get(f"{key}_tie_break", "")), str(state.get(f"{key}_note", "")), str(state.get(f"{key}_partner", "")),
    )  # fmt: skip
    logged = do(
        conditioning.log_score, now.log, now.member.id, scene.row.id, scene.day, said, token=drawn,
        clock_id=scene.clock.id if scene.clock else None, member_step_id=scene.member_step_id,
        said=lambda row: _logged(now, row),
    )  # fmt: skip
    if logged:
        piece_parts.go(piece_parts.HISTORY)
        for each in [each for each in state if str(each).startswith(key)]:
            del state[each]
