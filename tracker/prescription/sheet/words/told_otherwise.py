"""Pieces, maxes and distances told in another order or with a word between, put into the form that is read.

Each rule was made from several ways of typing the same thing; what is typed stays the same number of the same thing.
"""

from __future__ import annotations

import re
from collections.abc import Callable

_MIN = r"(?:min(?:ute)?s?|')"
_AT_EASE = r"(?:easy|nice|relaxed|steady|smooth|chill|light|gentle|moderate|hard|fast|spicy|sweaty|grindy|quick|little|short|long|slow|locker(?:es|e)?|ruhiges?)"
_CARRIED = r"shuttle (?:runs?|sprints?)|shuttles?|sprints?|sled (?:push(?:es)?|pulls?|drags?)|(?:farmer'?s? |suitcase |front rack |sandbag )?carr(?:y|ies)|bear crawls?|crab walks?|handstand walks?"


def _as_far(found: re.Match[str]) -> str:
    """`1 shuttle run of 40 m` is 40 m, and two of them are 80 m in all."""
    return f"{int(found['n']) * int(found['d'])} m {found['x']}"


def _two_amounts(found: re.Match[str]) -> str:
    larger, smaller = int(found["a"]), int(found["b"])
    return f"{larger}/{smaller} {found['u']} {found['x']}" if larger / 2 <= smaller <= larger else found[0]


def _larger_first(found: re.Match[str]) -> str:
    smaller, larger = float(found[1]), float(found[2])
    return f"{found[2]}/{found[1]} {found[3]}" if larger / 2 <= smaller < larger else found[0]


def _times_amrap(found: re.Match[str]) -> str:
    return f"{found[2] or found[3]} x {found[1]} min amrap"


def _in_turn(found: re.Match[str]) -> str:
    return f"{found[1]}:" if _TWO.search(found.string) else found[0]


_WHOEVER = r"(?:those|anyone|anybody|everyone|people|whoever|you|someone)(?: who| that)? "
_TIMES = {"three": 3, "four": 4}


def _round_twice(found: re.Match[str]) -> str:
    times = 2 if found[3] else _TIMES.get(found[4], 0) or int(found[4])
    return f"{times} rounds, {found[1]} s on / {found[2]} s off"


_WEEKDAY = re.compile(r"\b(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\b[^:]{0,3}$")


def _down(found: re.Match[str]) -> str:
    if _WEEKDAY.search(found.string[: found.start()]):
        return found[0]  # a date
    return "-".join(str(each) for each in range(int(found["n"]), 0, -1)) + " "


_AMOUNT = r"\d{1,3}(?:[.,]\d{1,2})?"


def _by_letter(found: re.Match[str]) -> str:
    """A pair of two groups' amounts, the larger first; letters that name one group twice are none."""
    if {found["g"], found["i"]} not in ({"m", "w"}, {"m", "f"}, {"h", "f"}):
        return found[0]
    one, two = (float(found[key].replace(",", ".")) for key in "ab")
    men, women = (found["a"], found["b"]) if found["g"] in "mh" else (found["b"], found["a"])
    if not min(one, two) >= max(one, two) / 3 or float(men.replace(",", ".")) < float(women.replace(",", ".")):
        return found[0]
    return f"{men}/{women} {found['v'] or found['u'] or ''}".rstrip()


def _each_side(found: re.Match[str]) -> str:
    """`8+8` is eight each side where the line's one movement is done with one side at a time; else a complex."""
    line = found.string
    return f"{found[1]} each side" if _ONE_SIDED.search(line) and not _JOINED.search(line) else found[0]


# Movements that are done with one side at a time, by their names; common practice
_ONE_SIDED = re.compile(
    r"\b(?:(?:single|one|1)[ -]?(?:arm|leg|hand)(?:ed|ged)?|split squats?|bulgarians?|lunges?|step[ -]?ups?|pistols?|suitcase|cossacks?|side planks?"
    r"|(?:db|dumbbell|kb|kettlebell) rows?|turkish|tgus?|get[ -]?ups?|windmills?|pallof|half[ -]?kneeling)\b"
)
_JOINED = re.compile(r"[a-z)] \+ [a-z]")
_TWO = re.compile(r"\bi ?go|\bigyg\b|\bygig\b|\bpartners?\b|\bpairs?\b")

_RULES: tuple[tuple[re.Pattern[str], str | Callable[[re.Match[str]], str]], ...] = tuple(
    (re.compile(pattern), word)
    for pattern, word in (
        # one set that goes on: "5 or more at 85"
        (r"\b(\d{1,2}) (?:or|oder|ou|o) (?:more|mehr|plus|más)(?: reps)?(?= ?(?:at|@|bei|à|al) ?\d)", r"\1+"),
        # what is in each hand
        (r"(?<=\d)( ?(?:kg|lb)) (?:in |per )?(?:each|either|every) hand\b", r"\1 dumbbells"),
        (r"(\d ?(?:kg|lb) (?:dumbbells?|dbs?|kettlebells?|kbs?)) (?:and|&|\+) (?=[a-z])", r"\1, "),
        (r"\b(?:work ?(?:/|&|\+|-|and|to) ?rest|w/r|on ?/ ?off)(?: (?:of|intervals?|stations?|circuit))? ?[:=-]? ?(?=\d{1,2} ?(?:s\b|sec|min|'|\"|/|on\b|work|:))", ""),
        (rf"^\W*(?:at )?(?:each|every) (station|exercise|movement)s?:? (?:for |is |takes )?(\d{{1,2}} ?(?:{_MIN}|s\b|sec\w*))", r"\2 each \1"),
        # what each group takes, by its letter: "w 16 / m 24 kg", "m: 24kg, f: 16kg"
        (rf"(?<![\w/])\(?(?P<g>[mwfh]) ?[:=]? ?(?P<a>{_AMOUNT}) ?(?P<u>kg|lb|cals?)? ?(?:[/,;&|+]|and|-)? ?(?P<i>[mwfh]) ?[:=]? ?(?P<b>{_AMOUNT}) ?(?P<v>kg|lb|cals?)?\)?(?![\w/.])", _by_letter),
        (rf"(?<![\w/])(?P<a>{_AMOUNT}) ?(?P<u>kg|lb|cals?) ?\(?(?P<g>[mwfh])\)? ?(?:[/,;&|+]|and|-)? ?(?P<b>{_AMOUNT}) ?(?P<v>kg|lb|cals?)? ?\(?(?P<i>[mwfh])\)?(?![\w/.])", _by_letter),
        (r"\bcal(?:s|ories|orie)? (?:on|at|in) (?:the |an? |your )?(?=(?:assault |air |echo |fan |ski )?-?(?:bikes?|rower|row|erg|ski|machine|skierg)\b)", "cal "),
        (r"(?<=\d)(?: {2,}/ *| */ {2,})(?=\d{1,3}(?:\.\d)? ?(?:kg|lb|cal))", "/"),
        # "10 burp o bar", "burpees o/bar": over it
        (r"\bburps?\b", "burpees"),
        (r"\b(burpees?|jumps?|hops?|steps?) o(?:v|vr)?\.? ?/? ?(?:the )?(?=(?:bar|box|erg|rower|db|dumbbell|kb|bell|plate|line|bench)s?\b)", r"\1 over "),
        # a share of what stands above is no pair: "2/3 of the reps"
        (r"(?<![\d/.])[1-4]/[2-5] (of (?:the|your|all|those|it|that|everything|what)\b)", r"part \1"),
        # a row of counts that goes on, within a time: "3-6-9-12-... 10 min:"
        (rf"((?:\d{{1,2}}-){{2,}}\d{{1,2}} ?-? ?\.{{2,3}}) ?[,;(:-]? ?(?:for )?(\d{{1,2}}) ?{_MIN}\)?(?= ?(?:$|[:,;]))", r"\1 in \2 minutes"),
        # counting down to one: "10-1 deadlifts and burpees"
        (r"(?<![\w/:.,-])(?P<n>[5-9]|1\d|2[01]) ?(?:-|>|to|down to) ?1 (?=(?!min|sec|rm\b|rest|week|set|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]{2})", _down),
        # so long at each station, so long to change, so many times round
        (r"\b(\d{2}) ?(?:s|secs?|seconds?) each,? (?:and )?(\d{1,2}) ?(?:s|secs?|seconds?) (?:to |for )?(?:change|switch|move|rest|swap|transition)\w*(?: over| stations?)?,?(?: (?:go )?(?:round|through)(?: it)? (?:(twice|2 times|2x)|(\d|three|four) ?(?:times|x)))", _round_twice),
        # who does one thing while the other does another
        (r"\b(?:p|partner|person|athlete) ?[1a] (?:does |do |is on )?(?=[^.;]*\bwhile (?:p|partner|person|athlete) ?[2b]\b)", ""),
        (r",? while (?:p|partner|person|athlete) ?[2b] (?:does |do |holds? |is on )?(?:(?:an? )?amrap(?: of)? |max )?", ", "),
        # an option with its name first: "ring rows for those who don't have pull-ups yet"
        (rf"^\W*(?P<x>[a-z][a-z -]{{2,30}}?) (?:for|if) {_WHOEVER}(?:don'?t|do not|can'?t|cannot|haven'?t|can not) (?:have |got |do |get |yet )*(?:an? |any |the |your )?(?P<y>[a-z-]{{3,20}}(?: (?!yet\b)[a-z-]{{2,20}})?)(?: yet)?\W*$", r"no \g<y>: \g<x>"),
        (r"^\W*wer (?:keine?n? |nicht )(?P<y>[a-zäöüß-]{3,20}(?: [a-zäöüß-]{3,20})?) (?:kann|hat|schafft)\W+(?P<x>(?:\d|[a-zäöü]).*)$", r"no \g<y>: \g<x>"),
        (r"^\W*(?:quien|el que|si) no (?:pueda|puedas|puedes|tenga|tengas|tienes|haga|haces)(?: hacer)? (?P<y>[a-zñáéíóú-]{3,20}(?: [a-zñáéíóú-]{3,20})?)\W+(?P<x>(?:\d|[a-z]).*)$", r"no \g<y>: \g<x>"),
        # slips in the word minutes
        (r"(?<![\d.])(\d{1,2}) ?(?:mi n|m in|mni|imn|mim|mn|minm)\b(?= ?(?:amrap|emom|(?:time ?)?cap|rest|easy|row|run|bike))", r"\1 min"),
        # how it feels stands between how long and what: "8 min easy amrap"
        (rf"\b(\d{{1,2}}) ?-?{_MIN} (?:{_AT_EASE},? ){{1,2}}(?=amrap|as many (?:rounds|reps))", r"\1 min "),
        # several of the same length, with a rest between
        (rf"\b([2-9]) ?(?:x ?)?amraps (?:of|à|a|@|at|x|,)? ?(\d{{1,2}}) ?-?{_MIN}(?: each)?", r"\1 x \2 min amrap"),
        (rf"\b([2-9]) ?(?:x|separate|equal|rounds of)? ?(\d{{1,2}}) ?-?{_MIN} amraps\b", r"\1 x \2 min amrap"),
        (rf"\b([2-9]) ?(?:x|times) ?(?:an? )?amrap ?(?:of |in |à )?(\d{{1,2}})(?: ?{_MIN})?(?![\w:./%-]| ?(?:x|reps|rounds|cal|m\b|kg))", r"\1 x \2 min amrap"),
        (rf"\bamrap ?(?:of )?(\d{{1,2}}) ?{_MIN} ?(?:x|times) ?([2-9])\b(?! ?(?:{_MIN}|\d|x))", r"\2 x \1 min amrap"),
        (rf"(?<![\dx] )(?<![\dx])\b(\d{{1,2}}) ?-?{_MIN} amrap,? ?(?:x ?([2-9])|\( ?x ?([2-9])\))(?= ?(?:$|[,;:(/]|with|rest|r ?\d))", _times_amrap),
        (rf"\b([2-9]) ?x ?\( ?(\d{{1,2}}) ?{_MIN} amrap ?[+,/;&]? ?([^()]*)\)", r"\1 x \2 min amrap, \3"),
        # "then amrap of 5 pull-ups + 10 swings": a count, no length
        (r"\bamrap of (?=\d{1,3} (?!min|sec|rounds?\b|m\b|x\b)[a-z]{2})", "amrap; "),
        # so many rounds, one of them every so often
        (rf"\b(\d{{1,2}}) (?:rounds?|sets)\b[ ,:-]*(?:1|one|a|each|starting)(?: (?:round|set|one))? every (\d{{1,2}}:\d\d|\d{{1,3}} ?(?:{_MIN}|sec\w*|s\b))", r"every \2 x \1"),
        # a training max, and that all is of it
        (r"(\b(?:training max|tm)\b.{3,40}?)[,;.]? (?:and )?(?:all )?(?:the )?(?:%|percent(?:age)?s?)'?s? (?:are |is |come |go )?(?:all )?(?:off|of|from|based on) (?:that|this|it)\b", r"\1"),
        (r"\btake (\d{2}) ?% of (?:your |the )?(?:1 ?rm|max)(?: first)?,? (?:as|for) (?:your |the |a )?(?:training max|tm)\b", r"training max = \1 % of 1rm"),
        # nothing of it is timed
        (r"\bnothing (?:is )?(?:for time|timed|scored|against the clock)\b", "nothing by the watch"),
        # each of them a whole one
        (r"\b[2-4] (tabatas\b)", r"\1"),
        (r"\b(tm|training max) ?(\d{2}(?:\.5)?) ?%(?! (?:of )?(?:tm|training))", r"\1 = \2 %"),
        # lighter and lighter within the last set: words, no loads of the sets before it
        (r"\((?:(?:the )?last(?: set| one)?,?:? ?)?(?:is |as )?(?:an? )?(?:double |triple )?drop(?:[ -]?sets?)?\b[^()]*\)", "(last set drop set)"),
        # the smaller load first
        (r"\b(?:ladies|women|girls|females?):? (\d{2,3}(?:\.5)?)(?: ?(?:kg|lb))?,? (?:and |/ ?)?(?:men|guys|lads|gents|males?):? (\d{2,3}(?:\.5)?) ?(kg|lb)\b", _larger_first),
        (r"\b((?:find|build(?: up)? to|work(?: up)? to|establish|hit) (?:an? |the |your )?)(heavy|heaviest|max) (?:clean|snatch|barbell|jerk|oly) (?=complex)", r"\1\2 "),
        (rf"(\d{{1,2}} ?{_MIN} (?:to|for) find) (?=heavy complex)", r"\1 a "),
        # partners, so many rounds each
        (r"\b(\d{1,2} (?:rounds?|rds?)) each(?: of|:|,(?= ?\d))", _in_turn),
        # the heaviest of a complex
        (rf"\b(?:in|within|you have)? ?(\d{{1,2}}) ?{_MIN}(?:,|:| -)? (?:to |for )?(?:find|build|establish|hit|work up|reach|work)(?: up)?(?: to)?(?: (?:your|the|a|an|ur))? heaviest (?:complex|single|set|load|weight)?(?: of| for)?:? ?(?=[^+]{{3,40}}\+)", r"\1 min to find a heavy complex of "),
        (rf"\b(?:(?:find|build(?: up)? to|work(?: up)? to|establish|hit) )?(?:(?:your|the|a|ur) )?(?:heaviest|heavy|max) complex,? ?(?:in|within|for|-|:|\()? ?(\d{{1,2}}) ?{_MIN}(?: cap)?\)?(?: (?:of|for))?(?=[ :,.-]*(?:$|\d))", r"\1 min to find a heavy complex of "),
        # the other group's amount in brackets behind the machine: "12 cal row (w: 9)"
        (r"(?<![\d./])(?P<a>\d{1,3}) (?P<u>cals?|calories) (?P<x>[a-z][a-z ]{1,12}?) ?\((?:w|f|women|ladies|girls|females?)[:= ] ?(?P<b>\d{1,3})\)", _two_amounts),
        # heights of a box for two groups, each with its unit
        (r"(?<![\d./])(\d{2,3}) ?cm ?(?:/|or|and|&|\|) ?(\d{2,3}) ?cm\b", r"\1/\2 cm"),
        (r"(?<![\d./])(60|75|70|50) ?(?:&|and|or) ?(50|60|40|45|30) ?cm\b", r"\1/\2 cm"),
        (r"(?<![\d./])(30|24|20) ?(?:in(?:ch(?:es)?)?|\"|'') ?(?:/|or|and|&) ?(24|20|16|12) ?(?:in(?:ch(?:es)?)?\b|\"|'')", r'\1/\2"'),
        # so far each time
        (rf"(?<![\w./])(?P<n>\d{{1,2}}) (?P<x>{_CARRIED}) (?:of|x|à|a|@|at) ?(?P<d>\d{{1,3}}) ?m(?:et(?:er|re)s?)?\b(?! ?(?:each|per))", _as_far),
        # the pull of a lift, by its letters, and of what its percentages are
        (r"^(\W*)cp(?= ?\d{1,2} ?x ?\d)", r"\1clean pull"), (r"^(\W*)sp(?= ?\d{1,2} ?x ?\d.*% (?:of|off) (?:\d ?rm |your |best )*(?:sn\b|snatch))", r"\1snatch pull"),
        (r"^(\W*(?:sn|snatch) pulls?\b.*%),? (?:of (?:the )?)?same(?: (?:max|1 ?rm))?\b", r"\1 of 1rm snatch"),
        (r"^(\W*(?:cl|clean) pulls?\b.*%),? (?:of (?:the )?)?same(?: (?:max|1 ?rm))?\b", r"\1 of 1rm clean"),
        # what is not done today, and what is in its place
        (r"^\W*(?:the )?[a-z][a-z -]{2,24}? (?:no|out|nope|is off|cancelled)[,:;!.-]+ ?(?:today |instead |so |but )*(?:we (?:do|have|take) )(?=.*\d ?x ?\d)", ""),
        (r"^\W*(?:the )?[a-z][a-z -]{2,24}? out,? (?=[a-z][a-z -]{2,24}? in\b.*\d ?x ?\d)", ""),
        (r"^\W*no (?!rest\b|time\b|load\b|weight\b|tempo\b)[a-z][a-z -]{2,24}?(?: today| tonight)?,? (?:but |so )?(?:instead(?: of (?:that|it|them))?,?|we do|we have|we'll do)(?: we(?:'ll)? (?:do|have|take))?(?: instead)? (?=.*\d ?x ?\d)", ""),
        (r"^\W*instead of (?:the |our |your )?[a-z][a-z -]{2,24}?,? (?:today )?(?:we(?:'ll| will)?|let'?s|you(?:'ll)?) (?:do|have|take|go for)(?: the| some)? (?=.*\d ?x ?\d)", ""),
        # how long there is for a test
        (rf"(?<=[a-z\d] )within (?=\d{{1,2}} ?{_MIN}\b)", "in "),
        # each side
        (r"(?<=\d )by (leg|arm|side)\b", r"per \1"),
        (r"(?<![\w.])(\d{1,2}) ?(?:l|left) ?(?:/|\+|,|&|and) ?\1 ?(?:r|right)\b", r"\1 each side"),
        (r"(?<=[x×])(\d{1,2}) ?(?:l|left) ?(?:/|\+|,|&|and) ?\1 ?(?:r|right)\b", r"\1 each side"),
        (r"(?<![\w.+])(\d{1,2}) ?\+ ?\1(?![\w.%+]| ?(?:kg|lb|\+))", _each_side),
        (r"(?<=[x×])(\d{1,2}) ?\+ ?\1(?![\w.%+]| ?(?:kg|lb|\+))", _each_side),
        # in brackets behind a movement: "(home version: 10 ring rows)"
        (r"(?<=[(\[])(?:at[ -])?home[ -](?:version|option|variant|alternative)(?= ?[:=])", "home"),
        # on the way home, which is no work of the session
        (r"\b(?:easy |slow )?(?:walk|jog|run|cycle|bike|ride|row)(?:ing)? home\b", "homewards"),
        # back down from a hill, where the next effort begins
        (r"((?:hill|uphill|\bup\b)[^,.;]{0,20})[,;]? (?:and |then )?(?:easy |slow )?(?:walk|jog|stroll|trot)(?:ing)? (?:back(?: down)?|down)(?: (?:as|for|is|=) (?:your |the )?(?:rest|recovery)| (?:recovery|to recover|rest))?\b", r"\1, back down"),
    )
)  # fmt: skip


def told_otherwise(text: str) -> str:
    """Return a line in small letters with what is told in another order in the words that are read."""
    for pattern, word in _RULES:
        text = pattern.sub(word, text)
    return text
