"""The unit of work: one transaction an act, every change kept with its former state, so that the act can be undone."""

from __future__ import annotations

import time
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from sqlalchemy import Connection, Engine, bindparam, event, insert, inspect, select
from sqlalchemy.engine import URL
from sqlalchemy.orm import Session as OrmSession
from sqlalchemy.orm import object_session

from tracker import counts
from tracker.errors import TidemarkError
from tracker.log import chain, row_access, server, touches
from tracker.log.chain import ACTS, FOUND, TOLD
from tracker.log.columns import Base, cut, new_id
from tracker.log.engine import open_engine
from tracker.log.faults import told_in_words, told_to_reader
from tracker.log.held import IMPORTS
from tracker.log.migrate import DamagedLogError, NewerLogError, bring_up_to_date, shown
from tracker.log.models import MODELS, Change, Meta
from tracker.log.pointing import pointing_to, rows_pointing
from tracker.log.states import OWN, former_state, plain_value, state, whose

if TYPE_CHECKING:
    from collections.abc import Generator

    from sqlalchemy.engine.interfaces import ExceptionContext

Reader = OrmSession  # what `Log.reading` gives and an act carries, for the rooms above, which know no SQLAlchemy
UNTRACKED = (Change, Meta)
ANSWERED = "answers"  # entries of history by hand, of no table: see log/answers.py
AWAY = "cautions"  # entries of history by hand, of no table: see log/dismissed_cautions.py
SIDE = "sides"  # the same: see log/sides.py
CHOSEN = "choices"  # the same: see log/choices.py
DAY_MARK = "day marks"  # the same: see log/day_marks.py
TICKED = "piece ticks"  # the same: see log/piece_ticks.py
SAVED, REST = "saved sessions", "rests"  # the same: see log/by_hand.py
SORE, FEEL = row_access.SORE, row_access.FEEL  # the same
SAID = frozenset(
    {ANSWERED, AWAY, SIDE, CHOSEN, DAY_MARK, SAVED, REST, SORE, FEEL, TICKED}
)  # what members say for themselves, of no table
TOUCH = "touches"  # entries of history by hand as well, undone with nothing: see log/touches.py
KINDS = frozenset({*MODELS, *SAID, IMPORTS, FOUND, ACTS, TOLD, TOUCH})  # what an entry of history can be about
BY_HAND = (FOUND, ACTS, TOLD, TOUCH)  # entries that say what was, and change nothing
_HISTORY = insert(Base.metadata.tables[Change.__tablename__])
_OF_ACT = select(Change.number).where(Change.act_id == bindparam("act")).limit(1)


class ChangedSinceError(TidemarkError):
    """A record was changed again after the act, so taking the act back would lose the later change."""

    def __init__(self, record: str) -> None:
        super().__init__(f"A later change touched the same record ({record}).", mend="Undo the later change first.")


class MovedMeanwhileError(TidemarkError):
    """A record belongs to another member than it did when it was looked at."""

    def __init__(self) -> None:
        super().__init__("This belongs to another member by now. Nothing was saved.", mend="Reload the page.")


class OverwrittenError(TidemarkError):
    """What was saved through this log is not in it any more: another program put other content in its place."""

    def __init__(self, where: str) -> None:
        super().__init__(
            "What was saved last is not in the log any more: another program has put other content in its place, as one "
            "that keeps folders alike between machines does. Nothing was saved.",
            where=where,
            mend="Keep this file and that program's copies of it, stop that program here, run tidemark check, and start "
            "Tidemark again: it goes on with what is there, or restore the newest backup.",
        )


class Log:
    """An open log: hands out read sessions and units of work."""

    def __init__(self, url: URL) -> None:
        self.schema = bring_up_to_date(url)
        self.url = url
        self.engine: Engine = open_engine(url, there=True)
        event.listen(self.engine, "handle_error", _count_fault)
        self.written = 0  # times that something was written through this one
        self._snapshot: dict[str, Any] = {"reading": True, **(server.SNAPSHOT if server.is_server(url) else {})}
        self._seen = self._newest()

    def close(self) -> None:
        self.engine.dispose()

    @property
    def name(self) -> str:
        return shown(self.url)

    @contextmanager
    def reading(self) -> Generator[OrmSession]:
        """Read in one snapshot; nothing can be written."""
        with (
            told_to_reader(self.name, self.url.username),
            self.engine.connect().execution_options(**self._snapshot) as connection,
            OrmSession(connection, autoflush=False) as session,
        ):
            row_access.stand(session, reads=True)
            yield session
            session.rollback()

    @contextmanager
    def act(self, words: str, member_id: str | None = None, *, own: bool = False) -> Generator[Act]:
        """One act of one person: all of it is durable when the block ends, or none of it.

        Args:
            words: What the person did, as it will stand in the history ("logged a set").
            member_id: Whose log it touches.
            own: It writes nothing but this member's own records, so the acts of others need not wait for it.
        """
        with (
            _counted(),
            told_in_words(self.name),
            OrmSession(self.engine, expire_on_commit=False, autoflush=True) as session,
        ):
            if server.is_server(self.url):
                self._wait(session, member_id if own else None)
            self._refuse_newer(session)
            row_access.stand(session)
            self._refuse_overwritten(session)
            act = Act(session, words, member_id, own=own)
            touch = touches.taken()
            if touch is not None:
                act.be_of(touch)
            yield act
            if touch is not None:
                act.note(TOUCH, touch.id, before=None, after=touch.record())
            last = act.finish()
            session.commit()
            self.written += 1
            self._seen = last or self._seen

    def _wait(self, session: OrmSession, member_id: str | None) -> None:
        """Wait for whoever must not act at the same time; SQLite lets one act at a time begin anyway."""
        if member_id:
            server.take_member(session.connection(), member_id)
        else:
            server.take_all(session.connection())

    def _refuse_newer(self, session: OrmSession) -> None:
        """Write nothing into tables that a newer version has changed since this one opened them."""
        found = session.connection().exec_driver_sql("SELECT version_num FROM alembic_version").scalar()
        if found != self.schema:
            raise NewerLogError(self.name, str(found))

    def _newest(self) -> chain.Entry | None:
        try:
            with told_in_words(self.name), self.engine.connect().execution_options(**self._snapshot) as connection:
                return chain.newest(connection)
        except DamagedLogError:  # what can be read of it is still to be looked at
            return None

    def _refuse_overwritten(self, session: OrmSession) -> None:
        """Write nothing where what was saved last is not there any more, unless a restore or a deletion explains it."""
        seen, connection = self._seen, session.connection()
        if seen is None or chain.is_there(connection, seen):
            return
        if not chain.explained(connection, seen):
            raise OverwrittenError(self.name)
        self._seen = chain.newest(connection)


def _count_fault(told: ExceptionContext) -> None:
    counts.here.fault(type(told.original_exception).__name__)


@contextmanager
def _counted() -> Generator[None]:
    """Count an act: kept; refused, with words for who acted; or ended by a fault."""
    began, outcome = time.perf_counter(), counts.FAILED
    try:
        yield
        outcome = counts.KEPT
    except touches.TouchKnownError:  # it came twice, and is kept already
        outcome = counts.KEPT
        raise
    except TidemarkError as err:
        outcome = ""
        counts.here.refuse(err)
        raise
    finally:
        counts.here.act(time.perf_counter() - began, outcome)


class Act:
    """The session of one act, and the record of what it changed."""

    def __init__(self, session: OrmSession, words: str, member_id: str | None, *, own: bool = False) -> None:
        self.id = new_id()
        self.own = own
        self.session = session
        self._words = cut(words)
        self.member_id = member_id
        self.undoes: str | None = None  # the act that this one takes back
        self._by_hand: list[Change] = []
        self._by_database: set[tuple[str, str]] = set()  # records that change because one that they point to goes
        self._changes: dict[tuple[str, str], Change] = {}
        self._held: list[Any] = []  # SQLAlchemy itself would forget what was written and read it again in `finish`
        session.info[Act] = self
        event.listen(session, "before_flush", self._before_flush)
        event.listen(session, "after_flush", self._after_flush)
        self._new: list[Any] = []
        self._gone: set[tuple[str, str]] = set()  # records that this act has deleted

    def be_of(self, touch: touches.Touch) -> None:
        """Be the act of a touch on a phone, once.

        Raises:
            TouchKnownError: if the log has it already.
        """
        self.id = touch.act_id
        if self.session.scalar(_OF_ACT, {"act": self.id}) is not None:
            raise touches.TouchKnownError

    @property
    def words(self) -> str:
        """What the person did, as it stands in the history, no longer than that holds."""
        return self._words

    @words.setter
    def words(self, words: str) -> None:
        self._words = cut(words)

    def _before_flush(self, session: OrmSession, _context: Any, _instances: Any) -> None:
        if self.own:
            self._hold_to_own(session)
        for item in session.dirty:
            if not isinstance(item, UNTRACKED) and session.is_modified(item):
                self._note(item, before=former_state(item), after=None)
        for item in session.deleted:
            if not isinstance(item, UNTRACKED):
                self._note(item, before=former_state(item), after=None)
                self._gone.add((item.__tablename__, str(item.id)))
        self._new = [item for item in session.new if not isinstance(item, UNTRACKED)]

    def _after_flush(self, session: OrmSession, _context: Any) -> None:
        for item in self._new:
            self._note(item, before=None, after=None)
            self._gone.discard((item.__tablename__, str(item.id)))
        self._new = []

    def _hold_to_own(self, session: OrmSession) -> None:
        """Let no act that shares the log with others write what belongs to all, or to somebody else: a slip of ours."""
        for item in (*session.new, *session.deleted, *(each for each in session.dirty if session.is_modified(each))):
            if isinstance(item, Change):
                continue
            if item.__tablename__ not in OWN:
                raise RuntimeError(
                    f"{self.words}: an act of one member touches {item.__tablename__}, which belong to all"
                )
            if whose(session, item) != self.member_id:  # it may have been moved since it was looked at
                raise MovedMeanwhileError

    def note_what_hangs_on(self, connection: Connection, table: str, record_id: str) -> None:
        """Note the records that the database itself will change or delete because one that they point to goes."""
        for other, column, key in pointing_to(table):
            if key.ondelete not in ("SET NULL", "CASCADE"):
                continue
            for row in connection.execute(rows_pointing(column), {"which": record_id}).mappings().all():
                known = (other.name, row["id"])
                fresh = known not in self._by_database
                self._by_database.add(known)
                if known not in self._changes:
                    before = {name: plain_value(value) for name, value in row.items()}
                    self._changes[known] = self._change(*known, before=before)
                if fresh and key.ondelete == "CASCADE":
                    self.note_what_hangs_on(connection, *known)

    def _note(self, item: Any, *, before: dict[str, Any] | None, after: dict[str, Any] | None) -> None:
        self._held.append(item)
        key = (item.__tablename__, str(inspect(item).identity[0] if inspect(item).identity else item.id))
        if key not in self._changes:
            self._changes[key] = self._change(*key, before=before, after=after)

    def _change(
        self, record: str, record_id: str, *, before: dict[str, Any] | None, after: dict[str, Any] | None = None
    ) -> Change:
        return Change(
            act_id=self.id,
            act=self.words,
            member_id=self.member_id,
            record=record,
            record_id=record_id,
            before=before,
            after=after,
        )

    def keep(self, item: Any) -> None:
        """Hold on to a record that this act asks for again: SQLAlchemy would forget it and read it anew."""
        self._held.append(item)

    def note(self, record: str, record_id: str, *, before: dict[str, Any] | None, after: dict[str, Any] | None) -> None:
        """Write one entry of history by hand, for records that are too many to be noted one by one."""
        self._by_hand.append(self._change(record, record_id, before=before, after=after))

    def tell(self, member_id: str, words: str) -> None:
        """Let a member read in their own history what this act does to their log: in words that are about them alone.

        It is an entry of its own, which only whoever acted can take back, with the act.
        """
        self._by_hand.append(
            Change(act_id=new_id(), act=cut(words), member_id=member_id, record=TOLD, record_id=self.id)
        )

    def finish(self) -> chain.Entry | None:
        """Write the history of this act, in the same transaction; return its last entry."""
        self.session.flush()
        made = list(self._by_hand)
        for key, change in list(self._changes.items()):
            change.after = self._as_it_is(key)
            change.act, change.member_id = self.words, self.member_id  # both may be known only at the end
            if change.before != change.after:
                made.append(change)
        if not made and self.undoes:
            made.append(self._change(ACTS, self.undoes, before=None))
        if not made:
            return None
        connection = self.session.connection()
        if self.own and connection.dialect.name == server.DIALECT:
            server.take_history(connection)
        former = chain.join(connection, made, self.undoes)
        row_access.hold_history(self.session, made)
        connection.execute(_HISTORY, [chain.row_of(each) for each in made])  # past the ORM: a third of the time
        chain.move_head(connection, former, made)
        return chain.entry_of(made[-1])

    def _as_it_is(self, key: tuple[str, str]) -> dict[str, Any] | None:
        table, record_id = key
        if key in self._by_database:  # it may be somebody else's, and behind the wall
            found = Base.metadata.tables[table]
            row = self.session.connection().execute(select(found).where(found.c.id == record_id)).mappings().first()
            return None if row is None else {name: plain_value(value) for name, value in row.items()}
        item = None if key in self._gone else self.session.get(MODELS[table], record_id)
        return None if item is None else state(item)


@event.listens_for(Base, "before_delete", propagate=True)
def _goes(_mapper: Any, connection: Connection, item: Any) -> None:
    """Look at what hangs on a record just before it goes; what no list of the unit of work names goes this way too."""
    session = object_session(item)
    act = session.info.get(Act) if session else None
    if act and not isinstance(item, UNTRACKED):
        act.note_what_hangs_on(connection, item.__tablename__, item.id)
