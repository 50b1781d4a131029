"""A result as a line and as a file: out and back equal, whatever a messenger does to it; and whatever is broken is noticed."""

import json
from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.loads import kg
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.words import parse_score
from tracker.errors import BadInputError
from tracker.exchange.result import Result, ResultMax, ResultSet, check_of, tidy
from tracker.exchange.result_file import read_file, write_file
from tracker.exchange.result_line import find_lines, read_line, sets_words, write_line
from tracker.units import Mass

DAY = date(2026, 3, 2)
AS_OF = datetime(2026, 3, 2, 18, 40, 12, tzinfo=UTC)
BOX = Task("push-up", Steady(3, 3), options=(Task("push-up, hands on a box", Steady(3, 3), height_cm=Decimal(60)),))
LADDER = Piece("Lantern ladder", "as many as possible", (Task("kettlebell swing", Steady(3, 3), load=Mass(Decimal(16), "kg")), BOX), cap_s=720)  # fmt: skip


def a_result(**other):
    score = parse_score(
        LADDER, DAY, "through the 15s, plus 8", swaps="push-up -> push-up, hands on a box", splits="0:34 1:43 3:28"
    )
    sets = (
        ResultSet("front squat", "barbell", kg("67.5"), 4), ResultSet("front squat", "barbell", kg("67.5"), 4),
        ResultSet("front squat", "barbell", kg("72.50"), 3, Decimal("0.5"), "missed", "test"),
        ResultSet("pull-up", "body", kg("-10"), 5, Decimal(2), body_mass=Decimal("66.2")),
        ResultSet("lunge", "dumbbells", Mass(Decimal(25), "lb"), 8, outcome="cut", per_side=True, left_out=True),
    )  # fmt: skip
    return replace(Result("Wren", DAY, AS_OF, sets, (score,), 7, 55), **other)


def test_the_line_reads_as_a_person_would_say_it():
    line = write_line(a_result())
    assert line.startswith(
        "Tidemark result 2 | Wren | 2026-03-02 | front squat (barbell): 2 sets of 4 x 67.5 kg; 3 x 72.5 kg, 0.5 left, the 4th missed, test | "
    )
    assert (
        "| pull-up (body) at 66.2 kg: 5 x -10 kg, 2 left | lunge (dumbbells, a side): 8 x 25 lb, cut short, not for the estimate |"
        in line
    )
    assert (
        "]: through the 15s, plus 8 | swaps push-up -> push-up, hands on a box | splits 0:34 1:43 3:28 | session rated 7 | 55 minutes |"
        in line
    )
    assert "\n" not in line


def test_a_miss_of_an_earlier_version_is_still_read_and_one_that_fits_no_count_is_not():
    one = ResultSet("front squat", "barbell", kg("107.5"), 4, None, "missed")
    line = write_line(Result("Wren", DAY, AS_OF, (one,)))
    assert "4 x 107.5 kg, the 5th missed |" in line

    def sealed(text):
        text = text[: text.rindex(" check ")]
        return f"{text} check {check_of(text)}"

    assert read_line(sealed(line.replace("the 5th missed", "missed").replace("result 2", "result 1")), []).sets == (
        one,
    )
    with pytest.raises(BadInputError, match="is no set"):
        read_line(sealed(line.replace("the 5th missed", "the 4th missed")), [])
    assert write_line(Result("Wren", DAY, AS_OF, (replace(one, outcome="done"),))).startswith("Tidemark result 1 ")


def same(one, other):
    sets = [tuple(replace(each, lift=tidy(each.lift), load=Mass(each.load.amount.normalize(), each.load.unit)) for each in result.sets) for result in (one, other)]  # fmt: skip
    assert sets[0] == sets[1]
    assert [(s.piece.title, s.day, s.count, s.splits_s, [x.index for x in s.swaps]) for s in one.scores] == [
        (s.piece.title, s.day, s.count, s.splits_s, [x.index for x in s.swaps]) for s in other.scores
    ]
    assert (tidy(one.member), one.day, one.as_of, one.rating, one.minutes) == (tidy(other.member), other.day, other.as_of, other.rating, other.minutes)  # fmt: skip


def test_line_and_file_come_back_as_they_were():
    same(read_line(write_line(a_result()), [LADDER]), a_result())
    same(read_file(write_file(a_result())), a_result())
    assert read_line(write_line(a_result()), [LADDER]).scores[0].swaps[0].task.height_cm == 60


def test_maxes_go_along_as_facts_with_their_day():
    maxes = (
        ResultMax("front squat", "barbell", 1, kg("90"), "declared", date(2025, 5, 1)),
        ResultMax("front squat", "barbell", 3, kg("82.50"), "tested", date(2026, 2, 11)),
        ResultMax("max of all: pull-up", "body", 5, kg("-5"), "tested", date(2026, 1, 7)),
    )
    result = a_result(maxes=maxes, scores=())
    line = write_line(result)
    assert "| max of front squat (barbell): 1RM 90 kg declared 2025-05-01; 3RM 82.5 kg tested 2026-02-11 |" in line
    for back in (read_line(line, []), read_file(write_file(result))):
        assert [replace(each, load=Mass(each.load.amount.normalize(), "kg")) for each in back.maxes] == [
            replace(each, load=Mass(each.load.amount.normalize(), "kg")) for each in maxes
        ]
        assert len(back.sets) == len(result.sets)


def test_a_lift_that_is_called_a_max_of_something_is_still_a_lift():
    sets = (ResultSet("max of three", "barbell", kg(60), 3),)
    back = read_line(write_line(Result("Wren", DAY, AS_OF, sets)), [])
    assert (back.sets[0].lift, back.maxes) == ("max of three", ())


NAMES = st.text(st.characters(categories=("L", "N", "P", "S", "Zs"), exclude_characters="\xa0"), min_size=1, max_size=30).map(lambda text: " ".join(text.split())).filter(bool)  # fmt: skip
AMOUNTS = st.decimals(min_value=0, max_value=900, places=2)
SETS = st.builds(
    ResultSet, NAMES, st.sampled_from(["unasked", "barbell", "dumbbells", "machine"]),
    st.builds(Mass, AMOUNTS, st.sampled_from(["kg", "lb"])), st.integers(0, 200),
    st.none() | st.integers(0, 12).map(lambda n: Decimal(n) / 2), st.sampled_from(["done", "missed", "cut"]),
    st.sampled_from(["work", "test"]), st.none(), st.booleans(), st.booleans(),
)  # fmt: skip


@given(name=NAMES, sets=st.lists(SETS, min_size=1, max_size=6))
@settings(max_examples=60)
def test_any_names_and_sets_come_back_from_line_and_file(name, sets):
    result = Result(name, DAY, AS_OF, tuple(sets))
    line, file = read_line(write_line(result), []), read_file(write_file(result))
    assert (line.member, file.member) == (tidy(name), name)
    assert sorted(map(facts, line.sets)) == sorted(map(facts, sets))
    assert list(map(facts, file.sets)) == list(map(facts, sets))


def facts(one):
    numbers = (str(one.load.kg.normalize()), str(one.rir), one.reps, one.per_side, one.left_out)
    return (tidy(one.lift), one.implement, one.load.unit, one.outcome, one.kind, *numbers)


@pytest.mark.parametrize(
    "sent",
    [
        lambda line: f"  {line}\u200e ",
        lambda line: line.replace(" -> ", " → ").replace(" x ", " × "),
        lambda line: line.replace(" | ", "\u00a0|\u00a0"),
        lambda line: f"[18:41, 02/03/2026] Wren: {line}",
        lambda line: line.replace(" | session", " |\n> session").replace("; 3 x", ";\n  3 x"),
        lambda line: f"Hi coach, here it is\n{line}\nsee you",
    ],
)  # fmt: skip
def test_what_messengers_do_to_a_line_does_no_harm(sent):
    (found,), passed = find_lines(sent(write_line(a_result())))
    same(read_line(found.text, [LADDER]), a_result())
    assert passed in ((), (1, 3))


def test_two_results_on_one_line_are_two():
    found, passed = find_lines(f"{write_line(a_result())} {write_line(a_result(member='Tobin'))}")
    assert [read_line(each.text, [LADDER]).member for each in found] == ["Wren", "Tobin"]
    assert passed == ()


def test_a_line_that_was_cut_short_or_changed_anywhere_is_noticed():
    line = write_line(a_result())
    for place in range(len("Tidemark result 1"), len(line)):
        for damaged in (
            line[:place],
            line[:place] + line[place + 1 :],
            f"{line[:place]}{'8' if line[place] != '8' else '3'}{line[place + 1 :]}",
        ):
            if tidy(damaged) != line:
                with pytest.raises(BadInputError) as told:
                    read_line(damaged, [LADDER])
                assert told.value.mend


@pytest.mark.parametrize(
    ("line", "what"),
    [
        (write_line(a_result()).replace("result 2", "result 4"), "later version"),
        (write_line(a_result())[:-12], "cut short"),
        (write_line(a_result()).replace("67.5", "76.5"), "changed on its way"),
    ],
)  # fmt: skip
def test_each_kind_of_break_has_its_own_word(line, what):
    with pytest.raises(BadInputError, match=what):
        read_line(line, [LADDER])


def test_a_piece_that_is_unknown_or_asks_something_else_wants_the_file():
    line = write_line(a_result())
    heavier = replace(LADDER, tasks=(replace(LADDER.tasks[0], load=kg(24)), LADDER.tasks[1]))
    without = replace(LADDER, tasks=(LADDER.tasks[0], replace(BOX, options=())))  # the swap would lose its height
    for pieces in ([], [heavier], [without]):
        with pytest.raises(BadInputError) as told:
            read_line(line, pieces)
        assert "Send the file" in told.value.mend
    assert read_file(write_file(a_result())).scores[0].piece.title == "Lantern ladder"


def damaged_files():
    text = write_file(a_result())
    record = json.loads(text)
    yield text[: len(text) // 2], "cut short"
    yield text.replace("67.5", "76.5"), "changed on its way"
    yield text.replace('"tidemark_result": 1', '"tidemark_result": 3'), "later version"
    yield json.dumps({**record, "tidemark_result": "one"}), "no result"
    yield text.replace('"reps": 4', '"reps": NaN'), "not a number"
    yield "[]", "no result"
    yield "{}", "no result"
    yield "[" * 100_000, "can't be read"


@pytest.mark.parametrize(("text", "what"), list(damaged_files()))
def test_a_damaged_file_is_refused_with_a_word(text, what):
    with pytest.raises(BadInputError, match=what):
        read_file(text)


@pytest.mark.parametrize(
    ("change", "what"),
    [
        ({"sets": [{"lift": "squat"}]}, "missing, or no text"),
        ({"sets": "many"}, "no list"),
        ({"sets": [], "scores": []}, "no set and no score"),
        ({"scores": [{"piece": {"title": "x", "kind": "for time", "movement": 3}, "score": {}}]}, "3 is no list"),
        ({"surplus": 1}, "not known"),
        ({"day": "2026-02-30"}, "not in the calendar"),
        ({"rating": 11}, "rating"),
        ({"minutes": True}, "no whole number"),
    ],
)  # fmt: skip
def test_a_whole_file_that_says_what_cannot_be_is_refused(change, what):
    from tracker.exchange import result_file

    record = {**json.loads(write_file(a_result())), **change}
    record.pop("check")
    with pytest.raises(BadInputError, match=what):
        read_file(json.dumps(record | {"check": result_file._check(record)}))


@given(st.text(max_size=300))
@settings(max_examples=100)
def test_any_text_is_a_result_or_refused_and_never_a_fault(text):
    for read in (lambda: read_line(f"Tidemark result 1 | {text}", [LADDER]), lambda: read_file(text)):
        with pytest.raises(BadInputError):
            read()


def test_six_left_is_written_for_every_version_and_six_or_more_is_read_too_and_said():
    """Earlier versions read `6 left` only, so lines go on saying that; what a person reads is `6+ left`."""
    one = ResultSet("front squat", "barbell", kg("67.5"), 5, Decimal(6))
    line = write_line(Result("Wren", DAY, AS_OF, (one,)))
    assert "5 x 67.5 kg, 6 left |" in line
    assert sets_words([one, one]) == "2 sets of 5 × 67.5 kg, 6+ left"
    text = line.replace("6 left", "6+ left").rpartition(" check ")[0]
    assert read_line(f"{text} check {check_of(text)[:6]}", []).sets == (one,)
