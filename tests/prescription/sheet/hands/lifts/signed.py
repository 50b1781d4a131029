"""Hands in which a sign or a short word means something else than elsewhere: strokes, numbered sets, shares, days by letters."""

from __future__ import annotations

from typing import Any

from tests.prescription.sheet.hands.lifts.hand import Hand

Told = tuple[list[str], list[dict[str, Any]]]
_PAIRS = (("Clean", "jerk", "clean + jerk"), ("Power clean", "push jerk", "power clean + push jerk"), ("Power snatch", "snatch", "power snatch + snatch"))  # fmt: skip
_LIFTS = {"Back squat": "back squat", "front squat": "front squat", "Deadlift": "deadlift", "bench press": "bench press", "Snatch": "snatch", "power clean": "power clean"}  # fmt: skip
_UNKNOWN = {"Seated calf": "seated calf", "hamstring slider": "hamstring slider", "Half-kneel landmine": {"any": ["half kneeling landmine", "half-kneel landmine"]}}  # fmt: skip


def _lift(name: Any, sets: list[dict[str, Any]]) -> dict[str, Any]:
    if name == "clean + jerk":
        name = {"any": [name, "clean and jerk"]}
    return {"kind": "lift", "lift": name, "sets": sets}


def _name(hand: Hand) -> tuple[str, str]:
    typed = hand.random.choice(tuple(_LIFTS))
    return typed, _LIFTS[typed]


def _row(hand: Hand, count: int) -> list[int]:
    first = hand.random.choice((55, 60, 65, 70))
    return [first + 5 * place for place in range(count)]


def strokes(hand: Hand) -> Told:
    """A share, repetitions and sets parted by strokes; also of a complex."""
    loads = _row(hand, 3)
    if hand.perhaps(0.5):
        one, two, name = hand.random.choice(_PAIRS)
        sets = [hand.random.choice((2, 3, 4)) for _ in loads]
        form, sign = hand.way("signed: complex", "{p}%/1+1 x{s}", "{p} %/1+1/{s}"), hand.one(", ", " ", "  ")
        if form.startswith("{p} ") and sign == "  ":
            sign = " "
        row = sign.join(form.format(p=load, s=count) for load, count in zip(loads, sets, strict=True))
        facts = [{"sets": count, "reps": [1, 1], "percent": load} for load, count in zip(loads, sets, strict=True)]
        return [f"{one} + {two}  {row}"], [_lift(name, facts)]
    typed, name = _name(hand)
    reps = hand.random.choice((2, 3, 4))
    row = hand.one(" ", "  ").join([*(f"{load} %/{reps}" for load in loads[:-1]), f"{loads[-1]} %/{reps}/3"])
    facts = [{"sets": 1, "reps": reps, "percent": load} for load in loads[:-1]]
    return [f"{typed} {row}"], [_lift(name, [*facts, {"sets": 3, "reps": reps, "percent": loads[-1]}])]


def numbered(hand: Hand) -> Told:
    """Sets told by their numbers below a lift on a clock, on a line or in a table."""
    typed, name = _name(hand)
    loads, reps = _row(hand, 3), hand.random.choice((1, 2, 3))
    facts = [{"sets": count, "reps": reps, "percent": load} for count, load in zip((2, 3, 3), loads, strict=True)]
    if hand.way("signed: numbered", "line", "table") == "line":
        at = hand.one(" @ ", " at ", ": ")
        row = ", ".join(f"{span}{at}{load} %" for span, load in zip(("1-2", "3-5", "6-8"), loads, strict=True))
        return [f'every 90" x 8 sets: {reps} {typed.lower()}', row], [_lift(name, facts)]
    rows = [f"| {span} | {reps} | {load} |" for span, load in zip(("1-2", "3-5", "6-8"), loads, strict=True)]
    head = ["", "| Sets | Reps | % |", "|---|---|---|"]
    return [f'{typed}, every 90" x 8', *head, *rows], [_lift(name, facts)]


def less(hand: Hand) -> Told:
    """So much less than the day's heavy set, in several signs, then sets of one or two by their name."""
    typed, name = _name(hand)
    drop = hand.random.choice((10, 12, 15))
    word, reps = hand.random.choice((("singles", 1), ("doubles", 2), ("triples", 3)))
    form = hand.way("signed: less", "-{d}% x 2 {w}", "minus {d}% → 2 x {r}", "-{d}% 2x{r}", "then -{d}% for 2x{r}")
    below = form.format(d=drop, w=word, r=reps)
    facts = [{"find": "heavy 1", "reps": 1}, {"sets": 2, "reps": reps, "percent": 100 - drop}]
    return [f"{typed}: work up to a heavy single", below], [_lift(name, facts)]


def unknown_below(hand: Hand) -> Told:
    """A movement without a known name below a lift keeps its own sets; what others do adds none."""
    typed, name = _name(hand)
    load = hand.random.choice((70, 75, 80))
    lines, items = [f"{typed} 5x3 @ {load} %"], [_lift(name, [{"sets": 5, "reps": 3, "percent": load}])]
    if hand.perhaps(0.5):
        other = hand.random.choice(tuple(_UNKNOWN))
        lines.append(other + hand.way("signed: unknown", " 3x15", ": 3 x 15", "      3x15", ", 3 x 15"))
        items.append(_lift(_UNKNOWN[other], [{"sets": 3, "reps": 15}]))
    else:
        lines.append(
            hand.way("signed: others", "Juniors: stop at 70% and do 3 more sets there", "NEXT: 90 3x4 if sleep > 7", "Abs: pick one, 3 sets", "Post your top single in the thread")
        )  # fmt: skip
    return lines, items


def put_right(hand: Hand) -> Told:
    """What is put right below or within the line."""
    typed, name = _name(hand)
    load = hand.random.choice((70, 75, 80))
    way = hand.way("signed: put right", "below", "percent", "in place")
    if way == "below":
        lines = [f"{typed} 5x5 @ {load} %", hand.one("sorry, 3x5 not 5x5", "edit: 3x5 not 5x5", "correction: 3 x 5, not 5 x 5")]  # fmt: skip
    elif way == "percent":
        lines = [f"{typed} 3x5 at {load + 5} % {hand.one('no sorry', 'sorry', 'no wait', 'i mean')} {load} %"]
    else:
        lines = [f"{typed} 5x3. {hand.one('Actually no', 'No wait')}, you are tired, make it 3x5 at {load} %"]
    return lines, [_lift(name, [{"sets": 3, "reps": 5, "percent": load}])]


_WAYS = (strokes, strokes, numbered, less, unknown_below, put_right)


def a_text(hand: Hand) -> tuple[str, dict[str, Any]]:
    """One text of such a hand, with its facts."""
    way = hand.random.choice(_WAYS)
    hand.chosen.add(("signed", way.__name__))
    lines, items = way(hand)
    head = hand.way("signed: head", "", "", "Tuesday", "Thurs:")
    day = {"Tuesday": "tuesday", "Thurs:": "thursday"}.get(head)
    lines = [*([head] if head else []), *lines]
    return "\n".join(lines) + "\n", {"sessions": [{"day": day, "items": items}], "asks": []}
