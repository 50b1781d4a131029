"""Names of weekdays, in the languages that are read, and the weekday that a text names."""

from __future__ import annotations

import re
from difflib import get_close_matches

DAYS = (
    r"mon(?:days?|tags?)?|tue(?:s|sdays?)?|wed(?:s|nesdays?)?|thu(?:rs?|rsdays?)?|fri(?:days?)?|sat(?:urdays?)?|sun(?:days?)?"
    r"|montags?|dienstags?|mittwochs?|donnerstags?|freitags?|samstags?|sonnabends?|sonntags?|lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche"
    r"|lunes|martes|miércoles|miercoles|jueves|viernes|sábado|sabado|domingo"
    r"|maandag|dinsdag|woensdag|donderdag|vrijdag|zaterdag|zondag|luned[iì]'?|marted[iì]'?|mercoled[iì]'?|gioved[iì]'?|venerd[iì]'?|domenica"
    r"|(?:segunda|ter[cç]a|quarta|quinta|sexta)[ -]feira"
)
# only where nothing else can be meant
SHORT_DAYS = (
    r"mo|di|mi|do|fr|sa|so|tu|we|th|su|die|mit|don|fre|sam|son|lun|mar|mer|jeu|ven|dim|mié|mie|jue|vie|sáb|sab|dom"
    r"|seg|ter|qua|qui|sex|segunda|ter[cç]a|quarta|quinta|sexta|gio|ma|wo|vr|za|zo"
)
# what is a day in small letters too, where a colon or nothing follows
SURE_SHORT = frozenset({"seg", "ter", "qua", "qui", "sex", "segunda", "terça", "terca", "quarta", "quinta", "sexta", "gio", "lun", "jue", "jeu", "mié", "sáb"})  # fmt: skip
_FIRST = {"mon": 0, "lun": 0, "tue": 1, "die": 1, "mar": 1, "wed": 2, "mit": 2, "mer": 2, "mié": 2, "mie": 2, "thu": 3, "don": 3, "jeu": 3, "jue": 3,
          "maa": 0, "din": 1, "woe": 2, "vri": 4, "zat": 5, "zon": 6, "gio": 3, "seg": 0, "ter": 1, "qua": 2, "qui": 3, "sex": 4,
          "fri": 4, "fre": 4, "ven": 4, "vie": 4, "sat": 5, "sam": 5, "son": 6, "sáb": 5, "sab": 5, "sun": 6, "dim": 6, "dom": 6}  # fmt: skip
SHORTS = {"die": 1, "mit": 2, "don": 3, "fre": 4, "sam": 5, "son": 6, "lun": 0, "mar": 1, "mer": 2, "jeu": 3, "ven": 4, "dim": 6,
          "mié": 2, "mie": 2, "jue": 3, "vie": 4, "sáb": 5, "sab": 5, "dom": 6, "mo": 0, "di": 1, "tu": 1, "mi": 2, "we": 2,
          "seg": 0, "ter": 1, "qua": 2, "qui": 3, "sex": 4, "segunda": 0, "terça": 1, "terca": 1, "quarta": 2, "quinta": 3, "sexta": 4, "gio": 3,
          "ma": 0, "wo": 2, "vr": 4, "za": 5, "zo": 6,
          "do": 3, "th": 3, "fr": 4, "sa": 5, "so": 6, "su": 6}  # fmt: skip


# The hour of a class behind its day: "sat 8am", "Thu 18:30"; no length of a piece
HOUR = re.compile(
    r"\s*[,·@-]?\s*(?:at |um |om |alle |às |à |a las |kl\.? )?(?:(?:0?[5-9]|1\d|2[0-2])[:.h][0-5][05]\b(?:\s*(?:am|pm|h|uhr))?|(?:1[0-2]|[1-9])\s?(?:am|pm|uhr|uur|u|h)\b|(?:1\d|2[01]|[5-9])\s?(?:uhr|uur|u|h)\b)(?!\s*(?:min|amrap|e\d?mom|cap|for time|of|run|row|bike|ski|x\b|/))",
    re.IGNORECASE,
)


def without_hour(text: str) -> str:
    """Take the hour of a class behind its weekday from a title: it is no length of a piece."""
    named = re.search(rf"\b(?:{DAYS})\b", text, re.IGNORECASE)
    hour = HOUR.match(text, named.end()) if named else None
    return text[: hour.start()] + text[hour.end() :] if hour else text


def slip_of_weekday(word: str) -> int | None:
    """Return the weekday that a word of its own is with a slip in it: `tuseday`, `wensday`."""
    near = get_close_matches(word.lower(), _WEEK, 1, 0.85) if len(word) >= 6 and word.isalpha() else []
    return _WEEK.index(near[0]) if near else None


_WEEK = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def weekday_of(word: str) -> int:
    """Return 0 for Monday to 6 for Sunday."""
    lower = word.lower()
    return SHORTS[lower] if lower in SHORTS else _FIRST[lower[:3]]


def any_weekday(text: str) -> int | None:
    """Return the one weekday that a title names, if it names one."""
    found = {
        weekday_of(each[1])
        for each in re.finditer(rf"\b({DAYS})\b", text, re.IGNORECASE)
        if each[1].lower() not in ("mar", "mars", "sat", "sun", "mon", "wed", "fri")
        or each[1][0].isupper()
        or (each[1].lower() in ("sat", "mon", "wed", "fri") and text[each.end() : each.end() + 1] in (".", ":", ""))
        or HOUR.match(text, each.end())
    }
    return found.pop() if len(found) == 1 else None


_OTHER_BEFORE = re.compile(
    r"\b(?:clos\w+|shut|off|until|till|til|from|last|since|next|no|not|miss\w*|by|before|after|bis|seit|statt|geschlossen|cerrad\w+|cerramos|fermé|jusqu\w+|away|back|moved?|instead|opens?|due|holiday)\b",
    re.IGNORECASE,
)
_OTHER_BEHIND = re.compile(
    r"(?:^'s\b(?! (?:session|class|plan|workout|training|work|team|partner|pairs|wod|metcon|lift|strength|sheet|fun|chipper))|\b(?:clos\w+|shut|off|until|till|til|last(?! (?:week|time) (?:y|we|u|ev))|since|no|not|miss\w*|bis|geschlossen|cerrad\w+|cerramos|fermé|away|moved?|instead|opens?|due|holiday)\b)",
    re.IGNORECASE,
)
# What is done all the same, where a place is closed: "shut on Thursday, so here is something for at home"
_SHUT = re.compile(r"clos\w+|shut|off|geschlossen|cerrad\w+|cerramos|fermé", re.IGNORECASE)
_UNTIL = re.compile(
    r"\b(?:until|till|til|from|since|by|before|bis|seit|jusqu\w+)(?: (?:the|last|next|this|au|à))?\s*$", re.IGNORECASE
)
_ALL_THE_SAME = re.compile(r"\bhere(?:'s| is)\b|\bso (?:first|here|we)\b", re.IGNORECASE)


def day_of_sentence(text: str) -> int | None:
    """Return the one weekday on which a sentence says that something is done; None where it may be another day."""
    found: set[int] = set()
    for part in re.split(r"[.!?;]\s|\n|,\s(?=but|and|no\b)", text):
        day = any_weekday(part)
        for named in re.finditer(rf"\b(?:{DAYS})\b", part, re.IGNORECASE):
            ahead = part[max(0, named.start() - 30) : named.start()]
            other = _UNTIL.search(ahead) or _OTHER_BEFORE.search(ahead)
            other = other or _OTHER_BEHIND.search(part[named.end() : named.end() + 25])
            shut = other is not None and _SHUT.fullmatch(other[0]) is not None
            if day is not None and (not other or (shut and _ALL_THE_SAME.search(part, named.end()))):
                found.add(day)
    if not found and any_weekday(text) is None:
        return _short_told(text)
    return found.pop() if len(found) == 1 else None


# A day in small letters beside words that say what is done on it: "ok wed plan", "plan for wed", "tmrw is fri"
_PLANNED = r"(?:plan|session|class|workout|training|wod|crew|gang|team|lot|people|morning|evening|night|fun|sheet|strength|lifting|gym)"
_SHORT_NAMES = r"(?P<d>mon|tues?|wed|thurs?|thu|fri|sat|sun)"
_SHORT_TOLD = re.compile(
    rf"(?:\b(?:{_PLANNED}|ok(?:ay)?|hi|hey|hello|tmrw|tomorrow|today|happy)(?: (?:is|for|on|this|the|plan))*|^\W*(?:on|for|this)) {_SHORT_NAMES}\b(?!['’])"
    rf"|^\W*(?:[a-z]+ ){{0,2}}?{_SHORT_NAMES.replace('<d>', '<e>')} {_PLANNED}\b",
    re.IGNORECASE,
)
_PLAYED = re.compile(r"\bfri-?yay\w*|\b(?P<d>mon|tues|wednes|thurs|fri|satur|sun)day+\b", re.IGNORECASE)

# "Sa comp simulation": in two letters, where these are no other word
_ABROAD = re.compile(r"\W*(?P<d>Mo|Di|Mi|Fr|Sa)[.:,]? (?=[^\W\d_]{2,}[^\d@%]*$)")
# "Sunday is short. Front squats ...", "and on wednesday we row: 5 x 500 m": another day of the same message
DAY_TOLD = re.compile(
    rf"\W*(?:and |then |and then )?(?:on |for |am |le |el )?(?P<day>{DAYS})(?:'s| is| will be| it'?s| we(?:'ll)?| you(?:'ll)?| everyone| means| has|,? it is)\b,?(?P<rest> .+)",
    re.IGNORECASE | re.DOTALL,
)


def _short_told(text: str) -> int | None:
    """Return the weekday that the first words of a text name in short, or in play, beside what is done on it."""
    if abroad := _ABROAD.match(text):
        return SHORTS[abroad["d"].lower()]
    if played := _PLAYED.search(text[:60]):
        word = played["d"] or "fri"
        return weekday_of(word)
    first = re.split(r"[.!?;]\s|\n|\d", text, maxsplit=1)[0][:60]
    named = {(each["d"] or each["e"]).lower()[:3] for each in _SHORT_TOLD.finditer(first)}
    other = _OTHER_BEFORE.search(first) or _OTHER_BEHIND.search(first)
    return weekday_of(named.pop()) if len(named) == 1 and not other else None
