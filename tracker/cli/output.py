"""Answers: one JSON document, or a table for a person, with units and with digits that are known."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

import click


def say_json(document: Any) -> None:
    """Print one JSON document. NaN and infinity are no JSON: they would be a fault of ours and raise."""
    click.echo(json.dumps(document, allow_nan=False, indent=2))


def say_table(heading: Sequence[str], rows: Sequence[Sequence[str]], *, words: Sequence[int] = (0,)) -> None:
    """Print columns under a heading; `words` are the columns that stand to the left, numbers stand to the right."""
    table = [list(heading), *map(list, rows)]
    widths = [max(len(row[at]) for row in table) for at in range(len(heading))]
    for row in table:
        cells = [
            cell.ljust(width) if at in words else cell.rjust(width)
            for at, (cell, width) in enumerate(zip(row, widths, strict=True))
        ]
        click.echo("  ".join(cells).rstrip())


def rounded(amount: float, unit: str) -> str:
    """Write an estimate with the digits it deserves: halves of a kilogram, whole pounds."""
    return f"{round(amount * 2) / 2:g} kg" if unit == "kg" else f"{round(amount):d} lb"
