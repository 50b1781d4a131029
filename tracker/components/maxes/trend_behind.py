"""What stands behind the trend: one row of touches, and below it the one that was asked for; nothing is worked out before."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import streamlit as st

from tracker.components.frame.frame import Here
from tracker.components.maxes import ahead_view, reasons_view, trend_tables
from tracker.desk.maxes.trend import TrendView

KEY = "trend_behind"
PARTS = {
    "why": "Why", "when": "When to test", "formulas": "Formulas", "foretold": "Forecasts", "done": "Planned and done", "table": "Table",
}  # fmt: skip


def show(now: Here, view: TrendView, since: date) -> None:
    """Draw the row, and what was asked for."""
    if view.now is None:
        return
    parts: dict[str, Callable[[], None]] = {
        "why": lambda: reasons_view.why(now, view),
        "when": lambda: ahead_view.when_to_test(now, view),
        "formulas": lambda: reasons_view.which(now, view),
        "foretold": lambda: ahead_view.record(now, view),
        "done": lambda: ahead_view.plan_done(now, view),
        "table": lambda: trend_tables.table(now, view, since),
    }
    asked = st.pills(
        "More of this lift", list(PARTS), format_func=PARTS.__getitem__, key=KEY, label_visibility="collapsed"
    )
    if asked:
        with st.container(key=f"{KEY}_shown"):
            parts[asked]()
