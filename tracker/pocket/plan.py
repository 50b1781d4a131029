"""The plan that a phone takes along: what is next with all that could be asked of it, as plain JSON.

The page works out no load and no estimate. So each set brings its words, its discs, the loads around it with theirs and how
likely each is; each piece what can be touched of it; and the sessions of the next fourteen days come along whole.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime
from itertools import islice
from typing import Any

from tracker.conditioning.load import ANCHORS
from tracker.conditioning.pieces import IN_INTERVALS, SIDES, Piece
from tracker.conditioning.sides import side_words
from tracker.desk.base.cached import cached_until_write, page_snapshot
from tracker.desk.base.roles import may
from tracker.desk.day import after_miss, card, max_of_set, sore, touches
from tracker.desk.day.ahead import session_beside, steps_beside
from tracker.desk.day.carried_ahead import CarriedAhead, carried_ahead
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.next import Next, whats_next
from tracker.desk.day.piece_at_place import only_one, options_here
from tracker.desk.day.pieces_here import piece_here
from tracker.desk.day.today import DayPlan
from tracker.desk.day.warm_up import other_words, warm_up_lines
from tracker.desk.day.withheld import withheld
from tracker.desk.maxes.words import first_up, load_words
from tracker.desk.people import people, places
from tracker.desk.pieces import piece_care
from tracker.desk.pieces.piece_entry import swap_choices
from tracker.desk.pieces.ticks import has_ticks, ticks
from tracker.errors import BadInputError
from tracker.log.pieces import PieceRow
from tracker.log.records import MemberRecord, MemberStepRow
from tracker.log.touches_read import TouchRow
from tracker.log.unit_of_work import Log
from tracker.pocket import asks, piece_plan
from tracker.pocket.carry_plan import Known, carried_after, carries, heavier
from tracker.pocket.lift_plan import asked_about, lifts_record
from tracker.pocket.line_plan import done_record, line_record
from tracker.pocket.scene import Scene
from tracker.prescription import illness
from tracker.prescription.body_parts import CLINICIAN, NO_DIAGNOSIS, STOP
from tracker.safety import STOP_BASIS, STOP_LISTS, shows_stop_signs, still_shown
from tracker.strength.rpe import RATINGS

Record = dict[str, Any]
FORMAT = 1
TRIES = 3  # of a plan while touches come in; the last one stands, and then knows a set sooner than its touch


@may("see")
@cached_until_write
def plan_kept(log: Log, member_id: str, day: date, session: str | None, moment: int) -> Record:
    """Return the plan, kept as long as nothing is written to the log and `moment` is the same; nobody changes it.

    A plan depends on the time only where a clock was left to run, so a moment may be minutes long.
    """
    return plan_of(log, member_id, day, session=session)


@may("see")
def plan_of(log: Log, member_id: str, day: date, *, session: str | None = None) -> Record:
    """Return all that the page draws of a member's day, as it was at one moment.

    A phone that is told of a touch as known takes what it made from the plan alone. So both are of one moment: where a touch
    came in while the plan was made, it is made once more.

    Raises:
        BadInputError: if there is no such member.
    """
    for tried in range(1, TRIES + 1):
        known = touches.touches(log, member_id)
        with page_snapshot():  # which begins behind what is known
            made = _made(log, member_id, day, session, known)
        if tried == TRIES or touches.touches(log, member_id) == known:
            return made
    raise AssertionError


def _made(log: Log, member_id: str, day: date, session: str | None, known: Iterable[TouchRow]) -> Record:
    found = whats_next(log, member_id, day, member_step_id=session)
    plan, scene = found.plan, Scene(log, found.plan)
    sessions = [_on(scene, found)] if plan.step else []
    for step in steps_beside(log, member_id, plan):
        lines, pieces = session_beside(log, member_id, plan, step)
        sessions.append(_beside(scene, step, lines, pieces))
    bar = places.bar_in_use(plan.member, plan.place)
    return {
        "f": FORMAT,
        "as_of": datetime.now(UTC).isoformat(timespec="seconds"),
        "day": day.isoformat(),
        "member": {"id": plan.member.id, "name": plan.member.name, "unit": plan.member.unit},
        "place": " · ".join(each for each in (plan.place.name if plan.place else "", bar.label if bar else "") if each),
        "next": {"kind": found.kind, "title": found.title, "words": found.words},
        "on": plan.step.id if plan.step else None,
        "sessions": sessions,
        "lifts": lifts_record(scene),
        "asked_about": asked_about(scene, sessions),
        "ask_body": plan.ask_body,
        "body_known": bool(people.body_masses(log, member_id)),
        "hurts": _hurting(plan),
        "sets": _sets(log, plan),
        "touches": {
            each.id: {
                "undone": each.undone,
                "day": each.said.get("day"),
                "made": [made for record, made in each.made.items() if record in ("sets", "scores")],
            }
            for each in islice(known, 200)
        },
        "asks": [
            {
                "key": each.key,
                "words": each.words,
                "answers": [{"words": a.words, "says": a.says} for a in each.answers],
            }
            for each in touches.questions(log, member_id, day, plan.sets)
        ]
        + asks.asks(plan),
        "ratings": [[left.removesuffix("+"), rating] for left, rating in RATINGS.items()],
        "anchors": {str(number): words for number, words in ANCHORS.items()},
        "cautions": _cautions(found),
        "signs": _signs(plan),
        "stop": {
            "open": shows_stop_signs(plan.person),
            "lists": [{"head": each.head, "signs": each.signs} for each in STOP_LISTS],
            "basis": STOP_BASIS,
        },
        "set_clock": _set_clock(plan),
        "after_miss": _after_miss(log, plan),
    }


def _on(scene: Scene, found: Next) -> Record:
    plan, step = found.plan, found.plan.step
    assert step is not None
    said = _session(scene, step, plan.lines, plan.pieces, max(plan.day, step.due))
    warm = found.warm_up
    return {
        **said,
        "words": found.session.words if found.session else step.title,
        # Words alone are over once they were called done: nothing of them is left that a set or a score would show.
        "over": plan.closed or not (plan.lines or plan.pieces or found.to_end),
        "answered": plan.answered,
        "rating": plan.session.rating if plan.session else None,
        "warm_up": {"lines": list(warm.lines), "done": warm.done, "out": warm.left_out} if warm else None,
        "ramp": [f"{each.reps} × {load_words(each.load, found.line.lift)}" for each in found.ramp]
        if found.line and not withheld(plan, found.line)
        else [],
        "to_end": found.to_end,
    }


def _beside(scene: Scene, step: MemberStepRow, lines: tuple[PlannedLine, ...], pieces: tuple[PieceRow, ...]) -> Record:
    day = max(scene.plan.day, step.due)
    warm = warm_up_lines(step.text)
    return {
        **_session(scene, step, lines, pieces, day),
        "warm_up": {"lines": list(warm), "done": False, "out": False} if warm else None,
        "ramp": [],
        "over": False,
        "answered": False,
        "rating": None,
        "to_end": False,
    }


def _session(
    scene: Scene, step: MemberStepRow, lines: Iterable[PlannedLine], pieces: Iterable[PieceRow], day: date
) -> Record:
    before: dict[str, int] = {}
    said: list[Record] = []
    whole = tuple(lines)
    soon = scene.plan.step is step or step.due == scene.plan.day
    ahead = carried_ahead(scene.log, scene.member.id, scene.plan, step) if soon else CarriedAhead({}, {}, {})
    after = Known()
    for line in whole:
        record = line_record(scene, line, whole, before.get(line.lift.id, 0), day)
        said.append({**record, **carried_after(scene, line, ahead, after, day)})
        before[line.lift.id] = before.get(line.lift.id, 0) + 1
    return {
        "id": step.id,
        "title": first_up(step.title),
        "due": step.due.isoformat(),
        "begun": scene.plan.unfinished.get(step.id, ""),  # how much of it is done, where it was left unfinished
        "notes": list(other_words(step.text)),
        "lines": said,
        "pieces": [_piece(scene, row, step) for row in pieces],
        "after": after.records,
        "heavier": heavier(step, ahead),
        "carries": carries(scene.plan, step),
    }


def _sets(log: Log, plan: DayPlan) -> list[Record]:
    """Bring the sets of the day, each with the max that it became by a yes: that goes with it."""
    made = max_of_set.maxes_made(log, plan.member.id, tuple(row.id for row in plan.sets))
    return [
        {**done_record(row), **({"max": max_of_set.words(made[row.id])} if row.id in made else {})} for row in plan.sets
    ]


def _hurting(plan: DayPlan) -> list[str]:
    """List the lifts of the day that hurt: nobody is called back to the bar by a countdown."""
    ended = {each.lift.id for each in after_miss.stopped(plan) if each.hurt}
    return sorted(ended | {row.lift.id for row in plan.sets if plan.sore.is_painful(row.lift.name)})


def _piece(scene: Scene, row: PieceRow, step: MemberStepRow) -> Record:
    here = piece_here(row, scene.plan)
    on = scene.plan.step is not None and scene.plan.step.id == step.id
    piece, shown = row.piece, here.shown
    first = options_here(piece, scene.place)
    return {
        "id": row.id,
        "title": here.title,
        "words": here.words,
        "scheme": here.scheme,
        "movements": [
            {
                "words": each.words,
                "options": [[choice.name, choice.words] for choice in swap_choices(row, at)],
                "name": piece.tasks[at].movement,
                "here": first[at].movement if at in first else None,  # done instead where nobody says otherwise
                "unit": piece_plan.unit_of(shown.tasks[at].load),
                "two": shown.tasks[at].for_two,  # bells; done with one it is another version
                "one_here": only_one(shown.tasks[at], scene.place),
            }
            for at, each in enumerate(here.movements)
        ],
        "notes": list(here.notes),
        "sore": list(sore.in_piece([task.movement for task in piece.tasks], scene.plan.sore)),
        "sides": [[side, side_words(row.written, side)] for side in SIDES] if piece.paired else [],
        "yours": here.yours,
        "cautions": _piece_care(scene, piece) if on else [],
        "score": here.score if on else "",
        "done": here.done if on else False,
        "clock": {
            "length": piece.length_s,
            "work": piece.work_s if piece.kind in IN_INTERVALS else None,
            "rest": piece.rest_s,
            "intervals": piece.intervals if piece.kind in IN_INTERVALS else None,
            "each": piece.timed_intervals,  # each ends with a tap, and the rest after it begins
            "none": piece.kind == "unscored" and piece.length_s is None,
        },
        "taps": piece.ends_to_tap,
        "partners": piece.partners,
        "ticks": _ticks(scene, row, piece, step) if has_ticks(piece) and not piece.paired else None,
        "now": piece_plan.on_now(shown),
        **piece_plan.way(shown),
    }


def _ticks(scene: Scene, row: PieceRow, piece: Piece, step: MemberStepRow) -> Record:
    found = ticks(scene.log, scene.member.id, row.id, piece, scene.plan.day, step.id)
    return {"rounds": found.rounds, "movements": list(found.movements), "done": sorted(map(list, found.done))}


def _piece_care(scene: Scene, piece: Piece) -> list[dict[str, str]]:
    found = piece_care.cautions(scene.log, scene.member, piece, scene.plan.day)
    return card.care(still_shown(found, scene.put_away, scene.plan.day))


def _signs(plan: DayPlan) -> list[str]:
    """Say when to stop and when to see a clinician, by what the member says of themselves."""
    if plan.sore.ill:
        return [*illness.STOP, *illness.CLINICIAN, illness.STATUS]
    said = [sore.ACHES_SAID] if plan.sore.aches else []
    hurts = plan.sore.painful or set(plan.sore.since) - {sore.ACHES}
    return [*said, *((*STOP, *CLINICIAN, NO_DIAGNOSIS) if hurts else ())]


def _set_clock(plan: DayPlan) -> Record | None:
    """Bring the clock of sets that was started on the day, wherever that was touched."""
    clock = plan.clock
    if clock is None or clock.started is None:
        return None
    started = clock.started.isoformat()
    return {
        "step": clock.step_id,
        "lift": clock.lift_id,
        "every_s": clock.every_s,
        "sets": clock.sets,
        "started": started,
    }


def _cautions(found: Next) -> list[str]:
    back = found.plan.back
    words = (back.words if back else found.plan.lay_off.words, *(each.words for each in after_miss.stopped(found.plan)))
    return [each for each in words if each]


def _after_miss(log: Log, plan: DayPlan) -> Record | None:
    """Say what the log makes of the newest miss, where nobody has answered it yet."""
    found = after_miss.what_now(log, plan.member, plan)
    return {"set": found.missed.id, "words": list(found.words)} if found else None


def member_of(known: Iterable[MemberRecord], wanted: str) -> MemberRecord | None:
    """Return the member that an address names, by name or by id; the first where it names none."""
    members = tuple(known)
    if not wanted:
        return next(iter(members), None)
    folded = wanted.strip().casefold()
    found = next((each for each in members if wanted == each.id or each.name.casefold() == folded), None)
    if found is None and members:
        raise BadInputError("There is no such member.", where="member", mend="Choose one from the list.")
    return found
