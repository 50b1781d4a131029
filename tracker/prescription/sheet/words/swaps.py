"""Finds in words what may be done instead of what: "X instead of Y", "no Y: X", "Y -> X", "X for Y", "Y taken? X"."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

_WHO = r"(?:(?:scal(?:ed?|ing)|sc|home|at home|home option|option|options|easier|beginners?|level \d|those at home|people at home|home ppl|home people|without kit|in case)\b ?[:=,-]? ?)?"
_NOT = r"(?:no|without(?: an?| any| the)?|if you (?:can'?t(?: do)?|cannot(?: do)?|don'?t have|have no)(?: an?| any)?|if you don'?t have(?: an?| any)?|(?:can'?t|cannot)(?: (?:do|sit on|get on|use|hold|hang on|hang from|ride|run on))?(?: an?| the| any)?|don'?t have(?: an?| any)?|dont have(?: an?)?|not got(?: an?)?|haven'?t got(?: an?)?|ohne|sin|sans|pas de|ni)"
_PLACE = r"(?:\s*[/,]?\s+(?:or |and )?(?:at home|home|here|there))?"
_TO = r"(?:\s*[:?=,>]+\s*|\s+-+>?\s+|\s+(?:do|use|take|then|try|go for|swap (?:for|to|in))\s+|\s+(?=\d))(?:then |just |please )?(?:do |use |try |take |go for )?"
# What is said of a movement behind a comma: twice as many of it, the same number, or how many
_MORE = re.compile(
    r",\s+(?=x ?[2-4]\b|(?:the )?same (?:number|reps|amount)|(?:double|twice) (?!unders?\b)|\d{1,3}(?: ?reps| each side)?\s*(?:$|[.;]))"
)
_DO = re.compile(r"^(?:(?:we|you|u|then|just|please|wir|ihr) )*(?:do |use |take )?")
_LEAD = re.compile(
    r"^(?:(?:space|room|place|way|chance) (?:to|for) |every (?:second|other) |each |the |your |a |an |some |any |all |count |\d+ ?(?:m|km|k|cals?|calories) (?=[a-z])|\d+ (?:reps of )?)+"
)
_TAIL = re.compile(
    r"\s+(?:at home|here|there|if you have no .*|cada vez|each time|every time|instead|please|too|(?:per|a|each|every) round|minutes?|mins?|rounds?|stations?)$"
)


@dataclass(frozen=True, slots=True)
class Swap:
    """What is wanted by the piece, and what is given in its place, in the coach's words; `when` says for whom."""

    wanted: str
    given: str
    when: str = ""
    either: bool = False  # "Y = X" may be written the other way round
    wanted_as_typed: str = ""


def _plainly(words: str) -> str:
    words = words.strip(" .,;:!?-=>")
    words = _TAIL.sub("", words)
    return _LEAD.sub("", words).strip(" .,;:!?-=>")


_IF_NOT = r"(?:if|when|wenn|si|falls) (?:you |u |there(?:'s| is) |we |ihr |du |tu |vous )?(?:no|have no|has no|are out of|don'?t have|haven'?t got|can'?t(?: do)?|cannot(?: do)?|do not have|need to sub|lack)(?: an?| any| the| your)?"
# The weather, and what is then done in place of a run
_RAIN = re.compile(
    r"^\W*(?:and )?(?:(?:if|when|in case|falls|wenn|si|s'il|bei|in|cuando)(?: (?:it|it'?s|it is|es|the|of|weather|is))* )?(?:too )?(?:rain(?:s|ing|y)?|pouring|snow(?:s|ing|y)?|regen|regnet(?: es)?|pleut|lluvia|llueve|icy|slippery|bad weather|wet(?: outside)?|running? (?:is )?(?:not possible|impossible|off)|no outdoors?)\b\s*[?:,=-]*\s*"
)
_ONE: tuple[tuple[str, re.Pattern[str]], ...] = (
    ("", re.compile(rf"^{_NOT} [\w ]+?\s*[:?,]+\s*(?:scale|change|swap|sub|switch) (?:the |your )?(?P<x>[^\W\d_][\w' -]*?) (?:to|for|with|by) (?P<y>.+)$")),
    ("", re.compile(r"^(?P<x>[^\W\d_][\w' -]*?):? or (?P<y>\d.*)$")),
    ("no", re.compile(rf"^{_WHO}(?:no|without|kein|ohne|sin|sans) (?P<x>rower|row|ski|ski erg|bike|erg|run) (?P<y>(?:run|row|bike|ski|walk|skip)\b.*\d.*)$")),
    ("", re.compile(rf"^{_WHO}(?P<y>[^:,]+?),? {_IF_NOT} (?P<x>[^\W\d_][\w' -]*)$")),
    ("", re.compile(r"^(?:if )?(?:the |your )?(?P<x>[^\W\d_][\w -]*?) (?:is |are )?(?:(?:still )?too (?:hard|much|heavy|difficult)|hurts?|bother(?:s|ing)?|not (?:possible|there|ok))\s*[?:,-]\s*(?:do |use |then )?(?P<y>.+)$")),
    ("", re.compile(r"^sub(?:stitute|stitution)?s? for (?:the |your )?(?P<x>[^\W\d_][\w' -]*?)(?:\s*[:=]+|\s+-+)\s*(?P<y>.+)$")),
    ("", re.compile(r"^(?:rx\+? )(?P<x>[^\W\d_][\w' -]*?)(?:\s*[,;/]|\s+-)\s*(?:scaled?|sc|home|easier|beginners?)\b[: ]+(?P<y>.+)$")),
    ("", re.compile(r"^(?:rx\+? )?(?P<x>[^\W\d_][\w' -]*?),? (?:scaled?|sc|scales? to|easier)\b(?: to)?\s*:\s*(?P<y>.+)$")),
    ("", re.compile(r"^(?:scaling|scale|scaled|scales?)\W+(?P<x>[^\W\d_][\w' -]*?) to (?P<y>.+)$")),
    ("no", re.compile(r"^(?:those|people|anybody|anyone|everyone|everybody|whoever|all)(?: of you)?(?: who)?(?: have| has| is)? (?:without|with no|no|not got) (?:an? |any )?(?P<x>[^\W\d_][\w' -]*?)(?: yet)?(?:\s*[:,=]|\s+-)\s*(?P<y>.+)$")),
    ("", re.compile(rf"^(?:.*[:,] ?|(?:.*\b)?(?:we (?:will |do )|do )|{_WHO})(?P<y>[^:,]+?) (?:instead of|in place of|rather than) (?P<x>[^:,]+)$")),
    ("", re.compile(rf"^{_WHO}(?:[a-z' ]{{0,20}} )?instead of (?:the |a )?(?P<x>[^\W\d_][\w' -]*?)(?:(?:\s*[:=,>]+\s*|\s+-+>?\s+)(?:do )?|\s+(?=\d)|\s+(?:do|use|take)\s+)(?P<y>.+)$")),
    ("no", re.compile(rf"^{_WHO}{_NOT} (?P<x>[^\W\d_][\w' -]*?){_PLACE}{_TO}(?P<y>.+)$")),
    ("no", re.compile(rf"\b{_NOT} (?P<x>[^\W\d_][\w' -]*?){_PLACE}(?:\s*[:?=>]+\s*|\s*,\s*(?=\d)|\s+(?:do|use|take|then|try)\s+)(?P<y>.+)$")),
    ("=", re.compile(rf"^{_WHO}(?P<x>[^\W_][\w '&+-]*?)\s*(?:->|=|>|becomes?|turns? into)\s*(?P<y>.+)$")),
    ("", re.compile(r"^(?:the )?(?P<x>[^\W\d_][\w -]*?) (?:is |are )?(?:taken|broken|busy|occupied|in use|full)\s*[?:,-]\s*(?:do |use )?(?P<y>.+)$")),
    ("", re.compile(r"^(?:at home|home|scaled?)[ :,-]+(?P<y>.+?),? (?:and )?not (?P<x>[^\W\d_][\w -]*)$")),
    ("", re.compile(r"^(?:(?:home|scaled?|sc|we|you|just|can|please|option)[ :,]+)*(?:swap|replace|sub(?:stitute)?|change) (?:out )?(?:the |your )?(?P<x>[^\W\d_][\w -]*?) (?:for|with|by|to) (?P<y>.+?)(?:,? if (?:you )?(?:need(?:ed)?|want|have|must|can)(?: to)?)?$")),
    ("", re.compile(r"\b(?:cambia[dr]?|sustitu\w+|remplace[rz]?) (?:las? |los |el |les? )?(?P<x>[^\W\d_][\w' -]*?) (?:por|par) (?P<y>.+)$")),
    ("", re.compile(r"^(?P<x>[^\W\d_][\w' -]*?) (?:durch|mit) (?P<y>.+?) ersetzen$")),
)  # fmt: skip
_FOR = re.compile(
    rf"^{_WHO}(?:sub(?:stitute)? |use |do |take )?(?P<y>.+?) for (?:the |your |a )?(?P<x>[^\W\d_][^\W\d]*(?:[ -][^\W\d]+)*?(?: ?[234][a-z])?[\w-]*?)(?: (?P<n>\d{{1,3}})(?: ?reps)?)?$"
)


_BELLS = r"(?P<h>dumbbells?|dbs?|kettlebells?|kbs?)"
_BELLS_ONLY = re.compile(r"^\W*(dumbbells?|dbs?|kettlebells?|kbs?) only(?=\s*[?:=,-])")
_LOAD = re.compile(r"^(?:2 ?x ?)?\d[\d./x ]*(?:kg|lb|#)?\b")
# Another bell in place of the bar, as in "dumbbells instead of the bar: 2x20/2x12.5 kg"
_OTHER_BAR = re.compile(
    rf"^\W*(?:use )?(?:two |2 |a |an |one |1 |single )?{_BELLS} (?:instead of|in place of|not) (?:the |a )?(?:bar|barbell)\W+(?P<l>(?:2 ?x ?)?\d[\d./x kglb#]*)$"
)
# "only dumbbells? 2x20/2x12.5 kg for the cleans"
_ONLY_HAS = re.compile(
    rf"^\W*(?:if )?(?:(?:you|u) )?(?:(?:only|just) (?:have |got |own )?|(?:have|got) (?:only|just) |no bar(?:bell)?,? (?:only|just) )(?:two |2 |a |an |some )?{_BELLS}(?: at home| there| here)?\s*[?:=,-]+\s*(?P<y>.+)$"
)


_CLAUSES = r"\s*[;,]\s*|\s+and\s+(?=[a-z\d ]+ instead of |\d{1,3}(?:\.\d)? ?/ ?\d{1,3}\b)|\.\s+"
_CLAUSES_OR_STROKES = rf"{_CLAUSES}|\s+[/|]\s+"
_ARROWS = re.compile(r"\s*(?:>{2,}|=>|-{1,2}>)\s*")
_BELLS_ABROAD = re.compile(
    r"(?:^|(?<=[,:;(=>] )|(?<=avec )|(?<=with )|(?<=con )|(?<=com )|(?<=mit )|(?<=une )|(?<=una )|(?<=un )|(?<=\d ))(?:halt[eè]res?|mancuernas?|kurzhanteln?|manubrio?|halteres?)\b"
)


def _bells(text: str) -> str:
    """Dumbbells of other languages in English."""
    return _BELLS_ABROAD.sub(lambda found: "dumbbell" if found[0][-1] in "earo" else "dumbbells", text)


def swaps_of(text: str) -> list[Swap]:
    """Return what a clause, or each of several parted by commas, says may be done instead of what; `text` is in lower case."""
    if found := _RAIN.match(text):
        rest = _DO.sub("", text[found.end() :])
        return swaps_of(rest) or ([Swap("run", _TAIL.sub("", rest.strip(" .!")), "rain")] if rest.strip(" .!") else [])
    text = _ARROWS.sub(" = ", _bells(_BELLS_ONLY.sub(r"only \1", text)))
    if found := _OTHER_BAR.match(text):
        return [Swap("barbell", f"{found['h']} {found['l']}", "no barbell")]
    if found := _ONLY_HAS.match(text):
        told, _, more = found["y"].partition(". ")
        pairs = [
            replace(
                pair, given=f"{found['h']} {pair.given}" if _LOAD.match(pair.given) else pair.given, when="no barbell"
            )
            for pair in some_pairs(told)
        ]
        if not pairs and _LOAD.match(told):
            pairs = [Swap("barbell", f"{found['h']} {told}", "no barbell")]
        return pairs + (swaps_of(more) if more.strip() else [])
    text = _MORE.sub(" ", text)
    whole = _swap(text)
    parts = [
        part
        for part in re.split(
            _CLAUSES if len(re.findall(r"=|->| instead of | for ", text)) < 2 else _CLAUSES_OR_STROKES, text
        )
        if part.strip()
    ]
    if len(parts) > 1:
        each = [_swap(part) for part in parts]
        found = [swap for swap in each if swap is not None]
        if found:
            rest = [part for part, swap in zip(parts, each, strict=True) if swap is None]
            found += [pair for part in rest for pair in for_pairs(part)]
        if len(found) > 1 or (found and (whole is None or re.search(r"\d", whole.wanted))):
            return found
    return [whole] if whole is not None else []


def for_pairs(text: str) -> list[Swap]:
    """Return pairs of "X for Y", where each part of the text is one."""
    text = _bells(_MORE.sub(" ", text.strip(" .")))
    parts = [part for part in re.split(r"\s*[;,]\s*|\s+and\s+", text) if part.strip()]
    found = [match for part in parts if (match := _FOR.match(part))]
    return [_pair(match) for match in found] if len(found) == len(parts) else []


def some_pairs(text: str) -> list[Swap]:
    """Return the pairs of "X for Y" among the parts of a text, whatever else it says."""
    text = _bells(_MORE.sub(" ", re.sub(r"\s*\([^()]*\)", "", text).strip(" .")))
    parts = re.split(r"\s*[;,]\s*|\s+and\s+", text)
    found = [match for part in parts if (match := _FOR.match(part))]
    return [_pair(match) for match in found]


def _pair(found: re.Match[str]) -> Swap:
    return Swap(_plainly(found["x"]), f"{found['n']} {found['y']}".strip() if found["n"] else found["y"].strip())


def _swap(text: str) -> Swap | None:
    text = text.strip(" .!()")
    for kind, pattern in _ONE:
        if found := pattern.search(text):
            wanted, given = _plainly(found["x"]), _TAIL.sub("", found["y"].strip(" .,;:!?-"))
            if wanted and given:
                return Swap(
                    wanted,
                    given,
                    f"no {wanted}" if kind == "no" and len(wanted) < 30 else "",
                    kind == "=",
                    found["x"].strip(),
                )
    return None
