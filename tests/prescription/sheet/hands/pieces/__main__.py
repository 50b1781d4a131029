"""Score the reader on pieces in mixed hands, and tell on which choices its failures fall.

python -m tests.prescription.sheet.hands.pieces [COUNT] [FIRST] [--show CHOICE=VALUE] [--silent] [--examples N]
"""

from __future__ import annotations

import sys
from collections import defaultdict
from collections.abc import Sequence

from tests.prescription.sheet.hands.pieces.texts import Case, cases
from tests.prescription.sheet.score import Score, figures, score_of


def scored(count: int, first: int = 0) -> list[tuple[Case, Score]]:
    """Score so many texts."""
    return [(each, score_of(str(each.seed), each.text, each.gold)) for each in cases(count, first)]


def failing(score: Score) -> bool:
    return bool(score.extra) or not all(fact.ok for fact in score.facts)


def told(case: Case, score: Score) -> str:
    """Say what is wrong with the reading of one text."""
    wrong = [f"    {fact.path}: {fact.found!r}, not {fact.right!r}" for fact in score.facts if not fact.ok]
    wrong += [f"    SILENT {each}" for each in score.silent] + [f"    EXTRA {each}" for each in score.extra]
    return "\n".join([f"--- {case.seed} {case.chosen}", case.text, *wrong])


def main(arguments: Sequence[str]) -> None:
    plain = [each for each in arguments if each.isdigit()]
    count, first = int(plain[0]) if plain else 1000, int(plain[1]) if len(plain) > 1 else 0
    found = scored(count, first)
    shows = [each.partition("=")[2].partition("=") for each in arguments if each.startswith("--show=")]
    most = next((int(each.partition("=")[2]) for each in arguments if each.startswith("--examples=")), 10)
    shown = 0
    for case, score in found:
        wanted = all(case.chosen.get(choice) == value for choice, _, value in shows)
        if ("--silent" in arguments and not score.silent) or not (
            shows or "--silent" in arguments or "--fails" in arguments
        ):
            continue
        if wanted and failing(score) and shown < most:
            print(told(case, score))
            shown += 1
    by: dict[tuple[str, str], list[int]] = defaultdict(lambda: [0, 0, 0])
    for case, score in found:
        for choice in case.chosen.items():
            by[choice][0] += 1
            by[choice][1] += failing(score)
            by[choice][2] += bool(score.silent)
    rows = sorted(by.items(), key=lambda each: -each[1][1] / each[1][0])
    for (choice, value), (number, bad, silent) in rows[: 70 if "--all" not in arguments else None]:
        if number >= 3 and bad:
            print(f"{bad / number:5.0%} of {number:4} wrong, {silent:3} silent: {choice} = {value}")
    for key, value in figures([score for _, score in found]).items():
        print(f"{key:28} {value:.1%}" if key in ("facts right", "sessions wholly right") else f"{key:28} {value:g}")


if __name__ == "__main__":
    main(sys.argv[1:])
