"""The work of the study in portions, kept on the disk: a run that is stopped goes on where it was.

A portion is a few people of one kind. Its file is named by what made it: kind, seed (of a file of open data its digest),
which people, and the version of the model; so nothing made otherwise is ever taken for it. The same people come out of a
portion whenever it is worked, so that a run that was stopped gives the same figures as one in one go.
"""

from __future__ import annotations

import ast
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, field, replace
from functools import lru_cache
from hashlib import sha256
from itertools import chain, zip_longest
from multiprocessing import Pool
from pathlib import Path
from signal import SIG_DFL, SIG_IGN, SIGINT, SIGTERM, signal
from time import monotonic, process_time
from typing import Any, Literal

import tracker
from tracker.strength.backtest import competitors, thin
from tracker.strength.backtest.thin_table import MemberScore
from tracker.study import invented
from tracker.wording import counted

MEMBERS, ATHLETES, COMPETITORS = 15, 11, 30  # people of a portion: some seconds' work; design
MAKERS = ("tracker.study.invented", "tracker.strength.backtest.competitors")  # of the figures that are kept
Group = Literal["members", "athletes", "competitors"]
Row = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Portion:
    """Some people: of a kind of members, of athletes who test, or of competitors (kind: half and lift)."""

    group: Group
    kind: str
    source: str  # the seed, or the digest of a file
    first: int
    count: int
    path: Path | None = field(default=None, compare=False)  # of a file of open data

    @property
    def name(self) -> str:
        """The name of its file, the version of the model in it."""
        people = f"{self.first}-{self.first + self.count - 1}"
        return f"{self.group}_{self.kind}_{self.source}_{people}_{version()}.json"


@dataclass(frozen=True, slots=True)
class Done:
    """A portion, what was found of its people in their order, and the seconds of a processor it took."""

    portion: Portion
    rows: tuple[Row, ...]
    seconds: float


@lru_cache(maxsize=1)
def version() -> str:
    """Return a digest of the source that makes the figures; comments, docstrings and layout are no part of it."""
    trees = {name: _code(_path(name).read_text(encoding="utf-8")) for name in _behind(MAKERS)}
    made = sha256()
    for name, tree in sorted(trees.items()):
        made.update(f"{name}\n{ast.dump(tree)}\n".encode())
    return made.hexdigest()[:12]


def _behind(names: Iterable[str]) -> set[str]:
    """Return modules of ours with all that they import of ours, straight or through others."""
    found, left = set[str](), list(names)
    while left:
        name = left.pop()
        if name in found or not _path(name).is_file():  # what is imported from a module may be no module
            continue
        found.add(name)
        for each in ast.walk(_code(_path(name).read_text(encoding="utf-8"))):
            if isinstance(each, ast.ImportFrom) and each.module and each.module.startswith(f"{tracker.__name__}."):
                left += [each.module, *(f"{each.module}.{alias.name}" for alias in each.names)]
    return found


def _path(name: str) -> Path:
    return Path(tracker.__file__).parents[1].joinpath(*name.split(".")).with_suffix(".py")


def _code(source: str) -> ast.Module:
    """Return a source without what it says of itself."""
    tree = ast.parse(source)
    for each in ast.walk(tree):
        if isinstance(each, ast.Module | ast.ClassDef | ast.FunctionDef) and ast.get_docstring(each) is not None:
            each.body = each.body[1:]
    return tree


def _cut(group: Group, kind: str, source: str, number: int, size: int, path: Path | None = None) -> list[Portion]:
    return [Portion(group, kind, source, first, min(size, number - first), path) for first in range(0, number, size)]


def of_members(number: int, seed: int) -> list[Portion]:
    """Portions of so many members of each kind, the kinds in turn, so that a part of the work has some of each."""
    kinds = [_cut("members", kind.__name__, str(seed), number, MEMBERS) for kind in thin.KINDS]
    return [each for each in chain(*zip_longest(*kinds)) if each]


def of_athletes(number: int, seeds: Sequence[int]) -> list[Portion]:
    """Portions of so many athletes of each seed."""
    return list(chain(*(_cut("athletes", "tested", str(seed), number, ATHLETES) for seed in seeds)))


def of_competitors(path: Path, half: str) -> list[Portion]:
    """Portions of one half of the competitors in a file, lift by lift."""
    number, digest = len(list(competitors.competitors(path, half))), sha256(path.read_bytes()).hexdigest()[:12]
    return [
        each
        for lift in competitors.LIFTS
        for each in _cut("competitors", f"{half}-{lift}", digest, number, COMPETITORS, path)
    ]


def work(portion: Portion) -> Done:
    """Work one portion."""
    began, some = process_time(), range(portion.first, portion.first + portion.count)
    if portion.group == "members":
        (kind,) = [each for each in thin.KINDS if each.__name__ == portion.kind]
        found = [invented.result(each) for each in thin.numbered(kind, some, int(portion.source))]
    elif portion.group == "athletes":
        found = invented.former(some, int(portion.source))
    else:
        assert portion.path
        half, lift = portion.kind.split("-")
        people = list(competitors.competitors(portion.path, half))[some.start : some.stop]
        found = competitors.scores(people, competitors.LIFTS.index(lift))
    return Done(portion, tuple(asdict(each) for each in found), process_time() - began)


def members(some: Iterable[Done]) -> list[invented.MemberResult]:
    """Return what was found of invented members."""
    return [
        invented.MemberResult(
            row["kind"], _score(row["score"]), tuple(invented.Foretold(**each) for each in row["sets"]), row["formulas"]
        )
        for done in some
        for row in done.rows
    ]


def lifts(some: Iterable[Done]) -> list[invented.LiftResult]:
    """Return what was found of invented athletes who test."""
    return [invented.LiftResult(**row) for done in some for row in done.rows]


def scores(some: Iterable[Done]) -> list[MemberScore]:
    """Return what was found of competitors."""
    return [_score(row) for done in some for row in done.rows]


def _score(row: Row) -> MemberScore:
    below: Sequence[float] = row["below"]
    return replace(MemberScore(**row), below=tuple(below))


def kept(portion: Portion, folder: Path) -> Done | None:
    """Return what was found of a portion before, or None; a file that can't be read is worked anew."""
    try:
        told = json.loads((folder / portion.name).read_text(encoding="utf-8"))
        return Done(portion, tuple(told["rows"]), float(told["seconds"]))
    except (OSError, ValueError, KeyError, TypeError):
        return None


def keep(done: Done, folder: Path) -> None:
    """Write a portion to the folder, whole or not at all."""
    path = folder / done.portion.name
    half = path.with_suffix(".part")
    half.write_text(json.dumps({"seconds": done.seconds, "rows": done.rows}), encoding="utf-8")
    half.replace(path)


def worked(
    asked: Sequence[Portion], folder: Path | None, processes: int, say: Callable[[str], None]
) -> dict[Portion, Done]:
    """Return all portions, in the order asked; those that are kept are not worked again, each other one is kept when done.

    Args:
        asked: Portions, no two alike.
        folder: Where they are kept; nothing is where there is none.
        processes: How many are worked at a time.
        say: Is told after each portion how far it is, and how long the rest will take.
    """
    found = {each: done for each in asked if folder and (done := kept(each, folder))}
    if found:
        say(f"{counted(len(found), 'portion')} of {len(asked):,} kept from before")
    now, began = 0.0, monotonic()
    for done in _each([each for each in asked if each not in found], processes):
        found[done.portion] = done
        if folder:
            keep(done, folder)
        now += done.seconds
        rest = seconds_of(asked, found) * (monotonic() - began) / max(now, 1e-9)
        say(f"{len(found):,} of {counted(len(asked), 'portion')}, {_in_words(rest)} left")
    return {each: found[each] for each in asked}


def seconds_of(asked: Iterable[Portion], found: Mapping[Portion, Done]) -> float:
    """Return how many seconds of a processor the portions not yet found will take, by what a person of each kind took."""
    took: dict[tuple[str, str], tuple[float, int]] = {}
    for each, done in found.items():
        for key in ((each.group, each.kind), ("", "")):
            seconds, people = took.get(key, (0.0, 0))
            took[key] = seconds + done.seconds, people + each.count
    total = 0.0
    for each in asked:
        if each not in found:
            seconds, people = took.get((each.group, each.kind)) or took.get(("", "")) or (0.0, 1)
            total += each.count * seconds / people
    return total


def _in_words(seconds: float) -> str:
    return (
        f"about {counted(round(seconds / 60), 'minute')}"
        if seconds >= 90
        else f"about {counted(round(seconds), 'second')}"
    )


def _each(left: Sequence[Portion], processes: int) -> Iterator[Done]:
    if processes == 1 or len(left) < 2:
        yield from map(work, left)
        return
    with Pool(min(processes, len(left)), _quiet) as pool:  # its processes end with it, however it is left
        yield from pool.imap_unordered(work, left)


def _quiet() -> None:
    """Leave it to the first process to be stopped from the keyboard, and to end the others."""
    signal(SIGINT, SIG_IGN)
    signal(SIGTERM, SIG_DFL)
