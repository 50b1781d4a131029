"""Members sign in with a real provider in a process of its own: who sees what, and what a forged cookie or a foreign id gets."""

from __future__ import annotations

import os
import re
import time
import urllib.request
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Browsing, Phones, at_rest
from tests.browser.signing_in import (
    CLIENT_SECRET,
    COOKIE,
    COOKIE_SECRET,
    Gym,
    all_that_is_told,
    cookie,
    kept_line,
    on_the_day,
    served_gym,
    sets_of,
    sign_in,
)
from tests.browser.test_access import NAMELESS, SMALL, findings, fits, look, open_all
from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import log_set
from tracker.desk.history import journal
from tracker.desk.people import accounts, invitations, people, roster
from tracker.exchange.roster import read_roster
from tracker.log.sets import NewSet

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="module")
def gym(chromium: Browser, store: Any, gym_world: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Gym]:
    folder = tmp_path_factory.mktemp("sign_in")
    with served_gym(store.copy("empty", None, folder), gym_world, folder) as found:
        yield found


@pytest.fixture
def phone(phones: Phones, gym: Gym) -> Iterator[Any]:
    """Open a page as a phone with no cookie, or with those that are given."""
    taken: list[Browsing] = []

    def opened(path: str = "/", cookies: dict[str, str] | None = None) -> Page:
        taken.append(phones.take({}))
        page, context = taken[-1].page(gym.url), taken[-1].context
        page.set_default_timeout(45_000)
        if cookies:
            context.add_cookies([{"name": name, "value": value, "url": gym.url} for name, value in cookies.items()])
        page.goto(f"{gym.url}{path}")
        at_rest(page)
        return page

    yield opened
    for each in taken:
        phones.put_back(each)


def picture(page: Page, name: str) -> None:
    """Keep a picture for whoever looks at pages; see TIDEMARK_PICTURES."""
    if folder := os.environ.get("TIDEMARK_PICTURES"):
        page.screenshot(path=f"{folder}/{name}.png", full_page=True)


def test_a_member_sees_their_own_logs_a_set_and_signs_out(gym: Gym, phone: Any) -> None:
    page = phone(f"/?member={gym.ids['Bea']}")
    assert page.get_by_role("heading", name="Sign in").is_visible()
    picture(page, "sign-in")
    assert "Bea" not in page.inner_text("body")
    sign_in(page, "ana-7f3")
    page.get_by_text("Signed in: Ana").wait_for()
    text = page.inner_text("body")
    assert not [name for name in ("Bea", "Cyr", "Dag", "Eve", "Fay") if name in text.replace("Tide", "")]
    for absent in ("Coach", "Accounts"):
        assert page.get_by_role("link", name=absent, exact=True).count() == 0
    picture(page, "member")
    before = sets_of(gym, "Ana")
    page.get_by_role("button", name="Done").first.click()
    page.get_by_text("Saved").first.wait_for()
    assert sets_of(gym, "Ana") == before + 1
    cookie = next(each for each in page.context.cookies() if each["name"] == COOKIE)
    assert (cookie["httpOnly"], cookie["sameSite"]) == (True, "Lax")
    assert 29 < (cookie["expires"] - time.time()) / 86_400 <= 30
    other = page.context.new_page()  # another tab of the same browser, left open
    other.goto(gym.url)
    at_rest(other)
    with page.expect_response(lambda answer: "/auth/logout" in answer.url):
        page.get_by_role("button", name="Sign out").click()
    page.wait_for_url(f"{gym.issuer}/**")  # the provider asks whether to sign out there as well
    assert COOKIE not in {each["name"] for each in page.context.cookies(gym.url)}
    page.goto(gym.url)
    at_rest(page)
    page.get_by_role("button", name="Sign in with the Quay").wait_for()
    other.get_by_role("button", name="Done").first.click()  # its socket was opened with the cookie that is gone
    other.get_by_role("button", name="Sign in with the Quay").wait_for()
    expect(other.locator("body")).not_to_contain_text("Ana")
    assert sets_of(gym, "Ana") == before + 1


def test_the_day_page_is_of_whoever_signed_in_and_what_is_kept_waits_for_them_alone(gym: Gym, phone: Any) -> None:
    page = phone(cookies={COOKIE: cookie(gym, "ana-7f3")})
    context, before = page.context, sets_of(gym, "Ana")
    page.goto(f"{gym.url}/day/?member={gym.ids['Bea']}")  # whatever the address says
    on_the_day(page, "Ana")
    assert "Bea" not in page.inner_text("body")
    page.wait_for_function("navigator.serviceWorker.controller?.state === 'activated'")
    context.set_offline(True)
    page.locator("#free summary").tap()
    page.locator("#free_load").fill(usual := str(float(page.locator("#free_load").input_value()) + 0.5))
    page.locator("#free_log").tap()
    kept_line(page, 1)
    asked: list[str] = []
    answers = [False, True]

    def ask(dialog: Any) -> None:
        asked.append(dialog.message)
        (dialog.accept if answers.pop(0) else dialog.dismiss)()

    page.on("dialog", ask)
    page.locator("#menu").tap()
    page.locator("#sign_out").tap()
    page.wait_for_timeout(300)
    assert page.locator(".who").inner_text() == "Ana"  # no was said: nothing is done
    page.locator("#sign_out").tap()
    page.wait_for_timeout(1000)
    assert asked[0].startswith("1 touch is kept here")
    assert len(asked) == 2
    context.set_offline(False)
    page.goto("about:blank")  # signing out has ended: its answer takes no cookie away from who comes next
    context.clear_cookies()
    # A page that is being left escapes the browser's pretence of having no connection: what Ana did may have come in then.
    there = sets_of(gym, "Ana")
    assert there in (before, before + 1)
    context.add_cookies([{"name": COOKIE, "value": cookie(gym, "fay-7f3"), "url": gym.url}])
    page.goto(f"{gym.url}/day/")
    on_the_day(page, "Fay")
    page.locator("#state", has_text="for whoever made them").wait_for()
    assert usual not in page.inner_text("body")
    assert "Ana" not in page.inner_text("body")
    page.locator("#free summary").tap()
    page.locator("#free_log").tap()
    page.wait_for_timeout(500)
    kept_line(page, 1)  # hers went to the log past what waits for somebody else
    assert sets_of(gym, "Ana") == there
    context.clear_cookies()
    context.add_cookies([{"name": COOKIE, "value": cookie(gym, "ana-7f3"), "url": gym.url}])
    page.goto(f"{gym.url}/day/")
    kept_line(page, 0)
    on_the_day(page, "Ana")
    assert page.locator(".card.ask").all_inner_texts() == []
    assert sets_of(gym, "Ana") == before + 1


def test_signed_out_from_elsewhere_loses_nothing_that_was_kept_and_hands_it_to_nobody_else(
    gym: Gym, phone: Any
) -> None:
    """The account is taken away on another device while the phone is in a basement; later the same person is let in again."""
    accounts.enter(gym.log, gym.issuer, "guest-8a1", "member", new_member="Gro")
    account = next(each for each in accounts.accounts(gym.log) if each.subject == "guest-8a1")
    member = account.member_id
    assert member
    lift = people.add_lift(gym.log, "bench press", "barbell", member_id=member)
    log_set.log_set(gym.log, member, this_day(), NewSet(lift.id, kg("47.5"), 4))
    gym.ids["Gro"] = member
    page = phone(cookies={COOKIE: cookie(gym, "guest-8a1")})
    context = page.context
    page.goto(f"{gym.url}/day/")
    on_the_day(page, "Gro")
    page.wait_for_function("navigator.serviceWorker.controller?.state === 'activated'")
    context.set_offline(True)
    page.locator("#free summary").tap()
    for count, load in enumerate(("48", "49.5"), 1):
        page.locator("#free_load").fill(load)
        page.locator("#free_log").tap()
        kept_line(page, count)
    accounts.remove_account(gym.log, account.id)
    context.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")
    page.locator("#state", has_text="2 touches kept: sign in to hand over").wait_for()
    page.get_by_role("heading", name="Sign in first").wait_for()
    assert "2 touches wait here still" in page.inner_text("main")
    assert page.get_by_role("link", name="Sign in").first.get_attribute("href") == "/"
    for words in ("Gro", "bench press", "49.5"):  # shown to nobody while nobody knows who looks on
        assert words not in page.inner_text("body")
    page.reload()  # nor is it lost by closing
    kept_line(page, 2)
    assert sets_of(gym, "Gro") == 1

    context.add_cookies([{"name": COOKIE, "value": cookie(gym, "fay-7f3"), "url": gym.url}])
    page.goto(f"{gym.url}/day/")
    on_the_day(page, "Fay")
    page.locator("#state", has_text="2 touches kept for whoever made them").wait_for()
    assert "Gro" not in page.inner_text("body")
    assert "49.5" not in page.inner_text("body")
    assert sets_of(gym, "Gro") == 1

    accounts.enter(gym.log, gym.issuer, "guest-8a1", "member", member)
    context.clear_cookies()
    context.add_cookies([{"name": COOKIE, "value": cookie(gym, "guest-8a1"), "url": gym.url}])
    page.goto(f"{gym.url}/day/")
    on_the_day(page, "Gro")
    kept_line(page, 0)
    assert page.locator(".card.ask").all_inner_texts() == []
    assert sets_of(gym, "Gro") == 3
    loads = [str(row.load) for each in journal.sessions(gym.log, member, limit=9) for row in each.sets]
    assert sorted(loads) == ["47.5 kg", "48 kg", "49.5 kg"]


def test_nothing_is_shown_before_it_is_known_who_asks(gym: Gym) -> None:
    asked = urllib.request.Request(f"{gym.url}/", headers={"Accept": "text/html"})
    page = urllib.request.urlopen(asked, timeout=20).read().decode()
    assert "--accent" in page  # the look, which anybody may see
    assert "Ana" not in page


def test_a_foreign_id_in_the_address_is_refused_in_plain_words(gym: Gym, phone: Any) -> None:
    page = phone(cookies={COOKIE: cookie(gym, "ana-7f3")})
    for page_name in ("", "journal", "trend"):
        page.goto(f"{gym.url}/{page_name}?member={gym.ids['Bea']}")
        at_rest(page)
        page.get_by_text("is not yours to see").wait_for()
        assert "Hall Bea" not in page.inner_text("body")
    page.goto(f"{gym.url}/coach")
    at_rest(page)
    assert page.get_by_role("heading", name="Coach").count() == 0


def test_a_coach_sees_who_shares_and_an_owner_has_the_accounts(gym: Gym, phone: Any) -> None:
    page = phone(cookies={COOKIE: cookie(gym, "dag-7f3")})
    page.get_by_text("Signed in: Dag, coach").wait_for()
    names = page.get_by_test_id("stButtonGroup").first.inner_text().split()
    assert set(names) == {"Bea", "Dag", "Eve"}
    page.goto(f"{gym.url}/?member={gym.ids['Bea']}")
    at_rest(page)
    page.get_by_text("Bea shares this with you.").wait_for()
    page.goto(f"{gym.url}/?member={gym.ids['Cyr']}")
    at_rest(page)
    page.get_by_text("is not yours to see").wait_for()
    owner = phone("/accounts", cookies={COOKIE: cookie(gym, "fay-7f3")})
    owner.get_by_role("heading", name="Who signs in").wait_for()
    owner.get_by_text("Ana: member").click()
    owner.get_by_text("ana-7f3").wait_for()
    picture(owner, "accounts")
    assert "ana-7f3" in owner.content()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_pages_of_sign_in_are_read_by_everybody(gym: Gym, phone: Any, scheme: Any) -> None:
    door = phone()
    owner = phone("/accounts", cookies={COOKIE: cookie(gym, "fay-7f3")})
    owner.get_by_role("heading", name="Who signs in").wait_for()
    open_all(owner)
    at_rest(owner)
    for page in (door, owner):
        look(page, scheme)
        assert findings(page) == [], page.url
        assert page.evaluate(NAMELESS) == []
        assert page.evaluate(SMALL) == []
        fits(page, "phone")
        look(page, "light")


def test_a_stranger_sees_one_page_and_comes_in_by_an_invitation(gym: Gym, phone: Any) -> None:
    page = phone()
    sign_in(page, "zoe-7f3")
    page.get_by_role("heading", name="Not known here yet").wait_for()
    page.get_by_text("zoe-7f3").wait_for()
    picture(page, "unknown-person")
    text = page.inner_text("body")
    assert gym.issuer in text
    assert "zoe-7f3" in text
    assert not [name for name in gym.ids if name in text]
    made = accounts.invite(gym.log, "member", gym.ids["Bea"])
    page.get_by_label("Code of the invitation").fill("AAAA-BBBB-CCCC-DDDD")
    page.get_by_role("button", name="Come in").click()
    at_rest(page)
    assert page.get_by_role("heading", name="Not known here yet").is_visible()
    page.get_by_label("Code of the invitation").fill(made.code.lower())
    page.get_by_text("Yes, my coach may see it").click()  # as she said before; else it would be hers alone again
    page.get_by_role("button", name="Come in").click()
    page.get_by_text("Signed in: Bea").wait_for()
    again = phone(cookies={COOKIE: cookie(gym, "somebody-else")})
    again.get_by_label("Code of the invitation").fill(made.code)  # spent
    again.get_by_role("button", name="Come in").click()
    at_rest(again)
    assert again.get_by_role("heading", name="Not known here yet").is_visible()


def test_an_invitation_by_a_link_waits_while_one_signs_in_and_asks_of_the_coach(gym: Gym, phone: Any) -> None:
    (made,) = invitations.invite_all(gym.log, [roster.take(gym.log, read_roster("Zelda")).member_ids[0]])
    page = phone(path=f"/?invitation={made.code}")
    page.get_by_text("You are invited").wait_for()
    sign_in(page, "zelda-1")
    page.get_by_role("heading", name="Not known here yet").wait_for()
    page.locator(f"input[value='{made.code}']").wait_for()
    assert page.get_by_role("radio", name="No, it is mine alone").is_checked()
    picture(page, "invited")
    page.get_by_text("Yes, my coach may see it").click()
    page.get_by_role("button", name="Come in").click()
    page.get_by_text("your log is shared with the coach").wait_for()
    assert {each.name: each.shared for each in people.members(gym.log)}["Zelda"]


def test_a_cookie_that_is_forged_changed_late_or_of_another_place_is_nobodys(gym: Gym, phone: Any) -> None:
    good = cookie(gym, "fay-7f3")
    body, _, rest = good.partition(".")
    bad = {
        "signed with another secret": cookie(gym, "fay-7f3", secret="2e" * 32),
        "changed": f"{body[:-4]}{'AAAA' if body[-4:] != 'AAAA' else 'BBBB'}.{rest}",
        "without its signature": body,
        "of another address": cookie(gym, "fay-7f3", origin="http://elsewhere.example"),
        "of another provider": cookie(gym, "fay-7f3", iss="http://elsewhere.example"),
        "older than two weeks": cookie(gym, "fay-7f3", iat=int(time.time()) - 15 * 86_400),
        "of tomorrow": cookie(gym, "fay-7f3", iat=int(time.time()) + 86_400),
        "of a moment without end": cookie(gym, "fay-7f3", iat=float("inf")),
        "without its moment": cookie(gym, "fay-7f3", iat=None),
        "not signed in": cookie(gym, "fay-7f3", is_logged_in=False),
        "with an address in place of a subject": cookie(gym, "", email="fay@gym.example"),
    }
    names = re.compile(rf"\b({'|'.join((*gym.ids, 'ana-7f3'))})\b")
    _, told = all_that_is_told(gym, good)  # the good one does let in
    assert "Who signs in" in told
    assert names.search(told)
    for why, value in bad.items():
        file, told = all_that_is_told(gym, value)
        assert "Sign in" in told or "Not known here yet" in told, why
        assert not names.search(told + file), why
    page = phone("/accounts", cookies={COOKIE: bad["signed with another secret"]})
    page.get_by_role("heading", name="Sign in").wait_for()
    assert not names.search(page.inner_text("body"))


def test_who_is_taken_out_of_the_accounts_is_out_at_the_next_touch(gym: Gym, phone: Any) -> None:
    accounts.enter(gym.log, gym.issuer, "guest-7f3", "coach")
    page = phone(cookies={COOKIE: cookie(gym, "guest-7f3")})
    page.get_by_text("coach").first.wait_for()
    found = next(each for each in accounts.accounts(gym.log) if each.subject == "guest-7f3")
    accounts.remove_account(gym.log, found.id)
    page.get_by_test_id("stButtonGroup").get_by_text("Eve").first.click()
    page.get_by_role("heading", name="Not known here yet").wait_for()


def test_neither_the_terminal_nor_a_page_holds_a_secret(gym: Gym, phone: Any) -> None:
    page = phone()
    for path in (
        "auth/login?provider=x",
        "oauth2callback?code=1&state=2",
        "oauth2callback?error=x&error_description=y",
    ):
        page.goto(f"{gym.url}/{path}")
    at_rest(page)
    said = gym.said.read_text(errors="replace")
    assert "listening on 127.0.0.1" in said
    for secret in (CLIENT_SECRET, COOKIE_SECRET):
        assert secret not in said
        assert secret not in page.content()
