"""The day page's addresses: a shell without anybody's data, modules of one version, an API that holds who asks."""

from __future__ import annotations

import json
import re
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import anyio
import pytest

from tests.day import this_day
from tests.loads import kg
from tests.pocket.posts import act, post
from tracker.desk.day import log_set, today
from tracker.desk.people import people
from tracker.door.front import ICON
from tracker.door.guard import IDENTITY
from tracker.log.sets import NewSet
from tracker.log.who import Who
from tracker.pocket.routes import PAGE, Pocket, version

ORIGIN = ((b"origin", b"http://127.0.0.1:8501"), (b"content-type", b"application/json"), (b"tidemark-day", b"1"))


class Answer:
    """What came back."""

    def __init__(self) -> None:
        self.status, self.headers, self.body = 0, dict[str, str](), b""

    @property
    def said(self) -> dict[str, Any]:
        return json.loads(self.body)


def ask(
    pocket: Pocket, path: str, *, method: str = "GET", query: str = "", headers: Any = (), body: bytes = b"",
    identity: Any = None,
) -> Answer:  # fmt: skip
    answer = Answer()
    scope = {
        "type": "http", "method": method, "path": path, "query_string": query.encode(), "headers": list(headers),
        "state": {IDENTITY: identity},
    }  # fmt: skip

    async def receive() -> Any:
        return {"type": "http.request", "body": body}

    async def send(message: Any) -> None:
        if message["type"] == "http.response.start":
            answer.status = message["status"]
            answer.headers = {name.decode(): value.decode() for name, value in message["headers"]}
        else:
            answer.body += message["body"]

    with ThreadPoolExecutor(1) as thread:  # a browser of another test may hold this one's loop
        thread.submit(anyio.run, pocket, scope, receive, send).result()
    return answer


async def pages(scope: Any, receive: Any, send: Any) -> None:
    await send({"type": "http.response.start", "status": 200, "headers": []})
    await send({"type": "http.response.body", "body": b"another page"})


@pytest.fixture
def pocket(log):
    return Pocket(pages, lambda: log, icon=ICON)


def posted(pocket: Pocket, member_id: str, *acts: Any, headers: Any = ORIGIN, identity: Any = None) -> Answer:
    body = json.dumps({**post(*acts), "user": member_id}).encode()
    return ask(pocket, "/day/api/acts", method="POST", headers=headers, body=body, identity=identity)


def a_set(squat, **more):
    return act("set", {"lift": squat.id, "load": "60", "unit": "kg", "reps": 5, **more})


def test_day_leads_to_its_folder_with_the_query_and_other_addresses_are_the_pages(pocket):
    found = ask(pocket, "/day", query="member=Ana&z=3")
    assert (found.status, found.headers["location"]) == (307, "/day/?member=Ana&z=3")
    for path in ("/", "/daydream", "/days/", "/today"):
        assert ask(pocket, path).body == b"another page"
    assert ask(pocket, "/day/nothing").status == 404
    assert ask(pocket, "/day/", method="POST").status == 405


PHONE = ((b"user-agent", b"Browser/1.0 (A phone) Mobile Safari/1.0"), (b"accept", b"text/html,*/*"))
DESK = ((b"user-agent", b"Browser/1.0 (A desk)"), (b"accept", b"text/html,*/*"))


@pytest.mark.parametrize(
    ("path", "query", "headers", "lands"),
    [
        ("/", "", PHONE, True),
        ("/", "", ((b"sec-ch-ua-mobile", b"?1"), (b"accept", b"text/html")), True),
        ("/", "", DESK, False),
        ("/", "", (*DESK, (b"sec-ch-ua-mobile", b"?0")), False),
        ("/", "member=Ana", PHONE, False),
        ("/trend", "", PHONE, False),
        ("/", "", PHONE[:1], False),
        ("/", "", (*PHONE, (b"cookie", b"a=1; tidemark-first=pages; b=2")), False),
        ("/", "", (*PHONE, (b"cookie", b"tidemark-first=pagesx")), True),
    ],
)
def test_a_phone_that_opens_the_bare_address_lands_on_the_day_and_nobody_else(pocket, path, query, headers, lands):
    found = ask(pocket, path, query=query, headers=headers)
    assert (found.status, found.headers.get("location")) == ((303, "/day/") if lands else (200, None))
    assert lands or found.body == b"another page"


def test_where_members_sign_in_only_who_is_known_lands_on_the_day(log, ana):
    me = ("https://gym", "ana")
    known = {me: Who("member", ana.id, "Ana", "1", me)}
    pocket = Pocket(pages, lambda: log, signs_in=True, knows=lambda identity: known.get(identity, Who("nobody")))
    assert ask(pocket, "/", headers=PHONE, identity=me).status == 303
    for identity in (None, ("https://gym", "stranger")):  # who would find nothing there but the way back
        assert ask(pocket, "/", headers=PHONE, identity=identity).body == b"another page"


def test_the_shell_holds_no_data_and_all_its_files_are_of_one_version(pocket, ana):
    shell = ask(pocket, "/day/").body.decode()
    assert ana.name not in shell
    linked = set(re.findall(r'(?:href|src)="(/day/[^"]+)"', shell))
    assert {path for path in linked if "/v/" in path} == {path for path in linked if f"/v/{version()}/" in path}
    for path in linked:
        found = ask(pocket, path)
        assert found.status == 200, path
        assert ("immutable" in found.headers["cache-control"]) == ("/v/" in path)
    worker = ask(pocket, "/day/sw.js")
    files = json.loads(re.search(r"FILES = (\[.*?\])", worker.body.decode())[1])  # type: ignore[index]
    assert {path for path in linked if "/v/" in path} <= set(files)
    assert all(ask(pocket, path).status == 200 for path in files)
    assert worker.headers["cache-control"] == "no-cache"
    manifest = ask(pocket, "/day/manifest.json").said
    assert (manifest["scope"], manifest["start_url"]) == ("/day/", "/day/")
    assert ask(pocket, manifest["icons"][0]["src"]).headers["content-type"] == "image/svg+xml"


def test_a_module_asks_nothing_of_elsewhere(pocket):
    for path in PAGE.iterdir():
        outside = set(re.findall(r"https?://[^\s\"'`)]+", path.read_text("utf-8")))
        assert outside == set(), path


def test_page_and_plan_are_small_over_the_air(pocket, demo_log):
    whole = Pocket(pages, lambda: demo_log, icon=ICON)
    gzip = ((b"accept-encoding", b"gzip, br"),)
    files = json.loads(re.search(r"FILES = (\[.*?\])", ask(whole, "/day/sw.js").body.decode())[1])  # type: ignore[index]
    sizes = [len(ask(whole, path, headers=gzip).body) for path in (*files, "/day/sw.js", "/day/manifest.json")]
    plans = [
        len(ask(whole, "/day/api/plan", query=f"member={each.name}", headers=gzip).body)
        for each in people.members(demo_log)
    ]
    assert sum(sizes) + max(plans) < 150_000


def test_the_plan_is_found_by_name_and_id_and_a_stranger_is_told(pocket, ana):
    for wanted in ("Ana", "ana", ana.id):
        found = ask(pocket, "/day/api/plan", query=f"member={wanted}&day={this_day().isoformat()}").said
        assert found["member"]["name"] == "Ana"
    assert ask(pocket, "/day/api/plan", query="member=Nobody").status == 404
    ping = ask(pocket, "/day/api/ping").said
    assert (ping["day"], ping["v"]) == (1, version())


def test_an_address_without_a_name_opens_whoever_began_first_as_the_pages_do(pocket, log, ana):
    people.add_member(log, "Aaron")
    found = ask(pocket, "/day/api/plan").said
    assert found["member"]["name"] == "Ana"
    assert found["members"] == ["Ana", "Aaron"]


def test_an_act_is_taken_and_answered_by_its_id(pocket, log, ana, squat):
    one = a_set(squat)
    assert posted(pocket, ana.id, one).said["results"] == [
        {"id": one["id"], "r": "done", "words": "back squat, barbell: 5 × 60 kg"}
    ]
    assert posted(pocket, ana.id, one).said["results"][0]["r"] == "again"
    assert len(today.day_plan(log, ana.id, this_day()).sets) == 1


@pytest.mark.parametrize("left_out", [b"origin", b"content-type", b"tidemark-day"])
def test_a_post_that_a_form_of_another_site_could_send_is_refused(pocket, log, ana, squat, left_out):
    found = posted(pocket, ana.id, a_set(squat), headers=tuple(each for each in ORIGIN if each[0] != left_out))
    assert found.status == 403
    assert today.day_plan(log, ana.id, this_day()).sets == ()


def test_what_is_too_much_no_json_or_of_another_version_is_told(pocket, ana):
    def of(body: bytes) -> int:
        return ask(pocket, "/day/api/acts", method="POST", headers=ORIGIN, body=body).status

    assert of(b"{" * 200_000) == 413
    assert of(b"{") == 400
    assert of(json.dumps({"f": 9, "user": ana.id}).encode()) == 426
    assert of(json.dumps({"f": 1, "user": "f" * 32}).encode()) == 403


def test_where_members_sign_in_only_their_own_acts_are_taken(log, ana, squat):
    bo = people.add_member(log, "Bo")
    known = {("https://gym", "ana"): Who("member", ana.id, "Ana", "1", ("https://gym", "ana"))}
    nobody = Who("nobody")
    pocket = Pocket(pages, lambda: log, signs_in=True, knows=lambda identity: known.get(identity, nobody), icon=ICON)
    assert ask(pocket, "/day/").status == 200  # the shell is for everybody, and says nothing
    for identity in (None, ("https://gym", "stranger")):
        assert ask(pocket, "/day/api/plan", query="member=Ana", identity=identity).status == 401
        assert posted(pocket, ana.id, a_set(squat), identity=identity).status == 401
    me = ("https://gym", "ana")
    assert ask(pocket, "/day/api/plan", query="member=Bo", identity=me).said["member"]["name"] == "Ana"
    assert posted(pocket, bo.id, a_set(squat), identity=me).status == 403
    assert posted(pocket, ana.id, a_set(squat), identity=me).said["results"][0]["r"] == "done"
    other_s = {**a_set(squat), "user": bo.id}
    assert posted(pocket, ana.id, other_s, identity=me).status == 403
    assert len(today.day_plan(log, ana.id, this_day()).sets) == 1
    assert today.day_plan(log, bo.id, this_day()).sets == ()


def test_a_log_that_cannot_be_opened_is_a_fault_of_the_moment(ana):
    from tracker.log.faults import LogBusyError

    def shut() -> Any:
        raise LogBusyError("log", 5)

    pocket = Pocket(pages, shut, icon=ICON)
    for found in (ask(pocket, "/day/api/plan"), posted(pocket, ana.id, act("warm", {"step": "x"}))):
        assert found.status == 503
        assert found.said["words"]


def test_a_plan_is_kept_until_something_is_written_and_is_each_reader_s_own(log, ana, squat, pocket, monkeypatch):
    from tracker.pocket import plan, routes

    made: list[str] = []
    real = plan.plan_of

    def counted(log: Any, member_id: str, *rest: Any, **named: Any) -> Any:
        made.append(member_id)
        return real(log, member_id, *rest, **named)

    monkeypatch.setattr(plan, "plan_of", counted)
    monkeypatch.setattr(routes, "MOMENT_MS", 10**15)  # no new moment within this test
    bea = people.add_member(log, "Bea")

    def asked(name: str) -> Any:
        return ask(pocket, "/day/api/plan", query=f"member={name}&day={this_day()}").said

    first, again = asked("Ana"), asked("Ana")
    assert made == [ana.id]
    assert {**first, "now": 0, "as_of": ""} == {**again, "now": 0, "as_of": ""}
    assert asked("Bea")["member"]["name"] == "Bea"
    assert made == [ana.id, bea.id]
    log_set.log_set(log, ana.id, this_day(), NewSet(squat.id, kg("60"), 5))
    assert [each["said"] for each in asked("Ana")["sets"]] == ["5 × 60 kg"]
    assert made == [ana.id, bea.id, ana.id]
