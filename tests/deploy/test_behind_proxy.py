"""Two servers of one log behind the proxy, with its own file, TLS and sign-in: as deployed, but in processes of the tests."""

from __future__ import annotations

import http.client
import json
import re
import signal
import socket as socketlib
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlencode, urlsplit

import psycopg
import pytest
from joserfc import jwt
from joserfc.jwk import OctKey
from streamlit.proto.BackMsg_pb2 import BackMsg
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg
from websockets import ConnectionClosed, Subprotocol
from websockets.sync.client import ClientConnection, connect

from tests.browser.signing_in import COOKIE, COOKIE_SECRET
from tests.conftest import must_not_skip
from tests.day import this_day
from tests.deploy.gym import KEY, NAME, Deployed, NoProxyError, deployed
from tests.pocket.posts import Act, act, post
from tests.server.cluster import Cluster, NoServerError
from tests.server.load import fill
from tracker.cli import run
from tracker.desk.base.opening import open_log
from tracker.desk.day import today, touches
from tracker.desk.files.dumps import last_night
from tracker.desk.people import accounts
from tracker.log.unit_of_work import Log

pytestmark = pytest.mark.server
STAYS = "tidemark_server"  # the cookie by which a reader stays on one server
PATIENCE_S = 60


@pytest.fixture(scope="module")
def gym(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Deployed, Log, dict[str, str]]]:
    """What is deployed, its log, and the ids of Ana, Bea and Cyr, who train, and Fay, the owner."""
    cluster = Cluster()
    try:
        with deployed(cluster.start(), tmp_path_factory.mktemp("deployed")) as made:
            log = open_log(made.database)
            members = dict(zip(("Ana", "Bea", "Cyr", "Fay"), fill(log, 4), strict=True))
            for name, member in members.items():
                accounts.enter(log, made.issuer, f"{name.lower()}-7f3", "owner" if name == "Fay" else "member", member)
            yield made, log, members
            log.close()
    except (NoServerError, NoProxyError) as err:
        if must_not_skip():
            pytest.fail(str(err))
        pytest.skip(str(err))
    finally:
        cluster.remove()


def until(true: Callable[[], bool], what: str) -> None:
    latest = time.monotonic() + PATIENCE_S
    while not true():
        assert time.monotonic() < latest, what
        time.sleep(0.05)


def plan_asked(made: Deployed, port: int) -> float:
    return made.figures(port).get(("tidemark_requests_total", "day page 2xx"), 0)


def socket_of(made: Deployed, cookies: dict[str, str]) -> ClientConnection:
    """Open a page's socket through the proxy."""
    known = "; ".join(f"{name}={value}" for name, value in cookies.items())
    spoken = [Subprotocol("streamlit"), Subprotocol(cookies["_streamlit_xsrf"])]
    plain = socketlib.create_connection(("127.0.0.1", made.https), timeout=PATIENCE_S)
    return connect(
        f"wss://{NAME}:{made.https}/_stcore/stream", sock=plain, ssl=made.tls, subprotocols=spoken, max_size=None,
        additional_headers={"Cookie": known}, origin=made.address,  # type: ignore[arg-type]
    )  # fmt: skip


def page_over(socket: ClientConnection) -> str:
    ask, told = BackMsg(), [ForwardMsg()]
    ask.rerun_script.page_name = "accounts"
    socket.send(ask.SerializeToString())
    while told[-1].WhichOneof("type") != "script_finished":
        told.append(ForwardMsg.FromString(socket.recv(timeout=PATIENCE_S, decode=False)))
    return "\n".join(map(str, told))


def authorized(address: str, subject: str) -> str:
    """Say who one is at the provider; return where it sends the browser."""
    parts = urlsplit(address)
    asked = http.client.HTTPConnection(parts.hostname or "", parts.port, timeout=20)
    form = {"Content-Type": "application/x-www-form-urlencoded"}
    asked.request("POST", f"{parts.path}?{parts.query}", urlencode({"sub": subject}), form)
    answer = asked.getresponse()
    assert answer.status in (302, 303), answer.read()
    return answer.headers["location"]


def test_plain_http_is_sent_to_https_and_the_name_is_held(gym: Any) -> None:
    made, _, _ = gym
    plain = http.client.HTTPConnection("127.0.0.1", made.http, timeout=20)
    plain.request("GET", "/day/?x=1", headers={"Host": NAME})
    answer = plain.getresponse()
    assert (answer.status, answer.headers["location"]) == (301, f"https://{NAME}/day/?x=1")
    there = made.ask("/day/")
    assert there.status == 200
    assert there.header("strict-transport-security") == "max-age=31536000"
    assert re.search(rf"{STAYS}=(one|two)\|\S+; path=/; HttpOnly; Secure; SameSite=Lax", there.header("set-cookie"))
    assert made.ask("/day/", Host="evil.example").status == 421  # the header goes on as it came
    assert made.ask("/day/api/plan", Origin="https://evil.example").status == 403
    for path in ("/metrics", "/Metrics", "/metrics/x"):
        assert made.ask(path, Authorization=f"Bearer {KEY}").status == 404  # not from outside, not with the key


def test_a_member_signs_in_at_the_provider_and_comes_back_through_the_proxy(gym: Any) -> None:
    made, _, _ = gym
    token = jwt.encode(
        {"alg": "HS256"}, {"provider": "default", "exp": int(time.time()) + 60}, OctKey.import_key(COOKIE_SECRET)
    )
    away = made.ask(f"/auth/login?{urlencode({'provider': token})}")
    assert away.status == 302
    known = away.cookies
    back = authorized(away.header("location"), "ana-7f3")
    assert back.startswith(f"{made.address}/oauth2callback?")
    here = urlsplit(back)
    landed = made.ask(f"{here.path}?{here.query}", cookies=known)
    assert landed.status in (302, 307), landed.body
    assert "Secure" in landed.header("set-cookie")
    day = made.ask("/day/api/plan", cookies={**known, COOKIE: landed.cookies[COOKIE]})
    assert (day.status, json.loads(day.body)["sign_in"]) == (200, True)
    code = re.search(r"code=([^&]+)", back)
    assert code
    written = (made.folder / "proxy.txt").read_text() + "".join("\n".join(made.said(port)) for port in made.ports)
    assert "/oauth2callback" in written
    for secret in (code[1], landed.cookies[COOKIE], COOKIE_SECRET, KEY, "hush-hush"):
        assert secret not in written


def test_a_reader_stays_on_one_server_and_goes_on_at_the_other_when_it_ends(gym: Any) -> None:
    made, _, members = gym
    one, two = made.ports
    cookies = {**made.signed_in("fay-7f3"), **made.ask("/_stcore/health", cookies=made.signed_in("fay-7f3")).cookies}
    mine, other = (one, two) if cookies[STAYS].startswith("one|") else (two, one)
    before = plan_asked(made, mine), plan_asked(made, other)
    for _ in range(6):
        assert made.ask("/day/api/plan", cookies=cookies).status == 200
    assert (plan_asked(made, mine), plan_asked(made, other)) == (before[0] + 6, before[1])
    with socket_of(made, cookies) as socket:
        assert "Who signs in" in page_over(socket)
        assert made.figures(mine)["tidemark_open_pages", ""] == 1
        took = made.stop(mine)
        assert took < 20
        with pytest.raises(ConnectionClosed):  # the browser is told, and opens another one
            list(socket)
    day = made.ask("/day/api/plan", cookies=cookies)
    assert day.status == 200
    assert day.cookies[STAYS][:3] != cookies[STAYS][:3]
    with socket_of(made, {**cookies, **day.cookies}) as socket:
        assert "Who signs in" in page_over(socket)
        assert made.figures(other)["tidemark_open_pages", ""] == 1
    made.start(mine)
    made.well(mine)
    lines = made.said(mine)
    assert [line for line in lines if not re.match(r"20\d\d-\d\d-\d\dT[\d:.]+Z (INFO|WARNING|ERROR|CRITICAL) [\w.]+: ", line)][2:] == [
        line for line in lines if line.startswith(("Tidemark: ", "Members sign in"))
    ][2:]  # fmt: skip
    text = made.ask("/metrics", at=mine, Authorization=f"Bearer {KEY}").body.decode()
    for each in ("Member 0", *members.values(), "fay-7f3"):
        assert each not in text


def test_a_server_that_does_not_answer_gets_nobody(gym: Any) -> None:
    made, _, _ = gym
    _, two = made.ports
    stays: dict[str, str] = {}

    def comes_to_two() -> bool:
        stays.update(made.ask("/day/").cookies)
        return stays[STAYS].startswith("two|")

    def is_sent_elsewhere() -> bool:
        return made.ask("/day/", cookies=stays).cookies.get(STAYS, "two|").startswith("one|")

    until(comes_to_two, "both are well")
    made.running[two].send_signal(signal.SIGSTOP)
    try:
        with suppress(TimeoutError):
            until(is_sent_elsewhere, "it is taken out")
        until(is_sent_elsewhere, "it is out")
    finally:
        made.running[two].send_signal(signal.SIGCONT)
    until(comes_to_two, "it is taken in again")


@dataclass
class Phone:
    """A phone that logs sets all the while, keeps each until the log has named it, and sends it again until then."""

    made: Deployed
    member: str
    lift: str
    cookies: dict[str, str]
    ends: threading.Event
    sent: list[str] = field(default_factory=list)
    answers: list[str] = field(default_factory=list)
    failed: int = 0

    def run(self) -> None:
        number = 0
        while not self.ends.is_set():
            number += 1
            body = {
                "lift": self.lift,
                "load": str(40 + number / 2),
                "unit": "kg",
                "reps": 5,
                "outcome": "done",
                "sure": True,
            }
            self.hand_over(act("set", body, number, user=self.member))
            time.sleep(0.15)

    def hand_over(self, touch: Act) -> None:
        self.sent.append(touch["id"])
        text = json.dumps({**post(touch), "user": self.member})
        latest = time.monotonic() + PATIENCE_S
        while time.monotonic() < latest:
            with suppress(OSError, http.client.HTTPException):
                answer = self.made.ask(
                    "/day/api/acts", method="POST", cookies=self.cookies, body=text, Origin=self.made.address,
                    **{"Content-Type": "application/json", "tidemark-day": "1"},
                )  # fmt: skip
                self.cookies = {**self.cookies, **answer.cookies}
                if answer.status == 200:
                    (result,) = json.loads(answer.body)["results"]
                    self.answers.append(result["r"] if result["r"] != "parked" else result["words"])
                    return
            self.failed += 1
            time.sleep(0.1)


def test_an_update_of_both_servers_loses_no_touch_and_doubles_none(gym: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """In the order of .deploy/README.md: dump; one server after the other; and in between tables that are newer than one."""
    made, log, members = gym
    ends = threading.Event()
    phones: list[Phone] = []
    before: dict[str, int] = {}
    for name in ("Ana", "Bea", "Cyr"):
        member = members[name]
        lift = next(each.lift.id for each in today.day_plan(log, member, this_day()).lines)
        before[member] = len(today.day_plan(log, member, this_day()).sets)
        phones.append(Phone(made, member, lift, made.signed_in(f"{name.lower()}-7f3"), ends))
    threads = [threading.Thread(target=each.run) for each in phones]
    for each in threads:
        each.start()
    try:
        until(lambda: all(each.answers for each in phones), "touches come in")
        for name, value in made.settings().items():
            if name.startswith("TIDEMARK_"):
                monkeypatch.setenv(name, value)
        assert run(["dump"]) == 0  # while touches go on
        night = last_night()
        assert night
        assert night.good, night.said
        for port in made.ports:
            made.stop(port)
            made.start(port)
            made.well(port)
            if port == made.ports[0]:
                _newer_for_a_moment(made, phones)
        counted = [len(each.answers) for each in phones]
        until(lambda: all(len(each.answers) > was for each, was in zip(phones, counted, strict=True)), "they go on")
    finally:
        ends.set()
        for each in threads:
            each.join(timeout=2 * PATIENCE_S)
    assert sum(each.failed for each in phones) > 0  # else nothing was tried
    for each in phones:
        assert len(each.answers) == len(each.sent)
        assert set(each.answers) <= {"done", "again"}
        known = [touch.id for touch in touches.touches(log, each.member)]
        assert len(known) == len(set(known))
        assert set(each.sent) <= set(known)
        assert len(today.day_plan(log, each.member, this_day()).sets) == before[each.member] + len(each.sent)
    figures = made.figures(made.ports[1])
    assert figures["tidemark_dump_in_order", ""] == 1
    assert 0 <= figures["tidemark_dump_age_seconds", ""] < 3600
    assert figures["process_resident_memory_bytes", ""] > 50e6
    assert sum(made.figures(port)["tidemark_acts_total", "kept"] for port in made.ports) > 0


def _newer_for_a_moment(made: Deployed, phones: list[Phone]) -> None:
    """As while the first server is of a newer version that changed the tables, and the second one is not yet."""
    address = made.database.replace("+psycopg", "")
    with psycopg.connect(address, autocommit=True) as connection:
        (former,) = connection.execute("SELECT version_num FROM alembic_version").fetchone() or ("",)
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        failed = sum(each.failed for each in phones)
        until(lambda: sum(each.failed for each in phones) > failed + 2, "the older one refuses to write")
        connection.execute("UPDATE alembic_version SET version_num = %s", [former])
