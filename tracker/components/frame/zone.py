"""The time zone that a browser says it is in."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import streamlit as st


def zone_named(name: str | None) -> ZoneInfo | None:
    """Return a zone by its name in the tz database (as `Europe/Berlin`); None where there is no such zone.

    A name is looked up as a file: that of a folder (`Pacific`) and one too long for any file fail as files do.
    """
    try:
        return ZoneInfo(name) if name else None
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None


def by_reader(at: datetime) -> datetime:
    """Return a moment by the clock of the reader's browser; by the server's own where that is not known."""
    return at.astimezone(zone_named(st.context.timezone))
