"""Dumbbells that are stamped in pounds: the unit is said at the card, for the day."""

from __future__ import annotations

from tests.day import this_day
from tests.pages.conftest import Open, tap, words
from tests.pages.squats import done
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log.unit_of_work import Log


def test_the_pair_is_kept_in_pounds_and_goes_on_so(log: Log, show: Open):
    member = people.add_member(log, "Agathe")
    sheets.take_sheet(log, [member.id], "Floor press, dumbbells 4x10 @ 15 kg", this_day())
    at = show(log)
    tap(at, "change_it")
    tap(at, "unit_lift")
    (field,) = [each for each in at.text_input if each.key.endswith("_load")]
    assert field.label == "Load of each, lb"
    field.set_value("35").run()
    (log_it,) = [each for each in at.button if each.key.endswith("_log") and each.label == "Log this set"]
    tap(at, log_it.key)
    assert "10 × 35 lb each (about 16 kg each)" in words(at).replace("</b>", "")
    tap(at, "carry_on")
    for _ in range(3):
        assert at.button(key="log_as_asked").label == "Done: 10 × 35 lb each"
        tap(at, "log_as_asked")
    assert {str(row.load) for row in done(log, member.id)} == {"35 lb"}
