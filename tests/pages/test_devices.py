"""The devices on the preferences page, where no phone is served: how one would be, who is paired, and removal."""

from __future__ import annotations

import pytest

from tests.pages.conftest import Open, words
from tracker.desk.people import devices
from tracker.log.unit_of_work import Log

pytestmark = pytest.mark.sqlite("pair phones with a file beside the log")


def test_without_nearby_the_page_says_how_phones_come_in_and_offers_no_code(log: Log, wren, show: Open):
    at = show(log, "preferences", wren.id, part="devices")
    assert "tidemark open --nearby" in words(at)
    assert "No phone is paired" in words(at)
    assert not [each for each in at.button if each.label == "Pair a phone"]
    assert not devices.devices_file(log.url).exists()


def test_a_paired_phone_is_listed_and_removed(log: Log, wren, show: Open):
    key = devices.pairing(log.url).pair("phone", devices.new_code(log).text, "<b>Wren's</b> phone")
    at = show(log, "preferences", wren.id, part="devices")
    assert "<b><b>Wren's</b> phone</b>" in words(at)  # escaped in the page; `words` takes that off again
    (device,) = devices.paired(log)
    at.button(key=f"unpair_{device.id}").click().run()
    assert "Removed: <b>Wren's</b> phone" in words(at)
    assert "No phone is paired" in words(at)
    assert devices.pairing(log.url).device(key) is None
