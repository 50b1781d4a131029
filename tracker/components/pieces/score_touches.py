"""How far a piece went, a touch each: finished rounds, movements of the next, repetitions of the one after."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

import streamlit as st

from tracker.components.frame.frame import here
from tracker.components.pieces import score_parts, score_swaps
from tracker.conditioning.entry import (
    MOST_ROUNDS,
    Choice,
    movement_choices,
    names_in,
    rep_choices,
    rep_label,
    round_choices,
)
from tracker.conditioning.ladder import ENDLESS, Ladder
from tracker.conditioning.pieces import Piece
from tracker.desk.pieces.conditioning import PieceDay
from tracker.desk.pieces.piece_entry import asked_ladder, touched
from tracker.desk.pieces.piece_history import PieceHistory
from tracker.log.clocks import ClockRow, moment
from tracker.log.pieces import PieceRow
from tracker.log.scores import ScoreRow

REACH = 2  # rounds offered either side of the likely one
UNKNOWN = 3  # the likely one where nothing says


@dataclass(frozen=True, slots=True)
class ScoreForm:
    """Which piece is scored, on which day, with which clock; and the last score of it."""

    row: PieceRow
    day: date
    clock: ClockRow | None
    last: ScoreRow | None
    member_step_id: str | None
    number: int = 0  # scores of this piece on the day so far

    @property
    def piece(self) -> Piece:
        return self.row.piece

    @property
    def key(self) -> str:
        """Names the form; another piece or day is another form, and so is the one after a score."""
        return f"score_{self.row.id}_{self.day.isoformat()}_{self.number}"

    @property
    def way_key(self) -> str:
        """Names the choice of how it ended; once that is a question, it is another one than while the clock ran."""
        return f"{self.key}_way" if self.says_its_end else f"{self.key}_ended_way"

    def way(self, ways: Sequence[str]) -> str:
        """Return which of some ways was chosen; the first one at first, and none where that is asked."""
        found = st.session_state.get(self.way_key, ways[0] if self.says_its_end else None)
        return found if found in ways else ""

    @property
    def whole(self) -> bool:
        """Whether the last round was tapped, and all of it is done with that."""
        rounds = self.piece.rounds_to_tap
        placed = bool(self.piece.tasks) and not self.piece.ladder.in_parts  # else it goes on after the last round
        return self.clock is not None and placed and bool(rounds) and len(self.clock.clock.splits_s) == rounds

    @property
    def ended_by(self) -> Literal["", "time", "hand"]:
        """What ended its clock: that the time was up, or a touch; empty as long as it runs, or without one."""
        clock = self.clock.clock if self.clock else None
        if clock is None or clock.reading(moment()).phase != "over":
            return ""
        up = clock.length_s is not None and clock.reading(moment()).elapsed_s >= clock.length_s
        return "time" if up else "hand"

    @property
    def says_its_end(self) -> bool:
        """Whether nobody has to be asked if all of it was done: the last round was tapped, or the clock tells nothing of it."""
        if self.whole or not self.ended_by:
            return True
        return self.ended_by == "hand" and not (self.clock and self.clock.clock.splits_s and self.piece.rounds_to_tap)

    @property
    def timed(self) -> str:
        """Names the fields that the clock fills: they are filled anew with each of its taps."""
        clock = self.clock.clock if self.clock else None
        return f"{self.key}_at_{len(clock.taps)}{'_over' if clock.stopped else ''}" if clock else self.key


def scene(plan: PieceDay, row: PieceRow, clock: ClockRow | None, history: PieceHistory) -> ScoreForm:
    """Put together what is scored: the clock of this piece, and its last score before."""
    of_step = plan.step.id if plan.step and row.id in {each.id for each in plan.planned} else None
    last = next((line.row for line in history.lines if _same_movements(line.row, row)), None)
    of_piece = clock if clock and clock.piece_id == row.id else None
    day = of_piece.day if of_piece else plan.day  # a piece that ran past midnight belongs to the day on which it began
    number = sum(each.piece_id == row.id for each in plan.scores)
    return ScoreForm(row, day, of_piece, last, of_step, number)


def _same_movements(score: ScoreRow, row: PieceRow) -> bool:
    """Whether a score is of this piece, or of an older one with the same movements."""
    return [task.movement for task in score.score.piece.tasks] == [task.movement for task in row.piece.tasks]


def ask(scene: ScoreForm) -> None:
    """Round, movement, repetition: a touch each."""
    key, piece = scene.key, scene.piece
    ladder = _ladder(scene)
    if ladder.in_parts:
        names, whole = names_in(piece), piece.kind != "for time"
        score_parts.ask(ladder, names, scene.timed, _likely_rounds(scene), whole=whole)
        return
    rounds = _round(scene, ladder)
    if rounds is None:
        return
    names = names_in(piece)
    choices = movement_choices(names, ladder, rounds)
    if not choices:
        return
    done = 0
    if len(choices) > 1:
        where = "Then, in the next round" if ladder.rounds != 1 else "Finished"
        done = pills(f"{key}_done_{rounds}", where, choices) or 0
    reps = rep_choices(ladder, rounds, done)
    label = rep_label(names, ladder, rounds, done)
    if len(reps) > score_parts.MOST_PILLS:
        st.number_input(
            label, 0, len(reps) - 1, value=None, step=1, key=f"{key}_reps_{rounds}_{done}", placeholder="none"
        )
    elif len(reps) > 1:
        pills(f"{key}_reps_{rounds}_{done}", label, [Choice(n, str(n)) for n in reps])


def _round(scene: ScoreForm, ladder: Ladder) -> int | None:
    """Ask for the finished rounds: around the taps of the clock or the last time, any other one typed.

    Nothing is chosen but what the clock was told. None until somebody has chosen; a piece of one stretch has none to ask.
    """
    if ladder.rounds == 1:
        return 0
    likely = _likely_rounds(scene)
    near = round_choices(ladder, around=likely, reach=REACH)
    tapped = likely if _tapped(scene) else None
    chosen = pills(f"{scene.timed}_rounds", "Finished", [*near, Choice(-1, "other")], tapped)
    if chosen is None or chosen >= 0:
        return chosen
    most = ladder.rounds or MOST_ROUNDS
    return st.number_input("Rounds finished", 0, most, value=None, step=1, key=f"{scene.timed}_typed")


def _tapped(scene: ScoreForm) -> bool:
    return bool(scene.clock and scene.clock.clock.taps and scene.piece.rounds_to_tap != 0)


def _likely_rounds(scene: ScoreForm) -> int:
    if scene.clock and _tapped(scene):
        taps = len(scene.clock.clock.splits_s)
    elif scene.last and scene.last.score.positions:
        taps = max(0, scene.last.score.positions[0].rounds)
    else:
        taps = UNKNOWN
    most = scene.piece.ladder.rounds
    return taps if most is None else min(taps, most)


def pills(key: str, label: str, choices: Sequence[Choice], first: int | None = None) -> int | None:
    """Ask for one of some numbers; none is chosen at first but one that somebody gave before."""
    words = {choice.number: choice.words for choice in choices}
    return st.pills(
        label, list(words), format_func=words.__getitem__, default=first if first in words else None, key=key,
        required=first in words,
    )  # fmt: skip


def ask_lost(scene: ScoreForm) -> None:
    ladder, rounds = _ladder(scene), _likely_rounds(scene)
    low = ladder.through(rounds)
    high = low + max(sum(each for each in ladder.at(rounds) if each != ENDLESS) - 1, 0)
    with st.container(horizontal=True):
        st.number_input("Between", 0, value=None, step=1, key=f"{scene.timed}_low", placeholder=f"such as {low}")
        st.number_input("and, in all", 0, value=None, step=1, key=f"{scene.timed}_high", placeholder=f"such as {high}")
    st.caption("Repetitions in all. It is kept as a range, in the history and in the plot.")


def _ladder(scene: ScoreForm) -> Ladder:
    return asked_ladder(scene.piece, score_swaps.read(scene.piece, scene.key), here().member.unit)


def place(scene: ScoreForm) -> str:
    """The place that the three touches point at, in words; empty as long as nobody has said how far it went.

    What was finished of the next round may be left open, and then is nothing; of one stretch it is all there is to say.
    """
    key, state = scene.key, st.session_state
    ladder = _ladder(scene)
    if ladder.in_parts:
        return score_parts.place(ladder, scene.timed)
    one = ladder.rounds == 1
    rounds = 0 if one else state.get(f"{scene.timed}_rounds")
    if rounds == -1:
        rounds = state.get(f"{scene.timed}_typed")
    if rounds is None:
        return ""
    asked = ladder.at(rounds)
    if not asked:
        return touched(ladder, rounds, 0, 0)
    said_done = state.get(f"{key}_done_{rounds}")
    done = min(said_done or 0, len(asked) - 1)
    said_reps = state.get(f"{key}_reps_{rounds}_{done}")
    if one and said_done is None and said_reps is None and sum(asked) > 1:
        return ""
    return touched(ladder, rounds, done, min(said_reps or 0, asked[done] - 1))
