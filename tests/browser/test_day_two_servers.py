"""Two servers over one PostgreSQL behind one address, with sign-in: one ends between a touch and its answer."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

from tests.browser.balancer import Balancer, When
from tests.browser.conftest import PATIENCE, PHONE, free_port, well
from tests.browser.signing_in import COOKIE, signed
from tests.conftest import must_not_skip
from tests.day import this_day
from tests.server.cluster import Cluster, NoServerError
from tests.stores import Databases
from tracker.desk.base.opening import open_log
from tracker.desk.day import today, touches
from tracker.desk.people import accounts
from tracker.log.unit_of_work import Log

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

ISSUER = "http://127.0.0.1:9"  # asked by nobody here: who signed in has the cookie
STATES = """() => {
  self.told = [];
  const look = () => { const line = document.querySelector('[data-kept]'); if (line) self.told.push(line.dataset.state); };
  new MutationObserver(look).observe(document.body, {subtree: true, childList: true, attributes: true});
}"""


@pytest.fixture(scope="module")
def databases(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Databases]:
    try:
        made = Cluster().start()
    except NoServerError as err:
        if must_not_skip():
            pytest.fail(str(err))
        pytest.skip(str(err))
    yield Databases(made, tmp_path_factory.mktemp("two_servers"))
    made.remove()


@contextmanager
def two_servers(databases: Databases, world: Any, folder: Path) -> Iterator[tuple[str, Balancer, Log, str]]:
    """Serve one log by two processes behind one address; yield address, balancer, the log, and whose day it is."""
    address = databases.copy("empty", None, folder)
    log, door, ports = open_log(address), free_port(), [free_port(), free_port()]
    world.into(log)
    member = world.of["Ana"].id
    for each in accounts.accounts(log):
        accounts.remove_account(log, each.id)
    accounts.enter(log, ISSUER, "ana-7f3", "member", member)
    url, settings = f"http://127.0.0.1:{door}", folder / "sign_in.toml"
    settings.write_text(
        f'provider = "{ISSUER}/.well-known/openid-configuration"\nclient_id = "tidemark"\nclient_secret = "x"\n'
        f'cookie_secret = "{"3f" * 32}"\naddress = "{url}"\nname = "the Quay"\n'
    )
    settings.chmod(0o600)
    running = {
        port: subprocess.Popen(
            [sys.executable, "-m", "tracker", "open", "--port", str(port), "--sign-in", str(settings), "--database", address],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )
        for port in ports
    }  # fmt: skip
    balancer = Balancer(door, list(ports), lambda port: os.kill(running[port].pid, signal.SIGKILL))
    try:
        for port, process in running.items():
            well(process, f"http://127.0.0.1:{port}")
        yield url, balancer, log, member
    finally:
        balancer.close()
        for process in running.values():
            process.kill()
            process.wait(timeout=20)
        log.close()


def done(page: Page) -> str:
    """Touch Done, and return which set it was."""
    key: str = page.locator("[data-next]").get_attribute("data-title") or ""
    page.locator('[data-act="done"]').first.tap()
    return key


@pytest.mark.parametrize("when", ["before it is taken", "before it is answered"])
def test_one_of_two_servers_ends_between_touch_and_answer(
    databases: Databases, gym_world: Any, chromium: Browser, tmp_path: Path, when: When
):
    with two_servers(databases, gym_world, tmp_path) as (url, balancer, log, member):
        before = len(today.day_plan(log, member, this_day()).sets)
        context = chromium.new_context(**PHONE)  # type: ignore[arg-type]
        expect.set_options(timeout=PATIENCE)
        context.set_default_timeout(PATIENCE)
        context.add_cookies([{"name": COOKIE, "value": signed("ana-7f3", ISSUER, url), "url": url}])
        page = context.new_page()
        page.goto(f"{url}/day/")
        page.wait_for_selector('[data-next="set"]')
        page.evaluate(STATES)
        line = page.locator("[data-kept]")
        balancer.when = when
        done(page)  # one server has it or not, and ends; the other one is asked next
        expect(page.locator('section[aria-labelledby="done_head"] li')).to_have_count(before + 1)
        expect(line).to_have_attribute("data-kept", "0")
        expect(line).to_have_attribute("data-state", "saved")
        assert len(balancer.ended) == 1
        assert "kept" in page.evaluate("self.told")  # and it said so while it was on neither server
        assert page.evaluate("self.told.includes('refused')") is False
        done(page)
        expect(page.locator('section[aria-labelledby="done_head"] li')).to_have_count(before + 2)
        expect(line).to_have_attribute("data-state", "saved")
        context.close()
        sets, known = today.day_plan(log, member, this_day()).sets, touches.touches(log, member)
        assert len(sets) == before + 2
        assert len({each.id for each in known}) == len(known) == 2
        assert not touches.questions(log, member, this_day(), sets)  # nothing of it looks done twice
