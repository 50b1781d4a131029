"""Slips of the finger in words that say how a session is done: "3 ronds for tiem", "tuseday", "10 mni".

Only slips that leave no other word are mended: two letters that changed places, one that is missing, one that came twice.
Words of names are mended as well; what is left of a name is mended where it is looked up.
"""

from __future__ import annotations

import re
from functools import cache

from tracker.prescription.sheet.words.names import distance, key_of, words_of_names

# Words that are mended; no word of them is a slip of another
_WORDS = (
    "rounds", "round", "minutes", "minute", "seconds", "second", "amrap", "emom", "metcon", "conditioning", "strength", "then", "time", "rest", "between", "every", "partner",
    "partners", "warmup", "workout", "scaled", "percent", "superset", "calories", "calorie", "metres", "meters", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday",
    "sunday", "heavy", "sets", "reps", "each", "side", "tempo", "after", "finisher", "accessory", "intervals", "tomorrow",
)  # fmt: skip
# What such a slip would be, and yet is a word of its own, in the languages that are read
_REAL = frozenset({
    "aces", "erst", "grund", "rund", "grond", "calore", "temo", "dorp", "ach", "ache", "afte", "after", "alter", "arrest", "between", "calorie", "calories", "dies", "eac", "emit", "emo", "est", "even",
    "event", "ever", "friday", "heavy", "hen", "ide", "idee", "ides", "interval", "item", "items", "meter", "meters", "metre", "metres",
    "minute", "minuten", "minutes", "minutest", "minuto", "mite", "mounds", "partner", "partners", "peers", "percents", "pers", "preps",
    "rep", "reps", "res", "reset", "rest", "rests", "ret", "rets", "rond", "ronda", "rondas", "round", "rounds", "runds", "said", "scale",
    "scaled", "second", "seconde", "secondes", "segundos", "seid", "set", "sets", "sid", "sides", "sie", "site", "stes", "stret", "sunday",
    "sundry", "temp", "tempos", "ten", "tess", "test", "tests", "than", "the", "thence", "tie", "times", "very", "workout", "workouts",
})  # fmt: skip


# Words of names that are left alone: they are no words of movements alone
_NOT_MENDED = frozenset({"over", "with", "through", "from", "side", "head", "hand", "hold"})
# and slips of these that are words of their own: those that are common in one of the languages that are read
_REAL_OF_NAMES = frozenset({
    "aarts", "andersson", "anges", "angle", "angles", "appart", "apparts", "arise", "arises", "blocs", "bride",
    "brides", "bulgaria", "calore", "calores", "carb", "carbs", "chess", "clans", "devis", "dorp", "dorps", "draag",
    "droop", "edad", "elvers", "erst", "facce", "fasst", "fats", "feest", "fete", "fonts", "futter", "grond",
    "grund", "gutes", "hallo", "hamer", "hamers", "hines", "hypes", "inline", "launch", "leves", "lien", "liens",
    "linee", "linse", "lunes", "lungs", "machs", "makes", "makker", "makkers", "metes", "nagel", "nagels",
    "negativ", "panche", "pases", "pates", "piek", "pistool", "plans", "plats", "platte", "rach", "raies", "reest",
    "revere", "revers", "reveses", "rises", "roep", "romania", "rund", "russia", "salm", "sela", "sest", "sied",
    "singe", "singes", "sings", "slits", "spilt", "spits", "spoot", "spott", "sprit", "steep", "stirs", "stries",
    "superan", "supporte", "tabel", "tales", "tarp", "temo", "tier", "tiers", "tose", "trapp", "trial", "trice",
    "trie", "tries", "tripe", "tripel", "tripes", "trust", "trusts", "twits", "waking", "weighed",
})  # fmt: skip


def _slips_of(word: str) -> set[str]:
    found = {word[:at] + word[at + 1] + word[at] + word[at + 2 :] for at in range(len(word) - 1)}
    if len(word) >= 5:
        found |= {word[:at] + word[at + 1 :] for at in range(1, len(word))}
    found |= {word[: at + 1] + word[at:] for at in range(len(word))}
    return {each for each in found if each != word and len(each) >= 4 and each not in _REAL and each not in _WORDS}


def _slips_of_name(word: str) -> set[str]:
    """Slips of a word of a movement's name: letters changed places, one too many, and in a long word one too few."""
    found = {word[:at] + word[at + 1] + word[at] + word[at + 2 :] for at in range(len(word) - 1)}
    found |= {word[: at + 1] + word[at:] for at in range(len(word))}
    if len(word) >= 6:
        found |= {word[:at] + word[at + 1 :] for at in range(1, len(word))}
    return {each for each in found if len(each) >= 4} - _REAL - _REAL_OF_NAMES


@cache
def _table() -> dict[str, str]:
    found: dict[str, str] = {}
    twice: set[str] = set()
    english, known = words_of_names()
    singular = {word for word in english if word not in _NOT_MENDED and word not in _WORDS}
    for word in (*_WORDS, *sorted(singular | {f"{word}s" for word in singular if not word.endswith("s")})):
        slips = _slips_of(word) if word in _WORDS else _slips_of_name(word) - known - {f"{each}s" for each in known}
        for slip in slips:
            if found.get(slip, word) != word:
                twice.add(slip)
            found[slip] = word
    for slip in twice:
        one = key_of(found[slip])
        if not all(key_of(word) == one for word in english if slip in _slips_of_name(word)):
            del found[slip]
    return found | {"mni": "min", "mnis": "min", "mins.": "min", "tiem": "time"}


_LETTERS = re.compile(r"[^\W\d_]{3,}")


_STARRED = re.compile(r"\s*\*(?P<word>[^\W\d_]{3,})\*?\s*")


def starred(raw: str, before: str) -> str | None:
    """Put a word right that a message of its own says with a star (`*rows`) in the line before; None where it is none.

    The word that is meant is the one that is nearest to it, by two letters at most.
    """
    found = _STARRED.fullmatch(raw)
    if found is None:
        return None
    right = found["word"]
    words = [(distance(each[0].lower(), right.lower(), 2), each) for each in _LETTERS.finditer(before)]
    near = [(far, each) for far, each in words if 0 < far <= 2 and abs(len(each[0]) - len(right)) <= 1]
    if not near:
        return None
    nearest = min(far for far, _ in near)
    _, last = [pair for pair in near if pair[0] == nearest][-1]
    return before[: last.start()] + right + before[last.end() :]


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
