"""Alembic's environment: the program hands in its own connection; from the command line the default log is used."""

from typing import Literal

from alembic import context
from sqlalchemy.engine import Connection

from tracker.log.columns import Base, Checked, Plain
from tracker.log.engine import database_url, open_engine


def render_item(kind: str, item: object, _context: object) -> str | Literal[False]:
    """Write our own column types as what the database sees, so that a migration never depends on today's models."""
    if kind == "type" and isinstance(item, Checked):
        return "sa.JSON()" if isinstance(item, Plain) else f"sa.{item.impl!r}"
    return False


def run(connection: Connection) -> None:
    context.configure(
        connection=connection,
        target_metadata=Base.metadata,
        render_as_batch=connection.dialect.name == "sqlite",
        render_item=render_item,
        transactional_ddl=True,
    )
    with context.begin_transaction():
        context.run_migrations()


given = context.config.attributes.get("connection")
if given is not None:
    run(given)
else:
    with open_engine(database_url(), foreign_keys=False).begin() as own:
        run(own)
