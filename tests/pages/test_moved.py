"""A reader whose balancer moves them to another server: the first touch there is never lost without a word."""

from __future__ import annotations

import pytest

from tests.apart import apart
from tests.server import load
from tests.server.browserless import Reader, WentWrongError
from tests.stores import address_of


def test_the_first_touch_at_another_server_is_said_to_have_done_nothing_and_the_next_one_logs(log):
    (member,) = load.fill(log, 1)
    told = load.Told()

    async def read(servers):
        async with Reader(servers[0], f"member={member}") as page:
            await page.touch("Done:")
            for to in (1, 0):
                await page.move(servers[to])
                with pytest.raises(WentWrongError, match=r"Not saved\. This page had come to another server"):
                    await page.touch("Done:")
                await page.touch("Done:")
                assert page.notice.startswith("Saved: 5 × ")

    with load.served(address_of(log)) as servers:
        apart(read(servers))
    told.saved[member] = 3
    assert load.lost(log, told) == []
