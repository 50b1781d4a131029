"""How lifts are said into a telephone: number words, hardly a sign, one lift after the other in one breath."""

from __future__ import annotations

from typing import Any

from tests.prescription.sheet.hands.lifts.hand import Hand
from tests.prescription.sheet.hands.lifts.signs import said
from tests.prescription.sheet.hands.lifts.truth import BARBELL, OTHERS, Lift, Load, Sets

_HELLO = ("", "okay so ", "hey team ", "right so ", "good morning everyone ", "so for today ", "hi all ", "ok guys ")
_FIRST = ("", "we start with ", "we do ", "first ", "today is ", "we start with the ", "first up ", "it's ")
_NEXT = (
    " then ",
    " and then ",
    " after that ",
    " and after that ",
    " afterwards ",
    ". Then ",
    ", then ",
    " next ",
    " and then we do ",
    ". After that ",
    " after this we do ",
    " and finally ",
)
_END = ("", " and that's it", " okay bye", " see you there", " that's all", ". have fun")
_COUNTED = {1: "singles", 2: "doubles", 3: "triples"}


def a_load(hand: Hand, load: Load) -> str:
    amount = said(load.amount)
    if load.kind == "percent":
        return hand.way(
            "said percent",
            "at eighty percent",
            "at eighty percent",
            "with eighty percent",
            "around eighty percent",
            "at eighty per cent",
        ).replace("eighty", amount)
    if load.kind == "mass":
        return hand.way(
            "said mass", "at sixty kilos", "with sixty kilos", "at sixty kilograms", "with sixty kilo"
        ).replace("sixty", amount)
    if load.kind == "rpe":
        return hand.way(
            "said effort",
            "at rpe eight",
            "rpe eight",
            "at an eight out of ten",
            "like an eight out of ten",
            "eight out of ten",
        ).replace("eight", amount)
    return hand.way(
        "said reserve",
        "leave two in the tank",
        "with two reps left in the tank",
        "two in reserve",
        "keep two reps in reserve",
    ).replace("two", amount)


def some_sets(hand: Hand, one: Sets) -> str:
    sets, reps = said(one.sets), said(one.reps[0])
    ways = [
        "five sets of three",
        "five sets of three",
        "five sets of three",
        "five by three",
        "five times three",
        "five sets three reps",
    ]
    if one.reps[0] in _COUNTED and one.sets > 1:
        ways.append("five triples")
    return {
        "five sets of three": f"{sets} sets of {reps}", "five by three": f"{sets} by {reps}", "five times three": f"{sets} times {reps}",
        "five triples": f"{sets} {_COUNTED.get(one.reps[0], '')}", "five sets three reps": f"{sets} sets {reps} reps",
    }[hand.way("said sets", *ways)]  # fmt: skip


def a_lift(hand: Hand) -> tuple[Lift, str]:
    """A lift, and how it is said."""
    choose = hand.random.choice
    name = choose(BARBELL if hand.perhaps(0.7) else OTHERS)
    barbell = name in BARBELL
    scheme = (
        hand.way("said scheme", "sets", "sets", "sets", "heavy", "heavy and drop", "row", "last set")
        if barbell
        else hand.way("said scheme", "sets")
    )
    lift = Lift([name], scheme, [])
    base = float(5 * choose((12, 13, 14, 15, 16)))
    typed = name.typed[0].lower()
    if scheme in ("sets", "last set"):
        load: Load | None = choose((Load("percent", base), Load("percent", base), Load("rpe", choose((7, 8, 9))), Load("rir", 2), Load("mass", choose((40, 50, 60, 80, 100))), None)) if barbell else choose((None, Load("rpe", 8), Load("rir", 2)))  # fmt: skip
        if scheme == "last set":
            load = Load("percent", base)
        one = Sets(choose((2, 3, 4, 5, 6)), (choose((2, 3, 4, 5, 6, 8, 10, 12)),), None, load)
        lift.sets = [one]
        words = some_sets(hand, one) + (f" {a_load(hand, load)}" if load else "")
        if scheme == "last set":
            lower = Load("percent", base - 10)
            lift.sets.append(Sets(1, (), None, lower, out=True))
            words += (
                hand.one(" and then ", " then ", " and after that ")
                + f"one last set {a_load(hand, lower)} "
                + hand.way("said max", "as many as you can", "for max reps", "as many reps as possible")
            )
        if load and load.kind == "percent":
            lift.of = {"reps": 1}
    elif scheme == "row":
        steps = [base + 5 * at for at in range(3)]
        reps = sorted((choose((1, 2, 3, 5)) for _ in steps), reverse=True)
        lift.sets = [Sets(1, (one,), None, Load("percent", at)) for one, at in zip(reps, steps, strict=True)]
        lift.of = {"reps": 1}
        sign = " percent"
        words = hand.way("said between", ", ", " then ", " ", " and ").join(
            f"{said(one)} at {said(at)}{sign}" for one, at in zip(reps, steps, strict=True)
        )
    else:
        reps_of = choose((1, 2, 3, 5))
        lift.sets = [Sets(1, (reps_of,), None, None, find="heavy")]
        word = {1: "single", 2: "double", 3: "triple"}.get(reps_of, said(reps_of))
        within = hand.way("said within", "", "", "take fifteen minutes and ", "in fifteen minutes ")
        words = within + hand.way("said heavy", "work up to a heavy triple", "build to a heavy triple", "find a heavy triple", "build up to a heavy triple", "go up to a heavy triple for the day", "get to a heavy triple").replace("triple", word)  # fmt: skip
        if scheme == "heavy and drop":
            drop = choose((10, 15, 20))
            down = Sets(choose((2, 3)), (choose((2, 3, 5)),), None, Load("percent", 100 - drop))
            lift.sets.append(down)
            lift.of = {"reps": reps_of}
            words += hand.way("said drop", " and then take ten percent off and do SETS", " then drop ten percent and do SETS", " then SETS at ninety percent of that", " then take off ten percent for SETS", " and then SETS with ten percent less").replace("ten", said(drop)).replace("ninety", said(100 - drop)).replace("SETS", some_sets(hand, down))  # fmt: skip
    if hand.perhaps(0.3):
        lift.rest = choose((60, 90, 120, 180))
        length = (
            "ninety seconds"
            if lift.rest == 90
            else "one minute"
            if lift.rest == 60
            else f"{said(lift.rest // 60)} minutes"
        )
        words += hand.way(
            "said rest",
            " rest two minutes",
            " with two minutes rest",
            " take two minutes in between",
            " two minutes rest between sets",
            ", rest two minutes in between",
            " two minutes between sets",
            " and rest two minutes",
        ).replace("two minutes", length)
    lead = hand.way("between name and sets", " ", " ", " ", ", ", " and ", " for ") if scheme == "sets" else " "
    if lead == " for " and not words[0].isalpha():
        lead = " "
    return lift, typed + lead + words


def a_text(hand: Hand) -> tuple[str, dict[str, Any]]:
    """A text in one breath, and its facts."""
    count = hand.random.choice((1, 2, 2, 3))
    lifts = []
    for _ in range(count):
        lift, words = a_lift(hand)
        if all(set(lift.names[0].right).isdisjoint(each.names[0].right) for each, _ in lifts):
            lifts.append((lift, words))
    text = hand.one(*_HELLO) + hand.one(*_FIRST) + lifts[0][1]
    for _, words in lifts[1:]:
        text += hand.way("said next", *_NEXT) + words
    text += hand.one(*_END)
    return text + "\n", {"sessions": [{"day": None, "items": [lift.gold() for lift, _ in lifts]}], "asks": []}
