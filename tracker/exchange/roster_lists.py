"""Rosters that are no table: a list with numbers or dashes, groups as headings with a colon, names in one line, parted names."""

from __future__ import annotations

import re
from collections.abc import Sequence

from tracker.errors import BadInputError

Row = tuple[int, list[str]]
FIRST = ("first name", "first", "given name", "vorname", "prénom", "nombre de pila")  # from memory, as the headings
LAST = ("last name", "last", "surname", "family name", "nachname", "apellido", "apellidos")
_MARK = re.compile(r"(?:\(?\d{1,4}[.)]|[-*•–])\s+(?=\S)")
_AND = re.compile(r"\s+(?:and|und|et|y|&)\s+", re.IGNORECASE)


def as_table(rows: Sequence[Row], *, headed: bool = False) -> Sequence[Row]:
    """Write a list as a table with a heading; a table stays as it is, and so does what is `headed` by known columns.

    >>> as_table([(1, ["Early:"]), (2, ["1. Ana"]), (3, ["2. Bo"])])
    [(1, ['name', 'group']), (2, ['Ana', 'Early']), (3, ['Bo', 'Early'])]

    Raises:
        BadInputError: if a line below a group may be the name of another one.
    """
    if _parted(rows[0][1]):
        return _joined(rows)
    if headed:
        return rows
    if len(rows) == 1 and len(rows[0][1]) > 1:
        line, cells = rows[0]
        return [(line, [name]) for cell in cells for name in _AND.split(cell) if name]
    if any(len([cell for cell in cells if cell]) != 1 for _, cells in rows):
        return rows
    group, found, above = "", list[Row](), 0
    for line, cells in rows:
        said = next(cell for cell in cells if cell)
        if group and line > above + 1 and not said.endswith(":"):
            mend = f"If {said} is a group, write {said}: with a colon; if a member, take the empty line above out."
            raise BadInputError(f"{said} stands after an empty line.", where=f"line {line}", mend=mend)
        above = line
        if said.endswith(":") and len(said) > 1:
            group = said[:-1].strip()
        else:
            found.append((line, [_MARK.sub("", said, count=1) if _MARK.match(said) else said, group]))
    if not any(cells[1] for _, cells in found):
        return [(line, cells[:1]) for line, cells in found]
    return [(rows[0][0], ["name", "group"]), *found]


def _parted(heading: Sequence[str]) -> bool:
    words = [_plain(cell) for cell in heading]
    return any(each in FIRST for each in words) and any(each in LAST for each in words)


def _joined(rows: Sequence[Row]) -> Sequence[Row]:
    """Put first and last names together, in the place of the first."""
    words = [_plain(cell) for cell in rows[0][1]]
    first = next(at for at, each in enumerate(words) if each in FIRST)
    last = next(at for at, each in enumerate(words) if each in LAST)
    made: list[Row] = []
    for at, (line, cells) in enumerate(rows):
        whole = [*cells, *[""] * (len(words) - len(cells))]
        name = "name" if at == 0 else f"{whole[first]} {whole[last]}".strip()
        made.append((line, [name if place == first else cell for place, cell in enumerate(whole) if place != last]))
    return made


def _plain(cell: str) -> str:
    return " ".join(cell.replace("_", " ").split()).casefold()
