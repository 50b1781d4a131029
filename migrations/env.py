"""Alembic's environment: the program hands in its own connection; from the command line the default log is used."""

from alembic import context
from sqlalchemy.engine import Connection

from tracker.log.engine import database_url, open_engine
from tracker.log.models import Base, TypedDecimal, UtcTime


def render_item(kind: str, item: object, _context: object) -> str | bool:
    """Write our own column types as what the database sees, so that a migration never depends on today's models."""
    if kind == "type" and isinstance(item, TypedDecimal):
        return "sa.String(length=32)"
    if kind == "type" and isinstance(item, UtcTime):
        return "sa.DateTime()"
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
