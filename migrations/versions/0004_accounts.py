"""Who signs in, what a member shares with the coach, and what of places, waves and pieces is private to a member.

Revision ID: 0004
Revises: 0003
"""

import sqlalchemy as sa
from alembic import op


revision = '0004'
down_revision = '0003'
branch_labels = None
depends_on = None


PRIVATE = ('places', 'waves', 'pieces')


def upgrade() -> None:
    op.create_table(
        'accounts',
        sa.Column('id', sa.String(length=32), nullable=False),
        sa.Column('issuer', sa.String(length=255), nullable=True),
        sa.Column('subject', sa.String(length=255), nullable=True),
        sa.Column('role', sa.String(length=6), nullable=False),
        sa.Column('member_id', sa.String(length=32), nullable=True),
        sa.Column('code', sa.String(length=64), nullable=True),
        sa.Column('until', sa.DateTime(), nullable=True),
        sa.Column('created_at', sa.DateTime(), nullable=False),
        sa.CheckConstraint("role IN ('member', 'coach', 'owner')", name=op.f('ck_accounts_role')),
        sa.CheckConstraint("role <> 'member' OR member_id IS NOT NULL", name=op.f('ck_accounts_member_has_log')),
        sa.CheckConstraint('(issuer IS NULL) = (subject IS NULL)', name=op.f('ck_accounts_identity')),
        sa.CheckConstraint('(issuer IS NULL) = (code IS NOT NULL)', name=op.f('ck_accounts_code')),
        sa.ForeignKeyConstraint(
            ['member_id'], ['members.id'], name=op.f('fk_accounts_member_id_members'), ondelete='CASCADE'
        ),
        sa.PrimaryKeyConstraint('id', name=op.f('pk_accounts')),
        sa.UniqueConstraint('code', name=op.f('uq_accounts_code')),
        sa.UniqueConstraint('issuer', 'subject', name=op.f('uq_accounts_issuer_subject')),
    )
    op.create_index(op.f('ix_accounts_member_id'), 'accounts', ['member_id'], unique=False)
    # Columns are added one by one, as in 0003: a rebuild writes a table's checks in an order of chance.
    op.add_column('members', sa.Column('shared', sa.Boolean(), server_default=sa.false(), nullable=False))
    for table in PRIVATE:
        op.add_column(table, sa.Column('private_to', sa.String(length=32), nullable=True))


def downgrade() -> None:
    for table in reversed(PRIVATE):
        with op.batch_alter_table(table, schema=None) as batch_op:
            batch_op.drop_column('private_to')
    with op.batch_alter_table('members', schema=None) as batch_op:
        batch_op.drop_column('shared')
    op.drop_index(op.f('ix_accounts_member_id'), table_name='accounts')
    op.drop_table('accounts')
