"""A CSV as text: decoded strictly, split into rows with their line numbers, its heading understood.

Commas between cells and quotes around cells that hold one (RFC 4180), UTF-8 with or without a byte order mark, any line
ending. Blank lines are passed over; a row with another number of cells than the heading is told.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from tracker.errors import BadInputError
from tracker.exchange.cells import printable, shown
from tracker.exchange.problems import BadFileError, Problem

MOST_BYTES = 256 * 1024**2  # over a million sets; a larger file is something else
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]")
_OTHER_MARKS = {b"\xff\xfe": "UTF-16", b"\xfe\xff": "UTF-16", b"\x00\x00\xfe\xff": "UTF-32"}


def read_text(path: Path, *, save_as: str = "CSV in UTF-8") -> str:
    """Read a file as UTF-8.

    Raises:
        BadInputError: if it is missing, a folder, too large, in another encoding, or holds control characters.
    """
    try:
        if path.is_file() and path.stat().st_size > MOST_BYTES:
            size = f"{path.stat().st_size / 1024**2:,.0f} MB"
            raise BadInputError(f"The file has {size}.", where=str(path), mend="At most 256 MB are read.")
        return decoded(path.read_bytes(), printable(path.name), save_as=save_as)
    except OSError as err:
        raise BadInputError(
            f"The file can't be read: {err.strerror or err}.", where=str(path), mend="Check its name and its rights."
        ) from err


def decoded(content: bytes, name: str, *, save_as: str = "CSV in UTF-8") -> str:
    """Turn the bytes of a file into text; refuse what is not UTF-8, or no text."""
    for mark, encoding in _OTHER_MARKS.items():
        if content.startswith(mark):
            raise BadInputError(f"The file is in {encoding}.", where=f"{name}, line 1", mend=f"Save it as {save_as}.")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as err:
        line = content.count(b"\n", 0, err.start) + 1
        what = f"The file is not in UTF-8: byte {content[err.start]:#04x} can't be read."
        raise BadInputError(what, where=f"{name}, line {line}", mend=f"Save it as {save_as}.") from err
    if found := _CONTROL.search(text):
        start = text.rfind("\n", 0, found.start()) + 1
        place = f"line {text.count(chr(10), 0, found.start()) + 1}, sign {found.start() - start + 1}"
        what = f"There is a control character ({ord(found[0]):#04x})."
        raise BadInputError(what, where=f"{name}, {place}", mend="Take it out; the file is plain text.")
    return text


def rows_of(text: str, name: str) -> Iterator[tuple[int, list[str]]]:
    """Yield every row that is not blank with the line on which it starts.

    Raises:
        BadInputError: if quotes don't close, or a cell is endless.
    """
    for line, cells in split_rows(io.StringIO(text, newline=""), name):
        if cells and (cells[0].strip() or any(cell.strip() for cell in cells)):
            yield line, cells


def split_rows(lines: Iterable[str], name: str, separator: str = ",") -> Iterator[tuple[int, list[str]]]:
    """Yield every row with the line on which it starts.

    Raises:
        BadInputError: if quotes don't close, or a cell is endless.
    """
    reader = csv.reader(lines, delimiter=separator, strict=True)
    line = 1
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as err:
            mend = "Put quotes around a whole cell, and write a quote within it twice."
            raise BadFileError(name, (Problem(line, "", f"The row can't be split: {err}.", mend),)) from err
        yield line, cells
        line = reader.line_num + 1


def heading_of(
    rows: Iterator[tuple[int, list[str]]], name: str, known: Sequence[str], required: Sequence[str]
) -> tuple[list[str], tuple[str, ...]]:
    """Read the heading: the name of each column in our spelling ("" for one that is not known), and those not known.

    Case, spaces and underscores don't matter: `Body_Mass` is `body mass`.

    Raises:
        BadInputError: if there is none, if a column is missing or is there twice.
    """
    line, cells = next(rows, (1, []))
    names = [" ".join(cell.replace("_", " ").split()).lower() for cell in cells]
    where = f"{name}, line {line}"
    example = f"Begin the file with a line such as {','.join(required)}."
    if missing := [column for column in required if column not in names]:
        if len(cells) == 1 and any(sign in cells[0] for sign in ";\t"):
            raise BadInputError(
                "The cells are not parted by commas.", where=where, mend="Save the file as CSV with commas."
            )
        what = f"The heading has no column {', '.join(missing)}." if set(names) & set(known) else "There is no heading."
        raise BadInputError(what, where=where, mend=example)
    for at, column in enumerate(names):
        if column in known and column in names[:at]:
            what = f"The column {column} is there twice."
            raise BadInputError(what, where=f"{where}, column {at + 1}", mend="Leave one of the two.")
    ignored = tuple(
        shown(cell.strip()) for cell, column in zip(cells, names, strict=True) if column not in known and cell
    )
    return [column if column in known else "" for column in names], ignored
