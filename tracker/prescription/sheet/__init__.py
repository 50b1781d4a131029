"""A coach's session sheet: typed in any hand, read, said back, and written again. Pure.

The reader itself, some seventy modules with their patterns, is imported when the first sheet is read: it takes longer
than all else that a process of ours imports, and most begin without a sheet.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from tracker.prescription.sheet.model import Sheet
from tracker.prescription.sheet.problems import Problem, SheetErrors
from tracker.prescription.sheet.understood import LineRead, Reading
from tracker.prescription.sheet.written.printing import print_sheet
from tracker.prescription.sheet.written.record import as_json
from tracker.prescription.sheet.written.said_back import said_back

__all__ = [
    "LineRead",
    "Problem",
    "Reading",
    "SheetErrors",
    "as_json",
    "parse_sheet",
    "print_sheet",
    "read",
    "said_back",
]


def read(text: str, *, name: str = "", answers: Mapping[str, str] | None = None, today: date | None = None) -> Reading:
    """Read a coach's sheet, in whatever hand it is typed.

    What was read last is kept: a page asks for the same text at each touch, and for the sheets that it may be a change of.

    Args:
        text: The sheet.
        name: What to call it in a message, such as its file's name.
        answers: Answers to earlier asks: the key of an ask, and the code of the reading that was chosen.
        today: The day from which a date without a year is counted: it is the next such day, or one of the last four weeks.

    Raises:
        SheetErrors: if there is nothing in it to read.
    """
    from tracker.prescription.sheet import reading

    return reading.read(text, name=name, answers=answers, today=today)


def parse_sheet(
    text: str, *, name: str = "", answers: Mapping[str, str] | None = None, today: date | None = None
) -> Sheet:
    """Read a coach's sheet and return what was understood: see `read`.

    Raises:
        SheetErrors: if there is nothing in it to read.
    """
    return read(text, name=name, answers=answers, today=today).sheet
