"""A gym's people by touches: from one table to the first session handed to a class, and who did it."""

from __future__ import annotations

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, opened, words
from tracker.desk.coach import classes
from tracker.desk.day import log_set, today
from tracker.desk.people import groups, people
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log

TABLE = "name\tunit\tgroup\n" + "".join(
    f"Rower {at + 100}\tkg\t{('Early', 'Late', 'Barbell')[at % 3]}\n" for at in range(40)
)


def test_from_one_table_to_who_did_the_first_session(log: Log, show: Open) -> None:
    coach = people.add_member(log, "Jo")
    at = show(log, "roster", coach.id)
    at.text_area(key="roster_text").set_value(TABLE.replace("kg\tLate", "stone\tLate", 1)).run()
    assert "line 3, unit: 'stone' is no unit. Write kg or lb, or nothing." in words(at)
    assert not [each for each in at.button if each.key == "roster_take"]
    at.text_area(key="roster_text").set_value(TABLE).run()
    assert "40 members, 40 of them new; 3 groups, 3 of them new" in words(at)
    assert len(people.members(log)) == 1
    at.button(key="roster_take").click().run()
    assert "Taken: 40 members" in words(at)
    assert at.text_area(key="roster_text").value == ""
    at = show(log, "coach", coach.id, part="classes")
    assert "There is no class yet" in words(at)
    early = next(each for each in groups.groups(log) if each.name == "Early")
    opened(at, "class_new")
    at.text_input(key="class_new_name").set_value("Evening")
    at.text_input(key="class_new_times").set_value("Mon 18:00")
    at.selectbox(key="class_new_group").set_value(early.id)
    next(each for each in at.button if each.label == "Add the class").click().run()
    (evening,) = classes.classes(log)
    assert (evening.name, evening.total, evening.times) == ("Evening", 14, ((0, "18:00"),))
    at = show(log, "sheet", coach.id)
    at.text_area(key="sheet_text").set_value("Title: Tide\nFront squat\n1 x 3 @ 60 kg\n").run()
    at.button(key="hand_take").click().run()
    assert "Tide is in the calendar of 14 members of Evening" in words(at)
    at.button(key="hand_take").click().run()
    assert "All of Evening have Tide already" in words(at)
    first = next(each for each in people.members(log) if each.id in early.member_ids)
    step = today.steps(log, first.id)[0]
    asked = step.sets[0]
    new = NewSet(asked.lift.id, kg(60), 3, planned_set_id=asked.id, planned_round=1, member_step_id=step.id)
    log_set.log_set(log, first.id, this_day(), new)
    at = show(log, "coach", coach.id, part="classes")
    assert not at.exception
    text = words(at)
    assert "1 of 14 did it, 13 silent" in text
    assert "front squat 3 × 60 kg" in text.replace("\u00a0", " ")


def test_groups_are_changed_by_touches(log: Log, show: Open) -> None:
    jo, flo = people.add_member(log, "Jo"), people.add_member(log, "Flo")
    at = show(log, "roster", jo.id, part="groups")
    at.text_input(key="group_name").set_value("Early")
    next(each for each in at.button if each.label == "Add the group").click().run()
    (group,) = groups.groups(log)
    opened(at, f"group_{group.id}")
    at.multiselect(key=f"group_in_{group.id}").set_value([jo.id, flo.id]).run()
    assert groups.groups(log)[0].total == 2
    opened(at, f"group_{group.id}")
    at.button(key=f"group_gone_{group.id}").click().run()
    assert groups.groups(log) == ()
    assert "Removed: Early; its members stay" in words(at)
    assert "Nobody signs in here" in words(show(log, "roster", jo.id, part="invite"))
