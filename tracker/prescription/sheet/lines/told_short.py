"""More of what is typed short: days, paces, ages, clocks by a letter, distances without a unit, written out a line at a time."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.words.plain_words import plain

_TICK_BOX = re.compile(r"^(\s*(?:[-*•]\s*)?)\[[ xX✓]?\]\s*")
# "Ven : développé ...": a day with the French room before its sign
_DAY_SIGN = re.compile(r"^(\W*(?:lun|mar|mer|jeu|ven|sam|dim)(?:di|credi|dredi|edi|anche)?\.?) :(?=\s)", re.IGNORECASE)
# Anywhere between two percentages: "zwischen 75 und 85 %"
_BETWEEN = re.compile(
    r"\b(?:anywhere )?(?:between|zwischen|entre|tussen|tra) (?P<a>[4-9]\d(?:[.,]5)?) ?%? (?:and|und|et|y|e|en|&) (?P<b>[4-9]\d|1[0-2]\d) ?(?:%|percent\b|prozent\b|por ciento\b)",
    re.IGNORECASE,
)
# "@ 5:00/km": how fast, no load
_PACE = re.compile(
    r"(?:@|\bat|\bin|\bà|\ba) ?(?P<p>\d{1,2}[:.]\d\d(?: ?- ?\d{1,2}[:.]\d\d)?)(?: ?min)? ?(?:/|per |pro |par |por )(?:km|k\b|500 ?m?\b|mile|mi\b|400 ?m?\b|100 ?m?\b)(?: pace)?",
    re.IGNORECASE,
)
# "Over 50s", "the over-60s": people, no seconds
_AGES = re.compile(r"\b(?:the )?over[ -]?[4-7]0'?s\b", re.IGNORECASE)
# "E90 x 8", "E75s x 6": every so many seconds
_EVERY = re.compile(
    r"\bE(?P<s>30|40|45|60|75|90|100|120|150|180) ?(?:s|sec)? ?(?:[x×]|for) ?(?P<n>\d{1,2})\b(?! ?(?:min|'|%|kg))"
)
# "Row 500 all out": metres
_METRES = re.compile(
    r"\b(?P<x>row|run|ski|swim|rudern|laufen) (?P<d>[1-9]\d?[05]0|[1-9]\d00)\b(?! ?(?:m\b|met|cal|k\b|km|mile|yd|x|watts?|w\b|[-/:.,]\d|strokes|reps|%))",
    re.IGNORECASE,
)
# "chins bw+10": so much more than the body
_BODY_PLUS = re.compile(
    r"\b(?:bw|bodyweight|kg corp|pdc|kgw) ?\+ ?(?P<l>\d{1,2}(?:[.,]\d+)?)(?: ?(?P<u>kg|lb))?\b(?!\s?[x×])(?P<s> \d{1,2} ?[x×] ?\d{1,2}\b)?",
    re.IGNORECASE,
)
# "row 30:20 x 10 rounds": so long on, so long off
_ON_OFF = re.compile(
    r"\b(?P<x>row|bike|ski|run|assault bike|echo bike|air bike)(?: erg)?,?:? (?P<a>15|20|30|40|45|60):(?P<b>10|15|20|30|40|45|60|90) ?[x×] ?(?P<n>\d{1,2})(?: (?:rounds|sets|times))?\b",
    re.IGNORECASE,
)
# "3 sets: 12 sit-ups, 20 m handstand walk": rounds of several movements
_SETS_OF_SEVERAL = re.compile(
    r"^(?P<b>\W*(?:[A-H][.):] ?|\d[.)] )?)(?P<n>\d) sets(?: of)?:\s+(?=\d{1,3} ?(?:m |cal )?[a-z][a-z -]+, ?\d{1,3} ?(?:m |cal |s |sec )?[a-z][^@%]*$)",
    re.IGNORECASE,
)
# How long each round is, and what is between them, told around what is done in it
_ROUND_OF = re.compile(
    r"(?P<n>\d{1,2}) rounds?,? (?:each(?: round)?(?: is| of| lasts)?|every round) (?P<w>\d{1,2}) ?min\w*(?P<m>[:,;].*?)[.,;]? (?:rest )?(?P<r>\d{1,2}) ?min\w* (?:rest )?between(?: rounds?| them)?\b",
    re.IGNORECASE,
)
# "200 m run @ 80 %": how hard, no share of a load
_HOW_HARD = re.compile(
    r"(\b\d+(?:[.,]\d)? ?(?:m|km|k|cals?|miles?) (?:run|row|bike|ski|swim|jog|sprint|erg|ride)(?:ning|ing|s)?),? (?:@|at) ?\d{2,3}(?: ?- ?\d{2,3})? ?%(?: (?:effort|pace|speed))?",
    re.IGNORECASE,
)
_MAX_OUT = re.compile(r"\bmax(?:ing)?[ -]?out(?= day\b)", re.IGNORECASE)
# "chins between every set, 5-8 reps"
_BETWEEN_SETS = re.compile(
    r"^(?P<b>\W*)(?P<x>[^\W\d][^\d,.;:@]{2,30}?) (?:in )?between (?:every |each |the |all )?sets?,?:? (?P<n>\d{1,2}(?:-\d{1,2})?)(?: reps?)?(?P<e>\s*[.!]?)$",
    re.IGNORECASE,
)
_RULES: tuple[tuple[re.Pattern[str], str | Callable[[re.Match[str]], str]], ...] = (
    (_TICK_BOX, r"\1"),
    (_DAY_SIGN, r"\1:"),
    (_BETWEEN, r"@ \g<a>-\g<b> %"),
    (_PACE, "(paced)"),
    (
        _AGES,
        lambda found: "" if found.string[found.end() : found.end() + 1] == ":" and found.start() < 3 else "masters",
    ),
    (_EVERY, r"every \g<s> s x \g<n>"),
    (_METRES, r"\g<x> \g<d> m"),
    (_BODY_PLUS, lambda found: f"{(found['s'] or '').strip()} +{found['l']} {found['u'] or 'kg'}".strip()),
    (_ON_OFF, r"\g<n> x \g<a> s on \g<b> s off \g<x>"),
    (_SETS_OF_SEVERAL, r"\g<b>\g<n> rounds, not for time: "),
    (_HOW_HARD, r"\1 (hard)"),
    (_MAX_OUT, "test"),
    (_BETWEEN_SETS, r"\g<b>Between sets \g<n> \g<x>\g<e>"),
    (_ROUND_OF, r"\g<n> rounds of \g<w> min on, \g<r> min off\g<m>"),
)


def told_short(text: str) -> str:
    """Return a cleaned line with what is typed short in the form that is read."""
    for pattern, word in _RULES:
        text = pattern.sub(word, text)
    return text


# "Mon 7: ...", "Tue 8: ...": weekdays with the day of the month
_NUMBERED_DAY = re.compile(
    r"^(?P<b>\W*)(?P<d>mon|tue|tues|wed|thu|thur|thurs|fri|sat|sun|mo|di|mi|do|fr|sa|so|lun|mar|mer|jeu|ven|sam|dim)[a-zé]*\.? (?P<n>\d{1,2})(?:st|nd|rd|th|\.)?\s*[:–-]\s*(?=\S)",
    re.IGNORECASE,
)
_ORDER = {"mo": 0, "lu": 0, "tu": 1, "di": 1, "we": 2, "mi": 2, "me": 2, "th": 3, "do": 3, "je": 3, "fr": 4, "ve": 4, "sa": 5, "su": 6, "so": 6}  # fmt: skip


def days_of_the_month(lines: list[Line]) -> list[Line]:
    """Leave the number of the day from weekdays of one week, where two or more go on as a calendar does."""
    found = [(place, match) for place, line in enumerate(lines) if (match := _NUMBERED_DAY.match(line.text))]
    days = [(_ORDER.get(match["d"].lower()[:2], -1), int(match["n"])) for _, match in found]
    if len(days) < 2 or any(day < 0 for day, _ in days) or len({(number - day) for day, number in days}) != 1:
        return lines
    made = list(lines)
    for place, match in found:
        named = made[place].text[: match.start("n")].rstrip()
        made[place] = replace(made[place], text=f"{named}: {made[place].text[match.end() :]}")
    return made


_WEEK_SETS = re.compile(
    r"^\s*(?:[-*•]\s*)?(?:week|wk|w|woche|semana|semaine) ?\d{1,2}\b[\s:.–-]*(?:of )?\d{1,2} ?[x×] ?\d", re.IGNORECASE
)
_OF_WHAT = re.compile(
    r"^\W*(?:(?:lift|exercise|movement|übung|ejercicio|exercice)\s*[:=]\s*|(?:it'?s )?all (?:of (?:it|this|them) )?(?:is |are |for |on )?(?:the )?|for (?:the )?)(?P<x>[^\W\d][^\d,;:.]{2,30})(?P<e>(?:[,;.].*)?)$",
    re.IGNORECASE,
)


def lift_below_weeks(lines: list[Line]) -> list[Line]:
    """`Week 1 - 3x10 @ 60 %` and so on, and below them `Lift: front squat`: the lift stands above its weeks."""
    rows = [place for place, line in enumerate(lines) if _WEEK_SETS.match(line.text)]
    if len(rows) < 2 or rows != list(range(rows[0], rows[-1] + 1)):
        return lines
    if any(token.kind == "name" for place in rows for token in tokens_of(plain(lines[place].text), lift=True)):
        return lines
    above = [line.text for line in lines[max(0, rows[0] - 3) : rows[0]]]
    if any(token.kind == "name" for text in above for token in tokens_of(plain(text), lift=True)):
        return lines
    for place in range(rows[-1] + 1, min(rows[-1] + 4, len(lines))):
        found = _OF_WHAT.match(lines[place].text)
        if found is None:
            continue
        named = tokens_of(plain(found["x"].strip()), lift=True)
        if len(named) != 1 or named[0].kind != "name":
            continue
        head = replace(lines[place], text=found["x"].strip(), cell=True)
        rest = [replace(lines[place], text=found["e"].strip(" ,;."), words=True)] if found["e"].strip(" ,;.") else []
        return [*lines[: rows[0]], head, *lines[rows[0] : place], *rest, *lines[place + 1 :]]
    return lines


_ROW_FIRST = re.compile(
    r"^(?P<b>\s*(?:[-*•]\s*)?)(?P<l>\d{1,3}(?:-\d{1,3}){2,}):? (?P<x>[^\W\d][^\d(@]*?)(?P<e>\s*(?:[\d(@].*)?)$"
)


_TIMED = re.compile(r"\b(?:for time|r?ft|metcon|wod|auf zeit|por tiempo|pour le temps|conditioning)\b", re.IGNORECASE)


def rows_of_counts(lines: list[Line]) -> list[Line]:
    """`50-40-30 double unders` and below it `10-8-6 power snatches`: two movements of one piece, each with its own counts."""
    if any(re.match(r"\s*piece\s*:", line.text, re.IGNORECASE) for line in lines):
        return lines  # a printed sheet, each line of which says it as it is read
    made = list(lines)
    rows = {place: match for place, line in enumerate(lines) if (match := _ROW_FIRST.match(line.text))}
    for place, match in rows.items():
        near = [rows[other] for other in (place - 1, place + 1) if other in rows]
        length = match["l"].count("-")
        top = place
        while top in rows:
            top -= 1
        timed = top >= 0 and _TIMED.search(lines[top].text) is not None
        if any(each["l"].count("-") == length and (timed or each["l"] != match["l"]) for each in near):
            tail = match["e"].strip()
            made[place] = replace(
                made[place], text=f"{match['b']}{match['x'].strip()} {match['l']}{f' {tail}' if tail else ''}"
            )
    return made


_OF_ENGINE = re.compile(
    r"^(?P<b>\W*)(?P<x>run|row|bike|ski|swim)(?:ning|ing)?:\s+(?P<l>.*\d ?[x×] ?\d.*)$", re.IGNORECASE
)
_PART = re.compile(r"(?P<n>(?:\d{1,2} ?[x×] ?)?\d+(?:[.,]\d)?) ?(?P<u>km|k|m|min|')?(?= |$)(?P<e>.*)", re.IGNORECASE)


def parts_of_a_run(lines: list[Line]) -> list[Line]:
    """`Run: 2k easy, 6 x 400 at 5k pace w/ 60s, 1k easy`: a line for each part, each of the same engine."""
    made: list[Line] = []
    for line in lines:
        found = _OF_ENGINE.match(line.text)
        parts = (
            [_PART.fullmatch(part.strip()) for part in re.split(r",(?!\d)|;|\bthen\b", found["l"]) if part.strip()]
            if found
            else []
        )
        if found is None or len(parts) < 2 or not all(parts):
            made.append(line)
            continue
        for part in parts:
            assert part is not None
            unit = part["u"] or (
                "m"
                if float(part["n"].lower().split("x")[-1].replace("×", " ").split()[-1].replace(",", ".")) >= 50
                else ""
            )
            if not unit:
                made.append(line)
                break
            told = re.sub(r"\b(?:w/|with|on) ?(?=\d{1,3} ?(?:s\b|sec|min|')|\d:\d\d)", ", rest ", part["e"])
            made += [
                replace(line, text="", cell=True),
                replace(
                    line,
                    text=f"{part['n']} {unit} {found['x'].lower()}{told}"
                    if part is parts[0]
                    else f"then {part['n']} {unit} {found['x'].lower()}{told}",
                    cell=True,
                ),
            ]
    return made
