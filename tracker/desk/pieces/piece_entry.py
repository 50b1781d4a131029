"""What a member says of a piece, and what the entry form needs: alternatives, touches, the words for them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from tracker.conditioning.clock import Clock
from tracker.conditioning.ladder import Ladder, Position
from tracker.conditioning.movements import movement_named, options_for
from tracker.conditioning.pieces import Piece, Task, with_amount_of
from tracker.conditioning.scores import Score
from tracker.conditioning.standing import standing
from tracker.conditioning.swaps import parse_swaps, swaps_text
from tracker.conditioning.times import time_words
from tracker.conditioning.words import score_words
from tracker.desk.people.people import clean_name
from tracker.errors import BadInputError
from tracker.log.pieces import PieceRow
from tracker.prescription.sheet import parse_sheet
from tracker.prescription.sheet.piece import PieceBlock
from tracker.prescription.sheet.written.piece_scored import scored_piece
from tracker.units import Unit


@dataclass(frozen=True, slots=True)
class Said:
    """What a member says of a piece, each part in words: see `parse_score` for what is understood."""

    text: str
    swaps: str = ""
    splits: str = ""
    tie_break: str = ""
    note: str = ""
    partner: str = ""


@dataclass(frozen=True, slots=True)
class SwapChoice:
    """One alternative to a movement: its name, what sets it apart, and who it is from."""

    name: str
    words: str
    source: Literal["coach", "own", ""]  # nothing: a common one


def swap_choices(row: PieceRow, index: int) -> tuple[SwapChoice, ...]:
    """List the alternatives to one movement, easiest first: the coach's, the member's own, then the common ones."""
    task = row.piece.tasks[index]
    given = {option.movement for option in task.options}

    def source(name: str) -> Literal["coach", "own", ""]:
        return "own" if (index, name) in row.own else "coach" if name in given else ""

    return tuple(SwapChoice(each.name, each.word, source(each.name)) for each in options_for(task))


def swap_note(piece: Piece, index: int) -> str:
    """What is known, and not known, about swapping a movement; empty where nothing is."""
    known = movement_named(piece.tasks[index].movement)
    return known.note if known else ""


def swap_text(movement: str, name: str = "", mark: str = "") -> str:
    """Say a swap in the words that `Said` takes; empty where nothing was swapped."""
    if not name and not mark.strip():
        return ""
    return f"{movement} -> {name or movement}" + (f", {mark.strip()}" if mark.strip() else "")


def asked_ladder(piece: Piece, swaps: str = "", unit: Unit | None = None) -> Ladder:
    """Return the repetitions that the entry form asks about, with what was swapped."""
    done = {swap.index: swap.task for swap in parse_swaps(piece, swaps, unit=unit)}
    return replace(piece, tasks=tuple(done.get(n, task) for n, task in enumerate(piece.tasks))).ladder


def touched(ladder: Ladder, rounds: int, done: int, reps: int) -> str:
    """Say in words what the three touches of the entry form point at.

    Raises:
        BadInputError: if the piece has no such place.
    """
    return standing(ladder, Position(rounds, done, reps)).words


def splits_text(piece: Piece, clock: Clock | None) -> str:
    """Say a clock's round taps as splits; a piece of one stretch has none, whatever was tapped."""
    return " ".join(time_words(each) for each in clock.splits_s) if clock and piece.rounds_to_tap != 0 else ""


def intervals_text(clock: Clock | None) -> str:
    """Say what a clock's taps tell of intervals that are timed one by one."""
    return ", ".join(time_words(each) for each in clock.each_s) if clock else ""


def splits_that_fit(clock: Clock, score: Score) -> str:
    """Say those of a clock's round taps that fit what was got: a tap too many is no reason to refuse a score.

    `score` is what was said without splits; taps of rounds that it has not finished are left out, and those after its end.
    """
    finished = max(0, score.positions[1].rounds) if score.positions else len(clock.splits_s)
    most = min(finished, score.ladder.rounds or finished)
    ends = [each for each in clock.splits_s[:most] if each and (score.lasted_s is None or each <= score.lasted_s)]
    return " ".join(map(time_words, ends))


def as_said(score: Score) -> Said:
    """Return a score in words, to be changed and handed to `mend_score`."""
    tie_break = time_words(score.tie_break_s) if score.tie_break_s else ""
    splits = " ".join(time_words(each) for each in score.splits_s)
    return Said(score_words(score), swaps_text(score.piece, score.swaps), splits, tie_break, score.note, score.partner)


def option_in_words(asked: Task, text: str) -> Task:
    """Read one option of a movement as it would stand on a sheet: `push-up from the knees`, `12 kg kettlebell swing`.

    Raises:
        BadInputError: if it can't be read, or is there already.
    """
    line = " ".join(text.split()).removeprefix("or ")
    if not line:
        raise BadInputError("The option says nothing yet.", where="option", mend="Write a movement.")
    try:
        read = piece_in_words(f"Option\nas many reps as possible in 1:00\n5 push-up\nor {line}").tasks[0].options[0]
    except (BadInputError, IndexError) as err:
        mend = "Write one movement, such as: push-up from the knees."
        raise BadInputError(f"“{line}” is not understood as a movement.", where="option", mend=mend) from err
    if read.movement.casefold() in {each.movement.casefold() for each in asked.options}:
        raise BadInputError(f"{read.movement} is an option already.", where="option", mend="Write another one.")
    return with_amount_of(read, asked)


def piece_in_words(text: str) -> Piece:
    """Read a piece as a coach writes it on a sheet: its title, how it is scored, then a movement in each line.

    Raises:
        BadInputError: if there is nothing to read, or a line can't be understood, with the line and what was expected.
    """
    title, _, rest = text.strip().partition("\n")
    if not rest.strip():
        mend = "Write its title, below it such as: as many reps as possible in 12:00, and below that the movements."
        raise BadInputError("The piece says nothing yet.", where="piece", mend=mend)
    sheet = parse_sheet(f"Piece: {clean_name(title.removeprefix('Piece:'), 'piece')}\n{rest}")
    items = [item for session in sheet.sessions for item in session.items]
    pieces = [item for item in items if isinstance(item, PieceBlock)]
    if len(items) != 1 or len(pieces) != 1:
        raise BadInputError(
            "This is more than one piece.", where="piece", mend="Read a whole sheet in on the page Sheet."
        )
    if not pieces[0].movements and pieces[0].kind == "unscored" and "not scored" not in rest:
        mend = "Write below the title such as: as many reps as possible in 12:00, and below that the movements."
        raise BadInputError("Nothing says how it is done.", where="piece, line 2", mend=mend)
    return scored_piece(pieces[0])
