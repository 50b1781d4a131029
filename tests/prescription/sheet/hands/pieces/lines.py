"""Pieces that stand on one line alone: intervals of one machine, most calories in a time, a distance for time."""

from __future__ import annotations

from typing import Any

from tests.prescription.sheet.hands.pieces.hand import Hand
from tests.prescription.sheet.hands.pieces.heads import clock
from tests.prescription.sheet.hands.pieces.names import right

ENGINES = {
    "row": ("row", "Row", "rowing", "row erg"),
    "run": ("run", "Run", "running"),
    "ski": ("ski", "Ski", "ski erg"),
}


def intervals(hand: Hand) -> tuple[str, dict[str, Any]]:
    name = hand.any(tuple(ENGINES))
    typed = hand.any(ENGINES[name])
    times, metres = hand.any((3, 4, 5, 6, 8, 10)), hand.any((200, 250, 300, 400, 500, 800, 1000))
    far = hand.pick("interval distance", ("{m}m", "{m} m", "{m}", "{m}m", "{m}mtr", "{m} metres"))
    if metres == 1000 and hand.rng.random() < 0.6:
        far = hand.pick("interval distance", ("1k", "1km", "1 km"))
    rest = hand.any((60, 90, 120, 180))
    spoken = {
        60: ("60s", "1 min", "1'", "1:00", "60 sec"),
        90: ("90s", "1:30", "90 sec", "1:30 min", "1'30", '90"'),
        120: ("2 min", "2:00", "2'", "2min", "120s"),
        180: ("3 min", "3:00", "3'", "180s"),
    }[rest]
    long = hand.any(spoken)
    how = hand.pick(
        "interval rest",
        (
            "rest {r}",
            ", rest {r}",
            ", {r} rest",
            "(rest {r})",
            "/ {r} rest",
            "r {r}",
            "r={r}",
            "R{r}",
            "w/ {r} rest",
            "- rest {r}",
            "with {r} rest",
            ", {r} rest between",
            "{r} rest",
            "rest: {r}",
            "[{r} rest]",
            "; {r} recovery",
            ", {r} easy",
            "({r} rest)",
            ", {r} off",
            "rest {r} between",
            ", {r} walk",
            ", {r} jog" if name == "run" else ", {r} rest",
            "@ {r} rest",
            "+ {r} rest",
            "on {r} rest",
            "| rest {r}",
            "r: {r}",
            "{r} between",
        ),
    )
    order = hand.pick(
        "interval order",
        (
            "{t} x {d} {n} {r}",
            "{t}x{d} {n} {r}",
            "{n} {t} x {d} {r}",
            "{n}: {t} x {d} {r}",
            "{n} {t}x{d} {r}",
            "{t} * {d} {n} {r}",
            "{t} rounds: {d} {n} {r}",
            "{t} × {d} {n} {r}",
            "{t} X {d} {n} {r}",
            "{t} x {n} {d} {r}",
            "{d} {n} x {t} {r}",
            "{t} sets of {d} {n} {r}",
            "{n} - {t} x {d} {r}",
            "{n} intervals: {t} x {d} {r}",
            "{n} intervals {t}x{d} {r}",
            "{t} times {d} {n} {r}",
        ),
    )
    sized = far.format(m=metres)
    if sized.isdigit() and ("{d} {n}" in order or "x {n}" in order or hand.rng.random() < 0.5):
        sized += "m"
    text = order.format(t=times, d=sized, n=typed, r=how.format(r=long)).replace(" ,", ",").replace(" ;", ";")
    facts: dict[str, Any] = {
        "kind": {"any": ["work and rest", "for time"]},
        "intervals": times,
        "rest": clock(rest),
        "movement": [{"name": {"any": [name, "ski erg"]} if name == "ski" else name, "first": metres, "measure": "m"}],
    }
    if "rounds:" in order or "sets of" in order:
        facts["rounds"] = facts.pop("intervals")
        del facts["rounds"]
    return text, facts


def timed(hand: Hand) -> tuple[str, dict[str, Any]]:
    """Make intervals of a time, on a machine or foot."""
    name = hand.any(("row", "run", "ski", "bike"))
    times, minutes, rest = hand.any((3, 4, 5, 6)), hand.any((2, 3, 4, 5, 8)), hand.any((1, 2, 3))
    style = hand.pick(
        "timed",
        (
            "{t} x {m} min {n}, {r} min rest",
            "{n}: {t} x {m}:00, {r}:00 rest",
            "{n} {t} x {m} min, rest {r} min",
            "{t} x {m}:00 {n} / {r}:00 easy",
            "{t} x {m} min {n} w/ {r} min walk between",
            "{t}x{m}' {n}, {r}' rest",
            "{n} {t}x{m}min (rest {r}min)",
            "{t} x {m}:00 on the {n}, {r}:00 rest",
            "{n} - {t} x {m} min hard / {r} min easy",
            "{t} x {m} min {n} with {r} min easy between",
        ),
    )
    facts = {
        "kind": "work and rest",
        "interval": clock(minutes * 60),
        "intervals": times,
        "rest": clock(rest * 60),
        "movement": [{"name": {"any": [name, "ski erg"]} if name == "ski" else name}],
    }
    return style.format(t=times, m=minutes, r=rest, n=name), facts


def most(hand: Hand) -> tuple[str, dict[str, Any]]:
    minutes = hand.any((1, 2, 3, 4, 5, 6, 8, 10))
    if hand.rng.random() < 0.5:
        name = hand.any(("row", "bike", "ski"))
        style = hand.pick(
            "most line",
            (
                "{n} min max cal {m}",
                "max cal {m} in {n} min",
                "{n}:00 max calories {m}",
                "max cals {m}, {n} min",
                "{n}' max cal {m}",
                "{n} minutes max cal {m}",
                "max calorie {m} {n} min",
                "{n} min {m} for max cals",
                "{n} min {m}, as many calories as you can",
                "how many calories can you {m} in {n} min",
                "{m} for max calories, {n} minutes",
            ),
        )
        return style.format(n=minutes, m=name), {
            "kind": {"any": ["calories", "as many as possible"]},
            "cap": clock(minutes * 60),
            "movement": [{"name": name, "measure": "cal"}],
        }
    if hand.rng.random() < 0.4:
        name = hand.any(("row", "run", "ski"))
        style = hand.pick(
            "farthest line",
            (
                "{n} min {m} for max distance",
                "{n} min {m} for max metres",
                "{n} min {m}, max meters",
                "{n}' {m} for distance",
                "{n} minutes: {m} as far as you can",
                "{m} as far as possible in {n} min",
                "max {m} metres, {n} min",
                "{n} min {m}, as many metres as possible",
                "how far can you {m} in {n} min",
                "AMRAP {n} {m} for metres",
            ),
        )
        return style.format(n=minutes, m=name), {
            "kind": "distance",
            "cap": clock(minutes * 60),
            "movement": [{"name": name, "measure": "m"}],
        }
    name, typed = hand.any(
        (
            ("burpee", "burpees"),
            ("double under", "double unders"),
            ("push-up", "push-ups"),
            ("wall ball", "wall balls"),
            ("air squat", "air squats"),
            ("sit-up", "sit-ups"),
        )
    )
    style = hand.pick(
        "most line",
        (
            "{n} min max {m}",
            "max {m} in {n} min",
            "{n}:00 max rep {m}",
            "max {m}, {n} min",
            "{n}' max {m}",
            "max reps {m} in {n}:00",
            "as many {m} as possible in {n} min",
            "{n} minutes of {m}, score = total",
            "{n} min AMRAP {m}",
            "{n} min max effort {m}",
        ),
    )
    return style.format(n=minutes, m=typed), {
        "kind": "as many as possible",
        "cap": clock(minutes * 60),
        "movement": [{"name": name}],
    }


def distance(hand: Hand) -> tuple[str, dict[str, Any]]:
    name = hand.any(("row", "run", "ski"))
    metres = hand.any((500, 1000, 2000, 5000, 1600, 3000, 10000))
    far = hand.pick("far", ("{m}m", "{m} m", "{k}k", "{k}km", "{k} km")) if metres % 1000 == 0 else f"{metres}m"
    said = far.format(m=metres, k=metres // 1000)
    style = hand.pick(
        "for time line",
        (
            "{d} {n} for time",
            "For time: {d} {n}",
            "{n} {d} for time",
            "{d} {n} time trial",
            "test: {d} {n}",
            "TEST {d} {n}",
            "{d} {n} - for time",
            "{d} {n} TT",
            "{n} {d} time trial",
            "{d} {n} test",
            "max effort {d} {n}",
            "{n} test {d}",
        ),
    )
    return style.format(d=said, n=name), {
        "kind": "for time",
        "movement": [{"name": name, "first": metres, "measure": "m"}],
    }


def single(hand: Hand) -> tuple[str, dict[str, Any]]:
    count, (name, typed) = (
        hand.any((50, 60, 75, 100, 150)),
        hand.any(
            (
                ("burpee", "burpees"),
                ("wall ball", "wall balls"),
                ("double under", "double unders"),
                ("sit-up", "sit-ups"),
                ("pull-up", "pull-ups"),
            )
        ),
    )
    style = hand.pick(
        "single line",
        (
            "{c} {m} for time",
            "For time: {c} {m}",
            "{c} {m}, for time",
            "{c} {m} FT",
            "for time {c} {m}",
            "{c} {m} as fast as possible",
        ),
    )
    return style.format(c=count, m=typed), {
        "kind": "for time",
        "movement": [
            {"name": name if name != "wall ball" else {"any": ["wall ball", "wall ball shot"]}, "first": count}
        ],
    }


def easy(hand: Hand) -> tuple[str, dict[str, Any]]:
    """A distance or a time at an easy pace, under a heading that says what it is of, or with its name."""
    heading, name = hand.any(
        (("Long run", "run"), ("Run club", "run"), ("Track", "run"), ("Erg", "row"), ("Bike erg", "bike"))
    )
    pace = hand.pick("easy pace", ("easy", "steady", "zone 2", "nice and easy", "Z2", "easy pace", "at easy pace"))
    if hand.chance("easy by time", 0.5):
        minutes = hand.any((15, 20, 30, 40, 45, 60, 75, 90))
        much = hand.pick("easy time", ("{n} min", "{n}min", "{n} minutes", "{n}'", "{n} mins")).format(n=minutes)
        facts: dict[str, Any] = {
            "kind": "unscored",
            "cap": clock(minutes * 60) if minutes < 60 else f"{minutes // 60}:{minutes % 60:02d}:00",
        }
        move: dict[str, Any] = {"name": right(name)}
    else:
        number = hand.any((3, 5, 6, 8, 10, 12, 16))
        much = hand.pick("easy distance", ("{n} km", "{n}km", "{n}k")).format(n=number)
        facts, move = {"kind": "unscored"}, {"name": right(name), "first": number * 1000, "measure": "m"}
    where = hand.pick("easy layout", ("heading", "name behind", "name before"))
    if where == "heading":
        text = f"{heading}\n{much} {pace}"
    elif where == "name behind":
        text = f"{much} {pace} {name}"
    else:
        text = f"{name} {much} {pace}"
    return text, facts | {"movement": [move]}


def headed_intervals(hand: Hand) -> tuple[str, dict[str, Any]]:
    """Distances with a rest, of what the heading says."""
    heading, name = hand.any(
        (
            ("Track", "run"),
            ("Erg", "row"),
            ("Running", "run"),
            ("Rower", "row"),
            ("Ski erg", "ski"),
            ("Tuesday track", "run"),
            ("Run club", "run"),
        )
    )
    times, metres = hand.any((3, 4, 5, 6, 8, 10)), hand.any((200, 300, 400, 500, 600, 800, 1000, 1200))
    rest = hand.any((60, 90, 120, 180))
    said = {
        60: ("60s", "1 min", "1'"),
        90: ("90s", "1:30", "90 sec"),
        120: ("2 min", "2:00", "2'"),
        180: ("3 min", "3'", "3:00"),
    }[rest]
    form = hand.pick(
        "headed interval",
        ("{h}\n{n} x {m}m, {r} rest", "{h}: {n} x {m} m, rest {r}", "{h}\n\n{n}x{m}m, {r} off", "{h} - {n} x {m}m w/ {r} rest", "{h}\n{n} x {m} m ({r} rest)", "{h}\n{n} x {m}m, {r} rest, 5k pace",
         "{h}\n- {n} x {m}m, rest {r}, write down your slowest", "{h}\n{n} × {m} m / {r} rest"),
    )  # fmt: skip
    text = form.format(h=heading, n=times, m=metres, r=hand.any(said))
    return text, {
        "kind": "work and rest",
        "intervals": times,
        "rest": clock(rest),
        "movement": [{"name": right(name), "first": metres, "measure": "m"}],
    }


def bare_time(hand: Hand) -> tuple[str, dict[str, Any]]:
    """A time alone above movements, at a pace that nobody scores."""
    minutes = hand.any((6, 8, 10, 12, 15, 20))
    head = hand.pick(
        "bare time",
        ("{n} minutes at an easy pace:", "Finisher ({n} min, no score)", "{n} min, steady, no score:", "To finish, {n} minutes at a pace where you can talk:", "{n} min easy flow", "Conditioning, {n} minutes at talking pace:",
         "{n} min relaxed, not scored"),
    ).format(n=minutes)  # fmt: skip
    moves = [
        ("10 air squats", {"name": right("air squat"), "first": 10}),
        ("8 ring rows", {"name": "ring row", "first": 8}),
        ("200 m run", {"name": "run", "first": 200, "measure": "m"}),
        ("12 sit-ups", {"name": "sit-up", "first": 12}),
    ]
    hand.rng.shuffle(moves)
    kept = moves[: hand.any((2, 3))]
    return "\n".join([head, *(text for text, _ in kept)]), {
        "kind": "unscored",
        "cap": clock(minutes * 60),
        "movement": [gold for _, gold in kept],
    }
