"""The first run: five questions, one act at the last touch, and then a first session whose first set stands there."""

from __future__ import annotations

from datetime import timedelta

import pytest
from sqlalchemy import func, select

from tests.day import this_day
from tests.pages.conftest import Open, words
from tracker.desk.day import today
from tracker.desk.history import journal
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.log.models import Change, Lift, Member, Place
from tracker.log.unit_of_work import Log


def rows(log: Log) -> int:
    with log.reading() as session:
        return sum(
            session.scalar(select(func.count()).select_from(table)) or 0 for table in (Change, Lift, Member, Place)
        )


def tap(at, key: str):
    return at.button(key=key).click().run()


def who(at, name="Wren", unit="kg"):
    at.text_input(key="first_name").set_value(name)
    return tap(at, f"first_{unit}")


def lifts(at, *names: str):
    usual = at.pills(key="first_usual")
    first = [name for name in names if name in usual.options or name.capitalize() in usual.options]
    usual.set_value(first)
    at.multiselect(key="first_more").set_value([name for name in names if name not in first])
    return tap(at, "first_lifts_next")


def best(at, reps=3, load="90"):
    at.pills(key="first_reps").set_value(reps)
    at.text_input(key="first_load").set_value(load)
    return tap(at, "first_max_next")


def to_the_end(at, place="gym", names=("front squat",), load="90", **more):
    at = lifts(tap(who(at, **more), f"first_place_{place}"), *names)
    return tap(best(at, load=load), "first_guess") if load else tap(at, "first_unknown")


def the_set(log: Log):
    (member,) = people.members(log)
    plan = today.day_plan(log, member.id, this_day())
    assert plan.next_line is not None
    return plan, plan.next_line


def test_an_empty_log_asks_one_question_at_a_time(log: Log, show: Open):
    at = show(log)
    titles = [at.title[0].value]
    at = who(at)
    titles.append(at.title[0].value)
    at = tap(at, "first_place_gym")
    titles.append(at.title[0].value)
    at = lifts(at, "front squat", "bench press")
    titles.append(at.title[0].value)
    at = best(at)
    titles.append(at.title[0].value)
    at = tap(at, "first_guess")
    titles.append(at.title[0].value)
    assert titles == [
        "Who is training?", "Where do you train?", "What will you lift first?", "Your best front squat?",
        "When did you lift 3 × 90 kg?", "Your first session",
    ]  # fmt: skip
    assert rows(log) == 0  # nothing is written before the last touch


def test_it_ends_on_the_day_page_with_the_first_set_of_a_loaded_bar(log: Log, show: Open):
    at = to_the_end(show(log), load="92,5", names=("front squat", "bench press"))
    assert "5 × 72.5 kg" in words(at)  # 80 % of 92.5 is 74; of a guess it is rounded down
    assert "a side" in words(at)
    at = tap(at, "first_start")
    assert not at.exception
    assert at.title[0].value == "First session"
    assert "Wren's log is begun." in words(at)
    plan, line = the_set(log)
    assert (line.lift.title, line.reps, str(line.made.load)) == ("front squat, barbell", 5, "72.5 kg")
    assert [each.lift.name for each in plan.lines].count("front squat") == 3
    assert plan.lines[-1].lift.name == "bench press"
    at.button(key="log_as_asked").click().run()
    (entry,) = journal.sessions(log, plan.member.id)
    assert [(str(row.load), row.reps) for row in entry.sets] == [("72.5 kg", 5)]


@pytest.mark.parametrize("ago", [None, 0, 35, 200])
@pytest.mark.parametrize(("place", "load"), [("gym", "92.5"), ("rack", "101"), ("dumbbells", "19")])
def test_what_is_shown_at_the_end_is_what_the_day_asks(log: Log, show: Open, place: str, load: str, ago: int | None):
    at = best(lifts(tap(who(show(log)), f"first_place_{place}"), "front squat"), load=load)
    if ago is None:
        at = tap(at, "first_guess")
    else:
        at.date_input(key="first_day").set_value(this_day() - timedelta(days=ago))
        at = tap(at, "first_on_day")
    shown = words(at)
    tap(at, "first_start")
    _, line = the_set(log)
    each = " each" if place == "dumbbells" else ""
    assert f"{line.reps} × {line.made.load}{each}" in shown


def test_who_knows_no_max_rises_from_the_empty_bar_and_has_an_estimate(log: Log, show: Open):
    at = to_the_end(show(log), load=None)
    assert "Rising sets find your max" in words(at)
    assert "empty bar" in words(at)
    at = tap(at, "first_start")
    plan, line = the_set(log)
    assert (str(line.made.load), line.reps) == ("20 kg", 5)
    loads = [each.made.load.kg for each in plan.lines]
    assert loads == sorted(set(loads))
    assert len(loads) == 5
    assert rep_maxes.rep_maxes(log, plan.member.id) == ()


def test_pounds_all_the_way(log: Log, show: Open):
    at = tap(to_the_end(show(log), unit="lb", load="205"), "first_start")
    assert "lb" in words(at)
    _, line = the_set(log)
    assert line.made.load.unit == "lb"
    assert {item.mass.unit for item in places.places(log)[0].items} == {"lb"}


def test_dumbbells_at_home_are_lifted_with_dumbbells(log: Log, show: Open):
    at = who(show(log))
    at.text_input(key="first_bells").set_value("10 15 20")
    at = lifts(tap(at, "first_place_dumbbells"), "front squat")
    at = tap(tap(best(at, load="20"), "first_guess"), "first_start")
    _, line = the_set(log)
    assert (line.lift.title, str(line.made.load)) == ("front squat, dumbbells", "15 kg")
    assert [str(item.mass) for item in places.places(log)[0].items] == ["10 kg", "15 kg", "20 kg"]


def test_a_body_alone_is_asked_for_no_load(log: Log, show: Open):
    at = lifts(tap(who(show(log)), "first_place_floor"), "air squat", "push-up")
    assert at.title[0].value == "Your first session"
    at = tap(at, "first_start")
    plan, line = the_set(log)
    assert (line.lift.implement, line.reps) == ("body", 5)
    assert len(plan.lines) == 6


def test_more_than_a_hundred_and_twenty_movements_can_be_chosen_wherever_one_trains(log: Log, show: Open):
    for place in ("dumbbells", "rack", "gym", "floor"):
        at = tap(who(show(log)), f"first_place_{place}")
        names = [*at.pills(key="first_usual").options, *at.multiselect(key="first_more").options]
        assert len(set(names)) == len(names) >= 120
        barbells = [name for name in names if name.endswith(", barbell")]
        assert bool(barbells) == (place in ("rack", "gym")), place


def test_a_movement_of_the_long_list_and_one_s_own_name_are_taken(log: Log, show: Open):
    at = lifts(tap(who(show(log)), "first_place_gym"), "zercher squat", "Mill carry")
    at = tap(tap(at, "first_unknown"), "first_start")
    assert {lift.title for lift in people.lifts(log)} == {"zercher squat, barbell", "mill carry, barbell"}


def test_every_question_can_be_skipped(log: Log, show: Open):
    at = tap(who(show(log), name=""), "first_skip")  # no name, no place
    at = tap(at, "first_skip")  # no lift
    assert at.title[0].value == "Your log is ready"
    at = tap(at, "first_start")
    (member,) = people.members(log)
    assert (member.name, member.place_id, places.places(log)) == ("Me", None, ())
    assert at.title[0].value == "Today"


def test_a_max_whose_day_is_skipped_is_no_test(log: Log, show: Open):
    at = lifts(tap(who(show(log)), "first_place_gym"), "front squat")
    tap(tap(best(at), "first_skip"), "first_start")
    (known,) = rep_maxes.rep_maxes(log, people.members(log)[0].id)
    assert known.source == "declared"


def test_a_tested_max_has_the_day_of_its_test(log: Log, show: Open):
    at = best(lifts(tap(who(show(log)), "first_place_gym"), "front squat"))
    at = tap(at, "first_on_day")
    assert "Day of the test: No day is chosen." in words(at)
    at.date_input(key="first_day").set_value(this_day() - timedelta(days=35))
    tap(tap(at, "first_on_day"), "first_start")
    (known,) = rep_maxes.rep_maxes(log, people.members(log)[0].id)
    assert (known.source, known.day) == ("tested", this_day() - timedelta(days=35))


def test_one_goes_back_and_what_was_typed_is_there(log: Log, show: Open):
    at = tap(who(show(log), name="Ada"), "first_back")
    assert at.text_input(key="first_name").value == "Ada"
    at = to_the_end(at, name="Ada")
    assert at.title[0].value == "Your first session"
    at = tap(at, "first_back")
    assert at.title[0].value.startswith("When did you")


def test_bad_answers_get_one_message_and_nothing_is_written(log: Log, show: Open):
    at = who(show(log), name="W" * 201)
    assert "The name has 201 letters." in words(at)
    assert not at.text_input(key="first_name").proto.max_chars  # the browser would cut a paste without a word
    at = who(at)
    at.text_input(key="first_bells").set_value("ten")
    at = tap(at, "first_place_dumbbells")
    assert words(at).count("Not saved.") == 1
    at = tap(tap(at, "first_place_gym"), "first_lifts_next")
    assert "No movement is chosen." in words(at)
    at = lifts(at, "back squat", "front squat", "deadlift", "bench press", "press")
    assert "5 are much for a first day." in words(at)
    at = lifts(at, "front squat")
    for reps, load in ((None, "90"), (3, ""), (3, "ninety"), (3, "-4"), (3, "2000"), (3, "nan")):
        at = best(at, reps, load)
        assert words(at).count("Not saved.") == 1, (reps, load)
        assert at.title[0].value == "Your best front squat?"
    assert rows(log) == 0


def test_beginning_can_be_taken_back(log: Log, show: Open):
    at = tap(to_the_end(show(log)), "first_start")
    at.button(key="frame_undo").click().run()
    assert people.members(log) == ()
    assert people.lifts(log) == ()
    assert at.title[0].value == "Who is training?"
