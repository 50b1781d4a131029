"""Words around movements: those that say how, whom an option is for, what is no name of a movement."""

from __future__ import annotations

import re

from tracker.prescription.sheet.piece import Movement

MOST_COUNT = 20_000  # repetitions, calories, metres or seconds of one movement in one round; design choice
AMOUNTS = frozenset({
    "num", "reps", "cal", "dist", "miles", "time", "calpair", "distpair", "list", "maxcal", "maxdist", "max", "range",
})  # fmt: skip
# Words that begin what is instead of a movement, and for whom.
WHEN = re.compile(
    r"^(?:at )?(home|sc\.?|alternatives?|alt|level \d|l\d|mod(?:ified)?|if needed|new(?:bies| people| ones| here)?|masters|garage|travel\w*|hotel|scaled?|scaling|no [a-z]+(?: [a-z]+)?|sub(?:stitute)?|option|easier|lighter|beginners?|rx\+?|dumbbells?|dbs?|kb|without [a-z ]+|women|men|instead of [a-z ]+|outdoors?|indoors?|if [a-z ]+)$"
)
LEVEL = re.compile(
    r"(?:^|\s)(scaled?|sc|intermediate|inter|int|beginners?|masters?|m ?\d\d\+?|rx\+|elite|light(?:er)?|foundation|level \d|l\d|teens?)$"
)
QUIET = frozenset(
    {
        "of",
        "a",
        "an",
        "the",
        "with",
        "at",
        "@",
        "x",
        "for",
        "each",
        "do",
        "some",
        "your",
        "to",
        "in",
        "on",
        "as",
        "any",
        "more",
        "good",
    }
)
IMPLEMENTS = frozenset(
    {"db", "dbs", "kb", "kbs", "bar", "barbell", "dumbbell", "dumbbells", "kettlebell", "kettlebells", "bb"}
)
# Words that never are a movement's name by themselves.
NO_NAME = frozenset({
    "for", "rounds", "round", "min", "minutes", "minute", "reps", "rep", "sets", "set", "score", "time", "cap", "rest", "total", "goal", "note", "notes",
    "target", "easy", "steady", "station", "stations", "weeks", "week", "day", "days", "people", "members", "new", "old", "times", "am", "pm", "uhr", "euro", "euros", "class",
    "o'clock", "kids", "spots", "places", "left", "works", "rests", "others", "partner", "partners", "teams", "team", "pairs", "heats", "heat", "lanes",
    "percent", "sec", "seconds", "hours", "hour", "years", "tries", "attempts", "only", "points", "scores", "both", "different", "of",
})  # fmt: skip


# What may stand before a movement in brackets, without a colon, where it is done instead of the one before them
WHEN_FIRST = frozenset(
    {
        "home",
        "sc",
        "sc.",
        "scaled",
        "scale",
        "scaling",
        "sub",
        "easier",
        "beginners",
        "beginner",
        "alternative",
        "alternatively",
        "newbies",
    }
)


# Words before a name that say how, not what: "heavy swings" are swings, "pallof press" is no press.
HOW = frozenset({
    "igyg", "ygig", "machen", "wir", "heute", "morgen", "demain", "mañana", "domani", "oggi", "amanhã", "hoje", "vandaag", "erst", "zuerst", "eerst", "prima", "primero", "d'abord", "abend", "kommt", "folgt", "starten", "beginnen", "gehen", "hacemos", "haremos", "vamos", "hoy", "tenemos", "toca", "faisons", "fait", "aujourd'hui", "aujourdhui",
    "travail", "montée", "montee", "arbeit", "arbeitssätze", "aufwärmsätze", "trabajo", "aproximación", "suggested", "ramp",
    "everybody", "everyone", "does", "position", "pos", "doing", "be", "it", "we", "you", "will", "comes", "starts", "start", "strength", "as", "promised", "again", "before", "that", "after",
    "heavy", "light", "easy", "slow", "fast", "strict", "unbroken", "max", "good", "nice", "clean", "quick", "hard", "big", "small", "more", "extra", "total", "steady", "smooth",
    "perfect", "controlled", "explosive", "touch", "alternating", "alt", "synchro", "together", "shared", "each", "your", "the", "some", "any", "own", "same", "then", "now", "first", "second", "third", "last", "final", "next", "today", "tonight", "main", "working", "work", "warm", "build", "climb", "back-off", "backoff", "drop", "top", "speed", "volume",
    "tech", "technique", "focus", "optional", "bonus", "only", "just", "please", "ok", "okay", "so", "do", "and", "with", "for", "hi", "hey", "guys", "team", "all", "tmrw",
    "tomorrow", "test", "retest", "rx", "scaled", "open", "long", "short", "medium", "moderate", "super", "weighted", "bodyweight", "assisted", "banded", "standing", "seated", "kneeling",
    "of", "x", "at", "in", "on", "to", "is", "deload", "superset", "set", "sets", "reps", "rep", "round", "rounds", "rest", "zone", "recovery", "pace", "tempo", "continuous",
    "part", "block", "skill", "chipper", "ladder", "workout", "partner", "teams", "pairs", "circuit", "metcon", "condtioning", "conditioning", "wod", "amrap", "emom", "barbell", "from", "off", "no", "without", "between", "by", "per", "then:", "i", "my", "our", "this", "let's", "lets", "add", "hit", "find", "take", "go", "get", "see", "try", "keep", "end", "finish", "finisher", "session", "option",
})  # fmt: skip


def makes_name(word: str) -> bool:
    """Whether a word before a known name makes another name of it."""
    return (
        len(word) >= 3
        and word.isalpha()
        and word not in HOW
        and word not in QUIET
        and word not in NO_NAME
        and word not in IMPLEMENTS
    )


_EASIER = re.compile(
    r"\b(?:knees?|knien?|genoux|rodillas)\b|\b(?:hands? on|on|from|off) (?:a |the )?(?:box|bench|wall|chair|bar)\b"
)
_BAND = re.compile(r"\b(?:bands?|élastique|elastique|gomas?|bänder|gummiband)\b")
_ALLOWED = re.compile(
    r"\b(?:si besoin|si (?:lo )?necesit\w+|wenn nötig|bei bedarf|geht auch|ok|okay|fine|allowed|if (?:you )?need(?:ed)?|possible|if you (?:must|have to)|scaled?|or)\b"
)


def easier_ways(move: Movement) -> tuple[Movement, ...]:
    """All that a remark allows in place of a movement: "on the knees or on a bench is fine" are two."""
    first = easier_of(move)
    if first is None:
        return ()
    found = [each[0] for each in _EASIER.finditer(move.standard)] if move.name == "push-up" else []
    low = [each.startswith(("knee", "knie", "genou", "rodilla")) for each in found]
    if any(low) and not all(low):
        return Movement("knee push-up", line=move.line), Movement("incline push-up", line=move.line)
    return (first,)


def easier_of(move: Movement) -> Movement | None:
    """A push-up that may be done on the knees or a box, a pull-up with a band, as a remark behind it says: "(knees is fine)"."""
    if move.name in ("pull-up", "chin-up") and _BAND.search(move.standard) and _ALLOWED.search(move.standard):
        return Movement(f"banded {move.name}", line=move.line)
    if move.name != "push-up" or not (found := _EASIER.search(move.standard)) or not _ALLOWED.search(move.standard):
        return None
    low = found[0].startswith(("knee", "knie", "genou", "rodilla"))
    return Movement("knee push-up" if low else "incline push-up", line=move.line)


def is_when(words: str) -> bool:
    return bool(words) and WHEN.match(words.strip(" -,.")) is not None


def when_of(words: str) -> str:
    return words.strip(" -,.:") if is_when(words) else ""
