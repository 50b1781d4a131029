"""Enters a score: three touches for how far it went, a time, a count lost between two numbers, or the words for it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import streamlit as st

from tracker.components import score_swaps
from tracker.components.acts import do
from tracker.components.frame import here, token
from tracker.conditioning.entry import Choice, movement_choices, rep_choices, round_choices
from tracker.conditioning.ladder import Ladder
from tracker.conditioning.pieces import IN_INTERVALS, Piece
from tracker.conditioning.times import time_words
from tracker.conditioning.words import score_words
from tracker.desk import conditioning
from tracker.desk.conditioning import PieceDay
from tracker.desk.piece_entry import Said, asked_ladder, splits_text, touched
from tracker.desk.piece_history import PieceHistory
from tracker.errors import TidemarkError
from tracker.log.clocks import ClockRow, moment
from tracker.log.pieces import PieceRow
from tracker.log.scores import ScoreRow

TOUCH, LOST, WORDS = "How far", "Lost count", "In words"
FINISHED, CAPPED, STOPPED = "Finished", "Ran into the cap", "Stopped early"
REACH = 3  # rounds offered either side of the likely one
MOST_PILLS = 30  # more repetitions than that are typed
PLACEHOLDER = {
    "as many as possible": "through the 15s, plus 8 · 7 + 12 · between 150 and 160", "for time": "8:41 · CAP + 13 · stopped at 6:30, 50",
    "every minute": "10/12", "work and rest": "577, 570, 564, 554, 548", "distance": "2,310", "calories": "148", "heaviest": "92.5 kg",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Scene:
    """Which piece is scored, on which day, with which clock; and the last score of it."""

    row: PieceRow
    day: date
    clock: ClockRow | None
    last: ScoreRow | None
    member_step_id: str | None

    @property
    def piece(self) -> Piece:
        return self.row.piece

    @property
    def key(self) -> str:
        """Names the form: another piece, day or clock is another form."""
        return f"score_{self.row.id}_{self.day.isoformat()}_{self.clock.id if self.clock else ''}"


def scene(plan: PieceDay, row: PieceRow, clock: ClockRow | None, history: PieceHistory) -> Scene:
    """Put together what is scored: the clock of this piece, and its last score before."""
    of_step = plan.step.id if plan.step and row.id in {each.id for each in plan.planned} else None
    last = next((line.row for line in history.lines if line.row.piece_id == row.id), None)
    return Scene(row, plan.day, clock if clock and clock.piece_id == row.id else None, last, of_step)


def show(scene: Scene) -> None:
    """Draw the form for a piece, and the button that logs it."""
    st.subheader("Your score")
    key, piece = scene.key, scene.piece
    if piece.tasks:
        score_swaps.show(piece, key, scene.last)
    try:
        _how(scene)
        text = _text(scene)
    except TidemarkError as error:  # a swap that can't be read: said here, for the form can't go on
        st.warning(f"{error.what} {error.mend}")
        return
    with st.expander("Splits, note", key=f"{key}_more"):
        st.session_state.setdefault(f"{key}_splits", splits_text(scene.clock.clock if scene.clock else None))
        st.text_input("Rounds ended at", key=f"{key}_splits", placeholder="0:35 1:48 3:39")
        if piece.tie_break:
            st.text_input(f"Time at {piece.tie_break}", key=f"{key}_tie_break", placeholder="4:10")
        st.text_area("Note", key=f"{key}_note", max_chars=conditioning.MOST_NOTE)
    st.button(
        f"Log {text}" if text and text != "done" else "Log it", key="score_log", type="primary", width="stretch",
        on_click=_log, args=(scene, token(f"score-{key}")),
    )  # fmt: skip


def _how(scene: Scene) -> None:
    """Ask for the result, in the way that the piece is scored."""
    key, kind = scene.key, scene.piece.kind
    if kind == "unscored":
        return
    ways = _ways(scene.piece)
    if len(ways) > 1:
        st.segmented_control(
            "Say it", ways, default=ways[0], key=f"{key}_way", required=True, label_visibility="collapsed"
        )
    way = st.session_state.get(f"{key}_way", ways[0])
    if way == WORDS:
        st.text_input("Your score in words", key=f"{key}_words", placeholder=PLACEHOLDER[kind])
    elif way == LOST:
        _lost(scene)
    elif way == FINISHED:
        st.session_state.setdefault(f"{key}_time", _time_of(scene))
        st.text_input("Time", key=f"{key}_time", placeholder="8:41")
    elif way == STOPPED:
        st.session_state.setdefault(f"{key}_time", _time_of(scene))
        st.text_input("Stopped at", key=f"{key}_time", placeholder="6:30")
        _touches(scene)
    elif kind in ("as many as possible", "for time"):
        _touches(scene)
    else:
        _number(scene)


def _ways(piece: Piece) -> list[str]:
    if piece.kind == "as many as possible":
        return [TOUCH, LOST, WORDS]
    if piece.kind == "for time":
        return [FINISHED, *([CAPPED] if piece.cap_s else []), STOPPED, WORDS]
    return [TOUCH, WORDS]


def _touches(scene: Scene) -> None:
    """Round, movement, repetition: a touch each."""
    key, piece = scene.key, scene.piece
    ladder = _ladder(scene)
    rounds = _round(scene, ladder)
    names = [task.movement for task in piece.tasks]
    choices = movement_choices(names, ladder, rounds)
    if not choices:
        return
    done = 0
    if len(choices) > 1:
        done = _pills(f"{key}_done_{rounds}", "Then, in the next round", choices, 0)
    reps = rep_choices(ladder, rounds, done)
    label = f"And of the {ladder.at(rounds)[done]:,} {names[done]}"
    if len(reps) > MOST_PILLS:
        st.number_input(label, 0, len(reps) - 1, step=1, key=f"{key}_reps_{rounds}_{done}")
    elif len(reps) > 1:
        _pills(f"{key}_reps_{rounds}_{done}", label, [Choice(n, str(n)) for n in reps], 0)


def _round(scene: Scene, ladder: Ladder) -> int:
    """Ask for the finished rounds: around the taps of the clock or the last time, any other one typed."""
    key = scene.key
    likely = _likely_rounds(scene)
    near = round_choices(ladder, around=likely, reach=REACH)
    chosen = _pills(f"{key}_rounds", "Finished", [*near, Choice(-1, "other")], likely)
    if chosen >= 0:
        return chosen
    most = ladder.rounds or 500
    return int(st.number_input("Rounds finished", 0, most, value=min(likely, most), step=1, key=f"{key}_rounds_typed"))


def _likely_rounds(scene: Scene) -> int:
    if scene.clock and scene.clock.clock.taps:
        taps = len(scene.clock.clock.splits_s)
    elif scene.last and scene.last.score.positions:
        taps = scene.last.score.positions[0].rounds
    else:
        taps = REACH
    most = scene.piece.ladder.rounds
    return taps if most is None else min(taps, most)


def _pills(key: str, label: str, choices: list[Choice] | tuple[Choice, ...], first: int) -> int:
    words = {choice.number: choice.words for choice in choices}
    default = first if first in words else choices[0].number
    chosen = st.pills(label, list(words), format_func=words.__getitem__, default=default, key=key, required=True)
    return default if chosen is None else int(chosen)


def _lost(scene: Scene) -> None:
    ladder, rounds = _ladder(scene), _likely_rounds(scene)
    low = ladder.through(rounds)
    high = low + max(sum(ladder.at(rounds)) - 1, 0)
    with st.container(horizontal=True):
        st.number_input("Between", 0, value=low, step=1, key=f"{scene.key}_low")
        st.number_input("and, in all", 0, value=high, step=1, key=f"{scene.key}_high")
    st.caption("Repetitions in all. It is kept as a range, in the history and in the plot.")


def _number(scene: Scene) -> None:
    key, piece = scene.key, scene.piece
    if piece.kind in IN_INTERVALS:
        if piece.scored_by == "completed":
            _pills(
                f"{key}_kept",
                "Intervals done in full",
                [Choice(n, str(n)) for n in range((piece.intervals or 0) + 1)],
                piece.intervals or 0,
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


def _ladder(scene: Scene) -> Ladder:
    return asked_ladder(scene.piece, score_swaps.read(scene.piece, scene.key), here().member.unit)


def _time_of(scene: Scene) -> str:
    """The time that the clock says: that of the last round tapped where that was the end, else that of its stop."""
    if scene.clock is None:
        return ""
    clock = scene.clock.clock
    if clock.splits_s and len(clock.splits_s) == scene.piece.ladder.rounds:
        return time_words(clock.splits_s[-1])
    reading = clock.reading(moment())
    return time_words(round(reading.elapsed_s)) if reading.phase == "over" else ""


def _text(scene: Scene) -> str:
    """Return the result in the words that the log reads."""
    key, piece, state = scene.key, scene.piece, st.session_state
    if piece.kind == "unscored":
        return "done"
    way = state.get(f"{key}_way", _ways(piece)[0])
    if way == WORDS:
        return str(state.get(f"{key}_words", "")).strip()
    if way == LOST:
        return f"between {state.get(f'{key}_low', 0)} and {state.get(f'{key}_high', 0)}"
    if way == FINISHED:
        return str(state.get(f"{key}_time", "")).strip()
    if piece.kind in ("as many as possible", "for time"):
        place = _place(scene)
        at = str(state.get(f"{key}_time", "")).strip()
        return {CAPPED: f"{place} at the cap", STOPPED: f"stopped at {at}, {place}" if at else f"stopped, {place}"}.get(
            way, place
        )
    if piece.scored_by == "completed" and piece.kind in IN_INTERVALS:
        return f"{state.get(f'{key}_kept', piece.intervals)}/{piece.intervals}"
    amount = state.get(f"{key}_amount")
    return str(int(amount)) if amount is not None else str(state.get(f"{key}_words", "")).strip()


def _place(scene: Scene) -> str:
    """The place that the three touches point at, in words."""
    key, state = scene.key, st.session_state
    ladder, likely = _ladder(scene), _likely_rounds(scene)
    rounds = _value(state.get(f"{key}_rounds"), likely)
    if rounds < 0:
        rounds = _value(state.get(f"{key}_rounds_typed"), likely)
    asked = ladder.at(rounds)
    if not asked:
        return touched(ladder, rounds, 0, 0)
    done = min(_value(state.get(f"{key}_done_{rounds}"), 0), len(asked) - 1)
    reps = min(_value(state.get(f"{key}_reps_{rounds}_{done}"), 0), asked[done] - 1)
    return touched(ladder, rounds, done, reps)


def _value(found: object, otherwise: int) -> int:
    return int(found) if isinstance(found, int | float) else otherwise


def _log(scene: Scene, drawn: str) -> None:
    """Log what the form says now; the fields stay as they are where it is refused."""
    now, key, state = here(), scene.key, st.session_state
    try:
        text = _text(scene)
    except TidemarkError:  # the swap is told on the page
        return
    said = Said(
        text, score_swaps.read(scene.piece, key), str(state.get(f"{key}_splits", "")),
        str(state.get(f"{key}_tie_break", "")), str(state.get(f"{key}_note", "")),
    )  # fmt: skip
    logged = do(
        conditioning.log_score, now.log, now.member.id, scene.row.id, scene.day, said, token=drawn,
        clock_id=scene.clock.id if scene.clock else None, member_step_id=scene.member_step_id,
        said=lambda row: f"Logged {row.score.piece.title}: {score_words(row.score)}",
    )  # fmt: skip
    if logged:
        for each in [each for each in state if str(each).startswith(key)]:
            del state[each]
