"""A member can set goals: a load for so many repetitions of a lift, or a score in a piece, by a day or some day.

Revision ID: 0009
Revises: 0008
"""

import sqlalchemy as sa
from alembic import op
from alembic.util import CommandError


revision = '0009'
down_revision = '0008'
branch_labels = None
depends_on = None

ONE_OF_TWO = (
    '(lift_id IS NOT NULL AND reps IS NOT NULL AND load IS NOT NULL AND unit IS NOT NULL AND piece_id IS NULL AND result IS NULL)'
    ' OR (lift_id IS NULL AND reps IS NULL AND load IS NULL AND unit IS NULL AND piece_id IS NOT NULL AND result IS NOT NULL)'
)


def upgrade() -> None:
    op.create_table(
        'goals',
        sa.Column('id', sa.String(length=32), nullable=False),
        sa.Column('member_id', sa.String(length=32), nullable=False),
        sa.Column('lift_id', sa.String(length=32), nullable=True),
        sa.Column('reps', sa.Integer(), nullable=True),
        sa.Column('load', sa.String(length=32), nullable=True),
        sa.Column('unit', sa.String(length=2), nullable=True),
        sa.Column('piece_id', sa.String(length=32), nullable=True),
        sa.Column('result', sa.JSON(), nullable=True),
        sa.Column('by_day', sa.Date(), nullable=True),
        sa.Column('made_on', sa.Date(), nullable=False),
        sa.Column('made_at', sa.DateTime(), nullable=False),
        sa.Column('ended', sa.String(length=8), nullable=True),
        sa.Column('ended_on', sa.Date(), nullable=True),
        sa.CheckConstraint(ONE_OF_TWO, name=op.f('ck_goals_one_of_two')),
        sa.CheckConstraint("unit IS NULL OR unit IN ('kg', 'lb')", name=op.f('ck_goals_unit')),
        sa.CheckConstraint('reps IS NULL OR (reps >= 1 AND reps <= 30)', name=op.f('ck_goals_reps')),
        sa.CheckConstraint("ended IS NULL OR ended IN ('reached', 'given up')", name=op.f('ck_goals_ended')),
        sa.CheckConstraint('(ended IS NULL) = (ended_on IS NULL)', name=op.f('ck_goals_ended_on')),
        sa.ForeignKeyConstraint(['lift_id'], ['lifts.id'], name=op.f('fk_goals_lift_id_lifts'), ondelete='RESTRICT'),
        sa.ForeignKeyConstraint(['member_id'], ['members.id'], name=op.f('fk_goals_member_id_members'), ondelete='CASCADE'),
        sa.ForeignKeyConstraint(['piece_id'], ['pieces.id'], name=op.f('fk_goals_piece_id_pieces'), ondelete='RESTRICT'),
        sa.PrimaryKeyConstraint('id', name=op.f('pk_goals')),
    )
    op.create_index(op.f('ix_goals_member_id_lift_id'), 'goals', ['member_id', 'lift_id'], unique=False)


def downgrade() -> None:
    held = op.get_bind().exec_driver_sql('SELECT count(*) FROM goals').scalar()
    if held:
        raise CommandError(f'The older layout holds no goals, and {held} would be lost: take a copy of this log first, and delete them.')
    op.drop_index(op.f('ix_goals_member_id_lift_id'), table_name='goals')
    op.drop_table('goals')
