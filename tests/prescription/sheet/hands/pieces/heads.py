"""How a piece is done, from facts, in the ways that coaches type it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from tests.prescription.sheet.hands.pieces.hand import Hand
from tests.prescription.sheet.hands.pieces.moves import NUMBERS


@dataclass
class Head:
    """A piece's facts, the line that says them, and what else says some of them: a line of its own below."""

    facts: dict[str, Any]
    line: str
    below: list[str] = field(default_factory=list)
    counted: bool = True
    scheme: list[int] = field(default_factory=list)
    stations: list[str] = field(default_factory=list)  # how each movement's minute is written
    step: int = 0
    most: bool = False  # as many as there is time for, of each movement
    above: str = ""  # a line of its own before all
    below_first: str = ""  # a line of its own right under the first
    each_line: int = 0  # the count of every movement
    last: str = ""  # a line behind the movements
    of_rounds: bool = False  # it says rounds, which may each have several movements


def clock(seconds: int) -> str:
    return f"{seconds // 60}:{seconds % 60:02d}"


LONG = (5, 6, 7, 8, 9, 10, 12, 14, 15, 16, 18, 20, 25, 30, 40)


def as_many(hand: Hand) -> Head:
    minutes = hand.any(LONG)
    n = NUMBERS.get(minutes, str(minutes)) if hand.chosen.get("layout") == "spoken" else str(minutes)
    if hand.chosen.get("layout") == "spoken":
        style = hand.pick("amrap", ("{n} minutes as many rounds as possible of", "{n} minute amrap", "amrap {n} minutes", "{n} minutes as many rounds as you can",
                                    "as many rounds as possible in {n} minutes", "{n} minute amrap of", "{n} minutes, max rounds of", "{n} minute m wrap", "{n} minutes a m r a p"))  # fmt: skip
    elif hand.chosen.get("language") != "en":
        style = hand.pick("amrap", {"de": ("AMRAP {n} Min", "{n} Minuten AMRAP", "{n}' AMRAP", "AMRAP {n} Minuten", "{n} min so viele Runden wie möglich"),
                                    "fr": ("AMRAP {n}'", "AMRAP {n} minutes", "{n}' AMRAP", "AMRAP de {n} min", "Max de tours en {n} min"),
                                    "es": ("AMRAP {n}'", "AMRAP de {n} minutos", "AMRAP {n} min", "{n}' AMRAP", "máximas rondas en {n} min")}[hand.chosen["language"]])  # fmt: skip
    else:
        style = hand.pick("amrap", (
            "AMRAP {n}", "{n} min AMRAP", "{n}' AMRAP", "AMRAP {n}'", "AMRAP {n} min", "{n}-min AMRAP", "AMRAP in {n} min", "AMRAP ({n} min)", "AMRAP - {n} min",
            "AMRAP – {n} min", "AMRAP: {n} minutes", "{n}:00 AMRAP", "AMRAP {n}:00", "as many rounds as possible in {n} minutes", "{n} min, as many rounds as possible",
            "{n} minutes as many rounds as possible of", "AMRAP{n}", "{n}min AMRAP", "Amrap {n}mins of", "{n} min - max rounds", "{n} minutes, count your rounds",
            "max rounds in {n} min", "AMRAP {n} mins", "AMRAP for {n} minutes", "{n} minute AMRAP", "AMRAP x {n} min", "{n} MIN AMRAP", "AMRAP | {n} min", "as many rounds + reps as possible in {n}:00",
            "{n} min: as many rounds as you can", "AMRAP/{n} min", "AMRAP = {n} min", "AMRAP {n} (min)", "amrap {n}m", "{n}m amrap", "{n} min of as many rounds as possible",
            "In {n} minutes, as many rounds as possible of", "{n} min clock, as many rounds as possible", "Max reps in {n} min", "AMRAP [{n} min]", "AMRAP, {n} min", "{n} min, get through as much as you can of", "{n} min, as much as you can of",
        ))  # fmt: skip
    return Head({"kind": "as many as possible", "cap": clock(minutes * 60)}, style.format(n=n))


def ladder(hand: Hand) -> Head:
    head = as_many(hand)
    first, step = hand.any(((2, 2), (3, 3), (1, 1), (5, 5), (4, 4), (1, 2), (10, 5)))
    numbers = [first + step * place for place in range(hand.any((3, 4, 5)))]
    style = hand.pick(
        "ladder",
        (
            "a-b-c...",
            "a-b-c…",
            "a-b-c..",
            "a-b-c-",
            "a, b, c, ...",
            "a/b/c/...",
            "a-b-c-...",
            "a-b-c etc",
            "a-b-c etc.",
        ),
    )
    sign = style[1:2] if style[1] in "-/" else ", "
    tail = {"a-b-c...": "...", "a-b-c…": "…", "a-b-c..": "..", "a-b-c-": "-", "a, b, c, ...": ", ...", "a/b/c/...": "/...", "a-b-c-...": "-...", "a-b-c etc": " etc", "a-b-c etc.": " etc."}[style]  # fmt: skip
    listed = sign.join(str(each) for each in numbers) + tail
    if hand.rng.random() < 0.3:
        said = hand.pick(
            "ladder words",
            (
                "add {s} every round",
                "+{s} each round",
                "add {s} reps each round",
                "+{s} every round",
                "up by {s} each round",
                "increase by {s} every round",
                "{s} more each round",
            ),
        )
        head.below.append(said.format(s=step))
        head.counted, head.step, head.scheme, head.each_line = True, step, [first], first
        return head
    place = hand.pick("ladder place", ("below", "behind", "behind colon", "behind of"))
    if place == "below":
        head.below_first = listed
    elif place == "behind":
        head.line = f"{head.line.removesuffix(' of')} {listed}"
    elif place == "behind of":
        head.line = f"{head.line.removesuffix(' of')} of {listed}"
    else:
        head.line = f"{head.line.removesuffix(' of')}: {listed}"
    head.counted, head.step, head.scheme = False, step, [first]
    return head


def cap_words(hand: Hand, minutes: int) -> str:
    style = hand.pick("cap", ("cap {n}", "{n} min cap", "TC {n}", "TC {n}'", "cap {n} min", "cap: {n}:00", "time cap {n} min", "Time cap: {n} minutes", "{n}' cap", "{n} minute cap", "TC: {n} min",
                              "tc {n}:00", "Cap {n}'", "max {n} min", "limit {n} min", "{n} min time cap", "cap of {n} minutes", "timecap {n}", "T.C. {n}", "cap = {n} min", "Cap@{n}", "{n}:00 cap", "capped at {n} min",
                              "cut off {n} min", "cut-off at {n} min", "under {n} min or stop"))  # fmt: skip
    return style.format(n=minutes)


def with_cap(hand: Hand, head: Head, *, often: float = 0.6) -> Head:
    if hand.rng.random() > often or hand.chosen.get("layout") == "spoken":
        return head
    minutes = hand.any((8, 9, 10, 12, 14, 15, 16, 18, 20, 25, 30))
    words = cap_words(hand, minutes)
    head.facts["cap"] = clock(minutes * 60)
    place = hand.pick(
        "cap place", ("(cap)", ", cap", "- cap", "| cap", "below", "below last", "[cap]", ". Cap", "/ cap")
    )
    if place == "below last":
        head.below.append(words)
    elif place == "below":
        head.below_first = words
    else:
        head.line += {
            "(cap)": f" ({words})",
            ", cap": f", {words}",
            "- cap": f" - {words}",
            "| cap": f" | {words}",
            "[cap]": f" [{words}]",
            ". Cap": f". {words.capitalize()}",
            "/ cap": f" / {words}",
        }[place]
    return head


def for_time(hand: Hand) -> Head:
    style = hand.pick("for time", {
        "en": ("For time", "FOR TIME", "for time of", "For Time:", "FT", "all for time", "F/T", "4 time", "as fast as possible", "AFAP", "against the clock", "For time (chipper)", "Chipper", "chipper for time"),
        "de": ("Auf Zeit", "auf Zeit", "For time"), "fr": ("Pour le temps", "contre la montre", "For time", "For Time"), "es": ("Por tiempo", "por tiempo", "contra reloj", "For time"),
    }[hand.chosen["language"]])  # fmt: skip
    return with_cap(hand, Head({"kind": "for time"}, style))


def rounds(hand: Hand) -> Head:
    n = hand.any((2, 3, 4, 5, 6, 7, 8, 10))
    said = NUMBERS[n] if hand.chosen.get("layout") == "spoken" and n in NUMBERS else str(n)
    if hand.chosen.get("layout") == "spoken":
        style = hand.pick("rounds", ("{n} rounds for time of", "{n} rounds for time", "for time {n} rounds of"))
    else:
        style = hand.pick("rounds", {
            "en": ("{n} rounds for time", "{n} RFT", "{n}RFT", "{n} rds for time", "For time: {n} rounds", "For time, {n} rounds of", "{n} rounds FT", "{n} Rounds For Time of", "{n} rnds for time", "{n} ROUNDS FOR TIME",
                   "{n} x for time", "For time - {n} rounds", "{n} rounds, for time", "RFT x {n}", "{n} rounds (for time)", "{n} rounds as fast as possible", "{n}-round for time", "{n} rft of", "{n} rounds - for time", "{n} rounds against the clock",
                   "{n} rounds of the following for time", "{n} times through for time", "for time x {n} rounds"),
            "de": ("{n} Runden auf Zeit", "{n} Runden for time", "auf Zeit: {n} Runden", "{n} RFT"), "fr": ("{n} tours pour le temps", "{n} tours for time", "For time : {n} tours", "{n} tours contre la montre"),
            "es": ("{n} rondas por tiempo", "{n} rondas for time", "For time: {n} rondas", "{n} rondas x tiempo", "{n} vueltas por tiempo"),
        }[hand.chosen["language"]])  # fmt: skip
    return with_cap(hand, Head({"kind": "for time", "rounds": n}, style.format(n=said)), often=0.4)


def unscored(hand: Hand) -> Head:
    n = hand.any((2, 3, 4, 5))
    style = hand.pick(
        "unscored",
        (
            "{n} rounds not for time",
            "{n} rounds NFT",
            "{n} rounds for quality",
            "{n} rds, not for time",
            "{n} sets for quality",
            "{n} rounds (no clock)",
            "{n} rounds, for quality not time",
            "{n} easy rounds, no clock",
        ),
    )
    return Head({"kind": "unscored", "rounds": n}, style.format(n=n))


LISTS = (
    [21, 15, 9],
    [15, 12, 9],
    [18, 15, 12],
    [30, 20, 10],
    [50, 40, 30, 20, 10],
    [40, 30, 20, 10],
    [27, 21, 15, 9],
    [21, 18, 15, 12, 9],
    [10, 8, 6, 4, 2],
    [9, 15, 21],
    [12, 9, 6],
    [10, 9, 8, 7, 6, 5, 4, 3, 2, 1],
    [5, 10, 15, 20],
)


def scheme(hand: Hand) -> Head:
    numbers = hand.any(LISTS)
    if hand.chosen.get("layout") == "spoken" and all(each in NUMBERS for each in numbers):
        listed = " ".join(NUMBERS[each] for each in numbers)
        return Head(
            {"kind": "for time", "rounds": len(numbers)},
            hand.pick("scheme", ("{l}", "{l} for time", "for time {l}", "{l} of")).format(l=listed),
            counted=False,
            scheme=numbers,
        )
    sign = hand.pick("list sign", ("-", "-", "-", "/", ", ", " - ", "–", ","))
    listed = sign.join(str(each) for each in numbers)
    if numbers[0] == 10 and numbers[-1] == 1 and hand.rng.random() < 0.5:
        listed = hand.pick("ten to one", ("10 to 1", "10-9-8-...-1", "10 down to 1", "10-9-8…1"))
        hand.chosen["list sign"] = "to"
    style = hand.pick(
        "scheme",
        (
            "{l}",
            "{l} for time",
            "{l} reps for time of",
            "For time: {l}",
            "For time {l}",
            "{l} reps of",
            "{l} FT",
            "For time, {l} of",
            "Rounds of {l}",
            "{l} reps for time",
            "{l} (for time)",
        ),
    )
    return with_cap(
        hand,
        Head({"kind": "for time", "rounds": len(numbers)}, style.format(l=listed), counted=False, scheme=numbers),
        often=0.4,
    )
