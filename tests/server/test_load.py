"""Two servers over one PostgreSQL: a few members for a few seconds; load.py does the same with fifty for minutes."""

from __future__ import annotations

from tests.apart import apart
from tests.server import load
from tests.server.browserless import Reader
from tests.stores import address_of
from tracker.desk.files.check import check_log


def test_two_servers_share_nothing_but_the_database(log):
    members = load.fill(log, 5)
    with load.served(address_of(log)) as servers:
        told = load.train(members, servers, seconds=240, rest_s=0.2, most=4)
        apart(_one_member_on_both(members[0], servers))
    assert told.problems == []
    assert len(told.touches) == 20
    told.saved[members[0]] += 2
    assert load.lost(log, told) == []
    assert check_log(address_of(log)).ok


async def _one_member_on_both(member_id, servers):
    """What is logged through one server is there for the other, and the same set is not logged twice."""
    async with Reader(servers[0], f"member={member_id}") as one, Reader(servers[1], f"member={member_id}") as two:
        assert list(one.buttons) == list(two.buttons)
        await one.touch("Done:")
        await two.touch("Done:")  # what it shows is logged already: it is told so, and is one set
        assert one.notice == two.notice
        await two.again()
        await two.touch("Undo")
        await one.again()
        await one.touch("Done:")
        await one.touch("Done:")
