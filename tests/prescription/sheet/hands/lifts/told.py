"""How sets are told in parts: by minute or number, one after the other, put right, dropped, for groups, on one line with a piece."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.prescription.sheet.hands.lifts.hand import Hand

_LIFTS = {"back squat": ("back squat", "Back Squat", "BS", "BACK SQUAT"), "front squat": ("front squat", "FS", "Front Squat"), "deadlift": ("deadlift", "DL", "Deadlift"), "bench press": ("bench", "bench press", "Bench"),
          "push press": ("push press", "Push Press", "PP"), "snatch": ("snatch", "Snatch"), "power clean": ("power clean", "PC", "Power clean"), "overhead squat": ("OHS", "overhead squat")}  # fmt: skip
_OTHERS = {"bulgarian split squat": ("bulgarian split squats", "Bulgarian split squats"), "ring row": ("ring rows", "Ring rows"), "dip": ("dips",), "face pull": ("face pulls", "Face pulls"),
           "push-up": ("push-ups", "push ups"), "hammer curl": ("hammer curls",), "pull-up": ("pull-ups", "pullups"), "v-up": ("v-ups", "V-ups")}  # fmt: skip
_WORDS = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}
_IF = (
    "only if the ones before were clean",
    "but only if it moves well",
    "if it feels good",
    "only if nobody grinds",
    "unless your back says no",
)
Told = tuple[list[str], list[dict[str, Any]]]


def _lift(hand: Hand) -> tuple[str, str]:
    name = hand.random.choice(tuple(_LIFTS))
    return name, hand.one(*_LIFTS[name])


def _rising(hand: Hand, count: int) -> list[int]:
    first = hand.random.choice((60, 65, 70))
    return [first + 5 * place for place in range(count)]


def _gold(name: str, sets: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    return {"kind": "lift", "lift": {"any": [name, f"strict {name}"]}, "sets": sets, **more}


def _of(hand: Hand) -> str:
    return hand.way("told: of", " (% of 1RM)", " of 1RM", " of your 1RM", " 1RM")


def by_minute(hand: Hand) -> Told:
    """A lift on a clock, whose sets are told by their minutes or numbers below it."""
    name, typed = _lift(hand)
    each = hand.random.choice((2, 3))
    loads = _rising(hand, 3)
    reps = [hand.random.choice((1, 2, 3)) for _ in loads]
    total = each * len(loads)
    head = hand.way(
        "told: clock",
        "{x}: EMOM {n}",
        "{x} EMOM {n}",
        "{x}, every 2:00 for {n} sets",
        "{x} - every 90s x {n}",
        "{x}, every minute for {n} min",
    )
    lines = [head.format(x=typed, n=total)]
    mark = hand.way("told: minutes", "{a}-{b}: ", "min {a}-{b}: ", "Sets {a}-{b}: ", "minutes {a}-{b}: ", "{a}-{b}) ")
    for place, (load, rep) in enumerate(zip(loads, reps, strict=True)):
        form = hand.way(
            "told: in a minute",
            "{r} @ {p}%",
            "{r} reps @ {p}%",
            "{r} at {p}%",
            "{r} rep @ {p}%" if rep == 1 else "{r} reps at {p} %",
        )
        lines.append(mark.format(a=place * each + 1, b=(place + 1) * each) + form.format(r=rep, p=load))
    if hand.perhaps(0.4):
        lines[-1] += ", " + hand.way("told: if", *_IF)
    sets = [{"sets": each, "reps": rep, "percent": load} for load, rep in zip(loads, reps, strict=True)]
    return lines, [_gold(name, sets)]


def one_by_one(hand: Hand) -> Told:
    """Sets that are told one after the other: the first two, the next two, the last two."""
    name, typed = _lift(hand)
    each = hand.random.choice((1, 2, 2, 3))
    loads, reps = _rising(hand, 3), hand.random.choice((2, 3, 4, 5))
    total = each * 3
    count = (lambda n: _WORDS[n]) if hand.way("told: counts", "words", "digits") == "words" else str
    head = hand.way(
        "told: six sets", "{n} sets. {r} reps each. ", "{n} sets of {r}. ", "{n} sets of {r}, ", "{n}x{r}: "
    )
    n = str(total) if "x" in head or total > 6 else count(total)
    turn = hand.way(
        "told: in turn",
        "first {e} at {a}%, next {e} at {b}%, last {e} at {c}%",
        "First {e} @ {a}%, next {e} @ {b}%, last {e} @ {c}%",
        "the first {e} at {a}%, then {e} at {b}%, last {e} at {c}%",
    )
    text = head.format(n=n, r=reps) + turn.format(e=count(each), a=loads[0], b=loads[1], c=loads[2])
    text = text[:1].upper() + text[1:] if ". " in head else text
    lines = [f"{typed}:", text] if hand.way("told: place", "below", "beside") == "below" else [f"{typed}: {text}"]
    return lines, [_gold(name, [{"sets": each, "reps": reps, "percent": load} for load in loads])]


def loads_below(hand: Hand) -> Told:
    """Repetitions set by set, and below or behind them a load for each without a sign."""
    name, typed = _lift(hand)
    reps = hand.random.choice(([5, 5, 3, 3, 1, 1], [5, 5, 5, 3, 3, 3], [3, 3, 2, 2, 1], [8, 6, 4, 2], [5, 3, 1]))
    loads = _rising(hand, len(reps))
    sign = hand.way("told: sign of loads", "/", "/", "-")
    rows = "-".join(map(str, reps)), sign.join(map(str, loads))
    lines = [typed, *rows] if hand.way("told: rows", "below", "beside") == "below" else [f"{typed} {rows[0]}", rows[1]]
    lines.append(hand.way("told: of what", "% of 1RM", "% OF 1RM", "all % of 1RM", "(% of your 1RM)"))
    return lines, [
        _gold(name, [{"sets": 1, "reps": r, "percent": p} for r, p in zip(reps, loads, strict=True)], of={"reps": 1})
    ]


def put_right(hand: Hand) -> Told:
    """Last month's sets, put right behind an arrow."""
    name, typed = _lift(hand)
    sets, reps, load = hand.random.choice((3, 4, 5)), hand.random.choice((2, 3, 4)), hand.random.choice((80, 85))
    arrow = hand.way("told: arrow", "->", "→", "=>")
    lines = [
        f"{typed} 5x5 @ 75% {arrow} {hand.way('told: now', 'now', 'make it', 'changed to')} {sets}x{reps} @ {load}%"
    ]
    more: dict[str, Any] = {}
    if hand.perhaps(0.5):
        lines.append(f"rest 2' {arrow} 3'")
        more = {"rest_s": 180}
    return lines, [_gold(name, [{"sets": sets, "reps": reps, "percent": load}], **more)]


def dropped(hand: Hand) -> Told:
    """Sets so much lighter than those above, which are percentages themselves."""
    name, typed = _lift(hand)
    sets, reps, load, less = (
        hand.random.choice((3, 4, 5)),
        hand.random.choice((3, 4, 5)),
        hand.random.choice((70, 80)),
        hand.random.choice((10, 20)),
    )
    form = hand.way(
        "told: drop",
        "then drop {d}% and do 2x{r}",
        "then take {d}% off and do two sets of {r}",
        "then -{d}% 2x{r}",
        "then take off {d}% and do 2 sets of {r}",
    )
    more = reps + 2
    text = f"{typed} {sets}x{reps} @ {load}%{_of(hand)}"
    low = form.format(d=less, r=more)
    lines = [f"{text}, {low}"] if hand.perhaps(0.5) else [text, low]
    lighter = load * (100 - less) / 100
    return lines, [
        _gold(name, [{"sets": sets, "reps": reps, "percent": load}, {"sets": 2, "reps": more, "percent": lighter}])
    ]


def last_set(hand: Hand) -> Told:
    """The last set has no end, but a cap of its own."""
    name, typed = _lift(hand)
    sets, reps, load, most = (
        hand.random.choice((3, 4, 5)),
        hand.random.choice((3, 5)),
        hand.random.choice((75, 80)),
        hand.random.choice((8, 10)),
    )
    line = hand.way(
        "told: last set",
        "last set AMRAP, cap it at {m}",
        "last set AMRAP, no more than {m}",
        "last set: AMRAP, stop at {m}",
        "last set amrap, capped at {m}",
    )
    gold = [
        {"sets": sets - 1, "reps": reps, "percent": load},
        {"sets": 1, "reps": reps, "percent": load, "or_more": True, "up_to": most},
    ]
    return [f"{typed} {sets}x{reps} @ {load}%{_of(hand)}", line.format(m=most)], [_gold(name, gold)]


def groups(hand: Hand) -> Told:
    """Two groups with sets of their own."""
    name, typed = _lift(hand)
    word = hand.way("told: group", "group", "Group", "squad")
    one, two = (hand.random.choice((3, 4)), 3, 70), (5, hand.random.choice((2, 3)), 80)
    lines = [
        f"{typed}, {word} A{hand.way('told: who', '', ' (squatted Sat)', ' (over a year)')}: {one[0]}x{one[1]} @ {one[2]}%",
        f"{word} B: {two[0]}x{two[1]} @ {two[2]}%",
    ]
    return lines, [_gold(name, [{"sets": s, "reps": r, "percent": p}]) for s, r, p in (one, two)]


def not_of(hand: Hand) -> Told:
    """What percentages are of, and what they are not of."""
    name, typed = _lift(hand)
    sets, reps, n = hand.random.choice((3, 5)), hand.random.choice((3, 5)), hand.random.choice((3, 5))
    line = hand.way(
        "told: not of",
        "Per cent of your tested {n}RM, not of your one-rep max.",
        "% of your {n}RM, not of your 1RM",
        "% of the {n}RM from September, not of your max",
    )
    return [f"{typed} {sets}x{reps} @ 80%", line.format(n=n)], [
        _gold(name, [{"sets": sets, "reps": reps, "percent": 80}], of={"reps": n})
    ]


def rounds_of_all(hand: Hand) -> Told:
    """A superset whose rounds are told once: in its heading, or before its lifts."""
    one, two = hand.random.sample(tuple(_OTHERS), 2)
    reps, rounds = [hand.random.choice((8, 10, 12)) for _ in range(2)], hand.random.choice((3, 4))
    typed = [hand.one(*_OTHERS[one]), hand.one(*_OTHERS[two])]
    if hand.way("told: superset", "inline", "below") == "inline":
        head = hand.way(
            "told: superset head",
            "Superset {n} rounds: ",
            "Accessory superset, {n} rounds: ",
            "Superset x{n}: ",
            "superset, {n} sets: ",
        )
        lines = [
            head.format(n=rounds)
            + hand.way("told: plus", " + ", " & ", " + ").join(f"{r} {x}" for r, x in zip(reps, typed, strict=True))
        ]
    else:
        head = hand.way(
            "told: superset above",
            "Superset, {n} rounds",
            "Strength B (superset, {n} rounds)",
            "Superset ({n} rounds):",
            "SUPERSET {n} ROUNDS",
        )
        mark = {"B1 ": ("B1 ", "B2 "), "B1. ": ("B1. ", "B2. "), "- ": ("- ", "- "), "none": ("", "")}[
            hand.way("told: superset mark", "B1 ", "B1. ", "- ", "none")
        ]
        form = hand.way("told: superset line", "{r} {x}", "{x}, {r} reps", "{x} {r} reps")
        lines = [head.format(n=rounds), *(mark[at] + form.format(r=reps[at], x=typed[at]) for at in (0, 1))]
    return lines, [
        _gold(x, [{"sets": rounds, "reps": r}], **({"superset": True} if at else {}))
        for at, (x, r) in enumerate(zip((one, two), reps, strict=True))
    ]


def after_each(hand: Hand) -> Told:
    """Another lift after each set of the first."""
    name, typed = _lift(hand)
    other = hand.random.choice(tuple(_OTHERS))
    sets, reps, more = hand.random.choice((3, 4, 5)), hand.random.choice((3, 5, 6)), hand.random.choice((8, 10))
    line = hand.way(
        "told: after each",
        "superset w/ {r} {x} after every set",
        "{r} {x} after each set",
        "superset with {r} {x} between sets",
        "after each set: {r} {x}",
    )
    lines = [f"{typed} {sets}x{reps} @ 70%{_of(hand)}", line.format(r=more, x=hand.one(*_OTHERS[other]))]
    return lines, [
        _gold(name, [{"sets": sets, "reps": reps, "percent": 70}]),
        _gold(other, [{"sets": sets, "reps": more}], superset=True),
    ]


def rising_on_a_clock(hand: Hand) -> Told:
    """Loads that begin at one percentage and rise by the same each set."""
    name, typed = _lift(hand)
    sets, reps, first, by = (
        hand.random.choice((4, 5, 6)),
        hand.random.choice((2, 3)),
        hand.random.choice((65, 70)),
        hand.random.choice((2, 3, 5)),
    )
    form = hand.way(
        "told: rising",
        "{x} E2MOM {m} min, {r} reps, start {a}% and add {b}% each set",
        "{x} every 2:00 x {s}, {r} reps, start at {a}% and add {b}% each set",
    )
    gold = [{"sets": 1, "reps": reps, "percent": first + by * place} for place in range(sets)]
    return [form.format(x=typed, m=2 * sets, s=sets, r=reps, a=first, b=by)], [_gold(name, gold)]


def with_a_piece(hand: Hand) -> Told:
    """Sets and a piece on one line."""
    name, typed = _lift(hand)
    loads = _rising(hand, 3)
    rounds, count = hand.random.choice((5, 7)), hand.random.choice((7, 10))
    joined = hand.way("told: then a piece", " - ", " – ", " / ", " // ", " then ")
    line = f"{typed} {loads[0]}%x5 {loads[1]}%x5 {loads[2]}%x3{joined}{rounds}rft {count} burpees {count} pull-ups"
    piece = {
        "kind": "for time",
        "rounds": rounds,
        "movement": [{"name": "burpee", "first": count}, {"name": "pull-up", "first": count}],
    }
    sets = [{"sets": 1, "reps": r, "percent": p} for r, p in zip((5, 5, 3), loads, strict=True)]
    return [line], [_gold(name, sets), {"kind": "piece", "piece": piece}]


def send_off(hand: Hand) -> Told:
    """So many times a distance, each one begun so long after the one before."""
    name = hand.random.choice(("row", "run", "ski"))
    times, far, minutes = hand.random.choice((4, 5, 6)), hand.random.choice((200, 250, 500)), hand.random.choice((2, 3))
    form = hand.way(
        "told: send-off",
        "{x} {t} x {d} m on {m}:00",
        "{t} x {d} {x} on {m}:00",
        "{t}x{d}m {x}, every {m}:00",
        "{t} x {d} m {x} @ {m}:00",
    )
    piece = {
        "kind": "every minute",
        "interval": f"{minutes}:00",
        "intervals": times,
        "movement": [{"name": name, "first": far, "measure": "m"}],
    }
    return [form.format(x=name, t=times, d=far, m=minutes)], [{"kind": "piece", "piece": piece}]


def by_station(hand: Hand) -> Told:
    """What is done at home, told by the number of the minute or station."""
    moves = [
        ("row", "12 cal row", {"first": 12, "measure": "cal"}),
        ("toes to bar", "10 toes to bar", {"first": 10}),
        ("burpee", "8 burpees", {"first": 8}),
    ]
    others = ("high knees", "v-up", "tuck jump")
    mark = hand.way("told: station", "min {n}: ", "{n}. ", "Min {n} - ", "{n}) ")
    lines = ["EMOM 12", *(mark.format(n=at + 1) + each[1] for at, each in enumerate(moves))]
    head = hand.way("told: whose", "Home: ", "No equipment version: ", "home people: ", "At home: ")
    form = hand.way("told: instead", "min {n} {x}", "{n} = {x}", "min {n}: {x}")
    places = (0, 1, 2) if hand.perhaps(0.5) else (0, 2)
    lines += ["", head + ", ".join(form.format(n=at + 1, x=others[at]) for at in places)]
    movement = [
        {"name": name, **facts, **({"options": [{"name": others[at]}]} if at in places else {})}
        for at, (name, _, facts) in enumerate(moves)
    ]
    return lines, [
        {"kind": "piece", "piece": {"kind": "every minute", "interval": "1:00", "intervals": 12, "movement": movement}}
    ]


KINDS: dict[str, Callable[[Hand], Told]] = {
    each.__name__.replace("_", " "): each
    for each in (by_minute, one_by_one, loads_below, put_right, dropped, last_set, groups, not_of, rounds_of_all, after_each, rising_on_a_clock, with_a_piece, send_off, by_station)
}  # fmt: skip


def a_text(hand: Hand) -> tuple[str, dict[str, Any]]:
    """A text whose sets are told in parts, with its facts."""
    kind = hand.way("told", *KINDS)
    lines, items = KINDS[kind](hand)
    before = [hand.one("Hi all,", "ok team", "Morning!", "STRENGTH", "Strength")] if hand.perhaps(0.4) else []
    after = (
        ["", hand.one("see you there", "log it all pls", "Have fun", "10 burpees for each min late")]
        if hand.perhaps(0.4)
        else []
    )
    return "\n".join([*before, *lines, *after]) + "\n", {"sessions": [{"day": None, "items": items}], "asks": []}
