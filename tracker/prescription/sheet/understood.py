"""What reading a sheet gives: the sheet as it was understood, what is asked, and what became of each line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tracker.prescription.sheet.asks import Ask
from tracker.prescription.sheet.model import Sheet


@dataclass(frozen=True, slots=True)
class LineRead:
    """What became of one line: its role, and to which session and item it belongs (counted from 0; -1: none)."""

    number: int
    typed: str
    role: str
    session: int = -1
    item: int = -1


@dataclass(frozen=True, slots=True)
class Reading:
    """A sheet as it was understood, what is asked, and what became of each line, in order."""

    sheet: Sheet
    asks: tuple[Ask, ...]
    lines: tuple[LineRead, ...]
    answered: Mapping[str, str]
