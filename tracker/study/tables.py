"""A part of the study in words: headings, paragraphs, tables and figures, as plain records that a page writes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import plotly.graph_objects as go


@dataclass(frozen=True, slots=True)
class Picture:
    """One figure in both looks, and what it shows in a sentence."""

    caption: str
    light: go.Figure
    dark: go.Figure


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of text below a heading; the first cell of a row names it."""

    caption: str
    head: tuple[str, ...]
    rows: Sequence[tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Part:
    """One section."""

    title: str
    words: tuple[str, ...]
    pictures: tuple[Picture, ...] = ()
    tables: tuple[Table, ...] = ()
    after: tuple[str, ...] = ()  # paragraphs below pictures and tables


@dataclass(frozen=True, slots=True)
class Study:
    """The whole page."""

    title: str
    under: str
    parts: tuple[Part, ...]
