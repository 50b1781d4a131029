"""Takes what was touched on a phone into the log: in order, each once, and each answered by its own id.

An act that can't be is parked with its reason and holds up none of those behind it. One that the log has already is
answered as it was; the same id with other content changes nothing and is told.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any, Literal

from tracker import counts
from tracker.desk.day import after_miss, attempts, log_set, on_clock, session_said, today, touches
from tracker.desk.day.next import whats_next
from tracker.desk.history import journal
from tracker.desk.maxes.words import set_words
from tracker.desk.people import people
from tracker.desk.pieces import clocks, conditioning, piece_side, ticks
from tracker.desk.pieces.piece_entry import Said, asked_ladder, splits_text, swap_text, touched
from tracker.errors import BadInputError
from tracker.log.faults import GoneMeanwhileError
from tracker.log.records import MemberStepRow, SetRow
from tracker.log.sets import NewSet
from tracker.log.touches import Touch, TouchKnownError, act_id_of, touching
from tracker.log.undo import NothingToUndoError
from tracker.log.unit_of_work import ChangedSinceError, Log, MovedMeanwhileError
from tracker.log.who import RefusedError
from tracker.narrow import is_keyed, is_list
from tracker.pocket import act_body, asks
from tracker.pocket.act_body import Body
from tracker.pocket.post import post_of, touch_of

CHANGED = "The session was changed meanwhile"
How = Literal["done", "again", "parked", "clash"]
PARKED = (  # what no second try would change; anything else is a fault of the moment, and the phone keeps the act
    BadInputError,
    RefusedError,
    log_set.UnitSlipError,
    log_set.ChangedMeanwhileError,
    ChangedSinceError,
    NothingToUndoError,
    MovedMeanwhileError,
    GoneMeanwhileError,
)


@dataclass(frozen=True, slots=True)
class Result:
    """What became of one act; `words` say what the log has now, or why it has nothing."""

    id: str
    how: How
    words: str = ""
    slip: bool = False  # the load looks like the other unit: it is logged where the person says so
    changed: bool = False  # it is in the log, but the session was changed since the phone's plan was made

    def record(self) -> dict[str, Any]:
        marks = {name: True for name in ("slip", "changed") if getattr(self, name)}
        return {"id": self.id, "r": self.how, "words": self.words, **marks}


def take(log: Log, member_id: str, post: object, arrived: datetime) -> list[Result]:
    """Take a post of acts.

    Args:
        log: The log.
        member_id: Whose acts they are.
        post: `{"f": 1, "device": ..., "sent_at": ms, "acts": [{id, seq, user, kind, body, at: ms, date}, ...]}`.
        arrived: When it came.

    Raises:
        BadPostError: if it is no such post; nothing of it was taken.
        TidemarkError: if the log can't be written now. Acts before that one are in it; sending all again is harmless.
    """
    device, skew, acts = post_of(post, arrived)
    read = [touch_of(each, member_id, device, skew, KINDS) for each in acts]
    read.sort(key=lambda each: each[0].seq)
    return [_one(log, member_id, touch, body) for touch, body in read]


def _one(log: Log, member_id: str, touch: Touch, body: Body) -> Result:
    try:
        with touching(touch) as opened:
            words = KINDS[touch.kind](log, member_id, touch, body)
            if not opened.used:  # nothing of the log had to change; the touch is noted all the same
                touches.note_touch(log, member_id, f"touched {touch.kind}")
    except TouchKnownError:
        return _known(log, member_id, touch) or Result(touch.id, "again")
    except PARKED as err:  # it may be refused just because it is in the log already
        if (known := _known(log, member_id, touch)) is not None:
            return known
        counts.here.refuse(err)
        return Result(touch.id, "parked", str(err), isinstance(err, log_set.UnitSlipError))
    return Result(touch.id, "done", words, changed=CHANGED in words)


def _known(log: Log, member_id: str, touch: Touch) -> Result | None:
    found = touches.touch_known(log, member_id, touch.id)
    if found is None:
        return None
    if found.said.get("digest") != touch.digest:
        return Result(touch.id, "clash", "The log has another act under this number. Nothing was changed.")
    return Result(touch.id, "again")


def _set(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    """Log a set as it was done; one whose session was changed meanwhile is logged all the same, and that is said."""
    step_id, planned_id = str(body.get("step") or ""), str(body.get("planned") or "")
    planned = today.planned_of_step(log, member_id, step_id, planned_id) if step_id and planned_id else None
    new = NewSet(
        act_body.text(body, "lift"), act_body.load(body), act_body.whole(body, "reps"), rir=act_body.reserve(body), outcome=act_body.outcome(body),
        note=str(body.get("note") or ""),
    )  # fmt: skip
    if planned:
        number, (sets, test) = act_body.whole(body, "number"), planned
        if test:
            found = whats_next(log, member_id, touch.day, member_step_id=step_id)
            tried = next((line.attempts for line in found.plan.lines if line.planned.id == planned_id), ())
            number = sets + len(tried) + 1
        new = replace(
            new, kind="test" if test else "work", planned_set_id=planned_id, planned_round=number, member_step_id=step_id,
        )  # fmt: skip
    body_mass = act_body.mass(body.get("body_mass"), new.load.unit)
    if body_mass is not None:
        new = replace(new, body_mass=body_mass.amount)
    row = log_set.log_set(log, member_id, touch.day, new, sure=body.get("sure") is True, weighed=body_mass is not None)
    gone = "" if planned or not body.get("planned") else " and asks for this set no more: logged as it was done."
    changed = f". {CHANGED}{gone}" if gone else ""
    return f"{row.lift.title}: {set_words(row)}{changed}"


def _change(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    """Give a set that was kept or saved another load, other repetitions, another effort or note."""
    row = _set_of(log, member_id, body)
    new = log_set.as_new(row)
    if "load" in body:
        new = replace(new, load=act_body.load(body))
    if "reps" in body:
        new = replace(new, reps=act_body.whole(body, "reps"))
    if "outcome" in body:
        new = replace(new, outcome=act_body.outcome(body))
    if "rir" in body:
        new = replace(new, rir=act_body.reserve(body))
    if "note" in body:
        new = replace(new, note=str(body["note"]))
    keep = body.get("keep_max") is True
    return set_words(log_set.mend_set(log, row.id, new, sure=body.get("sure") is True, keep_max=keep))


def _remove(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    """Remove a set; the max that it made goes with it, unless that is to stay."""
    row = _set_of(log, member_id, body)
    log_set.remove_set(log, row.id, today=touch.day, keep_max=body.get("keep_max") is True)
    return f"Removed: {set_words(row)}"


def _undo(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    return f"Taken back: {journal.undo_act(log, act_id_of(member_id, act_body.text(body, 'of')))}"


def _begin(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    step = _step(log, member_id, body)
    today.begin_now(log, member_id, step, touch.day)
    return f"{step.title} is on"


def _skip(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    step = _step(log, member_id, body)
    today.skip(log, member_id, step)
    return f"{step.title} is left out"


def _end(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    step = _step(log, member_id, body)
    if body.get("planned"):
        attempts.end_test(log, member_id, step.id, act_body.text(body, "planned"), touch.day)
        return "The test is ended"
    today.finish(log, member_id, step, touch.day)
    return f"{step.title} is ended"


def _move(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    """Give a session another day; only this one moves, as on Today."""
    step = _step(log, member_id, body)
    try:
        to = date.fromisoformat(act_body.text(body, "to"))
    except ValueError:
        raise BadInputError("It is no day.", where="day", mend="Choose one of the days.") from None
    days = (to - max(step.due, touch.day)).days
    if days < 1:
        raise BadInputError("That day is not behind the session's own.", where="day", mend="Choose a later one.")
    today.postpone(log, member_id, step, days, today=touch.day)
    return f"{step.title} is on {to.day} {to:%b}"


def _weigh(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    mass = act_body.load(body)
    people.weigh(log, member_id, touch.day, mass)
    return f"Body mass {mass}"


def _warm(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    act, said = WARM.get(str(body.get("how") or "done"), WARM["done"])
    act(log, member_id, _step(log, member_id, body), touch.day)
    return said


WARM: dict[str, tuple[Callable[[Log, str, MemberStepRow, date], None], str]] = {
    "done": (session_said.tick_warm_up, "The warm-up is done"),
    "out": (session_said.leave_out_warm_up, "The warm-up is left out"),
    "open": (session_said.untick_warm_up, "The warm-up is open again"),
}


def _tick(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    """Keep all that is ticked by now of a piece without a score, as pairs of round and movement."""
    done = body.get("done")
    if not is_list(done) or not all(is_list(each) and len(each) == 2 for each in done):
        raise BadInputError("It says not what is ticked.", where="piece", mend="Reload the page.")
    pairs = [(act_body.whole({"n": at}, "n"), act_body.whole({"n": task}, "n")) for at, task in done]
    step = _step_or_none(log, member_id, body.get("step"))
    ticks.tick(log, member_id, act_body.text(body, "piece"), touch.day, pairs, step.id if step else None)
    return f"Ticked: {len(pairs)}"


def _start(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    seconds = act_body.whole(body, "count_in")
    at = touch.moment.timestamp()
    clocks.start_clock(log, member_id, act_body.text(body, "piece"), touch.day, count_in_s=seconds, at=at)
    return "The clock is started"


def _interval(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    """Start the clock of a lift's sets, as of when it was touched."""
    step = _step(log, member_id, body)
    on_clock.start(log, member_id, step.id, act_body.text(body, "lift"), touch.day, at=touch.moment)
    return "The clock of the sets is started"


def _tap(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    clocks.tap_round(log, _clock_of(log, member_id, body), at=touch.moment.timestamp())
    return "A round is noted"


def _stop(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    clocks.stop_clock(log, _clock_of(log, member_id, body), at=touch.moment.timestamp())
    return "The clock is stopped"


def _away(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    clocks.put_clock_away(log, _clock_of(log, member_id, body))
    return "The clock is put away"


def _side(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    piece_side.choose_side(log, member_id, act_body.side(body) or "larger", act_body.text(body, "piece"))
    return "Your number is kept"


def _score(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    row = next((each for each in conditioning.pieces(log, member_id) if each.id == body.get("piece")), None)
    if row is None:
        on = whats_next(log, member_id, touch.day, member_step_id=body.get("step"))
        row = next((each.row for each in on.pieces if each.piece_id == body.get("piece")), None)
    if row is None:
        raise BadInputError("This piece is not in the log any more.", where="piece", mend="Log it on the page Pieces.")
    swaps = _swaps(row.piece.tasks, body.get("swaps"), body.get("loads"), body.get("ones"))
    text, place = str(body.get("text") or ""), body.get("place")
    if is_list(place) and len(place) == 3 and all(isinstance(each, int) for each in place):
        reached = touched(asked_ladder(row.piece, swaps), *place)
        text = text.replace("{place}", reached) if text else reached
    step = _step_or_none(log, member_id, body.get("step"))
    clock_id, splits = None, str(body.get("splits") or "")
    if body.get("clock"):
        with suppress(BadInputError):  # one that was put away meanwhile; the score counts without it
            clock_id = _clock_of(log, member_id, {"of": body["clock"]})
    clock = clocks.open_clock(log, member_id)
    if clock and clock.id == clock_id:  # its taps are in the log: rounded there, and those left out that don't fit
        splits = splits_text(row.piece, clock.clock)
    partner = str(body.get("partner") or "") if row.piece.partners > 1 else ""
    said = Said(text, swaps, splits, note=str(body.get("note") or ""), partner=partner)
    got = conditioning.log_score(
        log, member_id, row.id, touch.day, said, clock_id=clock_id, member_step_id=step.id if step else None,
        side=act_body.side(body),
    )  # fmt: skip
    return got.score.piece.title


def _swaps(tasks: Any, said: object, loads: object, ones: object) -> str:
    """Say in words which movement was done in place of which, with which load, and with one bell of two, by its place."""
    names, marks, single = (each if is_keyed(each) else {} for each in (said, loads, ones))
    chosen: list[str] = []
    for at, task in enumerate(tasks):
        name, mark = str(names.get(str(at)) or ""), " ".join(str(marks.get(str(at)) or "").split())
        mark = ", ".join(each for each in (mark, "one" if single.get(str(at)) is True else "") if each)
        chosen.append(swap_text(task.movement, name if name != task.movement else "", mark))
    return "; ".join(each for each in chosen if each)


def _rate(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    rating, minutes = act_body.whole(body, "rating"), body.get("minutes")
    note = str(body.get("note") or "")
    minutes = act_body.whole(body, "minutes") if minutes is not None else None
    step = _step_or_none(log, member_id, body.get("step"))
    if step is not None:
        session_said.rate(log, member_id, touch.day, step, rating, minutes=minutes, note=note)
    else:
        plan = today.day_plan(log, member_id, touch.day)
        if plan.session is None:
            raise BadInputError("There is no session of that day.", where="rating", mend="Log a set first.")
        session_said.rate_session(log, plan.session.id, member_id, rating=rating, minutes=minutes, note=note)
    return f"Rated {rating}"


def _after(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    """End a lift for the day after a missed set."""
    row, how = _set_of(log, member_id, body), "hurt" if body.get("how") == "hurt" else "stop"
    after_miss.take(log, member_id, row.id, how)
    return f"No more of {row.lift.title} today"


def _leave(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    session_said.leave_unrated(log, member_id, touch.day, _step(log, member_id, body))
    return "Left without a rating"


def _answer(log: Log, member_id: str, touch: Touch, body: Body) -> str:
    """Do what the answer to a question of the day says; that it was answered is kept with the touch."""
    says = body.get("says")
    if not is_keyed(says):
        raise BadInputError("The answer says nothing.", where="answer", mend="Reload the page.")
    if asks.take(log, member_id, touch.day, says):
        return "Kept as it is said"
    if says.get("remove"):
        row = touches.set_now(log, member_id, str(says["remove"]))
        if row is None:
            return "It is gone already"
        log_set.remove_set(log, row.id, today=touch.day)
        return f"Removed: {set_words(row)}"
    sets = says.get("sets")
    if says.get("day") and is_list(sets):
        day = date.fromisoformat(str(says["day"]))
        rows = [row for each in sets if (row := touches.set_now(log, member_id, str(each)))]
        for row in (row for row in rows if row.day != day):
            log_set.move_set(log, row.id, member_id, day, today=touch.day)
    return "Kept as it is said"


KINDS: dict[str, Callable[[Log, str, Touch, Body], str]] = {
    "set": _set, "change": _change, "undo": _undo, "begin": _begin, "skip": _skip, "end": _end, "warm": _warm,
    "start": _start, "interval": _interval, "tick": _tick, "tap": _tap, "stop": _stop, "away": _away, "side": _side, "score": _score, "rate": _rate,
    "remove": _remove, "leave": _leave, "answer": _answer, "after": _after, "move": _move, "weigh": _weigh,
}  # fmt: skip


def _step_or_none(log: Log, member_id: str, step_id: object) -> MemberStepRow | None:
    return today.step(log, member_id, step_id) if isinstance(step_id, str) and step_id else None


def _step(log: Log, member_id: str, body: Body) -> MemberStepRow:
    found = _step_or_none(log, member_id, body.get("step"))
    if found is None:
        mend = "Look at what is planned now."
        raise BadInputError("This session is not in the calendar any more.", where="session", mend=mend)
    return found


def _set_of(log: Log, member_id: str, body: Body) -> SetRow:
    set_id = body.get("set")
    if not set_id:
        made = _made_by(log, member_id, body)
        set_id = made.get("sets")
    row = touches.set_now(log, member_id, str(set_id)) if set_id else None
    if row is None:
        raise BadInputError("This set is not in the log any more.", where="set", mend="Log it again.")
    return row


def _clock_of(log: Log, member_id: str, body: Body) -> str:
    made = _made_by(log, member_id, body).get("piece_clocks")
    running = clocks.open_clock(log, member_id)
    if not made and running is None:
        raise BadInputError("This clock was put away.", where="clock", mend="Start it again.")
    return made or (running.id if running else "")


def _made_by(log: Log, member_id: str, body: Body) -> dict[str, str]:
    found = touches.touch_known(log, member_id, act_body.text(body, "of"))
    return found.made if found else {}
