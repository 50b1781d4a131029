"""A lift may be private to the member who made it, and a name is given once for each: the gym's own, and a member's own.

Until here all lifts were everybody's, and a name of a lift, place or wave was given once over all, so that a refusal told of
what is private to somebody else. Only where members sign in is anything private: there a lift becomes a member's that by the
history was made by them, that nobody else has used, and that stands in no wave but their own. All others stay the gym's.

Revision ID: 0006
Revises: 0005
"""

import json
from collections import defaultdict

import sqlalchemy as sa
from alembic import op
from alembic.util import CommandError


revision = '0006'
down_revision = '0005'
branch_labels = None
depends_on = None

IMPLEMENTS = "implement IN ('unasked', 'barbell', 'dumbbells', 'dumbbell', 'kettlebells', 'kettlebell', 'machine', 'body', 'other')"
NAMES = {'lifts': ['name', 'implement'], 'places': ['name'], 'waves': ['name']}


def private_to():
    return sa.Column('private_to', sa.String(length=32), nullable=True)


def tables(own: bool):
    """The three tables as they are written anew on SQLite, which can't take a constraint away; order and names are fixed."""
    def unique(table):
        names = NAMES[table]
        if own:
            return sa.UniqueConstraint('private_to', *names, name=op.f(f'uq_{table}_private_to_{"_".join(names)}'))
        return sa.UniqueConstraint(*names, name=op.f(f'uq_{table}_{"_".join(names)}'))

    return {
        'lifts': [
            sa.Column('id', sa.String(length=32), nullable=False),
            sa.Column('name', sa.String(length=200), nullable=False),
            sa.Column('implement', sa.String(length=12), nullable=False),
            sa.Column('implements', sa.Integer(), nullable=False),
            sa.Column('per_side', sa.Boolean(), nullable=False),
            sa.Column('body', sa.Boolean(), nullable=False),
            sa.Column('spotted', sa.Boolean(), nullable=False),
            sa.Column('created_at', sa.DateTime(), nullable=False),
            *([private_to()] if own else []),
            sa.CheckConstraint(IMPLEMENTS, name=op.f('ck_lifts_implement')),
            sa.CheckConstraint('implements >= 1', name=op.f('ck_lifts_implements')),
            sa.PrimaryKeyConstraint('id', name=op.f('pk_lifts')),
            unique('lifts'),
        ],
        'places': [
            sa.Column('id', sa.String(length=32), nullable=False),
            sa.Column('name', sa.String(length=200), nullable=False),
            sa.Column('unit', sa.String(length=2), nullable=False),
            sa.Column('pins', sa.Boolean(), nullable=False),
            sa.Column('removed_at', sa.DateTime(), nullable=True),
            private_to(),
            sa.CheckConstraint("unit IN ('kg', 'lb')", name=op.f('ck_places_unit')),
            sa.PrimaryKeyConstraint('id', name=op.f('pk_places')),
            unique('places'),
        ],
        'waves': [
            sa.Column('id', sa.String(length=32), nullable=False),
            sa.Column('name', sa.String(length=200), nullable=False),
            sa.Column('text', sa.Text(), nullable=False),
            sa.Column('created_at', sa.DateTime(), nullable=False),
            sa.Column('removed_at', sa.DateTime(), nullable=True),
            private_to(),
            sa.PrimaryKeyConstraint('id', name=op.f('pk_waves')),
            unique('waves'),
        ],
    }


def anew(own: bool) -> None:
    """Write the tables anew with their rows; foreign keys are off, and hold the name of the table and not the table."""
    for table, parts in tables(own).items():
        columns = ', '.join(part.name for part in parts if isinstance(part, sa.Column) and (own or part.name != 'private_to' or table != 'lifts'))
        kept = columns.removesuffix(', private_to') if own and table == 'lifts' else columns
        op.create_table(f'{table}_anew', *parts)
        op.execute(f'INSERT INTO {table}_anew ({kept}) SELECT {kept} FROM {table} ORDER BY rowid')
        op.drop_table(table)
        op.rename_table(f'{table}_anew', table)


def upgrade() -> None:
    if op.get_bind().dialect.name == 'sqlite':
        anew(own=True)
    else:
        op.add_column('lifts', private_to())
        for table, names in NAMES.items():
            op.drop_constraint(op.f(f'uq_{table}_{"_".join(names)}'), table, type_='unique')
            op.create_unique_constraint(op.f(f'uq_{table}_private_to_{"_".join(names)}'), table, ['private_to', *names])
    for table, names in NAMES.items():  # where nobody's alone is meant, nothing equals nothing: an index of its own
        of_all = sa.text('private_to IS NULL')
        op.create_index(f'ix_{table}_of_all', table, names, unique=True, sqlite_where=of_all, postgresql_where=of_all)
    give_back()


def plain(value):
    return json.loads(value) if isinstance(value, str) else value


def give_back() -> None:
    """Give the lifts to those who made them and alone have used them, where they sign in."""
    rows = op.get_bind().exec_driver_sql
    roles = defaultdict(set)
    for member, role in rows("SELECT member_id, role FROM accounts WHERE member_id IS NOT NULL AND issuer IS NOT NULL"):
        roles[member].add(role)
    members = {member for member, found in roles.items() if found == {'member'}}
    if not members:
        return
    made = {}
    imports = defaultdict(lambda: (set(), set()))  # lifts that one made, and members whom it brought sets
    for record, record_id, member, before, after in rows(
        "SELECT record, record_id, member_id, before, after FROM changes WHERE record IN ('lifts', 'imports') ORDER BY number"
    ):
        if record == 'lifts':
            made.setdefault(record_id, member if plain(before) is None else None)
        elif after := plain(after):
            lifts, whose = imports[record_id]
            lifts.update(after.get('created', {}).get('lifts', []))
            whose.update({member} if 'sets' in after else set())
    for lifts, whose in imports.values():
        for lift in lifts:
            made.setdefault(lift, next(iter(whose)) if len(whose) == 1 else None)
    used = defaultdict(set)  # by whom; None stands for the gym
    for lift, whose in rows(
        "SELECT sets.lift_id, sessions.member_id FROM sets JOIN sessions ON sessions.id = sets.session_id"
        " UNION SELECT lift_id, member_id FROM rep_maxes"
        " UNION SELECT planned_sets.lift_id, waves.private_to FROM planned_sets"
        " JOIN wave_steps ON wave_steps.id = planned_sets.step_id JOIN waves ON waves.id = wave_steps.wave_id"
        " UNION SELECT planned_sets.of_lift_id, waves.private_to FROM planned_sets"
        " JOIN wave_steps ON wave_steps.id = planned_sets.step_id JOIN waves ON waves.id = wave_steps.wave_id"
    ):
        used[lift].add(whose)
    lifts = sa.table('lifts', sa.column('id'), sa.column('private_to'))
    for lift, member in made.items():
        if member in members and used[lift] <= {member}:
            op.execute(sa.update(lifts).where(lifts.c.id == lift).values(private_to=member))


def refuse_same_names() -> None:
    """Refuse to go back, before anything is changed, where a name is given twice; going back makes each lift the gym's."""
    said = []
    for table, names in NAMES.items():
        columns = ', '.join(names)
        query = f'SELECT {columns}, count(*) FROM {table} GROUP BY {columns} HAVING count(*) > 1 ORDER BY {columns}'
        said += [f'{table}: {row[-1]} of the name {row[0]}' for row in op.get_bind().exec_driver_sql(query)]
    if said:
        raise CommandError(
            'Before 0006 a name is given once over all, so this log can not go back. Nothing was changed. Rename all but'
            f' one of each, then go back. {"; ".join(said)}.'
        )


def downgrade() -> None:
    refuse_same_names()
    for table in NAMES:
        op.drop_index(f'ix_{table}_of_all', table_name=table)
    if op.get_bind().dialect.name == 'sqlite':
        anew(own=False)
        return
    for table, names in NAMES.items():
        op.drop_constraint(op.f(f'uq_{table}_private_to_{"_".join(names)}'), table, type_='unique')
        op.create_unique_constraint(op.f(f'uq_{table}_{"_".join(names)}'), table, names)
    op.drop_column('lifts', 'private_to')
