"""What a session of strength says, before anybody types it: lifts, their sets and loads. All invented."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from tests.prescription.sheet.hands.lifts.hand import Hand


@dataclass(frozen=True)
class Name:
    """A lift: what it may be read as, how it is typed, and the implement that it says or implies."""

    right: tuple[str, ...]
    typed: tuple[str, ...]
    implement: str = "barbell"
    sided: bool = False


BARBELL = (
    Name(("back squat",), ("back squat", "back squats", "BS", "back sq", "bsq")),
    Name(("back squat", "squat"), ("squat", "squats")),
    Name(("front squat",), ("front squat", "front squats", "FS", "front sq")),
    Name(("overhead squat",), ("overhead squat", "OHS", "overhead squats")),
    Name(("deadlift",), ("deadlift", "deadlifts", "DL", "dead lift", "deads")),
    Name(("romanian deadlift",), ("romanian deadlift", "RDL", "RDLs", "romanian deadlifts")),
    Name(("bench press",), ("bench press", "bench", "BP")),
    Name(("close grip bench press",), ("close grip bench press", "close grip bench", "CGBP", "close-grip bench")),
    Name(
        ("strict press", "shoulder press", "overhead press", "press"),
        ("strict press", "shoulder press", "overhead press", "OHP"),
    ),
    Name(("push press",), ("push press", "PP", "push presses")),
    Name(("push jerk",), ("push jerk", "push jerks")),
    Name(("power clean",), ("power clean", "power cleans", "PC")),
    Name(("hang power clean",), ("hang power clean", "HPC", "hang power cleans")),
    Name(("power snatch",), ("power snatch", "power snatches")),
    Name(("snatch",), ("snatch",)),
    Name(("clean and jerk",), ("clean and jerk", "clean & jerk", "C&J", "clean+jerk")),
    Name(("snatch pull",), ("snatch pull", "snatch pulls")),
    Name(("clean pull",), ("clean pull", "clean pulls")),
    Name(("pause squat", "paused squat", "paused back squat", "pause back squat"), ("pause squat", "paused squat")),
    Name(("sumo deadlift",), ("sumo deadlift", "sumo DL")),
    Name(("barbell row", "bent over row", "bent-over row"), ("barbell row", "bent over row", "barbell rows")),
    Name(("hip thrust", "barbell hip thrust"), ("barbell hip thrust", "barbell hip thrusts")),
    Name(("good morning",), ("good morning", "good mornings")),
)
OTHERS = (
    Name(("dumbbell row", "one-arm dumbbell row"), ("DB row", "db rows", "dumbbell row"), "", True),
    Name(("incline dumbbell press", "dumbbell incline press", "incline dumbbell bench press", "dumbbell incline bench press"),
         ("incline DB press", "DB incline press", "incline dumbbell press"), "dumbbells"),
    Name(("dumbbell bench press",), ("DB bench press", "DB bench", "dumbbell bench press"), "dumbbells"),
    Name(("goblet squat",), ("goblet squat", "goblet squats"), ""),
    Name(("pull-up",), ("pull-ups", "pull ups", "pullups"), "body"),
    Name(("strict pull-up",), ("strict pull-ups", "strict pull ups"), "body"),
    Name(("weighted pull-up",), ("weighted pull-ups", "weighted pull ups"), ""),
    Name(("chin-up",), ("chin-ups", "chin ups", "chinups"), "body"),
    Name(("dip",), ("dips",), "body"),
    Name(("ring row",), ("ring rows", "ring row"), ""),
    Name(("bulgarian split squat",), ("bulgarian split squat", "bulgarian split squats", "bulgarians"), "", True),
    Name(("split squat",), ("split squat", "split squats"), "", True),
    Name(("hanging leg raise",), ("hanging leg raise", "hanging leg raises"), "body"),
    Name(("face pull",), ("face pulls", "face pull"), ""),
    Name(("back extension",), ("back extensions", "back extension"), ""),
    Name(("lat pulldown", "lat pull-down"), ("lat pulldown", "lat pulldowns"), ""),
    Name(("chest supported row", "chest-supported row"), ("chest supported row", "chest-supported row"), ""),
    Name(("hammer curl",), ("hammer curls", "hammer curl"), ""),
    Name(("calf raise",), ("calf raises", "calf raise"), ""),
    Name(("leg curl",), ("leg curls", "leg curl"), ""),
    Name(("lateral raise",), ("lateral raises", "lateral raise"), ""),
)  # fmt: skip


@dataclass(frozen=True)
class Load:
    """A load: percent, mass, pair, rpe or rir; `high` is the upper end of a range."""

    kind: str
    amount: float
    high: float | None = None
    unit: str = "kg"


@dataclass(frozen=True)
class Sets:
    """So many sets; `reps` has several numbers for a complex."""

    sets: int
    reps: tuple[int, ...]
    high: int | None = None
    load: Load | None = None
    out: bool = False
    find: str = ""  # "heavy" or "test"
    effort: Load | None = None

    def gold(self) -> dict[str, Any]:
        found: dict[str, Any] = {"sets": self.sets}
        if self.reps:
            found["reps"] = self.reps[0] if len(self.reps) == 1 else list(self.reps)
        if self.high:
            found["up_to"] = self.high
        if self.out:
            found["or_more"] = True
        if self.find:
            found["find"] = f"heavy {self.reps[0]}" if self.find == "heavy" else f"{self.reps[0]}RM"
        for load in (self.load, self.effort):
            if load is None:
                continue
            amount: Any = load.amount if load.high is None else [load.amount, load.high]
            if load.kind == "percent":
                found["percent"] = amount
            elif load.kind == "mass":
                found |= {"load": f"{load.amount:g}", "unit": load.unit}
            elif load.kind == "pair":
                found |= {"load": [f"{load.amount:g}", f"{load.high:g}"], "unit": load.unit}
            elif load.kind == "rpe":
                found["rpe"] = amount
            else:
                found["in_reserve"] = amount
        return found


@dataclass
class Lift:
    """One lift of a session as it is meant."""

    names: list[Name]
    scheme: str
    sets: list[Sets]
    of: dict[str, Any] | None = None
    rest: int | None = None
    tempo: str = ""
    sided: bool = False
    joined: bool = False
    every: int | None = None
    typed: list[str] = field(default_factory=list)

    def gold(self) -> dict[str, Any]:
        found: dict[str, Any] = {"kind": "lift"}
        if len(self.names) > 1:
            found["lift"] = " + ".join(each.right[0] for each in self.names)
        else:
            found["lift"] = {"any": list(self.names[0].right)}
        if self.names[0].implement:
            found["implement"] = self.names[0].implement
        if self.of:
            found["of"] = self.of
        if self.rest:
            found["rest_s"] = self.rest
        if self.tempo:
            found["tempo"] = self.tempo
        if self.sided:
            found["each_side"] = True
        if self.joined:
            found["superset"] = True
        found["sets"] = [each.gold() for each in self.sets]
        return found


def percent(hand: Hand, low: int = 55, high: int = 92) -> float:
    found = hand.random.randrange(low, high)
    return found + 0.5 if hand.perhaps(0.12) else found if hand.perhaps(0.3) else float(5 * round(found / 5))


def mass(hand: Hand, unit: str) -> float:
    if unit == "lb":
        return float(hand.random.choice((95, 115, 135, 155, 185, 205, 225, 245, 275, 315)))
    return hand.random.choice((30, 40, 42.5, 50, 60, 62.5, 70, 72.5, 80, 85, 90, 100, 110, 120, 140))


def a_load(hand: Hand, *, barbell: bool, unit: str) -> tuple[Load | None, dict[str, Any] | None]:
    """Choose a load, and what percentages are of."""
    kind = hand.one(
        *(
            ("percent",) * 5 + ("mass", "mass", "rpe", "rir", "none", "pair")
            if barbell
            else ("none", "none", "rpe", "rir")
        )
    )
    if kind == "percent":
        return (a_range(hand, percent(hand)) if hand.perhaps(0.15) else Load("percent", percent(hand))), {"reps": 1}
    if kind == "mass":
        return Load("mass", mass(hand, unit), None, unit), None
    if kind == "pair":
        large, small = hand.random.choice(((60, 40), (43, 30), (70, 50), (100, 70), (80, 55), (50, 35)))
        return Load("pair", large, small, "kg"), None
    if kind == "rpe":
        return Load("rpe", hand.random.choice((6, 7, 7.5, 8, 8.5, 9))), None
    if kind == "rir":
        return Load("rir", hand.random.choice((1, 2, 3))), None
    return None, None


def a_range(hand: Hand, low: float) -> Load:
    return Load("percent", low, low + 5)


def a_lift(hand: Hand, scheme: str = "") -> Lift:
    """Choose a lift with its sets."""
    scheme = scheme or hand.way(
        "scheme", "straight", "straight", "straight", "wave", "wave", "list", "each load", "heavy", "heavy and drop", "rep-out",
        "complex", "clock", "numbered", "accessory", "accessory", "build", "max sets", "climb list",
    )  # fmt: skip
    unit = hand.habits.setdefault("unit of the truth", "lb" if hand.perhaps(0.25) else "kg")
    barbell = scheme not in ("accessory", "max sets")
    name = hand.random.choice(BARBELL if barbell else OTHERS)
    if scheme == "max sets":
        name = hand.random.choice([each for each in OTHERS if each.implement == "body"])
    lift = Lift([name], scheme, [])
    choose, base = hand.random.choice, percent(hand, 60, 82)
    steps = [base + 5 * place for place in range(6)]
    if scheme in ("straight", "accessory"):
        load, lift.of = a_load(hand, barbell=barbell, unit=unit)
        sets, reps = choose((2, 3, 3, 4, 4, 5, 5, 6)), choose((2, 3, 4, 5, 6, 8, 10, 12))
        lift.sets = [
            Sets(sets, (reps,), reps + 2 if hand.perhaps(0.5 if not barbell else 0.1) and reps >= 6 else None, load)
        ]
        lift.sided = name.sided and hand.perhaps(0.5)
        if hand.perhaps(0.15):
            lift.tempo = choose(("31X1", "30X0", "2010", "3110", "32X1", "4010"))
    elif scheme == "wave":
        count = choose((2, 3, 3, 4))
        reps = sorted((choose((1, 2, 3, 4, 5, 6, 8)) for _ in range(count)), reverse=True)
        many = hand.perhaps(0.4)
        lift.sets = [
            Sets(choose((1, 2, 3)) if many else 1, (reps[at],), None, Load("percent", steps[at])) for at in range(count)
        ]
        lift.of = {"reps": 1}
        if hand.perhaps(0.25):
            last = lift.sets[-1]
            lift.sets[-1] = Sets(1, last.reps, None, last.load, out=True)
    elif scheme == "list":
        reps = list(choose(((5, 5, 3, 3, 1, 1), (5, 3, 1), (5, 5, 5, 3, 3), (3, 3, 3, 3), (8, 6, 4, 2), (10, 8, 6, 4), (3, 2, 1, 3, 2, 1), (5, 4, 3, 2, 1), (5, 5, 5, 5, 5))))  # fmt: skip
        loads: list[Load | None] = [None] * len(reps)
        kind = choose(("none", "none", "one", "all"))
        if kind == "one":
            loads = [Load("percent", base)] * len(reps)
        elif kind == "all":
            loads = [Load("percent", base + 4 * place) for place in range(len(reps))]
        lift.sets = [Sets(1, (one,), None, load) for one, load in zip(reps, loads, strict=True)]
        lift.of = {"reps": 1} if kind != "none" else None
    elif scheme == "climb list":
        reps = list(choose(((5, 5, 5), (5, 3, 2), (5, 5, 3, 3), (8, 6, 4))))
        loads = [
            Load("mass", 40 + 10 * place + (2.5 if hand.perhaps(0.2) else 0), None, "kg") for place in range(len(reps))
        ]
        lift.sets = [Sets(1, (one,), None, load) for one, load in zip(reps, loads, strict=True)]
    elif scheme == "each load":
        count, reps_each = choose((3, 4, 5)), choose((2, 3, 5, 6))
        lift.sets = [Sets(1, (reps_each,), None, Load("percent", base + 4 * place)) for place in range(count)]
        lift.of = {"reps": 1}
    elif scheme in ("heavy", "heavy and drop", "build"):
        reps_of, find = choose((1, 1, 2, 3, 3, 5)), "heavy" if scheme != "build" else "test"
        lift.sets = [Sets(1, (reps_of,), None, None, find=find)]
        if scheme == "heavy and drop":
            lift.sets.append(
                Sets(choose((2, 3, 4)), (choose((2, 3, 5)),), None, Load("percent", 100 - choose((5, 10, 15, 20))))
            )
            lift.of = {"reps": reps_of}
    elif scheme == "rep-out":
        reps_of = choose((3, 5, 8))
        lift.sets = [Sets(choose((2, 3)), (reps_of,), None, Load("percent", base)), Sets(1, (), None, Load("percent", base - 10), out=True)]  # fmt: skip
        lift.of = {"reps": 1}
    elif scheme == "complex":
        first, second, third = BARBELL[11], BARBELL[2], BARBELL[10]
        hang = BARBELL[12]
        lift.names = choose(([first, second], [first, hang], [hang, second, third], [first, second, third]))
        load = Load("percent", base) if hand.perhaps(0.6) else None
        reps = tuple(choose((1, 1, 2, 3)) for _ in lift.names)
        lift.sets = [Sets(choose((3, 4, 5, 6)), reps, None, load)]
        lift.of = {"reps": 1} if load else None
    elif scheme == "clock":
        lift.names = [choose(BARBELL[:17])]
        lift.every = choose((60, 90, 120, 120, 150, 180))
        lift.sets = [Sets(choose((4, 5, 6, 8, 10)), (choose((1, 2, 3, 5)),), None, Load("percent", base))]
        lift.of = {"reps": 1}
    elif scheme == "numbered":
        reps_of = choose((1, 2, 3, 5))
        lift.sets = [
            Sets(choose((1, 1, 2, 3)), (reps_of,), None, Load("percent", steps[at])) for at in range(choose((2, 3, 4)))
        ]
        lift.of = {"reps": 1}
    else:
        lift.sets = [Sets(choose((2, 3, 4)), (), None, None, out=True)]
    if lift.of == {"reps": 1} and scheme != "heavy and drop" and hand.perhaps(0.3):
        lift.of = choose(({"reps": 1, "percent": 90}, {"reps": 3}, {"reps": 5}, {"reps": 1}))
        lift.typed.append("of")
    if scheme not in ("clock",) and hand.perhaps(0.3):
        lift.rest = choose((60, 75, 90, 120, 120, 150, 180, 180, 240))
    return lift
