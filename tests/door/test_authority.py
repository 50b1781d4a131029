"""A household's own authority: bound to this machine's names and private addresses, its key for one account, found by phones."""

from __future__ import annotations

import socket
import ssl
import stat
import threading
import urllib.error
import urllib.request
from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import serialization

from tracker.door import authority
from tracker.door.authority import made
from tracker.door.trust import serve_trust
from tracker.errors import BadInputError
from tracker.log.backups import beside

ADDRESS = "192.168.7.5"


@pytest.fixture
def keys(tmp_path):
    return tmp_path / "log.db.devices"


def root_of(keys):
    return x509.load_pem_x509_certificate(keys.with_name("log.db.devices.authority.pem").read_bytes())


def shaken(trusted: bytes, served, name: str) -> str:
    """Shake hands as a browser does that trusts one authority; return why it refuses, or nothing."""
    theirs = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    theirs.load_cert_chain(served)
    ours = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    ours.load_verify_locations(cadata=trusted)
    one, other = socket.socketpair()

    def answer():
        try:
            with theirs.wrap_socket(other, server_side=True):
                pass
        except (ssl.SSLError, OSError):
            pass

    thread = threading.Thread(target=answer)
    thread.start()
    try:
        with ours.wrap_socket(one, server_hostname=name):
            return ""
    except ssl.SSLCertVerificationError as err:
        return err.verify_message
    finally:
        one.close()
        thread.join()


def test_whoever_trusts_the_authority_gets_in_by_address_and_name(keys):
    ours = made(keys, ["laptop.home.arpa"], ADDRESS)
    for name in (ADDRESS, "laptop.home.arpa", "localhost", "127.0.0.1"):
        assert shaken(ours.authority, ours.certificate, name) == ""
    assert shaken(ours.authority, ours.certificate, "192.168.7.6")


@pytest.mark.parametrize(
    ("names", "address"),
    [({"bank.example"}, ADDRESS), ({"localhost"}, "203.0.113.9"), ({"x.local.bank.example"}, ADDRESS)],
)
def test_what_the_authority_s_key_signs_beyond_its_bounds_is_refused(keys, names, address):
    ours = made(keys, [], ADDRESS)
    root, key = authority._read(keys.with_name("log.db.devices.authority.pem"))
    stray = keys.with_name("stray.pem")
    authority._write(stray, *authority._certificate(root, key, names, address, datetime.now(UTC)))
    for name in (*names, address):
        assert "permitted subtree violation" in shaken(ours.authority, stray, name)  # OpenSSL's words


def test_it_makes_no_further_authority_and_is_bound_critically(keys):
    made(keys, [], ADDRESS)
    found = root_of(keys).extensions
    basic, bound = (found.get_extension_for_class(each) for each in (x509.BasicConstraints, x509.NameConstraints))
    assert (basic.critical, basic.value.ca, basic.value.path_length) == (True, True, 0)
    assert bound.critical
    kinds = {type(each) for each in bound.value.permitted_subtrees}
    assert kinds == {x509.DNSName, x509.IPAddress}  # a form that is left out is bound to nothing


def test_keys_are_for_one_account_and_lie_where_no_backup_takes_them(keys, tmp_path):
    ours = made(keys, [], ADDRESS)
    (tmp_path / "log.db").touch()
    for name in ("authority", "certificate"):
        path = keys.with_name(f"log.db.devices.{name}.pem")
        assert stat.S_IMODE(path.stat().st_mode) == 0o600
        assert path in beside(tmp_path / "log.db")  # what others may read of it is told
    with pytest.raises(ValueError, match=r"(?i)key|pem|data"):
        serialization.load_der_private_key(ours.authority, None)


def test_it_stays_the_same_until_a_name_or_the_time_wants_another(keys):
    now = datetime.now(UTC)
    first = made(keys, [], ADDRESS, now)
    before = first.certificate.read_bytes()
    again = made(keys, [], ADDRESS, now + timedelta(days=1))
    assert (again.authority, again.new, again.certificate.read_bytes()) == (first.authority, False, before)
    moved = made(keys, [], "10.0.0.9", now)  # the network gave another address: phones go on trusting it
    assert (moved.authority, shaken(moved.authority, moved.certificate, "10.0.0.9")) == (first.authority, "")
    later = made(keys, [], "10.0.0.9", now + timedelta(days=300))
    assert later.authority == first.authority
    leaf = x509.load_pem_x509_certificate(later.certificate.read_bytes())
    assert leaf.not_valid_after_utc - (now + timedelta(days=300)) <= timedelta(days=397)
    named = made(keys, ["other.home.arpa"], ADDRESS, now)
    assert (named.new, named.authority == first.authority) == (True, False)


def test_a_public_address_and_a_broken_file_are_refused(keys):
    with pytest.raises(BadInputError, match="no private address"):
        made(keys, [], "8.8.8.8")
    assert not list(keys.parent.iterdir())
    keys.with_name("log.db.devices.authority.pem").write_text("nothing")
    with pytest.raises(BadInputError, match="can't be read"):
        made(keys, [], ADDRESS)


def test_the_page_that_a_phone_begins_with_holds_the_certificate_and_how_to_take_it_off(keys):
    ours = made(keys, [], ADDRESS)
    server = serve_trust("127.0.0.1", 0, ours, "https://192.168.7.5:8501")
    url = f"http://127.0.0.1:{server.server_address[1]}"
    try:
        with urllib.request.urlopen(f"{url}/", timeout=20) as answer:
            page = answer.read().decode()
            assert "script" not in answer.headers["content-security-policy"]
        assert ours.fingerprint in page
        assert "How to take it off again" in page
        assert "for a household only" in page
        assert page.count("<svg") == 6
        with urllib.request.urlopen(f"{url}/tidemark-home.crt", timeout=20) as answer:
            assert answer.headers["content-type"] == "application/x-x509-ca-cert"
            assert answer.read() == ours.authority
        for path in ("/log.db.devices.authority.pem", "/../log.db", "/day/"):
            with pytest.raises(urllib.error.HTTPError, match="404"):
                urllib.request.urlopen(f"{url}{path}", timeout=20)
    finally:
        server.shutdown()
        server.server_close()
