"""Whatever a browser says of its time zone, the pages go on; the real ones are those of the tz database (iana.org/time-zones)."""

from __future__ import annotations

from zoneinfo import ZoneInfo

import pytest
import streamlit as st

from tests.pages.conftest import Open, words
from tracker.components.frame import frame
from tracker.components.frame.zone import zone_named
from tracker.desk.people import devices

FAR = ("Pacific/Kiritimati", "Pacific/Pago_Pago")  # 14 hours ahead of UTC and 11 behind


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


@pytest.fixture(params=FAR)
def reader(request, monkeypatch) -> ZoneInfo:
    """The reader's browser is far from the server."""
    monkeypatch.setattr(type(st.context), "timezone", request.param)
    return ZoneInfo(request.param)


@pytest.mark.sqlite("pair phones with a file beside the log")
def test_a_phone_was_paired_by_the_clock_of_who_reads_it(log, wren, show: Open, reader):
    devices.pairing(log.url).pair("phone", devices.new_code(log).text, "Phone")
    at = show(log, "preferences", wren.id, part="devices")
    (device,) = devices.paired(log)
    there = device.paired_at.astimezone(reader)
    assert f"Paired today {there:%H:%M}" in words(at)
