"""The pages speak to their own server and to nobody else; what holds that, in every test with a phone, notices it."""

from __future__ import annotations

from tests.browser.conftest import Phones, Served, at_rest, elsewhere

KEPT = """() => [localStorage.getItem('mine'), sessionStorage.getItem('mine'), document.cookie.includes('mine')]"""
KEEP = """() => {
  localStorage.setItem('mine', '1');
  sessionStorage.setItem('mine', '1');
  document.cookie = 'mine=1; path=/';
}"""
FETCH = "where => fetch(where, {mode: 'no-cors'}).catch(() => null).then(() => null)"


def test_what_a_page_asks_of_another_machine_is_noticed(served: Served, phones: Phones):
    """Every page is opened by a phone in test_access.py and test_harmless.py, and is held to ask nothing of others."""
    device = phones.take({"bypass_csp": True})
    page = device.page(served.url)
    page.goto(served.url)
    at_rest(page)
    assert device.asked
    assert elsewhere(device.asked) == set()
    page.evaluate(FETCH, "http://localhost:9/noticed")  # nobody listens there; its name is another one
    assert elsewhere(device.asked) == {"http://localhost:9/noticed"}
    phones.put_back(device)


def test_a_phone_has_nothing_of_what_another_test_left(served: Served, phones: Phones):
    first = phones.take({})
    page = first.page(served.url)
    page.goto(served.url)
    page.evaluate(KEEP)
    assert page.evaluate(KEPT) == ["1", "1", True]
    phones.put_back(first)
    assert first in phones.idle  # so that the next test takes it
    others = []
    while (second := phones.take({})) is not first:  # or one that others of this process have put back before
        others.append(second)
    assert second.asked == []
    page = second.page(served.url)
    page.goto(served.url)
    assert page.evaluate(KEPT) == [None, None, False]
    assert [each for each in second.context.cookies() if each.get("name") == "mine"] == []
    for each in (second, *others):
        phones.put_back(each)
