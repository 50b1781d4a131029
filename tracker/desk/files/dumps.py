"""Nightly dumps of a log on PostgreSQL: made, put back into a scratch database, looked over, and told where one looks.

A dump that nobody put back is a hope. So each is rehearsed at once: into a database of its own, brought up to date and
looked over as `tidemark check` does, and dropped. What was found stands in a file beside the dumps; the owner's page, the
figures for a watching program and the command itself all read that one.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from tracker.desk.base.roles import may
from tracker.desk.files.check import check_log
from tracker.errors import BadInputError, TidemarkError
from tracker.log.engine import database_url
from tracker.log.server_dumps import dump, put_back
from tracker.private import OWN_FILE, make_folder
from tracker.progress import tell
from tracker.wording import counted

VARIABLE = "TIDEMARK_DUMPS"  # names the folder, for the servers and the nightly timer alike
RECORD = "rehearsed.json"
NAME, OURS = "tidemark-{at:%Y%m%dT%H%M%SZ}.dump", "tidemark-*.dump"  # one of a person's own may be written over
NAMED = "tidemark-%Y%m%dT%H%M%SZ.dump"  # as above, to be read
LATE = timedelta(hours=26)  # a night and two hours: since then one is missing
FEWER = 0.8  # of the sets of the rehearsal before: less than that is asked about
CHUNK = 1 << 20


@dataclass(frozen=True, slots=True)
class Rehearsal:
    """A dump and what became of it when it was put back: no problems is a dump that a log can be made from."""

    file: str
    at: datetime  # when it was rehearsed
    size: int = 0  # bytes
    sha256: str = ""
    counts: dict[str, int] = field(default_factory=dict[str, int])
    problems: tuple[str, ...] = ()

    @property
    def good(self) -> bool:
        return not self.problems

    @property
    def made(self) -> datetime:
        """When it was dumped: one that is put back again later is no newer for it."""
        try:
            return datetime.strptime(self.file, NAMED).replace(tzinfo=UTC)
        except ValueError:  # a name that somebody else gave it
            return self.at


@may("run")
def make_dump(database: str | None, folder: Path, *, keep: int = 14, now: datetime | None = None) -> Rehearsal:
    """Dump the log into a folder, rehearse it, and let go of the oldest.

    Args:
        database: The address of the log; without it TIDEMARK_DATABASE.
        folder: Where dumps lie; made, for this account alone, where it is not there.
        keep: So many good dumps stay, at least one. What failed its rehearsal is evidence: it stays until so many are newer.
        now: The moment it is made; without it this one.

    Raises:
        BadInputError: if the log is a file, a tool is missing, or the dump can't be made. Noted in the folder too.
    """
    at = now or datetime.now(UTC)
    make_folder(folder)
    file = folder / NAME.format(at=at)
    try:
        tell("dumping the log")
        dump(database_url(database), file)
    except TidemarkError as err:
        _note(folder, Rehearsal(file.name, at, problems=(str(err),)))
        raise
    file.chmod(OWN_FILE)
    done = rehearse(database, file, now=at)
    _let_go(folder, max(keep, 1))
    return done


@may("run")
def rehearse(database: str | None, file: Path, *, now: datetime | None = None) -> Rehearsal:
    """Put a dump back into a scratch database, look it over, and note in its folder what was found.

    Args:
        database: The address of the log: the scratch database lies on its server.
        file: A dump, or a folder: its newest.
        now: The moment that is noted; without it this one.

    Raises:
        BadInputError: if there is no such dump; that is noted in its folder as well.
    """
    at = now or datetime.now(UTC)
    if file.is_dir():
        file = max(file.glob("*.dump"), default=file / "none.dump")
    good = [each for each in rehearsals(file.parent) if each.good]
    before = next((each for each in reversed(good) if each.file != file.name), None)
    known = next((each for each in reversed(good) if each.file == file.name and file.match(OURS)), None)
    if not file.is_file():
        missing = BadInputError("There is no such dump.", where=str(file), mend="Make one with tidemark dump FOLDER.")
        if file.parent.is_dir():
            _note(file.parent, Rehearsal(file.name, at, problems=(str(missing),)))
        raise missing
    found = Rehearsal(file.name, at, file.stat().st_size, _digest(file))
    problems: list[str] = []
    if known and known.sha256 != found.sha256:
        problems.append(f"{file.name} is not as it was made on {known.at:%Y-%m-%d %H:%M} UTC")
    try:
        tell("putting the dump back into a scratch database")
        with put_back(database_url(database), file) as scratch:
            report = check_log(scratch.render_as_string(hide_password=False))
        found = replace(found, counts=dict(report.counts))
        problems += [*report.problems, *_fewer(found, before)]
    except TidemarkError as err:
        problems.append(str(err))
    found = replace(found, problems=tuple(problems))
    _note(file.parent, found)
    return found


def rehearsals(folder: Path) -> list[Rehearsal]:
    """What was noted in a folder, oldest first; nothing where nothing was, or where the record can't be read."""
    try:
        kept: list[dict[str, Any]] = json.loads((folder / RECORD).read_text(encoding="utf-8"))
        return [_read(each) for each in kept]
    except (OSError, ValueError, TypeError, KeyError):
        return []


def _read(each: dict[str, Any]) -> Rehearsal:
    at, problems = datetime.fromisoformat(each["at"]), tuple(each["problems"])
    return Rehearsal(each["file"], at, each["size"], each["sha256"], each["counts"], problems)


@dataclass(frozen=True, slots=True)
class Standing:
    """Whether the nights are in order, the one sentence that says so or what is not, and what to do about it."""

    good: bool
    said: str
    mend: str = ""


AGAIN = "Keep the file, look why with tidemark rehearse FILE, and make another one with tidemark dump."


def dumps_folder() -> Path | None:
    """Return the folder of nightly dumps that the settings name; None where they name none."""
    named = os.environ.get(VARIABLE, "")
    return Path(named).expanduser() if named else None


def standing(folder: Path, now: datetime | None = None) -> Standing:
    """Tell whether last night's dump is there, whole, and was put back."""
    at = now or datetime.now(UTC)
    noted = rehearsals(folder)
    newest = noted[-1] if noted else None
    latest = {each.file: each for each in noted}  # a dump that was good may be damaged since
    good = max((each for each in latest.values() if each.good), key=lambda each: each.made, default=None)
    since = f" The newest good one is of {good.made:%Y-%m-%d %H:%M} UTC." if good else " There is no good one."
    if newest is None:
        return Standing(
            False, "No dump has been made and put back yet.",
            "Make one with tidemark dump, and look whether the nightly timer is on.",
        )  # fmt: skip
    if not newest.good:
        return Standing(False, f"The newest dump is not good: {newest.problems[0].rstrip('.')}.{since}", AGAIN)
    file = folder / newest.file
    if not file.is_file():
        return Standing(
            False, f"The newest dump is gone: {newest.file} is not in {folder} any more.",
            "Make another one with tidemark dump, and find out who deleted it.",
        )  # fmt: skip
    if file.stat().st_size != newest.size:
        said = f"The newest dump is not as it was made: {newest.file} has another size now."
        return Standing(False, said, "Look whether the disk is full or fails, and make another one with tidemark dump.")
    if at - newest.made > LATE:
        return Standing(
            False, f"No dump for {counted(int((at - newest.made) / timedelta(hours=1)), 'hour')}.{since}",
            "Look whether the nightly timer is on, and what it said; make one with tidemark dump.",
        )  # fmt: skip
    sets = counted(newest.counts.get("sets", 0), "set")
    return Standing(True, f"The newest dump is of {newest.made:%Y-%m-%d %H:%M} UTC: put back and in order, {sets}.")


def state(folder: Path, now: datetime | None = None) -> tuple[bool, str]:
    """Whether the nights are in order, and the one sentence that says so, or what is not."""
    found = standing(folder, now)
    return found.good, found.said


@may("run")
def last_night() -> Standing | None:
    """Tell the owner how last night's dump is; None where the settings name no folder of dumps."""
    folder = dumps_folder()
    return standing(folder) if folder else None


def told_to_watch(folder: Path) -> tuple[bool, float | None]:
    """Tell a watching program whether the nights are in order, and how many seconds ago the newest good dump was made."""
    latest = {each.file: each for each in rehearsals(folder)}
    newest = max((each.made for each in latest.values() if each.good), default=None)
    return standing(folder).good, (datetime.now(UTC) - newest).total_seconds() if newest else None


def _fewer(found: Rehearsal, before: Rehearsal | None) -> Iterable[str]:
    now, then = found.counts.get("sets", 0), before.counts.get("sets", 0) if before else 0
    if now < FEWER * then:
        yield f"it holds {counted(now, 'set')}, and the dump before it held {then:,}; if so many were meant to go, dump once more"


def _digest(file: Path) -> str:
    with file.open("rb") as opened:
        return hashlib.file_digest(opened, "sha256").hexdigest()


def _note(folder: Path, found: Rehearsal) -> None:
    """Add to the record, whole or not at all; a dump that is gone on purpose leaves it with the next."""
    kept = [*rehearsals(folder), found]
    as_json = [{**asdict(each), "at": each.at.isoformat(), "problems": list(each.problems)} for each in kept[-400:]]
    part = folder / f"{RECORD}.part"
    part.write_text(json.dumps(as_json, indent=1), encoding="utf-8")
    part.chmod(OWN_FILE)
    part.replace(folder / RECORD)


def _let_go(folder: Path, keep: int) -> None:
    """Delete dumps that are older than so many good ones; never the newest good one, and nothing of another name."""
    latest = {each.file: each for each in rehearsals(folder)}
    files = sorted((each for each in folder.glob(OURS) if each.name in latest), reverse=True)
    good = [each for each in files if latest[each.name].good]
    if len(good) > keep:
        for each in files:
            if each.name < good[keep - 1].name:
                each.unlink()
