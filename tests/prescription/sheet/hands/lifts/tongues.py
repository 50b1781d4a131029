"""How German, French and Spanish coaches type lifts, and how English ones write them into a mail."""

from __future__ import annotations

import re
from typing import Any

from tests.prescription.sheet.hands.lifts.hand import Hand
from tests.prescription.sheet.hands.lifts.signs import said
from tests.prescription.sheet.hands.lifts.truth import BARBELL, Lift, Load, Name, Sets

_NAMES = {
    "de": (("back squat", "squat"), "Kniebeuge"), "de2": (("front squat",), "Frontkniebeuge"), "de3": (("deadlift",), "Kreuzheben"), "de4": (("bench press",), "Bankdrücken"),
    "de5": (("shoulder press", "strict press", "overhead press", "press"), "Schulterdrücken"), "de6": (("clean",), "Umsetzen"), "de7": (("snatch",), "Reißen"),
    "fr": (("back squat", "squat"), "Squat"), "fr2": (("deadlift",), "Soulevé de terre"), "fr3": (("bench press",), "Développé couché"), "fr4": (("snatch",), "Arraché"),
    "fr5": (("shoulder press", "strict press", "overhead press", "press"), "Développé militaire"), "fr6": (("front squat",), "Front squat"), "fr7": (("power clean",), "Power clean"),
    "es": (("back squat",), "Sentadilla trasera"), "es2": (("front squat",), "Sentadilla frontal"), "es3": (("deadlift",), "Peso muerto"), "es4": (("bench press",), "Press banca"),
    "es5": (("shoulder press", "strict press", "overhead press", "press"), "Press militar"), "es6": (("snatch",), "Arrancada"), "es7": (("push press",), "Push press"),
}  # fmt: skip
_SETS = {
    "de": (
        "5x3",
        "5 x 3",
        "5 Sätze à 3",
        "5 Sätze mit 3 Wdh",
        "5 Sätze x 3 Wdh",
        "5x3 Wdh",
        "5 mal 3",
        "5 Sätze 3 Wiederholungen",
        "5 Sätze zu 3",
    ),
    "fr": (
        "5x3",
        "5 x 3",
        "5 séries de 3",
        "5 séries x 3 reps",
        "5 x 3 rép",
        "5 séries de 3 répétitions",
        "5 fois 3",
        "5 séries 3 rep",
        "5x3 reps",
    ),
    "es": (
        "5x3",
        "5 x 3",
        "5 series de 3",
        "5 series x 3 reps",
        "5x3 rep",
        "5 series de 3 repeticiones",
        "5 por 3",
        "5 series x 3",
    ),
}
_PERCENT = {
    "de": (" mit 75 %", " bei 75%", " @ 75%", " 75 %", " zu 75 %", " (75%)", ", 75 %", " mit 75% vom 1RM", " auf 75 %"),
    "fr": (" à 75 %", " à 75%", " @ 75%", " (75%)", " 75 %", " a 75%", " à 75% du 1RM", ", 75 %", " avec 75 %"),
    "es": (" al 75%", " al 75 %", " @ 75%", " (75%)", " 75%", " a 75%", " con 75%", " al 75% del 1RM", ", 75%"),
}
_REST = {
    "de": (
        ", Pause 2 min",
        ", 2 min Pause",
        " (Pause 2')",
        ", 2 Minuten Pause",
        ". Pause: 2 min",
        ", P 2 min",
        ", Pause 2:00",
        ", Satzpause 2 min",
    ),
    "fr": (
        ", repos 2'",
        ", récup 2 min",
        " (repos 2 min)",
        ", 2 min de repos",
        ", R 2'",
        ". Récup : 2'",
        ", repos 2:00",
        ", pause 2 min",
    ),
    "es": (
        ", descanso 2'",
        ", descanso 2 min",
        " (descanso 2 min)",
        ", 2 min de descanso",
        ", desc 2'",
        ". Descanso: 2 min",
        ", pausa 2 min",
        ", 2' descanso",
    ),
}
_HEAVY = {
    "de": (
        "schwere 3",
        "bis zu einer schweren 3",
        "auf eine schwere 3 hocharbeiten",
        "3RM finden",
        "steigern bis 3RM",
        "hocharbeiten zu 3RM",
        "3RM testen",
        "neues 3RM",
    ),
    "fr": (
        "monter à un 3RM",
        "trouver son 3RM",
        "chercher 3RM",
        "test 3RM",
        "monter jusqu'à 3RM",
        "3RM du jour",
        "3RM",
    ),
    "es": ("buscar 3RM", "subir hasta 3RM", "test 3RM", "encontrar 3RM", "3RM del día", "buscar 3RM del día", "3RM"),
}
_LINKS = {
    "de": (": ", " ", " - ", ", ", " – "),
    "fr": (" : ", " ", " - ", ": ", ", "),
    "es": (": ", " ", " - ", ", ", " – "),
}
_MAIL = (
    "We start with the NAME, SETS LOAD. REST", "First comes the NAME: SETS LOAD. REST", "Then we do NAME, SETS LOAD, REST", "Today we NAME, SETS LOAD. REST",
    "For strength it will be NAME, SETS LOAD. REST", "The main lift is the NAME: SETS LOAD, REST", "Please do the NAME for SETS LOAD. REST", "The first part is NAME - SETS LOAD - REST",
    "As promised, NAME again: SETS LOAD. REST", "Everybody does NAME today, SETS LOAD and REST",
)  # fmt: skip


def a_foreign(hand: Hand) -> tuple[Lift, str]:
    tongue = hand.habits.setdefault("tongue", hand.one("de", "fr", "es"))
    hand.chosen.add(("tongue", tongue))
    right, typed = hand.random.choice([value for key, value in _NAMES.items() if key.startswith(tongue)])
    lift = Lift([Name(right, (typed,))], "foreign", [])
    if hand.perhaps(0.2):
        reps = hand.random.choice((1, 2, 3, 5))
        words = hand.way(f"heavy {tongue}", *_HEAVY[tongue])
        heavy = "schwere" in words or "jour" in words or "día" in words
        lift.sets = [Sets(1, (reps,), None, None, find="heavy" if heavy else "test")]
        return lift, typed + hand.way(f"link {tongue}", *_LINKS[tongue]) + words.replace("3", str(reps))
    sets, reps = hand.random.choice((2, 3, 4, 5, 6)), hand.random.choice((2, 3, 4, 5, 6, 8, 10))
    load = Load("percent", float(5 * hand.random.randrange(12, 19)) + (2.5 if hand.perhaps(0.2) else 0)) if hand.perhaps(0.7) else Load("rpe", 8) if hand.perhaps(0.3) else None  # fmt: skip
    lift.sets = [Sets(sets, (reps,), None, load)]
    text = (
        hand.way(f"sets {tongue}", *_SETS[tongue])
        .replace("5", "S")
        .replace("3", str(reps))
        .replace("S ", f"{sets} ")
        .replace("Sx", f"{sets}x")
    )
    if load and load.kind == "percent":
        lift.of = {"reps": 1}
        text += hand.way(f"percent {tongue}", *_PERCENT[tongue]).replace("75", f"{load.amount:g}".replace(".", ","))
    elif load:
        text += hand.one(" RPE 8", " @ RPE 8", ", RPE 8")
    if hand.perhaps(0.4):
        lift.rest = hand.random.choice((60, 120, 180))
        text += hand.way(f"rest {tongue}", *_REST[tongue]).replace("2", str(lift.rest // 60))
    return lift, typed + hand.way(f"link {tongue}", *_LINKS[tongue]) + text


def in_a_mail(hand: Hand) -> tuple[Lift, str]:
    name = hand.random.choice(BARBELL)
    sets, reps = hand.random.choice((2, 3, 4, 5, 6)), hand.random.choice((2, 3, 4, 5, 6, 8, 10))
    load = hand.random.choice(
        (
            Load("percent", float(5 * hand.random.randrange(12, 19))),
            Load("rpe", 7),
            Load("rir", 2),
            Load("mass", 60),
            None,
        )
    )
    lift = Lift(
        [name], "mail", [Sets(sets, (reps,), None, load)], {"reps": 1} if load and load.kind == "percent" else None
    )
    words = "" if load is None else {
        "percent": hand.way("percent in a mail", "at 75%", "with 75 % of your max", "at about 75%", "at 75 percent", "around 75 %", "and use 75%", "on 75%"),
        "rpe": hand.way("effort in a mail", "at RPE 7", "with an effort of 7 out of 10", "so that it feels like a 7 out of 10", "(RPE 7)"),
        "rir": hand.way("reserve in a mail", "with 2 reps left", "leaving 2 in the tank", "with 2 reps in reserve", "and keep 2 reps in the tank"), "mass": "with 60 kg",
    }[load.kind].replace("75", f"{load.amount:g}")  # fmt: skip
    lift.rest = hand.random.choice((None, 60, 120, 180))
    rest = "" if lift.rest is None else hand.way("rest in a mail", "Rest two minutes", "Take 2 minutes rest", "2 minutes between sets", "Rest about 2 minutes between the sets", "Two minutes rest please", "Rest 2-3 minutes").replace("2-3", f"{lift.rest // 60}-{lift.rest // 60 + 1}")  # fmt: skip
    if lift.rest:
        number = str(lift.rest // 60)
        rest = rest.replace("two", {"1": "one", "2": "two", "3": "three"}[number]).replace(
            "Two", {"1": "One", "2": "Two", "3": "Three"}[number]
        )
        rest = rest.replace("2 min", f"{number} min")
    typed = hand.way(
        "sets in a mail",
        "4 sets of 6",
        "4x6",
        "4 sets of 6 reps",
        "four sets of six",
        "4 sets with 6 reps",
        "4 x 6 reps",
        "6 reps for 4 sets",
    )
    parts = {"four": said(sets), "six": said(reps), "4": str(sets), "6": str(reps)}
    typed = re.sub("four|six|4|6", lambda found: parts[found[0]], typed)
    line = (
        hand.way("sentence", *_MAIL)
        .replace("NAME", name.typed[0])
        .replace("SETS", typed)
        .replace(" LOAD", f" {words}" if words else "")
    )
    line = (
        line.replace("REST", rest).rstrip(" ,.-").removesuffix(" and")
        if rest
        else line.replace(" and REST", "").replace("REST", "").rstrip(" ,.-")
    )
    return lift, line + "."


def a_text(hand: Hand) -> tuple[str, dict[str, Any]]:
    """A text of a foreign hand, or a mail, and its facts."""
    maker = in_a_mail if hand.way("kind of text", "foreign", "foreign", "mail") == "mail" else a_foreign
    lifts: list[tuple[Lift, str]] = []
    for _ in range(hand.random.choice((1, 2, 3))):
        lift, line = maker(hand)
        if all(set(lift.names[0].right).isdisjoint(each.names[0].right) for each, _ in lifts):
            lifts.append((lift, line))
    between = "\n" if maker is a_foreign else hand.way("between sentences", "\n", " ", "\n\n")
    if maker is in_a_mail and hand.perhaps(0.5):
        between = between if between != "\n" else "\n"
        lead = hand.one("Hello everybody,\n\n", "Hi all, ", "Good evening,\n", "Dear members,\n")
    else:
        lead = ""
    text = lead + between.join(line for _, line in lifts)
    return text + "\n", {"sessions": [{"day": None, "items": [lift.gold() for lift, _ in lifts]}], "asks": []}
