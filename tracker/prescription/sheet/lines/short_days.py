"""Weekdays typed short: letters as lines of their own, letters before the work, letters within the row of a week."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.words.plain_words import plain

_WEEK_ROW = re.compile(r"^\s*(?P<w>(?:week|wk|w)\s?\d{1,2})\b[\s:|.-]*(?P<rest>.*)$", re.IGNORECASE)
_DAY_IN_ROW = re.compile(r"(?:(?<=\s)|^)(?P<d>M|Mo|Mon|T|Tu|Tue|W|We|Wed|Th|Thu|F|Fr|Fri|Sa|Sat|Su|Sun)[ :]+(?=\d)")


def weeks_in_rows(lines: list[Line]) -> list[Line]:
    """`wk1  M 70% 5x5  W 75% 4x4  F 80% 3x3` below a lift's name: a line for each day, with the lift that is named above."""
    found: list[Line] = []
    name = ""
    for line in lines:
        row = _WEEK_ROW.match(line.text)
        days = list(_DAY_IN_ROW.finditer(row["rest"])) if row else []
        if row is None or len(days) < 2 or days[0].start() > 0 or not name:
            names = [
                token.value
                for token in tokens_of(plain(line.text), lift=True)
                if token.kind == "name" and token.value.known is not None and token.value.known.implement == "barbell"
            ]
            name = names[0].typed if len(names) == 1 else name
            found.append(line)
            continue
        ends = [day.start() for day in days[1:]] + [len(row["rest"])]
        for place, (day, end) in enumerate(zip(days, ends, strict=True)):
            sets = row["rest"][day.end() : end].strip(" ,;|")
            lead = row["w"] if place == 0 else ""
            if lead:
                found.append(replace(line, text=lead, cell=True, day=True))
            found.append(replace(line, text=_LETTERED[day["d"].lower()], cell=True, day=True))
            found.append(replace(line, text=f"{name} {sets}", cell=True))
    return found


_LABELLED = re.compile(r"(?P<l>[A-Z]\d)\b[\s:.-]*(?P<told>\S.*)")
_OF_WEEKS = re.compile(
    r"\bweeks?\b.*\b(?:block|plan|cycle|program\w*|phase)\b|\b(?:block|plan|cycle|phase)\b.*\bweeks?\b", re.IGNORECASE
)


def weeks_of_labels(lines: list[Line]) -> list[Line]:
    """`W1  R1 6x400 | R2 50' easy | L1 BS 4x6 | L2 DL 4x5`: each part is a day of that week, its lift named in the first row."""
    rows: dict[int, tuple[str, list[re.Match[str]]]] = {}
    for place, line in enumerate(lines):
        row = _WEEK_ROW.match(line.text)
        parts = [_LABELLED.fullmatch(part.strip()) for part in row["rest"].split("|")] if row else []
        if row is not None and len(parts) > 1 and all(parts):
            rows[place] = row["w"], [part for part in parts if part is not None]
    if len(rows) < 2 or len({tuple(part["l"] for part in parts) for _, parts in rows.values()}) > 1:
        return lines
    names: dict[str, str] = {}
    found: list[Line] = []
    for place, line in enumerate(lines):
        if place not in rows:
            titled = place < min(rows) and _OF_WEEKS.search(line.text) is not None
            found.append(replace(line, words=True) if titled else line)
            continue
        week, parts = rows[place]
        for number, part in enumerate(parts, 1):
            told = part["told"]
            named = [token for token in tokens_of(plain(told), lift=True) if token.kind == "name"]
            if named:
                names.setdefault(part["l"], named[0].value.typed)
            elif part["l"] in names:
                told = f"{names[part['l']]} {told}"
            found += [
                replace(line, text=f"{week} day {number}", cell=True, day=True),
                replace(line, text="", cell=True),
                replace(line, text=told, cell=True),
            ]
    return found


_DATED = re.compile(
    r"\s*(?:(?P<d>\d{1,2}[./]\d{1,2}\.?)\s{2,}|(?P<e>\d{1,2}/\d{1,2}|\d{1,2}\.\d{1,2}\.)\s*[:–-]?\s)(?P<told>\d{1,2} ?[x×] ?\d.*)"
)
_OF_REPS = re.compile(r"% ?(?:of|from|vom?|du|del?) [^()\d]{0,24}(?P<n>\d{1,2}) ?RM", re.IGNORECASE)


def dated_sets(lines: list[Line]) -> list[Line]:
    """`06.11   4x6   72/76/80/80` and the same of other dates below a lift: a day each, of that lift, not sets of one day."""
    rows = {place: match for place, line in enumerate(lines) if (match := _DATED.fullmatch(line.text))}
    if len(rows) < 2 or list(rows) != list(range(min(rows), max(rows) + 1)):
        return lines
    above = [line.text for line in lines[max(0, min(rows) - 3) : min(rows)] if line.text.strip()]
    named = [token for text in above for token in tokens_of(plain(text), lift=True) if token.kind == "name"]
    if len({token.value.name for token in named}) != 1:
        return lines
    of = _OF_REPS.search(" ".join(above))
    behind = f" % of {of['n']}RM" if of else ""
    found: list[Line] = []
    for place, line in enumerate(lines):
        if place not in rows:
            found.append(
                replace(line, words=True) if line.text.strip() and max(0, min(rows) - 3) <= place < min(rows) else line
            )
            continue
        told = re.sub(
            r"(?P<s>\d ?[x×] ?\d+)\s+(?P<l>\d{2,3}(?:\.5)?(?:/\d{2,3}(?:\.5)?)*)",
            rf"\g<s> @ \g<l>{behind}",
            rows[place]["told"],
        )
        found += [
            replace(line, text=rows[place]["d"] or rows[place]["e"], cell=True, day=True),
            replace(line, text="", cell=True),
            replace(line, text=f"{named[0].value.typed} {told}", cell=True),
        ]
    return found


_LETTER_DAY = re.compile(r"\s*(?P<l>[LMXJVSD])\s*:\s+(?=\S)")
_LETTER_DAYS = {
    "L": "Lunes",
    "M": "Martes",
    "X": "Miércoles",
    "J": "Jueves",
    "V": "Viernes",
    "S": "Sábado",
    "D": "Domingo",
}


def weekdays_of_a_letter(lines: list[Line]) -> list[Line]:
    """`L:`, `X:`, `V:` in one text are days of a Spanish week, where they come in its order and one of them is no other label."""
    found = [(place, match["l"]) for place, line in enumerate(lines) if (match := _LETTER_DAY.match(line.text))]
    letters = [letter for _, letter in found]
    places = [list(_LETTER_DAYS).index(letter) for letter in letters]
    if len(letters) < 2 or places != sorted(set(places)) or not {"X", "J", "V"} & set(letters):
        return lines
    made = list(lines)
    for place, letter in found:
        text = _LETTER_DAY.sub(f"{_LETTER_DAYS[letter]}: ", made[place].text, count=1)
        made[place] = replace(made[place], text=text)
    return made


# Days of an English week by letters: as lines of their own (`M`, `T`, `W`), or two letters before the work (`Mo bench 4x8`)
_LETTERED = {
    "m": "Monday", "mo": "Monday", "mon": "Monday", "t": "Tuesday", "tu": "Tuesday", "tue": "Tuesday", "w": "Wednesday", "we": "Wednesday", "wed": "Wednesday",
    "th": "Thursday", "thu": "Thursday", "r": "Thursday", "f": "Friday", "fr": "Friday", "fri": "Friday", "sa": "Saturday", "sat": "Saturday", "s": "Saturday",
    "su": "Sunday", "sun": "Sunday",
}  # fmt: skip
_LETTERS_ALONE = re.compile(r"\s*(?P<l>[A-Z][a-z]{0,2})\s*[:.]?\s*$")
_LETTERS_BEFORE = re.compile(r"\s*(?P<l>Mo|Tu|We|Th|Fr|Sa|Su)[ :.-]+(?=[A-Za-z]{2,}[^\n]*\d)")


_LETTER_THEN = re.compile(r"\s*(?P<l>M|T|W|R|F|S|Th|Tu|Sa|Su)\s?(?:[-:.]\s|\s-\s)\s*(?=[^\W\d]{2})")
_OF_A_WEEK = {
    "M": (0,), "Tu": (1,), "T": (1, 3), "W": (2,), "R": (3,), "Th": (3,), "F": (4,), "Sa": (5,), "S": (5, 6), "Su": (6,),
}  # fmt: skip


def _lettered_week(lines: list[Line]) -> list[Line]:
    """`M - clean & jerk ...`, `T - snatch ...`, `W - off`, `T - ...`, `F - ...`: three days or more of one week in its order."""
    found = [(place, match) for place, line in enumerate(lines) if (match := _LETTER_THEN.match(line.text))]
    days: list[int] = []
    for _, match in found:
        later = [day for day in _OF_A_WEEK[match["l"]] if not days or day > days[-1]]
        if not later:
            return []
        days.append(later[0])
    if len(days) < 3 or not {"W", "T", "Th", "Tu"} & {match["l"] for _, match in found}:
        return []
    made = list(lines)
    for (place, match), day in zip(found, days, strict=True):
        made[place] = replace(made[place], text=f"{_IN_FULL[day]}: {made[place].text[match.end() :]}")
    return made


def weekdays_by_letters(lines: list[Line]) -> list[Line]:
    """Write out weekdays that stand as letters, where two or more of them come in the order of a week, or of several."""
    if made := _lettered_week(lines):
        return made
    for way in (_LETTERS_ALONE, _LETTERS_BEFORE):
        found = [
            (place, match, _LETTERED[match["l"].lower()])
            for place, line in enumerate(lines)
            if (match := way.match(line.text)) and match["l"].lower() in _LETTERED
        ]
        days = [_IN_FULL.index(day) for _, _, day in found]
        falls = sum(one >= two for one, two in pairwise(days))
        if len(set(days)) < 2 or (way is _LETTERS_ALONE and (falls or len(days) < 3)) or falls >= len(days) / 2:
            continue
        made = list(lines)
        for place, match, day in found:
            made[place] = replace(made[place], text=f"{day}: {made[place].text[match.end() :]}".rstrip())
        return made
    return lines


_WEEKS_OF_TWO = (
    ("MO", "DI", "MI", "DO", "FR", "SA", "SO"),
    ("LU", "MA", "MI", "JU", "VI", "SA", "DO"),
    ("LU", "MA", "ME", "JE", "VE", "SA", "DI"),
)
_TWO_LETTERS = re.compile(r"\s*(?P<l>[A-Z]{2})(?: +|\s*[:.-]+ +)(?=[^\W\d_]{3,})")
_IN_FULL = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def weekdays_of_two_letters(lines: list[Line]) -> list[Line]:
    """`MO Kniebeuge ...`, `DI Bankdrücken ...`: three lines or more that begin with the days of a week in its order."""
    found = [(place, match) for place, line in enumerate(lines) if (match := _TWO_LETTERS.match(line.text))]
    for week in _WEEKS_OF_TWO:
        mine = [(place, match) for place, match in found if match["l"] in week]
        days = [week.index(match["l"]) for _, match in mine]
        if len(days) < 3 or days != sorted(set(days)) or len(mine) != len(found):
            continue
        made = list(lines)
        for (place, match), day in zip(mine, days, strict=True):
            made[place] = replace(made[place], text=f"{_IN_FULL[day]}: {made[place].text[match.end() :]}")
        return made
    return lines
