"""Short hands: names shortened, with slips or turned round, sets in lifters' shorthand, several things on one line, put right later."""

from __future__ import annotations

from typing import Any

from tests.prescription.sheet.hands.lifts.hand import Hand

Told = tuple[list[str], list[dict[str, Any]]]
# each lift with short ways, ways with a slip or without vowels, and ways with its own word behind it
_NAMES: dict[str, dict[str, tuple[str, ...]]] = {
    "back squat": {"short": ("bs", "bsq", "back sq", "bk squat", "back sqt"), "slip": ("bakc squat", "back sqaut", "bcak squat"), "turned": ("squat (back)", "squat - back")},
    "front squat": {"short": ("fs", "fsq", "fr squat", "front sq", "frnt squat"), "slip": ("front sqaut", "fornt squat"), "turned": ("squat (front)", "Squat - front")},
    "deadlift": {"short": ("dl", "deads", "dlift"), "slip": ("deadlfit", "dealdift", "deadlft"), "turned": ("deadlift",)},
    "romanian deadlift": {"short": ("rdl", "rom dl", "rom deadlift"), "slip": ("romainan deadlift",), "turned": ("deadlift romanian",)},
    "sumo deadlift": {"short": ("sumo dl", "sumo"), "slip": ("sumo deadlfit",), "turned": ("deadlift sumo",)},
    "trap bar deadlift": {"short": ("trap bar dl", "hex bar dl", "trp br dl"), "slip": ("trap bar deadlfit",), "turned": ("deadlift trap bar",)},
    "bench press": {"short": ("bp", "bench", "bnch"), "slip": ("benhc press", "bench pres", "becnh press"), "turned": ("bench press",)},
    "close grip bench press": {"short": ("cgbp", "cg bench"), "slip": ("close grip benhc press",), "turned": ("bench close grip", "bench press close grip")},
    "strict press": {"short": ("str press", "strict press"), "slip": ("strcit press", "strict pres"), "turned": ("press strict",)},
    "power clean": {"short": ("pc", "pwr clean", "pwr cln", "p clean"), "slip": ("power claen", "pwoer clean"), "turned": ("power clean",)},
    "hang power snatch": {"short": ("hps", "hang pwr snatch", "hang pwr sn"), "slip": ("hang power sntach", "hang pwoer snatch"), "turned": ("snatch hang power",)},
    "clean and jerk": {"short": ("c&j", "cj", "c+j", "cln & jrk"), "slip": ("clean and jrek", "claen and jerk"), "turned": ("clean and jerk",)},
    "hip thrust": {"short": ("hip thrst", "hip thrust"), "slip": ("hip trhust", "hip thurst"), "turned": ("hip thrust",)},
    "strict pull-up": {"short": ("strict pu", "str pull ups"), "slip": ("strict pullpus",), "turned": ("pull ups strict", "pull-ups strict")},
    "weighted dip": {"short": ("wtd dips", "weighted dips"), "slip": ("weigthed dips",), "turned": ("dips weighted",)},
}  # fmt: skip
_HEAVY = tuple(name for name in _NAMES if name not in ("strict pull-up", "weighted dip"))


def _name(hand: Hand, among: tuple[str, ...] = tuple(_NAMES)) -> tuple[str, str]:
    name = hand.random.choice(among)
    kind = hand.way("short: name", "short", "short", "slip", "turned")
    return name, hand.one(*_NAMES[name][kind])


def _gold(name: str, sets: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    right: Any = {"any": [name, name.removeprefix("back ")]} if name == "back squat" else name
    return {"kind": "lift", "lift": right, "sets": sets, **more}


def _then(hand: Hand) -> str:
    return hand.way("short: between", " ", ": ", " - ", ", ")


def sets_of(hand: Hand) -> Told:
    """So many sets of so many repetitions at a share, in every order and sign."""
    name, typed = _name(hand, _HEAVY)
    sets, reps = hand.random.choice(((5, 3), (4, 6), (3, 8), (6, 2), (4, 5)))
    percent = hand.random.choice((65, 70, 72.5, 75, 80, 82))
    words = {2: "twos", 3: "threes", 5: "fives", 6: "sixes", 8: "eights"}[reps]
    form = hand.way(
        "short: sets", "{s}x{r} {p}%", "{r}r x {s}s x {p}%", "{s}s x {r}r x {p}%", "{r} reps x {s} @ {p}%", "{r} reps x{s} @{p}%", "{r}rep x {s} {p}%", "{s} sets at {p}% - {r} reps",
        "{s} sets @ {p}%, {r} reps", "{s} {w} @ {p}%", "{s} x {r} – {p} %", "{s}×{r} ({p}%)", "{r} @ {p}% x {s}", "{p}% x {r} x {s}", "{s} sets, {r} reps, {p} %", "{r} reps {s} sets {p}%",
        "{s} sets of {r}, {p}% of your max", "{p}%: {s}x{r}", "{s}·{r} {p}%", "{s}x{r} @ {p}% max", "{s} x {r} bei {p} Prozent vom Maximum", "{s}x{r} al {p}% del max", "@{p}% {s}x{r}",
    )  # fmt: skip
    tail = hand.way(
        "short: rest",
        "",
        "",
        ", rest 2",
        " RT 2'",
        " – 120 s",
        ", rst 120s",
        " (rest between sets: 2 min)",
        ", 2 min rest",
    )
    line = typed + _then(hand) + form.format(s=sets, r=reps, p=percent, w=words) + tail
    more = {"rest_s": 120} if tail else {}
    return [line], [_gold(name, [{"sets": sets, "reps": reps, "percent": percent}], **more)]


def singles(hand: Hand) -> Told:
    """Singles, doubles, triples with a load each, or so many of them at one."""
    name, typed = _name(hand, _HEAVY)
    word, reps = hand.one(("singles", 1), ("doubles", 2), ("triples", 3))
    start, count = hand.random.choice((60, 65, 70)), hand.random.choice((4, 5))
    loads = [min(start + 5 * place, start + 15) for place in range(count)]
    form = hand.way(
        "short: singles", "{w} {l}%", "{w} @ {l}%", "{w} at {l} %", "{w}: {l}%", "{w} at {o}%, {n} sets", "{w}, {n} of them, {o}%", "{n} {w} @ {o}%", "{n} {w} at {o} percent",
    )  # fmt: skip
    row = hand.way("short: row", " ", ", ", "/").join(str(each) for each in loads)
    line = typed + hand.way("short: lead", " ", ": ") + form.format(w=word, l=row, o=loads[-1], n=count)
    sets = (
        [{"sets": 1, "reps": reps, "percent": each} for each in loads]
        if "{l}" in form
        else [{"sets": count, "reps": reps, "percent": loads[-1]}]
    )
    return [line], [_gold(name, sets)]


def of_other(hand: Hand) -> Told:
    """A share of another lift's max."""
    pull, of, short = hand.one(
        ("clean pull", "clean", "clean"),
        ("snatch pull", "snatch", "snatch"),
        ("romanian deadlift", "deadlift", "dl"),
        ("front squat", "back squat", "bs"),
    )
    percent = hand.random.choice((60, 70, 95, 100))
    form = hand.way(
        "short: of", "{p}% of {o}", "{p}% of {o} max", "{p}% of your {o} 1RM", "{p}% (of {o} 1rm)", "{p}% of 1rm {o}", "{p} of {o} max", "{p}% (% of the {o} max)", "{p}% of your best {o}", "{p}% off your {o} 1rm",
    )  # fmt: skip
    line = f"{pull} 4x3 @ {form.format(p=percent, o=hand.one(of, short))}"
    return [line], [_gold(pull, [{"sets": 4, "reps": 3, "percent": percent}], of={"reps": 1, "lift": of})]


def on_one_line(hand: Hand) -> Told:
    """Several lifts on one line, by letters, strokes or a superset."""
    first, second, third = (("bench press", "bench"), ("pull-up", "pull ups"), ("biceps curl", "curls"))
    form = hand.way(
        "short: one line", "A) {a} 5x5 B) {b} 4x8 C) {c} 3x12", "A. {a} 5x5 B. {b} 4x8 C. {c} 3x12", "a1 {a} 5x5 a2 {b} 4x8 b {c} 3x12", "A1 {a} 5x5, A2 {b} 4x8, B1 {c} 3x12", "A1: {a} 5x5 / A2: {b} 4x8 / B: {c} 3x12",
        "A: {a} 5x5; B: {b} 4x8; C: {c} 3x12", "(A) {a} 5x5 (B) {b} 4x8 (C) {c} 3x12",
    )  # fmt: skip
    if form.startswith("a1"):
        form = form.replace(" b {c}", " b1 {c}")
    names = [first, second, third]
    line = form.format(a=first[1], b=second[1], c=third[1])
    sets = ((5, 5), (4, 8), (3, 12))
    gold = [_gold(name, [{"sets": count, "reps": reps}]) for (name, _), (count, reps) in zip(names, sets, strict=True)]
    if "2" in form.split("{b}")[0][-5:]:
        gold[1]["superset"] = True
    return [line], gold


def superset(hand: Hand) -> Told:
    """A second lift in turn with the first, on its own line."""
    name, typed = _name(hand, _HEAVY)
    form = hand.way(
        "short: superset", "ss w/ 8 pull ups", "SS with 8 pull-ups", "superset with 8 pull ups", "superset those with pull ups, 8 each time", "ss pull ups 4x8", "superset the 4x5 with pull ups, 8 each time",
        "superset w/ pull ups 4x8",
    )  # fmt: skip
    return [f"{typed} 4x5 @ 75%", form], [
        _gold(name, [{"sets": 4, "reps": 5, "percent": 75}]),
        _gold("pull-up", [{"sets": 4, "reps": 8}], superset=True),
    ]


def tests(hand: Hand) -> Told:
    """Several tests on one line."""
    form = hand.way(
        "short: tests", "back squat {n}RM, bench {n}RM, deadlift {n}RM", "squat, bench, deadlift {n}rm", "sq, bp, dl {n}rm test", "back squat {n}rm / bench {n}rm / deadlift {n}rm",
        "back squat {n}RM, 10 min rest, bench {n}RM, 10 min rest, deadlift {n}RM",
    )  # fmt: skip
    number = hand.random.choice((1, 3))
    names = ("back squat", "bench press", "deadlift")
    return [form.format(n=number)], [_gold(name, [{"find": f"{number}RM", "reps": number}]) for name in names]


def taken_back(hand: Hand) -> Told:
    """What is put right at once, or on a later line."""
    name, typed = _name(hand, _HEAVY)
    form = hand.way(
        "short: put right", "{x} five sets, no four sets of 5 at 75%", "{x} 5 sets no wait 4 sets of 5 at 75%", "{x} 3x5 sorry 4x5 @ 75%", "{x} 4x5 @ 70%|edit: {y} at 75% not 70, sorry",
        "{x} 4x5 @ 70%|correction: {y} @ 75%, not 70%", "snatch? no: {x} 4x5 @ 75%", "{x} 5x5 -> now 4x5 @ 75%",
    )  # fmt: skip
    if "snatch" in form and "snatch" in name:
        form = "{x} 3x5 sorry 4x5 @ 75%"
    lines = form.format(x=typed, y=name).split("|")
    return lines, [_gold(name, [{"sets": 4, "reps": 5, "percent": 75}])]


def with_piece(hand: Hand) -> Told:
    """A lift and a piece in one breath."""
    name, typed = _name(hand, _HEAVY)
    form = hand.way(
        "short: piece", "{x} 4x5 @ 75%, 10 min amrap 10 push ups 10 situps", "{x} 4x5 @ 75% then 10 min amrap 10 push ups 10 situps", "{x} 4x5 @ 75% / AMRAP 10: 10 push ups, 10 situps",
        "{x} 4x5 @ 75%. then amrap 10: 10 push ups 10 situps", "wu row 5 min / {x} 4x5 @ 75% / AMRAP 10: 10 push ups, 10 situps", "{x} 4x5 @ 75% amrap 10 min: 10 push ups, 10 situps",
        "{x} 4x5 @ 75%, followed by a 10 min amrap of 10 push ups 10 situps", "{x} 4x5 75% und dann 10 min amrap 10 push ups 10 situps", "{x} 4x5 75% poi 10 min amrap 10 push ups 10 situps",
    )  # fmt: skip
    piece = {
        "kind": "as many as possible",
        "cap": "10:00",
        "movement": [{"name": "push up", "first": 10}, {"name": "sit up", "first": 10}],
    }
    return [form.format(x=typed)], [
        _gold(name, [{"sets": 4, "reps": 5, "percent": 75}]),
        {"kind": "piece", "piece": piece},
    ]


def of_all(hand: Hand) -> Told:
    """How hard all lifts are, said once below them."""
    form, key, value = hand.one(
        ("everything at 3 RIR", "in_reserve", 3),
        ("all at RPE 7", "rpe", 7),
        ("Everything @ RPE 8, no heroes", "rpe", 8),
        ("all sets with 2 in the tank", "in_reserve", 2),
    )
    names = (("goblet squat", "goblet squats"), ("push-up", "push ups"), ("dumbbell row", "db row"))
    return [*(f"{typed} 3x10" for _, typed in names), form], [
        _gold({"any": [name]}, [{"sets": 3, "reps": 10, key: value}])
        for name, _ in names  # type: ignore[arg-type]
    ]


def more_than(hand: Hand) -> Told:
    """More than last week: no load of its own."""
    name, typed = _name(hand, _HEAVY)
    form = hand.way(
        "short: more", "{x} 3x5, 2.5kg more than last week", "{x} 3x5 last week + 2.5 kg", "{x} 3x5, add 2.5 kg to last week", "{x} 3x5 +2.5kg from last week", "{x} 3x5, 2.5 kg up on last week",
        "{x} 2.5kg heavier than last week 3x5",
    )  # fmt: skip
    return [form.format(x=typed)], [_gold(name, [{"sets": 3, "reps": 5, "load": None, "percent": None}])]


def told_once(hand: Hand) -> Told:
    """What several lifts share, said once; the same sets again."""
    form = hand.way(
        "short: shared", "squat, bench, deadlift 3x5 @ 75%", "squat / bench / deadlift 3x5 75%", "squat 3x5 @ 75%, bench same, deadlift same", "squat & bench & deadlift: 3x5 @ 75%", "squat, bench and deadlift 3 sets of 5 at 75%",
    )  # fmt: skip
    sets = [{"sets": 3, "reps": 5, "percent": 75}]
    return [form], [_gold({"any": ["squat", "back squat"]}, sets), _gold("bench press", sets), _gold("deadlift", sets)]  # type: ignore[arg-type]


def efforts(hand: Hand) -> Told:
    """An effort for each set, or one for all."""
    name, typed = _name(hand, _HEAVY)
    form = hand.way(
        "short: efforts",
        "{x} 3x5 RPE 7/8/9",
        "{x} 3x5 (RPE 7/8/9)",
        "{x} 3x5 @ RPE 7, 8, 9",
        "{x} 3x5 rpe 7>8>9",
        "{x} 5 @ RPE 7, 5 @ 8, 5 @ 9",
    )
    return [form.format(x=typed)], [_gold(name, [{"sets": 1, "reps": 5, "rpe": value} for value in (7, 8, 9)])]


# A language: its day, lifts, "so many sets of so many", a share of the 1RM, a rest of two minutes
_ABROAD: tuple[dict[str, Any], ...] = (
    {"day": (("lunedì", "monday"), ("Venerdì", "friday"), ("Mercoledì", "wednesday")), "lifts": (("back squat", "squat dietro"), ("bench press", "panca piana"), ("deadlift", "stacco"), ("romanian deadlift", "stacco rumeno"), ("clean", "girata"), ("snatch", "strappo")),
     "sets": ("4x5", "4 serie da 5", "4 serie da 5 ripetizioni", "quattro serie da cinque"), "of": ("al 75% del massimale", "75% 1RM", "all'80% del massimale"), "rest": ("rec 2'", "recupero 2 min", "riposo 2 min")},
    {"day": (("Segunda-feira", "monday"), ("Terça", "tuesday"), ("Sexta", "friday")), "lifts": (("back squat", "agachamento costas"), ("bench press", "supino"), ("deadlift", "levantamento terra"), ("front squat", "agachamento frontal"), ("bent over row", "remada curvada")),
     "sets": ("4x5", "4 séries de 5", "4 séries de 5 repetições", "quatro séries de cinco"), "of": ("a 75% do 1RM", "75% de 1RM", "com 75% do 1RM"), "rest": ("descanso 2 min", "descanso de 2 min", "intervalo 2 min")},
    {"day": (("Maandag", "monday"), ("woensdag", "wednesday"), ("Vrijdag", "friday")), "lifts": (("bench press", "bankdrukken"), ("deadlift", "deadlift"), ("squat", "kniebuiging"), ("front squat", "front squat")),
     "sets": ("4x5", "4 sets van 5", "4 sets van 5 herhalingen", "vier sets van vijf"), "of": ("op 75% van je 1RM", "75% 1RM", "op 75% van je max"), "rest": ("2 min rust", "rust 2 min", "pauze 2 min")},
    {"day": (("Montag", "monday"), ("Mi 18 Uhr", "wednesday"), ("Donnerstag", "thursday")), "lifts": (("front squat", "Kniebeuge vorn"), ("back squat", "Kniebeuge hinten"), ("bench press", "Bankdrücken"), ("deadlift", "Kreuzheben"), ("snatch", "Reißen"), ("romanian deadlift", "Kreuzheben rumänisch")),
     "sets": ("4x5", "4 Sätze à 5", "4 Sätze à 5 Wdh", "vier Sätze mit je fünf Wiederholungen", "vier mal fünf"), "of": ("mit 75 % vom 1RM", "bei fünfundsiebzig Prozent vom Maximum", "75% 1RM"), "rest": ("Pause 2 min", "2 min Pause", "Satzpause 2 min")},
    {"day": (("Lundi", "monday"), ("mercredi", "wednesday"), ("Vendredi", "friday")), "lifts": (("front squat", "squat avant"), ("bench press", "développé couché"), ("deadlift", "soulevé de terre"), ("snatch", "arraché"), ("clean and jerk", "épaulé-jeté")),
     "sets": ("4x5", "4 séries de 5", "4 séries de 5 reps", "quatre séries de cinq"), "of": ("à 75 % du 1RM", "75% 1RM", "à soixante-quinze pour cent du 1RM"), "rest": ("récup 2 min", "repos 2 min", "2 min de repos")},
    {"day": (("Lunes", "monday"), ("miércoles", "wednesday"), ("Viernes", "friday")), "lifts": (("front squat", "sentadilla frontal"), ("back squat", "sentadilla trasera"), ("bench press", "press banca"), ("deadlift", "peso muerto"), ("romanian deadlift", "peso muerto rumano"), ("snatch", "arrancada")),
     "sets": ("4x5", "4 series de 5", "4 series de 5 repeticiones", "cuatro series de cinco"), "of": ("al 75% del 1RM", "75% 1RM", "al setenta y cinco por ciento del 1RM"), "rest": ("descanso 2 min", "2 min de descanso", "pausa 2 min")},
)  # fmt: skip


def abroad(hand: Hand) -> Told:
    """Lifts in the words of another language, its day above them."""
    tongue = hand.random.choice(_ABROAD)
    typed_day, day = hand.random.choice(tongue["day"])
    lines, gold = [typed_day], []
    for name, typed in hand.random.sample(tongue["lifts"], 2):
        sets, of, rest = (hand.way(f"abroad: {key}", *tongue[key]) for key in ("sets", "of", "rest"))
        rests = hand.perhaps(0.6)
        percent = 80 if "80" in of else 75
        lines.append(f"{typed}{hand.way('short: lead', ' ', ': ')}{sets} {of}" + (f", {rest}" if rests else ""))
        more: dict[str, Any] = {"rest_s": 120} if rests else {}
        gold.append(_gold(name, [{"sets": 4, "reps": 5, "percent": percent}], of={"reps": 1}, **more))
    hand.habits["day"] = day
    return lines, gold


def in_table(hand: Hand) -> Told:
    """The sets of one lift below its name in a table, or a table with a column of units."""
    head = hand.way(
        "short: table",
        "| set | reps | % of 1RM |",
        "| # | reps | % |",
        "set;reps;%1RM",
        "| sets | reps | % of 1RM |",
        "day;exercise;sets;reps;load;unit",
    )
    if head.startswith("day"):
        lines = [head, "Mon;Back squat;4;6;72,5;%1RM", "Mon;Romanian deadlift;3;8;80;kg"]
        return lines, [
            _gold("back squat", [{"sets": 4, "reps": 6, "percent": 72.5}], of={"reps": 1}),
            _gold("romanian deadlift", [{"sets": 3, "reps": 8, "load": "80", "unit": "kg"}]),
        ]
    sign = ";" if ";" in head else " | "
    rows = ((1, 5, 65), (2, 5, 70), (3, 3, 80)) if "sets" not in head else ((2, 5, 65), (2, 5, 70), (3, 3, 80))
    lines = [sign.join(map(str, row)) if sign == ";" else f"| {sign.join(map(str, row))} |" for row in rows]
    counts = [row[0] if "sets" in head else 1 for row in rows]
    sets = [{"sets": count, "reps": row[1], "percent": row[2]} for count, row in zip(counts, rows, strict=True)]
    return ["Push press", head, *(["|---|---|---|"] if "|" in head else []), *lines], [_gold("push press", sets)]


def in_passing(hand: Hand) -> Told:
    """Sets said twice, loads told by repetitions or in their turn, several loads with one count, sets counted behind."""
    name, typed = _name(hand, _HEAVY)
    once = [{"sets": 1, "reps": 5, "load": "60", "unit": "kg"}, {"sets": 3, "reps": 3, "load": "70", "unit": "kg"}]
    fives = [{"sets": 2, "reps": 5, "percent": 70}, {"sets": 2, "reps": 3, "percent": 80}]
    turns = [{"sets": 2, "reps": 6, "percent": 75}, {"sets": 2, "reps": 6, "percent": 80}]
    rising = [{"sets": 1, "reps": 3, "percent": percent} for percent in (70, 80, 90)]
    behind = [{"sets": 6, "reps": 3, "percent": 80}]
    form, sets = hand.one(
        ("{x} 60kg x5, 70kg x3x3 (three triples)", once), ("{x} 60kg x5, 70kg x3x3 triples", once), ("{x} 60kg x5 70kg x3x3 (3 sets of 3)", once),
        ("{x} 5-5-3-3, 70% on the 5s, 80 on the 3s", fives), ("{x} 5-5-3-3: 70% for the 5s, 80% for the 3s", fives), ("{x} 5s at 70%, 3s at 80%, two sets of each", fives),
        ("{x} 4x6, 75% first two, 80% last two", turns), ("{x} 4 x 6 - 75% for the first 2, 80% for the last 2", turns), ("{x} 70/80/90% x 3", rising), ("{x} 70, 80, 90% x3", rising),
        ("{x}, sets of 3, six of them, 80%", behind), ("{x} sets of 3, 6 of them @ 80%", behind),
    )  # fmt: skip
    return [form.format(x=typed)], [_gold(name, sets)]


_WAYS = (
    sets_of,
    sets_of,
    singles,
    of_other,
    on_one_line,
    superset,
    tests,
    taken_back,
    with_piece,
    of_all,
    more_than,
    in_table,
    told_once,
    efforts,
    in_passing,
    abroad,
    abroad,
)


def a_text(hand: Hand) -> tuple[str, dict[str, Any]]:
    """One text of a short hand, with its facts."""
    way = hand.random.choice(_WAYS)
    hand.chosen.add(("short", way.__name__))
    lines, items = way(hand)
    head = hand.way("short: head", "", "", "", "Tue", "thurs:")
    day = {"Tue": "tuesday", "thurs:": "thursday"}.get(head)
    if lines[0].startswith("day;"):
        head, day = "", "monday"
    if "day" in hand.habits:
        head, day = "", hand.habits["day"]
    lines = [*([head] if head else []), *lines]
    return "\n".join(lines) + "\n", {"sessions": [{"day": day, "items": items}], "asks": []}
