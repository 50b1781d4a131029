"""What is kept in memory is bounded, and what is in use stays."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

from tracker.desk.base.last_used import LastUsed


def test_what_was_used_longest_ago_goes_first():
    few = LastUsed[str, int](2)
    few.keep("a", 1)
    few.keep("b", 2)
    assert few.get("a") == 1
    few.keep("c", 3)
    assert [few.get(key) for key in "abc"] == [1, None, 3]
    few.keep("a", 4)
    few.keep("d", 5)
    assert [few.get(key) for key in "acd"] == [4, None, 5]


def test_many_readers_at_once_never_keep_more():
    few = LastUsed[int, int](8)

    def use(start: int) -> None:
        for key in range(start, start + 500):
            few.keep(key % 50, key)
            assert few.get(key % 50) in (None, *range(10_000))

    with ThreadPoolExecutor(4) as readers:
        for done in [readers.submit(use, start) for start in range(4)]:
            done.result()
    assert sum(few.get(key) is not None for key in range(50)) == 8
