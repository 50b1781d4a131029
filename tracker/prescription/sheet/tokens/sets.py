"""Rules of tokens that say how many: tests and heavy sets, sets and repetitions in every order, labels of sets."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.tokens.durations import DUR, NOT, Rule, seconds
from tracker.prescription.sheet.tokens.durations import in_verbose as _v
from tracker.prescription.sheet.tokens.durations import rule as _rule

_D = _v(DUR)
NUMBERED = {"single": 1, "double": 2, "triple": 3}


def ints(text: str) -> list[int]:
    return [int(each[:7]) for each in re.findall(r"\d+", text)]


def distance(number: str, unit: str) -> tuple[Any, str]:
    value = Decimal(number.replace(",", "."))
    if unit.startswith(("km", "kilo")) or unit == "k":
        return int(value * 1000), "m"
    if unit.startswith("cal"):
        return int(value), "cal"
    if unit.startswith(("mi", "mile")):
        return round(float(value) * 1609), "m"
    if unit.startswith(("ft", "feet", "foot")):
        return int(value), "ft"
    if unit.startswith("y"):
        return int(value), "yd"
    return int(value), "m"


_HEAVY_N = r"(?:(?P<w>single|double|triple)s?|(?:sets?[ ]of[ ]|set[ ]of[ ])?(?P<n>\d{1,2})(?:[ ]?-?[ ]?(?P<rm>rm|rep[ -]?max|reps?[ ]max)\b)?(?:[ ]?-?reps?\b)?)"


_OF_THE_DAY = re.compile(r"\b(?:(?:of|for) (?:the |this )?(?:day|today)|today|del d[ií]a|du jour|des tages)\b")
_DAY = r"(?:[ ](?:(?:of|for)[ ](?:the[ ]|this[ ])?(?:day|today)|today|del[ ]d[ií]a|du[ ]jour|des[ ]tages))"


def _find(found: re.Match[str]) -> tuple[int, bool] | None:
    """Return repetitions, and whether it is a day's heavy set (True) or a test of a max (False); None where it is neither."""
    groups = found.groupdict()
    word = groups.get("w")
    if re.search(r"\bmax\b", found[0]) and not groups.get("rm") and not word and not groups.get("max"):
        return None
    if word and re.match(r"s?[ -]?(?:unders?|arm|leg|dumbbell|db|kettlebell|kb|du)\b", found.string[found.end() :]):
        return None
    number = NUMBERED[word] if word else int(groups.get("n") or 1)
    test = bool(groups.get("rm")) or bool(groups.get("max"))
    if test and _OF_THE_DAY.search(found[0]):
        test = False  # what there is today, not a max to be kept
    return number, not test


_TEST = r"(?:find(?:[ ]out)?|test(?:ing)?|establish|set|hit|max[ ]out|go[ ]for|new|determine|check)"
_BUILD = rf"(?:(?:build(?:ing)?|work(?:ing)?|climb(?:ing)?|ramp(?:ing)?|go|come|get|move|warm)(?:[ ]it)?[ ](?:up[ ])?(?:(?:in|over|within)[ ](?:about[ ]|around[ ])?{_D}[ ])?(?:to|towards)|up[ ]to|then|hit|find|take|do|make|establish)"
_ADJ = r"(?:a|an|the|your|his|her|today'?s|new|current|daily|one|good|real|true|tough|solid|nice|clean|pretty|technical|challenging|moderate|moderately)"

_ADJECTIVES = r"(?:more|working|work|heavy|straight|good|light|back[ -]?off|easy|hard|top|down|drop)"
_OF = r"(?:of|x|[*]|:|-|,|/|with|à|de|á|a)?"
_SETS_ONLY = rf"(?P<s>\d{{1,2}})[ ]?(?:{_ADJECTIVES}[ ])?sets?[ ]?{_OF}[ ]?"
_SETS = rf"(?P<s>\d{{1,2}})[ ]?(?:(?:{_ADJECTIVES}[ ])?sets?[ ]?{_OF}|[x*])[ ]?"
_SETS_OF = rf"(?P<s>\d{{1,2}})[ ]?(?:(?:{_ADJECTIVES}[ ])?sets?[ ]?(?:{_OF}|at|@)|[x*]|of)[ ]?"
_SETS_WORD = rf"(?P<s>\d{{1,2}})[ ]?(?:(?:{_ADJECTIVES}[ ])?(?:sets?|rounds?|rds?)[ ]?(?:{_OF}|at|@)|[x*])[ ]?"
_SETS_X = r"(?P<s>1?\d|20)[ ]?[x*][ ]?"
# Behind a number of repetitions stands no unit, no decimals and no clock
_NO_AMOUNT = r"(?!\d|x\d\d|\.\d|,\d(?![\dx%]|[ ]?[x%])|:\d\d(?![\d.,]*[ ]?(?:%|kg|lb))|[ ]?(?:%|kg\b|lb\b|km\b|k\b|cm\b|m\b|cal(?:s|orie\w*)?\b|sec|s\b|min\b|mins\b|minutes?\b|'|\"|ft\b|miles?\b|rounds))"
_NO_EFFORT = r"(?![ ]?(?:(?:rpe|rir)\b(?![ ]?[:=~@]?[ ]?\d)|/[ ]?10\b|out[ ]of|in[ ](?:the|reserve)|reps?[ ](?:in[ ]reserve|in[ ]the|left)))"
_LABELS = r"\d{1,2}(?:[ ]?(?:-|to|&|and|\+|,|/|,[ ]?and)[ ]?\d{1,2}(?!\d))*(?!\d|[ ]?(?:x\b|reps|sets))"


def _ranged(found: re.Match[str]) -> Any:
    """A range of repetitions rises; "4 x 8 - 2 RIR" and "3 x 5 - 3" are none."""
    low, high = int(found["r"]), int(found["h"])
    if low >= 30 and "@" in found[0]:
        return NOT  # "5 sets @ 60-65": a load
    load = high >= 20 and re.match(r" ?/ ?\d", found.string[found.end() :]) is not None  # "3 sets of 3 - 70/50 kg"
    return (
        (int(found["s"]), [low, high], "range")
        if low < high and not load and (high <= 3 * low + 10 or "to" in found[0])
        else NOT
    )


def _plain(found: re.Match[str]) -> Any:
    """Sets of a number; "3 sets 70-75 %" has its load there, not its repetitions, "4 sets: 8 @ 60, 6 @ 70" each set its own."""
    behind = found.string[found.end() :]
    if ":" in found[0] and re.match(r" ?(?:reps? ?)?(?:@|at)", behind) and len(re.findall(r"(?:@|at) ?\d", behind)) > 1:
        return NOT
    if int(found["r"]) >= 30 and "@" in found[0]:
        return NOT  # "5 sets @ 60": a load
    if int(found["r"]) >= 30 and re.match(r" ?(?:-|to|/|,) ?\d+[\d.]* ?(?:%|kg|lb|[-/,])", found.string[found.end() :]):
        return NOT
    return int(found["s"]), [int(found["r"])], "plus" if found["p"] else "plain"


def _labels(found: re.Match[str]) -> Any:
    """The first and the last of the sets that a label names; no label where they are not in a row."""
    words = found["l"] or found["m"] or found["n"]
    numbers = [int(each) for each in re.findall(r"\d+", words)]
    if "-" in words or "to" in words:
        return (numbers[0], numbers[-1]) if numbers[0] <= numbers[-1] <= 30 else NOT
    return (numbers[0], numbers[-1]) if numbers == list(range(numbers[0], numbers[-1] + 1)) else NOT


def _unit_last(found: re.Match[str]) -> Any:
    """A load before its repetitions, the unit behind both: `225x3, 275x3 lb`; "50 x 20 kg" has its load behind."""
    load, reps = Decimal(found["l"]), int(found["r"])
    led = re.search(r"\d{2,3} ?[x*] ?\d{1,2}\b(?! ?(?:kg|lb))", found.string[: found.start()]) is not None
    return (load, found["u"], [reps], False, 1) if 1 <= reps <= 12 and (led or load >= 60) else NOT


SET_RULES: tuple[Rule, ...] = (
    # a test or a heavy set
    _rule("find", rf"(?:{_BUILD}[ ])?(?:{_ADJ}[ ]){{0,3}}(?:heavy|hvy|heaviest|max|top)[ ](?:{_ADJ}[ ]){{0,2}}{_HEAVY_N}(?![ ]?(?:x|kg|lb|%|cal(?:s|orie\w*)?\b|m\b|min|sec|'|:\d|\.\d|[-/]\d|counts\b|is[ ](?:your|the)[ ]score|=[ ]?score|scores\b))(?:[ ]of[ ](?:the[ ])?day|[ ]today|[ ]for[ ](?:the[ ]day|today))?", _find),
    _rule("find", rf"{_BUILD}[ ](?:{_ADJ}[ ]){{0,3}}(?:heavy[ ])?(?P<n>\d{{1,2}})[ ]?-?(?P<rm>rm|rep[ -]?max)\b{_DAY}?", _find),
    _rule("find", rf"{_BUILD}[ ](?:{_ADJ}[ ]){{1,3}}(?:(?P<w>single|double|triple)s?|sets?[ ]of[ ](?P<n>\d{{1,2}}))(?P<rm>)(?:[ ]of[ ](?:the[ ])?day|[ ]for[ ]the[ ]day|[ ]for[ ]today)?(?![ ]?(?:x|kg|lb|%))", _find),
    _rule("find", rf"(?:{_TEST})[ ](?:for[ ])?(?:{_ADJ}[ ]){{0,3}}(?P<n>\d{{1,2}})[ ]?-?[ ]?(?P<rm>rm|rep[ -]?max|reps?[ ]max)\b(?:[ ]test)?{_DAY}?", _find),
    _rule("find", rf"(?P<n>\d{{1,2}})[ ]?-?[ ]?(?P<rm>rm|rep[ -]?max){_DAY}", _find),
    _rule("find", r"(?P<n>\d{1,2})[ ]?-?[ ]?(?P<rm>rm|rep[ -]?max)[ ]?(?:test|attempts?|day)\b", _find),
    _rule("find", r"(?:new[ ]|daily[ ])?(?P<max>max)[ ](?P<w>single|double|triple)\b", _find),
    _rule("find", r"(?:find|test|establish|hit|build[ ]up[ ]to|build[ ]to|work[ ]up[ ]to|go[ ]for)[ ](?:(?:a|your|the|new|today'?s|daily)[ ]){0,3}(?P<max>max|1[ ]rep[ ]max|one[ ]rep[ ]max|pr)\b(?![ ](?:reps|cal(?:s|orie\w*)?\b|distance))(?:[ ](?:(?:of|for)[ ](?:the[ ]|this[ ])?(?:day|today)|today))?", _find),
    _rule("find", r"(?:heavy|hvy)[ ](?P<w>single|double|triple)s?\b", _find),
    _rule("find", r"(?P<w>single|double|triple)[ ]heavy\b", _find),
    _rule("find", rf"(?:{_BUILD}[ ])?(?:{_ADJ}[ ]){{0,3}}(?:(?P<w>single|double|triple)|max(?:imum)?){_DAY}", lambda found: (NUMBERED.get(found["w"] or "", 1), True)),
    _rule("find", rf"{_BUILD}[ ](?:{_ADJ}[ ]){{0,2}}(?:heavy|heaviest)(?:[ ](?:set|complex|one|weight|load|bar))?(?:{_DAY}|(?=[ ]?(?:$|[.,;)(!-]|then\b|and\b|in[ ]\d)))", lambda found: (0, True)),
    _rule("rm", r"(?P<n>\d{1,2})[ ]?-?[ ]?(?:rm\b|rep[ ]max\b)", lambda found: int(found["n"])),
    _rule("find", rf"{_BUILD}[ ](?:a[ ]|your[ ]|one[ ])?(?:good|solid|tough|hard|strong|challenging|real|clean)[ ](?:set[ ]of[ ])?(?P<n>[1-9]|10)\b(?:[ ]reps?)?{_DAY}?(?=[ ]?(?:$|[.,;)(!]|then\b|and\b|in[ ]\d))", lambda found: (int(found["n"]), True)),
    _rule("find", r"(?:1|one|a)[ ](?:really[ ]|good[ ])?heavy[ ]set[ ]of[ ](?P<n>\d{1,2})\b(?![ ]?(?:@|at[ ]\d|%|kg|lb))", lambda found: (int(found["n"]), True)),
    # a single with a load of its own, on the way up to it: a meet's opener, "work up to a single at 90 %"
    _rule("sets", rf"(?:{_BUILD}[ ])?(?:(?:your|the|an?|planned)[ ]){{0,2}}(?:opener(?![ ]?(?:is|are|was|today|weight))(?:[ ](?:single|attempt))?|opening[ ](?:single|attempt|weight|lift))\b", lambda found: (1, 1)),
    _rule("sets", rf"{_BUILD}[ ](?:{_ADJ}[ ]){{0,2}}(?:1[ ])?(?P<w>single|double|triple)(?=[ ]?[(,]?[ ]?(?:@|at|around|about|~)?[ ]?(?:about[ ]|around[ ]|~)?\d{{2,3}}(?:[.]\d)?(?:-\d{{2,3}})?[ ]?(?:%|kg|lb))", lambda found: (1, NUMBERED[found["w"]])),
    # repetitions without a number
    _rule("max", r"as[ ]many[ ](?:good[ ]|clean[ ]|unbroken[ ])?(?:reps?[ ])?as[ ](?:possible|you[ ]can|u[ ]can)(?=[ ]\d+[ ]?min)"),
    _rule("max", r"(?<!\bnot[ ])(?<!\bno[ ])(?:as[ ]many[ ](?:good[ ]|clean[ ]|unbroken[ ])?(?:reps?[ ])?as[ ](?:possible|you[ ](?:can|like)|nice|u[ ]can)|as[ ]many[ ]reps?[ ]as[ ]you[ ]can|max(?:imum|\.)?[ ](?:unbroken[ ])?(?:effort[ ])?reps?|amreps?|to[ ]failure|failure|rep[ -]?out|max[ ]effort|max[ ]ub|(?:one|1)[ ](?:go[ ])?max\b|max(?:imum)?)\b\.?(?![ ]?=[ ]?\d|[ ](?:hang|height|heart|distance|met(?:re|er)s?\b|\d+[ ]?(?:min|tries|attempts)))"),
    _rule("rounds", r"(?P<n>\d{1,2})[ ](?:super|giant|tri)?[ -]?sets?[ ]of[ ]?:?[ ]?$", lambda found: int(found["n"])),
    # sets and repetitions: so many sets, a sign or "sets of", and what one set is
    _rule("setsx", rf"{_SETS_WORD}(?P<r>\(?[ ]?\d+[ ]?(?:\+[ ]?\d+[ ]?)+\)?)(?!\d|\.\d|[ ]?(?:kg|lb|/[ ]?\d))", lambda found: (int(found["s"]), ints(found["r"]), "complex")),
    _rule("setsx", rf"{_SETS_X}(?P<r>1(?:\.1){{1,5}})(?![\d.])", lambda found: (int(found["s"]), [found["r"].count("1")], "plain")),
    _rule("setsx", r"(?P<s>\d{1,2})[ ]?[x*][ ]?(?P<r>\d+)[ ]?[x*][ ]?(?P<t>\d+(?:\.\d+)?)(?![\d.]|[ ]?(?:sets?|m\b|cal(?:s|orie\w*)?\b|sec|s\b|min))(?P<u>[ ]?(?:kg\b|lb\b|\#))?(?P<pc>[ ]?%)?", lambda found: (int(found["s"]), [int(found["r"])], "load", Decimal(found["t"]), (found["u"] or "").strip(), bool(found["pc"]))),
    _rule("setsx", rf"{_SETS}(?P<r>\d{{1,3}}(?:(?:-\d{{1,3}}){{2,9}}|(?:[ ]-[ ]\d{{1,3}}){{2,9}}|(?:[ ]?/[ ]?\d{{1,3}}){{2,9}}|(?:,[ ]?\d{{1,3}}){{2,9}})\+?){_NO_AMOUNT}{_NO_EFFORT}", lambda found: (int(found["s"]), ints(found["r"]), "list")),
    _rule("setsx", rf"{_SETS_OF}(?P<r>\d{{1,3}})[ ]?(?:-|to|bis|a)[ ]?(?P<h>\d{{1,3}}){_NO_AMOUNT}(?!-\d){_NO_EFFORT}(?:[ ]?reps?\b(?![ ](?:in|left|short|shy)\b))?", _ranged),
    _rule("setsx", rf"{_SETS}(?P<r>\d{{1,3}})[ ]?/[ ]?(?P<h>\d{{1,3}})(?![ ]?/|[ ]?[x*][ ]?\d){_NO_AMOUNT}{_NO_EFFORT}", lambda found: NOT if found["h"] == "10" and int(found["r"]) < 10 and "x" not in found[0] else (int(found["s"]), [int(found["r"]), int(found["h"])], "pair")),
    _rule("setsx", rf"{_SETS_OF}(?:amrap|amreps?|max(?:imum|i)?(?:[ ]?(?:reps?|effort|unbroken))?|failure|me|as[ ]many[ ](?:reps[ ])?as[ ](?:possible|you[ ]can|nice)|to[ ]failure|submax|all[ ]out)\b", lambda found: (int(found["s"]), [], "max")),
    _rule("setsx", r"(?P<s>\d{1,2})[ ]max(?:imum)?[ ](?:effort[ ]|rep[ ])?sets?\b", lambda found: (int(found["s"]), [], "max")),
    _rule("setsx", rf"{_SETS_ONLY}(?P<r>\d{{1,3}})(?P<p>\+)?{_NO_AMOUNT}{_NO_EFFORT}(?![ ]?reps?[ ](?:in|left|short|shy)\b)(?:[ ]?reps?\b)?", _plain),
    _rule("setsx", r"sets?[ ]?[:=][ ]?(?P<s>\d{1,2})[ ]?[,;/|-]?[ ]?reps?[ ]?[:=][ ]?(?P<r>\d{1,3})(?:(?:-|[ ]to[ ])(?P<h>\d{1,3}))?(?![\d%])", lambda found: (int(found["s"]), [int(found["r"]), int(found["h"])], "range") if found["h"] else (int(found["s"]), [int(found["r"])], "plain")),
    _rule("setsx", r"reps?[ ]?[:=][ ]?(?P<r>\d{1,3})[ ]?[,;/|-]?[ ]?sets?[ ]?[:=][ ]?(?P<s>\d{1,2})(?![\d%])", lambda found: (int(found["s"]), [int(found["r"])], "plain")),
    _rule("setsx", r"(?P<r>\d{1,3})[ ]?reps?[ ]?(?:x|for|[*]|,|/|in)[ ]?(?P<s>\d{1,2})[ ]?(?:sets?|rounds?)\b", lambda found: (int(found["s"]), [int(found["r"])], "plain")),
    _rule("setsx", rf"{_SETS_X}(?P<r>\d{{1,3}})(?P<p>[ ]?\+(?![ ]?\d|[ ]?[a-z]))?{_NO_AMOUNT}(?:[ ]?reps?\b)?", lambda found: (int(found["s"]), [int(found["r"])], "plus" if found["p"] else "plain")),
    _rule("sets", r"(?P<n>1?\d|20)[ ](?:heavy[ ]|good[ ]|clean[ ]|light[ ]|more[ ]|back[ -]?off[ ]|drop[ ]|down[ ]|hard[ ]|easy[ ]|solid[ ]|working[ ]|work[ ]|top[ ]|tough[ ]|strict[ ]|speed[ ]|fast[ ]|smooth[ ])?(?P<w>singles|doubles|triples)\b(?![ ]?under)", lambda found: (int(found["n"]), NUMBERED[found["w"][:-1]])),
    _rule("setsx", r"(?:work|build|climb|ramp|go)(?:ing)?(?:[ ]your[ ]way)?[ ]up[ ](?:in|with|by|through|doing)[ ](?:(?:sets[ ]of[ ])?(?P<r>[1-5])'?s?|(?P<w>single|double|triple)s)(?:[ ]reps?)?(?=[ ](?:to|until|up|towards)\b)", lambda found: (1, [int(found["r"]) if found["r"] else NUMBERED[found["w"]]], "plain")),
    _rule("setcount", r"(?<!max[ ])(?<!maximum[ ])(?<!to[ ])(?P<s>[2-5])[ ](?:tries|attempts|goes)\b(?![ ]at\b)", lambda found: int(found["s"])),
    _rule("setsxt", r"(?P<s>\d{1,2})[ ]sets?[ ](?:of[ ])?(?P<t>\d{1,3}[ ]?(?:s|secs?|seconds?|''|\"))(?![a-z0-9]|[ ]?(?:rest|off|pause|between|break|down|up|hold[ ]at))", lambda found: (int(found["s"]), seconds(found["t"]))),
    _rule("setcount", r"x[ ]?(?P<s>\d{1,2})[ ]sets?\b", lambda found: int(found["s"])),
    _rule("setcount", r"(?P<s>\d{1,2})[ ](?:more[ ]|working[ ]|work[ ]|total[ ]|all[ ]|heavy[ ]|light[ ]|last[ ]|final[ ]|back[ -]?off[ ]|drop[ ]|down[ ]|backup[ ]|hard[ ]|easy[ ]|slow[ ])?sets?\b", lambda found: int(found["s"])),
    _rule("setlabel", rf"(?:sets?|series?|s[äa]tze?)[ ]?\#?(?P<l>{_LABELS})[ ]?(?:[:.)=](?!\d)|-(?=[ ])|(?=@|at[ ]\d|\d[\d.]*[ ]?%|[ ]?[,;()]|[ ]*$))|\#(?P<m>{_LABELS})[ ]?[:.)]|(?:(?<=[,;:/>&.-][ ])|(?<=[a-z][ ]))(?P<n>\d{{1,2}}(?:-\d{{1,2}})?)\)(?=[ ]\d{{1,2}}[ ](?:reps?[ ])?(?:@|at[ ]))", _labels),
    _rule("loadpairx", r"(?P<a>\d{2,3}(?:\.5)?)[ ]?/[ ]?(?P<b>\d{2,3}(?:\.5)?)[ ]?(?P<u>kg\b|lb\b|\#)?[ ]?[x*][ ]?(?P<r>\d{1,2})(?:[ ]?reps?\b)?(?:[ ]?[x*][ ]?(?P<s>\d{1,2}))?(?![\d.]|[ ]?(?:kg|lb|m\b|cal|%))", lambda found: (Decimal(found["a"]), Decimal(found["b"]), (found["u"] or "").strip(), int(found["r"]), int(found["s"] or 1)) if Decimal(found["a"]) > Decimal(found["b"]) >= 30 else NOT),
    _rule("loadx", r"(?P<l>\d+(?:\.\d+)?)[ ]?(?P<u>kg|lb|\#)[ ]?[x*][ ]?(?P<r>\d{1,2})(?P<p>\+)?(?:[ ]?reps?\b)?(?:[ ]?[x*][ ]?(?P<s>\d{1,2}))?(?!\d|\.\d)(?:[ ]?sets?\b|(?<=[x*]\d)[ ](?:singles|doubles|triples)\b(?![ ]?under))?", lambda found: (Decimal(found["l"]), found["u"], int(found["r"]), bool(found["p"]), int(found["s"] or 1))),
    _rule("loadx", r"(?P<l>[4-9]\d(?:\.5)?|[1-3]\d\d(?:\.5)?)[ ](?P<u>)for[ ](?:a[ ]|1[ ](?=single))?(?P<r>[1-9]|10|one|single|double|triple)\b(?P<p>)(?P<s>)(?![ ]?(?:-|[.:]\d|rounds?|rds|min|sec|m\b|cal|sets?|x|time|minutes))", lambda found: (Decimal(found["l"]), "", [NUMBERED.get(found["r"]) or (1 if found["r"] == "one" else int(found["r"]))], False, 1)),
    _rule("loadx", r"(?P<l>[4-9]\d(?:\.5)?|[1-3]\d\d(?:\.5)?)[ ]?(?P<u>kg|lb)?[ ]for[ ](?P<s>\d{1,2})[ ]sets?[ ]of[ ](?P<r>\d{1,2})\b(?![ ]?(?:-|sec|min|m\b))", lambda found: (Decimal(found["l"]), found["u"] or "", [int(found["r"])], False, int(found["s"]))),
    _rule("loadx", r"(?P<l>\d{2,3}(?:\.\d+)?)[ ]?[x*][ ]?(?P<r>\d{1,2}(?:(?:[ ]|/|,)\d{1,2}(?!\d|[ ]?x|[ ]?%|[ ]?(?:kg|lb))){0,4})(?P<p>\+)?(?:[ ]?x[ ]?(?P<s>\d{1,2}))?(?!\d|\.\d)(?![ ]?(?:kg|lb|m\b|cal(?:s|orie\w*)?\b|sec|s\b|%|'|min))(?P<u>)", lambda found: (Decimal(found["l"]), "", ints(found["r"]), bool(found["p"]), int(found["s"] or 1))),
    _rule("loadx", r"(?P<l>[4-9]\d(?:\.5)?|[1-9]\d\d(?:\.5)?)[ ]?[x*][ ]?(?P<r>\d{1,2})[ ]?(?P<u>kg|lb)\b(?![ ]?(?:kb|db|kettle|dumb|ball|bell|plate|vest))", _unit_last),
    _rule("setsxm", r"(?P<s>\d{1,2})[ ]?(?:sets?[ ]?)?(?:x|[*]|of)[ ]?(?P<n>\d+(?:\.\d+)?)[ ]?-?(?P<u>km|k|m|metres?|meters?|cal(?:orie)?s?|ft|feet|yards?|yd|miles?|mi)\b(?![ ]?(?:box|high|hurdle))", lambda found: (int(found["s"]), *distance(found["n"], found["u"]))),
    _rule("setsxt", rf"(?P<s>\d{{1,2}})[ ]?(?:sets?[ ]?)?(?:x|[*]|of|times|mal|fois|por|veces)[ ]?(?P<t>{_D})(?:[ ]?(?:-|to)[ ]?{_D})?", lambda found: (int(found["s"]), seconds(found["t"]))),
    _rule("setsxt", r"(?P<s>\d{1,2})[ ]?(?:sets?[ ]?)?(?:x|[*])[ ]?(?P<a>\d+)[ ]?-[ ]?\d+[ ]?(?P<u>s|sec|seconds|min)\b", lambda found: (int(found["s"]), seconds(f"{found['a']} {found['u']}"))),
)  # fmt: skip
