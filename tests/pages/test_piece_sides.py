"""A piece with pairs on its page: asked once, remembered, changed; parts and pieces without places have their own form."""

from __future__ import annotations

from streamlit.testing.v1 import AppTest

from tests.day import this_day
from tests.desk.pieces.test_piece_side import HARBOUR, QUAY
from tests.pages.conftest import Open, tap, words
from tests.with_pieces import put_into_step
from tracker.conditioning.piece_record import piece_from
from tracker.conditioning.words import score_words
from tracker.desk.pieces import clocks, conditioning, piece_side
from tracker.log import scores as log_scores
from tracker.log import waves as log_waves
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewStep

QUESTION = "Which of the two numbers is yours?"
PARTS = piece_from({
    "title": "Breakwater", "kind": "for time", "rounds": 3, "cap": "20:00",
    "movement": [{"name": "run", "first": 400, "measure": "m", "part": "buy-in"}, {"name": "push-up", "first": 10},
                 {"name": "burpee", "first": 20, "part": "cash-out"}],
})  # fmt: skip
CORNER = piece_from({
    "title": "Corner", "kind": "for time", "rounds": 3, "cap": "9:00",
    "movement": [{"name": "run to the corner"}, {"name": "push-up", "first": 10}],
})  # fmt: skip
TAIL = piece_from({
    "title": "Slipway", "kind": "as many as possible", "cap": "3:00",
    "movement": [{"name": "row", "sides": [20, 15], "measure": "cal"}, {"name": "burpee", "most": True}],
})  # fmt: skip


def choose(at: AppTest, ending: str, value) -> AppTest:
    found = next(each for each in at.button_group if str(each.key).endswith(ending))
    found.set_value(value).run()
    assert not at.exception
    return at


def scores(log: Log, member):
    with log.reading() as session:
        return [row.score for row in log_scores.scores_of(session, member.id)]


def keys(at: AppTest) -> set[str]:
    return {str(each.key) for each in at.button}


def test_it_is_asked_once_remembered_and_changed_by_a_touch(show: Open, log: Log, ana):
    harbour, quay = conditioning.add_piece(log, HARBOUR), conditioning.add_piece(log, QUAY)
    at = show(log, "conditioning", ana.id, piece=harbour.id)
    assert QUESTION in words(at)
    assert [at.button(key=f"side_{side}").label for side in ("larger", "smaller")] == ["12 cal, 43 kg", "9 cal, 30 kg"]
    assert "12/9 cal row" in words(at)
    assert "43/30 kg" in words(at)
    assert "score_log" not in keys(at)  # nothing is scored on a side that nobody has chosen
    tap(at, "side_smaller")
    assert QUESTION not in words(at)
    assert "9 cal row" in words(at)
    assert "home: dumbbell thruster, 10 kg" in words(at)
    assert "12/9" not in words(at)
    assert "score_log" in keys(at)

    at = show(log, "conditioning", ana.id, piece=quay.id)  # another piece, another visit
    assert QUESTION not in words(at)
    assert "10 wall balls, 6 kg" in words(at)
    assert at.button(key="side_larger").label == "Today the other one: 9 kg"
    tap(at, "side_larger")
    assert "10 wall balls, 9 kg" in words(at)
    assert piece_side.side_of(log, ana.id, harbour.id) == "smaller"


def test_a_piece_without_pairs_asks_nothing(show: Open, log: Log, ana):
    row = conditioning.add_piece(log, PARTS)
    at = show(log, "conditioning", ana.id, piece=row.id)
    assert QUESTION not in words(at)
    assert not keys(at) & {"side_larger", "side_smaller"}


def test_the_preferences_say_it_for_all(show: Open, log: Log, ana):
    at = show(log, "preferences", ana.id)
    radio = at.radio(key=f"side_of_{ana.id}")
    assert radio.value == "not chosen"  # never without a choice
    radio.set_value("smaller").run()
    assert not at.exception
    assert piece_side.side_of(log, ana.id) == "smaller"
    assert show(log, "preferences", ana.id).radio(key=f"side_of_{ana.id}").value == "smaller"


def test_the_day_says_the_piece_on_the_members_side_with_its_options(show: Open, log: Log, ana):
    row = conditioning.add_piece(log, HARBOUR)
    with log.act("wave") as act:
        wave_id = log_waves.add_wave(act, "Tide", [NewStep("Tide 1", 0, [])])
        log_waves.start_wave(act, ana.id, wave_id, this_day())
        step = log_waves.wave_steps(act.session)[0]
    put_into_step(log, step.id, row.id)
    assert "12/9 cal row" in words(show(log, "today", ana.id))
    piece_side.choose_side(log, ana.id, "smaller", row.id)
    said = words(show(log, "today", ana.id))
    assert "<li>9 cal row</li>" in said
    assert "10 thrusters, 30 kg<br><span>home: dumbbell thruster, 10 kg</span>" in said
    assert "12/9" not in said


def test_the_clock_says_the_parts(show: Open, log: Log, ana):
    row = conditioning.add_piece(log, PARTS)
    clock = clocks.start_clock(log, ana.id, row.id, this_day(), count_in_s=0)
    assert "Buy-in: 400 m run; then round 1: 10 push-ups" in words(show(log, "conditioning", ana.id))
    for second in (60, 120, 180):
        clocks.tap_round(log, clock.id, at=clock.clock.started + second)
    assert "Cash-out: 20 burpees" in words(show(log, "conditioning", ana.id))


def test_a_place_in_the_cash_out_is_touched(show: Open, log: Log, ana):
    row = conditioning.add_piece(log, PARTS)
    at = show(log, "conditioning", ana.id, piece=row.id)
    choose(at, "_way", "Ran into the cap")
    choose(at, "_part", 3)
    choose(at, "_part_reps_3_0", 5)
    tap(at, "score_log")
    (score,) = scores(log, ana)
    assert (score.total.known, score_words(score)) == (1 + 30 + 5, "CAP + 15")


def test_as_many_as_there_is_time_for_is_typed_after_the_rest(show: Open, log: Log, ana):
    row = conditioning.add_piece(log, TAIL)
    piece_side.choose_side(log, ana.id, "smaller", row.id)
    at = show(log, "conditioning", ana.id, piece=row.id)
    choose(at, "_part", 1)
    field = next(each for each in at.number_input if str(each.key).endswith("_part_reps_1_0"))
    assert field.label == "And of burpee, in the time left"
    field.set_value(22).run()
    tap(at, "score_log")
    (score,) = scores(log, ana)
    assert (score.total.known, score_words(score)) == (15 + 22, "37 reps (22 in the time left)")


def test_what_has_no_places_is_scored_by_its_time_and_says_why(show: Open, log: Log, ana):
    row = conditioning.add_piece(log, CORNER)
    at = show(log, "conditioning", ana.id, piece=row.id)
    assert "nothing says how much of run to the corner there is" in words(at)
    next(each for each in at.text_input if str(each.key).endswith("_time")).set_value("8:41").run()
    tap(at, "score_log")
    choose(at, "_way", "Ran into the cap")
    tap(at, "score_log")
    assert [score_words(each) for each in scores(log, ana)] == ["8:41", "CAP"]
