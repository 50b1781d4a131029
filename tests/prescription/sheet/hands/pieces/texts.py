"""Whole texts with one piece or two, the words of a coach around them, and what they say."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from tests.prescription.sheet.hands.pieces import clocks, heads, instead, lines, own_lines
from tests.prescription.sheet.hands.pieces.hand import Hand
from tests.prescription.sheet.hands.pieces.heads import Head
from tests.prescription.sheet.hands.pieces.moves import Move, facts, words
from tests.prescription.sheet.hands.pieces.names import KINDS

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
    "easy": lines.easy,
    "headed intervals": lines.headed_intervals,
    "bare time": lines.bare_time,
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
    own_lines.some_more(hand, head, kind, said, piece, moves)
    instead_of = kind in ("as many", "rounds", "for time", "scheme") and hand.chosen["layout"] != "spoken"
    if instead_of and hand.rng.random() < 0.4:
        instead.other_ways(hand, head, kind, said, piece, moves)
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
