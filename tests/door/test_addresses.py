"""Which address of this machine phones use: the likeliest first, none that the whole internet reaches in the open."""

from __future__ import annotations

from types import SimpleNamespace

import ifaddr
import pytest

from tracker.door.addresses import choose, is_loopback, local_addresses
from tracker.errors import BadInputError


@pytest.fixture
def machine(monkeypatch: pytest.MonkeyPatch):
    """A machine with these networks: `machine(("wlan0", "192.168.1.5"))`."""

    def has(*networks: tuple[str, str | tuple[str, int, int]]) -> None:
        adapters = [SimpleNamespace(nice_name=name, ips=[SimpleNamespace(ip=ip)]) for name, ip in networks]
        monkeypatch.setattr(ifaddr, "get_adapters", lambda: adapters)

    return has


def test_this_machines_own_addresses_are_read():
    assert all(not is_loopback(each) for each in local_addresses())


def test_home_comes_before_what_lies_inside_the_machine_or_through_a_tunnel(machine):
    machine(
        ("lo", "127.0.0.1"), ("docker0", "172.17.0.1"), ("tun0", "10.8.0.2"), ("eth0", "8.8.4.4"),
        ("wlan0", "192.168.1.5"), ("wlan0", "169.254.3.3"), ("wlan0", ("fe80::1", 0, 2)),
    )  # fmt: skip
    assert local_addresses() == ("192.168.1.5", "8.8.4.4", "172.17.0.1", "10.8.0.2")
    assert choose(None, encrypted=False) == "192.168.1.5"
    assert choose("10.8.0.2", encrypted=False) == "10.8.0.2"


@pytest.mark.parametrize("wanted", ["0.0.0.0", "192.168.1.6", "127.0.0.1", "::", "elsewhere.example", "192.168.1.5:80"])
def test_an_address_that_is_not_this_machines_is_refused_with_those_that_are(machine, wanted):
    machine(("wlan0", "192.168.1.5"))
    with pytest.raises(BadInputError, match=r"192\.168\.1\.5\.$"):
        choose(wanted, encrypted=False)


def test_without_a_network_there_is_nothing_to_listen_to(machine):
    machine(("lo", "127.0.0.1"))
    with pytest.raises(BadInputError, match="Join a network"):
        choose(None, encrypted=False)


def test_what_the_whole_internet_reaches_wants_a_certificate(machine):
    machine(("eth0", "8.8.4.4"))
    with pytest.raises(BadInputError, match="--certificate"):
        choose(None, encrypted=False)
    assert choose(None, encrypted=True) == "8.8.4.4"


@pytest.mark.parametrize(
    ("address", "own"),
    [("127.0.0.1", True), ("localhost", True), ("::1", True), ("127.9.9.9", True), ("0.0.0.0", False), ("::", False),
     ("192.168.1.5", False), ("", False), ("elsewhere.example", False), ("127.0.0.1.elsewhere.example", False)],
)  # fmt: skip
def test_what_only_this_machine_reaches(address, own):
    assert is_loopback(address) is own
