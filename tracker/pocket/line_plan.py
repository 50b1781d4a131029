"""A set as a phone takes it along: what it asks, what it is done with, the loads around it, and how it was done."""

from __future__ import annotations

from datetime import date
from typing import Any

from tracker.desk.day import attempts, card, on_clock
from tracker.desk.day.build_up import is_build_up
from tracker.desk.day.in_turn import goes_on_at_once
from tracker.desk.day.line_words import which
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.withheld import beside, withheld, without_load
from tracker.desk.maxes.words import first_up, set_words
from tracker.log.records import SetRow
from tracker.pocket.scene import Scene
from tracker.prescription.rest import LEAST, left_of_interval, usual_rest
from tracker.prescription.technique import technique
from tracker.safety import still_shown
from tracker.units import plain

Record = dict[str, Any]


def line_record(scene: Scene, line: PlannedLine, lines: tuple[PlannedLine, ...], before: int, day: date) -> Record:
    """Bring a set: the card that every page draws, and all that could be asked of it with its answers."""
    why = withheld(scene.plan, line)
    record = _record(scene, line, lines, before, day, why)
    if why != (attempts.ASK_SAFETY,):
        return record
    said = {"planned": line.planned.id, "step": line.step_id}
    ways = [
        {"words": words, "says": {"safety": answer, **said}, "told": attempts.SAFETY_SAID[answer]}
        for answer, words in attempts.SAFETY.items()
    ]
    # as it stands once that is answered: a phone without a connection needs it then
    return {**record, "safety": ways, "answered": _record(scene, line, lines, before, day, ())}


def _record(
    scene: Scene, line: PlannedLine, lines: tuple[PlannedLine, ...], before: int, day: date, why: tuple[str, ...]
) -> Record:
    place = first_up(which(line, lines))
    line = without_load(line) if why else line
    made = line.made
    near = scene.near(line.lift, made.load) if made else []
    own = scene.plan.rest_ways.own_rest(line.lift.id, line.planned.rest_s or 0)
    every = on_clock.every_s(line.planned)
    soon = day == scene.plan.day  # later sessions come with their own plan before they are on
    return {
        "key": line.key,
        "planned": line.planned.id,
        "number": line.number,
        "lift": line.lift.id,
        **card.card(line, lines, scene.member, scene.place, day),
        "which": place,
        "notes": [*line.notes, *(() if why else beside(scene.plan, line))],
        "withheld": list(why),
        "test": line.planned.test,
        "build_up": is_build_up(line.planned),  # sets on the way up to it are no part of the plan
        "open": line.planned.test or line.planned.rep_out or made is None,
        "left_asked": not (line.planned.test or line.planned.rep_out)
        and (line.planned.rated or not technique(line.lift.name)),  # of a technique lift it says little
        "technical": technique(line.lift.name) and not line.planned.rated,
        "rated": line.planned.rated,  # the effort is said as RPE
        "uncounted": line.uncounted,  # as many as there are: no number stands there before the member says one
        "turn": line.turn,
        "rest_s": 0
        if goes_on_at_once(line, lines)
        else own or line.planned.rest_s or usual_rest("test" if line.planned.test else "work", line.reps).seconds
        if every is None
        else max(left_of_interval(every, line.reps), LEAST),
        "every_s": every,
        "left": line.done is None and not line.open,
        "last": list(scene.plan.last_words(line, scene.plan.day)) if soon and not why else [],
        "done": done_record(line.done) if line.done else None,
        "body": line.lift.body,
        "tried": [done_record(row) for row in line.attempts],
        "ahead": scene.attempts(line) if soon and line.planned.test and line.open and not why else {},
        "near": [{**record, "chance": scene.chance(line, load, before, day) if soon else ""} for load, record in near],
        "cautions": card.care(still_shown(line.cautions, scene.put_away, day)),
    }


def done_record(row: SetRow) -> Record:
    """Bring a set that was done, with its words and its numbers."""
    return {
        "id": row.id,
        "lift": row.lift.id,
        "words": f"{row.lift.title}: {set_words(row)}",
        "said": set_words(row),
        "outcome": row.outcome,
        "reps": row.reps,
        "each_side": row.each_side,
        "load": plain(row.load.amount),
        "unit": row.load.unit,
        "rir": None if row.rir is None else plain(row.rir),
        "note": row.note,
        "at": row.logged_at.isoformat(),
    }
