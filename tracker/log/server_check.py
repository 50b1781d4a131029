"""What `tidemark check` asks of PostgreSQL, where SQLite has its integrity check.

Reading every record, which `check` does anyway, reads every page of the tables; with page checksums the server notices
each page that is not as it was written. What references and indexes promise is looked at here.
"""

from __future__ import annotations

from collections.abc import Iterator

from sqlalchemy import Connection, func, select, text

from tracker.log.columns import Base
from tracker.wording import counted

_OURS = "JOIN pg_namespace n ON n.oid = c.relnamespace WHERE n.nspname = current_schema()"
_FOREIGN = (  # what no version of ours makes: it could change records behind our back
    (
        "trigger",
        f"SELECT t.tgname FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid {_OURS} AND NOT t.tgisinternal",
    ),
    ("view", f"SELECT c.relname FROM pg_class c {_OURS} AND c.relkind IN ('v', 'm')"),
    ("rule", f"SELECT r.rulename FROM pg_rewrite r JOIN pg_class c ON c.oid = r.ev_class {_OURS} AND c.relkind = 'r'"),
)
_OFF = (
    ("foreign keys of the {} are switched off",
     f"SELECT DISTINCT c.relname FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid {_OURS} AND t.tgisinternal AND t.tgenabled = 'D'"),
    ("the index {} is not valid",
     f"SELECT c.relname FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid {_OURS} AND NOT i.indisvalid"),
    ("the constraint {} was never looked at",
     f"SELECT k.conname FROM pg_constraint k JOIN pg_class c ON c.oid = k.conrelid {_OURS} AND NOT k.convalidated"),
)  # fmt: skip
_RISKS = {  # settings of the server under which a loss of power takes what was said to be saved, or damages it
    "fsync": "what is said to be saved can be lost with the power",
    "full_page_writes": "a page that is half written when the power goes stays so",
}


def facts(connection: Connection) -> dict[str, str]:
    """Return what server it is, and whether it notices a damaged page."""
    version = connection.execute(text("SHOW server_version")).scalar_one().split()[0]
    sums = connection.execute(text("SHOW data_checksums")).scalar_one()
    return {"database": f"PostgreSQL {version}", "pages": f"page checksums {sums}"}


def foreign_problems(connection: Connection) -> Iterator[str]:
    """Find what no version of ours makes, and what of ours was switched off."""
    for kind, query in _FOREIGN:
        for name in connection.execute(text(query)).scalars():
            yield f"tables: a {kind} {name} that Tidemark does not make"
    for words, query in _OFF:
        for name in connection.execute(text(query)).scalars():
            yield f"tables: {words.format(name)}"
    for setting, risk in _RISKS.items():
        if connection.execute(text(f"SHOW {setting}")).scalar_one() == "off":
            yield f"server: {setting} is off: {risk}"


def orphans(connection: Connection) -> Iterator[str]:
    """Count records that point to one that is not there."""
    for table in Base.metadata.sorted_tables:
        for key in table.foreign_keys:
            child, parent = key.parent, key.column
            above = parent.table.alias()
            missing = ~select(above).where(above.c[parent.name] == child).exists()
            number = connection.scalar(select(func.count()).select_from(table).where(child.is_not(None), missing))
            if number:
                points = "points" if number == 1 else "point"
                yield f"{table.name}, {counted(number, 'row')}: {points} to one of the {parent.table.name} that is not there"
