"""Each entry of the history carries a seal over itself and the entry before it, and says which act it undoes.

The columns are made here. The program seals what an older log has after the last migration and in the same transaction
(tracker/log/held.py), because a seal is made of what the tables hold in the end.

Revision ID: 0007
Revises: 0006
"""

import sqlalchemy as sa
from alembic import op


revision = '0007'
down_revision = '0006'
branch_labels = None
depends_on = None


def upgrade() -> None:
    # Columns are added one by one, as in 0003: a rebuild writes a table's checks in an order of chance.
    op.add_column('changes', sa.Column('undoes', sa.String(length=32), nullable=True))
    op.add_column('changes', sa.Column('seal', sa.String(length=64), nullable=True))
    op.execute(
        'UPDATE changes SET undoes = (SELECT min(undone.act_id) FROM changes AS undone'
        ' WHERE undone.undone_by = changes.act_id)'
        ' WHERE act_id IN (SELECT undone_by FROM changes WHERE undone_by IS NOT NULL)'
    )


def downgrade() -> None:
    with op.batch_alter_table('changes', schema=None) as batch_op:
        batch_op.drop_column('seal')
        batch_op.drop_column('undoes')
