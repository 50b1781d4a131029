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


def upgrade() -> None:
    with op.batch_alter_table('planned_sets', schema=None) as batch_op:
        batch_op.add_column(sa.Column('block', sa.Integer(), server_default='0', nullable=False))
        batch_op.add_column(sa.Column('way', sa.Integer(), server_default='0', nullable=False))
        batch_op.add_column(sa.Column('of_lift_id', sa.String(length=32), nullable=True))
        batch_op.add_column(sa.Column('load', sa.String(length=32), nullable=True))
        batch_op.add_column(sa.Column('unit', sa.String(length=2), nullable=True))
        batch_op.add_column(sa.Column('reserve', sa.String(length=32), nullable=True))
        batch_op.add_column(sa.Column('high_reps', sa.Integer(), nullable=True))
        batch_op.add_column(sa.Column('words', sa.Text(), server_default='', nullable=False))
        batch_op.create_foreign_key(batch_op.f('fk_planned_sets_of_lift_id_lifts'), 'lifts', ['of_lift_id'], ['id'], ondelete='RESTRICT')
        batch_op.create_check_constraint(batch_op.f('ck_planned_sets_unit'), "unit IS NULL OR unit IN ('kg', 'lb')")
        batch_op.create_check_constraint(batch_op.f('ck_planned_sets_high_reps'), "high_reps IS NULL OR high_reps > reps")

    with op.batch_alter_table('wave_steps', schema=None) as batch_op:
        batch_op.add_column(sa.Column('replaced_at', sa.DateTime(), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table('wave_steps', schema=None) as batch_op:
        batch_op.drop_column('replaced_at')

    with op.batch_alter_table('planned_sets', schema=None) as batch_op:
        batch_op.drop_constraint(batch_op.f('ck_planned_sets_high_reps'), type_='check')
        batch_op.drop_constraint(batch_op.f('ck_planned_sets_unit'), type_='check')
        batch_op.drop_constraint(batch_op.f('fk_planned_sets_of_lift_id_lifts'), type_='foreignkey')
        batch_op.drop_column('words')
        batch_op.drop_column('high_reps')
        batch_op.drop_column('reserve')
        batch_op.drop_column('unit')
        batch_op.drop_column('load')
        batch_op.drop_column('of_lift_id')
        batch_op.drop_column('way')
        batch_op.drop_column('block')
