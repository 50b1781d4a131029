"""Fills an empty log with the invented gym of demo_data/, its story moved so that it ends today."""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any, cast

from tracker import asset_folder
from tracker.desk.base.roles import may
from tracker.desk.files.demo_scores import fill_scores
from tracker.desk.people import people, places
from tracker.desk.sheet.sheet_words import HEADS
from tracker.errors import BadInputError
from tracker.log import members as log_members
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.records import Implement, KitItemRecord, KitKind, LiftRecord, MemberRecord, PlaceRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Act, Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.prescription.wave import parse_wave
from tracker.strength.records import Kind, Outcome
from tracker.units import Mass, Unit


@dataclass(slots=True)
class _Story:
    """The folder, how far its dates move, and what has an id in the log by now."""

    folder: Path
    shift: timedelta
    members: dict[str, MemberRecord] = field(default_factory=dict[str, MemberRecord])
    places: dict[str, PlaceRecord] = field(default_factory=dict[str, PlaceRecord])
    lifts: dict[tuple[str, str], LiftRecord] = field(default_factory=dict[tuple[str, str], LiftRecord])

    def toml(self, name: str) -> dict[str, Any]:
        return tomllib.loads((self.folder / f"{name}.toml").read_text(encoding="utf-8"))

    def rows(self, name: str) -> Iterator[dict[str, str]]:
        with (self.folder / f"{name}.csv").open(newline="", encoding="utf-8") as file:
            yield from csv.DictReader(file)

    def day(self, text: str | date) -> date:
        return (date.fromisoformat(text) if isinstance(text, str) else text) + self.shift


@may("run")
def fill(log: Log, today: date) -> None:
    """Write the invented gym into an empty log; the day on which its story stops becomes `today`.

    Raises:
        BadInputError: if the log has members already; it is left as it is.
    """
    if people.members(log):
        raise BadInputError("This log has members already.", where=log.name, mend="The demo wants an empty log.")
    folder = asset_folder("demo_data")
    anchor = tomllib.loads((folder / "members.toml").read_text(encoding="utf-8"))["anchor"]
    story = _Story(folder, today - anchor)
    _places(log, story)
    _members(log, story)
    _lifts(log, story)
    for name, member in story.members.items():
        with log.act(f"added the history of {name}") as act:  # nobody's own act: undo does not reach it
            _history(act, story, name, member)
    _waves(log, story)
    fill_scores(log, story)


def _places(log: Log, story: _Story) -> None:
    for entry in story.toml("places")["place"]:
        items = tuple(_items(entry))
        unit = cast("Unit", entry["discs"][0]["unit"] if entry["discs"] else entry["dumbbells"]["unit"])
        story.places[entry["name"]] = places.add_place(log, entry["name"], unit, items, pins=entry["pins"])


def _items(entry: dict[str, Any]) -> Iterator[KitItemRecord]:
    for bar in entry["bars"]:
        yield KitItemRecord("", "bar", bar["name"], Mass(Decimal(bar["mass"]), bar["unit"]), 1)
    collars = Mass(Decimal(entry["collars"]["mass"]), entry["collars"]["unit"]) if "collars" in entry else None
    if collars and collars.amount:
        yield KitItemRecord("", "collars", "collars, the pair", collars, 1)
    for disc in entry["discs"]:
        yield KitItemRecord("", "disc", disc["mass"], Mass(Decimal(disc["mass"]), disc["unit"]), disc["pairs"] or None)
    pieces: tuple[tuple[KitKind, str, int], ...] = (("dumbbell", "dumbbells", 2), ("kettlebell", "kettlebells", 1), ("ball", "balls", 1))  # fmt: skip
    for kind, plural, number in pieces:
        for mass in entry[plural]["masses"]:
            yield KitItemRecord("", kind, mass, Mass(Decimal(mass), entry[plural]["unit"]), number)
    for name in entry["bands"]:
        yield KitItemRecord("", "band", name, None, 1)
    for machine in entry.get("machines", ()):
        step = Mass(Decimal(machine["step"]), machine["unit"]) if "step" in machine else None
        yield KitItemRecord("", "machine", machine["name"], step, 1)


def _members(log: Log, story: _Story) -> None:
    homes = {entry["name"]: entry["alone"] for entry in story.toml("places")["place"]}
    for entry in story.toml("members")["member"]:
        made = people.add_member(log, entry["name"], entry["unit"])
        first = story.places[entry["places"][0]]
        bar = next((each.id for each in first.of_kind("bar") if each.label == entry.get("bar")), None)
        with log.act(f"placed {made.name}") as act:
            story.members[entry["name"]] = log_members.change_member(
                act, made.id, place_id=first.id, bar_id=bar, alone=homes[first.name]
            )


def _lifts(log: Log, story: _Story) -> None:
    for row in story.rows("sets"):
        key = row["lift"], row["implement"]
        if key not in story.lifts:
            implement = cast("Implement", row["implement"])
            story.lifts[key] = people.add_lift(log, row["lift"], implement, per_side=row["per_side"] == "yes")


def _history(act: Act, story: _Story, name: str, member: MemberRecord) -> None:
    for row in story.rows("body_mass"):
        if row["member"] == name:
            mass = Mass(Decimal(row["body_mass"]), cast("Unit", row["unit"]))
            log_members.put_body_mass(act, member.id, story.day(row["date"]), mass)
    mine = [row for row in story.rows("sets") if row["member"] == name]
    sets = (
        (story.day(row["date"]), _set(row, story.lifts[row["lift"], row["implement"]]), row["place"]) for row in mine
    )
    log_sets.add_sets(act, member.id, ((day, new, story.places[place].id) for day, new, place in sets))
    for row in story.rows("sessions"):
        if row["member"] == name:
            session = log_sessions.session_on(
                act, member.id, story.day(row["date"]), place_id=story.places[row["place"]].id
            )
            session.minutes, session.rating = (int(row[key]) if row[key] else None for key in ("minutes", "rating"))
            session.note = row["note"]
    for row in story.rows("references"):
        # Tested ones are in the sets already; estimated ones are what the estimate said on that day.
        if row["member"] == name and row["source"] == "declared":
            lift = next(each for (title, _), each in story.lifts.items() if title == row["lift"])
            load = Mass(Decimal(row["load"]), cast("Unit", row["unit"]))
            log_rep_maxes.add_rep_max(
                act, member.id, lift.id, story.day(row["date"]), int(row["reps"]), load, "declared"
            )


def _set(row: dict[str, str], lift: LiftRecord) -> NewSet:
    return NewSet(
        lift_id=lift.id,
        load=Mass(Decimal(row["load"]), cast("Unit", row["unit"])),
        reps=int(row["reps"]),
        rir=Decimal(row["rir"]) if row["rir"] else None,
        outcome=cast("Outcome", row["outcome"]),
        kind=cast("Kind", row["kind"]),
        body_mass=Decimal(row["body_mass"]) if row["body_mass"] else None,
        note=row["note"],
    )


def _waves(log: Log, story: _Story) -> None:
    ids: dict[str, str] = {}
    with log.act("added the demo's waves") as act:
        for entry in story.toml("waves")["wave"]:
            ids[entry["name"]] = log_waves.add_wave(act, entry["name"], list(_steps(story, entry)), text=entry["note"])
    for row in story.rows("wave_places"):
        member = story.members[row["member"]]
        with log.act(f"began the wave {row['wave']} for {member.name}") as act:
            log_waves.start_wave(act, member.id, ids[row["wave"]], story.day(row["started"]))
            steps = sorted(log_waves.member_steps(act.session, member.id), key=lambda step: step.position)
            for step in steps[: int(row["next_step"]) - 1]:
                log_waves.set_state(act, step.id, "done")
            log_waves.postpone(act, steps[int(row["next_step"]) - 1].id, story.day(row["due"]))


def _steps(story: _Story, entry: dict[str, Any]) -> Iterator[NewStep]:
    in_week: dict[int, int] = {}
    a_week = max(sum(step["week"] == week for step in entry["step"]) for week in range(1, entry["weeks"] + 1))
    apart = 4 if a_week == 2 else 2  # two sessions lie four days apart, three of them two days
    for step in entry["step"]:
        number = in_week[step["week"]] = in_week.get(step["week"], -1) + 1
        planned = [
            NewPlannedSet(
                story.lifts[line["lift"], line["implement"]].id,
                each.sets, each.reps, each.percent, line["of"], rest_s=line["rest_s"],
            )
            for line in step["lines"]
            for each in parse_wave(line["sets"])
        ]  # fmt: skip
        warm_up = f"{HEADS['warm-up']}{step['warm_up']}" if "warm_up" in step else ""
        yield NewStep(step["title"], (step["week"] - 1) * 7 + number * apart, planned, warm_up)
