"""The words, numbers and signs of one piece of text as tokens: durations, loads, percentages, sets, names of movements.

A token is found from left to right, the first rule that fits taking the text; what no rule takes is a word. Nothing is
dropped: whoever reads a token says so, and the words that nobody read are the coach's own.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Any

from tracker.prescription.sheet.tokens.clocks import CLOCK_RULES
from tracker.prescription.sheet.tokens.durations import DUR, NOT, Rule, seconds
from tracker.prescription.sheet.tokens.durations import in_verbose as _v
from tracker.prescription.sheet.tokens.durations import rule as _rule
from tracker.prescription.sheet.tokens.loads import LOAD_RULES, MASS_RULES, numbers
from tracker.prescription.sheet.tokens.sets import NUMBERED, SET_RULES, distance, ints
from tracker.prescription.sheet.words.names import SMALL_WORDS, WORDS_BEHIND, Found, full_name, held_behind, longest


@dataclass(frozen=True, slots=True)
class Token:
    """One token: its kind, its value (by kind), where it stands in the text, and the text itself."""

    kind: str
    value: Any
    start: int
    end: int
    text: str


def _at_list(found: re.Match[str]) -> tuple[list[Decimal], str] | None:
    """Return loads without a sign behind @, and the sign between them; None for a pair such as 43/30."""
    amounts, text = numbers(found["l"]), found["l"]
    sign = "-" if "-" in text else "/" if "/" in text else " "
    if sign == "/" and len(amounts) == 2 and amounts[0] > amounts[1]:
        return None
    return (amounts, sign) if min(amounts) >= 20 else None


_EACH = (
    r"(?:each|per|a|every|on each|on every|both|ea\.?)\s+(?:side|leg|arm|hand|foot|direction|way)s?\b|e/s\b|e/side\b|ea\.? side\b|/(?:side|leg|arm)\b"
    r"|(?:left|l)\s?(?:/|and|\+)\s?(?:right|r)\b|both (?:sides|legs|arms)\b|eachside\b|e\.s\.?"
)

_D, _E = _v(DUR), _v(_EACH)
_NUM = r"\d+(?:\.\d+)?"

RULES: tuple[Rule, ...] = (
    *CLOCK_RULES,
    *LOAD_RULES,
    *SET_RULES,
    *MASS_RULES,
    # amounts
    _rule("cm", rf"(?P<a>{_NUM})(?:[ ]?(?:/|or[ ])[ ]?(?P<b>{_NUM}))?[ ]?cm\b(?:[ ](?:high|box))?", lambda found: [Decimal(each) for each in (found["a"], found["b"]) if each]),
    _rule("inch", r"(?P<a>\d{1,2})[ ]?(?:\"|''|in\b|inch(?:es)?\b)?[ ]?/[ ]?(?P<b>\d{1,2})[ ]?(?:\"|''|in\b(?![ ](?:the|a|one|\d))|inch(?:es)?\b)(?:[ ]box)?|(?P<c>\d{1,2})[ ]?(?:\"|''|-?inch(?:es)?\b)(?=[ ]?(?:box|$|\)|,|high|deficit|(?:[&+]|and\b)(?![ ]?\d)))(?:[ ]box)?", lambda found: found[0]),
    _rule("feet", r"(?:to[ ](?:a[ ])?)?(?P<a>\d{1,2})[ ]?(?:ft|')?[ ]?/[ ]?(?P<b>\d{1,2})[ ]?(?:ft\b|feet\b|foot\b|')|to[ ](?:a[ ])?(?P<c>\d{1,2})[ ]?-?(?:ft|feet|foot|')(?:[ ]target)?", lambda found: found[0]),
    _rule("calpair", r"(?P<a>\d+)[ ]?/[ ]?(?P<b>\d+)[ ]?-?(?:cal(?:orie)?s?)\b", lambda found: (int(found["a"]), int(found["b"]), "cal")),
    _rule("distpair", r"(?P<a>\d+)[ ]?/[ ]?(?P<b>\d+)[ ]?-?(?:m|metres?|meters?)\b", lambda found: (int(found["a"]), int(found["b"]), "m")),
    _rule("cal", r"(?P<a>\d+)[ ]?-?cal(?:orie)?s?\b", lambda found: int(found["a"])),
    _rule("calword", r"cal(?:orie)?s?\b"),
    _rule("maxcal", r"max(?:imum)?[ ]cal(?:orie)?s?\b"),
    _rule("maxdist", r"max(?:imum)?[ ](?:distance|met(?:re|er)s?|m)\b"),
    _rule("miles", r"(?P<f>\d)/(?P<g>\d)[ ]?-?miles?\b|(?P<h>half)[ ]?-?(?:a[ ])?mile\b|(?P<a>\d+(?:\.\d+)?|\.\d+)[ ]?-?(?:miles?|mi)\b", lambda found: _miles(found)),  # noqa: PLW0108 - it stands below
    _rule("dist", r"(?P<a>\d+(?:\.\d+)?)[ ]?-?(?P<u>km|kilomet(?:re|er)s?|k(?=[ ]|$|[,.;)])|m|metres?|meters?|mtr|ft|feet|foot|yards?|yds?)\b(?![ ]?(?:box|high|target|amrap))", lambda found: distance(found["a"], found["u"])),
    _rule("time", rf"(?P<t>{_D})", lambda found: seconds(found["t"])),
    _rule("minutesmark", r"(?:m|min|mins|minutes?)[ ]?(?P<a>\d{1,2})(?:[ ]?(?:-|to)[ ]?(?P<b>\d{1,2}))?\b[ ]?[:.)-]?", lambda found: (int(found["a"]), int(found["b"] or found["a"]))),
    _rule("rounds", r"(?P<n>\d{1,3})[ ]?(?:more[ ]|full[ ]|good[ ]|easy[ ])?(?:rounds?|rnds?|rds?|circuits?|times[ ]through|times[ ]thru|laps?)\b(?:[ ]of\b)?", lambda found: int(found["n"])),
    _rule("each", _E),
    _rule("list", r"(?:build(?:ing)?|climb(?:ing)?|ramp(?:ing)?)(?:[ ](?:up|to|in|with|sets?))*[ ]?:?[ ](?P<l>(?P<n>\d{1,2})[-/,][ ]?(?P=n))(?![\d/:.%-])", lambda found: (ints(found["l"]), None, False)),
    # bare lists and pairs of numbers: falling to 1, going on without an end, or written out
    _rule("list", r"(?P<a>\d{1,2})[ ]?(?:(?:all[ ]the[ ]way[ ])?down[ ])?(?:to|-)[ ]?1(?![\d.:%-])(?=[ ]*(?:ladder|reps?[ ](?:of|for)|for[ ]time|r?ft\b|of\b|[:,(]|$))", lambda found: (list(range(int(found["a"]), 0, -1)), None, False)),
    _rule("list", r"1[ ]?(?:up[ ])?(?:to|-)[ ]?(?P<a>\d{1,2})(?![\d.:%-])(?=[ ]*ladder)", lambda found: (list(range(1, int(found["a"]) + 1)), None, False)),
    *(
        _rule("list", rf"(?:x[ ]?)?(?P<l>\d{{1,3}}(?:{sign}\d{{1,3}}){{2,}})(?P<m>{tail}[ ]?(?:\.\.+|etc\b\.?)(?:{tail}[ ]?\d{{1,3}}\b)?{end})?(?P<p>\+)?(?!\d|:\d|[ ]?{unit})", lambda found: (ints(found["l"]), _until(found["m"]), bool(found["p"])))
        for sign, tail, end, unit in (
            (r"-", r"[ ]?-?", r"|-(?=\s|$|:)", "%"),
            (r"(?:[ ]-[ ]|-[ ])", r"[ ]?-?", r"|-(?=\s|$|:)", "%"),
            (r"/", r"[ ]?/?", r"|/(?=\s|$|:)", r"(?:%|kg|lb|\.\d)"),
            (r"[ ]/[ ]", r"[ ]?/?", r"|/(?=\s|$|:)", r"(?:%|kg|lb|\.\d)"),
            (r"[ ]?,[ ]?", r"[ ]?,?", "", r"(?:%|kg|lb|x|\.\d)"),
        )
    ),
    _rule("list", r"(?P<l>\d{1,2}(?:[ ]\d{1,2}){2,})(?P<p>\+)?(?![\d:.x%]|[ ]?(?:%|kg|lb|x|m|cal(?:s|orie\w*)?\b|min|sec|s|reps?|rounds?)\b|[ ]?%)(?=[ ]*(?:$|[a-z@,.(]))", lambda found: (ints(found["l"]), None, bool(found["p"]))),
    _rule("complex", r"\(?(?P<l>\d{1,2}(?:[ ]?\+[ ]?\d{1,2})+)\)?(?![\d.]|[ ]?(?:kg|lb))", lambda found: ints(found["l"])),
    _rule("range", r"(?P<a>\d{1,4})[ ]?(?:-|to)[ ]?(?P<b>\d{1,4})(?![\d:.%-])", lambda found: (int(found["a"]), int(found["b"]))),
    _rule("pair", r"(?:@|at)?[ ]?(?P<a>\d{1,3}(?:\.\d+)?)[ ]?/[ ]?(?P<b>\d{1,3}(?:\.\d+)?)(?![\d/]|[ ]?(?:%|(?:poods?|pd|s|secs?|seconds?|min(?:ute)?s?)\b|'))", lambda found: (Decimal(found["a"]), Decimal(found["b"]))),
    _rule("word", r"(?:\d+(?:\.\d+)?[ ]?/[ ]?)?\d+(?:\.\d+)?[ ]?(?:poods?|pd)\b"),
    _rule("plus", r"(?P<a>\d{1,3})\+(?![ ]?\d)", lambda found: int(found["a"])),
    _rule("atlist", r"@[ ]?(?P<l>\d{2,3}(?:\.\d)?(?:(?:[ ]?[,-][ ]?|[ ]|[ ]?/[ ]?)\d{2,3}(?:\.\d)?){1,9})(?![\d.]|[ ]?(?:%|kg|lb|x|m\b|sec|s\b|min))", _at_list),
    _rule("atx", r"(?:(?<=[\d+][ ])|(?<=singles[ ])|(?<=doubles[ ])|(?<=triples[ ]))(?:reps?[ ])?at[ ](?:about[ ]|around[ ])?(?P<a>(?:[4-9]\d|[1-3]\d\d)(?:\.5)?)(?![\d:]|\.\d|[ ]?(?:am|pm|m\b|s\b|sec|min|cal|watts?|w\b|rpm|spm|strokes|kg|lb|%|rounds?|x|reps?|o'?clock|/[ ]?\d))", lambda found: Decimal(found["a"])),
    _rule("word", r"(?:@[ ]?)?~?\d{1,4}(?:[ ]?-[ ]?\d{1,4})?[ ]?(?:watts?|w|rpm|spm|bpm|s/m)\b(?!/)"),
    _rule("atx", r"@[ ]?(?P<a>\d+(?:\.\d+)?)(?![\d%]|s\b)", lambda found: Decimal(found["a"])),
    _rule("reps", r"(?:for|as|x)[ ](?:an?[ ]|1[ ])?(?P<w>single|double|triple)\b(?![ -]?(?:under|arm|leg|db|dumbbell))", lambda found: NUMBERED[found["w"]]),
    _rule("plus", r"x[ ]?(?P<a>\d{1,3})\+(?![ ]?\d)", lambda found: int(found["a"])),
    _rule("xnum", r"x[ ]?(?P<a>\d{1,3})(?![\d:]|\.\d|[ ]?(?:kg|lb|%|m\b|cal(?:s|orie\w*)?\b))", lambda found: int(found["a"])),
    _rule("reps", r"(?P<a>\d{1,4})[ ]?-?(?:reps?|x)\b(?=[ ]|$|[,.;:)@-])", lambda found: int(found["a"])),
    _rule("num", r"(?P<a>\d+(?:\.\d+)?)(?![\d])", lambda found: Decimal(found["a"])),
    # words with a meaning
    _rule("buyin", r"buy[ ]?-?in\b"),
    _rule("cashout", r"cash(?:es)?[ ]?-?out\b"),
    _rule("odd", r"odd\b(?:[ ]?(?:minutes?|mins?))?"),
    _rule("even", r"even\b(?:[ ]?(?:minutes?|mins?))?"),
    _rule("alternate", r"(?<=\d[ ])rotating\b(?=[ ]*(?:$|[:,(-]|\d|min\b|[a-d][.)]))|alternat(?:e|es|ing|ely)\b(?![ ](?:arms?|legs?|hands?|sides?|dumbbell|db|lunge|step|snatch))|in[ ]turn\b"),
    _rule("men", r"(?:for[ ](?:the[ ])?)?(?:men|guys|males?|boys|lads|blokes|herren|männer|gents|rx)\b"),
    _rule("women", r"(?:for[ ](?:the[ ])?)?(?:women|ladies|girls|females?|gals|lasses|damen|frauen)\b"),
    _rule("same", r"(?:at[ ]|with[ ]|@[ ]?)?(?:the[ ])?same[ ](?:weight|load|bar)\b(?:[ ]as[ ](?:above|before|last[ ](?:week|time)|a\d?))?"),
    _rule("lastweek", rf"(?:last[ ](?:week|time)|letzte[ ]week)(?:'s)?(?:[ ](?:weight|load))?[ ]?(?:\+|plus)[ ]?(?P<a>{_NUM})[ ]?(?P<u>kg|lb)?|\+[ ]?(?P<a2>{_NUM})[ ]?(?P<u2>kg|lb)[ ](?:to|on|from|over|vs)[ ]last[ ](?:week|time)"),
    _rule("emptybar", r"(?:the[ ]|an[ ])?empty[ ](?:bar|barbell)\b|just[ ]the[ ]bar\b|bar[ ]only\b|\bleere[ ]stange\b"),
    _rule("climb", r"(?:and[ ])?(?:climb(?:ing)?|ascending|building|build|add(?:ing)?[ ]weight|heavier[ ]each[ ]set|go(?:ing)?[ ]up[ ]each[ ]set|build[ ]up|across|increas(?:e|ing)(?:[ ]each[ ]set)?)\b"),
    _rule("implement", r"(?:(?P<two>two|2|one|1|pair[ ]of|single)[ ])?(?P<i>barbells?|bb|dumbbells?|dbs?|kettlebells?|kbs?|machine|cable|body[ ]?weight|sandbag|sled|rings?|band(?:ed)?)(?:(?=[ ]*(?:[,:;()]|$))|(?<=machine)(?=[ ]\d{1,2}[ ]?x[ ]?\d))", lambda found: (found["i"], found["two"] or "")),
    _rule("orword", r"or\b|none\?|otherwise\b"),
    _rule("andword", r"(?:and[ ])?then\b|and\b|&|plus\b"),
    _rule("sep", r"[,;+/]|-(?=[ ])|>|\||:|\(|\)|\.(?=[ ]|$)"),
    _rule("word", r"x(?=\d)"),
    _rule("word", r"[^\W\d_][^\s,;:()|/+@]*|[^\s]"),
)  # fmt: skip
_SPACE = re.compile(r"\s+")
_NAME_WORD = re.compile(r"[^\W_]+(?:[&+][^\W_]+)?")
# Rules that only fit at a digit or at certain letters are not tried elsewhere; found by trying each rule's first sign.
_NO_FIRST = frozenset({"single", "and", "or", "go", "to", "for", "with"})


def _miles(found: re.Match[str]) -> tuple[int, str]:
    if found["f"]:
        return round(1609 * int(found["f"]) / max(int(found["g"]), 1)), "m"
    if found["h"]:
        return round(1609 / 2), "m"
    return round(1609 * float(found["a"])), "m"


def _until(more: str | None) -> int | str | None:
    """What a list that goes on says of its end: a last number, "on" without one, None where it does not go on."""
    if not more:
        return None
    numbers = ints(more)
    return numbers[0] if numbers else "on"


def tokens_of(text: str, *, lift: bool = False) -> list[Token]:
    """Part a text (lower case, see `plain_words`) into tokens.

    Args:
        text: The text.
        lift: Whether names are looked up as lifts (a "squat" is a barbell's) or as movements of a piece (an air squat).
    """
    return list(_cached(text, lift))


@lru_cache(maxsize=4096)
def _cached(text: str, lift: bool) -> tuple[Token, ...]:
    return tuple(_tokens(text, lift=lift))


def _tokens(text: str, *, lift: bool) -> Iterator[Token]:
    at = 0
    words = list(_NAME_WORD.finditer(text))
    starts = {word.start(): index for index, word in enumerate(words)}
    while at < len(text):
        if space := _SPACE.match(text, at):
            at = space.end()
            continue
        name = _name_at(text, words, starts, at, lift=lift)
        made: Token | None = None
        for kind, pattern, value in RULES:
            if found := pattern.match(text, at):
                if found.end() == at:
                    continue
                if (
                    name is not None
                    and (name.end >= found.end() or kind in ("word", "sep", "setlabel"))
                    and kind not in _STRONGER
                ):
                    break
                given = value(found)
                if given is NOT or (given is None and kind in ("find", "atlist")):
                    continue
                made = Token(kind, given, at, found.end(), found[0])
                break
        if made is None and name is not None:
            made = Token("name", name, at, name.end, text[at : name.end])
        if made is None:
            made = Token("word", text[at], at, at + 1, text[at])
        yield made
        at = made.end


_STRONGER = frozenset({"rest", "onoff", "emom", "every", "amrap", "amrapx", "buyin", "cashout"})


def _name_at(text: str, words: list[re.Match[str]], starts: dict[int, int], at: int, *, lift: bool) -> Found | None:
    index = starts.get(at)
    if index is None or (
        words[index].group() in _NO_FIRST
        and not (
            words[index].group() == "single"
            and index + 1 < len(words)
            and words[index + 1].group() in ("under", "unders", "leg", "arm")
        )
    ):
        return None
    if (
        words[index].group().startswith("cluster")
        and index + 1 < len(words)
        and words[index + 1].group() in ("set", "sets")
    ):
        return None
    if _GREETED.match(text, at) or (
        words[index].group() == "cycle" and ("week" in text or text[:at].endswith(("the ", "this ", "our ", "new ")))
    ):
        return None
    words = words[: _reach(text, words, index)]
    found = longest(words, index, lift=lift)
    if found is not None and found[0] == 1 and words[index].group() == "single":
        found = None  # "single" begins another name; "singles" are single unders
    if found is None:
        found = _composed(words, index, lift=lift)
    elif found[0] > 1 or words[index].group() in ("goblet", "rope"):  # "strict press-ups" are no strict press
        longer = _composed(words, index, lift=lift, within=max(2, found[0]))
        found = longer if longer is not None and longer[0] > found[0] else found
    if found is None:
        return None
    count, known = found
    end = words[index + count - 1].end()
    typed = text[at:end]
    if (
        count > 1 and typed.endswith(" up") and text[end:].startswith(" to ")
    ):  # "press up to a heavy single" is no push-up
        shorter = longest(words[: index + count - 1], index, lift=lift)
        if shorter is None:
            return None
        count, known = shorter
        end = words[index + count - 1].end()
        typed = text[at:end]
    if any(sign in typed for sign in ",;:()|/"):
        return None
    if (more := _behind(text, words, index, count, lift=lift)) is not None:
        return more
    if (held := held_behind(text, end)) is not None:
        end, typed = held[0], f"{held[1]} {typed}"
    name, entry = full_name(typed, lift=lift)
    return Found(at, end, name, entry or known, typed)


def _behind(text: str, words: list[re.Match[str]], index: int, count: int, *, lift: bool) -> Found | None:
    """A name whose own word stands first: "deadlift sumo", "press strict", "squat (front)", "pull-ups weighted"."""
    first = index + count
    for more in (3, 2, 1):
        stop = first + more
        behind = words[first:stop]
        if len(behind) < more or not all(WORDS_BEHIND.fullmatch(each.group()) for each in behind):
            continue
        end = behind[-1].end()
        between = text[words[first - 1].end() : behind[0].start()]
        closes = between == " (" and text[end : end + 1] == ")"
        if (not closes and between != " ") or any(sign in text[behind[0].start() : end] for sign in ",;:()|/"):
            continue
        other = longest(words, first, lift=lift)
        if other is not None and other[0] > 1 and (not closes or other[0] == more):
            return None  # another name begins there
        typed = f"{text[behind[0].start() : end]} {text[words[index].start() : words[first - 1].end()]}"
        name, entry = full_name(typed, lift=lift)
        if entry is not None and name == entry.name:
            return Found(words[index].start(), end + closes, name, entry, typed)
    return None


_GREETED = re.compile(
    r"good (?:morning|evening)s?[,!. ]+(?:all|every\w+|guys|team|my|people|friends|folks|gang|crew|ladies|athletes|you|class|$)"
)
_PARTS_NAMES = re.compile(r"[,;:()|/]|\s\+\s")
_ONE_LIFT = re.compile(r"(?:clean|umsetzen|épaulé|epaule|cargada)\s\+\s(?:jerk|sto|aussto|jet|env)")
MOST_WORDS = 8  # of one name; design choice


def _reach(text: str, words: list[re.Match[str]], index: int) -> int:
    """The first word behind a sign that parts names; "bench + pull" are two, clean + jerk is one."""
    stop = index + 1
    while stop < min(len(words), index + MOST_WORDS):
        between = text[words[stop - 1].end() : words[stop].start()]
        if _PARTS_NAMES.search(between) and not _ONE_LIFT.match(text, words[index].start()):
            break
        stop += 1
    return stop


def _composed(words: list[re.Match[str]], index: int, *, lift: bool, within: int = 4) -> tuple[int, Any] | None:
    """Find a name behind fewer than `within` words that make another one of it, such as "strict" or "db"."""
    for skip in range(1, within):
        if index + skip >= len(words) or words[index + skip - 1].group() in SMALL_WORDS:
            return None
        between = words[index + skip - 1]
        if not re.fullmatch(r"[\s'-]*", between.string[between.end() : words[index + skip].start()]):
            return None
        if found := longest(words, index + skip, lift=lift):
            count = skip + found[0]
            typed = between.string[words[index].start() : words[index + count - 1].end()]
            name, entry = full_name(typed, lift=lift)
            if entry is not None and name != typed:
                return count, entry
            if entry is not None:
                return count, entry
            return None
    return None
