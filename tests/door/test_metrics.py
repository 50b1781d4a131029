"""Figures for a program that watches the servers: who gets them, what they hold, read by the format's own parsers.

The format: prometheus.io/docs/instrumenting/exposition_formats; OpenMetrics 1.0. Parsers: prometheus-client's own.
"""

from __future__ import annotations

import hmac
import logging
import re
from datetime import UTC, datetime
from typing import Any

import pytest
from prometheus_client.openmetrics import parser as openmetrics
from prometheus_client.parser import text_string_to_metric_families

from tests.apart import apart
from tests.door.asgi import Behind
from tracker import counts
from tracker.desk.people import people
from tracker.door.lines import OneLine, is_told
from tracker.door.metrics import Metrics, kind_of
from tracker.errors import BadInputError, TidemarkError

KEY = "9d" * 32


def ask(app: Metrics, path: str = "/metrics", *, kind: str = "http", **headers: str) -> tuple[int, str, str]:
    """Ask the server's first wall; return status, content type and text."""
    told: list[Any] = []
    given = [(name.lower().encode(), value.encode()) for name, value in headers.items()]

    async def receive() -> dict[str, Any]:
        return {"type": "websocket.connect" if kind == "websocket" else "http.request"}

    async def send(message: Any) -> None:
        told.append(message)

    apart(app({"type": kind, "path": path, "headers": given, "method": "GET"}, receive, send))
    head = dict(told[0].get("headers", []))
    body = told[1].get("body", b"") if len(told) > 1 else b""
    return told[0].get("status", 0), head.get(b"content-type", b"").decode(), body.decode()


def figures(text: str) -> dict[tuple[str, str], float]:
    return {
        (each.name, " ".join(each.labels.values())): each.value
        for family in text_string_to_metric_families(text)
        for each in family.samples
    }


def test_without_a_key_there_is_nothing_and_with_another_one_nobody_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    behind = Behind()
    assert ask(Metrics(behind))[0] == 404
    assert ask(Metrics(behind), Authorization="Bearer ")[0] == 404
    compared: list[bool] = []
    real = hmac.compare_digest
    monkeypatch.setattr(hmac, "compare_digest", lambda *both: compared.append(real(*both)) or compared[-1])
    app = Metrics(behind, KEY)
    for wrong in ({}, {"Authorization": "Bearer "}, {"Authorization": KEY}, {"Authorization": f"Bearer {KEY[:-1]}"}):
        status, _, text = ask(app, **wrong)
        assert (status, "tidemark_" in text) == (403, False)
    assert ask(app, Authorization=f"Bearer {KEY}")[0] == 200
    assert compared == [False] * 4 + [True]  # in a time that tells nothing of how much of a key was right
    assert behind.reached == []


def test_requests_and_open_pages_are_counted_by_kind() -> None:
    counted = counts.Counts()
    app = Metrics(Behind(), KEY, lambda: (False, 90_000.0), counted)
    for path in (
        "/",
        "/trend",
        "/day/",
        "/day/api/plan",
        "/day/api/acts",
        "/daybreak",
        "/_stcore/health",
        "/oauth2callback",
    ):
        ask(app, path)
    ask(app, "/_stcore/stream", kind="websocket")
    status, kind, text = ask(app, Authorization=f"Bearer {KEY}")
    assert (status, kind) == (200, "text/plain; version=1.0.0; charset=utf-8") or kind.startswith(
        "text/plain; version=0.0.4"
    )
    found = figures(text)
    kinds = {labels: value for (name, labels), value in found.items() if name == "tidemark_requests_total"}
    assert kinds == {
        "page 2xx": 3, "day page 2xx": 2, "acts of the day page 2xx": 1, "health 2xx": 1, "sign-in 2xx": 1, "socket 1xx": 1,
    }  # fmt: skip
    assert found["tidemark_open_pages", ""] == 0  # it was closed again
    assert found["tidemark_dump_in_order", ""] == 0
    assert found["tidemark_dump_age_seconds", ""] == 90_000
    assert found["process_resident_memory_bytes", ""] > 1e6
    assert kind_of("/_stcore/upload_file/x/y") == "upload"


def test_acts_are_counted_with_their_time_and_refused_ones_once(log: Any) -> None:
    before = counts.here.acts.copy(), sum(counts.here.steps)
    people.add_member(log, "Quillon Vantreight")
    with pytest.raises(ZeroDivisionError), log.act("fails"):
        raise ZeroDivisionError
    with pytest.raises(BadInputError) as refused, log.act("is refused"):
        raise BadInputError("No.")
    counts.here.refuse(refused.value)  # the page that shows it tells of it again
    after = counts.here.acts - before[0]
    assert (after[counts.KEPT], after[counts.REFUSED], after[counts.FAILED]) == (1, 1, 1)
    assert sum(counts.here.steps) == before[1] + 3
    status, kind, text = ask(
        Metrics(Behind(), KEY), Authorization=f"Bearer {KEY}", Accept="application/openmetrics-text; version=1.0.0"
    )
    assert (status, kind.split(";")[0]) == (200, "application/openmetrics-text")
    families = {each.name: each for each in openmetrics.text_string_to_metric_families(text)}
    took = {each.labels.get("le", each.name): each.value for each in families["tidemark_act_seconds"].samples}
    assert took["+Inf"] == took["tidemark_act_seconds_count"] == sum(counts.here.steps)
    rising = [took[str(most)] for most in counts.STEPS]
    assert rising == sorted(rising)
    assert "Quillon" not in text


def test_a_line_is_one_has_its_level_and_no_secret() -> None:
    said = OneLine(["c0ffee-c0ffee", "c0ffee", "abc"])
    try:
        raise TidemarkError("No room.\nAt all, c0ffee-c0ffee.")
    except TidemarkError as err:
        trace = (type(err), err, err.__traceback__)
    record = logging.LogRecord("tracker.app", logging.ERROR, "", 1, "a page\x1b[31m failed %s", ("abc",), trace)
    record.created = datetime(2026, 11, 28, 14, 30, 0, 123_000, tzinfo=UTC).timestamp()
    line = said.format(record)
    assert re.match(
        r"2026-11-28T14:30:00\.123Z ERROR tracker\.app: a page\?\[31m failed abc \| Traceback \(most recent", line
    )
    assert line.endswith("TidemarkError: No room. | At all, ***.")
    assert "\n" not in line
    who = logging.LogRecord(
        "uvicorn.error", logging.INFO, "", 1, '%s - "WebSocket %s" [accepted]', ("192.0.2.7:1", "/"), None
    )
    assert not is_told(who)  # an address of somebody; RFC 5737 keeps this one for examples
    assert is_told(record)
