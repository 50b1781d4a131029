"""Marks of a typed line that say what it may be: labels, bullets, keys, stations, sentences, and words that are no prescription."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from tracker.prescription.sheet.tables import Line

BULLET = re.compile(r"^\s*(?:[-•*>]+\s+|\[[ x]?\]\s*|o\s+(?=\d))")
LABEL = re.compile(
    r"\s*(?:\(?(?P<a>[A-Ha-h]|S(?=\d))(?P<n>\d)?[.):]+\s*(?=\S)|\(?(?P<b>[A-H])(?P<m>\d)?\s+-\s+(?=\S)|(?P<f>[A-H])(?P<g>\d)\s+(?=\S)|(?P<d>\d{1,2})[.)]\s+(?=\S)|#(?P<e>\d{1,2})\s+)"
)
BARE_LETTER = re.compile(r"\s*(?P<a>[A-H])\s+(?=[A-Z0-9])")
# The numbers of sets at the start of a line: "1) 5 @ 70%", "2-4) 3 @ 80%", "1. 5 reps at 60 kg"
SET_NUMBER = re.compile(r"\s*(?P<n>\d{1,2}(?:\s*[-&+]\s*\d{1,2})?)(?:[.)]|:(?!\d))\s+(?P<sets>\d.*)$")
# The number of a part of an item: "1.2  3 x 5 @ 90 %"
SUB_NUMBER = re.compile(r"^\s*\d\.\d[.)]?\s+(?=\d{1,2}\s?[x×@]|\d{1,2} (?:sets?|reps?|@|x))")
# What is done between the sets of the lift above, in turn with it
BETWEEN_SETS = re.compile(
    r"^\W*(?:and |then |also )?(?:straight |right |directly |immediately )?(?:in )?(?:between|after|nach|zwischen|après|entre|después de|tras)\s+"
    r"(?:(?:each|every|all|the|your|those|jedem|jeder|den|chaque|las|los|cada|les)\s+)*sets?\b(?: of (?:that|those|it))?\s*[:,]?\s*(?:do\s+|we do\s+)?(?=\d)"
)
# How many sets each lift below has: "3 sets:", "4 sets of", "superset x 4"
BLOCK_SETS = re.compile(
    r"^\W*(?:(?P<n>\d{1,2}) (?:super ?)?sets?(?: of(?: each)?)?(?: each)?|super-? ?sets?,? (?:x ?)?(?P<m>\d{1,2})(?: ?x| sets?| rounds?| times)?)\s*[:.-]?\s*$"
)
# Two lifts in turn on one line
IN_TURN = re.compile(
    r"[,;.(]?\s*(?:[+&/]\s*)?\b(?:super-?\s?set(?:ted)?|ss|paired)\s+(?:with|w/)\s*:?\s*(?=\S)", re.IGNORECASE
)
BEFORE_BETWEEN = re.compile(
    r"[,;]?\s+(?:and\s+)?(?=(?:straight|right|directly|immediately)\s+(?:after|between)\s+(?:each|every)\s+set\b)|[,;]\s+(?:and\s+)?(?=(?:after|between)\s+(?:each|every)\s+set\b)",
    re.IGNORECASE,
)
IN_BETWEEN = re.compile(r"[,;]?\s*(?:done\s+)?(?:in\s+)?between(?:\s+(?:the\s+)?sets)?\W*$")
SENTENCE_END = re.compile(
    r"(?:(?<=[a-zäöüß\d%)\"!?])|(?<=\dRM))(?<!\bMin)(?<!\bmin)(?<!\bca)(?<!\bapprox)(?<!\bno)(?<!\bsec)(?<!\bWdh)(?<!\bvs)(?<!\bmax)(?<!\bFr)(?!(?<=\d)\.\.)[.!?]+(?:\s+(?=[\"'(]?[A-ZÄÖÜ0-9%])|\s*$)"
)
# Words between one thing and the next, in the languages that are read
SPLIT_THEN = re.compile(
    r"(?:(?<=\s)|^)(?:(?:and|und|et|y|&)\s+)?(?:then|after\s+(?:that|this)|afterwards|next(?=\s+(?!(?:two|three|four|five|\d)\s+(?:sets?\s+|ones\s+)?(?:(?:at|with)\b|@)|week|time|one|set|round|month|year|to\b))|finally|to finish(?: off)?|danach|anschließend|nachher|zum schluss"
    r"|ensuite|puis|après ça|pour finir|luego|después|despues|para terminar)(?:\s+(?:we|you|wir|on)\s+(?:do|go|machen|fait)(?=\s))?:?,?(?=\s)(?! add)",
    re.IGNORECASE,
)
TALK = re.compile(
    r"\b(?:i|i'm|i'll|i've|thanks?|thank you|sorry|welcome|please (?:send|tell|write|post|bring|note)|send me|tell me|opens?|closed|price|euros?|birthday|cake|coffee|"
    r"see you|regards|wishes|hello|dear|who is|who's|door|code|parking|showers?|newsletter|holiday|needed|survived|limped|ordered|because|yesterday|"
    r"last year|last night|last saturday|neighbour|weather|meeting|dentist|poll|vote|sign(?:ed)? up)\b"
)
# What is owed for coming late and the like, and what who has no max may do: words, never sets or a piece of the day
PENALTY = re.compile(
    r"\b(?:for (?:each|every) (?:min(?:ute)?s? )?(?:late|missed|you'?re late)|per (?:min(?:ute)? )?late|(?:if|when) (?:you|u)(?:'re| are)? late|owes?\b|for (?:each|every) min(?:ute)?s? (?:you are |you're )?late)\b"
)
NO_MAX = re.compile(
    r"(?:^|[.?!;,(]\s*)(?:if )?(?:you |u )?(?:don'?t|do not|no|without|haven'?t) (?:know |have |got |know your )?(?:a |an |your |any |tested )*(?:1 ?-?rm|one rep max|max|1|one|it|number)\b\s*[?,:-]"
)
GREETING = re.compile(r"\W*(?:thanks?|thank you|sorry|hello|dear|welcome|cheers|congrat\w*|happy)\b")
KEYS = re.compile(r"(?P<key>title|date|starts?|notes?|piece)\s*[:：]\s*", re.IGNORECASE)
REMARK = re.compile(r"(?:^|(?<=[\s,;:]))(?:--)(?=\s|$).*$")
# The minute or station that a line of a clock is of: "min 1:", "M1", "#1", "(1)", "1st min:", "1':", "1 -", a bare 1, "odd:"
STATION = re.compile(
    r"^\s*(?:(?:m|mins?|minutes?|stations?|stn|st|rounds?|rds?|exercise)\.?\s*#?(?P<a>\d{1,2})(?:-(?P<b>\d{1,2}))?\s*'?\s*[:.)=-]?\s+"
    r"|[#(]\s*(?P<c>\d{1,2})\)?\s*[:.)=-]?\s+"
    r"|(?P<d>\d{1,2})\s*(?:(?:st|nd|rd|th|\.)?\s*(?:mins?|minutes?)|')\s*[:.)=-]\s*"
    r"|(?P<e>\d{1,2})\s*(?:[.)=](?!\d)|:(?!\d)|-(?=\s))\s*"
    r"|(?P<g>\d)\s+(?=\d+[\s/'\"a-z]|rest\b|off\b|max\b)|(?P<h>\d)\s+(?=[a-z])"
    r"|(?P<f>odd|even)\b(?:\s*(?:minutes?|mins?))?\s*[:=-]?\s*)",
    re.IGNORECASE,
)
_INLINE_STATION = re.compile(
    r"(?:(?<=^)|(?<=[\s,;/|:]))(?:\((?P<p>\d)\)|(?:mins?|minutes?|m|stations?|#)?[ ]?(?P<n>\d)(?:[ ]?[).=](?!\d)|:(?!\d)|'[ ]?:|[ ]-))(?=[ ])",
    re.IGNORECASE,
)


def inline_stations(text: str) -> str:
    """Write the marks of stations that stand on one line, counting up from 1, as minutes: `1) 10 burpees 2) 12 sit-ups`."""
    found = list(_INLINE_STATION.finditer(text))
    row: list[re.Match[str]] = []
    for mark in found:
        if int(mark["p"] or mark["n"]) == len(row) + 1:
            row.append(mark)
    if len(row) < 2:
        return text
    for mark in reversed(row):
        text = f"{text[: mark.start()]}{'; ' if mark is not row[0] else ' '}minute {mark['p'] or mark['n']}: {text[mark.end() :]}"
    return text


IMPLEMENT_WORDS = {
    "barbell": "barbell", "bb": "barbell", "barbells": "barbell", "dumbbells": "dumbbells", "dumbbell": "dumbbell", "dbs": "dumbbells", "db": "dumbbells",
    "kettlebells": "kettlebells", "kettlebell": "kettlebell", "kbs": "kettlebells", "kb": "kettlebell", "machine": "machine", "cable": "machine",
    "bodyweight": "body", "body": "body", "body weight": "body", "sandbag": "sandbag", "sled": "sled", "ring": "rings", "rings": "rings", "band": "band",
    "banded": "band", "ball": "ball", "other": "other", "unasked": "unasked",
}  # fmt: skip
IMPL = "|".join(sorted(IMPLEMENT_WORDS, key=len, reverse=True))
STRICT = re.compile(
    rf"^(?P<joined>superset with\s+)?(?P<name>[^\W\d_][^,:@%0-9]*(?:\d[^,:@%]*)?),\s*(?:(?P<two>two|2|one|1)\s+)?(?P<impl>{IMPL})\s*(?P<end>[,:]|$)",
    re.IGNORECASE,
)
ALTERNATIVE = re.compile(
    rf"^or\s+(?:(?P<when>[^,:]{{1,30}}) - )?(?:(?P<name>[^,:@%]+?),?\s+)?(?:(?P<two>two|2|one|1)\s+)?(?P<impl>{IMPL})\s*(?:(?P<colon>:)\s*(?P<sets>.+)|,\s*(?P<rule>(?:twice|double)\s+the\s+(?:repetitions|reps)|(?:the\s+)?same(?:\s+(?:repetitions|reps))?|doubled|(?:repetitions|reps)\s+doubled))\s*$",
    re.IGNORECASE,
)
HOME_LIFT = re.compile(
    r"^(?P<when>(?:only |just )?(?:dumbbells?|dbs?|kettlebells?|kbs?)(?: only)?|no(?:ne| kit| barbell| bar| equipment| rack| rower| rig)|nothing(?: at all)?|none|home|at home|scaled?|no [a-z]+|without [a-z ]+|bodyweight|band|light(?:er)?)\s*[:–-]\s*(?P<rest>.+)$",
    re.IGNORECASE,
)
ALL_OF = re.compile(r"^(?:\(?\s*)?(?:all )?(?:%|percent|percentages?|%'?s|tm|training max|weights?|loads?)\b.*|^\(?%")
WARM_UP = re.compile(
    r"^(?:to start,? |first,? |then,? )?(?:we |you |let's |please |everyone )?(?:all )?(?:will |'ll |are going to )?(?:always )?warm(?:ing)?[ -]?up\b(?!.{0,20}(?:sets|to a|to your)\b)"
    r"|^(?:w/u|wu)(?=\s+\S)"
    r"|^(?:[ée]chauffement|calentamiento|aufwärmen|aufwaermen|einlaufen)\b",
    re.IGNORECASE,
)
NO_KIT = re.compile(r"\b((?:no|can'?t|cannot) [\w' -]{1,34})\?", re.IGNORECASE)
OR_BRACKETS = re.compile(r"\(\s*or\b[^()]*\)")
SUPERSET = re.compile(r"[+&]?\s*(?:super-?\s?set(?:ted)?|ss|paired)\s+(?:with|w/)\s*:?\s*(?=\S)", re.IGNORECASE)
TEXT_AGAIN = re.compile(r"(warm-?up|cool-?down)\s*:", re.IGNORECASE)
# A stroke with room on both sides, before what only a piece begins with: "squat 5x5 / emom 10: 8 burpees"
SETS_THEN_CLOCK = re.compile(
    r"(?<=[\w%)]) +[/–—-] +(?=(?:e\d?mom|amrap|tabata|for time|every \d|\d{1,2} ?(?:rft|rounds?|rds|runden|rondas|tours|min(?:ute)?s? (?:amrap|emom)|'? ?(?:amrap|emom)))\b(?! rest))",
    re.IGNORECASE,
)
# The number of an event or a part at the start of a line, with the sign that parts it from what it heads
PART = re.compile(
    r"(?:event|part|piece|teil|partie|parte|evento|épreuve|epreuve)\s*#?(?P<n>\d{1,2}|[a-h])\s*(?:[:.)]|\s[-–—])\s*(?=\S)",
    re.IGNORECASE,
)
# A row of counts under a piece's clock, which alone might be a date: "4-8-12..."
COUNTS = re.compile(r"\d{1,2}(?:\s?[-/]\s?\d{1,2}){2,}(?!\d)\s*(?:[-/.…:]|etc|reps|$)")
# What is done after each round is a movement of the piece above
AFTER_ROUND = re.compile(
    r"^\W*(?:(?:and )?(?:after|between|nach|zwischen|après|apres|después de|despues de|tras) (?:each|every|all|jeder|den|chaque|cada)?\s*(?:rounds?|rds?|rnds?|runden?|tour|ronda)\b\s*[:,=-]?\s*)(?=\S)"
)
# Counts that are no date, wherever they stand: four or more, or three that a word says are repetitions
MORE_COUNTS = re.compile(
    r"\d{1,3}(?:\s?[-/–]\s?\d{1,3}){3,}(?!\d)|\d{1,2}(?:\s?[-/–]\s?\d{1,2}){2}\s*\(?(?:reps\b|for time\b|of\b|r?ft\b|ladder\b)",
    re.IGNORECASE,
)
ROUND_AFTER = re.compile(
    r"^\W*(?P<what>.+?),? (?:after|between|nach|zwischen) (?:each|every|all|jeder|den)? ?(?:rounds?|rds?|runden?)\W*$"
)
PART_ALONE = re.compile(r"(?:part|block|piece|teil|partie|parte) (?P<n>[a-h]|\d)\s*[:.-]?", re.IGNORECASE)
QUESTION = re.compile(r"\?\s*\W*(?:(?:no|nope|nein|non)\W*)?$")


def text_kind(word: str) -> str:
    return "warm-up" if word.lower().startswith("w") else "cool-down"


def numbered(lines: list[Line]) -> set[int]:
    """The lines whose `1.` or `2)` is a label: they count up from 1."""
    found: set[int] = set()
    last = 0
    for line in lines:
        match = re.match(r"\s*(?:[-•*]\s+)?(\d{1,2})[.)]\s+(?=\S)", line.text)
        if match is None:
            continue
        number = int(match[1])
        if number in (0, 1) or number == last + 1 or match[0].strip().endswith(")"):
            found.add(line.number)
            last = number
    return found


def lettered(lines: list[Line]) -> set[int]:
    """The lines that begin with a bare A, B, C of a row of such letters."""
    rows = [
        (line.number, match["a"])
        for line in lines
        if (match := (BARE_LETTER.match(line.text) or re.match(r"\s*(?P<a>[A-H])\d?[.):]?\s", line.text)))
    ]
    bare = {line.number: match["a"] for line in lines if (match := BARE_LETTER.match(line.text))}
    letters = [letter for _, letter in rows]
    return {
        number
        for number, letter in bare.items()
        if (letter == "A" and "B" in letters) or chr(ord(letter) - 1) in letters
    }


def is_prose(text: str) -> bool:
    """Whether a line is written in sentences: many plain words beside few numbers and names."""
    words = re.findall(r"[A-Za-zÀ-ÿ']+", text)
    if len(words) < 8:
        return False
    plain_words = sum(word.lower() in COMMON for word in words)
    return plain_words >= 3 and plain_words * 4 >= len(words)


# Words of plain speech; those that stand in prescriptions too, such as "for", "of" and "max", tell nothing
COMMON = frozenset(
    (
        "the an you your we i it is are was were be that this there than as by do does not but so what who when have "
        "has had will would can could should please me my our us them they he she some any more take make after "
        "before because until it's don't today tonight tomorrow week next last just only those these from into out"
    ).split()
)


_COUNT_OF_SETS = re.compile(
    r"\b(?:\d{1,2}|two|three|four|five|six|seven|eight|ten) (?:working |work )?sets\W*$", re.IGNORECASE
)
_REPS_OF_SETS = re.compile(r"(?:\d{1,2}|one|two|three|four|five|six|eight|ten|twelve) reps?\b", re.IGNORECASE)
_TOLD_IN_TURN = re.compile(
    r"(?:the )?first (?:\d|one|two|three|four|five)\b.*\b(?:last|next|then|other)\b", re.IGNORECASE
)


def joined_sentences(parts: list[str]) -> list[str]:
    """Put sentences together that say one thing of sets: `6 sets. 2 reps each. First two at 70 %, last two at 80 %`."""
    found: list[str] = []
    for part in parts:
        last = found[-1] if found else ""
        if last and (
            (_COUNT_OF_SETS.search(last) and _REPS_OF_SETS.match(part))
            or (re.search(r"\b(?:reps|sets|each)\W*$", last) and _TOLD_IN_TURN.match(part))
        ):
            sign = " of" if _REPS_OF_SETS.match(part) else ","
            found[-1] = last.rstrip(" .!") + sign + " " + part
        else:
            found.append(part)
    return found


def then_parts(text: str) -> list[str]:
    """Part a sentence at "then", at double strokes, and at a stroke between sets and what goes on a clock."""
    if SETS_THEN_CLOCK.search(text):
        return [each for part in SETS_THEN_CLOCK.split(text) for each in then_parts(part)]
    if "//" in text or " || " in text:
        return [
            each for part in re.split(r"\s*//+\s*|\s+\|\|\s+", text) for each in then_parts(part) if each.strip(" ,.;:")
        ]
    if _TOLD_IN_TURN.search(text):  # "the first two at 70 %, then two at 75 %": one row of sets
        text = re.sub(
            r"(?<=[,;] )then (?=(?:the next )?(?:two|three|four|five|one|\d)\b[\w ]{0,12}(?:at\b|@))", "next ", text
        )
    parts = SPLIT_THEN.split(text) if SPLIT_THEN.search(text) else [text]
    parts = [each for part in parts for each in BEFORE_BETWEEN.split(part)]
    return [part for part in parts if part.strip(" ,.;:")] if len(parts) > 1 else [text]


def split_outside(text: str, sign: str) -> list[str]:
    """Part a text at a sign outside brackets."""
    parts, depth, now = [], 0, ""
    for letter in text:
        depth += (letter == "(") - (letter == ")")
        if letter == sign and depth <= 0:
            parts.append(now)
            now = ""
        else:
            now += letter
    return [part for part in [*parts, now] if part.strip()]


def remarks_of(text: str) -> tuple[str, list[str]]:
    """Take remarks in brackets out of a text: those of words; a load in brackets stays to be read."""
    notes: list[str] = []

    def take(found: re.Match[str]) -> str:
        notes.append(found[1].strip())
        return " "

    return re.sub(r"\(([^()]*)\)", take, text), notes


def with_note(group: Any, text: str) -> Any:
    notes = remarks_of(text)[1]
    return replace(group, note="; ".join(notes)) if notes else group
