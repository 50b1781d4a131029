"""A long act on the command line: how far it is, on a terminal, and Ctrl-C that ends it with nothing half written."""

from __future__ import annotations

import signal
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType
from typing import Any

import click

from tracker.progress import StoppedError, Watch, watched

BETWEEN_S = 0.1  # more often nobody can read


@contextmanager
def long_act() -> Iterator[None]:
    """Tell on standard error how far the block is, where that is a terminal; a second Ctrl-C does not wait for a step.

    Raises:
        click.Abort: if it was stopped, after that was said.
    """
    line = _Line()
    watch = Watch(line.show if sys.stderr.isatty() else None)
    try:
        with _stopped_by_ctrl_c(watch), watched(watch):
            yield
    except StoppedError as err:
        line.clear()
        click.echo(f"tidemark: {err}", err=True)
        raise click.Abort from err
    finally:
        line.clear()


class _Line:
    """One line of a terminal that is written again and again."""

    def __init__(self) -> None:
        self.length, self.words, self.at = 0, "", 0.0

    def show(self, watch: Watch) -> None:
        now = time.monotonic()
        if watch.words == self.words and now - self.at < BETWEEN_S:
            return
        self.words, self.at = watch.words, now
        far = f" {watch.done:,} of {watch.total:,}" if watch.total else f" {watch.done:,}" if watch.done else ""
        text = f"{watch.words}{far} (Ctrl-C stops)"[:79]
        sys.stderr.write(f"\r{text.ljust(self.length)}")
        sys.stderr.flush()
        self.length = len(text)

    def clear(self) -> None:
        if self.length:
            sys.stderr.write(f"\r{' ' * self.length}\r")
            sys.stderr.flush()
            self.length = 0


@contextmanager
def _stopped_by_ctrl_c(watch: Watch) -> Iterator[None]:
    if threading.current_thread() is not threading.main_thread():  # only there can a signal be caught
        yield
        return

    def stop(_number: int, _frame: FrameType | None) -> None:
        watch.stop()
        signal.signal(signal.SIGINT, before)

    before: Any = signal.signal(signal.SIGINT, stop)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
