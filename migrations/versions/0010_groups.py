"""Groups of members with their coaches, and classes: who is in them, when they are, and what was handed to them.

Revision ID: 0010
Revises: 0008
"""

import sqlalchemy as sa
from alembic import op
from alembic.util import CommandError


revision = '0010'
down_revision = "0009"
branch_labels = None
depends_on = None


def pair(table: str, one: str, one_table: str, other: str, other_table: str) -> None:
    """Make a table that says who belongs to what: it goes with either."""
    op.create_table(
        table,
        sa.Column('id', sa.String(length=32), nullable=False),
        sa.Column(one, sa.String(length=32), nullable=False),
        sa.Column(other, sa.String(length=32), nullable=False),
        sa.ForeignKeyConstraint([one], [f'{one_table}.id'], name=op.f(f'fk_{table}_{one}_{one_table}'), ondelete='CASCADE'),
        sa.ForeignKeyConstraint([other], [f'{other_table}.id'], name=op.f(f'fk_{table}_{other}_{other_table}'), ondelete='CASCADE'),
        sa.PrimaryKeyConstraint('id', name=op.f(f'pk_{table}')),
        sa.UniqueConstraint(one, other, name=op.f(f'uq_{table}_{one}_{other}')),
    )
    op.create_index(op.f(f'ix_{table}_{other}'), table, [other], unique=False)


def upgrade() -> None:
    op.add_column('accounts', sa.Column('of_groups', sa.Boolean(), server_default=sa.false(), nullable=False))
    op.create_table(
        'gym_groups',
        sa.Column('id', sa.String(length=32), nullable=False),
        sa.Column('name', sa.String(length=200), nullable=False),
        sa.Column('created_at', sa.DateTime(), nullable=False),
        sa.PrimaryKeyConstraint('id', name=op.f('pk_gym_groups')),
        sa.UniqueConstraint('name', name=op.f('uq_gym_groups_name')),
    )
    pair('group_members', 'group_id', 'gym_groups', 'member_id', 'members')
    pair('group_coaches', 'group_id', 'gym_groups', 'account_id', 'accounts')
    op.create_table(
        'classes',
        sa.Column('id', sa.String(length=32), nullable=False),
        sa.Column('name', sa.String(length=200), nullable=False),
        sa.Column('group_id', sa.String(length=32), nullable=True),
        sa.Column('place_id', sa.String(length=32), nullable=True),
        sa.Column('coach', sa.String(length=200), nullable=False),
        sa.Column('created_at', sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(['group_id'], ['gym_groups.id'], name=op.f('fk_classes_group_id_gym_groups'), ondelete='SET NULL'),
        sa.ForeignKeyConstraint(['place_id'], ['places.id'], name=op.f('fk_classes_place_id_places'), ondelete='SET NULL'),
        sa.PrimaryKeyConstraint('id', name=op.f('pk_classes')),
        sa.UniqueConstraint('name', name=op.f('uq_classes_name')),
    )
    pair('class_members', 'class_id', 'classes', 'member_id', 'members')
    op.create_table(
        'class_times',
        sa.Column('id', sa.String(length=32), nullable=False),
        sa.Column('class_id', sa.String(length=32), nullable=False),
        sa.Column('weekday', sa.Integer(), nullable=False),
        sa.Column('starts', sa.String(length=5), nullable=False),
        sa.CheckConstraint('weekday >= 0 AND weekday <= 6', name=op.f('ck_class_times_weekday')),
        sa.ForeignKeyConstraint(['class_id'], ['classes.id'], name=op.f('fk_class_times_class_id_classes'), ondelete='CASCADE'),
        sa.PrimaryKeyConstraint('id', name=op.f('pk_class_times')),
        sa.UniqueConstraint('class_id', 'weekday', 'starts', name=op.f('uq_class_times_class_id_weekday_starts')),
    )
    op.create_table(
        'class_waves',
        sa.Column('id', sa.String(length=32), nullable=False),
        sa.Column('class_id', sa.String(length=32), nullable=False),
        sa.Column('wave_id', sa.String(length=32), nullable=False),
        sa.Column('group_id', sa.String(length=32), nullable=True),
        sa.Column('started', sa.Date(), nullable=False),
        sa.Column('handed_by', sa.String(length=200), nullable=False),
        sa.Column('created_at', sa.DateTime(), nullable=False),
        sa.ForeignKeyConstraint(['class_id'], ['classes.id'], name=op.f('fk_class_waves_class_id_classes'), ondelete='CASCADE'),
        sa.ForeignKeyConstraint(['group_id'], ['gym_groups.id'], name=op.f('fk_class_waves_group_id_gym_groups'), ondelete='SET NULL'),
        sa.ForeignKeyConstraint(['wave_id'], ['waves.id'], name=op.f('fk_class_waves_wave_id_waves'), ondelete='CASCADE'),
        sa.PrimaryKeyConstraint('id', name=op.f('pk_class_waves')),
        sa.UniqueConstraint('class_id', 'wave_id', name=op.f('uq_class_waves_class_id_wave_id')),
    )
    op.create_index(op.f('ix_class_waves_wave_id'), 'class_waves', ['wave_id'], unique=False)


def downgrade() -> None:
    connection = op.get_bind()
    held = {table: connection.exec_driver_sql(f'SELECT count(*) FROM {table}').scalar() for table in ('gym_groups', 'classes')}
    limited = connection.exec_driver_sql('SELECT count(*) FROM accounts WHERE of_groups').scalar()
    if any(held.values()) or limited:
        raise CommandError(
            f"The older layout holds no groups and classes, and there are {held['gym_groups']} and {held['classes']}, with {limited} "
            'coaches who see their groups only: remove them first.'
        )
    for table in ('class_waves', 'class_times', 'class_members', 'classes', 'group_coaches', 'group_members', 'gym_groups'):
        op.drop_table(table)
    op.drop_column('accounts', 'of_groups')  # not by a rebuild, which writes a table's checks in an order of chance
