"""What stands on lines of its own around a piece: rest, partners, buy-in and cash-out, what is done instead."""

from __future__ import annotations

from typing import Any

from tests.prescription.sheet.hands.pieces import heads
from tests.prescription.sheet.hands.pieces.hand import Hand
from tests.prescription.sheet.hands.pieces.heads import Head
from tests.prescription.sheet.hands.pieces.moves import Move, facts, load_words, words
from tests.prescription.sheet.hands.pieces.names import KINDS, right


def some_more(hand: Hand, head: Head, kind: str, said: list[str], piece: dict[str, Any], moves: list[Move]) -> None:
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
