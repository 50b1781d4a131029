"""What is usual for movements: units of loads, measures, what stands in for what; common practice."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.lifts.sets_found import unit_of
from tracker.prescription.sheet.piece import Count, Movement, Pair
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.pieces.stand_ins import usually_for
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.prescription.sheet.words.names import full_name, known
from tracker.units import MOST_KG, Mass


def shared_load(tokens: list[Token], own: str, unit: str) -> Any:
    """A load on a line of its own is that of all movements: `50/35 bar`."""
    first = next((token for token in tokens if token.kind in ("pair", "mass")), None)
    if first is None or not (re.search(r"\b(?:bar|barbell|all|weight)\b", own) or len(tokens) == 1):
        return None
    amounts = list(first.value) if first.kind == "pair" else first.value[0]
    return mass_or_pair(amounts, unit if first.kind == "pair" else unit_of(first.value[1]))


_OF_ALL = re.compile(
    r"\b(?:all|everything)(?: (?:reps|moves|movements|of it|done|is))?,? ?(?:at|with|@|on|:|=)(?: (?:one|a|an|the|1))? ?(?P<a>\d{1,3}(?:\.\d)?)(?: ?/ ?(?P<b>\d{1,3}(?:\.\d)?))? ?(?P<u>kg|lb)\b(?! ?[x@])"
    r"|(?<![\w.])(?P<c>\d{1,3}(?:\.\d)?)(?: ?/ ?(?P<d>\d{1,3}(?:\.\d)?))? ?(?P<v>kg|lb) (?:for|on) (?:everything|all(?: of it| movements| moves)?)\b"
)


def load_of_all(text: str) -> Any:
    """`all at 24 kg`, `24/16 kg for everything`: the load of all movements that take one."""
    found = _OF_ALL.search(text)
    if found is None:
        return None
    amounts = [each for each in (found["a"] or found["c"], found["b"] or found["d"]) if each]
    return mass_or_pair(amounts, found["u"] or found["v"])


def mass_or_pair(amounts: list[Any], unit: str) -> Mass | Pair | None:
    """One load, or two for two groups with the larger one first; None where it can be none."""
    masses = sorted((Mass(Decimal(amount), unit) for amount in amounts), key=lambda each: -each.amount)  # type: ignore[arg-type]
    if not all(0 < mass.kg <= MOST_KG for mass in masses):
        return None
    return masses[0] if len(masses) == 1 or masses[0] == masses[1] else Pair(masses[0], masses[1])


def amounts_of(load: Mass | Pair) -> list[Decimal]:
    """The amounts of a load, the larger first."""
    return [load.larger.amount, load.smaller.amount] if isinstance(load, Pair) else [load.amount]


def is_engine(move: Movement) -> bool:
    entry = known(move.name)
    return entry is not None and move.name in (
        "run",
        "row",
        "ski",
        "bike",
        "swim",
        "walk",
        "ruck",
        "jump rope",
        "single under",
        "stride",
        "hill sprint",
    )


def is_test(text: str) -> bool:
    """Whether a distance is done as fast as can be: `2k row test`."""
    return re.search(r"\b(?:tests?|max(?:imum)? effort|all[ -]out|time trial|tt)\b", text) is not None


def usual_in_kilos(move: Movement, pair: Pair) -> bool:
    """Whether a pair is usual in kilograms and not in pounds: common practice."""
    both = (pair.larger.amount, pair.smaller.amount)
    usual = {(60, 43), (43, 30), (61, 43), (24, 16), (9, 6), (32, 24), (102, 70), (84, 61), (70, 47), (20, 15)}
    return both in {(Decimal(a), Decimal(b)) for a, b in usual} or any(each != int(each) for each in both)


def usual_in_pounds(move: Movement, larger: Decimal, smaller: Decimal | None) -> bool:
    """Whether a load is usual in pounds and not in kilograms: common practice."""
    pair = (int(larger), int(smaller)) if smaller is not None else (int(larger), 0)
    if "dumbbell" in move.name:
        return pair in {(50, 35), (35, 20), (35, 25), (70, 50), (60, 40), (40, 25), (45, 30)}
    if "kettlebell" in move.name or "goblet" in move.name or "turkish" in move.name:
        return pair in {(53, 35), (70, 53), (35, 26), (35, 18), (44, 26)}
    if move.name == "wall ball":
        return pair in {(20, 14), (14, 10), (30, 20)}
    return pair in {
        (95, 65),
        (115, 75),
        (115, 80),
        (135, 95),
        (155, 105),
        (185, 125),
        (185, 135),
        (205, 145),
        (225, 155),
        (275, 185),
        (315, 205),
        (75, 55),
        (65, 45),
        (95, 0),
        (135, 0),
    }


def named_distance(move: Movement, piece: PieceDraft) -> Movement:
    """A distance whose name the table does not have is of what was done for a distance before: "another 1000 metres"."""
    if (
        move.measure != "m"
        or known(move.name) is not None
        or not re.search(r"\b(?:another|more|again|together|back|last)\b", move.name)
    ):
        return move
    before = next((each.name for each in reversed(piece.moves) if each.measure == "m"), "")
    return (
        replace(move, name=before, standard=", ".join(part for part in (move.name, move.standard) if part))
        if before
        else move
    )


def usual_measure(move: Movement, piece: PieceDraft) -> Movement:
    """Fill the measure that cannot be another: `400 run` is metres."""
    name = move.name.split()[-1] if move.name else ""
    if (
        move.measure == "reps"
        and move.count is not None
        and not move.count.listed
        and name in ("run", "row", "ski", "bike", "swim", "walk", "sprint")
        and move.count.reps[0] >= 100
    ):
        return replace(move, measure="m")
    if move.options:
        return replace(move, options=tuple(usual_measure(each, piece) for each in move.options))
    return move


_WEAK = frozenset(
    {
        "up",
        "over",
        "jump",
        "the",
        "to",
        "single",
        "leg",
        "arm",
        "hand",
        "hang",
        "strict",
        "dumbbell",
        "kettlebell",
        "barbell",
    }
)


def surely_for(option: Movement, moves: list[Movement]) -> int | None:
    """Which movement an option stands for: the same one, what it is usually done in place of, or one with a word in common."""
    if (same := next((place for place, move in enumerate(moves) if move.name == option.name), None)) is not None:
        return same
    if (usual := usually_for(option, moves)) is not None:
        return usual
    words = set(option.name.replace("-", " ").split()) - _WEAK
    scores = [len(words & set(move.name.replace("-", " ").split())) for move in moves]
    return scores.index(max(scores)) if scores and max(scores) > 0 else None


def place_for(option: Movement, moves: list[Movement]) -> int:
    """Which movement an option stands for: the one that it surely does, else the last one of its kind, else the last."""
    if (sure := surely_for(option, moves)) is not None:
        return sure
    words = set(option.name.replace("-", " ").split())
    scores = [len(words & set(move.name.replace("-", " ").split())) for move in moves]
    if max(scores) > 0:
        return scores.index(max(scores))
    pulls = {"pull", "row", "chin", "bar", "muscle"}
    if words & pulls:
        for place in range(len(moves) - 1, -1, -1):
            if set(moves[place].name.replace("-", " ").split()) & pulls:
                return place
    return len(moves) - 1


KIT = {
    "rower": ("row",), "rowing machine": ("row",), "erg": ("row", "ski", "bike"), "bike": ("bike",), "barbell": ("barbell",), "bar": ("barbell", "pull", "bar"),
    "rig": ("pull-up", "toes to bar", "muscle-up", "chest to bar pull-up"), "pull-up bar": ("pull-up", "chin-up", "toes to bar", "chest to bar pull-up"), "pull up bar": ("pull-up", "chin-up", "toes to bar"),
    "rope": ("double under", "rope climb"), "jump rope": ("double under",), "du": ("double under",), "dus": ("double under",), "dubs": ("double under",), "double unders": ("double under",),
    "box": ("box",), "kasten": ("box",), "cajón": ("box",), "caisse": ("box",), "kugel": ("kettlebell",), "stange": ("pull-up",), "rig bar": ("pull-up",), "ball": ("wall ball", "ball"), "wall ball": ("wall ball",), "running": ("run",), "run": ("run",), "kettlebell": ("kettlebell",), "kb": ("kettlebell",),
    "dumbbells": ("dumbbell",), "dumbbell": ("dumbbell",), "db": ("dumbbell",), "machine": ("row", "bike", "ski", "machine"), "rings": ("ring",),
}  # fmt: skip


def wanted_place(words: str, moves: list[Movement]) -> int | None:
    """Which movement is meant by what is not there: the movement itself, or what it needs."""
    words = words.strip()
    words = re.sub(r"'s\b", "s", words)
    if words in ("them", "it", "these", "those", "that") and moves:
        return len(moves) - 1
    if words in ("cal", "cals", "calories"):
        counted = [at for at, move in enumerate(moves) if move.measure == "cal"]
        return counted[0] if len(counted) == 1 else None
    if cals := re.fullmatch(r"(\d{1,3}) ?cals?", words):
        amount = (int(cals[1]),)
        return next(
            (at for at, m in enumerate(moves) if m.measure == "cal" and m.count and m.count.reps == amount), None
        )
    name, entry = full_name(words)
    for place, move in enumerate(moves):
        if move.name == name:
            return place
    for wanted in KIT.get(words, KIT.get(words.rstrip("s"), ())):
        for place, move in enumerate(moves):
            known_move = known(move.name)
            if wanted in move.name or (known_move is not None and known_move.implement == wanted):
                return place
    plain_words = set(words.replace("-", " ").split())
    for place, move in enumerate(moves):
        if plain_words and plain_words <= set(move.name.replace("-", " ").split()):
            return place
    if entry is not None:
        last = entry.name.split()[-1]
        return next((place for place, move in enumerate(moves) if move.name.split()[-1:] == [last]), None)
    return None


HELD_WORDS = {"ball": "ball", "dumbbell": "dumbbell", "dumbbells": "dumbbell", "db": "dumbbell", "dbs": "dumbbell", "kettlebell": "kettlebell", "kettlebells": "kettlebell", "kb": "kettlebell",
               "kbs": "kettlebell", "bar": "barbell", "barbell": "barbell", "backpack": "backpack", "sandbag": "sandbag", "bag": "bag"}  # fmt: skip


_NUMBER_OF = re.compile(r"^(?:with )?(?:an?|one|two|1|2|single|the|both)(?: single)? ")


def like_main(option: Movement, main: Movement) -> Movement:
    """Give an option that only says another implement or manner the name of its movement: "two dumbbells", "on knees"."""
    words = [
        word
        for word in option.name.lower().replace("-", " ").split()
        if word not in ("the", "a", "or", "same", "just", "with", "two", "one", "2", "1")
    ]
    held = HELD_WORDS.get(_NUMBER_OF.sub("", option.assistance.strip(" .")), "")
    if held and held != "barbell" and option.name != main.name and known(f"{held} {option.name}") is not None:
        return replace(option, name=full_name(f"{held} {option.name}")[0], assistance="")
    words = [
        word
        for word in words
        if word not in ("regular", "normal", "usual", "plain", "loaded", "chargé", "heavy", "cargada", "beladen")
    ]
    if words and known(option.name) is None and known(" ".join(words)) is not None:
        option = replace(option, name=full_name(" ".join(words))[0])
    if (
        option.load is not None
        and option.count is None
        and main.load is not None
        and main.name.endswith(f" {option.name}")
    ):
        return replace(option, name=main.name)  # "scaled: cleans at 95/65" below power cleans
    if held and option.name == main.name:
        bare = main.name.removeprefix("barbell ").removeprefix("dumbbell ").removeprefix("kettlebell ")
        return replace(option, name=bare if held == "barbell" else f"{held} {bare}", assistance="")
    head = (
        main.name.split(" ", 1)[1]
        if main.name.split(" ")[0] in ("dumbbell", "kettlebell", "barbell") and " " in main.name
        else main.name
    )
    if words and all(word in HELD_WORDS for word in words):
        held = HELD_WORDS[words[0]]
        return replace(option, name=head if held == "barbell" else f"{held} {head}")
    if head == "push-up" and words and known(option.name) is None:
        if set(words) & {"knee", "knees"}:
            return replace(option, name="knee push-up")
        if set(words) & {"bench", "box", "sofa", "chair", "table", "wall", "elevated", "counter", "bar"}:
            return replace(option, name="incline push-up")
    if head == "push-up" and option.name == "bench press" and option.load is None and option.count is None:
        return replace(option, name="incline push-up")
    if (
        words
        and known(option.name) is None
        and words[0]
        in ("single", "one", "jumping", "strict", "banded", "kipping", "slow", "assisted", "seated", "jump")
    ):
        if (
            words[0] == "jumping"
            and len(words) > 1
            and known(words[1]) is not None
            and words[1].rstrip("s") not in head
        ):
            return option  # "jumping dips" are no jumping muscle-ups
        first = {"jumping": "jumping", "one": "single leg"}.get(words[0], words[0])
        if first == "single" and words[1:2] and words[1] in ("leg", "arm"):
            first = f"single {words[1]}"
        name, entry = full_name(f"{first} {head}")
        if first == "jumping" and entry is None:
            name = f"jumping {head}"
        return replace(option, name=name)
    return option


_TIMES = re.compile(
    r"(?:,\s*)?\b(?:(?:just )?times ?|x ?)(?P<n>[2-4])\b(?!\s*(?:\d|kg|lb|x))|^\W*(?P<m>[2-4]) ?x (?=[a-z])|,?\s*\b(?P<d>double|twice) (?:the |as many )?(?:number|reps|amount|count)?(?: of)?(?=\s|$)"
)
_AS_MANY = re.compile(
    r",?\s*\b(?:the )?same (?:number|reps|amount|count|repetitions)\b|,?\s*\bcounts? (?:as )?(?:half|double)\b"
)


def times_of(text: str) -> tuple[str, int]:
    """Take "x 2" from what is done instead: so many times as many as of the movement it stands for; 1 where it is as many, else 0."""
    if found := _TIMES.search(text):
        rest = f"{text[: found.start()]} {text[found.end() :]}".strip(" ,")
        return rest, 2 if found["d"] else int(found["n"] or found["m"])
    if found := _AS_MANY.search(text):
        return f"{text[: found.start()]} {text[found.end() :]}".strip(" ,"), 1 if "same" in found[0] else 0
    return text, 0


def multiplied(option: Movement, main: Movement, times: int, scheme: Count | None) -> Movement:
    """Give an option so many times its own count, or that of the movement it stands for."""
    count = option.count or main.count or scheme
    if not times or count is None or (times == 1 and option.count is not None):
        return option
    return replace(option, count=replace(count, reps=tuple(each * times for each in count.reps)))
