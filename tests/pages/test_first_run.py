"""The first run: three questions, one act, and then loads or the way to a first max."""

from __future__ import annotations

from datetime import timedelta

from sqlalchemy import func, select

from tests.day import this_day
from tests.pages.conftest import Open, words
from tracker.desk.history import journal
from tracker.desk.people import people, places
from tracker.log.keeper import Log
from tracker.log.models import Change, Lift, Member, Place


def rows(log: Log) -> int:
    with log.reading() as session:
        return sum(
            session.scalar(select(func.count()).select_from(table)) or 0 for table in (Change, Lift, Member, Place)
        )


def sources(at) -> list[str]:
    return next(pills for pills in at.pills if pills.key.startswith("weights_source")).options


def answer(at, name="Wren", load="90", **more):
    at.text_input(key="first_run_name").set_value(name)
    for key, value in {"unit": "kg", "place": "A gym with kilogram discs", **more}.items():
        at.radio(key=f"first_run_{key}").set_value(value)
    if load is not None:
        if "known" not in more:
            at.radio(key="first_run_known").set_value("I am guessing it")
        at.selectbox(key="first_run_lift").set_value("front squat")
        at.number_input(key="first_run_reps").set_value(3)
        at.text_input(key="first_run_load").set_value(load)
    return at.run().button(key="first_run_begin").click().run()


def test_an_empty_log_asks_who_and_three_questions(log: Log, show: Open):
    at = show(log)
    assert [radio.label for radio in at.radio] == [
        "1. Your loads are in",
        "2. Where you train",
        "3. One rep-max: the most you lift for a number of repetitions",
    ]
    assert at.title[0].value == "Begin your log"


def test_three_answers_and_loads_stand_on_the_screen(log: Log, show: Open):
    at = answer(show(log), load="92,5")
    assert not at.exception
    assert at.title[0].value == "Weights"
    text = words(at)
    assert "Declared 3RM 92.5 kg, today" in sources(at)
    assert "a side" in text
    assert people.members(log)[0].name == "Wren"
    assert places.places(log)[0].name == "Gym"


def test_pounds_all_the_way(log: Log, show: Open):
    at = answer(show(log), load="205", unit="lb", place="A gym with pound discs")
    assert "Declared 3RM 205 lb, today" in sources(at)
    assert "lb a side" in words(at)


def test_without_a_rep_max_it_leads_to_rising_sets_and_logs_them_with_one_touch(log: Log, show: Open):
    at = show(log)
    at.radio(key="first_run_known").set_value("I don't know one").run()
    assert not [field for field in at.text_input if field.key == "first_run_load"]
    at = answer(at, load=None)
    assert at.title[0].value == "Weights"
    assert "20 kg" in words(at)
    assert "empty bar" in words(at)
    at.button(key="first_max_left_6").click().run()
    member = people.members(log)[0]
    logged = journal.sessions(log, member.id)[0].sets
    assert [(str(row.load), row.reps, row.rir) for row in logged] == [("20 kg", 5, 6)]
    while any(button.key == "first_max_left_3" for button in at.button):
        at.button(key="first_max_left_3").click().run()
    assert "That is enough" in at.success[0].value
    sources_now = next(pills for pills in at.pills if pills.key.startswith("weights_source"))
    at = sources_now.set_value("estimated").run()
    assert "likely" in words(at)


def test_a_guess_is_declared_and_a_test_is_tested(log: Log, show: Open):
    at = show(log)
    at.radio(key="first_run_known").set_value("I tested it").run()
    assert at.date_input(key="first_run_day").value is None
    at.date_input(key="first_run_day").set_value(this_day() - timedelta(days=35))
    at = answer(at, known="I tested it")
    assert "Tested 3RM 90 kg, 5 weeks ago" in sources(at)


def test_a_test_without_its_day_is_asked_for_it(log: Log, show: Open):
    at = answer(show(log), known="I tested it")
    assert "Day of the test" in words(at)
    assert rows(log) == 0


def test_nothing_is_answered_beforehand_and_all_that_is_missing_is_named_at_once(log: Log, show: Open):
    at = show(log)
    assert [radio.value for radio in at.radio] == [None, None, None]
    assert at.selectbox(key="first_run_lift").value is None
    assert at.number_input(key="first_run_reps").value is None
    at.button(key="first_run_begin").click().run()
    told = words(at)
    for each in (
        "The member has no name",
        "kg or lb",
        "where you train",
        "Say whether",
        "The lift has no name",
        "repetitions",
        "Rep-max:",
    ):
        assert each in told, each
    assert told.count("Not saved.") == 1
    assert rows(log) == 0


def test_it_is_said_whether_there_are_loads(log: Log, show: Open):
    at = show(log)
    at.radio(key="first_run_known").set_value("I don't know one").run()
    at = answer(at, load=None)
    assert "Here are your loads" not in words(at)
    assert "No rep-max is known yet" in words(at)


def test_with_a_rep_max_the_loads_are_there(log: Log, show: Open):
    assert "Here are your loads" in words(answer(show(log)))


def test_a_home_without_a_bar_uses_its_dumbbells(log: Log, show: Open):
    at = show(log)
    at.radio(key="first_run_place").set_value("At home, no bar").run()
    at.text_input(key="first_run_bells").set_value("10 15 20")
    at = answer(at, load="20", place="At home, no bar")
    assert "Front squat, dumbbells" in at.selectbox(key="weights_lift").options
    assert "15 kg each" in words(at)


def test_a_bad_answer_gets_one_message_and_nothing_is_written(log: Log, show: Open):
    at = show(log)
    for name, load in (
        ("", "90"), ("  ", "90"), ("Wren", ""), ("Wren", "ninety"), ("Wren", "-4"), ("Wren", "2000"), ("Wren", "nan"),
    ):  # fmt: skip
        at = answer(at, name=name, load=load)
        assert words(at).count("Not saved.") == 1, (name, load)
        assert at.title[0].value == "Begin your log"
    assert rows(log) == 0


def test_a_name_that_is_too_long_is_told_and_not_cut(log: Log, show: Open):
    at = show(log)
    assert not at.text_input(key="first_run_name").proto.max_chars  # the browser would cut a paste without a word
    at = answer(at, name="W" * 201)
    assert "The name has 201 letters." in words(at)
    assert at.text_input(key="first_run_name").value == "W" * 201
    assert rows(log) == 0


def test_what_was_typed_is_still_there_after_a_bad_answer(log: Log, show: Open):
    at = answer(show(log), load="ninety")
    assert at.text_input(key="first_run_name").value == "Wren"
    at.text_input(key="first_run_load").set_value("90")
    at.button(key="first_run_begin").click().run()
    assert at.title[0].value == "Weights"


def test_beginning_can_be_taken_back(log: Log, show: Open):
    at = answer(show(log))
    at.button(key="frame_undo").click().run()
    assert people.members(log) == ()
    assert at.title[0].value == "Begin your log"
