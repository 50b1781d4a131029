"""A phone that keeps nothing, or has no room: the page says so, and a touch counts only in the log."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.day_phone import Gym, act, done_today, kept, next_is, opened, phone_of, state

if TYPE_CHECKING:
    from playwright.sync_api import Browser


REFUSALS = {
    "cannot be opened": "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); };",
    "never answers": "IDBFactory.prototype.open = () => ({});",
}
FULL = {
    "put": "IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError'); };",
    "abort": """const put = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function (...given) {
        const asked = put.apply(this, given);
        if (this.name === 'outbox') asked.addEventListener('success', () => this.transaction.abort());
        return asked;
      };""",
}


@pytest.mark.parametrize("script", list(REFUSALS.values()), ids=list(REFUSALS))
def test_storage_that_is_refused_is_told_before_a_touch_and_it_counts_only_in_the_log(
    gym: Gym, chromium: Browser, script: str
):
    with phone_of(chromium, service_workers="block") as context:
        context.add_init_script(script)
        page = opened(context, gym.url, worker=False)
        state(page, "refused")
        expect(page.locator("#state")).to_contain_text("keeps nothing")
        act(page, "done")
        done_today(page, 1)
        context.set_offline(True)
        act(page, "done")
        expect(page.locator('[role="alert"]')).to_contain_text("Not kept, not logged")
        done_today(page, 1)
        context.set_offline(False)
        page.get_by_role("button", name="Try again").tap()
        done_today(page, 2)
    assert len(gym.day("Wren")[0].sets) == 2


@pytest.mark.parametrize("script", list(FULL.values()), ids=list(FULL))
def test_a_full_phone_says_that_a_touch_is_not_kept(gym: Gym, chromium: Browser, script: str):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        act(page, "done")
        done_today(page, 1)
        kept(page, 0)
        context.set_offline(True)
        page.evaluate(f"() => {{ {script} }}")
        act(page, "done")
        expect(page.locator('[role="alert"]')).to_contain_text("Not kept, not logged")
        state(page, "refused")
        done_today(page, 1)
    assert len(gym.day("Wren")[0].sets) == 1


def test_a_phone_that_is_full_already_says_so_before_a_touch(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        opened(context, gym.url).close()
        context.add_init_script(FULL["put"])
        page = opened(context, gym.url)
        state(page, "refused")
        expect(page.locator("#state")).to_contain_text("This phone is full")
        act(page, "done")
        done_today(page, 1)
    assert len(gym.day("Wren")[0].sets) == 1


def test_a_file_that_the_page_did_not_save_is_refused_where_it_is_seen(gym: Gym, chromium: Browser):
    with phone_of(chromium) as context:
        page = opened(context, gym.url)
        page.locator("#menu").tap()
        for text in ("no JSON", '{"f": 1}'):
            page.locator("#from_file").set_input_files(
                {"name": "notes.json", "mimeType": "application/json", "buffer": text.encode()}
            )
            expect(page.locator('[role="alert"]')).to_contain_text("Choose one that is called waiting-")
        kept(page, 0)


def test_what_waits_at_an_address_that_is_gone_is_saved_as_a_file_and_taken_in_at_the_new_one_once(
    gym: Gym, chromium: Browser
):
    with phone_of(chromium) as context:
        page, old = opened(context, gym.url), Gym(gym.database, gym.mother)
        old.start()
        before = opened(context, old.url)
        old.kill()  # from here on the log is reached at the other address alone
        for count in (1, 2):
            act(before, "done")
            done_today(before, count)
        kept(before, 2)
        before.locator("#menu").tap()
        with before.expect_download() as saved:
            before.locator("#to_file").tap()
        text = saved.value.path().read_text()
        far = json.loads(text)
        far["acts"].append({**far["acts"][0], "id": "7" * 32, "seq": 90, "body": {**far["acts"][0]["body"], "reps": 0}})
        page.locator("#menu").tap()
        for given, words in ((text, "2 of 2."), (text, "2 of 2."), (json.dumps(far), "2 of 3. Not taken in:")):
            file = {"name": "waiting.json", "mimeType": "application/json", "buffer": given.encode()}
            page.locator("#from_file").set_input_files(file)
            expect(page.locator("#menu_box .note")).to_contain_text(f"Taken in from the file: {words}")
            done_today(page, 2)
        next_is(page, "set")
        old.start()  # and it is sent from there as well, once that is reached
        kept(before, 0)
        state(before, "saved")
        old.kill()
    sets, known = gym.day("Wren")
    assert [row.planned_round for row in sets.sets] == [1, 1]
    assert [each.said["at"][:19] for each in reversed(known)] == [row.logged_at.isoformat()[:19] for row in sets.sets]
