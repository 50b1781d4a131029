"""Writes CSV files that are whole or not there: each beside its place, on the disk, and only then in its place."""

from __future__ import annotations

import csv
import os
from collections.abc import Callable, Iterable, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime
from decimal import Decimal
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any

from tracker.errors import TidemarkError
from tracker.exchange.cells import harmless
from tracker.private import make_folder, opener

if TYPE_CHECKING:
    from collections.abc import Iterator


def cell(value: Any) -> str:
    """Write one value: text made harmless for spreadsheets, numbers plain, moments in UTC, nothing as nothing."""
    if value is None:
        return ""
    if isinstance(value, str):
        return harmless(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Decimal):
        return format(value, "f")  # as it was typed: 92.50 stays 92.50
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat().replace("+00:00", "Z")
    return value.isoformat() if isinstance(value, date) else str(value)


class Outbox:
    """Files that are being written into a folder; all of them take their places at the end."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.waiting: dict[Path, Path] = {}
        self.rows: dict[str, int] = {}

    def write(self, name: str, heading: Sequence[str], rows: Iterable[Sequence[Any]]) -> None:
        """Write one CSV file, UTF-8 with commas."""
        path = self.folder / name
        self.waiting[path] = waiting = path.with_name(f".{name}.part")
        number = 0
        with open(waiting, "w", encoding="utf-8", newline="", opener=opener) as file:
            out = csv.writer(file, lineterminator="\n")
            out.writerow(heading)
            for number, row in enumerate(rows, 1):  # noqa: B007 - the last number is what is wanted
                out.writerow([cell(value) for value in row])
            file.flush()
            os.fsync(file.fileno())
        self.rows[name] = number

    def write_text(self, name: str, write: Callable[[IO[str]], object]) -> None:
        """Write one file of another kind, UTF-8; `write` is given the open file."""
        path = self.folder / name
        self.waiting[path] = waiting = path.with_name(f".{name}.part")
        with open(waiting, "w", encoding="utf-8", newline="\n", opener=opener) as file:
            write(file)
            file.flush()
            os.fsync(file.fileno())

    def deliver(self) -> None:
        for path, waiting in self.waiting.items():
            waiting.replace(path)
        self.waiting.clear()
        sync_folder(self.folder)

    def discard(self) -> None:
        for waiting in self.waiting.values():
            waiting.unlink(missing_ok=True)


@contextmanager
def outbox(folder: Path) -> Iterator[Outbox]:
    """Write files into a folder, which is made where it is missing; what is there stays as it is if anything fails.

    Raises:
        TidemarkError: if the folder can't be made or written.
    """
    box = Outbox(folder)
    try:
        make_folder(folder)
        yield box
        box.deliver()
    except OSError as err:
        raise TidemarkError(
            f"The files can't be written: {err.strerror or err}. Nothing was changed.",
            where=str(folder),
            mend="Name a folder that may be written to, with room in it.",
        ) from err
    finally:
        box.discard()


def sync_folder(folder: Path) -> None:
    """Make the names in a folder durable, where the system has such a thing."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
