"""Headings of days: a week, a number, a weekday, a date."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from tracker.prescription.sheet.asks import Asker
from tracker.prescription.sheet.days.dates import DATE_AT, date_of, full_date
from tracker.prescription.sheet.days.parts_of_day import ALONE, LEADS, PARTS
from tracker.prescription.sheet.days.weekdays import (
    DAYS,
    HOUR,
    SHORT_DAYS,
    SHORTS,
    SURE_SHORT,
    slip_of_weekday,
    weekday_of,
)

_END = r"\s*(?:[:.)\]|-]+(?=\s|$)|,|/(?=\s)|$)\s*"
_WEEK = re.compile(
    rf"(?:week|wk|woche|semana|semaine|w)\s*#?(?P<w>\d{{1,2}})(?:\s*(?:of|/|von|de)\s*\d+)?(?:\s*[,:/·-]?\s*(?:(?:day|d|tag|día|dia|jour)\s*(?P<d>\d{{1,2}})|(?P<n>{DAYS})\b\.?))?(?![\w%])",
    re.IGNORECASE,
)
_DAY = re.compile(
    r"(?:day|tag|día|dia|jour|session|workout|training|einheit)\s*#?(?P<d>\d{1,2}|[a-d](?=\s*(?:[:.)-]|$)))(?![\w%]|\s*[x@])",
    re.IGNORECASE,
)
_WEEKDAY = re.compile(
    rf"(?:on\s+|am\s+)?(?P<n>{DAYS})\b(?:\s*(?P<when>(?:{PARTS})(?![\w-])))?(?:\s*\((?P<par>[^()]{{1,40}})\))?\.?",
    re.IGNORECASE,
)
# A day in a frame: "[Monday]", "Day: Monday"
_FRAMED = re.compile(
    rf"\s*(?:\[\s*(?P<a>(?:{DAYS})\b[^\[\]]*)\]\s*$|(?:day|tag|día|dia|jour|when|wann)\s*:\s*(?P<b>(?:{DAYS})\b.*)$)",
    re.IGNORECASE,
)
_LED = re.compile(
    rf"\s*(?:track|gym|run(?:ning)?|erg|class|club|open gym|strength|lifting|barbell|swim|box|pm|am)\s+(?=(?:{DAYS})\s*:)",
    re.IGNORECASE,
)
# "Lower (Tue)", "Masters Friday", "and on Sunday, for who comes": a day behind what or whom it is for
_LAST_WORD = re.compile(
    rf"\s*(?:(?:and|then|und|et|y)\s+(?:on\s+|then\s+)?(?P<a>{DAYS})\b(?:,? (?:for (?:who|those|anyone|everyone|whoever)|if|für|pour) [^\d]{{2,30}})?"
    rf"|(?:[^\W\d]+[ &+/-]{{1,3}}){{1,3}}\((?P<b>{DAYS})\)"
    rf"|(?:masters?|teens?|kids|juniors?|seniors?|beginners?|advanced|elite|comp(?:etitors?|etition)?|team|squad|group|class|women|men|ladies|upper(?: body)?|lower(?: body)?|push|pull|legs?)(?: (?:class|group|session|day|team))? (?P<c>(?:mon|tues|wednes|thurs|fri|satur|sun)day))\s*:?\s*",
    re.IGNORECASE,
)
_LIFT = re.compile(r"\b(?:squats?|bench|deadlifts?|dl|bs|fs|press|cleans?|snatch|jerks?|rows?)\b", re.IGNORECASE)
_SHORT_DAY = re.compile(
    rf"(?P<n>{SHORT_DAYS})(?:\.?,?:?(?:\s+-)?\s*$|(?=:)|\.?,?\s+(?=\d{{1,2}}\.\s?\d)|\.?,?\s+-\s|\.?,?(?={HOUR.pattern}\s*$))",
    re.IGNORECASE,
)
_NUMBERED = re.compile(
    r"\((?P<a>[1-3])\)\.?|\s+session\s*#?(?P<b>[1-3])\b", re.IGNORECASE
)  # "Mon (2)", "Monday session 2"
_OF_SESSION = re.compile(r"(?:session|training|einheit)\b", re.IGNORECASE)
_NAMED = re.compile(r"\s*\((?P<n>[^()]{2,60})\)\s*:?\s*")
_SEPARATED = re.compile(r"\s*(?:[:.)\]|,-]+(?=\s|$)|/(?=\s)|\.(?=\s|$))?\s*")


@dataclass(frozen=True, slots=True)
class Heading:
    """A day: its week, number, weekday or date (without a year: `month_day`), and the words behind it."""

    week: int | None = None
    day: int | None = None
    weekday: int | None = None
    on: date | None = None
    month_day: tuple[int, int] | None = None
    rest: str = ""  # what follows on the line
    alone: bool = False  # nothing follows, or a sign that parts a heading from its title
    part: str = ""  # of the day: morning, PM, 18:30
    session: bool = False  # its number is that of a session: of one day, where that is named above it

    @property
    def week_only(self) -> bool:
        return self.week is not None and self.day is None and self.weekday is None and self.on is None


def day_heading(text: str, asker: Asker, line: int, *, loose: bool = False) -> Heading | None:
    """Read a heading of a day at the start of a line; None where it is none.

    Args:
        text: The cleaned line, letters as typed.
        asker: Where a date that can be read in two ways is asked about.
        line: The line's number.
        loose: Whether two letters are enough for a weekday, as in a table.
    """
    at, week, day, weekday, on, month_day, part, session = 0, None, None, None, None, None, "", False
    if led := _LED.match(text):  # "Track Tues: 6x400"
        text = text[led.end() :]
    if last := _LAST_WORD.fullmatch(text):
        lift = text[: last.start("b") - 1].strip() if last["b"] and _LIFT.search(text) else ""
        return Heading(weekday=weekday_of(last["a"] or last["b"] or last["c"]), rest=lift, alone=not lift)
    if framed := _FRAMED.match(text):
        text = framed["a"] or framed["b"]
    if found := _WEEK.match(text):
        week, day = int(found["w"]), int(found["d"]) if found["d"] else None
        weekday = weekday_of(found["n"]) if found["n"] else None
        if not 1 <= week <= 60 or (day is not None and not 1 <= day <= 7):
            return None
        at = found.end()
    elif found := _DAY.match(text):
        word = found["d"].lower()
        day = int(word) if word.isdigit() else "abcd".index(word) + 1
        if not 1 <= day <= 31:
            return None
        at, session = found.end(), _OF_SESSION.match(text) is not None
        if named := _NAMED.fullmatch(text, at):  # "Day 1 (gym)"
            return Heading(week, day, rest=named["n"].strip(), alone=True)
    after = _SEPARATED.match(text, at)
    start = after.end() if after and at else at
    if weekday is None and (found := _WEEKDAY.match(text, start)):
        if at == 0 and not _is_heading(text, found):
            found = None
        else:
            weekday, at = weekday_of(found["n"]), found.end()
            part = found["when"] or (found["par"] if found["par"] and ALONE.fullmatch(found["par"]) else "")
            if numbered := _NUMBERED.match(text, found.start("par") - 1 if found["par"] else at):
                part, at = f"Session {numbered['a'] or numbered['b']}", numbered.end()
    elif (
        weekday is None
        and (found := _SHORT_DAY.match(text, start))
        and (found["n"][0].isupper() or loose or found["n"].lower() in SURE_SHORT)
        and (
            loose
            or found["n"].lower() not in ("so", "do")
            or text.strip(" .,:").lower() in SHORTS
            or re.match(r"(?:do|so)(?:\.,?\s*\d|\s+\d{1,2}\.\s?\d)", text, re.IGNORECASE)
        )
    ):
        weekday, at = weekday_of(found["n"]), found.end()
    elif at == 0 and (slip := slip_of_weekday(text.strip(" :.*#"))) is not None:
        return Heading(weekday=slip, alone=True)
    if weekday is not None and (hour := HOUR.match(text, at)):
        at, part = hour.end(), part or hour[0].strip()
    after = _SEPARATED.match(text, at)
    start = after.end() if after and at else at
    found = DATE_AT.match(text, start)
    if found and (
        at
        or found["iso"]
        or (found["num"] and len(re.findall(r"\d+", found["num"])) == 3)
        or _ends(text, found.end())
        or found["m1"]
        or found["m2"]
    ):
        made = date_of(found, asker, line, text, weekday)
        if made is not None:
            on, month_day = made
            at = found.end()
    if week is None and day is None and weekday is None and on is None and month_day is None:
        return None
    if on is None and day is not None and weekday is None:
        on = full_date(text)  # "Session 3, block B, 2026-12-01"
    end = re.compile(_END).match(text, at)
    rest = text[end.end() if end else at :].strip()
    alone = end is not None or not rest
    dated = weekday is not None or on is not None or month_day is not None
    if dated and (behind := ALONE.fullmatch(rest)):
        part, alone, rest = behind["part"], True, ""
    elif dated and (behind := LEADS.match(rest)):
        part, rest = behind["part"], rest[behind.end() :]
    return Heading(week, day, weekday, on, month_day, rest, alone, part, session)


def _ends(text: str, at: int) -> bool:
    return re.compile(_END).match(text, at) is not None


def _is_heading(text: str, found: re.Match[str]) -> bool:
    """Whether a weekday at the start of a line is a heading, not the first word of a sentence."""
    rest = text[found.end() :]
    if re.match(r"\s*(?:[:.)\]|,/-]|$)", rest) or _NUMBERED.match(rest):
        return True
    if DATE_AT.match(rest.strip()):
        return True
    word = re.match(r"\s+([^\s]+)", rest)
    if word is None or _PLACE_FOLLOWS.match(rest):
        return True
    lower = word[1].lower().strip(",.:")
    if lower not in _SENTENCE and lower not in ("closed", "geschlossen", "fermé", "cerrado"):
        short = len(found["n"]) <= 5 and found["n"].lower() in _SHORT_ENGLISH
        if (
            short
            or (found["n"].isupper() and not text.isupper())  # "SAT partner thing, 9am"
            or _WORK_FOLLOWS.match(rest)
        ):  # "Tue pyramid on the track", "friday bench 4x8", "saturday team workout"
            return True
    return lower not in _SENTENCE and (
        rest.strip()[:1].isupper()
        or rest.strip()[:1].isdigit()
        or len(rest) - len(rest.lstrip()) >= 2
        or text.isupper()
    )


_SHORT_ENGLISH = frozenset({"mon", "tue", "tues", "wed", "thu", "thur", "thurs", "fri"})
# What a session is of, behind its day: "Sat erg: ..."
_OF_WHAT = r"(?:ergs?|run|track|row|bike|swim|ski|gym|engine|barbell|pairs?|partners?|teams?|comp|strength|lifting|wod)(?: [a-z]{2,10})?:\s"
OF_WHAT = re.compile(_OF_WHAT, re.IGNORECASE)
_WORK_FOLLOWS = re.compile(
    r"\s+(?:[^\W\d_][\w-]*\s+){1,3}(?:\d{1,2}\s?[x×]\s?\d|e\d?mom\b|amrap\b)"
    r"|\s+(?:(?:team|partner|open|easy|heavy|comp\w*|strength|main)\s+)?(?:workout|session|training|simulation|wod)\b(?!\s+(?:is|was|will|starts|at|moves?))"
    rf"|\s+{_OF_WHAT}",
    re.IGNORECASE,
)
# Where or on what it is done, behind a day: "Sat erg: 30 min", "Wed gym + erg"
_PLACE_FOLLOWS = re.compile(
    r"\s+(?:gym|erg|track|run|club|crew|class|lifting|strength)(?:\s*(?:\+|and|&)\s*\w+)?\s*(?::(?!\d)|$)",
    re.IGNORECASE,
)
_SENTENCE = frozenset({
    "is", "we", "the", "i", "at", "there", "gym", "class", "was", "will", "and", "or", "it", "you", "for", "morning", "evening", "people", "group", "off",
    "has", "no", "they", "night", "if", "to",
})  # fmt: skip
