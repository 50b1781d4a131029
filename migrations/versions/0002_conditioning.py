"""conditioning: pieces, their options and places in waves, the running clock, scores, rest days

Revision ID: 0002
Revises: 0001
"""

import sqlalchemy as sa
from alembic import op


revision = '0002'
down_revision = '0001'
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table('pieces',
    sa.Column('id', sa.String(length=32), nullable=False),
    sa.Column('title', sa.String(length=200), nullable=False),
    sa.Column('kind', sa.String(length=20), nullable=False),
    sa.Column('cap_s', sa.Integer(), nullable=True),
    sa.Column('definition', sa.JSON(), nullable=False),
    sa.Column('created_at', sa.DateTime(), nullable=False),
    sa.Column('removed_at', sa.DateTime(), nullable=True),
    sa.PrimaryKeyConstraint('id', name=op.f('pk_pieces'))
    )
    with op.batch_alter_table('pieces', schema=None) as batch_op:
        batch_op.create_index(batch_op.f('ix_pieces_title'), ['title'], unique=False)

    op.create_table('step_pieces',
    sa.Column('id', sa.String(length=32), nullable=False),
    sa.Column('step_id', sa.String(length=32), nullable=False),
    sa.Column('piece_id', sa.String(length=32), nullable=False),
    sa.Column('position', sa.Integer(), nullable=False),
    sa.ForeignKeyConstraint(['piece_id'], ['pieces.id'], name=op.f('fk_step_pieces_piece_id_pieces'), ondelete='CASCADE'),
    sa.ForeignKeyConstraint(['step_id'], ['wave_steps.id'], name=op.f('fk_step_pieces_step_id_wave_steps'), ondelete='CASCADE'),
    sa.PrimaryKeyConstraint('id', name=op.f('pk_step_pieces')),
    sa.UniqueConstraint('step_id', 'position', name=op.f('uq_step_pieces_step_id_position'))
    )
    op.create_table('piece_clocks',
    sa.Column('id', sa.String(length=32), nullable=False),
    sa.Column('member_id', sa.String(length=32), nullable=False),
    sa.Column('piece_id', sa.String(length=32), nullable=False),
    sa.Column('day', sa.Date(), nullable=False),
    sa.Column('started_at', sa.DateTime(), nullable=False),
    sa.Column('stopped_at', sa.DateTime(), nullable=True),
    sa.Column('plan', sa.JSON(), nullable=False),
    sa.Column('taps', sa.JSON(), nullable=False),
    sa.Column('removed_at', sa.DateTime(), nullable=True),
    sa.ForeignKeyConstraint(['member_id'], ['members.id'], name=op.f('fk_piece_clocks_member_id_members'), ondelete='CASCADE'),
    sa.ForeignKeyConstraint(['piece_id'], ['pieces.id'], name=op.f('fk_piece_clocks_piece_id_pieces'), ondelete='CASCADE'),
    sa.PrimaryKeyConstraint('id', name=op.f('pk_piece_clocks'))
    )
    with op.batch_alter_table('piece_clocks', schema=None) as batch_op:
        batch_op.create_index(batch_op.f('ix_piece_clocks_member_id_started_at'), ['member_id', 'started_at'], unique=False)

    op.create_table('piece_options',
    sa.Column('id', sa.String(length=32), nullable=False),
    sa.Column('piece_id', sa.String(length=32), nullable=False),
    sa.Column('task', sa.Integer(), nullable=False),
    sa.Column('position', sa.Integer(), nullable=False),
    sa.Column('member_id', sa.String(length=32), nullable=True),
    sa.Column('definition', sa.JSON(), nullable=False),
    sa.Column('removed_at', sa.DateTime(), nullable=True),
    sa.CheckConstraint('task >= 0', name=op.f('ck_piece_options_task')),
    sa.ForeignKeyConstraint(['member_id'], ['members.id'], name=op.f('fk_piece_options_member_id_members'), ondelete='CASCADE'),
    sa.ForeignKeyConstraint(['piece_id'], ['pieces.id'], name=op.f('fk_piece_options_piece_id_pieces'), ondelete='CASCADE'),
    sa.PrimaryKeyConstraint('id', name=op.f('pk_piece_options'))
    )
    with op.batch_alter_table('piece_options', schema=None) as batch_op:
        batch_op.create_index(batch_op.f('ix_piece_options_piece_id'), ['piece_id'], unique=False)

    op.create_table('rest_days',
    sa.Column('id', sa.String(length=32), nullable=False),
    sa.Column('member_id', sa.String(length=32), nullable=False),
    sa.Column('day', sa.Date(), nullable=False),
    sa.ForeignKeyConstraint(['member_id'], ['members.id'], name=op.f('fk_rest_days_member_id_members'), ondelete='CASCADE'),
    sa.PrimaryKeyConstraint('id', name=op.f('pk_rest_days')),
    sa.UniqueConstraint('member_id', 'day', name=op.f('uq_rest_days_member_id_day'))
    )
    op.create_table('scores',
    sa.Column('id', sa.String(length=32), nullable=False),
    sa.Column('member_id', sa.String(length=32), nullable=False),
    sa.Column('piece_id', sa.String(length=32), nullable=False),
    sa.Column('session_id', sa.String(length=32), nullable=True),
    sa.Column('clock_id', sa.String(length=32), nullable=True),
    sa.Column('member_step_id', sa.String(length=32), nullable=True),
    sa.Column('day', sa.Date(), nullable=False),
    sa.Column('result', sa.JSON(), nullable=False),
    sa.Column('low', sa.Integer(), nullable=True),
    sa.Column('high', sa.Integer(), nullable=True),
    sa.Column('time_s', sa.Integer(), nullable=True),
    sa.Column('ended', sa.String(length=8), nullable=False),
    sa.Column('tie_break_s', sa.Integer(), nullable=True),
    sa.Column('as_prescribed', sa.Boolean(), nullable=False),
    sa.Column('note', sa.Text(), nullable=False),
    sa.Column('origin', sa.String(length=64), nullable=False),
    sa.Column('token', sa.String(length=64), nullable=True),
    sa.Column('import_id', sa.String(length=32), nullable=True),
    sa.Column('logged_at', sa.DateTime(), nullable=False),
    sa.Column('removed_at', sa.DateTime(), nullable=True),
    sa.CheckConstraint("ended IN ('finished', 'capped', 'stopped')", name=op.f('ck_scores_ended')),
    sa.CheckConstraint('low IS NULL OR (low >= 0 AND low <= high)', name=op.f('ck_scores_range')),
    sa.ForeignKeyConstraint(['clock_id'], ['piece_clocks.id'], name=op.f('fk_scores_clock_id_piece_clocks'), ondelete='SET NULL'),
    sa.ForeignKeyConstraint(['member_id'], ['members.id'], name=op.f('fk_scores_member_id_members'), ondelete='CASCADE'),
    sa.ForeignKeyConstraint(['member_step_id'], ['member_steps.id'], name=op.f('fk_scores_member_step_id_member_steps'), ondelete='SET NULL'),
    sa.ForeignKeyConstraint(['piece_id'], ['pieces.id'], name=op.f('fk_scores_piece_id_pieces'), ondelete='RESTRICT'),
    sa.ForeignKeyConstraint(['session_id'], ['sessions.id'], name=op.f('fk_scores_session_id_sessions'), ondelete='SET NULL'),
    sa.PrimaryKeyConstraint('id', name=op.f('pk_scores')),
    sa.UniqueConstraint('token', name=op.f('uq_scores_token'))
    )
    with op.batch_alter_table('scores', schema=None) as batch_op:
        batch_op.create_index(batch_op.f('ix_scores_member_id_day'), ['member_id', 'day'], unique=False)
        batch_op.create_index(batch_op.f('ix_scores_origin'), ['origin'], unique=False)
        batch_op.create_index(batch_op.f('ix_scores_piece_id'), ['piece_id'], unique=False)



def downgrade() -> None:
    with op.batch_alter_table('scores', schema=None) as batch_op:
        batch_op.drop_index(batch_op.f('ix_scores_piece_id'))
        batch_op.drop_index(batch_op.f('ix_scores_origin'))
        batch_op.drop_index(batch_op.f('ix_scores_member_id_day'))

    op.drop_table('scores')
    op.drop_table('rest_days')
    with op.batch_alter_table('piece_options', schema=None) as batch_op:
        batch_op.drop_index(batch_op.f('ix_piece_options_piece_id'))

    op.drop_table('piece_options')
    with op.batch_alter_table('piece_clocks', schema=None) as batch_op:
        batch_op.drop_index(batch_op.f('ix_piece_clocks_member_id_started_at'))

    op.drop_table('piece_clocks')
    op.drop_table('step_pieces')
    with op.batch_alter_table('pieces', schema=None) as batch_op:
        batch_op.drop_index(batch_op.f('ix_pieces_title'))

    op.drop_table('pieces')
