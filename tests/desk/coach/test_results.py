"""Results of members with logs of their own, in the coach's log: right, never doubled, and what is broken is named."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.day import this_day
from tests.desk.many import NAMES
from tests.loads import kg
from tests.readings import newest
from tests.stores import address_of
from tests.undoing import undo_newest
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.base.opening import open_log
from tracker.desk.coach.class_table import class_table
from tracker.desk.coach.give_back import take_back
from tracker.desk.coach.send_result import days_to_send, result_file, result_line, result_of, said_plainly
from tracker.desk.coach.take_results import NEW, take_file, take_files, take_results
from tracker.desk.day import log_set
from tracker.desk.history import journal
from tracker.desk.maxes import rep_maxes
from tracker.desk.maxes.estimates import history
from tracker.desk.maxes.references import references
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.piece_entry import Said
from tracker.errors import BadInputError
from tracker.exchange.result import Result, ResultMax, ResultSet, check_of, tidy
from tracker.exchange.result_line import write_line
from tracker.log import scores as log_scores
from tracker.log.sets import NewSet

LADDER = Piece("Lantern ladder", "as many as possible", (Task("kettlebell swing", Steady(3, 3)),), cap_s=720)


@pytest.fixture(scope="module")
def ten(store, tmp_path_factory):
    """Ten members with ten logs of their own: name, line, and file of today's result; four sets and a score each."""
    folder, made = tmp_path_factory.mktemp("ten"), []
    for number, name in enumerate(NAMES[:10]):
        log = open_log(store.copy("empty", None, folder))
        member = people.add_member(log, name)
        squat = people.add_lift(log, "front squat", "barbell")
        piece = conditioning.add_piece(log, LADDER)
        load = kg(60 + 5 * number)
        log_set.log_set(log, member.id, this_day(), NewSet(squat.id, kg(40), 5, kind="ramp"))
        for reps, outcome in ((4, "done"), (4, "done"), (3, "missed"), (2, "cut")):
            log_set.log_set(
                log, member.id, this_day(), NewSet(squat.id, load, reps, Decimal(2), outcome, note="felt odd")
            )
        conditioning.log_score(log, member.id, piece.id, this_day(), Said(f"through the {9 + 3 * number}s"))
        made.append((name, result_line(log, member.id, this_day()), result_file(log, member.id, this_day())[1]))
        log.close()
        store.drop(address_of(log))
    return made


@pytest.fixture
def coach(log):
    """The coach's log knows eight of the ten, and the piece."""
    conditioning.add_piece(log, LADDER)
    for name in NAMES[:8]:
        people.add_member(log, name)
    return log


def sets_of(log, name):
    member = next(each for each in people.members(log) if each.name == name)
    return [row for entry in journal.sessions(log, member.id) for row in entry.sets]


def scores_of(log, name):
    member = next(each for each in people.members(log) if each.name == name)
    with log.reading() as session:
        return log_scores.scores_of(session, member.id)


def table(log):
    """What stands in a log, member by member."""
    return {
        each.name: (
            [(str(row.load), row.reps, row.outcome, row.rir) for row in sets_of(log, each.name)],
            [row.score.total.low for row in scores_of(log, each.name)],
        )
        for each in people.members(log)
    }


def test_ten_files_twice_one_of_them_broken(coach, ten):
    files = [(f"{name}.json", text) for name, _, text in ten]
    files[3] = ("Delphine.json", files[3][1][:-200])
    first = take_files(coach, files)
    last_line = files[3][1].count("\n") + 1
    why = "It can't be read: it was cut short or changed. Ask for the file again."
    assert [str(each) for each in first.broken] == [f"Delphine.json, line {last_line}: {why}"]
    assert first.unknown == ("Isaura", "Jorunn")  # not in the coach's log, and nothing of theirs is taken unasked
    assert [(each.member, each.new, each.known) for each in first.taken] == [(name, 5, 0) for name in NAMES[:8] if name != "Delphine"]  # fmt: skip
    assert {each.name for each in people.members(coach)} == set(NAMES[:8])
    after_first = table(coach)

    second = take_files(coach, files, whom={"Isaura": NEW, "Jorunn": NEW})
    assert [(each.member, each.new, each.known) for each in second.taken] == [
        *((name, 0, 5) for name in NAMES[:8] if name != "Delphine"), ("Isaura", 5, 0), ("Jorunn", 5, 0),
    ]  # fmt: skip
    assert second.words == "2 results taken, 7 results known already, 1 not taken"
    assert len(second.broken) == 1
    now = table(coach)
    assert {name: now[name] for name in after_first} == after_first
    assert now["Delphine"] == ([], [])
    # The member in place n did two sets of 4, missed after 3 and cut short after 2, with 60 + 5 n kg, and rounds of 3 to 9 + 3 n.
    for number, name in enumerate(NAMES[:10]):
        if name != "Delphine":
            load, rounds = f"{60 + 5 * number} kg", 3 + number
            assert now[name] == (
                [(load, 4, "done", 2), (load, 4, "done", 2), (load, 3, "missed", 2), (load, 2, "cut", 2)],
                [3 * rounds * (rounds + 1) // 2],
            )


def test_the_class_table_of_ten_is_right_after_a_second_taking(coach, ten):
    files = [(f"{name}.json", text) for name, _, text in ten]
    for _ in range(2):
        take_files(coach, files, whom={"Isaura": NEW, "Jorunn": NEW})
    found = class_table(coach, [each.id for each in people.members(coach)], this_day())
    (lift,), (piece,) = found.lifts, found.pieces
    assert [line.member.name for line in lift.lines] == list(NAMES[:10])
    assert [str(line.heaviest.load) for line in lift.lines] == [f"{60 + 5 * n} kg" for n in range(10)]
    assert {tuple(line.count(outcome) for outcome in ("done", "missed", "cut")) for line in lift.lines} == {(2, 1, 1)}
    (group,) = piece.groups
    assert [line.member.name for line in group.lines] == list(reversed(NAMES[:10]))  # the last one got the furthest
    assert [line.best for line in group.lines] == ["best", *[""] * 9]
    assert found.absent == ()


def test_a_paste_takes_each_line_by_itself_and_the_same_day_as_a_file_adds_nothing(coach, ten):
    lines = [line for _, line, _ in ten[:3]]
    lines[1] = lines[1].replace("65 kg", "56 kg")
    paste = take_results(coach, "Morning!\n" + "\n".join(lines))
    assert [each.member for each in paste.taken] == ["Aldis", "Corvin"]
    assert [each.where for each in paste.broken] == ["pasted text, line 3 (Brannoch)"]
    assert "changed on its way" in paste.broken[0].what
    assert paste.passed_over == (1,)
    again = take_results(coach, ten[0][2])  # the text of the file, pasted
    assert [(each.new, each.known) for each in again.taken] == [(0, 5)]
    assert len(sets_of(coach, "Aldis")) == 4


def test_all_that_came_in_at_once_is_taken_back_at_once(coach, ten):
    take_results(coach, ten[0][1])  # of before; it stays
    class_file = "\n".join(line for _, line, _ in ten[:3])
    takings = take_files(coach, [("class.txt", class_file), ("one.txt", ten[3][1])])
    assert len(takings.acts) == 2
    assert take_back(coach, takings) == 3
    for name, _, _ in ten[1:4]:
        assert (sets_of(coach, name), scores_of(coach, name)) == ([], ())
    assert len(sets_of(coach, "Aldis")) == 4
    assert take_results(coach, ten[0][1]).acts == ()  # nothing new, nothing to take back


def test_ramp_sets_and_notes_stay_at_home(coach, ten):
    take_results(coach, ten[0][1])
    assert {(row.kind, row.note) for row in sets_of(coach, "Aldis")} == {("work", "")}
    assert "felt odd" not in ten[0][1] + ten[0][2]
    assert "ramp" not in ten[0][1] + ten[0][2]


def test_a_file_of_lines_is_taken_whole_or_not_at_all(coach, ten):
    lines = [line for _, line, _ in ten[:3]]
    broken = "\n".join([lines[0], lines[1][:-9], lines[2]])
    told = take_file(coach, "class.txt", broken)
    assert not told.taken
    assert told.broken[0].where == "class.txt, line 2"
    assert sets_of(coach, "Aldis") == []
    assert [each.new for each in take_file(coach, "class.txt", "\n".join(lines)).taken] == [5, 5, 5]


def test_a_name_can_be_matched_to_a_member_who_is_called_otherwise_here(coach, ten):
    other = people.add_member(coach, "Isaura of the mill")
    taken = take_results(coach, ten[8][1], whom={"Isaura": other.id})
    assert [each.member for each in taken.taken] == ["Isaura of the mill"]
    assert len(sets_of(coach, "Isaura of the mill")) == 4


def a_line(sets, *, minute=0, days=0, member="Aldis", **other):
    as_of = datetime(2026, 3, 2, 18, minute, tzinfo=UTC)
    made = tuple(ResultSet("front squat", "barbell", kg(load), reps) for load, reps in sets)
    return write_line(Result(member, this_day() + timedelta(days=days), as_of, made, **other))


def test_a_mended_result_replaces_what_the_older_one_brought_and_an_older_one_comes_too_late(coach):
    first, mended = a_line([(60, 5), (60, 5)], rating=5), a_line([(60, 5), (60, 4)], minute=9, rating=7)
    take_results(coach, first)
    (taken,) = take_results(coach, mended).taken
    assert (taken.new, taken.known, taken.withdrawn) == (1, 1, 1)
    assert [row.reps for row in sets_of(coach, "Aldis")] == [5, 4]
    late = take_results(coach, first)
    assert "newer one" in late.broken[0].what
    assert [row.reps for row in sets_of(coach, "Aldis")] == [5, 4]
    assert journal.sessions(coach, people.members(coach)[0].id)[0].session.rating == 7
    take_results(coach, a_line([(60, 5), (60, 5)], minute=20))  # and changed back
    assert sorted(row.reps for row in sets_of(coach, "Aldis")) == [5, 5]


def test_what_the_coach_logged_or_mended_by_hand_stays(coach):
    aldis, squat = people.members(coach)[0], people.add_lift(coach, "front squat", "barbell")
    log_set.log_set(coach, aldis.id, this_day(), NewSet(squat.id, kg(60), 5))
    (taken,) = take_results(coach, a_line([(60, 5), (65, 5)])).taken
    assert (taken.new, taken.known) == (1, 1)
    row = sets_of(coach, "Aldis")[1]
    log_set.mend_set(coach, row.id, NewSet(squat.id, kg("67.5"), 5))
    take_results(coach, a_line([(60, 5), (65, 5)]))
    take_results(coach, a_line([(60, 5)], minute=30))
    assert [str(each.load) for each in sets_of(coach, "Aldis")] == ["60 kg", "67.5 kg"]


def test_equal_sets_are_counted_and_a_removed_one_does_not_come_back(coach):
    take_results(coach, a_line([(60, 5)] * 3))
    assert len(sets_of(coach, "Aldis")) == 3
    log_set.remove_set(coach, sets_of(coach, "Aldis")[0].id, today=this_day())
    (taken,) = take_results(coach, a_line([(60, 5)] * 4, minute=5)).taken
    assert (taken.new, taken.known) == (1, 3)
    assert len(sets_of(coach, "Aldis")) == 3


def test_taking_a_result_can_be_taken_back(coach, ten):
    take_results(coach, ten[0][1])
    aldis = people.members(coach)[0]
    assert undo_newest(coach, aldis.id) == f"took the result of Aldis, {this_day().isoformat()}"
    assert (sets_of(coach, "Aldis"), list(scores_of(coach, "Aldis"))) == ([], [])


@pytest.mark.parametrize(
    ("sets", "other", "what"),
    [
        ([(60, 5)], {"days": 3}, "still to come"),
        ([(0, 5)], {}, "can't be"),
        ([(60, 5), (60, 201)], {}, "201 repetitions"),
        ([(60, 0)], {}, "at least one"),
        ([(60, 5)], {"member": "A" * 201}, "201 letters"),
    ],
)
def test_a_whole_line_that_says_what_cannot_be_is_broken_and_nothing_is_written(coach, sets, other, what):
    line = a_line(sets, **other)
    before = newest(coach)
    told = take_results(coach, line, whom={"A" * 201: NEW})
    assert what in told.broken[0].what
    assert told.broken[0].mend
    assert newest(coach) == before


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", b"", b"Dear coach,\nI was ill.", "{}", b"%PDF-1.7"])
def test_a_file_that_is_no_result_is_named(coach, content):
    told = take_file(coach, "letter.pdf", content)
    assert told.broken[0].where.startswith("letter.pdf")
    assert not told.taken


def test_body_mass_goes_along_only_if_asked_and_without_it_the_set_is_no_evidence(coach):
    member = people.members(coach)[0]
    pull = people.add_lift(coach, "pull-up", "body")
    log_set.log_set(coach, member.id, this_day(), NewSet(pull.id, kg(10), 5, body_mass=Decimal(66)))
    assert "66" not in result_line(coach, member.id, this_day()).partition("as of")[0]
    assert "at 66 kg" in result_line(coach, member.id, this_day(), with_body_mass=True)
    assert said_plainly(result_of(coach, member.id, this_day(), with_body_mass=True)) == "1 set, body mass 66 kg"
    other = people.members(coach)[1].name
    line = write_line(Result(other, this_day(), datetime.now(UTC), (ResultSet("pull-up", "body", kg(10), 5),)))
    take_results(coach, line)
    assert [row.left_out for row in sets_of(coach, other)] == ["it came without body mass"]


def test_with_and_without_body_mass_it_is_the_same_set(coach):
    other, as_of = people.members(coach)[1].name, datetime(2026, 3, 2, 18, 0, tzinfo=UTC)

    def line(body):
        one = ResultSet("pull-up", "body", kg(10), 5, body_mass=body)
        return write_line(Result(other, this_day(), as_of, (one, one)))

    for body, changed in ((None, 2), (None, 0), (Decimal(66), 2), (None, 0), (Decimal(66), 0)):
        assert take_results(coach, line(body)).taken[0].new == changed
    assert [(str(row.body_mass), row.left_out) for row in sets_of(coach, other)] == [("66 kg", None)] * 2


@pytest.mark.parametrize("body", [0, 12, 400])
def test_a_body_mass_that_cannot_be_breaks_the_result(coach, body):
    one = ResultSet("pull-up", "body", kg(10), 5, body_mass=Decimal(body))
    line = write_line(Result("Aldis", this_day(), datetime.now(UTC), (one,)))
    assert "body mass" in take_results(coach, line).broken[0].what


SCRAPS = st.sampled_from(
    [
        "0",
        "-1",
        "1e9",
        "9999",
        "nan",
        "1.2.3",
        "12 kg",
        "x",
        "",
        "|",
        "%7C",
        "%ZZ",
        "99 sets of",
        "a side",
        "²",
        "5 left",
    ]
)


@given(st.integers(3, 8), st.integers(0, 60), SCRAPS)
def test_a_line_with_a_right_check_and_wrong_words_is_taken_or_broken_and_never_a_fault(coach, ten, field, at, scrap):
    """Whoever writes a line by hand, check and all, still gets a word and not a fault."""
    fields = ten[0][1].rpartition(" | check")[0].split(" | ")
    index = field % len(fields)
    fields[index] = f"{fields[index][:at]}{scrap}{fields[index][at + 1 :]}"
    text = tidy(" | ".join(fields) + " |")
    told = take_results(coach, f"{text} check {check_of(text)}")
    assert told.taken or told.broken or told.unknown or told.passed_over
    assert all(each.what for each in told.broken)


def test_maxes_go_along_only_if_asked_for_and_make_the_load_sheet(coach, fresh):
    own = open_log(fresh())
    member, squat = people.add_member(own, "Aldis"), people.add_lift(own, "front squat", "barbell")
    earlier = this_day() - timedelta(days=40)
    rep_maxes.add_rep_max(own, member.id, squat.id, earlier, 3, kg(75), tested=True)
    rep_maxes.add_rep_max(own, member.id, squat.id, earlier, 1, kg(90), tested=False)
    log_set.log_set(own, member.id, this_day() - timedelta(days=9), NewSet(squat.id, kg(80), 3, kind="test"))
    log_set.log_set(own, member.id, this_day(), NewSet(squat.id, kg(60), 5))
    assert "max of" not in result_line(own, member.id, this_day())
    line = result_line(own, member.id, this_day(), with_maxes=True)
    assert "max of front squat (barbell): 1RM 90 kg declared" in line  # and of the 3RM the newest test
    assert "3RM 80 kg tested" in line
    assert "75 kg" not in line
    assert [each.new for each in take_results(coach, line).taken] == [3]
    assert [(each.new, each.known) for each in take_results(coach, line).taken] == [(0, 3)]
    take_results(coach, result_line(own, member.id, this_day() - timedelta(days=9)))  # the day of the test itself
    assert [(each.new, each.known) for each in take_results(coach, line).taken] == [(0, 3)]
    aldis = people.members(coach)[0]
    assert [(row.reps, row.source) for row in rep_maxes.rep_maxes(coach, aldis.id)] == [(1, "declared")]
    lift = next(each for each in people.lifts(coach) if each.name == "front squat")
    found = references(history(coach, aldis.id, lift), 3, this_day(), "kg")[0]
    assert (found.source, str(found.load), found.age_days(this_day())) == ("tested", "80 kg", 9)


@pytest.mark.parametrize(
    ("reps", "load", "days", "what"),
    [(31, 60, 0, "31RM"), (3, -60, 0, "can't be"), (3, 60, 9, "still to come")],
)
def test_a_max_that_cannot_be_breaks_the_result(coach, reps, load, days, what):
    one = ResultMax("front squat", "barbell", reps, kg(load), "tested", this_day() + timedelta(days=days))
    line = write_line(Result("Aldis", this_day(), datetime.now(UTC), maxes=(one,)))
    before = newest(coach)
    assert what in take_results(coach, line).broken[0].what
    assert newest(coach) == before


def test_a_day_without_anything_has_no_result(coach):
    member = people.members(coach)[0]
    assert days_to_send(coach, member.id) == ()
    with pytest.raises(BadInputError, match="Nothing is logged"):
        result_line(coach, member.id, this_day())


def test_every_day_of_the_demo_comes_back_equal_by_line_and_file(demo_log, log):
    """The newest five days of each member of the demo, with swaps, lost counts and pounds."""
    for member in people.members(demo_log):
        for day in days_to_send(demo_log, member.id, limit=5):
            name, text = result_file(demo_log, member.id, day, with_body_mass=True)
            assert name.isascii()
            assert not take_file(log, name, text, whom={member.name: NEW}).broken
            again = take_results(log, result_line(demo_log, member.id, day, with_body_mass=True))
            assert (again.broken, [each.new for each in again.taken]) == ((), [0])
