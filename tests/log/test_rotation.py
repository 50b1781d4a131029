"""Which copies may go: simulated over years, and held against the rule for any set of copies."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.log.backups import Copy, copies_of, folder_of, free_name, to_drop

NOW = datetime(2026, 11, 20, 7, 0, tzinfo=UTC)


def copy(at: datetime, why: str = "day") -> Copy:
    return Copy(Path(f"{at:%Y%m%d%H%M%S}-{why}.db"), at, why)


def test_one_a_day_for_three_years_leaves_days_weeks_and_months():
    kept: list[Copy] = []
    for number in range(3 * 365):
        now = NOW + timedelta(days=number)
        kept.append(copy(now))
        gone = to_drop(kept, now)
        kept = [each for each in kept if each not in gone]
    days = [(now - each.at).days for each in sorted(kept, key=lambda each: each.at, reverse=True)]
    assert days[:7] == [0, 1, 2, 3, 4, 5, 6]
    assert len([age for age in days if 7 <= age < 35]) in (4, 5)
    assert all(each.at.isocalendar().weekday == 7 or (each.at + timedelta(days=1)).day == 1 for each in kept[:-7])
    assert len({(each.at.year, each.at.month) for each in kept}) in (12, 13)
    assert max(days) < 366
    assert len(kept) <= 7 + 5 + 13


moments = st.integers(0, 900 * 24).map(lambda hours: NOW - timedelta(hours=hours))
whys = st.sampled_from(["day", "asked", "before-0002", "before-restore"])


@settings(max_examples=200)
@given(st.lists(st.builds(copy, moments, whys), unique_by=lambda each: each.file))
def test_what_the_rule_keeps_is_never_dropped(copies):
    gone = to_drop(copies, NOW)
    assert set(gone) <= set(copies)
    left = [each for each in copies if each not in gone]
    if copies:
        newest = max(copies, key=lambda each: each.at)
        assert newest.at in [each.at for each in left]
    assert not [each for each in gone if NOW - each.at < timedelta(days=7)]
    assert not [each for each in gone if each.why.startswith("before-") and NOW - each.at < timedelta(days=90)]
    for each in copies:
        if NOW - each.at < timedelta(days=366):
            assert any((other.at.year, other.at.month) == (each.at.year, each.at.month) for other in left)
    assert to_drop(left, NOW) == ()  # and nothing more the next time


def test_a_clock_that_was_set_back_drops_nothing_that_seems_to_come():
    ahead = [copy(NOW + timedelta(days=number)) for number in range(40)]
    assert to_drop(ahead, NOW) == ()


def test_a_name_that_a_person_gave_is_not_ours(tmp_path):
    log = tmp_path / "log.db"
    folder_of(log).mkdir()
    mine = free_name(log, "before-0002", NOW)
    mine.touch()
    second = free_name(log, "before-0002", NOW)
    second.touch()
    assert mine.name == "log-20261120-070000Z-before-0002.db"
    assert second.name == "log-20261120-070000Z-before-0002.2.db"
    for name in (
        "log-20261120-070000Z-day (copy).db",
        "my best.db",
        "log-20269999-070000Z-day.db",
        "other-20261120-070000Z-day.db",
    ):
        (folder_of(log) / name).touch()
    assert [each.file for each in copies_of(log)] == [second, mine]
    assert {each.why for each in copies_of(log)} == {"before-0002"}


def test_of_copies_of_one_second_the_later_is_the_newer_whatever_it_was_made_for(tmp_path):
    log = tmp_path / "log.db"
    folder_of(log).mkdir()
    first = free_name(log, "before-restore", NOW)
    first.touch()
    second = free_name(log, "asked", NOW)
    second.touch()
    assert [each.file for each in copies_of(log)] == [second, first]
