"""Headings of a sheet: days, weeks, dates, and sections such as warm-up, strength, conditioning or home."""

from __future__ import annotations

import re
from calendar import monthrange
from dataclasses import dataclass
from datetime import date
from typing import Literal

from tracker.prescription.sheet.asks import Asker, Choice

Section = Literal[
    "", "warm-up", "cool-down", "strength", "conditioning", "accessory", "scaled", "home", "notes", "superset", "rest"
]

_DAYS = (
    r"mon(?:days?|tags?)?|tue(?:s|sdays?)?|wed(?:s|nesdays?)?|thu(?:rs?|rsdays?)?|fri(?:days?)?|sat(?:urdays?)?|sun(?:days?)?"
    r"|montags?|dienstags?|mittwochs?|donnerstags?|freitags?|samstags?|sonnabends?|sonntags?|lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche"
    r"|lunes|martes|miércoles|miercoles|jueves|viernes|sábado|sabado|domingo"
)
# only where nothing else can be meant
_SHORT_DAYS = (
    r"mo|di|mi|do|fr|sa|so|tu|we|th|su|die|mit|don|fre|sam|son|lun|mar|mer|jeu|ven|dim|mié|mie|jue|vie|sáb|sab|dom"
)
_MONTHS = (
    r"jan(?:uary|uar|vier)?|feb(?:ruary|ruar)?|février|fevrier|mar(?:ch|s|zo)?|märz|maerz|mrz|apr(?:il)?|avril|abril|may|mai|mayo|june?|juni|juin|junio"
    r"|july?|juli|juillet|julio|aug(?:ust)?|août|agosto|sept?(?:ember|embre|iembre)?|oct(?:ober|obre|ubre)?|okt(?:ober)?|nov(?:ember|embre|iembre)?"
    r"|dec(?:ember)?|dez(?:ember)?|décembre|diciembre|enero|ene|febrero"
)
_FIRST = {"mon": 0, "lun": 0, "tue": 1, "die": 1, "mar": 1, "wed": 2, "mit": 2, "mer": 2, "mié": 2, "mie": 2, "thu": 3, "don": 3, "jeu": 3, "jue": 3,
          "fri": 4, "fre": 4, "ven": 4, "vie": 4, "sat": 5, "sam": 5, "son": 6, "sáb": 5, "sab": 5, "sun": 6, "dim": 6, "dom": 6}  # fmt: skip
_SHORTS = {"die": 1, "mit": 2, "don": 3, "fre": 4, "sam": 5, "son": 6, "lun": 0, "mar": 1, "mer": 2, "jeu": 3, "ven": 4, "dim": 6,
           "mié": 2, "mie": 2, "jue": 3, "vie": 4, "sáb": 5, "sab": 5, "dom": 6, "mo": 0, "di": 1, "tu": 1, "mi": 2, "we": 2,
           "do": 3, "th": 3, "fr": 4, "sa": 5, "so": 6, "su": 6}  # fmt: skip
_MONTH_KEYS = ("jan ene", "feb fév fev", "mar mär mae mrz", "apr avr abr", "may mai", "jun jui", "jul", "aug aoû ago", "sep", "oct okt", "nov", "dec dez déc dic")  # fmt: skip

_DATE = (
    rf"(?P<iso>\d{{4}}[-/.]\d{{1,2}}[-/.]\d{{1,2}})|(?P<num>\d{{1,2}}(?:\.|/|-)\s?\d{{1,2}}(?:(?:\.|/|-)\s?(?:\d{{4}}|\d{{2}})|\.(?!\d)|(?=\s|$|:|,|\))))"
    rf"|(?P<d1>\d{{1,2}})(?:st|nd|rd|th|\.|er)?\s*(?:of\s+|de\s+)?(?P<m1>{_MONTHS})\b\.?,?(?:\s*(?:de\s+)?(?P<y1>\d{{4}})\b)?"
    rf"|(?P<m2>{_MONTHS})\.?\s+(?P<d2>\d{{1,2}})(?:st|nd|rd|th)?\b(?!\s*(?:x|sets|rounds|min|reps|@|%))(?:,?\s*(?P<y2>\d{{4}})\b)?"
)
_END = r"\s*(?:[:.)\]|-]+(?=\s|$)|,|/(?=\s)|$)\s*"
_WEEK = re.compile(
    rf"(?:week|wk|woche|semana|semaine|w)\s*#?(?P<w>\d{{1,2}})(?:\s*(?:of|/|von|de)\s*\d+)?(?:\s*[,:/·-]?\s*(?:(?:day|d|tag|día|dia|jour)\s*(?P<d>\d{{1,2}})|(?P<n>{_DAYS})\b\.?))?(?![\w%])",
    re.IGNORECASE,
)
_DAY = re.compile(
    r"(?:day|tag|día|dia|jour|session|workout|training|einheit)\s*#?(?P<d>\d{1,2}|[a-d](?=\s*(?:[:.)-]|$)))(?![\w%]|\s*[x@])",
    re.IGNORECASE,
)
_WEEKDAY = re.compile(
    rf"(?:on\s+|am\s+)?(?P<n>{_DAYS})\b(?:\s*(?P<when>morning|evening|night|noon|am\b|pm\b|abend|früh))?(?:\s*\((?P<par>[^()]{{1,40}})\))?\.?",
    re.IGNORECASE,
)
# A day in a frame: "[Monday]", "Day: Monday"
_FRAMED = re.compile(
    rf"\s*(?:\[\s*(?P<a>(?:{_DAYS})\b[^\[\]]*)\]\s*$|(?:day|tag|día|dia|jour|when|wann)\s*:\s*(?P<b>(?:{_DAYS})\b.*)$)",
    re.IGNORECASE,
)
_SHORT_DAY = re.compile(
    rf"(?P<n>{_SHORT_DAYS})(?:\.?,?:?(?:\s+-)?\s*$|:|\.?,?\s+(?=\d{{1,2}}\.\s?\d)|\.?,?\s+-\s)", re.IGNORECASE
)
_DATE_AT = re.compile(rf"(?:on\s+|am\s+|the\s+|le\s+|el\s+|den\s+)?(?:{_DATE})", re.IGNORECASE)
_SEPARATED = re.compile(r"\s*(?:[:.)\]|,-]+(?=\s|$)|/(?=\s)|\.(?=\s|$))?\s*")

_SECTIONS: tuple[tuple[Section, str], ...] = (
    ("warm-up", r"(?:general |specific |full |dynamic )?warm(?:(?:ing)?[ -]?ups?(?: and mobility)?(?: game)?)?|loosen(?:ing)?[ -]up|w/?u|wup|prep|activation|aufwärmen|aufwaermen|[ée]chauffement|calentamiento|primer"),
    ("cool-down", r"cool(?:ing)?[ -]?downs?|c/?d|stretch(?:ing|es)?|mobility|recovery work|abwärmen|retour au calme|vuelta a la calma|estiramientos"),
    ("strength", r"(?:tonight'?s |today'?s |main )?strength(?: (?:work|piece|part|block|[a-d]\b))?|str|kraft(?:teil|training)?|lifts?|lifting|weightlifting|oly(?:mpic)?(?: lifting| lifts)?|force|fuerza|power|main lifts?|barbell(?: work)?|strength ?(?:/|&|and|\+) ?skill"),
    ("conditioning", r"(?:tonight'?s |today'?s |the |main )?(?:wod|w\.o\.d\.|met-?con|mc|conditioning|condi|workout(?: of the day)?|cardio|engine|kondition|ausdauer|hiit|endurance|finisher|circle training|circuit(?: training)?|zirkel(?:training)?|aerobic|anaerobic|burner|cash)(?: work| piece| part)?"),
    ("accessory", r"(?:accessor(?:y|ies)|assistance|extras?|extra credit|body ?building|pump|skills?(?: work| practice)?|gymnastics?|technique|core|midline|hypertrophy|isolation|zubehör|accesorios)(?: work| piece| part)?"),
    ("scaled", r"(?:sc|scaled?(?: version| option)?|scaling(?: options?)?|scales|lighter|beginners?|easier|intermediate|fitness(?= ?:))"),
    ("home", r"(?:at )?home(?: version| option| workout)?|(?:(?:those |people |folks |everyone )?(?:at|from) home)|home folks|(?:no|zero|without) (?:equipment|kit)(?: version| option)?|(?:zoom|online|remote) (?:people|folks|crew|ppl)|(?:home|garage) (?:people|folks|crew|ppl|gang)|ohne geräte|(?:option |version |[àa] la )?maison|(?:opción |opcion )?(?:en )?casa|zu ?hause|daheim"),
    ("notes", r"(?:coach(?:'?s|es)? )?notes?|goals?|stimulus|scor(?:e|es|ing)|targets?|intent(?:ion)?|focus|cues?|tips?|reminders?|remember|ps|p\.s\.?|nb|n\.b\.|info|ziel|hinweis|strategy|aim|purpose|equipment|bring|byo|important|attention|achtung|announcements?|news|standards?|points of performance|rules?|tie-?break"),
    ("superset", r"[+&]?\s*(?:as a )?super-?\s?set(?:s|ted)?(?: with)?|[+&]?\s*ss(?: with)?|[+&]?\s*pair(?:ed)? with"),
    ("rest", r"rest(?: day)?|off|day off|ruhetag|rest/off|pause|repos|descanso|active recovery|closed"),
)  # fmt: skip
_SECTION_RULES: tuple[tuple[Section, re.Pattern[str]], ...] = tuple(
    (
        section,
        re.compile(
            rf"(?:[a-h][.):]\s*)?(?:{pattern})(?P<par>\s*\([^()]{{0,40}}\))?(?P<end>\s*[:|](?:\s|$)|\s{{2,}}(?=\S)|\s+[-=]+(?:\s|$)|[-=]+\s|\s*$|\s*\.\s*$)",
            re.IGNORECASE,
        ),
    )
    for section, pattern in _SECTIONS
)


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

    @property
    def week_only(self) -> bool:
        return self.week is not None and self.day is None and self.weekday is None and self.on is None


def weekday_of(word: str) -> int:
    """Return 0 for Monday to 6 for Sunday."""
    lower = word.lower()
    return _SHORTS[lower] if lower in _SHORTS else _FIRST[lower[:3]]


def day_heading(text: str, asker: Asker, line: int, *, loose: bool = False) -> Heading | None:
    """Read a heading of a day at the start of a line; None where it is none.

    Args:
        text: The cleaned line, letters as typed.
        asker: Where a date that can be read in two ways is asked about.
        line: The line's number.
        loose: Whether two letters are enough for a weekday, as in a table.
    """
    at, week, day, weekday, on, month_day = 0, None, None, None, None, None
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
        at = found.end()
    after = _SEPARATED.match(text, at)
    start = after.end() if after and at else at
    if weekday is None and (found := _WEEKDAY.match(text, start)):
        if at == 0 and not _is_heading(text, found):
            found = None
        else:
            weekday, at = weekday_of(found["n"]), found.end()
    elif (
        weekday is None
        and (found := _SHORT_DAY.match(text, start))
        and (found["n"][0].isupper() or loose)
        and (
            loose
            or found["n"].lower() not in ("so", "do")
            or text.strip(" .,:").lower() in _SHORTS
            or re.match(r"(?:Do|So)\.,?\s*\d", text)
        )
    ):
        weekday, at = weekday_of(found["n"]), found.end()
    after = _SEPARATED.match(text, at)
    start = after.end() if after and at else at
    found = _DATE_AT.match(text, start)
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
    return Heading(week, day, weekday, on, month_day, rest, end is not None or not rest)


def _ends(text: str, at: int) -> bool:
    return re.compile(_END).match(text, at) is not None


def _is_heading(text: str, found: re.Match[str]) -> bool:
    """Whether a weekday at the start of a line is a heading, not the first word of a sentence."""
    rest = text[found.end() :]
    if re.match(r"\s*(?:[:.)\]|,/-]|$)", rest):
        return True
    if _DATE_AT.match(rest.strip()):
        return True
    word = re.match(r"\s+([^\s]+)", rest)
    if word is None:
        return True
    lower = word[1].lower().strip(",.:")
    if lower not in _SENTENCE and lower not in ("closed", "geschlossen", "fermé", "cerrado"):
        short = len(found["n"]) <= 5 and found["n"].lower() in _SHORT_ENGLISH
        if short or _WORK_FOLLOWS.match(
            rest
        ):  # "Tue pyramid on the track", "friday bench 4x8", "saturday team workout"
            return True
    return lower not in _SENTENCE and (
        rest.strip()[:1].isupper()
        or rest.strip()[:1].isdigit()
        or len(rest) - len(rest.lstrip()) >= 2
        or text.isupper()
    )


_SHORT_ENGLISH = frozenset({"mon", "tue", "tues", "wed", "thu", "thur", "thurs", "fri"})
_WORK_FOLLOWS = re.compile(
    r"\s+(?:[^\W\d_][\w-]*\s+){1,3}(?:\d{1,2}\s?[x×]\s?\d|e\d?mom\b|amrap\b)"
    r"|\s+(?:(?:team|partner|open|easy|heavy|comp\w*|strength|main)\s+)?(?:workout|session|training|simulation|wod)\b(?!\s+(?:is|was|will|starts|at|moves?))",
    re.IGNORECASE,
)
_SENTENCE = frozenset({
    "is", "we", "the", "i", "at", "there", "gym", "class", "was", "will", "and", "or", "it", "you", "for", "morning", "evening", "people", "group", "off",
    "has", "no", "they", "night", "if", "to",
})  # fmt: skip


def date_of(
    found: re.Match[str], asker: Asker, line: int, text: str, weekday: int | None
) -> tuple[date | None, tuple[int, int] | None] | None:
    """Return a date, or month and day where no year is named; None where it is no day of the calendar."""
    try:
        if found["iso"]:
            year, month, day = (int(each) for each in re.findall(r"\d+", found["iso"]))
            return date(year, month, day), None
        if found["num"]:
            return _numeric(found["num"], asker, line, text, weekday)
        word, number, year_word = found["m1"] or found["m2"], found["d1"] or found["d2"], found["y1"] or found["y2"]
        month = month_of(word)
        if year_word:
            return date(int(year_word), month, int(number)), None
        return None, _checked(month, int(number))
    except ValueError:
        return None


def month_of(word: str) -> int:
    """Return 1 for January to 12 for December, in the languages that are read; 0 for no month."""
    key = word.lower()[:3]
    if word.lower().startswith(("juil", "jul")):
        return 7
    return next((place for place, keys in enumerate(_MONTH_KEYS, 1) if key in keys.split()), 0)


def _checked(month: int, day: int) -> tuple[int, int]:
    if not 1 <= month <= 12 or not 1 <= day <= monthrange(2024, month)[1]:
        raise ValueError
    return month, day


def _numeric(
    words: str, asker: Asker, line: int, text: str, weekday: int | None
) -> tuple[date | None, tuple[int, int] | None]:
    """Read 15.12.2026, 30/11/2026 or 18/4: the day first, but where only the month can be first; asked where both can be."""
    numbers = [int(each) for each in re.findall(r"\d+", words)]
    first, second = numbers[0], numbers[1]
    year = numbers[2] + (2000 if numbers[2] < 100 else 0) if len(numbers) > 2 else None
    if first > 12 or "." in words:
        day, month = first, second
    elif second > 12:
        day, month = second, first
    elif first == second:
        day, month = first, second
    else:
        day, month = first, second
        fits = [
            order
            for order, (d, m) in (("day first", (first, second)), ("month first", (second, first)))
            if year and weekday is not None and date(year, m, d).weekday() == weekday
        ]
        if len(fits) == 1:
            order = fits[0]
        else:
            choices = (
                Choice("day first", f"day {first}, month {second}"),
                Choice("month first", f"month {first}, day {second}"),
            )
            order = asker.choose("order of a date", line, text.strip(), f"Which day is {words.strip()}?", choices)
        if order == "month first":
            day, month = second, first
    if year is not None:
        return date(year, month, day), None
    return None, _checked(month, day)


def section_heading(text: str) -> tuple[Section, str, str] | None:
    """Read a section's heading at the start of a line: its section, the heading itself, and what follows it."""
    for section, pattern in _SECTION_RULES:
        if found := pattern.match(text):
            return section, text[: found.end()].strip(" :|-=."), text[found.end() :].strip()
    return None


_OTHER_DAY = re.compile(
    r"\b(?:clos\w+|shut|off|until|till|til|from|last|since|next|no|not|miss\w*|by|before|after|bis|seit|statt|geschlossen|cerrad\w+|cerramos|fermé|jusqu\w+|away|back|moved?|instead|opens?|due|sunday's|holiday)\b",
    re.IGNORECASE,
)


def day_of_sentence(text: str) -> int | None:
    """Return the one weekday on which a sentence says that something is done; None where it may be another day."""
    found: set[int] = set()
    for part in re.split(r"[.!?;]\s|\n|,\s(?=but|and|no\b)", text):
        day = any_weekday(part)
        for named in re.finditer(rf"\b(?:{_DAYS})\b", part, re.IGNORECASE):
            if day is not None and not _OTHER_DAY.search(part[max(0, named.start() - 30) : named.end() + 25]):
                found.add(day)
    return found.pop() if len(found) == 1 else None


_FULL_DATE = re.compile(r"(?<!\d)(\d{4})-(\d{2})-(\d{2})(?!\d)")


def full_date(text: str) -> date | None:
    """Return the one date with its year that a line names, as 2026-12-01; None where it names none, or several."""
    found = set(_FULL_DATE.findall(text))
    if len(found) != 1:
        return None
    try:
        return date(*(int(each) for each in found.pop()))
    except ValueError:
        return None


def any_weekday(text: str) -> int | None:
    """Return the one weekday that a title names, if it names one."""
    found = {
        weekday_of(each[1])
        for each in re.finditer(rf"\b({_DAYS})\b", text, re.IGNORECASE)
        if each[1].lower() not in ("mar", "mars", "sat", "sun", "mon", "wed", "fri") or each[1][0].isupper()
    }
    return found.pop() if len(found) == 1 else None
