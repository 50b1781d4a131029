"""Whether a log is whole: the file, what belongs to what, and each act all there or not at all."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from pathlib import Path


def faults_of(path: Path) -> list[str]:
    """List what is wrong with a log, read without any code of the program; empty where it is whole."""
    with closing(sqlite3.connect(path)) as connection:
        return [*faults_of_file(path), *_half_acts(connection)]


def faults_of_file(path: Path) -> list[str]:
    """List what is wrong with the file and with what belongs to what."""
    found: list[str] = []
    with closing(sqlite3.connect(path)) as connection:
        found += [str(row[0]) for row in connection.execute("PRAGMA integrity_check") if row[0] != "ok"]
        found += [f"{row[0]} {row[1]} belongs to nothing" for row in connection.execute("PRAGMA foreign_key_check")]
        found += [f"left over: {name}" for name in tables(connection) if name.startswith("_alembic_tmp")]
    return found


def tables(connection: sqlite3.Connection) -> set[str]:
    return {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}


def _half_acts(connection: sqlite3.Connection) -> list[str]:
    """Every set and session as its newest change left it, and every record that a change made is there."""
    found = []
    for table, values in (("sets", ("id", "session_id", "load", "reps")), ("sessions", ("id", "day"))):
        rows = {row[0]: row for row in connection.execute(f"SELECT {', '.join(values)} FROM {table}")}
        after: dict[str, str | None] = dict(
            connection.execute("SELECT record_id, after FROM changes WHERE record = ? ORDER BY number", (table,))
        )
        found += [f"{table} {key} without its history" for key in rows.keys() - after.keys()]
        for key, text in after.items():
            state = None if text is None else tuple(json.loads(text)[column] for column in values)
            if state != rows.get(key):
                found.append(f"{table} {key}: {rows.get(key)} and in the history {state}")
    return found


def acknowledged(lines: list[str]) -> tuple[dict[str, str], dict[str, str]]:
    """Read what a writer said: the loads that were said to be saved by set, and those it was about to save."""
    saved: dict[str, str] = {}
    about: dict[str, str] = {}
    for line in lines:
        word, token, load = line.split()
        (saved if word == "saved" else about)[token] = load
    return saved, about


def lost(path: Path, lines: list[str]) -> list[str]:
    """List the sets that were said to be saved and are not there, or have a load that nobody gave them."""
    saved, about = acknowledged(lines)
    with closing(sqlite3.connect(path)) as connection:
        there = dict(connection.execute("SELECT token, load FROM sets"))
    missing = [f"{token} was said to be saved" for token in saved.keys() - there.keys()]
    other = [
        f"{token} is {there[token]}, not {load}"
        for token, load in saved.items()
        if token in there and there[token] not in (load, about[token])
    ]
    return missing + other
