"""Asynchronous work in a thread of its own: a browser of other tests keeps the loop of a process's first thread running."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

T = TypeVar("T")


def apart(work: Awaitable[T]) -> T:
    """Do it and wait for it."""

    async def done() -> T:
        return await work

    with ThreadPoolExecutor(1) as pool:
        return pool.submit(asyncio.run, done()).result()
