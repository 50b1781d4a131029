"""Pieces on a clock from facts: every minute and the like, work and rest, intervals."""

from __future__ import annotations

from tests.prescription.sheet.hands.pieces.hand import Hand
from tests.prescription.sheet.hands.pieces.heads import Head, clock
from tests.prescription.sheet.hands.pieces.moves import NUMBERS

STATIONS = (
    "min n:",
    "Minute n:",
    "Mn",
    "n:",
    "n)",
    "n.",
    "emoji",
    "n -",
    "Min n -",
    "min n",
    "n",
    "M n:",
    "n':",
    "#n",
    "(n)",
    "minute n =",
    "Station n:",
    "1st min:",
)


def station(hand: Hand, style: str, place: int) -> str:
    """Write the mark of a minute or station."""
    if style == "emoji":
        return f"{place}\ufe0f\u20e3 "
    if style == "1st min:":
        return ("1st", "2nd", "3rd", "4th", "5th", "6th")[place - 1] + " min: "
    return (
        style.replace("n", str(place), 1).replace("mi" + str(place), "min").replace("Mi" + str(place), "Min") + " "
        if style not in MARKS
        else MARKS[style].format(n=place)
    )


MARKS = {"min n:": "min {n}: ", "Minute n:": "Minute {n}: ", "Mn": "M{n} ", "n:": "{n}: ", "n)": "{n}) ", "n.": "{n}. ", "n -": "{n} - ", "Min n -": "Min {n} - ", "min n": "min {n} ", "n": "{n} ",
         "M n:": "M{n}: ", "n':": "{n}': ", "#n": "#{n} ", "(n)": "({n}) ", "minute n =": "minute {n} = ", "Station n:": "Station {n}: "}  # fmt: skip


def every_minute(hand: Hand) -> Head:
    n = hand.any((6, 8, 10, 12, 15, 16, 18, 20, 24, 30))
    spoken = hand.chosen.get("layout") == "spoken"
    said = NUMBERS.get(n, str(n)) if spoken else str(n)
    if spoken:
        style = hand.pick(
            "every minute",
            (
                "every minute for {n} minutes",
                "every minute on the minute for {n} minutes",
                "{n} minute emom",
                "emom for {n} minutes",
            ),
        )
    else:
        style = hand.pick("every minute", {
            "en": ("EMOM {n}", "{n} min EMOM", "EMOM x {n}", "EMOM {n} min", "EMOM for {n} minutes", "{n}' EMOM", "EMOM {n}'", "every minute on the minute for {n} min", "every minute for {n} minutes", "every min x {n}", "E1MOM {n}",
                   "EMOM ({n} min)", "EMOM - {n} min", "{n}-minute EMOM", "EMOM{n}", "{n} minutes EMOM", "EMOM {n}:00", "{n}:00 EMOM", "every 1:00 x {n}", "EMOM: {n} minutes", "{n} min, every minute", "{n} minutes, on the minute", "on the minute x {n}",
                   "Every minute x {n}", "EMOM of {n} min", "{n}min emom", "EMOM | {n} min", "OTM {n}", "E M O M {n}", "EMOM, {n} minutes", "every 60s x {n}"),
            "de": ("EMOM {n} Min", "{n} Minuten EMOM", "jede Minute, {n} Minuten", "EMOM {n}'"), "fr": ("EMOM {n}'", "EMOM {n} minutes", "chaque minute pendant {n} min", "EMOM de {n} min"),
            "es": ("EMOM {n}'", "EMOM {n} minutos", "cada minuto x {n}", "EMOM de {n} min"),
        }[hand.chosen["language"]])  # fmt: skip
    head = Head({"kind": "every minute", "interval": "1:00", "intervals": n}, style.format(n=said))
    ways = (
        hand.pick("stations", ("all", "numbered", "numbered", "odd and even", "numbered inline"))
        if not spoken
        else "all"
    )
    if ways == "odd and even":
        style = hand.pick(
            "odd",
            (
                "odd: / even:",
                "Odd - / Even -",
                "odd / even",
                "odd minutes: / even minutes:",
                "ODD: / EVEN:",
                "Odd min: / Even min:",
                "odd mins / even mins",
                "odd = / even =",
                "uneven: / even:",
            ),
        )
        head.stations = [part + " " for part in style.split(" / ")]
        head.facts["in_turn"] = True
    elif ways.startswith("numbered"):
        several = [each for each in (2, 3, 4, 5) if n % each == 0]
        count = hand.any(several)
        style = hand.pick(
            "station",
            STATIONS if ways == "numbered" else ("n)", "min n:", "n.", "minute n:", "n -", "M n:", "min n", "(n)"),
        )
        head.stations = [
            station(hand, {"minute n:": "Minute n:"}.get(style, style), place) for place in range(1, count + 1)
        ]
        head.facts["in_turn"] = True
    return head


def every_few(hand: Hand) -> Head:
    seconds = hand.any((90, 120, 120, 150, 180, 240, 300))
    times = hand.any((3, 4, 5, 6, 8, 10))
    spell = clock(seconds)
    minutes = seconds / 60
    n = str(int(minutes)) if minutes == int(minutes) else spell
    whole = minutes == int(minutes)
    total = seconds * times
    long = total // 60 if total % 60 == 0 else None
    ways = [
        "every {c} x {t}",
        "every {c} for {t} rounds",
        "{t} rounds, every {c}",
        "every {c} ({t} rounds)",
        "every {c}, {t} sets",
        "{t} sets: every {c}",
        "Every {c} × {t}",
        "every {c} * {t}",
        "every {c} x {t} sets",
        "{t} x every {c}",
        "every {c} x{t}",
    ]
    if whole:
        ways += [
            "every {n} min x {t}",
            "every {n} minutes for {t} rounds",
            "every {n}' x {t}",
            "E{n}MOM x {t}",
            "every {n}min x {t}",
            "{t} rounds every {n} min",
            "every {n} mins ({t} rounds)",
            "E{n}M x {t}",
            "every {n} min, {t} rounds",
            "every {n} minutes, {t} times",
            "every {n} min for {t} sets",
            "E{n}MOM x {t} rounds",
            "E{n}MOM ({t} rounds)",
            "{t} x E{n}MOM",
        ]
        if long:
            ways += [
                "every {n} min for {l} min",
                "E{n}MOM {l} min",
                "E{n}MOM for {l} minutes",
                "every {n}:00 for {l}:00",
                "{l} min, every {n} min",
                "every {n} minutes for {l} minutes",
                "{l}' E{n}MOM",
            ]
    else:
        ways += [
            f"every {seconds}s x {{t}}",
            f"every {seconds} sec x {{t}}",
            f"E{seconds}s x {{t}}",
            f"every {seconds}'' x {{t}}",
            f"every {seconds} seconds for {{t}} rounds",
        ]
    style = hand.pick("every few minutes", ways)
    return Head(
        {"kind": "every minute", "interval": spell, "intervals": times}, style.format(c=spell, t=times, n=n, l=long)
    )


def on_off(hand: Hand) -> Head:
    work, rest = hand.any(
        (
            (40, 20),
            (30, 30),
            (20, 10),
            (45, 15),
            (30, 90),
            (60, 60),
            (120, 60),
            (180, 60),
            (120, 120),
            (90, 90),
            (30, 15),
            (50, 10),
        )
    )
    times = hand.any((3, 4, 5, 6, 8, 10, 12))
    short = work < 60 and rest < 60
    ways = [
        "{t} x {w} on / {r} off",
        "{w} on / {r} off x {t}",
        "{t} rounds: {w} work, {r} rest",
        "{w} work / {r} rest, {t} rounds",
        "{t} x {w} on, {r} off",
        "{t} x ({w} on / {r} off)",
        "{t} rounds of {w} on {r} off",
        "{w} on {r} off x {t}",
        "{t} sets: {w} on / {r} off",
        "{t} x {w} work + {r} rest",
        "{w} on - {r} off ({t} rounds)",
        "{t}x {w} on/{r} off",
        "{t} rounds {w} work {r} rest",
        "{w} ON / {r} OFF x {t}",
        "{t} intervals of {w} on, {r} off",
        "{w} work, {r} rest, repeat {t} times",
        "{t} x {w} / {r} rest",
        "{t} x {w} (rest {r})",
        "{t} x {w}, rest {r}",
        "{t} rounds of {w}, {r} rest between",
    ]
    if short:
        ways += [
            "{W}/{R} x {t}",
            "{W}s/{R}s x {t}",
            '{t} x {W}"/{R}"',
            "{t} rounds: {W}/{R}",
            "{W} on {R} off x {t}",
            ":{W} on / :{R} off x {t}",
            "{t} x :{W}/:{R}",
            "{W}sec on {R}sec off, {t} rounds",
        ]
    style = hand.pick("on and off", ways)
    unit = hand.pick(
        "on and off unit",
        ("s", "sec", " sec", "clock", "'", " min", "min")
        if work % 60 == 0 and rest % 60 == 0
        else ("s", "sec", " sec", '"', " seconds", "s"),
    )

    def said(value: int) -> str:
        if unit == "clock":
            return clock(value)
        if unit in ("'", " min", "min"):
            return f"{value // 60}{unit}"
        return f"{value}{unit}"

    head = Head(
        {"kind": "work and rest", "interval": clock(work), "rest": clock(rest), "intervals": times},
        style.format(w=said(work), r=said(rest), t=times, W=work, R=rest),
        counted=False,
    )
    head.most = hand.rng.random() < 0.5
    head.of_rounds = any(word in style for word in ("round", "set", "times"))
    return head


def tabata(hand: Hand) -> Head:
    style = hand.pick(
        "tabata",
        (
            "Tabata",
            "tabata:",
            "TABATA",
            "Tabata (20/10 x 8)",
            "Tabata 8 rounds",
            "tabata 8 x 20/10",
            "Tabata - 8 x 20s on / 10s off",
            "Tabata 20/10",
            "Tabata, 8 rounds (20 on 10 off)",
        ),
    )
    return Head({"kind": "work and rest", "interval": "0:20", "rest": "0:10", "intervals": 8}, style, counted=False)


def block(hand: Hand) -> Head:
    """Rounds of stations that are done for a time each, the rest among them."""
    times = hand.any((3, 4, 5))
    style = hand.pick("block", ("{t} sets:", "{t} rounds:", "{t} rounds of", "{t} rds:", "{t} rounds", "{t} sets of:"))
    head = Head(
        {"kind": "work and rest", "rounds": times, "interval": "1:00", "rest": "1:00"},
        style.format(t=times),
        counted=False,
    )
    unit = hand.pick("block time", ("1:00", "1 min", "1'", "60s", "1 minute", "60 sec", "1min"))
    head.stations = [unit + hand.pick("block sign", (" ", " ", ": ", " - "))] * hand.any((2, 3))
    head.most = hand.rng.random() < 0.6
    head.last = hand.pick("block rest", ("{u} rest", "rest {u}", "{u} off")).format(u=unit)
    return head
