"""The sheets of an xlsx workbook as rows of text cells, as a CSV would have them."""

from __future__ import annotations

import io
import re
import zipfile
from datetime import date, datetime, time
from decimal import Decimal
from typing import Any

from tracker.errors import BadInputError
from tracker.exchange.cells import shown
from tracker.exchange.problems import BadFileError, Problem
from tracker.progress import StoppedError, through

MOST_UNPACKED = 512 * 1024**2  # a workbook that unpacks to more is no training log
MOST_ROWS, MOST_COLUMNS = 200_000, 200
CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]")


def sheets_of(content: bytes, name: str) -> dict[str, list[tuple[int, list[str]]]]:
    from openpyxl import load_workbook  # slow to import, and most files are CSV

    mend = "Open it in the program that wrote it and save it as xlsx again, or as CSV."
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            if sum(each.file_size for each in packed.infolist()) > MOST_UNPACKED:
                raise BadInputError(
                    "The workbook unpacks to more than 512 MB.", where=name, mend="Save only the sheet of sets."
                )
        book = load_workbook(io.BytesIO(content), read_only=True, data_only=True)
        if not book.worksheets:
            raise BadInputError("The workbook has no sheet with cells.", where=name, mend=mend)
        sheets = {each.title: _rows(each) for each in book.worksheets}
    except (BadInputError, StoppedError):
        raise
    except Exception as err:  # a damaged workbook ends in many kinds of error
        raise BadInputError(
            f"The workbook can't be read: {shown(str(err) or type(err).__name__, 80)}.", where=name, mend=mend
        ) from err
    for rows in sheets.values():
        _refuse_controls(rows, name)
    return sheets


def _rows(sheet: Any) -> list[tuple[int, list[str]]]:
    found = sheet.iter_rows(values_only=True, max_row=MOST_ROWS + 1, max_col=MOST_COLUMNS + 1)
    counted = through(f"reading the sheet {sheet.title}", found, sheet.max_row or 0)
    return [(at, [_cell(value) for value in row]) for at, row in enumerate(counted, 1)]


def _refuse_controls(rows: list[tuple[int, list[str]]], name: str) -> None:
    for line, cells in rows:
        for at, cell in enumerate(cells):
            if CONTROL.search(cell):
                problem = Problem(line, f"column {at + 1}", "There is a control character.", "Take it out.")
                raise BadFileError(name, (problem,))


def _cell(value: Any) -> str:
    """Write a cell of a workbook as the text that a CSV would have."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, float):
        return format(Decimal(repr(round(value, 6))).normalize(), "f") if abs(value) < 1e15 else repr(value)  # 5.0 is 5
    return str(value)
