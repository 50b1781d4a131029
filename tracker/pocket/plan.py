"""The plan that a phone takes along: what is next with all that could be asked of it, as plain JSON.

The page works out no load and no estimate. So each set brings its words, its discs, the loads around it with theirs and how
likely each is; each piece what can be touched of it; and the sessions of the next fourteen days come along whole.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime
from typing import Any

from tracker.conditioning.load import ANCHORS
from tracker.conditioning.pieces import IN_INTERVALS, SIDES
from tracker.conditioning.sides import side_words
from tracker.desk.base.roles import may
from tracker.desk.day import after_miss, attempts, sore, touches
from tracker.desk.day.ahead import session_beside, steps_beside
from tracker.desk.day.attempts import NextAttempt
from tracker.desk.day.line_words import BARS, asked, made_of, part_of, which
from tracker.desk.day.lines import PlannedLine, chance_words
from tracker.desk.day.newest import newest_set
from tracker.desk.day.next import Next, whats_next
from tracker.desk.day.pieces_here import piece_here
from tracker.desk.day.today import DayPlan
from tracker.desk.day.warm_up import other_words, warm_up_lines
from tracker.desk.day.withheld import beside, withheld, without_load
from tracker.desk.maxes import estimates
from tracker.desk.maxes.trend import lifts_done
from tracker.desk.maxes.words import first_up, load_words, set_words
from tracker.desk.people import people, places
from tracker.desk.pieces.piece_entry import swap_choices
from tracker.errors import BadInputError
from tracker.log.pieces import PieceRow
from tracker.log.records import LiftRecord, MemberRecord, MemberStepRow, PlaceRecord, SetRow
from tracker.log.unit_of_work import Log
from tracker.pocket import asks, piece_plan
from tracker.prescription import illness
from tracker.prescription.body_parts import CLINICIAN, NO_DIAGNOSIS, STOP
from tracker.prescription.rest import usual_rest
from tracker.units import Mass, plain

Record = dict[str, Any]
FORMAT = 1
AROUND = 3  # loads either side of the one that is asked for
MOST_LIFTS = 12  # for a set beside the plan


@may("see")
def plan_of(log: Log, member_id: str, day: date, *, session: str | None = None) -> Record:
    """Return all that the page draws of a member's day.

    Raises:
        BadInputError: if there is no such member.
    """
    found = whats_next(log, member_id, day, member_step_id=session)
    plan, scene = found.plan, _Scene(log, found.plan)
    known = touches.touches(log, member_id)
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
        "lifts": _lifts(scene),
        "ask_body": plan.ask_body,
        "body_known": bool(people.body_masses(log, member_id)),
        "hurts": _hurting(plan),
        "sets": [_done(row) for row in plan.sets],
        "touches": {
            each.id: {
                "undone": each.undone,
                "day": each.said.get("day"),
                "made": [made for record, made in each.made.items() if record in ("sets", "scores")],
            }
            for each in known[:200]
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
        "anchors": {str(number): words for number, words in ANCHORS.items()},
        "cautions": _cautions(found),
        "signs": _signs(plan),
        "after_miss": _after_miss(log, plan),
    }


class _Scene:
    """Whose plan it is, and what is worked out once for all its sets."""

    def __init__(self, log: Log, plan: DayPlan) -> None:
        self.log, self.plan = log, plan
        self._near: dict[tuple[str, Mass], list[tuple[Mass, Record]]] = {}
        self._histories: dict[str, estimates.LiftHistory] = {}
        self._chances: dict[tuple[str, Mass, int, int, date], str] = {}

    @property
    def member(self) -> MemberRecord:
        return self.plan.member

    @property
    def place(self) -> PlaceRecord | None:
        return self.plan.place

    def near(self, lift: LiftRecord, load: Mass) -> list[tuple[Mass, Record]]:
        """List the loads around one that the kit makes, lightest first, with what they are made of."""
        key = lift.id, load
        if key not in self._near:
            lower, higher = [load], [load]
            for _ in range(AROUND):
                below = places.next_loads(lower[0], lift, self.member, self.place)[0] if lower[0] else None
                above = places.next_loads(higher[-1], lift, self.member, self.place)[1] if higher[-1] else None
                if below is not None and below.kg != lower[0].kg:
                    lower.insert(0, below)
                if above is not None and above.kg != higher[-1].kg:
                    higher.append(above)
            self._near[key] = [(each, self.load(lift, each)) for each in (*lower[:-1], *higher)]
        return self._near[key]

    def load(self, lift: LiftRecord, load: Mass) -> Record:
        made = places.make_load(load, lift, self.member, self.place)
        return {
            "load": plain(load.amount),
            "unit": load.unit,
            "words": load_words(load, lift),
            "made": _made(made.words if made and lift.implement in BARS else ""),
            "discs": _discs(made.per_side) if made else [],
        }

    def attempts(self, line: PlannedLine) -> Record:
        """Bring what is proposed after each attempt, by what was made and missed by then."""
        found = attempts.attempts_ahead(self.log, self.member, self.plan, line)
        return {
            "|".join(plain(each.amount) if each else "" for each in tried): self._attempt(line.lift, at)
            for tried, at in found.items()
        }

    def _attempt(self, lift: LiftRecord, at: NextAttempt) -> Record:
        """Say one attempt; what the answer on safety means stands beside the test already."""
        words = "".join(
            each for each in at.words if not each.startswith("By all") and each not in attempts.SAFETY_SAID.values()
        )
        if at.made is None:
            return {"words": words}
        record = self.load(lift, at.made.load)
        del record["unit"]
        record["load_words"] = record.pop("words")
        return {**record, "words": words, "chance": chance_words(at.chance)}

    def chance(self, line: PlannedLine, load: Mass, before: int, day: date) -> str:
        """Say how likely the repetitions of a line are with another load."""
        if line.planned.test or line.planned.rep_out:
            return ""
        key = line.lift.id, load, line.reps, before, day
        if key not in self._chances:
            history = self.history(line.lift)
            moved = history.moved_kg(load, day)
            model = history.model if moved > 0 else None
            chance = model.chance(moved, line.reps, day=day, sets_before=before) if model else None
            self._chances[key] = chance_words(chance)
        return self._chances[key]

    def history(self, lift: LiftRecord) -> estimates.LiftHistory:
        """Return a lift's history, read once for all sets of it."""
        if lift.id not in self._histories:
            self._histories[lift.id] = estimates.history(self.log, self.member.id, lift)
        return self._histories[lift.id]


def _on(scene: _Scene, found: Next) -> Record:
    plan, step = found.plan, found.plan.step
    assert step is not None
    said = _session(scene, step, plan.lines, plan.pieces, max(plan.day, step.due))
    warm = found.warm_up
    return {
        **said,
        "words": found.session.words if found.session else step.title,
        "over": plan.closed,
        "answered": plan.answered,
        "rating": plan.session.rating if plan.session else None,
        "warm_up": {"lines": list(warm.lines), "done": warm.done or warm.left_out} if warm else None,
        "ramp": [f"{each.reps} × {load_words(each.load, found.line.lift)}" for each in found.ramp]
        if found.line and not withheld(plan, found.line)
        else [],
        "to_end": found.to_end,
    }


def _beside(scene: _Scene, step: MemberStepRow, lines: tuple[PlannedLine, ...], pieces: tuple[PieceRow, ...]) -> Record:
    day = max(scene.plan.day, step.due)
    warm = warm_up_lines(step.text)
    return {
        **_session(scene, step, lines, pieces, day),
        "warm_up": {"lines": list(warm), "done": False} if warm else None,
        "ramp": [],
        "over": False,
        "answered": False,
        "rating": None,
        "to_end": False,
    }


def _session(
    scene: _Scene, step: MemberStepRow, lines: Iterable[PlannedLine], pieces: Iterable[PieceRow], day: date
) -> Record:
    before: dict[str, int] = {}
    said: list[Record] = []
    whole = tuple(lines)
    for line in whole:
        said.append(_line(scene, line, whole, before.get(line.lift.id, 0), day))
        before[line.lift.id] = before.get(line.lift.id, 0) + 1
    return {
        "id": step.id,
        "title": first_up(step.title),
        "due": step.due.isoformat(),
        "notes": list(other_words(step.text)),
        "lines": said,
        "pieces": [_piece(scene, row, step) for row in pieces],
    }


def _line(scene: _Scene, line: PlannedLine, lines: tuple[PlannedLine, ...], before: int, day: date) -> Record:
    place = first_up(which(line, lines))
    why = withheld(scene.plan, line)
    line = without_load(line) if why else line
    made = line.made
    bar = places.bar_in_use(scene.member, scene.place)
    near = scene.near(line.lift, made.load) if made else []
    own = scene.plan.rest_ways.own_rest(line.lift.id, line.planned.rest_s or 0)
    soon = day == scene.plan.day  # later sessions come with their own plan before they are on
    return {
        "key": line.key,
        "planned": line.planned.id,
        "number": line.number,
        "lift": line.lift.id,
        "title": line.lift.title,
        "which": place,
        "reps": line.reps,
        "asked": first_up(asked(line)),
        "load": plain(made.load.amount) if made else None,
        "unit": made.load.unit if made else scene.member.unit,
        "load_words": load_words(made.load, line.lift) if made else "",
        "made": _made(made_of(line, bar.label if bar and "of" not in (made.words if made else "") else "")),
        "discs": _discs(made.per_side) if made else [],
        "chance": chance_words(line.chance),
        "part": part_of(line, day),
        "carry": f"{line.lift.id} {plain(made.load.amount)} {made.load.unit}"
        if made and not line.planned.test
        else None,
        "notes": [*line.notes, *(() if why else beside(scene.plan, line))],
        "withheld": list(why),
        "test": line.planned.test,
        "open": line.planned.test or line.planned.rep_out or made is None,
        "rest_s": own or line.planned.rest_s or usual_rest("test" if line.planned.test else "work", line.reps).seconds,
        "left": line.done is None and not line.open,
        "last": list(scene.plan.last_words(line, scene.plan.day)) if soon and not why else [],
        "done": _done(line.done) if line.done else None,
        "body": line.lift.body,
        "tried": [_done(row) for row in line.attempts],
        "ahead": scene.attempts(line) if soon and line.planned.test and line.open and not why else {},
        "near": [{**record, "chance": scene.chance(line, load, before, day) if soon else ""} for load, record in near],
        "cautions": [{"text": each.text, "basis": each.basis, "advice": each.advice} for each in line.cautions],
    }


def _hurting(plan: DayPlan) -> list[str]:
    """List the lifts of the day that hurt: nobody is called back to the bar by a countdown."""
    ended = {each.lift.id for each in after_miss.stopped(plan) if each.hurt}
    return sorted(ended | {row.lift.id for row in plan.sets if plan.sore.is_painful(row.lift.name)})


def _made(words: str) -> str:
    return words.replace(" x ", " × ")


def _discs(per_side: Iterable[Mass]) -> list[list[Any]]:
    return [[plain(each.amount), each.unit, round(float(each.kg), 2)] for each in per_side]


def _done(row: SetRow) -> Record:
    return {
        "id": row.id,
        "lift": row.lift.id,
        "words": f"{row.lift.title}: {set_words(row)}",
        "said": set_words(row),
        "outcome": row.outcome,
        "reps": row.reps,
        "load": plain(row.load.amount),
        "unit": row.load.unit,
        "rir": None if row.rir is None else plain(row.rir),
        "note": row.note,
        "at": row.logged_at.isoformat(),
    }


def _lifts(scene: _Scene) -> list[Record]:
    """List the lifts that the member uses, the most lately done first, with what a set of them starts from."""
    planned = {line.lift.id: line.lift for line in scene.plan.lines}
    used = {lift.id: lift for lift, _, _ in lifts_done(scene.log, scene.member.id)[:MOST_LIFTS]}
    said: list[Record] = []
    for lift in (planned | used).values():
        last = newest_set(scene.log, scene.member.id, lift.id)
        load = last.load if last else Mass(places.FREE_STEP[scene.member.unit] * 0, scene.member.unit)
        if last is None and not lift.body:
            kit = places.bar_kit(scene.member, scene.place) if lift.implement in BARS else None
            if kit is None:
                continue
            load = kit.bar
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
                "last": f"{set_words(last)}, {last.day.day} {last.day:%b}" if last and not note else "",
                "near": [] if note else [record for _, record in scene.near(lift, load)],
                "note": note,
            }
        )
    return said


def _piece(scene: _Scene, row: PieceRow, step: MemberStepRow) -> Record:
    here = piece_here(row, scene.plan)
    on = scene.plan.step is not None and scene.plan.step.id == step.id
    piece = row.piece
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
                "unit": piece_plan.unit_of(piece.tasks[at].load),
            }
            for at, each in enumerate(here.movements)
        ],
        "notes": list(here.notes),
        "sore": list(sore.in_piece([task.movement for task in piece.tasks], scene.plan.sore)),
        "sides": [[side, side_words(row.written, side)] for side in SIDES] if piece.paired else [],
        "yours": here.yours,
        "score": here.score if on else "",
        "done": here.done if on else False,
        "clock": {
            "length": piece.length_s,
            "work": piece.work_s if piece.kind in IN_INTERVALS else None,
            "rest": piece.rest_s,
            "intervals": piece.intervals if piece.kind in IN_INTERVALS else None,
            "none": piece.kind == "unscored" and piece.length_s is None,
        },
        "taps": piece.rounds_to_tap,
        "now": piece_plan.on_now(piece),
        **piece_plan.way(piece),
    }


def _signs(plan: DayPlan) -> list[str]:
    """Say when to stop and when to see a clinician, by what the member says of themselves."""
    if plan.sore.ill:
        return [*illness.STOP, *illness.CLINICIAN, illness.STATUS]
    said = [sore.ACHES_SAID] if plan.sore.aches else []
    hurts = plan.sore.painful or set(plan.sore.since) - {sore.ACHES}
    return [*said, *((*STOP, *CLINICIAN, NO_DIAGNOSIS) if hurts else ())]


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
