"""How far a piece went, a touch each: finished rounds, movements of the next, repetitions of the one after."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import streamlit as st

from tracker.components import score_parts, score_swaps
from tracker.components.frame import here
from tracker.conditioning.entry import MOST_ROUNDS, Choice, movement_choices, rep_choices, round_choices
from tracker.conditioning.ladder import ENDLESS, Ladder
from tracker.conditioning.pieces import Piece
from tracker.desk.conditioning import PieceDay
from tracker.desk.piece_entry import asked_ladder, touched
from tracker.desk.piece_history import PieceHistory
from tracker.log.clocks import ClockRow
from tracker.log.pieces import PieceRow
from tracker.log.scores import ScoreRow

REACH = 2  # rounds offered either side of the likely one
UNKNOWN = 3  # the likely one where nothing says
MOST_PILLS = 30  # more repetitions than that are typed


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
        """Names the form; another piece or day is another form."""
        return f"score_{self.row.id}_{self.day.isoformat()}"

    @property
    def timed(self) -> str:
        """Names the fields that the clock fills: they are filled anew with each of its taps."""
        clock = self.clock.clock if self.clock else None
        return f"{self.key}_at_{len(clock.taps)}{'_over' if clock.stopped else ''}" if clock else self.key


def scene(plan: PieceDay, row: PieceRow, clock: ClockRow | None, history: PieceHistory) -> Scene:
    """Put together what is scored: the clock of this piece, and its last score before."""
    of_step = plan.step.id if plan.step and row.id in {each.id for each in plan.planned} else None
    last = next((line.row for line in history.lines if _same_movements(line.row, row)), None)
    of_piece = clock if clock and clock.piece_id == row.id else None
    day = of_piece.day if of_piece else plan.day  # a piece that ran past midnight belongs to the day on which it began
    return Scene(row, day, of_piece, last, of_step)


def _same_movements(score: ScoreRow, row: PieceRow) -> bool:
    """Whether a score is of this piece, or of an older one with the same movements."""
    return [task.movement for task in score.score.piece.tasks] == [task.movement for task in row.piece.tasks]


def ask(scene: Scene) -> None:
    """Round, movement, repetition: a touch each."""
    key, piece = scene.key, scene.piece
    ladder = _ladder(scene)
    if ladder.in_parts:
        names, whole = [task.movement for task in piece.tasks], piece.kind != "for time"
        score_parts.ask(ladder, names, scene.timed, _likely_rounds(scene), whole=whole)
        return
    rounds = _round(scene, ladder)
    names = [task.movement for task in piece.tasks]
    choices = movement_choices(names, ladder, rounds)
    if not choices:
        return
    done = 0
    if len(choices) > 1:
        done = pills(f"{key}_done_{rounds}", "Then, in the next round", choices, 0)
    reps = rep_choices(ladder, rounds, done)
    label = f"And of the {ladder.at(rounds)[done]:,} {names[done]}"
    if len(reps) > MOST_PILLS:
        st.number_input(label, 0, len(reps) - 1, step=1, key=f"{key}_reps_{rounds}_{done}")
    elif len(reps) > 1:
        pills(f"{key}_reps_{rounds}_{done}", label, [Choice(n, str(n)) for n in reps], 0)


def _round(scene: Scene, ladder: Ladder) -> int:
    """Ask for the finished rounds: around the taps of the clock or the last time, any other one typed."""
    likely = _likely_rounds(scene)
    near = round_choices(ladder, around=likely, reach=REACH)
    chosen = pills(f"{scene.timed}_rounds", "Finished", [*near, Choice(-1, "other")], likely)
    if chosen >= 0:
        return chosen
    most = ladder.rounds or MOST_ROUNDS
    return int(st.number_input("Rounds finished", 0, most, value=min(likely, most), step=1, key=f"{scene.timed}_typed"))


def _likely_rounds(scene: Scene) -> int:
    if scene.clock and scene.clock.clock.taps:
        taps = len(scene.clock.clock.splits_s)
    elif scene.last and scene.last.score.positions:
        taps = max(0, scene.last.score.positions[0].rounds)
    else:
        taps = UNKNOWN
    most = scene.piece.ladder.rounds
    return taps if most is None else min(taps, most)


def pills(key: str, label: str, choices: Sequence[Choice], first: int) -> int:
    words = {choice.number: choice.words for choice in choices}
    default = first if first in words else choices[0].number
    chosen = st.pills(label, list(words), format_func=words.__getitem__, default=default, key=key, required=True)
    return default if chosen is None else int(chosen)


def ask_lost(scene: Scene) -> None:
    ladder, rounds = _ladder(scene), _likely_rounds(scene)
    low = ladder.through(rounds)
    high = low + max(sum(each for each in ladder.at(rounds) if each != ENDLESS) - 1, 0)
    with st.container(horizontal=True):
        st.number_input("Between", 0, value=low, step=1, key=f"{scene.timed}_low")
        st.number_input("and, in all", 0, value=high, step=1, key=f"{scene.timed}_high")
    st.caption("Repetitions in all. It is kept as a range, in the history and in the plot.")


def _ladder(scene: Scene) -> Ladder:
    return asked_ladder(scene.piece, score_swaps.read(scene.piece, scene.key), here().member.unit)


def place(scene: Scene) -> str:
    """The place that the three touches point at, in words."""
    key, state = scene.key, st.session_state
    if _ladder(scene).in_parts:
        return score_parts.place(_ladder(scene), scene.timed)
    ladder, likely = _ladder(scene), _likely_rounds(scene)
    rounds = _value(state.get(f"{scene.timed}_rounds"), likely)
    if rounds < 0:
        rounds = _value(state.get(f"{scene.timed}_typed"), likely)
    asked = ladder.at(rounds)
    if not asked:
        return touched(ladder, rounds, 0, 0)
    done = min(_value(state.get(f"{key}_done_{rounds}"), 0), len(asked) - 1)
    reps = min(_value(state.get(f"{key}_reps_{rounds}_{done}"), 0), asked[done] - 1)
    return touched(ladder, rounds, done, reps)


def _value(found: object, otherwise: int) -> int:
    return int(found) if isinstance(found, int | float) else otherwise
