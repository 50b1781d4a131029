"""Situations of a training day, each made in a log of its own, with what is next in it: for the desk, the pages, the command line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from decimal import Decimal

from tests.day import this_day
from tests.undoing import undo_newest
from tests.with_pieces import put_into_step
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.coach import send_result, take_results
from tracker.desk.day import after_miss, attempts, log_set, on_clock, session_said, sore, sore_choice, today, unit_today
from tracker.desk.people import people, places
from tracker.desk.pieces import clocks, conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberStepRow
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass

SQUAT, BENCH, PRESS = "back squat, barbell", "bench press, barbell", "press, dumbbells"
WARM_UP = "Warm-up: 5 min easy row\n10 air squats"


def kg(amount: str | int) -> Mass:
    return Mass(Decimal(amount), "kg")


class Gym:
    """A log with one member, and short words for what happens to her."""

    def __init__(self, log: Log) -> None:
        self.log, self.day = log, this_day()
        if not people.members(log):
            people.add_member(log, "Ana")
            for name, implement in (("back squat", "barbell"), ("bench press", "barbell"), ("press", "dumbbells")):
                people.add_lift(log, name, implement)
        (self.member,) = people.members(log)
        named = [lift for lift in people.lifts(log) if lift.title in (SQUAT, BENCH, PRESS)]
        self.lifts: dict[str, LiftRecord] = {lift.title: lift for lift in named}
        self.who = self.member.id

    def plan(
        self, title: str, days: int = 0, sets: int = 2, *, pieces: tuple[str, ...] = (), text: str = "", test: bool = False,
        lifts: tuple[str, ...] = (SQUAT,),
    ) -> MemberStepRow:  # fmt: skip
        """Put a session into the calendar, so many days from today."""
        asked = [
            NewPlannedSet(self.lifts[lift].id, sets, 3, load=None if test else kg(80), test=test, block=block)
            for block, lift in enumerate(lifts)
            if sets
        ]
        with self.log.act("a wave", self.who) as act:
            wave = log_waves.add_wave(act, f"Wave of {title}, {days}", [NewStep(title, 0, asked, text=text)])
            log_waves.start_wave(act, self.who, wave, self.day + timedelta(days=days))
        step = self.step(title)
        for each in pieces:
            row = conditioning.add_piece(self.log, Piece(each, "for time", (Task("burpee", Steady(5)),), rounds=3))
            put_into_step(self.log, step.step_id, row.id)
        return step

    def step(self, title: str) -> MemberStepRow:
        return next(step for step in today.steps(self.log, self.who) if step.title == title)

    def do(self, title: str, number: int = 99, days: int = 0) -> None:
        """Log the next sets of a session as asked."""
        day = self.day + timedelta(days=days)
        for _ in range(number):
            plan = today.day_plan(self.log, self.who, day, member_step_id=self.step(title).id)
            line = plan.next_line
            if plan.step is None or plan.step.title != title or line is None:
                return
            load = line.made.load if line.made else kg(80)
            new = NewSet(
                line.lift.id, load, line.reps, planned_set_id=line.planned.id, planned_round=line.number,
                member_step_id=line.step_id,
            )  # fmt: skip
            log_set.log_set(self.log, self.who, day, new)

    def free(self, lift: str = BENCH, days: int = 0) -> None:
        log_set.log_set(self.log, self.who, self.day + timedelta(days=days), NewSet(self.lifts[lift].id, kg(50), 5))

    def attempt(self, title: str, load: int, *, made: bool) -> None:
        step = self.step(title)
        line = today.day_plan(self.log, self.who, self.day, member_step_id=step.id).lines[0]
        new = attempts.as_attempt(line, self.member, None, kg(load))
        outcome, reps = ("done", line.reps) if made else ("missed", line.reps - 1)
        new = NewSet(
            new.lift_id, kg(load), reps, outcome=outcome, kind="test", planned_set_id=new.planned_set_id,
            planned_round=new.planned_round, member_step_id=step.id,
        )  # fmt: skip
        log_set.log_set(self.log, self.who, self.day, new)

    def end_test(self, title: str) -> None:
        step = self.step(title)
        attempts.end_test(self.log, self.who, step.id, step.sets[0].id, self.day)

    def piece(self, title: str) -> str:
        return next(row.id for row in conditioning.pieces(self.log, self.who) if row.piece.title == title)

    def score(self, piece: str, of: str = "", said: str = "4:10", days: int = 0) -> None:
        step = self.step(of).id if of else None
        day = self.day + timedelta(days=days)
        conditioning.log_score(self.log, self.who, self.piece(piece), day, Said(said), member_step_id=step)

    def rate(self, title: str, days: int = 0) -> None:
        session_said.rate(self.log, self.who, self.day + timedelta(days=days), self.step(title), 7)

    def leave_unrated(self, title: str) -> None:
        session_said.leave_unrated(self.log, self.who, self.day, self.step(title))

    def begin(self, title: str) -> None:
        today.begin_now(self.log, self.who, self.step(title), self.day)

    def warm_up(self, title: str) -> None:
        session_said.tick_warm_up(self.log, self.who, self.step(title), self.day)

    def no_warm_up(self, title: str) -> None:
        session_said.leave_out_warm_up(self.log, self.who, self.step(title), self.day)

    def finish(self, title: str, days: int = 0) -> None:
        today.finish(self.log, self.who, self.step(title), self.day + timedelta(days=days))

    def move(self, title: str, days: int = 1) -> None:
        today.postpone(self.log, self.who, self.step(title), days, today=self.day)

    def skip(self, title: str) -> None:
        today.skip(self.log, self.who, self.step(title))

    def leave_out(self, title: str, lift: str) -> None:
        sore_choice.choose(self.log, self.who, self.lifts[lift].id, "leave", step_id=self.step(title).id)

    def enough(self, title: str, lift: str) -> None:
        after_miss.enough(self.log, self.who, self.step(title).id, self.lifts[lift].id, self.day)

    def says(self, what: sore.Place, days: int = 0) -> None:
        sore.begin(self.log, self.who, what, self.day + timedelta(days=days))

    def undo(self) -> None:
        undo_newest(self.log, self.who)


@dataclass(frozen=True)
class Situation:
    """What happened, and what is next then."""

    name: str
    made: Callable[[Gym], object]
    kind: str
    title: str = ""
    session: str = ""  # the one that is on, where the table says it
    planned: str = ""
    missed: tuple[str, ...] = ()


def _all(*acts: Callable[[Gym], object]) -> Callable[[Gym], object]:
    def made(gym: Gym) -> None:
        for act in acts:
            act(gym)

    return made


def _plan(title: str, days: int = 0, sets: int = 2, **named: object) -> Callable[[Gym], object]:
    return lambda gym: gym.plan(title, days, sets, **named)  # type: ignore[arg-type]


def _do(title: str, number: int = 99, days: int = 0) -> Callable[[Gym], object]:
    return lambda gym: gym.do(title, number, days)


def _on(what: str, *args: object, **named: object) -> Callable[[Gym], object]:
    return lambda gym: getattr(gym, what)(*args, **named)


def _by_line(gym: Gym) -> None:
    """The member logs on a phone of her own, and the coach takes the line of it into the gym's log."""
    gym.do("Now")
    line = send_result.result_line(gym.log, gym.who, gym.day)
    for _ in gym.step("Now").sets[0].sets * "x":
        gym.undo()
    take_results.take_results(gym.log, line)


def _clock(gym: Gym) -> None:
    clocks.start_clock(gym.log, gym.who, gym.piece("Quay"), gym.day)


def _clock_away(gym: Gym) -> None:
    clock = clocks.open_clock(gym.log, gym.who)
    assert clock is not None
    clocks.put_clock_away(gym.log, clock.id)


def _elsewhere(gym: Gym) -> None:
    places.go_today(gym.log, gym.who, places.add_place(gym.log, "Meadow", "kg").id, gym.day)


NOW = _plan("Now")
TWO_LIFTS = _plan("Now", lifts=(SQUAT, BENCH))
WITH_PIECE = _plan("Now", pieces=("Quay",))
BOTH = _all(_plan("Morning"), _plan("Evening"))
SITUATIONS = [
    Situation("a new member without a sheet", _all(), "nothing"),
    Situation("no sheet, a set was done", _on("free"), "nothing"),
    Situation("a session is dated today", NOW, "set", SQUAT, "Now"),
    Situation("one set of it is done", _all(NOW, _do("Now", 1)), "set", SQUAT, "Now"),
    Situation("the set was taken back", _all(NOW, _do("Now", 1), _on("undo")), "set", SQUAT, "Now"),
    Situation("the last set was done", _all(NOW, _do("Now")), "rating", "Now", "Now"),
    Situation("the last set was taken back", _all(NOW, _do("Now"), _on("undo")), "set", SQUAT, "Now"),
    Situation("all of it is done and rated", _all(NOW, _do("Now"), _on("rate", "Now")), "nothing"),
    Situation("nobody will rate it", _all(NOW, _do("Now"), _on("leave_unrated", "Now")), "nothing"),
    Situation("the rating was taken back", _all(NOW, _do("Now"), _on("rate", "Now"), _on("undo")), "rating", "Now"),
    Situation("two lifts, the first is done", _all(_plan("Now", lifts=(SQUAT, BENCH)), _do("Now", 2)), "set", BENCH),
    Situation("the warm-up waits", _plan("Now", text=WARM_UP), "set", SQUAT, "Now"),
    Situation("the warm-up is ticked off", _all(_plan("Now", text=WARM_UP), _on("warm_up", "Now")), "set", SQUAT, "Now"),
    Situation(
        "the warm-up of the second was ticked off", _all(BOTH, _do("Morning"), _on("rate", "Morning"),
        _plan("Night", text=WARM_UP), _on("warm_up", "Night")), "set", SQUAT, "Night", planned="Evening",
    ),
    Situation("all is done but the piece", _all(WITH_PIECE, _do("Now")), "piece", "Quay", "Now"),
    Situation("the clock of the piece runs", _all(WITH_PIECE, _do("Now"), _clock), "piece", "Quay", "Now"),
    Situation("the clock was put away", _all(WITH_PIECE, _do("Now"), _clock, _clock_away), "piece", "Quay", "Now"),
    Situation("the piece is scored too", _all(WITH_PIECE, _do("Now"), _on("score", "Quay", "Now")), "rating", "Now"),
    Situation(
        "the score was taken back", _all(WITH_PIECE, _do("Now"), _on("score", "Quay", "Now"), _on("undo")), "piece", "Quay"
    ),
    Situation("the piece was done first", _all(WITH_PIECE, _on("score", "Quay", "Now")), "set", SQUAT, "Now"),
    Situation(
        "the piece was done first, all else after it", _all(WITH_PIECE, _on("score", "Quay", "Now"), _do("Now")), "rating",
        "Now",
    ),
    Situation(
        "only the piece was wanted", _all(WITH_PIECE, _on("score", "Quay", "Now"), _on("finish", "Now")), "rating", "Now"
    ),
    Situation("no piece was wanted", _all(WITH_PIECE, _do("Now"), _on("finish", "Now")), "rating", "Now", "Now"),
    Situation(
        "and then it was gone on with", _all(WITH_PIECE, _do("Now"), _on("finish", "Now"),
        lambda gym: today.go_on(gym.log, gym.who, gym.step("Now"), gym.day)), "piece", "Quay", "Now",
    ),
    Situation(
        "two pieces, the first is scored", _all(_plan("Now", pieces=("Quay", "Pier")), _do("Now"), _on("score", "Quay", "Now")),
        "piece", "Pier", "Now",
    ),
    Situation("a session of a piece alone", _plan("Now", 0, 0, pieces=("Quay",)), "piece", "Quay", "Now"),
    Situation(
        "the piece alone is scored", _all(_plan("Now", 0, 0, pieces=("Quay",)), _on("score", "Quay", "Now")), "rating", "Now"
    ),
    Situation(
        "it was scored without the session", _all(_plan("Now", 0, 0, pieces=("Quay",)), _on("score", "Quay")), "rating", "Now"
    ),
    Situation(
        "and rated then", _all(_plan("Now", 0, 0, pieces=("Quay",)), _on("score", "Quay"), _on("rate", "Now")), "nothing"
    ),
    Situation("a session of words alone", _plan("Now", 0, 0, text="An easy walk"), "nothing", session="Now"),
    Situation(
        "the words are called done", _all(_plan("Now", 0, 0, text="An easy walk"), _on("finish", "Now")), "rating", "Now"
    ),
    Situation(
        "the words are rated", _all(_plan("Now", 0, 0, text="An easy walk"), _on("finish", "Now"), _on("rate", "Now")), "nothing"
    ),
    Situation("two sessions today", BOTH, "set", SQUAT, "Morning", planned="Evening"),
    Situation(
        "two today, the sets of the first are done", _all(BOTH, _do("Morning")), "rating", "Morning", "Morning", planned="Evening"
    ),
    Situation(
        "two today, the first is rated", _all(BOTH, _do("Morning"), _on("rate", "Morning")), "set", SQUAT, "Evening"
    ),
    Situation(
        "two today, the first is left unrated", _all(BOTH, _do("Morning"), _on("leave_unrated", "Morning")), "set", SQUAT, "Evening"
    ),
    Situation(
        "two today, the second is begun with a set of the first left", _all(BOTH, _do("Morning", 1), _on("begin", "Evening")),
        "set", SQUAT, "Evening", planned="Morning",
    ),
    Situation(
        "two today, the second is begun before the first is rated", _all(BOTH, _do("Morning"), _on("begin", "Evening")),
        "set", SQUAT, "Evening",
    ),
    Situation(
        "two today, the second is done and rated and a set of the first is left",
        _all(BOTH, _do("Morning", 1), _on("begin", "Evening"), _do("Evening"), _on("rate", "Evening")), "set", SQUAT, "Morning",
    ),
    Situation(
        "two today, both are done and rated",
        _all(BOTH, _do("Morning"), _on("rate", "Morning"), _do("Evening"), _on("rate", "Evening")), "nothing",
    ),
    Situation(
        "two today, the piece of the first is open", _all(_plan("Morning", pieces=("Quay",)), _plan("Evening"), _do("Morning")),
        "piece", "Quay", "Morning", planned="Evening",
    ),
    Situation(
        "a session of today beside an older one", _all(_plan("Old", -2), NOW), "set", SQUAT, "Now", missed=("Old",)
    ),
    Situation("an older one alone", _plan("Old", -2), "set", SQUAT, "Old"),
    Situation(
        "two older ones alone", _all(_plan("Older", -7), _plan("Old", -2)), "set", SQUAT, "Older", missed=("Old",)
    ),
    Situation(
        "the missed one is done now", _all(_plan("Old", -2), NOW, _on("begin", "Old")), "set", SQUAT, "Old", planned="Now"
    ),
    Situation(
        "the missed one is done and rated", _all(_plan("Old", -2), NOW, _on("begin", "Old"), _do("Old"), _on("rate", "Old")),
        "set", SQUAT, "Now",
    ),
    Situation("the missed one is left out", _all(_plan("Old", -2), _on("skip", "Old")), "nothing"),
    Situation("and that was taken back", _all(_plan("Old", -2), _on("skip", "Old"), _on("undo")), "set", SQUAT, "Old"),
    Situation(
        "today's is done and rated beside a missed one", _all(_plan("Old", -2), NOW, _do("Now"), _on("rate", "Now")), "nothing",
        missed=("Old",),
    ),
    Situation("yesterday's is half done", _all(_plan("Old", -1, 3), _do("Old", 1, -1)), "set", SQUAT, "Old"),
    Situation(
        "yesterday's is half done beside one of today", _all(_plan("Old", -1), _do("Old", 1, -1), NOW), "set", SQUAT, "Now",
        missed=("Old",),
    ),
    Situation(
        "yesterday's is done to its end", _all(_plan("Old", -1, 3), _do("Old", 1, -1), _on("begin", "Old"), _do("Old")), "rating",
        "Old",
    ),
    Situation(
        "its piece was done yesterday", _all(_plan("Old", -1, pieces=("Quay",)), _do("Old", 1, -1),
        _on("score", "Quay", "Old", "4:10", -1), _on("begin", "Old"), _do("Old")), "rating", "Old",
    ),
    Situation("one lift is left out of it", _all(TWO_LIFTS, _on("leave_out", "Now", SQUAT)), "set", BENCH, "Now"),
    Situation("and the other one is done", _all(TWO_LIFTS, _on("leave_out", "Now", SQUAT), _do("Now")), "rating", "Now", "Now"),
    Situation("that it is left out was taken back", _all(TWO_LIFTS, _on("leave_out", "Now", SQUAT), _on("undo")), "set", SQUAT),
    Situation(
        "one lift is left out after a set of it", _all(TWO_LIFTS, _do("Now", 1), _on("leave_out", "Now", SQUAT)), "set", BENCH,
        "Now",
    ),
    Situation(
        "the last lift is left out after a set of it", _all(TWO_LIFTS, _do("Now", 3), _on("leave_out", "Now", BENCH)), "rating",
        "Now", "Now",
    ),
    Situation("enough of the first lift, before a set of it", _all(TWO_LIFTS, _on("enough", "Now", SQUAT)), "set", BENCH, "Now"),
    Situation("enough after one set", _all(TWO_LIFTS, _do("Now", 1), _on("enough", "Now", SQUAT)), "set", BENCH, "Now"),
    Situation("ill: what is planned stands without a load", _all(NOW, _on("says", sore.ILL)), "set", SQUAT, "Now"),
    Situation("muscles ache", _all(NOW, _on("says", sore.ACHES)), "set", SQUAT, "Now"),
    Situation("back after nine months", _all(_on("free", SQUAT, -280), NOW), "set", SQUAT, "Now"),
    Situation(
        "yesterday's sets are done and its piece is open", _all(_plan("Old", -1, pieces=("Quay",)), _do("Old", 99, -1)), "nothing",
        missed=("Old",),
    ),
    Situation(
        "yesterday's piece is open beside a session of today",
        _all(_plan("Old", -1, pieces=("Quay",)), _do("Old", 99, -1), NOW), "set", SQUAT, "Now", missed=("Old",),
    ),
    Situation(
        "yesterday's piece is done now", _all(_plan("Old", -1, pieces=("Quay",)), _do("Old", 99, -1), _on("begin", "Old")),
        "piece", "Quay", "Old",
    ),
    Situation(
        "yesterday's piece is done now and scored", _all(_plan("Old", -1, pieces=("Quay",)), _do("Old", 99, -1),
        _on("begin", "Old"), _on("score", "Quay", "Old")), "rating", "Old", "Old",
    ),
    Situation(
        "yesterday's piece is left out", _all(_plan("Old", -1, pieces=("Quay",)), _do("Old", 99, -1), _on("skip", "Old")),
        "nothing",
    ),
    Situation(
        "and its leaving out was taken back", _all(_plan("Old", -1, pieces=("Quay",)), _do("Old", 99, -1), _on("skip", "Old"),
        _on("undo")), "nothing", missed=("Old",),
    ),
    Situation(
        "yesterday's piece was scored yesterday, of no session", _all(_plan("Old", -1, pieces=("Quay",)), _do("Old", 99, -1),
        _on("score", "Quay", "", "4:10", -1)), "nothing",
    ),
    Situation(
        "yesterday's session was ended without its piece", _all(_plan("Old", -1, pieces=("Quay",)), _do("Old", 99, -1),
        _on("finish", "Old", -1)), "nothing",
    ),
    Situation(
        "yesterday's session was rated without its piece", _all(_plan("Old", -1, pieces=("Quay",)), _do("Old", 99, -1),
        _on("rate", "Old", -1)), "nothing",
    ),
    Situation(
        "a piece that stayed open for more than a week", _all(_plan("Old", -9, pieces=("Quay",)), _do("Old", 99, -9)), "nothing"
    ),
    Situation("the warm-up is left out", _all(_plan("Now", text=WARM_UP), _on("no_warm_up", "Now")), "set", SQUAT, "Now"),
    Situation("moved to tomorrow", _all(NOW, _on("move", "Now")), "nothing", planned="Now"),
    Situation("half done, the rest moved to tomorrow", _all(NOW, _do("Now", 1), _on("move", "Now")), "nothing", planned="Now"),
    Situation("moved, and taken back", _all(NOW, _on("move", "Now"), _on("undo")), "set", SQUAT, "Now"),
    Situation("left out", _all(NOW, _on("skip", "Now")), "nothing"),
    Situation("ended with sets left", _all(NOW, _do("Now", 1), _on("finish", "Now")), "rating", "Now"),
    Situation(
        "ended with sets left, and rated", _all(NOW, _do("Now", 1), _on("finish", "Now"), _on("rate", "Now")), "nothing"
    ),
    Situation(
        "ended with sets left, and gone on with", _all(NOW, _do("Now", 1), _on("finish", "Now"),
        lambda gym: today.go_on(gym.log, gym.who, gym.step("Now"), gym.day)), "set", SQUAT, "Now",
    ),
    Situation("only one that is still to come", _plan("Soon", 3), "nothing", planned="Soon"),
    Situation("and it is begun today", _all(_plan("Soon", 3), _on("begin", "Soon")), "set", SQUAT, "Soon"),
    Situation("a set beside the plan", _all(NOW, _on("free")), "set", SQUAT, "Now"),
    Situation("done by a line that was taken in", _all(NOW, _by_line), "rating", "Now"),
    Situation("a test day", _plan("Test", 0, 1, test=True), "set", SQUAT, "Test"),
    Situation(
        "an attempt was made", _all(_plan("Test", 0, 1, test=True), _on("attempt", "Test", 100, made=True)), "set", SQUAT
    ),
    Situation(
        "two attempts were missed", _all(_plan("Test", 0, 1, test=True), _on("attempt", "Test", 110, made=False),
        _on("attempt", "Test", 110, made=False)), "set", SQUAT, "Test",
    ),
    Situation(
        "the test is ended", _all(_plan("Test", 0, 1, test=True), _on("attempt", "Test", 100, made=True),
        _on("end_test", "Test")), "rating", "Test",
    ),
    Situation(
        "the test is ended and a piece follows", _all(_plan("Test", 0, 1, test=True, pieces=("Quay",)),
        _on("attempt", "Test", 100, made=True), _on("end_test", "Test")), "piece", "Quay", "Test",
    ),
    Situation(
        "all of today in pounds", _all(NOW, lambda gym: unit_today.say(gym.log, gym.who, "lb", gym.day)), "set", SQUAT, "Now"
    ),
    Situation("elsewhere for today, with nothing there", _all(NOW, _elsewhere), "set", SQUAT, "Now"),
    Situation(
        "the clock of its sets was started", _all(NOW, lambda gym: on_clock.start(
        gym.log, gym.who, gym.step("Now").id, gym.lifts[SQUAT].id, gym.day), _do("Now", 1)), "set", SQUAT, "Now",
    ),
    Situation(
        "dumbbells where no place is known", _plan("Now", lifts=(PRESS,)), "set", PRESS, "Now"
    ),
]  # fmt: skip
