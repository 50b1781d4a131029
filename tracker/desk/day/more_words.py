"""What the words of sets and days are put together to: equal sets said once, a day behind a verb, numbers in a row."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import groupby

from tracker.desk.maxes.words import day_words, set_words
from tracker.log.records import SetRow


def sets_words(rows: Sequence[SetRow]) -> str:
    """Say sets in their order, equal ones that follow one another once: `3 sets of 5 × 60 kg, 2 left; 5 × 62.5 kg`."""
    said = []
    for words, group in groupby(rows, key=set_words):
        times = len(tuple(group))
        said.append(words if times == 1 else f"{times} sets of {words}")
    return "; ".join(said)


def on_day_words(day: date, today: date) -> str:
    """Name a day behind a verb: `today`, `yesterday`, `on Wed 25 Nov`."""
    said = day_words(day, today)
    return said if said in ("today", "yesterday", "tomorrow") else f"on {said}"


def listed(words: Sequence[str]) -> str:
    """Put words in a row: `back squat, bench press and deadlift`."""
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else "".join(words)
