"""Whatever a browser says of its time zone, the pages go on; the real ones are those of the tz database (iana.org/time-zones)."""

from __future__ import annotations

import pytest

from tracker.components.frame import frame
from tracker.components.frame.zone import zone_named


@pytest.mark.parametrize(
    "name", ["", "No/Where", "Pacific", "A" * 300, "../../etc/passwd", "/etc/passwd", "a\0b", "\ud800"]
)
def test_what_is_no_zone_leaves_the_day_to_the_server(name):
    assert zone_named(name) is None
    before = frame.today_in(None)
    assert before <= frame.today_in(name) <= frame.today_in(None)  # midnight may come between


def test_a_zone_is_known_by_its_name():
    assert str(zone_named("Pacific/Kiritimati")) == "Pacific/Kiritimati"
    assert (frame.today_in("Pacific/Kiritimati") - frame.today_in("Pacific/Pago_Pago")).days in (1, 2)  # 25 hours apart
