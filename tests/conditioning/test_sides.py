"""Pairs for two groups, parts that are done once, and as many as there is time for: records, sides, totals and words."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from dataclasses import fields, replace
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.conditioning.asked import movement_lines, now_words
from tracker.conditioning.calls import parse_total
from tracker.conditioning.compare import differences, like_key
from tracker.conditioning.entry import movement_choices, names_in, rep_choices, rep_label, round_choices
from tracker.conditioning.ladder import BUY_IN, Ladder, Listed, Position, Steady
from tracker.conditioning.piece_record import piece_from, record_of
from tracker.conditioning.pieces import PARTS, SIDES, Piece, Task, in_order
from tracker.conditioning.score_record import score_from, score_record
from tracker.conditioning.sides import both_sides, for_side, other_side, side_words
from tracker.conditioning.standing import standing
from tracker.conditioning.swaps import swap_words
from tracker.conditioning.words import parse_score, score_words
from tracker.errors import BadInputError
from tracker.units import Mass, parse_mass

OLD_LOGS = sorted((Path(__file__).parents[1] / "log").glob("schema_*.db"))
PAIRS = {  # as the reader of sheets hands it over
    "title": "Harbour wall", "kind": "for time", "rounds": 3, "cap": "15:00",
    "movement": [
        {"name": "run", "first": 400, "measure": "m", "part": "buy-in"},
        {"name": "row", "sides": [12, 9], "measure": "cal"},
        {"name": "thruster", "first": 10, "load": ["43", "30"], "unit": "kg",
         "options": [{"name": "dumbbell thruster", "load": ["15", "10"], "unit": "kg", "when": "home"}]},
        {"name": "box jump", "first": 8, "height_cm": [61, 51]},
        {"name": "burpee", "first": 20, "part": "cash-out"},
    ],
}  # fmt: skip
kilos = st.integers(1, 200).map(lambda each: Mass(Decimal(each), "kg"))
lengths = st.integers(20, 320).map(Decimal)


def pair_of(values):
    return st.lists(values, min_size=2, max_size=2, unique=True).map(
        lambda both: tuple(sorted(both, key=lambda each: each.kg if isinstance(each, Mass) else each, reverse=True))
    )


@st.composite
def tasks(draw, *, options: bool = True, part: str | None = None):
    amount = draw(st.sampled_from(("run", "list", "sides", "most", "none")))
    run = Listed(tuple(draw(st.lists(st.integers(1, 50), min_size=1, max_size=4)))) if amount == "list" else Steady(1)
    run = Steady(draw(st.integers(1, 60)), draw(st.integers(0, 5))) if amount == "run" else run
    own = draw(st.sampled_from(PARTS)) if part is None else part
    return Task(
        draw(st.sampled_from(("row", "thruster", "box jump", "burpee"))), run,
        measure=draw(st.sampled_from(("reps", "cal", "m"))),
        load=draw(st.none() | kilos | pair_of(kilos)), implements=draw(st.sampled_from((1, 2))),
        height_cm=draw(st.none() | lengths | pair_of(lengths)), target_cm=draw(st.none() | lengths | pair_of(lengths)),
        sides=draw(pair_of(st.integers(1, 60))) if amount == "sides" else None, most=amount == "most",
        no_amount=amount == "none", part=own, when="" if options else draw(st.sampled_from(("", "home", "scaled"))),
        options=tuple(draw(st.lists(tasks(options=False, part=own), max_size=2))) if options else (),
    )  # fmt: skip


pieces = st.builds(
    lambda found, rounds: Piece("Harbour wall", "for time", tuple(in_order(found)), rounds=rounds, cap_s=900),
    st.lists(tasks(), min_size=1, max_size=5),
    st.integers(1, 6),
)


@given(pieces)
def test_a_piece_comes_back_from_its_record_as_it_was(piece):
    assert piece_from(json.loads(json.dumps(record_of(piece)))) == piece


@given(pieces, st.sampled_from(SIDES))
def test_a_side_takes_one_number_of_each_pair_and_changes_nothing_else(piece, side):
    mine = for_side(piece, side)
    at = SIDES.index(side)
    assert not mine.paired
    assert for_side(mine, other_side(side)) == mine
    for field in fields(Piece):
        if field.name not in ("tasks", "side", "yours"):
            assert getattr(mine, field.name) == getattr(piece, field.name)
    assert (mine.side, bool(mine.yours)) == ((side, True) if piece.paired else ("", False))
    written = [each for task in piece.tasks for each in (task, *task.options)]
    done = [each for task in mine.tasks for each in (task, *task.options)]
    for before, after in zip(written, done, strict=True):
        pairs = {name for name in ("load", "height_cm", "target_cm") if isinstance(getattr(before, name), tuple)}
        for name in pairs:
            assert getattr(after, name) == getattr(before, name)[at]
        if before.sides:
            assert after.run == Steady(before.sides[at])
        changed = pairs | {"options"} | ({"run", "sides"} if before.sides else set())
        for field in fields(Task):
            if field.name not in changed:
                assert getattr(after, field.name) == getattr(before, field.name)


@given(
    st.lists(st.integers(1, 20), max_size=3),
    st.lists(st.integers(1, 20) | st.lists(st.integers(1, 20), min_size=3, max_size=3), min_size=1, max_size=3),
    st.integers(1, 3),
    st.lists(st.integers(1, 20), max_size=3),
    st.booleans(),
)
def test_parts_count_once_and_every_total_has_its_place_and_its_words(before, runs, rounds, after, open_end):
    each = tuple(Listed(tuple(run)) if isinstance(run, list) else Steady(run) for run in runs)
    ladder = Ladder(each, rounds, tuple(before), tuple(after), open_end)
    whole = sum(before) + sum(run.at(index) for run in each for index in range(rounds)) + sum(after)
    assert ladder.all_reps == (None if open_end else whole)
    for total in range(whole + (40 if open_end else 1)):
        place = ladder.position(total)
        assert ladder.total(place) == total
        assert sum(ladder.per_movement(total)) == total
        assert parse_total(ladder, standing(ladder, place).words) == total
    if not open_end:
        with pytest.raises(BadInputError):
            ladder.position(whole + 1)


@pytest.mark.parametrize("path", OLD_LOGS, ids=lambda path: path.stem)
def test_pieces_and_scores_of_old_logs_are_read_as_before(path):
    with closing(sqlite3.connect(path)) as log:
        there = log.execute("SELECT count(*) FROM sqlite_master WHERE name = 'pieces'").fetchone()[0]
        pieces_of_it = log.execute("SELECT id, definition FROM pieces").fetchall() if there else []
        scores = log.execute("SELECT piece_id, result FROM scores").fetchall() if there else []
    assert bool(pieces_of_it) == (path.stem != "schema_0001")  # pieces came later
    known = {piece_id: json.loads(text) for piece_id, text in pieces_of_it}
    for record in known.values():
        piece = piece_from(record)
        assert record_of(piece) == record
        assert not piece.paired
        assert not piece.uncounted
    for piece_id, result in scores:
        assert score_record(score_from(piece_from(known[piece_id]), json.loads(result))) == json.loads(result)


# words


def test_pairs_are_said_as_coaches_write_them():
    piece = piece_from(PAIRS)
    assert movement_lines(piece, options=True) == (
        "buy-in: 400 m run",
        "12/9 cal row",
        "10 thrusters, 43/30 kg (home: dumbbell thruster, 15/10 kg)",
        "8 box jumps, 61/51 cm high",
        "cash-out: 20 burpees",
    )
    assert piece.tasks[1].words() == "12/9 cal row"
    assert movement_lines(for_side(piece, "smaller"), options=True) == (
        "buy-in: 400 m run",
        "9 cal row",
        "10 thrusters, 30 kg (home: dumbbell thruster, 10 kg)",
        "8 box jumps, 51 cm high",
        "cash-out: 20 burpees",
    )
    assert [side_words(piece, side) for side in SIDES] == ["12 cal, 43 kg, 61 cm", "9 cal, 30 kg, 51 cm"]
    assert [each.side for each in both_sides(piece)] == list(SIDES)


@pytest.mark.parametrize(
    ("record", "said"),
    [
        ({"name": "wall ball", "first": 20, "load": ["9", "6"], "unit": "kg", "target_cm": [305, 274]},
         "20 wall balls, 9/6 kg, to 305/274 cm"),
        ({"name": "swing", "first": 5, "load": ["24", "16"], "unit": "kg", "implements": 2}, "5 swings, 2 x 24/16 kg"),
        ({"name": "thruster", "first": 5, "load": ["95", "65"], "unit": "lb"}, "5 thrusters, 95/65 lb"),
        ({"name": "box jump", "first": 5, "height_cm": [51, 61]}, "5 box jumps, 61/51 cm high"),  # the larger first
        ({"name": "box jump", "first": 5, "height_cm": [61, 61]}, "5 box jumps, 61 cm high"),  # no pair at all
        ({"name": "burpee", "most": True}, "max burpees"),
        ({"name": "row", "most": True, "measure": "cal"}, "max cal row"),
        ({"name": "run to the corner"}, "run to the corner"),
    ],
)  # fmt: skip
def test_a_movement_is_said_with_its_marks(record, said):
    piece = piece_from({"title": "T", "kind": "for time", "rounds": 1, "movement": [record]})
    assert movement_lines(piece) == (said,)
    assert piece.tasks[0].words() == said


@pytest.mark.parametrize(
    ("standard", "sides"),
    [
        ("24/20 inch", ("24 inch", "20 inch")),
        ("chest over 10/9 ft line", ("chest over 10 ft line", "chest over 9 ft line")),
        ("to 1/2 inch", ("to 1/2 inch", "to 1/2 inch")),  # half an inch, for nobody another
        ("chest to floor", ("chest to floor", "chest to floor")),
    ],
)
def test_feet_and_inches_are_a_pair_too(standard, sides):
    movement = [{"name": "box jump", "first": 8, "standard": standard}]
    piece = piece_from({"title": "T", "kind": "for time", "rounds": 1, "movement": movement})
    assert piece.paired == (sides[0] != sides[1])
    assert tuple(for_side(piece, side).tasks[0].standard for side in SIDES) == sides


@pytest.mark.parametrize("wrong", [{"sides": [12]}, {"sides": [12, 9, 6]}, {"sides": [9, 0]}, {"part": "middle"}])
def test_what_is_no_pair_and_no_part_is_refused(wrong):
    with pytest.raises(BadInputError):
        piece_from({"title": "T", "kind": "for time", "rounds": 1, "movement": [{"name": "row", **wrong}]})


def test_an_option_without_an_amount_has_that_of_its_movement():
    record = {"name": "row", "sides": [12, 9], "measure": "cal", "options": [{"name": "cycle", "when": "home"}]}
    piece = piece_from({"title": "T", "kind": "for time", "rounds": 1, "movement": [record]})
    (option,) = piece.tasks[0].options
    assert (option.sides, option.measure, option.when) == ((12, 9), "cal", "home")
    assert movement_lines(piece, options=True) == ("12/9 cal row (home: cycle)",)


# scores


def test_a_piece_with_parts_is_scored_on_the_side_that_was_done(day):
    piece = piece_from(PAIRS)
    larger, smaller = both_sides(piece)
    assert (larger.all_reps, smaller.all_reps) == (1 + 3 * (12 + 10 + 8) + 20, 1 + 3 * (9 + 10 + 8) + 20)
    assert parse_score(larger, day, "CAP + 20").total.known == 91
    score = parse_score(smaller, day, "3 rounds, plus 5 at the cap")
    assert (score.total.known, score.missing.known) == (1 + 81 + 5, 15)
    assert score_words(score) == "CAP + 15"
    assert [each.known for each in score.per_movement()] == [1, 27, 30, 24, 5]
    assert swap_words(score) == ("with 9 cal, 30 kg, 51 cm",)
    back = score_from(piece, json.loads(json.dumps(score_record(score))))
    assert back == score
    assert score_record(score)["side"] == "smaller"


def test_the_two_sides_are_not_like_each_other(day):
    larger, smaller = (parse_score(each, day, "12:30") for each in both_sides(piece_from(PAIRS)))
    assert like_key(larger) != like_key(smaller)
    assert "thruster: 30 kg instead of 43 kg" in differences(larger, smaller)
    assert differences(larger, parse_score(for_side(piece_from(PAIRS), "larger"), day, "13:00")) == ()


TAIL = Piece(
    "Slipway", "as many as possible", (Task("row", Steady(20), "cal"), Task("burpee", most=True)), cap_s=180
)  # fmt: skip


@pytest.mark.parametrize(
    ("said", "total", "words"),
    [
        ("53", 53, "53 reps (33 in the time left)"),
        ("1 round, plus 33", 53, "53 reps (33 in the time left)"),
        ("12", 12, "in the first round, 12 reps"),
        ("20", 20, "20 reps (0 in the time left)"),
    ],
)
def test_as_many_as_there_is_time_for_counts_after_the_rest(day, said, total, words):
    score = parse_score(TAIL, day, said)
    assert (score.total.known, score_words(score)) == (total, words)
    assert parse_score(TAIL, day, words) == score
    assert [each.known for each in score.per_movement()] == [min(total, 20), max(total - 20, 0)]


@pytest.mark.parametrize(
    ("piece", "why"),
    [
        (Piece("A", "as many as possible", (Task("run", no_amount=True), Task("push-up", Steady(5))), cap_s=600),
         "nothing says how much of run there is"),
        (Piece("A", "as many as possible", (Task("push-up", most=True), Task("run", Steady(200), "m")), cap_s=600),
         "as many as possible of push-up is no fixed number"),
        (Piece("A", "as many as possible", (Task("push-up", Steady(5)), Task("row", Steady(5), part="cash-out")), cap_s=600),
         "only the clock says when row begins"),
        (Piece("A", "for time", (Task("run", no_amount=True), Task("burpee", most=True)), rounds=1, cap_s=600),
         "nothing says how much of run there is"),
        (Piece("A", "for time", (Task("burpee", Steady(5)),), rounds=1), ""),
    ],
)  # fmt: skip
def test_what_can_not_be_scored_by_repetitions_says_why(piece, why):
    assert piece.uncounted == why
    assert piece.placed == (why == "")
    assert piece.ladder.rounds in (None, 1)  # whoever asks it is answered


@pytest.mark.parametrize(
    "said", ["done", "120 reps", "between 110 and 120 reps", "stopped at 3:00", "stopped at 3:00, 40 reps"]
)
def test_without_places_one_number_is_the_score_and_nothing_is_an_error(day, said):
    piece = Piece("A", "as many as possible", (Task("run", no_amount=True), Task("push-up", Steady(5))), cap_s=600)
    score = parse_score(piece, day, said)
    assert score.positions is None
    assert score_words(score) == said
    assert parse_score(piece, day, score_words(score)) == score
    assert score_from(piece, json.loads(json.dumps(score_record(score)))) == score


@pytest.mark.parametrize("said", ["8:41", "CAP", "CAP, 45 reps", "stopped at 6:30", "stopped at 6:30, 45 reps"])
def test_without_places_the_time_is_the_score(day, said):
    piece = Piece("A", "for time", (Task("run", no_amount=True), Task("burpee", Steady(30))), rounds=3, cap_s=600)
    score = parse_score(piece, day, said)
    assert score_words(score) == said
    assert parse_score(piece, day, score_words(score)) == score


def test_one_movement_for_as_many_as_there_are_is_one_number(day):
    piece = Piece("A", "as many as possible", (Task("burpee", most=True),), cap_s=120)
    assert piece.uncounted == ""
    assert piece.plainly_counted
    assert score_words(parse_score(piece, day, "45")) == "45 reps"
    with pytest.raises(BadInputError, match="no count"):
        parse_score(piece, day, "done")


def test_the_clock_says_what_is_now():
    piece = for_side(piece_from(PAIRS), "larger")
    rounds = "12 cal row; 10 thrusters, 43 kg; 8 box jumps, 61 cm high"
    assert now_words(piece, 0) == f"Now: buy-in: 400 m run; then round 1: {rounds}"
    assert now_words(piece, 1) == f"Now: round 2: {rounds}"
    assert now_words(piece, 2) == f"Now: round 3: {rounds}; then cash-out: 20 burpees"
    assert now_words(piece, 3) == "Now: cash-out: 20 burpees"
    assert now_words(TAIL, 0) == "Now: 20 cal row; then max burpees"
    assert now_words(Piece("A", "for time", (Task("burpee", Steady(5)),), rounds=1), 0) == ""


def test_touches_offer_the_parts(day):
    mine = for_side(piece_from(PAIRS), "smaller")
    ladder, names = mine.ladder, names_in(mine)
    offered = round_choices(ladder)
    assert [choice.number for choice in offered] == [BUY_IN, 0, 1, 2, 3, 4]
    assert offered[0].words == "not all of the buy-in"
    assert offered[-1].words == "all of it"
    assert [each.words for each in movement_choices(names, ladder, 1)] == [
        "none yet",
        "9 cal row done",
        "10 thrusters done",
    ]
    assert [each.words for each in movement_choices(names, ladder, 3)] == ["none yet"]
    assert rep_label(names, ladder, 3, 0) == "And of the 20 burpees"
    assert list(rep_choices(ladder, 3, 0)) == list(range(20))
    assert rep_label(["row", "burpee"], TAIL.ladder, 1, 0) == "And of burpee, in the time left"
    assert standing(ladder, Position(3, 0, 5)).words == "3 rounds, plus 5 (cash-out)"


def test_the_first_split_holds_the_buy_in(day):
    from tracker.conditioning.pace import pace_of

    piece = for_side(piece_from(PAIRS), "larger")
    score = parse_score(piece, day, "12:30", splits="4:00 7:00 10:00")
    pace = pace_of(score)
    assert pace is not None
    assert pace.rounds == pytest.approx((31 / 4, 10, 10))


def test_a_swap_keeps_the_part_and_the_amount(day):
    piece = for_side(piece_from(PAIRS), "smaller")
    score = parse_score(piece, day, "CAP + 20", swaps="burpee -> sit-up; thruster -> dumbbell thruster")
    assert (score.tasks[4].part, score.tasks[4].run) == ("cash-out", Steady(20))
    assert score.tasks[2].load == parse_mass("10kg")
    assert score.ladder == piece.ladder
    assert replace(score, swaps=()).as_prescribed
