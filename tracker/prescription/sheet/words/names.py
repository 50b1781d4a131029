"""Names of lifts and movements: a table of the trade's own names and short forms, and how a typed name is found in it.

A name that is not in the table stays as it was typed: nothing is snapped to a neighbour but a slip of one or two letters
that leaves one and only one name of the table.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tracker.prescription.sheet.words.plain_words import plain

MOST_WORDS = 6
_WORD = re.compile(r"[^\W_]+(?:&[^\W_]+)?")
_KEEP_S = {"press", "pres", "cross", "this", "its", "bus", "gas", "plus", "toes", "less", "across", "abs", "pass", "grass", "is", "as", "us", "has", "was", "bss", "rfess", "ats", "wbs", "kbs", "dbs", "ohs", "lbs", "bs", "fs", "ps", "hs", "hps", "cals", "yes", "bfs", "sits", "press ups"}  # fmt: skip
_SHORT = {
    "db": "dumbbell", "dbs": "dumbbell", "kb": "kettlebell", "kbs": "kettlebell", "bb": "barbell", "oh": "overhead", "hr": "hand release",
    "alt": "alternating", "sa": "single arm", "sl": "single leg", "mb": "medicine ball", "bw": "bodyweight", "fr": "front rack", "pwr": "power",
    "str": "strict", "sq": "squat", "dl": "deadlift", "sn": "snatch", "wtd": "weighted", "cl": "clean", "cln": "clean", "lat": "lateral",
    "syncro": "synchro", "sync": "synchro", "synchronised": "synchro", "synchronized": "synchro",
    "thr": "thruster", "ttb": "toes to bar", "pwer": "power", "thrustr": "thruster",
    # as lifters shorten them: common practice
    "bulg": "bulgarian", "rom": "romanian", "rdls": "romanian deadlift", "incl": "incline", "decl": "decline", "cg": "close grip", "wg": "wide grip",
    "tri": "triceps", "tricep": "triceps", "bi": "biceps", "bicep": "biceps", "ext": "extension", "hammies": "hamstring", "ham": "hamstring",
    "trp": "trap", "br": "bar", "hx": "hex", "hngr": "hang", "hng": "hang", "hg": "hang", "mus": "muscle", "musc": "muscle", "blk": "block", "bx": "box",
    "bnch": "bench", "prs": "press", "pres": "press", "prss": "press", "prses": "press", "sqt": "squat", "sqts": "squat", "sqs": "squat", "jrk": "jerk", "jrks": "jerk", "sntch": "snatch", "snat": "snatch",
    "dlift": "deadlift", "dead": "deadlift", "bk": "back", "frnt": "front", "frt": "front", "ovh": "overhead", "ohd": "overhead", "std": "standing", "supp": "supported",
    "wtg": "weighted", "weightd": "weighted", "ldm": "landmine", "lm": "landmine", "kneel": "kneeling", "1arm": "single arm", "1leg": "single leg", "psd": "paused", "stand": "standing",
    "bbl": "barbell", "dkb": "double kettlebell", "ddb": "double dumbbell", "sb": "sandbag", "med": "medicine", "medball": "medicine ball", "kettle": "kettlebell",
    "jmp": "jump", "jmps": "jump", "jmping": "jumping", "ovr": "over", "rev": "reverse", "inv": "inverted", "kip": "kipping", "mtn": "mountain", "mt": "mountain", "rus": "russian",
    "dbl": "double", "shldr": "shoulder", "shoulders": "shoulder", "exts": "extension",
    "wlk": "walking", "lng": "lunge", "lngs": "lunge", "snch": "snatch", "clns": "clean",
    "thrstrs": "thruster", "thrs": "thruster", "brp": "burpee", "brps": "burpee", "bpee": "burpee", "swg": "swing", "swgs": "swing", "sw": "swing", "grd": "ground", "hands": "hand", "strt": "strict",
    # implements in other languages
    "kurzhantel": "dumbbell", "kurzhanteln": "dumbbell", "hantel": "dumbbell", "haltère": "dumbbell", "haltere": "dumbbell", "haltères": "dumbbell", "halter": "dumbbell", "mancuerna": "dumbbell",
    "manubrio": "dumbbell", "manubri": "dumbbell", "langhantel": "barbell", "kugelhantel": "kettlebell", "sandsack": "sandbag", "zandzak": "sandbag", "rucksack": "backpack",
}  # fmt: skip
SMALL_WORDS = frozenset({"the", "your", "ur", "a", "an", "ya", "ya'll", "their"})
# Implements behind a name: "push press haltères", "front squat KB 24 kg"
_BEHIND = re.compile(
    r" (?:(?:con|com|avec|met|mit|w/?|à l'|a l'|à) ?)?(?:2 |deux |due |dois |zwei |twee )?(?P<i>halt[eè]res?|mancuernas?|kurzhanteln?|manubri[o]?|halter|kettlebells?|kbs?|dumbbells?|dbs?)(?=\s*(?:$|[@(\d,.;:)+|/]|- |à |de \d|zu \d|mit \d))"
)
# Words that make a name of their own out of a name of the table, in any order before it.
_MODIFIERS = {
    "strict", "kipping", "weighted", "banded", "deficit", "tempo", "pause", "paused", "hang", "power", "front", "back", "overhead", "single",
    "arm", "leg", "double", "dumbbell", "kettlebell", "barbell", "alternating", "seated", "standing", "incline", "decline", "close", "wide",
    "grip", "high", "low", "box", "ring", "sumo", "romanian", "goblet", "walking", "reverse", "lateral", "jumping",
    "synchro", "one", "bodyweight", "medicine", "ball", "sandbag", "plate", "squat", "split", "half", "full", "russian", "american",
    "hand", "release", "chest", "two", "backpack", "touch", "go", "and", "supported", "legless", "l", "feet", "elevated", "nordic", "eccentric",
    "bulgarian", "kneeling", "landmine", "hex",
    "facing", "cluster", "muscle", "block", "tall", "rack", "heel", "heels", "zercher", "trap", "safety", "machine", "cable", "band", "towel", "rope",
}  # fmt: skip


# Words that may stand behind the name that they make another one of
WORDS_BEHIND = re.compile(
    r"strict|weighted|wtd|sumo|romanian|conventional|front|back|overhead|oh|bench|hang|power|pwr|muscle|squat|split|push|banded|deficit|paused?|low|high|bar|trap|hex"
    r"|incline|inc|close|cg|wide|grip|seated|kneeling|db|dbs|dumbbells?|kb|kbs|kettlebells?|single|1|one|arm|leg|goblet|ring|box|bulgarian|pendlay|bent|over|stiff|straight|legged"
)


@dataclass(frozen=True, slots=True)
class Name:
    """A name of the table: its usual implement as a lift ("?" where it must be asked) and its usual measure in a piece."""

    name: str
    implement: str
    measure: str


@dataclass(frozen=True, slots=True)
class Found:
    """A name in a text: from where to where, its full form, and what the table says of it (None: nothing)."""

    start: int
    end: int
    name: str
    known: Name | None
    typed: str


def singular(word: str) -> str:
    """Return a word without its plural ending: squats, presses, lunges, flies."""
    if word in _KEEP_S or len(word) < 3 or not word.endswith("s") or word.endswith("ss"):
        return word
    if word.endswith(("presses", "crosses", "crunches", "benches", "snatches", "inches")):
        return word[:-2]
    return word[:-1]


def key_of(text: str) -> tuple[str, ...]:
    """Return a name as the table looks it up: lower case, hyphens and apostrophes apart, singular."""
    return tuple(
        singular(word) for word in _WORD.findall(text.lower().replace("'", "").replace("’", "").replace("+", "&"))
    )


def _lines(file: str) -> list[str]:
    text = Path(__file__).with_name(file).read_text(encoding="utf-8")
    return [line for line in text.splitlines() if line.strip() and not line.startswith("#")]


_SMALL = re.compile(r" (?:mit|con|avec|com|met|auf|sur|du|de|und|y|e|à|aux|in|en) ")


def _enter(alias: str, entry: Name, lifts: dict[tuple[str, ...], Name], moves: dict[tuple[str, ...], Name]) -> None:
    """Put one way of writing a name into the tables; the first name that has it keeps it, but for what is "~" in a piece."""
    bare = alias.lstrip("!~")
    # as it is looked up: with the small words as `plain` leaves them, and with what an apostrophe parts as two words
    ways = {bare, plain(bare)} if _SMALL.search(bare) else {bare}
    for key in {key_of(way.replace("'", sign)) for way in ways for sign in ("", " ")}:
        if not key or key[0].isdigit():
            continue
        if alias.startswith("!"):
            lifts[key] = entry
        elif alias.startswith("~"):
            moves[key] = entry
        else:
            lifts.setdefault(key, entry)
            moves.setdefault(key, entry)


@cache
def _tables() -> tuple[dict[tuple[str, ...], Name], dict[tuple[str, ...], Name], frozenset[str]]:
    """Read the table: as a lift, as a movement, and every word of it of three letters or more."""
    lifts: dict[tuple[str, ...], Name] = {}
    moves: dict[tuple[str, ...], Name] = {}
    entries: dict[str, Name] = {}
    for line in _lines("names.txt"):
        name, implement, measure, aliases = (part.strip() for part in line.split("|"))
        entry = Name(name, implement, measure)
        entries.setdefault(name, entry)
        for alias in (name, *aliases.split(",")):
            _enter(alias.strip(), entry, lifts, moves)
    for line in _lines("names_abroad.txt"):
        name, aliases = (part.strip() for part in line.split("|"))
        for alias in aliases.split(","):
            _enter(alias.strip(), entries[name], lifts, moves)
    words = frozenset(word for key in (*moves, *lifts) for word in key if len(word) >= 3)
    return lifts, moves, words


@cache
def words_of_names() -> tuple[frozenset[str], frozenset[str]]:
    """Return the words of four letters or more of the table's English names, and those of every way of writing them."""
    english = {word for entry in _tables()[1].values() for word in key_of(entry.name) if len(word) >= 4}
    return frozenset(english | {"pull", "push", "pullup", "pushup", "situp", "stepup"}), _tables()[2] | frozenset(
        _SHORT
    ) | frozenset(_MODIFIERS)


@cache
def movement_names() -> tuple[str, ...]:
    """List the names of the table that can be movements of a piece, each once, by the alphabet."""
    return tuple(sorted({entry.name for entry in _tables()[1].values()}, key=str.casefold))


@cache
def sections() -> tuple[tuple[str, tuple[Name, ...]], ...]:
    """List the names of the table under its headings, such as "squats", in the order in which they stand there."""
    found: dict[str, dict[str, Name]] = {}
    heading = ""
    for line in Path(__file__).with_name("names.txt").read_text(encoding="utf-8").splitlines():
        if line.startswith("#"):
            heading = line.lstrip("# ")
        elif line.strip():
            name, implement, measure, _ = (part.strip() for part in line.split("|"))
            found.setdefault(heading, {}).setdefault(name, Name(name, implement, measure))
    return tuple((each, tuple(names.values())) for each, names in found.items())


def known(text: str, *, lift: bool = False) -> Name | None:
    """Look a whole name up."""
    lifts, moves, _ = _tables()
    return (lifts if lift else moves).get(key_of(text))


def longest(words: list[re.Match[str]], at: int, *, lift: bool) -> tuple[int, Name] | None:
    """Return how many words from `at` on make a name of the table, the longest, with it."""
    lifts, moves, _ = _tables()
    table = lifts if lift else moves
    found: tuple[int, Name] | None = None
    key: tuple[str, ...] = ()
    spelt: tuple[str, ...] = ()
    for count in range(1, min(MOST_WORDS, len(words) - at) + 1):
        word = singular(words[at + count - 1].group().replace("+", "&"))
        key, spelt = (*key, word), (*spelt, *_SHORT.get(word, word).split())
        if key in table and not (key[-1] == "single" and _of_one_side(words, at + count)):
            found = count, table[key]
        elif (
            count > 1 and (way := _without_small(spelt)) != key and way in table
        ):  # "hang pwr snatch", "burpee over the db"
            found = count, table[way]
    return found


def _without_small(words: tuple[str, ...]) -> tuple[str, ...]:
    """A name without the small words within it: "burpees over your dumbbell"."""
    return (words[0], *(word for word in words[1:-1] if word not in SMALL_WORDS), words[-1])


def _spelt(key: tuple[str, ...]) -> tuple[str, ...]:
    """Write the short words of a name out."""
    return tuple(part for word in key for part in _SHORT.get(word, word).split())


def held_behind(text: str, at: int) -> tuple[int, str] | None:
    """Return where an implement that stands behind a name ends, and the implement; None where there is none."""
    found = _BEHIND.match(text, at)
    if found is None:
        return None
    word = found["i"]
    return found.end(), "kettlebell" if word.startswith("k") and not word.startswith("kurz") else "dumbbell"


def _of_one_side(words: list[re.Match[str]], at: int) -> bool:
    """Whether "single" is that of an arm or a leg, not of a rope."""
    return at < len(words) and words[at].group() in ("arm", "leg", "side", "db", "kb", "dumbbell", "kettlebell")


def full_name(typed: str, *, lift: bool = False) -> tuple[str, Name | None]:
    """Return a typed name in full: from the table, else with its short words written out, else as it was typed.

    A name that the table has with words before it, such as "strict ring row", keeps these words.
    """
    if found := known(typed, lift=lift):
        return found.name, found
    words = list(key_of(typed))
    spelt = list(_spelt(tuple(words)))
    if len(spelt) > 2:
        spelt = list(_without_small(tuple(spelt)))
    if found := known(" ".join(spelt), lift=lift):
        return found.name, found
    for skip in range(1, min(len(spelt), 5)):
        if not all(word in _MODIFIERS for word in spelt[:skip]):
            break
        if found := known(" ".join(spelt[skip:]), lift=lift):
            before = spelt[:skip]
            if lift and found.implement == "barbell" and before == ["barbell"]:
                before = []  # a barbell RDL is what an RDL is
            return _composed(before, found.name), found
    if mended := _mended(spelt, lift=lift):
        return mended.name, mended
    spelt = list(_spelt(tuple(words)))
    if spelt != words:
        return " ".join(spelt), None
    return " ".join(typed.split()), None


def _composed(before: list[str], name: str) -> str:
    """Put words before a name: another implement takes the place of the name's own, a backpack swing is no kettlebell's."""
    words = [word for word in before if word != "tempo"]
    if name == "air squat" and set(words) & {"backpack", "sandbag", "plate", "weighted", "barbell"}:
        name = "squat"
    first, _, rest = name.partition(" ")
    if rest and first in _HELD and (set(words) & (_HELD | {"backpack", "plate", "sandbag", "band"})):
        name = rest
    return " ".join([*words, name])


_HELD = {"kettlebell", "dumbbell", "barbell"}


MOST_SLIPS = 2  # words of one name that are mended; design choice


def _mended(words: list[str], *, lift: bool) -> Name | None:
    """Mend slips of the finger and words without their vowels, if the whole is then a name of the table and no other is as near."""
    if not any(word in _tables()[2] for word in words) and len(words) > 1:
        return None  # nothing of it is known
    ways: list[list[tuple[str, int]]] = [[]]
    for word in words:
        near = [(word, 0)] if word in _tables()[2] else [(word, 0), *_neighbours(word)]
        ways = [[*way, each] for way in ways for each in near][:200]
    names: dict[str, tuple[int, Name]] = {}
    for way in ways:
        slips = sum(distance > 0 for _, distance in way)
        if not 0 < slips <= MOST_SLIPS or (slips == len(way) > 1):
            continue
        if found := known(" ".join(word for word, _ in way), lift=lift):
            total = sum(distance for _, distance in way)
            if found.name not in names or names[found.name][0] > total:
                names[found.name] = total, found
    if not names:
        return None
    nearest = min(distance for distance, _ in names.values())
    closest = [found for distance, found in names.values() if distance == nearest]
    return closest[0] if len(closest) == 1 else None


@cache
def _neighbours(word: str) -> tuple[tuple[str, int], ...]:
    """Words of the table that a word may be with a slip in it, or without its vowels, with how far they are."""
    if len(word) < 3 or not word.isalpha():
        return ()
    return tuple(
        (other, 2 if _bones(other) == word else distance(word, other, 2))
        for other in sorted(_tables()[2])
        if len(other) >= 4
        and re.search(r"[aeiouyäöü]", other[1:])
        and (_near(word, other) or (len(word) >= 3 and _bones(other) == word))
    )


@cache
def _bones(word: str) -> str:
    """A word without its vowels behind the first letter: thrst, sntch, trp."""
    return word[:1] + re.sub(r"[aeiou]", "", word[1:])


def _near(word: str, other: str) -> bool:
    done = word.endswith("ed") and not other.endswith("ed")  # "planned": what is said of it, no plank
    allowed = 1 if len(word) < 7 or done else 2
    if word == other or abs(len(word) - len(other)) > allowed or word[0] != other[0]:
        return False
    if len(word) < 7 and len(word) == len(other) and sorted(word) != sorted(other) and word.replace("z", "s") != other:
        return False  # one letter for another makes a word of its own: beach, snitch
    return distance(word, other, allowed) <= allowed


def distance(one: str, two: str, most: int) -> int:
    """Count insertions, deletions, changes and swaps of neighbours between two words, up to a little more than `most`."""
    before: list[int] = []
    last = list(range(len(two) + 1))
    for row, letter in enumerate(one, 1):
        now = [row]
        for column, other in enumerate(two, 1):
            cost = min(last[column] + 1, now[-1] + 1, last[column - 1] + (letter != other))
            if row > 1 and column > 1 and letter == two[column - 2] and one[row - 2] == other:
                cost = min(cost, before[column - 2] + 1)
            now.append(cost)
        if min(now) > most:
            return most + 1
        before, last = last, now
    return last[-1]
