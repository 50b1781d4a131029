"""A typed line in the form that is read: signs that a camera or a thumb took for others, hours of the clock, rows with strokes.

Looked at before anything else, while capitals still tell something; the typed line itself is kept.
"""

from __future__ import annotations

import re

# A photographed board: the letter O for a nought, l for a one, a digit within a word of capitals
_NOUGHT = re.compile(r"(?<![\w.,])(?=\d*O)\d+(?:O+\d*)+(?![A-Za-z])|(?<![\w.,])O\d(?=\s?(?:min|kg|m\b))")
_ONE = re.compile(r"(?<![\w.,'])l(?=\d\b)")
_IN_CAPITALS = re.compile(r"\b(?!E\d+M)[A-Z]{1,8}(?P<d>[015])[A-Z]{2,8}\b")
_LETTER_OF = {"0": "O", "1": "I", "5": "S"}

_HOUR = r"(?:[01]?\d|2[0-3])[:.][0-5]\d(?: ?(?:am|pm|h|uhr))?"
# "Event 1 (9:30) - ...": when it begins is no length of it
_EVENT_HOUR = re.compile(
    rf"(?P<e>^\W*(?:event|heat|wave|wod|workout|part|block|session|class|épreuve|evento)\s*#?(?:\d{{1,2}}|[a-h])?)\s*(?:\({_HOUR}\)|(?:at|@|um) {_HOUR})",
    re.IGNORECASE,
)
# "0630/0930/1730", "Squat 10:00 / Bench 11:15 / DL 12:15": a timetable
_HOURS = re.compile(
    r"(?<![\d/.])(?:(?:0[5-9]|1\d|2[0-2])[0-5][05])(?:\s*[/,&]\s*(?:(?:0[5-9]|1\d|2[0-2])[0-5][05]))+(?![\d/.]| ?(?:m|reps|cal)\b)"
)
_AT_HOURS = re.compile(rf"^\W*(?:[^\W\d][\w &-]{{1,24}}?\s+(?P<h>{_HOUR})\s*(?:[/,;|]\s*|$)){{3,}}", re.IGNORECASE)

# Movements in a row with strokes between them: "10 kb swing 24 / 10 push-ups / 10 sit-ups", "400m/20 kbs/10 pull ups"
_UNITS = r"(?!(?:kg|kilos?|lbs?|pounds?|cals?|calories|kcal|m|cm|min|sec|s|in|inch|ft|reps?|rm|rds|rounds|sets?|e|%)\b|(?:side|leg|arm|hand|way)\b(?! [a-z]))"
_STROKE = re.compile(
    rf"(?:(?<=[^\W\d_])|(?<=[)])|(?<=['\"])|(?P<room>(?<=\d)\s))\s*/(?(room)\s)\s*(?=\d{{1,4}}(?:[/-]\d{{1,3}})?\s?(?:(?:m|cals?|s|sec|kcal)\s)?{_UNITS}[^\W\d_]{{2,}})"
)
_ENGINE = r"\d[\d./]* ?(?:m|k|km|cals?|miles?)? ?(?:run|row|bike|ski|swim|erg|assault|echo|air)\w*(?: erg| bike)?"
_ENGINES = re.compile(rf"{_ENGINE}(?: ?/ ?{_ENGINE})+", re.IGNORECASE)  # one or the other
_RUN_ALONE = re.compile(
    r"(?:^|(?<=[,;:/] )|(?<=[,;:/])|(?<=amrap )|(?<=rft )|(?<=rounds )|(?<=rds ))(?P<d>200|400|600|800) ?m(?=, \d)",
    re.IGNORECASE,
)
# "10 MIN 10 KB SWINGS 10 BURPEES 10 SIT-UPS", "for 9 minutes, 9 swings, 9 goblet squats": a time, then what fills it
_TIME_THEN = re.compile(
    r"^(?P<b>\W*(?:then[,:]? |and |finish(?:er)?[,:]? |metcon[,:]? |quick: |[\w ]{0,20}, quick: )?)(?:for )?(?P<t>\d{1,2}) ?(?P<u>min(?:ute)?s?|')[ ,]+(?=\d{1,3} (?!x ?\d|sets?\b|rounds?\b|rds\b|rnds\b|on\b|off\b|work\b|sec|min|easy\b|of\b|min)[a-z])",
    re.IGNORECASE,
)
_COUNTED = re.compile(
    r"(?<![\w./:x-])\d{1,3}(?:/\d{1,3})? ?(?:m |cals? )?(?!x\b|min|sec|rounds?|rds|sets?|kg|lb|on\b|off\b)[a-z][a-z-]+",
    re.IGNORECASE,
)
# "Strength, 20 min: back squat ...", "Strength (20 min): ...": how long the part of the hour is
_PART_LENGTH = re.compile(
    r"^(?P<p>\W*(?:[A-H]\W+)?(?:strength|skill|weightlifting|oly(?:mpic lifting)?|kraft|fuerza|force))(?:,| -| \()? ?(?:about |ca\.? )?\d{1,2} ?(?:min(?:ute)?s?|')\)?:",
    re.IGNORECASE,
)
# "2.0 Strength [12:00-32:00]", "2.1 Front squat ...": numbers of parts, and when they are
_PART_NUMBER = re.compile(
    r"^\s*\d\.(?:0\s+(?=[A-Z])|\d\s+(?=[A-Za-z])(?!kg|km|k\b|lb|miles?\b|m\b|x\b|min|l\b|pood|reps))"
)
_WHEN = re.compile(r"\s*\[\d{1,2}:\d\d ?-+ ?\d{1,2}:\d\d\]\s*$")
# "Row 750 m, then three rounds of ..., then row 750 m": what is done before and after the rounds
_AROUND = re.compile(
    r"(?P<b>^|: |, )(?P<in>(?:row|run|ski|bike|swim) \d{2,4} ?(?:m|cals?|calories)|\d{2,4} ?(?:m|cals?|calories) (?:row|run|ski|bike|swim))[,;]? (?:and )?then (?P<r>\w+ rounds(?: of|:) .+?)[,;.]? (?:and )?then (?P<out>(?P=in))\b",
    re.IGNORECASE,
)
# "lunges (one dumbbell, 20/12.5 kg) and pull-ups": what the one in brackets weighs is the load of what stands before them
_ONE_BELL = re.compile(
    r"\((?:one|1|single|a|two|2) (?:dumbbells?|kettlebells?|dbs?|kbs?|bells?)(?: of|,| at)? (?P<l>\d{1,3}(?:\.\d)?(?: ?/ ?\d{1,3}(?:\.\d)?)? ?(?:kg|lb)?)\)",
    re.IGNORECASE,
)
# "1-1-1-1-1 clean": sets of a lift, told before it
_ROW_OF_LIFT = re.compile(
    r"(?<![\d-])(?P<r>(?P<n>\d)(?:-(?P=n)){2,})(?: reps)?(?: of)? (?P<l>(?:(?:power|hang|squat|push|split|front|back|overhead|block|muscle|strict|bench) )*(?:clean(?: (?:and|&) jerk)?|snatch|jerk|press|deadlift|squat))(?:e?s)?\b(?! \w* ?for time)",
    re.IGNORECASE,
)
_TO_BE_SAID = re.compile(r"\s*\((?:tbc|tba|depend(?:s|ing))\b[^()]*\)", re.IGNORECASE)
# "10-20-30 cal bike. women 8-16-24": the counts of others, which stay words; "80 % of 20' power": no time of the piece
_COUNTS_OF_OTHERS = re.compile(
    r"(?<=[^\W\d_])[.,;]? \(?(?:women|girls|ladies|scaled|beginners|frauen|mujeres|femmes|donne):? (?:do )?\d{1,3}(?:[-/]\d{1,3}){2,}\)?",
    re.IGNORECASE,
)
_OF_POWER = re.compile(
    r"(?<=%) of (?:your |the |my )?\d{1,2}(?:'|[ -]?min(?:ute)?s?)[ -](?=(?:power|best|test|pace|watts|average)\b)",
    re.IGNORECASE,
)
_PACED = re.compile(r"(?P<b>^\W*)(?P<d>\d(?:[.,]\d)?) ?km (?:@|at) (?:your )?\d{1,2} ?k (?:effort|pace)", re.IGNORECASE)
# "7' ascending: 2-4-6-8-...": as far up as the time allows
_RISING_IN = re.compile(
    r"(?P<b>^\W*(?:[\w-]{3,12}[:,] )?)(?P<t>\d{1,2}) ?(?:min(?:ute)?s?|') (?:ascending|ladder|climbing|rising|up the ladder)[:,]? (?=\d+-\d+-)",
    re.IGNORECASE,
)
# how hard it is, no percentage of a load
_EFFORT = re.compile(
    r"[@~]?\b\d{2,3}(?: ?- ?\d{2,3})? ?(?:%|percent) (?=(?:effort|speed|intensity|of your speed|pace)\b)", re.IGNORECASE
)
_TIMES_OF = re.compile(r"(?P<b>^\W*(?:\d[.)] ?)?|[:,;.>-] ?)(?P<n>[2-9])x ?: (?=\d)")
_BLOCKS = re.compile(
    r"^\W*(?:main(?: bit| part| set| piece)?|the work|work)[,:]? (?P<n>\d{1,2}) ?(?:x|blocks?|rounds?|times through|laps|goes)(?: through)?\W*$",
    re.IGNORECASE,
)
_QUOTED_TIME = re.compile(r"(?P<b>^\W*(?:[A-H][.)] ?)?)\"(?P<q>\d{1,2} ?min[^\"\d]{0,24})\"\s*$", re.IGNORECASE)
# "got 8/3 last time in 22:40", "-> 7 rds + 4": what came of it
_RESULT = re.compile(r"\s*(?:[-=]+>|>|=)\s*\d{1,2} ?(?:rds?|rounds?|rnds?)? ?\+ ?\d{1,3}(?: reps)?\W*$", re.IGNORECASE)
# "95 lb. (65 lb.)": a pair of loads
_SECOND_LOAD = re.compile(
    r"\b(?P<a>\d{1,3}(?:\.\d)?) ?(?P<u>lb|kg)s?\.? \((?P<b>\d{1,3}(?:\.\d)?) ?(?P=u)s?\.?\)", re.IGNORECASE
)
# "(2 work, 1 holds plank)": who does what is no movement
_WHO_WORKS = re.compile(r"\s*\((?:\d|one|two) (?:works?|holds?|rests?|counts?)\b[^()]*\)", re.IGNORECASE)
_CAP_MARK = re.compile(r"\bt\.\s?c\.\s*(?=\d)", re.IGNORECASE)
# "(2x16)" behind what is lifted with dumbbells or kettlebells: what they weigh
_TWO_BELLS = re.compile(
    r"(?P<n>\b(?:dbs?|kbs?|dumbbells?|kettlebells?|bells|lunges?)\b[^()]*)\((?P<a>[12]) ?x ?(?P<x>\d{1,2}(?:\.5)?)(?: ?(?:or|/|\|) ?(?P=a) ?x ?(?P<y>\d{1,2}(?:\.5)?))?\)",
    re.IGNORECASE,
)
# "Week 4 of 6 - Mon/Wed/Fri": which days it has stands below
_DAY = r"(?:mon|tues?|wed|thurs?|fri|sat|sun|lun|mar|mer|mi|do|di|jeu|ven|sam)[a-zé]*"
_SEVERAL_DAYS = re.compile(
    rf"(?P<w>^\W*(?:week|wk|woche|semaine|semana) \d{{1,2}}(?: ?(?:of|/|von|de) ?\d{{1,2}})?)\W+{_DAY}(?:\s*(?:[/,&+]|and|und|et|y)\s*{_DAY})+\W*$",
    re.IGNORECASE,
)
# "DOWN THE STAIRS" 20-18-16: a piece's title on the line of its counts
_QUOTED_TITLE = re.compile(r"(?P<b>^\W*?(?:[A-H][.)] ?)?)\"[^\"\d]{3,40}\"[ :,-]*(?=\d)")
# "6x2 @ 83 % e90s + 10 min EMOM ...": sets on a clock, then a piece
_CLOCK_THEN = re.compile(r"(?P<e>\be\d{2,3} ?s(?:ec)?) ?\+ (?=\d{1,2} ?min)", re.IGNORECASE)
_TIMES_SLIP = re.compile(r"\btime cat\b(?= \d)", re.IGNORECASE)
_A_MOM = re.compile(r"\ba mom\b(?= (?:for )?(?:\d|ten|twelve|fifteen|sixteen|twenty|thirty))", re.IGNORECASE)
_FOR_ROUNDS = re.compile(r"^(?P<b>\W*)for rounds\W*$", re.IGNORECASE)  # spoken: "four rounds"
_ARROWS = re.compile(
    r"\b\d{1,3}(?:\s?>\s?\d{1,3}){2,}(?P<m>\s?\.\.+\s?>?\s?\d{1,3})?|\b\d{1,3}(?:\s?>\s?\d{1,3}){1,}\s?\.\.+\s?>?\s?\d{1,3}"
)
_COUNTDOWN = re.compile(
    r"(?P<b>\b(?:ladder|leiter|escalera|échelle|countdown|count down)\b:? (?:from |von |de )?)(?P<a>\d{1,2}) ?(?:>|-+|to|bis|down to|a|à) ?1\b(?![\d.:-])|(?<![\d./-])(?P<c>\d{1,2}) ?(?:>|-+|to|bis|down to) ?1 (?P<d>countdown|ladder|leiter)\b:?",
    re.IGNORECASE,
)
_IN_TURN = re.compile(r"\b(?:you go ?[,/]? ?(?:and )?i go|i go ?[,/]? ?(?:and )?you go)\b", re.IGNORECASE)
# "cash in 800 m run, then 3 rounds of ..., cash out 800 m run"; "straight into" what comes then
_CASH_IN = re.compile(r"\b(?:cash|buy)[ -]?in\b(?=\W*\d)", re.IGNORECASE)
_CASH_OUT = re.compile(r"\bcash out\b(?=\W*\d)", re.IGNORECASE)
_IN_THEN = re.compile(r"(\bbuy-in\W[^,;.]{3,40}?)[,;.]? (?:and )?then (?=\w+ (?:rounds|rds)\b)", re.IGNORECASE)
_STRAIGHT = re.compile(
    r"[.,;]?\s+(?:and )?(?:go |roll )?(?:straight|directly|right|immediately) into (?:an? )?(?=\d)", re.IGNORECASE
)
# A sentence on the warm-up ends, in small letters too
_WARM_ENDS = re.compile(r"(\b(?:warm|cool)[ -]?(?:up|down))\.\s+([a-z])", re.IGNORECASE)
_SUPERSET = re.compile(r"(\d ?[x×] ?\d[^;]*?),? (?:ss|s/s)(?:[:,]| with| w/)? (?=[^;]*\d ?[x×] ?\d)", re.IGNORECASE)
# "D1", "D2" each alone on a line: days
_DAY_NUMBER = re.compile(r"\s*D(?P<n>[1-7])\s*[:.]?\s*")


def days_by_number(texts: list[str]) -> list[str]:
    """Write out lines that are days by their number alone, where they count up from 1."""
    found = [(place, int(match["n"])) for place, text in enumerate(texts) if (match := _DAY_NUMBER.fullmatch(text))]
    if len(found) < 2 or [number for _, number in found] != list(range(1, len(found) + 1)):
        return texts
    made = list(texts)
    for place, number in found:
        made[place] = f"Day {number}"
    return made


def as_meant(text: str) -> str:
    """Return a cleaned line with what is typed for something else put right."""
    text = _BOTH_SETS.sub(r"\g<s> @ \g<a>/\g<b> \g<u>", text)
    text = _AND_A_HALF.sub(r"\g<e> 1:30", text)
    text = _RUNS_OVER.sub("takes longer", _dictated(text))
    if not any(sign.isdigit() for sign in text):
        return _FOR_ROUNDS.sub(r"\g<b>four rounds", text)
    if text.isupper() or "O" in text or "l" in text:
        text = _NOUGHT.sub(lambda found: found[0].replace("O", "0"), text)
        text = _ONE.sub("1", text)
        if text.isupper():
            text = _IN_CAPITALS.sub(lambda found: found[0].replace(found["d"], _LETTER_OF[found["d"]]), text)
    if _AT_HOURS.match(text):
        return "timetable"
    text = _HOURS.sub("o'clock", _EVENT_HOUR.sub(r"\g<e>", text))
    text = _QUOTED_TITLE.sub(r"\g<b>", _SEVERAL_DAYS.sub(r"\g<w>", _RESULT.sub("", text)))
    text = _CLOCK_THEN.sub(r"\g<e> then ", _IN_TURN.sub("IGYG", text))
    text = _WHEN.sub("", _PART_NUMBER.sub("", text))
    text = _AROUND.sub(r"\g<b>buy-in: \g<in>; \g<r>; cash-out: \g<out>", text)
    text = _ROW_OF_LIFT.sub(r"\g<l> \g<r>", _TO_BE_SAID.sub("", text))
    text = _OF_POWER.sub(" of ", _COUNTS_OF_OTHERS.sub("", text))
    text = _PACED.sub(r"\g<b>run \g<d> km", text)
    text = _ONE_BELL.sub(r"(\g<l>)", text)
    text = _CASH_OUT.sub("cash-out", _CASH_IN.sub("buy-in", text))
    text = _STRAIGHT.sub(" then ", _IN_THEN.sub(r"\1; ", text))
    text = _SUPERSET.sub(r"\1 superset with ", text)
    text = _WARM_ENDS.sub(lambda found: f"{found[1]}. {found[2].upper()}", text)
    text = _RISING_IN.sub(r"\g<b>AMRAP \g<t>: ", text)
    text = _CAP_MARK.sub("TC ", _WHO_WORKS.sub("", text))
    text = _SECOND_LOAD.sub(r"\g<a>/\g<b> \g<u>", text)
    text = _TWO_BELLS.sub(_bells, text)
    text = _ARROWS.sub(lambda found: re.sub(r"\s?>\s?", "-", found[0]), text)
    text = _COUNTDOWN.sub(_down, text)
    text = _TIMES_SLIP.sub("time cap", _A_MOM.sub("emom", text))
    text = _PART_LENGTH.sub(r"\g<p>:", _EFFORT.sub("", text))
    text = _QUOTED_TIME.sub(r"\g<b>\g<q>", _TIMES_OF.sub(r"\g<b>\g<n> rounds: ", text))
    text = _BLOCKS.sub(r"\g<n> rounds:", text)
    strokes = 0 if _ENGINES.search(text) else len(_STROKE.findall(text))
    if strokes > 1 or (strokes and re.search(r"\bamrap\b", text, re.IGNORECASE)):
        text = _RUN_ALONE.sub(r"\g<d> m run", _STROKE.sub(", ", text))
    if (found := _TIME_THEN.match(text)) and len(_COUNTED.findall(text[found.end() :])) > 1:
        text = f"{found['b']}{found['t']} min: {text[found.end() :]}"
    return text


def _dictated(text: str) -> str:
    """Put the signs that somebody dictated for those that they are, and `one one one three singles` for what it counts."""
    if "," not in text and len(_SAID_SIGNS.findall(text)) and len(text.split()) > 8:
        text = _SAID_SIGNS.sub(lambda found: ". " if found["stop"] else ", ", text)
    return _ONES.sub(
        lambda found: (
            f"{'for ' if found[0][:3].lower() == 'for' else ''}{found['n']} sets of 1"
            if len(re.findall(r"one|1", found["l"], re.IGNORECASE)) == _SMALL.get(found["n"].lower())
            else found[0]
        ),
        text,
    )


# "men 5x5 @ 80 kg, women 5x5 @ 50 kg": the same sets for both, with a load each
_BOTH_SETS = re.compile(
    r"\b(?:men|guys|boys|gents):? (?P<s>\d{1,2} ?x ?\d{1,2}) ?(?:@|at) ?(?P<a>\d{2,3}(?:\.5)?) ?(?P<u>kg|lb),? ?(?:and |/ ?|; ?)?(?:women|ladies|girls):? (?:(?P=s) ?)?(?:@|at) ?(?P<b>\d{2,3}(?:\.5)?) ?(?P=u)\b",
    re.IGNORECASE,
)
# every minute and a half is no every minute
_AND_A_HALF = re.compile(
    r"\b(?P<e>every|cada|chaque|toutes les|jede|alle|ogni|elke)(?: (?:1|one|un|une|uno))? (?:minuto y medi[oa]|minute(?: and a half| et demie)|anderthalb minuten?|minuto e mezzo|anderhalve minuut)\b",
    re.IGNORECASE,
)
_RUNS_OVER = re.compile(r"\b(?:runs?|ran|running) (?:over|late|long)\b(?! (?:the |a |\d))", re.IGNORECASE)
_SAID_SIGNS = re.compile(r"\s+(?:comma|(?P<stop>full stop))(?:\s+|$)", re.IGNORECASE)
_SMALL = {"2": 2, "two": 2, "3": 3, "three": 3, "4": 4, "four": 4, "5": 5, "five": 5}
_ONES = re.compile(
    r"(?:\bfor )?\b(?P<l>(?:one|1)(?:[, ]+(?:one|1)){1,4}),? (?:so |that's )?(?P<n>two|three|four|five|[2-5]) singles\b",
    re.IGNORECASE,
)


def _bells(found: re.Match[str]) -> str:
    loads = f"{found['x']}/{found['y']}" if found["y"] else found["x"]
    return f"{found['n']}{found['a']} x {loads} kg" if not found["y"] else f"{found['n']}{loads} kg"


def _down(found: re.Match[str]) -> str:
    first = int(found["a"] or found["c"])
    if not 3 <= first <= 25:
        return found[0]
    row = "-".join(str(number) for number in range(first, 0, -1))
    return f"{found['b'] or ''}{row}" if found["a"] else f"{row}:"
