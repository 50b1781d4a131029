"""The gate: by which name, from which page, with whose key; nobody else gets behind it."""

from __future__ import annotations

from http.cookies import SimpleCookie
from typing import Any

import pytest

from tests.apart import apart
from tests.door.asgi import HOST, LAN, LAPTOP, NEARBY, PHONE, ask, cookie, gate, laptop_key, phone_key
from tracker.door.gate import MOST_BODY, Nearby
from tracker.door.visitor import HEADER, Visitor, visitor_in

OWN = f"http://{HOST}"
HERE: dict[str, Any] = {"client": LAPTOP, "server": LAPTOP, "host": "127.0.0.1:8501"}
PATHS = ["/", "/today", "/_stcore/health", "/_stcore/host-config", "/_stcore/upload_file/a/b", "/media/x", "/static/js/x",
         "/component/x", "/pair/", "/Pair", "//pair", "/laptop/", "/pair/../today", "/%70air"]  # fmt: skip


def form(pairing, text=None, name="Wren's phone"):
    return {"code": text or pairing.new_code("phone").text, "name": name}


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("method", ["GET", "HEAD", "POST", "PUT", "DELETE", "OPTIONS", "BREW"])
def test_without_a_key_nothing_behind_the_gate_is_reached(pairing, path, method):
    through, behind = gate(pairing)
    answer = ask(through, path=path, method=method, origin=OWN)
    assert answer.status == 401
    assert behind.reached == []
    assert answer.body != b"page"


def test_without_a_key_a_bare_socket_is_refused(pairing):
    through, behind = gate(pairing)
    for origin in (OWN, None, "null", "http://elsewhere.example"):
        answer = ask(through, "websocket", "/_stcore/stream", origin=origin)
        assert (answer.status, answer.closed) == (0, 4401)
    assert behind.reached == []


def test_a_person_is_shown_the_form_and_a_script_one_line(pairing):
    through, _ = gate(pairing)
    page = ask(through)
    assert b'<form method="post" action="/pair"' in page.body
    assert "script" not in page.headers["content-security-policy"]
    assert page.headers["cache-control"] == "no-store"
    line = ask(through, path="/_stcore/health", more=(("accept", "*/*"),), method="POST", origin=OWN)
    assert line.body.startswith(b'"This device is not paired')


def test_a_phone_is_paired_by_its_code_and_then_let_through(pairing):
    through, behind = gate(pairing)
    answer = ask(through, path="/pair", method="POST", origin=OWN, form=form(pairing))
    assert (answer.status, answer.headers["location"]) == (303, "/")
    morsel = SimpleCookie(answer.headers["set-cookie"])[pairing.cookie]
    assert (morsel["httponly"], morsel["samesite"], morsel["path"], morsel["secure"]) == (True, "Strict", "/", "")
    assert behind.reached == []
    assert ask(through, cookie=cookie(pairing, morsel.value)).body == b"page"
    device = pairing.device(morsel.value)
    assert behind.visitor == Visitor("phone", device.id, OWN)
    assert ask(through, "websocket", "/_stcore/stream", origin=OWN, cookie=cookie(pairing, morsel.value)).status == 101


def test_with_a_certificate_the_key_is_for_tls_alone(opened):
    pairing = opened(encrypted=True)
    through, _ = gate(pairing, Nearby(LAN, 8501, "laptop.home.arpa", encrypted=True))
    host = "laptop.home.arpa:8501"
    ask_code = {"path": "/pair", "method": "POST", "host": host}
    assert ask(through, **ask_code, origin=f"http://{host}", form=form(pairing)).status == 403
    answer = ask(through, **ask_code, origin=f"https://{host}", form=form(pairing))
    assert answer.headers["set-cookie"].startswith("__Host-tidemark_")
    assert answer.headers["set-cookie"].endswith("; HttpOnly; SameSite=Strict; Secure")
    assert b"not encrypted" not in ask(through, host=host).body


def test_looking_at_a_link_with_its_code_does_not_use_it_up(pairing):
    through, _ = gate(pairing)
    code = pairing.new_code("phone")
    for method in ("GET", "HEAD", "GET"):
        answer = ask(through, path="/pair", method=method, query=f"code={code.text}")
        assert answer.status == 200
    assert f'value="{code.text}"'.encode() in answer.body
    assert "set-cookie" not in answer.headers
    assert ask(through, path="/pair", method="POST", origin=OWN, form=form(pairing, code.text)).status == 303


def test_a_paired_phone_that_follows_a_link_again_spends_nothing(pairing):
    through, _ = gate(pairing)
    key, code = phone_key(pairing), pairing.new_code("phone")
    answer = ask(through, path="/pair", query=f"code={code.text}", cookie=cookie(pairing, key))
    assert (answer.status, answer.headers["location"]) == (303, "/")
    assert pairing.code_state().state == "good"


def test_a_wrong_a_late_and_a_used_code_pair_nobody(pairing, clock):
    through, behind = gate(pairing)
    code = pairing.new_code("phone")
    wrong = f"{(int(code.text) + 1) % 10**8:08d}"
    post = {"path": "/pair", "method": "POST", "origin": OWN}
    answers = [ask(through, **post, form=form(pairing, wrong))]
    ask(through, **post, form=form(pairing, code.text))
    answers.append(ask(through, **post, form=form(pairing, code.text, "A second")))
    late = pairing.new_code("phone")
    clock.move(minutes=5)
    answers.append(ask(through, **post, form=form(pairing, late.text)))
    for answer in answers:
        assert answer.status == 403
        assert b'role="alert"' in answer.body
        assert "set-cookie" not in answer.headers
    assert len(pairing.devices()) == 1
    assert behind.reached == []


def test_ten_wrong_codes_end_it_from_however_many_addresses_they_come(pairing):
    through, _ = gate(pairing)
    code = pairing.new_code("phone")
    wrong = f"{(int(code.text) + 1) % 10**8:08d}"
    for number in range(10):
        ask(through, path="/pair", method="POST", origin=OWN, client=f"192.168.1.{number}", form=form(pairing, wrong))
    assert ask(through, path="/pair", method="POST", origin=OWN, form=form(pairing, code.text)).status == 403
    assert pairing.code_state().state == "ended"
    assert pairing.devices() == ()


@pytest.mark.parametrize(
    "origin", [None, "null", "http://elsewhere.example", f"https://{HOST}", "http://192.168.1.5:9999"]
)
def test_a_page_of_another_server_can_not_send_the_form_nor_spend_a_try(pairing, origin):
    through, _ = gate(pairing)
    code = pairing.new_code("phone")
    assert ask(through, path="/pair", method="POST", origin=origin, form=form(pairing, code.text)).status == 403
    assert pairing.devices() == ()
    assert pairing.code_state().state == "good"


@pytest.mark.parametrize(
    "origin", [None, "null", "http://elsewhere.example", f"https://{HOST}", "http://192.168.1.5:9999", "file://"]
)
def test_a_page_of_another_server_can_not_use_a_paired_phones_socket(pairing, origin):
    through, behind = gate(pairing)
    key = cookie(pairing, phone_key(pairing))
    answer = ask(through, "websocket", "/_stcore/stream", origin=origin, cookie=key)
    assert (answer.status, answer.closed) == (0, 4401)
    if origin is not None:  # a page's own images and scripts name no origin
        assert ask(through, origin=origin, cookie=key).status == 403
    assert ask(through, path="/_stcore/upload_file/a/b", method="PUT", origin=origin, cookie=key).status == 403
    assert behind.reached == []


HOSTS = [None, "", "elsewhere.example", "192.168.1.6:8501", "192.168.1.5.elsewhere.example:8501", "a@192.168.1.5:8501",
         "192.168.1.5:port", "192.168.1.5/x", "localhost:8501", "127.0.0.1:8501", "[::1]:8501"]  # fmt: skip


@pytest.mark.parametrize("host", HOSTS)
def test_by_another_name_nothing_is_served_not_even_the_form(pairing, host):
    through, behind = gate(pairing)
    key = cookie(pairing, phone_key(pairing))
    answer = ask(through, host=host, cookie=key)
    assert answer.status == 421
    assert b"form" not in answer.body
    assert ask(through, "websocket", host=host, origin=f"http://{host}", cookie=key).closed == 4401
    assert behind.reached == []


def test_two_hosts_or_two_origins_are_none(pairing):
    through, behind = gate(pairing)
    key = cookie(pairing, phone_key(pairing))
    assert ask(through, cookie=key, more=(("host", "elsewhere.example"),)).status == 421
    assert (
        ask(through, "websocket", cookie=key, origin=OWN, more=(("origin", "http://elsewhere.example"),)).closed == 4401
    )
    assert behind.reached == []


def test_another_address_of_this_machine_is_not_served(pairing):
    through, _ = gate(pairing)
    key = cookie(pairing, phone_key(pairing))
    assert ask(through, server="10.8.0.2", host="10.8.0.2:8501", cookie=key).status == 421
    assert ask(through, server="10.8.0.2", cookie=key).status == 421


def test_the_laptops_own_browser_needs_its_key_too(pairing):
    through, behind = gate(pairing)
    answer = ask(through, **HERE)
    assert answer.status == 401
    assert b"link that the terminal shows" in answer.body
    assert ask(through, "websocket", **HERE, origin="http://127.0.0.1:8501").closed == 4401
    assert behind.reached == []


def test_the_laptops_link_gives_its_browser_a_key_once(pairing):
    through, behind = gate(pairing)
    link = pairing.new_code("laptop")
    answer = ask(through, path="/laptop", query=f"key={link.text}", **HERE)
    assert answer.status == 200
    assert b'http-equiv="refresh" content="0;url=/"' in answer.body
    key = SimpleCookie(answer.headers["set-cookie"])[pairing.cookie].value
    assert ask(through, cookie=cookie(pairing, key), **HERE).body == b"page"
    assert behind.visitor.door == "laptop"
    again = ask(through, path="/laptop", query=f"key={link.text}", **HERE)
    assert again.status == 403
    assert b"If it was not you" in again.body
    assert "set-cookie" not in again.headers


def test_a_laptop_that_has_its_key_goes_on_and_leaves_no_link_behind(pairing):
    through, _ = gate(pairing)
    key, link = cookie(pairing, laptop_key(pairing)), pairing.new_code("laptop")
    assert ask(through, path="/laptop", query=f"key={link.text}", cookie=key, **HERE).status == 303
    assert ask(through, path="/laptop", query=f"key={link.text}", **HERE).status == 403
    assert len(pairing.devices()) == 1


FOREIGN = [
    {"client": PHONE, "server": LAN, "host": HOST},
    {"client": PHONE, "server": LAN, "host": "127.0.0.1:8501"},  # a lie about the name
    {"client": LAPTOP, "server": LAN, "host": HOST},  # a lie about where it comes from, as proxies write it
    {"client": LAPTOP, "server": LAPTOP, "host": "elsewhere.example"},  # through a tunnel or a foreign name
    {"client": PHONE, "server": LAPTOP, "host": "127.0.0.1:8501"},  # through a proxy that says for whom
    {"client": "127.0.0.2", "server": "127.0.0.2", "host": "127.0.0.1:8501"},
]


@pytest.mark.parametrize("end", FOREIGN)
def test_the_laptops_link_and_key_count_on_this_machine_only(pairing, end):
    through, behind = gate(pairing)
    key, link = cookie(pairing, laptop_key(pairing)), pairing.new_code("laptop")
    assert ask(through, cookie=key, **end).status in (401, 421)
    assert ask(through, "websocket", cookie=key, origin=f"http://{end['host']}", **end).closed == 4401
    assert ask(through, path="/laptop", query=f"key={link.text}", **end).status in (401, 421)
    assert pairing.code_state("laptop").state == "good"
    assert behind.reached == []


def test_who_it_is_can_not_be_written_by_the_client(pairing):
    through, behind = gate(pairing)
    forged = (HEADER, "0" * 32 + " laptop x -")
    ask(through, cookie=cookie(pairing, phone_key(pairing)), more=(forged, ("Tidemark-Visitor", "x laptop x -")))
    assert behind.visitor.door == "phone"
    names = [name.lower() for name, _ in behind.reached[-1]["headers"]]
    assert names.count(HEADER.encode()) == 1
    assert visitor_in({HEADER: forged[1]}) is None
    assert visitor_in({}) is None


def test_a_removed_phone_is_refused_at_its_next_request_and_told_so(pairing, opened):
    through, behind = gate(pairing)
    key = phone_key(pairing)
    assert ask(through, cookie=cookie(pairing, key)).status == 200
    other = opened()  # another server, or the same one's pages
    other.remove(other.devices()[0].id)
    answer = ask(through, cookie=cookie(pairing, key))
    assert answer.status == 401
    assert b"good no more" in answer.body
    assert ask(through, "websocket", origin=OWN, cookie=cookie(pairing, key)).closed == 4401
    assert len(behind.reached) == 1


def test_a_large_a_broken_and_a_strange_form_are_refused(pairing):
    through, _ = gate(pairing)
    post = {"path": "/pair", "method": "POST", "origin": OWN}
    assert ask(through, **post, body=b"x" * (MOST_BODY + 1)).status == 413
    for body in (b"", b"\xff\xfe", b"code=&name=", b"code=12345678", b"name=x", b"[]", b"%"):
        assert ask(through, **post, body=body).status == 400
    assert ask(through, path="/pair", method="DELETE", origin=OWN).status == 405


def test_what_was_typed_is_shown_again_as_text(pairing):
    through, _ = gate(pairing)
    evil = '"><script>alert(1)</script>'
    answer = ask(through, path="/pair", method="POST", origin=OWN, form={"code": evil[:18], "name": evil})
    assert b"<script" not in answer.body
    assert b"&quot;&gt;&lt;script" in answer.body
    assert b"<script" not in ask(through, path="/pair", query="code=%3Cscript%3E").body


def test_a_list_that_can_not_be_read_lets_nobody_in(pairing, tmp_path):
    through, behind = gate(pairing)
    key = cookie(pairing, phone_key(pairing))
    pairing.store.close()
    (tmp_path / "log.db.devices").write_text("notes " * 5000)
    answer = ask(through, cookie=key)
    assert answer.status == 503
    assert b"delete this file" in answer.body
    assert ask(through, "websocket", origin=OWN, cookie=key).closed == 4401
    assert behind.reached == []


@pytest.mark.parametrize("host", ["127.0.0.1:8501", "localhost", "LOCALHOST:9000"])
def test_without_pairing_this_machine_is_served_without_a_key(host):
    through, behind = gate(None)
    ends = {"client": LAPTOP, "server": LAPTOP, "host": host}
    assert ask(through, **ends).body == b"page"
    assert behind.visitor == Visitor("loopback")
    assert ask(through, "websocket", **ends, origin=f"http://{host}").status == 101


@pytest.mark.parametrize("host", ["elsewhere.example", "127.0.0.1.elsewhere.example:8501", "192.168.1.5:8501", None])
def test_without_pairing_a_foreign_name_that_points_here_is_not_served(host):
    through, behind = gate(None)
    ends = {"client": LAPTOP, "server": LAPTOP, "host": host}
    assert ask(through, **ends).status == 421
    assert ask(through, "websocket", **ends, origin=f"http://{host}").closed == 4401
    assert behind.reached == []


def test_without_pairing_a_foreign_page_is_refused_before_anything_asks_who_it_is():
    """Streamlit would ask another machine for this one's address in the internet, to compare."""
    through, behind = gate(None)
    for kind in ("http", "websocket"):
        answer = ask(through, kind, **HERE, origin="http://elsewhere.example")
        assert answer.status in (403, 0)
    assert behind.reached == []


def test_start_and_end_of_the_server_pass(pairing):
    through, behind = gate(pairing)
    apart(through({"type": "lifespan"}, None, None))
    assert behind.reached == [{"type": "lifespan"}]


def test_the_link_names_the_address_or_the_certificates_name():
    assert NEARBY.origin == OWN
    assert Nearby(LAN, 8501, "laptop.home.arpa", encrypted=True).origin == "https://laptop.home.arpa:8501"
