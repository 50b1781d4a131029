"""Whole texts with one piece or two, the words of a coach around them, and what they say."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from tests.prescription.sheet.hands.pieces import clocks, heads, lines
from tests.prescription.sheet.hands.pieces.hand import Hand
from tests.prescription.sheet.hands.pieces.heads import Head
from tests.prescription.sheet.hands.pieces.moves import Move, facts, load_words, words
from tests.prescription.sheet.hands.pieces.names import KINDS, right

HEADS = {
    "as many": heads.as_many, "ladder": heads.ladder, "for time": heads.for_time, "rounds": heads.rounds, "scheme": heads.scheme, "unscored": heads.unscored, "every minute": clocks.every_minute,
    "every few": clocks.every_few, "on and off": clocks.on_off, "tabata": clocks.tabata, "block": clocks.block,
}  # fmt: skip
LINES = {
    "intervals": lines.intervals,
    "most": lines.most,
    "timed": lines.timed,
    "distance": lines.distance,
    "single": lines.single,
}
BEFORE = (
    "",
    "",
    "",
    "",
    "",
    "Morning all",
    "Today:",
    "Ok team",
    "let's go!",
    "Here we go",
    "nice and easy today",
    "Hi everyone, tomorrow's class:",
    "Good morning!",
)
AFTER = (
    "",
    "",
    "",
    "",
    "have fun!",
    "Nice and steady.",
    "Go hard",
    "see you tomorrow",
    "Bring water",
    "post your score",
    "Enjoy :)",
    "keep moving",
    "score = rounds + reps",
    "Rest as needed",
    "pace it",
    "No music before 7am please",
)
SECTIONS = (
    "",
    "",
    "",
    "WOD",
    "Metcon",
    "METCON:",
    "Conditioning",
    "WOD:",
    "B)",
    "B.",
    "Workout",
    "**WOD**",
    "## Metcon",
    "C:",
    "Part B",
    "Metcon -",
    "Finisher",
    "🔥 WOD 🔥",
    "2)",
    "[Metcon]",
    "workout of the day",
    '"Rusty Gate"',
    "Engine",
)
REMARKS = (
    "unbroken if you can",
    "touch and go",
    "steady",
    "no rest between",
    "chest to floor",
    "scale as needed",
    "keep the hips down",
    "smooth",
)


@dataclass
class Case:
    """A text, what it says, and the choices that made it."""

    seed: int
    text: str
    gold: dict[str, Any]
    chosen: dict[str, str]


def case(seed: int) -> Case:
    """Make the text of a seed."""
    hand = Hand(random.Random(seed))
    kind = hand.pick("piece", (*HEADS, *HEADS, *LINES))
    if kind in LINES:
        hand.chosen["language"] = "en"
        text, piece = LINES[kind](hand)
        body = [text]
    else:
        body, piece = _piece(hand, kind)
    body = _headed(hand, body)
    before, after = hand.pick("before", BEFORE), hand.pick("after", AFTER)
    if hand.chosen.get("layout") == "spoken":
        before = after = ""
    rows = [before, *([""] if before and hand.rng.random() < 0.6 else []), *body]
    if after:
        rows += [""] if hand.rng.random() < 0.4 else []
        rows.append(after)
    text = "\n".join(row for place, row in enumerate(rows) if row or place)
    text = _signs(hand, text)
    return Case(seed, text, {"sessions": [{"items": [{"kind": "piece", "piece": piece}]}]}, hand.chosen)


def _piece(hand: Hand, kind: str) -> tuple[list[str], dict[str, Any]]:
    spoken = kind in ("as many", "rounds", "every minute", "scheme")
    hand.pick(
        "layout",
        ("lines",) * 6
        + ("bullets", "numbered", "inline", "inline", "inline", "one per line, comma", "indented")
        + (("spoken",) if spoken else ()),
    )
    if hand.chosen["layout"] == "spoken":
        hand.chosen["language"] = "en"
    else:
        hand.pick("language", ("en",) * 8 + ("de", "fr", "es"))
    if kind == "block":
        hand.chosen["layout"] = hand.any(("lines", "bullets"))
        hand.chosen["language"] = "en"
    if kind in ("every few", "on and off", "tabata", "unscored", "ladder"):
        hand.chosen["language"] = "en"
    head = HEADS[kind](hand)
    moves = _moves(hand, head, kind)
    said = (
        [_mark(hand, head, place) + words(hand, move) for place, move in enumerate(moves)]
        if hand.chosen["layout"] != "spoken"
        else [words(hand, move) for move in moves]
    )
    piece = dict(head.facts)
    piece["movement"] = [_gold(move, head) for move in moves]
    if len(moves) > 1 and head.of_rounds:
        del piece["intervals"]  # of all movements, or of each
    _some_more(hand, head, kind, said, piece, moves)
    return _laid_out(hand, head, said, kind), piece


def _moves(hand: Hand, head: Head, kind: str) -> list[Move]:
    count = len(head.stations) or (
        hand.any((2, 2, 3))
        if kind in ("scheme", "ladder")
        else 1
        if kind == "tabata"
        else hand.any((2, 3, 3, 4))
        if kind != "on and off"
        else hand.any((1, 1, 2))
    )
    counted = (
        tuple(each for each in KINDS if each.measure in ("reps", "cal"))
        if kind in ("scheme",)
        else tuple(each for each in KINDS if each.measure == "reps")
        if kind in ("ladder", "on and off", "block", "tabata")
        else KINDS
    )
    found: list[Move] = []
    while len(found) < count:
        move = facts(hand, counted=head.counted, kinds=counted)
        if any(move.kind.name == each.kind.name for each in found):
            continue
        if not head.counted and move.kind.measure not in ("reps", "cal"):
            continue
        if kind in ("ladder", "on and off", "block", "tabata") and move.kind.measure != "reps":
            continue
        move.most = head.most
        if head.each_line:
            move.count, move.pair, move.each_side = head.each_line, None, False
        found.append(move)
    if kind in ("as many", "rounds", "for time") and hand.rng.random() < 0.15:
        place = hand.rng.randrange(len(found))
        move = found[place]
        if not move.load and move.kind.measure == "reps" and not move.each_side:
            move.instead = hand.any(
                tuple(
                    each for each in KINDS if each.measure == "reps" and not each.load and each.name != move.kind.name
                )
            )
            hand.chosen["instead"] = "or"
    return found


def _gold(move: Move, head: Head) -> dict[str, Any]:
    found = move.gold()
    if head.step:
        found |= {"first": head.scheme[0], "step": head.step}
    elif head.scheme:
        found["reps"] = head.scheme
    if move.kind.measure == "cal" and head.scheme:
        found["measure"] = "cal"
    return found


def _mark(hand: Hand, head: Head, place: int) -> str:
    return head.stations[place] if head.stations else ""


def _some_more(hand: Hand, head: Head, kind: str, said: list[str], piece: dict[str, Any], moves: list[Move]) -> None:
    """Add what stands on lines of its own: rest, partners, scoring, a station of rest, a scaled way, buy-in and cash-out."""
    spoken = hand.chosen["layout"] == "spoken"
    if kind == "block":
        said.append(head.last)
    if spoken or kind in ("block", "tabata", "on and off"):
        return
    if kind in ("rounds", "unscored") and hand.rng.random() < 0.25:
        rest = hand.any((60, 90, 120))
        form = hand.pick(
            "rest line",
            (
                "rest {r} between rounds",
                "{r} rest between rounds",
                "Rest {r}",
                "rest {r} b/w rounds",
                "{r} rest",
                "(rest {r} between rounds)",
                "R {r}",
                "- {r} rest between rounds -",
            ),
        )
        written = {60: ("60s", "1 min", "1:00", "1'"), 90: ("90s", "1:30", "90 sec"), 120: ("2 min", "2:00", "2'")}[
            rest
        ]
        head.below.append(form.format(r=hand.any(written)))
        piece["rest"] = heads.clock(rest)
    if kind in ("as many", "for time", "rounds") and hand.rng.random() < 0.2:
        form = hand.pick(
            "partners",
            (
                "In pairs",
                "With a partner",
                "Teams of 2",
                "Partner WOD",
                "pairs, you go I go",
                "in teams of 3",
                "partner workout:",
                "Team of 3",
                "in 2s",
                "with a buddy",
                "teams of two",
                "2 person team",
                "Partner AMRAP" if kind == "as many" else "partners",
            ),
        )
        piece["partners"] = 3 if "3" in form else 2
        if hand.pick("partners place", ("above", "in head", "below")) == "above":
            head.above = form
        elif hand.chosen["partners place"] == "in head":
            head.line = (
                f"{form.rstrip(':')}: {head.line}"
                if hand.rng.random() < 0.5
                else f"{head.line}, {form[0].lower()}{form[1:].rstrip(':')}"
            )
        else:
            head.below.append(form)
    if kind in ("rounds", "scheme") and hand.rng.random() < 0.12 and len(piece["movement"]) == len(moves):
        style = hand.pick(
            "after each round",
            (
                "200 m run after each round",
                "after each round 200m run",
                "after every round: 200 m run",
                "+ 200m run after each round",
                "200m run between rounds",
            ),
        )
        head.below.append(style)
        piece["movement"].append({"name": "run", "first": 200, "measure": "m"})
    if kind in ("every few",) and hand.rng.random() < 0.3:
        head.below.append(
            hand.pick(
                "lowest",
                (
                    "score = slowest round",
                    "Score: slowest round",
                    "slowest round counts",
                    "score is your slowest set",
                    "Score = slowest",
                    "log slowest round",
                    "lowest round counts",
                    "score: worst round",
                ),
            )
        )
        piece["scored_by"] = "lowest"
    if kind == "for time" and hand.rng.random() < 0.2:
        extra = facts(
            hand,
            kinds=tuple(
                each for each in KINDS if each.name in ("run", "row", "double under") and each.measure != "cal"
            ),
        )
        style = hand.pick("buy-in", ("Buy-in: {m}", "buy in: {m}", "Buy-in {m}", "buyin: {m}", "Buy In - {m}"))
        said.insert(0, style.format(m=words(hand, extra, alone=False)))
        piece["movement"].insert(0, extra.gold())
    if kind in ("rounds", "for time") and hand.rng.random() < 0.12:
        extra = facts(
            hand,
            kinds=tuple(
                each for each in KINDS if each.name in ("run", "row", "double under") and each.measure != "cal"
            ),
        )
        style = hand.pick(
            "cash-out", ("Cash-out: {m}", "cash out: {m}", "Cash-out {m}", "cashout: {m}", "Cash Out - {m}")
        )
        said.append(style.format(m=words(hand, extra, alone=False)))
        piece["movement"].append(extra.gold())
    bare = [
        place
        for place, move in enumerate(moves)
        if not move.load and move.instead is None and move.kind.measure == "reps" and not move.kind.load
    ]
    if (
        kind in ("as many", "rounds", "for time", "scheme")
        and bare
        and len(piece["movement"]) == len(moves)
        and hand.rng.random() < 0.25
    ):
        place = hand.any(bare)
        others = tuple(
            each
            for each in KINDS
            if each.measure == "reps" and not each.load and all(each.name != move.kind.name for move in moves)
        )
        other, count = hand.any(others), hand.any((10, 12, 15, 20, 30))
        style = hand.pick(
            "swap",
            (
                "Home: {n} {x} instead of {y}",
                "{n} {x} instead of {y}",
                "no {y}: {n} {x}",
                "Scale: {y} -> {n} {x}",
                "Scaled: {n} {x} for {y}",
                "{y} = {n} {x}",
                "can't do {y}? {n} {x}",
                "instead of {y}: {n} {x}",
                "If you don't have {y}: {n} {x}",
                "sub {n} {x} for {y}",
                "At home: {n} {x} instead of {y}",
                "Home - {n} {x} for {y}",
                "no {y}? do {n} {x}",
                "{y}: or {n} {x}",
                "Option: {n} {x} instead of the {y}",
                "no {y} = {n} {x}",
                "beginners {n} {x} instead of {y}",
            ),
        )
        head.below.append(style.format(n=count, x=other.typed[0], y=moves[place].typed))
        piece["movement"][place]["options"] = [{"name": right(other.name), "first": count}]
    loaded = [place for place, move in enumerate(moves) if move.load]
    if (
        kind in ("as many", "rounds", "scheme")
        and len(loaded) == 1
        and hand.rng.random() < 0.2
        and len(piece["movement"]) == len(moves)
    ):
        move = moves[loaded[0]]
        other = Move(
            move.kind,
            move.typed,
            load=(round(move.load[0] / 2), *((round(move.load[0] / 3),) if len(move.load) > 1 else ())),
            unit=move.unit,
        )
        style = hand.pick(
            "scaled", ("Scaled: {m} {l}", "scaled {l}", "Scaled: {l}", "SC: {l}", "Scaling: {m} @ {l}", "scaled - {l}")
        )
        hand.chosen["unit style" if move.unit == "kg" else "pound style"] = (
            hand.chosen.get("unit style" if move.unit == "kg" else "pound style") or "kg"
        )
        head.below.append(style.format(m=move.typed, l=load_words(hand, other)))
        piece["movement"][loaded[0]]["options"] = [
            {"name": piece["movement"][loaded[0]]["name"], "load": other.gold()["load"]}
        ]


def _laid_out(hand: Hand, head: Head, said: list[str], kind: str) -> list[str]:
    layout = hand.chosen["layout"]
    first = [head.above] if head.above else []
    under = [head.below_first] if head.below_first else []
    if layout == "spoken":
        return [f"{head.line} {', '.join(said[:-1])} and {said[-1]}" if len(said) > 1 else f"{head.line} {said[0]}"]
    if kind in ("tabata", "on and off") and len(said) == 1 and layout != "lines":
        sign = hand.pick("behind", (": ", " ", " - ", ", "))
        return [head.line.rstrip(":") + sign + said[0]]
    if layout == "inline" and (
        not head.stations
        or hand.chosen.get("stations") == "numbered inline"
        or hand.chosen.get("stations") == "odd and even"
    ):
        sign = hand.pick(
            "inline sign", (", ", " + ", ", ", "; ", " / ") if not head.stations else (", ", " ", " / ", "; ")
        )
        lead = hand.pick("inline lead", (": ", ": ", " - ", " of ", ". ", " "))
        if head.line.rstrip().endswith((" of", ":")):
            lead = " "
        line = head.line + lead + sign.join(said)
        return [*first, *under, line, *head.below]
    if hand.chosen.get("stations") == "numbered inline":
        return [*first, head.line, *under, hand.any((", ", " / ", "; ", " ")).join(said), *head.below]
    marks = {"bullets": hand.same("bullet", ("- ", "• ", "* ", "▪️ ", "→ ", "+ ", "> ", "– ")), "indented": "   "}.get(
        layout, ""
    )
    rows = [f"{marks}{each}" for each in said]
    if layout == "numbered" and not head.stations:
        sign = hand.pick("number sign", (". ", ") "))
        rows = [f"{place}{sign}{each}" for place, each in enumerate(said, 1)]
    if layout == "one per line, comma":
        rows = [f"{each}," for each in rows[:-1]] + rows[-1:]
    if hand.rng.random() < 0.15 and kind not in ("ladder",):
        place = hand.rng.randrange(len(rows))
        rows[place] += (
            f" ({hand.pick('remark', REMARKS)})" if hand.rng.random() < 0.7 else f" - {hand.pick('remark', REMARKS)}"
        )
    colon = ":" if hand.pick("head end", (":", "", "", ".")) == ":" and not head.line.endswith((":", ".")) else ""
    gap = [""] if hand.chance("gap below head", 0.12) else []
    return [
        *first,
        head.line + colon,
        *under,
        *gap,
        *rows,
        *([""] if head.below and hand.rng.random() < 0.3 else []),
        *head.below,
    ]


def _headed(hand: Hand, body: list[str]) -> list[str]:
    if hand.chosen.get("layout") == "spoken":
        return body
    section = hand.pick("section", SECTIONS)
    if not section:
        return body
    if (
        section.endswith((")", ".", "C:"))
        or (section.endswith((":", "-")) and hand.rng.random() < 0.5)
        or (section == "Part B" and hand.rng.random() < 0.3)
    ):
        return [f"{section}{':' if section == 'Part B' else ''} {body[0]}", *body[1:]]
    return [section, *([""] if hand.rng.random() < 0.15 else []), *body]


def _signs(hand: Hand, text: str) -> str:
    style = hand.pick(
        "letters",
        ("as is",) * 8 + ("lower", "upper", "times sign", "curly", "bold head", "trailing", "no hyphens", "backticks"),
    )
    if style == "lower":
        return text.lower()
    if style == "upper":
        return text.upper()
    if style == "times sign":
        return text.replace(" x ", " × ")
    if style == "curly":
        return text.replace("'", "’").replace('"', "”")
    if style == "trailing":
        return "\n".join(f"{row}  " for row in text.split("\n")) + "\n"
    if style == "no hyphens":
        return text.replace("-ups", "ups").replace("push-", "push").replace("pull-", "pull")
    return text


def cases(count: int, first: int = 0) -> Iterator[Case]:
    """Make so many texts, from a seed on."""
    for seed in range(first, first + count):
        yield case(seed)
