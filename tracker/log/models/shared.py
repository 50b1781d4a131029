"""What several tables hold their rows to."""

from __future__ import annotations

from sqlalchemy import Index, text

UNIT = "unit IN ('kg', 'lb')"


def of_all(table: str, *columns: str) -> Index:
    """Hold that of what belongs to all each name is given once; what is private to somebody may have it as well."""
    everybody_s = text("private_to IS NULL")
    return Index(f"ix_{table}_of_all", *columns, unique=True, sqlite_where=everybody_s, postgresql_where=everybody_s)
