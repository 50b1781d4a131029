"""Slips of the finger in words that say how a session is done: "3 ronds for tiem", "tuseday", "10 mni".

Only slips that leave no other word are mended: two letters that changed places, one that is missing, one that came twice.
Names of movements are mended where they are looked up.
"""

from __future__ import annotations

import re
from functools import cache

# Words that are mended; no word of them is a slip of another
_WORDS = (
    "rounds", "round", "minutes", "minute", "seconds", "second", "amrap", "emom", "metcon", "conditioning", "strength", "then", "time", "rest", "between", "every", "partner",
    "partners", "warmup", "workout", "scaled", "percent", "superset", "calories", "calorie", "metres", "meters", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday",
    "sunday", "heavy", "sets", "reps", "each", "side", "tempo", "after", "finisher", "accessory", "intervals", "tomorrow",
)  # fmt: skip
# What such a slip would be, and yet is a word of its own, in the languages that are read
_REAL = frozenset({
    "aces", "ach", "ache", "afte", "after", "alter", "arrest", "between", "calorie", "calories", "dies", "eac", "emit", "emo", "est", "even",
    "event", "ever", "friday", "heavy", "hen", "ide", "idee", "ides", "interval", "item", "items", "meter", "meters", "metre", "metres",
    "minute", "minuten", "minutes", "minutest", "minuto", "mite", "mounds", "partner", "partners", "peers", "percents", "pers", "preps",
    "rep", "reps", "res", "reset", "rest", "rests", "ret", "rets", "rond", "ronda", "rondas", "round", "rounds", "runds", "said", "scale",
    "scaled", "second", "seconde", "secondes", "segundos", "seid", "set", "sets", "sid", "sides", "sie", "site", "stes", "stret", "sunday",
    "sundry", "temp", "tempos", "ten", "tess", "test", "tests", "than", "the", "thence", "tie", "times", "very", "workout", "workouts",
})  # fmt: skip


def _slips_of(word: str) -> set[str]:
    found = {word[:at] + word[at + 1] + word[at] + word[at + 2 :] for at in range(len(word) - 1)}
    if len(word) >= 5:
        found |= {word[:at] + word[at + 1 :] for at in range(1, len(word))}
    found |= {word[: at + 1] + word[at:] for at in range(len(word))}
    return {each for each in found if each != word and len(each) >= 4 and each not in _REAL and each not in _WORDS}


@cache
def _table() -> dict[str, str]:
    found: dict[str, str] = {}
    twice: set[str] = set()
    for word in _WORDS:
        for slip in _slips_of(word):
            if found.get(slip, word) != word:
                twice.add(slip)
            found[slip] = word
    for slip in twice:
        del found[slip]
    return found | {"mni": "min", "mnis": "min", "mins.": "min", "tiem": "time"}


_LETTERS = re.compile(r"[A-Za-z]{3,}")


def mended(text: str) -> str:
    """Return a line with its slips mended; capitals are kept where the whole word has them, or its first letter."""
    table = _table()

    def right(found: re.Match[str]) -> str:
        typed = found[0]
        word = table.get(typed.lower())
        if word is None:
            return typed
        return word.upper() if typed.isupper() else word.capitalize() if typed[0].isupper() else word

    return _LETTERS.sub(right, text)
