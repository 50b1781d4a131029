"""Devices beside the log: no part of its copies, exports and history; named where a member is deleted."""

from __future__ import annotations

import pytest

from tests.readings import newest
from tracker.desk.files import custody, deletion
from tracker.desk.files.export import export
from tracker.desk.history import journal
from tracker.desk.people import devices, people
from tracker.errors import BadInputError

pytestmark = pytest.mark.sqlite("pair phones with a file beside the log")


@pytest.fixture
def key(log):
    """The key of a phone that is paired with the log."""
    return devices.pairing(log.url).pair("phone", devices.new_code(log).text, "Wren's phone")


def test_a_device_is_listed_and_removed_at_the_desk(log, key):
    (device,) = devices.paired(log)
    assert devices.code_state(log).device == "Wren's phone"
    assert devices.remove(log, device.id) == "Wren's phone"
    assert devices.paired(log) == ()
    with pytest.raises(BadInputError, match="removed before"):
        devices.remove(log, device.id)


def test_a_code_can_be_taken_back(log):
    devices.new_code(log)
    devices.end_code(log)
    assert devices.code_state(log) is None


def test_no_copy_and_no_export_holds_a_key_and_a_restore_brings_no_removed_device_back(log, key, tmp_path):
    people.add_member(log, "Wren")
    database, kept = str(log.url.database), tmp_path / "kept.db"
    custody.backup(database, kept)
    written = export(log, tmp_path / "all")
    assert not [name for name in written.files if "device" in name]
    (device,) = devices.paired(log)
    for each in (kept, *(tmp_path / "all").iterdir()):
        assert device.id.encode() not in each.read_bytes()
        assert b"Wren's phone" not in each.read_bytes()
    devices.remove(log, device.id)
    log.close()
    custody.restore(database, kept)
    assert devices.pairing(log.url).device(key) is None


def test_pairing_is_no_act_of_the_log_that_could_be_undone(log, key):
    wren = people.add_member(log, "Wren")
    before = newest(log)
    devices.remove(log, devices.paired(log)[0].id)
    assert newest(log) == before
    assert [each.words for each in journal.acts(log, wren.id, limit=5)] == ["added the member Wren"]


def test_a_deleted_members_name_on_a_device_is_told(log, key):
    wren, ren = people.add_member(log, "Wren"), people.add_member(log, "Ren")
    assert deletion.delete_member(log, ren.id, "Ren").named == ()
    assert deletion.delete_member(log, wren.id, "Wren").named == ("paired device: Wren's phone",)


def test_a_list_that_can_not_be_read_stops_no_deletion(log, key):
    wren = people.add_member(log, "Wren")
    pairing = devices.pairing(log.url)
    pairing.store.close()
    pairing.store.path.write_text("notes " * 5000)
    (told,) = deletion.delete_member(log, wren.id, "Wren").named
    assert "delete this file" in told
