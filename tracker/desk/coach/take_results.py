"""Results of members who keep logs of their own, taken into the coach's log: whole or not at all, and never twice."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from tracker.conditioning.sides import both_sides
from tracker.desk.base.roles import may
from tracker.desk.coach.write_result import NEW, TakenResult, id_named, name_key, write_result
from tracker.errors import BadInputError
from tracker.exchange.cells import shown
from tracker.exchange.result import Result
from tracker.exchange.result_file import looks_like_file, read_file
from tracker.exchange.result_line import find_lines, read_line
from tracker.log import members as log_members
from tracker.log import pieces as log_pieces
from tracker.log.keeper import Log
from tracker.log.who import RESULTS, RefusedError
from tracker.wording import counted

PASTED = "pasted text"


@dataclass(frozen=True, slots=True)
class Broken:
    """A result or file that was not taken: where it is, what is wrong, how to mend it."""

    where: str
    what: str
    mend: str

    def __str__(self) -> str:
        return f"{self.where}: {self.what} {self.mend}".strip()


@dataclass(frozen=True, slots=True)
class Takings:
    """What came of files and pasted lines; `unknown` are names to be confirmed or matched, whose results wait."""

    taken: tuple[TakenResult, ...] = ()
    broken: tuple[Broken, ...] = ()
    unknown: tuple[str, ...] = ()
    passed_over: tuple[int, ...] = ()  # lines of the paste that are no results
    acts: tuple[str, ...] = ()  # one for each source that changed something; each can be taken back

    def __add__(self, other: Takings) -> Takings:
        unknown = dict.fromkeys((*self.unknown, *other.unknown))
        passed = (*self.passed_over, *other.passed_over)
        acts = (*self.acts, *other.acts)
        return Takings((*self.taken, *other.taken), (*self.broken, *other.broken), tuple(unknown), passed, acts)

    @property
    def words(self) -> str:
        """Say it in one sentence."""
        fresh = [each for each in self.taken if each.changed]
        old = len(self.taken) - len(fresh)
        parts = [f"{_count(len(fresh), 'result')} taken"] if fresh else []
        parts += [f"{_count(old, 'result')} known already"] if old else []
        whole = sum(each.fulfils.startswith("fulfils") and each.newly for each in self.taken)
        parts += [f"{'a session' if whole == 1 else f'{whole} sessions'} fulfilled"] if whole else []
        parts += [f"{len(self.broken)} not taken"] if self.broken else []
        parts += [f"{_count(len(self.unknown), 'name')} to confirm"] if self.unknown else []
        return ", ".join(parts) or "No result in it"


@may("lead", grant=RESULTS)
def take_results(log: Log, text: str, *, whom: Mapping[str, str] | None = None) -> Takings:
    """Take pasted lines (each whole or not at all), or the pasted text of a file.

    Args:
        log: The coach's log.
        text: What was pasted, with greetings and all.
        whom: For a name that this log does not know, the id of the member it means, or `NEW` for a new member.
    """
    if looks_like_file(text):
        return take_file(log, PASTED, text, whom=whom)
    found, passed = find_lines(text)
    takings = Takings(passed_over=passed)
    for each in found:
        takings += _take(log, f"{PASTED}, line {each.line}{_whose(each.text)}", [_reader(log, each.text)], whom or {})
    return takings


@may("lead", grant=RESULTS)
def take_file(log: Log, name: str, content: str | bytes, *, whom: Mapping[str, str] | None = None) -> Takings:
    """Take a file, all of it or nothing: one result as JSON, or lines such as are pasted."""
    try:
        text = content if isinstance(content, str) else content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return Takings(broken=(Broken(name, "This is no text.", "Choose the file that the member's log made."),))
    if looks_like_file(text):
        return _take(log, name, [lambda: read_file(text)], whom or {})
    found, _ = find_lines(text)
    if not found:
        return Takings(
            broken=(Broken(name, "There is no result in it.", "Choose the file that the member's log made."),)
        )
    lines = [_named_line(log, each.text, each.line) for each in found]
    return _take(log, name, lines, whom or {})


def _whose(line: str) -> str:
    """Say whose a line seems to be; in a broken one it may be any word."""
    parts = [part.strip() for part in line.split("|")]
    return f" ({shown(parts[1], 30)[1:-1]})" if len(parts) > 2 and parts[1] else ""


def _reader(log: Log, text: str) -> Callable[[], Result]:
    def read() -> Result:
        with log.reading() as session:
            pieces = [piece for row in log_pieces.pieces(session) for piece in both_sides(row.piece)]
        return read_line(text, pieces)

    return read


def _named_line(log: Log, text: str, line: int) -> Callable[[], Result]:
    def read() -> Result:
        try:
            return _reader(log, text)()
        except BadInputError as err:
            where = f"line {line}, {err.where}" if err.where else f"line {line}"
            raise BadInputError(err.what, where=where, mend=err.mend) from err

    return read


def _take(log: Log, where: str, reads: Sequence[Callable[[], Result]], whom: Mapping[str, str]) -> Takings:
    """Read and check all results of one source, and only then write them, in one act."""
    try:
        results = [_read(read) for read in reads]
        with log.reading() as session:
            known = {name_key(each.name): each.id for each in log_members.members(session)}
        given = {name_key(name): found for name, found in whom.items()}
        ids = [known.get(name_key(each.member)) or given.get(name_key(each.member)) for each in results]
        unknown = tuple(each.member for each, found in zip(results, ids, strict=True) if found is None)
        if unknown:
            return Takings(unknown=tuple(dict.fromkeys(unknown)))
        with log.act(_act_words(results)) as act:
            taken = tuple(write_result(act, each, found or NEW) for each, found in zip(results, ids, strict=True))
            act.member_id = next(iter({id_named(act, each.member) for each in taken})) if len(taken) == 1 else None
    except (BadInputError, RefusedError) as err:  # also what the walls refuse: of this source alone
        place = f"{where}, {err.where}" if err.where else where
        return Takings(broken=(Broken(place, err.what, err.mend),))
    return Takings(taken, acts=(act.id,) if any(each.changed for each in taken) else ())


def _read(read: Callable[[], Result]) -> Result:
    """Read one result; what no check has thought of is told as well, and stops none of the results behind it."""
    try:
        return read()
    except (TypeError, ValueError, LookupError, AttributeError, ArithmeticError, RecursionError) as err:
        raise BadInputError("It holds what no result has.", mend="Ask for the result again.") from err


def _act_words(results: Sequence[Result]) -> str:
    one = results[0]
    return (
        f"took the result of {one.member}, {one.day.isoformat()}"
        if len(results) == 1
        else f"took {counted(len(results), 'result')}"
    )


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


@may("lead", grant=RESULTS)
def take_files(log: Log, files: Iterable[tuple[str, str | bytes]], *, whom: Mapping[str, str] | None = None) -> Takings:
    """Take several files, each by itself: a broken one stops none of the others."""
    takings = Takings()
    for name, content in files:
        takings += take_file(log, name, content, whom=whom)
    return takings
