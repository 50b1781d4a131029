"""Rules of tokens that say how a piece is done: clocks, as many as possible, for time, work and rest, caps, rests.

A clock is made of few parts, in any order: a word for its kind, how long, how many times, and signs between them. Each
part is written once here, and the rules put them together.
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.tokens.durations import DUR, NOT, Rule, seconds
from tracker.prescription.sheet.tokens.durations import in_verbose as _v
from tracker.prescription.sheet.tokens.durations import rule as _rule

_BETWEEN = (
    r"(?:\s*(?:between|b/w|btw|btwn|bet\.?|after|nach|zwischen|entre|before)\s*(?:each|every|all|the|jeder|den|les|cada|jede)?\s*"
    r"(?:sets?|rounds?|rds?|rnds?|efforts?|pairs?|attempts?|tries|intervals?|movements?|exercises?|reps?)?\b)?"
)
_D, _B = _v(DUR), _v(_BETWEEN)
_R = rf"(?:{_D}|[1-9][ ]?m\b)"  # beside the word rest, `m` is minutes
# A length: with its unit, or minutes without one. It may stand in brackets, and signs or small words part it from its kind.
_LONG = rf"(?:{_D}|\d{{1,3}}(?![\d/x%]|[:.,]\d|[ ]?(?:x\b|%|kg|lb|cal|reps?\b|rounds?\b|rds?\b|rnds?\b|sets?\b|m\b(?=[ ]\w)|km|k\b|-\d)))(?:[ ]?(?:minutes?|mins?\b\.?|m\b))?"
_LINK = r"[ ]?(?:[-–:=|/,([@]|>|in\b|for\b|x(?=[ ]?\d)|of\b|de\b|von\b|with\b|during\b|pendant\b|w/|\.(?=[ ]))?[ ]?(?:an?[ ]|the[ ])?"
_CLOSE = r"(?:[ ]?[)\]])?"
_TIMES_BEFORE = (
    r"(?P<x>\d{1,2})[ ]?(?:x|[*]|(?P<xr>rounds?|rds?|rnds?|sets?|times|intervals?)(?:[ ]of)?)[ ]?[:(,-]?[ ]?"
)
_TIMES_WORDS = r"(?:x[ ](?:through|thru|round|around)|x|times(?:[ ](?:through|thru|round|around))?|rounds?|rds?|rnds?|sets?|intervals?)\b(?:[ ]total)?"
_AMRAP = r"(?:amraps?|a\.m\.r\.a\.p\.?s?|amreps?(?=[ ]\d)|amqrap|amrap's)(?![a-z])"
# What is asked for as often as there is time: "as many rounds + reps as possible", "max rounds", "how many rounds"
_MANY = (
    r"(?:as[ ]many[ ](?:good[ ])?(?:rounds?|reps?)(?:[ ]?(?:and|&|/|[+]|[(])[ ]?reps?\)?)?(?:[ ]as[ ](?:possible|(?:you|u|we)[ ]can(?:[ ](?:do|get|manage))?))?"
    r"|max(?:imum|\.)?[ ](?:number[ ]of[ ])?(?:rounds?|reps?(?=[ ]*(?:$|[:,.;(]|-[ ]|of\b|in\b|for\b|within\b)))(?:[ ]?(?:and|&|/|[+])[ ]?reps?)?|(?:count(?:ing)?|how[ ]many)[ ](?:(?:your|the|ur|all)[ ])?(?:rounds?|reps?)(?:[ ]can[ ]you[ ](?:do|get|make))?)\b"
)
_ON = r"(?:on|work(?:[ ]time)?|hard|go|max[ ]effort|an|arbeit|fast|sprint|effort)"
_OFF = r"(?:off|rests?|easy|aus|slow|recovery|recover|pause|jog|walk|(?:to[ ])?(?:change|switch|rotate|transition|move(?![ ]\w+s\b))(?:[ ](?:over|stations?))?|nothing|nix|nada|rien)"
_AND = r"[ ]?(?:[,/|;:+&-]|and|then)?[ ]?"
_S = r"(?:s|sec|secs|seconds|''|\")"


def _rest(found: re.Match[str]) -> Any:
    text = found["t"] or found["t2"] or ""
    if any(unit in text for unit in (":", "'", '"')) or re.search("[a-z]", text):
        later = found["u"] if "u" in found.re.groupindex and found["u"] else ""
        return seconds(text + later)
    number = float(re.match(r"[\d.]+", text)[0])  # type: ignore[index]
    unit = found["u"] or ""
    if unit:
        return seconds(f"{text} {unit}")
    return int(number * 60) if number <= 5 else int(number)


def _long(found: re.Match[str]) -> int:
    return seconds(found["t"].strip(" .)"))


_USUAL = frozenset({(20, 10), (30, 30), (40, 20), (45, 15), (30, 15), (50, 10), (60, 60), (15, 45), (30, 90), (10, 50), (20, 40), (60, 30), (90, 90), (30, 60), (15, 15), (90, 30), (60, 120), (40, 80), (45, 45), (20, 20), (45, 75), (15, 30)})  # fmt: skip


def _usual(found: re.Match[str]) -> Any:
    """Return work and rest of a bare pair of seconds, where it is usual: 24"/20" is a box."""
    value = _onoff(found)
    return value if value[:2] in _USUAL else NOT


def _behind_engine(found: re.Match[str]) -> Any:
    """Return work and rest in seconds behind a machine or a run: "bike 6 x 20/100"; elsewhere the pair may be loads."""
    before = found.string[: found.start()]
    if not re.search(r"\b(?:bike|rower|row|ski|erg|run|sprints?|assault|echo)\b[ :,-]*$", before):
        return NOT
    if re.search(r"\brow[ :,-]*$", before) and (
        int(found["a"]) >= int(found["b"]) or re.search(r"\w[ -]+row[ :,-]*$", before)
    ):
        return NOT  # "DB row 3 x 10/10" is ten a side
    return int(found["a"]), int(found["b"]), int(found["x"]), False


def _onoff(found: re.Match[str]) -> tuple[int, int, int, bool]:
    """Work, rest, how often (0: not said), and whether that is of rounds: then each round may have stations."""
    groups = found.groupdict()
    times = next((int(groups[key]) for key in ("x", "y") if groups.get(key)), 0)
    of_rounds = any((groups.get(key) or "").startswith(("r", "set", "times ", "x ")) for key in ("xr", "yr"))
    work, rest = found["a"], found["b"]
    bare = [seconds(each, bare=1) if int(re.match(r":?(\d+)", each)[1]) >= 10 or ":" in each or not each.strip().isdigit() else seconds(each) for each in (work, rest)]  # type: ignore[index]  # fmt: skip
    return bare[0], bare[1], times, of_rounds


_HOW_OFTEN = (
    rf"(?:[ ]?[,;(x×*-]?[ ]?(?:for[ ]|repeat[ ])?(?P<y>\d{{1,2}})(?:[ ]?(?P<yr>{_TIMES_WORDS})|(?=[ ]?(?:[:)]|$)))\)?)?"
)
CLOCK_RULES: tuple[Rule, ...] = (
    # work and rest
    _rule("tabata", r"tabatas?\b(?:[ ]?[-:(,]?[ ]?(?:8[ ]?(?:x|rounds?(?:[ ]of)?)?[ ]?[:,(-]*[ ]?)?(?::?20[ ]?(?:s|sec|''|\")?[ ]?(?:on|work)?[ ]?[,/:-]?[ ]?:?10[ ]?(?:s|sec|''|\")?[ ]?(?:off|rest)?\b)?(?:[ ]?x[ ]?8|[ ]?[,(-]?[ ]?8[ ]rounds)?\)?)"),
    _rule("onoff", rf"(?:{_TIMES_BEFORE}\(?[ ]?)?(?P<a>{_D}|\d+(?=[ ]{_ON}\b))[ ]?(?:of[ ])?{_ON}\b{_AND}(?P<b>{_D}|\d+(?=[ ]{_OFF}\b))[ ]?(?:of[ ])?{_OFF}\b{_CLOSE}{_HOW_OFTEN}", _onoff),
    _rule("onoff", r"(?P<x>\d{1,2})[ ]?x[ ]?(?P<a>10|15|20|30|40|45|60)[ ]?/[ ]?(?P<b>\d{2,3})(?![\d/]|\.\d|[ ]?(?:kg|lb|cal|m\b|x))", _behind_engine),
    # so long at each station, with a rest between them or none
    _rule("onoff", rf"(?:(?P<x>\d{{1,2}})[ ]?(?:rounds?|rds?|rnds?|laps?|times[ ]through)[ ]?(?:[,:;x(-]|of)?[ ]?)?(?P<a>{_D})[ ](?:work[ ])?(?:at|on|in|per|for)?[ ]?(?:each|every|per|a|the)?[ ]?(?:station|exercise|movement)s?\b\)?(?:[ ]?[,;(/-]*[ ]?(?:(?:no|without|zero)[ ]rest(?:[ ](?:in[ ])?between(?:[ ](?:stations|them|exercises))?)?|(?P<b>{_D})[ ](?:to[ ])?(?:rest|change|switch|move|rotate|off|transition)(?:[ ](?:over|on|between|stations?))*)\)?)?", lambda found: (seconds(found["a"], bare=1), seconds(found["b"], bare=1) if found["b"] else 0, int(found["x"] or 0), True)),
    _rule("onoff", rf"work[ ](?:for[ ])?(?P<a>{_D}|\d{{2}}(?![\d:%])){_AND}rest[ ](?:for[ ])?(?P<b>{_D}|\d{{2}}(?![\d:%])){_HOW_OFTEN}", _onoff),
    _rule("onoff", rf"^[ ]*(?:\d\)[ ]?)?{_TIMES_BEFORE}(?P<a>{_D})(?=[ ,/(;-])[ ]?(?:[,/(;-]|w/|with)?[ ]?(?:(?:rest|off)[ ](?P<b>{_D})|(?P<b2>{_D})[ ](?:rest|off)\b)", lambda found: (seconds(found["a"], bare=1), seconds(found["b"] or found["b2"], bare=1), int(found["x"]), bool(found["xr"]))),
    # work and rest that fill a minute or two, never the larger first: that would be a pair of loads
    _rule("onoff", r"(?P<x>\d{1,2})[ ]?[x*][ ]?(?P<a>10|15|20|30|45|60)[ ]?[/-][ ]?(?P<b>(?<=10/)50|(?<=15/)45|(?<=20/)(?:40|70)|(?<=30/)(?:30|60|90)|(?<=45/)(?:45|75)|(?<=60/)60)(?=[ ]*(?:$|[:,)]))", _onoff),
    _rule("onoff", r"(?P<x>\d{1,2})[ ]?(?P<xr>rounds?|rds|sets)[ ]?:?[ ]?(?P<a>10|15|20|30|40|45|50|60)[ ]?[/-][ ]?(?P<b>(?<=10/)50|(?<=15/)45|(?<=20/)(?:10|40|70)|(?<=30/)(?:15|30|60|90)|(?<=40/)20|(?<=45/)(?:15|45|75)|(?<=50/)10|(?<=60/)60)(?=[ ]*(?:$|[:,)]))", _onoff),
    _rule("onoff", r"(?P<a>20|30|40|45|50)[ ]?[/:-][ ]?(?P<b>(?<=20[/:-])10|(?<=30[/:-])(?:15|30)|(?<=40[/:-])20|(?<=45[/:-])15|(?<=50[/:-])10)[ ]?(?:x[ ]?|,[ ]?|\([ ]?)(?P<y>\d{1,2})(?:[ ]?(?P<yr>rounds?|sets?|times))?\)?(?=[ ]*(?:$|[:,)]|max\b))", _onoff),
    _rule("onoff", rf"(?:{_TIMES_BEFORE})?:?(?P<a>\d{{1,3}})[ ]?{_S}[ ]?{_AND}:?(?P<b>\d{{1,3}})[ ]?{_S}(?![a-z])(?=[ ]*(?:$|[:,)x(]|[a-z])){_HOW_OFTEN}", _usual),
    _rule("onoff", rf"(?:{_TIMES_BEFORE})?(?P<a>\d{{2}})[ ]?/[ ]?(?P<b>\d{{2}})[ ]?(?:s|sec|seconds)\b{_HOW_OFTEN}", _onoff),
    _rule("onoff", rf"(?:{_TIMES_BEFORE})?(?P<a>:\d{{2}})[ ]?(?:on)?[ ]?/?[ ]?(?P<b>:\d{{2}})[ ]?(?:off)?(?!\d|:\d){_HOW_OFTEN}", _onoff),
    _rule("mass2", r"(?:@|at)?[ ]?2[ ]?x[ ]?(?P<a>\d{1,2}(?:\.\d+)?)[ ]?/[ ]?(?P<b>\d{1,2}(?:\.\d+)?)[ ]?(?P<u>kg|lb|[#])(?![\w])", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], "kg" if found["u"] == "kg" else "lb", 2)),
    _rule("mass2", r"(?:@|at)?[ ]?2[ ]?x[ ]?(?P<a>\d{1,2}\.\d+)[ ]?/[ ]?(?P<b>\d{1,2}(?:\.\d+)?)(?![\d.x]|[ ]?x)", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], "", 2)),
    _rule("mass2", r"(?:@|at)?[ ]?2[ ]?x[ ]?(?P<a>\d{1,2})[ ]?/[ ]?(?P<b>\d{1,2}\.\d+)(?![\d.x]|[ ]?x)", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], "", 2)),
    _rule("mass2", r"(?:@|at)?[ ]?(?P<a>\d{1,3})[ ]?'?s[ ]?(?:or|/)[ ]?(?P<b>\d{1,3})[ ]?'?s\b", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], "", 1)),
    _rule("mass2", r"(?:@|at)[ ]?2[ ]?x[ ]?(?P<a>[1-9]\d)[ ]?/[ ]?(?P<b>[1-9]\d)(?![\w.x%/]|[ ]?(?:x|%|kg|lb))", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], "", 2) if 0.5 <= int(found["b"]) / int(found["a"]) < 1 else NOT),
    # a pyramid of distances
    *(
        _rule("list", rf"(?P<l>\d{{3,4}}m?(?:[ ]?{sign}[ ]?\d{{3,4}}m?){{2,}})(?!\d|[ ]?(?:%|kg|lb))", lambda found: ([int(each) for each in re.findall(r"\d+", found["l"])], None, False))
        for sign in "-/,"
    ),
    _rule("mass2", r"(?:@|at)?[ ]?2[ ]?x[ ]?(?P<a>\d{1,3}(?:\.\d+)?)[ ]?(?P<u1>kg|lb|[#])?[ ]?/[ ]?2[ ]?x[ ]?(?P<b>\d{1,3}(?:\.\d+)?)[ ]?(?P<u>kg\b|lb\b|[#])?(?![\w.])", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], {"": "", "k": "kg"}.get((found["u"] or found["u1"] or "")[:1], "lb"), 2)),
    _rule("setsxm", r"(?P<s>\d{1,2})[ ](?:sets?|times|intervals|repeats|reps)[ ](?:of|x)?[ ]?(?P<n>\d{3,5}|\d(?:\.\d)?(?=[ ]?k))[ ]?(?P<u>km|k|m)\b", lambda found: (int(found["s"]), int(Decimal(found["n"]) * (1000 if found["u"][0] == "k" else 1)), "m")),
    _rule("calpair", r"(?P<a>\d{1,2})[ ](?P<b>\d{1,2})[ ]?cal(?:orie)?s?\b", lambda found: (int(found["a"]), int(found["b"]), "cal") if 0.6 <= int(found["b"]) / max(int(found["a"]), 1) < 1 else NOT),
    _rule("mass", r"(?:@|at|with)?[ ]?(?P<a>\d{1,3}(?:\.\d+)?)[ ]?(?:kg|lb)?[ ](?:and|or)[ ](?P<b>\d{1,3}(?:\.\d+)?)[ ]?(?P<u>kg|lb)\b", lambda found: ([Decimal(found["a"]), Decimal(found["b"])], found["u"], 1, "/") if 0.4 <= Decimal(found["b"]) / max(Decimal(found["a"]), 1) < 1 else NOT),
    # every minute, every few minutes
    _rule("emom", r"(?:e(?P<k>\d(?:[.]5)?|)mom\b|e[ ]m[ ]o[ ]m\b|emom(?=\d))(?:[ ]?(?:[-–:(|/=]|,(?=[ ]?\d+[ ]?min))?[ ]?(?:for[ ]|x[ ]?|of[ ]|de[ ]|with[ ])?(?P<t>\d+(?![\d:.]*[ ]?(?:%|reps?\b|x[ ]?\d+[ ]?(?:@|kg)|\)))(?![\d.]*[ ]?(?:m\b|cal|kg|lb)|/\d)(?::\d\d)?)(?P<u>[ ]?(?:minutes?|mins?\b|min\b|')?)(?:[ ]?(?:rounds?|rds|rnds|sets?|times)\b)?\)?|[ ]?\((?P<t2>\d+)(?P<u2>[ ]?(?:minutes?|mins?|min|')?)(?:[ ]?(?:rounds?|sets?|times))?\))?",
          lambda found: found),
    _rule("emom", r"e(?P<e>\d+(?:[.:]\d+)?)[ ]?(?P<eu>s|sec|min|m)\b(?:o(?:t)?m)?(?:[ ]?(?:for|x)[ ]?(?P<t>\d+(?::\d\d)?)(?P<u>[ ]?(?:minutes?|mins?|min|')?)(?:[ ]?(?:rounds?|sets?)\b)?)?",
          lambda found: found),
    _rule("emom", r"(?P<t>\d+)[ ]?-?(?P<u>minutes?|mins?\.?|min|'|:00)?[ ]?-?e(?P<k>\d|)mom\b", lambda found: found),
    _rule("emom", r"(?P<t>\d+)(?P<u>[ ]?x)[ ]e(?P<k>\d|)mom\b", lambda found: found),
    _rule("emom", r"(?:otm|on[ ]the[ ](?:minute|min))[ ]?(?:for|x)?[ ]?(?P<t>\d{1,2})(?P<u>[ ]?(?:minutes?|mins?\b|min\b|')?)(?=[ ]*(?:$|[:,;()]|-[ ]))(?![ ]?[x@%./\d]|[ ]?(?:kg|lb|m\b|cal|reps))(?P<k>)", lambda found: found),
    _rule("every", rf"(?:(?P<bx>\d{{1,2}})[ ]?(?:x|rounds?|rds?|sets?|times)[ ]?[,:(-]?[ ]?(?:of[ ])?|(?P<bt>{_D})[ ]?[,:(-][ ]?)?(?<![a-z])(?<!switch[ ])(?<!swap[ ])(?<!change[ ])(?<!rotate[ ])(?<!keep[ ])(?<!hold[ ])(?<!finish[ ])every[ ](?:(?P<m>minute|min\b)(?:[ ]on[ ]the[ ](?:minute|min)\b)?|(?P<d>{_D})|(?P<n>\d+)(?![ ]?(?:round|set|rep|%))|(?P<other>other[ ]minute))"
          rf"(?:[ ]?[,(:-]?[ ]?(?:(?:for|x|[*]|pendant|während)[ ]?(?P<t>{_D})|(?P<t3>{_D})(?=[ ]*(?:$|[:,;.)]|total|-[ ]))|(?:(?:for|x|[*]|pendant|während)[ ]?)?[ ]?x?[ ]?(?P<x>\d+)(?!\d)(?:[ ]?(?:times\b|rounds?\b|sets?\b|x\b(?=[ ]*(?:$|[:,)]))))?(?![ ]?[./@%x\d]|-)(?!:\d)(?![ ]?(?:m|cal(?:s|orie\w*)?\b|k|kg|lb|reps)\b)(?:(?<=times)|(?<=s)|(?<=x)|(?=[ ]?(?:[:,(;.)-]|$))|(?=[ ]{{2,}}\S)))\)?(?:[ ]total)?)?",
          lambda found: found),
    _rule("every", rf"(?:(?P<bx>\d{{1,2}})[ ]?(?:x|rounds?|rds?|sets?|times)[ ]?[,:(-]?[ ]?)?(?:(?:each|every)(?:[ ](?:one|round|set|of[ ]them))?[ ])?(?:is[ ])?on[ ]an?[ ](?P<d>{_D})[ ]clock\b(?P<m>)?(?P<n>)?(?P<other>)?(?P<t>)?(?P<t3>)?(?P<x>)?(?P<bt>)?", lambda found: found),
    _rule("cap", rf"(?P<t>{_D})[ ](?:is|ist|es|c'est)[ ](?:the[ ]|das[ ]|le[ ]|el[ ])?(?:time[ ]?)?(?:cap|limit)\b", lambda found: seconds(found["t"])),
    _rule("cap", rf"(?:up[ ]to|within)[ ](?P<t>{_D})(?=[ ]*:[ ]*$)", lambda found: seconds(found["t"])),
    _rule("cap", rf"(?P<t>{_D})[ ]clock\b(?![ ]?[,:;(-]?[ ]?(?:as[ ]many|max|amrap))(?=[ ]*(?:$|[.,;:)!-]))", lambda found: seconds(found["t"])),
    _rule("odd", r"(?:sets?|rounds?|rds?|mins?|minutes?|intervals?)[ ]1[ ]?[,&+/][ ]?3(?:[ ]?(?:,|and|&|[+/])[ ]?\d{1,2})*[ ]?:?"),
    _rule("even", r"(?:sets?|rounds?|rds?|mins?|minutes?|intervals?)[ ]2[ ]?[,&+/][ ]?4(?:[ ]?(?:,|and|&|[+/])[ ]?\d{1,2})*[ ]?:?"),
    _rule("onminute", r"on[ ]the[ ](?:minute|min)\b|otm\b"),
    # as many as possible
    _rule("amrapx", rf"(?P<x>(?<![\d.])(?:[1-9]|1[0-5]))[ ]?(?:x|rounds[ ]of|sets[ ]of|times)[ ]?(?:an?[ ])?(?P<t>{_D}|\d+)[ ]?-?[ ]?(?:min(?:utes?)?[ ]?)?{_AMRAP}", lambda found: (int(found["x"]), seconds(found["t"]))),
    _rule("amrapx", rf"{_AMRAP}[ ]?:?[ ]?(?P<x>\d{{1,2}})[ ]?x[ ]?(?P<t>{_D})", lambda found: (int(found["x"]), seconds(found["t"]))),
    _rule("max", rf"{_AMRAP}(?=[ ]?@[ ]?[4-9]\d(?:\.5)?(?![\d:]|[ ]?(?:min|'|m\b)))", lambda found: None),
    _rule("amrap", rf"(?P<t>{_D}|\d+)[ ]?m?-?[ ]?(?:time[ ]cap[ ])?(?:of[ ])?{_AMRAP}(?:[ ]of\b)?|{_AMRAP}{_LINK}(?P<t2>{_LONG}){_CLOSE}(?:[ ](?:of\b|total\b))?",
          lambda found: seconds((found["t"] or found["t2"]).strip(" .)"))),
    _rule("amrap", rf"{_MANY}[ ](?:in|for|within)[ ](?P<t>{_LONG})(?:[ ]of\b)?", _long),
    _rule("amrap", rf"(?:in|for)?[ ]?(?P<t>{_D}|\d+[ ]min)[ ]?(?:clock)?[ ]?(?:[,:;(-]|of|and|to[ ]do)?[ ]?(?:do[ ])?:?[ ]?{_MANY}(?:[ ]of\b)?\)?", _long),
    _rule("amrap", rf"(?P<t>{_D})[ ]?[,:-]?[ ]?(?:(?:ascending|rising|climbing|growing|up)[ ])?ladder\b(?!.*for[ ]time)", _long),
    _rule("amrap", rf"(?P<t>{_D})[ ](?:of|de)\b(?=[^.]*\bscore[ ]?(?:=|:|is)?[ ]?(?:your[ ]|the[ ])?(?:total|reps?|rounds?|max|number)\b)", _long),
    _rule("amrap", rf"^[ ]*(?P<t>{_D})[ ]?[:,.](?=.*\b(?:keep[ ](?:going|moving)|start[ ](?:over|again)|again[ ]and[ ]again|count(?:ing)?[ ](?:your[ ]|the[ ])?rounds|as[ ]many[ ]as[ ]possible)\b)", _long),
    _rule("amrap", rf"{_AMRAP}(?!s\b)", lambda found: None),
    _rule("far", rf"as[ ]far[ ]as[ ]possible[ ](?:in|for)[ ](?P<t>{_D})", lambda found: seconds(found["t"])),
    _rule("mostcal", rf"as[ ]many[ ]cal(?:orie)?s?[ ]as[ ]possible[ ](?:in|for)[ ](?P<t>{_D})", lambda found: seconds(found["t"])),
    _rule("mostload", rf"(?P<t>{_D})[ ](?:to|for)[ ](?:find|build(?:[ ]up)?|establish|hit|work[ ]up)[ ](?:to[ ])?(?:a|an|your|the)[ ](?:heavy|heaviest|max(?:imum)?)[ ](?:complex|of|single[ ]complex)\b(?:[ ]of\b)?", lambda found: seconds(found["t"])),
    _rule("mostload", rf"(?:the[ ])?heaviest[ ](?:load[ ])?(?:in|within)[ ](?P<t>{_D})", lambda found: seconds(found["t"])),
    # for time, and not
    _rule("unscored", r"(?:not|no)[ ](?:for[ ]time|scored?|timed|timing)\b|nft\b|(?:for[ ])quality(?:[ ]not[ ]time)?\b|for[ ](?:fun|form|practice)\b|without[ ](?:a[ ])?(?:clock|time)|untimed\b|no[ ]clock\b"),
    _rule("rft", r"(?P<n>\d+)?[ ]?(?:rft|rounds?[ ]for[ ]time|rnds?[ ]for[ ]time|rds?[ ]for[ ]time|(?:rounds?|rds?)[ ]ft|-?rounds?[ ]for[ ]time|x[ ]for[ ]time)\b(?:[ ]of\b)?(?:[ ]?x[ ]?(?P<m>\d{1,2})\b)?", lambda found: int(found["n"] or found["m"]) if found["n"] or found["m"] else None),
    _rule("fortime", r"\btime[ -]?trial\b|tt\b(?=[ ]*(?:$|[.,;:)(!-]))|(?:all[ ](?:of[ ]it[ ])?)?(?:its[ ])?(?:all[ ])?(?:for|4)[ ]time\b(?:[ ]of\b)?(?:[ ]x(?=[ ]?\d))?|f/t\b|(?<![a-z])ft\b(?=[ ]*(?:$|[.,;:)(!|/[-]))|^\s*ft\b(?![ ]?\d*[ ]?(?:high|box))|\bafap\b|as[ ]fast[ ]as[ ](?:possible|you[ ]can)|against[ ](?:the|a)[ ](?:clock|watch)|(?<!not[ ])(?<!be[ ])\btimed(?=[ ]*(?:$|[.,;:!)-]))|\b(?:the[ ])?(?:clock|watch)[ ](?:is[ ])?running\b|score[ ]?(?:=|:|is)[ ]?(?:your[ ]|the[ ]|total[ ])?time\b|(?:write|note|log|tell[ ]me|post)[ ](?:your[ ]|ur[ ]|the[ ])?time\b"),
    _rule("cap", rf"(?:with[ ])?(?:an?[ ])?(?:(?:hard[ ])?time[ ]?-?cap|cap(?:ped)?|tc|t\.c\.?|time[ ]limit|limit|cut[ -]?off|c(?=[1-6]\d\b)|zeitlimit|zeitcap|tope|límite|limite)(?![a-z])[ ]?(?:on[ ]\d[ ]?)?(?:[:=@(]|of|at|is|in|de|-)?[ ]?(?:after[ ])?(?P<t>{_D}|\d+(?![\d.]*[ ]?(?:rounds|reps|kg|lb)))(?:[ ]?(?:minutes?|mins?|m)\b)?",
          lambda found: seconds(found["t"])),
    _rule("cap", rf"(?:an?[ ])?(?P<t>{_D}|\d+)[ ]?-?[ ]?(?:min[ ]?-?)?(?:hard[ ])?(?:time[ ]?-?)?(?:cap\b|tc\b|limit\b|time[ ]limit\b|cut[ -]?off\b)", lambda found: seconds(found["t"])),
    _rule("cap", rf"(?:you|u|ihr)[ ](?:have|habt|get|got)[ ](?P<t>{_D})(?![ ]rest)", lambda found: seconds(found["t"])),
    _rule("cap", rf"(?:max\.?|maximal|not[ ]more[ ]than|(?:everybody|everyone|we)?[ ]?stops?(?:[ ](?:everybody|everyone))?[ ]at|stop[ ](?:after|at)|under)[ ](?P<t>{_D})(?=[ ]*(?:$|[.,;:)!\]|/-]|or\b|of\b|in[ ]total))", lambda found: seconds(found["t"])),
    _rule("cap", rf"(?:done|finish(?:ed)?|through|ready)[ ](?:within|in|inside|under|by)[ ](?P<t>{_D})", lambda found: seconds(found["t"])),
    _rule("clock", r"(?P<a>\d{1,2}:\d{2})[ ]?(?:-|to)[ ]?(?P<b>\d{1,2}:\d{2})(?![\d:])", lambda found: (seconds(found["a"]), seconds(found["b"]))),
    # rest
    _rule("rest", rf"(?:take[ ]|with[ ]|have[ ]|rest[ ])?(?P<t>{_R})[ ](?:of[ ])?(?:rest[ ]|off[ ]|break[ ])?in[ ](?:between|betw)\b(?:[ ](?:sets|each|the[ ]sets))?(?P<u>)(?P<t2>)", _rest),
    _rule("rest", rf"(?:take|have|with)[ ](?P<t>{_R})[ ](?:of[ ])?(?:rest|off|break|between)\b(?P<u>)(?P<t2>){_B}", _rest),
    _rule("rest", rf"(?<!active[ ])(?:@[ ]?|on[ ]|with[ ]|w/[ ]?)?(?:rest(?:s|ing)?|recover(?:y|ies)?|r)[ ]?(?:a[ ]good[ ])?[:=]?[ ]?(?:of|for|about|exactly|around|is|as|ca\.?|~|approx\.?|only|at[ ]least)?[ ]?~?(?P<t>{_R}|(?:(?<=rest[ ])|(?<=rest:[ ])|(?<=rest:))\d+(?:\.\d+)?)(?:[ ]?(?:-|to|or|/)[ ]?(?:{_D}|\d+(?:\.\d+)?)[ ]?(?P<u>min(?:utes?|s)?\b|sec(?:onds?|s)?\b|s\b|'|\")?)?(?P<t2>){_B}", _rest),
    _rule("rest", rf"(?P<t>\d+(?:\.\d+)?)[ ]?(?:-|to|or)[ ]?\d+(?:\.\d+)?[ ]?(?P<u>min(?:utes?|s)?\b\.?|sec(?:onds?|s)?\b|s\b|'|\")[ ]?(?:of[ ])?(?:rest|recovery|break|between|off)\b(?P<t2>){_B}", _rest),
    _rule("rest", rf"(?:@[ ]?|on[ ]|with[ ]|w/[ ]?)?(?P<t>{_R})[ ]?(?:min(?:utes?)?\b)?[ ]?(?:of[ ]|de[ ]|d[e']?[ ]?)?(?:rests?|recovery|break|off)\b(?P<u>)(?P<t2>){_B}", _rest),
    _rule("rest", rf"(?P<t>{_R})[ ]?(?:between|b/w|btwn|after[ ](?:each|every))(?:[ ](?:the[ ]|each[ ]|every[ ]|all[ ]|your[ ])?(?:sets?|rounds?|rds?|efforts?|pairs?|tries|intervals?|attempts?)?|(?=[ ]*(?:$|[.,;)\]])))(?P<u>)(?P<t2>)", _rest),
)  # fmt: skip
