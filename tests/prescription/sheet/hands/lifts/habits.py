"""Habits that decide a whole sheet: the day in the first words, what is held in the hand, openers, holds, the unit said last, sets in a row's short form."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.prescription.sheet.hands.lifts.hand import Hand
from tests.prescription.sheet.hands.lifts.layout import DAYS

Told = tuple[list[str], list[dict[str, Any]], str | None]
_LIFTS = {
    "back squat": ("back squat", "Back Squat", "BS"), "front squat": ("front squat", "FS", "Front squat"), "deadlift": ("deadlift", "DL", "Deadlift"),
    "bench press": ("bench", "Bench press", "bench press", "BP"), "push press": ("push press", "Push press"), "strict press": ("strict press", "Strict press"),
}  # fmt: skip


def _lift(hand: Hand) -> tuple[str, str]:
    name = hand.random.choice(tuple(_LIFTS))
    return name, hand.one(*_LIFTS[name])


def _gold(name: Any, sets: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    return {"kind": "lift", "lift": name, "sets": sets, **more}


def unit_last(hand: Hand) -> Told:
    """Loads before repetitions, with the unit behind the last of them alone."""
    name, typed = _lift(hand)
    unit = hand.way("habit: unit", "lb", "lb", "kg")
    first, step = (135, 50) if unit == "lb" else (60, 20)
    count = hand.random.choice((3, 4, 5))
    loads = [first + step * min(place, 3) for place in range(count)]
    reps = [5 if place < 2 else 3 for place in range(count)]
    cross = hand.way("habit: cross", "x", "X", " x ", "×")
    said = {"lb": ("lb", "LBS", " lbs", " lb"), "kg": ("kg", " kg", "KG", " kilos")}[unit]
    row = hand.way("habit: between", ", ", " / ", "; ", " - ").join(
        f"{load}{cross}{rep}" for load, rep in zip(loads, reps, strict=True)
    )
    line = f"{typed}{hand.way('habit: then', ' ', ': ', ' - ')}{row}{hand.one(*said)}"
    if hand.way("habit: letters", "as is", "UPPER") == "UPPER":
        line = line.upper()
    tail = hand.way("habit: tail", "", " (scale to you)", ", rest 3 min")
    sets = [{"sets": 1, "reps": rep, "load": str(load), "unit": unit} for load, rep in zip(loads, reps, strict=True)]
    return [line + tail], [_gold(name, sets)], None


def complex_up(hand: Hand) -> Told:
    """A complex once, built up to its heaviest."""
    names = hand.one(
        ("clean", "front squat", "jerk"),
        ("power clean", "hang clean", "push jerk"),
        ("power snatch", "hang snatch", "overhead squat"),
    )
    head = " + ".join(names)
    up = hand.way(
        "habit: build", "build to a heavy one", "build to heavy", "work up to a heavy set", "build to a heavy complex for the day", "build to today's heavy",
        "climb to a heavy one", "up to a heavy one for today", "build up to a heavy",
    )  # fmt: skip
    form = hand.way("habit: complex", "{h}, 1+1+1, {u}", "{h} (1+1+1): {u}", "1+1+1 {h}, {u}", "{h} 1+1+1 - {u}")
    return (
        [form.format(h=head.capitalize() if form[0] == "{" else head, u=up)],
        [_gold(head, [{"find": "heavy 1"}])],
        None,
    )


def opener(hand: Hand) -> Told:
    """A single on the way to a meet, then sets below it."""
    name, typed = _lift(hand)
    high = hand.random.choice((90, 92, 93))
    reps, sets, low = hand.random.choice((2, 3)), hand.random.choice((2, 3)), hand.random.choice((78, 80, 82))
    ranged = hand.way("habit: around", "91-92%", "92%", "92%") == "91-92%"
    load = f"{high - 1}-{high}%" if ranged else f"{high}%"
    form = hand.way(
        "habit: opener", "{x}: work up to opener single (around {p}), then {s}x{r} @ {l}%", "{x}: up to your opener ({p}), then {s}x{r} @ {l}%",
        "{x}: work up to a single at {p}, then {s}x{r} at {l}%", "{x} build to opener @ {p} then {s}x{r} @ {l}%", "{x}: opener single @ {p}, {s}x{r} {l}%",
        "{x} work up to 1 @ {p}, then {s} x {r} @ {l}%", "{x}: build to a single @ {p}, back off {s}x{r} @ {l}%",
    )  # fmt: skip
    gold = [
        {"sets": 1, "reps": 1, "percent": [high - 1, high] if ranged else high},
        {"sets": sets, "reps": reps, "percent": low},
    ]
    return [form.format(x=typed, p=load, s=sets, r=reps, l=low)], [_gold(name, gold)], None


def held_in_hand(hand: Hand) -> Told:
    """What a lift is done with, said behind its sets."""
    name, typed = hand.one(
        ("split squat", "split squats"), ("lunge", "lunges"), ("walking lunge", "walking lunges"), ("reverse lunge", "reverse lunges"), ("bulgarian split squat", "bulgarian split squats"),
        ("step up", "step-ups"),
    )  # fmt: skip
    with_what, implement = hand.one(
        ("dumbbells 15 kg", "dumbbells"), ("DBs", "dumbbells"), ("w db's", "dumbbells"), ("w/ dumbbells", "dumbbells"), ("with dumbbells", "dumbbells"),
        ("with two 16 kg KBs", "kettlebells"), ("w two 16kg kbs", "kettlebells"), ("holding dumbbells", "dumbbells"), ("2 DBs", "dumbbells"), ("with kettlebells", "kettlebells"),
        ("2x15 kg DBs", "dumbbells"), ("with a barbell", "barbell"), ("barbell", "barbell"), ("dumbbells if you can", "dumbbells"), ("with 2 dumbbells of 10 kg", "dumbbells"),
    )  # fmt: skip
    sets, reps = hand.random.choice((3, 4)), hand.random.choice((8, 10))
    side = hand.way("habit: side", " each leg", " e/s", "/leg", " per leg", "e", " each", " ea")
    form = hand.way(
        "habit: held",
        "{x} {s}x{r}{e}, {w}",
        "{x} {s}x{r}{e} {w}",
        "{s}x{r} {x}{e} {w}",
        "{s} sets {x} {r}{e} {w}",
        "{x} {w} {s}x{r}{e}",
    )
    if side == "e" and "{r}{e}" not in form:
        side = " e/s"
    if form.startswith("{x} {w}"):
        with_what = with_what.rstrip(",")
    line = form.format(x=typed, s=sets, r=reps, e=side, w=with_what)
    return (
        [line],
        [
            _gold(
                {"any": [name, f"dumbbell {name}", f"kettlebell {name}", f"barbell {name}"]},
                [{"sets": sets, "reps": reps}],
                implement=implement,
                each_side=True,
            )
        ],
        None,
    )


def day_first(hand: Hand) -> Told:
    """The day somewhere in the first words."""
    day = hand.random.randrange(7)
    name = DAYS[day]
    form = hand.way(
        "habit: day", "garage crew {s} 8am", "{S} 18:30", "{D} {t}, erg room then gym", "Masters 50+ · {D} 10:00", "hi team, {d} session", "garage, {d} 8:30, coffee after",
        "HYPE HOUR {s} 8:30", "{D} {t}", "ok {d}:", "plan for {d}", "here is {d}", "{D} club session", "hey all, for {d} we do this", "Team training {D}", "{S} - {t}", "{d}'s session",
    )  # fmt: skip
    head = form.format(
        d=name,
        D=name.capitalize(),
        s=name[:3],
        S=name[:3].capitalize(),
        t=hand.one("evening", "class", "lifting", "6pm"),
    )
    lift, typed = _lift(hand)
    sets, reps = hand.random.choice((3, 4, 5)), hand.random.choice((3, 5))
    body = f"{typed} {sets}x{reps} @ 70%"
    lines = (
        [head, *([""] if hand.perhaps(0.5) else []), body]
        if hand.way("habit: day's line", "own", "own", "own", "same") == "own"
        or head.endswith(("after", "this", "8am"))
        else [f"{head.rstrip(':')}: {body}"]
    )
    return lines, [_gold(lift, [{"sets": sets, "reps": reps, "percent": 70}])], name


def effort_for_all(hand: Hand) -> Told:
    """How hard, in words behind the sets."""
    name, typed = _lift(hand)
    sets, reps = hand.random.choice((3, 4, 5)), hand.random.choice((3, 5, 8))
    form, key = hand.one(
        ("should feel like a {n} out of 10", "rpe"), ("It should feel like a {n} out of 10.", "rpe"), ("target RPE {n}", "rpe"), ("effort {n}/10", "rpe"), ("RPE {n}, no more", "rpe"),
        ("leave {m} in the tank", "in_reserve"), ("keep {m} reps in reserve", "in_reserve"), ("stop {m} reps before failure", "in_reserve"), ("stop {m} short of failure", "in_reserve"),
    )  # fmt: skip
    n, m = hand.random.choice((6, 7, 8)), hand.random.choice((1, 2, 3))
    said = form.format(n=n, m=m)
    line = f"{typed} {sets}x{reps}"
    lines = (
        [line, said]
        if hand.way("habit: effort", "below", "beside") == "below"
        else [f"{line}. {said[:1].upper()}{said[1:]}"]
    )
    return lines, [_gold(name, [{"sets": sets, "reps": reps, key: n if key == "rpe" else m}])], None


def in_a_table(hand: Hand) -> Told:
    """A table whose first title is the day, or nothing."""
    day = hand.random.randrange(7)
    corner = hand.way("habit: corner", "Wed", "Wednesday", "Lift", "", "WED")
    head = {"Wed": DAYS[day][:3].capitalize(), "Wednesday": DAYS[day].capitalize(), "WED": DAYS[day][:3].upper()}.get(
        corner, corner
    )
    names = hand.random.sample(tuple(_LIFTS), 3)
    rows = [
        (
            hand.one(*_LIFTS[each]),
            hand.random.choice((3, 4, 5)),
            hand.random.choice((2, 3, 5)),
            hand.random.choice((70, 75, 80)),
        )
        for each in names
    ]
    sign = {"tab": "\t", "pipe": " | ", "spaces": "    "}[hand.way("habit: columns", "tab", "pipe", "spaces")]
    lines = [sign.join((head or "", "Sets", "Reps", "%")), *(sign.join(map(str, row)) for row in rows)]
    if sign == "    ":
        lines = [f"{a:<16}{b:<8}{c:<8}{d}" for a, b, c, d in [(head, "Sets", "Reps", "%"), *rows]]
    if sign == " | " and not head:
        lines[0] = "Lift | Sets | Reps | %"
    items = [
        _gold(name, [{"sets": s, "reps": r, "percent": p}]) for name, (_, s, r, p) in zip(names, rows, strict=True)
    ]
    return lines, items, DAYS[day] if corner in ("Wed", "Wednesday", "WED") else None


def in_turn_on_a_line(hand: Hand) -> Told:
    """Two lifts in turn, told once how many sets."""
    sets = hand.random.choice((3, 4))
    one, two = hand.random.choice((8, 10, 12)), hand.random.choice((8, 10, 12))
    form = hand.way(
        "habit: superset", "Superset {n} rounds: DB incline {a} / ring row {b}", "Superset {n} rounds: {a} DB incline press / {b} ring rows", "A1/A2 {n} sets: DB incline press x {a} / ring row x {b}",
        "Superset x{n}: DB incline press {a} + ring row {b}", "SS {n} sets: DB incline {a}, ring row {b}", "Superset {n}x: {a} DB incline press + {b} ring rows", "{n} supersets: {a} DB incline press, {b} ring rows",
    )  # fmt: skip
    incline = {
        "any": [
            "incline dumbbell press",
            "dumbbell incline press",
            "incline dumbbell bench press",
            "dumbbell incline bench press",
            "incline press",
            "incline bench press",
        ]
    }
    return (
        [form.format(n=sets, a=one, b=two)],
        [
            _gold(incline, [{"sets": sets, "reps": one}], implement="dumbbells"),
            _gold("ring row", [{"sets": sets, "reps": two}], superset=True),
        ],
        None,
    )


def hold(hand: Hand) -> Told:
    """A position that is held for a time: rounds of seconds, without a load."""
    name, typed = hand.one(
        ("side plank", "side plank"), ("plank", "Plank"), ("handstand hold", "handstand hold"), ("hollow hold", "hollow hold"), ("l-sit", "L-sit"), ("dead hang", "dead hang"),
        ("wall sit", "wall sit"), ("copenhagen plank", "Copenhagen plank"),
    )  # fmt: skip
    sets, held = hand.random.choice((3, 4)), hand.random.choice((20, 30, 40))
    form = hand.way(
        "habit: hold",
        "{x} {s}x{t}s",
        "{x}: {s} x {t} sec",
        '{s} x {t}" {x}',
        "{s}x{t}s {x}",
        "{x} {s} x {t} sec, rest 60 s",
        "{x}, {s} sets of {t} seconds",
        "{s} sets {t}s {x}",
    )
    lift, lifted = _lift(hand)
    line = form.format(x=typed, s=sets, t=held)
    items = [
        _gold(lift, [{"sets": 5, "reps": 5, "percent": 70}]),
        {
            "kind": "piece",
            "piece": {"kind": "unscored", "rounds": sets, "movement": [{"name": name, "first": held, "measure": "s"}]},
        },
    ]
    return [f"{lifted} 5x5 @ 70%", line], items, None


def complex_on_a_clock(hand: Hand) -> Told:
    """A complex on a clock whose loads are told one by one."""
    one, two = hand.one(("power snatch", "hang snatch"), ("power clean", "push jerk"), ("clean pull", "clean"))
    loads = [65, 65, 70, 70, 75, 75]
    form = hand.way(
        "habit: clock", "Every 90 sec for 9 min: 1 {x} + 1 {y}, sets 1-2 @ 65%, 3-4 @ 70%, 5-6 @ 75%", "E2MOM x 6: {x} + {y} @ 65/65/70/70/75/75%", "Every 2:00 x 6: 1 {x} + 1 {y} @ 65, 65, 70, 70, 75, 75%",
        "{x} + {y}, 6 sets, sets 1-2 @ 65%, sets 3-4 @ 70%, sets 5-6 @ 75%",
    )  # fmt: skip
    sets = [{"sets": 1, "reps": [1, 1], "percent": load} for load in loads]
    if form.startswith("{x}"):
        form = form.replace("{x} + {y}", "1 {x} + 1 {y}")
    return [form.format(x=one, y=two)], [_gold(f"{one} + {two}", sets)], None


def each_its_load(hand: Hand) -> Told:
    """Sets told one by one, with how many there are before them and an open one at the end."""
    name, typed = _lift(hand)
    reps, loads = [8, 6, 4], [60, 70, 80]
    sign = hand.way("habit: load", "%", "kg")
    row = ", ".join(f"{rep} @ {load}{sign}" for rep, load in zip(reps, loads, strict=True))
    last = hand.way(
        "habit: open set", "AMRAP @ {l}", "last set: AMRAP @ {l}", "max reps @ {l}", "last set AMRAP @ {l}", ""
    ).format(l=f"65{sign}")
    count = len(reps) + bool(last)
    head = hand.way(
        "habit: counted", "{x}: ", "{x} {n} sets: ", "{x} - {n} sets: ", "{x}, ", "{x} ({n} sets): "
    ).format(x=typed, n=count)
    key = {"%": lambda load: {"percent": load}, "kg": lambda load: {"load": str(load), "unit": "kg"}}[sign]
    sets = [{"sets": 1, "reps": rep, **key(load)} for rep, load in zip(reps, loads, strict=True)]
    if last:
        sets.append({"sets": 1, "or_more": True, **key(65)})
    return [head + row + (f", {last}" if last else "")], [_gold(name, sets)], None


def counts_in_brackets(hand: Hand) -> Told:
    """A tempo in brackets, which is no row of sets."""
    name, typed = _lift(hand)
    tempo = hand.one("3-1-1-0", "4-0-1-0", "2-0-X-1", "3-0-1-1", "5-1-1-0")
    form = hand.way(
        "habit: tempo",
        "Tempo {x} ({t}) {s}x{r} @ 65%",
        "{x} ({t}) {s}x{r} @ 65%",
        "{x} {s}x{r} ({t}) @ 65%",
        "{x} {s}x{r} @ 65% ({t})",
        "{x} {s}x{r} @ 65%, tempo {t}",
    )
    sets, reps = hand.random.choice((3, 4)), hand.random.choice((4, 5))
    return (
        [form.format(x=typed, t=tempo, s=sets, r=reps)],
        [_gold({"any": [name, f"tempo {name}"]}, [{"sets": sets, "reps": reps, "percent": 65}], tempo=tempo)],
        None,
    )


def bare_columns(hand: Hand) -> Told:
    """Rows of a table without titles, the rest in the last of them."""
    names = hand.random.sample(tuple(_LIFTS), 3)
    rows, items = [], []
    for name in names:
        sets, reps, load, rest = (
            hand.random.choice((3, 4, 5)),
            hand.random.choice((3, 5)),
            hand.random.choice((70, 75)),
            hand.random.choice((2, 3)),
        )
        length = hand.way("habit: length", "{m}:00", "{m} min", "rest {m} min", "rest {m}'").format(m=rest)
        rows.append(f"{hand.one(*_LIFTS[name])} | {sets} x {reps} | {load}% | {length}")
        items.append(_gold(name, [{"sets": sets, "reps": reps, "percent": load}], rest_s=60 * rest))
    return rows, items, None


KINDS: dict[str, Callable[[Hand], Told]] = {
    each.__name__.replace("_", " "): each
    for each in (unit_last, complex_up, opener, held_in_hand, day_first, effort_for_all, in_a_table, in_turn_on_a_line, hold, complex_on_a_clock, each_its_load, counts_in_brackets, bare_columns)
}  # fmt: skip


def a_text(hand: Hand) -> tuple[str, dict[str, Any]]:
    """A text that hangs on one habit, with its facts."""
    kind = hand.way("habit", *KINDS)
    lines, items, day = KINDS[kind](hand)
    before = ["Strength"] if day is None and hand.perhaps(0.2) else []
    after = ["", hand.one("see you there", "log it all pls", "Have fun")] if hand.perhaps(0.3) else []
    return "\n".join([*before, *lines, *after]) + "\n", {"sessions": [{"day": day, "items": items}], "asks": []}
