"""The lifts that a phone may log a set of beside the plan, and the loads of each that are asked about."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from tracker.desk.day import log_set, sore, usual
from tracker.desk.day.newest import newest_set
from tracker.desk.maxes.trend import lifts_done
from tracker.desk.maxes.words import set_words
from tracker.desk.people import places
from tracker.log.records import SetRow
from tracker.pocket.scene import Scene
from tracker.units import Mass, from_kg, plain, short

Record = dict[str, Any]
MOST_LIFTS = 12  # for a set beside the plan


def asked_about(scene: Scene, sessions: Iterable[Record]) -> Record:
    """Bring for each lift the loads that the log would ask about, in both units, so that they are asked about at once."""
    lifts = {line["lift"] for session in sessions for line in session["lines"]} | {
        each.id for each, _, _ in lifts_done(scene.log, scene.member.id)[:MOST_LIFTS]
    }
    found = {each: log_set.asked_about(scene.log, scene.member.id, each, scene.plan.day) for each in lifts}
    return {
        lift: {
            "usual": short(each.usual),
            "kg": each.spans,
            "lb": [[bound and from_kg(bound, "lb") for bound in span] for span in each.spans],
        }
        for lift, each in sorted(found.items())
        if each
    }


def as_loaded(last: SetRow, scene: Scene) -> Mass:
    """Return the load of the newest set as a set starts from it here: one of today in its own unit."""
    if last.day == scene.plan.day:
        return last.load
    return usual.in_unit_here(last.load, last.lift, scene.member, scene.place)


def lifts_record(scene: Scene) -> list[Record]:
    """List the lifts that the member uses, the most lately done first, with what a set of them starts from."""
    planned = {line.lift.id: line.lift for line in scene.plan.lines}
    used = {lift.id: lift for lift, _, _ in lifts_done(scene.log, scene.member.id)[:MOST_LIFTS]}
    said: list[Record] = []
    for lift in (planned | used).values():
        last = newest_set(scene.log, scene.member.id, lift.id)
        load = as_loaded(last, scene) if last else Mass(places.FREE_STEP[scene.member.unit] * 0, scene.member.unit)
        if last is None and not lift.body:
            least = places.least_load(lift, scene.member, scene.place)
            if least is None:
                continue
            load = least
        hurts = scene.plan.sore.is_painful(lift.name)
        note = sore.FREE_PAINFUL if hurts else sore.words_of(lift.name, scene.plan.sore)
        said.append(
            {
                "id": lift.id,
                "title": lift.title,
                "load": "" if note else plain(load.amount),
                "unit": load.unit,
                "body": lift.body,
                "reps": max(last.reps, 1) if last else 5,
                "each_side": lift.per_side,
                "last": f"{set_words(last)}, {last.day.day} {last.day:%b}" if last and not note else "",
                "near": [] if note else [record for _, record in scene.near(lift, load)],
                "note": note,
            }
        )
    return said
