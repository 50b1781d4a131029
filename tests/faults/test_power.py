"""A loss of power in the middle of an act: what reached the disk is any part of what was written since the last sync."""

import random
import shutil
from pathlib import Path

import pytest

from tests.faults.children import write_a_lot_and_die
from tests.faults.whole import faults_of
from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.log.engine import database_url
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log

PAGE, SECTOR = 4096, 512


@pytest.fixture
def before(log, ana, squat):
    """A log at rest with thirty sets, and its bytes."""
    from datetime import date
    from decimal import Decimal

    from tracker.units import Mass

    for number in range(30):
        new = NewSet(squat.id, Mass(Decimal(60), "kg"), 5, note="y" * 300)
        log_set.log_set(log, ana.id, date(2026, 2, 1 + number % 20), new)
    log.close()
    return Path(log.url.database)


def torn(old, new, chance):
    """Mix two states of a file: each page is the old one, the new one, or torn between them; the end may be missing."""
    made = bytearray(new)
    for start in range(0, len(old), PAGE):
        kind = chance.randrange(3)
        if kind == 0:
            made[start : start + PAGE] = old[start : start + PAGE]
        elif kind == 1:
            for sector in range(start, start + PAGE, SECTOR):
                if chance.random() < 0.5:
                    made[sector : sector + SECTOR] = old[sector : sector + SECTOR]
    return bytes(made[: max(len(old), len(made) - PAGE * chance.randrange(4))])


@pytest.mark.parametrize("seed", range(4))
def test_power_lost_in_the_middle_of_an_act_leaves_the_log_as_before_it(before, child, tmp_path, seed):
    chance = random.Random(seed)
    old = before.read_bytes()
    process = child(write_a_lot_and_die, str(before), seed)
    process.join()
    assert process.exitcode == -9
    journal = Path(f"{before}-journal")
    new = before.read_bytes()
    assert journal.exists()
    assert new != old  # parts of the act were in the file already
    for number in range(10):
        folder = tmp_path / str(number)
        folder.mkdir()
        path = folder / before.name
        path.write_bytes(torn(old, new, chance))
        # The journal was synced before its pages were overwritten; what was added to it after that may be missing.
        shutil.copy(journal, f"{path}-journal")
        log = Log(database_url(str(path)))
        assert len(people.members(log)) == 1
        log.close()
        assert path.read_bytes() == old
        assert faults_of(path) == []


@pytest.mark.parametrize("seed", range(5))
def test_a_journal_that_was_cut_off_before_the_file_was_touched_does_no_harm(before, child, tmp_path, seed):
    chance = random.Random(seed)
    old = before.read_bytes()
    child(write_a_lot_and_die, str(before), seed).join()
    journal = Path(f"{before}-journal").read_bytes()
    path = tmp_path / "cut.db"
    path.write_bytes(old)  # none of the pages reached the disk, and only the beginning of the journal did
    Path(f"{path}-journal").write_bytes(journal[: chance.randrange(len(journal))])
    Log(database_url(str(path))).close()
    assert path.read_bytes()[PAGE:] == old[PAGE:]
    assert faults_of(path) == []
