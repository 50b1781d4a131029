"""What a coach's sheet says of a set: other ways, fixed loads, reserve, ranges; and steps that a later sheet replaced.

Revision ID: 0003
Revises: 0002
"""

import sqlalchemy as sa
from alembic import op


revision = '0003'
down_revision = '0002'
branch_labels = None
depends_on = None


# Columns are added one by one, not by rebuilding the table: a rebuild writes the table's checks in an order of chance.
PLANNED = (
    "rule VARCHAR(8) DEFAULT '' NOT NULL",
    "block INTEGER DEFAULT '0' NOT NULL",
    "way INTEGER DEFAULT '0' NOT NULL",
    "of_lift_id VARCHAR(32) CONSTRAINT fk_planned_sets_of_lift_id_lifts REFERENCES lifts (id)",
    "load VARCHAR(32)",
    "unit VARCHAR(2) CONSTRAINT ck_planned_sets_unit CHECK (unit IS NULL OR unit IN ('kg', 'lb'))",
    "reserve VARCHAR(32)",
    "high_reps INTEGER CONSTRAINT ck_planned_sets_high_reps CHECK (high_reps IS NULL OR high_reps > reps)",
    "words TEXT DEFAULT '' NOT NULL",
)


def upgrade() -> None:
    for column in PLANNED:
        op.execute(f"ALTER TABLE planned_sets ADD COLUMN {column}")
    op.add_column('wave_steps', sa.Column('replaced_at', sa.DateTime(), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table('wave_steps', schema=None) as batch_op:
        batch_op.drop_column('replaced_at')

    with op.batch_alter_table('planned_sets', schema=None) as batch_op:
        batch_op.drop_constraint(batch_op.f('ck_planned_sets_high_reps'), type_='check')
        batch_op.drop_constraint(batch_op.f('ck_planned_sets_unit'), type_='check')
        batch_op.drop_column('words')
        batch_op.drop_column('high_reps')
        batch_op.drop_column('reserve')
        batch_op.drop_column('unit')
        batch_op.drop_column('load')
        batch_op.drop_column('of_lift_id')
        batch_op.drop_column('way')
        batch_op.drop_column('block')
        batch_op.drop_column('rule')
