"""A table that stands beside a figure, as a CSV file."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from typing import Any

import streamlit as st

from tracker.exchange.csv_out import cell


def as_csv(rows: Sequence[Mapping[str, Any]]) -> str:
    """Write rows as CSV with a heading; what a spreadsheet would reckon with is made harmless."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(rows[0])
    writer.writerows([cell(value) for value in row.values()] for row in rows)
    return out.getvalue()


def save(rows: Sequence[Mapping[str, Any]], name: str, *, key: str) -> None:
    """Draw the button that saves the rows as NAME.csv; nothing where there are none."""
    if rows:
        file = f"{name.replace(', ', '-').replace(' ', '-')}.csv"
        st.download_button("Save as CSV", as_csv(rows), file, "text/csv", key=key, on_click="ignore")
