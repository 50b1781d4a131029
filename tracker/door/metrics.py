"""Figures for a program that watches the servers: at /metrics, in the open exposition format, for who has the key.

The format is that of prometheus.io/docs/instrumenting/exposition_formats, and OpenMetrics where it is asked for. What is
counted are kinds and times (`counts.py`), so nobody can be told from it. Each server tells of itself alone.
"""

from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from typing import TYPE_CHECKING, Any

from anyio import to_thread

from tracker import counts

if TYPE_CHECKING:
    from prometheus_client.metrics_core import Metric

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
Dumps = Callable[[], tuple[bool, float | None]]  # in order or not, and the seconds since the newest good one

PATH = "/metrics"
KINDS = (  # the beginning of a path, and what it is counted as
    ("/day/api/acts", "acts of the day page"),
    ("/day", "day page"),
    ("/_stcore/health", "health"),
    ("/_stcore/stream", "socket"),
    ("/_stcore/upload_file", "upload"),
    ("/_stcore", "files"),
    ("/media", "files"),
    ("/static", "files"),
    ("/component", "files"),
    ("/oauth2callback", "sign-in"),
    ("/auth", "sign-in"),
    (PATH, "figures"),
)


class Metrics:
    """Counts what comes and goes, and answers /metrics itself.

    Args:
        app: What stands behind.
        key: What a watching program shows as `Authorization: Bearer KEY`; without it nobody is answered.
        dumps: Says how last night's dump is, where a folder of dumps is named.
        counted: The sums of this server.
    """

    def __init__(
        self, app: Any, key: str = "", dumps: Dumps | None = None, counted: counts.Counts = counts.here
    ) -> None:
        self.app, self.key, self.dumps, self.counted = app, key, dumps, counted

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        if scope["type"] == "websocket":
            await self._socket(scope, receive, send)
        elif scope["type"] != "http":
            await self.app(scope, receive, send)
        else:
            await self._request(scope, receive, send)

    async def _request(self, scope: Message, receive: Receive, send: Send) -> None:
        kind = kind_of(scope["path"])

        async def seen(message: Message) -> None:
            if message["type"] == "http.response.start":
                self.counted.request(kind, message["status"])
            await send(message)

        if scope["path"] == PATH:
            await self._figures(scope, seen)
        else:
            await self.app(scope, receive, seen)

    async def _socket(self, scope: Message, receive: Receive, send: Send) -> None:
        accepted = False

        async def seen(message: Message) -> None:
            nonlocal accepted
            if message["type"] == "websocket.accept" and not accepted:
                accepted = True
                self.counted.page(1)
                self.counted.request("socket", 101)
            await send(message)

        try:
            await self.app(scope, receive, seen)
        finally:
            if accepted:
                self.counted.page(-1)
            else:
                self.counted.request("socket", 403)

    async def _figures(self, scope: Message, send: Send) -> None:
        if not self.key:
            await _say(send, 404, b"There is nothing here.")
            return
        headers = {name.lower(): value for name, value in scope["headers"]}
        if not hmac.compare_digest(headers.get(b"authorization", b""), b"Bearer " + self.key.encode()):
            await _say(send, 403, b"That is not the key.")
            return
        accepts = headers.get(b"accept", b"").decode("latin-1")
        kind, text = await to_thread.run_sync(written, self.counted, self.dumps, accepts)
        await _say(send, 200, text, kind)


def kind_of(path: str) -> str:
    """Return the kind of a request by its path; a page of the program is `page`, whatever stands in it."""
    return next((kind for start, kind in KINDS if path == start or path.startswith(f"{start}/")), "page")


def written(counted: counts.Counts, dumps: Dumps | None, accepts: str = "") -> tuple[str, bytes]:
    """Write all figures; return their content type and text."""
    from prometheus_client import CollectorRegistry, ProcessCollector
    from prometheus_client.exposition import choose_encoder

    registry = CollectorRegistry()
    ProcessCollector(registry=registry)  # memory, processor, open files, moment of the start
    registry.register(_Sums(counted, dumps))
    encode, kind = choose_encoder(accepts)
    return kind, encode(registry)


class _Sums:
    """What the library asks for the figures."""

    def __init__(self, counted: counts.Counts, dumps: Dumps | None) -> None:
        self.counted, self.dumps = counted, dumps

    def collect(self) -> Iterable[Metric]:
        from prometheus_client.core import CounterMetricFamily, GaugeMetricFamily, HistogramMetricFamily

        counted = self.counted
        requests = CounterMetricFamily("tidemark_requests", "Requests answered.", labels=["kind", "status"])
        for (kind, status), number in sorted(counted.requests.items()):
            requests.add_metric([kind, status], number)
        yield requests
        acts = CounterMetricFamily("tidemark_acts", "Acts that came to the log.", labels=["outcome"])
        for outcome in (counts.KEPT, counts.REFUSED, counts.FAILED):
            acts.add_metric([outcome], counted.acts[outcome])
        yield acts
        took = HistogramMetricFamily("tidemark_act_seconds", "Time of acts, waiting for others included.")
        up_to, rows = 0, list[tuple[str, float]]()
        for most, number in zip((*map(str, counts.STEPS), "+Inf"), list(counted.steps), strict=True):
            up_to += number
            rows.append((most, up_to))
        took.add_metric([], rows, counted.seconds)
        yield took
        faults = CounterMetricFamily("tidemark_database_errors", "Errors of the database.", labels=["kind"])
        for kind, number in sorted(counted.faults.items()):
            faults.add_metric([kind], number)
        yield faults
        yield GaugeMetricFamily("tidemark_open_pages", "Pages that are open.", value=counted.open_pages)
        if self.dumps is not None:
            good, age = self.dumps()
            yield GaugeMetricFamily("tidemark_dump_in_order", "1 where last night's dump is good.", value=int(good))
            if age is not None:
                yield GaugeMetricFamily("tidemark_dump_age_seconds", "Since the newest good dump.", value=age)


async def _say(send: Send, status: int, body: bytes, kind: str = "text/plain; charset=utf-8") -> None:
    headers = [
        (b"content-type", kind.encode()), (b"cache-control", b"no-store"), (b"content-length", b"%d" % len(body)),
    ]  # fmt: skip
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})
