"""Reads texts of invented hands and says on which choices their misreadings fall.

python -m tests.prescription.sheet.hands.lifts [texts] [first seed] [--show CHOICE=WAY] [--one] [--voice] [--tongue] [--told] [--habit] [--short] [--signed]
"""

from __future__ import annotations

import sys
from collections import Counter, defaultdict

from tests.prescription.sheet.hands.lifts import (
    of_habit,
    of_one_lift,
    of_seed,
    of_short,
    of_signed,
    of_told,
    of_tongue,
    of_voice,
)
from tests.prescription.sheet.score import Score, score_of


def told(score: Score, text: str) -> None:
    print("-" * 60)
    print(text)
    for fact in score.facts:
        if not fact.ok:
            print(f"    {fact.path}: {fact.found!r}, not {fact.right!r}")
    for label, lines in (("SILENT", score.silent), ("EXTRA", score.extra), ("ASKED IN VAIN", score.asked_in_vain)):
        for line in lines:
            print(f"    {label} {line}")


def main(arguments: list[str]) -> None:
    numbers = [int(each) for each in arguments if each.isdigit()]
    count, first = ([*numbers, 500, 0])[:2] if len(numbers) > 1 else ((numbers or [500])[0], 0)
    show = next((each.split(" ", 1)[1] if " " in each else each for each in arguments if "=" in each), "")
    one = "--one" in arguments
    all_facts: Counter[tuple[str, str]] = Counter()
    right: Counter[tuple[str, str]] = Counter()
    texts: Counter[tuple[str, str]] = Counter()
    whole: Counter[tuple[str, str]] = Counter()
    silent: Counter[tuple[str, str]] = Counter()
    shown: dict[str, int] = defaultdict(int)
    total = [0, 0, 0, 0, 0, 0]
    for seed in range(first, first + count):
        hand, text, gold = (
            of_voice(seed)
            if "--voice" in arguments
            else of_tongue(seed)
            if "--tongue" in arguments
            else of_signed(seed)
            if "--signed" in arguments
            else of_short(seed)
            if "--short" in arguments
            else of_habit(seed)
            if "--habit" in arguments
            else of_told(seed)
            if "--told" in arguments
            else of_one_lift(seed)
            if one
            else of_seed(seed)
        )
        score = score_of(str(seed), text, gold)
        good = sum(fact.ok for fact in score.facts)
        for choice in hand.chosen:
            all_facts[choice] += len(score.facts)
            right[choice] += good
            texts[choice] += 1
            whole[choice] += score.whole == score.sessions
            silent[choice] += len(score.silent)
        total = [a + b for a, b in zip(total, (len(score.facts), good, score.sessions, score.whole, len(score.silent), len(score.extra)), strict=True)]  # fmt: skip
        name, _, way = show.partition("=")
        if (
            show
            and score.whole < score.sessions
            and ((name, way) in hand.chosen or show == "all=all")
            and shown[show] < 150
        ):
            shown[show] += 1
            print(seed)
            told(score, text)
    print(f"texts {count}, facts {total[0]}, right {total[1] / total[0]:.1%}, sessions {total[2]}, wholly right {total[3] / total[2]:.1%}, silent {total[4]}, items that nobody wrote {total[5]}")  # fmt: skip
    mean = 1 - sum(whole.values()) / max(1, sum(texts.values()))
    rows = sorted(texts, key=lambda choice: (texts[choice] - whole[choice]) - mean * texts[choice], reverse=True)
    for choice in rows[:45]:
        print(f"{choice[0]:26} {choice[1]:34} texts {texts[choice]:4} wrong {texts[choice] - whole[choice]:4} facts {right[choice] / all_facts[choice]:.0%} silent {silent[choice]}")  # fmt: skip


if __name__ == "__main__":
    main(sys.argv[1:])
