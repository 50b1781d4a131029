"""A place can hold machines: a stack with its smallest step, or just that there is one.

Until here a kit listed what is loaded or held by hand, and nothing could say whether a place has a machine.

Revision ID: 0008
Revises: 0007
"""

import sqlalchemy as sa
from alembic import op
from alembic.util import CommandError


revision = '0008'
down_revision = '0007'
branch_labels = None
depends_on = None

BEFORE = "kind IN ('bar', 'collars', 'disc', 'dumbbell', 'kettlebell', 'ball', 'band')"
AFTER = "kind IN ('bar', 'collars', 'disc', 'dumbbell', 'kettlebell', 'ball', 'band', 'machine')"
COLUMNS = 'id, place_id, kind, label, mass, unit, number, position'


def anew(kinds: str) -> None:
    """Write the table anew with its rows on SQLite, which can't change a check; foreign keys are off, and hold its name."""
    op.create_table(
        'kit_items_anew',
        sa.Column('id', sa.String(length=32), nullable=False),
        sa.Column('place_id', sa.String(length=32), nullable=False),
        sa.Column('kind', sa.String(length=12), nullable=False),
        sa.Column('label', sa.String(length=200), nullable=False),
        sa.Column('mass', sa.String(length=32), nullable=True),
        sa.Column('unit', sa.String(length=2), nullable=False),
        sa.Column('number', sa.Integer(), nullable=True),
        sa.Column('position', sa.Integer(), nullable=False),
        sa.CheckConstraint(kinds, name=op.f('ck_kit_items_kind')),
        sa.CheckConstraint('number IS NULL OR number >= 0', name=op.f('ck_kit_items_number')),
        sa.CheckConstraint("unit IN ('kg', 'lb')", name=op.f('ck_kit_items_unit')),
        sa.ForeignKeyConstraint(['place_id'], ['places.id'], name=op.f('fk_kit_items_place_id_places'), ondelete='CASCADE'),
        sa.PrimaryKeyConstraint('id', name=op.f('pk_kit_items')),
    )
    op.execute(f'INSERT INTO kit_items_anew ({COLUMNS}) SELECT {COLUMNS} FROM kit_items ORDER BY rowid')
    op.drop_index(op.f('ix_kit_items_place_id'), table_name='kit_items')
    op.drop_table('kit_items')
    op.rename_table('kit_items_anew', 'kit_items')
    op.create_index(op.f('ix_kit_items_place_id'), 'kit_items', ['place_id'], unique=False)


def kinds_are(kinds: str) -> None:
    if op.get_bind().dialect.name == 'sqlite':
        anew(kinds)
    else:
        op.drop_constraint(op.f('ck_kit_items_kind'), 'kit_items', type_='check')
        op.create_check_constraint(op.f('ck_kit_items_kind'), 'kit_items', kinds)


def upgrade() -> None:
    kinds_are(AFTER)


def downgrade() -> None:
    held = op.get_bind().exec_driver_sql("SELECT count(*) FROM kit_items WHERE kind = 'machine'").scalar()
    if held:
        raise CommandError(f'The older layout holds no machines, and {held} stand in a kit: remove them under Kit first.')
    kinds_are(BEFORE)
