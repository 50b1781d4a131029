"""Who makes room for whom, without a server."""

from __future__ import annotations

import subprocess
import sys
from itertools import count

import pytest

from tracker.door.crowd import KEPT_FILES, LEFT_FILES, MOST, SEAT, Crowd, Seat, come_in, room_for

HERE = "127.0.0.1"


class Line:
    """The transport of a connection, that only notes its end."""

    def __init__(self, seat: Seat) -> None:
        self.seat, self.ended = seat, False

    def abort(self) -> None:
        self.ended = True
        self.seat.close()


@pytest.fixture
def connect():
    """Connect to a crowd from a host, and return the connection and whether it got in."""
    ports, made = count(1), []

    def connected(crowd, host):
        seat = Seat()
        seat.peer, seat.host, seat.here = (host, next(ports)), host, host == HERE
        seat.transport, taken = Line(seat), crowd.enter(seat)
        seat.crowd = crowd if taken else None
        made.append(seat)
        return seat, taken

    yield connected
    for each in made:
        each.close()


def ended(seats):
    return [each.transport.ended for each in seats]


def test_of_one_address_the_stranger_who_has_waited_longest_makes_room(connect):
    crowd = Crowd(room=100, of_one_address=3)
    seats = [connect(crowd, "192.168.1.9")[0] for _ in range(5)]
    other = connect(crowd, "192.168.1.10")[0]
    assert ended([*seats, other]) == [True, True, False, False, False, False]
    assert len(crowd.seats) == 4


def test_who_came_through_the_gate_is_counted_among_strangers_no_more_and_stays(connect):
    crowd = Crowd(room=100, of_one_address=2)
    phone = connect(crowd, "192.168.1.9")[0]
    come_in({"state": {SEAT: phone}})
    seats = [connect(crowd, "192.168.1.9")[0] for _ in range(3)]
    assert ended([phone, *seats]) == [False, True, False, False]


def test_this_machine_is_held_to_no_number_and_finds_room_before_others(connect):
    crowd = Crowd(room=6, of_one_address=4)
    browser = [connect(crowd, HERE)[0] for _ in range(3)]
    few, many = connect(crowd, "192.168.1.8")[0], [connect(crowd, "192.168.1.9")[0] for _ in range(2)]
    assert not any(ended([*browser, few, *many]))
    browser.append(connect(crowd, HERE)[0])
    assert ended([*browser, few, *many]) == [False, False, False, False, False, True, False]


def test_where_all_have_come_in_a_newcomer_is_refused(connect):
    crowd = Crowd(room=2)
    for _ in range(2):
        connect(crowd, "192.168.1.9")[0].know()
    assert connect(crowd, HERE)[1] is False
    assert len(crowd.seats) == 2


def test_a_place_is_given_back_once(connect):
    crowd = Crowd(room=2)
    seat = connect(crowd, "192.168.1.9")[0]
    seat.close()
    seat.close()
    assert (crowd.seats, crowd.strangers) == ({}, {})


def test_a_request_that_came_by_another_server_has_no_place():
    come_in({})
    come_in({"state": {}})


def test_a_page_costs_the_files_that_it_holds_and_strangers_make_room_for_it(connect):
    crowd = Crowd(room=10)
    pages = [connect(crowd, HERE)[0] for _ in range(2)]
    for each in pages:
        crowd.widen(each, 4)
    lines = [connect(crowd, HERE)[0] for _ in range(2)]
    assert not any(ended([*pages, *lines]))  # ten files: all is taken
    member = connect(crowd, HERE)[0]
    assert ended([*pages, *lines, member]) == [True, False, False, False, False]
    member.know()
    crowd.widen(member, 4)  # which left room for it
    assert ended([*pages, *lines, member]) == [True, False, False, False, False]
    assert crowd.files == 10
    for each in [*pages, *lines, member]:
        each.close()
    assert (crowd.files, crowd.going) == (0, set())


def test_a_page_of_somebody_who_came_in_stays_whatever_it_holds_and_nobody_waits_for_ever(connect):
    crowd = Crowd(room=2)
    page = connect(crowd, HERE)[0]
    page.know()
    crowd.widen(page, 4)
    assert ended([page]) == [False]
    assert not crowd.is_emptying()  # nobody is leaving: who comes now is refused, not left to wait
    assert connect(crowd, HERE)[1] is False


def test_a_connection_that_comes_again_before_it_was_closed_counts_once(connect):
    crowd = Crowd(room=10)
    former, again = connect(crowd, HERE)[0], Seat()
    again.peer, again.host, again.here = former.peer, HERE, True
    assert crowd.enter(again)
    again.crowd = crowd
    former.close()
    assert (crowd.files, list(crowd.seats.values())) == (1, [again])
    again.close()
    assert (crowd.files, crowd.strangers) == (0, {})


def test_there_are_only_so_many_connections_however_many_files_there_are(connect):
    crowd = Crowd(room=100, most=2)
    seats = [connect(crowd, HERE)[0] for _ in range(3)]
    assert ended(seats) == [True, False, False]


@pytest.mark.parametrize(
    ("files", "room"),
    [(20, 16), (256, 256 - KEPT_FILES - 85), (4_096, 4_096 - KEPT_FILES - LEFT_FILES), (10**9, 4 * MOST)],
)
def test_room_is_what_the_files_leave(files, room):
    assert room_for(files) == room


@pytest.mark.skipif(sys.platform == "win32", reason="there is no such limit")
def test_the_server_opens_as_many_files_as_it_may():
    code = "from tracker.door.serving import raise_limit_of_files as more; import os; print(more()); print(os.sysconf('SC_OPEN_MAX'))"
    command = ["sh", "-c", 'ulimit -Sn 200 && ulimit -Hn 900 && exec "$0" -c "$1"', sys.executable, code]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["900", "900"]
