"""A clock that nothing stops, like beside unlike, and what an act on one score may not lose."""

from contextlib import suppress
from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal

import pytest
from sqlalchemy import text

from tests.day import this_day
from tests.desk.ladders import KNEES, LADDER, TIMED, all_scores, scored
from tests.readings import newest
from tests.undoing import undo_newest
from tracker.conditioning.ladder import Listed, Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.day import log_set
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.desk.pieces import clocks, conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.desk.pieces.piece_entry import splits_text
from tracker.desk.pieces.piece_history import piece_history
from tracker.errors import BadInputError
from tracker.log.sets import NewSet
from tracker.log.undo import undo
from tracker.log.unit_of_work import ChangedSinceError
from tracker.units import Mass

# the clock


def test_a_clock_goes_on_through_a_locked_phone_and_its_taps_are_the_splits(log, ana, ladder):
    now = datetime.now(UTC).timestamp() - 400
    clock = clocks.start_clock(log, ana.id, ladder.id, this_day(), at=now)
    for after in (45, 118, 229):
        clocks.tap_round(log, clock.id, at=now + after)
    seen = clocks.open_clock(log, ana.id)  # as another device, or the same one after a reload
    assert seen.id == clock.id
    assert seen.clock.splits_s == (35, 108, 219)
    assert seen.clock.reading(now + 400).phase == "work"
    stopped = clocks.stop_clock(log, clock.id, at=now + 400)
    assert stopped.clock.stopped == pytest.approx(now + 400, abs=1e-3)
    row = scored(
        log,
        ana,
        ladder,
        Said("through the 9s, plus 5", splits=splits_text(ladder.piece, stopped.clock)),
        clock_id=clock.id,
    )
    assert (row.score.splits_s, row.clock_id) == ((35, 108, 219), clock.id)
    assert clocks.open_clock(log, ana.id) is None


def test_touching_start_twice_starts_one_clock_and_two_pieces_have_not_both_a_clock(log, ana, ladder):
    other = conditioning.add_piece(log, TIMED)
    first = clocks.start_clock(log, ana.id, ladder.id, this_day())
    assert clocks.start_clock(log, ana.id, ladder.id, this_day()).id == first.id
    with pytest.raises(BadInputError, match="another piece"):
        clocks.start_clock(log, ana.id, other.id, this_day())
    clocks.put_clock_away(log, first.id)
    assert clocks.start_clock(log, ana.id, other.id, this_day()).piece_id == other.id
    with pytest.raises(BadInputError, match="put away"):
        clocks.tap_round(log, first.id)


def test_a_tap_is_taken_back_by_hand_or_by_undo(log, ana, ladder):
    now = datetime.now(UTC).timestamp() - 300
    clock = clocks.start_clock(log, ana.id, ladder.id, this_day(), at=now)
    for after in (45, 118, 119, 229):
        clocks.tap_round(log, clock.id, at=now + after)
    assert clocks.untap_round(log, clock.id).clock.splits_s == (35, 108, 109)
    clocks.untap_round(log, clock.id)
    assert undo_newest(log, ana.id) == "took a tap back"
    assert clocks.open_clock(log, ana.id).clock.splits_s == (35, 108, 109)


def test_taps_from_two_phones_at_once_are_both_kept(log, ana, ladder):
    now = datetime.now(UTC).timestamp() - 300
    clock = clocks.start_clock(log, ana.id, ladder.id, this_day(), at=now)
    clocks.tap_round(log, clock.id, at=now + 45)
    clocks.tap_round(log, clock.id, at=now + 118)  # the second phone's page never saw the first tap
    assert clocks.open_clock(log, ana.id).clock.splits_s == (35, 108)


def test_a_bounce_and_a_tap_after_the_end_are_no_acts(log, ana, ladder):
    now = datetime.now(UTC).timestamp() - 2000
    clock = clocks.start_clock(log, ana.id, ladder.id, this_day(), at=now)
    clocks.tap_round(log, clock.id, at=now + 45)
    before = newest(log)
    clocks.tap_round(log, clock.id, at=now + 45.3)
    clocks.tap_round(log, clock.id, at=now + 1999)
    assert newest(log) == before


def test_logging_stops_a_clock_that_still_runs(log, ana, ladder):
    clock = clocks.start_clock(log, ana.id, ladder.id, this_day(), at=datetime.now(UTC).timestamp() - 60)
    scored(log, ana, ladder, "20", clock_id=clock.id)
    with log.reading() as session:
        assert session.execute(text("SELECT stopped_at IS NOT NULL FROM piece_clocks")).scalar() == 1
    undo_newest(log, ana.id)
    assert clocks.open_clock(log, ana.id).clock.stopped is None


# history


def test_like_results_stand_together_and_unlike_ones_beside_marked(log, ana, ladder):
    for days_ago, said in ((30, "150"), (20, Said("200", KNEES)), (10, "between 155 and 165"), (0, "160")):
        scored(log, ana, ladder, said, days_ago)
    found = piece_history(log, ana.id, "Lantern ladder")
    assert [line.said for line in found.like] == [
        "160 reps (in the round of 18: 7 box step-overs)",
        "between 155 and 165 reps",
        "150 reps (in the round of 18: 15 kettlebell swings)",
    ]
    (other,) = found.unlike
    assert other.differs == ("push-up from the knees instead of hand-release push-up",)
    assert (other.best, other.amount) == ("", (200, 200))
    assert [line.best for line in found.like] == ["perhaps best", "perhaps best", ""]
    assert [line.amount for line in found.like] == [(160, 160), (155, 165), (150, 150)]
    assert found.like[1].where == "in the round of 18: 2 box step-overs to 12 box step-overs"


def test_seen_from_the_unlike_one_the_others_are_unlike(log, ana, ladder):
    scored(log, ana, ladder, "150", 30)
    row = scored(log, ana, ladder, Said("200", KNEES), 20)
    found = piece_history(log, ana.id, "Lantern ladder", score_id=row.id)
    assert [line.row.id for line in found.like] == [row.id]
    assert found.change is None


def test_a_change_is_told_in_one_sentence_and_early_goes_are_learning(log, ana, ladder):
    for days_ago, said in ((40, "150"), (30, "158"), (20, "166")):
        scored(log, ana, ladder, said, days_ago)
    early = piece_history(log, ana.id, "Lantern ladder")
    assert early.change.verdict == "learning"
    assert [line.learning[:4] for line in early.lines] == ["go 3", "go 2", "go 1"]
    scored(log, ana, ladder, "172", 10)
    later = piece_history(log, ana.id, "Lantern ladder").change
    assert (later.verdict, later.exposure) == ("within", 4)
    assert later.sentence.startswith("6 reps more (+3.6 %): inside what it varies by from test to test")
    assert "Engel et al. 2019" in later.sentence


def test_a_capped_result_is_never_a_time(log, ana):
    piece = conditioning.add_piece(log, TIMED)
    scored(log, ana, piece, "4:41", 10)
    scored(log, ana, piece, "CAP + 7")
    found = piece_history(log, ana.id, "Downhill")
    newest, first = found.lines
    assert (newest.beyond, newest.amount, first.beyond, first.amount) == (True, (300, 300), False, (281, 281))
    assert (first.best, newest.best, found.less_is_better, found.change) == ("", "", True, None)


def test_a_changed_piece_of_the_same_title_is_beside_as_unlike(log, ana, ladder):
    scored(log, ana, ladder, "150", 10)
    longer = conditioning.add_piece(log, replace(LADDER, cap_s=900))
    scored(log, ana, longer, "190")
    found = piece_history(log, ana.id, "Lantern ladder")
    assert [(line.like, line.differs) for line in found.lines] == [(True, ()), (False, ("cap 12:00 instead of 15:00",))]


def test_the_mean_of_the_three_before_needs_six_goes(log, ana, ladder):
    for days_ago, total in enumerate((170, 168, 166, 164, 158, 150, 140)):
        scored(log, ana, ladder, str(total), days_ago)
    assert piece_history(log, ana.id, "Lantern ladder").mean_before == "Mean of the 3 before it: 166 reps."


def test_a_load_is_shown_in_the_unit_of_the_member(log):
    bo = people.add_member(log, "Bo", "lb")
    piece = conditioning.add_piece(log, Piece("Heavy", "heaviest", (Task("power clean"),), cap_s=720))
    scored(log, bo, piece, "190", 3)
    scored(log, bo, piece, "90 kg")
    found = piece_history(log, bo.id, "Heavy")
    assert (found.unit, found.lines[1].said) == ("lb", "190 lb")
    assert found.lines[0].amount[0] == pytest.approx(
        198.416, abs=1e-3
    )  # 90 / 0.45359237, exact by definition (NIST SP 811)


def test_nothing_known_is_an_empty_history(log, ana):
    assert piece_history(log, ana.id, "Lantern ladder").lines == ()


# what an act may not lose


def test_undoing_the_act_that_began_the_session_does_not_lose_a_score(log, ana, ladder):
    squat = people.add_lift(log, "back squat", "barbell")
    log_set.log_set(log, ana.id, this_day(), NewSet(squat.id, Mass(Decimal(80), "kg"), 5))
    with log.reading() as session:
        first = session.execute(text("SELECT act_id FROM changes WHERE record = 'sets'")).scalar()
    scored(log, ana, ladder, "160")
    with suppress(ChangedSinceError):
        undo(log, first)
    assert len(all_scores(log, ana)) == 1


def test_the_journal_has_sessions_with_nothing_but_a_piece_and_finds_them(log, ana, ladder):
    row = scored(log, ana, ladder, Said("160", note="slippery floor"), 3)
    (entry,) = journal.sessions(log, ana.id)
    assert (entry.sets, entry.scores) == ((), (row,))
    assert [len(journal.sessions(log, ana.id, text=text)) for text in ("lantern", "slippery", "squat")] == [1, 1, 0]
    conditioning.remove_score(log, row.id)
    assert journal.sessions(log, ana.id) == ()


@pytest.mark.parametrize(
    ("task", "said", "small"),
    [
        (Task("row", Listed((2000,)), "m"), "8:20", ("2,000 m", "2:05 per 500 m")),
        (Task("run", Steady(400), "m"), "2:00", ("400 m", "5:00 per km")),
        (Task("row", Steady(50), "cal"), "2:30", ("50 cal", "20.0 cal a minute")),
        (Task("burpee", Steady(1)), "0:30", ("1 rep", "2.0 reps a minute")),
    ],
)
def test_one_stretch_is_told_in_what_it_is_measured_in(log, ana, task, said, small):
    """A row of 2,000 m counts 1 when done: `1 reps, 0.1 reps a minute` says nothing of it."""
    piece = conditioning.add_piece(log, Piece("One stretch", "for time", (task,), rounds=1))
    scored(log, ana, piece, said)
    line = piece_history(log, ana.id, "One stretch").lines[0]
    assert (line.said, line.all_done, line.pace) == (said, *small)


def test_a_stretch_that_the_cap_cut_off_has_no_amount_and_no_pace(log, ana):
    """Nobody knows how far it went."""
    piece = conditioning.add_piece(log, Piece("Cut", "for time", (Task("row", Listed((2000,)), "m"),), cap_s=480))
    scored(log, ana, piece, "CAP + 1")
    line = piece_history(log, ana.id, "Cut").lines[0]
    assert (line.all_done, line.pace) == ("", "")


def tapped(log, member, row, *after: int):
    now = datetime.now(UTC).timestamp() - 700
    clock = clocks.start_clock(log, member.id, row.id, this_day(), count_in_s=0, at=now)
    for each in after:
        clocks.tap_round(log, clock.id, at=now + each)
    return clocks.stop_clock(log, clock.id, at=now + after[-1] + 20)


def test_taps_too_many_are_no_reason_to_refuse_a_score(log, ana, ladder):
    """Five taps, by a pocket or by mistake, and one round finished: its time is kept, and the score."""
    clock = tapped(log, ana, ladder, 35, 108, 219, 300, 400)
    said = Said("through the 3s, plus 5", splits=splits_text(ladder.piece, clock.clock))
    row = scored(log, ana, ladder, said, clock_id=clock.id)
    assert row.score.splits_s == (35,)


def test_taps_after_the_time_that_was_said_are_left_out(log, ana):
    """The clock on the wall is right, the one on the phone ran on: 3:20 counts, and what was tapped before it."""
    row = conditioning.add_piece(log, TIMED)
    clock = tapped(log, ana, row, 60, 130, 260)
    said = Said("3:20", splits=splits_text(row.piece, clock.clock))
    assert scored(log, ana, row, said, clock_id=clock.id).score.splits_s == (60, 130)


def test_times_of_rounds_that_were_typed_are_told_where_they_can_not_be(log, ana, ladder):
    with pytest.raises(BadInputError, match="times of 2 rounds are written, and 1 round finished"):
        scored(log, ana, ladder, Said("through the 3s, plus 5", splits="0:35 1:48"))
