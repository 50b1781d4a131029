"""What is typed short, or told around a corner, written out into the form that is read, a line at a time.

Each rule is a class of writing with its variants; what is typed stays so much of the same thing.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.lines.line import Line
from tracker.prescription.sheet.tokens.tokens import tokens_of
from tracker.prescription.sheet.words.letters import harmless
from tracker.prescription.sheet.words.plain_words import plain

_SETS = re.compile(r"\d ?[x×*] ?\d", re.IGNORECASE)
_CROSSED_OUT = re.compile(r"~~[^~]+~~\s*")  # what is taken back
# "T: 3110  R: 90s" behind sets: tempo and rest
_TEMPO = re.compile(r"(?<![\w.])(?:T|TMP)\s?[:=]\s?(?P<t>[0-6][0-6Xx][0-6Xx][0-6Xx]|[0-6](?:-[0-6Xx]){3})(?!\w)")
_REST = re.compile(
    r"(?<![\w.])(?:R|Rst|P)\s?[:=]\s?(?P<r>\d{1,2}:\d\d|\d{1,3} ?(?:s|sec|secs|min|mins|'|''|\")(?![a-z])|(?:30|45|60|75|90|120|150|180)(?=\s*(?:$|[,;|/]|tempo\b)))"
)
# "from 70 up to 85 %", "monter de 70 à 85 %", "steigern von 70 auf 85 %", "70 -> 85 %": anywhere between, rising
_FROM_TO = re.compile(
    r"(?:(?:[,;:(]\s*|@\s*|\s)(?:(?:build(?:ing)?|climb(?:ing)?|go(?:ing)?|work(?:ing)?|ramp(?:ing)?|rising|up|mont(?:er|ant|ez|e)|progresser|en|sub(?:ir|iendo|e|imos)|steiger(?:n|nd|e)|hoch|langsam)\s+){0,2})"
    r"(?:from|de|du|von|vom|del|desde)\s(?:about |env\. |ca\. )?(?P<a>[4-9]\d(?:[.,]5)?) ?%? ?(?:up to|to|à|a|al|hasta(?: el)?|jusqu'à|auf|bis(?: auf| zu)?|->|→|=>)\s?(?:about )?(?P<b>[4-9]\d|1[0-2]\d) ?(?:%|percent\b|per cent\b|prozent\b|pour ?cent\b|por ciento\b)",
    re.IGNORECASE,
)
_ARROW = re.compile(
    r"(?<!> )(?<![\d.>])(?P<a>[4-9]\d(?:[.,]5)?) ?%? ?(?:->|=>|>)+ ?(?P<b>[4-9]\d|1[0-2]\d) ?%(?! ?(?:->|=>|>))"
)
# "16 lunges (8 each side)": so many of them in all, and that is half of them
_HALF = re.compile(
    r"(?P<n>\b\d{1,3}) (?P<x>[^\W\d][^()\d]{2,40}?) ?[(,] ?(?:(?P<h>\d{1,2})(?:x| reps)? ?(?:each|per|every|a|pro|je|por|par|cada|chaque|/) ?(?:side|leg|arm|seite|bein|arm|lado|pierna|brazo|côté|jambe|bras)s?|(?:je|pro|per|each) (?:seite|bein|arm|side|leg) (?P<k>\d{1,2}))\b\)?",
    re.IGNORECASE,
)
# "On the 3:00 x 5": every so often
_ON_THE = re.compile(
    r"\bon (?:the|a) (?P<d>\d{1,2}:\d\d|\d{1,2} ?min(?:ute)?s?|\d{2,3} ?sec(?:ond)?s?|\d{2,3} ?s(?= ?[,(:]? ?(?:[x×] ?\d|for\b)))(?! (?:clock|cap|mark|rower|bike))(?= ?(?:$|[,;:(x×-]|for\b))",
    re.IGNORECASE,
)
_SO_MANY_SETS = re.compile(r"(\bevery [\d:]+ ?(?:min\w*|s\w*)? ?[x×] ?\d{1,2}) (?:sets|rounds)\b", re.IGNORECASE)
# "every 2:00 x 5 @ 70 %", "E2MOM x 5 @ 70 %": so many times, and then the load
_CLOCK_AT = re.compile(
    r"(?P<c>\b(?:every (?:\d{1,2}:\d\d|\d{1,3} ?(?:min(?:ute)?s?|s(?:ec(?:ond)?s?)?|'))|e\d?mom) ?(?:[x×]|for) ?\d{1,2}) ?(?=(?:@|at) ?\d{2,3}(?:[.,]\d)?(?: ?- ?\d{2,3})? ?%)",
    re.IGNORECASE,
)
# "holding two 12s", "with the 35s", "a pair of 22.5s": two of them, that heavy
_TWO_OF = re.compile(
    r"\b(?:holding|with|using|w/)\s?(?:(?:two|2|a pair of|the|your|those|both) )+(?P<l>\d{1,3}(?:\.5)?)(?P<u> ?(?:kg|lb|kilo)s?)?'?s\b(?! ?(?:rest|off|hold|pause|on\b|work|or\b|and\b|/))",
    re.IGNORECASE,
)
# "with an 8 kg in each hand", "16 kg in each hand": two of them
_EACH_HAND = re.compile(
    r"(?:\b(?:with|holding|w/) ?)?(?:\b(?:an?|one) )?(?<![\d-])\b(?P<l>\d{1,3}(?:\.5)?) ?(?P<u>kg|lb)s?(?P<b> (?:dumbbells?|dbs?|kettlebells?|kbs?|bells?))?(?: in|,)? (?:each|either|per|pro|cada|chaque) hand\b",
    re.IGNORECASE,
)
# "Station 1 - rower"
_STATION = re.compile(
    r"^(?P<s>\W*(?:station|stn|st|posten|estación|poste) ?#?(?:\d|[a-h]))\s*[-–—.)|]+\s+", re.IGNORECASE
)
# "4 stations, 3 min each, 1 min to change"
_STATIONS = re.compile(
    r"^(?P<b>\W*\d{1,2} stations?[,:;. -]*)(?P<w>\d{1,2}(?::\d\d)? ?(?:min(?:ute)?s?|s(?:ec(?:ond)?s?)?|')?) (?:each|at each|per station|on each)(?: station)?[,;. ]*(?:and |with )?(?:(?P<r>\d{1,3}(?::\d\d)? ?(?:min(?:ute)?s?|s(?:ec(?:ond)?s?)?|')?) (?:to |for )?(?:the )?(?:change|rest|move|switch|rotate|transition|off|changeover)(?: over| round)?)?[,;. ]*(?:(?:and )?(?:go |all )?(?P<t>twice|\d times|two times|three times|2x|3x)(?: ?(?:round|through|around))?|(?:go )?round (?P<t2>twice|\d times|two times|three times))?\W*$",
    re.IGNORECASE,
)
_TIMES = {"twice": 2, "two times": 2, "2x": 2, "three times": 3, "3x": 3}
# "squat 150/157.5/162.5, bench 95/100/102.5" as attempts: one after the other, once each
_ATTEMPTS = re.compile(r"\b(?:attempts?|openers?|versuche?|intentos|essais)\b", re.IGNORECASE)
_ROW_OF_LOADS = re.compile(
    r"(?<![\d/.,-])(?P<l>\d{2,3}(?:[.,][257]5?)?(?: ?[/,-] ?\d{2,3}(?:[.,][257]5?)?){2})(?P<u> ?(?:kg|lb)s?)?(?![\d/%-]|[.,]\d| ?%| ?x ?\d)"
)
# "Press: 95 5x5", "work sets 90 4x4": the load before its sets
_LOAD_FIRST = re.compile(
    r"(?P<b>[^\W\d]{3,}:\s*|\b(?:work(?:ing)?|top|main) sets?:?\s+)(?P<l>(?:[3-9]\d|[1-4]\d\d)(?:[.,]5)?)(?P<u> ?(?:kg|lb)s?)? (?P<s>\d{1,2} ?[x×] ?\d{1,2})(?![\d.]| ?(?:@|at|%|kg|lb|m\b|min|s\b|sec|cal|x))",
    re.IGNORECASE,
)
_BAR_TIMES = re.compile(
    r"(?<![^\W\d] )(?<!a )\b(?:(?:the )?empty |just the )?bar ?[x×] ?(?P<r>\d{1,2})\b(?! ?(?:kg|lb|%))|\b(?P<s>\d{1,2}) ?(?:@|at|with|w/) ?(?:the )?(?:empty )?bar\b(?! ?(?:\+|and))",
    re.IGNORECASE,
)
# "Everything twice round, take your time": not against the clock
_NO_HURRY = re.compile(
    r"(?P<b>(?:\brounds?\b|\b(?:twice|times|x) (?:round|through))[^.@%]*?)\b(?:take your (?:own )?time|no (?:rush|hurry)|(?:at|in) your own (?:pace|time))\b",
    re.IGNORECASE,
)
# "1x80kg": one repetition with it; "5x100kg" may be sets
_ONCE = re.compile(
    r"(?<![\d.x×/])1 ?[x×] ?(?P<l>\d{2,3}(?:[.,]\d+)?) ?(?P<u>kg|lb)s?\b(?! ?(?:kb|db|kettle|dumb|ball|bell|plate|vest))",
    re.IGNORECASE,
)
# "odd: 12 cals": calories without a machine are those of any
_BARE_CALORIES = re.compile(
    r"(?P<b>(?:\b(?:odd|even|min(?:ute)? ?\d{1,2})(?: min(?:ute)?s?)? ?[:-] ?|^\W*(?:\d[.):] ?)?))(?P<n>\d{1,2}(?:/\d{1,2})?) ?cal(?:orie)?s?(?=\s*(?:$|[,;.](?!\d)))",
    re.IGNORECASE,
)
# "315 for 5, 5, 5": so many sets with it
_FOR_EACH = re.compile(
    r"(?<![\d.])(?P<l>(?:[4-9]\d|[1-4]\d\d)(?:[.,]5)?)(?P<u> ?(?:kg|lb)s?)? for (?P<r>\d{1,2}(?:, ?\d{1,2}){1,5}(?:,? and \d{1,2})?)(?=\s*(?:$|[.;)(]|last\b|then\b))",
    re.IGNORECASE,
)
# "up to 75 % singles": a single at that
_UP_TO_SINGLES = re.compile(
    r"\b(?:(?:build|work|climb|go) )?up to (?P<l>\d{2}(?:[.,]5)?(?:-\d{2})?) ?% (?P<w>single|double|triple)s?\b",
    re.IGNORECASE,
)
# "EMOM 10, odd: jerk 5x2 70 %": as many sets as there are odd minutes
_ODD_SETS = re.compile(
    r"(?P<e>\be(?P<k>\d?)mom ?(?:for |x ?)?(?P<t>\d{1,2})(?: ?min(?:ute)?s?)?[^\d:]{0,4})(?P<o>(?:odd|even)(?: min(?:ute)?s?)? ?[:-] ?)(?P<x>[a-z][a-z &]{2,30}?) (?P<s>\d{1,2}) ?[x×] ?(?P<r>\d{1,2}) ?(?P<l>(?:@|at)? ?\d{2}(?:[.,]\d)?(?:-\d{2})? ?%)",
    re.IGNORECASE,
)
# "12 cals one minute and 8 burpees the next": in turn
_ONE_AND_NEXT = re.compile(
    r"\b(?:doing |of |with |do )?(?P<a>\d+ (?!in\b|on\b)[^\W\d][^,;.:]{1,40}?),? (?:in |on )?(?:one|the first|the one)(?: minute| min)?,? (?:and |then )*(?P<b>\d+ (?!in\b|on\b)[^\W\d][^,;.:]{1,40}?),? (?:in |on )?the (?:next|other|following|second)(?: minute| min| one)?\b",
    re.IGNORECASE,
)
_EVERY_MINUTE = re.compile(r"\be\d?mom\b|\bevery (?:minute|min)\b|\bon the min", re.IGNORECASE)
_ALL_OUT = re.compile(
    r"\b(?:one|1|a|final|last) all[ -]?out set (?:at|@|with|of) (?P<l>\w+(?: ?(?:kg|kilos?|lb|%))?)\b", re.IGNORECASE
)
# "4x3 with a 2 sec pause at 70": the load behind a remark
_PAUSED_AT = re.compile(
    r"(?P<s>\d{1,2} ?(?:[x×]|by) ?\d{1,2}) (?P<w>(?:,|with|w/) ?(?:an? )?(?:\d|two|three|five) ?(?:s|sec|second|count)s?[ -]?(?:pause|hold|stop)s?(?: (?:at|in|on) the (?:bottom|top|chest|knee))?),? (?P<l>(?:@|at) ?\w+(?: percent| per cent| ?%| ?kg)?)(?=\s*(?:$|[,;.)]|then\b))",
    re.IGNORECASE,
)
_SPOKEN_RIGHT = re.compile(r"^(?:right|alright|okay|ok)[, ]+(?:then |so )?(?=[a-z])", re.IGNORECASE)
# "3 sets of hams", "2 sets of abs": words of the coach, no sets of the lift above
_BODY = r"(?:hams?|hamstrings?|hammies|quads?|glutes?|calves|abs|core|arms|biceps|triceps|bis|tris|shoulders|delts|chest|back|lats|traps|accessor(?:y|ies)|mobility|something|whatever|anything|your choice)"
_SETS_OF_BODY = re.compile(
    rf"\b(?:\d|a few|some|two|three|four) sets (?:of |for )(?:some |your |the )?(?P<w>{_BODY})\b(?! (?:curl|raise|ext|press|squat|row))",
    re.IGNORECASE,
)
# "Snatch to max", "snatch + C&J to max": up to a max of each
_LIFT = r"(?:(?:power|hang|front|back|overhead|push|split|strict|bench|close grip|box) )*(?:snatch|c ?& ?j|c and j|clean (?:and|&) jerk|cleans?|jerks?|squats?|bench|deadlifts?|press|dl|bs|fs|ohs|sn|cj)"
_TO_MAX = re.compile(
    rf"\b(?P<x>{_LIFT})(?: ?(?P<and>\+|&|and|,|/) ?(?P<y>{_LIFT}))?,?:? (?:up )?to (?:an? |your |the |today'?s |daily |(?:heavy )?day'?s? )*max\b(?! (?:effort|reps|height|unbroken|in \d))",
    re.IGNORECASE,
)
# "with a 20 kg kb, 3 rounds of ... 21 swings": the load of what is done with it
_WITH_BELL = re.compile(
    r"(?:,? ?(?:but |and )?(?:with|using) (?:an? |the )?(?P<l>\d{1,2}(?:\.5)?) ?kg (?:kb|kettlebell|bell)s?,?:?)(?= .*?\d (?:rounds|rds|rft)\b|,? ?\d (?:rounds|rds|rft)\b)(?P<m>.*?\b(?:swings?|kbs|goblet squats?)\b)(?! ?\(?\d{1,2}(?:\.5)? ?(?:kg|/)| ?@),?",
    re.IGNORECASE,
)
# "Everything 60 %, 3x5: squat, bench, row, press": the same sets of each
_SETS_OF_ALL = re.compile(
    r"^(?P<b>(?:[^:]*?[.!] )?)\W*(?:(?:everything|all(?: lifts)?|each)\b[ ,:@]*(?:at |@ ?)?)?(?P<s>(?:\d{2} ?%,? ?(?:for )?\d{1,2} ?[x×] ?\d{1,2}|\d{1,2} ?[x×] ?\d{1,2},? ?(?:@|at)? ?\d{2} ?%)(?: (?:each|of each|of|on|for))?) ?: (?P<n>[^\d:.;]+?)(?P<e>[.;].*)?$",
    re.IGNORECASE,
)


# What dumbbells and kettlebells weigh in kilograms, and not in pounds alone; common practice
_KILOS = frozenset(
    {"4", "6", "8", "9", "10", "12", "12.5", "14", "15", "16", "17.5", "18", "20", "22.5", "24", "27.5", "28", "32"}
)


def _two_of(found: re.Match[str]) -> str:
    if found["u"]:
        return f"with 2x{found['l']} {found['u'].strip().lower()[:2].replace('ki', 'kg')}"
    if _SETS.search(found.string):
        return f"@ {found['l']} bells"
    return f"with 2x{found['l']} kg" if found["l"] in _KILOS else found[0]


def _half(found: re.Match[str]) -> str:
    half = int(found["h"] or found["k"])
    return f"{found['n']} {found['x']}" if int(found["n"]) == 2 * half else found[0]


def _one_by_one(found: re.Match[str]) -> str:
    loads = [each.replace(",", ".") for each in re.split(r" ?/ ?| ?- ?|, | ,|,(?=\d{2,3}(?:\D|$))", found["l"])]
    unit = (found["u"] or "").strip().lower()
    numbers = [float(each) for each in loads]
    if numbers != sorted(set(numbers)) or numbers[-1] > 1.35 * numbers[0]:
        return found[0]
    return ", ".join(f"{each}{unit}x1" for each in loads)


def _odd_sets(found: re.Match[str]) -> str:
    if 2 * int(found["s"]) != int(found["t"]):
        return found[0]
    load = found["l"].strip()
    return f"{found['e']}{found['o']}{found['r']} {found['x']} {load if load[0] in '@a' else f'@ {load}'}"


def _for_each(found: re.Match[str]) -> str:
    reps = re.findall(r"\d+", found["r"])
    load = f"{found['l']}{(found['u'] or '').strip()}"
    if len(set(reps)) == 1:
        return f"{load} x {reps[0]} x {len(reps)}"
    return ", ".join(f"{load} x {each}" for each in reps)


def _up_to_max(found: re.Match[str]) -> str:
    return ", ".join(f"{each}: work up to a max" for each in (found["x"], found["y"]) if each)


def _stations(found: re.Match[str]) -> str:
    told = found["t"] or found["t2"] or ""
    times = _TIMES.get(told.lower()) or (int(told[0]) if told[:1].isdigit() else 0)
    rest = f", {found['r']} to change" if found["r"] else ""
    return f"{found['w']} each station{rest}{f', {times} rounds' if times else ''}"


def _of_all(found: re.Match[str]) -> str:
    names = [each.strip() for each in re.split(r",|&|\band\b|\+|/", found["n"]) if each.strip()]
    for each in names:
        tokens = tokens_of(plain(each), lift=True)
        if len(tokens) != 1 or tokens[0].kind != "name":
            return found[0]
    if len(names) < 2:
        return found[0]
    sets = re.sub(r"^(\d{2} ?%),? ?(?:for )?(\d{1,2} ?[x×] ?\d{1,2})", r"\2 @ \1", found["s"])
    sets = re.sub(r" (?:each|of each|of|on|for)$", "", sets)
    return f"{found['b']}{', '.join(f'{each} {sets}' for each in names)}{found['e'] or ''}"


def uncrossed(row: str) -> str:
    """Return a line as typed without what is crossed out, where something else stays."""
    left = _CROSSED_OUT.sub("", row)
    return left if left != row and any(sign.isalnum() for sign in left) else row


_ALWAYS: tuple[tuple[re.Pattern[str], str | Callable[[re.Match[str]], str]], ...] = (
    (_FROM_TO, r" @ \g<a>-\g<b> %"),
    (_ARROW, r"\g<a>-\g<b> %"),
    (_HALF, _half),
    (_ON_THE, r"every \g<d>"),
    (_SO_MANY_SETS, r"\1"),
    (_CLOCK_AT, r"\g<c>: "),
    (_EACH_HAND, lambda found: f"2x{found['l']} {found['u']}{found['b'] or ''}"),
    (_TWO_OF, _two_of),
    (_STATION, r"\g<s>: "),
    (_STATIONS, _stations),
    (_ONCE, r"\g<l>\g<u> x 1"),
    (_BARE_CALORIES, r"\g<b>\g<n> cal machine"),
    (_FOR_EACH, _for_each),
    (_LOAD_FIRST, r"\g<b>\g<s> @ \g<l>\g<u>"),
    (_UP_TO_SINGLES, r"work up to a \g<w> @ \g<l>%"),
    (_PAUSED_AT, r"\g<s> \g<l> (paused)"),
    (_ALL_OUT, r"1 x max reps @ \g<l>"),
    (_SETS_OF_BODY, r"some \g<w>"),
    (_SETS_OF_ALL, _of_all),
    (_WITH_BELL, r",\g<m> @ \g<l> kg,"),
)


# "AMRAP 4 x 3": which is the length, and which how often
_AMRAPS = re.compile(
    r"(?P<b>^\W*(?:[A-H][.):] ?)?)amraps?:? (?P<a>\d{1,2}) ?[x×] ?(?P<n>\d{1,2})(?P<e>\W*$|[,;:(] ?.*rest.*$)",
    re.IGNORECASE,
)
# "Rest 15" behind a test: minutes
_TEST = re.compile(r"\b\d{0,2} ?RM\b|\bmax\b|\btest\b|\btime trial\b", re.IGNORECASE)
_REST_ALONE = re.compile(r"^(?P<b>\W*)rest (?P<n>[6-9]|1\d|20)\W*$", re.IGNORECASE)


# "squat to box / wall press / step up / row" below so long on and off: stations, not one or the other
_ON_OFF = re.compile(r"\b(?:on|work)\b.*\b(?:off|rest)\b|\btabata\b|\bcircuit\b", re.IGNORECASE)
_STROKES = re.compile(r"^\W*[^\W\d][^\d/:]+(?: / [^\W\d][^\d/:]+){2,}$")


def lines_written_out(lines: list[Line], asker: Asker) -> list[Line]:
    """Write out what the lines around tell, and ask which is the length of an AMRAP that is told by two numbers."""
    made: list[Line] = []
    above = ""
    for line in lines:
        if (found := _AMRAPS.match(line.text)) is not None:
            one, two = int(found["a"]), int(found["n"])
            choices = (
                Choice("length first", f"{two} times {one} min"),
                Choice("times first", f"{one} times {two} min"),
            )
            typed = harmless(line.raw).strip()
            if (
                asker.choose("order of an amrap", line.number, typed, f"{one} min or {two} min each?", choices)
                != "length first"
            ):
                one, two = two, one
            made.append(replace(line, text=f"{found['b']}{two} x {one} min amrap{found['e']}"))
        elif _TEST.search(above) and (found := _REST_ALONE.match(line.text)) is not None:
            made.append(replace(line, text=f"{found['b']}rest {found['n']} min"))
        elif _ON_OFF.search(above) and _STROKES.match(line.text):
            made.append(replace(line, text=line.text.replace("/", ",")))
        else:
            made.append(line)
        above = line.text if line.text.strip() else above
    return made


def written_out(text: str) -> str:
    """Return a cleaned line with what is typed short in the form that is read."""
    text = _SPOKEN_RIGHT.sub("", text) if len(text) > 40 else text
    text = _NO_HURRY.sub(r"\g<b>not for time", _TO_MAX.sub(_up_to_max, text))
    if not any(sign.isdigit() for sign in text) and "set" not in text:
        return text
    if _SETS.search(text) or _TEMPO.search(text):
        text = _REST.sub(r"rest \g<r>", _TEMPO.sub(r"tempo \g<t>", text))
    text = _BAR_TIMES.sub(lambda found: f"{found['r'] or found['s']} reps @ empty bar", text)
    if _ATTEMPTS.search(text):
        text = _ROW_OF_LOADS.sub(_one_by_one, text)
    if _EVERY_MINUTE.search(text):
        text = _ONE_AND_NEXT.sub(r": odd: \g<a>, even: \g<b>", _ODD_SETS.sub(_odd_sets, text))
    for pattern, word in _ALWAYS:
        text = pattern.sub(word, text)
    return text
