"""The time zone that a browser says it is in."""

from __future__ import annotations

from zoneinfo import ZoneInfo, ZoneInfoNotFoundError


def zone_named(name: str | None) -> ZoneInfo | None:
    """Return a zone by its name in the tz database (as `Europe/Berlin`); None where there is no such zone.

    A name is looked up as a file: that of a folder (`Pacific`) and one too long for any file fail as files do.
    """
    try:
        return ZoneInfo(name) if name else None
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None
